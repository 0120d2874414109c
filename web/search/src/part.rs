//! One worker's part of a search.

use levertrain_core::search::{Ask, Estimating, Heard, Preparation, Search};
use levertrain_core::{Problem, Train};
use serde_json::json;

/// Dives by which it is told how many boxes there are, and how many of them are made in a piece.
const DIVES: u32 = 1000;
const DIVES_A_PIECE: u32 = 50;

/// A part that is being set up, in pieces.
pub struct PartPreparation(Preparation);

impl PartPreparation {
    /// Part `which`, from 0, of `of` for what is asked, as JSON, of the train in a text.
    ///
    /// # Errors
    /// The problems of the train, of the ask, and of what is asked of the train, as JSON: a list of what the page shows.
    pub fn new(train: &str, ask: &str, which: u32, of: u32) -> Result<Self, String> {
        let train = Train::parse(train).map_err(told)?;
        let ask = Ask::parse(ask).map_err(told)?;
        let preparation = match of {
            1 => Preparation::new(&train, &ask),
            _ => Preparation::shard(&train, &ask, which as usize, of as usize),
        };
        preparation.map(Self).map_err(told)
    }

    /// Goes on for a piece; the part, once it is set up.
    ///
    /// # Errors
    /// The problems of what is asked of the train, as JSON.
    pub fn run(&mut self) -> Result<Option<Part>, String> {
        let search = self.0.run().map_err(told)?;
        Ok(search.map(|mut search| {
            search.hands_on();
            let heard = Heard::default();
            Part { search, heard }
        }))
    }
}

/// A part of a search, gone on with in pieces.
pub struct Part {
    search: Search,
    /// Which finds were told last.
    heard: Heard,
}

impl Part {
    /// Goes on for so many boxes at most; true once nothing is left.
    pub fn run(&mut self, boxes: u32) -> bool {
        self.search.run(boxes as usize)
    }

    /// How many boxes all parts together look at, to be found out in pieces.
    pub fn forecast(&self) -> Forecast {
        Forecast {
            estimating: self.search.estimating(),
            dives: 0,
        }
    }

    /// Where it stands, to be gone on with later.
    pub fn checkpoint(&self) -> String {
        Search::checkpoint(std::slice::from_ref(&self.search))
    }

    /// Goes on where the same part stood.
    ///
    /// # Errors
    /// That it is no such place, as JSON.
    pub fn resume(&mut self, checkpoint: &str) -> Result<(), String> {
        self.search.resume_in_pieces(checkpoint).map_err(told)
    }

    /// The finds as JSON, each new one by itself, and each that was told last by its place in that list.
    pub fn news(&mut self) -> String {
        // Numbers and texts always can be written.
        serde_json::to_string(&self.search.news(&mut self.heard)).unwrap_or_default()
    }

    /// How far it is, as JSON: a report without finds.
    pub fn progress(&self) -> String {
        serde_json::to_string(&self.search.progress()).unwrap_or_default()
    }

    /// What it has found since this was last asked, as JSON, for other parts; empty where that is nothing.
    pub fn fresh(&mut self) -> String {
        let fresh = self.search.fresh();
        match fresh.is_empty() {
            true => String::new(),
            false => serde_json::to_string(&fresh).unwrap_or_default(),
        }
    }

    /// How often the finds have become others.
    pub fn changes(&self) -> f64 {
        self.search.changes() as f64
    }

    /// Takes in finds of another part, as JSON.
    ///
    /// # Errors
    /// That it is no list of finds, as JSON.
    pub fn tell(&mut self, finds: &str) -> Result<(), String> {
        self.search.tell_in_pieces(finds).map_err(told)
    }
}

/// About how many boxes all parts of a search together look at.
pub struct Forecast {
    estimating: Estimating,
    dives: u32,
}

impl Forecast {
    /// Goes on for a piece; false once that is enough.
    pub fn run(&mut self) -> bool {
        self.estimating.dive(DIVES_A_PIECE);
        self.dives += DIVES_A_PIECE;
        self.dives < DIVES
    }

    /// About how many boxes that are.
    pub fn boxes(&self) -> f64 {
        self.estimating.estimate().boxes
    }
}

/// Problems in the words of the page.
pub(crate) fn told(problems: Vec<Problem>) -> String {
    let problems = problems
        .into_iter()
        .map(|Problem { place, what, fix }| json!({ "place": place, "problem": what, "fix": fix }));
    problems.collect::<serde_json::Value>().to_string()
}
