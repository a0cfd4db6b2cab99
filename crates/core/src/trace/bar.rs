//! A straight member, what it rests on, and who gets what of the loads on it.
//!
//! It may cross seats (walls, beams, posts) and lie along beds (a wall or beam right under it). Joists, rafters and beams
//! are all solved here; which house they are in is not known.

use super::Node;
use super::strips::EPS;
use crate::loads::{ByKind, Kind, Weights};
use crate::plan::Joints;
use crate::statics::{Load, Piece};
use crate::units::{Feet, Plf, Pounds};

/// What can take a load on one level, by its place in the level's list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Bearer {
    Post(usize),
    Beam(usize),
    Wall(usize),
    Header(usize),
    /// A hip, a ridge beam or a purlin of the roof in work.
    Rib(usize),
    /// An end of the ridge of the roof in work, where hips meet.
    Apex(usize),
    /// The rafter opposite, at a ridge board.
    Arch,
    /// A wall of the level above that stands up to the roof in work.
    WallAbove(usize),
    /// A post of the level above, likewise.
    PostAbove(usize),
}

/// A place that a member crosses and bears on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seat {
    pub(super) at: f64,
    pub(super) on: Bearer,
    /// Along the bearer, from its end `a`.
    pub(super) along: f64,
    pub(super) meet: Meet,
}

/// Whether members end at a seat between their ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Meet {
    /// As their joints say.
    ByJoints,
    /// Whatever their joints say: they hang on its face, or were seen to lap over it.
    Always,
    /// Whatever their joints say: a post put under one member, or a wall they were seen to run over.
    Never,
}

/// A run over which a member lies along a bearer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bed {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) on: Bearer,
    /// Place along the bearer, from its end `a`, of the member's `from` and `to`.
    pub(super) along: (f64, f64),
}

impl Bed {
    fn holds(&self, at: f64) -> bool {
        at >= self.from - EPS && at <= self.to + EPS
    }

    pub(super) fn along_at(&self, at: f64) -> f64 {
        let run = self.to - self.from;
        let share = if run > EPS { (at - self.from) / run } else { 0.0 };
        self.along.0 + (self.along.1 - self.along.0) * share
    }
}

/// Loads of one source: a shape for one unit, and how many units there are of each kind.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Burden {
    pub(super) tag: Node,
    pub(super) shape: Vec<Load>,
    pub(super) times: ByKind<f64>,
}

impl Burden {
    /// All of it, whatever its kind and way.
    pub(super) fn pounds(&self) -> f64 {
        let units: f64 = self.shape.iter().map(|load| load.total().0).sum();
        Kind::ALL.iter().map(|kind| (units * self.times.get(*kind)).abs()).sum()
    }
}

/// A member with its supports.
#[derive(Clone, Debug)]
pub(super) struct Bar {
    pub(super) from: f64,
    pub(super) to: f64,
    /// In order.
    pub(super) seats: Vec<Seat>,
    /// In order, not over each other.
    pub(super) beds: Vec<Bed>,
    pub(super) joints: Joints,
}

/// What one bearer gets of one source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Delivery {
    pub(super) tag: Node,
    pub(super) on: Bearer,
    /// A seat: its number. A bed: its number and the run along the member.
    pub(super) place: Place,
    pub(super) weights: Weights,
}

/// Where a delivery is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Place {
    Seat(usize),
    Bed { bed: usize, from: f64, to: f64 },
}

/// One piece of a member, from lap to lap or end to end: what it crosses and what lies on it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Borne {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) holds: Vec<(f64, Bearer)>,
    /// Shapes for one unit, with how many units of each kind there are.
    pub(super) loads: Vec<(Load, ByKind<f64>)>,
    /// Whether it rests; one that tips or hangs on nothing does not.
    pub(super) rests: bool,
}

/// Who gets what, and what is lost.
#[derive(Clone, Debug, Default)]
pub(super) struct Outcome {
    pub(super) deliveries: Vec<Delivery>,
    /// Loads of pieces with no path: fewer than two supports, or tipping.
    pub(super) lost: Vec<(Node, Weights)>,
    /// The longest distance between neighbouring supports of one piece.
    pub(super) longest_span: f64,
    /// Seats at which members meet.
    pub(super) laps: Vec<usize>,
    /// Its pieces with their loads, if somebody asked for them.
    pub(super) borne: Option<Vec<Borne>>,
}

impl Outcome {
    pub(super) fn lost_weight(&self) -> Weights {
        self.lost.iter().fold(Weights::default(), |sum, (_, weights)| sum + *weights)
    }
}

impl Outcome {
    /// Takes what is lost to the seat of the member that is nearest to its middle, else along its bed; gives it back where it
    /// has neither.
    pub(super) fn slivers(&mut self, bar: &Bar) -> Vec<(Node, Weights)> {
        let lost = core::mem::take(&mut self.lost);
        let off = |seat: &Seat| (seat.at - (bar.from + bar.to) / 2.0).abs();
        let nearer = |a: (usize, &Seat), b: (usize, &Seat)| {
            let by = off(b.1) - off(a.1);
            by < -EPS || (by < EPS && b.1.on < a.1.on)
        };
        let seat = bar.seats.iter().enumerate().reduce(|a, b| if nearer(a, b) { b } else { a });
        let seat = seat.map(|(number, seat)| (seat.on, Place::Seat(number)));
        let bed = bar.beds.iter().enumerate().min_by_key(|(_, bed)| bed.on);
        let bed = bed.map(|(bed, it)| (it.on, Place::Bed { bed, from: it.from, to: it.to }));
        let Some((on, place)) = seat.or(bed) else { return lost };
        self.deliveries.extend(lost.into_iter().map(|(tag, weights)| Delivery { tag, on, place, weights }));
        Vec::new()
    }
}

/// What holds up a piece at one of its supports.
#[derive(Clone, Copy)]
enum Hold {
    Seat(usize),
    /// The near (false) or far end of a bed.
    Bed(usize, f64),
}

impl Bar {
    /// Solves the member under all its loads together, then hands out each source by kind on the contact found.
    pub(super) fn solve(&self, burdens: &[Burden]) -> Outcome {
        let deliveries = Vec::with_capacity(burdens.len() * (2 * self.seats.len() + self.beds.len()));
        self.solved(burdens, Outcome { deliveries, ..Outcome::default() })
    }

    /// The pieces of the member with what lies on each.
    pub(super) fn pieces(&self, burdens: &[Burden]) -> Vec<Borne> {
        self.solved(burdens, Outcome { borne: Some(Vec::new()), ..Outcome::default() }).borne.unwrap_or_default()
    }

    fn solved(&self, burdens: &[Burden], mut outcome: Outcome) -> Outcome {
        for (number, bed) in self.beds.iter().enumerate() {
            for burden in burdens {
                let shape = burden.shape.iter().filter(|load| self.takes(number, load));
                for load in shape.filter_map(|load| part(load, bed.from, bed.to, true)) {
                    let (from, to) = reach(&load);
                    outcome.deliveries.push(Delivery {
                        tag: burden.tag,
                        on: bed.on,
                        place: Place::Bed { bed: number, from, to },
                        weights: burden.times.map(|times| load.total() * times),
                    });
                }
            }
        }
        let mut from = self.from;
        let mut first = None;
        for (number, bed) in self.beds.iter().enumerate() {
            self.run((from, bed.from), (first, Some(Hold::Bed(number, bed.from))), burdens, &mut outcome);
            from = bed.to;
            first = Some(Hold::Bed(number, bed.to));
        }
        self.run((from, self.to), (first, None), burdens, &mut outcome);
        outcome
    }

    /// Where one bed ends and the next begins, a weight stands on one of them: the first by its bearer, so that it is
    /// the same one whichever way the member is read.
    fn takes(&self, number: usize, load: &Load) -> bool {
        let Load::Point { at, .. } = *load else { return true };
        let under = self.beds.iter().enumerate().filter(|(_, bed)| bed.holds(at.0));
        under.min_by_key(|(_, bed)| bed.on).is_none_or(|(first, _)| first == number)
    }

    /// One run between beds or ends, cut at its laps.
    fn run(&self, run: (f64, f64), ends: (Option<Hold>, Option<Hold>), burdens: &[Burden], outcome: &mut Outcome) {
        let (from, to) = run;
        if to - from < EPS {
            return;
        }
        let mut holds: Vec<(f64, Hold)> = Vec::with_capacity(4);
        holds.extend(ends.0.map(|hold| (from, hold)));
        for (number, seat) in self.seats.iter().enumerate() {
            let clear = |end: Option<Hold>, at: f64| end.is_none() || (seat.at - at).abs() > 0.1 + EPS;
            if seat.at >= from - EPS && seat.at <= to + EPS && clear(ends.0, from) && clear(ends.1, to) {
                holds.push((seat.at.clamp(from, to), Hold::Seat(number)));
            }
        }
        holds.extend(ends.1.map(|hold| (to, hold)));
        let count = holds.len();
        let mut start = 0;
        let mut begin = (from, true);
        for (i, (at, hold)) in holds.iter().enumerate() {
            let inner = i > 0 && i + 1 < count;
            let cut = match hold {
                Hold::Seat(number) => {
                    let meet = self.seats.get(*number).map_or(Meet::ByJoints, |seat| seat.meet);
                    let by_joints = meet == Meet::ByJoints && self.joints != Joints::RunThrough;
                    inner && (meet == Meet::Always || by_joints)
                }
                Hold::Bed(..) => false,
            };
            if cut {
                if let Hold::Seat(number) = hold {
                    outcome.laps.push(*number);
                    self.over_lap(*number, burdens, outcome);
                }
                self.piece((begin, (*at, false)), holds.get(start..=i).unwrap_or_default(), burdens, outcome);
                start = i;
                begin = (*at, false);
            }
        }
        // A bed at the end has taken the point loads on it already.
        self.piece((begin, (to, ends.1.is_none())), holds.get(start..).unwrap_or_default(), burdens, outcome);
    }

    /// A weight right over a lap stands on the seat, whatever becomes of the two pieces that meet there.
    fn over_lap(&self, number: usize, burdens: &[Burden], outcome: &mut Outcome) {
        let Some(seat) = self.seats.get(number) else { return };
        for burden in burdens {
            let here = |load: &&Load| matches!(load, Load::Point { at, .. } if (at.0 - seat.at).abs() <= EPS);
            for load in burden.shape.iter().filter(here) {
                let weights = burden.times.map(|times| load.total() * times);
                let place = Place::Seat(number);
                outcome.deliveries.push(Delivery { tag: burden.tag, on: seat.on, place, weights });
            }
        }
    }

    /// One piece: from, to, and at each of them whether a point load right there is its own.
    fn piece(
        &self,
        piece: ((f64, bool), (f64, bool)),
        holds: &[(f64, Hold)],
        burdens: &[Burden],
        outcome: &mut Outcome,
    ) {
        let ((from, open), (to, closed)) = piece;
        if to - from < EPS && holds.len() < 2 {
            return;
        }
        // The loads of all burdens, one burden after the other, as they are and for all kinds together.
        let mut all: Vec<Load> = Vec::with_capacity(burdens.len());
        let mut together: Vec<Load> = Vec::with_capacity(burdens.len());
        let mut parts: Vec<(&Burden, core::ops::Range<usize>)> = Vec::with_capacity(burdens.len());
        for burden in burdens {
            let first = all.len();
            let loads = burden.shape.iter().filter_map(|load| part(load, from, to, closed));
            let loads = loads.filter(|load| open || !matches!(load, Load::Point { at, .. } if at.0 <= from + EPS));
            // What begins right at the end of a bed stands on the bed.
            let bedded = |at: f64| self.beds.iter().any(|bed| bed.holds(at));
            all.extend(loads.filter(|load| !matches!(load, Load::Point { at, .. } if bedded(at.0))));
            let times = burden.times.all();
            together.extend(all.iter().skip(first).map(|load| scaled(load, times)));
            if all.len() > first {
                parts.push((burden, first..all.len()));
            }
        }
        let loads_of = |range: &core::ops::Range<usize>| all.get(range.clone()).unwrap_or_default();
        for pair in holds.windows(2) {
            if let [a, b] = pair {
                outcome.longest_span = outcome.longest_span.max(b.0 - a.0);
            }
        }
        if parts.is_empty() {
            return;
        }
        let at: Vec<Feet> = holds.iter().map(|(at, _)| Feet(*at)).collect();
        let piece = Piece::new(Feet(from), Feet(to), &at);
        // A bed as long as what goes on past it holds it down.
        let bed = holds.iter().find_map(|(_, hold)| match hold {
            Hold::Bed(number, end) => self.beds.get(*number).map(|bed| (*number, *end, bed)),
            Hold::Seat(_) => None,
        });
        let bed = bed.filter(|(.., bed)| bed.to - bed.from >= to - from - EPS);
        let settled = piece.settle(&together).ok().or_else(|| bed.and_then(|_| piece.held()));
        if let Some(borne) = &mut outcome.borne {
            let on = |hold: &Hold| match hold {
                Hold::Seat(number) => self.seats.get(*number).map(|seat| seat.on),
                Hold::Bed(number, _) => self.beds.get(*number).map(|bed| bed.on),
            };
            let loads =
                parts.iter().flat_map(|(burden, range)| loads_of(range).iter().map(|load| (*load, burden.times)));
            borne.push(Borne {
                from,
                to,
                holds: holds.iter().filter_map(|(at, hold)| Some((*at, on(hold)?))).collect(),
                loads: loads.collect(),
                rests: settled.is_some() || bed.is_some(),
            });
        }
        let Some(contact) = settled else {
            if let Some((number, end, bed)) = bed {
                let place = Place::Bed { bed: number, from: end, to: end };
                outcome.deliveries.extend(parts.iter().map(|(burden, loads)| {
                    let total: Pounds = loads_of(loads).iter().map(Load::total).sum();
                    Delivery { tag: burden.tag, on: bed.on, place, weights: burden.times.map(|times| total * times) }
                }));
                return;
            }
            for (burden, loads) in &parts {
                let total: Pounds = loads_of(loads).iter().map(Load::total).sum();
                outcome.lost.push((burden.tag, burden.times.map(|times| total * times)));
            }
            return;
        };
        let mut shares: Vec<(usize, Node, Weights)> = Vec::with_capacity(holds.len());
        let mut whole = 0.0;
        for (burden, loads) in &parts {
            let loads = loads_of(loads);
            whole += burden.times.all().abs() * loads.iter().map(|load| load.total().0.abs()).sum::<f64>();
            for (hold, reaction) in contact.reactions(loads).into_iter().enumerate() {
                let weights = burden.times.map(|times| reaction * times);
                match shares.iter_mut().find(|it| (it.0, it.1) == (hold, burden.tag)) {
                    Some(share) => share.2 += weights,
                    None => shares.push((hold, burden.tag, weights)),
                }
            }
        }
        // Under a part in 1e12 a share is rounding: a weight right over one seat brings nothing to the next.
        let counts = |weights: &Weights| Kind::ALL.iter().any(|kind| weights.get(*kind).0.abs() > 1e-12 * whole);
        for (hold, tag, weights) in shares.into_iter().filter(|share| counts(&share.2)) {
            let (on, place) = match holds.get(hold).map(|it| it.1) {
                Some(Hold::Seat(number)) => {
                    let Some(seat) = self.seats.get(number) else { continue };
                    (seat.on, Place::Seat(number))
                }
                Some(Hold::Bed(number, at)) => {
                    let Some(bed) = self.beds.get(number) else { continue };
                    (bed.on, Place::Bed { bed: number, from: at, to: at })
                }
                None => continue,
            };
            outcome.deliveries.push(Delivery { tag, on, place, weights });
        }
    }
}

/// The part of a load within a run; a point load at the far end only if the run is closed there.
pub(crate) fn part(load: &Load, from: f64, to: f64, closed: bool) -> Option<Load> {
    match *load {
        Load::Point { at, .. } => {
            let past = if closed { at.0 > to + EPS } else { at.0 >= to - EPS };
            (at.0 >= from - EPS && !past).then_some(*load)
        }
        Load::Spread { from: a, to: b, start, end } => {
            let (lo, hi) = (a.0.max(from), b.0.min(to));
            if hi - lo < 1e-12 {
                return None;
            }
            if a.0 >= from && b.0 <= to {
                return Some(*load);
            }
            let value = |x: f64| start.0 + (end.0 - start.0) * ((x - a.0) / (b.0 - a.0));
            Some(Load::Spread { from: Feet(lo), to: Feet(hi), start: Plf(value(lo)), end: Plf(value(hi)) })
        }
    }
}

fn reach(load: &Load) -> (f64, f64) {
    match *load {
        Load::Point { at, .. } => (at.0, at.0),
        Load::Spread { from, to, .. } => (from.0, to.0),
    }
}

fn scaled(load: &Load, times: f64) -> Load {
    match *load {
        Load::Point { at, weight } => Load::Point { at, weight: weight * times },
        Load::Spread { from, to, start, end } => Load::Spread { from, to, start: start * times, end: end * times },
    }
}

/// Numbers of pounds (or psf, or plf) of each kind, as multiples of one unit.
pub(super) fn times<T: Copy>(of: &ByKind<T>, number: impl Fn(T) -> f64) -> ByKind<f64> {
    let mut all = ByKind::default();
    for kind in Kind::ALL {
        *all.get_mut(kind) = number(of.get(kind));
    }
    all
}
