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

/// Values at the corners of a box, or coefficients.
type Corners = [f64; 1 << RATIOS];

/// A sum of products of tooth ratios: the coefficient of each set of variables.
#[derive(Debug, Clone)]
struct Sum {
    coefficients: Vec<f64>,
    /// The most that the magnitudes of the terms can add up to, which bounds what rounding can do.
    most: f64,
}

/// A ratio.
#[derive(Debug, Clone)]
pub(super) struct Quotient {
    pub variables: Vec<Variable>,
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
    fn corners<'c>(&self, ends: &[[f64; 2]], into: &'c mut Corners) -> &'c [f64] {
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
        let mut memory = [0.0; 1 << RATIOS];
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

    /// Coefficients in the variables at `kept`, with numbers for the others.
    fn partial(&self, k: &[f64], kept: [Option<usize>; 2]) -> [f64; 4] {
        let mut memory = [0.0; 1 << RATIOS];
        let values = &mut memory[..self.coefficients.len()];
        values.copy_from_slice(&self.coefficients);
        for (place, k) in k.iter().enumerate() {
            if kept.contains(&Some(place)) {
                continue;
            }
            let step = 1 << place;
            for block in values.chunks_exact_mut(2 * step) {
                let (without, with) = block.split_at_mut(step);
                for (constant, slope) in without.iter_mut().zip(with) {
                    *constant += *slope * k;
                }
            }
        }
        let bit = |place: Option<usize>| place.map(|place| 1 << place);
        let [first, second] = kept.map(bit);
        let of = |set: Option<usize>| set.map_or(0.0, |set| values[set]);
        let both = first.zip(second).map(|(first, second)| first | second);
        [values[0], of(first), of(second), of(both)]
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
        let everything = [f64::NEG_INFINITY, f64::INFINITY];
        let (mut above, mut below) = ([0.0; 1 << RATIOS], [0.0; 1 << RATIOS]);
        let below = self.below.corners(ends, &mut below);
        let mut smallest = f64::INFINITY;
        let mut signs = [false; 2];
        for value in below {
            smallest = smallest.min(value.abs());
            signs[usize::from(*value < 0.0)] = true;
        }
        if signs == [true; 2] || smallest <= self.below.most * ROUNDING {
            return everything;
        }
        let above = self.above.corners(ends, &mut above);
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

    /// Its value; not a number, or infinite, where the denominator is nothing.
    pub(super) fn value(&self, k: &[f64]) -> f64 {
        self.above.value(k) / self.below.value(k)
    }

    /// What is left where only the set `kept` is not cut yet; its own entries of `k` are not read.
    pub(super) fn partial(&self, k: &[f64], kept: usize) -> Partial {
        let place = |row: usize| {
            let wanted = Variable { set: kept, row };
            self.variables.iter().position(|&v| v == wanted)
        };
        let kept = [place(0), place(1)];
        Partial {
            above: self.above.partial(k, kept),
            below: self.below.partial(k, kept),
        }
    }
}
