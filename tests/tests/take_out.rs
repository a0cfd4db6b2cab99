//! Take-out studies against free bodies by hand.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::plan::{Joints, Member, Plan, Use, Way};
use joistwise_core::strength::check::Rule;
use joistwise_core::take_out::{Fate, Meets, Need, Stretch, Study, needs, take_out};
use joistwise_core::units::Feet;

#[track_caller]
fn near(got: f64, by_hand: f64, within: f64) {
    assert!((got - by_hand).abs() <= within, "{got} is not {by_hand} within {within}");
}

/// 36 x 24 ft, 2x6 ceiling joists at 16 in from south to north, a wall along the middle.
fn ceiling(joints: Joints) -> Draft {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, joints).used_as(Use::AtticBare);
    house.with(|level| level.fields.iter_mut().for_each(|field| field.member = Member::sawn(2, 6)))
}

#[track_caller]
fn study(plan: &Plan, wall: &str, from: f64, to: f64) -> Study {
    let wall = plan.wall_named(wall).expect("a wall of that name").id;
    take_out(plan, &Stretch::of(wall, Feet(from), Feet(to))).expect("a study")
}

/// A joist carries (5 + 10) psf x 4/3 ft = 20 plf; of that 40/3 plf is live. S = 7.5625 in^3, I = 20.796875 in^4, spruce-pine-
/// fir No. 2: F'b = 875 x 1.3 x 1.15 = 1308.125 psi, E = 1,400,000 psi.
/// With the wall, two spans of 12 ft: M = w L^2 / 8 = 360 lb-ft over it, fb = 571.24 psi, 0.43669 of what is allowed.
/// Without it, one of 24 ft: M = 20 x 576 / 8 = 1440 lb-ft, fb = 2284.96 psi, 1.74674; V = 240 lb, fv = 1.5 x 240 / 8.25 =
/// 43.64 psi of 135, 0.32323; live 5 x (40/36) x 288^4 / (384 x 1.4e6 x 20.796875) = 3.41854 in of 288 / 240 = 1.2, 2.84878.
/// Longest: bending sqrt(8 x 824.39 / 20) = 18.159 ft; L / 240: (384 E I / (5 x 240 x 40/36))^(1/3) = 203.16 in = 16.930 ft.
#[test]
fn a_2x6_ceiling_that_runs_through_over_24_ft_sags_3_and_four_tenths_in_without_its_wall() {
    let plan = ceiling(Joints::RunThrough).done();
    let study = study(&plan, "C", 0.0, 36.0);
    let [group] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
    assert_eq!((group.count, group.meets, group.fate), (26, Meets::RunThrough, Fate::Fails));
    near(group.old_span.0, 12.0, 1e-9);
    near(group.new_span.unwrap().0, 24.0, 1e-9);
    let (before, after) = (group.before.unwrap(), group.after.unwrap());
    near(before.moment.0, 360.0, 1e-9);
    near(before.bending.ratio, 0.436_69, 1e-5);
    assert!(before.passes());
    near(after.moment.0, 1440.0, 1e-9);
    near(after.bending.ratio, 1.746_74, 1e-5);
    near(after.shearing.ratio, 0.323_23, 1e-5);
    near(after.live_sag.0, 3.418_54, 1e-5);
    near(after.total_sag.0, 3.418_54 * 1.5, 2e-5);
    near(after.live.ratio, 2.848_78, 1e-5);
    assert_eq!(after.governing().rule, Rule::LiveSag);
    near(group.longest.unwrap().0, 16.930, 5e-4);
    near(group.too_long_by.unwrap().0, 24.0 - 16.930, 5e-4);
    let wall = plan.wall_named("C").unwrap().id;
    assert_eq!(needs(&plan, wall).unwrap().need, Need::WouldFail);
}

#[test]
fn joists_that_lap_fall_and_joists_that_nobody_looked_at_are_taken_to() {
    for (joints, meets, need) in
        [(Joints::Lap, Meets::Lap, Need::EndsOnIt), (Joints::NotSeen, Meets::NotSeen, Need::NotKnown)]
    {
        let plan = ceiling(joints).done();
        let study = study(&plan, "C", 12.0, 24.0);
        let [group] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
        // Joists at 12 ft and 24 ft still lie on what is left of the wall: eight between them.
        assert_eq!((group.count, group.meets, group.fate), (8, meets, Fate::Falls));
        assert_eq!(group.new_span.is_some(), joints == Joints::NotSeen);
        assert_eq!(needs(&plan, plan.wall_named("C").unwrap().id).unwrap().need, need);
    }
}

/// Over 12 ft by 8 ft the same joists span 8 ft without the wall: nothing fails.
#[test]
fn joists_of_a_short_span_that_touch_a_wall_do_not_need_it() {
    let house = draft().outside(12, 8).inside("C", (0, 4), (12, 4)).joists(Way::Y, Joints::RunThrough);
    let plan = house.used_as(Use::AtticBare).done();
    assert_eq!(needs(&plan, plan.wall_named("C").unwrap().id).unwrap().need, Need::TouchingOnly);
}

/// Joists that lap: each foot of the wall gets half of both spans, 12 ft x 5 psf = 60 plf dead and 120 plf live; over 12 ft
/// of it 720 and 1440 lb, half to each end.
#[test]
fn what_lands_on_12_ft_of_a_wall_under_a_ceiling_is_2160_lb_by_kind() {
    let plan = ceiling(Joints::Lap).done();
    let lands = study(&plan, "C", 12.0, 24.0).lands;
    near(lands.all.dead.0, 720.0, 1e-6);
    near(lands.all.attic.0, 1440.0, 1e-6);
    for (end, share) in [(lands.ends.at_from, 0.5), (lands.ends.at_to, 0.5)] {
        near(end.dead.0, 720.0 * share, 1e-6);
        near(end.attic.0, 1440.0 * share, 1e-6);
    }
    let from: f64 = lands.from.iter().map(|it| it.1.all().0).sum();
    near(from, lands.all.all().0, 1e-6);
}

#[test]
fn what_is_left_of_a_wall_keeps_its_doors_and_a_door_at_the_cut_goes_whole() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).door(2, 3).door(11, 3).door(30, 3);
    let plan = house.joists(Way::Y, Joints::Lap).done();
    let study = study(&plan, "C", 12.0, 24.0);
    near(study.stretch.from.0, 11.0, 1e-9);
    let level = &study.without.levels()[0];
    let inside: Vec<_> = level.walls.iter().filter(|wall| wall.name.starts_with('C')).collect();
    assert_eq!(inside.len(), 2);
    let left: Vec<(f64, bool)> =
        level.openings.iter().map(|it| (it.offset.feet().0, it.wall == inside[0].id)).collect();
    assert_eq!(left, [(2.0, true), (6.0, false)]);
}
