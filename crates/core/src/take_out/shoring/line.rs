//! A line of props under the joists of one side, each joist by its own free body.
//!
//! A prop line at a distance `a` from a wall on which joists of span `L` end gets `w L^2 / (2 (L - a))`: more than the wall
//! did. All of the live load counts for the props, none of it where it holds the far end down: rooms are emptied.

use super::cuts::{cuts_in, weakened};
use super::held::{Held, Holds, Unheld};
use super::{HAIR, OnProps, PROPS_APART, PropLine, Skip, Weakened, frame, least, way};
use crate::geometry::apart;
use crate::ids::FieldId;
use crate::loads::{ByKind, Kind, LineLoads, Weights, heaviest};
use crate::plan::{Joints, JoistCut};
use crate::statics::{Contact, Load, Piece};
use crate::take_out::limits;
use crate::take_out::loses::{bar, spot};
use crate::take_out::member::{Asked, Bears, Checked, Standing, asked};
use crate::take_out::prop::prop_under;
use crate::take_out::{Case, Meets};
use crate::trace::{Carried, Node};
use crate::units::{Feet, Inches, Plf, Pounds};

/// A joist with a seat on the stretch.
#[derive(Clone, Copy)]
pub(super) struct Seated<'a> {
    pub(super) piece: &'a Carried,
    /// Where its seat on the stretch is.
    pub(super) at: Feet,
    /// One for the side to which its places grow, less one for the other.
    pub(super) side: f64,
    /// Whether it rests on something on both sides of that seat.
    pub(super) through: bool,
}

/// Every piece of what is asked for with a seat on the stretch and a part on that side of it.
pub(super) fn seated<'a>(case: &'a Case<'_>, left: bool, of: impl Fn(Node) -> bool) -> Vec<Seated<'a>> {
    let Some((own, start, line)) = frame(case) else { return Vec::new() };
    let within = case.stretch.from.0 - HAIR..case.stretch.to.0 + HAIR;
    let here = |it: &&Carried| of(it.of) && it.level == case.level.id && it.rests;
    let mut all = Vec::new();
    for piece in case.before.carried.iter().filter(here) {
        let length = apart(piece.a, piece.b);
        for (at, _) in piece.seats.iter().filter(|it| it.1 == case.line.node) {
            let along = own.local(spot(piece, *at)).0 - start;
            if !within.contains(&along.0) {
                continue;
            }
            let off = |end| own.local(end).1 - line;
            let grows = off(piece.b) > off(piece.a);
            // The part of the piece on that side.
            let part = if grows == left { length - *at } else { *at };
            if part.0 > HAIR {
                let inner = at.0 > HAIR && at.0 < length.0 - HAIR;
                let seats = || piece.seats.iter().map(|it| it.0);
                let through = inner && seats().any(|it| it < *at) && seats().any(|it| it > *at);
                all.push(Seated { piece, at: *at, side: if grows == left { 1.0 } else { -1.0 }, through });
            }
        }
    }
    all
}

pub(super) fn joists<'a>(case: &'a Case<'_>, left: bool) -> Vec<Seated<'a>> {
    seated(case, left, |it| matches!(it, Node::Field(_)))
}

impl Seated<'_> {
    /// How far a place of the piece is from the line, on this side.
    fn off(&self, at: Feet) -> Feet {
        (at - self.at) * self.side
    }

    /// The nearest of its other supports on this side.
    fn far(&self) -> Option<Feet> {
        let all = self.piece.seats.iter().map(|it| self.off(it.0)).filter(|it| it.0 > HAIR);
        all.reduce(Feet::min)
    }

    /// Whether there is room for a prop before its next support.
    pub(super) fn has_room(&self, case: &Case<'_>) -> bool {
        let end = if self.side > 0.0 { apart(self.piece.a, self.piece.b) - self.at } else { self.at };
        self.far().map_or(end >= case.stretch.shoring_offset, |far| far > case.stretch.shoring_offset)
    }

    /// The piece with the wall gone and props in its place, on the sides asked for: one for its own.
    pub(super) fn propped(&self, case: &Case<'_>, sides: &[f64], tip: Weights) -> (Piece, Vec<(Load, ByKind<f64>)>) {
        let (piece, at) = (self.piece, self.at);
        let length = apart(piece.a, piece.b);
        let goes = |it: &(Feet, Node)| it.1 == case.line.node && (it.0 - at).abs().0 <= HAIR;
        let mut seats: Vec<Feet> = piece.seats.iter().filter(|it| !goes(it)).map(|it| it.0).collect();
        for side in sides {
            let prop = at + case.stretch.shoring_offset * (self.side * *side);
            seats.push(prop.max(Feet::ZERO).min(length));
        }
        let mut loads = piece.loads.clone();
        if tip.all().0.abs() > 1e-9 {
            loads.push((Load::Point { at, weight: Pounds(1.0) }, tip.map(f64::from)));
        }
        (Piece::new(Feet::ZERO, length, &seats), loads)
    }

    /// What each support but the one on the stretch has now, by kind, and what that one has.
    pub(super) fn now(&self, case: &Case<'_>) -> (Vec<(Feet, Weights)>, Weights) {
        let together: Vec<Load> = self.piece.loads.iter().map(|(load, times)| scaled(load, times.all())).collect();
        let all = bar(self.piece)
            .settle(&together)
            .map_or_else(|_| Vec::new(), |contact| pushes(&contact, &self.piece.loads));
        let (mut others, mut here) = (Vec::new(), Weights::default());
        for (push, seat) in all.into_iter().zip(&self.piece.seats) {
            if seat.1 == case.line.node && (seat.0 - self.at).abs().0 <= HAIR {
                here += push.1;
            } else {
                others.push(push);
            }
        }
        (others, here)
    }
}

fn scaled(load: &Load, times: f64) -> Load {
    match *load {
        Load::Point { at, weight } => Load::Point { at, weight: weight * times },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: start * times, end: end * times },
    }
}

/// How each support pushes, by kind: all loads of a kind at once, so that what a sliver rounds to is measured by the whole.
pub(super) fn pushes(contact: &Contact, loads: &[(Load, ByKind<f64>)]) -> Vec<(Feet, Weights)> {
    let mut all: Vec<(Feet, Weights)> = contact.supports().map(|at| (at, Weights::default())).collect();
    for kind in Kind::ALL {
        let of_kind = loads.iter().filter(|it| it.1.get(kind).abs() > 0.0);
        let of_kind: Vec<Load> = of_kind.map(|(load, times)| scaled(load, times.get(kind))).collect();
        if of_kind.is_empty() {
            continue;
        }
        for (sum, push) in all.iter_mut().zip(contact.reactions(&of_kind)) {
            *sum.1.get_mut(kind) += push;
        }
    }
    all
}

/// What holds of a joist of a field as it stands.
pub(super) fn standing(case: &Case<'_>, id: FieldId) -> Option<Standing> {
    let field = case.field(id)?.1;
    Some(Standing {
        member: field.member,
        wood: field.wood,
        alike: (3, Inches(field.spacing.inches())),
        limits: limits::of_joists(field),
    })
}

/// A joist on props: its checks, and what they come to with its notches and holes.
fn judged(
    case: &Case<'_>,
    (piece, cuts): (&Carried, &[(&JoistCut, Feet)]),
    standing: &Standing,
    on: (&Piece, &[(Load, ByKind<f64>)]),
) -> (Option<Checked>, Option<Weakened>, OnProps) {
    let site = case.plan.site();
    let Ok(checked) = standing.check(on.0, on.1, site) else {
        let (now, then) =
            (asked(&bar(piece), &piece.loads, site, Bears::Pushing), asked(on.0, on.1, site, Bears::Pushing));
        // With cuts nobody can say: they are where they are.
        let eased = cuts.is_empty() && now.zip(then).is_some_and(|(now, then)| eases(&now, &then));
        return (None, None, if eased { OnProps::NoMoreThanNow } else { OnProps::NotKnown });
    };
    let weakened = weakened(case, cuts, standing, on);
    let whole = checked.passes() && weakened.is_none_or(|it| it.worst.ratio <= 1.0 + 1e-9);
    (Some(checked), weakened, if whole { OnProps::Passes } else { OnProps::Fails })
}

/// Whether under every combination nothing is bent or sheared more than now.
pub(super) fn eases(now: &[Asked], then: &[Asked]) -> bool {
    let more = |then: &Asked| {
        now.iter()
            .find(|it| it.combination == then.combination)
            .is_none_or(|now| then.moment.0 > now.moment.0 * (1.0 + 1e-9) || then.shear.0 > now.shear.0 * (1.0 + 1e-9))
    };
    !then.iter().any(more)
}

/// The lines of props, left first, with what stands on each foot of the joists' ends.
pub(super) fn lines(case: &Case<'_>, on_ends: LineLoads) -> Vec<PropLine> {
    let mut lines: Vec<PropLine> =
        [true, false].into_iter().filter_map(|left| line(case, left, on_ends, false)).collect();
    if let [one, other] = lines.as_mut_slice() {
        // One line may be enough for joists in one piece: that of the side on which more is left to hold.
        let alone = |left: bool| joists(case, !left).iter().all(|it| it.through) && spans_on(case, left, on_ends);
        let (stays, goes) = if alone(one.left) { (one, other) } else { (other, one) };
        if alone(stays.left) {
            goes.skip = Some(Skip::OnePieceSpansOn);
            (goes.holds, goes.beyond) = Default::default();
            // What the other line would have had comes to it as well.
            *stays = line(case, stays.left, on_ends, true).unwrap_or_else(|| stays.clone());
        }
    }
    lines
}

/// Whether joists in one piece pass on the props of one side alone.
fn spans_on(case: &Case<'_>, left: bool, on_ends: LineLoads) -> bool {
    let joists = joists(case, left);
    !joists.is_empty()
        && joists.iter().all(|it| {
            let Node::Field(id) = it.piece.of else { return false };
            let (Some(standing), Some((_, field))) = (standing(case, id), case.field(id)) else { return false };
            let (bar, loads) = it.propped(case, &[1.0], on_ends * field.spacing.feet());
            let cuts = cuts_in(case, it.piece);
            it.through
                && it.has_room(case)
                && judged(case, (it.piece, &cuts), &standing, (&bar, &loads)).2 == OnProps::Passes
        })
}

/// Joists of the stretch for which there is no room for a prop: what they bring has nothing that holds it.
pub(super) fn left_out(case: &Case<'_>) -> Vec<Held> {
    let mut all: Vec<Held> = Vec::new();
    for left in [true, false] {
        let sides = joists(case, left);
        for it in sides.iter().filter(|it| !it.has_room(case)) {
            // Held from its other side, where it runs on there.
            let other = joists(case, !left);
            let same = |one: &&Seated<'_>| core::ptr::eq(one.piece, it.piece) && (one.at - it.at).abs().0 < HAIR;
            if other.iter().find(same).is_some_and(|other| other.has_room(case)) {
                continue;
            }
            if left || !other.iter().any(|one| same(&one)) {
                let brings = it.now(case).1;
                match all.iter_mut().find(|known| known.what == it.piece.of) {
                    Some(known) => known.weights += brings,
                    None => all.push(Held::new(it.piece.of, None, brings, Holds::Nothing(Unheld::TooShort))),
                }
            }
        }
    }
    for it in &mut all {
        it.most = heaviest(&it.weights, case.plan.site()).0;
    }
    all
}

/// The props of one side; `alone` where joists in one piece have none on the other.
fn line(case: &Case<'_>, left: bool, on_ends: LineLoads, alone: bool) -> Option<PropLine> {
    let site = case.plan.site();
    let here = joists(case, left);
    let others = joists(case, !left);
    let mut found: Option<PropLine> = None;
    let (mut holds, mut beyond, mut far_push) = (Weights::default(), Weights::default(), Plf(f64::INFINITY));
    let (mut joists, mut worst_cut, mut on_props) = (None::<Checked>, None::<Weakened>, OnProps::Passes);
    // Like joists under like loads are checked once.
    let mut last: Option<(&Carried, FieldId, bool)> = None;
    for it in here.iter().filter(|it| it.has_room(case)) {
        let Node::Field(id) = it.piece.of else { continue };
        let Some((_, field)) = case.field(id) else { continue };
        let spacing = field.spacing.feet();
        // The other side of a piece in one has no room for a prop: then all comes to this side.
        let both = it.through
            && !alone
            && others.iter().any(|other| core::ptr::eq(other.piece, it.piece) && other.has_room(case));
        // What stands above rests on the ends of both sides, where both have joists.
        let share = if !others.is_empty() && !it.through { 0.5 } else { 1.0 };
        let sides: &[f64] = if both { &[1.0, -1.0] } else { &[1.0] };
        let tip = on_ends * spacing * share;
        let (bar, loads) = it.propped(case, sides, tip);
        let Some(contact) = bar.held() else { continue };
        let far = it.far();
        let all = pushes(&contact, &loads);
        let bare = if tip.all().0.abs() > 1e-9 { pushes(&contact, &it.piece.loads) } else { all.clone() };
        let prop = it.at + case.stretch.shoring_offset * it.side;
        let at = |all: &[(Feet, Weights)], place: Feet| -> Weights {
            let here = all.iter().filter(|push| (push.0 - place).abs().0 < HAIR);
            here.fold(Weights::default(), |sum, push| sum + push.1)
        };
        let weights = at(&all, prop);
        holds += at(&bare, prop);
        // Its other supports: those of this side, and of the other where no prop stands there.
        let ours = |place: Feet| {
            let off = it.off(place).0;
            let this_side = off > HAIR || off >= -HAIR && it.side > 0.0;
            (place - prop).abs().0 >= HAIR && (this_side || !both)
        };
        let sum = |all: &[(Feet, Weights)]| {
            all.iter().filter(|push| ours(push.0)).fold(Weights::default(), |sum, push| sum + push.1)
        };
        beyond += sum(&bare) - sum(&it.now(case).0);
        if let Some(far) = far {
            let kept = at(&all, it.at + far * it.side);
            far_push = far_push.min(least(&kept.map(|pounds| pounds / spacing), site).0);
        }
        let cuts = cuts_in(case, it.piece);
        let known = last.is_some_and(|(piece, of, through)| {
            of == id
                && through == both
                && cuts.is_empty()
                && piece.seats == it.piece.seats
                && piece.loads == it.piece.loads
        });
        if !known {
            let (checked, weak, this) = standing(case, id).map_or((None, None, OnProps::NotKnown), |it_stands| {
                judged(case, (it.piece, &cuts), &it_stands, (&bar, &loads))
            });
            joists = match (joists, checked) {
                (Some(one), Some(other)) => Some(one.or_worse(other)),
                (one, other) => one.or(other),
            };
            worst_cut = match (worst_cut, weak) {
                (Some(one), Some(other)) if one.worst.ratio >= other.worst.ratio => Some(one),
                (one, other) => other.or(one),
            };
            on_props = on_props.max(this);
            last = cuts.is_empty().then_some((it.piece, id, both));
        }
        let line = weights.map(|pounds| pounds / spacing);
        let (most, under) = heaviest(&line, site);
        if found.as_ref().is_some_and(|it| it.most >= most) {
            continue;
        }
        let joints = if case.line.joints == Joints::NotSeen { field.joints } else { case.line.joints };
        let meets = match () {
            () if it.through => Meets::RunThrough,
            () if others.is_empty() => Meets::EndOn,
            () if joints == Joints::NotSeen => Meets::NotSeen,
            () => Meets::Lap,
        };
        let span = far.unwrap_or(case.stretch.shoring_offset);
        let had = (field.weighs() + crate::loads::live(field.used_as).value) * (span / 2.0);
        found = Some(PropLine {
            left,
            offset: case.stretch.shoring_offset,
            span,
            meets,
            line,
            most,
            under,
            had,
            above: on_ends * share,
            holds: Weights::default(),
            beyond: Weights::default(),
            far: Plf::ZERO,
            alone: Plf::ZERO,
            each: most * PROPS_APART,
            prop: prop_under(case, &line, spacing),
            no_prop: None,
            joists: None,
            on_props,
            weakened: None,
            skip: None,
            on: way::stands_on(case, left),
            floor: None,
            no_way: None,
            cut_by: Vec::new(),
            sentence: String::new(),
            figures: Vec::new(),
        });
    }
    found.map(|line| PropLine {
        holds,
        beyond,
        far: if far_push.0.is_finite() { far_push } else { Plf::ZERO },
        joists,
        on_props,
        weakened: worst_cut,
        ..line
    })
}
