//! The baseline's efficiency: every direction of the rolling powers tried in turn, each as one
//! dense system in floating point.

use levertrain_core::ElementSet;
use nalgebra::linalg::LU;
use nalgebra::{DMatrix, DVector};

use super::rows::{Part, Row};
use super::{Dense, Outcome, ZERO};

/// Rolling power below this share of the input's has no direction.
const NO_POWER: f64 = 1e-9;

impl Dense {
    /// Whether every mesh belongs to one row, as the baseline takes it.
    pub fn has_meshes_apart(&self) -> bool {
        self.rows.iter().all(|row| row.meshes.is_some())
    }

    /// The efficiency of a combination with this efficiency of every mesh; `None` unless its
    /// equations make a regular square system and exactly one choice of directions agrees.
    pub fn efficiency(&self, applied: ElementSet, speeds: &Outcome, mesh: f64) -> Option<f64> {
        if self.row_count(applied) + 1 != self.shafts {
            return None;
        }
        let rolling: Vec<f64> = self.rolling_speeds(speeds)?;
        let mut found: Vec<f64> = Vec::new();
        for signs in 0..1_u32 << self.meshes.len() {
            let backwards = |row: usize| signs >> row & 1 == 1;
            let pointless =
                (0..rolling.len()).any(|row| rolling[row].abs() <= ZERO && backwards(row));
            if pointless {
                continue;
            }
            let Some(efficiency) = self.attempt(applied, speeds, &rolling, mesh, backwards) else {
                continue;
            };
            if !found
                .iter()
                .any(|known| (known - efficiency).abs() < NO_POWER)
            {
                found.push(efficiency);
            }
        }
        match found[..] {
            [only] => Some(only),
            _ => None,
        }
    }

    /// Speed of each row's first member relative to its carrier.
    fn rolling_speeds(&self, speeds: &Outcome) -> Option<Vec<f64>> {
        let speed = |part: Part| part.shaft.map_or(Some(0.0), |shaft| speeds.speeds[shaft]);
        let rows = self.rows.iter();
        rows.map(
            |Row {
                 parts: [a, _, carrier],
                 ..
             }| Some(speed(*a)? - speed(*carrier)?),
        )
        .collect()
    }

    fn attempt(
        &self,
        applied: ElementSet,
        speeds: &Outcome,
        rolling: &[f64],
        mesh: f64,
        backwards: impl Fn(usize) -> bool,
    ) -> Option<f64> {
        let mut matrix = DMatrix::zeros(self.shafts, self.shafts);
        for (index, row) in self.rows.iter().enumerate() {
            let meshes = row.meshes?;
            let meshes = if backwards(index) { -meshes } else { meshes };
            let still = rolling[index].abs() <= ZERO;
            let basic = if still { 1.0 } else { mesh.powi(meshes) };
            let (a, b) = (row.parts[0].factor, row.parts[1].factor * basic);
            for (part, torque) in row.parts.iter().zip([a, b, -a - b]) {
                if let Some(shaft) = part.shaft {
                    matrix[(shaft, index)] += torque;
                }
            }
        }
        for (index, element) in applied.iter().enumerate() {
            for (shaft, &coefficient) in self.elements[element].iter().enumerate() {
                matrix[(shaft, self.meshes.len() + index)] = coefficient;
            }
        }
        matrix[(self.output, self.shafts - 1)] = -1.0;
        let mut torques = DVector::zeros(self.shafts);
        torques[self.input] = 1.0;
        if !LU::new(matrix).solve_mut(&mut torques) {
            return None;
        }
        let efficiency = -torques[self.shafts - 1] * speeds.speeds[self.output]?;
        let agrees = (0..self.meshes.len()).all(|row| {
            let power = torques[row] * self.rows[row].parts[0].factor * rolling[row];
            power.abs() <= NO_POWER || (power < 0.0) == backwards(row)
        });
        (agrees && efficiency > 0.0).then_some(efficiency)
    }
}
