//! The sheet while it is drawn: plan, level and view at hand, shapes in order, words still to be placed.

use joistwise_core::geometry::Spot;
use joistwise_core::ids::ElementId;
use joistwise_core::loads::{LineLoads, Weights, heaviest};
use joistwise_core::plan::{Level, Plan, Point};
use joistwise_core::tape;
use joistwise_core::trace::Trace;
use joistwise_core::units::{Feet, Plf, Pounds, Ticks};

use super::body::{Body, bodies};
use super::labels::{Box, Rank, Words};
use super::vector::hatch;
use super::{Anchor, Backing, Label, Scene, Shape, Weight};
use crate::ink::{FINE, Fill, Ink, Stroke};
use crate::view::{Scheme, Screen, ViewState};

/// Size of most labels in CSS pixels.
pub(crate) const TEXT: f64 = 12.0;
/// Size of notes.
pub(crate) const SMALL: f64 = 11.0;
/// Size of dimensions.
pub(crate) const LARGE: f64 = 13.0;

/// A sheet while it is drawn.
pub(crate) struct Sheet<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) level: &'a Level,
    pub(crate) trace: &'a Trace,
    pub(crate) state: &'a ViewState,
    /// The closed outlines of the level.
    pub(crate) outlines: Vec<Vec<Point>>,
    /// The walls of the level as bodies on the canvas.
    pub(crate) bodies: Vec<Body>,
    /// What words have been asked for.
    pub(crate) words: Words,
    marks: Vec<(Screen, f64)>,
    shapes: Vec<Shape>,
    /// What lies under the words, once something lies over them.
    under: Vec<Shape>,
}

impl<'a> Sheet<'a> {
    /// An empty sheet of one level.
    pub(crate) fn new(plan: &'a Plan, level: &'a Level, trace: &'a Trace, state: &'a ViewState) -> Self {
        let outlines = level.outlines();
        let bodies = bodies(level, &outlines, &state.view);
        Self {
            plan,
            level,
            trace,
            state,
            outlines,
            bodies,
            words: Words::default(),
            marks: Vec::new(),
            shapes: Vec::new(),
            under: Vec::new(),
        }
    }

    /// Everything drawn, the words on top, and over them what was drawn since [`Self::over_words`].
    pub(crate) fn done(self) -> Scene {
        let (mut shapes, over) =
            if self.under.is_empty() { (self.shapes, self.under) } else { (self.under, self.shapes) };
        shapes.extend(self.words.settle(self.state.view.width, self.state.view.height));
        shapes.extend(over);
        Scene(shapes)
    }

    /// From here on, shapes lie over the words.
    pub(crate) fn over_words(&mut self) {
        self.under = core::mem::take(&mut self.shapes);
    }

    /// Where a place of the plan is on the canvas.
    pub(crate) fn at(&self, spot: impl Into<Spot>) -> Screen {
        self.state.view.screen_from_plan(spot.into())
    }

    /// A length of the plan in CSS pixels.
    pub(crate) const fn px(&self, feet: Feet) -> f64 {
        feet.0 * self.state.view.scale
    }

    /// CSS pixels in a foot.
    pub(crate) const fn scale(&self) -> f64 {
        self.state.view.scale
    }

    /// Whether the sheet is for print: no grid, no washes.
    pub(crate) fn prints(&self) -> bool {
        self.state.scheme == Scheme::Print
    }

    /// Whether a part is chosen.
    pub(crate) fn is_chosen(&self, part: ElementId) -> bool {
        self.state.chosen == Some(part)
    }

    /// A length as the chosen tape reads it, to the nearest quarter inch: no derived width is known better.
    pub(crate) fn tape(&self, length: Feet) -> String {
        let quarter = Ticks::from_inches((length.0 * 48.0).round() / 4.0);
        tape::print(quarter.unwrap_or_default(), self.state.tape)
    }

    /// The heaviest combination of a line load.
    pub(crate) fn plf(&self, loads: &LineLoads) -> Plf {
        heaviest(loads, self.plan.site()).0
    }

    /// The heaviest combination of a point load.
    pub(crate) fn pounds(&self, weights: &Weights) -> Pounds {
        heaviest(weights, self.plan.site()).0
    }

    /// The wall as a body, if the level holds it.
    pub(crate) fn body(&self, part: ElementId) -> Option<&Body> {
        self.bodies.iter().find(|body| ElementId::Wall(body.wall) == part)
    }

    /// The part of a line that is on the free part of the canvas.
    pub(crate) fn visible(&self, a: Screen, b: Screen) -> Option<(Screen, Screen)> {
        let view = &self.state.view;
        let step = b - a;
        let (mut from, mut to) = (0.0_f64, 1.0_f64);
        let bounds = [(step.x, a.x, view.width), (step.y, a.y, view.height - self.state.covered_below)];
        for (step, start, most) in bounds {
            if step.abs() < 1e-9 {
                if start < 0.0 || start > most {
                    return None;
                }
                continue;
            }
            let (one, two) = (-start / step, (most - start) / step);
            from = from.max(one.min(two));
            to = to.min(one.max(two));
        }
        (to > from).then_some((a + step * from, a + step * to))
    }

    /// Draws a shape over what is there.
    pub(crate) fn draw(&mut self, shape: Shape) {
        self.shapes.push(shape);
    }

    /// Draws one piece of line.
    pub(crate) fn line(&mut self, a: Screen, b: Screen, stroke: Stroke) {
        self.lines(vec![[a, b]], stroke);
    }

    /// Draws pieces of line, if there are any.
    pub(crate) fn lines(&mut self, pieces: Vec<[Screen; 2]>, stroke: Stroke) {
        if !pieces.is_empty() {
            self.draw(Shape::Lines { pieces, stroke });
        }
    }

    /// Draws a line through points.
    pub(crate) fn trail(&mut self, points: Vec<Screen>, stroke: Stroke) {
        self.draw(Shape::Path { points, closed: false, fill: None, stroke: Some(stroke) });
    }

    /// Draws a polygon.
    pub(crate) fn polygon(&mut self, points: Vec<Screen>, fill: Option<Fill>, stroke: Option<Stroke>) {
        self.draw(Shape::Path { points, closed: true, fill, stroke });
    }

    /// Draws a hatch inside a polygon; it stays put when the sheet moves.
    pub(crate) fn hatch(&mut self, points: &[Screen], along: Screen, spacing: f64, stroke: Stroke) {
        self.hatch_from(points, self.at(Spot::default()), along, spacing, stroke);
    }

    /// Draws a hatch inside a polygon, counted from a place.
    pub(crate) fn hatch_from(&mut self, points: &[Screen], from: Screen, along: Screen, spacing: f64, stroke: Stroke) {
        self.lines(hatch(points, from, along.unit(), spacing), stroke);
    }

    /// Draws a circle.
    pub(crate) fn circle(&mut self, at: Screen, radius: f64, fill: Option<Fill>, stroke: Option<Stroke>) {
        self.draw(Shape::Circle { at, radius, fill, stroke });
    }

    /// Draws a letter on a disc, and keeps words off it.
    pub(crate) fn badge(&mut self, at: Screen, radius: f64, letter: &str, fill: Ink, edge: Ink, ink: Ink) {
        self.circle(at, radius, Some(Fill::new(fill)), Some(Stroke::new(edge, FINE)));
        let label = Label { weight: Weight::Strong, backing: Backing::Bare, ..label(at, letter, ink, SMALL) };
        self.draw(Shape::Label(label));
        self.mark(at, radius);
    }

    /// Keeps words and badges off a disc.
    pub(crate) fn mark(&mut self, at: Screen, radius: f64) {
        self.marks.push((at, radius));
        self.words.keep_off(Box::around(&[at], radius));
    }

    /// Whether a disc would lie over a badge, a post or a handle.
    pub(crate) fn is_crowded(&self, at: Screen, radius: f64) -> bool {
        self.marks.iter().any(|(other, theirs)| (*other - at).length() < radius + theirs)
    }

    /// Asks for a label.
    pub(crate) fn wish(&mut self, label: Label, rank: Rank, places: Vec<Screen>) {
        self.words.wish(label, rank, places);
    }
}

/// A level label with a rim of paper, its middle at a place.
pub(crate) fn label(at: Screen, text: &str, ink: Ink, size: f64) -> Label {
    Label {
        at,
        text: text.to_owned(),
        ink,
        size,
        weight: Weight::Plain,
        anchor: Anchor::Middle,
        along: (1.0, 0.0),
        backing: Backing::Halo,
    }
}

/// The same label, written along a direction so that it can be read from below or from the right.
pub(crate) fn along(label: Label, way: Screen) -> Label {
    let way = way.readable();
    Label { along: (way.x, way.y), ..label }
}

/// A whole number with commas between thousands.
pub(crate) fn whole(number: f64) -> String {
    let digits = format!("{:.0}", number.abs());
    let mut out = String::new();
    for (i, digit) in digits.chars().enumerate() {
        if i > 0 && (digits.len() - i) % 3 == 0 {
            out.push(',');
        }
        out.push(digit);
    }
    if number < -0.5 { format!("-{out}") } else { out }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_carry_commas_between_thousands() {
        assert_eq!(whole(6840.4), "6,840");
        assert_eq!(whole(959.6), "960");
        assert_eq!(whole(-1_234_567.0), "-1,234,567");
        assert_eq!(whole(-0.3), "0");
    }
}
