//! Walls as bodies on the canvas: an outside wall lies inward of its line, an inside wall on both sides of it, and
//! where they meet they are mitred or cut back.

use joistwise_core::geometry::{self, Position};
use joistwise_core::ids::WallId;
use joistwise_core::plan::{Level, Point, Side, Wall};
use joistwise_core::units::{Feet, Ticks};

use super::vector::meet;
use crate::view::{Screen, View};

/// Thinnest inside wall as drawn, in CSS pixels, so that its role can be read on a phone.
const THINNEST_INSIDE: f64 = 6.0;
/// Thinnest outside wall as drawn.
const THINNEST_OUTSIDE: f64 = 5.0;
/// How near two ends are one corner, and an end is at a wall.
const NEAR: Ticks = Ticks::from_sixteenths(2 * 16);
/// A mitre longer than this many thicknesses is cut square.
const LONGEST_MITRE: f64 = 3.0;

/// One face of a wall: how far left of the line it lies, and where it starts and ends along the line, in CSS pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Face {
    pub(crate) left: f64,
    pub(crate) start: f64,
    pub(crate) end: f64,
}

/// A wall on the canvas.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Body {
    pub(crate) wall: WallId,
    pub(crate) side: Side,
    /// End `a` of its line.
    pub(crate) a: Screen,
    /// From `a` to `b`, length one.
    pub(crate) along: Screen,
    /// To the left of one who walks from `a` to `b`, length one.
    pub(crate) left: Screen,
    /// From `a` to `b` in CSS pixels.
    pub(crate) length: f64,
    /// The face to the left, then the face to the right.
    pub(crate) faces: [Face; 2],
    /// Whether each end stands free and is closed with a line.
    pub(crate) free: [bool; 2],
    corners: [Point; 2],
}

impl Body {
    /// The place so far along the line and so far to the left of it.
    pub(crate) fn at(&self, along: f64, left: f64) -> Screen {
        self.a + self.along * along + self.left * left
    }

    /// End `b` of its line.
    pub(crate) fn b(&self) -> Screen {
        self.at(self.length, 0.0)
    }

    /// How far left of the line the middle of the wall lies.
    pub(crate) fn middle(&self) -> f64 {
        let [left, right] = self.faces;
        (left.left + right.left) / 2.0
    }

    /// Face to face as drawn.
    pub(crate) fn thickness(&self) -> f64 {
        let [left, right] = self.faces;
        left.left - right.left
    }

    /// Where a face starts and ends on the piece between two places along the line.
    fn span(&self, face: Face, from: f64, to: f64) -> (f64, f64) {
        let from = if from < 0.5 { face.start } else { from.max(face.start) };
        let to = if to > self.length - 0.5 { face.end } else { to.min(face.end) };
        (from, to.max(from))
    }

    /// One face of the piece between two places along the line, moved outward.
    pub(crate) fn face(&self, face: Face, from: f64, to: f64, outward: f64) -> [Screen; 2] {
        let (from, to) = self.span(face, from, to);
        let left = face.left + if face.left > self.middle() { outward } else { -outward };
        [self.at(from, left), self.at(to, left)]
    }

    /// The corners of the piece between two places along the line.
    pub(crate) fn piece(&self, from: f64, to: f64) -> Vec<Screen> {
        let [left, right] = self.faces;
        let [a, b] = self.face(left, from, to, 0.0);
        let [d, c] = self.face(right, from, to, 0.0);
        vec![a, b, c, d]
    }

    /// All its corners, moved outward.
    pub(crate) fn around(&self, outward: f64) -> Vec<Screen> {
        let [left, right] = self.faces;
        let [a, b] = self.face(left, 0.0, self.length, outward);
        let [d, c] = self.face(right, 0.0, self.length, outward);
        let step = self.along * outward;
        vec![a - step, b + step, c + step, d - step]
    }
}

/// The walls of a level on the canvas.
pub(crate) fn bodies(level: &Level, outlines: &[Vec<Point>], view: &View) -> Vec<Body> {
    let raw: Vec<Body> = level.walls.iter().map(|wall| square(wall, outlines, view)).collect();
    let mut bodies = raw.clone();
    for body in &mut bodies {
        for end in [0, 1] {
            join(body, end, &raw);
        }
    }
    bodies
}

/// A wall with square ends.
fn square(wall: &Wall, outlines: &[Vec<Point>], view: &View) -> Body {
    let a = view.screen_from_plan(wall.a.into());
    let b = view.screen_from_plan(wall.b.into());
    let thinnest = if wall.side == Side::Outside { THINNEST_OUTSIDE } else { THINNEST_INSIDE };
    let thickness = (wall.thickness.feet().0 * view.scale).max(thinnest);
    let inward = if wall.side == Side::Outside { inward(wall, outlines) } else { None };
    let (left, right) = match inward {
        Some(true) => (thickness, 0.0),
        Some(false) => (0.0, -thickness),
        None => (thickness / 2.0, -thickness / 2.0),
    };
    let along = (b - a).unit();
    let length = (b - a).length();
    let face = |left| Face { left, start: 0.0, end: length };
    Body {
        wall: wall.id,
        side: wall.side,
        a,
        along,
        left: along.left(),
        length,
        faces: [face(left), face(right)],
        free: [true, true],
        corners: [wall.a, wall.b],
    }
}

/// Whether the house lies to the left of an outside wall; none if no closed outline says so.
fn inward(wall: &Wall, outlines: &[Vec<Point>]) -> Option<bool> {
    let frame = geometry::Frame::between(wall.a, wall.b)?;
    let (from, level) = frame.local(wall.a.into());
    let middle = from + geometry::length(wall.a, wall.b) / 2.0;
    let inside = |across: Feet| {
        let spot = frame.spot(middle, level + across);
        let at = Point::new(
            Ticks::from_decimal_feet(spot.x).unwrap_or_default(),
            Ticks::from_decimal_feet(spot.y).unwrap_or_default(),
        );
        outlines.iter().any(|corners| geometry::position(corners, at) == Position::Inside)
    };
    let step = Feet(1.0 / 6.0);
    match (inside(step), inside(-step)) {
        (true, false) => Some(true),
        (false, true) => Some(false),
        _ => None,
    }
}

fn near(a: Point, b: Point) -> bool {
    (a.x - b.x).abs() <= NEAR && (a.y - b.y).abs() <= NEAR
}

/// Shapes one end of a wall after the walls that it meets there.
fn join(body: &mut Body, end: usize, all: &[Body]) {
    let [a, b] = body.corners;
    let corner = if end == 0 { a } else { b };
    let others = |side: Side| all.iter().filter(move |other| other.side == side).filter(|o| o.wall != body.wall);
    let meeting: Vec<(&Body, usize)> = others(body.side)
        .filter_map(|other| {
            let [a, b] = other.corners;
            if near(a, corner) { Some((other, 0)) } else { near(b, corner).then_some((other, 1)) }
        })
        .collect();
    // Away from the corner, for a wall whose end there is 0 or 1.
    let away = |body: &Body, end: usize| if end == 0 { body.along } else { body.along * -1.0 };
    let mine = away(body, end);
    let goes_on = |from: Screen, other: &(&Body, usize)| {
        let way = away(other.0, other.1);
        from.cross(way).abs() < 0.05 && from.dot(way) < 0.0
    };
    if meeting.iter().any(|other| goes_on(mine, other)) {
        set_free(body, end, false);
        return;
    }
    if let [(other, other_end)] = meeting.as_slice() {
        mitre(body, end, other, *other_end);
        return;
    }
    let through = meeting.iter().find(|one| meeting.iter().any(|two| goes_on(away(one.0, one.1), two)));
    let crossed = through.map(|(other, _)| *other);
    let met = crossed.or_else(|| {
        if body.side == Side::Outside {
            return None;
        }
        others(Side::Outside).chain(others(Side::Inside)).find(|other| runs_past(other, body, end))
    });
    if let Some(other) = met {
        cut_back(body, end, other);
    }
}

fn set_free(body: &mut Body, end: usize, is_free: bool) {
    if let Some(free) = body.free.get_mut(end) {
        *free = is_free;
    }
}

fn set(body: &mut Body, end: usize, along: [f64; 2]) {
    for (face, along) in body.faces.iter_mut().zip(along) {
        if end == 0 { face.start = along } else { face.end = along }
    }
    set_free(body, end, false);
}

/// Mitres a wall with the one other that ends at its corner.
fn mitre(body: &mut Body, end: usize, other: &Body, other_end: usize) {
    // Walking through the corner, out of this wall and into the other, left stays left.
    let [left, right] = other.faces;
    let (left, right) = if end == other_end { (right, left) } else { (left, right) };
    let along =
        |mine: Face, theirs: Face| meet(body.at(0.0, mine.left), body.along, other.at(0.0, theirs.left), other.along);
    let [my_left, my_right] = body.faces;
    let (Some(at_left), Some(at_right)) = (along(my_left, left), along(my_right, right)) else {
        return;
    };
    let here = if end == 0 { 0.0 } else { body.length };
    let longest = LONGEST_MITRE * body.thickness().max(other.thickness());
    if (at_left - here).abs() <= longest && (at_right - here).abs() <= longest {
        set(body, end, [at_left, at_right]);
    }
}

/// Whether a wall passes one end of another.
fn runs_past(other: &Body, body: &Body, end: usize) -> bool {
    let at = if end == 0 { body.a } else { body.b() };
    if other.along.cross(body.along).abs() < 0.2 {
        return false;
    }
    let (along, left) = ((at - other.a).dot(other.along), (at - other.a).dot(other.left));
    let [face, back] = other.faces;
    let slack = other.thickness() * 0.6;
    let reach = slack.max(3.0);
    along > -reach && along < other.length + reach && left < face.left + reach && left > back.left - reach
}

/// Cuts a wall back to the near face of another.
fn cut_back(body: &mut Body, end: usize, other: &Body) {
    let far = if end == 0 { body.b() } else { body.a };
    let [left, right] = other.faces;
    let face = if (far - other.a).dot(other.left) > other.middle() { left } else { right };
    let along = |mine: Face| meet(body.at(0.0, mine.left), body.along, other.at(0.0, face.left), other.along);
    let [my_left, my_right] = body.faces;
    let (Some(at_left), Some(at_right)) = (along(my_left), along(my_right)) else {
        return;
    };
    let fits = |at: f64| at > -body.length && at < body.length * 2.0;
    if fits(at_left) && fits(at_right) {
        set(body, end, [at_left, at_right]);
    }
}
