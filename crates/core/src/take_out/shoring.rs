//! Holding it up meanwhile: all that the stretch holds now, each part of it on something that holds it till the beam is in.
//!
//! Joists that end on the stretch, or pass over it, stand on a line of props on each side (`line`). What stands on its top
//! plate, and not on joists, is held by needles or by a prop of its own (`held`). Props go on down, level by level, to the
//! ground (`way`). What nothing here holds is [`Blocked`]: then nothing is cut. Two houses that may both be there are
//! brought together by the worse of them (`worse`). A case is one traced house.

use serde::Serialize;

use super::member::{Checked, Ratio};
use super::prop::Prop;
use super::{Case, Meets, Refusal};
use crate::card::Figure;
use crate::geometry::Frame;
use crate::ids::{FieldId, FloorOpeningId, JoistCutId, LevelId, WallId};
use crate::loads::{Combination, LineLoads, Site, Weights};
use crate::trace::Node;
use crate::units::{Feet, Plf, Pounds};

mod cuts;
mod held;
mod line;
mod way;
mod worse;

pub use held::{Held, Holds, Needles, OwnProp, Unheld};
pub(super) use way::floor_at;

/// Props stand this far apart along their line (common practice).
pub const PROPS_APART: Feet = Feet(4.0);
/// The side force for which each prop is braced, as a share of what it carries (common practice).
pub const BRACE: f64 = 0.02;
/// A place this near to a line is on it, in feet.
const HAIR: f64 = 0.02;

/// Why a side may be left without props.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Skip {
    /// Nothing comes from that side.
    NothingThere,
    /// The joists run through in one piece, and pass every check on the props of the other side alone.
    OnePieceSpansOn,
}

/// What props stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum PropsOn {
    /// A slab or the ground: planks spread them.
    Ground,
    /// Joists that cross the line of props: planks along the line.
    Across(FieldId),
    /// Joists that run along the line: planks across at least three of them.
    Along(FieldId),
    /// A floor of which nobody said how it is framed.
    NotKnown,
}

/// Why no prop is named.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum NoProp {
    /// Something in this study blocks every size.
    Refused,
    /// None of the posts tried here carries the line.
    NoneCarries,
    /// The far ends of the joists would lift: they tip over the props.
    Tips,
}

/// What props ask of the joists on them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OnProps {
    /// Every check passes.
    Passes,
    /// Their size is not known, but props bend and shear them no more than what holds them now.
    NoMoreThanNow,
    /// Their size is not known, and props ask more of them than what holds them now.
    NotKnown,
    /// A check fails.
    Fails,
}

/// A notch or hole in a joist on the props: what is left of the joist there, checked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Weakened {
    /// Which cut.
    pub cut: JoistCutId,
    /// Bending or shear of what is left; infinite where nothing is left.
    pub worst: Ratio,
}

/// A wall square to a line of props that cuts it in two.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CutBy {
    /// Which.
    pub wall: WallId,
    /// The length of the line before it, from the start of the stretch.
    pub before: Feet,
    /// The length past it.
    pub past: Feet,
}

/// Why nothing can go straight down from a place to the ground.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "no_way")]
pub enum NoWay {
    /// An opening or stair in the floor of a level.
    Opening {
        /// The level under that floor.
        level: LevelId,
        /// Which opening.
        opening: FloorOpeningId,
    },
    /// Outside the walls, a storey or more above the ground.
    Outside {
        /// The level beside which it would stand.
        level: LevelId,
    },
}

/// A line of props.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PropLine {
    /// On the left, seen from end `a` of the wall to end `b`.
    pub left: bool,
    /// How far from the wall's line.
    pub offset: Feet,
    /// The longest span of the joists on that side, from the wall to what holds their far end.
    pub span: Feet,
    /// How they meet the wall.
    pub meets: Meets,
    /// Line load on the props by kind, where it is heaviest.
    pub line: LineLoads,
    /// Its heaviest combination.
    pub most: Plf,
    /// Which.
    pub under: Combination,
    /// What the wall had of it.
    pub had: Plf,
    /// What walls above put on the overhanging ends of this side, on each foot; nothing where needles hold them.
    pub above: LineLoads,
    /// All that the joists themselves bring to the whole line: [`Self::above`] is not in it.
    pub holds: Weights,
    /// What the other supports of those joists then have more than now; under zero where they have less.
    pub beyond: Weights,
    /// The least push at the far end over every combination, each kind of live load on or off; under zero it lifts.
    pub far: Plf,
    /// The same, were all that stands on the stretch left on the ends of the joists: under zero they would tip over the
    /// props.
    pub alone: Plf,
    /// One prop of those [`PROPS_APART`].
    pub each: Pounds,
    /// A sawn prop that carries it, and how far apart.
    pub prop: Option<Prop>,
    /// Why there is none.
    pub no_prop: Option<NoProp>,
    /// The joists with the props in place, where their size is known.
    pub joists: Option<Checked>,
    /// What the props ask of them, notches and holes counted.
    pub on_props: OnProps,
    /// The worst of the notches and holes drawn in them.
    pub weakened: Option<Weakened>,
    /// Why this side may be left out.
    pub skip: Option<Skip>,
    /// What the props stand on.
    pub on: PropsOn,
    /// The joists of that floor, were the line to stop there, where their size is known.
    pub floor: Option<Checked>,
    /// Why the line cannot go straight down to the ground.
    pub no_way: Option<NoWay>,
    /// Walls that cut it in two.
    pub cut_by: Vec<CutBy>,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// Why nothing may be cut: something that the stretch holds now has nothing that is known to hold it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "block")]
pub enum Block {
    /// The far ends of the joists would lift.
    Tips {
        /// On which side.
        left: bool,
        /// How far under zero the far end is.
        far: Plf,
    },
    /// Joists fail on the props.
    JoistsFail {
        /// On which side.
        left: bool,
        /// Asked over allowed.
        ratio: f64,
    },
    /// Nobody saw the size of the joists, and props ask more of them than the wall does.
    JoistsNotKnown {
        /// On which side.
        left: bool,
    },
    /// No prop tried here carries the line.
    NoProp {
        /// On which side.
        left: bool,
        /// The line load.
        most: Plf,
    },
    /// The line cannot go straight down to the ground.
    NoWayDown {
        /// On which side.
        left: bool,
        /// Why.
        why: NoWay,
    },
    /// Nothing here holds something that stands on the stretch.
    NotHeld {
        /// What.
        what: Node,
        /// How much, heaviest combination.
        most: Pounds,
        /// Why.
        why: Unheld,
    },
}

/// One of them in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Blocked {
    /// What.
    pub about: Block,
    /// In a sentence.
    pub sentence: String,
}

/// Holding it up meanwhile.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Shoring {
    /// Lines of props; left first.
    pub lines: Vec<PropLine>,
    /// What stands on the stretch besides joists, with what holds it.
    pub held: Vec<Held>,
    /// Why nothing may be cut yet; nothing where all that the stretch holds is held.
    pub blocked: Vec<Blocked>,
    /// Levels below on which the same props stand in line, down to the ground.
    pub below: Vec<LevelId>,
    /// Push outward that ties across have to hold while a beam between the joists goes in.
    pub thrust: Option<Weights>,
    /// What is to know besides, in words.
    pub notes: Vec<String>,
    /// All of it in words.
    pub sentences: Vec<String>,
}

pub(super) fn shoring(case: &Case<'_>, thrust: Option<Weights>, refusals: &[Refusal]) -> Shoring {
    let refused = refusals.iter().any(|it| it.blocks);
    let mut held = held::on_top(case);
    let all_on_ends = held.iter().fold(LineLoads::default(), |sum, it| sum + it.on_each_foot(case));
    let on_ends = held.iter().filter(|it| it.may_stand_on_ends).fold(LineLoads::default(), |sum, it| sum + it.row);
    // Walls above may stay on the ends of joists that are known to hold them there.
    let mut lines = line::lines(case, on_ends);
    let fine = |it: &PropLine| it.skip.is_some() || (it.far >= Plf::ZERO && it.on_props == OnProps::Passes);
    let stay = !lines.is_empty() && lines.iter().all(fine);
    if !stay && on_ends.all() > Plf::ZERO {
        lines = line::lines(case, LineLoads::default());
    }
    let as_they_are = line::lines(case, all_on_ends);
    for line in &mut lines {
        let alone = as_they_are.iter().find(|it| it.left == line.left).map_or(line.far, |it| it.far);
        line.alone = line.far.min(alone);
        line.no_way = way::of_line(case, line.left);
        line.cut_by = way::cut_by(case, line.left);
        line.floor = way::floor(case, line);
        let why = match () {
            () if refused => Some(NoProp::Refused),
            () if line.far < Plf::ZERO => Some(NoProp::Tips),
            () => line.prop.is_none().then_some(NoProp::NoneCarries),
        };
        line.prop = line.prop.filter(|_| why.is_none());
        line.no_prop = why;
        (line.sentence, line.figures) = case.words.prop_line(line, case.stretch.lumber);
    }
    let mut held: Vec<Held> = held.drain(..).map(|it| it.held(case, stay, refused)).collect();
    held.extend(line::left_out(case));
    held.extend(held::not_followed(case, &lines, &held));
    for it in &mut held {
        (it.sentence, it.figures) = case.words.held(it, case.stretch.lumber);
    }
    let number = case.plan.levels().iter().position(|it| it.id == case.level.id).unwrap_or_default();
    let below: Vec<LevelId> = case.plan.levels().iter().take(number).rev().map(|it| it.id).collect();
    let mut all = Shoring { lines, held, below, thrust, ..Shoring::default() };
    all.blocked =
        blocks(&all).into_iter().map(|about| Blocked { about, sentence: case.words.shoring_block(&about) }).collect();
    all.notes = case.words.shoring_notes(&all);
    all.tell();
    all
}

/// Why nothing may be cut. Where a study is refused as a whole, no prop is named: that is said once, by the refusal.
fn blocks(shoring: &Shoring) -> Vec<Block> {
    let mut all = Vec::new();
    for line in shoring.lines.iter().filter(|it| it.skip.is_none()) {
        let PropLine { left, far, most, .. } = *line;
        if far < Plf::ZERO {
            all.push(Block::Tips { left, far });
        }
        match line.on_props {
            OnProps::Fails => all.push(Block::JoistsFail { left, ratio: line.worst_ratio() }),
            OnProps::NotKnown => all.push(Block::JoistsNotKnown { left }),
            OnProps::Passes | OnProps::NoMoreThanNow => {}
        }
        if line.no_prop == Some(NoProp::NoneCarries) {
            all.push(Block::NoProp { left, most });
        }
        all.extend(line.no_way.map(|why| Block::NoWayDown { left, why }));
    }
    for it in &shoring.held {
        if let Holds::Nothing(why) = it.by {
            all.push(Block::NotHeld { what: it.what, most: it.most, why });
        }
    }
    all
}

impl PropLine {
    /// The worst of all checks of the joists on it, notches and holes counted.
    #[must_use]
    pub fn worst_ratio(&self) -> f64 {
        let whole = self.joists.map_or(0.0, |it| it.governing().ratio);
        self.weakened.map_or(whole, |it| it.worst.ratio.max(whole))
    }
}

impl Shoring {
    /// What it says, from what its parts say.
    fn tell(&mut self) {
        let lines = self.lines.iter().map(|it| &it.sentence).chain(self.held.iter().map(|it| &it.sentence));
        let all = lines.chain(self.blocked.iter().map(|it| &it.sentence)).chain(&self.notes);
        self.sentences = all.filter(|it| !it.is_empty()).cloned().collect();
    }
}

/// The least that a quantity comes to over every combination, each kind of live load taken off where that makes it less:
/// rooms are emptied, roofs may be bare.
fn least(by_kind: &LineLoads, site: &Site) -> (Plf, Combination) {
    let mut least: Option<(Plf, Combination)> = None;
    for combination in Combination::ALL {
        let times = combination.factors(site);
        let off = |plf: Plf, times: f64| (plf * times).min(Plf::ZERO);
        let all = by_kind.dead * times.dead
            + off(by_kind.floor, times.floor)
            + off(by_kind.attic, times.attic)
            + off(by_kind.roof_live, times.roof_live)
            + off(by_kind.snow, times.snow);
        if least.is_none_or(|it| all < it.0) {
            least = Some((all, combination));
        }
    }
    least.unwrap_or((Plf::ZERO, Combination::Dead))
}

/// The line that is studied: its own frame, where it begins along it, and how far it lies across.
fn frame(case: &Case<'_>) -> Option<(Frame, Feet, Feet)> {
    let own = Frame::between(case.line.a, case.line.b)?;
    let (start, across) = own.local(case.line.a.into());
    Some((own, start, across))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::loads::ByKind;

    /// 30 dead, 100 floor, 20 snow lift, 10 roof live: the floor is emptied: D + S = 10 plf; with 40 of snow lift, -10.
    #[test]
    fn the_least_in_plf_leaves_off_what_holds_down_and_counts_what_lifts() {
        let plf = |snow: f64| ByKind {
            dead: Plf(30.0),
            floor: Plf(100.0),
            attic: Plf(0.0),
            roof_live: Plf(10.0),
            snow: Plf(snow),
        };
        assert_eq!(least(&plf(-20.0), &Site::default()), (Plf(10.0), Combination::DeadSnow));
        assert_eq!(least(&plf(-40.0), &Site::default()), (Plf(-10.0), Combination::DeadSnow));
        assert_eq!(least(&plf(20.0), &Site::default()), (Plf(30.0), Combination::Dead));
    }
}
