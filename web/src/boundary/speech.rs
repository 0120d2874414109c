//! What the page says, from the same catalogue as the engine.

use levertrain_core::words::{Catalogue, listed as in_words};
use wasm_bindgen::prelude::*;

/// Has this engine speak from the text of a catalogue, in the syntax of Fluent: once, before
/// anything is asked of it.
#[wasm_bindgen]
pub fn speak(text: String) {
    Catalogue::of(text.leak()).speak();
}

/// A message with what it counts, and its variables put in: name and value by turns. Its key where
/// there is none.
#[wasm_bindgen]
pub fn say(key: &str, count: usize, values: Vec<String>) -> String {
    let mut named = Vec::new();
    for pair in values.chunks_exact(2) {
        named.push((&*pair[0], &*pair[1]));
    }
    Catalogue::spoken().write(key, count, &named)
}

/// Names in a sentence: `A`, `A and B`, `A, B and C`.
#[wasm_bindgen]
pub fn listed(names: Vec<String>) -> String {
    in_words(&names)
}
