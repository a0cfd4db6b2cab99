//! What a plan already says of a step: by an observation, by a tick, by what is drawn.

use serde::Serialize;

use super::place::is_put;
use super::{Reply, answers, place};
use crate::geometry::{self, Frame};
use crate::plan::{
    Below, Built, Came, FootingShape, Grade, Joints, JoistField, Level, Observation, Plan, Point, Roof, RoofFrame, Saw,
    Side, StepKey, Studs, Task, Top, TrussMake, Use, Wall, Way,
};
use crate::readings::{field_at, over_wall, wall_of};
use crate::units::{Feet, Ticks};

/// What is drawn within this of an end of a wall stands under it, in feet.
const IN_LINE: Feet = Feet(1.0);
/// A pad is under an end if its middle is within this of it, in feet.
const OVER_PAD: Feet = Feet(2.0);

/// What the plan says of a step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "state")]
pub enum State {
    /// Nothing.
    Open,
    /// It was not to be seen that day.
    NotSeen,
    /// Parts of the kind are drawn.
    Drawn,
    /// It is answered.
    Answered {
        /// How.
        reply: Reply,
        /// How that is known; none where it is drawn and nobody said.
        known: Option<Grade>,
    },
}

/// What the plan says of a step.
pub(super) fn state(plan: &Plan, key: StepKey) -> State {
    let tick = plan.tick(key);
    if let Some(it) = seen(plan, key) {
        return State::Answered { reply: Reply::Saw(it.saw), known: Some(it.known) };
    }
    match tick.map(|tick| (tick.came, tick.known)) {
        Some((Came::Done, known)) => {
            State::Answered { reply: value(plan, key).unwrap_or(Reply::Done), known: Some(known) }
        }
        Some((Came::Nothing, known)) => {
            let reply = value(plan, key).filter(|_| key.task == Task::Stored).unwrap_or(Reply::Nothing);
            State::Answered { reply, known: Some(known) }
        }
        Some((Came::NotSeen, _)) => drawn(plan, key).unwrap_or(State::NotSeen),
        None => drawn(plan, key).unwrap_or(State::Open),
    }
}

/// The observation that answers a step: the surest, then the first.
fn seen(plan: &Plan, key: StepKey) -> Option<&Observation> {
    let (id, at) = place(plan, key)?;
    let level = plan.level(id)?;
    let here = |it: &&Observation| match (key.wall, key.end) {
        (Some(_), Some(_)) => geometry::length(it.at, at) <= IN_LINE,
        (Some(wall), None) => wall_of(level, it.at) == Some(wall),
        _ => true,
    };
    // Of several fields, all have to be answered for.
    let joists = matches!(key.task, Task::JoistWay | Task::JoistSize);
    let asked = |field: &&JoistField| !is_put(level, field);
    if joists && level.fields.iter().filter(asked).any(|field| !told_of(level, key.task, field.id)) {
        return None;
    }
    let house = plan.levels().iter().filter(|_| key.task == Task::Year).flat_map(|level| &level.observations);
    let own = level.observations.iter().filter(here).chain(house);
    own.filter(|it| answers(key.task, &it.saw) && it.known <= Grade::Told).min_by_key(|it| (it.known, it.id))
}

/// Whether something was said of a field: by an observation in it, or as drawn.
fn told_of(level: &Level, task: Task, field: crate::ids::FieldId) -> bool {
    let over = |at: Point| field_at(level, at).is_some_and(|over| over.id == field);
    let seen = level.observations.iter().any(|it| answers(task, &it.saw) && over(it.at));
    let drawn = level.fields.iter().filter(|it| it.id == field).any(|field| match task {
        Task::JoistWay => field.known <= Grade::Told,
        _ => field.member.is_seen(),
    });
    seen || drawn
}

/// The value that the plan holds of a step which is kept as one.
fn value(plan: &Plan, key: StepKey) -> Option<Reply> {
    let level = key.level.and_then(|id| plan.level(id));
    let wall = || key.wall.and_then(|id| plan.wall(id)).map(|(_, wall)| wall);
    let roof = || level.and_then(|level| level.roofs.first());
    Some(match key.task {
        Task::Height => Reply::Length(level?.height),
        Task::Rise => Reply::Length(roof()?.rise),
        Task::Eaves => Reply::Length(roof()?.overhang),
        Task::Thickness => Reply::Length(wall()?.thickness),
        Task::OutsideThickness => Reply::Length(outside(plan)?.thickness),
        Task::Built => Reply::Built(wall()?.built),
        Task::Stored => match super::answer::ticked_use(plan, level?.id) {
            Some(used_as) => Reply::Use(used_as),
            None => Reply::Use(level?.fields.iter().find(|field| field.used_as.is_ceiling())?.used_as),
        },
        _ => return None,
    })
}

/// The first outside wall of the storeys.
fn outside(plan: &Plan) -> Option<&Wall> {
    super::answer::outside_walls(plan).next().map(|(_, wall)| wall)
}

/// What is drawn of a step though nobody ticked it.
fn drawn(plan: &Plan, key: StepKey) -> Option<State> {
    let said = |reply, known| Some(State::Answered { reply, known });
    let level = key.level.and_then(|id| plan.level(id));
    let wall = key.wall.and_then(|id| plan.wall(id)).map(|(_, wall)| wall);
    let other = |usual: &[Ticks]| match value(plan, key) {
        Some(Reply::Length(length)) if !usual.contains(&length) => said(Reply::Length(length), None),
        _ => None,
    };
    let inches = |sixteenths: i32| Ticks::from_sixteenths(sixteenths);
    let there = |any: bool| any.then_some(State::Drawn);
    match key.task {
        Task::Outline => there(plan.levels().iter().any(|level| !level.outlines().is_empty())),
        Task::OutsideThickness => other(&[inches(6 * 16 + 8)]),
        Task::Thickness => other(&[inches(4 * 16 + 8)]),
        Task::Height => other(&[Ticks::from_feet(8), Ticks::from_feet(3)]),
        Task::Rise | Task::Eaves => {
            let roof = level?.roofs.first()?;
            let usual = Roof::usual(Way::X, RoofFrame::NotSeen, Grade::Unknown);
            if roof.known <= Grade::Told {
                return said(value(plan, key)?, Some(roof.known));
            }
            other(&[usual.rise, usual.overhang])
        }
        Task::Stored => match value(plan, key) {
            Some(Reply::Use(Use::AtticStorage)) => said(Reply::Use(Use::AtticStorage), None),
            _ => None,
        },
        Task::Girders => there(!level?.beams.is_empty()),
        Task::Posts => there(!level?.posts.is_empty()),
        Task::Pads => there(!level?.footings.is_empty()),
        Task::Rooms => there(level?.walls.iter().any(|wall| wall.side == Side::Inside)),
        Task::Doors => there(!level?.openings.is_empty()),
        Task::Stairs => there(!level?.floor_openings.is_empty()),
        Task::Heavy => there(!level?.things.is_empty()),
        Task::Purlins => there(!level?.purlins.is_empty()),
        Task::JoistWay | Task::JoistSize => {
            let level = level?;
            let field = level.fields.first()?;
            if !level.fields.iter().all(|field| told_of(level, key.task, field.id)) {
                return None;
            }
            let size = Saw::JoistSize { member: field.member, spacing: Some(field.spacing) };
            match key.task {
                Task::JoistWay => said(Reply::Saw(Saw::JoistsRun { along: field.along }), Some(field.known)),
                _ => said(Reply::Saw(size), None),
            }
        }
        Task::Framing => {
            let roof = level?.roofs.first()?;
            said(Reply::Saw(framing(roof.frame)?), Some(roof.known).filter(|known| *known <= Grade::Told))
        }
        Task::Webs => match level?.roofs.first()?.frame {
            RoofFrame::Trusses { webs: crate::plan::Webs::Whole, .. } => said(Reply::Done, None),
            RoofFrame::Trusses { webs: crate::plan::Webs::Cut, .. } => said(Reply::Saw(Saw::WebCut), None),
            _ => None,
        },
        Task::Over => said(Reply::Saw(over(plan, wall?)?), None),
        Task::Studs => (wall?.studs == Studs::PastTheFloor)
            .then_some(State::Answered { reply: Reply::Saw(Saw::StudsRunOn), known: None }),
        Task::Built => match wall?.built {
            Built::Later => said(Reply::Built(Built::Later), None),
            Built::WithTheHouse => None,
        },
        Task::Struts => {
            let stands = level?.purlins.iter().filter_map(|purlin| purlin.feet).any(|at| stands_on(at, wall));
            stands.then_some(State::Answered { reply: Reply::Saw(Saw::StrutStands), known: None })
        }
        Task::Stands => {
            let (id, at) = place(plan, key)?;
            let below = below(plan.level_below(id)?, at)?;
            said(Reply::Saw(Saw::InLine { below }), None)
        }
        Task::Ground => {
            let (id, at) = place(plan, key)?;
            let level = plan.level(id)?;
            let under = |shape: &FootingShape| match shape {
                FootingShape::Pad { at: pad, .. } => geometry::length(*pad, at) <= OVER_PAD,
                FootingShape::Strip { a, b, .. } => geometry::off(*a, *b, at) <= IN_LINE,
            };
            there(level.footings.iter().any(|footing| under(&footing.shape)))
        }
        _ => None,
    }
}

fn framing(frame: RoofFrame) -> Option<Saw> {
    match frame {
        RoofFrame::RidgeBoard => Some(Saw::RidgeBoard),
        RoofFrame::RidgeBeam => Some(Saw::RidgeBeam),
        RoofFrame::Trusses { make: TrussMake::SiteBuilt, .. } => Some(Saw::TrussGussets),
        RoofFrame::Trusses { .. } => Some(Saw::TrussPlates),
        RoofFrame::NotSeen | RoofFrame::OverFramed => None,
    }
}

/// What is drawn of what is over a wall.
fn over(plan: &Plan, wall: &Wall) -> Option<Saw> {
    match (wall.top, wall.joints) {
        (Top::Gap, _) => return Some(Saw::Gap),
        (Top::Bare, _) => return Some(Saw::NothingStands),
        _ if wall.truss_bearing => return Some(Saw::TrussTag),
        (_, Joints::Lap) => return Some(Saw::JoistsLap),
        (_, Joints::RunThrough) => return Some(Saw::JoistsRunThrough),
        _ => {}
    }
    let (level, _) = plan.wall(wall.id)?;
    let crossing =
        |along: Way| Frame::between(wall.a, wall.b).is_some_and(|own| own.squareness(&Frame::of(along)) > 0.5);
    let fields = over_wall(level, wall);
    let joints: Vec<Joints> =
        fields.iter().filter(|it| it.known <= Grade::Seen && crossing(it.along)).map(|it| it.joints).collect();
    match joints.as_slice() {
        [Joints::Lap, ..] if joints.len() == fields.len() => Some(Saw::JoistsLap),
        [Joints::RunThrough, ..] if joints.len() == fields.len() => Some(Saw::JoistsRunThrough),
        _ => None,
    }
}

fn stands_on(at: Point, wall: Option<&Wall>) -> bool {
    wall.is_some_and(|wall| geometry::off(wall.a, wall.b, at) <= IN_LINE)
}

/// What is drawn on a level right under a place.
fn below(level: &Level, at: Point) -> Option<Below> {
    if level.posts.iter().any(|post| geometry::length(post.at, at) <= IN_LINE) {
        return Some(Below::Post);
    }
    if level.beams.iter().any(|beam| geometry::off(beam.a, beam.b, at) <= IN_LINE) {
        return Some(Below::Beam);
    }
    level.walls.iter().any(|wall| stands_on(at, Some(wall))).then_some(Below::Wall)
}
