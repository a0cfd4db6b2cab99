//! How a roof hands on what it gathered: into walls, beams and posts, of its level and of the one above, and from purlins,
//! hips and the ridge beam to what holds them. Valleys are in a file of their own.
//!
//! Purlins are solved first, then hips and valleys, whose heads may rest on the ridge beam, then that.

use super::super::around::extent;
use super::super::bar::{Bar, Bearer, Burden, Meet, Outcome, Place, Seat, times};
use super::super::carry::Sample;
use super::super::deck::{DeckPoint, spread};
use super::super::down::{shared, under_point};
use super::super::ends::{End, OpenEnd, STICKS_OUT};
use super::super::seats::{Seats, Use};
use super::super::strips::EPS;
use super::super::{Laid, LaidAs, Node, Origin, Problem, Reason, Rest, RibKind, RibTrace, Strut};
use super::Work;
use super::ribs::{Apex, Rib};
use super::shape::Shape;
use crate::geometry::{self, Frame, Spot};
use crate::loads::Weights;
use crate::order::InOrder as _;
use crate::plan::{Joints, Point, WallEnd};
use crate::statics::Load;
use crate::units::{Feet, Pounds, Ticks};

/// A post this near the end of a hip is under it, in feet; a wall or post this near one place is the same.
pub(super) const UNDER_END: f64 = 0.5 + EPS;
/// How far in from its foot a hip may meet the wall that holds it, beside its overhang, in feet.
const AT_FOOT: f64 = 1.0 + EPS;

impl Work<'_, '_> {
    pub(super) fn node_of(&self, on: Bearer) -> Node {
        let level = self.above.as_ref().map(|above| above.level);
        match on {
            Bearer::WallAbove(i) => level.and_then(|it| it.walls.get(i)).map_or(Node::Gap, |it| Node::Wall(it.id)),
            Bearer::PostAbove(i) => level.and_then(|it| it.posts.get(i)).map_or(Node::Gap, |it| Node::Post(it.id)),
            Bearer::Rib(i) => match self.ribs.all.get(i) {
                Some(Rib { valley: Some((meeting, _)), .. }) => self.wing(*meeting),
                Some(Rib { purlin: Some(purlin), .. }) => {
                    self.here.level.purlins.get(*purlin).map_or(self.node, |it| Node::Purlin(it.id))
                }
                _ => self.node,
            },
            Bearer::Apex(i) => {
                let meeting = self.ribs.apexes.get(i).and_then(|apex| apex.meeting);
                meeting.map_or(self.node, |meeting| self.wing(meeting))
            }
            on => self.here.node(on),
        }
    }

    /// What a bearer of the level above is called there.
    const fn above(on: Bearer) -> Option<Bearer> {
        match on {
            Bearer::WallAbove(i) => Some(Bearer::Wall(i)),
            Bearer::PostAbove(i) => Some(Bearer::Post(i)),
            _ => None,
        }
    }

    /// A weight of the roof over a run of what holds it.
    pub(super) fn put_run(&mut self, on: Bearer, run: (f64, f64), weights: Weights) {
        let to = self.node_of(on);
        if to != self.node {
            self.here.link(self.node, None, to, weights);
        }
        if let Bearer::Apex(i) = on {
            if let Some(apex) = self.ribs.apexes.get_mut(i) {
                apex.total += weights;
            }
        } else if let Bearer::Rib(i) = on {
            if let Some(rib) = self.ribs.all.get_mut(i) {
                rib.carrier.spread(run.0, run.1, self.node, weights);
            }
        } else if let (Some(upper), Some(above)) = (Self::above(on), self.above.as_deref_mut()) {
            self.here.handed_up += weights;
            above.from_below += weights;
            above.put_run(upper, run, self.node, weights);
        } else {
            self.here.put_run(on, run, self.node, weights);
        }
    }

    /// A weight at one place, from the roof itself or from a purlin.
    pub(super) fn put_point(&mut self, from: Node, on: Bearer, at: f64, weights: Weights) {
        let to = self.node_of(on);
        if let Bearer::Apex(_) = on {
            return self.put_run(on, (at, at), weights);
        }
        self.here.link(from, None, to, weights);
        if let (Some(upper), Some(above)) = (Self::above(on), self.above.as_deref_mut()) {
            self.here.handed_up += weights;
            above.from_below += weights;
            above.put_point(upper, at, from, weights);
        } else {
            self.here.put_point(on, at, from, weights);
        }
    }

    /// What a bearer learns from a rafter on it.
    pub(super) fn note(&mut self, on: Bearer, sample: Sample, reason: Reason) {
        let carrier = match on {
            Bearer::Rib(i) => self.ribs.all.get_mut(i).map(|rib| &mut rib.carrier),
            _ => match (Self::above(on), self.above.as_deref_mut()) {
                (Some(upper), Some(above)) => above.carrier(upper),
                _ => self.here.carrier(on),
            },
        };
        if let Some(carrier) = carrier {
            let (start, end) = (sample.start.max(0.0), sample.end.min(carrier.length));
            carrier.claim(start, end, Some(Origin::Roof), reason);
            carrier.samples.push(Sample { start, end, ..sample });
        }
    }

    pub(super) fn claim(&mut self, on: Bearer, at: f64, reason: Reason) {
        let carrier = match (Self::above(on), self.above.as_deref_mut()) {
            (Some(upper), Some(above)) => above.carrier(upper),
            _ => self.here.carrier(on),
        };
        if let Some(carrier) = carrier {
            carrier.claim(at - 0.5, at + 0.5, None, reason);
        }
    }

    /// Solves purlins, hips and the ridge beam, in this order.
    pub(super) fn hand_on(&mut self, shape: &Shape) {
        let kinds: Vec<RibKind> = self.ribs.all.iter().map(|rib| rib.kind).collect();
        let numbers = |wanted: RibKind| kinds.iter().enumerate().filter(move |it| *it.1 == wanted).map(|it| it.0);
        numbers(RibKind::Purlin).for_each(|number| self.purlin(number, shape));
        numbers(RibKind::Hip).for_each(|number| self.hip(number));
        self.valleys(shape);
        self.apexes(shape);
        numbers(RibKind::Ridge).for_each(|number| self.ridge(number));
        for bare in core::mem::take(&mut self.ribs.bare) {
            if let Some(purlin) = self.here.level.purlins.get(bare) {
                self.here.find_once(purlin.a.into(), Problem::PurlinWithoutStruts { purlin: purlin.id });
            }
        }
    }

    /// A rib on its seats, with all that it gathered.
    pub(super) fn solve(rib: &Rib, node: Node, seats: Vec<Seat>, joints: Joints) -> (Bar, Outcome) {
        let mut burdens: Vec<Burden> = Vec::new();
        for part in rib.carrier.line() {
            let shape = vec![spread(part.start.0, part.end.0, 1.0, 1.0)];
            burdens.push(Burden { tag: node, shape, times: times(&part.loads, |plf| plf.0) });
        }
        for point in &rib.carrier.points {
            let shape = vec![Load::Point { at: point.at, weight: Pounds(1.0) }];
            burdens.push(Burden { tag: node, shape, times: times(&point.weights, |pounds| pounds.0) });
        }
        let bar = Bar { from: 0.0, to: rib.carrier.length, seats, beds: Vec::new(), joints };
        let outcome = bar.solve(&burdens);
        (bar, outcome)
    }

    pub(super) fn per_seat(bar: &Bar, outcome: &Outcome) -> Vec<Weights> {
        let mut shares = vec![Weights::default(); bar.seats.len()];
        for delivery in &outcome.deliveries {
            if let Place::Seat(number) = delivery.place
                && let Some(share) = shares.get_mut(number)
            {
                *share += delivery.weights;
            }
        }
        shares
    }

    /// A purlin in pieces from strut to strut; each strut brings its share to its foot.
    fn purlin(&mut self, number: usize, shape: &Shape) {
        let Some(rib) = self.ribs.all.get(number) else { return };
        let Some(purlin) = rib.purlin.and_then(|it| self.here.level.purlins.get(it)) else { return };
        let Some(frame) = Frame::from_to(rib.a, rib.b) else { return };
        let Some(feet) = purlin.feet.map(Spot::from) else { return };
        let node = Node::Purlin(purlin.id);
        let length = rib.carrier.length;
        let mut bays = (length / purlin.spacing.feet().0 - 1e-6).ceil().max(1.0);
        let step = length / bays;
        let mut seats = Vec::new();
        while bays >= 0.0 {
            let at = (length - bays * step).clamp(0.0, length);
            seats.push(Seat { at, on: Bearer::Rib(number), along: at, meet: Meet::ByJoints });
            bays -= 1.0;
        }
        let (bar, outcome) = Self::solve(rib, node, seats, Joints::Lap);
        let mut trace = rib_trace(rib);
        trace.purlin = Some(purlin.id);
        let section_t = shape.frame.local(middle(rib.a, rib.b)).0.0;
        let rise = shape.section.height(section_t);
        let (start, line) = frame.local(rib.a);
        let (_, foot_line) = frame.local(feet);
        let run = (foot_line - line).abs();
        let width = trace
            .feeds
            .iter()
            .map(|feed| (feed.left.0, feed.right.0))
            .fold((0.0, 0.0), |a: (f64, f64), b| (a.0.max(b.0), a.1.max(b.1)));
        let lost = outcome.lost_weight();
        let shares = Self::per_seat(&bar, &outcome);
        for (seat, weights) in bar.seats.iter().zip(shares) {
            let along = start + Feet(seat.at);
            let foot = frame.spot(along, foot_line);
            let mut strut =
                Strut { head: frame.spot(along, line), foot, on: Node::Gap, weights, rise: Feet(rise), run };
            let place = point(foot).and_then(|at| under_point(self.here.around, at));
            if let Some((on, at)) = place {
                strut.on = self.node_of(on);
                self.put_point(node, on, at, weights);
                let half = step / 2.0;
                let sample = Sample {
                    from: self.node,
                    origin: Origin::Roof,
                    start: at - half,
                    end: at + half,
                    left: width.0,
                    right: width.1,
                    reaction: weights.all().0 / self.psf_at(self.roof.rise.inches() / 12.0).all().0.max(1e-9),
                    through: None,
                };
                self.note(on, sample, Reason::StrutsStandOn { purlin: purlin.id });
            } else {
                self.here.drops.push(DeckPoint { tag: node, at: foot, weights });
            }
            trace.struts.push(strut);
        }
        let at = middle(trace.a, trace.b);
        if trace.struts.iter().any(|strut| strut.on == Node::Gap) {
            self.here.find_once(at, Problem::StrutsOnJoists { purlin: purlin.id });
        }
        if run.0 > rise + 1e-9 {
            let rise = Feet(rise);
            self.here.find_once(at, Problem::StrutsTooFlat { purlin: purlin.id, rise, run });
        }
        if lost.all().0.abs() > 0.0 {
            self.here.lose(node, None, lost);
            self.unsupported.1 += lost;
            self.unsupported.0 += 1;
            self.unsupported.2.get_or_insert(at);
        }
        self.laid(node, LaidAs::Purlin, &trace);
        self.trace.ribs.push(trace);
    }

    /// What is under a place: a post, of this level or the one above.
    pub(super) fn post_under(&self, at: Spot) -> Option<Bearer> {
        let near = |post: Point| geometry::apart(Spot::from(post), at).0 < UNDER_END;
        let here = self.here.level.posts.iter().position(|post| near(post.at)).map(Bearer::Post);
        here.or_else(|| self.above.as_ref()?.level.posts.iter().position(|it| near(it.at)).map(Bearer::PostAbove))
    }

    /// A hip from the corner of the walls to the end of the ridge.
    fn hip(&mut self, number: usize) {
        let Some(rib) = self.ribs.all.get(number) else { return };
        let Some(frame) = Frame::from_to(rib.a, rib.b) else { return };
        let length = rib.carrier.length;
        let (start, s) = frame.local(rib.a);
        let out = self.roof.overhang.feet().0 * core::f64::consts::SQRT_2 + AT_FOOT;
        let eaves = Seats::of(self.here.around, &frame, Use::Roof, &extent([rib.a, rib.b]));
        let crossed = eaves.crossed(s.0, start.0, start.0 + length);
        let foot = crossed.into_iter().find(|seat| seat.at - start.0 <= out);
        let corner = foot.map(|seat| eaves.at_corner(&seat, s.0, start.0, start.0 + length)).unwrap_or_default();
        let corner: Vec<(Bearer, f64)> = corner.iter().map(|seat| (seat.on, seat.along)).collect();
        let head = self.ribs.apex_at(rib.b).map(Bearer::Apex);
        let head = head.map(|on| Seat { at: length, on, along: 0.0, meet: Meet::ByJoints });
        let foot = foot.map(|seat| Seat { at: seat.at - start.0, ..seat });
        let (bar, outcome) = Self::solve(rib, self.node, foot.into_iter().chain(head).collect(), Joints::RunThrough);
        let mut trace = rib_trace(rib);
        self.lose_rib(self.node, outcome.lost_weight(), rib.b);
        let shares = Self::per_seat(&bar, &outcome);
        for (seat, weights) in bar.seats.iter().zip(shares) {
            if let Bearer::Apex(_) = seat.on {
                self.put_run(seat.on, (0.0, 0.0), weights);
                trace.rests.push(Rest { at: Feet(seat.at), on: self.node_of(seat.on), weights });
                continue;
            }
            let weights = shared(weights, &corner);
            for (on, along) in &corner {
                self.put_point(self.node, *on, *along, weights);
                self.claim(*on, *along, Reason::HipRestsOn { roof: self.roof.id, at: Feet(*along) });
                trace.rests.push(Rest { at: Feet(seat.at), on: self.node_of(*on), weights });
            }
        }
        self.laid(self.node, LaidAs::Hip, &trace);
        self.trace.ribs.push(trace);
    }

    /// What comes together at each end of the ridge: on a post under it, on the ridge beam, or by way of the rafters there.
    fn apexes(&mut self, shape: &Shape) {
        let (hips, valleys) = core::mem::take(&mut self.ribs.apexes).into_iter().partition(|it| it.meeting.is_none());
        self.ribs.apexes = valleys;
        let hips: Vec<Apex> = hips;
        for apex in hips {
            let ridge = self.ribs.all.iter().position(|it| it.kind == RibKind::Ridge);
            if let Some(on) = self.post_under(apex.at) {
                self.put_point(self.node, on, 0.0, apex.total);
                for rib in self.trace.ribs.iter_mut().filter(|rib| geometry::apart(rib.b, apex.at).0 < UNDER_END) {
                    let last = rib.rests.last_mut().filter(|_| rib.kind == RibKind::Hip);
                    if let Some(rest) = last {
                        rest.on = match on {
                            Bearer::PostAbove(i) => self.above.as_ref().and_then(|it| it.level.posts.get(i)),
                            Bearer::Post(i) => self.here.level.posts.get(i),
                            _ => None,
                        }
                        .map_or(rest.on, |post| Node::Post(post.id));
                    }
                }
            } else if let Some(ridge) = ridge.and_then(|it| self.ribs.all.get_mut(it)) {
                let from_a = geometry::apart(ridge.a, apex.at).0;
                ridge.carrier.point(from_a, self.node, apex.total);
            } else {
                self.by_rafters(apex.at, apex.total, shape);
            }
        }
    }

    /// What comes to the end of a ridge that nothing holds goes by way of the rafters there to both eaves.
    fn by_rafters(&mut self, apex: Spot, weights: Weights, shape: &Shape) {
        if self.by_eaves(self.node, apex, weights, shape) {
            self.here.open_tops.push((Reason::HipMayLeanOn { roof: self.roof.id }, apex));
            self.top_not_held.get_or_insert(apex);
        } else {
            self.lose_rib(self.node, weights, apex);
        }
    }

    /// A weight to both eaves by the lever rule, if there are two.
    pub(super) fn by_eaves(&mut self, from: Node, at: Spot, weights: Weights, shape: &Shape) -> bool {
        let (t, crossed) = self.eaves_at(at, shape);
        let [first, .., last] = crossed.as_slice() else { return false };
        let share = ((t - first.at) / (last.at - first.at)).clamp(0.0, 1.0);
        for (seat, part) in [(first, 1.0 - share), (last, share)] {
            self.put_point(from, seat.on, seat.along, weights * part);
            self.claim(seat.on, seat.along, Reason::RoofStandsOn { roof: self.roof.id });
        }
        true
    }

    /// The eaves that a rafter through a place crosses, and where the place is along it.
    pub(super) fn eaves_at(&self, at: Spot, shape: &Shape) -> (f64, Vec<Seat>) {
        let (t, s) = shape.frame.local(at);
        let reach = shape.whole.reach().unwrap_or((t.0, t.0));
        let within = extent([reach.0, reach.1].map(|t| shape.frame.spot(Feet(t), s)));
        let eaves = Seats::of(self.here.around, &shape.frame, Use::Roof, &within);
        (t.0, eaves.crossed(s.0, reach.0, reach.1))
    }

    pub(super) fn lose_rib(&mut self, from: Node, lost: Weights, at: Spot) {
        if lost.all().0.abs() > 0.0 {
            self.here.lose(from, None, lost);
            self.unsupported.0 += 1;
            self.unsupported.1 += lost;
            self.unsupported.2.get_or_insert(at);
        }
    }

    /// A ridge beam on posts, on the walls under its ends, and on walls that stand up to it.
    fn ridge(&mut self, number: usize) {
        let Some(rib) = self.ribs.all.get(number) else { return };
        let Some(frame) = Frame::from_to(rib.a, rib.b) else { return };
        let length = rib.carrier.length;
        let (start, s) = frame.local(rib.a);
        let (from, to) = (start.0, start.0 + length);
        let at_end = |at: f64| at - from < UNDER_END || to - at < UNDER_END;
        let within = extent([rib.a, rib.b]);
        let eaves = Seats::of(self.here.around, &frame, Use::Roof, &within);
        let walls = eaves.crossed(s.0, from, to);
        // Where a wing's ridge runs into the main slope it is high over any wall there.
        let apex = self
            .top_of_wing()
            .map(|(on, top)| (on, if geometry::apart(rib.a, top) < geometry::apart(rib.b, top) { from } else { to }));
        let high = |at: f64| apex.is_some_and(|(_, end)| (at - end).abs() < UNDER_END);
        let mut seats: Vec<Seat> = walls.into_iter().filter(|seat| at_end(seat.at) && !high(seat.at)).collect();
        let height = self.ridge_height;
        let up = self.ribs.seats(&frame).crossed(s.0, from, to);
        let holds = |seat: &Seat| !matches!(seat.on, Bearer::Rib(_)) && self.ribs.reaches(seat.on, height);
        let mut up: Vec<Seat> = up.into_iter().filter(holds).collect();
        let posts = eaves.posts_under(s.0, from, to);
        let above = self.above.as_ref().map(|above| Seats::of(above.around, &frame, Use::Roof, &within));
        let above = above.into_iter().flat_map(|seats| seats.posts_under(s.0, from, to)).filter_map(|seat| {
            let Bearer::Post(i) = seat.on else { return None };
            Some(Seat { on: Bearer::PostAbove(i), ..seat })
        });
        // A post before a wall; of walls or posts close together the same one from whichever end the ridge is read.
        let mut posts: Vec<Seat> = posts.into_iter().chain(above).collect();
        up.order_by_key(|seat| seat.on);
        posts.order_by_key(|seat| seat.on);
        for seat in up.into_iter().chain(posts) {
            seats.retain(|it| (it.at - seat.at).abs() > UNDER_END);
            seats.push(seat);
        }
        if let Some((on, at)) = apex.filter(|(_, end)| seats.iter().all(|it| (it.at - end).abs() > UNDER_END)) {
            seats.push(Seat { at, on, along: 0.0, meet: Meet::ByJoints });
        }
        seats.order_by(|a, b| a.at.total_cmp(&b.at));
        for seat in &mut seats {
            seat.at -= from;
        }
        let (bar, outcome) = Self::solve(rib, self.node, seats, Joints::NotSeen);
        let mut trace = rib_trace(rib);
        let lost = outcome.lost_weight();
        if lost.all().0.abs() > 0.0 {
            self.here.find(rib.a, Problem::RidgeUnsupported { roof: self.roof.id }, Some(lost));
            self.here.lose(self.node, None, lost);
        }
        for (end, at, spot) in [(WallEnd::A, 0.0, rib.a), (WallEnd::B, length, rib.b)] {
            let reach = if lost.all().0.abs() > 0.0 { UNDER_END } else { STICKS_OUT };
            if bar.seats.iter().all(|seat| (seat.at - at).abs() > reach) {
                let level = self.here.level;
                self.here.open_ends.extend(OpenEnd::over(level, End::Ridge(self.roof.id, end), spot));
            }
        }
        let shares = Self::per_seat(&bar, &outcome);
        for (seat, weights) in bar.seats.iter().zip(shares) {
            self.put_point(self.node, seat.on, seat.along, weights);
            self.claim(seat.on, seat.along, Reason::RidgeRestsOn { roof: self.roof.id, at: Feet(seat.along) });
            trace.rests.push(Rest { at: Feet(seat.at), on: self.node_of(seat.on), weights });
        }
        self.laid(self.node, LaidAs::Ridge, &trace);
        self.trace.ribs.push(trace);
    }

    pub(super) fn laid(&mut self, of: Node, laid_as: LaidAs, trace: &RibTrace) {
        let bears = match trace.kind {
            RibKind::Purlin => trace.struts.iter().map(|strut| strut.head).collect(),
            RibKind::Hip | RibKind::Valley | RibKind::Header | RibKind::Ridge => {
                let frame = Frame::from_to(trace.a, trace.b);
                let at = |rest: &Rest| {
                    frame.map(|frame| {
                        let (t, s) = frame.local(trace.a);
                        frame.spot(t + rest.at, s)
                    })
                };
                trace.rests.iter().filter_map(at).collect()
            }
        };
        self.here.members.push(Laid {
            level: self.here.level.id,
            of,
            laid_as,
            a: trace.a,
            b: trace.b,
            bears,
            laps: Vec::new(),
            longest_span: geometry::apart(trace.a, trace.b),
        });
        for strut in &trace.struts {
            self.here.members.push(Laid {
                level: self.here.level.id,
                of,
                laid_as: LaidAs::Strut,
                a: strut.head,
                b: strut.foot,
                bears: vec![strut.foot],
                laps: Vec::new(),
                longest_span: strut.length(),
            });
        }
    }
}

pub(super) fn rib_trace(rib: &Rib) -> RibTrace {
    RibTrace {
        kind: rib.kind,
        purlin: None,
        a: rib.a,
        b: rib.b,
        feeds: rib.carrier.feeds(),
        line: rib.carrier.line(),
        points: rib.carrier.points.clone(),
        rests: Vec::new(),
        struts: Vec::new(),
        top: rib.carrier.total,
    }
}

fn middle(a: Spot, b: Spot) -> Spot {
    Spot { x: (a.x + b.x) / 2.0, y: (a.y + b.y) / 2.0 }
}

pub(super) fn point(at: Spot) -> Option<Point> {
    Some(Point::new(Ticks::from_decimal_feet(at.x)?, Ticks::from_decimal_feet(at.y)?))
}
