//! Clutch capacity as plain data.

use serde::Serialize;

use crate::load::capacity::{Grip, Holding, first_to_slip};
use crate::solve::Combination;
use crate::train::Train;

/// How the applied elements of a combination hold at an input torque. Torques are in N·m.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Capacity"))]
#[serde(rename_all = "camelCase")]
pub struct CapacityReport {
    /// The input torque.
    pub input_torque: f64,
    /// The applied elements and the one-way clutches that lock; none where it does not drive.
    pub elements: Vec<ElementCapacity>,
    /// Id of the element that slips first as the input torque grows, where that is known.
    pub first_to_slip: Option<String>,
    /// The largest input torque before that.
    pub most_input: Option<f64>,
}

/// What an applied element must hold, and can.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct ElementCapacity {
    /// Its id.
    pub id: String,
    /// `holds`, `slips`, `idle`, `undetermined` or `no-data`.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"holds\" | \"slips\" | \"idle\" | \"undetermined\" | \"no-data\"")
    )]
    pub grip: &'static str,
    /// Size of the torque it must hold.
    pub torque: Option<f64>,
    /// Capacity by uniform wear over that torque.
    pub margin: Option<f64>,
    /// Capacity by uniform wear.
    pub uniform_wear: Option<f64>,
    /// Capacity by uniform pressure.
    pub uniform_pressure: Option<f64>,
    /// Greatest pressure on the run-in lining in N/mm².
    pub greatest_pressure: Option<f64>,
    /// The largest input torque it holds.
    pub most_input: Option<f64>,
}

impl Grip {
    /// The grip as one word of the wire format.
    pub fn key(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Slips => "slips",
            Self::Idle => "idle",
            Self::Undetermined => "undetermined",
            Self::NoData => "no-data",
        }
    }
}

impl CapacityReport {
    /// Reports a combination at an input torque in N·m; `None` where the scenario has no
    /// friction data at all.
    pub fn of(combination: &Combination<'_>, input_torque: f64) -> Option<Self> {
        let train = combination.train();
        let elements = &train.scenario().elements;
        elements.iter().find_map(|element| element.friction())?;
        let all = Holding::all(combination).unwrap_or_default();
        let first = first_to_slip(&all);
        Some(Self {
            input_torque,
            first_to_slip: first.map(|holding| id_of(train, holding)),
            most_input: first.and_then(Holding::most_input),
            elements: all
                .iter()
                .map(|holding| ElementCapacity::of(train, holding, input_torque))
                .collect(),
        })
    }
}

impl ElementCapacity {
    fn of(train: &Train, holding: &Holding, input_torque: f64) -> Self {
        let torque = holding.torque.as_ref();
        let capacity = holding.capacity;
        Self {
            id: id_of(train, holding),
            grip: holding.grip(input_torque).key(),
            torque: torque.map(|torque| torque.to_f64() * input_torque.abs()),
            margin: holding.margin(input_torque),
            uniform_wear: capacity.map(|capacity| capacity.uniform_wear),
            uniform_pressure: capacity.map(|capacity| capacity.uniform_pressure),
            greatest_pressure: capacity.map(|capacity| capacity.greatest_pressure),
            most_input: holding.most_input(),
        }
    }
}

fn id_of(train: &Train, holding: &Holding) -> String {
    train.scenario().elements[holding.element].id().to_owned()
}
