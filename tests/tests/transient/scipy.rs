//! Shifts of random trains as SciPy integrates them (`tests/oracle/transient.py`).
//!
//! Where more elements hold than equilibrium decides the torques of, the oracle gives some up: its limits are then
//! met again and again.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::transient::{Command, Dynamics, Mode, Plan, Shift};
use levertrain_tests::cases;
use serde::Deserialize;

#[derive(Deserialize)]
struct Answer {
    name: String,
    failed: bool,
    case: Option<Case>,
}

#[derive(Deserialize)]
struct Case {
    scenario: serde_json::Value,
    plan: Asked,
    times: Vec<f64>,
    speeds: Vec<Vec<f64>>,
    heat: Vec<f64>,
}

#[derive(Deserialize)]
struct Asked {
    from: Vec<String>,
    to: Vec<String>,
    commands: Vec<AskedOf>,
    until: f64,
    input_speed: f64,
    input_torque: f64,
    output_torque: f64,
}

#[derive(Deserialize)]
struct AskedOf {
    element: String,
    at: f64,
    ramp: f64,
}

/// Against the largest speed, and all heat.
const TOLERANCE: f64 = 1e-6;

fn check(case: &Case) -> Result<Shift> {
    let train = Train::parse(&case.scenario.to_string())
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let (dynamics, problems) = Dynamics::of(&train);
    ensure!(problems.is_empty(), "{problems:?}");
    let set = |ids: &[String]| {
        let set = train.element_set(ids.iter().map(String::as_str));
        set.map_err(|problems| anyhow::anyhow!("{problems:?}"))
    };
    let mut commands = Vec::new();
    for command in &case.plan.commands {
        commands.push(Command {
            element: train.element(&command.element).context("an element")?,
            at: command.at,
            ramp: command.ramp,
        });
    }
    let plan = Plan {
        from: set(&case.plan.from)?,
        to: set(&case.plan.to)?,
        commands,
        cut: None,
        until: case.plan.until,
        input_speed: case.plan.input_speed,
        input_torque: case.plan.input_torque,
        output_torque: case.plan.output_torque,
    };
    let shift = Shift::of(&train, &dynamics, plan)
        .map_err(|refusal| anyhow::anyhow!("refused: {refusal:?}"))?;
    let all = case.speeds.iter().flatten();
    let fastest = all.fold(1.0, |most: f64, speed| most.max(speed.abs()));
    for (&time, speeds) in case.times.iter().zip(&case.speeds) {
        let (piece, later) = shift.at(time).context("a piece")?;
        for (shaft, &expected) in speeds.iter().enumerate() {
            let actual = piece.shaft_speed(shaft, later);
            ensure!(
                (actual - expected).abs() <= TOLERANCE * fastest,
                "shaft {shaft} at {time} s: actual {actual}, expected {expected}, of {fastest}"
            );
        }
    }
    let most = case
        .heat
        .iter()
        .fold(1.0, |most: f64, heat| most.max(heat.abs()));
    for (element, &expected) in case.heat.iter().enumerate() {
        let actual = shift.figures.elements[element].heat;
        ensure!(
            (actual - expected).abs() <= TOLERANCE * most,
            "heat of {element}: actual {actual}, expected {expected}"
        );
    }
    Ok(shift)
}

#[test]
fn three_hundred_random_shifts_agree() -> Result<()> {
    let Some(answers) = cases::of_file::<Answer>("transient.json")? else {
        return Ok(());
    };
    let given_up = answers.iter().filter(|answer| answer.failed).count();
    let (mut wrong, mut shifts) = (Vec::new(), Vec::new());
    for answer in &answers {
        let Some(case) = &answer.case else { continue };
        match check(case) {
            Ok(shift) => shifts.push(shift),
            Err(error) => wrong.push(format!("{}: {error:#}", answer.name)),
        }
    }
    eprintln!("{} agree, {given_up} given up by the oracle", shifts.len());
    ensure!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong.join("\n"));
    ensure!(shifts.len() >= 300 && given_up * 4 < shifts.len());
    // Guards the comparison: shifts in which nothing happens would prove little.
    let changes = |shift: &&Shift| {
        let modes = |mode| {
            let all = shift.pieces.iter().flat_map(|piece| &piece.modes);
            all.filter(|&&known| known == mode).count()
        };
        let pairs = shift.pieces.windows(2);
        let caught = pairs.filter(|pair| {
            let modes = pair[0].modes.iter().zip(&pair[1].modes);
            let mut slips =
                modes.map(|(before, after)| *before != Mode::Holds && *after == Mode::Holds);
            slips.any(|x| x)
        });
        caught.count() > 0 && modes(Mode::SlipsForward) + modes(Mode::SlipsBackward) > 0
    };
    let busy = shifts.iter().filter(changes).count();
    ensure!(busy >= 60, "only {busy} of them slip and catch");
    Ok(())
}
