//! The drawing as data: what is on the sheet, shape by shape, in CSS pixels.
//!
//! A pure function of plan, trace and view; nothing here knows a canvas. `paint` puts it on one, `svg` writes it.

use joistwise_core::plan::Plan;
use joistwise_core::trace::Trace;

use crate::ink::{Fill, Ink, Stroke};
use crate::view::{Screen, ViewState};
use sheet::Sheet;

mod body;
mod chosen;
mod decks;
mod dimensions;
mod draft;
mod feed;
mod fit;
mod fringe;
mod ground;
mod hit;
mod joists;
mod labels;
mod marks;
mod members;
mod openings;
mod path;
mod roofs;
mod seen;
mod sheet;
mod vector;
mod walls;

#[cfg(test)]
mod tests;

pub use fit::{Margins, fit};
pub use hit::{Handle, deck_at, handles, part_at};

/// The shapes of a sheet, first drawn first.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene(pub Vec<Shape>);

/// Something drawn.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Straight pieces of one kind: hatches, joists, ticks.
    Lines {
        /// Each from its first to its second end.
        pieces: Vec<[Screen; 2]>,
        /// How they are drawn.
        stroke: Stroke,
    },
    /// A line through points, or a polygon.
    Path {
        /// The points in order.
        points: Vec<Screen>,
        /// Whether the last is joined to the first.
        closed: bool,
        /// What is inside.
        fill: Option<Fill>,
        /// How its line is drawn.
        stroke: Option<Stroke>,
    },
    /// A circle.
    Circle {
        /// Its middle.
        at: Screen,
        /// In CSS pixels.
        radius: f64,
        /// What is inside.
        fill: Option<Fill>,
        /// How its line is drawn.
        stroke: Option<Stroke>,
    },
    /// A line of text.
    Label(Label),
}

/// A line of text on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The middle of its height, at its start, middle or end.
    pub at: Screen,
    /// What it says.
    pub text: String,
    /// Its ink.
    pub ink: Ink,
    /// Height of the letters' body in CSS pixels.
    pub size: f64,
    /// Whether it is set in bold.
    pub weight: Weight,
    /// Which part of it is at `at`.
    pub anchor: Anchor,
    /// The way it reads, as a vector of length one on the screen: (1, 0) is level.
    pub along: (f64, f64),
    /// What is behind it.
    pub backing: Backing,
}

/// How heavy letters are.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Weight {
    /// As usual.
    #[default]
    Plain,
    /// Bold.
    Strong,
}

/// Which part of a label is at its place.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Anchor {
    /// Its start.
    Start,
    /// Its middle.
    #[default]
    Middle,
    /// Its end.
    End,
}

/// What is behind a label.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Backing {
    /// Nothing.
    #[default]
    Bare,
    /// A rim of paper around each letter.
    Halo,
}

/// The sheet: the plan as the trace reads it, seen through a view. Only paper if the plan does not hold the level.
#[must_use]
pub fn scene(plan: &Plan, trace: &Trace, state: &ViewState) -> Scene {
    let Some(level) = plan.level(state.level) else {
        return Scene::default();
    };
    let mut sheet = Sheet::new(plan, level, trace, state);
    let order: [fn(&mut Sheet); 36] = [
        ground::paper,
        ground::grid,
        ground::ghost,
        members::footings,
        joists::joists,
        roofs::roofs,
        decks::floor_openings,
        decks::things,
        joists::span_arrows,
        feed::feed,
        walls::inside,
        fringe::fringe,
        members::beams,
        walls::outside,
        decks::boards,
        openings::openings,
        members::posts,
        decks::cuts,
        path::path,
        seen::observations,
        seen::looks,
        seen::studied,
        chosen::keep_off_grips,
        marks::points,
        walls::gables,
        walls::badges,
        dimensions::dimensions,
        chosen::hover,
        chosen::chosen,
        marks::gaps,
        path::weight,
        chosen::grips,
        |sheet| sheet.over_words(),
        draft::drafting,
        draft::snap,
        draft::key_cursor,
    ];
    for draw in order {
        draw(&mut sheet);
    }
    sheet.done()
}
