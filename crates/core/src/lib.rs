//! The model of a house, the trace of its loads, the file and the link.
//!
//! Pure and total: no clock, no page, no file, no random number, and no plan it fails on. What a plan leaves open comes
//! back as a finding.

pub mod card;
#[cfg(feature = "draft")]
pub mod draft;
pub mod evidence;
pub mod footing;
pub mod geometry;
pub mod ids;
pub mod ladder;
pub mod loads;
pub mod looks;
pub mod members;
pub mod observe;
pub mod order;
pub mod path;
pub mod plan;
pub mod reach;
pub mod readings;
#[cfg(feature = "reference")]
pub mod reference;
pub mod report;
pub mod snap;
pub mod stands;
pub mod statics;
pub mod strength;
pub mod survey;
pub mod take_out;
pub mod tape;
pub mod thrust;
pub mod trace;
pub mod units;
pub mod words;
