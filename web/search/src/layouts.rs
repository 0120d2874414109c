//! One worker's part of a search for layouts.

use levertrain_core::layouts::{LayoutAsk, LayoutForecast, LayoutPreparation, LayoutSearch};

use crate::part::told;

/// A part that is being set up, in pieces.
pub struct LayoutsPreparation(LayoutPreparation);

impl LayoutsPreparation {
    /// Part `which`, from 0, of `of` for what is asked, as JSON.
    ///
    /// # Errors
    /// The problems of what is asked, as JSON: a list of what the page shows.
    pub fn new(ask: &str, which: u32, of: u32) -> Result<Self, String> {
        let ask = LayoutAsk::parse(ask).map_err(told)?;
        let preparation = LayoutPreparation::shard(&ask, which as usize, of as usize);
        preparation.map(Self).map_err(told)
    }

    /// Goes on for a piece; the part, once it is set up.
    ///
    /// # Errors
    /// The problems of what is asked, as JSON.
    pub fn run(&mut self) -> Result<Option<LayoutsPart>, String> {
        let search = self.0.run().map_err(told)?;
        Ok(search.map(LayoutsPart))
    }
}

/// A part of a search, gone on with in pieces.
pub struct LayoutsPart(LayoutSearch);

impl LayoutsPart {
    /// Goes on for so many steps at most; true once nothing is left.
    pub fn run(&mut self, steps: u32) -> bool {
        self.0.run(steps as usize)
    }

    /// How long it takes, to be found out by going through some of it.
    pub fn forecast(&self) -> LayoutForecast {
        self.0.forecast()
    }

    /// Where it stands, to be gone on with later.
    pub fn checkpoint(&self) -> String {
        self.0.checkpoint()
    }

    /// Goes on where the same part stood.
    ///
    /// # Errors
    /// That it is no such place, as JSON.
    pub fn resume(&mut self, checkpoint: &str) -> Result<(), String> {
        self.0.resume_in_pieces(checkpoint).map_err(told)
    }

    /// How far it is and the best so many of what it has found, as JSON.
    pub fn report(&self, most: u32) -> String {
        // Numbers and texts always can be written.
        serde_json::to_string(&self.0.report(most as usize)).unwrap_or_default()
    }
}
