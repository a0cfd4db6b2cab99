//! Rules that decide ties, each with figures by hand: DEVELOPERS.md lists them.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::plan::{Joints, Member, Plan, Set, Way};
use joistwise_core::trace::{Node, Trace, trace};
use joistwise_tests::node;

fn inches(x: f64, y: f64) -> (f64, f64) {
    (x / 12.0, y / 12.0)
}

/// What goes straight from one to another, over what goes from it at all.
fn straight_share(plan: &Plan, trace: &Trace, from: &str, to: &str) -> f64 {
    let from = node(plan, from);
    let to = node(plan, to);
    let all: f64 = trace.links.iter().filter(|it| it.from == from).map(|it| it.weights.all().0).sum();
    let straight = trace.links.iter().filter(|it| it.from == from && it.to == to && it.through.is_none());
    straight.map(|it| it.weights.all().0).sum::<f64>() / all
}

#[track_caller]
fn stands_straight(house: Draft, below: &str, want: bool, what: &str) {
    let plan = house.done();
    let share = straight_share(&plan, &trace(&plan), "U", below);
    assert!((share - if want { 1.0 } else { 0.0 }).abs() < 1e-9, "{what}: {share} of it goes straight to {below}");
}

/// Partitions of 4 1/2 in: their bodies overlap while their lines are less than 2 1/4 + 2 1/4 in apart, to both sides.
#[test]
fn a_wall_stands_in_line_on_a_partition_up_to_4_in_beside_it_and_not_5_in() {
    for (off_in, straight) in [(-4.0, true), (0.0, true), (4.0, true), (5.0, false), (-5.0, false)] {
        let house = draft().outside(20, 24).inside("A", (0, 12), (20, 12)).joists(Way::Y, Joints::Lap).up();
        let y = 144.0 + off_in;
        let house = house.inside("U", inches(0.0, y), inches(240.0, y));
        stands_straight(house, "A", straight, &format!("{off_in} in"));
    }
}

/// The body of an outside wall of 6 1/2 in counts to both sides of its line: an upper partition of 4 1/2 in stands in line up to
/// 6 1/2 + 2 1/4 in from it, inwards and outwards alike.
#[test]
fn a_wall_stands_in_line_on_an_outside_wall_up_to_8_in_off_it_inwards_and_outwards_and_not_9_in() {
    for (off_in, straight) in [(8.0, true), (-8.0, true), (9.0, false), (-9.0, false)] {
        let house = draft().outside(20, 24).with(|level| level.walls[0].name = "S".into());
        let house = house.joists_over(
            joistwise_core::plan::Region::Corners(joistwise_core::draft::corners((0, -2), (20, 24))),
            Way::Y,
            Joints::RunThrough,
        );
        let house = house.up().inside("U", inches(12.0, off_in), inches(228.0, off_in));
        stands_straight(house, "S", straight, &format!("{off_in} in"));
    }
}

/// A girder of three pieces is 4 1/2 in wide: an upper partition of 4 1/2 in is in line up to 4 1/2 in off. Of a girder whose size
/// nobody saw 3 in to each side count: 5 1/4 in.
#[test]
fn a_wall_stands_in_line_on_a_girder_by_the_girder_s_own_width_in_inches() {
    for (member, off_in, straight) in [
        (Member::plies(3, 2, 10), 4.0, true),
        (Member::plies(3, 2, 10), 5.0, false),
        (Member::plies(1, 2, 10), 2.75, true),
        (Member::plies(1, 2, 10), 3.25, false),
        (Member::default(), 5.0, true),
        (Member::default(), 5.5, false),
    ] {
        let house = draft().outside(20, 24).joists(Way::Y, Joints::Lap).beam("B", (0, 12), (20, 12), Joints::Lap);
        let house = house.with(|level| {
            let beam = level.beams.last_mut().expect("the girder");
            (beam.member, beam.set) = (member, Set::Dropped);
        });
        let y = 144.0 + off_in;
        let house = house.up().inside("U", inches(12.0, y), inches(228.0, y));
        stands_straight(house, "B", straight, &format!("{member:?} {off_in} in"));
    }
}

/// A stair of 4 x 6 ft from 4 ft off the south wall, 12 ft joists lapped on a middle wall. A partition comes from the west and ends
/// under the trimmer, where the header is. Tails of 2 ft own 4 ft less half a bay at each side; whatever the header brings to its
/// west end, the trimmer takes to the south and the middle wall, 2 / 12 and 10 / 12 of it; to the partition goes nothing.
#[test]
fn a_partition_at_the_end_of_a_header_takes_nothing_of_it_and_the_trimmer_2_and_10_twelfths() {
    let house = draft().outside(20, 24).inside("M", (0, 12), (20, 12)).inside("P", (2, 10), (8, 10));
    let house = house.joists(Way::Y, Joints::Lap).stair((8, 4), (12, 10));
    let plan = house.done();
    let trace = trace(&plan);
    let opening = Node::FloorOpening(plan.levels()[0].floor_openings[0].id);
    let to = |to: Node| {
        let links = trace.links.iter().filter(|it| it.from == opening && it.to == to);
        links.map(|it| it.weights.all().0).sum::<f64>()
    };
    assert!(to(node(&plan, "P")).abs() < 1e-9, "{} lb", to(node(&plan, "P")));
    let far = trace.headers.iter().find(|it| (it.a.y.0 - 10.0).abs() < 1e-9).expect("the north header");
    let near = trace.headers.iter().find(|it| (it.a.y.0 - 4.0).abs() < 1e-9).expect("the south header");
    let (far, near) = ((far.at_a + far.at_b).all().0, (near.at_a + near.at_b).all().0);
    let middle = far * 10.0 / 12.0 + near * 4.0 / 12.0;
    assert!((to(node(&plan, "M")) - middle).abs() < 1e-6, "{} lb, by hand {middle}", to(node(&plan, "M")));
}
