//! The survey: what to look at and measure in a house, in the order people walk it, and what the plan answers already.
//!
//! Ask first; outside; the lowest level; each storey from below; the attic; the wall; under each end of it. The order is
//! composed of several sources (field notes F-23 to F-30); nobody publishes exactly this list. What an answer changes
//! stands in `answer`, what a plan already says in `state`, every sentence in `words`.

use serde::Serialize;

use crate::geometry;
use crate::ids::{LevelId, WallId};
use crate::plan::{
    Below, Built, Drawn, Grade, Level, LevelKind, Member, Plan, RoofFrame, Saw, Side, StepKey, Task, Use, Wall,
    WallEnd, Way,
};
use crate::readings::{as_known, is_top};
use crate::units::{Feet, Ticks};

mod answer;
mod place;
mod state;

pub use answer::{NotAnAnswer, answer, read};
pub use place::place;
pub use state::State;

/// Inside walls nobody has chosen or looked at are listed down to this length: shorter ones carry little.
const WORTH_A_WALK: Feet = Feet(6.0);
/// How many of them are listed, the longest first; any other joins when it is chosen.
const UNASKED: usize = 3;

/// A stop of the walk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case", tag = "stop", content = "id")]
pub enum Stop {
    /// What people know.
    Ask,
    /// Around the house.
    Outside,
    /// The lowest level, or what is under the lowest storey.
    Lowest(LevelId),
    /// A storey, or rooms in an attic.
    Storey(LevelId),
    /// Under the roof.
    Attic(LevelId),
    /// A wall.
    Wall(WallId),
    /// Under both ends of it, down to the soil.
    Ends(WallId),
}

/// One answer to a step.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Reply {
    /// Done, or there.
    Done,
    /// Looked for: nothing of the kind.
    Nothing,
    /// Not to be seen today.
    NotSeen,
    /// Taken back.
    Open,
    /// Something seen.
    Saw(Saw),
    /// A length.
    Length(Ticks),
    /// Length and width of the house.
    Outline(Ticks, Ticks),
    /// What a deck is used for.
    Use(Use),
    /// What is under the lowest storey.
    Under(LevelKind),
    /// When a wall was built.
    Built(Built),
}

/// What can be typed as an answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Typed {
    /// A year.
    Year,
    /// A length; a bare number is feet.
    Feet,
    /// A length; a bare number is inches.
    Inches,
    /// Length x width.
    Pair,
    /// A size and how far apart: `2x8 at 16 in`.
    Size,
    /// A sag; a bare number is inches.
    Sag,
}

/// What a step is drawn with, where it is drawn and not told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum DrawWith {
    /// The outline.
    Outline,
    /// An inside wall.
    InsideWall,
    /// A door, window or passage.
    Opening,
    /// A beam.
    Beam,
    /// A post.
    Post,
    /// A pad.
    Pad,
    /// A purlin.
    Purlin,
    /// An opening in a deck.
    FloorOpening,
    /// A heavy thing.
    Thing,
    /// Something seen, at its place.
    Seen,
}

/// One thing to look at or measure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Step {
    /// Which; the same as long as the level and the wall are there.
    pub key: StepKey,
    /// The answers that take one tap.
    pub replies: Vec<Reply>,
    /// What can be typed.
    pub typed: Option<Typed>,
    /// What it is drawn with.
    pub draw: Option<DrawWith>,
    /// What the plan says of it.
    pub state: State,
}

/// One stop with its steps.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stage {
    /// Which.
    pub stop: Stop,
    /// What to look at there, in order.
    pub steps: Vec<Step>,
}

impl Stage {
    /// How many of its steps are answered or put off.
    #[must_use]
    pub fn settled(&self) -> usize {
        self.steps.iter().filter(|step| step.state != State::Open).count()
    }
}

/// The whole walk.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Survey {
    /// Its stops in walking order.
    pub stages: Vec<Stage>,
}

impl Survey {
    /// One step.
    #[must_use]
    pub fn step(&self, key: StepKey) -> Option<&Step> {
        self.stages.iter().flat_map(|stage| &stage.steps).find(|step| step.key == key)
    }
}

/// The survey of a house; the chosen wall comes before other walls.
#[must_use]
pub fn survey(plan: &Plan, chosen: Option<WallId>) -> Survey {
    Walk::new(plan).stages(chosen)
}

/// Whether a level lies under the storeys.
const fn under_ground(level: &Level) -> bool {
    matches!(level.kind, LevelKind::Basement | LevelKind::CrawlSpace)
}

/// A plan on the walk.
struct Walk<'a> {
    plan: &'a Plan,
    /// The levels that have an outline, lowest first.
    drawn: Vec<&'a Level>,
    /// The level under the roof, if it is drawn and no basement.
    top: Option<&'a Level>,
    /// Whether trusses are over it, as far as it is known.
    trusses: bool,
}

impl<'a> Walk<'a> {
    fn new(plan: &'a Plan) -> Self {
        let drawn: Vec<&Level> = plan.levels().iter().filter(|level| !level.outlines().is_empty()).collect();
        let top = drawn.last().copied().filter(|level| is_top(plan, level) && !under_ground(level));
        let known = as_known(plan);
        let roofs = top.and_then(|top| known.level(top.id)).into_iter().flat_map(|level| &level.roofs);
        let trusses = roofs.into_iter().any(|roof| matches!(roof.frame, RoofFrame::Trusses { .. }));
        Self { plan, drawn, top, trusses }
    }

    fn stages(&self, chosen: Option<WallId>) -> Survey {
        let mut stages = vec![self.ask(), self.outside()];
        stages.extend(self.drawn.first().map(|level| self.lowest(level)));
        stages.extend(self.drawn.iter().filter(|level| !under_ground(level)).map(|level| self.storey(level)));
        stages.extend(self.top.map(|level| self.attic(level)));
        for (level, wall) in self.walls(chosen) {
            stages.push(self.wall(level, wall));
            stages.push(self.ends(level, wall));
        }
        Survey { stages }
    }

    fn stage(&self, stop: Stop, keys: impl IntoIterator<Item = StepKey>) -> Stage {
        let step = |key: StepKey| {
            let (replies, typed, draw) = takes(key.task, self.drawn.is_empty(), self.trusses);
            Step { key, replies, typed, draw, state: state::state(self.plan, key) }
        };
        Stage { stop, steps: keys.into_iter().map(step).collect() }
    }

    fn ask(&self) -> Stage {
        let stored = self.top.filter(|top| top.kind == LevelKind::Storey).map(|top| on(Task::Stored, top));
        let first = [Task::Year, Task::Altered, Task::Drawings].map(of_house);
        self.stage(Stop::Ask, first.into_iter().chain(stored).chain([of_house(Task::Wanted)]))
    }

    fn outside(&self) -> Stage {
        let mut keys = vec![of_house(Task::Photos), of_house(Task::Outline)];
        if self.top.is_some() {
            keys.push(of_house(Task::OutsideThickness));
        }
        keys.extend(self.top.into_iter().flat_map(|top| [on(Task::Rise, top), on(Task::Eaves, top)]));
        keys.push(of_house(Task::OutsideSigns));
        self.stage(Stop::Outside, keys)
    }

    fn lowest(&self, level: &Level) -> Stage {
        let below: &[Task] = &[
            Task::Height,
            Task::Girders,
            Task::Posts,
            Task::Pads,
            Task::JoistWay,
            Task::JoistSize,
            Task::Rooms,
            Task::Damage,
        ];
        let tasks = if under_ground(level) { below } else { &[Task::Under, Task::Damage] };
        self.stage(Stop::Lowest(level.id), tasks.iter().map(|task| on(*task, level)))
    }

    fn storey(&self, level: &Level) -> Stage {
        let mut tasks = vec![Task::Height, Task::Rooms, Task::Doors, Task::Stairs, Task::Heavy];
        if self.top.is_none_or(|top| top.id != level.id) {
            tasks.extend([Task::JoistWay, Task::JoistSize]);
        }
        tasks.push(Task::Signs);
        self.stage(Stop::Storey(level.id), tasks.into_iter().map(|task| on(task, level)))
    }

    fn attic(&self, level: &Level) -> Stage {
        let trusses: &[Task] = &[Task::FixPoints, Task::Framing, Task::Webs];
        let rafters: &[Task] =
            &[Task::FixPoints, Task::Framing, Task::JoistWay, Task::JoistSize, Task::Ties, Task::Purlins];
        let tasks = if self.trusses { trusses } else { rafters };
        self.stage(Stop::Attic(level.id), tasks.iter().map(|task| on(*task, level)))
    }

    /// The walls worth a walk: the chosen one, those that were looked at, the longest others.
    fn walls(&self, chosen: Option<WallId>) -> Vec<(&'a Level, &'a Wall)> {
        let mut rest: Vec<(&Level, &Wall)> = self.drawn.iter().flat_map(inside).collect();
        let begun = |wall: &Wall| self.plan.ticks().iter().any(|tick| tick.step.wall == Some(wall.id));
        let long = |wall: &Wall| geometry::length(wall.a, wall.b);
        let mut walls = Vec::new();
        walls.extend(rest.iter().copied().filter(|(_, wall)| chosen == Some(wall.id)));
        walls.extend(rest.iter().copied().filter(|(_, wall)| chosen != Some(wall.id) && begun(wall)));
        rest.retain(|(_, wall)| chosen != Some(wall.id) && !begun(wall) && long(wall) >= WORTH_A_WALK);
        for _ in 0..UNASKED {
            let Some(longest) = rest.iter().copied().reduce(|a, b| if long(b.1) > long(a.1) { b } else { a }) else {
                break;
            };
            rest.retain(|(_, wall)| wall.id != longest.1.id);
            walls.push(longest);
        }
        walls
    }

    fn wall(&self, level: &Level, wall: &Wall) -> Stage {
        let top = self.top.is_some_and(|top| top.id == level.id);
        let mut tasks = vec![Task::Thickness, Task::Built, Task::Over];
        if top && !self.trusses {
            tasks.push(Task::Struts);
        }
        tasks.extend([Task::Studs, Task::Packs]);
        if !level.openings_in(wall.id).is_empty() {
            tasks.push(Task::Headers);
        }
        tasks.extend([Task::Sag, Task::Movement, Task::Paper, Task::Services, Task::Coatings, Task::Hole]);
        let key = |task: Task| StepKey { wall: Some(wall.id), ..on(task, level) };
        self.stage(Stop::Wall(wall.id), tasks.into_iter().map(key))
    }

    fn ends(&self, level: &Level, wall: &Wall) -> Stage {
        let here = self.drawn.iter().position(|it| it.id == level.id).unwrap_or_default();
        let mut keys = Vec::new();
        for end in [WallEnd::A, WallEnd::B] {
            for (number, level) in self.drawn.iter().enumerate().take(here + 1).rev() {
                let task = if number == 0 { Task::Ground } else { Task::Stands };
                keys.push(StepKey { wall: Some(wall.id), end: Some(end), ..on(task, level) });
            }
        }
        self.stage(Stop::Ends(wall.id), keys)
    }
}

fn inside<'a>(level: &&'a Level) -> impl Iterator<Item = (&'a Level, &'a Wall)> {
    let level: &'a Level = level;
    level.walls.iter().filter(|wall| wall.side == Side::Inside).map(move |wall| (level, wall))
}

const fn of_house(task: Task) -> StepKey {
    StepKey { task, level: None, wall: None, end: None }
}

const fn on(task: Task, level: &Level) -> StepKey {
    StepKey { level: Some(level.id), ..of_house(task) }
}

/// What a step takes: answers of one tap, what can be typed, what it is drawn with.
fn takes(task: Task, blank: bool, trusses: bool) -> (Vec<Reply>, Option<Typed>, Option<DrawWith>) {
    let saws = |saws: &[Saw]| saws.iter().copied().map(Reply::Saw).collect::<Vec<_>>();
    let or_nothing = |all: &[Saw]| [vec![Reply::Nothing], saws(all)].concat();
    let or_done = |all: &[Saw]| [vec![Reply::Done], saws(all)].concat();
    let lengths = |inches: &[f64]| -> Vec<Reply> {
        inches.iter().filter_map(|inches| Ticks::from_decimal_feet(Feet(inches / 12.0))).map(Reply::Length).collect()
    };
    let drawn = |with| (vec![Reply::Done, Reply::Nothing], None, Some(with));
    let told = |replies| (replies, None, None);
    match task {
        Task::Year => (Vec::new(), Some(Typed::Year), None),
        Task::Drawings | Task::Services | Task::Damage => told(vec![Reply::Done, Reply::Nothing]),
        Task::Stored => told(vec![Reply::Use(Use::AtticBare), Reply::Use(Use::AtticStorage)]),
        Task::Wanted | Task::Photos | Task::FixPoints | Task::Coatings => told(vec![Reply::Done]),
        Task::Outline if blank => (Vec::new(), Some(Typed::Pair), Some(DrawWith::Outline)),
        Task::Outline => told(vec![Reply::Done]),
        Task::OutsideThickness => (lengths(&[5.0, 6.5, 8.0]), Some(Typed::Inches), None),
        Task::Rise => (lengths(&[4.0, 6.0, 8.0, 12.0]), Some(Typed::Inches), None),
        Task::Eaves => (lengths(&[6.0, 12.0, 18.0, 24.0]), Some(Typed::Inches), None),
        Task::OutsideSigns | Task::Signs | Task::Packs => {
            (vec![Reply::Nothing, Reply::Done], None, Some(DrawWith::Seen))
        }
        Task::Under => {
            let below = [LevelKind::CrawlSpace, LevelKind::Basement].map(Reply::Under);
            told([vec![Reply::Done], below.to_vec()].concat())
        }
        Task::Altered => drawn(DrawWith::Seen),
        Task::Girders => drawn(DrawWith::Beam),
        Task::Posts => drawn(DrawWith::Post),
        Task::Pads | Task::Ground => drawn(DrawWith::Pad),
        Task::Rooms => drawn(DrawWith::InsideWall),
        Task::Doors => drawn(DrawWith::Opening),
        Task::Stairs => drawn(DrawWith::FloorOpening),
        Task::Heavy => drawn(DrawWith::Thing),
        Task::Purlins => drawn(DrawWith::Purlin),
        Task::Height => (lengths(&[90.0, 96.0, 108.0]), Some(Typed::Feet), None),
        Task::JoistWay => told(saws(&[Way::X, Way::Y].map(|along| Saw::JoistsRun { along }))),
        Task::JoistSize => {
            let apart = Some(Ticks::from_sixteenths(16 * 16));
            let size = |depth| Saw::JoistSize { member: Member::sawn(2, depth), spacing: apart };
            (saws(&[6, 8, 10, 12].map(size)), Some(Typed::Size), None)
        }
        Task::Framing => told(saws(&[Saw::RidgeBoard, Saw::RidgeBeam, Saw::TrussPlates, Saw::TrussGussets])),
        Task::Webs => told(or_done(&[Saw::WebCut])),
        Task::Ties => told(or_done(&[Saw::TieMissing])),
        Task::Thickness => (lengths(&[4.5, 5.0, 6.5]), Some(Typed::Inches), None),
        Task::Over if trusses => told(saws(&[Saw::NoTag, Saw::TrussTag, Saw::SitOnPlate, Saw::Gap])),
        Task::Over => told(saws(&[
            Saw::JoistsLap,
            Saw::JoistsRunThrough,
            Saw::RunAlong,
            Saw::SitOnPlate,
            Saw::JoistsHang,
            Saw::Gap,
        ])),
        Task::Struts => told(saws(&[Saw::NoStrut, Saw::StrutStands])),
        Task::Studs => told(or_done(&[Saw::StudsRunOn])),
        Task::Headers => told(saws(&[Saw::HeavyHeader, Saw::NoHeader])),
        Task::Sag => {
            let sag = |quarters| Saw::Sag { by: Ticks::from_sixteenths(quarters * 4) };
            (or_nothing(&[1, 2, 4].map(sag)), Some(Typed::Sag), None)
        }
        Task::Movement => told(or_nothing(&[Saw::Crack, Saw::StickingDoor])),
        Task::Paper => told(or_nothing(&[Drawn::Bearing, Drawn::NotBearing].map(|says| Saw::Drawing { says }))),
        Task::Built => told([Built::WithTheHouse, Built::Later].map(Reply::Built).to_vec()),
        Task::Hole => told(or_nothing(&[Saw::Hole])),
        Task::Stands => told(
            [saws(&[Below::Beam, Below::Post, Below::Wall].map(|below| Saw::InLine { below })), vec![Reply::Nothing]]
                .concat(),
        ),
    }
}

/// Whether something seen is an answer to a task.
const fn answers(task: Task, saw: &Saw) -> bool {
    match task {
        Task::Year => matches!(saw, Saw::Age { .. }),
        Task::JoistWay => matches!(saw, Saw::JoistsRun { .. }),
        Task::JoistSize => matches!(saw, Saw::JoistSize { .. }),
        Task::Framing => {
            matches!(saw, Saw::RidgeBoard | Saw::RidgeBeam | Saw::TrussPlates | Saw::TrussGussets)
        }
        Task::Webs => matches!(saw, Saw::WebCut),
        Task::Ties => matches!(saw, Saw::TieMissing),
        Task::Over => matches!(
            saw,
            Saw::JoistsLap
                | Saw::JoistsEnd
                | Saw::JoistsHang
                | Saw::JoistsRunThrough
                | Saw::SitOnPlate
                | Saw::Gap
                | Saw::NothingStands
                | Saw::RunAlong
                | Saw::TrussTag
                | Saw::BeamOver
                | Saw::NoTag
        ),
        Task::Struts => matches!(saw, Saw::NoStrut | Saw::StrutStands),
        Task::Studs => matches!(saw, Saw::StudsRunOn),
        Task::Packs => matches!(saw, Saw::StudPack { .. }),
        Task::Headers => matches!(saw, Saw::HeavyHeader | Saw::NoHeader),
        Task::Sag => matches!(saw, Saw::Sag { .. }),
        Task::Movement => matches!(saw, Saw::Crack | Saw::StickingDoor),
        Task::Paper => matches!(saw, Saw::Drawing { .. }),
        Task::Hole => matches!(saw, Saw::Hole),
        Task::Stands => matches!(saw, Saw::InLine { .. }),
        _ => false,
    }
}

/// How an answer is known: what people say is told, what a tape reads is measured, the rest was looked at.
const fn grade(task: Task, reply: &Reply) -> Grade {
    match (task, reply) {
        (Task::Year | Task::Altered | Task::Drawings | Task::Stored | Task::Wanted | Task::Built, _) => Grade::Told,
        (_, Reply::Length(_) | Reply::Outline(..)) => Grade::Measured,
        _ => Grade::Seen,
    }
}

#[cfg(test)]
mod tests;
