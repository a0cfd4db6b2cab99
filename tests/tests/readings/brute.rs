//! The look list against brute force: each outcome of each look written down, the house judged anew, the stretches counted.

use joistwise_core::ids::LevelId;
use joistwise_core::looks::{How, Look};
use joistwise_core::plan::{Plan, Saw};
use joistwise_core::readings::{Answer, Certainty, Judged, Judgement, judge};
use joistwise_tests::houses;

use super::{evidence, put, show};

/// The plan after one outcome of a look.
pub(super) fn after(plan: &Plan, look: &Look, outcome: usize) -> Plan {
    look.observations(outcome).fold(plan.clone(), |plan, seen| put(&plan, look.level, seen))
}

fn on_level<'a>(plan: &Plan, all: &'a Judgement, level: LevelId) -> Vec<&'a Judged> {
    let is_there = |it: &&Judged| plan.wall(it.wall).is_some_and(|(on, _)| on.id == level);
    all.stretches.iter().filter(is_there).collect()
}

/// How many of some stretches are certain in a judgement, and hold the same role over their whole length.
pub(super) fn certain(stretches: &[&Judged], all: &Judgement) -> usize {
    let settled = |it: &&&Judged| {
        let mut here = all.of_wall(it.wall).filter(|now| now.start.0.max(it.start.0) + 0.03 < now.end.0.min(it.end.0));
        here.all(|now| now.certainty == Certainty::Certain)
    };
    stretches.iter().filter(settled).count()
}

/// The looks of a house tried out: how many, and how many outcomes.
pub(super) fn tried(name: &str, plan: &Plan) -> (usize, usize) {
    let all = judge(plan);
    // Of a level with more readings than are traced an outcome may hold some that were never listed.
    let whole = |level: LevelId| all.levels.iter().any(|it| it.level == level && it.covered > 1.0 - 1e-12);
    let looks: Vec<&Look> = all.looks.iter().filter(|look| whole(look.level)).collect();
    let (mut outcomes, mut surplus) = (0, 0);
    let mut best: Option<f64> = None;
    let mut off = Vec::new();
    for look in &looks {
        let shares: f64 = look.outcomes.iter().map(|it| it.share).sum();
        assert!((shares - 1.0).abs() < 1e-9, "{name}: shares of {shares}");
        // What is below an end tells of the levels under it too.
        let here: Vec<&Judged> =
            if look.how == How::UnderEnd { all.stretches.iter().collect() } else { on_level(plan, &all, look.level) };
        let now = certain(&here, &all);
        let mut settles = 0.0;
        for (number, outcome) in look.outcomes.iter().enumerate() {
            let seen = after(plan, look, number);
            let then = judge(&seen);
            assert_eq!(then.contradictions, all.contradictions, "{name}: {outcome:?}");
            let count = certain(&here, &then);
            // Who saw that nothing stands on a wall knows of struts, too, that come down near it by what is drawn: such a look
            // may settle more than the list says of it, never less.
            let bare = outcome.seen.iter().any(|it| matches!(it.0, Saw::NothingStands | Saw::Gap));
            // So may who looked along a plate: no beam that nobody drew lies over it then.
            let looked = look.how == How::AlongPlate;
            let more = (bare || looked) && count > now + outcome.settles;
            if more && bare {
                // And never of another wall: of those, just what was said.
                let others: Vec<&Judged> = here.iter().copied().filter(|it| Some(it.wall) != look.wall).collect();
                let said = outcome.means.iter().filter(|it| Some(it.0) != look.wall).count();
                assert_eq!(
                    certain(&others, &then),
                    certain(&others, &all) + said,
                    "{name}: {:?} {outcome:?}",
                    look.how
                );
            }
            // A beam seen over one wall may bear on others that it crosses, which nobody has seen: the list promises too much of it.
            let beam = outcome.answers.iter().any(|it| it.1 == Answer::BeamOver);
            let count = if more || beam { now + outcome.settles } else { count };
            surplus += usize::from(more);
            if count != now + outcome.settles {
                off.push(format!(
                    "{name}: {:?} {:?}: {} settled, {} said\n{}",
                    look.how,
                    outcome.answers,
                    count - now.min(count),
                    outcome.settles,
                    show(&seen, &then)
                ));
            }
            let more = u32::try_from(count.saturating_sub(now)).expect("few stretches");
            settles += outcome.share * f64::from(more);
            outcomes += 1;
        }
        if (settles - look.settles).abs() > 1e-9 {
            off.push(format!("{name}: {:?} {:?}: {settles} on average, {} said", look.how, look.about, look.settles));
        }
        let first = *best.get_or_insert(settles);
        if settles > first + 1e-9 {
            off.push(format!("{name}: {:?} {:?} settles {settles}, the first look {first}", look.how, look.about));
        }
    }
    if surplus > 0 {
        println!("{name}: {surplus} of {outcomes} outcomes settle more than said");
    }
    assert!(off.is_empty(), "before:\n{}\n{}", show(plan, &all), off.join("\n"));
    (looks.len(), outcomes)
}

fn summed(all: impl Iterator<Item = (usize, usize)>) -> (usize, usize, usize) {
    all.fold((0, 0, 0), |sum, it| (sum.0 + 1, sum.1 + it.0, sum.2 + it.1))
}

#[test]
fn each_look_at_the_37_houses_from_evidence_settles_to_1e_9_what_judging_anew_settles() {
    let rows = evidence::index();
    let tried = rows.iter().map(|row| tried(row["file"].as_str().expect("a file"), &evidence::house(row)));
    let (houses, looks, outcomes) = summed(tried);
    println!("{houses} houses, {looks} looks, {outcomes} outcomes");
    assert!(looks >= 15, "{looks} looks");
}

#[test]
fn each_look_at_the_drawn_houses_settles_to_1e_9_what_judging_anew_settles() {
    let tried = houses().into_iter().map(|name| tried(&name, &joistwise_tests::house(&name)));
    let (houses, looks, outcomes) = summed(tried);
    println!("{houses} houses, {looks} looks, {outcomes} outcomes");
}

/// The same houses with nothing of their framing seen: fields and roofs as drawn, but only assumed.
#[test]
fn each_look_at_the_drawn_houses_as_if_assumed_settles_to_1e_9_what_judging_anew_settles() {
    let tried = houses().into_iter().map(|name| {
        let plan = super::assumed(&joistwise_tests::house(&name));
        tried(&name, &plan)
    });
    let (houses, looks, outcomes) = summed(tried);
    println!("{houses} houses, {looks} looks, {outcomes} outcomes");
    assert!(looks >= 60, "{looks} looks");
}
