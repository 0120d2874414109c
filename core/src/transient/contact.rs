//! What elements without slip do next: which hold, and which begin to slip and which way.
//!
//! Of each element the two ends turn alike at this instant. Its torque λ may be anything within its bounds,
//! and the slip's acceleration is α = α₀ − A·λ, where α₀ is that with all of these torques at zero and
//! A = G·M⁻¹·Gᵀ for the rows G of the slips. It holds (α = 0), or slips forward with the torque at its upper bound
//! (α > 0), or backward at its lower (α < 0). These are the conditions of least ½·λᵀ·A·λ − α₀ᵀ·λ within the
//! bounds, a convex problem: A is positive semidefinite, and α₀ lies in its range. So there is a solution, α is the same in
//! all of them, and none is better than another (derived; the linear complementarity problem of rigid bodies
//! with dry friction, see P. Lötstedt, "Mechanical systems of rigid bodies subject to unilateral
//! constraints", SIAM J. Appl. Math. 42 (1982), from memory).
//!
//! As torques and bounds change with time, a bound may be reached just now. So right sides are lines, and
//! compared by their values first and their slopes where these are equal: what is found holds just after now.
//! Since A does not change, the same steps solve both.
//!
//! That all hold is tried first. Otherwise Lemke's method with lexicographic ratios finds a solution, which for a positive
//! semidefinite matrix it does in finitely many steps (R. W. Cottle, J.-S. Pang, R. E. Stone, *The Linear
//! Complementarity Problem*, 1992, from memory).

use super::dense::{Symmetric, cholesky_solve, least_solve};
use super::line::Line;

/// What an element does that has no slip now.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Next {
    /// It goes on without slip, with this torque.
    Holds(Line),
    /// It begins to slip forward, at its upper bound.
    Forward,
    /// It begins to slip backward, at its lower bound.
    Backward,
}

/// Between what a torque may lie.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Bounds {
    /// From minus this to this: friction.
    Within(Line),
    /// From zero up: what blocks one way.
    FromZero,
}

/// Roundings, relative to the largest right side.
const ROUNDING: f64 = 1e-12;
/// The same for slopes, which are differences of more terms.
const SLOPE_ROUNDING: f64 = 1e-10;
/// More steps than any problem of sixteen elements has been seen to take, by far.
const MOST_STEPS: usize = 2000;

/// What keeps a torque and an acceleration from being known better, beside their own size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Noise {
    /// Of the bound: a ramp is no better known than the time.
    pub(super) torque: f64,
    /// Of the acceleration: it may be the small difference of large ones.
    pub(super) acceleration: f64,
}

/// Decides what each does; `None` where roundings keep it from being found.
///
/// `surplus` is how many of the rows depend on the others, which exact elimination says. Where that is
/// not 0, the torques that make up for each other are undetermined: the smallest of them are taken.
pub(super) fn decide(
    matrix: &Symmetric,
    free: &[Line],
    bounds: &[Bounds],
    noise: &[Noise],
    surplus: usize,
) -> Option<Vec<Next>> {
    if free.is_empty() {
        return Some(Vec::new());
    }
    // Each row is measured by its own torque, so that all have the same size.
    let scales: Vec<f64> = (0..free.len())
        .map(|row| matrix.at(row, row).max(f64::MIN_POSITIVE).sqrt().recip())
        .collect();
    let matrix = matrix.scaled(&scales);
    let free: Vec<Line> = free
        .iter()
        .zip(&scales)
        .map(|(line, scale)| line.times(*scale))
        .collect();
    let bounds: Vec<Bounds> = bounds
        .iter()
        .zip(&scales)
        .map(|(bounds, scale)| match bounds {
            Bounds::Within(most) => Bounds::Within(most.times(scale.recip())),
            Bounds::FromZero => Bounds::FromZero,
        })
        .collect();
    let noise = noise
        .iter()
        .zip(&scales)
        .map(|(noise, scale)| noise.torque / scale + noise.acceleration * scale);
    let least = roundings(&free, &bounds, noise.fold(0.0, f64::max));
    let decided = all_hold(&matrix, &free, &bounds, surplus, least)
        .or_else(|| by_lemke(&matrix, &free, &bounds, least))?;
    let scaled = |(next, scale): (Next, &f64)| match next {
        Next::Holds(torque) => Next::Holds(torque.times(*scale)),
        other => other,
    };
    Some(decided.into_iter().zip(&scales).map(scaled).collect())
}

fn roundings(free: &[Line], bounds: &[Bounds], noise: f64) -> Line {
    let mut largest = Line::default();
    let all = bounds.iter().filter_map(|bounds| match bounds {
        Bounds::Within(most) => Some(most),
        Bounds::FromZero => None,
    });
    for line in free.iter().chain(all) {
        largest.at = largest.at.max(line.at.abs());
        largest.slope = largest.slope.max(line.slope.abs());
    }
    Line {
        at: (largest.at * ROUNDING).max(noise),
        slope: largest.at.max(largest.slope) * SLOPE_ROUNDING,
    }
}

/// The torques with which all go on without slip, if they are within the bounds.
fn all_hold(
    matrix: &Symmetric,
    free: &[Line],
    bounds: &[Bounds],
    surplus: usize,
    least: Line,
) -> Option<Vec<Next>> {
    let torques = match surplus {
        0 => cholesky_solve(matrix, free)?,
        _ => least_solve(matrix, free, free.len().saturating_sub(surplus)),
    };
    let within = |(torque, bounds): (&Line, &Bounds)| match bounds {
        Bounds::Within(most) => [1.0, -1.0].iter().all(|&sign| {
            let room = most.plus(torque.times(sign)).cleared(least);
            !room.is_negative()
        }),
        Bounds::FromZero => !torque.cleared(least).is_negative(),
    };
    let all = torques.iter().zip(bounds).all(within);
    all.then(|| torques.into_iter().map(Next::Holds).collect())
}

/// A variable of the tableau: of row i the slack wᵢ is i, the variable zᵢ is rows + i.
struct Tableau {
    rows: usize,
    /// A row is its slacks' columns, its variables', the artificial one's.
    cells: Vec<Vec<f64>>,
    right: Vec<Line>,
    basis: Vec<usize>,
    least: Line,
}

/// Lemke's method on w = M·z + q with z = (λ − lower, v), w = (u, upper − λ), where u − v = −α.
fn by_lemke(
    matrix: &Symmetric,
    free: &[Line],
    bounds: &[Bounds],
    least: Line,
) -> Option<Vec<Next>> {
    let count = free.len();
    let lower = |index: usize| match bounds[index] {
        Bounds::Within(most) => most,
        Bounds::FromZero => Line::default(),
    };
    let upper: Vec<usize> = (0..count)
        .filter(|&index| bounds[index] != Bounds::FromZero)
        .collect();
    let rows = count + upper.len();
    let artificial = 2 * rows;
    let mut cells = vec![vec![0.0; artificial + 1]; rows];
    let mut right = vec![Line::default(); rows];
    for (row, cell) in cells.iter_mut().enumerate() {
        cell[row] = 1.0;
        cell[artificial] = -1.0;
    }
    for row in 0..count {
        let mut sum = free[row].times(-1.0);
        for column in 0..count {
            cells[row][rows + column] = -matrix.at(row, column);
            sum = sum.plus(lower(column).times(-matrix.at(row, column)));
        }
        right[row] = sum;
    }
    for (place, &index) in upper.iter().enumerate() {
        let row = count + place;
        cells[index][rows + row] = -1.0;
        cells[row][rows + index] = 1.0;
        right[row] = lower(index).times(2.0);
    }
    let mut tableau = Tableau {
        rows,
        cells,
        right,
        basis: (0..rows).collect(),
        least,
    };
    tableau.solve()?;
    let is_basic = |variable: usize| tableau.basis.contains(&variable);
    let place_of = |index: usize| upper.iter().position(|&known| known == index);
    let mut decided = vec![Next::Backward; count];
    let mut held = Vec::new();
    for (index, next) in decided.iter_mut().enumerate() {
        let at_upper = place_of(index).is_some_and(|place| is_basic(rows + count + place));
        if is_basic(index) {
            *next = Next::Backward;
        } else if at_upper {
            *next = Next::Forward;
        } else {
            held.push(index);
        }
    }
    // Their torques anew, from the matrix itself: the tableau has gone through many steps.
    let part = matrix.part(&held);
    let left: Vec<Line> = held
        .iter()
        .map(|&row| {
            let others = (0..count).filter(|index| !held.contains(index));
            others.fold(free[row], |sum, index| {
                let torque = match decided[index] {
                    Next::Forward => lower(index),
                    _ => lower(index).times(-1.0),
                };
                sum.plus(torque.times(-matrix.at(row, index)))
            })
        })
        .collect();
    let torques = cholesky_solve(&part, &left)?;
    for (&index, torque) in held.iter().zip(torques) {
        decided[index] = Next::Holds(torque);
    }
    Some(decided)
}

impl Tableau {
    fn solve(&mut self) -> Option<()> {
        let artificial = 2 * self.rows;
        let cleared: Vec<Line> = self.right.iter().map(|x| x.cleared(self.least)).collect();
        let mut leaving = (0..self.rows)
            .filter(|&row| cleared[row].is_negative())
            .min_by(|&a, &b| cleared[a].order(cleared[b]));
        let mut entering = artificial;
        for _ in 0..MOST_STEPS {
            let Some(row) = leaving else {
                // Only before the first step: all right sides are good as they are.
                return (entering == artificial).then_some(());
            };
            let left = self.basis[row];
            self.pivot(row, entering);
            self.basis[row] = entering;
            if left == artificial {
                return Some(());
            }
            entering = match left < self.rows {
                true => left + self.rows,
                false => left - self.rows,
            };
            leaving = Some(self.leaving(entering)?);
        }
        None
    }

    /// The row whose variable comes to zero first as `entering` grows.
    fn leaving(&self, entering: usize) -> Option<usize> {
        let artificial = 2 * self.rows;
        let rows = (0..self.rows).filter(|&row| self.cells[row][entering] > 1e-11);
        let mut best: Option<usize> = None;
        for row in rows {
            let Some(known) = best else {
                best = Some(row);
                continue;
            };
            if self.comes_first(row, known, entering, artificial) {
                best = Some(row);
            }
        }
        best
    }

    fn comes_first(&self, row: usize, known: usize, entering: usize, artificial: usize) -> bool {
        let ratio = |row: usize| {
            let right = self.right[row].cleared(self.least);
            right.times(self.cells[row][entering].recip())
        };
        let (a, b) = (ratio(row), ratio(known));
        let apart = a.plus(b.times(-1.0)).cleared(self.least);
        if apart.is_negative() || apart.is_positive() {
            return apart.is_negative();
        }
        if self.basis[row] == artificial || self.basis[known] == artificial {
            return self.basis[row] == artificial;
        }
        for slack in 0..self.rows {
            let apart = self.cells[row][slack] / self.cells[row][entering]
                - self.cells[known][slack] / self.cells[known][entering];
            if apart.abs() > 1e-11 {
                return apart < 0.0;
            }
        }
        false
    }

    fn pivot(&mut self, row: usize, column: usize) {
        let factor = self.cells[row][column].recip();
        self.cells[row].iter_mut().for_each(|cell| *cell *= factor);
        self.right[row] = self.right[row].times(factor);
        let (pivot, right) = (self.cells[row].clone(), self.right[row]);
        for other in (0..self.rows).filter(|&other| other != row) {
            let factor = self.cells[other][column];
            if factor != 0.0 {
                for (cell, own) in self.cells[other].iter_mut().zip(&pivot) {
                    *cell -= factor * own;
                }
                self.right[other] = self.right[other].plus(right.times(-factor));
            }
        }
    }
}
