//! The one question at the top: what to ask next of the level on the sheet, and what an answer changes.
//!
//! Every question may be answered "not seen yet" and is then not asked again; the plan keeps saying what is open.

use std::collections::BTreeMap;

use joistwise_core::ids::ElementId;
use joistwise_core::plan::{
    Came, Edit, Element, Grade, Joints, JoistField, Level, LevelKind, Plan, Point, Region, Roof, RoofFrame, Side,
    StepKey, Task,
};
use joistwise_core::readings::{Turn, part, turns};
use joistwise_core::units::Ticks;
use joistwise_core::words::Words;
use serde::{Deserialize, Serialize};

use super::App;
use super::form::{self, FormError, Values};
use crate::gesture;
use crate::view::Tool;

/// A question.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Ask {
    /// How large is the house?
    Outline,
    /// What is overhead?
    Overhead,
    /// Which way do the joists run?
    Way,
    /// Where do the joists turn that were seen to run two ways?
    Turn,
    /// What size are they, how far apart?
    Size,
    /// Do they lap over a wall?
    Laps,
    /// What is above them?
    Above,
    /// Where are the inside walls?
    Walls,
    /// How is the roof framed?
    Roof,
    /// Which way does the ridge run, how steep is it?
    Ridge,
    /// What is the ground snow load?
    Snow,
}

/// An answer to a question.
#[derive(Clone, Debug, Deserialize)]
pub struct Answer {
    /// To which.
    pub ask: Ask,
    /// The word of the button; `not_seen` for all.
    pub say: String,
    /// What was typed beside it.
    #[serde(default)]
    pub texts: Vec<String>,
}

/// The numbers of lines on which joists may turn, as the page says them.
const LINES: [&str; 4] = ["0", "1", "2", "3"];

/// What an answer leaves open as soon as it is given.
const NOT_SEEN: &str = "not_seen";

/// Questions that an opened house has answered by what it is.
pub(super) fn settled(plan: &Plan) -> BTreeMap<(u32, Ask), usize> {
    let fields = plan.levels().iter().flat_map(|level| &level.fields).map(|field| (field.id.number(), Ask::Above));
    let roofs = plan.levels().iter().flat_map(|level| &level.roofs).map(|roof| (roof.id.number(), Ask::Ridge));
    fields.chain(roofs).map(|question| (question, 0)).collect()
}

impl App {
    /// The question to ask now, and about which level or part.
    pub(super) fn question(&self) -> Option<(Ask, u32)> {
        // What was seen has answered what it speaks of.
        let level = self.known.level(self.view.level)?;
        let looked = level.walls.iter().any(|wall| wall.joints != Joints::NotSeen);
        let own = level.id.number();
        let asked = |ask: Ask, about: u32| self.asked.get(&(about, ask)).is_some_and(|at| *at <= self.history.steps());
        let open = |ask: Ask, about: u32| (!asked(ask, about)).then_some((ask, about));
        if level.outlines().is_empty() {
            return Some((Ask::Outline, own));
        }
        let trusses = level.roofs.iter().any(|roof| matches!(roof.frame, RoofFrame::Trusses { .. }));
        let overhead = level.fields.is_empty() && !trusses && self.view.tool != Tool::Roof;
        if let Some(question) = overhead.then(|| open(Ask::Overhead, own)).flatten() {
            return Some(question);
        }
        let stored = StepKey { task: Task::Stored, level: Some(level.id), wall: None, end: None };
        let stored = self.plan().tick(stored).is_some_and(|tick| tick.came != Came::NotSeen);
        let of_field = |field: &JoistField| {
            let about = field.id.number();
            let unsure = matches!(field.known, Grade::Assumed | Grade::Unknown);
            let asks = [
                (unsure, Ask::Way),
                (!field.member.is_seen(), Ask::Size),
                (field.joints == Joints::NotSeen && !looked, Ask::Laps),
                (!stored, Ask::Above),
            ];
            asks.into_iter().filter(|(due, _)| *due).find_map(|(_, ask)| open(ask, about))
        };
        // Two true sightings part the deck.
        let turn = turns(level).into_iter().find_map(|turn| open(Ask::Turn, turn.field.number()));
        if let Some(question) = turn.filter(|_| self.view.tool == Tool::Pick) {
            return Some(question);
        }
        // A field that was just drawn is asked about before the others.
        let chosen = |field: &&JoistField| self.view.chosen == Some(ElementId::Field(field.id));
        let fields = level.fields.iter().find(chosen).and_then(of_field);
        let fields = fields.or_else(|| level.fields.iter().find_map(of_field));
        let walls = (level.kind == LevelKind::Storey && level.walls.iter().all(|wall| wall.side == Side::Outside))
            .then(|| open(Ask::Walls, own))
            .flatten();
        let top = self.plan().level_above(level.id).is_none();
        let roof =
            (top && level.roofs.is_empty() && level.kind != LevelKind::Basement && level.kind != LevelKind::CrawlSpace)
                .then(|| if self.view.tool == Tool::Roof { Some((Ask::Roof, own)) } else { open(Ask::Roof, own) })
                .flatten();
        let ridge = level.roofs.iter().find_map(|roof| open(Ask::Ridge, roof.id.number()));
        let roofed = self.plan().levels().iter().any(|level| !level.roofs.is_empty());
        let snow = (roofed && self.plan().site().ground_snow.is_none()).then(|| open(Ask::Snow, 0)).flatten();
        if self.view.tool == Tool::Roof {
            return roof.or(ridge).or(fields).or(snow);
        }
        fields.or(walls).or(roof).or(ridge).or(snow)
    }

    /// What the question's own fields show.
    pub(super) fn question_values(&self) -> Values {
        match self.question() {
            Some((Ask::Size, about)) => self.values_of(self.field(about).map(|field| ElementId::Field(field.id))),
            Some((Ask::Ridge, about)) => self.values_of(self.roof(about).map(|roof| ElementId::Roof(roof.id))),
            Some((Ask::Snow, _)) => form::house_values(self.plan()),
            Some((Ask::Turn, about)) => self.turn_values(about),
            _ => Values::new(),
        }
    }

    /// The lines on which the joists of a field may turn, in words, by their numbers.
    fn turn_values(&self, field: u32) -> Values {
        let words = Words::new(&self.known, self.view.tape);
        let lines = self.turn(field).map(|turn| turn.lines).unwrap_or_default();
        LINES.into_iter().zip(lines.iter().map(|line| words.turn_line(line))).collect()
    }

    fn turn(&self, field: u32) -> Option<Turn> {
        let level = self.known.level(self.view.level)?;
        turns(level).into_iter().find(|turn| turn.field.number() == field)
    }

    /// Parts a field where its joists turn, in one step.
    fn part_at(&mut self, field: u32, say: &str) -> Result<(), FormError> {
        let number = LINES.iter().position(|it| *it == say);
        let turn = self.turn(field);
        let (Some(number), Some(turn)) = (number, turn) else { return Err(FormError::NoSuchValue(say.to_owned())) };
        let edits = part(self.plan(), &turn, number);
        let parted = edits.iter().try_fold(self.plan().clone(), |plan, edit| plan.with(edit))?;
        self.take(parted);
        Ok(())
    }

    fn values_of(&self, part: Option<ElementId>) -> Values {
        part.map(|part| form::values(self.plan(), part, self.view.tape)).unwrap_or_default()
    }

    fn field(&self, number: u32) -> Option<JoistField> {
        self.plan().levels().iter().flat_map(|level| &level.fields).find(|field| field.id.number() == number).cloned()
    }

    fn roof(&self, number: u32) -> Option<Roof> {
        self.plan().levels().iter().flat_map(|level| &level.roofs).find(|roof| roof.id.number() == number).cloned()
    }

    /// Takes an answer to the question that is asked now; one to another question is late and passed over.
    pub(super) fn answer(&mut self, answer: &Answer) -> Result<(), FormError> {
        let Some((ask, about)) = self.question().filter(|(ask, _)| *ask == answer.ask) else {
            return Ok(());
        };
        if ask == Ask::Turn && answer.say != NOT_SEEN {
            return self.part_at(about, &answer.say);
        }
        let revision = self.revision;
        let edit = self.edit_for(ask, about, answer)?;
        if let Some(edit) = edit {
            self.commit(&edit);
            if self.revision == revision && self.notice.is_some() {
                return Ok(());
            }
        }
        self.asked.insert((about, ask), self.history.steps());
        self.tool_for_next();
        Ok(())
    }

    fn edit_for(&self, ask: Ask, about: u32, answer: &Answer) -> Result<Option<Edit>, FormError> {
        let Some(level) = self.plan().level(self.view.level) else {
            return Ok(None);
        };
        let say = answer.say.as_str();
        let text = |index: usize| answer.texts.get(index).map_or("", String::as_str);
        Ok(match (ask, self.field(about), self.roof(about)) {
            (Ask::Overhead, ..) => self.overhead(level, say)?,
            (Ask::Way, Some(field), _) if say != NOT_SEEN => {
                let field = form::field_with(field, "along", say)?;
                Some(Edit::Change(Element::Field(JoistField { known: told(field.known), ..field })))
            }
            (Ask::Size, Some(field), _) if say != NOT_SEEN => {
                let field = form::field_with(field, "member", text(0))?;
                Some(Edit::Change(Element::Field(form::field_with(field, "spacing", text(1))?)))
            }
            (Ask::Laps, Some(field), _) => Some(Edit::Change(Element::Field(form::field_with(field, "joints", say)?))),
            (Ask::Above, Some(field), _) if say != NOT_SEEN => {
                Some(Edit::Change(Element::Field(form::field_with(field, "use", say)?)))
            }
            (Ask::Roof, ..) => {
                let known = if say == NOT_SEEN { Grade::Unknown } else { Grade::Told };
                Some(roof_over(level, form::frame_meant(say, RoofFrame::NotSeen)?, known))
            }
            (Ask::Ridge, _, Some(roof)) if say != NOT_SEEN => {
                let roof = form::roof_with(roof, "ridge", say)?;
                let roof = form::roof_with(roof, "rise", text(0))?;
                Some(Edit::Change(Element::Roof(form::roof_with(roof, "overhang", text(1))?)))
            }
            (Ask::Snow, ..) if say != NOT_SEEN => {
                let mut site = *self.plan().site();
                site.ground_snow = form::load(text(0))?;
                site.snow_edition = form::meant(text(1))?;
                Some(Edit::Site(site))
            }
            _ => None,
        })
    }

    fn overhead(&self, level: &Level, say: &str) -> Result<Option<Edit>, FormError> {
        Ok(match say {
            "joists" => {
                let usual = self.plan().usual_use(level);
                let field = JoistField::usual(Region::Outline, level.shorter_way(), Grade::Assumed, usual);
                Some(Edit::Add(level.id, Element::Field(field)))
            }
            "trusses" => Some(roof_over(level, form::frame_meant(say, RoofFrame::NotSeen)?, Grade::Told)),
            NOT_SEEN => None,
            _ => return Err(FormError::NoSuchValue(say.to_owned())),
        })
    }

    /// The tool that the next question is answered with by hand.
    pub(super) fn tool_for_next(&mut self) {
        let tool = match self.question().map(|(ask, _)| ask) {
            Some(Ask::Way) => Tool::Joists,
            Some(Ask::Walls) => Tool::InsideWall,
            Some(Ask::Ridge) => Tool::Roof,
            _ => Tool::Pick,
        };
        if self.view.tool != tool {
            let chosen = self.view.chosen;
            self.take_tool(tool);
            self.view.chosen = chosen;
        }
    }
}

/// An answer is told until somebody says that he saw it; what was seen before stays so.
const fn told(known: Grade) -> Grade {
    match known {
        Grade::Measured | Grade::Seen => known,
        Grade::Told | Grade::Assumed | Grade::Unknown => Grade::Told,
    }
}

/// A gable roof over a level, its ridge along the longer side.
fn roof_over(level: &Level, frame: RoofFrame, known: Grade) -> Edit {
    let ridge = level.shorter_way().square();
    Edit::Add(level.id, Element::Roof(Roof::usual(ridge, frame, known)))
}

impl App {
    /// The outline of the level on the sheet as a rectangle.
    pub(super) fn outline(&mut self, length: Ticks, width: Ticks) {
        let to = Point::new(length, width);
        let edit = gesture::finish(Tool::Outline, Point::default(), to, &self.desk());
        match edit {
            Ok(edit) => self.commit(&edit),
            Err(refusal) => self.say(&refusal),
        }
        self.tool_for_next();
    }
}
