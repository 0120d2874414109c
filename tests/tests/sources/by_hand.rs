//! Textbook relations of differentials and power splits, exactly. The source stands beside each.

use anyhow::{Context, Result, ensure};
use levertrain_core::sources::{Efforts, NoShares, Role, Shares, Speeds, standstills};

use super::{applied, fraction, scenario, shaft};

/// Twice the speed of the cage is the sum of both side speeds, and both sides take half its torque (R. L. Norton, *Design of
/// Machinery*, on automotive differentials, from memory).
#[test]
fn a_differential_adds_its_side_speeds_and_halves_its_torque() -> Result<()> {
    let (train, ports) = scenario("axle-differential")?;
    let open = applied(&train, &[])?;
    let [left, right] = [shaft(&train, "left")?, shaft(&train, "right")?];
    let speeds = Speeds::of(&train, open, &[left, right]);
    let half = fraction(1, 2)?;
    ensure!(speeds.freedom() == 2 && speeds.missing() == 0);
    ensure!(speeds.shaft(train.input()) == Some(&[half.clone(), half.clone()][..]));
    let efforts = Efforts::of(&train, open, &ports, &[0]);
    ensure!(efforts.given() == [0]);
    for (index, port) in ports.list.iter().enumerate().skip(1) {
        ensure!(port.machine.is_none() && efforts.port(index) == [-&half]);
    }
    // Locked, both turn as one, and how the torque is shared is open.
    let locked = applied(&train, &["H"])?;
    let speeds = Speeds::of(&train, locked, &[left, right]);
    ensure!(speeds.given() == [left] && speeds.ties()[0].by == [left]);
    ensure!(Efforts::of(&train, locked, &ports, &[0]).given().len() == 2);
    // Where one side stands still the other turns at twice the speed.
    let still = standstills(&train, open, &ports);
    ensure!(still.len() == 1 && still[0].ratio == fraction(2, 1)?);
    Ok(())
}

/// A set whose carrier drives gives its ring R/(R + S) of the torque and its sun S/(R + S): Tr = k·Ts, Tc = −(1 + k)·Ts with
/// k = R/S (Modelica Standard Library, `IdealPlanetary`, read there).
#[test]
fn a_centre_differential_splits_torque_as_its_teeth() -> Result<()> {
    let (train, ports) = scenario("centre-differential")?;
    let efforts = Efforts::of(&train, applied(&train, &[])?, &ports, &[0]);
    let [rear, front] = [ports.output(), 2];
    ensure!(ports.list[front].role == Role::Further);
    ensure!(efforts.port(rear) == [fraction(-76, 114)?]);
    ensure!(efforts.port(front) == [fraction(-38, 114)?]);
    Ok(())
}

/// Speed of the sun by Willis's equation, w(sun) = (1 + k)·w(carrier) − k·w(ring); it stands still where the ring turns
/// (1 + k)/k as fast as the carrier (R. Willis 1841, from memory).
#[test]
fn the_input_split_follows_willis() -> Result<()> {
    let (train, ports) = scenario("input-split")?;
    let open = applied(&train, &[])?;
    let speeds = Speeds::of(&train, open, &[train.input(), train.output()]);
    let sun = speeds.shaft(shaft(&train, "m1")?);
    ensure!(sun == Some(&[fraction(116, 34)?, fraction(-82, 34)?][..]));
    // The carrier of the second set is held: its sun turns −R/S times as fast as its ring.
    let second = speeds.shaft(shaft(&train, "m2")?);
    ensure!(second == Some(&[fraction(0, 1)?, fraction(-78, 30)?][..]));
    let still = standstills(&train, open, &ports);
    ensure!(still.len() == 1 && still[0].port == 1 && still[0].ratio == fraction(116, 82)?);
    Ok(())
}

/// In an input split whose first motor generates, that takes the part S·w(sun)/((R + S)·w(carrier)) of the input's power, and of
/// that η² comes back (derived from the torques of the set).
#[test]
fn the_part_through_motors_and_what_is_lost_in_it() -> Result<()> {
    let (train, ports) = scenario("input-split")?;
    let open = applied(&train, &[])?;
    let efficiency = 0.92_f64;
    for ratio in [0.1, 0.5, 1.0, 1.3] {
        let share =
            Shares::at(&train, open, &ports, ratio).map_err(|no| anyhow::anyhow!("{no:?}"))?;
        let share = share.context("a balance")?;
        let part = 34.0 / 116.0 * (116.0 - 82.0 * ratio) / 34.0;
        let lost = part * (1.0 - efficiency * efficiency);
        let expected = [1.0, -part, part * efficiency * efficiency, lost - 1.0];
        for (actual, expected) in share.powers.iter().zip(expected) {
            ensure!(
                (actual - expected).abs() < 1e-12,
                "{:?} at {ratio}",
                share.powers
            );
        }
        let actual = share.efficiency.context("an efficiency")?;
        ensure!((actual - (1.0 - lost)).abs() < 1e-12, "{actual} at {ratio}");
    }
    // Beyond the ratio at which the first motor stands still it drives, and the second generates: power goes round.
    let beyond = Shares::at(&train, open, &ports, 1.8).map_err(|no| anyhow::anyhow!("{no:?}"))?;
    let beyond = beyond.context("a balance")?;
    ensure!(
        beyond.powers[1] > 0.0 && beyond.powers[2] < 0.0,
        "{beyond:?}"
    );
    let electric = beyond.powers[1] / efficiency + beyond.powers[2] * efficiency;
    ensure!(electric.abs() < 1e-12, "{electric}");
    Ok(())
}

/// A compound split has two ratios at which one motor stands still, and nothing is lost there (derived: the rows of both
/// sets with one speed at zero).
#[test]
fn a_compound_split_has_two_mechanical_points() -> Result<()> {
    let (train, ports) = scenario("two-mode-split")?;
    let first = standstills(&train, applied(&train, &["V"])?, &ports);
    ensure!(
        first.len() == 1 && first[0].ratio == fraction(41, 60)?,
        "{first:?}"
    );
    let second = applied(&train, &["H"])?;
    let still = standstills(&train, second, &ports);
    // R1·w = ((R1 + S1) − S1·(R2 + S2)/R2)·w(out) with the second motor at rest.
    let ratio = fraction(82 * 76, 82 * 76 - 38 * 32)?;
    let ratios: Vec<_> = still.iter().map(|still| still.ratio.clone()).collect();
    ensure!(ratios == [fraction(41, 60)?, ratio], "{ratios:?}");
    let shares = Shares::of(&train, second, &ports).map_err(|no| anyhow::anyhow!("{no:?}"))?;
    for still in still {
        let at = still.ratio.to_f64();
        let point = shares
            .points
            .iter()
            .find(|point| point.ratio == at)
            .context("its point")?;
        ensure!((point.efficiency.context("one")? - 1.0).abs() < 1e-12);
        ensure!(
            point.powers[1].abs() + point.powers[2].abs() < 1e-12,
            "{point:?}"
        );
    }
    let lost =
        |point: &levertrain_core::sources::Share| point.efficiency.is_some_and(|x| x > 1.0 + 1e-12);
    ensure!(
        !shares.points.iter().any(lost),
        "more comes out than goes in"
    );
    // With both applied nothing is open; with none three speeds are.
    let refused = |ids: &[&str]| -> Result<Option<NoShares>> {
        Ok(Shares::of(&train, applied(&train, ids)?, &ports).err())
    };
    ensure!(refused(&["V", "H"])? == Some(NoShares::Freedom(1)));
    ensure!(refused(&[])? == Some(NoShares::Freedom(3)));
    Ok(())
}
