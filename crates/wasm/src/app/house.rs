//! The house in lines of text: what is open, what every part does, whether the ledger closes.
//!
//! Made once for each change of the plan: a card is written for every part.

use joistwise_core::card::card_alone;
use joistwise_core::geometry::Spot;
use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::loads::Weights;
use joistwise_core::trace::{Ledger, Problem, Role};
use joistwise_core::words::{self, Words};
use serde::Serialize;

use super::App;

/// The house in lines of text.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct House {
    /// What is open; path gaps first.
    findings: Vec<FindingLine>,
    /// Every part, level by level from the top.
    parts: Vec<PartLine>,
    /// Applied against delivered.
    ledger: LedgerLine,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct FindingLine {
    text: String,
    /// Whether a load has nowhere to go.
    gap: bool,
    level: LevelId,
    level_name: String,
    /// Where, in feet.
    at: Spot,
    /// The part it is about, to choose it.
    part: Option<ElementId>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct PartLine {
    part: ElementId,
    level: LevelId,
    level_name: String,
    title: String,
    sentence: String,
    badges: String,
    roles: Vec<Role>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct LedgerLine {
    applied: String,
    delivered: String,
    gaps: String,
    closes: bool,
}

/// One part in a billion: what the ledger may be off by.
const LEDGER_OFF: f64 = 1e-9;

pub(super) fn house(app: &App) -> House {
    let (plan, trace, tape) = (&*app.known, app.trace(), app.view.tape);
    let words = Words::new(plan, tape);
    let findings = trace.findings.iter().map(|finding| FindingLine {
        text: words.finding(finding),
        gap: finding.problem.is_path_gap(),
        level: finding.level,
        level_name: words.level(finding.level),
        at: finding.at,
        part: part_of(&finding.problem),
    });
    let parts = plan.levels().iter().rev().flat_map(|level| {
        level.element_ids().into_iter().map(|part| {
            let card = app.judged(part, card_alone(plan, trace, part, tape).unwrap_or_default());
            PartLine {
                part,
                level: level.id,
                level_name: level.name.clone(),
                title: card.title,
                sentence: card.sentence,
                badges: card.stretches.iter().map(|stretch| stretch.badge).collect(),
                roles: card.stretches.iter().map(|stretch| stretch.role).collect(),
            }
        })
    });
    House { findings: findings.collect(), parts: parts.collect(), ledger: ledger(&trace.ledger) }
}

/// The part that a finding is about, if it is about one.
const fn part_of(problem: &Problem) -> Option<ElementId> {
    match problem {
        Problem::MembersUnsupported { field, .. }
        | Problem::LongSpan { field, .. }
        | Problem::LapsNotSeen { field } => Some(ElementId::Field(*field)),
        Problem::RoofUnsupported { roof, .. }
        | Problem::RidgeUnsupported { roof }
        | Problem::HipTopNotHeld { roof }
        | Problem::ValleyTopNotHeld { roof }
        | Problem::ValleyNotMade { roof }
        | Problem::RoofOpeningNotFramed { roof }
        | Problem::HipNotOverRectangle { roof }
        | Problem::RidgeBoardTooFlat { roof }
        | Problem::ThrustNotTied { roof, .. }
        | Problem::GambrelBreakNotHeld { roof }
        | Problem::RoofOverRoof { roof } => Some(ElementId::Roof(*roof)),
        Problem::StrutsOnNothing { purlin }
        | Problem::PurlinWithoutStruts { purlin }
        | Problem::StrutsOnJoists { purlin }
        | Problem::StrutsTooFlat { purlin, .. } => Some(ElementId::Purlin(*purlin)),
        Problem::ThingOnNothing { thing } | Problem::WeightNotStated { thing } => Some(ElementId::Thing(*thing)),
        Problem::WallOnNothing { wall } | Problem::WallWithoutFooting { wall } => Some(ElementId::Wall(*wall)),
        Problem::PostOnNothing { post } | Problem::PostWithoutFooting { post } | Problem::PostOnThickening { post } => {
            Some(ElementId::Post(*post))
        }
        Problem::BeamUnsupported { beam } | Problem::LongBeam { beam, .. } => Some(ElementId::Beam(*beam)),
        Problem::SoilOverloaded { footing, .. } => Some(ElementId::Footing(*footing)),
        Problem::OffsetOverJoistDepth { upper, .. } => Some(ElementId::Wall(*upper)),
        _ => None,
    }
}

fn ledger(ledger: &Ledger) -> LedgerLine {
    let all = |weights: Weights| words::pounds(weights.all());
    LedgerLine {
        applied: all(ledger.applied),
        delivered: all(ledger.soil),
        gaps: if ledger.gaps.all().0 > 0.5 { all(ledger.gaps) } else { String::new() },
        closes: ledger.worst_share_off() <= LEDGER_OFF,
    }
}
