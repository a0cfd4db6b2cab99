//! The largest houses that the program takes, each large in another way, for the tests of time and of the budget.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::loads::Thing;
use joistwise_core::plan::{Joints, Over, Plan, PlanFile, RoofForm, RoofFrame, Set, Way};
use joistwise_core::units::Ticks;

/// A number of feet along `long`, the `at`th of `count` even ones.
fn even(at: i32, count: i32, long: f64) -> f64 {
    f64::from(at + 1) * long / f64::from(count + 1)
}

fn close(house: Draft) -> Draft {
    house.with(|level| level.fields.iter_mut().for_each(|it| it.spacing = Ticks::from_sixteenths(32)))
}

/// One floor of joists 2 in apart over 160 ft, over `walls` rows.
fn rows(walls: i32, joints: Joints) -> Draft {
    let mut house = draft().outside(160, 100);
    for row in 0..walls {
        let y = even(row, walls, 100.0);
        house = house.inside(&format!("R{row}"), (0.0, y), (160.0, y));
    }
    close(house.joists(Way::Y, joints))
}

/// Each by what is much in it; not all of them are within the budget for every size.
#[must_use]
pub fn large(size: f64) -> Vec<(&'static str, PlanFile)> {
    #[expect(clippy::cast_possible_truncation, reason = "a few hundred")]
    let n = |full: f64| (full * size) as i32;
    let mut all =
        vec![("rows, run through", rows(n(60.0), Joints::RunThrough)), ("rows, laps", rows(n(60.0), Joints::Lap))];
    let mut two = rows(n(30.0), Joints::RunThrough).up().outside(160, 100);
    for row in 0..n(30.0) {
        let y = even(row, n(30.0), 100.0) + 0.7;
        two = two.inside(&format!("U{row}"), (0.0, y), (160.0, y));
    }
    all.push(("rows under rows", two.joists(Way::Y, Joints::RunThrough).roof(Way::X, 1.0)));
    let mut beams = close(draft().outside(160, 100).joists(Way::Y, Joints::RunThrough));
    for row in 0..n(55.0) {
        let y = even(row, n(55.0), 100.0);
        beams = beams.beam(&format!("B{row}"), (0.0, y), (160.0, y), Joints::RunThrough);
        for post in 0..20 {
            beams = beams.post("", (even(post, 20, 160.0), y));
        }
    }
    all.push(("beams on posts", beams));
    let mut grid = close(draft().outside(100, 100).joists(Way::Y, Joints::RunThrough));
    for row in 0..n(40.0) {
        let y = even(row, n(40.0), 100.0);
        grid = grid.beam(&format!("B{row}"), (0.0, y), (100.0, y), Joints::RunThrough);
        grid = grid.beam(&format!("C{row}"), (y, 0.0), (y, 100.0), Joints::RunThrough).with(|level| {
            level.beams.last_mut().into_iter().for_each(|it| it.set = Set::Dropped);
        });
    }
    all.push(("a grid of beams", grid));
    let mut purlins = draft().outside(160, 100).roof(Way::X, 1.0).over(|roof| {
        roof.spacing = Ticks::from_sixteenths(32);
        roof.frame = RoofFrame::RidgeBoard;
    });
    for row in 0..n(30.0) {
        let y = even(row, n(30.0), 100.0);
        purlins = purlins.purlin((0.0, y), (160.0, y), (80.0, 50.0));
        purlins = purlins.inside(&format!("R{row}"), (0.0, y), (160.0, y));
    }
    all.push(("purlins over walls", purlins));
    let mut fields = draft().outside(100, 100).inside("C", (0, 50), (100, 50));
    for field in 0..n(100.0) {
        let way = if field % 2 == 0 { Way::Y } else { Way::new(field + 1, 100) };
        fields = fields.joists(way, Joints::RunThrough);
    }
    all.push(("fields over fields", fields));
    let mut stairs =
        close(draft().outside(160, 100).inside("C", (0, 50), (160, 50)).joists(Way::Y, Joints::RunThrough));
    for stair in 0..n(400.0) {
        let (x, y) = (f64::from(stair % 40) * 4.0 + 0.5, f64::from(stair / 40) * 9.0 + 1.0);
        stairs = stairs.stair((x, y), (x + 3.0, y + 7.0));
    }
    all.push(("stairs", stairs));
    for (name, frame) in [("dormers", RoofFrame::RidgeBoard), ("dormers on a ridge beam", RoofFrame::RidgeBeam)] {
        let mut dormers = draft().outside(160, 100).roof(Way::X, 1.0).over(|roof| {
            roof.spacing = Ticks::from_sixteenths(32);
            roof.frame = frame;
        });
        for dormer in 0..n(40.0) {
            let x = f64::from(dormer) * 4.0 + 0.5;
            dormers = dormers.roof_opening((x, 10.0), (x + 3.0, 20.0), Over::GableDormer, 0.0);
        }
        all.push((name, dormers));
    }
    let mut hips = draft();
    for storey in 0..3 {
        hips = if storey > 0 { hips.up() } else { hips };
        hips = hips.outside(160, 100).joists(Way::Y, Joints::Lap);
        for roof in 0..n(20.0) {
            hips = hips.roof(Way::X, 1.0).over(|it| {
                it.spacing = Ticks::from_sixteenths(16 * 16 + roof * 16);
                it.form = RoofForm::Hip;
            });
        }
    }
    all.push(("hips over hips", hips));
    let mut wings = draft().outside(160, 100).roof(Way::X, 1.0);
    for wing in 0..n(39.0) {
        let x = f64::from(wing) * 4.0;
        wings = wings.wing((x, 60.0), (x + 4.0, 110.0));
    }
    all.push(("wings", wings));
    let mut things = close(draft().outside(160, 100).joists(Way::Y, Joints::RunThrough).up().outside(160, 100));
    for thing in 0..n(1500.0) {
        let (x, y) = (f64::from(thing % 50) * 3.0 + 1.0, f64::from(thing / 50) * 3.0 + 1.0);
        things = things.thing(Thing::GrandPiano, (x, y), (x + 2.0, y + 2.0));
    }
    all.push(("things", things));
    let mut posts = draft().outside(160, 100).joists(Way::Y, Joints::RunThrough).up().outside(160, 100);
    for post in 0..n(2000.0) {
        posts = posts.post("", (f64::from(post % 60) * 2.5 + 1.0, f64::from(post / 60) * 2.5 + 1.0));
    }
    all.push(("posts", posts));
    let mut doors = draft().outside(160, 100).inside("C", (0, 50), (160, 50));
    for door in 0..n(1900.0) {
        doors = doors.door(f64::from(door) / 12.0, 1.0 / 13.0);
    }
    all.push(("doors in one wall", doors.joists(Way::Y, Joints::Lap)));
    let mut floors = draft();
    for storey in 0..8 {
        floors = if storey > 0 { floors.up() } else { floors };
        floors = floors.outside(160, 100);
        for wall in 0..n(120.0) {
            let x = even(wall, n(120.0), 160.0) + f64::from(storey % 3) * 0.3;
            let y = f64::from(wall % 9) * 10.0;
            floors = if wall % 2 == 0 {
                floors.inside(&format!("W{storey}-{wall}"), (x, y), (x, y + 12.0))
            } else {
                floors.inside(&format!("W{storey}-{wall}"), (x - 1.0, y + 3.0), (x + 4.0, y + 3.0))
            };
        }
        floors = floors.joists(if storey % 2 == 0 { Way::Y } else { Way::X }, Joints::RunThrough);
    }
    all.push(("eight storeys", floors.roof(Way::X, 1.0)));
    all.into_iter().map(|(name, house)| (name, house.file())).collect()
}

/// The largest of each kind within the budget, by halving.
#[must_use]
pub fn largest() -> Vec<(&'static str, Plan)> {
    let mut found: Vec<(&'static str, Plan)> = Vec::new();
    for step in 0..12 {
        let size = 1.0 - f64::from(step) / 12.0;
        for (name, file) in large(size) {
            if found.iter().all(|it| it.0 != name)
                && let Ok(plan) = Plan::try_from(file)
            {
                found.push((name, plan));
            }
        }
    }
    found
}
