//! The baseline's torques and powers: the balance of every shaft as one dense system.

use levertrain_core::ElementSet;
use nalgebra::linalg::{LU, SVD};
use nalgebra::{DMatrix, DVector};

use super::rows::Member;
use super::{Class, Dense, Outcome, ZERO};

/// A torque below this counts as none, per unit of input torque.
const NO_TORQUE: f64 = 1e-9;

/// Torques per unit of input torque and powers per unit of input power; `None` where
/// equilibrium does not determine them.
#[derive(Debug)]
pub struct Effort {
    /// Of each member of each coupling: torque and power.
    pub members: Vec<Vec<Pair>>,
    /// Of each element.
    pub elements: Vec<Pair>,
    /// Torque on the train at the output.
    pub output: Option<f64>,
}

/// A torque and a power.
pub type Pair = (Option<f64>, Option<f64>);

/// The torques found: one multiplier a mesh row, one an applied element, and the output's.
struct Multipliers {
    values: DVector<f64>,
    /// What may be added without changing the balance: one row each.
    free: DMatrix<f64>,
}

impl Multipliers {
    /// A combination of multipliers; `None` where equilibrium does not determine it.
    fn value(&self, terms: &[(usize, f64)]) -> Option<f64> {
        let of = |value: &dyn Fn(usize) -> f64| -> f64 {
            terms
                .iter()
                .map(|&(unknown, factor)| factor * value(unknown))
                .sum()
        };
        let mut free = (0..self.free.nrows()).map(|row| of(&|unknown| self.free[(row, unknown)]));
        let determined = free.all(|change| change.abs() <= ZERO);
        determined.then(|| of(&|unknown| self.values[unknown]))
    }
}

impl Dense {
    /// Torques and powers of a combination whose speeds are known; `None` unless it drives.
    ///
    /// A row in the speeds does no work, so its torques are a multiple of it; on every shaft they
    /// add up with the input's and the output's to nothing.
    pub fn effort(&self, applied: ElementSet, speeds: &Outcome) -> Option<Effort> {
        if !matches!(speeds.class, Class::Driving | Class::OverApplied) {
            return None;
        }
        let found = self.multipliers(applied)?;
        let speed = |shaft: Option<usize>| shaft.map_or(Some(0.0), |shaft| speeds.speeds[shaft]);
        let members = self.couplings.iter().map(|members| {
            let pair = |member: &Member| {
                let torque = found.value(&member.rows);
                (torque, power(torque, speed(member.shaft)))
            };
            members.iter().map(pair).collect()
        });
        let mut elements = vec![(Some(0.0), Some(0.0)); self.elements.len()];
        for (index, element) in applied.iter().enumerate() {
            let row = &self.elements[element];
            // The coefficient of the first end is the positive one; both ends turn alike.
            let first = (0..self.shafts).find(|&shaft| row[shaft] > 0.0)?;
            let torque = found.value(&[(self.meshes.len() + index, row[first])]);
            elements[element] = (torque, power(torque, self.held_speed(row, speeds, first)));
        }
        Some(Effort {
            members: members.collect(),
            elements,
            output: found.value(&[(self.meshes.len() + applied.len(), 1.0)]),
        })
    }

    /// The speed that power passes an element at: a brake's is none.
    fn held_speed(&self, row: &[f64], speeds: &Outcome, first: usize) -> Option<f64> {
        let brake = row.iter().all(|&x| x >= 0.0);
        if brake {
            Some(0.0)
        } else {
            speeds.speeds[first]
        }
    }

    /// The columns of the balance: what each unknown puts on every shaft.
    fn balance(&self, applied: ElementSet, height: usize) -> DMatrix<f64> {
        let mut matrix = DMatrix::zeros(height, self.row_count(applied) + 1);
        let applied = applied.iter().map(|element| &self.elements[element]);
        let mut width = 0;
        for (column, row) in self.meshes.iter().chain(applied).enumerate() {
            for (shaft, &coefficient) in row.iter().enumerate() {
                matrix[(shaft, column)] = coefficient;
            }
            width = column + 1;
        }
        matrix[(self.output, width)] = -1.0;
        matrix
    }

    fn multipliers(&self, applied: ElementSet) -> Option<Multipliers> {
        let unknowns = self.row_count(applied) + 1;
        if unknowns == self.shafts {
            let lu = LU::new(self.balance(applied, unknowns));
            if lu.lu_internal().diagonal().iter().all(|x| x.abs() > ZERO) {
                let mut values = DVector::zeros(unknowns);
                values[self.input] = 1.0;
                return lu.solve_mut(&mut values).then(|| Multipliers {
                    values,
                    free: DMatrix::zeros(0, unknowns),
                });
            }
        }
        // Zero rows make a flat matrix square, so that its null space is among the vectors.
        let height = unknowns.max(self.shafts);
        let svd = SVD::new_unordered(self.balance(applied, height), true, true);
        let mut right = DVector::zeros(height);
        right[self.input] = 1.0;
        let values = svd.solve(&right, ZERO).ok()?;
        let vectors = svd.v_t.as_ref()?;
        let free = svd.singular_values.iter().enumerate();
        let free: Vec<usize> = free.filter(|(_, x)| **x <= ZERO).map(|(i, _)| i).collect();
        Some(Multipliers {
            free: vectors.select_rows(&free),
            values,
        })
    }
}

/// What floats carries nothing, whatever its speed.
fn power(torque: Option<f64>, speed: Option<f64>) -> Option<f64> {
    match (torque, speed) {
        (Some(torque), _) if torque.abs() <= NO_TORQUE => Some(0.0),
        (Some(torque), Some(speed)) => Some(torque * speed),
        _ => None,
    }
}
