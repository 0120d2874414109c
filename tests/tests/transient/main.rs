//! Shifts in time: by hand, by laws, and against SciPy.

mod by_hand;
mod data;
mod laws;
mod marks;
mod scipy;
mod suited;
