//! Outside figures: every cell of every file of published and solved values agrees with the core.

use joistwise_core::reference::{Count, Report, check_file};

/// Runs one file, prints what became of it, and lists every cell that disagrees.
#[track_caller]
fn check(name: &str, cells: usize) -> Report {
    let path = format!("{}/../fixtures/reference/{name}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{path}: {error}"));
    let report = check_file(name, &text).unwrap_or_else(|| panic!("no check knows {name}"));
    println!("{name}: {} of {} cells agree", report.within, report.cells);
    for Count { sort, cells, agree } in &report.counts {
        println!("  {agree} of {cells} {sort}");
    }
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

/// `110 of 111 SEEN, mixed values, to the nearest inch`, in the order in which they first come.
fn counts(report: &Report) -> Vec<String> {
    report.counts.iter().map(|Count { sort, cells, agree }| format!("{agree} of {cells} {sort}")).collect()
}

fn skipped(report: &Report) -> usize {
    report.skipped.iter().map(|(_, count)| count).sum()
}

/// IRC R502.3.1(1) and (2).
#[test]
fn floor_joist_spans_come_out_to_the_inch_they_are_printed_with() {
    let report = check("wood/floor_joist_spans.csv", 539);
    let expected = [
        "329 of 329 MEMORY, current values, to the nearest inch",
        "156 of 156 SEEN, current values, to the nearest inch",
        "45 of 45 SEEN, legacy values, to the nearest inch",
        "9 of 9 MEMORY, legacy values, to the nearest inch",
    ];
    assert_eq!(counts(&report), expected);
    // Two misprints, four marked unconfirmed.
    assert_eq!(skipped(&report), 6);
}

/// IRC R802.5.1(1) and (2).
#[test]
fn ceiling_joist_spans_come_out_to_the_inch_they_are_printed_with() {
    let report = check("wood/ceiling_joist_spans.csv", 275);
    let expected = [
        "27 of 27 MEMORY, current values, past 26 ft",
        "137 of 137 MEMORY, current values, to the nearest inch",
        "9 of 9 MEMORY, legacy values, to the nearest inch",
        "102 of 102 SEEN, current values, to the nearest inch",
    ];
    assert_eq!((counts(&report), skipped(&report)), (expected.map(str::to_owned).to_vec(), 0));
}

/// IRC R802.4.1(5) and (7), IBC 2308.7.2(2). One cell that was read is an inch less than the rule has it.
#[test]
fn rafter_spans_come_out_to_the_inch_they_are_printed_with_but_for_one_on_the_edge() {
    let report = check("wood/rafter_spans.csv", 228);
    let expected = [
        "18 of 18 SEEN, mixed values, past 26 ft",
        "110 of 111 SEEN, mixed values, to the nearest inch",
        "100 of 100 SEEN, current values, to the nearest inch",
    ];
    assert_eq!((counts(&report), skipped(&report)), (expected.map(str::to_owned).to_vec(), 1));
}

/// IRC R602.7(1) and (2), R502.5(1) and (2), by a rule fitted to these cells within an inch.
#[test]
fn headers_come_out_within_the_inch_of_their_fit_and_jack_studs_as_printed() {
    let report = check("wood/header_girder_spans.csv", 310);
    let expected = [
        "36 of 36 SEEN, R502.5(1), within an inch",
        "33 of 36 SEEN, R502.5(1), to the nearest inch",
        "36 of 36 SEEN, R502.5(1), jack studs",
        "38 of 38 MEMORY, R502.5(2), within an inch",
        "33 of 38 MEMORY, R502.5(2), to the nearest inch",
        "38 of 38 MEMORY, R502.5(2), jack studs",
        "42 of 42 SEEN, R602.7(1), within an inch",
        "38 of 42 SEEN, R602.7(1), to the nearest inch",
        "42 of 42 SEEN, R602.7(1), jack studs",
        "39 of 39 MEMORY, R602.7(2), within an inch",
        "39 of 39 MEMORY, R602.7(2), to the nearest inch",
        "39 of 39 MEMORY, R602.7(2), jack studs",
    ];
    assert_eq!((counts(&report), skipped(&report)), (expected.map(str::to_owned).to_vec(), 2));
}

#[test]
fn design_values_of_wood_and_steel_are_the_published_ones_with_their_marks() {
    assert_eq!(counts(&check("wood/lumber_design_values.csv", 108)), ["83 of 83 SEEN", "1 of 1 MEMORY"]);
    // In psi recalled, in MPa read.
    assert_eq!(counts(&check("wood/southern_pine_design_values.csv", 320)), ["140 of 140 MEMORY", "140 of 140 SEEN"]);
    assert_eq!(counts(&check("wood/legacy_bending_values.csv", 96)), ["64 of 64 MEMORY"]);
    assert_eq!(counts(&check("wood/engineered_wood_design_values.csv", 126)), ["66 of 66 MEMORY", "18 of 18 SEEN"]);
    assert_eq!(counts(&check("wood/steel_grades.csv", 8)), ["6 of 6 SEEN"]);
    assert_eq!(counts(&check("wood/steel_w_sections.csv", 368)), ["345 of 345 SEEN"]);
}

#[test]
fn dressed_sizes_and_factors_are_the_published_ones() {
    assert_eq!(counts(&check("wood/dressed_sizes.csv", 55)), ["55 of 55 SEEN"]);
    let report = check("wood/adjustment_factors.csv", 301);
    assert_eq!(counts(&report), ["95 of 95 SEEN", "57 of 57 MEMORY", "3 of 3 INFERRED"]);
}

/// One step is off: 26.28 kip-ft is 26.2854 cut short.
#[test]
fn worked_examples_of_wood_and_steel_members_come_out_step_by_step() {
    let report = check("wood/worked_examples.csv", 41);
    let expected = [
        "11 of 11 SEEN, input",
        "3 of 3 SEEN, step",
        "16 of 16 SEEN, answer",
        "1 of 1 DERIVED, answer",
        "9 of 10 DERIVED, step",
        "1 of 1 MEMORY, answer",
    ];
    let mut found = counts(&report);
    found.sort();
    let mut expected = expected.map(str::to_owned);
    expected.sort();
    assert_eq!(found, expected);
}
