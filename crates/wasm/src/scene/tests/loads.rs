//! Feed strips, fringes, point loads, path gaps.

use super::*;

/// A trace of the inside wall fed by a ceiling, 6 ft on each side, with one line load on its west and one on its east.
fn fed(plan: &Plan, wall: WallId) -> Trace {
    let mut trace = traced(plan, wall, Role::CarriesCeiling);
    let feed = Feed {
        from: Node::Field(FieldId::from_number(90)),
        origin: Origin::Ceiling,
        start: Feet(0.0),
        end: Feet(24.0),
        left: Feet(6.0),
        right: Feet(6.0),
        effective: Feet(12.0),
        through: None,
    };
    let part = |start, end, dead| LinePart {
        start: Feet(start),
        end: Feet(end),
        loads: LineLoads { dead: Plf(dead), ..LineLoads::default() },
    };
    trace.walls[0].feeds = vec![feed];
    trace.walls[0].line = vec![part(0.0, 15.0, 180.0), part(15.0, 24.0, 360.0)];
    trace
}

#[test]
fn the_feed_strip_of_a_wall_fed_6_ft_on_each_side_is_12_ft_wide() {
    let (plan, wall) = house();
    let chosen = ViewState { chosen: Some(ElementId::Wall(wall)), ..state(&plan) };
    let scene = scene(&plan, &fed(&plan, wall), &chosen);
    let strips = filled(&scene, Ink::Feed(Role::CarriesCeiling));
    assert_eq!(strips.len(), 1);
    let [west, east, north, south] = extent(&strips[0]);
    near(south - north, 12.0 * SCALE);
    near(east - west, 24.0 * SCALE);
    assert!(says(&scene, "feeds this wall: 12' 0\" wide"), "{:?}", texts(&scene));
    assert_eq!(texts(&scene).iter().filter(|text| *text == "6' 0\"").count(), 2, "one width on each side");
}

#[test]
fn no_strip_is_drawn_for_a_wall_that_is_not_chosen() {
    let (plan, wall) = house();
    let scene = scene(&plan, &fed(&plan, wall), &state(&plan));
    assert!(filled(&scene, Ink::Feed(Role::CarriesCeiling)).is_empty());
    assert!(filled(&scene, Ink::Fringe(Role::CarriesCeiling)).is_empty());
}

#[test]
fn the_fringe_is_twice_as_deep_where_the_line_load_is_twice_as_heavy() {
    let (plan, wall) = house();
    let chosen = ViewState { chosen: Some(ElementId::Wall(wall)), ..state(&plan) };
    let scene = scene(&plan, &fed(&plan, wall), &chosen);
    let depths: Vec<f64> = filled(&scene, Ink::Fringe(Role::CarriesCeiling))
        .iter()
        .map(|run| {
            let [_, _, north, south] = extent(run);
            south - north
        })
        .collect();
    assert_eq!(depths.len(), 2);
    near(depths[1], depths[0] * 2.0);
    assert!(says(&scene, "180 plf") && says(&scene, "360 plf"), "{:?}", texts(&scene));
}

#[test]
fn a_point_load_on_the_chosen_wall_is_marked_with_its_pounds() {
    let (plan, wall) = house();
    let mut trace = traced(&plan, wall, Role::NothingFound);
    let weights = ByKind { dead: Pounds(1000.0), floor: Pounds(840.0), ..ByKind::default() };
    trace.walls[0].points = vec![PointLoad { at: Feet(6.0), from: Node::Beam(BeamId::from_number(9)), weights }];
    let chosen = ViewState { chosen: Some(ElementId::Wall(wall)), ..state(&plan) };
    let marked = scene(&plan, &trace, &chosen);
    assert!(says(&marked, "P") && says(&marked, "1,840 lb"), "{:?}", texts(&marked));
    let quiet = scene(&plan, &trace, &state(&plan));
    assert!(says(&quiet, "P") && !says(&quiet, "1,840 lb"));
}

#[test]
fn a_path_gap_is_ringed_and_named_and_other_findings_are_not() {
    let (plan, wall) = house();
    let at = joistwise_core::geometry::Spot { x: Feet(4.0), y: Feet(12.0) };
    let finding = |problem| Finding { level: level_of(&plan), at, problem, weights: None };
    let gap = Trace { findings: vec![finding(Problem::WallOnNothing { wall })], ..Trace::default() };
    let rings = |scene: &Scene| {
        let ring = |shape: &&Shape| matches!(shape, Shape::Circle { stroke: Some(s), .. } if s.ink == Ink::Gap && s.width > 2.0);
        scene.0.iter().filter(ring).count()
    };
    let drawn = scene(&plan, &gap, &state(&plan));
    assert_eq!(rings(&drawn), 1);
    assert!(says(&drawn, "path gap"));
    let open = Trace { findings: vec![finding(Problem::NoRoof)], ..Trace::default() };
    assert_eq!(rings(&scene(&plan, &open, &state(&plan))), 0);
}

#[test]
fn the_print_copy_has_no_grid_and_no_washes() {
    let (plan, wall) = house();
    let print = ViewState { scheme: Scheme::Print, chosen: Some(ElementId::Wall(wall)), ..state(&plan) };
    let printed = scene(&plan, &fed(&plan, wall), &print);
    assert!(lines(&printed, |stroke| stroke.ink == Ink::Grid).is_empty());
    assert!(filled(&printed, Ink::Feed(Role::CarriesCeiling)).is_empty());
    assert!(
        !lines(&printed, |stroke| stroke.ink == Ink::Feed(Role::CarriesCeiling)).is_empty(),
        "hatched all the same"
    );
    assert!(!lines(&scene(&plan, &fed(&plan, wall), &state(&plan)), |s| s.ink == Ink::Grid).is_empty());
}
