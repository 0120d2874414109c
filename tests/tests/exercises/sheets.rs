//! Sheets as files: read, written, refused, and those of our own.

use std::fs;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::exercise::{Kind, QuestionReport, Sheet, SheetReport, Task};
use levertrain_tests::files::{json_files, root};
use serde_json::{Value, json};

use super::{tasks, trains};

pub(crate) fn sheet(task: &Value) -> String {
    json!({"format": 1, "title": "One", "tasks": [task]}).to_string()
}

/// Catches a task that is another one once it was written and read.
#[test]
fn tasks_are_written_as_they_are_read() -> Result<()> {
    for (stem, train) in trains()? {
        for task in tasks(&train) {
            let written = serde_json::to_value(QuestionReport::of(&train, &task).task)?;
            let read = Sheet::parse(&train, &sheet(&written));
            let read = read.map_err(|problems| anyhow!("{stem}: {written} {problems:?}"))?;
            ensure!(read.tasks == [task], "{stem}: {written}");
        }
    }
    Ok(())
}

/// Catches a wrong file that is taken, one that ends the program, and problems that do not say where.
#[test]
fn a_wrong_sheet_names_what_is_wrong() -> Result<()> {
    let (_, train) = trains()?.swap_remove(3);
    let range = &train.scenario().ranges[0].id;
    let shaft = &train.scenario().shafts[1].id;
    for (task, place) in [
        (json!(3), "tasks[0]"),
        (json!({}), "tasks[0].task"),
        (json!({"task": "guess"}), "tasks[0].task"),
        (json!({"task": "reach"}), "tasks[0]"),
        (json!({"task": "reach", "ratio": "0"}), "tasks[0].ratio"),
        (json!({"task": "reach", "ratio": 3}), "tasks[0].ratio"),
        (json!({"task": "reach", "ratio": "1000/7"}), "tasks[0]"),
        (
            json!({"task": "speed", "range": "none", "shaft": shaft}),
            "tasks[0].range",
        ),
        (
            json!({"task": "speed", "range": range, "shaft": "none"}),
            "tasks[0].shaft",
        ),
        (
            json!({"task": "members", "range": range, "set": "none", "part": "held"}),
            "tasks[0].set",
        ),
        (
            json!({"task": "members", "range": range, "set": "p1", "part": "asleep"}),
            "tasks[0].part",
        ),
        (json!({"task": "neutral", "applied": 40}), "tasks[0]"),
        (
            json!({"task": "neutral", "applied": -1}),
            "tasks[0].applied",
        ),
        (
            json!({"task": "tie-up", "among": [["none"]]}),
            "applied elements",
        ),
        (json!({"task": "tie-up", "among": []}), "tasks[0]"),
        (
            json!({"task": "order", "ranges": [range, range]}),
            "tasks[0]",
        ),
        (
            json!({"task": "order", "ranges": vec![range; 13]}),
            "tasks[0].ranges",
        ),
        (
            json!({"task": "teeth", "range": range, "set": "p1", "ratio": "x"}),
            "tasks[0].ratio",
        ),
        (
            json!({"task": "speed", "range": range, "shaft": shaft, "more": 1}),
            "tasks[0].more",
        ),
    ] {
        let found = Sheet::parse(&train, &sheet(&task)).err();
        let found = found.with_context(|| format!("{task} is taken"))?;
        let said = found.iter().any(|problem| problem.place == place);
        ensure!(said, "{task}: {found:?}");
    }
    for text in [
        "",
        "[]",
        "{}",
        "{\"format\": 2, \"title\": \"x\", \"tasks\": []}",
        "{\"format\": 1}",
    ] {
        ensure!(Sheet::parse(&train, text).is_err(), "{text}");
    }
    let many = vec![json!({"task": "reach", "ratio": "1"}); 41];
    let text = json!({"format": 1, "title": "x", "tasks": many}).to_string();
    ensure!(Sheet::parse(&train, &text).is_err(), "41 tasks are taken");
    Ok(())
}

/// Catches a walk that is taken for something else, one whose ranges nobody checked, and a schema that sees it
/// otherwise than the reader.
#[test]
fn a_sheet_names_ranges_to_walk_through_first() -> Result<()> {
    let (_, train) = trains()?.swap_remove(3);
    let ids: Vec<&str> = train.scenario().ranges[..2]
        .iter()
        .map(|range| range.id.as_str())
        .collect();
    let schema: Value = serde_json::from_str(&fs::read_to_string(
        root().join("scenarios/exercises/schema.json"),
    )?)?;
    let schema = jsonschema::validator_for(&schema)?;
    let text = |walk: &Value| json!({"format": 1, "title": "x", "walk": walk, "tasks": []});
    // Back to one that was there already.
    let good = json!([ids[1], ids[0], ids[1]]);
    let read = Sheet::parse(&train, &text(&good).to_string());
    let read = read.map_err(|problems| anyhow!("{problems:?}"))?;
    ensure!(read.walk == [1, 0, 1], "{:?}", read.walk);
    ensure!(SheetReport::of(&train, &read).walk == [ids[1], ids[0], ids[1]]);
    ensure!(schema.is_valid(&text(&good)));
    let none = json!({"format": 1, "title": "x", "tasks": []});
    let read = Sheet::parse(&train, &none.to_string());
    ensure!(read.is_ok_and(|sheet| sheet.walk.is_empty()));
    ensure!(schema.is_valid(&none));
    for (walk, place, beyond_schema) in [
        (json!(["nowhere"]), "walk", true),
        (json!(vec![ids[0]; 13]), "walk", false),
        (json!(ids[0]), "walk", false),
        (json!([1]), "walk[0]", false),
        (json!(null), "walk", false),
    ] {
        let found = Sheet::parse(&train, &text(&walk).to_string()).err();
        let found = found.with_context(|| format!("{walk} is taken"))?;
        ensure!(
            found.len() == 1 && found[0].place == place,
            "{walk}: {found:?}"
        );
        ensure!(schema.is_valid(&text(&walk)) == beyond_schema, "{walk}");
    }
    Ok(())
}

/// Catches a sheet of ours that the train of its scenario cannot answer, or that its schema refuses.
#[test]
fn our_sheets_fit_their_scenarios() -> Result<()> {
    let folder = root().join("scenarios/exercises");
    let mut sheets = json_files(&folder)?;
    let schema = sheets
        .iter()
        .position(|file| file.stem == "schema")
        .context("a schema")?;
    let schema: Value = serde_json::from_str(&sheets.remove(schema).text)?;
    jsonschema::meta::validate(&schema).map_err(|error| anyhow!("{error}"))?;
    let schema = jsonschema::validator_for(&schema)?;
    let trains = trains()?;
    ensure!(sheets.len() >= 3, "{} sheets", sheets.len());
    let mut kinds = Vec::new();
    for file in sheets {
        let data: Value = serde_json::from_str(&file.text)?;
        let errors: Vec<String> = schema
            .iter_errors(&data)
            .map(|error| error.to_string())
            .collect();
        ensure!(errors.is_empty(), "{}: {errors:?}", file.stem);
        let stem = data["scenario"].as_str().context("a scenario")?;
        let (_, train) = trains
            .iter()
            .find(|(known, _)| known == stem)
            .context("no such")?;
        let read = Sheet::parse(train, &file.text);
        let read = read.map_err(|problems| anyhow!("{}: {problems:?}", file.stem))?;
        kinds.extend(read.tasks.iter().map(Task::kind));
        // What the schema refuses is refused, too.
        for task in data["tasks"].as_array().context("tasks")? {
            let mut spoilt = task.clone();
            spoilt["task"] = json!("guess");
            ensure!(!schema.is_valid(&serde_json::from_str(&sheet(&spoilt))?));
        }
    }
    for (name, kind) in Kind::ALL {
        ensure!(kinds.contains(kind), "no sheet asks for {name}");
    }
    Ok(())
}
