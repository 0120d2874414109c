//! A gear train as the operating point sees it: a ratio and what the losses leave.

use super::NoPower;
use crate::load::losses::{LossModel, Lossy};
use crate::solve::Combination;
use crate::solve::settle::Duty;

/// A train that drives.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Gear {
    /// Input speed over output speed.
    pub(crate) ratio: f64,
    /// Power out over power in while the input drives.
    pub(crate) driving: f64,
    /// The same while the load drives the input; none where it cannot.
    pub(crate) coasting: Option<f64>,
}

/// A train that passes no power.
pub(crate) struct NoGear(pub(crate) NoPower);

impl Gear {
    /// Ratio and efficiencies of a combination settled for drive.
    pub(crate) fn of(combination: &Combination<'_>, mesh: f64) -> Result<Self, NoGear> {
        let ratio = combination
            .state()
            .ratio()
            .ok_or(NoGear(NoPower::NoDrive))?;
        let driving = efficiency(combination, mesh, false)?;
        // Coasting, a one-way clutch may let go of what it held.
        let train = combination.train();
        let applied = combination.applied().minus(train.one_ways());
        let coast = train.settle(applied, Duty::Coast).combination;
        let same = coast.state().ratio() == Some(ratio);
        let coasting = same.then(|| efficiency(&coast, mesh, true).ok()).flatten();
        Ok(Self {
            ratio: ratio.to_f64(),
            driving,
            coasting,
        })
    }

    /// Torque on the output for a torque at the input; coasting, where the train lets it.
    pub(crate) fn output_torque(&self, input: f64) -> f64 {
        self.ratio * self.gain(input < 0.0) * input
    }

    /// What the losses multiply the torque by on its way from input to output.
    pub(crate) fn gain(&self, coasting: bool) -> f64 {
        match coasting {
            false => self.driving,
            true => self.coasting.map_or(f64::NAN, f64::recip),
        }
    }
}

fn efficiency(combination: &Combination<'_>, mesh: f64, coasting: bool) -> Result<f64, NoGear> {
    // Without losses nothing needs to be known about the way the power goes.
    if mesh == 1.0 {
        return Ok(1.0);
    }
    let model = LossModel {
        mesh_efficiency: mesh,
        drag: 0.0,
        coasting,
    };
    match Lossy::of(combination, &model) {
        Some(Lossy::Drives(torques)) => Ok(torques.efficiency),
        Some(Lossy::SelfLocking) => Err(NoGear(NoPower::SelfLocking)),
        Some(Lossy::Ambiguous(_)) => Err(NoGear(NoPower::Ambiguous)),
        Some(Lossy::Indeterminate) => Err(NoGear(NoPower::Indeterminate)),
        Some(Lossy::TooMany) => Err(NoGear(NoPower::TooMany)),
        None => Err(NoGear(NoPower::NoDrive)),
    }
}
