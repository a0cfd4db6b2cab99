//! How long the statics of one joist take: five loads settled, then asked for in five kinds.

use joistwise_core::statics::{Load, Piece};
use joistwise_core::units::{Feet, InchesToTheFourth, Plf, Pounds, Psi};

fn main() {
    divan::main();
}

fn joist(spans: u32) -> (Piece, Vec<Load>) {
    let supports: Vec<Feet> = (0..=spans).map(|post| Feet(12.0 * f64::from(post))).collect();
    let length = 12.0 * f64::from(spans);
    let spread = |plf| Load::uniform(Feet(0.0), Feet(length), Plf(plf));
    let wall = Load::Point { at: Feet(5.0), weight: Pounds(600.0) };
    let rafters = Load::Spread { from: Feet(2.0), to: Feet(9.0), start: Plf(0.0), end: Plf(80.0) };
    (Piece::new(Feet(0.0), Feet(length), &supports), vec![spread(13.0), spread(53.0), wall, rafters, spread(20.0)])
}

#[divan::bench(args = [1, 2, 3, 5])]
fn settle_and_five_kinds(bencher: divan::Bencher<'_, '_>, spans: u32) {
    let (piece, loads) = joist(spans);
    bencher.bench(|| {
        let contact = piece.settle(&loads).ok()?;
        Some(loads.iter().map(|load| contact.reactions(std::slice::from_ref(load))).collect::<Vec<_>>())
    });
}

#[divan::bench(args = [1, 2, 3, 5])]
fn lifted_far_end(bencher: divan::Bencher<'_, '_>, spans: u32) {
    let (piece, _) = joist(spans);
    let loads = [Load::uniform(Feet(0.0), Feet(12.0), Plf(100.0))];
    bencher.bench(|| piece.settle(&loads));
}

#[divan::bench(args = [1, 2, 3, 5])]
fn response(bencher: divan::Bencher<'_, '_>, spans: u32) {
    let (piece, loads) = joist(spans);
    let contact = piece.held();
    bencher.bench(|| contact.as_ref().map(|one| one.response(&loads, Psi(1.6e6), InchesToTheFourth(98.9))));
}
