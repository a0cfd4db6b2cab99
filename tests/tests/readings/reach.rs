//! How far joists can reach rules readings out, and says by how much.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Member, Plan, Saw, Way};
use joistwise_core::reach::longest;
use joistwise_core::readings::{Answer, Certainty, Unknown, Why, judge};
use joistwise_core::trace::Role;
use joistwise_core::units::Ticks;

use super::{of, saw, show};

/// 40 by 26 ft, one wall across the middle, joists seen to run across it in one piece, under a ridge board.
fn house() -> Plan {
    let plan = draft().outside(40, 26).inside("W1", (0, 13), (40, 13)).done();
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::RidgeBoard);
    let plan = saw(&plan, 0, (10.0, 5.0), Saw::JoistsRun { along: Way::Y });
    let plan = saw(&plan, 0, (10.0, 13.0), Saw::JoistsRunThrough);
    saw(&plan, 0, (12.0, 13.0), Saw::NoStrut)
}

/// A 2x6 at 16 in reaches 18 ft 9 in under a bare attic (R802.5.1(1): 225 in, MEMORY), and these would span 26 ft.
#[test]
fn a_2x6_seen_at_16_in_cannot_clear_the_middle_of_26_ft() {
    let size = Saw::JoistSize { member: Member::sawn(2, 6), spacing: Some(Ticks::from_sixteenths(16 * 16)) };
    let plan = saw(&house(), 0, (10.0, 5.0), size);
    let all = judge(&plan);
    let wall = plan.wall_named("W1").expect("drawn").id;
    let field = plan.levels()[0].fields[0].id;
    let [out] = all.ruled_out.as_slice() else { panic!("{:?}", all.ruled_out) };
    assert_eq!((out.unknown, out.answer), (Unknown::Wall(wall), Answer::Clear));
    let Why::TooLong { field: of_field, span, reach } = out.why else { panic!("{:?}", out.why) };
    assert_eq!(of_field, field);
    assert!((span.0 - 26.0).abs() < 1e-9 && (reach.0 - 225.0 / 12.0).abs() < 1e-9, "{span:?} over {reach:?}");
    let by_table = longest(Member::sawn(2, 6), Ticks::from_sixteenths(16 * 16), joistwise_core::plan::Use::AtticBare);
    assert_eq!(by_table, Some(reach));
    assert!(
        of(&plan, &all, "W1").iter().all(|it| super::is_certain(it, Role::CarriesCeiling)),
        "{}",
        show(&plan, &all)
    );
}

#[test]
fn with_the_size_only_assumed_or_told_nothing_is_ruled_out() {
    let size = Saw::JoistSize { member: Member::sawn(2, 6), spacing: Some(Ticks::from_sixteenths(16 * 16)) };
    let told = super::graded(&house(), 0, (10.0, 5.0), size, joistwise_core::plan::Grade::Told);
    let mut file = joistwise_core::plan::PlanFile::from(&house());
    file.levels[0].fields[0].member = Member::sawn(2, 6);
    let drawn = Plan::try_from(file).expect("sound");
    for plan in [house(), drawn, told] {
        let all = judge(&plan);
        assert_eq!(all.ruled_out, []);
        assert!(of(&plan, &all, "W1").iter().all(|it| it.certainty != Certainty::Certain), "{}", show(&plan, &all));
    }
}

/// What sags may span too far already: nothing follows from tables then.
#[test]
fn under_a_sag_nothing_is_ruled_out_for_being_too_long() {
    let size = Saw::JoistSize { member: Member::sawn(2, 6), spacing: Some(Ticks::from_sixteenths(16 * 16)) };
    let plan = saw(&house(), 0, (10.0, 5.0), size);
    let plan = saw(&plan, 0, (30.0, 6.0), Saw::Sag { by: Ticks::from_sixteenths(16) });
    assert_eq!(judge(&plan).ruled_out, []);
}
