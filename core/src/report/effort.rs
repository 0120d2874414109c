//! Torque and power as plain data.

use serde::Serialize;

use super::{Exact, exact};
use crate::load::power::PowerFlow;
use crate::solve::Combination;
use crate::solve::torque::Torques;

/// Ideal torques per unit of input torque, and powers per unit of input power. `null` is a
/// torque that equilibrium does not determine.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Effort"))]
pub struct EffortReport {
    /// Whether every torque is determined; otherwise more is applied than needed.
    pub determinate: bool,
    /// Torque on the train from outside at the output: minus what it delivers.
    pub output: Option<Exact>,
    /// Torque the train puts on the housing.
    pub housing: Option<Exact>,
    /// One entry a coupling.
    pub couplings: Vec<CouplingEffort>,
    /// One entry an element, open ones with zero.
    pub elements: Vec<ElementEffort>,
    /// The largest power anywhere where that is more than the input's.
    pub recirculating: Option<Exact>,
}

/// The efforts of a coupling's members, in member order.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct CouplingEffort {
    /// Its id.
    pub id: String,
    /// Torque on each member from its shaft.
    pub torques: Vec<Option<Exact>>,
    /// Power into the coupling through each member.
    pub powers: Vec<Option<Exact>>,
    /// Where two members or more drive at once: index of each, and its part of what goes in.
    pub shares: Vec<ShareReport>,
}

/// A member's part of the power that goes into its set.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ShareReport {
    /// Index among the members.
    pub member: usize,
    /// Its part.
    pub share: Exact,
}

/// What an element carries.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ElementEffort {
    /// Its id.
    pub id: String,
    /// Torque from its first end to its second; a brake's holding torque.
    pub torque: Option<Exact>,
    /// Power from its first end to its second.
    pub power: Option<Exact>,
}

impl EffortReport {
    /// The efforts of a driving combination; `None` for any other.
    pub fn of(combination: &Combination<'_>) -> Option<Self> {
        let torques = Torques::of(combination)?;
        let powers = PowerFlow::of(combination, &torques);
        let scenario = combination.train().scenario();
        let couplings = scenario
            .couplings
            .iter()
            .enumerate()
            .map(|(index, coupling)| {
                let facts = coupling.facts();
                let members = 0..facts.members().len();
                let shares = powers.shares(index).into_iter();
                CouplingEffort {
                    id: facts.id().to_owned(),
                    torques: members
                        .clone()
                        .map(|m| exact(torques.member(index, m).cloned()))
                        .collect(),
                    powers: members
                        .map(|m| exact(powers.member(index, m).cloned()))
                        .collect(),
                    shares: shares
                        .map(|(member, share)| ShareReport {
                            member,
                            share: (&share).into(),
                        })
                        .collect(),
                }
            });
        let elements = scenario
            .elements
            .iter()
            .enumerate()
            .map(|(index, element)| ElementEffort {
                id: element.id().to_owned(),
                torque: exact(torques.element(index).cloned()),
                power: exact(powers.element(index).cloned()),
            });
        Some(Self {
            determinate: torques.is_determinate(),
            output: exact(torques.output().cloned()),
            housing: exact(torques.housing().cloned()),
            couplings: couplings.collect(),
            elements: elements.collect(),
            recirculating: exact(powers.recirculating()),
        })
    }
}
