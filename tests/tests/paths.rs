//! Paths on demand against statics by hand: each share from a free body that is written beside it.

#![expect(clippy::indexing_slicing, reason = "a test that panics is a test that fails")]

use joistwise_core::draft::{Draft, corners, draft};
use joistwise_core::geometry::Spot;
use joistwise_core::ids::ElementId;
use joistwise_core::loads::Thing;
use joistwise_core::path::{Path, Reach, Start, path};
use joistwise_core::plan::{Joints, Plan, Region, Stands, Way};
use joistwise_core::trace::{Node, trace};
use joistwise_core::units::{Feet, Pounds};
use joistwise_tests::{house, node};

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 1e-9, "{what}: {got}, by hand {by_hand}");
}

#[track_caller]
fn of(plan: &Plan, start: Start) -> Path {
    let path = path(plan, &trace(plan), &start).expect("a start of this plan");
    close("all its ends", path.ends().map(|it| it.share).sum(), 1.0);
    path
}

/// A weight on the joists over the lowest level, places in feet.
#[track_caller]
fn put_down(plan: &Plan, east: f64, north: f64, weight_lb: f64) -> Path {
    let at = Spot { x: Feet(east), y: Feet(north) };
    of(plan, Start::Deck { level: plan.levels()[0].id, at, weight: Pounds(weight_lb) })
}

fn wall_part(plan: &Plan, name: &str) -> ElementId {
    ElementId::Wall(plan.wall_named(name).expect("drawn").id)
}

/// Two walls 12 ft apart under joists, and nothing else.
fn two_walls() -> Plan {
    let house = draft().inside("S", (0, 0), (24, 0)).inside("N", (0, 12), (24, 12));
    house.joists_over(Region::Corners(corners((0, 0), (24, 12))), Way::Y, Joints::Lap).done()
}

/// 4 ft from S on a span of 12 ft: moments about N give S 8/12, moments about S give N 4/12. Whatever the weight, and
/// whatever lies on the joists besides.
#[test]
fn a_weight_at_a_third_of_a_span_goes_two_thirds_to_the_near_wall() {
    let plan = two_walls();
    for weight_lb in [1.0, 1000.0] {
        let path = put_down(&plan, 10.0, 4.0, weight_lb);
        close("S", path.share_of(node(&plan, "S")), 2.0 / 3.0);
        close("N", path.share_of(node(&plan, "N")), 1.0 / 3.0);
        close("ground", path.share_of(Node::Ground), 1.0);
        close("whole lb", path.weights.all().0, weight_lb);
    }
}

/// Joists 16 in apart: of a weight between two of them, one d from the first and 16 in - d from the second, the first
/// takes (16 - d) / 16.
#[test]
fn the_joists_beside_a_weight_share_it_by_the_lever_rule() {
    let plan = two_walls();
    let path = put_down(&plan, 10.2, 6.0, 1000.0);
    let [one, two] = path.joists.as_slice() else { panic!("{:?}", path.joists) };
    close("both", one.share + two.share, 1.0);
    close("apart ft", (two.a.x.0 - one.a.x.0).abs(), 16.0 / 12.0);
    close("the first", one.share, (two.a.x.0 - 10.2).abs() / (16.0 / 12.0));
}

/// A deck that ends at 12 ft has nothing at 20 ft.
#[test]
fn a_weight_beside_the_deck_has_no_path_and_says_so_first() {
    let path = put_down(&two_walls(), 10.0, 20.0, 1000.0);
    close("gap", path.gap(), 1.0);
    assert!(matches!(path.down.as_slice(), [Reach { node: Node::Gap, .. }]), "{:?}", path.down);
    assert!(path.joists.is_empty());
}

/// 24 ft of girder over three columns 12 ft apart, in two pieces that meet on the middle one, a pad under each.
fn girder() -> Draft {
    let house = draft().inside("S", (0, 0), (24, 0)).inside("N", (0, 24), (24, 24));
    let house = house.beam("G", (0, 12), (24, 12), Joints::Lap);
    let columns = [("P0", 0), ("P1", 12), ("P2", 24)];
    let house = columns.iter().fold(house, |house, (name, x)| house.post(name, (*x, 12)).pad((*x, 12), 3));
    house.joists_over(Region::Corners(corners((0, 0), (24, 24))), Way::Y, Joints::Lap)
}

/// The share of a post, and of the pad under it.
#[track_caller]
fn posts(plan: &Plan, path: &Path, by_hand: [f64; 3]) {
    let level = &plan.levels()[0];
    for ((post, footing), share) in level.posts.iter().zip(&level.footings).zip(by_hand) {
        close(&post.name, path.share_of(Node::Post(post.id)), share);
        close(&format!("pad of {}", post.name), path.share_of(Node::Footing(footing.id)), share);
    }
}

/// A post 9 ft along the girder, between columns at 0 and 12 ft: 3/12 to the first, 9/12 to the second, none to the third.
#[test]
fn a_post_on_a_girder_between_two_columns_shares_itself_by_the_lever_rule_down_to_the_pads() {
    let plan = girder().up().post("U", (9, 12)).done();
    let upper = plan.levels()[1].posts[0].id;
    let path = of(&plan, Start::Part(ElementId::Post(upper)));
    close("girder", path.share_of(Node::Beam(plan.levels()[0].beams[0].id)), 1.0);
    posts(&plan, &path, [0.25, 0.75, 0.0]);
}

/// A wall over the whole girder: each piece brings half to each of its ends. Its first half alone knows nothing of the third
/// column; 2 ft in the middle of the first span go half and half; its place at 3 ft goes 9/12 and 3/12.
#[test]
fn a_stretch_of_a_wall_has_a_path_of_its_own() {
    let plan = girder().up().inside("U", (0, 12), (24, 12)).done();
    let part = wall_part(&plan, "U");
    posts(&plan, &of(&plan, Start::Part(part)), [0.25, 0.5, 0.25]);
    let run = |from: f64, to: f64| of(&plan, Start::Run { part, from: Feet(from), to: Feet(to) });
    posts(&plan, &run(0.0, 12.0), [0.5, 0.5, 0.0]);
    posts(&plan, &run(5.0, 7.0), [0.5, 0.5, 0.0]);
    posts(&plan, &run(3.0, 3.0), [0.75, 0.25, 0.0]);
    // Half of 24 ft x 8 ft x 6 psf of inside wall.
    close("first half lb", run(0.0, 12.0).weights.all().0, 12.0 * 8.0 * 6.0);
}

/// Over a door from 2 to 6 ft a stretch goes to the jambs: what is at 3 ft by 3/4 to the jamb at 2 ft, 1/4 to that at 6 ft;
/// from there to the columns at 0 and 12 ft: 10/12 and 6/12 to the first.
#[test]
fn what_is_over_a_door_goes_by_its_jambs() {
    let plan = girder().up().inside("U", (0, 12), (24, 12)).door(2, 4).done();
    let part = wall_part(&plan, "U");
    let path = of(&plan, Start::Run { part, from: Feet(3.0), to: Feet(3.0) });
    let first = 0.75 * 10.0 / 12.0 + 0.25 * 6.0 / 12.0;
    posts(&plan, &path, [first, 1.0 - first, 0.0]);
}

/// A wall 24 in off the wall below, on joists that end there and 14 ft further: moments about the far end give the wall
/// below 12/14 = 0.857, the far wall 2/14.
#[test]
fn a_wall_24_in_off_brings_the_wall_below_0_857_of_itself() {
    let below = draft().outside(24, 26).inside("A", (0, 12), (24, 12)).joists(Way::Y, Joints::Lap);
    let plan = below.up().inside("U", (4, 14), (20, 14)).done();
    let path = of(&plan, Start::Part(wall_part(&plan, "U")));
    close("wall below", path.share_of(node(&plan, "A")), 12.0 / 14.0);
    close("north wall", path.share_of(Node::Wall(plan.levels()[0].walls[2].id)), 2.0 / 14.0);
}

/// A tub of 2 ft across the middle of a 12 ft span: half to each wall. On its legs at 2 and 4 ft, the mean of 10/12 and
/// 8/12 goes to the near one.
#[test]
fn a_heavy_thing_has_a_path() {
    let below = draft().inside("S", (0, 0), (24, 0)).inside("N", (0, 12), (24, 12));
    let below = below.joists_over(Region::Corners(corners((0, 0), (24, 12))), Way::Y, Joints::Lap);
    for (stands, south, by_hand) in [(Stands::Flat, 5, 0.5), (Stands::OnLegs, 2, 0.75)] {
        let plan = below.clone().up().thing(Thing::Tub, (8, south), (13, south + 2));
        let plan = plan.with(|level| level.things.iter_mut().for_each(|it| it.stands = stands)).done();
        let thing = plan.levels()[1].things[0].id;
        let path = of(&plan, Start::Part(ElementId::Thing(thing)));
        close("S", path.share_of(node(&plan, "S")), by_hand);
        close("lb", path.weights.all().0, 900.0);
    }
}

/// The attic house: the middle wall gets all it has from the ceiling joists. The girder below gets wall and floor; of what
/// it gets, the ceiling joists have the wall's part less the wall's own weight.
#[test]
fn what_arrives_is_known_by_where_it_comes_from() {
    let upper =
        girder().up().inside("U", (0, 12), (24, 12)).inside("US", (0, 0), (24, 0)).inside("UN", (0, 24), (24, 24));
    let plan = upper.joists_over(Region::Corners(corners((0, 0), (24, 24))), Way::Y, Joints::Lap).done();
    let trace = trace(&plan);
    let wall = of(&plan, Start::Part(wall_part(&plan, "U")));
    let field = Node::Field(plan.levels()[1].fields[0].id);
    assert!(matches!(wall.up.as_slice(), [Reach { node, rank: 1, .. }] if *node == field), "{:?}", wall.up);
    close("joists of the wall", wall.up[0].share, 1.0);
    let girder = of(&plan, Start::Part(ElementId::Beam(plan.levels()[0].beams[0].id)));
    let share = |node: Node| girder.up.iter().find(|it| it.node == node).map_or(0.0, |it| it.share);
    let top = trace.beams[0].top.all().0;
    let own = trace.wall(plan.wall_named("U").expect("drawn").id).expect("traced");
    close("wall on the girder", share(node(&plan, "U")), (own.top + own.own).all().0 / top);
    close("floor on the girder", share(Node::Field(plan.levels()[0].fields[0].id)), 1.0 - share(node(&plan, "U")));
    close("ceiling on the girder", share(field), own.top.all().0 / top);
    let rank = |node: Node| girder.up.iter().find(|it| it.node == node).map(|it| it.rank);
    assert_eq!((rank(node(&plan, "U")), rank(field)), (Some(1), Some(2)));
}

/// The worked house with a girder on columns: the centre wall stands on the girder, and all of it arrives at pads and
/// strips. The columns at 7, 14, 21 and 28 ft and the walls at 0 and 34 ft hold five spans of 7 ft and one of 6 ft: of an
/// even load each column has 7 / 34, the last 6.5 / 34, the wall ends 3.5 / 34 and 3 / 34.
#[test]
fn the_centre_wall_of_the_worked_house_goes_by_the_girder_to_pads() {
    let plan = house("one-storey-gable-basement-beam-and-posts.json");
    let part = wall_part(&plan, "Centre wall");
    let level = plan.levels()[0].clone();
    let whole = of(&plan, Start::Part(part));
    close("girder", whole.share_of(Node::Beam(level.beams[0].id)), 1.0);
    // Away from the gable ends, over one span of 7 ft, it is even: half to each column.
    let stretch = of(&plan, Start::Run { part, from: Feet(7.0), to: Feet(14.0) });
    for post in level.posts.iter().take(2) {
        close("column beside it", stretch.share_of(Node::Post(post.id)), 0.5);
    }
    assert!(stretch.up.iter().all(|it| it.share > 0.0) && !stretch.up.is_empty(), "{:?}", stretch.up);
}
