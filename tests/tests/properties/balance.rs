//! Sums that must come out: at each place on the path, over the house, against the areas and lengths of the plan.

use geo::algorithm::line_intersection::{LineIntersection, line_intersection};
use geo::coordinate_position::{CoordPos, CoordinatePosition};
use geo::{Area, BooleanOps, Coord, Line, LineString, MultiPolygon, Polygon, Winding};
use joistwise_core::geometry;
use joistwise_core::loads::{AreaLoads, Kind, Weights, deck_dead, live, roof_dead, wall_dead};
use joistwise_core::plan::{JoistField, Level, Make, Over, Plan, Point, Roof, RoofForm, RoofFrame, Side};
use joistwise_core::trace::{LinePart, Node, RibKind, Trace};
use joistwise_core::units::{Feet, Pounds, Psf, Ticks};
use std::collections::BTreeMap;

fn sum(all: impl IntoIterator<Item = Weights>) -> Weights {
    all.into_iter().fold(Weights::default(), |sum, one| sum + one)
}

fn equal(what: &str, a: Weights, b: Weights, tolerance_lb: f64) -> Result<(), String> {
    for kind in Kind::ALL {
        let (a, b) = (a.get(kind).0, b.get(kind).0);
        let off = (a - b).abs();
        if off.is_nan() || off > tolerance_lb {
            return Err(format!("{what}, {kind:?}: {a} lb against {b} lb"));
        }
    }
    Ok(())
}

fn on_line(parts: &[LinePart]) -> Weights {
    sum(parts.iter().map(|part| part.loads * (part.end - part.start)))
}

/// The ledger, each level of it, the ends of all links, and what comes in and goes out at each place.
pub(super) fn closes(plan: &Plan, trace: &Trace) -> Result<(), String> {
    let tolerance = 1e-9 * trace.ledger.applied.all().0.max(1.0) + 1e-9;
    let lands = |node: Node| matches!(node, Node::Ground | Node::Footing(_) | Node::Gap);
    let ends = trace.links.iter().filter(|link| lands(link.to)).map(|link| link.weights);
    equal("links into ground and gaps", sum(ends), trace.ledger.applied, tolerance)?;

    let (mut into, mut out): (BTreeMap<Node, Weights>, BTreeMap<Node, Weights>) = Default::default();
    for link in &trace.links {
        *out.entry(link.from).or_default() += link.weights;
        *into.entry(link.to).or_default() += link.weights;
    }
    let of = |map: &BTreeMap<Node, Weights>, node| map.get(&node).copied().unwrap_or_default();
    for wall in &trace.walls {
        let node = Node::Wall(wall.wall);
        let name = format!("wall {}", wall.wall.number());
        let top = on_line(&wall.line) + sum(wall.points.iter().map(|it| it.weights));
        equal(&format!("{name}: its line and points"), top, wall.top, tolerance)?;
        equal(&format!("{name}: links in"), of(&into, node), wall.top, tolerance)?;
        equal(&format!("{name}: links out"), of(&out, node), wall.top + wall.own, tolerance)?;
    }
    for beam in &trace.beams {
        let node = Node::Beam(beam.beam);
        let name = format!("beam {}", beam.beam.number());
        let top = on_line(&beam.line) + sum(beam.points.iter().map(|it| it.weights));
        let gap = sum(trace.links.iter().filter(|it| it.from == node && it.to == Node::Gap).map(|it| it.weights));
        equal(&format!("{name}: its line and points"), top, beam.top, tolerance)?;
        equal(&format!("{name}: links in"), of(&into, node), beam.top, tolerance)?;
        equal(&format!("{name}: links out"), of(&out, node), beam.top, tolerance)?;
        equal(&format!("{name}: its rests"), sum(beam.rests.iter().map(|it| it.weights)) + gap, beam.top, tolerance)?;
    }
    for post in &trace.posts {
        let node = Node::Post(post.post);
        let name = format!("post {}", post.post.number());
        equal(&format!("{name}: what stands on it"), sum(post.from.iter().map(|it| it.1)), post.top, tolerance)?;
        equal(&format!("{name}: links in"), of(&into, node), post.top, tolerance)?;
        equal(&format!("{name}: links out"), of(&out, node), post.top, tolerance)?;
    }
    for level in plan.levels() {
        for opening in &level.floor_openings {
            let node = Node::FloorOpening(opening.id);
            let name = format!("headers of {}", opening.id.number());
            let ends = trace.headers.iter().filter(|it| it.opening == opening.id).map(|it| it.at_a + it.at_b);
            equal(&format!("{name}: in and out"), of(&into, node), of(&out, node), tolerance)?;
            equal(&format!("{name}: their ends"), sum(ends), of(&out, node), tolerance)?;
        }
    }
    let off = trace.ledger.worst_share_off();
    if off < 1e-9 { Ok(()) } else { Err(format!("the ledger is off by {off}: {:?}", trace.ledger)) }
}

/// Areas by a polygon clipper that the trace does not use, times psf; the clipper works on a grid, so 1e-6 of all.
pub(super) fn is_applied(plan: &Plan, trace: &Trace) -> Result<(), String> {
    let mut all = Weights::default();
    for level in plan.levels() {
        let mut expected = Weights::default();
        for (number, field) in level.fields.iter().enumerate() {
            let later = level.fields.iter().skip(number + 1).map(|it| shape(&level.polygons(&it.region)));
            let holes = level.floor_openings.iter().map(|it| shape(std::slice::from_ref(&it.corners)));
            let own = later.chain(holes).fold(shape(&level.polygons(&field.region)), |left, it| left.difference(&it));
            expected += over(&field_psf(field), own.unsigned_area());
        }
        for (number, roof) in level.roofs.iter().enumerate() {
            expected += roof_weight(plan, level, number, roof);
            expected += dormer_walls(trace, roof);
        }
        for thing in &level.things {
            expected += Weights::only(thing.kind.load(), thing.weighs().unwrap_or_default());
        }
        for wall in &level.walls {
            let psf = wall_dead(wall.side, wall.make, wall.thickness).value;
            let dead = psf * level.height_of(wall).feet() * geometry::length(wall.a, wall.b);
            expected += Weights { dead, ..Weights::default() };
        }
        all += expected;
        let row = trace.ledger.rows.iter().find(|row| row.level == level.id).ok_or("no row")?;
        equal(&format!("put on {}", level.name), row.own, expected, 1e-6 * expected.all().0.max(1.0))?;
    }
    equal("applied", trace.ledger.applied, all, 1e-6 * all.all().0.max(1.0))
}

fn over(psf: &AreaLoads, square_feet: f64) -> Weights {
    psf.map(|psf| Pounds(psf.0 * square_feet))
}

fn field_psf(field: &JoistField) -> AreaLoads {
    let dead = field.dead.unwrap_or(deck_dead(field.used_as).value);
    let people = live(field.used_as).value;
    let (floor, attic) = if field.used_as.is_ceiling() { (Psf(0.0), people) } else { (people, Psf(0.0)) };
    AreaLoads { dead, floor, attic, ..AreaLoads::default() }
}

/// The walls of dormers that are framed: a front and two triangles, as light as outside walls.
fn dormer_walls(trace: &Trace, roof: &Roof) -> Weights {
    let ribs = trace.roofs.iter().filter(|it| it.roof == roof.id).flat_map(|it| &it.ribs);
    let headers: Vec<(f64, f64)> = ribs
        .filter(|rib| rib.kind == RibKind::Header)
        .map(|rib| ((rib.a.x.0 + rib.b.x.0) / 2.0, (rib.a.y.0 + rib.b.y.0) / 2.0))
        .collect();
    let mut square_feet = 0.0;
    for opening in &roof.openings {
        // Along the ridge and square to it.
        let (rx, ry) = (f64::from(roof.ridge.parts().0), f64::from(roof.ridge.parts().1));
        let length = (rx * rx + ry * ry).sqrt();
        let local = |x: f64, y: f64| ((x * rx + y * ry) / length, (y * rx - x * ry) / length);
        let (a, b) = (coord(&opening.from), coord(&opening.to));
        let (a, b) = (local(a.x, a.y), local(b.x, b.y));
        let own = |at: &(f64, f64)| {
            let (along, across) = local(at.0, at.1);
            let on = |edge: f64| (across - edge).abs() < 1e-6;
            (along - (a.0 + b.0) / 2.0).abs() < 1e-6 && (on(a.1) || on(b.1))
        };
        let framed = headers.iter().any(own) && opening.over != Over::Glass;
        let (wide, long) = ((a.0 - b.0).abs(), (a.1 - b.1).abs());
        square_feet += if framed { opening.front.feet().0 * (wide + long) } else { 0.0 };
    }
    let psf = wall_dead(Side::Outside, Make::Stud, Ticks::ZERO).value;
    Weights { dead: Pounds(psf.0 * square_feet), ..Weights::default() }
}

/// Dead load follows the slope, all else the plan; a hip's eaves go round its corners.
fn roof_weight(plan: &Plan, level: &Level, number: usize, roof: &Roof) -> Weights {
    let on_slope = roof.dead.unwrap_or(roof_dead().value);
    let factor = |rise: f64| (1.0 + rise * rise).sqrt();
    let site = plan.site();
    let psf = |rise: f64| AreaLoads {
        dead: on_slope * factor(rise),
        roof_live: site.roof_live(),
        snow: site.roof_snow(rise),
        ..AreaLoads::default()
    };
    let rise = roof.rise.inches() / 12.0;
    let valley = valley(level, number);
    let mut polygons = level.polygons(&roof.region);
    let mut region = shape(&polygons);
    if let Some(own) = &valley {
        polygons = vec![own.footprint.clone()];
        region = shape(&polygons);
    }
    if roof.frame == RoofFrame::OverFramed {
        return over(&AreaLoads { dead: on_slope * factor(rise), ..AreaLoads::default() }, region.unsigned_area());
    }
    // A wing comes after its main roof, wherever it is drawn.
    let rank = |number: usize, valley: &Option<Valley>| {
        valley.as_ref().map_or((number, 0, number), |it| (number.max(it.main), 1, number))
    };
    let mut later: Vec<Vec<Point>> = Vec::new();
    let mut eaves: Vec<Vec<Point>> = Vec::new();
    for (other, it) in level.roofs.iter().enumerate() {
        let wing = self::valley(level, other);
        if it.frame != RoofFrame::OverFramed && other != number && rank(other, &wing) > rank(number, &valley) {
            match wing {
                Some(wing) => {
                    eaves.extend((wing.main == number).then_some(wing.under_eaves));
                    later.push(wing.footprint);
                }
                None => later.extend(level.polygons(&it.region)),
            }
        }
    }
    // Along its valleys a wing has no eaves.
    eaves.extend(valley.iter().map(|it| it.inside.clone()));
    let left = |whole: MultiPolygon<f64>| {
        later.iter().fold(whole, |left, it| left.difference(&shape(std::slice::from_ref(it))))
    };
    let local = |at: Coord<f64>| {
        let (rx, ry) = roof.ridge.parts();
        let (rx, ry) = (f64::from(rx), f64::from(ry));
        let length = (rx * rx + ry * ry).sqrt();
        ((at.x * rx + at.y * ry) / length, (at.y * rx - at.x * ry) / length)
    };
    let corners: Vec<(f64, f64)> = polygons.iter().flatten().map(|at| local(coord(at))).collect();
    let extent = |of: fn(&(f64, f64)) -> f64| {
        corners.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(it), hi.max(it)))
    };
    let ((s0, s1), (t0, t1)) = (extent(|it| it.0), extent(|it| it.1));
    let out = roof.overhang.feet().0;
    let back = |s: f64, t: f64| {
        let (rx, ry) = roof.ridge.parts();
        let (rx, ry) = (f64::from(rx), f64::from(ry));
        let length = (rx * rx + ry * ry).sqrt();
        Coord { x: (s * rx - t * ry) / length, y: (s * ry + t * rx) / length }
    };
    let rectangle = |s0: f64, s1: f64, t0: f64, t1: f64| {
        let corners = vec![back(s0, t0), back(s1, t0), back(s1, t1), back(s0, t1)];
        MultiPolygon::new(vec![Polygon::new(LineString::new(corners), Vec::new())])
    };
    let boxed = polygons.len() == 1 && corners.len() == 4 && {
        let on = |value: f64, (lo, hi): (f64, f64)| (value - lo).abs() < 0.01 || (value - hi).abs() < 0.01;
        corners.iter().all(|it| on(it.0, (s0, s1)) && on(it.1, (t0, t1)))
    };
    if roof.form == RoofForm::Hip && boxed {
        return over(&psf(rise), left(rectangle(s0 - out, s1 + out, t0 - out, t1 + out)).unsigned_area());
    }
    // The slopes across: where each begins and ends, and how much it rises over a run of one.
    let middle = (t0 + t1) / 2.0;
    let stated = roof.ridge_at.map(|at| local(coord(&at)).1);
    let ridge = stated.filter(|t| *t > t0 + 1e-6 && *t < t1 - 1e-6).unwrap_or(middle);
    let (long, short) = ((ridge - t0).max(t1 - ridge), (ridge - t0).min(t1 - ridge));
    let steep = rise * long / short;
    let (near, far) = if ridge - t0 >= t1 - ridge { (rise, steep) } else { (steep, rise) };
    let parts = match roof.form {
        RoofForm::Shed => vec![(t0, t1, rise)],
        RoofForm::Gable | RoofForm::Hip => vec![(t0, ridge, near), (ridge, t1, far)],
        RoofForm::Gambrel { lower_run, upper_rise } => {
            let run = lower_run.feet().0.min(0.9 * short);
            let upper = upper_rise.inches() / 12.0 * (long - run);
            vec![
                (t0, t0 + run, rise),
                (t0 + run, ridge, upper / (ridge - t0 - run)),
                (ridge, t1 - run, upper / (t1 - run - ridge)),
                (t1 - run, t1, rise),
            ]
        }
    };
    let kept = left(region.clone());
    let mut weight = Weights::default();
    for (from, to, rise) in &parts {
        weight += over(&psf(*rise), kept.intersection(&rectangle(s0 - 1.0, s1 + 1.0, *from, *to)).unsigned_area());
    }
    // What hangs over: each side of the region seen along the rafters, but where another roof is at it.
    let (first, last) = (parts.first().expect("one").2, parts.last().expect("one").2);
    let plain = |corners: &Vec<Point>| {
        let mut polygon = Polygon::new(LineString::new(corners.iter().map(coord).collect()), Vec::new());
        polygon.exterior_mut(LineString::make_ccw_winding);
        polygon
    };
    let taken: Vec<Polygon<f64>> = later.iter().chain(&eaves).map(plain).collect();
    for polygon in polygons.iter().map(plain) {
        for side in polygon.exterior().lines() {
            for piece in clear(side, &taken) {
                let (a, b) = (local(piece.start), local(piece.end));
                // Corners go round to the left, so the side on which t is least runs with s.
                let rise = if a.0 < b.0 { first } else { last };
                weight += over(&psf(rise), (a.0 - b.0).abs() * out);
            }
        }
    }
    weight
}

/// Two gables that meet in valleys, from the plan alone: only where both lie along the sheet, as all that the houses draw.
struct Valley {
    main: usize,
    /// What the wing covers.
    footprint: Vec<Point>,
    /// Where the main roof has no eave: along the wing and under its overhang.
    under_eaves: Vec<Point>,
    /// The part of the main roof beside the valleys.
    inside: Vec<Point>,
}

fn valley(level: &Level, number: usize) -> Option<Valley> {
    let wing = level.roofs.get(number)?;
    if wing.meets.covers() {
        return None;
    }
    (0..level.roofs.len()).filter(|main| *main != number).find_map(|main| meet(level, wing, main))
}

fn meet(level: &Level, wing: &Roof, number: usize) -> Option<Valley> {
    let main = level.roofs.get(number)?;
    let framed = |roof: &Roof| {
        let rafters = [RoofFrame::NotSeen, RoofFrame::RidgeBoard, RoofFrame::RidgeBeam].contains(&roof.frame);
        roof.form == RoofForm::Gable && rafters
    };
    if !framed(wing) || !framed(main) || !main.meets.covers() {
        return None;
    }
    // With x along the main ridge and y square to it, in feet.
    let along_x = match (main.ridge.parts(), wing.ridge.parts()) {
        ((_, 0), (0, _)) => true,
        ((0, _), (_, 0)) => false,
        _ => return None,
    };
    let turned = |at: &Point| {
        let (x, y) = (at.x.feet().0, at.y.feet().0);
        if along_x { (x, y) } else { (y, x) }
    };
    let rectangle = |roof: &Roof| {
        let polygons = level.polygons(&roof.region);
        let [corners] = polygons.as_slice() else { return None };
        let all: Vec<(f64, f64)> = corners.iter().map(turned).collect();
        let extent = |of: fn(&(f64, f64)) -> f64| {
            all.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(it), hi.max(it)))
        };
        let (x, y) = (extent(|it| it.0), extent(|it| it.1));
        let on = |value: f64, (lo, hi): (f64, f64)| (value - lo).abs() < 0.01 || (value - hi).abs() < 0.01;
        (all.len() == 4 && all.iter().all(|it| on(it.0, x) && on(it.1, y))).then_some((x, y))
    };
    let ((mx, my), (wx, wy)) = (rectangle(main)?, rectangle(wing)?);
    let ridge = |roof: &Roof, (lo, hi): (f64, f64), of: fn((f64, f64)) -> f64| {
        let stated = roof.ridge_at.map(|at| of(turned(&at))).filter(|at| *at > lo + 1e-6 && *at < hi - 1e-6);
        let at = stated.unwrap_or((lo + hi) / 2.0);
        (at, roof.rise.inches() / 12.0 * (at - lo).max(hi - at))
    };
    let (main_ridge, main_height) = ridge(main, my, |it| it.1);
    let (top, height) = ridge(wing, wx, |it| it.0);
    let (eave, far, near, out) = match (wy.0 < my.0 - 0.01, wy.1 > my.1 + 0.01) {
        (true, false) => (my.0, wy.0, wy.1, -1.0),
        (false, true) => (my.1, wy.1, wy.0, 1.0),
        _ => return None,
    };
    let run = (eave - main_ridge).abs();
    let mut inward = run * height / main_height;
    // Within an eighth of an inch of the main ridge they meet it.
    if (inward - run).abs() < 1.0 / 96.0 + 1e-7 {
        inward = run;
    }
    if (near - eave) * out > 0.01 || wx.0 < mx.0 - 0.01 || wx.1 > mx.1 + 0.01 || inward > run {
        return None;
    }
    let apex = (top, eave - out * inward.min(run));
    let back = |(x, y): (f64, f64)| {
        let (x, y) = if along_x { (x, y) } else { (y, x) };
        joistwise_core::draft::at((x, y))
    };
    let overhang = wing.overhang.feet().0;
    let under = [(wx.0 - overhang, eave), (wx.1 + overhang, eave), (wx.1 + overhang, far), (wx.0 - overhang, far)];
    let footprint = [apex, (wx.0, eave), (wx.0, far), (wx.1, far), (wx.1, eave)];
    let inside = [(wx.0, eave), apex, (wx.1, eave), (wx.1, eave - 2.0 * out * run), (wx.0, eave - 2.0 * out * run)];
    Some(Valley {
        main: number,
        footprint: footprint.map(back).to_vec(),
        under_eaves: under.map(back).to_vec(),
        inside: inside.map(back).to_vec(),
    })
}

/// The pieces of a side that lie clear of some polygons.
fn clear(side: Line<f64>, polygons: &[Polygon<f64>]) -> Vec<Line<f64>> {
    let at = |share: f64| side.start + (side.end - side.start) * share;
    let share = |at: Coord<f64>| {
        let (way, to) = (side.end - side.start, at - side.start);
        (way.x * to.x + way.y * to.y) / (way.x * way.x + way.y * way.y)
    };
    let mut stops = vec![0.0, 1.0];
    for other in polygons.iter().flat_map(|it| it.exterior().lines()) {
        match line_intersection(side, other) {
            Some(LineIntersection::SinglePoint { intersection, .. }) => stops.push(share(intersection)),
            Some(LineIntersection::Collinear { intersection }) => {
                stops.extend([share(intersection.start), share(intersection.end)]);
            }
            None => {}
        }
    }
    stops.sort_by(f64::total_cmp);
    let outside = |at: Coord<f64>| polygons.iter().all(|it| !near(it, at));
    let pieces = stops.windows(2).filter(|pair| pair[1] - pair[0] > 1e-9 && outside(at((pair[0] + pair[1]) / 2.0)));
    pieces.map(|pair| Line::new(at(pair[0]), at(pair[1]))).collect()
}

/// Whether a place is in a polygon or, but for rounding, on its edge.
fn near(polygon: &Polygon<f64>, at: Coord<f64>) -> bool {
    let on = |line: Line<f64>| {
        let (way, to) = (line.end - line.start, at - line.start);
        let length = (way.x * way.x + way.y * way.y).sqrt();
        let (along, off) = ((way.x * to.x + way.y * to.y) / length, (way.x * to.y - way.y * to.x).abs() / length);
        off < 1e-6 && along > -1e-6 && along < length + 1e-6
    };
    polygon.coordinate_position(&at) != CoordPos::Outside || polygon.exterior().lines().any(on)
}

fn coord(at: &Point) -> Coord<f64> {
    Coord { x: at.x.feet().0, y: at.y.feet().0 }
}

fn shape(polygons: &[Vec<Point>]) -> MultiPolygon<f64> {
    let one = |corners: &Vec<Point>| Polygon::new(LineString::new(corners.iter().map(coord).collect()), Vec::new());
    let none = MultiPolygon::new(Vec::new());
    polygons.iter().map(one).fold(none, |all, it| all.xor(&MultiPolygon::new(vec![it])))
}

/// Stretches without gaps, parts in order, members with two ends, nothing that is not a number.
pub(super) fn tiles(plan: &Plan, trace: &Trace) -> Result<(), String> {
    for wall in &trace.walls {
        let name = format!("wall {}", wall.wall.number());
        let mut end = Feet::ZERO;
        for stretch in &wall.stretches {
            if (stretch.start - end).abs().0 > 1e-12 || stretch.end <= stretch.start {
                return Err(format!("{name}: a stretch from {:?} to {:?} after {end:?}", stretch.start, stretch.end));
            }
            if stretch.reasons.is_empty() && !matches!(stretch.role, joistwise_core::trace::Role::NothingFound) {
                return Err(format!("{name}: {:?} without a reason", stretch.role));
            }
            if let Some(twice) = twice(&stretch.reasons.iter().map(|it| format!("{it:.3?}")).collect::<Vec<_>>()) {
                return Err(format!("{name}: says twice {twice}"));
            }
            end = stretch.end;
        }
        if (end - wall.length).abs().0 > 1e-12 {
            return Err(format!("{name}: stretches end at {end:?} of {:?}", wall.length));
        }
        in_order(&name, &wall.line, wall.length)?;
        if wall.points.iter().any(|it| it.at < Feet::ZERO || it.at > wall.length) {
            return Err(format!("{name}: a point load past its ends"));
        }
        if let Some(twice) = twice(&wall.cautions.iter().map(|it| format!("{it:.3?}")).collect::<Vec<_>>()) {
            return Err(format!("{name}: warns twice {twice}"));
        }
    }
    for beam in &trace.beams {
        in_order(&format!("beam {}", beam.beam.number()), &beam.line, beam.length)?;
    }
    if let Some(twice) =
        twice(&trace.findings.iter().map(|it| format!("{:?} {:?}", it.level, it.problem)).collect::<Vec<_>>())
    {
        return Err(format!("finds twice {twice}"));
    }
    let walls: usize = plan.levels().iter().map(|level: &Level| level.walls.len()).sum();
    if trace.walls.len() != walls {
        return Err(format!("{} of {walls} walls traced", trace.walls.len()));
    }
    // JSON has no word for what is not a number: it comes out as null, and only what may be absent may be null.
    let mut value = serde_json::to_value(trace).map_err(|error| error.to_string())?;
    nulls(&mut value).map_or(Ok(()), |path| Err(format!("{path} is not a number")))
}

fn twice(texts: &[String]) -> Option<String> {
    texts.iter().enumerate().find(|(i, text)| texts.iter().skip(i + 1).any(|it| it == *text)).map(|it| it.1.clone())
}

fn in_order(name: &str, line: &[LinePart], length: Feet) -> Result<(), String> {
    let mut end = Feet::ZERO;
    for part in line {
        if part.start.0 < end.0 - 1e-9 || part.end <= part.start {
            return Err(format!("{name}: a line load from {:?} to {:?} after {end:?}", part.start, part.end));
        }
        end = part.end;
    }
    if end.0 <= length.0 + 1e-9 { Ok(()) } else { Err(format!("{name}: line load to {end:?} of {length:?}")) }
}

fn nulls(value: &mut serde_json::Value) -> Option<String> {
    const MAY_BE_ABSENT: [&str; 7] = ["through", "on", "pressure", "under_a", "under_b", "weights", "purlin"];
    match value {
        serde_json::Value::Null => Some(String::new()),
        serde_json::Value::Array(all) => all.iter_mut().find_map(nulls),
        serde_json::Value::Object(all) => all.iter_mut().find_map(|(key, value)| {
            let absent = value.is_null() && MAY_BE_ABSENT.contains(&key.as_str());
            if absent { None } else { nulls(value).map(|path| format!("{key} {path}")) }
        }),
        _ => None,
    }
}
