//! Joists seen to run two ways in two places: the deck is parted where they may turn, and nothing is contradicted.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Plan, Saw, Way};
use joistwise_core::readings::{Certainty, judge, part};
use joistwise_core::trace::Role;
use proptest::prelude::*;

use super::laws::{cases, small};
use super::{of, saw, show};

fn runs(plan: &Plan, place: (f64, f64), along: Way) -> Plan {
    saw(plan, 0, place, Saw::JoistsRun { along })
}

/// North-south south of W, east-west north of it: by hand the southern joists end on W, whatever holds them there.
fn half_and_half() -> Plan {
    let plan = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).done();
    runs(&runs(&plan, (15.0, 4.0), Way::Y), (15.0, 20.0), Way::X)
}

#[test]
fn joists_that_run_north_south_here_and_east_west_there_turn_on_the_wall_between() {
    let plan = half_and_half();
    let all = judge(&plan);
    assert_eq!(all.contradictions, []);
    let [turn] = all.turns.as_slice() else { panic!("{:?}", all.turns) };
    let walls: Vec<_> = turn.lines.iter().map(|it| it.wall).collect();
    assert_eq!(walls, [plan.wall_named("W").map(|it| it.id)], "half way is the wall itself");
    assert_eq!(turn.seen.len(), 2);
    for it in of(&plan, &all, "W") {
        assert!(it.bears_in_all, "{}", show(&plan, &all));
    }
    // With their ends seen, a ridge board and no strut, it is settled.
    let plan = saw(&plan, 0, (15.0, 11.0), Saw::JoistsEnd);
    let plan = saw(&plan, 0, (15.0, 4.0), Saw::RidgeBoard);
    let plan = saw(&plan, 0, (15.0, 12.0), Saw::NoStrut);
    let all = judge(&plan);
    for it in of(&plan, &all, "W") {
        let right = it.role() == Role::CarriesCeiling && it.certainty == Certainty::Certain;
        assert!(right, "{}", show(&plan, &all));
    }
}

#[test]
fn the_deck_parted_where_they_turn_is_two_fields_and_asks_no_more() {
    let plan = half_and_half();
    let all = judge(&plan);
    let edits = part(&plan, &all.turns[0], 0);
    let parted = edits.iter().fold(plan, |plan, edit| plan.with(edit).expect("sound"));
    let fields = &parted.levels()[0].fields;
    let areas: Vec<f64> = fields
        .iter()
        .map(|it| parted.levels()[0].polygons(&it.region).iter().map(|it| joistwise_core::geometry::area(it).0).sum())
        .collect();
    assert_eq!(areas, [360.0, 360.0], "square feet");
    assert!(fields.iter().any(|it| it.along == Way::X) && fields.iter().any(|it| it.along == Way::Y));
    let then = judge(&parted);
    assert_eq!((then.turns.len(), then.contradictions.len()), (0, 0));
    assert!(of(&parted, &then, "W").iter().all(|it| it.bears_in_all), "{}", show(&parted, &then));
}

/// 5 ft and 23 ft from the west end: the wall at 15 ft is between them, that at 26 ft and the one across are not; half way is
/// 14 ft.
#[test]
fn the_lines_where_they_may_turn_are_the_walls_between_and_half_way() {
    let plan = draft().outside(30, 24).inside("P", (15, 0), (15, 10)).inside("R", (26, 0), (26, 10));
    let plan = plan.inside("Q", (0, 20), (30, 20)).done();
    let plan = runs(&runs(&plan, (5.0, 4.0), Way::Y), (23.0, 4.0), Way::X);
    let all = judge(&plan);
    let [turn] = all.turns.as_slice() else { panic!("{:?}", all.turns) };
    let lines: Vec<_> = turn.lines.iter().map(|it| (it.wall, it.a.x.feet().0)).collect();
    assert_eq!(lines, [(plan.wall_named("P").map(|it| it.id), 15.0), (None, 14.0)]);
    assert_eq!(all.contradictions, []);
    // Q runs east-west: joists that cross it there run on over the one part alone. It is not settled before somebody looked.
    assert!(of(&plan, &all, "Q").iter().all(|it| it.certainty != Certainty::Certain), "{}", show(&plan, &all));
}

#[test]
fn two_ways_in_one_place_and_one_way_between_two_others_stay_a_contradiction() {
    let plan = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).done();
    let same = runs(&runs(&plan, (15.0, 4.0), Way::Y), (15.0, 4.0), Way::X);
    let between = runs(&runs(&runs(&plan, (4.0, 4.0), Way::Y), (26.0, 4.0), Way::Y), (15.0, 4.0), Way::X);
    for plan in [same, between] {
        let all = judge(&plan);
        assert_eq!((all.contradictions.len(), all.turns.len()), (1, 0), "{:?}", all.contradictions);
    }
}

proptest! {
    #![proptest_config(cases())]

    /// On random houses with two sightings: a turn or a contradiction, never both, and the parts have the area of the whole.
    #[test]
    fn two_sightings_part_the_deck_or_contradict_and_the_parts_cover_the_deck(
        house in small(), a in (0.1..0.9_f64, 0.1..0.9_f64), b in (0.1..0.9_f64, 0.1..0.9_f64),
    ) {
        let plan = house.house();
        let (east, north) = (f64::from(house.sides_ft.0), f64::from(house.sides_ft.1));
        let top = plan.levels().len() - 1;
        let run = |plan: &Plan, at: (f64, f64), along: Way| saw(plan, top, (at.0 * east, at.1 * north), Saw::JoistsRun { along });
        let seen = run(&run(&plan, a, Way::X), b, Way::Y);
        let drawn = seen.levels()[top].fields.iter().all(|it| it.known <= joistwise_core::plan::Grade::Seen);
        let all = judge(&seen);
        prop_assert!(drawn || (all.turns.is_empty() != all.contradictions.is_empty()), "{:?} {:?}", all.turns, all.contradictions);
        for turn in &all.turns {
            let before: f64 = seen.levels()[top].outlines().iter().map(|it| joistwise_core::geometry::area(it).0).sum();
            for line in 0..turn.lines.len() {
                let parted = part(&seen, turn, line).iter().fold(seen.clone(), |plan, edit| plan.with(edit).expect("sound"));
                let level = &parted.levels()[top];
                let own = level.fields.iter().flat_map(|it| level.polygons(&it.region));
                let after: f64 = own.map(|it| joistwise_core::geometry::area(&it).0).sum();
                prop_assert!((after - before).abs() < 0.1, "{before} sq ft then {after}");
                prop_assert!(judge(&parted).turns.is_empty());
            }
        }
    }
}
