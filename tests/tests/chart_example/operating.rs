//! Operating points.

use std::path::PathBuf;

use anyhow::{Context, Result, ensure};
use serde_json::{Value, json};

use crate::program::{check_refusal, file, json_of, printed, run, set, set_file};

/// The set with an engine, a converter and a load that give whole numbers.
fn driven_file(name: &str) -> Result<PathBuf> {
    let mut scenario = set().to_json();
    scenario["engine"] = json!({"label": "E", "full": [[1000, 225], [5000, 225]],
        "motoring": [[1000, -20], [5000, -20]]});
    scenario["converter"] = json!({"label": "C",
        "table": [[0, 2, 140], [0.5, 1.5, 140], [0.8, 1, 200]]});
    scenario["load"] = json!({"label": "L", "constant": 1687.5, "linear": 0, "quadratic": 0,
        "weight": 1000});
    file(name, &scenario.to_string())
}

/// Stall at 140·√225 = 2100 rev/min; 1687.5 N·m = 5·1.5·225 N·m at speed ratio 0.5.
#[test]
fn the_operating_point_is_printed() -> Result<()> {
    let file = driven_file("driven.json")?;
    let low = ["--pedal", "1", "--mesh", "1"];
    let alone = json_of(&file, &[&["--apply", "B"][..], &low].concat())?;
    let chart = json_of(&file, &low)?;
    for found in [&alone["operating"], &chart["ranges"][0]["operating"]] {
        ensure!(found["outcome"] == "steady", "{found}");
        let near = |place: &str, expected: f64| {
            let actual = found.pointer(place).and_then(Value::as_f64);
            let close = actual.is_some_and(|x| (x - expected).abs() <= 1e-9 * expected);
            ensure!(close, "{place}: actual {actual:?}, expected {expected}");
            Ok(())
        };
        near("/points/0/engineSpeed", 2100.0)?;
        near("/points/0/outputSpeed", 210.0)?;
        near("/points/0/outputTorque", 1687.5)?;
        near("/points/0/speedRatio", 0.5)?;
        near("/points/0/capacityFactor", 140.0)?;
        near("/stall/outputTorque", 2250.0)?;
        near("/loadAtRest", 1687.5)?;
        ensure!(found["points"][0]["stable"] == true, "{found}");
    }
    // Direct does not multiply the torque: 450 N·m at stall.
    ensure!(chart["ranges"][1]["operating"]["outcome"] == "load-too-great");
    let text = printed(&file, &[&["--apply", "B"][..], &low].concat())?;
    ensure!(
        text.contains("stable   engine 2100 rev/min 225.0 N·m"),
        "{text}"
    );
    let steep = json_of(&file, &[&["--grade", "0.75"][..], &low].concat())?;
    ensure!(
        steep["ranges"][0]["operating"]["outcome"] == "load-too-great",
        "{steep}"
    );
    let locked = json_of(&file, &[&["--lockup"][..], &low].concat())?;
    ensure!(
        locked["ranges"][0]["operating"]["outcome"] == "below-table",
        "{locked}"
    );
    ensure!(
        locked["ranges"][0]["operating"]["stall"] == Value::Null,
        "{locked}"
    );
    Ok(())
}

#[test]
fn conditions_out_of_range_are_refused() -> Result<()> {
    let driven = driven_file("conditions.json")?;
    let rows: [(&[&str], &str); 6] = [
        (&["--pedal"], "--pedal needs a number"),
        (&["--pedal", "full"], "--pedal needs a number"),
        (&["--pedal", "1.01"], "pedal: 1.01 is not allowed"),
        (&["--grade", "-2"], "grade: -2 is not allowed"),
        (&["--mesh", "0"], "mesh efficiency: 0 is not allowed"),
        (&["--grade", "nan"], "grade: NaN"),
    ];
    for (options, expected) in rows {
        check_refusal(&run(&driven, options)?, expected).with_context(|| format!("{options:?}"))?;
    }
    let bare = set_file("no-engine.json")?;
    check_refusal(
        &run(&bare, &["--lockup"])?,
        "--lockup takes an engine and a load",
    )
}
