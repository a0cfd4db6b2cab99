//! Which houses a study is of: of all readings that fit, those in which most comes somewhere.
//!
//! Every reading of every level is traced once. For each thing that could be sized, each end of the line, its middle, each part
//! between posts, each post, beam and footing below, and for each answer to each question, the reading is kept that
//! brings most; those of several levels are put together as well. What the study then says of anything is the worst of these
//! houses.

use super::case::{Case, House};
use super::lands::{Lands, landing};
use super::{Away, Over, Stretch, Study, joint};
use crate::ids::WallId;
use crate::loads::{Combination, Weights, combinations, heaviest};
use crate::plan::Plan;
use crate::readings::{Answer, Answers, Certainty, Houses, Judgement, Unknown};
use crate::trace::{Node, Role};
use crate::units::{Feet, Pounds};

/// Loads that differ by a part in a million are one.
const SAME: f64 = 1e-6;
/// Under so many pounds nothing lands.
const LITTLE: f64 = 1.0;

/// A place where loads of one house are compared with those of another.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Measure {
    /// All that lands on the stretch.
    All(Combination),
    /// The end of a simple beam nearer to end `a` of the line.
    AtFrom(Combination),
    /// The other end.
    AtTo(Combination),
    /// The moment in the middle of a simple beam.
    Middle(Combination),
    /// Between two posts.
    Part(usize, Combination),
    /// What one thing brings.
    Brings(Node),
    /// What comes down on a post, beam or footing below.
    Below(Node),
    /// All that lands, where a question is answered so.
    If(Unknown, Answer),
}

/// The reading of a level that brings most somewhere.
#[derive(Clone, Debug)]
struct Top {
    measure: Measure,
    level: usize,
    most: f64,
    answers: Answers,
}

/// A study while the readings of the house are traced for it.
#[derive(Clone, Debug)]
pub struct Studying {
    drawn: House,
    houses: Houses,
    /// The readings that wait, of each level.
    waiting: Vec<(usize, Answers)>,
    done: usize,
    tops: Vec<Top>,
    over: Over,
}

impl Studying {
    /// The study of one stretch of a house as it is known, none of its readings traced yet; none for a line that the plan does
    /// not hold, or a stretch of no length.
    #[must_use]
    pub fn new(plan: &Plan, stretch: &Stretch, judgement: Option<&Judgement>) -> Option<Self> {
        let drawn = House::of(plan.clone(), stretch)?;
        let lands = heaviest(&landing(&Case::at_a_glance(&drawn)?).all, plan.site()).0;
        let houses = judgement.map(|it| it.houses.clone()).unwrap_or_default();
        let over = Over {
            read: judgement.is_some(),
            houses: 1,
            traced: 1,
            least: lands,
            most: lands,
            presses: Pounds::ZERO,
            settled: judgement.is_some_and(|it| is_settled(it, stretch)),
            bears: judgement.is_some_and(|it| bears(it, stretch)),
            complete: houses.levels().iter().all(|it| it.complete),
            turned: Pounds::ZERO,
            unsourced: Vec::new(),
            governs: Vec::new(),
        };
        let of_level = |(number, level): (usize, &crate::readings::LevelHouses)| {
            level.answers().map(|answers| (number, answers)).collect::<Vec<_>>()
        };
        let waiting = houses.levels().iter().enumerate().flat_map(of_level).collect();
        Some(Self { drawn, houses, waiting, done: 0, tops: Vec::new(), over })
    }

    /// How many readings are traced, of how many.
    #[must_use]
    pub fn progress(&self) -> (usize, usize) {
        (self.done, self.waiting.len())
    }

    /// Traces one more reading; false if none is left.
    pub fn step(&mut self) -> bool {
        let Some((level, answers)) = self.waiting.get(self.done).cloned() else { return false };
        self.done += 1;
        self.over.traced += 1;
        let asked = self.asked();
        let Some(house) = House::of(self.houses.house(answers.clone()), &asked) else { return true };
        let Some((case, lands)) = at_a_glance(&house) else { return true };
        let all = heaviest(&lands.all, case.plan.site()).0;
        let turned = wall_of(&asked).and_then(|wall| self.houses.turned(case.plan, wall, &answers));
        if let Some(turned) = turned {
            self.over.turned = self.over.turned.max(all + turned * case.length());
        }
        // The readings say what is least: the house as drawn need not be one of them.
        self.over.least = if self.over.traced == 2 { all } else { self.over.least.min(all) };
        self.over.most = if self.over.traced == 2 { all } else { self.over.most.max(all) };
        self.over.presses = self.over.presses.max(presses(&lands));
        let mut measures = measures(&case, &lands);
        measures.extend(answers.iter().map(|(unknown, answer)| (Measure::If(*unknown, *answer), all.0)));
        for (measure, most) in measures {
            match self.tops.iter_mut().find(|it| it.level == level && it.measure == measure) {
                Some(top) if most > top.most + SAME * top.most.abs() => {
                    (top.most, top.answers) = (most, answers.clone());
                }
                Some(_) => {}
                None => self.tops.push(Top { measure, level, most, answers: answers.clone() }),
            }
        }
        true
    }

    /// The study over the readings that are traced: of the house as it is drawn alone while none is.
    #[must_use]
    pub fn study(&self) -> Option<Study> {
        let mut houses: Vec<(House, Answers)> = vec![(self.drawn.clone(), Answers::new())];
        let mut seen: Vec<Vec<(Measure, f64)>> = Vec::new();
        let asked = self.asked();
        for answers in self.candidates() {
            let Some(house) = House::of(self.houses.house(answers.clone()), &asked) else { continue };
            let Some(measures) = at_a_glance(&house).map(|(case, lands)| measures(&case, &lands)) else { continue };
            if seen.iter().all(|known| !alike(known, &measures)) {
                seen.push(measures);
                houses.push((house, answers));
            }
        }
        let mut over = self.over.clone();
        over.read &= self.done == self.waiting.len();
        over.houses = houses.len();
        let (houses, answers): (Vec<House>, Vec<Answers>) = houses.into_iter().unzip();
        let answers: Vec<Answers> = answers.iter().map(|it| self.houses.open_of(it)).collect();
        joint::study(&houses, &answers, over)
    }

    /// What is asked, its ends brought within the line once for all houses.
    fn asked(&self) -> Stretch {
        let own = Case::at_a_glance(&self.drawn).map(|it| it.stretch);
        self.drawn.asked(own.as_ref().unwrap_or(&self.drawn.stretch))
    }

    /// Answers of readings that bring most somewhere, level by level, then those of several levels together.
    fn candidates(&self) -> Vec<Answers> {
        let mut all: Vec<Answers> = Vec::new();
        let mut give = |answers: Answers| {
            if !answers.is_empty() && !all.contains(&answers) {
                all.push(answers);
            }
        };
        for top in &self.tops {
            give(top.answers.clone());
        }
        for (number, top) in self.tops.iter().enumerate() {
            if matches!(top.measure, Measure::If(..))
                || self.tops.iter().take(number).any(|it| it.measure == top.measure)
            {
                continue;
            }
            let mut together = Answers::new();
            for other in self.tops.iter().filter(|it| it.measure == top.measure) {
                for (unknown, answer) in &other.answers {
                    if together.iter().all(|known| known.0 != *unknown) {
                        together.push((*unknown, *answer));
                    }
                }
            }
            give(together);
        }
        all
    }
}

fn at_a_glance(house: &House) -> Option<(Case<'_>, Lands)> {
    let case = Case::at_a_glance(house)?;
    let lands = landing(&case);
    Some((case, lands))
}

/// The most of any one thing that presses or lifts: loads that cancel are not nothing.
fn presses(lands: &Lands) -> Pounds {
    let brings = lands.from.iter().map(|it| Pounds(it.1.all().0.abs()));
    brings.fold(Pounds::ZERO, Pounds::max)
}

fn measures(case: &Case<'_>, lands: &Lands) -> Vec<(Measure, f64)> {
    let site = case.plan.site();
    let mut all: Vec<(Measure, f64)> = Vec::new();
    let mut give = |of: fn(Combination) -> Measure, weights: &Weights| {
        all.extend(combinations(weights, site).map(|(load, one)| (of(one), load.0)));
    };
    give(Measure::All, &lands.all);
    give(Measure::AtFrom, &lands.ends.at_from);
    give(Measure::AtTo, &lands.ends.at_to);
    give(Measure::Middle, &in_the_middle(case, lands));
    let (mut start, mut part) = (case.stretch.from, 0);
    for end in case.stretch.posts_between.iter().chain([&case.stretch.to]) {
        let here = between(lands, start, *end);
        all.extend(combinations(&here, site).map(|(load, one)| (Measure::Part(part, one), load.0)));
        (start, part) = (*end, part + 1);
    }
    all.extend(lands.from.iter().map(|(node, weights)| (Measure::Brings(*node), heaviest(weights, site).0.0)));
    let trace = &case.before.trace;
    let levels = case.plan.levels().iter().take_while(|it| it.id != case.level.id);
    for level in levels {
        let posts = trace.posts.iter().filter(|it| it.level == level.id).map(|it| (Node::Post(it.post), it.top));
        let beams = trace.beams.iter().filter(|it| it.level == level.id).map(|it| (Node::Beam(it.beam), it.top));
        let walls = trace.walls.iter().filter(|it| it.level == level.id).map(|it| (Node::Wall(it.wall), it.top));
        all.extend(posts.chain(beams).chain(walls).map(|(node, top)| (Measure::Below(node), heaviest(&top, site).0.0)));
    }
    for landing in &trace.landings {
        if let Some(footing) = landing.on {
            all.push((Measure::Below(Node::Footing(footing)), heaviest(&landing.weights, site).0.0));
        }
    }
    all
}

/// What lands between two places.
fn between(lands: &Lands, from: Feet, to: Feet) -> Weights {
    let runs = lands.line.iter().map(|part| {
        let over = part.end.min(to) - part.start.max(from);
        part.loads * over.max(Feet::ZERO)
    });
    let points = lands.points.iter().filter(|it| from <= it.at && it.at <= to).map(|it| it.weights);
    runs.chain(points).fold(Weights::default(), |sum, it| sum + it)
}

/// The moment in the middle of a simple beam over the stretch, in pound-feet of each kind: of a load at `x` from the nearer end
/// that end's lever is `x / 2`.
fn in_the_middle(case: &Case<'_>, lands: &Lands) -> Weights {
    let (from, to) = (case.stretch.from, case.stretch.to);
    let middle = (from + to) / 2.0;
    let mut all = Weights::default();
    for part in &lands.line {
        for (start, end) in [(part.start, part.end.min(middle)), (part.start.max(middle), part.end)] {
            if end > start {
                let at = (start + end) / 2.0;
                let lever = (at - from).min(to - at) / 2.0;
                all += part.loads * (end - start) * lever.0;
            }
        }
    }
    for point in &lands.points {
        all += point.weights * ((point.at - from).min(to - point.at) / 2.0).0;
    }
    all
}

fn alike(one: &[(Measure, f64)], other: &[(Measure, f64)]) -> bool {
    let same = |a: f64, b: f64| (a - b).abs() <= SAME * a.abs().max(b.abs()).max(1.0);
    one.len() == other.len()
        && one.iter().all(|(measure, value)| other.iter().any(|it| it.0 == *measure && same(it.1, *value)))
}

fn wall_of(stretch: &Stretch) -> Option<WallId> {
    match stretch.away {
        Away::Wall(id) => Some(id),
        Away::Posts(_) | Away::Nothing { .. } => None,
    }
}

/// Whether the role of each part of the stretch is certain.
fn is_settled(judgement: &Judgement, stretch: &Stretch) -> bool {
    let Some(wall) = wall_of(stretch) else { return false };
    let mut here = judgement.of_wall(wall).filter(|it| it.start < stretch.to && it.end > stretch.from).peekable();
    here.peek().is_some() && here.all(|it| it.certainty == Certainty::Certain)
}

/// Whether some part of it carries in every reading.
fn bears(judgement: &Judgement, stretch: &Stretch) -> bool {
    let Some(wall) = wall_of(stretch) else { return true };
    let mut here = judgement.of_wall(wall).filter(|it| it.start < stretch.to && it.end > stretch.from);
    here.any(|it| it.bears_in_all || !matches!(it.role(), Role::NothingFound))
}

impl Over {
    /// Whether nothing lands in any reading that fits, and none was left out: only then may something be cut that nothing holds
    /// up meanwhile.
    #[must_use]
    pub fn nothing_in_any(&self) -> bool {
        self.read
            && self.settled
            && self.complete
            && !self.bears
            && self.turned.0 < LITTLE
            && self.unsourced.is_empty()
            && self.presses.0 < LITTLE
    }

    /// Whether joists that turn would bring more than any house that is studied.
    #[must_use]
    pub fn turns(&self) -> bool {
        self.turned > self.most + Pounds(LITTLE)
    }

    /// Whether what lands differs from reading to reading.
    #[must_use]
    pub fn differs(&self) -> bool {
        (self.most - self.least).0 > LITTLE
    }
}
