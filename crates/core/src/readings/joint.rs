//! Levels read by themselves against all levels read together, at small houses: where the two differ, and where they never do.

use super::house::house;
use super::level::LevelWork;
use super::{Answer, Unknown, as_known, judge};
use crate::draft::{Draft, draft};
use crate::order::InOrder as _;
use crate::plan::{Grade, Joints, Plan, Way};
use crate::trace::{Role, trace};

/// The roles at each half foot of each wall of both levels, the top one first.
type Roles = Vec<Vec<Role>>;

fn sets(levels: &[LevelWork]) -> Roles {
    let mut all = Vec::new();
    for level in levels {
        for wall in 0..level.walls.len() {
            let length = level.length(wall).0;
            for at in (0..1000_u16).map(|step| f64::from(step) / 2.0 + 0.25).take_while(|at| *at < length) {
                let mut here: Vec<Role> = Vec::new();
                for reading in level.standing() {
                    let of_wall = reading.roles.get(wall).expect("read");
                    here.extend(of_wall.iter().find(|it| it.0 <= at && at <= it.1).map(|it| it.2));
                }
                here.order();
                here.dedup();
                all.push(here);
            }
        }
    }
    all
}

/// Both levels by themselves, then together; how many houses were traced for that.
fn compared(plan: &Plan) -> (Roles, Roles, usize) {
    let base = as_known(plan);
    let all = || -> Vec<LevelWork> {
        base.levels.iter().rev().map(|level| LevelWork::new(&base, level, &[], &mut Vec::new())).collect()
    };
    let own = |work: &LevelWork, answers: &[Answer]| -> Vec<(Unknown, Answer)> {
        work.questions.iter().copied().zip(answers.iter().copied()).collect()
    };
    let (mut apart, mut together) = (all(), all());
    let likeliest: Vec<Vec<(Unknown, Answer)>> = apart.iter().map(LevelWork::likeliest).collect();
    for (number, work) in apart.iter_mut().enumerate() {
        for reading in work.waiting.clone() {
            let others = likeliest.iter().enumerate().filter(|it| it.0 != number).flat_map(|it| it.1.iter().copied());
            let answers: Vec<_> = own(work, &reading.0).into_iter().chain(others).collect();
            let house = house(&base, &[], &answers);
            work.read(&house, &trace(&house), reading);
        }
    }
    let mut traced = 0;
    let [top, low] = together.as_mut_slice() else { panic!("two levels") };
    for upper in top.waiting.clone() {
        for lower in low.waiting.clone() {
            let answers = [own(top, &upper.0), own(low, &lower.0)].concat();
            let house = house(&base, &[], &answers);
            let trace = trace(&house);
            top.read(&house, &trace, upper.clone());
            low.read(&house, &trace, lower.clone());
            traced += 1;
        }
    }
    (sets(&apart), sets(&together), traced)
}

/// Two storeys of 24 by 30 ft with joists and roof only assumed; a wall below, one above it or beside it.
fn houses() -> Vec<(&'static str, Draft)> {
    let unseen = |house: Draft| {
        house.with(|level| {
            level.fields.iter_mut().for_each(|it| it.known = Grade::Assumed);
            level.roofs.iter_mut().for_each(|it| it.known = Grade::Assumed);
        })
    };
    let below = |house: Draft| unseen(house.joists(Way::X, Joints::NotSeen)).up().outside(24, 30);
    let above = |house: Draft| unseen(house.joists(Way::X, Joints::NotSeen).roof(Way::Y, 1));
    let one = || below(draft().outside(24, 30).inside("D", (12, 0), (12, 30)));
    vec![
        ("in line", above(one().inside("U", (12, 0), (12, 30)))),
        ("2 ft off", above(one().inside("U", (14, 0), (14, 30)))),
        ("square to it", above(one().inside("U", (0, 15), (24, 15)))),
        ("6 ft off, in part", above(one().inside("U", (18, 8), (18, 22)))),
    ]
}

/// Whether a place carries, in all readings the same, is the same either way; what it carries most may hang on the level above.
#[test]
fn whether_a_wall_carries_is_the_same_by_levels_as_together_at_4_houses() {
    let carries = |roles: &[Role]| {
        let mut all: Vec<bool> = roles.iter().map(|role| *role != Role::NothingFound).collect();
        all.dedup();
        all.order();
        all.dedup();
        all
    };
    for (name, plan) in houses() {
        let (apart, together, traced) = compared(&plan.done());
        let mut other_kind = 0;
        assert_eq!(apart.len(), together.len(), "{name}");
        for (by_level, joint) in apart.iter().zip(&together) {
            assert_eq!(carries(by_level), carries(joint), "{name}: {by_level:?} by levels, {joint:?} together");
            other_kind += usize::from(by_level != joint);
        }
        println!("{name}: {traced} houses, {} places, {other_kind} with other kinds of load together", apart.len());
    }
}

/// The range of the lower wall against every reading of both levels together.
#[test]
fn the_range_of_a_wall_covers_all_readings_of_both_levels_together_at_4_houses_to_1e_6_plf() {
    let mut wider = 0;
    for (name, drawn) in houses() {
        let plan = drawn.done();
        let base = as_known(&plan);
        let works: Vec<LevelWork> =
            base.levels.iter().rev().map(|level| LevelWork::new(&base, level, &[], &mut Vec::new())).collect();
        let [top, low] = works.as_slice() else { panic!("two levels") };
        let wall = plan.wall_named("D").expect("drawn").id;
        let (mut least, mut most, mut alone) = (f64::INFINITY, 0.0_f64, 0.0_f64);
        for (number, (upper, _)) in top.waiting.iter().enumerate() {
            for (lower, _) in &low.waiting {
                let of = |work: &LevelWork, answers: &[Answer]| -> Vec<(Unknown, Answer)> {
                    work.questions.iter().copied().zip(answers.iter().copied()).collect()
                };
                let house = house(&base, &[], &[of(top, upper), of(low, lower)].concat());
                let load = low.plf(&house, &trace(&house), lower, wall);
                (least, most) = (least.min(load), most.max(load));
                alone = if number == 0 { alone.max(load) } else { alone };
            }
        }
        let all = judge(&plan);
        let range = all.ranges.iter().find(|it| it.wall == wall).expect("a range");
        println!("{name}: {least:.1} to {most:.1} plf together, {:?} said, {alone:.1} by its level", range);
        assert!(range.least.0 <= least + 1e-6 && range.most.0 >= most - 1e-6, "{name}");
        wider += usize::from(most > alone + 1.0);
    }
    assert!(wider >= 1, "a house in which the level above makes it more");
}
