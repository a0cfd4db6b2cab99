//! What levels are called until somebody says otherwise: a key in a file, words on the page.

use serde::{Deserialize, Deserializer, Serialize, Serializer};

use super::LevelKind;

/// A name that a new level gets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum UsualName {
    /// A crawl space.
    CrawlSpace,
    /// A basement.
    Basement,
    /// The lowest storey.
    FirstFloor,
    /// The storey over it.
    SecondFloor,
    /// The next.
    ThirdFloor,
    /// The next.
    FourthFloor,
    /// Any storey over that.
    NextFloor,
    /// Rooms under the roof.
    Attic,
}

impl UsualName {
    const ALL: [Self; 8] = [
        Self::FirstFloor,
        Self::SecondFloor,
        Self::ThirdFloor,
        Self::FourthFloor,
        Self::NextFloor,
        Self::CrawlSpace,
        Self::Basement,
        Self::Attic,
    ];

    /// Of a new level of a kind, over so many storeys.
    pub(super) fn of(kind: LevelKind, storeys: usize) -> Self {
        match kind {
            LevelKind::CrawlSpace => Self::CrawlSpace,
            LevelKind::Basement => Self::Basement,
            LevelKind::Attic => Self::Attic,
            LevelKind::Storey => Self::ALL.get(storeys.min(4)).copied().unwrap_or(Self::NextFloor),
        }
    }

    /// In words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::CrawlSpace => "Crawl space",
            Self::Basement => "Basement",
            Self::FirstFloor => "First floor",
            Self::SecondFloor => "Second floor",
            Self::ThirdFloor => "Third floor",
            Self::FourthFloor => "Fourth floor",
            Self::NextFloor => "Next floor",
            Self::Attic => "Attic",
        }
    }
}

/// A level's name as a file has it: text, or which of the usual ones it is.
#[derive(Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(untagged, expecting = "the name of a level is a text, or says which of the usual ones it is")]
pub(super) enum InFile {
    /// What somebody called it.
    Said(String),
    /// A usual name.
    Usual {
        /// Which.
        usual: UsualName,
    },
}

pub(super) fn serialize<S: Serializer>(name: &str, to: S) -> Result<S::Ok, S::Error> {
    match UsualName::ALL.into_iter().find(|usual| usual.words() == name) {
        Some(usual) => InFile::Usual { usual }.serialize(to),
        None => to.serialize_str(name),
    }
}

pub(super) fn deserialize<'de, D: Deserializer<'de>>(from: D) -> Result<String, D::Error> {
    Ok(match InFile::deserialize(from)? {
        InFile::Said(name) => name,
        InFile::Usual { usual } => usual.words().to_owned(),
    })
}
