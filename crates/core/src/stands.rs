//! What stands, part by part: how much of what it may carry is used, or why nobody knows.
//!
//! By the same checks as a study, with the loads of the house as it is drawn. Walls, headers over openings, hips, valleys and
//! connections are absent.

mod sag;

use serde::Serialize;

pub use sag::{Sagged, sagged};

use crate::ids::{ElementId, FieldId};
use crate::loads::heaviest;
use crate::plan::{Element, JoistField, Plan, Roof, RoofFrame};
use crate::strength::check::{Rule, SagLimits};
use crate::take_out::{Checked, Column, NoFigure, Soil, Standing, bar, cuts_in, limits, of_post, on_slope, on_soil};
use crate::trace::{Carried, LaidAs, Node, Probe, Trace, follow};
use crate::units::{Inches, Psf};

/// What a part may carry beside what comes to it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Holds {
    /// A beam, the worst of the joists of a field or of the rafters of a roof.
    Bends(Checked),
    /// A post.
    Column(Column),
    /// A footing, on soil that was stated.
    Soil(Soil, Psf),
    /// A footing on soil of which nobody said what it bears.
    SoilNotStated(Soil),
    /// Nobody can say, and why.
    NoFigure(NoFigure),
}

/// One part that stands.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Stands {
    /// Which.
    pub part: ElementId,
    /// What it may carry.
    pub holds: Holds,
}

impl Stands {
    /// How much of what it may carry is used, over 1 too much; none where nobody can say.
    #[must_use]
    pub fn used(&self) -> Option<f64> {
        match self.holds {
            Holds::Bends(checked) => Some(checked.governing().ratio),
            Holds::Column(column) if column.passes() => Some(column.ratio),
            // More slender than any post may be: over the limit whatever comes.
            Holds::Column(column) => Some(column.ratio.max(column.slenderness / crate::members::column::MOST_SLENDER)),
            Holds::Soil(soil, bears) => Some(soil.most / bears),
            Holds::SoilNotStated(_) | Holds::NoFigure(_) => None,
        }
    }

    /// Whether it is over what it may carry, or sags too far.
    #[must_use]
    pub fn overloaded(&self) -> bool {
        self.used().is_some_and(|used| used.is_nan() || used > 1.0 + 1e-9)
    }

    /// Whether something may break, buckle or sink: too much sag alone endangers nobody.
    #[must_use]
    pub fn endangers(&self) -> bool {
        match self.holds {
            Holds::Bends(it) => [it.bending, it.shearing].iter().any(|it| it.ratio.is_nan() || it.ratio > 1.0 + 1e-9),
            _ => self.overloaded(),
        }
    }

    /// What governs, of a member that bends.
    #[must_use]
    pub fn rule(&self) -> Option<Rule> {
        match self.holds {
            Holds::Bends(checked) => Some(checked.governing().rule),
            _ => None,
        }
    }
}

/// One part; none for a kind of part that is not checked, or on which nothing drawn lands.
#[must_use]
pub fn stands(plan: &Plan, part: ElementId) -> Option<Stands> {
    let mut probe = Probe::of_members();
    let trace = follow(plan, &mut probe);
    House { plan, trace: &trace, carried: &probe.carried.unwrap_or_default() }.part(part)
}

/// Every part that is checked, level by level.
///
/// ```
/// use joistwise_core::plan::Plan;
/// use joistwise_core::stands::all;
/// assert!(all(&Plan::default()).is_empty());
/// ```
#[must_use]
pub fn all(plan: &Plan) -> Vec<Stands> {
    let mut probe = Probe::of_members();
    let trace = follow(plan, &mut probe);
    let carried = probe.carried.unwrap_or_default();
    let house = House { plan, trace: &trace, carried: &carried };
    plan.levels().iter().flat_map(|level| level.element_ids()).filter_map(|part| house.part(part)).collect()
}

struct House<'a> {
    plan: &'a Plan,
    trace: &'a Trace,
    carried: &'a [Carried],
}

impl House<'_> {
    fn part(&self, part: ElementId) -> Option<Stands> {
        let site = self.plan.site();
        let bends = |found: Result<Checked, NoFigure>| found.map_or_else(Holds::NoFigure, Holds::Bends);
        let holds = match self.plan.element(part)? {
            Element::Beam(beam) => {
                let floors = self.trace.beam(beam.id).is_some_and(|it| it.top.floor.0 > 0.0);
                let limits = if floors { SagLimits::FLOOR } else { SagLimits::CEILING };
                let alike = (1, Inches::ZERO);
                let standing = Standing { member: beam.member, wood: beam.wood, alike, limits };
                bends(self.worst(Node::Beam(beam.id), |_| standing, false)?)
            }
            Element::Field(field) => bends(self.joists(field.id, &field)?),
            Element::Roof(roof) => bends(self.rafters(&roof)?),
            Element::Post(post) => {
                let trace = self.trace.post(post.id)?;
                if heaviest(&trace.top, site).0.0 < 0.5 {
                    return None;
                }
                let height = Inches(self.plan.level(trace.level)?.height.inches());
                of_post(&post, height, &trace.top, site).map_or_else(Holds::NoFigure, Holds::Column)
            }
            Element::Footing(footing) => {
                let soil = on_soil(self.plan, self.trace, footing.id)?;
                if site.soil_is_stated() { Holds::Soil(soil, site.soil()) } else { Holds::SoilNotStated(soil) }
            }
            _ => return None,
        };
        Some(Stands { part, holds })
    }

    /// The worst piece of a member; none where no piece is laid.
    fn worst(
        &self,
        of: Node,
        standing: impl Fn(&Carried) -> Standing,
        slope: bool,
    ) -> Option<Result<Checked, NoFigure>> {
        let site = self.plan.site();
        let mut all: Option<Result<Checked, NoFigure>> = None;
        for piece in self.carried.iter().filter(|it| it.of == of && it.laid_as != Some(LaidAs::Header)) {
            let standing = standing(piece);
            let found = match self.plan.level(piece.level) {
                // What does not rest is a gap of its own in the path.
                _ if !piece.rests => Err(NoFigure::NoSeat),
                Some(level) if !slope => {
                    let cuts = cuts_in(level, &self.trace.members, piece);
                    standing.check_cut(&bar(piece), &piece.loads, site, &cuts)
                }
                _ => on_slope(&standing, piece, site),
            };
            all = Some(match (all, found) {
                (Some(Ok(known)), Ok(one)) => Ok(known.or_worse(one)),
                (Some(Ok(known)), Err(NoFigure::NoSeat)) => Ok(known),
                (Some(Err(NoFigure::NoSeat)) | None, found) => found,
                // One that nobody can say anything of hides all others.
                (Some(Err(why)), _) | (Some(Ok(_)), Err(why)) => Err(why),
            });
        }
        all
    }

    fn joists(&self, id: FieldId, field: &JoistField) -> Option<Result<Checked, NoFigure>> {
        let JoistField { member, wood, spacing, .. } = *field;
        let limits = limits::of_joists(field);
        let standing = |piece: &Carried| {
            let trimmer = piece.laid_as == Some(LaidAs::Trimmer);
            let plies = if trimmer { member.plies.saturating_mul(2) } else { member.plies };
            let alike = (if trimmer { 1 } else { 3 }, Inches(spacing.inches()));
            Standing { member: crate::plan::Member { plies, ..member }, wood, alike, limits }
        };
        self.worst(Node::Field(id), standing, false)
    }

    fn rafters(&self, roof: &Roof) -> Option<Result<Checked, NoFigure>> {
        if let RoofFrame::Trusses { .. } = roof.frame {
            return Some(Err(NoFigure::Truss));
        }
        let (member, wood, alike) = (roof.member, roof.wood, (3, Inches(roof.spacing.inches())));
        let standing = Standing { member, wood, alike, limits: limits::of_rafters(roof) };
        self.worst(Node::Roof(roof.id), |_| standing, true)
    }
}
