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
    cuts.sort_by(|a, b| a.0.total_cmp(&b.0));
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
        under.sort_by(|a, b| a.0.total_cmp(&b.0));
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
