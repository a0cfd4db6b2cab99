//! Shoring against free bodies by hand: all that a stretch holds is held meanwhile, or nothing is cut.

#![expect(clippy::indexing_slicing, reason = "a test that panics is a test that fails")]

use joistwise_core::draft::{Draft, draft};
use joistwise_core::loads::heaviest;
use joistwise_core::plan::{Bracing, Cut, Joints, JoistEdge, LevelKind, Member, NotchAt, Plan, Use, Way};
use joistwise_core::take_out::{
    Block, Holds, NoProp, NoWay, OnProps, PropsOn, Shoring, Stock, Stretch, Unheld, take_out,
};
use joistwise_core::tape::Tape;
use joistwise_core::trace::{Node, trace};
use joistwise_core::units::{Feet, Psf, Ticks};
use joistwise_core::words::Words;

#[track_caller]
fn near(got: f64, by_hand: f64, within: f64) {
    assert!((got - by_hand).abs() <= within, "{got} is not {by_hand} within {within}");
}

#[track_caller]
fn shored(plan: &Plan, wall: &str, from: f64, to: f64, offset: f64) -> Shoring {
    let wall = plan.wall_named(wall).expect("a wall of that name").id;
    let stretch = Stretch { shoring_offset: Feet(offset), ..Stretch::of(wall, Feet(from), Feet(to)) };
    take_out(plan, &stretch).expect("a study").shoring
}

/// Outside walls of 36 ft by so many, the south one named E, and a wall C along the middle; joists from south to north lap on it.
fn level(house: Draft, deep: f64, middle: &str) -> Draft {
    let house = house.outside(36, deep).inside(middle, (0, deep / 2.0), (36, deep / 2.0)).joists(Way::Y, Joints::Lap);
    // An engineer has answered for the outside walls: without that nothing is sized.
    house.with(|level| {
        level.walls[0].name = format!("{middle}-eave");
        level.walls.iter_mut().for_each(|wall| wall.bracing = Bracing::EngineerAnswered);
    })
}

/// 36 x 24 ft, 2x6 ceiling joists at 16 in, 5 + 20 psf, a wall along the middle.
fn store() -> Draft {
    let house = level(draft(), 24.0, "C").used_as(Use::AtticStorage);
    house.with(|level| level.fields[0].member = Member::sawn(2, 6))
}

/// Twelve feet, each end half way between two joists: these lie at 12, 13 1/3 ... ft.
const FROM: f64 = 38.0 / 3.0;
const TO: f64 = 74.0 / 3.0;

/// 8 ft of the eave wall of a house 28 ft deep, 50 psf of ground snow, 6 in 12, eaves 1 1/2 ft out. Roof on each foot of wall: dead 15
/// psf on the slope, 16.7705 on plan, snow 0.7 x 50 = 35: 51.7705 x 15.5 = 802.443 plf under D + S. Ceiling joists span 14 ft, props
/// 2 ft off: with the attic emptied 5 psf: far end 5 x 14 x 5 / 12 = 29.167 plf. Were the roof on the joists' ends: less 802.443 x
/// 2 / 12 = 133.741: -104.574 plf, where +44 was told. The rafters stand on the plate: a needle under each, 2 ft apart,
/// 1604.886 lb on it, M = P L / 4 = 1604.886 lb-ft over 4 ft, half on each post.
#[test]
fn under_50_psf_of_snow_the_roof_would_lift_the_far_ends_by_105_plf_and_gets_needles_for_1605_lb_each() {
    let house = level(draft(), 28.0, "C").used_as(Use::AtticBare).roof(Way::X, 1.5).snow(50.0);
    let plan = house.with(|level| level.fields[0].member = Member::sawn(2, 6)).done();
    let all = shored(&plan, "C-eave", 10.0, 18.0, 2.0);
    let [line] = all.lines.as_slice() else { panic!("{:?}", all.lines) };
    near(line.alone.0, -104.574, 1e-3);
    near(line.far.0, 5.0 * 14.0 * 5.0 / 12.0, 1e-6);
    near(line.above.all().0, 0.0, 1e-12);
    assert_eq!((line.on_props, line.no_prop, line.prop.is_some()), (OnProps::Passes, None, true));
    let [roof] = all.held.as_slice() else { panic!("{:?}", all.held) };
    assert_eq!((roof.what, roof.at), (Node::Roof(plan.levels()[0].roofs[0].id), None));
    near(roof.most.0, 8.0 * 802.443, 0.01);
    let Holds::Needles(needles) = roof.by else { panic!("{roof:?}") };
    near(needles.apart.unwrap().0, 2.0, 1e-12);
    near(needles.each.0, 1604.886, 0.01);
    near(needles.checked.moment.0, 1604.886, 0.01);
    near(needles.span.0, 4.0, 1e-12);
    near(needles.column.ratio, 1604.886 / 2.0 / needles.column.carries.0, 1e-6);
    near(needles.plate, 1604.886 / (12.25 * 425.0 * 3.875 / 3.5), 1e-6);
    assert!(all.blocked.is_empty(), "{:?}", all.blocked);
}

/// 10 ft of the eave wall of two storeys, 28 ft deep, 25 psf of ground snow, eaves 1 ft out. On each foot: roof 16.7705 x 15 = 251.558
/// dead, 20 x 15 = 300 roof live, 17.5 x 15 = 262.5 snow; ceiling 5 x 7 = 35 dead, 70 attic; the wall above 8 x 8 = 64 dead.
/// Floor joists span 14 ft: 10 x 14 x 5 / 12 = 58.333 with the rooms emptied. D + Lr: 58.333 - 650.558 x 2 / 12 = -50.093; D + S:
/// 58.333 - 613.058 / 6 = -43.843, where +163 was told. So the wall above does not stay on the joists' ends.
#[test]
fn the_eave_wall_of_two_storeys_would_lift_the_far_ends_by_50_plf_and_goes_on_needles() {
    let house = level(draft(), 28.0, "C").up();
    let plan = level(house, 28.0, "U").used_as(Use::AtticBare).roof(Way::X, 1).snow(25.0).done();
    let all = shored(&plan, "C-eave", 10.0, 20.0, 2.0);
    let [line] = all.lines.as_slice() else { panic!("{:?}", all.lines) };
    near(line.alone.0, -50.093, 1e-3);
    near(line.far.0, 58.333, 1e-3);
    let [above] = all.held.as_slice() else { panic!("{:?}", all.held) };
    assert_eq!(above.what, Node::Wall(plan.wall_named("U-eave").unwrap().id));
    // D + 0.75 (attic + roof live): 350.558 + 0.75 (70 + 300) = 628.058 of 650.558 plf under D + Lr; needles 16 in apart.
    let Holds::Needles(needles) = above.by else { panic!("{above:?}") };
    near(needles.each.0, 650.558 * 4.0 / 3.0, 0.01);
    assert!(all.blocked.is_empty(), "{:?}", all.blocked);
}

/// A wall inside under one on which struts of both slopes stand: 24 ft deep, 25 psf of ground snow. The far end keeps 10 x 12 x 8 / 20
/// = 48 plf with the rooms emptied; each side would have half of what stands above, with its lever 2 / 10 less. What stands there
/// is what the trace has at the foot of the upper wall over these 12 ft.
#[test]
fn a_wall_under_a_strutted_wall_would_lift_the_far_ends_and_each_strut_gets_a_needle() {
    let house = level(draft(), 24.0, "C").up();
    let house = level(house, 24.0, "U").used_as(Use::AtticBare).roof(Way::X, 0).snow(25.0);
    let plan = house.purlin((0, 6), (36, 6), (18, 12)).purlin((0, 18), (36, 18), (18, 12)).done();
    let all = shored(&plan, "C", FROM, TO, 2.0);
    let traced = trace(&plan);
    let lower = traced.wall(plan.wall_named("C").unwrap().id).unwrap();
    let upper = Node::Wall(plan.wall_named("U").unwrap().id);
    // Line: floor 120 dead and 480 floor come by joists, the rest by the wall above.
    let part = lower.line.iter().find(|it| it.start.0 <= 18.5 && it.end.0 >= 18.5).unwrap();
    let mut row = part.loads;
    (row.dead.0, row.floor.0) = (row.dead.0 - 120.0, row.floor.0 - 480.0);
    let points = lower.points.iter().filter(|it| it.from == upper && it.at.0 > FROM && it.at.0 < TO);
    let mut all_above = row;
    let mut count = 0;
    for point in points {
        count += 1;
        all_above += point.weights.map(|pounds| pounds / Feet(TO - FROM));
    }
    let most = heaviest(&all_above, plan.site()).0;
    // 359.558 dead + 0.75 (120 attic + 300 roof live): 48 - 67.456 = -19.456 plf.
    near(most.0, 674.558, 0.01);
    assert!(count > 1);
    for line in &all.lines {
        near(line.alone.0, 48.0 - most.0 / 2.0 * 2.0 / 10.0, 0.01);
        assert!(line.alone.0 < 0.0 && line.far.0 >= 0.0);
    }
    let needles = all.held.iter().filter(|it| it.at.is_some() && matches!(it.by, Holds::Needles(_)));
    assert_eq!((needles.count(), all.blocked.len()), (count, 0));
}

/// 2x6 at 16 in under 230 + 20 psf, 9 ft and 3 ft over the props, fail: said so, and blocked. They are drawn: nobody says that their
/// size is not known.
#[test]
fn joists_that_fail_on_props_are_said_to_fail_and_nothing_is_cut() {
    let plan = store().with(|level| level.fields[0].dead = Some(Psf(230.0))).done();
    let all = shored(&plan, "C", FROM, TO, 3.0);
    for line in &all.lines {
        assert_eq!(line.on_props, OnProps::Fails);
        assert!(line.sentence.contains("fail, at") && !line.sentence.contains("not known"), "{}", line.sentence);
    }
    assert_eq!(all.blocked.iter().filter(|it| matches!(it.about, Block::JoistsFail { .. })).count(), 2);
}

/// Joists of which nobody knows the size end on the wall: on props 2 ft off, w x 2^2 / 2 = 2 w and (5 w - 0.2 w ...)^2 / 2 w < w
/// 12^2 / 8 = 18 w lb-ft: props ask less of them than the wall. Props 11 ft off leave 11 ft in the air, 60.5 w: blocked.
#[test]
fn joists_of_no_known_size_may_stand_on_props_only_where_these_bend_them_no_more_than_now() {
    let plan = store().with(|level| level.fields[0].member = Member::default()).done();
    let near_by = shored(&plan, "C", FROM, TO, 2.0);
    assert!(near_by.lines.iter().all(|it| it.on_props == OnProps::NoMoreThanNow) && near_by.blocked.is_empty());
    let far_off = shored(&plan, "C", FROM, TO, 11.0);
    assert!(far_off.lines.iter().all(|it| it.on_props == OnProps::NotKnown));
    assert!(far_off.blocked.iter().any(|it| matches!(it.about, Block::JoistsNotKnown { .. })));
}

/// Worked example X152 again, 40 plf on each joist: 4 ft from the far wall M = 160^2 / (2 x 40) = 320 lb-ft. A notch of 2 3/4 in there
/// leaves 1.5 x 2.75^2 / 6 = 1.890625 in^3: 3840 / 1.890625 = 2031.07 psi of 1308.125, 1.55266, where the whole joist has 0.38818.
#[test]
fn a_notch_of_2_and_three_quarter_in_in_a_joist_on_props_comes_to_155_percent() {
    let ticks = |inches: f64| Ticks::from_inches(inches).unwrap();
    let (place, edge) = (NotchAt::Span, JoistEdge::default());
    let notch = Cut::Notch { depth: ticks(2.75), length: ticks(2.0), place, edge };
    let all = shored(&store().cut((16, 4), notch).done(), "C", FROM, TO, 3.0);
    let [left, right] = all.lines.as_slice() else { panic!("{:?}", all.lines) };
    let weak = right.weakened.unwrap();
    near(weak.worst.ratio, 1.552_66, 1e-4);
    near(right.joists.unwrap().bending.ratio, 0.388_18, 1e-4);
    assert_eq!((right.on_props, left.on_props, left.weakened), (OnProps::Fails, OnProps::Passes, None));
    assert!(
        matches!(all.blocked[0].about, Block::JoistsFail { left: false, ratio } if (ratio - 1.552_66).abs() < 1e-4)
    );
    assert!(right.sentence.contains("at a notch or hole"), "{}", right.sentence);
}

/// The line of props 2 ft south of the wall runs from 12 2/3 to 24 2/3 ft; a wall square to it at 20 1/2 ft: 7 5/6 and 4 1/6 ft.
#[test]
fn a_wall_square_to_the_props_cuts_their_line_into_7_ft_10_and_4_ft_2() {
    let plan = store().inside("P", (20.5, 2), (20.5, 12)).done();
    let all = shored(&plan, "C", FROM, TO, 2.0);
    let [left, right] = all.lines.as_slice() else { panic!("{:?}", all.lines) };
    assert!(left.cut_by.is_empty());
    let [cut] = right.cut_by.as_slice() else { panic!("{:?}", right.cut_by) };
    near(cut.before.0, 20.5 - FROM, 1e-3);
    near(cut.past.0, TO - 20.5, 1e-3);
    assert!(right.sentence.contains("P cuts this line in two"), "{}", right.sentence);
}

/// A basement with a girder, a storey with its wall C over it, and one more.
fn on_a_basement() -> Draft {
    let house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    let house = house.beam("Girder", (0, 12), (36, 12), Joints::Lap);
    let house = [6, 12, 18, 24, 30].into_iter().fold(house, |house, x| house.post("", (x, 12)).pad((x, 12), 3));
    level(level(house.up(), 24.0, "C").up(), 24.0, "U").used_as(Use::AtticBare).roof(Way::X, 1).snow(25.0)
}

/// Props of 496.8 plf on floor joists of 12 ft, 2 ft from the girder: 662.4 lb on each beside 50 x 4/3 plf: 400 + 662.4 / 6 = 510.4 lb at the
/// far wall, M = 510.4^2 / (2 x 66.667) = 1953.8 lb-ft.
#[test]
fn the_floor_under_the_props_is_checked_for_1953_8_lb_ft_were_they_to_stop_there() {
    let plan = on_a_basement().done();
    let all = shored(&plan, "C", FROM, TO, 2.0);
    for line in &all.lines {
        near(line.most.0, 496.8, 1e-6);
        assert_eq!(line.on, PropsOn::Across(plan.levels()[0].fields[0].id));
        near(line.floor.unwrap().moment.0, 1953.8, 0.1);
        assert_eq!(line.no_way, None);
    }
    assert!(all.held.iter().all(|it| it.by == Holds::JoistEnds) && !all.held.is_empty());
    assert_eq!(all.below, [plan.levels()[0].id]);
    let brace = all.notes.iter().find(|it| it.starts_with("Brace")).expect("props are braced");
    assert!(brace.contains("2 %") && brace.contains("40 lb"), "{brace}");
}

/// A stair north of the girder under the line of props there, 2 ft off: no prop stands in it.
#[test]
fn a_line_of_props_over_a_stair_has_no_way_to_the_ground() {
    let mut file = on_a_basement().file();
    let with = draft().outside(36, 24).stair((16, 13), (20, 17)).file();
    file.levels[0].floor_openings.clone_from(&with.levels[0].floor_openings);
    file.levels[0].floor_openings[0].id = joistwise_core::ids::FloorOpeningId::from_number(9_000);
    let plan = Plan::try_from(file).unwrap();
    let all = shored(&plan, "C", FROM, TO, 2.0);
    let stair = NoWay::Opening { level: plan.levels()[0].id, opening: plan.levels()[0].floor_openings[0].id };
    let lines: Vec<_> = all.lines.iter().map(|it| (it.left, it.no_way)).collect();
    assert_eq!(lines, [(true, Some(stair)), (false, None)]);
    assert!(all.blocked.iter().any(|it| it.about == Block::NoWayDown { left: true, why: stair }));
}

/// The needles of an eave wall upstairs would stand outside, a storey above the ground: blocked by name and pounds.
#[test]
fn the_roof_on_an_eave_wall_upstairs_is_not_held_from_outside() {
    let plan = on_a_basement().done();
    let all = shored(&plan, "U-eave", 10.0, 18.0, 2.0);
    let roof = all.held.iter().find(|it| matches!(it.what, Node::Roof(_))).expect("the roof stands on it");
    assert!(matches!(roof.by, Holds::Nothing(Unheld::NoWayDown(NoWay::Outside { .. }))), "{roof:?}");
    let block = all.blocked.iter().find(|it| matches!(it.about, Block::NotHeld { .. })).expect("a block");
    assert!(block.sentence.contains(" lb") && block.sentence.starts_with("Do not cut"), "{}", block.sentence);
}

/// A post of the storey above in the middle of what goes: a needle right under it, with all that the trace brings it.
#[test]
fn a_post_above_within_the_stretch_gets_a_needle_for_all_that_it_brings_in_lb() {
    let house = level(draft(), 24.0, "C").up().outside(36, 24).joists(Way::Y, Joints::Lap).used_as(Use::AtticBare);
    let plan = house.beam("B", (0, 12), (36, 12), Joints::Lap).post("P", (18, 12)).done();
    let post = plan.levels()[1].posts[0].id;
    let brings = heaviest(&trace(&plan).post(post).unwrap().top, plan.site()).0;
    // 12 ft of 5 + 10 psf on 18 ft each way, less the half bay of 2/3 ft that lies on each gable wall: 180 (18^2 - (2/3)^2) / 18.
    near(brings.0, 180.0 * (324.0 - 4.0 / 9.0) / 18.0, 1e-6);
    let all = shored(&plan, "C", FROM, TO, 2.0);
    let [held] = all.held.as_slice() else { panic!("{:?}", all.held) };
    assert_eq!(held.what, Node::Post(post));
    near(held.at.unwrap().0, 18.0, 1e-6);
    let Holds::Needles(needle) = held.by else { panic!("{held:?}") };
    near(needle.each.0, brings.0, 1e-6);
    near(needle.checked.moment.0, brings.0, 1e-6);
    assert_eq!(needle.apart, None);
}

/// Of two houses the heavier line, the least far end of both, and all that either must hold.
#[test]
fn of_two_readings_the_heavier_props_and_the_least_far_end_in_plf_are_kept() {
    let (light, heavy) = (store().done(), store().with(|level| level.fields[0].dead = Some(Psf(30.0))).done());
    let roofed = level(draft(), 24.0, "C").used_as(Use::AtticStorage).roof(Way::X, 1).snow(50.0).done();
    let of = |plan: &Plan| shored(plan, "C", FROM, TO, 3.0);
    let words = Words::new(&light, Tape::Feet);
    for (one, other) in [(of(&light), of(&heavy)), (of(&heavy), of(&light))] {
        let both = one.worse(other, &words, Stock::default());
        for line in &both.lines {
            near(line.most.0, 50.0 * 144.0 / 18.0, 1e-6);
            near(line.far.0, 40.0, 1e-6);
            assert_eq!((line.no_prop, line.prop.is_some()), (None::<NoProp>, true));
        }
    }
    let eave = |plan: &Plan| shored(plan, "C-eave", 10.0, 18.0, 2.0);
    let both = eave(&light).worse(eave(&roofed), &words, Stock::default());
    assert!(both.held.iter().any(|it| matches!(it.what, Node::Roof(_))));
}
