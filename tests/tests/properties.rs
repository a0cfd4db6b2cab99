//! Laws that hold for every house: nothing is lost or invented, a mirrored house has the mirrored trace, what bears
//! nothing changes nothing, files and links come back as they went.
//!
//! `PROPTEST_CASES` sets how many houses each law is tried on.

#![expect(clippy::indexing_slicing, reason = "a law that panics is a law that fails")]

#[path = "properties/applied.rs"]
mod applied;
#[path = "properties/balance.rs"]
mod balance;
#[path = "properties/changes.rs"]
mod changes;
#[path = "properties/houses.rs"]
mod houses;
#[path = "properties/paths.rs"]
mod paths;
#[path = "properties/studies.rs"]
mod studies;
#[path = "properties/survey.rs"]
mod survey;
#[path = "properties/ties.rs"]
mod ties;
#[path = "properties/turn.rs"]
mod turn;

use houses::{Recipe, any_house, any_run};
use joistwise_core::plan::{Plan, PlanFile, Set};
use joistwise_core::take_out::{Away, Stretch, under_joists};
use joistwise_core::trace::trace;
use joistwise_core::units::Feet;
use proptest::prelude::*;
use proptest::test_runner::{FileFailurePersistence, RngSeed};

fn cases() -> ProptestConfig {
    let seeds = FileFailurePersistence::Direct("tests/properties/seeds.txt");
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    let cases = asked.unwrap_or(200);
    // The suite tries the same houses every time; whoever asks for a number of cases gets new ones.
    let rng_seed = if asked.is_some() { RngSeed::Random } else { RngSeed::Fixed(7) };
    ProptestConfig {
        cases,
        rng_seed,
        max_global_rejects: 20 * cases,
        failure_persistence: Some(Box::new(seeds)),
        ..ProptestConfig::default()
    }
}

fn house(recipe: &Recipe) -> Result<Plan, TestCaseError> {
    recipe.house().ok_or_else(|| TestCaseError::reject("not a sound house"))
}

/// A broken law, with the house file that breaks it.
fn law(plan: &Plan, result: Result<(), String>) -> Result<(), TestCaseError> {
    let file = || serde_json::to_string(&PlanFile::from(plan)).unwrap_or_default();
    result.map_err(|why| TestCaseError::fail(format!("{why}\nin the house {}", file())))
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn every_pound_put_on_a_house_arrives_at_the_ground_or_in_a_named_gap(recipe in any_house()) {
        let plan = house(&recipe)?;
        law(&plan, balance::closes(&plan, &trace(&plan)))?;
    }

    #[test]
    fn what_is_put_on_is_what_the_areas_and_lengths_of_the_plan_say(
        recipe in any_house(), salt in any::<u32>(), (m, n) in (1..40_i32, 0..40_i32),
    ) {
        let plan = applied::with_gables(&house(&recipe)?);
        law(&plan, applied::is_applied(&plan, &trace(&plan)))?;
        let Some(plan) = applied::measured(&plan, salt, (m, n)) else { return Ok(()) };
        law(&plan, applied::is_applied(&plan, &trace(&plan)))?;
    }

    #[test]
    fn a_load_and_nothing_found_are_never_together(recipe in any_house(), salt in any::<u32>(), turn in (1..40_i32, 0..40_i32)) {
        let plan = house(&recipe)?;
        law(&plan, ties::nothing_found_is_empty(&trace(&plan)))?;
        if let Some(plan) = applied::measured(&plan, salt, turn) {
            law(&plan, ties::nothing_found_is_empty(&trace(&plan)))?;
        }
    }

    #[test]
    fn no_load_under_a_pound_is_a_finding_and_a_house_out_of_square_loses_nothing_more(
        recipe in any_house(), salt in any::<u32>(), turn in (1..40_i32, 0..40_i32),
    ) {
        let plan = house(&recipe)?;
        law(&plan, ties::no_sliver_is_found(&trace(&plan)))?;
        if let Some(plan) = applied::measured(&plan, salt, turn) {
            let trace = trace(&plan);
            law(&plan, ties::no_sliver_is_found(&trace))?;
            law(&plan, balance::closes(&plan, &trace))?;
        }
    }

    #[test]
    fn a_place_on_a_deck_belongs_to_the_last_field_whose_region_holds_it(
        recipe in any_house(), east in 0.0..1.0, north in 0.0..1.0,
    ) {
        let plan = house(&recipe)?;
        law(&plan, ties::place_is_its_fields(&plan, &trace(&plan), (east, north)))?;
    }

    #[test]
    fn both_walls_of_a_corner_take_the_same_of_a_hip_and_of_a_post(
        size in (120..600_i32, 120..600_i32), rise in 1..16_i32, overhang in 0..36_i32, spacing in 12.0..24.0, turn in 0..4_usize,
    ) {
        let result = ties::hip_is_even(size, (rise, overhang, spacing), turn);
        prop_assert!(result.is_ok(), "{:?}", result);
    }

    #[test]
    fn stretches_tile_their_wall_and_every_figure_is_a_number(recipe in any_house()) {
        let plan = house(&recipe)?;
        law(&plan, balance::tiles(&plan, &trace(&plan)))?;
    }

    #[test]
    fn a_house_mirrored_east_to_west_has_the_mirrored_trace(recipe in any_house()) {
        let plan = house(&recipe.with_whole_hips())?;
        prop_assume!(turn::could_be_built(&plan));
        law(&plan, turn::differs(turn::OVER_Y, &trace(&plan), &trace(&turn::OVER_Y.plan(&plan))))?;
    }

    #[test]
    fn a_house_mirrored_north_to_south_has_the_mirrored_trace(recipe in any_house()) {
        let plan = house(&recipe.with_whole_hips())?;
        prop_assume!(turn::could_be_built(&plan));
        law(&plan, turn::differs(turn::OVER_X, &trace(&plan), &trace(&turn::OVER_X.plan(&plan))))?;
    }

    #[test]
    fn a_house_turned_a_quarter_has_the_turned_trace(recipe in any_house()) {
        let plan = house(&recipe.with_whole_hips())?;
        prop_assume!(turn::could_be_built(&plan));
        law(&plan, turn::differs(turn::QUARTER, &trace(&plan), &trace(&turn::QUARTER.plan(&plan))))?;
    }

    #[test]
    fn a_house_drawn_elsewhere_on_the_sheet_has_the_same_trace(
        recipe in any_house(), dx in -100_000..100_000, dy in -100_000..100_000,
    ) {
        let plan = house(&recipe.with_whole_hips())?;
        prop_assume!(turn::could_be_built(&plan));
        let moved = turn::Turn::moved(dx, dy);
        law(&plan, turn::differs(moved, &trace(&plan), &trace(&moved.plan(&plan))))?;
    }

    #[test]
    fn a_partition_that_bears_nothing_changes_nothing_wherever_it_stands(
        recipe in any_house(), one in any_run(), other in any_run(),
    ) {
        let plan = house(&recipe)?;
        law(&plan, changes::stays_alone(&plan, [recipe.ends(one), recipe.ends(other)]))?;
    }

    #[test]
    fn a_house_comes_back_from_its_file_and_from_its_link(recipe in any_house()) {
        let plan = house(&recipe)?;
        law(&plan, changes::comes_back(&plan))?;
    }

    #[test]
    fn what_starts_anywhere_arrives_somewhere_and_nothing_is_added_on_the_way(
        recipe in any_house(), east in 0.0..1.0, north in 0.0..1.0,
    ) {
        let plan = house(&recipe)?;
        law(&plan, paths::add_up(&plan, &trace(&plan), (east, north)))?;
    }

    #[test]
    fn changes_are_refused_or_leave_a_house_that_holds_together(
        recipe in any_house(), all in proptest::collection::vec(changes::change(), 1..8),
    ) {
        let plan = house(&recipe)?;
        law(&plan, changes::keep_sound(&plan, &all))?;
    }

    #[test]
    fn a_survey_walked_in_any_order_gives_the_same_house(
        recipe in any_house(), order in survey::any_order(), salt in 0_usize..12,
    ) {
        let plan = house(&recipe)?;
        law(&plan, survey::in_any_order(&plan, &order, salt))?;
        law(&Plan::default(), survey::in_any_order(&Plan::default(), &order, salt))?;
    }

    #[test]
    fn a_study_of_any_stretch_of_any_line_loses_nothing_and_names_nothing_that_fails(
        recipe in any_house(), line in 0_usize..40, from in 0.0..1.0, length in 0.05..1.0, flush in any::<bool>(),
    ) {
        let plan = house(&recipe)?;
        if let Some(stretch) = stretch(&lines(&plan), line, (from, length), flush) {
            law(&plan, studies::holds(&plan, &stretch))?;
        }
    }
}

/// All that a study may be of: each wall, each beam with its posts, each field of joists under which a beam may go.
fn lines(plan: &Plan) -> Vec<(Stretch, Feet)> {
    let traced = trace(plan);
    let walls = plan.levels().iter().flat_map(|level| &level.walls).map(|it| Some(Away::Wall(it.id)));
    let beams = plan.levels().iter().flat_map(|level| &level.beams).map(|it| Some(Away::Posts(it.id)));
    let fields = plan.levels().iter().flat_map(|level| &level.fields);
    let fields = fields.map(|it| under_joists(plan, &traced, it.id, None).map(|it| it.away));
    let all =
        walls.chain(beams).chain(fields).flatten().map(|away| Stretch::new(away, Feet::ZERO, Feet(f64::INFINITY)));
    all.filter_map(|it| it.line(plan).map(|(_, a, b)| (it, joistwise_core::geometry::length(a, b)))).collect()
}

/// Some stretch of some line of a house.
fn stretch(lines: &[(Stretch, Feet)], line: usize, (from, length): (f64, f64), flush: bool) -> Option<Stretch> {
    let (line, whole) = lines.get(line % lines.len().max(1))?.clone();
    let set = if flush { Set::Flush } else { Set::Dropped };
    let (from, to) = (whole * from, whole * (from + length));
    let posts_between = if length > 0.7 { vec![from + (whole.min(to) - from) * 0.4] } else { Vec::new() };
    Some(Stretch { from, to, set, posts_between, ..line })
}

#[test]
fn studies_of_every_line_of_the_fixture_houses_hold_and_a_longer_stretch_has_no_lighter_beam() {
    let mut failed = Vec::new();
    for name in joistwise_tests::houses() {
        let plan = joistwise_tests::house(&name);
        let lines = lines(&plan);
        for line in 0..lines.len() {
            for (part, flush) in [((0.0, 1.0), false), ((0.2, 0.4), true), ((0.31, 0.23), false)] {
                let Some(stretch) = stretch(&lines, line, part, flush) else { continue };
                let longer = Feet((stretch.to - stretch.from).0 * 0.25);
                let results = [studies::holds(&plan, &stretch), studies::grows(&plan, &stretch, longer)];
                failed.extend(
                    results.into_iter().filter_map(Result::err).map(|why| format!("{name}, {stretch:?}: {why}")),
                );
            }
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}
