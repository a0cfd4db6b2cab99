//! Ends of beams with nothing drawn under them: until somebody looks, the wall under one counts as bearing; the look is ranked.

use joistwise_core::draft::{at, corners, draft};
use joistwise_core::looks::How;
use joistwise_core::plan::{Below, Grade, Joints, Member, Plan, PlanFile, Post, PostKind, Region, RoofFrame, Saw, Way};
use joistwise_core::readings::{Answer, Certainty, Unknown, judge, known_trace};
use joistwise_core::tape::Tape;
use joistwise_core::trace::{End, Reason, Role, trace};

use super::{brute, graded, of, saw, show};

/// 40 by 26 ft. West of wall A, 24 ft from the west, the rooms are open to a ridge beam that ends over A, 13 ft along it; east
/// of A the ceiling joists run along it under a ridge board.
fn vaulted() -> Plan {
    let (west, east) = (corners((0, 0), (24, 26)), corners((24, 0), (40, 26)));
    draft()
        .outside(40, 26)
        .inside("A", (24, 0), (24, 26))
        .joists_over(Region::Corners(east.clone()), Way::Y, Joints::Lap)
        .roof(Way::X, 1)
        .over(|roof| (roof.region, roof.frame) = (Region::Corners(west), RoofFrame::RidgeBeam))
        .roof(Way::X, 1)
        .over(|roof| roof.region = Region::Corners(east))
        .done()
}

/// 30 by 24 ft, a flush beam from the west wall to 6 in short of wall A, which runs along the joists that hang on the beam.
fn short_beam() -> Plan {
    let house = draft().outside(30, 24).inside("A", (14.5, 4), (14.5, 20));
    let house = house.joists(Way::Y, Joints::NotSeen).beam("B1", (0, 12), (14, 12), Joints::NotSeen).flush();
    house.roof(Way::X, 1).done()
}

/// Two storeys of 30 by 24 ft; over the upper one a flush beam ends over the middle of nothing drawn, right over wall D of the
/// lower one, which runs along its joists.
fn two_storeys() -> Plan {
    let house = draft().outside(30, 24).inside("D", (14, 4), (14, 20)).joists(Way::Y, Joints::Lap).up();
    let house = house.outside(30, 24).inside("U", (22, 4), (22, 20)).joists(Way::Y, Joints::NotSeen);
    house.beam("B1", (0, 12), (14, 12), Joints::NotSeen).flush().roof(Way::X, 1).done()
}

/// A post of the upper storey, 8 in beside wall D of the lower one, which runs along the joists under it; a beam stands on it.
fn post_beside() -> Plan {
    let house = draft().outside(30, 24).inside("D", (14, 4), (14, 20)).joists(Way::Y, Joints::Lap).up();
    let house = house.outside(30, 24).joists(Way::Y, Joints::NotSeen).post("P1", (14.0 + 8.0 / 12.0, 12));
    house.beam("B1", (0, 12), (14.0 + 8.0 / 12.0, 12), Joints::NotSeen).flush().roof(Way::X, 1).done()
}

/// The role of a wall at a place along it in feet, with its reasons.
#[track_caller]
fn traced(plan: &Plan, wall: &str, along: f64) -> (Role, Vec<Reason>) {
    let known = known_trace(plan);
    let wall = known.wall(plan.wall_named(wall).expect("drawn").id).expect("traced");
    let here = wall.stretches.iter().find(|it| it.start.0 <= along && along <= it.end.0).expect("a stretch");
    (here.role, here.reasons.clone())
}

fn may_stand(reasons: &[Reason]) -> Vec<End> {
    let end = |it: &Reason| if let Reason::EndMayStandOn { end } = it { Some(*end) } else { None };
    reasons.iter().filter_map(end).collect()
}

/// Certainty and role of a wall at a place along it in feet.
#[track_caller]
fn judged(plan: &Plan, wall: &str, along: f64) -> (Certainty, Role) {
    let all = judge(plan);
    let all = of(plan, &all, wall);
    let here = all.iter().find(|it| it.start.0 <= along && along <= it.end.0).expect("a stretch");
    (here.certainty, here.role())
}

/// Each answer to what is below the one end of a house, and what the wall is then.
#[track_caller]
fn each_answer(name: &str, plan: &Plan, wall: &str, along: f64, wanted: &[(Answer, Role)]) {
    let (role, reasons) = traced(plan, wall, along);
    assert_eq!((role, may_stand(&reasons).len()), (Role::NeedsALook, 1), "{name}: {reasons:?}");
    for beside in [along - 0.7, along + 0.7] {
        assert_eq!(traced(plan, wall, beside).0, Role::NothingFound, "{name} at {beside} ft");
    }
    let all = judge(plan);
    assert_ne!(judged(plan, wall, along).0, Certainty::Certain, "{name}: {}", show(plan, &all));
    let mut looks = all.looks.iter().filter(|look| look.how == How::UnderEnd);
    let (look, more) = (looks.next().expect("a look"), looks.next());
    assert!(more.is_none() && look.settles >= 1.0 - 1e-9, "{name}: {look:?} {more:?}");
    assert!(matches!(look.about.as_slice(), [Unknown::Under(_)]), "{name}: {look:?}");
    let answers: Vec<Answer> = look.outcomes.iter().map(|it| it.answers[0].1).collect();
    assert_eq!(answers, wanted.iter().map(|it| it.0).collect::<Vec<_>>(), "{name}");
    for (number, (answer, role)) in wanted.iter().enumerate() {
        let seen = brute::after(plan, look, number);
        let then = judge(&seen);
        assert_eq!(then.contradictions, [], "{name}: {answer:?}");
        assert_eq!(
            judged(&seen, wall, along),
            (Certainty::Certain, *role),
            "{name}: {answer:?} {}",
            show(&seen, &then)
        );
        assert_eq!(traced(&seen, wall, along).0, *role, "{name}: {answer:?} as known");
        assert!(then.looks.iter().all(|look| look.how != How::UnderEnd), "{name}: {:?}", then.looks);
    }
    brute::tried(name, plan);
}

const OF_ITS_LEVEL: [(Answer, Role); 3] =
    [(Answer::InWall, Role::HoldsPoint), (Answer::OnPost, Role::NothingFound), (Answer::NotUnder, Role::NothingFound)];

#[test]
fn a_wall_under_the_end_of_a_ridge_beam_is_never_nothing_found_before_somebody_looked() {
    each_answer("ridge beam", &vaulted(), "A", 13.0, &OF_ITS_LEVEL);
}

#[test]
fn a_wall_6_in_past_the_end_of_a_beam_may_hold_it() {
    each_answer("short beam", &short_beam(), "A", 8.0, &OF_ITS_LEVEL);
}

/// A post there stands on the wall below; what hangs on something else does not.
#[test]
fn an_end_over_nothing_may_come_down_on_the_wall_of_the_storey_below() {
    let wanted = [(Answer::OnPost, Role::HoldsPoint), (Answer::NotUnder, Role::NothingFound)];
    each_answer("two storeys", &two_storeys(), "D", 8.0, &wanted);
}

#[test]
fn a_post_8_in_beside_the_wall_below_may_stand_on_a_pack_in_it() {
    each_answer("post beside", &post_beside(), "D", 8.0, &OF_ITS_LEVEL);
}

/// The same house with the post of the ridge drawn: nothing is asked, and the wall holds it.
#[test]
fn a_post_drawn_under_the_end_leaves_nothing_to_ask() {
    let mut file = PlanFile::from(&vaulted());
    let id = joistwise_core::ids::PostId::from_number(900);
    let kind = PostKind::StudPack;
    let member = Member::default();
    file.levels[0].posts.push(Post {
        id,
        name: "P".to_owned(),
        at: at((24, 13)),
        kind,
        member,
        wood: Default::default(),
    });
    let plan = Plan::try_from(file).expect("sound");
    let all = judge(&plan);
    assert!(all.looks.iter().all(|look| look.how != How::UnderEnd), "{:?}", all.looks);
    assert_eq!(judged(&plan, "A", 13.0), (Certainty::Certain, Role::HoldsPoint), "{}", show(&plan, &all));
}

/// Who does not know yet how the roof is framed cannot look under its ridge beam, yet the wall is not free of it.
#[test]
fn a_roof_that_may_have_a_ridge_beam_leaves_the_wall_under_its_end_open() {
    let mut file = PlanFile::from(&vaulted());
    file.levels[0].roofs[0].known = Grade::Told;
    let plan = Plan::try_from(file).expect("sound");
    let all = judge(&plan);
    assert_ne!(judged(&plan, "A", 13.0).0, Certainty::Certain, "{}", show(&plan, &all));
    assert!(all.looks.iter().all(|look| look.how != How::UnderEnd) && !all.looks.is_empty(), "{:?}", all.looks);
    brute::tried("ridge beam told", &plan);
}

#[test]
fn what_was_only_told_of_the_end_settles_nothing() {
    for below in [Below::Beam, Below::Post, Below::Wall, Below::Nothing] {
        for known in [Grade::Told, Grade::Assumed, Grade::Unknown] {
            let plan = graded(&vaulted(), 0, (24.0, 13.0), Saw::InLine { below }, known);
            assert_ne!(judged(&plan, "A", 13.0).0, Certainty::Certain, "{below:?} {known:?}");
            assert_eq!(traced(&plan, "A", 13.0).0, Role::NeedsALook, "{below:?} {known:?}");
        }
    }
}

#[test]
fn a_pack_and_a_post_seen_under_one_end_are_both_named_and_the_wall_needs_a_look() {
    let plan = saw(&vaulted(), 0, (24.0, 13.0), Saw::InLine { below: Below::Wall });
    let plan = saw(&plan, 0, (24.0, 13.25), Saw::InLine { below: Below::Post });
    let all = judge(&plan);
    assert_eq!(all.contradictions.len(), 1, "{:?}", all.contradictions);
    assert_eq!(all.contradictions[0].seen.len(), 2, "{:?}", all.contradictions);
    assert_eq!(judged(&plan, "A", 13.0).0, Certainty::NeedsALook, "{}", show(&plan, &all));
    assert_eq!(traced(&plan, "A", 13.0).0, Role::NeedsALook);
}

/// What stands below the end of a wall says nothing of a beam that ends a foot off.
#[test]
fn something_in_line_below_the_end_of_a_wall_does_not_answer_for_a_beam_near_it() {
    let house = draft().outside(30, 24).inside("A", (14.5, 12), (14.5, 20));
    let house = house.joists(Way::Y, Joints::NotSeen).beam("B1", (0, 12), (14, 12), Joints::NotSeen).flush();
    let plan = house.roof(Way::X, 1).done();
    let of_wall = saw(&plan, 0, (14.5, 12.0), Saw::InLine { below: Below::Nothing });
    assert_eq!(traced(&of_wall, "A", 0.2).0, Role::NeedsALook);
    let of_beam = saw(&plan, 0, (14.0, 12.0), Saw::InLine { below: Below::Nothing });
    assert_eq!(traced(&of_beam, "A", 0.2).0, Role::NothingFound);
}

/// A beam that stands on two posts and reaches 1 ft past the last one hangs on nothing, as beams do.
#[test]
fn a_beam_that_reaches_1_ft_past_its_last_post_asks_nothing() {
    let house = draft().outside(30, 24).inside("A", (14.5, 4), (14.5, 20)).post("P1", (13, 12));
    let house = house.joists(Way::Y, Joints::NotSeen).beam("B1", (0, 12), (14, 12), Joints::NotSeen).flush();
    let plan = house.roof(Way::X, 1).done();
    assert!(trace(&plan).walls.iter().flat_map(|wall| &wall.stretches).all(|it| may_stand(&it.reasons).is_empty()));
}

/// On the card what was seen there is among what was looked at, not among what proves nothing.
#[test]
fn what_was_seen_below_an_end_counts_as_looked_at() {
    for below in [Below::Beam, Below::Post, Below::Wall, Below::Nothing] {
        let plan = saw(&vaulted(), 0, (24.0, 13.0), Saw::InLine { below });
        let known = joistwise_core::readings::as_known(&plan);
        let wall = plan.wall_named("A").expect("drawn").id;
        let all = joistwise_core::evidence::evidence(&known, &judge(&plan), wall, Tape::default()).expect("a wall");
        assert_eq!((all.looked.len(), all.heard.len()), (1, 0), "{below:?}: {all:?}");
    }
}
