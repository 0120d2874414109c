//! The finds that no other beats.

use super::measures::Find;

/// Finds of which none is at least as good as another in all that counts and better in something. Of those that are
/// equal in all that counts the one with the smallest tooth counts is kept, so that the order of finding does not
/// matter.
#[derive(Debug, Clone, Default)]
pub(super) struct Front {
    finds: Vec<Find>,
}

impl Front {
    pub(super) fn finds(&self) -> &[Find] {
        &self.finds
    }

    /// Whether one of them is at least as good as what is at best so good, and better in something.
    pub(super) fn beats(&self, at_best: &[f64]) -> bool {
        let beats = |find: &Find| beats(&find.counts, at_best);
        self.finds.iter().any(beats)
    }

    /// Takes a find in, unless one is better, or as good with smaller counts; those that it beats go.
    pub(super) fn take(&mut self, find: Find) -> bool {
        if self.beats(&find.counts) {
            return false;
        }
        if let Some(same) = self
            .finds
            .iter_mut()
            .find(|other| other.counts == find.counts)
        {
            let is_smaller = find.teeth < same.teeth;
            if is_smaller {
                *same = find;
            }
            return is_smaller;
        }
        self.finds
            .retain(|other| !beats(&find.counts, &other.counts));
        self.finds.push(find);
        true
    }

    /// In order of what counts most.
    pub(super) fn sorted(&self) -> Vec<Find> {
        let mut finds = self.finds.clone();
        finds.sort_by(|a, b| {
            let pairs = a.counts.iter().zip(&b.counts);
            let mut orders = pairs.map(|(a, b)| a.total_cmp(b));
            let first = orders.find(|order| order.is_ne());
            first
                .unwrap_or(std::cmp::Ordering::Equal)
                .then_with(|| a.teeth.cmp(&b.teeth))
        });
        finds
    }
}

fn beats(one: &[f64], other: &[f64]) -> bool {
    let mut pairs = one.iter().zip(other);
    pairs.clone().all(|(one, other)| one <= other) && pairs.any(|(one, other)| one < other)
}
