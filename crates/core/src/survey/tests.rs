//! The walk: its order, what a plan answers already, what a tick changes.

use super::*;
use crate::draft::draft;
use crate::ids::{ElementId, ObservationId};
use crate::plan::{Came, Edit, Element, Joints, Observation, Photo, Point};
use crate::tape::Tape;
use crate::words::Words;

/// 36 x 24 ft, a centre wall and a short closet wall, nothing seen.
fn house() -> Plan {
    draft().outside(36, 24).inside("Centre", (0, 12), (36, 12)).inside("Closet", (24, 0), (24, 4)).done()
}

fn named(plan: &Plan, name: &str) -> WallId {
    plan.wall_named(name).expect("a wall").id
}

fn stops(survey: &Survey) -> Vec<Stop> {
    survey.stages.iter().map(|stage| stage.stop).collect()
}

fn key_of(plan: &Plan, chosen: Option<WallId>, task: Task) -> StepKey {
    let survey = survey(plan, chosen);
    let found = survey.stages.iter().flat_map(|stage| &stage.steps).find(|step| step.key.task == task);
    found.unwrap_or_else(|| panic!("no step {task:?}")).key
}

fn state_of(plan: &Plan, key: StepKey) -> State {
    survey(plan, key.wall).step(key).expect("a step").state
}

fn answered(plan: &Plan, key: StepKey, reply: Reply) -> Plan {
    answer(plan, key, reply, "2026-11-26").expect("an answer")
}

#[test]
fn an_empty_house_is_asked_about_and_walked_around() {
    let survey = survey(&Plan::default(), None);
    assert_eq!(stops(&survey), [Stop::Ask, Stop::Outside]);
    let tasks: Vec<Vec<Task>> =
        survey.stages.iter().map(|stage| stage.steps.iter().map(|step| step.key.task).collect()).collect();
    assert_eq!(
        tasks,
        [
            vec![Task::Year, Task::Altered, Task::Drawings, Task::Wanted],
            vec![Task::Photos, Task::Outline, Task::OutsideSigns],
        ]
    );
    assert!(survey.stages.iter().flat_map(|stage| &stage.steps).all(|step| step.state == State::Open));
}

#[test]
fn the_walk_goes_from_the_lowest_level_up_and_then_to_the_chosen_wall() {
    let house = draft()
        .kind(LevelKind::Basement)
        .outside(36, 24)
        .up()
        .outside(36, 24)
        .inside("Centre", (0, 12), (36, 12))
        .inside("Closet", (24, 0), (24, 4))
        .up()
        .outside(36, 24)
        .done();
    let [low, first, second] = [0, 1, 2].map(|index| house.levels().get(index).expect("a level").id);
    let (centre, closet) = (named(&house, "Centre"), named(&house, "Closet"));
    assert_eq!(
        stops(&survey(&house, Some(closet))),
        [
            Stop::Ask,
            Stop::Outside,
            Stop::Lowest(low),
            Stop::Storey(first),
            Stop::Storey(second),
            Stop::Attic(second),
            Stop::Wall(closet),
            Stop::Ends(closet),
            Stop::Wall(centre),
            Stop::Ends(centre),
        ]
    );
    let ends = survey(&house, Some(closet)).stages.into_iter().find(|stage| stage.stop == Stop::Ends(closet));
    let asks: Vec<_> =
        ends.expect("ends").steps.into_iter().map(|it| (it.key.end, it.key.task, it.key.level)).collect();
    let both = |end| [(Some(end), Task::Stands, Some(first)), (Some(end), Task::Ground, Some(low))];
    assert_eq!(asks, [both(WallEnd::A), both(WallEnd::B)].concat());
}

#[test]
fn a_short_wall_is_walked_to_once_it_is_chosen() {
    let house = house();
    let (centre, closet) = (named(&house, "Centre"), named(&house, "Closet"));
    let walls = |chosen| {
        let stops = stops(&survey(&house, chosen));
        stops.into_iter().filter_map(|it| if let Stop::Wall(id) = it { Some(id) } else { None }).collect::<Vec<_>>()
    };
    assert_eq!(walls(None), [centre]);
    assert_eq!(walls(Some(closet)), [closet, centre]);
}

#[test]
fn an_observation_answers_its_step() {
    let house = house();
    let way = key_of(&house, None, Task::JoistWay);
    assert_eq!(state_of(&house, way), State::Open);
    let saw = Saw::JoistsRun { along: Way::Y };
    let seen = Observation {
        id: ObservationId::from_number(0),
        at: Point::feet(5, 5),
        saw,
        known: Grade::Seen,
        note: String::new(),
        day: String::new(),
        photo: Photo::default(),
    };
    let level = way.level.expect("a level");
    let house = house.with(&Edit::Add(level, Element::Observation(seen))).expect("sound");
    assert_eq!(state_of(&house, way), State::Answered { reply: Reply::Saw(saw), known: Some(Grade::Seen) });
}

#[test]
fn what_is_drawn_answers_its_steps() {
    let house = draft().outside(36, 24).inside("Centre", (0, 12), (36, 12)).joists(Way::Y, Joints::Lap).done();
    let over = key_of(&house, None, Task::Over);
    assert!(matches!(state_of(&house, over), State::Answered { reply: Reply::Saw(Saw::JoistsLap), .. }));
    let way = key_of(&house, None, Task::JoistWay);
    assert!(matches!(
        state_of(&house, way),
        State::Answered { reply: Reply::Saw(Saw::JoistsRun { along: Way::Y }), .. }
    ));
    assert_eq!(state_of(&house, key_of(&house, None, Task::Rooms)), State::Drawn);
    assert_eq!(state_of(&house, key_of(&house, None, Task::Outline)), State::Drawn);
}

#[test]
fn ticking_fills_the_plan() {
    let mut plan = Plan::default();
    let size = read(Typed::Pair, "36' x 24'").expect("a pair");
    plan = answered(&plan, key_of(&plan, None, Task::Outline), size);
    let first = plan.levels().first().expect("a level").id;
    assert_eq!(plan.level(first).map(|level| level.outlines().len()), Some(1));

    plan = answered(&plan, key_of(&plan, None, Task::Year), read(Typed::Year, "1931").expect("a year"));
    plan = answered(&plan, key_of(&plan, None, Task::Height), read(Typed::Feet, "7' 8\"").expect("a length"));
    plan = answered(&plan, key_of(&plan, None, Task::Rise), read(Typed::Inches, "9").expect("a length"));
    plan = answered(&plan, key_of(&plan, None, Task::Stored), Reply::Use(Use::AtticStorage));
    plan = answered(&plan, key_of(&plan, None, Task::JoistWay), Reply::Saw(Saw::JoistsRun { along: Way::X }));
    plan = answered(&plan, key_of(&plan, None, Task::JoistSize), read(Typed::Size, "2x8 at 24").expect("a size"));
    plan = answered(&plan, key_of(&plan, None, Task::Framing), Reply::Saw(Saw::RidgeBoard));
    plan = answered(&plan, key_of(&plan, None, Task::Under), Reply::Under(LevelKind::Basement));

    let level = plan.level(first).expect("the storey");
    assert_eq!(level.height, Ticks::from_sixteenths((7 * 12 + 8) * 16));
    let (field, roof) = (level.fields.first().expect("joists"), level.roofs.first().expect("a roof"));
    assert_eq!((field.along, field.used_as), (Way::X, Use::AtticStorage));
    assert_eq!(roof.rise, Ticks::from_sixteenths(9 * 16));
    assert_eq!(plan.levels().first().map(|level| level.kind), Some(LevelKind::Basement));
    let known = as_known(&plan);
    let level = known.level(first).expect("the storey");
    assert_eq!(level.fields.first().map(|it| it.member), Some(Member::sawn(2, 8)));
    assert_eq!(level.roofs.first().map(|it| it.frame), Some(RoofFrame::RidgeBoard));
    for task in [Task::Year, Task::Outline, Task::Rise, Task::JoistWay, Task::JoistSize, Task::Framing, Task::Stored] {
        let key = StepKey { level: key_of(&plan, None, task).level.map(|_| first), ..of_house(task) };
        assert_ne!(state::state(&plan, key), State::Open, "{task:?}");
    }
}

#[test]
fn an_answer_takes_the_place_of_the_one_before_and_can_be_taken_back() {
    let house = house();
    let sag = key_of(&house, None, Task::Sag);
    let half = Reply::Saw(Saw::Sag { by: Ticks::from_sixteenths(8) });
    let none = answered(&house, sag, Reply::Nothing);
    assert_eq!(none.tick(sag).map(|tick| tick.came), Some(Came::Nothing));
    let sags = answered(&none, sag, half);
    assert_eq!(
        (sags.ticks().len(), state_of(&sags, sag)),
        (0, State::Answered { reply: half, known: Some(Grade::Seen) })
    );
    let again = answered(&sags, sag, Reply::Nothing);
    assert!(again.levels().iter().all(|level| level.observations.is_empty()));
    assert_eq!(answered(&again, sag, Reply::Open).ticks(), []);
    let later = answered(&house, sag, Reply::NotSeen);
    assert_eq!(state_of(&later, sag), State::NotSeen);
}

#[test]
fn ticks_go_with_their_wall_and_come_back_from_the_file() {
    let house = house();
    let thickness = key_of(&house, None, Task::Thickness);
    let five = Ticks::from_sixteenths(5 * 16);
    let house = answered(&house, thickness, Reply::Length(five));
    assert_eq!(house.wall_named("Centre").map(|wall| wall.thickness), Some(five));
    assert_eq!(Plan::from_json(&house.to_json()).expect("sound"), house);
    let gone = house.with(&Edit::Remove(ElementId::Wall(named(&house, "Centre")))).expect("sound");
    assert_eq!(gone.ticks(), []);
    let old = house.to_json().replace("\"ticks\"", "\"passed_over\"");
    assert_eq!(Plan::from_json(&old).expect("a file without ticks").ticks(), []);
}

#[test]
fn each_step_and_each_answer_has_words_of_its_own() {
    let house = house();
    let words = Words::new(&house, Tape::Feet);
    for stage in survey(&house, Some(named(&house, "Centre"))).stages {
        let mut titles: Vec<String> = stage.steps.iter().map(|step| words.step(step.key).0).collect();
        titles.sort();
        titles.dedup();
        assert_eq!(titles.len(), stage.steps.len(), "{:?}", stage.stop);
        for step in &stage.steps {
            let mut replies: Vec<String> = step.replies.iter().map(|it| words.reply(step.key.task, it)).collect();
            let many = replies.len();
            replies.sort();
            replies.dedup();
            assert_eq!(replies.len(), many, "{:?}: {replies:?}", step.key);
            assert!(many > 0 || step.typed.is_some(), "{:?}", step.key);
        }
    }
}
