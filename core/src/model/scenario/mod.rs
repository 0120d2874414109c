//! A gear train as data: what a scenario file holds, before it is checked.
//!
//! The format is described for authors in `scenarios/FORMAT.md` and, for machines, in
//! `scenarios/schema.json`. [`Scenario::parse`] reads the text; [`crate::Train::new`] checks
//! that the names and numbers make a gear train.

mod element;
mod friction;
pub mod limits;
mod parse;
mod surroundings;

pub use element::{Brake, Clutch, Element, OneWay, Way};
pub use friction::Friction;
pub use surroundings::{Converter, Engine, Load};

use serde::Serialize;

use crate::json::{Value, read_fields, strict};
use crate::model::coupling::Coupling;

/// The id that stands for the housing wherever a shaft is named.
pub const HOUSING: &str = "housing";

/// The format number this crate writes.
pub const FORMAT: u32 = 2;
/// The oldest that it reads: since then fields were only added.
pub const OLDEST_FORMAT: u32 = 1;

/// A gear train as written in a scenario file. Half-made ones are ordinary values: only
/// [`crate::Train`] promises that everything fits together.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Scenario {
    /// Format number, always [`FORMAT`] after parsing.
    pub format: u32,
    /// What the train is called.
    pub name: String,
    /// One or two sentences about it; may be empty.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub about: String,
    /// Id of the shaft that is driven from outside.
    pub input: String,
    /// Id of the shaft that delivers.
    pub output: String,
    /// What people call the housing, where that is not its name: a hub turns about an axle.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub housing_label: Option<String>,
    /// The rotating members. The housing is implied.
    pub shafts: Vec<Shaft>,
    /// The gear sets and gear pairs, in order along the axis.
    pub couplings: Vec<Coupling>,
    /// The clutches and brakes.
    pub elements: Vec<Element>,
    /// Named combinations of applied elements.
    pub ranges: Vec<Range>,
    /// The engine, where an operating point is wanted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub engine: Option<Engine>,
    /// The torque converter between engine and input, if there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub converter: Option<Converter>,
    /// What holds the output back.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub load: Option<Load>,
    /// What a shift in time needs to know, as the text that stands in the file: `crate::transient` understands it. It is
    /// written as it is (`crate::edit::text`).
    #[serde(skip)]
    pub dynamics: Option<String>,
    /// Wheels and final drive behind the output, for driving on a road, likewise
    /// (`crate::traction`).
    #[serde(skip)]
    pub vehicle: Option<String>,
    /// What drives the train beside the input, what it drives beside the output, and the limits of each, likewise
    /// (`crate::sources`).
    #[serde(skip)]
    pub sources: Option<String>,
}

impl Scenario {
    /// Whether there are sources or outputs beside those of its input and output, so that the input alone need not decide anything.
    pub fn is_branched(&self) -> bool {
        let field = self.sources.as_deref().map(strict);
        let Some(Ok(Value::Object(fields))) = field else {
            return false;
        };
        let further = |(name, value): &(String, Value)| {
            matches!(&**name, "further" | "outputs")
                && matches!(value, Value::List(items) if !items.is_empty())
        };
        fields.iter().any(further)
    }
}

/// A rotating member that others are splined to.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Shaft {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
}

/// A named combination of applied elements.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Range {
    /// Unique id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Ids of the applied elements.
    pub applied: Vec<String>,
}

read_fields!(Shaft { id, label });
read_fields!(Range { id, label, applied });
