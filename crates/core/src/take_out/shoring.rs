//! Holding it up meanwhile: a line of props on each side of the stretch, and what they stand on.
//!
//! A prop line at a distance `a` from a wall on which joists of span `L` end gets `w L^2 / (2 (L - a))`: more than the wall
//! did. By free body, with the real loads on the joists; walls above stand on the ends that overhang. All of the live load
//! counts: rooms above are emptied to make it less. Props are sized in `prop`.

use serde::Serialize;

use super::loses::{Meets, spot};
use super::member::{CEILING_JOISTS, Checked, FLOOR_JOISTS, Standing};
use super::prop::{Prop, prop_under};
use super::{Case, NoBeam, Refusal};
use crate::card::Figure;
use crate::geometry::{self, Frame, Position, Spot, apart};
use crate::ids::{FieldId, LevelId};
use crate::loads::{ByKind, Combination, LineLoads, Weights, heaviest};
use crate::plan::{Joints, JoistField, Level, Point};
use crate::statics::{Load, Piece};
use crate::trace::{Carried, Node};
use crate::units::{Feet, Inches, Plf, Pounds, Ticks};

/// Props stand this far apart along their line (common practice).
pub const PROPS_APART: Feet = Feet(4.0);
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
    /// What walls and posts above put on the overhanging ends of this side, on each foot.
    pub above: LineLoads,
    /// The least push at the far end; under zero it lifts.
    pub far: Plf,
    /// One prop of those [`PROPS_APART`], on the worst reading.
    pub each: Pounds,
    /// A sawn prop that carries it, and how far apart.
    pub prop: Option<Prop>,
    /// Why there is none.
    pub no_prop: Option<NoBeam>,
    /// The joists with the props in place, where their size is known.
    pub joists: Option<Checked>,
    /// Why this side may be left out.
    pub skip: Option<Skip>,
    /// What the props stand on.
    pub on: PropsOn,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// Holding it up meanwhile.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Shoring {
    /// Lines of props; left first.
    pub lines: Vec<PropLine>,
    /// Levels below on which the same props stand in line, down to the ground.
    pub below: Vec<LevelId>,
    /// Push outward that ties across have to hold while a beam between the joists goes in.
    pub thrust: Option<Weights>,
    /// In words.
    pub sentences: Vec<String>,
}

pub(super) fn shoring(case: &Case<'_>, thrust: Option<Weights>, refusals: &[Refusal]) -> Shoring {
    let above = above(case);
    let mut lines: Vec<PropLine> =
        [true, false].into_iter().filter_map(|left| line(case, left, above, false)).collect();
    if let [one, other] = lines.as_mut_slice() {
        // One line may be enough for joists in one piece: that of the side on which more is left to hold.
        let alone = |line: &PropLine| line.meets == Meets::RunThrough && spans_on(case, line.left, above);
        let (stays, goes) = if alone(one) { (one, other) } else { (other, one) };
        if alone(stays) {
            goes.skip = Some(Skip::OnePieceSpansOn);
            // What the other line would have had comes to it as well.
            *stays = line(case, stays.left, above, true).unwrap_or_else(|| stays.clone());
        }
    }
    let refused = refusals.iter().any(|it| it.blocks);
    for line in &mut lines {
        line.prop = line.prop.filter(|_| !refused);
        let why = if refused { NoBeam::Refused } else { NoBeam::NoneCarries };
        line.no_prop = line.prop.is_none().then_some(why);
        (line.sentence, line.figures) = case.words.prop_line(line, case.stretch.lumber);
    }
    let number = case.plan.levels().iter().position(|it| it.id == case.level.id).unwrap_or_default();
    let below: Vec<LevelId> = case.plan.levels().iter().take(number).rev().map(|it| it.id).collect();
    let mut all = Shoring { lines, below, thrust, sentences: Vec::new() };
    all.sentences = case.words.shoring(&all);
    all
}

/// What stands on the stretch besides joists, on each foot of it.
fn above(case: &Case<'_>) -> LineLoads {
    let all = case.standing().iter().fold(Weights::default(), |sum, it| sum + it.1);
    all.map(|pounds| pounds / case.length())
}

/// Joists of one side with a seat on the stretch: the piece, its seat there, and whether `t` of the piece grows to that side.
fn joists<'a>(case: &'a Case<'_>, left: bool) -> Vec<(&'a Carried, Feet, bool)> {
    let Some(own) = Frame::between(case.line.a, case.line.b) else { return Vec::new() };
    let (start, line) = own.local(case.line.a.into());
    let within = case.stretch.from.0 - HAIR..case.stretch.to.0 + HAIR;
    let mut all = Vec::new();
    for piece in case.before.carried.iter().filter(|it| matches!(it.of, Node::Field(_)) && it.level == case.level.id) {
        let length = apart(piece.a, piece.b);
        for (at, _) in piece.seats.iter().filter(|it| it.1 == case.line.node) {
            let along = own.local(spot(piece, *at)).0 - start;
            if !within.contains(&along.0) {
                continue;
            }
            let side = |end: Spot| own.local(end).1 - line;
            let (a, b) = (side(piece.a), side(piece.b));
            let grows = b > a;
            // The part of the piece on that side.
            let part = if grows == left { length - *at } else { *at };
            if part.0 > HAIR {
                all.push((piece, *at, grows == left));
            }
        }
    }
    all
}

/// A joist with the wall gone and props in its place, on the sides asked for.
fn propped(
    case: &Case<'_>,
    (piece, at): (&Carried, Feet),
    sides: &[f64],
    tip: Weights,
) -> (Piece, Vec<(Load, ByKind<f64>)>) {
    let length = apart(piece.a, piece.b);
    let wall = case.line.node;
    let mut seats: Vec<Feet> =
        piece.seats.iter().filter(|it| it.1 != wall || (it.0 - at).abs().0 > HAIR).map(|it| it.0).collect();
    for side in sides {
        seats.push((at + case.stretch.shoring_offset * *side).max(Feet::ZERO).min(length));
    }
    let mut loads = piece.loads.clone();
    if tip.all().0.abs() > 1e-9 {
        loads.push((Load::Point { at, weight: Pounds(1.0) }, tip.map(f64::from)));
    }
    (Piece::new(Feet::ZERO, length, &seats), loads)
}

fn standing(case: &Case<'_>, id: FieldId) -> Option<Standing> {
    let field = case.field(id)?.1;
    Some(Standing {
        member: field.member,
        stock: case.stretch.lumber,
        alike: (3, Inches(field.spacing.inches())),
        limits: if field.used_as.is_ceiling() { CEILING_JOISTS } else { FLOOR_JOISTS },
    })
}

/// Whether joists in one piece pass on the props of one side alone.
fn spans_on(case: &Case<'_>, left: bool, above: LineLoads) -> bool {
    let joists = joists(case, left);
    !joists.is_empty()
        && joists.iter().all(|(piece, at, grows)| {
            let Node::Field(id) = piece.of else { return false };
            let (Some(standing), Some((_, field))) = (standing(case, id), case.field(id)) else { return false };
            let tip = above * field.spacing.feet();
            let (bar, loads) = propped(case, (piece, *at), &[if *grows { 1.0 } else { -1.0 }], tip);
            standing.check(&bar, &loads, case.plan.site()).is_ok_and(|it| it.passes())
        })
}

/// The props of one side; `alone` where joists in one piece have none on the other.
fn line(case: &Case<'_>, left: bool, above: LineLoads, alone: bool) -> Option<PropLine> {
    let site = case.plan.site();
    let here = joists(case, left);
    let other = !joists(case, !left).is_empty();
    let mut found: Option<PropLine> = None;
    for (piece, at, grows) in &here {
        let Node::Field(id) = piece.of else { continue };
        let Some((_, field)) = case.field(id) else { continue };
        let (spacing, length) = (field.spacing.feet(), apart(piece.a, piece.b));
        let inner = at.0 > HAIR && at.0 < length.0 - HAIR;
        let through = inner && piece.seats.iter().any(|it| it.0 < *at) && piece.seats.iter().any(|it| it.0 > *at);
        // What stands above rests on the ends of both sides, where both have joists.
        let share = if other && !through { 0.5 } else { 1.0 };
        let side = if *grows { 1.0 } else { -1.0 };
        let sides: &[f64] = if through && !alone { &[side, -side] } else { &[side] };
        let (bar, loads) = propped(case, (piece, *at), sides, above * spacing * share);
        let Some(contact) = bar.held() else { continue };
        let beyond = |it: &Feet| if *grows { *it - *at } else { *at - *it };
        let far =
            piece.seats.iter().map(|it| beyond(&it.0)).filter(|it| it.0 > HAIR).fold(Feet(f64::INFINITY), Feet::min);
        if far <= case.stretch.shoring_offset {
            continue;
        }
        let prop = *at + case.stretch.shoring_offset * side;
        let number = bar.supports().iter().position(|it| (*it - prop).abs().0 < HAIR);
        let end = bar.supports().iter().position(|it| (beyond(it) - far).abs().0 < HAIR);
        let (mut weights, mut kept) = (Weights::default(), Weights::default());
        for (load, times) in &loads {
            let reactions = contact.reactions(std::slice::from_ref(load));
            let of = |number: Option<usize>| number.and_then(|it| reactions.get(it)).copied().unwrap_or_default();
            weights += times.map(|times| of(number) * times);
            kept += times.map(|times| of(end) * times);
        }
        let line = weights.map(|pounds| pounds / spacing);
        let (most, under) = heaviest(&line, site);
        let far_push = heaviest(&kept.map(|pounds| pounds / spacing), site).0;
        if found.as_ref().is_some_and(|it| it.most >= most) {
            continue;
        }
        let joists = standing(case, id).and_then(|it| it.check(&bar, &loads, site).ok());
        let joints = if case.line.joints == Joints::NotSeen { field.joints } else { case.line.joints };
        let meets = match () {
            () if through => Meets::RunThrough,
            () if !other => Meets::EndOn,
            () if joints == Joints::NotSeen => Meets::NotSeen,
            () => Meets::Lap,
        };
        let had = (field.weighs() + crate::loads::live(field.used_as).value) * (far / 2.0);
        found = Some(PropLine {
            left,
            offset: case.stretch.shoring_offset,
            span: far,
            meets,
            line,
            most,
            under,
            had,
            above: above * share,
            far: far_push,
            each: most * PROPS_APART,
            prop: prop_under(case, &line, spacing),
            no_prop: None,
            joists,
            skip: None,
            on: stands_on(case, left),
            sentence: String::new(),
            figures: Vec::new(),
        });
    }
    found
}

/// The floor under the middle of a line of props.
fn stands_on(case: &Case<'_>, left: bool) -> PropsOn {
    let Some(below) = case.plan.level_below(case.level.id) else { return PropsOn::Ground };
    let Some(own) = Frame::between(case.line.a, case.line.b) else { return PropsOn::NotKnown };
    let (start, line) = own.local(case.line.a.into());
    let off = if left { case.stretch.shoring_offset } else { -case.stretch.shoring_offset };
    let middle = own.spot(start + (case.stretch.from + case.stretch.to) / 2.0, line + off);
    let at = |of: Feet| Ticks::from_decimal_feet(of).unwrap_or_default();
    floor_at(below, Point::new(at(middle.x), at(middle.y))).map_or(PropsOn::NotKnown, |field| {
        if Frame::of(field.along).squareness(&own) > 0.7 { PropsOn::Across(field.id) } else { PropsOn::Along(field.id) }
    })
}

/// The joists over a level at a place.
pub(super) fn floor_at(level: &Level, at: Point) -> Option<&JoistField> {
    let covers = |polygon: &Vec<Point>| geometry::position(polygon, at) != Position::Outside;
    level.fields.iter().rev().find(|field| level.polygons(&field.region).iter().any(covers))
}
