//! What one level has where: its walls, beams and posts by the place they stand, and its outlines, found once.

use std::collections::BTreeMap;

use super::near::{Extent, Near};
use super::seats::{BEAM_REACH, reach_of};
use crate::geometry::{self, Spot};
use crate::ids::WallId;
use crate::plan::{Beam, FloorOpening, JoistField, Level, Point, Post, Region, Roof, Wall};

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
    fields: Near,
    roofs: Near,
    /// The boxes around what each field covers, and around each opening in the deck.
    covers: (Vec<Extent>, Vec<Extent>),
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
        let outlines = level.outlines();
        let around = |corners: &[Point]| extent(corners.iter().copied().map(Spot::from));
        let outline = extent(outlines.iter().flatten().copied().map(Spot::from));
        let cover = |region: &Region| match region {
            Region::Outline => outline,
            Region::Corners(corners) => around(corners),
        };
        let covers: Vec<Extent> = level.fields.iter().map(|field| cover(&field.region)).collect();
        let openings = level.floor_openings.iter().map(|opening| around(&opening.corners)).collect();
        let roofs = Near::of(level.roofs.iter().map(|roof| cover(&roof.region)));
        Self {
            level,
            outlines,
            beams: Near::of(beams),
            walls: Near::of(walls),
            posts: Near::of(level.posts.iter().map(|post| extent([post.at.into()]).grown(MARGIN))),
            fields: Near::of(covers.iter().copied()),
            roofs,
            covers: (covers, openings),
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

    /// The fields of which a part may be in a box, in order.
    pub(super) fn fields(&self, at: &Extent) -> impl DoubleEndedIterator<Item = &'a JoistField> {
        let level = self.level;
        self.fields.all(at).into_iter().filter_map(|i| level.fields.get(i))
    }

    /// The roofs of which a part may be over a box, in order.
    pub(super) fn roofs(&self, at: &Extent) -> impl Iterator<Item = &'a Roof> {
        let level = self.level;
        self.roofs.all(at).into_iter().filter_map(|i| level.roofs.get(i))
    }

    /// The fields, each with a box around what it covers.
    pub(super) fn all_fields(&self) -> impl Iterator<Item = (&'a JoistField, &Extent)> {
        self.level.fields.iter().zip(&self.covers.0)
    }

    /// The openings in the deck, each with a box around it.
    pub(super) fn openings(&self) -> impl Iterator<Item = (&'a FloorOpening, &Extent)> {
        self.level.floor_openings.iter().zip(&self.covers.1)
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
