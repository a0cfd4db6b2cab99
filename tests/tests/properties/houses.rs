//! Random houses: one to three levels, any outline, walls anywhere, fields over each other, beams on anything.
//!
//! A recipe holds shares of the outline and small whole numbers, so that a failing house shrinks to a small one. All
//! lengths come out in whole inches: places that ought to tie do tie.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::geometry;
use joistwise_core::ids::{FootingId, OpeningId};
use joistwise_core::loads::{Surface, Thing};
use joistwise_core::plan::{
    Built, Footing, FootingMake, FootingShape, Header, Jamb, Joints, Level, Make, Meets, Member, Opening, OpeningKind,
    Over, Plan, Point, PostKind, Region, RoofForm, RoofFrame, RoofOpening, Set, Side, Stands, Top, TrussMake, Use, Way,
    Webs,
};
use joistwise_core::units::{Psf, Ticks};
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::select;

/// Hundredths of the width and depth of the house.
type Share = (i32, i32);

/// A straight line somewhere in the house.
#[derive(Clone, Copy, Debug)]
pub(super) enum Run {
    AlongX { from: i32, to: i32, at: i32 },
    AlongY { from: i32, to: i32, at: i32 },
    Free { from: Share, to: Share },
}

#[derive(Clone, Debug)]
struct InsideWall {
    run: Run,
    top: Top,
    make: Make,
    /// Inches, where it is not as high as its level.
    height: Option<i32>,
    /// Offset and width in inches.
    doors: Vec<(i32, i32)>,
}

#[derive(Clone, Debug)]
enum Part {
    Whole,
    Box(Share, Share),
    Slanted(Share, Share, (i32, i32)),
}

#[derive(Clone, Debug)]
struct Field {
    part: Part,
    along: (i32, i32),
    joints: Joints,
    used_as: Use,
    /// Inches.
    spacing: f64,
    dead: Option<i32>,
}

#[derive(Clone, Debug)]
struct BeamAndPosts {
    run: Run,
    set: Set,
    joints: Joints,
    posts: Vec<i32>,
}

#[derive(Clone, Debug)]
struct AnyRoof {
    part: Part,
    ridge: (i32, i32),
    ridge_at: Option<Share>,
    form: RoofForm,
    frame: RoofFrame,
    rise: i32,
    /// Inches.
    overhang: i32,
    /// Each with a place on the line of the feet, and how far apart its struts are in inches.
    purlins: Vec<(Run, Option<Share>, i32)>,
}

#[derive(Clone, Debug)]
struct Storey {
    /// Inches off the house below on each side.
    inset: Option<(i32, i32)>,
    masonry: bool,
    windows: Vec<(usize, i32, i32)>,
    walls: Vec<InsideWall>,
    fields: Vec<Field>,
    stairs: Vec<(Share, (i32, i32))>,
    beams: Vec<BeamAndPosts>,
    posts: Vec<Share>,
    roofs: Vec<AnyRoof>,
    things: Vec<(Thing, Share, (i32, i32), bool)>,
}

#[derive(Clone, Debug)]
enum Outline {
    Box,
    Ell(Share),
    Slanted(i32, i32),
}

/// What a random house is made from.
#[derive(Clone, Debug)]
pub(super) struct Recipe {
    /// Inches.
    size: (i32, i32),
    outline: Outline,
    storeys: Vec<Storey>,
    snow: Option<i32>,
    pads: bool,
}

fn share() -> impl Strategy<Value = Share> {
    (0..=100, 0..=100)
}

fn way() -> impl Strategy<Value = (i32, i32)> {
    prop_oneof![
        6 => select(vec![(1, 0), (0, 1)]),
        1 => select(vec![(1, 1), (1, -1), (2, 1), (1, 3)]),
        1 => (-50..50, 1..50),
    ]
}

/// Any straight line in a house.
pub(super) fn any_run() -> impl Strategy<Value = Run> {
    prop_oneof![
        3 => (0..=100, 0..=100, 0..=100).prop_map(|(from, to, at)| Run::AlongX { from, to, at }),
        3 => (0..=100, 0..=100, 0..=100).prop_map(|(from, to, at)| Run::AlongY { from, to, at }),
        2 => select(vec![25, 50, 75]).prop_map(|at| Run::AlongX { from: 0, to: 100, at }),
        1 => (share(), share()).prop_map(|(from, to)| Run::Free { from, to }),
    ]
}

fn joints() -> impl Strategy<Value = Joints> {
    select(vec![Joints::NotSeen, Joints::Lap, Joints::RunThrough])
}

fn part() -> impl Strategy<Value = Part> {
    prop_oneof![
        3 => Just(Part::Whole),
        3 => (share(), share()).prop_map(|(a, b)| Part::Box(a, b)),
        1 => (share(), share(), (-20..20, -20..20)).prop_map(|(a, b, slant)| Part::Slanted(a, b, slant)),
    ]
}

fn field() -> impl Strategy<Value = Field> {
    let uses = select(vec![Use::Living, Use::Sleeping, Use::AtticStorage, Use::AtticBare]);
    let spacing = select(vec![12.0, 16.0, 19.2, 24.0]);
    (part(), way(), joints(), uses, spacing, option::weighted(0.2, 0..20))
        .prop_map(|(part, along, joints, used_as, spacing, dead)| Field { part, along, joints, used_as, spacing, dead })
}

fn inside_wall() -> impl Strategy<Value = InsideWall> {
    let top = prop_oneof![9 => Just(Top::Tight), 1 => Just(Top::Gap)];
    let make = prop_oneof![9 => Just(Make::Stud), 1 => Just(Make::Masonry)];
    let height = option::weighted(0.3, 24..200);
    (any_run(), top, make, height, vec((0..300, 20..80), 0..3)).prop_map(|(run, top, make, height, doors)| InsideWall {
        run,
        top,
        make,
        height,
        doors,
    })
}

fn beam() -> impl Strategy<Value = BeamAndPosts> {
    (any_run(), select(vec![Set::Dropped, Set::Flush]), joints(), vec(0..=100, 0..4))
        .prop_map(|(run, set, joints, posts)| BeamAndPosts { run, set, joints, posts })
}

fn roof() -> impl Strategy<Value = AnyRoof> {
    let trusses = RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole };
    let frame = prop_oneof![
        6 => select(vec![RoofFrame::NotSeen, RoofFrame::RidgeBoard, RoofFrame::RidgeBeam, trusses]),
        1 => Just(RoofFrame::OverFramed),
    ];
    let gambrel = (12..120, 1..12)
        .prop_map(|(run, rise)| RoofForm::Gambrel { lower_run: inches(run, 0).x, upper_rise: inches(rise, 0).x });
    let form = prop_oneof![
        4 => select(vec![RoofForm::Gable, RoofForm::Shed]),
        3 => Just(RoofForm::Hip),
        1 => gambrel,
    ];
    let purlin = (any_run(), option::weighted(0.8, share()), 12..72);
    (part(), (way(), option::weighted(0.3, share())), (form, frame), 1..16, 0..36, vec(purlin, 0..3)).prop_map(
        |(part, (ridge, ridge_at), (form, frame), rise, overhang, purlins)| AnyRoof {
            part,
            ridge,
            ridge_at,
            form,
            frame,
            rise,
            overhang,
            purlins,
        },
    )
}

fn storey() -> impl Strategy<Value = Storey> {
    (
        (
            option::weighted(0.3, (-40..60, -40..60)),
            proptest::bool::weighted(0.2),
            vec((0..6_usize, 0..300, 20..80), 0..3),
        ),
        vec(inside_wall(), 0..6),
        vec(field(), 0..4),
        vec((share(), (20..140, 20..140)), 0..3),
        vec(beam(), 0..4),
        vec(share(), 0..3),
        (vec(roof(), 0..3), vec((select(Thing::ALL.to_vec()), share(), (20..120, 20..120), any::<bool>()), 0..3)),
    )
        .prop_map(|((inset, masonry, windows), walls, fields, stairs, beams, posts, (roofs, things))| Storey {
            inset,
            masonry,
            windows,
            walls,
            fields,
            stairs,
            beams,
            posts,
            roofs,
            things,
        })
}

/// Any house.
pub(super) fn any_house() -> impl Strategy<Value = Recipe> {
    let outline = prop_oneof![
        4 => Just(Outline::Box),
        2 => (20..80, 20..80).prop_map(Outline::Ell),
        1 => (-60..60, -60..60).prop_map(|(a, b)| Outline::Slanted(a, b)),
    ];
    ((144..540, 144..420), outline, vec(storey(), 1..4), option::of(0..60), any::<bool>())
        .prop_map(|(size, outline, storeys, snow, pads)| Recipe { size, outline, storeys, snow, pads })
}

fn inches(x: i32, y: i32) -> Point {
    Point::new(Ticks::new(x * Ticks::PER_INCH), Ticks::new(y * Ticks::PER_INCH))
}

impl Recipe {
    fn place(&self, share: Share) -> Point {
        inches(self.size.0 * share.0 / 100, self.size.1 * share.1 / 100)
    }

    /// The same with a hip over the whole house, alone: where another roof cuts it, or no wall is near its eaves, rounding
    /// decides between strips that are all but alike.
    pub(super) fn with_whole_hips(mut self) -> Self {
        for storey in &mut self.storeys {
            let hip = storey.roofs.iter().find(|roof| roof.form == RoofForm::Hip).cloned();
            if let Some(hip) = hip {
                storey.roofs = vec![AnyRoof { part: Part::Whole, ..hip }];
            }
        }
        self
    }

    /// Its two ends in this house.
    pub(super) fn ends(&self, run: Run) -> (Point, Point) {
        match run {
            Run::AlongX { from, to, at } => (self.place((from, at)), self.place((to, at))),
            Run::AlongY { from, to, at } => (self.place((at, from)), self.place((at, to))),
            Run::Free { from, to } => (self.place(from), self.place(to)),
        }
    }

    fn corners(&self, storey: &Storey) -> Vec<Point> {
        let (dx, dy) = storey.inset.unwrap_or_default();
        let (x, y) = (self.size.0 - dx, self.size.1 - dy);
        match self.outline {
            Outline::Box => vec![inches(dx, 0), inches(x, 0), inches(x, y), inches(dx, y)],
            Outline::Ell((share_x, share_y)) => {
                let (cut_x, cut_y) = (x * share_x / 100, y * share_y / 100);
                vec![inches(0, 0), inches(x, 0), inches(x, cut_y), inches(cut_x, cut_y), inches(cut_x, y), inches(0, y)]
            }
            Outline::Slanted(a, b) => vec![inches(0, 0), inches(x, a), inches(x + b, y), inches(-b, y)],
        }
    }

    fn region(&self, part: &Part) -> Option<Region> {
        let corners = match *part {
            Part::Whole => return Some(Region::Outline),
            Part::Box(a, b) => {
                let (a, b) = (self.place(a), self.place(b));
                vec![a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)]
            }
            Part::Slanted(a, b, (dx, dy)) => {
                let (a, b) = (self.place(a), self.place(b));
                let by = inches(dx, dy);
                vec![a, Point::new(b.x + by.x, a.y + by.y), b, Point::new(a.x, b.y)]
            }
        };
        geometry::is_outline(&corners).then_some(Region::Corners(corners))
    }

    /// The house; none if its parts do not make one.
    pub(super) fn house(&self) -> Option<Plan> {
        let mut house = draft();
        for (number, storey) in self.storeys.iter().enumerate() {
            if number > 0 {
                house = house.up();
            }
            house = self.storey(house, storey);
        }
        if let Some(snow) = self.snow {
            // What the place says of its snow follows from how much there is, so that old seeds still make their houses.
            let surfaces = [Surface::NotStated, Surface::Rough, Surface::Slippery];
            house = house.snow(f64::from(snow)).site(|site| {
                site.roof_surface =
                    surfaces.into_iter().cycle().nth(snow.unsigned_abs() as usize % 3).unwrap_or_default();
                site.exposure = (snow % 2 == 0).then_some(0.9);
                site.thermal = (snow % 5 > 2).then_some(1.1);
                site.importance = (snow % 7 == 0).then_some(1.2);
            });
        }
        let mut file = house.file();
        if let Some(lowest) = file.levels.first_mut().filter(|_| self.pads) {
            add_footings(lowest);
        }
        Plan::try_from(file).ok()
    }

    fn storey(&self, mut house: Draft, storey: &Storey) -> Draft {
        let outline = self.corners(storey);
        if !geometry::is_outline(&outline) {
            return house;
        }
        house = house.outline(&outline);
        if storey.masonry {
            house = house.with(|level| level.walls.iter_mut().for_each(|wall| wall.make = Make::Masonry));
        }
        for wall in &storey.walls {
            let (a, b) = self.ends(wall.run);
            if a != b {
                house = house.inside("", (0, 0), (1, 1)).wall(|it| {
                    (it.a, it.b, it.top, it.make) = (a, b, wall.top, wall.make);
                    it.height = wall.height.map(|height| inches(height, 0).x);
                });
                if wall.doors.len() == 1 {
                    house = house.wall(|it| it.built = Built::Later);
                }
                for door in &wall.doors {
                    house = house.with(|level| add_opening(level, usize::MAX, *door));
                }
            }
        }
        for (wall, offset, width) in &storey.windows {
            house = house.with(|level| add_opening(level, *wall, (*offset, *width)));
        }
        for field in &storey.fields {
            if let Some(region) = self.region(&field.part) {
                house = house.joists_over(region, Way::new(field.along.0, field.along.1), field.joints);
                house = house.used_as(field.used_as).with(|level| {
                    if let Some(it) = level.fields.last_mut() {
                        it.spacing = Ticks::from_inches(field.spacing).unwrap_or_default();
                        it.dead = field.dead.map(|psf| Psf(f64::from(psf)));
                    }
                });
            }
        }
        for (at, size) in &storey.stairs {
            let at = self.place(*at);
            let far = Point::new(at.x + inches(size.0, 0).x, at.y + inches(0, size.1).y);
            let corners = vec![at, Point::new(far.x, at.y), far, Point::new(at.x, far.y)];
            house = house.stair((0, 0), (1, 1)).with(|level| {
                if let Some(it) = level.floor_openings.last_mut() {
                    it.corners = corners;
                }
            });
        }
        for beam in &storey.beams {
            house = self.beam(house, beam);
        }
        for share in &storey.posts {
            house = post(house, self.place(*share));
        }
        for (kind, at, size, legs) in &storey.things {
            let at = self.place(*at);
            let far = Point::new(at.x + inches(size.0, 0).x, at.y + inches(0, size.1).y);
            house = house.thing(*kind, (0, 0), (1, 1)).with(|level| {
                if let Some(it) = level.things.last_mut() {
                    it.corners = vec![at, Point::new(far.x, at.y), far, Point::new(at.x, far.y)];
                    it.stands = if *legs { Stands::OnLegs } else { Stands::Flat };
                }
            });
        }
        let mut others = storey.roofs.as_slice();
        if let Some(roof) = storey.roofs.first()
            && let (Outline::Ell(_), 0) = (&self.outline, roof.overhang % 2)
        {
            house = self.valleys(house, roof);
            // Alone, every second time.
            others = if roof.rise % 2 == 0 { &[] } else { others.get(1..).unwrap_or_default() };
        }
        for roof in others {
            let Some(region) = self.region(&roof.part) else { continue };
            house = house.roof(Way::new(roof.ridge.0, roof.ridge.1), 0).over(|it| {
                (it.region, it.form, it.frame) = (region, roof.form, roof.frame);
                it.ridge_at = roof.ridge_at.map(|share| self.place(share));
                it.rise = Ticks::new(roof.rise * Ticks::PER_INCH);
                it.overhang = Ticks::new(roof.overhang * Ticks::PER_INCH);
                // By its rise, so that a seed still means the house it meant.
                it.meets = if roof.rise % 5 == 4 { Meets::Valley } else { Meets::Covers };
                it.openings = self.openings(roof);
            });
            for (run, feet, spacing) in &roof.purlins {
                let (a, b) = self.ends(*run);
                if a != b {
                    house = house.purlin((0, 0), (1, 1), (0, 0)).with(|level| {
                        if let Some(it) = level.purlins.last_mut() {
                            (it.a, it.b, it.spacing) = (a, b, inches(*spacing, 0).x);
                            it.feet = feet.map(|share| self.place(share));
                        }
                    });
                }
            }
        }
        house
    }

    /// In the place of a roof over an outline of the shape of an L, two gables that meet in valleys: how is read from its
    /// numbers, so that a seed still means the house it meant in all else.
    fn valleys(&self, mut house: Draft, roof: &AnyRoof) -> Draft {
        let Outline::Ell((share_x, share_y)) = self.outline else { return house };
        let (x, y) = self.size;
        let (cut_x, cut_y) = (x * share_x / 100, y * share_y / 100);
        let rise = |number: i32| Ticks::new(number * Ticks::PER_INCH);
        let frames = [RoofFrame::NotSeen, RoofFrame::RidgeBoard, RoofFrame::RidgeBeam];
        let frame =
            |number: i32| frames.into_iter().cycle().nth(number.unsigned_abs() as usize % 3).expect("one of three");
        let over = |from: (i32, i32), to: (i32, i32)| {
            let (a, b) = (inches(from.0, from.1), inches(to.0, to.1));
            Region::Corners(vec![a, Point::new(b.x, a.y), b, Point::new(a.x, b.y)])
        };
        let inward = cut_y * roof.ridge.0.rem_euclid(3) / 3;
        house = house.roof(Way::X, 0).over(|it| {
            it.region = over((0, 0), (x, cut_y));
            (it.rise, it.frame, it.overhang) = (rise(roof.rise), frame(roof.overhang / 2), rise(roof.overhang));
        });
        house = house.over(|it| it.openings = self.openings(roof)).wing((0, 0), (1, 1)).over(|it| {
            it.openings = Vec::new();
            it.region = over((0, cut_y - inward), (cut_x, y));
            it.frame = frame(roof.overhang / 6);
            it.rise = rise(if roof.overhang % 4 == 0 { roof.rise } else { roof.rise % 7 + 1 });
            it.overhang = rise((roof.overhang * 5) % 36);
            it.long_valley = (roof.rise % 3 == 0).then(|| inches(cut_x, cut_y));
        });
        if roof.overhang % 8 == 0 {
            house = post(house, inches(cut_x / 2, cut_y - cut_x / 2));
        }
        if roof.rise % 4 == 1 {
            house = house.with(|level| level.roofs.reverse());
        }
        house
    }

    /// Openings in a roof, of some: where, read from its numbers.
    fn openings(&self, roof: &AnyRoof) -> Vec<RoofOpening> {
        if roof.overhang % 3 == 1 {
            return Vec::new();
        }
        let over = [Over::Glass, Over::GableDormer, Over::ShedDormer];
        let one = |x: i32, y: i32, number: i32| RoofOpening {
            from: self.place((x, y)),
            to: self.place((x + 12 + roof.rise, y + 6 + number)),
            over: over.into_iter().cycle().nth(number.unsigned_abs() as usize).expect("one of three"),
            front: inches(12 * (number % 5), 0).x,
        };
        vec![
            one(8 + roof.overhang, 6 + roof.rise, roof.rise),
            one(4 + roof.rise * 3, 60 - roof.overhang, roof.overhang / 3),
        ]
    }

    fn beam(&self, mut house: Draft, beam: &BeamAndPosts) -> Draft {
        let (a, b) = self.ends(beam.run);
        if a == b {
            return house;
        }
        house = house.beam("", (0, 0), (1, 1), beam.joints).with(|level| {
            if let Some(it) = level.beams.last_mut() {
                (it.a, it.b, it.set) = (a, b, beam.set);
            }
        });
        for share in &beam.posts {
            let between = |a: Ticks, b: Ticks| {
                inches(((b - a).get() / Ticks::PER_INCH * share / 100) + a.get() / Ticks::PER_INCH, 0).x
            };
            house = post(house, Point::new(between(a.x, b.x), between(a.y, b.y)));
        }
        house
    }
}

/// Pads under every second post of the lowest level, and strips under every second outside wall.
fn add_footings(level: &mut Level) {
    let posts = level.posts.iter().step_by(2).map(|post| FootingShape::Pad { at: post.at, side: Ticks::from_feet(2) });
    let walls = level.walls.iter().filter(|wall| wall.side == Side::Outside).step_by(2);
    let strips = walls.map(|wall| FootingShape::Strip { a: wall.a, b: wall.b, width: Ticks::from_feet(2) });
    let shapes: Vec<FootingShape> = posts.chain(strips).collect();
    for (number, shape) in (100_000..).zip(shapes) {
        let make = if number % 2 == 0 { FootingMake::ThickenedSlab } else { FootingMake::Footing };
        level.footings.push(Footing { id: FootingId::from_number(number), shape, thickness: None, make });
    }
}

/// An opening in a wall of the level (the last if there is none of that number), if it fits beside those that are there.
fn add_opening(level: &mut Level, wall: usize, (offset, width): (i32, i32)) {
    let Some(wall) = level.walls.get(wall).or(level.walls.last()) else { return };
    let (offset, width) = (inches(offset, 0).x, inches(width, 0).x);
    let fits = (offset + width).feet() <= geometry::length(wall.a, wall.b);
    let clear = |it: &&Opening| offset >= it.offset + it.width || offset + width <= it.offset;
    if fits && level.openings_in(wall.id).iter().all(clear) {
        let number = 200_000 + 100 * level.id.number() + u32::try_from(level.openings.len()).expect("a few");
        let (id, kind, header) = (OpeningId::from_number(number), OpeningKind::Door, Header::NotSeen);
        let (first, second) = (Jamb::default(), Jamb::default());
        level.openings.push(Opening { id, wall: wall.id, offset, width, kind, header, first, second });
    }
}

fn post(house: Draft, at: Point) -> Draft {
    house.post("", (0, 0)).with(|level| {
        if let Some(it) = level.posts.last_mut() {
            it.at = at;
            // By its number, so that a seed still means the house it meant.
            it.kind = match it.id.number() % 3 {
                0 => PostKind::StudPack,
                1 => PostKind::Pier,
                _ => PostKind::Wood,
            };
            it.member = match it.id.number() % 5 {
                0 => Member::sawn(4, 4),
                1 => Member::sawn(6, 6),
                2 => Member::plies(3, 2, 4),
                _ => Member::default(),
            };
        }
    })
}
