//! The chart example from outside: what it prints, as text and as JSON, and how it refuses.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use anyhow::{Context, Result, ensure};
use levertrain_tests::files;
use levertrain_tests::sketch::Sketch;
use serde_json::{Value, json};

/// The example's program, built by this package from the core's source.
fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_chart"))
}

/// Runs the example on a file.
fn run(file: &Path, options: &[&str]) -> Result<Output> {
    Ok(program().arg(file).args(options).output()?)
}

/// What it prints when all is well: nothing on the error stream.
fn printed(file: &Path, options: &[&str]) -> Result<String> {
    let output = run(file, options)?;
    let errors = String::from_utf8_lossy(&output.stderr);
    ensure!(
        output.status.success() && errors.is_empty(),
        "{options:?}: {}: {errors}",
        output.status
    );
    Ok(String::from_utf8(output.stdout)?)
}

fn json_of(file: &Path, options: &[&str]) -> Result<Value> {
    let options = [options, &["--json"]].concat();
    Ok(serde_json::from_str(&printed(file, &options)?)?)
}

/// Checks that it ends with 2 and one line that holds `expected`.
fn check_refusal(output: &Output, expected: &str) -> Result<()> {
    let errors = String::from_utf8_lossy(&output.stderr);
    ensure!(
        output.status.code() == Some(2),
        "{}: {errors}",
        output.status
    );
    ensure!(output.stdout.is_empty(), "it printed as well: {errors}");
    ensure!(
        errors.ends_with('\n') && errors.trim_end().lines().count() == 1,
        "not one line: {errors:?}"
    );
    ensure!(
        !errors.chars().any(|c| c.is_control() && c != '\n'),
        "control characters: {errors:?}"
    );
    ensure!(errors.contains(expected), "{expected:?} is not in {errors}");
    ensure!(errors.chars().count() < 600, "too long: {errors}");
    Ok(())
}

/// A file of our own in the test folder of the build.
fn file(name: &str, text: &str) -> Result<PathBuf> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text)?;
    Ok(path)
}

/// One set with k = 4, the sun driven, the carrier delivering.
fn set() -> Sketch {
    Sketch::new("sun", "carrier")
        .planetary("set", ("sun", 20), ("ring", 80), "carrier", 30)
        .pinions(4)
        .brake("B", "ring")
        .clutch("C", "sun", "ring")
        .range("low", &["B"])
        .range("high", &["C"])
}

fn set_file(name: &str) -> Result<PathBuf> {
    file(name, &set().to_json().to_string())
}

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
    scenario["elements"][0]["friction"] = json!({"surfaces": 10, "outerRadius": 100,
        "innerRadius": 80, "coefficient": 0.1, "clampForce": 5000});
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
    let without = json_of(&set_file("no-capacity.json")?, &[])?;
    assert_eq!(without["ranges"][0]["capacity"], Value::Null);
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
    ensure!(line_of(&one, "Element C")?.ends_with("= 1"), "{one}");
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
                ensure!(!alone[field].is_null(), "{}: {field}", scenario.stem);
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

#[test]
fn tooth_warnings_are_printed() -> Result<()> {
    let sketch = Sketch::new("s", "c").planetary("set", ("s", 20), ("r", 81), "c", 30);
    let file = file("warned.json", &sketch.to_json().to_string())?;
    let chart = printed(&file, &[])?;
    ensure!(chart.contains("tooth check, set:"), "{chart}");
    ensure!(chart.contains("the ring has 81"), "{chart}");
    Ok(())
}

#[test]
fn bad_files_end_with_2_and_one_line() -> Result<()> {
    let good = set().to_json().to_string();
    let rows = [
        ("empty", String::new(), "ends too early"),
        ("cut", good[..good.len() / 2].to_owned(), "line 1"),
        ("text", "gears".to_owned(), "not JSON"),
        (
            "zero-teeth",
            good.replace("\"teeth\":80", "\"teeth\":0"),
            "0 teeth",
        ),
        (
            "unknown-shaft",
            good.replace("\"carrier\":\"carrier\"", "\"carrier\":\"nowhere\""),
            "nowhere",
        ),
        (
            "newline-in-name",
            good.replacen("\"name\"", "\"na\\nme\"", 1),
            "unknown field",
        ),
        (
            "newline-in-id",
            good.replacen("\"input\":\"sun\"", "\"input\":\"su\\nn\"", 1),
            "input",
        ),
        (
            "escape-in-kind",
            good.replace("\"planetary\"", "\"\\u001b[31mred\""),
            "kind",
        ),
        ("long", "[".repeat(70_000), "70000 bytes"),
        ("deep", "[".repeat(60_000), "line 1"),
        (
            "long-id",
            good.replacen(
                "\"input\":\"sun\"",
                &format!("\"input\":\"{}\"", "x".repeat(9_000)),
                1,
            ),
            "input",
        ),
    ];
    let mut wrong = Vec::new();
    for (name, text, expected) in rows {
        let path = file(&format!("bad-{name}.json"), &text)?;
        if let Err(error) = check_refusal(&run(&path, &[])?, expected) {
            wrong.push(format!("{name}: {error:#}"));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

#[test]
fn bad_command_lines_end_with_2_and_one_line() -> Result<()> {
    let path = set_file("command-lines.json")?;
    let rows: [(&[&str], &str); 9] = [
        (&["--apply", "B,nobody"], "nobody"),
        (&["--apply"], "--apply needs ids"),
        (&["--torque"], "--torque needs"),
        (&["--torque", "-3"], "--torque needs"),
        (&["--torque", "inf"], "--torque needs"),
        (&["--frobnicate"], "--frobnicate"),
        (&["second-file.json"], "one file"),
        (&["--all", "--apply", "B"], "exclude each other"),
        (&["--apply", "B\nC"], "no element"),
    ];
    for (options, expected) in rows {
        let output = run(&path, options)?;
        check_refusal(&output, expected).with_context(|| format!("{options:?}"))?;
    }
    let missing = Path::new(env!("CARGO_TARGET_TMPDIR")).join("there-is-no-such-file.json");
    check_refusal(&run(&missing, &[])?, "there-is-no-such-file.json")?;
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    check_refusal(&run(folder, &[])?, "directory")?;
    let binary = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bytes.json");
    std::fs::write(&binary, [0xff, 0xfe, 0x00, 0x7b])?;
    check_refusal(&run(&binary, &[])?, "UTF-8")?;
    check_refusal(&program().output()?, "usage")
}

/// A name that is no Unicode is a bad input like any other.
#[cfg(unix)]
#[test]
fn an_argument_that_is_no_text_ends_with_2() -> Result<()> {
    use std::os::unix::ffi::OsStrExt as _;
    let name = std::ffi::OsStr::from_bytes(b"bad-\xff.json");
    check_refusal(&program().arg(name).output()?, "bad-")
}
