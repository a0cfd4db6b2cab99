//! Every way a plan changes. An edit makes a new plan or says in one sentence why not; the old one is untouched.

use serde::{Deserialize, Serialize};

use super::{
    Element, Gable, Kept, Level, LevelKind, Make, Plan, Point, Side, StepKey, Tick, Unsound, UsualName, Wall, budget,
};
use crate::geometry;
use crate::ids::{ElementId, LevelId, WallId};
use crate::loads::Site;
use crate::units::Ticks;

/// Which end of a wall or beam.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[serde(rename_all = "snake_case")]
pub enum WallEnd {
    /// The end its file calls `a`.
    A,
    /// The end its file calls `b`.
    B,
}

/// One change of a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Edit {
    /// Another name for the house.
    Name(String),
    /// Another note on the house.
    Note(String),
    /// Other snow, soil, loads.
    Site(Site),
    /// A new level on top (a storey) or below everything (a basement or crawl space), with the outline of its neighbour.
    AddLevel(LevelKind),
    /// A level away, with all it holds.
    RemoveLevel(LevelId),
    /// Another name, kind or height of a level.
    Level {
        /// Which.
        id: LevelId,
        /// Its name.
        name: String,
        /// Its kind.
        kind: LevelKind,
        /// Floor to ceiling.
        height: Ticks,
    },
    /// The outside walls of a level, drawn anew from corners in order; gable ends are guessed on the shorter sides.
    Outline {
        /// Which level.
        level: LevelId,
        /// The corners of the outside faces.
        corners: Vec<Point>,
    },
    /// A new element; its id is given by the plan, see [`Plan::newest`].
    Add(LevelId, Element),
    /// An element with other properties, found by its id.
    Change(Element),
    /// An element away; the openings of a wall go with it.
    Remove(ElementId),
    /// An element moved; the ends of outside walls that meet a moved outside wall follow.
    Move {
        /// What.
        element: ElementId,
        /// East.
        dx: Ticks,
        /// North.
        dy: Ticks,
    },
    /// One end of a wall, beam, purlin or board moved; outside walls that meet there follow.
    MoveEnd {
        /// A wall, a beam, a purlin or a board.
        element: ElementId,
        /// Which end.
        end: WallEnd,
        /// Where to.
        to: Point,
    },
    /// A wall cut in two at a distance from its end `a`.
    Split {
        /// Which wall.
        wall: WallId,
        /// From end `a`.
        at: Ticks,
    },
    /// A step of the survey ticked; what was ticked of it before goes.
    Tick(Tick),
    /// What was ticked of a step taken back.
    Untick(StepKey),
    /// A take-out study kept, as it was asked.
    Keep(Kept),
    /// A kept study away: its number, the oldest first.
    Unkeep(usize),
}

/// Why a change was refused.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum EditError {
    /// The element is not in the plan.
    #[error("part {0} is not in this house")]
    NoSuch(u32),
    /// The house would not hold together.
    #[error("that cannot be: {0}")]
    Unsound(#[from] Unsound),
    /// The last level stays.
    #[error("a house keeps at least one level")]
    LastLevel,
    /// A cut outside the wall, or through an opening.
    #[error("a wall is cut between its ends and clear of its openings")]
    NoCut,
    /// Something without ends.
    #[error("only walls, beams, purlins and boards have ends to move")]
    NoEnds,
}

impl Plan {
    /// The plan after `edit`; the old one is untouched.
    pub fn with(&self, edit: &Edit) -> Result<Self, EditError> {
        let mut plan = self.clone();
        plan.apply(edit)?;
        plan.levels.iter_mut().for_each(Level::sort);
        plan.drop_ticks();
        plan.drop_kept();
        plan.drop_unknown();
        plan.check()?;
        Ok(plan)
    }

    fn apply(&mut self, edit: &Edit) -> Result<(), EditError> {
        match edit {
            Edit::Name(name) => self.name.clone_from(name),
            Edit::Note(note) => self.note.clone_from(note),
            Edit::Site(site) => self.site = *site,
            Edit::AddLevel(kind) => self.add_level(*kind),
            Edit::RemoveLevel(id) => {
                if self.levels.len() == 1 {
                    return Err(EditError::LastLevel);
                }
                self.levels.retain(|level| level.id != *id);
            }
            Edit::Level { id, name, kind, height } => {
                let level = self.level_mut(*id)?;
                level.name.clone_from(name);
                level.kind = *kind;
                level.height = *height;
            }
            Edit::Outline { level, corners } => self.outline(*level, corners)?,
            Edit::Add(level, element) => {
                let number = self.fresh();
                self.level_mut(*level)?.add(element.clone().number(number));
            }
            Edit::Change(element) => {
                let id = element.id();
                let level = self.holder(id)?;
                level.replace(element.clone()).ok_or(EditError::NoSuch(id.number()))?;
            }
            Edit::Remove(id) => {
                let level = self.holder(*id)?;
                level.remove(*id);
                if let ElementId::Wall(wall) = id {
                    level.openings.retain(|opening| opening.wall != *wall);
                }
            }
            Edit::Move { element, dx, dy } => self.holder(*element)?.shift(*element, *dx, *dy),
            Edit::MoveEnd { element, end, to } => self.holder(*element)?.move_end(*element, *end, *to)?,
            Edit::Split { wall, at } => self.split(*wall, *at)?,
            Edit::Tick(tick) => self.put_tick(tick.clone()),
            Edit::Untick(step) => self.ticks.retain(|tick| tick.step != *step),
            Edit::Keep(kept) => self.keep(kept.clone()),
            Edit::Unkeep(number) if *number < self.kept.len() => drop(self.kept.remove(*number)),
            Edit::Unkeep(_) => {}
        }
        Ok(())
    }

    fn fresh(&mut self) -> u32 {
        let number = self.next_id;
        self.next_id = self.next_id.saturating_add(1);
        number
    }

    fn level_mut(&mut self, id: LevelId) -> Result<&mut Level, EditError> {
        self.levels.iter_mut().find(|level| level.id == id).ok_or(EditError::NoSuch(id.0))
    }

    fn holder(&mut self, id: ElementId) -> Result<&mut Level, EditError> {
        self.levels.iter_mut().find(|level| level.element(id).is_some()).ok_or(EditError::NoSuch(id.number()))
    }

    fn add_level(&mut self, kind: LevelKind) {
        let below = matches!(kind, LevelKind::CrawlSpace | LevelKind::Basement);
        let storeys = self.levels.iter().filter(|level| level.kind == LevelKind::Storey).count();
        let name = UsualName::of(kind, storeys).words().to_owned();
        let height = if kind == LevelKind::CrawlSpace { Ticks::from_feet(3) } else { Ticks::from_feet(8) };
        let neighbour = if below { self.levels.first() } else { self.levels.last() };
        let outline = neighbour.map(Level::outlines).unwrap_or_default();
        let id = LevelId(self.fresh());
        let mut level = Self::new("").levels.remove(0);
        level.id = id;
        level.name = name;
        level.kind = kind;
        level.height = height;
        if below {
            self.levels.insert(0, level);
        } else {
            self.levels.push(level);
        }
        for corners in outline {
            // The neighbour's outline is sound, so this cannot be refused.
            let _ = self.outline(id, &corners);
        }
    }

    fn outline(&mut self, id: LevelId, corners: &[Point]) -> Result<(), EditError> {
        budget::short_enough(corners).map_err(Unsound::from)?;
        if !geometry::is_outline(corners) {
            return Err(Unsound::NotAnOutline(id.0).into());
        }
        let sides = corners.iter().copied().zip(corners.iter().copied().cycle().skip(1));
        let sides: Vec<(Point, Point)> = sides.collect();
        let shortest = sides.iter().map(|(a, b)| geometry::length(*a, *b).0).fold(f64::INFINITY, f64::min);
        let longest = sides.iter().map(|(a, b)| geometry::length(*a, *b).0).fold(0.0, f64::max);
        let first = self.next_id;
        let level = self.level_mut(id)?;
        let gone: Vec<WallId> = level.walls.iter().filter(|w| w.side == Side::Outside).map(|w| w.id).collect();
        level.walls.retain(|wall| !gone.contains(&wall.id));
        level.openings.retain(|opening| !gone.contains(&opening.wall));
        let under_ground = matches!(level.kind, LevelKind::Basement | LevelKind::CrawlSpace);
        let mut number = first;
        for (a, b) in sides {
            let length = geometry::length(a, b).0;
            // On a plain rectangle the shorter pair is the likelier gable end; nothing is guessed on other outlines.
            let guessed = corners.len() == 4 && !under_ground && longest > shortest && length <= shortest;
            level.walls.push(Wall {
                id: WallId(number),
                thickness: Ticks::from_sixteenths(if under_ground { 8 * 16 } else { 6 * 16 + 8 }),
                side: Side::Outside,
                make: if under_ground { Make::Concrete } else { Make::Stud },
                gable: if guessed { Gable::Guessed } else { Gable::No },
                ..Wall::inside(a, b)
            });
            number += 1;
        }
        self.next_id = number;
        Ok(())
    }

    fn split(&mut self, id: WallId, at: Ticks) -> Result<(), EditError> {
        let number = self.fresh();
        let level = self.holder(ElementId::Wall(id))?;
        let wall = level.wall(id).cloned().ok_or(EditError::NoSuch(id.0))?;
        let length = geometry::length(wall.a, wall.b);
        let cut = geometry::along(wall.a, wall.b, at).filter(|cut| *cut != wall.a && *cut != wall.b);
        let clear = level.openings_in(id).iter().all(|o| at <= o.offset || at >= o.offset + o.width);
        let cut = cut.filter(|_| at > Ticks::ZERO && at.feet() < length && clear).ok_or(EditError::NoCut)?;
        for opening in &mut level.openings {
            if opening.wall == id && opening.offset >= at {
                opening.wall = WallId(number);
                opening.offset = opening.offset - at;
            }
        }
        level.walls.push(Wall { id: WallId(number), name: String::new(), a: cut, ..wall.clone() });
        if let Some(first) = level.walls.iter_mut().find(|wall| wall.id == id) {
            first.b = cut;
        }
        Ok(())
    }
}

impl Level {
    fn shift(&mut self, id: ElementId, dx: Ticks, dy: Ticks) {
        let by = |point: &mut Point| {
            point.x = point.x + dx;
            point.y = point.y + dy;
        };
        match id {
            ElementId::Wall(wall) => {
                let Some(wall) = self.wall(wall).cloned() else {
                    return;
                };
                if wall.side == Side::Outside {
                    for end in [wall.a, wall.b] {
                        let to = Point::new(end.x + dx, end.y + dy);
                        self.carry_outside(end, to);
                    }
                } else if let Some(wall) = self.walls.iter_mut().find(|it| it.id == wall.id) {
                    by(&mut wall.a);
                    by(&mut wall.b);
                }
            }
            ElementId::Opening(id) => {
                // Along its wall: the part of the move that lies on the wall's line.
                let Some(opening) = self.openings.iter().find(|it| it.id == id) else {
                    return;
                };
                let Some(wall) = self.wall(opening.wall) else {
                    return;
                };
                let step = geometry::part_along(wall.a, wall.b, dx, dy);
                if let Some(opening) = self.openings.iter_mut().find(|it| it.id == id) {
                    opening.offset = opening.offset + step;
                }
            }
            ElementId::Post(id) => self.posts.iter_mut().filter(|it| it.id == id).for_each(|it| by(&mut it.at)),
            ElementId::Beam(id) => self.beams.iter_mut().filter(|it| it.id == id).for_each(|it| {
                by(&mut it.a);
                by(&mut it.b);
            }),
            ElementId::Footing(id) => {
                self.footings.iter_mut().filter(|it| it.id == id).for_each(|it| match &mut it.shape {
                    super::FootingShape::Pad { at, .. } => by(at),
                    super::FootingShape::Strip { a, b, .. } => {
                        by(a);
                        by(b);
                    }
                });
            }
            ElementId::Field(id) => self.fields.iter_mut().filter(|it| it.id == id).for_each(|it| {
                if let super::Region::Corners(corners) = &mut it.region {
                    corners.iter_mut().for_each(by);
                }
            }),
            ElementId::FloorOpening(id) => {
                self.floor_openings
                    .iter_mut()
                    .filter(|it| it.id == id)
                    .for_each(|it| it.corners.iter_mut().for_each(by));
            }
            ElementId::Roof(id) => self.roofs.iter_mut().filter(|it| it.id == id).for_each(|it| {
                if let super::Region::Corners(corners) = &mut it.region {
                    corners.iter_mut().for_each(by);
                    it.ridge_at.iter_mut().chain(&mut it.long_valley).for_each(by);
                    it.openings.iter_mut().flat_map(|it| [&mut it.from, &mut it.to]).for_each(by);
                }
            }),
            ElementId::Observation(id) => {
                self.observations.iter_mut().filter(|it| it.id == id).for_each(|it| by(&mut it.at));
            }
            ElementId::Thing(id) => {
                self.things.iter_mut().filter(|it| it.id == id).for_each(|it| it.corners.iter_mut().for_each(by));
            }
            ElementId::JoistCut(id) => self.cuts.iter_mut().filter(|it| it.id == id).for_each(|it| by(&mut it.at)),
            ElementId::Board(id) => self.boards.iter_mut().filter(|it| it.id == id).for_each(|it| {
                by(&mut it.a);
                by(&mut it.b);
            }),
            ElementId::Purlin(id) => self.purlins.iter_mut().filter(|it| it.id == id).for_each(|it| {
                by(&mut it.a);
                by(&mut it.b);
                it.feet.iter_mut().for_each(by);
            }),
        }
    }

    /// Every end of an outside wall that is at `from` goes to `to`.
    fn carry_outside(&mut self, from: Point, to: Point) {
        for wall in self.walls.iter_mut().filter(|wall| wall.side == Side::Outside) {
            for end in [&mut wall.a, &mut wall.b] {
                if *end == from {
                    *end = to;
                }
            }
        }
    }

    fn move_end(&mut self, id: ElementId, end: WallEnd, to: Point) -> Result<(), EditError> {
        match id {
            ElementId::Wall(wall) => {
                let wall = self.wall(wall).cloned().ok_or(EditError::NoSuch(wall.0))?;
                let from = if end == WallEnd::A { wall.a } else { wall.b };
                if wall.side == Side::Outside {
                    self.carry_outside(from, to);
                } else if let Some(wall) = self.walls.iter_mut().find(|it| it.id == wall.id) {
                    *(if end == WallEnd::A { &mut wall.a } else { &mut wall.b }) = to;
                }
                Ok(())
            }
            ElementId::Beam(beam) => {
                let beam = self.beams.iter_mut().find(|it| it.id == beam).ok_or(EditError::NoSuch(beam.0))?;
                *(if end == WallEnd::A { &mut beam.a } else { &mut beam.b }) = to;
                Ok(())
            }
            ElementId::Purlin(purlin) => {
                let purlin = self.purlins.iter_mut().find(|it| it.id == purlin).ok_or(EditError::NoSuch(purlin.0))?;
                *(if end == WallEnd::A { &mut purlin.a } else { &mut purlin.b }) = to;
                Ok(())
            }
            ElementId::Board(board) => {
                let board = self.boards.iter_mut().find(|it| it.id == board).ok_or(EditError::NoSuch(board.0))?;
                *(if end == WallEnd::A { &mut board.a } else { &mut board.b }) = to;
                Ok(())
            }
            _ => Err(EditError::NoEnds),
        }
    }
}
