//! A steel beam where it rests: the plate on its posts, its web there and under point loads, and the nailer that joists are nailed to.

use serde::Serialize;

use super::FOOT;
use super::beam::Task;
use super::member::{Asked, Checked, Ratio};
use crate::plan::{Member, Set};
use crate::statics::Load;
use crate::strength::check::Rule;
use crate::strength::steel::{A36, A992, Shape};
use crate::strength::web::{Place, Plate, crippling, plate, yielding};
use crate::units::{Feet, Inches, Pounds, Psi};

/// A longer plate does not sit on a post of wood: four studs, as for beams of wood.
const LONGEST: Inches = Inches(6.0);

/// Where a steel beam rests, and what joists are nailed to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SteelSeat {
    /// The plate along the beam on wood of the species asked; none where no post of wood is long enough for it: then a steel column
    /// with a cap, which is designed.
    pub along: Option<Inches>,
    /// Across the beam.
    pub across: Inches,
    /// How thick, of A36.
    pub thick: Inches,
    /// What lies on its upper flange, bolted through.
    pub nailer: Member,
    /// Whether the nailer lies under the joists, or the web is packed out for hangers.
    pub set: Set,
}

/// The plate under the hardest push; `plate_wood` is Fc-perp of what it lies on.
fn under(shape: &Shape, asked: &[Asked], plate_wood: Psi) -> Plate {
    let most = asked.iter().flat_map(|it| it.reactions.iter().map(|it| it.1)).fold(Pounds::ZERO, Pounds::max);
    plate(most, shape, A36.fy, shape.flange_width.max(FOOT), plate_wood)
}

impl SteelSeat {
    pub(super) fn of(shape: &Shape, asked: &[Asked], plate_wood: Psi, set: Set) -> Self {
        let Plate { along, across, thick } = under(shape, asked, plate_wood);
        // The widest nominal 2 that the flange holds whole, a 2x4 at the least.
        let wide = [8, 6].into_iter().find(|it| Member::sawn(2, *it).depth.inches() <= shape.flange_width.0 + 0.01);
        let nailer = Member::sawn(2, wide.unwrap_or(4));
        Self { along: (along <= LONGEST).then_some(along), across, thick, nailer, set }
    }
}

/// The checks of a shape with its web over each seat, on the plate there or on 6 in where it is a cap, and under each point load on
/// a foot of 3 1/2 in.
pub(super) fn with_web(mut checked: Checked, shape: &Shape, task: &Task, asked: &[Asked], plate_wood: Psi) -> Checked {
    let lb = under(shape, asked, plate_wood).along.min(LONGEST);
    let supports = task.piece.supports();
    let deep = Feet::from(shape.depth);
    let place = |at: Feet| {
        let inner = at > deep && task.piece.to() - at > deep;
        if inner { Place::Inner } else { Place::End }
    };
    for one in asked {
        let mut press = |push: Pounds, lb: Inches, place: Place| {
            let ways = [
                (Rule::WebYielding, yielding(shape, &A992, lb, place)),
                (Rule::WebCrippling, crippling(shape, &A992, lb, place)),
            ];
            for (rule, carries) in ways {
                let ratio = push / carries;
                if ratio > checked.shearing.ratio {
                    checked.shearing = Ratio { rule, ratio, under: one.combination };
                }
            }
        };
        for (at, (_, most)) in supports.iter().zip(&one.reactions) {
            press(*most, lb, place(*at));
        }
        let factors = one.combination.factors(&task.site);
        for (load, times) in &task.loads {
            let Load::Point { at, weight } = *load else { continue };
            let number = times.dead * factors.dead
                + times.floor * factors.floor
                + times.attic * factors.attic
                + times.roof_live * factors.roof_live
                + times.snow * factors.snow;
            press(weight * number, FOOT, place(at));
        }
    }
    checked
}
