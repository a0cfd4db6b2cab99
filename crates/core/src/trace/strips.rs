//! Joist lines and the strip of deck that belongs to each: exact areas, cut at outlines, later fields and openings.
//!
//! All in one field's own view: `t` along the joists, `s` across them, feet. Knows no supports and no loads.

use super::near::Extent;
use crate::geometry::{Frame, Spot};
use crate::order::InOrder as _;
use crate::plan::Point;
use crate::units::Feet;

/// Under this many feet two places are one: far under a tick.
pub(super) const EPS: f64 = 1e-7;
/// Places that differ by less than this many feet differ by rounding.
const ROUNDING: f64 = 1e-12;
/// A joist this close to another, in feet, is not laid (1 1/2 in: they would touch).
const TOUCH: f64 = 1.5 / 12.0;
/// A rest of an eighth of an inch or less, in feet, makes no bay of its own.
const NO_BAY: f64 = 1.0 / 96.0 + EPS;
/// A joist stays on its line if this share of its length lies on it: a bit under half, and no share that a corner of
/// whole inches makes.
const HALF: f64 = 0.463_709;
/// How far beside an edge the deck is looked at to see whether it ends there, in feet.
const BESIDE: f64 = 1e-4;

/// A side of an outline, by group: 0 is the region itself, all others are taken out of it.
struct Side {
    group: usize,
    s: (f64, f64),
    t: (f64, f64),
}

impl Side {
    fn is_slanted(&self) -> bool {
        (self.t.0 - self.t.1).abs() > EPS
    }

    fn t_at(&self, s: f64) -> f64 {
        let run = self.s.1 - self.s.0;
        self.t.0 + (self.t.1 - self.t.0) * ((s - self.s.0) / run)
    }
}

/// A region in a field's own view, less what later fields and openings take.
pub(super) struct Cover {
    sides: Vec<Side>,
    groups: usize,
    /// Sides that run along the joists.
    edges: Vec<f64>,
    /// Where joist lines or slabs must break.
    stops: Vec<f64>,
    /// The numbers of the sides that pass between two stops: before the first of them, then after each.
    bands: Vec<Vec<usize>>,
    range: Option<(f64, f64)>,
}

/// Width of a strip over a run of `t`, changing evenly from `start` to `end`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ramp {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) start: f64,
    pub(super) end: f64,
}

impl Ramp {
    fn at(&self, t: f64) -> f64 {
        self.start + (self.end - self.start) * ((t - self.from) / (self.to - self.from))
    }

    #[cfg(test)]
    fn area(&self) -> f64 {
        (self.start + self.end) / 2.0 * (self.to - self.from)
    }
}

/// One unbroken length of a joist with the deck that is its own.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Length {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) ramps: Vec<Ramp>,
    /// Width of strip that reaches the region's own edge at its near and far end: what an overhang goes on with.
    pub(super) ends: (f64, f64),
    /// Where its strip lies across the joists.
    pub(super) across: (f64, f64),
    /// Where it lies itself: on its line, or amid its strip where the deck comes to a point on the line.
    pub(super) s: f64,
}

/// A joist line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Line {
    pub(super) s: f64,
    /// The strip that is its own.
    pub(super) lo: f64,
    pub(super) hi: f64,
    pub(super) trimmer: bool,
}

/// A trapezoid of deck: where it lies across the joists, and where it begins and ends along them at its two sides.
struct Slab {
    s: (f64, f64),
    near: (f64, f64),
    far: (f64, f64),
    /// Whether it ends there at the region's own edge, and not where something is taken out.
    own: (bool, bool),
}

impl Slab {
    fn from(&self) -> f64 {
        self.near.0.min(self.near.1)
    }

    fn to(&self) -> f64 {
        self.far.0.max(self.far.1)
    }

    fn area(&self) -> f64 {
        (self.s.1 - self.s.0) * ((self.far.0 - self.near.0) + (self.far.1 - self.near.1)) / 2.0
    }

    /// How much of a line along the joists lies in it.
    fn on_line(&self, s: f64) -> f64 {
        if s < self.s.0 - EPS || s > self.s.1 + EPS {
            return 0.0;
        }
        let share = ((s - self.s.0) / (self.s.1 - self.s.0)).clamp(0.0, 1.0);
        let at = |side: (f64, f64)| side.0 + (side.1 - side.0) * share;
        at(self.far) - at(self.near)
    }
}

impl Length {
    /// The joist on line `s` that carries some slabs which touch.
    fn of(slabs: &[Slab], s: f64) -> Self {
        let least = |of: &dyn Fn(&Slab) -> f64| slabs.iter().map(of).fold(f64::INFINITY, f64::min);
        let most = |of: &dyn Fn(&Slab) -> f64| slabs.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
        let (from, to) = (least(&Slab::from), most(&Slab::to));
        let across = (least(&|it| it.s.0), most(&|it| it.s.1));
        let mut ramps = Vec::with_capacity(1);
        for slab in slabs {
            for ramp in profile(slab.s.1 - slab.s.0, slab.near, slab.far) {
                add_ramp(&mut ramps, ramp);
            }
        }
        let width =
            |of: &dyn Fn(&Slab) -> bool| slabs.iter().filter(|it| of(it)).map(|it| it.s.1 - it.s.0).sum::<f64>();
        let ends = (width(&|it| it.own.0), width(&|it| it.own.1));
        let s = if most(&|it| it.on_line(s)) >= HALF * (to - from) {
            s
        } else {
            let area: f64 = slabs.iter().map(Slab::area).sum();
            let middles: f64 = slabs.iter().map(|it| it.area() * (it.s.0 + it.s.1) / 2.0).sum();
            if area > EPS * EPS { middles / area } else { (across.0 + across.1) / 2.0 }
        };
        Self { from, to, ramps, ends, across, s }
    }
}

impl Cover {
    /// A region less all that is taken out of it.
    pub(super) fn new(frame: &Frame, region: &[Vec<Point>], taken: &[Vec<Point>]) -> Self {
        let spots = |all: &[Vec<Point>]| -> Vec<Vec<Spot>> {
            all.iter().map(|corners| corners.iter().copied().map(Spot::from).collect()).collect()
        };
        Self::of(frame, &spots(region), &spots(taken))
    }

    /// The same from corners that need not lie on whole ticks.
    pub(super) fn of(frame: &Frame, region: &[Vec<Spot>], taken: &[Vec<Spot>]) -> Self {
        let (mut sides, mut edges) = (Vec::new(), Vec::new());
        let local = |polygon: &Vec<Spot>| -> Vec<(f64, f64)> {
            let corners = polygon.iter().map(|corner| frame.local(*corner));
            corners.map(|(t, s)| (t.0, s.0)).collect()
        };
        let groups = region.iter().map(|polygon| (0, polygon)).chain(taken.iter().enumerate().map(|(i, p)| (i + 1, p)));
        // What is taken out somewhere else along the joists takes nothing; its corners stop slabs all the same.
        let reach = Extent::around(region.iter().flat_map(local)).grown(BESIDE);
        let mut away: Vec<bool> = Vec::with_capacity(taken.len() + 1);
        for (group, polygon) in groups {
            let corners = local(polygon);
            away.push(group > 0 && !Extent::around(corners.iter().copied()).meets(&reach));
            for (a, b) in corners.iter().zip(corners.iter().cycle().skip(1)) {
                if (a.1 - b.1).abs() > EPS {
                    sides.push(Side { group, s: (a.1, b.1), t: (a.0, b.0) });
                } else {
                    edges.push((a.1 + b.1) / 2.0);
                }
            }
        }
        let own = || sides.iter().filter(|side| side.group == 0).flat_map(|side| [side.s.0, side.s.1]);
        let range = own().next().map(|first| (own().fold(first, f64::min), own().fold(first, f64::max)));
        let mut stops: Vec<f64> = sides.iter().flat_map(|side| [side.s.0, side.s.1]).collect();
        // Slanted sides may cross others between their ends.
        if sides.iter().any(Side::is_slanted) {
            for (i, a) in sides.iter().enumerate() {
                for b in sides.iter().skip(i + 1) {
                    if a.is_slanted() || b.is_slanted() {
                        stops.extend(crossing(a, b));
                    }
                }
            }
        }
        stops.order_by(f64::total_cmp);
        // Corners a hair apart stay apart: whatever is between them is somebody's, in the whole and in its strips.
        stops.dedup_by(|b, a| (*b - *a).abs() < ROUNDING);
        sides.retain(|side| away.get(side.group) != Some(&true));
        let bands = bands(&sides, &stops);
        let mut cover = Self { sides, groups: taken.len() + 1, edges: Vec::new(), stops, bands, range };
        if let (Some((lo, hi)), false) = (range, taken.is_empty()) {
            // What later fields take at an edge is not reached any more.
            let mut reached: Option<(f64, f64)> = None;
            cover.slabs(lo, hi, |slab| {
                reached = Some(reached.map_or(slab.s, |it| (it.0.min(slab.s.0), it.1.max(slab.s.1))));
            });
            cover.range = reached;
        }
        edges.order_by(f64::total_cmp);
        edges.dedup_by(|b, a| (*b - *a).abs() < EPS);
        edges.retain(|s| cover.ends_at(*s));
        cover.edges = edges;
        cover
    }

    /// Whether some of it ends at a line along the joists, inside its range.
    fn ends_at(&self, s: f64) -> bool {
        let Some((lo, hi)) = self.range.filter(|(lo, hi)| s > lo + EPS && s < hi - EPS) else { return false };
        let kept = |lo: f64, hi: f64| {
            let mut kept: Vec<(f64, f64)> = Vec::new();
            self.slabs(lo, hi, |it| kept.push(((it.near.0 + it.near.1) / 2.0, (it.far.0 + it.far.1) / 2.0)));
            kept
        };
        let (before, after) = (kept((s - BESIDE).max(lo), s), kept(s, (s + BESIDE).min(hi)));
        let alike = |(a, b): (&(f64, f64), &(f64, f64))| (a.0 - b.0).abs() < TOUCH && (a.1 - b.1).abs() < TOUCH;
        before.len() != after.len() || !before.iter().zip(&after).all(alike)
    }

    /// Lines along the joists, inside its range, at which some of it ends: a joist lies at each.
    pub(super) fn edges(&self) -> &[f64] {
        &self.edges
    }

    /// How far it reaches across the joists.
    pub(super) fn range(&self) -> Option<(f64, f64)> {
        self.range
    }

    /// Calls `found` with each trapezoid of the part between two lines: where it lies across the joists, and its near and
    /// far side there.
    fn slabs(&self, lo: f64, hi: f64, mut found: impl FnMut(Slab)) {
        let first = self.stops.partition_point(|stop| *stop <= lo + ROUNDING);
        let inner = self.stops.iter().copied().skip(first).take_while(|stop| *stop < hi - ROUNDING);
        let mut inside = vec![false; self.groups];
        let mut across: Vec<(f64, &Side)> = Vec::new();
        let mut from = lo;
        for to in inner.chain([hi]) {
            let middle = (from + to) / 2.0;
            let band = self.bands.get(self.stops.partition_point(|stop| *stop <= middle));
            across.clear();
            across.extend(
                band.into_iter()
                    .flatten()
                    .filter_map(|i| self.sides.get(*i))
                    .filter(|side| side.s.0.min(side.s.1) < middle && side.s.0.max(side.s.1) > middle)
                    .map(|side| (side.t_at(middle), side)),
            );
            across.order_by(|a, b| a.0.total_cmp(&b.0).then(a.1.group.cmp(&b.1.group)));
            // How many of what is taken out the place is in.
            let mut taken = 0_usize;
            for pair in across.windows(2) {
                let [(t, near), (next, far)] = pair else { continue };
                if let Some(within) = inside.get_mut(near.group) {
                    *within = !*within;
                    match (near.group, *within) {
                        (0, _) => {}
                        (_, true) => taken += 1,
                        (_, false) => taken -= 1,
                    }
                }
                let kept = inside.first() == Some(&true) && taken == 0;
                if kept && next - t > EPS {
                    // Where something else begins at the same place, no edge is open.
                    let open = |t: f64| across.iter().all(|it| it.1.group == 0 || (it.0 - t).abs() > EPS);
                    found(Slab {
                        s: (from, to),
                        near: (near.t_at(from), near.t_at(to)),
                        far: (far.t_at(from), far.t_at(to)),
                        own: (open(*t), open(*next)),
                    });
                }
            }
            for (_, side) in &across {
                if let Some(within) = inside.get_mut(side.group) {
                    *within = false;
                }
            }
            from = to;
        }
    }

    /// Its area in square feet.
    pub(super) fn area(&self) -> f64 {
        let mut area = 0.0;
        if let Some((lo, hi)) = self.range {
            self.slabs(lo, hi, |slab| area += slab.area());
        }
        area
    }

    /// Its area between two lines across the joists.
    pub(super) fn area_between(&self, from: f64, to: f64) -> f64 {
        let mut area = 0.0;
        if let Some((lo, hi)) = self.range {
            self.slabs(lo, hi, |slab| {
                for ramp in profile(slab.s.1 - slab.s.0, slab.near, slab.far) {
                    let (a, b) = (ramp.from.max(from), ramp.to.min(to));
                    if b > a {
                        area += (ramp.at(a) + ramp.at(b)) / 2.0 * (b - a);
                    }
                }
            });
        }
        area
    }

    /// Its extent along the joists.
    pub(super) fn reach(&self) -> Option<(f64, f64)> {
        let own = || self.sides.iter().filter(|side| side.group == 0).flat_map(|side| [side.t.0, side.t.1]);
        own().next().map(|first| (own().fold(first, f64::min), own().fold(first, f64::max)))
    }

    /// The corners of the box around it, in its frame.
    pub(super) fn corners(&self, frame: &Frame) -> Option<[Spot; 4]> {
        let ((near, far), (lo, hi)) = (self.reach()?, self.range?);
        Some([(near, lo), (far, lo), (far, hi), (near, hi)].map(|(t, s)| frame.spot(Feet(t), Feet(s))))
    }

    /// How much of its extent across the joists ends at its own edge, at the near and at the far ends of the joists: what
    /// an overhang runs along.
    pub(super) fn ends(&self) -> (f64, f64) {
        let mut ends = (0.0, 0.0);
        if let Some((lo, hi)) = self.range {
            self.slabs(lo, hi, |slab| {
                let width = slab.s.1 - slab.s.0;
                ends.0 += if slab.own.0 { width } else { 0.0 };
                ends.1 += if slab.own.1 { width } else { 0.0 };
            });
        }
        ends
    }

    /// The unbroken lengths of one joist line with the deck that is theirs.
    pub(super) fn lengths(&self, line: &Line) -> Vec<Length> {
        let mut slabs: Vec<Slab> = Vec::new();
        self.slabs(line.lo, line.hi, |slab| slabs.push(slab));
        slabs.order_by(|a, b| a.from().total_cmp(&b.from()).then(a.to().total_cmp(&b.to())));
        let mut lengths: Vec<Length> = Vec::new();
        let mut rest = slabs.as_slice();
        while let Some(first) = rest.first() {
            let (mut to, mut count) = (first.to(), 0);
            while let Some(slab) = rest.get(count).filter(|slab| slab.from() <= to + EPS) {
                to = to.max(slab.to());
                count += 1;
            }
            let (own, others) = rest.split_at_checked(count).unwrap_or((rest, &[]));
            lengths.push(Length::of(own, line.s));
            rest = others;
        }
        lengths
    }
}

/// The numbers of the sides in each band between two stops, in order.
fn bands(sides: &[Side], stops: &[f64]) -> Vec<Vec<usize>> {
    let mut bands = vec![Vec::new(); stops.len() + 1];
    for (i, side) in sides.iter().enumerate() {
        let band = |s: f64| stops.partition_point(|stop| *stop <= s);
        let (first, last) = (band(side.s.0.min(side.s.1)), band(side.s.0.max(side.s.1)));
        for band in bands.get_mut(first..=last).unwrap_or_default() {
            band.push(i);
        }
    }
    bands
}

fn crossing(a: &Side, b: &Side) -> Option<f64> {
    let slope = |side: &Side| (side.t.1 - side.t.0) / (side.s.1 - side.s.0);
    let difference = slope(a) - slope(b);
    if difference.abs() < EPS {
        return None;
    }
    let s = a.s.0 + (b.t_at(a.s.0) - a.t.0) / difference;
    let within = |side: &Side| s > side.s.0.min(side.s.1) && s < side.s.0.max(side.s.1);
    (within(a) && within(b)).then_some(s)
}

/// The width of a trapezoid along `t`: it grows over the near side and shrinks over the far one.
fn profile(width: f64, near: (f64, f64), far: (f64, f64)) -> Vec<Ramp> {
    let share = |side: (f64, f64), t: f64, after: f64| {
        let (lo, hi) = (side.0.min(side.1), side.0.max(side.1));
        if hi - lo < ROUNDING { f64::from(u8::from(after >= hi)) } else { ((t - lo) / (hi - lo)).clamp(0.0, 1.0) }
    };
    let mut stops = [near.0, near.1, far.0, far.1];
    stops.order_by(f64::total_cmp);
    let mut ramps = Vec::with_capacity(1);
    for pair in stops.windows(2) {
        let [from, to] = *pair else { continue };
        if to - from > ROUNDING {
            // Within a run both shares change evenly; a square side is passed either before it or after it.
            let middle = (from + to) / 2.0;
            let at = |t: f64| width * (share(near, t, middle) - share(far, t, middle));
            ramps.push(Ramp { from, to, start: at(from), end: at(to) });
        }
    }
    ramps
}

fn add_ramp(ramps: &mut Vec<Ramp>, ramp: Ramp) {
    let same = ramps.iter_mut().find(|it| (it.from - ramp.from).abs() < EPS && (it.to - ramp.to).abs() < EPS);
    match same {
        Some(it) => {
            it.start += ramp.start;
            it.end += ramp.end;
        }
        None => ramps.push(ramp),
    }
}

/// Why a joist lies where it does; of two that would touch, the one of the stronger reason is laid.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Reason {
    Spacing,
    Edge,
    Trimmer,
}

/// Joist lines over a range: one at each end of it and at each edge inside, one at each trimmer, the others at the
/// spacing. Nobody knows from which end the tape started, so a rest is shared by the two end bays, and a mirrored house
/// gets the mirrored joists.
pub(super) fn lines(range: (f64, f64), spacing: f64, edges: &[f64], trimmers: &[f64]) -> Vec<Line> {
    let (lo, hi) = range;
    let bays = ((hi - lo) / spacing + EPS).floor();
    let rest = (hi - lo) - bays * spacing;
    let (first, inner) =
        if rest < NO_BAY { (spacing + rest / 2.0, bays - 1.0) } else { ((spacing + rest) / 2.0, bays) };
    let mut at: Vec<(f64, Reason)> = vec![(lo, Reason::Edge), (hi, Reason::Edge)];
    let edges = edges.iter().map(|s| (*s, Reason::Edge)).chain(trimmers.iter().map(|s| (*s, Reason::Trimmer)));
    at.extend(edges.filter(|(s, _)| *s >= lo - EPS && *s <= hi + EPS).map(|(s, reason)| (s.clamp(lo, hi), reason)));
    let mut count = 0.0;
    while count < inner {
        at.push((lo + first + count * spacing, Reason::Spacing));
        count += 1.0;
    }
    let mut firm: Vec<(f64, Reason)> = at.iter().filter(|it| it.1 > Reason::Spacing).copied().collect();
    firm.order_by(|a, b| a.0.total_cmp(&b.0));
    at.retain(|(s, reason)| {
        let beside = firm.get(firm.partition_point(|(other, _)| *other < s - 2.0 * TOUCH)..).unwrap_or_default();
        let mut beside = beside.iter().take_while(|(other, _)| *other < s + 2.0 * TOUCH);
        beside.all(|(other, its)| its <= reason || (s - other).abs() > TOUCH + EPS)
    });
    at.order_by(|a, b| a.0.total_cmp(&b.0));
    at.dedup_by(|b, a| (b.0 - a.0).abs() < EPS);
    // An edge joist that gave way to a trimmer leaves its strip to it.
    let places: Vec<f64> = at.iter().map(|(s, _)| *s).collect();
    at.iter()
        .enumerate()
        .map(|(i, (s, reason))| {
            let before = i.checked_sub(1).and_then(|j| places.get(j));
            let after = places.get(i + 1);
            Line {
                s: *s,
                lo: before.map_or(lo, |b| (b + s) / 2.0),
                hi: after.map_or(hi, |a| (a + s) / 2.0),
                trimmer: *reason == Reason::Trimmer,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::Way;

    fn feet(corners: &[(i32, i32)]) -> Vec<Point> {
        corners.iter().map(|&(x, y)| Point::feet(x, y)).collect()
    }

    #[test]
    fn joists_at_16_in_over_40_ft_are_31_and_those_over_41_ft_start_alike_at_both_ends() {
        assert_eq!(lines((0.0, 40.0), 16.0 / 12.0, &[], &[]).len(), 31);
        let odd = lines((0.0, 41.0), 16.0 / 12.0, &[], &[]);
        let (first, last) = (odd[1].s - odd[0].s, odd[odd.len() - 1].s - odd[odd.len() - 2].s);
        assert!((first - last).abs() < 1e-9 && first <= 16.0 / 12.0 + 1e-9 && first > 8.0 / 12.0);
        assert!(odd.windows(2).all(|pair| (pair[0].hi - pair[1].lo).abs() < 1e-12));
    }

    #[test]
    fn a_rest_of_an_eighth_of_an_inch_is_no_bay_and_one_of_a_quarter_halves_the_end_bays() {
        let bays = |rest_in: f64| {
            let laid = lines((0.0, 8.0 + rest_in / 12.0), 16.0 / 12.0, &[], &[]);
            laid.windows(2).map(|pair| (pair[1].s - pair[0].s) * 12.0).collect::<Vec<f64>>()
        };
        let near = |got: f64, want_in: f64| assert!((got - want_in).abs() < 1e-9, "{got} in, by hand {want_in}");
        // Six bays of 16 in, the two at the ends 1/16 in wider.
        let eighth = bays(0.125);
        assert_eq!(eighth.len(), 6);
        near(eighth[0], 16.0625);
        near(eighth[5], 16.0625);
        // Five of 16 in, and at each end half of what is left: (16 + 1/4) / 2.
        let quarter = bays(0.25);
        assert_eq!(quarter.len(), 7);
        near(quarter[0], 8.125);
        near(quarter[6], 8.125);
    }

    #[test]
    fn strips_have_the_area_of_the_outline_in_square_feet_also_with_slanted_sides() {
        let house = feet(&[(0, 0), (36, 0), (41, 14), (24, 14), (20, 24), (0, 24)]);
        let stair = feet(&[(10, 8), (13, 8), (13, 16), (10, 16)]);
        let later = feet(&[(20, 0), (36, 0), (30, 9), (20, 12)]);
        for way in [Way::X, Way::Y, Way::new(3, 1)] {
            let frame = Frame::of(way);
            let cover = Cover::new(&frame, std::slice::from_ref(&house), &[]);
            let whole = crate::geometry::area(&house).0;
            assert!((cover.area() - whole).abs() < 1e-9, "{} {whole}", cover.area());
            let cover = Cover::new(&frame, std::slice::from_ref(&house), &[stair.clone(), later.clone()]);
            let less = whole - crate::geometry::area(&stair).0 - crate::geometry::area(&later).0;
            assert!((cover.area() - less).abs() < 1e-9, "{} {less}", cover.area());
            let range = cover.range().unwrap();
            let strips: f64 = lines(range, 16.0 / 12.0, cover.edges(), &[])
                .iter()
                .flat_map(|line| cover.lengths(line))
                .flat_map(|length| length.ramps)
                .map(|ramp| ramp.area())
                .sum();
            assert!((strips - less).abs() < 1e-9, "{strips} {less}");
        }
    }

    #[test]
    fn a_stair_cuts_the_joists_in_it_and_leaves_the_trimmers_whole() {
        let deck = feet(&[(0, 0), (20, 0), (20, 14), (0, 14)]);
        let stair = feet(&[(8, 4), (12, 4), (12, 10), (8, 10)]);
        let cover = Cover::new(&Frame::of(Way::Y), &[deck], &[stair]);
        let laid = lines(cover.range().unwrap(), 16.0 / 12.0, cover.edges(), &[-8.0, -12.0]);
        let lengths: Vec<usize> = laid.iter().map(|line| cover.lengths(line).len()).collect();
        assert_eq!(lengths.iter().filter(|n| **n == 2).count(), 2, "{lengths:?}");
        assert!(laid.iter().filter(|line| line.trimmer).all(|line| cover.lengths(line).len() == 1));
    }
}
