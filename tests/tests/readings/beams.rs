//! Carrying members that nobody drew: a girder truss or a beam over a wall, until somebody looked.

use joistwise_core::draft::{at, draft};
use joistwise_core::plan::{Grade, Joints, Plan, PlanFile, Region, Roof, RoofFrame, Saw, Way};
use joistwise_core::readings::{Answer, Certainty, Unknown, judge};
use joistwise_core::trace::Role;

use super::{graded, of, saw, show};

/// An L of two wings, 40 by 24 ft and 20 by 16 ft on its north side, under two roofs that were only told: the wall W stands
/// where they meet.
pub(super) fn l_of_two_told_roofs() -> Plan {
    let corners = [(0, 0), (40, 0), (40, 24), (20, 24), (20, 40), (0, 40)];
    let outline: Vec<_> = corners.iter().map(|it| at(*it)).collect();
    let plan = draft().outline(&outline).inside("W", (0, 24), (20, 24)).done();
    let mut file = PlanFile::from(&plan);
    let region = |from: (i32, i32), to: (i32, i32)| Region::Corners(joistwise_core::draft::corners(from, to));
    let roofs = [(region((0, 0), (40, 24)), Way::X), (region((0, 24), (20, 40)), Way::X)];
    for (next, (region, ridge)) in (1000..).zip(roofs) {
        let id = joistwise_core::ids::RoofId::from_number(next);
        let roof = Roof::usual(ridge, RoofFrame::NotSeen, Grade::Told);
        file.levels[0].roofs.push(Roof { id, region, ..roof });
    }
    Plan::try_from(file).expect("sound")
}

/// By hand: a girder truss over W takes the feet of both roofs and puts them on its two ends; W is then a partition with two
/// points. Nobody looked, so that W carries roof along its length is not settled.
#[test]
fn where_two_told_roofs_of_an_l_meet_it_is_not_certain_what_the_wall_carries() {
    let plan = l_of_two_told_roofs();
    let all = judge(&plan);
    let open = of(&plan, &all, "W").iter().all(|it| it.certainty != Certainty::Certain);
    assert!(open, "{}", show(&plan, &all));
    let wall = Unknown::Wall(plan.wall_named("W").expect("drawn").id);
    assert!(of(&plan, &all, "W").iter().any(|it| it.hangs_on.contains(&wall)), "{}", show(&plan, &all));
    // Laps of the ceiling over it say nothing of the roofs.
    let lapped = saw(&plan, 0, (10.0, 24.0), Saw::JoistsLap);
    let all = judge(&lapped);
    assert!(of(&lapped, &all, "W").iter().any(|it| it.certainty != Certainty::Certain), "{}", show(&lapped, &all));
    assert!(of(&lapped, &all, "W").iter().all(|it| it.role() != Role::NothingFound), "{}", show(&lapped, &all));
}

/// Joists of 2x8 on 24 ft reach over no wall by themselves, so that the wall in the middle is needed: all the same a beam that
/// nobody drew may hold them, until somebody looks along it.
#[test]
fn a_wall_under_joists_that_nobody_looked_along_may_have_a_beam_over_it_and_one_with_laps_seen_has_none() {
    let plan = draft().outside(30, 24).inside("W", (0, 12), (30, 12)).done();
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::Y });
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::RidgeBoard);
    let id = plan.wall_named("W").expect("drawn").id;
    let answers = |plan: &Plan| {
        let all = judge(plan);
        let looks = all.looks.iter().flat_map(|it| &it.outcomes).flat_map(|it| it.answers.clone());
        let mut answers: Vec<Answer> = looks.filter(|it| it.0 == Unknown::Wall(id)).map(|it| it.1).collect();
        answers.dedup();
        (answers, all)
    };
    let (open, all) = answers(&plan);
    assert!(open.contains(&Answer::BeamOver), "{open:?}");
    assert!(of(&plan, &all, "W").iter().all(|it| it.certainty != Certainty::Certain), "{}", show(&plan, &all));
    for looked in [Saw::JoistsLap, Saw::SitOnPlate, Saw::JoistsRunThrough, Saw::Gap, Saw::NothingStands] {
        let plan = saw(&plan, 0, (10.0, 12.0), looked);
        assert!(!answers(&plan).0.contains(&Answer::BeamOver), "{looked:?}");
    }
    // Told is not seen.
    let told = graded(&plan, 0, (10.0, 12.0), Saw::JoistsLap, Grade::Told);
    assert!(answers(&told).0.contains(&Answer::BeamOver));
}

/// Statics by hand: the beam of 30 ft takes what the wall took of 24 ft of joists, half of it at each end, and nothing is left
/// for the wall between.
#[test]
fn a_beam_seen_over_a_wall_brings_all_to_its_two_ends_and_leaves_0_plf_between() {
    let plan = draft().outside(30, 24).inside("W", (5, 12), (25, 12)).inside("N", (5, 0), (5, 24));
    let plan = plan.joists(Way::Y, Joints::NotSeen).roof(Way::X, 1).done();
    let plan = saw(&plan, 0, (15.0, 12.0), Saw::BeamOver);
    let plan = saw(&plan, 0, (15.0, 12.0), Saw::NoStrut);
    let all = judge(&plan);
    for it in of(&plan, &all, "W") {
        assert!(it.role() == Role::HoldsPoint && it.certainty == Certainty::Certain, "{}", show(&plan, &all));
    }
    let range = all.ranges.iter().find(|it| Some(it.wall) == plan.wall_named("W").map(|it| it.id)).expect("a range");
    assert!(range.most.0 < 1e-6, "{range:?}");
}
