//! Setting a search up, in pieces: with many tooth counts that takes a second or two, and whoever is told to rest should.

use super::ask::LayoutAsk;
use super::class::Class;
use super::search::LayoutSearch;
use crate::base::problem::Problem;
use crate::search::BenchPreparation;

/// A search that is being set up.
pub struct LayoutPreparation {
    ask: LayoutAsk,
    class: Class,
    bench: BenchPreparation,
    /// Which shard it is to be, from 0, and of how many.
    shard: (usize, usize),
}

impl LayoutPreparation {
    /// Of one of `count` shards, from 0, of a search for what is asked.
    ///
    /// # Errors
    /// Every problem of what is asked that needs no tooth counts to be seen.
    pub fn shard(ask: &LayoutAsk, which: usize, count: usize) -> Result<Self, Vec<Problem>> {
        let class = ask.class()?;
        Ok(Self {
            bench: BenchPreparation::new(&class.sets, ask.of_teeth(), ask.step),
            ask: ask.clone(),
            class,
            shard: (which, count),
        })
    }

    /// Goes on for a piece of some milliseconds; the search, once it is set up.
    ///
    /// # Errors
    /// Sets that have no tooth counts within the bounds, or too many.
    pub fn run(&mut self) -> Result<Option<LayoutSearch>, Vec<Problem>> {
        let bench = self.bench.run()?;
        Ok(bench.map(|bench| LayoutSearch::of(&self.ask, self.class.clone(), bench, self.shard)))
    }

    /// Goes on until the search is set up.
    pub(super) fn finish(mut self) -> Result<LayoutSearch, Vec<Problem>> {
        loop {
            if let Some(search) = self.run()? {
                return Ok(search);
            }
        }
    }
}
