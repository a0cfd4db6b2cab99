//! A member on supports that only push: reactions, moments, deflections; knows no house.
//!
//! A straight joist, rafter or beam of one section on rigid point supports: no shear deformation, no fixed ends, no
//! own weight unless it is among the loads. Joists that lap over a wall are two pieces, each in contact on its own.
//!
//! Which supports press is settled once, with every load on; after that the reactions are linear in the loads, so
//! those of roof, floor and snow may be asked for one at a time and add up.
//!
//! ```
//! use joistwise_core::statics::{Load, Piece};
//! use joistwise_core::units::{Feet, Plf, Pounds};
//!
//! let joist = Piece::new(Feet(0.0), Feet(16.0), &[Feet(0.0), Feet(16.0)]);
//! let floor = [Load::uniform(Feet(0.0), Feet(16.0), Plf(50.0))];
//! let contact = joist.settle(&floor).unwrap();
//! assert_eq!(contact.reactions(&floor), [Pounds(400.0), Pounds(400.0)]);
//! ```

mod contact;
mod lump;
mod response;
mod roots;
mod three_moments;

use serde::{Deserialize, Serialize};

pub use self::contact::{Contact, Tips};
use self::lump::Reach;
pub use self::response::{Extreme, Extremes, Response, Shear, Side, Stretch, StretchKind};
use crate::order::InOrder as _;
use crate::units::{Feet, Plf, Pounds};

/// Closer than this, a support is at the end of a member, two supports are one, a load is on the member: 1/16 in.
pub const TOUCH: Feet = Feet(1.0 / 192.0);

/// What weighs on a member; downward is positive, places are measured along the member.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub enum Load {
    /// A line load that runs straight from `start` at `from` to `end` at `to`.
    Spread {
        /// Where it begins.
        from: Feet,
        /// Where it ends.
        to: Feet,
        /// How heavy it is at `from`.
        start: Plf,
        /// How heavy it is at `to`.
        end: Plf,
    },
    /// A weight at one place.
    Point {
        /// Where it stands.
        at: Feet,
        /// How heavy it is.
        weight: Pounds,
    },
}

impl Load {
    /// A line load of one weight throughout.
    #[must_use]
    pub const fn uniform(from: Feet, to: Feet, plf: Plf) -> Self {
        Self::Spread { from, to, start: plf, end: plf }
    }

    /// The whole weight.
    #[must_use]
    pub fn total(&self) -> Pounds {
        match *self {
            Self::Spread { from, to, start, end } => (start + end) / 2.0 * (to - from).abs(),
            Self::Point { weight, .. } => weight,
        }
    }
}

/// One member, or the part of one between two laps: no breaks inside.
///
/// Loads may be given for the whole member: a piece bears what lies between its ends, and a weight exactly over a lap
/// belongs to the piece on the right. What lies past the ends of the member is nobody's.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    reach: Reach,
    supports: Vec<Feet>,
}

/// Cuts a member at its laps.
///
/// A support under a lap is in both pieces. Breaks at the ends, or closer together than [`TOUCH`], cut nothing off.
#[must_use]
pub fn pieces(from: Feet, to: Feet, supports: &[Feet], breaks: &[Feet]) -> Vec<Piece> {
    let mut cuts: Vec<Feet> = breaks.to_vec();
    cuts.order_by(Feet::total_cmp);
    let mut pieces = Vec::with_capacity(cuts.len() + 1);
    let mut begin = from;
    for cut in cuts {
        if (cut - begin).0 > TOUCH.0 && (to - cut).0 > TOUCH.0 {
            pieces.push(Piece::new(begin, cut, supports));
            begin = cut;
        }
    }
    pieces.push(Piece::new(begin, to, supports));
    let last = pieces.len() - 1;
    for (index, piece) in pieces.iter_mut().enumerate() {
        piece.reach = piece.reach.cut_at(index > 0, index < last);
    }
    pieces
}

impl Piece {
    /// A piece from one end to the other on those of `supports` that lie under it; one within [`TOUCH`] of an end is
    /// at that end.
    #[must_use]
    pub fn new(from: Feet, to: Feet, supports: &[Feet]) -> Self {
        let (from, to) = (from.min(to), from.max(to));
        let mut under: Vec<Feet> = supports
            .iter()
            .filter(|at| (from - **at).0 <= TOUCH.0 && (**at - to).0 <= TOUCH.0)
            .map(|at| at.max(from).min(to))
            .collect();
        under.order_by(Feet::total_cmp);
        Self { reach: Reach::new(from.0, to.0), supports: under }
    }

    /// The left end.
    #[must_use]
    pub const fn from(&self) -> Feet {
        Feet(self.reach.from)
    }

    /// The right end.
    #[must_use]
    pub const fn to(&self) -> Feet {
        Feet(self.reach.to)
    }

    /// The supports under this piece, from the left: reactions come in this order.
    #[must_use]
    pub fn supports(&self) -> &[Feet] {
        &self.supports
    }

    /// The supports hold down as well as up, as a bolted member's do; `None` when fewer than two are under the piece.
    #[must_use]
    pub fn held(&self) -> Option<Contact> {
        Contact::held(self)
    }

    /// Which supports press when all of `loads` are on and nothing holds the member down.
    ///
    /// # Errors
    ///
    /// [`Tips`] when no set of supports can push the member into balance: the middle of the loads lies outside the
    /// outermost supports, or there is no support.
    pub fn settle(&self, loads: &[Load]) -> Result<Contact, Tips> {
        Contact::settle(self, loads)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{FootPounds, InchesToTheFourth, Psi};

    fn piece(length: f64, supports: &[f64]) -> Piece {
        let supports: Vec<Feet> = supports.iter().copied().map(Feet).collect();
        Piece::new(Feet(0.0), Feet(length), &supports)
    }

    fn plf(from: f64, to: f64, plf: f64) -> Load {
        Load::uniform(Feet(from), Feet(to), Plf(plf))
    }

    fn post(at: f64, weight: f64) -> Load {
        Load::Point { at: Feet(at), weight: Pounds(weight) }
    }

    #[track_caller]
    fn push(contact: &Contact, loads: &[Load], expected: &[f64]) {
        let got: Vec<f64> = contact.reactions(loads).iter().map(|reaction| reaction.0).collect();
        let close = got.iter().zip(expected).all(|(got, expected)| (got - expected).abs() < 1e-9);
        assert!(close && got.len() == expected.len(), "{got:?} is not {expected:?} lb");
    }

    #[test]
    fn joists_that_run_through_put_a_quarter_more_on_the_middle_wall_than_joists_that_lap() {
        // Two 12 ft spans, 100 plf. Lapped: half of each span, 600 + 600. Run through: over the middle the joist is
        // level, so each half is built in there: 3/8 of 1200 lb at the outer wall, 5/8 twice at the middle one.
        let floor = [plf(0.0, 24.0, 100.0)];
        push(&piece(24.0, &[0.0, 12.0, 24.0]).settle(&floor).unwrap(), &floor, &[450.0, 1500.0, 450.0]);
        let lapped = pieces(Feet(0.0), Feet(24.0), &[Feet(0.0), Feet(12.0), Feet(24.0)], &[Feet(12.0)]);
        assert_eq!(lapped.len(), 2);
        for joist in lapped {
            push(&joist.settle(&floor).unwrap(), &floor, &[600.0, 600.0]);
        }
    }

    #[test]
    fn an_inner_wall_close_to_an_outer_one_lifts_the_joist_off_the_outer_one() {
        // 20 ft beside 5 ft, 100 plf. Held down, the short end would pull 562.5 lb. Free to rise it leaves its seat, and
        // by moments about 20 ft: R0 x 20 = 2500 lb x (20 - 12.5), so 937.5 lb, and the inner wall has the other 1562.5.
        let floor = [plf(0.0, 25.0, 100.0)];
        let joist = piece(25.0, &[0.0, 20.0, 25.0]);
        push(&joist.held().unwrap(), &floor, &[796.875, 2265.625, -562.5]);
        let contact = joist.settle(&floor).unwrap();
        push(&contact, &floor, &[937.5, 1562.5, 0.0]);
        assert_eq!(contact.lifted().collect::<Vec<_>>(), [2]);
    }

    #[test]
    fn a_far_end_lifts_when_only_the_other_span_is_loaded_and_that_span_is_then_simple() {
        let floor = [plf(0.0, 12.0, 100.0)];
        let contact = piece(24.0, &[0.0, 12.0, 24.0]).settle(&floor).unwrap();
        push(&contact, &floor, &[600.0, 600.0, 0.0]);
        let bends = contact.response(&floor, Psi(1.6e6), InchesToTheFourth(178.0));
        assert!((bends.overall.sagging.value.0 - 1800.0).abs() < 1e-9); // w L^2 / 8
        // The unloaded half stays straight: it rises by the end slope w L^3 / 24 EI times 12 ft.
        let rises = 100.0 * 12.0 * 12.0 * 12.0 / 24.0 * 12.0 * 1728.0 / (1.6e6 * 178.0);
        assert!((bends.overall.up.value.0 - rises).abs() < 1e-12);
        assert_eq!(bends.overall.up.at, Feet(24.0));
    }

    #[test]
    fn a_weight_on_an_overhang_tips_the_joist_unless_the_back_span_holds_it_down() {
        // 14 ft between supports, 4 ft past them. 400 lb at the tip asks for 400 x 4 / 14 = 114 lb of hold-down; 50 plf
        // on the back span alone pushes 350 lb there.
        let joist = piece(18.0, &[0.0, 14.0]);
        assert_eq!(joist.settle(&[post(18.0, 400.0)]), Err(Tips));
        let loads = [post(18.0, 400.0), plf(0.0, 14.0, 50.0)];
        let contact = joist.settle(&loads).unwrap();
        push(&contact, &loads, &[350.0 - 1600.0 / 14.0, 350.0 + 400.0 + 1600.0 / 14.0]);
        // Contact is settled; one kind alone may then pull.
        push(&contact, &loads[..1], &[-1600.0 / 14.0, 400.0 + 1600.0 / 14.0]);
    }

    #[test]
    fn a_board_on_one_support_stands_only_when_its_load_is_over_it() {
        let board = piece(10.0, &[5.0]);
        let load = [plf(0.0, 10.0, 20.0)];
        push(&board.settle(&load).unwrap(), &load, &[200.0]);
        assert_eq!(board.settle(&[plf(0.0, 9.0, 20.0)]), Err(Tips));
        assert_eq!(board.held(), None);
        assert_eq!(piece(10.0, &[]).settle(&load), Err(Tips));
        assert_eq!(piece(10.0, &[0.0, 10.0]).settle(&[post(5.0, -50.0)]), Err(Tips));
    }

    #[test]
    fn a_member_that_bears_nothing_rests_on_all_its_supports() {
        let contact = piece(30.0, &[0.0, 10.0, 30.0]).settle(&[]).unwrap();
        assert_eq!(contact.lifted().count(), 0);
        push(&contact, &[], &[0.0; 3]);
    }

    #[test]
    fn a_weight_over_a_lap_stands_on_the_joist_to_the_right_and_on_no_other() {
        let loads = [post(12.0, 300.0), post(0.0, 10.0), post(24.0, 20.0)];
        let lapped = pieces(Feet(0.0), Feet(24.0), &[Feet(0.0), Feet(12.0), Feet(24.0)], &[Feet(12.0)]);
        push(&lapped[0].held().unwrap(), &loads, &[10.0, 0.0]);
        push(&lapped[1].held().unwrap(), &loads, &[300.0, 20.0]);
    }

    #[test]
    fn a_hip_load_that_grows_to_one_end_leaves_two_thirds_there_and_bends_most_at_0_577_of_the_span() {
        // Triangle of W = 100 x 12 / 2 = 600 lb: W/3 and 2W/3; V = 0 at L/sqrt(3), where M = 2 W L / (9 sqrt(3)).
        let load = [Load::Spread { from: Feet(0.0), to: Feet(12.0), start: Plf(0.0), end: Plf(100.0) }];
        let contact = piece(12.0, &[0.0, 12.0]).settle(&load).unwrap();
        push(&contact, &load, &[200.0, 400.0]);
        let most = contact.response(&load, Psi(1.0), InchesToTheFourth(1.0)).overall;
        let root = 3.0_f64.sqrt();
        assert!((most.sagging.value.0 - 2.0 * 600.0 * 12.0 / (9.0 * root)).abs() < 1e-10);
        assert!((most.sagging.at.0 - 12.0 / root).abs() < 1e-12);
        // The slope is nothing where 15 u^4 - 30 u^2 + 7 = 0, with u = x / L; there EI v = w L^4 u (7 - 10 u^2 + 3 u^4) / 360.
        let u = (1.0 - (8.0_f64 / 15.0).sqrt()).sqrt();
        let sinks = 100.0 * 20736.0 * 1728.0 * u * (7.0 - 10.0 * u * u + 3.0 * u * u * u * u) / 360.0;
        assert!((most.down.at.0 - 12.0 * u).abs() < 1e-12);
        assert!((most.down.value.0 / sinks - 1.0).abs() < 1e-13);
    }

    #[test]
    fn two_supports_in_one_place_are_one() {
        let load = [plf(0.0, 10.0, 60.0)];
        let contact = piece(10.0, &[0.0, 10.0, 10.0]).settle(&load).unwrap();
        push(&contact, &load, &[300.0, 300.0, 0.0]);
        assert_eq!(contact.lifted().count(), 0);
        assert_eq!(piece(10.0, &[4.0, 4.0]).held(), None);
    }

    #[test]
    fn joists_over_a_middle_wall_hog_there_by_an_eighth_of_w_l_squared() {
        let floor = [plf(0.0, 24.0, 100.0)];
        let contact = piece(24.0, &[0.0, 12.0, 24.0]).settle(&floor).unwrap();
        let over: Vec<FootPounds> = contact.support_moments(&floor);
        assert_eq!(over, [FootPounds(0.0), FootPounds(-1800.0), FootPounds(0.0)]);
    }

    #[test]
    fn a_trimmer_beside_a_stair_lifts_only_off_the_wall_close_to_the_next_one() {
        // Seats at 0, 50, 152 and 173 in; half of the strip is cut from 152 to 172 in. Seen from the other end it is the
        // same joist, though 152 / 12 ft is no round number.
        let inches = |at: f64| at / 12.0;
        let seats = [0.0, 50.0, 152.0, 173.0];
        let strips = [(0.0, 173.0, 50.0 / 3.0), (0.0, 152.0, 50.0 / 6.0), (172.0, 173.0, 50.0 / 6.0)];
        let loads: Vec<Load> = strips.iter().map(|it| plf(inches(it.0), inches(it.1), it.2)).collect();
        let flipped: Vec<Load> =
            strips.iter().map(|it| plf(inches(173.0 - it.1), inches(173.0 - it.0), it.2)).collect();
        let one = piece(inches(173.0), &seats.map(inches)).settle(&loads).unwrap();
        let other = piece(inches(173.0), &seats.map(|at| inches(173.0 - at))).settle(&flipped).unwrap();
        assert_eq!(one.lifted().collect::<Vec<_>>(), [3]);
        let pushes: Vec<f64> = other.reactions(&flipped).iter().rev().map(|it| it.0).collect();
        push(&one, &loads, &pushes);
    }

    #[test]
    fn what_hangs_past_the_ends_of_the_member_is_not_borne_by_it() {
        let load = [plf(-2.0, 12.0, 100.0), post(15.0, 500.0)];
        push(&piece(10.0, &[0.0, 10.0]).settle(&load).unwrap(), &load, &[500.0, 500.0]);
    }
}
