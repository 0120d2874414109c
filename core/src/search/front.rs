//! The finds that no other beats.

use std::sync::Arc;

use super::measures::Find;

/// How many are looked at before all others.
const RECENT: usize = 4;

/// A find that no other beats.
#[derive(Debug, Clone)]
struct Kept {
    find: Arc<Find>,
    /// Whether it was found here, and not by another part of the search.
    own: bool,
}

/// Finds of which none is at least as good as another in all that counts and better in something. Of those that are
/// equal in all that counts the one with the smallest tooth counts is kept, so that the order of finding does not
/// matter.
#[derive(Debug, Clone, Default)]
pub(super) struct Front {
    /// In order of what counts most.
    kept: Vec<Kept>,
    /// What counts of each, one after the other: most looks at a find are at that alone.
    points: Vec<f64>,
    /// How often it has become another one.
    changes: u64,
    /// Which have beaten something last, the last one first: what comes next is like what came before, so that these
    /// mostly beat it, too.
    recent: [usize; RECENT],
    /// What was taken in and not handed on to other parts of the search yet, where there are some.
    fresh: Option<Vec<Arc<Find>>>,
}

impl Front {
    /// In order of what counts most.
    pub(super) fn finds(&self) -> impl ExactSizeIterator<Item = &Arc<Find>> + Clone {
        self.kept.iter().map(|kept| &kept.find)
    }

    /// Those that were found here, and not by another part of the search.
    pub(super) fn own(&self) -> impl Iterator<Item = &Arc<Find>> {
        let own = self.kept.iter().filter(|kept| kept.own);
        own.map(|kept| &kept.find)
    }

    /// Whether one of them is at least as good as what is at best so good, and better in something.
    pub(super) fn beats(&mut self, at_best: &[f64]) -> bool {
        let size = at_best.len();
        for place in 0..RECENT {
            let start = self.recent[place] * size;
            let point = self.points.get(start..start + size);
            if point.is_some_and(|point| beats(point, at_best)) {
                self.recent[..=place].rotate_right(1);
                return true;
            }
        }
        let points = self.points.chunks_exact(size);
        // From the first that is worse in what counts most all are.
        let mut so_good = points.take_while(|point| point[0] <= at_best[0]);
        let Some(at) = so_good.position(|point| beats(point, at_best)) else {
            return false;
        };
        self.recent.rotate_right(1);
        self.recent[0] = at;
        true
    }

    /// Takes a find in, unless one is better, or as good with smaller counts; those that it beats go.
    pub(super) fn take(&mut self, find: Find) -> bool {
        let find = Arc::new(find);
        let is_taken = self.put(Arc::clone(&find), true);
        if let Some(fresh) = self.fresh.as_mut().filter(|_| is_taken) {
            fresh.push(find);
        }
        is_taken
    }

    /// The same, but that it is not handed on: for what another part of the search has found, which then is not this one's `own`.
    pub(super) fn put(&mut self, find: Arc<Find>, own: bool) -> bool {
        if self.beats(&find.counts) {
            return false;
        }
        let at = self
            .kept
            .partition_point(|other| order(&other.find.counts, &find.counts).is_lt());
        if let Some(same) = self.kept.get_mut(at)
            && same.find.counts == find.counts
        {
            let is_smaller = find.teeth < same.find.teeth;
            if is_smaller {
                *same = Kept { find, own };
                self.changes += 1;
            }
            return is_smaller;
        }
        // All that it beats come after it.
        let size = find.counts.len();
        let mut kept = at;
        for other in at..self.kept.len() {
            if beats(&find.counts, &self.points[other * size..][..size]) {
                continue;
            }
            // Most stay where they are.
            if kept < other {
                self.kept.swap(kept, other);
                self.points
                    .copy_within(other * size..(other + 1) * size, kept * size);
            }
            kept += 1;
        }
        self.kept.truncate(kept);
        self.points.truncate(kept * size);
        let start = at * size;
        self.points
            .splice(start..start, find.counts.iter().copied());
        self.kept.insert(at, Kept { find, own });
        self.changes += 1;
        true
    }

    /// How often it has become another one.
    pub(super) const fn changes(&self) -> u64 {
        self.changes
    }

    /// Has it keep what is taken in, to be handed on.
    pub(super) fn hands_on(&mut self) {
        self.fresh.get_or_insert_default();
    }

    /// What was taken in since this was last asked.
    pub(super) fn fresh(&mut self) -> Vec<Arc<Find>> {
        self.fresh.as_mut().map(std::mem::take).unwrap_or_default()
    }
}

fn beats(one: &[f64], other: &[f64]) -> bool {
    let pairs = one.iter().zip(other);
    pairs.clone().all(|(one, other)| one <= other) && one != other
}

/// Which comes first in the order of what counts most.
pub(super) fn order(one: &[f64], other: &[f64]) -> std::cmp::Ordering {
    let mut orders = one
        .iter()
        .zip(other)
        .map(|(one, other)| one.total_cmp(other));
    let first = orders.find(|order| order.is_ne());
    first.unwrap_or(std::cmp::Ordering::Equal)
}
