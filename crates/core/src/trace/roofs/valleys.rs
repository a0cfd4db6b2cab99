//! Valleys: solved with the main roof, when both roofs have hung their rafters on them.
//!
//! A valley is one span from the corner of the walls to its top. Its top stands on a post or on a wall up to it; the shorter
//! one on the one that runs on; at the main ridge it hangs on the ridge beam. Otherwise nothing is drawn that holds it:
//! that is found, and its weight traced to the three places that are left, both feet and the main eave opposite, as
//! three legs would share it.

use super::super::bar::{Bearer, Meet, Seat};
use super::super::down::{all_under, shared};
use super::super::strips::EPS;
use super::super::{LaidAs, Node, Reason, Rest, RibKind};
use super::Work;
use super::hand::{UNDER_END, point, rib_trace};
use super::meet::Meeting;
use super::shape::Shape;
use crate::geometry::{self, Spot};
use crate::ids::RoofId;
use crate::loads::Weights;
use crate::plan::Joints;
use crate::units::Feet;

/// What holds the top of a valley.
#[derive(Clone, Copy, PartialEq)]
enum Hold {
    /// A post or a wall, at a place along it.
    On(Bearer, f64),
    /// The valley that runs on, at a place along it.
    Long(f64),
    /// The main ridge beam.
    Ridge,
    /// Nothing that is drawn.
    Nothing,
}

impl Work<'_, '_> {
    /// The roof whose valleys a meeting has.
    pub(super) fn wing(&self, meeting: usize) -> Node {
        let wing = self.joined.meetings.all.get(meeting).and_then(|it| self.here.level.roofs.get(it.wing));
        wing.map_or(self.node, |roof| Node::Roof(roof.id))
    }

    /// Of a wing, where its ridge ends at the main slope.
    pub(super) fn top_of_wing(&self) -> Option<(Bearer, Spot)> {
        let own = |meeting: usize| self.joined.meetings.all.get(meeting).is_some_and(|it| it.wing == self.number);
        let place = self.ribs.apexes.iter().position(|it| it.meeting.is_some_and(own))?;
        self.ribs.apexes.get(place).map(|apex| (Bearer::Apex(place), apex.at))
    }

    /// Gives what a wing's rafters brought to its valleys to the main roof.
    pub(super) fn hand_over(&mut self) {
        if self.top_of_wing().is_none() {
            return;
        }
        for rib in &mut self.ribs.all {
            if let Some((meeting, side)) = rib.valley
                && let Some(carrier) = self.joined.gathered.get_mut(meeting).and_then(|it| it.ribs.get_mut(side))
            {
                *carrier = core::mem::take(&mut rib.carrier);
            }
        }
        for apex in &mut self.ribs.apexes {
            if let Some(gathered) = apex.meeting.and_then(|it| self.joined.gathered.get_mut(it)) {
                gathered.top += core::mem::take(&mut apex.total);
            }
        }
    }

    /// Solves the valleys of all wings of a main roof.
    pub(super) fn valleys(&mut self, shape: &Shape) {
        let all: Vec<Meeting> = self.joined.meetings.all.clone();
        let main = self.number;
        for (number, meeting) in all.iter().enumerate().filter(|(_, it)| it.main == main) {
            let Some(wing) = self.here.level.roofs.get(meeting.wing).map(|roof| roof.id) else { continue };
            let long = meeting.long.map(|(side, _)| side);
            let hold = self.hold(meeting.apex, meeting.height, meeting.at_ridge, Some(meeting));
            for side in [0, 1] {
                if long != Some(side) {
                    self.valley((number, side), meeting, hold);
                }
            }
            let apex = self.ribs.apexes.iter_mut().find(|it| it.meeting == Some(number));
            let together = apex.map(|it| core::mem::take(&mut it.total)).unwrap_or_default();
            let mut open = self.top((number, meeting.apex), meeting, together, hold, shape);
            if let Some((side, top)) = meeting.long {
                let hold = self.hold(top, meeting.main_height, true, None);
                let together = self.valley((number, side), meeting, hold);
                open |= self.top((number, top), meeting, together, hold, shape);
            }
            if open {
                self.open_valleys.push((wing, meeting.apex));
            }
        }
    }

    /// What holds a place at a height over the plate.
    fn hold(&self, at: Spot, height: f64, at_ridge: bool, meeting: Option<&Meeting>) -> Hold {
        let beam = self.ribs.all.iter().any(|rib| rib.kind == RibKind::Ridge);
        if let Some(on) = self.post_under(at) {
            Hold::On(on, 0.0)
        } else if let Some((on, along)) = self.ribs.wall_under(at, height) {
            Hold::On(on, along)
        } else if let Some((side, _)) = meeting.and_then(|it| it.long) {
            Hold::Long(meeting.map_or(0.0, |it| geometry::apart(it.foot(side), at).0))
        } else if at_ridge && beam {
            Hold::Ridge
        } else {
            Hold::Nothing
        }
    }

    /// One valley from its foot up; gives back what arrives at the top of one that runs on.
    fn valley(&mut self, (number, side): (usize, usize), meeting: &Meeting, hold: Hold) -> Weights {
        let node = self.wing(number);
        let Node::Roof(wing) = node else { return Weights::default() };
        let Some(rib) = self.ribs.all.iter().find(|rib| rib.valley == Some((number, side))) else {
            return Weights::default();
        };
        let (length, runs_on) = (rib.carrier.length, meeting.long.is_some_and(|(long, _)| long == side));
        let seat = |at: f64, on: Bearer, along: f64| Seat { at, on, along, meet: Meet::ByJoints };
        let corner = self.corner(rib.a);
        let mut seats: Vec<Seat> = corner.first().map(|(on, along)| seat(0.0, *on, *along)).into_iter().collect();
        if runs_on && let Hold::On(on, along) = self.hold(meeting.apex, meeting.height, false, None) {
            seats.push(seat(geometry::apart(rib.a, meeting.apex).0, on, along));
        }
        let top = self.ribs.apexes.iter().position(|it| it.meeting == Some(number)).map_or(Bearer::Arch, Bearer::Apex);
        seats.push(seat(length, top, 0.0));
        let (bar, outcome) = Self::solve(rib, node, seats, Joints::RunThrough);
        let mut trace = rib_trace(rib);
        self.lose_rib(node, outcome.lost_weight(), trace.b);
        let mut arrives = Weights::default();
        for (number, (seat, weights)) in bar.seats.iter().zip(Self::per_seat(&bar, &outcome)).enumerate() {
            if number == 0 && !corner.is_empty() {
                for (on, weights) in self.onto(node, wing, &corner, weights) {
                    trace.rests.push(Rest { at: Feet(seat.at), on, weights });
                }
                continue;
            }
            let on = if seat.on != top {
                self.put_point(node, seat.on, seat.along, weights);
                self.claim(seat.on, seat.along, Reason::ValleyRestsOn { roof: wing, at: Feet(seat.along) });
                self.node_of(seat.on)
            } else {
                arrives += weights;
                match hold {
                    Hold::On(on, _) => self.node_of(on),
                    Hold::Ridge => self.node,
                    Hold::Long(_) | Hold::Nothing => node,
                }
            };
            trace.rests.push(Rest { at: Feet(seat.at), on, weights });
        }
        self.laid(node, LaidAs::Valley, &trace);
        self.joined.ribs.push((meeting.wing, trace));
        let apex = self.ribs.apexes.iter_mut().find(|it| it.meeting == Some(number)).filter(|_| !runs_on);
        if let Some(apex) = apex {
            apex.total += core::mem::take(&mut arrives);
        }
        arrives
    }

    /// What comes together at the top of valleys, to what holds it; says whether that is nothing.
    fn top(
        &mut self,
        (number, at): (usize, Spot),
        meeting: &Meeting,
        weights: Weights,
        hold: Hold,
        shape: &Shape,
    ) -> bool {
        let node = self.wing(number);
        let Node::Roof(wing) = node else { return false };
        match hold {
            Hold::On(on, along) => {
                self.put_point(node, on, along, weights);
                self.claim(on, along, Reason::ValleyRestsOn { roof: wing, at: Feet(along) });
            }
            Hold::Long(along) => {
                let long = meeting.long.map(|(side, _)| (number, side));
                if let Some(rib) = self.ribs.all.iter_mut().find(|rib| rib.valley.is_some() && rib.valley == long) {
                    rib.carrier.point(along, node, weights);
                }
            }
            Hold::Ridge => {
                self.here.link(node, None, self.node, weights);
                if let Some(ridge) = self.ribs.all.iter_mut().find(|rib| rib.kind == RibKind::Ridge) {
                    ridge.carrier.point(geometry::apart(ridge.a, at).0, node, weights);
                }
            }
            Hold::Nothing => {
                if !self.by_legs(node, at, meeting, weights, shape) {
                    self.lose_rib(node, weights, at);
                }
                self.here.open_tops.push((Reason::ValleyMayLeanOn { roof: wing }, at));
                return true;
            }
        }
        false
    }

    /// Shares a weight between the main eave opposite and both feet so that moments about each line between two of them
    /// balance; beside the wing, where the near eave has a wall, between the two eaves.
    fn by_legs(&mut self, node: Node, at: Spot, meeting: &Meeting, weights: Weights, shape: &Shape) -> bool {
        let [first, second] = meeting.feet.map(|foot| shape.frame.local(foot));
        let s = shape.frame.local(at).1;
        let over = (s - first.1) / (second.1 - first.1);
        if !(-EPS..=1.0 + EPS).contains(&over) {
            return self.by_eaves(node, at, weights, shape);
        }
        let (t, eaves) = self.eaves_at(at, shape);
        let eave = first.0.0;
        let opposite = if eave > t { eaves.first() } else { eaves.last() };
        let opposite = opposite.filter(|seat| (seat.at - t) * (eave - t) < 0.0 && (seat.at - t).abs() > UNDER_END);
        let [a, b] = meeting.feet.map(|at| self.corner(at));
        let Some(opposite) = opposite.copied().filter(|_| !a.is_empty() && !b.is_empty()) else { return false };
        let near = (t - opposite.at) / (eave - opposite.at);
        self.put_point(node, opposite.on, opposite.along, weights * (1.0 - near));
        self.claim(opposite.on, opposite.along, Reason::RoofStandsOn { roof: self.roof.id });
        let Node::Roof(wing) = node else { return true };
        for (corner, share) in [(a, near * (1.0 - over)), (b, near * over)] {
            self.onto(node, wing, &corner, weights * share);
        }
        true
    }

    /// What holds the foot of a valley: a post or beam, or all walls of the corner.
    fn corner(&self, at: Spot) -> Vec<(Bearer, f64)> {
        point(at).map(|at| all_under(self.here.around, at, 0.0)).unwrap_or_default()
    }

    /// A weight onto what holds the foot of a valley, each its share.
    fn onto(&mut self, node: Node, wing: RoofId, corner: &[(Bearer, f64)], weights: Weights) -> Vec<(Node, Weights)> {
        let weights = shared(weights, corner);
        for (on, along) in corner {
            self.put_point(node, *on, *along, weights);
            self.claim(*on, *along, Reason::ValleyRestsOn { roof: wing, at: Feet(*along) });
        }
        corner.iter().map(|(on, _)| (self.node_of(*on), weights)).collect()
    }
}
