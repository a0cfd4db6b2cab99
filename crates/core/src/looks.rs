//! The look list: where one look settles most.
//!
//! Each candidate look answers some of the open questions. The readings say how often each answer would come, and how many
//! stretches would then be settled: looks are ranked by that number, on average over the readings. Nothing here is a script;
//! the readings were traced.

use serde::Serialize;

use crate::geometry::{Frame, length};
use crate::ids::{FieldId, LevelId, ObservationId, WallId};
use crate::order::InOrder as _;
use crate::plan::{Below, Grade, Level, Material, Member, Observation, Photo, Plan, Point, Saw, Wall, Way};
use crate::readings::{
    Answer, Column, Table, Unknown, centre_of, covers, faces, field_at, is_top, middle, nearest, place_under, places,
    point, wall_of,
};
use crate::trace::{OpenEnd, Role};
use crate::units::{Feet, Ticks};

/// What stands this near a wall on the level above may stand on it, in feet.
const CLOSE_BY: Feet = Feet(1.5);
/// A gain under this is rounding.
const ROUNDING: f64 = 1e-9;

/// How a look is taken, the easiest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum How {
    /// Head and torch through a hatch: the whole framing at once.
    Hatch,
    /// Along the top plate of a wall, from above, both faces.
    AlongPlate,
    /// A joist measured, from below or from above.
    Measure,
    /// A board lifted, or a joist measured from below where it is open.
    LiftBoard,
    /// A small hole at the top of a wall, on both faces.
    SmallHole,
    /// What is below the end of a beam: the wall opened there, or a look from the floor below.
    UnderEnd,
}

/// What one outcome of a look would mean.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Outcome {
    /// The answers.
    pub answers: Vec<(Unknown, Answer)>,
    /// How likely, as a share.
    pub share: f64,
    /// How many stretches would then be settled that are not now.
    pub settles: usize,
    /// The stretches it would settle: walls and their roles.
    pub means: Vec<(WallId, Role)>,
    /// What is written down if it is so.
    pub seen: Vec<(Saw, Point)>,
}

/// One look.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Look {
    /// On which level.
    pub level: LevelId,
    /// Where.
    pub at: Point,
    /// How.
    pub how: How,
    /// At which wall, if at one.
    pub wall: Option<WallId>,
    /// What it answers.
    pub about: Vec<Unknown>,
    /// How many stretches it settles, on average.
    pub settles: f64,
    /// How much it narrows the rest: how much less often two readings differ on a stretch, summed.
    pub narrows: f64,
    /// What may be seen, the likeliest first.
    pub outcomes: Vec<Outcome>,
}

impl Look {
    /// Takes in what the same look tells of another level.
    fn join(&mut self, other: Self) {
        self.settles += other.settles;
        self.narrows += other.narrows;
        self.wall = None;
        for outcome in other.outcomes {
            if let Some(known) = self.outcomes.iter_mut().find(|it| it.answers == outcome.answers) {
                known.settles += outcome.settles;
                known.means.extend(outcome.means);
            }
        }
    }

    /// What is written down if this outcome is the one: observations without ids, seen.
    pub fn observations(&self, outcome: usize) -> impl Iterator<Item = Observation> + '_ {
        self.outcomes.get(outcome).into_iter().flat_map(|it| &it.seen).map(|(saw, at)| Observation {
            id: ObservationId::from_number(0),
            at: *at,
            saw: *saw,
            known: Grade::Seen,
            note: String::new(),
            day: String::new(),
            photo: Photo::default(),
        })
    }
}

/// All looks that help, best first.
pub(crate) fn looks(plan: &Plan, ends: &[OpenEnd], tables: &[Table]) -> Vec<Look> {
    let mut all: Vec<Look> = Vec::new();
    for table in tables {
        let Some(level) = plan.level(table.level) else { continue };
        let under = ends.iter().filter_map(|end| under_end(plan, table, end));
        for candidate in candidates(plan, level, table).into_iter().chain(under) {
            let Some(look) = weighed(plan, level, table, candidate) else { continue };
            // What is below one end is one look, whichever levels it tells of.
            let same = |known: &&mut Look| known.how == How::UnderEnd && known.about == look.about;
            match all.iter_mut().find(same) {
                Some(known) => known.join(look),
                None => all.push(look),
            }
        }
    }
    all.order_by(|a, b| {
        let key = |look: &Look| (look.how, look.level, look.wall, look.about.first().copied());
        b.settles.total_cmp(&a.settles).then(b.narrows.total_cmp(&a.narrows)).then(key(a).cmp(&key(b)))
    });
    all
}

struct Candidate {
    on: LevelId,
    at: Point,
    how: How,
    wall: Option<WallId>,
    about: Vec<usize>,
}

fn candidates(plan: &Plan, level: &Level, table: &Table) -> Vec<Candidate> {
    let (top, on) = (is_top(plan, level), level.id);
    let numbered = || table.questions.iter().enumerate();
    let centre = centre_of(level.outlines().first().map(Vec::as_slice).unwrap_or_default());
    let mut all = Vec::new();
    if top {
        let framing = numbered()
            .filter(|it| !matches!(it.1, Unknown::Wall(_) | Unknown::Struts(_) | Unknown::Size(_) | Unknown::Under(_)));
        let about = framing.map(|it| it.0).collect();
        all.push(Candidate { on, at: centre, how: How::Hatch, wall: None, about });
    } else {
        for (number, unknown) in numbered() {
            let at = match *unknown {
                Unknown::Direction(id) => place_in(level, id),
                Unknown::Overhead(_) | Unknown::Frame(_) => Some(centre),
                Unknown::RoofOver(_)
                | Unknown::Ceiling(_)
                | Unknown::Wall(_)
                | Unknown::Struts(_)
                | Unknown::Size(_)
                | Unknown::Under(_) => None,
            };
            all.extend(at.map(|at| Candidate { on, at, how: How::LiftBoard, wall: None, about: vec![number] }));
        }
    }
    for (number, unknown) in numbered() {
        let Unknown::Size(id) = *unknown else { continue };
        let at = place_in(level, id);
        all.extend(at.map(|at| Candidate { on, at, how: How::Measure, wall: None, about: vec![number] }));
    }
    // Nobody looks along a plate before he has seen what lies there.
    let open = |number: usize| table.classes(&[number]).len() > 1;
    let blind = |wall: &Wall| {
        numbered().any(|(number, it)| match *it {
            Unknown::Overhead(_) => open(number),
            Unknown::Ceiling(id) => {
                let roof = level.roofs.iter().find(|roof| roof.id == id);
                open(number) && roof.is_some_and(|roof| covers(level, roof, middle(wall.a, wall.b)))
            }
            _ => false,
        })
    };
    for (number, unknown) in numbered() {
        let Unknown::Wall(id) = *unknown else { continue };
        let Some(wall) = level.wall(id).filter(|wall| !blind(wall)) else { continue };
        let nothing = |it: &(Vec<Answer>, Vec<usize>)| it.0.contains(&Answer::None);
        if table.classes(&[number]).iter().any(nothing) {
            continue;
        }
        let struts = numbered().filter(|it| *it.1 == Unknown::Struts(id)).map(|it| it.0);
        let about = core::iter::once(number).chain(struts).collect();
        let how = if top { How::AlongPlate } else { How::SmallHole };
        let at = beside(level, wall, 0.0).unwrap_or_else(|| middle(wall.a, wall.b));
        all.push(Candidate { on, at, how, wall: Some(id), about });
    }
    all
}

/// A look below the end of a beam, where there is one.
fn under_end(plan: &Plan, table: &Table, end: &OpenEnd) -> Option<Candidate> {
    let about = table.questions.iter().position(|it| *it == Unknown::Under(end.of))?;
    // Nobody looks under a ridge beam before he has seen that there is one.
    if table.classes(&[about]).iter().any(|it| it.0.contains(&Answer::None)) {
        return None;
    }
    let wall = plan.level(end.level).and_then(|level| end.wall_at(level)).map(|it| it.0.id);
    let wall = wall.filter(|_| end.level == table.level);
    Some(Candidate { on: end.level, at: end.place()?, how: How::UnderEnd, wall, about: vec![about] })
}

/// A place so far to the left of a wall at the most, in feet, that what is seen there speaks of this wall and no other: by its
/// middle if that can be.
fn beside(level: &Level, wall: &Wall, left: f64) -> Option<Point> {
    let own = Frame::between(wall.a, wall.b)?;
    let (start, line) = own.local(wall.a.into());
    let length = length(wall.a, wall.b).0;
    let at = |share: f64, off: f64| point(own.spot(Feet(start.0 + share * length), Feet(line.0 + off)));
    let shares = || [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9].into_iter();
    let mut all = [left, left / 2.0, left / 4.0].into_iter().flat_map(|off| shares().filter_map(move |it| at(it, off)));
    all.find(|at| wall_of(level, *at) == Some(wall.id))
}

/// A place under the joists of a field, as near its centre as later fields leave it.
fn place_in(level: &Level, id: FieldId) -> Option<Point> {
    let field = level.fields.iter().find(|it| it.id == id)?;
    let own = |at: &Point| field_at(level, *at).is_some_and(|over| over.id == id);
    level.polygons(&field.region).iter().find_map(|polygon| places(polygon).find(own))
}

/// What a look may tell, with the readings that are left then.
struct Told {
    answers: Vec<(Unknown, Answer)>,
    seen: Vec<(Saw, Point)>,
    readings: Vec<usize>,
}

/// A look with what it is worth; none if it would tell nothing.
fn weighed(plan: &Plan, level: &Level, table: &Table, candidate: Candidate) -> Option<Look> {
    let classes = table.classes(&candidate.about);
    if classes.len() < 2 {
        return None;
    }
    let everything: Vec<usize> = (0..table.readings.len()).collect();
    let settled = |column: &Column, readings: &[usize], bare: Option<WallId>| {
        let readings = readings.iter().copied();
        let alone = bare == Some(column.wall) && column.is_settled_if_bare_in(readings.clone());
        !table.is_doubted(column) && (alone || column.is_settled_in(readings))
    };
    let settled_in = |readings: &[usize], bare: Option<WallId>| {
        table.columns.iter().filter(|column| settled(column, readings, bare)).count()
    };
    let now = settled_in(&everything, None);
    let (mut settles, mut open) = (0.0, 0.0);
    let about: Vec<Unknown> = candidate.about.iter().filter_map(|it| table.questions.get(*it).copied()).collect();
    let mut outcomes = Vec::new();
    // Answers of which the same would be written down are one outcome: those they differ in stay open.
    let mut told: Vec<Told> = Vec::new();
    for (answers, readings) in classes {
        let answers: Vec<(Unknown, Answer)> = about.iter().copied().zip(answers).collect();
        let seen = seen(plan, level, &answers, candidate.at);
        match told.iter_mut().find(|it| it.seen == seen) {
            Some(same) => {
                same.answers.retain(|it| answers.contains(it));
                same.readings.extend(readings);
            }
            None => told.push(Told { answers, seen, readings }),
        }
    }
    if told.len() < 2 {
        return None;
    }
    for Told { answers, seen, readings } in told {
        let share = table.share(&readings);
        let bare = seen.iter().any(|it| matches!(it.0, Saw::NothingStands | Saw::Gap));
        let bare = candidate.wall.filter(|_| bare);
        let count = settled_in(&readings, bare).saturating_sub(now);
        settles += share * f64::from(u32::try_from(count).unwrap_or(u32::MAX));
        open += share * table.open(&readings);
        let newly = |column: &&Column| settled(column, &readings, bare) && !settled(column, &everything, None);
        let role = |column: &Column| column.role(readings.first().copied()?).map(|role| (column.wall, role));
        let means = table.columns.iter().filter(newly).filter_map(role).collect();
        outcomes.push(Outcome { answers, share, settles: count, means, seen });
    }
    let narrows = table.open(&everything) - open;
    // Where a load goes from an end with nothing under it is worth a look though no role hangs on it.
    if settles < ROUNDING && narrows < ROUNDING && candidate.how != How::UnderEnd {
        return None;
    }
    outcomes.order_by(|a, b| b.share.total_cmp(&a.share));
    let Candidate { on, at, how, wall, .. } = candidate;
    Some(Look { level: on, at, how, wall, about, settles, narrows, outcomes })
}

/// Whether a wall or post of the level above stands over a wall, or close by.
fn stands_over(plan: &Plan, level: &Level, wall: &Wall) -> bool {
    let Some(above) = plan.level_above(level.id) else { return false };
    let Some(own) = Frame::between(wall.a, wall.b) else { return false };
    let ((start, line), length) = (own.local(wall.a.into()), length(wall.a, wall.b));
    let near = (0..=32_u8).filter_map(|step| point(own.spot(Feet(start.0 + length.0 * f64::from(step) / 32.0), line)));
    let stands = |at: Point| {
        let post = above.posts.iter().any(|post| crate::geometry::length(post.at, at) <= CLOSE_BY);
        post || nearest(&above.walls, at, CLOSE_BY).is_some()
    };
    near.into_iter().any(stands)
}

/// What is written down of some answers: the fewest observations that leave no other.
fn seen(plan: &Plan, level: &Level, answers: &[(Unknown, Answer)], at: Point) -> Vec<(Saw, Point)> {
    let mut all: Vec<(Saw, Point)> = Vec::new();
    // A low wall under rafters: no joists lie over it.
    let low = level.outlines().is_empty();
    let struts = answers.iter().find(|it| matches!(it.0, Unknown::Struts(_))).map(|it| it.1);
    for (unknown, answer) in answers {
        let wall = match unknown {
            Unknown::Wall(id) => level.wall(*id),
            _ => None,
        };
        let at = match unknown {
            Unknown::Direction(id) => place_in(level, *id).unwrap_or(at),
            Unknown::Frame(id) | Unknown::Ceiling(id) => place_under(level, *id).unwrap_or(at),
            _ => at,
        };
        let aside = |left: bool| wall.and_then(|wall| beside(level, wall, if left { 1.0 } else { -1.0 }));
        let kinds: Vec<(Saw, Point)> = match answer {
            Answer::AsDrawn | Answer::None => Vec::new(),
            Answer::Joists(along) => vec![(Saw::JoistsRun { along: *along }, at)],
            Answer::TwoBy(depth) => vec![(Saw::JoistSize { member: Member::sawn(2, *depth), spacing: None }, at)],
            Answer::OtherJoists => {
                let member = Member::deep(Material::IJoist, 1, Ticks::from_sixteenths(9 * 16 + 8));
                vec![(Saw::JoistSize { member, spacing: None }, at)]
            }
            Answer::Trusses => vec![(Saw::TrussPlates, at)],
            Answer::AlteredTrusses => vec![(Saw::TrussGussets, at)],
            Answer::Board => vec![(Saw::RidgeBoard, at)],
            Answer::RidgeBeam => vec![(Saw::RidgeBeam, at)],
            Answer::Lap => vec![(Saw::JoistsLap, at)],
            Answer::Tight if low => vec![(Saw::SitOnPlate, at)],
            Answer::Clear if low => vec![(Saw::Gap, at)],
            // Under struts nobody tells whether joists that run through touch it too.
            Answer::Tight | Answer::Clear if struts == Some(Answer::Struts) => vec![(Saw::JoistsRunThrough, at)],
            Answer::Tight => vec![(Saw::JoistsRunThrough, at), (Saw::SitOnPlate, at)],
            // With nothing else on it either, a gap along the whole wall says it all.
            Answer::Clear => vec![(Saw::JoistsRunThrough, at), (Saw::Gap, at)],
            Answer::Along if struts == Some(Answer::Struts) => vec![(Saw::RunAlong, at)],
            // A wall above is not seen from a hole.
            Answer::Along if wall.is_some_and(|wall| stands_over(plan, level, wall)) => vec![(Saw::RunAlong, at)],
            Answer::Along => vec![(Saw::RunAlong, at), (Saw::NothingStands, at)],
            Answer::TurnsLeft | Answer::TurnsRight => {
                let left = *answer == Answer::TurnsLeft;
                let ends = (Saw::JoistsEnd, aside(left).unwrap_or(at));
                let along = wall.map(|wall| Saw::JoistsRun { along: Way::between(wall.a, wall.b) });
                let mut places: Vec<Point> = Vec::new();
                for field in wall.map(|wall| faces(level, wall)).into_iter().flatten().flatten() {
                    places.extend(place_in(level, field.id).filter(|at| !places.contains(at)));
                }
                if places.is_empty() {
                    places.extend(aside(!left));
                }
                let along = along.into_iter().flat_map(|along| places.iter().map(move |at| (along, *at)));
                core::iter::once(ends).chain(along).collect()
            }
            Answer::Passes => vec![(Saw::NoTag, at)],
            Answer::Bears => vec![(Saw::TrussTag, at)],
            Answer::Struts => vec![(Saw::StrutStands, at)],
            Answer::NoStruts => vec![(Saw::NoStrut, at)],
            Answer::InWall => vec![(Saw::InLine { below: Below::Wall }, at)],
            Answer::OnPost => vec![(Saw::InLine { below: Below::Post }, at)],
            Answer::NotUnder => vec![(Saw::InLine { below: Below::Nothing }, at)],
        };
        for kind in kinds {
            let bare = all.iter().any(|it| matches!(it.0, Saw::NothingStands | Saw::Gap)) && kind.0 == Saw::NoStrut;
            if !all.contains(&kind) && !bare {
                all.push(kind);
            }
        }
    }
    all
}
