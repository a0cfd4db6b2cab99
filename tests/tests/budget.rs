//! What the program takes and what it does not: beyond the budget one sentence, within it an answer at once.

use std::time::Duration;

use joistwise_core::draft::draft;
use joistwise_core::plan::{Edit, Joints, Of, Plan, Point, Way};
use joistwise_core::trace::trace;
use joistwise_core::units::Ticks;
use joistwise_tests::large::{large, largest};

#[expect(clippy::disallowed_methods, reason = "the ban is for the core; a test of time needs a clock")]
fn now() -> std::time::Instant {
    std::time::Instant::now()
}

/// The shortest of three.
fn shortest<T>(mut of: impl FnMut() -> T) -> Duration {
    let once = |_| {
        let began = now();
        let _ = of();
        began.elapsed()
    };
    (0..3).map(once).min().unwrap_or_default()
}

/// Optimised, each takes under 50 ms on a core of its own; this is built without, for a machine that is busy.
#[test]
fn the_largest_houses_within_the_budget_are_traced_in_half_a_second_each() {
    let all = largest();
    assert_eq!(all.len(), large(1.0).len(), "a kind of house that is refused at any size");
    for (name, plan) in all {
        let took = shortest(|| trace(&plan));
        let parts: usize = plan.levels().iter().map(|level| level.element_ids().len()).sum();
        println!("{name}: {parts} parts, {} members: {took:?}", trace(&plan).members.len());
        assert!(took < Duration::from_millis(500), "{name}: {took:?}");
    }
}

/// The budget is asked after every change.
#[test]
fn a_change_that_asks_for_too_much_is_refused_and_the_plan_stays() {
    let plan =
        draft().outside(36, 24).inside("C", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap).roof(Way::X, 1.0).done();
    let level = &plan.levels()[0];
    let field = joistwise_core::plan::Element::Field(joistwise_core::plan::JoistField {
        spacing: Ticks::from_sixteenths(16),
        ..level.fields[0].clone()
    });
    let close = plan.with(&Edit::Change(field)).expect("joists an inch apart over 36 ft are 432");
    let far = vec![Point::feet(0, 0), Point::feet(9_000, 0), Point::feet(9_000, 24), Point::feet(0, 24)];
    let before = close.clone();
    let error = close.with(&Edit::Outline { level: level.id, corners: far }).expect_err("108,000 joists").to_string();
    assert!(error.contains("joists, rafters and trusses are too many; up to 12,000 are taken"), "{error}");
    assert!(before == close);
    let long = close.with(&Edit::Note("x".repeat(Of::HouseNote.most() + 1))).expect_err("too long").to_string();
    assert!(long.contains("20,001 letters in the note on the house"), "{long}");
    let corners = (0..100_000).map(|at| Point::new(Ticks::new(at), Ticks::new(at % 2))).collect();
    let took = shortest(|| close.with(&Edit::Outline { level: level.id, corners: Vec::clone(&corners) }).is_err());
    assert!(took < Duration::from_millis(500), "{took:?}");
}

/// What every worked house asks for is far from the limits.
#[test]
fn every_house_of_the_fixtures_is_within_the_budget_ten_times_over() {
    for name in joistwise_tests::houses() {
        let plan = joistwise_tests::house(&name);
        let parts: usize = plan.levels().iter().map(|level| level.element_ids().len()).sum();
        assert!(parts * 10 <= Of::Parts.most(), "{name}: {parts} parts");
        assert!(trace(&plan).members.len() * 10 <= Of::Members.most(), "{name}");
        assert!(Plan::from_json(&plan.to_json()).is_ok(), "{name}");
    }
}
