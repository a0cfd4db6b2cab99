//! Bugs that were, each as the smallest house that showed it. Named after what was seen.

use joistwise_core::draft::{at, corners, draft, feet};
use joistwise_core::plan::{Joints, Plan, Region, Top, Way};
use joistwise_core::trace::{Caution, Node, Problem, Reason, trace};
use joistwise_tests::wall;

/// A place in inches, as feet.
fn inches(x: i32, y: i32) -> (f64, f64) {
    (f64::from(x) / 12.0, f64::from(y) / 12.0)
}

/// Pounds that end in the ground or in a gap, over pounds put on.
#[track_caller]
fn delivered_over_applied(plan: &Plan) -> f64 {
    let trace = trace(plan);
    let ends = trace.links.iter().filter(|it| matches!(it.to, Node::Ground | Node::Footing(_) | Node::Gap));
    ends.map(|link| link.weights.all().0).sum::<f64>() / trace.ledger.applied.all().0
}

#[track_caller]
fn loses_nothing(plan: &Plan) {
    let share = delivered_over_applied(plan);
    assert!((share - 1.0).abs() < 1e-9, "{share}");
}

/// The end of the upper wall is a hair past the end of the joist under it, which a stair has cut at a slant.
#[test]
fn a_wall_that_ends_at_the_slanted_end_of_a_joist_is_not_lost() {
    let below = [inches(8, 0), inches(197, 0), inches(197, 252), inches(8, 252)].map(at);
    let house = draft().outline(&below).joists(Way::new(1, 1), Joints::Lap).stair(inches(135, 13), inches(187, 33));
    let house = house.stair(inches(22, 82), inches(42, 184)).up();
    loses_nothing(&house.inside("A", inches(180, 13), inches(180, 0)).done());
}

#[test]
fn a_weight_where_a_wall_takes_over_from_a_beam_stands_on_one_of_them() {
    let house = draft().outside(12, 12).joists(Way::Y, Joints::Lap).beam("B", (0, 0), (0, 9), Joints::Lap);
    loses_nothing(&house.up().inside("A", (0, 9), (12, 9)).done());
}

/// Joists at 45 degrees: each of them crosses the two walls 2 ft apart, which a rounding made a new reason of.
#[test]
fn a_wall_above_that_stands_near_is_named_once_and_its_offset_is_square_to_it() {
    let house = draft().outside(20, 20).inside("A", (0, 10), (20, 10)).joists(Way::new(1, 1), Joints::Lap);
    let plan = house.up().inside("U", (4, 12), (16, 12)).done();
    let trace = trace(&plan);
    let near = wall(&plan, &trace, "A").stretches.iter().flat_map(|it| &it.reasons);
    let offsets: Vec<f64> = near
        .filter_map(|it| if let Reason::WallNearStandsOn { offset, .. } = it { Some(offset.0) } else { None })
        .collect();
    assert!(matches!(offsets.as_slice(), [ft] if (ft - 2.0).abs() < 1e-9), "{offsets:?} ft");
}

/// Two stairs whose headers find no trimmer: the field is at fault once.
#[test]
fn members_of_one_field_without_support_are_one_finding() {
    let house = draft().outside(12, 12).joists(Way::X, Joints::Lap);
    let house = house.joists_over(Region::Corners(corners(inches(0, 21), inches(76, 90))), Way::X, Joints::Lap);
    let house = house.stair(inches(5, 25), inches(25, 122)).stair((0, 0), inches(20, 20));
    let trace = trace(&house.done());
    let of = |it: &&joistwise_core::trace::Finding| matches!(it.problem, Problem::MembersUnsupported { .. });
    let mut fields: Vec<String> = trace.findings.iter().filter(of).map(|it| format!("{:?}", it.problem)).collect();
    let all = fields.len();
    fields.dedup();
    assert_eq!(fields.len(), all, "{fields:?}");
}

/// Wall A stands in line with the bearing wall above, at the other end of the house.
#[test]
fn a_wall_in_line_far_along_does_not_hide_that_the_wall_above_is_off() {
    let below = draft().outside(40, 24).inside("B", (20, 12), (40, 12)).inside("A", (0, 8), (12, 8));
    let house = below.joists(Way::Y, Joints::Lap).up().outside(40, 24).inside("U", (20, 8), (40, 8));
    let plan = house.joists(Way::Y, Joints::Lap).done();
    let warned =
        |it: &Caution| matches!(it, Caution::OffsetOverJoistDepth { offset, .. } if (offset.0 - 4.0).abs() < 1e-9);
    let trace = trace(&plan);
    let cautions = &wall(&plan, &trace, "U").cautions;
    assert_eq!(cautions.iter().filter(|it| warned(it)).count(), 1, "{cautions:?}");
}

/// Tail joists from the south header to wall A, 4 ft away, go on to the outside wall: half of the 4 ft leans on the
/// header, and the other header has half of the 10 ft beyond it.
#[test]
fn a_header_carries_half_of_the_tail_up_to_the_next_wall_from_either_side() {
    let house = draft().outside(20, 30).inside("A", (0, 6), (20, 6)).joists(Way::Y, Joints::Lap);
    let trace = trace(&house.stair((8, 10), (11, 20)).done());
    let mut areas: Vec<f64> = trace.headers.iter().map(|it| it.area.0).collect();
    areas.sort_by(f64::total_cmp);
    assert!((areas[0] - 3.0 * 2.0).abs() < 1e-9 && (areas[1] - 3.0 * 5.0).abs() < 1e-9, "{areas:?} sq ft");
}

/// The first joist lies on a line that touches the deck in one corner.
#[test]
fn a_house_with_slanted_walls_has_no_joist_without_support_in_its_corners() {
    let outline = [(0, 0), (30, 4), (28, 26), (-3, 20)].map(at);
    let house = draft().outline(&outline).joists(Way::Y, Joints::Lap).roof(Way::X, 1);
    let gaps: Vec<String> = trace(&house.done()).path_gaps().map(|it| format!("{:?}", it.problem)).collect();
    assert!(gaps.is_empty(), "{gaps:?}");
}

/// 36 x 24 ft less 12.75 x 10 ft in the corner, joists at 24 in: they span 24 ft west of x = 23.25 ft, 14 ft east of it. One
/// lies along the step, so the next one, at x = 24 ft, does not hang 10 ft past the wall at y = 14 ft.
#[test]
fn no_joist_of_an_l_shaped_house_hangs_past_the_wall_of_the_step() {
    let outline = [(0.0, 0.0), (36.0, 0.0), (36.0, 14.0), (23.25, 14.0), (23.25, 24.0), (0.0, 24.0)].map(at);
    let house = draft().outline(&outline).joists(Way::Y, Joints::Lap);
    let plan = house.with(|level| level.fields[0].spacing = feet(2)).done();
    let trace = trace(&plan);
    let step = plan.levels()[0].walls.iter().find(|it| it.a == at((36, 14))).expect("drawn").id;
    let plf: Vec<f64> = trace.wall(step).expect("traced").line.iter().map(|it| it.loads.floor.0).collect();
    assert!(plf.iter().all(|plf| (plf - 7.0 * 40.0).abs() < 1e-6), "{plf:?} plf");
}

/// The trimmer laps on wall B; its other piece hangs far past wall A and tips. The header stands right over B.
#[test]
fn a_header_right_over_a_lap_stands_on_the_wall_though_one_piece_there_tips() {
    let house = draft().outside(inches(209, 0).0, 12).joists(Way::X, Joints::Lap);
    let house = house.inside("A", inches(80, 76), inches(80, 0)).inside("B", inches(72, 76), inches(72, 0));
    let plan = house.stair(inches(189, 0), inches(209, 77)).stair(inches(52, 7), inches(72, 86)).done();
    let trace = trace(&plan);
    let header = Node::FloorOpening(plan.levels()[0].floor_openings[1].id);
    assert_eq!(trace.links.iter().find(|it| it.from == header && it.to == Node::Gap), None);
}

/// Walls at 5.0, 5.1 and 5.2 ft: the outer two are two places, and the one between them is in the place of either.
#[test]
fn of_three_walls_close_together_a_joist_bears_on_the_same_whichever_way_it_is_read() {
    let bears = |flip: bool| {
        let y = |y: f64| if flip { 12.0 - y } else { y };
        let house = draft().outside(20, 12).inside("A", (0, y(5.0)), (20, y(5.0))).joists(Way::Y, Joints::Lap);
        let house = house.inside("B", (0, y(5.1)), (20, y(5.1))).inside("C", (0, y(5.2)), (20, y(5.2)));
        let trace = trace(&house.done());
        let mut bears: Vec<f64> = trace.members[3].bears.iter().map(|it| (y(it.y.0) * 100.0).round() / 100.0).collect();
        bears.sort_by(f64::total_cmp);
        bears
    };
    assert_eq!(bears(false), [0.0, 5.0, 5.2, 12.0]);
    assert_eq!(bears(true), [0.0, 5.0, 5.2, 12.0]);
}

/// The trimmer of a stair stands 3 1/2 in off a post: half a 6x6 and half a joist. On paper it reaches; so it does on
/// either side of the house, and wherever the house stands.
#[test]
fn a_post_exactly_at_its_reach_is_reached_wherever_the_house_stands() {
    for dx in 0..40 {
        for side in [-1, 1] {
            let house = draft().outline(&corners(inches(dx, 0), inches(dx + 240, 240))).joists(Way::Y, Joints::Lap);
            let x = if side < 0 { 67 } else { 97 };
            let off = if side < 0 { -3.5 } else { 3.5 };
            let post = (f64::from(dx + x) / 12.0 + off / 12.0, 10.0);
            let plan = house.stair(inches(dx + 67, 60), inches(dx + 97, 140)).post("P", post).done();
            let trace = trace(&plan);
            assert!(trace.posts[0].top.all().0 > 100.0, "{dx} in, {side}: {:?}", trace.posts[0]);
        }
    }
}

#[test]
fn of_two_posts_near_the_end_of_a_header_the_nearer_one_is_under_it_at_either_end() {
    for (header_y, near, far) in [(5.0, 5.0, 5.4), (10.0, 10.0, 9.6)] {
        let house = draft().outside(20, 16).joists(Way::Y, Joints::Lap).stair((10, 5), (13, 10));
        let trace = trace(&house.post("near", (10.0, near)).post("far", (10.0, far)).done());
        let header = trace.headers.iter().find(|it| (it.a.y.0 - header_y).abs() < 1e-9).expect("a header");
        assert_eq!(header.under_a.or(header.under_b), Some(trace.posts[0].post), "{header_y} ft");
    }
}

/// A partition with a gap over it, under the bearing wall above: nothing lands on it, so the wall above is 4 ft off B still.
#[test]
fn a_partition_with_a_gap_over_it_does_not_hide_that_the_wall_above_is_off() {
    let below = draft().outside(40, 24).inside("B", (0, 12), (40, 12)).inside("A", (0, 8), (40, 8));
    let house = below.wall(|it| it.top = Top::Gap).joists(Way::Y, Joints::Lap).up().outside(40, 24);
    let plan = house.inside("U", (0, 8), (40, 8)).joists(Way::Y, Joints::Lap).done();
    let trace = trace(&plan);
    let cautions = &wall(&plan, &trace, "U").cautions;
    let four_ft =
        |it: &Caution| matches!(it, Caution::OffsetOverJoistDepth { offset, .. } if (offset.0 - 4.0).abs() < 1e-9);
    assert!(cautions.iter().any(four_ft), "{cautions:?}");
}
