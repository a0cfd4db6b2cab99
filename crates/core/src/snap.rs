//! Where a new point may land: ends, crossings, middles, lines of walls, in line with others, the grid.
//!
//! Answers in plan lengths; how far a hand reaches on the screen is for the caller to say.

use crate::geometry::{self, Spot};
use crate::ids::{ElementId, LevelId};
use crate::order::InOrder as _;
use crate::plan::{FootingShape, Level, Plan, Point, Region, Side, Wall};
use crate::units::{Feet, Ticks};

/// What a point lands on, firmest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Catch {
    /// The first corner of what is being drawn: taking it closes the outline.
    FirstCorner,
    /// An end of a wall or beam, a corner, a post.
    End,
    /// Where two walls cross.
    Crossing,
    /// The middle of a wall.
    Middle,
    /// An end or a post on the level below.
    EndBelow,
    /// The line of a wall or beam.
    OnLine,
    /// The line of a wall or beam on the level below.
    OverLine,
    /// Square to the axes from where the draft began.
    Square,
    /// In line with an end elsewhere on the level.
    InLine,
    /// The grid.
    Grid,
}

impl Catch {
    /// The word shown beside the mark.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::FirstCorner => "close the outline",
            Self::End => "end",
            Self::Crossing => "crossing",
            Self::Middle => "middle of wall",
            Self::EndBelow => "over an end below",
            Self::OnLine => "on the line",
            Self::OverLine => "over a wall below",
            Self::Square => "square",
            Self::InLine => "in line",
            Self::Grid => "grid",
        }
    }
}

/// Where a point lands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Landing {
    /// The place.
    pub at: Point,
    /// What caught it.
    pub on: Catch,
    /// The place that it is square to or in line with, to draw a line from.
    pub guide: Option<Point>,
}

/// What is being drawn, and how far the hand reaches.
#[derive(Clone, Copy, Debug)]
pub struct Aim<'a> {
    /// The house.
    pub plan: &'a Plan,
    /// The level that is drawn on.
    pub level: LevelId,
    /// Corners set so far; the last is where the next line starts.
    pub set: &'a [Point],
    /// Something that is being moved and must not catch itself.
    pub skip: Option<ElementId>,
    /// How far away something still catches.
    pub reach: Feet,
    /// The grid's pitch.
    pub grid: Ticks,
}

/// Where a point near `spot` lands; none past the edge of what a plan holds.
#[must_use]
pub fn land(spot: Spot, aim: &Aim<'_>) -> Option<Landing> {
    at_a_point(spot, aim).or_else(|| on_a_line(spot, aim)).or_else(|| on_the_grid(spot, aim))
}

/// A point on the grid, nearest to `spot`.
#[must_use]
pub fn grid_point(spot: Spot, grid: Ticks) -> Option<Point> {
    let (x, y) = (Ticks::from_decimal_feet(spot.x)?, Ticks::from_decimal_feet(spot.y)?);
    Some(Point::new(nearest_step(x, grid), nearest_step(y, grid)))
}

/// The length rounded to whole steps, halves away from zero.
#[must_use]
pub fn nearest_step(length: Ticks, step: Ticks) -> Ticks {
    let step = step.get().max(1);
    let half = step / 2;
    let sign = if length < Ticks::ZERO { -1 } else { 1 };
    Ticks::new(sign * ((length.get().abs() + half) / step) * step)
}

fn on_the_grid(spot: Spot, aim: &Aim<'_>) -> Option<Landing> {
    Some(Landing { at: grid_point(spot, aim.grid)?, on: Catch::Grid, guide: None })
}

fn at_a_point(spot: Spot, aim: &Aim<'_>) -> Option<Landing> {
    let mut near: Vec<(Catch, f64, Point)> = Vec::new();
    let mut offer = |on: Catch, at: Point| {
        let away = distance(spot, at.into());
        if away <= aim.reach.0 {
            near.push((on, away, at));
        }
    };
    if let Some(first) = aim.set.first().filter(|_| aim.set.len() >= 3) {
        offer(Catch::FirstCorner, *first);
    }
    aim.set.iter().for_each(|corner| offer(Catch::End, *corner));
    if let Some(level) = aim.plan.level(aim.level) {
        ends(level, aim.skip).into_iter().for_each(|end| offer(Catch::End, end));
        let walls = || level.walls.iter().filter(|wall| !skips(aim, wall));
        walls().for_each(|wall| offer(Catch::Middle, middle(wall)));
        let close: Vec<&Wall> = walls().filter(|wall| from_line(spot, wall.a, wall.b) <= aim.reach.0).collect();
        for (i, first) in close.iter().enumerate() {
            for second in close.iter().skip(i + 1) {
                if let Some(cross) = geometry::crossing((first.a, first.b), (second.a, second.b)) {
                    offer(Catch::Crossing, cross);
                }
            }
        }
    }
    if let Some(below) = aim.plan.level_below(aim.level) {
        ends(below, None).into_iter().for_each(|end| offer(Catch::EndBelow, end));
    }
    let firmest = near.into_iter().min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
    firmest.map(|(on, _, at)| Landing { at, on, guide: None })
}

/// A line that catches: through two points, or square to the axes through one.
struct Line {
    a: Point,
    b: Point,
    on: Catch,
    guide: Option<Point>,
}

fn on_a_line(spot: Spot, aim: &Aim<'_>) -> Option<Landing> {
    let mut lines: Vec<(f64, Line)> = Vec::new();
    let mut offer = |line: Line, away: f64| {
        if away <= aim.reach.0 {
            lines.push((away, line));
        }
    };
    let stretches = |level: &Level, skip: Option<ElementId>| {
        let walls = level.walls.iter().map(|wall| (ElementId::Wall(wall.id), wall.a, wall.b));
        let beams = level.beams.iter().map(|beam| (ElementId::Beam(beam.id), beam.a, beam.b));
        walls.chain(beams).filter(|(id, ..)| Some(*id) != skip).collect::<Vec<_>>()
    };
    let level = aim.plan.level(aim.level)?;
    for (_, a, b) in stretches(level, aim.skip) {
        offer(Line { a, b, on: Catch::OnLine, guide: None }, from_line(spot, a, b));
    }
    for (_, a, b) in aim.plan.level_below(aim.level).map(|below| stretches(below, None)).unwrap_or_default() {
        offer(Line { a, b, on: Catch::OverLine, guide: None }, from_line(spot, a, b));
    }
    let mut through = |at: Point, on: Catch| {
        let (east, north) = (Point::new(at.x + FOOT, at.y), Point::new(at.x, at.y + FOOT));
        offer(Line { a: at, b: north, on, guide: Some(at) }, (spot.x.0 - at.x.feet().0).abs());
        offer(Line { a: at, b: east, on, guide: Some(at) }, (spot.y.0 - at.y.feet().0).abs());
    };
    if let Some(from) = aim.set.last() {
        through(*from, Catch::Square);
    }
    aim.set.iter().chain(&ends(level, aim.skip)).for_each(|end| through(*end, Catch::InLine));
    lines.order_by(|a, b| a.1.on.cmp(&b.1.on).then(a.0.total_cmp(&b.0)));
    let (_, first) = lines.first()?;
    let both = lines.iter().skip(1).find_map(|(_, second)| {
        let at = meet(first, second)?;
        (distance(spot, at.into()) <= 1.5 * aim.reach.0).then_some((at, second))
    });
    if let Some((at, second)) = both {
        return Some(Landing { at, on: first.on, guide: first.guide.or(second.guide) });
    }
    Some(Landing { at: step_along(spot, first, aim.grid)?, on: first.on, guide: first.guide })
}

const FOOT: Ticks = Ticks::from_feet(1);

/// The place of the line under `spot`, on whole steps: from its start if square to something, else on the plan's grid.
fn step_along(spot: Spot, line: &Line, grid: Ticks) -> Option<Point> {
    let free = grid_point(spot, grid)?;
    let from_start = line.on == Catch::Square;
    let step = |free: Ticks, spot: Feet, start: Ticks| {
        let there = Ticks::from_decimal_feet(spot)?;
        Some(if from_start { start + nearest_step(there - start, grid) } else { free })
    };
    if line.a.x == line.b.x {
        return Some(Point::new(line.a.x, step(free.y, spot.y, line.a.y)?));
    }
    if line.a.y == line.b.y {
        return Some(Point::new(step(free.x, spot.x, line.a.x)?, line.a.y));
    }
    let frame = geometry::Frame::between(line.a, line.b)?;
    let along = frame.local(spot).0 - frame.local(line.a.into()).0;
    geometry::along(line.a, line.b, nearest_step(Ticks::from_decimal_feet(along)?, grid))
}

/// Where two lines meet, exact if one is square to the axes; none if they are parallel.
fn meet(first: &Line, second: &Line) -> Option<Point> {
    let upright = |line: &Line| (line.a.x == line.b.x).then_some(line.a.x);
    let level = |line: &Line| (line.a.y == line.b.y).then_some(line.a.y);
    let square = |one: &Line, other: &Line| Some(Point::new(upright(one)?, level(other)?));
    if let Some(at) = square(first, second).or_else(|| square(second, first)) {
        return Some(at);
    }
    let flat = |at: Point| (at.x.feet().0, at.y.feet().0);
    let ((ax, ay), (bx, by)) = (flat(first.a), flat(first.b));
    let ((cx, cy), (dx, dy)) = (flat(second.a), flat(second.b));
    let across = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx);
    if across.abs() < 1e-9 {
        return None;
    }
    let share = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / across;
    let x = upright(first).or(upright(second));
    let y = level(first).or(level(second));
    let (free_x, free_y) = (Feet(ax + share * (bx - ax)), Feet(ay + share * (by - ay)));
    Some(Point::new(
        x.map_or_else(|| Ticks::from_decimal_feet(free_x), Some)?,
        y.map_or_else(|| Ticks::from_decimal_feet(free_y), Some)?,
    ))
}

/// Every place of a level that others are put in line with.
fn ends(level: &Level, skip: Option<ElementId>) -> Vec<Point> {
    let keep = |id: ElementId| Some(id) != skip;
    let mut ends: Vec<Point> = Vec::new();
    let skipped = level.walls.iter().find(|wall| !keep(ElementId::Wall(wall.id)) && wall.side == Side::Outside);
    for wall in level.walls.iter().filter(|wall| keep(ElementId::Wall(wall.id))) {
        ends.extend([wall.a, wall.b]);
    }
    for beam in level.beams.iter().filter(|beam| keep(ElementId::Beam(beam.id))) {
        ends.extend([beam.a, beam.b]);
    }
    ends.extend(level.posts.iter().filter(|post| keep(ElementId::Post(post.id))).map(|post| post.at));
    for footing in level.footings.iter().filter(|footing| keep(ElementId::Footing(footing.id))) {
        match footing.shape {
            FootingShape::Pad { at, .. } => ends.push(at),
            FootingShape::Strip { a, b, .. } => ends.extend([a, b]),
        }
    }
    for field in level.fields.iter().filter(|field| keep(ElementId::Field(field.id))) {
        if let Region::Corners(corners) = &field.region {
            ends.extend(corners);
        }
    }
    for opening in level.floor_openings.iter().filter(|opening| keep(ElementId::FloorOpening(opening.id))) {
        ends.extend(&opening.corners);
    }
    // The neighbours of an outside wall move with it: their shared ends must not hold it back.
    if let Some(wall) = skipped {
        ends.retain(|end| *end != wall.a && *end != wall.b);
    }
    ends
}

fn skips(aim: &Aim<'_>, wall: &Wall) -> bool {
    aim.skip == Some(ElementId::Wall(wall.id))
}

fn middle(wall: &Wall) -> Point {
    let half = |a: Ticks, b: Ticks| Ticks::new(a.get().midpoint(b.get()));
    Point::new(half(wall.a.x, wall.b.x), half(wall.a.y, wall.b.y))
}

fn distance(a: Spot, b: Spot) -> f64 {
    let (dx, dy) = (b.x.0 - a.x.0, b.y.0 - a.y.0);
    (dx * dx + dy * dy).sqrt()
}

/// From a place to the nearest place of a stretch of line, in feet.
fn from_line(spot: Spot, a: Point, b: Point) -> f64 {
    let (a, b) = (Spot::from(a), Spot::from(b));
    let (dx, dy) = (b.x.0 - a.x.0, b.y.0 - a.y.0);
    let whole = dx * dx + dy * dy;
    if whole <= 0.0 {
        return distance(spot, a);
    }
    let share = (((spot.x.0 - a.x.0) * dx + (spot.y.0 - a.y.0) * dy) / whole).clamp(0.0, 1.0);
    distance(spot, Spot { x: Feet(a.x.0 + share * dx), y: Feet(a.y.0 + share * dy) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Edit, Element};

    fn house() -> Plan {
        let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec();
        let plan = Plan::new("test");
        let level = plan.levels()[0].id;
        plan.with(&Edit::Outline { level, corners }).expect("an outline")
    }

    fn aim<'a>(plan: &'a Plan, set: &'a [Point]) -> Aim<'a> {
        let level = plan.levels()[0].id;
        Aim { plan, level, set, skip: None, reach: Feet(0.6), grid: Ticks::from_inches(6.0).expect("6 in") }
    }

    #[track_caller]
    fn lands(plan: &Plan, set: &[Point], (x, y): (f64, f64), at: Point, on: Catch) {
        let landing = land(Spot { x: Feet(x), y: Feet(y) }, &aim(plan, set)).expect("on the plan");
        assert_eq!((landing.at, landing.on), (at, on));
    }

    #[test]
    fn corners_middles_and_lines_of_walls_catch_a_hand_that_is_off_by_half_a_foot() {
        let house = house();
        lands(&house, &[], (36.4, 23.7), Point::feet(36, 24), Catch::End);
        lands(&house, &[], (0.3, 12.4), Point::feet(0, 12), Catch::Middle);
        lands(&house, &[], (0.3, 8.1), Point::feet(0, 8), Catch::OnLine);
        lands(&house, &[], (9.1, 7.9), Point::feet(9, 8), Catch::Grid);
    }

    #[test]
    fn a_wall_drawn_square_from_the_west_wall_meets_the_east_wall_exactly() {
        let start = [Point::new(Ticks::ZERO, Ticks::from_inches(137.25).expect("a length"))];
        lands(&house(), &start, (36.2, 11.3), Point::new(Ticks::from_feet(36), start[0].y), Catch::OnLine);
        lands(&house(), &start, (20.1, 11.3), Point::new(Ticks::from_feet(20), start[0].y), Catch::Square);
    }

    #[test]
    fn a_third_corner_back_at_the_first_closes_and_one_in_line_with_it_says_so() {
        let empty = Plan::new("test");
        let set = [Point::feet(0, 0), Point::feet(30, 0), Point::feet(30, 20)];
        lands(&empty, &set, (0.2, -0.3), set[0], Catch::FirstCorner);
        lands(&empty, &set, (0.2, 19.8), Point::feet(0, 20), Catch::Square);
        lands(&empty, &set[..2], (0.2, 9.2), Point::feet(0, 9), Catch::InLine);
    }

    #[test]
    fn a_crossing_of_two_walls_and_a_wall_below_catch() {
        let house = house();
        let level = house.levels()[0].id;
        let mut wall = house.levels()[0].walls[0].clone();
        (wall.a, wall.b, wall.side) = (Point::feet(10, 0), Point::feet(10, 24), Side::Inside);
        let one = house.with(&Edit::Add(level, Element::Wall(wall.clone()))).expect("a wall");
        (wall.a, wall.b) = (Point::feet(0, 15), Point::feet(36, 15));
        let two = one.with(&Edit::Add(level, Element::Wall(wall))).expect("a wall");
        lands(&two, &[], (10.2, 14.8), Point::feet(10, 15), Catch::Crossing);
        let upper = two.with(&Edit::AddLevel(crate::plan::LevelKind::Storey)).expect("a storey");
        let mut aim = aim(&upper, &[]);
        aim.level = upper.levels()[1].id;
        let landing = land(Spot { x: Feet(10.3), y: Feet(20.0) }, &aim).expect("on the plan");
        assert_eq!((landing.at, landing.on), (Point::feet(10, 20), Catch::OverLine));
    }

    #[test]
    fn a_wall_on_the_move_does_not_catch_itself() {
        let house = house();
        let mut aim = aim(&house, &[]);
        aim.skip = Some(ElementId::Wall(house.levels()[0].walls[0].id));
        let landing = land(Spot { x: Feet(14.0), y: Feet(0.3) }, &aim).expect("on the plan");
        assert_eq!(landing.on, Catch::Grid);
    }

    #[test]
    fn steps_round_the_same_way_on_both_sides_of_zero() {
        let step = Ticks::from_feet(1);
        assert_eq!(nearest_step(Ticks::from_feet(2) + Ticks::new(step.get() / 2), step), Ticks::from_feet(3));
        assert_eq!(nearest_step(-Ticks::from_feet(2) - Ticks::new(step.get() / 2), step), -Ticks::from_feet(3));
    }
}
