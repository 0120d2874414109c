//! Guards the properties themselves: trains that met only a few states would prove little.

use std::collections::BTreeMap;

use anyhow::{Result, anyhow, ensure};
use levertrain_tests::generate::{ANY, Kind, LARGE, case, settings};
use proptest::strategy::{Strategy as _, ValueTree as _};
use proptest::test_runner::TestRunner;

#[track_caller]
fn check(kind: Kind, least: usize) -> Result<()> {
    let mut runner = TestRunner::new(settings(0));
    let strategy = case(kind);
    let mut states: BTreeMap<&str, usize> = BTreeMap::new();
    for _ in 0..300 {
        let tree = strategy.new_tree(&mut runner);
        let case = tree.map_err(|reason| anyhow!("{reason}"))?.current();
        let train = case.sketch.train();
        *states
            .entry(train.solve(case.applied()).state().key())
            .or_default() += 1;
    }
    for state in [
        "driving",
        "over-applied",
        "neutral",
        "output-held",
        "tied-up",
    ] {
        let count = states.get(state).copied().unwrap_or(0);
        ensure!(
            count >= least,
            "only {count} of 300 are {state}: {states:?}"
        );
    }
    Ok(())
}

#[test]
fn everyday_trains_meet_every_state() -> Result<()> {
    check(ANY, 5)
}

#[test]
fn large_trains_meet_every_state() -> Result<()> {
    check(LARGE, 2)
}
