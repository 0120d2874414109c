//! What gears and pinions are called.

use super::Role;
use crate::base::said::word;

/// What a pinion is called in its set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PinionName {
    /// The only kind of a set.
    Plain,
    /// Of two rows in series, the one next to the sun.
    Inner,
    /// The one next to the ring.
    Outer,
    /// Of a Ravigneaux set, the one next to the small sun.
    Short,
    /// The one next to large sun and ring.
    Long,
    /// Both steps of a stepped pinion.
    Stepped,
    /// The step next to the sun.
    OnSun,
    /// The step next to the ring.
    OnRing,
    /// Of a stepped pinion between two suns, the step next to the first.
    OnFirstSun,
    /// The step next to the second.
    OnSecondSun,
}

impl PinionName {
    /// The word for it.
    pub fn word(self) -> &'static str {
        word(match self {
            Self::Plain => "pinion",
            Self::Inner => "pinion-inner",
            Self::Outer => "pinion-outer",
            Self::Short => "pinion-short",
            Self::Long => "pinion-long",
            Self::Stepped => "pinion-stepped",
            Self::OnSun => "pinion-on-sun",
            Self::OnRing => "pinion-on-ring",
            Self::OnFirstSun => "pinion-on-first-sun",
            Self::OnSecondSun => "pinion-on-second-sun",
        })
    }
}

/// What a gear is called, be it a member or a pinion.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum GearName {
    /// A member of a coupling.
    Member(Role),
    /// A pinion.
    Pinion(PinionName),
}

impl GearName {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Member(role) => role.word(),
            Self::Pinion(pinion) => pinion.word(),
        }
    }
}

impl From<Role> for GearName {
    fn from(role: Role) -> Self {
        Self::Member(role)
    }
}

impl From<PinionName> for GearName {
    fn from(pinion: PinionName) -> Self {
        Self::Pinion(pinion)
    }
}
