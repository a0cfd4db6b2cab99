//! Laws of studies over readings: nothing is cut before it is held, a block ends everything, loads are those of real houses.
//!
//! `PROPTEST_CASES` sets how many houses each law is tried on; the suite tries the same ones every time.

use joistwise_core::ids::{LevelId, ObservationId};
use joistwise_core::loads::{Kind, Weights, heaviest};
use joistwise_core::plan::{Grade, Observation, Plan, PlanFile, Saw, Set, Side, Way};
use joistwise_core::readings::{Certainty, Judgement, as_known, judge};
use joistwise_core::take_out::{Stretch, Study, Work, take_out_read};
use joistwise_core::trace::{Role, trace};
use joistwise_core::units::Feet;
use proptest::prelude::*;
use proptest::sample::{Index, select};
use proptest::test_runner::{FileFailurePersistence, RngSeed};

use super::laws::{Small, small};
use super::{put, saw, show};

/// Under so many pounds nothing lands.
const LITTLE: f64 = 1.0;

fn cases() -> ProptestConfig {
    let seeds = FileFailurePersistence::Direct("tests/properties/seeds.txt");
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    let rng_seed = if asked.is_some() { RngSeed::Random } else { RngSeed::Fixed(23) };
    let cases = asked.unwrap_or(30);
    ProptestConfig { cases, rng_seed, failure_persistence: Some(Box::new(seeds)), ..ProptestConfig::default() }
}

/// Something that somebody says they saw somewhere, whatever the house is.
fn sighting() -> impl Strategy<Value = (Saw, (Index, Index), Grade)> {
    let kinds = vec![
        Saw::JoistsLap,
        Saw::JoistsEnd,
        Saw::JoistsRunThrough,
        Saw::RunAlong,
        Saw::Gap,
        Saw::NothingStands,
        Saw::NoStrut,
        Saw::StrutStands,
        Saw::SitOnPlate,
        Saw::JoistsRun { along: Way::X },
        Saw::JoistsRun { along: Way::Y },
        Saw::RidgeBoard,
        Saw::RidgeBeam,
        Saw::TrussPlates,
        Saw::StudPack { studs: 3 },
        Saw::Crack,
    ];
    let grade = select(vec![Grade::Seen, Grade::Seen, Grade::Measured, Grade::Told]);
    (select(kinds), (any::<Index>(), any::<Index>()), grade)
}

/// A house with looks that fit one truth, and sightings that need not.
fn known(house: &Small, sightings: &[(Saw, (Index, Index), Grade)]) -> Plan {
    let mut plan = house.house();
    for (level, seen) in house.seen() {
        plan = seen.into_iter().fold(plan, |plan, it| put(&plan, level, it));
    }
    for (saw, (east, north), known) in sightings {
        let id: LevelId = plan.levels().last().expect("a level").id;
        let at = joistwise_core::draft::at((
            east.index(usize::try_from(house.sides_ft.0).expect("a side")) as f64,
            north.index(usize::try_from(house.sides_ft.1).expect("a side")) as f64,
        ));
        let (note, day, photo) = (String::new(), String::new(), String::new());
        plan = put(
            &plan,
            id,
            Observation {
                id: ObservationId::from_number(0),
                at,
                saw: *saw,
                known: *known,
                note,
                day,
                photo: photo.into(),
            },
        );
    }
    as_known(&plan)
}

fn same(what: &str, one: Weights, other: Weights, whole: f64) -> Result<(), String> {
    for kind in Kind::ALL {
        let off = (one.get(kind) - other.get(kind)).0.abs();
        if off.is_nan() || off > 1e-9 * whole.max(1.0) {
            return Err(format!("{what}, {kind:?}: {:?} lb is not {:?} lb", one.get(kind), other.get(kind)));
        }
    }
    Ok(())
}

/// All that holds of one study.
fn holds(plan: &Plan, all: &Judgement, stretch: &Stretch) -> Result<(), String> {
    let Some(study) = take_out_read(plan, stretch, all) else { return Ok(()) };
    if !study.over.read {
        return Err("readings are left".to_owned());
    }
    earned(plan, all, &study)?;
    blocked(&study)?;
    let site = plan.site();
    let most = study.studied.iter().map(|it| heaviest(&it.lands.all, site).0.0).fold(f64::NEG_INFINITY, f64::max);
    let told = heaviest(&study.lands.all, site).0.0;
    if (most - told).abs() > 1e-6 * most.abs().max(1.0) {
        return Err(format!("{told} lb are told to land, {most} lb do in one of its houses"));
    }
    if study.over.most.0 > told + 1e-4 * told.abs().max(1e4) {
        return Err(format!("a reading has {} lb, no house that is studied more than {told} lb", study.over.most.0));
    }
    for it in &study.studied {
        let (before, without, after) = (trace(&it.house), trace(&it.without), trace(&it.proposed));
        let whole = before.ledger.applied.all().0;
        same(
            "the house with the beam has what it has without the stretch",
            after.ledger.applied,
            without.ledger.applied,
            whole,
        )?;
        for kind in Kind::ALL.into_iter().filter(|kind| *kind != Kind::Dead) {
            let (one, other) = (after.ledger.applied.get(kind).0, before.ledger.applied.get(kind).0);
            if (one - other).abs() > 1e-9 * whole {
                return Err(format!("{kind:?}: {one} lb with the beam, {other} lb as it stands"));
            }
        }
        let beam = it.proposed.levels().iter().flat_map(|level| &level.beams).find(|it| it.name == "New beam");
        let top = beam.and_then(|it| after.beam(it.id)).map(|it| it.top).unwrap_or_default();
        let ends = it.supports.iter().fold(Weights::default(), |sum, it| sum + it.weights);
        same("what the ends of the beam get is what lands on it", ends, top, whole)?;
    }
    for support in &study.beams.supports {
        let of = |it: &joistwise_core::take_out::Studied| {
            it.supports
                .iter()
                .filter(|it| (it.at - support.at).0.abs() < 1e-6)
                .map(|it| it.whole.0.0)
                .fold(0.0, f64::max)
        };
        let most = study.studied.iter().map(of).fold(0.0, f64::max);
        if support.whole.0.0 < most - 1e-6 {
            return Err(format!(
                "a support is sized for {} lb and gets {most} lb in one of its houses",
                support.whole.0.0
            ));
        }
    }
    Ok(())
}

/// Nothing is cut before its props unless nothing lands in any reading.
fn earned(plan: &Plan, all: &Judgement, study: &Study) -> Result<(), String> {
    let place = |work: Work| study.steps.iter().position(|it| it.work == work);
    let Some(cut) = place(Work::Cut) else { return Ok(()) };
    let props = !study.shoring.lines.is_empty() || !study.shoring.held.is_empty();
    let held = place(Work::Shore).is_some_and(|shore| shore < cut) && props && study.shoring.blocked.is_empty();
    let joistwise_core::take_out::Away::Wall(wall) = study.stretch.away else { return Ok(()) };
    let loads = study.studied.iter().any(|it| it.lands.from.iter().any(|it| it.1.all().0.abs() > LITTLE));
    let here = || all.of_wall(wall).filter(|it| it.start < study.stretch.to && it.end > study.stretch.from);
    let empty = here().all(|it| it.certainty == Certainty::Certain && it.role() == Role::NothingFound);
    if !held && (loads || !empty) {
        let props = study.shoring.lines.len();
        return Err(format!("it is cut with {props} lines of props before\n{}", show(plan, all)));
    }
    Ok(())
}

/// A block leaves no size, no hanger, no prop and no step after it.
fn blocked(study: &Study) -> Result<(), String> {
    let blocks = study.refusals.iter().any(|it| it.blocks) && !study.over.nothing_in_any();
    if !blocks {
        return Ok(());
    }
    let sized = !study.beams.choices.is_empty()
        || !study.ends.hangers.is_empty()
        || study.ends.posts.iter().any(|it| !it.choices.is_empty())
        || !study.ends.headers.is_empty()
        || !study.shoring.lines.is_empty()
        || study.down.posts.iter().any(|it| it.pad.is_some() || !it.packs.is_empty());
    let last = study.steps.last().map(|it| it.work);
    let goes_on = study.steps.iter().any(|it| matches!(it.work, Work::Shore | Work::Cut | Work::Beam | Work::Hangers));
    if sized || goes_on || last != Some(Work::StopHere) {
        return Err(format!("it is blocked and goes on: {last:?}, sizes {sized}"));
    }
    Ok(())
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn nothing_is_cut_before_it_is_held_and_a_block_ends_everything(
        house in small(), sightings in proptest::collection::vec(sighting(), 0..4),
        wall in any::<Index>(), part in (0.0..0.8, 0.1..1.0), flush in any::<bool>(),
    ) {
        let plan = known(&house, &sightings);
        let all = judge(&plan);
        let walls: Vec<_> = plan.levels().iter().flat_map(|level| &level.walls).collect();
        let wall = walls[wall.index(walls.len())];
        let length = joistwise_core::geometry::length(wall.a, wall.b);
        let set = if flush { Set::Flush } else { Set::Dropped };
        let stretch = Stretch { set, ..Stretch::of(wall.id, length * part.0, length * (part.0 + part.1)) };
        let result = holds(&plan, &all, &stretch);
        let file = || serde_json::to_string(&PlanFile::from(&plan)).unwrap_or_default();
        prop_assert!(result.is_ok(), "{}\nstudy of wall {:?} from {:?} to {:?}\n{}", result.unwrap_err(), wall.id, stretch.from, stretch.to, file());
    }

    #[test]
    fn on_what_is_certain_to_carry_nothing_no_reading_puts_a_load(
        house in small(), sightings in proptest::collection::vec(sighting(), 0..3),
    ) {
        let plan = known(&house, &sightings);
        let all = judge(&plan);
        for it in all.stretches.iter().filter(|it| it.certainty == Certainty::Certain && it.role() == Role::NothingFound) {
            let Some(study) = take_out_read(&plan, &Stretch::of(it.wall, it.start + Feet(0.05), it.end - Feet(0.05)), &all) else { continue };
            // Where struts that a reading puts on another wall happen to come down here, the study counts them though the wall is
            // not named after them.
            let strutted = |it: &joistwise_core::take_out::Studied| {
                it.lands.from.iter().any(|it| matches!(it.0, joistwise_core::trace::Node::Purlin(_)))
            };
            if study.studied.iter().any(strutted) {
                continue;
            }
            let most = study.over.most.0;
            let file = || serde_json::to_string(&PlanFile::from(&plan)).unwrap_or_default();
            prop_assert!(most < LITTLE, "{most} lb on a stretch that is certain to carry nothing\n{}\n{}", show(&plan, &all), file());
        }
    }
}

/// The rows of a table of walls that are certain to carry: each is propped before it is cut, or the study stops before.
#[test]
fn no_wall_that_is_certain_to_carry_is_cut_without_a_prop() {
    let rows = [
        ("s01-laps-seen", "W1"),
        ("s02a-upper-wall-offset", "D1"),
        ("s07-struts-on-walls", "W1"),
        ("s16-two-hall-walls", "H1"),
        ("s16-two-hall-walls", "H2"),
        ("s09-wall-on-slab", "W1"),
        ("s06-ridge-board", "W1"),
    ];
    for (name, wall) in rows {
        let plan = Plan::from_json(&joistwise_tests::read(&format!("evidence/{name}.json"))).expect("a house");
        let (known, all) = (as_known(&plan), judge(&plan));
        let id = plan.wall_named(wall).expect("a wall").id;
        let length = plan.wall(id).map(|it| joistwise_core::geometry::length(it.1.a, it.1.b)).expect("a wall");
        for stretch in [Stretch::of(id, Feet(0.0), Feet(12.0)), Stretch::of(id, length * 0.3, length * 0.7)] {
            let study = take_out_read(&known, &stretch, &all).expect("a study");
            assert!(study.over.bears && !study.over.nothing_in_any(), "{name} {wall}: {:?}", study.over);
            assert!(study.over.least.0 > 500.0, "{name} {wall}: {:?}", study.over);
            holds(&known, &all, &stretch).unwrap_or_else(|why| panic!("{name} {wall}: {why}"));
        }
    }
}

/// 24 x 24 ft, rafters on a ridge beam from the south wall to the north one, half of it on a pack of 3-2x4 in the middle of a wall along
/// the joists, all of it seen: the pack holds what it held. With 10 ft of that wall gone the pack goes too.
#[test]
fn a_ridge_beam_on_a_pack_in_the_stretch_is_an_arrival_or_stops_the_study_by_name() {
    use joistwise_core::draft::draft;
    use joistwise_core::plan::{Joints, Member, Post, PostKind, RoofFrame, Use};
    let house = draft()
        .outside(24, 24)
        .inside("W", (12, 2), (12, 22))
        .joists(Way::Y, Joints::RunThrough)
        .used_as(Use::AtticBare);
    let house = house.roof(Way::Y, 0).over(|roof| roof.frame = RoofFrame::RidgeBeam).post("Pack", (12, 12));
    let plan = house.with(|level| {
        let pack = |post: &mut Post| (post.kind, post.member) = (PostKind::StudPack, Member::plies(3, 2, 4));
        level.posts.iter_mut().for_each(pack);
    });
    let plan = plan.done();
    let all = judge(&plan);
    let wall = plan.wall_named("W").expect("drawn").id;
    let study = take_out_read(&plan, &Stretch::of(wall, Feet(5.0), Feet(15.0)), &all).expect("a study");
    let post = &trace(&plan).posts[0];
    assert!(post.top.all().0 > 1000.0, "{post:?}");
    assert!(study.over.most.0 >= heaviest(&post.top, plan.site()).0.0 - 1e-6, "{:?} {:?}", study.over, post.top);
    assert!(study.lands.points.iter().any(|it| (it.at.0 - 10.0).abs() < 1e-6), "{:?}", study.lands.points);
    holds(&plan, &all, &study.stretch).unwrap_or_else(|why| panic!("{why}"));
    let blocks: Vec<&str> = study.refusals.iter().filter(|it| it.blocks).map(|it| it.sentence.as_str()).collect();
    assert!(!study.beams.choices.is_empty() || !blocks.is_empty(), "{blocks:?}");
}

/// A plan in which joists run along a wall and a strut was seen on it: it carries, and nothing is cut on the word of the rest.
#[test]
fn a_strut_seen_on_a_wall_along_the_joists_is_never_a_bare_cut() {
    let plan = joistwise_core::draft::draft().outside(36, 24).inside("W", (0, 12), (36, 12)).done();
    let plan = saw(&plan, 0, (10.0, 12.0), Saw::RunAlong);
    let plan = as_known(&saw(&plan, 0, (18.0, 12.0), Saw::StrutStands));
    assert!(plan.levels()[0].walls.iter().any(|it| it.side == Side::Inside));
    let all = judge(&plan);
    let wall = plan.wall_named("W").expect("drawn").id;
    let stretch = Stretch::of(wall, Feet(12.0), Feet(24.0));
    let study = take_out_read(&plan, &stretch, &all).expect("a study");
    assert!(!study.over.nothing_in_any(), "{:?}", study.over);
    holds(&plan, &all, &stretch).unwrap_or_else(|why| panic!("{why}"));
}
