//! What makes a plan sound: every reference resolves, no wall is a point, every number can be meant.

use super::budget::TooMuch;
use super::{Cut, FootingShape, Level, Plan, Point, Region, RoofForm, Saw};
use crate::geometry;
use crate::order::InOrder as _;
use crate::units::{Pounds, Psf, Ticks};

/// Why a plan is not sound. One sentence each, for the person who opened the file or made the change.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Unsound {
    /// A house without a level.
    #[error("the house has no level")]
    NoLevel,
    /// More than the program is made for.
    #[error(transparent)]
    TooMuch(#[from] TooMuch),
    /// Two elements with one number.
    #[error("two parts of the house have the number {0}")]
    TwiceNumbered(u32),
    /// A wall or beam whose ends are one point.
    #[error("part {0} is a point: its two ends are the same")]
    NoLength(u32),
    /// A thickness, spacing, height, width or depth that is not more than zero.
    #[error("the {what} of part {number} must be more than zero")]
    NotPositive {
        /// Of which part.
        number: u32,
        /// Which measure.
        what: &'static str,
    },
    /// A length that is under zero.
    #[error("the {what} of part {number} must not be less than zero")]
    Negative {
        /// Of which part.
        number: u32,
        /// Which measure.
        what: &'static str,
    },
    /// A spacing under an inch: more members than anybody nails.
    #[error("the spacing of part {0} is under an inch")]
    TooTight(u32),
    /// An opening whose wall is not on its level.
    #[error("opening {opening} is in wall {wall}, which its level does not hold")]
    NoSuchWall {
        /// The opening.
        opening: u32,
        /// The wall it names.
        wall: u32,
    },
    /// An opening that passes an end of its wall.
    #[error("opening {opening} does not fit in wall {wall}")]
    DoesNotFit {
        /// The opening.
        opening: u32,
        /// Its wall.
        wall: u32,
    },
    /// Two openings of one wall over each other.
    #[error("openings {0} and {1} overlap")]
    Overlap(u32, u32),
    /// A polygon without area or with sides that cross.
    #[error("the outline of part {0} needs three corners or more, an area, and sides that do not cross")]
    NotAnOutline(u32),
    /// A point outside the range a plan holds.
    #[error("part {0} lies more than 10,000 ft out")]
    TooFar(u32),
    /// A weight that is not a number of pounds from 0 to a million.
    #[error("the weight of part {0} must be from 0 to 1,000,000 lb")]
    NotAWeight(u32),
    /// A photo that is an address elsewhere: nothing is fetched for a house.
    #[error("the photo of part {0} is not in the file itself")]
    NotAPhoto(u32),
    /// A load that is not a number of psf from 0 to 10,000.
    #[error("a load must be from 0 to 10,000 psf")]
    NotALoad,
    /// A factor on snow that no edition has.
    #[error("a factor on snow must be from 0.5 to 2")]
    NotAFactor,
}

impl Plan {
    /// Whether everything holds together; the first thing that does not.
    pub(super) fn check(&self) -> Result<(), Unsound> {
        if self.levels.is_empty() {
            return Err(Unsound::NoLevel);
        }
        self.afford()?;
        let site = [self.site.ground_snow, self.site.roof_live, self.site.soil];
        site.into_iter().flatten().try_for_each(load)?;
        let factors = [self.site.exposure, self.site.thermal, self.site.importance];
        if factors.into_iter().flatten().any(|factor| !(0.5..=2.0).contains(&factor)) {
            return Err(Unsound::NotAFactor);
        }
        let mut numbers: Vec<u32> = self.levels.iter().flat_map(Level::numbers).collect();
        numbers.order();
        for pair in numbers.windows(2) {
            if let [a, b] = pair
                && a == b
            {
                return Err(Unsound::TwiceNumbered(*a));
            }
        }
        self.levels.iter().try_for_each(Level::check)
    }
}

impl Level {
    fn check(&self) -> Result<(), Unsound> {
        positive(self.id.0, "height", self.height)?;
        for wall in &self.walls {
            line(wall.id.0, wall.a, wall.b)?;
            positive(wall.id.0, "thickness", wall.thickness)?;
            positive(wall.id.0, "height", wall.height.unwrap_or(self.height))?;
            self.check_openings(wall)?;
        }
        for opening in &self.openings {
            if self.wall(opening.wall).is_none() {
                return Err(Unsound::NoSuchWall { opening: opening.id.0, wall: opening.wall.0 });
            }
        }
        for post in &self.posts {
            near(post.id.0, post.at)?;
        }
        for beam in &self.beams {
            line(beam.id.0, beam.a, beam.b)?;
        }
        for footing in &self.footings {
            let number = footing.id.0;
            positive(number, "thickness", footing.thickness.unwrap_or(Ticks::from_feet(1)))?;
            match footing.shape {
                FootingShape::Pad { at, side } => {
                    near(number, at)?;
                    positive(number, "side", side)?;
                }
                FootingShape::Strip { a, b, width } => {
                    line(number, a, b)?;
                    positive(number, "width", width)?;
                }
            }
        }
        for field in &self.fields {
            region(field.id.0, &field.region)?;
            spacing(field.id.0, field.spacing)?;
            field.dead.map_or(Ok(()), load)?;
        }
        for opening in &self.floor_openings {
            outline(opening.id.0, &opening.corners)?;
        }
        for roof in &self.roofs {
            region(roof.id.0, &roof.region)?;
            spacing(roof.id.0, roof.spacing)?;
            positive(roof.id.0, "rise", roof.rise)?;
            if roof.overhang < Ticks::ZERO {
                return Err(Unsound::Negative { number: roof.id.0, what: "overhang" });
            }
            roof.ridge_at.map_or(Ok(()), |at| near(roof.id.0, at))?;
            for opening in &roof.openings {
                line(roof.id.0, opening.from, opening.to)?;
                if opening.front < Ticks::ZERO {
                    return Err(Unsound::Negative { number: roof.id.0, what: "front wall" });
                }
            }
            roof.long_valley.map_or(Ok(()), |at| near(roof.id.0, at))?;
            if let RoofForm::Gambrel { lower_run, upper_rise } = roof.form {
                positive(roof.id.0, "run of the lower slope", lower_run)?;
                positive(roof.id.0, "rise of the upper slope", upper_rise)?;
            }
            roof.dead.map_or(Ok(()), load)?;
        }
        for thing in &self.things {
            outline(thing.id.0, &thing.corners)?;
            thing.weight.map_or(Ok(()), |weight| weight_of(thing.id.0, weight))?;
        }
        for observation in &self.observations {
            near(observation.id.0, observation.at)?;
            if !observation.photo.is_empty() && !observation.photo.starts_with("data:image/") {
                return Err(Unsound::NotAPhoto(observation.id.0));
            }
            if let Saw::JoistSize { spacing: Some(apart), .. } = observation.saw {
                spacing(observation.id.0, apart)?;
            }
        }
        for cut in &self.cuts {
            near(cut.id.0, cut.at)?;
            match cut.cut {
                Cut::Notch { depth, length, .. } => {
                    positive(cut.id.0, "depth", depth)?;
                    positive(cut.id.0, "length", length)?;
                }
                Cut::Hole { diameter, to_edge } => {
                    positive(cut.id.0, "diameter", diameter)?;
                    if to_edge < Ticks::ZERO {
                        return Err(Unsound::Negative { number: cut.id.0, what: "distance to the edge" });
                    }
                }
            }
        }
        for board in &self.boards {
            line(board.id.0, board.a, board.b)?;
        }
        for purlin in &self.purlins {
            line(purlin.id.0, purlin.a, purlin.b)?;
            spacing(purlin.id.0, purlin.spacing)?;
            purlin.feet.map_or(Ok(()), |at| near(purlin.id.0, at))?;
        }
        Ok(())
    }

    fn check_openings(&self, wall: &super::Wall) -> Result<(), Unsound> {
        let length = geometry::length(wall.a, wall.b);
        let mut before: Option<&super::Opening> = None;
        for opening in self.openings_in(wall.id) {
            let fits = opening.offset >= Ticks::ZERO
                && opening.width > Ticks::ZERO
                && (opening.offset + opening.width).feet() <= length + Ticks::new(1).feet();
            if !fits {
                return Err(Unsound::DoesNotFit { opening: opening.id.0, wall: wall.id.0 });
            }
            if let Some(before) = before.filter(|before| before.offset + before.width > opening.offset) {
                return Err(Unsound::Overlap(before.id.0, opening.id.0));
            }
            before = Some(opening);
        }
        Ok(())
    }
}

fn positive(number: u32, what: &'static str, length: Ticks) -> Result<(), Unsound> {
    if length > Ticks::ZERO { Ok(()) } else { Err(Unsound::NotPositive { number, what }) }
}

fn spacing(number: u32, spacing: Ticks) -> Result<(), Unsound> {
    if spacing.get() >= Ticks::PER_INCH { Ok(()) } else { Err(Unsound::TooTight(number)) }
}

fn load(psf: Psf) -> Result<(), Unsound> {
    if (0.0..=10_000.0).contains(&psf.0) { Ok(()) } else { Err(Unsound::NotALoad) }
}

fn weight_of(number: u32, weight: Pounds) -> Result<(), Unsound> {
    if (0.0..=1_000_000.0).contains(&weight.0) { Ok(()) } else { Err(Unsound::NotAWeight(number)) }
}

fn near(number: u32, at: Point) -> Result<(), Unsound> {
    if at.x.abs() <= Ticks::LONGEST && at.y.abs() <= Ticks::LONGEST { Ok(()) } else { Err(Unsound::TooFar(number)) }
}

fn line(number: u32, a: Point, b: Point) -> Result<(), Unsound> {
    near(number, a)?;
    near(number, b)?;
    if a == b { Err(Unsound::NoLength(number)) } else { Ok(()) }
}

fn region(number: u32, region: &Region) -> Result<(), Unsound> {
    match region {
        Region::Outline => Ok(()),
        Region::Corners(corners) => outline(number, corners),
    }
}

fn outline(number: u32, corners: &[Point]) -> Result<(), Unsound> {
    corners.iter().try_for_each(|corner| near(number, *corner))?;
    if geometry::is_outline(corners) { Ok(()) } else { Err(Unsound::NotAnOutline(number)) }
}
