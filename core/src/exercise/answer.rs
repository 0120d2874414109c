//! What an answer is worth.

use levertrain_exact::Fraction;

use super::hint::Hint;

/// Credit, and what helps on from what was answered.
#[derive(Debug, Clone, PartialEq)]
pub struct Marked {
    /// From 0 to 1, which is right.
    pub credit: Fraction,
    /// What to look at next; of a right answer, what is worth knowing of it.
    pub hints: Vec<Hint>,
}

impl Marked {
    pub(super) fn right() -> Self {
        Self {
            credit: Fraction::ONE,
            hints: Vec::new(),
        }
    }

    pub(super) fn wrong(hint: Hint) -> Self {
        Self {
            credit: Fraction::ZERO,
            hints: vec![hint],
        }
    }

    /// Whether all of it is right.
    pub fn is_right(&self) -> bool {
        self.credit == Fraction::ONE
    }
}

/// `part` of `all`.
pub(super) fn share(part: usize, all: usize) -> Fraction {
    let [part, all] = [part, all].map(|count| i64::try_from(count).unwrap_or(i64::MAX));
    Fraction::new(part, all).unwrap_or(Fraction::ZERO)
}

/// The credit of what was picked: each wrong one takes back what a right one gives.
pub(super) fn picked<T: PartialEq>(picked: &[T], right: &[T]) -> Fraction {
    let hits = right.iter().filter(|item| picked.contains(item)).count();
    let misses = picked.iter().filter(|item| !right.contains(item)).count();
    share(hits.saturating_sub(misses), right.len())
}
