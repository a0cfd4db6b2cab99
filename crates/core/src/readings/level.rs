//! The readings of one level: enumerated the likeliest first, then traced one by one.

use std::collections::{BTreeSet, BinaryHeap};

use super::fact::{ALL, Fact, facts};
use super::house::turned;
use super::question::{Answer, Asker, Unknown, is_strutted, questions};
use super::{CAP, Contradiction, Why};
use crate::ids::{FieldId, LevelId, ObservationId, WallId};
use crate::loads::heaviest;
use crate::observe::{Weight, proof};
use crate::order::InOrder as _;
use crate::plan::{Grade, Level, Plan, Saw, Side};
use crate::trace::{OpenEnd, Problem, Reason, Role, Stretch, Trace};
use crate::units::{Feet, Plf};

/// A reading that waits: an answer for each question, and its weight.
pub(super) type Waiting = (Vec<Answer>, f64);

/// One level with its questions.
#[derive(Clone, Debug)]
pub(super) struct LevelWork {
    pub(super) level: LevelId,
    pub(super) questions: Vec<Unknown>,
    pub(super) walls: Vec<WallId>,
    /// The inside walls of all levels below it.
    pub(super) lower: Vec<WallId>,
    pub(super) waiting: Vec<Waiting>,
    pub(super) readings: Vec<Reading>,
    /// The share of the weight of all readings that waits or is traced.
    pub(super) covered: f64,
    /// Whether every answer about each wall waits or is traced under every way of framing.
    pub(super) complete: bool,
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
    /// The same of each wall of the levels below, those at their likeliest.
    pub(super) lower: Vec<f64>,
    /// Members without support, and members longer than any table allows.
    pub(super) broken: (usize, usize),
    pub(super) why: Option<Why>,
}

impl LevelWork {
    pub(super) fn new(plan: &Plan, level: &Level, ends: &[OpenEnd], contradictions: &mut Vec<Contradiction>) -> Self {
        let asker = Asker::new(plan, level, ends);
        let questions = questions(plan, level, ends);
        let mut facts = facts(plan.levels(), level, &questions, ends);
        let mut about: Vec<Unknown> = Vec::new();
        for (unknowns, seen) in conflicts(&asker, &questions, &mut facts) {
            about.extend(&unknowns);
            contradictions.push(Contradiction { level: level.id, about: unknowns, seen });
        }
        let inside = level.walls.iter().filter(|wall| wall.side == Side::Inside);
        let walls: Vec<WallId> = inside.map(|wall| wall.id).collect();
        let below = plan.levels().iter().take_while(|it| it.id != level.id).flat_map(|it| &it.walls);
        let lower = below.filter(|wall| wall.side == Side::Inside).map(|wall| wall.id).collect();
        let doubts = |wall: &&WallId| {
            about.iter().any(|unknown| match *unknown {
                Unknown::Wall(id) | Unknown::Struts(id) => id == **wall,
                Unknown::Direction(id) | Unknown::Size(id) => asker.over(**wall).iter().any(|field| field.id == id),
                Unknown::Overhead(_) | Unknown::Ceiling(_) | Unknown::RoofOver(_) | Unknown::Frame(_) => true,
                Unknown::Under(of) => {
                    let end = ends.iter().find(|end| end.of == of);
                    end.is_some_and(|end| level.wall(**wall).is_some_and(|wall| end.run_on(level, wall).is_some()))
                }
            })
        };
        let doubted = walls.iter().filter(doubts).copied().collect();
        let (waiting, covered, complete) =
            if walls.is_empty() { (Vec::new(), 1.0, true) } else { list(&asker, &questions, &facts) };
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
        Self {
            level,
            questions,
            walls,
            lower,
            waiting,
            readings,
            covered,
            complete,
            doubted,
            sized,
            distressed,
            strutted,
            drawn,
        }
    }

    /// Whether a reading knows how deep the joists of a field are.
    fn is_sized(&self, field: FieldId, answers: &[Answer]) -> bool {
        let asked = self.questions.iter().position(|it| *it == Unknown::Size(field));
        let answer = asked.and_then(|number| answers.get(number));
        self.sized.contains(&field) || matches!(answer, Some(Answer::TwoBy(_)))
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
                Problem::LongSpan { field, span, reach, count }
                    if self.is_sized(field, &answers) && !self.distressed =>
                {
                    broken.1 += count;
                    why = why.or(Some(Why::TooLong { field, span, reach }));
                }
                _ => {}
            }
        }
        let wall = |id: &WallId| trace.wall(*id);
        let turn = |id: &WallId| self.turn(house, &answers, *id);
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
        let plf = self.walls.iter().map(|id| self.plf(house, trace, &answers, *id));
        let lower = self.lower.iter().map(|id| lands(house, trace, *id));
        let (roles, plf, lower) = (roles.collect(), plf.collect(), lower.collect());
        self.readings.push(Reading { answers, weight, roles, plf, lower, broken, why });
    }

    /// What lands on a wall on whose one face joists turn and end by some answers.
    fn turn(&self, house: &Plan, answers: &[Answer], id: WallId) -> Option<(Role, Plf)> {
        let of_wall = self.questions.iter().position(|it| *it == Unknown::Wall(id));
        let left = match of_wall.and_then(|number| answers.get(number)) {
            Some(Answer::TurnsLeft) => true,
            Some(Answer::TurnsRight) => false,
            _ => return None,
        };
        turned(house.level(self.level)?, id, left)
    }

    /// The heaviest line load of a wall by some answers.
    pub(super) fn plf(&self, house: &Plan, trace: &Trace, answers: &[Answer], id: WallId) -> f64 {
        let lands = lands(house, trace, id);
        self.turn(house, answers, id).map_or(lands, |(_, plf)| plf.0 + lands)
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

/// The heaviest line load that lands on a wall.
fn lands(house: &Plan, trace: &Trace, id: WallId) -> f64 {
    let line = trace.wall(id).map(|wall| wall.line.as_slice()).unwrap_or_default();
    line.iter().map(|part| heaviest(&part.loads, house.site()).0.0).fold(0.0, f64::max)
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

/// How many ways of framing a level are looked into, the likeliest first.
const FRAMINGS: usize = 256;
/// In how many of them each answer is traced, however unlikely.
const OFTEN: usize = 8;

/// One way of framing a level, with the answers that each wall under it leaves open: these do not hang on each other.
struct Framing {
    answers: Vec<Answer>,
    weight: f64,
    /// Of each question about a wall, the likeliest answer first.
    open: Vec<Vec<(Answer, f64)>>,
}

impl Framing {
    /// The weight of all its readings together.
    fn all(&self) -> f64 {
        self.weight * self.open.iter().map(|it| it.iter().map(|it| it.1).sum::<f64>()).product::<f64>()
    }

    /// The reading with these answers of each wall's list.
    fn reading(&self, picks: &[usize]) -> Option<Waiting> {
        let mut answers = self.answers.clone();
        let mut weight = self.weight;
        for (open, pick) in self.open.iter().zip(picks) {
            let (answer, share) = open.get(*pick)?;
            answers.push(*answer);
            weight *= share;
        }
        Some((answers, weight))
    }
}

/// What waits to be looked at, the heaviest first; of two equally heavy ones the earlier.
struct Heavy<T> {
    weight: f64,
    number: usize,
    what: T,
}

impl<T> PartialEq for Heavy<T> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other).is_eq()
    }
}

impl<T> Eq for Heavy<T> {}

impl<T> PartialOrd for Heavy<T> {
    fn partial_cmp(&self, other: &Self) -> Option<core::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> Ord for Heavy<T> {
    fn cmp(&self, other: &Self) -> core::cmp::Ordering {
        self.weight.total_cmp(&other.weight).then(other.number.cmp(&self.number))
    }
}

/// The answers to one question that fit all facts, with their shares, the likeliest first.
fn fitting(asker: &Asker<'_>, facts: &[Fact], unknown: Unknown, so_far: &[(Unknown, Answer)]) -> Vec<(Answer, f64)> {
    let options = asker.answers(unknown, so_far);
    let all: f64 = options.iter().map(|it| it.1).sum();
    let on: Vec<&Fact> = facts.iter().filter(|fact| fact.about.contains(&unknown)).collect();
    let fits = options.into_iter().filter(|it| !on.iter().any(|fact| fact.rules_out(it.0)));
    let weighed = fits.map(|(answer, share)| {
        let times: f64 = on.iter().map(|fact| fact.times(answer)).product();
        (answer, share / all * times)
    });
    let mut weighed: Vec<(Answer, f64)> = weighed.collect();
    weighed.order_by(|a, b| b.1.total_cmp(&a.1));
    weighed
}

/// The ways of framing a level that leave every wall an answer, likeliest first, and the weight that is left in others.
fn framings(asker: &Asker<'_>, questions: &[Unknown], facts: &[Fact]) -> (Vec<Framing>, f64) {
    let of_walls = questions.iter().position(|it| matches!(it, Unknown::Wall(_) | Unknown::Struts(_)));
    let (framing, of_walls) = questions.split_at(of_walls.unwrap_or(questions.len()));
    let mut open = BinaryHeap::from([Heavy { weight: 1.0, number: 0, what: Vec::<Answer>::new() }]);
    let mut found = Vec::new();
    let mut made = 0;
    while let Some(Heavy { weight, what: answers, .. }) = open.pop() {
        let so_far: Vec<(Unknown, Answer)> = framing.iter().copied().zip(answers.iter().copied()).collect();
        let Some(unknown) = framing.get(answers.len()) else {
            let left: Vec<Vec<(Answer, f64)>> = of_walls.iter().map(|it| fitting(asker, facts, *it, &so_far)).collect();
            if left.iter().all(|it| !it.is_empty()) {
                found.push(Framing { answers, weight, open: left });
            }
            if found.len() >= FRAMINGS {
                break;
            }
            continue;
        };
        for (answer, share) in fitting(asker, facts, *unknown, &so_far) {
            made += 1;
            let what = answers.iter().copied().chain([answer]).collect();
            open.push(Heavy { weight: weight * share, number: made, what });
        }
    }
    found.order_by(|a, b| b.all().total_cmp(&a.all()));
    (found, open.iter().map(|it| it.weight).sum())
}

/// The readings to be traced, likeliest first, the share of the weight of all that they have, and whether every answer about
/// each wall is among them under every way of framing.
fn list(asker: &Asker<'_>, questions: &[Unknown], facts: &[Fact]) -> (Vec<Waiting>, f64, bool) {
    let (framings, left) = framings(asker, questions, facts);
    let all: f64 = framings.iter().map(Framing::all).sum::<f64>() + left;
    let mut found: Vec<Waiting> = Vec::new();
    let mut open = BinaryHeap::new();
    for (number, framing) in framings.iter().enumerate() {
        let picks = vec![0; framing.open.len()];
        let weight = framing.reading(&picks).map_or(0.0, |it| it.1);
        open.push(Heavy { weight, number, what: (number, picks, 0) });
    }
    let mut made = framings.len();
    while let Some(Heavy { what: (number, picks, from), .. }) = open.pop() {
        let Some(framing) = framings.get(number) else { continue };
        found.extend(framing.reading(&picks));
        if found.len() >= CAP {
            break;
        }
        // Each further reading is made from one alone: by the next answer of one of its later walls.
        for wall in from..picks.len() {
            let mut next = picks.clone();
            next.iter_mut().skip(wall).take(1).for_each(|pick| *pick += 1);
            if let Some((_, weight)) = framing.reading(&next) {
                made += 1;
                open.push(Heavy { weight, number: made, what: (number, next, wall) });
            }
        }
    }
    if !open.is_empty() {
        // No answer is passed over for being rare: each one under each of the likelier ways of framing.
        for framing in framings.iter().take(OFTEN) {
            for (wall, answers) in framing.open.iter().enumerate() {
                for pick in 0..answers.len() {
                    let mut picks = vec![0; framing.open.len()];
                    picks.iter_mut().skip(wall).take(1).for_each(|it| *it = pick);
                    let reading = framing.reading(&picks).filter(|it| found.iter().all(|known| known.0 != it.0));
                    found.extend(reading);
                }
            }
        }
    }
    let listed: f64 = found.iter().map(|it| it.1).sum();
    let whole = open.is_empty() && left <= 0.0;
    let covered = if whole { 1.0 } else { listed / all };
    (found, covered, whole || (left <= 0.0 && framings.len() <= OFTEN))
}

/// What cannot all be true: facts on one question of which no answer is left, then facts that together leave no reading.
/// What is in doubt is taken away from the facts.
fn conflicts(asker: &Asker<'_>, questions: &[Unknown], facts: &mut [Fact]) -> Vec<(Vec<Unknown>, Vec<ObservationId>)> {
    let mut all = Vec::new();
    // That there is no ceiling under a roof is no contradiction.
    for unknown in questions.iter().filter(|it| !matches!(it, Unknown::Ceiling(_))) {
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
        if !framings(asker, questions, facts).0.is_empty() {
            break;
        }
        let hard: Vec<usize> =
            (0..facts.len()).filter(|number| facts.get(*number).is_some_and(Fact::is_hard)).collect();
        let without = |number: usize| {
            let rest = facts.iter().enumerate().filter(|it| it.0 != number).map(|it| it.1.clone()).collect::<Vec<_>>();
            !framings(asker, questions, &rest).0.is_empty()
        };
        let mut involved: Vec<usize> = hard.iter().copied().filter(|number| without(*number)).collect();
        if involved.is_empty() {
            involved = hard;
        }
        let of = |number: &usize| facts.get(*number);
        let mut about: Vec<Unknown> = involved.iter().filter_map(of).flat_map(|it| it.about.clone()).collect();
        about.order();
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
