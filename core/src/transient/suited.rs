//! Commands that suit a single swap: it neither flares nor binds, as far as ramps alone can do that.
//!
//! Two ways are reckoned, and the better one is taken. *Handed over*: the capacity of what is released comes to zero as
//! late as it can without a torque against its own, so that the one gives as much as the other takes (an upshift under power). *Caught*: what is released is open before what is applied begins to carry, and
//! that comes up just before its ends would turn alike (a downshift under power). Both are common practice, no source.

use super::data::Dynamics;
use super::plan::{Command, Plan};
use super::{Mode, Shift};
use crate::base::element_set::ElementSet;
use crate::train::Train;

/// How long the ramp takes of an element that catches, in seconds, and how much of it comes before its ends turn alike.
const CATCH: f64 = 0.06;
const BEFORE: f64 = 0.5;
/// How often the way to the best release is halved: to a millionth of the ramp.
const HALVINGS: usize = 20;

impl Plan {
    /// A shift with commands that suit it, where it releases one element and applies one; otherwise as [`Plan::usual`].
    pub fn suited(train: &Train, dynamics: &Dynamics, from: ElementSet, to: ElementSet) -> Self {
        let usual = Self::usual(train, dynamics, from, to);
        let one = |set: ElementSet| {
            let mut all = set.iter();
            all.next().filter(|_| all.next().is_none())
        };
        let (Some(released), Some(applied)) = (one(usual.released()), one(usual.applied())) else {
            return usual;
        };
        let over = usual.handed_over(train, dynamics, released, applied);
        let caught = usual.caught(train, dynamics, released, applied);
        let plans = over.into_iter().chain(caught).chain([usual.clone()]);
        let costs = plans.filter_map(|plan| {
            let shift = Shift::of(train, dynamics, plan).ok()?;
            let marks = &shift.marks;
            let is_settled = shift.figures.settled_at.is_some();
            // Both against what there is: a torque and a speed.
            let cost = marks.bind / shift.plan.input_torque.abs().max(1e-9)
                + marks.flare / shift.plan.input_speed;
            Some(((!is_settled, cost), shift.plan))
        });
        let best = costs.min_by(|(a, _), (b, _)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        best.map_or(usual, |(_, plan)| plan)
    }

    /// The release that gives as much as the other takes: halved between one that binds and one that does not.
    fn handed_over(
        &self,
        train: &Train,
        dynamics: &Dynamics,
        released: usize,
        applied: usize,
    ) -> Option<Self> {
        let command = self.of(applied)?;
        let full = command.at + dynamics.fill_time(applied).value;
        let released_in = |part: f64| self.with(released, full, command.ramp * part);
        let (mut open, mut binding) = (0.0, 1.0);
        for _ in 0..HALVINGS {
            let middle = (open + binding) / 2.0;
            let shift = Shift::of(train, dynamics, released_in(middle)).ok()?;
            match shift.marks.bind > 0.0 {
                true => binding = middle,
                false => open = middle,
            }
        }
        Some(released_in(open))
    }

    fn caught(
        &self,
        train: &Train,
        dynamics: &Dynamics,
        released: usize,
        applied: usize,
    ) -> Option<Self> {
        let first = self.first_command();
        let open = self.with(released, first, self.of(released)?.ramp);
        // As it goes without what is applied.
        let never = open.with(applied, self.until, 0.0);
        let shift = Shift::of(train, dynamics, never).ok()?;
        let meets = shift.pieces.iter().find_map(|piece| {
            let (speed, change) = piece.slips[applied];
            let carries = piece.modes[released] != Mode::Open;
            let alike = super::zeros::first_zero((speed, change));
            let alike = alike.filter(|&later| later <= piece.length && !carries)?;
            Some(piece.begin + alike)
        })?;
        let fill = dynamics.fill_time(applied).value;
        let at = meets - CATCH * BEFORE - fill;
        (at >= 0.0).then(|| open.with(applied, at, CATCH))
    }

    fn of(&self, element: usize) -> Option<Command> {
        let mut commands = self.commands.iter();
        commands.find(|command| command.element == element).copied()
    }

    fn with(&self, element: usize, at: f64, ramp: f64) -> Self {
        let mut plan = self.clone();
        for command in &mut plan.commands {
            if command.element == element {
                (command.at, command.ramp) = (at, ramp);
            }
        }
        plan
    }
}
