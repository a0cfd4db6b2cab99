//! Notches and holes in joists: which laid joist each is in, where along its span, and which limits it passes.

use serde::Serialize;

use super::storey::Storey;
use super::{Laid, LaidAs, Node};
use crate::geometry::{Frame, Spot};
use crate::ids::{FieldId, JoistCutId, LevelId};
use crate::members::notch::{cuts as limits_of, is_middle_third};
use crate::order::InOrder as _;
use crate::plan::{Cut, JoistCut, JoistEdge, Level, Material, Member, NotchAt};
use crate::units::{Feet, Inches};

/// How far off a joist a cut may be noted and still be in it, in feet: half of a wide spacing.
const BESIDE: f64 = 1.0;
/// A hair for what a depth in sixteenths has been rounded by.
const HAIR: f64 = 1e-6;

/// A notch or hole, and what it passes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub cut: JoistCutId,
    /// The field whose joist it is in; none if no joist lies there.
    pub field: Option<FieldId>,
    /// From the nearer support of its span.
    pub from: Feet,
    /// The span it is in; zero past the last support.
    pub span: Feet,
    /// What speaks against it; nothing if it is within the limits.
    pub limits: Vec<CutLimit>,
}

/// What speaks against a cut. IRC R502.8.1 (SEEN as quoted) where a limit is named.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "limit")]
pub enum CutLimit {
    /// No joist is drawn there.
    NoJoist,
    /// Nobody said how deep the joist is: no limit is known.
    SizeNotSeen,
    /// Not sawn: only the maker's rules allow a cut (R502.8.2).
    MakerOnly,
    /// Past the last support, where the rule's thirds of a span mean nothing.
    PastSupport,
    /// Deeper than a sixth of the joist.
    NotchTooDeep {
        /// The most.
        most: Inches,
    },
    /// Longer than a third of the joist's depth.
    NotchTooLong {
        /// The most.
        most: Inches,
    },
    /// In the middle third of the span.
    MiddleThird,
    /// At the end, deeper than a quarter of the joist.
    EndTooDeep {
        /// The most.
        most: Inches,
    },
    /// In the lower edge of a joist 4 in thick or thicker, but not at its end.
    BottomOfThick,
    /// Wider than a third of the joist.
    HoleTooWide {
        /// The most.
        most: Inches,
    },
    /// Nearer than 2 in to an edge.
    NearEdge,
    /// Nearer than 2 in to another cut.
    NearCut {
        /// Which.
        other: JoistCutId,
    },
}

/// A place in a laid joist.
#[derive(Clone, Copy)]
struct Place<'a> {
    joist: &'a Laid,
    field: FieldId,
    along: f64,
}

/// All cuts of a level whose joists are laid.
pub(super) fn cuts(storey: &Storey<'_>) -> Vec<CutTrace> {
    let level = storey.level;
    let places: Vec<Option<Place<'_>>> = level.cuts.iter().map(|cut| place(storey, cut)).collect();
    let one = |(cut, place): (&JoistCut, &Option<Place<'_>>)| {
        let open = CutTrace {
            level: level.id,
            cut: cut.id,
            field: None,
            from: Feet::ZERO,
            span: Feet::ZERO,
            limits: vec![CutLimit::NoJoist],
        };
        let Some(place) = place else { return open };
        let span = span_of(place);
        let member = level.fields.iter().find(|it| it.id == place.field).map(|it| it.member).unwrap_or_default();
        let mut limits = judged(&cut.cut, &member, span);
        limits.extend(too_near(level, &places, cut, place));
        let (from, span) = span.map_or((Feet::ZERO, Feet::ZERO), |(at, span)| (at.min(span - at), span));
        CutTrace { field: Some(place.field), from, span, limits, ..open }
    };
    level.cuts.iter().zip(&places).map(one).collect()
}

/// The joist nearest to a cut, of those that reach it.
fn place<'a>(storey: &'a Storey<'_>, cut: &JoistCut) -> Option<Place<'a>> {
    let spot = Spot::from(cut.at);
    let near = storey.members.iter().filter_map(|joist| {
        let Node::Field(field) = joist.of else { return None };
        let frame = Frame::from_to(joist.a, joist.b)?;
        let ((from, line), (to, _), (t, s)) = (frame.local(joist.a), frame.local(joist.b), frame.local(spot));
        let off = (s - line).abs().0;
        let reaches = off <= BESIDE + HAIR && t.0 >= from.0 - HAIR && t.0 <= to.0 + HAIR;
        let laid = matches!(joist.laid_as, LaidAs::Joist | LaidAs::Tail | LaidAs::Trimmer);
        (reaches && laid).then_some((off, Place { joist, field, along: t.0 }))
    });
    near.reduce(|a, b| if b.0 < a.0 - HAIR { b } else { a }).map(|(_, place)| place)
}

/// How far from the support before it, in which span.
fn span_of(place: &Place<'_>) -> Option<(Feet, Feet)> {
    let frame = Frame::from_to(place.joist.a, place.joist.b)?;
    let mut bears: Vec<f64> = place.joist.bears.iter().map(|bear| frame.local(*bear).0.0).collect();
    bears.order_by(f64::total_cmp);
    let between = bears.iter().zip(bears.iter().skip(1));
    let mut around = between.filter(|(from, to)| place.along >= **from - HAIR && place.along <= **to + HAIR);
    around.find(|(from, to)| **to - **from > HAIR).map(|(from, to)| (Feet(place.along - from), Feet(to - from)))
}

fn judged(cut: &Cut, member: &Member, span: Option<(Feet, Feet)>) -> Vec<CutLimit> {
    match member.material {
        Material::NotSeen => return vec![CutLimit::SizeNotSeen],
        Material::Sawn => {}
        _ => return vec![CutLimit::MakerOnly],
    }
    let most = limits_of(Inches(member.depth.inches()));
    let over = |length: crate::units::Ticks, most: Inches| length.inches() > most.0 + HAIR;
    let mut limits = Vec::new();
    let mut pass = |passed: bool, limit: CutLimit| limits.extend(passed.then_some(limit));
    match *cut {
        Cut::Notch { depth, place: NotchAt::End, .. } => {
            pass(over(depth, most.end_notch), CutLimit::EndTooDeep { most: most.end_notch });
        }
        Cut::Notch { depth, length, edge, .. } => {
            pass(span.is_none(), CutLimit::PastSupport);
            pass(over(depth, most.notch_depth), CutLimit::NotchTooDeep { most: most.notch_depth });
            pass(over(length, most.notch_length), CutLimit::NotchTooLong { most: most.notch_length });
            pass(span.is_some_and(|(at, span)| is_middle_third(at, span)), CutLimit::MiddleThird);
            pass(edge == JoistEdge::Bottom && member.nominal_width >= 4, CutLimit::BottomOfThick);
        }
        Cut::Hole { diameter, to_edge } => {
            pass(over(diameter, most.hole), CutLimit::HoleTooWide { most: most.hole });
            pass(to_edge.inches() < most.hole_to_edge.0 - HAIR, CutLimit::NearEdge);
        }
    }
    limits
}

/// Another cut of the same joist that a hole comes too near to, or that is a hole too near to this notch.
fn too_near(level: &Level, places: &[Option<Place<'_>>], cut: &JoistCut, place: &Place<'_>) -> Option<CutLimit> {
    let half = |cut: &Cut| match cut {
        Cut::Notch { length, .. } => length.inches() / 2.0,
        Cut::Hole { diameter, .. } => diameter.inches() / 2.0,
    };
    let hole = |cut: &Cut| matches!(cut, Cut::Hole { .. });
    let mut others = level.cuts.iter().zip(places).filter_map(|(other, at)| at.as_ref().map(|at| (other, at)));
    let near = others.find(|(other, at)| {
        let same = other.id != cut.id && core::ptr::eq(at.joist, place.joist);
        let gap = (at.along - place.along).abs() * 12.0 - half(&other.cut) - half(&cut.cut);
        same && (hole(&other.cut) || hole(&cut.cut)) && gap < 2.0 - HAIR
    });
    near.map(|(other, _)| CutLimit::NearCut { other: other.id })
}
