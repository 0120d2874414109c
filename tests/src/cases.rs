//! The cases that the oracle computed: gear trains with exact answers.

use std::collections::BTreeMap;
use std::path::PathBuf;

use anyhow::{Context, Result};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use serde_json::Value;

use crate::files::json_files;

/// Names the folder of the oracle's cases; set by `cargo xtask test`.
pub const FOLDER: &str = "LEVERTRAIN_ORACLE";
/// Set by whoever wants the tests without the oracle.
pub const SKIP: &str = "LEVERTRAIN_SKIP_ORACLE";

/// A gear train and its answers.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Case {
    /// What the file is called.
    #[serde(skip)]
    pub name: String,
    /// Where the train comes from.
    pub origin: Origin,
    /// The scenario file.
    pub scenario: Value,
    /// Its range chart.
    pub chart: Chart,
    /// The answers, one a combination.
    pub combinations: Vec<Answer>,
}

/// Where a train comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Origin {
    /// A scenario file of the repository.
    Scenario,
    /// Drawn at random.
    Random,
}

/// The range chart of a train. Numbers are texts such as `12/5`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Chart {
    /// Ids of the ranges.
    pub ranges: Vec<String>,
    /// Ratio of each range over that of the next.
    pub steps: Vec<Option<String>>,
    /// Largest forward ratio over the smallest.
    pub spread: Option<String>,
    /// How the one-way clutches of each range settle.
    pub settled: Vec<Settled>,
}

/// A range with its one-way clutches settled for drive.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Settled {
    /// `settled`, `ambiguous` or `contradictory`.
    pub verdict: String,
    /// Ids of the applied elements and of the one-way clutches that lock.
    pub closed: Vec<String>,
    /// Whether coasting has the same ratio.
    pub engine_braking: bool,
    /// Its torques, where it drives.
    pub torques: Option<Torques>,
}

/// Torques by virtual work, per unit of input torque; `None` is undetermined.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Torques {
    /// From outside at the output.
    pub output: String,
    /// From the first end of each element to its second, by id.
    pub elements: BTreeMap<String, Option<String>>,
    /// On the members of each coupling, by id.
    pub members: BTreeMap<String, Vec<Option<String>>>,
}

/// What one combination does. Numbers are texts such as `12/5`; `None` is undetermined.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Answer {
    /// Ids of the applied elements.
    pub applied: Vec<String>,
    /// The state's key.
    pub state: String,
    /// Input speed over output speed.
    pub ratio: Option<String>,
    /// How many speeds could be chosen independently.
    pub degrees_of_freedom: usize,
    /// How many applied elements take away no freedom.
    pub surplus: usize,
    /// Speed of each shaft, by id.
    pub shafts: BTreeMap<String, Option<String>>,
    /// Slip of each element, by id.
    pub slips: BTreeMap<String, Option<String>>,
    /// Speeds of the pinions of each coupling about their pins, by id, from sun to ring.
    pub spins: BTreeMap<String, Vec<Option<String>>>,
    /// The torques, where they were computed.
    pub torques: Option<Torques>,
}

/// The oracle's cases; `None` where the environment says to do without.
///
/// # Errors
/// The folder is not named, cannot be read, or holds something else.
pub fn read() -> Result<Option<Vec<Case>>> {
    let Some(folder) = folder()? else {
        return Ok(None);
    };
    let mut cases = Vec::new();
    for file in json_files(&folder.join("cases"))? {
        let case: Case = serde_json::from_str(&file.text)
            .with_context(|| format!("{} is not a case", file.path.display()))?;
        cases.push(Case {
            name: file.stem,
            ..case
        });
    }
    Ok(Some(cases))
}

/// The oracle's cases of a kind of their own, as their test reads them; `None` where the
/// environment says to do without.
///
/// # Errors
/// As [`read`].
pub fn of_file<T: DeserializeOwned>(name: &str) -> Result<Option<Vec<T>>> {
    let Some(folder) = folder()? else {
        return Ok(None);
    };
    let path = folder.join(name);
    let text = std::fs::read_to_string(&path)
        .with_context(|| format!("{} cannot be read", path.display()))?;
    let cases = serde_json::from_str(&text)
        .with_context(|| format!("{} does not hold cases", path.display()))?;
    Ok(Some(cases))
}

fn folder() -> Result<Option<PathBuf>> {
    if let Some(folder) = std::env::var_os(FOLDER) {
        return Ok(Some(PathBuf::from(folder)));
    }
    if std::env::var_os(SKIP).is_some() {
        eprintln!("skipped: {SKIP} is set, so nothing is compared with the oracle");
        return Ok(None);
    }
    anyhow::bail!(
        "{FOLDER} is not set: run `cargo xtask test`, which computes the oracle's cases, \
         or set {SKIP}=1 to leave them out"
    );
}
