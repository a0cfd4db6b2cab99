//! Places on the canvas as vectors: sums, directions, crossings, and hatches clipped to a polygon.
//!
//! No angles: a direction is a vector of length one. The canvas has y down; [`Screen::left`] is left as one walks.

use core::ops::{Add, Mul, Sub};

use crate::view::Screen;
use joistwise_core::order::InOrder as _;

impl Add for Screen {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { x: self.x + other.x, y: self.y + other.y }
    }
}

impl Sub for Screen {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}

impl Mul<f64> for Screen {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self { x: self.x * factor, y: self.y * factor }
    }
}

impl Screen {
    /// A place from its two numbers.
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    /// The product of lengths along each other.
    pub(crate) fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    /// The area spanned with another, with its sign.
    pub(crate) fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    /// How long it is.
    pub(crate) fn length(self) -> f64 {
        self.dot(self).sqrt()
    }

    /// The same direction at length one; to the right if it has no length.
    pub(crate) fn unit(self) -> Self {
        let length = self.length();
        if length > 1e-9 { self * (1.0 / length) } else { Self::new(1.0, 0.0) }
    }

    /// Turned a quarter to the left of one who walks along it, on a canvas whose y runs down.
    pub(crate) const fn left(self) -> Self {
        Self { x: self.y, y: -self.x }
    }

    /// The middle between two places.
    pub(crate) fn middle(self, other: Self) -> Self {
        (self + other) * 0.5
    }

    /// The same line, turned so that text along it reads from left to right, or upward.
    pub(crate) fn readable(self) -> Self {
        let upward = self.x.abs() < 0.01 && self.y > 0.0;
        if self.x < -0.01 || upward { self * -1.0 } else { self }
    }
}

/// How far along direction `u` from `p` the line through `q` along `v` is met; none if they run the same way.
pub(crate) fn meet(p: Screen, u: Screen, q: Screen, v: Screen) -> Option<f64> {
    let square = u.cross(v);
    (square.abs() > 0.02).then(|| (q - p).cross(v) / square)
}

/// How far a place is from a piece of line.
pub(crate) fn distance(at: Screen, a: Screen, b: Screen) -> f64 {
    let whole = b - a;
    let square = whole.dot(whole);
    let share = if square > 0.0 { ((at - a).dot(whole) / square).clamp(0.0, 1.0) } else { 0.0 };
    (at - (a + whole * share)).length()
}

/// The sides of a polygon, each from corner to corner.
pub(crate) fn sides(corners: &[Screen]) -> impl Iterator<Item = (Screen, Screen)> {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1))
}

/// Whether a polygon holds a place.
pub(crate) fn holds(corners: &[Screen], at: Screen) -> bool {
    let crossed = sides(corners)
        .filter(|(a, b)| (a.y > at.y) != (b.y > at.y) && at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y));
    crossed.count() % 2 == 1
}

/// Parallel lines inside a polygon, `spacing` apart, counted from `anchor` so that they stay put when the sheet moves.
pub(crate) fn hatch(corners: &[Screen], anchor: Screen, along: Screen, spacing: f64) -> Vec<[Screen; 2]> {
    let across = along.left();
    let depth = |at: Screen| (at - anchor).dot(across);
    let low = corners.iter().map(|at| depth(*at)).fold(f64::INFINITY, f64::min);
    let high = corners.iter().map(|at| depth(*at)).fold(f64::NEG_INFINITY, f64::max);
    let mut pieces = Vec::new();
    // A wall seen from very near is larger than the canvas by far: no more lines than an eye tells apart.
    if !(spacing > 0.0 && high - low < spacing * 4000.0) {
        return pieces;
    }
    let mut line = (low / spacing).ceil() * spacing;
    while line < high {
        let mut places: Vec<f64> = sides(corners)
            .filter(|(a, b)| (depth(*a) > line) != (depth(*b) > line))
            .map(|(a, b)| {
                let share = (line - depth(a)) / (depth(b) - depth(a));
                (a + (b - a) * share - anchor).dot(along)
            })
            .collect();
        places.order_by(f64::total_cmp);
        for pair in places.chunks_exact(2) {
            if let [from, to] = pair {
                let at = |place: f64| anchor + along * place + across * line;
                pieces.push([at(*from), at(*to)]);
            }
        }
        line += spacing;
    }
    pieces
}

/// A four-cornered piece, larger on every side.
pub(crate) fn grown(points: &[Screen], by: f64) -> Vec<Screen> {
    let [a, b, c, d] = points else {
        return points.to_vec();
    };
    let (along, across) = ((*b - *a).unit() * by, (*a - *d).unit() * by);
    vec![*a - along + across, *b + along + across, *c + along - across, *d - along - across]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn left_of_one_who_walks_to_the_right_is_up_the_canvas() {
        assert_eq!(Screen::new(1.0, 0.0).left(), Screen::new(0.0, -1.0));
    }

    #[test]
    fn a_hatch_10_px_apart_fills_an_l_and_leaves_its_notch_free() {
        let l = [(0.0, 0.0), (40.0, 0.0), (40.0, 18.0), (20.0, 18.0), (20.0, 40.0), (0.0, 40.0)];
        let l: Vec<Screen> = l.iter().map(|(x, y)| Screen::new(*x, *y)).collect();
        let level = hatch(&l, Screen::new(0.0, 5.0), Screen::new(1.0, 0.0), 10.0);
        let lengths: Vec<f64> = level.iter().map(|[a, b]| (*b - *a).length()).collect();
        let total: f64 = lengths.iter().sum();
        assert!((total - (40.0 + 40.0 + 20.0 + 20.0)).abs() < 1e-9, "{lengths:?}");
        assert!(level.iter().all(|[a, b]| holds(&l, a.middle(*b))));
    }

    #[test]
    fn square_lines_meet_and_parallel_ones_do_not() {
        let (right, down) = (Screen::new(1.0, 0.0), Screen::new(0.0, 1.0));
        assert_eq!(meet(Screen::default(), right, Screen::new(7.0, -3.0), down), Some(7.0));
        assert_eq!(meet(Screen::default(), right, Screen::new(0.0, 5.0), right), None);
    }
}
