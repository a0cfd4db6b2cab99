//! One truth on a card: headline, colour and the sentence about sureness all say what the judgement says.

use joistwise_core::card::{Card, card_alone, sureness};
use joistwise_core::evidence::{saw_it, told};
use joistwise_core::ids::ElementId;
use joistwise_core::plan::{Grade, Joints, Plan, Side, Way};
use joistwise_core::readings::{Certainty, Judgement, judge, known_trace};
use joistwise_core::tape::Tape;
use joistwise_core::trace::{Role, Trace};
use proptest::prelude::*;

use super::laws::{cases, small};
use super::proofs::{at_walls, kinds};
use super::{evidence, show};

fn judged(plan: &Plan) -> (Judgement, Trace) {
    let all = judge(plan);
    let mut trace = known_trace(plan);
    all.settle(&mut trace);
    (all, trace)
}

/// What is wrong with the card of one wall, if anything.
fn wrong(all: &Judgement, card: &Card, wall: joistwise_core::ids::WallId) -> Option<String> {
    let sure = sureness(all, wall)?;
    let open = ["probably", "Probably", "Not settled", "not settled"].iter().any(|word| card.sentence.contains(word));
    if open == (sure == Certainty::Certain) {
        return Some(format!("{sure:?} under \"{}\"", card.sentence));
    }
    if card.sure.starts_with("Certain:") && sure != Certainty::Certain
        || sure == Certainty::Certain && !card.sure.starts_with("Certain")
    {
        return Some(format!("{sure:?} beside \"{}\"", card.sure));
    }
    for line in &card.stretches {
        let middle = (line.start + line.end) / 2.0;
        let here = all.of_wall(wall).find(|it| it.start <= middle && middle <= it.end)?;
        if line.role == Role::NothingFound && here.certainty != Certainty::Certain {
            return Some(format!("shown as nothing, {here:?}"));
        }
        if here.certainty == Certainty::Certain && line.role != here.role() && line.role != Role::NeedsALook {
            return Some(format!("shown as {:?}, {here:?}", line.role));
        }
    }
    // A word of sureness stands nowhere else.
    let others = card.why.iter().map(|it| &it.text).chain(&card.look).chain(&card.watch);
    let twice = others.into_iter().find(|text| text.contains("certain") || text.contains("robably"));
    twice.map(|text| format!("said again: {text}"))
}

#[track_caller]
fn agrees(plan: &Plan, of: &str) {
    let (all, trace) = judged(plan);
    for wall in plan.levels().iter().flat_map(|level| &level.walls).filter(|wall| wall.side == Side::Inside) {
        let mut card = card_alone(plan, &trace, ElementId::Wall(wall.id), Tape::Feet).expect("drawn");
        card.judge(plan, Some(&all), wall.id, Tape::Feet);
        let wrong = wrong(&all, &card, wall.id);
        assert!(wrong.is_none(), "{of} {}: {}\n{}", wall.name, wrong.unwrap_or_default(), show(plan, &all));
    }
}

#[test]
fn headline_colour_and_sureness_agree_on_every_card_of_all_fixtures() {
    for row in evidence::index() {
        agrees(&evidence::house(&row), row["file"].as_str().expect("a file"));
    }
    for name in joistwise_tests::houses() {
        let plan = joistwise_tests::house(&name);
        agrees(&plan, &name);
        agrees(&super::assumed(&plan), &name);
    }
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn headline_colour_and_sureness_agree_whatever_was_seen(house in small(), seen in kinds()) {
        agrees(&at_walls(&house.house(), &seen), "a random house");
    }
}

/// Joists across a centre wall, north-south and lapped, told and then seen: before, the answer of the first minute was certain.
#[test]
fn what_was_only_told_is_probable_until_somebody_says_that_he_saw_it() {
    let plan = joistwise_core::draft::draft().outside(36, 24).inside("W", (0, 12), (36, 12));
    let plan =
        plan.joists(Way::Y, Joints::Lap).with(|level| level.fields.iter_mut().for_each(|it| it.known = Grade::Told));
    let plan = plan.roof(Way::Y, 1).done();
    let field = ElementId::Field(plan.levels()[0].fields[0].id);
    let id = plan.wall_named("W").expect("drawn").id;
    let card = |plan: &Plan| {
        let (all, trace) = judged(plan);
        let mut card = card_alone(plan, &trace, ElementId::Wall(id), Tape::Feet).expect("drawn");
        card.judge(plan, Some(&all), id, Tape::Feet);
        card
    };
    assert!(card(&plan).sentence.starts_with("This wall probably carries"), "{:?}", card(&plan));
    assert!(told(&plan, field, Tape::Feet).is_some_and(|it| it.contains("lap")));
    let seen = plan.with(&saw_it(&plan, field).expect("it was told")).expect("sound");
    assert_eq!(told(&seen, field, Tape::Feet), None);
    assert!(card(&seen).sure.starts_with("Certain"), "{:?}", card(&seen));
    assert!(saw_it(&seen, field).is_none(), "it is seen already");
}
