//! Lists of inputs and the edit they end in.

use joistwise_core::ids::LevelId;
use joistwise_core::plan::{Edit, Element, Footing, FootingShape, Plan, Point, Region, Way};
use joistwise_core::tape::Tape;
use joistwise_core::units::Ticks;

use super::*;
use crate::view::{Drafting, Layer, Scheme, View};

/// The middle of the canvas.
const MIDDLE: Screen = Screen { x: 400.0, y: 300.0 };

/// A canvas of 800 x 600 pixels, 16 to the foot, its middle at 18 ft east and 12 ft north.
fn view(plan: &Plan, tool: Tool) -> ViewState {
    ViewState {
        by: Default::default(),
        view: View::default(),
        level: plan.levels()[0].id,
        chosen: None,
        stretch: None,
        put_down: None,
        path: None,
        roof: Layer::Shown,
        hover: None,
        tool,
        drafting: Drafting::Nothing,
        snap: None,
        scheme: Scheme::Paper,
        tape: Tape::Feet,
        key_cursor: None,
        covered_below: 0.0,
        looks: Vec::new(),
        studied: None,
    }
}

fn house() -> (Plan, LevelId) {
    let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec();
    let plan = Plan::new("test");
    let level = plan.levels()[0].id;
    (plan.with(&Edit::Outline { level, corners }).expect("an outline"), level)
}

fn px(x: f64, y: f64) -> Screen {
    View::default().screen_from_plan(joistwise_core::geometry::Spot {
        x: joistwise_core::units::Feet(x),
        y: joistwise_core::units::Feet(y),
    })
}

const fn pointer(id: i32, at: Screen, by: By) -> Pointer {
    Pointer { id, at, by, button: Button::First }
}

fn down(x: f64, y: f64) -> Input {
    Input::Down(pointer(1, px(x, y), By::Mouse))
}

fn to(x: f64, y: f64) -> Input {
    Input::Move(pointer(1, px(x, y), By::Mouse))
}

fn up(x: f64, y: f64) -> Input {
    Input::Up(pointer(1, px(x, y), By::Mouse))
}

/// The edits that a list of inputs ends in; the cross of the keyboard goes where it is sent.
fn edits(plan: &Plan, state: &ViewState, settings: &Settings, inputs: &[Input]) -> Vec<Edit> {
    let mut state = state.clone();
    let mut gesture = Gesture::Idle;
    let mut edits = Vec::new();
    for input in inputs {
        let effect;
        (gesture, effect) = gesture.step(input, &Desk { plan, view: &state, settings, middle: MIDDLE });
        match effect {
            Effect::Commit(edit) => edits.push(edit),
            Effect::Cross(at) => state.key_cursor = Some(at),
            Effect::Choose(part) => state.chosen = part,
            Effect::Take(tool) => state.tool = tool,
            _ => {}
        }
    }
    edits
}

fn drawn(tool: Tool, inputs: &[Input]) -> Vec<Edit> {
    let (plan, _) = house();
    edits(&plan, &view(&plan, tool), &Settings::default(), inputs)
}

/// The two ends of the one wall or beam that was added.
#[track_caller]
fn ends(edits: &[Edit]) -> (Point, Point) {
    match edits {
        [Edit::Add(_, Element::Wall(wall))] => (wall.a, wall.b),
        [Edit::Add(_, Element::Beam(beam))] => (beam.a, beam.b),
        other => panic!("{other:?}"),
    }
}

#[test]
fn an_inside_wall_is_drawn_by_a_drag_or_by_two_taps_and_ends_on_the_outside_walls() {
    let drag = [down(0.2, 12.1), to(20.0, 12.0), to(35.8, 11.9), up(35.8, 11.9)];
    let taps = [down(0.2, 12.1), up(0.2, 12.1), to(30.0, 12.0), down(35.8, 11.9), up(35.8, 11.9)];
    let want = (Point::feet(0, 12), Point::feet(36, 12));
    assert_eq!(ends(&drawn(Tool::InsideWall, &drag)), want);
    assert_eq!(ends(&drawn(Tool::InsideWall, &taps)), want);
}

#[test]
fn nothing_is_final_on_the_way_down_and_escape_or_a_lost_pointer_gives_it_up() {
    assert!(drawn(Tool::InsideWall, &[down(0.0, 12.0), to(20.0, 12.0)]).is_empty());
    let escape = [down(0.0, 12.0), to(20.0, 12.0), Input::Key(Key::Back), up(20.0, 12.0)];
    assert!(drawn(Tool::InsideWall, &escape).is_empty());
    let lost = [down(0.0, 12.0), to(20.0, 12.0), Input::Cancel(1), up(20.0, 12.0)];
    assert!(drawn(Tool::InsideWall, &lost).is_empty());
}

#[test]
fn an_outline_is_a_rectangle_by_drag_and_any_corners_by_taps() {
    let plan = Plan::new("test");
    let state = view(&plan, Tool::Outline);
    let drag = edits(&plan, &state, &Settings::default(), &[down(0.1, 0.1), to(30.0, 20.0), up(36.1, 23.8)]);
    let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec();
    assert_eq!(drag, [Edit::Outline { level: state.level, corners }]);

    let tap = |x: f64, y: f64| [down(x, y), up(x, y)];
    let ell = [(0.0, 0.0), (30.0, 0.0), (30.0, 12.0), (18.0, 12.0), (18.0, 20.0), (0.0, 20.0), (0.2, 0.2)];
    let taps: Vec<Input> = ell.iter().flat_map(|(x, y)| tap(*x, *y)).collect();
    let edits = edits(&plan, &state, &Settings::default(), &taps);
    assert!(matches!(edits.as_slice(), [Edit::Outline { corners, .. }] if corners.len() == 6), "{edits:?}");
}

#[test]
fn the_keyboard_alone_draws_the_same_wall() {
    let arrow = |east, north, pace| Input::Key(Key::Arrow(east, north, pace));
    // The cross starts in the middle of the canvas, 18 ft east and 12 ft north.
    let mut keys = vec![arrow(-1, 0, Pace::Long); 4];
    keys.extend([arrow(-1, 0, Pace::Plain); 4]);
    keys.push(Input::Key(Key::Take));
    keys.extend([arrow(1, 0, Pace::Long); 9]);
    keys.push(Input::Key(Key::Take));
    assert_eq!(ends(&drawn(Tool::InsideWall, &keys)), (Point::feet(0, 12), Point::feet(36, 12)));
}

#[test]
fn a_typed_length_goes_the_way_the_pointer_is_and_a_typed_size_makes_a_rectangle() {
    let (plan, level) = house();
    let state = view(&plan, Tool::InsideWall);
    let settings = Settings::default();
    let desk = Desk { plan: &plan, view: &state, settings: &settings, middle: MIDDLE };
    let (gesture, _) = Gesture::Idle.step(&down(10.0, 0.1), &desk);
    let (gesture, _) = gesture.step(&up(10.0, 0.1), &desk);
    let (gesture, _) = gesture.step(&to(10.3, 9.0), &desk);
    let (_, effect) = typed(&gesture, "12' 6\"", &desk).expect("a length");
    let Effect::Commit(edit) = effect else { panic!("{effect:?}") };
    let north = Ticks::from_feet(12) + Ticks::from_sixteenths(6 * 16);
    assert_eq!(ends(&[edit]), (Point::feet(10, 0), Point::new(Ticks::from_feet(10), north)));

    assert!(typed(&Gesture::Idle, "12'", &desk).is_err_and(|error| error.to_string().contains("first point")));
    assert!(typed(&Gesture::Idle, "a wall", &desk).is_err());
    let (gesture, _) = typed(&Gesture::Idle, "0; 12'", &desk).expect("a place");
    let (_, effect) = typed(&gesture, "36'; 12'", &desk).expect("a place");
    let Effect::Commit(edit) = effect else { panic!("{effect:?}") };
    assert_eq!(ends(&[edit]), (Point::feet(0, 12), Point::feet(36, 12)));

    let state = view(&plan, Tool::Outline);
    let desk = Desk { view: &state, ..desk };
    let (_, effect) = typed(&Gesture::Idle, "40' x 26'", &desk).expect("a size");
    let corners = [(0, 0), (40, 0), (40, 26), (0, 26)].map(|(x, y)| Point::feet(x, y)).to_vec();
    assert_eq!(effect, Effect::Commit(Edit::Outline { level, corners }));
}

#[test]
fn an_arrow_states_joists_over_the_level_and_another_turns_them() {
    let arrow = [down(10.0, 4.0), to(10.5, 20.0), up(10.5, 20.0)];
    let edits = drawn(Tool::Joists, &arrow);
    let [Edit::Add(level, Element::Field(field))] = edits.as_slice() else { panic!("{edits:?}") };
    assert_eq!((field.along, &field.region), (Way::Y, &Region::Outline));
    let plan = house().0.with(&Edit::Add(*level, Element::Field(field.clone()))).expect("joists");
    let across = [down(4.0, 12.0), to(30.0, 12.5), up(30.0, 12.5)];
    let turned = super::tests::edits(&plan, &view(&plan, Tool::Joists), &Settings::default(), &across);
    assert!(matches!(turned.as_slice(), [Edit::Change(Element::Field(it))] if it.along == Way::X), "{turned:?}");
}

#[test]
fn an_area_of_joists_is_a_rectangle_when_asked_for() {
    let (plan, _) = house();
    let settings = Settings { area_first: true, ..Settings::default() };
    let drag = [down(0.0, 0.0), to(10.0, 10.0), up(12.0, 24.0)];
    let edits = edits(&plan, &view(&plan, Tool::Joists), &settings, &drag);
    let [Edit::Add(_, Element::Field(field))] = edits.as_slice() else { panic!("{edits:?}") };
    assert_eq!(field.along, Way::X);
    assert!(matches!(&field.region, Region::Corners(corners) if corners.len() == 4));
}

#[test]
fn an_opening_goes_into_the_wall_under_the_tap_and_takes_the_width_of_a_drag() {
    let tap = drawn(Tool::Opening, &[down(10.0, 0.2), up(10.0, 0.2)]);
    let [Edit::Add(_, Element::Opening(door))] = tap.as_slice() else { panic!("{tap:?}") };
    assert_eq!((door.width, door.offset), (Ticks::from_feet(3), Ticks::from_sixteenths(102 * 16)));
    let drag = drawn(Tool::Opening, &[down(10.0, 0.2), to(13.0, 0.1), up(15.0, 0.0)]);
    let [Edit::Add(_, Element::Opening(wide))] = drag.as_slice() else { panic!("{drag:?}") };
    assert_eq!((wide.width, wide.offset), (Ticks::from_feet(5), Ticks::from_feet(10)));
    assert!(drawn(Tool::Opening, &[down(10.0, 8.0), up(10.0, 8.0)]).is_empty());
}

#[test]
fn posts_pads_and_cuts_take_one_tap() {
    let tap = [down(12.1, 11.9), up(12.1, 11.9)];
    let post = drawn(Tool::Post, &tap);
    assert!(matches!(post.as_slice(), [Edit::Add(_, Element::Post(it))] if it.at == Point::feet(12, 12)), "{post:?}");
    let pad = drawn(Tool::Pad, &tap);
    let side = Ticks::from_feet(2);
    let shape = FootingShape::Pad { at: Point::feet(12, 12), side };
    assert!(matches!(pad.as_slice(), [Edit::Add(_, Element::Footing(Footing { shape: it, .. }))] if *it == shape));
    let cut = drawn(Tool::Split, &[down(9.0, 0.1), up(9.0, 0.1)]);
    assert!(matches!(cut.as_slice(), [Edit::Split { at, .. }] if *at == Ticks::from_feet(9)), "{cut:?}");
}

#[test]
fn a_second_finger_pinches_and_draws_nothing_and_the_first_point_of_two_survives_it() {
    let finger = |id, x, y| pointer(id, px(x, y), By::Finger);
    let (start, end) = ((0.0, 12.0), (36.0, 12.0));
    let tap = |id, (x, y): (f64, f64)| [Input::Down(finger(id, x, y)), Input::Up(finger(id, x, y))];
    let mut inputs: Vec<Input> = tap(1, start).into();
    inputs.extend([
        Input::Down(finger(2, 10.0, 8.0)),
        Input::Down(finger(3, 20.0, 8.0)),
        Input::Move(finger(3, 26.0, 8.0)),
        Input::Up(finger(3, 26.0, 8.0)),
        Input::Up(finger(2, 10.0, 8.0)),
    ]);
    assert!(drawn(Tool::InsideWall, &inputs).is_empty());
    inputs.extend(tap(4, end));
    assert_eq!(ends(&drawn(Tool::InsideWall, &inputs)), (Point::feet(0, 12), Point::feet(36, 12)));
}

#[test]
fn a_pinch_scales_by_what_the_fingers_spread() {
    let plan = Plan::new("test");
    let (state, settings) = (view(&plan, Tool::Pick), Settings::default());
    let desk = Desk { plan: &plan, view: &state, settings: &settings, middle: MIDDLE };
    let finger = |id, x| pointer(id, Screen { x, y: 300.0 }, By::Finger);
    let (gesture, _) = Gesture::Idle.step(&Input::Down(finger(1, 300.0)), &desk);
    let (gesture, _) = gesture.step(&Input::Down(finger(2, 400.0)), &desk);
    let (_, effect) = gesture.step(&Input::Move(finger(2, 500.0)), &desk);
    assert!(matches!(effect, Effect::Look { factor, .. } if (factor - 2.0).abs() < 1e-12), "{effect:?}");
}

#[test]
fn the_middle_button_the_space_bar_and_the_hand_move_the_sheet() {
    let plan = Plan::new("test");
    let middle = Pointer { button: Button::Middle, ..pointer(1, px(0.0, 0.0), By::Mouse) };
    for (tool, space_held, press) in [
        (Tool::Outline, false, middle),
        (Tool::Outline, true, pointer(1, px(0.0, 0.0), By::Mouse)),
        (Tool::Hand, false, pointer(1, px(0.0, 0.0), By::Mouse)),
    ] {
        let (state, settings) = (view(&plan, tool), Settings { space_held, ..Settings::default() });
        let desk = Desk { plan: &plan, view: &state, settings: &settings, middle: MIDDLE };
        let (gesture, _) = Gesture::Idle.step(&Input::Down(press), &desk);
        let (gesture, effect) = gesture.step(&to(2.0, 0.0), &desk);
        assert!(matches!(effect, Effect::Look { .. }), "{tool:?}: {effect:?}");
        assert_eq!(gesture.step(&up(2.0, 0.0), &desk).0, Gesture::Idle);
    }
}

#[test]
fn letters_mean_tools_and_tab_means_nothing() {
    let press = |key: &str| Press { key: key.to_owned(), ..Press::default() };
    assert_eq!(meaning(&press("i")), Some(Key::Tool(Tool::InsideWall)));
    assert_eq!(meaning(&press("Tab")), None);
    let command = |key: &str, shift| Press { key: key.to_owned(), shift, command: true, alt: false };
    assert_eq!(meaning(&command("z", false)), Some(Key::Undo));
    assert_eq!(meaning(&command("Z", true)), Some(Key::Redo));
    for theirs in ["p", "f", "l", "t", "w", "r"] {
        assert_eq!(meaning(&command(theirs, false)), None, "{theirs} is the browser's");
    }
}
