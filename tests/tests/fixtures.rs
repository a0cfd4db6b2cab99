//! Every house against its accepted trace, every refused file against its sentence, the schema against the types.

use std::fs;

use joistwise_core::plan::Plan;
use joistwise_core::report;
use joistwise_core::trace::{Caution, trace};
use joistwise_tests::{fixtures, house, houses, read, wall};

/// Compares a text with an accepted file, or writes it where `UPDATE` is set.
fn accepted(name: &str, text: &str) {
    let path = fixtures().join(name);
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, text).expect("written");
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(kept == text, "{name} is not what is accepted; look at it with UPDATE=1 and git diff");
}

#[test]
fn every_house_has_the_trace_that_was_accepted_and_a_ledger_that_closes_to_a_billionth() {
    let names = houses();
    assert!(names.len() >= 19, "{names:?}");
    for name in names {
        let plan = house(&name);
        let trace = trace(&plan);
        assert!(trace.ledger.worst_share_off() < 1e-9, "{name}: off by {}", trace.ledger.worst_share_off());
        accepted(&format!("traces/{}", name.replace(".json", ".txt")), &report::text(&plan, &trace));
    }
}

#[test]
fn every_house_is_written_as_it_is_read_also_through_a_link() {
    for name in houses() {
        let plan = house(&name);
        assert_eq!(Plan::from_json(&plan.to_json()).expect("sound"), plan, "{name}");
        assert_eq!(Plan::from_link(&plan.to_link()).expect("whole"), plan, "{name}");
    }
}

#[test]
fn no_worked_house_of_the_start_page_has_a_path_gap() {
    let index: serde_json::Value = serde_json::from_str(&read("houses/index.json")).expect("JSON");
    let list = index.as_array().expect("a list");
    assert!(list.len() >= 6);
    for entry in list {
        let name = entry["file"].as_str().expect("a file");
        let gaps: Vec<_> = trace(&house(name)).path_gaps().cloned().collect();
        assert!(gaps.is_empty(), "{name}: {gaps:?}");
    }
}

/// By hand: Mill Lane house, 24 ft wide, joists lapping on a wall 12 ft from each eave wall, so 6 + 6 ft lean on it. Without
/// storage 5 + 10 psf x 12 ft = 180 plf; over the boards 10 + 20 psf x 12 ft = 360 plf.
#[test]
fn the_centre_wall_of_mill_lane_carries_180_plf_and_360_plf_under_the_boards() {
    let plan = house("one-storey-gable-centre-wall-laps.json");
    let trace = trace(&plan);
    let centre = wall(&plan, &trace, "Centre wall");
    let at = |ft: f64| centre.line.iter().find(|it| it.start.0 <= ft && it.end.0 > ft).expect("loaded").loads.all().0;
    let (bare, boards) = (at(10.0), at(20.0));
    assert!((bare - 180.0).abs() < 1e-9 && (boards - 360.0).abs() < 1e-9, "{bare} and {boards} plf");
}

/// By hand: against ridge boards each valley of a 16 ft wing brings 48 square feet of roof to its top (`valleys.rs` has the
/// free body), two of them 96, at 20 psf; rafters 16 in apart are coarser than the planes by a part in a hundred.
#[test]
fn the_hall_post_of_sheepfold_house_holds_96_sqft_of_roof_and_brings_it_down_to_its_pad() {
    let plan = house("one-storey-gable-valley.json");
    let trace = trace(&plan);
    let ids = plan.levels().iter().flat_map(|level| &level.posts).filter(|post| post.name.contains("all"));
    for post in ids.map(|post| trace.posts.iter().find(|it| it.post == post.id).expect("traced")) {
        let live_lb = post.top.roof_live.0;
        assert!((live_lb - 1920.0).abs() < 0.01 * 1920.0, "{live_lb} lb");
    }
}

/// By hand: 16 in against a 2x10, 9 1/4 in deep.
#[test]
fn the_upper_wall_of_quarry_road_is_warned_of_for_16_in_over_joists_of_9_1_4_in() {
    let plan = house("two-storey-gable-upper-wall-offset.json");
    let trace = trace(&plan);
    let cautions = &wall(&plan, &trace, "Upper hall wall").cautions;
    let offset = cautions.iter().find_map(|caution| match caution {
        Caution::OffsetOverJoistDepth { offset, depth, .. } => Some((offset.0 * 12.0, depth.0 * 12.0)),
        _ => None,
    });
    let (offset_in, depth_in) = offset.expect("a warning");
    assert!((offset_in - 16.0).abs() < 0.01 && (depth_in - 9.25).abs() < 1e-9, "{offset_in} in on {depth_in} in");
}

#[test]
fn the_schema_of_the_house_file_is_that_of_the_types() {
    let schema = schemars::schema_for!(joistwise_core::plan::PlanFile);
    let text = serde_json::to_string_pretty(&schema).expect("JSON") + "\n";
    accepted("house.schema.json", &text);
}
