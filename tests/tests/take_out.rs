//! Take-out studies against free bodies by hand.

use joistwise_core::draft::{Draft, at, draft, feet};
use joistwise_core::ids::ElementId;
use joistwise_core::loads::Soil;
use joistwise_core::plan::{Edit, Grade, Joints, LevelKind, Member, Plan, Set, Use, Way};
use joistwise_core::readings::judge;
use joistwise_core::strength::check::Rule;
use joistwise_core::take_out::{
    About, Family, Fate, IJoistAt, Meets, Need, NoBeam, NoFigure, PropsOn, Skip, Stretch, Study, Work, needs, take_out,
    take_out_read,
};
use joistwise_core::trace::Node;
use joistwise_core::units::{Feet, Psf};

#[track_caller]
fn near(got: f64, by_hand: f64, within: f64) {
    assert!((got - by_hand).abs() <= within, "{got} is not {by_hand} within {within}");
}

/// 36 x 24 ft, 2x6 ceiling joists at 16 in from south to north, a wall along the middle.
fn ceiling(joints: Joints) -> Draft {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, joints).used_as(Use::AtticBare);
    house.with(|level| level.fields.iter_mut().for_each(|field| field.member = Member::sawn(2, 6)))
}

/// The order of work of a study over all readings: of the house as drawn alone it stops before anything is cut.
fn work(plan: &Plan, study: &Study) -> Vec<Work> {
    let read = take_out_read(plan, &study.stretch, &judge(plan)).expect("a study");
    read.steps.iter().map(|it| it.work).collect()
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

/// 36 x 24 ft, two storeys on a basement: 2x10 floors and a 2x6 ceiling that lap over walls along the middle, a girder on
/// posts 6 ft apart under them, tied rafters over all.
fn two_storeys() -> Draft {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (0, 12), (36, 12), Joints::Lap);
    for x in [6, 12, 18, 24, 30] {
        house = house.post("", (x, 12)).pad((x, 12), 3);
    }
    for ((ax, ay), (bx, by)) in [((0, 0), (36, 0)), ((36, 0), (36, 24)), ((36, 24), (0, 24)), ((0, 24), (0, 0))] {
        house = house.strip((ax, ay), (bx, by), 1.667);
    }
    house = house.up().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    house = house.up().outside(36, 24).inside("U", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    house.used_as(Use::AtticBare).roof(Way::X, 1).snow(25.0)
}

/// Twelve feet, each end half way between two joists: these lie at 12, 13 1/3 ... ft.
const FROM: f64 = 38.0 / 3.0;
const TO: f64 = 74.0 / 3.0;

/// On each foot of the wall: half of two 12 ft spans of floor, 12 x 10 = 120 dead and 12 x 40 = 480 live; the wall above,
/// 8 ft x 6 psf = 48 dead; half of two spans of ceiling, 12 x 5 = 60 dead and 12 x 10 = 120 attic. 228 + 480 + 120 plf.
/// Over 12 ft each end gets 6 ft of it: 1368 dead, 2880 floor, 720 attic: D + L = 4968 lb.
#[test]
fn twelve_ft_of_the_centre_wall_of_two_storeys_lands_4968_lb_at_each_end() {
    let plan = two_storeys().done();
    for study in [study(&plan, "C", FROM, TO), flush(&plan, "C", FROM, TO)] {
        for end in [study.lands.ends.at_from, study.lands.ends.at_to] {
            near(end.dead.0, 1368.0, 1e-6);
            near(end.floor.0, 2880.0, 1e-6);
            near(end.attic.0, 720.0, 1e-6);
        }
        let [near_end, far_end] = study.beams.supports.as_slice() else { panic!("two ends") };
        for support in [near_end, far_end] {
            near(support.weights.dead.0, 1368.0, 1e-6);
            near(support.weights.floor.0, 2880.0, 1e-6);
            near(support.weights.attic.0, 720.0, 1e-6);
            let own = study.beams.choices[0].own.0 * 6.0;
            near(support.with_beam.dead.0, 1368.0 + own, 1e-6);
            near(support.most.0, 4968.0 + own, 1e-6);
        }
        assert_eq!(study.loses.others.len(), 1, "the wall above");
    }
}

fn flush(plan: &Plan, wall: &str, from: f64, to: f64) -> Study {
    let wall = plan.wall_named(wall).expect("a wall of that name").id;
    let stretch = Stretch { set: Set::Flush, ..Stretch::of(wall, Feet(from), Feet(to)) };
    take_out(plan, &stretch).expect("a study")
}

/// Every choice by hand: w = 828 plf + its own, live 600 plf; M = w L^2 / 8 = 18 w, V = 6 w; sag 5 w L^4 / 384 E I.
#[test]
fn every_beam_named_for_12_ft_passes_by_hand_and_the_first_is_the_lightest() {
    let plan = two_storeys().done();
    let study = study(&plan, "C", FROM, TO);
    let families: Vec<Family> =
        Family::ALL.into_iter().filter(|it| study.beams.choices.iter().any(|c| c.family == *it)).collect();
    assert_eq!(families, [Family::Veneer, Family::Glulam, Family::Steel]);
    assert_eq!(study.beams.none, [(Family::BuiltUp, NoBeam::NoneCarries)]);
    for choice in &study.beams.choices {
        let w = 828.0 + choice.own.0;
        near(choice.checked.moment.0, 18.0 * w, 1e-6 * w);
        near(choice.checked.shear.0, 6.0 * w, 1e-6 * w);
        near(choice.weight.0, 12.0 * choice.own.0, 1e-9);
        assert!(choice.checked.passes() && choice.governs.ratio <= 1.0, "{choice:?}");
        let total = choice.checked.total_sag / choice.checked.live_sag;
        near(total, w / 600.0, 1e-6);
    }
    // 2-ply LVL 1.9E, 1 3/4 x 11 7/8: I = 3.5 x 11.875^3 / 12 = 488.42 in^4; live 5 x 50 x 144^4 / (384 x 1.9e6 x 488.42).
    let lvl = study.beams.choices.iter().find(|it| it.family == Family::Veneer && (it.depth.0 - 11.875).abs() < 1e-9);
    let lvl = lvl.expect("2-ply LVL of 11 7/8 in");
    assert_eq!(lvl.plies, 2);
    near(lvl.checked.live_sag.0, 5.0 * 50.0 * 144.0 * 144.0 * 144.0 * 144.0 / (384.0 * 1.9e6 * 488.424), 1e-4);
    let weights: Vec<f64> = study.beams.choices.iter().map(|it| it.weight.0).collect();
    assert!(weights.is_sorted());
    assert!(study.beams.choices[0].lightest);
}

/// A joist end: 4/3 ft x 6 ft = 8 sq ft: 80 dead and 320 live.
#[test]
fn hangers_of_a_flush_beam_hold_400_lb_each_on_both_faces() {
    let study = flush(&two_storeys().done(), "C", FROM, TO);
    assert_eq!(study.ends.hangers.len(), 2);
    for face in &study.ends.hangers {
        // Joists at 13 1/3 to 24 ft.
        assert_eq!(face.count, 9);
        near(face.each.dead.0, 80.0, 1e-6);
        near(face.each.floor.0, 320.0, 1e-6);
        near(face.most.0, 400.0, 1e-6);
    }
    // The ceiling ties of the storey above are not over this wall.
    assert!(study.loses.ties.is_empty());
    let upper = flush(&two_storeys().done(), "U", FROM, TO);
    assert_eq!(upper.loses.ties.len(), 1);
    assert!(upper.loses.ties[0].loose.snow.0 > 0.0);
}

/// Of what passes the sentence says whole inches: 16.930 ft is 16' 11" at the most, 24 ft is 7' 1" too long at the least.
#[test]
fn a_span_that_passes_is_told_to_the_whole_inch_below_and_what_is_too_long_to_the_inch_above() {
    let study = study(&ceiling(Joints::RunThrough).done(), "C", 0.0, 36.0);
    let told = &study.loses.members[0].sentence;
    assert!(told.contains("the longest that would pass is 16' 11\", so 7' 1\" too long"), "{told}");
}

/// A wall of 36 ft with a door from 2 to 5 ft and a wall that meets it at 20 ft: of 2, 15 and 16 ft the last is the longest,
/// and 12 ft of its middle are asked for first; of a wall of 10 ft all of it.
#[test]
fn a_study_opens_on_the_middle_12_ft_of_the_longest_part_between_doors_and_walls() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).door(2, 3).inside("T", (20, 12), (20, 24));
    let plan = house.joists(Way::Y, Joints::Lap).done();
    let of = |name: &str| {
        let wall = plan.wall_named(name).expect("a wall of that name");
        let length = joistwise_core::geometry::length(wall.a, wall.b);
        let likely = Stretch::of(wall.id, Feet::ZERO, length).likely(&plan);
        (likely.from.0, likely.to.0)
    };
    near(of("C").0, 22.0, 1e-6);
    near(of("C").1, 34.0, 1e-6);
    near(of("T").1 - of("T").0, 12.0, 1e-6);
}

/// What was asked stays with the house: in its file, in its link, as one step; it goes with its wall.
#[test]
fn a_kept_study_is_in_the_file_and_the_link_and_goes_with_its_wall() {
    let plan = two_storeys().done();
    let wall = plan.wall_named("C").expect("drawn").id;
    let asked =
        Stretch { set: Set::Flush, posts_between: vec![Feet(18.5)], ..Stretch::of(wall, Feet(12.0), Feet(24.0)) };
    let kept = asked.kept("Kitchen");
    let with = plan.with(&Edit::Keep(kept.clone())).expect("kept");
    assert_eq!(with.with(&Edit::Keep(kept.clone())).expect("kept once"), with);
    assert_eq!(with.kept(), [kept]);
    assert_eq!(Stretch::from(&with.kept()[0]), asked);
    assert_eq!(Plan::from_json(&with.to_json()).expect("sound"), with);
    assert_eq!(Plan::from_link(&with.to_link()).expect("whole"), with);
    assert!(with.to_link().len() - plan.to_link().len() < 250, "bytes of link for one study");
    assert_eq!(with.with(&Edit::Unkeep(0)).expect("away"), plan);
    let gone = with.with(&Edit::Remove(ElementId::Wall(wall))).expect("removed");
    assert!(gone.kept().is_empty());
    // A file whose study is of a wall that it does not hold opens without it.
    let mut file = with.to_json();
    file = file.replace(&format!("\"wall\": {}\n", wall.number()), "\"wall\": 9999\n");
    assert!(Plan::from_json(&file).expect("sound").kept().is_empty());
    // Once the beam is in and all of the wall is gone, so is the question.
    let whole = Stretch::of(wall, Feet::ZERO, Feet(36.0));
    let with = plan.with(&Edit::Keep(whole.kept(""))).expect("kept");
    assert!(take_out(&with, &whole).expect("a study").proposed.kept().is_empty());
}

/// A wall of 36 ft whose first 12 ft go: what is left begins there, and the study of 20 to 30 ft is of its 8 to 18 ft. With 4 ft
/// left before the stretch it is of the other part, which has a number of its own. Studies of the stretch itself go.
#[test]
fn studies_of_what_is_left_of_a_wall_stay_with_it_once_the_beam_is_in() {
    let plan = two_storeys().done();
    let wall = plan.wall_named("C").expect("drawn").id;
    let asked = |from: f64, to: f64| Stretch::of(wall, Feet(from), Feet(to));
    let later = Stretch { posts_between: vec![Feet(25.0)], ..asked(20.0, 30.0) };
    let mut with = plan.clone();
    for kept in [later.kept("later"), asked(0.0, 3.0).kept("first"), asked(6.0, 14.0).kept("here")] {
        with = with.with(&Edit::Keep(kept)).expect("kept");
    }
    for (from, left) in [(0.0, vec!["later"]), (4.0, vec!["later", "first"])] {
        let proposed = take_out(&with, &asked(from, 12.0)).expect("a study").proposed;
        let names: Vec<&str> = proposed.kept().iter().map(|it| it.name.as_str()).collect();
        assert_eq!(names, left);
        let again = Stretch::from(&proposed.kept()[0]);
        assert_eq!((again.from, again.to, again.posts_between[0]), (Feet(8.0), Feet(18.0), Feet(13.0)));
        let (was, is) = (take_out(&with, &later).expect("one"), take_out(&proposed, &again).expect("other"));
        near(is.lands.all.all().0, was.lands.all.all().0, 1e-6);
        assert_eq!(again.away == later.away, from < 1.0);
    }
}

/// Twice in one place, 2 in from another, at an end: each a post that is there already, and the figures of one.
#[test]
fn a_post_within_a_foot_of_another_or_of_an_end_is_that_one() {
    let plan = two_storeys().done();
    let wall = plan.wall_named("C").expect("drawn").id;
    let with = |between: &[f64]| {
        let posts_between = between.iter().map(|at| Feet(*at)).collect();
        take_out(&plan, &Stretch { posts_between, ..Stretch::of(wall, Feet(FROM), Feet(TO)) }).expect("a study")
    };
    let once = with(&[FROM + 6.0]);
    assert_eq!(once.posts.len(), 3);
    assert_eq!(once, with(&[FROM + 0.2, FROM + 6.0, FROM + 6.0, FROM + 6.2, TO - 0.2]));
}

/// 5 studs at most: 3-2x4 of spruce-pine-fir No. 2, 96 in high: le / d = 96 / 4.5 = 21.33 through the plies and 96 / 3.5 = 27.43
/// along them; FcE = 0.822 x 510,000 / 27.43^2 = 557.2 psi of Fc* = 1150 x 1.15 = 1322.5: a = 0.42133, Cp = 0.3776 that way;
/// the other: FcE = 921.1, a = 0.69650, m = 1.06031, Cp = 1.06031 - sqrt(1.12426 -
/// 0.87063) = 0.55669, times Kf of 0.6 = 0.33402, which governs: 441.74 psi x 15.75 = 6957 lb.
#[test]
fn three_studs_of_8_ft_carry_6957_lb_and_press_the_plate_by_hand() {
    let study = study(&two_storeys().done(), "C", FROM, TO);
    let post = &study.ends.posts[0];
    let three = post.choices.iter().find(|it| it.name == "3-2x4").expect("three studs");
    near(three.cp, 0.334_02, 1e-5);
    near(three.carries.0, 6957.4, 0.5);
    // Cb of a 4 1/2 in long seat: 4.875 / 4.5.
    near(three.plate, post.asked.0 / 15.75 / (425.0 * 4.875 / 4.5), 1e-9);
}

/// Worked example X152: joists of 12 ft ending on the wall, props 3 ft from it, 30 psf (10 dead, 20 attic live): each foot of
/// props 30 x 144 / (2 x 9) = 240 plf where the wall had 180, the far wall keeps 30 x 12 x 6 / 18 = 120. Overhang: 30 x 4/3 x
/// 3^2 / 2 = 180 lb-ft; in the 9 ft between: R = 160 lb at the far wall, M = 160^2 / (2 x 40) = 320 lb-ft.
#[test]
fn props_3_ft_from_a_lapped_wall_take_240_plf_as_in_the_worked_example() {
    let plan = ceiling(Joints::Lap).used_as(Use::AtticStorage).done();
    let wall = plan.wall_named("C").unwrap().id;
    let stretch = Stretch { shoring_offset: Feet(3.0), ..Stretch::of(wall, Feet(FROM), Feet(TO)) };
    let shoring = take_out(&plan, &stretch).unwrap().shoring;
    assert_eq!(shoring.lines.len(), 2);
    for line in &shoring.lines {
        near(line.most.0, 240.0, 1e-6);
        near(line.had.0, 180.0, 1e-6);
        near(line.far.0, 120.0, 1e-6);
        near(line.each.0, 960.0, 1e-6);
        near(line.joists.unwrap().moment.0, 320.0, 1e-6);
        assert_eq!((line.meets, line.skip, line.on), (Meets::Lap, None, PropsOn::Ground));
    }
}

/// Worked examples X153 and X154: 14 ft, props at 2 ft, 65 psf: 530.833 plf where the wall had 455, the far wall keeps 379.167;
/// 15 ft, props at 2 1/2 ft, 40 psf: 360, 300 and 240.
#[test]
fn props_at_2_ft_and_at_2_and_a_half_take_what_the_worked_examples_say_in_plf() {
    for (span, offset, dead, used_as, [prop, had, far]) in
        [(14, 2.0, 25.0, Use::Living, [530.833, 455.0, 379.167]), (15, 2.5, 10.0, Use::Sleeping, [360.0, 300.0, 240.0])]
    {
        let house = draft().outside(36, 2 * span).inside("C", (0, span), (36, span)).joists(Way::Y, Joints::Lap);
        let plan = house.used_as(used_as).with(|level| level.fields[0].dead = Some(Psf(dead))).done();
        let stretch = Stretch {
            shoring_offset: Feet(offset),
            ..Stretch::of(plan.wall_named("C").unwrap().id, Feet(FROM), Feet(TO))
        };
        for line in take_out(&plan, &stretch).unwrap().shoring.lines {
            near(line.most.0, prop, 1e-3);
            near(line.had.0, had, 1e-6);
            near(line.far.0, far, 1e-3);
        }
    }
}

/// The floor of the two storeys, props 2 ft off: 50 x 144 / 20 = 360 plf; half of the 228 plf of wall and ceiling above stands
/// on the ends of each side: 114 x 12 / 10 = 136.8. Far end 50 x 12 x 8 / 20 - 114 x 2 / 10 = 217.2 plf.
#[test]
fn props_under_a_floor_with_a_wall_above_take_496_8_plf_and_stand_on_joists_across() {
    let plan = two_storeys().done();
    let shoring = study(&plan, "C", FROM, TO).shoring;
    for line in &shoring.lines {
        near(line.most.0, 496.8, 1e-6);
        near(line.far.0, 217.2, 1e-6);
        assert!(matches!(line.on, PropsOn::Across(_)));
    }
    assert_eq!(shoring.below.len(), 1);
}

/// One piece over 8 + 8 ft, 2x10 at 16 in, 50 psf: on one line of props 2 ft off, the far span of 10 ft passes. That line then has
/// both spans: M = w (6^3 + 10^3) / (8 x 16) = 9.5 w over it, 8 w + 9.5 w (1/6 + 1/10) = 10.533 w = 526.7 plf.
#[test]
fn joists_in_one_piece_may_need_props_on_one_side_alone() {
    let house = draft().outside(36, 16).inside("C", (0, 8), (36, 8)).joists(Way::Y, Joints::RunThrough);
    let shoring = study(&house.done(), "C", FROM, TO).shoring;
    let skips: Vec<Option<Skip>> = shoring.lines.iter().map(|it| it.skip).collect();
    assert_eq!(skips, [None, Some(Skip::OnePieceSpansOn)]);
    near(shoring.lines[0].most.0, 50.0 * (8.0 + 9.5 * (1.0 / 6.0 + 0.1)), 1e-6);
    near(shoring.lines[0].each.0, shoring.lines[0].most.0 * 4.0, 1e-9);
}

/// The girder, 4-2x12 of spruce-pine-fir No. 2, posts 6 ft apart: now 600 plf of floor, 48 of the wall and 828 on it: 1476 plf,
/// V = 4428 lb, fv = 1.5 x 4428 / 67.5 = 98.4 psi of 135. With the new posts 2/3 ft off posts of the girder: right of the far
/// one the wall still stands over 5 1/3 ft, 876 x 16/3 = 4672 lb, 8/3 ft from the other end; V = 600 x 3 + 4968 x 8/9 + 4672 x
/// 4/9 = 8292.4 lb and 8/9 of the beam's half, 184.3 psi: over.
#[test]
fn a_girder_under_new_posts_is_checked_again_and_found_overloaded_in_shear() {
    let mut file = two_storeys().file();
    file.levels[0].beams[0].member = Member::plies(4, 2, 12);
    let plan = Plan::try_from(file).unwrap();
    let down = study(&plan, "C", FROM, TO).down;
    let [girder] = down.members.as_slice() else { panic!("{:?}", down.members) };
    near(girder.before.unwrap().shearing.ratio, 98.4 / 135.0, 1e-6);
    // The new posts bring half of the beam's own 12 ft as well.
    let post = 4968.0 + 6.0 * study(&plan, "C", FROM, TO).beams.choices[0].own.0;
    let v = 1800.0 + post * 8.0 / 9.0 + 4672.0 * 4.0 / 9.0;
    near(girder.after.unwrap().shearing.ratio, 1.5 * v / 67.5 / 135.0, 1e-6);
    assert!(girder.overloaded && down.posts.iter().all(|it| it.joists.is_empty() && it.gap < 1e-9));
    assert!(down.pressed.len() >= 4, "posts and pads under the girder: {:?}", down.pressed);
}

/// One storey on the ground: a new pad under each post; the load there is D + L of half of 12 ft of ceiling and the beam.
/// (60 + 120) x 6 = 1080 lb and the beam's half; at 1,500 psf a little over 0.72 sq ft: 11 in; (11 - 3.5) / 2 under 6 in.
#[test]
fn posts_on_the_lowest_level_get_pads_by_hand() {
    let study = study(&ceiling(Joints::Lap).done(), "C", FROM, TO);
    for post in &study.down.posts {
        near(post.pad.unwrap().load.0, 1080.0 + 6.0 * study.beams.choices[0].own.0, 1e-6);
        let side = (post.pad.unwrap().load.0 / 1500.0 * 144.0).sqrt().ceil();
        assert_eq!((post.pad.unwrap().side.0, post.pad.unwrap().thickness.0), (side, 6.0));
        assert!(post.added.is_some() && post.gap < 1e-9 && !post.pad.unwrap().stated);
    }
    assert_eq!(study.proposed.levels()[0].footings.len(), 2);
}

/// The size of a pad is refused where nobody stated the soil, and shown for talking; on clay that is named it is a size.
#[test]
fn a_pad_is_no_size_until_the_soil_is_stated_in_psf_or_by_its_class() {
    let asked = |study: &Study| study.refusals.iter().any(|it| it.about == About::SoilNotStated);
    let bare = study(&ceiling(Joints::Lap).done(), "C", FROM, TO);
    assert!(
        asked(&bare) && bare.down.posts.iter().all(|it| !it.pad.unwrap().stated && !it.sentence.contains("in thick"))
    );
    assert!(bare.down.figures.iter().all(|it| !it.label.starts_with("Pad") || it.value.ends_with("for talking only")));
    let organic = ceiling(Joints::Lap).site(|site| site.soil_class = Some(Soil::Organic)).done();
    assert!(asked(&study(&organic, "C", FROM, TO)));
    for plan in [
        ceiling(Joints::Lap).site(|site| site.soil_class = Some(Soil::Clay)).done(),
        ceiling(Joints::Lap).site(|site| site.soil = Some(Psf(1500.0))).done(),
    ] {
        let stated = study(&plan, "C", FROM, TO);
        assert!(!asked(&stated));
        for (one, other) in stated.down.posts.iter().zip(&bare.down.posts) {
            assert!(one.pad.unwrap().stated && one.sentence.contains("in thick"));
            near(one.pad.unwrap().side.0, other.pad.unwrap().side.0, 1e-12);
        }
    }
}

/// Posts of the girder at 24 ft, 4x6 of spruce-pine-fir No. 2, 96 in high: le / d = 27.43 and FcE = 557.2 psi as of a 4x4, Fc* = 1150
/// x 1.1 = 1265: a = 0.440499, m = 0.900312, Cp = m - sqrt(0.810562 - 0.550624) = 0.390471; 493.9 psi x 19.25 = 9508 lb.
/// Now 1476 x 6 = 8856 lb. With the new post 2/3 ft off: 600 x 6, 8/9 of the post, and of 16/3 ft of wall, 4672 lb, 4/9.
#[test]
fn a_4x6_post_that_holds_8856_lb_is_overloaded_by_the_new_post_beside_it() {
    let mut file = two_storeys().file();
    file.levels[0].posts.iter_mut().for_each(|post| post.member = Member::sawn(4, 6));
    let plan = Plan::try_from(file).unwrap();
    let study = study(&plan, "C", FROM, TO);
    let id = plan.levels()[0].posts.iter().find(|it| it.at == at((24, 12))).unwrap().id;
    let post = study.down.pressed.iter().find(|it| it.node == Node::Post(id)).unwrap();
    let (before, after) = (post.column_before.unwrap(), post.column_after.unwrap());
    near(before.cp, 0.390_471, 1e-6);
    near(before.carries.0, 9508.5, 0.1);
    near(post.before.0, 8856.0, 1e-6);
    let new = 4968.0 + 6.0 * study.beams.choices[0].own.0;
    near(post.after.0, 3600.0 + new * 8.0 / 9.0 + 4672.0 * 4.0 / 9.0, 1e-6);
    near(after.ratio, post.after.0 / after.carries.0, 1e-9);
    assert!(before.passes() && !after.passes() && post.overloaded);
    assert!(work(&plan, &study).contains(&Work::Strengthen));
    // Nobody saw the others' size in the house as it was drawn: it is asked for.
    let bare = self::study(&two_storeys().done(), "C", FROM, TO);
    let posts = bare.down.pressed.iter().filter(|it| matches!(it.node, Node::Post(_)));
    assert!(posts.clone().count() > 1 && posts.clone().all(|it| it.no_figure == Some(NoFigure::SizeNotSeen)));
}

/// The centre wall of the second storey: its posts come down in the one of the first. Of 12 ft of ceiling, 5 + 10 psf, 180 plf:
/// each brings 6 x 180 = 1080 lb and half of the beam, on two studs 2x4 of 96 in: le / d = 32 through the plies, FcE = 409.4 of 1322.5
/// psi, a = 0.309563, m = 0.818477, Cp = 0.818477 - sqrt(0.669904 - 0.386954) = 0.286545, times 0.6: 227.4 psi x 10.5 = 2387 lb.
#[test]
fn the_wall_below_a_post_gets_two_studs_packed_in_it_that_carry_2387_lb() {
    let study = study(&two_storeys().done(), "U", FROM, TO);
    for post in &study.down.posts {
        let [pack] = post.packs.as_slice() else { panic!("{:?}", post.packs) };
        let (studs, column) = pack.studs.unwrap();
        assert_eq!(studs, Member::plies(2, 2, 4));
        near(column.cp, 0.6 * 0.286_545, 1e-5);
        near(column.carries.0, 2387.3, 0.5);
        near(column.ratio, (1080.0 + 6.0 * study.beams.choices[0].own.0) / column.carries.0, 1e-9);
        assert!(post.sentence.contains("right under it 2-2x4 or more"), "{}", post.sentence);
    }
}

/// X152 again, with a header as deep as 3 1/2 in: joists at 3 1/2, 19 1/2 and 35 1/2 in of 48 shear it by 320 x (44.5 + 28.5 + 12.5)
/// / 48 = 570 lb. 240 plf, 960 lb on each prop 4 ft apart. A 4x4 of 96 in carries 6092 lb (Cp = 0.376026, 497.3 psi x 12.25); plate:
/// 960 / (12.25 x 425 x 3.875 / 3.5). Header: joists of 320 lb at mid-span and 16 in beside it: 480 x 2 - 320 x 4/3 = 533.3
/// lb-ft, 895.6 psi on a 4x4 of 7.1458 in^3, F'b = 875 x 1.5.
#[test]
fn a_4x4_prop_of_8_ft_under_960_lb_is_checked_as_a_column_with_its_plates_and_header() {
    let plan = ceiling(Joints::Lap).used_as(Use::AtticStorage).done();
    let wall = plan.wall_named("C").unwrap().id;
    let stretch = Stretch { shoring_offset: Feet(3.0), ..Stretch::of(wall, Feet(FROM), Feet(TO)) };
    for line in take_out(&plan, &stretch).unwrap().shoring.lines {
        let prop = line.prop.unwrap();
        assert_eq!((prop.member, line.no_prop), (Member::sawn(4, 4), None));
        near(prop.apart.0, 4.0, 1e-12);
        near(prop.asked.0, 960.0, 1e-6);
        near(prop.column.cp, 0.376_026, 1e-6);
        near(prop.column.carries.0, 6091.9, 0.1);
        near(prop.column.ratio, 960.0 / prop.column.carries.0, 1e-9);
        near(prop.plate, 960.0 / (12.25 * 425.0 * 3.875 / 3.5), 1e-9);
        let (header, checked) = prop.header.unwrap();
        assert_eq!(header, Member::sawn(4, 4));
        near(checked.moment.0, 1600.0 / 3.0, 1e-6);
        near(checked.shear.0, 570.0, 1e-6);
        near(checked.bending.ratio, 6400.0 / 7.145_833 / 1312.5, 1e-5);
    }
}

/// The same under 230 + 20 psf: 250 x 8 = 2000 plf. Its plates let a 4x4 take 12.25 x 425 x 3.875 / 3.5 = 5764 lb, less than the 6092
/// of the column: 2.882 ft of the line. Joists 16 in apart over props 33 in apart: 16 (1 + 2 x 17 / 33 + 2 x 1 / 33) = 33.45 in, and
/// 34 in apart 34.82, too much. At 16 ft a 4x4 is too slender, 192 / 3.5 = 54.9, and so is a 4x6: a 6x6.
#[test]
fn props_stand_33_in_apart_under_2000_plf_and_are_6x6_where_the_room_is_16_ft_high() {
    let heavy = ceiling(Joints::Lap).used_as(Use::AtticStorage).with(|level| level.fields[0].dead = Some(Psf(230.0)));
    let high = ceiling(Joints::Lap).with(|level| level.height = feet(16));
    for (plan, size, inches) in [(heavy.done(), (4, 4), 33.0), (high.done(), (6, 6), 48.0)] {
        let wall = plan.wall_named("C").unwrap().id;
        let stretch = Stretch { shoring_offset: Feet(3.0), ..Stretch::of(wall, Feet(FROM), Feet(TO)) };
        for line in take_out(&plan, &stretch).unwrap().shoring.lines {
            let prop = line.prop.unwrap();
            assert_eq!(prop.member, Member::sawn(size.0, size.1));
            near(prop.apart.0 * 12.0, inches, 1e-9);
            assert!(prop.column.passes() && prop.plate <= 1.0);
        }
    }
}

/// Joists 24 in apart under 400 + 20 psf: 420 x 8 = 3360 plf, 6720 lb a joist. One right over a prop is all its own, however near the
/// next prop stands: no 4x4 takes that on its plates, 5764 lb. A 4x6: 19.25 x 425 x 5.875 / 5.5 = 8739 lb, 2.601 ft; 29 in apart it
/// has 24 (1 + 2 x 5 / 29) = 32.28 in, 28 in apart 30.86 of the 31.21.
#[test]
fn a_joist_of_6720_lb_right_over_a_prop_is_all_its_own() {
    let heavy = ceiling(Joints::Lap).used_as(Use::AtticStorage).with(|level| {
        level.fields[0].dead = Some(Psf(400.0));
        level.fields[0].spacing = feet(2);
    });
    let plan = heavy.done();
    let wall = plan.wall_named("C").unwrap().id;
    let stretch = Stretch { shoring_offset: Feet(3.0), ..Stretch::of(wall, Feet(FROM), Feet(TO)) };
    for line in take_out(&plan, &stretch).unwrap().shoring.lines {
        near(line.most.0, 3360.0, 1e-6);
        let prop = line.prop.unwrap();
        assert_eq!(prop.member, Member::sawn(4, 6));
        near(prop.apart.0 * 12.0, 28.0, 1e-9);
        near(prop.asked.0, 3360.0 * 2.0 * (1.0 + 2.0 * 4.0 / 28.0), 1e-6);
    }
}

#[test]
fn posts_walls_and_hangers_on_i_joists_ask_for_blocks_and_stiffeners_each_by_name() {
    let mut file = two_storeys().file();
    for level in file.levels.iter_mut().take(2) {
        level.fields[0].member = "I-joist 11 7/8".parse().unwrap();
    }
    let plan = Plan::try_from(file).unwrap();
    let at = |study: &Study| -> Vec<IJoistAt> {
        let one = |about: About| if let About::IJoists { at, .. } = about { Some(at) } else { None };
        study.refusals.iter().filter_map(|it| one(it.about)).collect()
    };
    let dropped = study(&plan, "C", FROM, TO);
    assert_eq!(at(&dropped), [IJoistAt::PostFoot, IJoistAt::OverBeam]);
    assert_eq!(at(&flush(&plan, "C", FROM, TO)), [IJoistAt::PostFoot, IJoistAt::OverBeam, IJoistAt::Hangers]);
    assert!(work(&plan, &dropped).contains(&Work::Squash));
    let plan = two_storeys().done();
    let sawn = study(&plan, "C", FROM, TO);
    assert!(at(&sawn).is_empty() && !work(&plan, &sawn).contains(&Work::Squash));
}

/// A wall along seen joists: nothing lands on it in any reading, so it may simply go once bracing, wires and dust are answered. The
/// same wall under joists of which somebody was only told may carry: it is propped before it is cut. By the drawn house alone
/// nothing is cut.
#[test]
fn a_wall_that_carries_nothing_is_cut_without_props_only_where_that_is_settled() {
    let house = |known| {
        let house = draft().outside(24, 12).inside("W", (4, 6), (20, 6)).joists(Way::X, Joints::RunThrough);
        let plan = house.roof(Way::X, 0).with(|level| level.fields[0].known = known).done();
        let wall = plan.wall_named("W").expect("drawn").id;
        let stretch = Stretch::of(wall, Feet(4.0), Feet(12.0));
        (take_out(&plan, &stretch).expect("a study"), take_out_read(&plan, &stretch, &judge(&plan)).expect("a study"))
    };
    let has = |study: &Study, work: Work| study.steps.iter().any(|it| it.work == work);
    for (known, settled) in [(Grade::Seen, true), (Grade::Told, false)] {
        let (drawn, read) = house(known);
        assert!(drawn.refusals.iter().any(|it| it.about == About::NothingLands), "{:?}", drawn.refusals);
        assert!(drawn.beams.choices.is_empty() && drawn.ends.posts.iter().all(|it| it.choices.is_empty()));
        assert!(!has(&drawn, Work::Cut) && has(&drawn, Work::StopHere));
        // Told: in other readings the joists lap on it, and their loads get a beam, and props before it is cut.
        assert_eq!(read.over.nothing_in_any(), settled);
        assert_eq!((has(&read, Work::Shore), read.beams.choices.is_empty()), (!settled, settled));
        assert!(has(&read, Work::Cut));
    }
}
