//! Outside figures: every cell of every file of published and solved values agrees with the core.

use joistwise_core::reference::{Report, check_file};

/// Runs one file, prints what became of it, and lists every cell that disagrees.
#[track_caller]
fn check(name: &str, cells: usize) -> Report {
    let path = format!("{}/../fixtures/reference/{name}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let report = check_file(name, &text).unwrap_or_else(|| panic!("no check knows {name}"));
    println!("{name}: {} of {} cells agree", report.within, report.cells);
    for (reason, count) in &report.skipped {
        println!("  {count} not compared: {reason}");
    }
    let wrong: Vec<_> = report.worst.iter().filter(|row| !row.within).collect();
    assert!(wrong.is_empty(), "{name}: {} of {} cells agree; {wrong:#?}", report.within, report.cells);
    if let Some(row) = report.worst.first() {
        println!("  furthest off: {} expected {} got {} ({:.1e})", row.label, row.expected, row.got, row.difference);
    }
    assert_eq!(report.within, report.cells);
    assert!(report.cells >= cells, "{name}: only {} cells compared; {cells} were, once", report.cells);
    report
}

#[test]
fn three_hundred_beams_solved_elsewhere_come_out_alike() {
    check("beam_vectors.json", 19_833);
}

/// Made by `fixtures/reference/second_opinion/generate.py`, which nothing here runs.
#[test]
fn sixty_beams_as_houses_have_them_come_out_as_a_frame_library_has_them() {
    check("second_opinion/beams.json", 3_681);
}

#[test]
fn beams_of_the_printed_tables_come_out_as_printed() {
    check("beam_classics.json", 1_731);
}

#[test]
fn worked_examples_of_loads_columns_pads_ties_props_and_load_paths_come_out_as_worked() {
    check("worked_examples.json", 309);
}

#[test]
fn every_load_the_core_starts_from_is_the_published_one() {
    check("live_loads.csv", 30);
    check("dead_loads.csv", 96);
    check("soil_bearing.csv", 11);
    check("heavy_things.csv", 23);
}

#[test]
fn snow_roof_live_load_and_combinations_follow_their_rules_term_by_term() {
    check("combinations_and_roof_rules.csv", 51);
}

#[test]
fn pier_areas_and_old_strip_widths_are_the_printed_ones_in_inches() {
    check("footing_tables.csv", 60);
}

/// The rule is fitted; the cells it misses are marked unconfirmed and not asserted.
#[test]
fn heel_joint_nails_are_those_of_the_fitted_rule() {
    check("heel_joint_nails.csv", 264);
}

#[test]
fn limits_of_bearing_cuts_columns_and_footings_are_the_published_ones() {
    check("load_path_rules.csv", 28);
}

#[test]
fn statements_of_the_trade_are_read_but_no_figure_is_made_of_them() {
    assert_eq!(check("decision_rules.csv", 0).skipped.iter().map(|(_, count)| count).sum::<usize>(), 52);
}
