//! Ideal torques, exactly: what each member, clutch and brake carries per unit of input torque.

use levertrain_exact::{Fraction, Motions, Terms, Turning};

use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::train::{Body, Train};

/// The torques of one combination without losses, per unit of input torque.
///
/// Signs: a torque is positive along positive speed. A member's torque acts *on the set* from
/// its shaft, as in the Modelica Standard Library's `IdealPlanetary`; for a single-row set that
/// gives Tr = (R/S)·Ts and Tc = −(1 + R/S)·Ts.
///
/// Equations: a mesh row r with Σ rᵢ·ωᵢ = 0 does no work, so its member torques are λ·rᵢ for
/// one unknown λ; on every shaft the torques from outside, from the sets and from the applied
/// elements add up to zero. These are solved by the same exact elimination as the speeds.
///
/// A torque is `None` where equilibrium does not determine it: more is applied than needed, and
/// the share of each element depends on its fit and elasticity.
#[derive(Debug, Clone)]
pub struct Torques {
    members: Vec<Vec<Option<Fraction>>>,
    elements: Vec<Option<Fraction>>,
    output: Option<Fraction>,
    housing: Option<Fraction>,
}

impl Torques {
    /// Solves the equilibrium of a combination; `None` when it cannot carry an input torque
    /// (neutral), or when nothing is known of the output because the input cannot turn.
    pub fn of(combination: &Combination<'_>) -> Option<Self> {
        combination.state().ratio()?;
        let balance = Balance::of(combination);
        if !balance.solved.input_can_turn() {
            return None;
        }
        let train = combination.train();
        let mut first_row = 0;
        let mut members = Vec::new();
        for index in 0..train.scenario().couplings.len() {
            let rows = &train.gearing(index).mesh_rows;
            members.push(
                (0..train.members(index).len())
                    .map(|member| {
                        let terms = rows.iter().enumerate();
                        let terms = terms.map(|(row, factors)| (first_row + row, factors[member]));
                        balance.value(&terms.filter(|(_, factor)| *factor != 0).collect())
                    })
                    .collect(),
            );
            first_row += rows.len();
        }
        let elements = (0..train.scenario().elements.len())
            .map(|element| balance.element(element))
            .collect();
        let output = balance.output();
        // The housing takes what input and output do not balance between them.
        let housing = output.as_ref().map(|output| output + &Fraction::ONE);
        Some(Self {
            members,
            elements,
            output,
            housing,
        })
    }

    /// Torque on member `member` of coupling `coupling`, from its shaft.
    pub fn member(&self, coupling: usize, member: usize) -> Option<&Fraction> {
        self.members[coupling][member].as_ref()
    }

    /// Torque that element `element` passes from its first end to its second; zero when open.
    /// For a brake this is the holding torque.
    pub fn element(&self, element: usize) -> Option<&Fraction> {
        self.elements[element].as_ref()
    }

    /// Torque on the train from outside at the output: minus what it delivers.
    pub fn output(&self) -> Option<&Fraction> {
        self.output.as_ref()
    }

    /// Torque the train puts on the housing: input and output torque together.
    pub fn housing(&self) -> Option<&Fraction> {
        self.housing.as_ref()
    }

    /// Whether every torque is determined.
    pub fn is_determinate(&self) -> bool {
        let members = self.members.iter().flatten();
        members.chain(&self.elements).all(Option::is_some) && self.output.is_some()
    }
}

/// The equilibrium of every shaft: unknowns are one λ a mesh row, one torque an applied element, and
/// one from outside at each port, in this order.
pub(crate) struct Equilibrium {
    /// All torques that balance.
    pub(crate) torques: Motions,
    applied: ElementSet,
    rows: usize,
}

impl Equilibrium {
    /// Of a train with these elements applied and ports on these shafts.
    pub(crate) fn of(train: &Train, applied: ElementSet, ports: &[usize]) -> Self {
        let scenario = train.scenario();
        let mut equations: Vec<Terms> = vec![Terms::new(); scenario.shafts.len()];
        let mut add = |body: Body, unknown: usize, factor: i64| {
            if let (Body::Shaft(shaft), true) = (body, factor != 0) {
                equations[shaft].push((unknown, factor));
            }
        };
        let mut rows = 0;
        for index in 0..scenario.couplings.len() {
            for factors in &train.gearing(index).mesh_rows {
                // The set pushes back on its shafts.
                for (&body, factor) in train.members(index).iter().zip(factors) {
                    add(body, rows, -factor);
                }
                rows += 1;
            }
        }
        for (index, element) in applied.iter().enumerate() {
            let [first, second] = train.ends(element);
            add(first, rows + index, -1);
            add(second, rows + index, 1);
        }
        let first_port = rows + applied.len();
        for (index, &shaft) in ports.iter().enumerate() {
            add(Body::Shaft(shaft), first_port + index, 1);
        }
        let mut torques = Motions::free(first_port + ports.len());
        for terms in &equations {
            torques = torques.constrained(terms).unwrap_or(torques);
        }
        Self {
            torques,
            applied,
            rows,
        }
    }

    /// The unknown at a port.
    pub(crate) fn port(&self, port: usize) -> usize {
        self.rows + self.applied.len() + port
    }

    /// What an element passes from its first end to its second; an open one nothing.
    pub(crate) fn element(&self, element: usize) -> Terms {
        let at = self.applied.iter().position(|applied| applied == element);
        at.map_or(Terms::new(), |at| vec![(self.rows + at, 1)])
    }
}

/// The equilibrium of a combination with ports at output and input, by whose torque all are measured.
pub(crate) struct Balance {
    solved: Turning,
    equilibrium: Equilibrium,
}

impl Balance {
    const OUTPUT: usize = 0;
    const INPUT: usize = 1;

    pub(crate) fn of(combination: &Combination<'_>) -> Self {
        let train = combination.train();
        let ports = [train.output(), train.input()];
        let equilibrium = Equilibrium::of(train, combination.applied(), &ports);
        Self {
            solved: equilibrium.torques.turning(equilibrium.port(Self::INPUT)),
            equilibrium,
        }
    }

    fn value(&self, terms: &Terms) -> Option<Fraction> {
        self.solved.value(terms)
    }

    fn output(&self) -> Option<Fraction> {
        self.value(&vec![(self.equilibrium.port(Self::OUTPUT), 1)])
    }

    /// The multiplier λ of a mesh row, counted through all couplings.
    pub(crate) fn row(&self, row: usize) -> Option<Fraction> {
        self.value(&vec![(row, 1)])
    }

    /// The torque an element passes from its first end to its second; zero when open.
    pub(crate) fn element(&self, element: usize) -> Option<Fraction> {
        self.value(&self.equilibrium.element(element))
    }
}
