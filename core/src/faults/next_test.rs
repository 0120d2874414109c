//! The range to try next.

use super::explain::Rank;
use super::{Observed, Search};

/// The range whose outcome leaves the fewest explanations, each taken to be as likely as the others.
///
/// Of those with the fewest faults, as long as a range tells some of them apart; else also of those
/// with more.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NextTest {
    /// Which trial.
    pub trial: usize,
    /// How many explanations it is asked about.
    pub of: usize,
    /// How many of them will be left, in the mean, times `of`.
    pub left_times_of: usize,
    /// The most that can be left.
    pub most: usize,
}

impl NextTest {
    /// The best one, the first of equals; none where no range tells anything apart.
    pub(super) fn best(
        search: &Search,
        observed: &[Option<Observed>],
        ranked: &[(Rank, usize)],
    ) -> Option<Self> {
        let untried = |&trial: &usize| matches!(observed.get(trial), None | Some(None));
        Rank::ALL.into_iter().find_map(|last| {
            let pool = ranked.partition_point(|(rank, _)| *rank <= last);
            let rows: Vec<Vec<u32>> = ranked[..pool]
                .iter()
                .map(|(_, candidate)| search.felt(*candidate).collect())
                .collect();
            let trials = (0..search.trials().len()).filter(untried);
            let best = trials
                .map(|trial| Self::of_trial(search, trial, &rows))
                .min_by_key(|test| test.left_times_of)?;
            (best.left_times_of < pool * pool).then_some(best)
        })
    }

    /// What a trial tells apart. What is undecided agrees with whatever is observed, and nothing is learned
    /// where it is the truth.
    fn of_trial(search: &Search, trial: usize, rows: &[Vec<u32>]) -> Self {
        let mut counts = vec![0; search.kinds()];
        let mut undecided = 0;
        for row in rows {
            match search.is_undecided(row[trial]) {
                true => undecided += 1,
                false => counts[row[trial] as usize] += 1,
            }
        }
        let left = counts
            .iter()
            .map(|count: &usize| count * (count + undecided));
        let most = counts.iter().max().map_or(0, |count| *count) + undecided;
        Self {
            trial,
            of: rows.len(),
            left_times_of: left.sum::<usize>() + undecided * rows.len(),
            most,
        }
    }

    /// How many explanations will be left, in the mean.
    pub fn left(&self) -> f64 {
        self.left_times_of as f64 / self.of as f64
    }
}
