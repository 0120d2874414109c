//! How a train stands while speeds and torques are set by hand.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_core::sources::{RegionReport, SharesReport, Stand, StandReport, Tie};

use super::{applied, scenario, shaft};

fn stand(name: &str, ids: &[&str], speed: f64) -> Result<(Train, Stand)> {
    let (train, ports) = scenario(name)?;
    let set = applied(&train, ids)?;
    let stand = Stand::of(&train, set, ports, speed);
    Ok((train, stand))
}

/// Nothing is left open, the powers of all ports add up to nothing, and speeds are as Willis's equation of each set says.
fn check_whole(train: &Train, stand: &Stand) -> Result<()> {
    ensure!(stand.speeds().missing() == 0);
    let powers: Vec<f64> = (0..stand.ports().list.len())
        .map(|port| stand.power(port))
        .collect();
    let largest = powers
        .iter()
        .fold(1.0, |most: f64, power| most.max(power.abs()));
    ensure!(
        powers.iter().sum::<f64>().abs() < 1e-9 * largest,
        "{powers:?}"
    );
    let at = |id: &str| shaft(train, id).map(|shaft| stand.turns()[shaft]);
    let residual = 34.0 * at("m1")? + 82.0 * at("out")? - 116.0 * at("eng")?;
    ensure!(residual.abs() < 1e-6, "{residual}");
    ensure!((30.0 * at("m2")? + 78.0 * at("out")?).abs() < 1e-6);
    Ok(())
}

#[test]
fn what_is_kept_stays_and_the_rest_follows() -> Result<()> {
    let (train, mut stand) = stand("input-split", &[], 2000.0)?;
    check_whole(&train, &stand)?;
    let [engine, output, first] = [train.input(), train.output(), shaft(&train, "m1")?];
    ensure!(stand.turns()[engine] == 2000.0 && stand.turns()[output] == 2000.0);
    ensure!(stand.turn(&train, first, -500.0).is_ok());
    check_whole(&train, &stand)?;
    ensure!(stand.turns()[engine] == 2000.0 && stand.turns()[first] == -500.0);
    // With the engine and the motor kept nothing is left to be turned.
    stand.keep(&train, first, true);
    let refused = stand.turn(&train, output, 0.0).err();
    ensure!(
        refused
            == Some(Tie {
                shaft: output,
                by: vec![first, engine]
            }),
        "{refused:?}"
    );
    let decided = stand.decided(&train);
    let moves: Vec<bool> = decided.iter().map(Option::is_none).collect();
    let can = |id: &str| shaft(&train, id).map(|shaft| moves[shaft]);
    ensure!(can("eng")? && can("m1")? && !can("m2")? && !can("out")?);
    // One that is kept can be turned itself: then the other stays, and the output follows.
    ensure!(stand.turn(&train, first, 300.0).is_ok());
    ensure!(stand.turns()[engine] == 2000.0 && stand.turns()[first] == 300.0);
    stand.keep(&train, engine, false);
    ensure!(stand.turn(&train, output, 900.0).is_ok());
    check_whole(&train, &stand)?;
    ensure!(stand.turns()[first] == 300.0 && stand.turns()[engine] != 2000.0);
    Ok(())
}

#[test]
fn elements_that_are_applied_take_freedom_away() -> Result<()> {
    let (train, mut stand) = stand("input-split", &[], 1500.0)?;
    stand.apply(&train, applied(&train, &["V"])?);
    check_whole(&train, &stand)?;
    let first = shaft(&train, "m1")?;
    ensure!(stand.turns()[first] == 0.0 && stand.turns()[train.input()] == 1500.0);
    ensure!(
        stand.turn(&train, first, 100.0).err()
            == Some(Tie {
                shaft: first,
                by: vec![]
            })
    );
    stand.apply(&train, applied(&train, &[])?);
    check_whole(&train, &stand)?;
    ensure!(stand.turns()[train.input()] == 1500.0);
    Ok(())
}

/// All turn alike, and the output takes what the engine gives: nothing is left for the motors.
#[test]
fn at_first_motors_have_nothing_to_do_where_they_need_not() -> Result<()> {
    let (_, stand) = stand("input-split", &["H"], 1500.0)?;
    let torques = stand.torques();
    ensure!(torques[0] == 100.0 && torques[3] == -100.0, "{torques:?}");
    ensure!(torques[1].abs() + torques[2].abs() < 1e-9, "{torques:?}");
    Ok(())
}

#[test]
fn motors_balance_each_other_or_do_not() -> Result<()> {
    let (train, mut stand) = stand("input-split", &[], 2000.0)?;
    ensure!(stand.is_balanced() == Some(true));
    for speed in [-300.0, 0.0, 700.0, 2829.27, 3500.0] {
        ensure!(stand.turn(&train, train.output(), speed).is_ok());
        check_whole(&train, &stand)?;
        let scale = stand.power(1).abs().max(1.0);
        ensure!(
            stand.electric().abs() < 1e-9 * scale,
            "{} W",
            stand.electric()
        );
    }
    stand.balance(false);
    let output = stand.ports().output();
    stand.push(output, -80.0);
    stand.push(0, 50.0);
    // A torque that follows cannot be set.
    stand.push(1, 999.0);
    check_whole(&train, &stand)?;
    // The sun takes S/(R + S) of the carrier's torque.
    ensure!(
        (stand.torques()[1] + 50.0 * 34.0 / 116.0).abs() < 1e-9,
        "{:?}",
        stand.torques()
    );
    ensure!(stand.torques()[output] == -80.0 && stand.electric() != 0.0);
    Ok(())
}

#[test]
fn a_train_with_one_source_has_free_members_in_neutral() -> Result<()> {
    let (train, mut stand) = stand("six-speed-three-sets", &[], 1000.0)?;
    let free = stand
        .decided(&train)
        .iter()
        .filter(|by| by.is_none())
        .count();
    ensure!(free > 2, "{free}");
    let output = train.output();
    ensure!(stand.turns()[output] == 0.0);
    ensure!(stand.turn(&train, output, 400.0).is_ok());
    ensure!(stand.turns()[output] == 400.0 && stand.turns()[train.input()] == 1000.0);
    Ok(())
}

#[test]
fn reports_say_who_feeds_and_what_is_beyond_limits() -> Result<()> {
    let (train, mut stand) = stand("input-split", &[], 2000.0)?;
    ensure!(stand.turn(&train, train.output(), 1000.0).is_ok());
    let does = |stand: &Stand| -> Vec<&'static str> {
        let ports = StandReport::of(&train, stand).ports;
        ports.iter().map(|port| port.does).collect()
    };
    ensure!(
        does(&stand) == ["feeds", "fed", "feeds", "fed"],
        "{:?}",
        does(&stand)
    );
    ensure!(stand.turn(&train, train.output(), 3600.0).is_ok());
    ensure!(
        does(&stand) == ["feeds", "feeds", "fed", "fed"],
        "{:?}",
        does(&stand)
    );
    ensure!(stand.turn(&train, shaft(&train, "m1")?, 0.0).is_ok());
    ensure!(does(&stand)[1] == "still", "{:?}", does(&stand));
    ensure!(stand.turn(&train, train.input(), 5300.0).is_ok());
    let report = StandReport::of(&train, &stand);
    ensure!(
        report.ports[0].beyond.contains(&"speed"),
        "{:?}",
        report.ports[0]
    );
    let formula = &report.shafts[shaft(&train, "m1")?].formula;
    ensure!(report.freedom == 2 && formula.len() <= 2);
    ensure!(RegionReport::of(&train, &stand).refused == Some("too-fast"));
    ensure!(stand.turn(&train, train.input(), 2300.0).is_ok());
    ensure!(RegionReport::of(&train, &stand).refused.is_none());
    ensure!(SharesReport::of(&train, &stand).points.len() > 100);
    Ok(())
}
