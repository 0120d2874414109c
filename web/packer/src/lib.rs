//! Puts files into one, as a ZIP archive: what the page loads when somebody makes a package for a course system.
//!
//! A crate and a program of its own, as hardly anybody needs it. The same files give the same bytes, on every machine
//! and in every browser: nothing stands in the archive but names, contents and one fixed date.

mod archive;
#[cfg(target_arch = "wasm32")]
mod boundary;

pub use archive::{Archive, TooLarge};
