//! What one piece of wood may carry: columns, stud packs, bearing, spans, notches.
//!
//! Rules of the NDS (allowable stress) and of the residential code, each named where it stands. Pure figures: no plan, no
//! trace; who asks states the design values of a species, but for the one in `jambs`. Connections, fire, rot and wet wood are absent.

pub mod bearing;
pub mod column;
pub mod jambs;
pub mod joist;
pub mod notch;
