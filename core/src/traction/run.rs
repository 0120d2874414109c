//! Speeding up from rest at full pedal on a level road, from range to range.
//!
//! Within a range the force depends on the road speed alone, and so does what is left of it to speed up with. So time
//! and distance are integrals over the road speed, ∫ m/(F − R) dv and ∫ m·v/(F − R) dv, and there is no differential
//! equation to step through: each smooth stretch is integrated by Gauss's rule with ten points, halved until both halves
//! agree with the whole to [`ACCURACY`]. Tests compare it with closed forms and with an integrator over time.
//!
//! m is the mass with what turns along: all behind the output, each shaft of the train by its exact speed, and the input
//! with the engine, whose torque passes through the losses of the train. While the engine does not turn as the input
//! does, its own inertia is left out: behind a slipping clutch it keeps its speed, and behind an open converter it is taken
//! to be settled at any time, as for operating points.
//! With the engine's speed as one more unknown, runs of our scenarios to 100 km/h through the converter take 1 to 4 % longer (SciPy, at the inertia that is assumed).
//! A shift takes no time and interrupts no force: the road speed stays what it is, and the engine has its next speed at once.

use super::pull::{Force, Pull};
use super::shifts::{Leave, Rule, leave};
use super::source::{Between, Stretch};
use super::vehicle::Vehicle;

/// To which part of itself an integral over a stretch is known.
pub const ACCURACY: f64 = 1e-11;
/// Halvings of a stretch at most: next to a balance of forces each takes half of what is left.
const HALVINGS: u32 = 48;
/// Parts of a stretch at most: a bound on the work, which nothing that has been tried comes near.
const MOST_PARTS: usize = 4096;
/// Points that a course is told by, at equal steps of speed.
const POINTS: u32 = 96;
/// A speed that is come to without end is drawn as far as this part of it, and told up to the other.
const NEAR_END: f64 = 0.99;
const NEARLY: f64 = 1.0 - 1e-6;

/// A moment of the run.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Moment {
    /// Road speed in m/s.
    pub speed: f64,
    /// Seconds since the start.
    pub time: f64,
    /// Metres since the start.
    pub distance: f64,
}

/// A shift on the way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Change {
    /// When.
    pub at: Moment,
    /// The range that is left, by its number in the train.
    pub from: usize,
    /// The range that follows.
    pub to: usize,
    /// Force and engine in the first.
    pub before: Force,
    /// Force and engine in the second.
    pub after: Force,
    /// Whether the engine could not have gone on in the first.
    pub at_engine_limit: bool,
}

/// How it ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum End {
    /// The speed at which force and road are in balance, which is come to ever more slowly.
    Balance(f64),
    /// The speed at which the engine is at its last one, and no further range follows that would pull.
    EngineLimit(f64),
}

/// Where the energy of a run went, in J, from its start to its last moment.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Energy {
    /// What the engine gave.
    pub engine: f64,
    /// What slipped away before the input.
    pub between: f64,
    /// What the meshes took.
    pub gears: f64,
    /// What the road took.
    pub road: f64,
    /// What the masses took as they sped up; what turning parts lose at a shift is not taken off.
    pub masses: f64,
}

/// A run from rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The range that it begins in.
    pub first: usize,
    /// The shifts, in order.
    pub changes: Vec<Change>,
    /// The speeds that were asked for and are reached, in order.
    pub targets: Vec<Moment>,
    /// The course, by rising speed.
    pub course: Vec<Moment>,
    /// How it ends.
    pub end: End,
    /// The last moment that is told: at the end, or where 99 % of that speed is reached.
    pub last: Moment,
    /// Where the energy went up to [`Run::last`].
    pub energy: Energy,
}

/// Why there is no run from rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoRun {
    /// No range drives forward.
    NoRange,
    /// The converter takes more at rest than the engine gives at its lowest speed, or the engine runs away.
    NoStart,
    /// The road holds the vehicle back with more than it pulls with.
    LoadTooGreat,
}

/// What turns with a range, each in kg·m².
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Masses {
    /// All but the input, as seen at the output.
    pub(super) rest: f64,
    /// The input itself.
    pub(super) input: f64,
    /// What drives it.
    pub(super) engine: f64,
}

/// A range in the order of a run.
#[derive(Debug, Clone, Copy)]
pub(super) struct Step<'p> {
    pub(super) pull: &'p Pull,
    pub(super) masses: Masses,
}

/// What is integrated over the road speed: time, distance, and the energies of engine, between, gears, road.
type Sums = [f64; 6];

/// What is wanted of a run.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wanted<'w> {
    pub(super) rule: Rule,
    /// Road speeds in m/s, rising.
    pub(super) targets: &'w [f64],
}

/// A stretch of a range with what has to be sped up there.
struct Leg<'p> {
    step: Step<'p>,
    stretch: &'p Stretch,
    vehicle: &'p Vehicle,
    /// Input turns for a turn of the output.
    ratio: f64,
}

impl Leg<'_> {
    /// Inertia that is sped up with the input, in kg·m².
    fn input_inertia(&self) -> f64 {
        let Masses { input, engine, .. } = self.step.masses;
        match self.stretch.between() {
            Between::Nothing => input + engine,
            Between::Slipping | Between::Converter => input,
        }
    }

    /// Mass in kg that force has to speed up, where a share of the input's torque is lost.
    fn mass(&self, efficiency: f64) -> f64 {
        let lever = self.vehicle.lever();
        let input = self.ratio * self.ratio * self.input_inertia();
        (self.step.masses.rest + efficiency * input) / (lever * lever)
    }

    /// What a unit of speed adds to the sums.
    fn rates(&self, speed: f64) -> Sums {
        let pull = self.step.pull;
        let Force { force, driven, .. } = pull.on(self.stretch, speed);
        let road = self.vehicle.level(speed);
        let time = self.mass(pull.efficiency) / (force - road);
        let watts = |speed: f64, torque: f64| speed * torque * std::f64::consts::PI / 30.0;
        let engine = watts(driven.engine_speed, driven.engine_torque);
        let input = watts(driven.input_speed, driven.input_torque);
        let turns = self.ratio / self.vehicle.lever();
        let kept = self.input_inertia() * turns * turns * speed;
        let gears = (1.0 - pull.efficiency) * (input * time - kept);
        [
            time,
            time * speed,
            time * engine,
            time * (engine - input),
            gears,
            time * road * speed,
        ]
    }

    /// The sums from one speed to another: what does not agree with its halves is halved, from the left on.
    fn sums(&self, from: f64, to: f64) -> Sums {
        let whole = self.gauss(from, to);
        let mut waiting = vec![(from, to, whole, HALVINGS)];
        let mut sum = [0.0; 6];
        let mut left = MOST_PARTS;
        while let Some((from, to, whole, halvings)) = waiting.pop() {
            let middle = from + (to - from) / 2.0;
            let [low, high] = [self.gauss(from, middle), self.gauss(middle, to)];
            let both = added(low, high);
            // What is no number does not become one by halving.
            let agrees =
                |(a, b): (&f64, &f64)| (a - b).is_nan() || (a - b).abs() <= ACCURACY * b.abs();
            let is_known = whole.iter().zip(&both).all(agrees);
            left -= 1;
            if is_known || halvings == 0 || left < waiting.len() {
                sum = added(sum, both);
                continue;
            }
            waiting.push((middle, to, high, halvings - 1));
            waiting.push((from, middle, low, halvings - 1));
        }
        sum
    }

    /// Gauss's rule with ten points.
    fn gauss(&self, from: f64, to: f64) -> Sums {
        let (middle, half) = (from + (to - from) / 2.0, (to - from) / 2.0);
        let mut sum = [0.0; 6];
        for (node, weight) in GAUSS {
            for side in [-node, node] {
                let rates = self.rates(middle + half * side);
                sum = added(sum, rates.map(|rate| rate * weight * half));
            }
        }
        sum
    }
}

/// Nodes and weights of Gauss's rule with ten points (Abramowitz and Stegun, table 25.4; from memory, and a test integrates
/// powers with them).
const GAUSS: [(f64, f64); 5] = [
    (0.148_874_338_981_631_22, 0.295_524_224_714_752_87),
    (0.433_395_394_129_247_2, 0.269_266_719_309_996_35),
    (0.679_409_568_299_024_4, 0.219_086_362_515_982_04),
    (0.865_063_366_688_984_5, 0.149_451_349_150_580_6),
    (0.973_906_528_517_171_7, 0.066_671_344_308_688_14),
];

fn added(mut a: Sums, b: Sums) -> Sums {
    a.iter_mut().zip(b).for_each(|(a, b)| *a += b);
    a
}

impl Run {
    /// Speeds up through the ranges in this order.
    pub(super) fn of(
        steps: &[Step<'_>],
        vehicle: &Vehicle,
        wanted: Wanted<'_>,
    ) -> Result<Self, NoRun> {
        let pulls: Vec<&Pull> = steps.iter().map(|step| step.pull).collect();
        let first = *pulls.first().ok_or(NoRun::NoRange)?;
        let start = first.at(0.0).ok_or(NoRun::NoStart)?;
        if start.force <= vehicle.level(0.0) {
            return Err(NoRun::LoadTooGreat);
        }
        let mut going = Going {
            vehicle,
            sums: [0.0; 6],
            masses: 0.0,
            speed: 0.0,
            course: vec![Moment::default()],
            targets: Vec::new(),
        };
        let mut changes: Vec<Change> = Vec::new();
        let mut own = 0;
        let end = loop {
            let (from, pull) = (going.speed, pulls[own]);
            let last = pull.runs_to(from).ok_or(NoRun::NoStart)?;
            let left = leave(&pulls, own, from, wanted.rule, vehicle);
            let until = left.map_or(last, |left| left.speed);
            if let Some(speed) = pull.balance(from, until) {
                going.on(steps[own], speed * NEAR_END, wanted.targets);
                let end = going.clone();
                let mut nearly = wanted.targets.iter().copied();
                if let Some(last) = nearly.rfind(|&target| target < speed * NEARLY) {
                    going.on(steps[own], last, wanted.targets);
                }
                let targets = std::mem::take(&mut going.targets);
                going = Going { targets, ..end };
                break End::Balance(speed);
            }
            going.on(steps[own], until, wanted.targets);
            let Some(Leave {
                speed,
                to,
                at_engine_limit,
            }) = left
            else {
                break End::EngineLimit(last);
            };
            let (Some(before), Some(after)) = (pull.at(speed), pulls[to].at(speed)) else {
                break End::EngineLimit(last);
            };
            changes.push(Change {
                at: going.moment(),
                from: pull.range,
                to: pulls[to].range,
                before,
                after,
                at_engine_limit,
            });
            own = to;
        };
        let [_, _, engine, between, gears, road] = going.sums;
        Ok(Self {
            first: first.range,
            changes,
            last: going.moment(),
            targets: going.targets,
            course: going.course,
            end,
            energy: Energy {
                engine,
                between,
                gears,
                road,
                masses: going.masses,
            },
        })
    }
}

/// A run as far as it has gone.
#[derive(Debug, Clone)]
struct Going<'v> {
    vehicle: &'v Vehicle,
    sums: Sums,
    masses: f64,
    speed: f64,
    course: Vec<Moment>,
    targets: Vec<Moment>,
}

impl Going<'_> {
    fn moment(&self) -> Moment {
        let [time, distance, ..] = self.sums;
        Moment {
            speed: self.speed,
            time,
            distance,
        }
    }

    /// Goes on in a range up to a speed, and notes the targets on the way.
    fn on(&mut self, step: Step<'_>, until: f64, targets: &[f64]) {
        let begin = self.speed;
        let grid = (1..=POINTS).map(|point| until * f64::from(point) / f64::from(POINTS));
        let mut stops: Vec<f64> = grid.chain(targets.iter().copied()).chain([until]).collect();
        stops.retain(|&stop| stop > begin && stop <= until);
        stops.sort_by(f64::total_cmp);
        stops.dedup();
        for (stretch, from, to) in step.pull.stretches() {
            let leg = Leg {
                step,
                stretch,
                vehicle: self.vehicle,
                ratio: step.pull.ratio.abs(),
            };
            let within: Vec<f64> = stops
                .iter()
                .copied()
                .filter(|&x| x > from && x < to)
                .collect();
            let end = to.min(until);
            for stop in within.into_iter().chain([end]) {
                let from = self.speed.max(from);
                if stop <= from {
                    continue;
                }
                self.sums = added(self.sums, leg.sums(from, stop));
                self.masses += leg.mass(1.0) * (stop * stop - from * from) / 2.0;
                self.speed = stop;
                let moment = self.moment();
                self.course.push(moment);
                if targets.contains(&stop) {
                    self.targets.push(moment);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Gauss's rule with ten points is exact for powers up to the nineteenth; ∫ x^n over −1..1 is 2/(n+1) for even n.
    #[test]
    fn the_rule_integrates_powers() {
        for power in (0..=18).step_by(2) {
            let sum: f64 = GAUSS
                .iter()
                .map(|(node, weight)| 2.0 * weight * node.powi(power))
                .sum();
            let exact = 2.0 / f64::from(power + 1);
            assert!((sum - exact).abs() < 1e-15, "power {power}: {sum}");
        }
    }
}
