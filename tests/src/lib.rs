//! Loads a fixture and explains a trace, for the tests beside.

pub mod bodies;
pub mod large;

use std::fs;
use std::path::{Path, PathBuf};

use joistwise_core::loads::Weights;
use joistwise_core::plan::Plan;
use joistwise_core::trace::{Caution, Node, Problem, Rest, RibTrace, Role, Trace, WallTrace};

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

/// A house file of `fixtures/symptoms`.
///
/// # Panics
///
/// If it is not a house.
#[must_use]
pub fn symptom(name: &str) -> Plan {
    Plan::from_json(&read(&format!("symptoms/{name}.json"))).unwrap_or_else(|error| panic!("{name}: {error}"))
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
    let bears = |role: Role| role.carries() || role == Role::Outside;
    let carrying = wall.stretches.iter().filter(|stretch| bears(stretch.role)).count();
    let open = wall.stretches.iter().any(|stretch| stretch.role == Role::NeedsALook);
    match (carrying, open) {
        (n, _) if n > 0 && n == wall.stretches.len() => "bearing",
        (n, _) if n > 0 => "bearing_part",
        (_, true) => "needs_a_look",
        _ if wall.stretches.iter().any(|stretch| stretch.role == Role::HoldsPoint) => "point_support",
        _ => "partition",
    }
}

/// The flags of the situations that a caution stands for.
#[must_use]
pub const fn flags_of(caution: &Caution) -> &'static [&'static str] {
    match caution {
        Caution::TiesCutIfFlush { .. } => &["rafter_tie_cut_if_flush"],
        Caution::EndsNeedPath => &["ends_need_path_to_pier"],
        Caution::OffsetOverJoistDepth { .. } => &["offset_over_joist_depth"],
        Caution::OffsetOnIJoists { .. } => &["offset_rule_not_for_I_joists"],
        Caution::TrussesMaySettle { .. } => &["trusses_may_settle_if_wall_came_first"],
        Caution::DoNotCutTrusses { .. } => &["do_not_cut_bottom_chord"],
        Caution::ParallelRuleMisleads => &["parallel_rule_misleads"],
        Caution::KeepOrReplaceCornerPost { .. } => &["keep_or_replace_corner_post"],
        Caution::GuardAtOpenSide { .. } => &["guard_needed_at_open_side"],
        Caution::BeamBelowIsNoProof { .. } => &["beam_below_is_not_evidence_of_load_above"],
        Caution::CheckBothSides => &["check_both_sides_for_direction"],
        Caution::MayBrace => &["may_be_braced_wall"],
        Caution::StandsOnJoists { .. } => &["bearing_wall_on_joists_without_support"],
        Caution::FloorDipExpected => &["floor_dip_expected_at_H2"],
        Caution::RoofOnInsideWall => &["roof_on_interior_wall"],
        Caution::StrutsNeedSupport { .. } => &["braces_over_opening_need_new_support"],
        Caution::RoofOnJoists => &["kneewall_load_on_joists"],
        Caution::StorageOnTies { .. } => &["attic_storage_on_ceiling_joists", "ties_in_use_as_floor"],
        Caution::AlongJoists { .. } => &["bearing_wall_along_joists"],
        Caution::TrussDrawing => &["reactions_by_truss_drawing"],
        Caution::LaterWall => &["later_wall_may_carry_by_contact"],
        Caution::StudsRunOn => {
            &["continuous_studs", "hold_studs_above_the_cut_as_well", "prop_joists_alone_is_not_enough"]
        }
        Caution::RidgeNeedsPost { .. } => &["gable_end_gets_a_post", "post_path_to_foundation"],
        Caution::StudPack { .. } => &["stud_pack_means_point_load", "half_height_wall_does_not_carry"],
        Caution::PostOverBeam { .. } => &["posts_over_girder_with_blocks"],
        Caution::BetweenSupports { .. } => &["post_between_columns_check_girder"],
        Caution::PostOnJoists => &["post_not_over_support", "no_foundation_under_post"],
        Caution::PostOnCantilever { .. } => &["post_on_cantilevered_floor"],
        Caution::CheckCrushing => &["crushing_check_needed"],
        Caution::FillBlocks => &["fill_block_cells"],
        Caution::BeamPocket { .. } => &["beam_pocket_bearing_and_air"],
        Caution::CrippleWall { .. } => &["cripple_wall_rules"],
        Caution::SquashBlocks { .. } => &["squash_blocks_needed"],
        Caution::OnBlocking { .. } => &["on_blocking"],
        Caution::HangsOnLedger { .. } => &["ledger_fixing_by_schedule"],
        Caution::ServicesInside => &["services_inside"],
    }
}

/// The flags of the situations that a finding stands for.
#[must_use]
pub const fn flags_of_finding(problem: &Problem) -> &'static [&'static str] {
    match problem {
        Problem::ThrustNotTied { .. } => &["thrust_not_tied"],
        Problem::StrutsOnJoists { .. } => &["brace_not_on_wall"],
        Problem::StrutsTooFlat { .. } => &["brace_too_flat"],
        Problem::PostWithoutFooting { .. } => {
            &["slab_is_not_a_footing", "pad_under_each_post", "new_pads_at_new_posts", "no_foundation_under_post"]
        }
        Problem::PostOnThickening { .. } => &["thickening_seen_ask_engineer"],
        Problem::LongBeam { .. } => &["beyond_common_beams"],
        Problem::LongSpan { .. } => &["prop_now"],
        Problem::RoofOverRoof { .. } => &["second_roof_over_first"],
        _ => &[],
    }
}

/// What a hip or valley brings to its foot: to all walls of the corner together.
#[must_use]
pub fn at_foot(rib: &RibTrace) -> Weights {
    let foot = rib.rests.iter().filter(|rest| rest.at.0.abs() < 1e-9);
    foot.fold(Weights::default(), |sum, rest| sum + rest.weights)
}

/// Where a hip or valley rests with its head.
///
/// # Panics
///
/// If it rests on nothing.
#[must_use]
pub fn head(rib: &RibTrace) -> &Rest {
    rib.rests.last().expect("it rests on something")
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
