//! How the power of the input divides between gears and motors, over the ratio of output to input speed.
//!
//! In `f64`, as an efficiency is empirical. A motor that takes electric power P gives η·P at its shaft, and one that is turned with P gives
//! η·P electric power, η being the same either way and at any speed.

use super::data::Ports;
use super::efforts::Efforts;
use super::speeds::Speeds;
use super::standstill::{Standstill, standstills};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// How many steps the ratios are divided into.
const STEPS: u32 = 240;
/// Beyond this share through motors nothing is shown: near a ratio that no torque reaches shares grow without end.
const MOST: f64 = 50.0;

/// Shares of power over the ratio.
#[derive(Debug, Clone, PartialEq)]
pub struct Shares {
    /// In order of their ratios; a ratio at which nothing balances has none.
    pub points: Vec<Share>,
    /// Where ports stand still.
    pub standstills: Vec<Standstill>,
    /// Whether the motors balance each other, without a battery.
    pub is_balanced: bool,
}

/// The shares at one ratio.
#[derive(Debug, Clone, PartialEq)]
pub struct Share {
    /// Output speed over input speed.
    pub ratio: f64,
    /// Power of each port over that of the input, positive where it feeds the train.
    pub powers: Vec<f64>,
    /// Torque of each port over that of the input.
    pub torques: Vec<f64>,
    /// Power at the outputs over that of the input; `None` where a battery gives or takes.
    pub efficiency: Option<f64>,
}

/// Why there are no shares over the ratio.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoShares {
    /// Input and output do not decide all speeds, or not independently; so many degrees of freedom there are.
    Freedom(usize),
    /// So many torques more than the input's could be chosen.
    Torques(usize),
    /// The input carries no torque.
    Idle,
}

impl Shares {
    /// The shares of a combination, with motors of these efficiencies.
    ///
    /// One torque being the input's, at most one more may be open, and that only with two motors: then it is such that the
    /// electric powers of both add up to nothing.
    ///
    /// # Errors
    /// See [`NoShares`].
    pub fn of(train: &Train, applied: ElementSet, ports: &Ports) -> Result<Self, NoShares> {
        let split = Split::of(train, applied, ports)?;
        let standstills = standstills(train, applied, ports);
        let far = standstills.iter().map(|still| still.ratio.to_f64());
        let high = far.clone().fold(1.0, f64::max) * 1.4;
        let low = far.fold(-0.25 * high, f64::min);
        let mut ratios: Vec<f64> = (0..=STEPS)
            .map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS))
            .chain(standstills.iter().map(|still| still.ratio.to_f64()))
            .chain([0.0])
            .collect();
        ratios.sort_by(f64::total_cmp);
        ratios.dedup();
        let shown = |share: &Share| share.powers.iter().all(|power| power.abs() <= MOST);
        let points = ratios.into_iter().filter_map(|ratio| split.at(ratio));
        Ok(Self {
            points: points.filter(shown).collect(),
            standstills,
            is_balanced: split.is_balanced(),
        })
    }

    /// The shares at one ratio of output to input speed.
    ///
    /// # Errors
    /// See [`NoShares`].
    pub fn at(
        train: &Train,
        applied: ElementSet,
        ports: &Ports,
        ratio: f64,
    ) -> Result<Option<Share>, NoShares> {
        Ok(Split::of(train, applied, ports)?.at(ratio))
    }
}

/// What a ratio decides.
struct Split {
    /// Of each port its speed, in parts of the input's and of the output's.
    speeds: Vec<[f64; 2]>,
    /// Of each port its torque, in parts of the input's and of the open one.
    torques: Vec<[f64; 2]>,
    /// The two motors that balance each other, with their efficiencies, where a torque is open.
    motors: Option<[(usize, f64); 2]>,
}

impl Split {
    fn of(train: &Train, applied: ElementSet, ports: &Ports) -> Result<Self, NoShares> {
        let speeds = Speeds::of(train, applied, &[train.input(), train.output()]);
        let freedom = speeds.freedom();
        let ends = speeds.given() == [train.input(), train.output()];
        if freedom != 2 || !ends {
            return Err(NoShares::Freedom(freedom));
        }
        let efforts = Efforts::of(train, applied, ports, &[0]);
        if efforts.given().first() != Some(&0) {
            return Err(NoShares::Idle);
        }
        let motors = match (efforts.given().len() - 1, &ports.motors()[..]) {
            (0, _) => None,
            (1, &[first, second]) => Some([first, second].map(|port| {
                let machine = ports.list[port].machine;
                (
                    port,
                    machine.map_or(1.0, |machine| machine.efficiency.value),
                )
            })),
            (open, _) => return Err(NoShares::Torques(open)),
        };
        let pair = |factors: &[levertrain_exact::Fraction]| {
            let at = |index: usize| factors.get(index).map_or(0.0, |factor| factor.to_f64());
            [at(0), at(1)]
        };
        let list = ports.list.iter();
        Ok(Self {
            speeds: list
                .map(|port| pair(speeds.shaft(port.shaft).unwrap_or_default()))
                .collect(),
            torques: (0..ports.list.len())
                .map(|port| pair(efforts.port(port)))
                .collect(),
            motors,
        })
    }

    fn is_balanced(&self) -> bool {
        self.motors.is_some()
    }

    /// The shares at a ratio, if anything balances there. Where two torques do, that with less loss is taken.
    fn at(&self, ratio: f64) -> Option<Share> {
        let speeds: Vec<f64> = (self.speeds.iter())
            .map(|[input, output]| input + output * ratio)
            .collect();
        let power = |port: usize, open: f64| {
            let [fixed, factor] = self.torques[port];
            (fixed + factor * open) * speeds[port]
        };
        let open = match &self.motors {
            None => 0.0,
            Some(motors) => {
                let loss = |open: &f64| -> f64 {
                    let shafts = motors.iter().map(|&(port, _)| power(port, *open));
                    -shafts.sum::<f64>()
                };
                let found = balances(motors, &speeds, &self.torques);
                found
                    .into_iter()
                    .min_by(|a, b| loss(a).total_cmp(&loss(b)))?
            }
        };
        let powers: Vec<f64> = (0..speeds.len()).map(|port| power(port, open)).collect();
        let motors = self.motors.iter().flatten();
        let lost: f64 = -motors.map(|&(port, _)| powers[port]).sum::<f64>();
        let torque = |[fixed, factor]: &[f64; 2]| fixed + factor * open;
        Some(Share {
            ratio,
            torques: self.torques.iter().map(torque).collect(),
            efficiency: self.motors.map(|_| 1.0 - lost),
            powers,
        })
    }
}

/// The open torques at which electric power in and out is the same. Of each port `speeds` holds the speed and `torques` the torque, as what it is without
/// the open one and its factor. Each motor takes P/η where it drives and gives η·P where it is turned: of the four ways of both those
/// count whose powers turn out that way.
pub(super) fn balances(
    motors: &[(usize, f64); 2],
    speeds: &[f64],
    torques: &[[f64; 2]],
) -> Vec<f64> {
    let mut found = Vec::new();
    for drives in 0..4_u32 {
        let (mut fixed, mut factor) = (0.0, 0.0);
        let drives = |at: usize| drives >> at & 1 == 1;
        for (at, &(port, efficiency)) in motors.iter().enumerate() {
            let weight = match drives(at) {
                true => speeds[port] / efficiency,
                false => speeds[port] * efficiency,
            };
            fixed += weight * torques[port][0];
            factor += weight * torques[port][1];
        }
        let open = -fixed / factor;
        if !open.is_finite() {
            continue;
        }
        let agrees = motors.iter().enumerate().all(|(at, &(port, _))| {
            let [fixed, factor] = torques[port];
            let power = (fixed + factor * open) * speeds[port];
            let scale = (fixed.abs() + (factor * open).abs()) * speeds[port].abs();
            // A power that is zero but for roundings agrees with either way.
            power.abs() <= 1e-12 * scale || (power > 0.0) == drives(at)
        });
        if agrees {
            found.push(open);
        }
    }
    found
}
