//! The house file: versioned JSON, lengths in decimal inches.
//!
//! Lenient in what may be left out, strict in what it means: a file either becomes a sound [`Plan`] or one sentence.

use serde::{Deserialize, Serialize};

use super::{Kept, Level, Plan, Tick, Unsound};
use crate::loads::Site;

/// The word every house file opens with.
pub const FORMAT: &str = "joistwise house";
/// The version this program writes, and the newest it reads.
pub const VERSION: u32 = 1;
/// The largest file read, in bytes.
const LARGEST: usize = 16 * 1024 * 1024;

/// What the file holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct PlanFile {
    /// Always `joistwise house`.
    pub format: String,
    /// The version of the format.
    pub version: u32,
    /// What the house is called.
    pub name: String,
    /// What its author wrote about it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Snow, soil and the loads that differ from the usual ones.
    #[serde(default)]
    pub site: Site,
    /// The levels, lowest first.
    pub levels: Vec<Level>,
    /// What was ticked of the survey; ticks of what the house does not hold are passed over.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub ticks: Vec<Tick>,
    /// The studies that were kept, as they were asked; those of what the house does not hold are passed over.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub kept: Vec<Kept>,
}

/// Why a file or a link did not become a plan. The open plan is untouched.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// Not JSON, or JSON of another shape.
    #[error("this is not a house file: {0}")]
    NotAHouse(#[from] serde_json::Error),
    /// JSON of another program.
    #[error("this file does not say that it is a house file ('format' is '{0}')")]
    OtherFormat(String),
    /// From a newer version.
    #[error("this house file was saved by a newer version ({found}); this one reads up to {newest}")]
    TooNew {
        /// Its version.
        found: u32,
        /// What this program reads.
        newest: u32,
    },
    /// Too many bytes.
    #[error("this file is over 16 MB: too large for a house file")]
    TooLarge,
    /// The shape is right, the house does not hold together.
    #[error("this house file does not hold together: {0}")]
    Unsound(#[from] Unsound),
}

/// The two fields read first, so that a newer file is named as such and not as broken.
#[derive(Deserialize)]
struct Head {
    #[serde(default)]
    format: String,
    #[serde(default)]
    version: u32,
}

impl Plan {
    /// The plan in a house file.
    pub fn from_json(text: &str) -> Result<Self, LoadError> {
        if text.len() > LARGEST {
            return Err(LoadError::TooLarge);
        }
        let head: Head = serde_json::from_str(text)?;
        if head.format != FORMAT {
            let short: String = head.format.chars().take(40).collect();
            return Err(LoadError::OtherFormat(short));
        }
        if head.version > VERSION {
            return Err(LoadError::TooNew { found: head.version, newest: VERSION });
        }
        Ok(Self::try_from(serde_json::from_str::<PlanFile>(text)?)?)
    }

    /// The house file, indented: people read and compare it.
    #[must_use]
    pub fn to_json(&self) -> String {
        serde_json::to_string_pretty(&PlanFile::from(self)).unwrap_or_default()
    }
}

impl TryFrom<PlanFile> for Plan {
    type Error = Unsound;

    fn try_from(file: PlanFile) -> Result<Self, Unsound> {
        let mut levels = file.levels;
        levels.iter_mut().for_each(Level::sort);
        let ids =
            levels.iter().flat_map(|level| level.element_ids().into_iter().map(|id| id.number()).chain([level.id.0]));
        let next_id = ids.max().unwrap_or(0).saturating_add(1);
        let (ticks, kept) = (Vec::new(), file.kept);
        let mut plan = Self { name: file.name, note: file.note, site: file.site, levels, ticks, kept, next_id };
        file.ticks.into_iter().for_each(|tick| plan.put_tick(tick));
        plan.drop_ticks();
        plan.drop_kept();
        plan.check()?;
        Ok(plan)
    }
}

impl From<&Plan> for PlanFile {
    fn from(plan: &Plan) -> Self {
        Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: plan.name.clone(),
            note: plan.note.clone(),
            site: plan.site,
            levels: plan.levels.clone(),
            ticks: plan.ticks.clone(),
            kept: plan.kept.clone(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_a_house_gets_one_sentence() {
        let newer = r#"{"format":"joistwise house","version":2,"name":"x","towers":[]}"#;
        for (text, sentence) in [
            ("", "this is not a house file"),
            ("[1,2]", "this is not a house file"),
            (r#"{"format":"drawing","version":1}"#, "'format' is 'drawing'"),
            (newer, "saved by a newer version (2); this one reads up to 1"),
            (r#"{"format":"joistwise house","version":1,"name":"x","levels":[]}"#, "the house has no level"),
        ] {
            let error = Plan::from_json(text).expect_err(text).to_string();
            assert!(error.contains(sentence) && !error.contains('\n'), "{error}");
        }
    }

    #[test]
    fn a_new_house_comes_back_from_its_file() {
        let plan = Plan::new("Hill house");
        assert_eq!(Plan::from_json(&plan.to_json()).expect("sound"), plan);
    }
}
