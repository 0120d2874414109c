//! One worker's part of a search.

use levertrain_core::search::{Ask, Search};
use levertrain_core::{Problem, Train};
use serde_json::json;

/// Dives by which it is told how many boxes there are: some tens of milliseconds.
const DIVES: u32 = 1000;

/// A part of a search, gone on with in pieces.
pub struct Part(Search);

impl Part {
    /// Part `which`, from 0, of `of` for what is asked, as JSON, of the train in a text.
    ///
    /// # Errors
    /// The problems of the train, of the ask, and of what is asked of the train, as JSON: a list of what the page shows.
    pub fn new(train: &str, ask: &str, which: u32, of: u32) -> Result<Self, String> {
        let train = Train::parse(train).map_err(told)?;
        let ask = Ask::parse(ask).map_err(told)?;
        let search = match of {
            1 => Search::new(&train, &ask),
            _ => Search::shard(&train, &ask, which as usize, of as usize),
        };
        search.map(Self).map_err(told)
    }

    /// Goes on for so many boxes at most; true once nothing is left.
    pub fn run(&mut self, boxes: u32) -> bool {
        self.0.run(boxes as usize)
    }

    /// About how many boxes all parts together will look at.
    pub fn estimate(&self) -> f64 {
        self.0.estimate(DIVES).boxes
    }

    /// Where it stands, to be gone on with later.
    pub fn checkpoint(&self) -> String {
        Search::checkpoint(std::slice::from_ref(&self.0))
    }

    /// Goes on where the same part stood.
    ///
    /// # Errors
    /// That it is no such place, as JSON.
    pub fn resume(&mut self, checkpoint: &str) -> Result<(), String> {
        self.0.resume(checkpoint).map_err(told)
    }

    /// How far it is and what it has found, as JSON.
    pub fn report(&self) -> String {
        // Numbers and texts always can be written.
        serde_json::to_string(&self.0.report()).unwrap_or_default()
    }

    /// The same without the finds.
    pub fn progress(&self) -> String {
        serde_json::to_string(&self.0.progress()).unwrap_or_default()
    }

    /// How often the finds have become others.
    pub fn changes(&self) -> f64 {
        self.0.changes() as f64
    }

    /// Takes in finds of another part, as JSON.
    ///
    /// # Errors
    /// That it is no list of finds, as JSON.
    pub fn tell(&mut self, finds: &str) -> Result<(), String> {
        self.0.tell_reported(finds).map_err(told)
    }
}

/// Problems in the words of the page.
pub(crate) fn told(problems: Vec<Problem>) -> String {
    let problems = problems
        .into_iter()
        .map(|Problem { place, what, fix }| json!({ "place": place, "problem": what, "fix": fix }));
    problems.collect::<serde_json::Value>().to_string()
}
