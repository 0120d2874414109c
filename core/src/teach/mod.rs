//! What explains a train: its levers, the formula of a ratio, and whether its
//! shafts can be nested.

pub(crate) mod lever;
pub(crate) mod nesting;
pub(crate) mod working;
