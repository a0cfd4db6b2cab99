//! Sums that must come out at each place on the path and over the house.

use joistwise_core::loads::{Kind, Weights};
use joistwise_core::plan::{Level, Plan};
use joistwise_core::trace::{LinePart, Node, Trace};
use joistwise_core::units::Feet;
use std::collections::BTreeMap;

fn sum(all: impl IntoIterator<Item = Weights>) -> Weights {
    all.into_iter().fold(Weights::default(), |sum, one| sum + one)
}

pub(super) fn equal(what: &str, a: Weights, b: Weights, tolerance_lb: f64) -> Result<(), String> {
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
