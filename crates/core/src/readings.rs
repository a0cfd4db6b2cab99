//! Readings of a house: every way in which what nobody has seen may be, weighed, ruled out, and traced.
//!
//! Each level is read by itself, the others at their likeliest: what a wall is for hangs on what lies right over it. Up to
//! [`CAP`] readings of a level are traced, the likeliest first, and with them every answer under each of the likelier ways of
//! framing; how much of the weight they cover is said. A stretch is certain where its role is the same in all of them.

use serde::Serialize;

use crate::ids::{FieldId, LevelId, ObservationId, WallId};
use crate::looks::{Look, looks};
use crate::order::InOrder as _;
use crate::plan::Plan;
use crate::trace::{OpenEnd, Reason, Role, Stretch, Trace, trace};
use crate::units::{Feet, Plf};

mod fact;
mod house;
mod houses;
#[cfg(all(test, feature = "draft"))]
mod joint;
mod known;
mod level;
mod question;
mod range;
mod table;
mod under;

use level::LevelWork;
use table::ruled_out;

pub(crate) use fact::nearest;
pub use fact::{NEAR_WALL, wall_of};
pub use house::middle as middle_of;
pub(crate) use house::middle;
pub use houses::Houses;
pub(crate) use houses::{Answers, LevelHouses};
pub use known::{as_known, known_trace, record};
pub use question::{Answer, Unknown};
pub(crate) use question::{centre_of, covers, faces, field_at, is_top, over_wall, place_under, places, point, roof_at};
pub(crate) use table::{Column, Table};
pub(crate) use under::open_ends;

/// How many readings of one level are traced at the most, besides one for every answer under each likelier framing.
pub const CAP: usize = 1000;
/// A stretch is likely what it is in this share of the readings, by weight.
pub const LIKELY: f64 = 0.8;

/// How sure the role of a stretch is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Certainty {
    /// The same in every reading.
    Certain,
    /// The same in most, by weight.
    Likely,
    /// Not settled, or what was seen does not fit together.
    NeedsALook,
}

/// A stretch of an inside wall with what its role is in the readings.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The wall.
    pub wall: WallId,
    /// From end `a`.
    pub start: Feet,
    /// From end `a`.
    pub end: Feet,
    /// How sure what it carries is.
    pub certainty: Certainty,
    /// Whether it carries or holds something in every reading, be that different things.
    pub bears_in_all: bool,
    /// Its roles with their shares, the largest first.
    pub roles: Vec<(Role, f64)>,
    /// What it hangs on, what it hangs on most first.
    pub hangs_on: Vec<Unknown>,
}

impl Judged {
    /// Its likeliest role.
    #[must_use]
    pub fn role(&self) -> Role {
        self.roles.first().map_or(Role::NeedsALook, |it| it.0)
    }

    /// The share of the readings in which it carries or holds anything, or nobody can say.
    #[must_use]
    pub fn bearing(&self) -> f64 {
        self.roles.iter().filter(|it| it.0 != Role::NothingFound).map(|it| it.1).sum()
    }
}

/// Observations that cannot all be true.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Contradiction {
    /// On which level.
    pub level: LevelId,
    /// What they are about.
    pub about: Vec<Unknown>,
    /// Which; one alone disagrees with what is drawn as seen.
    pub seen: Vec<ObservationId>,
}

/// Why an answer cannot be.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "why")]
pub enum Why {
    /// Joists would reach further than any table has for their size.
    TooLong {
        /// Which joists.
        field: FieldId,
        /// How far they would span.
        span: Feet,
        /// How far the longest table goes.
        reach: Feet,
    },
    /// Members would have nothing to rest on.
    Unsupported,
}

/// An answer that was ruled out by what would follow from it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RuledOut {
    /// To which question.
    pub unknown: Unknown,
    /// Which.
    pub answer: Answer,
    /// Why.
    pub why: Why,
}

/// The line load on a wall over all readings of its level and of those above, by its heaviest combination.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Range {
    /// Which wall.
    pub wall: WallId,
    /// The least of the readings' heaviest.
    pub least: Plf,
    /// The most.
    pub most: Plf,
}

/// What the readings of one level come to.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LevelReading {
    /// Which.
    pub level: LevelId,
    /// How many readings were traced.
    pub traced: usize,
    /// How many of those were ruled out by what follows from them.
    pub ruled_out: usize,
    /// The share of the weight of all readings that was traced.
    pub covered: f64,
}

/// What all readings together say.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Judgement {
    /// Stretches of inside walls, level by level from the top, wall by wall.
    pub stretches: Vec<Judged>,
    /// Facts that contradict each other.
    pub contradictions: Vec<Contradiction>,
    /// Answers that cannot be.
    pub ruled_out: Vec<RuledOut>,
    /// Line loads, where they differ between readings.
    pub ranges: Vec<Range>,
    /// The levels, from the top.
    pub levels: Vec<LevelReading>,
    /// Where to look next, best first.
    pub looks: Vec<Look>,
    /// The readings themselves, each of which can be built as a house.
    #[serde(skip)]
    pub houses: Houses,
}

impl Judgement {
    /// The stretches of one wall.
    pub fn of_wall(&self, wall: WallId) -> impl Iterator<Item = &Judged> {
        self.stretches.iter().filter(move |it| it.wall == wall)
    }

    /// Tells a trace what is settled: a stretch that needs a look, though in every reading it is certain that nothing lands on it,
    /// needs none any more, and what is certain does not ask how the house is framed. What carries stays as it is traced.
    pub fn settle(&self, trace: &mut Trace) {
        for wall in &mut trace.walls {
            let sure: Vec<&Judged> = self.of_wall(wall.wall).filter(|it| it.certainty == Certainty::Certain).collect();
            if sure.is_empty() {
                continue;
            }
            let mut settled: Vec<Stretch> = Vec::new();
            for stretch in &wall.stretches {
                let mut stops: Vec<Feet> = sure.iter().flat_map(|it| [it.start, it.end]).collect();
                stops.retain(|at| stretch.start < *at && *at < stretch.end);
                stops.extend([stretch.start, stretch.end]);
                stops.order_by(Feet::total_cmp);
                stops.dedup();
                for (start, end) in stops.iter().zip(stops.iter().skip(1)) {
                    let middle = (*start + *end) / 2.0;
                    let here = sure.iter().find(|it| it.start <= middle && middle <= it.end);
                    let mut part = Stretch { start: *start, end: *end, ..stretch.clone() };
                    if here.is_some_and(|it| it.role() != Role::NeedsALook) {
                        part.reasons.retain(|it| !it.asks_of_framing());
                    }
                    if here.is_some_and(|it| it.role() == Role::NothingFound) && part.role == Role::NeedsALook {
                        part.role = Role::NothingFound;
                        part.reasons.insert(0, Reason::NothingInAny);
                    }
                    match settled.last_mut() {
                        Some(last) if last.role == part.role => {
                            last.end = part.end;
                            part.reasons.retain(|it| !last.reasons.contains(it));
                            last.reasons.append(&mut part.reasons);
                        }
                        _ => settled.push(part),
                    }
                }
            }
            wall.stretches = settled;
        }
    }

    /// Whether nothing is left to look at.
    #[must_use]
    pub fn is_settled(&self) -> bool {
        self.stretches.iter().all(|it| it.certainty == Certainty::Certain)
    }
}

/// The readings of a house while they are traced.
#[derive(Clone, Debug)]
pub struct Readings {
    base: Plan,
    /// The ends of beams under which nothing is drawn.
    ends: Vec<OpenEnd>,
    levels: Vec<LevelWork>,
    /// How many of each level are traced already.
    done: Vec<usize>,
    /// Each level's likeliest answers.
    likeliest: Vec<(LevelId, Vec<(Unknown, Answer)>)>,
    contradictions: Vec<Contradiction>,
}

impl Readings {
    /// All readings of a plan, none of them traced yet.
    #[must_use]
    pub fn new(plan: &Plan) -> Self {
        let base = as_known(plan);
        let mut contradictions = Vec::new();
        let levels = base.levels.iter().rev();
        let ends = under::open_ends(&base);
        let work = levels.map(|level| LevelWork::new(&base, level, &ends, &mut contradictions));
        let levels: Vec<LevelWork> = work.collect();
        let likeliest = levels.iter().map(|level| (level.level, level.likeliest())).collect();
        let done = vec![0; levels.len()];
        Self { base, ends, levels, done, likeliest, contradictions }
    }

    /// How many are traced, of how many.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done.iter().sum(), self.levels.iter().map(|it| it.waiting.len()).sum())
    }

    /// Traces one more reading; false if none is left.
    pub fn step(&mut self) -> bool {
        let mut open = self.levels.iter_mut().zip(&mut self.done);
        let Some((work, done)) = open.find(|(work, done)| **done < work.waiting.len()) else { return false };
        let Some((answers, weight)) = work.waiting.get(*done).cloned() else { return false };
        *done += 1;
        let own = work.questions.iter().copied().zip(answers.iter().copied());
        let house = house_of(&self.base, &self.ends, &self.likeliest, own.collect());
        let trace = trace(&house);
        work.read(&house, &trace, (answers, weight));
        true
    }

    /// What the readings that are traced come to.
    #[must_use]
    pub fn judgement(&self) -> Judgement {
        let mut all = Judgement { contradictions: self.contradictions.clone(), ..Judgement::default() };
        let mut tables = Vec::new();
        for (number, work) in self.levels.iter().enumerate().filter(|it| !it.1.walls.is_empty()) {
            let standing = work.standing();
            all.ruled_out.extend(ruled_out(work, &standing));
            all.levels.push(LevelReading {
                level: work.level,
                traced: work.readings.len(),
                ruled_out: work.readings.len() - standing.len(),
                covered: work.covered,
            });
            let table = Table::of(work, &standing);
            all.ranges.extend(self.ranges(number, &standing));
            all.stretches.extend(table.judged());
            tables.push(table);
        }
        all.looks = looks(&self.base, &self.ends, &tables);
        all.houses = Houses::of(self);
        all
    }
}

/// A level's likeliest answers.
type Likeliest = [(LevelId, Vec<(Unknown, Answer)>)];

/// The house with some questions answered so, and all others as is likeliest.
fn house_of(base: &Plan, ends: &[OpenEnd], likeliest: &Likeliest, mut answers: Vec<(Unknown, Answer)>) -> Plan {
    // What stands under an end is asked on each level it may come down to: once answered it is.
    for rest in likeliest.iter().flat_map(|it| &it.1) {
        if answers.iter().all(|known| known.0 != rest.0) {
            answers.push(*rest);
        }
    }
    house::house(base, ends, &answers)
}

/// All readings of a plan, traced and judged at once.
#[must_use]
pub fn judge(plan: &Plan) -> Judgement {
    let mut readings = Readings::new(plan);
    while readings.step() {}
    readings.judgement()
}
