//! What one level has where: its walls, beams and posts by the place they stand, and its outlines, found once.

use std::collections::BTreeMap;

use super::near::{Extent, Near};
use super::seats::{BEAM_REACH, reach_of};
use crate::geometry::{self, Spot};
use crate::ids::WallId;
use crate::plan::{Beam, Level, Point, Post, Region, Wall};

/// How far from a bearer something may be that still has to do with it, besides its reach, in feet.
const MARGIN: f64 = 1.0;
/// A bearer all but parallel to a line is measured at its middle; elsewhere it may be off by this share of its length.
const ASKEW: f64 = 0.06;

/// A level by place.
#[derive(Debug)]
pub(super) struct Around<'a> {
    pub(super) level: &'a Level,
    outlines: Vec<Vec<Point>>,
    beams: Near,
    walls: Near,
    posts: Near,
    wall_numbers: BTreeMap<WallId, usize>,
}

impl<'a> Around<'a> {
    pub(super) fn of(level: &'a Level) -> Self {
        let line = |a: Point, b: Point, reach: f64| {
            let margin = MARGIN + 2.0 * reach + ASKEW * geometry::length(a, b).0;
            extent([a.into(), b.into()]).grown(margin)
        };
        let beams = level.beams.iter().map(|beam| line(beam.a, beam.b, BEAM_REACH));
        let walls = level.walls.iter().map(|wall| line(wall.a, wall.b, reach_of(wall)));
        Self {
            level,
            outlines: level.outlines(),
            beams: Near::of(beams),
            walls: Near::of(walls),
            posts: Near::of(level.posts.iter().map(|post| extent([post.at.into()]).grown(MARGIN))),
            wall_numbers: level.walls.iter().enumerate().map(|(i, wall)| (wall.id, i)).collect(),
        }
    }

    /// The polygons a region stands for.
    pub(super) fn polygons<'s>(&'s self, region: &'s Region) -> &'s [Vec<Point>] {
        match region {
            Region::Outline => &self.outlines,
            Region::Corners(corners) => core::slice::from_ref(corners),
        }
    }

    pub(super) fn outlines(&self) -> &[Vec<Point>] {
        &self.outlines
    }

    pub(super) fn wall(&self, id: WallId) -> Option<&'a Wall> {
        self.wall_numbers.get(&id).and_then(|i| self.level.walls.get(*i))
    }

    /// The beams that may have to do with what is in a box, each with its place in the level's list.
    pub(super) fn beams(&self, at: &Extent) -> impl Iterator<Item = (usize, &'a Beam)> {
        let level = self.level;
        self.beams.all(at).into_iter().filter_map(|i| Some((i, level.beams.get(i)?)))
    }

    /// The walls that may have to do with what is in a box, each with its place in the level's list.
    pub(super) fn walls(&self, at: &Extent) -> impl Iterator<Item = (usize, &'a Wall)> {
        let level = self.level;
        self.walls.all(at).into_iter().filter_map(|i| Some((i, level.walls.get(i)?)))
    }

    /// Whether a box has all beams and walls inside.
    pub(super) fn is_all_within(&self, at: &Extent) -> bool {
        [&self.beams, &self.walls].into_iter().filter_map(Near::extent).all(|all| at.holds(&all))
    }

    /// The posts that may have to do with what is in a box, each with its place in the level's list.
    pub(super) fn posts(&self, at: &Extent) -> impl Iterator<Item = (usize, &'a Post)> {
        let level = self.level;
        self.posts.all(at).into_iter().filter_map(|i| Some((i, level.posts.get(i)?)))
    }
}

/// The box around some spots of the plan.
pub(super) fn extent(spots: impl IntoIterator<Item = Spot>) -> Extent {
    Extent::around(spots.into_iter().map(|spot| (spot.x.0, spot.y.0)))
}
