//! How much of a house this program takes, counted and estimated before anything is laid out.
//!
//! The time of a trace grows with the members it lays and with what each of them crosses, not with the number of parts: two
//! parts, an outline and a roof, can ask for a billion rafters. So both are estimated from the drawing alone, in a few
//! microseconds, in the file, in the link and after every change. A house within the limits is traced at once; one
//! beyond them gets one sentence that says what is too much, and how much is taken.

use super::{Level, Plan, Point, Region, RoofForm, Way};
use crate::geometry::{Frame, Spot};
use crate::order::InOrder as _;
use crate::units::Ticks;

/// What is limited.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Of {
    /// Levels of the house.
    Levels,
    /// Parts of all levels together: walls, openings, joist fields and so on.
    Parts,
    /// Joist fields over one level.
    Fields,
    /// Roofs of one level.
    Roofs,
    /// Outside walls of one level.
    OutsideWalls,
    /// Corners of one outline.
    Corners,
    /// Corners of all outlines together.
    AllCorners,
    /// Joists, rafters and trusses as they would be laid.
    Members,
    /// What tracing those would take: for each place where a member crosses what it rests on, a step for every other such
    /// place on it and every wall, post and thing on it, and some for each member.
    Steps,
    /// Layers of one part.
    Layers,
    /// Openings in one roof.
    RoofOpenings,
    /// Studies that were kept.
    Kept,
    /// New posts in one of them.
    PostsBetween,
    /// Ticks of the survey.
    Ticks,
    /// Letters of one name or day.
    Name,
    /// Letters of the note on one thing seen.
    Note,
    /// Letters of the note on the house.
    HouseNote,
    /// Letters of all names and notes together.
    Letters,
    /// Bytes of one photo, as text.
    Photo,
    /// Bytes of all photos together.
    Photos,
    /// Letters of what a file holds and this version does not know.
    Unknown,
}

impl Of {
    /// All that is limited.
    pub const ALL: [Self; 21] = [
        Self::Levels,
        Self::Parts,
        Self::Fields,
        Self::Roofs,
        Self::OutsideWalls,
        Self::Corners,
        Self::AllCorners,
        Self::Members,
        Self::Steps,
        Self::Layers,
        Self::RoofOpenings,
        Self::Kept,
        Self::PostsBetween,
        Self::Ticks,
        Self::Name,
        Self::Note,
        Self::HouseNote,
        Self::Letters,
        Self::Photo,
        Self::Photos,
        Self::Unknown,
    ];

    /// How many are taken: about twenty times a large house. The largest that are taken are traced in about 50 ms in a browser.
    #[must_use]
    pub const fn most(self) -> usize {
        match self {
            Self::Levels => 8,
            Self::Parts => 1_000,
            Self::Fields | Self::Layers | Self::RoofOpenings | Self::PostsBetween => 40,
            Self::Roofs => 12,
            Self::OutsideWalls | Self::Corners | Self::Name => 200,
            Self::Kept => 100,
            Self::AllCorners | Self::Ticks => 2_000,
            Self::Members => 12_000,
            Self::Steps => 800_000,
            Self::Note => 4_000,
            Self::HouseNote => 20_000,
            Self::Letters => 400_000,
            Self::Photo => 1_000_000,
            Self::Photos => 12_000_000,
            Self::Unknown => 200_000,
        }
    }

    /// What it is, in the plural, as the table of limits names it.
    #[must_use]
    pub const fn what(self) -> &'static str {
        match self {
            Self::Levels => "levels",
            Self::Parts => "parts",
            Self::Fields => "joist fields on one level",
            Self::Roofs => "roofs on one level",
            Self::OutsideWalls => "outside walls on one level",
            Self::Corners => "corners in one outline",
            Self::AllCorners => "corners in all outlines together",
            Self::Members => "joists, rafters and trusses",
            Self::Steps => {
                "steps of work to trace its joists and rafters over and under its walls, beams, posts and things"
            }
            Self::Layers => "layers on one part",
            Self::RoofOpenings => "openings in one roof",
            Self::Kept => "kept studies",
            Self::PostsBetween => "new posts in one kept study",
            Self::Ticks => "ticks of the survey",
            Self::Name => "letters in one name or day",
            Self::Note => "letters in the note on one thing seen",
            Self::HouseNote => "letters in the note on the house",
            Self::Letters => "letters in all names and notes together",
            Self::Photo => "bytes in one photo",
            Self::Photos => "bytes in all photos together",
            Self::Unknown => "letters that this version does not know",
        }
    }

    /// Nothing if there are no more of them than are taken.
    pub(super) fn check(self, count: usize) -> Result<(), TooMuch> {
        if count <= self.most() { Ok(()) } else { Err(TooMuch { of: self, count }) }
    }
}

/// What is taken of what, for the schema of the house file.
#[cfg(feature = "schema")]
pub(super) fn table() -> std::collections::BTreeMap<&'static str, usize> {
    Of::ALL.into_iter().map(|of| (of.what(), of.most())).collect()
}

/// More than this program takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{} {} are too many; up to {} are taken", grouped(*.count), .of.what(), grouped(.of.most()))]
pub struct TooMuch {
    /// Of what.
    pub of: Of,
    /// How many there are, or would be.
    pub count: usize,
}

/// A number with commas between its thousands.
fn grouped(number: usize) -> String {
    let digits = number.to_string();
    let mut text = String::with_capacity(digits.len() + 4);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

impl Plan {
    /// Whether this program takes the house; the first thing that is too much.
    pub(super) fn afford(&self) -> Result<(), TooMuch> {
        self.count()?;
        self.spell()?;
        let (mut members, mut steps) = (0.0, 0.0);
        for (number, level) in self.levels.iter().enumerate() {
            let above = number.checked_add(1).and_then(|next| self.levels.get(next));
            let laid = Laid::on(level, above);
            members += laid.members;
            steps += laid.steps;
            Of::Members.check(whole(members))?;
            Of::Steps.check(whole(steps))?;
        }
        Ok(())
    }

    /// What can be counted.
    fn count(&self) -> Result<(), TooMuch> {
        Of::Levels.check(self.levels.len())?;
        Of::Parts.check(self.levels.iter().map(Level::parts).sum())?;
        Of::Kept.check(self.kept.len())?;
        self.kept.iter().try_for_each(|kept| Of::PostsBetween.check(kept.posts_between.len()))?;
        Of::Ticks.check(self.ticks.len())?;
        let mut corners = 0;
        for level in &self.levels {
            Of::Fields.check(level.fields.len())?;
            Of::Roofs.check(level.roofs.len())?;
            let outside = level.walls.iter().filter(|wall| wall.side == super::Side::Outside).count();
            Of::OutsideWalls.check(outside)?;
            for outline in level.drawn() {
                Of::Corners.check(outline.len())?;
                corners += outline.len();
            }
            let regions = level.fields.iter().map(|it| &it.region).chain(level.roofs.iter().map(|it| &it.region));
            corners += regions.filter(|region| **region == Region::Outline).count() * outside;
            let layers = level.walls.iter().map(|it| &it.layers).chain(level.fields.iter().map(|it| &it.layers));
            layers
                .chain(level.roofs.iter().map(|it| &it.layers))
                .try_for_each(|layers| Of::Layers.check(layers.len()))?;
            level.roofs.iter().try_for_each(|roof| Of::RoofOpenings.check(roof.openings.len()))?;
        }
        Of::AllCorners.check(corners)
    }

    /// What is written and pictured in it.
    fn spell(&self) -> Result<(), TooMuch> {
        let (mut letters, mut photos) = (self.name.len() + self.note.len(), 0);
        Of::Name.check(long(&self.name, Of::Name))?;
        Of::HouseNote.check(long(&self.note, Of::HouseNote))?;
        let mut name = |text: &str| {
            letters += text.len();
            Of::Name.check(long(text, Of::Name))
        };
        self.kept.iter().try_for_each(|kept| name(&kept.name))?;
        self.ticks.iter().try_for_each(|tick| name(&tick.day))?;
        for level in &self.levels {
            name(&level.name)?;
            level.walls.iter().try_for_each(|it| name(&it.name))?;
            level.posts.iter().try_for_each(|it| name(&it.name))?;
            level.beams.iter().try_for_each(|it| name(&it.name))?;
            level.things.iter().try_for_each(|it| name(&it.name))?;
            level.observations.iter().try_for_each(|it| name(&it.day))?;
        }
        for seen in self.levels.iter().flat_map(|level| &level.observations) {
            letters += seen.note.len();
            Of::Note.check(long(&seen.note, Of::Note))?;
            photos += seen.photo.len();
            Of::Photo.check(seen.photo.len())?;
        }
        Of::Letters.check(letters)?;
        Of::Photos.check(photos)
    }
}

/// The letters of a text; of one that is short enough in any case its bytes.
fn long(text: &str, limit: Of) -> usize {
    if text.len() <= limit.most() { text.len() } else { text.chars().count() }
}

/// An estimate as a whole number, of which only its size matters.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "what is too large becomes the largest")]
fn whole(estimate: f64) -> usize {
    estimate as usize
}

/// Whether an outline is short enough to be looked at: what makes it one is found side by side.
pub(super) fn short_enough(corners: &[Point]) -> Result<(), TooMuch> {
    Of::Corners.check(corners.len())
}

impl Level {
    /// How many parts it has.
    fn parts(&self) -> usize {
        self.element_ids().len()
    }

    /// The outlines drawn on it, one after the other.
    fn drawn(&self) -> impl Iterator<Item = &Vec<Point>> {
        let regions = self.fields.iter().map(|it| &it.region).chain(self.roofs.iter().map(|it| &it.region));
        let regions = regions.filter_map(|region| match region {
            Region::Corners(corners) => Some(corners),
            Region::Outline => None,
        });
        let openings = self.floor_openings.iter().map(|it| &it.corners);
        regions.chain(openings).chain(self.things.iter().map(|it| &it.corners))
    }
}

/// What would be laid on one level, as far as the drawing tells.
#[derive(Default)]
struct Laid {
    members: f64,
    steps: f64,
}

/// From the first to the last of something, in feet.
type Run = (f64, f64);
type Side = (Point, Point);

/// A roof is met with every other one, whatever they cover.
const STEPS_A_ROOF: f64 = 12.0;

/// Where members lie.
struct Over<'a> {
    along: Way,
    spacing: Ticks,
    region: &'a Region,
    outline: &'a [Side],
}

impl Laid {
    fn on(level: &Level, above: Option<&Level>) -> Self {
        let mut laid = Self::default();
        let outside = level.walls.iter().filter(|wall| wall.side == super::Side::Outside);
        let outline: Vec<Side> = outside.map(|wall| (wall.a, wall.b)).collect();
        let outline = outline.as_slice();
        let holes: Vec<Side> = level.floor_openings.iter().flat_map(|it| sides(&it.corners)).collect();
        let (under, on) = (level.bearers(), above.map(Level::stands).unwrap_or_default());
        for (number, field) in level.fields.iter().enumerate() {
            // Each side that the joists run up to starts or ends one, be it of the field or of what is taken out of it.
            let mut edges = edges_of(&field.region, outline);
            let later = level.fields.iter().skip(number + 1);
            edges.extend(later.flat_map(|later| edges_of(&later.region, outline)));
            edges.extend(holes.iter().copied());
            let over = Over { along: field.along, spacing: field.spacing, region: &field.region, outline };
            let cuts = level.fields.len() - number + level.floor_openings.len();
            laid.lay(&over, &edges, (&under, &on), (1.0, count(cuts)));
        }
        for roof in &level.roofs {
            let mut edges = edges_of(&roof.region, outline);
            for opening in &roof.openings {
                let across = Point::new(opening.to.x, opening.from.y);
                edges.extend(sides(&[opening.from, across, opening.to, Point::new(opening.from.x, opening.to.y)]));
            }
            // Rafters come from both sides, on a gambrel in two pieces.
            let pieces = if matches!(roof.form, RoofForm::Gambrel { .. }) { 4.0 } else { 2.0 };
            let cuts = STEPS_A_ROOF * count(level.roofs.len()) + count(roof.openings.len());
            let over = Over { along: roof.ridge.square(), spacing: roof.spacing, region: &roof.region, outline };
            laid.lay(&over, &edges, (&under, &[]), (pieces, cuts));
            if roof.form == RoofForm::Hip {
                laid.lay(&Over { along: roof.ridge, ..over }, &edges, (&under, &[]), (pieces, cuts));
            }
        }
        laid
    }

    /// Members over a region, cut at `edges`, on what is `under` them and with what is `on` them; each in so many pieces, and
    /// looked at so many times.
    fn lay(&mut self, over: &Over<'_>, edges: &[Side], (under, on): (&[Side], &[Side]), (pieces, looks): (f64, f64)) {
        let frame = Frame::of(over.along);
        // The check of the spacing comes later.
        let spacing = over.spacing.feet().0.max(1.0 / 12.0);
        let of = |(a, b): Side| {
            let (a, b) = (frame.local(Spot::from(a)), frame.local(Spot::from(b)));
            ((a.0.0.min(b.0.0), a.0.0.max(b.0.0)), (a.1.0.min(b.1.0), a.1.0.max(b.1.0)))
        };
        let nothing = ((f64::INFINITY, f64::NEG_INFINITY), (f64::INFINITY, f64::NEG_INFINITY));
        let own = edges_of(over.region, over.outline).into_iter().map(of).fold(nothing, |all, it| {
            ((all.0.0.min(it.0.0), all.0.1.max(it.0.1)), (all.1.0.min(it.1.0), all.1.1.max(it.1.1)))
        });
        // How far each of them runs across the members, from where to where.
        let across = |sides: &[Side], beside: f64| -> Vec<Run> {
            let within = |run: Run, of: Run, beside: f64| (run.0.max(of.0 - beside), run.1.min(of.1 + beside));
            let runs = sides.iter().copied().map(of);
            let runs = runs.map(|(t, s)| (within(t, own.0, BESIDE), within(s, own.1, beside)));
            runs.filter(|(t, s)| t.0 <= t.1 && s.0 <= s.1).map(|(_, s)| s).collect()
        };
        // One at each end of a side besides; each joist has two ends.
        let ends: f64 = across(edges, 0.0).into_iter().map(|s| (s.1 - s.0) / spacing + 2.0).sum();
        let members = pieces * ends / 2.0;
        let (under, on) = (across(under, BESIDE), across(on, BESIDE));
        let crossings: f64 = under.iter().map(|s| (s.1 - s.0) / spacing + 1.0).sum();
        self.members += members;
        self.steps += members * looks + crossings * most_at_once(&under) * (1.0 + most_at_once(&on));
    }
}

/// How many runs lie side by side where the most do.
fn most_at_once(runs: &[Run]) -> f64 {
    let mut stops: Vec<(f64, f64)> = runs.iter().flat_map(|s| [(s.0 - REACH, 1.0), (s.1 + REACH, -1.0)]).collect();
    stops.order_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)));
    let (mut open, mut most) = (0.0, 0.0_f64);
    for (_, step) in stops {
        open += step;
        most = most.max(open);
    }
    most
}

/// A count, to reckon with.
#[expect(clippy::cast_precision_loss, reason = "a few thousand")]
const fn count(of: usize) -> f64 {
    of as f64
}

/// What is this far from a field, in feet, may still have to do with it.
const BESIDE: f64 = 1.0;
/// A joist this far beside the end of a wall, in feet, still rests on it.
const REACH: f64 = 0.3;

fn sides(corners: &[Point]) -> Vec<Side> {
    corners.iter().copied().zip(corners.iter().copied().cycle().skip(1)).collect()
}

fn edges_of(region: &Region, outline: &[Side]) -> Vec<Side> {
    match region {
        Region::Outline => outline.to_vec(),
        Region::Corners(corners) => sides(corners),
    }
}

impl Level {
    /// What its members may lie on.
    fn bearers(&self) -> Vec<Side> {
        let walls = self.walls.iter().map(|it| (it.a, it.b));
        let beams = self.beams.iter().map(|it| (it.a, it.b));
        let purlins = self.purlins.iter().map(|it| (it.a, it.b));
        let posts = self.posts.iter().map(|it| (it.at, it.at));
        walls.chain(beams).chain(purlins).chain(posts).collect()
    }

    /// What of it may stand on the deck below.
    fn stands(&self) -> Vec<Side> {
        let walls = self.walls.iter().map(|it| (it.a, it.b));
        let posts = self.posts.iter().map(|it| (it.at, it.at));
        // A thing reaches over the box around it.
        let things = self.things.iter().filter_map(|it| {
            let least = it.corners.iter().copied().reduce(|a, b| Point::new(a.x.min(b.x), a.y.min(b.y)))?;
            let most = it.corners.iter().copied().reduce(|a, b| Point::new(a.x.max(b.x), a.y.max(b.y)))?;
            Some((least, most))
        });
        walls.chain(posts).chain(things).collect()
    }
}
