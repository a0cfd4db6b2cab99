//! What the panels ask for: one value for each button, choice and typed text of the page.

use joistwise_core::card::By;
use joistwise_core::ids::{ElementId, FootingId, LevelId};
use joistwise_core::plan::{Edit, Element, Footing, FootingShape, LevelKind, OpeningKind, Plan};
use joistwise_core::tape::{self, Tape};
use joistwise_core::units::Ticks;
use serde::Deserialize;

use super::survey::Said;
use super::{Answer, App, form};
use crate::gesture::{Effect, Settings, typed};
use crate::scene::Margins;
use crate::view::{Layer, Scheme, Screen, Tool};

/// What a panel asks for.
#[derive(Clone, Debug, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Command {
    /// Another tool.
    Tool(Tool),
    /// Whether joists get an area of their own, drawn first.
    AreaFirst(bool),
    /// What the next opening is.
    Opening(OpeningKind),
    /// How wide the next opening is.
    OpeningWidth(String),
    /// A text typed while drawing.
    Typed(String),
    /// Takes back the point set last, or what is being drawn.
    Back,
    /// Another level on the sheet.
    Level(LevelId),
    /// A new level.
    AddLevel(LevelKind),
    /// A level away.
    RemoveLevel(LevelId),
    /// One value of the level on the sheet.
    SetLevel(Setting),
    /// One value of the house: name, note, snow, soil.
    SetHouse(Setting),
    /// Another part chosen, or none.
    Choose(Option<ElementId>),
    /// One stretch of the chosen wall looked at alone, or all of it.
    Stretch(Option<usize>),
    /// By what the card gives its figures.
    By(By),
    /// Whether the roof is on the sheet.
    Roof(Layer),
    /// One value of the chosen part.
    Set(Setting),
    /// A photo of an observation that was chosen when it was picked.
    Photo(ElementId, String),
    /// The chosen part moved east and north, as typed.
    MoveBy(String, String),
    /// The chosen wall cut at a distance from its first end.
    Cut(String),
    /// A strip footing under the chosen wall.
    Strip,
    /// Something is to be noted of what is chosen.
    SeeChosen,
    /// Nothing is to be noted after all.
    SeeNothing,
    /// What was seen where somebody tapped: kind, detail, day.
    Record(String, String, String),
    /// Somebody saw what was told of a part.
    SawIt(ElementId),
    /// A look checked off: its number in the list, which outcome, the day.
    Looked(usize, usize, String),
    /// The survey opened or closed.
    Survey(bool),
    /// A step of the survey brought onto the sheet.
    SurveyAt(String),
    /// What somebody says of a step, and the day.
    Surveyed(String, Said, String),
    /// What if a stretch of the chosen wall were taken out?
    Study,
    /// One value of the study.
    StudySet(Setting),
    /// The study kept, to be compared with others.
    StudyKeep,
    /// A kept study opened again.
    StudyOpen(usize),
    /// A kept study away.
    StudyDrop(usize),
    /// The proposed house becomes the house.
    StudyTake,
    /// The study away.
    StudyClose,
    /// The chosen part away.
    Remove,
    /// The answer to the question at the top.
    Answer(Answer),
    /// A new house of a typed size.
    New(String),
    /// An empty sheet.
    Clear,
    /// One step back.
    Undo,
    /// One step forward again.
    Redo,
    /// Show all of the level.
    Fit,
    /// Scale about the middle of the canvas.
    Zoom(f64),
    /// Move the sheet by CSS pixels.
    Pan(f64, f64),
    /// What panels cover of the canvas, in CSS pixels.
    Covered {
        /// On the left.
        left: f64,
        /// Above.
        top: f64,
        /// On the right.
        right: f64,
        /// Below.
        bottom: f64,
    },
    /// Other inks.
    Scheme(Scheme),
    /// Another tape.
    Tape(Tape),
    /// A sentence of the page's own, shown like any other.
    Say(String),
    /// The sentence was read.
    Dismiss,
}

/// One value by its name in the form.
#[derive(Clone, Debug, Deserialize)]
pub struct Setting {
    /// Its name.
    pub key: String,
    /// What was typed or chosen.
    pub value: String,
}

impl App {
    /// Does what a panel asks for, or says why not.
    pub fn command(&mut self, command: Command) {
        self.stale.panels = true;
        if let Err(sentence) = self.obey(command) {
            self.say(&sentence);
        }
        self.find_path();
    }

    fn obey(&mut self, command: Command) -> Result<(), String> {
        match command {
            Command::Tool(tool) => self.become_gesture_with(Effect::Take(tool)),
            Command::AreaFirst(area_first) => self.set_tools(Settings { area_first, ..self.settings }),
            Command::Opening(opening) => {
                // A door is 3 ft wide, a window 4 ft, a passage 5 ft, until somebody says otherwise.
                let feet = match opening {
                    OpeningKind::Door => 3,
                    OpeningKind::Window => 4,
                    OpeningKind::Passage => 5,
                };
                self.set_tools(Settings { opening, opening_width: Ticks::from_feet(feet), ..self.settings });
            }
            Command::OpeningWidth(text) => self.opening_width(&text)?,
            Command::Typed(text) if self.view.tool == Tool::Opening => self.opening_width(&text)?,
            Command::Typed(text) => {
                let desk = self.desk();
                let (gesture, effect) = typed(&self.gesture, &text, &desk).map_err(|error| error.to_string())?;
                self.notice = None;
                self.become_gesture(gesture, effect);
            }
            Command::Back => self.update(&crate::gesture::Input::Key(crate::gesture::Key::Back)),
            Command::Level(level) => {
                self.show_level(level);
                self.become_gesture_with(Effect::Redraw);
            }
            Command::AddLevel(kind) => self.commit(&Edit::AddLevel(kind)),
            Command::RemoveLevel(level) => self.commit(&Edit::RemoveLevel(level)),
            Command::SetLevel(setting) => {
                let edit = form::set_level(self.plan(), self.view.level, &setting.key, &setting.value)?;
                self.commit(&edit);
            }
            Command::SetHouse(setting) => {
                let edit = form::set_house(self.plan(), &setting.key, &setting.value)?;
                self.commit(&edit);
            }
            Command::Choose(part) => self.choose(part),
            Command::Stretch(stretch) => self.view.stretch = stretch,
            Command::By(by) => self.view.by = by,
            Command::Roof(roof) => {
                self.view.roof = roof;
                self.stale.paint = true;
            }
            Command::Set(setting) => {
                let part = self.view.chosen.ok_or_else(nothing_chosen)?;
                let edit = form::set(self.plan(), part, &setting.key, &setting.value)?;
                self.commit(&edit);
            }
            Command::Photo(part, name) => {
                let edit = form::set(self.plan(), part, "photo", &name)?;
                self.commit(&edit);
            }
            Command::MoveBy(east, north) => self.move_by(&east, &north)?,
            Command::Cut(text) => match self.view.chosen {
                Some(ElementId::Wall(wall)) => {
                    let at = tape::read(&text).map_err(|error| error.to_string())?;
                    self.commit(&Edit::Split { wall, at });
                }
                _ => return Err(nothing_chosen()),
            },
            Command::Strip => self.strip()?,
            Command::SeeChosen => self.see_chosen()?,
            Command::SeeNothing => self.see(None),
            Command::Record(key, detail, day) => self.record(&key, &detail, &day)?,
            Command::SawIt(part) => self.saw_it(part),
            Command::Looked(number, outcome, day) => self.looked(number, outcome, &day),
            Command::Survey(open) => self.walk(open),
            Command::SurveyAt(step) => self.walk_to(&step),
            Command::Surveyed(step, said, day) => self.walked(&step, said, &day)?,
            Command::Study => self.study_chosen()?,
            Command::StudySet(setting) => self.study_set(&setting.key, &setting.value)?,
            Command::StudyKeep => self.study_keep(),
            Command::StudyOpen(number) => self.study_open(number)?,
            Command::StudyDrop(number) => self.commit(&Edit::Unkeep(number)),
            Command::StudyTake => self.study_take(),
            Command::StudyClose => self.study_close(),
            Command::Remove => self.remove(),
            Command::Answer(answer) => self.answer(&answer)?,
            Command::New(size) => {
                let (length, width) = tape::read_pair(&size).map_err(|error| error.to_string())?;
                self.open(Plan::default());
                self.outline(length, width);
            }
            Command::Clear => self.open(Plan::default()),
            Command::Undo => self.become_gesture_with(Effect::Undo),
            Command::Redo => self.become_gesture_with(Effect::Redo),
            Command::Fit => self.fit(),
            Command::Zoom(factor) => {
                let at = self.desk().middle;
                self.look(at, at, factor);
            }
            Command::Pan(dx, dy) => {
                self.look(Screen::default(), Screen { x: dx, y: dy }, 1.0);
            }
            Command::Covered { left, top, right, bottom } => self.cover(Margins { left, top, right, bottom }),
            Command::Scheme(scheme) => {
                self.view.scheme = scheme;
                self.stale.paint = true;
            }
            Command::Tape(tape) => {
                self.view.tape = tape;
                self.stale.paint = true;
            }
            Command::Say(sentence) => self.notice = Some(sentence),
            Command::Dismiss => self.notice = None,
        }
        Ok(())
    }

    /// Carries out an effect with nothing left half drawn.
    fn become_gesture_with(&mut self, effect: Effect) {
        self.become_gesture(crate::gesture::Gesture::Idle, effect);
    }

    fn set_tools(&mut self, settings: Settings) {
        self.settings = settings;
        self.become_gesture_with(Effect::Redraw);
    }

    fn opening_width(&mut self, text: &str) -> Result<(), String> {
        let opening_width = tape::read(text).map_err(|error| error.to_string())?;
        if opening_width > Ticks::ZERO {
            self.set_tools(Settings { opening_width, ..self.settings });
        }
        Ok(())
    }

    fn move_by(&mut self, east: &str, north: &str) -> Result<(), String> {
        let element = self.view.chosen.ok_or_else(nothing_chosen)?;
        let length = |text: &str| {
            let blank = text.trim().is_empty();
            if blank { Ok(Ticks::ZERO) } else { tape::read(text).map_err(|error| error.to_string()) }
        };
        self.commit(&Edit::Move { element, dx: length(east)?, dy: length(north)? });
        Ok(())
    }

    /// A strip as wide as code tables ask of a light house, under the line of the chosen wall.
    fn strip(&mut self) -> Result<(), String> {
        let Some(ElementId::Wall(wall)) = self.view.chosen else {
            return Err(nothing_chosen());
        };
        let Some((level, wall)) = self.plan().wall(wall) else {
            return Err(nothing_chosen());
        };
        let shape = FootingShape::Strip { a: wall.a, b: wall.b, width: Ticks::from_sixteenths(16 * 16) };
        let footing = Footing { id: FootingId::from_number(0), shape, thickness: None, make: Default::default() };
        self.commit(&Edit::Add(level.id, Element::Footing(footing)));
        Ok(())
    }

    fn cover(&mut self, margins: Margins) {
        let Margins { left, top, right, bottom } = margins;
        let sound = [left, top, right, bottom].iter().all(|px| px.abs() <= super::MOST_PX);
        if self.margins == margins || !sound {
            return;
        }
        let first = self.margins == Margins::default();
        self.margins = margins;
        // Under a sheet drawn half way up, scale bar and north stay where they were: they do not wander into the plan.
        if margins.bottom < self.view.view.height * 0.4 {
            self.view.covered_below = margins.bottom;
        }
        if first && self.view.chosen.is_none() {
            self.fit();
        }
        self.reveal();
        self.stale.paint = true;
    }
}

pub(super) fn nothing_chosen() -> String {
    form::FormError::NothingChosen.to_string()
}
