//! What is not known of a house, and the answers each question can have.
//!
//! Shares given to answers before anybody looked are common practice and ours: they order what is likely, and never make
//! anything certain.

use serde::Serialize;

use super::fact::wall_of;
use super::turn::{Turn, TurnLine, turns, ways_at};
use super::under::{self, asked};
use crate::geometry::{self, Frame, Position, Spot};
use crate::ids::{FieldId, LevelId, RoofId, WallId};
use crate::plan::{
    Grade, Joints, JoistField, Level, Make, Observation, Plan, Point, Region, Roof, RoofForm, RoofFrame, Saw, Side,
    Top, TrussMake, Wall, Way, Webs,
};
use crate::trace::{End, OpenEnd};
use crate::units::{Feet, Ticks};

/// One thing nobody has settled.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case", tag = "kind", content = "id")]
pub enum Unknown {
    /// What lies over a level over which nothing is drawn.
    Overhead(LevelId),
    /// Which way ceiling joists run under a roof under which none are drawn, if there are any.
    Ceiling(RoofId),
    /// The way the joists of a field run.
    Direction(FieldId),
    /// How deep the joists of a field are.
    Size(FieldId),
    /// Where the joists of a field turn that were seen to run two ways.
    Turn(FieldId),
    /// How a roof nobody drew over the top level is framed.
    RoofOver(LevelId),
    /// How a drawn roof is framed.
    Frame(RoofId),
    /// How a wall meets what is over it.
    Wall(WallId),
    /// Whether struts from the roof stand on it.
    Struts(WallId),
    /// What stands under the end of a beam.
    Under(End),
}

impl Unknown {
    /// Whether an answer is one to this question, in some house.
    pub(super) const fn takes(self, answer: Answer) -> bool {
        match self {
            Self::Overhead(_) | Self::Direction(_) => {
                matches!(answer, Answer::Joists(_) | Answer::Trusses | Answer::AlteredTrusses)
            }
            Self::Ceiling(_) => matches!(answer, Answer::Joists(_)),
            Self::Size(_) => matches!(answer, Answer::TwoBy(_) | Answer::OtherJoists),
            Self::Turn(_) => matches!(answer, Answer::TurnsAt(_)),
            Self::RoofOver(_) => matches!(answer, Answer::Board | Answer::RidgeBeam | Answer::None),
            Self::Frame(_) => {
                matches!(answer, Answer::Board | Answer::RidgeBeam | Answer::Trusses | Answer::AlteredTrusses)
            }
            Self::Wall(_) => answer.bears().is_some(),
            Self::Struts(_) => matches!(answer, Answer::Struts | Answer::NoStruts),
            Self::Under(_) => matches!(answer, Answer::InWall | Answer::OnPost | Answer::NotUnder),
        }
    }
}

/// One possible answer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case", tag = "answer", content = "way")]
pub enum Answer {
    /// As it is drawn; nobody doubts it.
    AsDrawn,
    /// The question does not arise.
    None,
    /// Joists that run this way.
    Joists(Way),
    /// Joists of two by so many inches.
    TwoBy(u8),
    /// Joists turn on this one of the lines on which they may.
    TurnsAt(u8),
    /// I-joists or anything else that no table of sawn joists judges.
    OtherJoists,
    /// Trusses with metal plates, their webs whole.
    Trusses,
    /// Trusses built on the site or cut: nobody can say where they bear.
    AlteredTrusses,
    /// Rafters against a ridge board.
    Board,
    /// Rafters on a ridge beam.
    RidgeBeam,
    /// Joists lap, meet or end over the wall.
    Lap,
    /// They run through and bear on it.
    Tight,
    /// They run through, clear of it.
    Clear,
    /// They run along it, on both of its faces.
    Along,
    /// On its left, seen from end `a`, joists turn and end on it.
    TurnsLeft,
    /// The same on its right.
    TurnsRight,
    /// Trusses pass over it.
    Passes,
    /// Trusses bear on it.
    Bears,
    /// A girder truss, a beam in the attic or one between the joists runs over it and takes what would land: it comes down at
    /// the two ends of the wall.
    BeamOver,
    /// Struts from the roof stand on it.
    Struts,
    /// None do.
    NoStruts,
    /// Studs packed together in the wall under it.
    InWall,
    /// A post of its own.
    OnPost,
    /// Nothing right under it: it hangs on something else, or on nothing.
    NotUnder,
}

impl Answer {
    /// Whether what is over a wall bears on it if this is so; none for answers to other questions.
    #[must_use]
    pub const fn bears(self) -> Option<bool> {
        match self {
            Self::Lap | Self::Tight | Self::TurnsLeft | Self::TurnsRight | Self::Bears | Self::BeamOver => Some(true),
            Self::Clear | Self::Along | Self::Passes => Some(false),
            _ => None,
        }
    }
}

/// Two faces of a wall are looked at this far from its line, in feet.
const FACE: f64 = 0.5;
/// Lines that differ by less than this sine are parallel (about 3 degrees).
const PARALLEL: f64 = 0.05;

/// The questions of one level, in the order in which their answers depend on each other.
pub(super) fn questions(plan: &Plan, level: &Level, ends: &[OpenEnd]) -> Vec<Unknown> {
    let mut all = Vec::new();
    let inside = level.walls.iter().filter(|wall| wall.side == Side::Inside && wall.make == Make::Stud);
    let closed = !level.outlines().is_empty();
    let trusses = level.roofs.iter().any(|roof| matches!(roof.frame, RoofFrame::Trusses { .. }));
    // Under a roof it is asked of each roof, after how that is framed.
    let by_roof = is_top(plan, level) && !level.roofs.is_empty();
    if level.fields.is_empty() && !trusses && closed && !by_roof {
        all.push(Unknown::Overhead(level.id));
    }
    if is_top(plan, level) && level.roofs.is_empty() && closed {
        all.push(Unknown::RoofOver(level.id));
    }
    all.extend(level.roofs.iter().map(|roof| Unknown::Frame(roof.id)));
    // Where joists are drawn beside a ridge beam that was seen, the rooms under it are open to it.
    let open =
        |roof: &Roof| !level.fields.is_empty() && roof.known <= Grade::Seen && roof.frame == RoofFrame::RidgeBeam;
    let bare = level.roofs.iter().filter(|roof| by_roof && is_bare(level, roof) && !open(roof));
    all.extend(bare.map(|roof| Unknown::Ceiling(roof.id)));
    // Under trusses no ceiling joists lie whose direction could be asked for.
    let turns = turns(level);
    let turns_in = |field: &JoistField| turns.iter().any(|turn| turn.field == field.id);
    all.extend(level.fields.iter().filter(|it| !turns_in(it)).map(|field| Unknown::Direction(field.id)));
    all.extend(level.fields.iter().filter(|field| may_pass_clear(level, field)).map(|field| Unknown::Size(field.id)));
    // Last of these: a house made of the answers has the parts as deep as the whole.
    all.extend(turns.iter().map(|turn| Unknown::Turn(turn.field)));
    all.extend(asked(plan, level, ends).map(|end| Unknown::Under(end.of)));
    for wall in inside {
        all.push(Unknown::Wall(wall.id));
        if may_run_along_ridge(plan, level, wall) || saw_strut(level, wall) {
            all.push(Unknown::Struts(wall.id));
        }
    }
    all
}

/// Whether it matters how deep joists are that nobody measured: they may pass clear of a wall if they reach that far.
fn may_pass_clear(level: &Level, field: &JoistField) -> bool {
    let lapped = field.known <= Grade::Seen && field.joints == Joints::Lap;
    // Where nothing is known of the way they run, that comes first.
    let open = |wall: &&Wall| wall.side == Side::Inside && wall.top == Top::Tight && wall.joints != Joints::Lap;
    let over = |wall: &Wall| over_wall(level, wall).iter().any(|it| it.id == field.id);
    !field.member.is_seen() && !lapped && level.walls.iter().filter(open).any(over)
}

/// Whether a roof comes right over it, drawn or not.
pub(crate) fn is_top(plan: &Plan, level: &Level) -> bool {
    plan.level_above(level.id).is_none_or(|above| above.walls.is_empty())
}

/// Who knows which answers a question can have.
pub(super) struct Asker<'a> {
    plan: &'a Plan,
    level: &'a Level,
    ends: &'a [OpenEnd],
    /// The joists over each inside wall.
    over: Vec<(WallId, Vec<&'a JoistField>)>,
    /// The fields whose joists turn.
    turns: Vec<Turn>,
}

impl<'a> Asker<'a> {
    pub(super) fn new(plan: &'a Plan, level: &'a Level, ends: &'a [OpenEnd]) -> Self {
        let inside = level.walls.iter().filter(|wall| wall.side == Side::Inside);
        let over = inside.map(|wall| (wall.id, over_wall(level, wall))).collect();
        Self { plan, level, ends, over, turns: turns(level) }
    }

    /// The joists over a wall.
    pub(super) fn over(&self, wall: WallId) -> &[&'a JoistField] {
        self.over.iter().find(|it| it.0 == wall).map(|it| it.1.as_slice()).unwrap_or_default()
    }

    /// The answers a question can have, given the answers to those before it, each with its share before anybody looked.
    pub(super) fn answers(&self, unknown: Unknown, so_far: &[(Unknown, Answer)]) -> Vec<(Answer, f64)> {
        let (plan, level) = (self.plan, self.level);
        let none = || vec![(Answer::None, 1.0)];
        match unknown {
            Unknown::Overhead(_) => {
                let short = level.shorter_way();
                let mut all = vec![(Answer::Joists(short), 8.0), (Answer::Joists(short.square()), 2.0)];
                if is_top(plan, level) && level.roofs.iter().all(|roof| may_be_trusses(level, roof)) {
                    all.extend([(Answer::Trusses, 6.0), (Answer::AlteredTrusses, 0.5)]);
                }
                all
            }
            Unknown::Ceiling(id) => {
                let short = level.shorter_way();
                let trusses = trussed(level, so_far).any(|roof| roof.id == id);
                let joists = || vec![(Answer::Joists(short), 8.0), (Answer::Joists(short.square()), 2.0)];
                if trusses { none() } else { joists() }
            }
            Unknown::Direction(id) => {
                let field = level.fields.iter().find(|it| it.id == id);
                let there = field.filter(|field| !trussed(level, so_far).any(|roof| is_chord(level, field, roof)));
                there.map_or_else(none, |field| direction(level, field))
            }
            Unknown::Size(id) => {
                let field = level.fields.iter().find(|it| it.id == id);
                let there = field.filter(|field| !trussed(level, so_far).any(|roof| is_chord(level, field, roof)));
                there.map_or_else(none, |field| {
                    let usual: [u8; 3] = if field.used_as.is_ceiling() { [6, 8, 10] } else { [8, 10, 12] };
                    let sawn = usual.into_iter().map(|depth| (Answer::TwoBy(depth), 3.0));
                    sawn.chain([(Answer::OtherJoists, 1.0)]).collect()
                })
            }
            Unknown::Turn(id) => {
                let lines = self.turns.iter().find(|turn| turn.field == id).map(|turn| turn.lines.as_slice());
                let share = |line: &TurnLine| if line.wall.is_some() { 6.0 } else { 1.0 };
                let number = |number: usize| u8::try_from(number).ok().map(Answer::TurnsAt);
                let all = lines.unwrap_or_default().iter().enumerate();
                let all: Vec<(Answer, f64)> = all.filter_map(|(n, line)| Some((number(n)?, share(line)))).collect();
                if all.is_empty() { none() } else { all }
            }
            Unknown::RoofOver(_) if overhead_is_trusses(level, so_far) => none(),
            Unknown::RoofOver(_) => vec![(Answer::Board, 9.0), (Answer::RidgeBeam, 1.0)],
            Unknown::Frame(id) => {
                level.roofs.iter().find(|it| it.id == id).map_or_else(none, |roof| frames(level, roof, so_far))
            }
            Unknown::Under(end) => {
                let framed = match end {
                    End::Ridge(id, _) => so_far.iter().find(|it| it.0 == Unknown::Frame(id)).map(|it| it.1),
                    End::Beam(..) | End::Post(_) => None,
                };
                let open = self.ends.iter().find(|it| it.of == end);
                let open = open.filter(|_| framed.is_none_or(|it| it == Answer::RidgeBeam));
                open.map_or_else(none, |open| under::answers(plan, open))
            }
            Unknown::Wall(id) => {
                level.wall(id).map_or_else(none, |wall| meets((plan, level, &self.turns), wall, self.over(id), so_far))
            }
            Unknown::Struts(id) => match level.wall(id) {
                Some(wall) if is_strutted(level, wall) => vec![(Answer::Struts, 1.0)],
                Some(wall) if saw_strut(level, wall) || may_hold_struts(level, wall, so_far) => {
                    vec![(Answer::NoStruts, 12.0), (Answer::Struts, 1.0)]
                }
                _ => none(),
            },
        }
    }
}

fn direction(level: &Level, field: &JoistField) -> Vec<(Answer, f64)> {
    let drawn = Answer::Joists(field.along);
    let short = level.shorter_way();
    let sure = match field.known {
        Grade::Measured | Grade::Seen => return vec![(drawn, 1.0)],
        Grade::Told => 6.0,
        Grade::Assumed => 2.0,
        Grade::Unknown => 1.0,
    };
    let usual = |way: Way| if way == short { 4.0 } else { 1.0 };
    let other = field.along.square();
    vec![(drawn, sure * usual(field.along)), (Answer::Joists(other), usual(other))]
}

/// Whether nothing is drawn under a roof that is framed for itself.
pub(super) fn is_bare(level: &Level, roof: &Roof) -> bool {
    // What was put under another roof says nothing of this one, though the two overlap.
    let of_other = |field: &JoistField| {
        let other = |it: &Roof| it.id != roof.id && it.region == field.region;
        field.known == Grade::Unknown && field.region != roof.region && level.roofs.iter().any(other)
    };
    let covers = |field: &JoistField, at: Point| {
        level.polygons(&field.region).iter().any(|it| geometry::position(it, at) != Position::Outside)
    };
    let nothing = |at: Point| level.fields.iter().all(|field| of_other(field) || !covers(field, at));
    roof.frame != RoofFrame::OverFramed && place_under(level, roof.id).is_some_and(nothing)
}

/// What ceiling joists under a roof lie over: one roof is taken to be over the whole house.
pub(super) fn ceiling_region(level: &Level, roof: &Roof) -> Region {
    let others = level.roofs.iter().any(|it| it.id != roof.id && it.frame != RoofFrame::OverFramed);
    if others { roof.region.clone() } else { Region::Outline }
}

/// The joists under a roof.
fn under_roof<'a>(level: &'a Level, roof: &'a Roof) -> impl Iterator<Item = &'a JoistField> {
    let under = |polygon: &Vec<Point>| covers(level, roof, centre_of(polygon));
    let at = place_under(level, roof.id).and_then(|at| field_at(level, at)).map(|field| field.id);
    level.fields.iter().filter(move |it| at == Some(it.id) || level.polygons(&it.region).iter().any(under))
}

/// Trusses need no joists under them: where joists were seen there are none.
fn may_be_trusses(level: &Level, roof: &Roof) -> bool {
    let seen = under_roof(level, roof).any(|field| field.known <= Grade::Seen);
    let drawn = matches!(roof.frame, RoofFrame::Trusses { .. });
    let ceiling = under_roof(level, roof).all(|field| field.used_as.is_ceiling());
    !seen && (drawn || (ceiling && (roof.known > Grade::Seen || roof.frame == RoofFrame::NotSeen)))
}

/// The roofs that are trusses by the answers so far.
fn trussed<'a>(level: &'a Level, so_far: &'a [(Unknown, Answer)]) -> impl Iterator<Item = &'a Roof> {
    level.roofs.iter().filter(|roof| match so_far.iter().find(|it| it.0 == Unknown::Frame(roof.id)).map(|it| it.1) {
        Some(Answer::Trusses | Answer::AlteredTrusses) => true,
        Some(Answer::AsDrawn) => matches!(roof.frame, RoofFrame::Trusses { .. }),
        _ => false,
    })
}

/// Whether what is drawn as ceiling joists would be the chords of the trusses of a roof: none lie there then.
pub(super) fn is_chord(level: &Level, field: &JoistField, roof: &Roof) -> bool {
    let middle = |polygon: &Vec<Point>| covers(level, roof, centre_of(polygon));
    field.used_as.is_ceiling() && level.polygons(&field.region).iter().any(middle)
}

/// Whether a roof is over a place.
pub(crate) fn covers(level: &Level, roof: &Roof, at: Point) -> bool {
    level.polygons(&roof.region).iter().any(|it| geometry::position(it, at) != Position::Outside)
}

/// A place under a roof and no later one, as near its centre as can be.
pub(crate) fn place_under(level: &Level, id: RoofId) -> Option<Point> {
    let roof = level.roofs.iter().find(|it| it.id == id)?;
    let own = |at: &Point| roof_at(level, *at).is_some_and(|over| over.id == id);
    level.polygons(&roof.region).iter().find_map(|polygon| places(polygon).find(own))
}

/// Places within a polygon: its centre, then some on the way to its corners.
pub(crate) fn places(polygon: &[Point]) -> impl Iterator<Item = Point> + '_ {
    let centre = centre_of(polygon);
    let near = polygon.iter().flat_map(move |corner| {
        let half = super::middle(*corner, centre);
        [half, super::middle(half, centre), super::middle(*corner, half)]
    });
    core::iter::once(centre).chain(near)
}

/// The middle of the box around some corners.
pub(crate) fn centre_of(corners: &[Point]) -> Point {
    let x = (corners.iter().map(|it| it.x).min(), corners.iter().map(|it| it.x).max());
    let y = (corners.iter().map(|it| it.y).min(), corners.iter().map(|it| it.y).max());
    match (x, y) {
        ((Some(west), Some(east)), (Some(south), Some(north))) => {
            super::middle(Point::new(west, south), Point::new(east, north))
        }
        _ => Point::default(),
    }
}

/// The roof over a place of which a look there tells: the one drawn last, of those that are framed for themselves.
pub(crate) fn roof_at(level: &Level, at: Point) -> Option<&Roof> {
    let framed = level.roofs.iter().rev().filter(|roof| roof.frame != RoofFrame::OverFramed);
    framed.into_iter().find(|roof| covers(level, roof, at))
}

fn overhead_is_trusses(level: &Level, so_far: &[(Unknown, Answer)]) -> bool {
    so_far.iter().any(|(unknown, answer)| {
        *unknown == Unknown::Overhead(level.id) && matches!(answer, Answer::Trusses | Answer::AlteredTrusses)
    })
}

fn frames(level: &Level, roof: &Roof, so_far: &[(Unknown, Answer)]) -> Vec<(Answer, f64)> {
    let seen = roof.known <= Grade::Seen;
    let times = |is: bool| if is { if roof.known == Grade::Told { 6.0 } else { 2.0 } } else { 1.0 };
    match roof.frame {
        RoofFrame::OverFramed => vec![(Answer::AsDrawn, 1.0)],
        RoofFrame::RidgeBoard if seen => vec![(Answer::Board, 1.0)],
        RoofFrame::RidgeBeam if seen => vec![(Answer::RidgeBeam, 1.0)],
        RoofFrame::Trusses { make, webs } if seen => match (make, webs) {
            (TrussMake::MetalPlates, Webs::Whole) => vec![(Answer::Trusses, 1.0)],
            (TrussMake::SiteBuilt, _) | (_, Webs::Cut) => vec![(Answer::AlteredTrusses, 1.0)],
            (TrussMake::InsideBearing, _) => vec![(Answer::AsDrawn, 1.0)],
            _ => vec![(Answer::Trusses, 9.0), (Answer::AlteredTrusses, 1.0)],
        },
        drawn => {
            // What lies over the level, where that is asked, goes before the roof.
            if let Some((_, over)) = so_far.iter().find(|(unknown, _)| *unknown == Unknown::Overhead(level.id)) {
                return match over {
                    Answer::Trusses | Answer::AlteredTrusses => vec![(*over, 1.0)],
                    _ => vec![(Answer::Board, 9.0), (Answer::RidgeBeam, 1.0)],
                };
            }
            let mut all = vec![
                (Answer::Board, 6.0 * times(drawn == RoofFrame::RidgeBoard)),
                (Answer::RidgeBeam, times(drawn == RoofFrame::RidgeBeam)),
            ];
            let trusses = times(matches!(drawn, RoofFrame::Trusses { .. }));
            if is_bare(level, roof) {
                let [board, beam] = [9.0, 1.0];
                return vec![
                    (Answer::Board, board * times(drawn == RoofFrame::RidgeBoard)),
                    (Answer::RidgeBeam, beam * times(drawn == RoofFrame::RidgeBeam)),
                    (Answer::Trusses, 6.0 * trusses),
                    (Answer::AlteredTrusses, 0.5 * trusses),
                ];
            }
            if may_be_trusses(level, roof) {
                all.extend([(Answer::Trusses, trusses), (Answer::AlteredTrusses, 0.1 * trusses)]);
            }
            all
        }
    }
}

/// What lies over a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Deck {
    Nothing,
    /// The rafters of a roof whose feet stand a level below: a low wall may hold them or be built short of them.
    Roof,
    Crosses,
    RunsAlong,
    Trusses,
}

fn meets(
    (plan, level, turns): (&Plan, &Level, &[Turn]),
    wall: &Wall,
    fields: &[&JoistField],
    so_far: &[(Unknown, Answer)],
) -> Vec<(Answer, f64)> {
    let deck = match deck_over((level, turns), wall, fields, so_far) {
        Deck::Nothing if is_under_lower_roof(plan, level, wall) => Deck::Roof,
        deck => deck,
    };
    let mut all = as_it_is(level, wall, fields, so_far, deck);
    if may_have_beam_over(level, wall, fields, deck) {
        all.push((Answer::BeamOver, BEAM_OVER * all.iter().map(|it| it.1).sum::<f64>()));
    }
    all
}

/// How often a member that nobody drew runs over a wall and carries in its place (common practice, and ours).
const BEAM_OVER: f64 = 0.03;

/// Whether something over a wall may carry what would land on it: where lines of roofs meet there, which is where a girder
/// truss or a beam lies; and where joists cross it and nobody looked how they meet it.
fn may_have_beam_over(level: &Level, wall: &Wall, fields: &[&JoistField], deck: Deck) -> bool {
    if wall.top != Top::Tight || wall.truss_bearing {
        return false;
    }
    let seen = |it: &Observation| it.saw == Saw::BeamOver && wall_of(level, it.at) == Some(wall.id);
    if roofs_meet(level, wall) || level.observations.iter().any(seen) {
        return true;
    }
    let says = |field: &&JoistField| field.known <= Grade::Seen && field.joints != Joints::NotSeen;
    let met = fields.iter().any(|field| has_edge_over(level, &field.region, wall));
    let looked = wall.joints != Joints::NotSeen || (fields.iter().all(says) && !fields.is_empty() && !met);
    deck == Deck::Crosses && !looked
}

/// Whether lines of roofs lie over a wall.
pub(crate) fn roofs_meet(level: &Level, wall: &Wall) -> bool {
    let Some(own) = Frame::between(wall.a, wall.b) else { return false };
    // Rafters and trusses come down along the ridge's way; at a gable end none do.
    let comes_down = |roof: &&Roof| {
        let along = own.squareness(&Frame::of(roof.ridge)) <= 0.5;
        along || roof.form == RoofForm::Hip
    };
    let framed = level.roofs.iter().filter(|roof| roof.frame != RoofFrame::OverFramed);
    wall.side == Side::Inside && framed.filter(comes_down).any(|roof| has_edge_over(level, &roof.region, wall))
}

fn has_edge_over(level: &Level, region: &Region, wall: &Wall) -> bool {
    *region != Region::Outline && level.polygons(region).iter().any(|it| edge_along(it, wall))
}

/// Whether an edge of a region lies along a wall, for a foot or more.
fn edge_along(corners: &[Point], wall: &Wall) -> bool {
    let Some(own) = Frame::between(wall.a, wall.b) else { return false };
    let ((start, line), length) = (own.local(wall.a.into()), geometry::length(wall.a, wall.b));
    let near = wall.thickness.feet().0 / 2.0 + 0.25;
    let ends = corners.iter().zip(corners.iter().cycle().skip(1));
    let along = |(a, b): (&Point, &Point)| {
        let (a, b) = (own.local((*a).into()), own.local((*b).into()));
        let on = (a.1 - line).0.abs() <= near && (b.1 - line).0.abs() <= near;
        let (from, to) = (a.0.min(b.0).max(start), a.0.max(b.0).min(start + length));
        on && to - from >= Feet(1.0)
    };
    ends.into_iter().any(along)
}

fn as_it_is(
    level: &Level,
    wall: &Wall,
    fields: &[&JoistField],
    so_far: &[(Unknown, Answer)],
    deck: Deck,
) -> Vec<(Answer, f64)> {
    let seen_whole = |field: &&JoistField| field.known <= Grade::Seen;
    match (deck, wall.top) {
        (Deck::Roof, Top::Gap | Top::Bare) => vec![(Answer::Clear, 1.0)],
        (Deck::Roof, Top::Tight) => vec![(Answer::Tight, 3.0), (Answer::Clear, 1.0)],
        (Deck::Nothing, _) => vec![(Answer::None, 1.0)],
        (Deck::Crosses, Top::Gap | Top::Bare) => vec![(Answer::Clear, 1.0)],
        (Deck::RunsAlong, Top::Gap | Top::Bare) => vec![(Answer::Along, 1.0)],
        (Deck::Trusses, Top::Gap | Top::Bare) => vec![(Answer::Passes, 1.0)],
        (Deck::Trusses, Top::Tight) if wall.truss_bearing => vec![(Answer::Bears, 1.0)],
        (Deck::Trusses, Top::Tight) => {
            let looked = level.roofs.iter().all(|roof| {
                let whole = RoofFrame::Trusses { make: TrussMake::MetalPlates, webs: Webs::Whole };
                roof.known <= Grade::Seen && (roof.frame == whole || !matches!(roof.frame, RoofFrame::Trusses { .. }))
            });
            let drawn = looked && !level.roofs.is_empty();
            if drawn { vec![(Answer::Passes, 1.0)] } else { vec![(Answer::Passes, 9.0), (Answer::Bears, 1.0)] }
        }
        (Deck::Crosses, Top::Tight) => {
            let of_field = fields
                .iter()
                .filter(|field| field.known <= Grade::Seen)
                .map(|field| field.joints)
                .find(|it| *it != Joints::NotSeen);
            let joints = if wall.joints == Joints::NotSeen { of_field.unwrap_or_default() } else { wall.joints };
            let told = fields.iter().filter(|field| field.known == Grade::Told).map(|field| field.joints);
            match joints {
                Joints::NotSeen if told.clone().any(|it| it == Joints::Lap) => {
                    vec![(Answer::Lap, 20.0), (Answer::Tight, 3.0), (Answer::Clear, 1.0)]
                }
                Joints::NotSeen if told.clone().any(|it| it == Joints::RunThrough) => {
                    vec![(Answer::Lap, 1.5), (Answer::Tight, 6.0), (Answer::Clear, 2.0)]
                }
                Joints::Lap => vec![(Answer::Lap, 9.0)],
                Joints::RunThrough => vec![(Answer::Tight, 6.0), (Answer::Clear, 3.0)],
                Joints::NotSeen => vec![(Answer::Lap, 5.0), (Answer::Tight, 3.0), (Answer::Clear, 1.0)],
            }
        }
        (Deck::RunsAlong, Top::Tight)
            if !fields.is_empty() && fields.iter().all(seen_whole) && ceilings(level, wall, so_far).is_empty() =>
        {
            vec![(Answer::Along, 9.0)]
        }
        (Deck::RunsAlong, Top::Tight) => {
            vec![(Answer::Along, 8.0), (Answer::TurnsLeft, 0.5), (Answer::TurnsRight, 0.5)]
        }
    }
}

/// Whether the roof over a wall stands on the level below.
fn is_under_lower_roof(plan: &Plan, level: &Level, wall: &Wall) -> bool {
    let Some(below) = plan.level_below(level.id) else { return false };
    let regions = below.roofs.iter().flat_map(|roof| below.polygons(&roof.region));
    let middle = super::middle(wall.a, wall.b);
    regions.into_iter().any(|around| geometry::position(&around, middle) != Position::Outside)
}

/// Whether a wall under a roof runs along its ridge: struts stand on no other.
fn may_run_along_ridge(plan: &Plan, level: &Level, wall: &Wall) -> bool {
    let Some(own) = Frame::between(wall.a, wall.b) else { return false };
    let along = |way: Way| own.squareness(&Frame::of(way)) <= PARALLEL;
    let drawn = level.roofs.iter().any(|roof| roof.known > Grade::Seen && along(roof.ridge));
    is_top(plan, level) && (drawn || (level.roofs.is_empty() && along(level.shorter_way().square())))
}

/// Whether struts of a drawn purlin stand on a wall: they need not be thought of.
pub(super) fn is_strutted(level: &Level, wall: &Wall) -> bool {
    let Some(own) = Frame::between(wall.a, wall.b) else { return false };
    let line = own.local(wall.a.into()).1;
    let on = |at: Point| (own.local(at.into()).1 - line).abs() <= wall.thickness.feet();
    level.purlins.iter().filter_map(|purlin| purlin.feet).any(on)
}

/// Whether somebody saw, or was told of, a strut on a wall.
pub(super) fn saw_strut(level: &Level, wall: &Wall) -> bool {
    let here = |it: &&Observation| it.saw == Saw::StrutStands && wall_of(level, it.at) == Some(wall.id);
    level.observations.iter().any(|it| here(&it))
}

/// Struts come down where rafters were not looked at.
fn may_hold_struts(level: &Level, wall: &Wall, so_far: &[(Unknown, Answer)]) -> bool {
    let framed = |unknown: &Unknown| matches!(unknown, Unknown::Frame(_) | Unknown::RoofOver(_));
    let middle = super::middle(wall.a, wall.b);
    let trusses = trussed(level, so_far).any(|roof| covers(level, roof, middle));
    let rafters = !trusses
        && so_far
            .iter()
            .any(|(unknown, answer)| framed(unknown) && matches!(answer, Answer::Board | Answer::RidgeBeam));
    rafters && wall.top == Top::Tight && !overhead_is_trusses(level, so_far)
}

fn deck_over(
    (level, turns): (&Level, &[Turn]),
    wall: &Wall,
    fields: &[&JoistField],
    so_far: &[(Unknown, Answer)],
) -> Deck {
    let Some(own) = Frame::between(wall.a, wall.b) else { return Deck::Nothing };
    let given = |unknown: Unknown| so_far.iter().find(|it| it.0 == unknown).map(|it| it.1);
    let crosses = |way: Way| if own.squareness(&Frame::of(way)) > PARALLEL { Deck::Crosses } else { Deck::RunsAlong };
    let middle = super::middle(wall.a, wall.b);
    let framed = trussed(level, so_far).any(|roof| covers(level, roof, middle));
    match given(Unknown::Overhead(level.id)) {
        Some(Answer::Joists(way)) => return crosses(way),
        Some(Answer::Trusses | Answer::AlteredTrusses) => return Deck::Trusses,
        _ => {}
    }
    if framed {
        return Deck::Trusses;
    }
    let line = |id: FieldId| match given(Unknown::Turn(id)) {
        Some(Answer::TurnsAt(number)) => {
            turns.iter().find(|turn| turn.field == id).and_then(|turn| turn.lines.get(usize::from(number)))
        }
        _ => None,
    };
    let ways = fields.iter().flat_map(|field| match (given(Unknown::Direction(field.id)), line(field.id)) {
        (Some(Answer::Joists(way)), _) => vec![way],
        (_, Some(line)) => {
            let own = |at: &Point| field_at(level, *at).is_some_and(|over| over.id == field.id);
            ways_at(line, face_places(wall).concat().into_iter().filter(own))
        }
        _ => vec![field.along],
    });
    let decks: Vec<Deck> = ways.chain(ceilings(level, wall, so_far)).map(crosses).collect();
    if decks.contains(&Deck::Crosses) {
        Deck::Crosses
    } else if decks.is_empty() {
        Deck::Nothing
    } else {
        Deck::RunsAlong
    }
}

/// Places on both faces of a wall, five along it: left faces first.
fn face_places(wall: &Wall) -> [Vec<Point>; 2] {
    let Some(own) = Frame::between(wall.a, wall.b) else { return [Vec::new(), Vec::new()] };
    let (start, line) = own.local(Spot::from(wall.a));
    let length = geometry::length(wall.a, wall.b).0;
    [FACE, -FACE].map(|side| {
        let spot = |share: f64| own.spot(Feet(start.0 + share * length), Feet(line.0 + side));
        [0.1, 0.3, 0.5, 0.7, 0.9].into_iter().filter_map(|share| point(spot(share))).collect()
    })
}

/// The fields over both faces of a wall, at five places along it: left faces first; each once on a face.
pub(crate) fn faces<'a>(level: &'a Level, wall: &Wall) -> [Vec<&'a JoistField>; 2] {
    face_places(wall).map(|places| {
        let mut fields: Vec<&JoistField> = Vec::new();
        for field in places.into_iter().filter_map(|at| field_at(level, at)) {
            if fields.iter().all(|it| it.id != field.id) {
                fields.push(field);
            }
        }
        fields
    })
}

/// The ways in which joists run beside a wall under roofs under which none are drawn.
fn ceilings(level: &Level, wall: &Wall, so_far: &[(Unknown, Answer)]) -> Vec<Way> {
    let roof = |id: RoofId| level.roofs.iter().find(|roof| roof.id == id);
    let way = |(unknown, answer): &(Unknown, Answer)| match (*unknown, *answer) {
        (Unknown::Ceiling(id), Answer::Joists(way)) => {
            let over = |at: &Point| roof(id).is_some_and(|roof| covers(level, roof, *at));
            beside(wall).iter().any(over).then_some(way)
        }
        _ => None,
    };
    so_far.iter().filter_map(way).collect()
}

/// Places on both faces of the middle of a wall.
fn beside(wall: &Wall) -> Vec<Point> {
    let Some(own) = Frame::between(wall.a, wall.b) else { return Vec::new() };
    let (start, line) = own.local(Spot::from(wall.a));
    let middle = Feet(start.0 + geometry::length(wall.a, wall.b).0 / 2.0);
    [FACE, -FACE].into_iter().filter_map(|side| point(own.spot(middle, Feet(line.0 + side)))).collect()
}

/// The fields over a wall, each once.
pub(crate) fn over_wall<'a>(level: &'a Level, wall: &Wall) -> Vec<&'a JoistField> {
    let mut all: Vec<&JoistField> = Vec::new();
    for field in faces(level, wall).into_iter().flatten() {
        if all.iter().all(|it| it.id != field.id) {
            all.push(field);
        }
    }
    all
}

/// A derived place to the nearest tick.
pub(crate) fn point(spot: Spot) -> Option<Point> {
    Some(Point::new(Ticks::from_decimal_feet(spot.x)?, Ticks::from_decimal_feet(spot.y)?))
}

/// The joists over a place: of the field drawn last where several cover it.
pub(crate) fn field_at(level: &Level, at: Point) -> Option<&JoistField> {
    let covers = |field: &&JoistField| {
        level.polygons(&field.region).iter().any(|it| geometry::position(it, at) != Position::Outside)
    };
    level.fields.iter().rev().find(covers)
}
