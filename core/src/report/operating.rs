//! The operating point as plain data.

use serde::Serialize;

use crate::load::operating::{Conditions, NoPoint, NoPower, Operating, SteadyPoint};
use crate::solve::Combination;
use crate::words::Catalogue;

/// Where engine, train and load agree. Speeds in rev/min, torques in N·m, powers in W.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Operating"))]
#[serde(rename_all = "camelCase")]
pub struct OperatingReport {
    /// `steady`, or why there is no steady point: `load-too-great`, `below-table`, `past-table`,
    /// `coasting`, `overruns`, or, where no power passes, `no-drive`, `self-locking`,
    /// `ambiguous`, `indeterminate`, `too-many`.
    #[cfg_attr(
        feature = "types",
        ts(
            type = "\"steady\" | \"load-too-great\" | \"below-table\" | \"past-table\" | \"coasting\" | \"overruns\" | \"no-drive\" | \"self-locking\" | \"ambiguous\" | \"indeterminate\" | \"too-many\""
        )
    )]
    pub outcome: &'static str,
    /// The same as a sentence.
    pub words: &'static str,
    /// Power out over power in of the train while the engine drives.
    pub efficiency: Option<f64>,
    /// Every steady point, by rising speed.
    pub points: Vec<PointReport>,
    /// With an open converter: where the engine settles while the output is held.
    pub stall: Option<PointReport>,
    /// Torque with which the load holds the output at standstill.
    pub load_at_rest: Option<f64>,
}

/// A steady point.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "OperatingPoint"))]
#[serde(rename_all = "camelCase")]
pub struct PointReport {
    /// Whether speeds come back when pushed.
    pub stable: bool,
    /// Whether the idle control holds the engine, with more torque than the pedal asks for.
    pub idling: bool,
    /// Of engine and pump.
    pub engine_speed: f64,
    /// Of engine and pump.
    pub engine_torque: f64,
    /// Turbine speed over pump speed.
    pub speed_ratio: f64,
    /// Turbine torque over pump torque.
    pub torque_ratio: f64,
    /// K = N/√T of the pump; `null` when nothing slips.
    pub capacity_factor: Option<f64>,
    /// Of the turbine, the train's input.
    pub input_speed: f64,
    /// Of the turbine.
    pub input_torque: f64,
    /// Negative backward.
    pub output_speed: f64,
    /// Of the train on the output.
    pub output_torque: f64,
    /// Of the engine.
    pub power_in: f64,
    /// At the output.
    pub power_out: f64,
    /// Heat in the converter.
    pub converter_loss: f64,
    /// Heat in the meshes.
    pub gear_loss: f64,
}

impl From<&SteadyPoint> for PointReport {
    fn from(point: &SteadyPoint) -> Self {
        Self {
            stable: point.stable,
            idling: point.idling,
            engine_speed: point.engine_speed,
            engine_torque: point.engine_torque,
            speed_ratio: point.speed_ratio,
            torque_ratio: point.torque_ratio,
            capacity_factor: point.capacity_factor,
            input_speed: point.input_speed,
            input_torque: point.input_torque,
            output_speed: point.output_speed,
            output_torque: point.output_torque,
            power_in: point.power_in(),
            power_out: point.power_out(),
            converter_loss: point.converter_loss(),
            gear_loss: point.gear_loss(),
        }
    }
}

impl OperatingReport {
    /// Solves a combination under these conditions; `None` where the scenario has no engine and
    /// load.
    pub fn of(combination: &Combination<'_>, conditions: &Conditions) -> Option<Self> {
        Some(match Operating::of(combination, conditions)? {
            Operating::NoPower(reason) => Self {
                outcome: key(reason.message()),
                words: words(reason.message()),
                efficiency: None,
                points: Vec::new(),
                stall: None,
                load_at_rest: None,
            },
            Operating::Solved {
                efficiency,
                points,
                stall,
                load_at_rest,
                reason,
            } => Self {
                outcome: reason.map_or("steady", |reason| key(reason.message())),
                words: words(reason.map_or(steady_message(&points), NoPoint::message)),
                efficiency: Some(efficiency),
                points: points.iter().map(PointReport::from).collect(),
                stall: stall.as_ref().map(PointReport::from),
                load_at_rest: Some(load_at_rest),
            },
        })
    }
}

fn steady_message(points: &[SteadyPoint]) -> &'static str {
    match (points.len(), points.iter().any(|point| point.stable)) {
        (1, true) if points.iter().any(|point| point.idling) => "operating-idles",
        (1, true) => "operating-steady",
        (1, false) => "operating-drifts",
        (_, true) => "operating-several",
        (_, false) => "operating-several-unstable",
    }
}

/// The sentence of a message.
fn words(message: &str) -> &str {
    Catalogue::spoken().plain(message)
}

/// The outcome that a message is of, as one word.
fn key(message: &'static str) -> &'static str {
    message.strip_prefix("operating-").unwrap_or(message)
}

impl NoPoint {
    const fn message(self) -> &'static str {
        match self {
            Self::LoadTooGreat => "operating-load-too-great",
            Self::BelowTable => "operating-below-table",
            Self::PastTable => "operating-past-table",
            Self::Coasting => "operating-coasting",
            Self::Overruns => "operating-overruns",
        }
    }
}

impl NoPower {
    const fn message(self) -> &'static str {
        match self {
            Self::NoDrive => "operating-no-drive",
            Self::SelfLocking => "operating-self-locking",
            Self::Ambiguous => "operating-ambiguous",
            Self::Indeterminate => "operating-indeterminate",
            Self::TooMany => "operating-too-many",
        }
    }
}
