//! A shift with many timings: what comes of releasing and applying sooner or later.

use super::data::Dynamics;
use super::plan::Plan;
use super::{RAD_PER_S, Shift};
use crate::train::Train;

/// What comes of one timing.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Timing {
    /// By how much the input runs away at most, in rev/min.
    pub flare: f64,
    /// The largest torque in N·m that an element fights with.
    pub bind: f64,
    /// Energy in J that all elements make heat.
    pub heat: f64,
}

/// A shift with all that is released so many seconds later than planned, for each of these, and all that is applied
/// likewise: rows of one time of applying after the other. `None` where it is refused. What would come before the start comes at the start.
pub fn timings(
    train: &Train,
    dynamics: &Dynamics,
    plan: &Plan,
    releases: &[f64],
    applies: &[f64],
) -> Vec<Option<Timing>> {
    let pairs = applies
        .iter()
        .flat_map(|&apply| releases.iter().map(move |&release| (release, apply)));
    let timed = pairs.map(|(release, apply)| {
        let mut plan = plan.clone();
        for command in &mut plan.commands {
            let later = match plan.to.contains(command.element) {
                true => apply,
                false => release,
            };
            command.at = (command.at + later).max(0.0);
        }
        let shift = Shift::of(train, dynamics, plan).ok()?;
        Some(Timing {
            flare: shift.marks.flare / RAD_PER_S,
            bind: shift.marks.bind,
            heat: shift.figures.energy.heat,
        })
    });
    timed.collect()
}
