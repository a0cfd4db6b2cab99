//! Walls: stretches, corners, openings.

use super::*;

#[test]
fn a_floor_bearing_stretch_is_drawn_with_its_letter_and_a_slanted_hatch() {
    let (plan, wall) = house();
    let scene = scene(&plan, &traced(&plan, wall, Role::CarriesFloor), &state(&plan));
    assert_eq!(filled(&scene, Ink::Wall(Role::CarriesFloor)).len(), 1);
    assert!(says(&scene, "F"));
    let slanted = lines(&scene, |stroke| stroke.ink == Ink::Edge);
    let slanted = slanted.iter().filter(|[a, b]| ((b.x - a.x).abs() - (b.y - a.y).abs()).abs() < 0.01);
    assert!(slanted.count() > 40, "24 ft of hatch 4.5 px apart");
}

#[test]
fn a_ceiling_bearing_stretch_has_ticks_square_to_it() {
    let (plan, wall) = house();
    let scene = scene(&plan, &traced(&plan, wall, Role::CarriesCeiling), &state(&plan));
    assert!(says(&scene, "C"));
    let ticks = lines(&scene, |stroke| stroke.ink == Ink::Edge);
    let thick = 4.5 / 12.0 * SCALE;
    let square = ticks.iter().filter(|[a, b]| (a.x - b.x).abs() < 0.01 && ((a.y - b.y).abs() - thick).abs() < 0.01);
    assert!(square.count() >= 24 * 20 / 7);
}

#[test]
fn a_wall_that_the_trace_does_not_list_needs_a_look() {
    let (plan, _) = house();
    let scene = scene(&plan, &Trace::default(), &state(&plan));
    assert!(says(&scene, "?"));
    assert!(!lines(&scene, |s| s.ink == Ink::Edge && s.dash == Dash::Hidden).is_empty());
    assert_eq!(filled(&scene, Ink::Wall(Role::NeedsALook)).len(), 1);
    assert_eq!(filled(&scene, Ink::Wall(Role::Outside)).len(), 4, "outside walls are known without a trace");
}

#[test]
fn a_wall_changes_its_fill_where_its_role_changes() {
    let (plan, wall) = house();
    let mut trace = traced(&plan, wall, Role::CarriesCeiling);
    let first = Stretch { start: Feet(0.0), end: Feet(9.0), role: Role::CarriesFloor, reasons: Vec::new() };
    trace.walls[0].stretches[0].start = Feet(9.0);
    trace.walls[0].stretches.insert(0, first);
    let scene = scene(&plan, &trace, &state(&plan));
    let [from, to, ..] = extent(&filled(&scene, Ink::Wall(Role::CarriesFloor))[0]);
    near(to - from, 9.0 * SCALE);
    let [from, to, ..] = extent(&filled(&scene, Ink::Wall(Role::CarriesCeiling))[0]);
    near(to - from, 15.0 * SCALE);
}

#[test]
fn an_outside_wall_lies_inward_of_the_line_a_tape_around_the_house_runs_on() {
    let (plan, _) = house();
    let state = state(&plan);
    let scene = scene(&plan, &Trace::default(), &state);
    let corner = |x, y| state.view.screen_from_plan(Point::feet(x, y).into());
    let (low, high) = (corner(0, 0), corner(36, 24));
    let all: Vec<Screen> = filled(&scene, Ink::Wall(Role::Outside)).concat();
    let [west, east, north, south] = extent(&all);
    near(west, low.x);
    near(east, high.x);
    near(north, high.y);
    near(south, low.y);
}

#[test]
fn outside_walls_are_mitred_at_their_corners() {
    let (plan, _) = house();
    let scene = scene(&plan, &Trace::default(), &state(&plan));
    let thick = 6.5 / 12.0 * SCALE;
    for wall in filled(&scene, Ink::Wall(Role::Outside)) {
        let [west, east, north, south] = extent(&wall);
        let (long, short) = ((east - west).max(south - north), (east - west).min(south - north));
        near(short, thick);
        // The outer face is as long as the house, the inner one shorter by both corners.
        let sides: Vec<f64> = crate::scene::vector::sides(&wall).map(|(a, b)| (b - a).length()).collect();
        assert!(sides.iter().any(|side| (side - long).abs() < 0.01));
        assert!(sides.iter().any(|side| (side - (long - 2.0 * thick)).abs() < 0.01));
    }
}

#[test]
fn an_inside_wall_ends_at_the_inner_face_of_the_outside_wall() {
    let (plan, _) = house();
    let plan = add(&plan, Element::Wall(inside((20, 24), (20, 12))));
    let state = state(&plan);
    let stem = WallId::from_number(plan.newest());
    let scene = scene(&plan, &traced(&plan, stem, Role::NothingFound), &state);
    let [_, _, north, south] = extent(&filled(&scene, Ink::Wall(Role::NothingFound))[0]);
    let at = |y| state.view.screen_from_plan(Point::feet(20, y).into()).y;
    near(north, at(24) + 6.5 / 12.0 * SCALE);
    near(south, at(12) - 4.5 / 24.0 * SCALE);
}

#[test]
fn a_wall_is_left_open_at_a_passage_and_its_letter_stands_on_wall() {
    let (plan, wall) = house();
    let passage = Opening {
        id: OpeningId::from_number(0),
        wall,
        offset: Ticks::from_feet(9),
        width: Ticks::from_feet(6),
        kind: OpeningKind::Passage,
        header: Header::Missing,
        first: Default::default(),
        second: Default::default(),
    };
    let plan = add(&plan, Element::Opening(passage));
    let scene = scene(&plan, &traced(&plan, wall, Role::CarriesFloor), &state(&plan));
    let widths: Vec<f64> = filled(&scene, Ink::Wall(Role::CarriesFloor))
        .iter()
        .map(|piece| {
            let [from, to, ..] = extent(piece);
            (to - from) / SCALE
        })
        .collect();
    assert_eq!(widths.iter().map(|feet| feet.round()).collect::<Vec<f64>>(), [9.0, 9.0]);
    let middle = state(&plan).view.screen_from_plan(Point::feet(16, 12).into());
    let badge = labels(&scene).find(|label| label.text == "F").unwrap();
    assert!((badge.at.x - middle.x).abs() > 3.0 * SCALE, "the middle of the wall is open");
    assert!(says(&scene, "no header"));
}

#[test]
fn a_guessed_gable_end_says_so() {
    let (plan, _) = house();
    // The shorter sides of a new rectangle are guessed to be gable ends.
    assert!(says(&scene(&plan, &Trace::default(), &state(&plan)), "gable?"));
}
