//! What every single and double fault makes of every range.

use super::faulty::{Changes, Effect};
use super::{Answer, Fault, Observed, Other, Outcome, Trial};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// Stands for an outcome that is not known yet.
const UNKNOWN: u32 = u32::MAX;

/// A table of what every single and double fault makes of every range, worked out in pieces.
///
/// Faults that change the train alike follow one another, so that each changed train is made once;
/// and most of them apply what others apply as well, so that it is solved once.
#[derive(Debug, Clone)]
pub struct Search {
    train: Train,
    trials: Vec<Trial>,
    faults: Vec<Fault>,
    /// First all single faults, then all pairs, as indices of faults.
    candidates: Vec<Vec<usize>>,
    /// The candidates in the order in which they are worked out.
    order: Vec<usize>,
    /// Of each candidate what becomes of each trial, as an index of `outcomes`.
    cells: Vec<u32>,
    outcomes: Vec<Outcome>,
    /// The indices of the outcomes in ascending order of these.
    sorted: Vec<u32>,
    /// How many cells are known.
    done: usize,
    current: Current,
}

/// The changed train that is being asked, and what it has answered.
#[derive(Debug, Clone)]
struct Current {
    changes: Changes,
    train: Train,
    /// In ascending order.
    known: Vec<(ElementSet, Answer)>,
}

impl Search {
    /// A table of which nothing is known yet.
    pub fn new(train: &Train) -> Self {
        let faults = Fault::all(train);
        let trials = Trial::all(train);
        let mut candidates: Vec<Vec<usize>> = (0..faults.len()).map(|fault| vec![fault]).collect();
        for (first, fault) in faults.iter().enumerate() {
            let others = (first + 1..faults.len()).filter(|&x| fault.goes_with(faults[x]));
            candidates.extend(others.map(|second| vec![first, second]));
        }
        let order = order_of(&candidates, &faults);
        Self {
            cells: vec![UNKNOWN; candidates.len() * trials.len()],
            current: Current {
                changes: Changes::default(),
                train: train.clone(),
                known: Vec::new(),
            },
            train: train.clone(),
            trials,
            faults,
            candidates,
            order,
            outcomes: Vec::new(),
            sorted: Vec::new(),
            done: 0,
        }
    }

    /// The whole table.
    pub fn completed(train: &Train) -> Self {
        let mut search = Self::new(train);
        while search.advance(usize::MAX) {}
        search
    }

    /// Works out some more cells of the table; whether any are left.
    pub fn advance(&mut self, cells: usize) -> bool {
        let last = self.done.saturating_add(cells).min(self.cells.len());
        while self.done < last {
            let candidate = self.order[self.done / self.trials.len()];
            let faults: Vec<Fault> = self.faults_of(candidate).collect();
            let mut effect = Effect::of(&faults);
            let changes = std::mem::take(&mut effect.changes).alike(&self.train);
            self.current.turn_to(changes, &self.train);
            loop {
                let trial = self.done % self.trials.len();
                let outcome =
                    effect.outcome(&self.trials[trial], |applied| self.current.answer(applied));
                self.cells[candidate * self.trials.len() + trial] = self.place_of(outcome);
                self.done += 1;
                if self.done == last || self.done.is_multiple_of(self.trials.len()) {
                    break;
                }
            }
        }
        self.done < self.cells.len()
    }

    /// How many cells are known, and how many there are.
    pub fn progress(&self) -> (usize, usize) {
        (self.done, self.cells.len())
    }

    /// The train while nothing is broken.
    pub fn train(&self) -> &Train {
        &self.train
    }

    /// What is tried.
    pub fn trials(&self) -> &[Trial] {
        &self.trials
    }

    /// All single faults.
    pub fn faults(&self) -> &[Fault] {
        &self.faults
    }

    /// All single and double faults, as indices of faults.
    pub fn candidates(&self) -> &[Vec<usize>] {
        &self.candidates
    }

    /// What becomes of a trial by a candidate, where that is known yet.
    pub fn outcome(&self, candidate: usize, trial: usize) -> Option<&Outcome> {
        let place = self.cells[candidate * self.trials.len() + trial];
        self.outcomes.get(place as usize)
    }

    /// What somebody observed: a word, or the ratio of an outcome that is known, as `12/5`; nothing where the
    /// word is empty.
    pub fn read(&self, word: &str) -> Option<Observed> {
        if word.is_empty() {
            return None;
        }
        Observed::parse(word).or_else(|| {
            // A ratio may be larger than any number that is quickly read, so it is compared as it is written.
            let mut ratios = self.outcomes.iter().filter_map(Outcome::ratio);
            let ratio = ratios.find(|ratio| ratio.to_string() == word);
            let other = ratio.map_or(Other::Unknown, |ratio| Other::At(ratio.clone()));
            Some(Observed::Drives(other))
        })
    }

    /// The candidates that are known to give all that was observed, one entry a trial, in their order.
    pub fn explaining(&self, observed: &[Option<Observed>]) -> Vec<usize> {
        let agrees = |&candidate: &usize| {
            let mut seen = observed.iter().take(self.trials.len()).enumerate();
            let known = self.is_known(candidate);
            known
                && seen.all(
                    |(trial, observed)| match (observed, self.outcome(candidate, trial)) {
                        (Some(observed), Some(outcome)) => observed.agrees(outcome),
                        (None, _) => true,
                        (_, None) => false,
                    },
                )
        };
        (0..self.candidates.len()).filter(agrees).collect()
    }

    /// Whether all outcomes of a candidate are known.
    fn is_known(&self, candidate: usize) -> bool {
        let cells = self.trials.len();
        self.cells[candidate * cells..][..cells].last() != Some(&UNKNOWN)
    }

    /// What a candidate makes of each trial, as felt by one who tries it, in numbers.
    pub(super) fn felt(&self, candidate: usize) -> impl Iterator<Item = u32> {
        let cells = self.trials.len();
        let row = &self.cells[candidate * cells..][..cells];
        row.iter().map(|&cell| {
            let outcome = self.outcomes.get(cell as usize);
            let felt = outcome.map(Outcome::as_felt);
            let felt = felt.filter(|felt| Some(*felt) != outcome);
            // Where the input is held nowhere, `TiedUp` has no number of its own, and needs none.
            let place = felt.and_then(|felt| self.place_in_order(felt).ok());
            place.map_or(cell, |place| self.sorted[place])
        })
    }

    /// Whether a number of [`Search::felt`] says that nothing is known.
    pub(super) fn is_undecided(&self, felt: u32) -> bool {
        self.outcomes.get(felt as usize) == Some(&Outcome::Undecided)
    }

    /// The faults of a candidate.
    pub fn faults_of(&self, candidate: usize) -> impl Iterator<Item = Fault> {
        self.candidates[candidate]
            .iter()
            .map(|&fault| self.faults[fault])
    }

    fn place_of(&mut self, outcome: Outcome) -> u32 {
        match self.place_in_order(&outcome) {
            Ok(place) => self.sorted[place],
            Err(place) => {
                let new = u32::try_from(self.outcomes.len()).unwrap_or(UNKNOWN);
                self.outcomes.push(outcome);
                self.sorted.insert(place, new);
                new
            }
        }
    }

    fn place_in_order(&self, outcome: &Outcome) -> Result<usize, usize> {
        let own = |place: &u32| self.outcomes[*place as usize].cmp(outcome);
        self.sorted.binary_search_by(own)
    }

    /// How many outcomes have been seen.
    pub(super) fn kinds(&self) -> usize {
        self.outcomes.len()
    }
}

/// Single faults first, and one after the other all pairs that change the train alike, as far as that
/// costs no sorting.
fn order_of(candidates: &[Vec<usize>], faults: &[Fault]) -> Vec<usize> {
    let keeps = |fault: &Fault| Effect::of(&[*fault]).changes.is_none();
    let keeps: Vec<bool> = faults.iter().map(keeps).collect();
    let mut order: Vec<usize> = (0..candidates.len())
        .filter(|&candidate| match candidates[candidate][..] {
            [first, second] => keeps[first] && keeps[second],
            _ => true,
        })
        .collect();
    for changing in (0..faults.len()).filter(|&fault| !keeps[fault]) {
        let is_next = |&candidate: &usize| match candidates[candidate][..] {
            [first, second] if keeps[first] => second == changing,
            [first, second] if keeps[second] => first == changing,
            [first, _] => first == changing,
            _ => false,
        };
        order.extend((0..candidates.len()).filter(is_next));
    }
    order
}

impl Current {
    fn turn_to(&mut self, changes: Changes, healthy: &Train) {
        if self.changes != changes {
            self.train = changes.made_to(healthy);
            self.changes = changes;
            self.known.clear();
        }
    }

    fn answer(&mut self, applied: ElementSet) -> Answer {
        let place = self
            .known
            .binary_search_by(|(known, _)| known.cmp(&applied));
        let place = place.unwrap_or_else(|place| {
            let answer = Answer::of(&self.train, applied);
            self.known.insert(place, (applied, answer));
            place
        });
        self.known[place].1.clone()
    }
}
