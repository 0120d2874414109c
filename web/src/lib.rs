//! The wasm boundary and the drawings of the planetary gear train sandbox.
//!
//! [`session`] holds what is on screen and knows no browser; [`draw`] turns it into pictures;
//! `boundary` (wasm only) hands both to JavaScript.

// The rooms, in the order of the alphabet; which may use which stands in `tests/tests/rooms.rs`.
pub mod boundary;
mod document;
pub mod draw;
mod motion;
mod units;

pub use document::editing::Mended;
pub use document::{far, opening, pictures, session, settings};
pub use motion::{instant, live, powers};
pub use units::{road_unit, speed_unit, torque_unit};
