//! What stands is judged by its own wood; checks of cuts, of steel at its seats, of what a part may carry.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Joints, Plan, PlanFile, Stock, Way};
use joistwise_core::strength::lumber::{Grade, Species};
use joistwise_core::take_out::{Stretch, Study, take_out};
use joistwise_core::units::Feet;

/// 20 x 24 ft, joists of 2x10 in one piece over a wall in the middle.
fn one_floor() -> Plan {
    draft().outside(20, 24).inside("C", (0, 12), (20, 12)).joists(Way::Y, Joints::RunThrough).done()
}

/// The house with nothing known of its wood.
fn unstamped(plan: &Plan) -> Plan {
    let mut file = PlanFile::from(plan);
    for level in &mut file.levels {
        level.fields.iter_mut().for_each(|it| it.wood = Default::default());
        level.beams.iter_mut().for_each(|it| it.wood = Default::default());
        level.posts.iter_mut().for_each(|it| it.wood = Default::default());
        level.roofs.iter_mut().for_each(|it| it.wood = Default::default());
    }
    Plan::try_from(file).unwrap()
}

fn stocks() -> impl Iterator<Item = Stock> {
    Species::ALL.into_iter().flat_map(|species| Grade::ALL.map(|grade| Stock { species, grade }))
}

fn study(plan: &Plan, lumber: Stock) -> Study {
    let wall = plan.levels()[0].walls.iter().find(|it| it.name == "C").unwrap().id;
    take_out(plan, &Stretch { lumber, ..Stretch::of(wall, Feet(4.0), Feet(14.0)) }).unwrap()
}

/// What is said of what stands: each group that loses its seat, and what is below.
fn of_old(study: &Study) -> String {
    let lost = &study.loses.members;
    let lines = study.shoring.lines.iter().map(|it| it.joists);
    format!("{lost:?} {:?} {:?}", lines.collect::<Vec<_>>(), study.loses.figures)
}

/// It was 10.48 to 13.00 ft, by the choice of the new beam.
#[test]
fn the_longest_old_joist_that_would_pass_is_the_same_in_feet_for_every_stock_of_the_new_beam() {
    for plan in [one_floor(), unstamped(&one_floor())] {
        let first = study(&plan, Stock::default());
        for stock in stocks() {
            let other = study(&plan, stock);
            assert_eq!(of_old(&first), of_old(&other), "{stock:?}");
        }
        let names = |study: &Study| study.beams.choices.iter().map(|it| it.name.clone()).collect::<Vec<_>>();
        let best = Stock { species: Species::DouglasFirLarch, grade: Grade::SelectStructural };
        assert_ne!(names(&first), names(&study(&plan, best)), "the new beam has to go by it");
    }
}

/// 2x10 at 16 in under 40 + 10 psf: w = 66.667 plf. Without a stamp Fb' = 800 x 1.15 = 920 psi: sqrt(8 x 920 x 21.391 / 12 /
/// 66.667) = 14.03 ft; E 1.3e6: L^3 = 384 x 1.3e6 x 98.93 / (5 x 360 x 53.333 / 12) in: 6,173,232, L = 183.4 in = 15.29 ft; under
/// dead load alone 13.333 plf it reaches further. Of spruce-pine-fir No. 2: 875 x 1.1 x 1.15 = 1106.9 psi: 15.39 ft;
/// 1.4e6: 188.0 in = 15.67 ft.
#[test]
fn an_old_2x10_without_a_stamp_reaches_14_03_ft_and_a_stamped_one_15_39() {
    let longest = |plan: &Plan| study(plan, Stock::default()).loses.members[0].longest.unwrap().0;
    let (stamped, none) = (longest(&one_floor()), longest(&unstamped(&one_floor())));
    assert!((none - 14.03).abs() < 0.01, "{none} ft");
    assert!((stamped - 15.39).abs() < 0.01, "{stamped} ft");
}
