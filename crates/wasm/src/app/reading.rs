//! What was seen and what follows, as the panels show it: readings traced between frames, the look list, what can be noted.

use std::rc::Rc;

use joistwise_core::evidence::{Evidence, evidence};
use joistwise_core::ids::{ElementId, LevelId, ObservationId, WallId};
use joistwise_core::looks::{How, Look};
use joistwise_core::observe::{About, PROOFS, Weight};
use joistwise_core::plan::{Grade, Observation, Photo, Plan, Point};
use joistwise_core::readings::{Certainty, Judgement, Readings, middle_of, record, wall_of};
use joistwise_core::words::{Words, share};
use serde::Serialize;

use super::{App, seen};
use crate::view::LookMark;

/// How many looks are listed and marked.
const LISTED: usize = 9;

/// The readings of the open house: under way, or done.
#[derive(Debug, Default)]
pub(super) struct Reading {
    under_way: Option<Box<Readings>>,
    /// What the last readings that were finished say.
    pub(super) judgement: Rc<Judgement>,
    /// Whether it has taken long enough to be told.
    told: bool,
}

/// How far the readings are.
#[derive(Clone, Copy, Debug, Serialize)]
pub(super) struct Progress {
    done: usize,
    all: usize,
}

/// What a look would settle, as the page lists it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct LookLine {
    number: usize,
    title: String,
    look_for: String,
    level: LevelId,
    level_name: String,
    wall: Option<ElementId>,
    settles: String,
    outcomes: Vec<OutcomeLine>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct OutcomeLine {
    text: String,
    share: String,
    means: String,
}

/// What can be noted at a place.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct Seeing {
    place: String,
    level_name: String,
    /// The wall it would be noted at.
    wall: String,
    groups: Vec<Group>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct Group {
    about: About,
    kinds: Vec<KindLine>,
}

#[derive(Clone, Debug, PartialEq, Serialize)]
struct KindLine {
    key: &'static str,
    detail: &'static str,
    what: String,
    weight: Weight,
}

/// The readings as a line or two for the house.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct Settled {
    /// How many stretches of inside walls there are, and how many are certain.
    stretches: usize,
    certain: usize,
    /// What contradicts what.
    disagree: Vec<String>,
    /// How many readings stand for it, and what share of all they cover.
    readings: String,
}

impl Reading {
    /// Starts anew with another plan.
    pub(super) fn begin(&mut self, plan: &Plan) {
        let any = plan.levels().iter().any(|level| !level.walls.is_empty());
        self.under_way = any.then(|| Box::new(Readings::new(plan)));
        self.told = false;
        if !any {
            self.judgement = Rc::default();
        }
    }

    /// What the readings of the house as it is now say; none while they are traced.
    pub(super) fn fresh(&self) -> Option<&Rc<Judgement>> {
        self.under_way.is_none().then_some(&self.judgement)
    }

    pub(super) fn progress(&self) -> Option<Progress> {
        let (done, all) = self.under_way.as_ref().filter(|_| self.told)?.progress();
        Some(Progress { done, all })
    }
}

impl App {
    /// Traces one more reading of the house; false if none is left.
    pub fn read_on(&mut self) -> bool {
        let Some(readings) = &mut self.reading.under_way else { return self.study_on() };
        if readings.step() {
            return true;
        }
        let judgement = readings.judgement();
        judgement.settle(Rc::make_mut(&mut self.trace));
        self.reading.judgement = Rc::new(judgement);
        self.reading.under_way = None;
        self.reading.told = false;
        let marks = self.reading.judgement.looks.iter().take(LISTED);
        self.view.looks = marks.map(|look| LookMark { level: look.level, at: look.at }).collect();
        self.stale = super::Stale { paint: true, panels: true };
        self.study_over_readings();
        self.is_studying()
    }

    /// Whether readings wait to be traced, of the house or for a study.
    #[must_use]
    pub fn is_reading(&self) -> bool {
        self.reading.under_way.is_some() || self.is_studying()
    }

    /// It takes long enough that the page says how far it is.
    pub fn tell_progress(&mut self) {
        if self.is_reading() {
            self.reading.told = true;
            self.stale.panels = true;
        }
    }

    pub(super) fn look_lines(&self) -> Vec<LookLine> {
        let words = Words::new(&self.known, self.view.tape);
        let open = |looks: usize| looks.min(LISTED);
        let judgement = &self.reading.judgement;
        let looks = judgement.looks.iter().take(open(judgement.looks.len())).enumerate();
        looks
            .map(|(number, look)| {
                let (title, look_for) = words.look(look);
                let outcomes = look.outcomes.iter().map(|outcome| OutcomeLine {
                    text: words.outcome(outcome),
                    share: share(outcome.share),
                    means: words.means(outcome),
                });
                LookLine {
                    number: number + 1,
                    title,
                    look_for,
                    level: look.level,
                    level_name: words.level(look.level),
                    wall: look.wall.map(ElementId::Wall),
                    settles: settles(look),
                    outcomes: outcomes.collect(),
                }
            })
            .collect()
    }

    pub(super) fn settled(&self) -> Settled {
        let judgement = &self.reading.judgement;
        let words = Words::new(&self.known, self.view.tape);
        let certain = judgement.stretches.iter().filter(|it| it.certainty == Certainty::Certain).count();
        let traced: usize = judgement.levels.iter().map(|it| it.traced).sum();
        let stands: usize = judgement.levels.iter().map(|it| it.traced - it.ruled_out).sum();
        let covered = judgement.levels.iter().map(|it| it.covered).fold(1.0, f64::min);
        let part = if covered < 1.0 - 1e-9 {
            format!("; the likeliest, {} of the weight of all", share(covered))
        } else {
            String::new()
        };
        let out = if stands < traced {
            format!(", {} ruled out by what would follow", traced - stands)
        } else {
            String::new()
        };
        Settled {
            stretches: judgement.stretches.len(),
            certain,
            disagree: judgement.contradictions.iter().map(|it| words.contradiction(it)).collect(),
            readings: format!("{traced} reading{} traced{out}{part}", if traced == 1 { "" } else { "s" }),
        }
    }

    pub(super) fn evidence_of(&self, part: ElementId) -> Option<Evidence> {
        let ElementId::Wall(id) = part else { return None };
        let judgement = self.reading.fresh().cloned().unwrap_or_default();
        self.inside(id).then(|| evidence(&self.known, &judgement, id, self.view.tape))?
    }

    pub(super) fn inside(&self, id: WallId) -> bool {
        self.plan().wall(id).is_some_and(|(_, wall)| wall.side == joistwise_core::plan::Side::Inside)
    }

    /// What can be noted where somebody tapped.
    pub(super) fn seeing(&self) -> Option<Seeing> {
        let (id, at) = self.seeing_at?;
        let level = self.plan().level(id)?;
        let words = Words::new(&self.known, self.view.tape);
        let wall = wall_of(level, at);
        let group = |about: About| {
            let mut kinds = Vec::new();
            for row in PROOFS.iter().filter(|row| row.about == about) {
                for detail in details(row.key) {
                    let Ok(saw) = seen::saw(row.key, detail) else { continue };
                    kinds.push(KindLine { key: row.key, detail, what: words.saw(&saw), weight: row.weight });
                }
            }
            Group { about, kinds }
        };
        let all = [About::Wall, About::Joists, About::Roof, About::House];
        let groups = all.into_iter().filter(|about| wall.is_some() || *about != About::Wall).map(group);
        Some(Seeing {
            place: super::state::place(at, self.view.tape, None),
            level_name: level.name.clone(),
            wall: wall.map(|wall| words.name(ElementId::Wall(wall))).unwrap_or_default(),
            groups: groups.collect(),
        })
    }

    /// The next note is of this place.
    pub(super) fn see(&mut self, at: Option<Point>) {
        self.seeing_at = at.map(|at| (self.view.level, at));
        self.stale = super::Stale { paint: true, panels: true };
    }

    /// The next note is of what is chosen.
    pub(super) fn see_chosen(&mut self) -> Result<(), String> {
        let part = self.view.chosen.ok_or_else(super::command::nothing_chosen)?;
        let element = self.plan().element(part).ok_or_else(super::command::nothing_chosen)?;
        let at = match super::state::ends_of(self.plan(), &element).as_slice() {
            [] => None,
            [one] => Some(*one),
            [a, b] => Some(middle_of(*a, *b)),
            [a, .., b] => Some(middle_of(*a, *b)),
        };
        self.see(Some(at.unwrap_or_default()));
        Ok(())
    }

    /// Notes what was seen at the place that was tapped.
    pub(super) fn record(&mut self, key: &str, detail: &str, day: &str) -> Result<(), String> {
        let Some((level, at)) = self.seeing_at.take() else { return Ok(()) };
        let saw = seen::saw(key, detail)?;
        let seen = Observation {
            id: ObservationId::from_number(0),
            at,
            saw,
            known: Grade::Seen,
            note: String::new(),
            day: day.to_owned(),
            photo: Photo::default(),
        };
        self.note(level, [seen]);
        let newest = ElementId::Observation(ObservationId::from_number(self.plan().newest()));
        if self.plan().element(newest).is_some() {
            self.choose(Some(newest));
        }
        Ok(())
    }

    /// Checks off a look with what was seen.
    pub(super) fn looked(&mut self, number: usize, outcome: usize, day: &str) {
        let judgement = Rc::clone(&self.reading.judgement);
        let Some(look) = number.checked_sub(1).and_then(|number| judgement.looks.get(number)) else { return };
        let seen: Vec<Observation> =
            look.observations(outcome).map(|it| Observation { day: day.to_owned(), ..it }).collect();
        self.note(look.level, seen);
    }

    /// Puts observations on the plan in one step.
    pub(super) fn note(&mut self, level: LevelId, seen: impl IntoIterator<Item = Observation>) {
        let mut plan = self.plan().clone();
        for one in seen {
            for edit in record(&plan, level, one) {
                match plan.with(&edit) {
                    Ok(next) => plan = next,
                    Err(error) => {
                        self.say(&error);
                        return;
                    }
                }
            }
        }
        self.take(plan);
    }
}

/// The details with which a kind is offered.
const fn details(key: &str) -> &'static [&'static str] {
    match key.as_bytes() {
        b"joists_run" | b"floorboards_run" | b"nail_rows" => &["x", "y"],
        b"joist_size" => &["2x6", "2x8", "2x10"],
        b"in_line" => &["beam", "post", "wall", "nothing"],
        b"drawing" => &["bearing", "not_bearing"],
        b"stud_pack" => &["3"],
        b"age" => &["1930", "1960"],
        _ => &[""],
    }
}

/// "settles 1.4 stretches on average".
fn settles(look: &Look) -> String {
    let number = look.settles;
    let plural = if (number - 1.0).abs() < 0.05 { "" } else { "es" };
    if number < 0.05 && look.how == How::UnderEnd {
        "settles no stretch, tells where the load goes".to_owned()
    } else if number < 0.05 {
        "settles none by itself, narrows the rest".to_owned()
    } else {
        format!("settles {number:.1} stretch{plural} on average")
    }
}

/// The table of what counts as proof, for the page: key, what, what it proves, weight, source, mark.
#[must_use]
pub fn proofs() -> Vec<ProofLine> {
    let line = |row: &&'static joistwise_core::observe::Proof| ProofLine {
        what: row.what,
        proves: row.proves,
        weight: joistwise_core::words::weight(row.weight),
        source: row.source,
        memory: row.mark == joistwise_core::loads::Mark::Memory,
    };
    PROOFS.iter().map(line).collect()
}

/// One kind of observation, as the page lists it.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct ProofLine {
    what: &'static str,
    proves: &'static str,
    weight: &'static str,
    source: &'static str,
    memory: bool,
}
