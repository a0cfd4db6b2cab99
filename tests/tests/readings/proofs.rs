//! What was seen to carry: it carries in every reading, is named while nobody drew what it holds, and no "nothing found"
//! stands beside it.

use joistwise_core::draft::{at, draft};
use joistwise_core::plan::{Joints, Observation, Plan, PostKind, Saw, Way};
use joistwise_core::readings::{Certainty, Judgement, judge, known_trace, wall_of};
use joistwise_core::trace::Role;
use proptest::prelude::*;

use super::laws::{cases, small};
use super::{of, put, saw, show};

/// Roof and joists drawn as seen, the joists along the wall: nothing is drawn that lands on it.
fn along_it() -> Plan {
    let plan = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).joists(Way::X, Joints::RunThrough);
    plan.roof(Way::X, 1).done()
}

#[track_caller]
fn is_roof(plan: &Plan, all: &Judgement) {
    for it in of(plan, all, "W") {
        let right = it.roles == [(Role::CarriesRoof, 1.0)] && it.certainty == Certainty::Certain;
        assert!(right, "{}", show(plan, all));
    }
    let mut trace = known_trace(plan);
    all.settle(&mut trace);
    let wall = trace.wall(plan.wall_named("W").expect("drawn").id).expect("traced");
    assert!(wall.stretches.iter().all(|it| it.role == Role::CarriesRoof), "{:?}", wall.stretches);
}

/// A strut carries roof wherever it was seen: on a wall along the ridge or across it, under a roof that was seen or not,
/// over joists along the wall or that lap on it.
#[test]
fn a_strut_seen_on_a_wall_is_roof_in_all_readings_whatever_else_was_seen() {
    let bare = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).done();
    let lapped = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).joists(Way::Y, Joints::Lap).roof(Way::X, 1);
    let across = draft().outside(30, 24).inside("W", (15, 0), (15, 24)).joists(Way::Y, Joints::RunThrough);
    let across = across.roof(Way::X, 1).done();
    for (plan, place) in [(along_it(), (10, 12)), (bare, (10, 12)), (lapped.done(), (10, 12)), (across, (15, 8))] {
        let plan = saw(&plan, 0, (f64::from(place.0), f64::from(place.1)), Saw::StrutStands);
        is_roof(&plan, &judge(&plan));
    }
}

/// By hand: no reading puts a purlin over a wall square to the ridge, so nothing says what the strut holds; over a wall along
/// it the readings draw one.
#[test]
fn a_strut_with_no_purlin_a_pack_under_nothing_and_hangers_on_joists_along_are_named_until_drawn() {
    let across = draft().outside(30, 24).inside("W", (15, 0), (15, 24)).joists(Way::Y, Joints::RunThrough);
    let plan = saw(&across.roof(Way::X, 1).done(), 0, (15.0, 8.0), Saw::StrutStands);
    let all = judge(&plan);
    let named: Vec<_> = all.unsourced.iter().map(|it| (it.saw, it.at.0)).collect();
    assert_eq!(named, [(Saw::StrutStands, 8.0)]);

    let plan = saw(&along_it(), 0, (10.0, 12.0), Saw::StrutStands);
    assert_eq!(judge(&plan).unsourced, []);

    let plan = saw(&along_it(), 0, (10.0, 12.0), Saw::StudPack { studs: 3 });
    let named: Vec<_> = judge(&plan).unsourced.iter().map(|it| (it.saw, it.at.0)).collect();
    assert_eq!(named, [(Saw::StudPack { studs: 3 }, 10.0)]);
    // With the beam that ends on it drawn, it is known what the pack holds.
    let beam = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).joists(Way::X, Joints::RunThrough);
    let beam = beam.beam("B", (10, 0), (10, 12), Joints::RunThrough).roof(Way::X, 1).done();
    let plan = saw(&beam, 0, (10.0, 12.0), Saw::StudPack { studs: 3 });
    assert_eq!(judge(&plan).unsourced, []);

    let plan = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).done();
    let plan = saw(&plan, 0, (10.0, 13.0), Saw::JoistsHang);
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::X });
    let all = judge(&plan);
    assert!(of(&plan, &all, "W").iter().all(|it| it.role().carries()), "{}", show(&plan, &all));
    let named: Vec<_> = all.unsourced.iter().map(|it| (it.saw, it.at.0)).collect();
    assert_eq!(named, [(Saw::JoistsHang, 10.0)], "{}", show(&plan, &all));
}

/// What may be seen of a wall or its joists; the second number picks a place.
pub(super) fn kinds() -> impl Strategy<Value = Vec<(Saw, (f64, f64))>> {
    let kind = prop::sample::select(vec![
        Saw::JoistsLap,
        Saw::JoistsEnd,
        Saw::JoistsHang,
        Saw::SitOnPlate,
        Saw::StrutStands,
        Saw::TrussTag,
        Saw::StudPack { studs: 3 },
        Saw::JoistsRunThrough,
        Saw::RunAlong,
        Saw::NothingStands,
        Saw::Gap,
        Saw::NoStrut,
        Saw::NoTag,
        Saw::JoistsRun { along: Way::X },
        Saw::JoistsRun { along: Way::Y },
        Saw::RidgeBoard,
        Saw::RidgeBeam,
        Saw::TrussPlates,
    ]);
    proptest::collection::vec((kind, (0.05..0.95_f64, 0.0..1.0_f64)), 1..5)
}

const fn proves(saw: &Saw) -> bool {
    matches!(
        saw,
        Saw::JoistsLap
            | Saw::JoistsEnd
            | Saw::JoistsHang
            | Saw::SitOnPlate
            | Saw::StrutStands
            | Saw::TrussTag
            | Saw::StudPack { .. }
    )
}

/// Puts things seen at walls of a house: at a share of the length of one picked by the other share.
pub(super) fn at_walls(plan: &Plan, seen: &[(Saw, (f64, f64))]) -> Plan {
    let mut plan = plan.clone();
    for (kind, (share, which)) in seen {
        let all = plan.levels().iter().flat_map(|level| level.walls.iter().map(move |wall| (level.id, wall)));
        let inside: Vec<_> = all.filter(|it| it.1.side == joistwise_core::plan::Side::Inside).collect();
        #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a share of a small count")]
        let number = (which * inside.len() as f64) as usize;
        let Some((level, wall)) = inside.get(number) else { continue };
        let along = |a: f64, b: f64| a + (b - a) * share;
        let (a, b) = (wall.a, wall.b);
        let place = at((along(a.x.feet().0, b.x.feet().0), along(a.y.feet().0, b.y.feet().0)));
        let id = joistwise_core::ids::ObservationId::from_number(0);
        let known = joistwise_core::plan::Grade::Seen;
        let (note, day, photo) = (String::new(), String::new(), String::new());
        plan = put(&plan, *level, Observation { id, at: place, saw: *kind, known, note, day, photo: photo.into() });
    }
    plan
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn no_certain_nothing_stands_beside_a_proof_of_carrying_nor_under_a_load_in_any_reading(
        house in small(), seen in kinds(),
    ) {
        let plan = at_walls(&house.house(), &seen);
        let all = judge(&plan);
        let mut trace = known_trace(&plan);
        all.settle(&mut trace);
        for level in plan.levels() {
            for it in level.observations.iter().filter(|it| proves(&it.saw)) {
                let Some(id) = wall_of(level, it.at) else { continue };
                let wall = level.wall(id).expect("named");
                let far = joistwise_core::geometry::length(wall.a, it.at);
                // A stretch that only ends there is another one.
                let on = |start: joistwise_core::units::Feet, end: joistwise_core::units::Feet| start.0 < far.0 - 0.02 && far.0 + 0.02 < end.0;
                let bare = all.of_wall(id).find(|it| on(it.start, it.end) && it.role() == Role::NothingFound && it.certainty == Certainty::Certain);
                prop_assert!(bare.is_none(), "{:?}\n{}", it.saw, show(&plan, &all));
                let drawn = trace.wall(id).expect("traced");
                let bare = drawn.stretches.iter().find(|it| on(it.start, it.end) && it.role == Role::NothingFound);
                prop_assert!(bare.is_none(), "{:?} in the trace: {bare:?}\n{}", it.saw, show(&plan, &all));
            }
        }
        for wall in &trace.walls {
            let mut judged = all.of_wall(wall.wall).peekable();
            let certain = judged.peek().is_some() && judged.all(|it| it.role() == Role::NothingFound && it.certainty == Certainty::Certain);
            let most = all.ranges.iter().find(|it| it.wall == wall.wall).map_or(0.0, |it| it.most.0);
            prop_assert!(!certain || most < 1.0, "{most} plf on nothing\n{}", show(&plan, &all));
        }
    }
}

/// A post drawn at the pack that holds nothing is no source either.
#[test]
fn a_pack_drawn_as_a_post_that_holds_nothing_is_named_all_the_same() {
    let plan =
        draft().outside(30, 24).inside("W", (0, 12), (30, 12)).joists(Way::X, Joints::RunThrough).roof(Way::X, 1);
    let plan =
        plan.post("P", (10, 12)).with(|level| level.posts.iter_mut().for_each(|it| it.kind = PostKind::StudPack));
    let plan = saw(&plan.done(), 0, (10.0, 12.0), Saw::StudPack { studs: 3 });
    assert_eq!(judge(&plan).unsourced.len(), 1);
}
