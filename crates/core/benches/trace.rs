//! How long a whole trace takes: the house of 60 walls and 250 joists, and how it grows with members.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::ids::ElementId;
use joistwise_core::path::{Start, path};
use joistwise_core::plan::{Joints, Plan, Way};
use joistwise_core::trace::trace;

fn main() {
    divan::main();
}

/// Two storeys over one another, each with bearing walls across and partitions along.
fn storeys(count: u32, long: u32, partitions: u32) -> Draft {
    let mut house = draft();
    for storey in 0..count {
        if storey > 0 {
            house = house.up();
        }
        house = house.outside(long, 36).joists(Way::Y, Joints::Lap);
        for row in [12, 24] {
            house = house.inside(&format!("B{storey}-{row}"), (0, row), (long, row));
        }
        for wall in 0..partitions {
            let x = 3.0 + f64::from(wall) * f64::from(long - 6) / f64::from(partitions.max(1));
            house = house.inside(&format!("P{storey}-{wall}"), (x, 0.0), (x, 12.0));
        }
    }
    house.roof(Way::X, 1.0)
}

/// 2 storeys of 126 ft: 12 bearing walls and 48 partitions, 95 joists each and 64 pairs of rafters.
fn house_of_the_issue() -> Plan {
    storeys(2, 126, 24).done()
}

#[divan::bench]
fn sixty_walls_and_250_joists(bencher: divan::Bencher<'_, '_>) {
    let plan = house_of_the_issue();
    let traced = trace(&plan);
    assert!(plan.levels().iter().map(|level| level.walls.len()).sum::<usize>() >= 60);
    assert!(traced.members.len() >= 245, "{} members", traced.members.len());
    bencher.bench(|| trace(&plan));
}

/// The path of one upper wall, asked of a house that is traced.
#[divan::bench]
fn path_of_a_wall_among_sixty(bencher: divan::Bencher<'_, '_>) {
    let plan = house_of_the_issue();
    let traced = trace(&plan);
    let wall = plan.wall_named("B1-12").map(|wall| Start::Part(ElementId::Wall(wall.id)));
    let start = wall.expect("an upper wall");
    assert!(path(&plan, &traced, &start).is_some_and(|path| path.down.len() > 1));
    bencher.bench(|| path(&plan, &traced, &start));
}

/// Five storeys of 20, 100 or 180 walls each: 4 around, 2 across that bear, the others partitions. The last is about as large
/// as a house may be.
#[divan::bench(args = [1, 5, 9])]
fn thousands_of_members(bencher: divan::Bencher<'_, '_>, thousand: u32) {
    // Joists at 16 in on five decks and one roof with rafters at 24 in: 4.25 members a foot.
    let plan = storeys(5, thousand * 1000 * 4 / 17, thousand * 20 - 6).done();
    let members = trace(&plan).members.len();
    let walls: usize = plan.levels().iter().map(|level| level.walls.len()).sum();
    let thousand = usize::try_from(thousand).unwrap_or_default();
    assert!(members.abs_diff(thousand * 1000) <= thousand * 15 + 10, "{members} members");
    assert_eq!(thousand * 100, walls);
    bencher.bench(|| trace(&plan));
}
