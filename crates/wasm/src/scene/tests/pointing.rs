//! What the pointer finds, handles, drafts, the fit.

use super::*;

#[test]
fn a_post_is_found_before_the_beam_on_it_and_the_beam_before_the_wall() {
    let (plan, wall) = house();
    let post = Post {
        id: PostId::from_number(0),
        name: "P1".to_owned(),
        at: Point::feet(16, 12),
        kind: PostKind::Wood,
        member: Member::default(),
        wood: Default::default(),
    };
    let plan = add(&plan, Element::Post(post));
    let post = ElementId::Post(PostId::from_number(plan.newest()));
    let beam = Beam {
        id: BeamId::from_number(0),
        name: String::new(),
        a: Point::feet(12, 12),
        b: Point::feet(20, 12),
        member: Member::plies(3, 2, 10),
        set: Set::Dropped,
        joints: Joints::NotSeen,
        wood: Default::default(),
    };
    let plan = add(&plan, Element::Beam(beam));
    let beam = ElementId::Beam(BeamId::from_number(plan.newest()));
    let state = state(&plan);
    let found = |x, y| part_at(&plan, &state, state.view.screen_from_plan(spot(x, y)), 8.0);
    assert_eq!(found(16.1, 12.1), Some(post));
    assert_eq!(found(18.5, 12.0), Some(beam));
    assert_eq!(found(24.0, 12.3), Some(ElementId::Wall(wall)));
    assert_eq!(found(10.0, 6.0), None, "the middle of a room is nothing");
    assert!(says(&scene(&plan, &Trace::default(), &state), "3-2x10"));
}

#[test]
fn reach_is_counted_from_the_face_of_a_wall_in_px() {
    let (plan, wall) = house();
    let state = state(&plan);
    let face = 4.5 / 24.0 * SCALE;
    let middle = state.view.screen_from_plan(spot(20.0, 12.0));
    let below = |px: f64| part_at(&plan, &state, Screen { x: middle.x, y: middle.y + face + px }, 10.0);
    assert_eq!(below(9.5), Some(ElementId::Wall(wall)));
    assert_eq!(below(10.5), None);
}

#[test]
fn the_chosen_wall_has_a_handle_at_each_end() {
    let (plan, wall) = house();
    let chosen = ViewState { chosen: Some(ElementId::Wall(wall)), ..state(&plan) };
    let found = handles(&plan, &chosen);
    let ends: Vec<WallEnd> = found.iter().map(|(_, handle)| handle.end).collect();
    assert_eq!(ends, [WallEnd::A, WallEnd::B]);
    assert_eq!(found[1].0, chosen.view.screen_from_plan(Point::feet(28, 12).into()));
    assert!(handles(&plan, &state(&plan)).is_empty());
}

#[test]
fn a_line_half_drawn_says_its_length_and_what_it_would_snap_to() {
    let (plan, _) = house();
    let (from, to) = (Point::feet(10, 2), Point::feet(10, 10));
    let drafting = Drafting::Line { from, to };
    let snap = Some(SnapMark { at: to, word: "in line", guide: Some((Point::feet(0, 10), to)) });
    let drawn = scene(&plan, &Trace::default(), &ViewState { drafting, snap, tool: Tool::InsideWall, ..state(&plan) });
    assert!(says(&drawn, "8' 0\"") && says(&drawn, "in line"));
    assert!(!lines(&drawn, |stroke| stroke.ink == Ink::Snap).is_empty(), "the guide line");
}

#[test]
fn a_fit_shows_the_whole_house_between_its_margins() {
    let (plan, _) = house();
    let margins = Margins { left: 100.0, top: 60.0, right: 360.0, bottom: 140.0 };
    let view = fit(&plan, level_of(&plan), 1280.0, 800.0, margins);
    let (low, high) = (view.screen_from_plan(spot(0.0, 0.0)), view.screen_from_plan(spot(36.0, 24.0)));
    assert!(low.x >= 100.0 - 0.01 && high.x <= 920.01 && high.y >= 60.0 - 0.01 && low.y <= 660.01);
    let touches = (high.x - low.x - 820.0).abs() < 0.01 || (low.y - high.y - 600.0).abs() < 0.01;
    assert!(touches, "as large as it fits");
}
