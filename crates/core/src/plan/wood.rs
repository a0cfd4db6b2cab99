//! What is known of the wood of a part that stands: its stamp, whether it stays dry, whether it was cut for a preservative.
//!
//! Never that of a new beam: a study asks for that by itself.

use serde::{Deserialize, Serialize};

use super::{Plan, Stock, is_usual};
use crate::ids::ElementId;
use crate::plan::Element;
use crate::strength::factors::{Incising, Moisture};

/// The wood of a part that stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Wood {
    /// What its stamp says; none where nobody read one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stock: Option<Stock>,
    /// Whether it stays dry.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub moisture: Moisture,
    /// Whether it was cut into for a preservative, as treated lumber often is.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub incising: Incising,
}

impl From<Stock> for Wood {
    /// New lumber: dry and plain.
    fn from(stock: Stock) -> Self {
        Self { stock: Some(stock), ..Self::default() }
    }
}

impl Plan {
    /// The wood of a beam, post, joist field or roof; as nobody looked for any other part.
    #[must_use]
    pub fn wood_of(&self, part: ElementId) -> Wood {
        match self.element(part) {
            Some(Element::Beam(beam)) => beam.wood,
            Some(Element::Post(post)) => post.wood,
            Some(Element::Field(field)) => field.wood,
            Some(Element::Roof(roof)) => roof.wood,
            _ => Wood::default(),
        }
    }
}
