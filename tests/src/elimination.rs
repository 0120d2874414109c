//! Rank by exact elimination on big integers, independent of the core's.
//!
//! The core keeps a basis of the motions; here the equations themselves are brought into
//! echelon form, so that a mistake in one is not a mistake in the other.

use num_bigint::BigInt;
use num_integer::Integer as _;

/// An equation: one coefficient a column, the sum is zero.
pub type Row = Vec<BigInt>;

/// Equations in echelon form.
#[derive(Debug, Clone, Default)]
pub struct Echelon {
    // Every row with the column of its first entry that is not zero; no two in one column.
    rows: Vec<(usize, Row)>,
}

impl Echelon {
    /// The echelon form of `rows`.
    pub fn of(rows: impl IntoIterator<Item = Row>) -> Self {
        let mut echelon = Self::default();
        for row in rows {
            echelon.add(row);
        }
        echelon
    }

    /// How many of the equations are independent.
    pub fn rank(&self) -> usize {
        self.rows.len()
    }

    /// Adds an equation; `false` when it follows from the others.
    pub fn add(&mut self, row: Row) -> bool {
        let row = self.reduced(row);
        let Some(pivot) = row.iter().position(|x| *x != BigInt::ZERO) else {
            return false;
        };
        let place = self.rows.partition_point(|(column, _)| *column < pivot);
        self.rows.insert(place, (pivot, row));
        true
    }

    /// With one more equation.
    #[must_use]
    pub fn with(&self, row: Row) -> Self {
        let mut more = self.clone();
        more.add(row);
        more
    }

    /// Whether an equation follows from these.
    pub fn implies(&self, row: Row) -> bool {
        self.reduced(row).iter().all(|x| *x == BigInt::ZERO)
    }

    /// The equation among the echelon's own whose first coefficient stands in a column.
    pub fn led_by(&self, column: usize) -> Option<&Row> {
        let led = self.rows.iter().find(|(pivot, _)| *pivot == column);
        led.map(|(_, row)| row)
    }

    /// `row` less multiples of the others, so that it is zero in all their first columns.
    fn reduced(&self, mut row: Row) -> Row {
        for (pivot, other) in &self.rows {
            if row[*pivot] == BigInt::ZERO {
                continue;
            }
            let (own, theirs) = (row[*pivot].clone(), &other[*pivot]);
            for (x, y) in row.iter_mut().zip(other) {
                *x = &*x * theirs - y * &own;
            }
            let divisor = row.iter().fold(BigInt::ZERO, |divisor, x| divisor.gcd(x));
            if divisor > BigInt::from(1) {
                row.iter_mut().for_each(|x| *x /= &divisor);
            }
        }
        row
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row<const N: usize>(values: [i64; N]) -> Row {
        values.into_iter().map(BigInt::from).collect()
    }

    #[test]
    fn dependent_rows_do_not_count() {
        let mut echelon = Echelon::of([row([0, 2, -4]), row([3, 1, 1])]);
        assert_eq!(echelon.rank(), 2);
        assert!(echelon.implies(row([6, 4, -2])));
        assert!(!echelon.add(row([-3, 1, -5])));
        assert!(!echelon.implies(row([0, 0, 1])));
        assert!(echelon.add(row([1, 1, 1])));
        assert_eq!(echelon.rank(), 3);
        assert!(echelon.implies(row([5, -7, 11])));
        // Less the equations that were there before it.
        assert_eq!(echelon.led_by(0), Some(&row([1, 0, 1])));
        assert_eq!(Echelon::of([row([0, 2, 1])]).led_by(0), None);
    }

    #[test]
    fn nothing_implies_only_the_empty_equation() {
        let echelon = Echelon::default();
        assert!(echelon.implies(row([0, 0])));
        assert!(!echelon.implies(row([0, 1])));
    }
}
