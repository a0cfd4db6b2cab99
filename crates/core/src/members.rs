//! What one piece of wood may carry: columns, stud packs, bearing, spans, notches.
//!
//! Rules of the NDS (allowable stress) and of the residential code, each named where it stands. Pure figures: no plan, no
//! trace, no design values of species but the one in `jambs`; who asks states them, and `strength` has them. Connections, fire, rot and
//! wet wood are absent.

pub mod bearing;
pub mod column;
pub mod jambs;
pub mod joist;
pub mod notch;
pub(crate) mod root;
pub mod section;
