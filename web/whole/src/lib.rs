//! The whole engine: all that the first one does, and what the first view of the page does without.
//!
//! The page opens with the small engine of `levertrain-web`. A panel or a worker that needs more has
//! this one loaded, which then goes on with the same train. So it adds functions that take the
//! [`Sandbox`](levertrain_web::boundary) and holds nothing of its own.

/// Has it draw after an embedding what the first engine draws with crossings that need not be.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen::prelude::wasm_bindgen(start)]
pub fn start() {
    levertrain_web::draw::section::draw_nested();
}

#[cfg(target_arch = "wasm32")]
mod benchmark;
#[cfg(target_arch = "wasm32")]
mod comparing;
#[cfg(target_arch = "wasm32")]
mod drawings;
#[cfg(target_arch = "wasm32")]
mod editing;
#[cfg(target_arch = "wasm32")]
mod exercises;
#[cfg(target_arch = "wasm32")]
mod far;
#[cfg(target_arch = "wasm32")]
mod faults;
#[cfg(target_arch = "wasm32")]
mod finds;
#[cfg(target_arch = "wasm32")]
mod lesson;
#[cfg(target_arch = "wasm32")]
mod sketch;
#[cfg(target_arch = "wasm32")]
mod sources;
#[cfg(target_arch = "wasm32")]
mod swaps;
#[cfg(target_arch = "wasm32")]
mod tables;
#[cfg(target_arch = "wasm32")]
mod timings;
#[cfg(target_arch = "wasm32")]
mod traction;
#[cfg(target_arch = "wasm32")]
mod transient;
