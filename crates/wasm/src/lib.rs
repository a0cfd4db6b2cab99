//! The page: canvas, pointer and keyboard over `joistwise_core`.
//!
//! The page's scripts hold one [`Sheet`]. It paints the canvas by itself, once a frame at most, and calls back when what
//! the panels show has changed. Whatever can be refused is refused in a sentence of the state; nothing throws.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use joistwise_core::geometry::Spot;
use joistwise_core::loads::layers::LAYERS;
use joistwise_core::units::Feet;
use serde::Serialize as _;
use wasm_bindgen::JsCast as _;
use wasm_bindgen::prelude::{Closure, JsValue, wasm_bindgen};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

use crate::app::{App, Command};
use crate::events::Listeners;
use crate::view::Screen;

pub mod app;
pub mod events;
pub mod gesture;
pub mod ink;
pub mod paint;
pub mod qr;
pub mod scene;
pub mod store;
pub mod svg;
pub mod view;

/// The drawing surface and the house on it.
#[wasm_bindgen]
pub struct Sheet {
    inner: Rc<Inner>,
    _listeners: Listeners,
}

struct Inner {
    app: RefCell<App>,
    canvas: HtmlCanvasElement,
    context: CanvasRenderingContext2d,
    changed: js_sys::Function,
    waiting: Cell<bool>,
    frame: RefCell<Option<Closure<dyn FnMut()>>>,
    /// When the readings of this house were begun, or it was last told how far they are; in milliseconds.
    reading: Cell<Option<f64>>,
}

/// How long readings are traced in one frame, in milliseconds: of the 16.7 of a frame at 60 a second the rest paints.
const SLICE_MS: f64 = 10.0;
/// After how long, and how often from then on, it is told how far the readings are, in milliseconds.
const TELL_MS: f64 = 200.0;

#[wasm_bindgen]
impl Sheet {
    /// Takes over a canvas; `changed` is called, once a frame at most, when the state is another.
    #[wasm_bindgen(constructor)]
    pub fn new(canvas: HtmlCanvasElement, changed: js_sys::Function) -> Result<Sheet, JsValue> {
        std::panic::set_hook(Box::new(broken));
        let inner = Inner::new(canvas, changed)?;
        let heard = Rc::clone(&inner);
        let listeners = events::listen(&inner.canvas, move |input| heard.with(|app| app.update(&input)))?;
        Ok(Self { inner, _listeners: listeners })
    }

    /// What the panels show.
    #[must_use]
    pub fn state(&self) -> JsValue {
        let writer = serde_wasm_bindgen::Serializer::json_compatible();
        self.inner.app.borrow().state().serialize(&writer).unwrap_or(JsValue::NULL)
    }

    /// Does what a panel asks for.
    pub fn command(&self, command: JsValue) {
        match serde_wasm_bindgen::from_value::<Command>(command) {
            Ok(command) => self.inner.with(|app| app.command(command)),
            Err(error) => self.inner.with(|app| app.command(Command::Say(error.to_string()))),
        }
    }

    /// The canvas has this many CSS pixels, and this many device pixels for each.
    pub fn resize(&self, width: f64, height: f64, dpr: f64) {
        self.inner.canvas.set_width(device_px(width, dpr));
        self.inner.canvas.set_height(device_px(height, dpr));
        self.inner.with(|app| app.resize(width, height, dpr));
        self.inner.paint();
    }

    /// Opens a house file; false if it is none, with a sentence in the state.
    pub fn open_file(&self, text: &str) -> bool {
        self.inner.with(|app| store::open_file(app, text))
    }

    /// Opens the house in the part of an address after the `#`.
    pub fn open_link(&self, part: &str) -> bool {
        self.inner.with(|app| store::open_link(app, part))
    }

    /// Opens a house with its steps as house files, the oldest first; `now` is the place of the one that is shown.
    pub fn open_steps(&self, texts: Vec<String>, now: usize) -> bool {
        self.inner.with(|app| store::open_steps(app, &texts, now))
    }

    /// The numbers of the steps of the open house, the oldest first, those taken back last.
    #[must_use]
    pub fn steps(&self) -> Vec<u32> {
        self.inner.app.borrow().history().numbers()
    }

    /// The number of the step that is shown.
    #[must_use]
    pub fn step(&self) -> u32 {
        self.inner.app.borrow().history().number()
    }

    /// The house file of a step by its number.
    #[must_use]
    pub fn step_text(&self, number: u32) -> Option<String> {
        store::step_text(&self.inner.app.borrow(), number)
    }

    /// The house file.
    #[must_use]
    pub fn file_text(&self) -> String {
        store::file_text(&self.inner.app.borrow())
    }

    /// The part of an address after the `#` that carries the house.
    #[must_use]
    pub fn link(&self) -> String {
        store::link(&self.inner.app.borrow())
    }

    /// An address as a QR code: how many modules a side has, and the dark ones as the `d` of an SVG path; nothing if it is too
    /// long for one.
    #[must_use]
    pub fn qr(&self, address: &str) -> Vec<String> {
        qr::code(address).map(|code| vec![code.side.to_string(), code.path]).unwrap_or_default()
    }

    /// The trace as text, to compare with the native one.
    #[must_use]
    pub fn trace_text(&self) -> String {
        store::trace_text(&self.inner.app.borrow())
    }

    /// Where a place of the plan, in feet east and north, is on the canvas: CSS pixels from its left and top.
    #[must_use]
    pub fn place(&self, east_ft: f64, north_ft: f64) -> Vec<f64> {
        let spot = Spot { x: Feet(east_ft), y: Feet(north_ft) };
        let Screen { x, y } = self.inner.app.borrow().view().view.screen_from_plan(spot);
        vec![x, y]
    }

    /// The published layers of which a deck, roof or wall may be built up: name and pounds a square foot, in turn.
    #[must_use]
    pub fn layers(&self) -> Vec<String> {
        LAYERS.iter().flat_map(|layer| [layer.what.to_owned(), layer.psf.0.to_string()]).collect()
    }

    /// What counts as proof: each kind of observation with what it can prove and where that is said.
    #[must_use]
    pub fn proofs(&self) -> JsValue {
        let writer = serde_wasm_bindgen::Serializer::json_compatible();
        app::proofs().serialize(&writer).unwrap_or(JsValue::NULL)
    }

    /// The studied house as it stands and with a beam, as two SVG drawings; none without a study.
    #[must_use]
    pub fn study_drawings(&self) -> Vec<String> {
        self.inner.app.borrow().study_drawings()
    }

    /// The sheet as an SVG drawing.
    #[must_use]
    pub fn svg(&self) -> String {
        store::drawing(&self.inner.app.borrow())
    }
}

impl Inner {
    fn new(canvas: HtmlCanvasElement, changed: js_sys::Function) -> Result<Rc<Self>, JsValue> {
        let context = canvas.get_context("2d")?.ok_or("this browser draws no canvas")?.dyn_into()?;
        let app = RefCell::new(App::new());
        let inner = Self {
            app,
            canvas,
            context,
            changed,
            waiting: Cell::new(false),
            frame: RefCell::new(None),
            reading: Cell::new(None),
        };
        let inner = Rc::new(inner);
        let weak = Rc::downgrade(&inner);
        let frame = Closure::<dyn FnMut()>::new(move || {
            if let Some(inner) = weak.upgrade() {
                inner.show();
            }
        });
        inner.frame.replace(Some(frame));
        Ok(inner)
    }

    /// Lets something happen to the house, and asks for a frame to show it in.
    fn with<T>(&self, act: impl FnOnce(&mut App) -> T) -> T {
        let answer = act(&mut self.app.borrow_mut());
        if !self.waiting.replace(true) {
            self.ask_for_a_frame();
        }
        answer
    }

    fn ask_for_a_frame(&self) {
        let frame = self.frame.borrow();
        if let (Some(window), Some(frame)) = (web_sys::window(), frame.as_ref()) {
            let asked = window.request_animation_frame(frame.as_ref().unchecked_ref());
            self.waiting.set(asked.is_ok());
        }
    }

    fn show(&self) {
        self.waiting.set(false);
        self.read_on();
        self.paint();
        if self.app.borrow_mut().take_panels() {
            // A panel that throws is the page's to report.
            let _ = self.changed.call0(&JsValue::NULL);
        }
    }

    /// Traces readings for part of a frame, and asks for the next one while any are left.
    fn read_on(&self) {
        if !self.app.borrow().is_reading() {
            self.reading.set(None);
            return;
        }
        let started = now_ms();
        let told = self.reading.get().unwrap_or(started);
        let mut app = self.app.borrow_mut();
        while app.read_on() && now_ms() - started < SLICE_MS {}
        let tell = started - told >= TELL_MS;
        if tell {
            app.tell_progress();
        }
        let more = app.is_reading();
        drop(app);
        self.reading.set(more.then_some(if tell { started } else { told }));
        if more && !self.waiting.replace(true) {
            self.ask_for_a_frame();
        }
    }

    fn paint(&self) {
        if self.app.borrow_mut().take_paint() {
            let app = self.app.borrow();
            paint::paint(&self.context, &app.scene(), &app.view().view, app.view().scheme);
        }
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a canvas has 0 to 16,384 pixels a side")]
fn device_px(css_px: f64, dpr: f64) -> u32 {
    (css_px * dpr).round().clamp(0.0, 16_384.0) as u32
}

/// Milliseconds since the page began; zero without a clock.
fn now_ms() -> f64 {
    web_sys::window().and_then(|window| window.performance()).map_or(0.0, |clock| clock.now())
}

/// Marks the page as broken, so that it can say that the kept house is whole, and tells the console why.
fn broken(info: &std::panic::PanicHookInfo<'_>) {
    console_error_panic_hook::hook(info);
    if let Some(body) = web_sys::window().and_then(|window| window.document()).and_then(|page| page.body()) {
        let _ = body.set_attribute("data-broken", "yes");
    }
}
