//! Traction: what pulls a vehicle at full pedal in each range, what the road asks, and how it speeds up.
//!
//! With the engine's torque Te(Ne) at full pedal, the input's torque Ti and speed Ni behind clutch or converter, the ratio i
//! and efficiency η of a range, and wheels of radius r behind a final drive k:
//!
//! - force at the wheels F = Ti·|i|·η·k/r at the road speed v = (2π/60)·Ni·r/(|i|·k) ([`Pull`]);
//! - the road asks R = (c0 + c1·No + c2·No²)·k/r on the level, and weight·sin(slope) more on a slope ([`Vehicle`]);
//! - a range goes fastest where F = R, or where the engine is at its last speed ([`Top`]); it climbs the steepest slope
//!   where F − R is greatest ([`Climb`]); both are found as zeros and peaks of smooth pieces, not on a grid;
//! - from rest m·dv/dt = F − R ([`Run`]).
//!
//! The definitions are common to books on vehicle dynamics (from memory). Speeds of the road are in m/s and forces in N,
//! without sign: backward, both point the other way. Engine and input are in rev/min and N·m.
//!
//! Ideal: tyres pass any force, meshes lose a fixed share and nothing else loses anything, air stands still, shifts
//! take no time. A converter is settled at any time, as for operating points (`crate::load::operating`).

mod pull;
mod report;
mod run;
mod shifts;
mod source;
mod vehicle;

pub use pull::{Climb, Force, Pull, Top};
pub use report::{
    AssumedReport, ChangeReport, ForceReport, LackReport, MomentReport, RangeReading, RangeReport,
    ReadingReport, RoadReading, RunReport, StatedReport, TractionReport, WrongReport,
};
pub use run::{ACCURACY, Change, End, Energy, Moment, NoRun, Run};
pub use shifts::Rule;
pub use source::{Between, Driven};
pub use vehicle::{FINAL_DRIVE, GRAVITY, RADIUS, RATIO, Vehicle, WHEEL_RADIUS};

use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::base::said::word;
use crate::load::operating::NoPower;
use crate::load::operating::gear::{Gear, NoGear};
use crate::solve::Combination;
use crate::solve::settle::Duty;
use crate::train::Train;
use crate::transient::Inertias;
use run::{Masses, Step, Wanted};
use source::Source;

/// Most road speeds that a run is asked about.
pub const TARGETS: usize = 64;
/// Highest road speed that can be asked for, in m/s.
pub const SPEED_MAX: f64 = 1000.0;

/// What is asked.
#[derive(Debug, Clone, PartialEq)]
pub struct Ask {
    /// Efficiency of every mesh, above 0 and at most 1.
    pub mesh_efficiency: f64,
    /// From which of the forward ranges on, by falling ratio from 0, the converter is locked up; none where it stays
    /// open. Backward ranges have it locked only if the first forward one has.
    pub locked_from: Option<usize>,
    /// When a range is left for the next.
    pub rule: Rule,
    /// The road speeds in m/s that times are wanted for, above 0.
    pub targets: Vec<f64>,
}

/// What a scenario lacks for any of this.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Missing {
    /// Neither engine nor load: a file has both or none.
    EngineAndLoad,
    /// No named range.
    Ranges,
}

/// A range that does not pull.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Idle {
    /// Its number among the ranges of the train.
    pub range: usize,
    /// Why.
    pub why: NoPower,
}

/// All that is known of a train on the road.
#[derive(Debug, Clone)]
pub struct Traction {
    /// Wheels, load and mass.
    pub vehicle: Vehicle,
    /// The engine's lowest and last speed in rev/min.
    pub engine: [f64; 2],
    /// The ranges that pull, in the order of the file.
    pub pulls: Vec<Pull>,
    /// Those that do not.
    pub idle: Vec<Idle>,
    /// The places of the forward ranges in `pulls`, by falling ratio; of those with one ratio the first.
    pub order: Vec<usize>,
    /// The run from rest.
    pub run: Result<Run, NoRun>,
    /// Inertias of the shafts and the engine.
    pub inertias: Inertias,
    /// What is wrong with what the file says of inertias and of the vehicle; it is assumed instead.
    pub problems: Vec<Problem>,
}

impl Ask {
    /// Checks the numbers against a train.
    ///
    /// # Errors
    /// The first that is out of its range or no number.
    pub fn checked(mut self, train: &Train) -> Result<Self, Problem> {
        let refused = |place, value: f64, least: f64, most: f64| {
            Problem::out_of_range(word(place), "problem-not-allowed", value, least, most)
        };
        if !(self.mesh_efficiency > 0.0 && self.mesh_efficiency <= 1.0) {
            return Err(refused("place-mesh", self.mesh_efficiency, 0.0, 1.0));
        }
        let full = train.scenario().engine.as_ref().map(|engine| &engine.full);
        if let (Rule::EngineSpeed(speed), Some(full)) = (self.rule, full)
            && let [[least, _], .., [most, _]] = full[..]
            && !(speed > least && speed <= most)
        {
            return Err(refused("place-shift-speed", speed, least, most));
        }
        let wrong = self.targets.iter().find(|&&x| !(x > 0.0 && x <= SPEED_MAX));
        if let Some(&speed) = wrong {
            return Err(refused("place-road-speed", speed, 0.0, SPEED_MAX));
        }
        self.targets.sort_by(f64::total_cmp);
        self.targets.dedup();
        self.targets.truncate(TARGETS);
        Ok(self)
    }
}

impl Traction {
    /// That of a train. What is asked must have been checked.
    ///
    /// # Errors
    /// What the scenario lacks.
    pub fn of(train: &Train, ask: &Ask) -> Result<Self, Missing> {
        let scenario = train.scenario();
        let (inertias, mut problems) = Inertias::of(train);
        let engine = scenario.engine.as_ref().ok_or(Missing::EngineAndLoad)?;
        let (vehicle, own) = Vehicle::of(train, &inertias).ok_or(Missing::EngineAndLoad)?;
        if scenario.ranges.is_empty() {
            return Err(Missing::Ranges);
        }
        problems.extend(own);
        problems.truncate(MOST_PROBLEMS);
        let (mut gears, mut idle) = (Vec::new(), Vec::new());
        for range in 0..scenario.ranges.len() {
            let combination = train.settle(train.range(range), Duty::Drive).combination;
            match Gear::of(&combination, ask.mesh_efficiency) {
                Ok(gear) => gears.push((range, gear, masses(&combination, &inertias, &vehicle))),
                Err(NoGear(why)) => idle.push(Idle { range, why }),
            }
        }
        let direct = Source::direct(engine);
        let open = scenario.converter.as_ref();
        let open = open.map(|converter| Source::open(engine, converter));
        // Locked or not, the order is that of the ratios.
        let ratios: Vec<f64> = gears.iter().map(|(_, gear, _)| gear.ratio).collect();
        let order = shifts::order(&ratios);
        let is_locked = |ratio: f64| {
            let place = order.iter().filter(|&&at| ratios[at] > ratio).count();
            let place = if ratio > 0.0 { place } else { 0 };
            ask.locked_from.is_some_and(|from| place >= from)
        };
        let pulls: Vec<Pull> = gears
            .iter()
            .map(|&(range, gear, _)| {
                let open = open.as_ref().filter(|_| !is_locked(gear.ratio));
                let locked = open.is_none();
                Pull::new(
                    range,
                    gear,
                    open.unwrap_or(&direct).clone(),
                    locked,
                    vehicle,
                )
            })
            .collect();
        let steps: Vec<Step<'_>> = order
            .iter()
            .map(|&at| Step {
                pull: &pulls[at],
                masses: gears[at].2,
            })
            .collect();
        let wanted = Wanted {
            rule: ask.rule,
            targets: &ask.targets,
        };
        let run = Run::of(&steps, &vehicle, wanted);
        let speeds = || engine.full.iter().map(|point| point[0]);
        Ok(Self {
            vehicle,
            engine: [
                speeds().next().unwrap_or(f64::NAN),
                speeds().next_back().unwrap_or(f64::NAN),
            ],
            pulls,
            idle,
            order,
            run,
            inertias,
            problems,
        })
    }

    /// The greatest road speed that any range has a force at, and the greatest force, of all that pull.
    pub fn extent(&self) -> (f64, f64) {
        let ends = self.pulls.iter().filter_map(|pull| Some(pull.reach()?.1));
        let forces = self.pulls.iter().flat_map(|pull| {
            pull.stretches().flat_map(|(stretch, from, to)| {
                [from, to].map(|speed| pull.on(stretch, speed).force)
            })
        });
        (ends.fold(0.0, f64::max), forces.fold(0.0, f64::max))
    }

    /// Whether a range has the ratio that a vehicle starts in.
    pub fn starts(&self, pull: &Pull) -> bool {
        let first = self.order.first().map(|&at| self.pulls[at].ratio);
        first == Some(pull.ratio)
    }

    /// The place in `pulls` of the range that goes fastest on the level.
    pub fn fastest(&self) -> Option<usize> {
        let tops = self.pulls.iter().enumerate();
        tops.filter(|(_, pull)| pull.ratio > 0.0)
            .filter_map(|(at, pull)| Some((pull.top()?.at.speed, at)))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
            .map(|(_, at)| at)
    }
}

/// What turns with a range. A shaft that nothing decides stands still.
fn masses(combination: &Combination<'_>, inertias: &Inertias, vehicle: &Vehicle) -> Masses {
    let train = combination.train();
    let output = combination
        .shaft_speed(train.output())
        .map(|speed| speed.to_f64());
    let mut rest = vehicle.inertia.value;
    for shaft in (0..train.scenario().shafts.len()).filter(|&shaft| shaft != train.input()) {
        let speed = combination.shaft_speed(shaft).map(|speed| speed.to_f64());
        if let (Some(speed), Some(output)) = (speed, output) {
            rest += inertias.shaft(shaft).value * (speed / output).powi(2);
        }
    }
    Masses {
        rest,
        input: inertias.shaft(train.input()).value,
        engine: inertias.engine().value,
    }
}
