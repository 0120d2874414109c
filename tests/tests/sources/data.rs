//! What a file says of sources and outputs, and what is assumed where it says nothing.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_core::edit;
use levertrain_core::sources::{EFFICIENCY, ENGINE_SPEED, MOTOR_SPEED, MachineKind, Ports, TORQUE};
use serde_json::{Value, json};

fn with(sources: &Value) -> Result<Train> {
    let mut files = levertrain_tests::files::scenarios()?.into_iter();
    let file = files.next().map(|file| file.text).unwrap_or_default();
    let mut scenario: Value = serde_json::from_str(&file)?;
    scenario["sources"] = sources.clone();
    super::parsed(&scenario.to_string())
}

#[test]
fn what_is_left_out_is_assumed_and_said_to_be() -> Result<()> {
    let train = with(&json!({"further": [{"shaft": "r"}, {"shaft": "c", "kind": "engine"}]}))?;
    let (ports, problems) = Ports::of(&train);
    ensure!(problems.is_empty(), "{problems:?}");
    let machines: Vec<_> = ports.list.iter().filter_map(|port| port.machine).collect();
    let kinds: Vec<_> = machines.iter().map(|machine| machine.kind).collect();
    ensure!(kinds == [MachineKind::Engine, MachineKind::Motor, MachineKind::Engine]);
    let assumed = [
        (ENGINE_SPEED, 1.0),
        (MOTOR_SPEED, EFFICIENCY),
        (ENGINE_SPEED, 1.0),
    ];
    for (machine, (speed, efficiency)) in machines.iter().zip(assumed) {
        ensure!(machine.speed.value == speed && machine.speed.is_assumed);
        ensure!(machine.torque.value == TORQUE && machine.torque.is_assumed);
        ensure!(machine.efficiency.value == efficiency && machine.power.is_none());
    }
    ensure!(ports.list[1].label == train.scenario().shafts[super::shaft(&train, "r")?].label);
    Ok(())
}

#[test]
fn what_is_wrong_is_told_and_the_rest_counts() -> Result<()> {
    let train = with(&json!({
        "input": {"label": "\u{200b}\u{2060}", "speed": 0, "torque": 80},
        "further": [
            {"shaft": "nowhere"},
            {"shaft": "r", "kind": "turbine", "efficiency": 1.5, "power": "much", "torque": 30},
        ],
        "outputs": ["c", "r", "r", "s"],
        "battery": -1,
    }))?;
    let (ports, problems) = Ports::of(&train);
    let places: Vec<&str> = problems.iter().map(|problem| &*problem.place).collect();
    for place in [
        "sources.input.label",
        "sources.input.speed",
        "sources.further[0].shaft",
        "sources.further[1].kind",
        "sources.further[1].efficiency",
        "sources.further[1].power",
        "sources.battery",
    ] {
        ensure!(places.contains(&place), "{place} is not among {places:?}");
    }
    let torques: Vec<f64> = (ports.list.iter())
        .filter_map(|port| Some(port.machine?.torque.value))
        .collect();
    ensure!(torques == [80.0, 30.0], "{torques:?}");
    Ok(())
}

/// Catches an engine that loses or rewrites what it does not understand.
#[test]
fn edits_keep_the_field_to_the_letter() -> Result<()> {
    let written = json!({"further": [{"shaft": "r", "label": "Motor é"}], "battery": 2.50});
    let train = with(&written)?;
    let text = edit::text(train.scenario());
    let again = super::parsed(&text)?;
    ensure!(again.scenario().sources == train.scenario().sources);
    ensure!(serde_json::from_str::<Value>(&text)?["sources"] == written);
    Ok(())
}
