//! The steady operating point: where engine, torque converter, gear train and load agree.
//!
//! Speeds N are in rev/min, torques T in N·m, powers in W. For a combination with ratio i and
//! efficiency η, at pedal position p:
//!
//! - engine = pump: Te(Ne, p) = C(SR)·Ne² with C = 1/K² (see [`crate::model::scenario::Converter`]);
//! - converter: Tt = TR(SR)·Te and Nt = SR·Ne at the turbine, which is the train's input;
//! - train: To = i·η·Tt and No = Nt/i;
//! - load: |To| = c0 + c1·|No| + c2·No².
//!
//! Without a converter, or with its lock-up clutch applied, Tt = Te and Nt = Ne, and there is one
//! equation. Where the engine then holds back (Te < 0), power comes from the output and the
//! train's efficiency coasting, η', acts the other way: To = i·Te/η'.
//!
//! At the first speed of its table an idle control keeps the engine running: it adds to the
//! pedal's torque what that takes, up to the torque of full pedal there. Above the last speed the
//! engine is governed and has no operating point.
//!
//! Signs: engine and input turn forward. Output speed and torque are positive in that direction,
//! so in reverse both are negative; To is the torque the train puts on the output, and a
//! positive load acts against the motion either way. The sources are the definitions of torque
//! ratio, speed ratio and capacity factor that are common in handbooks and in the test code
//! SAE J643 (from memory).
//!
//! A point is called stable if, with the engine much quicker to settle than the vehicle, both
//! come back when pushed: d(Te − Tpump)/dNe < 0 at a given turbine speed, and
//! d(To − load)/dNo < 0 along the engine's settled speeds.
//!
//! An open converter is computed from stall to speed ratio 1. Coasting through it, with the
//! turbine ahead of the pump, is declined: converter tables do not say what happens there.

mod curves;
pub(crate) mod gear;
mod locked;
mod open;
pub(crate) mod roots;

pub use curves::Curves;

use std::ops::RangeInclusive;

use crate::base::problem::Problem;
use crate::base::said::word;
use crate::base::short_sort::sort_short_by;
use crate::load::losses::MESH_EFFICIENCY;
use crate::model::curve::{Curve, Piece};
use crate::solve::Combination;
use gear::{Gear, NoGear};
use open::Open;

/// W per N·m and rev/min.
const WATTS: f64 = std::f64::consts::PI / 30.0;
/// Points whose speeds agree this well are one, found from both sides of a knot.
const SAME: f64 = 1e-9;
/// Steepest slope of the road, as rise over run, either way.
pub const GRADE_MAX: f64 = 1.0;

/// What the driver and the road ask for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Pedal position, 0 released to 1 full.
    pub pedal: f64,
    /// Slope of the road as rise over run; negative downhill.
    pub grade: f64,
    /// Whether the lock-up clutch of the converter is applied.
    pub lockup: bool,
    /// Efficiency of every mesh, above 0 and at most 1; the drag of open elements is left out.
    pub mesh_efficiency: f64,
}

impl Default for Conditions {
    fn default() -> Self {
        Self {
            pedal: 0.3,
            grade: 0.0,
            lockup: false,
            mesh_efficiency: MESH_EFFICIENCY,
        }
    }
}

impl Conditions {
    /// Checks the numbers.
    ///
    /// # Errors
    /// The first that is out of its range or no number.
    pub fn checked(self) -> Result<Self, Problem> {
        for (place, value, least, most) in [
            ("place-pedal", self.pedal, 0.0, 1.0),
            ("place-grade", self.grade, -GRADE_MAX, GRADE_MAX),
            ("place-mesh", self.mesh_efficiency, f64::MIN_POSITIVE, 1.0),
        ] {
            if !(least..=most).contains(&value) {
                let least = if least > 0.0 && least < 1e-9 {
                    0.0
                } else {
                    least
                };
                return Err(Problem::out_of_range(
                    word(place),
                    "problem-not-allowed",
                    value,
                    least,
                    most,
                ));
            }
        }
        Ok(self)
    }
}

/// How engine, train and load get along.
#[derive(Debug, Clone, PartialEq)]
pub enum Operating {
    /// The combination passes no power that could be computed.
    NoPower(NoPower),
    /// It does.
    Solved {
        /// Power out over power in of the train while the engine drives.
        efficiency: f64,
        /// Every steady point, by rising output speed.
        points: Vec<SteadyPoint>,
        /// With an open converter: where the engine settles while the output is held.
        stall: Option<SteadyPoint>,
        /// Torque in N·m with which the load holds the output at standstill.
        load_at_rest: f64,
        /// Why there is no steady point.
        reason: Option<NoPoint>,
    },
}

/// Why a combination has no operating point at all.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPower {
    /// It does not drive.
    NoDrive,
    /// The losses take all of the power.
    SelfLocking,
    /// Losses do not determine the way the power goes.
    Ambiguous,
    /// More is applied than needed.
    Indeterminate,
    /// More rolls than all directions of power are tried of.
    TooMany,
}

/// Why there is no steady point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum NoPoint {
    /// The load asks for more at every speed: from standstill the output cannot start.
    LoadTooGreat,
    /// The engine would be pulled below the first speed of its table, idle control or not.
    BelowTable,
    /// The engine would run past the last speed of its table.
    PastTable,
    /// The load drives, and would turn the turbine ahead of the pump.
    Coasting,
    /// The load drives, and the train does not let it turn the engine.
    Overruns,
}

/// Speeds and torques that stay as they are.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SteadyPoint {
    /// Speed of engine and pump in rev/min.
    pub engine_speed: f64,
    /// Torque of the engine, which the pump takes, in N·m.
    pub engine_torque: f64,
    /// Turbine speed over pump speed.
    pub speed_ratio: f64,
    /// Turbine torque over pump torque.
    pub torque_ratio: f64,
    /// The converter's capacity factor K there, in rev/min per √(N·m); none when nothing slips.
    pub capacity_factor: Option<f64>,
    /// Speed of the train's input, the turbine, in rev/min.
    pub input_speed: f64,
    /// Torque at the train's input in N·m.
    pub input_torque: f64,
    /// Speed of the output in rev/min.
    pub output_speed: f64,
    /// Torque of the train on the output in N·m.
    pub output_torque: f64,
    /// Whether speeds come back when pushed.
    pub stable: bool,
    /// Whether the idle control holds the engine, with more torque than the pedal asks for.
    pub idling: bool,
}

impl SteadyPoint {
    /// Power of the engine in W.
    pub fn power_in(&self) -> f64 {
        WATTS * self.engine_speed * self.engine_torque
    }

    /// Power at the output in W.
    pub fn power_out(&self) -> f64 {
        WATTS * self.output_speed * self.output_torque
    }

    /// What the converter turns into heat, in W.
    pub fn converter_loss(&self) -> f64 {
        self.power_in() - WATTS * self.input_speed * self.input_torque
    }

    /// What the meshes turn into heat, in W.
    pub fn gear_loss(&self) -> f64 {
        WATTS * self.input_speed * self.input_torque - self.power_out()
    }
}

impl Operating {
    /// Solves a combination under these conditions; `None` where the scenario has no engine and
    /// load.
    pub fn of(combination: &Combination<'_>, conditions: &Conditions) -> Option<Self> {
        let plant = match Plant::of(combination, conditions)? {
            Ok(plant) => plant,
            Err(NoGear(reason)) => return Some(Self::NoPower(reason)),
        };
        let scenario = combination.train().scenario();
        let converter = scenario.converter.as_ref().filter(|_| !conditions.lockup);
        let (mut points, stall, mut reason) = match converter {
            Some(converter) => Open::new(&plant, converter).solve(),
            None => plant.solve_locked(),
        };
        // One at the end of the idle is one without it.
        sort_short_by(&mut points, |a, b| {
            let speeds = a.input_speed.total_cmp(&b.input_speed);
            speeds.then(a.idling.cmp(&b.idling))
        });
        points.dedup_by(|a, b| a.is_same(b));
        reason = reason.filter(|_| points.is_empty());
        Some(Self::Solved {
            efficiency: plant.gear.driving,
            points,
            stall,
            load_at_rest: plant.load(0.0).0,
            reason,
        })
    }
}

impl SteadyPoint {
    fn is_same(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= SAME * self.engine_speed;
        near(self.engine_speed, other.engine_speed) && near(self.input_speed, other.input_speed)
    }
}

/// Engine, train and load under given conditions.
struct Plant {
    /// Torque over speed at the pedal position.
    engine: Curve,
    /// Torque at full pedal at the engine's lowest speed.
    most_at_idle: f64,
    gear: Gear,
    /// Coefficients of the load over the output's speed without sign.
    load: [f64; 3],
}

/// The engine at its lowest speed.
#[derive(Debug, Clone)]
struct Idle {
    speed: f64,
    /// What the idle control can give there.
    torques: RangeInclusive<f64>,
}

/// Where the engine can be: held at idle, or on a piece of its curve.
#[derive(Debug, Clone)]
enum Side {
    Idle(Idle),
    Piece(Piece),
}

impl Plant {
    fn of(combination: &Combination<'_>, conditions: &Conditions) -> Option<Result<Self, NoGear>> {
        let scenario = combination.train().scenario();
        let (engine, load) = (scenario.engine.as_ref()?, scenario.load.as_ref()?);
        let gear = Gear::of(combination, conditions.mesh_efficiency);
        Some(gear.map(|gear| Self {
            engine: engine.curve(conditions.pedal),
            most_at_idle: engine.full.first().map_or(f64::NAN, |point| point[1]),
            gear,
            load: load.terms(conditions.grade),
        }))
    }

    /// The engine at its lowest speed, where the idle control gives any torque from the pedal's
    /// to that of full pedal.
    fn idle(&self) -> Idle {
        let (speed, _) = self.engine.range();
        Idle {
            speed,
            torques: self.engine.value(speed)..=self.most_at_idle,
        }
    }

    /// The idle and the pieces of the curve.
    fn sides(&self) -> impl Iterator<Item = Side> + '_ {
        let pieces = self.engine.pieces().map(Side::Piece);
        std::iter::once(Side::Idle(self.idle())).chain(pieces)
    }

    /// The load at an output speed without sign, and its slope.
    fn load(&self, speed: f64) -> (f64, f64) {
        let [c0, c1, c2] = self.load;
        (c0 + speed * (c1 + speed * c2), c1 + 2.0 * c2 * speed)
    }

    /// The point where the engine has this speed and torque and the converter these ratios.
    fn point(
        &self,
        (engine_speed, engine_torque): (f64, f64),
        (speed_ratio, torque_ratio): (f64, f64),
        stable: bool,
    ) -> SteadyPoint {
        let (input_speed, input_torque) =
            (speed_ratio * engine_speed, torque_ratio * engine_torque);
        SteadyPoint {
            engine_speed,
            engine_torque,
            speed_ratio,
            torque_ratio,
            capacity_factor: None,
            input_speed,
            input_torque,
            // Adding 0 turns −0 into 0.
            output_speed: input_speed / self.gear.ratio + 0.0,
            output_torque: self.gear.output_torque(input_torque),
            stable,
            idling: false,
        }
    }
}
