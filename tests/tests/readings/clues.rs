//! Clues that mislead: each alone never makes a stretch certain, whatever people say.

use joistwise_core::plan::{Below, Grade, Plan, Saw};
use joistwise_core::readings::{Certainty, judge, known_trace};
use joistwise_core::trace::Role;

use super::{evidence, graded, show};

/// One middle wall under the ridge, one short wall, a girder below: and nobody has looked.
fn plan_alone() -> Plan {
    evidence::house(evidence::index().iter().find(|row| row["file"] == "plan-alone.json").expect("in the index"))
}

#[track_caller]
fn settles_nothing(plan: &Plan) {
    let all = judge(plan);
    assert!(all.stretches.iter().all(|it| it.certainty != Certainty::Certain), "{}", show(plan, &all));
    assert!(all.stretches.len() >= 2 && !all.looks.is_empty());
    let known = known_trace(plan);
    for wall in all.stretches.iter().filter_map(|it| known.wall(it.wall)) {
        assert!(wall.stretches.iter().all(|it| it.role != Role::NothingFound), "{:?}", wall.stretches);
    }
}

/// F-04, F-78: a floor plan, with a wall under the ridge, and nothing else.
#[test]
fn a_plan_with_a_wall_under_the_ridge_settles_nothing() {
    settles_nothing(&plan_alone());
}

/// S13, F-12, F-09, F-15, F-79: measured, seen, told or assumed; at both walls, by itself.
#[test]
fn each_of_8_misleading_clues_in_5_grades_settles_nothing_alone() {
    let clues = [
        Saw::InLine { below: Below::Beam },
        Saw::InLine { below: Below::Post },
        Saw::InLine { below: Below::Wall },
        Saw::JoistsRunThrough,
        Saw::LooseStuds,
        Saw::NoHeader,
        Saw::DoublePlate,
        Saw::HeavyHeader,
    ];
    for clue in clues {
        for known in [Grade::Measured, Grade::Seen, Grade::Told, Grade::Assumed, Grade::Unknown] {
            for place in [(20.0, 13.0), (20.0, 6.0)] {
                settles_nothing(&graded(&plan_alone(), 1, place, clue, known));
            }
        }
    }
}

#[test]
fn all_misleading_clues_together_settle_nothing() {
    let clues = [Saw::InLine { below: Below::Beam }, Saw::LooseStuds, Saw::NoHeader, Saw::DoublePlate];
    let plan = clues.iter().fold(plan_alone(), |plan, clue| graded(&plan, 1, (20.0, 13.0), *clue, Grade::Seen));
    settles_nothing(&graded(&plan, 1, (20.0, 13.0), Saw::JoistsRunThrough, Grade::Seen));
}

/// What is told proves nothing either.
#[test]
fn a_lap_that_was_only_told_settles_nothing() {
    for known in [Grade::Told, Grade::Assumed, Grade::Unknown] {
        settles_nothing(&graded(&plan_alone(), 1, (20.0, 13.0), Saw::JoistsLap, known));
        settles_nothing(&graded(&plan_alone(), 1, (20.0, 6.5), Saw::NothingStands, known));
    }
}
