//! Finding teeth, against trying everything, against published trains, and against random candidates.

mod brute;
mod candidates;
mod cluster;
mod command;
mod everything;
mod published;
mod refused;
mod schema;
mod shards;
mod standing;
mod wishes;
