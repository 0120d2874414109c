//! What JavaScript sees: plain data out of `wire`, and on wasm the sandbox itself.

#[cfg(target_arch = "wasm32")]
mod canvas;
#[cfg(feature = "types")]
pub mod declarations;
#[cfg(target_arch = "wasm32")]
pub mod drawings;
#[cfg(target_arch = "wasm32")]
pub mod plain;
#[cfg(target_arch = "wasm32")]
pub mod sandbox;
mod sheet;
#[cfg(target_arch = "wasm32")]
mod speech;
pub mod wire;
