//! Openings in roofs for dormers and glass, against free bodies by hand that are written beside each figure.
//!
//! 40 x 24 ft, 6 in 12 on a ridge beam, rafters of 12 ft at 24 in, 20 psf of roof live load on plan (IRC Table R301.6,
//! MEMORY) and no dead load of the roof: pounds are 20 times square feet, and all that is dead is walls of dormers, 8 psf
//! (HUD Residential Structural Design Guide, Table 3.2). The opening lies 8 ft wide between the rafters at 16 and 24 ft,
//! from 3 to 9 ft in from the south eave.

use joistwise_core::draft::{Draft, draft};
use joistwise_core::loads::LineLoads;
use joistwise_core::plan::{Over, Plan, RoofForm, RoofFrame, Side, Way};
use joistwise_core::trace::{Problem, RibKind, RibTrace, Trace, trace};
use joistwise_core::units::Psf;

const PSF: f64 = 20.0;

fn house(frame: RoofFrame) -> Draft {
    draft().outside(40, 24).roof(Way::X, 0).over(|it| (it.frame, it.dead) = (frame, Some(Psf(0.0))))
}

fn with(over: Over, front: f64) -> Draft {
    house(RoofFrame::RidgeBeam).roof_opening((16, 3), (24, 9), over, front)
}

fn balanced(house: Draft) -> (Plan, Trace) {
    let plan = house.done();
    let trace = trace(&plan);
    assert!(trace.ledger.worst_share_off() < 1e-12, "{:?}", trace.ledger);
    assert_eq!(trace.path_gaps().count(), 0, "{:?}", trace.findings);
    (plan, trace)
}

#[track_caller]
fn close(what: &str, got: f64, by_hand: f64) {
    assert!((got - by_hand).abs() <= 1e-9 * by_hand.abs().max(1.0), "{what}: {got}, by hand {by_hand}");
}

/// The line load on the south wall, in feet from its west end.
#[track_caller]
fn on_south(plan: &Plan, trace: &Trace, place_ft: f64) -> LineLoads {
    let south =
        plan.levels().iter().flat_map(|level| &level.walls).find(|it| it.side == Side::Outside).expect("drawn first");
    let line = &trace.wall(south.id).expect("traced").line;
    line.iter().find(|part| part.start.0 <= place_ft && place_ft < part.end.0).map(|it| it.loads).unwrap_or_default()
}

fn headers(trace: &Trace) -> Vec<&RibTrace> {
    trace.roofs.iter().flat_map(|it| &it.ribs).filter(|rib| rib.kind == RibKind::Header).collect()
}

fn on_walls_sqft(trace: &Trace) -> f64 {
    trace.walls.iter().map(|it| it.top.roof_live.0 / PSF).sum()
}

/// Glass, 8 x 6 = 48 square feet: 24 to each header. Each also holds half of the 3 ft of rafter beyond it, over the 6 ft of
/// the three cut rafters: 9. So 33, and 16.5 on each trimmer, at 3 and at 9 ft of its 12.
/// A trimmer has 1 ft of roof outside and, above and below the opening, 1 ft inside: 12 + 6 square feet; symmetrical about
/// its middle, as the headers are: (18 + 33) / 2 = 25.5 on the wall, over its 2 ft. Beside it 12 / 2 ft, under the opening 3
/// / 2.
#[test]
fn headers_at_glass_carry_33_sqft_each_and_bring_them_to_doubled_rafters() {
    let (plan, trace) = balanced(with(Over::Glass, 0.0));
    assert_eq!(headers(&trace).len(), 2);
    for header in headers(&trace) {
        close("header sqft", header.top.roof_live.0 / PSF, 33.0);
        for rest in &header.rests {
            close("end sqft", rest.weights.roof_live.0 / PSF, 16.5);
        }
    }
    close("at the trimmer plf", on_south(&plan, &trace, 16.0).roof_live.0, 25.5 / 2.0 * PSF);
    close("beside it plf", on_south(&plan, &trace, 10.0).roof_live.0, 6.0 * PSF);
    close("under the opening plf", on_south(&plan, &trace, 20.0).roof_live.0, 1.5 * PSF);
    close("roof on walls, sqft", on_walls_sqft(&trace), 960.0);
}

/// A gable dormer, its front 4 ft high: 24 square feet of its roof on each trimmer, midway, none on the headers: 9 each.
/// Front wall 4 x 8 x 8 psf = 256 lb on the lower header, 128 at each end, 3 ft in. Side walls 4 x 6 / 2 x 8 psf = 96 lb,
/// a third of the way from the front: 5 ft in. Eave end of a trimmer: 128 x 9 / 12 + 96 x 7 / 12 = 152 lb.
#[test]
fn a_gable_dormer_stands_on_its_trimmers_and_its_front_of_256_lb_on_the_lower_header() {
    let (plan, trace) = balanced(with(Over::GableDormer, 4.0));
    let [upper, lower]: [&RibTrace; 2] = {
        let mut all = headers(&trace);
        all.sort_by(|a, b| b.a.y.0.total_cmp(&a.a.y.0));
        all.try_into().expect("two")
    };
    close("upper sqft", upper.top.roof_live.0 / PSF, 9.0);
    close("upper dead lb", upper.top.dead.0, 0.0);
    close("lower dead lb", lower.top.dead.0, 256.0);
    close("trimmer dead plf", on_south(&plan, &trace, 16.0).dead.0, 152.0 / 2.0);
    // 18 of its own, 4.5 at each header, 24 of the dormer: half of 51.
    close("trimmer live plf", on_south(&plan, &trace, 24.0).roof_live.0, 25.5 / 2.0 * PSF);
    close("walls of the dormer lb", trace.ledger.applied.dead.0 - house_walls(&plan), 256.0 + 2.0 * 96.0);
    close("roof on walls, sqft", on_walls_sqft(&trace), 960.0);
}

fn house_walls(plan: &Plan) -> f64 {
    trace(plan).walls.iter().map(|it| it.own.dead.0).sum()
}

/// A shed dormer brings half of its roof to each header, as glass does, and the same walls as a gable dormer.
#[test]
fn a_shed_dormer_brings_24_sqft_to_each_header() {
    let (plan, trace) = balanced(with(Over::ShedDormer, 4.0));
    for header in headers(&trace) {
        close("header sqft", header.top.roof_live.0 / PSF, 33.0);
    }
    close("trimmer dead plf", on_south(&plan, &trace, 16.0).dead.0, 152.0 / 2.0);
}

/// Against a ridge board a cut pair goes from the far eave over the ridge to the upper header: 15 ft, 7.5 of it on the
/// header, over 6 ft 45 square feet, and 24 of the dormer.
#[test]
fn against_a_ridge_board_the_upper_header_holds_half_of_15_ft() {
    let house = house(RoofFrame::RidgeBoard).roof_opening((16, 3), (24, 9), Over::ShedDormer, 0.0);
    let (_, trace) = balanced(house);
    let most = headers(&trace).iter().map(|it| it.top.roof_live.0 / PSF).fold(0.0, f64::max);
    close("upper header sqft", most, 45.0 + 24.0);
    close("roof on walls, sqft", on_walls_sqft(&trace), 960.0);
}

/// Over the ridge, at the eave, over another opening, or in a hip: said, and traced as if it were not there.
#[test]
fn an_opening_that_cannot_be_framed_so_is_said() {
    let plain = balanced(house(RoofFrame::RidgeBeam)).1;
    for (from, to) in [((16, 3), (24, 14)), ((16, 0), (24, 6)), ((38, 3), (42, 9))] {
        let (_, trace) = balanced(house(RoofFrame::RidgeBeam).roof_opening(from, to, Over::GableDormer, 4.0));
        assert!(trace.findings.iter().any(|it| matches!(it.problem, Problem::RoofOpeningNotFramed { .. })));
        assert_eq!(trace.walls, plain.walls);
    }
    let two = with(Over::Glass, 0.0).roof_opening((20, 4), (28, 8), Over::Glass, 0.0);
    let (_, trace) = balanced(two);
    assert_eq!(headers(&trace).len(), 2);
    assert!(trace.findings.iter().any(|it| matches!(it.problem, Problem::RoofOpeningNotFramed { .. })));
    let (_, trace) =
        balanced(with(Over::Glass, 0.0).over(|it| (it.form, it.frame) = (RoofForm::Hip, RoofFrame::RidgeBoard)));
    assert!(headers(&trace).is_empty());
    assert!(trace.findings.iter().any(|it| matches!(it.problem, Problem::RoofOpeningNotFramed { .. })));
}
