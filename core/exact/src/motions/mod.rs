//! Every motion a gear train can make: an exact basis of the solutions of its equations.
//!
//! The speeds ω of the shafts satisfy one integer row per mesh and per applied element. What
//! is kept is not the rows but a basis of their null space, one integer column per degree of
//! freedom. Adding a row r with residuals rᵢ = r·bᵢ on the columns bᵢ then costs one pass:
//! choose a pivot column p with rₚ ≠ 0, replace every other column by rₚ·bᵢ − rᵢ·bₚ, and drop
//! bₚ. If all residuals are zero the row holds already. The couplings are eliminated once for
//! a train; each clutch or brake afterwards only narrows a basis of a few columns, and every
//! combination that shares it shares that work.

mod columns;
mod speeds;
mod state;
mod turning;
mod value;
mod walk;

use num_bigint::BigInt;

use crate::fraction::Fraction;
use crate::whole::Overflow;
use columns::Columns;
pub use speeds::Speeds;
pub use state::State;
pub use turning::Turning;
pub use walk::{Visited, Walk};

/// A shaft and the factor that its speed has in an expression.
pub type Term = (usize, i64);

/// A linear expression of shaft speeds: Σ coefficient · ω(shaft). The housing does not move
/// and has no term.
pub type Terms = Vec<Term>;

/// The motions that satisfy a set of equations.
#[derive(Debug, Clone)]
pub struct Motions(Basis);

#[derive(Debug, Clone)]
enum Basis {
    Small(Columns<i64>),
    Big(Columns<BigInt>),
}

impl Motions {
    /// All motions of `shafts` shafts that nothing joins.
    pub fn free(shafts: usize) -> Self {
        Self(Basis::Small(Columns::identity(shafts)))
    }

    /// Degrees of freedom: how many speeds can be chosen independently.
    pub fn degrees_of_freedom(&self) -> usize {
        match &self.0 {
            Basis::Small(columns) => columns.count(),
            Basis::Big(columns) => columns.count(),
        }
    }

    /// The motions in which `terms` is zero as well; `None` when it is already zero in all.
    pub fn constrained(&self, terms: &Terms) -> Option<Self> {
        match &self.0 {
            Basis::Small(columns) => match columns.constrained(terms) {
                Ok(narrowed) => Some(Self(Basis::Small(narrowed?))),
                Err(Overflow) => Self(Basis::Big(columns.to_big())).constrained(terms),
            },
            Basis::Big(columns) => {
                let Ok(narrowed) = columns.constrained(terms);
                Some(Self(Basis::Big(narrowed?)))
            }
        }
    }

    /// The same motions told by the values of expressions instead of the shafts' speeds.
    pub fn seen_in(&self, expressions: &[Terms]) -> Self {
        match &self.0 {
            Basis::Small(columns) => match columns.seen_in(expressions) {
                Ok(seen) => Self(Basis::Small(seen)),
                Err(Overflow) => Self(Basis::Big(columns.to_big())).seen_in(expressions),
            },
            Basis::Big(columns) => {
                let Ok(seen) = columns.seen_in(expressions);
                Self(Basis::Big(seen))
            }
        }
    }

    /// The values of expressions in each motion of a basis.
    pub fn values(&self, expressions: &[Terms]) -> Vec<Vec<Fraction>> {
        match &self.0 {
            Basis::Small(columns) => match columns.values(expressions) {
                Ok(values) => values,
                Err(Overflow) => Self(Basis::Big(columns.to_big())).values(expressions),
            },
            Basis::Big(columns) => {
                let Ok(values) = columns.values(expressions);
                values
            }
        }
    }

    /// These motions with the speed of shaft `input` taken as one turn.
    pub fn turning(&self, input: usize) -> Turning {
        match &self.0 {
            Basis::Small(columns) => Turning::new(columns, input),
            Basis::Big(columns) => Turning::new_big(columns, input),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_equation_removes_one_freedom_and_a_repeated_one_none() {
        let free = Motions::free(3);
        let set = free.constrained(&vec![(0, 20), (1, -100), (2, 80)]);
        let set = set.unwrap_or_else(|| free.clone());
        assert_eq!(set.degrees_of_freedom(), 2);
        assert!(set.constrained(&vec![(0, -1), (1, 5), (2, -4)]).is_none());
    }

    #[test]
    fn equations_may_come_before_or_after_the_choice_of_input() {
        let set = vec![(0, 20), (1, -100), (2, 80)];
        let free = Motions::free(4);
        let coupled = free.constrained(&set).unwrap_or_else(|| free.clone());
        let held = |shaft| vec![(shaft, 1)];
        let joined = vec![(0, 1), (1, -1)];
        for equations in [
            vec![],
            vec![held(2)],
            vec![held(3), held(2)],
            vec![held(2), joined.clone()],
            vec![joined, vec![(1, 1), (2, -1)]],
            vec![held(0)],
        ] {
            let mut motions = coupled.clone();
            let mut turning = coupled.turning(0);
            for equation in &equations {
                let narrowed = motions.constrained(equation);
                let narrower = turning.constrained(equation);
                assert_eq!(narrowed.is_some(), narrower.is_some(), "{equations:?}");
                motions = narrowed.unwrap_or(motions);
                turning = narrower.unwrap_or(turning);
            }
            let after = motions.turning(0);
            assert_eq!(turning.degrees_of_freedom(), after.degrees_of_freedom());
            assert_eq!(turning.input_can_turn(), after.input_can_turn());
            for shaft in 0..4 {
                assert_eq!(turning.speed(shaft), after.speed(shaft), "{equations:?}");
                assert_eq!(turning.speed(shaft), turning.value(&held(shaft)));
            }
        }
    }

    #[test]
    fn numbers_beyond_i64_stay_exact() {
        // A chain of 24 shafts, each 999/998 of the one before: 999^23 is about 2^229.
        let mut motions = Motions::free(24);
        let mut turning = motions.turning(0);
        for shaft in 1..24 {
            let equation = vec![(shaft - 1, 999), (shaft, -998)];
            motions = motions.constrained(&equation).unwrap_or(motions);
            turning = turning.constrained(&equation).unwrap_or(turning);
        }
        assert_eq!(motions.degrees_of_freedom(), 1);
        let power = |base: u32| num_traits::pow(BigInt::from(base), 23);
        let exact = Fraction::from_big(power(999), power(998));
        for turning in [turning, motions.turning(0)] {
            assert_eq!(turning.value(&[(23, 1)]), exact);
            assert_eq!(turning.speed(23), exact);
        }
    }
}
