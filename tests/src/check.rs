//! Comparing with values that others published: a table of rows, printed and checked as one.

use std::fmt::Write as _;

use levertrain_core::{Combination, Fraction};
use num_bigint::BigInt;

use crate::rational::{Rational, parsed, power_of_ten, rational, zero};

/// How a value came to us.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// Read in the source named.
    Read,
    /// Only the input data were read there; the answer was computed again.
    InputsRead,
    /// From memory.
    FromMemory,
    /// Derived from the formulas.
    Derived,
}

impl Status {
    const fn words(self) -> &'static str {
        match self {
            Self::Read => "read in the source",
            Self::InputsRead => "inputs read in the source, answer recomputed",
            Self::FromMemory => "from memory",
            Self::Derived => "derived",
        }
    }
}

/// Where the expected values of a table come from.
#[derive(Debug, Clone, Copy)]
pub struct Source {
    /// The source.
    pub what: &'static str,
    /// How it came to us.
    pub status: Status,
}

/// One comparison.
#[derive(Debug, Clone)]
pub struct Row {
    quantity: String,
    actual: Option<Fraction>,
    expected: &'static str,
    exact: bool,
}

/// A row whose expected value is an exact fraction such as `12/5`.
pub fn exact(
    quantity: impl Into<String>,
    actual: impl Into<Option<Fraction>>,
    expected: &'static str,
) -> Row {
    Row {
        quantity: quantity.into(),
        actual: actual.into(),
        expected,
        exact: true,
    }
}

/// A row whose expected value is a decimal as it was printed: it must be the actual value
/// rounded to as many decimals.
pub fn published(
    quantity: impl Into<String>,
    actual: impl Into<Option<Fraction>>,
    expected: &'static str,
) -> Row {
    Row {
        exact: false,
        ..exact(quantity, actual, expected)
    }
}

/// Checks all rows and prints them: quantity, actual, expected, tolerance.
///
/// # Panics
/// When any row differs, with the whole table.
#[track_caller]
pub fn check(title: &str, source: Source, rows: &[Row]) {
    assert!(
        !rows.is_empty(),
        "{title}: a table without rows checks nothing"
    );
    let mut text = format!("{title} [{}: {}]\n", source.what, source.status.words());
    let mut wrong = 0;
    for row in rows {
        let tolerance = row.tolerance();
        let holds = row.holds(&tolerance);
        wrong += usize::from(!holds);
        let actual = row.actual.as_ref().map_or_else(
            || "undetermined".to_owned(),
            |actual| format!("{actual} = {:.6}", actual.to_f64()),
        );
        let _ = writeln!(
            text,
            "  {:<40} actual {actual}, expected {}, tolerance {tolerance}{}",
            row.quantity,
            row.expected,
            if holds { "" } else { "   <-- differs" },
        );
    }
    eprint!("{text}");
    assert!(wrong == 0, "{wrong} of {} rows differ:\n{text}", rows.len());
}

impl Row {
    /// Half a unit of the last digit printed, or nothing.
    fn tolerance(&self) -> Rational {
        if self.exact {
            return zero();
        }
        let decimals = self.expected.split_once('.').map_or(0, |(_, x)| x.len());
        Rational::new(1.into(), BigInt::from(2) * power_of_ten(decimals))
    }

    fn holds(&self, tolerance: &Rational) -> bool {
        let difference = self.actual.as_ref().map(rational).map(|actual| {
            let difference = actual - parsed(self.expected);
            if difference < zero() {
                -difference
            } else {
                difference
            }
        });
        difference.is_some_and(|difference| difference <= *tolerance)
    }
}

/// The speed of the shaft with this id when the input turns at `input_speed`.
///
/// # Panics
/// When there is no such shaft.
#[track_caller]
pub fn speed(combination: &Combination<'_>, shaft: &str, input_speed: i64) -> Option<Fraction> {
    let shafts = &combination.train().scenario().shafts;
    let Some(index) = shafts.iter().position(|known| known.id == shaft) else {
        panic!("there is no shaft {shaft}");
    };
    let per_turn = combination.shaft_speed(index)?;
    Some(&per_turn * &Fraction::from(input_speed))
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOURCE: Source = Source {
        what: "this test",
        status: Status::Derived,
    };

    fn fraction(num: i64, den: i64) -> Option<Fraction> {
        Fraction::new(num, den)
    }

    #[test]
    fn right_rows_pass() {
        let rows = [
            exact("exact", fraction(24, 10), "12/5"),
            exact("whole", fraction(-6, 2), "-3"),
            published("rounded up", fraction(2, 3), "0.67"),
            published("rounded down", fraction(-181, 73), "-2.479"),
            published("no decimals", fraction(199, 2), "100"),
        ];
        check("right", SOURCE, &rows);
    }

    #[test]
    #[should_panic(expected = "2 of 2 rows differ")]
    fn a_wrong_digit_fails() {
        let rows = [
            published("truncated instead of rounded", fraction(2, 3), "0.66"),
            exact("not quite", fraction(667, 1000), "2/3"),
        ];
        check("wrong", SOURCE, &rows);
    }

    #[test]
    #[should_panic(expected = "undetermined")]
    fn an_undetermined_value_fails() {
        check("nothing", SOURCE, &[exact("nothing", None, "0")]);
    }

    #[test]
    #[should_panic(expected = "without rows")]
    fn an_empty_table_fails() {
        check("empty", SOURCE, &[]);
    }
}
