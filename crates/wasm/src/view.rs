//! What of a plan is shown, and how: level, scale, choice, what is being drawn. Never saved with the plan.

use std::rc::Rc;

use joistwise_core::card::By;
use joistwise_core::geometry::Spot;
use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::path::Path;
use joistwise_core::plan::Point;
use joistwise_core::tape::Tape;
use joistwise_core::units::{Feet, Ticks};

/// A place on the canvas in CSS pixels, from its top left corner.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Screen {
    /// To the right.
    pub x: f64,
    /// Down.
    pub y: f64,
}

/// Which inks are used.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Scheme {
    /// Dark ink on warm paper.
    #[default]
    Paper,
    /// Light ink on a dark ground, for attics.
    Dark,
    /// Black on white, for print and permit.
    Print,
}

/// Whether a layer of the drawing is on the sheet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Layer {
    /// It is drawn and can be chosen.
    #[default]
    Shown,
    /// It is not.
    Hidden,
}

impl Layer {
    /// The other one.
    #[must_use]
    pub const fn other(self) -> Self {
        match self {
            Self::Shown => Self::Hidden,
            Self::Hidden => Self::Shown,
        }
    }
}

/// What the pointer does.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Tool {
    /// Choose and move.
    #[default]
    Pick,
    /// Draw the outside walls.
    Outline,
    /// Draw an inside wall.
    InsideWall,
    /// Put an opening in a wall.
    Opening,
    /// Drag the way the joists run; over an area if a corner-to-corner area was asked for.
    Joists,
    /// Put an opening (stair, chimney) in the deck.
    FloorOpening,
    /// State the roof.
    Roof,
    /// Draw a beam.
    Beam,
    /// Put a post.
    Post,
    /// Put a pad.
    Pad,
    /// Draw a purlin under a roof.
    Purlin,
    /// Put a heavy thing on the floor.
    Thing,
    /// Note a notch or hole in a joist.
    JoistCut,
    /// Draw a rim board, a row of blocking or a ledger.
    Board,
    /// Cut a wall in two.
    Split,
    /// Note what was seen in a place.
    Seen,
    /// Move the sheet.
    Hand,
}

/// Where a look is worth most; its number is its place in the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LookMark {
    /// On which level.
    pub level: LevelId,
    /// Where.
    pub at: Point,
}

/// What is half drawn: shown before it is taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Drafting {
    /// Nothing.
    #[default]
    Nothing,
    /// Corners set so far and where the next would land.
    Corners {
        /// Corners set so far.
        set: Vec<Point>,
        /// Where the next would land.
        next: Point,
        /// Whether taking `next` closes the outline.
        closes: bool,
    },
    /// A line from its first end to where the second would land: a wall, a beam.
    Line {
        /// First end.
        from: Point,
        /// Where the second would land.
        to: Point,
    },
    /// An arrow along the way joists run.
    Arrow {
        /// Tail.
        from: Point,
        /// Head.
        to: Point,
    },
    /// An area from corner to corner.
    Area {
        /// One corner.
        from: Point,
        /// The corner across.
        to: Point,
    },
    /// One point: a post, a pad, an opening's middle, a cut.
    Dot {
        /// Where it would land.
        at: Point,
    },
}

/// What a point snaps to; shown as a mark with a word beside it before it is taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SnapMark {
    /// Where.
    pub at: Point,
    /// To what: "end", "middle of wall", "on wall", "in line", "grid 6 in".
    pub word: &'static str,
    /// A line that it is in line with, if any.
    pub guide: Option<(Point, Point)>,
}

/// The window on the plan.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// CSS pixels in a foot.
    pub scale: f64,
    /// The place of the plan at the middle of the canvas.
    pub centre: Spot,
    /// Width of the canvas in CSS pixels.
    pub width: f64,
    /// Height of the canvas in CSS pixels.
    pub height: f64,
    /// Device pixels in a CSS pixel.
    pub dpr: f64,
}

impl Default for View {
    fn default() -> Self {
        let centre = Spot { x: Feet(18.0), y: Feet(12.0) };
        Self { scale: 16.0, centre, width: 800.0, height: 600.0, dpr: 1.0 }
    }
}

impl View {
    /// Where a place of the plan is on the canvas: east is right, north is up.
    #[must_use]
    pub fn screen_from_plan(&self, at: Spot) -> Screen {
        Screen {
            x: self.width / 2.0 + (at.x.0 - self.centre.x.0) * self.scale,
            y: self.height / 2.0 - (at.y.0 - self.centre.y.0) * self.scale,
        }
    }

    /// What place of the plan is under a place of the canvas.
    #[must_use]
    pub fn plan_from_screen(&self, at: Screen) -> Spot {
        Spot {
            x: Feet(self.centre.x.0 + (at.x - self.width / 2.0) / self.scale),
            y: Feet(self.centre.y.0 - (at.y - self.height / 2.0) / self.scale),
        }
    }

    /// The same, on the plan's ticks; none far outside of any plan.
    #[must_use]
    pub fn point_from_screen(&self, at: Screen) -> Option<Point> {
        let spot = self.plan_from_screen(at);
        Some(Point::new(Ticks::from_decimal_feet(spot.x)?, Ticks::from_decimal_feet(spot.y)?))
    }
}

/// Everything about the drawing that is not the plan.
#[derive(Clone, Debug, PartialEq)]
pub struct ViewState {
    /// By what the card gives its figures.
    pub by: By,
    /// The window on the plan.
    pub view: View,
    /// The level on the sheet; the one below shows through.
    pub level: LevelId,
    /// What is chosen.
    pub chosen: Option<ElementId>,
    /// Which stretch of the chosen wall is looked at alone.
    pub stretch: Option<usize>,
    /// Where a weight is put down on the joists, to see where it goes; nothing is chosen then.
    pub put_down: Option<Point>,
    /// The path of what is chosen or put down.
    pub path: Option<Rc<Path>>,
    /// Whether the roof is on the sheet.
    pub roof: Layer,
    /// What the pointer is over.
    pub hover: Option<ElementId>,
    /// What the pointer does.
    pub tool: Tool,
    /// What is half drawn.
    pub drafting: Drafting,
    /// What the pointer would snap to.
    pub snap: Option<SnapMark>,
    /// Which inks.
    pub scheme: Scheme,
    /// Which tape lengths are printed for.
    pub tape: Tape,
    /// Whether the drawing has the keyboard: a cross marks where the next key acts.
    pub key_cursor: Option<Point>,
    /// Height in CSS pixels at the bottom of the canvas that a sheet of the page covers.
    pub covered_below: f64,
    /// Where to look next, best first.
    pub looks: Vec<LookMark>,
    /// The ends of the stretch that is studied.
    pub studied: Option<(Point, Point)>,
}
