//! How a member bends: the greatest moment, shear and deflection, found where they are and not by sampling.
//!
//! Between two places where something changes, the load is a straight line, so the shear is of the second degree, the
//! moment of the third, the slope of the fourth and the deflection of the fifth: the walk keeps these per segment. A
//! greatest value lies at an end of a segment or where the next lower one passes through nothing.

use serde::{Deserialize, Serialize};

use super::Load;
use super::lump::{Line, Reach};
use super::roots::{Polynomial, quadratic};
use super::three_moments::Start;
use crate::order::InOrder as _;
use crate::units::{Feet, FootPounds, Inches, InchesToTheFourth, Pounds, Psi};

/// A greatest value and where along the member it first stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Extreme<T> {
    /// How much.
    pub value: T,
    /// Where.
    pub at: Feet,
}

/// Which side of a place a shear is taken on: over a support and under a weight it jumps.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub enum Side {
    /// Just left of it.
    Left,
    /// Just right of it.
    #[default]
    Right,
}

/// The greatest shear, without its sign.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Shear {
    /// How much.
    pub value: Pounds,
    /// Where.
    pub at: Feet,
    /// On which side of it.
    pub side: Side,
}

/// The greatest values over a stretch of a member; where nothing of the kind happens, nothing at its left end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Extremes {
    /// Greatest sagging moment, never negative: the lower face in tension.
    pub sagging: Extreme<FootPounds>,
    /// Greatest hogging moment, never positive: the upper face in tension.
    pub hogging: Extreme<FootPounds>,
    /// Greatest shear.
    pub shear: Shear,
    /// Greatest sinking below the supports, never negative.
    pub down: Extreme<Inches>,
    /// Greatest rising above the supports, never negative.
    pub up: Extreme<Inches>,
}

/// Whether both ends of a stretch have a support under them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum StretchKind {
    /// From support to support, whether they press or not.
    Span,
    /// Past the outermost support.
    Overhang,
}

/// One span or overhang.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Stretch {
    /// Span or overhang.
    pub kind: StretchKind,
    /// Its left end.
    pub from: Feet,
    /// Its right end.
    pub to: Feet,
    /// The greatest values within it.
    pub extremes: Extremes,
}

/// How one piece bends.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Response {
    /// Over the whole piece.
    pub overall: Extremes,
    /// Each span and overhang, from the left.
    pub stretches: Vec<Stretch>,
}

/// A stretch over which the load is one straight line; everything at its left end, in pounds and feet, times EI where
/// it is a slope or a height. With t from the left end:
/// V = shear - load t - tilt t^2 / 2, M' = V, EI slope' = M, EI height' = EI slope.
#[derive(Clone, Copy, Debug, Default)]
struct Segment {
    from: f64,
    length: f64,
    load: f64,
    tilt: f64,
    shear: f64,
    moment: f64,
    slope: f64,
    height: f64,
}

impl Segment {
    fn shear_at(&self) -> Polynomial {
        Polynomial([self.shear, -self.load, -self.tilt / 2.0, 0.0, 0.0, 0.0])
    }

    fn moment_at(&self) -> Polynomial {
        self.shear_at().integral(self.moment)
    }

    fn slope_at(&self) -> Polynomial {
        self.moment_at().integral(self.slope)
    }

    fn height_at(&self) -> Polynomial {
        self.slope_at().integral(self.height)
    }

    /// Adds `load` where it lies on this segment: a line load to the line, a weight at the left end to the shear.
    fn take_on(&mut self, load: &Load, reach: Reach) {
        // Lines begin and end between segments, so the middle decides; the right end, summed, may round past a line's.
        let middle = self.from + self.length / 2.0;
        if let Some(line) = Line::of(load) {
            if line.from <= middle && middle <= line.to {
                self.load += line.at(self.from);
                self.tilt += line.tilt();
            }
        } else {
            for lump in reach.lumps(std::slice::from_ref(load), self.from, f64::INFINITY) {
                if lump.mid <= self.from {
                    self.shear -= lump.weight;
                }
            }
        }
    }

    /// The state at the right end, as that of a segment of no load that begins there.
    fn end(&self) -> Self {
        let t = self.length;
        Self {
            from: self.from + t,
            shear: self.shear_at().at(t),
            moment: self.moment_at().at(t),
            slope: self.slope_at().at(t),
            height: self.height_at().at(t),
            ..Self::default()
        }
    }
}

/// The whole piece, segment by segment, from the left; the last one has no length and holds the state at the right end.
#[derive(Clone, Debug)]
pub(super) struct Walk {
    reach: Reach,
    seats: Vec<f64>,
    segments: Vec<Segment>,
}

impl Walk {
    /// Walks along the piece from support to support that presses, taking up at each what the three-moment equation
    /// says there, so that rounding never adds up over more than one span. `seats` are all supports.
    pub(super) fn new(reach: Reach, seats: Vec<f64>, starts: &[Start], loads: &[Load]) -> Self {
        let places = places(reach, &seats, loads);
        let mut segments: Vec<Segment> = Vec::with_capacity(places.len());
        let mut state = Segment::default();
        let mut pressing = starts.iter().peekable();
        for (from, to) in places.iter().zip(places.iter().skip(1).chain([&reach.to])) {
            if let Some(start) = pressing.next_if(|start| start.at <= *from) {
                state = Segment { shear: start.shear, moment: start.moment, slope: start.slope, ..Segment::default() };
            }
            let mut segment = Segment { from: *from, length: to - from, ..state };
            for load in loads {
                segment.take_on(load, reach);
            }
            segments.push(segment);
            state = segment.end();
        }
        if let Some(first) = starts.first() {
            level(&mut segments, first);
        }
        Self { reach, seats, segments }
    }

    /// The moment at `place`, which is one of the seats.
    pub(super) fn moment_at(&self, place: f64) -> FootPounds {
        FootPounds(self.segments.iter().find(|segment| segment.from >= place).map_or(0.0, |segment| segment.moment))
    }

    /// EI times the height above the supports at `place`, which is one of the seats, lb-ft^3.
    pub(super) fn height_at(&self, place: f64) -> f64 {
        self.segments.iter().find(|segment| segment.from >= place).map_or(0.0, |segment| segment.height)
    }

    pub(super) fn response(&self, Psi(e): Psi, InchesToTheFourth(i): InchesToTheFourth) -> Response {
        // lb-ft^3 to lb-in^3, over lb-in^2.
        let inches = if e * i > 0.0 { 1728.0 / (e * i) } else { f64::INFINITY };
        let Reach { from, to, .. } = self.reach;
        let (first, last) = (self.seats.first().copied().unwrap_or(to), self.seats.last().copied().unwrap_or(to));
        let ends = [from].into_iter().filter(|from| *from < first).chain(self.seats.iter().copied());
        let ends: Vec<f64> = ends.chain([to].into_iter().filter(|to| last < *to || self.seats.is_empty())).collect();
        let stretches = ends.iter().zip(ends.iter().skip(1)).map(|(&left, &right)| Stretch {
            kind: if left < first || right > last { StretchKind::Overhang } else { StretchKind::Span },
            from: Feet(left),
            to: Feet(right),
            extremes: self.extremes(left, right, inches),
        });
        Response { overall: self.extremes(from, to, inches), stretches: stretches.collect() }
    }

    /// Over the segments that begin from `from` to short of `to`. A moment and a height at the right end of a segment
    /// are those the next one begins with, which over a support are exact; the shear jumps.
    fn extremes(&self, from: f64, to: f64, inches: f64) -> Extremes {
        let mut best = Extremes::nothing_at(Feet(from));
        for (segment, next) in self.segments.iter().zip(self.segments.iter().skip(1)) {
            if segment.from < from || segment.from >= to {
                continue;
            }
            let (shear, moment) = (segment.shear_at(), segment.moment_at());
            let (slope, height) = (segment.slope_at(), segment.height_at());
            let place = |t: f64| Feet(segment.from + t);

            let sheds = -segment.load / segment.tilt;
            best.shears(segment.shear, place(0.0), Side::Right);
            if sheds > 0.0 && sheds < segment.length {
                best.shears(shear.at(sheds), place(sheds), Side::Right);
            }
            best.shears(shear.at(segment.length), Feet(next.from), Side::Left);

            let turns: Vec<f64> =
                quadratic(segment.shear, -segment.load, -segment.tilt / 2.0, segment.length).collect();
            best.bends(segment.moment, place(0.0));
            turns.iter().for_each(|t| best.bends(moment.at(*t), place(*t)));
            best.bends(next.moment, Feet(next.from));

            let straight = moment.crossings(&turns, segment.length);
            best.moves(segment.height * inches, place(0.0));
            for t in slope.crossings(&straight, segment.length) {
                best.moves(height.at(t) * inches, place(t));
            }
            best.moves(next.height * inches, Feet(next.from));
        }
        best
    }
}

/// Turns and lifts what lies left of the first support that presses, walked from a free end whose slope and height
/// nobody knew, until both fit there.
fn level(segments: &mut [Segment], first: &Start) {
    let walked = segments.iter().rev().find(|segment| segment.from < first.at).map(Segment::end);
    let Some(walked) = walked else { return };
    let turn = first.slope - walked.slope;
    for segment in segments.iter_mut().filter(|segment| segment.from < first.at) {
        segment.slope += turn;
        segment.height += turn * (segment.from - first.at) - walked.height;
    }
}

/// Where something changes, from the left: ends, supports, ends of line loads, weights.
fn places(reach: Reach, seats: &[f64], loads: &[Load]) -> Vec<f64> {
    let mut places = vec![reach.from, reach.to];
    places.extend(seats);
    for lump in reach.all(loads) {
        if lump.half > 0.0 {
            continue;
        }
        places.push(lump.mid);
    }
    for line in loads.iter().filter_map(Line::of) {
        places.extend([line.from, line.to].into_iter().filter(|place| reach.from < *place && *place < reach.to));
    }
    places.order_by(f64::total_cmp);
    places.dedup_by(|a, b| *a <= *b);
    places
}

impl Extremes {
    fn nothing_at(at: Feet) -> Self {
        let (moment, inches) = (Extreme { value: FootPounds::ZERO, at }, Extreme { value: Inches::ZERO, at });
        let shear = Shear { at, ..Shear::default() };
        Self { sagging: moment, hogging: moment, shear, down: inches, up: inches }
    }

    fn shears(&mut self, shear: f64, at: Feet, side: Side) {
        if shear.abs() > self.shear.value.0 {
            self.shear = Shear { value: Pounds(shear.abs()), at, side };
        }
    }

    fn bends(&mut self, moment: f64, at: Feet) {
        let here = Extreme { value: FootPounds(moment), at };
        if here.value > self.sagging.value {
            self.sagging = here;
        }
        if here.value < self.hogging.value {
            self.hogging = here;
        }
    }

    fn moves(&mut self, height: f64, at: Feet) {
        if height > self.up.value.0 {
            self.up = Extreme { value: Inches(height), at };
        }
        if -height > self.down.value.0 {
            self.down = Extreme { value: Inches(-height), at };
        }
    }
}
