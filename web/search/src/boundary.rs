//! What JavaScript sees.

use levertrain_core::layouts::LayoutForecast;
use levertrain_core::words::Catalogue;
use wasm_bindgen::prelude::*;

use crate::layouts::{LayoutsPart, LayoutsPreparation};
use crate::part::{Forecast, Part, PartPreparation};

/// Has this engine speak from the text of a catalogue: once, before anything is asked of it.
#[wasm_bindgen]
pub fn speak(text: String) {
    Catalogue::of(text.leak()).speak();
}

/// One worker's part of a search for teeth that is being set up.
#[wasm_bindgen]
pub struct TeethSetUp(PartPreparation);

#[wasm_bindgen]
impl TeethSetUp {
    /// Part `which`, from 0, of `of`; throws the problems as a text of JSON.
    #[wasm_bindgen(constructor)]
    pub fn new(train: &str, ask: &str, which: u32, of: u32) -> Result<TeethSetUp, JsValue> {
        let preparation = PartPreparation::new(train, ask, which, of);
        preparation.map(Self).map_err(JsValue::from)
    }

    /// Goes on for a piece; the search, once it is set up; throws the problems as a text of JSON.
    pub fn run(&mut self) -> Result<Option<TeethSearch>, JsValue> {
        let part = self.0.run().map_err(JsValue::from)?;
        Ok(part.map(TeethSearch))
    }
}

/// One worker's part of a search for teeth.
#[wasm_bindgen]
pub struct TeethSearch(Part);

#[wasm_bindgen]
impl TeethSearch {
    /// Goes on for so many boxes at most; true once nothing is left.
    pub fn run(&mut self, boxes: u32) -> bool {
        self.0.run(boxes)
    }

    /// How many boxes all parts together look at, to be found out in pieces.
    pub fn forecast(&self) -> TeethForecast {
        TeethForecast(self.0.forecast())
    }

    /// Where it stands, as a text that a new one of the same part can `resume`.
    pub fn checkpoint(&self) -> String {
        self.0.checkpoint()
    }

    /// Goes on where the same part stood; throws the problems as a text of JSON.
    pub fn resume(&mut self, checkpoint: &str) -> Result<(), JsValue> {
        self.0.resume(checkpoint).map_err(JsValue::from)
    }

    /// The finds as JSON, each new one by itself, and each that was told last by its place in that list.
    pub fn news(&mut self) -> String {
        self.0.news()
    }

    /// How far it is: a `Finding` as JSON, without finds.
    pub fn progress(&self) -> String {
        self.0.progress()
    }

    /// What it has found since this was last asked, as JSON, for other parts; empty where that is nothing.
    pub fn fresh(&mut self) -> String {
        self.0.fresh()
    }

    /// How often the finds have become others.
    pub fn changes(&self) -> f64 {
        self.0.changes()
    }

    /// Takes in finds of another part, as JSON.
    pub fn tell(&mut self, finds: &str) -> Result<(), JsValue> {
        self.0.tell(finds).map_err(JsValue::from)
    }
}

/// Finds out how many boxes a search for teeth looks at.
#[wasm_bindgen]
pub struct TeethForecast(Forecast);

#[wasm_bindgen]
impl TeethForecast {
    /// Goes on for a piece; false once that is enough.
    pub fn run(&mut self) -> bool {
        self.0.run()
    }

    /// About how many boxes that are.
    pub fn boxes(&self) -> f64 {
        self.0.boxes()
    }
}

/// One worker's part of a search for layouts that is being set up.
#[wasm_bindgen]
pub struct LayoutsSetUp(LayoutsPreparation);

#[wasm_bindgen]
impl LayoutsSetUp {
    /// Part `which`, from 0, of `of`; throws the problems as a text of JSON.
    #[wasm_bindgen(constructor)]
    pub fn new(ask: &str, which: u32, of: u32) -> Result<LayoutsSetUp, JsValue> {
        let preparation = LayoutsPreparation::new(ask, which, of);
        preparation.map(Self).map_err(JsValue::from)
    }

    /// Goes on for a piece; the search, once it is set up; throws the problems as a text of JSON.
    pub fn run(&mut self) -> Result<Option<LayoutsSearch>, JsValue> {
        let part = self.0.run().map_err(JsValue::from)?;
        Ok(part.map(LayoutsSearch))
    }
}

/// One worker's part of a search for layouts.
#[wasm_bindgen]
pub struct LayoutsSearch(LayoutsPart);

#[wasm_bindgen]
impl LayoutsSearch {
    /// Goes on for so many steps at most; true once nothing is left.
    pub fn run(&mut self, steps: u32) -> bool {
        self.0.run(steps)
    }

    /// Where it stands, as a text that a new one of the same part can `resume`.
    pub fn checkpoint(&self) -> String {
        self.0.checkpoint()
    }

    /// Goes on where the same part stood; throws the problems as a text of JSON.
    pub fn resume(&mut self, checkpoint: &str) -> Result<(), JsValue> {
        self.0.resume(checkpoint).map_err(JsValue::from)
    }

    /// How long all parts together take, to be found out by going through some of it.
    pub fn forecast(&self) -> LayoutsForecast {
        LayoutsForecast(self.0.forecast())
    }

    /// How far it is and the best so many of what it has found: a `LayoutsReport` as JSON.
    pub fn report(&self, most: u32) -> String {
        self.0.report(most)
    }
}

/// Goes through some of a search for layouts, to tell how long all of it takes.
#[wasm_bindgen]
pub struct LayoutsForecast(LayoutForecast);

#[wasm_bindgen]
impl LayoutsForecast {
    /// Goes on for a piece; false where there is nothing to go through.
    pub fn run(&mut self) -> bool {
        self.0.run()
    }

    /// What the last piece took, in seconds.
    pub fn took(&mut self, seconds: f64) {
        self.0.took(seconds);
    }

    /// About how many ways of joining the sets there are.
    pub fn frames(&self) -> f64 {
        self.0.estimate().frames
    }

    /// About how many seconds all of them take.
    pub fn seconds(&self) -> f64 {
        self.0.estimate().seconds
    }
}
