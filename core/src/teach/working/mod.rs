//! Showing the working: the closed formula of a ratio in tooth symbols.
//!
//! Each mesh row is constant + k·slope in its own ratio k (R/S for a planetary set). Where the
//! input decides the output, some of the rows combine into one equation between the two:
//! the multipliers are cofactors, so the coefficients of input and output are determinants of
//! those rows, multilinear in the k. They are evaluated exactly at the corners where every k
//! is 0 or 1, which gives their coefficients; factoring both and cancelling gives the formula.
//! Its sums are then nested until every tooth count is written few times.

mod derive;
mod equations;
mod expression;
mod grouping;
mod polynomial;
mod rows;
mod write;

use levertrain_exact::Fraction;

use crate::solve::Combination;
use derive::{Failure, Ratio};
pub use expression::{Expression, Tooth, Written};
use grouping::Variables;
use rows::{Groups, Link, Teeth, ToothRatio};

/// Most tooth symbols in a formula that is still read: two full lines of a page.
pub const MOST_SYMBOLS: usize = 60;

/// The working behind a combination.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Working {
    /// The ratio as a formula of tooth counts.
    pub ratio: Result<Expression, NoFormula>,
    /// The speed equation of each mesh row, both sides: Σ left = Σ right.
    pub equations: Vec<SetEquation>,
}

/// Why there is no formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoFormula {
    /// There is no ratio.
    NoRatio,
    /// The ratio holds only for these very tooth counts.
    OnlyTheseTeeth,
    /// It would have more than [`MOST_SYMBOLS`] tooth symbols, or combine more rows at once than
    /// makes a shorter one.
    TooLong,
}

impl NoFormula {
    /// As one word, for programs that read it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::NoRatio => "no-ratio",
            Self::OnlyTheseTeeth => "only-these-teeth",
            Self::TooLong => "too-long",
        }
    }
}

/// The speed equation of one mesh row of a coupling.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SetEquation {
    /// Index of the coupling.
    pub coupling: usize,
    /// Left side.
    pub left: Expression,
    /// Right side.
    pub right: Expression,
}

impl Working {
    /// Works a combination out.
    pub fn of(combination: &Combination<'_>) -> Self {
        Self {
            ratio: formula(combination),
            equations: equations::of(combination.train()),
        }
    }
}

fn formula(combination: &Combination<'_>) -> Result<Expression, NoFormula> {
    let Some((link, teeth)) = link(combination)? else {
        return Ok(Expression::Number(1));
    };
    let k: Vec<Fraction> = link
        .rows
        .iter()
        .map(|row| row.k_fraction(Teeth::Actual))
        .collect();
    // These counts may make a row needless that others need, or the other way round.
    let ratio = match derive::ratio(&link, Teeth::Actual) {
        Err(Failure::Coincidence) => derive::ratio(&link, Teeth::Any(1)),
        other => other,
    };
    let ratio = ratio.map_err(no_formula)?;
    let shortest = shortest(
        &ratio,
        &Variables {
            teeth: &teeth,
            k: &k,
        },
    );
    if shortest.length() > MOST_SYMBOLS {
        return Err(NoFormula::TooLong);
    }
    Ok(shortest)
}

/// A product of tooth ratios with its coefficient: bit i of the first says that the k of row i is in it,
/// the rows of all couplings counted one after the other.
pub(crate) type Term = (u32, i64);

/// A ratio as a quotient of two sums of [`Term`]s, in lowest terms, right for whatever teeth the sets have.
pub(crate) struct ToothQuotient {
    pub(crate) numerator: Vec<Term>,
    pub(crate) denominator: Vec<Term>,
}

/// The ratio of a combination in the tooth ratios of the mesh rows.
///
/// # Errors
/// There is no ratio, or none that holds for other teeth too, or it combines too many rows.
pub(crate) fn quotient(combination: &Combination<'_>) -> Result<ToothQuotient, NoFormula> {
    let Some((link, _)) = link(combination)? else {
        return Ok(ToothQuotient {
            numerator: vec![(0, 1)],
            denominator: vec![(0, 1)],
        });
    };
    // What these very teeth make needless others may need.
    let ratio = derive::ratio(&link, Teeth::Any(1)).map_err(no_formula)?;
    Ok(ToothQuotient {
        numerator: ratio.numerator.terms(),
        denominator: ratio.denominator.terms(),
    })
}

fn no_formula(failure: Failure) -> NoFormula {
    match failure {
        Failure::Coincidence => NoFormula::OnlyTheseTeeth,
        Failure::Long => NoFormula::TooLong,
    }
}

/// What is between input and output, and the teeth of its rows; nothing where they turn as one.
fn link(combination: &Combination<'_>) -> Result<Option<(Link, Vec<ToothRatio>)>, NoFormula> {
    combination.state().ratio().ok_or(NoFormula::NoRatio)?;
    let train = combination.train();
    let groups = Groups::of(train, combination.applied());
    let ends = [train.input(), train.output()].map(|shaft| groups.of_shaft(shaft));
    // Either would rest, and there be no ratio, if it were the housing's.
    let [Some(from), Some(to)] = ends else {
        return Err(NoFormula::NoRatio);
    };
    if from == to {
        return Ok(None);
    }
    let (rows, teeth) = rows::rows(train, &groups);
    let link = Link {
        rows,
        groups: groups.count,
        from,
        to,
    };
    Ok(Some((link, teeth)))
}

/// The ratio itself, or one and the rest of it where that is shorter: 1 + R1·S2/(S1·(S2 + R2)).
fn shortest(ratio: &Ratio, variables: &Variables<'_>) -> Expression {
    let whole = write::quotient(&ratio.numerator, &ratio.denominator, variables);
    let parted = ratio.less_one.as_ref();
    let parted = parted.map(|(above, below)| write::one_and(above, below, variables));
    match parted {
        Some(parted) if parted.length() < whole.length() => parted,
        _ => whole,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::element_set::ElementSet;
    use crate::train::Train;

    /// Three sets without elements: kind, sun, ring and carrier, teeth of sun and ring.
    #[track_caller]
    fn check(sets: [(&str, [&str; 3], [u32; 2]); 3], ratio: &str, formula: &str) {
        let couplings = sets
            .iter()
            .enumerate()
            .map(|(at, (kind, [s, r, c], [sun, ring]))| {
                let pinions = match *kind {
                    "planetary" => r#""pinion": {"teeth": 20, "count": 3}"#,
                    _ => r#""inner": {"teeth": 20}, "outer": {"teeth": 20}, "count": 3"#,
                };
                format!(
                    r#"{{"kind": "{kind}", "id": "p{at}", "label": "P", "carrier": "{c}", {pinions},
                "sun": {{"shaft": "{s}", "teeth": {sun}}},
                "ring": {{"shaft": "{r}", "teeth": {ring}}}}}"#
                )
            });
        let couplings: Vec<String> = couplings.collect();
        let shafts =
            ["in", "out", "x", "y"].map(|id| format!(r#"{{"id": "{id}", "label": "{id}"}}"#));
        let text = format!(
            r#"{{"format": 1, "name": "T", "input": "in", "output": "out",
            "shafts": [{}], "couplings": [{}]}}"#,
            shafts.join(","),
            couplings.join(",")
        );
        let Ok(train) = Train::parse(&text) else {
            panic!("the train does not parse")
        };
        let combination = train.solve(ElementSet::NONE);
        assert_eq!(
            combination
                .state()
                .ratio()
                .map(ToString::to_string)
                .as_deref(),
            Some(ratio)
        );
        let found = Working::of(&combination).ratio;
        assert_eq!(
            found.map(|f| f.text(Written::Symbols)).as_deref(),
            Ok(formula)
        );
    }

    /// Both differences of the denominator begin, as polynomials, with a term of its other sign.
    #[test]
    fn the_sign_of_two_differences_is_kept() {
        check(
            [
                ("planetary", ["y", "x", "in"], [39, 77]),
                ("double-pinion", ["y", "housing", "x"], [35, 103]),
                ("planetary", ["housing", "out", "y"], [32, 74]),
            ],
            "-1591/418064",
            "R3*(S1*(R2 - S2) - R1*S2)/((S1 + R1)*(R2 - S2)*(S3 + R3))",
        );
    }

    #[test]
    fn a_part_beside_the_one_is_written_apart() {
        check(
            [
                ("planetary", ["y", "x", "out"], [36, 66]),
                ("double-pinion", ["x", "out", "in"], [45, 99]),
                ("planetary", ["housing", "y", "in"], [37, 75]),
            ],
            "90/53",
            "1 + S1*S2*S3/(R1*R3*(R2 - S2) - S1*S2*(S3 + R3))",
        );
    }

    /// A case that was once withheld for a lost sign.
    #[test]
    fn a_product_over_two_differences_is_given() {
        check(
            [
                ("double-pinion", ["out", "x", "y"], [31, 75]),
                ("double-pinion", ["y", "housing", "in"], [32, 87]),
                ("planetary", ["x", "y", "housing"], [24, 66]),
            ],
            "3968/55055",
            "S2*S1*S3/((R2 - S2)*(R1*(S3 + R3) - S1*S3))",
        );
    }
}
