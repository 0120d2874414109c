//! The baseline: a dense floating-point solve of each combination, from its equations afresh.
//!
//! Written from the scenario model alone, sharing nothing with the crate's solver, and written
//! to be fast: the rows are made once a train, LU decides the common case, only the singular
//! value decomposition's right half is computed, and one decomposition answers everything.

mod effort;
mod losses;
mod rows;

use levertrain_core::{ElementSet, Train};
use nalgebra::linalg::{LU, SVD};
use nalgebra::{DMatrix, DVector};

pub use effort::Effort;
use rows::{Member, Row, full_row, mesh_count, mesh_terms, shaft_of, slip_terms, unit_parts};

/// What of a unit row counts as zero: far above the rounding of a decomposition of some tens
/// of rows (about 1e-14), far below what tooth counts up to 999 make of a true value.
const ZERO: f64 = 1e-10;

/// What a combination makes of the train.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Class {
    Driving,
    OverApplied,
    Neutral,
    OutputHeld,
    TiedUp,
}

/// The baseline's answer for one combination.
#[derive(Debug)]
pub struct Outcome {
    pub class: Class,
    pub degrees_of_freedom: usize,
    /// Of every shaft per input turn; `None` where it is not determined.
    pub speeds: Vec<Option<f64>>,
}

/// A train as unit rows of coefficients of its shaft speeds.
pub struct Dense {
    shafts: usize,
    input: usize,
    output: usize,
    meshes: Vec<Vec<f64>>,
    elements: Vec<Vec<f64>>,
    /// Rank of the mesh rows alone.
    mesh_rank: usize,
    /// The mesh rows once more, member by member, with what the housing has.
    rows: Vec<Row>,
    /// Members of each coupling.
    couplings: Vec<Vec<Member>>,
}

impl Dense {
    pub fn new(train: &Train) -> Self {
        let scenario = train.scenario();
        let mut rows = Vec::new();
        let mut couplings = Vec::new();
        for coupling in &scenario.couplings {
            let first = rows.len();
            let terms = mesh_terms(coupling);
            rows.extend(terms.iter().map(|terms| Row {
                parts: unit_parts(scenario, terms),
                meshes: mesh_count(coupling),
            }));
            let members = coupling.facts().members();
            let member = |id: &str| {
                let shaft = shaft_of(scenario, id);
                let rows = rows.iter().enumerate().skip(first);
                let parts = rows.flat_map(|(row, parts)| parts.parts.map(|part| (row, part)));
                let own = parts.filter(|(_, part)| part.shaft == shaft);
                Member {
                    shaft,
                    rows: own.map(|(row, part)| (row, part.factor)).collect(),
                }
            };
            couplings.push(members.iter().map(|x| member(x.shaft)).collect());
        }
        let meshes = rows.iter().map(|row| full_row(scenario, &row.parts));
        let elements = scenario
            .elements
            .iter()
            .map(|element| full_row(scenario, &unit_parts(scenario, &slip_terms(element))))
            .collect();
        let mut dense = Self {
            shafts: scenario.shafts.len(),
            input: train.input(),
            output: train.output(),
            meshes: meshes.collect(),
            elements,
            mesh_rank: 0,
            rows,
            couplings,
        };
        let free = dense.decomposed(ElementSet::NONE);
        dense.mesh_rank = free.singular_values.iter().filter(|&&x| x > ZERO).count();
        dense
    }

    /// Classifies one combination and finds every shaft's speed.
    pub fn solve(&self, applied: ElementSet) -> Outcome {
        self.by_elimination(applied)
            .unwrap_or_else(|| self.by_singular_values(applied))
    }

    /// The rows that hold under `applied`, and below them zero rows up to `height`.
    fn matrix(&self, applied: ElementSet, height: usize) -> DMatrix<f64> {
        let mut matrix = DMatrix::zeros(height, self.shafts);
        let rows = self
            .meshes
            .iter()
            .chain(applied.iter().map(|element| &self.elements[element]));
        for (index, row) in rows.enumerate() {
            for (shaft, &coefficient) in row.iter().enumerate() {
                matrix[(index, shaft)] = coefficient;
            }
        }
        matrix
    }

    fn row_count(&self, applied: ElementSet) -> usize {
        self.meshes.len() + applied.len()
    }

    /// The case in which "the input makes one turn" completes a regular square system.
    fn by_elimination(&self, applied: ElementSet) -> Option<Outcome> {
        let rows = self.row_count(applied);
        if rows + 1 != self.shafts {
            return None;
        }
        let mut matrix = self.matrix(applied, self.shafts);
        matrix[(rows, self.input)] = 1.0;
        let lu = LU::new(matrix);
        if lu.lu_internal().diagonal().iter().any(|x| x.abs() <= ZERO) {
            return None;
        }
        let mut speeds = DVector::zeros(self.shafts);
        speeds[rows] = 1.0;
        if !lu.solve_mut(&mut speeds) {
            return None;
        }
        Some(Outcome {
            class: self.turning_class(Some(speeds[self.output]), applied, 1),
            degrees_of_freedom: 1,
            speeds: speeds.iter().copied().map(Some).collect(),
        })
    }

    /// Every other case, from the null space: its dimension is the degrees of freedom, and
    /// a shaft's row in it says how the shaft's speed follows from them.
    fn by_singular_values(&self, applied: ElementSet) -> Outcome {
        let SVD {
            singular_values,
            v_t,
            ..
        } = self.decomposed(applied);
        // Present because it was asked for.
        let v_t = v_t.unwrap_or_else(|| DMatrix::zeros(self.shafts, self.shafts));
        let null: Vec<usize> = (0..self.shafts)
            .filter(|&index| singular_values[index] <= ZERO)
            .collect();
        let product = |a: usize, b: usize| -> f64 {
            null.iter()
                .map(|&index| v_t[(index, a)] * v_t[(index, b)])
                .sum()
        };
        let input_square = product(self.input, self.input);
        if input_square.sqrt() <= ZERO {
            let at_rest = |shaft| (product(shaft, shaft).sqrt() <= ZERO).then_some(0.0);
            return Outcome {
                class: Class::TiedUp,
                degrees_of_freedom: null.len(),
                speeds: (0..self.shafts).map(at_rest).collect(),
            };
        }
        // A speed is determined where the shaft's row is a multiple of the input's.
        let speed = |shaft: usize| {
            let speed = product(shaft, self.input) / input_square;
            let determined = null.iter().all(|&index| {
                (v_t[(index, shaft)] - speed * v_t[(index, self.input)]).abs() <= ZERO
            });
            determined.then_some(speed)
        };
        let speeds: Vec<_> = (0..self.shafts).map(speed).collect();
        Outcome {
            class: self.turning_class(speeds[self.output], applied, null.len()),
            degrees_of_freedom: null.len(),
            speeds,
        }
    }

    /// Singular values and right singular vectors. Zero rows make a flat matrix square, so
    /// that the null space is among the vectors.
    fn decomposed(&self, applied: ElementSet) -> SVD<f64, nalgebra::Dyn, nalgebra::Dyn> {
        let height = self.row_count(applied).max(self.shafts);
        SVD::new_unordered(self.matrix(applied, height), false, true)
    }

    fn turning_class(&self, output: Option<f64>, applied: ElementSet, freedoms: usize) -> Class {
        let removed = self.shafts - self.mesh_rank - freedoms;
        match output {
            None => Class::Neutral,
            Some(speed) if speed.abs() <= ZERO => Class::OutputHeld,
            Some(_) if removed == applied.len() => Class::Driving,
            Some(_) => Class::OverApplied,
        }
    }
}
