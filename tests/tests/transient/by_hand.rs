//! Shifts whose course is known in closed form.

use anyhow::{Context, Result, ensure};
use levertrain_core::transient::{Command, Dynamics, Plan, Shift};
use levertrain_core::{ElementSet, Train};
use levertrain_tests::sketch::Sketch;
use serde_json::json;

/// Two shafts and a clutch between them, with these inertias in kg·m².
fn two(first: f64, second: f64, capacity: f64) -> Result<Train> {
    // Half of each is a shaft's own, half that of what it is joined to.
    let scenario = json!({
        "format": 2, "name": "Two", "input": "a", "output": "b",
        "shafts": [{"id": "a", "label": "A"}, {"id": "b", "label": "B"}],
        "couplings": [],
        "elements": [{"kind": "clutch", "id": "H", "label": "H", "between": ["a", "b"]}],
        "dynamics": {
            "engine_inertia": first / 2.0, "load_inertia": second / 2.0,
            "shafts": [{"shaft": "a", "inertia": first / 2.0}, {"shaft": "b", "inertia": second / 2.0}],
            "elements": [{"element": "H", "fill_time": 0, "full_torque": capacity}]
        }
    });
    Train::parse(&scenario.to_string()).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

/// The clutch is closed at once, with the second shaft at rest.
fn closed(train: &Train, rev_per_min: f64, torques: [f64; 2], until: f64) -> Result<Shift> {
    let (dynamics, problems) = Dynamics::of(train);
    ensure!(problems.is_empty(), "{problems:?}");
    let plan = Plan {
        from: ElementSet::NONE,
        to: ElementSet::from_bits(1),
        commands: vec![Command {
            element: 0,
            at: 0.0,
            ramp: 0.0,
        }],
        cut: None,
        until,
        input_speed: rev_per_min,
        input_torque: torques[0],
        output_torque: torques[1],
    };
    Shift::of(train, &dynamics, plan).map_err(|refusal| anyhow::anyhow!("{refusal:?}"))
}

const PER_RAD_S: f64 = 30.0 / std::f64::consts::PI;

#[track_caller]
fn close(what: &str, actual: f64, expected: f64, relative: f64) -> Result<()> {
    let within = relative * expected.abs();
    ensure!(
        (actual - expected).abs() <= within,
        "{what}: actual {actual}, expected {expected}, tolerance {within}"
    );
    Ok(())
}

/// t = Ie·Δω/(Tc − TL), E = (Ie·Δω²/2)·Tc/(Tc − TL) with Ie = I1·I2/(I1 + I2) and
/// TL = (I2·T1 − I1·T2)/(I1 + I2) \[D\]: 0.2 and 1.5 kg·m², +100 and −40 N·m, 250 N·m, 200 rad/s give TL 92.941 N·m,
/// t 0.2247191 s, E 5617.978 J, a common speed of 31.46067 rad/s.
#[test]
fn two_inertias_with_loads() -> Result<()> {
    let train = two(0.2, 1.5, 250.0)?;
    let shift = closed(&train, 200.0 * PER_RAD_S, [100.0, -40.0], 0.4)?;
    let settled = shift.figures.settled_at.context("it locks")?;
    close("time", settled, 0.2247191, 3e-7)?;
    // The same in full.
    let (effective, load): (f64, f64) = (0.3 / 1.7, (150.0 + 8.0) / 1.7);
    close("time", settled, effective * 200.0 / (250.0 - load), 1e-9)?;
    let heat = effective * 20_000.0 * 250.0 / (250.0 - load);
    close("heat", shift.figures.elements[0].heat, 5617.978, 2e-7)?;
    close("heat", shift.figures.elements[0].heat, heat, 1e-12)?;
    let (piece, later) = shift.at(settled).context("a piece")?;
    close("speed", piece.shaft_speed(0, later), 31.46067, 2e-7)?;
    close("torque once it holds", piece.torques[0].at, load, 1e-12)?;
    close(
        "peak power",
        shift.figures.elements[0].peak_power,
        250.0 * 200.0,
        1e-12,
    )
}

/// A clutch that holds less than TL never catches: the slip grows \[D\].
#[test]
fn too_weak_a_clutch_never_catches() -> Result<()> {
    let shift = closed(&two(0.2, 1.5, 92.0)?, 500.0, [100.0, -40.0], 2.0)?;
    ensure!(shift.figures.settled_at.is_none());
    let last = shift.pieces.last().context("a piece")?;
    ensure!(last.slip(0, last.length) > last.slip(0, 0.0));
    Ok(())
}

/// I 4 and 2 kg·m², 60 rev/min and 0: 40 rev/min in common, 8π²/3 J lost, as published \[Vi\].
#[test]
fn momentum_is_kept_where_nothing_acts() -> Result<()> {
    let shift = closed(&two(4.0, 2.0, 10.0)?, 60.0, [0.0, 0.0], 3.0)?;
    let last = shift.pieces.last().context("a piece")?;
    close(
        "speed",
        last.shaft_speed(1, last.length) * PER_RAD_S,
        40.0,
        1e-12,
    )?;
    let lost = 8.0 * std::f64::consts::PI.powi(2) / 3.0;
    close("loss", shift.figures.elements[0].heat, lost, 1e-12)?;
    for piece in &shift.pieces {
        for later in [0.0, piece.length / 3.0, piece.length] {
            let speeds = [0, 1].map(|shaft| piece.shaft_speed(shaft, later) * PER_RAD_S);
            close("momentum", 4.0 * speeds[0] + 2.0 * speeds[1], 240.0, 1e-12)?;
        }
    }
    Ok(())
}

/// 800 kg on 0.26 m and 1350 kg on 0.225 m, 650 rev/min apart (1250 and 600), 12.906 N·m: published 69947.66 J and
/// 159.22 s \[V\]; without the digits that its subtraction loses 69939.70 J and 159.225 s, at a torque that is printed
/// with five digits.
#[test]
fn two_flywheels() -> Result<()> {
    // Within ten seconds, as all is in proportion to the torque: twenty times as much.
    let train = two(800.0 * 0.26 * 0.26, 1350.0 * 0.225 * 0.225, 12.906 * 20.0)?;
    let shift = closed(&train, 650.0, [0.0, 0.0], 10.0)?;
    close(
        "time",
        shift.figures.settled_at.context("it locks")? * 20.0,
        159.225,
        4e-5,
    )?;
    close("loss", shift.figures.elements[0].heat, 69_939.70, 1e-7)
}

/// With a ramp from nothing the torque is linear in time, and the slip a parabola: Δω − c·t²/(2·Ie) for
/// capacity c·t, which is zero at t = √(2·Ie·Δω/c); heat is Ie·Δω²/2 as with any other course of the torque \[D\].
#[test]
fn a_ramp_instead_of_a_step() -> Result<()> {
    let train = two(0.2, 1.5, 400.0)?;
    let (dynamics, _) = Dynamics::of(&train);
    let plan = Plan {
        commands: vec![Command {
            element: 0,
            at: 0.25,
            ramp: 0.5,
        }],
        ..closed(&train, 100.0 * PER_RAD_S, [0.0, 0.0], 1.0)?.plan
    };
    let shift = Shift::of(&train, &dynamics, plan).map_err(|x| anyhow::anyhow!("{x:?}"))?;
    let (effective, rise): (f64, f64) = (0.3 / 1.7, 800.0);
    let expected = 0.25 + (2.0 * effective * 100.0 / rise).sqrt();
    close(
        "time",
        shift.figures.settled_at.context("it locks")?,
        expected,
        1e-9,
    )?;
    close(
        "heat",
        shift.figures.elements[0].heat,
        effective * 5000.0,
        1e-12,
    )?;
    // The time of a shift is counted from its first command.
    let duration = shift.figures.duration.context("it locks")?;
    close("duration", duration, expected - 0.25, 1e-9)
}

/// Found by random trains: hardly any torque is held at the end of a ramp from a large one, so that it is met
/// within the last digits of the time.
#[test]
fn a_ramp_that_ends_at_hardly_any_torque() -> Result<()> {
    let mut scenario = Sketch::new("s1", "s0")
        .stepped("g0", ("s1", 963), ("s2", 31), "s0", (66, 39))
        .clutch("e0", "s1", "s2")
        .to_json();
    scenario["dynamics"] = json!({"load_inertia": 10_f64.powf(-1.062327888154794), "shafts": [
        {"shaft": "s0", "inertia": 10_f64.powf(-2.528001398150381)},
        {"shaft": "s1", "inertia": 10_f64.powf(-0.6499008302052324)},
        {"shaft": "s2", "inertia": 10_f64.powf(-2.262857371002873)}]});
    let train = Train::parse(&scenario.to_string());
    let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let (dynamics, problems) = Dynamics::of(&train);
    ensure!(problems.is_empty(), "{problems:?}");
    let (from, to) = (ElementSet::from_bits(1), ElementSet::NONE);
    let plan = Plan {
        commands: vec![Command {
            element: 0,
            at: 0.0,
            ramp: 0.21904193029525562,
        }],
        input_torque: 222.08457766024668,
        output_torque: 158.32045895502762,
        ..Plan::usual(&train, &dynamics, from, to)
    };
    let shift = Shift::of(&train, &dynamics, plan);
    let shift = shift.map_err(|refusal| anyhow::anyhow!("{refusal:?}"))?;
    ensure!(shift.pieces.len() == 3, "{:?}", shift.pieces);
    Ok(())
}
