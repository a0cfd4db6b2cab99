//! Every fixture, every part chosen, from far away to close up, on a phone, a tablet and a desk.

use std::fs;
use std::path::Path as Folder;
use std::rc::Rc;

use joistwise_core::path::{Path, Start, path};
use joistwise_core::plan::Level;
use joistwise_core::readings::{as_known, known_trace};

use super::*;
use crate::scene::fit::extent;

/// Width and height of the canvas in CSS pixels.
const CANVASES: [(f64, f64); 3] = [(390.0, 844.0), (834.0, 1112.0), (1280.0, 800.0)];
/// CSS pixels a foot, besides the one at which the whole house is 40 px wide.
const PX_PER_FOOT: [f64; 4] = [1.5, 5.0, 24.0, 100.0];

#[test]
fn every_part_of_every_house_is_drawn_at_every_scale() {
    let houses = plans("houses");
    assert!(houses.len() > 30, "{} houses", houses.len());
    draw_all(&houses);
}

#[test]
fn every_part_of_every_house_that_was_looked_at_is_drawn_at_every_scale() {
    let houses = plans("evidence");
    assert!(houses.len() > 30, "{} houses", houses.len());
    draw_all(&houses);
}

/// A wall of 12 in carries the end of a beam: at 24 px a foot its share of the load is wider than it is long.
#[test]
fn a_stub_of_wall_shorter_than_the_figure_beside_it_is_drawn() {
    let text = r#"{"format":"joistwise house","version":1,"name":"Stub","levels":[{"id":1,"name":"First floor",
        "kind":"storey","height":96,"walls":[
        {"id":2,"a":[0,0],"b":[432,0],"thickness":6.5,"side":"outside"},
        {"id":3,"a":[432,0],"b":[432,288],"thickness":6.5,"side":"outside"},
        {"id":4,"a":[432,288],"b":[0,288],"thickness":6.5,"side":"outside"},
        {"id":5,"a":[0,288],"b":[0,0],"thickness":6.5,"side":"outside"},
        {"id":6,"a":[0,144],"b":[12,144],"thickness":4.5,"side":"inside"}],
        "beams":[{"id":7,"a":[3,144],"b":[432,144],"member":"3-2x10","set":"dropped"}],
        "fields":[{"id":8,"along":[0,1],"member":"2x8","spacing":16,"joints":"lap","use":"attic_storage",
        "known":"seen"}]}]}"#;
    draw_all(&[("a stub under a beam".to_owned(), Plan::from_json(text).unwrap())]);
}

fn plans(folder: &str) -> Vec<(String, Plan)> {
    let place = Folder::new(env!("CARGO_MANIFEST_DIR")).join("../../fixtures").join(folder);
    let files = fs::read_dir(place).unwrap().map(|file| file.unwrap().path());
    let mut files: Vec<_> = files.filter(|file| file.extension().is_some_and(|it| it == "json")).collect();
    files.sort();
    let houses = files.into_iter().filter(|file| file.file_stem().is_some_and(|name| name != "index"));
    houses
        .map(|file| {
            let name = file.display().to_string();
            let plan = Plan::from_json(&fs::read_to_string(&file).unwrap()).unwrap_or_else(|e| panic!("{name}: {e}"));
            (name, plan)
        })
        .collect()
}

/// Draws each house on two threads.
#[track_caller]
fn draw_all(houses: &[(String, Plan)]) {
    std::thread::scope(|scope| {
        for half in houses.chunks(houses.len().div_ceil(2)) {
            scope.spawn(move || half.iter().for_each(|(name, plan)| draw(name, plan)));
        }
    });
}

fn draw(name: &str, plan: &Plan) {
    let known = as_known(plan);
    let trace = known_trace(plan);
    for level in known.levels() {
        let mut starts = vec![(None, None)];
        for part in level.element_ids() {
            starts.push((Some(part), path(&known, &trace, &Start::Part(part)).map(Rc::new)));
        }
        if let Some((low, high)) = extent(level) {
            let at = spot((low.x.0 + high.x.0) / 2.0, (low.y.0 + high.y.0) / 2.0);
            let start = Start::Deck { level: level.id, at, weight: Pounds(1000.0) };
            starts.push((None, path(&known, &trace, &start).map(Rc::new)));
        }
        for (chosen, path) in starts {
            look(name, &known, &trace, level, chosen, path);
        }
    }
}

fn look(name: &str, plan: &Plan, trace: &Trace, level: &Level, chosen: Option<ElementId>, path: Option<Rc<Path>>) {
    let (low, high) = extent(level).unwrap_or((spot(0.0, 0.0), spot(36.0, 24.0)));
    let far = 40.0 / (high.x - low.x).0.max(1.0);
    let centre = spot((low.x.0 + high.x.0) / 2.0, (low.y.0 + high.y.0) / 2.0);
    let put_down = path.as_ref().filter(|_| chosen.is_none()).map(|_| point_of(centre));
    for (width, height) in CANVASES {
        for scale in PX_PER_FOOT.into_iter().chain([far]) {
            let view = View { scale, centre, width, height, ..View::default() };
            let state = ViewState { view, level: level.id, chosen, put_down, path: path.clone(), ..state(plan) };
            let drawn = scene(plan, trace, &state);
            let wrong = drawn.0.iter().find(|shape| !finite(shape));
            assert!(wrong.is_none(), "{name}: {chosen:?} at {scale} px a foot, {width} px wide: {wrong:?}");
        }
    }
}

fn point_of(spot: joistwise_core::geometry::Spot) -> Point {
    Point::new(Ticks::from_decimal_feet(spot.x).unwrap(), Ticks::from_decimal_feet(spot.y).unwrap())
}

/// Whether all that is drawn has a place and a size, and no text says that a figure is no number.
fn finite(shape: &Shape) -> bool {
    let placed = |at: &Screen| at.x.is_finite() && at.y.is_finite();
    match shape {
        Shape::Lines { pieces, .. } => pieces.iter().flatten().all(placed),
        Shape::Path { points, .. } => points.iter().all(placed),
        Shape::Circle { at, radius, .. } => placed(at) && radius.is_finite(),
        Shape::Label(Label { at, text, size, along, .. }) => {
            let words = text.split(|letter: char| !letter.is_alphanumeric());
            let figure = words.into_iter().all(|word| word != "NaN" && word != "inf");
            placed(at) && size.is_finite() && along.0.is_finite() && along.1.is_finite() && figure
        }
    }
}
