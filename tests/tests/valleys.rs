//! x
use joistwise_core::draft::{corners, draft};
use joistwise_core::plan::{Region, Way};
use joistwise_core::trace::trace;
#[test]
fn t() {
    let outline = [(0, 0), (40, 0), (40, 24), (26, 24), (26, 44), (10, 44), (10, 24), (0, 24)];
    let outline: Vec<_> = outline.iter().map(|it| joistwise_core::plan::Point::feet(it.0, it.1)).collect();
    let house = draft()
        .outline(&outline)
        .roof(Way::X, 1)
        .over(|it| it.region = Region::Corners(corners((0, 0), (40, 24))))
        .wing((10, 24), (26, 44));
    let plan = house.done();
    let trace = trace(&plan);
    println!("{:?}", trace.ledger.worst_share_off());
    for f in &trace.findings {
        println!("{f:?}");
    }
    println!("{}", joistwise_core::report::text(&plan, &trace));
    for r in &trace.roofs {
        for rib in &r.ribs {
            println!("{:?} {:?} {:?} rests {:?} feeds {:?}", rib.kind, rib.a, rib.b, rib.rests, rib.feeds);
        }
    }
}
