//! One choice of directions after the other, in the same memory.

use super::NO_POWER;
use super::equilibrium::{Equilibrium, zeros};
use super::joined::Link;
use super::ways::Directions;
use crate::train::Body;

/// What becomes of one choice of directions.
pub(super) enum Outcome {
    Singular,
    Contradicts,
    Holds,
}

/// The torques that follow from the directions tried last.
pub(super) struct Trial {
    pub(super) directions: Directions,
    /// The equations, column after column, the right side last.
    equations: Vec<f64>,
    /// λ of each row.
    pub(super) multipliers: Vec<f64>,
    /// Torque left on each shaft by what is known already.
    left: Vec<f64>,
    /// What each element passes from its first end to its second, open ones their drag.
    pub(super) elements: Vec<f64>,
    /// Torque that comes in at the output.
    pub(super) output: f64,
    pub(super) power_in: f64,
    pub(super) power_out: f64,
    /// Power into each way, as a share of the power in.
    pub(super) rolling: Vec<f64>,
}

impl Trial {
    /// Nothing tried yet.
    pub(super) fn new() -> Self {
        Self {
            directions: Directions::of(0),
            equations: Vec::new(),
            multipliers: Vec::new(),
            left: Vec::new(),
            elements: Vec::new(),
            output: 0.0,
            power_in: 0.0,
            power_out: 0.0,
            rolling: Vec::new(),
        }
    }

    /// Finds the torques with power going these ways, and whether they let power out and roll the
    /// way that was assumed.
    pub(super) fn run(&mut self, equilibrium: &Equilibrium<'_>, directions: Directions) -> Outcome {
        self.directions = directions;
        if !self.solve(equilibrium) {
            return Outcome::Singular;
        }
        self.pass_on(equilibrium);
        let input_power = equilibrium.input_torque();
        let output_power = self.output * equilibrium.output_speed;
        (self.power_in, self.power_out) = if equilibrium.model.coasting {
            (output_power, -input_power)
        } else {
            (input_power, -output_power)
        };
        if self.power_in > 0.0 && self.power_out > 0.0 && self.rolls_as_assumed(equilibrium) {
            Outcome::Holds
        } else {
            Outcome::Contradicts
        }
    }

    /// Power out over power in.
    pub(super) fn efficiency(&self) -> f64 {
        self.power_out / self.power_in
    }

    /// Solves for the multipliers by elimination, the largest pivot of each column first; `false`
    /// where the equations are not independent.
    fn solve(&mut self, equilibrium: &Equilibrium<'_>) -> bool {
        let size = equilibrium.size();
        self.equations.clone_from(&equilibrium.fixed);
        let equations = &mut self.equations[..];
        let (mut columns, mut lossy) = (&mut *equations, &equilibrium.lossy[..]);
        for row in &equilibrium.loaded.rows {
            let efficiency = equilibrium.efficiency(row, self.directions);
            let (column, other_columns) = columns.split_at_mut(size);
            let (own_lossy, other_lossy) = lossy.split_at(size);
            // By places here and below: pairs would be taken several at once, which costs more than it saves in so few.
            for entry in 0..size {
                column[entry] += efficiency * own_lossy[entry];
            }
            (columns, lossy) = (other_columns, other_lossy);
        }
        if !triangular(equations, size) {
            return false;
        }
        let (columns, right) = equations.split_at_mut(size * size);
        zeros(&mut self.multipliers, size);
        for unknown in (0..size).rev() {
            let column = &columns[unknown * size..][..=unknown];
            let multiplier = right[unknown] / column[unknown];
            for row in 0..=unknown {
                right[row] -= multiplier * column[row];
            }
            self.multipliers[unknown] = multiplier;
        }
        true
    }

    /// What the elements pass on and what comes in at the output.
    fn pass_on(&mut self, equilibrium: &Equilibrium<'_>) {
        self.left.clone_from(&equilibrium.outside);
        for (row, multiplier) in equilibrium.loaded.rows.iter().zip(&self.multipliers) {
            let shares = row.shares(equilibrium.efficiency(row, self.directions));
            for (&body, torque) in row.bodies.iter().zip(shares) {
                if let Body::Shaft(shaft) = body {
                    self.left[shaft] -= multiplier * torque;
                }
            }
        }
        self.elements.clone_from(&equilibrium.drags);
        for passing in &equilibrium.joined.order {
            let torque = self.left[passing.shaft];
            match passing.link {
                Link::Output => self.output = -torque,
                Link::Element(element) => {
                    self.elements[element] = if passing.forwards { torque } else { -torque };
                    if let Body::Shaft(other) = passing.other {
                        self.left[other] += torque;
                    }
                }
            }
        }
    }

    fn rolls_as_assumed(&mut self, equilibrium: &Equilibrium<'_>) -> bool {
        let (ways, directions) = (&equilibrium.loaded.ways, self.directions);
        zeros(&mut self.rolling, ways.len());
        for (row, multiplier) in equilibrium.loaded.rows.iter().zip(&self.multipliers) {
            let (own, shared) = row.ways;
            self.rolling[own] = multiplier * row.factors.0 * row.speed / self.power_in;
            if let Some(shared) = shared {
                let passed = ways[own].efficiency(directions.is_backwards(own));
                self.rolling[shared] += self.rolling[own] * passed;
            }
        }
        let mut rolling = self.rolling.iter().enumerate();
        rolling.all(|(way, power)| {
            power.abs() <= NO_POWER || (*power < 0.0) == directions.is_backwards(way)
        })
    }
}

/// Eliminates below the diagonal of `size` equations, which stand column after column with their
/// right side; `false` where they are not independent.
///
/// Written out, since these systems have two to four equations and are solved for every range: a
/// general decomposition would spend most of its time on its own memory.
fn triangular(equations: &mut [f64], size: usize) -> bool {
    for step in 0..size {
        let (done, mut rest) = equations.split_at_mut((step + 1) * size);
        let pivots = &mut done[step * size..];
        let mut largest = step;
        for row in step + 1..size {
            if pivots[row].abs() > pivots[largest].abs() {
                largest = row;
            }
        }
        if pivots[largest] == 0.0 {
            return false;
        }
        pivots.swap(step, largest);
        let scale = 1.0 / pivots[step];
        while let Some((column, others)) = rest.split_at_mut_checked(size) {
            if column.is_empty() {
                break;
            }
            column.swap(step, largest);
            let factor = column[step] * scale;
            for row in step + 1..size {
                column[row] -= factor * pivots[row];
            }
            rest = others;
        }
    }
    true
}
