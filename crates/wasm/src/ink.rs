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
    /// Along the path of what is chosen.
    Path,
    /// Where something was seen, and where a look is worth most.
    Seen,
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
        Ink::Path => "#5B2D90",
        Ink::Seen => "#1F4E5F",
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
        Ink::Path => "#C9A6FF",
        Ink::Seen => "#9AD0E0",
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
    /// A dash and two dots: boards across joists.
    Board,
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
            Self::Board => &[8.0, 2.0, 2.0, 2.0, 2.0, 2.0],
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of a colour: WCAG 2.2, definition of "relative luminance".
    fn luminance(colour: &str) -> f64 {
        let part = |from: usize| f64::from(u8::from_str_radix(&colour[from..from + 2], 16).unwrap()) / 255.0;
        let linear = |c: f64| if c <= 0.040_45 { c / 12.92 } else { (((c + 0.055) / 1.055).ln() * 2.4).exp() };
        0.2126 * linear(part(1)) + 0.7152 * linear(part(3)) + 0.0722 * linear(part(5))
    }

    fn contrast(one: &str, two: &str) -> f64 {
        let (a, b) = (luminance(one), luminance(two));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    const SCHEMES: [Scheme; 3] = [Scheme::Paper, Scheme::Dark, Scheme::Print];
    const ROLES: [Role; 7] = [
        Role::CarriesRoof,
        Role::CarriesFloor,
        Role::CarriesCeiling,
        Role::HoldsPoint,
        Role::Outside,
        Role::NothingFound,
        Role::NeedsALook,
    ];

    /// WCAG 2.2, 1.4.3: text 4.5 to 1.
    #[test]
    fn words_on_the_sheet_reach_a_contrast_of_4_5_to_1_in_every_scheme() {
        let plain = [
            Ink::Words,
            Ink::Caption,
            Ink::Dimension,
            Ink::Beam,
            Ink::Footing,
            Ink::FloorOpening,
            Ink::PointLoad,
            Ink::Gap,
            Ink::Draft,
            Ink::Snap,
        ];
        let of_roles = ROLES.iter().flat_map(|role| [Ink::Feed(*role), Ink::Fringe(*role)]);
        for ink in plain.into_iter().chain(of_roles) {
            for scheme in SCHEMES {
                let found = contrast(colour(ink, scheme), colour(Ink::Paper, scheme));
                assert!(found >= 4.5, "{ink:?} on {scheme:?}: {found:.2}");
            }
        }
    }

    #[test]
    fn the_letter_of_a_badge_reaches_4_5_to_1_on_its_disc() {
        for role in ROLES {
            for scheme in SCHEMES {
                let found = contrast(colour(Ink::Letter(role), scheme), colour(Ink::Wall(role), scheme));
                assert!(found >= 4.5, "{role:?} on {scheme:?}: {found:.2}");
            }
        }
    }

    /// WCAG 2.2, 1.4.11: what is needed to understand a drawing, 3 to 1; by its fill or by its edge.
    #[test]
    fn each_role_stands_out_from_the_paper_by_3_to_1_by_its_fill_or_its_edge() {
        for role in ROLES {
            for scheme in SCHEMES {
                let edge = if role == Role::NothingFound { Ink::NothingEdge } else { Ink::Edge };
                let paper = colour(Ink::Paper, scheme);
                let fill = contrast(colour(Ink::Wall(role), scheme), paper);
                let found = fill.max(contrast(colour(edge, scheme), paper));
                assert!(found >= 3.0, "{role:?} on {scheme:?}: {found:.2}");
            }
        }
    }

    #[test]
    fn no_two_roles_share_both_fill_and_edge_on_screen() {
        let mut fills: Vec<&str> = ROLES.iter().map(|role| colour(Ink::Wall(*role), Scheme::Paper)).collect();
        fills.sort_unstable();
        fills.dedup();
        assert_eq!(fills.len(), ROLES.len());
    }
}
