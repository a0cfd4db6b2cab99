//! The take-out study as the panel shows it: text and figures, nothing of the plans it holds.

use std::rc::Rc;

use joistwise_core::card::Figure;
use joistwise_core::geometry;
use joistwise_core::ids::{ElementId, WallId};
use joistwise_core::plan::{Plan, Set};
use joistwise_core::strength::lumber::{Grade, Species};
use joistwise_core::take_out::{Fate, Stretch, Study, needs, take_out_read};
use joistwise_core::tape;
use joistwise_core::trace::{Trace, trace};
use joistwise_core::units::{Feet, Ticks};
use joistwise_core::words::take_out::{family, no_beam, stock};
use joistwise_core::words::{Words, plf, pounds};
use serde::{Deserialize, Serialize};

use super::App;
use super::form::text::{meant, word};
use crate::scene::{self, Margins};
use crate::svg::svg;
use crate::view::{Drafting, ViewState};

/// Which house is on the sheet while a stretch is studied.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub(super) enum Shown {
    /// As it stands.
    #[default]
    Now,
    /// The stretch gone, nothing in its place.
    Without,
    /// A beam on posts in its place.
    Proposed,
}

/// A study that is open.
#[derive(Debug)]
pub(super) struct Open {
    study: Study,
    shown: Shown,
    /// Of which revision of the house.
    of: u32,
    /// The house that is shown instead, traced.
    other: Option<Rc<(Plan, Trace)>>,
}

/// A study that was kept to be compared.
#[derive(Clone, Debug)]
pub(super) struct Kept {
    stretch: Stretch,
    name: String,
    beam: String,
    ends: String,
    props: String,
}

/// One line of the comparison.
#[derive(Clone, Debug, Serialize)]
struct KeptLine {
    name: String,
    beam: String,
    ends: String,
    props: String,
}

/// The study as the panel shows it.
#[derive(Clone, Debug, Serialize)]
pub(super) struct View {
    kept: Vec<KeptLine>,
    wall: String,
    length_ft: f64,
    from_ft: f64,
    to_ft: f64,
    from: String,
    to: String,
    opening: String,
    set: String,
    posts_between: String,
    offset: String,
    species: String,
    grade: String,
    shown: Shown,
    /// What the client is told, in sentences.
    told: Vec<String>,
    refusals: Vec<Refused>,
    section: Option<Section>,
    groups: Vec<Group>,
    choices: Vec<Choice>,
    /// Families of which no beam is offered, and why.
    none: Vec<String>,
    plies: String,
    steps: Vec<(String, String)>,
}

#[derive(Clone, Debug, Serialize)]
struct Refused {
    text: String,
    blocks: bool,
}

#[derive(Clone, Debug, Serialize)]
struct Group {
    key: &'static str,
    lines: Vec<Line>,
}

/// A sentence with the figures behind it.
#[derive(Clone, Debug, Serialize)]
struct Line {
    text: String,
    figures: Vec<Figure>,
}

#[derive(Clone, Debug, Serialize)]
struct Choice {
    family: &'static str,
    name: String,
    text: String,
    ratio: f64,
    lightest: bool,
    shallowest: bool,
    figures: Vec<Figure>,
}

/// The cut through the members that lose their seat.
#[derive(Clone, Debug, Serialize)]
struct Section {
    /// From support to support with the wall, and without it, in feet.
    old_ft: f64,
    new_ft: f64,
    /// Sag under all load with the wall and without it, in inches; none where nothing holds them.
    old_in: f64,
    new_in: Option<f64>,
    words: String,
}

fn line(text: impl Into<String>, figures: &[Figure]) -> Line {
    Line { text: text.into(), figures: figures.to_vec() }
}

impl App {
    /// Opens a study of the chosen wall, or of the stretch of it that is looked at alone.
    pub(super) fn study_chosen(&mut self) -> Result<(), String> {
        let Some(ElementId::Wall(id)) = self.view.chosen else { return Err(super::command::nothing_chosen()) };
        let Some(wall) = self.trace.wall(id) else { return Err(super::command::nothing_chosen()) };
        let run = self.view.stretch.and_then(|number| wall.stretches.get(number));
        let (from, to) = run.map_or((Feet::ZERO, wall.length), |run| (run.start, run.end));
        self.study_of(&Stretch::of(id, from, to), Shown::Now)
    }

    fn study_of(&mut self, stretch: &Stretch, shown: Shown) -> Result<(), String> {
        let study = take_out_read(&self.known, stretch, &self.reading.judgement);
        let study = study.ok_or("a stretch has to have a length within its wall")?;
        let other = match shown {
            Shown::Now => None,
            Shown::Without => Some(study.without.clone()),
            Shown::Proposed => Some(study.proposed.clone()),
        };
        let other = other.map(|plan| {
            let trace = trace(&plan);
            Rc::new((plan, trace))
        });
        let at = |along: Feet| {
            let (_, wall) = self.known.wall(study.stretch.wall)?;
            geometry::along(wall.a, wall.b, Ticks::from_decimal_feet(along)?)
        };
        self.view.studied = at(study.stretch.from).zip(at(study.stretch.to));
        // The path is of the house as it stands.
        self.path_of = None;
        if other.is_some() {
            self.view.path = None;
            self.path_of = self.start().map(|start| (self.revision, start));
        }
        self.study = Some(Open { study, shown, of: self.revision, other });
        self.stale = super::Stale { paint: true, panels: true };
        Ok(())
    }

    /// The house that is on the sheet in place of the open one.
    pub(super) fn studied_house(&self) -> Option<&(Plan, Trace)> {
        self.study.as_ref().and_then(|open| open.other.as_deref())
    }

    /// Another value of the study: its ends, how the beam sits, posts between, props, lumber.
    pub(super) fn study_set(&mut self, key: &str, text: &str) -> Result<(), String> {
        let Some(open) = &self.study else { return Ok(()) };
        let (mut stretch, mut shown) = (open.study.stretch.clone(), open.shown);
        let length = |text: &str| tape::read(text).map(|it| it.feet()).map_err(|error| error.to_string());
        match key {
            "from" => stretch.from = length(text)?,
            "to" => stretch.to = length(text)?,
            "from_ft" => stretch.from = Feet(text.parse().unwrap_or(stretch.from.0)),
            "to_ft" => stretch.to = Feet(text.parse().unwrap_or(stretch.to.0)),
            "set" => stretch.set = meant::<Set>(text)?,
            "offset" => stretch.shoring_offset = length(text)?,
            "species" => {
                stretch.lumber.species = *Species::ALL.iter().find(|it| word(*it) == text).ok_or("no such species")?
            }
            "grade" => stretch.lumber.grade = *Grade::ALL.iter().find(|it| word(*it) == text).ok_or("no such grade")?,
            "posts_between" => {
                let places = text.split(';').filter(|it| !it.trim().is_empty());
                stretch.posts_between = places.map(length).collect::<Result<_, _>>()?;
            }
            "shown" => shown = meant(text)?,
            _ => return Err(format!("'{key}' cannot be set here")),
        }
        self.notice = None;
        self.study_of(&stretch, shown)
    }

    /// The same study after a change of the house; none if its wall is gone.
    pub(super) fn study_again(&mut self) {
        self.view.studied = None;
        let Some(open) = self.study.take() else { return };
        if open.of == self.revision {
            self.study = Some(open);
        } else {
            let stretch = open.study.stretch.clone();
            // A wall that is gone takes its study with it.
            let _ = self.study_of(&stretch, open.shown);
        }
    }

    /// Keeps the open study beside the others.
    pub(super) fn study_keep(&mut self) {
        let Some(open) = &self.study else { return };
        let (study, words) = (&open.study, Words::new(&self.known, self.view.tape));
        let stretch = study.stretch.clone();
        let sits = if stretch.set == Set::Flush { "flush" } else { "dropped" };
        let run = format!("{} to {}", words.length(stretch.from), words.length(stretch.to));
        let name = format!("{}, {run}, {sits}", words.name(ElementId::Wall(stretch.wall)));
        let lightest = study.beams.choices.iter().find(|it| it.lightest);
        let beam = lightest.map_or_else(|| "no size here".to_owned(), |it| it.name.clone());
        let ends: Vec<String> = study.beams.supports.iter().map(|it| pounds(it.most)).collect();
        let props: Vec<String> = study.shoring.lines.iter().map(|it| plf(it.most)).collect();
        let kept = Kept { stretch, name, beam, ends: ends.join(" + "), props: props.join(" + ") };
        self.kept.retain(|it| it.stretch != kept.stretch);
        self.kept.push(kept);
        self.stale.panels = true;
    }

    /// Opens a kept study again.
    pub(super) fn study_open(&mut self, number: usize) -> Result<(), String> {
        let Some(stretch) = self.kept.get(number).map(|it| it.stretch.clone()) else { return Ok(()) };
        self.study_of(&stretch, Shown::Now)
    }

    /// The house as it stands and with the beam, as two drawings of the level of the study.
    #[must_use]
    pub fn study_drawings(&self) -> Vec<String> {
        const SIZE: (f64, f64) = (340.0, 260.0);
        let Some(open) = &self.study else { return Vec::new() };
        let proposed = trace(&open.study.proposed);
        let both = [(self.known.as_ref(), self.trace.as_ref()), (&open.study.proposed, &proposed)];
        let level = self.known.wall(open.study.stretch.wall).map_or(self.view.level, |(level, _)| level.id);
        let margins = Margins { left: 30.0, top: 14.0, right: 14.0, bottom: 34.0 };
        let fitted = scene::fit(&self.known, level, SIZE.0, SIZE.1, margins);
        let bare = ViewState {
            view: fitted,
            level,
            chosen: None,
            stretch: None,
            put_down: None,
            path: None,
            hover: None,
            drafting: Drafting::Nothing,
            snap: None,
            key_cursor: None,
            covered_below: 0.0,
            looks: Vec::new(),
            ..self.view.clone()
        };
        let draw = |(plan, trace): (&Plan, &Trace)| svg(&scene::scene(plan, trace, &bare), SIZE.0, SIZE.1, bare.scheme);
        both.map(draw).to_vec()
    }

    /// Why what passes over the chosen inside wall needs it, or does not.
    pub(super) fn needs_of(&self, part: ElementId) -> Option<String> {
        let ElementId::Wall(id) = part else { return None };
        if !self.inside(id) {
            return None;
        }
        let mut kept = self.needs.borrow_mut();
        if kept.as_ref().is_none_or(|it| (it.0, it.1) != (self.revision, id)) {
            let sentence = needs(&self.known, id).map(|it| it.sentence).unwrap_or_default();
            *kept = Some((self.revision, id, sentence));
        }
        kept.as_ref().map(|it| it.2.clone())
    }

    pub(super) fn study_close(&mut self) {
        self.study = None;
        self.view.studied = None;
        self.path_of = None;
        self.stale = super::Stale { paint: true, panels: true };
    }

    /// The proposed house becomes the house, in one step.
    pub(super) fn study_take(&mut self) {
        if let Some(open) = self.study.take() {
            self.view.studied = None;
            self.choose(None);
            self.take(open.study.proposed);
        }
    }

    pub(super) fn study_view(&self) -> Option<View> {
        let open = self.study.as_ref()?;
        let (study, words) = (&open.study, Words::new(&self.known, self.view.tape));
        let stretch = &study.stretch;
        let length = self.wall_length(stretch.wall)?;
        let typed = |length: Feet| words.length(length);
        let posts: Vec<String> = stretch.posts_between.iter().map(|at| typed(*at)).collect();
        let choices = study.beams.choices.iter().map(|it| Choice {
            family: family(it.family),
            name: it.name.clone(),
            text: it.sentence.clone(),
            ratio: it.governs.ratio,
            lightest: it.lightest,
            shallowest: it.shallowest,
            figures: it.figures.clone(),
        });
        let none = study.beams.none.iter().map(|(of, why)| format!("{}: {}", family(*of), no_beam(*why)));
        let kept = self.kept.iter().cloned();
        let kept = kept.map(|Kept { name, beam, ends, props, .. }| KeptLine { name, beam, ends, props }).collect();
        Some(View {
            kept,
            wall: words.name(ElementId::Wall(stretch.wall)),
            length_ft: length.0,
            from_ft: stretch.from.0,
            to_ft: stretch.to.0,
            from: typed(stretch.from),
            to: typed(stretch.to),
            opening: typed(stretch.to - stretch.from),
            set: word(&stretch.set),
            posts_between: posts.join("; "),
            offset: typed(stretch.shoring_offset),
            species: word(&stretch.lumber.species),
            grade: word(&stretch.lumber.grade),
            shown: open.shown,
            told: study.loses.sentences.clone(),
            refusals: study
                .refusals
                .iter()
                .map(|it| Refused { text: it.sentence.clone(), blocks: it.blocks })
                .collect(),
            section: section(study, &words),
            groups: groups(study),
            choices: choices.collect(),
            none: none.collect(),
            plies: format!("{} Lumber: {}.", study.beams.plies, stock(stretch.lumber)),
            steps: study.steps.iter().map(|it| (it.text.clone(), it.why.clone())).collect(),
        })
    }

    fn wall_length(&self, id: WallId) -> Option<Feet> {
        self.known.wall(id).map(|(_, wall)| geometry::length(wall.a, wall.b))
    }
}

/// The members that fare worst.
fn section(study: &Study, words: &Words<'_>) -> Option<Section> {
    let members = study.loses.members.iter();
    let worst = members.max_by(|a, b| {
        let key =
            |it: &joistwise_core::take_out::Lost| (it.fate != Fate::Passes, it.new_span.map_or(0.0, |span| span.0));
        key(a).0.cmp(&key(b).0).then(key(a).1.total_cmp(&key(b).1))
    })?;
    let sag = |checked: &Option<joistwise_core::take_out::Checked>| checked.map(|it| it.total_sag.0);
    let new = worst.new_span?;
    Some(Section {
        old_ft: worst.old_span.0,
        new_ft: new.0,
        old_in: sag(&worst.before).unwrap_or(0.0),
        new_in: sag(&worst.after),
        words: format!("{} to {}", words.length(worst.old_span), words.length(new)),
    })
}

fn groups(study: &Study) -> Vec<Group> {
    let lands = vec![line("", &study.lands.figures)];
    let lost = study.loses.members.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let lost = lost.chain([line("", &study.loses.figures)]).collect();
    let beam = vec![line("", &study.beams.figures)];
    let posts = study.ends.posts.iter().map(|it| line("", &it.figures));
    let ends = core::iter::once(line("", &study.ends.figures)).chain(posts).collect();
    let down = study.down.posts.iter().map(|it| line(it.sentence.as_str(), &[]));
    let members = study.down.members.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let pressed = study.down.pressed.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let down = down.chain(members).chain(pressed).chain([line("", &study.down.figures)]).collect();
    let props = study.shoring.lines.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let said = |it: &&String| study.shoring.lines.iter().all(|line| line.sentence != **it);
    let props = props.chain(study.shoring.sentences.iter().filter(said).map(|it| line(it.as_str(), &[]))).collect();
    let all: [(&'static str, Vec<Line>); 6] =
        [("lands", lands), ("lost", lost), ("beam", beam), ("ends", ends), ("down", down), ("props", props)];
    let filled =
        |lines: Vec<Line>| lines.into_iter().filter(|it| !it.text.is_empty() || !it.figures.is_empty()).collect();
    all.into_iter().map(|(key, lines)| Group { key, lines: filled(lines) }).collect()
}
