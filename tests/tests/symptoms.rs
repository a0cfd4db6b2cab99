//! Bugs that were, each as the smallest house that showed it. Named after what was seen.

use joistwise_core::draft::{at, draft};
use joistwise_core::plan::{Joints, Plan, Way};
use joistwise_core::trace::{Node, trace};

/// Pounds that end in the ground or in a gap, over pounds put on.
#[track_caller]
fn delivered_over_applied(plan: &Plan) -> f64 {
    let trace = trace(plan);
    let ends = trace.links.iter().filter(|it| matches!(it.to, Node::Ground | Node::Footing(_) | Node::Gap));
    ends.map(|link| link.weights.all().0).sum::<f64>() / trace.ledger.applied.all().0
}

#[track_caller]
fn loses_nothing(plan: &Plan) {
    let share = delivered_over_applied(plan);
    assert!((share - 1.0).abs() < 1e-9, "{share}");
}

/// The end of the upper wall is a hair past the end of the joist under it, which a stair has cut at a slant.
#[test]
fn a_wall_that_ends_at_the_slanted_end_of_a_joist_is_not_lost() {
    let inches = |x: i32, y: i32| (f64::from(x) / 12.0, f64::from(y) / 12.0);
    let below = [inches(8, 0), inches(197, 0), inches(197, 252), inches(8, 252)].map(at);
    let house = draft().outline(&below).joists(Way::new(1, 1), Joints::Lap).stair(inches(135, 13), inches(187, 33));
    let house = house.stair(inches(22, 82), inches(42, 184)).up();
    loses_nothing(&house.inside("A", inches(180, 13), inches(180, 0)).done());
}

#[test]
fn a_weight_where_a_wall_takes_over_from_a_beam_stands_on_one_of_them() {
    let house = draft().outside(12, 12).joists(Way::Y, Joints::Lap).beam("B", (0, 0), (0, 9), Joints::Lap);
    loses_nothing(&house.up().inside("A", (0, 9), (12, 9)).done());
}
