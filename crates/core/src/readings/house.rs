//! A reading as a house: the plan with every question answered, ready to be traced.

use super::question::{Answer, Unknown, ceiling_region, faces, is_chord, is_strutted, point};
use super::{turn, under};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{BeamId, FieldId, PostId, PurlinId, RoofId, WallId};
use crate::loads::live;
use crate::plan::{
    Beam, Grade, Joints, JoistField, Level, Member, Plan, Point, Post, PostKind, Purlin, Region, Roof, RoofFrame, Set,
    Side, Top, TrussMake, Wall, Webs, Wood,
};
use crate::trace::{OpenEnd, Role};
use crate::units::{Feet, Plf, Ticks};

/// The plan with the questions answered.
pub(super) fn house(plan: &Plan, ends: &[OpenEnd], answers: &[(Unknown, Answer)]) -> Plan {
    let mut house = plan.clone();
    for (unknown, answer) in answers {
        match unknown {
            Unknown::Under(of) => {
                let end = ends.iter().find(|end| end.of == *of);
                end.into_iter().for_each(|end| under::make(&mut house, end, *answer));
            }
            unknown => answered(&mut house, *unknown, *answer),
        }
    }
    house
}

fn answered(house: &mut Plan, unknown: Unknown, answer: Answer) {
    match unknown {
        Unknown::Overhead(id) => {
            let Some(level) = house.level(id) else { return };
            let used_as = house.usual_use(level);
            let ridge = level.shorter_way().square();
            let number = house.next_id;
            let Some(level) = house.levels.iter_mut().find(|it| it.id == id) else { return };
            match answer {
                Answer::Joists(along) => {
                    let field = JoistField::usual(Region::Outline, along, Grade::Seen, used_as);
                    level.fields.push(JoistField { id: FieldId(number), ..field });
                    house.next_id += 1;
                }
                Answer::Trusses | Answer::AlteredTrusses if level.roofs.is_empty() => {
                    let roof = Roof::usual(ridge, framed(answer, RoofFrame::NotSeen), Grade::Seen);
                    level.roofs.push(Roof { id: RoofId(number), ..roof });
                    house.next_id += 1;
                }
                _ => {}
            }
        }
        Unknown::Ceiling(id) => {
            let Answer::Joists(along) = answer else { return };
            let Some(level) = house.levels.iter().find(|level| level.roofs.iter().any(|roof| roof.id == id)) else {
                return;
            };
            let (on, used_as, number) = (level.id, house.usual_use(level), house.next_id);
            let Some(level) = house.levels.iter_mut().find(|level| level.id == on) else { return };
            let region = level.roofs.iter().find(|roof| roof.id == id).map(|roof| ceiling_region(level, roof));
            let field = JoistField::usual(region.unwrap_or_default(), along, Grade::Seen, used_as);
            // What is drawn lies over it.
            level.fields.insert(0, JoistField { id: FieldId(number), ..field });
            house.next_id += 1;
        }
        Unknown::Direction(id) => {
            let fields = house.levels.iter_mut().flat_map(|level| &mut level.fields);
            for field in fields.filter(|field| field.id == id) {
                if let Answer::Joists(along) = answer {
                    field.along = along;
                }
                field.known = field.known.min(Grade::Seen);
            }
        }
        Unknown::Size(id) => {
            let fields = house.levels.iter_mut().flat_map(|level| &mut level.fields);
            for field in fields.filter(|field| field.id == id) {
                if let Answer::TwoBy(depth) = answer {
                    field.member = Member::sawn(2, depth);
                }
            }
        }
        Unknown::Turn(id) => {
            if let Answer::TurnsAt(line) = answer {
                turn::make(house, id, line);
            }
        }
        Unknown::RoofOver(id) => {
            let number = house.next_id;
            let Some(level) = house.levels.iter_mut().find(|it| it.id == id) else { return };
            if matches!(answer, Answer::Board | Answer::RidgeBeam) {
                let frame = framed(answer, RoofFrame::NotSeen);
                let roof = Roof::usual(level.shorter_way().square(), frame, Grade::Seen);
                level.roofs.push(Roof { id: RoofId(number), ..roof });
                house.next_id += 1;
            }
        }
        Unknown::Frame(id) => {
            for level in &mut house.levels {
                let trusses = matches!(answer, Answer::Trusses | Answer::AlteredTrusses);
                let Some(roof) = level.roofs.iter_mut().find(|roof| roof.id == id) else { continue };
                roof.frame = framed(answer, roof.frame);
                roof.known = roof.known.min(Grade::Seen);
                if trusses {
                    // Their chords are the ceiling: nothing else lies there.
                    let roof = roof.clone();
                    let of_joists = |field: &JoistField| !is_chord(level, field, &roof);
                    let fields = level.fields.iter().filter(|field| of_joists(field)).cloned().collect();
                    level.fields = fields;
                }
            }
        }
        Unknown::Wall(id) if answer == Answer::BeamOver => beam_over(house, id),
        Unknown::Wall(id) => meets(house, id, answer),
        Unknown::Struts(id) if answer == Answer::Struts => struts(house, id),
        Unknown::Struts(_) | Unknown::Under(_) => {}
    }
}

const fn framed(answer: Answer, drawn: RoofFrame) -> RoofFrame {
    match answer {
        Answer::Trusses => RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole },
        Answer::AlteredTrusses
            if matches!(
                drawn,
                RoofFrame::Trusses { make: TrussMake::SiteBuilt, .. } | RoofFrame::Trusses { webs: Webs::Cut, .. }
            ) =>
        {
            drawn
        }
        Answer::AlteredTrusses => RoofFrame::Trusses { make: TrussMake::SiteBuilt, webs: Webs::NotSeen },
        Answer::Board => RoofFrame::RidgeBoard,
        Answer::RidgeBeam => RoofFrame::RidgeBeam,
        _ => drawn,
    }
}

fn meets(house: &mut Plan, id: WallId, answer: Answer) {
    for level in &mut house.levels {
        // Where struts stand on it, its plate is no gap below what passes over, though joists may be clear of it.
        let strutted = level.wall(id).is_some_and(|wall| is_strutted(level, wall));
        for wall in level.walls.iter_mut().filter(|wall| wall.id == id) {
            match answer {
                Answer::Lap => wall.joints = Joints::Lap,
                Answer::Tight => wall.joints = Joints::RunThrough,
                Answer::Clear if wall.top == Top::Tight && !strutted => wall.top = Top::Gap,
                Answer::Bears => wall.truss_bearing = true,
                _ => {}
            }
        }
    }
}

/// A beam along the line of a wall, on a pack of studs at each end, clear of the wall between them.
fn beam_over(house: &mut Plan, id: WallId) {
    let number = house.next_id;
    for level in &mut house.levels {
        let Some(wall) = level.walls.iter_mut().find(|wall| wall.id == id) else { continue };
        wall.top = Top::Gap;
        let (a, b) = (wall.a, wall.b);
        let beam = Beam {
            id: BeamId(number),
            name: String::new(),
            a,
            b,
            member: Member::default(),
            set: Set::Flush,
            joints: Joints::RunThrough,
            wood: Wood::default(),
        };
        level.beams.push(beam);
        for (at, more) in [(a, 1), (b, 2)] {
            let (id, name) = (PostId(number.saturating_add(more)), String::new());
            let (kind, member, wood) = (PostKind::StudPack, Member::default(), Wood::default());
            level.posts.push(Post { id, name, at, kind, member, wood });
        }
        house.next_id = number.saturating_add(3);
        return;
    }
}

/// What would land on a wall on whose one face joists turn and end: the origin, and the line load of half of the way to the
/// next wall along it. They are not drawn into the reading: what holds up those that stop there, nobody has seen either.
pub(super) fn turned(level: &Level, id: WallId, left: bool) -> Option<(Role, Plf)> {
    let wall = level.wall(id)?;
    let own = Frame::between(wall.a, wall.b)?;
    let (start, line) = own.local(wall.a.into());
    let middle = start.0 + geometry::length(wall.a, wall.b).0 / 2.0;
    let side = if left { 1.0 } else { -1.0 };
    let beside = |other: &Wall| {
        let (a, b) = (own.local(other.a.into()), own.local(other.b.into()));
        let across = (a.1.0 + b.1.0) / 2.0 - line.0;
        let parallel = (a.1.0 - b.1.0).abs() < 0.05 * (a.0.0 - b.0.0).abs();
        let covers = a.0.0.min(b.0.0) <= middle && middle <= a.0.0.max(b.0.0);
        (other.id != id && parallel && covers && across * side > 1.0).then_some(across.abs())
    };
    let next = level.walls.iter().filter_map(beside).fold(f64::INFINITY, f64::min);
    let [left_face, right_face] = faces(level, wall);
    let here = if left { left_face } else { right_face };
    let field = here.first().copied().or(level.fields.first())?;
    let role = if field.used_as.is_ceiling() { Role::CarriesCeiling } else { Role::CarriesFloor };
    let psf = field.weighs() + live(field.used_as).value;
    Some((role, if next.is_finite() { psf * Feet(next / 2.0) } else { Plf::ZERO }))
}

/// A purlin half way up the slope over a wall, its struts on the wall.
fn struts(house: &mut Plan, id: WallId) {
    let number = house.next_id;
    for level in &mut house.levels {
        let Some(wall) = level.wall(id).filter(|wall| !is_strutted(level, wall)) else { continue };
        let Some(own) = Frame::between(wall.a, wall.b) else { continue };
        // No purlin runs up a slope: over other walls nobody can say what a strut holds.
        if !level.roofs.iter().any(|roof| own.squareness(&Frame::of(roof.ridge)) <= 0.05) {
            return;
        }
        let (a, b) = (own.local(wall.a.into()), own.local(wall.b.into()));
        let eaves = level.walls.iter().filter(|it| it.side == Side::Outside).flat_map(|it| [it.a, it.b]);
        let across: Vec<f64> = eaves.map(|at| own.local(at.into()).1.0).collect();
        let (lo, hi) =
            across.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(*it), hi.max(*it)));
        let ridge =
            level.roofs.first().and_then(|roof| roof.ridge_at).map_or((lo + hi) / 2.0, |at| own.local(at.into()).1.0);
        let line = a.1.0;
        let half_way = if line < ridge { (lo + ridge) / 2.0 } else { (hi + ridge) / 2.0 };
        // No strut is longer than a code lets it be without a stay.
        let reach = Purlin::LONGEST_STRUT.0 / 2.0;
        let purlin = half_way.clamp(line - reach, line + reach);
        let ends = [a.0, b.0].map(|along| point(own.spot(along, Feet(purlin))));
        let feet = point(own.spot(Feet((a.0.0 + b.0.0) / 2.0), Feet(line)));
        let [Some(a), Some(b)] = ends else { continue };
        for wall in level.walls.iter_mut().filter(|wall| wall.id == id) {
            wall.top = Top::Tight;
        }
        level.purlins.push(Purlin {
            id: PurlinId(number),
            a,
            b,
            member: Member::default(),
            feet,
            spacing: Ticks::from_feet(4),
            known: Grade::Seen,
        });
        house.next_id += 1;
        return;
    }
}

/// Where a look at a wall is taken: the middle of its line.
#[must_use]
pub fn middle(a: Point, b: Point) -> Point {
    let (a, b): (Spot, Spot) = (a.into(), b.into());
    point(Spot { x: (a.x + b.x) / 2.0, y: (a.y + b.y) / 2.0 }).unwrap_or_default()
}
