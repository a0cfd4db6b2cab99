//! Spans of headers and girders as the code's tables print them, and the jack studs under them.
//!
//! Every load, factor and limit here is FITTED to the printed cells, so that they come out within an inch; none of it was
//! read as a method. Outside the widths, snows, sizes and plies of the tables there is no answer.

use super::factors::{Stress, size};
use super::lumber::{Grade, Species};
use super::spans::Values;
use crate::loads::{ByKind, Combination, Mark, Site, SnowEdition, Sourced};
use crate::members::bearing::{jacks, length_needed};
use crate::members::joist::{span_in_bending, span_in_deflection};
use crate::members::section::Section;
use crate::plan::Member;
use crate::units::{Feet, Inches, Plf, Psf, Psi};

/// What stands on the header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Above {
    /// In an outside wall: roof and ceiling, with this ground snow.
    Roof(Psf),
    /// The same and one floor with a bearing wall down its middle.
    RoofAndFloor(Psf),
    /// In an inside wall: one floor.
    OneFloor,
    /// Two floors.
    TwoFloors,
}

/// The tables of which time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tables {
    /// R602.7(1) and (2) of the 2018 IRC.
    R6027,
    /// R502.5(1) and (2) of the 2012 IRC and earlier.
    R5025,
}

impl Tables {
    const fn values(self) -> Values {
        match self {
            Self::R6027 => Values::Current,
            Self::R5025 => Values::Legacy,
        }
    }

    /// Whether they have a column for a building of this width; between columns a span may be interpolated.
    fn have(self, width: Feet) -> bool {
        let narrowest = match self {
            Self::R6027 => Feet(12.0),
            Self::R5025 => Feet(20.0),
        };
        width >= narrowest && width <= Feet(36.0)
    }
}

/// One header.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Header {
    /// By these tables.
    pub tables: Tables,
    /// Its size, all plies.
    pub member: Member,
    /// Square to the ridge, from outside wall to outside wall.
    pub building_width: Feet,
    /// What stands on it.
    pub above: Above,
}

/// The eaves of the tables.
const OVERHANG: Feet = Feet(2.0);
/// Roof and ceiling.
const ROOF_DEAD: Psf = Psf(20.0);
/// A wall of the storey above.
const WALL: Plf = Plf(121.0);
/// Bearing of one jack stud.
const JACK: Inches = Inches(1.5);
const SOURCE: &str = "IRC Tables R602.7 and R502.5, by a rule fitted to their cells";

const fn fitted<T: Copy>(value: T) -> Sourced<T> {
    Sourced { value, source: SOURCE, mark: Mark::Fitted }
}

impl Header {
    /// The longest span; none outside the tables.
    ///
    /// ```
    /// use joistwise_core::plan::Member;
    /// use joistwise_core::strength::headers::{Above, Header, Tables};
    /// use joistwise_core::strength::spans::nearest;
    /// use joistwise_core::units::{Feet, Inches};
    /// let header = Header {
    ///     tables: Tables::R6027,
    ///     member: Member::plies(2, 2, 10),
    ///     building_width: Feet(24.0),
    ///     above: Above::OneFloor,
    /// };
    /// let span = header.longest().unwrap().value;
    /// assert_eq!(nearest(span), Inches(78.0));
    /// assert_eq!(header.jack_studs(Feet(6.5)), Some(2));
    /// ```
    #[must_use]
    pub fn longest(&self) -> Option<Sourced<Feet>> {
        let (load, duration) = self.load()?;
        let section = Section::of(self.member)?;
        let plies = ply_factor(self.member.plies)?.value;
        let bends = span_in_bending(self.weakest()? * (plies * duration), section.modulus(), load);
        // The older table for outside walls keeps the sag under all load to L / 360.
        let old_roof = self.tables == Tables::R5025 && duration > 1.0;
        let sags = self.softest().filter(|_| old_roof);
        let sags = sags.map(|e| span_in_deflection(e, section.inertia(), load, 360.0));
        Some(fitted(sags.map_or(bends, |sags| bends.min(sags))))
    }

    /// Jack studs under each end for a span: what `w L / 2` needs on the softest species. None outside the tables.
    #[must_use]
    pub fn jack_studs(&self, span: Feet) -> Option<u32> {
        let (load, _) = self.load()?;
        let soft = self.of_each_species(|row| row.values.fc_perp)?;
        let bearing = length_needed(load * span / 2.0, Section::of(self.member)?.width, soft);
        Some(jacks(bearing, JACK))
    }

    /// The line load and CD.
    fn load(&self) -> Option<(Plf, f64)> {
        let (width, member) = (self.building_width, self.member);
        let sized = member.nominal_width == 2 && matches!(member.nominal_depth, 4 | 6 | 8 | 10 | 12);
        if !sized || !self.tables.have(width) {
            return None;
        }
        let (half, roof) = (width / 2.0, width / 2.0 + OVERHANG);
        let floor = Psf(50.0) * half;
        Some(match (self.tables, self.above) {
            (Tables::R6027, Above::OneFloor) => (floor, 1.0),
            (Tables::R6027, Above::TwoFloors) => (floor * 2.0 + WALL, 1.0),
            (Tables::R5025, Above::OneFloor) => (floor + Plf(100.0), 1.0),
            (Tables::R5025, Above::TwoFloors) => ((floor + Plf(100.0)) * 2.0, 1.0),
            (Tables::R6027, Above::Roof(snow)) => (roof_load(roof, snow, None)?, 1.15),
            (Tables::R6027, Above::RoofAndFloor(snow)) => (roof_load(roof, snow, Some(width / 4.0))?, 1.15),
            (Tables::R5025, Above::Roof(Psf(30.0))) => (Psf(40.0) * roof, 1.15),
            (Tables::R5025, Above::RoofAndFloor(Psf(30.0))) => (Psf(40.0) * roof + Psf(6.25) * width + Plf(85.0), 1.15),
            (Tables::R5025, Above::Roof(_) | Above::RoofAndFloor(_)) => return None,
        })
    }

    /// The lowest Fb CF of No. 2 of the four species groups: southern pine today, hem-fir before.
    fn weakest(&self) -> Option<Psi> {
        self.of_each_species(|row| {
            let sized = size(row.species, Stress::Bending, self.member).map_or(1.0, |factor| factor.value);
            row.values.fb * sized
        })
    }

    /// The lowest E of the same.
    fn softest(&self) -> Option<Psi> {
        self.of_each_species(|row| row.values.e)
    }

    fn of_each_species(&self, value: impl Fn(&super::lumber::Lumber) -> Psi) -> Option<Psi> {
        let rows = Species::ALL.map(|species| self.tables.values().row(species, Grade::Two, self.member));
        rows.into_iter().map(|row| row.map(|row| value(&row))).reduce(|one, other| Some(one?.min(other?)))?
    }
}

/// Roof of this tributary width under ground snow, and a floor of that: the heavier of D + S and D + 0.75 (L + S).
fn roof_load(roof: Feet, snow: Psf, floor: Option<Feet>) -> Option<Plf> {
    // The columns that the rule was fitted to.
    if snow < Psf(50.0) || snow > Psf(70.0) {
        return None;
    }
    let floor_dead = floor.map_or(Plf::ZERO, |width| Psf(10.0) * width + WALL);
    let loads = ByKind {
        dead: ROOF_DEAD * roof + floor_dead,
        floor: Psf(40.0) * floor.unwrap_or(Feet::ZERO),
        // 0.735 of the ground snow on every foot of roof, and 0.78 ft of it besides.
        snow: snow * 0.735 * roof + snow * Feet(0.78),
        ..ByKind::default()
    };
    let site = Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() };
    let [all_snow, both] = [Combination::DeadSnow, Combination::DeadLiveSnow].map(|it| it.of(&loads, &site));
    Some(all_snow.max(both))
}

/// What plies gain by acting together, as the header tables have it: 1.10 for two, 1.15 for three or four.
#[must_use]
pub const fn ply_factor(plies: u8) -> Option<Sourced<f64>> {
    match plies {
        2 => Some(fitted(1.1)),
        3 | 4 => Some(fitted(1.15)),
        _ => None,
    }
}

/// The part of its span that a header keeps whose top is not held, as under cripple studs (2018 IRC Table R602.7(1), footnote f,
/// SEEN): 2x8 to 2x12; none for others.
#[must_use]
pub fn unheld(span: Feet, member: Member) -> Option<Feet> {
    matches!(member.nominal_depth, 8 | 10 | 12).then(|| span * 0.7)
}

#[cfg(test)]
mod tests {
    use super::*;

    const HEADER: Header = Header {
        tables: Tables::R6027,
        member: Member::deep(crate::plan::Material::Sawn, 1, crate::units::Ticks::ZERO),
        building_width: Feet(24.0),
        above: Above::Roof(Psf(50.0)),
    };

    #[test]
    fn nothing_is_said_outside_the_tables() {
        let known = Header { member: Member::plies(2, 2, 10), ..HEADER };
        assert!(known.longest().is_some());
        for unknown in [
            Header { building_width: Feet(40.0), ..known },
            Header { building_width: Feet(10.0), ..known },
            Header { above: Above::Roof(Psf(90.0)), ..known },
            Header { above: Above::Roof(Psf(30.0)), ..known },
            Header { tables: Tables::R5025, ..known },
            Header { member: Member::plies(5, 2, 10), ..known },
            Header { member: Member::sawn(2, 10), ..known },
            Header { member: Member::plies(2, 4, 10), ..known },
            HEADER,
        ] {
            assert_eq!(unknown.longest(), None, "{unknown:?}");
        }
        assert_eq!(unheld(Feet(6.0), Member::plies(2, 2, 6)), None);
    }

    #[test]
    fn more_snow_more_width_and_more_floors_shorten_a_header_in_feet() {
        let span = |width: f64, above| {
            let header = Header { member: Member::plies(3, 2, 10), building_width: Feet(width), above, ..HEADER };
            header.longest().unwrap().value
        };
        for width in 12..36 {
            let (narrow, wide) = (f64::from(width), f64::from(width + 1));
            for above in [Above::Roof(Psf(50.0)), Above::RoofAndFloor(Psf(70.0)), Above::OneFloor, Above::TwoFloors] {
                assert!(span(wide, above) < span(narrow, above));
            }
            assert!(span(narrow, Above::Roof(Psf(70.0))) < span(narrow, Above::Roof(Psf(50.0))));
            assert!(span(narrow, Above::RoofAndFloor(Psf(50.0))) < span(narrow, Above::Roof(Psf(50.0))));
            assert!(span(narrow, Above::TwoFloors) < span(narrow, Above::OneFloor));
        }
    }
}
