//! The part of a load over a stretch of one piece: total, middle, and the moments the integrals need.

use super::{Load, TOUCH};
use crate::units::{Feet, Plf, Pounds};

/// How far one piece reaches, and which weights stand on it, ft.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Reach {
    pub(super) from: f64,
    pub(super) to: f64,
    /// Weights at or past this one stand on the piece,
    bears_from: f64,
    /// and short of this one.
    bears_to: f64,
}

impl Reach {
    /// A whole member: a weight within [`TOUCH`] of an end stands at that end.
    pub(super) fn new(from: f64, to: f64) -> Self {
        Self { from, to, bears_from: from - TOUCH.0, bears_to: to + TOUCH.0 }
    }

    /// The same between laps: a weight exactly over a lap belongs to the piece on its right.
    pub(super) fn cut_at(self, left_is_lap: bool, right_is_lap: bool) -> Self {
        Self {
            bears_from: if left_is_lap { self.from } else { self.bears_from },
            bears_to: if right_is_lap { self.to } else { self.bears_to },
            ..self
        }
    }

    /// What of `loads` lies on this piece from `from` to `to`; a weight at `to` itself does not.
    pub(super) fn lumps(self, loads: &[Load], from: f64, to: f64) -> impl Iterator<Item = Lump> {
        loads.iter().filter_map(move |load| self.lump(load, from, to))
    }

    /// All of `loads` that lies on this piece.
    pub(super) fn all(self, loads: &[Load]) -> impl Iterator<Item = Lump> {
        self.lumps(loads, f64::NEG_INFINITY, f64::INFINITY)
    }

    /// With q = mean + tilt (x - mid): weight = 2 half mean, skew = 2 half^3 tilt / 3.
    fn lump(self, load: &Load, from: f64, to: f64) -> Option<Lump> {
        match *load {
            Load::Point { at: Feet(at), weight: Pounds(weight) } => {
                let mid = at.max(self.from).min(self.to);
                let bears = self.bears_from <= at && at < self.bears_to && from <= mid && mid < to;
                bears.then_some(Lump { mid, half: 0.0, weight, skew: 0.0 })
            }
            Load::Spread { .. } => {
                let line = Line::of(load)?;
                let (left, right) = (line.from.max(from).max(self.from), line.to.min(to).min(self.to));
                let (mid, half) = ((left + right) / 2.0, (right - left) / 2.0);
                let weight = 2.0 * half * line.at(mid);
                let skew = 2.0 * half * half * half * line.tilt() / 3.0;
                (half > 0.0).then_some(Lump { mid, half, weight, skew })
            }
        }
    }
}

/// A load, or part of one, seen from its own middle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lump {
    /// Middle of the stretch it covers, ft.
    pub(super) mid: f64,
    /// Half the length of that stretch, ft; nothing for a weight at one place.
    pub(super) half: f64,
    /// Total, lb.
    pub(super) weight: f64,
    /// First moment about `mid`, lb-ft: positive for a load heavier to the right.
    skew: f64,
}

impl Lump {
    /// First moment about `place`, lb-ft: positive when the load lies to the right of it.
    pub(super) fn moment_about(&self, place: f64) -> f64 {
        self.weight * (self.mid - place) + self.skew
    }

    /// Integral of q u^3 with u measured from `place`, lb-ft^3.
    ///
    /// With u = m + t it is the integral of (mean + tilt t)(m + t)^3 over t from -half to half.
    pub(super) fn cube_about(&self, place: f64) -> f64 {
        let (m, squared) = (self.mid - place, self.half * self.half);
        self.weight * m * (m * m + squared) + self.skew * 3.0 * (m * m + squared / 5.0)
    }
}

/// A line load, left end first.
#[derive(Clone, Copy, Debug)]
pub(super) struct Line {
    pub(super) from: f64,
    pub(super) to: f64,
    start: f64,
    end: f64,
}

impl Line {
    /// `None` for a weight at one place, and for a line load of no length.
    pub(super) fn of(load: &Load) -> Option<Self> {
        let Load::Spread { from: Feet(from), to: Feet(to), start: Plf(start), end: Plf(end) } = *load else {
            return None;
        };
        if from < to {
            Some(Self { from, to, start, end })
        } else {
            (to < from).then_some(Self { from: to, to: from, start: end, end: start })
        }
    }

    /// Plf gained in a foot.
    pub(super) fn tilt(self) -> f64 {
        (self.end - self.start) / (self.to - self.from)
    }

    /// Plf at `place`.
    pub(super) fn at(self, place: f64) -> f64 {
        (self.start + self.end) / 2.0 + self.tilt() * (place - (self.from + self.to) / 2.0)
    }
}
