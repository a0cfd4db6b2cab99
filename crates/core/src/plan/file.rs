//! The house file: versioned JSON, lengths in decimal inches.
//!
//! Lenient in what may be left out, strict in what it means: a file either becomes a sound [`Plan`] or one sentence.

use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::unknown::Unknown;
use super::{Kept, Level, Of, Photo, PhotoPart, Plan, Tick, TooMuch, Unsound, photo};
use crate::loads::Site;

/// The word every house file opens with.
pub const FORMAT: &str = "joistwise house";
/// The version this program writes, and the newest it reads.
pub const VERSION: u32 = 2;
/// The largest file read, in bytes.
const LARGEST: usize = 16 * 1024 * 1024;
/// The most that it may hold besides its photos.
const LARGEST_BESIDES_PHOTOS: usize = 4 * 1024 * 1024;

/// What the file holds.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(feature = "schema", schemars(extend("limits" = super::budget::table())))]
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
    /// The photos that the things seen name, each once.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub photos: Vec<PhotoPart>,
}

/// Why a file or a link did not become a plan. The open plan is untouched.
#[derive(Debug, thiserror::Error)]
pub enum LoadError {
    /// Not JSON, or JSON of another shape.
    #[error("this is not a house file: {}", short(.0))]
    NotAHouse(#[from] serde_json::Error),
    /// JSON of another program.
    #[error("this file does not say that it is a house file ('format' is '{0}')")]
    OtherFormat(String),
    /// Without a version.
    #[error("this house file does not say of which version it is")]
    NoVersion,
    /// From a newer version.
    #[error(
        "this house file was saved by a newer version ({found}); this one reads up to {newest} and leaves it as it is"
    )]
    TooNew {
        /// Its version.
        found: u32,
        /// What this program reads.
        newest: u32,
    },
    /// Too many bytes.
    #[error("this file is over 16 MB, or over 4 MB besides its photos: too large for a house file")]
    TooLarge,
    /// The shape is right, the house does not hold together.
    #[error("this house file does not hold together: {0}")]
    Unsound(Unsound),
    /// It is more than this program is made for.
    #[error("this house is too large: {0}")]
    TooMuch(#[from] TooMuch),
}

impl From<Unsound> for LoadError {
    fn from(why: Unsound) -> Self {
        match why {
            Unsound::TooMuch(why) => Self::TooMuch(why),
            why => Self::Unsound(why),
        }
    }
}

/// What a reader of JSON says, as one short line: it quotes what it read, which may be a photo.
fn short(error: &serde_json::Error) -> String {
    crate::tape::quoted(&error.to_string(), 300)
}

/// The two fields read first, so that a newer file is named as such and not as broken.
#[derive(Deserialize)]
#[serde(expecting = "the fields of a house")]
struct Head {
    #[serde(default)]
    format: String,
    #[serde(default)]
    version: u32,
}

impl Plan {
    /// The plan in a house file. The text stays the caller's: what is refused can be saved as it came.
    pub fn from_json(text: &str) -> Result<Self, LoadError> {
        if text.len() > LARGEST {
            return Err(LoadError::TooLarge);
        }
        let head: Head = serde_json::from_str(text)?;
        if head.format != FORMAT {
            let short: String = head.format.chars().take(40).collect();
            return Err(LoadError::OtherFormat(short));
        }
        if head.version == 0 {
            return Err(LoadError::NoVersion);
        }
        if head.version > VERSION {
            return Err(LoadError::TooNew { found: head.version, newest: VERSION });
        }
        let file: PlanFile = serde_json::from_str(text)?;
        let photos: usize = file.photos.iter().map(|it| it.image.len()).sum();
        let seen = file.levels.iter().flat_map(|level| &level.observations);
        if text.len() > LARGEST_BESIDES_PHOTOS + photos + seen.map(|it| it.photo.len()).sum::<usize>() {
            return Err(LoadError::TooLarge);
        }
        let mut plan = Self::try_from(file)?;
        let read = serde_json::from_str(text)?;
        plan.unknown = Unknown::of(&read, &plan.file_without_photos());
        let unknown = plan.unknown.letters();
        Of::Unknown.check(unknown)?;
        Ok(plan)
    }

    /// The house file, indented: people read and compare it.
    #[must_use]
    pub fn to_json(&self) -> String {
        let file = PlanFile::from(self);
        if self.unknown.is_empty() {
            return serde_json::to_string_pretty(&file).unwrap_or_default();
        }
        let mut whole = json(&file);
        self.unknown.write_into(&mut whole);
        serde_json::to_string_pretty(&whole).unwrap_or_default()
    }

    /// The house file as JSON, without photos and what this version does not know.
    fn file_without_photos(&self) -> Value {
        let mut file = PlanFile::from(self);
        // The keys stay: a file that is read has the same ones there.
        file.photos.clear();
        json(&file)
    }

    /// All that a link carries.
    pub(super) fn file_for_link(&self) -> Value {
        let mut file = PlanFile::from(self);
        file.photos.clear();
        file.levels.iter_mut().flat_map(|level| &mut level.observations).for_each(|it| it.photo = Photo::default());
        let mut whole = json(&file);
        self.unknown.write_into(&mut whole);
        whole
    }
}

/// By way of text: a reader and a writer of JSON as values, besides those of text, would make the page larger.
fn json(file: &PlanFile) -> Value {
    serde_json::to_string(file).ok().and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default()
}

impl TryFrom<PlanFile> for Plan {
    type Error = Unsound;

    fn try_from(file: PlanFile) -> Result<Self, Unsound> {
        let PlanFile { name, note, site, mut levels, ticks, kept, photos, .. } = file;
        Of::Parts.check(photos.len())?;
        photo::put_in(&mut levels, &photos);
        let mut plan = Self { name, note, site, levels, ticks, kept, next_id: 1, unknown: Unknown::default() };
        plan.afford()?;
        plan.levels.iter_mut().for_each(Level::sort);
        for tick in core::mem::take(&mut plan.ticks) {
            plan.put_tick(tick);
        }
        plan.drop_ticks();
        plan.drop_kept();
        plan.check()?;
        plan.number_on();
        Ok(plan)
    }
}

impl From<&Plan> for PlanFile {
    fn from(plan: &Plan) -> Self {
        let mut levels = plan.levels.clone();
        let photos = photo::take_out(&mut levels);
        Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            name: plan.name.clone(),
            note: plan.note.clone(),
            site: plan.site,
            levels,
            ticks: plan.ticks.clone(),
            kept: plan.kept.clone(),
            photos,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_a_house_gets_one_sentence() {
        let newer = r#"{"format":"joistwise house","version":3,"name":"x","towers":[]}"#;
        for (text, sentence) in [
            ("", "this is not a house file"),
            ("[1,2]", "this is not a house file"),
            (r#"{"format":"drawing","version":1}"#, "'format' is 'drawing'"),
            (newer, "saved by a newer version (3); this one reads up to 2"),
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
