//! Jambs, pockets, boards and cuts: what a card says of them, by hand.

use joistwise_core::card::{By, Card, card, card_by};
use joistwise_core::draft::{Draft, corners, draft};
use joistwise_core::ids::ElementId;
use joistwise_core::loads::{Combination, Soil};
use joistwise_core::plan::{
    BoardKind, Cut, Joints, JoistEdge, LevelKind, Make, Material, Member, NotchAt, Plan, Region, RoofFrame, Use, Way,
};
use joistwise_core::tape::Tape;
use joistwise_core::trace::{Caution, CutLimit, Node, Problem, trace};
use joistwise_core::units::{Inches, Psf, Ticks};
use joistwise_tests::wall;

/// A figure of a card by its label.
#[track_caller]
fn figure(card: &Card, label: &str) -> String {
    let figure = card.figures.iter().find(|it| it.label == label);
    let figure = figure.unwrap_or_else(|| panic!("no {label} in {:?}", card.figures));
    format!("{}; {}", figure.value, figure.how)
}

#[track_caller]
fn card_of(plan: &Plan, part: ElementId) -> Card {
    card(plan, &trace(plan), part).expect("a card")
}

/// Floor joists of 12 ft lap on a wall, a passage of 6 ft in it.
fn passage() -> Draft {
    draft().outside(36, 24).inside("A", (0, 12), (36, 12)).door(10, 6).joists(Way::Y, Joints::Lap)
}

/// By hand: 6 + 6 ft of floor at 10 + 40 psf is 600 plf on the wall, which weighs 8 ft x 6 psf = 48 plf; 6 ft of that is
/// 3,888 lb, 1,944 lb to a jamb: dead 360 + 144, live 1,440.
#[test]
fn half_of_what_stands_over_a_passage_of_6_ft_comes_down_at_each_jamb_in_lb() {
    let plan = passage().done();
    let trace = trace(&plan);
    let [opening] = trace.openings.as_slice() else { panic!("{:?}", trace.openings) };
    for jamb in [opening.first, opening.second] {
        assert!((jamb.dead.0 - 504.0).abs() < 1e-6 && (jamb.floor.0 - 1440.0).abs() < 1e-6, "{jamb:?}");
    }
}

/// By hand: 1,944 lb on a header 3 in wide of 425 psi wants 1.525 in: two jacks of 1 1/2 in.
#[test]
fn a_jamb_under_1944_lb_wants_two_jacks_and_one_that_has_one_is_named() {
    let studs = |jacks| {
        passage().with(|level| {
            if let Some(opening) = level.openings.last_mut() {
                (opening.first.jacks, opening.second.jacks) = (jacks, Some(2));
            }
        })
    };
    let of = |jacks: Option<u8>| {
        let plan = studs(jacks).done();
        let opening = plan.levels()[0].openings[0].id;
        card_of(&plan, ElementId::Opening(opening))
    };
    let card = of(Some(1));
    assert!(figure(&card, "Jacks at its first jamb").starts_with("2 wanted, 1 counted; bearing asks for 1.52 in"));
    assert!(figure(&card, "At its second jamb").starts_with("1,944 lb; dead 504 + floor live 1,440 lb"));
    assert_eq!(card.watch, ["Its first jamb has 1 jack where 2 are asked for: have it looked at."]);
    assert!(of(Some(2)).watch.is_empty() && of(None).watch.is_empty());
    assert!(figure(&of(None), "Jacks at its first jamb").starts_with("2 wanted, not counted"));
}

/// The table of IRC R602.7.5 (MEMORY) is for outside walls: 6 ft wants three kings a side, an inside wall is not asked.
#[test]
fn an_outside_wall_is_asked_for_its_kings_and_an_inside_wall_is_not() {
    let plan = draft().outside(36, 24).door(4, 6).joists(Way::X, Joints::RunThrough);
    let plan = plan.with(|level| level.openings.iter_mut().for_each(|it| it.second.kings = Some(1))).done();
    let card = card_of(&plan, ElementId::Opening(plan.levels()[0].openings[0].id));
    assert!(figure(&card, "Kings at its second jamb").starts_with("3 wanted, 1 counted"));
    assert!(
        card.watch.iter().any(|it| it.contains("second jamb has 1 king where 3 are asked for")),
        "{:?}",
        card.watch
    );
    let inside = passage().done();
    let card = card_of(&inside, ElementId::Opening(inside.levels()[0].openings[0].id));
    assert!(card.figures.iter().all(|it| !it.label.starts_with("Kings")));
}

/// A basement of concrete, a beam along its middle with both ends in its walls and one post half way.
fn basement(member: Member) -> Plan {
    let house = draft().kind(LevelKind::Basement).outside(24, 24).beam("Girder", (0, 12), (24, 12), Joints::Lap);
    let house = house.post("Post", (12, 12)).pad((12, 12), 2).joists(Way::Y, Joints::Lap);
    house.with(|level| level.beams.iter_mut().for_each(|it| it.member = member)).up().outside(24, 24).done()
}

/// By hand: 12 ft of floor at 10 + 40 psf on the girder, 600 plf, but for half a bay, 8 in, that the edge joist takes to the
/// wall: 600 x 11.333^2 / 2 / 12 = 3,211 lb into each pocket. On 3-2x10, 4 1/2 in, at 425 psi that wants 3211 / 1912.5 = 1.68
/// in, under the 3 in of the code.
#[test]
fn a_girder_in_pockets_of_concrete_wants_3_in_and_is_not_crushed_by_3211_lb_on_1_68_in() {
    let plan = basement(Member::plies(3, 2, 10));
    let trace = trace(&plan);
    let beam = plan.levels()[0].beams[0].id;
    let pockets: Vec<f64> = trace
        .walls
        .iter()
        .flat_map(|wall| &wall.cautions)
        .filter_map(|it| match it {
            Caution::BeamPocket { beam: of, at } if *of == beam => Some(at.0),
            _ => None,
        })
        .collect();
    assert_eq!(pockets.len(), 2, "{pockets:?}");
    assert!(pockets.iter().all(|at_ft| (at_ft - 12.0).abs() < 1e-6));
    let pockets = |plan: &Plan, beam| {
        let watch = card_of(plan, ElementId::Beam(beam)).watch;
        watch.into_iter().filter(|line| line.contains("of bearing at the least")).collect::<Vec<_>>()
    };
    let watch = pockets(&plan, beam);
    assert_eq!(watch.len(), 2, "{watch:?}");
    for line in &watch {
        assert!(
            line.contains("concrete: 3 in of bearing") && line.contains("3,211 lb crush no wood on 1.68 in"),
            "{line}"
        );
        assert!(line.contains("1/2 in of air"), "{line}");
    }
    let steel = basement(Member::deep(Material::Steel, 1, Ticks::from_sixteenths(8 * 16)));
    let watch = pockets(&steel, steel.levels()[0].beams[0].id);
    assert!(
        !watch.is_empty() && watch.iter().all(|line| line.contains("3 in of bearing") && !line.contains("air")),
        "{watch:?}"
    );
}

#[test]
fn a_girder_that_ends_on_studs_or_passes_over_a_wall_has_no_pocket() {
    let house = draft().outside(24, 24).beam("Girder", (0, 12), (24, 12), Joints::Lap).post("Post", (12, 12));
    let plan = house.joists(Way::Y, Joints::Lap).up().outside(24, 24).done();
    let card = card_of(&plan, ElementId::Beam(plan.levels()[0].beams[0].id));
    assert!(card.watch.iter().all(|line| !line.contains("of bearing at the least")), "{:?}", card.watch);
    let passes = draft().outside(24, 24).inside("M", (12, 8), (12, 16)).wall(|wall| wall.make = Make::Masonry);
    let plan = passes.beam("Girder", (0, 12), (24, 12), Joints::RunThrough).joists(Way::Y, Joints::Lap).done();
    assert!(wall(&plan, &trace(&plan), "M").cautions.iter().all(|it| !matches!(it, Caution::BeamPocket { .. })));
}

/// A house of one storey over a crawl space of this height in inches, the middle of its floor on studs.
fn on_cripple_wall(height_in: i32) -> Plan {
    let crawl = draft().kind(LevelKind::CrawlSpace).with(|level| level.height = Ticks::from_sixteenths(16 * height_in));
    let crawl = crawl.outside(36, 24).inside("Cripple", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    let storey = crawl.up().outside(36, 24).inside("Above", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    storey.used_as(Use::AtticStorage).done()
}

/// By hand: 12 ft of floor at 50 psf, 600 plf; the wall over it with 12 ft of attic at 30 psf, 360 plf, and its own 8 ft at 6
/// psf, 48 plf: 1,008 plf. With its own 3 ft at 6 psf 1,026 plf arrive at the ground, but at both its ends, where the half bay
/// of 8 in of both decks goes to the walls there: 36 x 1,026 - 2 x 2/3 x 960 lb.
#[test]
fn a_cripple_wall_hands_down_1026_plf_as_any_wall_does() {
    let plan = on_cripple_wall(36);
    let trace = trace(&plan);
    let cripple = wall(&plan, &trace, "Cripple");
    let mid = cripple.line.iter().find(|it| it.start.0 <= 18.0 && it.end.0 > 18.0).expect("loaded");
    assert!((mid.loads.all().0 - 1008.0).abs() < 1e-6, "{} plf", mid.loads.all().0);
    let id = plan.wall_named("Cripple").expect("drawn").id;
    let landing = trace.landings.iter().find(|it| it.from == Node::Wall(id)).expect("it lands");
    assert!(
        (landing.weights.all().0 - (36.0 * 1026.0 - 2.0 / 1.5 * 960.0)).abs() < 1e-4,
        "{} lb",
        landing.weights.all().0
    );
    assert!(trace.ledger.worst_share_off() < 1e-9);
}

/// IRC R602.9 (MEMORY): under 14 in of stud, over 4 ft, between. Three plates take 4 1/2 in.
#[test]
fn what_is_said_of_a_cripple_wall_goes_by_its_height_in_inches() {
    for (height_in, said) in [(18, "under 14 in"), (19, "no smaller"), (48, "no smaller"), (49, "one storey more")] {
        let plan = on_cripple_wall(height_in);
        let card = card_of(&plan, ElementId::Wall(plan.wall_named("Cripple").expect("drawn").id));
        let lines: Vec<&String> = card.watch.iter().filter(|it| it.starts_with("A cripple wall")).collect();
        assert!(matches!(lines.as_slice(), [line] if line.contains(said)), "{height_in} in: {lines:?}");
    }
    let concrete = on_cripple_wall(36);
    let outside = card_of(&concrete, ElementId::Wall(concrete.levels()[0].walls[0].id));
    assert!(outside.watch.iter().all(|it| !it.starts_with("A cripple wall")));
}

/// IRC Table R401.4.1: sand 2,000 psf, no figure for mud; a typed value counts before either.
#[test]
fn soil_named_by_its_class_bears_what_the_table_says_in_psf_and_a_typed_value_counts_before_it() {
    let on = |class: Option<Soil>, typed: Option<f64>| {
        let house = draft().site(|site| (site.soil_class, site.soil) = (class, typed.map(Psf)));
        let plan = house.outside(24, 24).post("Post", (12, 12)).pad((12, 12), 2).joists(Way::Y, Joints::Lap).done();
        let card = card_of(&plan, ElementId::Footing(plan.levels()[0].footings[0].id));
        (plan, figure(&card, "Soil is taken to bear"))
    };
    assert!(on(None, None).1.starts_with("1,500 psf; IRC Table R401.4.1"));
    assert!(
        on(Some(Soil::Sand), None).1.starts_with("2,000 psf; sand, silty or clayey"),
        "{}",
        on(Some(Soil::Sand), None).1
    );
    assert_eq!(on(Some(Soil::Sand), Some(2500.0)).1, "2,500 psf; typed for this house");
    let no_figure = |plan: &Plan| trace(plan).findings.iter().any(|it| it.problem == Problem::SoilHasNoFigure);
    let (mud, said) = on(Some(Soil::Organic), None);
    assert!(no_figure(&mud) && said.contains("no figure"), "{said}");
    assert!(!no_figure(&on(Some(Soil::Organic), Some(800.0)).0) && !no_figure(&on(Some(Soil::Clay), None).0));
}

/// The passage again: dead 504, live 1,440 lb at a jamb.
#[test]
fn figures_of_a_card_follow_the_combination_that_is_chosen_in_lb() {
    let plan = passage().done();
    let (trace, part) = (trace(&plan), ElementId::Opening(plan.levels()[0].openings[0].id));
    let at = |by| figure(&card_by(&plan, &trace, part, None, Tape::Feet, by).expect("a card"), "At its first jamb");
    assert_eq!(at(By::Heaviest), "1,944 lb; dead 504 + floor live 1,440 lb; heaviest: D + L");
    assert_eq!(at(By::Apart), "dead 504 + floor live 1,440 lb; each kind apart: no combination of them");
    assert_eq!(at(By::One(Combination::Dead)), "504 lb; dead 504 + floor live 1,440 lb; by D");
    assert_eq!(
        at(By::One(Combination::DeadLiveSnow)),
        "1,584 lb; dead 504 + floor live 1,440 lb; by D + 0.75 L + 0.75 S"
    );
}

/// By hand: at 6 in 12 R2 = 1.2 - 0.3 = 0.9, and no stud of an eave wall has an area that counts: 20 x 0.9 = 18 psf. At 4
/// in 12 nothing is taken off; a typed roof live load is not reduced.
#[test]
fn roof_live_load_on_an_eave_wall_is_reduced_for_its_slope_in_psf() {
    let house = draft().outside(24, 40).roof(Way::Y, 0).over(|roof| roof.frame = RoofFrame::RidgeBoard);
    let plan = house.clone().done();
    let card = card_of(&plan, ElementId::Wall(plan.levels()[0].walls[1].id));
    assert!(figure(&card, "Roof live load, reduced").starts_with("18 psf instead of 20 psf; 20 R1 R2"), "{card:?}");
    let typed = house.clone().site(|site| site.roof_live = Some(Psf(25.0))).done();
    let card = card_of(&typed, ElementId::Wall(typed.levels()[0].walls[1].id));
    assert!(card.figures.iter().all(|it| it.label != "Roof live load, reduced"));
    let flat = house.over(|roof| roof.rise = Ticks::from_sixteenths(4 * 16)).done();
    let card = card_of(&flat, ElementId::Wall(flat.levels()[0].walls[1].id));
    assert!(card.figures.iter().all(|it| it.label != "Roof live load, reduced"));
}

fn inches(inches: f64) -> Ticks {
    Ticks::from_inches(inches).expect("a length")
}

fn notch(deep: f64, long: f64, place: NotchAt) -> Cut {
    Cut::Notch { depth: inches(deep), length: inches(long), place, edge: JoistEdge::Top }
}

fn hole(wide: f64, to_edge: f64) -> Cut {
    Cut::Hole { diameter: inches(wide), to_edge: inches(to_edge) }
}

/// Joists of this size, 12 ft from wall to wall twice, with cuts at places in feet: what speaks against each.
fn limits(member: Member, cuts: &[((f64, f64), Cut)]) -> Vec<Vec<CutLimit>> {
    let house = draft().outside(36, 24).inside("A", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    let house = house.with(|level| level.fields.iter_mut().for_each(|it| it.member = member));
    let plan = cuts.iter().fold(house, |house, (at, cut)| house.cut(*at, *cut)).done();
    let trace = trace(&plan);
    let noted: Vec<_> = trace.cuts.iter().filter(|it| it.field.is_some()).collect();
    assert!(noted.iter().all(|cut| (cut.span.0 - 12.0).abs() < 1e-6), "{noted:?}");
    if let Some(field) = noted.first().and_then(|it| it.field) {
        // Joists that are over what they may carry are told besides.
        let watch = card_of(&plan, ElementId::Field(field)).watch;
        assert_eq!(watch.iter().filter(|line| !line.starts_with("As drawn")).count(), noted.len());
    }
    trace.cuts.into_iter().map(|it| it.limits).collect()
}

/// IRC R502.8.1 (SEEN as quoted) by hand for a 2x10, 9 1/4 in deep: a sixth 1.542, a third 3.083, a quarter 2.3125 in; the
/// middle third of 12 ft is from 4 to 8 ft.
#[test]
fn notches_and_holes_in_a_2x10_are_judged_by_its_depth_in_inches_and_by_the_thirds_of_its_span() {
    let depth = Inches(9.25);
    let found = limits(
        Member::sawn(2, 10),
        &[
            ((18.0, 3.0), notch(1.5, 3.0, NotchAt::Span)),
            ((20.0, 6.0), notch(1.5, 3.0, NotchAt::Span)),
            ((22.0, 21.0), notch(1.625, 3.125, NotchAt::Span)),
            ((24.0, 0.0), notch(2.25, 6.0, NotchAt::End)),
            ((26.0, 24.0), notch(2.375, 2.0, NotchAt::End)),
            ((28.0, 6.0), hole(3.0, 2.0)),
            ((30.0, 6.0), hole(3.125, 1.875)),
            ((18.0, 40.0), hole(1.0, 3.0)),
        ],
    );
    let expected = [
        vec![],
        vec![CutLimit::MiddleThird],
        vec![CutLimit::NotchTooDeep { most: depth / 6.0 }, CutLimit::NotchTooLong { most: depth / 3.0 }],
        vec![],
        vec![CutLimit::EndTooDeep { most: depth / 4.0 }],
        vec![],
        vec![CutLimit::HoleTooWide { most: depth / 3.0 }, CutLimit::NearEdge],
        vec![CutLimit::NoJoist],
    ];
    assert_eq!(found, expected);
}

/// Two holes 3 in wide, 4 in from middle to middle: 1 in of wood between them, where 2 in are asked for. 5 in leaves 2.
#[test]
fn holes_of_one_joist_keep_2_in_of_wood_between_them() {
    let pair = |apart_in: f64| {
        limits(Member::sawn(2, 10), &[((18.0, 3.0), hole(3.0, 2.0)), ((18.0, 3.0 + apart_in / 12.0), hole(3.0, 2.0))])
    };
    assert!(pair(4.0).iter().all(|it| matches!(it.as_slice(), [CutLimit::NearCut { .. }])), "{:?}", pair(4.0));
    assert!(pair(5.0).iter().all(Vec::is_empty), "{:?}", pair(5.0));
}

#[test]
fn a_cut_in_what_is_not_sawn_is_the_makers_to_allow_and_one_in_what_nobody_saw_is_not_judged() {
    let cut = [((18.0, 3.0), hole(1.0, 3.0))];
    let i_joist = Member::deep(Material::IJoist, 1, inches(9.5));
    assert_eq!(limits(i_joist, &cut), [[CutLimit::MakerOnly]]);
    assert_eq!(limits(Member::default(), &cut), [[CutLimit::SizeNotSeen]]);
    let bottom = Cut::Notch { depth: inches(1.0), length: inches(2.0), place: NotchAt::Span, edge: JoistEdge::Bottom };
    assert_eq!(limits(Member::sawn(4, 10), &[((18.0, 3.0), bottom)]), [[CutLimit::BottomOfThick]]);
    assert!(limits(Member::sawn(2, 10), &[((18.0, 3.0), bottom)]).iter().all(Vec::is_empty));
}

/// By hand: a deck 10 ft deep between the north wall and a beam, 36 ft long: the wall gets half the span, 5 x 36 = 180 sq ft
/// at 10 + 40 psf, 9,000 lb.
#[test]
fn a_deck_on_a_ledger_brings_half_of_its_span_9000_lb_to_the_wall_it_is_fixed_to() {
    let house = draft().outside(36, 24).beam("B", (0, 34), (36, 34), Joints::RunThrough);
    let house = [0, 12, 24, 36].iter().fold(house, |house, x| house.post("", (*x, 34)).pad((*x, 34), 2));
    let deck = house.joists_over(Region::Corners(corners((0, 24), (36, 34))), Way::Y, Joints::Lap).used_as(Use::Deck);
    let plan = deck.board(BoardKind::Ledger, (0, 24), (36, 24)).done();
    let trace = trace(&plan);
    let (north, board) = (&trace.walls[2], plan.levels()[0].boards[0].id);
    assert!((north.top.all().0 - 9000.0).abs() < 1e-6, "{} lb", north.top.all().0);
    let area: f64 = north.feeds.iter().map(|feed| feed.area().0).sum();
    assert!((area - 180.0).abs() < 1e-6, "{area} sq ft");
    assert!(north.cautions.contains(&Caution::HangsOnLedger { board }), "{:?}", north.cautions);
    assert!(
        trace
            .walls
            .iter()
            .filter(|it| it.wall != north.wall)
            .all(|it| !it.cautions.contains(&Caution::HangsOnLedger { board }))
    );
    let card = card_of(&plan, ElementId::Board(board));
    assert!(matches!(card.watch.as_slice(), [line] if line.contains("North outside wall")), "{:?}", card.watch);
    assert!(trace.ledger.worst_share_off() < 1e-9);
}

/// A bearing wall and a post upstairs over I-joists, with what is put into the deck.
fn over_i_joists(put: impl FnOnce(Draft) -> Draft) -> Plan {
    let deck = draft().outside(36, 24).inside("Below", (0, 12), (30, 12)).joists(Way::Y, Joints::Lap);
    let member = Member::deep(Material::IJoist, 1, inches(11.875));
    let deck = put(deck.with(|level| level.fields.iter_mut().for_each(|it| it.member = member)));
    let upper = deck.up().outside(36, 24).inside("Above", (0, 12), (30, 12)).beam("B", (30, 12), (36, 12), Joints::Lap);
    upper.post("P", (33, 12)).joists(Way::Y, Joints::Lap).done()
}

#[test]
fn what_stands_on_i_joists_wants_squash_blocks_until_blocking_is_noted_under_it() {
    let plan = over_i_joists(|deck| deck);
    let bare = trace(&plan);
    let field = plan.levels()[0].fields[0].id;
    let squash = Caution::SquashBlocks { field };
    assert!(wall(&plan, &bare, "Above").cautions.contains(&squash), "{:?}", wall(&plan, &bare, "Above").cautions);
    let blocks =
        |deck: Draft| deck.board(BoardKind::Blocking, (0, 12), (30, 12)).board(BoardKind::Blocking, (32, 12), (34, 12));
    let plan = over_i_joists(blocks);
    let blocked = trace(&plan);
    let [long, short] = plan.levels()[0].boards.as_slice() else { panic!("two rows") };
    let cautions = &wall(&plan, &blocked, "Above").cautions;
    assert!(cautions.contains(&Caution::OnBlocking { board: long.id }) && !cautions.contains(&squash), "{cautions:?}");
    let (before, after) = (&bare.posts[0].cautions, &blocked.posts[0].cautions);
    assert!(before.contains(&squash) && before.contains(&Caution::CheckCrushing), "{before:?}");
    assert!(
        after.contains(&Caution::OnBlocking { board: short.id }) && !after.contains(&Caution::CheckCrushing),
        "{after:?}"
    );
    // Blocking changes no load.
    assert_eq!((bare.ledger.applied, bare.ledger.soil), (blocked.ledger.applied, blocked.ledger.soil));
}

/// 4x4 spruce-pine-fir No. 2, 96 in: Cp = 0.376026 of 1322.5 psi on 12.25 sq in: 6,092 lb. A post whose size nobody saw has no such figure.
#[test]
fn the_card_of_a_post_says_what_its_size_may_carry_in_pounds() {
    let house = || {
        draft().outside(24, 24).beam("G", (0, 12), (24, 12), Joints::Lap).post("", (12, 12)).joists(Way::Y, Joints::Lap)
    };
    let with = |member: Member| house().with(|level| level.posts[0].member = member).done();
    let card_of_post = |plan: &Plan| card_of(plan, ElementId::Post(plan.levels()[0].posts[0].id));
    let carries = figure(&card_of_post(&with(Member::sawn(4, 4))), "May carry");
    assert!(carries.starts_with("6,092 lb; F'c A with Cp = 0.376, le / d = 27.4, 8' 0\" high"), "{carries}");
    let bare = card_of_post(&with(Member::default()));
    assert!(bare.figures.iter().all(|it| it.label != "May carry"));
    // A file that says nothing of it is read as not seen, and stays as it was.
    let plan = with(Member::default());
    assert_eq!(Plan::from_json(&plan.to_json()).unwrap(), plan);
    let sized = with(Member::plies(3, 2, 4));
    assert_eq!(Plan::from_json(&sized.to_json()).unwrap(), sized);
}
