//! The region of an output against points drawn at random and against a search by brute force, which know nothing of
//! linear programs.

use anyhow::{Result, anyhow, ensure};
use levertrain_core::ElementSet;
use levertrain_core::Train;
use levertrain_core::sources::{Efforts, MachineKind, NoRegion, Ports, Region, Speeds};

use super::{applied, scenario};

const WATTS: f64 = std::f64::consts::PI / 30.0;

/// Whether these speeds and torques of all ports are within the limits, which are read here by themselves.
fn allows(ports: &Ports, speeds: &[f64], torques: &[f64]) -> bool {
    let mut electric = 0.0;
    for ((port, &speed), &torque) in ports.list.iter().zip(speeds).zip(torques) {
        let Some(machine) = port.machine else {
            continue;
        };
        let power = speed * torque * WATTS / 1000.0;
        let slack = 1.0 + 1e-9;
        let is_motor = machine.kind == MachineKind::Motor;
        if speed.abs() > machine.speed.value * slack
            || torque.abs() > machine.torque.value * slack
            || machine.power.is_some_and(|most| power.abs() > most * slack)
            || (!is_motor && (speed < -1e-6 || torque < -1e-6))
        {
            return false;
        }
        if is_motor {
            let efficiency = machine.efficiency.value;
            electric += if power > 0.0 {
                power / efficiency
            } else {
                power * efficiency
            };
        }
    }
    ports.battery.is_none_or(|most| electric <= most + 1e-6)
}

/// Pairs spread evenly over a square, the same in every run: parts of multiples of two irrational numbers (M. Roberts's
/// R2 sequence, from memory).
fn spread() -> impl Iterator<Item = [f64; 2]> {
    (1..).map(|count: u32| {
        [0.754_877_666_2, 0.569_840_291].map(|step| (f64::from(count) * step).fract())
    })
}

struct Case {
    train: Train,
    ports: Ports,
    set: ElementSet,
    speeds: Speeds,
    efforts: Efforts,
}

impl Case {
    fn new((train, mut ports): (Train, Ports), ids: &[&str], battery: Option<f64>) -> Result<Self> {
        ports.battery = battery;
        let set = applied(&train, ids)?;
        let ends = [train.input(), train.output()];
        Ok(Self {
            speeds: Speeds::of(&train, set, &ends),
            efforts: Efforts::of(&train, set, &ports, &[ports.output(), 0]),
            set,
            train,
            ports,
        })
    }

    fn speeds(&self, engine: f64, output: f64) -> Vec<f64> {
        let speed = |shaft: usize| self.speeds.at(shaft, &[engine, output]);
        let ports = self.ports.list.iter();
        ports
            .map(|port| speed(port.shaft).unwrap_or(f64::NAN))
            .collect()
    }

    /// At a torque that the output delivers.
    fn torques(&self, delivered: f64, of_engine: f64) -> Vec<f64> {
        let given = &[-delivered, of_engine][..self.efforts.given().len()];
        let ports = 0..self.ports.list.len();
        ports.map(|port| self.efforts.at(port, given)).collect()
    }

    fn region(&self, engine: f64) -> Result<Region> {
        Region::of(
            &self.train,
            self.set,
            &self.ports,
            &[(self.train.input(), engine)],
        )
        .map_err(|no| anyhow!("{no:?}"))
    }
}

fn cases() -> Result<Vec<Case>> {
    let mut cases = Vec::new();
    for (name, ids) in [
        ("input-split", &[][..]),
        ("two-mode-split", &["V"]),
        ("two-mode-split", &["H"]),
    ] {
        for battery in [None, Some(0.0), Some(18.0)] {
            cases.push(Case::new(scenario(name)?, ids, battery)?);
        }
    }
    Ok(cases)
}

#[test]
fn no_allowed_point_lies_outside() -> Result<()> {
    let mut spread = spread();
    let mut inside = 0;
    for case in cases()? {
        for engine in [0.0, 1500.0, 3600.0] {
            let region = case.region(engine)?;
            for edge in &region.edges {
                let speeds = case.speeds(engine, edge.speed);
                for [across, up] in spread.by_ref().take(60) {
                    // Beyond the corners as well, so that many points are refused.
                    let (least, most) = (1.5 * edge.least - 20.0, 1.5 * edge.most + 20.0);
                    let torque = least + (most - least) * across;
                    let of_engine = 230.0 * up;
                    let torques = case.torques(torque, of_engine);
                    if !allows(&case.ports, &speeds, &torques) {
                        continue;
                    }
                    inside += 1;
                    let slack = 1e-6 * (1.0 + edge.most - edge.least);
                    ensure!(
                        torque <= edge.most + slack && torque >= edge.least - slack,
                        "{torque} N·m at {} rev/min is allowed, but not in {edge:?}",
                        edge.speed
                    );
                }
            }
        }
    }
    ensure!(inside > 10_000, "only {inside} points are allowed");
    Ok(())
}

/// Catches a region that is too large: the corner itself must be allowed with some torque of the engine.
#[test]
fn every_corner_is_allowed() -> Result<()> {
    for case in cases()? {
        for engine in [0.0, 1500.0, 3600.0] {
            for edge in case.region(engine)?.edges {
                let speeds = case.speeds(engine, edge.speed);
                for corner in [edge.least, edge.most] {
                    // Just inside, as what balances there may be a single torque of the engine.
                    let torque = corner * (1.0 - 1e-3);
                    let steps = 6000;
                    let mut of_engine =
                        (0..=steps).map(|step| 230.0 * f64::from(step) / f64::from(steps));
                    let allowed = of_engine.any(|of_engine| {
                        let torques = case.torques(torque, of_engine);
                        allows(&case.ports, &speeds, &torques)
                    });
                    ensure!(allowed, "{torque} at {edge:?}, engine at {engine}");
                }
            }
        }
    }
    Ok(())
}

#[test]
fn what_has_no_region_says_why() -> Result<()> {
    let (train, mut ports) = scenario("two-mode-split")?;
    let set = |ids: &[&str]| applied(&train, ids);
    let of = |ports: &Ports, set: ElementSet, given: &[(usize, f64)]| {
        Region::of(&train, set, ports, given).err()
    };
    let input = train.input();
    ensure!(of(&ports, set(&["V"])?, &[]) == Some(NoRegion::Free(0)));
    ensure!(of(&ports, set(&["V"])?, &[(input, 9000.0)]) == Some(NoRegion::TooFast(0)));
    ensure!(of(&ports, set(&["V", "H", "W"])?, &[]) == Some(NoRegion::Held));
    // Two outputs on one shaft: what one gives the other may take.
    let (locked, two) = scenario("axle-differential")?;
    let held = applied(&locked, &["H"])?;
    ensure!(Region::of(&locked, held, &two, &[]).err() == Some(NoRegion::Unlimited));
    ports.list[1].machine = ports.list[1].machine.map(|mut machine| {
        machine.speed.value = 1.0;
        machine
    });
    ports.list[2].machine = ports.list[1].machine;
    ensure!(of(&ports, set(&["H"])?, &[(input, 5000.0)]) == Some(NoRegion::Empty));
    Ok(())
}
