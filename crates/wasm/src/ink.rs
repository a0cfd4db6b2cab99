//! Inks by meaning, with their colours in each scheme, and the few line widths and dashes of the sheet.
//!
//! No shape is drawn here, and no ink stands alone: every role also has a hatch, an edge and a letter.

use joistwise_core::trace::{Origin, Role};

use crate::view::Scheme;

/// What a line, a fill or a text means.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ink {
    /// The ground that is drawn on.
    Paper,
    /// The fine and the coarse grid.
    Grid,
    /// The level below, showing through.
    Ghost,
    /// Joists and what is written on them.
    Joist,
    /// Eaves and ridges.
    Eave,
    /// Openings in a deck, with their headers and trimmers.
    FloorOpening,
    /// The fill and the badge of a stretch of wall.
    Wall(Role),
    /// Edge of a wall; hatch on it.
    Edge,
    /// Edge of a wall on which nothing was found.
    NothingEdge,
    /// The letter on a badge.
    Letter(Role),
    /// Doors, windows, passages.
    Opening,
    /// Beams.
    Beam,
    /// Posts.
    Post,
    /// Pads and strip footings.
    Footing,
    /// What feeds the chosen wall or beam: strip, arrows, words.
    Feed(Role),
    /// The line load beside the chosen wall or beam.
    Fringe(Role),
    /// Point loads.
    PointLoad,
    /// Where a load has nowhere to go.
    Gap,
    /// Dimensions, scale bar, north arrow.
    Dimension,
    /// Quiet words on the sheet.
    Caption,
    /// Words to be read.
    Words,
    /// Around what is chosen, and its handles.
    Chosen,
    /// Around what the pointer is over.
    Hover,
    /// What is half drawn.
    Draft,
    /// What the pointer would snap to.
    Snap,
    /// The cross of the keyboard.
    Key,
}

/// The role that load of one origin gives a wall.
#[must_use]
pub const fn role_of(origin: Origin) -> Role {
    match origin {
        Origin::Roof => Role::CarriesRoof,
        Origin::Floor => Role::CarriesFloor,
        Origin::Ceiling => Role::CarriesCeiling,
    }
}

/// The colour of an ink, as the web writes it.
///
/// The hues of roles are those of Okabe and Ito's palette for the colour-blind, amber in place of its yellow; words in
/// a hue are darker on paper (lighter on dark) until they reach a contrast of 4.5 to 1.
#[must_use]
pub const fn colour(ink: Ink, scheme: Scheme) -> &'static str {
    match scheme {
        Scheme::Paper => on_paper(ink),
        Scheme::Dark => on_dark(ink),
        Scheme::Print => on_print(ink),
    }
}

const fn on_paper(ink: Ink) -> &'static str {
    match ink {
        Ink::Paper | Ink::Wall(Role::NothingFound) => "#FCFBF7",
        Ink::Grid => "#8F8B7C",
        Ink::Ghost => "#8A8578",
        Ink::Joist => "#8A8064",
        Ink::Eave | Ink::NothingEdge => "#6F6F6F",
        Ink::FloorOpening | Ink::Opening => "#4A4A4A",
        Ink::Wall(Role::CarriesRoof) => "#0072B2",
        Ink::Wall(Role::CarriesFloor) => "#D55E00",
        Ink::Wall(Role::CarriesCeiling) => "#009E73",
        Ink::Wall(Role::HoldsPoint) => "#CC79A7",
        Ink::Wall(Role::Outside) | Ink::Edge | Ink::Words | Ink::Chosen | Ink::Post => "#1A1A1A",
        Ink::Wall(Role::NeedsALook) => "#F5C710",
        Ink::Letter(Role::CarriesFloor | Role::HoldsPoint | Role::NeedsALook | Role::CarriesCeiling) => "#1A1A1A",
        Ink::Letter(Role::NothingFound) => "#4A4A4A",
        Ink::Letter(_) => "#FFFFFF",
        Ink::Beam | Ink::Footing => "#3A3A3A",
        Ink::Feed(role) | Ink::Fringe(role) => match role {
            Role::CarriesRoof => "#00568A",
            Role::CarriesFloor => "#A34700",
            Role::CarriesCeiling => "#00694C",
            Role::HoldsPoint => "#8F3D6A",
            Role::Outside | Role::NothingFound | Role::NeedsALook => "#4A4A4A",
        },
        Ink::PointLoad => "#8F3D6A",
        Ink::Gap => "#C2001A",
        Ink::Dimension => "#3A3A3A",
        Ink::Caption => "#6B6658",
        Ink::Hover => "#5B5B5B",
        Ink::Draft => "#0B5FA5",
        Ink::Snap | Ink::Key => "#8A2BC2",
    }
}

const fn on_dark(ink: Ink) -> &'static str {
    match ink {
        Ink::Paper | Ink::Wall(Role::NothingFound) => "#16181B",
        Ink::Grid => "#707680",
        Ink::Ghost => "#8C929B",
        Ink::Joist => "#B5AA8B",
        Ink::Eave | Ink::NothingEdge => "#A9AEB5",
        Ink::FloorOpening | Ink::Opening => "#C9CDD3",
        Ink::Wall(Role::CarriesRoof) => "#3A9BD9",
        Ink::Wall(Role::CarriesFloor) => "#E8752A",
        Ink::Wall(Role::CarriesCeiling) => "#1FB98C",
        Ink::Wall(Role::HoldsPoint) => "#D893B8",
        Ink::Wall(Role::Outside) | Ink::Edge | Ink::Words | Ink::Chosen | Ink::Post => "#F1EFE8",
        Ink::Wall(Role::NeedsALook) => "#F5C710",
        Ink::Letter(Role::NothingFound) => "#C9CDD3",
        Ink::Letter(_) => "#101214",
        Ink::Beam | Ink::Footing | Ink::Dimension => "#D3D6DB",
        Ink::Feed(role) | Ink::Fringe(role) => match role {
            Role::CarriesRoof => "#6DBBEB",
            Role::CarriesFloor => "#FF9A56",
            Role::CarriesCeiling => "#4CD3A9",
            Role::HoldsPoint => "#E7AECB",
            Role::Outside | Role::NothingFound | Role::NeedsALook => "#C9CDD3",
        },
        Ink::PointLoad => "#E7AECB",
        Ink::Gap => "#FF6B6B",
        Ink::Caption => "#A5A99F",
        Ink::Hover => "#B9BEC6",
        Ink::Draft => "#7FC0FF",
        Ink::Snap | Ink::Key => "#D9A3FF",
    }
}

const fn on_print(ink: Ink) -> &'static str {
    match ink {
        Ink::Paper
        | Ink::Wall(
            Role::CarriesFloor | Role::CarriesCeiling | Role::HoldsPoint | Role::NothingFound | Role::NeedsALook,
        ) => "#FFFFFF",
        Ink::Letter(Role::CarriesRoof | Role::Outside) => "#FFFFFF",
        Ink::Wall(Role::CarriesRoof) => "#6B6B6B",
        Ink::Grid | Ink::Ghost => "#8A8A8A",
        Ink::Joist | Ink::Eave | Ink::NothingEdge => "#4A4A4A",
        _ => "#000000",
    }
}

/// How a line is broken.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Dash {
    /// Not at all.
    #[default]
    Solid,
    /// Even dashes: what is above, or not settled.
    Dashed,
    /// Short dashes: what is below, and headers.
    Hidden,
    /// Long and short: ridges, guides.
    Centre,
}

impl Dash {
    /// Lengths of dashes and gaps in turn, in CSS pixels; empty for a solid line.
    #[must_use]
    pub const fn lengths(self) -> &'static [f64] {
        match self {
            Self::Solid => &[],
            Self::Dashed => &[6.0, 4.0],
            Self::Hidden => &[3.0, 3.0],
            Self::Centre => &[12.0, 3.0, 3.0, 3.0],
        }
    }
}

/// Width of hatch and grid, in CSS pixels: 0.18 mm on paper, as drafting practice has it.
pub const FINE: f64 = 0.7;
/// Width of dimensions and leaders: 0.25 mm.
pub const THIN: f64 = 1.0;
/// Width of objects: 0.35 mm.
pub const MEDIUM: f64 = 1.4;
/// Width of what is cut, and of what is chosen: 0.50 mm.
pub const WIDE: f64 = 2.0;
/// Width of the ring around a path gap.
pub const RING: f64 = 2.5;

/// A line: its ink, how strongly it is put on (0 to 1), its width in CSS pixels, how it is broken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its ink.
    pub ink: Ink,
    /// Opacity, 0 to 1.
    pub strength: f64,
    /// In CSS pixels.
    pub width: f64,
    /// How it is broken.
    pub dash: Dash,
}

impl Stroke {
    /// A solid line at full strength.
    #[must_use]
    pub const fn new(ink: Ink, width: f64) -> Self {
        Self { ink, strength: 1.0, width, dash: Dash::Solid }
    }

    /// The same, broken.
    #[must_use]
    pub const fn dash(self, dash: Dash) -> Self {
        Self { dash, ..self }
    }

    /// The same, at another strength.
    #[must_use]
    pub const fn faint(self, strength: f64) -> Self {
        Self { strength, ..self }
    }
}

/// A fill: its ink and how strongly it is put on (0 to 1).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fill {
    /// Its ink.
    pub ink: Ink,
    /// Opacity, 0 to 1.
    pub strength: f64,
}

impl Fill {
    /// At full strength.
    #[must_use]
    pub const fn new(ink: Ink) -> Self {
        Self { ink, strength: 1.0 }
    }

    /// A wash.
    #[must_use]
    pub const fn wash(ink: Ink, strength: f64) -> Self {
        Self { ink, strength }
    }
}
