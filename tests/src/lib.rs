//! Loads a fixture and explains a trace, for the tests beside.

use std::fs;
use std::path::{Path, PathBuf};

use joistwise_core::plan::Plan;
use joistwise_core::trace::{Caution, Node, Role, Trace, WallTrace};

/// The folder of fixtures.
#[must_use]
pub fn fixtures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../fixtures")
}

/// The text of a fixture; a test cannot go on without it.
///
/// # Panics
///
/// If the file is not there.
#[must_use]
pub fn read(name: &str) -> String {
    let path = fixtures().join(name);
    fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()))
}

/// A house file of `fixtures/houses`.
///
/// # Panics
///
/// If it is not a house.
#[must_use]
pub fn house(name: &str) -> Plan {
    Plan::from_json(&read(&format!("houses/{name}"))).unwrap_or_else(|error| panic!("{name}: {error}"))
}

/// The names of all house files, in order.
///
/// # Panics
///
/// If the folder is not there.
#[must_use]
pub fn houses() -> Vec<String> {
    let entries = fs::read_dir(fixtures().join("houses")).expect("fixtures/houses");
    let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    let mut names: Vec<String> = names.filter(|name| name.ends_with(".json") && name != "index.json").collect();
    names.sort();
    names
}

/// A wall's trace by the wall's name.
///
/// # Panics
///
/// If there is no such wall.
#[must_use]
pub fn wall<'a>(plan: &Plan, trace: &'a Trace, name: &str) -> &'a WallTrace {
    let id = plan.wall_named(name).unwrap_or_else(|| panic!("no wall {name}")).id;
    trace.wall(id).unwrap_or_else(|| panic!("wall {name} is not traced"))
}

/// The role of a whole wall in the words of the situations.
#[must_use]
pub fn verdict(wall: &WallTrace) -> &'static str {
    let carrying = wall.stretches.iter().filter(|stretch| stretch.role.carries()).count();
    let open = wall.stretches.iter().any(|stretch| stretch.role == Role::NeedsALook);
    match (carrying, open) {
        (n, _) if n > 0 && n == wall.stretches.len() => "bearing",
        (n, _) if n > 0 => "bearing_part",
        (_, true) => "needs_a_look",
        _ if wall.stretches.iter().any(|stretch| stretch.role == Role::HoldsPoint) => "point_support",
        _ => "partition",
    }
}

/// The flag of the situations that a caution stands for.
#[must_use]
pub const fn flag(caution: &Caution) -> &'static str {
    match caution {
        Caution::TiesCutIfFlush { .. } => "rafter_tie_cut_if_flush",
        Caution::EndsNeedPath => "ends_need_path_to_pier",
        Caution::OffsetOverJoistDepth { .. } => "offset_over_joist_depth",
        Caution::OffsetOnIJoists { .. } => "offset_rule_not_for_I_joists",
        Caution::TrussesMaySettle { .. } => "trusses_may_settle_if_wall_came_first",
        Caution::DoNotCutTrusses { .. } => "do_not_cut_bottom_chord",
        Caution::ParallelRuleMisleads => "parallel_rule_misleads",
        Caution::KeepOrReplaceCornerPost { .. } => "keep_or_replace_corner_post",
        Caution::GuardAtOpenSide { .. } => "guard_needed_at_open_side",
        Caution::BeamBelowIsNoProof { .. } => "beam_below_is_not_evidence_of_load_above",
        Caution::CheckBothSides => "check_both_sides_for_direction",
        Caution::MayBrace => "may_be_braced_wall",
        Caution::StandsOnJoists { .. } => "bearing_wall_on_joists_without_support",
        Caution::FloorDipExpected => "floor_dip_expected_at_H2",
        Caution::RoofOnInsideWall => "roof_on_interior_wall",
        Caution::StrutsNeedSupport { .. } => "braces_over_opening_need_new_support",
        Caution::RoofOnJoists => "kneewall_load_on_joists",
        Caution::ServicesInside => "services_inside",
    }
}

/// The node of a named wall, beam or post.
///
/// # Panics
///
/// If there is none.
#[must_use]
pub fn node(plan: &Plan, name: &str) -> Node {
    plan.levels()
        .iter()
        .find_map(|level| {
            let wall = level.walls.iter().find(|it| it.name == name).map(|it| Node::Wall(it.id));
            let beam = || level.beams.iter().find(|it| it.name == name).map(|it| Node::Beam(it.id));
            let post = || level.posts.iter().find(|it| it.name == name).map(|it| Node::Post(it.id));
            wall.or_else(beam).or_else(post)
        })
        .unwrap_or_else(|| panic!("nothing is called {name}"))
}
