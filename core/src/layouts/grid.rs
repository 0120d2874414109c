//! The tooth ratios that the sets can have, divided into cells, and in which of them a ratio can be what is wanted.
//!
//! A ratio has its extremes over a cell at the cell's corners wherever its denominator keeps its sign, as for the teeth
//! of one layout ([`crate::search`]); where it does not, nothing is concluded. So no cell is left out that holds what
//! is wanted.

use super::ratio::Ratio;

/// Most cells, a bit each.
const CELLS: usize = 512;
/// Rounding of what is reckoned here, as a part of the magnitudes that it is reckoned from, made generous.
const ROUNDING: f64 = 1e-12;

/// A set of cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Cells([u64; CELLS / 64]);

impl Cells {
    const NONE: Self = Self([0; CELLS / 64]);
    /// All, and more than a grid may have.
    pub(super) const ALL: Self = Self([u64::MAX; CELLS / 64]);

    fn put(&mut self, cell: usize) {
        self.0[cell / 64] |= 1 << (cell % 64);
    }

    pub(super) fn both(&self, other: &Self) -> Self {
        let mut both = *self;
        for (own, other) in both.0.iter_mut().zip(other.0) {
            *own &= other;
        }
        both
    }

    pub(super) fn is_empty(&self) -> bool {
        self.0 == [0; CELLS / 64]
    }
}

/// The cells.
#[derive(Debug, Clone)]
pub(super) struct Grid {
    /// The ends of the cells along each row's tooth ratio, evenly apart as quotients.
    ends: Vec<Vec<f64>>,
    cells: usize,
}

impl Grid {
    /// Of rows whose tooth ratios are between these.
    pub(super) fn new(widest: &[[f64; 2]]) -> Self {
        let rows = widest.len() as u32;
        let along = (2_usize..=16).rev().find(|along| along.pow(rows) <= CELLS);
        let along = along.unwrap_or(1);
        let ends = widest.iter().map(|[low, high]| {
            let end = |at: usize| match at {
                0 => *low,
                _ if at == along => *high,
                _ => low * (high / low).powf(at as f64 / along as f64),
            };
            (0..=along).map(end).collect()
        });
        Self {
            ends: ends.collect(),
            cells: along.pow(rows),
        }
    }

    /// All cells.
    pub(super) fn all(&self) -> Cells {
        let mut all = Cells::NONE;
        (0..self.cells).for_each(|cell| all.put(cell));
        all
    }

    /// Between which values a ratio is in each cell, a little more rather than less.
    pub(super) fn bounds(&self, ratio: &Ratio) -> Vec<[f64; 2]> {
        let [above, below] = [&ratio.above, &ratio.below].map(|sum| self.values(sum));
        let largest = |sum: &[i64]| {
            let sizes: Vec<i64> = sum.iter().map(|value| value.abs()).collect();
            let high: Vec<f64> = self.ends.iter().map(|ends| ends[ends.len() - 1]).collect();
            value_at(&sizes, &high)
        };
        let most = [largest(&ratio.above), largest(&ratio.below)];
        let values: Vec<f64> = above.iter().zip(&below).map(|(a, b)| a / b).collect();
        let extremes = |of: &[f64]| {
            let pairs = of.iter().map(|&value| [value, value]).collect();
            self.over_corners(pairs)
        };
        let pairs = extremes(&values).into_iter().zip(extremes(&below));
        let bounds = pairs.map(|([least, greatest], [low, high])| {
            let smallest = low.abs().min(high.abs());
            if (low < 0.0) != (high < 0.0) || smallest <= ROUNDING * most[1] {
                return [f64::NEG_INFINITY, f64::INFINITY];
            }
            let size = least.abs().max(greatest.abs());
            let margin = ROUNDING * (most[0] + size * most[1]) / smallest;
            [least - margin, greatest + margin]
        });
        bounds.collect()
    }

    /// The cells in which something between these bounds can be within a window.
    pub(super) fn within(bounds: &[[f64; 2]], [least, most]: [f64; 2]) -> Cells {
        let mut cells = Cells::NONE;
        for (cell, [low, high]) in bounds.iter().enumerate() {
            if *low <= most && least <= *high {
                cells.put(cell);
            }
        }
        cells
    }

    /// The cells in which the quotient of two ratios above zero can be within a window.
    pub(super) fn quotient_within(
        [above, below]: [&[[f64; 2]]; 2],
        [least, most]: [f64; 2],
    ) -> Cells {
        let mut cells = Cells::NONE;
        for (cell, (above, below)) in above.iter().zip(below).enumerate() {
            // Ratios that may be zero or less have no bounds of a quotient here.
            let low = if below[1] > 0.0 {
                above[0] / below[1]
            } else {
                0.0
            };
            let high = if below[0] > 0.0 {
                above[1] / below[0]
            } else {
                f64::INFINITY
            };
            if low <= most && least <= high {
                cells.put(cell);
            }
        }
        cells
    }

    /// The value of a polynomial at all corners of all cells, the first row's tooth ratio changing fastest.
    fn values(&self, sum: &[i64]) -> Vec<f64> {
        let mut values: Vec<f64> = sum.iter().map(|&value| value as f64).collect();
        // From the last row on each step puts in one tooth ratio, for all of its ends: what was a block of coefficients
        // without and with it becomes a block for each end.
        let mut blocks = 1;
        for ends in self.ends.iter().rev() {
            let size = values.len() / blocks / 2;
            let mut next = Vec::with_capacity(blocks * ends.len() * size);
            for block in values.chunks_exact(2 * size) {
                let (without, with) = block.split_at(size);
                for k in ends {
                    let both = without.iter().zip(with);
                    next.extend(both.map(|(without, with)| without + with * k));
                }
            }
            values = next;
            blocks *= ends.len();
        }
        values
    }

    /// Least and greatest over the corners of each cell, from those at each corner.
    fn over_corners(&self, mut values: Vec<[f64; 2]>) -> Vec<[f64; 2]> {
        let mut before = 1;
        for ends in &self.ends {
            let along = ends.len();
            let mut next = Vec::with_capacity(values.len());
            for block in values.chunks_exact(before * along) {
                for at in 0..along - 1 {
                    let pair = block[at * before..(at + 2) * before].split_at(before);
                    let both = pair.0.iter().zip(pair.1);
                    next.extend(both.map(|(a, b)| [a[0].min(b[0]), a[1].max(b[1])]));
                }
            }
            values = next;
            before *= along - 1;
        }
        values
    }
}

fn value_at(sum: &[i64], k: &[f64]) -> f64 {
    let terms = sum.iter().enumerate().map(|(at, &value)| {
        let factors = k.iter().enumerate().filter(|(row, _)| at >> row & 1 == 1);
        value as f64 * factors.map(|(_, k)| k).product::<f64>()
    });
    terms.sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 + k₀ over k₁, with k₀ from 1 to 4 and k₁ from 1 to 9: from 2/9 to 5.
    #[test]
    fn bounds_hold_the_whole_of_a_ratio_and_no_more() {
        let grid = Grid::new(&[[1.0, 4.0], [1.0, 9.0]]);
        let ratio = Ratio::of(vec![1, 1, 0, 0], vec![0, 0, 1, 0], 2);
        let bounds = ratio.map(|ratio| grid.bounds(&ratio)).unwrap_or_default();
        assert_eq!(bounds.len(), 256);
        let whole = bounds
            .iter()
            .fold([9.0, 0.0], |[least, most]: [f64; 2], [low, high]| {
                [least.min(*low), most.max(*high)]
            });
        assert!(
            (whole[0] - 2.0 / 9.0).abs() < 1e-9 && (whole[1] - 5.0).abs() < 1e-9,
            "{whole:?}"
        );
        // The first cell: k₀ up to 4^(1/16), k₁ up to 9^(1/16).
        let [low, high] = bounds[0];
        assert!((low - 2.0 / 9.0_f64.powf(0.0625)).abs() < 1e-9);
        assert!((high - (1.0 + 4.0_f64.powf(0.0625))).abs() < 1e-9);
    }
}
