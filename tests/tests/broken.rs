//! Houses broken on purpose: what has no way down is named before anything else.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::plan::{Joints, LevelKind, Way};
use joistwise_core::trace::{Problem, trace};

/// A house with one deliberate hole in its path: the hole is the first thing that is named, the load in it is told in pounds,
/// and applied is still delivered plus lost.
#[track_caller]
fn names_first(house: Draft, is_it: fn(&Problem) -> bool) {
    let trace = trace(&house.done());
    let first = trace.findings.first().expect("something is open");
    assert!(is_it(&first.problem), "{:?}", trace.findings);
    assert!(first.weights.is_some_and(|lb| lb.all().0 > 100.0), "{first:?}");
    let ledger = &trace.ledger;
    assert!(ledger.gaps.all().0 > 100.0, "{ledger:?}");
    assert!((ledger.applied.all().0 - ledger.soil.all().0 - ledger.gaps.all().0).abs() < 1e-6 * ledger.applied.all().0);
}

fn on_a_basement() -> Draft {
    draft().kind(LevelKind::Basement).outside(36, 24)
}

#[test]
fn a_post_on_a_bare_slab_is_named_first() {
    let house =
        on_a_basement().beam("G", (0, 12), (36, 12), Joints::Lap).post("P", (18, 12)).joists(Way::Y, Joints::Lap);
    names_first(house, |it| matches!(it, Problem::PostWithoutFooting { .. }));
}

#[test]
fn a_beam_with_one_end_in_the_air_is_named_first() {
    let house = on_a_basement().beam("G", (0, 12), (20, 12), Joints::Lap).joists(Way::Y, Joints::Lap);
    names_first(house, |it| matches!(it, Problem::BeamUnsupported { .. }));
}

#[test]
fn a_wall_over_nothing_is_named_first() {
    // The upper storey is 4 ft deeper than the one it stands on, and no joist reaches out under it.
    let house = draft().outside(36, 24).joists(Way::Y, Joints::Lap).up().outside(36, 28).joists(Way::Y, Joints::Lap);
    names_first(house, |it| matches!(it, Problem::WallOnNothing { .. }));
}

#[test]
fn beams_that_rest_on_each_other_in_a_ring_are_named_first() {
    let house = on_a_basement()
        .beam("A", (4, 4), (20, 4), Joints::Lap)
        .beam("B", (20, 4), (20, 20), Joints::Lap)
        .beam("C", (20, 20), (4, 20), Joints::Lap)
        .beam("D", (4, 20), (4, 4), Joints::Lap)
        .joists(Way::Y, Joints::Lap);
    names_first(house, |it| matches!(it, Problem::BeamLoop { .. } | Problem::BeamUnsupported { .. }));
}
