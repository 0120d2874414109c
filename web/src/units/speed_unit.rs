//! The unit that drawings letter speeds in.

use levertrain_core::words::word;

/// A unit of speed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum SpeedUnit {
    /// Revolutions per minute, which the session itself counts in.
    #[default]
    RevPerMin,
    /// Radians per second.
    RadPerSecond,
}

impl SpeedUnit {
    /// All there are.
    pub const ALL: [Self; 2] = [Self::RevPerMin, Self::RadPerSecond];

    /// Its name among the settings.
    pub const fn name(self) -> &'static str {
        match self {
            Self::RevPerMin => "rev/min",
            Self::RadPerSecond => "rad/s",
        }
    }

    /// As it is lettered.
    pub fn symbol(self) -> &'static str {
        match self {
            Self::RevPerMin => word("unit-rev-min"),
            Self::RadPerSecond => self.name(),
        }
    }

    /// How a thousand of it is lettered.
    pub fn thousand(self) -> &'static str {
        match self {
            Self::RevPerMin => word("unit-rev-min-thousand"),
            Self::RadPerSecond => "1000 rad/s",
        }
    }

    /// A speed in rev/min, in this unit.
    pub fn of(self, rev_per_min: f64) -> f64 {
        match self {
            Self::RevPerMin => rev_per_min,
            Self::RadPerSecond => rev_per_min * std::f64::consts::PI / 30.0,
        }
    }
}
