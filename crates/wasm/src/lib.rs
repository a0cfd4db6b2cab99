//! The page: canvas, pointer and keyboard over `joistwise_core`.

pub mod view;
