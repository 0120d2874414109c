//! Runs whose time and distance are known in closed form (from memory; each solves m·dv/dt = F − R, which the tests'
//! comments show by its derivative).

use anyhow::{Context, Result, ensure};
use levertrain_core::traction::{Run, Traction};
use serde_json::{Value, json};

use crate::{ask, found, small};

/// The first range alone up to speeds it reaches, the engine's own inertia almost nothing so that it makes no difference
/// when the clutch stops slipping. Mass at the wheels: (10 + 0.5 + 16 · (0.05 + 1e-9))/0.01 kg.
const MASS: f64 = 1_130.000_001_6;

fn run(full: &[[f64; 2]], load: Value, targets: &[f64]) -> Result<(Run, Traction)> {
    let train = small(full, load)?;
    let mut scenario: Value = serde_json::from_str(&levertrain_core::edit::text(train.scenario()))?;
    scenario["dynamics"]["engine_inertia"] = json!(1e-9);
    scenario["ranges"] = json!([{"id": "one", "label": "1", "applied": ["V"]}]);
    let train = levertrain_core::Train::parse(&scenario.to_string());
    let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let mut asked = ask();
    asked.targets = targets.to_vec();
    let found = found(&train, asked)?;
    let run = found
        .run
        .clone()
        .map_err(|why| anyhow::anyhow!("{why:?}"))?;
    Ok((run, found))
}

fn close(what: &str, actual: f64, expected: f64) -> Result<()> {
    ensure!(
        (actual - expected).abs() <= 1e-9 * expected.abs(),
        "{what}: actual {actual}, expected {expected}"
    );
    Ok(())
}

/// F the same at all speeds, R = q·v²: v = v∞·tanh(F·t/(m·v∞)) with v∞ = √(F/q), as dv/dt = (F/m)·(1 − (v/v∞)²). So
/// t = (m·v∞/F)·artanh(v/v∞) and x = −(m·v∞²/(2·F))·ln(1 − (v/v∞)²).
#[test]
fn a_constant_force_against_the_air() -> Result<()> {
    // 0.004 N·m per (rev/min)² at the output; q in N per (m/s)²: n = v/0.1 · 30/π.
    let load = json!({"label": "Air", "constant": 0, "linear": 0, "quadratic": 0.004, "weight": 0});
    let targets = [1.0, 2.0, 3.0, 3.3];
    let (run, _) = run(&[[1.0, 100.0], [9000.0, 100.0]], load, &targets)?;
    let per_speed = 300.0 / std::f64::consts::PI;
    let drag = 0.004 * per_speed * per_speed / 0.1;
    let force = 4000.0_f64;
    let last = (force / drag).sqrt();
    for (at, speed) in targets
        .into_iter()
        .enumerate()
        .filter(|(_, speed)| *speed < last)
    {
        let part = speed / last;
        let moment = run.targets.get(at).context("a target")?;
        close("time", moment.time, MASS * last / force * part.atanh())?;
        let distance = -MASS * last * last / (2.0 * force) * (1.0 - part * part).ln();
        close("distance", moment.distance, distance)?;
    }
    ensure!(
        targets.iter().filter(|speed| **speed < last).count() >= 3,
        "{last}"
    );
    close("99 % of the end", run.last.speed, 0.99 * last)?;
    close(
        "its time",
        run.last.time,
        MASS * last / force * 0.99_f64.atanh(),
    )
}

/// F = F0 − b·v without any road: v = (F0/b)·(1 − exp(−b·t/m)), as dv/dt = (F0/m)·exp(−b·t/m). So
/// t = −(m/b)·ln(1 − b·v/F0), and as m·dv = (F0 − b·v)·dt: x = (F0·t − m·v)/b.
#[test]
fn a_force_that_falls_in_proportion() -> Result<()> {
    let load = json!({"label": "Nothing", "constant": 0, "linear": 0, "quadratic": 0, "weight": 0});
    // 101 N·m would be given at rest; from 1 rev/min on it falls by 1 N·m in 100 rev/min.
    let train = [[1.0, 100.99], [10_000.0, 1.0]];
    let targets = [0.5, 5.0, 20.0, 26.0];
    let (run, found) = run(&train, load, &targets)?;
    // Where the clutch slips, up to 1 rev/min, the force is that of its end.
    let start = found.pulls[0].reach().context("a reach")?.1 / 10_000.0;
    let (rest, slope) = (
        101.0 * 4.0 / 0.1,
        0.01 * 4.0 * 4.0 * 300.0 / std::f64::consts::PI / 0.1,
    );
    let first = (rest - slope * start, start * MASS / (rest - slope * start));
    let at_start = -MASS / slope * (1.0 - slope * start / rest).ln();
    for (moment, speed) in run.targets.iter().zip(targets) {
        let time = -MASS / slope * (1.0 - slope * speed / rest).ln();
        let since = time - at_start;
        close("time", moment.time, first.1 + since)?;
        let distance = (rest * since - MASS * (speed - start)) / slope;
        // The closed form loses some digits to a difference.
        let distance = start * first.1 / 2.0 + distance;
        ensure!(
            (moment.distance - distance).abs() <= 1e-8 * distance,
            "{} {distance}",
            moment.distance
        );
    }
    ensure!(run.targets.len() == targets.len());
    Ok(())
}
