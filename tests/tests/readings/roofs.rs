//! Several roofs over no joists: each is asked for itself, and what is seen under one says nothing of another.

use joistwise_core::draft::{corners, draft};
use joistwise_core::plan::{Grade, Plan, Region, RoofFrame, Saw, TrussMake, Way, Webs};
use joistwise_core::readings::{Certainty, judge};
use joistwise_core::trace::Role;

use super::{brute, of, saw, show};

/// 50 by 28 ft under two roofs of which nobody has said how they are framed, or told that they are trusses; wall W across the
/// middle of the west part, 25 ft long, wall E across that of the east part.
fn two_parts(told: Option<RoofFrame>) -> Plan {
    let parts = [corners((0, 0), (25, 28)), corners((25, 0), (50, 28))];
    let house = draft().outside(50, 28).inside("W", (0, 14), (24, 14)).inside("E", (26, 14), (50, 14));
    let house = parts.into_iter().fold(house, |house, part| {
        house.roof(Way::X, 1).over(|roof| {
            (roof.region, roof.known) = (Region::Corners(part), Grade::Unknown);
            roof.frame = RoofFrame::NotSeen;
            if let Some(frame) = told {
                (roof.frame, roof.known) = (frame, Grade::Told);
            }
        })
    });
    house.done()
}

const TRUSSES: RoofFrame = RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole };

/// A ridge board and joists across the wall seen in the west part, and how they meet the wall.
fn west_seen(plan: &Plan) -> Plan {
    let plan = saw(plan, 0, (12.5, 7.0), Saw::RidgeBoard);
    let plan = saw(&plan, 0, (12.5, 7.0), Saw::JoistsRun { along: Way::Y });
    let plan = saw(&plan, 0, (10.0, 14.0), Saw::JoistsLap);
    saw(&plan, 0, (12.0, 14.0), Saw::NoStrut)
}

#[test]
fn rafters_and_joists_seen_under_one_roof_settle_the_wall_there_and_leave_the_other_open() {
    for told in [None, Some(TRUSSES), Some(RoofFrame::RidgeBoard)] {
        let plan = west_seen(&two_parts(told));
        let all = judge(&plan);
        assert_eq!(all.contradictions, [], "{told:?}");
        let west = of(&plan, &all, "W");
        assert!(west.iter().all(|it| super::is_certain(it, Role::CarriesCeiling)), "{told:?}\n{}", show(&plan, &all));
        let east = of(&plan, &all, "E");
        assert!(east.iter().all(|it| it.certainty != Certainty::Certain), "{told:?}\n{}", show(&plan, &all));
    }
}

/// Joists on the west side and metal plates on the east side are no contradiction.
#[test]
fn joists_under_one_roof_and_trusses_under_the_other_fit_together() {
    let plan = saw(&west_seen(&two_parts(None)), 0, (37.5, 7.0), Saw::TrussPlates);
    let plan = saw(&plan, 0, (38.0, 14.0), Saw::NoTag);
    let all = judge(&plan);
    assert_eq!(all.contradictions, []);
    let settled = |wall: &str, role| of(&plan, &all, wall).iter().all(|it| super::is_certain(it, role));
    assert!(settled("W", Role::CarriesCeiling) && settled("E", Role::NothingFound), "{}", show(&plan, &all));
}

/// Told to be trusses and seen to be rafters: the question of what lies there was asked from the start.
#[test]
fn each_look_at_two_roofs_told_to_be_trusses_settles_what_judging_anew_settles() {
    for told in [None, Some(TRUSSES)] {
        let (looks, outcomes) = brute::tried("two parts", &two_parts(told));
        println!("{looks} looks, {outcomes} outcomes");
    }
    let one = draft().outside(30, 28).inside("W", (0, 14), (30, 14)).roof(Way::X, 1);
    let one = one.over(|roof| (roof.frame, roof.known) = (TRUSSES, Grade::Told)).done();
    assert!(brute::tried("trusses told", &one).0 >= 1);
}
