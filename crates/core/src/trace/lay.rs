//! The joists of one field as laid, before they are solved: their lines, seats, beds, and what stands on them.

use super::around::extent;
use super::bar::{Bearer, Bed, Burden, Meet, Seat, times};
use super::deck::spread;
use super::near::Extent;
use super::seats::{Seats, Use};
use super::storey::Storey;
use super::strips::{Cover, EPS, Length, Line, lines};
use super::{HeldBy, Node, Origin};
use crate::geometry::{self, Frame, Spot};
use crate::ids::{FieldId, FloorOpeningId};
use crate::loads::{AreaLoads, LineLoads, Weights, live};
use crate::order::InOrder as _;
use crate::plan::{FloorOpening, Joints, JoistField, Point, Use as DeckUse};
use crate::reach;
use crate::statics::Load;
use crate::units::{Feet, Pounds};

/// How far beyond a joist's end something may stand and still stand on it, in feet.
const ON_END: f64 = 0.5 + EPS;
/// An end this near a place is at it, in feet.
pub(super) const HAIR: f64 = 0.01 + EPS;
/// How far off a joist's line something still stands on it alone, in feet.
const ON_LINE: f64 = 10.0 * EPS;
/// A post this near a wall or beam under a trimmer stands under that, in feet.
const POST_TAKES: f64 = 0.25 + EPS;
/// What is further than this from a field has nothing to do with it, in feet.
const BESIDE: f64 = 1.0;
/// An end with a seat this near does not hang on a header, in feet.
const HELD: f64 = 0.35 + EPS;

/// One unbroken joist.
pub(super) struct Joist {
    pub(super) line: Line,
    pub(super) length: Length,
    pub(super) seats: Vec<Seat>,
    pub(super) beds: Vec<Bed>,
    pub(super) burdens: Vec<Burden>,
}

/// A header at one end of an opening: `t` is its line, `lo` and `hi` the trimmers'.
pub(super) struct Header {
    pub(super) opening: FloorOpeningId,
    pub(super) t: f64,
    pub(super) lo: f64,
    pub(super) hi: f64,
    /// What its tail joists bring, by their line.
    pub(super) points: Vec<(f64, Weights)>,
    /// Half of the longest tail.
    pub(super) half: f64,
    /// Whether it has handed on what it holds.
    pub(super) done: bool,
}

impl Header {
    /// Whether it frames into a joist with one of its ends.
    pub(super) fn ends_on(&self, joist: &Joist, s: f64) -> bool {
        let (on_line, length) = ((joist.line.s - s).abs() < HAIR, &joist.length);
        on_line && length.from <= self.t + EPS && length.to >= self.t - EPS
    }
}

impl Joist {
    /// The headers it hangs on.
    pub(super) fn hangs_on(&self) -> impl Iterator<Item = usize> {
        self.seats.iter().filter_map(|seat| if let Bearer::Header(number) = seat.on { Some(number) } else { None })
    }
}

/// A field in work.
pub(super) struct FieldWork {
    pub(super) id: FieldId,
    pub(super) frame: Frame,
    pub(super) cover: Cover,
    pub(super) seats: Seats,
    pub(super) joists: Vec<Joist>,
    pub(super) headers: Vec<Header>,
    pub(super) psf: AreaLoads,
    pub(super) origin: Origin,
    pub(super) joints: Joints,
    /// The longest span of any table for such joists.
    pub(super) reach: Feet,
    /// Lines in order, each with the numbers of its first joist and the one after its last.
    lines: Vec<(f64, usize, usize)>,
    /// Where joists begin and end, each place once.
    ends: Vec<f64>,
    /// The box on the plan in which it has joists, and a margin.
    pub(super) within: Extent,
}

/// The area load of a field by kind.
pub(super) fn area_loads(field: &JoistField) -> AreaLoads {
    let mut psf = AreaLoads { dead: field.weighs(), ..AreaLoads::default() };
    let people = live(field.used_as).value;
    match field.used_as {
        DeckUse::AtticStorage | DeckUse::AtticBare => psf.attic = people,
        _ => psf.floor = people,
    }
    psf
}

impl FieldWork {
    /// Lays one field of the level; none if it covers nothing.
    pub(super) fn lay(storey: &Storey<'_>, number: usize) -> Option<Self> {
        let level = storey.level;
        let field = level.fields.get(number)?;
        let frame = Frame::of(field.along);
        let around = storey.around;
        let region = around.polygons(&field.region);
        let own = band(&frame, region.iter().flatten().copied().map(Spot::from));
        // What is past its first and last line, by the box around it, takes nothing from it and puts no trimmer into it.
        let over = |all: &Extent| {
            let its = band(&frame, all.corners().map(|(x, y)| Spot { x: Feet(x), y: Feet(y) }));
            its.0 <= own.1 + BESIDE && its.1 >= own.0 - BESIDE
        };
        let later = around.all_fields().skip(number + 1).filter(|(_, all)| over(all));
        let later = later.flat_map(|(later, _)| around.polygons(&later.region));
        let openings: Vec<&FloorOpening> = around.openings().filter(|(_, all)| over(all)).map(|it| it.0).collect();
        let taken: Vec<Vec<Point>> = later.chain(openings.iter().map(|it| &it.corners)).cloned().collect();
        let cover = Cover::new(&frame, region, &taken);
        let range = cover.range()?;
        let reach = cover.reach()?;
        let within = extent(cover.corners(&frame)?);
        let seats = Seats::of(storey.around, &frame, Use::Joists, &within).by_place();
        let (mut trimmers, mut headers) = (Vec::new(), Vec::new());
        for opening in openings {
            let local = opening.corners.iter().map(|corner| frame.local(Spot::from(*corner)));
            let (mut t, mut s) = ((f64::INFINITY, f64::NEG_INFINITY), (f64::INFINITY, f64::NEG_INFINITY));
            for (along, across) in local {
                t = (t.0.min(along.0), t.1.max(along.0));
                s = (s.0.min(across.0), s.1.max(across.0));
            }
            // In line with the field but off it, it cuts none of its joists.
            let near = (reach.0 - BESIDE + EPS, reach.1 + BESIDE - EPS);
            if t.1 > near.0 && t.0 < near.1 && s.1 > range.0 + EPS && s.0 < range.1 - EPS {
                trimmers.extend([s.0, s.1]);
            }
            for t in [t.0, t.1] {
                let (opening, lo, hi) = (opening.id, s.0.max(range.0), s.1.min(range.1));
                // One off the field has no joist to hold.
                if lo < hi && t > near.0 && t < near.1 {
                    headers.push(Header { opening, t, lo, hi, points: Vec::new(), half: 0.0, done: false });
                }
            }
        }
        let psf = area_loads(field);
        let origin = if field.used_as.is_ceiling() { Origin::Ceiling } else { Origin::Floor };
        let (id, joints) = (field.id, field.joints);
        let reach = reach::longest(field.member, field.spacing, field.used_as).unwrap_or(reach::LONGEST_PRINTED);
        let within = within.grown(BESIDE);
        let (joists, lines_of, ends) = (Vec::new(), Vec::new(), Vec::new());
        let mut work = Self {
            id,
            frame,
            cover,
            seats,
            joists,
            headers,
            psf,
            origin,
            joints,
            reach,
            lines: lines_of,
            ends,
            within,
        };
        let spacing = field.spacing.feet().0;
        for line in lines(range, spacing, work.cover.edges(), &trimmers) {
            let first = work.joists.len();
            for length in work.cover.lengths(&line) {
                let joist = work.seat(line, length);
                work.joists.push(joist);
            }
            work.lines.push((line.s, first, work.joists.len()));
        }
        work.ends.extend(work.joists.iter().flat_map(|joist| [joist.length.from, joist.length.to]));
        work.ends.order_by(f64::total_cmp);
        work.ends.dedup_by(|b, a| a.total_cmp(b).is_eq());
        Some(work)
    }

    fn seat(&self, line: Line, length: Length) -> Joist {
        let (from, to) = (length.from, length.to);
        let mut seats = self.seats.crossed(length.s, from, to);
        if line.trimmer {
            // What stands on the post comes before it: a girder keeps its seat, and the joists their lap over it.
            for post in self.seats.posts_under(length.s, from, to) {
                if seats.iter().all(|seat| (seat.at - post.at).abs() > POST_TAKES) {
                    seats.push(Seat { meet: Meet::Never, ..post });
                }
            }
        }
        // An end at an opening, with nothing under it, hangs on the header there.
        for (number, header) in self.headers.iter().enumerate() {
            let inside = length.s > header.lo + EPS && length.s < header.hi - EPS;
            let ends_there = (header.t - from).abs() < HAIR || (header.t - to).abs() < HAIR;
            let at = header.t.clamp(from, to);
            if inside && ends_there && seats.iter().all(|seat| (seat.at - at).abs() > HELD) {
                seats.push(Seat { at, on: Bearer::Header(number), along: 0.0, meet: Meet::Always });
            }
        }
        let beds = self.seats.along(length.s, from, to);
        if line.trimmer {
            self.leave_to_trimmer(&mut seats, beds.len(), line.s);
        }
        seats.order_by(|a, b| a.at.total_cmp(&b.at));
        seats.retain(|seat| beds.iter().all(|bed| seat.at < bed.from - EPS || seat.at > bed.to + EPS));
        Joist { line, length, seats, beds, burdens: Vec::new() }
    }

    /// What a header brings to its end, the trimmer takes, and not a partition that ends there: it stands beside the opening, and
    /// the trimmer would be there without it. Where the trimmer would not, the partition holds it.
    fn leave_to_trimmer(&self, seats: &mut Vec<Seat>, beds: usize, s: f64) {
        let headers = || self.headers.iter().filter(|it| [it.lo, it.hi].into_iter().any(|end| (end - s).abs() < HAIR));
        let beside = |seat: &Seat| {
            self.seats.ends_there(seat.on, seat.along) && headers().any(|it| (it.t - seat.at).abs() <= HELD)
        };
        let left = seats.iter().filter(|seat| !beside(seat)).count();
        if left + beds >= 2 {
            seats.retain(|seat| !beside(seat));
        }
    }

    /// The joist of a line that is there at `t`, or the nearest within reach; the longer of two that are as near.
    fn joist_at(&self, line: usize, t: f64, reach: f64) -> Option<usize> {
        let (_, first, end) = *self.lines.get(line)?;
        let joists = self.joists.get(first..end)?.iter();
        let off = |it: &Joist| (it.length.from - t).max(t - it.length.to).max(0.0);
        let mut nearest: Option<(usize, f64, f64)> = None;
        for (i, joist) in joists.enumerate() {
            let (off, long) = (off(joist), joist.length.to - joist.length.from);
            let nearer = nearest.is_none_or(|(_, known, its)| off < known - EPS || (off < known + EPS && long > its));
            if off <= reach && nearer {
                nearest = Some((first + i, off, long));
            }
        }
        nearest.map(|it| it.0)
    }

    /// The two joists beside a place, each with its share by the lever rule; one alone takes all.
    fn beside(&self, t: f64, s: f64, reach: f64) -> Vec<(usize, f64)> {
        let right = self.lines.partition_point(|(line, ..)| *line < s - ON_LINE);
        let at = |line: usize| self.lines.get(line).map(|it| it.0);
        let beyond = at(right).map_or(right, |line| right + usize::from(line <= s + ON_LINE));
        if beyond > right
            && let Some(joist) = self.joist_at(right, t, reach)
        {
            return vec![(joist, 1.0)];
        }
        let mut pair: Vec<(usize, f64)> = Vec::with_capacity(2);
        match (right.checked_sub(1).and_then(|it| Some((it, at(it)?))), at(beyond)) {
            (Some((before, lo)), Some(hi)) => {
                let share = ((s - lo) / (hi - lo)).clamp(0.0, 1.0);
                pair.extend([(before, 1.0 - share), (beyond, share)]);
            }
            (Some((before, lo)), None) if s - lo <= ON_END => pair.push((before, 1.0)),
            (None, Some(hi)) if hi - s <= ON_END => pair.push((beyond, 1.0)),
            _ => {}
        }
        let there: Vec<(usize, f64)> =
            pair.into_iter().filter_map(|(line, share)| Some((self.joist_at(line, t, reach)?, share))).collect();
        match there.as_slice() {
            [(only, _)] => vec![(*only, 1.0)],
            _ => there,
        }
    }

    /// The joists that take a point load.
    pub(super) fn holding(&self, at: Spot) -> Vec<HeldBy> {
        let (t, s) = self.frame.local(at);
        let beside = self.beside(t.0, s.0, ON_END);
        let held = beside.into_iter().filter_map(|(joist, share)| {
            let length = &self.joists.get(joist)?.length;
            let spot = |t: f64| self.frame.spot(Feet(t), Feet(length.s));
            Some(HeldBy { field: self.id, a: spot(length.from), b: spot(length.to), share })
        });
        held.collect()
    }

    /// Puts a point load on the joists beside it; false if none is there.
    pub(super) fn put_point(&mut self, tag: Node, at: Spot, weights: Weights) -> bool {
        let (t, s) = self.frame.local(at);
        let beside = self.beside(t.0, s.0, ON_END);
        for (joist, share) in &beside {
            self.add_point(*joist, tag, t.0, weights * *share);
        }
        !beside.is_empty()
    }

    /// Puts what is too little to be lost on the nearest joist; false if none is near.
    pub(super) fn put_sliver(&mut self, tag: Node, at: Spot, weights: Weights) -> bool {
        let (t, s) = self.frame.local(at);
        let off = |joist: &Joist| {
            let past = (joist.length.from - t.0).max(t.0 - joist.length.to).max(0.0);
            past + (joist.length.s - s.0).abs()
        };
        let near = self.joists.iter().enumerate().map(|(i, joist)| (i, off(joist)));
        let nearest = near.filter(|it| it.1 <= 2.0 * BESIDE).min_by(|a, b| a.1.total_cmp(&b.1));
        if let Some((joist, _)) = nearest {
            self.add_point(joist, tag, t.0, weights);
        }
        nearest.is_some()
    }

    fn add_point(&mut self, joist: usize, tag: Node, t: f64, weights: Weights) {
        let Some(joist) = self.joists.get_mut(joist) else { return };
        let t = t.clamp(joist.length.from, joist.length.to);
        let pounds = times(&weights, |pounds| pounds.0);
        let same = joist.burdens.iter_mut().find(|burden| {
            let here = matches!(burden.shape.as_slice(), [Load::Point { at, .. }] if (at.0 - t).abs() < 1e-6);
            burden.tag == tag && here
        });
        match same {
            Some(burden) => burden.times += pounds,
            None => {
                let shape = vec![Load::Point { at: Feet(t), weight: Pounds(1.0) }];
                joist.burdens.push(Burden { tag, shape, times: pounds });
            }
        }
    }

    /// Puts a line load on the joists it crosses or runs along; gives back the runs where no joist is.
    pub(super) fn put_line(&mut self, tag: Node, run: (Spot, Spot), loads: LineLoads) -> Vec<(Spot, Spot)> {
        let local = |at: Spot| {
            let (t, s) = self.frame.local(at);
            (t.0, s.0)
        };
        let (a, b) = (local(run.0), local(run.1));
        let whole = geometry::apart(run.0, run.1).0;
        if whole < EPS {
            return Vec::new();
        }
        let spot =
            |share: f64| Spot { x: run.0.x + (run.1.x - run.0.x) * share, y: run.0.y + (run.1.y - run.0.y) * share };
        let mut stops = vec![0.0, 1.0];
        if (b.1 - a.1).abs() > EPS {
            let lines = between(&self.lines, |line| line.0, (a.1, b.1));
            stops.extend(lines.iter().map(|(s, ..)| (s - a.1) / (b.1 - a.1)));
        }
        if (b.0 - a.0).abs() > EPS {
            let ends = between(&self.ends, |end| *end, (a.0, b.0));
            stops.extend(ends.iter().map(|t| (t - a.0) / (b.0 - a.0)));
        }
        stops.retain(|stop| (0.0..=1.0).contains(stop));
        stops.order_by(f64::total_cmp);
        stops.dedup_by(|y, x| (*y - *x).abs() * whole < EPS);
        let mut left: Vec<(f64, f64)> = Vec::new();
        for pair in stops.windows(2) {
            let [from, to] = *pair else { continue };
            let at = |share: f64| (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
            let (t, s) = at((from + to) / 2.0);
            // Along an edge of the deck a line may be a hair outside.
            let beside = self.beside(t, s, HAIR);
            if beside.is_empty() {
                match left.last_mut() {
                    Some(last) if (last.1 - from).abs() < EPS => last.1 = to,
                    _ => left.push((from, to)),
                }
                continue;
            }
            let weights = loads * Feet((to - from) * whole);
            let (t0, t1) = (at(from).0.min(at(to).0), at(from).0.max(at(to).0));
            for (joist, share) in beside {
                if t1 - t0 < HAIR {
                    self.add_point(joist, tag, t, weights * share);
                } else {
                    self.add_run(joist, tag, (t0, t1), weights * share);
                }
            }
        }
        left.into_iter().map(|(from, to)| (spot(from), spot(to))).collect()
    }

    fn add_run(&mut self, number: usize, tag: Node, run: (f64, f64), weights: Weights) {
        let Some(joist) = self.joists.get_mut(number) else { return };
        let (from, to) = (run.0.max(joist.length.from), run.1.min(joist.length.to));
        let length = to - from;
        if length < EPS {
            // All of it is past the joist's end, by the hair that `put_line` allows: it stands on the end.
            return self.add_point(number, tag, run.0, weights);
        }
        joist.burdens.push(Burden {
            tag,
            shape: vec![spread(from, to, 1.0, 1.0)],
            times: times(&weights, |pounds| pounds.0 / length),
        });
    }
}

/// What of a sorted list lies between two places, whichever comes first, and a hair beyond.
fn between<T>(all: &[T], at: impl Fn(&T) -> f64, ends: (f64, f64)) -> &[T] {
    let first = all.partition_point(|it| at(it) < ends.0.min(ends.1) - HAIR);
    let after = all.partition_point(|it| at(it) <= ends.0.max(ends.1) + HAIR);
    all.get(first..after).unwrap_or_default()
}

/// Where some places lie across a frame: the first and the last.
fn band(frame: &Frame, places: impl IntoIterator<Item = Spot>) -> (f64, f64) {
    let across = places.into_iter().map(|at| frame.local(at).1.0);
    across.fold((f64::INFINITY, f64::NEG_INFINITY), |all, s| (all.0.min(s), all.1.max(s)))
}
