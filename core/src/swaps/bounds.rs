//! What ranges somebody would have.

use std::cmp::Ordering;

use levertrain_exact::Fraction;

use super::partial::far_apart;

/// Bounds on the ranges of a chain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bounds {
    /// The smallest step between two neighbours, the larger ratio over the smaller; above 1.
    pub least: Fraction,
    /// The largest step.
    pub most: Fraction,
    /// The most ranges; at least 2.
    pub ranges: usize,
}

impl Bounds {
    /// The most ranges that can be asked for: as many as a file may name.
    pub const MOST_RANGES: usize = crate::model::scenario::limits::RANGES;

    /// From hundredths: steps from 1.01 on. What is out of its bounds is taken to them.
    pub fn of_hundredths(least: u32, most: u32, ranges: usize) -> Self {
        let least = least.clamp(101, 1_000_000);
        let of = |step: u32| Fraction::new(step.into(), 100).unwrap_or(Fraction::ONE);
        Self {
            least: of(least),
            most: of(most.clamp(least, 1_000_000)),
            ranges: ranges.clamp(2, Self::MOST_RANGES),
        }
    }

    /// Whether the step from a ratio to a smaller one is within bounds.
    pub(super) fn allow(&self, [from, to]: [&Fraction; 2], step: f64) -> bool {
        let exact = || from.over(to).unwrap_or(Fraction::ONE);
        let compare = |bound: &Fraction| {
            far_apart(step, bound.to_f64()).unwrap_or_else(|| exact().cmp(bound))
        };
        compare(&self.least) != Ordering::Less && compare(&self.most) != Ordering::Greater
    }
}

impl Default for Bounds {
    /// Steps from 1.1 to 2.2, which holds what ranges of road vehicles mostly have (common practice, no source), and as many ranges as
    /// there can be.
    fn default() -> Self {
        Self::of_hundredths(110, 220, Self::MOST_RANGES)
    }
}
