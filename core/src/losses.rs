//! Torques with mesh losses, and the efficiency they leave.
//!
//! In `f64`: losses are empirical, so there is nothing exact to keep. Without losses the results
//! equal those of [`crate::Torques`], which is tested.

use nalgebra::{DMatrix, DVector};

use crate::coupling::Rolling;
use crate::fault::Fault;
use crate::fraction::Fraction;
use crate::solve::Combination;
use crate::train::Body;

/// Efficiency of one mesh where nothing better is known: 0.99 (common practice for ground spur
/// and helical gears, from memory; makers' data differ).
pub const MESH_EFFICIENCY: f64 = 0.99;

/// Most couplings whose directions of rolling power are tried one by one (2ⁿ of them).
const MOST_TRIED: usize = 12;
/// Rolling power below this share of the input power counts as none: the set turns as one
/// piece or is not loaded, and has no loss. Far above rounding (1e-16 per operation), far below
/// any real loss.
const NO_POWER: f64 = 1e-9;

/// What is assumed about losses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LossModel {
    /// Efficiency of every mesh, above 0 and at most 1.
    pub mesh_efficiency: f64,
    /// Viscous drag of an open clutch or brake, in units of input torque per unit of input
    /// speed that it slips at: T = drag · slip, against the slip. 0 leaves it out.
    pub drag: f64,
    /// Whether the load drives the input (coasting) instead of the input the load.
    pub coasting: bool,
}

impl Default for LossModel {
    fn default() -> Self {
        Self {
            mesh_efficiency: MESH_EFFICIENCY,
            drag: 0.0,
            coasting: false,
        }
    }
}

impl LossModel {
    /// A model of these numbers.
    ///
    /// # Errors
    /// A mesh efficiency that is not above 0 and at most 1, a drag below 0, or either not a
    /// number.
    pub fn new(mesh_efficiency: f64, drag: f64, coasting: bool) -> Result<Self, Fault> {
        if !(mesh_efficiency > 0.0 && mesh_efficiency <= 1.0) {
            let problem = format!("{mesh_efficiency} cannot be an efficiency");
            return Err(Fault::new(
                "mesh efficiency",
                problem,
                "use more than 0 and at most 1",
            ));
        }
        if !(drag >= 0.0 && drag.is_finite()) {
            let problem = format!("{drag} cannot be a drag");
            return Err(Fault::new(
                "drag of open elements",
                problem,
                "use 0 or more",
            ));
        }
        Ok(Self {
            mesh_efficiency,
            drag,
            coasting,
        })
    }
}

/// How a combination fares with losses.
#[derive(Debug, Clone, PartialEq)]
pub enum Lossy {
    /// Power goes through.
    Drives(LossyTorques),
    /// No direction of the rolling powers lets power through: it locks itself.
    SelfLocking,
    /// Several directions of the rolling powers agree with themselves, and differ in the
    /// efficiency they give.
    Ambiguous(Vec<f64>),
    /// Equilibrium does not determine the torques: more is applied than needed.
    Indeterminate,
}

/// Torques and losses, per unit of input torque and input power; input speed is 1.
#[derive(Debug, Clone, PartialEq)]
pub struct LossyTorques {
    /// Torque on each member of each coupling from its shaft, in member order.
    pub members: Vec<Vec<f64>>,
    /// Torque each element passes from its first end to its second.
    pub elements: Vec<f64>,
    /// Torque on the train from outside at the output.
    pub output: f64,
    /// Power out over power in, at most 1.
    pub efficiency: f64,
    /// Loss of each mesh of each coupling, in the order of its gears, as a share of the power in.
    pub mesh_losses: Vec<Vec<f64>>,
    /// Loss in the drag of each element, as a share of the power in.
    pub drag_losses: Vec<f64>,
}

impl Lossy {
    /// Solves a driving combination with losses; `None` when it does not drive.
    ///
    /// Relative to its carrier c a mesh row is a gear train from member a to member b with the
    /// basic efficiency η₀, the product over its meshes. The torques are Ta = λ·ra,
    /// Tb = λ·rb·η₀^w and Tc = −(Ta + Tb), where w = sign(Ta·(ωa − ωc)) is the direction of the
    /// rolling power: +1 when a drives b, −1 when b drives a (H. W. Müller, *Die
    /// Umlaufgetriebe*; E. Pennestrì and F. Freudenstein, J. Mech. Des. 115, 1993; VDI 2157; all
    /// from memory). All 2ⁿ directions are tried; one that agrees with the torques it gives and
    /// lets power out is a solution.
    pub fn of(combination: &Combination<'_>, model: &LossModel) -> Option<Self> {
        combination.state().ratio()?;
        let problem = Problem::of(combination, model);
        if problem.rows.len() > MOST_TRIED {
            return None;
        }
        if problem.unknowns() != problem.equations() {
            return Some(Self::Indeterminate);
        }
        let mut found: Vec<LossyTorques> = Vec::new();
        for signs in 0..1_u32 << problem.rows.len() {
            // A row without rolling speed has no direction: only one of the two is tried.
            if problem
                .rows
                .iter()
                .enumerate()
                .any(|(i, row)| row.is_still() && signs >> i & 1 == 1)
            {
                continue;
            }
            match problem.solve(signs) {
                Attempt::Singular => return Some(Self::Indeterminate),
                Attempt::Contradicts => {}
                Attempt::Holds(torques) => {
                    let alike = |other: &LossyTorques| {
                        (other.efficiency - torques.efficiency).abs() < NO_POWER
                    };
                    if !found.iter().any(alike) {
                        found.push(torques);
                    }
                }
            }
        }
        Some(match found.len() {
            0 => Self::SelfLocking,
            1 => Self::Drives(found.remove(0)),
            _ => Self::Ambiguous(found.iter().map(|torques| torques.efficiency).collect()),
        })
    }
}

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
struct Problem<'c, 'a> {
    combination: &'c Combination<'a>,
    model: &'c LossModel,
    rows: Vec<Row>,
    applied: Vec<usize>,
    /// Equation of each shaft; those that float carry no torque and have none.
    equation: Vec<Option<usize>>,
    /// Slip of each element.
    slips: Vec<f64>,
}

enum Attempt {
    Singular,
    Contradicts,
    Holds(LossyTorques),
}

impl<'c, 'a> Problem<'c, 'a> {
    fn of(combination: &'c Combination<'a>, model: &'c LossModel) -> Self {
        let train = combination.train();
        let scenario = train.scenario();
        let speed = |body: Body| combination.body_speed(body);
        let mut rows = Vec::new();
        let mut loaded = vec![false; scenario.shafts.len()];
        for (coupling, kind) in scenario.couplings.iter().enumerate() {
            let bodies = train.members(coupling);
            for (factors, rolling) in kind.facts().mesh_rows().iter().zip(kind.facts().rolling()) {
                // A set with a member that floats passes no torque.
                let members = factors
                    .iter()
                    .zip(bodies)
                    .filter(|(factor, _)| **factor != 0);
                let speeds: Option<Vec<Fraction>> = members.map(|(_, &body)| speed(body)).collect();
                let (Some(_), Some(a), Some(c)) = (
                    speeds,
                    speed(bodies[rolling.from]),
                    speed(bodies[rolling.carrier]),
                ) else {
                    continue;
                };
                for (&factor, &body) in factors.iter().zip(bodies) {
                    if let (Body::Shaft(shaft), true) = (body, factor != 0) {
                        loaded[shaft] = true;
                    }
                }
                rows.push(Row {
                    coupling,
                    factors: (factors[rolling.from] as f64, factors[rolling.to] as f64),
                    speed: a.minus(&c).to_f64(),
                    basic: model.mesh_efficiency.powi(rolling.meshes.len() as i32),
                    rolling,
                });
            }
        }
        let slips = (0..scenario.elements.len())
            .map(|element| combination.slip(element).map_or(0.0, |slip| slip.to_f64()))
            .collect();
        let applied: Vec<usize> = combination.applied().iter().collect();
        for body in applied.iter().flat_map(|&element| train.ends(element)) {
            if let Body::Shaft(shaft) = body {
                loaded[shaft] = true;
            }
        }
        loaded[train.input()] = true;
        loaded[train.output()] = true;
        let mut count = 0;
        let equation = loaded
            .into_iter()
            .map(|loaded| {
                loaded.then(|| {
                    count += 1;
                    count - 1
                })
            })
            .collect();
        Self {
            combination,
            model,
            rows,
            applied,
            equation,
            slips,
        }
    }

    fn unknowns(&self) -> usize {
        self.rows.len() + self.applied.len() + 1
    }

    fn equations(&self) -> usize {
        self.equation.iter().flatten().count()
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

    fn solve(&self, signs: u32) -> Attempt {
        let train = self.combination.train();
        let size = self.equations();
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::element_set::ElementSet;
    use crate::train::Train;

    /// S 20, R 80, driven through `input`, delivering through `output`, the third held.
    fn one_set(input: &str, output: &str, held: &str) -> Option<Train> {
        Train::parse(&format!(
            r#"{{"format": 1, "name": "Set", "input": "{input}", "output": "{output}",
            "shafts": [{{"id": "s", "label": "S"}}, {{"id": "c", "label": "C"}},
                       {{"id": "r", "label": "R"}}],
            "couplings": [{{"kind": "planetary", "id": "p", "label": "P",
              "sun": {{"shaft": "s", "teeth": 20}}, "ring": {{"shaft": "r", "teeth": 80}},
              "carrier": "c", "pinion": {{"teeth": 30, "count": 4}}}}],
            "elements": [{{"kind": "brake", "id": "B", "label": "B", "shaft": "{held}"}}]}}"#
        ))
        .ok()
    }

    /// Efficiency formulas of a single set with basic efficiency e (derived from the torque
    /// relation Tr = k·e^w·Ts; the reference table of six cases with k = 4, e = 0.98).
    #[test]
    fn six_cases_of_a_single_set() {
        let (k, e) = (4.0, 0.98_f64);
        let model = LossModel {
            mesh_efficiency: e.sqrt(),
            ..LossModel::default()
        };
        let cases = [
            ("s", "c", "r", (1.0 + k * e) / (1.0 + k)),
            ("c", "s", "r", (1.0 + k) / (1.0 + k / e)),
            ("r", "c", "s", (k + e) / (k + 1.0)),
            ("c", "r", "s", (k + 1.0) / (k + 1.0 / e)),
            ("s", "r", "c", e),
            ("r", "s", "c", e),
        ];
        for (input, output, held, expected) in cases {
            let train = one_set(input, output, held);
            let lossy = train
                .as_ref()
                .and_then(|train| Lossy::of(&train.solve(ElementSet::from_bits(1)), &model));
            let Some(Lossy::Drives(torques)) = lossy else {
                panic!("{input} to {output}: {lossy:?}");
            };
            let lost: f64 = torques.mesh_losses.iter().flatten().sum();
            assert!(
                (torques.efficiency - expected).abs() < 1e-12,
                "{input} {output}: {torques:?}"
            );
            assert!(
                (1.0 - torques.efficiency - lost).abs() < 1e-12,
                "{input} {output}: {torques:?}"
            );
        }
    }
}
