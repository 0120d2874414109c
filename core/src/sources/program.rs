//! A small linear program.

/// The most of `aim`·y over all y with row·y ≤ bound for each of `rows`, and a y that reaches it; `None` where there is no most.
/// All bounds are 0 or more, so that y = 0 is allowed.
///
/// The simplex method (Dantzig), by the smallest index (R. G. Bland 1977, from memory), so that it ends. Each unknown is the
/// difference of two that are not negative.
pub(super) fn most(aim: &[f64], rows: &[(Vec<f64>, f64)]) -> Option<(f64, Vec<f64>)> {
    let unknowns = aim.len();
    let width = 2 * unknowns;
    // Each row: its coefficients in what is not in the basis, and its bound.
    let mut table: Vec<Vec<f64>> = rows
        .iter()
        .map(|(row, bound)| {
            let scale = row.iter().fold(0.0_f64, |most, cell| most.max(cell.abs()));
            let scale = if scale > 0.0 { 1.0 / scale } else { 1.0 };
            let cells = row.iter().map(|cell| cell * scale);
            let mut cells: Vec<f64> = cells.flat_map(|cell| [cell, -cell]).collect();
            cells.push(bound.max(0.0) * scale);
            cells
        })
        .collect();
    let mut goal: Vec<f64> = aim.iter().flat_map(|cell| [*cell, -cell]).collect();
    goal.push(0.0);
    let mut outside: Vec<usize> = (0..width).collect();
    let mut basis: Vec<usize> = (width..width + table.len()).collect();
    loop {
        let size = aim.iter().fold(0.0_f64, |most, cell| most.max(cell.abs()));
        let enters = (0..width)
            .filter(|&column| goal[column] > ROUNDING * size)
            .min_by_key(|&column| outside[column]);
        let Some(enters) = enters else { break };
        let leaves = (0..table.len())
            .filter(|&row| table[row][enters] > ROUNDING)
            .map(|row| (table[row][width] / table[row][enters], basis[row], row))
            .min_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        let (_, _, leaves) = leaves?;
        let pivot = table[leaves][enters];
        let mut turned: Vec<f64> = table[leaves].iter().map(|cell| cell / pivot).collect();
        turned[enters] = 1.0 / pivot;
        for (at, row) in table.iter_mut().enumerate() {
            if at != leaves {
                exchange(row, enters, &turned);
                row[width] = row[width].max(0.0);
            }
        }
        exchange(&mut goal, enters, &turned);
        table[leaves] = turned;
        std::mem::swap(&mut basis[leaves], &mut outside[enters]);
    }
    let mut y = vec![0.0; unknowns];
    for (row, &variable) in table.iter().zip(&basis) {
        if variable < width {
            let sign = if variable % 2 == 0 { 1.0 } else { -1.0 };
            y[variable / 2] += sign * row[width];
        }
    }
    Some((-goal[width], y))
}

/// What is taken for zero beside coefficients of at most 1.
const ROUNDING: f64 = 1e-11;

/// Takes the turned row out of another, whose cell in the column becomes that of what left.
fn exchange(row: &mut [f64], enters: usize, turned: &[f64]) {
    let factor = row[enters];
    row[enters] = 0.0;
    for (cell, own) in row.iter_mut().zip(turned) {
        *cell -= factor * own;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(aim: &[f64], rows: &[(&[f64], f64)], wanted: Option<f64>) {
        let rows: Vec<_> = rows
            .iter()
            .map(|(row, bound)| (row.to_vec(), *bound))
            .collect();
        let found = most(aim, &rows);
        let value = found.as_ref().map(|(value, _)| *value);
        assert!(
            match (value, wanted) {
                (Some(value), Some(wanted)) => (value - wanted).abs() < 1e-9,
                (value, wanted) => value == wanted,
            },
            "{value:?} instead of {wanted:?}"
        );
        if let Some((value, y)) = found {
            let reached: f64 = aim.iter().zip(&y).map(|(aim, y)| aim * y).sum();
            assert!((reached - value).abs() < 1e-9, "{y:?} reaches {reached}");
        }
    }

    /// By hand: corners of the allowed region looked at one by one.
    #[test]
    fn corners_by_hand() {
        check(
            &[3.0, 5.0],
            &[(&[1.0, 0.0], 4.0), (&[0.0, 2.0], 12.0), (&[3.0, 2.0], 18.0)],
            Some(36.0),
        );
        check(&[-1.0], &[(&[-1.0], 7.0)], Some(7.0));
        check(&[1.0, 1.0], &[(&[1.0, 0.0], 4.0)], None);
        // Only the zero is allowed, by rows whose bounds are all 0.
        check(
            &[1.0, 1.0],
            &[(&[1.0, 2.0], 0.0), (&[2.0, 1.0], 0.0), (&[-1.0, -1.0], 0.0)],
            Some(0.0),
        );
        check(&[], &[], Some(0.0));
    }
}
