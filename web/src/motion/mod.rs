//! What moves: the instant that is drawn, how it glides from one combination to the next, and the
//! powers that flow in it.

pub(crate) mod glide;
pub mod instant;
pub mod live;
pub mod powers;
pub mod reach;
