//! The take-out study: what lands on a stretch of a wall, or of a beam whose posts go, what happens without it, and what could
//! take over.
//!
//! The house is not edited: the study holds two more plans, one with the stretch gone and one with a beam and posts in its
//! place, so that both can be traced, drawn and compared with what stands. Every size is one to talk and budget with; the
//! licensed engineer decides. Wind, earthquake and connections are absent.

use serde::{Serialize, Serializer};

use crate::ids::{BeamId, FieldId, LevelId, PostId, WallId};
use crate::loads::{Weights, heaviest};
use crate::order::InOrder as _;
use crate::plan::{JoistField, Level, Plan, PlanFile, Set};
use crate::readings::Judgement;
use crate::tape::Tape;
use crate::trace::{Carried, Node, Probe, Trace, follow};
use crate::units::{Feet, Inches, Plf, Ticks};
use crate::words::Words;
use crate::words::work::NOTHING_LANDS;

mod beam;
mod column;
mod down;
mod ends;
mod lands;
mod line;
mod loses;
mod member;
mod plans;
mod prop;
mod refusals;
mod shoring;
mod steps;

pub use crate::plan::{Away, Kept, Stock};
pub use beam::{Beams, CARRIERS, Choice, Family, LIFT, LONGEST, NoBeam, Support};
pub use column::Column;
pub(crate) use column::{is_timber, of_post};
pub(crate) use down::FOOT;
pub use down::{Down, OpenUp, Pack, PadSize, PostDown, Pressed, Reloaded};
pub use ends::{Ends, Face, HeaderChoice, PostChoice, PostMake, Posts};
pub use lands::{Lands, SimpleEnds};
use line::{BESIDE, Line};
pub use line::{of_posts, under_joists};
pub use loses::{Fate, Loses, Lost, Meets, Need, Needs, Ties, needs};
pub(crate) use member::Standing;
pub use member::{Checked, NoFigure, Ratio};
pub use prop::Prop;
pub use refusals::{About, IJoistAt, Refusal};
pub use shoring::{
    BRACE, Block, Blocked, CutBy, Held, Holds, Needles, NoProp, NoWay, OnProps, OwnProp, PROPS_APART, PropLine,
    PropsOn, Shoring, Skip, Unheld, Weakened,
};
pub use steps::{ASBESTOS_UP_TO, LEAD_BEFORE, Step, Work};

/// Ends nearer to those of the line than this are at them, in feet.
const AT_END: Feet = Feet(1.0 / 12.0);

/// What is asked: a stretch of one line, what goes there, and how it is to be replaced.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// What goes, and with it the line: a wall, a beam on posts, or one where nothing stands any more.
    pub away: Away,
    /// Where it begins, from end `a` of the line.
    pub from: Feet,
    /// Where it stops, from end `a` of the line.
    pub to: Feet,
    /// Whether the beam goes under the joists or between them.
    pub set: Set,
    /// New posts between the two ends, from end `a` of the line; one within a foot of another, or of an end, is that one.
    pub posts_between: Vec<Feet>,
    /// Species and grade of sawn pieces.
    pub lumber: Stock,
    /// How far from the line the temporary props stand.
    pub shoring_offset: Feet,
}

impl Stretch {
    /// A stretch with a dropped beam, no post between, usual lumber, props 2 ft off.
    #[must_use]
    pub fn new(away: Away, from: Feet, to: Feet) -> Self {
        let (set, lumber) = (Set::Dropped, Stock::default());
        Self { away, from, to, set, posts_between: Vec::new(), lumber, shoring_offset: Feet(2.0) }
    }

    /// The same of a wall.
    #[must_use]
    pub fn of(wall: WallId, from: Feet, to: Feet) -> Self {
        Self::new(Away::Wall(wall), from, to)
    }

    /// As it is kept with the house, under a name.
    #[must_use]
    pub fn kept(&self, name: &str) -> Kept {
        let Self { away, set, lumber, .. } = *self;
        let ticks = |at: Feet| Ticks::from_decimal_feet(at).unwrap_or_default();
        let posts_between = self.posts_between.iter().copied().map(ticks).collect();
        let (from, to, offset) = (ticks(self.from), ticks(self.to), ticks(self.shoring_offset));
        Kept { name: name.to_owned(), away, from, to, set, posts_between, lumber, offset }
    }
}

impl From<&Kept> for Stretch {
    fn from(kept: &Kept) -> Self {
        let Kept { away, from, to, set, lumber, offset, .. } = *kept;
        let posts_between = kept.posts_between.iter().map(|it| it.feet()).collect();
        Self { away, from: from.feet(), to: to.feet(), set, posts_between, lumber, shoring_offset: offset.feet() }
    }
}

/// All that follows.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Study {
    /// What was asked, brought within its line: an opening that an end cuts is taken out whole, an end beside a post is at it.
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

/// The study of one stretch; none for a wall or beam that the plan does not hold, or a stretch of no length.
#[must_use]
pub fn take_out(plan: &Plan, stretch: &Stretch) -> Option<Study> {
    read(plan, stretch, None)
}

/// The same where the readings of the house are known: if some reading puts more on the wall than what is drawn, beam, posts
/// and pads are sized for that much more, and the study says so.
#[must_use]
pub fn take_out_read(plan: &Plan, stretch: &Stretch, judgement: &Judgement) -> Option<Study> {
    read(plan, stretch, Some(judgement))
}

fn read(plan: &Plan, stretch: &Stretch, judgement: Option<&Judgement>) -> Option<Study> {
    let Away::Nothing { .. } = stretch.away else {
        let mut case = Case::of(plan, stretch)?;
        let Some((judgement, Away::Wall(wall))) = judgement.map(|it| (it, stretch.away)) else {
            return study(case, None);
        };
        let site = plan.site();
        let drawn = case.before.trace.wall(wall).map_or(Plf::ZERO, |wall| wall.most(|loads| heaviest(loads, site).0));
        let most = judgement.ranges.iter().find(|it| it.wall == wall).map_or(drawn, |it| it.most);
        if drawn > Plf::ZERO {
            case.worst = (most / drawn).max(1.0);
        }
        let (worst, level) = (case.worst, case.level);
        let mut study = study(case, None)?.with_readings(plan, judgement, wall, worst);
        study.steps = steps::steps(plan, level, &study);
        return Some(study);
    };
    // A study of the wall that stood there: what it would carry is what the beam gets.
    let (stood, on_it, from) = plans::stood(plan, stretch)?;
    let mut study = study(Case::of(&stood, &on_it)?, Some(plan))?;
    let back = |at: Feet| at + from;
    let posts_between = study.stretch.posts_between.iter().copied().map(back).collect();
    let (from, to) = (back(study.stretch.from), back(study.stretch.to));
    study.stretch = Stretch { from, to, posts_between, ..stretch.clone() };
    Some(study)
}

/// `now` is the house as it stands, where the case is of one that has a wall back.
fn study(mut case: Case<'_>, now: Option<&Plan>) -> Option<Study> {
    let mut refusals = refusals::refusals(&case);
    let without = plans::without(&case);
    let lands = lands::lands(&case);
    let mut loses = loses::loses(&case, &without);
    let proposed = plans::proposed(&case, &without);
    let after = Traced::of(&proposed.plan);
    let beam = after.trace.beam(proposed.beam)?;
    refusals.extend(refusals::of_proposed(&case, &after.trace, proposed.beam));
    if loses.sentences.is_empty() && refusals.iter().any(|it| it.about == About::NothingLands) {
        loses.sentences.push(NOTHING_LANDS.to_owned());
    }
    let beams = beam::beams(&case, (beam, &after), &proposed, &refusals);
    loses.sentences.extend(beams.times.map(|times| case.words.times(times)));
    let ends = ends::ends(&case, &after, (proposed.beam, &beams), &refusals);
    let pads = down::pads(&case, &proposed, &after, &beams);
    let (proposed, after) = if pads.is_empty() {
        (proposed, after)
    } else {
        let proposed = proposed.with_pads(&pads);
        let after = Traced::of(&proposed.plan);
        (proposed, after)
    };
    let thrust = (!loses.ties.is_empty()).then(|| loses.ties.iter().fold(Weights::default(), |sum, it| sum + it.loose));
    let shoring = shoring::shoring(&case, thrust, &refusals);
    if let Some(now) = now {
        case.before = Traced::of(now);
    }
    let down = down::down(&case, &proposed, &after, &beams);
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
    line: Line<'a>,
    stretch: Stretch,
    /// The posts that go.
    gone: Vec<PostId>,
    before: Traced,
    /// What lands on the stretch, by what brings it.
    arrivals: Vec<(Node, Weights)>,
    /// How many times what is drawn the worst reading puts on the wall.
    worst: f64,
    words: Words<'a>,
}

impl<'a> Case<'a> {
    fn of(plan: &'a Plan, stretch: &Stretch) -> Option<Self> {
        let (level, line) = Line::of(plan, stretch.away)?;
        let (from, to) = line.within(level, stretch.from.min(stretch.to), stretch.from.max(stretch.to))?;
        let within = |at: &Feet| *at > from + AT_END && *at < to - AT_END;
        let clear = |at: &Feet| *at > from + BESIDE && *at < to - BESIDE;
        let mut posts_between: Vec<Feet> = stretch.posts_between.iter().copied().filter(clear).collect();
        posts_between.order_by(Feet::total_cmp);
        posts_between.dedup_by(|at, before| *at - *before < BESIDE);
        let mut probe = Probe { level: level.id, watched: Some((line.node, from, to)), ..Probe::of_members() };
        let trace = follow(plan, &mut probe);
        let before = Traced { trace, carried: probe.carried.unwrap_or_default() };
        let gone = line.posts(level).into_iter().filter(|it| within(&it.1)).map(|it| it.0).collect();
        let stretch = Stretch { from, to, posts_between, ..stretch.clone() };
        let words = Words::new(plan, Tape::Feet);
        Some(Self { plan, level, line, stretch, gone, before, arrivals: probe.arrivals, worst: 1.0, words })
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
                links.filter(|it| it.from == *node && it.to == self.line.node)
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
