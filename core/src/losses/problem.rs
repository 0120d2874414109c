//! The equilibrium with losses of whatever carries torque in a combination.

use nalgebra::{DMatrix, DVector};

use super::{LossModel, LossyTorques, NO_POWER};
use crate::coupling::Rolling;
use crate::solve::Combination;
use crate::torque::Balance;
use crate::train::{Body, speed_terms};

/// One mesh row, ready for the equilibrium.
struct Row {
    coupling: usize,
    rolling: Rolling,
    /// Factors of the members a and b.
    factors: (f64, f64),
    /// ωa − ωc.
    speed: f64,
    /// Basic efficiency.
    basic: f64,
}

impl Row {
    fn is_still(&self) -> bool {
        self.speed == 0.0
    }

    /// η₀^w, with w from a bit: set for −1.
    fn efficiency(&self, backwards: bool) -> f64 {
        match (self.is_still(), backwards) {
            (true, _) => 1.0,
            (false, false) => self.basic,
            (false, true) => 1.0 / self.basic,
        }
    }
}

/// The equilibrium of the loaded shafts.
pub(super) struct Problem<'c, 'a> {
    combination: &'c Combination<'a>,
    model: &'c LossModel,
    rows: Vec<Row>,
    applied: Vec<usize>,
    /// Equation of each shaft; those that float carry no torque and have none.
    equation: Vec<Option<usize>>,
    /// Slip of each element.
    slips: Vec<f64>,
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
        let mut rows = Vec::new();
        let mut carried = Vec::new();
        let mut index = 0;
        for (coupling, kind) in scenario.couplings.iter().enumerate() {
            let bodies = train.members(coupling);
            for (factors, rolling) in kind.facts().mesh_rows().iter().zip(kind.facts().rolling()) {
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
                rows.push(Row {
                    coupling,
                    factors: (factors[rolling.from] as f64, factors[rolling.to] as f64),
                    speed,
                    basic: model.mesh_efficiency.powi(rolling.meshes.len() as i32),
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
        (unknowns == equations).then_some(Self {
            combination,
            model,
            rows,
            applied,
            equation,
            slips,
        })
    }

    /// How many rows carry torque.
    pub(super) fn rows(&self) -> usize {
        self.rows.len()
    }

    /// Whether `signs` has a direction backwards for a row that does not roll.
    pub(super) fn turns_round_a_still_row(&self, signs: u32) -> bool {
        let mut rows = self.rows.iter().enumerate();
        rows.any(|(index, row)| row.is_still() && signs >> index & 1 == 1)
    }

    fn equation_of(&self, body: Body) -> Option<usize> {
        match body {
            Body::Housing => None,
            Body::Shaft(shaft) => self.equation[shaft],
        }
    }

    /// Member torques of a row per unit of its λ: (member, torque).
    fn shares(&self, row: &Row, backwards: bool) -> [(usize, f64); 3] {
        let (a, b) = row.factors;
        let b = b * row.efficiency(backwards);
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

    /// The torques with row i rolling backwards where bit i of `signs` is set.
    pub(super) fn solve(&self, signs: u32) -> Attempt {
        let train = self.combination.train();
        let size = self.rows.len() + self.applied.len() + 1;
        let mut matrix = DMatrix::<f64>::zeros(size, size);
        let mut right = DVector::<f64>::zeros(size);
        for (index, row) in self.rows.iter().enumerate() {
            for (member, torque) in self.shares(row, signs >> index & 1 == 1) {
                if let Some(equation) = self.equation_of(train.members(row.coupling)[member]) {
                    matrix[(equation, index)] -= torque;
                }
            }
        }
        for (index, &element) in self.applied.iter().enumerate() {
            let [first, second] = train.ends(element);
            for (body, torque) in [(first, -1.0), (second, 1.0)] {
                if let Some(equation) = self.equation_of(body) {
                    matrix[(equation, self.rows.len() + index)] += torque;
                }
            }
        }
        if let Some(equation) = self.equation_of(Body::Shaft(train.output())) {
            matrix[(equation, size - 1)] += 1.0;
        }
        let input_torque = if self.model.coasting { -1.0 } else { 1.0 };
        if let Some(equation) = self.equation_of(Body::Shaft(train.input())) {
            right[equation] -= input_torque;
        }
        for element in 0..self.slips.len() {
            let drag = self.drag(element);
            let [first, second] = train.ends(element);
            for (body, torque) in [(first, -drag), (second, drag)] {
                if let Some(equation) = self.equation_of(body) {
                    right[equation] -= torque;
                }
            }
        }
        match matrix.lu().solve(&right) {
            None => Attempt::Singular,
            Some(unknowns) => self.checked(signs, input_torque, &unknowns),
        }
    }

    /// Whether the torques found roll the way that was assumed, and let power out.
    fn checked(&self, signs: u32, input_torque: f64, unknowns: &DVector<f64>) -> Attempt {
        let train = self.combination.train();
        let scenario = train.scenario();
        let output = unknowns[unknowns.len() - 1];
        let output_speed = self
            .combination
            .shaft_speed(train.output())
            .map_or(0.0, |s| s.to_f64());
        let (input_power, output_power) = (input_torque, output * output_speed);
        let (power_in, power_out) = if self.model.coasting {
            (output_power, -input_power)
        } else {
            (input_power, -output_power)
        };
        if power_in <= 0.0 || power_out <= 0.0 {
            return Attempt::Contradicts;
        }
        let mut members: Vec<Vec<f64>> = scenario
            .couplings
            .iter()
            .map(|coupling| vec![0.0; coupling.facts().members().len()])
            .collect();
        let mut mesh_losses = vec![Vec::new(); scenario.couplings.len()];
        for (index, row) in self.rows.iter().enumerate() {
            let backwards = signs >> index & 1 == 1;
            let lambda = unknowns[index];
            let rolling = lambda * row.factors.0 * row.speed / power_in;
            if rolling.abs() > NO_POWER && (rolling < 0.0) != backwards {
                return Attempt::Contradicts;
            }
            for (member, torque) in self.shares(row, backwards) {
                members[row.coupling][member] += lambda * torque;
            }
            mesh_losses[row.coupling].extend(self.losses_along(row, rolling));
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

    /// Losses of the meshes of a row, in the order of its gears, when `rolling` goes in at a.
    fn losses_along(&self, row: &Row, rolling: f64) -> Vec<f64> {
        let eta = self.model.mesh_efficiency;
        let count = row.rolling.meshes.len() as i32;
        let loss = |passed: i32, power: f64| power * eta.powi(passed) * (1.0 - eta);
        if rolling >= 0.0 {
            return (0..count).map(|mesh| loss(mesh, rolling)).collect();
        }
        // Driven from b: what comes out at a has passed every mesh.
        let power = -rolling / row.basic;
        (0..count)
            .map(|mesh| loss(count - 1 - mesh, power))
            .collect()
    }
}
