//! What stands under the end of a beam where nothing is drawn: which ends are asked about, and the house with an answer made.

use super::question::Answer;
use crate::geometry::Spot;
use crate::ids::{LevelId, ObservationId, PostId};
use crate::plan::{Below, Grade, Level, Member, Observation, Photo, Plan, Point, Post, PostKind, Roof, RoofFrame, Saw};
use crate::trace::{End, OpenEnd, Probe, follow, seen_under};

/// Of so many ends it is asked on one level, those of the levels above first.
const ASKED: usize = 4;

/// The ends under which nothing is drawn, also of ridge beams that a roof may have.
pub(crate) fn open_ends(plan: &Plan) -> Vec<OpenEnd> {
    let open = |roof: &Roof| roof.frame != RoofFrame::OverFramed && !is_seen(roof);
    let ridges = |level: &Level| level.roofs.iter().any(|roof| open(roof) || roof.frame == RoofFrame::RidgeBeam);
    let above = plan.levels.iter().skip(1).any(|level| !level.posts.is_empty());
    if !above && plan.levels.iter().all(|level| level.beams.is_empty() && !ridges(level)) {
        return Vec::new();
    }
    let mut house = plan.clone();
    for roof in house.levels.iter_mut().flat_map(|level| &mut level.roofs).filter(|roof| open(roof)) {
        roof.frame = RoofFrame::RidgeBeam;
    }
    drawn(&house)
}

/// The same of what is drawn alone.
fn drawn(plan: &Plan) -> Vec<OpenEnd> {
    let mut probe = Probe::on(LevelId(0));
    let _ = follow(plan, &mut probe);
    probe.open_ends
}

fn is_seen(roof: &Roof) -> bool {
    roof.known <= Grade::Seen && roof.frame != RoofFrame::NotSeen
}

/// The ends that a level asks about: what stands under them would stand in a wall of it, or on one.
pub(super) fn asked<'a>(plan: &Plan, level: &Level, ends: &'a [OpenEnd]) -> impl Iterator<Item = &'a OpenEnd> {
    let height = |id: LevelId| plan.levels.iter().position(|it| it.id == id);
    let asks = |end: &&OpenEnd| {
        if end.level == level.id {
            return end.wall_at(level).is_some();
        }
        // Whether another level has a ridge beam is that level's question.
        let roof = |id| plan.level(end.level).and_then(|it| it.roofs.iter().find(|roof| roof.id == id));
        let there = match end.of {
            End::Ridge(id, _) => roof(id).is_some_and(|it| is_seen(it) && it.frame == RoofFrame::RidgeBeam),
            End::Beam(..) | End::Post(_) => true,
        };
        there && height(end.level) > height(level.id) && level.walls.iter().any(|it| end.run_on(level, it).is_some())
    };
    let asked: Vec<&OpenEnd> = ends.iter().filter(asks).take(ASKED).collect();
    asked.into_iter()
}

/// The answers, with their shares: common practice, and ours.
pub(super) fn answers(plan: &Plan, end: &OpenEnd) -> Vec<(Answer, f64)> {
    let wall = plan.level(end.level).and_then(|level| end.wall_at(level));
    let pack = wall.map(|_| (Answer::InWall, 6.0));
    pack.into_iter().chain([(Answer::OnPost, 3.0), (Answer::NotUnder, 1.0)]).collect()
}

/// Makes an answer in a house.
pub(super) fn make(house: &mut Plan, end: &OpenEnd, answer: Answer) {
    let Some(at) = end.place() else { return };
    let number = house.next_id;
    let Some(level) = house.levels.iter_mut().find(|level| level.id == end.level) else { return };
    let mut posts: Vec<(Point, PostKind)> = Vec::new();
    match answer {
        Answer::InWall => {
            let pack = end.wall_at(level).map_or(at, |it| it.1);
            posts.push((pack, PostKind::StudPack));
            // Where the wall is drawn beside it, the load goes down all the same.
            posts.extend((pack != at).then_some((at, PostKind::Wood)));
        }
        Answer::OnPost => posts.push((at, PostKind::Wood)),
        Answer::NotUnder => {
            let saw = Saw::InLine { below: Below::Nothing };
            let (note, day, photo) = (String::new(), String::new(), Photo::default());
            let id = ObservationId(number);
            level.observations.push(Observation { id, at, saw, known: Grade::Seen, note, day, photo });
            house.next_id = house.next_id.saturating_add(1);
        }
        _ => {}
    }
    for (at, kind) in posts {
        level.posts.push(Post { id: PostId(house.next_id), name: String::new(), at, kind, member: Member::default() });
        house.next_id = house.next_id.saturating_add(1);
    }
}

/// Puts under the ends of a plan what was seen there.
pub(super) fn known(plan: &mut Plan) {
    let saw = |it: &Observation| matches!(it.saw, Saw::InLine { .. }) && it.known <= Grade::Seen;
    if !plan.levels.iter().flat_map(|level| &level.observations).any(saw) {
        return;
    }
    for end in drawn(plan) {
        let level = plan.level(end.level);
        match level.and_then(|level| seen_under(level, Spot::from(end.place()?))) {
            Some(Below::Wall) => make(plan, &end, Answer::InWall),
            Some(Below::Post) => make(plan, &end, Answer::OnPost),
            Some(Below::Beam | Below::Nothing) | None => {}
        }
    }
}
