//! What happens if nothing takes over: each member that loses its seat, what else stands on the stretch, path gaps that
//! open, ties that are cut. The same check says why joists that run through still need a wall.

use serde::Serialize;

use super::case::House;
use super::member::{CEILING_JOISTS, Checked, FLOOR_JOISTS, NoFigure, RAFTERS, Standing};
use super::{Case, Stretch, Traced, plans};
use crate::card::Figure;
use crate::geometry::{Frame, Spot};
use crate::ids::{LevelId, PurlinId, RoofId, WallId};
use crate::loads::{ByKind, LineLoads, Weights};
use crate::plan::{Beam, Joints, JoistField, Member, Plan, Roof, RoofFrame, Set};
use crate::statics::{Load, Piece};
use crate::strength::check::SagLimits;
use crate::trace::{Carried, Caution, Finding, Laid, LaidAs, Node};
use crate::units::{Feet, Inches, Ticks};

/// A place this near to a line is on it, in feet.
const HAIR: f64 = 0.02;

/// How members meet a wall or post.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Meets {
    /// They end on it.
    EndOn,
    /// Two pieces meet over it.
    Lap,
    /// They cross it, and nobody looked whether they lap.
    NotSeen,
    /// One piece runs over it.
    RunThrough,
}

/// What becomes of a member.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Fate {
    /// Its end, or the ends of its pieces, have nothing under them.
    Falls,
    /// It spans on, and fails a check.
    Fails,
    /// It spans on, and passes.
    Passes,
    /// Nobody can say.
    NotKnown,
}

/// Members that lose a seat, alike in every respect.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Lost {
    /// Their field or roof, or the beam on posts.
    pub of: Node,
    /// The level it lies over.
    pub level: LevelId,
    /// What they are.
    pub laid_as: LaidAs,
    /// Their size.
    pub member: Member,
    /// On centre.
    pub spacing: Ticks,
    /// A purlin whose struts stand on the stretch, if they bear on that and not on the wall.
    pub purlin: Option<PurlinId>,
    /// How many.
    pub count: usize,
    /// Where the first of them loses its seat.
    pub at: Spot,
    /// How they meet what goes.
    pub meets: Meets,
    /// The longer of the spans beside the line; of a beam, beside the post that goes.
    pub old_span: Feet,
    /// What they span without it, if they are in one piece.
    pub new_span: Option<Feet>,
    /// The worst of them with what goes.
    pub before: Option<Checked>,
    /// The worst of them without it, if they are in one piece.
    pub after: Option<Checked>,
    /// Why there is no figure.
    pub no_figure: Option<NoFigure>,
    /// How far such a piece reaches on two supports under its use.
    pub longest: Option<Feet>,
    /// How much further it would span.
    pub too_long_by: Option<Feet>,
    /// What becomes of them.
    pub fate: Fate,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// Rafters whose ties are cut.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Ties {
    /// Of which roof.
    pub roof: RoofId,
    /// The push outward on each foot of eave.
    pub thrust: LineLoads,
    /// Over so many feet.
    pub over: Feet,
    /// What nothing then holds.
    pub loose: Weights,
}

/// What happens if nothing takes over.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Loses {
    /// Joists, group by group.
    pub members: Vec<Lost>,
    /// Beams, posts, struts, ridges, trimmers and walls above that stand on the stretch, with what each brings.
    pub others: Vec<(Node, Weights)>,
    /// What stands on its joists and comes to it through them.
    pub through: Vec<(Node, Weights)>,
    /// Path gaps that open.
    pub gaps: Vec<Finding>,
    /// Ties cut by a beam between the joists, and the push that is then loose.
    pub ties: Vec<Ties>,
    /// In words.
    pub sentences: Vec<String>,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// The answer for a whole wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Need {
    /// Members end or lap on it.
    EndsOnIt,
    /// Members pass over it and would fail without it.
    WouldFail,
    /// Something besides joists stands on it.
    HoldsUp,
    /// It cannot be said: a size or a lap is not known.
    NotKnown,
    /// Members touch it and would pass without it.
    TouchingOnly,
    /// Nothing drawn rests on it.
    NothingRests,
}

/// Whether members need a wall.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Needs {
    /// Which wall.
    pub wall: WallId,
    /// The answer, the heaviest first.
    pub need: Need,
    /// Joists, group by group.
    pub members: Vec<Lost>,
    /// What else stands on it.
    pub others: Vec<(Node, Weights)>,
    /// In a sentence.
    pub sentence: String,
}

/// Whether what passes over a wall needs it, by the same check as a study; none for a wall that the plan does not hold.
#[must_use]
pub fn needs(plan: &Plan, wall: WallId) -> Option<Needs> {
    let house = House::of(plan.clone(), &Stretch::of(wall, Feet::ZERO, Feet(f64::INFINITY)))?;
    let case = Case::of(&house)?;
    let Loses { members, others, .. } = loses(&case, &plans::without(&case));
    let fate = |wanted: Fate| members.iter().any(|it| it.fate == wanted);
    let lap = members.iter().any(|it| it.fate == Fate::Falls && it.meets != Meets::NotSeen);
    let unsure = members.iter().any(|it| it.meets == Meets::NotSeen) || fate(Fate::NotKnown);
    let need = match () {
        () if lap => Need::EndsOnIt,
        () if fate(Fate::Fails) => Need::WouldFail,
        () if !others.is_empty() => Need::HoldsUp,
        () if unsure => Need::NotKnown,
        () if !members.is_empty() => Need::TouchingOnly,
        () => Need::NothingRests,
    };
    let sentence = case.words.needs(need, &members);
    Some(Needs { wall, need, members, others, sentence })
}

pub(super) fn loses(case: &Case<'_>, without: &Plan) -> Loses {
    let after = Traced::of(without);
    let members = members(case, &after);
    let others = case.standing();
    let known = |finding: &&Finding| case.before.trace.findings.iter().all(|it| it.problem != finding.problem);
    let gaps: Vec<Finding> = after.trace.path_gaps().filter(known).cloned().collect();
    let ties = ties(case);
    let mut loses = Loses { members, others, through: case.through_joists(), gaps, ties, ..Loses::default() };
    (loses.sentences, loses.figures) = case.words.loses(&loses, case.stretch.away);
    loses
}

/// Rafters that the joists over the stretch tie, if a beam between the joists cuts these.
fn ties(case: &Case<'_>) -> Vec<Ties> {
    let trace = &case.before.trace;
    let Node::Wall(id) = case.line.node else { return Vec::new() };
    let Some(wall) = trace.wall(id).filter(|_| case.stretch.set == Set::Flush) else { return Vec::new() };
    let mut all = Vec::new();
    for caution in &wall.cautions {
        let Caution::TiesCutIfFlush { roof } = *caution else { continue };
        let Some(thrust) = trace.roofs.iter().find(|it| it.roof == roof).map(|it| it.thrust) else { continue };
        let over = case.length();
        all.push(Ties { roof, thrust, over, loose: thrust * over });
    }
    all
}

/// The place of a support of a piece.
pub(super) fn spot(piece: &Carried, at: Feet) -> Spot {
    let length = crate::geometry::apart(piece.a, piece.b);
    let share = if length.0 > 0.0 { at / length } else { 0.0 };
    Spot { x: piece.a.x + (piece.b.x - piece.a.x) * share, y: piece.a.y + (piece.b.y - piece.a.y) * share }
}

/// Where on a piece a place is; none beside it.
fn along(piece: &Carried, at: Spot) -> Option<Feet> {
    let frame = Frame::from_to(piece.a, piece.b)?;
    let ((start, line), (t, s)) = (frame.local(piece.a), frame.local(at));
    let (t, length) = (t - start, crate::geometry::apart(piece.a, piece.b));
    ((s - line).abs().0 < HAIR && t.0 > -HAIR && t.0 < length.0 + HAIR).then_some(t)
}

/// The span that holds a place, or the longest beside it.
fn span_at(piece: &Carried, at: Feet) -> Option<Feet> {
    let spans = piece.seats.windows(2).filter_map(|it| Some((it.first()?.0, it.get(1)?.0)));
    let near = spans.filter(|(from, to)| from.0 - HAIR <= at.0 && at.0 <= to.0 + HAIR);
    near.map(|(from, to)| to - from)
        .fold(None, |longest: Option<Feet>, it| Some(longest.map_or(it, |known| known.max(it))))
}

/// One joist's seat on the stretch, or the seat of a beam on a post that goes.
struct Seat<'a> {
    at: Spot,
    pieces: Vec<(&'a Carried, Feet)>,
}

/// Every seat on the stretch, place by place.
fn seats<'a>(case: &Case<'_>, carried: &'a [Carried]) -> Vec<Seat<'a>> {
    let Some(own) = Frame::between(case.line.a, case.line.b) else { return Vec::new() };
    let start = own.local(case.line.a.into()).0;
    let (from, to) = (case.stretch.from.0 - HAIR, case.stretch.to.0 + HAIR);
    let mut all: Vec<Seat<'a>> = Vec::new();
    let loses = |of: Node, on: Node| match case.line.node {
        Node::Beam(_) => of == case.line.node && matches!(on, Node::Post(id) if case.gone.contains(&id)),
        wall => matches!(of, Node::Field(_)) && on == wall,
    };
    for piece in carried {
        for (at, _) in piece.seats.iter().filter(|seat| loses(piece.of, seat.1)) {
            let place = spot(piece, *at);
            let along = (own.local(place).0 - start).0;
            if along < from || along > to {
                continue;
            }
            let same = |it: &&mut Seat<'a>| {
                crate::geometry::apart(it.at, place).0 < HAIR && it.pieces.first().is_some_and(|it| it.0.of == piece.of)
            };
            match all.iter_mut().find(same) {
                Some(known) => known.pieces.push((piece, *at)),
                None => all.push(Seat { at: place, pieces: vec![(piece, *at)] }),
            }
        }
    }
    all
}

fn members(case: &Case<'_>, after: &Traced) -> Vec<Lost> {
    let mut groups: Vec<Lost> = Vec::new();
    for seat in seats(case, &case.before.carried) {
        let Some((first, _)) = seat.pieces.first() else { continue };
        if let Some(lost) = Laying::of(case, first).and_then(|laying| lost(case, after, &seat, &laying)) {
            gather(&mut groups, lost);
        }
    }
    for lost in rafters(case, after).into_iter().chain(on_purlins(case)) {
        gather(&mut groups, lost);
    }
    for group in &mut groups {
        group.sentence = case.words.lost(group, case.stretch.away);
        group.figures = case.words.lost_figures(group, case.stretch.lumber);
    }
    groups
}

/// Puts a member with those like it.
fn gather(groups: &mut Vec<Lost>, lost: Lost) {
    let sixteenths = |span: Option<Feet>| span.and_then(Ticks::from_decimal_feet).map(|it| it.get() / 127);
    let same = |it: &&mut Lost| {
        (it.of, it.laid_as, it.meets, it.purlin) == (lost.of, lost.laid_as, lost.meets, lost.purlin)
            && sixteenths(Some(it.old_span)) == sixteenths(Some(lost.old_span))
            && sixteenths(it.new_span) == sixteenths(lost.new_span)
    };
    match groups.iter_mut().find(same) {
        Some(known) => {
            known.count += 1;
            known.before = worse(known.before, lost.before);
            known.after = worse(known.after, lost.after);
            known.no_figure = known.no_figure.or(lost.no_figure);
            known.fate = fate(known);
        }
        None => groups.push(lost),
    }
}

/// Rafters and trusses that bear on the stretch: where, and whether that is an end of theirs.
pub(super) fn roof_seats<'a>(case: &'a Case<'_>) -> Vec<(&'a Laid, Spot, bool)> {
    let Some(own) = Frame::between(case.line.a, case.line.b).filter(|_| case.gone.is_empty()) else {
        return Vec::new();
    };
    let (start, line) = own.local(case.line.a.into());
    let on_stretch = |at: &&Spot| {
        let (along, across) = own.local(**at);
        let along = along - start;
        let within = along > case.stretch.from + Feet(HAIR) && along < case.stretch.to - Feet(HAIR);
        within && (across - line).abs() < case.line.thickness.feet()
    };
    let rafters = case.before.trace.members.iter().filter(|it| it.laid_as == LaidAs::Rafter);
    let found = rafters.filter_map(|laid| {
        let at = *laid.bears.iter().find(on_stretch)?;
        let near = |it: &Spot| crate::geometry::apart(*it, at).0 < HAIR;
        Some((laid, at, [laid.bears.first(), laid.bears.last()].into_iter().flatten().any(near)))
    });
    found.collect()
}

/// A roof of the plan.
pub(super) fn roof_of(plan: &Plan, id: RoofId) -> Option<&Roof> {
    plan.levels().iter().flat_map(|level| &level.roofs).find(|it| it.id == id)
}

/// A rafter of a roof as it bends, beside others like it.
fn rafter(case: &Case<'_>, roof: &Roof) -> Standing {
    let (member, alike) = (roof.member, (3, Inches(roof.spacing.inches())));
    Standing { member, stock: case.stretch.lumber, alike, limits: RAFTERS }
}

impl Lost {
    /// One rafter of a roof that runs over a seat, before anything of it is checked.
    fn of_roof(roof: &Roof, level: LevelId, at: Spot) -> Self {
        Self {
            of: Node::Roof(roof.id),
            level,
            laid_as: LaidAs::Rafter,
            member: roof.member,
            spacing: roof.spacing,
            purlin: None,
            count: 1,
            at,
            meets: Meets::RunThrough,
            old_span: Feet::ZERO,
            new_span: None,
            before: None,
            after: None,
            no_figure: None,
            longest: None,
            too_long_by: None,
            fate: Fate::NotKnown,
            sentence: String::new(),
            figures: Vec::new(),
        }
    }
}

/// Rafters and trusses that bear on the stretch and would not. A rafter is a beam on its slope, from foot to ridge: what
/// presses along it is left out, as in the code's span tables.
fn rafters(case: &Case<'_>, after: &Traced) -> Vec<Lost> {
    let apart = |a: Spot, b: Spot| crate::geometry::apart(a, b).0;
    let mut all = Vec::new();
    for (laid, at, at_end) in roof_seats(case) {
        let Node::Roof(id) = laid.of else { continue };
        let same = |it: &&Laid| it.of == laid.of && apart(it.a, laid.a) < HAIR && apart(it.b, laid.b) < HAIR;
        let now = after.trace.members.iter().find(same);
        if now.is_some_and(|it| it.bears.iter().any(|it| apart(*it, at) < HAIR)) {
            continue;
        }
        let Some(roof) = roof_of(case.plan, id) else { continue };
        let standing = rafter(case, roof);
        let piece =
            |carried: &'_ [Carried]| carried.iter().find(|it| it.of == laid.of && along(it, at).is_some()).cloned();
        let (old, new) = (piece(&case.before.carried), piece(&after.carried).filter(|_| !at_end));
        let span = |it: &Option<Carried>| it.as_ref().and_then(|it| span_at(it, along(it, at)?));
        let laid_span = now.filter(|it| !at_end && it.bears.len() > 1).map(|it| it.longest_span);
        let check = |it: &Option<Carried>| it.as_ref().map(|it| on_slope(&standing, it, case));
        let (before, found) = (check(&old).and_then(Result::ok), check(&new));
        let no_figure = match (roof.frame, found) {
            (RoofFrame::Trusses { .. }, _) => Some(NoFigure::Truss),
            (_, Some(Err(why))) => Some(why),
            (_, Some(Ok(_))) => None,
            (_, None) => standing.section().err().or((!at_end).then_some(NoFigure::Rafter)),
        };
        let mut lost = Lost {
            laid_as: laid.laid_as,
            meets: if at_end { Meets::EndOn } else { Meets::RunThrough },
            old_span: span(&old).unwrap_or(laid.longest_span),
            new_span: span(&new).or(laid_span),
            before,
            after: found.and_then(Result::ok),
            no_figure,
            ..Lost::of_roof(roof, laid.level, at)
        };
        lost.fate = fate(&lost);
        all.push(lost);
    }
    all
}

/// Rafters over the stretch on a purlin whose struts stand on it: as if that held nothing any more. A beam that loses posts stays
/// under its struts.
fn on_purlins(case: &Case<'_>) -> Vec<Lost> {
    let goes = !matches!(case.line.node, Node::Beam(_));
    let Some(own) = Frame::between(case.line.a, case.line.b).filter(|_| goes) else { return Vec::new() };
    let start = own.local(case.line.a.into()).0;
    let struts = case.standing();
    let mut all = Vec::new();
    for piece in &case.before.carried {
        let Node::Roof(id) = piece.of else { continue };
        let stands = |it: &&(Feet, Node)| struts.iter().any(|strut| strut.0 == it.1);
        let Some((at, Node::Purlin(purlin))) =
            piece.seats.iter().find(|it| matches!(it.1, Node::Purlin(_)) && stands(it))
        else {
            continue;
        };
        let (Some(roof), place) = (roof_of(case.plan, id), spot(piece, *at)) else { continue };
        let along = own.local(place).0 - start;
        if along < case.stretch.from || along > case.stretch.to {
            continue;
        }
        let seats: Vec<(Feet, Node)> = piece.seats.iter().filter(|it| it.1 != Node::Purlin(*purlin)).copied().collect();
        let without = Carried { rests: seats.len() > 1, seats, ..piece.clone() };
        let standing = rafter(case, roof);
        let found = on_slope(&standing, &without, case);
        let mut lost = Lost {
            purlin: Some(*purlin),
            old_span: span_at(piece, *at).unwrap_or_default(),
            new_span: span_at(&without, *at),
            before: on_slope(&standing, piece, case).ok(),
            after: found.as_ref().ok().copied(),
            no_figure: found.err(),
            ..Lost::of_roof(roof, piece.level, place)
        };
        lost.fate = fate(&lost);
        all.push(lost);
    }
    all
}

/// A rafter on its slope: of a load `w` on a foot of plan, `w cos^2` presses square to it on each foot of its length.
fn on_slope(standing: &Standing, piece: &Carried, case: &Case<'_>) -> Result<Checked, NoFigure> {
    let up = piece.slope;
    let seats: Vec<Feet> = piece.seats.iter().map(|it| it.0 * up).collect();
    let bar = Piece::new(Feet::ZERO, crate::geometry::apart(piece.a, piece.b) * up, &seats);
    let square = |load: &Load| match *load {
        Load::Point { at, weight } => Load::Point { at: at * up, weight: weight / up },
        Load::Spread { from, to, start, end } => {
            Load::Spread { from: from * up, to: to * up, start: start / (up * up), end: end / (up * up) }
        }
    };
    let loads: Vec<(Load, ByKind<f64>)> = piece.loads.iter().map(|(load, times)| (square(load), *times)).collect();
    standing.check(&bar, &loads, case.plan.site())
}

fn worse(one: Option<Checked>, other: Option<Checked>) -> Option<Checked> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.or_worse(other)),
        (one, other) => one.or(other),
    }
}

fn fate(lost: &Lost) -> Fate {
    match (lost.meets, lost.new_span, lost.after) {
        (Meets::EndOn | Meets::Lap | Meets::NotSeen, ..) | (_, None, _) => Fate::Falls,
        (_, _, Some(after)) if after.passes() => Fate::Passes,
        (_, _, Some(_)) => Fate::Fails,
        (_, _, None) => Fate::NotKnown,
    }
}

/// What a piece is: a joist of its field, or the beam on posts.
struct Laying {
    level: LevelId,
    laid_as: LaidAs,
    spacing: Ticks,
    /// How it meets what goes.
    joints: Joints,
    /// Its own size; a trimmer is two of these.
    member: Member,
    standing: Standing,
    longest: Option<Feet>,
}

impl Laying {
    fn of(case: &Case<'_>, piece: &Carried) -> Option<Self> {
        let laid_as = piece.laid_as.unwrap_or(LaidAs::Joist);
        let stock = case.stretch.lumber;
        match piece.of {
            Node::Field(id) => {
                let (level, field) = case.field(id)?;
                let JoistField { member, spacing, .. } = *field;
                let trimmer = laid_as == LaidAs::Trimmer;
                let plies = if trimmer { member.plies.saturating_mul(2) } else { member.plies };
                let standing = Standing {
                    member: Member { plies, ..member },
                    stock,
                    alike: (if trimmer { 1 } else { 3 }, Inches(spacing.inches())),
                    limits: if field.used_as.is_ceiling() { CEILING_JOISTS } else { FLOOR_JOISTS },
                };
                let joints = if case.line.joints == Joints::NotSeen { field.joints } else { case.line.joints };
                let longest = standing.longest(field);
                Some(Self { level, laid_as, spacing, joints, member, standing, longest })
            }
            Node::Beam(id) => {
                let beam = case.level.beams.iter().find(|it| it.id == id)?;
                let Beam { member, joints, .. } = *beam;
                let standing = Standing { member, stock, alike: (1, Inches::ZERO), limits: SagLimits::FLOOR };
                let (level, spacing) = (case.level.id, Ticks::ZERO);
                Some(Self { level, laid_as, spacing, joints, member, standing, longest: None })
            }
            _ => None,
        }
    }
}

fn lost(case: &Case<'_>, after: &Traced, seat: &Seat<'_>, laying: &Laying) -> Option<Lost> {
    let Laying { level, laid_as, spacing, joints, member, ref standing, longest } = *laying;
    let (first, at) = seat.pieces.first()?;
    let inner = |piece: &Carried, at: Feet| {
        let ends = (piece.seats.first().map(|it| it.0), piece.seats.last().map(|it| it.0));
        ends.0.is_some_and(|it| it < at) && ends.1.is_some_and(|it| it > at)
    };
    let meets = match () {
        () if seat.pieces.iter().any(|(piece, at)| inner(piece, *at)) => Meets::RunThrough,
        () if seat.pieces.len() < 2 => Meets::EndOn,
        () if joints == Joints::NotSeen => Meets::NotSeen,
        () => Meets::Lap,
    };
    let old_span = seat.pieces.iter().filter_map(|(piece, at)| span_at(piece, *at)).fold(Feet::ZERO, Feet::max);
    let here = |it: &&Carried| it.of == first.of && along(it, seat.at).is_some();
    let keeps = |it: &Carried| it.seats.iter().any(|(at, _)| crate::geometry::apart(spot(it, *at), seat.at).0 < HAIR);
    if after.carried.iter().filter(here).any(keeps) {
        return None;
    }
    let now = after.carried.iter().find(here);
    let rests = now.filter(|it| it.rests && meets != Meets::Lap);
    let new_span = rests.and_then(|it| span_at(it, along(it, seat.at)?));
    let check = |piece: &Carried| check(standing, piece, case);
    let before = seat.pieces.iter().filter_map(|(piece, _)| check(piece).ok()).reduce(Checked::or_worse);
    let found = rests.map(check);
    let mut lost = Lost {
        of: first.of,
        level,
        laid_as,
        member,
        spacing,
        purlin: None,
        count: 1,
        at: spot(first, *at),
        meets,
        old_span,
        new_span,
        before,
        after: found.and_then(Result::ok),
        no_figure: found.and_then(Result::err).or_else(|| standing.section().err()),
        longest,
        too_long_by: new_span.zip(longest).map(|(span, longest)| span - longest).filter(|by| *by > Feet::ZERO),
        fate: Fate::NotKnown,
        sentence: String::new(),
        figures: Vec::new(),
    };
    lost.fate = fate(&lost);
    Some(lost)
}

/// A piece as traced, with the real loads on it.
pub(super) fn check(standing: &Standing, piece: &Carried, case: &Case<'_>) -> Result<Checked, NoFigure> {
    standing.check(&bar(piece), &piece.loads, case.plan.site())
}

/// A piece on its supports.
pub(super) fn bar(piece: &Carried) -> Piece {
    let seats: Vec<Feet> = piece.seats.iter().map(|it| it.0).collect();
    Piece::new(Feet::ZERO, crate::geometry::apart(piece.a, piece.b), &seats)
}
