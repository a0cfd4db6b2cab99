//! The open house as text that can be kept and sent: a house file, a link, an SVG drawing, the trace for comparison.
//!
//! Where the text is kept (the browser's own storage, a file, a message) is the page's business.

use joistwise_core::plan::Plan;

use crate::app::{App, Command, History};
use crate::scene::scene;
use crate::svg::svg;
use crate::view::{Drafting, ViewState};

/// Opens a house file; says in one sentence why not, and leaves the open house as it is.
pub fn open_file(app: &mut App, text: &str) -> bool {
    opened(app, Plan::from_json(text).map_err(|error| error.to_string()))
}

/// Opens the house in the part of an address after the `#`; the same for one that holds none.
pub fn open_link(app: &mut App, part: &str) -> bool {
    opened(app, Plan::from_link(part).map_err(|error| error.to_string()))
}

/// Opens a house with its steps, the oldest first; `now` is the place in the list of the one that is shown. A step that does
/// not open, and what lies beyond it, is left out; false, with a sentence, if the one that is shown does not.
pub fn open_steps(app: &mut App, texts: &[String], now: usize) -> bool {
    let plan = |text: &String| Plan::from_json(text);
    let shown = texts.get(now).map_or("", String::as_str);
    match Plan::from_json(shown) {
        Ok(shown) => {
            let mut past: Vec<Plan> = texts.iter().take(now).rev().map_while(|text| plan(text).ok()).collect();
            past.reverse();
            let future = texts.iter().skip(now.saturating_add(1)).map_while(|text| plan(text).ok()).collect();
            app.open_with(History::of(past, shown, future));
            true
        }
        Err(error) => opened(app, Err(error.to_string())),
    }
}

/// The house file of a step, by its number in the history.
#[must_use]
pub fn step_text(app: &App, number: u32) -> Option<String> {
    app.history().plan(number).map(Plan::to_json)
}

fn opened(app: &mut App, plan: Result<Plan, String>) -> bool {
    match plan {
        Ok(plan) => {
            app.open(plan);
            true
        }
        Err(sentence) => {
            app.command(Command::Say(sentence));
            false
        }
    }
}

/// The house file.
#[must_use]
pub fn file_text(app: &App) -> String {
    app.plan().to_json()
}

/// The part of an address after the `#` that carries the whole house.
#[must_use]
pub fn link(app: &App) -> String {
    app.plan().to_link()
}

/// The trace, as the native command prints it.
#[must_use]
pub fn trace_text(app: &App) -> String {
    serde_json::to_string(app.trace()).unwrap_or_default()
}

/// The sheet as it is on the screen, without what is half drawn.
#[must_use]
pub fn drawing(app: &App) -> String {
    let view =
        ViewState { drafting: Drafting::Nothing, snap: None, key_cursor: None, hover: None, ..app.view().clone() };
    svg(&scene(app.known(), app.trace(), &view), view.view.width, view.view.height, view.scheme)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bad_file_and_a_bad_link_say_one_sentence_and_leave_the_house() {
        let mut app = App::new();
        app.command(Command::New("36' x 24'".to_owned()));
        let before = file_text(&app);
        for bad in ["", "{", "not a house", r#"{"format":"other"}"#] {
            assert!(!open_file(&mut app, bad), "{bad}");
            assert!(!open_link(&mut app, bad), "{bad}");
        }
        assert_eq!(file_text(&app), before);
    }

    #[test]
    fn a_house_opens_with_its_steps_and_without_those_that_do_not_open() {
        let mut app = App::new();
        app.command(Command::New("36' x 24'".to_owned()));
        app.command(Command::Typed("0; 12'".to_owned()));
        app.command(Command::Undo);
        let numbers = app.history().numbers();
        let mut texts: Vec<String> = numbers.iter().filter_map(|number| step_text(&app, *number)).collect();
        let now = numbers.iter().position(|number| *number == app.history().number()).unwrap();
        let mut other = App::new();
        assert!(open_steps(&mut other, &texts, now));
        assert_eq!((other.plan(), other.history().numbers().len()), (app.plan(), numbers.len()));
        other.command(Command::Redo);
        app.command(Command::Redo);
        assert_eq!(other.plan(), app.plan());
        texts[0] = "{".to_owned();
        assert_eq!(open_steps(&mut other, &texts, now), now != 0);
        assert!(!open_steps(&mut other, &texts, 99), "no step has that place");
    }

    #[test]
    fn a_link_and_a_file_bring_the_same_house_to_another_browser() {
        let mut app = App::new();
        app.command(Command::New("36' x 24'".to_owned()));
        for open in [
            |app: &App, other: &mut App| open_link(other, &link(app)),
            |app: &App, other: &mut App| open_file(other, &file_text(app)),
        ] {
            let mut other = App::new();
            assert!(open(&app, &mut other));
            assert_eq!((other.plan(), trace_text(&other)), (app.plan(), trace_text(&app)));
        }
    }
}
