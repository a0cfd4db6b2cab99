//! The shape of one roof: the parts over which its rafters lie one way, its heights, its hips and its ridge. Pure geometry:
//! no walls and no loads here.

use super::super::strips::{Cover, EPS};
use super::dormers::Dormer;
use super::meet::Meetings;
use crate::geometry::{Frame, Spot};
use crate::order::InOrder as _;
use crate::plan::{Level, Roof, RoofForm};
use crate::units::Feet;

/// Corners that are off a rectangle by less than this are on it, in feet.
const SQUARE: f64 = 1.0 / 96.0;

/// A ridge shorter than this is a point, in feet.
const POINTED: f64 = 2.5 / 12.0 + EPS;

/// Heights above the plate, seen along the rafters: corners of a line that is straight between them.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Section {
    corners: Vec<(f64, f64)>,
    /// Where two slopes lean on each other.
    pub(super) ridge: Option<f64>,
    /// Where a slope changes between eave and ridge.
    pub(super) breaks: Vec<f64>,
    /// The mean height, where nobody said which side is the high one.
    level: Option<f64>,
}

impl Section {
    /// One slope from one place to another.
    fn slope(from: (f64, f64), to: (f64, f64)) -> Self {
        let mut corners = vec![from, to];
        corners.order_by(|a, b| a.0.total_cmp(&b.0));
        Self { corners, ridge: None, breaks: Vec::new(), level: None }
    }

    /// Across a whole roof, from eave to eave.
    pub(super) fn across(roof: &Roof, (lo, hi): (f64, f64), ridge_at: Option<f64>) -> Self {
        let rise = roof.rise.inches() / 12.0;
        let middle = (lo + hi) / 2.0;
        let inside = ridge_at.filter(|t| *t > lo + EPS && *t < hi - EPS);
        let ridge = inside.unwrap_or(middle);
        let run = (ridge - lo).max(hi - ridge);
        match roof.form {
            RoofForm::Shed => {
                // A place midway says nothing of which side is the high one.
                let stated = ridge_at.filter(|t| (t - middle).abs() > EPS);
                let (low, high) = if stated.is_some_and(|t| t < middle) { (hi, lo) } else { (lo, hi) };
                let level = stated.is_none().then_some(rise * (hi - lo) / 2.0);
                Self { level, ..Self::slope((low, 0.0), (high, rise * (hi - lo))) }
            }
            RoofForm::Gable | RoofForm::Hip => {
                let corners = vec![(lo, 0.0), (ridge, rise * run), (hi, 0.0)];
                Self { corners, ridge: Some(ridge), breaks: Vec::new(), level: None }
            }
            RoofForm::Gambrel { lower_run, upper_rise } => {
                let lower = lower_run.feet().0.min(0.9 * (ridge - lo).min(hi - ridge));
                let knee = rise * lower;
                let top = knee + upper_rise.inches() / 12.0 * (run - lower);
                let (a, b) = (lo + lower, hi - lower);
                let corners = vec![(lo, 0.0), (a, knee), (ridge, top), (b, knee), (hi, 0.0)];
                Self { corners, ridge: Some(ridge), breaks: vec![a, b], level: None }
            }
        }
    }

    /// Its straight parts: from, to, and the rise over a run of one. The first and last go on past the eaves.
    pub(super) fn parts(&self) -> Vec<(f64, f64, f64)> {
        let count = self.corners.len().saturating_sub(1);
        let pairs = self.corners.windows(2).enumerate();
        pairs
            .filter_map(|(i, pair)| {
                let [a, b] = pair else { return None };
                let from = if i == 0 { f64::NEG_INFINITY } else { a.0 };
                let to = if i + 1 == count { f64::INFINITY } else { b.0 };
                Some((from, to, (b.1 - a.1) / (b.0 - a.0)))
            })
            .collect()
    }

    /// Height of the rafters over the plate.
    pub(super) fn height(&self, t: f64) -> f64 {
        if let Some(level) = self.level {
            return level;
        }
        for (from, to, rise) in self.parts() {
            if t >= from && t <= to {
                let known = self.corners.iter().find(|it| it.0 >= from - EPS && it.0 <= to + EPS);
                return known.map_or(0.0, |it| it.1 + rise * (t - it.0));
            }
        }
        0.0
    }

    /// Where its line bends, eaves included.
    pub(super) fn stops(&self) -> impl Iterator<Item = f64> {
        self.corners.iter().map(|corner| corner.0)
    }

    /// The ridge's height.
    pub(super) fn top(&self) -> f64 {
        self.corners.iter().map(|it| it.1).fold(0.0, f64::max)
    }
}

/// A part of a roof over which the rafters lie one way.
pub(super) struct Facet {
    pub(super) frame: Frame,
    pub(super) cover: Cover,
    pub(super) section: Section,
    /// How far the rafters go on past the ends of the cover.
    pub(super) overhang: f64,
    /// The openings in it, which the cover has not.
    pub(super) dormers: Vec<Dormer>,
}

/// What a hip roof's rafters lean on besides walls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Hip {
    /// At the corner, out to the eave.
    pub(super) foot: Spot,
    /// At the end of the ridge.
    pub(super) apex: Spot,
}

/// One roof, in parts.
pub(super) struct Shape {
    pub(super) facets: Vec<Facet>,
    /// The whole of it, along the first facet's frame, for its weight.
    pub(super) whole: Cover,
    pub(super) section: Section,
    pub(super) frame: Frame,
    pub(super) overhang: f64,
    pub(super) hips: Vec<Hip>,
    /// From one end of the ridge to the other.
    pub(super) ridge: Option<(Spot, Spot)>,
    /// A hip that is not over a rectangle, so laid as a gable.
    pub(super) not_a_rectangle: bool,
    /// Openings that are not framed.
    pub(super) openings_left: usize,
}

impl Shape {
    /// The shape of roof `number` of a level; later roofs take what they cover, unless they are built on top of it.
    pub(super) fn of(level: &Level, number: usize, meetings: &Meetings) -> Option<Self> {
        let roof = level.roofs.get(number)?;
        let (region, taken) = (meetings.region(level, number), meetings.taken(level, number));
        if roof.form == RoofForm::Hip
            && let Some(shape) = Self::hip(roof, &region, &taken)
        {
            return Some(shape);
        }
        let frame = Frame::of(roof.ridge.square());
        let whole = Cover::of(&frame, &region, &taken);
        let (lo, hi) = whole.range()?;
        let reach = Cover::of(&frame, &region, &[]).reach()?;
        let ridge_at = roof.ridge_at.map(|at| frame.local(Spot::from(at)).0.0);
        let section = Section::across(roof, reach, ridge_at);
        let ridge = section.ridge.map(|t| (frame.spot(Feet(t), Feet(lo)), frame.spot(Feet(t), Feet(hi))));
        let overhang = roof.overhang.feet().0;
        let dormers = Dormer::all(roof, &frame, &section, &region, &taken);
        let openings_left = roof.openings.len() - dormers.len();
        let holes = dormers.iter().map(|it| it.corners(&frame));
        let cover = Cover::of(&frame, &region, &taken.iter().cloned().chain(holes).collect::<Vec<_>>());
        let facets = vec![Facet { frame, cover, section: section.clone(), overhang, dormers }];
        let not_a_rectangle = roof.form == RoofForm::Hip;
        Some(Self { facets, whole, section, frame, overhang, hips: Vec::new(), ridge, not_a_rectangle, openings_left })
    }

    /// Four slopes over a rectangle: between the ends of the ridge rafters lie in pairs, beyond them they run to the hips.
    ///
    /// All slopes alike, so that on plan the hips run at half the corner, and the ridge, along the longer sides, is as
    /// much shorter than they are as the house is deep. The eaves are those of the overhang: its corners count.
    fn hip(roof: &Roof, region: &[Vec<Spot>], taken: &[Vec<Spot>]) -> Option<Self> {
        let [corners] = region else { return None };
        let mut frame = Frame::of(roof.ridge.square());
        let local = |frame: &Frame| -> Vec<(f64, f64)> {
            corners.iter().map(|at| frame.local(*at)).map(|(t, s)| (t.0, s.0)).collect()
        };
        let extent = |all: &[(f64, f64)]| {
            let mut t = (f64::INFINITY, f64::NEG_INFINITY);
            let mut s = t;
            for at in all {
                t = (t.0.min(at.0), t.1.max(at.0));
                s = (s.0.min(at.1), s.1.max(at.1));
            }
            (t, s)
        };
        let mut places = local(&frame);
        let (mut t, mut s) = extent(&places);
        if t.1 - t.0 > s.1 - s.0 + EPS {
            frame = Frame::of(roof.ridge);
            places = local(&frame);
            (t, s) = extent(&places);
        }
        let on = |value: f64, ends: (f64, f64)| (value - ends.0).abs() < SQUARE || (value - ends.1).abs() < SQUARE;
        if corners.len() != 4 || !places.iter().all(|at| on(at.0, t) && on(at.1, s)) {
            return None;
        }
        let out = roof.overhang.feet().0;
        let section = Section::across(roof, t, None);
        let ((t0, t1), (s0, s1)) = ((t.0 - out, t.1 + out), (s.0 - out, s.1 + out));
        let (half, tm) = ((t1 - t0) / 2.0, (t0 + t1) / 2.0);
        // A ridge of a few inches is a point: all four hips meet there.
        let pointed = s1 - half - (s0 + half) < POINTED;
        let (sa, sb) = if pointed { ((s0 + s1) / 2.0, (s0 + s1) / 2.0) } else { (s0 + half, s1 - half) };
        let spot = |t: f64, s: f64| frame.spot(Feet(t), Feet(s));
        let facet = |frame: Frame, corners: &[(f64, f64)], section: Section| {
            let corners: Vec<Spot> = corners.iter().map(|at| spot(at.0, at.1)).collect();
            let cover = Cover::of(&frame, &[corners], taken);
            Facet { frame, cover, section, overhang: 0.0, dormers: Vec::new() }
        };
        let mut facets = Vec::with_capacity(7);
        if !pointed {
            facets.push(facet(frame, &[(t0, sa), (t1, sa), (t1, sb), (t0, sb)], section.clone()));
        }
        let top = section.top();
        let ends = Frame::of(if frame == Frame::of(roof.ridge) { roof.ridge.square() } else { roof.ridge });
        let mut hips = Vec::with_capacity(4);
        for (end, apex, wall) in [(s0, sa, s.0), (s1, sb, s.1)] {
            for (eave, wall) in [(t0, t.0), (t1, t.1)] {
                let jacks = Section::slope((wall, 0.0), (tm, top));
                facets.push(facet(frame, &[(eave, end), (tm, apex), (eave, apex)], jacks));
                hips.push(Hip { foot: spot(eave, end), apex: spot(tm, apex) });
            }
            let along = |t: f64, s: f64| ends.local(spot(t, s)).0.0;
            // As steep as the sides, also where their point is not just half a house from its end.
            let (foot, head) = (along(tm, wall), along(tm, apex));
            let section = Section::slope((foot, 0.0), (head, roof.rise.inches() / 12.0 * (head - foot).abs()));
            facets.push(facet(ends, &[(t0, end), (t1, end), (tm, apex)], section));
        }
        let corners = [(t0, s0), (t1, s0), (t1, s1), (t0, s1)].map(|at| spot(at.0, at.1)).to_vec();
        let whole = Cover::of(&frame, &[corners], taken);
        let openings_left = roof.openings.len();
        let ridge = (!pointed).then(|| (spot(tm, sa), spot(tm, sb)));
        Some(Self { facets, whole, section, frame, overhang: 0.0, hips, ridge, not_a_rectangle: false, openings_left })
    }
}

pub(super) fn spots(polygons: &[Vec<crate::plan::Point>]) -> Vec<Vec<Spot>> {
    polygons.iter().map(|corners| corners.iter().copied().map(Spot::from).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draft::draft;
    use crate::plan::Way;
    use crate::units::Ticks;

    fn level(form: RoofForm, overhang: f64) -> Level {
        let plan = draft().outside(40, 24).roof(Way::X, overhang).done();
        let mut level = plan.levels()[0].clone();
        level.roofs[0].form = form;
        level
    }

    /// Plane geometry: a 40 x 24 ft hip, eaves 1 ft out, is a 42 x 26 ft rectangle; each end triangle is 26 x 13 / 2 =
    /// 169 square feet, each of the four side triangles 13 x 13 / 2 = 84.5, the part in pairs (42 - 26) x 26 = 416.
    #[test]
    fn a_hip_of_40_by_24_ft_has_two_ends_of_169_square_feet() {
        let shape = Shape::of(&level(RoofForm::Hip, 1.0), 0, &Meetings::default()).unwrap();
        let mut areas: Vec<f64> = shape.facets.iter().map(|facet| facet.cover.area()).collect();
        areas.order_by(f64::total_cmp);
        for (got, want) in areas.iter().zip([84.5, 84.5, 84.5, 84.5, 169.0, 169.0, 416.0]) {
            assert!((got - want).abs() < 1e-9, "{areas:?}");
        }
        assert!((shape.whole.area() - 42.0 * 26.0).abs() < 1e-9);
        assert!((shape.section.top() - 6.0).abs() < 1e-9, "6 in 12 over a run of 12 ft");
    }

    #[test]
    fn a_gambrel_of_24_ft_changes_slope_4_ft_in_and_stands_8_plus_4_ft_high() {
        let mut level = level(
            RoofForm::Gambrel { lower_run: Ticks::from_feet(4), upper_rise: Ticks::from_sixteenths(6 * 16) },
            0.0,
        );
        level.roofs[0].rise = Ticks::from_sixteenths(24 * 16);
        let section = Shape::of(&level, 0, &Meetings::default()).unwrap().section;
        // y runs from 0 to 24 ft, seen from the ridge's square: heights at the knee and at the ridge.
        let eave = section.breaks[0] - 4.0;
        assert!((section.height(eave + 4.0) - 8.0).abs() < 1e-9);
        assert!((section.height(eave + 12.0) - 12.0).abs() < 1e-9);
        assert!((section.height(eave + 22.0) - 4.0).abs() < 1e-9);
    }
}
