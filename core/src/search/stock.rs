//! The tooth counts of all sets that are looked for, and their trees, in pieces. Sets that are alike share theirs.

use std::collections::VecDeque;
use std::sync::Arc;

use super::ask::Ask;
use super::cuts::Cut;
use super::cutting::{Cutting, NoCuts};
use super::limits;
use super::tree::{Growing, Tree};
use crate::model::coupling::Coupling;

/// The tooth counts of some sets that are alike, by the places of these.
pub(super) struct Stock {
    pub sets: Vec<usize>,
    pub cuts: Vec<Cut>,
    /// How many mesh rows each of them has.
    rows: usize,
}

/// Sets that have no tooth counts, and why.
pub(super) type WithoutCuts = Vec<(usize, NoCuts)>;

/// Stocks that are being filled.
pub(super) struct Stocking {
    left: VecDeque<(Stock, Cutting)>,
    full: Vec<Stock>,
    wrong: WithoutCuts,
}

impl Stocking {
    /// For these sets of all couplings; those which `is_alone` says have a stock of their own, in which nothing is merged.
    pub(super) fn new(
        couplings: &[Coupling],
        sets: &[usize],
        is_alone: impl Fn(usize) -> bool,
        ask: &Ask,
    ) -> Self {
        let mut left: VecDeque<(Stock, Cutting)> = VecDeque::new();
        for &set in sets {
            let coupling = &couplings[set];
            let alone = is_alone(set);
            let shares = |stock: &Stock| {
                let other = stock.sets[0];
                !alone && !is_alone(other) && are_alike(&couplings[other], coupling)
            };
            match left.iter_mut().find(|(stock, _)| shares(stock)) {
                Some((stock, _)) => stock.sets.push(set),
                None => {
                    let stock = Stock {
                        sets: vec![set],
                        cuts: Vec::new(),
                        rows: coupling.facts().row_ratios().len(),
                    };
                    left.push_back((stock, Cutting::new(coupling, ask, !alone)));
                }
            }
        }
        Self {
            left,
            full: Vec::new(),
            wrong: Vec::new(),
        }
    }

    /// Goes on for a piece; all stocks, once nothing is left, or why some sets have none.
    pub(super) fn run(&mut self) -> Option<Result<Vec<Stock>, WithoutCuts>> {
        let Some((stock, cutting)) = self.left.front_mut() else {
            let wrong = std::mem::take(&mut self.wrong);
            return Some(match wrong.is_empty() {
                true => Ok(std::mem::take(&mut self.full)),
                false => Err(wrong),
            });
        };
        let others: usize = self.full.iter().map(|stock| stock.cuts.len()).sum();
        match cutting.run(limits::CUTS.saturating_sub(others)) {
            Ok(None) => return None,
            Ok(Some(cuts)) => {
                stock.cuts = cuts;
                let full = self.left.pop_front().map(|(stock, _)| stock);
                self.full.extend(full);
            }
            Err(why) => {
                let wrong = stock.sets.iter().map(|&set| (set, why));
                self.wrong.extend(wrong);
                self.left.pop_front();
            }
        }
        None
    }
}

/// Trees that are being grown of stocks.
pub(super) struct Planting {
    left: VecDeque<(Vec<usize>, Growing)>,
    grown: Vec<(usize, Arc<Tree>)>,
}

impl Planting {
    pub(super) fn new(stocks: Vec<Stock>) -> Self {
        let left = stocks
            .into_iter()
            .map(|Stock { sets, cuts, rows }| (sets, Growing::new(cuts, rows)));
        Self {
            left: left.collect(),
            grown: Vec::new(),
        }
    }

    /// Goes on for a piece; the tree of each set, once nothing is left.
    pub(super) fn run(&mut self) -> Option<Vec<(usize, Arc<Tree>)>> {
        let Some((_, growing)) = self.left.front_mut() else {
            return Some(std::mem::take(&mut self.grown));
        };
        if !growing.run()
            && let Some((sets, growing)) = self.left.pop_front()
        {
            let tree = Arc::new(growing.tree());
            let trees = sets.into_iter().map(|set| (set, Arc::clone(&tree)));
            self.grown.extend(trees);
        }
        None
    }
}

/// Whether two sets have the same tooth counts within the same bounds.
pub(super) fn are_alike(one: &Coupling, other: &Coupling) -> bool {
    match (one, other) {
        (Coupling::GearPair(one), Coupling::GearPair(other)) => one.mesh == other.mesh,
        _ => std::mem::discriminant(one) == std::mem::discriminant(other),
    }
}
