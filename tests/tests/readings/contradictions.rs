//! What cannot all be true: named by its ids, and only the stretches it is about need a look for it.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Joints, Plan, Saw, Way};
use joistwise_core::readings::{Certainty, judge, known_trace};
use joistwise_core::trace::Role;

use super::{of, saw, show};

/// Two bearing walls across and one along, all seen, and the roof.
fn seen_whole() -> Plan {
    let plan = draft().outside(40, 30).inside("A", (0, 10), (40, 10)).inside("B", (0, 20), (40, 20));
    let plan = plan.inside("C", (20, 0), (20, 10)).done();
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::RidgeBoard);
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::Y });
    let plan = ["A", "B"].iter().zip([10.0, 20.0]).fold(plan, |plan, (_, y)| {
        let plan = saw(&plan, 0, (10.0, y), Saw::JoistsLap);
        saw(&plan, 0, (12.0, y), Saw::NoStrut)
    });
    saw(&plan, 0, (20.0, 5.0), Saw::NothingStands)
}

#[track_caller]
fn is_about(plan: &Plan, wanted: &[u32], walls: &[&str]) {
    let (all, known) = (judge(plan), known_trace(plan));
    let mut seen: Vec<u32> = all.contradictions.iter().flat_map(|it| &it.seen).map(|it| it.number()).collect();
    seen.sort_unstable();
    assert_eq!(seen, wanted, "{:?}", all.contradictions);
    for (name, role) in [("A", Role::CarriesCeiling), ("B", Role::CarriesCeiling), ("C", Role::NothingFound)] {
        let doubted = walls.contains(&name);
        for it in of(plan, &all, name) {
            let right = if doubted {
                it.certainty == Certainty::NeedsALook
            } else {
                it.certainty == Certainty::Certain && it.role() == role
            };
            assert!(right, "{name}\n{}", show(plan, &all));
        }
        let wall = plan.wall_named(name).expect("drawn").id;
        for it in &known.wall(wall).expect("traced").stretches {
            assert_eq!(it.role == Role::NeedsALook, doubted, "{name} as known: {it:?}");
        }
    }
}

/// The ids of all observations on a plan whose kind is one of some, in order.
fn ids(plan: &Plan, kinds: &[Saw], near: Option<f64>) -> Vec<u32> {
    let all = plan.levels().iter().flat_map(|it| &it.observations);
    let here = all.filter(|it| kinds.contains(&it.saw) && near.is_none_or(|y| (it.at.y.feet().0 - y).abs() < 1.0));
    let mut ids: Vec<u32> = here.map(|it| it.id.number()).collect();
    ids.sort_unstable();
    ids
}

#[test]
fn the_house_they_are_put_on_is_settled_as_seen() {
    is_about(&seen_whole(), &[], &[]);
}

#[test]
fn a_lap_and_a_gap_on_one_wall_are_both_named_and_put_that_wall_alone_in_doubt() {
    let plan = saw(&seen_whole(), 0, (30.0, 10.0), Saw::Gap);
    let wanted = ids(&plan, &[Saw::JoistsLap, Saw::Gap], Some(10.0));
    assert_eq!(wanted.len(), 2);
    is_about(&plan, &wanted, &["A"]);
}

#[test]
fn a_strut_and_no_strut_on_one_wall_are_both_named_and_put_that_wall_alone_in_doubt() {
    let plan = saw(&seen_whole(), 0, (30.0, 20.0), Saw::StrutStands);
    let wanted = ids(&plan, &[Saw::StrutStands, Saw::NoStrut], Some(20.0));
    assert_eq!(wanted.len(), 2);
    is_about(&plan, &wanted, &["B"]);
}

#[test]
fn joists_seen_both_ways_in_one_place_are_both_named_and_put_every_wall_under_it_in_doubt() {
    let plan = saw(&seen_whole(), 0, (10.0, 5.0), Saw::JoistsRun { along: Way::X });
    let wanted = ids(&plan, &[Saw::JoistsRun { along: Way::X }, Saw::JoistsRun { along: Way::Y }], None);
    assert_eq!(wanted.len(), 2);
    is_about(&plan, &wanted, &["A", "B", "C"]);
}

/// This was called a contradiction of every wall. They lap over A and over B: so they turn on B, the one line that is left.
#[test]
fn joists_seen_both_ways_20_ft_apart_turn_on_a_wall_between_and_contradict_nothing() {
    let plan = saw(&seen_whole(), 0, (30.0, 25.0), Saw::JoistsRun { along: Way::X });
    is_about(&plan, &[], &[]);
}

/// A lap rules trusses out as well as the joists do: the plates disagree with the board, the joists and both laps.
#[test]
fn trusses_and_joists_are_named_and_put_every_wall_in_doubt() {
    let plan = draft().outside(40, 30).inside("A", (0, 10), (40, 10)).done();
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::Y });
    let plan = saw(&plan, 0, (30.0, 5.0), Saw::TrussPlates);
    let all = judge(&plan);
    let wanted = ids(&plan, &[Saw::JoistsRun { along: Way::Y }, Saw::TrussPlates], None);
    let named: Vec<u32> = all.contradictions.iter().flat_map(|it| &it.seen).map(|it| it.number()).collect();
    assert_eq!((all.contradictions.len(), named), (1, wanted), "{:?}", all.contradictions);
    assert!(of(&plan, &all, "A").iter().all(|it| it.certainty == Certainty::NeedsALook), "{}", show(&plan, &all));
    let known = known_trace(&plan);
    let wall = known.wall(plan.wall_named("A").expect("drawn").id).expect("traced");
    assert!(wall.stretches.iter().all(|it| it.role == Role::NeedsALook), "{:?}", wall.stretches);
}

#[test]
fn joists_that_end_on_a_wall_on_which_nothing_stood_are_named_with_that_look() {
    let plan = saw(&seen_whole(), 0, (20.0, 3.0), Saw::JoistsEnd);
    let wanted = ids(&plan, &[Saw::JoistsEnd, Saw::NothingStands], None);
    is_about(&plan, &wanted, &["C"]);
}

/// One observation alone may disagree with what is drawn as seen.
#[test]
fn joists_seen_to_run_otherwise_than_the_field_drawn_as_seen_are_named_alone() {
    let drawn = draft().outside(40, 30).inside("A", (0, 10), (40, 10)).joists(Way::Y, Joints::Lap).roof(Way::X, 1);
    let plan = saw(&drawn.done(), 0, (10.0, 5.0), Saw::JoistsRun { along: Way::X });
    let all = judge(&plan);
    let named: Vec<u32> = all.contradictions.iter().flat_map(|it| &it.seen).map(|it| it.number()).collect();
    assert_eq!(named, ids(&plan, &[Saw::JoistsRun { along: Way::X }], None), "{:?}", all.contradictions);
    assert!(of(&plan, &all, "A").iter().all(|it| it.certainty == Certainty::NeedsALook), "{}", show(&plan, &all));
    let known = known_trace(&plan);
    let wall = known.wall(plan.wall_named("A").expect("drawn").id).expect("traced");
    assert!(wall.stretches.iter().all(|it| it.role == Role::NeedsALook), "{:?}", wall.stretches);
}
