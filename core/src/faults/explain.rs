//! The faults that explain what was observed, fewest first.

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

impl Rank {
    /// The best first.
    pub(super) const ALL: [Self; 3] = [Self::Single, Self::Both, Self::Beside];
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
        let mut ranked: Vec<(Rank, usize)> = Vec::new();
        let mut groups: Vec<Group> = Vec::new();
        for wanted in Rank::ALL {
            // What the candidates of each group make of the trials, in ascending order, with its place.
            let mut known: Vec<(Vec<u32>, usize)> = Vec::new();
            for &candidate in explaining.iter().filter(|x| rank(x) == wanted) {
                ranked.push((wanted, candidate));
                let row: Vec<u32> = search.felt(candidate).collect();
                let place = known.binary_search_by(|(known, _)| known.cmp(&row));
                let place = place.unwrap_or_else(|place| {
                    known.insert(place, (row, groups.len()));
                    groups.push(Group {
                        rank: wanted,
                        sets: Vec::new(),
                    });
                    place
                });
                let set = search.faults_of(candidate).collect();
                groups[known[place].1].sets.push(set);
            }
        }
        Self {
            groups,
            next: NextTest::best(search, observed, &ranked),
        }
    }
}
