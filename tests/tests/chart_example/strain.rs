//! Losses and clutch capacity.

use anyhow::{Result, ensure};
use serde_json::{Value, json};

use crate::program::{file, json_of, printed, set, set_file};

/// The single set of the reference table: from the sun with the ring held the efficiency is
/// (1 + k·e)/(1 + k), with k = 4 and e two meshes of 0.99.
#[test]
fn losses_as_json() -> Result<()> {
    let file = set_file("losses-json.json")?;
    let expected = (1.0 + 4.0 * 0.99 * 0.99) / 5.0;
    let chart = json_of(&file, &[])?;
    let alone = json_of(&file, &["--apply", "B"])?;
    let [low, high] = [0, 1].map(|range| chart["ranges"][range]["losses"].clone());
    ensure!(low == alone["losses"], "{low} and {}", alone["losses"]);
    let number = |value: &Value| value.as_f64().unwrap_or(f64::NAN);
    let close = |value: &Value, expected: f64| (number(value) - expected).abs() < 1e-12;
    ensure!(low["outcome"] == "drives", "{low}");
    ensure!(close(&low["efficiency"], expected), "{low}");
    ensure!(close(&low["output"], -5.0 * expected), "{low}");
    let meshes = low["meshes"].as_array().into_iter().flatten();
    let lost: Vec<f64> = meshes.map(|mesh| number(&mesh["share"])).collect();
    ensure!(lost.len() == 2, "{low}");
    ensure!(
        (lost.iter().sum::<f64>() - (1.0 - expected)).abs() < 1e-12,
        "{low}"
    );
    // At another mesh efficiency, without an engine as well.
    let worn = json_of(&file, &["--apply", "B", "--mesh", "0.9"])?;
    let expected = (1.0 + 4.0 * 0.9 * 0.9) / 5.0;
    ensure!(
        close(&worn["losses"]["efficiency"], expected),
        "{}",
        worn["losses"]
    );
    // Locked, it turns as one piece.
    ensure!(close(&high["efficiency"], 1.0), "{high}");

    let free = json_of(&file, &["--apply", ""])?;
    assert_eq!(free["losses"]["outcome"], "no-drive");
    assert_eq!(free["losses"]["efficiency"], Value::Null);
    Ok(())
}

/// The same set; brake B holds 4 times the input torque and can hold 0.1 · 5000 N · 10 · 90 mm =
/// 450 N·m.
#[test]
fn capacity_as_json() -> Result<()> {
    let mut scenario = set().to_json();
    scenario["elements"][0]["friction"] = json!({"surfaces": 10, "outer_radius": 100,
        "inner_radius": 80, "coefficient": 0.1, "clamp_force": 5000});
    let file = file("capacity-json.json", &scenario.to_string())?;
    let chart = json_of(&file, &[])?;
    let low = &chart["ranges"][0]["capacity"];
    let pressure = 2.0 / 3.0 * 0.1 * 5000.0 * 10.0 * (1e6 - 512e3) / (1e4 - 64e2) / 1000.0;
    let close = |value: &Value, expected: f64| {
        let value = value.as_f64();
        value.is_some_and(|value| (value - expected).abs() < 1e-9 * expected)
    };
    assert_eq!(low["inputTorque"], 100.0);
    let brake = &low["elements"][0];
    assert_eq!(
        (&brake["id"], &brake["grip"]),
        (&json!("B"), &json!("holds"))
    );
    ensure!(close(&brake["torque"], 400.0), "{brake}");
    ensure!(close(&brake["margin"], 1.125), "{brake}");
    ensure!(close(&brake["uniformWear"], 450.0), "{brake}");
    ensure!(close(&brake["uniformPressure"], pressure), "{brake}");
    ensure!(close(&low["mostInput"], 112.5), "{low}");
    assert_eq!(low["firstToSlip"], "B");
    // Clutch C has no data.
    let high = &chart["ranges"][1]["capacity"];
    assert_eq!(high["elements"][0]["grip"], "no-data");
    assert_eq!(high["firstToSlip"], Value::Null);
    assert_eq!(high["mostInput"], Value::Null);

    let more = json_of(&file, &["--apply", "B", "--torque", "150"])?;
    let brake = &more["capacity"]["elements"][0];
    assert_eq!(brake["grip"], "slips");
    ensure!(close(&brake["margin"], 0.75), "{brake}");
    let text = printed(&file, &["--torque", "150"])?;
    ensure!(text.contains("B slips first, above 112.5 N·m"), "{text}");
    ensure!(text.contains("not a strength rating"), "{text}");
    // Clutch C's range is told in words, not by the key that stands in the JSON.
    ensure!(
        text.contains("no data") && !text.contains("no-data"),
        "{text}"
    );
    let without = json_of(&set_file("no-capacity.json")?, &[])?;
    assert_eq!(without["ranges"][0]["capacity"], Value::Null);
    Ok(())
}
