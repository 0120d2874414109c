//! Finds teeth and layouts for wanted ratios, in workers of the page.
//!
//! A crate and a program of its own, so that a worker loads no more than it needs, and the page nothing of it. All that
//! crosses is text: a worker hands it on as it is.

#[cfg(target_arch = "wasm32")]
mod boundary;
mod layouts;
mod part;

pub use layouts::{LayoutsPart, LayoutsPreparation};
pub use part::{Forecast, Part, PartPreparation};
