//! Range chart, one combination and all of them, as text and as JSON.

use anyhow::{Context, Result, ensure};
use levertrain_tests::files;
use levertrain_tests::sketch::Sketch;
use serde_json::{Value, json};

use crate::program::{file, json_of, printed, set_file};

#[test]
fn the_range_chart_as_json() -> Result<()> {
    let chart = json_of(&set_file("chart-json.json")?, &[])?;
    let ratio = |index: usize| chart["ranges"][index]["ratio"].clone();
    assert_eq!(ratio(0), json!({"fraction": "5", "decimal": 5.0}));
    assert_eq!(ratio(1), json!({"fraction": "1", "decimal": 1.0}));
    assert_eq!(
        chart["ranges"][0]["step"],
        json!({"fraction": "5", "decimal": 5.0})
    );
    assert_eq!(chart["ranges"][1]["step"], Value::Null);
    assert_eq!(chart["spread"], json!({"fraction": "5", "decimal": 5.0}));
    assert_eq!(chart["ranges"][0]["id"], "low");
    assert_eq!(chart["ranges"][0]["applied"], json!(["B"]));
    assert_eq!(chart["ranges"][0]["state"], "driving");
    Ok(())
}

#[test]
fn one_combination_as_json() -> Result<()> {
    let file = set_file("one-json.json")?;
    let held = json_of(&file, &["--apply", "B"])?;
    assert_eq!(held["state"], "driving");
    assert_eq!(held["ratio"]["fraction"], "5");
    assert_eq!(held["degreesOfFreedom"], 1);
    let speed = |id: &str| {
        let shafts = held["shafts"].as_array().into_iter().flatten();
        let shaft = shafts.into_iter().find(|shaft| shaft["id"] == id);
        shaft.map(|shaft| shaft["speed"]["fraction"].clone())
    };
    assert_eq!(speed("sun"), Some(json!("1")));
    assert_eq!(speed("carrier"), Some(json!("1/5")));
    assert_eq!(speed("ring"), Some(json!("0")));
    assert_eq!(held["elements"][0]["applied"], true);
    assert_eq!(
        held["elements"][1]["slip"],
        json!({"fraction": "1", "decimal": 1.0})
    );
    let pinion = &held["couplings"][0]["pinions"][0];
    assert_eq!(pinion["speed"]["fraction"], "-8/15");
    let mesh = &held["couplings"][0]["meshes"][1];
    assert_eq!(mesh["mesh"], "pinion and ring");
    assert_eq!(mesh["perInput"], json!({"fraction": "16", "decimal": 16.0}));
    assert_eq!(mesh["perOutput"]["fraction"], "80");

    let both = json_of(&file, &["--apply", "B,C"])?;
    assert_eq!(both["state"], "tied-up");
    assert_eq!(both["ratio"], Value::Null);
    assert_eq!(both["couplings"][0]["meshes"][0]["perInput"], Value::Null);
    assert_eq!(
        both["fight"],
        json!({"elements": ["B", "C"], "couplings": []})
    );
    let none = json_of(&file, &["--apply", ""])?;
    assert_eq!(none["state"], "neutral");
    assert_eq!(none["shafts"][1]["speed"], Value::Null);
    Ok(())
}

#[test]
fn all_combinations_as_json() -> Result<()> {
    let all = json_of(&set_file("all-json.json")?, &["--all"])?;
    let states: Vec<(&Value, &Value)> = all
        .as_array()
        .into_iter()
        .flatten()
        .map(|one| (&one["applied"], &one["state"]))
        .collect();
    let expected = [
        (json!([]), json!("neutral")),
        (json!(["B"]), json!("driving")),
        (json!(["C"]), json!("driving")),
        (json!(["B", "C"]), json!("tied-up")),
    ];
    assert_eq!(states.len(), expected.len());
    for ((applied, state), (expected_applied, expected_state)) in states.iter().zip(&expected) {
        assert_eq!((*applied, *state), (expected_applied, expected_state));
    }
    Ok(())
}

#[test]
fn texts_say_the_same() -> Result<()> {
    let file = set_file("texts.json")?;
    let line_of = |text: &str, start: &str| {
        let line = text
            .lines()
            .rfind(|line| line.trim_start().starts_with(start));
        line.map(str::to_owned)
            .with_context(|| format!("no line {start} in {text}"))
    };
    let chart = printed(&file, &[])?;
    ensure!(
        line_of(&chart, "Range low")?.ends_with("5.000 = 5"),
        "{chart}"
    );
    let one = printed(&file, &["--apply", "B"])?;
    ensure!(line_of(&one, "Shaft carrier")?.ends_with("= 1/5"), "{one}");
    ensure!(line_of(&one, "Element C")?.contains(" = 1 "), "{one}");
    let all = printed(&file, &["--all"])?;
    ensure!(line_of(&all, "B C")?.contains("tied-up"), "{all}");
    Ok(())
}

/// Every scenario that comes with the project, in all ways of asking.
#[test]
fn each_scenario_is_printed() -> Result<()> {
    for scenario in files::scenarios()? {
        let data: Value = serde_json::from_str(&scenario.text)?;
        let list = |field: &str| data[field].as_array().map_or(&[][..], Vec::as_slice);
        let chart = json_of(&scenario.path, &[])?;
        let ranges = chart["ranges"].as_array().map_or(&[][..], Vec::as_slice);
        ensure!(ranges.len() == list("ranges").len(), "{}", scenario.stem);
        for (printed, range) in ranges.iter().zip(list("ranges")) {
            ensure!(printed["id"] == range["id"], "{printed}");
            let ids = range["applied"].as_array().into_iter().flatten();
            let ids: Vec<&str> = ids.filter_map(Value::as_str).collect();
            let alone = json_of(&scenario.path, &["--apply", &ids.join(",")])?;
            for field in ["ratio", "state", "shafts", "elements", "degreesOfFreedom"] {
                ensure!(alone[field] == printed[field], "{}: {field}", scenario.stem);
                // Neutral has no ratio.
                let none = field == "ratio" && alone["state"] == "neutral";
                ensure!(alone[field].is_null() == none, "{}: {field}", scenario.stem);
            }
        }
        let all = json_of(&scenario.path, &["--all"])?;
        let count = all.as_array().map(Vec::len);
        // One-way clutches lock by themselves: they double nothing.
        let applicable = list("elements")
            .iter()
            .filter(|x| x["kind"] != "one-way")
            .count();
        ensure!(count == Some(1 << applicable), "{count:?}");
        for options in [&[][..], &["--all"]] {
            let text = printed(&scenario.path, options)?;
            ensure!(text.lines().count() > ranges.len(), "{text}");
        }
    }
    Ok(())
}

#[test]
fn tooth_warnings_are_printed() -> Result<()> {
    let sketch = Sketch::new("s", "c").planetary("set", ("s", 20), ("r", 81), "c", 30);
    let file = file("warned.json", &sketch.to_json().to_string())?;
    let chart = printed(&file, &[])?;
    ensure!(chart.contains("tooth check, set:"), "{chart}");
    ensure!(chart.contains("the ring has 81"), "{chart}");
    Ok(())
}

/// A formula that is a number is written once, no heading stands over nothing, and every sign says
/// what it counts.
#[test]
fn headings_and_signs_say_something() -> Result<()> {
    for scenario in files::scenarios()? {
        let data: Value = serde_json::from_str(&scenario.text)?;
        let mut asked = vec![String::new()];
        for range in data["ranges"].as_array().into_iter().flatten() {
            let ids = range["applied"].as_array().into_iter().flatten();
            asked.push(ids.filter_map(Value::as_str).collect::<Vec<_>>().join(","));
        }
        for apply in asked {
            let text = printed(&scenario.path, &["--apply", &apply])?;
            let name = format!("{} {apply}: {text}", scenario.stem);
            let lines: Vec<&str> = text.lines().collect();
            for (line, next) in lines.iter().zip(lines.iter().skip(1).chain([&""])) {
                let sides: Vec<&str> = line.split(" = ").collect();
                ensure!(sides.windows(2).all(|pair| pair[0] != pair[1]), "{name}");
                ensure!(
                    !line.starts_with("capacity") || next.starts_with("  "),
                    "{name}"
                );
                ensure!(
                    !line.starts_with("slip of") || next.starts_with("  "),
                    "{name}"
                );
            }
        }
    }
    let folder = levertrain_tests::files::scenario_folder();
    let text = printed(
        &folder.join("02-three-speed-common-sun.json"),
        &["--apply", "V,H"],
    )?;
    for part in [
        "speed of the common sun\n",
        "the input less the common sun\n",
        "from Carrier 2 on the housing\n",
        "from the input on Ring 1\n",
    ] {
        ensure!(text.contains(part), "{part:?} is not in {text}");
    }
    Ok(())
}
