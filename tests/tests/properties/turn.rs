//! A plan turned over or around or moved, and whether its trace is the trace turned the same way.
//!
//! Lists whose order follows the laying (joists from the west, say) are compared as sets, line loads and feeds as what
//! they are at each place. All else is compared number by number.

use joistwise_core::geometry::{Frame, Spot};
use joistwise_core::plan::{FootingShape, Plan, PlanFile, Point, Region, Wall, Way};
use joistwise_core::trace::{Feed, LinePart, RibKind, RibTrace, Trace};
use joistwise_core::units::{Feet, Ticks};
use serde_json::Value;

/// A turn of the plan: where one foot east and one foot north go, and how many ticks it is moved after.
#[derive(Clone, Copy, Debug)]
pub(super) struct Turn {
    east: (i32, i32),
    north: (i32, i32),
    by: (i32, i32),
}

/// East becomes west.
pub(super) const OVER_Y: Turn = Turn { east: (-1, 0), north: (0, 1), by: (0, 0) };
/// North becomes south.
pub(super) const OVER_X: Turn = Turn { east: (1, 0), north: (0, -1), by: (0, 0) };
/// A quarter to the left.
pub(super) const QUARTER: Turn = Turn { east: (0, 1), north: (-1, 0), by: (0, 0) };

impl Turn {
    /// Not turned, only moved, by ticks.
    pub(super) const fn moved(dx: i32, dy: i32) -> Self {
        Self { east: (1, 0), north: (0, 1), by: (dx, dy) }
    }

    fn left_becomes_right(self) -> bool {
        self.east.0 * self.north.1 - self.east.1 * self.north.0 < 0
    }

    fn point(self, at: Point) -> Point {
        let turn = |x: i32, y: i32| {
            Point::new(
                Ticks::new(x * self.east.0 + y * self.north.0 + self.by.0),
                Ticks::new(x * self.east.1 + y * self.north.1 + self.by.1),
            )
        };
        turn(at.x.get(), at.y.get())
    }

    fn way(self, way: Way) -> Way {
        let (x, y) = way.parts();
        Way::new(x * self.east.0 + y * self.north.0, x * self.east.1 + y * self.north.1)
    }

    /// Where a spot of the turned plan was before.
    fn back(self, at: &mut Spot) {
        let (x, y) = ((at.x - Ticks::new(self.by.0).feet()).0, (at.y - Ticks::new(self.by.1).feet()).0);
        let part = |to: (i32, i32)| x * f64::from(to.0) + y * f64::from(to.1);
        let (x, y) = (part(self.east), part(self.north));
        *at = Spot { x: Feet(x), y: Feet(y) };
    }

    /// The plan turned.
    pub(super) fn plan(self, plan: &Plan) -> Plan {
        turned(plan, |at| self.point(at), |way| self.way(way))
    }

    /// The trace of a turned plan, as if it had been turned back.
    fn trace_back(self, trace: &mut Trace) {
        let feeds =
            trace.walls.iter_mut().map(|it| &mut it.feeds).chain(trace.beams.iter_mut().map(|it| &mut it.feeds));
        if self.left_becomes_right() {
            feeds.flatten().for_each(|feed| core::mem::swap(&mut feed.left, &mut feed.right));
        }
        for member in &mut trace.members {
            let all = [&mut member.a, &mut member.b].into_iter().chain(&mut member.bears).chain(&mut member.laps);
            all.for_each(|spot| self.back(spot));
        }
        for rib in trace.roofs.iter_mut().flat_map(|it| &mut it.ribs) {
            if self.left_becomes_right() {
                rib.feeds.iter_mut().for_each(|feed| core::mem::swap(&mut feed.left, &mut feed.right));
            }
            let struts = rib.struts.iter_mut().flat_map(|it| [&mut it.head, &mut it.foot]);
            [&mut rib.a, &mut rib.b].into_iter().chain(struts).for_each(|spot| self.back(spot));
        }
        trace.headers.iter_mut().flat_map(|it| [&mut it.a, &mut it.b]).for_each(|spot| self.back(spot));
        trace.findings.iter_mut().for_each(|finding| self.back(&mut finding.at));
    }
}

/// A plan with every place and way moved.
pub(super) fn turned(plan: &Plan, point: impl Fn(Point) -> Point, way: impl Fn(Way) -> Way) -> Plan {
    moved(plan, point, way).expect("as sound as before")
}

/// The same where the moves may leave a house that does not hold together.
pub(super) fn moved(plan: &Plan, point: impl Fn(Point) -> Point, way: impl Fn(Way) -> Way) -> Option<Plan> {
    let mut file = PlanFile::from(plan);
    let go = |at: &mut Point| *at = point(*at);
    for level in &mut file.levels {
        level.walls.iter_mut().flat_map(|it| [&mut it.a, &mut it.b]).for_each(go);
        level.beams.iter_mut().flat_map(|it| [&mut it.a, &mut it.b]).for_each(go);
        level.posts.iter_mut().for_each(|it| go(&mut it.at));
        level.floor_openings.iter_mut().flat_map(|it| &mut it.corners).for_each(go);
        for footing in &mut level.footings {
            match &mut footing.shape {
                FootingShape::Pad { at, .. } => go(at),
                FootingShape::Strip { a, b, .. } => [a, b].into_iter().for_each(go),
            }
        }
        level.things.iter_mut().flat_map(|it| &mut it.corners).for_each(go);
        level.purlins.iter_mut().flat_map(|it| [&mut it.a, &mut it.b].into_iter().chain(&mut it.feet)).for_each(go);
        level.roofs.iter_mut().flat_map(|it| it.ridge_at.iter_mut().chain(&mut it.long_valley)).for_each(go);
        let openings = level.roofs.iter_mut().flat_map(|it| &mut it.openings);
        openings.flat_map(|it| [&mut it.from, &mut it.to]).for_each(go);
        let fields = level.fields.iter_mut().map(|it| (&mut it.region, &mut it.along));
        for (region, along) in fields.chain(level.roofs.iter_mut().map(|it| (&mut it.region, &mut it.ridge))) {
            *along = way(*along);
            if let Region::Corners(corners) = region {
                corners.iter_mut().for_each(go);
            }
        }
    }
    Plan::try_from(file).ok()
}

/// Whether it could be built: no two walls in one place along each other, no roof smaller than a dormer's.
///
/// Where two bodies are in one place nobody can say which of them holds what lands there.
pub(super) fn could_be_built(plan: &Plan) -> bool {
    plan.levels().iter().all(|level| {
        let apart = |(at, wall): (usize, &Wall)| level.walls.iter().skip(at + 1).all(|it| !in_one_place(wall, it));
        let regions = level.roofs.iter().flat_map(|roof| level.polygons(&roof.region));
        level.walls.iter().enumerate().all(apart) && regions.into_iter().all(|it| least_width(&it) >= Feet(3.0))
    })
}

fn in_one_place(one: &Wall, other: &Wall) -> bool {
    let (Some(frame), Some(way)) = (Frame::between(one.a, one.b), Frame::between(other.a, other.b)) else {
        return false;
    };
    let (mine, theirs) = ([one.a, one.b], [other.a, other.b]);
    let [[a, b], [c, d]] = [mine, theirs].map(|it| it.map(|end| frame.local(end.into())));
    let along = a.0.min(b.0) < c.0.max(d.0) && c.0.min(d.0) < a.0.max(b.0);
    let bodies = (one.thickness.feet() + other.thickness.feet()) / 2.0;
    frame.squareness(&way) < 0.3 && along && (c.1 - a.1).abs().min((d.1 - a.1).abs()) < bodies
}

/// The shorter side of the box round some corners.
fn least_width(corners: &[Point]) -> Feet {
    let span = |of: fn(&Point) -> Ticks| {
        let all = || corners.iter().map(of);
        all().max().zip(all().min()).map_or(Feet::ZERO, |(most, least)| (most - least).feet())
    };
    span(|it| it.x).min(span(|it| it.y))
}

/// How the trace of a turned plan differs from the trace turned; nothing if it does not.
pub(super) fn differs(turn: Turn, before: &Trace, after: &Trace) -> Result<(), String> {
    let (mut before, mut after) = (before.clone(), after.clone());
    turn.trace_back(&mut after);
    let scale = before.ledger.applied.all().0.abs().max(1.0);
    for (a, b) in before.walls.iter().zip(&after.walls) {
        let name = format!("wall {}", a.wall.number());
        same_line(&a.line, &b.line, scale).map_err(|why| format!("{name} line load: {why}"))?;
        same_feeds(&a.feeds, &b.feeds).map_err(|why| format!("{name} feeds: {why}"))?;
    }
    for (a, b) in before.beams.iter().zip(&after.beams) {
        let name = format!("beam {}", a.beam.number());
        same_line(&a.line, &b.line, scale).map_err(|why| format!("{name} line load: {why}"))?;
        same_feeds(&a.feeds, &b.feeds).map_err(|why| format!("{name} feeds: {why}"))?;
    }
    for trace in [&mut before, &mut after] {
        in_one_order(trace);
    }
    let value = |trace: &Trace| serde_json::to_value(trace).expect("a trace is JSON");
    same(&value(&before), &value(&after), scale).map_err(|(path, why)| format!("{}: {why}", path.join(" < ")))
}

/// Lists in an order that does not hang on where the laying began.
fn in_one_order(trace: &mut Trace) {
    // Off the middle of any round figure, so that rounding splits no tie.
    let key = |feet: Feet| ((feet.0 + 1.234e-6) * 1e5).round();
    let place = |spot: &Spot| (key(spot.x), key(spot.y));
    let by_place = |a: &Spot, b: &Spot| place(a).partial_cmp(&place(b)).expect("numbers");
    for wall in &mut trace.walls {
        wall.line.clear();
        wall.feeds.clear();
        wall.points.sort_by(|a, b| (a.from, key(a.at)).partial_cmp(&(b.from, key(b.at))).expect("numbers"));
        for stretch in &mut wall.stretches {
            stretch.reasons.sort_by_key(|reason| format!("{reason:.3?}"));
        }
    }
    for beam in &mut trace.beams {
        beam.line.clear();
        beam.feeds.clear();
        beam.points.sort_by(|a, b| (a.from, key(a.at)).partial_cmp(&(b.from, key(b.at))).expect("numbers"));
    }
    trace.posts.iter_mut().for_each(|post| post.from.sort_by_key(|(node, _)| *node));
    for rib in trace.roofs.iter_mut().flat_map(|it| &mut it.ribs) {
        rib.line.clear();
        rib.feeds.clear();
        rib.points.clear();
        if matches!(rib.kind, RibKind::Ridge | RibKind::Header) && by_place(&rib.a, &rib.b).is_gt() {
            let length = rib.length();
            core::mem::swap(&mut rib.a, &mut rib.b);
            rib.rests.iter_mut().for_each(|rest| rest.at = length - rest.at);
        }
        rib.rests.sort_by(|a, b| key(a.at).total_cmp(&key(b.at)));
        rib.struts.sort_by(|a, b| by_place(&a.head, &b.head));
    }
    for roof in &mut trace.roofs {
        let key = |it: &RibTrace| (it.purlin, place(&it.a), place(&it.b));
        roof.ribs.sort_by(|a, b| key(a).partial_cmp(&key(b)).expect("numbers"));
    }
    for header in &mut trace.headers {
        if by_place(&header.a, &header.b).is_gt() {
            core::mem::swap(&mut header.a, &mut header.b);
            core::mem::swap(&mut header.at_a, &mut header.at_b);
            core::mem::swap(&mut header.under_a, &mut header.under_b);
        }
    }
    trace.headers.sort_by(|a, b| {
        (a.level, a.opening, place(&a.a)).partial_cmp(&(b.level, b.opening, place(&b.a))).expect("numbers")
    });
    for member in &mut trace.members {
        if by_place(&member.a, &member.b).is_gt() {
            core::mem::swap(&mut member.a, &mut member.b);
        }
        member.bears.sort_by(by_place);
        member.laps.sort_by(by_place);
    }
    trace.members.sort_by(|a, b| {
        let key = |it: &joistwise_core::trace::Laid| {
            (it.level, it.of, place(&it.a), place(&it.b), format!("{:?}", it.laid_as), key(it.longest_span))
        };
        key(a).partial_cmp(&key(b)).expect("numbers")
    });
    // Where the first of several members lies is where the laying began.
    trace.findings.iter_mut().for_each(|finding| finding.at = Spot::default());
    trace.findings.sort_by_key(|finding| (finding.level, format!("{:.3?}", finding.problem)));
}

fn near(a: f64, b: f64, scale: f64) -> bool {
    (a - b).abs() <= 1e-7 * a.abs().max(1.0) + 1e-9 * scale
}

/// Number by number; the path to the first difference, innermost first.
fn same(a: &Value, b: &Value, scale: f64) -> Result<(), (Vec<String>, String)> {
    let here = |why: String| Err((Vec::new(), why));
    match (a, b) {
        (Value::Number(x), Value::Number(y)) => {
            let (x, y) = (x.as_f64().expect("finite"), y.as_f64().expect("finite"));
            if near(x, y, scale) { Ok(()) } else { here(format!("{x} became {y}")) }
        }
        (Value::Array(x), Value::Array(y)) => {
            if x.len() != y.len() {
                return here(format!("{} became {}: {a} {b}", x.len(), y.len()));
            }
            for (number, (x, y)) in x.iter().zip(y).enumerate() {
                same(x, y, scale).map_err(|(mut path, why)| {
                    path.push(format!(
                        "{number} {}",
                        x.get("wall").or(x.get("beam")).or(x.get("post")).unwrap_or(&Value::Null)
                    ));
                    (path, why)
                })?;
            }
            Ok(())
        }
        (Value::Object(x), Value::Object(y)) => {
            for (key, x) in x {
                same(x, y.get(key).unwrap_or(&Value::Null), scale).map_err(|(mut path, why)| {
                    path.push(key.clone());
                    (path, why)
                })?;
            }
            Ok(())
        }
        _ if a == b => Ok(()),
        _ => here(format!("{a} became {b}")),
    }
}

/// Places at which either of two lists changes.
fn middles(stops: impl Iterator<Item = Feet>) -> Vec<Feet> {
    let mut stops: Vec<f64> = stops.map(|feet| feet.0).collect();
    stops.sort_by(f64::total_cmp);
    stops.windows(2).filter(|pair| pair[1] - pair[0] > 1e-4).map(|pair| Feet((pair[0] + pair[1]) / 2.0)).collect()
}

fn same_line(a: &[LinePart], b: &[LinePart], scale: f64) -> Result<(), String> {
    let at = |line: &[LinePart], place: Feet| {
        line.iter()
            .filter(|it| it.start < place && place < it.end)
            .map(|it| it.loads)
            .reduce(|a, b| a + b)
            .unwrap_or_default()
    };
    for place in middles(a.iter().chain(b).flat_map(|it| [it.start, it.end])) {
        let (x, y) = (at(a, place), at(b, place));
        for kind in joistwise_core::loads::Kind::ALL {
            if !near(x.get(kind).0, y.get(kind).0, scale) {
                return Err(format!("{kind:?} at {} ft: {:?} became {:?}", place.0, x.get(kind), y.get(kind)));
            }
        }
    }
    Ok(())
}

fn same_feeds(a: &[Feed], b: &[Feed]) -> Result<(), String> {
    let mut sources: Vec<_> = a.iter().chain(b).map(|it| (it.from, it.through, it.origin)).collect();
    sources.sort();
    sources.dedup();
    for source in sources {
        let of = |feeds: &[Feed]| -> Vec<Feed> {
            feeds.iter().filter(|it| (it.from, it.through, it.origin) == source).copied().collect()
        };
        let (a, b) = (of(a), of(b));
        let reaction = |feeds: &[Feed]| feeds.iter().map(|it| it.effective.0 * (it.end - it.start).0).sum::<f64>();
        if !near(reaction(&a), reaction(&b), 1e3) {
            return Err(format!("{source:?}: square feet {} became {}", reaction(&a), reaction(&b)));
        }
        let at = |feeds: &[Feed], place: Feet| {
            let here = feeds.iter().filter(|it| it.start < place && place < it.end);
            here.fold((0.0, 0.0), |sum, it| (sum.0 + it.left.0, sum.1 + it.right.0))
        };
        for place in middles(a.iter().chain(&b).flat_map(|it| [it.start, it.end])) {
            let ((left, right), after) = (at(&a, place), at(&b, place));
            if !near(left, after.0, 1e3) || !near(right, after.1, 1e3) {
                return Err(format!("{source:?} at {} ft: {left} + {right} became {} + {}", place.0, after.0, after.1));
            }
        }
    }
    Ok(())
}
