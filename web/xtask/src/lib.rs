//! The project's task runner, as a library: everything `cargo xtask` does, one concept a file.
//!
//! The browser tests use [`site::start`] and [`size::measure`] from here; the rest is for the
//! `xtask` binary. Nothing in this crate ends up in the shipped page.

// Printing is what a task runner does.
#![allow(clippy::print_stdout)]

pub mod bench;
pub mod browser;
mod bundle;
pub mod command_line;
pub mod dist;
mod editor;
pub mod engine;
pub mod node;
pub mod offline;
pub mod oracle;
pub mod other_engines;
pub mod page_types;
pub mod paths;
pub mod pins;
pub mod process;
pub mod scenario_index;
pub mod serve;
mod sheets;
pub mod site;
pub mod size;
pub mod steps;
pub mod system_packages;
pub mod system_rust;
pub mod test;
pub mod test_environment;
pub mod wasm_toolchain;
mod words;
