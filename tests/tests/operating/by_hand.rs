//! Numbers worked out by hand, and reasons.

use anyhow::{Context, Result, ensure};
use levertrain_core::operating::{Conditions, NoPoint};
use serde_json::json;

use crate::{one_set, solved, train};

const LOSSLESS: Conditions = Conditions {
    pedal: 1.0,
    grade: 0.0,
    lockup: false,
    mesh_efficiency: 1.0,
};

/// Worked out by hand from Tpump = (N/K)², with numbers that come out whole [D].
#[test]
fn a_point_worked_out_by_hand() -> Result<()> {
    let scenario = one_set(
        json!([[1000, 225], [5000, 225]]),
        json!([[0, 2, 140], [0.5, 1.5, 140], [0.8, 1.0, 200]]),
        json!({"label": "L", "constant": 1687.5, "linear": 0, "quadratic": 0, "weight": 1000}),
    );
    let train = train(&scenario)?;
    let found = solved(&train, &["B"], &LOSSLESS)?;
    // Stall: K·√T = 140·15 = 2100 rev/min; output 5·2·225 N·m.
    let stall = found.stall.context("a stall point")?;
    check_near(stall.engine_speed, 2100.0)?;
    check_near(stall.output_torque, 2250.0)?;
    // 1687.5 N·m = 5·1.5·225: torque ratio 1.5, so speed ratio 0.5, turbine 1050, output 210.
    let [point] = &found.points[..] else {
        anyhow::bail!("{:?}", found.points)
    };
    for (actual, expected) in [
        (point.speed_ratio, 0.5),
        (point.engine_speed, 2100.0),
        (point.input_speed, 1050.0),
        (point.output_speed, 210.0),
        (point.input_torque, 337.5),
        (point.output_torque, 1687.5),
    ] {
        check_near(actual, expected)?;
    }
    ensure!(point.stable, "the torque ratio falls with speed");
    // A slope of 3 in 4 has the sine 3/5: 600 N·m more is beyond the stall torque.
    let steep = Conditions {
        grade: 0.75,
        ..LOSSLESS
    };
    let found = solved(&train, &["B"], &steep)?;
    check_near(found.load_at_rest, 2287.5)?;
    ensure!(
        found.reason == Some(NoPoint::LoadTooGreat),
        "{:?}",
        found.reason
    );
    Ok(())
}

fn check_near(actual: f64, expected: f64) -> Result<()> {
    ensure!(
        (actual - expected).abs() <= 1e-12 * expected.abs(),
        "actual {actual}, expected {expected}"
    );
    Ok(())
}

/// Pedal released, the converter drags the output along with the engine at idle [D].
#[test]
fn an_idling_engine_creeps() -> Result<()> {
    let scenario = one_set(
        json!([[1000, 225], [5000, 225]]),
        json!([[0, 2, 100], [0.5, 1.5, 100], [0.8, 1.0, 200]]),
        json!({"label": "L", "constant": 875, "linear": 0, "quadratic": 0, "weight": 0}),
    );
    let released = Conditions {
        pedal: 0.0,
        ..LOSSLESS
    };
    let found = solved(&train(&scenario)?, &["B"], &released)?;
    // (1000/100)² = 100 N·m at idle; 875 = 5·1.75·100, half-way down to speed ratio 0.5.
    let [point] = &found.points[..] else {
        anyhow::bail!("{:?}", found.points)
    };
    for (actual, expected) in [
        (point.engine_speed, 1000.0),
        (point.engine_torque, 100.0),
        (point.speed_ratio, 0.25),
        (point.output_speed, 50.0),
    ] {
        check_near(actual, expected)?;
    }
    ensure!(point.idling && point.stable, "{point:?}");
    let stall = found.stall.context("a stall point")?;
    check_near(stall.output_torque, 1000.0)?;
    ensure!(stall.idling, "{stall:?}");
    Ok(())
}

/// At the input the load asks for a fifth of the output's.
#[test]
fn where_there_is_no_point_the_reason_is_given() -> Result<()> {
    let table = json!([[0, 2, 140], [0.8, 1, 200]]);
    let load = json!({"label": "L", "constant": 10, "linear": 0, "quadratic": 0, "weight": 2000});
    let flat = json!([[1000, 225], [5000, 225]]);
    let train = train(&one_set(flat.clone(), table, load.clone()))?;
    let reason = |pedal: f64, grade: f64, lockup: bool| {
        let conditions = Conditions {
            pedal,
            grade,
            lockup,
            mesh_efficiency: 1.0,
        };
        solved(&train, &["B"], &conditions).map(|found| found.reason)
    };
    // 225 N·m against 2 N·m at the input.
    ensure!(reason(1.0, 0.0, false)? == Some(NoPoint::PastTable));
    ensure!(reason(1.0, 0.0, true)? == Some(NoPoint::PastTable));
    // 10 + 2000·0.6 N·m (the sine of 3 in 4) is 242 at the input: less than twice 225, the
    // stall torque, but at 10 % pedal the engine idles there with (1000/140)² = 51 N·m.
    ensure!(reason(1.0, 0.75, false)?.is_none());
    ensure!(reason(0.1, 0.75, false)? == Some(NoPoint::LoadTooGreat));
    ensure!(reason(1.0, 0.75, true)? == Some(NoPoint::BelowTable));
    // On the level, pedal released: 2 N·m at the input, which the idle control gives.
    ensure!(reason(0.0, 0.0, true)?.is_none());
    // Downhill, pedal released, 20 N·m hold back 100 N·m: 10 − 1200 N·m drive ever faster.
    ensure!(reason(0.0, -0.75, true)? == Some(NoPoint::PastTable));
    ensure!(reason(0.0, -0.75, false)? == Some(NoPoint::Coasting));

    // A converter that takes more than full pedal gives at idle: (1000/60)² = 278 N·m.
    let stiff = one_set(flat, json!([[0, 2, 60], [0.9, 1, 61]]), load);
    let steep = Conditions {
        grade: 1.0,
        ..LOSSLESS
    };
    let found = solved(&crate::train(&stiff)?, &["B"], &steep)?;
    ensure!(found.reason == Some(NoPoint::BelowTable) && found.stall.is_none());
    Ok(())
}

/// A one-way clutch as the reaction drives, and lets the output run ahead.
#[test]
fn a_range_without_engine_braking_overruns() -> Result<()> {
    let mut scenario = one_set(
        json!([[1000, 225], [5000, 225]]),
        json!([[0, 2, 140], [0.8, 1, 200]]),
        json!({"label": "L", "constant": 10, "linear": 0, "quadratic": 0.0001, "weight": 2000}),
    );
    scenario["elements"] = json!([{"kind": "one-way", "id": "F", "label": "F", "shaft": "r",
        "against": "housing", "locks": "backward"}]);
    let train = train(&scenario)?;
    let downhill = Conditions {
        pedal: 0.0,
        grade: -0.2,
        lockup: true,
        ..LOSSLESS
    };
    let found = solved(&train, &[], &downhill)?;
    ensure!(
        found.reason == Some(NoPoint::Overruns),
        "{:?}",
        found.reason
    );
    let uphill = Conditions {
        pedal: 0.2,
        grade: 0.05,
        ..downhill
    };
    ensure!(solved(&train, &[], &uphill)?.points.len() == 1);
    Ok(())
}
