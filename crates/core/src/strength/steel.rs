//! Light steel W shapes as beams: grades, sections, and bending and shear by allowable strength.
//!
//! AISC 360, chapters F and G, allowable strength (Omega of 1.67 and 1.50): MEMORY throughout; the shapes were SEEN. Webs under
//! a seat are in [`super::web`]; columns and connections are absent.
//!
//! ```
//! use joistwise_core::strength::steel::{A992, shape};
//! use joistwise_core::units::CubicInches;
//! assert_eq!(shape("W8X24").unwrap().zx, CubicInches(23.1));
//! assert_eq!(A992.fy.0, 50_000.0);
//! ```

use super::check::{Check, Demand, Rule, SagLimits, heavier};
use super::stability::Held;
use crate::loads::Mark;
use crate::units::{CubicInches, FootPounds, Inches, InchesToTheFourth, Plf, Pounds, Psi, SquareInches};

/// A grade of steel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Steel {
    /// ASTM name.
    pub name: &'static str,
    /// Where it yields.
    pub fy: Psi,
    /// Where it breaks.
    pub fu: Psi,
    /// Modulus of elasticity.
    pub e: Psi,
    /// Whether it was read.
    pub mark: Mark,
}

const E: Psi = Psi(29_000_000.0);
/// Old beams.
pub const A36: Steel = Steel { name: "ASTM A36", fy: Psi(36_000.0), fu: Psi(58_000.0), e: E, mark: Mark::Seen };
/// W shapes of today.
pub const A992: Steel = Steel { name: "ASTM A992", fy: Psi(50_000.0), fu: Psi(65_000.0), e: E, mark: Mark::Seen };
/// Both.
pub const STEELS: [Steel; 2] = [A36, A992];

/// A W shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shape {
    /// `W8X10`: nominal depth in inches, weight in plf.
    pub name: &'static str,
    /// Its own weight.
    pub weight: Plf,
    /// A.
    pub area: SquareInches,
    /// d.
    pub depth: Inches,
    /// bf.
    pub flange_width: Inches,
    /// tw.
    pub web: Inches,
    /// tf.
    pub flange: Inches,
    /// Ix.
    pub ix: InchesToTheFourth,
    /// Sx, elastic.
    pub sx: CubicInches,
    /// Zx, plastic.
    pub zx: CubicInches,
    /// rx.
    pub rx: Inches,
    /// Iy.
    pub iy: InchesToTheFourth,
    /// ry.
    pub ry: Inches,
    /// J, torsion.
    pub j: InchesToTheFourth,
    /// rts: the flange with a part of the web, for turning over.
    pub rts: Inches,
    /// ho: from flange to flange, middle to middle.
    pub ho: Inches,
    /// Title, edition, table.
    pub source: &'static str,
    /// Read.
    pub mark: Mark,
}

const fn shape_row(name: &'static str, row: [f64; 15]) -> Shape {
    let [weight, area, depth, flange_width, web, flange, ix, sx, zx, rx, iy, ry, j, rts, ho] = row;
    Shape {
        name,
        weight: Plf(weight),
        area: SquareInches(area),
        depth: Inches(depth),
        flange_width: Inches(flange_width),
        web: Inches(web),
        flange: Inches(flange),
        ix: InchesToTheFourth(ix),
        sx: CubicInches(sx),
        zx: CubicInches(zx),
        rx: Inches(rx),
        iy: InchesToTheFourth(iy),
        ry: Inches(ry),
        j: InchesToTheFourth(j),
        rts: Inches(rts),
        ho: Inches(ho),
        source: "AISC shape data, W shapes, edition not stated",
        mark: Mark::Seen,
    }
}

/// Light W8, W10 and W12: plf, A, d, bf, tw, tf, Ix, Sx, Zx, rx, Iy, ry, J, rts, ho, in inches and their powers.
pub const SHAPES: [Shape; 23] = [
    shape_row("W8X10", [10.0, 2.96, 7.89, 3.94, 0.17, 0.205, 30.8, 7.81, 8.87, 3.22, 2.09, 0.841, 0.0426, 1.01, 7.69]),
    shape_row("W8X13", [13.0, 3.84, 7.99, 4.0, 0.23, 0.255, 39.6, 9.91, 11.4, 3.21, 2.73, 0.843, 0.0871, 1.03, 7.74]),
    shape_row("W8X15", [15.0, 4.44, 8.11, 4.02, 0.245, 0.315, 48.0, 11.8, 13.6, 3.29, 3.41, 0.876, 0.137, 1.06, 7.8]),
    shape_row("W8X18", [18.0, 5.26, 8.14, 5.25, 0.23, 0.33, 61.9, 15.2, 17.0, 3.43, 7.97, 1.23, 0.172, 1.43, 7.81]),
    shape_row("W8X21", [21.0, 6.16, 8.28, 5.27, 0.25, 0.4, 75.3, 18.2, 20.4, 3.49, 9.77, 1.26, 0.282, 1.46, 7.88]),
    shape_row("W8X24", [24.0, 7.08, 7.93, 6.5, 0.245, 0.4, 82.7, 20.9, 23.1, 3.42, 18.3, 1.61, 0.346, 1.81, 7.53]),
    shape_row("W8X28", [28.0, 8.25, 8.06, 6.54, 0.285, 0.465, 98.0, 24.3, 27.2, 3.45, 21.7, 1.62, 0.537, 1.84, 7.6]),
    shape_row("W8X31", [31.0, 9.13, 8.0, 8.0, 0.285, 0.435, 110.0, 27.5, 30.4, 3.47, 37.1, 2.02, 0.536, 2.26, 7.57]),
    shape_row("W10X12", [12.0, 3.54, 9.87, 3.96, 0.19, 0.21, 53.8, 10.9, 12.6, 3.9, 2.18, 0.785, 0.0547, 0.983, 9.66]),
    shape_row("W10X15", [15.0, 4.41, 9.99, 4.0, 0.23, 0.27, 68.9, 13.8, 16.0, 3.95, 2.89, 0.81, 0.104, 1.01, 9.72]),
    shape_row("W10X17", [17.0, 4.99, 10.1, 4.01, 0.24, 0.33, 81.9, 16.2, 18.7, 4.05, 3.56, 0.845, 0.156, 1.04, 9.77]),
    shape_row("W10X19", [19.0, 5.62, 10.2, 4.02, 0.25, 0.395, 96.3, 18.8, 21.6, 4.14, 4.29, 0.874, 0.233, 1.06, 9.81]),
    shape_row("W10X22", [22.0, 6.49, 10.2, 5.75, 0.24, 0.36, 118.0, 23.2, 26.0, 4.27, 11.4, 1.33, 0.239, 1.55, 9.84]),
    shape_row("W10X26", [26.0, 7.61, 10.3, 5.77, 0.26, 0.44, 144.0, 27.9, 31.3, 4.35, 14.1, 1.36, 0.402, 1.58, 9.86]),
    shape_row("W10X30", [30.0, 8.84, 10.5, 5.81, 0.3, 0.51, 170.0, 32.4, 36.6, 4.38, 16.7, 1.37, 0.622, 1.6, 9.99]),
    shape_row("W10X33", [33.0, 9.71, 9.73, 7.96, 0.29, 0.435, 171.0, 35.0, 38.8, 4.19, 36.6, 1.94, 0.583, 2.2, 9.3]),
    shape_row("W12X14", [14.0, 4.16, 11.9, 3.97, 0.2, 0.225, 88.6, 14.9, 17.4, 4.62, 2.36, 0.753, 0.0704, 0.961, 11.7]),
    shape_row(
        "W12X16",
        [16.0, 4.71, 12.0, 3.99, 0.22, 0.265, 103.0, 17.1, 20.1, 4.67, 2.82, 0.773, 0.103, 0.983, 11.7],
    ),
    shape_row("W12X19", [19.0, 5.57, 12.2, 4.01, 0.235, 0.35, 130.0, 21.3, 24.7, 4.82, 3.76, 0.822, 0.18, 1.02, 11.9]),
    shape_row("W12X22", [22.0, 6.48, 12.3, 4.03, 0.26, 0.425, 156.0, 25.4, 29.3, 4.91, 4.66, 0.848, 0.293, 1.04, 11.9]),
    shape_row("W12X26", [26.0, 7.65, 12.2, 6.49, 0.23, 0.38, 204.0, 33.4, 37.2, 5.17, 17.3, 1.51, 0.3, 1.75, 11.8]),
    shape_row("W12X30", [30.0, 8.79, 12.3, 6.52, 0.26, 0.44, 238.0, 38.6, 43.1, 5.21, 20.3, 1.52, 0.457, 1.77, 11.9]),
    shape_row("W12X35", [35.0, 10.3, 12.5, 6.56, 0.3, 0.52, 285.0, 45.6, 51.2, 5.25, 24.5, 1.54, 0.741, 1.79, 12.0]),
];

/// The shape of this name.
#[must_use]
pub fn shape(name: &str) -> Option<Shape> {
    SHAPES.iter().find(|shape| shape.name == name).copied()
}

/// Omega of bending, and of shear in a web that is not stocky.
const OMEGA: f64 = 1.67;
/// Omega of shear in a stocky web.
const OMEGA_STOCKY_WEB: f64 = 1.5;
/// The part of Fy that is left for bending once the stress from rolling is off.
const ELASTIC: f64 = 0.7;

/// What limits the bending of a shape.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The whole section yields (F2.1).
    Yielding,
    /// It turns over sideways between braces (F2.2).
    TurningOver,
    /// Its flange is too thin to yield before it buckles (F3.2).
    ThinFlange,
}

/// Bending of a shape of one grade, unheld over a length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bending {
    /// Mp, nominal.
    pub plastic: FootPounds,
    /// Lp: up to here it yields whole.
    pub lp: Inches,
    /// Lr: beyond it turns over elastically.
    pub lr: Inches,
    /// Mn, nominal.
    pub nominal: FootPounds,
    /// Mn / 1.67.
    pub allowed: FootPounds,
    /// What limits it.
    pub limit: Limit,
}

/// Bending about the strong axis. Cb is 1, the heavier side: the moment is taken as even along the unheld length.
///
/// None for a section that is thinner than these rules reach (webs of F4, flanges of slender elements).
#[must_use]
pub fn bending(shape: &Shape, steel: &Steel, held: Held) -> Option<Bending> {
    let root = (steel.e / steel.fy).sqrt();
    let flange = shape.flange_width / (shape.flange * 2.0);
    let (compact, slender) = (0.38 * root, root);
    if web_slenderness(shape) > 3.76 * root || flange > slender {
        return None;
    }
    let (plastic, elastic) = (steel.fy * shape.zx, steel.fy * ELASTIC * shape.sx);
    let torsion: f64 = shape.j / (shape.sx * shape.ho);
    let lp = shape.ry * (1.76 * root);
    let part = steel.fy * ELASTIC / steel.e;
    let lr = shape.rts * (1.95 / part * (torsion + (torsion * torsion + 6.76 * part * part).sqrt()).sqrt());
    let between = |from: f64, at: f64, to: f64| plastic - (plastic - elastic) * ((at - from) / (to - from));
    let turning = match held {
        Held::Every(length) if length > lr => {
            let ratio = length / shape.rts;
            let squared = ratio * ratio;
            let pi = core::f64::consts::PI;
            let stress = steel.e * (pi * pi / squared * (1.0 + 0.078 * torsion * squared).sqrt());
            stress * shape.sx
        }
        Held::Every(length) if length > lp => between(lp.0, length.0, lr.0),
        _ => plastic,
    };
    let local = if flange > compact { between(compact, flange, slender) } else { plastic };
    let nominal = plastic.min(turning).min(local);
    let limit = match () {
        () if nominal >= plastic => Limit::Yielding,
        () if turning <= local => Limit::TurningOver,
        () => Limit::ThinFlange,
    };
    Some(Bending { plastic, lp, lr, nominal, allowed: nominal / OMEGA, limit })
}

/// Allowed shear, `0.6 Fy d tw` over Omega (G2.1). None for a web so thin that it buckles in shear.
#[must_use]
pub fn shear(shape: &Shape, steel: &Steel) -> Option<Pounds> {
    let root = (steel.e / steel.fy).sqrt();
    let slenderness = web_slenderness(shape);
    // kv of a web without stiffeners is 5.34; its root is 2.311.
    let omega = match slenderness {
        ratio if ratio <= 2.24 * root => OMEGA_STOCKY_WEB,
        ratio if ratio <= 1.1 * 2.31 * root => OMEGA,
        _ => return None,
    };
    Some(steel.fy * 0.6 * (shape.depth * shape.web) / omega)
}

/// h / tw, h taken between the flanges: the fillets, which are not in the table, make it less.
fn web_slenderness(shape: &Shape) -> f64 {
    (shape.depth - shape.flange * 2.0) / shape.web
}

/// Every check of a steel beam.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SteelChecks {
    /// Moment.
    pub bending: Check<FootPounds>,
    /// What limits it.
    pub limit: Limit,
    /// Shear.
    pub shear: Check<Pounds>,
    /// Live.
    pub live_sag: Check<Inches>,
    /// All.
    pub total_sag: Check<Inches>,
}

impl SteelChecks {
    /// The rule that governs, and its ratio.
    #[must_use]
    pub fn governing(&self) -> (Rule, f64) {
        let bending = (self.bending.rule, self.bending.ratio());
        let shear = (self.shear.rule, self.shear.ratio());
        let sags = [self.live_sag, self.total_sag].map(|it| (it.rule, it.ratio()));
        sags.into_iter().fold(heavier(bending, shear), heavier)
    }
}

/// Checks a W shape; none where [`bending`] or [`shear`] has no answer.
#[must_use]
pub fn steel(demand: &Demand, shape: &Shape, grade: &Steel, held: Held, limits: SagLimits) -> Option<SteelChecks> {
    let found = bending(shape, grade, held)?;
    let [live_sag, total_sag] = limits.checks(demand);
    Some(SteelChecks {
        bending: Check { rule: Rule::SteelBending, demand: demand.moment, capacity: found.allowed },
        limit: found.limit,
        shear: Check { rule: Rule::SteelShear, demand: demand.shear, capacity: shear(shape, grade)? },
        live_sag,
        total_sag,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_shape_weighs_what_its_section_does_and_its_figures_fit_each_other() {
        for it in SHAPES {
            // 490 pcf: 3.403 plf on a square inch.
            assert!((it.area.0 * 490.0 / 144.0 - it.weight.0).abs() < 0.25, "{it:?}");
            assert!((it.ix.0 / (it.depth.0 / 2.0) / it.sx.0 - 1.0).abs() < 0.01, "{it:?}");
            assert!((it.rx.0 - (it.ix.0 / it.area.0).sqrt()).abs() < 0.02, "{it:?}");
            assert!((it.ry.0 - (it.iy.0 / it.area.0).sqrt()).abs() < 0.02, "{it:?}");
            assert!((it.ho.0 - (it.depth.0 - it.flange.0)).abs() < 0.06, "{it:?}");
            assert!(it.zx > it.sx && bending(&it, &A992, Held::AllAlong).is_some() && shear(&it, &A36).is_some());
        }
    }

    /// By hand, W8X24, A992: Mp = 50 x 23.1 = 1155 kip-in = 96.25 kip-ft, / 1.67 = 57.63. Lp = 1.76 x 1.61 x sqrt(580) =
    /// 68.24 in. Jc / Sx ho = 0.346 / (20.9 x 7.53) = 0.0021986; 0.7 Fy / E = 0.00120690; Lr = 1.95 x 1.81 / 0.00120690 x
    /// sqrt(0.0021986 + sqrt(0.0021986^2 + 6.76 x 0.00120690^2)) = 2924.46 x sqrt(0.0021986 + 0.0038308) = 227.09 in.
    #[test]
    fn a_w8x24_of_a992_yields_whole_up_to_68_in_and_turns_over_beyond() {
        let beam = shape("W8X24").unwrap();
        let held = bending(&beam, &A992, Held::AllAlong).unwrap();
        assert!((held.plastic.0 - 96_250.0).abs() < 1e-6 && (held.allowed.0 - 96_250.0 / 1.67).abs() < 1e-6);
        assert!((held.lp.0 - 68.24).abs() < 0.01 && (held.lr.0 - 227.09).abs() < 0.05, "{held:?}");
        assert_eq!(held.limit, Limit::Yielding);
        // Half way from Lp to Lr it is half way from Mp to 0.7 Fy Sx = 35 x 20.9 = 731.5 kip-in.
        let middle = bending(&beam, &A992, Held::Every((held.lp + held.lr) / 2.0)).unwrap();
        assert!((middle.nominal.0 - (1_155_000.0 + 731_500.0) / 2.0 / 12.0).abs() < 1e-6);
        assert_eq!(middle.limit, Limit::TurningOver);
    }

    /// At Lr both come to 0.7 Fy Sx, but for what the printed constants are rounded by: 1.95^2 is 3.8025 for pi^4 x 0.039 =
    /// 3.7990, 6.76 stands for 6.749.
    #[test]
    fn the_two_formulas_of_turning_over_meet_at_lr_in_every_shape() {
        for it in SHAPES {
            for steel in STEELS {
                let lr = bending(&it, &steel, Held::AllAlong).unwrap().lr;
                let [before, after] =
                    [0.99999, 1.00001].map(|near| bending(&it, &steel, Held::Every(lr * near)).unwrap().nominal);
                assert!((before / after - 1.0).abs() < 1.5e-3, "{}: {before:?} and {after:?}", it.name);
                assert!(before >= after);
            }
        }
    }

    #[test]
    fn braces_further_apart_never_strengthen_a_shape_in_inches() {
        for (it, steel) in SHAPES.iter().flat_map(|it| STEELS.map(|steel| (it, steel))) {
            let all_along = bending(it, &steel, Held::AllAlong).unwrap().nominal;
            let mut before = all_along;
            for inches in 1..600 {
                let now = bending(it, &steel, Held::Every(Inches(f64::from(inches)))).unwrap().nominal;
                assert!(now <= before && now > FootPounds::ZERO, "{} at {inches} in", it.name);
                before = now;
            }
            assert!(before < all_along * 0.9, "{}: 50 ft unheld", it.name);
        }
    }

    /// bf / 2 tf of W8X10 is 9.61, over 0.38 sqrt(580) = 9.15.
    #[test]
    fn of_these_shapes_three_in_a992_have_flanges_too_thin_to_yield_and_none_in_a36() {
        let thin = |steel: &Steel| -> Vec<&str> {
            let is_thin = |it: &&Shape| bending(it, steel, Held::AllAlong).unwrap().limit == Limit::ThinFlange;
            SHAPES.iter().filter(is_thin).map(|it| it.name).collect()
        };
        assert_eq!(thin(&A992), ["W8X10", "W8X31", "W10X12"]);
        assert_eq!(thin(&A36), [""; 0]);
    }

    /// 0.6 x 50 x 7.93 x 0.245 / 1.5 = 38.86 kip; the web of a W12X14 is too thin for 1.5: 0.6 x 50 x 11.9 x 0.2 / 1.67 = 42.75.
    #[test]
    fn shear_is_over_1_5_in_a_stocky_web_and_over_1_67_in_that_of_a_w12x14_in_pounds() {
        assert!((shear(&shape("W8X24").unwrap(), &A992).unwrap().0 - 38_857.0).abs() < 0.01);
        assert!((shear(&shape("W12X14").unwrap(), &A992).unwrap().0 - 71_400.0 / 1.67).abs() < 0.01);
        assert!((shear(&shape("W12X14").unwrap(), &A36).unwrap().0 - 51_408.0 / 1.5).abs() < 0.01);
    }
}
