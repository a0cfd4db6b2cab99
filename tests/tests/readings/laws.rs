//! Laws of readings: more evidence never makes a certain stretch uncertain, and the order in which it came does not matter.

use joistwise_core::draft::draft;
use joistwise_core::ids::{LevelId, ObservationId};
use joistwise_core::plan::{Grade, Joints, Observation, Plan, PlanFile, Way};
use joistwise_core::readings::{Certainty, Judged, Judgement, judge};
use proptest::prelude::*;
use proptest::test_runner::{FileFailurePersistence, RngSeed};

use super::{put, show};

/// A small house in the making, and dice for the looks taken at it.
#[derive(Clone, Debug)]
pub(super) struct Small {
    pub(super) sides_ft: (i32, i32),
    /// Where each inside wall stands, as shares of the sides in sixteenths: along east or north, from, to, at.
    walls: Vec<(bool, i32, i32, i32)>,
    storeys: usize,
    /// For each storey: whether joists are drawn, their way and grade.
    fields: [(bool, bool, Grade); 2],
    roof: (bool, bool, Grade),
    /// Which look is taken, and what turns out.
    dice: Vec<(prop::sample::Index, prop::sample::Index)>,
}

fn grade() -> impl Strategy<Value = Grade> {
    prop::sample::select(vec![Grade::Seen, Grade::Told, Grade::Assumed, Grade::Unknown])
}

pub(super) fn small() -> impl Strategy<Value = Small> {
    let wall = (any::<bool>(), 0..8_i32, 10..=16_i32, 3..14_i32);
    let field = || (any::<bool>(), any::<bool>(), grade());
    let dice = proptest::collection::vec((any::<prop::sample::Index>(), any::<prop::sample::Index>()), 2..7);
    (
        (18..36_i32, 18..36_i32),
        proptest::collection::vec(wall, 1..=3),
        1..=2_usize,
        [field(), field()],
        (any::<bool>(), any::<bool>(), grade()),
        dice,
    )
        // No two walls stand in one place: nobody could say at which of them something was seen.
        .prop_filter("walls in one place", |it| {
            let walls = &it.1;
            walls
                .iter()
                .enumerate()
                .all(|(number, one)| walls.iter().skip(number + 1).all(|other| (one.0, one.3) != (other.0, other.3)))
        })
        .prop_map(|(sides_ft, walls, storeys, fields, roof, dice)| Small {
            sides_ft,
            walls,
            storeys,
            fields,
            roof,
            dice,
        })
}

impl Small {
    pub(super) fn house(&self) -> Plan {
        let way = |east: bool| if east { Way::X } else { Way::Y };
        let (east, north) = (f64::from(self.sides_ft.0), f64::from(self.sides_ft.1));
        let mut house = draft();
        for storey in 0..self.storeys {
            if storey > 0 {
                house = house.up();
            }
            house = house.outside(east, north);
            for (number, (along_east, from, to, at)) in self.walls.iter().enumerate() {
                let share = |of: f64, share: i32| of * f64::from(share) / 16.0;
                let name = format!("{storey}{number}");
                house = if *along_east {
                    house.inside(&name, (share(east, *from), share(north, *at)), (share(east, *to), share(north, *at)))
                } else {
                    house.inside(&name, (share(east, *at), share(north, *from)), (share(east, *at), share(north, *to)))
                };
            }
            let (drawn, along, known) = self.fields[storey];
            if drawn {
                let used_as = if storey + 1 == self.storeys {
                    joistwise_core::plan::Use::AtticBare
                } else {
                    joistwise_core::plan::Use::Sleeping
                };
                house = house.joists(way(along), Joints::NotSeen).used_as(used_as);
                house = house.with(|level| level.fields.iter_mut().for_each(|field| field.known = known));
            }
        }
        let (drawn, along, known) = self.roof;
        if drawn {
            house = house.roof(way(along), 1).over(|roof| roof.known = known);
        }
        house.done()
    }

    /// What is seen of one hidden truth: outcomes of looks, each of which some reading of the last ones allows.
    pub(super) fn seen(&self) -> Vec<(LevelId, Vec<Observation>)> {
        let mut plan = self.house();
        let mut all = Vec::new();
        for (which, outcome) in &self.dice {
            let judged = judge(&plan);
            if judged.looks.is_empty() {
                break;
            }
            let look = which.get(&judged.looks);
            let number = outcome.index(look.outcomes.len());
            let seen: Vec<Observation> = look.observations(number).collect();
            plan = seen.iter().fold(plan, |plan, it| put(&plan, look.level, it.clone()));
            all.push((look.level, seen));
        }
        all
    }
}

pub(super) fn cases() -> ProptestConfig {
    let seeds = FileFailurePersistence::Direct("tests/properties/seeds.txt");
    let asked = std::env::var("PROPTEST_CASES").ok().and_then(|n| n.parse().ok());
    let rng_seed = if asked.is_some() { RngSeed::Random } else { RngSeed::Fixed(11) };
    let cases = asked.unwrap_or(150);
    ProptestConfig { cases, rng_seed, failure_persistence: Some(Box::new(seeds)), ..ProptestConfig::default() }
}

/// Stretches that were certain and are not, or are certain to be something else. What is seen over one level may change what
/// a wall below that is certain to carry carries most: whether it carries, never.
fn lost(plan: &Plan, on: LevelId, before: &Judgement, after: &Judgement) -> Option<String> {
    for was in before.stretches.iter().filter(|it| it.certainty == Certainty::Certain) {
        let elsewhere = plan.wall(was.wall).is_some_and(|it| it.0.id != on);
        let carries = |now: &Judged| was.role().carries() && now.roles.iter().all(|it| it.0.carries());
        let over = |now: &&Judged| now.start.0.max(was.start.0) + 0.03 < now.end.0.min(was.end.0);
        let mut here = after.of_wall(was.wall).filter(over);
        let stays = |now: &Judged| now.certainty == Certainty::Certain && now.role() == was.role();
        if here.any(|now| !(stays(now) || elsewhere && carries(now))) {
            let wall = plan.wall(was.wall).map(|it| it.1.name.clone()).unwrap_or_default();
            let was =
                format!("{wall} was certain to be {:?} from {:.2} to {:.2} ft", was.role(), was.start.0, was.end.0);
            return Some(format!("{was}\n{}then\n{}", show(plan, before), show(plan, after)));
        }
    }
    None
}

proptest! {
    #![proptest_config(cases())]

    #[test]
    fn one_more_seen_fact_of_the_same_truth_never_makes_a_certain_stretch_uncertain(
        house in small(), order in any::<prop::sample::Index>(),
    ) {
        let mut all: Vec<(LevelId, Observation)> = Vec::new();
        for (level, seen) in house.seen() {
            all.extend(seen.into_iter().map(|it| (level, it)));
        }
        if !all.is_empty() {
            let turn = order.index(all.len());
            all.rotate_left(turn);
        }
        let mut plan = house.house();
        let mut before = judge(&plan);
        for (level, seen) in all {
            let saw = seen.saw;
            plan = put(&plan, level, seen);
            let after = judge(&plan);
            prop_assert!(after.contradictions.is_empty(), "{saw:?}: {:?}", after.contradictions);
            let whole = before.levels.iter().all(|level| level.covered > 1.0 - 1e-12);
            let lost = lost(&plan, level, &before, &after).filter(|_| whole);
            let file = || serde_json::to_string(&PlanFile::from(&plan)).unwrap_or_default();
            prop_assert!(lost.is_none(), "after {saw:?} {}\n{}", lost.unwrap_or_default(), file());
            before = after;
        }
    }

    #[test]
    fn the_order_in_which_things_were_seen_does_not_matter(house in small(), turn in any::<prop::sample::Index>()) {
        let mut plan = house.house();
        for (level, seen) in house.seen() {
            plan = seen.into_iter().fold(plan, |plan, it| put(&plan, level, it));
        }
        let mut file = PlanFile::from(&plan);
        for level in &mut file.levels {
            // Other ids in another order: each takes that of the one so many places on, counted backwards.
            let mut ids: Vec<ObservationId> = level.observations.iter().map(|it| it.id).collect();
            if !ids.is_empty() {
                let by = turn.index(ids.len());
                ids.rotate_left(by);
            }
            for (seen, id) in level.observations.iter_mut().zip(ids.into_iter().rev()) {
                seen.id = id;
            }
        }
        let other = Plan::try_from(file).expect("sound");
        let (one, two) = (judge(&plan), judge(&other));
        prop_assert_eq!(&one.looks.len(), &two.looks.len());
        prop_assert_eq!(one.stretches.len(), two.stretches.len());
        for (a, b) in one.stretches.iter().zip(&two.stretches) {
            let same = (a.wall, a.certainty, a.role()) == (b.wall, b.certainty, b.role());
            let close = (a.start.0 - b.start.0).abs() < 1e-9 && (a.bearing() - b.bearing()).abs() < 1e-9;
            prop_assert!(same && close, "{}\nthen\n{}", show(&plan, &one), show(&other, &two));
        }
    }
}
