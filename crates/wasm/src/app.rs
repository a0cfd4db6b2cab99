//! The open house and how it is looked at: history, trace, gesture, view. `update` takes input, `command` the panels'.
//!
//! No page and no painting here: `lib` paints what [`App::scene`] gives and shows what [`App::state`] says.

use core::cell::RefCell;
use std::collections::BTreeMap;
use std::rc::Rc;

use joistwise_core::card::By;
use joistwise_core::geometry::Spot;
use joistwise_core::ids::{ElementId, LevelId, WallId};
use joistwise_core::path::{Start, path};
use joistwise_core::plan::{Edit, Element, LevelKind, Plan, Point};
use joistwise_core::readings::{as_known, known_trace};
use joistwise_core::tape::Tape;
use joistwise_core::trace::Trace;
use joistwise_core::units::{Feet, Pounds};

use crate::gesture::{Desk, Effect, Gesture, Input, Settings};
use crate::scene::{self, Margins, Scene};
use crate::view::{Drafting, Layer, Scheme, Screen, Tool, View, ViewState};

mod ask;
mod command;
mod form;
mod history;
mod house;
mod reading;
mod seen;
mod state;
mod study;
mod survey;

pub use ask::{Answer, Ask};
pub use command::Command;
pub use history::History;
pub use reading::{ProofLine, proofs};
pub use state::State;
pub use survey::Said;

/// Smallest and largest scale, in CSS pixels a foot.
const SCALES: (f64, f64) = (1.5, 320.0);
/// How far from its origin the sheet can be moved: farther than any plan reaches.
const FARTHEST: Feet = Feet(20_000.0);
/// The most CSS pixels a canvas is taken to have on a side.
const MOST_PX: f64 = 32_768.0;
/// Room for dimensions around a fitted house, in CSS pixels.
const DIMENSIONS: f64 = 64.0;
/// On a narrow canvas dimensions get this share of its width: a line, its figure beside it, and a little air.
const NARROW: f64 = 7.0;

/// The plan as it would be, while a part is being moved.
#[derive(Clone, Debug)]
struct Preview {
    plan: Plan,
    trace: Trace,
}

/// The house in lines of text, after the revision and for the tape it was written for.
type Written = ((u32, Tape), Rc<house::House>);

/// What is put down on the joists to see where a weight goes.
const PUT_DOWN: Pounds = Pounds(1000.0);

/// What has changed since it was last shown.
#[derive(Clone, Copy, Debug, Default)]
struct Stale {
    paint: bool,
    panels: bool,
}

/// The open house and how it is looked at.
#[derive(Debug)]
pub struct App {
    history: History,
    /// The plan with what was seen put in: what is drawn and traced.
    known: Rc<Plan>,
    trace: Rc<Trace>,
    reading: reading::Reading,
    /// Where somebody is about to note what was seen.
    seeing_at: Option<(LevelId, Point)>,
    /// The take-out study that is open.
    study: Option<study::Open>,
    /// The kept studies side by side: of which revision, with how many ranges read.
    compared: Option<study::Compared>,
    /// Whether a wall is needed, in a sentence: of which revision and wall.
    needs: RefCell<Option<(u32, WallId, String)>>,
    /// Whether the survey is open, and with which wall first.
    surveying: Option<Option<WallId>>,
    preview: Option<Preview>,
    gesture: Gesture,
    view: ViewState,
    settings: Settings,
    /// Questions that were answered or left open, with the number of steps there were then.
    asked: BTreeMap<(u32, Ask), usize>,
    margins: Margins,
    notice: Option<String>,
    status: String,
    /// Grows with each change of the plan; the page keeps the house when it does.
    revision: u32,
    /// Grows when another house is opened.
    opened: u32,
    stale: Stale,
    fitted: bool,
    house: RefCell<Option<Written>>,
    /// Of which start, in which plan, the path of the view is.
    path_of: Option<(u32, Start)>,
}

impl Default for App {
    fn default() -> Self {
        Self::new()
    }
}

impl App {
    /// An empty house.
    #[must_use]
    pub fn new() -> Self {
        let plan = Plan::default();
        let view = ViewState {
            by: By::Heaviest,
            view: View::default(),
            level: storey_of(&plan),
            chosen: None,
            stretch: None,
            put_down: None,
            path: None,
            roof: Layer::Shown,
            hover: None,
            tool: Tool::Pick,
            drafting: Drafting::Nothing,
            snap: None,
            scheme: Scheme::Paper,
            tape: Tape::Feet,
            key_cursor: None,
            covered_below: 0.0,
            looks: Vec::new(),
            studied: None,
        };
        Self {
            known: Rc::new(plan.clone()),
            trace: Rc::new(known_trace(&plan)),
            reading: reading::Reading::default(),
            seeing_at: None,
            study: None,
            compared: None,
            needs: RefCell::new(None),
            surveying: None,
            history: History::new(plan),
            preview: None,
            gesture: Gesture::Idle,
            view,
            settings: Settings::default(),
            asked: BTreeMap::new(),
            margins: Margins::default(),
            notice: None,
            status: String::new(),
            revision: 0,
            opened: 0,
            stale: Stale { paint: true, panels: true },
            fitted: false,
            house: RefCell::new(None),
            path_of: None,
        }
    }

    /// The open house.
    #[must_use]
    pub fn plan(&self) -> &Plan {
        self.history.now()
    }

    /// Its steps.
    #[must_use]
    pub const fn history(&self) -> &History {
        &self.history
    }

    /// The open house with what was seen put in.
    #[must_use]
    pub fn known(&self) -> &Plan {
        &self.known
    }

    /// Its trace.
    #[must_use]
    pub fn trace(&self) -> &Trace {
        &self.trace
    }

    /// How it is looked at.
    #[must_use]
    pub const fn view(&self) -> &ViewState {
        &self.view
    }

    /// The drawing as it is now.
    #[must_use]
    pub fn scene(&self) -> Scene {
        match &self.preview {
            Some(preview) => scene::scene(&preview.plan, &preview.trace, &self.view),
            None => match self.studied_house() {
                Some((plan, trace)) => scene::scene(plan, trace, &self.view),
                None => scene::scene(&self.known, &self.trace, &self.view),
            },
        }
    }

    /// What the panels show.
    #[must_use]
    pub fn state(&self) -> State {
        state::state(self)
    }

    /// Whether the drawing has changed since the last call.
    pub fn take_paint(&mut self) -> bool {
        core::mem::take(&mut self.stale.paint)
    }

    /// Whether what the panels show has changed since the last call.
    pub fn take_panels(&mut self) -> bool {
        core::mem::take(&mut self.stale.panels)
    }

    /// Takes an input from the canvas.
    pub fn update(&mut self, input: &Input) {
        match input {
            Input::Space(held) => self.settings.space_held = *held,
            Input::Move(_) | Input::Down(_) | Input::Blur => self.view.key_cursor = None,
            _ => {}
        }
        let gesture = core::mem::take(&mut self.gesture);
        let was_drawing = gesture.draft().is_some();
        let (gesture, effect) = gesture.step(input, &self.desk());
        self.become_gesture(gesture, effect);
        if was_drawing != self.gesture.draft().is_some() || !matches!(input, Input::Move(_)) {
            self.stale.panels = true;
        }
        self.find_path();
    }

    /// Where the path of what is chosen or put down starts.
    fn start(&self) -> Option<Start> {
        if let Some(at) = self.view.put_down {
            return Some(Start::Deck { level: self.view.level, at: at.into(), weight: PUT_DOWN });
        }
        let part = self.view.chosen?;
        let stretch = match part {
            ElementId::Wall(id) => self.trace.wall(id).zip(self.view.stretch),
            _ => None,
        };
        let stretch = stretch.and_then(|(wall, number)| wall.stretches.get(number));
        Some(stretch.map_or(Start::Part(part), |it| Start::Run { part, from: it.start, to: it.end }))
    }

    /// Follows the path of what is chosen now, if it is another than before.
    fn find_path(&mut self) {
        let start = self.start().map(|start| (self.revision, start));
        if start == self.path_of {
            return;
        }
        self.path_of = start;
        self.view.path = start.and_then(|(_, start)| path(&self.known, &self.trace, &start)).map(Rc::new);
        self.stale = Stale { paint: true, panels: true };
        if self.view.put_down.is_some() {
            self.status = state::spoken_of_weight(self);
        }
    }

    /// A weight put down on the joists, to see where it goes.
    fn put_down(&mut self, at: Point) {
        self.choose(None);
        self.view.put_down = Some(at);
        self.bring_in(at.into(), at.into());
    }

    /// What inputs are judged by.
    fn desk(&self) -> Desk<'_> {
        let (width, height) = (self.view.view.width, self.view.view.height);
        let Margins { left, top, right, bottom } = self.fit_margins();
        let middle = Screen { x: (left + width - right) / 2.0, y: (top + height - bottom) / 2.0 };
        Desk { plan: self.history.now(), view: &self.view, settings: &self.settings, middle }
    }

    fn become_gesture(&mut self, gesture: Gesture, effect: Effect) {
        self.gesture = gesture;
        self.carry_out(effect);
        self.view.drafting = self.gesture.drafting(&self.desk());
        self.view.snap = self.gesture.mark();
    }

    fn carry_out(&mut self, effect: Effect) {
        if !matches!(effect, Effect::None | Effect::Hover(_)) {
            self.stale.paint = true;
        }
        if !matches!(effect, Effect::None | Effect::Preview(_)) {
            self.preview = None;
        }
        match effect {
            Effect::None | Effect::Redraw => {}
            Effect::Preview(edit) => self.show(&edit),
            Effect::Commit(edit) => self.commit(&edit),
            Effect::Choose(part) => self.choose(part),
            Effect::PutDown(at) => self.put_down(at),
            Effect::See(at) => self.see(Some(at)),
            Effect::Roof => self.view.roof = self.view.roof.other(),
            Effect::Hover(part) => {
                self.stale.paint |= self.view.hover != part;
                self.view.hover = part;
            }
            Effect::Look { from, to, factor } => self.look(from, to, factor),
            Effect::Fit => self.fit(),
            Effect::Cross(at) => {
                self.view.key_cursor = Some(at);
                self.bring_in(at.into(), at.into());
                self.status = state::place(at, self.view.tape, self.gesture.mark());
            }
            Effect::Take(tool) => self.take_tool(tool),
            Effect::Remove => self.remove(),
            Effect::Undo => self.travel(History::undo),
            Effect::Redo => self.travel(History::redo),
            Effect::Say(refusal) => self.say(&refusal),
        }
    }

    /// A sentence for the person at the page.
    fn say(&mut self, sentence: &impl ToString) {
        self.notice = Some(sentence.to_string());
        self.stale.panels = true;
    }

    fn show(&mut self, edit: &Edit) {
        // What cannot be is not shown; the last preview that could stays.
        if let Ok(plan) = self.plan().with(edit) {
            let trace = known_trace(&plan);
            self.preview = Some(Preview { plan: as_known(&plan), trace });
        }
    }

    /// Changes the plan, or says why not.
    fn commit(&mut self, edit: &Edit) {
        match self.plan().with(edit) {
            Ok(plan) if plan == *self.plan() => {}
            Ok(plan) => {
                let levels: Vec<LevelId> = self.plan().levels().iter().map(|level| level.id).collect();
                self.take(plan);
                self.follow(edit, &levels);
            }
            Err(error) => self.say(&error),
        }
    }

    /// Another plan, in one step.
    fn take(&mut self, plan: Plan) {
        // What was asked in steps that are taken back for good is open again.
        let steps = self.history.steps();
        self.asked.retain(|_, at| *at <= steps);
        self.history.commit(plan);
        self.changed();
    }

    /// After a change: a new level comes onto the sheet, a new part is chosen.
    fn follow(&mut self, edit: &Edit, before: &[LevelId]) {
        match edit {
            Edit::AddLevel(_) => {
                let new = self.plan().levels().iter().map(|level| level.id).find(|id| !before.contains(id));
                new.into_iter().for_each(|id| self.show_level(id));
            }
            Edit::Add(_, element) => {
                let part = numbered(element.id(), self.plan().newest());
                let quiet = matches!(part, ElementId::Field(_) | ElementId::Roof(_)) && !self.settings.area_first;
                // One cut is noted at a time: its form comes next.
                if matches!(part, ElementId::JoistCut(_)) {
                    self.take_tool(Tool::Pick);
                }
                if !quiet {
                    self.choose(Some(part));
                }
                if matches!(part, ElementId::Field(_)) {
                    self.settings.area_first = false;
                    self.tool_for_next();
                }
            }
            // An arrow has answered which way the joists run.
            Edit::Change(Element::Field(_)) if self.view.tool == Tool::Joists => self.tool_for_next(),
            Edit::Outline { .. } => {
                self.choose(None);
                self.fit();
                if self.view.tool == Tool::Outline {
                    self.take_tool(Tool::Pick);
                }
            }
            _ => self.tell_chosen(),
        }
    }

    /// Everything that follows from another plan.
    fn changed(&mut self) {
        self.known = Rc::new(as_known(self.plan()));
        self.trace = Rc::new(known_trace(self.plan()));
        self.reading.begin(self.history.now());
        self.view.looks.clear();
        self.preview = None;
        self.revision += 1;
        self.study_again();
        self.notice = None;
        self.stale = Stale { paint: true, panels: true };
        if self.plan().level(self.view.level).is_none() {
            self.view.level = storey_of(self.plan());
            self.view.put_down = None;
        }
        let gone = |part: &ElementId| self.plan().element(*part).is_none();
        if self.view.chosen.as_ref().is_some_and(gone) {
            self.view.chosen = None;
        }
        self.view.hover = None;
    }

    fn travel(&mut self, way: fn(&mut History) -> bool) {
        if way(&mut self.history) {
            self.gesture = Gesture::Idle;
            self.changed();
        }
    }

    fn choose(&mut self, part: Option<ElementId>) {
        self.let_go();
        self.view.chosen = part;
        if matches!(part, Some(ElementId::Roof(_) | ElementId::Purlin(_))) {
            self.view.roof = Layer::Shown;
        }
        let level = part.and_then(|part| self.plan().level_of(part)).map(|level| level.id);
        if let Some(level) = level.filter(|level| *level != self.view.level) {
            self.view.level = level;
        }
        self.reveal();
        self.tell_chosen();
        self.stale = Stale { paint: true, panels: true };
    }

    /// Nothing chosen, nothing put down.
    const fn let_go(&mut self) {
        self.view.chosen = None;
        self.view.stretch = None;
        self.view.put_down = None;
    }

    fn tell_chosen(&mut self) {
        if let Some(part) = self.view.chosen {
            self.status = state::spoken(&self.known, &self.trace, part, self.view.tape);
        }
    }

    fn take_tool(&mut self, tool: Tool) {
        self.gesture = Gesture::Idle;
        self.view.tool = tool;
        self.view.put_down = None;
        self.seeing_at = None;
        self.notice = None;
        if matches!(tool, Tool::Roof | Tool::Purlin) {
            self.view.roof = Layer::Shown;
        }
        if tool == Tool::Roof {
            let roof = self.plan().level(self.view.level).and_then(|level| level.roofs.last());
            let roof = roof.map(|roof| ElementId::Roof(roof.id));
            roof.into_iter().for_each(|roof| self.choose(Some(roof)));
        }
        self.stale = Stale { paint: true, panels: true };
    }

    fn remove(&mut self) {
        if let Some(part) = self.view.chosen {
            self.commit(&Edit::Remove(part));
        }
    }

    fn show_level(&mut self, level: LevelId) {
        self.view.level = level;
        self.let_go();
        self.gesture = Gesture::Idle;
        self.stale = Stale { paint: true, panels: true };
    }

    /// Opens another house; the steps of the last one are gone.
    pub fn open(&mut self, plan: Plan) {
        self.open_with(History::new(plan));
    }

    /// Opens another house with its own steps.
    pub fn open_with(&mut self, history: History) {
        let plan = history.now().clone();
        self.study = None;
        self.view.studied = None;
        self.asked = ask::settled(&plan);
        self.view.level = storey_of(&plan);
        self.let_go();
        self.view.tool = Tool::Pick;
        self.gesture = Gesture::Idle;
        self.history = history;
        self.opened += 1;
        self.changed();
        self.fit();
        self.find_path();
        self.status = self.plan().name().to_owned();
    }

    /// The canvas has this many CSS pixels, and this many device pixels for each. What is no size is passed over.
    pub fn resize(&mut self, width: f64, height: f64, dpr: f64) {
        let size = |px: f64| (0.0..=MOST_PX).contains(&px);
        if !size(width) || !size(height) || !size(dpr) {
            return;
        }
        self.view.view = View { width, height, dpr, ..self.view.view };
        if !self.fitted {
            self.fitted = true;
            self.fit();
        }
        self.stale.paint = true;
    }

    fn fit(&mut self) {
        let View { width, height, dpr, .. } = self.view.view;
        let margins = self.fit_margins();
        self.view.view = View { dpr, ..scene::fit(self.plan(), self.view.level, width, height, margins) };
        if self.plan().levels().iter().all(|level| level.element_ids().is_empty()) {
            self.make_room();
        }
        self.stale.paint = true;
    }

    /// An empty sheet has room for a usual house between the panels.
    fn make_room(&mut self) {
        const USUAL_FEET: (f64, f64) = (38.0, 26.0);
        let Margins { left, top, right, bottom } = self.fit_margins();
        let view = &mut self.view.view;
        let free = ((view.width - left - right).max(40.0), (view.height - top - bottom).max(40.0));
        view.scale = (free.0 / USUAL_FEET.0).min(free.1 / USUAL_FEET.1).clamp(4.0, 24.0);
        let middle = self.desk().middle;
        let usual = View::default().centre;
        let there = self.view.view.screen_from_plan(usual);
        self.look(there, middle, 1.0);
    }

    /// What panels cover, with room for dimensions.
    fn fit_margins(&self) -> Margins {
        let Margins { left, top, right, bottom } = self.margins;
        let room = DIMENSIONS.min(self.view.view.width / NARROW);
        Margins { left: left + room, top: top + room, right: right + room / 2.0, bottom: bottom + room }
    }

    /// Holds the place of the plan at `from` and brings it to `to`. A view that no plan could be in is not taken.
    fn look(&mut self, from: Screen, to: Screen, factor: f64) {
        let mut view = self.view.view;
        let held = view.plan_from_screen(from);
        let scale = view.scale * factor;
        if !(scale.is_finite() && scale > 0.0) {
            return;
        }
        view.scale = scale.clamp(SCALES.0, SCALES.1);
        let now = view.plan_from_screen(to);
        view.centre = Spot { x: view.centre.x + held.x - now.x, y: view.centre.y + held.y - now.y };
        if [view.centre.x, view.centre.y].iter().all(|at| at.0.abs() <= FARTHEST.0) {
            self.view.view = view;
            self.stale.paint = true;
        }
    }

    /// Moves the sheet so that what is chosen is not under a panel.
    fn reveal(&mut self) {
        let ends: Vec<Spot> = match (self.view.studied, self.view.chosen.and_then(|part| self.plan().element(part))) {
            (Some((a, b)), _) => vec![a.into(), b.into()],
            (None, Some(element)) => state::ends_of(self.plan(), &element).into_iter().map(Spot::from).collect(),
            (None, None) => self.view.put_down.map(Spot::from).into_iter().collect(),
        };
        let least = |of: fn(&Spot) -> f64| ends.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: fn(&Spot) -> f64| ends.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        if ends.is_empty() {
            return;
        }
        let low = Spot { x: Feet(least(|at| at.x.0)), y: Feet(least(|at| at.y.0)) };
        let high = Spot { x: Feet(most(|at| at.x.0)), y: Feet(most(|at| at.y.0)) };
        self.bring_in(low, high);
    }

    /// Moves the sheet by as little as shows this stretch of the plan between the margins; its middle if it is longer.
    fn bring_in(&mut self, low: Spot, high: Spot) {
        const EDGE: f64 = 28.0;
        let View { width, height, scale, .. } = self.view.view;
        let (a, b) = (self.view.view.screen_from_plan(low), self.view.view.screen_from_plan(high));
        let shift = |from: f64, to: f64, free_from: f64, free_to: f64| {
            if to - from > free_to - free_from {
                (free_from + free_to) / 2.0 - (from + to) / 2.0
            } else {
                (free_from - from).max(0.0) + (free_to - to).min(0.0)
            }
        };
        let Margins { left, top, right, bottom } = self.margins;
        let dx = shift(a.x, b.x, left + EDGE, width - right - EDGE);
        let dy = shift(b.y, a.y, top + EDGE, height - bottom - EDGE);
        let centre = self.view.view.centre;
        self.view.view.centre = Spot { x: centre.x - Feet(dx / scale), y: centre.y + Feet(dy / scale) };
        self.stale.paint = true;
    }
}

/// The level shown first: the lowest storey, or the lowest level of a house without one.
fn storey_of(plan: &Plan) -> LevelId {
    let storey = plan.levels().iter().find(|level| level.kind == LevelKind::Storey);
    storey.or(plan.levels().first()).map_or(LevelId::from_number(0), |level| level.id)
}

/// An id of the same kind with another number.
fn numbered(id: ElementId, number: u32) -> ElementId {
    use joistwise_core::ids::{
        BeamId, BoardId, FieldId, FloorOpeningId, FootingId, JoistCutId, ObservationId, OpeningId, PostId, PurlinId,
        RoofId, ThingId, WallId,
    };
    match id {
        ElementId::Wall(_) => ElementId::Wall(WallId::from_number(number)),
        ElementId::Opening(_) => ElementId::Opening(OpeningId::from_number(number)),
        ElementId::Post(_) => ElementId::Post(PostId::from_number(number)),
        ElementId::Beam(_) => ElementId::Beam(BeamId::from_number(number)),
        ElementId::Footing(_) => ElementId::Footing(FootingId::from_number(number)),
        ElementId::Field(_) => ElementId::Field(FieldId::from_number(number)),
        ElementId::FloorOpening(_) => ElementId::FloorOpening(FloorOpeningId::from_number(number)),
        ElementId::Roof(_) => ElementId::Roof(RoofId::from_number(number)),
        ElementId::Purlin(_) => ElementId::Purlin(PurlinId::from_number(number)),
        ElementId::Thing(_) => ElementId::Thing(ThingId::from_number(number)),
        ElementId::Observation(_) => ElementId::Observation(ObservationId::from_number(number)),
        ElementId::JoistCut(_) => ElementId::JoistCut(JoistCutId::from_number(number)),
        ElementId::Board(_) => ElementId::Board(BoardId::from_number(number)),
    }
}

#[cfg(test)]
mod tests;
