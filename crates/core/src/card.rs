//! The card beside the sheet: what a chosen part does, in words and figures, ready to show.
//!
//! Made of text; it knows no page. The words come from `words`.

use serde::Serialize;

use crate::ids::ElementId;
use crate::plan::Plan;
use crate::trace::{Role, Trace};

/// What is shown about a chosen part.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Card {
    /// What it is called: "Inside wall W5".
    pub title: String,
    /// One sentence of verdict.
    pub sentence: String,
    /// How sure, and on what it hangs.
    pub sure: String,
    /// Its stretches, for a wall.
    pub stretches: Vec<StretchLine>,
    /// Why, in order of weight.
    pub why: Vec<Why>,
    /// Figures.
    pub figures: Vec<Figure>,
    /// From roof to soil.
    pub ladder: Vec<Rung>,
    /// What to know whatever the role.
    pub watch: Vec<String>,
    /// What to look at next.
    pub look: Vec<String>,
}

/// One stretch of a wall in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StretchLine {
    /// Its role.
    pub role: Role,
    /// Its badge.
    pub badge: char,
    /// "from 0' 0\" to 12' 0\": carries the floor".
    pub text: String,
}

/// One reason in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Why {
    /// The sentence.
    pub text: String,
    /// How the fact is known: "seen", "assumed"; empty if it is drawn on the plan.
    pub known: String,
    /// Whether it speaks against the wall carrying anything.
    pub against: bool,
}

/// One figure with its unit and where it comes from.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Figure {
    /// "Tributary width, ceiling".
    pub label: String,
    /// "12' 0\"".
    pub value: String,
    /// "half of 12' 0\" + half of 12' 0\"".
    pub how: String,
}

/// One rung of the path ladder.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rung {
    /// What it is: "Centre wall".
    pub title: String,
    /// What arrives: "6,840 lb" or "240 plf".
    pub figure: String,
    /// What it rests on, how: "posts 6' 0\" apart".
    pub note: String,
    /// Whether the load has nowhere to go from here.
    pub gap: bool,
    /// Its role, if it is a wall, for its colour.
    pub role: Option<Role>,
    /// The part, to choose it with a tap.
    pub part: Option<ElementId>,
}

/// The card of a chosen part; none if the plan does not hold it.
#[must_use]
pub fn card(plan: &Plan, trace: &Trace, part: ElementId) -> Option<Card> {
    let _ = (plan.element(part)?, trace);
    Some(Card::default())
}
