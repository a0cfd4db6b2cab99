//! What an observation says about a question: which answers it allows, and how strongly.

use super::question::{Answer, Unknown, field_at, roof_at, roofs_meet};
use crate::geometry::{self, Frame};
use crate::ids::{ObservationId, WallId};
use crate::observe::{About, proof};
use crate::plan::{Below, Drawn, Grade, Level, Material, Member, Observation, Point, Saw, Side, Wall, Way};
use crate::trace::OpenEnd;
use crate::units::Feet;

/// An observation speaks of the inside wall nearest to it, if that is no further than this, in feet.
pub const NEAR_WALL: Feet = Feet(3.0);

/// How an observation bears on one answer.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Says {
    /// Nothing.
    Silent,
    /// It can be so, or it cannot.
    Fact(bool),
    /// So many times likelier.
    Times(f64),
}

/// An observation with the questions it speaks of.
#[derive(Clone, Debug)]
pub(super) struct Fact {
    pub(super) of: ObservationId,
    pub(super) about: Vec<Unknown>,
    pub(super) saw: Saw,
    pub(super) known: Grade,
    /// On which side of the wall it was made, seen from end `a`.
    left: bool,
    /// Whether lines of roofs meet over the wall: what was seen of the joists there says nothing of what holds the roofs.
    roofs_meet: bool,
}

impl Fact {
    /// What is seen or measured rules answers out; what is told or assumed makes them unlikelier.
    pub(super) fn rules_out(&self, answer: Answer) -> bool {
        self.known <= Grade::Seen && self.says(answer) == Says::Fact(false)
    }

    /// Whether it can rule anything out.
    pub(super) fn is_hard(&self) -> bool {
        self.known <= Grade::Seen && !self.about.is_empty() && ALL.iter().any(|answer| self.rules_out(*answer))
    }

    /// Whether it rules out any answer that a question takes.
    pub(super) fn speaks_to(&self, unknown: Unknown) -> bool {
        ALL.iter().any(|answer| unknown.takes(*answer) && self.rules_out(*answer))
    }

    /// How many times likelier it makes an answer that it does not rule out.
    pub(super) fn times(&self, answer: Answer) -> f64 {
        let faith = match self.known {
            Grade::Measured | Grade::Seen => 1.0,
            Grade::Told => 4.0,
            Grade::Assumed => 1.5,
            Grade::Unknown => 1.0,
        };
        match self.says(answer) {
            Says::Fact(true) => faith,
            Says::Times(times) => times,
            Says::Fact(false) | Says::Silent => 1.0,
        }
    }

    fn says(&self, answer: Answer) -> Says {
        let carries = |times: f64, want: bool| match answer.bears() {
            Some(carries) if carries == want => Says::Times(times),
            _ => Says::Silent,
        };
        let of_roofs = self.roofs_meet && is_of_joists(&self.saw);
        let of_wall = |allowed: &[Answer]| match answer.bears() {
            Some(_) if of_roofs && answer == Answer::BeamOver => Says::Silent,
            Some(_) => Says::Fact(allowed.contains(&answer)),
            None => Says::Silent,
        };
        let bare = |allowed: &[Answer]| match answer {
            Answer::Struts => Says::Fact(false),
            _ => of_wall(allowed),
        };
        let along = |way: Way, times: Option<f64>| match (answer, times) {
            (Answer::Joists(own), None) => Says::Fact(is_along(own, way)),
            (Answer::Joists(own), Some(times)) if is_along(own, way) => Says::Times(times),
            (Answer::Trusses | Answer::AlteredTrusses, None) => Says::Fact(false),
            _ => Says::Silent,
        };
        let frame = |wanted: Answer| match answer {
            Answer::Trusses | Answer::AlteredTrusses | Answer::Board | Answer::RidgeBeam => {
                Says::Fact(answer == wanted)
            }
            Answer::Joists(_) => Says::Fact(matches!(wanted, Answer::Board | Answer::RidgeBeam)),
            _ => Says::Silent,
        };
        let turns = if self.left { Answer::TurnsLeft } else { Answer::TurnsRight };
        match self.saw {
            Saw::JoistsLap => of_wall(&[Answer::Lap]),
            Saw::JoistsEnd => of_wall(&[Answer::Lap, turns]),
            Saw::JoistsHang => of_wall(&[Answer::Lap, Answer::TurnsLeft, Answer::TurnsRight]),
            Saw::SitOnPlate => of_wall(&[Answer::Lap, Answer::Tight, Answer::Bears]),
            Saw::JoistsRunThrough => of_wall(&[Answer::Tight, Answer::Clear]),
            Saw::Gap | Saw::NothingStands => bare(&[Answer::Clear, Answer::Along, Answer::Passes]),
            Saw::RunAlong => of_wall(&[Answer::Along]),
            Saw::NoStrut => match answer {
                Answer::Struts => Says::Fact(false),
                _ => Says::Silent,
            },
            Saw::StrutStands => match answer {
                Answer::Struts => Says::Fact(true),
                Answer::NoStruts => Says::Fact(false),
                _ => Says::Silent,
            },
            Saw::TrussTag => of_wall(&[Answer::Bears]),
            Saw::NoBeamOver => match answer {
                Answer::BeamOver => Says::Fact(false),
                _ => Says::Silent,
            },
            Saw::BeamOver => of_wall(&[Answer::BeamOver]),
            Saw::NoTag => of_wall(&[Answer::Passes]),
            Saw::JoistsRun { along: way } => along(way, None),
            Saw::NailRows { along: way } => along(way, Some(8.0)),
            Saw::FloorboardsRun { along: way } => along(way.square(), Some(3.0)),
            Saw::JoistSize { member, .. } if matches!(answer, Answer::TwoBy(_) | Answer::OtherJoists) => {
                Says::Fact(match answer {
                    Answer::TwoBy(depth) => Member::sawn(2, depth) == member,
                    _ => member.material != Material::Sawn,
                })
            }
            Saw::JoistSize { .. } | Saw::DoubledJoist => match answer {
                Answer::Trusses | Answer::AlteredTrusses => Says::Fact(false),
                _ => Says::Silent,
            },
            Saw::RidgeBoard => frame(Answer::Board),
            Saw::RidgeBeam => frame(Answer::RidgeBeam),
            Saw::TrussPlates => frame(Answer::Trusses),
            Saw::TrussGussets | Saw::WebCut => frame(Answer::AlteredTrusses),
            Saw::TieMissing => match answer {
                Answer::Trusses | Answer::AlteredTrusses => Says::Fact(false),
                _ => Says::Silent,
            },
            Saw::Drawing { says: Drawn::Bearing } => carries(4.0, true),
            Saw::Drawing { says: Drawn::NotBearing } => carries(4.0, false),
            Saw::HeavyHeader => carries(4.0, true),
            Saw::NoHeader => carries(1.5, false),
            Saw::Age { year } => match answer {
                Answer::Trusses | Answer::AlteredTrusses if year < 1950 => Says::Times(0.02),
                _ => Says::Silent,
            },
            Saw::InLine { below } => match answer {
                Answer::InWall => Says::Fact(below == Below::Wall),
                Answer::OnPost => Says::Fact(below == Below::Post),
                Answer::NotUnder => Says::Fact(matches!(below, Below::Beam | Below::Nothing)),
                _ => Says::Silent,
            },
            Saw::StudPack { .. }
            | Saw::HeavyAbove
            | Saw::LooseStuds
            | Saw::DoublePlate
            | Saw::Sag { .. }
            | Saw::Crack
            | Saw::StickingDoor
            | Saw::WallTakenOut
            | Saw::Hole
            | Saw::StudsRunOn => Says::Silent,
        }
    }
}

/// One of each kind of answer, to ask what a fact can rule out.
pub(super) const ALL: [Answer; 20] = [
    Answer::Joists(Way::X),
    Answer::Joists(Way::Y),
    Answer::Trusses,
    Answer::AlteredTrusses,
    Answer::Board,
    Answer::RidgeBeam,
    Answer::Lap,
    Answer::Tight,
    Answer::Clear,
    Answer::Along,
    Answer::TurnsLeft,
    Answer::TurnsRight,
    Answer::Passes,
    Answer::Bears,
    Answer::BeamOver,
    Answer::Struts,
    Answer::NoStruts,
    Answer::InWall,
    Answer::OnPost,
    Answer::NotUnder,
];

/// What was seen over a wall of joists alone.
const fn is_of_joists(saw: &Saw) -> bool {
    matches!(saw, Saw::JoistsLap | Saw::JoistsEnd | Saw::JoistsHang | Saw::JoistsRunThrough | Saw::RunAlong)
}

pub(super) fn is_along(a: Way, b: Way) -> bool {
    Frame::of(a).squareness(&Frame::of(b)) <= 0.05
}

/// The inside wall an observation speaks of: the nearest one, if it is near.
#[must_use]
pub fn wall_of(level: &Level, at: Point) -> Option<WallId> {
    nearest(level.walls.iter().filter(|wall| wall.side == Side::Inside), at, NEAR_WALL)
}

/// The wall nearest to a place, if it is that near.
pub(crate) fn nearest<'a>(walls: impl IntoIterator<Item = &'a Wall>, at: Point, reach: Feet) -> Option<WallId> {
    let near =
        walls.into_iter().map(|wall| (geometry::off(wall.a, wall.b, at), wall.id)).filter(|(off, _)| *off <= reach);
    near.min_by(|a, b| a.0.0.total_cmp(&b.0.0)).map(|(_, id)| id)
}

/// All that was seen on a level, with the questions each speaks of. What is told of the house as a whole is told of each
/// level.
pub(super) fn facts(levels: &[Level], level: &Level, questions: &[Unknown], ends: &[OpenEnd]) -> Vec<Fact> {
    let under = |on: &Level, seen: &Observation| -> Vec<Unknown> {
        let spoken_of = |unknown: &&Unknown| {
            ends.iter().any(|end| **unknown == Unknown::Under(end.of) && end.is_spoken_of(on, seen))
        };
        questions.iter().filter(spoken_of).copied().collect()
    };
    let of_house = levels.iter().filter(|it| it.id != level.id).flat_map(|it| &it.observations);
    let of_house = of_house.filter(|it| proof(&it.saw).about == About::House);
    let of_level = level.observations.iter().map(|seen| {
        let own = fact(level, seen, questions);
        Fact { about: [own.about, under(level, seen)].concat(), ..own }
    });
    // What stands under an end higher up.
    let others = levels.iter().filter(|it| it.id != level.id);
    let above = others.flat_map(|on| on.observations.iter().map(move |seen| (on, seen))).filter_map(|(on, seen)| {
        let about = under(on, seen);
        (!about.is_empty()).then(|| Fact { about, ..fact(level, seen, &[]) })
    });
    of_level.chain(of_house.map(|seen| fact(level, seen, questions))).chain(above).collect()
}

fn fact(level: &Level, seen: &Observation, questions: &[Unknown]) -> Fact {
    let at = seen.at;
    let roof = roof_at(level, at).map(|roof| roof.id);
    let wall = wall_of(level, at);
    let field = field_at(level, at).map(|field| field.id);
    let about = proof(&seen.saw).about;
    let speaks = |unknown: &&Unknown| match (about, **unknown) {
        (About::Wall, Unknown::Wall(id) | Unknown::Struts(id)) => wall == Some(id),
        (About::Joists, Unknown::Direction(id) | Unknown::Size(id)) => field == Some(id),
        (About::Joists | About::Roof, Unknown::Overhead(_) | Unknown::RoofOver(_)) => true,
        (About::Joists | About::Roof, Unknown::Frame(id) | Unknown::Ceiling(id)) => roof == Some(id),
        (About::House, unknown) => !matches!(unknown, Unknown::Wall(_) | Unknown::Struts(_)),
        _ => false,
    };
    let left = wall.and_then(|id| level.wall(id)).and_then(|wall| {
        let own = Frame::between(wall.a, wall.b)?;
        Some(own.local(at.into()).1 > own.local(wall.a.into()).1)
    });
    Fact {
        of: seen.id,
        about: questions.iter().filter(speaks).copied().collect(),
        saw: seen.saw,
        known: seen.known,
        left: left.unwrap_or_default(),
        roofs_meet: wall.and_then(|id| level.wall(id)).is_some_and(|wall| roofs_meet(level, wall)),
    }
}
