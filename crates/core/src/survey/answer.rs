//! What an answer changes: an observation on the plan, an edit of a part, a tick.

use super::{Reply, Typed, answers, grade, place};
use crate::geometry::{self, Position};
use crate::ids::{ElementId, LevelId, ObservationId};
use crate::observe::{About, proof};
use crate::plan::{
    Came, Edit, EditError, Element, Grade, JoistField, Level, LevelKind, MemberError, Observation, Photo, Plan, Point,
    Region, Roof, RoofFrame, Saw, Side, StepKey, Task, Tick, Use, Wall, Way,
};
use crate::readings::{field_at, record, wall_of};
use crate::tape::{self, Bare, NotRead};
use crate::units::Ticks;

/// Why a text is no answer.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NotAnAnswer {
    /// Not a length.
    #[error(transparent)]
    Length(#[from] NotRead),
    /// Not a size.
    #[error(transparent)]
    Size(#[from] MemberError),
    /// Not a year.
    #[error("'{0}' is not a year: write four digits, like 1931")]
    Year(String),
}

/// A typed text as an answer.
pub fn read(typed: Typed, text: &str) -> Result<Reply, NotAnAnswer> {
    let text = text.trim();
    Ok(match typed {
        Typed::Year => {
            let year = text.parse().ok().filter(|year| (1500..=2200).contains(year));
            Reply::Saw(Saw::Age { year: year.ok_or_else(|| NotAnAnswer::Year(text.to_owned()))? })
        }
        Typed::Feet => Reply::Length(tape::read(text)?),
        Typed::Inches => Reply::Length(tape::read_as(text, Bare::Inches)?),
        Typed::Sag => Reply::Saw(Saw::Sag { by: tape::read_as(text, Bare::Inches)? }),
        Typed::Pair => {
            let (length, width) = tape::read_pair(text)?;
            Reply::Outline(length, width)
        }
        Typed::Size => {
            let (size, apart) = text.split_once(" at ").map_or((text, None), |(size, apart)| (size, Some(apart)));
            let spacing = apart.map(|apart| tape::read_as(apart, Bare::Inches)).transpose()?;
            Reply::Saw(Saw::JoistSize { member: size.trim().parse()?, spacing })
        }
    })
}

/// The plan with a step answered. Whatever was answered before goes.
pub fn answer(plan: &Plan, key: StepKey, reply: Reply, day: &str) -> Result<Plan, EditError> {
    let known = grade(key.task, &reply);
    let mut plan = plan.clone();
    if reply != Reply::NotSeen {
        for edit in taken_back(&plan, key) {
            plan = plan.with(&edit)?;
        }
    }
    for edit in edits(&plan, key, reply, known, day) {
        plan = plan.with(&edit)?;
    }
    let came = match reply {
        Reply::Open | Reply::Saw(_) | Reply::Under(_) => None,
        Reply::Nothing | Reply::Use(Use::AtticBare) => Some(Came::Nothing),
        Reply::NotSeen => Some(Came::NotSeen),
        Reply::Done | Reply::Length(_) | Reply::Outline(..) | Reply::Use(_) | Reply::Built(_) => Some(Came::Done),
    };
    let known = if reply == Reply::NotSeen { Grade::Unknown } else { known };
    let tick = match came {
        Some(came) => Edit::Tick(Tick { step: key, came, known, day: day.to_owned() }),
        None => Edit::Untick(key),
    };
    let plan = plan.with(&tick)?;
    settled(&plan)
}

/// What was answered at the same place before, away.
fn taken_back(plan: &Plan, key: StepKey) -> Vec<Edit> {
    let Some((id, at)) = place(plan, key) else { return Vec::new() };
    let here =
        |level: &Level, it: &Observation| proof(&it.saw).about == About::House || (level.id == id && it.at == at);
    let own = plan.levels().iter().flat_map(|level| level.observations.iter().filter(move |it| here(level, it)));
    let own = own.filter(|it| answers(key.task, &it.saw));
    own.map(|it| Edit::Remove(ElementId::Observation(it.id))).collect()
}

fn edits(plan: &Plan, key: StepKey, reply: Reply, known: Grade, day: &str) -> Vec<Edit> {
    let level = key.level.and_then(|id| plan.level(id));
    let wall = key.wall.and_then(|id| plan.wall(id)).map(|(_, wall)| wall);
    match (key.task, reply) {
        (_, Reply::Saw(saw)) => {
            let Some((id, at)) = place(plan, key) else { return Vec::new() };
            let (note, photo) = (String::new(), Photo::default());
            let seen = Observation { id: ObservationId(0), at, saw, known, note, day: day.to_owned(), photo };
            record(plan, id, seen)
        }
        (Task::Outline, Reply::Outline(length, width)) => {
            let Some((id, _)) = place(plan, key) else { return Vec::new() };
            let zero = Ticks::ZERO;
            let corners = [(zero, zero), (length, zero), (length, width), (zero, width)].map(Point::from);
            vec![Edit::Outline { level: id, corners: corners.to_vec() }]
        }
        (Task::Height, Reply::Length(height)) => level
            .map(|it| Edit::Level { id: it.id, name: it.name.clone(), kind: it.kind, height })
            .into_iter()
            .collect(),
        (Task::Rise, Reply::Length(rise)) => roof(level, |roof| Roof { rise, ..roof }),
        (Task::Eaves, Reply::Length(overhang)) => roof(level, |roof| Roof { overhang, ..roof }),
        (Task::Thickness, Reply::Length(thickness)) => {
            wall.map(|it| Edit::Change(Element::Wall(Wall { thickness, ..it.clone() }))).into_iter().collect()
        }
        (Task::OutsideThickness, Reply::Length(thickness)) => {
            outside_walls(plan).map(|(_, it)| Edit::Change(Element::Wall(Wall { thickness, ..it.clone() }))).collect()
        }
        (Task::Built, Reply::Built(built)) => {
            wall.map(|it| Edit::Change(Element::Wall(Wall { built, ..it.clone() }))).into_iter().collect()
        }
        (Task::Stored, Reply::Use(used_as)) => stored(level, used_as),
        (Task::Under, Reply::Under(kind)) => {
            let lowest = plan.levels().first().is_some_and(|lowest| Some(lowest.id) == key.level);
            if lowest { vec![Edit::AddLevel(kind)] } else { Vec::new() }
        }
        _ => Vec::new(),
    }
}

/// The outside walls of storeys and attics.
pub(super) fn outside_walls(plan: &Plan) -> impl Iterator<Item = (LevelId, &Wall)> {
    let storeys = plan.levels().iter().filter(|level| matches!(level.kind, LevelKind::Storey | LevelKind::Attic));
    let walls = storeys.flat_map(|level| level.walls.iter().map(|wall| (level.id, wall)));
    walls.filter(|(_, wall)| wall.side == Side::Outside)
}

/// The first roof of a level changed; a roof of which nothing was seen comes first where none is drawn.
fn roof(level: Option<&Level>, change: impl Fn(Roof) -> Roof) -> Vec<Edit> {
    let Some(level) = level else { return Vec::new() };
    let usual = || Roof::usual(level.shorter_way().square(), RoofFrame::NotSeen, Grade::Unknown);
    vec![match level.roofs.first() {
        Some(roof) => Edit::Change(Element::Roof(change(roof.clone()))),
        None => Edit::Add(level.id, Element::Roof(change(usual()))),
    }]
}

/// The ceilings of a level used otherwise.
fn stored(level: Option<&Level>, used_as: Use) -> Vec<Edit> {
    let ceilings = level.into_iter().flat_map(|level| &level.fields).filter(|field| field.used_as.is_ceiling());
    ceilings.map(|field| Edit::Change(Element::Field(JoistField { used_as, ..field.clone() }))).collect()
}

/// What is stored on a level, as it was ticked.
pub(super) fn ticked_use(plan: &Plan, level: LevelId) -> Option<Use> {
    let tick = plan.ticks().iter().find(|it| it.step.task == Task::Stored && it.step.level == Some(level))?;
    match tick.came {
        Came::Done => Some(Use::AtticStorage),
        Came::Nothing => Some(Use::AtticBare),
        Came::NotSeen => None,
    }
}

/// Joists over a whole level, or under the whole of one of its roofs, of which nobody has said how they lie are as all that was seen says, whatever was seen
/// first: along as somebody saw them run, else across a wall they lap or end on, else along one they run along; under
/// what is stored there. What was said of the house before it had an outline moves inside.
fn settled(plan: &Plan) -> Result<Plan, EditError> {
    let mut edits = Vec::new();
    for level in plan.levels() {
        for field in level.fields.iter().filter(|it| it.known == Grade::Unknown && is_whole(level, it)) {
            let along = likeliest(level, field).unwrap_or(field.along);
            let used_as = ticked_use(plan, level.id).filter(|_| field.used_as.is_ceiling()).unwrap_or(field.used_as);
            if (along, used_as) != (field.along, field.used_as) {
                edits.push(Edit::Change(Element::Field(JoistField { along, used_as, ..field.clone() })));
            }
        }
    }
    let year = StepKey { task: Task::Year, level: None, wall: None, end: None };
    if let Some((id, at)) = place(plan, year)
        && let Some(level) = plan.level(id)
    {
        let outlines = level.outlines();
        let outside =
            |it: &&Observation| outlines.iter().all(|corners| geometry::position(corners, it.at) != Position::Inside);
        let ages = level.observations.iter().filter(|it| proof(&it.saw).about == About::House);
        edits.extend(
            ages.filter(outside).map(|it| Edit::Change(Element::Observation(Observation { at, ..it.clone() }))),
        );
    }
    edits.iter().try_fold(plan.clone(), |plan, edit| plan.with(edit))
}

fn is_whole(level: &Level, field: &JoistField) -> bool {
    field.region == Region::Outline || level.roofs.iter().any(|roof| roof.region == field.region)
}

fn likeliest(level: &Level, field: &JoistField) -> Option<Way> {
    let wall =
        |it: &Observation| wall_of(level, it.at).and_then(|id| level.wall(id)).map(|it| Way::between(it.a, it.b));
    let way = |it: &Observation| match it.saw {
        Saw::JoistsRun { along } => Some((0, along)),
        Saw::JoistsLap | Saw::JoistsEnd | Saw::JoistsRunThrough => Some((1, wall(it)?.square())),
        Saw::RunAlong => Some((2, wall(it)?)),
        _ => None,
    };
    // Of equals the one further west, then further south: ids tell in which order they came, and that must not count.
    let over = |it: &&Observation| {
        field.region == Region::Outline || field_at(level, it.at).is_some_and(|over| over.id == field.id)
    };
    let ways = level.observations.iter().filter(over).filter_map(|it| Some((way(it)?, it.at)));
    ways.min_by_key(|((rank, _), at)| (*rank, *at)).map(|((_, along), _)| along)
}
