//! What holds for any vehicle: power is kept, nothing pulls past the fastest speed or up a steeper slope.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::traction::{Ask, Between, Rule, Traction};
use levertrain_tests::files::{json_files, root};
use levertrain_tests::worst;
use serde_json::{Value, json};

use crate::found;

/// W per N·m and rev/min.
const WATTS: f64 = std::f64::consts::PI / 30.0;

/// Every scenario with an engine, in several ways.
fn all() -> Result<Vec<(String, Traction)>> {
    let mut all = Vec::new();
    for file in json_files(&root().join("scenarios"))? {
        let Ok(train) = Train::parse(&file.text) else {
            continue;
        };
        let Some(engine) = &train.scenario().engine else {
            continue;
        };
        let last = engine.full.last().context("a last point")?[0];
        for (locked_from, rule, mesh_efficiency) in [
            (None, Rule::Force, 0.985),
            (Some(1), Rule::Force, 0.99),
            (Some(0), Rule::EngineSpeed(0.8 * last), 0.97),
            (None, Rule::EngineSpeed(last), 1.0),
        ] {
            let asked = Ask {
                mesh_efficiency,
                locked_from,
                rule,
                targets: vec![10.0, 20.0, 30.0],
            };
            all.push((format!("{} {asked:?}", file.stem), found(&train, asked)?));
        }
    }
    ensure!(all.len() >= 12, "some scenarios have an engine");
    Ok(all)
}

/// At a speed: what the engine gives is what slips away, what the meshes take and what arrives at the wheels. Over a
/// run: what it gave is what went those ways, what the road took and what the masses have.
#[test]
fn power_and_energy_are_kept() -> Result<()> {
    let mut runs = 0;
    for (name, found) in all()? {
        for pull in &found.pulls {
            let (first, last) = pull.reach().context("a reach")?;
            for part in [0.02, 0.3, 0.6, 0.97] {
                let at = pull.at(first + part * (last - first)).context("a force")?;
                let engine = WATTS * at.driven.engine_speed * at.driven.engine_torque;
                let input = WATTS * at.driven.input_speed * at.driven.input_torque;
                let wheels = at.force * at.speed;
                ensure!(
                    (input * pull.efficiency - wheels).abs() <= 1e-12 * engine,
                    "{name}"
                );
                ensure!(engine - input >= -1e-12 * engine, "{name}: {at:?}");
                if at.between == Between::Nothing {
                    ensure!(engine == input, "{name}");
                }
            }
        }
        if let Ok(run) = &found.run {
            let energy = run.energy;
            let ways = energy.between + energy.gears + energy.road + energy.masses;
            ensure!(
                (energy.engine - ways).abs() <= 1e-9 * energy.engine,
                "{name}: {energy:?}, {ways}"
            );
            ensure!(energy.gears >= 0.0 && energy.between >= 0.0 && energy.engine > 0.0);
            runs += 1;
        }
    }
    ensure!(runs >= 12);
    Ok(())
}

#[test]
fn nothing_is_faster_or_climbs_more() -> Result<()> {
    for (name, found) in all()? {
        let vehicle = &found.vehicle;
        for pull in &found.pulls {
            let (first, last) = pull.reach().context("a reach")?;
            let top = pull.top();
            let climb = pull.climb().context("a slope")?;
            if let Some(top) = top.filter(|top| !top.at_engine_limit) {
                let road = vehicle.level(top.at.speed);
                ensure!(
                    (top.at.force - road).abs() <= 1e-9 * road,
                    "{name}: {top:?}"
                );
            }
            if climb.slope.is_finite() {
                let road = vehicle.resistance(climb.at.speed, climb.slope);
                ensure!(
                    (climb.at.force - road).abs() <= 1e-9 * road,
                    "{name}: {climb:?}"
                );
            }
            let sine = climb.slope / (1.0 + climb.slope * climb.slope).sqrt();
            for step in 0..=2000 {
                let speed = first + (last - first) * f64::from(step) / 2000.0;
                let Some(at) = pull.at(speed) else { continue };
                let spare = at.force - vehicle.level(speed);
                if let Some(top) = top
                    && speed > top.at.speed * (1.0 + 1e-9)
                {
                    ensure!(spare < 0.0, "{name}: faster at {speed}, {top:?}");
                }
                let lifts = spare / vehicle.weight();
                ensure!(
                    climb.slope.is_infinite() || lifts <= sine + 1e-12,
                    "{name}: {speed}"
                );
            }
        }
    }
    Ok(())
}

/// Times and distances rise, shifts go to smaller ratios, and speeds that were asked for stand among the moments.
#[test]
fn a_run_goes_forward() -> Result<()> {
    for (name, found) in all()? {
        let Ok(run) = &found.run else { continue };
        for pair in run.course.windows(2) {
            let rises = pair[0].time < pair[1].time && pair[0].distance < pair[1].distance;
            ensure!(rises && pair[0].speed < pair[1].speed, "{name}: {pair:?}");
        }
        for change in &run.changes {
            let ratio = |range| {
                found
                    .pulls
                    .iter()
                    .find(|x| x.range == range)
                    .map(|x| x.ratio)
            };
            ensure!(ratio(change.from) > ratio(change.to), "{name}: {change:?}");
            ensure!(run.course.contains(&change.at), "{name}");
        }
        ensure!(run.course.last() == Some(&run.last), "{name}");
    }
    Ok(())
}

/// The largest files with an engine whose curve goes up and down, a table that does, and a road that is nothing, all, or in
/// between: whatever there is of a run keeps its energy, and nothing goes on for ever.
#[test]
fn the_largest_files_are_driven_as_well() -> Result<()> {
    let mut runs = 0;
    for (index, file) in worst::files().into_iter().enumerate() {
        let roads = [(0.0, 0.0), (1e-3, 1e-6), (2.0, 0.01), (90_000.0, 100.0)];
        // Settling these takes a test's compiler long, and has tests of its own.
        let is_long = ["one-way clutches across", "the same and clutches"].contains(&file.name);
        for (constant, quadratic) in roads.into_iter().filter(|_| !is_long) {
            let mut scenario: Value = serde_json::from_str(&file.text)?;
            let wave = |x: u32| f64::from(x % 3) * 20.0;
            let full: Vec<_> = (0..32)
                .map(|x| [800.0 + 200.0 * f64::from(x), 150.0 + wave(x)])
                .collect();
            let table: Vec<_> = (0..32)
                .map(|x| {
                    let ratio = f64::from(x) / 33.0;
                    [
                        ratio,
                        (2.0 - ratio).min(0.95 / ratio.max(0.1)).max(1.0),
                        140.0 + wave(x + 1),
                    ]
                })
                .collect();
            scenario["engine"] =
                json!({"label": "E", "full": full, "motoring": [[800, -20], [7000, -60]]});
            scenario["load"] = json!({"label": "R", "constant": constant, "linear": 0, "quadratic": quadratic, "weight": 1000});
            if index % 2 == 0 {
                scenario["converter"] = json!({"label": "C", "table": table});
            }
            let train = Train::parse(&scenario.to_string());
            let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
            let found = found(
                &train,
                Ask {
                    mesh_efficiency: 1.0,
                    locked_from: None,
                    rule: Rule::Force,
                    targets: (1..60).map(f64::from).collect(),
                },
            )?;
            ensure!(found.pulls.len() + found.idle.len() == train.scenario().ranges.len());
            let Ok(run) = &found.run else { continue };
            let energy = run.energy;
            let ways = energy.between + energy.gears + energy.road + energy.masses;
            ensure!(
                (energy.engine - ways).abs() <= 1e-9 * energy.engine,
                "{}: {energy:?}, {ways}",
                file.name
            );
            ensure!(
                run.course.iter().all(|moment| moment.time.is_finite()),
                "{}",
                file.name
            );
            runs += 1;
        }
    }
    ensure!(runs >= 3, "{runs}");
    Ok(())
}
