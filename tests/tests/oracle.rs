//! Every answer of the core against exact answers by SymPy.
//!
//! The oracle derives them from one equation a mesh (`tests/oracle/equations.py`), with the
//! pinions as unknowns; nothing of the core is used there. `cargo xtask test` runs it first.

use std::collections::BTreeMap;

use anyhow::{Context, Result, ensure};
use levertrain_core::report::{ChartReport, CombinationReport, Exact, Explanation};
use levertrain_core::{Fraction, Train};
use levertrain_tests::cases::{self, Answer, Case, Origin};
use levertrain_tests::files;
use levertrain_tests::rational::{Rational, parsed, power_of_ten, rational, zero};

/// The core's train of a case.
fn train(case: &Case) -> Result<Train> {
    Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{}: {problems:#?}", case.name))
}

/// Compares one number, exactly.
fn check_number(what: &str, actual: Option<&Fraction>, expected: Option<&str>) -> Result<()> {
    ensure!(
        actual.map(rational) == expected.map(parsed),
        "{what}: actual {actual:?}, expected {expected:?}, tolerance 0"
    );
    Ok(())
}

fn check_answer(train: &Train, answer: &Answer) -> Result<()> {
    let ids = answer.applied.iter().map(String::as_str);
    let applied = train
        .element_set(ids)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let combination = train.solve(applied);
    let scenario = train.scenario();

    let state = combination.state();
    ensure!(
        state.key() == answer.state,
        "state: actual {}, expected {}",
        state.key(),
        answer.state
    );
    check_number("ratio", state.ratio(), answer.ratio.as_deref())?;
    let actual = (combination.degrees_of_freedom(), combination.surplus());
    let expected = (answer.degrees_of_freedom, answer.surplus);
    ensure!(
        actual == expected,
        "degrees of freedom and surplus: actual {actual:?}, expected {expected:?}"
    );

    ensure!(answer.shafts.len() == scenario.shafts.len(), "shafts");
    for (index, shaft) in scenario.shafts.iter().enumerate() {
        let actual = combination.shaft_speed(index);
        let expected = answer.shafts.get(&shaft.id).context("a shaft")?;
        let what = format!("speed of {}", shaft.id);
        check_number(&what, actual.as_ref(), expected.as_deref())?;
    }
    ensure!(answer.slips.len() == scenario.elements.len(), "elements");
    for (index, element) in scenario.elements.iter().enumerate() {
        let actual = combination.slip(index);
        let expected = answer.slips.get(element.id()).context("an element")?;
        let what = format!("slip of {}", element.id());
        check_number(&what, actual.as_ref(), expected.as_deref())?;
    }
    for (index, coupling) in scenario.couplings.iter().enumerate() {
        let facts = coupling.facts();
        let expected = answer.spins.get(facts.id()).context("a coupling")?;
        let pinions = facts.pinions();
        ensure!(pinions.len() == expected.len(), "pinions of {}", facts.id());
        for (pinion, expected) in pinions.iter().zip(expected) {
            let actual = combination.pinion_spin(index, pinion);
            let what = format!("spin of {} of {}", pinion.name.word(), facts.id());
            check_number(&what, actual.as_ref(), expected.as_deref())?;
        }
    }
    check_report(&(&combination).into(), &(&combination).into(), answer)
}

/// The plain-data form says the same, and its decimals are the nearest ones.
fn check_report(
    report: &CombinationReport,
    explanation: &Explanation,
    answer: &Answer,
) -> Result<()> {
    ensure!(report.state == answer.state, "reported state");
    let pairs = std::iter::once((report.ratio.as_ref(), answer.ratio.as_ref()))
        .chain(report.shafts.iter().map(|shaft| {
            let expected = answer.shafts.get(&shaft.id);
            (shaft.speed.as_ref(), expected.and_then(Option::as_ref))
        }))
        .chain(report.elements.iter().map(|element| {
            let expected = answer.slips.get(&element.id);
            (element.slip.as_ref(), expected.and_then(Option::as_ref))
        }));
    for (actual, expected) in pairs {
        check_exact(actual, expected)?;
    }
    for coupling in &explanation.couplings {
        let expected = answer.spins.get(&coupling.id).context("a coupling")?;
        for (pinion, expected) in coupling.pinions.iter().zip(expected) {
            check_exact(pinion.speed.as_ref(), expected.as_ref())?;
        }
    }
    Ok(())
}

fn check_exact(actual: Option<&Exact>, expected: Option<&String>) -> Result<()> {
    let same = match (actual, expected) {
        (None, None) => true,
        (Some(actual), Some(expected)) => {
            let value = parsed(expected);
            parsed(&actual.fraction) == value && is_close(actual.decimal, &value)
        }
        _ => false,
    };
    ensure!(
        same,
        "reported {actual:?}, expected {expected:?}, tolerance 1e-15 of the decimal"
    );
    Ok(())
}

/// A decimal keeps some sixteen digits: a few roundings of a quotient stay within 1e-15 of it.
fn is_close(decimal: f64, value: &Rational) -> bool {
    let difference = parsed(&decimal.to_string()) - value;
    let scaled = difference * power_of_ten(15);
    -size(value) <= scaled && scaled <= size(value)
}

fn size(value: &Rational) -> Rational {
    if *value < zero() {
        -value
    } else {
        value.clone()
    }
}

fn check_chart(train: &Train, case: &Case) -> Result<()> {
    let chart = train.range_chart();
    check_number(
        "spread",
        chart.spread.as_ref(),
        case.chart.spread.as_deref(),
    )?;
    let ids: Vec<&str> = train
        .scenario()
        .ranges
        .iter()
        .map(|x| x.id.as_str())
        .collect();
    ensure!(
        ids == case.chart.ranges && ids.len() == chart.ranges.len(),
        "ranges {ids:?}"
    );
    for (entry, expected) in chart.ranges.iter().zip(&case.chart.steps) {
        check_number("step", entry.step.as_ref(), expected.as_deref())?;
    }
    let report = ChartReport::from(&chart);
    check_exact(report.spread.as_ref(), case.chart.spread.as_ref())?;
    for (range, expected) in report.ranges.iter().zip(&case.chart.steps) {
        check_exact(range.step.as_ref(), expected.as_ref())?;
    }
    Ok(())
}

fn check_case(case: &Case) -> Result<()> {
    let train = train(case)?;
    check_chart(&train, case)?;
    for answer in &case.combinations {
        check_answer(&train, answer)
            .with_context(|| format!("applied: {}", answer.applied.join(" ")))?;
    }
    Ok(())
}

#[test]
fn every_answer_agrees() -> Result<()> {
    let Some(cases) = cases::read()? else {
        return Ok(());
    };
    let mut wrong = Vec::new();
    for case in &cases {
        if let Err(error) = check_case(case) {
            wrong.push(format!("{}: {error:#}", case.name));
        }
    }
    let answers: usize = cases.iter().map(|case| case.combinations.len()).sum();
    eprintln!("{} trains, {answers} combinations", cases.len());
    ensure!(
        wrong.is_empty(),
        "{} of {} trains differ:\n{}",
        wrong.len(),
        cases.len(),
        wrong.join("\n")
    );
    Ok(())
}

/// Guards the comparison itself: cases that met only a few states would prove little.
#[test]
fn the_cases_meet_every_state_and_kind() -> Result<()> {
    let Some(cases) = cases::read()? else {
        return Ok(());
    };
    let mut states: BTreeMap<&str, usize> = BTreeMap::new();
    let mut kinds: BTreeMap<&str, usize> = BTreeMap::new();
    let random = cases.iter().filter(|case| case.origin == Origin::Random);
    let random: Vec<&Case> = random.collect();
    for case in &random {
        for answer in &case.combinations {
            *states.entry(&answer.state).or_default() += 1;
        }
        let couplings = case.scenario["couplings"].as_array().into_iter().flatten();
        for kind in couplings.filter_map(|coupling| coupling["kind"].as_str()) {
            *kinds.entry(kind).or_default() += 1;
        }
    }
    let ratios = random.iter().flat_map(|case| &case.combinations);
    let ratios = ratios.filter_map(|answer| answer.ratio.as_deref());
    let beyond_64_bits = ratios.filter(|ratio| parsed(ratio).numer().bits() > 64);
    let beyond_64_bits = beyond_64_bits.count();
    eprintln!("{states:?}, {kinds:?}, {beyond_64_bits} ratios beyond 64 bits");
    ensure!(
        beyond_64_bits >= 10,
        "{beyond_64_bits} ratios beyond 64 bits"
    );
    ensure!(random.len() >= 300, "{} random trains", random.len());
    for state in [
        "driving",
        "over-applied",
        "neutral",
        "output-held",
        "tied-up",
    ] {
        let count = states.get(state).copied().unwrap_or(0);
        ensure!(count >= 100, "only {count} combinations are {state}");
    }
    for kind in [
        "planetary",
        "double-pinion",
        "stepped",
        "stepped-suns",
        "ravigneaux",
        "gear-pair",
    ] {
        let count = kinds.get(kind).copied().unwrap_or(0);
        ensure!(count >= 100, "only {count} couplings are of kind {kind}");
    }
    Ok(())
}

/// Guards against cases left over from other scenarios.
#[test]
fn every_scenario_has_a_case_of_its_present_text() -> Result<()> {
    let Some(cases) = cases::read()? else {
        return Ok(());
    };
    let mut of_scenarios: BTreeMap<&str, &Case> = cases
        .iter()
        .filter(|case| case.origin == Origin::Scenario)
        .map(|case| (case.name.as_str(), case))
        .collect();
    for file in files::scenarios()? {
        let case = of_scenarios
            .remove(file.stem.as_str())
            .with_context(|| format!("the oracle has no case of {}", file.stem))?;
        let scenario: serde_json::Value = serde_json::from_str(&file.text)?;
        ensure!(
            scenario == case.scenario,
            "{} has changed since the oracle ran",
            file.stem
        );
        // Up to six elements all combinations are answered, and always all ranges.
        let train = train(case)?;
        let one_ways = train.one_ways().len();
        let elements = train.scenario().elements.len() - one_ways;
        if elements <= 6 {
            ensure!(case.combinations.len() == 1 << elements, "{}", file.stem);
        }
    }
    ensure!(
        of_scenarios.is_empty(),
        "cases of scenarios that are gone: {:?}",
        of_scenarios.keys()
    );
    Ok(())
}
