//! Small symmetric systems: as many rows as elements that do not slip.

use super::line::Line;

/// A symmetric matrix.
#[derive(Debug, Clone)]
pub(super) struct Symmetric {
    size: usize,
    cells: Vec<f64>,
}

impl Symmetric {
    /// The products of all pairs of rows.
    pub(super) fn of_products(rows: &[&[f64]]) -> Self {
        let size = rows.len();
        let mut cells = vec![0.0; size * size];
        for (row, a) in rows.iter().enumerate() {
            for (column, b) in rows[..=row].iter().enumerate() {
                let product = dot(a, b);
                cells[row * size + column] = product;
                cells[column * size + row] = product;
            }
        }
        Self { size, cells }
    }

    pub(super) fn at(&self, row: usize, column: usize) -> f64 {
        self.cells[row * self.size + column]
    }

    /// Rows and columns times these factors.
    pub(super) fn scaled(&self, factors: &[f64]) -> Self {
        let mut scaled = self.clone();
        for row in 0..self.size {
            for column in 0..self.size {
                scaled.cells[row * self.size + column] *= factors[row] * factors[column];
            }
        }
        scaled
    }

    /// Some of its rows and columns.
    pub(super) fn part(&self, kept: &[usize]) -> Self {
        let cells = kept
            .iter()
            .flat_map(|&row| kept.iter().map(move |&column| self.at(row, column)));
        Self {
            size: kept.len(),
            cells: cells.collect(),
        }
    }
}

/// The sum of products.
pub(super) fn dot(a: &[f64], b: &[f64]) -> f64 {
    a.iter().zip(b).map(|(a, b)| a * b).sum()
}

/// Solves a positive definite system; `None` where it is none.
pub(super) fn cholesky_solve(matrix: &Symmetric, right: &[Line]) -> Option<Vec<Line>> {
    let size = matrix.size;
    let mut factor = matrix.cells.clone();
    for row in 0..size {
        for column in 0..=row {
            let (above, below) = (row * size, column * size);
            let known = dot(
                &factor[above..above + column],
                &factor[below..below + column],
            );
            let left = matrix.at(row, column) - known;
            factor[above + column] = match row == column {
                true if left <= 0.0 => return None,
                true => left.sqrt(),
                false => left / factor[below + column],
            };
        }
    }
    let mut solution = right.to_vec();
    for row in 0..size {
        let known = (0..row).fold(solution[row], |sum, column| {
            sum.plus(solution[column].times(-factor[row * size + column]))
        });
        solution[row] = known.times(factor[row * size + row].recip());
    }
    for row in (0..size).rev() {
        let known = (row + 1..size).fold(solution[row], |sum, column| {
            sum.plus(solution[column].times(-factor[column * size + row]))
        });
        solution[row] = known.times(factor[row * size + row].recip());
    }
    Some(solution)
}

/// The smallest solution of a consistent system whose rank is known, by its eigenvectors (Jacobi's
/// rotations; G. H. Golub, C. F. Van Loan, *Matrix Computations*, from memory).
pub(super) fn least_solve(matrix: &Symmetric, right: &[Line], rank: usize) -> Vec<Line> {
    let size = matrix.size;
    let mut cells = matrix.cells.clone();
    let mut vectors = vec![0.0; size * size];
    (0..size).for_each(|place| vectors[place * size + place] = 1.0);
    // Convergence is quadratic: a matrix of sixteen rows takes seven sweeps or so.
    for _ in 0..30 {
        for p in 0..size {
            for q in p + 1..size {
                rotate(&mut cells, &mut vectors, size, p, q);
            }
        }
    }
    let mut order: Vec<usize> = (0..size).collect();
    order.sort_by(|&a, &b| cells[b * size + b].total_cmp(&cells[a * size + a]));
    let mut solution = vec![Line::default(); size];
    for &place in &order[..rank] {
        let vector = |row: usize| vectors[row * size + place];
        let along = (0..size).fold(Line::default(), |sum, row| {
            sum.plus(right[row].times(vector(row)))
        });
        let share = along.times(cells[place * size + place].recip());
        for (row, value) in solution.iter_mut().enumerate() {
            *value = value.plus(share.times(vector(row)));
        }
    }
    solution
}

/// Makes one cell beside the diagonal zero.
fn rotate(cells: &mut [f64], vectors: &mut [f64], size: usize, p: usize, q: usize) {
    let beside = cells[p * size + q];
    if beside == 0.0 {
        return;
    }
    let half = (cells[q * size + q] - cells[p * size + p]) / (2.0 * beside);
    let tangent = half.signum() / (half.abs() + (half * half + 1.0).sqrt());
    let cosine = (tangent * tangent + 1.0).sqrt().recip();
    let sine = tangent * cosine;
    let turn = |cells: &mut [f64], a: usize, b: usize| {
        let (x, y) = (cells[a], cells[b]);
        cells[a] = cosine * x - sine * y;
        cells[b] = sine * x + cosine * y;
    };
    for k in 0..size {
        turn(cells, k * size + p, k * size + q);
    }
    for k in 0..size {
        turn(cells, p * size + k, q * size + k);
        turn(vectors, k * size + p, k * size + q);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A singular system: the smallest solution shares alike.
    #[test]
    fn what_two_hold_together_each_holds_half() {
        let row: &[f64] = &[3.0, 4.0];
        let matrix = Symmetric::of_products(&[row, row]);
        let right = [Line {
            at: 50.0,
            slope: 25.0,
        }; 2];
        for torque in least_solve(&matrix, &right, 1) {
            assert!((torque.at - 1.0).abs() < 1e-15 && (torque.slope - 0.5).abs() < 1e-15);
        }
        assert!(cholesky_solve(&matrix, &right).is_none());
    }
}
