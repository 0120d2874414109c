//! Trying all cuts of one set where the others are cut: the innermost loop of a search.
//!
//! A ratio (a + b·k)/(c + d·k) is within least and most where (a + b·k − least·(c + d·k)) and
//! (most·(c + d·k) − a − b·k) have the same sign, whichever sign the denominator has. Nothing is divided, and nothing
//! branches, so that compilers do some candidates at once; in browsers by the instructions for two doubles that all have had
//! since 2023.

use super::quotient::Partial;

/// How many cuts are tried at once.
pub(super) const AT_ONCE: usize = 64;

/// A window for a ratio of which one set is not cut yet: the two sums that must have the same sign.
#[derive(Debug, Clone, Copy)]
pub(super) struct Window([[f64; 4]; 2]);

impl Window {
    pub(super) fn new(partial: &Partial, [least, most]: [f64; 2]) -> Self {
        let Partial { above, below } = partial;
        let sums =
            [0, 1, 2, 3].map(|at| [above[at] - least * below[at], most * below[at] - above[at]]);
        Self([0, 1].map(|side| sums.map(|sum| sum[side])))
    }
}

/// Of cuts with these tooth ratios, those that are within all windows: bit i of the result is the i-th.
///
/// `first` and `second` hold the same number of tooth ratios, at most [`AT_ONCE`]; the second are those of a set
/// with two rows and are not read where it has one.
#[cfg_attr(target_arch = "wasm32", target_feature(enable = "simd128"))]
pub(super) fn within(windows: &[Window], first: &[f64], second: Option<&[f64]>) -> u64 {
    let mut least = [f64::INFINITY; AT_ONCE];
    let least = &mut least[..first.len()];
    for Window([low, high]) in windows {
        match second {
            None => {
                let ([a, b, ..], [c, d, ..]) = (low, high);
                for (least, k) in least.iter_mut().zip(first) {
                    let product = (a + b * k) * (c + d * k);
                    *least = if product < *least { product } else { *least };
                }
            }
            Some(second) => {
                for ((least, k), l) in least.iter_mut().zip(first).zip(second) {
                    let sum = |[a, b, c, d]: &[f64; 4]| a + b * k + (c + d * k) * l;
                    let product = sum(low) * sum(high);
                    *least = if product < *least { product } else { *least };
                }
            }
        }
    }
    let bits = least.iter().enumerate();
    bits.fold(0, |bits, (at, least)| bits | u64::from(*least >= 0.0) << at)
}
