//! The wasm boundary and the drawings of the planetary gear train sandbox.
//!
//! [`session`] holds what is on screen and knows no browser; [`draw`] turns it into pictures;
//! `boundary` (wasm only) hands both to JavaScript.

#[cfg(target_arch = "wasm32")]
mod boundary;
pub mod draw;
mod glide;
pub mod live;
pub mod powers;
pub mod session;
pub mod speed_unit;
pub mod torque_unit;
pub mod wire;
