//! How long readings take: a thousand of a house of two storeys, and the list of them before any is traced.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Grade, Joints, Plan, Way};
use joistwise_core::readings::Readings;

fn main() {
    divan::main();
}

/// Two storeys of 40 by 28 ft, four inside walls each, joists and roof drawn and only assumed.
fn two_storeys() -> Plan {
    let mut house = draft();
    for storey in 0..2 {
        if storey > 0 {
            house = house.up();
        }
        house = house.outside(40, 28).joists(Way::Y, Joints::NotSeen);
        house = house.with(|level| level.fields.iter_mut().for_each(|field| field.known = Grade::Assumed));
        house = house.inside(&format!("A{storey}"), (0, 14), (28, 14)).inside(&format!("B{storey}"), (28, 0), (28, 28));
        house =
            house.inside(&format!("C{storey}"), (12, 0), (12, 14)).inside(&format!("D{storey}"), (12, 20), (28, 20));
    }
    house.roof(Way::X, 1).over(|roof| roof.known = Grade::Assumed).done()
}

/// The first thousand, traced one by one as the page does, and judged.
#[divan::bench]
fn a_thousand_readings_of_two_storeys(bencher: divan::Bencher<'_, '_>) {
    let listed = Readings::new(&two_storeys());
    assert!(listed.progress().1 >= 1000, "{:?}", listed.progress());
    bencher.with_inputs(|| listed.clone()).bench_values(|mut readings| {
        for _ in 0..1000 {
            readings.step();
        }
        readings.judgement()
    });
}

/// Questions, facts and the list of readings; nothing is traced.
#[divan::bench]
fn the_list_of_readings_of_two_storeys(bencher: divan::Bencher<'_, '_>) {
    let plan = two_storeys();
    bencher.bench(|| Readings::new(&plan));
}
