//! Edits of engine, torque converter and load.

use anyhow::{Context, Result, bail, ensure};
use levertrain_core::Scenario;
use levertrain_core::edit::{History, blank, text};
use serde_json::{Value, json};

use crate::{after, all, edit, train};

/// Every kind of these edits with what it changes of a train that has all three: a path into its text and
/// what is there afterwards.
fn edits() -> Vec<(Value, &'static str, Value)> {
    let point = |points, at, column, amount: f64| json!({"edit": "amount", "rows": points, "at": at, "column": column, "amount": amount});
    vec![
        (
            json!({"edit": "surround", "part": "engine", "there": false}),
            "/engine",
            Value::Null,
        ),
        (
            json!({"edit": "surround", "part": "engine", "there": false}),
            "/load",
            Value::Null,
        ),
        (
            json!({"edit": "surround", "part": "engine", "there": false}),
            "/converter",
            Value::Null,
        ),
        (
            json!({"edit": "surround", "part": "converter", "there": false}),
            "/converter",
            Value::Null,
        ),
        (
            json!({"edit": "label-part", "part": "engine", "label": "Small engine"}),
            "/engine/label",
            json!("Small engine"),
        ),
        (
            json!({"edit": "label-part", "part": "converter", "label": "Soft"}),
            "/converter/label",
            json!("Soft"),
        ),
        (
            json!({"edit": "label-part", "part": "load", "label": "Hill"}),
            "/load/label",
            json!("Hill"),
        ),
        (
            point("full", 1, 0, 2500.0),
            "/engine/full/1/0",
            json!(2500.0),
        ),
        (point("full", 1, 1, 210.0), "/engine/full/1/1", json!(210.0)),
        (
            point("motoring", 1, 1, -55.0),
            "/engine/motoring/1/1",
            json!(-55.0),
        ),
        // Both curves begin and end at the same speeds.
        (
            point("full", 0, 0, 700.0),
            "/engine/motoring/0/0",
            json!(700.0),
        ),
        (
            point("full", 2, 0, 6500.0),
            "/engine/motoring/1/0",
            json!(6500.0),
        ),
        (
            point("motoring", 1, 0, 6500.0),
            "/engine/full/2/0",
            json!(6500.0),
        ),
        (
            point("table", 1, 0, 0.5),
            "/converter/table/1/0",
            json!(0.5),
        ),
        (
            point("table", 0, 2, 160.0),
            "/converter/table/0/2",
            json!(160.0),
        ),
        (
            json!({"edit": "point", "rows": "full", "at": 2, "there": true}),
            "/engine/full/2",
            // Half-way from 2400 rev/min, 200 N·m to 6000 rev/min, 150 N·m.
            json!([4200.0, 175.0]),
        ),
        (
            json!({"edit": "point", "rows": "motoring", "at": 1, "there": true}),
            "/engine/motoring/1",
            json!([3400.0, -32.5]),
        ),
        (
            json!({"edit": "point", "rows": "full", "at": 1, "there": false}),
            "/engine/full/1",
            json!([6000.0, 150.0]),
        ),
        (
            json!({"edit": "point", "rows": "table", "at": 2, "there": false}),
            "/converter/table/2",
            json!([0.97, 1.0, 350.0]),
        ),
        (
            json!({"edit": "amount", "rows": "load", "at": 0, "column": 0, "amount": 20}),
            "/load/constant",
            json!(20.0),
        ),
        (
            json!({"edit": "amount", "rows": "load", "at": 0, "column": 1, "amount": 0.002}),
            "/load/linear",
            json!(0.002),
        ),
        (
            json!({"edit": "amount", "rows": "load", "at": 0, "column": 2, "amount": 0.000004}),
            "/load/quadratic",
            json!(0.000004),
        ),
        (
            json!({"edit": "amount", "rows": "load", "at": 0, "column": 3, "amount": 0}),
            "/load/weight",
            json!(0.0),
        ),
    ]
}

/// A train that nothing but an engine, a converter and a load is known of.
fn surrounded() -> Result<Scenario> {
    let given = ["engine", "converter"]
        .map(|edit| json!({"edit": "surround", "part": edit, "there": true}));
    after(&blank(), &given)
}

/// Catches an edit that changes something else, one that leaves no train, and one that cannot be taken back.
#[test]
fn each_changes_what_it_says_and_can_be_taken_back() -> Result<()> {
    let before = surrounded()?;
    train(&before)?;
    for (value, path, wanted) in edits() {
        let edit = edit(&value)?;
        let after = edit.of(&before)?;
        train(&after).with_context(|| value.to_string())?;
        let read: Value = serde_json::from_str(&text(&after))?;
        let found = read.pointer(path).cloned().unwrap_or(Value::Null);
        ensure!(found == wanted, "{value}: {found} at {path}");
        ensure!(after != before, "{value} changes nothing");
        let mut history = History::default();
        history.note(&edit, &before, &after, false);
        let back = history.undo(&after).context("no way back")?;
        ensure!(back == before, "{value}: another train is left");
        ensure!(history.redo(&back) == Some(after), "{value}: not again");
    }
    Ok(())
}

/// Catches usual data that are put over what is there, and an engine that comes without a load.
#[test]
fn what_is_there_is_kept_and_what_is_missing_comes() -> Result<()> {
    for scenario in all()? {
        let given = after(
            &scenario,
            &[json!({"edit": "surround", "part": "engine", "there": true})],
        )?;
        train(&given)?;
        ensure!(given.engine.is_some() && given.load.is_some());
        ensure!(
            scenario.engine.is_none() || given == scenario,
            "{}",
            scenario.name
        );
    }
    Ok(())
}

/// Catches an end that cannot be taken away, and curves of an engine that then differ in how far they go, or that
/// are bent where one is cut.
#[test]
fn an_end_of_a_curve_is_taken_away_from_both() -> Result<()> {
    let start = surrounded()?;
    let take = |rows, at| json!({"edit": "point", "rows": rows, "at": at, "there": false});
    let curves = |edits: &[Value]| -> Result<[Vec<[f64; 2]>; 2]> {
        let engine = after(&start, edits)?.engine.context("no engine")?;
        Ok([engine.full, engine.motoring])
    };
    // From 800 rev/min, −15 N·m to 6000 rev/min, −50 N·m: 1600 of 5200 rev/min on.
    let middle = -15.0 - 35.0 * 1600.0 / 5200.0;
    let [full, motoring] = curves(&[take("full", 2)])?;
    ensure!(full == [[800.0, 120.0], [2400.0, 200.0]], "{full:?}");
    ensure!(motoring[0] == [800.0, -15.0] && motoring.len() == 2);
    ensure!(motoring[1][0] == 2400.0 && (motoring[1][1] - middle).abs() < 1e-9);
    let [full, motoring] = curves(&[take("full", 0)])?;
    ensure!(full == [[2400.0, 200.0], [6000.0, 150.0]], "{full:?}");
    ensure!(motoring[1] == [6000.0, -50.0] && motoring.len() == 2);
    ensure!(motoring[0][0] == 2400.0 && (motoring[0][1] - middle).abs() < 1e-9);
    // Points of the other one that lie beyond go, too.
    let add = json!({"edit": "point", "rows": "motoring", "at": 1, "there": true});
    let [full, motoring] = curves(&[add.clone(), add, take("motoring", 3)])?;
    ensure!(motoring.last() == Some(&[3400.0, -32.5]), "{motoring:?}");
    ensure!(full.len() == 3 && full[1] == [2400.0, 200.0], "{full:?}");
    ensure!(full[2][0] == 3400.0 && (full[2][1] - (200.0 - 50.0 / 3.6)).abs() < 1e-9);
    ensure!(
        edit(&take("motoring", 1))?.of(&start).is_err(),
        "one point is left"
    );
    Ok(())
}

/// Catches a point that bends the curve it is put on: torque is linear in speed, and so is the torque ratio
/// of a converter and 1/K² in the speed ratio.
#[test]
fn a_point_that_is_added_bends_nothing() -> Result<()> {
    let before = surrounded()?;
    for at in 1..4 {
        let add = json!({"edit": "point", "rows": "table", "at": at, "there": true});
        let added = after(&before, &[add])?;
        let table = |scenario: &Scenario| -> Result<Vec<[f64; 3]>> {
            let converter = scenario.converter.clone().context("no converter")?;
            Ok(converter.table)
        };
        let (old, new) = (table(&before)?, table(&added)?);
        ensure!(new.len() == old.len() + 1);
        let [[s0, t0, k0], [s1, t1, k1]] = [old[at - 1], old[at]];
        let [s, t, k] = new[at];
        let part = (s - s0) / (s1 - s0);
        ensure!((part - 0.5).abs() < 1e-12, "{s}");
        ensure!((t - (t0 + part * (t1 - t0))).abs() < 1e-12, "{t}");
        let [a, b] = [k0, k1].map(|k| 1.0 / (k * k));
        ensure!(
            (1.0 / (k * k) - (a + part * (b - a))).abs() < 1e-12 * a,
            "{k}"
        );
    }
    Ok(())
}

/// Catches edits of what is not there that are taken, or that do not say where.
#[test]
fn what_is_not_there_is_named() -> Result<()> {
    let amount = |rows, at, column| json!({"edit": "amount", "rows": rows, "at": at, "column": column, "amount": 1});
    let point = |rows, at, there| json!({"edit": "point", "rows": rows, "at": at, "there": there});
    let (bare, given) = (blank(), surrounded()?);
    let label = |part| json!({"edit": "label-part", "part": part, "label": "L"});
    for (scenario, value, place) in [
        (&bare, amount("full", 0, 1), "engine.full"),
        (&bare, amount("table", 0, 1), "converter.table"),
        (&bare, amount("load", 0, 3), "load"),
        (&bare, point("motoring", 1, true), "engine.motoring"),
        (&bare, label("engine"), "engine"),
        (&bare, label("converter"), "converter"),
        (&bare, label("load"), "load"),
        (&given, amount("full", 3, 0), "engine.full"),
        (&given, amount("motoring", 2, 0), "engine.motoring"),
        (&given, amount("full", 0, 2), "engine.full"),
        (&given, amount("load", 0, 4), "load"),
        (&given, amount("load", 1, 0), "load"),
        (&given, point("full", 0, true), "engine.full"),
        (&given, point("table", 4, true), "converter.table"),
        (&given, point("full", 3, false), "engine.full"),
        (&given, point("table", 0, false), "converter.table"),
        (&given, point("motoring", 0, false), "engine.motoring"),
        (&given, point("load", 0, false), "load"),
    ] {
        let Err(problem) = edit(&value)?.of(scenario) else {
            bail!("{value} is taken");
        };
        ensure!(problem.place == place, "{value}: {problem}");
        ensure!(problem.what.contains("not there"), "{value}: {problem}");
    }
    Ok(())
}

/// Catches letters that are steps of their own, and numbers of two fields that are one step.
#[test]
fn letters_of_one_field_are_one_step() -> Result<()> {
    let start = surrounded()?;
    let point = |at, amount: f64| json!({"edit": "amount", "rows": "full", "at": at, "column": 1, "amount": amount});
    let term = |column, amount: f64| json!({"edit": "amount", "rows": "load", "at": 0, "column": column, "amount": amount});
    let label = |part, label| json!({"edit": "label-part", "part": part, "label": label});
    let mut now = start.clone();
    let mut history = History::default();
    for (value, steps) in [
        (point(1, 2.0), 1),
        (point(1, 21.0), 1),
        (point(1, 210.0), 1),
        (point(0, 110.0), 2),
        (term(3, 1.0), 3),
        (term(3, 13.0), 3),
        (term(0, 1.0), 4),
        (label("load", "H"), 5),
        (label("load", "Hi"), 5),
        (label("engine", "H"), 6),
    ] {
        let edit = edit(&value)?;
        let next = edit.of(&now)?;
        history.note(&edit, &now, &next, true);
        now = next;
        ensure!(
            history.depth() == [steps, 0],
            "{value}: {:?}",
            history.depth()
        );
    }
    while let Some(before) = history.undo(&now) {
        now = before;
    }
    ensure!(now == start);
    Ok(())
}
