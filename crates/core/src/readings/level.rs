//! The readings of one level: enumerated the likeliest first, then traced one by one.

use std::collections::{BTreeSet, BinaryHeap};

use super::fact::{ALL, Fact, facts};
use super::house::turned;
use super::question::{Answer, Asker, Unknown, is_strutted, questions};
use super::{CAP, Contradiction, Why};
use crate::ids::{FieldId, LevelId, ObservationId, WallId};
use crate::loads::heaviest;
use crate::observe::{Weight, proof};
use crate::plan::{Grade, Level, Plan, Saw, Side};
use crate::trace::{Problem, Reason, Role, Stretch, Trace};
use crate::units::Feet;

/// A reading that waits: an answer for each question, and its weight.
pub(super) type Waiting = (Vec<Answer>, f64);

/// One level with its questions.
#[derive(Clone, Debug)]
pub(super) struct LevelWork {
    pub(super) level: LevelId,
    pub(super) questions: Vec<Unknown>,
    pub(super) walls: Vec<WallId>,
    pub(super) waiting: Vec<Waiting>,
    pub(super) readings: Vec<Reading>,
    /// The share of the weight of all readings that waits or is traced.
    pub(super) covered: f64,
    /// The walls whose facts contradict each other.
    pub(super) doubted: Vec<WallId>,
    /// Fields whose joists are known by their size.
    sized: BTreeSet<FieldId>,
    /// Whether something is wrong already: then nothing is ruled out for being too long.
    distressed: bool,
    /// The walls on which struts of a drawn purlin stand.
    strutted: Vec<WallId>,
    /// Numbers from this on were given by a reading.
    drawn: u32,
}

/// One reading, traced.
#[derive(Clone, Debug)]
pub(super) struct Reading {
    pub(super) answers: Vec<Answer>,
    pub(super) weight: f64,
    /// The stretches of each wall.
    pub(super) roles: Vec<Vec<(f64, f64, Role)>>,
    /// The heaviest line load of each wall.
    pub(super) plf: Vec<f64>,
    /// Members without support, and members longer than any table allows.
    pub(super) broken: (usize, usize),
    pub(super) why: Option<Why>,
}

impl LevelWork {
    pub(super) fn new(plan: &Plan, level: &Level, contradictions: &mut Vec<Contradiction>) -> Self {
        let asker = Asker::new(plan, level);
        let questions = questions(plan, level);
        let mut facts = facts(plan.levels(), level, &questions);
        let mut about: Vec<Unknown> = Vec::new();
        for (unknowns, seen) in conflicts(&asker, &questions, &mut facts) {
            about.extend(&unknowns);
            contradictions.push(Contradiction { level: level.id, about: unknowns, seen });
        }
        let inside = level.walls.iter().filter(|wall| wall.side == Side::Inside);
        let walls: Vec<WallId> = inside.map(|wall| wall.id).collect();
        let doubts = |wall: &&WallId| {
            about.iter().any(|unknown| match *unknown {
                Unknown::Wall(id) | Unknown::Struts(id) => id == **wall,
                Unknown::Direction(id) => asker.over(**wall).iter().any(|field| field.id == id),
                Unknown::Overhead(_) | Unknown::RoofOver(_) | Unknown::Frame(_) => true,
            })
        };
        let doubted = walls.iter().filter(doubts).copied().collect();
        let (waiting, covered) = if walls.is_empty() { (Vec::new(), 1.0) } else { list(&asker, &questions, &facts) };
        let measured = |id: FieldId| {
            let sized = |fact: &&Fact| matches!(fact.saw, Saw::JoistSize { .. }) && fact.known <= Grade::Seen;
            facts.iter().filter(sized).any(|fact| fact.about.contains(&Unknown::Direction(id)))
        };
        let sized =
            level.fields.iter().filter(|it| it.known <= Grade::Seen || measured(it.id)).map(|it| it.id).collect();
        let trouble = |saw: &Saw| proof(saw).weight == Weight::Distress;
        let distressed = plan.levels().iter().flat_map(|it| &it.observations).any(|it| trouble(&it.saw));
        let strutted = level.walls.iter().filter(|wall| is_strutted(level, wall)).map(|wall| wall.id).collect();
        let (level, readings, drawn) = (level.id, Vec::new(), plan.next_id);
        Self { level, questions, walls, waiting, readings, covered, doubted, sized, distressed, strutted, drawn }
    }

    /// Its likeliest answers.
    pub(super) fn likeliest(&self) -> Vec<(Unknown, Answer)> {
        let first = self.waiting.first().map(|it| it.0.as_slice()).unwrap_or_default();
        self.questions.iter().copied().zip(first.iter().copied()).collect()
    }

    /// Takes down what a trace says of one reading of this level.
    pub(super) fn read(&mut self, house: &Plan, trace: &Trace, (answers, weight): Waiting) {
        let mut broken = (0, 0);
        let mut why = None;
        for finding in trace.findings.iter().filter(|finding| finding.level == self.level) {
            match finding.problem {
                Problem::MembersUnsupported { count, .. } => {
                    broken.0 += count;
                    why = why.or(Some(Why::Unsupported));
                }
                Problem::LongSpan { field, span, reach, count } if self.sized.contains(&field) && !self.distressed => {
                    broken.1 += count;
                    why = why.or(Some(Why::TooLong { field, span, reach }));
                }
                _ => {}
            }
        }
        let wall = |id: &WallId| trace.wall(*id);
        let turn = |id: &WallId| {
            let of_wall = self.questions.iter().position(|it| *it == Unknown::Wall(*id));
            let left = match of_wall.and_then(|number| answers.get(number)) {
                Some(Answer::TurnsLeft) => true,
                Some(Answer::TurnsRight) => false,
                _ => return None,
            };
            turned(house.level(self.level)?, *id, left)
        };
        let strutted = |id: &WallId| {
            let asked = self.questions.iter().position(|it| *it == Unknown::Struts(*id));
            let struts = asked.and_then(|number| answers.get(number)) == Some(&Answer::Struts);
            struts && !self.strutted.contains(id)
        };
        let roles = self.walls.iter().map(|id| {
            let stretches = wall(id).map(|wall| wall.stretches.as_slice()).unwrap_or_default();
            // Where along it joists turn or struts stand nobody has seen: it is the whole of it.
            let whole = strutted(id).then_some(Role::CarriesRoof).or(turn(id).map(|it| it.0));
            let over = |role: Role| whole.filter(|whole| outranks(*whole, role)).unwrap_or(role);
            joined(self.without_struts_of_others(stretches).into_iter().map(|(a, b, role)| (a, b, over(role))))
        });
        let plf = self.walls.iter().map(|id| {
            let line = wall(id).map(|wall| wall.line.as_slice()).unwrap_or_default();
            let lands = line.iter().map(|part| heaviest(&part.loads, house.site()).0.0).fold(0.0, f64::max);
            turn(id).map_or(lands, |(_, plf)| plf.0 + lands)
        });
        let (roles, plf) = (roles.collect(), plf.collect());
        self.readings.push(Reading { answers, weight, roles, plf, broken, why });
    }

    /// The roles of a wall. A strut of a reading that happens to come down where this wall meets the one it was put on says
    /// nothing of it: there it is what it is beside.
    fn without_struts_of_others(&self, stretches: &[Stretch]) -> Vec<(f64, f64, Role)> {
        let by_chance = |it: &Stretch| {
            let put = |reason: &Reason| matches!(reason, Reason::StrutsStandOn { purlin } if purlin.0 >= self.drawn);
            it.role == Role::CarriesRoof && it.reasons.first().is_some_and(put)
        };
        let beside = |number: usize| {
            let before = stretches.iter().take(number).rev().find(|it| !by_chance(it));
            before.or_else(|| stretches.iter().skip(number).find(|it| !by_chance(it)))
        };
        let role = |(number, it): (usize, &Stretch)| {
            let role = if by_chance(it) { beside(number).map_or(it.role, |it| it.role) } else { it.role };
            (it.start.0, it.end.0, role)
        };
        stretches.iter().enumerate().map(role).collect()
    }

    /// The readings in which the house stands: none of whose members are worse off than in the best of them.
    pub(super) fn standing(&self) -> Vec<&Reading> {
        let best = self.readings.iter().map(|it| it.broken).min().unwrap_or_default();
        self.readings.iter().filter(|it| it.broken == best).collect()
    }

    /// How long a wall is, as traced.
    pub(super) fn length(&self, wall: usize) -> Feet {
        let ends = self.readings.iter().filter_map(|it| it.roles.get(wall)?.last().map(|it| it.1));
        Feet(ends.fold(0.0, f64::max))
    }
}

/// Whether a stretch that carries both is called after the first: roof before floor before ceiling, these before the rest.
const fn outranks(one: Role, other: Role) -> bool {
    const fn rank(role: Role) -> u8 {
        match role {
            Role::Outside => 0,
            Role::CarriesRoof => 1,
            Role::CarriesFloor => 2,
            Role::CarriesCeiling => 3,
            Role::HoldsPoint | Role::NothingFound | Role::NeedsALook => 4,
        }
    }
    rank(one) < rank(other)
}

/// Neighbours of one role as one.
fn joined(all: impl Iterator<Item = (f64, f64, Role)>) -> Vec<(f64, f64, Role)> {
    let mut roles: Vec<(f64, f64, Role)> = Vec::new();
    for (start, end, role) in all {
        match roles.last_mut().filter(|last| last.2 == role) {
            Some(last) => last.1 = end,
            None => roles.push((start, end, role)),
        }
    }
    roles
}

/// A reading in the making.
struct Partial {
    weight: f64,
    /// Of two equally likely ones the earlier goes first.
    number: usize,
    answers: Vec<Answer>,
}

impl PartialEq for Partial {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl Eq for Partial {}

impl PartialOrd for Partial {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Partial {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.weight.total_cmp(&other.weight).then(other.number.cmp(&self.number))
    }
}

/// The readings that fit all facts, likeliest first: at the most `most` of them, only those with the wanted answers; with
/// them the weight that is left in the readings that were not listed.
fn search(
    asker: &Asker<'_>,
    questions: &[Unknown],
    facts: &[Fact],
    wanted: &[(usize, Answer)],
    most: usize,
) -> (Vec<Waiting>, f64) {
    let mut open = BinaryHeap::from([Partial { weight: 1.0, number: 0, answers: Vec::new() }]);
    let mut found = Vec::new();
    let mut made = 0;
    while let Some(partial) = open.pop() {
        let Some(unknown) = questions.get(partial.answers.len()) else {
            found.push((partial.answers, partial.weight));
            if found.len() >= most {
                break;
            }
            continue;
        };
        let so_far: Vec<(Unknown, Answer)> = questions.iter().copied().zip(partial.answers.iter().copied()).collect();
        let options = asker.answers(*unknown, &so_far);
        let all: f64 = options.iter().map(|it| it.1).sum();
        let here = partial.answers.len();
        let on: Vec<&Fact> = facts.iter().filter(|fact| fact.about.contains(unknown)).collect();
        for (answer, share) in options {
            let fits = wanted.iter().all(|(number, wanted)| *number != here || *wanted == answer);
            if !fits || on.iter().any(|fact| fact.rules_out(answer)) {
                continue;
            }
            made += 1;
            let times: f64 = on.iter().map(|fact| fact.times(answer)).product();
            let mut answers = partial.answers.clone();
            answers.push(answer);
            open.push(Partial { weight: partial.weight * share / all * times, number: made, answers });
        }
    }
    (found, open.iter().map(|it| it.weight).sum())
}

/// The readings to be traced, likeliest first, and the share of the weight of all that they have.
fn list(asker: &Asker<'_>, questions: &[Unknown], facts: &[Fact]) -> (Vec<Waiting>, f64) {
    let (mut found, left) = search(asker, questions, facts, &[], CAP);
    let listed: f64 = found.iter().map(|it| it.1).sum();
    if left <= 0.0 {
        return (found, 1.0);
    }
    // Of each two answers that can go together the likeliest reading, so that no answer is passed over for being rare.
    let single = |number: usize| -> Vec<Answer> {
        let known = found.iter().filter_map(|it| it.0.get(number).copied());
        known.fold(Vec::new(), |mut all, answer| {
            if !all.contains(&answer) {
                all.push(answer);
            }
            all
        })
    };
    let singles: Vec<Vec<Answer>> = (0..questions.len()).map(single).collect();
    let mut more: Vec<Waiting> = Vec::new();
    for (i, of_one) in singles.iter().enumerate() {
        for (j, of_other) in singles.iter().enumerate().skip(i + 1) {
            for pair in of_one.iter().flat_map(|a| of_other.iter().map(move |b| (*a, *b))) {
                let holds = |it: &Waiting| it.0.get(i) == Some(&pair.0) && it.0.get(j) == Some(&pair.1);
                if found.iter().chain(&more).any(holds) {
                    continue;
                }
                more.extend(search(asker, questions, facts, &[(i, pair.0), (j, pair.1)], 1).0);
            }
        }
    }
    let also: f64 = more.iter().map(|it| it.1).sum();
    found.extend(more);
    (found, (listed + also) / (listed + left))
}

/// What cannot all be true: facts on one question of which no answer is left, then facts that together leave no reading.
/// What is in doubt is taken away from the facts.
fn conflicts(asker: &Asker<'_>, questions: &[Unknown], facts: &mut [Fact]) -> Vec<(Vec<Unknown>, Vec<ObservationId>)> {
    let mut all = Vec::new();
    for unknown in questions {
        let on: Vec<&Fact> = facts.iter().filter(|it| it.about.contains(unknown) && it.speaks_to(*unknown)).collect();
        let ways = on.iter().filter_map(|fact| match fact.saw {
            Saw::JoistsRun { along } => Some(Answer::Joists(along)),
            _ => None,
        });
        let possible: Vec<Answer> = ALL.into_iter().chain(ways).filter(|answer| unknown.takes(*answer)).collect();
        let left = possible.iter().any(|answer| on.iter().all(|fact| !fact.rules_out(*answer)));
        if on.len() > 1 && !left {
            all.push((vec![*unknown], on.iter().map(|fact| fact.of).collect()));
        }
    }
    let drop = |facts: &mut [Fact], (about, seen): &(Vec<Unknown>, Vec<ObservationId>)| {
        for fact in facts.iter_mut().filter(|fact| seen.contains(&fact.of)) {
            fact.about.retain(|unknown| !about.contains(unknown));
        }
    };
    for conflict in &all {
        drop(facts, conflict);
    }
    // Each round takes at least one fact away.
    for _ in 0..facts.len() {
        if !search(asker, questions, facts, &[], 1).0.is_empty() {
            break;
        }
        let hard: Vec<usize> =
            (0..facts.len()).filter(|number| facts.get(*number).is_some_and(Fact::is_hard)).collect();
        let without = |number: usize| {
            let rest = facts.iter().enumerate().filter(|it| it.0 != number).map(|it| it.1.clone()).collect::<Vec<_>>();
            !search(asker, questions, &rest, &[], 1).0.is_empty()
        };
        let mut involved: Vec<usize> = hard.iter().copied().filter(|number| without(*number)).collect();
        if involved.is_empty() {
            involved = hard;
        }
        let of = |number: &usize| facts.get(*number);
        let mut about: Vec<Unknown> = involved.iter().filter_map(of).flat_map(|it| it.about.clone()).collect();
        about.sort_unstable();
        about.dedup();
        let seen: Vec<ObservationId> = involved.iter().filter_map(of).map(|it| it.of).collect();
        if seen.is_empty() {
            break;
        }
        let conflict = (about, seen);
        drop(facts, &conflict);
        all.push(conflict);
    }
    all
}
