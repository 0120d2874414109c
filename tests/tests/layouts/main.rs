//! Finding layouts, against trying everything, and against published trains.

mod alike;
mod command;
mod links;
mod oracle;
mod published;
mod refused;
mod resumed;
mod schema;
mod slices;
