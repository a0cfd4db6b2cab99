//! Houses on which the trace was once wrong, each with the right figures worked by hand beside it.

use joistwise_core::ids::{BeamId, PostId, WallId};
use joistwise_core::plan::Plan;
use joistwise_core::trace::{Node, Role, Trace, WallTrace, trace};
use joistwise_core::units::Pounds;
use joistwise_tests::{house, symptom, wall};

fn traced(name: &str) -> (Plan, Trace) {
    let plan = symptom(name);
    let trace = trace(&plan);
    assert!(trace.ledger.worst_share_off() < 1e-9, "{name}: {:?}", trace.ledger);
    (plan, trace)
}

/// All that lands on a wall.
#[track_caller]
fn on_wall_lb(trace: &Trace, id: u32) -> f64 {
    trace.wall(WallId::from_number(id)).expect("the wall").top.all().0
}

#[track_caller]
fn wall_of(trace: &Trace, id: u32) -> &WallTrace {
    trace.wall(WallId::from_number(id)).expect("the wall")
}

/// Where a wall is taken for nothing and has a load all the same, in pounds.
fn loaded_for_nothing_lb(wall: &WallTrace) -> f64 {
    let nothing = wall.stretches.iter().filter(|it| it.role == Role::NothingFound);
    nothing
        .map(|it| {
            let line = wall.line.iter().map(|part| {
                let run = part.end.min(it.end) - part.start.max(it.start);
                part.loads.all().0.abs() * run.0.max(0.0)
            });
            let points = wall.points.iter().filter(|point| it.start < point.at && point.at < it.end);
            line.sum::<f64>() + points.map(|point| point.weights.all().0.abs()).sum::<f64>()
        })
        .sum()
}

/// All that lands on a beam.
#[track_caller]
fn on_beam_lb(trace: &Trace, id: u32) -> f64 {
    trace.beam(BeamId::from_number(id)).expect("the beam").top.all().0
}

#[track_caller]
fn near(what: &str, got: f64, want: f64, tolerance: f64) {
    assert!((got - want).abs() <= tolerance, "{what}: {got} lb, by hand {want} lb");
}

/// Joists of 12 ft on both sides lap on a girder of 20 ft over a cross wall at 10 ft: (12 / 2 + 12 / 2) x 50 psf = 600 plf
/// from 8 in to 20 ft less 8 in, since the end joists, with strips of 8 in, lie on the side walls: 11,200 lb.
///
/// In two pieces, each with 5,600 lb whose middle is 5.333 ft from the end: 5,600 x (10 - 5.333) / 10 = 2,613.3 lb at each
/// end, 2 x 2,986.7 = 5,973.3 lb in the middle. In one piece three moments, with a = 0.667 ft without load at the ends:
/// M = w (L2 (L2 - a2) / 2 - (L4 - a4) / 4) / (2 L2) = 600 x (4,977.78 - 2,499.95) / 200 = 7,433.5 lb-ft over the wall, so
/// 743.35 lb less at each end and twice that more in the middle: 1,870.0 / 7,460.0 lb.
#[test]
fn a_girder_has_its_own_joints_whatever_was_seen_of_the_joists_over_its_wall_in_lb() {
    let lapped = [2613.33, 5973.33, 2613.33];
    let through = [1869.98, 7460.04, 1869.98];
    for (name, want) in [
        ("wall-joints-open-beam-lap", lapped),
        ("wall-joints-run-through-beam-lap", lapped),
        ("wall-joints-open-beam-run-through", through),
        ("wall-joints-lap-beam-run-through", through),
    ] {
        let (_, trace) = traced(name);
        let girder = trace.beam(BeamId::from_number(10)).expect("the girder");
        let rests: Vec<f64> = girder.rests.iter().map(|rest| rest.weights.all().0).collect();
        assert_eq!(rests.len(), 3, "{name}: {rests:?}");
        rests.iter().zip(want).for_each(|(got, want)| near(name, *got, want, 0.05));
    }
}

/// 30 x 24 ft at 50 psf, lapped on a girder at 12 ft, a stair of 42 x 96 in against it with its trimmer at x = 10 ft. The
/// layout leaves 8 in over, so the end joists have strips of 6 in and lie on the side walls. South of the girder:
/// 29 x 12 x 50 - 3.5 x 8 x 50 = 16,000 lb, and the stair lies midway, so half of it, 8,000 lb, goes to the south wall; north
/// of it 29 x 12 x 50 / 2 = 8,700 lb to each side. The girder: 16,700 lb. A post under the girder changes nothing.
#[test]
fn a_trimmer_over_a_girder_rests_on_the_girder_also_where_a_post_stands_under_it_in_lb() {
    for name in ["trimmer-post-beside", "trimmer-post"] {
        let (_, trace) = traced(name);
        near(name, on_wall_lb(&trace, 2), 8000.0, 1e-6);
        near(name, on_wall_lb(&trace, 4), 8700.0, 1e-6);
        near(name, on_beam_lb(&trace, 10), 16700.0, 1e-6);
        let post = trace.post(PostId::from_number(11)).expect("the post");
        assert_eq!(post.from.len(), 1, "{name}: {:?}", post.from);
        assert!(post.from.iter().all(|it| it.1.all() > Pounds(0.0)), "{name}: {:?}", post.from);
    }
}

/// An upper wall of 20 ft with 8,160 lb stands 5 in north of a bearing wall, over joists that run north to south, 12 ft to the
/// north wall. South of the bearing wall, under the same 20 ft, the joists run east to west.
///
/// By the lever rule the end joist, on the east wall, takes what is near it: of the 360 plf from above, which end 8 in short of
/// it, 240 lb x 0.25 = 60 lb, and half of 16 in of the wall itself, 48 plf: 32 lb. Of the rest 139 / 144 comes to the bearing
/// wall: (8,160 - 92) x 139 / 144 = 7,787.9 lb.
#[test]
fn a_wall_beside_a_field_that_turns_stands_on_the_joists_that_are_under_it_in_lb() {
    let (_, trace) = traced("beside-turned-field");
    let (upper, cross) = (Node::Wall(WallId::from_number(38)), wall_of(&trace, 9));
    let to = |id: u32| {
        let to = Node::Wall(WallId::from_number(id));
        trace.links.iter().filter(|it| it.from == upper && it.to == to).map(|it| it.weights.all().0).sum::<f64>()
    };
    near("the wall 5 in away", to(8), 7787.9, 0.05);
    near("the north wall", to(4), 8068.0 * 5.0 / 144.0, 0.05);
    near("the east wall", to(3), 92.0, 0.05);
    near("the cross wall", cross.top.attic.0, 0.0, 1e-9);
}

/// A post of 6,298.6 lb stands 4 in west of the cross wall: a 4x4 only touches its body. It stands on joists that run north to
/// south, midway of their 12 ft: half to each of their two walls, nothing to the cross wall.
#[test]
fn a_post_beside_a_field_that_turns_stands_on_the_joists_that_are_under_it_in_lb() {
    let (_, trace) = traced("post-beside-turned-field");
    let post = Node::Post(PostId::from_number(50));
    let to = |id: u32| {
        let to = Node::Wall(WallId::from_number(id));
        trace.links.iter().filter(|it| it.from == post && it.to == to).map(|it| it.weights.all().0).sum::<f64>()
    };
    let all = trace.post(PostId::from_number(50)).expect("the post").top.all().0;
    near("the post", all, 6298.6, 0.1);
    near("the south wall", to(2), all / 2.0, 1e-6);
    near("the bearing wall", to(8), all / 2.0, 1e-6);
    near("the cross wall", to(9), 0.0, 1e-9);
}

/// 8 psf x 8 ft x 27.36 ft = 1,751 lb, and over it the triangle: 329 / 2 in = 13.708 ft to the ridge, so 6.854 ft high, 93.96
/// square feet to the corner that is 11/16 in short of 329 in, 751.7 lb: 2,502.7 lb. Turned by 1 degree, 24 ft: 8 x 8 x 24 +
/// 8 x 24 x 6 / 2 = 1,536 + 576 = 2,112 lb each.
#[test]
fn a_gable_out_of_square_or_turned_weighs_its_triangle_too_in_lb() {
    let (_, trace) = traced("gable-lost");
    near("out of square", wall_of(&trace, 3).own.all().0, 2502.7, 0.1);
    let (_, trace) = traced("gable-lost-turned");
    for id in [3, 5] {
        near("turned", wall_of(&trace, id).own.all().0, 2112.0, 0.1);
    }
}

/// The wall across the joists' ends is 1/4 in out of square over 29.5 ft: the end joist runs 1/2,000 ft past the end of the side
/// wall that it lies on. All of it lies on that wall.
#[test]
fn a_house_out_of_square_loses_no_sliver_in_lb() {
    for name in ["out-of-square-gap", "gable-lost", "gable-lost-turned"] {
        let (_, trace) = traced(name);
        assert_eq!(trace.path_gaps().count(), 0, "{name}: {:?}", trace.findings);
        near(name, trace.ledger.gaps.all().0, 0.0, 1e-9);
    }
}

/// A stair of 80 x 76 in from 24 in off the south wall, a chimney north of the girder whose trimmers the stair cuts. Joists that
/// the stair cuts own 6 ft across: 6 x 2 / 2 x 50 = 300 lb on its south header, 6 x 3.667 / 2 x 50 = 550 lb on its north one.
/// South wall: 29 x 12 x 50 / 2 = 8,700 lb, less the stair's 42.22 sq ft x 50 psf by the lever of its middle, 62 in off the
/// wall: 2,111 x 82 / 144 = 1,202.2 lb: 7,497.8 lb.
#[test]
fn a_trimmer_that_another_opening_cuts_hangs_on_the_header_there_in_lb() {
    let (_, trace) = traced("two-openings");
    assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
    let header = |y: f64| {
        let here = trace.headers.iter().find(|it| (it.a.y.0 - y / 12.0).abs() < 1e-6).expect("the header");
        (here.at_a + here.at_b).all().0
    };
    near("south header", header(24.0), 300.0, 1e-6);
    near("north header", header(100.0), 550.0, 1e-6);
    near("south wall", on_wall_lb(&trace, 2), 7497.8, 0.05);
}

/// A joist ends 5/16 in past the end of the wall: it stands on that end, on the face of one joist.
#[test]
fn a_stretch_with_a_load_on_it_is_not_nothing_found_in_lb() {
    let (_, trace) = traced("n-with-load");
    let plan = house("one-storey-gable-joists-turn.json");
    let worked = joistwise_core::trace::trace(&plan);
    for one in [wall_of(&trace, 9), wall(&plan, &worked, "Study wall")] {
        near("on nothing", loaded_for_nothing_lb(one), 0.0, 1e-9);
    }
}

/// The partition stands in the storey beside the lower roof and meets its edge rafter with its end: nothing leans on it.
#[test]
fn a_roof_beside_a_storey_leans_on_no_partition_inside_it_in_lb() {
    let (_, trace) = traced("edge-rafter-on-partition");
    let partition = wall_of(&trace, 33);
    near("roof", partition.top.roof_live.0 + partition.top.snow.0, 0.0, 1e-9);
    let below = wall_of(&trace, 8);
    near("roof below it", below.top.roof_live.0 + below.top.snow.0, 0.0, 1e-9);
}

/// The floor sticks out 24 in. An end joist owns 6 in across: 26 ft x 6 in x 30 psf = 390 lb of floor live load, 24 ft of it along
/// the side wall and the tip at its end. The front wall brings the roof of its last 6 in: 8,400 / 30 x 0.5 = 140 lb.
#[test]
fn an_end_joist_that_sticks_out_past_its_side_wall_stands_on_the_wall_s_end_in_lb() {
    let (_, trace) = traced("cantilever-edge");
    assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
    for id in [3, 5] {
        let side = wall_of(&trace, id);
        near("floor", side.top.floor.0, 390.0, 1e-6);
        near("roof", side.top.roof_live.0, 140.0, 1e-6);
    }
}

/// A hip of 32 x 24 ft is the same seen from both sides: what its corners bring is shared by the two walls of each.
/// Each corner brings 928 lb. When the wall with the lower id took it whole, south had two corners, east and north one, west
/// none: 12,685 / 4,496 / 11,757 / 3,568 lb. With two halves each: 11,757 lb south and north, 4,496 lb east and west.
#[test]
fn the_walls_of_a_symmetric_hip_carry_the_same_in_pairs_in_lb() {
    let (_, trace) = traced("hip-corner");
    let [south, east, north, west] = [2, 3, 4, 5].map(|id| on_wall_lb(&trace, id));
    near("south", south, 11757.0, 1.0);
    near("east", east, 4496.0, 1.0);
    near("north", north, south, 1e-6);
    near("west", west, east, 1e-6);
}
