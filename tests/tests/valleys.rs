//! Valleys against plane geometry and statics by hand: each figure from an area or a free body that is written beside it.
//!
//! No dead load but where it is asked for, and 20 psf of roof live load on plan (IRC Table R301.6, MEMORY): pounds are 20
//! times square feet. Rafters an inch apart where figures are those of the planes: what is laid in strips differs from
//! them by a part in a hundred.

use joistwise_core::draft::{Draft, at, corners, draft};
use joistwise_core::plan::{Joints, Plan, Point, Region, RoofFrame, Side, Way};
use joistwise_core::trace::{Node, Problem, Reason, RibKind, RibTrace, Trace, WallTrace, trace};
use joistwise_core::units::{Psf, Ticks};
use joistwise_tests::{at_foot, head};

const PSF: f64 = 20.0;

fn outline(corners: &[(i32, i32)]) -> Draft {
    let corners: Vec<Point> = corners.iter().map(|it| Point::feet(it.0, it.1)).collect();
    draft().outline(&corners)
}

/// A main roof over 40 x 24 ft, its ridge along the 40, without dead load, and a wing of 16 ft between two places.
fn roofs(house: Draft, frame: RoofFrame, overhang: f64, wing: ((i32, i32), (i32, i32))) -> Draft {
    let house = house.roof(Way::X, overhang).over(|it| {
        it.region = Region::Corners(corners((0, 0), (40, 24)));
        (it.frame, it.dead) = (frame, Some(Psf(0.0)));
    });
    house.wing(wing.0, wing.1)
}

/// Walls by side: south, east, north of the wing, west of the wing, north, west.
const L: [(i32, i32); 6] = [(0, 0), (40, 0), (40, 44), (24, 44), (24, 24), (0, 24)];
/// South, east, north-east, east of the wing, north of it, west of it, north-west, west.
const T: [(i32, i32); 8] = [(0, 0), (40, 0), (40, 24), (28, 24), (28, 44), (12, 44), (12, 24), (0, 24)];

/// The wing of the L: 20 ft out, 16 ft wide, at the east end.
fn l_house(frame: RoofFrame) -> Draft {
    roofs(outline(&L), frame, 0.0, ((24, 24), (40, 44)))
}

/// The same wing in the middle of the 40 ft.
fn t_house(frame: RoofFrame) -> Draft {
    roofs(outline(&T), frame, 0.0, ((12, 24), (28, 44)))
}

/// With rafters an inch apart.
fn fine(house: Draft) -> Draft {
    house.with(|level| level.roofs.iter_mut().for_each(|it| it.spacing = Ticks::from_sixteenths(16)))
}

fn balanced(house: Draft) -> (Plan, Trace) {
    let plan = house.done();
    let trace = trace(&plan);
    assert!(trace.ledger.worst_share_off() < 1e-12, "{:?}", trace.ledger);
    (plan, trace)
}

fn found(trace: &Trace, wanted: impl Fn(&Problem) -> bool) -> bool {
    trace.findings.iter().any(|finding| wanted(&finding.problem))
}

fn valleys(trace: &Trace) -> Vec<&RibTrace> {
    trace.roofs.iter().flat_map(|it| &it.ribs).filter(|rib| rib.kind == RibKind::Valley).collect()
}

fn outside<'t>(plan: &Plan, trace: &'t Trace, side: usize) -> &'t WallTrace {
    let mut ids = plan.levels().iter().flat_map(|level| &level.walls).filter(|it| it.side == Side::Outside);
    trace.wall(ids.nth(side).expect("a side").id).expect("traced")
}

/// What a wall gets besides its line load, in square feet of roof.
fn point_sqft(wall: &WallTrace) -> f64 {
    wall.points.iter().map(|it| it.weights.roof_live.0 / PSF).sum()
}

fn line_sqft(wall: &WallTrace) -> f64 {
    wall.line.iter().map(|it| (it.loads * (it.end - it.start)).roof_live.0 / PSF).sum()
}

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 1e-9 * by_hand.abs().max(1.0), "{what}: {got}, by hand {by_hand}");
}

#[track_caller]
fn near(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 0.015 * by_hand, "{what}: {got}, by hand {by_hand}");
}

/// 40 x 24 + 16 x 20 = 1,280 square feet; what the wing covers of the main roof, 16 x 8 / 2 = 64, is roof once.
#[test]
fn walls_of_an_l_of_1280_sqft_get_all_of_its_roof_and_no_more() {
    for frame in [RoofFrame::RidgeBoard, RoofFrame::RidgeBeam, RoofFrame::NotSeen] {
        for house in [l_house(frame), t_house(frame), fine(l_house(frame))] {
            let (_, trace) = balanced(house);
            let all: f64 = trace.walls.iter().map(|it| it.top.roof_live.0 / PSF).sum();
            close("roof on walls, sqft", all, 1280.0);
            assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
        }
    }
}

/// Eaves 1 ft out: main 2 x 40 less 16 of the wing and, at each inside corner, 1 ft that is under the wing's eave; wing 2 x
/// 20. The T: 1,280 + 80 - 16 - 2 + 40 = 1,382 square feet. The L has one inside corner: 1,383.
#[test]
fn eaves_meet_at_the_inside_corner_and_each_foot_of_them_counts_once_1382_and_1383_sqft() {
    for (house, area) in [
        (roofs(outline(&T), RoofFrame::RidgeBoard, 1.0, ((12, 24), (28, 44))), 1382.0),
        (roofs(outline(&L), RoofFrame::RidgeBoard, 1.0, ((24, 24), (40, 44))), 1383.0),
    ] {
        let (_, trace) = balanced(house);
        close("roof sqft", trace.ledger.applied.roof_live.0 / PSF, area);
        assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
    }
}

/// On ridge beams each jack is a span of its own. In u ft from the foot of a valley, on plan along either wall: main jacks
/// 12 - u ft long, wing jacks 8 - u ft, half of each on the valley: 10 - u ft, over 8 ft 48 square feet. Moments about the
/// foot: top (10 x 8^2 / 2 - 8^3 / 3) / 8 = 18 2/3, foot 29 1/3 square feet.
/// The wing's ridge beam, 28 ft: 8 ft of roof over 20 ft, less and less over the other 8: 160 + 32 = 192 square feet, of
/// which the gable wall gets (32 x 16 / 3 + 160 x 18) / 28 and the top of the valleys the rest.
#[test]
fn valleys_between_ridge_beams_carry_48_sqft_and_a_post_holds_their_tops_and_the_wings_ridge() {
    let (plan, trace) = balanced(fine(t_house(RoofFrame::RidgeBeam)).post("P", (20, 16)));
    for valley in valleys(&trace) {
        near("valley sqft", valley.top.roof_live.0 / PSF, 48.0);
        near("foot sqft", at_foot(valley).roof_live.0 / PSF, 48.0 - 56.0 / 3.0);
        near("top sqft", head(valley).weights.roof_live.0 / PSF, 56.0 / 3.0);
        assert_eq!(head(valley).on, Node::Post(trace.posts[0].post));
        let leaning: f64 = valley.feeds.iter().map(|it| it.width().0 * (it.end - it.start).0).sum();
        near("tributary sqft by the trade", leaning, 48.0);
    }
    let gable = (32.0 * 16.0 / 3.0 + 160.0 * 18.0) / 28.0;
    near("gable wall sqft", point_sqft(outside(&plan, &trace, 4)), gable);
    near("post sqft", trace.posts[0].top.roof_live.0 / PSF, 2.0 * 56.0 / 3.0 + 192.0 - gable);
    assert!(!found(&trace, |it| matches!(it, Problem::ValleyTopNotHeld { .. })), "{:?}", trace.findings);
}

/// Against ridge boards a pair is one span from eave to valley, 24 - u ft, half of it on the valley; the wing's pairs bring
/// 8 - u ft: 20 - 1.5 u, over 8 ft 112 square feet. About the foot: top (20 x 8^2 / 2 - 1.5 x 8^3 / 3) / 8 = 48, foot 64.
#[test]
fn valleys_between_ridge_boards_carry_112_sqft_of_which_64_come_down_at_the_corner_and_48_on_a_post() {
    let (plan, trace) = balanced(fine(t_house(RoofFrame::RidgeBoard)).post("P", (20, 16)));
    let both = valleys(&trace);
    assert_eq!(both.len(), 2);
    for valley in both {
        near("valley sqft", valley.top.roof_live.0 / PSF, 112.0);
        near("foot sqft", at_foot(valley).roof_live.0 / PSF, 64.0);
        close("foot ft", valley.rests[0].at.0, 0.0);
    }
    near("post sqft", trace.posts[0].top.roof_live.0 / PSF, 96.0);
    // South: 24 ft of whole pairs, 12 ft each, and 2 x 80 of those cut. East of the wing: 8 ft on 20 ft of wall.
    near("south wall sqft", line_sqft(outside(&plan, &trace, 0)), 24.0 * 12.0 + 160.0);
    near("wall of the wing sqft", line_sqft(outside(&plan, &trace, 3)), 160.0);
    let corners: f64 = (0..8).map(|side| point_sqft(outside(&plan, &trace, side))).sum();
    near("both corners sqft", corners, 128.0);
}

/// Nothing under the tops: 2 x 48 = 96 square feet on three legs, both corners and the south eave opposite, 24 ft from the
/// line of the corners: 96 x 8 / 24 = 32 on the eave, and 32 on each corner, the top being midway.
/// The whole roof as a free body, about the south wall: 960 x 12 + 320 x 34 = 22,400 square feet x ft; walls: north 288 x
/// 24, corners 2 x 96 x 24, wing 320 x 34 = 22,400.
#[test]
fn tops_with_nothing_under_them_are_found_and_stand_on_three_legs_of_32_sqft() {
    let (plan, trace) = balanced(fine(t_house(RoofFrame::RidgeBoard)));
    assert!(found(&trace, |it| matches!(it, Problem::ValleyTopNotHeld { .. })));
    near("south wall sqft", point_sqft(outside(&plan, &trace, 0)), 32.0);
    let corners: f64 = (1..8).map(|side| point_sqft(outside(&plan, &trace, side))).sum();
    near("both corners sqft", corners, 192.0);
    let moment: f64 = plan.levels()[0]
        .walls
        .iter()
        .map(|wall| {
            let (a, b) = (wall.a.y.feet().0, wall.b.y.feet().0);
            let length = (b - a).abs().max((wall.b.x - wall.a.x).feet().0.abs());
            let y = |at: f64| a + (b - a) * at / length;
            let traced = trace.wall(wall.id).expect("traced");
            let points = traced.points.iter().map(|it| it.weights.roof_live.0 * y(it.at.0)).sum::<f64>();
            let line = traced
                .line
                .iter()
                .map(|it| (it.loads * (it.end - it.start)).roof_live.0 * y((it.start.0 + it.end.0) / 2.0));
            (points + line.sum::<f64>()) / PSF
        })
        .sum();
    assert!((moment - 22400.0).abs() < 0.002 * 22400.0, "sqft x ft about the south wall: {moment}");
}

/// Each with half of the roof, whatever the spacing.
#[test]
fn the_valleys_of_a_symmetric_t_are_alike_to_a_billionth_of_a_pound() {
    for house in [t_house(RoofFrame::RidgeBoard), t_house(RoofFrame::RidgeBeam).post("P", (20, 16))] {
        let (_, trace) = balanced(house);
        let [one, other] = valleys(&trace)[..] else { panic!("two valleys") };
        close("tops lb", one.top.all().0, other.top.all().0);
        for (a, b) in one.rests.iter().zip(&other.rests) {
            close("rests lb", a.weights.all().0, b.weights.all().0);
            close("rests ft", a.at.0, b.at.0);
        }
        close("length ft", one.length().0, 8.0 * 2.0_f64.sqrt());
    }
}

/// The corner of the L holds one valley on the walls that meet there; the other begins on the straight east wall.
#[test]
fn the_outer_valley_of_an_l_begins_24_ft_up_its_straight_east_wall() {
    let (plan, trace) = balanced(l_house(RoofFrame::RidgeBoard));
    let east = outside(&plan, &trace, 1);
    let at = east.points.iter().map(|it| it.at.0).collect::<Vec<f64>>();
    assert_eq!(at, [24.0]);
    let reasons = |wall: &WallTrace| {
        wall.stretches.iter().any(|it| it.reasons.iter().any(|why| matches!(why, Reason::ValleyRestsOn { .. })))
    };
    assert!(reasons(east) && (reasons(outside(&plan, &trace, 3)) || reasons(outside(&plan, &trace, 4))));
}

/// 9 in 12 over 8 ft of the wing is 6 ft, as high as 6 in 12 over 12 ft of the main roof: the tops hang on the main ridge
/// beam, and no post is wanted there.
#[test]
fn a_wing_as_high_as_the_main_ridge_beam_hangs_on_it() {
    let house = t_house(RoofFrame::RidgeBeam).over(|it| it.rise = Ticks::from_sixteenths(9 * 16));
    let (_, trace) = balanced(house);
    assert!(!found(&trace, |it| matches!(it, Problem::ValleyTopNotHeld { .. })), "{:?}", trace.findings);
    for valley in valleys(&trace) {
        assert_eq!((valley.b.x.0, valley.b.y.0), (20.0, 12.0));
        assert_eq!(head(valley).on, Node::Roof(trace.roofs[0].roof));
    }
    let ridge = trace.roofs[0].ribs.iter().find(|it| it.kind == RibKind::Ridge).expect("a ridge beam");
    assert!(ridge.points.iter().all(|it| it.from == Node::Roof(trace.roofs[1].roof)) && ridge.points.len() == 1);
}

/// The valley from (12, 24) runs on through (20, 16) to the ridge beam at (24, 12); the other ends on it, 8 ft in from each
/// wall. Jacks between the two are cut in it.
#[test]
fn a_long_valley_holds_the_short_one_and_hangs_on_the_ridge_beam() {
    let house = fine(t_house(RoofFrame::RidgeBeam)).over(|it| it.long_valley = Some(at((12, 24))));
    let (plan, trace) = balanced(house);
    assert!(!found(&trace, |it| matches!(it, Problem::ValleyTopNotHeld { .. })), "{:?}", trace.findings);
    let (long, short): (Vec<&RibTrace>, Vec<&RibTrace>) = valleys(&trace).into_iter().partition(|it| it.b.y.0 < 13.0);
    close("long ft", long[0].length().0, 12.0 * 2.0_f64.sqrt());
    close("short ft", short[0].length().0, 8.0 * 2.0_f64.sqrt());
    let [point] = long[0].points[..] else { panic!("one weight on it: {:?}", long[0].points) };
    close("from its foot ft", point.at.0, 8.0 * 2.0_f64.sqrt());
    // Short one: u from its foot, half of what runs from it up to the long one: jacks 2 u ft long once u > 4 (the long
    // one is over it from x = 24 on), 12 - u before; and half of the wing's 8 - u.
    let jacks = |u: f64| if u < 4.0 { 12.0 - u } else { 2.0 * (8.0 - u) };
    let load = |u: f64| (jacks(u) + 8.0 - u) / 2.0;
    let steps = 8000;
    let (mut sum, mut moment) = (0.0, 0.0);
    for step in 0..steps {
        let u = (f64::from(step) + 0.5) * 8.0 / f64::from(steps);
        sum += load(u) * 8.0 / f64::from(steps);
        moment += u * load(u) * 8.0 / f64::from(steps);
    }
    near("short sqft", short[0].top.roof_live.0 / PSF, sum);
    near("its top sqft", head(short[0]).weights.roof_live.0 / PSF, moment / 8.0);
    let all: f64 = trace.walls.iter().map(|it| it.top.roof_live.0 / PSF).sum();
    close("roof on walls, sqft", all, 1280.0);
    assert_eq!(plan.levels()[0].roofs.len(), trace.roofs.len());
}

/// Main roof 12 in 12 on a ridge beam, wing 6 in 12 against a board: 4 ft high after 4 ft of the main slope. In x, main
/// jacks are 12 - x / 2 ft, half on the valley: over 8 ft 40 square feet; in y, half of a wing's pair is 8 - 2 y ft: over 4 ft
/// 16. Both valleys with what ends right at their top, held by a post: 2 x 56.
#[test]
fn a_wing_half_as_steep_runs_in_half_as_far_and_its_valleys_take_112_sqft_down() {
    let house = t_house(RoofFrame::RidgeBeam).over(|it| it.frame = RoofFrame::RidgeBoard).with(|level| {
        level.roofs.iter_mut().take(1).for_each(|it| it.rise = Ticks::from_sixteenths(12 * 16));
    });
    let (_, trace) = balanced(fine(house).post("P", (20, 20)));
    let mut down = trace.posts.iter().map(|it| it.top.roof_live.0 / PSF).sum::<f64>();
    for valley in valleys(&trace) {
        close("apex ft", valley.b.y.0, 20.0);
        down += at_foot(valley).roof_live.0 / PSF;
    }
    near("feet and post sqft", down, 112.0);
}

/// Wings to both sides: pairs between them go from valley to valley, 24 - 2 u ft, half on each: 12 - u, and 8 - u of the
/// wing: 20 - 2 u over 8 ft, 96 square feet. In all 1,280 + 320.
#[test]
fn wings_on_both_sides_have_four_valleys_of_96_sqft_and_1600_sqft_of_roof_in_all() {
    const CROSS: [(i32, i32); 12] = [
        (0, 0),
        (12, 0),
        (12, -20),
        (28, -20),
        (28, 0),
        (40, 0),
        (40, 24),
        (28, 24),
        (28, 44),
        (12, 44),
        (12, 24),
        (0, 24),
    ];
    let house = roofs(outline(&CROSS), RoofFrame::RidgeBoard, 0.0, ((12, 24), (28, 44)));
    let house = house.with(|level| level.roofs.reverse()).wing((12, -20), (28, 0)).over(|it| it.ridge = Way::Y);
    let (_, trace) = balanced(fine(house.post("P", (20, 16)).post("Q", (20, 8))));
    let four = valleys(&trace);
    assert_eq!(four.len(), 4);
    for valley in four {
        near("valley sqft", valley.top.roof_live.0 / PSF, 96.0);
    }
    let all: f64 = trace.walls.iter().map(|it| it.top.roof_live.0 / PSF).sum();
    let posts: f64 = trace.posts.iter().map(|it| it.top.roof_live.0 / PSF).sum();
    close("roof on walls and posts, sqft", all + posts, 1600.0);
}

/// A wall of the storey above that stands up to the top of the valleys holds it as a post would.
#[test]
fn a_wall_up_to_the_top_of_the_valleys_holds_it() {
    let house = t_house(RoofFrame::RidgeBoard).up().inside("W", (14, 16), (26, 16)).wall(|it| {
        it.height = Some(Ticks::from_feet(4));
    });
    let (plan, trace) = balanced(house);
    assert!(!found(&trace, |it| matches!(it, Problem::ValleyTopNotHeld { .. })), "{:?}", trace.findings);
    let wall = joistwise_tests::wall(&plan, &trace, "W");
    assert!(wall.points.iter().any(|it| (it.at.0 - 6.0).abs() < 1e-9 && it.weights.roof_live.0 > 60.0 * PSF));
}

/// Dead load is per foot of slope: 15 psf x sqrt(1.25) on 1,280 square feet, on plan.
#[test]
fn dead_load_of_both_roofs_follows_their_slope_of_6_in_12_over_1280_sqft() {
    let house = t_house(RoofFrame::RidgeBoard).with(|level| level.roofs.iter_mut().for_each(|it| it.dead = None));
    let (_, trace) = balanced(house);
    let walls: f64 = trace.walls.iter().map(|it| it.top.dead.0).sum();
    close("dead lb", walls, 1280.0 * 15.0 * 1.25_f64.sqrt());
}

/// Joists along both pairs of rafters: nothing is untied, and cut pairs ask for no tie of their own.
#[test]
fn pairs_that_a_valley_cuts_are_not_asked_for_ties() {
    let tied = |house: Draft| {
        let main = Region::Corners(corners((0, 0), (40, 24)));
        let wing = Region::Corners(corners((12, 24), (28, 44)));
        house.joists_over(main, Way::Y, Joints::RunThrough).joists_over(wing, Way::X, Joints::RunThrough)
    };
    let (_, trace) = balanced(tied(t_house(RoofFrame::RidgeBoard)));
    assert!(!found(&trace, |it| matches!(it, Problem::ThrustNotTied { .. })), "{:?}", trace.findings);
}

/// A higher wing, one that is not square to the ridge, one over the end of it, and one of trusses meet nothing in valleys:
/// said, and traced as if they covered.
#[test]
fn roofs_that_cannot_meet_in_valleys_are_said_and_cover() {
    let trusses = RoofFrame::Trusses { make: Default::default(), webs: Default::default() };
    let houses = [
        t_house(RoofFrame::RidgeBoard).over(|it| it.rise = Ticks::from_sixteenths(10 * 16)),
        t_house(RoofFrame::RidgeBoard).over(|it| it.ridge = Way::X),
        roofs(outline(&T), RoofFrame::RidgeBoard, 0.0, ((30, 20), (46, 44))),
        t_house(RoofFrame::RidgeBoard).over(|it| it.frame = trusses),
    ];
    for house in houses {
        let (_, trace) = balanced(house);
        assert!(found(&trace, |it| matches!(it, Problem::ValleyNotMade { .. })), "{:?}", trace.findings);
        assert!(valleys(&trace).is_empty());
    }
}

/// Drawn before the main roof, up to its far eave or only up to its own: the same valleys.
#[test]
fn it_is_all_one_in_which_order_and_how_far_in_a_wing_is_drawn() {
    let (_, plain) = balanced(t_house(RoofFrame::RidgeBoard));
    let (_, deep) = balanced(roofs(outline(&T), RoofFrame::RidgeBoard, 0.0, ((12, 6), (28, 44))));
    let (_, turned) = balanced(t_house(RoofFrame::RidgeBoard).with(|level| level.roofs.reverse()));
    for other in [&deep, &turned] {
        assert_eq!(plain.walls, other.walls);
        assert_eq!(valleys(&plain), valleys(other));
    }
}
