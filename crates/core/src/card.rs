//! The card beside the sheet: what a chosen part does, in words and figures, ready to show.
//!
//! Made of text; it knows no page. Sentences about single facts come from `words`, the path from `ladder`.

use serde::{Deserialize, Serialize};

use crate::ids::ElementId;
use crate::ladder;
use crate::loads::Combination;
use crate::loads::layers::Listed;
use crate::path::{Path, Start, path};
use crate::plan::Plan;
use crate::tape::Tape;
use crate::trace::{Role, Trace};
use crate::units::Feet;
use crate::words::{self, Words};

mod beam;
mod board;
mod cut;
mod deck;
mod figures;
mod judged;
mod opening;
mod roof;
mod seen;
mod soil;
mod stands;
mod wall;
mod workers;

pub use judged::sureness;

/// By what the figures of a card are given: a choice of who looks, never of the plan. Sentences and checks go by the
/// heaviest combination whatever is chosen.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum By {
    /// By the heaviest combination of each.
    #[default]
    Heaviest,
    /// Each kind of load for itself.
    Apart,
    /// By one combination.
    #[serde(untagged)]
    One(Combination),
}

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
    /// Of what the ladder is, if not of the whole part.
    pub ladder_of: String,
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
    /// From end `a`.
    pub start: Feet,
    /// From end `a`.
    pub end: Feet,
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
    /// "6' 0\" on one side + 6' 0\" on the other: half of each span".
    pub how: String,
}

/// On which side of the start a rung is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// What arrives.
    Up,
    /// The start itself.
    #[default]
    Here,
    /// Where it goes.
    Down,
}

/// One rung of the path ladder.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Rung {
    /// On which side of the start.
    pub way: Way,
    /// What it is: "Centre wall".
    pub title: String,
    /// The name of its level.
    pub level: String,
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

/// The card of a chosen part in feet and inches; none if the plan does not hold it.
#[must_use]
pub fn card(plan: &Plan, trace: &Trace, part: ElementId) -> Option<Card> {
    card_in(plan, trace, part, Tape::Feet)
}

/// The card of a chosen part, lengths printed for a tape; none if the plan does not hold it.
#[must_use]
pub fn card_in(plan: &Plan, trace: &Trace, part: ElementId, tape: Tape) -> Option<Card> {
    let path = path(plan, trace, &Start::Part(part));
    card_with(plan, trace, part, path.as_ref(), tape)
}

/// The card of a chosen part with the path of it, or of a stretch of it; none if the plan does not hold it.
#[must_use]
pub fn card_with(plan: &Plan, trace: &Trace, part: ElementId, path: Option<&Path>, tape: Tape) -> Option<Card> {
    card_by(plan, trace, part, path, tape, By::Heaviest)
}

/// The same with its figures by a choice.
#[must_use]
pub fn card_by(plan: &Plan, trace: &Trace, part: ElementId, path: Option<&Path>, tape: Tape, by: By) -> Option<Card> {
    let words = Words::new(plan, tape);
    let mut card = bare(plan, trace, part, tape, by)?;
    if let Some(path) = path {
        card.ladder = ladder::ladder(plan, trace, &words, path);
        if let Start::Run { from, to, .. } = path.start {
            card.ladder_of = format!("{} to {} alone", words.length(from), words.length(to));
        }
    }
    Some(card)
}

/// The card of a weight put down on the joists over a level; none for another path.
#[must_use]
pub fn card_of_weight(plan: &Plan, trace: &Trace, path: &Path, tape: Tape) -> Option<Card> {
    let Start::Deck { level, weight, .. } = path.start else { return None };
    let words = Words::new(plan, tape);
    let pounds = words::pounds(weight);
    let sentence = match (path.joists.as_slice(), path.gap() > 1e-6) {
        ([], _) => "No joist is drawn here that could take it.".to_owned(),
        (_, true) => format!("{:.0} % of it has nowhere to go.", path.gap() * 100.0),
        ([_], _) => "One joist takes it to what it rests on.".to_owned(),
        (joists, _) => format!("{} joists share it and take it to what they rest on.", joists.len()),
    };
    Some(Card {
        title: format!("{pounds} put down here, on the joists over {}", words.level(level)),
        sentence,
        sure: "To see where a weight goes: the house is not changed. Joists, beams and headers are taken to share it \
               by statics, with no help from the boards across them."
            .to_owned(),
        ladder: ladder::ladder(plan, trace, &words, path),
        ..Card::default()
    })
}

/// The card of a chosen part without its ladder; none if the plan does not hold it.
#[must_use]
pub fn card_alone(plan: &Plan, trace: &Trace, part: ElementId, tape: Tape) -> Option<Card> {
    bare(plan, trace, part, tape, By::Heaviest)
}

fn bare(plan: &Plan, trace: &Trace, part: ElementId, tape: Tape, by: By) -> Option<Card> {
    plan.element(part)?;
    let work = Work { plan, trace, words: Words::new(plan, tape), by };
    let mut card = match part {
        ElementId::Wall(id) => work.wall(id)?,
        ElementId::Beam(id) => work.beam(id)?,
        ElementId::Post(id) => work.post(id)?,
        ElementId::Field(id) => work.field(id)?,
        ElementId::Roof(id) => work.roof(id)?,
        ElementId::Purlin(id) => work.purlin(id)?,
        ElementId::Thing(id) => work.thing(id)?,
        ElementId::Opening(id) => work.opening(id)?,
        ElementId::FloorOpening(_) => Card {
            sentence: "Joists end on headers at it; doubled joists beside it take the headers' ends.".to_owned(),
            ..Card::default()
        },
        ElementId::Footing(id) => work.footing(id)?,
        ElementId::Observation(_) => work.observation(part)?,
        ElementId::JoistCut(id) => work.cut(id)?,
        ElementId::Board(id) => work.board(id)?,
    };
    card = work.with_strength(card, part);
    card.title = work.words.name(part);
    Some(card)
}

struct Work<'a> {
    plan: &'a Plan,
    trace: &'a Trace,
    words: Words<'a>,
    by: By,
}

/// Where a dead load comes from: typed, layer by layer with its source, or the usual one's source.
fn built_up(typed: bool, layers: &[Listed], usual: &str) -> String {
    if typed {
        return "typed for this house".to_owned();
    }
    if layers.is_empty() {
        return usual.to_owned();
    }
    let one = |it: &Listed| {
        let layer = it.layer();
        let mark = words::from_memory(layer.mark);
        format!("{} {} ({}{mark})", layer.what, words::psf(layer.psf), layer.source)
    };
    layers.iter().map(one).collect::<Vec<_>>().join(" + ")
}

/// "the roof, the ceiling and a wall above".
fn listed(parts: &[&str]) -> String {
    match parts {
        [] => "load".to_owned(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}
