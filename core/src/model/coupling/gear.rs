//! A gear that sits on a shaft: its tooth count and where it is mounted.

use std::fmt;

use serde::{Serialize, Serializer};

use crate::base::problem::Problem;
use crate::base::said::said;
use crate::json::{Read, Value, count, read_fields};
use crate::model::scenario::limits::{TEETH_MAX, TEETH_MIN};

/// A tooth count, from 6 to 999.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(as = "u32"))]
pub struct Teeth(u32);

impl Teeth {
    /// A tooth count; `None` outside 6 to 999.
    pub fn new(count: u32) -> Option<Self> {
        (TEETH_MIN..=TEETH_MAX)
            .contains(&count)
            .then_some(Self(count))
    }

    /// The count.
    pub const fn get(self) -> u32 {
        self.0
    }

    /// The count as a coefficient of an equation.
    pub fn coefficient(self) -> i64 {
        i64::from(self.0)
    }
}

impl TryFrom<i64> for Teeth {
    type Error = String;

    fn try_from(count: i64) -> Result<Self, Self::Error> {
        u32::try_from(count)
            .ok()
            .and_then(Self::new)
            .ok_or_else(|| outside("problem-teeth", count, TEETH_MIN, TEETH_MAX))
    }
}

/// Says that a count is not from `least` to `most`.
fn outside(message: &str, count: i64, least: u32, most: u32) -> String {
    let values = [
        ("found", &*count.to_string()),
        ("least", &least.to_string()),
        ("most", &most.to_string()),
    ];
    said(message, &values)
}

impl Serialize for Teeth {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(self.0)
    }
}

impl From<Teeth> for u32 {
    fn from(teeth: Teeth) -> Self {
        teeth.0
    }
}

impl fmt::Display for Teeth {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.0)
    }
}

/// A toothed member of a coupling: the shaft it is splined to and its teeth.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Gear {
    /// Id of the shaft, or `housing`.
    pub shaft: String,
    /// Tooth count.
    pub teeth: Teeth,
}

/// Pinions on a carrier.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Pinions {
    /// Tooth count of each.
    pub teeth: Teeth,
    /// How many stand around the axis.
    pub count: PinionCount,
}

/// One row of the two in a double-pinion set.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct PinionRow {
    /// Tooth count of each.
    pub teeth: Teeth,
}

/// How many pinions a row has, from 1 to 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(as = "u32"))]
pub struct PinionCount(u32);

impl PinionCount {
    /// The count.
    pub const fn get(self) -> u32 {
        self.0
    }
}

impl TryFrom<i64> for PinionCount {
    type Error = String;

    fn try_from(count: i64) -> Result<Self, Self::Error> {
        let most = crate::model::scenario::limits::PINIONS;
        match u32::try_from(count) {
            Ok(count) if (1..=most).contains(&count) => Ok(Self(count)),
            _ => Err(outside("problem-pinions", count, 1, most)),
        }
    }
}

impl Serialize for PinionCount {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_u32(self.0)
    }
}

impl From<PinionCount> for u32 {
    fn from(count: PinionCount) -> Self {
        count.0
    }
}

/// The teeth of a set, and how many pinions it has.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct SetTeeth {
    /// Its id.
    pub set: String,
    /// Its tooth counts, from the middle outwards.
    pub teeth: Vec<Teeth>,
    /// How many pinions stand around the axis; a pair of gears has none.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[cfg_attr(feature = "types", ts(optional))]
    pub pinions: Option<PinionCount>,
}

read_fields!(SetTeeth { set, teeth } optional { pinions });

read_fields!(Gear { shaft, teeth });
read_fields!(Pinions { teeth, count });
read_fields!(PinionRow { teeth });

impl Read for Teeth {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        count(&value, place, problems)
    }
}

impl Read for PinionCount {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        count(&value, place, problems)
    }
}
