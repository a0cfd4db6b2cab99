//! The order of work, each step with its reason, as far as the study knows.

use serde::Serialize;

use super::down::OpenUp;
use super::{About, Away, Fate, Refusal, Study};
use crate::plan::{Level, Plan, Saw, Set};

/// Paint in houses of before this year may hold lead (EPA renovation rule, MEMORY).
pub const LEAD_BEFORE: u16 = 1978;
/// Boards, plaster and insulation of up to this year are taken to hold asbestos (29 CFR 1926.1101, MEMORY).
pub const ASBESTOS_UP_TO: u16 = 1980;

/// A step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "step")]
pub enum Work {
    /// What sags without the wall that is gone is held up before anything else.
    PropNow,
    /// Somebody licensed confirms or changes all of this.
    Engineer,
    /// Nothing is cut, propped or sized before an engineer has answered what stops the study.
    StopHere,
    /// Whether the wall braces the house, and who answers for it.
    Bracing,
    /// The permit, with both ends drawn down to the soil.
    Permit,
    /// Wires, pipes and ducts in the wall and under the posts.
    Services,
    /// A test for lead paint.
    Lead {
        /// When the house was built; none where nobody said.
        built: Option<u16>,
    },
    /// A test for asbestos.
    Asbestos {
        /// When the house was built; none where nobody said.
        built: Option<u16>,
    },
    /// Rooms above are emptied.
    Unload,
    /// What has to be opened up.
    Open {
        /// What.
        what: OpenUp,
    },
    /// Props, from the ground up.
    Shore,
    /// Ties across.
    Tie,
    /// Pads, and posts below.
    Pads,
    /// Blocks on the way of each post.
    Blocks,
    /// Squash blocks and web stiffeners on I-joists.
    Squash,
    /// Members below made stronger.
    Strengthen,
    /// The posts.
    Posts,
    /// The wall comes out.
    Cut,
    /// The beam goes in.
    Beam,
    /// Hangers, before any prop goes.
    Hangers,
    /// A look by the inspector before it is closed.
    Inspect,
    /// Props go, slowly.
    Lower,
    /// The new sag is measured from a dated mark.
    Measure,
}

/// A step with its words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Which.
    pub work: Work,
    /// What is done.
    pub text: String,
    /// Why, and why then.
    pub why: String,
}

pub(super) fn steps(plan: &Plan, level: &Level, study: &Study, away: Away) -> Vec<Step> {
    let levels = plan.levels().iter().chain([level]);
    let built = levels.flat_map(|it| &it.observations).find_map(|it| match it.saw {
        Saw::Age { year } => Some(year),
        _ => None,
    });
    let mut all = Vec::new();
    // What an earlier owner took is missing today.
    if let Away::Nothing { .. } = study.stretch.away
        && study.loses.members.iter().any(|it| it.fate != Fate::Passes)
    {
        all.push(Work::PropNow);
    }
    let blocked = study.refusals.iter().any(|it| it.blocks && it.about != About::NothingLands);
    let bare = study.over.nothing_in_any() && !blocked;
    let ends_here = !bare && (!study.over.read || study.refusals.iter().any(|it| it.blocks));
    if !ends_here {
        all.extend([Work::Engineer, Work::Permit]);
    }
    if !matches!(away, Away::Posts(_)) {
        all.push(Work::Bracing);
    }
    all.push(Work::Services);
    if built.is_none_or(|year| year < LEAD_BEFORE) {
        all.push(Work::Lead { built });
    }
    if built.is_none_or(|year| year <= ASBESTOS_UP_TO) {
        all.push(Work::Asbestos { built });
    }
    if ends_here {
        // A block, or readings that wait: what comes after is for somebody else to say.
        all.push(Work::StopHere);
    } else if bare {
        all.push(Work::Cut);
    } else {
        all.extend(taking_over(study));
    }
    let words = crate::words::Words::new(plan, crate::tape::Tape::Feet);
    all.into_iter()
        .map(|work| {
            let (text, why) = words.work(&work, away, bare);
            Step { work, text, why }
        })
        .collect()
}

/// From what is opened up to the dated mark: all that something has to take over for.
fn taking_over(study: &Study) -> Vec<Work> {
    let mut all: Vec<Work> = study.down.open_up.iter().map(|what| Work::Open { what: *what }).collect();
    all.push(Work::Unload);
    let down = &study.down;
    if down.posts.iter().any(|it| it.added.is_some() || !it.joists.is_empty() || it.gap > 1e-6) {
        all.push(Work::Pads);
    }
    if down.members.iter().any(|it| it.overloaded) || down.pressed.iter().any(|it| it.overloaded) {
        all.push(Work::Strengthen);
    }
    if down.posts.iter().any(|it| it.added.is_none()) {
        all.push(Work::Blocks);
    }
    let i_joists = |it: &Refusal| matches!(it.about, About::IJoists { .. });
    if study.refusals.iter().any(i_joists) {
        all.push(Work::Squash);
    }
    all.push(Work::Shore);
    if study.shoring.thrust.is_some() {
        all.push(Work::Tie);
    }
    all.push(Work::Posts);
    if !matches!(study.stretch.away, Away::Nothing { .. }) {
        all.push(Work::Cut);
    }
    all.push(Work::Beam);
    if study.stretch.set == Set::Flush {
        all.push(Work::Hangers);
    }
    all.extend([Work::Inspect, Work::Lower, Work::Measure]);
    all
}
