//! The model of a house, the trace of its loads, the file and the link.

pub mod statics;
pub mod units;
