//! What a bending member may carry: design values with their sources, the factors on them, and the checks.
//!
//! Sawn lumber, laminated veneer, glulam and light steel W shapes, allowable stress. Pure figures: no plan beyond the size
//! of a member, no trace. Nothing is answered outside the range of its table. Connections, fire and rot
//! are absent; columns and plates are in [`crate::members`].
//!
//! ```
//! use joistwise_core::plan::Member;
//! use joistwise_core::strength::lumber::{Grade, Species, lumber};
//! use joistwise_core::units::Psi;
//! let two_by_ten = Member::sawn(2, 10);
//! let row = lumber(Species::DouglasFirLarch, Grade::Two, two_by_ten).unwrap();
//! assert_eq!((row.values.fb, row.source), (Psi(900.0), "NDS Supplement 2018, Table 4A"));
//! assert!(lumber(Species::DouglasFirLarch, Grade::Two, Member::sawn(6, 10)).is_none());
//! ```

pub mod adjust;
pub mod check;
pub mod engineered;
pub mod factors;
pub mod headers;
pub mod legacy;
pub mod lumber;
pub mod net;
pub mod spans;
pub mod stability;
pub mod steel;
pub mod unstamped;
pub mod web;
