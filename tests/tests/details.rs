//! Jambs, pockets, boards and cuts: what a card says of them, by hand.

use joistwise_core::card::{Card, card};
use joistwise_core::draft::{Draft, draft};
use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Joints, Plan, Way};
use joistwise_core::trace::trace;

/// A figure of a card by its label.
#[track_caller]
fn figure(card: &Card, label: &str) -> String {
    let figure = card.figures.iter().find(|it| it.label == label);
    let figure = figure.unwrap_or_else(|| panic!("no {label} in {:?}", card.figures));
    format!("{}; {}", figure.value, figure.how)
}

#[track_caller]
fn card_of(plan: &Plan, part: ElementId) -> Card {
    card(plan, &trace(plan), part).expect("a card")
}

/// Floor joists of 12 ft lap on a wall, a passage of 6 ft in it.
fn passage() -> Draft {
    draft().outside(36, 24).inside("A", (0, 12), (36, 12)).door(10, 6).joists(Way::Y, Joints::Lap)
}

/// By hand: 6 + 6 ft of floor at 10 + 40 psf is 600 plf on the wall, which weighs 8 ft x 6 psf = 48 plf; 6 ft of that is
/// 3,888 lb, 1,944 lb to a jamb: dead 360 + 144, live 1,440.
#[test]
fn half_of_what_stands_over_a_passage_of_6_ft_comes_down_at_each_jamb_in_lb() {
    let plan = passage().done();
    let trace = trace(&plan);
    let [opening] = trace.openings.as_slice() else { panic!("{:?}", trace.openings) };
    for jamb in [opening.first, opening.second] {
        assert!((jamb.dead.0 - 504.0).abs() < 1e-6 && (jamb.floor.0 - 1440.0).abs() < 1e-6, "{jamb:?}");
    }
}

/// By hand: 1,944 lb on a header 3 in wide of 425 psi wants 1.525 in: two jacks of 1 1/2 in.
#[test]
fn a_jamb_under_1944_lb_wants_two_jacks_and_one_that_has_one_is_named() {
    let studs = |jacks| {
        passage().with(|level| {
            if let Some(opening) = level.openings.last_mut() {
                (opening.first.jacks, opening.second.jacks) = (jacks, Some(2));
            }
        })
    };
    let of = |jacks: Option<u8>| {
        let plan = studs(jacks).done();
        let opening = plan.levels()[0].openings[0].id;
        card_of(&plan, ElementId::Opening(opening))
    };
    let card = of(Some(1));
    assert!(figure(&card, "Jacks at its first jamb").starts_with("2 wanted, 1 counted; bearing asks for 1.52 in"));
    assert!(figure(&card, "At its second jamb").starts_with("1,944 lb; dead 504 + floor live 1,440 lb"));
    assert_eq!(card.watch, ["Its first jamb has 1 jack where 2 are asked for: have it looked at."]);
    assert!(of(Some(2)).watch.is_empty() && of(None).watch.is_empty());
    assert!(figure(&of(None), "Jacks at its first jamb").starts_with("2 wanted, not counted"));
}

/// The table of IRC R602.7.5 (MEMORY) is for outside walls: 6 ft wants three kings a side, an inside wall is not asked.
#[test]
fn an_outside_wall_is_asked_for_its_kings_and_an_inside_wall_is_not() {
    let plan = draft().outside(36, 24).door(4, 6).joists(Way::X, Joints::RunThrough);
    let plan = plan.with(|level| level.openings.iter_mut().for_each(|it| it.second.kings = Some(1))).done();
    let card = card_of(&plan, ElementId::Opening(plan.levels()[0].openings[0].id));
    assert!(figure(&card, "Kings at its second jamb").starts_with("3 wanted, 1 counted"));
    assert!(
        card.watch.iter().any(|it| it.contains("second jamb has 1 king where 3 are asked for")),
        "{:?}",
        card.watch
    );
    let inside = passage().done();
    let card = card_of(&inside, ElementId::Opening(inside.levels()[0].openings[0].id));
    assert!(card.figures.iter().all(|it| !it.label.starts_with("Kings")));
}
