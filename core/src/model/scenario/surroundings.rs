//! What stands around a gear train: the engine and the torque converter before its input, and
//! the load at its output.

use serde::Serialize;

use crate::json::read_fields;

/// An engine by its torque at full pedal and with the pedal released.
///
/// Between the points torque is linear in speed, and at a pedal position p from 0 to 1 it is
/// motoring + p·(full − motoring). At its first speed an idle control adds what keeps it there,
/// up to the torque of full pedal; above its last it is governed and has no operating point.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Engine {
    /// What people call it.
    pub label: String,
    /// Full pedal: speed in rev/min and torque in N·m, speeds rising.
    pub full: Vec<[f64; 2]>,
    /// Pedal released: the same speeds' range, torque 0 or below.
    pub motoring: Vec<[f64; 2]>,
}

/// A torque converter by its table.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Converter {
    /// What people call it.
    pub label: String,
    /// Speed ratio (turbine/pump), torque ratio (turbine/pump) and capacity factor
    /// K = N/√T of the pump in rev/min per √(N·m), speed ratios rising from 0 to below 1.
    /// At speed ratio 1 nothing circulates: torque ratio 1 and no torque, which is not listed.
    pub table: Vec<[f64; 3]>,
}

/// What holds the output back: constant + linear·n + quadratic·n² in N·m at the output shaft,
/// n being its speed in rev/min whichever way it turns, and on a slope weight·sin(slope) more.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Load {
    /// What people call it.
    pub label: String,
    /// N·m at any speed, such as rolling resistance.
    pub constant: f64,
    /// N·m per rev/min.
    pub linear: f64,
    /// N·m per (rev/min)², such as the drag of the air.
    pub quadratic: f64,
    /// N·m that the whole weight would put on the output shaft if it hung from the wheels:
    /// weight · wheel radius / ratio from output to wheels.
    pub weight: f64,
}

read_fields!(Engine {
    label,
    full,
    motoring
});
read_fields!(Converter { label, table });
read_fields!(Load {
    label,
    constant,
    linear,
    quadratic,
    weight
});
