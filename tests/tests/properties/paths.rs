//! Paths on demand: what starts somewhere arrives somewhere, and nothing is added on the way.

use joistwise_core::geometry::Spot;
use joistwise_core::ids::ElementId;
use joistwise_core::path::{Path, Start, path};
use joistwise_core::plan::Plan;
use joistwise_core::trace::{Node, Trace};
use joistwise_core::units::{Feet, Pounds};
use std::collections::BTreeMap;

/// Of every few walls, of all posts, beams and heavy things, and of a weight put down on each level.
pub(super) fn add_up(plan: &Plan, trace: &Trace, at: (f64, f64)) -> Result<(), String> {
    for level in plan.levels() {
        let parts = level.element_ids().into_iter().filter(|part| {
            let wall = matches!(part, ElementId::Wall(_)) && part.number() % 3 == 0;
            wall || matches!(part, ElementId::Beam(_) | ElementId::Post(_) | ElementId::Thing(_))
        });
        for part in parts {
            adds_up(plan, trace, Start::Part(part))?;
            if let ElementId::Wall(id) = part {
                let length = trace.wall(id).ok_or("not traced")?.length;
                let (from, to) = (length * at.0.min(at.1), length * at.0.max(at.1));
                adds_up(plan, trace, Start::Run { part, from, to })?;
            }
        }
        let at = Spot { x: Feet(at.0 * 40.0), y: Feet(at.1 * 30.0) };
        adds_up(plan, trace, Start::Deck { level: level.id, at, weight: Pounds(1000.0) })?;
    }
    Ok(())
}

fn adds_up(plan: &Plan, trace: &Trace, start: Start) -> Result<(), String> {
    let Some(path) = path(plan, trace, &start) else { return Err(format!("{start:?} is not found")) };
    let mut into: BTreeMap<Node, f64> = BTreeMap::new();
    let mut out: BTreeMap<Node, f64> = BTreeMap::new();
    into.insert(path.node, 1.0);
    for flow in &path.flows {
        *into.entry(flow.to).or_default() += flow.share;
        *out.entry(flow.from).or_default() += flow.share;
    }
    let end = |node: &Node| matches!(node, Node::Footing(_) | Node::Ground | Node::Gap);
    for (node, share) in into.iter().filter(|(node, _)| !end(node)) {
        let gone = out.get(node).copied().unwrap_or_default();
        if (gone - share).abs() > 1e-9 {
            return Err(format!("{start:?}: {share} comes to {node:?}, {gone} goes on\n{}", told(&path)));
        }
    }
    let ends: f64 = path.ends().map(|it| it.share).sum();
    if (ends - 1.0).abs() > 1e-9 {
        return Err(format!("{start:?}: {ends} arrives\n{}", told(&path)));
    }
    let first = path.down.iter().position(|it| it.node == Node::Gap);
    if first.is_some_and(|place| place > 0) {
        return Err(format!("{start:?}: its gap is not named first\n{}", told(&path)));
    }
    Ok(())
}

fn told(path: &Path) -> String {
    path.flows.iter().map(|it| format!("{:?} -> {:?} {}\n", it.from, it.to, it.share)).collect()
}
