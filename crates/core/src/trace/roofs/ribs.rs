//! What rafters lean on besides walls: purlins on their struts, hips, valleys, a ridge beam; and walls that stand up to the roof.
//! What each gathers, `hand` takes on.

use super::super::RibKind;
use super::super::bar::{Bearer, Meet};
use super::super::carry::Carrier;
use super::super::place::{share_inside, spots};
use super::super::seats::Seats;
use super::super::storey::Storey;
use super::super::strips::EPS;
use super::Joined;
use super::meet::Meeting;
use super::shape::Shape;
use crate::geometry::{self, Frame, Position, Spot};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{Level, Point, Roof, RoofFrame, Side, Top};
use crate::units::{Feet, Ticks};

/// How far a wall's top may be below a rafter and still hold it, in feet: what a plate and a birdsmouth take up.
const UP_TO: f64 = 0.5 + EPS;
/// A wall runs this far under a roof if it is to hold a rafter, in feet, or for half of its length if it is short.
const UNDER_ROOF: f64 = 1.0 - EPS;
/// A rafter that ends this near the end of the ridge leans on all that meets there, in feet.
const AT_APEX: f64 = 1.25 / 12.0 + EPS;

/// The same where all four hips meet, which may stand for a ridge of a few inches.
const AT_POINT: f64 = 3.5 / 12.0 + EPS;

/// Something rafters lean on.
#[derive(Debug)]
pub(super) struct Rib {
    pub(super) kind: RibKind,
    pub(super) a: Spot,
    pub(super) b: Spot,
    pub(super) carrier: Carrier,
    /// Its place in the level's list, of a purlin.
    pub(super) purlin: Option<usize>,
    /// The number of its meeting and its side there, of a valley.
    pub(super) valley: Option<(usize, usize)>,
}

/// What the valleys of one meeting gathered from the roofs traced so far.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    pub(super) ribs: [Carrier; 2],
    /// What came together at their top.
    pub(super) top: Weights,
}

impl Gathered {
    pub(super) fn of(meeting: &Meeting) -> Self {
        let length = |side| geometry::apart(meeting.head(side), meeting.foot(side)).0;
        Self { ribs: [Carrier::new(length(0)), Carrier::new(length(1))], top: Weights::default() }
    }

    /// All of it.
    pub(super) fn total(&self) -> Weights {
        self.ribs.iter().fold(self.top, |sum, rib| sum + rib.total)
    }
}

/// An end of a ridge, where hips or valleys meet, with what comes together there.
#[derive(Debug)]
pub(super) struct Apex {
    pub(super) at: Spot,
    pub(super) total: Weights,
    /// The number of its meeting, of valleys.
    pub(super) meeting: Option<usize>,
}

/// A wall that may stand up to the roof: how high over the plate.
#[derive(Debug)]
struct WallUp {
    on: Bearer,
    a: Spot,
    b: Spot,
    reach: f64,
    height: f64,
}

/// All of one roof.
#[derive(Debug, Default)]
pub(super) struct Ribs {
    pub(super) all: Vec<Rib>,
    pub(super) apexes: Vec<Apex>,
    walls: Vec<WallUp>,
    /// By meeting, which valley runs on to the main ridge.
    long: Vec<Option<usize>>,
    /// Purlins of which nobody saw what holds them.
    pub(super) bare: Vec<usize>,
}

impl Ribs {
    pub(super) fn of(
        here: &Storey<'_>,
        above: Option<&Storey<'_>>,
        number: usize,
        roof: &Roof,
        shape: &Shape,
        joined: &mut Joined,
    ) -> Self {
        let mut ribs = Self::default();
        let level = here.level;
        let meetings = &joined.meetings;
        let mut rib = |kind, a: Spot, b: Spot, purlin| {
            let length = geometry::apart(a, b).0;
            if length > EPS {
                ribs.all.push(Rib { kind, a, b, carrier: Carrier::new(length), purlin, valley: None });
            }
        };
        if let Some((a, b)) = shape.ridge.filter(|_| roof.frame == RoofFrame::RidgeBeam) {
            rib(RibKind::Ridge, a, b, None);
        }
        let mut apexes: Vec<Apex> = Vec::new();
        for hip in &shape.hips {
            rib(RibKind::Hip, hip.foot, hip.apex, None);
            if apexes.iter().all(|apex| geometry::apart(apex.at, hip.apex).0 > AT_APEX) {
                apexes.push(Apex { at: hip.apex, total: Weights::default(), meeting: None });
            }
        }
        let roofs = level.roofs.iter().enumerate().filter(|(_, it)| it.frame != RoofFrame::OverFramed);
        let mut polygons: Vec<(usize, Vec<Vec<Point>>)> =
            roofs.map(|(i, _)| (i, meetings.footprint(level, i))).collect();
        polygons.order_by_key(|(i, _)| meetings.rank(*i));
        let mut bare = Vec::new();
        for (i, purlin) in level.purlins.iter().enumerate() {
            // It is under the last roof that covers its middle.
            let covers =
                |all: &[Vec<Point>], at: Point| all.iter().any(|it| geometry::position(it, at) != Position::Outside);
            let inside =
                |at: Point| polygons.iter().rfind(|(_, all)| covers(all, at)).is_some_and(|(own, _)| *own == number);
            let middle = geometry::along(purlin.a, purlin.b, half(geometry::length(purlin.a, purlin.b)));
            if !middle.is_some_and(inside) {
                continue;
            }
            match purlin.feet {
                Some(_) => rib(RibKind::Purlin, purlin.a.into(), purlin.b.into(), Some(i)),
                None => bare.push(i),
            }
        }
        ribs.bare = bare;
        for header in shape.facets.iter().flat_map(|facet| facet.dormers.iter().flat_map(|it| it.headers(&facet.frame)))
        {
            let carrier = Carrier::new(geometry::apart(header.0, header.1).0);
            ribs.all.push(Rib { kind: RibKind::Header, a: header.0, b: header.1, carrier, purlin: None, valley: None });
        }
        for (i, (meeting, gathered)) in meetings.all.iter().zip(&mut joined.gathered).enumerate() {
            if meeting.wing == number || meeting.main == number {
                let mut carriers: Vec<(usize, Carrier)> =
                    gathered.ribs.iter_mut().map(core::mem::take).enumerate().collect();
                // The one that runs on first, so that of two at one place the same is kept in a mirrored house.
                carriers.order_by_key(|(side, _)| meeting.long.is_none_or(|(long, _)| long != *side));
                for (side, carrier) in carriers {
                    let (a, b, valley) = (meeting.foot(side), meeting.head(side), Some((i, side)));
                    ribs.all.push(Rib { kind: RibKind::Valley, a, b, carrier, purlin: None, valley });
                }
                let total = core::mem::take(&mut gathered.top);
                apexes.push(Apex { at: meeting.apex, total, meeting: Some(i) });
            }
        }
        ribs.long = meetings.all.iter().map(|it| it.long.map(|(side, _)| side)).collect();
        ribs.apexes = apexes;
        ribs.walls = walls_up(level, level.height, Bearer::Wall).collect();
        if let Some(above) = above {
            ribs.walls.extend(walls_up(above.level, Ticks::ZERO, Bearer::WallAbove));
        }
        // What meets the roof's edge with its end stands in the storey beside: its top is higher than any rafter there.
        let mut region = meetings.region(level, number);
        region.extend(spots(&meetings.footprint(level, number)));
        ribs.walls.retain(|wall| {
            let length = geometry::apart(wall.a, wall.b).0;
            share_inside(&region, (wall.a, wall.b)) * length >= UNDER_ROOF.min(length / 2.0)
        });
        ribs
    }

    /// All of them in a member's own view.
    pub(super) fn seats(&self, frame: &Frame) -> Seats {
        let mut seats = Seats::none();
        for (i, rib) in self.all.iter().enumerate() {
            seats.add(frame, Bearer::Rib(i), (rib.a, rib.b), 0.25, Meet::ByJoints);
        }
        for wall in &self.walls {
            seats.add(frame, wall.on, (wall.a, wall.b), wall.reach, Meet::ByJoints);
        }
        seats
    }

    fn kind(&self, on: Bearer) -> Option<RibKind> {
        let Bearer::Rib(i) = on else { return None };
        self.all.get(i).map(|rib| rib.kind)
    }

    /// Whether rafters end there: at a hip, valley or header.
    pub(super) fn ends_rafters(&self, on: Bearer) -> bool {
        matches!(self.kind(on), Some(RibKind::Hip | RibKind::Valley | RibKind::Header))
    }

    /// Whether it is a header at an opening.
    pub(super) fn is_header(&self, on: Bearer) -> bool {
        self.kind(on) == Some(RibKind::Header)
    }

    /// Whether it is a valley, or the top of one.
    pub(super) fn is_valley(&self, on: Bearer) -> bool {
        match on {
            Bearer::Apex(i) => self.apexes.get(i).is_some_and(|apex| apex.meeting.is_some()),
            on => self.kind(on) == Some(RibKind::Valley),
        }
    }

    /// Whether it is a valley that runs on to the main ridge, so that rafters between it and the other go on past it.
    pub(super) fn runs_on(&self, on: Bearer) -> bool {
        let Bearer::Rib(i) = on else { return false };
        let valley = self.all.get(i).and_then(|rib| rib.valley);
        valley.is_some_and(|(meeting, side)| self.long.get(meeting) == Some(&Some(side)))
    }

    /// A wall that stands up to a place at a height over the plate, and where along it.
    pub(super) fn wall_under(&self, at: Spot, height: f64) -> Option<(Bearer, f64)> {
        self.walls.iter().filter(|wall| self.reaches(wall.on, height)).find_map(|wall| {
            let frame = Frame::from_to(wall.a, wall.b)?;
            let ((start, line), (t, s)) = (frame.local(wall.a), frame.local(at));
            let (along, length) = ((t - start).0, geometry::apart(wall.a, wall.b).0);
            let under = along > -UP_TO && along < length + UP_TO && (s - line).0.abs() < wall.reach + EPS;
            under.then_some((wall.on, along.clamp(0.0, length)))
        })
    }

    /// The end of the ridge at a place, if one is there.
    pub(super) fn apex_at(&self, at: Spot) -> Option<usize> {
        let pointed = matches!(self.apexes.as_slice(), [one] if one.meeting.is_none());
        let reach = if pointed { AT_POINT } else { AT_APEX };
        self.apexes.iter().position(|apex| geometry::apart(apex.at, at).0 <= reach)
    }

    pub(super) fn is_ridge(&self, on: Bearer) -> bool {
        self.kind(on) == Some(RibKind::Ridge)
    }

    /// Whether it stands up to rafters at a height over the plate.
    pub(super) fn reaches(&self, on: Bearer, height: f64) -> bool {
        // In the order of bearers: of this level, then of the one above.
        let wall = self.walls.binary_search_by_key(&on, |wall| wall.on).ok();
        match wall.and_then(|i| self.walls.get(i)) {
            Some(wall) => height > UP_TO && wall.height >= height - UP_TO,
            None => true,
        }
    }
}

fn half(length: Feet) -> Ticks {
    Ticks::from_decimal_feet(length / 2.0).unwrap_or_default()
}

/// Tight inside walls with their height over a plate that lies at `plate` above their feet.
fn walls_up(level: &Level, plate: Ticks, on: impl Fn(usize) -> Bearer) -> impl Iterator<Item = WallUp> {
    let walls = level.walls.iter().enumerate().filter(|(_, wall)| wall.side == Side::Inside && wall.top == Top::Tight);
    walls.filter_map(move |(i, wall)| {
        let height = (level.height_of(wall) - plate).feet().0;
        let reach = wall.thickness.feet().0 / 2.0;
        (height > UP_TO).then(|| WallUp { on: on(i), a: wall.a.into(), b: wall.b.into(), reach, height })
    })
}
