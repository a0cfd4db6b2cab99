//! Dimensions, joists, roofs.

use super::*;

#[test]
fn length_and_width_stand_outside_the_plan_on_either_tape() {
    let (plan, _) = house();
    let feet = scene(&plan, &Trace::default(), &state(&plan));
    assert!(says(&feet, "36' 0\"") && says(&feet, "24' 0\""), "{:?}", texts(&feet));
    let metric = scene(&plan, &Trace::default(), &ViewState { tape: Tape::Metric, ..state(&plan) });
    assert!(says(&metric, "10.973 m") && says(&metric, "7.315 m"), "{:?}", texts(&metric));
    let ticks = lines(&feet, |stroke| stroke.ink == Ink::Dimension);
    let slanted = ticks.iter().filter(|[a, b]| ((b.x - a.x) + (b.y - a.y)).abs() < 1e-9 && (b.x - a.x).abs() > 1.0);
    assert_eq!(slanted.count(), 4, "a 45 degree tick at each end of two strings");
}

#[test]
fn the_steps_of_an_l_shaped_house_have_a_string_of_their_own() {
    let plan = Plan::new("L");
    let corners = [(0, 0), (36, 0), (36, 14), (22, 14), (22, 24), (0, 24)];
    let corners = corners.iter().map(|(x, y)| Point::feet(*x, *y)).collect();
    let plan = plan.with(&Edit::Outline { level: level_of(&plan), corners }).unwrap();
    let scene = scene(&plan, &Trace::default(), &state(&plan));
    for text in ["22' 0\"", "14' 0\"", "36' 0\"", "10' 0\"", "24' 0\""] {
        assert!(says(&scene, text), "{text} in {:?}", texts(&scene));
    }
}

#[test]
fn a_field_that_nothing_is_laid_in_yet_still_has_its_arrow_and_words() {
    let (plan, _) = house();
    let plan = add(&plan, Element::Field(field()));
    let id = ElementId::Field(FieldId::from_number(plan.newest()));
    let state = state(&plan);
    let scene = scene(&plan, &Trace::default(), &state);
    assert!(says(&scene, "2x6 at 16 in, lap"), "{:?}", texts(&scene));
    let label = labels(&scene).find(|label| label.text.starts_with("2x6")).unwrap();
    assert!(label.along.1 < -0.99, "joists that run north are written upward");
    assert_eq!(part_at(&plan, &state, label.at, 12.0), Some(id), "the pointer finds the field at its arrow");
}

fn field() -> JoistField {
    JoistField {
        id: FieldId::from_number(0),
        region: Region::Outline,
        along: Way::Y,
        member: Member::sawn(2, 6),
        spacing: Ticks::from_sixteenths(16 * 16),
        joints: Joints::Lap,
        used_as: Use::AtticStorage,
        dead: None,
        layers: Vec::new(),
        wood: Default::default(),
        known: Grade::Seen,
    }
}

#[test]
fn the_ridge_runs_half_way_between_the_eaves_and_the_pointer_finds_the_roof_there() {
    let (plan, _) = house();
    let roof = Roof {
        id: RoofId::from_number(0),
        region: Region::Outline,
        ridge: Way::X,
        ridge_at: None,
        meets: Default::default(),
        long_valley: None,
        openings: Vec::new(),
        form: RoofForm::Gable,
        frame: RoofFrame::RidgeBoard,
        rise: Ticks::from_sixteenths(6 * 16),
        overhang: Ticks::from_feet(1),
        spacing: Ticks::from_sixteenths(16 * 16),
        member: Member::sawn(2, 6),
        dead: None,
        layers: Vec::new(),
        wood: Default::default(),
        known: Grade::Seen,
    };
    let plan = add(&plan, Element::Roof(roof));
    let state = state(&plan);
    let scene = scene(&plan, &Trace::default(), &state);
    let ridge = lines(&scene, |stroke| stroke.ink == Ink::Eave && stroke.dash == Dash::Centre);
    let y = |feet: f64| state.view.screen_from_plan(spot(0.0, feet)).y;
    assert_eq!(ridge.len(), 1);
    near(ridge[0][0].y, y(12.0));
    let mut eaves: Vec<f64> = lines(&scene, |stroke| stroke.ink == Ink::Eave && stroke.dash == Dash::Dashed)
        .iter()
        .map(|[a, _]| a.y)
        .collect();
    eaves.sort_by(f64::total_cmp);
    near(eaves[0], y(25.0));
    near(eaves[1], y(-1.0));
    let at = state.view.screen_from_plan(spot(32.0, 12.2));
    assert_eq!(part_at(&plan, &state, at, 12.0), Some(ElementId::Roof(RoofId::from_number(plan.newest()))));
}
