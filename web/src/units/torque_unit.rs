//! The unit that drawings letter torques in.

/// A unit of torque.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum TorqueUnit {
    /// Newton metres, which everything is computed in.
    #[default]
    NewtonMetre,
    /// Pound-force feet.
    PoundForceFoot,
}

/// N·m in a pound-force foot: 0.45359237 kg under 9.80665 m/s², times 0.3048 m (the exact
/// definitions of the international pound and foot and of standard gravity).
const POUND_FORCE_FOOT: f64 = 0.453_592_37 * 9.806_65 * 0.304_8;

impl TorqueUnit {
    /// All there are.
    pub const ALL: [Self; 2] = [Self::NewtonMetre, Self::PoundForceFoot];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::NewtonMetre => "N·m",
            Self::PoundForceFoot => "lbf·ft",
        }
    }

    /// A torque in N·m, in this unit.
    pub fn of(self, newton_metres: f64) -> f64 {
        match self {
            Self::NewtonMetre => newton_metres,
            Self::PoundForceFoot => newton_metres / POUND_FORCE_FOOT,
        }
    }
}
