//! The trace: every load of a plan followed from the roof to the soil.
//!
//! Roof first, then level by level down. Real joists at real spacing are laid in every field, each is solved as a member
//! on supports that only push, and its reactions go to walls and beams; beams hand theirs to what they rest on; walls
//! and posts go straight down where something stands in line below, and onto the joists of the deck below where not.
//! No pound is invented and none is lost: see [`Ledger`].
//!
//! Supports are rigid here. What a sagging beam sheds to its neighbours is out of scope, and so are wind and earthquake.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::geometry::Spot;
use crate::ids::{BeamId, FieldId, FloorOpeningId, FootingId, LevelId, OpeningId, PostId, PurlinId, RoofId, WallId};
use crate::loads::{LineLoads, Weights};
use crate::order::InOrder as _;
use crate::plan::{Joints, Level, LevelKind, Plan, Purlin, RoofFrame, Side};
use crate::units::{Feet, Plf, Psf, SquareFeet};

mod around;
mod bar;
mod beams;
mod carry;
mod cautions;
mod cuts;
mod deck;
mod details;
mod down;
mod ends;
mod ground;
mod lay;
mod near;
mod own;
mod place;
mod probe;
mod reason;
mod roles;
mod roofs;
mod seats;
mod storey;
mod strips;

use around::Around;
use carry::Carrier;
use down::Falling;
use storey::{Links, Storey};

pub(crate) use bar::part as load_within;
pub use cuts::{CutLimit, CutTrace};
pub use ends::End;
pub(crate) use ends::{OpenEnd, seen_under};
pub use probe::HeldBy;
pub(crate) use probe::{Carried, Probe, Put};
pub use reason::{Caution, Finding, Node, Origin, Problem, Reason, Role};

/// Where every load of a plan goes. Lists are in the order of levels (top first), then of ids.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Trace {
    /// Each wall.
    pub walls: Vec<WallTrace>,
    /// Each beam.
    pub beams: Vec<BeamTrace>,
    /// Each post.
    pub posts: Vec<PostTrace>,
    /// Each opening in a wall.
    pub openings: Vec<OpeningTrace>,
    /// Each header around an opening in a deck.
    pub headers: Vec<HeaderTrace>,
    /// Each roof.
    pub roofs: Vec<RoofTrace>,
    /// Every joist, rafter and truss as laid.
    pub members: Vec<Laid>,
    /// Each notch and hole in a joist.
    pub cuts: Vec<CutTrace>,
    /// What goes from where to where.
    pub links: Vec<Link>,
    /// What arrives at the ground.
    pub landings: Vec<Landing>,
    /// Applied against delivered.
    pub ledger: Ledger,
    /// What is open; path gaps first.
    pub findings: Vec<Finding>,
}

/// A wall: its roles, what feeds it, what it carries.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WallTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub wall: WallId,
    /// How long it is.
    pub length: Feet,
    /// Its stretches from end `a` to end `b`, without gaps.
    pub stretches: Vec<Stretch>,
    /// What feeds it, in runs of equal tributary width.
    pub feeds: Vec<Feed>,
    /// Line load on its top, piece by piece from end `a`; openings not yet taken out.
    pub line: Vec<LinePart>,
    /// Point loads on its top.
    pub points: Vec<PointLoad>,
    /// All that lands on its top.
    pub top: Weights,
    /// What it weighs itself.
    pub own: Weights,
    /// What to know about it.
    pub cautions: Vec<Caution>,
}

/// A stretch of wall with one role.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Stretch {
    /// From end `a` of the wall.
    pub start: Feet,
    /// From end `a` of the wall.
    pub end: Feet,
    /// What it is for.
    pub role: Role,
    /// Why, in order of weight.
    pub reasons: Vec<Reason>,
}

/// A run of wall or beam fed by one field or roof with one tributary width.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Feed {
    /// The field or roof.
    pub from: Node,
    /// What it is.
    pub origin: Origin,
    /// From end `a`.
    pub start: Feet,
    /// From end `a`.
    pub end: Feet,
    /// Half of the span (or the whole overhang) to the left, seen from `a` to `b`, square to the line.
    pub left: Feet,
    /// The same to the right.
    pub right: Feet,
    /// What the real reactions amount to: their sum divided by the area load and the length of the run.
    pub effective: Feet,
    /// The beam that hands it on, if it does not come straight.
    pub through: Option<BeamId>,
}

impl Feed {
    /// Tributary width as the trade measures it: half of each span.
    #[must_use]
    pub fn width(&self) -> Feet {
        self.left + self.right
    }

    /// Tributary area of the run.
    #[must_use]
    pub fn area(&self) -> SquareFeet {
        self.width() * (self.end - self.start)
    }
}

/// A piece of line with one line load.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LinePart {
    /// From end `a`.
    pub start: Feet,
    /// From end `a`.
    pub end: Feet,
    /// On each foot of it.
    pub loads: LineLoads,
}

/// A point load on a wall or beam.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PointLoad {
    /// From end `a`.
    pub at: Feet,
    /// What stands there.
    pub from: Node,
    /// How much.
    pub weights: Weights,
}

/// A beam: what it carries and what it rests on.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BeamTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub beam: BeamId,
    /// How long it is.
    pub length: Feet,
    /// What feeds it.
    pub feeds: Vec<Feed>,
    /// Line load, piece by piece from end `a`.
    pub line: Vec<LinePart>,
    /// Point loads.
    pub points: Vec<PointLoad>,
    /// What it rests on, from end `a` on.
    pub rests: Vec<Rest>,
    /// The longest distance between two supports.
    pub longest_span: Feet,
    /// All that lands on it.
    pub top: Weights,
}

/// One place where a beam rests.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Rest {
    /// From end `a`; the start of the run where it lies on a wall.
    pub at: Feet,
    /// On what.
    pub on: Node,
    /// How much goes there.
    pub weights: Weights,
}

/// A post: what stands on it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub post: PostId,
    /// What arrives at its head, by what brings it.
    pub from: Vec<(Node, Weights)>,
    /// All of it.
    pub top: Weights,
    /// What it stands on.
    pub on: Vec<Node>,
    /// What to know about it.
    pub cautions: Vec<Caution>,
}

/// An opening in a wall: what comes down at its two sides from over it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct OpeningTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub opening: OpeningId,
    /// At the jamb nearer end `a` of its wall; the wall's own face over the opening counts whole.
    pub first: Weights,
    /// At the other jamb.
    pub second: Weights,
}

/// A header at one end of an opening in a deck.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct HeaderTrace {
    /// Its level.
    pub level: LevelId,
    /// Which opening.
    pub opening: FloorOpeningId,
    /// One end, at a trimmer.
    pub a: Spot,
    /// The other end.
    pub b: Spot,
    /// Floor that it carries, by halves of the tail joists.
    pub area: SquareFeet,
    /// What arrives at end `a`.
    pub at_a: Weights,
    /// What arrives at end `b`.
    pub at_b: Weights,
    /// What stands under the trimmer at end `a`: a post, or nothing but the trimmer itself.
    pub under_a: Option<PostId>,
    /// The same at end `b`.
    pub under_b: Option<PostId>,
}

/// A roof.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RoofTrace {
    /// Its level.
    pub level: LevelId,
    /// Which.
    pub roof: RoofId,
    /// Eave to eave, the widest pair.
    pub span: Feet,
    /// How far a pair of rafters pushes outward on each foot of eave, by kind: moment at the ridge / rise; none for
    /// trusses.
    pub thrust: LineLoads,
    /// Dead load on a foot of plan, at the eaves.
    pub dead_on_plan: Psf,
    /// Its purlins, hips, valleys and ridge beam.
    pub ribs: Vec<RibTrace>,
}

/// What rafters lean on besides walls.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum RibKind {
    /// A ridge beam.
    Ridge,
    /// A hip rafter.
    Hip,
    /// A valley rafter; the wing's, though rafters of the main roof lean on it too.
    Valley,
    /// A purlin on struts.
    Purlin,
    /// A header at an opening in the roof; its ends hang on the trimmers.
    Header,
}

/// A purlin, hip, valley, header or ridge beam: what it carries and what it rests on.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RibTrace {
    /// What it is.
    pub kind: RibKind,
    /// Which purlin.
    pub purlin: Option<PurlinId>,
    /// One end: the foot of a hip or valley.
    pub a: Spot,
    /// The other end.
    pub b: Spot,
    /// What feeds it, in runs of equal tributary width.
    pub feeds: Vec<Feed>,
    /// Line load on plan, piece by piece from end `a`.
    pub line: Vec<LinePart>,
    /// Point loads.
    pub points: Vec<PointLoad>,
    /// What a hip, valley or ridge beam rests on, from end `a` on.
    pub rests: Vec<Rest>,
    /// The struts of a purlin.
    pub struts: Vec<Strut>,
    /// All that lands on it.
    pub top: Weights,
}

impl RibTrace {
    /// How long it is on plan.
    #[must_use]
    pub fn length(&self) -> Feet {
        crate::geometry::apart(self.a, self.b)
    }
}

/// One strut under a purlin.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Strut {
    /// At the purlin.
    pub head: Spot,
    /// Where it stands.
    pub foot: Spot,
    /// On what: a gap stands for the joists there.
    pub on: Node,
    /// How much it brings down.
    pub weights: Weights,
    /// Foot to head, upright.
    pub rise: Feet,
    /// Foot to head, level.
    pub run: Feet,
}

impl Strut {
    /// Foot to head.
    #[must_use]
    pub fn length(&self) -> Feet {
        Feet((self.rise.0 * self.rise.0 + self.run.0 * self.run.0).sqrt())
    }

    /// Whether it stands at 45 degrees from level or steeper (IRC R802.4.5, SEEN as quoted).
    #[must_use]
    pub fn is_steep(&self) -> bool {
        self.rise.0 >= self.run.0 - 1e-9
    }

    /// Whether it is no longer than a strut without a stay may be: 8 ft (IRC R802.4.5, SEEN as quoted).
    #[must_use]
    pub fn is_short(&self) -> bool {
        self.length().0 <= Purlin::LONGEST_STRUT.0 + 1e-9
    }
}

/// What a laid member is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LaidAs {
    /// A joist.
    Joist,
    /// A joist cut at an opening.
    Tail,
    /// A doubled joist or rafter beside an opening.
    Trimmer,
    /// Across the end of an opening.
    Header,
    /// A rafter, a pair of them or a truss.
    Rafter,
    /// A hip rafter.
    Hip,
    /// A valley rafter.
    Valley,
    /// A ridge beam.
    Ridge,
    /// A purlin.
    Purlin,
    /// A strut under a purlin.
    Strut,
}

/// One joist, rafter or truss as laid.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Laid {
    /// The level it lies over.
    pub level: LevelId,
    /// Its field or roof.
    pub of: Node,
    /// What it is.
    pub laid_as: LaidAs,
    /// One end.
    pub a: Spot,
    /// The other end.
    pub b: Spot,
    /// Where it bears, with what each place gets of all kinds.
    pub bears: Vec<Spot>,
    /// Where it laps.
    pub laps: Vec<Spot>,
    /// The longest distance between two supports.
    pub longest_span: Feet,
}

/// What goes from one place on the path to the next.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Link {
    /// From where.
    pub from: Node,
    /// Through the joists of which field, if it does not go straight.
    pub through: Option<FieldId>,
    /// To where.
    pub to: Node,
    /// How much.
    pub weights: Weights,
}

/// What arrives at the ground under one wall or post.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Landing {
    /// The wall or post.
    pub from: Node,
    /// The footing drawn under it, if any.
    pub on: Option<FootingId>,
    /// How much.
    pub weights: Weights,
    /// On a footing: the heaviest combination over its area; the mean for a strip.
    pub pressure: Option<Psf>,
}

impl Landing {
    /// Whether it is a point load on bare ground or a bare slab: no path until a footing is drawn under it.
    #[must_use]
    pub const fn is_without_path(&self) -> bool {
        matches!((self.from, self.on), (Node::Post(_), None))
    }
}

/// Applied against delivered, level by level and as a whole.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Ledger {
    /// The levels, top first.
    pub rows: Vec<LedgerRow>,
    /// All that is put on, measured from the areas and lengths of the plan.
    pub applied: Weights,
    /// All that arrives at footings, and under walls at the ground.
    pub soil: Weights,
    /// All that has nowhere to go: lost on the way, or brought by posts to bare ground.
    pub gaps: Weights,
}

/// One level of the ledger.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LedgerRow {
    /// Which level.
    pub level: LevelId,
    /// Put on here: roofs, deck, walls' own weight.
    pub own: Weights,
    /// Handed down from the level above.
    pub from_above: Weights,
    /// Handed up by the roofs of the level below: they lean on walls and posts of this one.
    pub from_below: Weights,
    /// Handed up by the roofs of this level.
    pub handed_up: Weights,
    /// Handed down to the level below, or to the ground.
    pub down: Weights,
    /// Lost here for want of a path.
    pub gaps: Weights,
}

impl Ledger {
    /// The worst difference between applied and delivered of any kind and level, as a share of all that is applied.
    #[must_use]
    pub fn worst_share_off(&self) -> f64 {
        let whole = self.applied.all().0.abs().max(1.0);
        let off = |difference: Weights| {
            crate::loads::Kind::ALL.iter().map(|kind| difference.get(*kind).0.abs()).fold(0.0, f64::max) / whole
        };
        let rows = self
            .rows
            .iter()
            .map(|row| off(row.own + row.from_above + row.from_below - row.handed_up - row.down - row.gaps));
        rows.fold(off(self.applied - self.soil - self.gaps), f64::max)
    }
}

impl Trace {
    /// One wall.
    #[must_use]
    pub fn wall(&self, id: WallId) -> Option<&WallTrace> {
        self.walls.iter().find(|wall| wall.wall == id)
    }

    /// One beam.
    #[must_use]
    pub fn beam(&self, id: BeamId) -> Option<&BeamTrace> {
        self.beams.iter().find(|beam| beam.beam == id)
    }

    /// One opening in a wall.
    #[must_use]
    pub fn opening(&self, id: OpeningId) -> Option<&OpeningTrace> {
        self.openings.iter().find(|opening| opening.opening == id)
    }

    /// One post.
    #[must_use]
    pub fn post(&self, id: PostId) -> Option<&PostTrace> {
        self.posts.iter().find(|post| post.post == id)
    }

    /// The findings that are path gaps.
    pub fn path_gaps(&self) -> impl Iterator<Item = &Finding> {
        self.findings.iter().filter(|finding| finding.problem.is_path_gap())
    }
}

impl WallTrace {
    /// The widest tributary width of one origin, at any place of the wall: runs of several fields over one place add up.
    #[must_use]
    pub fn tributary_width(&self, origin: Origin) -> Feet {
        let feeds = || self.feeds.iter().filter(|feed| feed.origin == origin);
        let at = |place: Feet| {
            feeds().filter(|feed| feed.start <= place && place <= feed.end).map(Feed::width).sum::<Feet>()
        };
        feeds().map(|feed| at((feed.start + feed.end) / 2.0)).fold(Feet::ZERO, Feet::max)
    }

    /// The heaviest line load of one quantity along the wall.
    #[must_use]
    pub fn most(&self, of: impl Fn(&LineLoads) -> Plf) -> Plf {
        self.line.iter().map(|part| of(&part.loads)).fold(Plf::ZERO, Plf::max)
    }
}

/// Follows every load of `plan` down to the ground. Never fails: what the plan leaves open comes back as a finding.
#[must_use]
pub fn trace(plan: &Plan) -> Trace {
    follow(plan, &mut Probe::on(LevelId::from_number(0)))
}

/// The same trace with a weight more; what it met on its way is left in the probe.
pub(crate) fn follow(plan: &Plan, probe: &mut Probe) -> Trace {
    let mut trace = Trace::default();
    let mut links = Links::new();
    let mut falling = Falling::default();
    let mut above: Option<&Level> = None;
    // Where the walls and posts of the level above begin in the trace.
    let mut first = (0, 0);
    // Roofs first, all of them: they may lean on walls of the level over the one their feet stand on.
    let levels: Vec<Around<'_>> = plan.levels().iter().map(Around::of).collect();
    let mut storeys: Vec<Storey<'_>> =
        (0..levels.len()).rev().filter_map(|number| Storey::new(plan, number, &levels)).collect();
    for storey in &mut storeys {
        storey.carried = probe.carried.as_ref().map(|_| Vec::new());
    }
    for number in 0..storeys.len() {
        let (over, rest) = storeys.split_at_mut(number);
        if let Some(storey) = rest.first_mut() {
            trace.roofs.extend(roofs::roofs(storey, over.last_mut()));
        }
    }
    for mut storey in storeys {
        let level = storey.level;
        let from_above = falling.total();
        let (lines, mut points) = down::land(&mut storey, &falling);
        points.append(&mut storey.drops);
        probe.drop_on_deck(level, &mut points);
        deck::deck(&mut storey, &lines, &points);
        probe.press(&mut storey);
        trace.beams.extend(beams::beams(&mut storey));
        probe.read(&storey);
        if let (Some(all), Some(here)) = (&mut probe.carried, &mut storey.carried) {
            all.append(here);
        }
        cautions::of_posts(&mut storey);
        probe.open_ends.append(&mut storey.open_ends);
        storey.open_ends.clone_from(&probe.open_ends);
        if let Some(above) = above {
            let known = trace.walls.get_mut(first.0..).unwrap_or_default();
            for ((falling, wall), known) in falling.walls.iter().zip(&above.walls).zip(known) {
                let cautions = cautions::of_standing(&mut storey, falling, above, wall);
                known.cautions.splice(0..0, cautions);
            }
            let posts = trace.posts.get_mut(first.1..).unwrap_or_default();
            for (known, cautions) in posts.iter_mut().zip(cautions::of_standing_posts(&storey, &falling, above)) {
                known.cautions.extend(cautions);
            }
            stand(posts, &storey);
        }
        first = (trace.walls.len(), trace.posts.len());
        cautions::packs(&mut storey);
        let lines: Vec<Vec<LinePart>> = storey.walls.iter().map(Carrier::line).collect();
        falling = down::fall(&storey, &lines);
        trace.openings.append(&mut falling.openings);
        probe.stand(level, &mut falling);
        trace.walls.extend(walls(&mut storey, lines));
        things(&mut storey);
        trace.posts.extend(posts(&storey));
        trace.ledger.rows.push(LedgerRow {
            level: level.id,
            own: storey.own,
            from_above,
            from_below: storey.from_below,
            handed_up: storey.handed_up,
            down: falling.total(),
            gaps: storey.gaps,
        });
        open_questions(&mut storey, above.is_none_or(|it| it.walls.is_empty()));
        trace.cuts.extend(cuts::cuts(&storey));
        trace.members.append(&mut storey.members);
        trace.headers.append(&mut storey.headers);
        trace.findings.append(&mut storey.findings);
        for (key, weights) in storey.links {
            *links.entry(key).or_default() += weights;
        }
        above = Some(level);
    }
    if let Some(lowest) = levels.first() {
        trace.landings = ground::land(plan, lowest, &falling, &mut trace.findings);
    }
    for landing in &trace.landings {
        let to = landing.on.map_or(Node::Ground, Node::Footing);
        *links.entry((landing.from, None, to)).or_default() += landing.weights;
    }
    trace.links = links.into_iter().map(|((from, through, to), weights)| Link { from, through, to, weights }).collect();
    trace.ledger.applied = trace.ledger.rows.iter().fold(Weights::default(), |sum, row| sum + row.own);
    trace.ledger.gaps = trace.ledger.rows.iter().fold(Weights::default(), |sum, row| sum + row.gaps);
    for landing in &trace.landings {
        let sum = if landing.is_without_path() { &mut trace.ledger.gaps } else { &mut trace.ledger.soil };
        *sum += landing.weights;
    }
    // A ring of beams is one whatever it holds.
    let sliver = |it: &Finding| {
        let ring = matches!(it.problem, Problem::BeamLoop { .. });
        it.problem.is_path_gap() && !ring && it.weights.is_some_and(|weights| weights.is_sliver())
    };
    trace.findings.retain(|finding| !sliver(finding));
    trace.findings.order_by_key(|finding| !finding.problem.is_path_gap());
    trace
}

/// The walls of a level that has been traced; their own weight goes into its ledger.
fn walls(storey: &mut Storey<'_>, lines: Vec<Vec<LinePart>>) -> Vec<WallTrace> {
    let level = storey.level;
    let mut walls = Vec::with_capacity(level.walls.len());
    for (i, (wall, line)) in level.walls.iter().zip(lines).enumerate() {
        let Some(carrier) = storey.walls.get(i) else { continue };
        let stretches = roles::stretches(storey, wall, carrier);
        let own = own::weight(level, wall);
        walls.push(WallTrace {
            level: level.id,
            wall: wall.id,
            length: Feet(carrier.length),
            cautions: cautions::of_wall(storey, wall, &stretches),
            stretches,
            feeds: carrier.feeds(),
            line,
            points: carrier.points.clone(),
            top: carrier.total,
            own,
        });
        storey.own += own;
    }
    walls
}

/// What stands on the floor goes into the ledger of its level; what nobody weighed is found.
fn things(storey: &mut Storey<'_>) {
    for thing in &storey.level.things {
        match thing.weighs() {
            Some(weight) => storey.own += Weights::only(thing.kind.load(), weight),
            None => {
                let at = thing.corners.first().copied().map(Spot::from).unwrap_or_default();
                storey.find(at, Problem::WeightNotStated { thing: thing.id }, None);
            }
        }
    }
}

fn posts(storey: &Storey<'_>) -> Vec<PostTrace> {
    let posts = storey.level.posts.iter().zip(&storey.posts);
    let level = storey.level.id;
    posts
        .map(|(post, work)| PostTrace {
            level,
            post: post.id,
            from: work.from.clone(),
            top: work.top,
            on: Vec::new(),
            cautions: work.cautions.clone(),
        })
        .collect()
}

/// What the posts of the level above turned out to stand on.
fn stand(posts: &mut [PostTrace], below: &Storey<'_>) {
    for post in posts {
        post.on = below.links_from(Node::Post(post.post)).map(|(_, to, _)| to).collect();
        post.on.dedup();
    }
}

/// What a level leaves open.
fn open_questions(storey: &mut Storey<'_>, top: bool) {
    let level = storey.level;
    let Some(first) = level.walls.first() else { return };
    let at = Spot::from(first.a);
    // Rooms under a roof whose feet stand a level lower: the roof closes them.
    let under_a_roof = storey.plan.level_below(level.id).is_some_and(|below| !below.roofs.is_empty());
    if level.kind == LevelKind::Attic && under_a_roof && level.walls.iter().all(|wall| wall.side == Side::Inside) {
        return;
    }
    if storey.around.outlines().is_empty() {
        storey.find(at, Problem::OutlineOpen, None);
    }
    let trusses = level.roofs.iter().any(|roof| matches!(roof.frame, RoofFrame::Trusses { .. }));
    if level.fields.is_empty() && !trusses {
        storey.find(at, Problem::NothingOverhead, None);
    }
    let claims = storey.walls.iter().chain(&storey.beams).flat_map(|carrier| &carrier.claims);
    let crossing = claims.filter_map(|claim| match claim.reason {
        Reason::JoistsCross { field } => Some(field),
        _ => None,
    });
    let crossed: BTreeSet<FieldId> = crossing.collect();
    for field in &level.fields {
        if field.joints == Joints::NotSeen && crossed.contains(&field.id) {
            storey.find(at, Problem::LapsNotSeen { field: field.id }, None);
        }
    }
    if top && level.roofs.is_empty() {
        storey.find(at, Problem::NoRoof, None);
    }
    if !level.roofs.is_empty() && storey.plan.site().ground_snow.is_none() {
        storey.find(at, Problem::SnowNotStated, None);
    }
}
