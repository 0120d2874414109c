//! Numbers for each coupling of a train.

/// Numbers for each coupling, one after the other in the same memory: a combination is solved in about
/// a microsecond, and a list apiece would take a good part of that.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct PerCoupling {
    values: Vec<f64>,
    /// Where those of each coupling end.
    ends: Vec<usize>,
}

impl PerCoupling {
    /// Makes them as many zeros for each coupling.
    pub(super) fn clear(&mut self, counts: impl Iterator<Item = usize>) {
        let mut end = 0;
        self.ends.clear();
        self.ends.extend(counts.map(|count| {
            end += count;
            end
        }));
        self.values.clear();
        self.values.resize(end, 0.0);
    }

    /// The numbers of each coupling in turn.
    pub fn iter(&self) -> impl Iterator<Item = &[f64]> {
        (0..self.ends.len()).map(|coupling| &self[coupling])
    }

    /// The numbers of all couplings, one after the other.
    pub fn all(&self) -> &[f64] {
        &self.values
    }

    fn range(&self, coupling: usize) -> std::ops::Range<usize> {
        let start = coupling
            .checked_sub(1)
            .map_or(0, |before| self.ends[before]);
        start..self.ends[coupling]
    }
}

impl std::ops::Index<usize> for PerCoupling {
    type Output = [f64];

    fn index(&self, coupling: usize) -> &[f64] {
        &self.values[self.range(coupling)]
    }
}

impl std::ops::IndexMut<usize> for PerCoupling {
    fn index_mut(&mut self, coupling: usize) -> &mut [f64] {
        let range = self.range(coupling);
        &mut self.values[range]
    }
}
