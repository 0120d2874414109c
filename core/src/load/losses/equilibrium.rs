//! The equilibrium with losses of whatever carries torque in a combination.

use nalgebra::DMatrix;

use super::joined::Joined;
use super::loaded::Loaded;
use super::per_coupling::PerCoupling;
use super::trial::Trial;
use super::ways::{Directions, Row};
use super::{LossModel, LossyTorques};
use crate::solve::Combination;
use crate::train::Body;

/// The equilibrium of the loaded shafts: an equation for each group of shafts that elements join,
/// and a multiplier λ for each mesh row.
///
/// A row puts λ·ra on its member a, λ·η·rb on b and the opposite of both on its carrier, where η is
/// the efficiency of its meshes in the direction of its power. So its column is the sum of one that
/// no direction changes and η times another, and both are made once.
pub(super) struct Equilibrium<'c, 'a> {
    pub(super) combination: &'c Combination<'a>,
    pub(super) model: &'c LossModel,
    pub(super) loaded: Loaded<'a>,
    pub(super) joined: Joined,
    /// The part of each row's column that does not depend on its efficiency; the right side is the
    /// last column.
    pub(super) fixed: DMatrix<f64>,
    /// The part that is multiplied by it.
    pub(super) lossy: DMatrix<f64>,
    /// Torque on each shaft from outside, the output's excepted: input and drag.
    pub(super) outside: Vec<f64>,
    /// Torque that each open element drags along with it, from its first end to its second.
    pub(super) drags: Vec<f64>,
    pub(super) output_speed: f64,
}

impl<'c, 'a> Equilibrium<'c, 'a> {
    /// The equilibrium of a combination that drives; `None` where it does not determine all
    /// torques, or a set that carries torque rolls at a speed that is not determined.
    pub(super) fn of(combination: &'c Combination<'a>, model: &'c LossModel) -> Option<Self> {
        let train = combination.train();
        let loaded = Loaded::of(combination, model)?;
        let joined = Joined::of(train, &loaded.shafts, &loaded.applied)?;
        let size = joined.equations;
        if loaded.rows.len() != size {
            return None;
        }
        let drags = drags(combination, model, &loaded.applied);
        let mut equilibrium = Self {
            outside: vec![0.0; loaded.shafts.len()],
            fixed: DMatrix::zeros(size, size + 1),
            lossy: DMatrix::zeros(size, size),
            output_speed: loaded.speeds[train.output()].as_ref()?.to_f64(),
            combination,
            model,
            loaded,
            joined,
            drags,
        };
        equilibrium.fill();
        Some(equilibrium)
    }

    fn fill(&mut self) {
        let train = self.combination.train();
        for (column, row) in self.loaded.rows.iter().enumerate() {
            let bodies = train.members(self.coupling(row));
            let (a, b) = row.factors;
            let [from, to, carrier] = [row.rolling.from, row.rolling.to, row.rolling.carrier]
                .map(|member| self.joined.equation_of(bodies[member]));
            for (equation, fixed, lossy) in [(from, a, 0.0), (to, 0.0, b), (carrier, -a, -b)] {
                if let Some(equation) = equation {
                    self.fixed[(equation, column)] += fixed;
                    self.lossy[(equation, column)] += lossy;
                }
            }
        }
        self.outside[train.input()] += self.input_torque();
        for (element, &drag) in self.drags.iter().enumerate() {
            for (body, torque) in train.ends(element).into_iter().zip([-drag, drag]) {
                if let Body::Shaft(shaft) = body {
                    self.outside[shaft] += torque;
                }
            }
        }
        let right = self.lossy.ncols();
        for (&torque, equation) in self.outside.iter().zip(&self.joined.equation) {
            if let Some(equation) = *equation {
                self.fixed[(equation, right)] += torque;
            }
        }
    }

    pub(super) fn input_torque(&self) -> f64 {
        if self.model.coasting { -1.0 } else { 1.0 }
    }

    /// The ways in which something turns: a bit each.
    pub(super) fn moving(&self) -> u64 {
        let ways = self.loaded.ways.iter().enumerate();
        ways.fold(0, |moving, (index, way)| {
            moving | u64::from(!way.still) << index
        })
    }

    /// The efficiency of a row's meshes.
    pub(super) fn efficiency(&self, row: &Row<'_>, directions: Directions) -> f64 {
        let of = |way: usize| self.loaded.ways[way].efficiency(directions.is_backwards(way));
        let (own, shared) = row.ways;
        of(own) * shared.map_or(1.0, of)
    }

    /// The efficiencies of a row's meshes with all power forwards and with all backwards, which are
    /// the most and the least there are.
    pub(super) fn efficiencies(&self, row: &Row<'_>) -> [f64; 2] {
        [false, true].map(|backwards| {
            let of = |way: usize| self.loaded.ways[way].efficiency(backwards);
            let (own, shared) = row.ways;
            of(own) * shared.map_or(1.0, of)
        })
    }

    /// The coupling of a row.
    pub(super) fn coupling(&self, row: &Row<'_>) -> usize {
        self.loaded.ways[row.ways.0].coupling
    }

    /// Torque on a row's members per unit of its λ: (member, torque).
    pub(super) fn shares(&self, row: &Row<'_>, directions: Directions) -> [(usize, f64); 3] {
        let a = row.factors.0;
        let b = row.factors.1 * self.efficiency(row, directions);
        let rolling = row.rolling;
        [
            (rolling.from, a),
            (rolling.to, b),
            (rolling.carrier, -(a + b)),
        ]
    }

    /// All torques and losses of a trial that holds.
    pub(super) fn told(&self, found: &mut Trial) -> LossyTorques {
        let train = self.combination.train();
        let couplings = 0..train.scenario().couplings.len();
        let members = couplings
            .clone()
            .map(|coupling| train.members(coupling).len());
        let mut members = PerCoupling::zeros(members);
        let meshes = couplings.map(|coupling| train.gearing(coupling).meshes());
        let mut mesh_losses = PerCoupling::zeros(meshes);
        for (row, multiplier) in self.loaded.rows.iter().zip(&found.multipliers) {
            for (member, torque) in self.shares(row, found.directions) {
                members[self.coupling(row)][member] += multiplier * torque;
            }
            let losses = &mut mesh_losses[self.coupling(row)];
            let meshes = losses.len();
            let mut put = |way: usize, first: usize| {
                let eta = self.model.mesh_efficiency;
                let taken = &self.loaded.ways[way];
                let losses = &mut losses[first..first + taken.meshes];
                taken.write_losses(eta, found.rolling[way], losses);
            };
            let (own, shared) = row.ways;
            put(own, row.first_mesh);
            if let Some(shared) = shared {
                put(shared, meshes - self.loaded.ways[shared].meshes);
            }
        }
        let lost = |(element, &drag): (usize, &f64)| {
            // Most drag nothing, and an exact slip takes time.
            if drag == 0.0 {
                return 0.0;
            }
            let slip = self.combination.slip(element);
            drag * slip.map_or(0.0, |slip| slip.to_f64()) / found.power_in
        };
        LossyTorques {
            members,
            elements: std::mem::take(&mut found.elements),
            output: found.output,
            efficiency: found.efficiency(),
            mesh_losses,
            drag_losses: self.drags.iter().enumerate().map(lost).collect(),
        }
    }
}

/// What each open element drags along; a slip that is not determined drags nothing.
fn drags(combination: &Combination<'_>, model: &LossModel, applied: &[usize]) -> Vec<f64> {
    let elements = 0..combination.train().scenario().elements.len();
    let drag = |element| {
        if model.drag == 0.0 || applied.contains(&element) {
            return 0.0;
        }
        let slip = combination.slip(element);
        slip.map_or(0.0, |slip| model.drag * slip.to_f64())
    };
    elements.map(drag).collect()
}
