//! The drawings: state to geometry by pure functions, geometry to any plotters backend.

pub mod end_view;
mod export;
mod field;
pub mod finds;
pub mod flow;
pub mod lever;
mod names;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod names_tests;
pub mod operating;
pub mod paint;
pub mod palette;
pub mod plot;
pub mod scene;
pub mod section;
mod strokes;
pub mod swaps;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
pub(crate) mod tests;
pub mod text;
mod ticks;
pub mod timings;
pub mod traction;
pub mod transient;

pub use export::svg;
pub use paint::{Device, Surface, paint};
pub use palette::Palette;
pub use scene::Scene;
