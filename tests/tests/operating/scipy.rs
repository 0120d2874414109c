//! Every operating point against SciPy, which solves from the definitions.
//!
//! `tests/oracle/operating.py` uses another unknown and other root finders; `cargo xtask test`
//! runs it first.

use anyhow::{Context, Result, ensure};
use levertrain_core::operating::{Conditions, SteadyPoint};
use levertrain_tests::cases;
use serde::Deserialize;
use serde_json::Value;

use crate::{solved, train};

/// Agreement, relative: both stop at the last bits, and a root moves by a few hundred times as
/// much where two curves meet at a small angle.
const AGREES: f64 = 1e-9;

/// What the oracle says of one question.
#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
struct Case {
    scenario: Value,
    applied: Vec<String>,
    conditions: Asked,
    points: Vec<Expected>,
    stall: Option<Expected>,
    load_at_rest: f64,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
struct Asked {
    pedal: f64,
    grade: f64,
    lockup: bool,
    mesh_efficiency: f64,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
struct Expected {
    engine_speed: f64,
    engine_torque: f64,
    speed_ratio: f64,
    torque_ratio: f64,
    input_speed: f64,
    input_torque: f64,
    output_speed: f64,
    output_torque: f64,
    capacity_factor: Option<f64>,
    /// What interpolating K itself gives.
    factor_interpolated: Option<f64>,
    idling: bool,
    /// None where the oracle cannot tell by pushing a little.
    stable: Option<bool>,
}

fn check_point(actual: &SteadyPoint, expected: &Expected) -> Result<()> {
    let rows = [
        ("engine speed", actual.engine_speed, expected.engine_speed),
        (
            "engine torque",
            actual.engine_torque,
            expected.engine_torque,
        ),
        ("torque ratio", actual.torque_ratio, expected.torque_ratio),
        ("input torque", actual.input_torque, expected.input_torque),
        (
            "output torque",
            actual.output_torque,
            expected.output_torque,
        ),
    ];
    let close = |what: &str, actual: f64, expected: f64, size: f64| {
        let tolerance = AGREES * size.abs();
        ensure!(
            (actual - expected).abs() <= tolerance,
            "{what}: actual {actual}, expected {expected}, tolerance {tolerance}"
        );
        Ok(())
    };
    for (what, actual, expected) in rows {
        close(what, actual, expected, expected)?;
    }
    // Speeds that are nearly 0 are measured by the engine's.
    close("speed ratio", actual.speed_ratio, expected.speed_ratio, 1.0)?;
    let size = expected.engine_speed;
    close(
        "input speed",
        actual.input_speed,
        expected.input_speed,
        size,
    )?;
    close(
        "output speed",
        actual.output_speed,
        expected.output_speed,
        size,
    )?;
    match (actual.capacity_factor, expected.capacity_factor) {
        // K grows without bound towards speed ratio 1 and magnifies every rounding there.
        (Some(actual), Some(wanted)) => {
            let size = wanted / (1.0 - expected.speed_ratio).min(1.0);
            close("capacity factor", actual, wanted, size)?;
        }
        (None, None) => {}
        other => anyhow::bail!("capacity factor: {other:?}"),
    }
    ensure!(actual.idling == expected.idling, "idling");
    if let Some(stable) = expected.stable {
        ensure!(actual.stable == stable, "stable: expected {stable}");
    }
    Ok(())
}

fn check_case(case: &Case) -> Result<()> {
    let train = train(&case.scenario)?;
    let conditions = Conditions {
        pedal: case.conditions.pedal,
        grade: case.conditions.grade,
        lockup: case.conditions.lockup,
        mesh_efficiency: case.conditions.mesh_efficiency,
    };
    let applied: Vec<&str> = case.applied.iter().map(String::as_str).collect();
    let found = solved(&train, &applied, &conditions)?;
    let summary = || {
        let speeds = |x: &SteadyPoint| (x.engine_speed, x.speed_ratio);
        let actual: Vec<_> = found.points.iter().map(speeds).collect();
        let expected = case.points.iter().map(|x| (x.engine_speed, x.speed_ratio));
        format!(
            "actual {actual:?}, expected {:?}",
            expected.collect::<Vec<_>>()
        )
    };
    ensure!(found.points.len() == case.points.len(), "{}", summary());
    ensure!(
        found.reason.is_none() != found.points.is_empty(),
        "{:?}",
        found.reason
    );
    for (actual, expected) in found.points.iter().zip(&case.points) {
        check_point(actual, expected).with_context(summary)?;
    }
    match (&found.stall, &case.stall) {
        (Some(actual), Some(expected)) => check_point(actual, expected).context("stall")?,
        (None, None) => {}
        other => anyhow::bail!("stall: {other:?}"),
    }
    let (actual, expected) = (found.load_at_rest, case.load_at_rest);
    ensure!(
        (actual - expected).abs() <= AGREES * expected.abs().max(1.0),
        "load at rest: actual {actual}, expected {expected}"
    );
    Ok(())
}

/// The scenarios with an engine, and engines, converters and loads drawn at random.
#[test]
fn every_operating_point_agrees_with_scipy() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("operating.json")? else {
        return Ok(());
    };
    let mut wrong = Vec::new();
    for case in &cases {
        if let Err(error) = check_case(case) {
            wrong.push(format!(
                "{} {:?} {:?}: {error:#}",
                case.scenario["name"], case.applied, case.conditions
            ));
        }
    }
    ensure!(
        wrong.is_empty(),
        "{} of {} differ:\n{}",
        wrong.len(),
        cases.len(),
        wrong.join("\n")
    );
    Ok(())
}

/// Guards the comparison: too few points, or only simple cases, would prove little.
#[test]
fn the_oracle_meets_all_kinds_of_points() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("operating.json")? else {
        return Ok(());
    };
    let count = |what: &str, least: usize, is: &dyn Fn(&Case) -> bool| {
        let count = cases.iter().filter(|case| is(case)).count();
        ensure!(count >= least, "only {count} cases with {what}");
        Ok(())
    };
    let drawn = |case: &Case| {
        let name = case.scenario["name"].as_str();
        name.is_some_and(|name| name.starts_with("Operating "))
    };
    let unstable = |x: &Expected| x.stable == Some(false);
    count("an engine drawn at random", 100, &drawn)?;
    count("an engine of our own", 30, &|case| !drawn(case))?;
    count("no point", 20, &|case| case.points.is_empty())?;
    count("one point", 40, &|case| case.points.len() == 1)?;
    count("several points", 10, &|case| case.points.len() > 1)?;
    count("an unstable point", 10, &|case| {
        case.points.iter().any(unstable)
    })?;
    count("lock-up", 30, &|case| case.conditions.lockup)?;
    count("a slip", 40, &|case| {
        case.points.iter().any(|x| x.speed_ratio < 1.0)
    })?;
    count("an engine that holds back", 3, &|case| {
        case.points.iter().any(|x| x.engine_torque < 0.0)
    })?;
    count("an idle control that helps", 10, &|case| {
        case.points.iter().any(|x| x.idling)
    })?;
    count("a point in reverse", 10, &|case| {
        case.points.iter().any(|x| x.output_speed < 0.0)
    })
}

/// The trap in comparing converters: 1/K² and K cannot both be linear between rows.
#[test]
fn between_rows_1_over_k_squared_is_linear_and_not_k() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("operating.json")? else {
        return Ok(());
    };
    let points = cases.iter().flat_map(|case| &case.points);
    let pairs = points.filter_map(|x| Some((x.capacity_factor?, x.factor_interpolated?)));
    let gaps: Vec<f64> = pairs
        .map(|(ours, other)| (ours / other - 1.0).abs())
        .collect();
    // `every_operating_point_agrees_with_scipy` compares K at each of them; were K itself
    // interpolated, these would come out otherwise.
    let apart = gaps.iter().filter(|gap| **gap > 1e3 * AGREES).count();
    ensure!(
        apart >= 30,
        "{apart} of {} points tell the two apart",
        gaps.len()
    );
    // A convex function of the other lies on one side: 1/K² linear means the larger torque.
    let points = cases.iter().flat_map(|case| &case.points);
    for point in points {
        if let (Some(ours), Some(other)) = (point.capacity_factor, point.factor_interpolated) {
            ensure!(ours <= other * (1.0 + AGREES), "{point:?}");
        }
    }
    Ok(())
}
