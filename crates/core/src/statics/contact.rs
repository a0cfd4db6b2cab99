//! Which supports of one piece press, and what they push.

use super::lump::Reach;
use super::response::{Response, Walk};
use super::three_moments::{Start, solve};
use super::{Load, Piece, TOUCH};
use crate::units::{Feet, FootPounds, InchesToTheFourth, Pounds, Psi};

/// No set of supports can push this member into balance: it tips.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("nothing that only pushes keeps this member in balance")]
pub struct Tips;

/// Below this part of all the weight on a piece, a pull is rounding.
const ROUNDING: f64 = 1e-10;
/// Below this part of weight times length cubed, a lifted support that sinks has not sunk.
const SINKING: f64 = 1e-12;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Touch {
    Presses,
    Lifted,
    /// Stands within [`TOUCH`] of the one on its left, which takes the load of both.
    Doubles,
}

/// Which supports of one piece press, settled once with all loads on.
#[derive(Clone, Debug, PartialEq)]
pub struct Contact {
    reach: Reach,
    supports: Vec<(f64, Touch)>,
}

impl Contact {
    pub(super) fn held(piece: &Piece) -> Option<Self> {
        let contact = Self::all_pressing(piece);
        (contact.pressing().count() > 1).then_some(contact)
    }

    fn all_pressing(piece: &Piece) -> Self {
        let mut last = f64::NEG_INFINITY;
        let supports = piece.supports.iter().map(|&Feet(at)| {
            let doubles = at - last <= TOUCH.0;
            if !doubles {
                last = at;
            }
            (at, if doubles { Touch::Doubles } else { Touch::Presses })
        });
        Self { reach: piece.reach, supports: supports.collect() }
    }

    /// The reactions must push, and where a support has lost contact the member must not be below its seat. When all
    /// press nothing else is asked. Otherwise the state is the one of least bending energy among all ways to push the
    /// loads into balance; the walk to it starts from the outermost supports, which can always carry what does not
    /// tip, and then takes in the seat the member sinks most below, leaving out whichever support would have to pull
    /// on the way. The energy falls with every step, so no set comes twice and the walk ends.
    pub(super) fn settle(piece: &Piece, loads: &[Load]) -> Result<Self, Tips> {
        let mut contact = Self::all_pressing(piece);
        let all: f64 = piece.reach.all(loads).map(|lump| lump.weight.abs()).sum();
        let length = piece.reach.to - piece.reach.from;
        let pull = -ROUNDING * all;
        let (Some(first), Some(last)) = (contact.pressing().next(), contact.pressing().next_back()) else {
            return Err(Tips);
        };
        if first >= last {
            let turns: f64 = piece.reach.all(loads).map(|lump| lump.moment_about(first)).sum();
            let total: f64 = piece.reach.all(loads).map(|lump| lump.weight).sum();
            return if total >= pull && turns.abs() <= -pull * length { Ok(contact) } else { Err(Tips) };
        }
        if contact.reactions(loads).iter().all(|reaction| reaction.0 >= pull) {
            return Ok(contact);
        }
        for support in &mut contact.supports {
            if support.1 == Touch::Presses && support.0 > first && support.0 < last {
                support.1 = Touch::Lifted;
            }
        }
        let mut pushes = contact.reactions(loads);
        if pushes.iter().any(|reaction| reaction.0 < pull) {
            return Err(Tips);
        }
        let sinks = -SINKING * all * length * length * length;
        // The walk ends by itself; the count only keeps rounding from running it in a ring.
        for _ in 0..8 * contact.supports.len() {
            if !contact.take_in_lowest(loads, sinks) {
                break;
            }
            while let Some(leaves) = contact.step(&mut pushes, loads, pull) {
                if let Some(support) = contact.supports.get_mut(leaves) {
                    support.1 = Touch::Lifted;
                }
            }
        }
        Ok(contact)
    }

    /// Takes in the lifted support that the member is furthest below; `false` when it is below none.
    fn take_in_lowest(&mut self, loads: &[Load], sinks: f64) -> bool {
        let walk = self.walk(loads);
        let mut lowest = sinks;
        let mut found = None;
        for support in self.supports.iter_mut().filter(|support| support.1 == Touch::Lifted) {
            let height = walk.height_at(support.0);
            if height < lowest {
                lowest = height;
                found = Some(support);
            }
        }
        found.is_some_and(|support| {
            support.1 = Touch::Presses;
            true
        })
    }

    /// Goes from `pushes` towards the reactions of the present set, as far as nothing pulls: the index of the support
    /// that would, or `None` when they are reached.
    fn step(&self, pushes: &mut [Pounds], loads: &[Load], pull: f64) -> Option<usize> {
        let goal = self.reactions(loads);
        let mut part = 1.0;
        let mut leaves = None;
        let presses = self.supports.iter().map(|support| support.1 == Touch::Presses);
        for (index, ((push, goal), presses)) in pushes.iter().zip(&goal).zip(presses).enumerate() {
            if presses && goal.0 < pull {
                let reaches = push.max(Pounds::ZERO) / (*push - *goal);
                if reaches < part || leaves.is_none() {
                    (part, leaves) = (reaches, Some(index));
                }
            }
        }
        for (push, goal) in pushes.iter_mut().zip(&goal) {
            *push += (*goal - *push) * part;
        }
        leaves
    }

    /// Places of the supports that press, ft.
    fn pressing(&self) -> impl DoubleEndedIterator<Item = f64> {
        self.supports.iter().filter(|support| support.1 == Touch::Presses).map(|support| support.0)
    }

    /// The places of all supports of the piece, pressing or not, from the left.
    pub fn supports(&self) -> impl Iterator<Item = Feet> {
        self.supports.iter().map(|support| Feet(support.0))
    }

    /// Indices, into [`Piece::supports`], of those that lost contact; one that stands in the same place as the one on
    /// its left is not counted, though its reaction is nothing.
    pub fn lifted(&self) -> impl Iterator<Item = usize> {
        self.supports.iter().enumerate().filter(|(_, support)| support.1 == Touch::Lifted).map(|(index, _)| index)
    }

    /// What every support of the piece pushes under `loads`, nothing where it lost contact.
    ///
    /// Linear in the loads: kinds add up, and one kind alone may pull. A piece on one support carries the total.
    #[must_use]
    pub fn reactions(&self, loads: &[Load]) -> Vec<Pounds> {
        let mut pressing = self.pressing();
        let reactions = match (pressing.next(), pressing.next(), pressing.next()) {
            (Some(a), Some(b), None) => self.two(a, b, loads),
            _ => self.several(loads),
        };
        debug_assert!(self.balances(&reactions, loads), "{self:?} {loads:?} {reactions:?}");
        reactions
    }

    /// Two supports, by the moments about each: the free body is the whole piece.
    fn two(&self, a: f64, b: f64, loads: &[Load]) -> Vec<Pounds> {
        let (mut left, mut right) = (0.0, 0.0);
        for lump in self.reach.all(loads) {
            left -= lump.moment_about(b);
            right += lump.moment_about(a);
        }
        let (left, right) = (Pounds(left / (b - a)), Pounds(right / (b - a)));
        let mut both = [left, right].into_iter();
        self.hand_out(|| both.next())
    }

    fn several(&self, loads: &[Load]) -> Vec<Pounds> {
        let starts = self.starts(loads);
        let mut reactions = starts.iter().map(|start| Pounds(start.reaction));
        self.hand_out(|| reactions.next())
    }

    fn hand_out(&self, mut next: impl FnMut() -> Option<Pounds>) -> Vec<Pounds> {
        let of = |touch| if touch == Touch::Presses { next() } else { None };
        self.supports.iter().map(|support| support.1).map(of).map(Option::unwrap_or_default).collect()
    }

    fn starts(&self, loads: &[Load]) -> Vec<Start> {
        let pressing: Vec<f64> = self.pressing().collect();
        solve(&pressing, self.reach, loads)
    }

    fn walk(&self, loads: &[Load]) -> Walk {
        let seats: Vec<f64> =
            self.supports.iter().filter(|support| support.1 != Touch::Doubles).map(|support| support.0).collect();
        Walk::new(self.reach, seats, &self.starts(loads), loads)
    }

    /// The moment over every support of the piece under `loads`, sagging positive.
    #[must_use]
    pub fn support_moments(&self, loads: &[Load]) -> Vec<FootPounds> {
        let walk = self.walk(loads);
        self.supports.iter().map(|support| walk.moment_at(support.0)).collect()
    }

    /// Moments, shears and deflections under `loads`, over the whole piece and over each span and overhang.
    ///
    /// Where the stiffness is not a positive number nothing is known of deflections: they come out without end.
    #[must_use]
    pub fn response(&self, loads: &[Load], e: Psi, i: InchesToTheFourth) -> Response {
        self.walk(loads).response(e, i)
    }

    /// Forces and moments about the left end, to 1e-12 of all that acts.
    fn balances(&self, reactions: &[Pounds], loads: &[Load]) -> bool {
        let from = self.reach.from;
        let (mut force, mut moment, mut size) = (0.0, 0.0, 0.0);
        for lump in self.reach.all(loads) {
            force -= lump.weight;
            moment -= lump.moment_about(from);
            size += lump.weight.abs();
        }
        for (support, reaction) in self.supports.iter().zip(reactions) {
            force += reaction.0;
            moment += reaction.0 * (support.0 - from);
            size += reaction.0.abs();
        }
        let one = self.pressing().count() < 2;
        let off = if one { force.abs() } else { force.abs().max(moment.abs() / (self.reach.to - from)) };
        off <= 1e-12 * size || off.is_nan()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Plf;

    /// Numbers from 0 to 1 in a fixed order, by a 64-bit congruence.
    struct Dice(u64);

    impl Dice {
        fn roll(&mut self) -> f64 {
            self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
            f64::from(u32::try_from(self.0 >> 33).unwrap()) / f64::from(1_u32 << 31)
        }

        fn up_to(&mut self, most: usize) -> usize {
            (0..most).filter(|_| self.roll() < 0.5).count()
        }

        fn member(&mut self) -> (Piece, Vec<Load>) {
            let mut at = if self.roll() < 0.5 { 0.0 } else { 4.0 * self.roll() };
            let mut supports = vec![Feet(at)];
            for _ in 0..1 + self.up_to(8) {
                at += if self.roll() < 0.3 { 0.3 } else { 1.5 } + 15.0 * self.roll() * self.roll();
                supports.push(Feet(at));
            }
            let length = if self.roll() < 0.5 { at } else { at + 4.0 * self.roll() };
            let mut loads = Vec::new();
            for _ in 0..1 + self.up_to(5) {
                let (a, b) = (Feet(self.roll() * length), Feet(self.roll() * length));
                let weight = 1000.0 * self.roll() - 50.0;
                loads.push(if self.roll() < 0.5 {
                    Load::Point { at: a, weight: Pounds(weight) }
                } else {
                    Load::Spread { from: a, to: b, start: Plf(weight), end: Plf(weight * self.roll()) }
                });
            }
            (Piece::new(Feet::ZERO, Feet(length), &supports), loads)
        }
    }

    /// Every set of two supports or more that pushes the loads into balance and lets no lifted seat be sunk into.
    fn every_set(piece: &Piece, loads: &[Load]) -> Vec<Contact> {
        let all: f64 = piece.reach.all(loads).map(|lump| lump.weight.abs()).sum();
        let length = piece.reach.to - piece.reach.from;
        let held = Contact::all_pressing(piece);
        let sets = (0_u32..1 << held.supports.len()).filter_map(|set| {
            let mut contact = held.clone();
            for (bit, support) in contact.supports.iter_mut().enumerate() {
                support.1 = if set >> bit & 1 == 1 { Touch::Presses } else { Touch::Lifted };
            }
            let walk = (set.count_ones() > 1).then(|| contact.walk(loads))?;
            let pushes = contact.reactions(loads).iter().all(|reaction| reaction.0 >= -1e-9 * all);
            let sinks = -1e-11 * all * length * length * length;
            let clear = contact.supports.iter().all(|support| walk.height_at(support.0) >= sinks);
            (pushes && clear).then_some(contact)
        });
        sets.collect()
    }

    #[test]
    fn the_settled_set_is_the_one_that_trying_every_set_finds() {
        let mut dice = Dice(19);
        let (mut tipped, mut lifted, mut all_press) = (0, 0, 0);
        for _ in 0..3000 {
            let (piece, loads) = dice.member();
            let found = every_set(&piece, &loads);
            let Ok(contact) = piece.settle(&loads) else {
                assert!(found.is_empty(), "{piece:?} {loads:?} does not tip: {found:?}");
                tipped += 1;
                continue;
            };
            *(if contact.lifted().count() > 0 { &mut lifted } else { &mut all_press }) += 1;
            let scale: f64 = loads.iter().map(|load| load.total().abs().0).sum();
            let (got, found) = (contact.reactions(&loads), found.iter().map(|one| one.reactions(&loads)));
            let alike = |other: &Vec<Pounds>| got.iter().zip(other).all(|(a, b)| (*a - *b).abs().0 <= 1e-6 * scale);
            assert!(
                found.clone().any(|other| alike(&other)),
                "{piece:?} {loads:?} {got:?} {:?}",
                found.collect::<Vec<_>>()
            );
        }
        assert!(tipped > 50 && lifted > 1000 && all_press > 200, "{tipped} tip, {lifted} lift, {all_press} press");
    }

    #[test]
    fn kinds_of_load_asked_for_one_at_a_time_add_up() {
        let mut dice = Dice(7);
        for _ in 0..500 {
            let (piece, loads) = dice.member();
            let Ok(contact) = piece.settle(&loads) else { continue };
            let scale: f64 = loads.iter().map(|load| load.total().abs().0).sum();
            let mut sums = vec![Pounds::ZERO; piece.supports.len()];
            for load in &loads {
                let alone = contact.reactions(std::slice::from_ref(load));
                sums.iter_mut().zip(alone).for_each(|(sum, one)| *sum += one);
            }
            for (sum, whole) in sums.iter().zip(contact.reactions(&loads)) {
                assert!((*sum - whole).abs().0 <= 1e-9 * scale.max(whole.abs().0));
            }
        }
    }

    #[test]
    fn a_mirrored_member_settles_in_the_mirror() {
        let mut dice = Dice(3);
        for _ in 0..500 {
            let (piece, loads) = dice.member();
            let Feet(length) = piece.to();
            let flip = |at: Feet| Feet(length - at.0);
            let seats: Vec<Feet> = piece.supports.iter().map(|at| flip(*at)).collect();
            let mirrored: Vec<Load> = loads
                .iter()
                .map(|load| match *load {
                    Load::Point { at, weight } => Load::Point { at: flip(at), weight },
                    Load::Spread { from, to, start, end } => {
                        Load::Spread { from: flip(from), to: flip(to), start, end }
                    }
                })
                .collect();
            let (one, other) = (piece.settle(&loads), Piece::new(Feet::ZERO, Feet(length), &seats).settle(&mirrored));
            assert_eq!(one.is_ok(), other.is_ok());
            let (Ok(one), Ok(other)) = (one, other) else { continue };
            let scale: f64 = loads.iter().map(|load| load.total().abs().0).sum();
            for (a, b) in one.reactions(&loads).iter().zip(other.reactions(&mirrored).iter().rev()) {
                assert!((*a - *b).abs().0 <= 1e-9 * scale);
            }
        }
    }
}
