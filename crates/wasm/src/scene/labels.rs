//! Words on the sheet: each wishes for a place, the important ones first, and the rest give way.
//!
//! Widths are estimated, not measured, so that SVG and canvas lay out alike.

use super::vector::sides;
use super::{Anchor, Label, Shape, Weight};
use crate::ink::{Fill, Ink, Stroke, THIN};
use crate::view::Screen;
use joistwise_core::order::InOrder as _;

/// Mean width of a character as a share of the letters' size.
const CHARACTER: f64 = 0.56;
/// How much wider bold letters are.
const BOLD: f64 = 1.1;

/// How much a label matters, most first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Rank {
    /// Warnings: written whatever is there.
    Warning,
    /// Figures of what is chosen.
    Figure,
    /// Dimensions.
    Dimension,
    /// What parts are.
    Name,
    /// Notes that may be left out.
    Note,
}

/// A label with the places that would do, best first.
#[derive(Clone, Debug)]
pub(crate) struct Wish {
    /// The label at its best place.
    pub(crate) label: Label,
    /// How much it matters.
    pub(crate) rank: Rank,
    /// Other places that would do.
    pub(crate) places: Vec<Screen>,
}

/// An upright box on the canvas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Box {
    low: Screen,
    high: Screen,
}

impl Box {
    /// Around some places, with a margin.
    pub(crate) fn around(places: &[Screen], margin: f64) -> Self {
        let far = Screen::new(f64::INFINITY, f64::INFINITY);
        let start = Self { low: far, high: far * -1.0 };
        let all = places.iter().fold(start, |all, at| Self {
            low: Screen::new(all.low.x.min(at.x), all.low.y.min(at.y)),
            high: Screen::new(all.high.x.max(at.x), all.high.y.max(at.y)),
        });
        let margin = Screen::new(margin, margin);
        Self { low: all.low - margin, high: all.high + margin }
    }

    fn holds(&self, other: &Self) -> bool {
        self.low.x <= other.low.x
            && other.high.x <= self.high.x
            && self.low.y <= other.low.y
            && other.high.y <= self.high.y
    }

    fn meets(&self, other: &Self) -> bool {
        self.low.x < other.high.x && other.low.x < self.high.x && self.low.y < other.high.y && other.low.y < self.high.y
    }
}

/// What is taken on the sheet, and what still wishes for a place.
#[derive(Clone, Debug, Default)]
pub(crate) struct Words {
    wishes: Vec<Wish>,
    taken: Vec<Box>,
}

impl Words {
    /// Adds a label with other places that would do.
    pub(crate) fn wish(&mut self, label: Label, rank: Rank, places: Vec<Screen>) {
        self.wishes.push(Wish { label, rank, places });
    }

    /// Keeps labels off a place.
    pub(crate) fn keep_off(&mut self, taken: Box) {
        self.taken.push(taken);
    }

    /// Keeps labels off a polygon, in boxes small enough to follow a slanted one.
    pub(crate) fn keep_off_along(&mut self, a: Screen, b: Screen, half: f64) {
        let whole = b - a;
        let level = whole.x.abs() < 1.0 || whole.y.abs() < 1.0;
        let count = if level { 1.0 } else { (whole.length() / 16.0).ceil().clamp(1.0, 64.0) };
        let mut step = 0.0;
        while step < count {
            let (from, to) = (a + whole * (step / count), a + whole * ((step + 1.0) / count));
            self.keep_off(Box::around(&[from, to], half));
            step += 1.0;
        }
    }

    /// Whether a box is free.
    pub(crate) fn is_free(&self, wanted: &Box) -> bool {
        !self.taken.iter().any(|taken| taken.meets(wanted))
    }

    /// The labels that found a place, those that matter least first so that the others lie on top.
    pub(crate) fn settle(mut self, width: f64, height: f64) -> Vec<Shape> {
        let wishes = core::mem::take(&mut self.wishes);
        let mut ranked: Vec<Wish> = wishes;
        ranked.order_by_key(|wish| wish.rank);
        let canvas = Box { low: Screen::default(), high: Screen::new(width, height) };
        let mut placed = Vec::new();
        for Wish { label, rank, places } in ranked {
            let all = core::iter::once(label.at).chain(places).map(|at| Label { at, ..label.clone() });
            let free: Vec<Label> = all.filter(|label| self.is_free(&extent(label))).collect();
            // A place where all of it is on the canvas, if there is one.
            let whole = free.iter().find(|label| canvas.holds(&extent(label)));
            let label = match whole.or(free.first()).cloned() {
                Some(label) => label,
                None if rank == Rank::Warning => label,
                None => continue,
            };
            let extent = extent(&label);
            if extent.meets(&canvas) {
                self.keep_off(extent);
                placed.push(Shape::Label(label));
            }
        }
        placed.reverse();
        placed
    }
}

/// How wide a text is set, in CSS pixels.
pub(crate) fn width(text: &str, size: f64) -> f64 {
    let count = u32::try_from(text.chars().count()).unwrap_or(u32::MAX);
    f64::from(count) * size * CHARACTER
}

/// The four corners of a label, with a margin around its letters.
pub(crate) fn corners(label: &Label, margin: f64) -> [Screen; 4] {
    let along = Screen::new(label.along.0, label.along.1);
    let down = along.left() * -1.0;
    let wide = width(&label.text, label.size) * if label.weight == Weight::Strong { BOLD } else { 1.0 };
    let start = match label.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -wide / 2.0,
        Anchor::End => -wide,
    };
    let half = label.size * 0.55 + margin;
    let corner = |x: f64, y: f64| label.at + along * x + down * y;
    let (from, to) = (start - margin, start + wide + margin);
    [corner(from, -half), corner(to, -half), corner(to, half), corner(from, half)]
}

fn extent(label: &Label) -> Box {
    Box::around(&corners(label, 0.0), 1.0)
}

/// A label on a plate of paper with a thin edge of its own ink.
pub(crate) fn on_plate(label: Label) -> [Shape; 2] {
    let points: Vec<Screen> = sides(&corners(&label, 4.0)).map(|(corner, _)| corner).collect();
    let edge = Stroke::new(label.ink, THIN).faint(0.5);
    let plate = Shape::Path { points, closed: true, fill: Some(Fill::wash(Ink::Paper, 0.94)), stroke: Some(edge) };
    [plate, Shape::Label(label)]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scene::Backing;

    fn label(text: &str, x: f64) -> Label {
        Label {
            at: Screen::new(x, 50.0),
            text: text.to_owned(),
            ink: Ink::Words,
            size: 12.0,
            weight: Weight::Plain,
            anchor: Anchor::Middle,
            along: (1.0, 0.0),
            backing: Backing::Bare,
        }
    }

    fn texts(words: Words) -> Vec<String> {
        let shapes = words.settle(400.0, 100.0);
        let text = |shape: &Shape| if let Shape::Label(label) = shape { Some(label.text.clone()) } else { None };
        shapes.iter().filter_map(text).collect()
    }

    #[test]
    fn a_note_gives_way_to_a_figure_and_a_warning_to_nothing() {
        let mut words = Words::default();
        words.wish(label("note", 100.0), Rank::Note, Vec::new());
        words.wish(label("figure", 110.0), Rank::Figure, Vec::new());
        words.wish(label("path gap", 110.0), Rank::Warning, Vec::new());
        words.wish(label("free", 300.0), Rank::Note, Vec::new());
        assert_eq!(texts(words), ["free", "path gap"]);
    }

    #[test]
    fn a_label_moves_to_its_second_place_if_the_first_is_taken() {
        let mut words = Words::default();
        words.keep_off(Box::around(&[Screen::new(100.0, 50.0)], 5.0));
        words.wish(label("12' 0\"", 100.0), Rank::Figure, vec![Screen::new(200.0, 50.0)]);
        let placed = words.settle(400.0, 100.0);
        assert!(matches!(placed.as_slice(), [Shape::Label(label)] if label.at == Screen::new(200.0, 50.0)));
    }

    #[test]
    fn what_is_off_the_canvas_is_not_written() {
        let mut words = Words::default();
        words.wish(label("far", 900.0), Rank::Warning, Vec::new());
        assert!(texts(words).is_empty());
    }
}
