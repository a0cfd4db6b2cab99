//! A house as sketched: a stack of levels, lowest first, each with its walls, its deck and its roofs.
//!
//! A [`Plan`] is always sound (every reference resolves, no wall is a point), but seldom complete: what nobody
//! described is left open and comes back from the trace as a finding. No drawing, no loads, no file format here.

use serde::{Deserialize, Serialize};

use crate::ids::{BeamId, ElementId, FieldId, FloorOpeningId, FootingId, LevelId, PostId, WallId};
use crate::loads::layers::{Listed, weighs};
use crate::loads::{Site, deck_dead};
use crate::order::InOrder as _;
use crate::units::{Psf, Ticks};

mod board;
mod budget;
mod cut;
mod edit;
mod element;
mod file;
mod kept;
mod level_name;
mod link;
mod member;
mod number;
mod observation;
mod opening;
mod pack;
mod photo;
mod roof;
mod sound;
mod thing;
mod tick;
mod unknown;
mod usual;
mod wall;

pub use board::{Board, BoardKind};
pub use budget::{Of, TooMuch};
pub use cut::{Cut, JoistCut, JoistEdge, NotchAt};
pub use edit::{Edit, EditError, WallEnd};
pub use element::Element;
pub use file::{FORMAT, LoadError, PlanFile, VERSION};
pub use kept::{Away, Kept, Stock};
pub use level_name::UsualName;
pub use link::{LeftOut, Link, LinkError};
pub use member::{Material, Member, MemberError};
pub use observation::{Below, Drawn, Observation, Saw};
pub use opening::{Header, Jamb, Opening, OpeningKind};
pub use photo::{Photo, PhotoPart};
pub use roof::{Meets, Over, Purlin, Roof, RoofForm, RoofFrame, RoofOpening, TrussMake, Webs};
pub use sound::Unsound;
pub use thing::{HeavyThing, Stands};
pub use tick::{Came, StepKey, Task, Tick};
use unknown::Unknown;
pub use wall::{Bracing, Built, Gable, Make, Side, Studs, Top, Wall};

/// A place on the plan: x runs east, y runs north.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(from = "(Ticks, Ticks)", into = "(Ticks, Ticks)")]
#[cfg_attr(feature = "schema", schemars(with = "(f64, f64)"))]
pub struct Point {
    /// East of the origin.
    pub x: Ticks,
    /// North of the origin.
    pub y: Ticks,
}

impl Point {
    /// A place from its two lengths.
    #[must_use]
    pub const fn new(x: Ticks, y: Ticks) -> Self {
        Self { x, y }
    }

    /// A place in whole feet.
    #[must_use]
    pub const fn feet(x: i32, y: i32) -> Self {
        Self { x: Ticks::from_feet(x), y: Ticks::from_feet(y) }
    }
}

impl From<(Ticks, Ticks)> for Point {
    fn from((x, y): (Ticks, Ticks)) -> Self {
        Self { x, y }
    }
}

impl From<Point> for (Ticks, Ticks) {
    fn from(point: Point) -> Self {
        (point.x, point.y)
    }
}

/// A direction on the plan without a sense: the way joists or a ridge run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(from = "(i32, i32)", into = "(i32, i32)")]
#[cfg_attr(feature = "schema", schemars(with = "(i32, i32)"))]
pub struct Way {
    dx: i32,
    dy: i32,
}

impl Way {
    /// East-west.
    pub const X: Self = Self { dx: 1, dy: 0 };
    /// North-south.
    pub const Y: Self = Self { dx: 0, dy: 1 };

    /// The way from one corner to another, reduced and turned to point east (or north); east-west if both are zero.
    #[must_use]
    pub fn new(dx: i32, dy: i32) -> Self {
        let (mut a, mut b) = (dx.unsigned_abs(), dy.unsigned_abs());
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let Ok(divisor) = i32::try_from(a) else {
            return Self::X;
        };
        if divisor == 0 {
            return Self::X;
        }
        let (dx, dy) = (dx / divisor, dy / divisor);
        if dx < 0 || (dx == 0 && dy < 0) { Self { dx: -dx, dy: -dy } } else { Self { dx, dy } }
    }

    /// The way from one point to another.
    #[must_use]
    pub fn between(from: Point, to: Point) -> Self {
        Self::new((to.x - from.x).get(), (to.y - from.y).get())
    }

    /// The two whole numbers, without a common divisor.
    #[must_use]
    pub const fn parts(self) -> (i32, i32) {
        (self.dx, self.dy)
    }

    /// The way square to this one.
    #[must_use]
    pub fn square(self) -> Self {
        Self::new(-self.dy, self.dx)
    }
}

impl From<(i32, i32)> for Way {
    fn from((dx, dy): (i32, i32)) -> Self {
        Self::new(dx, dy)
    }
}

impl From<Way> for (i32, i32) {
    fn from(way: Way) -> Self {
        way.parts()
    }
}

/// How a fact is known, surest first.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Grade {
    /// Somebody put a tape on it.
    Measured,
    /// Somebody looked at it.
    Seen,
    /// Somebody said so.
    Told,
    /// Taken for granted.
    #[default]
    Assumed,
    /// Nobody knows.
    Unknown,
}

/// What a level is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum LevelKind {
    /// Under the first floor, too low to stand in.
    CrawlSpace,
    /// Under the first floor, a full storey.
    Basement,
    /// A storey people live in.
    #[default]
    Storey,
    /// Rooms under the roof.
    Attic,
}

/// One level: what stands on its floor, and the deck and roofs over its walls.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Level {
    /// Its id.
    pub id: LevelId,
    /// What people call it: "First floor".
    #[serde(with = "level_name")]
    #[cfg_attr(feature = "schema", schemars(with = "level_name::InFile"))]
    pub name: String,
    /// What it is.
    #[serde(default)]
    pub kind: LevelKind,
    /// Floor to ceiling.
    pub height: Ticks,
    /// Its walls.
    #[serde(default)]
    pub walls: Vec<Wall>,
    /// Doors, windows and passages in its walls.
    #[serde(default)]
    pub openings: Vec<Opening>,
    /// Its posts.
    #[serde(default)]
    pub posts: Vec<Post>,
    /// Its beams, under or in the deck above.
    #[serde(default)]
    pub beams: Vec<Beam>,
    /// Heavy things that stand on its floor.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub things: Vec<HeavyThing>,
    /// Pads and strip footings, on the lowest level.
    #[serde(default)]
    pub footings: Vec<Footing>,
    /// The joist fields of the deck over this level; a later field covers an earlier one where they overlap.
    #[serde(default)]
    pub fields: Vec<JoistField>,
    /// Stair and chimney openings in that deck.
    #[serde(default)]
    pub floor_openings: Vec<FloorOpening>,
    /// Notches and holes in the joists of that deck.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub cuts: Vec<JoistCut>,
    /// Rim boards, blocking and ledgers in that deck.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub boards: Vec<Board>,
    /// Roofs whose feet stand on this level's walls; a later roof covers an earlier one where they overlap.
    #[serde(default)]
    pub roofs: Vec<Roof>,
    /// Purlins under those roofs, with the struts that hold them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub purlins: Vec<Purlin>,
    /// What was seen, on this level or over it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub observations: Vec<Observation>,
}

/// What a post is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum PostKind {
    /// A wood post.
    #[default]
    Wood,
    /// A steel column.
    Steel,
    /// Studs packed together, often inside a wall.
    StudPack,
    /// A masonry pier.
    Pier,
}

/// A post.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Post {
    /// Its id.
    pub id: PostId,
    /// What people call it, if anything.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// Its middle.
    pub at: Point,
    /// What it is.
    #[serde(default)]
    pub kind: PostKind,
    /// Its size, if anybody saw it: "6x6", or "3-2x4" of studs packed together.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub member: Member,
}

/// Where a beam sits against the joists.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Set {
    /// Under them: they pass over it.
    #[default]
    Dropped,
    /// Between them: they end on hangers at its faces.
    Flush,
}

/// Whether members pass over their inner supports or meet there.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Joints {
    /// Nobody looked: traced as pieces that meet, and said so.
    #[default]
    NotSeen,
    /// Each piece ends on every inner support: a lap, a butt or a splice.
    Lap,
    /// One piece over all of them.
    RunThrough,
}

/// A beam. What it rests on is found from what stands under it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Beam {
    /// Its id.
    pub id: BeamId,
    /// What people call it, if anything.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// One end.
    pub a: Point,
    /// The other end.
    pub b: Point,
    /// What it is.
    #[serde(default)]
    pub member: Member,
    /// Where it sits against the joists.
    #[serde(default)]
    pub set: Set,
    /// Whether it runs through over its inner supports.
    #[serde(default)]
    pub joints: Joints,
}

/// The shape of a footing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case", tag = "shape")]
pub enum FootingShape {
    /// A square pad.
    Pad {
        /// Its middle.
        at: Point,
        /// Its side.
        side: Ticks,
    },
    /// A strip under a wall.
    Strip {
        /// One end of its line.
        a: Point,
        /// The other end.
        b: Point,
        /// Across its line.
        width: Ticks,
    },
}

/// What a footing is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum FootingMake {
    /// A footing of its own.
    #[default]
    Footing,
    /// A slab poured thicker here: what it can take, an engineer says.
    ThickenedSlab,
}

/// A pad or strip footing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Footing {
    /// Its id.
    pub id: FootingId,
    /// Its shape.
    #[serde(flatten)]
    pub shape: FootingShape,
    /// Top to bottom, if known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thickness: Option<Ticks>,
    /// What it is.
    #[serde(default, skip_serializing_if = "is_usual")]
    pub make: FootingMake,
}

/// Whether a choice is the one that counts when a file says nothing.
pub(crate) fn is_usual<T: Default + PartialEq>(choice: &T) -> bool {
    *choice == T::default()
}

/// The part of a level that a field or a roof covers.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Region {
    /// Everything inside the outside walls; follows them when they move.
    #[default]
    Outline,
    /// A polygon of its own.
    Corners(Vec<Point>),
}

/// What a deck is used for; its live load follows from it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum Use {
    /// Rooms other than sleeping rooms.
    #[default]
    Living,
    /// Sleeping rooms.
    Sleeping,
    /// A room in the attic, or an attic served by fixed stairs.
    AtticRoom,
    /// An attic where things are stored.
    AtticStorage,
    /// An attic nobody stores anything in: a ceiling.
    AtticBare,
    /// A deck outside.
    Deck,
    /// A garage for cars.
    Garage,
}

impl Use {
    /// Whether the deck is a ceiling with an attic over it, not a floor.
    #[must_use]
    pub const fn is_ceiling(self) -> bool {
        matches!(self, Self::AtticStorage | Self::AtticBare)
    }
}

/// Joists that lie the same way over one region.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct JoistField {
    /// Its id.
    pub id: FieldId,
    /// What it covers.
    #[serde(default)]
    pub region: Region,
    /// The way the joists run.
    pub along: Way,
    /// What they are.
    #[serde(default)]
    pub member: Member,
    /// On centre.
    pub spacing: Ticks,
    /// Whether they lap over what is under them.
    #[serde(default)]
    pub joints: Joints,
    /// What is over them.
    #[serde(rename = "use", default)]
    pub used_as: Use,
    /// Their own dead load where it differs from the usual one for the use.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub dead: Option<Psf>,
    /// What it is built up of, by the list of layers; a typed dead load counts before it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub layers: Vec<Listed>,
    /// How their direction is known.
    #[serde(default)]
    pub known: Grade,
}

impl JoistField {
    /// What a square foot of the deck weighs.
    #[must_use]
    pub fn weighs(&self) -> Psf {
        weighs(self.dead, &self.layers, deck_dead(self.used_as).value)
    }
}

/// An opening in a deck: a stair or a chimney. Headers and trimmers around it are found by the trace.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct FloorOpening {
    /// Its id.
    pub id: FloorOpeningId,
    /// Its corners.
    pub corners: Vec<Point>,
}

/// A house as sketched. Sound at all times: its only doors are [`PlanFile`] and [`Plan::with`].
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    pub(crate) name: String,
    pub(crate) note: String,
    pub(crate) site: Site,
    pub(crate) levels: Vec<Level>,
    pub(crate) ticks: Vec<Tick>,
    /// The studies that were kept.
    pub(crate) kept: Vec<Kept>,
    /// The number of the next part.
    pub(crate) next_id: u32,
    /// What its file held that this version does not know.
    pub(crate) unknown: Unknown,
}

impl Default for Plan {
    fn default() -> Self {
        Self::new("New house")
    }
}

impl Plan {
    /// One empty storey.
    #[must_use]
    pub fn new(name: &str) -> Self {
        let storey = Level {
            id: LevelId(1),
            name: UsualName::FirstFloor.words().to_owned(),
            kind: LevelKind::Storey,
            height: Ticks::from_feet(8),
            walls: Vec::new(),
            openings: Vec::new(),
            posts: Vec::new(),
            beams: Vec::new(),
            things: Vec::new(),
            cuts: Vec::new(),
            boards: Vec::new(),
            footings: Vec::new(),
            fields: Vec::new(),
            floor_openings: Vec::new(),
            roofs: Vec::new(),
            purlins: Vec::new(),
            observations: Vec::new(),
        };
        Self {
            name: name.to_owned(),
            note: String::new(),
            site: Site::default(),
            levels: vec![storey],
            ticks: Vec::new(),
            kept: Vec::new(),
            next_id: 2,
            unknown: Unknown::default(),
        }
    }

    /// What the house is called.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// What its author wrote about it.
    #[must_use]
    pub fn note(&self) -> &str {
        &self.note
    }

    /// Snow, soil and the loads that differ from the usual ones.
    #[must_use]
    pub const fn site(&self) -> &Site {
        &self.site
    }

    /// The levels, lowest first.
    #[must_use]
    pub fn levels(&self) -> &[Level] {
        &self.levels
    }

    /// One level.
    #[must_use]
    pub fn level(&self, id: LevelId) -> Option<&Level> {
        self.levels.iter().find(|level| level.id == id)
    }

    /// The level right under this one.
    #[must_use]
    pub fn level_below(&self, id: LevelId) -> Option<&Level> {
        let index = self.levels.iter().position(|level| level.id == id)?;
        self.levels.get(index.checked_sub(1)?)
    }

    /// The level right over this one.
    #[must_use]
    pub fn level_above(&self, id: LevelId) -> Option<&Level> {
        let index = self.levels.iter().position(|level| level.id == id)?;
        self.levels.get(index + 1)
    }

    /// The level that holds an element.
    #[must_use]
    pub fn level_of(&self, element: ElementId) -> Option<&Level> {
        self.levels.iter().find(|level| level.element(element).is_some())
    }

    /// A copy of one element.
    #[must_use]
    pub fn element(&self, id: ElementId) -> Option<Element> {
        self.levels.iter().find_map(|level| level.element(id))
    }

    /// One wall and its level.
    #[must_use]
    pub fn wall(&self, id: WallId) -> Option<(&Level, &Wall)> {
        self.levels.iter().find_map(|level| level.wall(id).map(|wall| (level, wall)))
    }

    /// The number the last new element was given.
    #[must_use]
    pub const fn newest(&self) -> u32 {
        self.next_id - 1
    }

    /// A wall by the name its author gave it.
    #[must_use]
    pub fn wall_named(&self, name: &str) -> Option<&Wall> {
        self.levels.iter().flat_map(|level| &level.walls).find(|wall| wall.name == name)
    }
}

impl Level {
    /// One wall.
    #[must_use]
    pub fn wall(&self, id: WallId) -> Option<&Wall> {
        self.walls.iter().find(|wall| wall.id == id)
    }

    /// The outside walls joined end to end: each closed loop of corners.
    #[must_use]
    pub fn outlines(&self) -> Vec<Vec<Point>> {
        let mut left: Vec<&Wall> = self.walls.iter().filter(|wall| wall.side == Side::Outside).collect();
        let mut loops = Vec::new();
        while !left.is_empty() {
            let first = left.remove(0);
            let mut corners = vec![first.a, first.b];
            while let (Some(&start), Some(&end)) = (corners.first(), corners.last()) {
                if start == end {
                    corners.pop();
                    if corners.len() >= 3 {
                        loops.push(corners);
                    }
                    break;
                }
                let Some(next) = left.iter().position(|wall| wall.a == end || wall.b == end) else {
                    break;
                };
                let wall = left.remove(next);
                corners.push(if wall.a == end { wall.b } else { wall.a });
            }
        }
        loops
    }

    /// The polygons a region stands for on this level.
    #[must_use]
    pub fn polygons(&self, region: &Region) -> Vec<Vec<Point>> {
        match region {
            Region::Outline => self.outlines(),
            Region::Corners(corners) => vec![corners.clone()],
        }
    }

    /// The openings of one wall, in the order they stand along it.
    #[must_use]
    pub fn openings_in(&self, wall: WallId) -> Vec<&Opening> {
        let mut openings: Vec<&Opening> = self.openings.iter().filter(|opening| opening.wall == wall).collect();
        openings.order_by_key(|opening| (opening.offset, opening.id));
        openings
    }

    /// A wall's height: its own, or the level's.
    #[must_use]
    pub fn height_of(&self, wall: &Wall) -> Ticks {
        wall.height.unwrap_or(self.height)
    }
}
