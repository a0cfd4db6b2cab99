//! A house from an empty sheet to an answer, without a browser.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Edit, Element, Grade, Joints, Point, Way};
use joistwise_core::trace::Role;
use joistwise_core::units::Ticks;

use super::*;

fn answer(app: &mut App, ask: Ask, say: &str, texts: &[&str]) {
    assert_eq!(app.question().map(|(ask, _)| ask), Some(ask));
    let texts = texts.iter().map(|text| (*text).to_owned()).collect();
    app.command(Command::Answer(Answer { ask, say: say.to_owned(), texts }));
    assert_eq!(app.notice, None);
}

/// A typed size, then one question after the other, then a centre wall by typed places.
fn ranch() -> App {
    let mut app = App::new();
    app.resize(1280.0, 800.0, 1.0);
    app.command(Command::New("36' x 24'".to_owned()));
    answer(&mut app, Ask::Overhead, "joists", &[]);
    answer(&mut app, Ask::Way, "y", &[]);
    answer(&mut app, Ask::Size, "set", &["2x6", "16"]);
    answer(&mut app, Ask::Laps, "lap", &[]);
    answer(&mut app, Ask::Above, "attic_storage", &[]);
    assert_eq!(app.view.tool, Tool::InsideWall);
    app.command(Command::Typed("0; 12'".to_owned()));
    app.command(Command::Typed("36'".to_owned()));
    app
}

#[test]
fn a_size_five_answers_and_a_centre_wall_give_a_12_ft_tributary_width() {
    let app = ranch();
    let Some(ElementId::Wall(wall)) = app.view.chosen else { panic!("the new wall is chosen: {:?}", app.notice) };
    let line = app.plan().wall(wall).expect("drawn").1;
    assert_eq!((line.a, line.b), (Point::feet(0, 12), Point::feet(36, 12)));
    let traced = app.trace().wall(wall).expect("traced");
    assert!(traced.stretches.iter().any(|stretch| stretch.role == Role::CarriesCeiling), "{:?}", traced.stretches);
    let width = traced.tributary_width(joistwise_core::trace::Origin::Ceiling);
    assert!((width.0 - 12.0).abs() < 1e-9, "{width:?}");
    let field = &app.plan().levels()[0].fields[0];
    assert_eq!((field.along, field.joints, field.known), (Way::Y, Joints::Lap, Grade::Told));
    assert!(app.status.contains("12' 0\""), "{}", app.status);
}

/// Read to the end: the headline of the centre wall says "probably" until its joists are said to be seen.
#[test]
fn answers_of_the_first_minute_are_told_until_one_tap_says_that_they_were_seen() {
    let mut app = ranch();
    while app.read_on() {}
    let headline = |app: &App| {
        let part = app.view.chosen.expect("the wall");
        let card = joistwise_core::card::card_alone(&app.known, app.trace(), part, app.view.tape).expect("drawn");
        (app.judged(part, card).sentence, app.evidence_of(part).expect("a wall").told)
    };
    let (sentence, told) = headline(&app);
    assert!(sentence.contains("probably"), "{sentence}");
    let [(part @ ElementId::Field(id), _)] = told.as_slice() else { panic!("{told:?}") };
    let (part, id) = (*part, *id);
    app.command(Command::SawIt(part));
    let Some(Element::Field(field)) = app.plan().element(ElementId::Field(id)) else { panic!("there") };
    assert_eq!(field.known, Grade::Seen);
    while app.read_on() {}
    assert!(headline(&app).1.is_empty());
    app.command(Command::Undo);
    let Some(Element::Field(field)) = app.plan().element(part) else { panic!("there") };
    assert_eq!(field.known, Grade::Told);
}

/// No field drawn, joists seen two ways: one question with the walls by name, and one step parts the deck.
#[test]
fn joists_seen_two_ways_ask_where_they_turn_and_one_answer_parts_the_deck() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    app.command(Command::Tool(Tool::InsideWall));
    app.command(Command::Typed("0; 12'".to_owned()));
    app.command(Command::Typed("36'".to_owned()));
    app.command(Command::Tool(Tool::Pick));
    for (north, way) in [(4, "y"), (20, "x")] {
        app.see(Some(Point::feet(18, north)));
        app.command(Command::Record("joists_run".to_owned(), way.to_owned(), String::new()));
    }
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Turn));
    assert_eq!(app.question_values().len(), 1, "{:?}", app.question_values());
    answer(&mut app, Ask::Turn, "0", &[]);
    assert_eq!(app.plan().levels()[0].fields.len(), 2);
    assert_ne!(app.question().map(|(ask, _)| ask), Some(Ask::Turn));
    app.command(Command::Undo);
    assert_eq!(app.plan().levels()[0].fields.len(), 1);
}

#[test]
fn every_question_can_be_left_open_and_is_not_asked_again() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    let mut asked = Vec::new();
    while let Some((ask, _)) = app.question() {
        assert!(!asked.contains(&ask), "{ask:?} was asked twice");
        asked.push(ask);
        app.command(Command::Answer(Answer { ask, say: "not_seen".to_owned(), texts: Vec::new() }));
    }
    assert!(asked.contains(&Ask::Overhead) && asked.contains(&Ask::Roof) && asked.contains(&Ask::Snow), "{asked:?}");
}

#[test]
fn an_answer_that_does_not_read_says_what_would_be_taken_and_asks_on() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    answer(&mut app, Ask::Overhead, "joists", &[]);
    answer(&mut app, Ask::Way, "not_seen", &[]);
    let texts = vec!["2x7".to_owned(), "16".to_owned()];
    app.command(Command::Answer(Answer { ask: Ask::Size, say: "set".to_owned(), texts }));
    assert!(app.notice.as_ref().is_some_and(|notice| notice.contains("2x6")), "{:?}", app.notice);
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Size));
}

#[test]
fn an_answer_taken_back_is_asked_again_and_one_made_again_is_not() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    answer(&mut app, Ask::Overhead, "joists", &[]);
    answer(&mut app, Ask::Way, "y", &[]);
    answer(&mut app, Ask::Size, "set", &["2x6", "16"]);
    answer(&mut app, Ask::Laps, "not_seen", &[]);
    answer(&mut app, Ask::Above, "attic_storage", &[]);
    app.command(Command::Undo);
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Above));
    app.command(Command::Redo);
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Walls));
    app.command(Command::Undo);
    app.command(Command::Undo);
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Size));
}

#[test]
fn every_change_can_be_taken_back_to_the_empty_outline_and_made_again() {
    let mut app = ranch();
    let whole = app.plan().clone();
    let mut steps = 0;
    while app.history.can_undo() {
        app.command(Command::Undo);
        steps += 1;
    }
    assert!(app.plan().levels()[0].walls.is_empty());
    (0..steps).for_each(|_| app.command(Command::Redo));
    assert_eq!(*app.plan(), whole);
}

#[test]
fn a_wall_is_moved_cut_and_removed_by_typed_values() {
    let mut app = ranch();
    let Some(part @ ElementId::Wall(wall)) = app.view.chosen else { panic!("a wall") };
    app.command(Command::MoveBy(String::new(), "1' 6\"".to_owned()));
    let north = Ticks::from_feet(13) + Ticks::from_sixteenths(6 * 16);
    assert_eq!(app.plan().wall(wall).expect("there").1.a, Point::new(Ticks::ZERO, north));
    app.command(Command::Cut("12'".to_owned()));
    assert_eq!(app.plan().levels()[0].walls.len(), 6);
    app.command(Command::Choose(Some(part)));
    app.command(Command::Remove);
    assert_eq!(app.plan().levels()[0].walls.len(), 5);
    assert_eq!(app.view.chosen, None);
}

#[test]
fn what_cannot_be_is_refused_in_one_sentence_and_changes_nothing() {
    let mut app = ranch();
    let before = app.plan().clone();
    app.command(Command::Cut("40'".to_owned()));
    assert!(app.notice.as_ref().is_some_and(|notice| notice.contains("between its ends")), "{:?}", app.notice);
    app.command(Command::Set(command::Setting { key: "thickness".to_owned(), value: "thick".to_owned() }));
    assert!(app.notice.as_ref().is_some_and(|notice| notice.contains("not a length")), "{:?}", app.notice);
    assert_eq!(*app.plan(), before);
}

#[test]
fn the_chosen_part_is_brought_out_from_under_a_panel() {
    let mut app = ranch();
    let bottom = 500.0;
    app.resize(390.0, 844.0, 3.0);
    app.command(Command::Covered { left: 0.0, top: 100.0, right: 0.0, bottom });
    let ends = state::ends_of(app.plan(), &app.plan().element(app.view.chosen.expect("chosen")).expect("there"));
    for end in ends {
        let at = app.view.view.screen_from_plan(end.into());
        assert!(at.y > 100.0 && at.y < 844.0 - bottom, "{at:?}");
    }
}

#[test]
fn levels_above_and_below_come_onto_the_sheet_with_the_outline() {
    let mut app = ranch();
    app.command(Command::AddLevel(LevelKind::Basement));
    let basement = app.plan().levels().first().expect("there");
    assert_eq!((app.view.level, basement.kind, basement.walls.len()), (basement.id, LevelKind::Basement, 4));
    app.command(Command::RemoveLevel(app.view.level));
    assert_eq!(app.plan().levels().len(), 1);
    assert_eq!(app.view.level, app.plan().levels()[0].id);
}

#[test]
fn an_area_of_joists_is_chosen_so_that_its_values_can_be_set() {
    let mut app = ranch();
    app.command(Command::Tool(Tool::Joists));
    app.command(Command::AreaFirst(true));
    app.command(Command::Typed("0; 0".to_owned()));
    app.command(Command::Typed("12' x 24'".to_owned()));
    let Some(Element::Field(field)) = app.view.chosen.and_then(|part| app.plan().element(part)) else {
        panic!("the area is chosen: {:?}", app.notice)
    };
    assert_eq!(field.along, Way::X);
    assert_eq!(app.question().map(|(ask, _)| ask), Some(Ask::Way), "the new area is asked about first");
    answer(&mut app, Ask::Way, "y", &[]);
    let edit = Edit::Change(Element::Field(field));
    assert!(app.plan().with(&edit).is_ok());
}

fn tap(app: &mut App, east: f64, north: f64) {
    use crate::gesture::{Button, By, Pointer};
    let at = app.view.view.screen_from_plan(Spot { x: Feet(east), y: Feet(north) });
    let pointer = Pointer { id: 1, at, by: By::Mouse, button: Button::First };
    app.update(&Input::Down(pointer));
    app.update(&Input::Up(pointer));
}

/// Joists lap on the centre wall 12 ft from the south wall: of a weight 3 ft from it, 9/12 stay there.
#[test]
fn a_tap_on_bare_joists_puts_1_000_lb_down_and_escape_takes_it_away() {
    let mut app = ranch();
    app.command(Command::Tool(Tool::Pick));
    tap(&mut app, 5.0, 3.0);
    assert_eq!((app.view.put_down, app.view.chosen), (Some(Point::feet(5, 3)), None));
    let path = app.view.path.clone().expect("a path");
    let south = app.plan().levels()[0].walls[0].id;
    let share = path.share_of(joistwise_core::trace::Node::Wall(south));
    assert!((share - 0.75).abs() < 0.01, "{share}");
    assert!(app.status.contains("1,000 lb"), "{}", app.status);
    app.update(&Input::Key(crate::gesture::Key::Back));
    assert_eq!((app.view.put_down, app.view.path.is_none()), (None, true));
    // Outside the house there are no joists.
    tap(&mut app, -5.0, 3.0);
    assert_eq!(app.view.put_down, None);
}

/// A tap on bare joists, and a beam under them there; kept, taken back, and opened again from the file.
#[test]
fn a_beam_under_the_joists_that_were_tapped_is_studied_and_kept_as_one_step() {
    let mut app = ranch();
    app.command(Command::Tool(Tool::Pick));
    tap(&mut app, 5.0, 3.0);
    app.command(Command::Study);
    let kept = |app: &App| app.plan().kept().to_vec();
    app.command(Command::StudyKeep);
    let [one] = kept(&app).try_into().expect("one study");
    let joistwise_core::plan::Away::Nothing { a, b, .. } = one.away else { panic!("{one:?}") };
    assert_eq!((a.y.feet().0, b.y.feet().0), (3.0, 3.0));
    app.command(Command::Undo);
    assert!(kept(&app).is_empty());
    app.command(Command::Redo);
    let again = Plan::from_json(&app.plan().to_json()).expect("sound");
    app.command(Command::StudyClose);
    app.open(again);
    app.command(Command::StudyOpen(0));
    app.command(Command::StudyDrop(0));
    assert!(kept(&app).is_empty() && app.notice.is_none(), "{:?}", app.notice);
}

#[test]
fn what_is_chosen_has_its_path_and_so_has_one_stretch_of_it() {
    let mut app = ranch();
    let chosen = app.view.chosen.expect("the new wall");
    let start = |app: &App| app.view.path.as_ref().map(|path| path.start);
    assert_eq!(start(&app), Some(Start::Part(chosen)));
    app.command(Command::Stretch(Some(0)));
    assert!(matches!(start(&app), Some(Start::Run { part, .. }) if part == chosen), "{:?}", start(&app));
    app.command(Command::Stretch(None));
    assert_eq!(start(&app), Some(Start::Part(chosen)));
    app.command(Command::Choose(None));
    assert_eq!(start(&app), None);
}

#[test]
fn a_roof_off_the_sheet_is_not_drawn_and_not_in_the_way_until_it_is_wanted() {
    let mut app = ranch();
    app.command(Command::Tool(Tool::Roof));
    answer(&mut app, Ask::Roof, "ridge_board", &[]);
    app.command(Command::Tool(Tool::Pick));
    app.command(Command::Choose(None));
    let words = |app: &App| {
        let shapes = app.scene().0;
        shapes.iter().any(|it| matches!(it, scene::Shape::Label(label) if label.text.contains("ridge board")))
    };
    assert!(words(&app));
    app.update(&Input::Key(crate::gesture::Key::Roof));
    assert!(!words(&app));
    app.command(Command::Tool(Tool::Roof));
    assert!(words(&app));
}

#[test]
fn an_answer_of_the_survey_is_one_step_and_a_wrong_text_is_refused_in_a_sentence() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    assert!(app.survey_lines().is_none(), "closed until it is asked for");
    app.command(Command::Survey(true));
    let before = app.plan().clone();
    let year = |app: &mut App, text: &str| {
        let said = Said::Text(text.to_owned());
        app.command(Command::Surveyed(r#"{"task":"year"}"#.to_owned(), said, "2026-11-26".to_owned()));
    };
    year(&mut app, "long ago");
    assert!(app.notice.as_deref().is_some_and(|notice| notice.contains("is not a year")), "{:?}", app.notice);
    assert_eq!(*app.plan(), before);
    year(&mut app, "1931");
    assert_eq!(app.plan().levels().iter().map(|level| level.observations.len()).sum::<usize>(), 1);
    app.command(Command::Undo);
    assert_eq!(*app.plan(), before);
}

#[test]
fn no_zoom_no_move_and_no_size_takes_the_sheet_out_of_the_world() {
    let odd = [0.0, -1.0, f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e308, -1e308, 1e-308];
    let mut app = ranch();
    for one in odd {
        for other in odd {
            app.command(Command::Zoom(one));
            app.command(Command::Pan(one, other));
            app.command(Command::Covered { left: one, top: other, right: one, bottom: other });
            app.resize(one, other, 1.0);
            app.resize(800.0, 600.0, one);
            app.update(&Input::Wheel { at: Screen { x: 9.0, y: 9.0 }, dx: one, dy: other, spread: true });
            let view = app.view().view;
            for figure in [view.scale, view.centre.x.0, view.centre.y.0, view.width, view.height] {
                assert!(figure.abs() < 1e6, "{one}, {other}: {view:?}");
            }
            let _ = app.scene();
        }
    }
}
