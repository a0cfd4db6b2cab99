//! What a carpenter would look for on the sheet.

use joistwise_core::ids::{BeamId, ElementId, FieldId, LevelId, OpeningId, PostId, RoofId, WallId};
use joistwise_core::loads::{ByKind, LineLoads};
use joistwise_core::plan::{
    Beam, Edit, Element, Grade, Header, Joints, JoistField, Member, Opening, OpeningKind, Plan, Point, Post, PostKind,
    Region, Roof, RoofForm, RoofFrame, Set, Use, Wall, WallEnd, Way,
};
use joistwise_core::tape::Tape;
use joistwise_core::trace::{
    Feed, Finding, LinePart, Node, Origin, PointLoad, Problem, Role, Stretch, Trace, WallTrace,
};
use joistwise_core::units::{Feet, Plf, Pounds, Ticks};

use super::{Label, Margins, Scene, Shape, fit, handles, part_at, scene};
use crate::ink::{Dash, Fill, Ink, Stroke};
use crate::view::{Drafting, Layer, Scheme, Screen, SnapMark, Tool, View, ViewState};

mod loads;
mod pointing;
mod scales;
mod sheet;
mod walls;

/// CSS pixels in a foot in these tests.
const SCALE: f64 = 20.0;

/// A house of 36 x 24 ft with one inside wall from (4, 12) to (28, 12) ft.
fn house() -> (Plan, WallId) {
    let plan = Plan::new("House");
    let level = level_of(&plan);
    let corners = vec![Point::feet(0, 0), Point::feet(36, 0), Point::feet(36, 24), Point::feet(0, 24)];
    let plan = plan.with(&Edit::Outline { level, corners }).unwrap();
    let plan = plan.with(&Edit::Add(level, Element::Wall(inside((4, 12), (28, 12))))).unwrap();
    let wall = WallId::from_number(plan.newest());
    (plan, wall)
}

fn level_of(plan: &Plan) -> LevelId {
    plan.levels()[0].id
}

fn add(plan: &Plan, element: Element) -> Plan {
    plan.with(&Edit::Add(level_of(plan), element)).unwrap()
}

fn inside(a: (i32, i32), b: (i32, i32)) -> Wall {
    Wall::inside(Point::feet(a.0, a.1), Point::feet(b.0, b.1))
}

fn state(plan: &Plan) -> ViewState {
    let view = View { scale: SCALE, width: 1000.0, height: 700.0, ..View::default() };
    ViewState {
        by: Default::default(),
        view,
        level: level_of(plan),
        chosen: None,
        stretch: None,
        put_down: None,
        path: None,
        roof: Layer::Shown,
        hover: None,
        tool: Tool::Pick,
        drafting: Drafting::Nothing,
        snap: None,
        scheme: Scheme::Paper,
        tape: Tape::Feet,
        key_cursor: None,
        covered_below: 0.0,
        looks: Vec::new(),
        studied: None,
    }
}

/// The house with a trace of its inside wall alone: `role` from end to end.
fn traced(plan: &Plan, wall: WallId, role: Role) -> Trace {
    let length = Feet(24.0);
    let stretch = Stretch { start: Feet(0.0), end: length, role, reasons: Vec::new() };
    let wall = WallTrace {
        level: level_of(plan),
        wall,
        length,
        stretches: vec![stretch],
        feeds: Vec::new(),
        line: Vec::new(),
        points: Vec::new(),
        top: ByKind::default(),
        own: ByKind::default(),
        cautions: Vec::new(),
    };
    Trace { walls: vec![wall], ..Trace::default() }
}

fn texts(scene: &Scene) -> Vec<String> {
    labels(scene).map(|label| label.text.clone()).collect()
}

fn labels(scene: &Scene) -> impl Iterator<Item = &Label> {
    scene.0.iter().filter_map(|shape| if let Shape::Label(label) = shape { Some(label) } else { None })
}

fn says(scene: &Scene, text: &str) -> bool {
    labels(scene).any(|label| label.text == text)
}

fn filled(scene: &Scene, ink: Ink) -> Vec<Vec<Screen>> {
    let with = |fill: &Option<Fill>| fill.is_some_and(|fill| fill.ink == ink);
    let points = |shape: &Shape| match shape {
        Shape::Path { points, fill, .. } if with(fill) => Some(points.clone()),
        _ => None,
    };
    scene.0.iter().filter_map(points).collect()
}

fn lines(scene: &Scene, which: impl Fn(&Stroke) -> bool) -> Vec<[Screen; 2]> {
    let pieces = |shape: &Shape| match shape {
        Shape::Lines { pieces, stroke } if which(stroke) => pieces.clone(),
        _ => Vec::new(),
    };
    scene.0.iter().flat_map(pieces).collect()
}

/// Least and greatest x, then least and greatest y.
fn extent(points: &[Screen]) -> [f64; 4] {
    let low = |of: fn(&Screen) -> f64| points.iter().map(of).fold(f64::INFINITY, f64::min);
    let high = |of: fn(&Screen) -> f64| points.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    [low(|p| p.x), high(|p| p.x), low(|p| p.y), high(|p| p.y)]
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.01, "found {found} px, wanted {wanted} px");
}

fn spot(x: f64, y: f64) -> joistwise_core::geometry::Spot {
    joistwise_core::geometry::Spot { x: Feet(x), y: Feet(y) }
}
