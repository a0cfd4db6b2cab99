//! The role of each stretch of a wall, from the claims on it and from what is stated overhead.
//!
//! Nothing here weighs anything. Without evidence a stretch needs a look, and a plan alone never yields "nothing found".

use super::around::extent;
use super::carry::{Carrier, Claim};
use super::roofs;
use super::storey::Storey;
use super::strips::EPS;
use super::{Origin, Reason, Role, Stretch};
use crate::geometry::{self, Frame, Position, Spot};
use crate::order::InOrder as _;
use crate::plan::{Built, Grade, JoistField, Make, Point, Purlin, Region, RoofFrame, Side, Top, TrussMake, Wall, Webs};
use crate::units::{Feet, Ticks};

/// How far from what it holds a brace may stand, in feet: no strut without a stay is longer than 8 ft (IRC R802.4.5).
const BRACE: f64 = Purlin::LONGEST_STRUT.0 + EPS;

/// The stretches of one wall, from end `a` to end `b`.
pub(super) fn stretches(storey: &Storey<'_>, wall: &Wall, carrier: &Carrier) -> Vec<Stretch> {
    let mut claims = carrier.claims.clone();
    close_ends(storey, carrier.length, &mut claims);
    if wall.side == Side::Outside {
        let mut reasons = vec![Reason::OutsideWall];
        reasons.extend(by_weight(&claims.iter().collect::<Vec<_>>()));
        reasons.retain(|reason| !matches!(reason, Reason::JoistsRunAlong { .. }));
        return vec![Stretch { start: Feet::ZERO, end: Feet(carrier.length), role: Role::Outside, reasons }];
    }
    let mut stops = vec![0.0, carrier.length];
    stops.extend(claims.iter().flat_map(|claim| [claim.start, claim.end]));
    stops.extend(region_edges(storey, wall, carrier.length));
    let ends = || storey.open_ends.iter().filter(|end| !end.looked);
    stops.extend(ends().filter_map(|end| end.run_on(storey.level, wall)).flat_map(|run| [run.0, run.1]));
    let tops = storey.open_tops.iter().filter_map(|(_, at)| run_near(wall, *at, BRACE));
    let purlins = storey.level.purlins.iter().filter(|it| it.feet.is_none());
    let purlins = purlins.filter_map(|it| run_beside(wall, (it.a, it.b), BRACE));
    stops.extend(tops.chain(purlins).flat_map(|run| [run.0, run.1]));
    stops.order_by(f64::total_cmp);
    stops.dedup_by(|b, a| (*b - *a).abs() < 0.01);
    let mut stretches: Vec<Stretch> = Vec::new();
    let mut over = Over::of(&claims);
    let mut here: Vec<&Claim> = Vec::new();
    for pair in stops.windows(2) {
        let [start, end] = *pair else { continue };
        let middle = (start + end) / 2.0;
        over.at(middle, &mut here);
        let role = match here.iter().filter_map(|claim| claim.origin).min() {
            Some(origin) => carries(origin),
            None => {
                let (role, reasons) = judge(storey, wall, &here, middle);
                add(&mut stretches, (start, end), role, reasons);
                continue;
            }
        };
        sort_by_weight(&mut here);
        let reasons = here.iter().map(|claim| claim.reason);
        if wall.built == Built::Later && leans_at_the_most(&here) {
            add(&mut stretches, (start, end), Role::NeedsALook, reasons.chain([Reason::BuiltLater]));
        } else {
            add(&mut stretches, (start, end), role, reasons);
        }
    }
    if let Some(last) = stretches.last_mut() {
        last.end = Feet(carrier.length);
    }
    stretches
}

/// The run of a wall that is no further from a place than a strut reaches, from its end `a`.
fn run_near(wall: &Wall, at: Spot, reach: f64) -> Option<(f64, f64)> {
    let own = Frame::between(wall.a, wall.b)?;
    let ((start, line), (t, s)) = (own.local(Spot::from(wall.a)), own.local(at));
    let (along, off) = ((t - start).0, (s - line).0);
    let half = (reach * reach - off * off).max(0.0).sqrt();
    within(wall, (along - half, along + half))
}

/// The run of a wall that is no further from a line than a strut reaches, on its sides or past its ends.
fn run_beside(wall: &Wall, (a, b): (Point, Point), reach: f64) -> Option<(f64, f64)> {
    let frame = Frame::between(a, b)?;
    let [(t0, s0), (t, s)] = [wall.a, wall.b].map(|it| frame.local(Spot::from(it)));
    let ((start, line), length) = (frame.local(Spot::from(a)), geometry::length(wall.a, wall.b).0);
    let far = geometry::length(a, b).0 + reach;
    let mut run = (0.0_f64, length);
    for (from, by, band) in
        [((t0 - start).0, (t - t0).0 / length, (-reach, far)), ((s0 - line).0, (s - s0).0 / length, (-reach, reach))]
    {
        if by.abs() > EPS {
            let (one, other) = ((band.0 - from) / by, (band.1 - from) / by);
            run = (run.0.max(one.min(other)), run.1.min(one.max(other)));
        }
    }
    within(wall, run)
}

fn within(wall: &Wall, (from, to): (f64, f64)) -> Option<(f64, f64)> {
    let (from, to) = (from.max(0.0), to.min(geometry::length(wall.a, wall.b).0));
    (from < to).then_some((from, to))
}

/// One more run of a wall: part of the last stretch if it has its role.
fn add(stretches: &mut Vec<Stretch>, run: (f64, f64), role: Role, reasons: impl IntoIterator<Item = Reason>) {
    if stretches.last().is_none_or(|last| last.role != role) {
        stretches.push(Stretch { start: Feet(run.0), end: Feet(run.1), role, reasons: Vec::new() });
    }
    if let Some(last) = stretches.last_mut() {
        last.end = Feet(run.1);
        for reason in reasons {
            give(&mut last.reasons, reason);
        }
    }
}

/// The claims over a place that moves from end `a` of a wall to end `b`.
struct Over<'a> {
    claims: &'a [Claim],
    /// The numbers of all claims, by where they start.
    by_start: Vec<usize>,
    /// How many of them have started.
    started: usize,
    /// Those that are over the place, in the order in which they were made.
    open: Vec<usize>,
}

impl<'a> Over<'a> {
    fn of(claims: &'a [Claim]) -> Self {
        let mut by_start: Vec<(f64, usize)> = claims.iter().enumerate().map(|(i, claim)| (claim.start, i)).collect();
        by_start.order_by(|a, b| a.0.total_cmp(&b.0));
        Self { claims, by_start: by_start.into_iter().map(|it| it.1).collect(), started: 0, open: Vec::new() }
    }

    /// Moves on to a place and lists the claims over it.
    fn at(&mut self, place: f64, here: &mut Vec<&'a Claim>) {
        let claim = |i: usize| self.claims.get(i);
        while let Some(next) =
            self.by_start.get(self.started).filter(|i| claim(**i).is_some_and(|it| it.start <= place))
        {
            let at = self.open.partition_point(|known| known < next);
            self.open.insert(at, *next);
            self.started += 1;
        }
        self.open.retain(|i| claim(*i).is_some_and(|it| it.end >= place));
        here.clear();
        here.extend(self.open.iter().filter_map(|i| claim(*i)));
    }
}

const fn carries(origin: Origin) -> Role {
    match origin {
        Origin::Roof => Role::CarriesRoof,
        Origin::Floor => Role::CarriesFloor,
        Origin::Ceiling => Role::CarriesCeiling,
    }
}

/// Whether all that lands there runs through over it: it stood without a wall that was built later.
fn leans_at_the_most(here: &[&Claim]) -> bool {
    let mut lands = here.iter().filter(|claim| claim.origin.is_some());
    lands.all(|claim| matches!(claim.reason, Reason::JoistsPassOver { .. }))
}

/// A wall may end between two joists: what lands on its last joist reaches to its end.
fn close_ends(storey: &Storey<'_>, length: f64, claims: &mut [Claim]) {
    let spacing = storey.level.fields.iter().map(|field| field.spacing.feet().0).fold(0.0, f64::max);
    for claim in claims.iter_mut().filter(|claim| claim.origin.is_some()) {
        if claim.start < spacing - EPS {
            claim.start = 0.0;
        }
        if claim.end > length - spacing + EPS {
            claim.end = length;
        }
    }
}

/// The role of a place on which no load is known to land along its length, with the reasons.
fn judge(storey: &Storey<'_>, wall: &Wall, here: &[&Claim], at: f64) -> (Role, Vec<Reason>) {
    let mut reasons = by_weight(here);
    let against = overhead(storey, wall, at);
    let holds = here.iter().any(|claim| is_claim(&claim.reason));
    let near = here.iter().any(|claim| matches!(claim.reason, Reason::WallNearStandsOn { .. }));
    reasons.extend(against.iter().filter(|reason| !reasons.contains(reason)).copied().collect::<Vec<_>>());
    let open = reasons.iter().any(|reason| !reason.speaks_against() && !is_claim(reason));
    let role = match (holds, near || open) {
        (true, _) => Role::HoldsPoint,
        (false, true) => Role::NeedsALook,
        (false, false) => Role::NothingFound,
    };
    (role, reasons)
}

const fn is_claim(reason: &Reason) -> bool {
    matches!(
        reason,
        Reason::BeamRestsOn { .. }
            | Reason::PostStandsOn { .. }
            | Reason::TrimmerRestsOn { .. }
            | Reason::StudPackIn { .. }
            | Reason::RidgeRestsOn { .. }
            | Reason::HipRestsOn { .. }
            | Reason::ValleyRestsOn { .. }
    )
}

/// The reasons of some claims: roof before floor before ceiling before points, each once.
fn by_weight(claims: &[&Claim]) -> Vec<Reason> {
    let mut sorted: Vec<&Claim> = claims.to_vec();
    sort_by_weight(&mut sorted);
    let mut reasons: Vec<Reason> = Vec::new();
    for claim in sorted {
        give(&mut reasons, claim.reason);
    }
    reasons
}

fn sort_by_weight(claims: &mut [&Claim]) {
    claims.order_by(|a, b| {
        let key = |claim: &Claim| claim.origin.map_or(9, |origin| origin as u8);
        key(a).cmp(&key(b)).then(a.start.total_cmp(&b.start))
    });
}

/// Gives a reason once; of one wall above, at its nearest place.
fn give(reasons: &mut Vec<Reason>, reason: Reason) {
    let merged = reasons.iter_mut().any(|known| match (known, reason) {
        (Reason::WallNearStandsOn { upper, offset }, Reason::WallNearStandsOn { upper: same, offset: here })
        | (Reason::WallStandsOn { upper, offset }, Reason::WallStandsOn { upper: same, offset: here })
            if *upper == same =>
        {
            *offset = offset.min(here);
            true
        }
        (known, reason) => *known == reason,
    });
    if !merged {
        reasons.push(reason);
    }
}

/// Where along a wall the regions of fields and roofs begin and end.
fn region_edges(storey: &Storey<'_>, wall: &Wall, length: f64) -> Vec<f64> {
    let around = storey.around;
    let within = extent([wall.a.into(), wall.b.into()]);
    let regions =
        around.fields(&within).map(|field| &field.region).chain(around.roofs(&within).map(|roof| &roof.region));
    let mut edges = Vec::new();
    for polygon in regions.filter(|region| **region != Region::Outline).flat_map(|it| storey.around.polygons(it)) {
        let next = polygon.iter().cycle().skip(1);
        for (a, b) in polygon.iter().zip(next) {
            if let Some(at) = geometry::crossing((wall.a, wall.b), (*a, *b)) {
                let at = geometry::length(wall.a, at).0;
                if at > EPS && at < length - EPS {
                    edges.push(at);
                }
            }
        }
    }
    edges
}

/// What is stated over a place of a wall on which nothing is known to land.
fn overhead(storey: &Storey<'_>, wall: &Wall, at: f64) -> Vec<Reason> {
    let mut reasons = Vec::new();
    if wall.make != Make::Stud {
        reasons.push(Reason::InsideMasonry);
    }
    match wall.top {
        Top::Gap => reasons.push(Reason::GapSeen),
        Top::Bare => reasons.push(Reason::LookedAlong),
        Top::Tight => {}
    }
    if wall.top != Top::Tight {
        return reasons;
    }
    let distance = Ticks::from_decimal_feet(Feet(at)).unwrap_or_default();
    let Some(place) = geometry::along(wall.a, wall.b, distance) else { return reasons };
    let Some(own) = Frame::between(wall.a, wall.b) else { return reasons };
    let mut covered = false;
    for field in fields_over(storey, place, &own) {
        covered = true;
        let square = own.squareness(&Frame::of(field.along));
        if square > 0.05 {
            // They cross it, and yet none lands: too short, or between two joists.
            reasons.push(Reason::JoistsEndNear { field: field.id });
        } else {
            reasons.push(Reason::JoistsRunAlong { field: field.id });
        }
        if field.known > Grade::Seen {
            reasons.push(Reason::DirectionNotSeen { field: field.id, known: field.known });
        }
    }
    let covering = roofs::over(storey, place);
    let top = storey.plan.level_above(storey.level.id).is_none_or(|above| above.walls.is_empty());
    for roof in storey.level.roofs.iter().filter(|roof| covering.contains(&roof.id)) {
        let id = roof.id;
        let seen = roof.known <= Grade::Seen;
        match roof.frame {
            RoofFrame::NotSeen => reasons.push(Reason::RoofFrameNotSeen { roof: id }),
            _ if !seen => reasons.push(Reason::RoofFrameNotSeen { roof: id }),
            RoofFrame::OverFramed => {}
            RoofFrame::RidgeBoard if roof.is_too_flat_for_a_board() => {
                reasons.push(Reason::RidgeMayLeanOn { roof: id });
            }
            RoofFrame::RidgeBoard | RoofFrame::RidgeBeam => reasons.push(Reason::RoofGoesToEaves { roof: id }),
            RoofFrame::Trusses { make, webs } => {
                covered = true;
                match (make, webs) {
                    (_, Webs::Cut) => reasons.push(Reason::TrussWebCut { roof: id }),
                    (TrussMake::SiteBuilt, _) => reasons.push(Reason::TrussesSiteBuilt { roof: id }),
                    (TrussMake::InsideBearing, _) => reasons.push(Reason::TrussesBearInside { roof: id }),
                    (TrussMake::NotSeen, _) => reasons.push(Reason::TrussesNotLookedAt { roof: id }),
                    (TrussMake::MetalPlates, _) => reasons.push(Reason::TrussesPassOver { roof: id }),
                }
            }
        }
    }
    let near = |at: Spot, reach: f64| geometry::apart(at, Spot::from(place)).0 <= reach;
    for (reason, at) in &storey.open_tops {
        if near(*at, BRACE) && !reasons.contains(reason) {
            reasons.push(*reason);
        }
    }
    for end in storey.open_ends.iter().filter(|end| !end.looked) {
        if end.run_on(storey.level, wall).is_some_and(|(from, to)| from <= at && at <= to) {
            reasons.push(Reason::EndMayStandOn { end: end.of.called() });
        }
    }
    for purlin in storey.level.purlins.iter().filter(|it| it.feet.is_none()) {
        let Some(frame) = Frame::between(purlin.a, purlin.b) else { continue };
        let ((start, line), (t, s)) = (frame.local(Spot::from(purlin.a)), frame.local(Spot::from(place)));
        let past = (start - t).max(t - start - geometry::length(purlin.a, purlin.b));
        if (s - line).abs().0 <= BRACE && past.0 <= BRACE {
            reasons.push(Reason::PurlinMayLeanOn { purlin: purlin.id });
        }
    }
    if !covered || (top && covering.is_empty()) {
        reasons.push(Reason::NothingStatedOverhead);
    }
    reasons
}

/// The fields over a place, seen from both faces of the wall there: they may differ.
fn fields_over<'a>(storey: &Storey<'a>, place: Point, own: &Frame) -> Vec<&'a JoistField> {
    let (t, s) = own.local(Spot::from(place));
    let mut fields: Vec<&JoistField> = Vec::new();
    for side in [-0.25, 0.25] {
        let spot = own.spot(t, Feet(s.0 + side));
        let (x, y) = (Ticks::from_decimal_feet(spot.x), Ticks::from_decimal_feet(spot.y));
        let (Some(x), Some(y)) = (x, y) else { continue };
        let at = Point::new(x, y);
        let covers = |field: &&JoistField| {
            let polygons = storey.around.polygons(&field.region);
            polygons.iter().any(|it| geometry::position(it, at) != Position::Outside)
        };
        if let Some(field) = storey.around.fields(&extent([at.into()])).rev().find(covers)
            && fields.iter().all(|it| it.id != field.id)
        {
            fields.push(field);
        }
    }
    fields
}
