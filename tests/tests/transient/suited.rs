//! Commands that suit a shift, and shifts as plain data.

use anyhow::{Context, Result, ensure};
use levertrain_core::transient::{Dynamics, Plan, PlanReport, Reading, Shift, TransientReport};
use levertrain_core::{Fraction, Train};
use levertrain_tests::files;

/// rad/s to a rev/min.
const RAD_PER_S: f64 = std::f64::consts::PI / 30.0;

fn trains() -> Result<Vec<(String, Train)>> {
    let all = files::scenarios()?.into_iter().map(|file| {
        let train = Train::parse(&file.text).map_err(|x| anyhow::anyhow!("{x:?}"))?;
        Ok((file.stem, train))
    });
    all.collect()
}

/// How wrong a shift is: tie-up and flare, against the torque and speed at its input.
fn cost(shift: &Shift) -> f64 {
    let plan = &shift.plan;
    shift.marks.bind / plan.input_torque.abs() + shift.marks.flare / (plan.input_speed * RAD_PER_S)
}

/// Catches commands that flare or bind where a single swap under power to a smaller ratio needs neither, and ones that are worse
/// than the usual.
#[test]
fn upshifts_by_a_single_swap_neither_flare_nor_bind() -> Result<()> {
    let (mut upshifts, mut mended) = (0, 0);
    for (name, train) in trains()? {
        let (dynamics, _) = Dynamics::of(&train);
        let ranges = 0..train.scenario().ranges.len();
        let pairs = ranges
            .clone()
            .flat_map(|from| ranges.clone().map(move |to| (from, to)));
        for (from, to) in pairs.filter(|(from, to)| from != to) {
            let sets = [from, to].map(|range| train.range(range));
            let suited = Plan::suited(&train, &dynamics, sets[0], sets[1]);
            let usual = Plan::usual(&train, &dynamics, sets[0], sets[1]);
            let [suited, usual] = [suited, usual].map(|plan| Shift::of(&train, &dynamics, plan));
            let (Ok(suited), Ok(usual)) = (&suited, &usual) else {
                ensure!(suited.is_ok() == usual.is_ok(), "{name}: {from} to {to}");
                continue;
            };
            if usual.figures.settled_at.is_some() {
                ensure!(
                    suited.figures.settled_at.is_some(),
                    "{name}: {from} to {to}"
                );
                ensure!(cost(suited) <= cost(usual), "{name}: {from} to {to}");
            }
            let ratio = |set| train.solve(set).state().ratio().cloned();
            let (Some(before), Some(after)) = (ratio(sets[0]), ratio(sets[1])) else {
                continue;
            };
            let is_upshift = after > Fraction::ZERO && after < before;
            let single =
                usual.plan.commands.len() == 2 && usual.plan.released().iter().count() == 1;
            if is_upshift && single {
                upshifts += 1;
                mended += usize::from(usual.marks.bind > 0.0);
                ensure!(
                    suited.marks.bind == 0.0 && cost(suited) < 0.02,
                    "{name}, {from} to {to}: {:?}",
                    suited.marks
                );
            }
        }
    }
    ensure!(
        upshifts > 20 && mended > 10,
        "{upshifts} upshifts, {mended} mended"
    );
    Ok(())
}

/// Catches figures that are told of another element, phase or time than they are of, and speeds in another unit.
#[test]
fn what_is_told_of_a_shift_is_what_it_is() -> Result<()> {
    for (name, train) in trains()? {
        let (dynamics, _) = Dynamics::of(&train);
        if train.scenario().ranges.len() < 2 {
            continue;
        }
        let plan = Plan::usual(&train, &dynamics, train.range(0), train.range(1));
        let Ok(shift) = Shift::of(&train, &dynamics, plan) else {
            continue;
        };
        let told = TransientReport::of(&train, &shift);
        let heat: f64 = told.elements.iter().map(|x| x.heat).sum();
        ensure!(
            (heat - told.heat).abs() <= 1e-9 * told.heat.abs().max(1.0),
            "{name}: {heat}"
        );
        ensure!(told.phases.len() == shift.marks.phases.len(), "{name}");
        let commands = PlanReport::of(&train, &dynamics, &shift.plan).commands;
        for (told, command) in commands.iter().zip(&shift.plan.commands) {
            let element = &train.scenario().elements[command.element];
            ensure!(told.element == element.id(), "{name}");
            ensure!(
                told.applies == shift.plan.to.contains(command.element),
                "{name}"
            );
        }
        for time in [0.0, 0.2, 0.33, 0.7, shift.plan.until] {
            let reading = Reading::of(&train, &dynamics, &shift, time).context("it has pieces")?;
            let (piece, later) = shift.at(time).context("it has pieces")?;
            for (shaft, told) in reading.speeds.iter().enumerate() {
                let speed = piece.shaft_speed(shaft, later) / RAD_PER_S;
                ensure!(
                    (speed - told).abs() <= 1e-9 * speed.abs().max(1.0),
                    "{name}: {told}"
                );
            }
            let phase = told.phases.iter().find(|x| x.begin <= time && time < x.end);
            if let Some(phase) = phase {
                ensure!(
                    reading.phase == Some(phase.phase),
                    "{name} at {time}: {reading:?}"
                );
            }
        }
    }
    Ok(())
}
