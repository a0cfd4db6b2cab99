//! Where the walls, beams and posts of one level lie, seen along a member: what it crosses and what it lies along.
//!
//! Every reach is a hair over the measure it is named for: what lies exactly there is within it, however the rounding
//! fell.

use super::around::Around;
use super::bar::{Bearer, Bed, Meet, Seat};
use super::near::{Extent, Near};
use super::strips::EPS;
use crate::geometry::{Frame, Spot};
use crate::order::InOrder as _;
use crate::plan::{Beam, Joints, Member, Post, Set, Side, Top, Wall};

/// How far beyond the end of a wall or beam a member still bears on it, in feet: half a joist's face.
const ACROSS: f64 = 0.75 / 12.0 + EPS;
/// Lines that differ by less than this sine are parallel (about 3 degrees).
pub(super) const PARALLEL: f64 = 0.05;
/// Two seats nearer than this along a member are one place, in feet.
const ONE_PLACE: f64 = 1.5 / 12.0 + EPS;
/// How far from the end of a beam the end of a wall in line with it may be and still hold it, in feet.
const IN_LINE_END: f64 = 0.35 + EPS;
/// How far off a member's line a post still stands under it, in feet: half a 6x6 and half a joist.
const POST_REACH: f64 = 3.5 / 12.0 + EPS;

/// Which of a level's bearers a member may use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Use {
    /// Joists: walls and beams.
    Joists,
    /// Rafters and trusses: outside walls and beams, the first and the last they meet.
    Roof,
}

/// Whether beams stay among the seats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Beams {
    Left,
    Only,
}

/// A wall or beam in a member's own view: `t` along, `s` across.
#[derive(Clone, Copy, Debug)]
struct Line {
    on: Bearer,
    a: (f64, f64),
    b: (f64, f64),
    length: f64,
    /// How far to the side it still holds a member that lies along it, and how far short of it a member may end.
    reach: f64,
    square: f64,
    meet: Meet,
    /// Whether a member right over it lies on it, and does not just pass beside.
    bed: bool,
    /// How far to the side of the line its body is.
    body: f64,
}

impl Line {
    /// Where a member may be that it has to do with.
    fn extent(&self) -> Extent {
        let (along, across) = (self.reach + 2.0 * EPS, self.reach.clamp(ACROSS, 0.5) + 2.0 * EPS);
        Extent::around([self.a, self.b]).stretched((along, across))
    }
}

/// The bearers of one level in one member's view.
#[derive(Clone, Debug)]
pub(super) struct Seats {
    /// In the order of bearers, each once.
    lines: Vec<Line>,
    posts: Vec<(Bearer, (f64, f64))>,
    /// Lines and posts by place, where many members ask.
    near: Option<(Near, Near)>,
}

/// How far to the side of its line a wall still has its body: an outside wall's line is its face, so all of it.
pub(super) fn reach_of(wall: &Wall) -> f64 {
    let thickness = wall.thickness.feet().0;
    if wall.side == Side::Outside { thickness } else { thickness / 2.0 }
}

/// How far off a beam's line joists still meet it, in feet: it is rarely over half a foot wide.
pub(super) const BEAM_REACH: f64 = 0.25;
/// Half of a post of which nobody saw the size, in feet: a 4x4.
const USUAL_POST: f64 = 1.75 / 12.0;

/// How far to the side of its line a beam has its body: half of its pieces side by side, or what is usual at the most.
pub(super) fn beam_reach(beam: &Beam) -> f64 {
    wide(&beam.member).map_or(BEAM_REACH, |wide| wide / 2.0)
}

/// Half of the narrower side of a post.
pub(super) fn half_of(post: &Post) -> f64 {
    wide(&post.member).map_or(USUAL_POST, |wide| wide.min(post.member.depth.feet().0) / 2.0)
}

/// All pieces of sawn lumber side by side, in feet; none of others, whose width no plan says.
fn wide(member: &Member) -> Option<f64> {
    member.width().map(|width| f64::from(member.plies) * width.feet().0)
}

/// The body of a wall above, as it stands on what is in line below.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Body {
    side: Side,
    thickness: f64,
}

impl Body {
    pub(super) fn of(wall: &Wall) -> Self {
        Self { side: wall.side, thickness: wall.thickness.feet().0 }
    }

    /// How far the two lines may be apart for the bodies to overlap. An outside wall's line is its outer face, and the
    /// faces of two outside walls look the same way.
    fn reach_over(&self, line: &Line) -> f64 {
        match (self.side, line.on) {
            (Side::Inside, _) => line.body + self.thickness / 2.0,
            (Side::Outside, Bearer::Wall(_)) if line.bed => line.body,
            (Side::Outside, _) => line.body + self.thickness,
        }
    }
}

impl Seats {
    /// All that members within a box of the plan could bear on.
    pub(super) fn of(around: &Around<'_>, frame: &Frame, used_for: Use, within: &Extent) -> Self {
        let mut lines = Vec::new();
        for (i, beam) in around.beams(within) {
            lines.extend(Self::beam(frame, i, beam));
        }
        for (i, wall) in around.walls(within) {
            let wanted = used_for == Use::Joists || wall.side == Side::Outside;
            if wanted && wall.top == Top::Tight {
                lines.extend(Self::wall(frame, i, wall, used_for));
            }
        }
        let posts = around.posts(within).map(|(i, post)| (Bearer::Post(i), Self::post(frame, post))).collect();
        Self { lines, posts, near: None }
    }

    /// Nothing yet.
    pub(super) const fn none() -> Self {
        Self { lines: Vec::new(), posts: Vec::new(), near: None }
    }

    /// The same, sorted by place: worth it where many members ask.
    pub(super) fn by_place(self) -> Self {
        let lines = Near::of(self.lines.iter().map(Line::extent));
        let posts = Near::of(self.posts.iter().map(|(_, at)| Extent::around([*at]).grown(POST_REACH + EPS)));
        Self { near: Some((lines, posts)), ..self }
    }

    /// Calls `found` with each line that a member may meet, or lie along.
    fn each(&self, s: f64, from: f64, to: f64, mut found: impl FnMut(&Line)) {
        match &self.near {
            Some((lines, _)) => lines.each(&Extent::around([(from, s), (to, s)]), |i| {
                self.lines.get(i).into_iter().for_each(&mut found);
            }),
            None => self.lines.iter().for_each(found),
        }
    }

    /// One more line that holds members: from one place to another, with a reach to its sides in feet.
    pub(super) fn add(&mut self, frame: &Frame, on: Bearer, ends: (Spot, Spot), reach: f64, meet: Meet) {
        if let Some(line) = Self::line(frame, on, ends) {
            let place = self.lines.partition_point(|known| known.on < on);
            self.lines.insert(place, Line { reach, meet, bed: false, body: reach, ..line });
            self.near = None;
        }
    }

    fn line(frame: &Frame, on: Bearer, ends: (Spot, Spot)) -> Option<Line> {
        let own = Frame::from_to(ends.0, ends.1)?;
        let local = |spot: Spot| {
            let (t, s) = frame.local(spot);
            (t.0, s.0)
        };
        let length = crate::geometry::apart(ends.0, ends.1).0;
        let square = frame.squareness(&own);
        Some(Line {
            on,
            a: local(ends.0),
            b: local(ends.1),
            length,
            reach: BEAM_REACH,
            square,
            meet: Meet::ByJoints,
            bed: true,
            body: BEAM_REACH,
        })
    }

    fn beam(frame: &Frame, i: usize, beam: &Beam) -> Option<Line> {
        let line = Self::line(frame, Bearer::Beam(i), (beam.a.into(), beam.b.into()))?;
        let meet = if beam.set == Set::Flush { Meet::Always } else { Meet::ByJoints };
        Some(Line { meet, body: beam_reach(beam), ..line })
    }

    fn wall(frame: &Frame, i: usize, wall: &Wall, used_for: Use) -> Option<Line> {
        let line = Self::line(frame, Bearer::Wall(i), (wall.a.into(), wall.b.into()))?;
        let meet = match (used_for, wall.joints) {
            (Use::Roof, _) | (_, Joints::NotSeen) => Meet::ByJoints,
            (Use::Joists, Joints::Lap) => Meet::Always,
            (Use::Joists, Joints::RunThrough) => Meet::Never,
        };
        let reach = reach_of(wall);
        Some(Line { reach, body: reach, bed: wall.side == Side::Outside, meet, ..line })
    }

    fn post(frame: &Frame, post: &Post) -> (f64, f64) {
        let (t, s) = frame.local(Spot::from(post.at));
        (t.0, s.0)
    }

    /// What a member on line `s` from `from` to `to` crosses, in order, each place once.
    pub(super) fn crossed(&self, s: f64, from: f64, to: f64) -> Vec<Seat> {
        let seats = self.all_crossed(s, from, to);
        // Over one place the beam is on top of the wall; from whichever end a member is read, the same one is kept.
        let mut kept: Vec<Seat> = Vec::with_capacity(seats.len());
        for seat in seats {
            if kept.iter().all(|other| (other.at - seat.at).abs() > ONE_PLACE) {
                kept.push(seat);
            }
        }
        kept.order_by(|a, b| a.at.total_cmp(&b.at));
        kept
    }

    /// All that holds a member at the place of a seat: a beam there, or every wall of a corner.
    pub(super) fn at_corner(&self, seat: &Seat, s: f64, from: f64, to: f64) -> Vec<Seat> {
        let mut here = self.all_crossed(s, from, to);
        here.retain(|it| (it.at - seat.at).abs() <= ONE_PLACE);
        if here.iter().any(|it| !matches!(it.on, Bearer::Wall(_))) {
            here.truncate(1);
        }
        here
    }

    /// What a member crosses, by bearer.
    fn all_crossed(&self, s: f64, from: f64, to: f64) -> Vec<Seat> {
        let mut seats: Vec<Seat> = Vec::with_capacity(4);
        self.each(s, from, to, |line| {
            let (lo, hi) = (line.a.1.min(line.b.1), line.a.1.max(line.b.1));
            if line.square <= PARALLEL || s < lo - ACROSS || s > hi + ACROSS {
                return;
            }
            let share = ((s - line.a.1) / (line.b.1 - line.a.1)).clamp(0.0, 1.0);
            let at = line.a.0 + (line.b.0 - line.a.0) * share;
            if at < from - line.reach - EPS || at > to + line.reach + EPS {
                return;
            }
            seats.push(Seat { at: at.clamp(from, to), on: line.on, along: share * line.length, meet: line.meet });
        });
        seats.order_by_key(|seat| seat.on);
        seats
    }

    /// The posts under a doubled member or a beam.
    pub(super) fn posts_under(&self, s: f64, from: f64, to: f64) -> Vec<Seat> {
        let under =
            |at: &(f64, f64)| (at.1 - s).abs() <= POST_REACH && at.0 >= from - POST_REACH && at.0 <= to + POST_REACH;
        let near = self.near.as_ref().map(|(_, posts)| posts.all(&Extent::around([(from, s), (to, s)])));
        let posts: Vec<&(Bearer, (f64, f64))> = match near {
            Some(near) => near.into_iter().filter_map(|i| self.posts.get(i)).collect(),
            None => self.posts.iter().collect(),
        };
        let posts = posts.into_iter().filter(|(_, at)| under(at));
        posts.map(|(on, at)| Seat { at: at.0.clamp(from, to), on: *on, along: 0.0, meet: Meet::ByJoints }).collect()
    }

    /// The runs over which a member on line `s` lies along an outside wall or a beam.
    pub(super) fn along(&self, s: f64, from: f64, to: f64) -> Vec<Bed> {
        self.runs(s, from, to, |line, off| line.bed && off <= line.reach.min(0.5) + EPS)
    }

    /// The runs over which something on line `s` stands over a wall or beam in line.
    pub(super) fn under(&self, s: f64, from: f64, to: f64) -> Vec<Bed> {
        self.runs(s, from, to, |line, off| off <= line.reach.min(0.5) + EPS)
    }

    /// The runs over which the body of a wall above, its line on `s`, stands over that of a wall or beam.
    pub(super) fn under_body(&self, body: Body, s: f64, from: f64, to: f64) -> Vec<Bed> {
        self.runs(s, from, to, |line, off| off < body.reach_over(line) - EPS)
    }

    /// Walls that end where a member on line `s` ends, in line with it: a beam bears on their end.
    pub(super) fn ends_on(&self, s: f64, from: f64, to: f64) -> Vec<Seat> {
        let mut seats = Vec::new();
        for line in self.lines.iter().filter(|line| line.square <= PARALLEL) {
            let off = ((line.a.1 + line.b.1) / 2.0 - s).abs();
            let (lo, hi) = (line.a.0.min(line.b.0), line.a.0.max(line.b.0));
            if off > line.reach.min(0.5) + EPS || hi.min(to) - lo.max(from) > IN_LINE_END {
                continue;
            }
            for (end, own) in [(from, hi), (to, lo)] {
                if (end - own).abs() <= IN_LINE_END {
                    let at_b = (own - line.b.0).abs() < (own - line.a.0).abs();
                    let along = if at_b { line.length } else { 0.0 };
                    seats.push(Seat { at: end, on: line.on, along, meet: Meet::ByJoints });
                }
            }
        }
        seats
    }

    /// The same places without the beams, or with nothing but them.
    pub(super) fn beams(&self, kept: Beams) -> Self {
        let is_beam = |line: &&Line| matches!(line.on, Bearer::Beam(_)) == (kept == Beams::Only);
        let posts = if kept == Beams::Only { Vec::new() } else { self.posts.clone() };
        Self { lines: self.lines.iter().filter(is_beam).copied().collect(), posts, near: None }
    }

    /// The runs over which a member lies along any wall or beam that `wanted` takes, nearest first where two compete.
    fn runs(&self, s: f64, from: f64, to: f64, wanted: impl Fn(&Line, f64) -> bool) -> Vec<Bed> {
        let mut near: Vec<(f64, Line)> = Vec::new();
        self.each(s, from, to, |line| {
            let off = ((line.a.1 + line.b.1) / 2.0 - s).abs();
            if line.square <= PARALLEL && wanted(line, off) {
                near.push((off, *line));
            }
        });
        near.order_by(|a, b| a.1.on.cmp(&b.1.on).then(a.0.total_cmp(&b.0)));
        let mut beds: Vec<Bed> = Vec::new();
        for (_, line) in near {
            let (lo, hi) = (line.a.0.min(line.b.0).max(from), line.a.0.max(line.b.0).min(to));
            for (lo, hi) in free(&beds, lo, hi) {
                let along = |at: f64| ((at - line.a.0) / (line.b.0 - line.a.0) * line.length).clamp(0.0, line.length);
                beds.push(Bed { from: lo, to: hi, on: line.on, along: (along(lo), along(hi)) });
            }
        }
        beds.order_by(|a, b| a.from.total_cmp(&b.from));
        beds
    }

    /// The length of the run along a bearer that a strip covers, from its end `a`.
    pub(super) fn strip_on(&self, on: Bearer, across: (f64, f64)) -> Option<(f64, f64)> {
        let line = self.line_of(on).filter(|line| line.square > PARALLEL)?;
        let at = |s: f64| ((s - line.a.1) / (line.b.1 - line.a.1)).clamp(0.0, 1.0) * line.length;
        let (from, to) = (at(across.0), at(across.1));
        Some((from.min(to), from.max(to)))
    }

    /// Whether a place along a bearer is at the end of a partition.
    pub(super) fn ends_there(&self, on: Bearer, along: f64) -> bool {
        let partition = self.line_of(on).filter(|line| matches!(on, Bearer::Wall(_)) && !line.bed);
        partition.is_some_and(|line| along <= 2.0 * line.reach || along >= line.length - 2.0 * line.reach)
    }

    fn line_of(&self, on: Bearer) -> Option<&Line> {
        self.lines.binary_search_by_key(&on, |line| line.on).ok().and_then(|i| self.lines.get(i))
    }

    /// How square a bearer is to the members, and whether its left (from `a` to `b`) is where `t` grows.
    pub(super) fn turn(&self, on: Bearer) -> Option<(f64, bool)> {
        let line = self.line_of(on)?;
        Some((line.square, line.b.1 < line.a.1))
    }
}

/// What is left of a run beside the beds taken so far.
pub(super) fn free(beds: &[Bed], lo: f64, hi: f64) -> Vec<(f64, f64)> {
    let mut left = vec![(lo, hi)];
    for bed in beds {
        left = left
            .into_iter()
            .flat_map(|(a, b)| [(a, b.min(bed.from)), (a.max(bed.to), b)])
            .filter(|(a, b)| b - a > EPS)
            .collect();
    }
    left.retain(|(a, b)| b - a > EPS);
    left
}
