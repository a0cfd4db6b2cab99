//! The situations of the trade, drawn with what somebody saw in place of the framing: the role and certainty of each wall.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Plan, Saw, Studs, Way};
use joistwise_core::readings::{Certainty, Judged, Why, as_known, judge, known_trace};
use joistwise_core::tape::Tape;
use joistwise_core::trace::Role;
use joistwise_core::words::Words;
use joistwise_tests::read;
use serde_json::Value;

use super::{of, saw, show};

/// The index of `fixtures/evidence`.
pub(super) fn index() -> Vec<Value> {
    let all: Value = serde_json::from_str(&read("evidence/index.json")).expect("JSON");
    all.as_array().expect("a list").clone()
}

pub(super) fn house(row: &Value) -> Plan {
    let file = row["file"].as_str().expect("a file");
    Plan::from_json(&read(&format!("evidence/{file}"))).unwrap_or_else(|error| panic!("{file}: {error}"))
}

fn key<T: serde::Serialize>(value: &T) -> String {
    serde_json::to_value(value).expect("JSON").as_str().expect("a word").to_owned()
}

#[test]
fn each_wall_of_37_houses_from_evidence_has_the_role_and_certainty_of_its_situation() {
    let rows = index();
    assert_eq!(rows.len(), 37);
    let mut walls = 0;
    for row in &rows {
        let (plan, file) = (house(row), row["file"].as_str().expect("a file"));
        let all = judge(&plan);
        assert_eq!(all.contradictions, [], "{file}");
        assert!(all.levels.iter().all(|level| level.covered > 1.0 - 1e-12), "{file}: {:?}", all.levels);
        for (name, want) in row["walls"].as_object().expect("walls") {
            let got = of(&plan, &all, name);
            let want = want.as_array().expect("stretches");
            assert_eq!(got.len(), want.len(), "{file} {name}:\n{}", show(&plan, &all));
            for (got, want) in got.iter().zip(want) {
                let is = (key(&got.role()), key(&got.certainty));
                let should = ["role", "certainty"].map(|key| want[key].as_str().expect("a word").to_owned());
                assert_eq!([is.0, is.1], should, "{file} {name}:\n{}", show(&plan, &all));
                for (key, is) in [("from_ft", got.start), ("to_ft", got.end)] {
                    if let Some(want) = want.get(key).and_then(Value::as_f64) {
                        assert!((is.0 - want).abs() < 0.01, "{file} {name} {key}: {}", is.0);
                    }
                }
            }
            walls += 1;
        }
        for name in row.get("open").and_then(Value::as_array).into_iter().flatten() {
            let got = of(&plan, &all, name.as_str().expect("a wall"));
            let open = got.iter().all(|it| it.certainty != Certainty::Certain);
            assert!(open, "{file} {name}:\n{}", show(&plan, &all));
        }
        for name in row.get("runs_on").and_then(Value::as_array).into_iter().flatten() {
            let known = as_known(&plan);
            let studs = known.wall_named(name.as_str().expect("a wall")).expect("drawn").studs;
            assert_eq!(studs, Studs::PastTheFloor, "{file} {name}");
        }
        if let Some(want) = row.get("ruled_out").and_then(Value::as_array) {
            assert_eq!(all.ruled_out.len(), want.len(), "{file}: {:?}", all.ruled_out);
            for (got, want) in all.ruled_out.iter().zip(want) {
                let answer = serde_json::to_value(got.answer).expect("JSON");
                assert_eq!(answer["answer"], want["answer"], "{file}");
                let Why::TooLong { span, reach, .. } = got.why else { panic!("{file}: {:?}", got.why) };
                for (key, is) in [("span_ft", span), ("reach_ft", reach)] {
                    let want = want[key].as_f64().expect("feet");
                    assert!((is.0 - want).abs() < 1e-3, "{file} {key}: {}", is.0);
                }
            }
        }
    }
    println!("{} houses, {walls} walls", rows.len());
}

#[test]
fn every_file_of_the_evidence_is_in_its_index_once() {
    let entries = std::fs::read_dir(joistwise_tests::fixtures().join("evidence")).expect("fixtures/evidence");
    let names = entries.filter_map(|entry| entry.ok()?.file_name().into_string().ok());
    let mut names: Vec<String> = names.filter(|name| name != "index.json").collect();
    names.sort();
    let mut listed: Vec<String> = index().iter().map(|row| row["file"].as_str().expect("a file").to_owned()).collect();
    listed.sort();
    assert_eq!(names, listed);
}

/// What is known is never more than what all readings agree on.
#[test]
fn where_the_known_trace_says_nothing_found_all_readings_of_37_houses_say_so() {
    for row in index() {
        let plan = house(&row);
        let (all, known) = (judge(&plan), known_trace(&plan));
        for it in &all.stretches {
            let middle = (it.start.0 + it.end.0) / 2.0;
            let stretches = known.wall(it.wall).map(|wall| wall.stretches.as_slice()).unwrap_or_default();
            let here = stretches.iter().find(|known| known.start.0 <= middle && middle <= known.end.0);
            let role = here.map_or(Role::NeedsALook, |it| it.role);
            let sound = match role {
                Role::NothingFound => super::is_certain(it, role),
                Role::NeedsALook => true,
                _ => it.role() != Role::NothingFound || it.certainty != Certainty::Certain,
            };
            assert!(sound, "{} says {role:?}:\n{}", row["file"], show(&plan, &all));
        }
    }
}

/// Laps and a ridge board seen, nobody looked for struts: that the wall bears is settled, what it bears is not; said so.
#[test]
fn a_wall_that_bears_in_every_reading_says_so_though_what_it_bears_is_only_likely() {
    let plan = draft().outside(40, 26).inside("A", (0, 13), (40, 13)).inside("B", (20, 0), (20, 13)).done();
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::RidgeBoard);
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::Y });
    let plan = saw(&plan, 0, (10.0, 13.0), Saw::JoistsLap);
    let all = judge(&plan);
    let text = |it: &Judged| Words::new(&plan, Tape::default()).certainty(it);
    for it in of(&plan, &all, "A") {
        assert!(it.certainty == Certainty::Likely && it.bears_in_all, "{}", show(&plan, &all));
        assert!(text(it).starts_with("bears in all that fits"), "{}", text(it));
    }
    for it in of(&plan, &all, "B") {
        assert!(it.certainty != Certainty::Certain && !it.bears_in_all, "{}", show(&plan, &all));
        assert!(!text(it).contains("bears in all"), "{}", text(it));
    }
    // Two facts that cannot both be true leave nothing settled.
    let doubted = saw(&plan, 0, (30.0, 13.0), Saw::Gap);
    assert!(of(&doubted, &judge(&doubted), "A").iter().all(|it| !it.bears_in_all));
}

/// The page's trace shows each place as the judgement has it: nothing found where that is certain, what it likely carries, else a
/// look. The trace of what is drawn spoke for itself here before, beside "certain: roof" on the same card.
#[test]
fn each_place_is_shown_as_the_judgement_has_it() {
    let mut settled = 0;
    for row in index() {
        let (plan, file) = (house(&row), row["file"].as_str().expect("a file").to_owned());
        let (all, before) = (judge(&plan), known_trace(&plan));
        let mut after = before.clone();
        all.settle(&mut after);
        for (was, is) in before.walls.iter().zip(&after.walls) {
            let ends: Vec<_> = is.stretches.iter().flat_map(|it| [it.start, it.end]).collect();
            assert_eq!(
                (ends.first(), ends.last()),
                (was.stretches.first().map(|it| &it.start), was.stretches.last().map(|it| &it.end))
            );
            assert!(ends.windows(2).all(|it| it[0] <= it[1]), "{file}: {ends:?}");
            for step in 0..400 {
                let at = was.length * (f64::from(step) + 0.5) / 400.0;
                let role = |of: &joistwise_core::trace::WallTrace| {
                    of.stretches.iter().find(|it| it.start <= at && at <= it.end).map(|it| it.role)
                };
                let here = all.of_wall(was.wall).find(|it| it.start <= at && at <= it.end);
                let want = here.map(Judged::shown).or_else(|| role(was));
                assert_eq!(role(is), want, "{file} at {} ft", at.0);
                settled += usize::from(want != role(was));
            }
        }
    }
    assert!(settled > 400, "{settled} places");
}
