//! Take-out studies that were kept: what was asked, never the answer, which is worked out again.

use serde::{Deserialize, Serialize};

use super::{Plan, Point, Set, is_usual};
use crate::ids::{BeamId, LevelId, WallId};
use crate::strength::lumber::{Grade, Species};
use crate::units::Ticks;

/// What goes in a study, and with it the line it lies on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Away {
    /// A stretch of this wall.
    Wall(WallId),
    /// The posts of this beam between the ends of the stretch, and the piece of the beam there.
    Posts(BeamId),
    /// Nothing: the wall that stood here was taken out before, and a beam goes in under the joists.
    Nothing {
        /// On which level.
        level: LevelId,
        /// One end of the line.
        a: Point,
        /// The other end.
        b: Point,
    },
}

/// Lumber by its stamp: what new pieces are made of, and what old ones are taken for where nobody read a stamp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Stock {
    /// Species group.
    pub species: Species,
    /// Visual grade.
    pub grade: Grade,
}

impl Default for Stock {
    /// Spruce-pine-fir No. 2: of the usual groups the one that bends at the least but hem-fir.
    fn default() -> Self {
        Self { species: Species::SprucePineFir, grade: Grade::Two }
    }
}

/// A study that was kept.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Kept {
    /// What people call it, if anything.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// What goes.
    pub away: Away,
    /// Where it begins, from end `a` of its line.
    pub from: Ticks,
    /// Where it stops, from end `a` of its line.
    pub to: Ticks,
    /// Whether the beam goes under the joists or between them.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub set: Set,
    /// New posts between the two ends, from end `a` of the line.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub posts_between: Vec<Ticks>,
    /// What sawn pieces are of.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub lumber: Stock,
    /// How far from the line the temporary props stand.
    pub offset: Ticks,
}

impl Plan {
    /// The studies that were kept, the oldest first.
    #[must_use]
    pub fn kept(&self) -> &[Kept] {
        &self.kept
    }

    /// Puts a study last; the same one asked before goes.
    pub(super) fn keep(&mut self, kept: Kept) {
        let asked = |it: &Kept| (it.away, it.from, it.to, it.set, it.lumber, it.offset);
        self.kept.retain(|it| asked(it) != asked(&kept) || it.posts_between != kept.posts_between);
        self.kept.push(kept);
    }

    /// Once a stretch of a line is gone: studies of what is left of it stay with it, past the stretch as of `rest`, what the
    /// line is there now; those of the stretch go.
    pub(crate) fn cut_kept(&mut self, line: Away, (from, to): (Ticks, Ticks), rest: Away) {
        self.kept.retain_mut(|it| {
            if it.away != line || it.to.max(it.from) <= from {
                return true;
            }
            let past = it.from.min(it.to) >= to;
            if past {
                it.away = rest;
                let places = [&mut it.from, &mut it.to].into_iter().chain(&mut it.posts_between);
                places.for_each(|at| *at = *at - to);
            }
            past
        });
    }

    /// Studies of walls, beams and levels that are gone go with them.
    pub(crate) fn drop_kept(&mut self) {
        let mut all = core::mem::take(&mut self.kept);
        all.retain(|it| match it.away {
            Away::Wall(id) => self.wall(id).is_some(),
            Away::Posts(id) => self.levels.iter().any(|level| level.beams.iter().any(|beam| beam.id == id)),
            Away::Nothing { level, .. } => self.level(level).is_some(),
        });
        self.kept = all;
    }
}
