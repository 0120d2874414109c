//! What explains a train: its levers, and the formula of a ratio.

pub(crate) mod lever;
pub(crate) mod working;
