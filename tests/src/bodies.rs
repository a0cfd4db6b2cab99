//! What the fuzz targets run, one function each: bytes in, nothing out, a panic where a law is broken.
//!
//! `tests/fuzz` gives them to a fuzzer; `tests/tests/fuzzed.rs` runs them on bytes of a fixed seed. Each takes its first bytes as a
//! choice among the fixtures and the rest as changes of it, so that most of what it tries gets past the first check.

use std::fs;
use std::sync::OnceLock;

use arbitrary::{Result, Unstructured};
use base64::Engine as _;
use base64::engine::general_purpose::URL_SAFE_NO_PAD;
use joistwise_core::card::card_in;
use joistwise_core::ids::{ElementId, LevelId};
use joistwise_core::plan::{Edit, Element, LevelKind, Plan, Point, WallEnd};
use joistwise_core::report;
use joistwise_core::tape::{self, Tape};
use joistwise_core::trace::trace;
use joistwise_core::units::Ticks;
use joistwise_wasm::app::{App, Command};
use joistwise_wasm::gesture::{Button, By, Input, Pointer, Press, meaning};
use joistwise_wasm::store;
use joistwise_wasm::view::Screen;
use serde_json::{Value, json};

use crate::fixtures;

/// A body: what it is called, and what it does with bytes.
pub type Body = (&'static str, fn(&[u8]));

/// All of them.
pub const BODIES: [Body; 5] =
    [("file", file), ("link", link), ("tape", read_tape), ("edits", edits), ("session", session)];

/// The houses that changes start from.
fn seeds() -> &'static [Value] {
    static SEEDS: OnceLock<Vec<Value>> = OnceLock::new();
    SEEDS.get_or_init(|| {
        let mut files: Vec<_> = ["houses", "evidence", "old"]
            .into_iter()
            .flat_map(|folder| fs::read_dir(fixtures().join(folder)).expect("fixtures").flatten())
            .map(|entry| entry.path())
            .filter(|path| path.extension().is_some_and(|it| it == "json") && !path.ends_with("index.json"))
            .collect();
        files.sort();
        files.iter().map(|path| serde_json::from_str(&fs::read_to_string(path).expect("text")).expect("JSON")).collect()
    })
}

/// A text that nothing we print may hold: a figure that is no number.
///
/// # Panics
///
/// If it holds one.
pub fn is_all_numbers(text: &str) {
    let words = text.split(|c: char| !c.is_alphanumeric());
    let bad = words.clone().zip(words.skip(1)).find(|(word, _)| matches!(*word, "inf" | "NaN" | "infinity"));
    if let Some((word, next)) = bad {
        let at = text.find(&format!("{word} {next}")).or_else(|| text.find(word)).unwrap_or_default();
        let from = (0..=at.saturating_sub(200)).rev().find(|it| text.is_char_boundary(*it)).unwrap_or_default();
        let part: String = text.chars().skip(text.get(..from).unwrap_or_default().chars().count()).take(400).collect();
        panic!("a figure is no number: {part}");
    }
}

/// Everything that is worked out of a plan, as the page and the command show it.
///
/// # Panics
///
/// If a law is broken.
pub fn follow(plan: &Plan, u: &mut Unstructured<'_>) -> Result<()> {
    let traced = trace(plan);
    assert!(traced.ledger.worst_share_off().is_finite(), "the ledger is no number");
    is_all_numbers(&report::text(plan, &traced));
    let parts: Vec<ElementId> = plan.levels().iter().flat_map(|level| level.element_ids()).collect();
    for part in parts.iter().take(60) {
        let tape = if u.ratio(1, 2)? { Tape::Feet } else { Tape::Metric };
        is_all_numbers(&serde_json::to_string(&card_in(plan, &traced, *part, tape)).expect("JSON"));
    }
    let mut app = App::new();
    app.resize(f64::from(u.int_in_range(200..=1400)?), f64::from(u.int_in_range(200..=1000)?), 2.0);
    app.open(plan.clone());
    for _ in 0..30 {
        if !app.read_on() {
            break;
        }
    }
    let ways = [json!("study"), json!({"survey": true}), json!({"study_set": {"key": "set", "value": "flush"}})];
    for _ in 0..u.int_in_range(0..=3)? {
        if let Ok(part) = u.choose(&parts) {
            tell(&mut app, json!({ "choose": part }));
            tell(&mut app, u.choose(&ways)?.clone());
            shown(&app);
        }
    }
    shown(&app);
    Ok(())
}

fn tell(app: &mut App, command: Value) {
    if let Ok(command) = serde_json::from_value::<Command>(command) {
        app.command(command);
    }
}

/// What the page shows now.
fn shown(app: &App) {
    is_all_numbers(&serde_json::to_string(&app.state()).expect("JSON"));
    is_all_numbers(&store::drawing(app));
}

/// One more change of a JSON value, somewhere in it.
fn change(value: &mut Value, u: &mut Unstructured<'_>) -> Result<()> {
    let whole = count(value);
    let at = u.int_in_range(0..=whole.saturating_sub(1))?;
    let from = u.int_in_range(0..=whole.saturating_sub(1))?;
    let other = nth(value, &mut from.clone()).cloned().unwrap_or_default();
    let Some(here) = nth_mut(value, &mut at.clone()) else { return Ok(()) };
    let numbers = [0.0, -1.0, 1.0, 0.5, 16.0, 96.0, 1e-4, 120_000.0, 1e9, 4_294_967_295.0, 0.062_5, 255.0, 1e300];
    let texts =
        ["", "x", "2x10", "3-2x12", "LVL 14", "outside", "none", "p1", "joists_lap", "\u{202e}<b>", "data:image/a"];
    match u.int_in_range(0..=9)? {
        0 => *here = json!(u.choose(&numbers)?),
        1 => *here = json!(u.choose(&texts)?),
        2 => *here = other,
        3 => {
            *here = [json!(null), json!([]), json!({}), json!(true)]
                .get(u.int_in_range(0..=3)?)
                .cloned()
                .unwrap_or_default()
        }
        4 | 5 => {
            if let Some(number) = here.as_f64() {
                let by = [-1.0, 0.5, 2.0, 3.0, 10.0, 1.001].get(u.int_in_range(0..=5)?).copied().unwrap_or(1.0);
                *here = json!(number * by);
            }
        }
        6 | 7 => {
            if let Some(number) = here.as_f64() {
                *here = json!(number + f64::from(u.int_in_range(-400..=400)?) / 16.0);
            }
        }
        8 => match here {
            Value::Array(list) if !list.is_empty() => drop(list.remove(u.int_in_range(0..=list.len() - 1)?)),
            Value::Object(fields) => {
                let keys: Vec<String> = fields.keys().cloned().collect();
                if let Ok(key) = u.choose(&keys) {
                    fields.remove(key);
                }
            }
            _ => {}
        },
        _ => match here {
            Value::Array(list) if !list.is_empty() => {
                let mut more = u.choose(list)?.clone();
                if let Some(id) = more.get_mut("id") {
                    *id = json!(10_000 + u.int_in_range(0..=2_000)?);
                }
                list.push(more);
            }
            Value::Object(fields) => drop(fields.insert("tower".to_owned(), other)),
            _ => {}
        },
    }
    Ok(())
}

fn count(value: &Value) -> usize {
    1 + match value {
        Value::Array(list) => list.iter().map(count).sum(),
        Value::Object(fields) => fields.values().map(count).sum(),
        _ => 0,
    }
}

fn nth<'a>(value: &'a Value, left: &mut usize) -> Option<&'a Value> {
    if *left == 0 {
        return Some(value);
    }
    *left -= 1;
    match value {
        Value::Array(list) => list.iter().find_map(|it| nth(it, left)),
        Value::Object(fields) => fields.values().find_map(|it| nth(it, left)),
        _ => None,
    }
}

fn nth_mut<'a>(value: &'a mut Value, left: &mut usize) -> Option<&'a mut Value> {
    if *left == 0 {
        return Some(value);
    }
    *left -= 1;
    match value {
        Value::Array(list) => list.iter_mut().find_map(|it| nth_mut(it, left)),
        Value::Object(fields) => fields.values_mut().find_map(|it| nth_mut(it, left)),
        _ => None,
    }
}

fn changed(u: &mut Unstructured<'_>) -> Result<Value> {
    let mut file = u.choose(seeds())?.clone();
    for _ in 0..u.int_in_range(0..=4)? {
        change(&mut file, u)?;
    }
    Ok(file)
}

/// A house file: refused in one line, or a house that comes back from its file and its link, and is followed through.
///
/// # Panics
///
/// If a law is broken.
pub fn file(bytes: &[u8]) {
    let mut u = Unstructured::new(bytes);
    let text = match u.int_in_range(0..=15) {
        Ok(0) => String::from_utf8_lossy(bytes.get(1..).unwrap_or_default()).into_owned(),
        Ok(1) => {
            let text = u.choose(seeds()).map(Value::to_string).unwrap_or_default();
            let end = u.int_in_range(0..=text.len()).unwrap_or_default();
            text.get(..end).unwrap_or(&text).to_owned()
        }
        Ok(_) => changed(&mut u).map(|it| it.to_string()).unwrap_or_default(),
        Err(_) => String::new(),
    };
    match Plan::from_json(&text) {
        Ok(plan) => {
            comes_back(&plan);
            let _ = follow(&plan, &mut u);
        }
        Err(why) => one_line(&why.to_string()),
    }
}

fn one_line(sentence: &str) {
    assert!(sentence.lines().count() == 1 && sentence.chars().count() <= 400, "{sentence}");
}

fn comes_back(plan: &Plan) {
    let text = plan.to_json();
    let again = Plan::from_json(&text).unwrap_or_else(|why| panic!("{why}\n{text}"));
    assert!(again.to_json() == text, "file, plan, file: {text}");
    let link = plan.to_link();
    let again = Plan::from_link(&link).unwrap_or_else(|why| panic!("{why}\n{link}"));
    assert!(again.to_link() == link, "link, plan, link: {link}");
}

/// A link: any text, one with a few letters changed, one whose packed bytes are changed and whose checksum is right.
///
/// # Panics
///
/// If a law is broken.
pub fn link(bytes: &[u8]) {
    let mut u = Unstructured::new(bytes);
    let made = (|| -> Result<String> {
        let kind = u.int_in_range(0..=3)?;
        if kind == 0 {
            return Ok(format!("house={}", String::from_utf8_lossy(u.bytes(u.len().min(4_000))?)));
        }
        if kind == 1 {
            return Ok(sealed(2, u.bytes(u.len().min(4_000))?));
        }
        let plan = Plan::from_json(&u.choose(seeds())?.to_string()).unwrap_or_default();
        let whole = plan.to_link();
        let mut bytes = URL_SAFE_NO_PAD.decode(whole.trim_start_matches("house=")).unwrap_or_default();
        if kind == 2 {
            alter(&mut bytes, &mut u)?;
            return Ok(format!("house={}", URL_SAFE_NO_PAD.encode(bytes)));
        }
        bytes.truncate(bytes.len().saturating_sub(4));
        let packed = miniz_oxide::inflate::decompress_to_vec(bytes.get(1..).unwrap_or_default());
        let mut packed = packed.unwrap_or_default();
        alter(&mut packed, &mut u)?;
        Ok(sealed(2, &packed))
    })();
    let link = made.unwrap_or_default();
    match Plan::from_link(&link) {
        Ok(plan) => {
            comes_back(&plan);
            let _ = follow(&plan, &mut u);
        }
        Err(why) => one_line(&why.to_string()),
    }
}

fn alter(bytes: &mut Vec<u8>, u: &mut Unstructured<'_>) -> Result<()> {
    for _ in 0..u.int_in_range(1..=4)? {
        let at = u.int_in_range(0..=bytes.len().saturating_sub(1))?;
        match u.int_in_range(0..=3)? {
            0 => bytes.truncate(at),
            1 => bytes.insert(at.min(bytes.len()), u.arbitrary()?),
            _ => {
                let other = u.arbitrary()?;
                bytes.get_mut(at).into_iter().for_each(|byte| *byte = other);
            }
        }
    }
    Ok(())
}

/// A link of packed bytes, its checksum right.
#[must_use]
pub fn sealed(version: u8, packed: &[u8]) -> String {
    let mut bytes = vec![version];
    bytes.extend(miniz_oxide::deflate::compress_to_vec(packed, 1));
    bytes.extend(adler2::adler32_slice(&bytes).to_le_bytes());
    format!("house={}", URL_SAFE_NO_PAD.encode(bytes))
}

/// A length as people type it: what is read is printed, and read again is the same to what the print shows.
///
/// # Panics
///
/// If a law is broken.
pub fn read_tape(bytes: &[u8]) {
    let mut u = Unstructured::new(bytes);
    let pieces = [
        "12", "'", "\"", " ", "-", "1/2", "3/", "ft", "in", "m", "cm", "mm", ".", "5", "0", "x", "e9", "999999", "½",
        "’", "/", "+",
    ];
    let text = if u.ratio(1, 4).unwrap_or(true) {
        String::from_utf8_lossy(u.take_rest()).into_owned()
    } else {
        let many = u.int_in_range(0..=9).unwrap_or_default();
        (0..many).filter_map(|_| u.choose(&pieces).ok().copied()).collect()
    };
    let _ = tape::read_pair(&text).map_err(|why| one_line(&why.to_string().chars().take(300).collect::<String>()));
    if let Ok(length) = tape::read(&text) {
        for tape in [Tape::Feet, Tape::Metric] {
            let print = tape::print(length, tape);
            is_all_numbers(&print);
            let again = tape::read(&print).unwrap_or_else(|why| panic!("'{text}' is printed as '{print}': {why}"));
            assert_eq!(tape::print(again, tape), print, "'{text}'");
        }
    }
}

fn some_point(u: &mut Unstructured<'_>) -> Result<Point> {
    let mut one = || -> Result<Ticks> {
        let inch = Ticks::PER_INCH;
        Ok(match u.int_in_range(0..=9)? {
            0 => Ticks::new(u.arbitrary()?),
            1 => Ticks::new(u.int_in_range(-2_000_000..=2_000_000)?),
            _ => Ticks::new(u.int_in_range(-60..=600)? * inch),
        })
    };
    Ok(Point::new(one()?, one()?))
}

/// Changes one after another of a house: each is refused in a line, or leaves a house that comes back and is followed through.
///
/// # Panics
///
/// If a law is broken.
pub fn edits(bytes: &[u8]) {
    let mut u = Unstructured::new(bytes);
    let _ = (|| -> Result<()> {
        let mut plan = Plan::from_json(&u.choose(seeds())?.to_string()).unwrap_or_default();
        for _ in 0..u.int_in_range(1..=8)? {
            let edit = some_edit(&plan, &mut u)?;
            let before = plan.clone();
            let after = plan.with(&edit);
            assert!(plan == before, "{edit:?} touched the plan that it was asked of");
            match after {
                Ok(after) => plan = after,
                Err(why) => one_line(&why.to_string()),
            }
        }
        comes_back(&plan);
        follow(&plan, &mut u)
    })();
}

fn some_edit(plan: &Plan, u: &mut Unstructured<'_>) -> Result<Edit> {
    let parts: Vec<ElementId> = plan.levels().iter().flat_map(|level| level.element_ids()).collect();
    let levels: Vec<LevelId> = plan.levels().iter().map(|level| level.id).collect();
    let level = *u.choose(&levels)?;
    let kinds = [LevelKind::Storey, LevelKind::Attic, LevelKind::Basement, LevelKind::CrawlSpace];
    let Ok(part) = u.choose(&parts).copied() else { return Ok(Edit::AddLevel(*u.choose(&kinds)?)) };
    Ok(match u.int_in_range(0..=11)? {
        0 => Edit::AddLevel(*u.choose(&kinds)?),
        1 => Edit::RemoveLevel(level),
        2 => Edit::Remove(part),
        3 | 4 => {
            let by = some_point(u)?;
            Edit::Move { element: part, dx: by.x, dy: by.y }
        }
        5 | 6 => {
            let end = if u.ratio(1, 2)? { WallEnd::A } else { WallEnd::B };
            Edit::MoveEnd { element: part, end, to: some_point(u)? }
        }
        7 => match part {
            ElementId::Wall(wall) => Edit::Split { wall, at: some_point(u)?.x },
            _ => Edit::Name("\u{202e}<b>".to_owned()),
        },
        8 => {
            let count = u.int_in_range(0..=7)?;
            Edit::Outline { level, corners: (0..count).map(|_| some_point(u)).collect::<Result<_>>()? }
        }
        9 | 10 => {
            let mut element = serde_json::to_value(plan.element(part)).unwrap_or_default();
            change(&mut element, u)?;
            match serde_json::from_value::<Element>(element) {
                Ok(element) if u.ratio(1, 2)? => Edit::Add(level, element),
                Ok(element) => Edit::Change(element),
                Err(_) => Edit::Remove(part),
            }
        }
        _ => Edit::Add(level, plan.element(part).ok_or(arbitrary::Error::IncorrectFormat)?),
    })
}

/// A session at the page: pointers, wheel, keys, commands in any order; after each a state and a drawing.
///
/// # Panics
///
/// If a law is broken.
pub fn session(bytes: &[u8]) {
    let mut u = Unstructured::new(bytes);
    let mut app = App::new();
    app.resize(834.0, 600.0, 2.0);
    let _ = (|| -> Result<()> {
        if u.ratio(3, 4)? {
            store::open_file(&mut app, &u.choose(seeds())?.to_string());
        }
        while !u.is_empty() {
            step(&mut app, &mut u)?;
            if u.ratio(1, 8)? {
                shown(&app);
            }
        }
        Ok(())
    })();
    shown(&app);
    comes_back(app.plan());
}

fn step(app: &mut App, u: &mut Unstructured<'_>) -> Result<()> {
    let at = Screen { x: f64::from(u.int_in_range(-50..=900)?), y: f64::from(u.int_in_range(-50..=650)?) };
    let by = if u.ratio(1, 4)? { By::Finger } else { By::Mouse };
    let button = if u.ratio(7, 8)? { Button::First } else { Button::Middle };
    let pointer = Pointer { id: i32::from(u.ratio(1, 8)?), at, by, button };
    match u.int_in_range(0..=11)? {
        0 | 1 => app.update(&Input::Down(pointer)),
        2 | 3 => app.update(&Input::Move(pointer)),
        4 | 5 => app.update(&Input::Up(pointer)),
        6 => {
            app.update(&Input::Down(pointer));
            app.update(&Input::Up(pointer));
        }
        7 => {
            let dy = *u.choose(&[-500.0, -10.0, 10.0, 500.0, 0.0])?;
            app.update(&Input::Wheel { at, dx: 3.0, dy, spread: u.ratio(1, 2)? });
        }
        8 => {
            let keys = [
                "ArrowLeft",
                "ArrowUp",
                "PageDown",
                "z",
                "y",
                "Enter",
                "Escape",
                "Delete",
                "+",
                "-",
                "0",
                "e",
                "v",
                "o",
                "w",
                "d",
                "j",
                "r",
                "b",
                "p",
                "s",
                "h",
                "f",
                "k",
                "l",
                "n",
                "u",
                "c",
                "t",
                "g",
                "a",
            ];
            let key = (*u.choose(&keys)?).to_owned();
            let press = Press { key, shift: u.ratio(1, 4)?, command: u.ratio(1, 4)?, alt: false };
            if let Some(key) = meaning(&press) {
                app.update(&Input::Key(key));
            }
        }
        9 => app.update(u.choose(&[
            Input::Cancel(0),
            Input::Leave,
            Input::Blur,
            Input::Space(true),
            Input::Space(false),
        ])?),
        10 => {
            for _ in 0..10 {
                app.read_on();
            }
        }
        _ => {
            let command = some_command(app, u)?;
            tell(app, command);
        }
    }
    Ok(())
}

fn some_command(app: &App, u: &mut Unstructured<'_>) -> Result<Value> {
    let parts: Vec<ElementId> = app.plan().levels().iter().flat_map(|level| level.element_ids()).collect();
    let levels: Vec<u32> = app.plan().levels().iter().map(|level| level.id.number()).collect();
    let text = *u.choose(&[
        "",
        "12'",
        "3 ft",
        "-4",
        "0",
        "36' x 24'",
        "999999'",
        "2x10",
        "x",
        "16",
        "yes",
        "20",
        "1e300",
        "½",
    ])?;
    let keys = [
        "name",
        "note",
        "height",
        "thickness",
        "spacing",
        "member",
        "rise",
        "overhang",
        "dead",
        "weight",
        "layers",
        "width",
        "offset",
        "from",
        "to",
        "set",
        "posts",
        "lumber",
        "ground_snow",
        "soil",
        "day",
        "known",
        "kind",
        "region",
        "along",
    ];
    let set = json!({ "key": u.choose(&keys)?, "value": text });
    let plain = [
        "back",
        "strip",
        "see_chosen",
        "see_nothing",
        "study",
        "study_keep",
        "study_take",
        "study_close",
        "remove",
        "clear",
        "undo",
        "redo",
        "fit",
        "dismiss",
    ];
    Ok(match u.int_in_range(0..=13)? {
        0 | 1 => json!(u.choose(&plain)?),
        2 => json!({ "choose": u.choose(&parts).ok() }),
        3 => json!({ "set": set }),
        4 => json!({ "set_level": set }),
        5 => json!({ "set_house": set }),
        6 => json!({ "study_set": set }),
        7 => json!({ "typed": text }),
        8 => json!({ "level": u.choose(&levels)? }),
        9 => json!({ "add_level": u.choose(&["storey", "attic", "basement", "crawl_space"])? }),
        10 => json!({ "zoom": u.choose(&[0.5, 2.0, 0.8, 1.25])? }),
        11 => json!({ "pan": [u.choose(&[0.0, -40.0, 300.0, 5_000.0])?, 20.0] }),
        12 => json!({ "stretch": u.int_in_range(0..=4)? }),
        _ => u
            .choose(&[
                json!({ "survey": true }),
                json!({ "study_open": 0 }),
                json!({ "study_drop": 0 }),
                json!({ "tape": "metric" }),
                json!({ "new": text }),
                json!({ "move_by": [text, "1'"] }),
                json!({ "cut": text }),
                json!({ "looked": [0, 0, "2026-11-28"] }),
                json!({ "record": ["joists_lap", "", "2026-11-28"] }),
            ])?
            .clone(),
    })
}
