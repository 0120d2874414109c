//! The faults that explain what was observed, fewest first.

use std::collections::BTreeMap;

use super::next_test::NextTest;
use super::{Fault, Observed, Search};

/// All single and double faults that explain what was observed.
#[derive(Debug, Clone)]
pub struct Explanations {
    /// Those that no range tells apart together; fewest faults first.
    pub groups: Vec<Group>,
    /// The range to try next.
    pub next: Option<NextTest>,
}

/// Faults that no range tells apart.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Group {
    /// How many there are at once.
    pub rank: Rank,
    /// The faults of each.
    pub sets: Vec<Vec<Fault>>,
}

/// How good an explanation is; less is better.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// One fault.
    Single,
    /// Two faults, neither of which explains everything alone.
    Both,
    /// Two faults, one of which explains everything alone.
    Beside,
}

impl Explanations {
    /// All that is known yet; one observation a trial, none where it was not tried.
    pub fn of(search: &Search, observed: &[Option<Observed>]) -> Self {
        let explaining = search.explaining(observed);
        let alone = |fault: usize| explaining.binary_search(&fault).is_ok();
        let rank = |&candidate: &usize| match search.candidates()[candidate][..] {
            [_] => Rank::Single,
            // Single faults are numbered as the faults are.
            ref faults if faults.iter().any(|&fault| alone(fault)) => Rank::Beside,
            _ => Rank::Both,
        };
        let mut ranked: Vec<(Rank, usize)> = explaining.iter().map(|x| (rank(x), *x)).collect();
        ranked.sort_unstable();

        let mut groups: Vec<Group> = Vec::new();
        let mut known: BTreeMap<(Rank, Vec<u32>), usize> = BTreeMap::new();
        for &(rank, candidate) in &ranked {
            let row = search.felt(candidate).collect();
            let group = *known.entry((rank, row)).or_insert(groups.len());
            if group == groups.len() {
                let sets = Vec::new();
                groups.push(Group { rank, sets });
            }
            groups[group]
                .sets
                .push(search.faults_of(candidate).collect());
        }
        Self {
            groups,
            next: NextTest::best(search, observed, &ranked),
        }
    }
}
