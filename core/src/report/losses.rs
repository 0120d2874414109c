//! Losses as plain data.

use serde::Serialize;

use crate::load::losses::{LossModel, Lossy};
use crate::solve::Combination;
use crate::train::Train;

/// How a combination fares with losses. Torques are per unit of input torque, losses shares of
/// the power that goes in.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Losses"))]
#[serde(rename_all = "camelCase")]
pub struct LossReport {
    /// `drives`, `self-locking`, `ambiguous`, `indeterminate`, `too-many`, or `no-drive`.
    #[cfg_attr(
        feature = "types",
        ts(
            type = "\"drives\" | \"self-locking\" | \"ambiguous\" | \"indeterminate\" | \"too-many\" | \"no-drive\""
        )
    )]
    pub outcome: &'static str,
    /// Power out over power in, where it drives.
    pub efficiency: Option<f64>,
    /// Torque on the train from outside at the output.
    pub output: Option<f64>,
    /// Loss of each mesh of each coupling.
    pub meshes: Vec<MeshLoss>,
    /// Loss in the drag of each open element that slips.
    pub drag: Vec<DragLoss>,
    /// Torque each element passes from its first end to its second, in the scenario's order.
    pub elements: Vec<f64>,
    /// Torques on the members of each coupling, in member order.
    pub couplings: Vec<Vec<f64>>,
}

/// The loss of a mesh.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct MeshLoss {
    /// Id of its coupling.
    pub coupling: String,
    /// Which mesh.
    pub mesh: &'static str,
    /// Its loss as a share of the power that goes in.
    pub share: f64,
}

/// The loss of an open element.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct DragLoss {
    /// Id of the element.
    pub element: String,
    /// Its loss as a share of the power that goes in.
    pub share: f64,
}

impl LossReport {
    fn without_power(outcome: &'static str) -> Self {
        Self {
            outcome,
            efficiency: None,
            output: None,
            meshes: Vec::new(),
            drag: Vec::new(),
            elements: Vec::new(),
            couplings: Vec::new(),
        }
    }

    /// Solves a combination with losses.
    pub fn of(combination: &Combination<'_>, model: &LossModel) -> Self {
        let lossy = Lossy::of(combination, model);
        Self::told(combination.train(), lossy.as_ref())
    }

    /// Solves every named range with losses, its one-way clutches settled for the model's duty.
    pub fn chart(train: &Train, model: &LossModel) -> Vec<Self> {
        let ranges = (0..train.scenario().ranges.len()).map(|range| train.range(range));
        let mut reports = Vec::new();
        train.for_each_with_losses(ranges, model, |_, lossy| {
            reports.push(Self::told(train, lossy));
        });
        reports
    }

    fn told(train: &Train, lossy: Option<&Lossy>) -> Self {
        let torques = match lossy {
            None => return Self::without_power("no-drive"),
            Some(Lossy::SelfLocking) => return Self::without_power("self-locking"),
            Some(Lossy::Ambiguous(_)) => return Self::without_power("ambiguous"),
            Some(Lossy::Indeterminate) => return Self::without_power("indeterminate"),
            Some(Lossy::TooMany) => return Self::without_power("too-many"),
            Some(Lossy::Drives(torques)) => torques,
        };
        let scenario = train.scenario();
        let mut meshes = Vec::new();
        for (coupling, losses) in scenario.couplings.iter().zip(torques.mesh_losses.iter()) {
            let facts = coupling.facts();
            let named = facts.meshes().into_iter().zip(losses);
            meshes.extend(named.map(|(mesh, &share)| MeshLoss {
                coupling: facts.id().to_owned(),
                mesh: mesh.name(),
                share,
            }));
        }
        let drag = scenario.elements.iter().zip(&torques.drag_losses);
        let drag = drag
            .filter(|(_, share)| **share != 0.0)
            .map(|(element, &share)| DragLoss {
                element: element.id().to_owned(),
                share,
            });
        Self {
            outcome: "drives",
            efficiency: Some(torques.efficiency),
            output: Some(torques.output),
            meshes,
            drag: drag.collect(),
            elements: torques.elements.clone(),
            couplings: torques.members.iter().map(<[f64]>::to_vec).collect(),
        }
    }
}
