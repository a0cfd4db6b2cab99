//! From each post of the new beam down to the soil: what it comes to, members that stand checked again with the new load,
//! pads, and what has to be opened up to build it.

use serde::Serialize;

use super::beam::{Beams, Support};
use super::case::{Case, Traced};
use super::column::{Column, column, of_post};
use super::loses::check;
use super::member::{CEILING_JOISTS, Checked, FLOOR_JOISTS, NoFigure, Standing};
use super::plans::Proposed;
use crate::card::Figure;
use crate::footing::{Pad, spread_by_slab};
use crate::geometry::{Frame, Spot, apart};
use crate::ids::{ElementId, FieldId, FootingId, PostId, WallId};
use crate::loads::{Site, Weights, heaviest};
use crate::order::InOrder as _;
use crate::path::{Path, Start, path};
use crate::plan::{Element, LevelKind, Make, Member, Plan, Set};
use crate::strength::check::SagLimits;
use crate::trace::{Carried, Node, Probe};
use crate::units::{Feet, Inches, Pounds, Psf};

/// A usual slab, which is no footing.
const SLAB: Inches = Inches(4.0);
/// The foot of a post, on wood or on a plate: a 4x4, the smallest (common practice).
pub(crate) const FOOT: Inches = Inches(3.5);
/// A wall that gets over this share of a post takes it (ours).
const MOST: f64 = 0.5;
/// Walls thicker than this, in inches face to face, are of 2x6 studs (ours: half-inch board on
/// both faces makes 4 1/2 in of 2x4 and 6 1/2 in of 2x6).
const DEEP_WALL: f64 = 5.75;
/// Joists this near to a post may take it, in feet.
const NEAR: f64 = 2.0;

/// The pad that a post would need.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PadSize {
    /// What arrives.
    pub load: Pounds,
    /// What the soil is taken to bear.
    pub soil: Psf,
    /// Its side.
    pub side: Inches,
    /// Its thickness, plain concrete.
    pub thickness: Inches,
    /// Whether anybody stated the soil: if not, this is a figure to talk about, and no size.
    pub stated: bool,
    /// How hard a bare slab of 4 in would press the soil under the post: why it is no footing.
    pub on_slab: Psf,
}

impl PadSize {
    pub(super) fn under(load: Pounds, site: &Site) -> Self {
        let (soil, stated) = (site.soil(), site.soil_is_stated());
        let pad = Pad::under(load, FOOT, soil);
        let (_, on_slab) = spread_by_slab(load, FOOT, SLAB);
        Self { load, soil, side: pad.side, thickness: pad.thickness, stated, on_slab }
    }
}

/// Studs packed in a wall below, right under a post.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pack {
    /// In which wall.
    pub wall: WallId,
    /// The fewest that carry the post at the height of that wall; none where no pack of up to five does.
    pub studs: Option<(Member, Column)>,
}

/// One post on its way down.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostDown {
    /// Which.
    pub post: PostId,
    /// From the end of the beam.
    pub at: Feet,
    /// Its path in the proposed house.
    pub path: Option<Path>,
    /// What it stands on right away.
    pub on: Vec<Node>,
    /// Joists that take it, wholly or in part: a post in mid-span.
    pub joists: Vec<FieldId>,
    /// Studs to pack in the walls that take it below.
    pub packs: Vec<Pack>,
    /// The share of it that has nowhere to go.
    pub gap: f64,
    /// The pad that it needs if it is taken straight down; none where something blocks every size.
    pub pad: Option<PadSize>,
    /// The pad that was added under it in the proposed house.
    pub added: Option<FootingId>,
    /// In a sentence.
    pub sentence: String,
}

/// A beam or joists on the way, with and without the new load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Reloaded {
    /// Which.
    pub node: Node,
    /// As it stands.
    pub before: Option<Checked>,
    /// In the proposed house, on the worst reading and with the beam's own weight.
    pub after: Option<Checked>,
    /// Why there is no figure.
    pub no_figure: Option<NoFigure>,
    /// Whether it passes now and would not.
    pub overloaded: bool,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// A post or footing on the way, with and without the new load.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Pressed {
    /// Which.
    pub node: Node,
    /// What comes down on it as it stands, heaviest combination.
    pub before: Pounds,
    /// In the proposed house, on the worst reading and with the beam's own weight.
    pub after: Pounds,
    /// How hard a footing then presses the soil.
    pub pressure: Option<Psf>,
    /// A post by its section, as it stands.
    pub column_before: Option<Column>,
    /// The same with the new load.
    pub column_after: Option<Column>,
    /// Why there is no figure for a post.
    pub no_figure: Option<NoFigure>,
    /// Its height, for a post.
    pub height: Option<Inches>,
    /// Whether the soil would be pressed by more than it is taken to bear, or a post passes now and would not.
    pub overloaded: bool,
    /// In a sentence.
    pub sentence: String,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// What has to be opened up.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OpenUp {
    /// The ceiling on both sides of the line.
    Ceiling,
    /// The finish of the wall at each post.
    WallAtPosts,
    /// The floor, or the ceiling below, at each post: for blocks between floor and what is under it.
    FloorAtPosts,
    /// The slab, for pads.
    Slab,
    /// The ground of the crawl space, for pads.
    Ground,
}

/// From the posts to the soil.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Down {
    /// Each post.
    pub posts: Vec<PostDown>,
    /// Beams and joists on the way.
    pub members: Vec<Reloaded>,
    /// Posts and footings on the way.
    pub pressed: Vec<Pressed>,
    /// What has to be opened up.
    pub open_up: Vec<OpenUp>,
    /// The figures.
    pub figures: Vec<Figure>,
}

/// Pads for the posts of the lowest level that have no footing there, by the number of the post.
pub(super) fn pads(case: &Case<'_>, proposed: &Proposed, after: &Traced, beams: &Beams) -> Vec<(usize, Inches)> {
    let lowest = case.plan.levels().first().is_some_and(|it| it.id == case.level.id);
    let bare = |post: PostId| after.trace.landings.iter().any(|it| it.from == Node::Post(post) && it.on.is_none());
    let posts = proposed.posts.iter().zip(beams.posts()).enumerate();
    let posts = posts.filter(|(_, (post, _))| lowest && bare(post.0));
    posts.map(|(number, (_, support))| (number, PadSize::under(support.most, case.plan.site()).side)).collect()
}

/// `now` is the house as it stands: it has no wall back.
pub(super) fn down((case, now): (&Case<'_>, &Traced), proposed: &Proposed, after: &Traced, beams: &Beams) -> Down {
    let mut all = Down::default();
    let heavier = loaded(case, proposed, after, beams);
    let (mut nodes, mut fields): (Vec<Node>, Vec<(FieldId, Spot)>) = (Vec::new(), Vec::new());
    for ((post, at), support) in proposed.posts.iter().zip(&beams.posts()) {
        let found = path(&proposed.plan, &after.trace, &Start::Part(ElementId::Post(*post)));
        let flows = found.iter().flat_map(|it| &it.flows);
        let mut joists: Vec<FieldId> = flows.filter_map(|it| it.through).collect();
        joists.order();
        joists.dedup();
        let spot = post_spot(&proposed.plan, *post);
        for id in &joists {
            fields.extend(spot.map(|spot| (*id, spot)));
        }
        let reaches = || found.iter().flat_map(|it| &it.down);
        nodes.extend(reaches().map(|it| it.node));
        // A post that stands there already is kept under the beam.
        nodes.extend(case.plan.element(ElementId::Post(*post)).map(|_| Node::Post(*post)));
        let on = reaches().filter(|it| it.rank == 1).map(|it| it.node).collect();
        all.posts.push(post_down(case, (*post, *at), (support, beams), (found, on, joists), proposed, after));
    }
    nodes.order();
    nodes.dedup();
    nodes.retain(|it| !matches!(it, Node::Footing(id) if proposed.pads.contains(id)));
    for node in &nodes {
        match *node {
            Node::Beam(id) if id != proposed.beam => {
                let Some(Element::Beam(beam)) = case.plan.element(ElementId::Beam(id)) else { continue };
                let standing = Standing {
                    member: beam.member,
                    stock: case.stretch.lumber,
                    alike: (1, Inches::ZERO),
                    limits: SagLimits::FLOOR,
                };
                all.members.push(reloaded(case, [now, &heavier], *node, &standing, |_| true));
            }
            Node::Post(_) | Node::Footing(_) => all.pressed.extend(pressed(case, [now, &heavier], *node)),
            _ => {}
        }
    }
    for &(id, _) in &fields {
        let Some((_, field)) = case.field(id) else { continue };
        if all.members.iter().any(|it| it.node == Node::Field(id)) {
            continue;
        }
        let standing = Standing {
            member: field.member,
            stock: case.stretch.lumber,
            alike: (3, Inches(field.spacing.inches())),
            limits: if field.used_as.is_ceiling() { CEILING_JOISTS } else { FLOOR_JOISTS },
        };
        let near = |piece: &Carried| fields.iter().any(|it| it.0 == id && beside(piece, it.1) < NEAR);
        all.members.push(reloaded(case, [now, &heavier], Node::Field(id), &standing, near));
    }
    all.open_up = open_up(case, &all);
    all.figures = case.words.down(&all, case.stretch.lumber);
    all
}

/// The proposed house with all that its posts are sized for: what the trace of the plan leaves out, the lightest beam's own
/// weight and live load on the worst spans, is put on them as well.
fn loaded(case: &Case<'_>, proposed: &Proposed, after: &Traced, beams: &Beams) -> Traced {
    let (site, beam) = (case.plan.site(), Node::Beam(proposed.beam));
    let supports = beams.supports.iter().filter(|it| matches!(it.on, Node::Post(_)));
    let more = proposed.posts.iter().zip(supports).map(|((post, _), support)| {
        let from = after.trace.post(*post).into_iter().flat_map(|it| &it.from).filter(|it| it.0 == beam);
        (*post, from.fold(support.asked(site), |left, it| left - it.1))
    });
    let more = more.collect();
    Traced::with(&proposed.plan, Probe { level: case.level.id, more, ..Probe::of_members() })
}

fn post_spot(plan: &Plan, post: PostId) -> Option<Spot> {
    match plan.element(ElementId::Post(post)) {
        Some(Element::Post(it)) => Some(it.at.into()),
        _ => None,
    }
}

/// How far a place is off the line of a piece, in feet.
fn beside(piece: &Carried, at: Spot) -> f64 {
    let Some(frame) = Frame::from_to(piece.a, piece.b) else { return f64::INFINITY };
    let ((start, line), (t, s)) = (frame.local(piece.a), frame.local(at));
    let past = (start - t).max(t - start - apart(piece.a, piece.b)).max(Feet::ZERO);
    (s - line).abs().0.max(past.0)
}

type Found = (Option<Path>, Vec<Node>, Vec<FieldId>);

fn post_down(
    case: &Case<'_>,
    (post, at): (PostId, Feet),
    (support, beams): (&Support, &Beams),
    (path, on, joists): Found,
    proposed: &Proposed,
    after: &Traced,
) -> PostDown {
    // Where sizes are refused, none is named here either.
    let named = !beams.choices.is_empty();
    let gap = path.as_ref().map_or(0.0, Path::gap);
    let landing = after.trace.landings.iter().find(|it| it.from == Node::Post(post)).and_then(|it| it.on);
    let added = landing.filter(|it| proposed.pads.contains(it));
    let pad = Some(PadSize::under(support.most, case.plan.site()));
    let packs = path.iter().flat_map(|it| &it.down).filter(|it| it.share > MOST).filter_map(|it| match it.node {
        Node::Wall(wall) if named => pack(case, wall, support),
        _ => None,
    });
    let packs = packs.collect();
    let mut down = PostDown { post, at, path, on, joists, packs, gap, pad, added, sentence: String::new() };
    down.sentence = case.words.post_down(&down);
    down
}

/// The fewest studs in a wall below, as deep as the wall, held at head and foot alone.
fn pack(case: &Case<'_>, wall: WallId, support: &Support) -> Option<Pack> {
    let (level, it) = case.plan.wall(wall).filter(|it| it.1.make == Make::Stud)?;
    let (site, height) = (case.plan.site(), Inches(level.height_of(it).inches()));
    let depth = if it.thickness.inches() < DEEP_WALL { 4 } else { 6 };
    let asked = support.asked(site);
    let studs = (2..=5).map(|plies| Member::plies(plies, 2, depth)).find_map(|member| {
        let found = column(member, case.stretch.lumber, height, &asked, site)?;
        found.passes().then_some((member, found))
    });
    Some(Pack { wall, studs })
}

/// The worst piece of a member with and without the new load.
fn reloaded(
    case: &Case<'_>,
    [now, after]: [&Traced; 2],
    node: Node,
    standing: &Standing,
    wanted: impl Fn(&Carried) -> bool,
) -> Reloaded {
    let mut no_figure = standing.section().err();
    let mut worst = |carried: &[Carried]| {
        let mut all: Option<Checked> = None;
        for piece in carried.iter().filter(|it| it.of == node && wanted(it)) {
            match check(standing, piece, case) {
                Ok(checked) => all = Some(all.map_or(checked, |known| known.or_worse(checked))),
                Err(why) => no_figure = no_figure.or(Some(why)),
            }
        }
        all
    };
    let (before, after) = (worst(&now.carried), worst(&after.carried));
    let passes = |it: Option<Checked>| it.is_some_and(|it| it.passes());
    let overloaded = after.is_some() && !passes(after) && (before.is_none() || passes(before));
    let (sentence, figures) = (String::new(), Vec::new());
    let mut all = Reloaded { node, before, after, no_figure, overloaded, sentence, figures };
    (all.sentence, all.figures) = case.words.reloaded(&all, standing);
    all
}

fn pressed(case: &Case<'_>, [now, after]: [&Traced; 2], node: Node) -> Option<Pressed> {
    let site = case.plan.site();
    // A pad that is added is sized for what comes: only what stands is listed.
    if let Node::Footing(id) = node {
        case.plan.element(ElementId::Footing(id))?;
    }
    let load = |traced: &Traced| {
        let weights = match node {
            Node::Post(id) => traced.trace.post(id)?.top,
            Node::Footing(id) => {
                let all = traced.trace.landings.iter().filter(|it| it.on == Some(id));
                all.fold(Weights::default(), |sum, it| sum + it.weights)
            }
            _ => return None,
        };
        Some(heaviest(&weights, site).0)
    };
    let pressure = match node {
        Node::Footing(id) => after.trace.landings.iter().find(|it| it.on == Some(id)).and_then(|it| it.pressure),
        _ => None,
    };
    let mut all = Pressed {
        node,
        before: load(now).unwrap_or_default(),
        after: load(after)?,
        pressure,
        column_before: None,
        column_after: None,
        no_figure: None,
        height: None,
        overloaded: pressure.is_some_and(|it| it > site.soil()),
        sentence: String::new(),
        figures: Vec::new(),
    };
    if let Node::Post(id) = node {
        let Some(Element::Post(post)) = case.plan.element(ElementId::Post(id)) else { return None };
        let height = Inches(case.plan.level(after.trace.post(id)?.level)?.height.inches());
        let column = |traced: &Traced| {
            let top = traced.trace.post(id).map_or_else(Weights::default, |it| it.top);
            of_post(&post, case.stretch.lumber, height, &top, site)
        };
        let (before, after) = (column(now), column(after));
        all.no_figure = after.err();
        (all.column_before, all.column_after, all.height) = (before.ok(), after.ok(), Some(height));
        let fails = |it: Option<Column>| it.is_some_and(|it| !it.passes());
        all.overloaded = fails(all.column_after) && !fails(all.column_before);
    }
    (all.sentence, all.figures) = case.words.pressed(&all, case.stretch.lumber);
    Some(all)
}

fn open_up(case: &Case<'_>, down: &Down) -> Vec<OpenUp> {
    let mut all: Vec<OpenUp> = case.line.wall.map(|_| OpenUp::WallAtPosts).into_iter().collect();
    if case.stretch.set == Set::Flush {
        all.insert(0, OpenUp::Ceiling);
    }
    let lowest = case.plan.levels().first();
    if lowest.is_some_and(|it| it.id != case.level.id) {
        all.push(OpenUp::FloorAtPosts);
    }
    let bare = |it: &PostDown| it.added.is_some() || !it.joists.is_empty() || it.gap > 1e-6;
    if down.posts.iter().any(bare) {
        let crawl = lowest.is_some_and(|it| it.kind == LevelKind::CrawlSpace);
        all.push(if crawl { OpenUp::Ground } else { OpenUp::Slab });
    }
    all
}
