//! The equilibrium with losses of whatever carries torque in a combination.

use super::joined::Joined;
use super::loaded::Loaded;
use super::trial::Trial;
use super::ways::{Directions, Row};
use super::{LossModel, LossyTorques};
use crate::solve::Combination;
use crate::train::{Body, Train};

/// The equilibrium of the loaded shafts: an equation for each group of shafts that elements join,
/// and a multiplier λ for each mesh row.
///
/// A row puts λ·ra on its member a, λ·η·rb on b and the opposite of both on its carrier, where η is
/// the efficiency of its meshes in the direction of its power. So its column is the sum of one that
/// no direction changes and η times another, and both are made once.
///
/// One is read after the other in the same memory.
pub(super) struct Equilibrium<'a> {
    pub(super) train: &'a Train,
    pub(super) model: LossModel,
    pub(super) loaded: Loaded<'a>,
    pub(super) joined: Joined,
    /// The part of each row's column that does not depend on its efficiency, column after column;
    /// the right side is the last.
    pub(super) fixed: Vec<f64>,
    /// The part that is multiplied by it.
    pub(super) lossy: Vec<f64>,
    /// Torque on each shaft from outside, the output's excepted: input and drag.
    pub(super) outside: Vec<f64>,
    /// How fast each open element slips, where it drags: what is not determined drags nothing.
    slips: Vec<f64>,
    /// Torque that each drags along with it, from its first end to its second.
    pub(super) drags: Vec<f64>,
    pub(super) output_speed: f64,
}

impl<'a> Equilibrium<'a> {
    /// None yet.
    pub(super) fn new(train: &'a Train, model: &LossModel) -> Self {
        Self {
            train,
            model: *model,
            loaded: Loaded::new(train, model),
            joined: Joined::default(),
            fixed: Vec::new(),
            lossy: Vec::new(),
            outside: Vec::new(),
            slips: Vec::new(),
            drags: Vec::new(),
            output_speed: 0.0,
        }
    }

    /// Takes in the equilibrium of a combination that drives; `None` where it does not determine
    /// all torques, or a set that carries torque rolls at a speed that is not determined.
    pub(super) fn read(&mut self, combination: &Combination<'_>) -> Option<()> {
        self.loaded.read(combination)?;
        let Loaded {
            shafts, applied, ..
        } = &self.loaded;
        self.joined.read(self.train, shafts, applied)?;
        if self.loaded.rows.len() != self.joined.equations {
            return None;
        }
        let output = Body::Shaft(self.train.output());
        self.output_speed = combination.speed_seen_from(Body::Housing, output)?;
        self.fill(combination);
        Some(())
    }

    /// How many equations there are, and how many multipliers.
    pub(super) fn size(&self) -> usize {
        self.joined.equations
    }

    fn fill(&mut self, combination: &Combination<'_>) {
        let size = self.size();
        zeros(&mut self.fixed, size * (size + 1));
        zeros(&mut self.lossy, size * size);
        for (column, row) in self.loaded.rows.iter().enumerate() {
            let (a, b) = row.factors;
            let parts = [(a, 0.0), (0.0, b), (-a, -b)];
            for (&body, (fixed, lossy)) in row.bodies.iter().zip(parts) {
                if let Some(equation) = self.joined.equation_of(body) {
                    self.fixed[column * size + equation] += fixed;
                    self.lossy[column * size + equation] += lossy;
                }
            }
        }
        zeros(&mut self.outside, self.loaded.shafts.len());
        self.outside[self.train.input()] += self.input_torque();
        self.drag(combination);
        let right = &mut self.fixed[size * size..];
        for (&torque, equation) in self.outside.iter().zip(&self.joined.equation) {
            if let Some(equation) = *equation {
                right[equation] += torque;
            }
        }
    }

    /// Adds what the open elements drag along.
    fn drag(&mut self, combination: &Combination<'_>) {
        let elements = self.train.scenario().elements.len();
        zeros(&mut self.slips, elements);
        zeros(&mut self.drags, elements);
        if self.model.drag == 0.0 {
            return;
        }
        for element in 0..elements {
            if self.loaded.applied.contains(&element) {
                continue;
            }
            let [first, second] = self.train.ends(element);
            let slip = combination.speed_seen_from(second, first).unwrap_or(0.0);
            let drag = self.model.drag * slip;
            (self.slips[element], self.drags[element]) = (slip, drag);
            for (body, torque) in [(first, -drag), (second, drag)] {
                if let Body::Shaft(shaft) = body {
                    self.outside[shaft] += torque;
                }
            }
        }
    }

    pub(super) fn input_torque(&self) -> f64 {
        if self.model.coasting { -1.0 } else { 1.0 }
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
        [0, u64::MAX].map(|backwards| self.efficiency(row, Directions::of(backwards)))
    }

    /// Writes all torques and losses of a trial that holds.
    pub(super) fn tell(&self, found: &Trial, into: &mut LossyTorques) {
        let couplings = 0..self.train.scenario().couplings.len();
        let members = |coupling| self.train.members(coupling).len();
        into.members.clear(couplings.clone().map(members));
        let meshes = |coupling| self.train.gearing(coupling).meshes();
        into.mesh_losses.clear(couplings.map(meshes));
        for (row, multiplier) in self.loaded.rows.iter().zip(&found.multipliers) {
            let coupling = self.loaded.ways[row.ways.0].coupling;
            let members = &mut into.members[coupling];
            let rolling = row.rolling;
            let shares = row.shares(self.efficiency(row, found.directions));
            for (member, torque) in [rolling.from, rolling.to, rolling.carrier]
                .into_iter()
                .zip(shares)
            {
                members[member] += multiplier * torque;
            }
            let losses = &mut into.mesh_losses[coupling];
            let meshes = losses.len();
            let mut put = |way: usize, first: usize| {
                let taken = &self.loaded.ways[way];
                let losses = &mut losses[first..first + taken.meshes];
                taken.write_losses(self.model.mesh_efficiency, found.rolling[way], losses);
            };
            let (own, shared) = row.ways;
            put(own, row.first_mesh);
            if let Some(shared) = shared {
                put(shared, meshes - self.loaded.ways[shared].meshes);
            }
        }
        into.elements.clone_from(&found.elements);
        into.output = found.output;
        into.efficiency = found.efficiency();
        into.drag_losses.clear();
        let dragged = self.drags.iter().zip(&self.slips);
        let lost = dragged.map(|(drag, slip)| drag * slip / found.power_in);
        into.drag_losses.extend(lost);
    }
}

/// Makes a list one of so many zeros.
pub(super) fn zeros(list: &mut Vec<f64>, count: usize) {
    list.clear();
    list.resize(count, 0.0);
}
