//! The wasm boundary and the drawings.
