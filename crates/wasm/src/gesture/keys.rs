//! The keyboard while the canvas has it: a cross that the arrows move, Enter for a point, letters for tools.
//!
//! Tab has no meaning here, so that it leaves the canvas.

use joistwise_core::plan::{Edit, Point};
use joistwise_core::snap::grid_point;
use joistwise_core::units::Ticks;

use super::{Desk, Draft, Effect, Gesture, aim, draw, draws, look, pick};
use crate::scene::part_at;
use crate::view::{Screen, Tool};

/// A key as the browser names it, with what is held.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Press {
    /// `ArrowLeft`, `Enter`, `z`.
    pub key: String,
    /// Shift is held.
    pub shift: bool,
    /// Ctrl or Cmd is held.
    pub command: bool,
    /// Alt is held.
    pub alt: bool,
}

/// How far an arrow key goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// With Ctrl or Cmd: an inch.
    Fine,
    /// Six inches; an inch for the chosen part.
    Plain,
    /// With Shift: four feet; a foot for the chosen part.
    Long,
}

/// What a key means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Key {
    /// Move the cross or the chosen part: steps east and north.
    Arrow(i32, i32, Pace),
    /// Take a point, or choose what is under the cross.
    Take,
    /// Give up what is being drawn; with nothing drawn, choose nothing.
    Back,
    /// Give up the last corner, or remove the chosen part.
    Remove,
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// Scale up.
    In,
    /// Scale down.
    Out,
    /// Show all of the level.
    Fit,
    /// Hide or show the roof.
    Roof,
    /// Another tool.
    Tool(Tool),
}

/// What a key means to the canvas; none for a key that is the browser's.
#[must_use]
pub fn meaning(press: &Press) -> Option<Key> {
    let pace = match (press.shift, press.command) {
        (true, _) => Pace::Long,
        (_, true) => Pace::Fine,
        _ => Pace::Plain,
    };
    if press.alt {
        return None;
    }
    let key = match press.key.as_str() {
        "ArrowLeft" => Key::Arrow(-1, 0, pace),
        "ArrowRight" => Key::Arrow(1, 0, pace),
        "ArrowUp" => Key::Arrow(0, 1, pace),
        "ArrowDown" => Key::Arrow(0, -1, pace),
        "PageUp" => Key::Arrow(0, 1, Pace::Long),
        "PageDown" => Key::Arrow(0, -1, Pace::Long),
        "z" | "Z" if press.command => return Some(if press.shift { Key::Redo } else { Key::Undo }),
        "y" | "Y" if press.command => return Some(Key::Redo),
        _ if press.command => return None,
        "Enter" => Key::Take,
        "Escape" => Key::Back,
        "Delete" | "Backspace" => Key::Remove,
        "+" | "=" => Key::In,
        "-" | "_" => Key::Out,
        "0" | "f" | "F" => Key::Fit,
        "e" | "E" => Key::Roof,
        letter => Key::Tool(tool(letter)?),
    };
    Some(key)
}

/// The tool of a letter.
fn tool(letter: &str) -> Option<Tool> {
    Some(match letter {
        "p" | "P" => Tool::Pick,
        "o" | "O" => Tool::Outline,
        "i" | "I" => Tool::InsideWall,
        "d" | "D" => Tool::Opening,
        "j" | "J" => Tool::Joists,
        "r" | "R" => Tool::Roof,
        "b" | "B" => Tool::Beam,
        "t" | "T" => Tool::Post,
        "u" | "U" => Tool::FloorOpening,
        "g" | "G" => Tool::Pad,
        "l" | "L" => Tool::Purlin,
        "w" | "W" => Tool::Thing,
        "n" | "N" => Tool::JoistCut,
        "k" | "K" => Tool::Board,
        "x" | "X" => Tool::Split,
        "h" | "H" => Tool::Hand,
        "s" | "S" => Tool::Seen,
        _ => return None,
    })
}

/// A step for a key.
pub(super) fn step(it: Gesture, key: Key, desk: &Desk<'_>) -> (Gesture, Effect) {
    match key {
        Key::Undo => (Gesture::Idle, Effect::Undo),
        Key::Redo => (Gesture::Idle, Effect::Redo),
        Key::Fit => (it, Effect::Fit),
        Key::In => (it, look::wheel(desk.middle, 0.0, -170.0, false)),
        Key::Out => (it, look::wheel(desk.middle, 0.0, 135.0, false)),
        Key::Roof => (it, Effect::Roof),
        Key::Tool(tool) => (Gesture::Idle, Effect::Take(tool)),
        Key::Arrow(east, north, pace) => arrow(it, (east, north), pace, desk),
        Key::Take => take(it, desk),
        Key::Back => back(it, desk),
        Key::Remove => match it {
            Gesture::Drawing(mut draft) => {
                draft.set.pop();
                let gesture = if draft.set.is_empty() { Gesture::Idle } else { Gesture::Drawing(draft) };
                (gesture, Effect::Redraw)
            }
            it => (it, Effect::Remove),
        },
    }
}

fn arrow(it: Gesture, (east, north): (i32, i32), pace: Pace, desk: &Desk<'_>) -> (Gesture, Effect) {
    let by = |pace: Ticks| (Ticks::new(east * pace.get()), Ticks::new(north * pace.get()));
    let movable = desk.view.chosen.filter(|part| pick::anchor(desk.plan, *part).is_some());
    if let (Tool::Pick, Some(element)) = (desk.view.tool, movable) {
        let (dx, dy) = by(match pace {
            Pace::Fine | Pace::Plain => Ticks::from_sixteenths(16),
            Pace::Long => Ticks::from_feet(1),
        });
        return (it, Effect::Commit(Edit::Move { element, dx, dy }));
    }
    let (dx, dy) = by(match pace {
        Pace::Fine => Ticks::from_sixteenths(16),
        Pace::Plain => Ticks::from_sixteenths(6 * 16),
        Pace::Long => Ticks::from_feet(4),
    });
    let Some(from) = cross(&it, desk) else {
        return (it, Effect::None);
    };
    let at = Point::new(from.x + dx, from.y + dy);
    let gesture = match it {
        Gesture::Drawing(draft) => {
            let next = Some(aim::at_cross(at, &draft.set, desk));
            Gesture::Drawing(Draft { next, press: None, ..draft })
        }
        _ if draws(desk.view.tool) => Gesture::Aiming(aim::at_cross(at, &[], desk)),
        it => it,
    };
    (gesture, Effect::Cross(at))
}

/// Where the cross is, or where it starts: at the draft, else in the middle of what is seen.
fn cross(it: &Gesture, desk: &Desk<'_>) -> Option<Point> {
    let draft = it.draft().and_then(|draft| draft.next.map(|landing| landing.at).or(draft.set.last().copied()));
    let middle = desk.view.view.plan_from_screen(desk.middle);
    desk.view.key_cursor.or(draft).or_else(|| grid_point(middle, Ticks::from_feet(1)))
}

fn take(it: Gesture, desk: &Desk<'_>) -> (Gesture, Effect) {
    match (it, desk.view.key_cursor) {
        (Gesture::Drawing(draft), Some(at)) => {
            let landing = aim::at_cross(at, &draft.set, desk);
            draw::take(draft, landing, desk)
        }
        // Without the cross, Enter is said by somebody who draws with the mouse.
        (Gesture::Drawing(draft), None) if desk.view.tool == Tool::Outline && draft.set.len() > 2 => {
            draw::corners(draft, desk)
        }
        (Gesture::Drawing(draft), None) => match draft.next {
            Some(landing) => draw::take(draft, landing, desk),
            None => (Gesture::Drawing(draft), Effect::None),
        },
        (_, Some(at)) if draws(desk.view.tool) => draw::first(at, desk),
        (it, Some(at)) => {
            let Screen { x, y } = desk.view.view.screen_from_plan(at.into());
            let there = Screen { x, y };
            (it, pick::tapped(part_at(desk.plan, desk.view, there, 12.0), there, desk))
        }
        (it, None) => {
            let effect = cross(&it, desk).map_or(Effect::None, Effect::Cross);
            (it, effect)
        }
    }
}

fn back(it: Gesture, desk: &Desk<'_>) -> (Gesture, Effect) {
    match it {
        Gesture::Idle | Gesture::Aiming(_) if desk.view.chosen.is_some() || desk.view.put_down.is_some() => {
            (Gesture::Idle, Effect::Choose(None))
        }
        Gesture::Idle | Gesture::Aiming(_) => (Gesture::Idle, Effect::Take(Tool::Pick)),
        _ => (Gesture::Idle, Effect::Redraw),
    }
}
