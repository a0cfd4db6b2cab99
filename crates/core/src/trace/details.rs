//! Cautions on how things are built where they meet: beams that end in masonry, low walls of studs on a foundation.

use super::{Caution, Reason, Stretch};
use crate::geometry::{Frame, Spot};
use crate::ids::BeamId;
use crate::plan::{Level, LevelKind, Make, Side, Wall};

/// How far past the body of a wall the end of a beam may be and still be in it, in feet.
const IN_WALL: f64 = 0.5;

/// What to know about how a wall of a level is built, by its roles.
pub(super) fn of_wall(level: &Level, wall: &Wall, stretches: &[Stretch]) -> Vec<Caution> {
    let mut cautions = Vec::new();
    if level.kind == LevelKind::CrawlSpace && wall.make == Make::Stud {
        let bears = wall.side == Side::Outside || stretches.iter().any(|it| it.role.carries());
        let height = level.height_of(wall).feet();
        cautions.extend(bears.then_some(Caution::CrippleWall { height }));
    }
    if wall.make != Make::Stud {
        for reason in stretches.iter().flat_map(|it| &it.reasons) {
            if let Reason::BeamRestsOn { beam, at } = *reason
                && ends_in(level, wall, beam)
                && !cautions.contains(&Caution::BeamPocket { beam, at })
            {
                cautions.push(Caution::BeamPocket { beam, at });
            }
        }
    }
    cautions
}

/// Whether an end of a beam is in the body of a wall, or close to it.
fn ends_in(level: &Level, wall: &Wall, beam: BeamId) -> bool {
    let beam = level.beams.iter().find(|it| it.id == beam);
    let (Some(beam), Some(frame)) = (beam, Frame::between(wall.a, wall.b)) else { return false };
    let line = frame.local(Spot::from(wall.a)).1;
    let off = |end| (frame.local(Spot::from(end)).1 - line).abs().0;
    off(beam.a).min(off(beam.b)) <= wall.thickness.feet().0 + IN_WALL
}
