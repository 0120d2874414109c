//! What is on screen, with no browser: the train that is open, what is applied, what is dragged.

pub mod editing;
pub mod far;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod far_tests;
pub mod opening;
pub mod pictures;
pub mod session;
pub mod settings;
