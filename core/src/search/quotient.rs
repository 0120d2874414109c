//! A ratio as a quotient of multilinear polynomials in tooth ratios, in doubles: its value, its exact bounds
//! over a box of tooth ratios, and what is left of it when all sets but one are cut.
//!
//! With all but one tooth ratio fixed it is (a + b·k)/(c + d·k), which rises or falls throughout wherever c + d·k
//! keeps its sign. So a quotient whose denominator keeps its sign over a box has its extremes at
//! corners of the box: were one elsewhere, one coordinate could be moved to an end without leaving the
//! extreme value behind. The denominator is linear in each tooth ratio, so that it keeps its sign in the box just
//! when it has the same sign at all corners.

use super::limits::RATIOS;
use crate::teach::working::Term;

/// A tooth ratio that a quotient depends on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Variable {
    /// Which of the sets that are looked for.
    pub set: usize,
    /// Which of its mesh rows.
    pub row: usize,
}

/// So many coefficients are few.
const FEW: usize = 16;

/// A sum of products of tooth ratios: the coefficient of each set of variables.
#[derive(Debug, Clone)]
struct Sum {
    coefficients: Vec<f64>,
    /// The most that the magnitudes of the terms can add up to, which bounds what rounding can do.
    most: f64,
}

/// A ratio.
#[derive(Debug, Clone)]
pub(crate) struct Quotient {
    pub(super) variables: Vec<Variable>,
    above: Sum,
    below: Sum,
}

/// What is left of a quotient when all sets but one are cut: coefficients of 1, k₀, k₁ and k₀·k₁ in the
/// tooth ratios of the last one, above and below the line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Partial {
    pub above: [f64; 4],
    pub below: [f64; 4],
}

/// Rounding of a sum of up to 2⁸ products of eight factors, relative to the sum of its magnitudes: a dozen
/// roundings of 2⁻⁵³ each in a row, made generous.
const ROUNDING: f64 = 1e-14;

impl Sum {
    fn new(terms: &[Term], bits: &[Place], variables: usize) -> Self {
        let mut coefficients = vec![0.0; 1 << variables];
        for &(rows, coefficient) in terms {
            // Coefficients are below 2⁶⁰, and far smaller in any train with a short formula.
            let mut value = coefficient as f64;
            let mut set = 0;
            for (row, place) in bits.iter().enumerate() {
                if rows >> row & 1 == 1 {
                    match place {
                        Place::Fixed(k) => value *= k,
                        Place::Variable(at) => set |= 1 << at,
                    }
                }
            }
            coefficients[set] += value;
        }
        Self {
            coefficients,
            most: 0.0,
        }
    }

    /// Its values at the corners of a box: bit i of a corner's number is set where variable i is at its upper end.
    fn corners<'c>(&self, ends: &[[f64; 2]], into: &'c mut [f64]) -> &'c [f64] {
        let count = self.coefficients.len();
        let values = &mut into[..count];
        values.copy_from_slice(&self.coefficients);
        for (place, [low, high]) in ends.iter().enumerate() {
            let step = 1 << place;
            for block in values.chunks_exact_mut(2 * step) {
                let (without, with) = block.split_at_mut(step);
                for (constant, slope) in without.iter_mut().zip(with) {
                    (*constant, *slope) = (*constant + *slope * low, *constant + *slope * high);
                }
            }
        }
        values
    }

    fn value(&self, k: &[f64]) -> f64 {
        // Most ratios depend on few: to clear room for the largest would take longer than to reckon.
        if self.coefficients.len() <= FEW {
            self.value_in(k, &mut [0.0; FEW])
        } else {
            self.value_in(k, &mut [0.0; 1 << RATIOS])
        }
    }

    fn value_in(&self, k: &[f64], memory: &mut [f64]) -> f64 {
        let values = &mut memory[..self.coefficients.len()];
        values.copy_from_slice(&self.coefficients);
        let mut length = values.len();
        for k in k.iter().rev() {
            length /= 2;
            for at in 0..length {
                values[at] += values[at + length] * k;
            }
        }
        values[0]
    }
}

/// What stands for the tooth ratio of a row.
#[derive(Debug, Clone, Copy)]
pub(super) enum Place {
    /// A set that keeps its teeth.
    Fixed(f64),
    /// The variable with this number.
    Variable(usize),
}

impl Quotient {
    /// Of terms over rows, where `places` says what stands for each row and `widest` in which box the variables
    /// are altogether.
    pub(super) fn new(
        [above, below]: [&[Term]; 2],
        places: &[Place],
        variables: Vec<Variable>,
        widest: impl Fn(Variable) -> [f64; 2],
    ) -> Self {
        let count = variables.len();
        let [mut above, mut below] = [above, below].map(|terms| Sum::new(terms, places, count));
        let ends: Vec<[f64; 2]> = variables.iter().map(|&v| widest(v)).collect();
        for sum in [&mut above, &mut below] {
            let sizes = Sum {
                coefficients: sum.coefficients.iter().map(|c| c.abs()).collect(),
                most: 0.0,
            };
            let high: Vec<f64> = ends.iter().map(|[_, high]| *high).collect();
            sum.most = sizes.value(&high);
        }
        Self {
            variables,
            above,
            below,
        }
    }

    /// Least and greatest value over a box, rounded outwards; everything where the denominator may be nothing.
    pub(super) fn bounds(&self, ends: &[[f64; 2]]) -> [f64; 2] {
        if 1 << self.variables.len() <= FEW {
            self.bounds_in(ends, [&mut [0.0; FEW], &mut [0.0; FEW]])
        } else {
            let (mut above, mut below) = ([0.0; 1 << RATIOS], [0.0; 1 << RATIOS]);
            self.bounds_in(ends, [&mut above, &mut below])
        }
    }

    fn bounds_in(&self, ends: &[[f64; 2]], [above, below]: [&mut [f64]; 2]) -> [f64; 2] {
        let everything = [f64::NEG_INFINITY, f64::INFINITY];
        let below = self.below.corners(ends, below);
        let mut smallest = f64::INFINITY;
        let mut signs = [false; 2];
        for value in below {
            smallest = smallest.min(value.abs());
            signs[usize::from(*value < 0.0)] = true;
        }
        if signs == [true; 2] || smallest <= self.below.most * ROUNDING {
            return everything;
        }
        let above = self.above.corners(ends, above);
        let [mut least, mut most] = [f64::INFINITY, f64::NEG_INFINITY];
        for (above, below) in above.iter().zip(below) {
            let value = above / below;
            least = least.min(value);
            most = most.max(value);
        }
        let size = least.abs().max(most.abs());
        let margin = ROUNDING * (self.above.most + size * self.below.most) / smallest;
        [least - margin, most + margin]
    }

    /// The same over a box whose ends are listed for all rows, of which each is a set by itself.
    pub(crate) fn bounds_among(&self, ends: &[[f64; 2]]) -> [f64; 2] {
        let mut own = [[0.0; 2]; RATIOS];
        for (own, variable) in own.iter_mut().zip(&self.variables) {
            *own = ends[variable.set];
        }
        self.bounds(&own[..self.variables.len()])
    }

    /// Its value; not a number, or infinite, where the denominator is nothing.
    pub(super) fn value(&self, k: &[f64]) -> f64 {
        self.above.value(k) / self.below.value(k)
    }

    /// Its coefficients above and below the line, one list after the other, as [`Quotient::put_in`] and
    /// [`Quotient::partial`] take them.
    pub(super) fn coefficients(&self) -> impl Iterator<Item = f64> {
        let both = self
            .above
            .coefficients
            .iter()
            .chain(&self.below.coefficients);
        both.copied()
    }

    /// How many variables it has of the sets before this one.
    pub(super) fn variables_before(&self, set: usize) -> usize {
        self.variables
            .partition_point(|variable| variable.set < set)
    }

    /// What is left when the tooth ratios `k` of the rows of a set are put in, where those of all later sets are in
    /// already: from coefficients of both sums to half as many, or a quarter for two rows.
    pub(super) fn put_in(&self, set: usize, k: [f64; 2], from: &[f64], to: &mut [f64]) {
        let before = self.variables_before(set);
        let own = &self.variables[before..self.variables_before(set + 1)];
        let (above, below) = from.split_at(from.len() / 2);
        let (to_above, to_below) = to.split_at_mut(to.len() / 2);
        for (from, to) in [(above, to_above), (below, to_below)] {
            match own {
                [] => to.copy_from_slice(from),
                [one] => {
                    let (without, with) = from.split_at(to.len());
                    for ((to, without), with) in to.iter_mut().zip(without).zip(with) {
                        *to = without + with * k[one.row];
                    }
                }
                [one, two, ..] => {
                    let quarter = to.len();
                    for (at, to) in to.iter_mut().enumerate() {
                        let [a, b, c, d] = [0, 1, 2, 3].map(|part| from[at + part * quarter]);
                        *to = a + b * k[one.row] + (c + d * k[one.row]) * k[two.row];
                    }
                }
            }
        }
    }

    /// What is left with only the first set not put in, from such coefficients.
    pub(super) fn partial(&self, left: &[f64]) -> Partial {
        let own = &self.variables[..self.variables_before(1)];
        let (above, below) = left.split_at(left.len() / 2);
        let [above, below] = [above, below].map(|sum| match own {
            [] => [sum[0], 0.0, 0.0, 0.0],
            [one] if one.row == 0 => [sum[0], sum[1], 0.0, 0.0],
            [_] => [sum[0], 0.0, sum[1], 0.0],
            [..] => [sum[0], sum[1], sum[2], sum[3]],
        });
        Partial { above, below }
    }
}
