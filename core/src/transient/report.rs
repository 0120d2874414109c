//! A shift in time as plain data.

use serde::Serialize;

use super::RAD_PER_S;
use super::{Known, Mode, Plan, SLIGHT_BIND, SLIGHT_FLARE, Shift, Stretch};
use crate::train::Train;
use crate::transient::Dynamics;

/// What is commanded in a shift, and what is assumed of the train.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedPlan"))]
pub struct PlanReport {
    /// One for each element that is released or applied.
    pub commands: Vec<CommandReport>,
    /// Where engine torque is taken back: from, to, and which part; `null` where it is not.
    pub cut: Option<[f64; 3]>,
    /// When the reckoning ends, in seconds.
    pub until: f64,
    /// Speed of the input at the start in rev/min.
    pub input_speed: f64,
    /// Torque at the input in N·m.
    pub input_torque: f64,
    /// Torque from outside at the output in N·m, negative where it resists.
    pub output_torque: f64,
    /// A flare of less rev/min is slight.
    pub slight_flare: f64,
    /// A tie-up with less N·m is slight.
    pub slight_bind: f64,
    /// Inertias in kg·m²: of the engine, of what the output drives, and then of each shaft.
    pub inertias: Vec<KnownReport>,
    /// Of each element its torque at full command in N·m.
    pub full_torques: Vec<KnownReport>,
    /// Of each element its fill time in seconds.
    pub fill_times: Vec<KnownReport>,
}

/// What is commanded of one element.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedCommand"))]
pub struct CommandReport {
    /// Id of the element.
    pub element: String,
    /// Whether it is applied; otherwise it is released.
    pub applies: bool,
    /// When, in seconds.
    pub at: f64,
    /// For how long it is filled before its capacity rises, in seconds.
    pub fill: f64,
    /// How long its ramp takes, in seconds.
    pub ramp: f64,
}

/// A value, and whether it is assumed.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedValue"))]
pub struct KnownReport {
    /// The value.
    pub value: f64,
    /// Whether it is assumed, as the file does not say.
    pub assumed: bool,
}

/// How a shift goes, and what it costs.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedShiftReport"))]
pub struct TransientReport {
    /// When all that is to hold does, for good, in seconds; `null` where that does not come about.
    pub settled_at: Option<f64>,
    /// From the first command to that.
    pub duration: Option<f64>,
    /// The elements that slip under torque, or are commanded.
    pub elements: Vec<SlipReport>,
    /// Torque that the train puts on what its output drives, in N·m: at the start.
    pub output_before: f64,
    /// At the end.
    pub output_after: f64,
    /// The least of it as seen in the direction it has at the start.
    pub output_least: f64,
    /// How far that is below the lesser of both.
    pub drop: f64,
    /// The greatest jerk at the output in rad/s³.
    pub jerk: f64,
    /// Energies in J: put in at the input,
    pub input: f64,
    /// taken at the output,
    pub output: f64,
    /// more in turning masses than before,
    pub stored: f64,
    /// and made heat.
    pub heat: f64,
    /// The phases, in order.
    pub phases: Vec<PhaseReport>,
    /// Where the input runs away: from and to, in seconds.
    pub flares: Vec<[f64; 2]>,
    /// By how much at most, in rev/min.
    pub flare: f64,
    /// Where elements fight.
    pub binds: Vec<BindReport>,
    /// With how much at most, in N·m.
    pub bind: f64,
}

/// What slipping costs one element.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedSlip"))]
pub struct SlipReport {
    /// Id of the element.
    pub element: String,
    /// Heat in J.
    pub heat: f64,
    /// Greatest power made heat, in W.
    pub peak_power: f64,
    /// For how long, in seconds.
    pub slip_time: f64,
}

/// A phase of a shift.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedPhase"))]
pub struct PhaseReport {
    /// `before`, `fill`, `torque`, `inertia` or `after`.
    pub phase: &'static str,
    /// From, in seconds.
    pub begin: f64,
    /// To, in seconds.
    pub end: f64,
}

/// Where an element fights the others.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedBind"))]
pub struct BindReport {
    /// Id of the element.
    pub element: String,
    /// From, in seconds.
    pub begin: f64,
    /// To, in seconds.
    pub end: f64,
}

/// What can be read of a shift at one time.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedReading"))]
pub struct Reading {
    /// `before`, `fill`, `torque`, `inertia`, `after`; `null` where there are no phases.
    pub phase: Option<&'static str>,
    /// Speed of each shaft in rev/min.
    pub speeds: Vec<f64>,
    /// Torque in N·m that each element passes from its first end to its second.
    pub torques: Vec<f64>,
    /// `open`, `holds` or `slips`, of each element.
    #[cfg_attr(feature = "types", ts(type = "(\"open\" | \"holds\" | \"slips\")[]"))]
    pub modes: Vec<&'static str>,
    /// Torque that the train puts on what its output drives, in N·m.
    pub output: f64,
    /// Power that all elements make heat, in W.
    pub slip_power: f64,
}

impl PlanReport {
    /// What is commanded of a train.
    pub fn of(train: &Train, dynamics: &Dynamics, plan: &Plan) -> Self {
        let known = |Known { value, is_assumed }: Known| KnownReport {
            value,
            assumed: is_assumed,
        };
        let elements = 0..train.scenario().elements.len();
        let commands = plan.commands.iter().map(|command| {
            let applies = plan.to.contains(command.element);
            CommandReport {
                element: id(train, command.element),
                applies,
                at: command.at,
                fill: match applies {
                    true => dynamics.fill_time(command.element).value,
                    false => 0.0,
                },
                ramp: command.ramp,
            }
        });
        let shafts = (0..train.scenario().shafts.len()).map(|shaft| dynamics.shaft(shaft));
        Self {
            commands: commands.collect(),
            cut: plan.cut.map(|cut| [cut.begin, cut.end, cut.depth]),
            until: plan.until,
            input_speed: plan.input_speed,
            input_torque: plan.input_torque,
            output_torque: plan.output_torque,
            slight_flare: plan.input_speed * SLIGHT_FLARE,
            slight_bind: plan.input_torque.abs() * SLIGHT_BIND,
            inertias: [dynamics.engine_inertia(), dynamics.load_inertia()]
                .into_iter()
                .chain(shafts)
                .map(known)
                .collect(),
            full_torques: elements
                .clone()
                .map(|x| known(dynamics.full_torque(x)))
                .collect(),
            fill_times: elements.map(|x| known(dynamics.fill_time(x))).collect(),
        }
    }
}

impl TransientReport {
    /// How a shift of a train goes.
    pub fn of(train: &Train, shift: &Shift) -> Self {
        let (figures, marks) = (&shift.figures, &shift.marks);
        let commanded = |element| shift.plan.commands.iter().any(|x| x.element == element);
        let elements = figures.elements.iter().enumerate();
        let elements = elements.filter(|&(element, x)| x.slip_time > 0.0 || commanded(element));
        let energy = figures.energy;
        Self {
            settled_at: figures.settled_at,
            duration: figures.duration,
            elements: elements
                .map(|(element, figures)| SlipReport {
                    element: id(train, element),
                    heat: figures.heat,
                    peak_power: figures.peak_power,
                    slip_time: figures.slip_time,
                })
                .collect(),
            output_before: figures.output_before,
            output_after: figures.output_after,
            output_least: figures.output_least,
            drop: figures.drop,
            jerk: figures.jerk,
            input: energy.input,
            output: energy.output,
            stored: energy.stored,
            heat: energy.heat,
            phases: marks
                .phases
                .iter()
                .map(|&(phase, Stretch { begin, end })| PhaseReport {
                    phase: phase.key(),
                    begin,
                    end,
                })
                .collect(),
            flares: marks.flares.iter().map(|x| [x.begin, x.end]).collect(),
            flare: marks.flare / RAD_PER_S,
            binds: marks
                .binds
                .iter()
                .map(|&(element, Stretch { begin, end })| BindReport {
                    element: id(train, element),
                    begin,
                    end,
                })
                .collect(),
            bind: marks.bind,
        }
    }
}

impl Reading {
    /// What a shift of a train is at a time; `None` where it has no pieces.
    pub fn of(train: &Train, dynamics: &Dynamics, shift: &Shift, time: f64) -> Option<Self> {
        let (piece, later) = shift.at(time)?;
        let phases = shift.marks.phases.iter().rev();
        let phase = phases
            .filter(|(_, x)| x.begin <= time)
            .map(|(x, _)| x)
            .next();
        let shafts = 0..piece.shafts.len();
        let powers = (0..piece.slips.len()).map(|element| piece.slip_power(element, later));
        Some(Self {
            phase: phase.map(|phase| phase.key()),
            speeds: shafts
                .map(|shaft| piece.shaft_speed(shaft, later) / RAD_PER_S)
                .collect(),
            torques: piece.torques.iter().map(|x| x.after(later)).collect(),
            modes: piece.modes.iter().map(|mode| mode.key()).collect(),
            output: piece
                .output_torque(train, dynamics, &shift.plan)
                .after(later),
            slip_power: powers.sum(),
        })
    }
}

impl Mode {
    /// A word for data.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Open => "open",
            Self::Holds => "holds",
            Self::SlipsForward | Self::SlipsBackward => "slips",
        }
    }
}

fn id(train: &Train, element: usize) -> String {
    train.scenario().elements[element].id().to_owned()
}
