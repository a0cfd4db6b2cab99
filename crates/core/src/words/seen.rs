//! What was seen, in words.

use super::Words;
use crate::observe::{Weight, proof};
use crate::plan::{Below, Drawn, Saw, Way};
use crate::tape;

/// How much an observation weighs, as a phrase.
#[must_use]
pub const fn weight(weight: Weight) -> &'static str {
    match weight {
        Weight::Proof => "proof, when seen or measured",
        Weight::StrongHint => "a strong hint",
        Weight::Hint => "a hint",
        Weight::Nothing => "proves nothing",
        Weight::Distress => "a sign of trouble",
        Weight::Record => "a record",
    }
}

/// A way as one says it.
#[must_use]
pub fn way(way: Way) -> &'static str {
    match way.parts() {
        (_, 0) => "east\u{2013}west",
        (0, _) => "north\u{2013}south",
        _ => "at an angle",
    }
}

impl Words<'_> {
    /// What was seen, with its facts: "Joists run east-west".
    #[must_use]
    pub fn saw(&self, saw: &Saw) -> String {
        match *saw {
            Saw::JoistsRun { along } => format!("Joists run {}", way(along)),
            Saw::JoistSize { member, spacing: Some(apart) } => format!("Joists {member} at {}", self.short(apart)),
            Saw::JoistSize { member, spacing: None } => format!("Joists {member}"),
            Saw::FloorboardsRun { along } => format!("Floorboards run {}", way(along)),
            Saw::NailRows { along } => format!("Rows of nails run {}", way(along)),
            Saw::InLine { below } => format!("{} below, in line", self.below(below)),
            Saw::StudPack { studs } => format!("{studs} studs packed together"),
            Saw::Sag { by } => format!("Sags by {} in", tape::in_fraction(by)),
            Saw::Drawing { says: Drawn::Bearing } => "The drawing says that it bears".to_owned(),
            Saw::Drawing { says: Drawn::NotBearing } => "The drawing says that it does not bear".to_owned(),
            Saw::Age { year } => format!("Built in {year}"),
            Saw::Gap => "A gap over it, along its whole length".to_owned(),
            Saw::NothingStands => "Looked at from both faces, all along: nothing lands on it".to_owned(),
            Saw::NoTag => "Trusses cross it without a tag".to_owned(),
            Saw::RunAlong => "Joists run along it, on both faces".to_owned(),
            Saw::NoStrut => "No strut stands on it".to_owned(),
            Saw::JoistsLap => "Joists lap or meet over it".to_owned(),
            Saw::JoistsEnd => "Joists end on it from this side".to_owned(),
            Saw::SitOnPlate => "Joists or trusses sit on its plate".to_owned(),
            _ => proof(saw).what.to_owned(),
        }
    }

    pub(super) fn below(&self, below: Below) -> &'static str {
        match below {
            Below::Beam => "A beam",
            Below::Post => "A post",
            Below::Wall => "A wall",
            Below::Nothing => "Nothing",
        }
    }
}
