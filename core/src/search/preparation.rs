//! Setting a search up, in pieces: with many tooth counts that takes a second or two, and whoever is told to rest should.

use std::sync::Arc;

use super::Search;
use super::ask::Ask;
use super::asked::Asked;
use super::stock::{Planting, Stocking};
use crate::base::problem::Problem;
use crate::train::Train;

/// A search that is being set up.
pub struct Preparation {
    asked: Asked,
    /// Which shard it is to be, from 0, and of how many; all of it where there is none.
    shard: Option<(usize, usize)>,
    stage: Stage,
}

enum Stage {
    Stocking(Stocking),
    Planting(Planting),
}

impl Preparation {
    /// Of a search for what is asked of a train.
    ///
    /// # Errors
    /// Every problem of what is asked that needs no tooth counts to be seen.
    pub fn new(train: &Train, ask: &Ask) -> Result<Self, Vec<Problem>> {
        let asked = Asked::new(train, ask)?;
        Ok(Self {
            stage: Stage::Stocking(asked.stocking()),
            asked,
            shard: None,
        })
    }

    /// Of one of `count` shards, from 0.
    ///
    /// # Errors
    /// Those of [`Preparation::new`].
    pub fn shard(
        train: &Train,
        ask: &Ask,
        which: usize,
        count: usize,
    ) -> Result<Self, Vec<Problem>> {
        Ok(Self {
            shard: Some((which, count)),
            ..Self::new(train, ask)?
        })
    }

    /// Goes on for a piece of some milliseconds; the search, once it is set up.
    ///
    /// # Errors
    /// Every problem of what is asked: see [`Search::new`].
    pub fn run(&mut self) -> Result<Option<Search>, Vec<Problem>> {
        match &mut self.stage {
            Stage::Stocking(stocking) => match stocking.run() {
                None => Ok(None),
                Some(Err(wrong)) => Err(self.asked.without_cuts(&wrong)),
                Some(Ok(mut stocks)) => {
                    self.asked.keep_alike(&mut stocks)?;
                    self.stage = Stage::Planting(Planting::new(stocks));
                    Ok(None)
                }
            },
            Stage::Planting(planting) => match planting.run() {
                None => Ok(None),
                Some(trees) => {
                    let ground = Arc::new(self.asked.ground(trees)?);
                    Ok(Some(match self.shard {
                        None => {
                            let widest = ground.widest();
                            Search::over(ground, widest)
                        }
                        Some((which, count)) => Search::shard_of(ground, which, count),
                    }))
                }
            },
        }
    }

    /// Goes on until the search is set up.
    pub(super) fn finish(mut self) -> Result<Search, Vec<Problem>> {
        loop {
            if let Some(search) = self.run()? {
                return Ok(search);
            }
        }
    }
}
