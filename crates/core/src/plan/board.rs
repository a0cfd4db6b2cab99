//! Rim boards, rows of blocking and ledgers in the deck over a level.

use serde::{Deserialize, Serialize};

use super::{Grade, Point};
use crate::ids::BoardId;

/// What a board is there for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum BoardKind {
    /// Across the ends of the joists.
    #[default]
    Rim,
    /// A row of blocks between the joists.
    Blocking,
    /// Along the face of a wall: joists hang on it.
    Ledger,
}

/// A rim board, a row of blocking or a ledger.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Board {
    /// Its id.
    pub id: BoardId,
    /// One end of its line.
    pub a: Point,
    /// The other end.
    pub b: Point,
    /// What it is.
    #[serde(default)]
    pub kind: BoardKind,
    /// How it is known.
    #[serde(default)]
    pub known: Grade,
}
