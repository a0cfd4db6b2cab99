//! What is taken of a part until somebody says otherwise: common practice, every piece of it to be changed.

use super::{
    Grade, Joints, JoistField, Level, LevelKind, Meets, Member, Plan, Point, Region, Roof, RoofForm, RoofFrame, Side,
    Use, Way, Wood,
};
use crate::geometry;
use crate::ids::{FieldId, RoofId};
use crate::units::{Feet, Ticks};

/// An opening in a deck this long is for a stair: a hatch or a chimney is shorter (common practice).
const STAIR: Feet = Feet(6.0);
/// On centre, of joists and rafters.
const SPACING: Ticks = Ticks::from_sixteenths(16 * 16);

impl JoistField {
    /// Joists over a region, with the usual spacing and nothing seen but what is given; not in a plan yet.
    #[must_use]
    pub fn usual(region: Region, along: Way, known: Grade, used_as: Use) -> Self {
        Self {
            id: FieldId(0),
            region,
            along,
            member: Member::default(),
            spacing: SPACING,
            joints: Joints::NotSeen,
            used_as,
            dead: None,
            layers: Vec::new(),
            wood: Wood::default(),
            known,
        }
    }
}

impl Roof {
    /// A gable roof over the outline, with the usual pitch, eaves and spacing; not in a plan yet.
    #[must_use]
    pub fn usual(ridge: Way, frame: RoofFrame, known: Grade) -> Self {
        let trusses = matches!(frame, RoofFrame::Trusses { .. });
        Self {
            id: RoofId(0),
            region: Region::Outline,
            ridge,
            ridge_at: None,
            form: RoofForm::Gable,
            frame,
            meets: Meets::Covers,
            long_valley: None,
            openings: Vec::new(),
            rise: Ticks::from_sixteenths(6 * 16),
            overhang: Ticks::from_feet(1),
            spacing: if trusses { Ticks::from_feet(2) } else { SPACING },
            member: Member::default(),
            dead: None,
            layers: Vec::new(),
            wood: Wood::default(),
            known,
        }
    }
}

impl Level {
    /// The way across the shorter side of its outline: the likelier way of joists.
    #[must_use]
    pub fn shorter_way(&self) -> Way {
        let outlines = self.outlines();
        let corners = || outlines.iter().flatten();
        let spread = |of: fn(&Point) -> Ticks| {
            let least = corners().map(of).min().unwrap_or_default();
            corners().map(of).max().unwrap_or_default() - least
        };
        if spread(|at| at.x) < spread(|at| at.y) { Way::X } else { Way::Y }
    }
}

impl Plan {
    /// The use of the deck over a level that nobody stated: rooms, under a roof a bare attic; under an attic that has rooms or
    /// a stair what the code has for those (IRC Table R301.5: habitable attics and attics served with fixed stairs).
    #[must_use]
    pub fn usual_use(&self, level: &Level) -> Use {
        let above = self.level_above(level.id);
        let attic = above.filter(|above| above.kind == LevelKind::Attic);
        let under_the_roof = above.is_none() || attic.is_some();
        if !under_the_roof || !matches!(level.kind, LevelKind::Storey | LevelKind::Attic) {
            return Use::Living;
        }
        let rooms = attic.is_some_and(|attic| attic.walls.iter().any(|wall| wall.side == Side::Inside));
        let stair = attic.is_some() && level.floor_openings.iter().any(|it| is_long(&it.corners));
        if rooms || stair { Use::AtticRoom } else { Use::AtticBare }
    }
}

/// Whether an opening in a deck is a stair's.
fn is_long(corners: &[Point]) -> bool {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).any(|(a, b)| geometry::length(*a, *b) >= STAIR)
}

#[cfg(all(test, feature = "draft"))]
mod tests {
    use super::*;
    use crate::draft::{Draft, draft};

    fn use_over(house: Draft, level: usize) -> Option<Use> {
        let plan = house.done();
        plan.levels().get(level).map(|level| plan.usual_use(level))
    }

    #[test]
    fn joists_under_an_attic_are_a_floor_where_rooms_or_a_stair_are_and_a_ceiling_else() {
        let storey = || draft().outside(30, 24);
        let attic = |house: Draft| house.up().kind(LevelKind::Attic).outside(30, 24);
        assert_eq!(use_over(storey(), 0), Some(Use::AtticBare));
        assert_eq!(use_over(attic(storey()), 0), Some(Use::AtticBare));
        assert_eq!(use_over(attic(storey()).inside("K", (0, 6), (30, 6)), 0), Some(Use::AtticRoom));
        assert_eq!(use_over(attic(storey().stair((4, 4), (7, 14))), 0), Some(Use::AtticRoom));
        // A hatch of 2 ft 6 in and a chimney of 3 ft.
        assert_eq!(use_over(attic(storey().stair((4, 4), (6.5, 6.5))), 0), Some(Use::AtticBare));
        assert_eq!(use_over(attic(storey().stair((4, 4), (7, 7))), 0), Some(Use::AtticBare));
        // Over the rooms of the attic there is a bare one; under a storey there are rooms.
        assert_eq!(use_over(attic(storey()), 1), Some(Use::AtticBare));
        assert_eq!(use_over(storey().up().outside(30, 24), 0), Some(Use::Living));
        assert_eq!(use_over(storey().kind(LevelKind::Basement), 0), Some(Use::Living));
    }
}
