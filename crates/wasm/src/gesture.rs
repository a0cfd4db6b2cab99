//! The pointer and the keyboard as a state machine: what is half done, and what the next input makes of it.
//!
//! No page, no painting, no history: a step gives the next state and one effect, and `app` carries the effect out.

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Edit, OpeningKind, Plan, Point};
use joistwise_core::snap::Landing;
use joistwise_core::units::Ticks;

use crate::view::{Drafting, Screen, SnapMark, Tool, ViewState};

mod aim;
mod draw;
mod keys;
mod look;
mod pick;

pub use draw::{Draft, TypedError, direction, finish, typed};
pub use keys::{Key, Pace, Press, meaning};
pub use pick::Grip;

/// What a hand or a keyboard does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Input {
    /// A button or finger goes down on the canvas.
    Down(Pointer),
    /// A pointer moves, anywhere on the page.
    Move(Pointer),
    /// A button or finger goes up, anywhere on the page.
    Up(Pointer),
    /// The browser took the pointer away.
    Cancel(i32),
    /// The pointer leaves the canvas.
    Leave,
    /// The wheel turns.
    Wheel {
        /// Where.
        at: Screen,
        /// Sideways, in CSS pixels.
        dx: f64,
        /// Towards the hand, in CSS pixels.
        dy: f64,
        /// Whether two fingers spread on a trackpad.
        spread: bool,
    },
    /// A key with a meaning goes down.
    Key(Key),
    /// The space bar is held, or let go.
    Space(bool),
    /// The canvas has lost the keyboard.
    Blur,
}

/// One pointer at one moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pointer {
    /// Which, as the browser numbers them.
    pub id: i32,
    /// Where on the canvas.
    pub at: Screen,
    /// What points.
    pub by: By,
    /// Which button changed.
    pub button: Button,
}

/// What points.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum By {
    /// A mouse or a pen: exact.
    Mouse,
    /// A finger: broad.
    Finger,
}

/// Which button of a pointer.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Button {
    /// The first: left, or a finger.
    First,
    /// The middle one.
    Middle,
    /// Another, or none.
    Other,
}

impl By {
    /// How far away something still catches, in CSS pixels.
    #[must_use]
    pub const fn reach(self) -> f64 {
        match self {
            Self::Mouse => 10.0,
            Self::Finger => 20.0,
        }
    }

    /// How far a press may slip and still be a tap, in CSS pixels.
    #[must_use]
    pub const fn slip(self) -> f64 {
        match self {
            Self::Mouse => 4.0,
            Self::Finger => 10.0,
        }
    }
}

/// What the tools are set to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Settings {
    /// Whether joists are laid over an area of their own, drawn first.
    pub area_first: bool,
    /// What the next opening is.
    pub opening: OpeningKind,
    /// How wide the next opening is.
    pub opening_width: Ticks,
    /// Whether the space bar is held: the pointer moves the sheet.
    pub space_held: bool,
}

impl Default for Settings {
    fn default() -> Self {
        let opening_width = Ticks::from_feet(3);
        Self { area_first: false, opening: OpeningKind::Door, opening_width, space_held: false }
    }
}

/// What an input is judged by.
#[derive(Clone, Copy, Debug)]
pub struct Desk<'a> {
    /// The house.
    pub plan: &'a Plan,
    /// What of it is shown.
    pub view: &'a ViewState,
    /// What the tools are set to.
    pub settings: &'a Settings,
    /// The middle of what no panel covers.
    pub middle: Screen,
}

/// What is half done.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Gesture {
    /// Nothing.
    #[default]
    Idle,
    /// A drawing tool hovers: where its point would land.
    Aiming(Landing),
    /// Something is being drawn.
    Drawing(Draft),
    /// A press that may become a tap, a move of a part, or a move of the sheet.
    Pressed {
        /// By which pointer.
        pointer: Pointer,
        /// On what.
        grip: Grip,
    },
    /// A part is being moved.
    Moving {
        /// By which pointer, as it was when it went down.
        pointer: Pointer,
        /// By what.
        grip: Grip,
        /// What it would come to.
        edit: Option<Edit>,
        /// What catches it.
        landing: Option<Landing>,
    },
    /// The sheet is being moved.
    Panning {
        /// By which pointer, where it was last.
        pointer: Pointer,
        /// What goes on afterwards.
        then: Box<Gesture>,
    },
    /// Two fingers move and scale the sheet.
    Pinching {
        /// The first finger, where it was last.
        first: Pointer,
        /// The second finger, where it was last.
        second: Pointer,
        /// What goes on afterwards.
        then: Box<Gesture>,
    },
    /// One finger of two is still down.
    Lifting {
        /// What goes on afterwards.
        then: Box<Gesture>,
    },
}

/// What a step asks for.
#[derive(Clone, Debug, PartialEq)]
pub enum Effect {
    /// Nothing.
    None,
    /// The half-drawn thing changed.
    Redraw,
    /// Show the plan as it would be.
    Preview(Edit),
    /// Change the plan.
    Commit(Edit),
    /// Choose a part, or none.
    Choose(Option<ElementId>),
    /// A weight put down on the joists, to see where it goes.
    PutDown(Point),
    /// Something was seen here.
    See(Point),
    /// Hide or show the roof.
    Roof,
    /// The pointer is over a part, or none.
    Hover(Option<ElementId>),
    /// Move and scale the sheet: what was at `from` comes to `to`.
    Look {
        /// A place of the canvas.
        from: Screen,
        /// Where it comes to.
        to: Screen,
        /// By how much the scale grows.
        factor: f64,
    },
    /// Show all of the level.
    Fit,
    /// The cross of the keyboard goes here.
    Cross(Point),
    /// Another tool.
    Take(Tool),
    /// The chosen part goes.
    Remove,
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// A sentence for the person at the page.
    Say(Refusal),
}

/// Why nothing was drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Refusal {
    /// No wall where one is needed.
    #[error("there is no wall here: tap on a wall of this level")]
    NoWallHere,
    /// A line without length, an area without width.
    #[error("both ends are in one place: the second point has to be further off")]
    NoSize,
    /// Joists or a roof over nothing.
    #[error("there are no outside walls here yet: draw the outline first")]
    NoOutline,
    /// The level is gone.
    #[error("this level is no longer in the house")]
    NoLevel,
}

impl Gesture {
    /// The next state after `input`, and what it asks for.
    #[must_use]
    pub fn step(self, input: &Input, desk: &Desk<'_>) -> (Self, Effect) {
        match (self, input) {
            (it @ (Self::Panning { .. } | Self::Pinching { .. } | Self::Lifting { .. }), _) => {
                look::step(it, input, desk)
            }
            (it, Input::Wheel { at, dx, dy, spread }) => (it, look::wheel(*at, *dx, *dy, *spread)),
            (it, Input::Down(pointer)) if it.has_another_finger(pointer) => look::second_finger(it, pointer),
            (it, Input::Down(pointer)) if look::moves_the_sheet(pointer, desk) => {
                (look::pan(it, pointer), Effect::None)
            }
            (it, Input::Key(key)) => keys::step(it, *key, desk),
            (Self::Drawing(draft), _) => draw::step(draft, input, desk),
            (it @ (Self::Pressed { .. } | Self::Moving { .. }), _) => pick::step(it, input, desk),
            (Self::Idle | Self::Aiming(_), _) if draws(desk.view.tool) => draw::begin(input, desk),
            (Self::Idle | Self::Aiming(_), _) => pick::begin(input, desk),
        }
    }

    /// What is half drawn, to be shown.
    #[must_use]
    pub fn drafting(&self, desk: &Desk<'_>) -> Drafting {
        match self {
            Self::Drawing(draft) => draw::drafting(draft, desk),
            Self::Aiming(landing) if draw::is_dot(desk.view.tool) => Drafting::Dot { at: landing.at },
            Self::Panning { then, .. } | Self::Pinching { then, .. } | Self::Lifting { then } => then.drafting(desk),
            _ => Drafting::Nothing,
        }
    }

    /// What catches the point, to be shown before it is taken.
    #[must_use]
    pub fn mark(&self) -> Option<SnapMark> {
        let landing = match self {
            Self::Aiming(landing) => Some(landing),
            Self::Drawing(draft) => draft.next.as_ref(),
            Self::Moving { landing, .. } => landing.as_ref(),
            _ => None,
        }?;
        Some(aim::mark(landing))
    }

    /// What is being drawn, also while the sheet is moved.
    #[must_use]
    pub fn draft(&self) -> Option<&Draft> {
        match self {
            Self::Drawing(draft) => Some(draft),
            Self::Panning { then, .. } | Self::Pinching { then, .. } | Self::Lifting { then } => then.draft(),
            _ => None,
        }
    }

    fn has_another_finger(&self, pointer: &Pointer) -> bool {
        let down = match self {
            Self::Pressed { pointer, .. } | Self::Moving { pointer, .. } => Some(pointer),
            Self::Drawing(draft) => draft.press.as_ref().map(|press| &press.pointer),
            _ => None,
        };
        down.is_some_and(|down| down.id != pointer.id && down.by == By::Finger && pointer.by == By::Finger)
    }
}

/// Whether a tool puts points on the sheet.
#[must_use]
pub const fn draws(tool: Tool) -> bool {
    !matches!(tool, Tool::Pick | Tool::Hand)
}

#[cfg(test)]
mod tests;
