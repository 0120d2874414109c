//! The shift elements of a scenario, one struct a kind, and reading them by their `kind`.

use serde::Serialize;

use super::{Friction, HOUSING};
use crate::base::problem::Problem;
use crate::json::{Read, Value, one_of, read_fields, tagged};

/// A shift element: something that can be applied and released, or locks by itself.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum Element {
    /// Holds a shaft to the housing.
    Brake(Brake),
    /// Joins two shafts so that they turn together.
    Clutch(Clutch),
    /// Locks a shaft against turning one way relative to another body, by itself.
    OneWay(OneWay),
}

/// Holds a shaft to the housing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Brake {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Id of the shaft it holds.
    pub shaft: String,
    /// Its friction surfaces, where they are known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub friction: Option<Friction>,
    /// The room along the axis it is drawn in, where that was chosen: 0 is before the first set, 1 after
    /// it, and so on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<u32>,
}

/// Joins two shafts so that they turn together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Clutch {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Ids of the two shafts it joins.
    pub between: [String; 2],
    /// Its friction surfaces, where they are known.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub friction: Option<Friction>,
    /// The room along the axis it is drawn in, where that was chosen: 0 is before the first set, 1 after
    /// it, and so on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<u32>,
}

/// A one-way clutch: lets its shaft overrun one way and locks it the other.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OneWay {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Id of the shaft it locks.
    pub shaft: String,
    /// Id of the shaft it locks against, or `housing`.
    pub against: String,
    /// The way it does not let the shaft turn, relative to `against`.
    pub locks: Way,
    /// The room along the axis it is drawn in, where that was chosen: 0 is before the first set, 1 after
    /// it, and so on.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<u32>,
}

/// A direction of turning, relative to the input's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub enum Way {
    /// As the input.
    Forward,
    /// Against the input.
    Backward,
}

read_fields!(Brake { id, label, shaft } optional { friction, gap });
read_fields!(Clutch { id, label, between } optional { friction, gap });
read_fields!(OneWay {
    id,
    label,
    shaft,
    against,
    locks
} optional { gap });

impl Read for Way {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let words = [("forward", Self::Forward), ("backward", Self::Backward)];
        one_of(&value, place, &words, problems)
    }
}

impl Read for Element {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        const KINDS: &[&str] = &["brake", "clutch", "one-way"];
        let (kind, fields) = tagged(value, place, "element", KINDS, problems)?;
        match kind.as_str() {
            "brake" => Read::read(fields, place, problems).map(Self::Brake),
            "clutch" => Read::read(fields, place, problems).map(Self::Clutch),
            // `tagged` lets no other kind pass.
            _ => Read::read(fields, place, problems).map(Self::OneWay),
        }
    }
}

impl Element {
    /// Unique id.
    pub fn id(&self) -> &str {
        match self {
            Self::Brake(Brake { id, .. })
            | Self::Clutch(Clutch { id, .. })
            | Self::OneWay(OneWay { id, .. }) => id,
        }
    }

    /// What people call it.
    pub fn label(&self) -> &str {
        match self {
            Self::Brake(Brake { label, .. })
            | Self::Clutch(Clutch { label, .. })
            | Self::OneWay(OneWay { label, .. }) => label,
        }
    }

    /// Its kind, as the file names it.
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Brake(_) => "brake",
            Self::Clutch(_) => "clutch",
            Self::OneWay(_) => "one-way",
        }
    }

    /// Ids of the two bodies it joins; a brake's second is the housing.
    pub fn ends(&self) -> [&str; 2] {
        match self {
            Self::Brake(brake) => [&brake.shaft, HOUSING],
            Self::Clutch(clutch) => clutch.between.each_ref().map(String::as_str),
            Self::OneWay(one_way) => [&one_way.shaft, &one_way.against],
        }
    }

    /// Its friction surfaces, where they are known; a one-way clutch has none.
    pub fn friction(&self) -> Option<&Friction> {
        match self {
            Self::Brake(Brake { friction, .. }) | Self::Clutch(Clutch { friction, .. }) => {
                friction.as_ref()
            }
            Self::OneWay(_) => None,
        }
    }

    /// The room along the axis it is drawn in, where that was chosen.
    pub fn gap(&self) -> Option<u32> {
        match self {
            Self::Brake(Brake { gap, .. })
            | Self::Clutch(Clutch { gap, .. })
            | Self::OneWay(OneWay { gap, .. }) => *gap,
        }
    }

    /// Chooses that room, or leaves it to the drawing.
    pub fn set_gap(&mut self, chosen: Option<u32>) {
        match self {
            Self::Brake(Brake { gap, .. })
            | Self::Clutch(Clutch { gap, .. })
            | Self::OneWay(OneWay { gap, .. }) => *gap = chosen,
        }
    }

    /// Whether it locks and overruns by itself, so that nobody applies it.
    pub fn is_one_way(&self) -> bool {
        matches!(self, Self::OneWay(_))
    }
}
