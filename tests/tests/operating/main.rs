//! Operating points: against SciPy, by hand, and their laws.

mod by_hand;
mod laws;
mod scipy;

use anyhow::Result;
use levertrain_core::operating::{Conditions, NoPoint, Operating, SteadyPoint};
use levertrain_core::{Duty, Train};
use levertrain_tests::sketch::Sketch;
use serde_json::{Value, json};

/// What the core finds.
pub struct Found {
    /// Every steady point.
    pub points: Vec<SteadyPoint>,
    /// With an open converter.
    pub stall: Option<SteadyPoint>,
    /// N·m against the motion.
    pub load_at_rest: f64,
    reason: Option<NoPoint>,
}

/// What the core says of a combination.
pub fn solved(train: &Train, applied: &[&str], conditions: &Conditions) -> Result<Found> {
    let applied = train.element_set(applied.iter().copied());
    let applied = applied.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let combination = train.settle(applied, Duty::Drive).combination;
    match Operating::of(&combination, conditions) {
        Some(Operating::Solved {
            points,
            stall,
            load_at_rest,
            reason,
            ..
        }) => Ok(Found {
            points,
            stall,
            load_at_rest,
            reason,
        }),
        other => anyhow::bail!("not solved: {other:?}"),
    }
}

/// The train of a scenario.
pub fn train(scenario: &Value) -> Result<Train> {
    Train::parse(&scenario.to_string()).map_err(|problems| anyhow::anyhow!("{problems:#?}"))
}

/// One set with k = 4 and simple surroundings: sun in, carrier out, ring held by B.
pub fn one_set(full: Value, table: Value, load: Value) -> Value {
    let mut scenario = Sketch::new("s", "c")
        .planetary("p", ("s", 20), ("r", 80), "c", 30)
        .brake("B", "r")
        .to_json();
    scenario["engine"] = json!({"label": "E", "full": full,
        "motoring": [[1000, -20], [5000, -20]]});
    scenario["converter"] = json!({"label": "C", "table": table});
    scenario["load"] = load;
    scenario
}
