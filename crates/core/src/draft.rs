//! A plan in a line, for tests and benches: feet in, a sound [`Plan`] out.
//!
//! Names what a test talks about and takes the usual for all else. Not for the page: what cannot be drawn panics.
//!
//! ```
//! use joistwise_core::draft::draft;
//! use joistwise_core::plan::{Joints, Use, Way};
//!
//! let plan = draft().outside(36, 24).inside("A", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap).used_as(Use::AtticStorage);
//! assert_eq!(plan.done().wall_named("A").map(|wall| wall.a.y.feet().0), Some(12.0));
//! ```

use crate::ids::{
    BeamId, BoardId, FieldId, FloorOpeningId, FootingId, JoistCutId, LevelId, OpeningId, PostId, PurlinId, RoofId,
    ThingId, WallId,
};
use crate::loads::{Site, Thing};
use crate::plan::{
    Beam, Board, BoardKind, Cut, FloorOpening, Footing, FootingShape, Grade, Header, HeavyThing, Jamb, Joints,
    JoistCut, JoistField, Level, LevelKind, Make, Meets, Member, Opening, OpeningKind, Over, Plan, PlanFile, Point,
    Post, PostKind, Purlin, Region, Roof, RoofForm, RoofFrame, RoofOpening, Set, Side, Stands, Stock, Use, Wall, Way,
    Wood,
};
use crate::strength::factors::{Incising, Moisture};
use crate::strength::lumber::{Grade as Stamp, Species};
use crate::units::{Feet, Psf, Ticks};

/// The wood of what is drafted: dry, and stamped spruce-pine-fir No. 2.
pub const STAMPED: Wood = Wood {
    stock: Some(Stock { species: Species::SprucePineFir, grade: Stamp::Two }),
    moisture: Moisture::Dry,
    incising: Incising::Plain,
};

/// A plan in the making: a stack of levels, of which the last is worked on.
#[derive(Clone, Debug)]
pub struct Draft {
    file: PlanFile,
    next: u32,
}

/// One empty storey.
#[must_use]
pub fn draft() -> Draft {
    Draft { file: PlanFile::from(&Plan::new("Draft")), next: 2 }
}

/// A length in feet.
///
/// # Panics
///
/// If no plan can hold it.
#[must_use]
#[track_caller]
pub fn feet(feet: impl Into<f64>) -> Ticks {
    let feet = Feet(feet.into());
    Ticks::from_decimal_feet(feet).unwrap_or_else(|| panic!("{feet:?} is no length of a plan"))
}

/// A place in feet: east, north.
///
/// # Panics
///
/// If no plan can hold it.
#[must_use]
#[track_caller]
pub fn at((x, y): (impl Into<f64>, impl Into<f64>)) -> Point {
    Point::new(feet(x), feet(y))
}

/// The four corners between two opposite ones, in feet.
#[must_use]
#[track_caller]
pub fn corners(from: (impl Into<f64>, impl Into<f64>), to: (impl Into<f64>, impl Into<f64>)) -> Vec<Point> {
    let (a, b) = (at(from), at(to));
    vec![a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)]
}

impl Draft {
    /// The plan.
    ///
    /// # Panics
    ///
    /// If it does not hold together.
    #[must_use]
    #[track_caller]
    pub fn done(self) -> Plan {
        Plan::try_from(self.file).unwrap_or_else(|error| panic!("{error}"))
    }

    /// The file it would be written to, sound or not.
    #[must_use]
    pub fn file(self) -> PlanFile {
        self.file
    }

    /// The level worked on becomes one of another kind; a basement has concrete walls.
    #[must_use]
    pub fn kind(self, kind: LevelKind) -> Self {
        self.with(|level| level.kind = kind)
    }

    /// A storey on top; what follows goes there.
    #[must_use]
    #[track_caller]
    pub fn up(mut self) -> Self {
        let id = LevelId::from_number(self.number());
        let level = Plan::new("").levels.swap_remove(0);
        self.file.levels.push(Level { id, name: format!("Level {}", self.file.levels.len() + 1), ..level });
        self
    }

    /// Any change of the level worked on.
    #[must_use]
    pub fn with(mut self, change: impl FnOnce(&mut Level)) -> Self {
        if let Some(level) = self.file.levels.last_mut() {
            change(level);
        }
        self
    }

    /// Any change of the wall drawn last.
    #[must_use]
    pub fn wall(self, change: impl FnOnce(&mut Wall)) -> Self {
        self.with(|level| level.walls.last_mut().map(change).unwrap_or_default())
    }

    /// Ground snow in psf.
    #[must_use]
    pub fn snow(self, psf: f64) -> Self {
        self.site(|site| site.ground_snow = Some(Psf(psf)))
    }

    /// Any change of what the place asks of the house.
    #[must_use]
    pub fn site(mut self, change: impl FnOnce(&mut Site)) -> Self {
        change(&mut self.file.site);
        self
    }

    /// Outside walls of a rectangle from the origin, in feet east and north.
    #[must_use]
    #[track_caller]
    pub fn outside(self, east: impl Into<f64>, north: impl Into<f64>) -> Self {
        self.outline(&corners((0, 0), (east, north)))
    }

    /// Outside walls around corners: the first from the first corner to the second.
    #[must_use]
    pub fn outline(mut self, corners: &[Point]) -> Self {
        for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            let under = self.level().is_some_and(|it| matches!(it.kind, LevelKind::Basement | LevelKind::CrawlSpace));
            let (make, inches) = if under { (Make::Concrete, 8.0) } else { (Make::Stud, 6.5) };
            let wall = self.line(String::new(), *a, *b, inches);
            self = self.with(|level| level.walls.push(Wall { side: Side::Outside, make, ..wall }));
        }
        self
    }

    /// A stud wall inside, from one place to another in feet.
    #[must_use]
    #[track_caller]
    pub fn inside(
        mut self,
        name: &str,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
    ) -> Self {
        let wall = self.line(name.to_owned(), at(from), at(to), 4.5);
        self.with(|level| level.walls.push(wall))
    }

    /// A door in the wall drawn last, in feet from its first end.
    #[must_use]
    #[track_caller]
    pub fn door(mut self, offset: impl Into<f64>, width: impl Into<f64>) -> Self {
        let (id, offset, width) = (OpeningId::from_number(self.number()), feet(offset), feet(width));
        self.with(|level| {
            let Some(wall) = level.walls.last().map(|wall| wall.id) else { return };
            let kind = OpeningKind::Door;
            let (header, first, second) = (Header::NotSeen, Jamb::default(), Jamb::default());
            level.openings.push(Opening { id, wall, offset, width, kind, header, first, second });
        })
    }

    /// Joists 16 in on centre over everything inside the outside walls, under rooms, their direction seen.
    #[must_use]
    pub fn joists(self, along: Way, joints: Joints) -> Self {
        self.joists_over(Region::Outline, along, joints)
    }

    /// The same over one region.
    #[must_use]
    pub fn joists_over(mut self, region: Region, along: Way, joints: Joints) -> Self {
        let field = JoistField {
            id: FieldId::from_number(self.number()),
            region,
            along,
            member: Member::sawn(2, 10),
            spacing: Ticks::from_sixteenths(16 * 16),
            joints,
            used_as: Use::Living,
            dead: None,
            layers: Vec::new(),
            wood: STAMPED,
            known: Grade::Seen,
        };
        self.with(|level| level.fields.push(field))
    }

    /// What the joists laid last are under.
    #[must_use]
    pub fn used_as(self, used_as: Use) -> Self {
        self.with(|level| level.fields.last_mut().map(|it| it.used_as = used_as).unwrap_or_default())
    }

    /// An opening in the deck between two opposite corners in feet.
    #[must_use]
    #[track_caller]
    pub fn stair(mut self, from: (impl Into<f64>, impl Into<f64>), to: (impl Into<f64>, impl Into<f64>)) -> Self {
        let opening = FloorOpening { id: FloorOpeningId::from_number(self.number()), corners: corners(from, to) };
        self.with(|level| level.floor_openings.push(opening))
    }

    /// A dropped beam from one place to another in feet.
    #[must_use]
    #[track_caller]
    pub fn beam(
        mut self,
        name: &str,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
        joints: Joints,
    ) -> Self {
        let beam = Beam {
            id: BeamId::from_number(self.number()),
            name: name.to_owned(),
            a: at(from),
            b: at(to),
            member: Member::plies(3, 2, 10),
            set: Set::Dropped,
            joints,
            wood: STAMPED,
        };
        self.with(|level| level.beams.push(beam))
    }

    /// The beam drawn last sits between the joists.
    #[must_use]
    pub fn flush(self) -> Self {
        self.with(|level| level.beams.last_mut().map(|it| it.set = Set::Flush).unwrap_or_default())
    }

    /// A post in feet.
    #[must_use]
    #[track_caller]
    pub fn post(mut self, name: &str, place: (impl Into<f64>, impl Into<f64>)) -> Self {
        let id = PostId::from_number(self.number());
        let (kind, member) = (PostKind::Wood, Member::default());
        let post = Post { id, name: name.to_owned(), at: at(place), kind, member, wood: STAMPED };
        self.with(|level| level.posts.push(post))
    }

    /// A square pad, middle and side in feet.
    #[must_use]
    #[track_caller]
    pub fn pad(self, place: (impl Into<f64>, impl Into<f64>), side: impl Into<f64>) -> Self {
        self.footing(FootingShape::Pad { at: at(place), side: feet(side) })
    }

    /// A strip footing, ends and width in feet.
    #[must_use]
    #[track_caller]
    pub fn strip(
        self,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
        width: impl Into<f64>,
    ) -> Self {
        self.footing(FootingShape::Strip { a: at(from), b: at(to), width: feet(width) })
    }

    /// Rafters at 24 in against a ridge board over everything, rising 6 in 12, with an overhang in feet at the eaves.
    #[must_use]
    #[track_caller]
    pub fn roof(mut self, ridge: Way, overhang: impl Into<f64>) -> Self {
        let roof = Roof {
            id: RoofId::from_number(self.number()),
            region: Region::Outline,
            ridge,
            ridge_at: None,
            form: RoofForm::Gable,
            frame: RoofFrame::RidgeBoard,
            meets: Meets::Covers,
            long_valley: None,
            openings: Vec::new(),
            rise: Ticks::from_sixteenths(6 * 16),
            overhang: feet(overhang),
            spacing: Ticks::from_feet(2),
            member: Member::sawn(2, 8),
            dead: None,
            layers: Vec::new(),
            wood: STAMPED,
            known: Grade::Seen,
        };
        self.with(|level| level.roofs.push(roof))
    }

    /// A roof like the one drawn last over a rectangle between two opposite corners in feet, its ridge square to it, that
    /// meets it in valleys.
    #[must_use]
    #[track_caller]
    pub fn wing(mut self, from: (impl Into<f64>, impl Into<f64>), to: (impl Into<f64>, impl Into<f64>)) -> Self {
        let (id, region) = (RoofId::from_number(self.number()), Region::Corners(corners(from, to)));
        self.with(|level| {
            let Some(main) = level.roofs.last().cloned() else { return };
            level.roofs.push(Roof { id, region, ridge: main.ridge.square(), meets: Meets::Valley, ..main });
        })
    }

    /// An opening in the roof drawn last between two opposite corners, and the height of its front wall, in feet.
    #[must_use]
    #[track_caller]
    pub fn roof_opening(
        self,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
        over: Over,
        front: impl Into<f64>,
    ) -> Self {
        let opening = RoofOpening { from: at(from), to: at(to), over, front: feet(front) };
        self.over(|roof| roof.openings.push(opening))
    }

    /// The roof drawn last, otherwise.
    #[must_use]
    pub fn over(self, change: impl FnOnce(&mut Roof)) -> Self {
        self.with(|level| level.roofs.last_mut().map(change).unwrap_or_default())
    }

    /// A purlin, its ends and a place on the line of its struts' feet in feet; struts 4 ft apart.
    #[must_use]
    #[track_caller]
    pub fn purlin(
        mut self,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
        feet_at: (impl Into<f64>, impl Into<f64>),
    ) -> Self {
        let purlin = Purlin {
            id: PurlinId::from_number(self.number()),
            a: at(from),
            b: at(to),
            member: Member::sawn(2, 6),
            feet: Some(at(feet_at)),
            spacing: Ticks::from_feet(4),
            known: Grade::Seen,
        };
        self.with(|level| level.purlins.push(purlin))
    }

    /// A heavy thing over a rectangle in feet.
    #[must_use]
    #[track_caller]
    pub fn thing(
        mut self,
        kind: Thing,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
    ) -> Self {
        let (id, name) = (ThingId::from_number(self.number()), String::new());
        let (corners, stands, known) = (corners(from, to), Stands::Flat, Grade::Seen);
        let thing = HeavyThing { id, name, kind, corners, stands, weight: None, known };
        self.with(|level| level.things.push(thing))
    }

    /// A notch or hole in the joist nearest to a place in feet.
    #[must_use]
    #[track_caller]
    pub fn cut(mut self, place: (impl Into<f64>, impl Into<f64>), cut: Cut) -> Self {
        let cut = JoistCut { id: JoistCutId::from_number(self.number()), at: at(place), cut, known: Grade::Measured };
        self.with(|level| level.cuts.push(cut))
    }

    /// A rim board, a row of blocking or a ledger from one place to another in feet.
    #[must_use]
    #[track_caller]
    pub fn board(
        mut self,
        kind: BoardKind,
        from: (impl Into<f64>, impl Into<f64>),
        to: (impl Into<f64>, impl Into<f64>),
    ) -> Self {
        let id = BoardId::from_number(self.number());
        let board = Board { id, a: at(from), b: at(to), kind, known: Grade::Seen };
        self.with(|level| level.boards.push(board))
    }

    fn footing(mut self, shape: FootingShape) -> Self {
        let footing =
            Footing { id: FootingId::from_number(self.number()), shape, thickness: None, make: Default::default() };
        self.with(|level| level.footings.push(footing))
    }

    fn level(&self) -> Option<&Level> {
        self.file.levels.last()
    }

    fn number(&mut self) -> u32 {
        self.next += 1;
        self.next - 1
    }

    fn line(&mut self, name: String, a: Point, b: Point, inches: f64) -> Wall {
        let id = WallId::from_number(self.number());
        Wall { id, name, thickness: Ticks::from_inches(inches).unwrap_or_default(), ..Wall::inside(a, b) }
    }
}
