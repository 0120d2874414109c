//! What a shift costs: energies, powers, torque at the output, each in closed form piece by piece.

use super::data::Dynamics;
use super::line::Line;
use super::motion::{Mode, Piece};
use super::plan::Plan;
use super::zeros::zeros;
use crate::base::element_set::ElementSet;
use crate::solve::settle::Duty;
use crate::train::Train;

/// Time over which the greatest jerk is a mean, in seconds: torques of rigid members jump where something
/// catches, so that without such a time it would have no bound. (The length is a choice of ours.)
pub const JERK_TIME: f64 = 0.02;

/// The figures of a shift.
#[derive(Debug, Clone, PartialEq)]
pub struct Figures {
    /// From when on all that is to hold does, for good, and what is released is open; `None` where that does not
    /// come about in time.
    pub settled_at: Option<f64>,
    /// From the first command to that, in seconds.
    pub duration: Option<f64>,
    /// Of each element.
    pub elements: Vec<ElementFigures>,
    /// Torque in N·m that the train puts on what its output drives, at the start.
    pub output_before: f64,
    /// The same at the end.
    pub output_after: f64,
    /// The least of it meanwhile, as seen in the direction it has at the start.
    pub output_least: f64,
    /// How far that is below the lesser of both, in N·m.
    pub drop: f64,
    /// The greatest change of the output's acceleration within [`JERK_TIME`], over that time, in rad/s³.
    pub jerk: f64,
    /// Where energy came from and went.
    pub energy: Energy,
}

/// What slipping costs one element.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct ElementFigures {
    /// Heat in J.
    pub heat: f64,
    /// Greatest power that it turns into heat, in W.
    pub peak_power: f64,
    /// For how long it slips under torque, in seconds.
    pub slip_time: f64,
}

/// Energies in J through the whole time.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Energy {
    /// Put in at the input.
    pub input: f64,
    /// Taken at the output by the torque from outside.
    pub output: f64,
    /// More in the turning masses than before.
    pub stored: f64,
    /// Made heat by slipping elements.
    pub heat: f64,
}

impl Piece {
    /// Speed of a shaft in rad/s, so many seconds after the piece began.
    pub fn shaft_speed(&self, shaft: usize, later: f64) -> f64 {
        speed_after(self.shafts[shaft], later)
    }

    /// Slip of an element in rad/s, first end minus second.
    pub fn slip(&self, element: usize, later: f64) -> f64 {
        speed_after(self.slips[element], later)
    }

    /// Power in W that an element turns into heat.
    pub fn slip_power(&self, element: usize, later: f64) -> f64 {
        self.torques[element].after(later) * self.slip(element, later)
    }

    /// When it ends.
    pub fn end(&self) -> f64 {
        self.begin + self.length
    }

    /// Torque in N·m that the train puts on what its output drives: what speeds that up, and what comes from outside.
    pub fn output_torque(&self, train: &Train, dynamics: &Dynamics, plan: &Plan) -> Line {
        let (_, acceleration) = self.shafts[train.output()];
        let inertia = dynamics.load_inertia().value;
        acceleration
            .times(inertia)
            .plus(Line::level(-plan.output_torque))
    }
}

fn speed_after((speed, Line { at, slope }): (f64, Line), later: f64) -> f64 {
    speed + later * (at + slope * later / 2.0)
}

/// ∫ torque · speed over a piece.
fn work(torque: Line, (speed, Line { at, slope }): (f64, Line), length: f64) -> f64 {
    let t = length;
    let constant = torque.at * speed;
    let first = torque.at * at + torque.slope * speed;
    let second = torque.at * slope / 2.0 + torque.slope * at;
    let third = torque.slope * slope / 2.0;
    t * (constant + t * (first / 2.0 + t * (second / 3.0 + t * third / 4.0)))
}

/// Where torque · speed has its extremes, beside the ends.
fn extremes(torque: Line, (speed, Line { at, slope }): (f64, Line)) -> [Option<f64>; 2] {
    let first = torque.at * at + torque.slope * speed;
    let second = torque.at * slope / 2.0 + torque.slope * at;
    let third = torque.slope * slope / 2.0;
    let change = Line {
        at: 2.0 * second,
        slope: 6.0 * third,
    };
    zeros(first, change)
}

impl Figures {
    pub(super) fn of(train: &Train, dynamics: &Dynamics, plan: &Plan, pieces: &[Piece]) -> Self {
        let settled_at = settled_at(train, plan, pieces);
        let outputs: Vec<Line> = pieces
            .iter()
            .map(|piece| piece.output_torque(train, dynamics, plan))
            .collect();
        let ends = |(piece, line): (&Piece, &Line)| [line.at, line.after(piece.length)];
        let values: Vec<f64> = pieces.iter().zip(&outputs).flat_map(ends).collect();
        let output_before = values.first().copied().unwrap_or_default();
        let output_after = values.last().copied().unwrap_or_default();
        let way = if output_before < 0.0 { -1.0 } else { 1.0 };
        let least = values.iter().map(|x| x * way).fold(f64::INFINITY, f64::min);
        let lesser = (output_before * way).min(output_after * way);
        Self {
            settled_at,
            duration: settled_at.map(|at| (at - plan.first_command()).max(0.0)),
            elements: (0..train.scenario().elements.len())
                .map(|element| ElementFigures::of(element, pieces))
                .collect(),
            output_before,
            output_after,
            output_least: least * way,
            drop: (lesser - least).max(0.0),
            jerk: jerk(train, pieces),
            energy: Energy::of(train, dynamics, plan, pieces),
        }
    }
}

impl ElementFigures {
    fn of(element: usize, pieces: &[Piece]) -> Self {
        let mut figures = Self::default();
        let slipping = |mode| matches!(mode, Mode::SlipsForward | Mode::SlipsBackward);
        for piece in pieces.iter().filter(|piece| slipping(piece.modes[element])) {
            let (torque, slip) = (piece.torques[element], piece.slips[element]);
            figures.heat += work(torque, slip, piece.length);
            figures.slip_time += piece.length;
            let inside = extremes(torque, slip).into_iter().flatten();
            let inside = inside.filter(|&at| 0.0 < at && at < piece.length);
            for at in inside.chain([0.0, piece.length]) {
                figures.peak_power = figures.peak_power.max(piece.slip_power(element, at));
            }
        }
        figures
    }
}

impl Energy {
    fn of(train: &Train, dynamics: &Dynamics, plan: &Plan, pieces: &[Piece]) -> Self {
        let mut energy = Self::default();
        for piece in pieces {
            let (input, output) = (piece.shafts[train.input()], piece.shafts[train.output()]);
            energy.input += work(piece.input, input, piece.length);
            energy.output -= work(Line::level(plan.output_torque), output, piece.length);
            for (&torque, &slip) in piece.torques.iter().zip(&piece.slips) {
                energy.heat += work(torque, slip, piece.length);
            }
        }
        let (Some(first), Some(last)) = (pieces.first(), pieces.last()) else {
            return energy;
        };
        for shaft in 0..first.shafts.len() {
            let mut inertia = dynamics.shaft(shaft).value;
            if shaft == train.input() {
                inertia += dynamics.engine_inertia().value;
            }
            if shaft == train.output() {
                inertia += dynamics.load_inertia().value;
            }
            let (before, after) = (
                first.shaft_speed(shaft, 0.0),
                last.shaft_speed(shaft, last.length),
            );
            energy.stored += inertia / 2.0 * (after - before) * (after + before);
        }
        energy
    }

    /// What is left over between what came in and where it went: 0 but for roundings.
    pub fn left_over(&self) -> f64 {
        self.input - self.output - self.stored - self.heat
    }
}

fn settled_at(train: &Train, plan: &Plan, pieces: &[Piece]) -> Option<f64> {
    let duty = match plan.input_torque < 0.0 {
        true => Duty::Coast,
        false => Duty::Drive,
    };
    let holding: ElementSet = train.settle(plan.to, duty).combination.applied();
    let is_settled = |piece: &Piece| {
        let holds = |element| piece.modes[element] == Mode::Holds;
        let open = |element: usize| !piece.capacities[element].is_positive();
        holding.iter().all(holds) && plan.released().iter().all(open)
    };
    let settled = pieces.iter().rev().take_while(|piece| is_settled(piece));
    settled.last().map(|piece| piece.begin)
}

/// The greatest change of the output's acceleration within the time of a mean, over that time.
///
/// Acceleration is linear in each piece and may jump between them, so that the change is greatest where
/// one end of that time is at such a place, or as close to it as one likes.
fn jerk(train: &Train, pieces: &[Piece]) -> f64 {
    let acceleration = |piece: &Piece| piece.shafts[train.output()].1;
    let end = pieces.last().map_or(0.0, Piece::end);
    // Just before, and just after.
    let around = |time: f64| {
        let next = pieces.partition_point(|piece| piece.begin <= time);
        let after = next.checked_sub(1).map(|place| &pieces[place]);
        let before = match after {
            Some(piece) if piece.begin == time => next.checked_sub(2).map(|place| &pieces[place]),
            other => other,
        };
        let value = move |piece: &Piece| acceleration(piece).after(time - piece.begin);
        before.into_iter().chain(after).map(value)
    };
    let places = pieces.iter().flat_map(|piece| [piece.begin, piece.end()]);
    let windows = places.flat_map(|at| [(at - JERK_TIME, at), (at, at + JERK_TIME)]);
    let mut greatest: f64 = 0.0;
    for (from, to) in windows.filter(|&(from, to)| from >= 0.0 && to <= end) {
        for a in around(from) {
            for b in around(to) {
                greatest = greatest.max((b - a).abs());
            }
        }
    }
    greatest / JERK_TIME
}
