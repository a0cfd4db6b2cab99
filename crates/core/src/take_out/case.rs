//! One house of a study: the line, the stretch of it, and what lands there as traced.

use super::line::{BESIDE, Line};
use super::{AT_END, Away, Stretch, plans};
use crate::geometry::{Frame, Spot};
use crate::ids::{BeamId, FieldId, LevelId, PostId};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{JoistField, Level, Plan};
use crate::tape::Tape;
use crate::trace::{Carried, Node, PointLoad, Probe, Trace, follow};
use crate::units::{Feet, Inches};
use crate::words::Words;

/// A load under this, in pounds, is rounding.
const NOTHING: f64 = 1e-6;

/// A house to be studied, with what is asked of it.
#[derive(Clone, Debug)]
pub(super) struct House {
    /// With the wall back, where one was taken out earlier.
    pub(super) plan: Plan,
    /// What is asked of that plan.
    pub(super) stretch: Stretch,
    /// The house as it stands, where `plan` has a wall back.
    pub(super) now: Option<Plan>,
    /// How far along the line asked for the stretch's own line begins.
    from: Feet,
    /// The line asked for.
    away: Away,
}

impl House {
    pub(super) fn of(plan: Plan, stretch: &Stretch) -> Option<Self> {
        if let Away::Nothing { .. } = stretch.away {
            let (stood, on_it, from) = plans::stood(&plan, stretch)?;
            return Some(Self { plan: stood, stretch: on_it, now: Some(plan), from, away: stretch.away });
        }
        Some(Self { plan, stretch: stretch.clone(), now: None, from: Feet::ZERO, away: stretch.away })
    }

    /// A stretch of its own line as one of the line asked for.
    pub(super) fn asked(&self, own: &Stretch) -> Stretch {
        let back = |at: Feet| at + self.from;
        let posts_between = own.posts_between.iter().copied().map(back).collect();
        Stretch { away: self.away, from: back(own.from), to: back(own.to), posts_between, ..own.clone() }
    }
}

/// A house as traced, with every joist and beam and what lies on it.
pub(super) struct Traced {
    pub(super) trace: Trace,
    pub(super) carried: Vec<Carried>,
}

impl Traced {
    pub(super) fn of(plan: &Plan) -> Self {
        Self::with(plan, Probe::of_members())
    }

    pub(super) fn with(plan: &Plan, mut probe: Probe) -> Self {
        let trace = follow(plan, &mut probe);
        Self { trace, carried: probe.carried.unwrap_or_default() }
    }
}

/// What every part of the study starts from.
pub(super) struct Case<'a> {
    pub(super) plan: &'a Plan,
    pub(super) level: &'a Level,
    pub(super) line: Line<'a>,
    pub(super) stretch: Stretch,
    /// The posts that go: under a beam, or standing in the stretch of a wall.
    pub(super) gone: Vec<PostId>,
    /// Headers in the stretch of a wall: beams along it that begin and end there go with it.
    pub(super) headers: Vec<BeamId>,
    pub(super) before: Traced,
    /// What lands on the stretch, by what brings it.
    pub(super) arrivals: Vec<(Node, Weights)>,
    pub(super) words: Words<'a>,
}

impl<'a> Case<'a> {
    /// None for what the house does not hold, or a stretch of no length.
    pub(super) fn of(house: &'a House) -> Option<Self> {
        Self::probed(house, Probe::of_members())
    }

    /// The same without the pieces of joists and beams: enough to say what lands.
    pub(super) fn at_a_glance(house: &'a House) -> Option<Self> {
        Self::probed(house, Probe::on(LevelId::from_number(0)))
    }

    fn probed(house: &'a House, probe: Probe) -> Option<Self> {
        let (plan, asked) = (&house.plan, &house.stretch);
        let (level, line) = Line::of(plan, asked.away)?;
        let (from, to) = line.within(level, asked.from.min(asked.to), asked.from.max(asked.to))?;
        let within = |at: &Feet| *at > from + AT_END && *at < to - AT_END;
        let clear = |at: &Feet| *at > from + BESIDE && *at < to - BESIDE;
        let mut posts_between: Vec<Feet> = asked.posts_between.iter().copied().filter(clear).collect();
        posts_between.order_by(Feet::total_cmp);
        posts_between.dedup_by(|at, before| *at - *before < BESIDE);
        let mut probe = Probe { level: level.id, watched: Some((line.node, from, to)), ..probe };
        let trace = follow(plan, &mut probe);
        let before = Traced { trace, carried: probe.carried.unwrap_or_default() };
        let gone = line.posts(level).into_iter().filter(|it| within(&it.1)).map(|it| it.0).collect();
        let headers = line.headers(level, (from, to));
        let stretch = Stretch { from, to, posts_between, ..asked.clone() };
        let words = Words::new(plan, Tape::Feet);
        let mut case = Self { plan, level, line, stretch, gone, headers, before, arrivals: probe.arrivals, words };
        for point in case.on_posts() {
            case.arrivals.push((point.from, point.weights));
        }
        Some(case)
    }

    pub(super) fn length(&self) -> Feet {
        self.stretch.to - self.stretch.from
    }

    /// What comes down on posts and packs that stand in the stretch of a wall: they go with it.
    pub(super) fn on_posts(&self) -> Vec<PointLoad> {
        let (Node::Wall(_), Some(own)) = (self.line.node, Frame::between(self.line.a, self.line.b)) else {
            return Vec::new();
        };
        let start = own.local(self.line.a.into()).0;
        let mut all = Vec::new();
        for post in self.level.posts.iter().filter(|it| self.gone.contains(&it.id)) {
            let at = own.local(Spot::from(post.at)).0 - start;
            let on = self.before.trace.post(post.id).into_iter().flat_map(|it| &it.from);
            all.extend(on.map(|(from, weights)| PointLoad { at, from: *from, weights: *weights }));
        }
        all.retain(|it| it.weights.all().0.abs() > NOTHING);
        all
    }

    /// Whether something brings its load without joists, and stays.
    fn is_apart(&self, node: Node) -> bool {
        !matches!(node, Node::Field(_) | Node::Here) && !matches!(node, Node::Beam(id) if self.headers.contains(&id))
    }

    /// What stands right on the stretch: not what its joists bring, nor what stands on these.
    pub(super) fn standing(&self) -> Vec<(Node, Weights)> {
        let on_posts = self.on_posts();
        let mut all: Vec<(Node, Weights)> = Vec::new();
        for (node, weights) in self.arrivals.iter().filter(|it| self.is_apart(it.0)) {
            let links = || {
                let links = self.before.trace.links.iter();
                links.filter(|it| it.from == *node && it.to == self.line.node)
            };
            let whole = links().map(|it| it.weights.all().0).sum::<f64>();
            let straight = links().filter(|it| it.through.is_none()).map(|it| it.weights.all().0).sum::<f64>();
            let on_a_post = on_posts.iter().any(|it| it.from == *node && it.weights == *weights);
            let share = if whole.abs() > 1e-9 && !on_a_post { (straight / whole).clamp(0.0, 1.0) } else { 1.0 };
            add(&mut all, *node, *weights * share);
        }
        all.retain(|it| it.1.all().0.abs() > NOTHING);
        all
    }

    /// What stands on the joists over the stretch and comes to it through them.
    pub(super) fn through_joists(&self) -> Vec<(Node, Weights)> {
        let right_on = self.standing();
        let mut all: Vec<(Node, Weights)> = Vec::new();
        for (node, weights) in self.arrivals.iter().filter(|it| self.is_apart(it.0)) {
            add(&mut all, *node, *weights);
        }
        for (node, weights) in &mut all {
            let right_on = right_on.iter().filter(|it| it.0 == *node);
            *weights = right_on.fold(*weights, |sum, it| sum - it.1);
        }
        all.retain(|it| it.1.all().0.abs() > NOTHING);
        all
    }

    /// How deep the joists over the stretch are, the deepest; none where nobody saw any.
    pub(super) fn joist_depth(&self) -> Option<Inches> {
        let fields = self.arrivals.iter().filter_map(|it| match it.0 {
            Node::Field(id) => self.field(id),
            _ => None,
        });
        let here = fields.filter(|it| it.0 == self.level.id && it.1.member.is_seen());
        here.map(|it| Inches(it.1.member.depth.inches())).reduce(Inches::max)
    }

    pub(super) fn field(&self, id: FieldId) -> Option<(LevelId, &'a JoistField)> {
        let plan: &'a Plan = self.plan;
        plan.levels().iter().find_map(|level| Some((level.id, level.fields.iter().find(|field| field.id == id)?)))
    }
}

fn add(all: &mut Vec<(Node, Weights)>, node: Node, weights: Weights) {
    match all.iter_mut().find(|it| it.0 == node) {
        Some(known) => known.1 += weights,
        None => all.push((node, weights)),
    }
}
