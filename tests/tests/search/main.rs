//! Finding teeth, against trying everything, against published trains, and against random candidates.

mod brute;
mod candidates;
mod command;
mod everything;
mod published;
mod refused;
mod shards;
