//! The rafters of one facet: laid, set on what holds them, solved, handed out.

use super::super::around::{Around, extent};
use super::super::bar::{Bar, Bearer, Burden, Meet, Outcome, Place, Seat, part, times};
use super::super::carry::Sample;
use super::super::deck::spread;
use super::super::near::Extent;
use super::super::seats::{Seats, Use};
use super::super::strips::{Cover, EPS, Length, Line, lines};
use super::super::{Carried, Laid, LaidAs, Node, Origin, Reason};
use super::dormers::{OnTrimmer, taken_by};
use super::shape::Facet;
use super::{Rider, Work, slope_factor};
use crate::loads::{LineLoads, Weights};
use crate::order::InOrder as _;
use crate::plan::{Joints, RoofForm, RoofFrame, Side, Top, Wall};
use crate::statics::Load;
use crate::units::{Feet, Plf, Pounds};

/// A seat this near an end of a rafter is at that end, in feet.
const AT_END: f64 = 0.35 + EPS;
/// A rafter up to this long that stands on one place alone hangs on it, in feet: a tail at a corner, held by its nails.
const TAIL: f64 = 4.0 + EPS;
/// An inside wall this near the edge of a roof holds the rafters that end there, in feet.
const AT_EDGE: f64 = 0.6 + EPS;
/// A support this near a change of slope is under it, in feet.
const UNDER_BREAK: f64 = 0.5 + EPS;

/// Two seats of one rafter are further apart than this, in feet.
const APART: f64 = 0.125 + EPS;

/// A support this near the ridge holds it, in feet.
const UNDER_RIDGE: f64 = 0.5 + EPS;

/// The places on which the rafters of a facet may stand.
struct Places {
    /// Outside walls and beams, at the height of the plate.
    eaves: Seats,
    /// Inside walls at the height of the plate: they hold rafters that end there.
    inside: Seats,
    /// Inside walls that are named as bearings of the trusses.
    named: Seats,
    /// What stands up to the rafters: low walls, purlins, hips, valleys, a ridge beam.
    up: Seats,
}

/// A rafter, or a pair, with its seats in order.
struct Rafter<'f> {
    facet: &'f Facet,
    length: &'f Length,
    /// A rafter, or a doubled one beside an opening.
    laid_as: LaidAs,
    bar: Bar,
    /// The number of the seat that is none, but the rafter opposite.
    arch: Option<usize>,
    /// The seats down to which rafters that lean on each other carry what comes together between them.
    feet: Option<(usize, usize)>,
}

impl Work<'_, '_> {
    /// Lays and solves one facet.
    pub(super) fn lay(&mut self, facet: &Facet, riders: &mut [Rider]) {
        let Some(range) = facet.cover.range() else { return };
        let level = self.here.level;
        let bare = level.fields.is_empty() && self.roof.form == RoofForm::Shed;
        let Some(within) = facet.cover.corners(&facet.frame).map(extent) else { return };
        let used_for = if bare { Use::Joists } else { Use::Roof };
        let eaves = Seats::of(self.here.around, &facet.frame, used_for, &within).by_place();
        let inside = inside_walls(self.here.around, facet, &within, |_| true);
        let trusses = matches!(self.roof.frame, RoofFrame::Trusses { .. });
        let named = inside_walls(self.here.around, facet, &within, |wall| trusses && wall.truss_bearing);
        let places = Places { eaves, inside, named, up: self.ribs.seats(&facet.frame).by_place() };
        let on_top: Vec<Cover> = riders.iter().map(|rider| Cover::of(&facet.frame, &rider.polygons, &[])).collect();
        let trimmers: Vec<f64> = facet.dormers.iter().flat_map(|it| [it.s.0, it.s.1]).collect();
        let all = lines(range, self.roof.spacing.feet().0, facet.cover.edges(), &trimmers);
        // Trimmers last: the headers bring them what the rafters between them brought to the headers.
        let (trimmers, others): (Vec<Line>, Vec<Line>) = all.into_iter().partition(|line| line.trimmer);
        let mut at_trimmers: Vec<OnTrimmer> = Vec::new();
        for (number, line) in others.iter().chain(&trimmers).enumerate() {
            if number == others.len() {
                at_trimmers = self.headers(facet);
            }
            let above: Vec<Vec<Length>> = on_top.iter().map(|cover| cover.lengths(line)).collect();
            for length in facet.cover.lengths(line) {
                let mut rafter = self.seat(facet, &places, &length, bare);
                rafter.laid_as = if line.trimmer { LaidAs::Trimmer } else { LaidAs::Rafter };
                let mut burdens = self.burdens(&rafter, riders, &above);
                burdens.extend(taken_by(&mut at_trimmers, self.node, line, &length));
                let outcome = rafter.bar.solve(&burdens);
                if self.here.carried.is_some() {
                    self.watch(&rafter, &burdens);
                }
                self.give(&rafter, &places, outcome, &burdens);
            }
        }
        for left in at_trimmers {
            self.lose_rib(self.node, left.weights, left.spot);
        }
    }

    /// What a rafter stands on: at its feet walls, in between what stands up to it, at its head a rib.
    fn seat<'f>(&mut self, facet: &'f Facet, places: &Places, length: &'f Length, bare: bool) -> Rafter<'f> {
        let crossed = places.eaves.crossed(length.s, length.from, length.to);
        let mut up = places.up.crossed(length.s, length.from, length.to);
        // Right at the foot of a valley a rafter stands on the wall beside it.
        let beside = |seat: &Seat| crossed.iter().any(|wall| (wall.at - seat.at).abs() < AT_END);
        up.retain(|seat| !(self.ribs.is_valley(seat.on) && seat.along < APART && beside(seat)));
        // A trimmer passes the headers by.
        let ends = |seat: &Seat| (seat.at - length.from).abs() < AT_END || (seat.at - length.to).abs() < AT_END;
        up.retain(|seat| !self.ribs.is_header(seat.on) || ends(seat));
        // A hip cuts a rafter's strip askew: its far corner is half its width past the seat.
        let askew = AT_END + length.across.1 - length.across.0;
        let headed = |end: f64| up.iter().any(|seat| self.ribs.ends_rafters(seat.on) && (seat.at - end).abs() < askew);
        let (near, far) = (headed(length.from), headed(length.to));
        let mut seats: Vec<Seat> = match (crossed.as_slice(), near, far) {
            (all, false, false) if bare => all.to_vec(),
            ([first, .., last], false, false) => vec![*first, *last],
            ([.., last], true, false) => vec![*last],
            ([first, ..], false, true) => vec![*first],
            (_, true, true) => Vec::new(),
            (few, false, false) => few.to_vec(),
            ([], ..) => Vec::new(),
        };
        let inside = places.inside.crossed(length.s, length.from, length.to);
        for (end, has_head) in [(length.from, near), (length.to, far)] {
            let held = has_head || seats.iter().any(|seat| (seat.at - end).abs() < 1.0 + EPS);
            let off = |seat: &Seat| (seat.at - end).abs();
            let wall = inside.iter().copied().filter(|seat| off(seat) < AT_EDGE);
            let nearest = wall.reduce(|a, b| if nearer(&b, &a, off) { b } else { a });
            seats.extend(nearest.filter(|_| !held));
        }
        for seat in places.named.crossed(length.s, length.from, length.to) {
            if seats.iter().all(|it| (it.at - seat.at).abs() > APART) {
                seats.push(seat);
            }
        }
        let breaks = &facet.section.breaks;
        let trusses = matches!(self.roof.frame, RoofFrame::Trusses { .. });
        let mut stands = false;
        // By bearer, so that of two at one place the same one is kept from whichever end a rafter is read.
        let mut by_bearer: Vec<&Seat> = up.iter().filter(|_| !trusses).collect();
        by_bearer.order_by_key(|seat| seat.on);
        for seat in by_bearer {
            // All that ends by the top of valleys ends right there.
            let spot = facet.frame.spot(Feet(seat.at), Feet(length.s));
            let top = self.ribs.apex_at(spot).filter(|i| self.ribs.is_valley(Bearer::Apex(*i)));
            let top = top.and_then(|i| self.ribs.apexes.get(i)).filter(|_| self.ribs.is_valley(seat.on));
            let at = top.map_or(seat.at, |apex| facet.frame.local(apex.at).0.0.clamp(length.from, length.to));
            let seat = &Seat { at, ..*seat };
            let reaches = self.ribs.reaches(seat.on, facet.section.height(seat.at));
            if reaches && seats.iter().all(|it| (it.at - seat.at).abs() > APART) {
                let at_end = (seat.at - length.from).abs() < askew || (seat.at - length.to).abs() < askew;
                if self.ribs.ends_rafters(seat.on) && !at_end && !self.ribs.runs_on(seat.on) {
                    continue;
                }
                let head = self.ribs.ends_rafters(seat.on) || self.ribs.is_ridge(seat.on);
                stands |= !head;
                let apex = self.ribs.apex_at(facet.frame.spot(Feet(seat.at), Feet(length.s))).filter(|_| at_end);
                let on = apex.map_or(seat.on, Bearer::Apex);
                let bend = breaks.iter().any(|at| (at - seat.at).abs() < UNDER_BREAK);
                seats.push(Seat { on, meet: if bend || head { Meet::Always } else { Meet::ByJoints }, ..*seat });
            }
        }
        let held = |at: &f64| seats.iter().any(|seat| (seat.at - at).abs() < UNDER_BREAK);
        if !trusses && breaks.iter().any(|at| *at > length.from && *at < length.to && !held(at)) {
            self.unheld.get_or_insert(facet.frame.spot(Feet(length.from), Feet(length.s)));
        }
        let leans = matches!(self.roof.frame, RoofFrame::RidgeBoard | RoofFrame::NotSeen);
        if let Some(at) = facet.section.ridge.filter(|at| stands && leans && *at > length.from && *at < length.to) {
            // What stands up to the ridge itself holds both rafters of the pair.
            match seats.iter_mut().find(|seat| (seat.at - at).abs() < UNDER_RIDGE) {
                Some(seat) => seat.meet = Meet::Always,
                None => seats.push(Seat { at, on: Bearer::Arch, along: 0.0, meet: Meet::Always }),
            }
        }
        seats.order_by(|a, b| a.at.total_cmp(&b.at));
        // Past its own edge a roof overhangs; where another roof takes over it does not.
        let over = |width: f64| if width > 0.0 { facet.overhang } else { 0.0 };
        let (from, to) = (length.from - over(length.ends.0), length.to + over(length.ends.1));
        let arch = seats.iter().position(|seat| seat.on == Bearer::Arch);
        let feet = self.feet(facet, &seats, arch);
        let bar = Bar { from, to, seats, beds: Vec::new(), joints: Joints::RunThrough };
        Rafter { facet, length, laid_as: LaidAs::Rafter, bar, arch, feet }
    }

    /// Where rafters that lean on each other bring what comes together: a held change of slope, a valley, a header, else the eaves.
    fn feet(&self, facet: &Facet, seats: &[Seat], arch: Option<usize>) -> Option<(usize, usize)> {
        let ridge = seats.get(arch?)?.at;
        let breaks = |seat: &Seat| facet.section.breaks.iter().any(|at| (at - seat.at).abs() < UNDER_BREAK);
        let cut = |seat: &Seat| self.ribs.is_valley(seat.on) || self.ribs.is_header(seat.on);
        let held = |seat: &Seat| breaks(seat) || cut(seat);
        let before = seats.iter().rposition(|seat| seat.at < ridge && held(seat)).unwrap_or(0);
        let after = seats.iter().position(|seat| seat.at > ridge && held(seat)).unwrap_or(seats.len() - 1);
        (before < arch? && after > arch?).then_some((before, after))
    }

    /// The loads on a rafter: by slope, its own dead load and what falls on its plan, and the roofs built on it.
    fn burdens(&self, rafter: &Rafter<'_>, riders: &mut [Rider], above: &[Vec<Length>]) -> Vec<Burden> {
        let Rafter { facet, length, bar, .. } = rafter;
        let parts = facet.section.parts();
        let mut shape: Vec<(f64, Load)> = Vec::with_capacity(3);
        let first = parts.first().map_or(0.0, |part| part.2);
        let last = parts.last().map_or(0.0, |part| part.2);
        let even = parts.iter().all(|part| (slope_factor(part.2) - slope_factor(first)).abs() < 1e-12);
        for ramp in &length.ramps {
            let load = spread(ramp.from, ramp.to, ramp.start, ramp.end);
            if even {
                shape.push((first, load));
            } else {
                shape.extend(parts.iter().filter_map(|it| Some((it.2, part(&load, it.0, it.1, true)?))));
            }
        }
        if facet.overhang > 0.0 {
            shape.push((first, spread(bar.from, length.from, length.ends.0, length.ends.0)));
            shape.push((last, spread(length.to, bar.to, length.ends.1, length.ends.1)));
        }
        let mut burdens: Vec<Burden> = Vec::with_capacity(1);
        for (rise, load) in shape {
            let psf = times(&self.psf_at(rise), |psf| psf.0);
            match burdens.iter_mut().find(|it| (it.times.dead - psf.dead).abs() < 1e-12) {
                Some(burden) => burden.shape.push(load),
                None => burdens.push(Burden { tag: self.node, shape: vec![load], times: psf }),
            }
        }
        for (rider, lengths) in riders.iter_mut().zip(above) {
            let ramps = lengths.iter().flat_map(|length| &length.ramps);
            let loads = ramps.map(|ramp| spread(ramp.from, ramp.to, ramp.start, ramp.end));
            let shape: Vec<Load> = loads.filter_map(|load| part(&load, length.from, length.to, true)).collect();
            if shape.is_empty() {
                continue;
            }
            let dead = Weights { dead: Pounds(rider.dead.0), ..Weights::default() };
            let feet: f64 = shape.iter().map(|load| load.total().0).sum();
            rider.laid += dead * feet;
            burdens.push(Burden { tag: Node::Roof(rider.roof), shape, times: times(&dead, |psf| psf.0) });
        }
        burdens
    }

    /// Keeps each rafter of a pair for who asks: on its own supports and the ridge, where it leans on the one opposite or on a
    /// beam. A change of slope, and a rafter cut by a valley, are not followed.
    fn watch(&mut self, rafter: &Rafter<'_>, burdens: &[Burden]) {
        let Rafter { facet, length, bar, .. } = rafter;
        let trusses = matches!(self.roof.frame, RoofFrame::Trusses { .. });
        let cut = |seat: &Seat| self.ribs.is_valley(seat.on) || self.ribs.is_header(seat.on);
        if trusses || !facet.section.breaks.is_empty() || bar.seats.iter().any(cut) {
            return;
        }
        let ridge = facet.section.ridge.filter(|at| *at > length.from + AT_END && *at < length.to - AT_END);
        let sides = match ridge {
            Some(at) => [Some((bar.from, at)), Some((at, bar.to))],
            None => [Some((bar.from, bar.to)), None],
        };
        let rise = facet.section.parts().first().map_or(0.0, |it| it.2);
        for (from, to) in sides.into_iter().flatten() {
            let within = |seat: &&Seat| seat.at > from - EPS && seat.at < to + EPS && seat.on != Bearer::Arch;
            let purlins = &self.here.level.purlins;
            let on = |seat: &Seat| match seat.on {
                Bearer::Rib(i) => {
                    let purlin = self.ribs.all.get(i).and_then(|rib| purlins.get(rib.purlin?));
                    purlin.map_or(Node::Gap, |it| Node::Purlin(it.id))
                }
                on => self.here.node(on),
            };
            let mut seats: Vec<(Feet, Node)> =
                bar.seats.iter().filter(within).map(|seat| (Feet(seat.at - from), on(seat))).collect();
            if let Some(at) = ridge.filter(|at| seats.iter().all(|it| (it.0.0 + from - at).abs() > UNDER_RIDGE)) {
                let head = (Feet(at - from), self.node);
                if at - from > EPS { seats.push(head) } else { seats.insert(0, head) }
            }
            let moved = |load: Load| match load {
                Load::Point { at, weight } => Load::Point { at: at - Feet(from), weight },
                Load::Spread { from: a, to: b, start, end } => {
                    Load::Spread { from: a - Feet(from), to: b - Feet(from), start, end }
                }
            };
            let loads = burdens.iter().flat_map(|it| it.shape.iter().map(|load| (load, it.times)));
            let loads = loads.filter_map(|(load, times)| Some((moved(part(load, from, to, true)?), times))).collect();
            let spot = |at: f64| facet.frame.spot(Feet(at), Feet(length.s));
            let carried = Carried {
                level: self.here.level.id,
                of: self.node,
                laid_as: Some(rafter.laid_as),
                a: spot(from),
                b: spot(to),
                rests: seats.len() > 1,
                seats,
                loads,
                slope: slope_factor(rise),
            };
            self.here.carried.iter_mut().for_each(|all| all.push(carried.clone()));
        }
    }

    /// Hands a solved rafter's reactions to what it stands on.
    fn give(&mut self, rafter: &Rafter<'_>, places: &Places, mut outcome: Outcome, burdens: &[Burden]) {
        let Rafter { facet, length, bar, .. } = rafter;
        let spot = |at: f64| facet.frame.spot(Feet(at), Feet(length.s));
        for burden in burdens.iter().filter(|burden| burden.tag != self.node) {
            let area: f64 = burden.shape.iter().map(|load| load.total().0).sum();
            self.here.link(burden.tag, None, self.node, burden.times.map(|psf| Pounds(psf * area)));
        }
        let mut shares: Vec<Weights> = vec![Weights::default(); bar.seats.len()];
        if !outcome.lost.is_empty()
            && (bar.to - bar.from <= TAIL || outcome.lost_weight().is_sliver())
            && let Some(nearest) = nearest_to(&bar.seats, (bar.from + bar.to) / 2.0)
            && let Some(share) = shares.get_mut(nearest)
        {
            *share += outcome.lost_weight();
            outcome.lost.clear();
        }
        for delivery in &outcome.deliveries {
            if let Place::Seat(seat) = delivery.place
                && let Some(share) = shares.get_mut(seat)
            {
                *share += delivery.weights;
            }
        }
        let mut lost = outcome.lost_weight();
        let arch = rafter.arch.and_then(|it| shares.get_mut(it)).map(core::mem::take);
        if let Some(weights) = arch {
            lost += self.lean(rafter, weights, &mut shares);
        }
        let any = lost != Weights::default();
        if any && lost.is_sliver() {
            self.slivers.push((core::mem::take(&mut lost), spot((bar.from + bar.to) / 2.0)));
        }
        let stands = |seat: &&Seat| !matches!(seat.on, Bearer::Arch | Bearer::Apex(_) | Bearer::Rib(_));
        self.stands.extend(bar.seats.iter().filter(stands).map(|seat| (seat.on, seat.along, spot(seat.at))));
        if lost.all().0.abs() > 0.0 {
            self.unsupported.0 += 1;
            self.unsupported.1 += lost;
            self.unsupported.2.get_or_insert(spot((bar.from + bar.to) / 2.0));
            self.here.lose(self.node, None, lost);
        }
        self.push_out(rafter, arch);
        self.trace.span = self.trace.span.max(Feet(span(&bar.seats, rafter.arch)));
        self.here.members.push(Laid {
            level: self.here.level.id,
            of: self.node,
            laid_as: rafter.laid_as,
            a: spot(bar.from),
            b: spot(bar.to),
            bears: bar.seats.iter().filter(|seat| seat.on != Bearer::Arch).map(|seat| spot(seat.at)).collect(),
            laps: Vec::new(),
            longest_span: Feet(outcome.longest_span),
        });
        let widths = widths(rafter);
        for (number, weights) in shares.into_iter().enumerate() {
            let (Some(seat), Some((behind, ahead))) = (bar.seats.get(number), widths.get(number)) else { continue };
            if seat.on == Bearer::Arch || (weights.all().0.abs() < 1e-12 && behind + ahead < 1e-9) {
                continue;
            }
            let seats = if places.eaves.turn(seat.on).is_some() { &places.eaves } else { &places.up };
            let seats = if seats.turn(seat.on).is_some() { seats } else { &places.inside };
            let run = seats.strip_on(seat.on, length.across).unwrap_or((seat.along, seat.along));
            self.put_run(seat.on, run, weights);
            let Some((square, left_ahead)) = seats.turn(seat.on) else { continue };
            let (left, right) = if left_ahead { (*ahead, *behind) } else { (*behind, *ahead) };
            let sample = Sample {
                from: self.node,
                origin: Origin::Roof,
                start: run.0,
                end: run.1,
                left: left * square,
                right: right * square,
                reaction: weights.all().0 / self.psf_at(self.roof.rise.inches() / 12.0).all().0.max(1e-9),
                through: None,
            };
            let reason = match seat.on {
                Bearer::WallAbove(_) => Reason::RaftersLeanOn { roof: self.roof.id },
                Bearer::Wall(_) if places.up.turn(seat.on).is_some() => Reason::RaftersLeanOn { roof: self.roof.id },
                _ => Reason::RoofStandsOn { roof: self.roof.id },
            };
            self.note(seat.on, sample, reason);
        }
    }

    /// Rafters that lean on each other: what comes together goes to their feet by the lever rule. Gives back what has none.
    fn lean(&self, rafter: &Rafter<'_>, weights: Weights, shares: &mut [Weights]) -> Weights {
        let seats = &rafter.bar.seats;
        let at = |number: usize| seats.get(number).map(|seat| seat.at);
        let Some((before, after)) = rafter.feet else { return weights };
        let (Some(a), Some(b), Some(ridge)) = (at(before), at(after), rafter.arch.and_then(at)) else { return weights };
        let share = (ridge - a) / (b - a);
        if let Some(foot) = shares.get_mut(before) {
            *foot += weights * (1.0 - share);
        }
        if let Some(foot) = shares.get_mut(after) {
            *foot += weights * share;
        }
        Weights::default()
    }

    /// How far a pair pushes its feet apart: moment at the ridge over the height of the ridge above them.
    ///
    /// Free body of one rafter of a pair with nothing between: `P = (wa a + wb b) / 2` comes together at the ridge, its
    /// lever share `P b / L` goes up at foot `a`, and moments about the ridge give `H = P a b / (L h)`. Overhangs, which
    /// would relieve it, are left out. With purlins or low walls between, P is what they leave for the ridge. A pair that a
    /// valley cuts pushes on the valley, against the rafters of the other roof there, and what is left goes down its
    /// length to the corner: no tie of its own. One that a header cuts pushes on the header, and that on the trimmers.
    fn push_out(&mut self, rafter: &Rafter<'_>, arch: Option<Weights>) {
        let leans = matches!(self.roof.frame, RoofFrame::RidgeBoard | RoofFrame::NotSeen) && self.roof.form.has_ridge();
        let Rafter { facet, length, bar, .. } = rafter;
        let Some(ridge) = facet.section.ridge.filter(|at| leans && *at > length.from && *at < length.to) else {
            return;
        };
        let on_a_ridge = |seat: &Seat| seat.on != Bearer::Arch && (seat.at - ridge).abs() < UNDER_RIDGE;
        let cut = |seat: &Seat| self.ribs.is_valley(seat.on) || self.ribs.is_header(seat.on);
        if bar.seats.iter().any(|seat| on_a_ridge(seat) || cut(seat)) {
            return;
        }
        let feet = rafter.feet.or_else(|| bar.seats.len().checked_sub(1).map(|last| (0, last)));
        let at = |number: usize| bar.seats.get(number).map(|seat| seat.at);
        let Some((Some(low), Some(high))) = feet.map(|(a, b)| (at(a), at(b))) else { return };
        let (a, b) = (ridge - low, high - ridge);
        let down = |t: f64| facet.section.height(t).max(0.0);
        let height = facet.section.height(ridge) - down(low).max(down(high));
        if a <= 0.0 || b <= 0.0 || height <= 0.0 {
            return;
        }
        let strip = length.across.1 - length.across.0;
        let together: LineLoads = match arch {
            Some(weights) => weights.map(|pounds| Plf(pounds.0 / strip)),
            None => {
                // What a rafter brings to the ridge: moments about its foot, slope by slope.
                let side = |foot: f64| {
                    let (from, to) = (foot.min(ridge), foot.max(ridge));
                    let parts = facet.section.parts().into_iter().filter_map(|(start, end, rise)| {
                        let (start, end) = (start.max(from), end.min(to));
                        let lever = ((start + end) / 2.0 - foot).abs() / (to - from);
                        (end > start).then(|| self.psf_at(rise) * Feet((end - start) * lever))
                    });
                    parts.fold(LineLoads::default(), |sum, part| sum + part)
                };
                side(low) + side(high)
            }
        };
        let thrust = together * (a * b / ((a + b) * height));
        // Of pairs that push alike in all, the one with the more dead load: it never goes.
        let (most, more) = (self.trace.thrust.all().0, thrust.all().0 - self.trace.thrust.all().0);
        let alike = more.abs() <= 1e-9 * most;
        if (alike && thrust.dead > self.trace.thrust.dead) || (!alike && more > 0.0) {
            self.trace.thrust = thrust;
        }
        let place = facet.frame.spot(Feet(ridge), Feet(length.s));
        if !self.tied_at(place) {
            self.untied.0 += 1;
            self.untied.1.get_or_insert(place);
        }
    }
}

/// Tight inside walls of a level that are near a facet, at the height of the plate.
fn inside_walls(around: &Around<'_>, facet: &Facet, within: &Extent, wanted: impl Fn(&Wall) -> bool) -> Seats {
    let mut seats = Seats::none();
    for (i, wall) in around.walls(within) {
        if wall.side == Side::Inside && wall.top == Top::Tight && wanted(wall) {
            let reach = wall.thickness.feet().0 / 2.0;
            seats.add(&facet.frame, Bearer::Wall(i), (wall.a.into(), wall.b.into()), reach, Meet::ByJoints);
        }
    }
    seats.by_place()
}

/// Whether one seat is nearer than another; of two as near, the first by its bearer.
fn nearer(one: &Seat, other: &Seat, off: impl Fn(&Seat) -> f64) -> bool {
    let (one_off, other_off) = (off(one), off(other));
    one_off < other_off - EPS || (one_off < other_off + EPS && one.on < other.on)
}

fn nearest_to(seats: &[Seat], at: f64) -> Option<usize> {
    let off = |seat: &Seat| (seat.at - at).abs();
    seats.iter().enumerate().reduce(|a, b| if nearer(b.1, a.1, off) { b } else { a }).map(|it| it.0)
}

/// The longest distance between feet; a ridge where rafters lean on each other is none.
fn span(seats: &[Seat], arch: Option<usize>) -> f64 {
    let held = seats.iter().enumerate().filter(|(i, _)| Some(*i) != arch).map(|(_, seat)| seat.at);
    let held: Vec<f64> = held.collect();
    held.windows(2).map(|pair| if let [a, b] = pair { b - a } else { 0.0 }).fold(0.0, f64::max)
}

/// Of each seat half of the span (or all of the overhang) behind and ahead of it; what comes together at a ridge is
/// shared by the feet, on the side where the ridge is.
fn widths(rafter: &Rafter<'_>) -> Vec<(f64, f64)> {
    let Rafter { bar, arch, feet, .. } = rafter;
    let at = |number: usize| bar.seats.get(number).map(|seat| seat.at);
    let mut widths: Vec<(f64, f64)> = bar
        .seats
        .iter()
        .enumerate()
        .map(|(i, seat)| {
            let before = i.checked_sub(1).and_then(at);
            let after = at(i + 1);
            (
                before.map_or(seat.at - bar.from, |it| (seat.at - it) / 2.0),
                after.map_or(bar.to - seat.at, |it| (it - seat.at) / 2.0),
            )
        })
        .collect();
    if let (Some(ridge), Some((before, after))) = (*arch, *feet)
        && let (Some(together), Some(a), Some(b), Some(r)) =
            (widths.get(ridge).copied(), at(before), at(after), at(ridge))
    {
        let (whole, share) = (together.0 + together.1, (r - a) / (b - a));
        if let Some(foot) = widths.get_mut(before) {
            foot.1 += whole * (1.0 - share);
        }
        if let Some(foot) = widths.get_mut(after) {
            foot.0 += whole * share;
        }
    }
    widths
}
