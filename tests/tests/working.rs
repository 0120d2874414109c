//! The formulas of ratios against computer algebra.
//!
//! They are handed to `tests/oracle/working.py`, which derives each ratio itself, in symbols.

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};
use levertrain_core::report::WorkingReport;
use levertrain_core::{Combination, Train};
use levertrain_tests::cases::{self, Case, Origin};
use serde::Deserialize;
use serde_json::{Value, json};

/// Names the oracle's Python; set by `cargo xtask test`.
const PYTHON: &str = "LEVERTRAIN_PYTHON";
/// How many driving combinations of a random train are handed over.
const OF_A_RANDOM_TRAIN: usize = 1;
/// Most couplings of those: elimination in symbols takes minutes for long trains.
const MOST_COUPLINGS: usize = 3;

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Outcome {
    wrong: Vec<String>,
    in_symbols: usize,
}

/// The formula of a combination with what the script needs to check it.
fn formula(case: &Case, combination: &Combination<'_>) -> Option<Value> {
    let ratio = combination.state().ratio()?;
    let formula = WorkingReport::of(combination).ratio?;
    let elements = &combination.train().scenario().elements;
    let closed = combination.applied().iter();
    let closed: Vec<&str> = closed.map(|index| elements[index].id()).collect();
    Some(json!({
        "name": case.name,
        "scenario": case.scenario,
        "applied": closed,
        "ratio": ratio.to_string(),
        "symbols": formula.symbols,
        "numbers": formula.numbers,
    }))
}

/// Formulas of all ranges of a scenario, or of some combinations of a random train; and how
/// many drive without one.
fn formulas(case: &Case) -> Result<(Vec<Value>, usize)> {
    let train = Train::parse(&case.scenario.to_string())
        .map_err(|faults| anyhow::anyhow!("{}: {faults:#?}", case.name))?;
    let mut found = Vec::new();
    let mut without = 0;
    if case.origin == Origin::Scenario {
        for entry in train.range_chart().ranges {
            match formula(case, &entry.combination) {
                Some(formula) => found.push(formula),
                None => without += 1,
            }
        }
        return Ok((found, without));
    }
    if train.scenario().couplings.len() > MOST_COUPLINGS {
        return Ok((found, 0));
    }
    for answer in &case.combinations {
        if answer.ratio.is_none() || found.len() == OF_A_RANDOM_TRAIN {
            continue;
        }
        let applied = train
            .element_set(answer.applied.iter().map(String::as_str))
            .map_err(|faults| anyhow::anyhow!("{faults:?}"))?;
        found.extend(formula(case, &train.solve(applied)));
    }
    Ok((found, 0))
}

fn check(formulas: &[Value]) -> Result<Outcome> {
    let python = std::env::var_os(PYTHON)
        .with_context(|| format!("{PYTHON} is not set: run `cargo xtask test`"))?;
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("oracle/working.py");
    let mut child = Command::new(python)
        .arg(script)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()?;
    let mut input = child.stdin.take().context("the script's input")?;
    input.write_all(serde_json::to_string(formulas)?.as_bytes())?;
    // The script reads to the end of its input.
    drop(input);
    let output = child.wait_with_output()?;
    ensure!(output.status.success(), "the script failed");
    Ok(serde_json::from_slice(&output.stdout)?)
}

#[test]
fn every_formula_agrees() -> Result<()> {
    let Some(cases) = cases::read()? else {
        return Ok(());
    };
    let mut handed = Vec::new();
    let mut of_scenarios = 0;
    for case in &cases {
        let (found, without) = formulas(case)?;
        ensure!(
            without == 0,
            "{}: {without} ranges drive without a formula",
            case.name
        );
        if case.origin == Origin::Scenario {
            of_scenarios += found.len();
        }
        handed.extend(found);
    }
    let outcome = check(&handed)?;
    ensure!(
        outcome.wrong.is_empty(),
        "{} of {}:\n{}",
        outcome.wrong.len(),
        handed.len(),
        outcome.wrong.join("\n")
    );
    let (all, in_symbols) = (handed.len(), outcome.in_symbols);
    eprintln!("{all} formulas, {of_scenarios} of scenarios, {in_symbols} compared in symbols");
    // Guards the comparison itself; scenarios have no meshes that agree by chance.
    ensure!(of_scenarios >= 25 && in_symbols >= of_scenarios + 100);
    Ok(())
}
