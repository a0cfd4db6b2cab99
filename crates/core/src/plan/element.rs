//! Any one element of a plan, as a value: what an edit adds or changes.

use serde::{Deserialize, Serialize};

use super::{
    Beam, Board, FloorOpening, Footing, HeavyThing, JoistCut, JoistField, Level, Observation, Opening, Post, Purlin,
    Roof, Wall,
};
use crate::ids::{
    BeamId, BoardId, ElementId, FieldId, FloorOpeningId, FootingId, JoistCutId, ObservationId, OpeningId, PostId,
    PurlinId, RoofId, ThingId, WallId,
};
use crate::order::InOrder as _;

macro_rules! elements { ($($(#[$doc:meta])* $Name:ident($Type:ident, $Id:ident) in $list:ident)*) => {
    /// One element of a plan with all that is known of it.
    #[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
    #[serde(rename_all = "snake_case")]
    pub enum Element { $($(#[$doc])* $Name($Type),)* }

    impl Element {
        /// Its id; the number 0 stands for "not in the plan yet".
        #[must_use]
        pub const fn id(&self) -> ElementId {
            match self { $(Self::$Name(it) => ElementId::$Name(it.id),)* }
        }

        pub(super) fn number(mut self, number: u32) -> Self {
            match &mut self { $(Self::$Name(it) => it.id = $Id(number),)* }
            self
        }
    }

    impl Level {
        /// A copy of one element, if this level holds it.
        #[must_use]
        pub fn element(&self, id: ElementId) -> Option<Element> {
            match id { $(
                ElementId::$Name(id) => self.$list.iter().find(|it| it.id == id).cloned().map(Element::$Name),
            )* }
        }

        /// The ids of all its elements, kind by kind.
        #[must_use]
        pub fn element_ids(&self) -> Vec<ElementId> {
            let mut ids = Vec::new();
            $(ids.extend(self.$list.iter().map(|it| ElementId::$Name(it.id)));)*
            ids
        }

        pub(super) fn add(&mut self, element: Element) {
            match element { $(Element::$Name(it) => self.$list.push(it),)* }
        }

        pub(super) fn replace(&mut self, element: Element) -> Option<()> {
            match element { $(
                Element::$Name(new) => {
                    let old = self.$list.iter_mut().find(|it| it.id == new.id)?;
                    *old = new;
                }
            )* }
            Some(())
        }

        pub(super) fn remove(&mut self, id: ElementId) {
            match id { $(ElementId::$Name(id) => self.$list.retain(|it| it.id != id),)* }
        }

        /// Gives each element another number.
        pub(super) fn renumber(&mut self, new: impl Fn(u32) -> u32) {
            $(self.$list.iter_mut().for_each(|it| it.id = $Id(new(it.id.0)));)*
        }

        pub(crate) fn sort(&mut self) {
            $(self.$list.order_by_key(|it| it.id);)*
        }
    }
} }

elements! {
    /// A wall.
    Wall(Wall, WallId) in walls
    /// An opening in a wall.
    Opening(Opening, OpeningId) in openings
    /// A post.
    Post(Post, PostId) in posts
    /// A beam.
    Beam(Beam, BeamId) in beams
    /// A pad or strip footing.
    Footing(Footing, FootingId) in footings
    /// A joist field.
    Field(JoistField, FieldId) in fields
    /// An opening in a deck.
    FloorOpening(FloorOpening, FloorOpeningId) in floor_openings
    /// A roof.
    Roof(Roof, RoofId) in roofs
    /// A purlin under a roof.
    Purlin(Purlin, PurlinId) in purlins
    /// A heavy thing.
    Thing(HeavyThing, ThingId) in things
    /// Something seen.
    Observation(Observation, ObservationId) in observations
    /// A notch or hole in a joist.
    JoistCut(JoistCut, JoistCutId) in cuts
    /// A rim board, a row of blocking or a ledger.
    Board(Board, BoardId) in boards
}
