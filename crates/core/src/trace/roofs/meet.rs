//! Two gable roofs of one level that meet in valleys: where their planes cut each other on plan, and which part is whose.
//! Pure geometry: no walls and no loads here.
//!
//! Both stand on one plate, so an eave of each is at height nought. Where they start together at the foot of a valley both
//! are nought; the wing's ridge runs in until the main slope is as high; between foot and apex both planes are straight,
//! and so is the line in which they cut. With equal slopes it runs at half the corner. The overhang of the wing's eaves
//! goes up to the main wall, and the main roof's stops short of it.

use super::super::strips::EPS;
use super::shape::{Section, spots};
use crate::geometry::{Frame, Spot};
use crate::plan::{Level, Meets, Point, Roof, RoofForm, RoofFrame};
use crate::units::{Feet, Ticks};

/// Lines that are off each other by an eighth of an inch or less are one, in feet.
const SAME: f64 = 1.0 / 96.0 + EPS;
/// How far past a roof's edge a part is drawn that takes all up to the edge, in feet.
const PAST: f64 = 1.0;

/// A wing with the main roof it meets.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Meeting {
    /// Its number on the level.
    pub(super) wing: usize,
    /// The main roof's.
    pub(super) main: usize,
    /// Where the valleys begin, at the eaves.
    pub(super) feet: [Spot; 2],
    /// Where the wing's ridge ends.
    pub(super) apex: Spot,
    /// Of the apex over the plate, in feet.
    pub(super) height: f64,
    /// Of the main ridge.
    pub(super) main_height: f64,
    /// Whether the ridges meet, equally high.
    pub(super) at_ridge: bool,
    /// The valley that runs on to the main ridge, and where it arrives.
    pub(super) long: Option<(usize, Spot)>,
    /// What the main roof loses to it.
    taken: Vec<Spot>,
    /// From its far end to its apex, as if it were a rectangle.
    body: Vec<Spot>,
    /// The corners of that which stay with the main roof.
    left: [Vec<Spot>; 2],
    /// All that it covers.
    footprint: Vec<Spot>,
}

/// A rectangle in a frame: along and across.
#[derive(Clone, Copy)]
struct Rectangle {
    t: (f64, f64),
    s: (f64, f64),
}

impl Rectangle {
    /// A region, if it is one rectangle that lies square in the frame.
    fn of(frame: &Frame, level: &Level, roof: &Roof) -> Option<Self> {
        let polygons = spots(&level.polygons(&roof.region));
        let [corners] = polygons.as_slice() else { return None };
        let places: Vec<(f64, f64)> = corners.iter().map(|at| frame.local(*at)).map(|(t, s)| (t.0, s.0)).collect();
        let extent = |of: fn(&(f64, f64)) -> f64| {
            places.iter().map(of).fold((f64::INFINITY, f64::NEG_INFINITY), |(lo, hi), it| (lo.min(it), hi.max(it)))
        };
        let (t, s) = (extent(|it| it.0), extent(|it| it.1));
        let on = |value: f64, ends: (f64, f64)| (value - ends.0).abs() < SAME || (value - ends.1).abs() < SAME;
        let square = places.len() == 4 && places.iter().all(|at| on(at.0, t) && on(at.1, s));
        square.then_some(Self { t, s })
    }
}

/// Whether valleys can be framed in it: a gable of rafters.
fn is_framed(roof: &Roof) -> bool {
    let rafters = matches!(roof.frame, RoofFrame::NotSeen | RoofFrame::RidgeBoard | RoofFrame::RidgeBeam);
    roof.form == RoofForm::Gable && rafters
}

impl Meeting {
    fn of(level: &Level, wing: usize, main: usize) -> Option<Self> {
        let (own, other) = (level.roofs.get(wing)?, level.roofs.get(main)?);
        if wing == main || !is_framed(own) || !is_framed(other) || !other.meets.covers() {
            return None;
        }
        let ((ax, ay), (bx, by)) = (own.ridge.parts(), other.ridge.parts());
        if i64::from(ax) * i64::from(bx) + i64::from(ay) * i64::from(by) != 0 {
            return None;
        }
        // Along the main rafters, across them along the main ridge.
        let frame = Frame::of(other.ridge.square());
        let (outer, inner) = (Rectangle::of(&frame, level, other)?, Rectangle::of(&frame, level, own)?);
        let ridge_at = other.ridge_at.map(|at| frame.local(Spot::from(at)).0.0);
        let section = Section::across(other, outer.t, ridge_at);
        let (main_ridge, main_height) = (section.ridge?, section.top());
        let ridge_at = own.ridge_at.map(|at| frame.local(Spot::from(at)).1.0);
        let section = Section::across(own, inner.s, ridge_at);
        let (ridge, height) = (section.ridge?, section.top());
        // It comes in over one eave, and goes past no other edge.
        let over = (inner.t.0 < outer.t.0 - SAME, inner.t.1 > outer.t.1 + SAME);
        let (eave, far, start, out) = match over {
            (false, true) => (outer.t.1, inner.t.1, inner.t.0, 1.0),
            (true, false) => (outer.t.0, inner.t.0, inner.t.1, -1.0),
            _ => return None,
        };
        let reaches = (start - eave) * out < SAME;
        let beside = inner.s.0 > outer.s.0 - SAME && inner.s.1 < outer.s.1 + SAME;
        let run = (eave - main_ridge).abs();
        let inward = run * height / main_height;
        if !reaches || !beside || inward > run + SAME {
            return None;
        }
        let at_ridge = inward > run - SAME;
        let apex_t = if at_ridge { main_ridge } else { eave - out * inward };
        let spot = |t: f64, s: f64| frame.spot(Feet(t), Feet(s));
        let feet = [spot(eave, inner.s.0), spot(eave, inner.s.1)];
        let apex = spot(apex_t, ridge);
        let overhang = own.overhang.feet().0;
        let beyond = eave + out * (other.overhang.feet().0 + PAST);
        let before = apex_t - out * PAST;
        let corner =
            |s: f64, past: f64| vec![spot(before, past), spot(apex_t, past), apex, spot(eave, s), spot(eave, past)];
        let (near, further) = (inner.s.0 - overhang, inner.s.1 + overhang);
        let [first, second] = feet;
        let taken =
            vec![apex, first, spot(eave, near), spot(beyond, near), spot(beyond, further), spot(eave, further), second];
        let left = [corner(inner.s.0, inner.s.0 - PAST), corner(inner.s.1, inner.s.1 + PAST)];
        let body = [(apex_t, inner.s.0), (apex_t, inner.s.1), (far, inner.s.1), (far, inner.s.0)];
        let footprint = vec![apex, first, spot(far, inner.s.0), spot(far, inner.s.1), second];
        let long = own.long_valley.filter(|_| !at_ridge).and_then(|place| {
            let off = |foot: Spot| crate::geometry::apart(foot, place.into()).0;
            let (side, foot) = if off(first) <= off(second) { (0, inner.s.0) } else { (1, inner.s.1) };
            let s = foot + (ridge - foot) * (main_ridge - eave) / (apex_t - eave);
            (s > outer.s.0 - SAME && s < outer.s.1 + SAME).then(|| (side, spot(main_ridge, s)))
        });
        Some(Self {
            wing,
            main,
            feet,
            apex,
            height,
            main_height,
            at_ridge,
            long,
            taken: whole(taken),
            body: body.map(|(t, s)| spot(t, s)).to_vec(),
            left,
            footprint,
        })
    }

    /// Where a valley begins.
    pub(super) fn foot(&self, side: usize) -> Spot {
        let [first, second] = self.feet;
        if side == 0 { first } else { second }
    }

    /// Where a valley ends at its top.
    pub(super) fn head(&self, side: usize) -> Spot {
        self.long.filter(|(long, _)| *long == side).map_or(self.apex, |(_, top)| top)
    }
}

/// An outline with each corner once.
fn whole(mut corners: Vec<Spot>) -> Vec<Spot> {
    corners.dedup_by(|b, a| crate::geometry::apart(*a, *b).0 < EPS);
    corners
}

/// All the wings of a level.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Meetings {
    pub(super) all: Vec<Meeting>,
    /// Roofs that are said to meet another in valleys and do not.
    pub(super) not_made: Vec<usize>,
}

impl Meetings {
    pub(super) fn of(level: &Level) -> Self {
        let mut meetings = Self::default();
        for (wing, roof) in level.roofs.iter().enumerate() {
            if roof.meets == Meets::Valley && roof.frame != RoofFrame::OverFramed {
                match (0..level.roofs.len()).find_map(|main| Meeting::of(level, wing, main)) {
                    Some(meeting) => meetings.all.push(meeting),
                    None => meetings.not_made.push(wing),
                }
            }
        }
        meetings
    }

    /// The meeting of which a roof is the wing.
    pub(super) fn of_wing(&self, number: usize) -> Option<&Meeting> {
        self.all.iter().find(|it| it.wing == number)
    }

    /// Which of two roofs takes what both cover: the later one, where a wing comes after its main roof.
    pub(super) fn rank(&self, number: usize) -> (usize, bool, usize) {
        self.of_wing(number).map_or((number, false, number), |it| (number.max(it.main), true, number))
    }

    /// What a roof has to itself, before others take from it.
    pub(super) fn region(&self, level: &Level, number: usize) -> Vec<Vec<Spot>> {
        match (self.of_wing(number), level.roofs.get(number)) {
            (Some(wing), _) => vec![wing.body.clone()],
            (None, Some(roof)) => spots(&level.polygons(&roof.region)),
            (None, None) => Vec::new(),
        }
    }

    /// What a roof covers, on whole ticks.
    pub(super) fn footprint(&self, level: &Level, number: usize) -> Vec<Vec<Point>> {
        let on_ticks = |at: &Spot| Some(Point::new(Ticks::from_decimal_feet(at.x)?, Ticks::from_decimal_feet(at.y)?));
        match (self.of_wing(number), level.roofs.get(number)) {
            (Some(wing), _) => vec![wing.footprint.iter().filter_map(on_ticks).collect()],
            (None, Some(roof)) => level.polygons(&roof.region),
            (None, None) => Vec::new(),
        }
    }

    /// What is taken out of a roof's region: what later roofs cover, and beyond its valleys what is the other roof's.
    pub(super) fn taken(&self, level: &Level, number: usize) -> Vec<Vec<Spot>> {
        let mut taken = Vec::new();
        let own = self.of_wing(number);
        for (other, roof) in level.roofs.iter().enumerate() {
            let wing = self.of_wing(other);
            if other == number || roof.frame == RoofFrame::OverFramed || own.is_some_and(|it| it.main == other) {
                continue;
            } else if let Some(wing) = wing.filter(|it| it.main == number) {
                taken.push(wing.taken.clone());
            } else if self.rank(other) > self.rank(number) {
                match wing {
                    Some(wing) => taken.push(wing.footprint.clone()),
                    None => taken.extend(spots(&level.polygons(&roof.region))),
                }
            }
        }
        taken.extend(own.into_iter().flat_map(|it| it.left.clone()));
        taken
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::{at, corners, draft};
    use crate::plan::{Region, Way};

    fn level(rise: i32) -> Level {
        let house =
            draft().outside(40, 24).roof(Way::X, 0).over(|it| it.region = Region::Corners(corners((0, 0), (40, 24))));
        let house = house.wing((10, 12), (26, 44)).over(|it| it.rise = Ticks::from_sixteenths(16 * rise));
        house.done().levels()[0].clone()
    }

    /// A 16 ft wing, 6 in 12 as the main roof: 4 ft high at its ridge, where the main slope is after 8 ft: the valleys run
    /// from its corners 8 ft in and 8 ft over, however far the wing is drawn into the main roof.
    #[test]
    fn equal_slopes_meet_8_ft_in_from_the_eave_over_a_wing_of_16_ft() {
        let meeting = Meeting::of(&level(6), 1, 0).expect("they meet");
        assert_eq!(meeting.apex, Spot { x: Feet(18.0), y: Feet(16.0) });
        assert_eq!(meeting.feet.map(|it| (it.x.0, it.y.0)), [(26.0, 24.0), (10.0, 24.0)]);
        assert!(!meeting.at_ridge);
    }

    /// 9 in 12 over 8 ft is 6 ft, as high as 6 in 12 over 12 ft; 10 in 12 is higher than the main ridge.
    #[test]
    fn a_wing_as_high_as_the_main_ridge_meets_it_and_a_higher_one_does_not() {
        let meeting = Meeting::of(&level(9), 1, 0).expect("they meet");
        assert!(meeting.at_ridge && meeting.apex == Spot { x: Feet(18.0), y: Feet(12.0) });
        assert_eq!(Meetings::of(&level(10)).not_made, [1]);
    }

    /// From (10, 24) at half the corner past (18, 16) to the ridge: (22, 12).
    #[test]
    fn a_long_valley_arrives_at_the_main_ridge_12_ft_over_from_its_foot() {
        let mut level = level(6);
        level.roofs[1].long_valley = Some(at((10, 24)));
        let (side, top) = Meeting::of(&level, 1, 0).and_then(|it| it.long).expect("long");
        assert_eq!((side, top), (1, Spot { x: Feet(22.0), y: Feet(12.0) }));
    }
}
