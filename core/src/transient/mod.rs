//! A shift as it happens: how members move and what elements carry while some are released and others applied.
//!
//! Members turn as the exact kinematics says. Each clutch and brake is open, holds, or slips with a torque at its
//! capacity against its slip; one-way clutches block one way and overrun the other. Friction is ideal: its
//! coefficient is the same at all speeds and at rest, and nothing heats, drags or fades. Gears have no losses and
//! shafts no give. The torque at the input is the same all the time but where it is taken back on command, and so is that
//! at the output: within a shift a vehicle hardly changes its speed, and an engine's torque is
//! commanded. So motion between events is in closed form ([`Piece`]), and nothing here has a step to choose.
//!
//! Units: seconds, rad/s, N·m, kg·m², J, W; what a person enters is in rev/min. Signs: speeds and torques are positive along the
//! input's direction at positive speed; an element's torque is what it passes from its first end to its
//! second.
//!
//! Accuracy: all is in `f64`, from exact rows. Energies balance to 1e-9 of what was put in, and events are at their times to
//! 1e-9 s, as long as inertias are within some eight orders of size of each other (tests say so).

mod balance;
mod contact;
mod data;
mod dense;
mod figures;
mod line;
mod motion;
mod phases;
mod plan;
mod plant;
mod report;
mod suited;
mod timings;
mod zeros;

pub use data::{
    Dynamics, ENGINE_INERTIA, FILL, FILL_TIME, FULL_TORQUE, INERTIA, INPUT_SPEED, INPUT_TORQUE,
    Inertias, Known, LOAD_INERTIA, RESERVE, SHAFT_INERTIA,
};
pub use figures::{ElementFigures, Energy, Figures, JERK_TIME};
pub use line::{Course, Line};
pub use motion::{Mode, Piece, Refusal};
pub use phases::{Marks, Phase, SLIGHT_BIND, SLIGHT_FLARE, Stretch};
pub use plan::{CUT_RAMP, Command, Cut, INPUT_SPEED_MAX, LONGEST, Plan, TORQUE_MAX};
pub use report::{PlanReport, Reading, TransientReport};
pub use timings::{Timing, timings};

use self::motion::RAD_PER_S;
use crate::train::Train;

/// A shift, reckoned.
#[derive(Debug, Clone, PartialEq)]
pub struct Shift {
    /// What was commanded.
    pub plan: Plan,
    /// How it went, from the start on without a gap.
    pub pieces: Vec<Piece>,
    /// What it costs.
    pub figures: Figures,
    /// Its phases, and what is wrong with it.
    pub marks: Marks,
}

impl Shift {
    /// Reckons a shift.
    ///
    /// # Errors
    /// See [`Refusal`]. A plan with [`Plan::problems`] is not to be given.
    pub fn of(train: &Train, dynamics: &Dynamics, plan: Plan) -> Result<Self, Refusal> {
        let pieces = motion::pieces(train, dynamics, &plan)?;
        let fills: Vec<Stretch> = plan
            .commands
            .iter()
            .filter(|command| plan.to.contains(command.element))
            .map(|command| Stretch {
                begin: command.at,
                end: command.at + dynamics.fill_time(command.element).value,
            })
            .collect();
        Ok(Self {
            figures: Figures::of(train, dynamics, &plan, &pieces),
            marks: Marks::of(train, &fills, &plan, &pieces),
            pieces,
            plan,
        })
    }

    /// The piece of a time, and how long after its beginning that is.
    pub fn at(&self, time: f64) -> Option<(&Piece, f64)> {
        let next = self.pieces.partition_point(|piece| piece.begin <= time);
        let piece = &self.pieces[next.saturating_sub(1)..].first()?;
        Some((piece, (time - piece.begin).clamp(0.0, piece.length)))
    }
}
