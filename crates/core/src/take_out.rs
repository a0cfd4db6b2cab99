//! The take-out study: what lands on a stretch of wall, what happens without it, and what could take over.
//!
//! The house is not edited: the study holds two more plans, one with the stretch gone and one with a beam and posts in its
//! place, so that both can be traced, drawn and compared with what stands. Every size is one to talk and budget with; the
//! licensed engineer decides. Wind, earthquake and connections are absent.

use serde::{Serialize, Serializer};

use crate::geometry;
use crate::ids::{BeamId, FieldId, LevelId, PostId, WallId};
use crate::loads::{Weights, heaviest};
use crate::plan::{JoistField, Level, Plan, PlanFile, Set, Wall};
use crate::readings::Judgement;
use crate::strength::lumber::{Grade, Species};
use crate::tape::Tape;
use crate::trace::{Carried, Node, Probe, Trace, follow};
use crate::units::{Feet, Inches, Plf, Ticks};
use crate::words::Words;

mod beam;
mod column;
mod down;
mod ends;
mod lands;
mod loses;
mod member;
mod plans;
mod prop;
mod refusals;
mod shoring;
mod steps;

pub use beam::{Beams, CARRIERS, Choice, Family, LIFT, LONGEST, NoBeam, Support};
pub use column::Column;
pub(crate) use column::{is_timber, of_post};
pub use down::{Down, OpenUp, Pack, PadSize, PostDown, Pressed, Reloaded};
pub use ends::{Ends, Face, HeaderChoice, PostChoice, PostMake, Posts};
pub use lands::{Lands, SimpleEnds};
pub use loses::{Fate, Loses, Lost, Meets, Need, Needs, Ties, needs};
pub(crate) use member::Standing;
pub use member::{Checked, NoFigure, Ratio};
pub use prop::Prop;
pub use refusals::{About, IJoistAt, Refusal};
pub use shoring::{PROPS_APART, PropLine, PropsOn, Shoring, Skip};
pub use steps::{ASBESTOS_UP_TO, LEAD_BEFORE, Step, Work};

/// Ends nearer to a wall's own than this are at it, in feet.
const AT_END: Feet = Feet(1.0 / 12.0);

/// Lumber by its stamp: what new pieces are made of, and what old ones are taken for where nobody read a stamp.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Stock {
    /// Species group.
    pub species: Species,
    /// Visual grade.
    pub grade: Grade,
}

impl Default for Stock {
    /// Spruce-pine-fir No. 2: of the usual groups the one that bends at the least but hem-fir.
    fn default() -> Self {
        Self { species: Species::SprucePineFir, grade: Grade::Two }
    }
}

/// What is asked: a stretch of one wall, and how it is to be replaced.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// The wall.
    pub wall: WallId,
    /// From its end `a`.
    pub from: Feet,
    /// From its end `a`.
    pub to: Feet,
    /// Whether the beam goes under the joists or between them.
    pub set: Set,
    /// Posts between the two ends, from end `a` of the wall.
    pub posts_between: Vec<Feet>,
    /// Species and grade of sawn pieces.
    pub lumber: Stock,
    /// How far from the wall's line the temporary props stand.
    pub shoring_offset: Feet,
}

impl Stretch {
    /// A stretch with a dropped beam, no post between, usual lumber, props 2 ft off.
    #[must_use]
    pub fn of(wall: WallId, from: Feet, to: Feet) -> Self {
        let (set, lumber) = (Set::Dropped, Stock::default());
        Self { wall, from, to, set, posts_between: Vec::new(), lumber, shoring_offset: Feet(2.0) }
    }
}

/// All that follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Study {
    /// What was asked, brought within the wall: an opening that an end cuts is taken out whole.
    pub stretch: Stretch,
    /// What it cannot judge, and what it always asks.
    pub refusals: Vec<Refusal>,
    /// The house with the stretch gone and nothing in its place.
    #[serde(serialize_with = "as_file")]
    pub without: Plan,
    /// The house with a beam on posts in its place, and pads where the lowest level has none.
    #[serde(serialize_with = "as_file")]
    pub proposed: Plan,
    /// The beam in it.
    pub beam: BeamId,
    /// Its posts, from end `a` of the beam.
    pub posts: Vec<(PostId, Feet)>,
    /// What lands on it now.
    pub lands: Lands,
    /// What happens if nothing takes over.
    pub loses: Loses,
    /// Beams that could take over.
    pub beams: Beams,
    /// Hangers, posts and headers.
    pub ends: Ends,
    /// From the posts to the soil.
    pub down: Down,
    /// Holding it up meanwhile.
    pub shoring: Shoring,
    /// The order of work.
    pub steps: Vec<Step>,
}

fn as_file<S: Serializer>(plan: &Plan, serializer: S) -> Result<S::Ok, S::Error> {
    PlanFile::from(plan).serialize(serializer)
}

/// The study of one stretch; none for a wall that the plan does not hold, or a stretch of no length.
#[must_use]
pub fn take_out(plan: &Plan, stretch: &Stretch) -> Option<Study> {
    study(Case::of(plan, stretch)?)
}

/// The same where the readings of the house are known: if some reading puts more on the wall than what is drawn, beam, posts
/// and pads are sized for that much more, and the study says so.
#[must_use]
pub fn take_out_read(plan: &Plan, stretch: &Stretch, judgement: &Judgement) -> Option<Study> {
    let mut case = Case::of(plan, stretch)?;
    let site = plan.site();
    let drawn =
        case.before.trace.wall(stretch.wall).map_or(Plf::ZERO, |wall| wall.most(|loads| heaviest(loads, site).0));
    let most = judgement.ranges.iter().find(|it| it.wall == stretch.wall).map_or(drawn, |it| it.most);
    if drawn > Plf::ZERO {
        case.worst = (most / drawn).max(1.0);
    }
    let worst = case.worst;
    Some(study(case)?.with_readings(plan, judgement, worst))
}

fn study(case: Case<'_>) -> Option<Study> {
    let mut refusals = refusals::refusals(&case);
    let without = plans::without(&case);
    let lands = lands::lands(&case);
    let loses = loses::loses(&case, &without);
    let proposed = plans::proposed(&case, &without);
    let after = Traced::of(&proposed.plan);
    let supports: Vec<Feet> = proposed.posts.iter().map(|it| it.1).collect();
    let nodes: Vec<Node> = proposed.posts.iter().map(|it| Node::Post(it.0)).collect();
    let beam = after.trace.beam(proposed.beam)?;
    refusals.extend(refusals::of_proposed(&case, &after.trace, proposed.beam));
    let beams = beam::beams(&case, beam, (supports.as_slice(), nodes.as_slice()), &refusals);
    let ends = ends::ends(&case, &after, (proposed.beam, &beams), &refusals);
    let pads = down::pads(&case, &proposed, &after, &beams);
    let (proposed, after) = if pads.is_empty() {
        (proposed, after)
    } else {
        let proposed = proposed.with_pads(&pads);
        let after = Traced::of(&proposed.plan);
        (proposed, after)
    };
    let down = down::down(&case, &proposed, &after, &beams);
    let thrust = (!loses.ties.is_empty()).then(|| loses.ties.iter().fold(Weights::default(), |sum, it| sum + it.loose));
    let shoring = shoring::shoring(&case, thrust, &refusals);
    let plans::Proposed { plan, beam, posts, .. } = proposed;
    let (stretch, steps) = (case.stretch.clone(), Vec::new());
    let mut study = Study {
        stretch,
        refusals,
        without,
        proposed: plan,
        beam,
        posts,
        lands,
        loses,
        beams,
        ends,
        down,
        shoring,
        steps,
    };
    refusals::after_sizes(&case, &mut study);
    study.steps = steps::steps(case.plan, case.level, &study);
    Some(study)
}

/// A house as traced, with every joist and beam and what lies on it.
struct Traced {
    trace: Trace,
    carried: Vec<Carried>,
}

impl Traced {
    fn of(plan: &Plan) -> Self {
        Self::with(plan, Probe::of_members())
    }

    fn with(plan: &Plan, mut probe: Probe) -> Self {
        let trace = follow(plan, &mut probe);
        Self { trace, carried: probe.carried.unwrap_or_default() }
    }
}

/// What every part of the study starts from.
struct Case<'a> {
    plan: &'a Plan,
    level: &'a Level,
    wall: &'a Wall,
    stretch: Stretch,
    before: Traced,
    /// What lands on the stretch, by what brings it.
    arrivals: Vec<(Node, Weights)>,
    /// How many times what is drawn the worst reading puts on the wall.
    worst: f64,
    words: Words<'a>,
}

impl<'a> Case<'a> {
    fn of(plan: &'a Plan, stretch: &Stretch) -> Option<Self> {
        let (level, wall) = plan.wall(stretch.wall)?;
        let length = geometry::length(wall.a, wall.b);
        let (mut from, mut to) = (stretch.from.min(stretch.to), stretch.from.max(stretch.to));
        (from, to) = (from.max(Feet::ZERO), to.min(length));
        for opening in level.openings_in(wall.id) {
            let (start, end) = (opening.offset.feet(), (opening.offset + opening.width).feet());
            if start < to && end > from {
                (from, to) = (from.min(start).max(Feet::ZERO), to.max(end).min(length));
            }
        }
        // On the plan places are whole ticks.
        let whole = |at: Feet| Ticks::from_decimal_feet(at).map_or(at, Ticks::feet);
        (from, to) = (whole(from), whole(to));
        from = if from < AT_END { Feet::ZERO } else { from };
        to = if length - to < AT_END { length } else { to };
        if (to - from).0.is_nan() || to - from <= AT_END {
            return None;
        }
        let within = |at: &Feet| *at > from + AT_END && *at < to - AT_END;
        let mut posts_between: Vec<Feet> = stretch.posts_between.iter().copied().filter(within).collect();
        posts_between.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut probe =
            Probe { level: level.id, watched: Some((Node::Wall(wall.id), from, to)), ..Probe::of_members() };
        let trace = follow(plan, &mut probe);
        let before = Traced { trace, carried: probe.carried.unwrap_or_default() };
        let stretch = Stretch { from, to, posts_between, ..stretch.clone() };
        let words = Words::new(plan, Tape::Feet);
        Some(Self { plan, level, wall, stretch, before, arrivals: probe.arrivals, worst: 1.0, words })
    }

    fn length(&self) -> Feet {
        self.stretch.to - self.stretch.from
    }

    /// What stands right on the stretch: not what its joists bring, nor what stands on these.
    fn standing(&self) -> Vec<(Node, Weights)> {
        let mut all: Vec<(Node, Weights)> = Vec::new();
        for (node, weights) in self.arrivals.iter().filter(|it| !matches!(it.0, Node::Field(_) | Node::Here)) {
            let links = || {
                let links = self.before.trace.links.iter();
                links.filter(|it| it.from == *node && it.to == Node::Wall(self.wall.id))
            };
            let whole = links().map(|it| it.weights.all().0).sum::<f64>();
            let straight = links().filter(|it| it.through.is_none()).map(|it| it.weights.all().0).sum::<f64>();
            let share = if whole.abs() > 1e-9 { (straight / whole).clamp(0.0, 1.0) } else { 1.0 };
            match all.iter_mut().find(|it| it.0 == *node) {
                Some(known) => known.1 += *weights * share,
                None => all.push((*node, *weights * share)),
            }
        }
        all.retain(|it| it.1.all().0.abs() > 1e-6);
        all
    }

    /// What stands on the joists over the stretch and comes to it through them.
    fn through_joists(&self) -> Vec<(Node, Weights)> {
        let right_on = self.standing();
        let mut all: Vec<(Node, Weights)> = Vec::new();
        for (node, weights) in self.arrivals.iter().filter(|it| !matches!(it.0, Node::Field(_) | Node::Here)) {
            match all.iter_mut().find(|it| it.0 == *node) {
                Some(known) => known.1 += *weights,
                None => all.push((*node, *weights)),
            }
        }
        for (node, weights) in &mut all {
            let right_on = right_on.iter().filter(|it| it.0 == *node);
            *weights = right_on.fold(*weights, |sum, it| sum - it.1);
        }
        all.retain(|it| it.1.all().0.abs() > 1e-6);
        all
    }

    /// How deep the joists over the stretch are, the deepest; none where nobody saw any.
    fn joist_depth(&self) -> Option<Inches> {
        let fields = self.arrivals.iter().filter_map(|it| match it.0 {
            Node::Field(id) => self.field(id),
            _ => None,
        });
        let here = fields.filter(|it| it.0 == self.level.id && it.1.member.is_seen());
        here.map(|it| Inches(it.1.member.depth.inches())).reduce(Inches::max)
    }

    fn field(&self, id: FieldId) -> Option<(LevelId, &'a JoistField)> {
        let plan: &'a Plan = self.plan;
        plan.levels().iter().find_map(|level| Some((level.id, level.fields.iter().find(|field| field.id == id)?)))
    }
}
