//! The equilibrium with losses of whatever carries torque in a combination.

use nalgebra::linalg::LU;
use nalgebra::{DMatrix, DVector};

use super::ways::{Directions, Row, Way};
use super::{LossModel, LossyTorques, NO_POWER};
use crate::solve::Combination;
use crate::solve::torque::Balance;
use crate::train::{Body, speed_terms};

/// The equilibrium of the loaded shafts.
pub(super) struct Problem<'c, 'a> {
    combination: &'c Combination<'a>,
    model: &'c LossModel,
    rows: Vec<Row>,
    ways: Vec<Way>,
    applied: Vec<usize>,
    /// Equation of each shaft; those that float carry no torque and have none.
    equation: Vec<Option<usize>>,
    /// Slip of each element.
    slips: Vec<f64>,
    /// The columns of elements and output, and the right side: they are the same for all
    /// directions. The columns of the rows are still zero.
    matrix: DMatrix<f64>,
    right: DVector<f64>,
    output_speed: f64,
}

/// What becomes of one choice of directions.
pub(super) enum Attempt {
    Singular,
    Contradicts,
    Holds(LossyTorques),
}

impl<'c, 'a> Problem<'c, 'a> {
    /// The equilibrium of whatever carries torque; `None` where it does not determine all of it,
    /// or a set that carries torque rolls at a speed that is not determined.
    pub(super) fn of(combination: &'c Combination<'a>, model: &'c LossModel) -> Option<Self> {
        let train = combination.train();
        let scenario = train.scenario();
        let ideal = Balance::of(combination);
        let floats = |body: Body| combination.body_speed(body).is_none();
        let mut loaded = vec![false; scenario.shafts.len()];
        let mut load = |body: Body| {
            if let Body::Shaft(shaft) = body {
                loaded[shaft] = true;
            }
        };
        let (mut rows, mut ways): (Vec<Row>, Vec<Way>) = (Vec::new(), Vec::new());
        let mut carried = Vec::new();
        let mut index = 0;
        for (coupling, kind) in scenario.couplings.iter().enumerate() {
            let bodies = train.members(coupling);
            let shared_meshes = kind.facts().shared_meshes().len();
            let mut shared = None;
            let mut next_mesh = 0;
            for (factors, rolling) in kind.facts().mesh_rows().iter().zip(kind.facts().rolling()) {
                let first_mesh = next_mesh;
                next_mesh += rolling.meshes.len();
                let torque = ideal.row(index)?;
                index += 1;
                let mut members = factors.iter().zip(bodies);
                if members.any(|(&factor, &body)| factor != 0 && floats(body)) {
                    if torque.is_zero() {
                        continue;
                    }
                    return None;
                }
                let [a, c] = [rolling.from, rolling.carrier].map(|member| bodies[member]);
                let speed = match (combination.body_speed(a), combination.body_speed(c)) {
                    (Some(a), Some(c)) => a.minus(&c).to_f64(),
                    // A carrier that floats has the factor 0: it takes no torque, and any loss
                    // would turn it until nothing rolls. So it is carried along.
                    _ => {
                        carried.push(speed_terms([(a, 1), (c, -1)]));
                        0.0
                    }
                };
                for (member, (&factor, &body)) in factors.iter().zip(bodies).enumerate() {
                    // Where it rolls, a loss may give the carrier torque that its factor does not.
                    if factor != 0 || (member == rolling.carrier && speed != 0.0) {
                        load(body);
                    }
                }
                let mut add = |meshes| {
                    ways.push(Way::of(model, coupling, meshes, speed == 0.0));
                    ways.len() - 1
                };
                if shared.is_none() && shared_meshes > 0 {
                    // The rows of a coupling stand still together: they share member b.
                    shared = Some(add(shared_meshes));
                }
                rows.push(Row {
                    factors: (factors[rolling.from] as f64, factors[rolling.to] as f64),
                    speed,
                    ways: (add(rolling.meshes.len()), shared),
                    first_mesh,
                    rolling,
                });
            }
        }
        if !combination.turns_with(&carried) {
            return None;
        }
        let mut applied = Vec::new();
        for element in combination.applied().iter() {
            let ends = train.ends(element);
            // Between shafts that float and carry nothing it is as good as open.
            if ideal.element(element)?.is_zero() && ends.iter().any(|&body| floats(body)) {
                continue;
            }
            ends.into_iter().for_each(&mut load);
            applied.push(element);
        }
        load(Body::Shaft(train.input()));
        load(Body::Shaft(train.output()));
        let slips = (0..scenario.elements.len())
            .map(|element| combination.slip(element).map_or(0.0, |slip| slip.to_f64()))
            .collect();
        let mut equations = 0;
        let equation = loaded
            .into_iter()
            .map(|loaded| {
                equations += usize::from(loaded);
                loaded.then(|| equations - 1)
            })
            .collect();
        // One multiplier a row, one torque an element, and the output's.
        let unknowns = rows.len() + applied.len() + 1;
        if unknowns != equations {
            return None;
        }
        let output_speed = combination.shaft_speed(train.output())?.to_f64();
        let mut problem = Self {
            combination,
            model,
            rows,
            ways,
            applied,
            equation,
            slips,
            matrix: DMatrix::zeros(unknowns, unknowns),
            right: DVector::zeros(unknowns),
            output_speed,
        };
        problem.fill();
        Some(problem)
    }

    /// Sets up what all directions have in common.
    fn fill(&mut self) {
        let train = self.combination.train();
        for (index, &element) in self.applied.iter().enumerate() {
            let [first, second] = train.ends(element);
            for (body, torque) in [(first, -1.0), (second, 1.0)] {
                if let Some(equation) = self.equation_of(body) {
                    self.matrix[(equation, self.rows.len() + index)] += torque;
                }
            }
        }
        if let Some(equation) = self.equation_of(Body::Shaft(train.output())) {
            let last = self.matrix.ncols() - 1;
            self.matrix[(equation, last)] += 1.0;
        }
        if let Some(equation) = self.equation_of(Body::Shaft(train.input())) {
            self.right[equation] -= self.input_torque();
        }
        for element in 0..self.slips.len() {
            let drag = self.drag(element);
            let [first, second] = train.ends(element);
            for (body, torque) in [(first, -drag), (second, drag)] {
                if let Some(equation) = self.equation_of(body) {
                    self.right[equation] -= torque;
                }
            }
        }
    }

    fn input_torque(&self) -> f64 {
        if self.model.coasting { -1.0 } else { 1.0 }
    }

    /// The ways in which something turns.
    pub(super) fn moving(&self) -> Vec<usize> {
        let ways = self.ways.iter().enumerate();
        ways.filter(|(_, way)| !way.still)
            .map(|(index, _)| index)
            .collect()
    }

    fn equation_of(&self, body: Body) -> Option<usize> {
        match body {
            Body::Housing => None,
            Body::Shaft(shaft) => self.equation[shaft],
        }
    }

    /// Member torques of a row per unit of its λ: (member, torque).
    fn shares(&self, row: &Row, directions: Directions) -> [(usize, f64); 3] {
        let (a, b) = row.factors;
        let (own, shared) = row.ways;
        let b = b * std::iter::once(own)
            .chain(shared)
            .map(|way| self.ways[way].efficiency(directions.is_backwards(way)))
            .product::<f64>();
        [
            (row.rolling.from, a),
            (row.rolling.to, b),
            (row.rolling.carrier, -(a + b)),
        ]
    }

    fn drag(&self, element: usize) -> f64 {
        if self.applied.contains(&element) {
            0.0
        } else {
            self.model.drag * self.slips[element]
        }
    }

    /// The coupling of a row.
    fn coupling(&self, row: &Row) -> usize {
        self.ways[row.ways.0].coupling
    }

    /// The torques with power going these ways.
    pub(super) fn solve(&self, directions: Directions) -> Attempt {
        let train = self.combination.train();
        let mut matrix = self.matrix.clone();
        for (index, row) in self.rows.iter().enumerate() {
            let bodies = train.members(self.coupling(row));
            for (member, torque) in self.shares(row, directions) {
                if let Some(equation) = self.equation_of(bodies[member]) {
                    matrix[(equation, index)] -= torque;
                }
            }
        }
        let mut unknowns = self.right.clone();
        if LU::new(matrix).solve_mut(&mut unknowns) {
            self.checked(directions, &unknowns)
        } else {
            Attempt::Singular
        }
    }

    /// Whether the torques found roll the way that was assumed, and let power out.
    fn checked(&self, directions: Directions, unknowns: &DVector<f64>) -> Attempt {
        let train = self.combination.train();
        let output = unknowns[unknowns.len() - 1];
        let (input_power, output_power) = (self.input_torque(), output * self.output_speed);
        let (power_in, power_out) = if self.model.coasting {
            (output_power, -input_power)
        } else {
            (input_power, -output_power)
        };
        if power_in <= 0.0 || power_out <= 0.0 {
            return Attempt::Contradicts;
        }
        // Most choices of directions end here, so nothing else is set up before.
        let mut rolling = vec![0.0; self.ways.len()];
        for (index, row) in self.rows.iter().enumerate() {
            let (own, shared) = row.ways;
            rolling[own] = unknowns[index] * row.factors.0 * row.speed / power_in;
            if let Some(shared) = shared {
                rolling[shared] +=
                    rolling[own] * self.ways[own].efficiency(directions.is_backwards(own));
            }
        }
        let contradicts = |(way, power): (usize, &f64)| {
            power.abs() > NO_POWER && (*power < 0.0) != directions.is_backwards(way)
        };
        if rolling.iter().enumerate().any(contradicts) {
            return Attempt::Contradicts;
        }
        let couplings = &train.scenario().couplings;
        let mut members: Vec<Vec<f64>> = (0..couplings.len())
            .map(|coupling| vec![0.0; train.members(coupling).len()])
            .collect();
        let mut mesh_losses: Vec<Vec<f64>> = couplings
            .iter()
            .map(|coupling| vec![0.0; coupling.facts().meshes().len()])
            .collect();
        for (index, row) in self.rows.iter().enumerate() {
            for (member, torque) in self.shares(row, directions) {
                members[self.coupling(row)][member] += unknowns[index] * torque;
            }
            let (own, shared) = row.ways;
            let losses = &mut mesh_losses[self.coupling(row)];
            let meshes = losses.len();
            let mut put = |way: usize, first: usize| {
                let lost = self.ways[way].losses(self.model.mesh_efficiency, rolling[way]);
                losses[first..first + lost.len()].copy_from_slice(&lost);
            };
            put(own, row.first_mesh);
            if let Some(shared) = shared {
                put(shared, meshes - self.ways[shared].meshes);
            }
        }
        let mut elements = vec![0.0; self.slips.len()];
        let mut drag_losses = vec![0.0; self.slips.len()];
        for (index, &element) in self.applied.iter().enumerate() {
            elements[element] = unknowns[self.rows.len() + index];
        }
        for element in 0..self.slips.len() {
            let drag = self.drag(element);
            if drag != 0.0 {
                elements[element] = drag;
                drag_losses[element] = drag * self.slips[element] / power_in;
            }
        }
        Attempt::Holds(LossyTorques {
            members,
            elements,
            output,
            efficiency: power_out / power_in,
            mesh_losses,
            drag_losses,
        })
    }
}
