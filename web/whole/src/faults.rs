//! What faults make of a train, and which of them explain what was observed.

use levertrain_core::Train;
use levertrain_core::faults::{
    BecomesReport, ExplanationsReport, Fault, FaultsReport, Observed, Search,
};
use levertrain_web::boundary::plain::{plain, problems};
use wasm_bindgen::prelude::*;

/// A search for the faults of one train, worked out in pieces.
#[wasm_bindgen]
pub struct FaultSearch(Search);

#[wasm_bindgen]
impl FaultSearch {
    /// Begins with the train in a text.
    #[wasm_bindgen(constructor)]
    pub fn new(text: &str) -> Result<FaultSearch, JsValue> {
        let train = Train::parse(text).map_err(problems)?;
        Ok(Self(Search::new(&train)))
    }

    /// What can be broken, and what is tried.
    #[wasm_bindgen(unchecked_return_type = "Faults")]
    pub fn list(&self) -> Result<JsValue, JsValue> {
        plain(&FaultsReport::of(&self.0))
    }

    /// What faults, by their places in the list, make of all that is tried, in order.
    #[wasm_bindgen(unchecked_return_type = "Becomes[]")]
    pub fn becomes(&self, faults: &[u32]) -> Result<JsValue, JsValue> {
        let known = faults
            .iter()
            .filter_map(|&at| self.0.faults().get(at as usize));
        let faults: Vec<Fault> = known.copied().collect();
        plain(&BecomesReport::all(&self.0, &faults))
    }

    /// Works out what some more single and double faults make of some ranges; whether any are left.
    pub fn advance(&mut self, cells: u32) -> bool {
        self.0.advance(cells as usize)
    }

    /// Which part of them is known, from 0 to 1.
    pub fn progress(&self) -> f64 {
        let (done, all) = self.0.progress();
        done as f64 / all.max(1) as f64
    }

    /// What is known yet of what explains these observations: a word for each trial, empty where it was
    /// not tried.
    #[wasm_bindgen(unchecked_return_type = "Explanations")]
    pub fn explain(&self, observed: Vec<String>) -> Result<JsValue, JsValue> {
        let observed: Vec<Option<Observed>> =
            observed.iter().map(|word| self.0.read(word)).collect();
        plain(&ExplanationsReport::of(&self.0, &observed))
    }
}
