//! What stands on the top plate of the stretch, and not on the ends of joists, and what holds it meanwhile.
//!
//! A prop under joists does not hold the foot of a rafter: the rafter stands on the plate. A needle does: a beam through the
//! wall, right under the plate, on a post on each side, each with half of what comes to it. The end of a beam gets a prop of
//! its own. A wall above stands on the ends of the joists: it may stay there only where they are known to hold it.

use serde::Serialize;

use super::line::{joists, pushes, seated};
use super::{HAIR, NoWay, PropLine, way};
use crate::card::Figure;
use crate::ids::{FieldId, WallId};
use crate::loads::{LineLoads, Weights, heaviest};
use crate::members::bearing::area_factor;
use crate::plan::{Member, Set};
use crate::statics::{Load, Piece};
use crate::strength::check::SagLimits;
use crate::strength::lumber::lumber;
use crate::take_out::Case;
use crate::take_out::column::{Column, column};
use crate::take_out::lands::landing;
use crate::take_out::member::{Bears, Checked, FLOOR_JOISTS, Standing, asked};
use crate::take_out::prop::{LEAST_APART, PROPS, height};
use crate::trace::Node;
use crate::units::{Feet, Inches, Pounds};

/// Needles under a row of feet are no further apart than this (ours): a plate on its flat carries nothing in between.
const NEEDLES_APART: Feet = Feet(2.0);
/// Needles tried, nominal 4 thick on edge, by their nominal depth in inches.
const NEEDLES: [u8; 4] = [6, 8, 10, 12];
/// The plate that a needle presses, and a needle's own width, in inches.
const FACE: Inches = Inches(3.5);
/// Under so many pounds nothing stands there.
const LITTLE: f64 = 1.0;

/// Something that stands on the stretch, with what holds it meanwhile.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Held {
    /// What.
    pub what: Node,
    /// Where, from end `a` of the line; none for what stands along it.
    pub at: Option<Feet>,
    /// All of it.
    pub weights: Weights,
    /// Its heaviest combination.
    pub most: Pounds,
    /// What holds it.
    pub by: Holds,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// What holds something meanwhile.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "by")]
pub enum Holds {
    /// The ends of the joists, which stand on props and pass every check with it.
    JoistEnds,
    /// Needles through the wall.
    Needles(Needles),
    /// A prop of its own.
    OwnProp(OwnProp),
    /// Nothing here.
    Nothing(Unheld),
}

/// Needles through the wall, each on two posts.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Needles {
    /// How far apart along the line; none for a single one right under what it holds.
    pub apart: Option<Feet>,
    /// What one of them carries in the middle, heaviest combination.
    pub each: Pounds,
    /// From post to post.
    pub span: Feet,
    /// The needle, on edge.
    pub needle: Member,
    /// Its checks.
    pub checked: Checked,
    /// How hard the plate presses it, over what either may take (NDS 3.10.2, 3.10.4).
    pub plate: f64,
    /// The post under each of its ends.
    pub post: Member,
    /// As a column.
    pub column: Column,
}

/// A prop under a beam, beside the stretch on which it rests.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OwnProp {
    /// What one has, heaviest combination: by the lever more than the wall had.
    pub each: Pounds,
    /// How many.
    pub count: usize,
    /// What all of them have, by kind.
    pub holds: Weights,
    /// What the beam's other supports then have more than now; under zero they have less.
    pub beyond: Weights,
    /// The post.
    pub post: Member,
    /// As a column.
    pub column: Column,
    /// The beam on it, where its size is known.
    pub beam: Option<Checked>,
}

/// Why nothing here holds something.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "unheld")]
pub enum Unheld {
    /// It stands on the beam that goes: no needle passes under it.
    OnTheBeam,
    /// No needle or post tried here carries it.
    TooHeavy,
    /// There is no way straight down from the foot of its prop.
    NoWayDown(NoWay),
    /// Joists that are too short for a prop between the wall and their next support.
    TooShort,
    /// A beam that fails on a prop beside its seat, or of which nobody knows the size.
    BeamOnProp,
    /// Part of what lands here, which no joist and nothing else that was followed brings.
    NotFollowed,
    /// The study is refused as a whole.
    Refused,
}

impl Held {
    pub(super) fn new(what: Node, at: Option<Feet>, weights: Weights, by: Holds) -> Self {
        let (sentence, figures) = (String::new(), Vec::new());
        Self { what, at, weights, most: Pounds::ZERO, by, sentence, figures }
    }
}

/// Something that stands on the stretch, before it is settled what holds it.
pub(super) struct OnTop {
    what: Node,
    at: Option<Feet>,
    weights: Weights,
    /// On each foot where it is heaviest; nothing for what stands in one place.
    pub(super) row: LineLoads,
    /// Whether it stands on the ends of joists.
    pub(super) may_stand_on_ends: bool,
}

/// All that lands on the stretch besides what its joists bring.
pub(super) fn on_top(case: &Case<'_>) -> Vec<OnTop> {
    let crossing: Vec<FieldId> = [true, false]
        .into_iter()
        .flat_map(|left| joists(case, left))
        .filter_map(|it| if let Node::Field(id) = it.piece.of { Some(id) } else { None })
        .collect();
    let lies = |id: FieldId| !crossing.contains(&id);
    let mut all = case.standing();
    // Joists that lie along it, and what stands on these.
    let mut along: Vec<(Node, Weights)> = Vec::new();
    for (node, weights) in &case.arrivals {
        if let Node::Field(id) = *node
            && lies(id)
        {
            along.push((*node, *weights));
        }
    }
    for (node, weights) in case.through_joists() {
        let links = case.before.trace.links.iter().filter(|it| it.from == node && it.to == case.line.node);
        let (mut whole, mut beside) = (0.0, 0.0);
        for link in links {
            let Some(field) = link.through else { continue };
            whole += link.weights.all().0;
            beside += if lies(field) { link.weights.all().0 } else { 0.0 };
        }
        if whole.abs() > 1e-9 && beside.abs() > 1e-9 {
            along.push((node, weights * (beside / whole).clamp(0.0, 1.0)));
        }
    }
    for (node, weights) in along {
        match all.iter_mut().find(|it| it.0 == node) {
            Some(known) => known.1 += weights,
            None => all.push((node, weights)),
        }
    }
    // With what comes down on posts and packs in the stretch.
    let points = landing(case).points;
    let (from, to) = (case.stretch.from, case.stretch.to);
    let last = case.line.length() - to < Feet(HAIR);
    let within = |at: Feet| at > from - Feet(1e-6) && (at < to - Feet(1e-6) || last);
    let mut parts = Vec::new();
    for (what, weights) in all {
        let here: Vec<_> = points.iter().filter(|it| it.from == what && within(it.at)).collect();
        let rest = here.iter().fold(weights, |left, it| left - it.weights);
        let splits = rest.all().0 > -LITTLE;
        if splits {
            let single = |at: Feet, weights| OnTop {
                what,
                at: Some(at),
                weights,
                row: LineLoads::default(),
                may_stand_on_ends: false,
            };
            parts.extend(here.iter().map(|it| single(it.at, it.weights)));
        }
        let rest = if splits { rest } else { weights };
        if rest.all().0.abs() > 1e-6 {
            let flush = matches!(case.line.node, Node::Beam(id)
                if case.level.beams.iter().any(|it| it.id == id && it.set == Set::Flush));
            let may_stand_on_ends = matches!(what, Node::Wall(_)) && !crossing.is_empty() && !flush;
            parts.push(OnTop { what, at: None, weights: rest, row: row(case, what, rest), may_stand_on_ends });
        }
    }
    parts
}

/// What lands on the stretch and is in none of its parts: nothing is known to hold it. Of a part of a line the joists beside its
/// ends bring up to half a bay, which stays on what is left.
pub(super) fn not_followed(case: &Case<'_>, lines: &[PropLine], held: &[Held]) -> Option<Held> {
    let lands = case.arrivals.iter().fold(Weights::default(), |sum, it| sum + it.1);
    let on_props = lines.iter().fold(Weights::default(), |sum, it| sum + it.holds + it.beyond);
    let all = held.iter().fold(on_props, |sum, it| match it.by {
        Holds::OwnProp(own) => sum + own.holds + own.beyond,
        _ => sum + it.weights,
    });
    let whole = case.stretch.from < Feet(HAIR) && case.line.length() - case.stretch.to < Feet(HAIR);
    let beside = lines.iter().map(|it| it.most * NEEDLES_APART).sum::<Pounds>();
    let stays = if whole { Pounds::ZERO } else { beside };
    let (rest, most) = (lands - all, heaviest(&(lands - all), case.plan.site()).0);
    (most > stays + Pounds(LITTLE)).then(|| {
        let by = Holds::Nothing(Unheld::NotFollowed);
        Held { most, ..Held::new(case.line.node, None, rest, by) }
    })
}

/// What comes to each foot where it is heaviest.
fn row(case: &Case<'_>, what: Node, weights: Weights) -> LineLoads {
    let site = case.plan.site();
    let mean = weights.map(|pounds| pounds / case.length());
    let heavier =
        |one: LineLoads, other: LineLoads| if heaviest(&other, site).0 > heaviest(&one, site).0 { other } else { one };
    if let Node::Wall(id) = what {
        return wall_row(case, id).map_or(mean, |row| heavier(mean, row));
    }
    // What leans on a part of the stretch is heavier there.
    let (from, to) = (case.stretch.from, case.stretch.to);
    let traced = match case.line.node {
        Node::Wall(id) => case.before.trace.wall(id).map(|it| (&it.feeds, &it.line)),
        Node::Beam(id) => case.before.trace.beam(id).map(|it| (&it.feeds, &it.line)),
        _ => None,
    };
    let feeds = traced.into_iter().flat_map(|it| it.0).filter(|it| it.from == what);
    let covered = feeds.map(|it| (it.end.min(to) - it.start.max(from)).max(Feet::ZERO)).sum::<Feet>();
    if covered > Feet(HAIR) {
        return heavier(mean, weights.map(|pounds| pounds / covered.min(case.length())));
    }
    let parts = traced.into_iter().flat_map(|it| it.1).filter(|it| it.start < to && it.end > from);
    parts.map(|it| it.loads).fold(mean, heavier)
}

/// What comes down at the foot of a wall above, where it is heaviest.
fn wall_row(case: &Case<'_>, id: WallId) -> Option<LineLoads> {
    let (site, wall) = (case.plan.site(), case.before.trace.wall(id)?);
    let heavier =
        |one: LineLoads, other: LineLoads| if heaviest(&other, site).0 > heaviest(&one, site).0 { other } else { one };
    let top = wall.line.iter().map(|it| it.loads).fold(LineLoads::default(), heavier);
    Some(top + wall.own.map(|pounds| pounds / wall.length))
}

impl OnTop {
    /// On each foot of the stretch, what stands in one place spread over it.
    pub(super) fn on_each_foot(&self, case: &Case<'_>) -> LineLoads {
        if self.at.is_some() { self.weights.map(|pounds| pounds / case.length()) } else { self.row }
    }

    pub(super) fn held(self, case: &Case<'_>, ends_hold: bool, refused: bool) -> Held {
        let Self { what, at, weights, .. } = self;
        let most = heaviest(&weights, case.plan.site()).0;
        let by = match () {
            () if self.may_stand_on_ends && ends_hold => Holds::JoistEnds,
            () if refused => Holds::Nothing(Unheld::Refused),
            () if matches!(what, Node::Beam(_)) => self.beam(case),
            () => self.needles(case),
        };
        Held { most, ..Held::new(what, at, weights, by) }
    }

    /// Needles right under it.
    fn needles(&self, case: &Case<'_>) -> Holds {
        if !matches!(case.line.node, Node::Wall(_)) {
            return Holds::Nothing(Unheld::OnTheBeam);
        }
        let apart = self.at.is_none().then(|| self.apart(case));
        let each = apart.map_or(self.weights, |apart| self.row * apart);
        // Both posts, at the place or at both ends of the row.
        let places = self.at.map_or_else(|| vec![case.stretch.from, case.stretch.to], |at| vec![at]);
        let off = case.stretch.shoring_offset;
        let feet = places.iter().flat_map(|at| [(*at, off), (*at, -off)]);
        let why = feet.filter_map(|(at, off)| way::beside(case, at, off)).find_map(|at| way::no_way(case, at));
        if let Some(why) = why {
            return Holds::Nothing(Unheld::NoWayDown(why));
        }
        needle(case, apart, each).map_or(Holds::Nothing(Unheld::TooHeavy), Holds::Needles)
    }

    /// Under each foot of a row: rafters stand as far apart as they are laid, studs as usual.
    fn apart(&self, case: &Case<'_>) -> Feet {
        let spacing = match self.what {
            Node::Roof(id) => crate::take_out::loses::roof_of(case.plan, id).map(|it| it.spacing.feet()),
            _ => None,
        };
        spacing.unwrap_or(LEAST_APART).min(NEEDLES_APART)
    }

    /// A prop under a beam beside its seat: on the side from which it comes, or on both where it runs over.
    fn beam(&self, case: &Case<'_>) -> Holds {
        let site = case.plan.site();
        let Node::Beam(id) = self.what else { return self.needles(case) };
        let Some(beam) = case.level.beams.iter().find(|it| it.id == id) else { return self.needles(case) };
        let of = |it: Node| it == self.what;
        let all: Vec<_> = [true, false].into_iter().flat_map(|left| seated(case, left, of)).collect();
        if all.is_empty() {
            // It lies along the stretch.
            return self.needles(case);
        }
        let standing =
            Standing { member: beam.member, wood: beam.wood, alike: (1, Inches::ZERO), limits: SagLimits::FLOOR };
        let (mut worst, mut count, mut checked) = (Weights::default(), 0, None::<Checked>);
        let (mut holds, mut beyond) = (Weights::default(), Weights::default());
        for (number, it) in all.iter().enumerate() {
            let same = |other: &&super::line::Seated<'_>| core::ptr::eq(other.piece, it.piece);
            if all.iter().take(number).any(|other| same(&other)) {
                continue;
            }
            let sides: &[f64] = if it.through { &[1.0, -1.0] } else { &[1.0] };
            if !all.iter().filter(same).all(|it| it.has_room(case)) {
                return Holds::Nothing(Unheld::TooShort);
            }
            let (bar, loads) = it.propped(case, sides, Weights::default());
            let Some(contact) = bar.held() else { return Holds::Nothing(Unheld::BeamOnProp) };
            let place = |side: f64| it.at + case.stretch.shoring_offset * (it.side * side);
            for (at, push) in pushes(&contact, &loads) {
                if sides.iter().any(|side| (at - place(*side)).abs().0 < HAIR) {
                    holds += push;
                    count += 1;
                    worst = if heaviest(&push, site).0 > heaviest(&worst, site).0 { push } else { worst };
                    let spot = crate::take_out::loses::spot(it.piece, at);
                    let why = way::no_way(case, way::point(spot));
                    if let Some(why) = why {
                        return Holds::Nothing(Unheld::NoWayDown(why));
                    }
                } else {
                    beyond += push;
                }
            }
            beyond = it.now(case).0.iter().fold(beyond, |left, push| left - push.1);
            match standing.check(&bar, &loads, site) {
                Ok(found) if found.passes() => {
                    checked = Some(checked.map_or(found, |known| known.or_worse(found)));
                }
                Ok(_) => return Holds::Nothing(Unheld::BeamOnProp),
                Err(_) => {
                    let now = asked(&crate::take_out::loses::bar(it.piece), &it.piece.loads, site, Bears::Pushing);
                    let then = asked(&bar, &loads, site, Bears::Pushing);
                    if !now.zip(then).is_some_and(|(now, then)| super::line::eases(&now, &then)) {
                        return Holds::Nothing(Unheld::BeamOnProp);
                    }
                }
            }
        }
        let each = heaviest(&worst, site).0;
        let Some((post, column)) = post(case, &lumped(&worst, each)) else { return Holds::Nothing(Unheld::TooHeavy) };
        Holds::OwnProp(OwnProp { each, count, holds, beyond, post, column, beam: checked })
    }
}

/// Everything besides dead load as floor live load: nobody says how long it stands so.
fn lumped(weights: &Weights, most: Pounds) -> Weights {
    Weights { dead: weights.dead, floor: most - weights.dead, ..Weights::default() }
}

/// The first post that carries it at the height of the highest level on which it stands.
fn post(case: &Case<'_>, weights: &Weights) -> Option<(Member, Column)> {
    let (stock, site, most) = (case.stretch.lumber, case.plan.site(), weights.all());
    let across = lumber(stock.species, stock.grade, Member::sawn(2, 4))?.values.fc_perp;
    PROPS.into_iter().map(|(width, depth)| Member::sawn(width, depth)).find_map(|member| {
        let section = crate::members::section::Section::of(member)?;
        let found = column(member, stock, height(case), weights, site)?;
        let presses =
            most / (across * area_factor(section.depth, Inches(3.0)) * (section.depth * section.width.min(FACE)));
        (found.passes() && presses <= 1.0).then_some((member, found))
    })
}

/// The shallowest needle that passes with all of it in the middle, on two posts.
fn needle(case: &Case<'_>, apart: Option<Feet>, weights: Weights) -> Option<Needles> {
    let (stock, site) = (case.stretch.lumber, case.plan.site());
    let each = heaviest(&weights, site).0;
    let (span, lumped) = (case.stretch.shoring_offset * 2.0, lumped(&weights, each));
    let across = lumber(stock.species, stock.grade, Member::sawn(2, 4))?.values.fc_perp;
    let plate = each / (across * area_factor(FACE, Inches(3.0)) * (FACE * FACE));
    let (post, column) = post(case, &(lumped * 0.5))?;
    let piece = Piece::new(Feet::ZERO, span, &[Feet::ZERO, span]);
    let loads = [(Load::Point { at: span / 2.0, weight: Pounds(1.0) }, lumped.map(|it| it.0))];
    NEEDLES.into_iter().find_map(|depth| {
        let needle = Member::sawn(4, depth);
        let standing = Standing { member: needle, wood: stock.into(), alike: (1, Inches::ZERO), limits: FLOOR_JOISTS };
        let checked = standing.check(&piece, &loads, site).ok()?;
        let holds = checked.passes() && plate <= 1.0;
        holds.then_some(Needles { apart, each, span, needle, checked, plate, post, column })
    })
}
