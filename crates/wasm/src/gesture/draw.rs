//! Drawing: a line, a rectangle, an arrow or a run of corners, by drag, by taps or by keys, and the edit it ends in.

use joistwise_core::plan::Point;
use joistwise_core::snap::{Catch, Landing};

use super::{Button, Desk, Effect, Gesture, Input, Pointer, Refusal, aim, pick};
use crate::view::{Drafting, Tool};

mod made;
mod typed;

pub use made::{direction, finish};
pub use typed::{TypedError, typed};

/// Something half drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct Draft {
    /// Points taken so far; never empty.
    pub set: Vec<Point>,
    /// Where the next would land.
    pub next: Option<Landing>,
    /// The press that is on its way to a point, if any.
    pub press: Option<Press>,
}

/// A press while drawing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Press {
    /// The pointer as it went down.
    pub pointer: Pointer,
    /// Whether it set the first point.
    pub first: bool,
    /// Whether it has moved further than a tap.
    pub moved: bool,
}

/// Whether a tool takes one point at a time.
pub(super) const fn is_dot(tool: Tool) -> bool {
    matches!(tool, Tool::Post | Tool::Pad | Tool::Split | Tool::Opening | Tool::JoistCut | Tool::Seen)
}

/// A step while nothing is drawn yet.
pub(super) fn begin(input: &Input, desk: &Desk<'_>) -> (Gesture, Effect) {
    match input {
        Input::Move(pointer) => {
            let gesture = land(pointer, &[], desk).map_or(Gesture::Idle, Gesture::Aiming);
            (gesture, Effect::Redraw)
        }
        Input::Down(pointer) if pointer.button == Button::First => match land(pointer, &[], desk) {
            Some(landing) => {
                let press = Some(Press { pointer: *pointer, first: true, moved: false });
                (Gesture::Drawing(Draft { set: vec![landing.at], next: Some(landing), press }), Effect::Redraw)
            }
            None => (Gesture::Idle, Effect::None),
        },
        _ => (Gesture::Idle, Effect::Redraw),
    }
}

/// A step while something is drawn.
pub(super) fn step(mut draft: Draft, input: &Input, desk: &Desk<'_>) -> (Gesture, Effect) {
    let ours = |pointer: &Pointer| draft.press.is_none_or(|press| press.pointer.id == pointer.id);
    match input {
        Input::Move(pointer) if ours(pointer) => {
            if let Some(press) = &mut draft.press {
                press.moved |= pick::between(press.pointer.at, pointer.at) > press.pointer.by.slip();
            }
            draft.next = land(pointer, &draft.set, desk);
            (Gesture::Drawing(draft), Effect::Redraw)
        }
        Input::Down(pointer) if draft.press.is_none() && pointer.button == Button::First => {
            draft.press = Some(Press { pointer: *pointer, first: false, moved: false });
            draft.next = land(pointer, &draft.set, desk);
            (Gesture::Drawing(draft), Effect::Redraw)
        }
        Input::Up(pointer) if draft.press.is_some() && ours(pointer) => up(draft, pointer, desk),
        Input::Cancel(_) => match draft.press.take() {
            Some(press) if press.first => (Gesture::Idle, Effect::Redraw),
            _ => (Gesture::Drawing(draft), Effect::Redraw),
        },
        _ => (Gesture::Drawing(draft), Effect::None),
    }
}

fn up(mut draft: Draft, pointer: &Pointer, desk: &Desk<'_>) -> (Gesture, Effect) {
    let Some(press) = draft.press.take() else {
        return (Gesture::Drawing(draft), Effect::None);
    };
    // A tap is taken where it went down: a finger rolls as it lifts.
    let at = if press.moved { pointer.at } else { press.pointer.at };
    let Some(landing) = land(&Pointer { at, ..*pointer }, &draft.set, desk) else {
        return (Gesture::Drawing(draft), Effect::None);
    };
    draft.next = Some(landing);
    match (press.first, press.moved, is_dot(desk.view.tool)) {
        (true, true, _) | (true, false, true) => close(draft, landing.at, desk),
        (true, false, false) => (Gesture::Drawing(draft), Effect::Redraw),
        (false, ..) => take(draft, landing, desk),
    }
}

/// The next point, taken.
pub(super) fn take(mut draft: Draft, landing: Landing, desk: &Desk<'_>) -> (Gesture, Effect) {
    if desk.view.tool != Tool::Outline {
        return close(draft, landing.at, desk);
    }
    if landing.on == Catch::FirstCorner || (draft.set.len() > 2 && draft.set.last() == Some(&landing.at)) {
        return corners(draft, desk);
    }
    if draft.set.last() != Some(&landing.at) {
        draft.set.push(landing.at);
    }
    (Gesture::Drawing(draft), Effect::Redraw)
}

/// The outline closed with the corners set so far.
pub(super) fn corners(draft: Draft, desk: &Desk<'_>) -> (Gesture, Effect) {
    let edit = joistwise_core::plan::Edit::Outline { level: desk.view.level, corners: draft.set };
    (Gesture::Idle, Effect::Commit(edit))
}

/// The draft finished at its last point; a point on top of the first leaves it open.
fn close(draft: Draft, to: Point, desk: &Desk<'_>) -> (Gesture, Effect) {
    if desk.view.tool == Tool::Seen {
        return (Gesture::Idle, Effect::See(to));
    }
    let from = draft.set.last().copied().unwrap_or(to);
    match finish(desk.view.tool, from, to, desk) {
        Ok(edit) => (Gesture::Idle, Effect::Commit(edit)),
        Err(refusal @ Refusal::NoSize) => (Gesture::Drawing(draft), Effect::Say(refusal)),
        Err(refusal) => (Gesture::Idle, Effect::Say(refusal)),
    }
}

fn land(pointer: &Pointer, set: &[Point], desk: &Desk<'_>) -> Option<Landing> {
    let Pointer { at, by, .. } = *pointer;
    let reach = aim::reach_of(desk.view.tool, by.reach(), desk.settings.area_first);
    aim::at_screen(at, reach, set, desk)
}

/// What is shown of a draft.
pub(super) fn drafting(draft: &Draft, desk: &Desk<'_>) -> Drafting {
    let from = draft.set.last().copied().unwrap_or_default();
    let to = draft.next.map_or(from, |landing| landing.at);
    let dragged = draft.press.is_some_and(|press| press.first && press.moved);
    match desk.view.tool {
        Tool::Outline if dragged => Drafting::Area { from, to },
        Tool::Outline => {
            let closes = draft.next.is_some_and(|landing| landing.on == Catch::FirstCorner);
            Drafting::Corners { set: draft.set.clone(), next: to, closes }
        }
        Tool::FloorOpening | Tool::Thing => Drafting::Area { from, to },
        Tool::Joists | Tool::Roof if desk.settings.area_first => Drafting::Area { from, to },
        Tool::Joists | Tool::Roof => Drafting::Arrow { from, to },
        Tool::Opening if dragged => Drafting::Line { from, to },
        tool if is_dot(tool) => Drafting::Dot { at: to },
        _ => Drafting::Line { from, to },
    }
}

/// Where a place of the canvas lands, for a tool that has taken nothing yet.
pub(super) fn first(at: Point, desk: &Desk<'_>) -> (Gesture, Effect) {
    let landing = aim::at_cross(at, &[], desk);
    let draft = Draft { set: vec![at], next: Some(landing), press: None };
    if is_dot(desk.view.tool) { close(draft, at, desk) } else { (Gesture::Drawing(draft), Effect::Redraw) }
}
