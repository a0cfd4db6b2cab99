//! Figures of a card: widths, line loads, point loads, and how they are made up.

use core::ops::{Add, Mul};

use super::{By, Figure, Work};
use crate::ids::RoofId;
use crate::loads::{ByKind, Kind, LineLoads, Weights, heaviest};
use crate::trace::{Feed, Origin, PointLoad};
use crate::units::{Feet, Plf};
use crate::words;

impl Work<'_> {
    /// Tributary and effective width for each origin, with their range along the wall.
    pub(super) fn widths(&self, feeds: &[Feed]) -> Vec<Figure> {
        let mut figures = Vec::new();
        for origin in [Origin::Roof, Origin::Floor, Origin::Ceiling] {
            let these: Vec<&Feed> =
                feeds.iter().filter(|feed| feed.origin == origin && feed.width().0 > 1e-6).collect();
            let Some(widest) = these.iter().copied().reduce(|a, b| if b.width() > a.width() { b } else { a }) else {
                continue;
            };
            let least = these.iter().map(|feed| feed.width()).fold(widest.width(), Feet::min);
            let word = words::origin(origin);
            let range = |least: Feet, most: Feet| {
                let (a, b) = (self.words.length(least), self.words.length(most));
                if a == b { a } else { format!("{a} to {b}") }
            };
            figures.push(Figure {
                label: format!("Tributary width, {word}"),
                value: range(least, widest.width()),
                how: format!(
                    "{} on the left + {} on the right, seen from its first end: half of each span, overhangs whole",
                    self.words.length(widest.left),
                    self.words.length(widest.right)
                ),
            });
            let most = these.iter().map(|feed| feed.effective).fold(Feet::ZERO, Feet::max);
            let least = these.iter().map(|feed| feed.effective).fold(most, Feet::min);
            figures.push(Figure {
                label: format!("Effective width, {word}"),
                value: range(least, most),
                how: "what the reactions of the real joists amount to".to_owned(),
            });
        }
        figures
    }

    /// The range of the line load along a part, and how the heaviest is made up.
    pub(super) fn line_figure(&self, loads: &[LineLoads]) -> Option<Figure> {
        let heavy = |loads: &LineLoads| self.amount(loads);
        let most = loads.iter().copied().reduce(|a, b| if heavy(&b) > heavy(&a) { b } else { a })?;
        let least = loads.iter().map(heavy).fold(heavy(&most), Plf::min);
        let value = if self.by == By::Apart || heavy(&most).0 - least.0 < 0.5 {
            self.value(&most, "plf")
        } else {
            format!("{} to {}", words::thousands(least.0), words::plf(heavy(&most)))
        };
        Some(Figure { label: "Line load".to_owned(), value, how: self.made_up(&most, "plf") })
    }

    /// What a quantity comes to by the chosen combination, by the heaviest where kinds stand apart.
    fn amount<T>(&self, loads: &ByKind<T>) -> T
    where
        T: Copy + PartialOrd + Add<Output = T> + Mul<f64, Output = T>,
    {
        match self.by {
            By::Heaviest | By::Apart => heaviest(loads, self.plan.site()).0,
            By::One(combination) => combination.of(loads, self.plan.site()),
        }
    }

    /// A quantity as a figure's value: one number, or each kind apart.
    pub(super) fn value<T>(&self, loads: &ByKind<T>, unit: &str) -> String
    where
        T: Copy + Into<f64>,
    {
        let numbers: ByKind<f64> = loads.map(Into::into);
        match self.by {
            By::Apart => kinds(&numbers, unit),
            _ => format!("{} {unit}", words::thousands(self.amount(&numbers))),
        }
    }

    /// "dead 60 + attic live 120 plf; heaviest: D + L".
    pub(super) fn made_up<T: Copy + Into<f64>>(&self, loads: &ByKind<T>, unit: &str) -> String {
        let numbers: ByKind<f64> = loads.map(Into::into);
        let edition = self.plan.site().snow_edition;
        match self.by {
            By::Heaviest => {
                let combination = heaviest(&numbers, self.plan.site()).1;
                format!("{}; heaviest: {}", kinds(&numbers, unit), words::combination(combination, edition))
            }
            By::Apart => "each kind apart: no combination of them".to_owned(),
            By::One(combination) => {
                format!("{}; by {}", kinds(&numbers, unit), words::combination(combination, edition))
            }
        }
    }

    pub(super) fn point_figure(&self, point: &PointLoad) -> Figure {
        let label = format!("{} at {}", self.words.node(point.from), self.words.length(point.at));
        self.total(&label, point.weights)
    }

    pub(super) fn total(&self, label: &str, weights: Weights) -> Figure {
        Figure { label: label.to_owned(), value: self.value(&weights, "lb"), how: self.made_up(&weights, "lb") }
    }

    pub(super) fn thrust(&self, id: RoofId) -> Option<Figure> {
        let roof = self.trace.roofs.iter().find(|it| it.roof == id)?;
        (heaviest(&roof.thrust, self.plan.site()).0.0 > 0.5).then(|| Figure {
            label: "Thrust of the rafters".to_owned(),
            value: self.value(&roof.thrust, "plf"),
            how: "outward on each foot of eave, held by the ties: moment at the ridge / rise".to_owned(),
        })
    }
}

/// "dead 60 + attic live 120 plf".
fn kinds(numbers: &ByKind<f64>, unit: &str) -> String {
    let parts = Kind::ALL.into_iter().filter(|kind| numbers.get(*kind).abs() >= 0.5);
    let parts: Vec<String> =
        parts.map(|kind| format!("{} {}", words::kind(kind), words::thousands(numbers.get(kind)))).collect();
    if parts.is_empty() { format!("0 {unit}") } else { format!("{} {unit}", parts.join(" + ")) }
}
