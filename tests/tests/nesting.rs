//! Whether shafts can be nested round one axis, against NetworkX.
//!
//! The oracle (`tests/oracle/nesting.py`) looks at another graph, with a place for every side of
//! every set, and tries every way to divide what hangs on a carrier into its two sides.

use anyhow::{Result, ensure};
use levertrain_core::{Nesting, Train};
use levertrain_tests::cases;
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    scenario: Value,
    nests: bool,
}

#[test]
fn what_can_be_nested_is_what_networkx_finds_planar() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("nesting.json")? else {
        return Ok(());
    };
    let mut counts = [0; 2];
    for case in &cases {
        let train = Train::parse(&case.scenario.to_string())
            .map_err(|faults| anyhow::anyhow!("{}: {faults:#?}", case.name))?;
        let expected = if case.nests {
            Nesting::Nests
        } else {
            Nesting::Crosses
        };
        let actual = train.nesting();
        ensure!(
            actual == expected,
            "{}: actual {actual:?}, expected {expected:?}",
            case.name
        );
        counts[usize::from(case.nests)] += 1;
    }
    ensure!(
        counts.iter().all(|&count| count >= 80),
        "too few of a kind to compare: {counts:?}"
    );
    Ok(())
}
