//! The baseline: a dense floating-point solve of each combination, from its equations afresh.
//!
//! Written from the scenario model alone, sharing nothing with the crate's solver, and written
//! to be fast: the rows are made once a train, LU decides the common case, only the singular
//! value decomposition's right half is computed, and one decomposition answers everything.

use levertrain_core::coupling::{Coupling, Gear, Mesh, Teeth};
use levertrain_core::scenario::{Element, HOUSING, Scenario};
use levertrain_core::{ElementSet, Train};
use nalgebra::linalg::{LU, SVD};
use nalgebra::{DMatrix, DVector};

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
}

impl Dense {
    pub fn new(train: &Train) -> Self {
        let scenario = train.scenario();
        let meshes: Vec<_> = scenario
            .couplings
            .iter()
            .flat_map(mesh_terms)
            .map(|terms| unit_row(scenario, &terms))
            .collect();
        let elements = scenario
            .elements
            .iter()
            .map(|element| unit_row(scenario, &slip_terms(element)))
            .collect();
        let mut dense = Self {
            shafts: scenario.shafts.len(),
            input: train.input(),
            output: train.output(),
            meshes,
            elements,
            mesh_rank: 0,
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

/// Willis' relation for each row, or equal pitch-line speeds.
fn mesh_terms(coupling: &Coupling) -> Vec<Vec<(&str, f64)>> {
    match coupling {
        Coupling::Planetary(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun)),
                (ring, teeth(ring)),
            )]
        }
        Coupling::DoublePinion(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun)),
                (ring, -teeth(ring)),
            )]
        }
        Coupling::Stepped(set) => {
            let (sun, ring) = (&set.sun, &set.ring);
            let [p, q] = [&set.sun_pinion, &set.ring_pinion].map(|step| count(step.teeth));
            vec![seen_from(
                &set.carrier,
                (sun, teeth(sun) * q),
                (ring, teeth(ring) * p),
            )]
        }
        Coupling::Ravigneaux(set) => {
            let ring = teeth(&set.ring);
            let row = |sun, sign: f64| {
                seen_from(&set.carrier, (sun, teeth(sun)), (&set.ring, sign * ring))
            };
            vec![row(&set.small_sun, -1.0), row(&set.large_sun, 1.0)]
        }
        Coupling::GearPair(pair) => {
            let sign = match pair.mesh {
                Mesh::External => 1.0,
                Mesh::Internal => -1.0,
            };
            vec![vec![
                (&pair.first.shaft, teeth(&pair.first)),
                (&pair.second.shaft, sign * teeth(&pair.second)),
            ]]
        }
    }
}

/// za·(ωa − ωc) + zb·(ωb − ωc).
fn seen_from<'a>(
    carrier: &'a str,
    (a, za): (&'a Gear, f64),
    (b, zb): (&'a Gear, f64),
) -> Vec<(&'a str, f64)> {
    vec![(&a.shaft, za), (&b.shaft, zb), (carrier, -za - zb)]
}

fn count(teeth: Teeth) -> f64 {
    f64::from(teeth.get())
}

fn teeth(gear: &Gear) -> f64 {
    count(gear.teeth)
}

fn slip_terms(element: &Element) -> Vec<(&str, f64)> {
    match element {
        Element::Brake { shaft, .. } => vec![(shaft, 1.0)],
        Element::Clutch {
            between: [first, second],
            ..
        } => vec![(first, 1.0), (second, -1.0)],
        Element::OneWay { shaft, against, .. } => vec![(shaft, 1.0), (against, -1.0)],
    }
}

/// The row of an equation, of length one so that one tolerance serves all.
fn unit_row(scenario: &Scenario, terms: &[(&str, f64)]) -> Vec<f64> {
    let mut row = vec![0.0; scenario.shafts.len()];
    for &(id, coefficient) in terms.iter().filter(|(id, _)| *id != HOUSING) {
        for (shaft, entry) in scenario.shafts.iter().zip(&mut row) {
            if shaft.id == id {
                *entry += coefficient;
            }
        }
    }
    let length = row.iter().map(|x| x * x).sum::<f64>().sqrt();
    if length > 0.0 {
        row.iter_mut().for_each(|x| *x /= length);
    }
    row
}
