//! Cautions on how things are built where they meet: beams that end in masonry, low walls of studs on a foundation, ledgers,
//! and blocking under what comes down through joists.

use super::{Caution, Reason, Stretch};
use crate::geometry::{self, Frame, Position, Spot};
use crate::ids::{BeamId, BoardId};
use crate::plan::{Board, BoardKind, JoistField, Level, LevelKind, Make, Material, Point, Side, Wall};
use crate::units::Ticks;

/// How far past the body of a wall the end of a beam may be and still be in it, in feet.
const IN_WALL: f64 = 0.5;
/// How far off a line blocking still is under it, in feet.
const UNDER: f64 = 0.5;

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
    let ledgers = level.boards.iter().filter(|it| it.kind == BoardKind::Ledger);
    let reach = wall.thickness.feet().0 + IN_WALL;
    let along = ledgers.filter(|board| shared(board, wall.a, wall.b, reach) > IN_WALL);
    cautions.extend(along.map(|board| Caution::HangsOnLedger { board: board.id }));
    cautions
}

/// What to know about a loaded wall of the level above that comes down through the deck over this level.
pub(super) fn of_wall_over(level: &Level, a: Point, b: Point) -> Option<Caution> {
    let half = Ticks::from_decimal_feet(geometry::length(a, b) / 2.0)?;
    let field = joists_at(level, geometry::along(a, b, half)?)?;
    let blocking = blocking(level).find(|board| shared(board, a, b, UNDER) >= geometry::length(a, b).0 / 2.0);
    // Along the joists it stands on one of them, which is another matter.
    let across = Frame::between(a, b)?.squareness(&Frame::of(field.along)) > 0.5;
    said(field, blocking.map(|board| board.id), across)
}

/// The same about a loaded post.
pub(super) fn of_post_over(level: &Level, at: Point) -> Option<Caution> {
    let field = joists_at(level, at)?;
    let under = |board: &&Board| {
        let Some(frame) = Frame::between(board.a, board.b) else { return false };
        let ((from, line), (to, _)) = (frame.local(Spot::from(board.a)), frame.local(Spot::from(board.b)));
        let (t, s) = frame.local(Spot::from(at));
        (s - line).abs().0 <= UNDER && t.0 >= from.0 - UNDER && t.0 <= to.0 + UNDER
    };
    said(field, blocking(level).find(under).map(|board| board.id), true)
}

/// Whether the joists at a place of the deck over a level are I-joists.
pub(super) fn on_i_joists(level: &Level, at: Point) -> bool {
    joists_at(level, at).is_some_and(|field| field.member.material == Material::IJoist)
}

fn said(field: &JoistField, blocking: Option<BoardId>, crosses: bool) -> Option<Caution> {
    let wants = field.member.material == Material::IJoist && crosses;
    let on = blocking.map(|board| Caution::OnBlocking { board });
    on.or(wants.then_some(Caution::SquashBlocks { field: field.id }))
}

fn blocking(level: &Level) -> impl Iterator<Item = &Board> {
    level.boards.iter().filter(|it| it.kind == BoardKind::Blocking)
}

/// The field that covers a place: of several the last.
fn joists_at(level: &Level, at: Point) -> Option<&JoistField> {
    let over = |corners: &Vec<Point>| geometry::position(corners, at) != Position::Outside;
    level.fields.iter().rev().find(|field| level.polygons(&field.region).iter().any(over))
}

/// How many feet of a line a board runs along, no further off than this.
fn shared(board: &Board, a: Point, b: Point, reach: f64) -> f64 {
    let (Some(frame), Some(own)) = (Frame::between(a, b), Frame::between(board.a, board.b)) else { return 0.0 };
    let ((start, line), (end, _)) = (frame.local(Spot::from(a)), frame.local(Spot::from(b)));
    let ((from, first), (to, second)) = (frame.local(Spot::from(board.a)), frame.local(Spot::from(board.b)));
    let off = (first - line).abs().0.max((second - line).abs().0);
    if own.squareness(&frame) > 0.05 || off > reach {
        return 0.0;
    }
    (from.0.max(to.0).min(end.0) - from.0.min(to.0).max(start.0)).max(0.0)
}

/// Whether an end of a beam is in the body of a wall, or close to it.
fn ends_in(level: &Level, wall: &Wall, beam: BeamId) -> bool {
    let beam = level.beams.iter().find(|it| it.id == beam);
    let (Some(beam), Some(frame)) = (beam, Frame::between(wall.a, wall.b)) else { return false };
    let line = frame.local(Spot::from(wall.a)).1;
    let off = |end| (frame.local(Spot::from(end)).1 - line).abs().0;
    off(beam.a).min(off(beam.b)) <= wall.thickness.feet().0 + IN_WALL
}
