//! The take-out study as the panel shows it: text and figures, nothing of the plans it holds.

use std::rc::Rc;

use joistwise_core::card::Figure;
use joistwise_core::geometry::{self, Frame, Spot};
use joistwise_core::ids::{ElementId, FieldId};
use joistwise_core::plan::{Edit, Kept, Plan, Point, Set};
use joistwise_core::readings::Judgement;
use joistwise_core::strength::lumber::{Grade, Species};
use joistwise_core::take_out::{Away, Fate, Stretch, Study, Studying, needs, of_posts, under_joists};
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
    /// The readings that are still traced for it; none once it is of the worst of them.
    under_way: Option<Box<Studying>>,
    shown: Shown,
    /// What it will be called if it is kept.
    name: String,
    /// Of which revision of the house.
    of: u32,
    /// The house that is shown instead, traced.
    other: Option<Rc<(Plan, Trace)>>,
}

/// One line of the comparison of kept studies.
#[derive(Clone, Debug, Default, Serialize)]
pub(super) struct KeptLine {
    name: String,
    beam: String,
    ends: String,
    props: String,
}

/// The kept studies side by side, each worked out over the readings once for each house and what its readings say.
#[derive(Debug)]
pub(super) struct Compared {
    revision: u32,
    judgement: Rc<Judgement>,
    lines: Vec<KeptLine>,
    /// Those that are still worked out, with the number of their line.
    under_way: Vec<(usize, Studying)>,
}

/// The study as the panel shows it.
#[derive(Clone, Debug, Serialize)]
pub(super) struct View {
    kept: Vec<KeptLine>,
    name: String,
    /// What is studied: a wall, the posts of a beam, a beam under joists.
    of: &'static str,
    /// What its line is called.
    line: String,
    /// How far a line under joists lies from what holds them on its left.
    left: Option<String>,
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
    /// How many readings are traced for it, of how many; none once it is of the worst of them.
    progress: Option<(usize, usize)>,
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
    /// Opens a study: the chosen wall out, or the stretch of it that is looked at alone; the chosen post out from under its
    /// beam; a beam under the joists where the weight was put down, or under the chosen ones.
    pub(super) fn study_chosen(&mut self) -> Result<(), String> {
        let under = |field: FieldId, through: Option<Spot>| {
            let under = under_joists(&self.known, &self.trace, field, through);
            under.ok_or("these joists span nothing here that a beam could halve")
        };
        let held = self.view.path.as_ref().and_then(|path| path.joists.first());
        let stretch = match self.view.chosen {
            None => match self.view.put_down.zip(held) {
                Some((at, held)) => Some(under(held.field, Some(at.into()))?),
                None => None,
            },
            Some(ElementId::Wall(id)) => self.trace.wall(id).map(|wall| {
                let run = self.view.stretch.and_then(|number| wall.stretches.get(number));
                let (from, to) = run.map_or((Feet::ZERO, wall.length), |run| (run.start, run.end));
                Stretch::of(id, from, to).likely(&self.known)
            }),
            Some(ElementId::Post(id)) => {
                let under = of_posts(&self.known, &self.trace, &[id]);
                Some(under.ok_or("no beam that is drawn runs on over this post on both sides")?)
            }
            Some(ElementId::Field(id)) => Some(under(id, None)?),
            _ => None,
        };
        self.study_of(&stretch.ok_or_else(super::command::nothing_chosen)?, Shown::Now)?;
        if self.view.put_down.take().is_some() {
            self.view.path = None;
        }
        Ok(())
    }

    fn study_of(&mut self, stretch: &Stretch, shown: Shown) -> Result<(), String> {
        // What is drawn answers first; the readings of the house are traced for it between frames.
        let judgement = self.reading.fresh().map(Rc::as_ref);
        let studying = Studying::new(&self.known, stretch, judgement);
        let study =
            studying.as_ref().and_then(Studying::study).ok_or("a stretch has to have a length within its line")?;
        let under_way = studying.filter(|_| !study.over.read && judgement.is_some()).map(Box::new);
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
            let (_, a, b) = study.stretch.line(&self.known)?;
            geometry::along(a, b, Ticks::from_decimal_feet(along)?)
        };
        self.view.studied = at(study.stretch.from).zip(at(study.stretch.to));
        // The path is of the house as it stands.
        self.path_of = None;
        if other.is_some() {
            self.view.path = None;
            self.path_of = self.start().map(|start| (self.revision, start));
        }
        let name = self.study.take().map(|it| it.name).unwrap_or_default();
        self.study = Some(Open { study, under_way, shown, name, of: self.revision, other });
        self.compare();
        self.stale = super::Stale { paint: true, panels: true };
        Ok(())
    }

    /// The house that is on the sheet in place of the open one.
    pub(super) fn studied_house(&self) -> Option<&(Plan, Trace)> {
        self.study.as_ref().and_then(|open| open.other.as_deref())
    }

    /// Another value of the study: its ends, how the beam sits, posts between, props, lumber.
    pub(super) fn study_set(&mut self, key: &str, text: &str) -> Result<(), String> {
        let Some(open) = &mut self.study else { return Ok(()) };
        if key == "name" {
            text.clone_into(&mut open.name);
            return Ok(());
        }
        let (mut stretch, mut shown) = (open.study.stretch.clone(), open.shown);
        let length = |text: &str| tape::read(text).map(|it| it.feet()).map_err(|error| error.to_string());
        match key {
            "from" => stretch.from = length(text)?,
            "to" => stretch.to = length(text)?,
            "from_ft" => stretch.from = Feet(text.parse().unwrap_or(stretch.from.0)),
            "to_ft" => stretch.to = Feet(text.parse().unwrap_or(stretch.to.0)),
            "left" => stretch = self.moved(stretch, length(text)?),
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

    /// A line under joists moved until it lies so far from what holds them on its left.
    fn moved(&self, stretch: Stretch, left: Feet) -> Stretch {
        let Away::Nothing { level, a, b } = stretch.away else { return stretch };
        let (Some(own), Some(now)) = (Frame::between(a, b), self.left_of_line()) else { return stretch };
        let move_by = own.spot(Feet::ZERO, now - left);
        let by = |of: Feet| Ticks::from_decimal_feet(of).unwrap_or_default();
        let (dx, dy) = (by(move_by.x), by(move_by.y));
        let moved = |at: Point| Point::new(at.x + dx, at.y + dy);
        Stretch { away: Away::Nothing { level, a: moved(a), b: moved(b) }, ..stretch }
    }

    /// How far a line under joists lies from what holds them on its left.
    fn left_of_line(&self) -> Option<Feet> {
        let study = &self.study.as_ref()?.study;
        let left = study.shoring.lines.iter().find(|it| it.left)?;
        matches!(study.stretch.away, Away::Nothing { .. }).then_some(left.span)
    }

    /// The same study after a change of the house; none if its wall is gone.
    pub(super) fn study_again(&mut self) {
        self.view.studied = None;
        let Some(open) = self.study.take() else { return };
        if open.of == self.revision {
            self.study = Some(open);
        } else {
            let (stretch, shown) = (open.study.stretch.clone(), open.shown);
            // A wall that is gone takes its study with it.
            let _ = self.study_of(&stretch, shown);
            if let Some(again) = &mut self.study {
                again.name = open.name;
            }
        }
    }

    /// The open study over the readings that have just been traced.
    pub(super) fn study_over_readings(&mut self) {
        let Some(open) = &self.study else { return };
        let (stretch, shown) = (open.study.stretch.clone(), open.shown);
        let _ = self.study_of(&stretch, shown);
    }

    /// Traces one more reading for the open study, then for those that are kept; false if none is left.
    pub(super) fn study_on(&mut self) -> bool {
        if let Some(open) = self.study.as_mut()
            && let Some(studying) = &mut open.under_way
        {
            if !studying.step() {
                if let Some(study) = studying.study() {
                    open.study = study;
                }
                open.under_way = None;
                self.stale = super::Stale { paint: true, panels: true };
            }
            return true;
        }
        let Some(compared) = &mut self.compared else { return false };
        let Some((number, studying)) = compared.under_way.last_mut() else { return false };
        if !studying.step() {
            let line = studying.study().map(|study| kept_line(&study));
            if let (Some(known), Some(line)) = (compared.lines.get_mut(*number), line) {
                *known = KeptLine { name: std::mem::take(&mut known.name), ..line };
            }
            compared.under_way.pop();
            self.stale.panels = true;
        }
        true
    }

    /// Whether readings wait to be traced for a study.
    pub(super) fn is_studying(&self) -> bool {
        let compares = self.compared.as_ref().is_some_and(|it| !it.under_way.is_empty());
        self.study.as_ref().is_some_and(|open| open.under_way.is_some() || compares)
    }

    /// Keeps what the open study asks with the house, beside the others.
    pub(super) fn study_keep(&mut self) {
        let Some(kept) = self.study.as_ref().map(|open| open.study.stretch.kept(open.name.trim())) else { return };
        self.commit(&Edit::Keep(kept));
    }

    /// Opens a kept study again.
    pub(super) fn study_open(&mut self, number: usize) -> Result<(), String> {
        let Some(kept) = self.plan().kept().get(number).cloned() else { return Ok(()) };
        self.study_of(&Stretch::from(&kept), Shown::Now)?;
        self.study.iter_mut().for_each(|open| open.name.clone_from(&kept.name));
        Ok(())
    }

    /// What the kept studies are called.
    pub(super) fn kept_names(&self) -> Vec<String> {
        let words = Words::new(&self.known, self.view.tape);
        let name = |kept: &Kept| {
            let stretch = Stretch::from(kept);
            let sits = if stretch.set == Set::Flush { "flush" } else { "dropped" };
            let run = format!("{} to {}", words.length(stretch.from), words.length(stretch.to));
            let asked = format!("{}, {run}, {sits}", line_name(&stretch, &words));
            if kept.name.is_empty() { asked } else { format!("{}: {asked}", kept.name) }
        };
        self.plan().kept().iter().map(name).collect()
    }

    /// Begins to work out the kept studies, if that was not done for this house and these readings.
    fn compare(&mut self) {
        let Some(judgement) = self.reading.fresh().cloned() else { return };
        let same = |it: &Compared| it.revision == self.revision && Rc::ptr_eq(&it.judgement, &judgement);
        if self.compared.as_ref().is_some_and(same) {
            return;
        }
        let studying = |kept: &Kept| Studying::new(&self.known, &Stretch::from(kept), Some(&judgement));
        let kept = self.plan().kept().iter().enumerate().rev();
        let under_way = kept.filter_map(|(number, kept)| Some((number, studying(kept)?))).collect();
        let line = |name| KeptLine { name, ..KeptLine::default() };
        let lines = self.kept_names().into_iter().map(line).collect();
        self.compared = Some(Compared { revision: self.revision, judgement, lines, under_way });
    }

    /// The kept studies side by side, as far as they are worked out.
    fn kept_lines(&self) -> Vec<KeptLine> {
        let done = self.compared.as_ref().filter(|it| it.revision == self.revision);
        let line = |name| KeptLine { name, ..KeptLine::default() };
        done.map_or_else(|| self.kept_names().into_iter().map(line).collect(), |it| it.lines.clone())
    }

    /// The house as it stands and with the beam, as two drawings of the level of the study.
    #[must_use]
    pub fn study_drawings(&self) -> Vec<String> {
        const SIZE: (f64, f64) = (340.0, 260.0);
        let Some(open) = &self.study else { return Vec::new() };
        let proposed = trace(&open.study.proposed);
        let both = [(self.known.as_ref(), self.trace.as_ref()), (&open.study.proposed, &proposed)];
        let level = open.study.stretch.line(&self.known).map_or(self.view.level, |it| it.0);
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
        let (_, a, b) = stretch.line(&self.known)?;
        let length = geometry::length(a, b);
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
        Some(View {
            kept: self.kept_lines(),
            name: open.name.clone(),
            of: match stretch.away {
                Away::Wall(_) => "wall",
                Away::Posts(_) => "posts",
                Away::Nothing { .. } => "joists",
            },
            line: line_name(stretch, &words),
            left: self.left_of_line().map(typed),
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
            progress: match &open.under_way {
                Some(studying) => Some(studying.progress()),
                None => (!study.over.read).then_some((0, 0)),
            },
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
}

fn kept_line(study: &Study) -> KeptLine {
    let lightest = study.beams.choices.iter().find(|it| it.lightest);
    let beam = lightest.map_or_else(|| "no size here".to_owned(), |it| it.name.clone());
    let ends: Vec<String> = study.beams.supports.iter().map(|it| pounds(it.most)).collect();
    let props: Vec<String> = study.shoring.lines.iter().map(|it| plf(it.most)).collect();
    KeptLine { name: String::new(), beam, ends: ends.join(" + "), props: props.join(" + ") }
}

/// What the line of a study is called.
fn line_name(stretch: &Stretch, words: &Words<'_>) -> String {
    match stretch.away {
        Away::Wall(id) => words.name(ElementId::Wall(id)),
        Away::Posts(id) => words.name(ElementId::Beam(id)),
        Away::Nothing { level, .. } => format!("joists over {}", words.level(level)),
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

/// Over the headers.
const HEADERS: &str = "Headers of the code's tables, for a narrower opening kept in this wall instead:";

fn groups(study: &Study) -> Vec<Group> {
    let lands = vec![line("", &study.lands.figures)];
    let lost = study.loses.members.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let lost = lost.chain([line("", &study.loses.figures)]).collect();
    let beam = vec![line("", &study.beams.figures)];
    let posts = study.ends.posts.iter().map(|it| line(it.sentence.as_str(), &it.figures));
    let headers = &study.ends.header_figures;
    let ends = core::iter::once(line("", &study.ends.figures)).chain(posts);
    let ends = ends.chain([line(if headers.is_empty() { "" } else { HEADERS }, headers)]).collect();
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
