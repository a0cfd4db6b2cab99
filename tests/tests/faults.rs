//! Houses on which the trace was once wrong, each with the right figures worked by hand beside it.

use joistwise_core::ids::{BeamId, PostId, WallId};
use joistwise_core::plan::Plan;
use joistwise_core::trace::{Trace, trace};
use joistwise_core::units::Pounds;
use joistwise_tests::symptom;

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
