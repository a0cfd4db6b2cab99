//! How long the checks of a beam take: factors and checks of one, and of every size that a take-out would try.

use joistwise_core::loads::Combination;
use joistwise_core::members::section::Section;
use joistwise_core::plan::Member;
use joistwise_core::strength::adjust::{Bends, Conditions, glulam, lvl, sawn};
use joistwise_core::strength::check::{Demand, Rule, SagLimits, Seat, wood};
use joistwise_core::strength::engineered::{GLULAM, GLULAM_WIDTHS, LVL, LVL_DEPTHS, LVL_PLY};
use joistwise_core::strength::lumber::{Grade, Species, lumber};
use joistwise_core::strength::stability::Held;
use joistwise_core::strength::steel::{A992, SHAPES, steel};
use joistwise_core::units::{Feet, FootPounds, Inches, Pounds};

fn main() {
    divan::main();
}

const DEMAND: Demand = Demand {
    moment: FootPounds(12_000.0),
    shear: Pounds(4000.0),
    live_sag: Inches(0.3),
    total_sag: Inches(0.4),
    span: Feet(12.0),
};
const SEAT: Seat = Seat { reaction: Pounds(4000.0), length: Inches(3.0), to_end: Inches(0.0) };
const HELD: Held = Held::Every(Inches(144.0));

fn conditions() -> Conditions {
    Conditions::dry(Combination::DeadLive, HELD)
}

fn of_plies(plies: u8, depth: u8) -> Option<(Rule, f64)> {
    let member = Member::plies(plies, 2, depth);
    let row = lumber(Species::DouglasFirLarch, Grade::Two, member)?;
    let values = sawn(&row, member, &conditions())?;
    Some(wood(&DEMAND, &[SEAT], &Section::of(member)?, &values, SagLimits::FLOOR).governing())
}

fn of_lvl(plies: u8, depth: Inches) -> Option<(Rule, f64)> {
    let section = Section { width: LVL_PLY, depth }.plies(plies);
    let values = lvl(&LVL[0], &section, &conditions())?;
    Some(wood(&DEMAND, &[SEAT], &section, &values, SagLimits::FLOOR).governing())
}

fn of_glulam(width: Inches, depth: Inches) -> Option<(Rule, f64)> {
    let section = Section { width, depth };
    let values = glulam(&GLULAM[0], &section, DEMAND.span, Bends::Sagging, &conditions())?;
    Some(wood(&DEMAND, &[SEAT], &section, &values, SagLimits::FLOOR).governing())
}

#[divan::bench]
fn three_2x12(bencher: divan::Bencher<'_, '_>) {
    bencher.bench(|| of_plies(3, 12));
}

#[divan::bench]
fn two_lvl_of_14_in(bencher: divan::Bencher<'_, '_>) {
    bencher.bench(|| of_lvl(2, Inches(14.0)));
}

#[divan::bench]
fn every_size_of_every_kind(bencher: divan::Bencher<'_, '_>) {
    bencher.bench(|| {
        let lumber = (2..=4).flat_map(|plies| [6, 8, 10, 12].map(|depth| of_plies(plies, depth)));
        let veneer = (1..=4).flat_map(|plies| LVL_DEPTHS.map(|depth| of_lvl(plies, depth)));
        let laminations = 6..=16;
        let glued =
            laminations.flat_map(|count| GLULAM_WIDTHS.map(|width| of_glulam(width, Inches(1.5) * f64::from(count))));
        let shapes = SHAPES
            .iter()
            .map(|shape| steel(&DEMAND, shape, &A992, HELD, SagLimits::FLOOR).map(|checks| checks.governing()));
        lumber.chain(veneer).chain(glued).chain(shapes).flatten().filter(|(_, ratio)| *ratio <= 1.0).count()
    });
}
