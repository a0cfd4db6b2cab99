//! What to know about a wall or post even when its role is right: by rules of the code and of the trade.

use super::around::{Around, extent};
use super::bar::Bearer;
use super::details::{self, on_i_joists};
use super::down::{Falling, FallingWall, all_under};
use super::near::Extent;
use super::own;
use super::seats::{Seats, Use};
use super::storey::Storey;
use super::strips::EPS;
use super::{Caution, Laid, Node, Origin, Problem, Reason, Role, Stretch};
use crate::geometry::{self, Frame, Spot};
use crate::ids::FieldId;
use crate::members::joist::may_stand_off;
use crate::plan::{Built, Level, Material, Point, PostKind, RoofFrame, Side, Studs, Top, Use as DeckUse, Wall};
use crate::units::{Feet, Inches};

/// How near to a post or end of a beam below a post above is still over it, in feet.
const AT_SUPPORT: f64 = 0.75;
/// How far from a joist a post may stand and still be on it, in feet.
const NEAR_JOIST: f64 = 2.0;
/// How far a first look goes for what a wall stands beside, in feet.
const FIRST_LOOK: f64 = 8.0;

/// Cautions on a wall of a level whose roles are known.
pub(super) fn of_wall(storey: &Storey<'_>, wall: &Wall, stretches: &[Stretch]) -> Vec<Caution> {
    let level = storey.level;
    let mut cautions = anywhere(wall, stretches);
    cautions.extend(details::of_wall(level, wall, stretches));
    if wall.side == Side::Outside {
        return cautions;
    }
    let carries = stretches.iter().any(|it| it.role.carries());
    let reasons = || stretches.iter().flat_map(|it| &it.reasons);
    let Some(own) = Frame::between(wall.a, wall.b) else { return cautions };
    let crossed = |reason: &Reason| match reason {
        Reason::JoistsLapOver { field } | Reason::JoistsPassOver { field } | Reason::JoistsCross { field } => {
            Some(*field)
        }
        _ => None,
    };
    let joists: Vec<(FieldId, Frame)> = if level.roofs.is_empty() {
        Vec::new()
    } else {
        let over = reasons().filter_map(crossed);
        over.filter_map(|id| level.fields.iter().find(|it| it.id == id))
            .map(|it| (it.id, Frame::of(it.along)))
            .collect()
    };
    for roof in &level.roofs {
        let rafters = Frame::of(roof.ridge.square());
        let along_rafters = |(_, joists): &&(FieldId, Frame)| joists.squareness(&rafters) < 0.05;
        if matches!(roof.frame, RoofFrame::RidgeBoard | RoofFrame::NotSeen)
            && joists.iter().any(|it| along_rafters(&it))
        {
            if cautions.iter().all(|it| !matches!(it, Caution::TiesCutIfFlush { .. })) {
                cautions.push(Caution::TiesCutIfFlush { roof: roof.id });
            }
            let stores = |id: FieldId| level.fields.iter().any(|it| it.id == id && it.used_as == DeckUse::AtticStorage);
            if let Some((field, _)) = joists.iter().filter(along_rafters).find(|it| stores(it.0)) {
                give(&mut cautions, Caution::StorageOnTies { field: *field });
            }
        }
        let trusses_over = matches!(roof.frame, RoofFrame::Trusses { .. })
            && reasons().any(|it| {
                matches!(
                    it,
                    Reason::TrussesPassOver { .. }
                        | Reason::TrussesSiteBuilt { .. }
                        | Reason::TrussWebCut { .. }
                        | Reason::TrussesNotLookedAt { .. }
                        | Reason::TrussesBearInside { .. }
                )
            });
        if trusses_over {
            cautions.push(Caution::TrussesMaySettle { roof: roof.id });
            cautions.push(Caution::DoNotCutTrusses { roof: roof.id });
        }
    }
    let mut on_roof = false;
    for reason in reasons() {
        match reason {
            Reason::StrutsStandOn { purlin } => {
                on_roof = true;
                give(&mut cautions, Caution::StrutsNeedSupport { purlin: *purlin });
            }
            Reason::RaftersLeanOn { .. }
            | Reason::RidgeRestsOn { .. }
            | Reason::HipRestsOn { .. }
            | Reason::ValleyRestsOn { .. } => on_roof = true,
            _ => {}
        }
    }
    if on_roof {
        cautions.insert(0, Caution::RoofOnInsideWall);
    }
    let below = storey.below;
    if carries && below.is_some_and(|it| !it.level.posts.is_empty()) {
        cautions.push(Caution::EndsNeedPath);
    }
    if carries && most_run_along(storey, wall, &own) {
        cautions.push(Caution::ParallelRuleMisleads);
    }
    if !carries {
        let beam = below.and_then(|it| in_line_beam(it, wall));
        cautions.extend(beam.map(|beam| Caution::BeamBelowIsNoProof { beam }));
        cautions.push(Caution::CheckBothSides);
    }
    for opening in &level.floor_openings {
        if beside(wall, &opening.corners) && !level.fields.is_empty() {
            cautions.push(Caution::GuardAtOpenSide { opening: opening.id });
        }
    }
    cautions.push(Caution::MayBrace);
    cautions.push(Caution::ServicesInside);
    cautions
}

/// Cautions on a wall wherever it stands.
fn anywhere(wall: &Wall, stretches: &[Stretch]) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if wall.studs == Studs::PastTheFloor {
        cautions.push(Caution::StudsRunOn);
    }
    if wall.truss_bearing && stretches.iter().any(|it| it.role == Role::CarriesRoof) {
        cautions.push(Caution::TrussDrawing);
    }
    if wall.built == Built::Later {
        cautions.push(Caution::LaterWall);
    }
    for reason in stretches.iter().flat_map(|it| &it.reasons) {
        match *reason {
            Reason::RidgeRestsOn { roof, at } => give(&mut cautions, Caution::RidgeNeedsPost { roof, at }),
            Reason::StudPackIn { post, .. } => give(&mut cautions, Caution::StudPack { post }),
            _ => {}
        }
    }
    cautions
}

/// Packs of studs that stand in walls of a level: each claims its place.
pub(super) fn packs(storey: &mut Storey<'_>) {
    let level = storey.level;
    for post in level.posts.iter().filter(|post| post.kind == PostKind::StudPack) {
        for (wall, carrier) in level.walls.iter().zip(&mut storey.walls) {
            let Some(frame) = Frame::between(wall.a, wall.b) else { continue };
            let ((start, line), (t, s)) = (frame.local(Spot::from(wall.a)), frame.local(Spot::from(post.at)));
            let along = (t - start).0;
            let inside = along > -0.5 && along < carrier.length + 0.5;
            if inside && (s - line).abs().0 <= wall.thickness.feet().0 / 2.0 + EPS {
                let at = along.clamp(0.0, carrier.length);
                carrier.claim(at - 0.5, at + 0.5, None, Reason::StudPackIn { post: post.id, at: Feet(at) });
            }
        }
    }
}

/// Whether more of the deck's area beside the wall runs along it than across.
fn most_run_along(storey: &Storey<'_>, wall: &Wall, own: &Frame) -> bool {
    let touches = |corners: &[crate::plan::Point]| {
        let ends = [wall.a, wall.b].into_iter().chain(geometry::along(wall.a, wall.b, half(wall)));
        ends.filter(|at| geometry::position(corners, *at) != geometry::Position::Outside).count() >= 2
    };
    let within = extent([wall.a.into(), wall.b.into()]);
    let fields = storey.around.fields(&within);
    let mut along = fields.filter(|field| own.squareness(&Frame::of(field.along)) < 0.05);
    along.any(|field| storey.around.polygons(&field.region).iter().any(|polygon| touches(polygon)))
}

fn half(wall: &Wall) -> crate::units::Ticks {
    crate::units::Ticks::from_decimal_feet(geometry::length(wall.a, wall.b) / 2.0).unwrap_or_default()
}

/// A beam of the level below under the line of a wall, for at least half of it.
fn in_line_beam(below: &Around<'_>, wall: &Wall) -> Option<crate::ids::BeamId> {
    let frame = Frame::between(wall.a, wall.b)?;
    let (start, s) = frame.local(Spot::from(wall.a));
    let length = geometry::length(wall.a, wall.b).0;
    let within = extent([wall.a.into(), wall.b.into()]);
    let beds = Seats::of(below, &frame, Use::Joists, &within).under(s.0, start.0, start.0 + length);
    beds.iter().filter(|bed| bed.to - bed.from > length / 2.0 - EPS).find_map(|bed| match bed.on {
        Bearer::Beam(i) => below.level.beams.get(i).map(|beam| beam.id),
        _ => None,
    })
}

/// Whether a wall stands along a side of an outline, within half a foot.
fn beside(wall: &Wall, corners: &[crate::plan::Point]) -> bool {
    let Some(frame) = Frame::between(wall.a, wall.b) else { return false };
    let (start, s) = frame.local(Spot::from(wall.a));
    let end = start.0 + geometry::length(wall.a, wall.b).0;
    corners.iter().zip(corners.iter().cycle().skip(1)).any(|(a, b)| {
        let ((ta, sa), (tb, sb)) = (frame.local(Spot::from(*a)), frame.local(Spot::from(*b)));
        let near = (sa - s).0.abs() < 0.5 + EPS && (sb - s).0.abs() < 0.5 + EPS;
        near && ta.0.max(tb.0).min(end) - ta.0.min(tb.0).max(start.0) > 1.0 + EPS
    })
}

/// Posts of a level: piers of blocks, and those that hold the corner of a deck opening.
pub(super) fn of_posts(storey: &mut Storey<'_>) {
    let level = storey.level;
    for (post, work) in level.posts.iter().zip(&mut storey.posts) {
        if post.kind == PostKind::Pier && work.top.all().0 > EPS {
            work.cautions.push(Caution::FillBlocks);
        }
    }
    for header in &storey.headers {
        for post in [header.under_a, header.under_b].into_iter().flatten() {
            let work = level.posts.iter().position(|it| it.id == post).and_then(|i| storey.posts.get_mut(i));
            let caution = Caution::KeepOrReplaceCornerPost { post };
            if let Some(work) = work.filter(|work| !work.cautions.contains(&caution)) {
                work.cautions.push(caution);
            }
        }
    }
}

/// Cautions on the posts above, in order, that come down on the level in work: over a beam, between its supports, on joists.
pub(super) fn of_standing_posts(storey: &Storey<'_>, falling: &Falling, above: &Level) -> Vec<Vec<Caution>> {
    let mut all = Vec::new();
    for (falling, post) in falling.posts.iter().zip(&above.posts) {
        let mut cautions = Vec::new();
        let loaded = falling.weights.all().0 > EPS;
        let wood = matches!(post.kind, PostKind::Wood | PostKind::StudPack);
        match all_under(storey.around, falling.at, falling.half).first().copied().filter(|_| loaded) {
            Some((Bearer::Beam(i), _)) => {
                if let Some(beam) = storey.level.beams.get(i) {
                    cautions.push(Caution::PostOverBeam { beam: beam.id });
                    let held = storey.level.posts.iter().any(|it| geometry::length(it.at, falling.at).0 <= AT_SUPPORT)
                        || [beam.a, beam.b].iter().any(|end| geometry::length(*end, falling.at).0 <= AT_SUPPORT);
                    if !held {
                        cautions.push(Caution::BetweenSupports { beam: beam.id });
                    }
                    if wood && beam.member.material != Material::Steel {
                        cautions.push(Caution::CheckCrushing);
                    }
                }
            }
            None if loaded && !storey.level.fields.is_empty() => {
                cautions.push(Caution::PostOnJoists);
                cautions.extend(past_support(storey, falling.at).map(|field| Caution::PostOnCantilever { field }));
                if wood {
                    cautions.push(Caution::CheckCrushing);
                }
            }
            _ => {}
        }
        if let Some(over) = details::of_post_over(storey.level, falling.at).filter(|_| loaded) {
            // On I-joists blocks take what the joists would be crushed by.
            if matches!(over, Caution::OnBlocking { .. }) && on_i_joists(storey.level, falling.at) {
                cautions.retain(|it| *it != Caution::CheckCrushing);
            }
            give(&mut cautions, over);
        }
        all.push(cautions);
    }
    all
}

/// The field whose nearest joist holds a place past its last support.
fn past_support(storey: &Storey<'_>, at: Point) -> Option<FieldId> {
    let spot = Spot::from(at);
    let along = |laid: &Laid| {
        let frame = Frame::from_to(laid.a, laid.b)?;
        let ((from, line), (to, _), (t, s)) = (frame.local(laid.a), frame.local(laid.b), frame.local(spot));
        let beside = t >= from - Feet(EPS) && t <= to + Feet(EPS);
        beside.then_some(((s - line).abs().0, frame, t))
    };
    let near: Vec<(f64, Frame, Feet, &Laid)> =
        storey.members.iter().filter_map(|laid| along(laid).map(|(off, frame, t)| (off, frame, t, laid))).collect();
    let least = near.iter().map(|it| it.0).fold(NEAR_JOIST, f64::min);
    // Half way between two joists it stands on both.
    near.iter().filter(|it| it.0 <= least + EPS).find_map(|(_, frame, t, laid)| {
        let bears = || laid.bears.iter().map(|bear| frame.local(*bear).0.0);
        let (first, last) = (bears().fold(f64::INFINITY, f64::min), bears().fold(f64::NEG_INFINITY, f64::max));
        match laid.of {
            Node::Field(field) if t.0 < first - EPS || t.0 > last + EPS => Some(field),
            _ => None,
        }
    })
}

/// Cautions on a wall that stands, all or in part, on the joists of the level in work: how far it is off, and what
/// the joists are. IRC R502.4 (as quoted): bearing partitions square to joists are not offset from the support below
/// by more than the joist depth, unless the joists are sized for it; I-joists are designed for any offset.
pub(super) fn of_standing(
    storey: &mut Storey<'_>,
    falling: &FallingWall,
    upper_level: &Level,
    wall: &Wall,
) -> Vec<Caution> {
    let mut cautions = Vec::new();
    let own = own::weight(upper_level, wall).all().0;
    if falling.total().all().0 <= own * (1.0 + 1e-9) + 1e-6 {
        return cautions;
    }
    let links = storey.links_from(Node::Wall(falling.wall));
    let through = links.filter(|(_, to, weights)| *to != Node::Gap && weights.all().0.abs() > EPS);
    let mut fields: Vec<crate::ids::FieldId> = through.filter_map(|(through, ..)| through).collect();
    fields.dedup();
    cautions.extend(details::of_wall_over(storey.level, falling.a, falling.b));
    let Some(frame) = Frame::between(falling.a, falling.b) else { return cautions };
    for id in fields {
        let Some(field) = storey.level.fields.iter().find(|field| field.id == id) else { continue };
        let square = frame.squareness(&Frame::of(field.along));
        if square < 0.5 {
            if square < 0.05 {
                give(&mut cautions, Caution::AlongJoists { field: id });
            }
            continue;
        }
        cautions.push(Caution::StandsOnJoists { field: id });
        if falling.origin == Some(Origin::Roof) {
            give(&mut cautions, Caution::RoofOnJoists);
        }
        let Some((lower, offset)) = nearest_in_line(storey.around, &frame, falling) else { continue };
        let upper = falling.wall;
        if field.member.material == Material::IJoist {
            give(&mut cautions, Caution::OffsetOnIJoists { upper, offset: Feet(offset) });
        } else {
            let depth = field.member.depth.feet();
            if field.member.is_seen() && !may_stand_off(Feet(offset), depth) {
                // Two fields of one joist warn of it once.
                give(&mut cautions, Caution::OffsetOverJoistDepth { upper, offset: Feet(offset), depth });
                let at = Spot::from(falling.a);
                if let Bearer::Wall(i) = lower
                    && let Some(lower) = storey.level.walls.get(i).map(|wall| wall.id)
                {
                    let problem = Problem::OffsetOverJoistDepth { upper, lower, offset: Inches(offset * 12.0) };
                    if storey.findings.iter().all(|finding| finding.problem != problem) {
                        storey.find(at, problem, None);
                    }
                }
                // Under a foot or so the joists are stiff enough for no dip to show: common practice.
                if offset > 2.0 + EPS {
                    give(&mut cautions, Caution::FloorDipExpected);
                }
            }
        }
    }
    cautions
}

fn give(cautions: &mut Vec<Caution>, caution: Caution) {
    if !cautions.contains(&caution) {
        cautions.push(caution);
    }
}

/// The wall or beam along the line of a wall above, beside it for a part of its length, that is nearest to it.
fn nearest_in_line(around: &Around<'_>, frame: &Frame, falling: &FallingWall) -> Option<(Bearer, f64)> {
    let line = extent([falling.a.into(), falling.b.into()]);
    // Looks further and further out, until what it finds is nearer than what it has not seen.
    let mut reach = FIRST_LOOK;
    loop {
        let within = line.grown(reach);
        let nearest = nearest_within(around, frame, falling, &within);
        if nearest.is_some_and(|(_, off)| off < reach - FIRST_LOOK / 2.0) || around.is_all_within(&within) {
            return nearest;
        }
        reach *= 4.0;
    }
}

fn nearest_within(around: &Around<'_>, frame: &Frame, falling: &FallingWall, within: &Extent) -> Option<(Bearer, f64)> {
    let (start, s) = frame.local(Spot::from(falling.a));
    let (start, s) = (start.0, s.0);
    let end = start + geometry::length(falling.a, falling.b).0;
    let mut nearest: Option<(Bearer, f64)> = None;
    let mut look = |on: Bearer, a: crate::plan::Point, b: crate::plan::Point| {
        let own = Frame::between(a, b);
        if own.is_some_and(|own| frame.squareness(&own) < 0.05) {
            let ((ta, sa), (tb, _)) = (frame.local(Spot::from(a)), frame.local(Spot::from(b)));
            if ta.0.max(tb.0).min(end) - ta.0.min(tb.0).max(start) > EPS {
                let off = (sa.0 - s).abs();
                // Of two as near, on either side, the first.
                if nearest.is_none_or(|(_, known)| off < known - EPS) {
                    nearest = Some((on, off));
                }
            }
        }
    };
    for (i, wall) in around.walls(within).filter(|(_, wall)| wall.top == Top::Tight) {
        look(Bearer::Wall(i), wall.a, wall.b);
    }
    for (i, beam) in around.beams(within) {
        look(Bearer::Beam(i), beam.a, beam.b);
    }
    nearest
}
