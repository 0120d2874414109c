//! Points worked out by hand.

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::traction::{Between, End, NoRun, Rule, Traction};
use serde_json::json;

use crate::{ask, found, small};

#[track_caller]
fn close(actual: f64, expected: f64, digits: i32) {
    let allowed = 10_f64.powi(-digits) * expected.abs();
    assert!(
        (actual - expected).abs() <= allowed,
        "{actual}, by hand {expected}"
    );
}

/// 100 N·m from 1000 to 5000 rev/min, and a road that asks 20 N·m at the output at any speed.
fn level_torque() -> Result<Train> {
    let load =
        json!({"label": "Road", "constant": 20, "linear": 0, "quadratic": 0, "weight": 1000});
    small(&[[1000.0, 100.0], [5000.0, 100.0]], load)
}

/// In range 1 the ratio is 4: 100 · 4 = 400 N·m at the output, 4000 N at the wheels; the road asks 20/0.1 = 200 N. The
/// weight is 1000/0.1 = 10 000 N, so that the sine of the steepest slope is 3800/10 000 and the slope 0.38/√(1 − 0.38²).
/// 5000 rev/min at the input are 1250 at the output, 130.8997 rad/s and 13.08997 m/s; in range 2 four times that.
#[test]
fn force_top_speed_and_slope() -> Result<()> {
    let found = found(&level_torque()?, ask())?;
    let [one, two] = [&found.pulls[0], &found.pulls[1]];
    close(one.at(8.0).context("a force")?.force, 4000.0, 12);
    close(two.at(30.0).context("a force")?.force, 1000.0, 12);
    close(found.vehicle.level(8.0), 200.0, 12);
    close(
        found.vehicle.resistance(8.0, 0.75),
        200.0 + 10_000.0 * 0.6,
        12,
    );
    close(found.vehicle.mass(), 10_000.0 / 9.80665, 12);
    let top = one.top().context("a top speed")?;
    ensure!(top.at_engine_limit);
    close(top.at.speed, 13.089_969_389_957_47, 12);
    close(
        two.top().context("a top speed")?.at.speed,
        52.359_877_559_829_89,
        12,
    );
    close(
        one.climb().context("a slope")?.slope,
        0.38 / (1.0_f64 - 0.38 * 0.38).sqrt(),
        12,
    );
    ensure!(found.fastest() == Some(1) && found.order == [0, 1]);
    // Below the engine's lowest speed the clutch slips; beyond its last there is nothing.
    let slipping = one.at(1.0).context("a force")?;
    ensure!(slipping.between == Between::Slipping && slipping.driven.engine_speed == 1000.0);
    ensure!(one.at(13.2).is_none());
    Ok(())
}

/// At the output, in kg·m²: 10 behind it, 0.5 the carrier, and in range 1 the ring stands; at the input 0.05, with the
/// engine 0.25. While the clutch slips, up to 1000/4 rev/min, 2.617994 m/s, 10.5 + 16 · 0.05 = 11.3 are sped up, 1130 kg at
/// the wheels, by 3800 N: 3.362832 m/s², 0.778508 s. Then 10.5 + 16 · 0.25 = 14.5, 1450 kg, 2.620690 m/s², up to
/// 13.08997 m/s in (13.08997 − 2.617994)/2.620690 = 3.995886 s more. In range 2 the ring turns along: 10.5 + 0.02 + 0.25 =
/// 10.77, 1077 kg, by 1000 − 200 N: 0.742804 m/s²; from 13.08997 to 52.35988 m/s that takes 52.867131 s.
#[test]
fn a_run_of_three_level_forces() -> Result<()> {
    let mut asked = ask();
    asked.targets = vec![2.0, 20.0];
    let found = found(&level_torque()?, asked)?;
    let run = found.run.map_err(|why| anyhow::anyhow!("{why:?}"))?;
    let [shift] = &run.changes[..] else {
        anyhow::bail!("{:?}", run.changes);
    };
    ensure!(shift.at_engine_limit && (shift.from, shift.to) == (0, 1));
    let slipping = 2.617_993_877_991_494 / (3800.0 / 1130.0);
    let first = slipping + 10.471_975_511_965_976 / (3800.0 / 1450.0);
    close(shift.at.time, first, 10);
    close(shift.at.time, 4.774_394, 6);
    // ½·v·t while it slips, and the mean of both speeds after that.
    let distance = 2.617_993_877_991_494 / 2.0 * slipping
        + (2.617_993_877_991_494 + 13.089_969_389_957_47) / 2.0 * (first - slipping);
    close(shift.at.distance, distance, 10);
    close(run.targets[0].time, 2.0 / (3800.0 / 1130.0), 10);
    close(
        run.targets[1].time,
        first + (20.0 - 13.089_969_389_957_47) / (800.0 / 1077.0),
        10,
    );
    ensure!(matches!(run.end, End::EngineLimit(speed) if (speed - 52.359_877_56).abs() < 1e-8));
    close(
        run.last.time,
        first + 39.269_908_169_872_42 / (800.0 / 1077.0),
        10,
    );
    Ok(())
}

/// Torque falls from 200 N·m at 1000 rev/min to 0 at 5000: T = 200 − (N − 1000)/20. With No the output's speed, range 1
/// gives 4 · (200 − (4·No − 1000)/20) = 1000 − 0.8·No and range 2 200 − (No − 1000)/20 = 250 − 0.05·No: equal at
/// No = 1000. There range 2 just begins to hold without slipping: v = 1000 · π/30 · 0.1 = 10.471976 m/s.
/// The road asks 50 N·m: range 2 is in balance at 250 − 0.05·No = 50, No = 4000, 41.887902 m/s.
#[test]
fn shifts_where_forces_cross_or_at_an_engine_speed() -> Result<()> {
    let load =
        json!({"label": "Road", "constant": 50, "linear": 0, "quadratic": 0, "weight": 1000});
    let train = small(&[[1000.0, 200.0], [5000.0, 0.0]], load)?;
    let changes = |found: &Traction| -> Result<Vec<(f64, f64, bool)>> {
        let run = found
            .run
            .as_ref()
            .map_err(|why| anyhow::anyhow!("{why:?}"))?;
        let changes = run.changes.iter();
        Ok(changes
            .map(|x| (x.at.speed, x.before.driven.engine_speed, x.at_engine_limit))
            .collect())
    };
    let by_force = found(&train, ask())?;
    let [(speed, engine, false)] = changes(&by_force)?[..] else {
        anyhow::bail!("{:?}", by_force.run);
    };
    close(speed, 10.471_975_511_965_976, 9);
    close(engine, 4000.0, 9);
    let run = by_force
        .run
        .as_ref()
        .map_err(|why| anyhow::anyhow!("{why:?}"))?;
    ensure!(matches!(run.end, End::Balance(speed) if (speed - 41.887_902_047_863_9).abs() < 1e-9));
    // At 4500 rev/min in range 1 the vehicle goes 4500/4 · π/30 · 0.1 m/s.
    let mut asked = ask();
    asked.rule = Rule::EngineSpeed(4500.0);
    let [(speed, engine, false)] = changes(&found(&train, asked)?)?[..] else {
        anyhow::bail!("one shift");
    };
    close(speed, 11.780_972_450_961_723, 10);
    close(engine, 4500.0, 10);
    Ok(())
}

/// 410 N·m of road against 400 from the first range; and a range that no road lets move.
#[test]
fn a_road_that_is_too_much() -> Result<()> {
    let load =
        json!({"label": "Road", "constant": 410, "linear": 0, "quadratic": 0, "weight": 1000});
    let found = found(&small(&[[1000.0, 100.0], [5000.0, 100.0]], load)?, ask())?;
    ensure!(found.run == Err(NoRun::LoadTooGreat));
    ensure!(found.pulls.iter().all(|pull| pull.top().is_none()));
    // It holds its speed only downhill: (400 − 410)/1000.
    let slope = found.pulls[0].climb().context("a slope")?.slope;
    close(slope, -0.01 / (1.0_f64 - 0.0001).sqrt(), 9);
    Ok(())
}

/// Without a weight there is no slope to speak of; with little of it any is climbed.
#[test]
fn weights() -> Result<()> {
    let of = |weight: f64| -> Result<Option<f64>> {
        let load =
            json!({"label": "Road", "constant": 0, "linear": 0, "quadratic": 0, "weight": weight});
        let found = found(&small(&[[1000.0, 100.0], [5000.0, 100.0]], load)?, ask())?;
        Ok(found.pulls[0].climb().map(|climb| climb.slope))
    };
    ensure!(of(0.0)?.is_none());
    ensure!(of(399.0)? == Some(f64::INFINITY) && of(401.0)?.is_some_and(f64::is_finite));
    Ok(())
}
