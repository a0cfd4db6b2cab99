//! What is taken of a part until somebody says otherwise: common practice, every piece of it to be changed.

use super::{
    Grade, Joints, JoistField, Level, LevelKind, Meets, Member, Plan, Point, Region, Roof, RoofForm, RoofFrame, Use,
    Way,
};
use crate::ids::{FieldId, RoofId};
use crate::units::Ticks;

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
    /// The use of the deck over a level that nobody stated: an attic over the top storey, rooms over the others.
    #[must_use]
    pub fn usual_use(&self, level: &Level) -> Use {
        let under_the_roof = self.level_above(level.id).is_none_or(|above| above.kind == LevelKind::Attic);
        if under_the_roof && level.kind == LevelKind::Storey { Use::AtticBare } else { Use::Living }
    }
}
