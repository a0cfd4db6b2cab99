//! Ends of beams and ridge beams, and posts, under which nothing is drawn: what may stand there, and which walls may be it.
//!
//! Whether one was looked at is told by what was seen below it, in line: that counts where it was seen near the end, and not
//! nearer to the end of a wall.

use serde::Serialize;

use super::strips::EPS;
use crate::geometry::{self, Frame, Spot};
use crate::ids::{BeamId, LevelId, PostId, RoofId};
use crate::plan::{Below, Grade, Level, Observation, Point, Saw, Side, Top, Wall, WallEnd};
use crate::units::{Feet, Ticks};

/// A wall of the level this near to the end may be what holds it, in feet: nobody draws the end of what is hidden more exactly.
const NEAR_END: f64 = 1.0 + EPS;
/// A beam that stands without it may reach this far past its last support, in feet.
pub(super) const STICKS_OUT: f64 = 2.0 + EPS;
/// Half of the run of wall that holds an end, in feet.
const HALF: f64 = 0.5;

/// What comes down in one place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// An end of the ridge beam of a roof.
    Ridge(RoofId, WallEnd),
    /// An end of a beam.
    Beam(BeamId, WallEnd),
    /// The foot of a post of the level above.
    Post(PostId),
}

impl End {
    /// As a reason calls it: which end of a ridge comes first hangs on how the house is turned.
    pub(super) const fn called(self) -> Self {
        match self {
            Self::Ridge(roof, _) => Self::Ridge(roof, WallEnd::A),
            other => other,
        }
    }
}

/// An end with nothing drawn under it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct OpenEnd {
    /// The level of the walls that may hold it.
    pub(crate) level: LevelId,
    /// Of what.
    pub(crate) of: End,
    /// Where.
    pub(crate) at: Spot,
    /// Whether somebody looked under it.
    pub(crate) looked: bool,
}

impl OpenEnd {
    /// An end over a level; none if a post stands near it there.
    pub(super) fn over(level: &Level, of: End, at: Spot) -> Option<Self> {
        let held = level.posts.iter().any(|post| geometry::apart(post.at.into(), at).0 <= NEAR_END);
        (!held).then(|| Self { level: level.id, of, at, looked: seen_under(level, at).is_some() })
    }

    /// The run of an inside wall that it may come down on, of its own level or one below that.
    pub(crate) fn run_on(&self, level: &Level, wall: &Wall) -> Option<(f64, f64)> {
        // What stands under it on its own level need not be drawn to the inch; a level lower it has to be right under.
        let (aside, past) =
            if level.id == self.level { (NEAR_END, NEAR_END) } else { (wall.thickness.feet().0 / 2.0, 0.0) };
        let own = Frame::between(wall.a, wall.b)?;
        let ((start, line), (t, s)) = (own.local(Spot::from(wall.a)), own.local(self.at));
        let (along, length) = ((t - start).0, geometry::length(wall.a, wall.b).0);
        let under = (s - line).abs().0 <= aside + EPS && along >= -past - EPS && along <= length + past + EPS;
        let at = along.clamp(0.0, length);
        let takes = under && wall.side == Side::Inside && wall.top == Top::Tight;
        takes.then_some(((at - HALF).max(0.0), (at + HALF).min(length)))
    }

    /// The inside wall of its own level nearest to it of those that may hold it, and the place on it.
    pub(crate) fn wall_at<'a>(&self, level: &'a Level) -> Option<(&'a Wall, Point)> {
        let at = self.place()?;
        let near = level.walls.iter().filter(|wall| level.id == self.level && self.run_on(level, wall).is_some());
        let wall = near.min_by(|a, b| {
            let off = |wall: &Wall| geometry::off(wall.a, wall.b, at).0;
            off(a).total_cmp(&off(b)).then(a.id.cmp(&b.id))
        })?;
        let own = Frame::between(wall.a, wall.b)?;
        let ((start, line), (t, s)) = (own.local(Spot::from(wall.a)), own.local(self.at));
        let length = geometry::length(wall.a, wall.b);
        let along = (t - start).max(Feet::ZERO).min(length);
        let inside = (s - line).abs().0 <= wall.thickness.feet().0 / 2.0 && (t - start - along).abs().0 < HALF;
        let on_line = own.spot(start + along, line);
        Some((wall, if inside { at } else { point(on_line)? }))
    }

    /// Where it is, to the nearest tick.
    pub(crate) fn place(&self) -> Option<Point> {
        point(self.at)
    }

    /// Whether something seen on its level was seen under it.
    pub(crate) fn is_spoken_of(&self, level: &Level, seen: &Observation) -> bool {
        level.id == self.level && speaks(level, self.at, seen).is_some()
    }
}

fn point(at: Spot) -> Option<Point> {
    Some(Point::new(Ticks::from_decimal_feet(at.x)?, Ticks::from_decimal_feet(at.y)?))
}

/// What an observation says of what stands under an end.
fn speaks(level: &Level, end: Spot, seen: &Observation) -> Option<Below> {
    let Saw::InLine { below } = seen.saw else { return None };
    let apart = |at: Point| geometry::apart(Spot::from(at), seen.at.into()).0;
    let off = geometry::apart(end, seen.at.into()).0;
    let mut ends = level.walls.iter().filter(|wall| wall.side == Side::Inside).flat_map(|wall| [wall.a, wall.b]);
    (off <= NEAR_END && ends.all(|at| apart(at) >= off)).then_some(below)
}

/// What was seen under an end, if all that was seen there agrees.
pub(crate) fn seen_under(level: &Level, end: Spot) -> Option<Below> {
    let seen = level.observations.iter().filter(|it| it.known <= Grade::Seen);
    let mut seen = seen.filter_map(|it| speaks(level, end, it));
    let first = seen.next()?;
    seen.all(|it| it == first).then_some(first)
}
