//! The plan as far as it is known: drawn, and what was seen put in. Never a guess.
//!
//! One look settles what is over one place, not what is over a whole wall: where the joists were seen to run one way, a wall
//! along them still needs a look of its own.

use super::fact::{NEAR_WALL, is_along, nearest, wall_of};
use super::level::LevelWork;
use super::proof::carries;
use super::question::{field_at, is_bare, is_top, roof_at};
use super::under;
use crate::geometry::{self, Frame};
use crate::ids::{FieldId, LevelId, PostId, WallId};
use crate::observe::{About, proof};
use crate::order::InOrder as _;
use crate::plan::{
    Edit, Element, Grade, Joints, JoistField, Level, Member, Observation, Plan, Point, Post, PostKind, Region, Roof,
    RoofFrame, Saw, Studs, Top, TrussMake, Way, Webs, Wood,
};
use crate::trace::{Reason, Role, Trace, trace};
use crate::units::Feet;

/// The plan with all that was seen or measured put in.
#[must_use]
pub fn as_known(plan: &Plan) -> Plan {
    if plan.levels.iter().all(|level| level.observations.is_empty()) {
        return plan.clone();
    }
    let mut known = plan.clone();
    for number in 0..known.levels.len() {
        let Some(level) = plan.levels.get(number) else { continue };
        let mut seen: Vec<&Observation> = level.observations.iter().filter(|it| it.known <= Grade::Seen).collect();
        seen.order_by_key(|it| it.id);
        under_all(&mut known, number, &seen);
        fields(&mut known, number, level, &seen);
        roofs(&mut known, number, level, &seen);
        walls(&mut known, number, level, &seen);
    }
    under::known(&mut known);
    known
}

/// The trace of the plan as it is known. What does not fit together, and what was seen to carry though nothing drawn lands
/// there, needs a look.
#[must_use]
pub fn known_trace(plan: &Plan) -> Trace {
    let known = as_known(plan);
    let mut trace = trace(&known);
    let looked = known.levels.iter().any(|level| !level.observations.is_empty());
    let ends = if looked { under::open_ends(&known) } else { Vec::new() };
    for level in known.levels.iter().filter(|level| !level.observations.is_empty()) {
        let mut contradictions = Vec::new();
        let work = LevelWork::new(&known, level, &ends, &mut contradictions);
        for wall in &work.doubted {
            doubt(&mut trace, *wall, Reason::FactsDisagree, None);
        }
        for seen in level.observations.iter().filter(|it| it.known <= Grade::Seen && carries(&it.saw)) {
            if let Some(wall) = wall_of(level, seen.at) {
                let at = level.wall(wall).and_then(|wall| along(wall.a, wall.b, seen.at));
                doubt(&mut trace, wall, Reason::SeenToCarry { seen: seen.id }, at);
            }
        }
    }
    trace
}

/// A stretch of a wall, or all of it, becomes one that needs a look; where a place is given, only if nothing carries there.
fn doubt(trace: &mut Trace, id: WallId, reason: Reason, at: Option<Feet>) {
    let Some(wall) = trace.walls.iter_mut().find(|wall| wall.wall == id) else { return };
    for stretch in &mut wall.stretches {
        let here = at.is_none_or(|at| stretch.start <= at && at <= stretch.end);
        let open = at.is_none() || matches!(stretch.role, Role::NothingFound | Role::NeedsALook);
        if here && open && stretch.role != Role::Outside {
            stretch.role = Role::NeedsALook;
            if !stretch.reasons.contains(&reason) {
                stretch.reasons.insert(0, reason);
            }
        }
    }
}

pub(super) fn along(a: Point, b: Point, at: Point) -> Option<Feet> {
    let own = Frame::between(a, b)?;
    let far = own.local(at.into()).0 - own.local(a.into()).0;
    Some(far.max(Feet::ZERO).min(geometry::length(a, b)))
}

/// One value if all that was seen agrees on it.
fn agreed<T: PartialEq>(mut values: impl Iterator<Item = T>) -> Option<T> {
    let first = values.next()?;
    values.all(|it| it == first).then_some(first)
}

/// Joists over a level on which none are drawn, if they were seen to run two ways.
fn under_all(known: &mut Plan, number: usize, seen: &[&Observation]) {
    let mut ways = seen.iter().filter_map(|it| match it.saw {
        Saw::JoistsRun { along } => Some(along),
        _ => None,
    });
    let Some(first) = ways.next() else { return };
    let Some(level) = known.levels.get(number).filter(|it| it.fields.is_empty() && !it.outlines().is_empty()) else {
        return;
    };
    if ways.any(|way| !is_along(first, way)) {
        let (used_as, id) = (known.usual_use(level), FieldId(known.next_id));
        let field = JoistField { id, ..JoistField::usual(Region::Outline, first, Grade::Unknown, used_as) };
        known.levels.get_mut(number).into_iter().for_each(|level| level.fields.push(field.clone()));
        known.next_id = known.next_id.saturating_add(1);
    }
}

fn fields(known: &mut Plan, number: usize, level: &Level, seen: &[&Observation]) {
    for field in known.levels.get_mut(number).into_iter().flat_map(|it| &mut it.fields) {
        let here = || seen.iter().filter(|it| field_at(level, it.at).is_some_and(|over| over.id == field.id));
        let ways: Vec<Way> = here()
            .filter_map(|it| match it.saw {
                Saw::JoistsRun { along } => Some(along),
                _ => None,
            })
            .collect();
        let sizes: Vec<_> = here()
            .filter_map(|it| match it.saw {
                Saw::JoistSize { member, spacing } => Some((member, spacing)),
                _ => None,
            })
            .collect();
        if field.known > Grade::Seen && !ways.is_empty() {
            match agreed(ways.into_iter()) {
                Some(way) => (field.along, field.known) = (way, Grade::Told),
                None => field.known = Grade::Unknown,
            }
        }
        if let Some((member, spacing)) = agreed(sizes.into_iter()) {
            field.member = member;
            field.spacing = spacing.unwrap_or(field.spacing);
        }
    }
}

fn roofs(known: &mut Plan, number: usize, level: &Level, seen: &[&Observation]) {
    for roof in known.levels.get_mut(number).into_iter().flat_map(|it| &mut it.roofs) {
        if roof.known <= Grade::Seen && roof.frame != RoofFrame::NotSeen {
            continue;
        }
        let here = |it: &&&Observation| roof_at(level, it.at).is_some_and(|over| over.id == roof.id);
        let frames = seen.iter().filter(here).filter_map(|it| match it.saw {
            Saw::RidgeBoard => Some(RoofFrame::RidgeBoard),
            Saw::RidgeBeam => Some(RoofFrame::RidgeBeam),
            Saw::TrussPlates => Some(RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole }),
            Saw::TrussGussets => Some(RoofFrame::Trusses { make: TrussMake::SiteBuilt, webs: Webs::NotSeen }),
            Saw::WebCut => Some(RoofFrame::Trusses { make: TrussMake::NotSeen, webs: Webs::Cut }),
            _ => None,
        });
        if let Some(frame) = agreed(frames) {
            // Trusses are further apart than rafters: a spacing that nobody stated follows what they are.
            let usual = |frame| Roof::usual(roof.ridge, frame, Grade::Unknown).spacing;
            if roof.known == Grade::Unknown && roof.spacing == usual(roof.frame) {
                roof.spacing = usual(frame);
            }
            (roof.frame, roof.known) = (frame, Grade::Told);
        }
    }
}

fn walls(known: &mut Plan, number: usize, level: &Level, seen: &[&Observation]) {
    let mut packs: Vec<Point> = Vec::new();
    for wall in known.levels.get_mut(number).into_iter().flat_map(|it| &mut it.walls) {
        let here: Vec<&&Observation> = seen.iter().filter(|it| wall_of(level, it.at) == Some(wall.id)).collect();
        let saw = |what: fn(&Saw) -> bool| here.iter().any(|it| what(&it.saw));
        let bears = here.iter().any(|it| carries(&it.saw));
        let over = here.iter().filter_map(|it| match it.saw {
            Saw::JoistsLap => Some(Joints::Lap),
            Saw::JoistsRunThrough => Some(Joints::RunThrough),
            _ => None,
        });
        wall.joints = agreed(over).unwrap_or(wall.joints);
        if !bears && saw(|it| matches!(it, Saw::Gap)) {
            wall.top = Top::Gap;
        } else if !bears && saw(|it| matches!(it, Saw::NothingStands)) {
            wall.top = Top::Bare;
        }
        wall.truss_bearing |= saw(|it| matches!(it, Saw::TrussTag)) && !saw(|it| matches!(it, Saw::NoTag));
        // Of outside walls too: there they are found most.
        let run_on =
            |it: &&&Observation| it.saw == Saw::StudsRunOn && nearest(&level.walls, it.at, NEAR_WALL) == Some(wall.id);
        if seen.iter().any(|it| run_on(&it)) {
            wall.studs = Studs::PastTheFloor;
        }
        let studs = here.iter().filter(|it| matches!(it.saw, Saw::StudPack { .. }));
        packs.extend(studs.filter_map(|it| {
            let far = crate::units::Ticks::from_decimal_feet(along(wall.a, wall.b, it.at)?)?;
            geometry::along(wall.a, wall.b, far)
        }));
    }
    for at in packs {
        let Some(level) = known.levels.get_mut(number) else { continue };
        if level.posts.iter().all(|post| geometry::length(post.at, at) > Feet(0.5)) {
            let id = PostId(known.next_id);
            let (name, kind, member) = (String::new(), PostKind::StudPack, Member::default());
            level.posts.push(Post { id, name, at, kind, member, wood: Wood::default() });
            known.next_id += 1;
        }
    }
}

/// The edits that put an observation on a level: with it comes the deck or roof it speaks of, where none is drawn yet.
#[must_use]
pub fn record(plan: &Plan, level: LevelId, seen: Observation) -> Vec<Edit> {
    let mut edits = Vec::new();
    if let Some(on) = plan.level(level) {
        let about = proof(&seen.saw).about;
        let wall = wall_of(on, seen.at).and_then(|id| on.wall(id)).map(|wall| Way::between(wall.a, wall.b));
        let along = match (seen.saw, wall) {
            (Saw::JoistsRun { along }, _) => Some(along),
            (Saw::JoistsLap | Saw::JoistsEnd | Saw::JoistsRunThrough, Some(wall)) => Some(wall.square()),
            (Saw::RunAlong, Some(wall)) => Some(wall),
            _ => (about == About::Joists).then(|| on.shorter_way()),
        };
        // Each roof has its own ceiling; trusses that were seen need none.
        let roof = roof_at(on, seen.at).filter(|_| is_top(plan, on));
        let trusses = roof.is_some_and(|it| it.known <= Grade::Seen && matches!(it.frame, RoofFrame::Trusses { .. }));
        let several = is_top(plan, on) && on.roofs.iter().filter(|it| it.frame != RoofFrame::OverFramed).count() > 1;
        let own = roof.filter(|_| several);
        let bare = if several { own.is_some_and(|roof| is_bare(on, roof)) } else { on.fields.is_empty() } && !trusses;
        if let Some(along) = along.filter(|_| bare && !on.outlines().is_empty()) {
            let region = own.map_or(Region::Outline, |roof| roof.region.clone());
            let field = JoistField::usual(region, along, Grade::Unknown, plan.usual_use(on));
            edits.push(Edit::Add(level, Element::Field(field)));
        }
        if about == About::Roof && on.roofs.is_empty() && is_top(plan, on) && !on.outlines().is_empty() {
            let roof = Roof::usual(on.shorter_way().square(), RoofFrame::NotSeen, Grade::Unknown);
            edits.push(Edit::Add(level, Element::Roof(roof)));
        }
    }
    edits.push(Edit::Add(level, Element::Observation(seen)));
    edits
}
