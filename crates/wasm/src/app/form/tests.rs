//! Every value a form shows can be typed back, and a refusal says what would be taken.

use super::*;
use joistwise_core::ids::{BoardId, JoistCutId, OpeningId, PostId, PurlinId, ThingId};
use joistwise_core::loads::Thing;
use joistwise_core::plan::{
    Board, BoardKind, Cut, Grade, HeavyThing, Jamb, JoistCut, JoistEdge, JoistField, Member, NotchAt, Opening,
    OpeningKind, Over, Post, PostKind, Purlin, Region, Roof, RoofOpening, Stands, Use, Way, Wood,
};
use joistwise_core::units::Pounds;

#[test]
fn every_value_a_form_shows_can_be_typed_back_and_changes_nothing() {
    let corners = [(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec();
    let plan = Plan::new("test");
    let level = plan.levels()[0].id;
    let plan = plan.with(&Edit::Outline { level, corners }).expect("an outline");
    let field = JoistField::usual(Region::Outline, Way::Y, Grade::Told, Use::AtticBare);
    let plan = plan.with(&Edit::Add(level, Element::Field(field))).expect("joists");
    let roof = Roof::usual(Way::X, frame_meant("trusses", RoofFrame::NotSeen).expect("a frame"), Grade::Seen);
    let plan = plan.with(&Edit::Add(level, Element::Roof(roof))).expect("a roof");
    let form = RoofForm::Gambrel { lower_run: Ticks::from_feet(5), upper_rise: Ticks::from_sixteenths(5 * 16) };
    let ridge_at = Some(Point::feet(18, 12));
    let gambrel = Roof::usual(Way::X, RoofFrame::RidgeBeam, Grade::Told);
    let region = Region::Corners([(0, 0), (36, 0), (36, 24), (0, 24)].map(|(x, y)| Point::feet(x, y)).to_vec());
    let opening = RoofOpening {
        from: Point::feet(10, 2),
        to: Point::feet(14, 8),
        over: Over::ShedDormer,
        front: Ticks::from_feet(4),
    };
    let (openings, meets) =
        (vec![opening, RoofOpening { over: Over::Glass, front: Ticks::default(), ..opening }], Meets::Valley);
    let gambrel = Roof { form, ridge_at, region, openings, meets, long_valley: ridge_at, ..gambrel };
    let plan = plan.with(&Edit::Add(level, Element::Roof(gambrel))).expect("a gambrel");
    let purlin = Purlin {
        id: PurlinId::from_number(0),
        a: Point::feet(2, 6),
        b: Point::feet(34, 6),
        member: Member::sawn(2, 6),
        feet: Some(Point::feet(18, 12)),
        spacing: Ticks::from_feet(4),
        known: Grade::Seen,
    };
    let plan = plan.with(&Edit::Add(level, Element::Purlin(purlin))).expect("a purlin");
    let thing = HeavyThing {
        id: ThingId::from_number(0),
        name: "big tank".to_owned(),
        kind: Thing::Tank,
        corners: [(4, 4), (8, 4), (8, 8), (4, 8)].map(|(x, y)| Point::feet(x, y)).to_vec(),
        stands: Stands::OnLegs,
        weight: Some(Pounds(1234.5)),
        known: Grade::Told,
    };
    let plan = plan.with(&Edit::Add(level, Element::Thing(thing))).expect("a heavy thing");
    let (id, name) = (PostId::from_number(0), "P1".to_owned());
    let (kind, member, wood) = (PostKind::StudPack, Member::plies(3, 2, 4), Wood::default());
    let post = Post { id, name, at: Point::feet(6, 6), kind, member, wood };
    let plan = plan.with(&Edit::Add(level, Element::Post(post))).expect("a post");
    let opening = Opening {
        id: OpeningId::from_number(0),
        wall: plan.levels()[0].walls[0].id,
        offset: Ticks::from_feet(4),
        width: Ticks::from_feet(6),
        kind: OpeningKind::Window,
        header: Default::default(),
        first: Jamb { jacks: Some(2), kings: Some(1) },
        second: Jamb::default(),
    };
    let plan = plan.with(&Edit::Add(level, Element::Opening(opening))).expect("a window");
    let notch = Cut::Notch {
        depth: Ticks::from_sixteenths(20),
        length: Ticks::from_sixteenths(40),
        place: NotchAt::End,
        edge: JoistEdge::Bottom,
    };
    let hole = Cut::Hole { diameter: Ticks::from_sixteenths(24), to_edge: Ticks::from_sixteenths(40) };
    let plan = [notch, hole].into_iter().fold(plan, |plan, cut| {
        let cut = JoistCut { id: JoistCutId::from_number(0), at: Point::feet(12, 6), cut, known: Grade::Seen };
        plan.with(&Edit::Add(level, Element::JoistCut(cut))).expect("a cut")
    });
    let (id, a, b) = (BoardId::from_number(0), Point::feet(2, 12), Point::feet(30, 12));
    let board = Board { id, a, b, kind: BoardKind::Ledger, known: Grade::Told };
    let plan = plan.with(&Edit::Add(level, Element::Board(board))).expect("a board");
    for part in plan.levels()[0].element_ids() {
        for key in values(&plan, part, Tape::Feet).into_keys().filter(|key| *key != "name") {
            // A text that is nothing of the kind is refused by every value that is not free text.
            assert!(set(&plan, part, key, "no such word").is_err(), "{key} of {part:?}");
        }
        for (key, text) in values(&plan, part, Tape::Feet) {
            let edit = set(&plan, part, key, &text).unwrap_or_else(|error| panic!("{key}: {error}"));
            assert_eq!(plan.with(&edit).expect(key), plan, "{key} of {part:?} as {text}");
        }
        // Metres are printed to the millimetre: what was drawn in feet reads back, but not to the tick.
        for (key, text) in values(&plan, part, Tape::Metric) {
            assert!(set(&plan, part, key, &text).is_ok(), "{key} of {part:?} as {text}");
        }
    }
}

#[test]
fn a_refusal_says_what_would_be_taken() {
    assert!(load("heavy").is_err_and(|error| error.to_string().contains("like 20")));
    assert!(place("12'").is_err_and(|error| error.to_string().contains("east; north")));
}
