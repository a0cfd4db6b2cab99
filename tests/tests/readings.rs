//! What was seen, and what follows: verdicts from evidence, the look list, and the laws of both.

#![expect(clippy::indexing_slicing, reason = "a law that panics is a law that fails")]

#[path = "readings/brute.rs"]
mod brute;
#[path = "readings/clues.rs"]
mod clues;
#[path = "readings/contradictions.rs"]
mod contradictions;
#[path = "readings/ends.rs"]
mod ends;
#[path = "readings/evidence.rs"]
mod evidence;
#[path = "readings/laws.rs"]
mod laws;
#[path = "readings/order.rs"]
mod order;
#[path = "readings/reach.rs"]
mod reach;
#[path = "readings/roofs.rs"]
mod roofs;
#[path = "readings/studies.rs"]
mod studies;

use joistwise_core::plan::{Grade, Joints, Observation, Photo, Plan, PlanFile, Saw};
use joistwise_core::readings::{Certainty, Judged, Judgement, record};
use joistwise_core::trace::Role;

/// Something seen at a place in feet, on a plan: with the deck or roof it speaks of, as the page puts it there.
#[track_caller]
fn saw(plan: &Plan, level: usize, place: (f64, f64), saw: Saw) -> Plan {
    graded(plan, level, place, saw, Grade::Seen)
}

#[track_caller]
fn graded(plan: &Plan, level: usize, place: (f64, f64), saw: Saw, known: Grade) -> Plan {
    let id = joistwise_core::ids::ObservationId::from_number(0);
    let at = joistwise_core::draft::at(place);
    let seen = Observation { id, at, saw, known, note: String::new(), day: String::new(), photo: Photo::default() };
    put(plan, plan.levels()[level].id, seen)
}

#[track_caller]
fn put(plan: &Plan, level: joistwise_core::ids::LevelId, seen: Observation) -> Plan {
    let edits = record(plan, level, seen);
    edits.iter().fold(plan.clone(), |plan, edit| plan.with(edit).unwrap_or_else(|error| panic!("{edit:?}: {error}")))
}

#[track_caller]
fn of<'a>(plan: &Plan, all: &'a Judgement, wall: &str) -> Vec<&'a Judged> {
    let id = plan.wall_named(wall).unwrap_or_else(|| panic!("no wall {wall}")).id;
    all.of_wall(id).collect()
}

/// One line a stretch, to be read when a test fails.
fn show(plan: &Plan, all: &Judgement) -> String {
    let line = |it: &Judged| {
        let wall = plan.wall(it.wall).map(|it| it.1.name.clone()).unwrap_or_default();
        let (start, end) = (it.start.0, it.end.0);
        format!("{wall} {start:.2} to {end:.2} ft: {:?} {:?} hangs on {:?}\n", it.certainty, it.roles, it.hangs_on)
    };
    all.stretches.iter().map(line).collect()
}

/// Whether a stretch is certain to be something.
fn is_certain(it: &Judged, role: Role) -> bool {
    it.certainty == Certainty::Certain && it.role() == role
}

/// A drawn house of whose framing nobody has seen anything.
fn assumed(plan: &Plan) -> Plan {
    let mut file = PlanFile::from(plan);
    for level in &mut file.levels {
        for field in &mut level.fields {
            (field.known, field.joints) = (Grade::Assumed, Joints::NotSeen);
        }
        level.roofs.iter_mut().for_each(|roof| roof.known = Grade::Assumed);
    }
    Plan::try_from(file).expect("sound")
}
