//! What a study cannot judge, and what it always asks. Some of it blocks every size; the rest is said beside them.

use serde::Serialize;

use super::beam::LONGEST;
use super::loses::{roof_of, roof_seats};
use super::plans::{Proposed, place};
use super::shoring::floor_at;
use super::{Away, Case, Over, Shoring, Study};
use crate::geometry;
use crate::ids::{BeamId, FieldId, ObservationId, PostId, RoofId, WallId};
use crate::observe::{Weight, proof};
use crate::plan::{Bracing, Grade, JoistField, Make, Material, Plan, RoofFrame, Set, Side, Studs, Webs};
use crate::trace::{Caution, Finding, Node, Problem, Reason, Role, Trace};
use crate::units::{Feet, Pounds};

/// An overhang longer than this past the wall is a cantilever, in feet.
const OVERHANG: f64 = 0.75;

/// Under so many pounds there is nothing to carry.
const LITTLE: f64 = 1.0;
/// So much of what stands on the wall has to come to the beam: the rest may go past its ends.
const MOST: f64 = 0.9;
/// So much of all that lands may differ with the contact of joists that run through.
const ROUNDED: f64 = 0.005;

/// What is refused or asked.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case", tag = "refusal")]
pub enum About {
    /// Trusses are cut, were altered, or would be by a beam between them.
    Trusses {
        /// Of which roof.
        roof: RoofId,
    },
    /// Trusses bear on the stretch somewhere between their ends.
    TrussSeat {
        /// Of which roof.
        roof: RoofId,
    },
    /// A hip or valley lands here, or may: what it brings is not known well enough.
    HipOrValley {
        /// Of which roof.
        roof: RoofId,
    },
    /// Masonry: the wall itself, or one that stands on it.
    Masonry {
        /// Which wall.
        wall: WallId,
    },
    /// Joists run past the wall and end in the air.
    Cantilever {
        /// Of which field.
        field: FieldId,
    },
    /// A sign of trouble was recorded in the house: on some level that the line touches, from what stands on it to the soil.
    Distress {
        /// Which.
        seen: ObservationId,
    },
    /// The span is longer than any beam is picked for here.
    BeyondTables {
        /// How long.
        span: Feet,
    },
    /// What stands on the wall would not come to a beam in its place: nothing here can follow it.
    NotFollowed {
        /// What.
        node: Node,
    },
    /// What is left of the old beam past the new one would not rest on two supports.
    RestFalls {
        /// The old beam.
        beam: BeamId,
    },
    /// Nothing drawn lands on the stretch.
    NothingLands,
    /// The beam as drawn would also press on something that no size here counts on; what its posts hand down is less for it.
    PressesOn {
        /// On what.
        node: Node,
    },
    /// No size here passes.
    NonePasses,
    /// Nobody stated the soil, and new pads go by it.
    SoilNotStated,
    /// What lands there is not settled, or a fact that it hangs on is only told or assumed.
    NotSettled {
        /// The least that lands on the stretch in any reading, and the most, heaviest combinations; none where no reading
        /// was traced.
        range: Option<(Pounds, Pounds)>,
    },
    /// Something was seen there that carries, and what it holds is not drawn.
    SeenNotDrawn {
        /// Which.
        seen: ObservationId,
    },
    /// A post or pack of studs stands in the stretch, and nothing drawn comes down on it.
    PostHoldsUnknown {
        /// Which.
        post: PostId,
    },
    /// Joists may turn beside it and end on it: nobody looked along both faces.
    MayTurn {
        /// Which wall.
        wall: WallId,
    },
    /// Something presses on I-joists: blocks and stiffeners by their maker's details.
    IJoists {
        /// Of which field.
        field: FieldId,
        /// Where.
        at: IJoistAt,
    },
    /// Studs run on past the floor above: they are held as well.
    StudsRunOn,
    /// The wall may brace the house against wind: always asked.
    Bracing,
    /// An outside wall braces the house until somebody who may has answered for it.
    BracingOpen {
        /// Which wall.
        wall: WallId,
    },
    /// Whether joists lie on the old beam or hang on its sides: always asked of one.
    OnTopOrHung,
}

/// Where something presses on I-joists.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum IJoistAt {
    /// At the foot of a new post.
    PostFoot,
    /// Over the new beam, under what stands above.
    OverBeam,
    /// At the faces of a beam between them.
    Hangers,
}

impl About {
    /// Whether no size is named because of it.
    #[must_use]
    pub const fn blocks(&self) -> bool {
        matches!(
            self,
            Self::Trusses { .. }
                | Self::TrussSeat { .. }
                | Self::HipOrValley { .. }
                | Self::Masonry { .. }
                | Self::Cantilever { .. }
                | Self::Distress { .. }
                | Self::BeyondTables { .. }
                | Self::NotFollowed { .. }
                | Self::RestFalls { .. }
                | Self::NothingLands
                | Self::SeenNotDrawn { .. }
                | Self::PostHoldsUnknown { .. }
                | Self::MayTurn { .. }
                | Self::BracingOpen { .. }
        )
    }
}

/// One of them in words.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Refusal {
    /// What.
    pub about: About,
    /// Whether no size is named because of it.
    pub blocks: bool,
    /// In a sentence.
    pub sentence: String,
}

/// What is known before any size is tried.
pub(super) fn refusals(case: &Case<'_>) -> Vec<Refusal> {
    let mut all: Vec<About> = Vec::new();
    let mut give = |about: About| {
        if !all.contains(&about) {
            all.push(about);
        }
    };
    let (from, to) = (case.stretch.from, case.stretch.to);
    let traced = match case.line.node {
        Node::Wall(id) => case.before.trace.wall(id),
        _ => None,
    };
    let stretches = traced.into_iter().flat_map(|it| &it.stretches).filter(|it| it.start < to && it.end > from);
    for stretch in stretches.clone() {
        for reason in &stretch.reasons {
            match *reason {
                Reason::HipRestsOn { roof, .. }
                | Reason::ValleyRestsOn { roof, .. }
                | Reason::HipMayLeanOn { roof }
                | Reason::ValleyMayLeanOn { roof } => give(About::HipOrValley { roof }),
                Reason::TrussesSiteBuilt { roof } | Reason::TrussWebCut { roof } => give(About::Trusses { roof }),
                _ => {}
            }
        }
    }
    for caution in traced.into_iter().flat_map(|it| &it.cautions) {
        if let Caution::DoNotCutTrusses { roof } = *caution
            && case.stretch.set == Set::Flush
        {
            give(About::Trusses { roof });
        }
    }
    for roof in &case.level.roofs {
        if matches!(roof.frame, RoofFrame::Trusses { webs: Webs::Cut, .. }) {
            give(About::Trusses { roof: roof.id });
        }
    }
    for (laid, ..) in roof_seats(case).into_iter().filter(|it| !it.2) {
        if let Node::Roof(roof) = laid.of
            && roof_of(case.plan, roof).is_some_and(|it| matches!(it.frame, RoofFrame::Trusses { .. }))
        {
            give(About::TrussSeat { roof });
        }
    }
    if let Some(wall) = case.line.wall.filter(|it| it.make != Make::Stud) {
        give(About::Masonry { wall: wall.id });
    }
    for (node, _) in &case.arrivals {
        if let Node::Wall(id) = *node
            && case.plan.wall(id).is_some_and(|(_, wall)| wall.make != Make::Stud)
        {
            give(About::Masonry { wall: id });
        }
    }
    for piece in &case.before.carried {
        let Node::Field(field) = piece.of else { continue };
        let at_end = piece.seats.first().filter(|it| it.0.0 > OVERHANG).into_iter();
        let length = geometry::apart(piece.a, piece.b);
        let at_end = at_end.chain(piece.seats.last().filter(|it| (length - it.0).0 > OVERHANG));
        if at_end.clone().any(|it| it.1 == case.line.node) && piece.seats.len() > 1 {
            give(About::Cantilever { field });
        }
    }
    // What stands on the line and what it stands on, down to the soil: all levels of the house.
    for seen in case.plan.levels().iter().flat_map(|level| &level.observations) {
        if proof(&seen.saw).weight == Weight::Distress && seen.known != Grade::Unknown {
            give(About::Distress { seen: seen.id });
        }
    }
    let longest = longest(case);
    if longest > LONGEST {
        give(About::BeyondTables { span: longest });
    }
    let unsure = |grade: Grade| !matches!(grade, Grade::Measured | Grade::Seen);
    let fields = case.arrivals.iter().filter_map(|it| match it.0 {
        Node::Field(id) => case.field(id),
        _ => None,
    });
    let mut looks = stretches.clone().any(|it| it.role == Role::NeedsALook);
    looks |= fields.clone().any(|it| unsure(it.1.known));
    if looks {
        give(About::NotSettled { range: None });
    }
    if case.line.wall.is_some_and(|it| it.studs == Studs::PastTheFloor) {
        give(About::StudsRunOn);
    }
    match (case.stretch.away, case.line.wall) {
        (Away::Posts(_), _) => give(About::OnTopOrHung),
        (_, Some(wall)) if wall.side == Side::Outside && wall.bracing == Bracing::NotAnswered => {
            give(About::BracingOpen { wall: wall.id });
        }
        (_, wall) if wall.is_none_or(|it| it.bracing == Bracing::NotAnswered) => give(About::Bracing),
        _ => {}
    }
    if let Away::Wall(_) = case.stretch.away {
        let held = case.before.trace.posts.iter().filter(|it| it.top.all().0.abs() > LITTLE).map(|it| it.post);
        let held: Vec<PostId> = held.collect();
        for post in case.gone.iter().filter(|it| !held.contains(it)) {
            give(About::PostHoldsUnknown { post: *post });
        }
    }
    all.into_iter().map(|about| refusal(case.plan, about)).collect()
}

/// What the proposed house shows: what stands on the line now comes to the beam, what is left of an old one rests, and there is
/// anything to carry.
pub(super) fn of_proposed(case: &Case<'_>, trace: &Trace, proposed: &Proposed) -> Vec<Refusal> {
    let mut all = Vec::new();
    let lands = case.arrivals.iter().map(|it| it.1.all().0.abs()).sum::<f64>();
    // Joists that lie along a beam drawn there would press on it: the wall had nothing of them.
    if lands < LITTLE {
        all.push(About::NothingLands);
    }
    let falls = |it: &Finding| {
        matches!(it.problem, Problem::BeamUnsupported { .. })
            && case.before.trace.findings.iter().all(|known| known.problem != it.problem)
    };
    if let Away::Posts(beam) = case.stretch.away
        && trace.path_gaps().any(falls)
    {
        all.push(About::RestFalls { beam });
    }
    // What stands on the very end of the stretch may come to the beam by another way: where all of it comes, nothing is lost.
    let posts = proposed.besides(trace).iter().map(|it| it.2.all().0).sum::<f64>();
    let after = trace.beam(proposed.beam).map_or(0.0, |it| it.top.all().0) + posts;
    let before = case.arrivals.iter().map(|it| it.1.all().0).sum::<f64>();
    let lost = before - after > (before.abs() * ROUNDED).max(LITTLE);
    for (node, weights) in case.standing().into_iter().filter(|_| lost) {
        // What ends beside the stretch may come to the post at its end instead of the beam.
        let ours = |to: Node| to == Node::Beam(proposed.beam) || proposed.seats.iter().any(|seat| seat.0 == to);
        let comes = trace.links.iter().filter(|it| it.from == node && ours(it.to));
        let comes = comes.map(|it| it.weights.all().0).sum::<f64>();
        if weights.all().0 > LITTLE && comes < weights.all().0 * MOST {
            all.push(About::NotFollowed { node });
        }
    }
    all.into_iter().map(|about| refusal(case.plan, about)).collect()
}

/// The longest span between the posts asked for.
fn longest(case: &Case<'_>) -> Feet {
    let (mut longest, mut last) = (Feet::ZERO, case.stretch.from);
    for at in case.stretch.posts_between.iter().chain([&case.stretch.to]) {
        longest = longest.max(*at - last);
        last = *at;
    }
    longest
}

pub(super) fn refusal(plan: &Plan, about: About) -> Refusal {
    let words = crate::words::Words::new(plan, crate::tape::Tape::Feet);
    Refusal { about, blocks: about.blocks(), sentence: words.refusal(&about) }
}

/// What follows from the sizes that were tried.
pub(super) fn after_sizes(case: &Case<'_>, study: &mut Study) {
    let mut all = Vec::new();
    if study.beams.choices.is_empty() && !study.refusals.iter().any(|it| it.blocks) {
        all.push(About::NonePasses);
    }
    let leans: Vec<Node> =
        study.beams.leans_on.iter().filter(|it| it.1.all().0.abs() > LITTLE).map(|it| it.0).collect();
    all.extend(leans.into_iter().map(|node| About::PressesOn { node }));
    all.extend(i_joists(case, study));
    let new_pads = study.down.posts.iter().any(|it| it.added.is_some() || !it.joists.is_empty() || it.gap > 1e-6);
    if new_pads && !case.plan.site().soil_is_stated() {
        all.push(About::SoilNotStated);
    }
    for about in all {
        if study.refusals.iter().all(|it| it.about != about) {
            study.refusals.push(refusal(case.plan, about));
        }
    }
}

/// Where the study presses on I-joists.
fn i_joists(case: &Case<'_>, study: &Study) -> Vec<About> {
    let is_one = |field: &&JoistField| field.member.material == Material::IJoist;
    let mut all = Vec::new();
    let mut give = |field: FieldId, at: IJoistAt| {
        let about = About::IJoists { field, at };
        if !all.contains(&about) {
            all.push(about);
        }
    };
    if let Some(below) = case.plan.level_below(case.level.id) {
        let spots = study.posts.iter().map(|it| place(&case.line, case.stretch.from + it.1));
        spots.filter_map(|at| floor_at(below, at)).filter(is_one).for_each(|it| give(it.id, IJoistAt::PostFoot));
    }
    let presses = case.standing().iter().any(|it| matches!(it.0, Node::Wall(_) | Node::Post(_)));
    let flush = case.stretch.set == Set::Flush;
    for (node, _) in &case.arrivals {
        let Node::Field(id) = *node else { continue };
        let Some((_, field)) = case.field(id).filter(|it| it.0 == case.level.id && is_one(&it.1)) else { continue };
        if presses {
            give(field.id, IJoistAt::OverBeam);
        }
        if flush {
            give(field.id, IJoistAt::Hangers);
        }
    }
    all
}

/// What the readings of the house say of the stretch as a whole.
pub(super) fn of_readings(plan: &Plan, case: &Case<'_>, over: &Over, all: &mut Vec<Refusal>) {
    let open = |it: &Refusal| matches!(it.about, About::NotSettled { .. });
    if over.read {
        let of_wall = matches!(case.stretch.away, Away::Wall(_));
        let told = all.iter().any(open);
        all.retain(|it| !open(it));
        if over.differs() || (of_wall && !over.settled) || (!of_wall && told) {
            let range = Some((over.least, over.most)).filter(|_| over.traced > 1);
            all.push(refusal(plan, About::NotSettled { range }));
        }
    }
    if let (true, Away::Wall(wall)) = (over.turns(), case.stretch.away) {
        all.push(refusal(plan, About::MayTurn { wall }));
    }
    all.extend(over.unsourced.iter().map(|seen| refusal(plan, About::SeenNotDrawn { seen: *seen })));
}

impl Study {
    /// Takes every size, hanger and prop out: where something blocks, none is named.
    pub(super) fn name_no_size(&mut self, case: &Case<'_>) {
        self.beams.choices.clear();
        self.ends.hangers.clear();
        self.ends.figures.clear();
        self.ends.headers.clear();
        self.ends.header_figures.clear();
        for post in &mut self.ends.posts {
            post.choices.clear();
            post.figures.clear();
        }
        for post in &mut self.down.posts {
            post.packs.clear();
            post.pad = None;
            post.sentence = case.words.post_down(post);
        }
        self.down.figures.clear();
        self.down.open_up.clear();
        self.shoring = Shoring::default();
        for studied in &mut self.studied {
            studied.shoring = Shoring::default();
        }
    }
}
