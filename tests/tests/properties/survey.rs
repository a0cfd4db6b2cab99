//! The survey may be walked in any order: the plan that comes of it is the same but for its ids.

use joistwise_core::plan::{Plan, PlanFile, StepKey};
use joistwise_core::survey::{Reply, Typed, place, read, survey};
use proptest::prelude::*;
use serde_json::Value;

/// One answer for every step: one of its taps, or a text. Two steps that ask the same of one place get the same answer.
fn replies(plan: &Plan, salt: usize) -> Vec<(StepKey, Reply)> {
    let steps = survey(plan, None).stages.into_iter().flat_map(|stage| stage.steps);
    let reply = |replies: &[Reply], typed: Option<Typed>, key: StepKey| {
        let at = place(plan, key).map_or(0, |(_, at)| (at.x.get() ^ at.y.get()).unsigned_abs() as usize);
        let taps = replies.len();
        if taps > 0 {
            return replies[(salt + at + key.task as usize) % taps];
        }
        let text = if typed == Some(Typed::Pair) { "36 x 24" } else { "1931" };
        typed.and_then(|typed| read(typed, text).ok()).unwrap_or(Reply::Done)
    };
    steps.map(|step| (step.key, reply(&step.replies, step.typed, step.key))).collect()
}

fn walked(plan: &Plan, replies: &[(StepKey, Reply)]) -> Result<Value, String> {
    let mut plan = plan.clone();
    for (key, reply) in replies {
        plan = joistwise_core::survey::answer(&plan, *key, *reply, "").map_err(|error| format!("{key:?}: {error}"))?;
    }
    let mut file = serde_json::to_value(PlanFile::from(&plan)).map_err(|error| error.to_string())?;
    without_ids(&mut file);
    Ok(file)
}

fn without_ids(value: &mut Value) {
    match value {
        Value::Object(object) => {
            object.remove("id");
            object.values_mut().for_each(without_ids);
        }
        Value::Array(list) => {
            list.iter_mut().for_each(without_ids);
            if list.iter().all(Value::is_object) {
                list.sort_by_cached_key(Value::to_string);
            }
        }
        _ => {}
    }
}

/// Two walks, the second in another order: `keys` gives each step its place in it.
pub(super) fn in_any_order(plan: &Plan, keys: &[u32], salt: usize) -> Result<(), String> {
    let first = replies(plan, salt);
    let mut ranked: Vec<(u32, (StepKey, Reply))> = keys.iter().copied().cycle().zip(first.iter().copied()).collect();
    ranked.sort_by_key(|(rank, _)| *rank);
    let second: Vec<(StepKey, Reply)> = ranked.into_iter().map(|(_, reply)| reply).collect();
    let (one, other) = (walked(plan, &first)?, walked(plan, &second)?);
    if one == other { Ok(()) } else { Err(format!("{one}\nagainst\n{other}\nafter {second:?}")) }
}

/// Ranks for more steps than any random house has stages of one kind.
pub(super) fn any_order() -> impl Strategy<Value = Vec<u32>> {
    prop::collection::vec(any::<u32>(), 97)
}
