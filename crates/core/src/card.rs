//! The card beside the sheet: what a chosen part does, in words and figures, ready to show.
//!
//! Made of text; it knows no page. Sentences about single facts come from `words`, the path from `ladder`.

use serde::Serialize;

use crate::ids::{BeamId, ElementId, FieldId, PostId, PurlinId, RoofId, ThingId, WallId};
use crate::ladder::{self, load_word};
use crate::loads::layers::Listed;
use crate::loads::{ByKind, Kind, LineLoads, Mark, Weights, heaviest};
use crate::observe::proof;
use crate::path::{Path, Start, path};
use crate::plan::{Element, Grade, Joints, Plan, RoofForm, RoofFrame, Side, Stands, Use};
use crate::tape::Tape;
use crate::trace::{Caution, Feed, Node, Origin, PointLoad, Reason, RibKind, RibTrace, Role, Trace, WallTrace};
use crate::units::{Feet, Plf, Pounds};
use crate::words::{self, Words, capital};

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
    let words = Words::new(plan, tape);
    let mut card = card_alone(plan, trace, part, tape)?;
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
    plan.element(part)?;
    let work = Work { plan, trace, words: Words::new(plan, tape) };
    let mut card = match part {
        ElementId::Wall(id) => work.wall(id)?,
        ElementId::Beam(id) => work.beam(id)?,
        ElementId::Post(id) => work.post(id)?,
        ElementId::Field(id) => work.field(id)?,
        ElementId::Roof(id) => work.roof(id)?,
        ElementId::Purlin(id) => work.purlin(id)?,
        ElementId::Thing(id) => work.thing(id)?,
        ElementId::Opening(_) => {
            Card { sentence: "What lands over it goes to its two jambs.".to_owned(), ..Card::default() }
        }
        ElementId::FloorOpening(_) => Card {
            sentence: "Joists end on headers at it; doubled joists beside it take the headers' ends.".to_owned(),
            ..Card::default()
        },
        ElementId::Footing(id) => work.footing(id)?,
        ElementId::Observation(_) => work.observation(part)?,
    };
    card.title = work.words.name(part);
    Some(card)
}

struct Work<'a> {
    plan: &'a Plan,
    trace: &'a Trace,
    words: Words<'a>,
}

impl Work<'_> {
    fn wall(&self, id: WallId) -> Option<Card> {
        let wall = self.trace.wall(id)?;
        let line = self.plan.wall(id)?.1;
        let mut reasons: Vec<Reason> = Vec::new();
        for reason in wall.stretches.iter().flat_map(|stretch| &stretch.reasons) {
            if !reasons.contains(reason) {
                reasons.push(*reason);
            }
        }
        let mut figures = self.widths(&wall.feeds);
        figures.extend(self.line_figure(&wall.line.iter().map(|part| part.loads).collect::<Vec<_>>()));
        figures.extend(wall.points.iter().map(|point| self.point_figure(point)));
        figures.push(self.total("On its top in all", wall.top));
        figures.push(Figure {
            label: "Its own weight".to_owned(),
            value: words::pounds(wall.own.dead),
            how: "its face, openings not taken out".to_owned(),
        });
        let roof = self.plan.level(wall.level).into_iter().flat_map(|level| &level.roofs);
        let eave = |roof: &&crate::plan::Roof| reasons.contains(&Reason::RoofStandsOn { roof: roof.id });
        for roof in roof.filter(eave) {
            figures.extend(self.thrust(roof.id));
        }
        let stretches = wall.stretches.iter().map(|stretch| {
            let (from, to) = (self.words.length(stretch.start), self.words.length(stretch.end));
            let text = format!("{from} to {to}: {}", words::role(stretch.role));
            StretchLine {
                role: stretch.role,
                badge: stretch.role.badge(),
                text,
                start: stretch.start,
                end: stretch.end,
            }
        });
        Some(Card {
            sentence: self.verdict(wall, line.side),
            sure: self.sure(wall, &reasons),
            stretches: stretches.collect(),
            why: self.whys(&reasons),
            figures,
            watch: wall.cautions.iter().map(|caution| self.words.caution(caution)).collect(),
            look: self.look(wall, &reasons),
            ..Card::default()
        })
    }

    fn verdict(&self, wall: &WallTrace, side: Side) -> String {
        let mut lands: Vec<&str> = Vec::new();
        let mut stored = false;
        let mut origins: Vec<Origin> = wall.feeds.iter().map(|feed| feed.origin).collect();
        origins.sort_unstable();
        origins.dedup();
        lands.extend(origins.iter().map(|origin| load_word(*origin)));
        for feed in &wall.feeds {
            if let Node::Field(id) = feed.from
                && let Some(Element::Field(field)) = self.plan.element(ElementId::Field(id))
            {
                stored |= field.used_as == Use::AtticStorage;
            }
        }
        if stored {
            lands.push("what is stored over it");
        }
        let reasons = || wall.stretches.iter().flat_map(|stretch| &stretch.reasons);
        if reasons().any(|it| matches!(it, Reason::WallStandsOn { .. } | Reason::WallNearStandsOn { .. })) {
            lands.push("a wall above");
        }
        if reasons().any(|it| matches!(it, Reason::RidgeRestsOn { .. })) {
            lands.push("the ridge beam");
        }
        if reasons().any(|it| matches!(it, Reason::BeamRestsOn { .. } | Reason::BeamLiesOn { .. })) {
            lands.push("a beam");
        }
        if reasons().any(|it| matches!(it, Reason::PostStandsOn { .. })) {
            lands.push("a post above");
        }
        if side == Side::Outside {
            return match lands.as_slice() {
                [] => "This is an outside wall: it counts as bearing, though nothing drawn lands on it yet.".to_owned(),
                lands => format!("This outside wall counts as bearing, and carries {}.", listed(lands)),
            };
        }
        let carrying: Feet = wall.stretches.iter().filter(|it| it.role.carries()).map(|it| it.end - it.start).sum();
        let open: Feet =
            wall.stretches.iter().filter(|it| it.role == Role::NeedsALook).map(|it| it.end - it.start).sum();
        let whole = wall.length.0 - carrying.0 < 0.02;
        let lands = listed(&lands);
        if carrying.0 > 0.0 && whole {
            return format!("This wall carries {lands}.");
        }
        if carrying.0 > 0.0 {
            let rest = if open.0 > 0.0 { "the rest needs a look" } else { "nothing was found that lands on the rest" };
            let (part, all) = (self.words.length(carrying), self.words.length(wall.length));
            return format!("This wall carries {lands} on {part} of its {all}; {rest}.");
        }
        if open.0 > 0.0 {
            return "Not settled yet: until somebody looks, this wall counts as bearing.".to_owned();
        }
        match wall.stretches.iter().filter(|it| it.role == Role::HoldsPoint).count() {
            0 => "Nothing found that lands on this wall.".to_owned(),
            1 => "This wall holds a beam or a post in one place; nothing was found that lands on the rest.".to_owned(),
            n => format!("This wall holds a beam or a post in {n} places; nothing was found that lands on the rest."),
        }
    }

    /// How sure: the weakest fact used, and what was taken for granted.
    fn sure(&self, wall: &WallTrace, reasons: &[Reason]) -> String {
        let mut weakest: Option<Grade> = None;
        let mut laps_open = false;
        let fields = reasons.iter().filter_map(|reason| match reason {
            Reason::JoistsLapOver { field }
            | Reason::JoistsEndOn { field }
            | Reason::JoistsPassOver { field }
            | Reason::JoistsCross { field }
            | Reason::JoistsRunAlong { field }
            | Reason::DirectionNotSeen { field, .. } => Some(*field),
            _ => None,
        });
        for id in fields {
            if let Some(Element::Field(field)) = self.plan.element(ElementId::Field(id)) {
                weakest = Some(weakest.map_or(field.known, |grade| grade.max(field.known)));
                let crosses = reasons.contains(&Reason::JoistsCross { field: id });
                laps_open |= field.joints == Joints::NotSeen && crosses;
            }
        }
        let open = wall.stretches.iter().any(|it| it.role == Role::NeedsALook);
        let mut text = match weakest {
            None if open => return "Nobody has said yet what is overhead.".to_owned(),
            None => "From what is drawn.".to_owned(),
            Some(grade) => format!("The weakest fact used: the way the joists run is {}.", words::grade(grade)),
        };
        if laps_open {
            text.push_str(" Nobody looked whether they lap; traced as if they do.");
        }
        text
    }

    /// What to look at next, from what is open.
    fn look(&self, wall: &WallTrace, reasons: &[Reason]) -> Vec<String> {
        let mut look: Vec<&str> = Vec::new();
        for reason in reasons {
            match reason {
                Reason::NothingStatedOverhead => {
                    look.push("Look through the attic hatch, or lift a board: which way do the joists run over this wall?");
                }
                Reason::DirectionNotSeen { .. } => look.push("See the joists themselves: a small hole in the ceiling settles direction and size."),
                Reason::JoistsCross { .. } => look.push("Look along the top of this wall: do the joists lap on it or run through?"),
                Reason::RoofFrameNotSeen { .. } => look.push("Look at the roof from the attic: rafters or trusses, ridge board or ridge beam, struts down to this wall?"),
                Reason::TrussesNotLookedAt { .. } => look.push("Look at the trusses: metal plates, a bearing tag near the middle, any web cut?"),
                Reason::TrussesSiteBuilt { .. } | Reason::TrussWebCut { .. } | Reason::TrussesBearInside { .. } => look.push("Show the trusses to an engineer before this wall is touched."),
                _ => {}
            }
        }
        if wall.cautions.contains(&Caution::CheckBothSides) {
            look.push("Look along both sides of it, over its whole length.");
        }
        look.dedup();
        look.into_iter().map(str::to_owned).collect()
    }

    /// Each sentence once: two fields alike give one.
    fn whys(&self, reasons: &[Reason]) -> Vec<Why> {
        let mut whys: Vec<Why> = Vec::new();
        for why in reasons.iter().map(|reason| self.why(reason)) {
            if !whys.contains(&why) {
                whys.push(why);
            }
        }
        whys
    }

    fn why(&self, reason: &Reason) -> Why {
        Why {
            text: self.words.reason(reason),
            known: self.words.known(reason).to_owned(),
            against: reason.speaks_against(),
        }
    }

    /// Tributary and effective width for each origin, with their range along the wall.
    fn widths(&self, feeds: &[Feed]) -> Vec<Figure> {
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

    /// The range of the heaviest line load along a part, and how the heaviest is made up.
    fn line_figure(&self, loads: &[LineLoads]) -> Option<Figure> {
        let heavy = |loads: &LineLoads| heaviest(loads, self.plan.site()).0;
        let most = loads.iter().copied().reduce(|a, b| if heavy(&b) > heavy(&a) { b } else { a })?;
        let least = loads.iter().map(heavy).fold(heavy(&most), Plf::min);
        let value = if heavy(&most).0 - least.0 < 0.5 {
            words::plf(least)
        } else {
            format!("{} to {}", words::thousands(least.0), words::plf(heavy(&most)))
        };
        Some(Figure { label: "Line load".to_owned(), value, how: self.made_up(&most, "plf") })
    }

    /// "dead 60 + attic live 120 plf, D + L".
    fn made_up<T: Copy + Into<f64>>(&self, loads: &ByKind<T>, unit: &str) -> String
    where
        ByKind<T>: Clone,
    {
        let numbers: ByKind<f64> = loads.map(Into::into);
        let parts = Kind::ALL.into_iter().filter(|kind| numbers.get(*kind).abs() >= 0.5);
        let parts: Vec<String> =
            parts.map(|kind| format!("{} {}", words::kind(kind), words::thousands(numbers.get(kind)))).collect();
        let combination = heaviest(&numbers, self.plan.site()).1;
        format!(
            "{} {unit}; heaviest: {}",
            parts.join(" + "),
            words::combination(combination, self.plan.site().snow_edition)
        )
    }

    fn point_figure(&self, point: &PointLoad) -> Figure {
        Figure {
            label: format!("{} at {}", self.words.node(point.from), self.words.length(point.at)),
            value: words::pounds(heaviest(&point.weights, self.plan.site()).0),
            how: self.made_up(&point.weights, "lb"),
        }
    }

    fn total(&self, label: &str, weights: Weights) -> Figure {
        let value = words::pounds(heaviest(&weights, self.plan.site()).0);
        Figure { label: label.to_owned(), value, how: self.made_up(&weights, "lb") }
    }

    fn thrust(&self, id: RoofId) -> Option<Figure> {
        let roof = self.trace.roofs.iter().find(|it| it.roof == id)?;
        let (thrust, _) = heaviest(&roof.thrust, self.plan.site());
        (thrust.0 > 0.5).then(|| Figure {
            label: "Thrust of the rafters".to_owned(),
            value: words::plf(thrust),
            how: "outward on each foot of eave, held by the ties: moment at the ridge / rise".to_owned(),
        })
    }

    fn beam(&self, id: BeamId) -> Option<Card> {
        let beam = self.trace.beam(id)?;
        let mut figures = self.widths(&beam.feeds);
        figures.extend(self.line_figure(&beam.line.iter().map(|part| part.loads).collect::<Vec<_>>()));
        figures.extend(beam.points.iter().map(|point| self.point_figure(point)));
        for rest in &beam.rests {
            figures.push(Figure {
                label: format!("To {} at {}", self.words.node(rest.on), self.words.length(rest.at)),
                value: words::pounds(heaviest(&rest.weights, self.plan.site()).0),
                how: self.made_up(&rest.weights, "lb"),
            });
        }
        let total = words::pounds(heaviest(&beam.top, self.plan.site()).0);
        let sentence = match beam.rests.len() {
            0 => "Nothing is drawn that holds this beam up.".to_owned(),
            n => format!("This beam carries {total} to {n} place{}.", if n == 1 { "" } else { "s" }),
        };
        let span = Figure {
            label: "Longest span".to_owned(),
            value: self.words.length(beam.longest_span),
            how: "between two supports of one piece".to_owned(),
        };
        figures.push(span);
        let sure = "Its own weight is not counted; supports are taken as rigid.".to_owned();
        Some(Card { sentence, sure, figures, ..Card::default() })
    }

    fn post(&self, id: PostId) -> Option<Card> {
        let post = self.trace.post(id)?;
        let figures = post.from.iter().map(|(from, weights)| Figure {
            label: format!("From {}", self.words.node(*from)),
            value: words::pounds(heaviest(weights, self.plan.site()).0),
            how: self.made_up(weights, "lb"),
        });
        let total = heaviest(&post.top, self.plan.site()).0;
        let sentence = if total.0 > 0.5 {
            format!("This post holds {}.", words::pounds(total))
        } else {
            "Nothing drawn rests on this post.".to_owned()
        };
        let watch = post.cautions.iter().map(|caution| self.words.caution(caution)).collect();
        Some(Card { sentence, figures: figures.collect(), watch, ..Card::default() })
    }

    fn field(&self, id: FieldId) -> Option<Card> {
        let Element::Field(field) = self.plan.element(ElementId::Field(id))? else { return None };
        let laid: Vec<_> = self.trace.members.iter().filter(|it| it.of == Node::Field(id)).collect();
        let longest = laid.iter().map(|it| it.longest_span).fold(Feet::ZERO, Feet::max);
        let live = crate::loads::live(field.used_as);
        let dead = crate::loads::deck_dead(field.used_as);
        let joints = match field.joints {
            Joints::NotSeen => "nobody looked whether they lap",
            Joints::Lap => "they lap over what they cross",
            Joints::RunThrough => "they run through",
        };
        let figures = vec![
            Figure {
                label: "Longest span".to_owned(),
                value: self.words.length(longest),
                how: "between two supports of one piece".to_owned(),
            },
            Figure { label: "Live load".to_owned(), value: words::psf(live.value), how: live.source.to_owned() },
            Figure {
                label: "Dead load".to_owned(),
                value: words::psf(field.weighs()),
                how: built_up(field.dead.is_some(), &field.layers, dead.source),
            },
        ];
        Some(Card {
            sentence: format!("{} joists under {}; {joints}.", laid.len(), words::used_as(field.used_as)),
            sure: capital(&format!("the way they run is {}.", words::grade(field.known))),
            figures,
            ..Card::default()
        })
    }

    fn roof(&self, id: RoofId) -> Option<Card> {
        let Element::Roof(roof) = self.plan.element(ElementId::Roof(id))? else { return None };
        let trace = self.trace.roofs.iter().find(|it| it.roof == id)?;
        let site = self.plan.site();
        let frame = match roof.frame {
            RoofFrame::RidgeBoard if roof.form == RoofForm::Hip => {
                "Rafters on all four sides, hips to the corners: every wall under an eave carries it."
            }
            RoofFrame::RidgeBoard if roof.form == RoofForm::Shed => {
                "One slope of rafters: the walls under its ends, and any under it, carry it."
            }
            RoofFrame::NotSeen => "Framing not seen: taken to go from eave to eave.",
            RoofFrame::RidgeBoard => "Rafters against a ridge board, their feet tied: the eave walls carry it.",
            RoofFrame::RidgeBeam => "Rafters on a ridge beam: it takes half of each, the eave walls the other half.",
            RoofFrame::OverFramed => "Built on the roof under it: its weight rides on the rafters there.",
            RoofFrame::Trusses { .. } => "Trusses: the outside walls at their ends carry them.",
        };
        let dead = crate::loads::roof_dead();
        let rise = roof.rise.inches() / 12.0;
        let mut figures = vec![
            Figure {
                label: "Span".to_owned(),
                value: self.words.length(trace.span),
                how: "eave wall to eave wall".to_owned(),
            },
            Figure {
                label: "Dead load on plan".to_owned(),
                value: words::psf(trace.dead_on_plan),
                how: format!(
                    "on the slope, over its cosine; {}",
                    built_up(roof.dead.is_some(), &roof.layers, dead.source)
                ),
            },
            Figure {
                label: "Roof live load".to_owned(),
                value: words::psf(site.roof_live()),
                how: if site.roof_live.is_some() {
                    "typed for this house".to_owned()
                } else {
                    crate::loads::roof_live().source.to_owned()
                },
            },
            Figure {
                label: "Snow on plan".to_owned(),
                value: words::psf(site.roof_snow(rise)),
                how: words::snow(site, rise),
            },
        ];
        figures.extend(self.thrust(id));
        figures.extend(trace.ribs.iter().filter_map(|rib| self.rib(rib)));
        let sure = capital(&format!("its framing is {}.", words::grade(roof.known)));
        Some(Card { sentence: frame.to_owned(), sure, figures, ..Card::default() })
    }

    /// A ridge beam, hip or purlin: how long, and what rests where.
    fn rib(&self, rib: &RibTrace) -> Option<Figure> {
        let total = heaviest(&rib.top, self.plan.site()).0;
        let rests: Vec<String> = rib
            .rests
            .iter()
            .filter(|rest| !matches!(rest.on, Node::Roof(_)))
            .map(|rest| {
                let weight = words::pounds(heaviest(&rest.weights, self.plan.site()).0);
                format!("{weight} on {}", self.words.node(rest.on))
            })
            .collect();
        let (label, how) = match rib.kind {
            RibKind::Ridge => ("Ridge beam", rests.join(", ")),
            RibKind::Hip => ("Hip rafter", rests.join(", ")),
            RibKind::Valley => ("Valley rafter", rests.join(", ")),
            RibKind::Header => ("Header in the roof", rests.join(", ")),
            RibKind::Purlin => return None,
        };
        let value = format!("{} long, {}", self.words.length(rib.length()), words::pounds(total));
        Some(Figure { label: label.to_owned(), value, how })
    }

    fn thing(&self, id: ThingId) -> Option<Card> {
        let Element::Thing(thing) = self.plan.element(ElementId::Thing(id))? else { return None };
        let level = self.plan.level_of(ElementId::Thing(id))?;
        let area = crate::geometry::area(&thing.corners);
        let Some(weight) = thing.weighs() else {
            let sentence = "Nobody said what it weighs, and no usual figure is known: type its weight.".to_owned();
            return Some(Card { sentence, ..Card::default() });
        };
        let usual = thing.kind.usual();
        let how = match (thing.weight, usual) {
            (Some(_), _) => format!("typed for this house; {}", words::grade(thing.known)),
            (None, Some(usual)) => usual.source.to_owned(),
            (None, None) => String::new(),
        };
        let mut figures = vec![Figure { label: "Weight".to_owned(), value: words::pounds(weight), how }];
        let on_area = weight / area;
        let legs = thing.stands == Stands::OnLegs;
        let how = if legs { "though it stands on legs at its corners" } else { "over its whole area" };
        figures.push(Figure {
            label: "On its area".to_owned(),
            value: words::psf(on_area),
            how: format!("{} {how}", words::square_feet(area)),
        });
        let mut watch = Vec::new();
        let below = self.plan.level_below(level.id);
        let middle = thing.corners.first().copied()?;
        let covers = |field: &&crate::plan::JoistField| {
            let polygons = below.map(|it| it.polygons(&field.region)).unwrap_or_default();
            polygons.iter().any(|it| crate::geometry::position(it, middle) != crate::geometry::Position::Outside)
        };
        if let Some(field) = below.and_then(|it| it.fields.iter().rev().find(covers)) {
            let live = crate::loads::live(field.used_as).value;
            if on_area > live {
                watch.push(format!(
                    "{} is more than the {} this floor is taken to be made for: have the joists under it checked, and \
                     doubled where they run along under it.",
                    words::psf(on_area),
                    words::psf(live)
                ));
            }
        }
        let on = if below.is_some() { "the deck under it" } else { "the ground" };
        let weighs = words::pounds(weight);
        let sentence = match thing.kind.load() {
            Kind::Dead => format!("It puts {weighs} on {on} for good: counted as dead load."),
            _ => format!("It puts {weighs} on {on}: counted as live load, on top of people."),
        };
        Some(Card { sentence, figures, watch, ..Card::default() })
    }

    fn observation(&self, id: ElementId) -> Option<Card> {
        let Element::Observation(seen) = self.plan.element(id)? else { return None };
        let proof = proof(&seen.saw);
        let source =
            if proof.mark == Mark::Memory { format!("{}, from memory", proof.source) } else { proof.source.into() };
        let why = Why { text: self.words.saw(&seen.saw), known: words::grade(seen.known).to_owned(), against: false };
        let weight =
            Figure { label: "As proof".to_owned(), value: words::weight(proof.weight).to_owned(), how: source };
        let watch = if seen.known > Grade::Seen {
            vec!["Not looked at by whoever drew this: it makes an answer likelier and settles none.".to_owned()]
        } else {
            Vec::new()
        };
        let sentence = format!("{}.", proof.proves);
        let sure =
            [seen.day.as_str(), seen.note.as_str()].iter().filter(|it| !it.is_empty()).copied().collect::<Vec<_>>();
        Some(Card { sentence, sure: sure.join(": "), why: vec![why], figures: vec![weight], watch, ..Card::default() })
    }

    fn purlin(&self, id: PurlinId) -> Option<Card> {
        let Element::Purlin(purlin) = self.plan.element(ElementId::Purlin(id))? else { return None };
        let rib = self.trace.roofs.iter().flat_map(|roof| &roof.ribs).find(|rib| rib.purlin == Some(id));
        let sure = capital(&format!("what is known of it is {}.", words::grade(purlin.known)));
        let Some(rib) = rib else {
            let sentence = if purlin.feet.is_some() {
                "No roof that is drawn lies over it."
            } else {
                "Nobody saw what holds it: traced as if it were not there."
            };
            return Some(Card { sentence: sentence.to_owned(), sure, ..Card::default() });
        };
        let mut figures = self.widths(&rib.feeds);
        let heavy =
            rib.struts.iter().map(|it| heaviest(&it.weights, self.plan.site()).0).fold(Pounds::ZERO, Pounds::max);
        figures.push(Figure {
            label: "Struts".to_owned(),
            value: format!("{}, at the most {}", rib.struts.len(), words::pounds(heavy)),
            how: format!("no more than {} apart", self.words.length(purlin.spacing.feet())),
        });
        let mut watch = Vec::new();
        if let Some(strut) = rib.struts.first() {
            figures.push(Figure {
                label: "A strut".to_owned(),
                value: format!("{} long", self.words.length(strut.length())),
                how: format!("{} up over {} level", self.words.length(strut.rise), self.words.length(strut.run)),
            });
            if !strut.is_steep() {
                watch.push("Its struts lie flatter than 45 degrees (IRC R802.4.5).".to_owned());
            }
            if !strut.is_short() {
                watch.push("Its struts are over 8 ft long: they want a stay at half length (IRC R802.4.5).".to_owned());
            }
        }
        if purlin.spacing.feet().0 > 4.0 + 1e-9 {
            watch.push("Struts belong 4 ft apart or closer (IRC R802.4.5).".to_owned());
        }
        let total = words::pounds(heaviest(&rib.top, self.plan.site()).0);
        let sentence = format!("It holds the rafters halfway: {total} go down its struts.");
        Some(Card { sentence, sure, figures, watch, ..Card::default() })
    }

    fn footing(&self, id: crate::ids::FootingId) -> Option<Card> {
        let landings = self.trace.landings.iter().filter(|it| it.on == Some(id));
        let weights = landings.fold(Weights::default(), |sum, it| sum + it.weights);
        let pressure = self.trace.landings.iter().find(|it| it.on == Some(id)).and_then(|it| it.pressure);
        let total: Pounds = heaviest(&weights, self.plan.site()).0;
        let allowed = crate::loads::soil_usual();
        let sentence = pressure.map_or_else(
            || "Nothing drawn stands on it.".to_owned(),
            |psf| format!("It brings {} to the soil: {}.", words::pounds(total), words::psf(psf)),
        );
        let typed = self.plan.site().soil.is_some();
        let soil = Figure {
            label: "Soil is taken to bear".to_owned(),
            value: words::psf(self.plan.site().soil()),
            how: if typed { "typed for this house".to_owned() } else { allowed.source.to_owned() },
        };
        let sure = "Its own weight is left out.".to_owned();
        Some(Card { sentence, sure, figures: vec![soil], ..Card::default() })
    }
}

/// "the roof, the ceiling and a wall above".
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
        let mark = if layer.mark == Mark::Memory { ", from memory" } else { "" };
        format!("{} {} ({}{mark})", layer.what, words::psf(layer.psf), layer.source)
    };
    layers.iter().map(one).collect::<Vec<_>>().join(" + ")
}

fn listed(parts: &[&str]) -> String {
    match parts {
        [] => "load".to_owned(),
        [one] => (*one).to_owned(),
        [rest @ .., last] => format!("{} and {last}", rest.join(", ")),
    }
}
