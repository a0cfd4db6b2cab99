//! The two doors from outside, file and link: what is refused gets its sentence and touches nothing, what is old opens as it
//! was, what is not known is kept.

use std::fs;

use joistwise_core::plan::{Edit, Of, Photo, Plan, PlanFile, VERSION};
use joistwise_core::report;
use joistwise_core::trace::trace;
use joistwise_tests::{fixtures, house, houses, read};
use joistwise_wasm::app::{App, Command};
use joistwise_wasm::store;
use serde_json::{Value, json};

fn names(folder: &str) -> Vec<String> {
    let entries = fs::read_dir(fixtures().join(folder)).expect("a folder of fixtures").flatten();
    let mut names: Vec<String> = entries.filter_map(|entry| entry.file_name().into_string().ok()).collect();
    names.sort();
    names
}

fn is_link(name: &str) -> bool {
    name.ends_with(".link")
}

/// Opens a fixture by its door.
fn open(name: &str, text: &str) -> Result<Plan, String> {
    if is_link(name) {
        Plan::from_link(text).map_err(|error| error.to_string())
    } else {
        Plan::from_json(text).map_err(|error| error.to_string())
    }
}

#[test]
fn every_broken_file_and_link_gets_its_sentence_and_the_open_house_stays_byte_for_byte() {
    let mut app = App::new();
    app.command(Command::New("36' x 24'".to_owned()));
    let before = (store::file_text(&app), store::link(&app), store::trace_text(&app));
    let mut said: Vec<(String, String)> = Vec::new();
    for name in names("broken").into_iter().filter(|name| name != "sentences.json") {
        let text = read(&format!("broken/{name}"));
        let sentence = open(&name, &text).expect_err(&name);
        assert_eq!(sentence.lines().count(), 1, "{name}: {sentence}");
        assert!(sentence.chars().count() <= 400, "{name}: {sentence}");
        let opened = if is_link(&name) { store::open_link(&mut app, &text) } else { store::open_file(&mut app, &text) };
        assert!(!opened, "{name}");
        let now = (store::file_text(&app), store::link(&app), store::trace_text(&app));
        assert!(now == before, "{name} changed the open house");
        said.push((name, sentence));
    }
    assert!(said.len() >= 80, "{} broken files and links", said.len());
    let table: serde_json::Map<String, Value> = said.into_iter().map(|(name, says)| (name, says.into())).collect();
    let text = serde_json::to_string_pretty(&table).expect("JSON") + "\n";
    let path = fixtures().join("broken/sentences.json");
    if std::env::var_os("UPDATE").is_some() {
        fs::write(&path, &text).expect("written");
    }
    let accepted: serde_json::Map<String, Value> =
        serde_json::from_str(&fs::read_to_string(path).unwrap_or_default()).unwrap_or_default();
    for (name, sentence) in &table {
        assert_eq!(accepted.get(name), Some(sentence), "{name}");
    }
    assert_eq!(accepted.len(), table.len());
}

#[test]
fn files_and_links_of_version_1_open_to_the_trace_that_they_had() {
    let old = names("old");
    assert!(old.iter().any(|name| is_link(name)) && old.iter().any(|name| name.ends_with(".json")));
    for name in old.iter().filter(|name| !name.ends_with(".txt")) {
        let plan = open(name, &read(&format!("old/{name}"))).expect(name);
        let text = report::text(&plan, &trace(&plan));
        let stem = name.split('.').next().expect("a name");
        let path = fixtures().join(format!("old/{stem}.txt"));
        if std::env::var_os("UPDATE").is_some() {
            fs::write(&path, &text).expect("written");
        }
        assert_eq!(fs::read_to_string(path).unwrap_or_default(), text, "{name}");
        // Saved by this version it is the same house, and of this version.
        let saved = plan.to_json();
        assert!(saved.contains(&format!("\"version\": {VERSION}")), "{name}");
        assert!(Plan::from_json(&saved).expect(name) == plan, "{name}");
    }
}

/// All that a file of version 1 could hold means in version 2 what it meant, and stands there by its key, each photo once.
#[test]
fn layers_level_names_and_photos_of_version_1_mean_the_same_by_their_keys() {
    let plan = Plan::from_json(&read("old/v1-all-it-could-hold.json")).expect("sound");
    let photos: Vec<&Photo> = plan.levels().iter().flat_map(|it| &it.observations).map(|it| &it.photo).collect();
    assert!(photos.len() == 3 && photos.iter().all(|photo| photo.starts_with("data:image/")));
    let file: Value = serde_json::from_str(&plan.to_json()).expect("JSON");
    let text = file.to_string();
    assert_eq!(file["photos"].as_array().map(Vec::len), Some(2));
    assert_eq!(text.matches("data:image/png").count(), 1);
    assert_eq!(file["levels"][1]["name"], json!({"usual": "first_floor"}));
    for english in ["First floor", "gypsum ceiling", "wood shakes"] {
        assert!(!text.contains(english), "{english}");
    }
    assert!(text.contains("\"roof_wood_shakes\"") && text.contains("\"partition_gypsum_both_sides\""));
    assert_eq!(plan.levels()[1].name, "First floor");
    assert_eq!((plan.kept().len(), plan.ticks().len()), (1, 2));
}

/// Fields of a version to come, on the house, the site, a level, each kind of part and an object in one.
#[test]
fn what_is_not_known_is_written_back_where_it_stood_also_after_a_change_and_through_a_link() {
    let mut file: Value = serde_json::from_str(&house("one-storey-gable-valley.json").to_json()).expect("JSON");
    file["tower"] = json!({"floors": [1, 2, {"x": null}]});
    file["site"]["wind"] = json!(115);
    for level in file["levels"].as_array_mut().expect("levels") {
        level["ceiling"] = json!("coved");
        for list in level.as_object_mut().expect("a level").values_mut().filter_map(Value::as_array_mut) {
            for part in list.iter_mut().filter(|part| part.get("id").is_some()) {
                part["colour"] = json!(part["id"].as_u64().map(|id| id * 2));
                if let Some(jamb) = part.get_mut("first").and_then(Value::as_object_mut) {
                    jamb.insert("trimmers".to_owned(), json!(1));
                }
            }
        }
    }
    let text = file.to_string();
    let plan = Plan::from_json(&text).expect("sound");
    let same = |plan: &Plan| serde_json::from_str::<Value>(&plan.to_json()).expect("JSON");
    assert_eq!(same(&plan), file);
    assert_eq!(same(&Plan::from_link(&plan.to_link()).expect("whole")), file);
    assert_eq!(Plan::from_json(&plan.to_json()).expect("sound").to_json(), plan.to_json());
    // A change of something else leaves it; a part that goes takes its own along, and no other gets it.
    let gone = plan.levels()[0].element_ids()[0];
    let renamed = plan.with(&Edit::Name("Another".to_owned())).expect("sound");
    file["name"] = json!("Another");
    assert_eq!(same(&renamed), file);
    let without = renamed.with(&Edit::Remove(gone)).expect("sound").to_json();
    assert_eq!(without.matches("\"colour\"").count(), text.matches("\"colour\"").count() - 1);
}

#[test]
fn too_much_that_is_not_known_is_refused_and_not_dropped() {
    let mut file: Value = serde_json::from_str(&Plan::new("x").to_json()).expect("JSON");
    file["tower"] = json!("x".repeat(Of::Unknown.most() + 1));
    let error = Plan::from_json(&file.to_string()).expect_err("too much").to_string();
    assert!(error.contains("letters that this version does not know"), "{error}");
}

/// The limits on photos, which are too large for a fixture: a byte over each.
#[test]
fn a_photo_over_a_million_bytes_and_photos_over_twelve_million_are_refused() {
    let plan = Plan::from_json(&read("old/v1-all-it-could-hold.json")).expect("sound");
    let with = |bytes: usize, photos: usize| {
        let mut file = PlanFile::from(&plan);
        file.photos.clear();
        let seen = file.levels.iter_mut().find(|level| !level.observations.is_empty()).expect("a level");
        let one = seen.observations[0].clone();
        seen.observations = (0..photos)
            .map(|at| {
                let id = joistwise_core::ids::ObservationId::from_number(1_000 + u32::try_from(at).expect("few"));
                let picture = format!("data:image/png;base64,{at:04}{}", "A".repeat(bytes - 26));
                joistwise_core::plan::Observation { id, photo: Photo::from(picture), ..one.clone() }
            })
            .collect();
        Plan::try_from(file).map(|plan| plan.to_json()).map_err(|error| error.to_string())
    };
    let most = (Of::Photo.most(), Of::Photos.most());
    assert!(with(most.0 + 1, 1).is_err_and(|says| says.contains("bytes in one photo")));
    assert!(with(most.0, 13).is_err_and(|says| says.contains("bytes in all photos together")));
    let largest = with(most.0, most.1 / most.0).expect("within the limits");
    assert!(Plan::from_json(&largest).is_ok_and(|plan| plan.to_json() == largest));
}

/// Told as data, so that the page can say it: what a link leaves out.
#[test]
fn a_link_tells_which_photos_it_leaves_out() {
    let plan = Plan::from_json(&read("old/v1-all-it-could-hold.json")).expect("sound");
    let link = plan.link();
    assert_eq!((link.left_out.photos, link.left_out.photo_bytes), (3, 2 * 118 + 78));
    let opened = Plan::from_link(&link.part).expect("whole");
    assert_eq!(opened.link().left_out.photos, 0);
    assert_eq!(opened.to_link(), link.part);
}

/// Three fixtures stacked: 122 elements. Of 40, the two fixtures that come next to it.
#[test]
fn a_link_of_40_elements_has_at_most_1_100_letters_and_one_of_120_at_most_2_000() {
    let elements = |plan: &Plan| plan.levels().iter().map(|level| level.element_ids().len()).sum::<usize>();
    let mut stacked = PlanFile::from(&house("s12b-second-roof-over-first.json"));
    for (name, number) in [("one-storey-gable-valley.json", 1_000), ("s16-two-hall-walls.json", 2_000)] {
        let mut text = serde_json::to_value(PlanFile::from(&house(name))).expect("JSON");
        renumber(&mut text, number);
        let file: PlanFile = serde_json::from_value(text).expect("a file");
        stacked.levels.extend(file.levels);
    }
    let stacked = Plan::try_from(stacked).expect("sound");
    let mut all: Vec<(usize, usize)> = houses()
        .iter()
        .map(|name| house(name))
        .chain([stacked])
        .map(|plan| (elements(&plan), plan.to_link().len()))
        .collect();
    all.sort_unstable();
    println!("elements and letters: {all:?}");
    let longest = |most: usize| all.iter().filter(|it| it.0 <= most).map(|it| it.1).max().unwrap_or_default();
    assert!(all.iter().any(|it| it.0 >= 39 && it.0 <= 41) && all.iter().any(|it| it.0 >= 120));
    assert!(longest(41) <= 1_100 && longest(125) <= 2_000, "{all:?}");
}

/// Adds to every number of a part, and to every wall that an opening names.
fn renumber(value: &mut Value, by: u64) {
    match value {
        Value::Array(list) => list.iter_mut().for_each(|it| renumber(it, by)),
        Value::Object(fields) => {
            for (key, field) in fields {
                if matches!(key.as_str(), "id" | "wall") && field.is_u64() {
                    *field = json!(field.as_u64().map(|number| number + by));
                } else {
                    renumber(field, by);
                }
            }
        }
        _ => {}
    }
}

/// `id-max-debug-panic.json`: a part had the largest number there is, and nothing could be added any more.
#[test]
fn parts_with_the_largest_numbers_there_are_do_not_stop_adding() {
    let text = house("one-storey-gable-centre-wall-laps.json").to_json();
    let mut file: Value = serde_json::from_str(&text).expect("JSON");
    renumber(&mut file, u64::from(u32::MAX) - 200);
    let last = file["levels"][0]["walls"][0].clone();
    file["levels"][0]["walls"][0]["id"] = json!(u32::MAX);
    for opening in file["levels"][0]["openings"].as_array_mut().expect("openings") {
        if opening["wall"] == last["id"] {
            opening["wall"] = json!(u32::MAX);
        }
    }
    let mut plan = Plan::from_json(&file.to_string()).expect("sound");
    for _ in 0..3 {
        let level = &plan.levels()[0];
        let wall = joistwise_core::plan::Element::Wall(level.walls[0].clone());
        plan = plan.with(&Edit::Add(level.id, wall)).expect("room for one more");
    }
    let before = house("one-storey-gable-centre-wall-laps.json");
    assert_eq!(trace(&plan).walls.len(), trace(&before).walls.len() + 3);
}

#[test]
fn a_house_of_a_newer_version_is_refused_as_such_and_its_text_is_still_the_callers() {
    let text = read("broken/next-version.json");
    let kept = text.clone();
    let error = Plan::from_json(&text).expect_err("newer").to_string();
    assert!(error.contains("(3)") && error.contains("up to 2"), "{error}");
    assert_eq!(text, kept);
}

#[test]
fn the_limits_stand_in_the_schema_and_in_the_readme() {
    let schema = read("house.schema.json");
    let readme = fs::read_to_string(fixtures().join("../README.md")).expect("README.md");
    for of in Of::ALL {
        let (what, most) = (of.what(), of.most());
        assert!(schema.contains(&format!("\"{what}\": {most}")), "the schema does not limit {what} to {most}");
        let row = readme.lines().find(|line| line.starts_with(&format!("| {what} |")));
        let number = row.and_then(|row| row.split('|').nth(2)).map(|it| it.trim().replace(',', ""));
        assert_eq!(number.as_deref(), Some(most.to_string().as_str()), "README on {what}");
    }
}
