//! What is commanded in a shift, and when.

use super::data::Dynamics;
use super::line::Course;
use crate::base::element_set::ElementSet;
use crate::base::problem::Problem;
use crate::train::Train;

/// Longest shift that is reckoned, in seconds.
pub const LONGEST: f64 = 10.0;
/// How long engine torque takes to go down and to come back, in seconds.
pub const CUT_RAMP: f64 = 0.03;
/// Fastest input at the start, in rev/min.
pub const INPUT_SPEED_MAX: f64 = 30_000.0;
/// Largest torque at input or output, in N·m.
pub const TORQUE_MAX: f64 = 100_000.0;

/// One shift: what is applied before and after, and the commands in between.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Applied before.
    pub from: ElementSet,
    /// Applied after.
    pub to: ElementSet,
    /// One for each element that is released or applied.
    pub commands: Vec<Command>,
    /// Where engine torque is taken back meanwhile.
    pub cut: Option<Cut>,
    /// When the reckoning ends, in seconds from its start.
    pub until: f64,
    /// Speed of the input at the start in rev/min.
    pub input_speed: f64,
    /// Torque at the input in N·m, positive where it drives forward; the same all the time but for the cut.
    pub input_torque: f64,
    /// Torque from outside at the output in N·m, the same all the time; negative where it resists forward motion.
    pub output_torque: f64,
}

/// What is commanded of one element.
///
/// Released, its capacity goes from that at full command to 0 within `ramp` from `at` on. Applied, it
/// is filled from `at` on for its fill time, and then its capacity rises within `ramp`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Command {
    /// Its index.
    pub element: usize,
    /// Seconds from the start.
    pub at: f64,
    /// Seconds that the ramp takes; 0 is at once.
    pub ramp: f64,
}

/// Engine torque taken back: down within [`CUT_RAMP`] from `begin` on, and back up until `end`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// Seconds from the start.
    pub begin: f64,
    /// Seconds from the start.
    pub end: f64,
    /// Which part is taken away, from 0 to 1.
    pub depth: f64,
}

impl Plan {
    /// A shift with commands at the usual times, which somebody then changes: what is applied begins to be filled at
    /// once, and what is released goes when that is full.
    ///
    /// Ramps and their times are choices of ours (assumed, no source).
    pub fn usual(train: &Train, dynamics: &Dynamics, from: ElementSet, to: ElementSet) -> Self {
        let fills = to.iter().filter(|&element| !from.contains(element));
        let full = fills
            .map(|element| dynamics.fill_time(element).value)
            .fold(0.0, f64::max);
        let changed = (0..train.scenario().elements.len())
            .filter(|&element| from.contains(element) != to.contains(element));
        let command = |element| match to.contains(element) {
            true => Command {
                element,
                at: START + full - dynamics.fill_time(element).value,
                ramp: 0.3,
            },
            false => Command {
                element,
                at: START + full,
                ramp: 0.2,
            },
        };
        Self {
            from,
            to,
            commands: changed.map(command).collect(),
            cut: None,
            until: 1.5,
            input_speed: dynamics.input_speed.value,
            input_torque: dynamics.input_torque.value,
            output_torque: dynamics.output_torque(train, from, to).value,
        }
    }

    /// What is wrong with it.
    pub fn problems(&self, train: &Train) -> Vec<Problem> {
        let mut problems = Vec::new();
        let mut check = |place: &str, value: f64, least: f64, most: f64| {
            if !(least..=most).contains(&value) {
                problems.push(Problem::out_of_range(
                    place,
                    "problem-out-of-range",
                    value,
                    least,
                    most,
                ));
            }
        };
        check("until", self.until, 0.01, LONGEST);
        check("input_speed", self.input_speed, 1.0, INPUT_SPEED_MAX);
        check("input_torque", self.input_torque, -TORQUE_MAX, TORQUE_MAX);
        check("output_torque", self.output_torque, -TORQUE_MAX, TORQUE_MAX);
        for (index, command) in self.commands.iter().enumerate() {
            let place = |field: &str| format!("commands[{index}].{field}");
            check(&place("at"), command.at, 0.0, LONGEST);
            check(&place("ramp"), command.ramp, 0.0, LONGEST);
            let most = train.scenario().elements.len().saturating_sub(1) as f64;
            check(&place("element"), command.element as f64, 0.0, most);
        }
        if let Some(cut) = self.cut {
            check("cut.begin", cut.begin, 0.0, LONGEST);
            check("cut.end", cut.end, cut.begin, LONGEST);
            check("cut.depth", cut.depth, 0.0, 1.0);
        }
        problems
    }

    /// What is applied before and not after.
    pub fn released(&self) -> ElementSet {
        self.from
            .iter()
            .filter(|&element| !self.to.contains(element))
            .collect()
    }

    /// What is applied after and not before.
    pub fn applied(&self) -> ElementSet {
        self.to
            .iter()
            .filter(|&element| !self.from.contains(element))
            .collect()
    }

    /// The capacity of an element over time. Without a command a changed one changes at the start.
    pub(super) fn capacity(&self, dynamics: &Dynamics, element: usize) -> Course {
        let full = dynamics.full_torque(element).value;
        let (before, after) = (self.from.contains(element), self.to.contains(element));
        if before && after {
            return Course::level(full);
        }
        if !before && !after {
            return Course::level(0.0);
        }
        let mut commands = self.commands.iter();
        let command = commands.find(|command| command.element == element);
        let (at, ramp) = command.map_or((0.0, 0.0), |command| (command.at, command.ramp));
        match before {
            true => Course::through(vec![[at, full], [at + ramp, 0.0]]),
            false => {
                let filled = at + dynamics.fill_time(element).value;
                // A knot at the command as well, as the phase changes there.
                Course::through(vec![[at, 0.0], [filled, 0.0], [filled + ramp, full]])
            }
        }
    }

    /// The torque at the input over time.
    pub(super) fn input(&self) -> Course {
        let Some(Cut { begin, end, depth }) = self.cut else {
            return Course::level(self.input_torque);
        };
        let ramp = CUT_RAMP.min((end - begin) / 2.0);
        let (full, low) = (self.input_torque, self.input_torque * (1.0 - depth));
        Course::through(vec![
            [begin, full],
            [begin + ramp, low],
            [end - ramp, low],
            [end, full],
        ])
    }

    /// When the first command comes.
    pub fn first_command(&self) -> f64 {
        let cut = self.cut.map(|cut| cut.begin);
        let times = self.commands.iter().map(|command| command.at).chain(cut);
        times.reduce(f64::min).unwrap_or(0.0)
    }
}

/// When the first command of a usual shift comes, in seconds: something is seen before.
const START: f64 = 0.1;
