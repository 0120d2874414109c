//! What a file says of a vehicle, what is assumed, and what is refused.

use anyhow::{Result, ensure};
use levertrain_core::traction::{
    FINAL_DRIVE, LackReport, Missing, Rule, Traction, TractionReport, WHEEL_RADIUS,
};
use levertrain_core::{Train, edit};
use serde_json::{Value, json};

use crate::{ask, found, small};

fn with(change: impl FnOnce(&mut Value)) -> Result<Train> {
    let load =
        json!({"label": "Road", "constant": 20, "linear": 0, "quadratic": 0, "weight": 1000});
    let train = small(&[[1000.0, 100.0], [5000.0, 100.0]], load)?;
    let mut scenario: Value = serde_json::from_str(&edit::text(train.scenario()))?;
    change(&mut scenario);
    Train::parse(&scenario.to_string()).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

fn left_out(scenario: &mut Value, name: &str) {
    if let Some(fields) = scenario.as_object_mut() {
        fields.remove(name);
    }
}

#[test]
fn what_is_left_out_is_assumed_and_named() -> Result<()> {
    let train = with(|scenario| {
        left_out(scenario, "vehicle");
        left_out(scenario, "dynamics");
    })?;
    let report = found(&train, ask())?.report(&train);
    let assumed: Vec<(&str, f64)> = report.assumed.iter().map(|x| (x.what, x.value)).collect();
    let expected = [
        ("wheel-radius", WHEEL_RADIUS),
        ("final-drive", FINAL_DRIVE),
        ("engine-inertia", 0.15),
        ("shaft-inertia", 0.01),
    ];
    ensure!(assumed == expected, "{assumed:?}");
    // The mass is the file's: 1000 N·m at 0.3/3.5 m, and with it the inertia.
    let mass = 1000.0 / (0.3 / 3.5) / 9.80665;
    ensure!((report.mass - mass).abs() < 1e-9 * mass);
    let inertia = found(&train, ask())?.vehicle.inertia;
    ensure!(!inertia.is_assumed && (inertia.value - mass * (0.3_f64 / 3.5).powi(2)).abs() < 1e-9);
    // Without a weight the inertia is assumed, too.
    let train = with(|scenario| {
        left_out(scenario, "dynamics");
        scenario["load"]["weight"] = json!(0);
    })?;
    let report = found(&train, ask())?.report(&train);
    ensure!(
        report
            .assumed
            .iter()
            .any(|x| x.what == "load-inertia" && x.value == 9.0)
    );
    // A file that says all has nothing assumed.
    let train = with(|_| {})?;
    ensure!(found(&train, ask())?.report(&train).assumed.is_empty());
    Ok(())
}

/// What is faulty is named, and assumed instead; the train is there all the same.
#[test]
fn problems_say_where() -> Result<()> {
    for (faulty, place) in [
        (json!([1]), "vehicle"),
        (json!({"mass": 1200}), "vehicle.mass"),
        (json!({"wheel_radius": "0.3"}), "vehicle.wheel_radius"),
        (json!({"wheel_radius": 0}), "vehicle.wheel_radius"),
        (json!({"final_drive": -3}), "vehicle.final_drive"),
        (json!({"final_drive": 1e9}), "vehicle.final_drive"),
    ] {
        let train = with(|scenario| scenario["vehicle"] = faulty.clone())?;
        let found = found(&train, ask())?;
        let places: Vec<&str> = found.problems.iter().map(|x| x.place.as_str()).collect();
        ensure!(places == [place], "{faulty}: {places:?}");
        ensure!(found.vehicle.wheel_radius.value == WHEEL_RADIUS);
        ensure!(found.vehicle.final_drive.value == FINAL_DRIVE);
    }
    Ok(())
}

#[test]
fn a_file_that_is_written_keeps_the_vehicle() -> Result<()> {
    for kept in [
        json!({"wheel_radius": 0.31}),
        json!({"odd": [null, "\"\\é"]}),
        json!(7),
    ] {
        let train = with(|scenario| scenario["vehicle"] = kept.clone())?;
        let text = edit::text(train.scenario());
        let again: Value = serde_json::from_str(&text)?;
        ensure!(
            again["vehicle"] == kept && again["dynamics"].is_object(),
            "{text}"
        );
        let read = Train::parse(&text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        ensure!(read.scenario() == train.scenario() && edit::text(read.scenario()) == text);
    }
    Ok(())
}

#[test]
fn what_is_missing_is_said() -> Result<()> {
    let bare = with(|scenario| {
        left_out(scenario, "engine");
        left_out(scenario, "load");
    })?;
    ensure!(Traction::of(&bare, &ask()).err() == Some(Missing::EngineAndLoad));
    let unnamed = with(|scenario| left_out(scenario, "ranges"))?;
    ensure!(TractionReport::of(&unnamed, &ask()).err() == Some(Missing::Ranges));
    for missing in [Missing::EngineAndLoad, Missing::Ranges] {
        let LackReport { what, fix } = LackReport::of(missing);
        ensure!(what.len() > 10 && fix.len() > 10 && what != fix);
    }
    Ok(())
}

/// Ranges that do not drive, or leave losses open, are told apart from those that pull.
#[test]
fn ranges_that_do_not_pull_say_why() -> Result<()> {
    let train = with(|scenario| {
        let ranges = scenario["ranges"].as_array_mut();
        let free = json!({"id": "n", "label": "N", "applied": []});
        if let Some(ranges) = ranges {
            ranges.insert(0, free);
        }
    })?;
    let report = found(&train, ask())?.report(&train);
    ensure!(report.ranges.len() == 3 && report.ranges[0].idle.is_some());
    ensure!(report.ranges[0].ratio.is_none() && report.ranges[0].top.is_none());
    ensure!(report.ranges[1].idle.is_none() && report.ranges[1].top.is_some());
    ensure!(report.fastest.as_deref() == Some("two"));
    Ok(())
}

#[test]
fn numbers_out_of_range_are_refused() -> Result<()> {
    let train = with(|_| {})?;
    for (mesh, rule, target) in [
        (0.0, Rule::Force, 10.0),
        (1.5, Rule::Force, 10.0),
        (f64::NAN, Rule::Force, 10.0),
        (1.0, Rule::EngineSpeed(1000.0), 10.0),
        (1.0, Rule::EngineSpeed(5001.0), 10.0),
        (1.0, Rule::EngineSpeed(f64::NAN), 10.0),
        (1.0, Rule::Force, 0.0),
        (1.0, Rule::Force, f64::INFINITY),
    ] {
        let mut asked = ask();
        asked.mesh_efficiency = mesh;
        asked.rule = rule;
        asked.targets = vec![target];
        ensure!(asked.clone().checked(&train).is_err(), "{asked:?}");
    }
    let mut asked = ask();
    asked.targets = vec![30.0, 10.0, 10.0];
    let asked = asked
        .checked(&train)
        .map_err(|problem| anyhow::anyhow!("{problem}"))?;
    ensure!(asked.targets == [10.0, 30.0]);
    Ok(())
}
