//! Moving and scaling the sheet: one pointer pans, two fingers pinch, the wheel zooms.

use super::{Button, By, Desk, Effect, Gesture, Input, Pointer};
use crate::view::{Screen, Tool};

/// Whether a press moves the sheet whatever is under it.
pub(super) fn moves_the_sheet(pointer: &Pointer, desk: &Desk<'_>) -> bool {
    let held = desk.settings.space_held || desk.view.tool == Tool::Hand;
    pointer.button == Button::Middle || (held && pointer.button == Button::First)
}

/// The sheet follows one pointer; what was half drawn goes on afterwards.
pub(super) fn pan(then: Gesture, pointer: &Pointer) -> Gesture {
    Gesture::Panning { pointer: *pointer, then: Box::new(without_press(then)) }
}

/// A second finger turns whatever the first one did into a pinch.
pub(super) fn second_finger(it: Gesture, second: &Pointer) -> (Gesture, Effect) {
    let first = match &it {
        Gesture::Pressed { pointer, .. } | Gesture::Moving { pointer, .. } | Gesture::Panning { pointer, .. } => {
            *pointer
        }
        Gesture::Drawing(draft) => draft.press.as_ref().map_or(*second, |press| press.pointer),
        _ => *second,
    };
    let then = match it {
        Gesture::Panning { then, .. } => then,
        it => Box::new(without_press(it)),
    };
    (Gesture::Pinching { first, second: *second, then }, Effect::Redraw)
}

/// The state as it was before the finger that is down went down.
fn without_press(it: Gesture) -> Gesture {
    match it {
        Gesture::Drawing(mut draft) => match draft.press.take() {
            Some(press) if press.first => Gesture::Idle,
            _ => Gesture::Drawing(draft),
        },
        Gesture::Pressed { .. } | Gesture::Moving { .. } | Gesture::Aiming(_) => Gesture::Idle,
        it => it,
    }
}

/// A step while the sheet is being moved.
pub(super) fn step(it: Gesture, input: &Input, desk: &Desk<'_>) -> (Gesture, Effect) {
    match (it, input) {
        (Gesture::Panning { pointer, then }, Input::Move(now)) if now.id == pointer.id => {
            let effect = Effect::Look { from: pointer.at, to: now.at, factor: 1.0 };
            (Gesture::Panning { pointer: *now, then }, effect)
        }
        (Gesture::Panning { pointer, then }, Input::Up(now)) if now.id == pointer.id => (*then, Effect::Redraw),
        (it @ Gesture::Panning { pointer: Pointer { by: By::Finger, .. }, .. }, Input::Down(second)) => {
            second_finger(it, second)
        }
        (Gesture::Pinching { first, second, then }, Input::Move(now)) => {
            let (was, rest) = if now.id == first.id { (first, second) } else { (second, first) };
            if now.id != was.id {
                return (Gesture::Pinching { first, second, then }, Effect::None);
            }
            let factor = apart(now.at, rest.at) / apart(was.at, rest.at);
            let effect = Effect::Look { from: middle(was.at, rest.at), to: middle(now.at, rest.at), factor };
            (Gesture::Pinching { first: *now, second: rest, then }, effect)
        }
        (Gesture::Pinching { first, second, then }, Input::Up(now)) if now.id == first.id || now.id == second.id => {
            (Gesture::Lifting { then }, Effect::None)
        }
        (Gesture::Lifting { then }, Input::Up(_)) => (*then, Effect::Redraw),
        // The last finger of a pinch may be lifted outside the window: the next press starts afresh.
        (Gesture::Lifting { then }, Input::Down(_)) => then.step(input, desk),
        (
            Gesture::Panning { then, .. } | Gesture::Pinching { then, .. } | Gesture::Lifting { then },
            Input::Cancel(_),
        ) => (*then, Effect::Redraw),
        (it, Input::Wheel { at, dx, dy, spread }) => (it, wheel(*at, *dx, *dy, *spread)),
        (it, _) => (it, Effect::None),
    }
}

/// The wheel scales about the pointer; a sideways turn moves the sheet.
pub(super) fn wheel(at: Screen, dx: f64, dy: f64, spread: bool) -> Effect {
    if dx.abs() > dy.abs() && !spread {
        return Effect::Look { from: at, to: Screen { x: at.x - dx, y: at.y - dy }, factor: 1.0 };
    }
    let pace = if spread { 0.01 } else { 0.0015 };
    Effect::Look { from: at, to: at, factor: (1.0 - dy * pace).clamp(0.6, 1.6) }
}

fn middle(a: Screen, b: Screen) -> Screen {
    Screen { x: a.x.midpoint(b.x), y: a.y.midpoint(b.y) }
}

fn apart(a: Screen, b: Screen) -> f64 {
    super::pick::between(a, b).max(1.0)
}
