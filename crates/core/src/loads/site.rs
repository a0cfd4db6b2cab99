//! What the place asks of a house: ground snow, how it reaches the roof, soil, and the usual loads where they differ.

use serde::{Deserialize, Serialize};

use super::snow::{self, Surface};
use super::{Soil, roof_live, soil_usual};
use crate::units::Psf;

/// The edition of ASCE 7 that a ground snow load comes from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum SnowEdition {
    /// Nobody said: taken with 1.0 S, the heavier reading.
    #[default]
    NotStated,
    /// ASCE 7-05, 7-10 or 7-16: allowable-stress combinations take 1.0 S.
    UpTo2016,
    /// ASCE 7-22: strength-level values; allowable-stress combinations take 0.7 S.
    From2022,
}

/// Ground snow, soil, and the usual loads where this house differs.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
pub struct Site {
    /// Ground snow load, if known; none is traced if not, and a finding says so.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ground_snow: Option<Psf>,
    /// The edition it comes from.
    #[serde(default)]
    pub snow_edition: SnowEdition,
    /// Exposure factor Ce where it is not 1: 0.9 on open ground, up to 1.2 among trees and buildings.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub exposure: Option<f64>,
    /// Thermal factor Ct where it is not 1: 1.1 over a cold ventilated attic, 1.2 over an unheated house.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub thermal: Option<f64>,
    /// Importance factor Is where it is not 1. ASCE 7-22 has none: its ground snow holds it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub importance: Option<f64>,
    /// What snow lies on; snow is reduced for slope only where it is stated.
    #[serde(default, skip_serializing_if = "Surface::is_not_stated")]
    pub roof_surface: Surface,
    /// Roof live load on plan where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub roof_live: Option<Psf>,
    /// Soil bearing where it differs from the usual one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soil: Option<Psf>,
    /// What the soil is, by the classes of the code's table; a typed value counts before what it is taken to bear.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub soil_class: Option<Soil>,
}

impl Site {
    /// Snow on the plan of a flat roof, `0.7 Ce Ct Is pg` (ASCE 7 eq. 7.3-1); a factor that nobody stated is 1, and ASCE
    /// 7-22 has no Is.
    #[must_use]
    pub fn flat_roof_snow(&self) -> Psf {
        let Some(ground) = self.ground_snow else { return Psf::ZERO };
        let [exposure, thermal, importance] = self.snow_factors();
        snow::flat(ground, exposure, thermal, importance)
    }

    /// Snow on the plan of a roof of this rise in a run of 1: `ps = Cs pf` where the surface is stated, else pf, which is
    /// the heavier side. The least snow on low slopes is left out: with Is of 1 it never passes the usual roof live load,
    /// which acts at another time.
    #[must_use]
    pub fn roof_snow(&self, rise_per_run: f64) -> Psf {
        self.flat_roof_snow() * self.slope_factor(rise_per_run)
    }

    /// The slope factor Cs for a rise in a run of 1.
    #[must_use]
    pub fn slope_factor(&self, rise_per_run: f64) -> f64 {
        if self.roof_surface.is_not_stated() {
            return 1.0;
        }
        let [_, thermal, _] = self.snow_factors();
        snow::slope_factor(snow::angle(rise_per_run), thermal, self.roof_surface)
    }

    /// Ce, Ct and Is as they are taken.
    #[must_use]
    pub fn snow_factors(&self) -> [f64; 3] {
        let importance = match self.snow_edition {
            SnowEdition::From2022 => 1.0,
            SnowEdition::NotStated | SnowEdition::UpTo2016 => self.importance.unwrap_or(1.0),
        };
        [self.exposure.unwrap_or(1.0), self.thermal.unwrap_or(1.0), importance]
    }

    /// Roof live load on plan.
    #[must_use]
    pub fn roof_live(&self) -> Psf {
        self.roof_live.unwrap_or(roof_live().value)
    }

    /// Soil bearing: the typed one, that of the class, or the usual one, also for a class without a figure.
    #[must_use]
    pub fn soil(&self) -> Psf {
        let class = self.soil_class.and_then(Soil::presumptive);
        self.soil.unwrap_or(class.unwrap_or(soil_usual()).value)
    }

    /// Whether somebody stated what the soil bears: typed it, or named a class that has a figure.
    #[must_use]
    pub fn soil_is_stated(&self) -> bool {
        self.soil.is_some() || self.soil_class.and_then(Soil::presumptive).is_some()
    }

    /// Whether the soil is of a class for which the table has no figure, and nobody typed one.
    #[must_use]
    pub fn has_no_soil_figure(&self) -> bool {
        self.soil.is_none() && self.soil_class.is_some_and(|class| class.presumptive().is_none())
    }

    /// The factor on snow in allowable-stress combinations.
    #[must_use]
    pub const fn snow_factor(&self) -> f64 {
        match self.snow_edition {
            SnowEdition::From2022 => 0.7,
            SnowEdition::NotStated | SnowEdition::UpTo2016 => 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn psf(got: Psf, expected: f64) {
        assert!((got.0 - expected).abs() < 1e-9, "{got:?} is not {expected} psf");
    }

    /// By hand: 0.7 x 40 = 28 psf; with Ce 0.9, Ct 1.1 and Is 1.2, 28 x 1.188 = 33.264 psf.
    #[test]
    fn ground_snow_reaches_the_roof_by_four_factors_and_asce_7_22_leaves_one_out_in_psf() {
        let bare = Site { ground_snow: Some(Psf(40.0)), ..Site::default() };
        psf(bare.roof_snow(0.0), 28.0);
        psf(bare.roof_snow(2.0), 28.0);
        let stated = Site { exposure: Some(0.9), thermal: Some(1.1), importance: Some(1.2), ..bare };
        psf(stated.roof_snow(0.0), 28.0 * 1.188);
        psf(Site { snow_edition: SnowEdition::From2022, ..stated }.roof_snow(0.0), 28.0 * 0.99);
        psf(Site { ground_snow: None, ..stated }.roof_snow(0.0), 0.0);
    }

    /// 12 in 12 is 45 degrees: Cs = (70 - 45) / (70 - 30) = 0.625 on shingles, (70 - 45) / (70 - 5) on metal, warm roof.
    #[test]
    fn snow_slides_off_a_steep_roof_only_where_its_surface_is_stated_in_psf() {
        let site = |roof_surface| Site { ground_snow: Some(Psf(40.0)), roof_surface, ..Site::default() };
        psf(site(Surface::NotStated).roof_snow(1.0), 28.0);
        psf(site(Surface::Rough).roof_snow(1.0), 28.0 * 0.625);
        psf(site(Surface::Slippery).roof_snow(1.0), 28.0 * 25.0 / 65.0);
    }
}
