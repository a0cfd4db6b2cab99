//! What stands is judged by its own wood; checks of cuts, of steel at its seats, of what a part may carry.

#![expect(clippy::indexing_slicing, reason = "a test that panics is a test that fails")]

use joistwise_core::card::card;
use joistwise_core::draft::draft;
use joistwise_core::ids::{ElementId, JoistCutId, ObservationId};
use joistwise_core::plan::{
    self, Cut, Joints, JoistCut, JoistEdge, NotchAt, Observation, Plan, PlanFile, Point, Region, Saw, Stock, Way,
};
use joistwise_core::stands::{Holds, all, sagged, stands};
use joistwise_core::strength::check::Rule;
use joistwise_core::strength::lumber::{Grade, Species};
use joistwise_core::take_out::{Family, NoFigure, Stretch, Study, take_out};
use joistwise_core::trace::trace;
use joistwise_core::units::{Feet, Inches, Psf, Ticks};

/// 20 x 24 ft, joists of 2x10 in one piece over a wall in the middle.
fn one_floor() -> Plan {
    draft().outside(20, 24).inside("C", (0, 12), (20, 12)).joists(Way::Y, Joints::RunThrough).done()
}

/// The house with nothing known of its wood.
fn unstamped(plan: &Plan) -> Plan {
    let mut file = PlanFile::from(plan);
    for level in &mut file.levels {
        level.fields.iter_mut().for_each(|it| it.wood = Default::default());
        level.beams.iter_mut().for_each(|it| it.wood = Default::default());
        level.posts.iter_mut().for_each(|it| it.wood = Default::default());
        level.roofs.iter_mut().for_each(|it| it.wood = Default::default());
    }
    Plan::try_from(file).expect("a sound plan")
}

fn stocks() -> impl Iterator<Item = Stock> {
    Species::ALL.into_iter().flat_map(|species| Grade::ALL.map(|grade| Stock { species, grade }))
}

fn study(plan: &Plan, lumber: Stock) -> Study {
    let wall = plan.wall_named("C").expect("a wall of that name").id;
    take_out(plan, &Stretch { lumber, ..Stretch::of(wall, Feet(4.0), Feet(14.0)) }).expect("a study")
}

/// What is said of what stands: each group that loses its seat, and what is below.
fn of_old(study: &Study) -> String {
    let lost = &study.loses.members;
    let lines = study.shoring.lines.iter().map(|it| it.joists);
    format!("{lost:?} {:?} {:?}", lines.collect::<Vec<_>>(), study.loses.figures)
}

/// It was 10.48 to 13.00 ft, by the choice of the new beam.
#[test]
fn the_longest_old_joist_that_would_pass_is_the_same_in_feet_for_every_stock_of_the_new_beam() {
    for plan in [one_floor(), unstamped(&one_floor())] {
        let first = study(&plan, Stock::default());
        for stock in stocks() {
            let other = study(&plan, stock);
            assert_eq!(of_old(&first), of_old(&other), "{stock:?}");
        }
        let names = |study: &Study| study.beams.choices.iter().map(|it| it.name.clone()).collect::<Vec<_>>();
        let best = Stock { species: Species::DouglasFirLarch, grade: Grade::SelectStructural };
        assert_ne!(names(&first), names(&study(&plan, best)), "the new beam has to go by it");
    }
}

/// 2x10 at 16 in under 40 + 10 psf: w = 66.667 plf. Without a stamp Fb' = 800 x 1.15 = 920 psi: sqrt(8 x 920 x 21.391 / 12 /
/// 66.667) = 14.03 ft; E 1.3e6: L^3 = 384 x 1.3e6 x 98.93 / (5 x 360 x 53.333 / 12) in: 6,173,232, L = 183.4 in = 15.29 ft; under
/// dead load alone 13.333 plf it reaches further. Of spruce-pine-fir No. 2: 875 x 1.1 x 1.15 = 1106.9 psi: 15.39 ft;
/// 1.4e6: 188.0 in = 15.67 ft.
#[test]
fn an_old_2x10_without_a_stamp_reaches_14_03_ft_and_a_stamped_one_15_39() {
    let longest = |plan: &Plan| study(plan, Stock::default()).loses.members[0].longest.unwrap().0;
    let (stamped, none) = (longest(&one_floor()), longest(&unstamped(&one_floor())));
    assert!((none - 14.03).abs() < 0.01, "{none} ft");
    assert!((stamped - 15.39).abs() < 0.01, "{stamped} ft");
}

/// The joist at 8 ft with a notch of 2 3/4 in in its lower edge, 4 in long, under the wall; without it 24 ft under 66.667 plf: M =
/// 4800 lb-ft, and of 9.25 in 6.5 are left: S = 1.5 x 6.5^2 / 6 = 10.5625 in^3 of 21.39; F'b = 875 x 1.1 x 1.15 = 1106.875 psi:
/// 57,600 / 10.5625 / 1106.875 = 4.9268, uncut 2.4328.
#[test]
fn a_notch_in_the_joist_that_spans_on_counts_by_its_net_section_493_percent_for_243() {
    let uncut = study(&one_floor(), Stock::default());
    let most = |study: &Study| {
        study.loses.members.iter().filter_map(|it| it.after).map(|it| it.bending.ratio).fold(0.0, f64::max)
    };
    assert!((most(&uncut) - 2.4328).abs() < 1e-3, "{}", most(&uncut));
    let cut = notched(&one_floor(), (8.0, 12.0));
    let study = study(&cut, Stock::default());
    let worst = study.loses.members.iter().filter_map(|it| it.after).find(|it| it.bending.rule == Rule::NetBending);
    let worst = worst.expect("the notch governs");
    assert!((worst.bending.ratio - 4.9268).abs() < 1e-3, "{}", worst.bending.ratio);
}

/// On props 2 ft off, both sides, the same notch is over the gap between them: the line of the joists on props knows it too.
#[test]
fn a_notch_counts_in_the_joists_on_props() {
    let worst = |plan: &Plan| {
        let study = study(plan, Stock::default());
        study.shoring.lines.iter().map(|it| it.worst_ratio()).fold(0.0, f64::max)
    };
    let cut = notched(&one_floor(), (8.0, 14.0));
    assert!(worst(&cut) > worst(&one_floor()) * 1.2, "{} of {}", worst(&cut), worst(&one_floor()));
    let told = study(&cut, Stock::default()).shoring.lines.iter().any(|it| it.weakened.is_some());
    assert!(told);
}

/// A notch of 2 3/4 in in the lower edge of the joist at a place in feet.
fn notched(plan: &Plan, (x, y): (f64, f64)) -> Plan {
    let inches = |it: f64| Ticks::from_inches(it).expect("a length");
    let mut file = PlanFile::from(plan);
    let cut = Cut::Notch { depth: inches(2.75), length: inches(4.0), place: NotchAt::Span, edge: JoistEdge::Bottom };
    let at = Point::new(inches(x * 12.0), inches(y * 12.0));
    let id = JoistCutId::from_number(900);
    file.levels[0].cuts.push(JoistCut { id, at, cut, known: plan::Grade::Seen });
    Plan::try_from(file).expect("a sound plan")
}

/// Joists that meet over a beam 3-2x10 of 20 ft: 12 ft x 50 psf = 600 plf. M = 600 x 400 / 8 = 30,000 lb-ft, fb = 5,610 psi of 875 x
/// 1.1 = 962.5: 5.83. Live 480 plf: 5 x 40 x 240^4 / (384 x 1.4e6 x 296.8) = 4.159 in of 240 / 360: 6.24, which governs. Total 5.198
/// in; the dead load's 1.040 once more by half: 5.718 in.
#[test]
fn a_beam_of_20_ft_is_said_to_be_used_to_624_percent_and_to_endanger() {
    let plan = draft().outside(20, 24).beam("B", (0, 12), (20, 12), Joints::Lap).joists(Way::Y, Joints::Lap).done();
    let beam = ElementId::Beam(plan.levels()[0].beams[0].id);
    let found = stands(&plan, beam).unwrap();
    let Holds::Bends(checked) = found.holds else { panic!("{found:?}") };
    let near = |got: f64, by_hand: f64| assert!((got / by_hand - 1.0).abs() < 0.01, "{got} is not {by_hand}");
    near(checked.bending.ratio, 5.829);
    near(found.used().unwrap(), 6.238);
    near(checked.crept.0, 5.718);
    assert!(found.overloaded() && found.endangers());
    let card = card(&plan, &trace(&plan), beam).unwrap();
    assert!(
        card.watch[0].contains("overloaded") && card.figures.iter().any(|it| it.label == "Used of what it may carry")
    );
    // The same beam of a size that nobody saw says why there is no figure, and nothing else calls it fine.
    let mut file = PlanFile::from(&plan);
    file.levels[0].beams[0].member = Default::default();
    let unseen = Plan::try_from(file).unwrap();
    assert_eq!(stands(&unseen, beam).unwrap().holds, Holds::NoFigure(NoFigure::SizeNotSeen));
}

/// The same joists on two beams' lengths of 10 ft over a post: 600 plf x 10 ft = 6,000 lb on a pad of 2 ft: 1,500 psf.
#[test]
fn a_pad_over_its_soil_says_so_where_the_soil_is_stated_and_a_strip_spreads_a_post_over_15_and_a_half_in() {
    let house = || {
        let house = draft().outside(20, 24).beam("B", (0, 12), (20, 12), Joints::Lap).joists(Way::Y, Joints::Lap);
        house.post("P", (10, 12))
    };
    let on_soil = |house: Plan, soil: Option<f64>| {
        let mut file = PlanFile::from(&house);
        file.site.soil = soil.map(Psf);
        let plan = Plan::try_from(file).unwrap();
        let pad = ElementId::Footing(plan.levels()[0].footings[0].id);
        stands(&plan, pad).unwrap()
    };
    let pad = on_soil(house().pad((10, 12), 2).done(), Some(1000.0));
    assert!((pad.used().unwrap() - 1.5).abs() < 0.02 && pad.endangers(), "{pad:?}");
    let none = on_soil(house().pad((10, 12), 2).done(), None);
    assert!(none.used().is_none() && !none.overloaded() && matches!(none.holds, Holds::SoilNotStated(_)));
    // 20 ft of 1 ft strip, 6 in thick where nobody saw it: 3.5 + 12 in = 1.2917 ft: 4,645 psf, where its whole length gives 300.
    let strip = on_soil(house().strip((0, 12), (20, 12), 1).done(), Some(2000.0));
    let Holds::Soil(soil, _) = strip.holds else { panic!("{strip:?}") };
    assert!((soil.most.0 / 4645.0 - 1.0).abs() < 0.02 && (soil.mean.0 / 300.0 - 1.0).abs() < 0.02, "{soil:?}");
    assert!(strip.endangers());
}

/// No part is fine beside a check of it that failed, and the list has each part once.
#[test]
fn the_list_of_what_stands_says_the_same_as_each_part_by_itself() {
    let plan = draft().outside(20, 24).beam("B", (0, 12), (20, 12), Joints::Lap).joists(Way::Y, Joints::Lap).done();
    let list = all(&plan);
    assert!(list.len() >= 2);
    for one in &list {
        assert_eq!(stands(&plan, one.part), Some(*one));
        assert!(!one.endangers() || one.overloaded());
    }
}

/// Steel in the place of the wall: its plate, its nailer, and its web among the checks. 10 ft under 600 plf: 3,000 lb and its own
/// weight at each end, on spruce-pine-fir 425 psi x 3.94 in: 1.8 in, so the least, 3 in; what hangs below the joists counts the
/// nailer's 1 1/2 in.
#[test]
fn a_steel_beam_comes_with_a_plate_of_3_in_a_nailer_and_its_drop_counts_that() {
    let plan = draft().outside(20, 24).inside("C", (0, 12), (20, 12)).joists(Way::Y, Joints::Lap).done();
    let study = study(&plan, Stock::default());
    let steel: Vec<_> = study.beams.choices.iter().filter(|it| it.family == Family::Steel).collect();
    assert!(!steel.is_empty());
    for choice in steel {
        let seat = choice.steel.unwrap();
        assert_eq!((seat.along, seat.nailer.nominal_width), (Some(Inches(3.0)), 2), "{}", choice.name);
        assert!((choice.drops.unwrap().0 - choice.depth.0 - 1.5).abs() < 1e-9);
        assert!(choice.figures.iter().any(|it| it.label == "Nailer"));
    }
    assert!(study.beams.choices.iter().all(|it| it.steel.is_some() == (it.family == Family::Steel)));
}

/// 1 1/2 in over joists of 12 ft: 144 / 1.5 = 96.
#[test]
fn a_sag_of_1_and_a_half_in_over_joists_of_12_ft_is_l_over_96() {
    let mut file = PlanFile::from(&one_floor());
    for level in &mut file.levels {
        level.fields.iter_mut().for_each(|it| it.joints = Joints::Lap);
    }
    let id = ObservationId::from_number(900);
    let saw = Saw::Sag { by: Ticks::from_inches(1.5).unwrap() };
    let (note, day, photo) = Default::default();
    file.levels[0].observations.push(Observation {
        id,
        at: Point::feet(8, 6),
        saw,
        known: plan::Grade::Measured,
        note,
        day,
        photo,
    });
    let plan = Plan::try_from(file).unwrap();
    let got = sagged(&plan, &trace(&plan), &plan.levels()[0].observations[0]).unwrap();
    assert!((got.span.0 - 12.0).abs() < 1e-9 && (got.part - 96.0).abs() < 0.01, "{got:?}");
    let card = card(&plan, &trace(&plan), ElementId::Observation(id)).unwrap();
    assert!(card.figures.iter().any(|it| it.value == "L/96"));
}

/// Joists of 12 ft that end on the wall, each 66.667 plf x 12 ft = 800 lb: seven or eight lose it over 10 ft and fall whole, so what
/// has nowhere to go is what lay on them, each pound once.
#[test]
fn what_has_nowhere_to_go_is_what_lay_on_the_joists_that_fall_in_pounds() {
    let corners = [(0, 0), (20, 0), (20, 12), (0, 12)].map(|(x, y)| Point::feet(x, y));
    let house = draft().outside(20, 24).inside("C", (0, 12), (20, 12));
    let plan = house.joists_over(Region::Corners(corners.to_vec()), Way::Y, Joints::Lap).done();
    let study = study(&plan, Stock::default());
    let falling: usize = study.loses.members.iter().map(|it| it.count).sum();
    let most = falling as f64 * 800.0;
    let lost = study.loses.lost.all().0;
    assert!(!study.loses.gaps.is_empty() && falling >= 7);
    assert!(lost > 0.8 * most && lost <= most + 1.0, "{lost} lb of {falling} joists");
}
