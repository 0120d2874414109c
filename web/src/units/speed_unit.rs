//! The unit that drawings letter speeds in.

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

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::RevPerMin => "rev/min",
            Self::RadPerSecond => "rad/s",
        }
    }

    /// The name of a thousand of it.
    pub const fn thousand(self) -> &'static str {
        match self {
            Self::RevPerMin => "1000 rev/min",
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
