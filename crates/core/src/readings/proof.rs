//! What was seen to carry: each proof with its wall and place, and whether what it holds is drawn or read.
//!
//! A proof makes the stretch it is on carry in every reading. Where no reading brings a load there, the judgement names
//! it: what rests on the wall is real, and nobody drew it.

use super::fact::wall_of;
use super::known::along;
use super::question::field_at;
use crate::geometry;
use crate::ids::{LevelId, ObservationId, WallId};
use crate::plan::{Grade, Level, Plan, Point, Saw};
use crate::trace::{Feed, Origin, Reason, Role, Trace, WallTrace};
use crate::units::{Feet, Pounds};

/// A pack of studs and the post drawn for it are this near to each other, in feet.
const PACK: Feet = Feet(0.75);
/// Less than this is no load, in pounds.
const SOME: Pounds = Pounds(1.0);

/// Something seen to carry, of which neither a part that is drawn nor a reading says what it holds.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Unsourced {
    /// What was seen.
    pub seen: ObservationId,
    /// The same, as what it is.
    pub saw: Saw,
    /// On which level.
    pub level: LevelId,
    /// On which wall.
    pub wall: WallId,
    /// How far from end `a` of the wall.
    pub at: Feet,
}

/// A proof of carrying on one wall.
#[derive(Clone, Debug)]
pub(super) struct Proof {
    pub(super) seen: ObservationId,
    pub(super) saw: Saw,
    pub(super) wall: WallId,
    pub(super) at: Feet,
    /// What the wall does there, whatever else lands.
    pub(super) role: Role,
    place: Point,
}

/// Kinds that prove that the wall carries something.
pub(super) const fn carries(saw: &Saw) -> bool {
    matches!(
        saw,
        Saw::JoistsLap | Saw::JoistsEnd | Saw::JoistsHang | Saw::SitOnPlate | Saw::StrutStands | Saw::TrussTag
    )
}

/// The proofs on the inside walls of a level.
pub(super) fn proofs(level: &Level, top: bool) -> Vec<Proof> {
    let seen = level.observations.iter().filter(|it| it.known <= Grade::Seen);
    let proves = seen.filter(|it| carries(&it.saw) || matches!(it.saw, Saw::StudPack { .. }));
    let proof = |it: &crate::plan::Observation| {
        let wall = level.wall(wall_of(level, it.at)?)?;
        let at = along(wall.a, wall.b, it.at)?;
        let ceiling = field_at(level, it.at).map_or(top, |field| field.used_as.is_ceiling());
        let role = match it.saw {
            Saw::StrutStands | Saw::TrussTag => Role::CarriesRoof,
            Saw::StudPack { .. } => Role::HoldsPoint,
            _ if ceiling => Role::CarriesCeiling,
            _ => Role::CarriesFloor,
        };
        let place = crate::units::Ticks::from_decimal_feet(at).and_then(|far| geometry::along(wall.a, wall.b, far));
        Some(Proof { seen: it.id, saw: it.saw, wall: wall.id, at, role, place: place.unwrap_or(it.at) })
    };
    proves.filter_map(proof).collect()
}

impl Proof {
    /// Whether a house as it was traced brings a load to what was seen.
    pub(super) fn is_sourced(&self, house: &Plan, trace: &Trace) -> bool {
        let Some(wall) = trace.wall(self.wall) else { return false };
        let on = |feed: &Feed| feed.start <= self.at && self.at <= feed.end;
        let here = wall.stretches.iter().find(|it| it.start <= self.at && self.at <= it.end);
        match self.saw {
            // Those of a purlin come down every few feet along the wall: the one that was seen is one of them.
            Saw::StrutStands => {
                let strut = |reason: &Reason| matches!(reason, Reason::StrutsStandOn { .. });
                wall.stretches.iter().any(|it| it.reasons.iter().any(strut))
            }
            Saw::StudPack { .. } => {
                let near = |at: Point| geometry::length(at, self.place) <= PACK;
                let level = house.levels().iter().find(|level| level.wall(self.wall).is_some());
                let posts = level.into_iter().flat_map(|level| &level.posts).filter(|post| near(post.at));
                let loaded = |id| trace.posts.iter().any(|it| it.post == id && it.top.all() > SOME);
                posts.into_iter().any(|post| loaded(post.id)) || self.has_point(wall)
            }
            Saw::TrussTag => here.is_some_and(|it| it.role == Role::CarriesRoof),
            // Joists come down as a feed; on a low wall it is the rafters that sit there.
            Saw::SitOnPlate => wall.feeds.iter().any(on),
            _ => wall.feeds.iter().any(|feed| feed.origin != Origin::Roof && on(feed)),
        }
    }

    fn has_point(&self, wall: &WallTrace) -> bool {
        wall.points.iter().any(|it| (it.at - self.at).abs() <= PACK && it.weights.all() > SOME)
    }
}
