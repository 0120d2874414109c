//! What is on screen, with no browser: the train that is open, what is applied, what is dragged.

pub mod editing;
pub mod far;
pub mod opening;
pub mod pictures;
pub mod session;
pub mod settings;
