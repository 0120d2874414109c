//! What JavaScript sees.

use levertrain_core::words::Catalogue;
use wasm_bindgen::prelude::*;

use crate::part::Part;

/// Has this engine speak from the text of a catalogue: once, before anything is asked of it.
#[wasm_bindgen]
pub fn speak(text: String) {
    Catalogue::of(text.leak()).speak();
}

/// One worker's part of a search for teeth.
#[wasm_bindgen]
pub struct TeethSearch(Part);

#[wasm_bindgen]
impl TeethSearch {
    /// Part `which`, from 0, of `of`; throws the problems as a text of JSON.
    #[wasm_bindgen(constructor)]
    pub fn new(train: &str, ask: &str, which: u32, of: u32) -> Result<TeethSearch, JsValue> {
        Part::new(train, ask, which, of)
            .map(Self)
            .map_err(JsValue::from)
    }

    /// Goes on for so many boxes at most; true once nothing is left.
    pub fn run(&mut self, boxes: u32) -> bool {
        self.0.run(boxes)
    }

    /// How far it is and what it has found: a `Finding` as JSON.
    pub fn report(&self) -> String {
        self.0.report()
    }

    /// Takes in finds of another part, as JSON.
    pub fn tell(&mut self, finds: &str) -> Result<(), JsValue> {
        self.0.tell(finds).map_err(JsValue::from)
    }
}
