//! A house turned by any angle has the same trace, within what rounding its corners to ticks allows.
//!
//! Angles come from whole numbers (m, n): cosine and sine are (m2 - n2, 2 m n) / (m2 + n2), so that directions are exact.
//! Rounding moves a corner by 0.71 tick at most, 2.9e-5 ft. The house is 35 x 23 ft: its area, 805 sq ft, changes by at
//! most its perimeter of 116 ft times that, 4.2e-6 of it; a width, with both of its ends moved, by 1e-4 ft at most.

use joistwise_core::draft::draft;
use joistwise_core::plan::{Joints, Level, Plan, PlanFile, Point, Use, Way};
use joistwise_core::trace::{Origin, Role, Trace, trace};
use joistwise_core::units::Ticks;
use joistwise_tests::wall;
use proptest::prelude::*;

const AREA_SHARE: f64 = 1e-5;
const WIDTH_FT: f64 = 1e-4;

#[derive(Clone, Copy)]
struct Turn {
    cosine: (i32, i32),
}

impl Turn {
    fn new(m: i32, n: i32) -> Self {
        Self { cosine: (m * m - n * n, 2 * m * n) }
    }

    fn point(self, at: Point) -> Point {
        let (c, s) = (f64::from(self.cosine.0), f64::from(self.cosine.1));
        let r = (c * c + s * s).sqrt();
        let (x, y) = (f64::from(at.x.get()), f64::from(at.y.get()));
        let ticks = |value: f64| Ticks::from_inches((value / r) / f64::from(Ticks::PER_INCH)).expect("near");
        Point::new(ticks(x * c - y * s), ticks(x * s + y * c))
    }

    fn way(self, way: Way) -> Way {
        let ((c, s), (dx, dy)) = (self.cosine, way.parts());
        Way::new(dx * c - dy * s, dx * s + dy * c)
    }

    fn level(self, level: &mut Level) {
        for wall in &mut level.walls {
            (wall.a, wall.b) = (self.point(wall.a), self.point(wall.b));
        }
        for field in &mut level.fields {
            field.along = self.way(field.along);
        }
        for roof in &mut level.roofs {
            roof.ridge = self.way(roof.ridge);
        }
    }

    fn plan(self, plan: &Plan) -> Plan {
        let mut file = PlanFile::from(plan);
        file.levels.iter_mut().for_each(|level| self.level(level));
        Plan::try_from(file).expect("still sound")
    }
}

/// 35 x 23 ft, a bearing wall lengthwise, a partition square to it, an upper wall 4 ft off over two storeys.
fn house(joints: Joints) -> Plan {
    draft()
        .snow(30.0)
        .outside(35, 23)
        .inside("A", (0, 11), (35, 11))
        .inside("P", (15, 0), (15, 11))
        .joists(Way::Y, joints)
        .used_as(Use::Living)
        .up()
        .outside(35, 23)
        .inside("U", (0, 15), (35, 15))
        .joists(Way::Y, Joints::Lap)
        .used_as(Use::AtticStorage)
        .roof(Way::X, 1.5)
        .done()
}

fn same(what: &str, straight: f64, turned: f64, share: f64) -> Result<(), TestCaseError> {
    let off = (straight - turned).abs();
    prop_assert!(off <= share * straight.abs().max(1.0), "{}: {} straight, {} turned", what, straight, turned);
    Ok(())
}

fn compare(plan: &Plan, straight: &Trace, turned_plan: &Plan, turned: &Trace) -> Result<(), TestCaseError> {
    same("applied lb", straight.ledger.applied.all().0, turned.ledger.applied.all().0, AREA_SHARE)?;
    prop_assert!(turned.ledger.worst_share_off() < 1e-9, "{:?}", turned.ledger);
    prop_assert_eq!(straight.members.len(), turned.members.len());
    for (a, b) in straight.walls.iter().zip(&turned.walls) {
        same(&format!("{:?} top lb", a.wall), a.top.all().0, b.top.all().0, 10.0 * AREA_SHARE)?;
    }
    for (name, origin) in [("A", Origin::Floor), ("U", Origin::Ceiling)] {
        let (a, b) = (wall(plan, straight, name), wall(turned_plan, turned, name));
        let (a_ft, b_ft) = (a.tributary_width(origin).0, b.tributary_width(origin).0);
        prop_assert!((a_ft - b_ft).abs() <= WIDTH_FT, "{}: {} ft straight, {} ft turned", name, a_ft, b_ft);
        let roles =
            |wall: &joistwise_core::trace::WallTrace| wall.stretches.iter().map(|it| it.role).collect::<Vec<Role>>();
        prop_assert_eq!(roles(a), roles(b), "{}", name);
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_house_turned_by_any_angle_has_the_same_trace(m in 1..40_i32, n in 1..40_i32, run_through in any::<bool>()) {
        prop_assume!(m != n);
        let plan = house(if run_through { Joints::RunThrough } else { Joints::Lap });
        let turned = Turn::new(m, n).plan(&plan);
        compare(&plan, &trace(&plan), &turned, &trace(&turned))?;
    }
}
