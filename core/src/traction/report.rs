//! Traction as plain data.

use serde::Serialize;

use super::pull::{Climb, Force, Pull, Top};
use super::run::{Change, End, Moment, NoRun, Run};
use super::source::Between;
use super::{Ask, Missing, Traction};
use crate::base::said::word;
use crate::load::operating::NoPower;
use crate::train::Train;
use crate::transient::Known;

/// What ranges pull with and how they speed up. Road speeds in m/s and forces in N, both without sign; engine and input in
/// rev/min and N·m.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Traction"))]
#[serde(rename_all = "camelCase")]
pub struct TractionReport {
    /// The ranges of the file, in its order.
    pub ranges: Vec<RangeReport>,
    /// Ids of the forward ranges that pull, by falling ratio; of those with one ratio the first.
    pub order: Vec<String>,
    /// The engine's lowest and last speed.
    pub engine: [f64; 2],
    /// Id of the range that goes fastest on the level.
    pub fastest: Option<String>,
    /// The run from rest; none where there is none.
    pub run: Option<RunReport>,
    /// Why there is none, as a sentence.
    pub no_run: Option<&'static str>,
    /// Mass in kg by the file's weight; 0 where it has none.
    pub mass: f64,
    /// What a file may state of vehicle and engine.
    pub stated: Vec<StatedReport>,
    /// What is assumed, as the file does not say.
    pub assumed: Vec<AssumedReport>,
    /// What is wrong with what the file says; it is assumed instead.
    pub problems: Vec<WrongReport>,
}

/// What a scenario lacks.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionLack"))]
pub struct LackReport {
    /// What, as a sentence.
    pub what: &'static str,
    /// How to add it.
    pub fix: &'static str,
}

/// Something that is wrong in a file and does not keep it from being read.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionProblem"))]
pub struct WrongReport {
    /// Where.
    pub place: String,
    /// What.
    pub what: String,
    /// What would mend it.
    pub fix: String,
}

/// A value that is assumed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionAssumed"))]
pub struct AssumedReport {
    /// `wheel-radius` in m, `final-drive`, `engine-inertia`, `shaft-inertia` or `load-inertia` in kg·m².
    pub what: &'static str,
    /// The value.
    pub value: f64,
}

/// A value that a file may state.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionStated"))]
pub struct StatedReport {
    /// `wheel-radius` in m, `final-drive`, or `engine-inertia` in kg·m².
    #[cfg_attr(
        feature = "types",
        ts(type = "\"wheel-radius\" | \"final-drive\" | \"engine-inertia\"")
    )]
    pub what: &'static str,
    /// The value.
    pub value: f64,
    /// Whether it is assumed.
    pub assumed: bool,
}

/// A range on the road.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionRange"))]
#[serde(rename_all = "camelCase")]
pub struct RangeReport {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Why it does not pull, as a sentence; the rest is empty then.
    pub idle: Option<&'static str>,
    /// Input speed over output speed, negative backward.
    pub ratio: Option<f64>,
    /// Power out over power in of the train.
    pub efficiency: Option<f64>,
    /// Whether a converter is locked up in it; of none it is true.
    pub locked: bool,
    /// The fastest that it goes on the level.
    pub top: Option<ForceReport>,
    /// Whether the engine is at its last speed there, with force to spare.
    pub at_engine_limit: bool,
    /// The steepest slope that it climbs at a speed that it can keep, as rise over run, where it would not lift the whole weight.
    pub slope: Option<f64>,
    /// Whether it would lift the whole weight.
    pub lifts: bool,
    /// Where it climbs that slope.
    pub climbing: Option<ForceReport>,
}

/// A range at a road speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionForce"))]
#[serde(rename_all = "camelCase")]
pub struct ForceReport {
    /// Road speed.
    pub speed: f64,
    /// At the wheels.
    pub force: f64,
    /// Of the engine.
    pub engine_speed: f64,
    /// Of the engine.
    pub engine_torque: f64,
    /// Of the train's input.
    pub input_speed: f64,
    /// `nothing`, `slipping` or `converter`: what is between engine and input.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"nothing\" | \"slipping\" | \"converter\"")
    )]
    pub between: &'static str,
}

/// What pulls at a road speed, and what the road asks there.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionReading"))]
pub struct ReadingReport {
    /// Road speed.
    pub speed: f64,
    /// The ranges that the engine runs in at that speed, in the order of the file; without a slipping clutch but in the
    /// first and backward.
    pub ranges: Vec<RangeReading>,
    /// What the road asks on the level and on each slope that was asked for, in N.
    pub roads: Vec<RoadReading>,
}

/// A range at a road speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionRangeReading"))]
pub struct RangeReading {
    /// Its id.
    pub id: String,
    /// What it does.
    pub at: ForceReport,
}

/// A slope at a road speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionRoadReading"))]
pub struct RoadReading {
    /// Rise over run.
    pub slope: f64,
    /// In N.
    pub force: f64,
}

/// A moment of a run.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionMoment"))]
pub struct MomentReport {
    /// Road speed.
    pub speed: f64,
    /// Seconds since the start.
    pub time: f64,
    /// Metres since the start.
    pub distance: f64,
}

/// A shift of a run.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionChange"))]
#[serde(rename_all = "camelCase")]
pub struct ChangeReport {
    /// When and how fast.
    pub at: MomentReport,
    /// Id of the range that is left.
    pub from: String,
    /// Id of the range that follows.
    pub to: String,
    /// In the first.
    pub before: ForceReport,
    /// In the second.
    pub after: ForceReport,
    /// Whether the engine could not have gone on in the first.
    pub at_engine_limit: bool,
}

/// A run from rest at full pedal on a level road.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionRun"))]
#[serde(rename_all = "camelCase")]
pub struct RunReport {
    /// Id of the range that it begins in.
    pub first: String,
    /// The shifts, in order.
    pub changes: Vec<ChangeReport>,
    /// The speeds that were asked for and are reached.
    pub targets: Vec<MomentReport>,
    /// The speed that it ends at.
    pub top: f64,
    /// Whether the engine is at its last speed there; otherwise force and road are in balance, which takes ever longer.
    pub at_engine_limit: bool,
    /// The end, or where 99 % of that speed is reached.
    pub last: MomentReport,
}

impl LackReport {
    /// That of a scenario.
    pub fn of(missing: Missing) -> Self {
        let [what, fix] = match missing {
            Missing::EngineAndLoad => ["traction-lacks-engine", "traction-add-engine"],
            Missing::Ranges => ["traction-lacks-ranges", "traction-add-ranges"],
        };
        Self {
            what: word(what),
            fix: word(fix),
        }
    }
}

impl TractionReport {
    /// Of a train that was asked.
    ///
    /// # Errors
    /// What the scenario lacks.
    pub fn of(train: &Train, ask: &Ask) -> Result<Self, Missing> {
        Traction::of(train, ask).map(|traction| traction.report(train))
    }
}

impl Traction {
    /// All of it as plain data.
    pub fn report(&self, train: &Train) -> TractionReport {
        let id = |range: usize| train.scenario().ranges[range].id.clone();
        TractionReport {
            ranges: self.ranges(train),
            order: self
                .order
                .iter()
                .map(|&at| id(self.pulls[at].range))
                .collect(),
            engine: self.engine,
            fastest: self.fastest().map(|at| id(self.pulls[at].range)),
            run: self.run.as_ref().ok().map(|run| run.report(train)),
            no_run: self.run.as_ref().err().map(|why| word(why.message())),
            mass: self.vehicle.mass(),
            stated: self.stated(),
            assumed: self.assumed(train),
            problems: self
                .problems
                .iter()
                .map(|problem| WrongReport {
                    place: problem.place.clone(),
                    what: problem.what.clone(),
                    fix: problem.fix.clone(),
                })
                .collect(),
        }
    }

    /// What pulls at a road speed in m/s, and what the road asks on the level and on slopes.
    pub fn reading(&self, train: &Train, speed: f64, slopes: &[f64]) -> ReadingReport {
        let pulls = self.pulls.iter().filter(|pull| {
            let slips = pull
                .at(speed)
                .is_some_and(|at| at.between == Between::Slipping);
            !slips || pull.ratio < 0.0 || self.starts(pull)
        });
        let ranges = pulls.filter_map(|pull| {
            Some(RangeReading {
                id: train.scenario().ranges[pull.range].id.clone(),
                at: ForceReport::from(&pull.at(speed)?),
            })
        });
        let slopes = [0.0].into_iter().chain(slopes.iter().copied());
        let roads = slopes.map(|slope| RoadReading {
            slope,
            force: self.vehicle.resistance(speed, slope),
        });
        ReadingReport {
            speed,
            ranges: ranges.collect(),
            roads: roads.collect(),
        }
    }

    fn ranges(&self, train: &Train) -> Vec<RangeReport> {
        let ranges = train.scenario().ranges.iter().enumerate();
        ranges
            .map(|(at, range)| {
                let pull = self.pulls.iter().find(|pull| pull.range == at);
                let idle = self.idle.iter().find(|idle| idle.range == at);
                let top = pull.and_then(Pull::top);
                let climb = pull.and_then(Pull::climb);
                RangeReport {
                    id: range.id.clone(),
                    label: range.label.clone(),
                    idle: idle.map(|idle| word(reason(idle.why))),
                    ratio: pull.map(|pull| pull.ratio),
                    efficiency: pull.map(|pull| pull.efficiency),
                    locked: pull.is_some_and(|pull| pull.locked),
                    at_engine_limit: top.is_some_and(|top| top.at_engine_limit),
                    top: top.map(|Top { at, .. }| ForceReport::from(&at)),
                    slope: climb
                        .map(|climb| climb.slope)
                        .filter(|slope| slope.is_finite()),
                    lifts: climb.is_some_and(|climb| climb.slope.is_infinite()),
                    climbing: climb.map(|Climb { at, .. }| ForceReport::from(&at)),
                }
            })
            .collect()
    }

    fn stated(&self) -> Vec<StatedReport> {
        let all = [
            ("wheel-radius", self.vehicle.wheel_radius),
            ("final-drive", self.vehicle.final_drive),
            ("engine-inertia", self.inertias.engine()),
        ];
        all.into_iter()
            .map(|(what, Known { value, is_assumed })| StatedReport {
                what,
                value,
                assumed: is_assumed,
            })
            .collect()
    }

    fn assumed(&self, train: &Train) -> Vec<AssumedReport> {
        let shafts = 0..train.scenario().shafts.len();
        let shaft = shafts
            .map(|shaft| self.inertias.shaft(shaft))
            .find(|known| known.is_assumed);
        let all = [
            ("wheel-radius", Some(self.vehicle.wheel_radius)),
            ("final-drive", Some(self.vehicle.final_drive)),
            ("engine-inertia", Some(self.inertias.engine())),
            ("shaft-inertia", shaft),
            ("load-inertia", Some(self.vehicle.inertia)),
        ];
        all.into_iter()
            .filter_map(|(what, known)| Some((what, known?)))
            .filter(|(_, Known { is_assumed, .. })| *is_assumed)
            .map(|(what, Known { value, .. })| AssumedReport { what, value })
            .collect()
    }
}

impl Run {
    fn report(&self, train: &Train) -> RunReport {
        let id = |range: usize| train.scenario().ranges[range].id.clone();
        let (top, at_engine_limit) = match self.end {
            End::Balance(speed) => (speed, false),
            End::EngineLimit(speed) => (speed, true),
        };
        let change = |change: &Change| ChangeReport {
            at: MomentReport::from(&change.at),
            from: id(change.from),
            to: id(change.to),
            before: ForceReport::from(&change.before),
            after: ForceReport::from(&change.after),
            at_engine_limit: change.at_engine_limit,
        };
        RunReport {
            first: id(self.first),
            changes: self.changes.iter().map(change).collect(),
            targets: self.targets.iter().map(MomentReport::from).collect(),
            top,
            at_engine_limit,
            last: MomentReport::from(&self.last),
        }
    }
}

impl From<&Moment> for MomentReport {
    fn from(moment: &Moment) -> Self {
        Self {
            speed: moment.speed,
            time: moment.time,
            distance: moment.distance,
        }
    }
}

impl From<&Force> for ForceReport {
    fn from(force: &Force) -> Self {
        Self {
            speed: force.speed,
            force: force.force,
            engine_speed: force.driven.engine_speed,
            engine_torque: force.driven.engine_torque,
            input_speed: force.driven.input_speed,
            between: match force.between {
                Between::Nothing => "nothing",
                Between::Slipping => "slipping",
                Between::Converter => "converter",
            },
        }
    }
}

impl NoRun {
    const fn message(self) -> &'static str {
        match self {
            Self::NoRange => "traction-no-range",
            Self::NoStart => "traction-no-start",
            Self::LoadTooGreat => "traction-load-too-great",
        }
    }
}

/// The sentence of why a range does not pull.
const fn reason(why: NoPower) -> &'static str {
    match why {
        NoPower::NoDrive => "traction-no-drive",
        NoPower::SelfLocking => "operating-self-locking",
        NoPower::Ambiguous => "operating-ambiguous",
        NoPower::Indeterminate => "operating-indeterminate",
        NoPower::TooMany => "operating-too-many",
    }
}
