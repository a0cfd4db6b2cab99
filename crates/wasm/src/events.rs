//! DOM events turned into [`Input`]: what was pressed and where, nothing of what it means.
//!
//! Down is heard on the canvas, move and up on the document, so that a release outside is seen. All listeners are held
//! in one struct and go with it.

use wasm_bindgen::JsCast as _;
use wasm_bindgen::prelude::{Closure, JsValue};
use web_sys::{
    AddEventListenerOptions, Event, EventTarget, HtmlCanvasElement, KeyboardEvent, MouseEvent, PointerEvent, WheelEvent,
};

use crate::gesture::{Button, By, Input, Pointer, Press, meaning};
use crate::view::Screen;

/// Pixels in a line of a wheel that counts in lines.
const LINE_PX: f64 = 16.0;

/// A listener that goes when it is dropped.
struct Listener {
    target: EventTarget,
    name: &'static str,
    heard: Closure<dyn FnMut(Event)>,
}

impl Drop for Listener {
    fn drop(&mut self) {
        let heard = self.heard.as_ref().unchecked_ref();
        // It was added, so it can be removed.
        let _ = self.target.remove_event_listener_with_callback(self.name, heard);
    }
}

/// All listeners of a sheet.
pub struct Listeners {
    _held: Vec<Listener>,
}

/// Hears the canvas and hands on what happens.
pub fn listen(canvas: &HtmlCanvasElement, hear: impl Fn(Input) + Clone + 'static) -> Result<Listeners, JsValue> {
    let page: EventTarget = canvas.owner_document().ok_or("the canvas is on no page")?.into();
    let board: &EventTarget = canvas.as_ref();
    let mut held = Vec::new();
    let mut on = |target: &EventTarget, name: &'static str, read: fn(&Event, &HtmlCanvasElement) -> Option<Input>| {
        let (hear, canvas) = (hear.clone(), canvas.clone());
        let heard = Closure::<dyn FnMut(Event)>::new(move |event: Event| {
            if let Some(input) = read(&event, &canvas) {
                hear(input);
            }
        });
        let options = AddEventListenerOptions::new();
        options.set_passive(false);
        let callback = heard.as_ref().unchecked_ref();
        target.add_event_listener_with_callback_and_add_event_listener_options(name, callback, &options)?;
        held.push(Listener { target: target.clone(), name, heard });
        Ok::<(), JsValue>(())
    };
    on(board, "pointerdown", |event, canvas| pointer(event, canvas).map(Input::Down))?;
    on(&page, "pointermove", |event, canvas| pointer(event, canvas).map(Input::Move))?;
    on(&page, "pointerup", |event, canvas| pointer(event, canvas).map(Input::Up))?;
    on(&page, "pointercancel", |event, canvas| pointer(event, canvas).map(|pointer| Input::Cancel(pointer.id)))?;
    on(board, "pointerleave", |_, _| Some(Input::Leave))?;
    on(board, "touchstart", touch)?;
    on(board, "wheel", wheel)?;
    on(board, "keydown", key)?;
    on(board, "keyup", space)?;
    on(board, "blur", |_, _| Some(Input::Blur))?;
    Ok(Listeners { _held: held })
}

fn place(event: &MouseEvent, canvas: &HtmlCanvasElement) -> Screen {
    let frame = canvas.get_bounding_client_rect();
    Screen { x: f64::from(event.client_x()) - frame.left(), y: f64::from(event.client_y()) - frame.top() }
}

fn pointer(event: &Event, canvas: &HtmlCanvasElement) -> Option<Pointer> {
    let event = event.dyn_ref::<PointerEvent>()?;
    let by = if event.pointer_type() == "touch" { By::Finger } else { By::Mouse };
    let button = match event.button() {
        0 => Button::First,
        1 => Button::Middle,
        _ => Button::Other,
    };
    Some(Pointer { id: event.pointer_id(), at: place(event, canvas), by, button })
}

/// A stroke is not a flick: left to itself the browser takes one for the other and swallows the next tap. What it would
/// have done besides, the focus, is done here.
fn touch(event: &Event, canvas: &HtmlCanvasElement) -> Option<Input> {
    event.prevent_default();
    // A canvas on a page can be focused.
    let _ = canvas.focus();
    None
}

fn wheel(event: &Event, canvas: &HtmlCanvasElement) -> Option<Input> {
    let event = event.dyn_ref::<WheelEvent>()?;
    event.prevent_default();
    let px = if event.delta_mode() == WheelEvent::DOM_DELTA_PIXEL { 1.0 } else { LINE_PX };
    let (dx, dy) = (event.delta_x() * px, event.delta_y() * px);
    Some(Input::Wheel { at: place(event, canvas), dx, dy, spread: event.ctrl_key() })
}

fn key(event: &Event, _: &HtmlCanvasElement) -> Option<Input> {
    let event = event.dyn_ref::<KeyboardEvent>()?;
    if event.key() == " " {
        event.prevent_default();
        return Some(Input::Space(true));
    }
    let command = event.ctrl_key() || event.meta_key();
    let press = Press { key: event.key(), shift: event.shift_key(), command, alt: event.alt_key() };
    let key = meaning(&press)?;
    event.prevent_default();
    Some(Input::Key(key))
}

fn space(event: &Event, _: &HtmlCanvasElement) -> Option<Input> {
    let event = event.dyn_ref::<KeyboardEvent>()?;
    (event.key() == " ").then_some(Input::Space(false))
}
