//! Tables of design values, factors, sizes and shapes, cell by cell; each value of the core as sure as its row.

use serde::Deserialize;

use super::wood_spans::{grade, species};
use super::{Report, numbers, rows};
use crate::loads::{Combination, Mark, Sourced};
use crate::members::bearing::area_factor;
use crate::members::column::{GLUED, MOST_SLENDER, SAWN, buckling_stress};
use crate::members::section::Section;
use crate::plan::Member;
use crate::strength::engineered::{Exponent, GLULAM, LVL, Range};
use crate::strength::factors::{Stress, duration, flat_use, incised, repetitive, size, wet};
use crate::strength::headers::{ply_factor, unheld};
use crate::strength::legacy::legacy;
use crate::strength::lumber::{DesignValues, Lumber, Species, lumber};
use crate::strength::stability::KBE;
use crate::strength::steel::{STEELS, shape};
use crate::units::{Feet, Inches, Psi};

/// One psi in MPa.
const MPA: f64 = 0.006_894_757_293;

/// A figure as it stands in a table, with its mark.
struct Cell<'row> {
    of: &'row str,
    mark: &'row str,
}

impl Cell<'_> {
    fn exact(&self, report: &mut Report, what: &str, (expected, got): (f64, f64)) {
        self.near(report, what, (expected, got), 0.0);
    }

    fn near(&self, report: &mut Report, what: &str, (expected, got): (f64, f64), within: f64) {
        report.count(self.mark, (expected - got).abs() <= within);
        report.compare(|| format!("{}: {what} ({})", self.of, self.mark), (expected, got), 1.0, within);
    }

    /// A value of the core, and whether it is as sure as the row.
    fn sourced(&self, report: &mut Report, what: &str, expected: f64, got: Option<Sourced<f64>>) {
        self.exact(report, what, (expected, got.map_or(f64::NAN, |it| it.value)));
        if let Some(got) = got {
            self.marked(report, got.mark);
        }
    }

    fn marked(&self, report: &mut Report, mark: Mark) {
        report.agree(|| format!("{}: marked as its row", self.of), true, self.mark == name(mark));
    }
}

const fn name(mark: Mark) -> &'static str {
    match mark {
        Mark::Seen => "SEEN",
        Mark::Memory => "MEMORY",
        Mark::Fitted => "INFERRED",
    }
}

#[derive(Deserialize)]
struct LumberRow {
    species: String,
    grade: String,
    fb_psi: f64,
    ft_psi: f64,
    fv_psi: f64,
    fc_perp_psi: f64,
    fc_psi: f64,
    e_psi: f64,
    emin_psi: f64,
    fb_provenance: String,
    other_provenance: String,
}

/// Found by any size of the range: the row does not depend on it.
pub(super) fn lumber_values(text: &str) -> Report {
    rows(text, |row: &LumberRow, report| {
        let of = format!("{} {}", row.species, row.grade);
        let Some(got) = row_of(&row.species, &row.grade, "4x6") else { return report.agree(|| of, true, false) };
        let (bends, others) =
            (Cell { of: &of, mark: &row.fb_provenance }, Cell { of: &of, mark: &row.other_provenance });
        let values = got.values;
        bends.exact(report, "Fb, psi", (row.fb_psi, values.fb.0));
        bends.marked(report, got.fb_mark);
        others.marked(report, got.mark);
        for (what, expected, got) in [
            ("Ft", row.ft_psi, values.ft),
            ("Fv", row.fv_psi, values.fv),
            ("Fc-perp", row.fc_perp_psi, values.fc_perp),
            ("Fc", row.fc_psi, values.fc),
            ("E", row.e_psi, values.e),
            ("Emin", row.emin_psi, values.e_min),
        ] {
            others.exact(report, &format!("{what}, psi"), (expected, got.0));
        }
    })
}

fn row_of(of: &str, graded: &str, sized: &str) -> Option<Lumber> {
    lumber(species(of)?, grade(graded)?, sized.parse().ok()?)
}

#[derive(Deserialize)]
struct PineRow {
    species: String,
    grade: String,
    size: String,
    fb_psi: f64,
    ft_psi: f64,
    fv_psi: f64,
    fc_perp_psi: f64,
    fc_psi: f64,
    e_psi: f64,
    emin_psi: f64,
    psi_provenance: String,
    fb_mpa: f64,
    ft_mpa: f64,
    fv_mpa: f64,
    fc_perp_mpa: f64,
    fc_mpa: f64,
    e_gpa: f64,
    emin_gpa: f64,
    metric_provenance: String,
}

/// Psi exactly; the metric figures, which were read, to the tenth that they are printed with.
pub(super) fn southern_pine(text: &str) -> Report {
    rows(text, |row: &PineRow, report| {
        let of = format!("{} {} {}", row.species, row.grade, row.size);
        let Some(got) = row_of(&row.species, &row.grade, &row.size) else { return report.agree(|| of, true, false) };
        let (psi, metric) =
            (Cell { of: &of, mark: &row.psi_provenance }, Cell { of: &of, mark: &row.metric_provenance });
        psi.marked(report, got.mark);
        psi.marked(report, got.fb_mark);
        let DesignValues { fb, ft, fv, fc_perp, fc, e, e_min } = got.values;
        for (what, in_psi, read, got, unit) in [
            ("Fb", row.fb_psi, row.fb_mpa, fb, MPA),
            ("Ft", row.ft_psi, row.ft_mpa, ft, MPA),
            ("Fv", row.fv_psi, row.fv_mpa, fv, MPA),
            ("Fc-perp", row.fc_perp_psi, row.fc_perp_mpa, fc_perp, MPA),
            ("Fc", row.fc_psi, row.fc_mpa, fc, MPA),
            ("E", row.e_psi, row.e_gpa, e, MPA / 1000.0),
            ("Emin", row.emin_psi, row.emin_gpa, e_min, MPA / 1000.0),
        ] {
            psi.exact(report, &format!("{what}, psi"), (in_psi, got.0));
            metric.near(report, &format!("{what}, MPa or GPa"), (read, got.0 * unit), 0.05);
        }
    })
}

#[derive(Deserialize)]
struct LegacyRow {
    species: String,
    grade: String,
    size: String,
    fb_psi: f64,
    e_psi: f64,
    provenance: String,
}

pub(super) fn legacy_values(text: &str) -> Report {
    rows(text, |row: &LegacyRow, report| {
        let of = format!("legacy {} {} {}", row.species, row.grade, row.size);
        let sized: Option<Member> = if row.size.starts_with("all") { "2x6" } else { &row.size }.parse().ok();
        let found = species(&row.species)
            .zip(grade(&row.grade))
            .zip(sized)
            .and_then(|((species, grade), member)| legacy(species, grade, member));
        let Some(got) = found else { return report.agree(|| of, true, false) };
        let cell = Cell { of: &of, mark: &row.provenance };
        cell.exact(report, "Fb, psi", (row.fb_psi, got.fb.0));
        cell.exact(report, "E, psi", (row.e_psi, got.e.0));
        cell.marked(report, got.mark);
    })
}

#[derive(Deserialize)]
struct SizeRow {
    nominal: String,
    width_in: f64,
    depth_in: f64,
    area_in2: f64,
    section_modulus_in3: f64,
    moment_of_inertia_in4: f64,
    provenance: String,
}

/// Half a thousandth, and a hair for what halves themselves round.
pub(super) fn sizes(text: &str) -> Report {
    const HALF: f64 = 0.0005 + 1e-9;
    rows(text, |row: &SizeRow, report| {
        let section = row.nominal.parse().ok().and_then(Section::of);
        let Some(got) = section else { return report.agree(|| row.nominal.clone(), true, false) };
        let cell = Cell { of: &row.nominal, mark: &row.provenance };
        cell.exact(report, "width, in", (row.width_in, got.width.0));
        cell.exact(report, "depth, in", (row.depth_in, got.depth.0));
        cell.near(report, "A, in2", (row.area_in2, got.area().0), HALF);
        cell.near(report, "S, in3", (row.section_modulus_in3, got.modulus().0), HALF);
        cell.near(report, "I, in4", (row.moment_of_inertia_in4, got.inertia().0), HALF);
    })
}

#[derive(Deserialize)]
struct FactorRow {
    factor: String,
    applies_to: String,
    condition: String,
    value: String,
    provenance: String,
}

impl FactorRow {
    /// CF, over every size that the row speaks of.
    fn size_factor(&self, report: &mut Report, cell: &Cell, value: f64) {
        let southern = self.applies_to.contains("southern");
        let of = if southern { Species::SouthernPine } else { Species::DouglasFirLarch };
        let thick: &[u8] = if self.applies_to.contains("4 in thick") { &[4] } else { &[2, 3] };
        let depths: &[u8] = match self.condition.as_str() {
            "width 2, 3 or 4 in nominal" => &[2, 3, 4],
            "width 5 in nominal" => &[5],
            "width 6 in nominal" => &[6],
            "width 8 in nominal" => &[8],
            "width 10 in nominal" => &[10],
            "width 12 in nominal" => &[12],
            "width 14 and wider in nominal" => &[14, 16],
            "width 2 to 12 in nominal" => &[4, 6, 8, 10, 12],
            "wider than 12 in nominal" => &[14, 16],
            "8 in and wider" => &[8, 10, 12],
            _ => &[],
        };
        let named = |stress: &Stress| match stress {
            Stress::Bending => self.applies_to.starts_with("Fb"),
            Stress::Tension => self.applies_to.contains("Ft"),
            Stress::AlongGrain => self.applies_to.contains("Fc"),
            _ => false,
        };
        for stress in Stress::ALL.into_iter().filter(named) {
            for (width, depth) in thick.iter().flat_map(|width| depths.iter().map(move |depth| (*width, *depth))) {
                if depth >= width {
                    let got = size(of, stress, Member::sawn(width, depth));
                    cell.sourced(report, &format!("{stress:?} {width}x{depth}"), value, got);
                }
            }
        }
    }

    /// CM: where it applies, and where the row says it does not.
    fn wet_factor(&self, report: &mut Report, cell: &Cell, value: f64) {
        let Some(stress) = stress(&self.applies_to) else {
            return report.agree(|| self.applies_to.clone(), true, false);
        };
        cell.sourced(report, "wet", value, Some(wet(stress, Psi(2000.0))));
        if let (Some(_), [.., limit]) = (self.condition.find("<="), numbers(&self.condition).as_slice()) {
            cell.sourced(report, "wet, at the limit", 1.0, Some(wet(stress, Psi(*limit))));
            cell.sourced(report, "wet, over it", value, Some(wet(stress, Psi(limit + 1.0))));
        }
    }
}

fn stress(symbol: &str) -> Option<Stress> {
    Some(match symbol {
        "Fb" => Stress::Bending,
        "Ft" => Stress::Tension,
        "Fv" => Stress::Shear,
        "Fc_perp" => Stress::AcrossGrain,
        "Fc" => Stress::AlongGrain,
        "E" | "Emin" | "E and Emin" => Stress::Modulus,
        _ => return None,
    })
}

pub(super) fn factors(text: &str) -> Report {
    rows(text, |row: &FactorRow, report| {
        let of = format!("{} of {}, {}", row.factor, row.applies_to, row.condition);
        let cell = Cell { of: &of, mark: &row.provenance };
        let value = row.value.parse().unwrap_or(f64::NAN);
        match row.factor.as_str() {
            "CF" => row.size_factor(report, &cell, value),
            "Cr" => cell.sourced(report, "three at 24 in", value, Some(repetitive(3, Inches(24.0)))),
            "CD" => {
                let combination = match row.condition.split([' ', ',']).next().unwrap_or_default() {
                    "permanent" => Combination::Dead,
                    "ten" if row.condition.contains("years") => Combination::DeadLive,
                    "two" => Combination::DeadSnow,
                    "seven" => Combination::DeadRoofLive,
                    _ => return report.skip("CD of wind, earthquake and impact: no combination here has them", 1),
                };
                cell.sourced(report, "CD", value, Some(duration(combination)));
            }
            "CM" => row.wet_factor(report, &cell, value),
            "Cfu" => {
                let given = numbers(&row.condition);
                let width = if row.condition.contains(", 4 in thick") { 4 } else { 2 };
                for depth in (2..=16_u8).filter(|depth| given.first() == Some(&f64::from(*depth))) {
                    cell.sourced(report, "flat", value, flat_use(Member::sawn(width, depth)));
                }
            }
            "Cb" => {
                let gain = numbers(&row.condition).last().copied().unwrap_or(f64::NAN);
                cell.exact(report, "4 in long", ((4.0 + gain) / 4.0, area_factor(Inches(4.0), Inches(3.0))));
            }
            "Ci" => {
                for stress in row.applies_to.split(' ').filter_map(stress) {
                    cell.sourced(report, &format!("{stress:?}"), value, Some(incised(stress)));
                }
            }
            "c" if row.condition.starts_with("sawn") => cell.exact(report, "c", (value, SAWN)),
            "c" => cell.exact(report, "c", (value, GLUED)),
            "KcE" => cell.exact(report, "of 1 psi at le/d of 1", (value, buckling_stress(Psi(1.0), 1.0).0)),
            "KbE" => cell.exact(report, "KbE", (value, KBE)),
            "slenderness limit" => cell.exact(report, "le/d", (value, MOST_SLENDER)),
            "built-up header factor" if row.applies_to.contains("2-ply") => {
                cell.sourced(report, "2 plies", value, ply_factor(2));
            }
            "built-up header factor" => {
                cell.sourced(report, "3 plies", value, ply_factor(3));
                cell.sourced(report, "4 plies", value, ply_factor(4));
            }
            "unbraced header factor" => {
                for depth in [8, 10, 12] {
                    let got = unheld(Feet(1.0), Member::plies(2, 2, depth)).map_or(f64::NAN, |it| it.0);
                    cell.exact(report, "of 1 ft", (value, got));
                }
            }
            _ => report.skip("a factor that the core does not have", 1),
        }
    })
}

#[derive(Deserialize)]
struct GluedRow {
    product_class: String,
    property: String,
    low: f64,
    high: f64,
    provenance: String,
}

pub(super) fn engineered(text: &str) -> Report {
    rows(text, |row: &GluedRow, report| {
        let of = format!("{}, {}", row.product_class, row.property);
        let cell = Cell { of: &of, mark: &row.provenance };
        let (got, mark) = match row.of_lvl().or_else(|| row.of_glulam()) {
            Some(got) => got,
            None if row.property == "E (true)" => {
                return report.skip("E without what shear adds: the core sags by the apparent one", 1);
            }
            None => return report.agree(|| of.clone(), true, false),
        };
        cell.exact(report, "low", (row.low, got.0));
        cell.exact(report, "high", (row.high, got.1));
        cell.marked(report, mark);
    })
}

impl GluedRow {
    fn of_lvl(&self) -> Option<((f64, f64), Mark)> {
        let class = LVL.iter().find(|class| class.name == self.product_class)?;
        let ends = |of: Range| (of.low.0, of.high.0);
        let figures = match self.property.as_str() {
            "Fb edgewise at 12 in depth" => ends(class.fb),
            "Ft" => ends(class.ft),
            "Fv edgewise" => ends(class.fv),
            "Fc_perp edgewise" => ends(class.fc_perp),
            "Fc parallel" => ends(class.fc),
            "E (apparent)" => ends(class.e),
            "Emin" => ends(class.e_min),
            "repetitive member factor" => class.repetitive.map(|factor| (factor, factor))?,
            root if root.starts_with("depth factor") => {
                let [one, other] =
                    class.depth_exponents.map(|Exponent { over, under }| f64::from(under) / f64::from(over));
                (one, other)
            }
            _ => return None,
        };
        Some((figures, class.mark))
    }

    fn of_glulam(&self) -> Option<((f64, f64), Mark)> {
        let all = self.product_class == "Glulam (all)";
        let class = GLULAM.iter().find(|class| all || class.name == self.product_class)?;
        let figure = match self.property.as_str() {
            "Fbx, tension zone in tension" => class.fb.0,
            "Fbx, compression zone in tension" => class.fb_reversed.0,
            "Fc_perp_x" => class.fc_perp.0,
            "Fvx" => class.fv.0,
            "Ex (apparent)" => class.e.0,
            "Ex min" => class.e_min.0,
            "Ft" => class.ft.0,
            "Fc" => class.fc.0,
            volume if volume.starts_with("volume factor") => f64::from(class.volume_root),
            _ => return None,
        };
        Some(((figure, figure), class.mark))
    }
}

#[derive(Deserialize)]
struct SteelRow {
    grade: String,
    fy_ksi: f64,
    fu_ksi: f64,
    e_ksi: f64,
    provenance: String,
}

pub(super) fn steels(text: &str) -> Report {
    rows(text, |row: &SteelRow, report| {
        let found = STEELS.iter().find(|steel| steel.name == row.grade);
        let Some(got) = found else { return report.agree(|| row.grade.clone(), true, false) };
        let cell = Cell { of: &row.grade, mark: &row.provenance };
        cell.exact(report, "Fy, ksi", (row.fy_ksi, got.fy.0 / 1000.0));
        cell.exact(report, "Fu, ksi", (row.fu_ksi, got.fu.0 / 1000.0));
        cell.exact(report, "E, ksi", (row.e_ksi, got.e.0 / 1000.0));
        cell.marked(report, got.mark);
    })
}

#[derive(Deserialize)]
struct ShapeRow {
    shape: String,
    weight_plf: f64,
    area_in2: f64,
    depth_in: f64,
    flange_width_in: f64,
    web_thickness_in: f64,
    flange_thickness_in: f64,
    ix_in4: f64,
    sx_in3: f64,
    zx_in3: f64,
    rx_in: f64,
    iy_in4: f64,
    ry_in: f64,
    j_in4: f64,
    rts_in: f64,
    ho_in: f64,
    provenance: String,
}

pub(super) fn shapes(text: &str) -> Report {
    rows(text, |row: &ShapeRow, report| {
        let Some(got) = shape(&row.shape) else { return report.agree(|| row.shape.clone(), true, false) };
        let cell = Cell { of: &row.shape, mark: &row.provenance };
        cell.marked(report, got.mark);
        for (what, expected, got) in [
            ("plf", row.weight_plf, got.weight.0),
            ("A, in2", row.area_in2, got.area.0),
            ("d, in", row.depth_in, got.depth.0),
            ("bf, in", row.flange_width_in, got.flange_width.0),
            ("tw, in", row.web_thickness_in, got.web.0),
            ("tf, in", row.flange_thickness_in, got.flange.0),
            ("Ix, in4", row.ix_in4, got.ix.0),
            ("Sx, in3", row.sx_in3, got.sx.0),
            ("Zx, in3", row.zx_in3, got.zx.0),
            ("rx, in", row.rx_in, got.rx.0),
            ("Iy, in4", row.iy_in4, got.iy.0),
            ("ry, in", row.ry_in, got.ry.0),
            ("J, in4", row.j_in4, got.j.0),
            ("rts, in", row.rts_in, got.rts.0),
            ("ho, in", row.ho_in, got.ho.0),
        ] {
            cell.exact(report, what, (expected, got));
        }
        report.skip("Cw: the core turns a beam over by rts, which has it in it", 1);
    })
}
