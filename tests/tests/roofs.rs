//! Roofs against statics by hand: each figure from a free body or an area that is written beside it.
//!
//! Weights as the plan takes them: 15 psf on the slope (HUD Residential Structural Design Guide, Table 3.2), 20 psf of
//! roof live load on plan (IRC Table R301.6, MEMORY), no snow unless the house states it.

use joistwise_core::draft::{Draft, at, draft};
use joistwise_core::loads::{LineLoads, Site, Surface};
use joistwise_core::plan::{Joints, Plan, Region, RoofForm, RoofFrame, Side, Way};
use joistwise_core::trace::{Node, Origin, Problem, Reason, RibKind, RoofTrace, Trace, WallTrace, trace};
use joistwise_core::units::{Psf, Ticks};
use joistwise_tests::{at_foot, wall};

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 1e-9 * by_hand.abs().max(1.0), "{what}: {got}, by hand {by_hand}");
}

fn balanced(house: Draft) -> (Plan, Trace) {
    let plan = house.done();
    let trace = trace(&plan);
    assert!(trace.ledger.worst_share_off() < 1e-12, "{:?}", trace.ledger);
    (plan, trace)
}

/// Outside walls in the order south, east, north, west.
fn outside<'t>(plan: &Plan, trace: &'t Trace, side: usize) -> &'t WallTrace {
    let mut ids = plan.levels().iter().flat_map(|level| &level.walls).filter(|it| it.side == Side::Outside);
    trace.wall(ids.nth(side).expect("four sides").id).expect("traced")
}

#[track_caller]
fn line(wall: &WallTrace, place: f64) -> LineLoads {
    wall.line.iter().find(|part| part.start.0 <= place && place < part.end.0).expect("loaded there").loads
}

fn dead_on_plan(rise: f64) -> f64 {
    15.0 * (1.0 + (rise / 12.0) * (rise / 12.0)).sqrt()
}

fn found(trace: &Trace, wanted: impl Fn(&Problem) -> bool) -> bool {
    trace.findings.iter().any(|finding| wanted(&finding.problem))
}

fn roof(trace: &Trace) -> &RoofTrace {
    trace.roofs.first().expect("a roof")
}

/// 36 x 24 ft, 6 in 12. Half of each 12 ft rafter goes to the ridge beam: 12 ft of roof on it, 6 ft on each eave. Area 12 x
/// 36 = 432 square feet, half at each gable wall: 432 x (15 x sqrt(1.25) + 20) / 2 lb.
#[test]
fn a_ridge_beam_takes_12_ft_of_a_24_ft_roof_to_the_gable_walls_and_leaves_no_thrust() {
    let house = draft().outside(36, 24).roof(Way::X, 0).over(|it| it.frame = RoofFrame::RidgeBeam);
    let (plan, trace) = balanced(house);
    let eave = outside(&plan, &trace, 0);
    close("eave roof live plf", line(eave, 18.0).roof_live.0, 6.0 * 20.0);
    close("eave ft", eave.tributary_width(Origin::Roof).0, 6.0);
    let ridge = &roof(&trace).ribs[0];
    close("ridge ft", ridge.feeds[0].width().0, 12.0);
    let end = 432.0 * (dead_on_plan(6.0) + 20.0) / 2.0;
    for side in [1, 3] {
        close("gable wall lb", outside(&plan, &trace, side).top.all().0, end);
        assert_eq!(outside(&plan, &trace, side).points.len(), 1);
    }
    close("thrust plf", roof(&trace).thrust.all().0, 0.0);
}

/// A post under the middle cuts the ridge beam in two of 18 ft: half of each, 18 x 12 = 216 square feet, on the post.
#[test]
fn a_post_under_a_ridge_beam_takes_216_square_feet() {
    let house = draft().outside(36, 24).roof(Way::X, 0).over(|it| it.frame = RoofFrame::RidgeBeam).post("P", (18, 12));
    let (_, trace) = balanced(house);
    close("post lb", trace.posts[0].top.all().0, 216.0 * (dead_on_plan(6.0) + 20.0));
}

#[test]
fn a_ridge_beam_with_one_end_in_the_air_is_a_path_gap_and_named_first() {
    let region = Region::Corners(joistwise_core::draft::corners((0, 0), (20, 24)));
    let house = draft().outside(36, 24).roof(Way::X, 0).over(|it| {
        it.frame = RoofFrame::RidgeBeam;
        it.region = region;
    });
    let (_, trace) = balanced(house);
    assert!(matches!(trace.findings[0].problem, Problem::RidgeUnsupported { .. }), "{:?}", trace.findings);
}

/// Unequal gable, 24 ft wide, ridge 8 ft from the south eave. Its height by the longer slope, 6 in 12 over 16 ft: 8 ft, so
/// the short slope rises 12 in 12. One foot of eave. Dead: south 15 x sqrt(2) x 8 lb at 4 ft, north 15 x sqrt(1.25) x 16
/// lb at 16 ft. About the south eave: N x 24 = Ws x 4 + Wn x 16. Live load, even: 240 plf on each.
/// Tie: the north rafter about the ridge: H x 8 = N x 16 - Wn x 8. Live: (240 x 16 - 320 x 8) / 8 = 160 plf.
#[test]
fn an_unequal_gable_of_8_and_16_ft_shares_its_load_by_moments_and_pulls_its_ties_with_160_plf_of_live_load() {
    let house = draft().outside(36, 24).joists(Way::Y, Joints::RunThrough);
    let house = house.roof(Way::X, 0).over(|it| it.ridge_at = Some(at((0, 8))));
    let (plan, trace) = balanced(house);
    let (ws, wn) = (15.0 * 2.0_f64.sqrt() * 8.0, 15.0 * 1.25_f64.sqrt() * 16.0);
    let north = (ws * 4.0 + wn * 16.0) / 24.0;
    let roof_on = |side: usize| {
        let wall = outside(&plan, &trace, side);
        let from_roof =
            trace.links.iter().filter(|it| matches!(it.from, Node::Roof(_)) && it.to == Node::Wall(wall.wall));
        from_roof.fold(joistwise_core::loads::Weights::default(), |sum, it| sum + it.weights)
    };
    close("north dead lb", roof_on(2).dead.0, north * 36.0);
    close("south dead lb", roof_on(0).dead.0, (ws + wn - north) * 36.0);
    close("north live lb", roof_on(2).roof_live.0, 240.0 * 36.0);
    close("tie live plf", roof(&trace).thrust.roof_live.0, 160.0);
    close("tie dead plf", roof(&trace).thrust.dead.0, (north * 16.0 - wn * 8.0) / 8.0);
}

/// A hip over 40 x 24 ft, no overhang, 20 psf. The eave of an end gets half of each jack there: the triangle of 24 x 12 /
/// 2 = 144 square feet, half of it, 72. A hip carries the other half of the jacks on both its sides: two triangles of
/// 12 x 12 / 2 = 72, so 36 from the side and half of the end's 72 = 36 more: 72 square feet, 1,440 lb, growing evenly from
/// nothing at the corner: a third of it at the corner, two thirds at the ridge: 480 and 960 lb.
#[test]
fn a_hip_rafter_over_24_ft_brings_a_third_of_1440_lb_to_its_corner() {
    let house = draft().outside(40, 24).roof(Way::X, 0).over(|it| {
        it.form = RoofForm::Hip;
        it.dead = Some(Psf(0.0));
        it.spacing = Ticks::from_sixteenths(16);
    });
    let (plan, trace) = balanced(house);
    let hips: Vec<_> = roof(&trace).ribs.iter().filter(|rib| rib.kind == RibKind::Hip).collect();
    assert_eq!(hips.len(), 4);
    // Rafters an inch apart: what is laid in strips differs from the triangle by a part in a hundred.
    let near = |what: &str, got: f64, by_hand: f64| {
        assert!((got - by_hand).abs() < 0.02 * by_hand, "{what}: {got}, by hand {by_hand}");
    };
    for hip in hips {
        near("corner lb", at_foot(hip).all().0, 480.0);
    }
    let line_of_end: f64 =
        outside(&plan, &trace, 1).line.iter().map(|it| (it.loads * (it.end - it.start)).all().0).sum();
    near("end eave lb", line_of_end, 72.0 * 20.0);
    assert!(found(&trace, |it| matches!(it, Problem::HipTopNotHeld { .. })));
}

/// Rafters at 24 in are coarser than the triangles, but every jack hangs on its hip, and nothing is in the air.
#[test]
fn a_hip_with_rafters_at_24_in_leaves_no_jack_in_the_air() {
    let house = draft().outside(40, 24).roof(Way::X, 1.5).over(|it| it.form = RoofForm::Hip);
    let (_, trace) = balanced(house);
    assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
    for hip in roof(&trace).ribs.iter().filter(|rib| rib.kind == RibKind::Hip) {
        let jacks: f64 = hip.feeds.iter().map(|it| it.effective.0 * (it.end - it.start).0).sum();
        // Half of 12 x 12 ft of jacks is 72 square feet, and 1.5 ft of overhang hangs on the lower ends.
        assert!((60.0..90.0).contains(&jacks), "{jacks} square feet");
    }
}

/// A post under each end of the ridge takes two hips: 1,920 lb, and what is on the end of the ridge is no finding any more.
#[test]
fn posts_under_the_ends_of_the_ridge_take_the_heads_of_the_hips_1920_lb() {
    let house = draft().outside(40, 24).roof(Way::X, 0).over(|it| {
        it.form = RoofForm::Hip;
        it.dead = Some(Psf(0.0));
        it.spacing = Ticks::from_sixteenths(16);
    });
    let (_, trace) = balanced(house.post("E", (12, 12)).post("F", (28, 12)));
    for post in &trace.posts {
        assert!((post.top.all().0 - 1920.0).abs() < 0.02 * 1920.0, "{post:?}");
    }
    assert!(!found(&trace, |it| matches!(it, Problem::HipTopNotHeld { .. })));
}

/// Rafters of 15 ft with a purlin at half, 7.5 ft of roof on it; a strut each 4 ft: 30 square feet. Foot 3.5 ft off and
/// 3.75 ft below: sqrt(3.5^2 + 3.75^2) = 5.13 ft long, steeper than 45 degrees.
#[test]
fn struts_4_ft_apart_bring_30_square_feet_each_to_the_wall_they_stand_on() {
    let house = draft().outside(48, 30).inside("W", (4, 11), (44, 11)).joists(Way::Y, Joints::Lap);
    let house = house.roof(Way::X, 0).purlin((4.0, 7.5), (44.0, 7.5), (4, 11)).over(|it| it.dead = Some(Psf(0.0)));
    let (plan, trace) = balanced(house);
    let purlin = roof(&trace).ribs.iter().find(|rib| rib.kind == RibKind::Purlin).expect("laid");
    assert_eq!(purlin.struts.len(), 11);
    let inner = &purlin.struts[5];
    // One rafter over eave, purlin and ridge is continuous: 5/4 of the 7.5 ft rest on the purlin.
    close("strut lb", inner.weights.all().0, 1.25 * 30.0 * 20.0);
    close("strut ft", inner.length().0, (3.5_f64 * 3.5 + 3.75 * 3.75).sqrt());
    assert!(inner.is_steep() && inner.is_short());
    let w = wall(&plan, &trace, "W");
    close("roof ft on W", w.tributary_width(Origin::Roof).0, 7.5);
    assert!(w.stretches.iter().all(|it| it.reasons.iter().any(|why| matches!(why, Reason::StrutsStandOn { .. }))));
}

/// Feet between two walls stand on the ceiling joists: found, and still no pound is lost.
#[test]
fn struts_on_ceiling_joists_are_found_and_flat_ones_too() {
    let house = draft().outside(48, 30).inside("W", (4, 15), (44, 15)).joists(Way::Y, Joints::Lap);
    let (_, trace) = balanced(house.clone().roof(Way::X, 0).purlin((4.0, 7.5), (44.0, 7.5), (4, 11)));
    assert!(found(&trace, |it| matches!(it, Problem::StrutsOnJoists { .. })));
    let (_, trace) = balanced(house.roof(Way::X, 0).purlin((4.0, 7.5), (44.0, 7.5), (4, 15)));
    let flat = trace.findings.iter().find_map(|it| match it.problem {
        Problem::StrutsTooFlat { rise, run, .. } => Some((rise.0, run.0)),
        _ => None,
    });
    let (rise, run) = flat.expect("found");
    close("struts rise, ft", rise, 3.75);
    close("struts run, ft", run, 7.5);
    assert!(trace.path_gaps().all(|gap| !matches!(gap.problem, Problem::StrutsOnNothing { .. })));
}

/// 24 x 32 ft, 12 in 12, low walls 4 ft in and 4 ft high. A rafter of 12 ft on eave, wall and ridge: trade widths 2, 6 and
/// 4. By three moments, spans 4 and 8 ft under 1 plf: M over the wall = (4^3 + 8^3) / (8 x 12) = 6 lb-ft; the eave gets 4/2 -
/// 6/4 = 0.5, the ridge 8/2 - 6/8 = 3.25, the wall 12 - 3.75 = 8.25 ft. Both ridge shares go to the eaves: 3.75 ft each.
#[test]
fn a_low_wall_up_to_the_rafters_carries_6_ft_of_roof_by_the_trade_and_8_25_ft_by_statics() {
    let level = draft().outside(32, 24).inside("W", (0, 12), (32, 12)).joists(Way::Y, Joints::Lap);
    let house = level.roof(Way::X, 0).over(|it| {
        it.rise = Ticks::from_sixteenths(12 * 16);
        it.dead = Some(Psf(0.0));
    });
    let house = house.up().inside("K", (0, 4), (32, 4)).wall(|it| it.height = Some(Ticks::from_feet(4)));
    let house = house.inside("L", (0, 20), (32, 20)).wall(|it| it.height = Some(Ticks::from_feet(4)));
    let (plan, trace) = balanced(house);
    let k = wall(&plan, &trace, "K");
    close("trade ft on K", k.tributary_width(Origin::Roof).0, 6.0);
    close("roof live plf on K", line(k, 16.0).roof_live.0, 8.25 * 20.0);
    let eave = outside(&plan, &trace, 0);
    let from_roof = trace.links.iter().filter(|it| matches!(it.from, Node::Roof(_)) && it.to == Node::Wall(eave.wall));
    close("eave lb", from_roof.map(|it| it.weights.all().0).sum(), 3.75 * 20.0 * 32.0);
    // P = 2 x 3.25 x 20 = 130 plf at the ridge; half on each foot, times 12 ft over 12 ft of height.
    close("thrust plf", roof(&trace).thrust.all().0, 65.0);
    assert!(
        k.cautions.iter().any(|it| joistwise_tests::flags_of(it).contains(&"kneewall_load_on_joists")),
        "{:?}",
        k.cautions
    );
}

/// A gap at the top of the low walls: nothing of the roof on them.
#[test]
fn a_low_wall_with_a_gap_over_it_carries_no_roof() {
    let level = draft().outside(32, 24).inside("W", (0, 12), (32, 12)).joists(Way::Y, Joints::Lap);
    let house = level.roof(Way::X, 0).over(|it| it.rise = Ticks::from_sixteenths(12 * 16));
    let house = house.up().inside("K", (0, 4), (32, 4)).wall(|it| {
        it.height = Some(Ticks::from_feet(4));
        it.top = joistwise_core::plan::Top::Gap;
    });
    let (plan, trace) = balanced(house);
    close("roof lb on K", wall(&plan, &trace, "K").top.all().0, 0.0);
}

/// A gambrel on walls under its breaks, 4 ft in: the lower rafters, 4 ft, share half and half; the upper pair, 16 ft wide,
/// leans together and comes down on the walls: 8 + 2 = 10 ft on each, 2 ft on each eave.
#[test]
fn a_gambrel_on_walls_under_its_breaks_brings_10_ft_to_each_and_2_ft_to_each_eave() {
    let level = draft().outside(32, 24).inside("W", (0, 12), (32, 12)).joists(Way::Y, Joints::Lap);
    let house = level.roof(Way::X, 0).over(|it| {
        it.rise = Ticks::from_sixteenths(24 * 16);
        it.form = RoofForm::Gambrel { lower_run: Ticks::from_feet(4), upper_rise: Ticks::from_sixteenths(6 * 16) };
        it.dead = Some(Psf(0.0));
    });
    let (_, open) = balanced(house.clone());
    assert!(found(&open, |it| matches!(it, Problem::GambrelBreakNotHeld { .. })));
    let house = house.up().inside("K", (0, 4), (32, 4)).inside("L", (0, 20), (32, 20));
    let (plan, trace) = balanced(house);
    close("K plf", line(wall(&plan, &trace, "K"), 16.0).roof_live.0, 10.0 * 20.0);
    close("K ft", wall(&plan, &trace, "K").tributary_width(Origin::Roof).0, 10.0);
    assert!(!found(&trace, |it| matches!(it, Problem::GambrelBreakNotHeld { .. })));
    // The upper pair pushes at its feet: 16 ft wide, 4 ft high: 20 x 16^2 / (8 x 4) = 160 plf.
    close("thrust plf", roof(&trace).thrust.all().0, 160.0);
}

/// A shed over 24 ft goes half to the low and half to the high wall; with no joists under it its rafters are the ceiling
/// too, and a wall across them carries.
#[test]
fn a_shed_roof_of_24_ft_brings_12_ft_to_each_wall_and_bears_on_a_wall_under_bare_rafters() {
    let shed = |house: Draft| house.roof(Way::X, 0).over(|it| it.form = RoofForm::Shed);
    let (plan, trace) =
        balanced(shed(draft().outside(36, 24).inside("W", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap)));
    close("eave ft", outside(&plan, &trace, 0).tributary_width(Origin::Roof).0, 12.0);
    close("W ft of roof", wall(&plan, &trace, "W").tributary_width(Origin::Roof).0, 0.0);
    let (plan, trace) = balanced(shed(draft().outside(36, 24).inside("W", (0, 12), (36, 12))));
    close("W ft of roof", wall(&plan, &trace, "W").tributary_width(Origin::Roof).0, 12.0);
}

/// 2 in 12 against a ridge board: found, and a wall inside is not "nothing found".
#[test]
fn a_ridge_board_under_3_in_12_leaves_the_walls_inside_in_doubt() {
    let house = draft().outside(36, 24).inside("W", (4, 3), (4, 21)).joists(Way::Y, Joints::RunThrough);
    let house = house.roof(Way::X, 0).over(|it| it.rise = Ticks::from_sixteenths(2 * 16));
    let (plan, trace) = balanced(house);
    assert!(found(&trace, |it| matches!(it, Problem::RidgeBoardTooFlat { .. })));
    assert_eq!(joistwise_tests::verdict(wall(&plan, &trace, "W")), "needs_a_look");
}

/// Joists across the rafters tie nothing.
#[test]
fn rafters_without_joists_along_them_push_untied() {
    let tied = |along| {
        let house = draft().outside(36, 24).joists(along, Joints::RunThrough).roof(Way::X, 0);
        found(&balanced(house).1, |it| matches!(it, Problem::ThrustNotTied { .. }))
    };
    assert!(tied(Way::X) && !tied(Way::Y));
}

/// A roof built over another: its dead load rides on the rafters below, snow and people count once.
#[test]
fn a_roof_over_a_roof_adds_its_dead_load_of_15_psf_on_the_slope_and_nothing_else() {
    let house = draft().snow(30.0).outside(36, 24).roof(Way::X, 0);
    let (plan, one) = balanced(house.clone());
    let (_, two) = balanced(house.roof(Way::X, 0).over(|it| it.frame = RoofFrame::OverFramed));
    let difference = two.ledger.soil - one.ledger.soil;
    close("dead lb", difference.dead.0, 36.0 * 24.0 * dead_on_plan(6.0));
    close("others lb", difference.snow.0 + difference.roof_live.0, 0.0);
    close("gaps lb", two.ledger.gaps.all().0, 0.0);
    close("eave dead plf", line(outside(&plan, &two, 0), 18.0).dead.0, 2.0 * 12.0 * dead_on_plan(6.0));
    assert!(found(&two, |it| matches!(it, Problem::RoofOverRoof { .. })));
}

/// 12 in 12 over 24 ft, 40 psf on open ground over a cold attic: 0.7 x 0.9 x 1.1 x 40 = 27.72 psf, and 45 degrees leave
/// 25 / 32.5 of it on shingles. Half of the roof, 12 ft, on each eave.
#[test]
fn snow_on_an_eave_wall_follows_exposure_attic_and_slope_in_plf() {
    let site = |surface| {
        move |site: &mut Site| {
            (site.ground_snow, site.exposure, site.thermal) = (Some(Psf(40.0)), Some(0.9), Some(1.1));
            site.roof_surface = surface;
        }
    };
    let house = |surface| {
        let steep = |it: &mut joistwise_core::plan::Roof| it.rise = Ticks::from_sixteenths(12 * 16);
        let (plan, trace) = balanced(draft().site(site(surface)).outside(36, 24).roof(Way::X, 0).over(steep));
        line(outside(&plan, &trace, 0), 18.0).snow.0
    };
    close("not stated", house(Surface::NotStated), 12.0 * 27.72);
    close("shingles", house(Surface::Rough), 12.0 * 27.72 * 25.0 / 32.5);
    close("metal", house(Surface::Slippery), 12.0 * 27.72 * 25.0 / 60.0);
}

/// 24 in 12 below (63.4 degrees) for 4 ft, 5 in 12 above (22.6 degrees) for 8 ft: the upper slopes keep all of 28 psf, the
/// lower ones (70 - 63.435) / 40 of it.
#[test]
fn each_slope_of_a_gambrel_keeps_its_own_snow_in_pounds() {
    let house = draft()
        .site(|site| (site.ground_snow, site.roof_surface) = (Some(Psf(40.0)), Surface::Rough))
        .outside(36, 24)
        .roof(Way::X, 0)
        .over(|it| {
            it.rise = Ticks::from_sixteenths(24 * 16);
            it.form = RoofForm::Gambrel { lower_run: Ticks::from_feet(4), upper_rise: Ticks::from_sixteenths(5 * 16) };
        });
    let (_, trace) = balanced(house);
    let steep = 63.434_948_822_922;
    close("snow lb", trace.ledger.applied.snow.0, 28.0 * 36.0 * (16.0 + 8.0 * (70.0 - steep) / 40.0));
}

/// The hips of a roof over 60 x 24 ft meet 12 ft from its ends. No strut is longer than 8 ft (IRC R802.4.5): a wall along the
/// middle may hold one from 4 to 20 ft and from 40 to 56 ft, wherever its own middle is, and nothing between.
#[test]
fn a_long_wall_needs_a_look_8_ft_about_the_heads_of_hips_and_not_between() {
    let house = draft().outside(60, 24).inside("W", (2, 12), (58, 12)).joists(Way::X, Joints::RunThrough);
    let house = house.roof(Way::X, 0).over(|it| it.form = RoofForm::Hip);
    let plan = house.done();
    let trace = trace(&plan);
    let wall = trace.wall(plan.wall_named("W").expect("drawn").id).expect("traced");
    let open = |reasons: &[Reason]| reasons.iter().any(|it| matches!(it, Reason::HipMayLeanOn { .. }));
    let runs: Vec<(f64, f64, bool)> =
        wall.stretches.iter().map(|it| (it.start.0, it.end.0, open(&it.reasons))).collect();
    let by_hand = [(0.0, 2.0, false), (2.0, 18.0, true), (18.0, 38.0, false), (38.0, 54.0, true), (54.0, 56.0, false)];
    assert_eq!(runs.len(), by_hand.len(), "{runs:?}");
    for (run, (start, end, near)) in runs.iter().zip(by_hand) {
        assert!((run.0 - start).abs() < 0.01 && (run.1 - end).abs() < 0.01 && run.2 == near, "{runs:?}");
    }
}
