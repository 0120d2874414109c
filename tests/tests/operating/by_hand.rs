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

#[track_caller]
fn check_near(actual: f64, expected: f64) -> Result<()> {
    ensure!(
        (actual - expected).abs() <= 1e-12 * expected.abs(),
        "actual {actual}, expected {expected}"
    );
    Ok(())
}

#[test]
fn where_there_is_no_point_the_reason_is_given() -> Result<()> {
    let table = json!([[0, 2, 140], [0.8, 1, 200]]);
    let light = json!({"label": "L", "constant": 10, "linear": 0, "quadratic": 0, "weight": 1000});
    let flat = json!([[1000, 225], [5000, 225]]);
    let train = train(&one_set(flat, table, light))?;
    let reason = |pedal: f64, grade: f64, lockup: bool| {
        let conditions = Conditions {
            pedal,
            grade,
            lockup,
            mesh_efficiency: 1.0,
        };
        solved(&train, &["B"], &conditions).map(|found| found.reason)
    };
    // 225 N·m against 10 N·m over a ratio of 5.
    ensure!(reason(1.0, 0.0, false)? == Some(NoPoint::PastTable));
    ensure!(reason(1.0, 0.0, true)? == Some(NoPoint::PastTable));
    // 10 N·m and 1000·0.6 N·m (sine of 3 in 4) against at most 5·2·4.5 N·m; at 1000 rev/min the
    // held converter takes (1000/140)² = 51 N·m already.
    ensure!(reason(0.1, 0.75, false)? == Some(NoPoint::BelowTable));
    ensure!(reason(0.1, 1.0, true)? == Some(NoPoint::BelowTable));
    // Pedal released, the engine only holds back.
    ensure!(reason(0.0, -0.1, false)? == Some(NoPoint::Coasting));
    // 20 N·m at the engine hold back 100 N·m at the output: 10 − 600 N·m drive it faster and
    // faster, 10 − 99.5 N·m (sine of 0.1) less and less.
    ensure!(reason(0.0, -0.75, true)? == Some(NoPoint::PastTable));
    ensure!(reason(0.0, -0.1, true)? == Some(NoPoint::BelowTable));
    Ok(())
}
