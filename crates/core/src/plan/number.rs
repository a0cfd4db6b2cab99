//! The numbers of parts: the next one that is free, and room for it.

use super::{Away, Level, Plan};
use crate::ids::{ElementId, LevelId, WallId};
use crate::order::InOrder as _;

/// A file whose numbers go on past this is numbered anew. Nobody draws as many parts; but every number that a study or a
/// reading gives out for a while must fit after the last one.
const LAST: u32 = 1_000_000_000;

impl Plan {
    /// Finds the next free number; numbers all parts anew, in their order, if the last one leaves no room.
    pub(super) fn number_on(&mut self) {
        let last = self.levels.iter().flat_map(Level::numbers).max().unwrap_or(0);
        if last <= LAST {
            self.next_id = last + 1;
            return;
        }
        let mut old: Vec<u32> = self.levels.iter().flat_map(Level::numbers).collect();
        old.order();
        // Sound plans give each number once and hold up to a few thousand.
        let new = |number: u32| old.binary_search(&number).ok().and_then(|at| u32::try_from(at + 1).ok()).unwrap_or(0);
        for level in &mut self.levels {
            level.id = LevelId(new(level.id.0));
            level.renumber(new);
            level.openings.iter_mut().for_each(|opening| opening.wall = WallId(new(opening.wall.0)));
        }
        for step in self.ticks.iter_mut().map(|tick| &mut tick.step) {
            step.level = step.level.map(|id| LevelId(new(id.0)));
            step.wall = step.wall.map(|id| WallId(new(id.0)));
        }
        for kept in &mut self.kept {
            match &mut kept.away {
                Away::Wall(id) => id.0 = new(id.0),
                Away::Posts(id) => id.0 = new(id.0),
                Away::Nothing { level, .. } => level.0 = new(level.0),
            }
        }
        self.next_id = u32::try_from(old.len()).unwrap_or(LAST) + 1;
    }
}

impl Level {
    /// Its own number and those of its parts.
    pub(super) fn numbers(&self) -> Vec<u32> {
        let mut numbers = vec![self.id.0];
        numbers.extend(self.element_ids().into_iter().map(ElementId::number));
        numbers
    }
}
