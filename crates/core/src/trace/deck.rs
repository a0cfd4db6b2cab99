//! The deck over one level: every joist laid, loaded, solved, and its reactions handed to what it bears on.

use super::around::extent;
use super::bar::{Bar, Bearer, Bed, Burden, Meet, Outcome, Place, times};
use super::down::shared;
use super::lay::{FieldWork, HAIR, Header, Joist};
use super::near::Near;
use super::place::{self, spots};
use super::probe::Carried;
use super::seats::PARALLEL;
use super::storey::Storey;
use super::strips::{EPS, Length, Line};
use super::{HeaderTrace, Laid, LaidAs, Node, Origin, Problem, Reason};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{FieldId, WallId};
use crate::loads::{LineLoads, Weights};
use crate::plan::Joints;
use crate::statics::Load;
use crate::trace::carry::Sample;
use crate::units::{Feet, Plf, Pounds, SquareFeet};

/// A share under this many pounds is rounding: no reason for anything.
const LITTLE: f64 = 1e-6;

/// A line load that lands on the deck: a wall with nothing in line below.
#[derive(Clone, Copy, Debug)]
pub(super) struct DeckLine {
    pub(super) tag: Node,
    pub(super) a: Spot,
    pub(super) b: Spot,
    pub(super) loads: LineLoads,
}

/// A point load that lands on the deck.
#[derive(Clone, Copy, Debug)]
pub(super) struct DeckPoint {
    pub(super) tag: Node,
    pub(super) at: Spot,
    pub(super) weights: Weights,
}

/// Lays and solves the deck over a level with what stands on it.
///
/// A place belongs to the last field whose region holds it. Only where none does, the reach of a field past its edge counts.
pub(super) fn deck(storey: &mut Storey<'_>, lines: &[DeckLine], points: &[DeckPoint]) {
    let mut fields: Vec<FieldWork> = (0..storey.level.fields.len()).filter_map(|i| FieldWork::lay(storey, i)).collect();
    let near = Near::of(fields.iter().map(|field| field.within));
    let loaded = !lines.is_empty() || !points.is_empty();
    let region = |field: &FieldWork| {
        let drawn = storey.level.fields.iter().find(|it| loaded && it.id == field.id);
        drawn.map(|it| spots(storey.around.polygons(&it.region))).unwrap_or_default()
    };
    let regions: Vec<Vec<Vec<Spot>>> = fields.iter().map(region).collect();
    let holds = |number: usize, at: Spot| regions.get(number).into_iter().flatten().any(|it| place::holds(it, at));
    for line in lines {
        let run = (line.a, line.b);
        let numbers = near.all(&extent([line.a, line.b]));
        let mut stops = Vec::new();
        for corners in numbers.iter().filter_map(|number| regions.get(*number)).flatten() {
            place::stops(corners, run, &mut stops);
        }
        let owner = |share: f64| numbers.iter().rev().copied().find(|number| holds(*number, place::on(run, share)));
        for ((from, to), owner) in place::pieces(stops, owner) {
            let mut left = vec![(place::on(run, from), place::on(run, to))];
            for number in owner.into_iter().chain(numbers.iter().rev().copied()) {
                let Some(field) = fields.get_mut(number) else { continue };
                left = left.into_iter().flat_map(|run| field.put_line(line.tag, run, line.loads)).collect();
            }
            for (a, b) in left {
                let (at, weights) = (middle(a, b), line.loads * geometry::apart(a, b));
                let mut near = numbers.iter().rev().filter(|_| weights.is_sliver());
                if !near.any(|it| fields.get_mut(*it).is_some_and(|field| field.put_sliver(line.tag, at, weights))) {
                    lost(storey, line.tag, at, weights);
                }
            }
        }
    }
    for point in points {
        let mut numbers = near.all(&extent([point.at]));
        numbers.reverse();
        if let Some(owner) = numbers.iter().position(|number| holds(*number, point.at)) {
            numbers.get_mut(..=owner).into_iter().for_each(|all| all.rotate_right(1));
        }
        if point.tag == Node::Here {
            let mut holding = numbers.iter().filter_map(|number| Some(fields.get(*number)?.holding(point.at)));
            storey.held.extend(holding.find(|held| !held.is_empty()).unwrap_or_default());
        }
        let taken = numbers.into_iter().any(|number| {
            fields.get_mut(number).is_some_and(|field| field.put_point(point.tag, point.at, point.weights))
        });
        if !taken {
            lost(storey, point.tag, point.at, point.weights);
        }
    }
    for field in &mut fields {
        solve(storey, field);
    }
}

fn lost(storey: &mut Storey<'_>, tag: Node, at: Spot, weights: Weights) {
    if weights.all().0.abs() < 1e-12 {
        return;
    }
    let problem = match tag {
        Node::Wall(wall) => Problem::WallOnNothing { wall },
        Node::Post(post) => Problem::PostOnNothing { post },
        Node::Thing(thing) => Problem::ThingOnNothing { thing },
        Node::Purlin(purlin) => Problem::StrutsOnNothing { purlin },
        _ => return storey.lose(tag, None, weights),
    };
    let known = storey.findings.iter_mut().find(|finding| finding.problem == problem);
    match known.and_then(|finding| finding.weights.as_mut()) {
        Some(sum) => *sum += weights,
        None => storey.find(at, problem, Some(weights)),
    }
    storey.lose(tag, None, weights);
}

fn middle(a: Spot, b: Spot) -> Spot {
    Spot { x: (a.x + b.x) / 2.0, y: (a.y + b.y) / 2.0 }
}

/// What of a field did not find its way.
#[derive(Default)]
struct Loose {
    unsupported: (usize, Weights, Option<Spot>),
    long: (usize, f64, Option<Spot>),
    /// Slivers that rest on nothing, each with its place.
    slivers: Vec<(Node, Weights, Spot)>,
    /// What joists rest on, and where.
    rests: Vec<(Bearer, f64, Spot)>,
}

impl Loose {
    fn lose(&mut self, storey: &mut Storey<'_>, tag: Node, through: Option<FieldId>, weights: Weights) {
        self.unsupported.1 += weights;
        storey.lose(tag, through, weights);
    }

    /// One more joist, trimmer or header has nothing under it.
    fn count(&mut self, at: Spot) {
        self.unsupported.0 += 1;
        self.unsupported.2.get_or_insert(at);
    }

    /// Gives slivers to where the nearest neighbour rests.
    fn give(&mut self, storey: &mut Storey<'_>, field: FieldId) {
        for (tag, weights, at) in core::mem::take(&mut self.slivers) {
            let through = (tag != Node::Field(field)).then_some(field);
            let nearest = place::nearest(&self.rests, at);
            if nearest.is_empty() {
                storey.lose(tag, through, weights);
            }
            let weights = shared(weights, &nearest);
            for (on, along) in nearest {
                storey.put_point(on, along, tag, weights);
                let to = storey.node(on);
                storey.link(tag, through, to, weights);
            }
        }
    }
}

/// Tails first, then the headers they hang on, then everything that a header may rest on. What another opening cuts is a
/// tail too: it comes after the headers that rest on it, and before the header that it hangs on.
fn solve(storey: &mut Storey<'_>, field: &mut FieldWork) {
    let area = field.cover.area();
    storey.own += times(&field.psf, |psf| psf.0 * area).map(Pounds);
    let mut loose = Loose::default();
    let waits = |field: &FieldWork, joist: &Joist| {
        field.headers.iter().any(|it| !it.done && [it.lo, it.hi].into_iter().any(|s| it.ends_on(joist, s)))
    };
    let (tails, mut others): (Vec<Joist>, Vec<Joist>) = core::mem::take(&mut field.joists)
        .into_iter()
        .partition(|joist| joist.hangs_on().next().is_some() && !waits(field, joist));
    for joist in tails {
        hand_out(storey, field, joist, &mut loose);
    }
    while let Some(first) = field.headers.iter().position(|it| !it.done) {
        let free = |number: &usize| {
            let open = field.headers.get(*number).is_some_and(|it| !it.done);
            open && !others.iter().any(|joist| joist.hangs_on().any(|it| it == *number))
        };
        // Of a ring of headers that hang on each other the first begins: what comes back to it is lost, and found.
        let number = (first..field.headers.len()).find(free).unwrap_or(first);
        header(storey, field, number, &mut others, &mut loose);
        if let Some(header) = field.headers.get_mut(number) {
            header.done = true;
        }
        let ready = |joist: &Joist| joist.hangs_on().next().is_some() && !waits(field, joist);
        let (tails, rest): (Vec<Joist>, Vec<Joist>) = others.into_iter().partition(ready);
        others = rest;
        for joist in tails {
            hand_out(storey, field, joist, &mut loose);
        }
    }
    for joist in others {
        hand_out(storey, field, joist, &mut loose);
    }
    let id = field.id;
    loose.give(storey, id);
    if let (count, weights, Some(at)) = loose.unsupported {
        storey.find(at, Problem::MembersUnsupported { field: id, count }, Some(weights));
    }
    if let (count, span, Some(at)) = loose.long {
        storey.find(at, Problem::LongSpan { field: id, span: Feet(span), reach: field.reach, count }, None);
    }
}

fn hand_out(storey: &mut Storey<'_>, field: &mut FieldWork, joist: Joist, loose: &mut Loose) {
    let Joist { line, length, seats, beds, burdens: more } = joist;
    let own = Burden {
        tag: Node::Field(field.id),
        shape: length.ramps.iter().map(|ramp| spread(ramp.from, ramp.to, ramp.start, ramp.end)).collect(),
        times: times(&field.psf, |psf| psf.0),
    };
    let mut burdens = Vec::with_capacity(more.len() + 1);
    burdens.push(own);
    burdens.extend(more);
    let bar = Bar { from: length.from, to: length.to, seats, beds, joints: field.joints };
    let mut outcome = bar.solve(&burdens);
    if !outcome.lost.is_empty() && outcome.lost_weight().is_sliver() {
        let at = field.frame.spot(Feet((bar.from + bar.to) / 2.0), Feet(length.s));
        loose.slivers.extend(outcome.slivers(&bar).into_iter().map(|(tag, weights)| (tag, weights, at)));
    }
    if storey.carried.is_some() {
        watch(storey, field, (&line, &length, &bar), &burdens);
    }
    let spot = |at: f64| field.frame.spot(Feet(at), Feet(length.s));
    let place = spot((bar.from + bar.to) / 2.0);
    if !outcome.lost.is_empty() {
        loose.count(place);
        for (tag, weights) in &outcome.lost {
            let own = *tag == Node::Field(field.id);
            loose.lose(storey, *tag, (!own).then_some(field.id), *weights);
        }
    }
    let weighs = burdens.iter().fold(0.0, |sum, it| sum + it.pounds());
    if outcome.longest_span > field.reach.0 + 1e-6 && weighs >= Weights::SLIVER.0 {
        loose.long.0 += 1;
        loose.long.1 = loose.long.1.max(outcome.longest_span);
        loose.long.2.get_or_insert(place);
    }
    let bears = bar.seats.iter().map(|seat| spot(seat.at)).collect();
    let laps = outcome.laps.iter().filter_map(|lap| bar.seats.get(*lap)).map(|seat| spot(seat.at)).collect();
    let tail = bar.seats.iter().any(|seat| matches!(seat.on, Bearer::Header(_)));
    storey.members.push(Laid {
        level: storey.level.id,
        of: Node::Field(field.id),
        laid_as: match (line.trimmer, tail) {
            (true, _) => LaidAs::Trimmer,
            (_, true) => LaidAs::Tail,
            _ => LaidAs::Joist,
        },
        a: spot(bar.from),
        b: spot(bar.to),
        bears,
        laps,
        longest_span: Feet(outcome.longest_span),
    });
    let strips: Vec<Option<(f64, f64)>> =
        bar.seats.iter().map(|seat| field.seats.strip_on(seat.on, length.across)).collect();
    let seats = bar.seats.iter().filter(|seat| !matches!(seat.on, Bearer::Header(_)));
    loose.rests.extend(seats.map(|seat| (seat.on, seat.along, spot(seat.at))));
    let middle = |bed: &Bed| (bed.from + bed.to) / 2.0;
    loose.rests.extend(bar.beds.iter().map(|bed| (bed.on, bed.along_at(middle(bed)), spot(middle(bed)))));
    claims(storey, field, (&length, &bar), &strips, &outcome);
    deliver(storey, field, (&length, &bar), &strips, &outcome, loose);
}

/// Keeps a joist with what lies on it for who asked.
fn watch(storey: &mut Storey<'_>, field: &FieldWork, (line, length, bar): (&Line, &Length, &Bar), burdens: &[Burden]) {
    let tail = bar.seats.iter().any(|seat| matches!(seat.on, Bearer::Header(_)));
    let laid_as = match (line.trimmer, tail) {
        (true, _) => LaidAs::Trimmer,
        (_, true) => LaidAs::Tail,
        _ => LaidAs::Joist,
    };
    let node = |on: Bearer| match on {
        Bearer::Header(header) => {
            field.headers.get(header).map_or(Node::Gap, |header| Node::FloorOpening(header.opening))
        }
        other => storey.node(other),
    };
    let spot = |at: f64| field.frame.spot(Feet(at), Feet(length.s));
    let pieces = bar.pieces(burdens).into_iter().map(|piece| Carried {
        level: storey.level.id,
        of: Node::Field(field.id),
        laid_as: Some(laid_as),
        ..Carried::of(piece, spot, node)
    });
    let pieces: Vec<Carried> = pieces.collect();
    storey.carried.iter_mut().for_each(|all| all.extend(pieces.iter().cloned()));
}

/// What each seat and bed learns from this joist: why it carries, and how wide a strip leans on it.
fn claims(
    storey: &mut Storey<'_>,
    field: &FieldWork,
    (length, bar): (&Length, &Bar),
    strips: &[Option<(f64, f64)>],
    outcome: &Outcome,
) {
    let node = Node::Field(field.id);
    let per_psf = field.psf.all().0;
    for (number, (seat, strip)) in bar.seats.iter().zip(strips).enumerate() {
        let Some((start, end)) = *strip else { continue };
        let before = number.checked_sub(1).and_then(|n| bar.seats.get(n)).map(|it| it.at);
        let after = bar.seats.get(number + 1).map(|it| it.at);
        let behind = before.map_or(seat.at - bar.from, |at| (seat.at - at) / 2.0);
        let ahead = after.map_or(bar.to - seat.at, |at| (at - seat.at) / 2.0);
        let Some((square, left_ahead)) = field.seats.turn(seat.on) else { continue };
        let (left, right) = if left_ahead { (ahead, behind) } else { (behind, ahead) };
        let here = outcome.deliveries.iter().filter(|it| it.place == Place::Seat(number) && it.tag == node);
        let reaction = here.map(|it| it.weights.all().0).sum::<f64>();
        let inner = before.is_some() && after.is_some();
        let id = field.id;
        let joints = match (seat.on, seat.meet) {
            (Bearer::Wall(_), Meet::Always) => Joints::Lap,
            (Bearer::Wall(_), Meet::Never) => Joints::RunThrough,
            _ => field.joints,
        };
        let reason = match (inner, joints) {
            (false, _) => Reason::JoistsEndOn { field: id },
            (true, Joints::Lap) => Reason::JoistsLapOver { field: id },
            (true, Joints::RunThrough) => Reason::JoistsPassOver { field: id },
            (true, Joints::NotSeen) => Reason::JoistsCross { field: id },
        };
        let sample = Sample {
            from: node,
            origin: field.origin,
            start,
            end,
            left: left * square,
            right: right * square,
            reaction: if per_psf > 0.0 { reaction / per_psf } else { 0.0 },
            through: None,
        };
        if let Some(carrier) = storey.carrier(seat.on) {
            carrier.claim(start, end, Some(field.origin), reason);
            carrier.samples.push(sample);
        }
    }
    for bed in &bar.beds {
        let (start, end) = (bed.along.0.min(bed.along.1), bed.along.0.max(bed.along.1));
        // The trade gives a wall that joists run along no width; its effective width is the strip of the joist on it.
        let strip = length.across.1 - length.across.0;
        let sample = Sample {
            from: node,
            origin: field.origin,
            start,
            end,
            left: 0.0,
            right: 0.0,
            reaction: strip * (end - start),
            through: None,
        };
        if let Some(carrier) = storey.carrier(bed.on) {
            carrier.claim(start, end, Some(field.origin), Reason::JoistsRunAlong { field: field.id });
            carrier.samples.push(sample);
        }
    }
}

fn deliver(
    storey: &mut Storey<'_>,
    field: &mut FieldWork,
    (length, bar): (&Length, &Bar),
    strips: &[Option<(f64, f64)>],
    outcome: &Outcome,
    loose: &mut Loose,
) {
    let own = Node::Field(field.id);
    for delivery in &outcome.deliveries {
        let (tag, weights) = (delivery.tag, delivery.weights);
        match delivery.place {
            Place::Seat(number) => {
                let Some(seat) = bar.seats.get(number) else { continue };
                if let Bearer::Header(header) = seat.on {
                    if let Some(header) = field.headers.get_mut(header) {
                        if header.done {
                            loose.count(field.frame.spot(Feet(seat.at), Feet(length.s)));
                            loose.lose(storey, tag, (tag != own).then_some(field.id), weights);
                            continue;
                        }
                        header.points.push((length.s, weights));
                        let reach = number.checked_sub(1).map_or(bar.seats.get(1), |before| bar.seats.get(before));
                        let half = reach.map_or(0.0, |other| (other.at - seat.at).abs() / 2.0);
                        header.half = header.half.max(half);
                        storey.link(tag, Some(field.id), Node::FloorOpening(header.opening), weights);
                    }
                    continue;
                }
                let strip = strips.get(number).copied().flatten();
                match (tag, strip) {
                    (Node::Field(_) | Node::Wall(_) | Node::Thing(_) | Node::Here, Some(strip)) => {
                        storey.put_run(seat.on, strip, tag, weights)
                    }
                    _ => storey.put_point(seat.on, seat.along, tag, weights),
                }
                if let (Node::FloorOpening(opening), Some(carrier)) = (tag, storey.carrier(seat.on)) {
                    let reason = Reason::TrimmerRestsOn { opening, at: Feet(seat.along) };
                    carrier.claim(seat.along - 0.5, seat.along + 0.5, None, reason);
                }
                if let Node::Purlin(purlin) = tag
                    && let Some(step) = storey.level.purlins.iter().find(|it| it.id == purlin).map(|it| it.spacing)
                    && let Some(carrier) = storey.carrier(seat.on)
                {
                    let half = step.feet().0 / 2.0;
                    let reason = Reason::StrutsPressOn { purlin };
                    carrier.claim(seat.along - half, seat.along + half, Some(Origin::Roof), reason);
                }
                if let (Node::Wall(upper), Some((start, end))) = (tag, strip)
                    && weights.all().0.abs() > LITTLE
                    && let Some(offset) = off_wall(storey, field, upper, (seat.at, length.s))
                    && let Some(carrier) = storey.carrier(seat.on)
                {
                    carrier.claim(start, end, None, Reason::WallNearStandsOn { upper, offset });
                }
            }
            Place::Bed { bed, from, to } => {
                let Some(bed) = bar.beds.get(bed) else { continue };
                let run = (bed.along_at(from), bed.along_at(to));
                if (to - from).abs() > EPS {
                    storey.put_run(bed.on, run, tag, weights);
                } else {
                    storey.put_point(bed.on, run.0, tag, weights);
                }
            }
        }
        let to = storey.node(delivery.on);
        storey.link(tag, (tag != own).then_some(field.id), to, weights);
    }
}

/// How far a place of a joist is off a wall above that crosses the joists; none for a wall that runs along them.
fn off_wall(storey: &Storey<'_>, field: &FieldWork, upper: WallId, (t, s): (f64, f64)) -> Option<Feet> {
    let wall = storey.above?.wall(upper)?;
    let own = Frame::between(wall.a, wall.b).filter(|own| own.squareness(&field.frame) > PARALLEL)?;
    let ((from, line), (along, across)) =
        (own.local(Spot::from(wall.a)), own.local(field.frame.spot(Feet(t), Feet(s))));
    let to = from + crate::geometry::length(wall.a, wall.b);
    let past = (from - along).max(along - to).max(Feet::ZERO).0;
    let beside = (across - line).0;
    Some(Feet((past * past + beside * beside).sqrt()))
}

/// A header spans from trimmer to trimmer: by statics each takes its share as a point load.
fn header(storey: &mut Storey<'_>, field: &mut FieldWork, number: usize, others: &mut [Joist], loose: &mut Loose) {
    let Some(header) = field.headers.get(number) else { return };
    if header.points.is_empty() {
        return;
    }
    let Header { opening, t, lo, hi, half, .. } = *header;
    let (mut at_lo, mut at_hi) = (Weights::default(), Weights::default());
    for (s, weights) in &header.points {
        let share = ((s - lo) / (hi - lo)).clamp(0.0, 1.0);
        at_lo += *weights * (1.0 - share);
        at_hi += *weights * share;
    }
    let spot = |s: f64| field.frame.spot(Feet(t), Feet(s));
    let (a, b) = (spot(lo), spot(hi));
    let mut under = [None, None];
    for ((s, weights), under) in [(lo, at_lo), (hi, at_hi)].into_iter().zip(&mut under) {
        let tag = Node::FloorOpening(opening);
        let holds = |joist: &&mut Joist| header.ends_on(joist, s);
        // In the order of their lines.
        let first = others.partition_point(|joist| joist.line.s < s - 2.0 * HAIR);
        let mut here = others.iter_mut().skip(first).take_while(|joist| joist.line.s < s + 2.0 * HAIR);
        let Some(trimmer) = here.find(holds) else {
            if weights.is_sliver() {
                loose.slivers.push((tag, weights, spot(s)));
            } else {
                loose.count(spot(s));
                loose.lose(storey, tag, None, weights);
            }
            continue;
        };
        // The nearest post within half a foot; of two as near, the one drawn first.
        let mut nearest: Option<(f64, usize)> = None;
        for seat in &trimmer.seats {
            let Bearer::Post(post) = seat.on else { continue };
            let off = (seat.at - t).abs();
            let nearer = nearest.is_none_or(|(known, its)| off < known - EPS || (off < known + EPS && post < its));
            if off < 0.5 + EPS && nearer {
                nearest = Some((off, post));
            }
        }
        *under = nearest.and_then(|(_, post)| storey.level.posts.get(post)).map(|post| post.id);
        trimmer.burdens.push(Burden {
            tag,
            shape: vec![Load::Point { at: Feet(t), weight: Pounds(1.0) }],
            times: times(&weights, |pounds| pounds.0),
        });
    }
    let [under_a, under_b] = under;
    let area = SquareFeet((hi - lo) * half);
    let level = storey.level.id;
    storey.headers.push(HeaderTrace { level, opening, a, b, area, at_a: at_lo, at_b: at_hi, under_a, under_b });
    let (of, laid_as, longest_span) = (Node::FloorOpening(opening), LaidAs::Header, Feet(hi - lo));
    storey.members.push(Laid { level, of, laid_as, a, b, bears: vec![a, b], laps: Vec::new(), longest_span });
}

pub(super) fn spread(from: f64, to: f64, start: f64, end: f64) -> Load {
    Load::Spread { from: Feet(from), to: Feet(to), start: Plf(start), end: Plf(end) }
}
