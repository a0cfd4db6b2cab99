//! Take-out studies of the situations, and what a study refuses.

use joistwise_core::draft::{at, corners, draft};
use joistwise_core::ids::{BeamId, ObservationId, PostId};
use joistwise_core::loads::{Combination, heaviest};
use joistwise_core::plan::{
    Beam, Grade, Joints, LevelKind, Make, Member, Observation, Photo, Plan, PlanFile, Point, Post, PostKind, Region,
    RoofForm, RoofFrame, Saw, Set, TrussMake, Use, Way, Webs,
};
use joistwise_core::readings::judge;
use joistwise_core::strength::check::Rule;
use joistwise_core::take_out::{
    About, Away, Fate, Meets, Need, NoFigure, OpenUp, Stretch, Study, Work, needs, of_posts, take_out, take_out_read,
};
use joistwise_core::trace::{Node, Problem, trace};
use joistwise_core::units::{Feet, Ticks};
use joistwise_tests::house;

fn plan(name: &str) -> Plan {
    house(&format!("{name}.json"))
}

#[track_caller]
fn of(plan: &Plan, wall: &str, from: f64, to: f64) -> Study {
    let wall = plan.wall_named(wall).expect("a wall of that name").id;
    take_out(plan, &Stretch::of(wall, Feet(from), Feet(to))).expect("a study")
}

#[track_caller]
fn flush(plan: &Plan, wall: &str, from: f64, to: f64) -> Study {
    let wall = plan.wall_named(wall).expect("a wall of that name").id;
    take_out(plan, &Stretch { set: Set::Flush, ..Stretch::of(wall, Feet(from), Feet(to)) }).expect("a study")
}

/// The order of work of a study over all readings: of the house as drawn alone it stops before anything is cut.
fn work(plan: &Plan, study: &Study) -> Vec<Work> {
    let read = take_out_read(plan, &study.stretch, &judge(plan)).expect("a study");
    read.steps.iter().map(|it| it.work).collect()
}

fn abouts(study: &Study) -> Vec<About> {
    study.refusals.iter().map(|it| it.about).collect()
}

#[track_caller]
fn near(got: f64, by_hand: f64, within: f64) {
    assert!((got - by_hand).abs() <= within, "{got} is not {by_hand} within {within}");
}

/// S08: 2x6 at 24 in over 16 ft under storage, no stamp read: 20 + 40 = 60 plf, M = 60 x 256 / 8 = 1920 lb-ft, fb = 3046.6 psi of
/// 1000 x 1.15 (southern pine, the least); live 5 x (40/12) x 192^4 / (384 x 1.3e6 x 20.797) = 2.1817 in of 192 / 240 = 0.8. The
/// longest that L / 240 lets pass: 16 x (0.8 / 2.1817)^(1/3) = 11.45 ft; bending: sqrt(8 x 1150 x 7.5625 / 12 / 60) = 9.830.
#[test]
fn s08_ceiling_joists_under_a_store_fail_without_the_later_wall_that_they_touch() {
    let plan = plan("s08-attic-store");
    let wall = plan.wall_named("P1").unwrap().id;
    let needs = needs(&plan, wall).unwrap();
    assert_eq!(needs.need, Need::WouldFail);
    let after = needs.members[0].after.unwrap();
    near(after.moment.0, 1920.0, 1e-6);
    near(after.live_sag.0, 2.1817, 1e-3);
    near(needs.members[0].longest.unwrap().0, 9.830, 1e-3);
    assert!(abouts(&of(&plan, "P1", 0.0, 12.0)).contains(&About::NotSettled { range: None }));
}

/// S11: nothing lands on C1, the trusses span over it: no size; a beam between trusses would cut them. The girder below is
/// checked all the same: V and M of 11 2/3 ft of 750 plf of floor and C1's 48: M = 798 x 136.11 / 8 = 13577 lb-ft.
#[test]
fn s11_a_wall_under_trusses_gets_no_beam_and_the_girder_is_over_already() {
    let plan = plan("s11-girder-five-posts");
    let study = of(&plan, "C1", 8.0, 20.0);
    assert!(abouts(&study).contains(&About::NothingLands) && study.beams.choices.is_empty());
    assert!(flush(&plan, "C1", 8.0, 20.0).refusals.iter().any(|it| matches!(it.about, About::Trusses { .. })));
    let girder = &study.down.members[0];
    near(girder.before.unwrap().moment.0, 798.0 * (35.0 / 3.0) * (35.0 / 3.0) / 8.0, 1.0);
    assert!(!girder.overloaded && !girder.before.unwrap().passes());
}

/// The posts of S11's girder at these places, in feet.
#[track_caller]
fn posts_out(plan: &Plan, places: &[f64]) -> Stretch {
    let here = |at: Feet| places.iter().any(|x| (at.0 - x).abs() < 0.01);
    let posts: Vec<_> =
        plan.levels().iter().flat_map(|it| &it.posts).filter(|it| here(it.at.x.feet())).map(|it| it.id).collect();
    of_posts(plan, &trace(plan), &posts).expect("a girder on them")
}

/// S11: 15 ft of floor lean on each foot of the girder, 10 + 40 psf, and C1 on it weighs 8 x 6 = 48 plf: 798 plf. Each post
/// has 11 2/3 ft of it, 175 ft2. Without the middle one the new beam spans 23 1/3 ft and its neighbours have
/// (11 2/3 + 23 1/3) / 2 x 15 = 262.5 ft2 each. M = w L^2 / 8: 13,577 lb-ft, and twice the span makes it four times that.
#[test]
fn s11_one_post_out_is_23_333_ft_and_four_times_the_bending_and_its_neighbours_hold_262_5_ft2() {
    let plan = plan("s11-girder-five-posts");
    let girder = &trace(&plan).beams[0];
    near(girder.feeds[0].width().0, 15.0, 1e-9);
    let asked = posts_out(&plan, &[35.0]);
    near(asked.from.0, 23.333, 1e-3);
    let study = take_out(&plan, &asked).unwrap();
    near(study.beams.spans[0].0, 23.333, 1e-3);
    near(study.beams.times.unwrap(), 4.0, 0.01);
    assert_eq!(study.posts.len(), 2);
    for (support, (post, _)) in study.beams.supports.iter().zip(&study.posts) {
        assert_eq!(support.on, Node::Post(*post));
        near(trace(&plan).post(*post).unwrap().top.floor.0 / 40.0, 175.0, 0.1);
        near((support.weights + support.besides).floor.0 / 40.0, 262.5, 0.1);
        near(trace(&study.proposed).post(*post).unwrap().top.floor.0 / 40.0, 262.5, 0.1);
    }
    // D + L on the post, with the beam's own weight on half of the new span.
    let own = study.beams.choices[0].own.0 * 35.0 / 3.0;
    near(study.ends.posts[0].asked.0, 262.5 * 50.0 + 48.0 * 17.5 + own, 5.0);
    let [girder] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
    assert_eq!((girder.fate, girder.meets, girder.count), (Fate::Falls, Meets::Lap, 1));
    near(girder.before.unwrap().moment.0, 798.0 * (35.0 / 3.0) * (35.0 / 3.0) / 8.0, 1.0);
    // The wall above counts: 23 1/3 ft of it stand here.
    let [(node, weights)] = study.loses.others.as_slice() else { panic!("{:?}", study.loses.others) };
    assert_eq!(*node, Node::Wall(plan.wall_named("C1").unwrap().id));
    near(weights.dead.0, 48.0 * 70.0 / 3.0, 0.1);
    // Both pads, 3 ft 6 in square, now bear 13,965 lb and half of the new beam: 1,164 psf; 1,500 psf is what the soil is taken to bear.
    let pads: Vec<_> = study.down.pressed.iter().filter(|it| it.pressure.is_some()).collect();
    assert_eq!(pads.len(), 2);
    for pad in pads {
        near(pad.after.0, 13_965.0 + own, 5.0);
        near(pad.pressure.unwrap().0, (13_965.0 + own) / 12.25, 0.5);
    }
    // Props stand beside the girder, on both sides: 50 psf x 15^2 / (2 x 13) and C1's half with its lever.
    assert_eq!(study.shoring.lines.len(), 2);
    near(study.shoring.lines[0].most.0, 50.0 * 225.0 / 26.0 + 24.0 * 15.0 / 13.0, 0.1);
    assert!(abouts(&study).contains(&About::OnTopOrHung) && !abouts(&study).contains(&About::Bracing));
    assert!(study.refusals.iter().all(|it| !it.blocks) && !study.beams.choices.is_empty());
    assert!(work(&plan, &study).contains(&Work::Cut));
}

/// Four times the span: sixteen times the bending, and beyond any beam that is picked from a table.
#[test]
fn s11_three_posts_out_are_46_667_ft_sixteen_times_the_bending_and_beyond_common_beams() {
    let plan = plan("s11-girder-five-posts");
    let asked = posts_out(&plan, &[23.333, 35.0, 46.667]);
    let study = take_out(&plan, &asked).unwrap();
    near(study.beams.spans[0].0, 46.667, 1e-3);
    near(study.beams.times.unwrap(), 16.0, 0.01);
    assert!(
        study.refusals.iter().any(|it| it.blocks && matches!(it.about, About::BeyondTables { span } if span.0 > 46.6))
    );
    assert!(study.beams.choices.is_empty());
    // Two new posts in their place, at x = 27 and 43, each on a new pad; the posts that stay keep theirs.
    let study = take_out(&plan, &Stretch { posts_between: vec![Feet(27.0), Feet(43.0)], ..asked }).unwrap();
    let added: Vec<bool> = study.down.posts.iter().map(|it| it.added.is_some()).collect();
    assert_eq!(added, [false, true, true, false]);
    assert!(work(&plan, &study).contains(&Work::Pads) && study.down.open_up == [OpenUp::Slab]);
    near(study.beams.spans.iter().map(|it| it.0).fold(0.0, f64::max), 16.0, 1e-6);
}

/// The first post out: the new beam lies in the pocket of the foundation wall, and no post is put there.
#[test]
fn the_first_post_of_a_girder_out_leaves_the_beam_on_the_foundation_wall() {
    let plan = plan("s11-girder-five-posts");
    let study = take_out(&plan, &posts_out(&plan, &[11.667])).unwrap();
    near(study.stretch.from.0, 0.0, 1e-9);
    assert_eq!((study.beams.supports.len(), study.posts.len(), study.ends.posts.len()), (2, 1, 1));
    assert!(matches!(study.beams.supports[0].on, Node::Wall(_)));
    let labels: Vec<&str> = study.beams.figures.iter().map(|it| it.label.as_str()).take(2).collect();
    assert!(labels[0].starts_with("Support 1 of 2") && labels[1].starts_with("Post 2 of 2"), "{labels:?}");
    near(study.beams.spans[0].0, 23.333, 1e-3);
    let left = |plan: &Plan| trace(plan).ledger.worst_share_off();
    near(left(&study.proposed), 0.0, 1e-9);
}

/// A post at an end of its beam cannot go, the two between can.
#[test]
fn a_post_that_holds_the_end_of_its_beam_is_no_study() {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (4, 12), (28, 12), Joints::Lap);
    for x in [4, 12, 20, 28] {
        house = house.post("", (x, 12)).pad((x, 12), 3);
    }
    let plan = house.done();
    let asked = |it: usize| of_posts(&plan, &trace(&plan), &[plan.levels()[0].posts[it].id]);
    assert_eq!([0, 1, 2, 3].map(|it| asked(it).is_some()), [false, true, true, false]);
    assert_eq!(of_posts(&plan, &trace(&plan), &[plan.levels()[0].posts[0].id, plan.levels()[0].posts[1].id]), None);
}

/// A girder in one piece that sticks out 2 ft past its first post: cut over that post, those 2 ft rest on nothing else.
#[test]
fn an_end_of_a_beam_that_is_cut_off_on_one_post_is_refused() {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (4, 12), (32, 12), Joints::RunThrough);
    for x in [6, 16, 24, 32] {
        house = house.post("", (x, 12)).pad((x, 12), 3);
    }
    let plan = house.done();
    let study = |it: usize| {
        let asked = of_posts(&plan, &trace(&plan), &[plan.levels()[0].posts[it].id]).unwrap();
        take_out(&plan, &asked).unwrap()
    };
    let falls = |it: &Study| abouts(it).iter().any(|it| matches!(it, About::RestFalls { .. }));
    let (cut, clear) = (study(1), study(2));
    assert!(falls(&cut) && cut.beams.choices.is_empty(), "{:?}", cut.refusals);
    assert!(!falls(&clear) && !clear.beams.choices.is_empty(), "{:?}", clear.refusals);
    // Where the soil is not stated, a pad is spoken of in a whole sentence.
    assert!(
        clear.down.posts[0]
            .sentence
            .ends_with("it needs a pad, of no size here, for what the soil bears is not stated.")
    );
}

/// Posts on joists beside a girder, the light one first: the joists under the heavy one are checked, as in the mirrored house.
#[test]
fn of_two_posts_on_the_joists_of_one_field_the_heavier_is_checked() {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (0, 12), (36, 12), Joints::Lap);
    house = house.up().outside(36, 24).inside("C", (0, 8), (36, 8)).joists(Way::Y, Joints::Lap);
    let plan = house.done();
    let wall = plan.wall_named("C").unwrap().id;
    let worst = |between: f64| {
        let posts_between = vec![Feet(between)];
        let study = take_out(&plan, &Stretch { posts_between, ..Stretch::of(wall, Feet(10.0), Feet(26.0)) }).unwrap();
        let joists = study.down.members.iter().find(|it| matches!(it.node, Node::Field(_))).unwrap();
        joists.after.unwrap().moment.0
    };
    near(worst(12.0) / worst(24.0), 1.0, 1e-9);
}

/// S12a: an 8 ft beam under joists that span 22 ft since their wall was taken: 11 ft of floor lean on it by the trade's halves,
/// 88 ft2, 44 ft2 to each end. Joists in one piece put 5/4 of that on it: 1.25 x 11 x 30 = 412.5 plf live.
#[test]
fn s12a_a_new_beam_under_22_ft_joists_has_11_ft_of_floor_and_the_joists_are_propped_first() {
    let plan = plan("s12a-wall-taken-out");
    let level = plan.levels()[1].id;
    let stretch = Stretch::new(Away::Nothing { level, a: at((0, 11)), b: at((30, 11)) }, Feet(11.0), Feet(19.0));
    let study = take_out(&plan, &stretch).unwrap();
    near(study.stretch.from.0, 11.0, 1e-9);
    near(study.stretch.to.0, 19.0, 1e-9);
    let proposed = trace(&study.proposed);
    let beam = proposed.beam(study.beam).unwrap();
    let area: f64 = beam.feeds.iter().map(|it| it.width().0 * (it.end - it.start).0).sum();
    near(area, 88.0, 1e-6);
    near(area / 8.0, 11.0, 1e-9);
    near(area / 2.0, 44.0, 1e-6);
    for part in &study.beams.line {
        near(part.loads.floor.0, 412.5, 1e-6);
    }
    near(study.lands.all.floor.0, study.beams.all.floor.0, 1e-6);
    assert_eq!(study.steps[0].work, Work::PropNow);
    let [joists] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
    near(joists.new_span.unwrap().0, 22.0, 1e-9);
    near(joists.old_span.0, 11.0, 1e-9);
    assert_eq!(joists.fate, Fate::Fails);
    // Posts at 11 and 19 ft, over the girder of the basement with blocks, between its posts at 10 and 20 ft: it is checked.
    let girder = plan.levels()[0].beams[0].id;
    for post in &study.down.posts {
        assert_eq!(post.on, [Node::Beam(girder)]);
        assert!(post.joists.is_empty() && post.gap < 1e-9);
    }
    assert!(work(&plan, &study).contains(&Work::Blocks) && !work(&plan, &study).contains(&Work::Cut));
    let [reloaded] = study.down.members.as_slice() else { panic!("{:?}", study.down.members) };
    assert_eq!(reloaded.node, Node::Beam(girder));
    // As it stands it has 11 ft of floor, 50 psf, on 10 ft: 550 x 100 / 8 = 6,875 lb-ft.
    near(reloaded.before.unwrap().moment.0, 6875.0, 1e-6);
    assert!(reloaded.after.unwrap().moment.0 > 6875.0);
    assert_eq!(study.without.levels()[1].walls, plan.levels()[1].walls);
}

/// S12b: the posts of a new beam would stand on floor joists that cantilever: their path opens a gap, and it is said first.
#[test]
fn s12_posts_on_a_cantilevered_floor_have_nowhere_to_go() {
    let plan = plan("s12b-second-roof-over-first");
    let study = of(&plan, "M1", 2.0, 8.0);
    assert!(study.loses.gaps.iter().any(|it| matches!(it.problem, Problem::MembersUnsupported { .. })));
    for post in &study.down.posts {
        near(post.gap, 1.0, 1e-6);
    }
    assert!(study.down.open_up.contains(&OpenUp::Ground));
    assert!(work(&plan, &study).contains(&Work::Pads));
}

/// S14: rafters lean on K1; a beam in its place would not meet them, so no size is named. Under W1 the low walls come through
/// the floor joists, and stand on nothing of their own.
#[test]
fn s14_a_low_wall_under_rafters_is_not_replaced_by_a_beam_from_a_list() {
    let plan = plan("s14-low-walls-under-rafters");
    let study = of(&plan, "K1", 8.0, 20.0);
    // Rafters at 16 in that lean on K1 over 12 ft: 8 between its ends, and what they span then.
    let [rafters] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
    assert_eq!((rafters.fate, rafters.no_figure, rafters.count), (Fate::Passes, None, 8));
    near(rafters.old_span.0, 8.0, 1e-6);
    near(rafters.new_span.unwrap().0, 12.0, 1e-6);
    // 2x8 at 16 in, 12 in 12: 15 x 1.41421 + 20 = 41.2132 psf of plan under D + Lr: M = 54.951 x 144 / 8 = 989.12 lb-ft whatever
    // the slope. D + S, 17.5 psf, governs: 929.12 lb-ft on 13.1406 in^3, F'b = 925 x 1.15 x 1.15 = 1223.3 psi (no stamp read: southern pine is the
    // least). Sag square to the slope under 20 psf: 5 x 2.2222 x 144^4 / (384 x 1.3e6 x 47.634) / cos^2 = 0.40182 in; L / 180 of 16.971 ft is 1.1314.
    let after = rafters.after.unwrap();
    near(after.moment.0, 989.117, 1e-3);
    near(after.bending.ratio, 929.117 * 12.0 / 13.140_625 / 1_223.312_5, 1e-4);
    assert_eq!((after.bending.under, after.live_limit), (Combination::DeadSnow, 180.0));
    near(after.live_sag.0, 0.401_82, 1e-5);
    near(after.live.ratio, 0.401_82 / 1.131_37, 1e-4);
    assert!(rafters.before.unwrap().passes());
    assert!(abouts(&study).iter().any(|it| matches!(it, About::NotFollowed { node: Node::Roof(_) })));
    assert!(study.beams.choices.is_empty());
    let study = of(&plan, "W1", 8.0, 20.0);
    assert!(study.loses.others.is_empty() && !study.beams.choices.is_empty());
    assert!(study.loses.members.iter().all(|it| it.fate == Fate::Falls));
}

/// S07: struts on W1, of which 14 to 24 ft along the house go, six rafters with their ends, hold a purlin in the middle of rafters 2x6 at 24 in over 15 ft of plan, 6 in 12, with a tail of 1 ft: (15 x
/// 1.11803 + 17.5) x 2 = 68.541 plf under D + S. Without the purlin the head keeps w (225 - 1) / 30 = 7.4667 w, and M = 7.4667^2 w /
/// 2 = 27.8756 w = 1910.6 lb-ft, 3031.7 psi of 1000 x 1.15 x 1.15 = 1322.5 (no stamp read).
#[test]
fn s07_rafters_on_a_purlin_whose_struts_stand_on_the_wall_fail_without_it() {
    let plan = plan("s07-struts-on-inside-walls");
    let study = of(&plan, "W1", 10.0, 20.0);
    let rafters = study.loses.members.iter().find(|it| it.purlin.is_some()).expect("rafters on a purlin");
    assert_eq!((rafters.fate, rafters.count), (Fate::Fails, 6));
    near(rafters.old_span.0, 7.5, 1e-6);
    near(rafters.new_span.unwrap().0, 15.0, 1e-6);
    let (before, after) = (rafters.before.unwrap(), rafters.after.unwrap());
    let w = (15.0 * 1.25_f64.sqrt() + 17.5) * 2.0;
    near(after.bending.ratio, 27.875_56 * w * 12.0 / 7.5625 / 1322.5, 1e-4);
    assert!(before.passes() && !after.passes());
}

/// S07 with a girder on five posts where W1 stands: a post out from under it leaves the struts on the beam.
#[test]
fn struts_stand_on_a_beam_that_loses_a_post_and_no_rafter_loses_its_purlin() {
    let mut file = PlanFile::from(&plan("s07-struts-on-inside-walls"));
    let level = file.levels.last_mut().unwrap();
    let wall = level.walls.remove(level.walls.iter().position(|it| it.name == "W1").unwrap());
    let (a, b, joints) = (wall.a, wall.b, Joints::Lap);
    let (set, member) = (Set::Dropped, Member::default());
    level.beams.push(Beam {
        id: BeamId::from_number(900),
        name: String::new(),
        a,
        b,
        member,
        set,
        joints,
        wood: Default::default(),
    });
    for number in 0..5 {
        let along = Ticks::from_decimal_feet((b.x - a.x).feet() * (f64::from(number) / 4.0)).unwrap();
        let (at, kind) = (Point::new(a.x + along, a.y), PostKind::Wood);
        level.posts.push(Post {
            id: PostId::from_number(901 + number),
            name: String::new(),
            at,
            kind,
            member,
            wood: Default::default(),
        });
    }
    let plan = Plan::try_from(file).unwrap();
    let asked = of_posts(&plan, &trace(&plan), &[PostId::from_number(903)]).unwrap();
    let study = take_out(&plan, &asked).unwrap();
    assert!(study.loses.others.iter().any(|it| matches!(it.0, Node::Purlin(_))), "struts stand on it");
    assert!(study.loses.members.iter().all(|it| matches!(it.of, Node::Beam(_))), "{:?}", study.loses.members);
}

/// Trusses over a wall that was named as a bearing of theirs: no size, and no check of them; at an outside wall they end, fall
/// without it, and a beam right under their ends is no matter of the truss.
#[test]
fn trusses_that_bear_on_an_inside_wall_are_refused_in_a_sentence_of_their_own() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).wall(|wall| wall.truss_bearing = true);
    let house = house.roof(Way::X, 1).over(|roof| {
        roof.frame = RoofFrame::Trusses { make: TrussMake::InsideBearing, webs: Webs::Whole };
    });
    let plan = house.snow(25.0).done();
    let study = of(&plan, "C", 8.0, 20.0);
    assert!(abouts(&study).iter().any(|it| matches!(it, About::TrussSeat { .. })), "{:?}", study.refusals);
    assert!(study.beams.choices.is_empty() && study.shoring.lines.iter().all(|it| it.prop.is_none()));
    let [trusses] = study.loses.members.as_slice() else { panic!("{:?}", study.loses.members) };
    assert_eq!((trusses.no_figure, trusses.fate), (Some(NoFigure::Truss), Fate::NotKnown));
    let south = plan.levels()[0].walls[0].id;
    let outside = take_out(&plan, &Stretch::of(south, Feet(8.0), Feet(20.0))).unwrap();
    assert!(outside.refusals.iter().all(|it| !matches!(it.about, About::TrussSeat { .. })));
    assert!(outside.loses.members.iter().all(|it| it.fate == Fate::Falls && it.no_figure == Some(NoFigure::Truss)));
}

/// S15: the post stands 1.2 ft beside the girder, on joists.
#[test]
fn s15_a_post_beside_the_girder_stands_on_joists_and_they_are_checked() {
    let study = of(&plan("s15-post-beside-girder"), "W1", 0.0, 12.0);
    for post in &study.down.posts {
        assert_eq!(post.joists.len(), 1);
        near(post.gap, 0.0, 1e-9);
        assert!(post.on.iter().any(|it| matches!(it, Node::Beam(_))));
    }
    let joists = study.down.members.iter().find(|it| matches!(it.node, Node::Field(_))).unwrap();
    let (before, after) = (joists.before.unwrap(), joists.after.unwrap());
    assert_eq!(after.governing().rule, Rule::Shear);
    assert!(after.shearing.ratio > before.shearing.ratio && after.shearing.ratio > 1.0);
}

/// S17: the stud pack at the end of the wall stays a post of the study; what the wall is for is not settled.
#[test]
fn s17_the_stud_pack_stays_and_no_size_is_named_while_nothing_is_known_to_land() {
    let plan = plan("s17-stud-pack-at-wall-end");
    let study = of(&plan, "W1", 0.0, 12.0);
    let pack = plan.levels()[0].posts[0].id;
    assert_eq!(study.posts[0].0, pack);
    assert!(abouts(&study).contains(&About::NotSettled { range: None }) && study.beams.choices.is_empty());
}

#[test]
fn every_study_asks_whether_the_wall_braces_the_house_and_begins_with_an_engineer() {
    let mut stopped = 0;
    for name in ["s01-gable-ranch", "s14-low-walls-under-rafters", "s16-two-hall-walls"] {
        let plan = plan(name);
        let wall = plan.levels().iter().flat_map(|level| &level.walls).find(|wall| !wall.name.is_empty()).unwrap().id;
        let study = take_out(&plan, &Stretch::of(wall, Feet(1.0), Feet(7.0))).unwrap();
        assert!(abouts(&study).contains(&About::Bracing));
        let steps = work(&plan, &study);
        if steps.contains(&Work::StopHere) {
            // What stands on it is not held by anything that this study knows: nothing is cut.
            assert!(!steps.contains(&Work::Cut) && steps.last() == Some(&Work::StopHere), "{name}: {steps:?}");
            stopped += 1;
            continue;
        }
        let order: Vec<usize> = [Work::Engineer, Work::Shore, Work::Posts, Work::Cut, Work::Beam, Work::Lower]
            .map(|one| steps.iter().position(|it| *it == one).unwrap())
            .to_vec();
        assert!(order.is_sorted(), "{name}: {order:?}");
    }
    assert!(stopped < 3);
}

#[test]
fn ties_cut_by_a_flush_beam_are_held_before_the_wall_is_cut_and_hangers_are_on_before_props_go() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap).roof(Way::X, 1);
    let plan = house.snow(30.0).done();
    let study = flush(&plan, "C", 4.0, 14.0);
    let place = |one: Work| work(&plan, &study).iter().position(|it| *it == one).unwrap();
    assert!(place(Work::Tie) < place(Work::Cut) && place(Work::Hangers) < place(Work::Lower));
    let [ties] = study.loses.ties.as_slice() else { panic!("{:?}", study.loses.ties) };
    near(ties.loose.snow.0, ties.thrust.snow.0 * 10.0, 1e-9);
    assert_eq!(study.shoring.thrust, Some(ties.loose));
}

#[test]
fn distress_masonry_hips_and_cantilevers_block_every_size_and_are_named() {
    let house = || draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    let sag = Observation {
        id: ObservationId::from_number(900),
        at: at((18, 12)),
        saw: Saw::Sag { by: Ticks::from_sixteenths(10) },
        known: Grade::Seen,
        note: String::new(),
        day: String::new(),
        photo: Photo::default(),
    };
    let sagging = house().with(|level| level.observations.push(sag)).done();
    let masonry = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).wall(|wall| wall.make = Make::Masonry);
    let masonry = masonry.joists(Way::Y, Joints::Lap).done();
    let long = draft().outside(80, 24).inside("C", (0, 12), (80, 12)).joists(Way::Y, Joints::Lap).done();
    for (plan, to) in [(&sagging, 14.0), (&masonry, 14.0), (&long, 40.0)] {
        let study = of(plan, "C", 4.0, to);
        let blocks: Vec<_> = study.refusals.iter().filter(|it| it.blocks).collect();
        assert_eq!(blocks.len(), 1, "{:?}", study.refusals);
        assert!(study.beams.choices.is_empty() && study.ends.posts.iter().all(|it| it.choices.is_empty()));
        assert!(!blocks[0].sentence.is_empty() && !study.loses.members.is_empty());
    }
    // Joists of a bay that run 2 ft past the wall and end there.
    let mut bay = draft().outside(36, 24).inside("C", (0, 12), (36, 12));
    bay = bay.joists_over(Region::Corners(corners((0, 0), (36, 14))), Way::Y, Joints::RunThrough);
    let study = of(&bay.done(), "C", 4.0, 14.0);
    assert!(study.refusals.iter().any(|it| it.blocks && matches!(it.about, About::Cantilever { .. })));
    let free = of(&house().done(), "C", 4.0, 14.0);
    assert!(free.refusals.iter().all(|it| !it.blocks) && !free.beams.choices.is_empty());
    let hip = house().inside("H", (12, 0), (12, 24)).roof(Way::X, 1).over(|roof| roof.form = RoofForm::Hip).done();
    let study = of(&hip, "H", 6.0, 14.0);
    assert!(study.refusals.iter().any(|it| matches!(it.about, About::HipOrValley { .. })), "{:?}", study.refusals);
}

#[test]
fn a_wall_whose_role_hangs_on_what_nobody_saw_says_its_range() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::NotSeen).roof(Way::X, 0);
    let plan = house.with(|level| level.fields[0].known = Grade::Assumed).done();
    let study = of(&plan, "C", 4.0, 14.0);
    assert!(abouts(&study).contains(&About::NotSettled { range: None }));
    let read = take_out_read(&plan, &study.stretch, &judge(&plan)).unwrap();
    let settled = read.refusals.iter().find_map(|it| match it.about {
        About::NotSettled { range } => range,
        _ => None,
    });
    let (least, most) = settled.expect("a range");
    assert!(least < most, "{least:?} to {most:?}");
    // Joists that run through put 5/4 of the halves on the wall: the house of that reading is what is sized for.
    near(most.0, 1.25 * heaviest(&study.lands.all, plan.site()).0.0, 1e-6);
    near(read.beams.all.floor.0, 1.25 * study.beams.all.floor.0, 1e-6);
    assert!(read.beams.supports[0].most > study.beams.supports[0].most);
}

/// Posts of a girder 6 ft apart under 600 plf of floor and 228 of the wall and its ceiling: 4968 lb. In the proposed house the one at
/// 18 ft has 3600 lb of floor, 1/9 of the new post 2/3 ft right of the one at 12 ft, and of the wall left there, 2/3 ft, 1/18. The
/// new post brings 180 plf over 6 ft, and half of the beam. In the reading in which the joists run through, that house has 5/4 of the
/// 180 plf everywhere on the wall.
#[test]
fn what_stands_below_the_new_posts_is_loaded_by_the_worst_reading_and_the_beam_itself() {
    let mut house = draft().kind(LevelKind::Basement).outside(36, 24).joists(Way::Y, Joints::Lap);
    house = house.beam("Girder", (0, 12), (36, 12), Joints::Lap);
    for x in [6, 12, 18, 24, 30] {
        house = house.post("", (x, 12)).pad((x, 12), 3);
    }
    house = house.up().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::NotSeen);
    let house = house.used_as(Use::AtticBare).roof(Way::X, 0);
    let looked = Observation {
        id: ObservationId::from_number(900),
        at: at((18, 12)),
        saw: Saw::NoBeamOver,
        known: Grade::Seen,
        note: String::new(),
        day: String::new(),
        photo: Photo::default(),
    };
    let plan = house.with(|level| {
        level.fields[0].known = Grade::Assumed;
        level.observations.push(looked);
    });
    let plan = plan.done();
    let stretch = Stretch::of(plan.wall_named("C").unwrap().id, Feet(38.0 / 3.0), Feet(74.0 / 3.0));
    let post = plan.levels()[0].posts.iter().find(|it| it.at == at((18, 12))).unwrap().id;
    let read = take_out_read(&plan, &stretch, &judge(&plan)).unwrap();
    // Joists that run through over two equal spans.
    let worst = 1.25;
    for (study, times) in [(take_out(&plan, &stretch).unwrap(), 1.0), (read, worst)] {
        let new = 180.0 * 6.0 * times + study.beams.choices[0].own.0 * 6.0;
        let wall = 48.0 + 180.0 * times;
        let after = 3600.0 + new / 9.0 + wall * (2.0 / 3.0) / 18.0;
        let pressed = study.down.pressed.iter().find(|it| it.node == Node::Post(post)).unwrap();
        near(pressed.before.0, 3600.0 + 6.0 * wall, 1e-6);
        near(pressed.after.0, after, 1e-6);
        // Its pad, 3 x 3 ft, presses the soil by the same.
        let pad = study.down.pressed.iter().filter_map(|it| it.pressure.map(|psf| psf.0 * 9.0));
        assert!(pad.clone().any(|it| (it - after).abs() < 1e-6), "{after} of {:?}", pad.collect::<Vec<_>>());
        for line in &study.shoring.lines {
            near(line.each.0, line.most.0 * 4.0, 1e-9);
        }
    }
}

/// Ages decide what is tested for.
#[test]
fn a_house_of_1990_is_not_tested_for_lead_and_one_of_1950_is() {
    for (year, tests) in [(1950, 2), (1979, 1), (1990, 0)] {
        let seen = Observation {
            id: ObservationId::from_number(900),
            at: at((1, 1)),
            saw: Saw::Age { year },
            known: Grade::Told,
            note: String::new(),
            day: String::new(),
            photo: Photo::default(),
        };
        let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
        let plan = house.with(|level| level.observations.push(seen)).done();
        let study = of(&plan, "C", 4.0, 14.0);
        let tested = |it: &Work| matches!(it, Work::Lead { .. } | Work::Asbestos { .. });
        assert_eq!(study.steps.iter().filter(|it| tested(&it.work)).count(), tests);
    }
}

/// Three spans of 8 ft under 600 plf of floor and ceiling: by three moments with live load on spans 1 and 3 the greatest
/// sagging moment is over that of all loads; a post between takes it down from 24 ft to 8.
#[test]
fn posts_between_make_a_beam_of_spans_and_live_load_is_taken_off_and_on() {
    let mut house = draft().kind(LevelKind::Basement).outside(48, 24).inside("B", (0, 12), (48, 12));
    house = house.joists(Way::Y, Joints::Lap).up().outside(48, 24).inside("C", (0, 12), (48, 12));
    let plan = house.joists(Way::Y, Joints::Lap).done();
    let wall = plan.wall_named("C").unwrap().id;
    let (from, to) = (Feet(38.0 / 3.0), Feet(110.0 / 3.0));
    let between = vec![Feet(62.0 / 3.0), Feet(86.0 / 3.0)];
    let study = take_out(&plan, &Stretch { posts_between: between, ..Stretch::of(wall, from, to) }).unwrap();
    assert_eq!(study.beams.spans.len(), 3);
    // Equal spans, w L^2: sagging 0.080 dead + 0.101 live; hogging 0.100 dead + 0.117 live (three-span beam, by three moments).
    let own = study.beams.choices[0].own.0;
    let hogging = (0.1 * (120.0 + own) + 0.116_667 * 480.0) * 64.0;
    near(study.beams.choices[0].checked.moment.0, hogging, 0.5);
    let most = study.beams.supports[1].most.0;
    near(most, (1.1 * (120.0 + own) + 1.2 * 480.0) * 8.0, 1.0);
}

#[test]
fn a_partition_under_the_new_beam_is_named_and_not_counted_on() {
    let house = draft().outside(36, 24).inside("C", (0, 12), (36, 12)).inside("T", (9, 0), (9, 12));
    let study = of(&house.joists(Way::Y, Joints::Lap).done(), "C", 4.0, 14.0);
    let presses = abouts(&study).iter().any(|it| matches!(it, About::PressesOn { node: Node::Wall(_) }));
    assert!(presses && study.beams.supports.len() == 2 && !study.beams.choices.is_empty());
}

/// Where nobody saw a girder's joints, a study of its posts does not say that its pieces meet there.
#[test]
fn a_girder_whose_joints_nobody_saw_is_not_said_to_meet_over_its_post() {
    let told = |joints| {
        let mut file = PlanFile::from(&plan("s11-girder-five-posts"));
        file.levels.iter_mut().flat_map(|it| &mut it.beams).for_each(|it| it.joints = joints);
        let plan = Plan::try_from(file).unwrap();
        take_out(&plan, &posts_out(&plan, &[35.0])).unwrap().loses.members[0].sentence.clone()
    };
    assert!(told(Joints::NotSeen).starts_with("Nobody saw whether"), "{}", told(Joints::NotSeen));
    assert!(told(Joints::Lap).contains("meet over the post"), "{}", told(Joints::Lap));
}
