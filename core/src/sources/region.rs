//! Which speeds and torques of the output the limits of all sources allow.

use levertrain_exact::Fraction;

use super::data::{MachineKind, Ports};
use super::efforts::Efforts;
use super::program::most;
use super::speeds::Speeds;
use super::stand::WATTS;
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// How many steps the speeds are divided into, beside those at which a limit begins to count.
const STEPS: u32 = 96;

/// What the output can do, the other given speeds staying as they are.
///
/// In `f64`. Within limits of speed the output's speed is an interval. At one speed the limits of torque and power are half-planes in the
/// torques that can be chosen, also that of a battery, as what a motor takes is convex in its power; the most and the
/// least torque at the output are linear programs. They are solved where a limit begins to count and at `STEPS` speeds; in
/// between the region is drawn straight. Power to a battery has no limit: it may be turned into heat elsewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct Region {
    /// Along the speed of the output, rising.
    pub edges: Vec<Edge>,
}

/// The region at one speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Edge {
    /// Speed of the output in rev/min.
    pub speed: f64,
    /// Least torque that the output delivers, in N·m: below 0 it is driven from there.
    pub least: f64,
    /// Most torque that the output delivers.
    pub most: f64,
}

/// Why there is no region.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRegion {
    /// Nothing can turn the output.
    Held,
    /// The given speeds leave the port of this place free.
    Free(usize),
    /// At the given speeds the source of this place is beyond its highest speed, whatever the output does.
    TooFast(usize),
    /// No speed of the output keeps all sources within theirs.
    Empty,
    /// Torques at outputs are not limited by those of the sources.
    Unlimited,
}

impl Region {
    /// The region of a combination with these speeds of shafts in rev/min, the first of which count where not all can be
    /// given; a battery gives as much as the ports say.
    ///
    /// # Errors
    /// See [`NoRegion`].
    pub fn of(
        train: &Train,
        applied: ElementSet,
        ports: &Ports,
        given: &[(usize, f64)],
    ) -> Result<Self, NoRegion> {
        let limits = Limits::of(train, applied, ports, given)?;
        let (low, high) = limits.reach()?;
        let mut speeds: Vec<f64> = (0..=STEPS)
            .map(|step| low + (high - low) * f64::from(step) / f64::from(STEPS))
            .chain(limits.knots().filter(|speed| (low..=high).contains(speed)))
            .collect();
        speeds.sort_by(f64::total_cmp);
        speeds.dedup();
        let edges: Option<Vec<Edge>> = speeds.into_iter().map(|speed| limits.at(speed)).collect();
        edges.map(|edges| Self { edges }).ok_or(NoRegion::Unlimited)
    }

    /// Whether a point is in it, its edges drawn straight.
    pub fn holds(&self, speed: f64, torque: f64) -> bool {
        self.edges.windows(2).any(|pair| {
            let [before, after] = [pair[0], pair[1]];
            let part = (speed - before.speed) / (after.speed - before.speed);
            let between = |from: f64, to: f64| from + (to - from) * part;
            (0.0..=1.0).contains(&part)
                && torque >= between(before.least, after.least)
                && torque <= between(before.most, after.most)
        })
    }
}

/// Limits in what can be chosen: the speed of the output, and the torques that are open.
struct Limits<'a> {
    ports: &'a Ports,
    /// Of each port its speed: what the output's turns into, and what the other given ones add.
    speeds: Vec<(f64, f64)>,
    /// Of each port its torque in the open ones.
    torques: Vec<Vec<f64>>,
}

impl<'a> Limits<'a> {
    fn of(
        train: &Train,
        applied: ElementSet,
        ports: &'a Ports,
        given: &[(usize, f64)],
    ) -> Result<Self, NoRegion> {
        let others = given.iter().map(|&(shaft, _)| shaft);
        let wanted: Vec<usize> = std::iter::once(train.output()).chain(others).collect();
        let found = Speeds::of(train, applied, &wanted);
        if found.given().first() != Some(&train.output()) {
            return Err(NoRegion::Held);
        }
        let speed_of = |shaft: &usize| {
            let mut known = given.iter().filter(|(given, _)| given == shaft);
            known.next().map_or(0.0, |&(_, speed)| speed)
        };
        let others: Vec<f64> = found.given()[1..].iter().map(speed_of).collect();
        let mut speeds = Vec::new();
        for (index, port) in ports.list.iter().enumerate() {
            let Some(factors) = found.shaft(port.shaft) else {
                return Err(NoRegion::Free(index));
            };
            let added = factors[1..].iter().zip(&others);
            let added = added.map(|(factor, speed)| factor.to_f64() * speed).sum();
            speeds.push((factors[0].to_f64(), added));
        }
        let efforts = Efforts::of(train, applied, ports, &[ports.output()]);
        let torques = (0..ports.list.len())
            .map(|port| efforts.port(port).iter().map(Fraction::to_f64).collect())
            .collect();
        Ok(Self {
            ports,
            speeds,
            torques,
        })
    }

    /// Slowest and fastest speed of the output at which no source is too fast.
    fn reach(&self) -> Result<(f64, f64), NoRegion> {
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        for (index, (port, &(factor, added))) in
            self.ports.list.iter().zip(&self.speeds).enumerate()
        {
            let Some(machine) = port.machine else {
                continue;
            };
            let fastest = machine.speed.value;
            let slowest = match machine.kind {
                MachineKind::Engine => 0.0,
                MachineKind::Motor => -fastest,
            };
            if factor == 0.0 {
                let slack = 1e-9 * fastest;
                if !(slowest - slack..=fastest + slack).contains(&added) {
                    return Err(NoRegion::TooFast(index));
                }
                continue;
            }
            let ends = [(slowest - added) / factor, (fastest - added) / factor];
            low = low.max(ends[0].min(ends[1]));
            high = high.min(ends[0].max(ends[1]));
        }
        match low < high && (high - low).is_finite() {
            true => Ok((low, high)),
            false => Err(NoRegion::Empty),
        }
    }

    /// Speeds of the output at which a source stands still, or begins to be limited by its power.
    fn knots(&self) -> impl Iterator<Item = f64> + '_ {
        let ports = self.ports.list.iter().zip(&self.speeds);
        let knots = ports.flat_map(|(port, &(factor, added))| {
            let machine = port.machine;
            let corner = machine
                .and_then(|machine| Some(machine.power? * 1000.0 / (WATTS * machine.torque.value)));
            let own = [0.0, corner.unwrap_or(0.0), -corner.unwrap_or(0.0)];
            own.map(|speed| (speed - added) / factor)
        });
        knots.chain([0.0]).filter(|speed| speed.is_finite())
    }

    /// The region at one speed of the output; `None` where torque there has no limit.
    fn at(&self, speed: f64) -> Option<Edge> {
        let speeds: Vec<f64> = (self.speeds.iter())
            .map(|(factor, added)| factor * speed + added)
            .collect();
        let rows = self.rows(&speeds);
        let output = &self.torques[self.ports.output()];
        // What the output delivers is minus what acts on the train there.
        let delivers: Vec<f64> = output.iter().map(|factor| -factor).collect();
        Some(Edge {
            speed,
            least: -most(output, &rows)?.0,
            most: most(&delivers, &rows)?.0,
        })
    }

    /// Half-planes in the open torques.
    fn rows(&self, speeds: &[f64]) -> Vec<(Vec<f64>, f64)> {
        let mut rows = Vec::new();
        let times = |row: &[f64], factor: f64| -> Vec<f64> {
            row.iter().map(|cell| cell * factor).collect()
        };
        for (index, port) in self.ports.list.iter().enumerate() {
            let Some(machine) = port.machine else {
                continue;
            };
            let turns = speeds[index].abs() * WATTS;
            let by_power = machine
                .power
                .map_or(f64::INFINITY, |power| power * 1000.0 / turns);
            let most = machine.torque.value.min(by_power);
            let row = &self.torques[index];
            rows.push((row.clone(), most));
            let least = match machine.kind {
                MachineKind::Engine => 0.0,
                MachineKind::Motor => most,
            };
            rows.push((times(row, -1.0), least));
        }
        let Some(battery) = self.ports.battery else {
            return rows;
        };
        let motors = self.ports.motors();
        // What motors take is the greatest of what it would be if each drove, or was turned.
        for drives in 0..1_u32 << motors.len() {
            let mut sum = vec![0.0; self.torques[0].len()];
            for (at, &port) in motors.iter().enumerate() {
                let machine = self.ports.list[port].machine;
                let efficiency = machine.map_or(1.0, |machine| machine.efficiency.value);
                let weight = match drives >> at & 1 == 1 {
                    true => 1.0 / efficiency,
                    false => efficiency,
                };
                for (sum, cell) in sum.iter_mut().zip(&self.torques[port]) {
                    *sum += weight * speeds[port] * cell;
                }
            }
            rows.push((sum, battery * 1000.0 / WATTS));
        }
        rows
    }
}
