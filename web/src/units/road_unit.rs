//! The units that drawings letter road speeds and forces in: those that go with the unit of torque.

use super::torque_unit::TorqueUnit;

/// Units of a road.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RoadUnit {
    /// Kilometres an hour and kilonewtons.
    Metric,
    /// Miles an hour and pounds-force.
    Miles,
}

/// m in an international mile.
const MILE: f64 = 1609.344;
/// N in a pound-force: 0.45359237 kg under 9.80665 m/s² (exact definitions).
const POUND_FORCE: f64 = 0.453_592_37 * 9.806_65;

impl RoadUnit {
    /// The one that goes with a unit of torque.
    pub const fn with(torque: TorqueUnit) -> Self {
        match torque {
            TorqueUnit::NewtonMetre => Self::Metric,
            TorqueUnit::PoundForceFoot => Self::Miles,
        }
    }

    /// As road speeds are lettered.
    pub const fn speed_name(self) -> &'static str {
        match self {
            Self::Metric => "km/h",
            Self::Miles => "mph",
        }
    }

    /// As forces are lettered.
    pub const fn force_name(self) -> &'static str {
        match self {
            Self::Metric => "kN",
            Self::Miles => "lbf",
        }
    }

    /// m/s in its unit of road speed.
    pub const fn speed_size(self) -> f64 {
        match self {
            Self::Metric => 1.0 / 3.6,
            Self::Miles => MILE / 3600.0,
        }
    }

    /// N in its unit of force.
    pub const fn force_size(self) -> f64 {
        match self {
            Self::Metric => 1000.0,
            Self::Miles => POUND_FORCE,
        }
    }
}
