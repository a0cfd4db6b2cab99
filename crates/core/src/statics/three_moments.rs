//! The three-moment equation: moments over the supports that press, and what each span hands to its ends.
//!
//! Cut every span free at its supports and load it as a simple span. Its ends turn; the moments over the supports
//! turn them back until the two spans that meet there have one slope.

use super::Load;
use super::lump::Reach;

/// One span between two neighbouring supports that press, as if it were simple.
#[derive(Clone, Copy, Debug, Default)]
struct Simple {
    length: f64,
    /// Reactions of the simple span, lb.
    left: f64,
    right: f64,
    /// Six times EI times the turn of each end, lb-ft^2: for a weight P at a from the left and b from the right,
    /// P a b (L + b) / L at the left and P a b (L + a) / L at the right.
    turn_left: f64,
    turn_right: f64,
}

impl Simple {
    /// The span from `a` to `b` under `loads`.
    ///
    /// A load q(u) turns the right end by the integral of q u (L^2 - u^2) / L, the left end likewise measured from
    /// the right: each is L times a first moment less an integral of q u^3 over L.
    fn new(a: f64, b: f64, reach: Reach, loads: &[Load]) -> Self {
        let length = b - a;
        let mut span = Self { length, ..Self::default() };
        for lump in reach.lumps(loads, a, b) {
            let (about_left, about_right) = (lump.moment_about(a), -lump.moment_about(b));
            span.right += about_left / length;
            span.left += about_right / length;
            if lump.half > 0.0 {
                span.turn_right += about_left * length - lump.cube_about(a) / length;
                span.turn_left += about_right * length + lump.cube_about(b) / length;
            } else {
                let (u, v) = (lump.mid - a, b - lump.mid);
                span.turn_right += lump.weight * u * v * (length + u) / length;
                span.turn_left += lump.weight * u * v * (length + v) / length;
            }
        }
        span
    }
}

/// What the walk along the member needs to start from one support.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Start {
    /// Place of the support, ft.
    pub(super) at: f64,
    /// Shear just right of the support, before any weight that stands on it is taken off, lb.
    pub(super) shear: f64,
    /// Moment over the support, sagging positive, lb-ft.
    pub(super) moment: f64,
    /// EI times the slope, rising to the right positive, lb-ft^2.
    pub(super) slope: f64,
    /// What the support pushes, lb.
    pub(super) reaction: f64,
}

/// Moments, slopes and reactions at `pressing` supports, from the left, apart from each other; one alone is taken to
/// carry everything and to keep the member level.
pub(super) fn solve(pressing: &[f64], reach: Reach, loads: &[Load]) -> Vec<Start> {
    let (Some(&first), Some(&last)) = (pressing.first(), pressing.last()) else { return Vec::new() };

    // The overhangs by statics alone: the free body past the support.
    let (mut left_weight, mut left_moment, mut right_weight, mut right_moment) = (0.0, 0.0, 0.0, 0.0);
    for lump in reach.lumps(loads, f64::NEG_INFINITY, first) {
        left_weight += lump.weight;
        left_moment += lump.moment_about(first);
    }
    for lump in reach.lumps(loads, last, f64::INFINITY) {
        right_weight += lump.weight;
        right_moment -= lump.moment_about(last);
    }

    let spans: Vec<Simple> =
        pressing.iter().zip(pressing.iter().skip(1)).map(|(a, b)| Simple::new(*a, *b, reach, loads)).collect();
    let mut starts: Vec<Start> = pressing.iter().map(|at| Start { at: *at, ..Start::default() }).collect();

    // M[i-1] L[i] + 2 M[i] (L[i] + L[i+1]) + M[i+1] L[i+1] = -(turn_right[i] + turn_left[i+1]) over every inner
    // support. Going right, write M[i-1] = known - ratio M[i]; coming back, put the numbers in. The middle term
    // outweighs its neighbours, so nothing is lost on the way.
    let mut sweep = Vec::with_capacity(spans.len());
    let (mut known, mut ratio) = (left_moment, 0.0);
    for (left, right) in spans.iter().zip(spans.iter().skip(1)) {
        let middle = 2.0 * (left.length + right.length) - left.length * ratio;
        known = (-(left.turn_right + right.turn_left) - left.length * known) / middle;
        ratio = right.length / middle;
        sweep.push((known, ratio));
    }
    if let Some(start) = starts.first_mut() {
        start.moment = left_moment;
    }
    if let Some(start) = starts.last_mut() {
        start.moment = right_moment;
    }
    let mut moment = right_moment;
    for (start, (known, ratio)) in starts.iter_mut().rev().skip(1).zip(sweep.iter().rev()) {
        moment = known - ratio * moment;
        start.moment = moment;
    }

    // Hand every span's ends to its supports: the simple reaction and the couple of the two end moments.
    let mut from_left = left_weight;
    let mut iter = starts.iter_mut().peekable();
    let mut spans = spans.iter();
    while let Some(start) = iter.next() {
        let (Some(next), Some(span)) = (iter.peek(), spans.next()) else {
            start.shear = right_weight;
            start.reaction = from_left + right_weight;
            break;
        };
        let couple = (next.moment - start.moment) / span.length;
        start.shear = span.left + couple;
        start.slope = -(span.turn_left + (2.0 * start.moment + next.moment) * span.length) / 6.0;
        start.reaction = from_left + start.shear;
        from_left = span.right - couple;
        if let Some(next) = iter.peek_mut() {
            // Kept by the last support alone: every other one is given the slope of the span on its right.
            next.slope = (span.turn_right + (start.moment + 2.0 * next.moment) * span.length) / 6.0;
        }
    }
    starts
}
