//! The page: canvas, pointer and keyboard over `joistwise_core`.

pub mod ink;
pub mod paint;
pub mod scene;
pub mod svg;
pub mod view;
