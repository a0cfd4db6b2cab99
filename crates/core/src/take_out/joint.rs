//! One study of several houses: each is taken apart by itself, and what is sized has to do in all of them.

use super::beam::{self, Task};
use super::case::{Case, House, Traced};
use super::plans::{self, Proposed};
use super::refusals::{About, Refusal};
use super::{Away, Over, Stretch, Studied, Study, down, ends, lands, loses, merge, refusals, shoring, steps};
use crate::ids::PostId;
use crate::loads::{Weights, heaviest};
use crate::order::InOrder as _;
use crate::plan::Plan;
use crate::readings::Answers;
use crate::trace::BeamTrace;
use crate::units::Inches;
use crate::words::work::NOTHING_LANDS;

/// One house taken apart.
pub(super) struct Apart<'a> {
    pub(super) case: Case<'a>,
    pub(super) without: Plan,
    pub(super) lands: lands::Lands,
    pub(super) loses: loses::Loses,
    pub(super) proposed: Proposed,
    pub(super) after: Traced,
    pub(super) beam: BeamTrace,
    pub(super) task: Task,
}

impl<'a> Apart<'a> {
    fn of(house: &'a House) -> Option<(Self, Vec<Refusal>)> {
        let case = Case::of(house)?;
        let mut refused = refusals::refusals(&case);
        let without = plans::without(&case);
        let lands = lands::lands(&case);
        let loses = loses::loses(&case, &without);
        let proposed = plans::proposed(&case, &without);
        let after = Traced::of(&proposed.plan);
        let beam = after.trace.beam(proposed.beam)?.clone();
        refused.extend(refusals::of_proposed(&case, &after.trace, &proposed));
        let task = Task::of(&case, &beam, &after.trace, &proposed);
        Some((Self { case, without, lands, loses, proposed, after, beam, task }, refused))
    }
}

/// The study of several houses. The first is the one that is drawn: it is what the sheet shows. What is sized is sized for the others,
/// which are the readings that fit; for the first where there are no others. None where the first does not hold the line.
pub(super) fn study(houses: &[House], answers: &[Answers], mut over: Over) -> Option<Study> {
    let mut apart: Vec<Apart<'_>> = Vec::new();
    let mut refused: Vec<Vec<Refusal>> = Vec::new();
    let mut of: Vec<usize> = Vec::new();
    let (first, _) = Apart::of(houses.first()?)?;
    let skipped = usize::from(houses.len() > 1);
    for (number, house) in houses.iter().enumerate().skip(skipped) {
        let Some((one, here)) = Apart::of(house) else { continue };
        apart.push(one);
        refused.push(here);
        of.push(number);
    }
    if apart.is_empty() {
        return None;
    }
    let (plan, level, away) = (first.case.plan, first.case.level, first.case.stretch.away);
    let site = plan.site();
    let heavy = |it: &Apart<'_>| heaviest(&it.lands.all, site).0.0;
    let most = (1..apart.len()).fold(0, |most, number| {
        let load = |number: usize| apart.get(number).map_or(0.0, heavy);
        if load(number) > load(most) + 1e-6 { number } else { most }
    });
    over.governs = of.get(most).and_then(|it| answers.get(*it)).cloned().unwrap_or_default();
    let mut refusals = merge::refusals(refused);
    refusals::of_readings(plan, &first.case, &over, &mut refusals);
    let beams = beam::beams(&apart, &refusals);
    let supports = beam::supports(&apart, &beams);
    let beams = merge::supports(beams, &supports, &first.case);
    let pads = down::pads(&first.case, &first.proposed, &first.after, &beams);
    let with_pads = |it: &Apart<'_>| (!pads.is_empty()).then(|| it.proposed.clone().with_pads(&it.pads_of(&pads)));
    let padded: Vec<Option<(Proposed, Traced)>> =
        apart.iter().map(|it| with_pads(it).map(|proposed| (proposed.clone(), Traced::of(&proposed.plan)))).collect();
    let built = || {
        apart.iter().zip(&padded).map(|(it, padded)| match padded {
            Some((proposed, after)) => (it, proposed, after),
            None => (it, &it.proposed, &it.after),
        })
    };
    let own: Vec<beam::Beams> =
        supports.iter().map(|it| beam::Beams { supports: it.clone(), ..beams.clone() }).collect();
    let parts = built().zip(&own);
    let ends = parts.map(|((it, _, after), own)| ends::ends(&it.case, after, (it.proposed.beam, own), &refusals));
    let ends = merge::ends(ends.collect(), &first.case, refusals.iter().any(|it| it.blocks));
    let held = apart.iter().map(|it| {
        let thrust = (!it.loses.ties.is_empty())
            .then(|| it.loses.ties.iter().fold(Weights::default(), |sum, it| sum + it.loose));
        shoring::shoring(&it.case, thrust, &refusals)
    });
    let held: Vec<shoring::Shoring> = held.collect();
    let now: Vec<Option<Traced>> = of.iter().map(|it| houses.get(*it)?.now.as_ref().map(Traced::of)).collect();
    let down = built().zip(&own).zip(&now).map(|(((it, proposed, after), own), now)| {
        down::down((&it.case, now.as_ref().unwrap_or(&it.case.before)), proposed, after, own)
    });
    let down = merge::down(down.collect(), &first.proposed, &first.case);
    let studied = apart.iter().zip(&supports).zip(&held).map(|((it, supports), shoring)| Studied {
        lands: it.lands.clone(),
        supports: supports.clone(),
        shoring: shoring.clone(),
        house: it.case.plan.clone(),
        without: it.without.clone(),
        proposed: it.proposed.plan.clone(),
    });
    let studied = studied.collect();
    let (proposed, heaviest) = (with_pads(&first).unwrap_or_else(|| first.proposed.clone()), apart.get(most)?);
    let mut loses = heaviest.loses.clone();
    if loses.sentences.is_empty() && refusals.iter().any(|it| it.about == About::NothingLands) {
        loses.sentences.push(NOTHING_LANDS.to_owned());
    }
    loses.sentences.extend(beams.times.map(|times| first.case.words.times(times)));
    let mut study = Study {
        stretch: asked(houses.first()?, &first.case.stretch),
        over,
        refusals,
        without: first.without.clone(),
        proposed: proposed.plan,
        beam: proposed.beam,
        posts: proposed.posts,
        lands: heaviest.lands.clone(),
        loses,
        beams,
        ends,
        down,
        shoring: merge::shoring(held),
        steps: Vec::new(),
        studied,
    };
    for it in &apart {
        refusals::after_sizes(&it.case, &mut study);
    }
    if study.refusals.iter().any(|it| it.blocks) {
        study.name_no_size(&first.case);
    }
    study.steps = steps::steps(plan, level, &study, away);
    Some(study)
}

/// What was asked of the line as it was asked: a wall that is back begins elsewhere.
fn asked(house: &House, on_it: &Stretch) -> Stretch {
    let Away::Nothing { .. } = on_it.away else { return on_it.clone() };
    house.asked(on_it)
}

impl Apart<'_> {
    /// The pads of the first house under the posts of this one: these are numbered as each house numbers them.
    fn pads_of(&self, pads: &[(usize, Inches)]) -> Vec<(PostId, Inches)> {
        let mut all: Vec<_> =
            pads.iter().filter_map(|(number, side)| Some((self.proposed.posts.get(*number)?.0, *side))).collect();
        all.order_by_key(|it| it.0);
        all
    }
}
