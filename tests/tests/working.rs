//! The formulas of ratios against computer algebra.
//!
//! They are handed to `tests/oracle/working.py`, which derives each ratio itself, in symbols.

use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

use anyhow::{Context, Result, ensure};
use levertrain_core::report::WorkingReport;
use levertrain_core::{Combination, ElementSet, MOST_SYMBOLS, Train};
use levertrain_tests::cases::{self, Case, Origin};
use serde::Deserialize;
use serde_json::{Value, json};

/// Names the oracle's Python; set by `cargo xtask test`.
const PYTHON: &str = "LEVERTRAIN_PYTHON";
/// How many more trains are drawn at random for formulas, beside those of the oracle's cases: with
/// 10 000 the whole takes some minutes.
const DRAWN: &str = "LEVERTRAIN_FORMULAS";
const DRAWN_BY_ITSELF: usize = 200;
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

/// The formula of a combination, or why there is none, with what the script needs to check it.
fn formula(name: &str, scenario: &Value, combination: &Combination<'_>) -> Option<Value> {
    let ratio = combination.state().ratio()?;
    let report = WorkingReport::of(combination);
    let formula = report.ratio.as_ref();
    let elements = &combination.train().scenario().elements;
    let closed = combination.applied().iter();
    let closed: Vec<&str> = closed.map(|index| elements[index].id()).collect();
    Some(json!({
        "name": name,
        "scenario": scenario,
        "applied": closed,
        "ratio": ratio.to_string(),
        "symbols": formula.map(|formula| &formula.symbols),
        "numbers": formula.map(|formula| &formula.numbers),
        "why": report.no_formula,
        "most": MOST_SYMBOLS,
    }))
}

/// Formulas of all ranges of a scenario, or of some combinations of a random train; and how
/// many drive without one.
fn formulas(case: &Case) -> Result<(Vec<Value>, usize)> {
    let train = Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{}: {problems:#?}", case.name))?;
    let mut found = Vec::new();
    let mut without = 0;
    if case.origin == Origin::Scenario {
        for entry in train.range_chart().ranges {
            if let Some(formula) = formula(&case.name, &case.scenario, &entry.combination) {
                without += usize::from(formula["symbols"].is_null());
                found.push(formula);
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
            .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        found.extend(formula(&case.name, &case.scenario, &train.solve(applied)));
    }
    Ok((found, 0))
}

/// A formula of each of these trains that drives with some of its elements.
fn formulas_of_drawn(count: usize) -> Result<Vec<Value>> {
    let output = script()?
        .args(["--draw", "0", &count.to_string()])
        .output()?;
    ensure!(output.status.success(), "the script failed");
    let scenarios: Vec<Value> = serde_json::from_slice(&output.stdout)?;
    let mut found = Vec::new();
    for (number, scenario) in scenarios.iter().enumerate() {
        let name = format!("formula {number}");
        let train = Train::parse(&scenario.to_string())
            .map_err(|problems| anyhow::anyhow!("{name}: {problems:#?}"))?;
        let all = 0..1_u32 << train.scenario().elements.len();
        let mut all = all.map(|bits| train.solve(ElementSet::from_bits(bits)));
        found.extend(all.find_map(|combination| formula(&name, scenario, &combination)));
    }
    Ok(found)
}

fn script() -> Result<Command> {
    let python = std::env::var_os(PYTHON)
        .with_context(|| format!("{PYTHON} is not set: run `cargo xtask test`"))?;
    let mut command = Command::new(python);
    command.arg(Path::new(env!("CARGO_MANIFEST_DIR")).join("oracle/working.py"));
    Ok(command)
}

fn check(formulas: &[Value]) -> Result<Outcome> {
    let mut child = script()?
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
    let drawn = std::env::var(DRAWN).ok();
    let drawn = drawn.map_or(Ok(DRAWN_BY_ITSELF), |count| count.parse())?;
    handed.extend(formulas_of_drawn(drawn)?);
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
