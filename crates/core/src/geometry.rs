//! Lines and outlines on a plan: the only file that knows `geo`.
//!
//! Answers only; no tolerance is hidden here, and no answer uses an angle.

use geo::algorithm::line_intersection::{LineIntersection, line_intersection};
use geo::{
    Area, Contains, Coord, CoordinatePosition, Intersects, Line, LineString, Polygon, coordinate_position::CoordPos,
};

use crate::plan::{Point, Way};
use crate::units::{Feet, SquareFeet, Ticks};

/// A derived place in decimal feet.
#[derive(Clone, Copy, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Spot {
    /// East of the origin.
    pub x: Feet,
    /// North of the origin.
    pub y: Feet,
}

impl From<Point> for Spot {
    fn from(point: Point) -> Self {
        Self { x: point.x.feet(), y: point.y.feet() }
    }
}

/// Where an outline has a place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Position {
    /// Inside.
    Inside,
    /// On a side or a corner.
    Edge,
    /// Outside.
    Outside,
}

fn coord(point: Point) -> Coord<f64> {
    Coord { x: f64::from(point.x.get()), y: f64::from(point.y.get()) }
}

fn polygon(corners: &[Point]) -> Polygon<f64> {
    Polygon::new(LineString::new(corners.iter().copied().map(coord).collect()), Vec::new())
}

/// How far apart two points are.
#[must_use]
pub fn length(a: Point, b: Point) -> Feet {
    let (dx, dy) = ((b.x - a.x).feet().0, (b.y - a.y).feet().0);
    Feet((dx * dx + dy * dy).sqrt())
}

/// How far apart two spots are.
#[must_use]
pub fn apart(a: Spot, b: Spot) -> Feet {
    let (dx, dy) = ((b.x - a.x).0, (b.y - a.y).0);
    Feet((dx * dx + dy * dy).sqrt())
}

/// The point of the line from `a` to `b` at a distance from `a`, to the nearest tick.
#[must_use]
pub fn along(a: Point, b: Point, distance: Ticks) -> Option<Point> {
    let whole = length(a, b);
    if whole <= Feet::ZERO {
        return None;
    }
    let share = distance.feet() / whole;
    let x = Ticks::from_decimal_feet((b.x - a.x).feet() * share)?;
    let y = Ticks::from_decimal_feet((b.y - a.y).feet() * share)?;
    Some(Point::new(a.x + x, a.y + y))
}

/// How far a place is from the line between two points.
#[must_use]
pub fn off(a: Point, b: Point, at: Point) -> Feet {
    let Some(own) = Frame::between(a, b) else { return length(a, at) };
    let ((start, line), (t, s)) = (own.local(a.into()), own.local(at.into()));
    let past = (start.0 - t.0).max(t.0 - start.0 - length(a, b).0).max(0.0);
    let across = s.0 - line.0;
    Feet((past * past + across * across).sqrt())
}

/// The part of a move that lies along the line from `a` to `b`, to the nearest tick.
#[must_use]
pub fn part_along(a: Point, b: Point, dx: Ticks, dy: Ticks) -> Ticks {
    let whole = length(a, b);
    if whole <= Feet::ZERO {
        return Ticks::ZERO;
    }
    let (ux, uy) = ((b.x - a.x).feet() / whole, (b.y - a.y).feet() / whole);
    Ticks::from_decimal_feet(dx.feet() * ux + dy.feet() * uy).unwrap_or_default()
}

/// The area inside an outline, whichever way round it goes.
#[must_use]
pub fn area(corners: &[Point]) -> SquareFeet {
    let per_foot = f64::from(Ticks::PER_FOOT);
    SquareFeet(polygon(corners).unsigned_area() / (per_foot * per_foot))
}

/// Where an outline has a place.
#[must_use]
pub fn position(corners: &[Point], at: Point) -> Position {
    match polygon(corners).coordinate_position(&coord(at)) {
        CoordPos::Inside => Position::Inside,
        CoordPos::OnBoundary => Position::Edge,
        CoordPos::Outside => Position::Outside,
    }
}

/// Where two stretches of line cross or touch in one point, to the nearest tick; none if they lie along each other.
#[must_use]
pub fn crossing(first: (Point, Point), second: (Point, Point)) -> Option<Point> {
    let line = |(a, b): (Point, Point)| Line::new(coord(a), coord(b));
    match line_intersection(line(first), line(second))? {
        LineIntersection::SinglePoint { intersection, .. } => {
            let inches = |ticks: f64| Ticks::from_inches(ticks / f64::from(Ticks::PER_INCH));
            Some(Point::new(inches(intersection.x)?, inches(intersection.y)?))
        }
        LineIntersection::Collinear { .. } => None,
    }
}

/// Whether the corners make an outline: three or more, an area, no side that meets another but at a shared corner.
#[must_use]
pub fn is_outline(corners: &[Point]) -> bool {
    let count = corners.len();
    if count < 3 || area(corners) <= SquareFeet(0.01) {
        return false;
    }
    let ends = corners.iter().copied().map(coord).zip(corners.iter().copied().map(coord).cycle().skip(1));
    let sides: Vec<Line<f64>> = ends.map(|(a, b)| Line::new(a, b)).collect();
    for (i, first) in sides.iter().enumerate() {
        if first.start == first.end {
            return false;
        }
        for (j, second) in sides.iter().enumerate().skip(i + 1) {
            let next = j == i + 1 || (i == 0 && j == count - 1);
            let folded = |corner: Coord<f64>, far: Coord<f64>, line: &Line<f64>| corner != far && line.contains(&far);
            let bad = if next {
                // Neighbours share a corner; they may not fold back onto each other.
                let (shared, far) = if j == i + 1 { (second.start, second.end) } else { (second.end, second.start) };
                folded(shared, far, first) || folded(shared, if j == i + 1 { first.start } else { first.end }, second)
            } else {
                first.intersects(second)
            };
            if bad {
                return false;
            }
        }
    }
    true
}

/// A way of looking at the plan: `along` a direction and `across` it, both in feet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    ux: f64,
    uy: f64,
}

impl Frame {
    /// Along a way.
    #[must_use]
    pub fn of(way: Way) -> Self {
        let (dx, dy) = way.parts();
        let (dx, dy) = (f64::from(dx), f64::from(dy));
        let length = (dx * dx + dy * dy).sqrt();
        Self { ux: dx / length, uy: dy / length }
    }

    /// From the first point towards the second; none if they are one.
    #[must_use]
    pub fn between(a: Point, b: Point) -> Option<Self> {
        let whole = length(a, b);
        (whole > Feet::ZERO).then(|| Self { ux: (b.x - a.x).feet() / whole, uy: (b.y - a.y).feet() / whole })
    }

    /// From the first spot towards the second; none if they are one.
    #[must_use]
    pub fn from_to(a: Spot, b: Spot) -> Option<Self> {
        let whole = apart(a, b);
        (whole > Feet::ZERO).then(|| Self { ux: (b.x - a.x) / whole, uy: (b.y - a.y) / whole })
    }

    /// A place as (along, across); across runs to the left of along.
    #[must_use]
    pub fn local(&self, at: Spot) -> (Feet, Feet) {
        (Feet(at.x.0 * self.ux + at.y.0 * self.uy), Feet(at.y.0 * self.ux - at.x.0 * self.uy))
    }

    /// A place from (along, across).
    #[must_use]
    pub fn spot(&self, along: Feet, across: Feet) -> Spot {
        Spot { x: Feet(along.0 * self.ux - across.0 * self.uy), y: Feet(along.0 * self.uy + across.0 * self.ux) }
    }

    /// The sine of the angle between two frames, without its sign: 0 if parallel, 1 if square.
    #[must_use]
    pub fn squareness(&self, other: &Self) -> f64 {
        (self.ux * other.uy - self.uy * other.ux).abs()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(corners: &[(i32, i32)]) -> Vec<Point> {
        corners.iter().map(|&(x, y)| Point::feet(x, y)).collect()
    }

    #[test]
    fn an_l_shaped_house_of_36_by_24_ft_less_12_by_10_ft_has_744_square_feet() {
        let corners = feet(&[(0, 0), (36, 0), (36, 14), (24, 14), (24, 24), (0, 24)]);
        assert_eq!(area(&corners), SquareFeet(36.0 * 24.0 - 12.0 * 10.0));
        assert!(is_outline(&corners));
        assert_eq!(position(&corners, Point::feet(30, 20)), Position::Outside);
        assert_eq!(position(&corners, Point::feet(24, 20)), Position::Edge);
    }

    #[test]
    fn crossed_folded_and_flat_outlines_are_none() {
        assert!(!is_outline(&feet(&[(0, 0), (10, 10), (10, 0), (0, 10)])));
        assert!(!is_outline(&feet(&[(0, 0), (10, 0), (20, 0)])));
        assert!(!is_outline(&feet(&[(0, 0), (20, 0), (10, 0), (10, 8)])));
        assert!(!is_outline(&feet(&[(0, 0), (20, 0)])));
    }

    #[test]
    fn two_walls_cross_where_a_tape_says() {
        let cross = crossing((Point::feet(0, 12), Point::feet(36, 12)), (Point::feet(20, 0), Point::feet(20, 24)));
        assert_eq!(cross, Some(Point::feet(20, 12)));
        assert_eq!(crossing((Point::feet(0, 0), Point::feet(4, 0)), (Point::feet(2, 0), Point::feet(9, 0))), None);
    }

    #[test]
    fn a_frame_leads_there_and_back() {
        let frame = Frame::of(Way::new(3, 4));
        let (along, across) = frame.local(Spot { x: Feet(6.0), y: Feet(8.0) });
        assert!((along.0 - 10.0).abs() < 1e-12 && across.0.abs() < 1e-12);
        let back = frame.spot(along, across);
        assert!((back.x.0 - 6.0).abs() < 1e-12 && (back.y.0 - 8.0).abs() < 1e-12);
    }
}
