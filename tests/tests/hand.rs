//! Whole houses against statics by hand: each figure from a free body that is written beside it.
//!
//! Loads by IRC Table R301.5 and R802.5.1 as the plan takes them: rooms 40 psf live and 10 dead, attic with storage 20 and
//! 10; the usual weights of roofs and walls by the HUD guide, Table 3.2. Joists lie at 16 in, so a strip at each end of a
//! deck lies on the gable wall; figures are read away from there, or the deck has no gable wall.

use joistwise_core::draft::{Draft, at, corners, draft};
use joistwise_core::ids::WallId;
use joistwise_core::loads::{LineLoads, Thing, Weights};
use joistwise_core::plan::{Gable, Joints, Make, Plan, Region, RoofFrame, Stands, TrussMake, Use, Way, Webs};
use joistwise_core::trace::{Caution, Node, Origin, Problem, Reason, Trace, trace};
use joistwise_core::units::{Feet, Pounds, Ticks};
use joistwise_tests::{node, wall};

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 1e-9 * by_hand.abs().max(1.0), "{what}: {got}, by hand {by_hand}");
}

/// The line load of a wall at a place, in feet from its first end.
#[track_caller]
fn line_at(plan: &Plan, trace: &Trace, name: &str, place: f64) -> LineLoads {
    on_line(trace, plan.wall_named(name).expect("drawn").id, place)
}

#[track_caller]
fn on_line(trace: &Trace, wall: WallId, place: f64) -> LineLoads {
    let line = &trace.wall(wall).expect("traced").line;
    line.iter().find(|part| part.start.0 <= place && place < part.end.0).expect("loaded there").loads
}

/// What goes from one named part to another, or to all.
fn sent(trace: &Trace, from: Node, to: Option<Node>) -> Weights {
    let links = trace.links.iter().filter(|link| link.from == from && to.is_none_or(|to| link.to == to));
    links.fold(Weights::default(), |sum, link| sum + link.weights)
}

/// 36 x 24 ft, a wall down the middle, attic with storage over joists that run across.
fn attic(joints: Joints) -> Draft {
    draft().outside(36, 24).inside("A", (0, 12), (36, 12)).joists(Way::Y, joints).used_as(Use::AtticStorage)
}

/// Two pieces of 12 ft meet on the wall. One foot of wall, one piece: 30 psf x 12 ft x 1 ft = 360 lb, half of it, 180 lb,
/// at each end. The other piece brings 180 lb more: 360 plf, 120 dead and 240 live, on 6 + 6 = 12 ft.
#[test]
fn a_centre_wall_under_joists_that_lap_carries_12_ft_and_360_plf() {
    let plan = attic(Joints::Lap).done();
    let trace = trace(&plan);
    let loads = line_at(&plan, &trace, "A", 18.0);
    close("dead plf", loads.dead.0, 120.0);
    close("attic plf", loads.attic.0, 240.0);
    close("tributary ft", wall(&plan, &trace, "A").tributary_width(Origin::Ceiling).0, 12.0);
}

/// One joist over three walls 12 ft apart. Over the middle it is level, so each half is a beam held by one end: 5/8 of its
/// 360 lb go to the held end, 3/8 to the other. Middle 2 x 225 = 450 plf, outer walls 135 plf; 450 / 30 psf = 15 ft.
#[test]
fn a_centre_wall_under_joists_that_run_through_carries_5_4_of_that() {
    let plan = attic(Joints::RunThrough).done();
    let trace = trace(&plan);
    close("middle plf", line_at(&plan, &trace, "A", 18.0).all().0, 450.0);
    close("outer plf", on_line(&trace, plan.levels()[0].walls[0].id, 18.0).all().0, 135.0);
    let feeds = &wall(&plan, &trace, "A").feeds;
    close("effective ft", feeds[0].effective.0, 15.0);
    close("tributary ft", feeds[0].width().0, 12.0);
}

/// A pair of rafters with ties over 24 ft, 1 ft past each eave: half of 26 ft on each eave wall. Dead 15 psf on the slope,
/// 6 in 12: 15 x sqrt(1 + 1/4) on plan. Roof live 20 psf. Snow 0.7 x 30 = 21 psf. Nothing on the gable walls.
#[test]
fn an_eave_carries_half_the_span_and_its_overhang_13_ft_of_roof() {
    let house = draft().snow(30.0).outside(36, 24).roof(Way::X, 1);
    let plan = house.done();
    let trace = trace(&plan);
    let eave = on_line(&trace, plan.levels()[0].walls[0].id, 18.0);
    close("dead plf", eave.dead.0, 13.0 * 15.0 * 1.25_f64.sqrt());
    close("roof live plf", eave.roof_live.0, 13.0 * 20.0);
    close("snow plf", eave.snow.0, 13.0 * 21.0);
    let gable = trace.wall(plan.levels()[0].walls[1].id).expect("traced");
    close("gable lb", gable.top.all().0, 0.0);
}

/// A 3 ft door in the middle wall of the attic house, over a girder. Over the door 3 ft x (360 + 48 plf of wall, gross)
/// hang on the header: 612 lb on each jamb. Beside the door the girder has 408 plf from the wall.
#[test]
fn a_door_hands_what_is_over_it_to_its_jambs_and_they_to_the_girder() {
    let below = draft().outside(36, 24).beam("G", (0, 12), (36, 12), Joints::Lap);
    let below = [9, 18, 27].iter().fold(below, |house, x| house.post("", (*x, 12)));
    let above = below.up().outside(36, 24).inside("A", (0, 12), (36, 12)).door(16, 3);
    let plan = above.joists(Way::Y, Joints::Lap).used_as(Use::AtticStorage).done();
    let trace = trace(&plan);
    let girder = &trace.beams[0];
    let jambs: Vec<(f64, f64)> = girder.points.iter().map(|it| (it.at.0, it.weights.all().0)).collect();
    assert_eq!(jambs.len(), 2, "{jambs:?}");
    for ((got_ft, got_lb), by_hand_ft) in jambs.into_iter().zip([16.0, 19.0]) {
        close("jamb ft", got_ft, by_hand_ft);
        close("jamb lb", got_lb, 1.5 * (360.0 + 48.0));
    }
    let beside = girder.line.iter().find(|it| it.start.0 <= 10.0 && 10.0 < it.end.0).expect("loaded");
    close("beside plf", beside.loads.all().0, 408.0);
    assert!(girder.line.iter().all(|it| it.end.0 <= 16.0 || it.start.0 >= 19.0), "{:?}", girder.line);
}

/// 24 ft of beam in the middle of a 24 ft deck without gable walls, on posts at its ends and in its middle: rooms, 50 psf x
/// 12 ft = 600 plf.
fn beam_on_three_posts(joints: Joints, pad_ft: f64) -> Plan {
    let house = draft().inside("S", (0, 0), (24, 0)).inside("N", (0, 24), (24, 24));
    let house =
        house.beam("B", (0, 12), (24, 12), joints).post("P0", (0, 12)).post("P1", (12, 12)).post("P2", (24, 12));
    let region = Region::Corners(corners((0, 0), (24, 24)));
    house.joists_over(region, Way::Y, Joints::Lap).pad((12, 12), pad_ft).done()
}

/// Lapped over the middle post: two simple spans, half of 600 x 12 = 7,200 lb to each end of each.
/// Run through: 3/8 and 10/8 of 7,200 lb.
#[test]
fn a_beam_on_three_posts_brings_them_quarters_if_lapped_and_sixteenths_if_it_runs_through() {
    for (joints, by_hand_lb) in
        [(Joints::Lap, [3600.0, 7200.0, 3600.0]), (Joints::RunThrough, [2700.0, 9000.0, 2700.0])]
    {
        let trace = trace(&beam_on_three_posts(joints, 3.0));
        for (post, lb) in trace.posts.iter().zip(by_hand_lb) {
            close(&format!("{joints:?} {:?} lb", post.post), post.top.all().0, lb);
        }
        close("longest span ft", trace.beams[0].longest_span.0, 12.0);
    }
}

/// 9,000 lb, dead and live together, on a pad of 3 x 3 ft: 1,000 psf; on one of 2 x 2 ft: 2,250 psf, over the 1,500 psf of
/// IRC Table R401.4.1 for clay.
#[test]
fn a_pad_presses_the_soil_with_its_load_over_its_area() {
    for (side_ft, by_hand_psf, too_much) in [(3.0, 1000.0, false), (2.0, 2250.0, true)] {
        let trace = trace(&beam_on_three_posts(Joints::RunThrough, side_ft));
        let landing = trace.landings.iter().find(|it| it.on.is_some()).expect("a pad");
        close("psf", landing.pressure.expect("known").0, by_hand_psf);
        let found = trace.findings.iter().any(|it| matches!(it.problem, Problem::SoilOverloaded { .. }));
        assert_eq!(found, too_much, "{side_ft} ft");
    }
}

/// The upper wall stands 4 ft north of the wall below, 8 ft south of the outside wall, on joists that lap on the wall
/// below. By the lever rule 8/12 of it go to the wall below, 4/12 to the outside wall. It weighs 16 ft x 8 ft x 6 psf.
/// Where the joists run through they bend over the middle, and the south wall has less: with L = 12 ft and b = 8 ft from
/// the weight P to the north wall, three moments give 2 M (L + L) = -P b (L^2 - b^2) / L, so M = -P x 8 x 80 / 576 ft.
/// North 4/12 P + M / 12, south M / 12 (the deck's own weight keeps it down), the wall below the rest.
#[test]
fn a_wall_4_ft_off_shares_itself_by_the_lever_rule() {
    let weight_lb = 16.0 * 8.0 * 6.0;
    let moment_ft = 8.0 * 80.0 / 576.0;
    let through = (4.0 / 12.0 - moment_ft / 12.0, -moment_ft / 12.0);
    for (joints, (north, south)) in [(Joints::Lap, (4.0 / 12.0, 0.0)), (Joints::RunThrough, through)] {
        let below = draft().outside(24, 24).inside("A", (0, 12), (24, 12)).joists(Way::Y, joints);
        let plan = below.up().inside("U", (4, 16), (20, 16)).done();
        let trace = trace(&plan);
        let upper = node(&plan, "U");
        let outside = |index: usize| Some(Node::Wall(plan.levels()[0].walls[index].id));
        close("whole lb", sent(&trace, upper, None).all().0, weight_lb);
        close("north lb", sent(&trace, upper, outside(2)).all().0, weight_lb * north);
        close("south lb", sent(&trace, upper, outside(0)).all().0, weight_lb * south);
        close("below lb", sent(&trace, upper, Some(node(&plan, "A"))).all().0, weight_lb * (1.0 - north - south));
    }
}

/// Rooms over joists of 16 ft, a stair 3 ft wide from y = 5 to 10 ft between trimmers at x = 10 and 13 ft; joists at 16 in
/// meet it at x = 10 2/3 and 12 ft. Their strips are 1 ft (10 1/3 to 11 1/3) and 7/6 ft (11 1/3 to 12 1/2) wide.
/// North header: tails of 6 ft, half of them on it: 50 x 3 = 150 lb and 175 lb. About the trimmer at 13 ft:
/// (150 x 2 1/3 + 175 x 1) / 3 = 175 lb at 10 ft, so 150 lb at 13 ft.
/// South header: tails of 5 ft: 125 lb and 145 5/6 lb; (125 x 2 1/3 + 145 5/6) / 3 = 145 5/6 lb and 125 lb.
/// Trimmers are simple over 16 ft: the north wall has (325 x 10 + 270 5/6 x 5) / 16 lb of the headers.
#[test]
fn headers_hang_on_trimmers_and_trimmers_on_the_walls() {
    let plan = draft().outside(24, 16).joists(Way::Y, Joints::Lap).stair((10, 5), (13, 10)).done();
    let trace = trace(&plan);
    let by_hand = [(5.0, 145.0 + 5.0 / 6.0, 125.0, 7.5), (10.0, 175.0, 150.0, 9.0)];
    for (y_ft, west_lb, east_lb, area_sq_ft) in by_hand {
        let header = trace.headers.iter().find(|it| (it.a.y.0 - y_ft).abs() < 1e-9).expect("a header");
        let (west, east) =
            if header.a.x < header.b.x { (header.at_a, header.at_b) } else { (header.at_b, header.at_a) };
        close("west lb", west.all().0, west_lb);
        close("east lb", east.all().0, east_lb);
        close("area sq ft", header.area.0, area_sq_ft);
    }
    let headers = Node::FloorOpening(plan.levels()[0].floor_openings[0].id);
    let north = Some(Node::Wall(plan.levels()[0].walls[2].id));
    close("north lb", sent(&trace, headers, north).all().0, (325.0 * 10.0 + (270.0 + 5.0 / 6.0) * 5.0) / 16.0);
}

/// Three storeys of 24 x 24 ft, a wall in the middle of each, rooms on two decks, storage in the attic, a gable roof 1 ft
/// past the eaves. On a foot of the lowest wall: 12 ft x (50 + 50 + 30 psf) and two walls of 8 ft x 6 psf: 1,656 plf.
/// The whole house: three decks of 576 sq ft, the roof over 24 x 26 ft, 3 x 96 ft of outside wall at 8 psf x 8 ft, 3 x 24 ft
/// of inside wall at 6 psf x 8 ft.
#[test]
fn a_stack_of_three_storeys_is_the_sum_of_its_areas() {
    let storey =
        |house: Draft, name: &str| house.outside(24, 24).inside(name, (0, 12), (24, 12)).joists(Way::Y, Joints::Lap);
    let house = storey(storey(draft(), "A1").up(), "A2").up();
    let plan = storey(house, "A3").used_as(Use::AtticStorage).roof(Way::X, 1).done();
    let trace = trace(&plan);
    let lowest = wall(&plan, &trace, "A1");
    close("top plf", line_at(&plan, &trace, "A1", 12.0).all().0, 12.0 * 130.0 + 2.0 * 48.0);
    close("own lb", lowest.own.all().0, 24.0 * 48.0);
    let decks_lb = 576.0 * 130.0;
    let roof_lb = 24.0 * 26.0 * (15.0 * 1.25_f64.sqrt() + 20.0);
    let walls_lb = 3.0 * (96.0 * 64.0 + 24.0 * 48.0);
    close("applied lb", trace.ledger.applied.all().0, decks_lb + roof_lb + walls_lb);
    close("soil lb", trace.ledger.soil.all().0, decks_lb + roof_lb + walls_lb);
}

/// 10 ft long, 8 ft high, gross of its door: studs inside 6 psf, masonry 8 in 80 psf (HUD guide, Table 3.2).
#[test]
fn a_wall_weighs_its_face() {
    for (make, inches, by_hand_lb) in [(Make::Stud, 4.5, 480.0), (Make::Masonry, 8.0, 6400.0)] {
        let house = draft().inside("A", (0, 0), (10, 0)).door(3, 3);
        let plan = house
            .wall(|wall| {
                wall.make = make;
                wall.thickness = Ticks::from_inches(inches).expect("a length");
            })
            .done();
        let trace = trace(&plan);
        close("own lb", wall(&plan, &trace, "A").own.all().0, by_hand_lb);
        close("landing lb", trace.landings[0].weights.all().0, by_hand_lb);
    }
}

/// A deck goes 2 ft past the south wall: about the north wall, 12 ft away, 50 psf x 14 ft x 7 ft = 12 R: 408 1/3 plf on the
/// south wall, 291 2/3 plf on the north one. The trade's width is 6 ft and the whole overhang: 8 ft.
#[test]
fn an_overhang_leans_on_the_wall_it_passes() {
    let house = draft().inside("S", (0, 2), (20, 2)).inside("N", (0, 14), (20, 14));
    let plan = house.joists_over(Region::Corners(corners((0, 0), (20, 14))), Way::Y, Joints::RunThrough).done();
    let trace = trace(&plan);
    close("south plf", line_at(&plan, &trace, "S", 10.0).all().0, 50.0 * 14.0 * 7.0 / 12.0);
    close("north plf", line_at(&plan, &trace, "N", 10.0).all().0, 50.0 * 14.0 * 5.0 / 12.0);
    close("south ft", wall(&plan, &trace, "S").tributary_width(Origin::Floor).0, 8.0);
}

/// Joists that run through end all the same at a flush beam: 50 psf x 12 ft = 600 plf, not 5/4 of it. At its ends the beam
/// rests on walls: 24 ft x 600 / 2 = 7,200 lb on each, as point loads.
#[test]
fn a_flush_beam_takes_half_of_each_side_whatever_the_joists_would_do() {
    let house = draft().inside("S", (0, 0), (24, 0)).inside("N", (0, 24), (24, 24));
    let house = house.inside("W", (0, 0), (0, 24)).inside("E", (24, 0), (24, 24));
    let house = house.beam("B", (0, 12), (24, 12), Joints::Lap).flush();
    let region = Region::Corners(corners((0, 0), (24, 24)));
    let plan = house.joists_over(region, Way::Y, Joints::RunThrough).done();
    let trace = trace(&plan);
    close("beam plf", trace.beams[0].line[0].loads.all().0, 600.0);
    for name in ["W", "E"] {
        let points = &wall(&plan, &trace, name).points;
        close(&format!("{name} lb"), points[0].weights.all().0, 7200.0);
        close(&format!("{name} ft"), points[0].at.0, 12.0);
    }
}

/// A flush beam frames into a dropped girder 8 ft from its west end of 24 ft: 12 ft of deck on each side of the short beam,
/// which is 12 ft long, spanning from the girder to the north wall. Joists run east-west, 8 ft west of it and 16 ft east:
/// 50 psf x 12 ft = 600 plf, 3,600 lb on the girder. About the east end: 3,600 x 16 / 24 = 2,400 lb at the west post.
#[test]
fn a_beam_on_a_beam_is_a_weight_that_the_girder_shares_by_the_lever_rule() {
    let house = draft().inside("N", (0, 24), (24, 24)).inside("W", (0, 12), (0, 24)).inside("E", (24, 12), (24, 24));
    let house = house.beam("G", (0, 12), (24, 12), Joints::Lap).post("PW", (0, 12)).post("PE", (24, 12));
    let house = house.beam("B", (8, 12), (8, 24), Joints::Lap).flush();
    let region = Region::Corners(corners((0, 12.0), (24, 24.0)));
    let plan = house.joists_over(region, Way::X, Joints::Lap).done();
    let trace = trace(&plan);
    let short = node(&plan, "B");
    close("beam to girder lb", sent(&trace, short, Some(node(&plan, "G"))).all().0, 3600.0 - edge_strip_lb());
    let girder = trace.beams.iter().find(|it| Node::Beam(it.beam) == node(&plan, "G")).expect("traced");
    let point = girder.points.iter().find(|it| it.from == short).expect("rests there");
    close("at ft", point.at.0, 8.0);
    // The rest of the girder's load is the strip of deck right on it, all along: half of it at each post.
    let strip_lb = girder.top.all().0 - point.weights.all().0;
    let west = trace.posts.iter().find(|it| Node::Post(it.post) == node(&plan, "PW")).expect("traced");
    close("west post lb", west.top.all().0, point.weights.all().0 * 16.0 / 24.0 + strip_lb / 2.0);
}

/// The joist that lies on the girder has a strip 8 in wide and spares the beam 12 ft x 50 psf of it; what is left of the
/// short beam's load starts 8 in from the girder: 600 plf from 2/3 to 11 1/3 ft (the other 8 in lie on the north wall, which
/// is no outside wall, so that joist too is carried by the beam: from 2/3 to 12 ft). About the north wall, from 12 ft:
/// 600 x 11 1/3 x 5 2/3 / 12.
fn edge_strip_lb() -> f64 {
    3600.0 - 600.0 * (34.0 / 3.0) * (17.0 / 3.0) / 12.0
}

/// A post from above lands between two joists 16 in apart, a quarter of the way from one: by the lever rule 3/4 on it, and
/// all of it in the same proportion, 5/16 and 11/16, on the walls 16 ft apart, 5 ft from the north one.
#[test]
fn a_post_on_the_deck_is_shared_by_the_two_joists_beside_it() {
    let below = draft().outside(24, 16).joists(Way::Y, Joints::Lap);
    let x = 8.0 + 4.0 / 12.0;
    let above = below.up().beam("B", (x - 4.0, 11.0), (x + 4.0, 11.0), Joints::Lap).post("P", (x, 11.0));
    let above = above.post("Q", (x - 4.0, 11.0)).post("R", (x + 4.0, 11.0));
    let above = above.inside("S", (0, 3), (24, 3)).joists_over(
        Region::Corners([(x - 4.0, 3.0), (x + 4.0, 3.0), (x + 4.0, 11.0), (x - 4.0, 11.0)].map(at).to_vec()),
        Way::Y,
        Joints::Lap,
    );
    let plan = above.done();
    let trace = trace(&plan);
    let post = node(&plan, "P");
    let whole_lb = 4.0 * 50.0 * 4.0;
    close("post lb", sent(&trace, post, None).all().0, whole_lb);
    let walls = &plan.levels()[0].walls;
    close("north lb", sent(&trace, post, Some(Node::Wall(walls[2].id))).all().0, whole_lb * 11.0 / 16.0);
    close("south lb", sent(&trace, post, Some(Node::Wall(walls[0].id))).all().0, whole_lb * 5.0 / 16.0);
    let south = &trace.wall(walls[0].id).expect("traced").points;
    let at = |ft: f64| south.iter().find(|it| it.from == post && (it.at.0 - ft).abs() < 1e-9).expect("a joist there");
    close("joist at 8 ft, lb", at(8.0).weights.all().0, whole_lb * 5.0 / 16.0 * 0.75);
    close("joist at 9 1/3 ft, lb", at(8.0 + 16.0 / 12.0).weights.all().0, whole_lb * 5.0 / 16.0 * 0.25);
}

/// A hot tub of 5,655 lb on 7 x 8 ft in the middle of a floor of 14 ft joists: half of it to each wall the joists end on.
#[test]
fn a_hot_tub_of_5655_lb_in_the_middle_of_a_span_brings_half_to_each_wall() {
    let house =
        draft().outside(20, 14).joists(Way::Y, Joints::RunThrough).up().thing(Thing::HotTub, (6, 3.5), (14, 10.5));
    let plan = house.done();
    let trace = trace(&plan);
    let tub = Node::Thing(plan.levels()[1].things[0].id);
    for side in [0, 2] {
        let wall = Node::Wall(plan.levels()[0].walls[side].id);
        close("floor lb", sent(&trace, tub, Some(wall)).floor.0, 5655.0 / 2.0);
    }
}

/// A grand piano of 1,000 lb on legs at the corners of 4 x 4 ft, 2 ft from the south wall under 12 ft joists: two legs of 250
/// lb at 2 ft, two at 6 ft. North: 500 x 2 / 12 + 500 x 6 / 12 = 333.3 lb, south the other 666.7 lb.
#[test]
fn a_grand_piano_on_legs_2_and_6_ft_from_a_wall_brings_it_two_thirds_of_1000_lb() {
    let house =
        draft().outside(20, 12).joists(Way::Y, Joints::RunThrough).up().thing(Thing::GrandPiano, (8, 2), (12, 6));
    let plan = house.with(|level| level.things[0].stands = Stands::OnLegs).done();
    let trace = trace(&plan);
    let piano = Node::Thing(plan.levels()[1].things[0].id);
    let on = |side: usize| sent(&trace, piano, Some(Node::Wall(plan.levels()[0].walls[side].id))).floor.0;
    close("north lb", on(2), 500.0 * 2.0 / 12.0 + 500.0 * 6.0 / 12.0);
    close("south lb", on(0), 1000.0 - 1000.0 / 3.0);
}

/// A chimney nobody weighed counts for nothing and is asked about; a safe of 800 lb half off the deck is a path gap of 400.
#[test]
fn a_thing_without_a_weight_is_asked_about_and_one_half_in_the_air_is_a_path_gap_of_400_lb() {
    let deck = Region::Corners(corners((0, 0), (10, 12)));
    let house = draft().outside(20, 12).joists_over(deck, Way::Y, Joints::RunThrough).up();
    let house = house.thing(Thing::Chimney, (2, 2), (4, 4)).thing(Thing::Safe, (8, 4), (12, 6));
    let plan = house.with(|level| level.things[1].weight = Some(Pounds(800.0))).done();
    let trace = trace(&plan);
    let asked = trace.findings.iter().any(|it| matches!(it.problem, Problem::WeightNotStated { .. }));
    let gap = trace.findings.iter().find(|it| matches!(it.problem, Problem::ThingOnNothing { .. })).expect("found");
    assert!(asked);
    close("gap lb", gap.weights.expect("weighed").floor.0, 400.0);
}

/// 24 ft wide, 6 in 12: the gable over the plate is 24 x 6 / 2 = 72 square feet, half a wall of 24 x 8 = 192 more.
#[test]
fn a_gable_end_weighs_its_face_and_72_square_feet_up_to_the_rafters() {
    let gable = |it: Gable| {
        let house = draft().outside(40, 24).roof(Way::X, 0).with(|level| {
            level.walls.iter_mut().filter(|wall| wall.a.x == wall.b.x).for_each(|wall| wall.gable = it);
        });
        let plan = house.done();
        let trace = trace(&plan);
        assert!(trace.ledger.worst_share_off() < 1e-12, "{:?}", trace.ledger);
        let mut east = trace.walls.iter().filter(|it| it.length == Feet(24.0));
        (east.next().expect("an end").own.dead.0, trace)
    };
    let ((without, _), (with, trace)) = (gable(Gable::No), gable(Gable::Stated));
    close("own weight, lb", with / without, (192.0 + 72.0) / 192.0);
    let landed = trace.landings.iter().filter(|it| (it.weights.dead.0 - with).abs() < 1e-9).count();
    assert_eq!(landed, 2, "both ends bring their gable to the ground");
}

/// Trusses of 28 ft over a wall at half of it that their drawing names: one piece over two spans of 14 ft brings 1.25 x 14 ft
/// to the middle and 0.375 x 14 ft to each eave (AISC Manual Table 3-22c, two equal spans, MEMORY).
#[test]
fn a_wall_named_by_the_truss_drawing_takes_17_ft_6_in_of_roof() {
    let trusses = RoofFrame::Trusses { make: TrussMake::InsideBearing, webs: Webs::Whole };
    let house = draft().outside(44, 28).inside("W1", (0, 14), (44, 14)).wall(|it| it.truss_bearing = true);
    let plan = house.roof(Way::X, 0).over(|it| it.frame = trusses).done();
    let trace = trace(&plan);
    close("roof live plf", line_at(&plan, &trace, "W1", 20.0).roof_live.0, 17.5 * 20.0);
    let south = plan.levels()[0].walls[0].id;
    close("eave roof live plf", on_line(&trace, south, 20.0).roof_live.0, 5.25 * 20.0);
    assert!(wall(&plan, &trace, "W1").cautions.contains(&Caution::TrussDrawing));
    assert!(trace.ledger.worst_share_off() < 1e-12);
}

/// Trusses of 12 ft hang with one end on a girder truss, drawn as a beam of 20 ft: 6 ft of roof, 120 plf, half at each end.
#[test]
fn a_girder_truss_takes_half_of_the_trusses_that_hang_on_it_to_its_two_ends() {
    let trusses = RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole };
    let region = |from: (i32, i32), to: (i32, i32)| Region::Corners(corners(from, to));
    let house = draft().outside(40, 24).beam("Girder truss", (0, 12), (20, 12), Joints::RunThrough).post("P", (20, 12));
    let house = house.roof(Way::X, 0).over(|it| (it.frame, it.region) = (trusses, region((0, 0), (20, 12))));
    let house = house.roof(Way::X, 0).over(|it| (it.frame, it.region) = (trusses, region((0, 12), (20, 24))));
    let plan = house.roof(Way::X, 0).over(|it| (it.frame, it.region) = (trusses, region((20, 0), (40, 24)))).done();
    let trace = trace(&plan);
    assert!(trace.path_gaps().all(|gap| !matches!(gap.problem, Problem::RoofUnsupported { .. })));
    let Node::Post(post) = node(&plan, "P") else { panic!("a post") };
    // Two fields of trusses, 6 ft of each, 20 psf over half of 20 ft.
    close("roof live at the post, lb", trace.post(post).expect("traced").top.roof_live.0, 2.0 * 6.0 * 20.0 * 10.0);
}

/// A bearing wall along the joists, half way between two walls: nothing in line below, so IRC R502.4 wants the joists doubled.
#[test]
fn a_bearing_wall_along_joists_asks_for_doubled_joists() {
    let house = draft().outside(30, 24).joists(Way::Y, Joints::RunThrough);
    let house = house.up().outside(30, 24).inside("U", (15, 0), (15, 24)).joists(Way::X, Joints::Lap);
    let plan = house.roof(Way::Y, 0).done();
    let trace = trace(&plan);
    let upper = wall(&plan, &trace, "U");
    assert!(upper.stretches.iter().any(|it| it.role.carries()));
    assert!(upper.cautions.iter().any(|it| matches!(it, Caution::AlongJoists { .. })), "{:?}", upper.cautions);
}

/// Layers of the list: framing 2 psf, lath and plaster 10, 1 in of hardwood 4 (introductory structural notes, SEEN; ASCE 7 Table
/// C3.1-1a, MEMORY): 16 psf on the deck, 12 ft of it on the middle wall.
#[test]
fn a_deck_of_framing_plaster_and_hardwood_weighs_16_psf() {
    let layers: Vec<_> = ["framing 2x8 at 16 in", "lath and plaster, 3/4 to 1 in", "1 in hardwood flooring"]
        .map(|what| what.parse().expect("in the list"))
        .to_vec();
    let house = draft().outside(36, 24).inside("W", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap);
    let plan = house.with(|level| level.fields.iter_mut().for_each(|it| it.layers.clone_from(&layers))).done();
    let trace = trace(&plan);
    close("dead plf", line_at(&plan, &trace, "W", 18.0).dead.0, 12.0 * 16.0);
    assert!(trace.ledger.worst_share_off() < 1e-12);
    let again = Plan::from_json(&plan.to_json()).expect("sound");
    assert_eq!(again, plan, "layers are kept in the file");
    let other = plan.to_json().replace("hardwood_flooring_1_in", "1 in gold leaf");
    let refused = Plan::from_json(&other).expect_err("no such layer").to_string();
    assert!(refused.contains("gold leaf"), "{refused}");
}

/// A 24 ft house, joists that lap over W at 12 ft and run on over V at 6 ft: what is seen at one wall is of that wall.
#[test]
fn what_was_seen_of_the_joists_over_one_wall_counts_before_their_field() {
    let house = |of_v: Joints| {
        let plan = draft().outside(36, 24).inside("W", (0, 12), (36, 12)).inside("V", (0, 6), (36, 6));
        plan.wall(|wall| wall.joints = of_v).joists(Way::Y, Joints::Lap).done()
    };
    let plf = |plan: &Plan, name: &str| line_at(plan, &trace(plan), name, 18.0).all().0;
    let (lapped, passed) = (house(Joints::Lap), house(Joints::RunThrough));
    close("V under laps, plf", plf(&lapped, "V"), 6.0 * 50.0);
    close("W under laps, plf", plf(&lapped, "W"), 9.0 * 50.0);
    // Over V one piece goes 12 ft from the eave to W: 10/8 of its 6 ft spans on V, 3/8 of one on W.
    close("V passed over, plf", plf(&passed, "V"), 1.25 * 6.0 * 50.0);
    close("W beside it, plf", plf(&passed, "W"), (0.375 * 6.0 + 6.0) * 50.0);
    let over = |name: &str| {
        let trace = trace(&passed);
        let reasons: Vec<Reason> =
            wall(&passed, &trace, name).stretches.iter().flat_map(|it| it.reasons.clone()).collect();
        reasons.iter().any(|reason| matches!(reason, Reason::JoistsPassOver { .. }))
    };
    assert!(over("V") && !over("W"));
}
