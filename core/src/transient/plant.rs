//! The masses of a train, in coordinates in which its equations of motion are plain.
//!
//! The couplings leave some speeds free: exact elimination gives a basis N of all motions, ω = N·v. Kinetic
//! energy is ½·vᵀ·(Nᵀ·J·N)·v for the inertias J of the shafts. The basis is made orthonormal in that product (Gram and
//! Schmidt's way, twice, so that roundings do not add up), ω = B·q with Bᵀ·J·B = 1. Then the equations of motion are
//! q̇ = Bᵀ·τ for the torques τ on the shafts, whatever the gears do in between (d'Alembert's principle in Lagrange's form):
//! torques in the meshes do no work and do not appear.

use super::data::Dynamics;
use crate::base::element_set::ElementSet;
use crate::model::scenario::{Element, Way};
use crate::solve::narrowed;
use crate::train::Train;

/// A train with masses.
#[derive(Debug, Clone)]
pub(super) struct Plant<'a> {
    pub(super) train: &'a Train,
    /// Of each shaft its row of B.
    pub(super) shafts: Vec<Vec<f64>>,
    /// Of each element the row that gives its slip, first end minus second; of a one-way clutch positive the way it blocks.
    pub(super) slips: Vec<Vec<f64>>,
    /// Of each shaft its inertia in kg·m², with engine and load.
    pub(super) inertias: Vec<f64>,
    pub(super) freedom: usize,
}

impl<'a> Plant<'a> {
    pub(super) fn new(train: &'a Train, dynamics: &Dynamics) -> Self {
        let count = train.scenario().shafts.len();
        let mut inertias: Vec<f64> = (0..count).map(|x| dynamics.shaft(x).value).collect();
        inertias[train.input()] += dynamics.engine_inertia().value;
        inertias[train.output()] += dynamics.load_inertia().value;
        let speeds: Vec<_> = (0..count).map(|shaft| vec![(shaft, 1)]).collect();
        let motions = train.coupled().values(&speeds);
        let columns: Vec<Vec<f64>> = motions
            .iter()
            .map(|motion| motion.iter().map(|speed| speed.to_f64()).collect())
            .collect();
        let basis = orthonormal(columns, &inertias);
        let shafts: Vec<Vec<f64>> = (0..count)
            .map(|shaft| basis.iter().map(|column| column[shaft]).collect())
            .collect();
        let slips = (0..train.scenario().elements.len())
            .map(|element| {
                let sign = orientation(&train.scenario().elements[element]);
                let mut row = vec![0.0; basis.len()];
                for &(shaft, factor) in train.slip_terms(element) {
                    for (cell, own) in row.iter_mut().zip(&shafts[shaft]) {
                        *cell += sign * factor as f64 * own;
                    }
                }
                row
            })
            .collect();
        Self {
            train,
            shafts,
            slips,
            inertias,
            freedom: basis.len(),
        }
    }

    /// The coordinates of a motion, given by the speed of each shaft in rad/s.
    pub(super) fn coordinates(&self, speeds: &[f64]) -> Vec<f64> {
        let mut coordinates = vec![0.0; self.freedom];
        for ((row, speed), inertia) in self.shafts.iter().zip(speeds).zip(&self.inertias) {
            for (sum, cell) in coordinates.iter_mut().zip(row) {
                *sum += cell * inertia * speed;
            }
        }
        coordinates
    }

    /// How many of the slips of these elements depend on the others, exactly.
    pub(super) fn surplus(&self, elements: &[usize]) -> usize {
        let set: ElementSet = elements.iter().copied().collect();
        narrowed(self.train.coupled(), self.train, set).1
    }

    /// Whether an element blocks one way by itself.
    pub(super) fn is_one_way(&self, element: usize) -> bool {
        self.train.scenario().elements[element].is_one_way()
    }
}

/// 1 where an element's torque is counted as its slip is, first end minus second. That of a one-way clutch is counted
/// positive where it blocks: it keeps a shaft from turning backward, so what it passes on to the other is negative.
pub(super) fn orientation(element: &Element) -> f64 {
    match element {
        Element::OneWay(one_way) if one_way.locks == Way::Backward => -1.0,
        _ => 1.0,
    }
}

/// Columns of the same span, each of length 1 and square to the others in the product with these weights.
fn orthonormal(columns: Vec<Vec<f64>>, weights: &[f64]) -> Vec<Vec<f64>> {
    let product = |a: &[f64], b: &[f64]| -> f64 {
        a.iter()
            .zip(b)
            .zip(weights)
            .map(|((a, b), weight)| a * b * weight)
            .sum()
    };
    let mut basis: Vec<Vec<f64>> = Vec::with_capacity(columns.len());
    for mut column in columns {
        for _ in 0..2 {
            for known in &basis {
                let share = product(known, &column);
                column
                    .iter_mut()
                    .zip(known)
                    .for_each(|(cell, known)| *cell -= share * known);
            }
            let length = product(&column, &column).sqrt();
            column.iter_mut().for_each(|cell| *cell /= length);
        }
        basis.push(column);
    }
    basis
}
