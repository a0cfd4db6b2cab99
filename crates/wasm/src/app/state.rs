//! What the panels show: one value, made anew after each change, with nothing in it that the canvas alone needs.

use std::rc::Rc;

use joistwise_core::card::{By, Card, Way, card_alone, card_by, card_of_weight};
use joistwise_core::evidence::Evidence;
use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::ladder::part_of;
use joistwise_core::loads::Combination;
use joistwise_core::path::Reach;
use joistwise_core::plan::{Element, FootingShape, Level, LevelKind, OpeningKind, Plan, Point, Region};
use joistwise_core::tape::{self, Tape};
use joistwise_core::words;
use serde::Serialize;

use super::form::{self, Values};
use super::house::{House, house};
use super::reading::{LookLine, Progress, Seeing, Settled};
use super::study::View as StudyView;
use super::survey::StageLine;
use super::{App, Ask};
use crate::gesture::draws;
use crate::view::{Layer, Scheme, SnapMark, Tool, ViewState};

/// What the panels show.
#[derive(Clone, Debug, Serialize)]
pub struct State {
    /// Grows with each change of the plan.
    revision: u32,
    /// Grows when another house is opened.
    opened: u32,
    house: Values,
    tool: Tool,
    area_first: bool,
    opening: OpeningKind,
    opening_width: String,
    scheme: Scheme,
    tape: Tape,
    levels: Vec<LevelLine>,
    level: Values,
    undo: bool,
    redo: bool,
    question: Option<Ask>,
    question_values: Values,
    /// Whether the question is the tool's own, so that no hint is needed.
    question_first: bool,
    hint: Option<Hint>,
    typing: bool,
    drafting: bool,
    chosen: Option<Chosen>,
    put_down: Option<PutDown>,
    /// By what the card gives its figures.
    by: By,
    /// The combinations it may give them by, as they are written with the snow of this house.
    combinations: [(Combination, &'static str); 6],
    roof: Layer,
    /// How far the readings are, once that takes a while.
    progress: Option<Progress>,
    looks: Vec<LookLine>,
    settled: Settled,
    seeing: Option<Seeing>,
    study: Option<StudyView>,
    /// What the kept studies are called.
    kept: Vec<String>,
    /// The stages of the survey, while it is open.
    survey: Option<Vec<StageLine>>,
    #[serde(serialize_with = "shared")]
    summary: Rc<House>,
    notice: Option<String>,
    status: String,
    /// Whether nothing is drawn on any level.
    empty: bool,
    /// How many photos the house holds; links leave them out.
    photos: usize,
}

#[derive(Clone, Debug, Serialize)]
struct LevelLine {
    id: LevelId,
    name: String,
    kind: LevelKind,
    here: bool,
    roof: bool,
    /// Whether the path of what is chosen passes it.
    path: bool,
}

/// What to do next with the tool in hand; the words are the page's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
enum Hint {
    Corner,
    NextCorner,
    WallStart,
    WallEnd,
    BeamStart,
    BeamEnd,
    Arrow,
    ArrowEnd,
    Area,
    AreaEnd,
    Hole,
    HoleEnd,
    Ridge,
    RidgeEnd,
    PurlinStart,
    PurlinEnd,
    Thing,
    ThingEnd,
    JoistCut,
    BoardStart,
    BoardEnd,
    Opening,
    Post,
    Pad,
    Cut,
    Seen,
    Hand,
}

/// A weight put down to see where it goes.
#[derive(Clone, Debug, Serialize)]
struct PutDown {
    level_name: String,
    card: Card,
}

#[derive(Clone, Debug, Serialize)]
struct Chosen {
    part: ElementId,
    level_name: String,
    /// The stretch that is looked at alone.
    stretch: Option<usize>,
    values: Values,
    card: Card,
    /// How the role of an inside wall is known.
    evidence: Option<Evidence>,
    /// What was told of it, if it is no wall, and nobody says that he saw.
    told: Option<String>,
    /// Why what passes over an inside wall needs it, or does not.
    needs: Option<String>,
    /// Whether it has a place of its own that can be moved.
    moves: bool,
    /// Whether a strip footing can be put under it.
    lowest: bool,
    /// Its ends, where they are on the canvas, in CSS pixels.
    ends: Vec<(f64, f64)>,
}

pub(super) fn state(app: &App) -> State {
    let plan = app.plan();
    let view = app.view();
    let question = app.question().map(|(ask, _)| ask);
    State {
        revision: app.revision,
        opened: app.opened,
        house: form::house_values(plan),
        tool: view.tool,
        area_first: app.settings.area_first,
        opening: app.settings.opening,
        opening_width: tape::print(app.settings.opening_width, view.tape),
        scheme: view.scheme,
        tape: view.tape,
        levels: plan.levels().iter().rev().map(|level| line(level, view)).collect(),
        level: form::level_values(plan, view.level, view.tape),
        undo: app.history.can_undo(),
        redo: app.history.can_redo(),
        question,
        question_values: app.question_values(),
        question_first: question.is_some_and(|ask| answers(view.tool, ask)) && app.gesture.draft().is_none(),
        hint: hint(app),
        typing: match view.tool {
            Tool::Joists | Tool::Roof => app.settings.area_first,
            Tool::Post | Tool::Pad | Tool::JoistCut | Tool::Seen => false,
            tool => draws(tool),
        },
        drafting: app.gesture.draft().is_some(),
        chosen: view.chosen.and_then(|part| chosen(app, part)),
        put_down: put_down(app),
        by: view.by,
        combinations: Combination::ALL.map(|one| (one, words::combination(one, plan.site().snow_edition))),
        roof: view.roof,
        progress: app.reading.progress(),
        looks: app.look_lines(),
        settled: app.settled(),
        seeing: app.seeing(),
        study: app.study_view(),
        kept: app.kept_names(),
        survey: app.survey_lines(),
        summary: summary(app),
        notice: app.notice.clone(),
        status: app.status.clone(),
        photos: plan.levels().iter().flat_map(|it| &it.observations).filter(|it| !it.photo.is_empty()).count(),
        empty: plan.levels().iter().all(|level| level.element_ids().is_empty()),
    }
}

fn line(level: &Level, view: &ViewState) -> LevelLine {
    let (id, name, kind) = (level.id, level.name.clone(), level.kind);
    let on = |it: &Reach| part_of(it.node).is_some_and(|part| level.element(part).is_some());
    let path = view.path.as_ref().is_some_and(|path| path.up.iter().chain(&path.down).any(on));
    LevelLine {
        id,
        name,
        kind,
        here: id == view.level,
        roof: !level.roofs.is_empty(),
        path: path || (view.path.is_some() && id == view.level),
    }
}

fn put_down(app: &App) -> Option<PutDown> {
    let view = app.view();
    let path = view.path.as_ref().filter(|_| view.put_down.is_some())?;
    let card = card_of_weight(&app.known, app.trace(), path, view.tape)?;
    Some(PutDown { level_name: app.plan().level(view.level)?.name.clone(), card })
}

/// What is said aloud of a weight put down.
pub(super) fn spoken_of_weight(app: &App) -> String {
    let Some(PutDown { card, .. }) = put_down(app) else { return String::new() };
    let down = card.ladder.iter().filter(|rung| rung.way == Way::Down);
    let rungs: Vec<String> = down.map(|rung| format!("{} {}", rung.title, rung.figure)).collect();
    format!("{}: {} {}.", card.title, card.sentence, rungs.join(", "))
}

fn summary(app: &App) -> Rc<House> {
    let mut kept = app.house.borrow_mut();
    match kept.as_ref() {
        Some((made_for, house)) if *made_for == (app.revision, app.view.tape, app.is_reading()) => Rc::clone(house),
        _ => {
            let made = Rc::new(house(app));
            *kept = Some(((app.revision, app.view.tape, app.is_reading()), Rc::clone(&made)));
            made
        }
    }
}

fn shared<S: serde::Serializer>(house: &Rc<House>, writer: S) -> Result<S::Ok, S::Error> {
    house.as_ref().serialize(writer)
}

fn chosen(app: &App, part: ElementId) -> Option<Chosen> {
    let plan = app.plan();
    let level = plan.level_of(part)?;
    let element = plan.element(part)?;
    let on_canvas = |at: Point| app.view.view.screen_from_plan(at.into());
    Some(Chosen {
        part,
        level_name: level.name.clone(),
        stretch: app.view.stretch,
        values: form::values(plan, part, app.view.tape),
        card: app.judged(
            part,
            card_by(&app.known, app.trace(), part, app.view.path.as_deref(), app.view.tape, app.view.by)?,
        ),
        evidence: app.evidence_of(part),
        told: app.told_of(part),
        needs: app.needs_of(part),
        moves: !matches!(&element, Element::Field(field) if field.region == Region::Outline)
            && !matches!(&element, Element::Roof(roof) if roof.region == Region::Outline),
        lowest: plan.level_below(level.id).is_none(),
        ends: ends_of(plan, &element).into_iter().map(on_canvas).map(|at| (at.x, at.y)).collect(),
    })
}

/// Whether a question is one that the tool in hand answers, or that no tool stands in the way of.
const fn answers(tool: Tool, ask: Ask) -> bool {
    match tool {
        Tool::Pick => true,
        Tool::Outline => matches!(ask, Ask::Outline),
        Tool::Joists => matches!(ask, Ask::Overhead | Ask::Way),
        Tool::Roof => matches!(ask, Ask::Roof | Ask::Ridge),
        Tool::InsideWall => matches!(ask, Ask::Walls),
        _ => false,
    }
}

fn hint(app: &App) -> Option<Hint> {
    let drafting = app.gesture.draft().is_some();
    let (first, second) = match app.view.tool {
        Tool::Pick => return None,
        Tool::Outline => (Hint::Corner, Hint::NextCorner),
        Tool::InsideWall => (Hint::WallStart, Hint::WallEnd),
        Tool::Beam => (Hint::BeamStart, Hint::BeamEnd),
        Tool::Joists if app.settings.area_first => (Hint::Area, Hint::AreaEnd),
        Tool::Joists => (Hint::Arrow, Hint::ArrowEnd),
        Tool::FloorOpening => (Hint::Hole, Hint::HoleEnd),
        Tool::Roof if app.settings.area_first => (Hint::Area, Hint::AreaEnd),
        Tool::Roof => (Hint::Ridge, Hint::RidgeEnd),
        Tool::Purlin => (Hint::PurlinStart, Hint::PurlinEnd),
        Tool::Thing => (Hint::Thing, Hint::ThingEnd),
        Tool::JoistCut => (Hint::JoistCut, Hint::JoistCut),
        Tool::Board => (Hint::BoardStart, Hint::BoardEnd),
        Tool::Opening => (Hint::Opening, Hint::Opening),
        Tool::Post => (Hint::Post, Hint::Post),
        Tool::Pad => (Hint::Pad, Hint::Pad),
        Tool::Split => (Hint::Cut, Hint::Cut),
        Tool::Seen => (Hint::Seen, Hint::Seen),
        Tool::Hand => (Hint::Hand, Hint::Hand),
    };
    Some(if drafting { second } else { first })
}

/// What is said aloud of a chosen part.
pub(super) fn spoken(app: &App, part: ElementId) -> String {
    let card = card_alone(&app.known, app.trace(), part, app.view.tape).unwrap_or_default();
    let card = app.judged(part, card);
    let width = card.figures.first().map(|figure| format!(" {}: {}.", figure.label, figure.value)).unwrap_or_default();
    format!("{}: {}{width}", card.title, card.sentence)
}

/// What is said aloud of the cross: how far east and north it is, and what it is on.
pub(super) fn place(at: Point, tape: Tape, mark: Option<SnapMark>) -> String {
    let (east, north) = (tape::print(at.x, tape), tape::print(at.y, tape));
    let word = mark.map(|mark| format!(", {}", mark.word)).unwrap_or_default();
    format!("{east} east, {north} north{word}")
}

/// The places that a part spans on the plan; none for what covers a whole level.
pub(super) fn ends_of(plan: &Plan, element: &Element) -> Vec<Point> {
    match element {
        Element::Wall(wall) => vec![wall.a, wall.b],
        Element::Opening(opening) => plan.wall(opening.wall).map(|(_, wall)| vec![wall.a, wall.b]).unwrap_or_default(),
        Element::Post(post) => vec![post.at],
        Element::Beam(beam) => vec![beam.a, beam.b],
        Element::Footing(footing) => match footing.shape {
            FootingShape::Pad { at, .. } => vec![at],
            FootingShape::Strip { a, b, .. } => vec![a, b],
        },
        Element::Field(field) => corners(&field.region),
        Element::FloorOpening(opening) => opening.corners.clone(),
        Element::Roof(roof) => corners(&roof.region),
        Element::Purlin(purlin) => vec![purlin.a, purlin.b],
        Element::Thing(thing) => thing.corners.clone(),
        Element::Observation(seen) => vec![seen.at],
        Element::JoistCut(cut) => vec![cut.at],
        Element::Board(board) => vec![board.a, board.b],
    }
}

fn corners(region: &Region) -> Vec<Point> {
    match region {
        Region::Outline => Vec::new(),
        Region::Corners(corners) => corners.clone(),
    }
}
