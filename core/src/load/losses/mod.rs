//! Torques with mesh losses, and the efficiency they leave.
//!
//! In `f64`: losses are empirical, so there is nothing exact to keep. Without losses the results
//! equal those of [`crate::Torques`], which is tested.

mod bounds;
mod equilibrium;
mod joined;
mod loaded;
mod per_coupling;
mod solver;
mod trial;
mod ways;

use crate::base::problem::Problem;
use crate::base::said::word;
use crate::solve::Combination;
pub use per_coupling::PerCoupling;
use solver::Solver;

/// Efficiency of one mesh where nothing better is known: 0.99 (common practice for ground spur
/// and helical gears, from memory; makers' data differ).
pub const MESH_EFFICIENCY: f64 = 0.99;

/// Most directions of rolling power that are tried one by one (2ⁿ of them).
const MOST_TRIED: u32 = 12;
/// Power below this share of the input power counts as none: far above rounding (1e-16 per
/// operation), far below any real loss.
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
    pub fn new(mesh_efficiency: f64, drag: f64, coasting: bool) -> Result<Self, Problem> {
        if !(mesh_efficiency > 0.0 && mesh_efficiency <= 1.0) {
            return Err(Problem::of(
                word("place-mesh"),
                (
                    "problem-efficiency",
                    &[("found", &mesh_efficiency.to_string())],
                ),
                ("fix-efficiency", &[]),
            ));
        }
        if !(drag >= 0.0 && drag.is_finite()) {
            return Err(Problem::of(
                word("place-drag"),
                ("problem-drag", &[("found", &drag.to_string())]),
                ("fix-drag", &[]),
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
    /// Equilibrium does not determine the torques, because more is applied than needed; or a
    /// set carries torque while it is not determined how fast it rolls.
    Indeterminate,
    /// More gear trains roll than all directions are tried of: a dozen, a Ravigneaux set
    /// counting for three.
    TooMany,
}

/// Torques and losses, per unit of input torque and input power; input speed is 1.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct LossyTorques {
    /// Torque on each member of each coupling from its shaft, in member order.
    pub members: PerCoupling,
    /// Torque each element passes from its first end to its second.
    pub elements: Vec<f64>,
    /// Torque on the train from outside at the output.
    pub output: f64,
    /// Power out over power in, at most 1.
    pub efficiency: f64,
    /// Loss of each mesh of each coupling, in the order of [`CouplingKind::meshes`], as a share
    /// of the power in.
    ///
    /// [`CouplingKind::meshes`]: crate::model::coupling::CouplingKind::meshes
    pub mesh_losses: PerCoupling,
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
    /// from memory). All 2ⁿ directions are tried, but for those that
    /// bounds of the torques exclude (`bounds.rs`); one that agrees with the torques it gives and lets
    /// power out is a solution.
    ///
    /// Where rows of a coupling share meshes next to their member b, as the two suns of a
    /// Ravigneaux set drive one ring through the same long pinions, their rolling powers meet
    /// before those meshes, which pass on only the sum: Tb = η₁^v·Σ λ·rb·η₀^w over the rows, with
    /// η₁ for the shared meshes and v the direction of that sum (derived: the balance of power at
    /// the long pinion, each mesh taken to lose a share of what it passes). With one row loaded
    /// that is the rule above for all meshes in series; where one sun drives the other, the
    /// mesh with the ring loses only what the ring takes.
    ///
    /// What takes part is decided exactly, by the ideal torques: a set with a member that floats
    /// and no torque in it stays idle, and so does an applied element between floating shafts.
    pub fn of(combination: &Combination<'_>, model: &LossModel) -> Option<Self> {
        let mut solver = Solver::new(combination.train(), model);
        solver.solve(combination)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::base::element_set::ElementSet;
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

    /// Ravigneaux sets in series, small sun in and ring out, every carrier held.
    fn in_series(sets: usize) -> Option<Train> {
        let shafts: Vec<String> = (0..=sets)
            .flat_map(|at| [format!("s{at}"), format!("free{at}")])
            .map(|id| format!(r#"{{"id": "{id}", "label": "{id}"}}"#))
            .collect();
        let couplings: Vec<String> = (0..sets)
            .map(|at| {
                format!(
                    r#"{{"kind": "ravigneaux", "id": "p{at}", "label": "P",
                    "small_sun": {{"shaft": "s{at}", "teeth": 30}},
                    "large_sun": {{"shaft": "free{at}", "teeth": 36}},
                    "ring": {{"shaft": "s{}", "teeth": 72}}, "carrier": "housing",
                    "short": {{"teeth": 18}}, "long": {{"teeth": 18}}, "count": 3}}"#,
                    at + 1
                )
            })
            .collect();
        Train::parse(&format!(
            r#"{{"format": 1, "name": "Sets", "input": "s0", "output": "s{sets}",
            "shafts": [{}], "couplings": [{}]}}"#,
            shafts.join(","),
            couplings.join(",")
        ))
        .ok()
    }

    /// Each passes three meshes: small sun, short and long pinion, ring.
    #[test]
    fn more_than_can_be_tried_is_said() {
        let model = LossModel::default();
        let efficiency = |sets: usize| {
            let train = in_series(sets)?;
            match Lossy::of(&train.solve(ElementSet::NONE), &model)? {
                Lossy::Drives(torques) => Some(Some(torques.efficiency)),
                Lossy::TooMany => Some(None),
                _ => None,
            }
        };
        let expected = MESH_EFFICIENCY.powi(3 * 4);
        let four = efficiency(4).flatten();
        assert!(
            four.is_some_and(|four| (four - expected).abs() < 1e-12),
            "{four:?}, not {expected}"
        );
        assert_eq!(efficiency(5), Some(None));
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
            let lost: f64 = torques.mesh_losses.all().iter().sum();
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
