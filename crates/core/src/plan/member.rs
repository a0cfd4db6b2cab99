//! A joist, rafter or beam by its size: nominal lumber, several plies, or engineered.
//!
//! Sizes only. Design values and checks do not live here.

use core::fmt;
use core::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::units::Ticks;

/// What a member is made of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Nobody looked.
    #[default]
    NotSeen,
    /// Sawn lumber.
    Sawn,
    /// A wood I-joist.
    IJoist,
    /// Laminated veneer lumber.
    Lvl,
    /// Glued laminated timber.
    Glulam,
    /// A steel shape.
    Steel,
}

/// A member by its size; in a file it is the text people write on plans: `2x6`, `3-2x10`, `I-joist 9 1/2`, `steel 8`.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(try_from = "String", into = "String")]
pub struct Member {
    /// What it is made of.
    pub material: Material,
    /// How many pieces side by side; one or more unless not seen.
    pub plies: u8,
    /// Nominal width of one piece, in inches; zero where the depth alone is known.
    pub nominal_width: u8,
    /// Nominal depth of lumber, in inches; zero for others.
    pub nominal_depth: u8,
    /// Real depth.
    pub depth: Ticks,
}

#[cfg(feature = "schema")]
impl schemars::JsonSchema for Member {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Member".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({
            "type": "string",
            "description": "A member by its size: \"\" (not seen), \"2x6\", \"3-2x10\", \"I-joist 9 1/2\", \"LVL 11 7/8\", \"2-LVL 9 1/2\", \"glulam 12\", \"steel 8\"."
        })
    }
}

/// A size that is not in the table of sizes.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{0}' is not a size: write it like 2x6, 3-2x10, I-joist 9 1/2, LVL 11 7/8, glulam 12 or steel 8")]
pub struct MemberError(String);

impl Member {
    /// One piece of sawn lumber, by nominal size; not seen if there is no such size.
    #[must_use]
    pub fn sawn(width: u8, depth: u8) -> Self {
        Self::plies(1, width, depth)
    }

    /// Several pieces of sawn lumber side by side, by nominal size; not seen if there is no such size.
    #[must_use]
    pub fn plies(plies: u8, width: u8, depth: u8) -> Self {
        match dressed(depth) {
            Some(real) if plies > 0 && dressed(width).is_some() => {
                Self { material: Material::Sawn, plies, nominal_width: width, nominal_depth: depth, depth: real }
            }
            _ => Self::default(),
        }
    }

    /// An engineered or steel member of one real depth.
    #[must_use]
    pub const fn deep(material: Material, plies: u8, depth: Ticks) -> Self {
        Self { material, plies, nominal_width: 0, nominal_depth: 0, depth }
    }

    /// Real width of one piece of sawn lumber; none for others.
    #[must_use]
    pub fn width(&self) -> Option<Ticks> {
        dressed(self.nominal_width)
    }

    /// Whether anybody looked.
    #[must_use]
    pub fn is_seen(&self) -> bool {
        self.material != Material::NotSeen
    }
}

/// Dressed size of a nominal inch size: American Softwood Lumber Standard PS 20, Table 3 (MEMORY; the sizes 2x4 to
/// 2x12 are repeated in NDS Supplement Table 1B).
fn dressed(nominal: u8) -> Option<Ticks> {
    let eighths = match nominal {
        1 => 6,
        2 => 12,
        3 => 20,
        4 => 28,
        5 => 36,
        6 => 44,
        8 => 58,
        10 => 74,
        12 => 90,
        14 => 106,
        16 => 122,
        _ => return None,
    };
    Some(Ticks::from_sixteenths(2 * eighths))
}

impl FromStr for Member {
    type Err = MemberError;

    fn from_str(text: &str) -> Result<Self, MemberError> {
        let error = || MemberError(crate::tape::quoted(text, 60));
        let lower = text.trim().to_lowercase();
        if lower.is_empty() || lower == "not seen" {
            return Ok(Self::default());
        }
        let (plies, rest) = match lower.split_once('-') {
            Some((count, rest)) if count.chars().all(|c| c.is_ascii_digit()) && !count.is_empty() => {
                (count.parse::<u8>().ok().filter(|n| (1..=8).contains(n)).ok_or_else(error)?, rest.trim())
            }
            _ => (1, lower.as_str()),
        };
        for (word, material) in [
            ("i-joist", Material::IJoist),
            ("lvl", Material::Lvl),
            ("glulam", Material::Glulam),
            ("steel", Material::Steel),
        ] {
            let depth = rest.strip_prefix(word).or_else(|| rest.strip_suffix(word));
            if let Some(depth) = depth {
                let depth = crate::tape::inches(depth.trim()).filter(|d| *d > Ticks::ZERO).ok_or_else(error)?;
                return Ok(Self::deep(material, plies, depth));
            }
        }
        let (width, depth) = rest.split_once(['x', '×']).ok_or_else(error)?;
        let number = |part: &str| part.trim().parse::<u8>().ok();
        let member = Self::plies(plies, number(width).ok_or_else(error)?, number(depth).ok_or_else(error)?);
        if member.is_seen() { Ok(member) } else { Err(error()) }
    }
}

impl fmt::Display for Member {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match self.material {
            Material::NotSeen => return Ok(()),
            Material::Sawn => {
                if self.plies > 1 {
                    write!(f, "{}-", self.plies)?;
                }
                return write!(f, "{}x{}", self.nominal_width, self.nominal_depth);
            }
            Material::IJoist => "I-joist",
            Material::Lvl => "LVL",
            Material::Glulam => "glulam",
            Material::Steel => "steel",
        };
        if self.plies > 1 {
            write!(f, "{}-", self.plies)?;
        }
        write!(f, "{word} {}", crate::tape::in_fraction(self.depth))
    }
}

impl TryFrom<String> for Member {
    type Error = MemberError;

    fn try_from(text: String) -> Result<Self, MemberError> {
        text.parse()
    }
}

impl From<Member> for String {
    fn from(member: Member) -> Self {
        member.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_read_and_print_as_people_write_them() {
        for text in ["2x6", "3-2x10", "I-joist 9 1/2", "2-LVL 11 7/8", "glulam 12", "steel 8", "6x6", ""] {
            assert_eq!(text.parse::<Member>().map(|m| m.to_string()), Ok(text.to_owned()));
        }
        assert_eq!("2x10".parse::<Member>().map(|m| m.depth.inches()), Ok(9.25));
        assert!("2x7".parse::<Member>().is_err());
        assert!("0-2x6".parse::<Member>().is_err());
    }
}
