//! Worked examples of one part: columns, stud packs, bearing, joists, pads, roof loads, combinations.

use super::{Example, Figures};
use crate::footing::{Pad, area_with_own_weight, concrete, pier, side, spread_by_slab, strip};
use crate::loads::{ByKind, Combination, Site, SnowEdition, Surface, combinations, heaviest, snow, workers};
use crate::members::bearing::{area_factor, jacks, length_needed};
use crate::members::column::{
    Joined, Section, Strength, Unbraced, Wood, buckling_stress, pack, stability, stability_as_root, strength,
};
use crate::members::joist::{span_in_bending, span_in_deflection, span_in_shear, span_on_bearing};
use crate::members::notch::cuts;
use crate::thrust::heel_nails;
use crate::units::{
    CubicInches, Degrees, Feet, Inches, InchesToTheFourth, Pcf, Plf, Pounds, Psf, Psi, SquareFeet, SquareInches,
};

/// Both forms of Cp have to come to the same within this.
const FORMS: f64 = 1e-9;

impl Example {
    fn wood(&self) -> Option<Wood> {
        Some(Wood {
            fc: Psi(self.given("Fc_psi")?),
            e_min: Psi(self.given("Emin_psi")?),
            duration: self.given("CD")?,
            size: self.given("CF")?,
            c: self.given("c")?,
        })
    }

    pub(super) fn column(&self) -> Option<Figures> {
        let wood = self.wood()?;
        let section = Section { width: Inches(self.given("b_in")?), depth: Inches(self.given("d_in")?) };
        let length = Inches(self.given("le_in")?);
        // A stud has boards on its faces; a post stands in the open.
        let sheathed = self.title.contains("sheathed");
        let unbraced = if sheathed { Unbraced::out_of_the_wall(length) } else { Unbraced::both(length) };
        let got = strength(&wood, &section, &unbraced);
        let ratio = got.buckling / got.fc_star;
        let mut figures = vec![
            ("FcE_psi", got.buckling.0),
            ("Fc_star_psi", got.fc_star.0),
            ("Cp", agreed(stability(ratio, wood.c), got.cp)),
            ("Fc_adj_psi", got.fc.0),
            ("P_lb", got.load.0),
        ];
        if let Some(load) = self.given("P_applied_lb") {
            let stress: Psi = Pounds(load) / (section.width * section.depth);
            figures.extend([("fc_psi", stress.0), ("ratio", stress / got.fc)]);
        }
        Some(figures)
    }

    pub(super) fn pack(&self) -> Option<Figures> {
        let wood = self.wood()?;
        let plies = self.given("plies")?;
        let count = (2..=5_u8).find(|count| (f64::from(*count) - plies).abs() < 1e-9)?;
        let ply = Section { width: Inches(self.given("d2_in")? / plies), depth: Inches(self.given("d1_in")?) };
        let length = Inches(self.given("le_in")?);
        let kf = self.given("Kf")?;
        let joined = [Joined::Nailed, Joined::Bolted].into_iter().find(|joined| (joined.kf() - kf).abs() < 1e-9)?;
        let both: Strength = pack(&wood, count, &ply, &Unbraced::both(length), joined)?;
        let by_formula = |of: Inches| {
            let ratio = buckling_stress(wood.e_min, length / of) / both.fc_star;
            agreed(stability(ratio, wood.c), stability_as_root(ratio, wood.c))
        };
        let (deep, through) = (by_formula(ply.depth), kf * by_formula(ply.width * plies));
        Some(vec![
            ("Cp_d1", agreed(deep, both.cp_depth)),
            ("Cp_d2", agreed(through, both.cp_width)),
            ("Cp", both.cp),
            ("P_lb", both.load.0),
        ])
    }

    pub(super) fn bearing_factor(&self) -> Option<Figures> {
        let factor = area_factor(Inches(self.given("lb_in")?), Inches(12.0));
        Some(vec![("Cb", factor), ("Cb_printed", factor)])
    }

    pub(super) fn bearing_length(&self) -> Option<Figures> {
        let length = length_needed(
            Pounds(self.given("R_lb")?),
            Inches(self.given("width_in")?),
            Psi(self.given("fc_perp_psi")?),
        );
        Some(vec![("length_in", length.0), ("jack_studs", f64::from(jacks(length, Inches(1.5))))])
    }

    /// Live load, dead load and spacing stand in the title: "at 16 in, 30 live, 10 dead"; a 2x8 is 1 1/2 by 7 1/4 in.
    pub(super) fn joist_spans(&self) -> Option<Figures> {
        let before =
            |word: &str| -> Option<f64> { self.title.split_once(word)?.0.trim_end().rsplit(' ').next()?.parse().ok() };
        let spacing = Feet(before(" in,")? / 12.0);
        let (live, dead) = (Psf(before(" live")?), Psf(before(" dead")?));
        let (modulus, inertia) = (self.given("S_in3")?, InchesToTheFourth(self.given("I_in4")?));
        let (width, depth) = (Inches(1.5), Inches(2.0 * inertia.0 / modulus));
        let section: SquareInches = width * depth;
        let all: Plf = (live + dead) * spacing;
        let bending = Psi(self.given("Fb_psi")? * self.given("CF")? * self.given("Cr")?);
        let shear = Psi(self.given("Fv_psi")? * self.given("CH")?);
        let across = Psi(self.given("Fc_perp_psi")?);
        let e = Psi(self.given("E_psi")?);
        Some(vec![
            ("bending_ft", span_in_bending(bending, CubicInches(modulus), all).0),
            ("shear_ft", span_in_shear(shear, section, all).0),
            ("bearing_ft", span_on_bearing(across, width, Inches(self.given("bearing_in")?), all).0),
            ("deflection_ft", span_in_deflection(e, inertia, live * spacing, 360.0).0),
            ("vibration_ft", span_in_deflection(e, inertia, Psf(40.0) * spacing, 360.0).0),
        ])
    }

    pub(super) fn hole(&self) -> Option<Figures> {
        Some(vec![("hole_diameter_in", cuts(Inches(self.given("depth_in")?)).hole.0)])
    }

    fn load_and_soil(&self) -> Option<(Pounds, Psf)> {
        Some((Pounds(self.given("P_lb")?), Psf(self.given("q_psf")?)))
    }

    pub(super) fn pier(&self) -> Option<Figures> {
        self.given("min_area_in2")?;
        let (load, soil) = self.load_and_soil()?;
        Some(vec![("area_in2", pier(load, soil).0)])
    }

    /// A strip of the old table: the width for a line load on a soil.
    pub(super) fn strip(&self) -> Option<Figures> {
        let load = Plf(self.given("load_plf").or_else(|| self.given("w_plf")).or_else(|| self.given("wall_plf"))?);
        let soil = Psf(self.given("q_psf").or_else(|| self.given("soil_psf"))?);
        Some(vec![("width_in", strip(load, soil).0)])
    }

    pub(super) fn slab(&self) -> Option<Figures> {
        let (load, soil) = self.load_and_soil()?;
        let (spread, pressure) = spread_by_slab(load, Inches(self.given("post_in")?), Inches(self.given("slab_in")?));
        let ok = f64::from(u8::from(pressure <= soil));
        Some(vec![("spread_side_in", spread.0), ("pressure_psf", pressure.0), ("ok", ok)])
    }

    pub(super) fn heavy_pad(&self) -> Option<Figures> {
        let (load, soil) = self.load_and_soil()?;
        let weight = Pcf(self.given("concrete_pcf")?);
        let area = area_with_own_weight(load, soil, Inches(self.given("thickness_in")?), weight)?;
        (weight == concrete().value).then(|| vec![("area_ft2", area.0), ("side_in_exact", side(area).0)])
    }

    pub(super) fn pad(&self) -> Option<Figures> {
        let (load, soil) = self.load_and_soil()?;
        let pad = Pad::under(load, Inches(self.given("post_in")?), soil);
        Some(vec![
            ("area_ft2", pad.area.0),
            ("side_in_exact", pad.exact.0),
            ("side_in", pad.side.0),
            ("projection_in", pad.projection.0),
            ("thickness_in", pad.thickness.0),
        ])
    }

    /// Printed to the whole psf.
    pub(super) fn spread(&self) -> Option<Figures> {
        let psf: Psf = Pounds(self.given("total_lb")?) / SquareFeet(self.given("area_ft2")?);
        Some(vec![("psf", psf.0.round())])
    }

    pub(super) fn heel_joint(&self) -> Option<Figures> {
        let nails = heel_nails(
            Psf(self.given("ground_snow_psf")?),
            Feet(self.given("span_ft")?),
            Inches(self.given("slope_in_12")?),
            Inches(self.given("spacing_in")?),
        )?;
        Some(vec![("nails_16d_common", f64::from(nails.value))])
    }

    pub(super) fn roof_live(&self) -> Option<Figures> {
        let (area, rise) = (SquareFeet(self.given("At_ft2")?), Inches(self.given("F")?));
        Some(vec![("R1", workers::r1(area)), ("R2", workers::r2(rise)), ("Lr_psf", workers::reduced(area, rise).0)])
    }

    fn surface(&self) -> Option<Surface> {
        Some(if self.inputs.get("slippery")?.as_bool()? { Surface::Slippery } else { Surface::Rough })
    }

    pub(super) fn slope_factor(&self) -> Option<Figures> {
        let (angle, thermal) = (Degrees(self.given("angle_deg")?), self.given("Ct")?);
        Some(vec![("Cs", snow::slope_factor(angle, thermal, self.surface()?))])
    }

    /// By what a house states, as a trace takes it; ASCE 7-05 to 7-16.
    pub(super) fn snow(&self) -> Option<Figures> {
        let rise = self.given("slope_in_12")? / 12.0;
        let site = Site {
            ground_snow: Some(Psf(self.given("pg_psf")?)),
            snow_edition: SnowEdition::UpTo2016,
            exposure: self.given("Ce"),
            thermal: self.given("Ct"),
            importance: self.given("Is"),
            roof_surface: self.surface()?,
            ..Site::default()
        };
        Some(vec![
            ("angle_deg", snow::angle(rise).0),
            ("pf_psf", site.flat_roof_snow().0),
            ("Cs", site.slope_factor(rise)),
            ("ps_psf", site.roof_snow(rise).0),
        ])
    }

    fn by_kind(&self) -> Option<ByKind<Plf>> {
        Some(ByKind {
            dead: Plf(self.given("D")?),
            floor: Plf(self.given("L")?),
            attic: Plf::ZERO,
            roof_live: Plf(self.given("Lr")?),
            snow: Plf(self.given("S")?),
        })
    }

    pub(super) fn combination(&self) -> Option<Figures> {
        let loads = self.by_kind()?;
        Some(combinations(&loads, &old_snow()).map(|(plf, which)| (name(which), plf.0)).to_vec())
    }

    /// An answer that is a word.
    pub(super) fn word(&self, of: &str) -> Option<&'static str> {
        let loads = self.by_kind().filter(|_| of == "governing")?;
        Some(name(heaviest(&loads, &old_snow()).1))
    }
}

fn old_snow() -> Site {
    Site { snow_edition: SnowEdition::UpTo2016, ..Site::default() }
}

const fn name(combination: Combination) -> &'static str {
    match combination {
        Combination::Dead => "D",
        Combination::DeadLive => "D_L",
        Combination::DeadRoofLive => "D_Lr",
        Combination::DeadSnow => "D_S",
        Combination::DeadLiveRoofLive => "D_75L_75Lr",
        Combination::DeadLiveSnow => "D_75L_75S",
    }
}

/// One of two ways to the same figure; no number where they come to different ones.
fn agreed(one: f64, other: f64) -> f64 {
    if (one - other).abs() <= FORMS { other } else { f64::NAN }
}
