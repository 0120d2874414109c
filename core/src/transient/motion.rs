//! How a train moves through a shift, piece by piece, each in closed form.
//!
//! Torques at input and output and capacities of elements are linear in time between knots. While each element
//! either holds, slips one way or is open, all torques are linear in time, so accelerations too, and speeds are
//! quadratic: no integrator is needed, and none has a step to choose. A piece ends at the next knot, or where a torque
//! that holds reaches its bound (a zero of a line), or where a slip comes to zero (a zero of a quadratic): events are
//! where they are but for roundings. What elements without slip do next is decided for all at once (`contact`).

use super::balance::Balance;
use super::data::Dynamics;
use super::dense::dot;
use super::line::{Course, Line};
use super::plan::Plan;
use super::plant::Plant;
use crate::solve::State;
use crate::solve::settle::Duty;
use crate::train::Train;

/// What an element does through one piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Mode {
    /// It carries nothing: it is released, or overruns.
    Open,
    /// Its two ends turn alike.
    Holds,
    /// Its first end is the faster, and its torque is at its limit.
    SlipsForward,
    /// Its first end is the slower, and its torque is at its limit.
    SlipsBackward,
}

/// A stretch of time through which nothing changes but evenly.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// When it begins, in seconds.
    pub begin: f64,
    /// How long it lasts.
    pub length: f64,
    /// What each element does.
    pub modes: Vec<Mode>,
    /// Torque in N·m that each element passes from its first end to its second.
    pub torques: Vec<Line>,
    /// Capacity of each element in N·m.
    pub capacities: Vec<Line>,
    /// Torque at the input in N·m.
    pub input: Line,
    /// Speed at the beginning in rad/s, and acceleration, of each shaft.
    pub shafts: Vec<(f64, Line)>,
    /// The same of the slip of each element, first end minus second; exactly 0 where it holds.
    pub slips: Vec<(f64, Line)>,
}

/// Why a shift is not reckoned.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Refusal {
    /// Before it the train is tied up or its output is held: the input cannot turn, or nothing moves.
    TiedUp,
    /// One-way clutches could settle in several ways before it, or in none.
    Unsettled,
    /// Roundings keep what happens next from being decided: inertias or torques differ too much.
    Undecided,
}

/// Pieces of one shift at most. Each command gives four knots; other events come once or twice an element.
const MOST_PIECES: usize = 1000;
/// Events nearer to each other than this, in seconds, are one.
const INSTANT: f64 = 1e-12;
pub(super) const RAD_PER_S: f64 = std::f64::consts::PI / 30.0;

/// All pieces of a shift.
///
/// # Errors
/// See [`Refusal`].
pub(super) fn pieces(
    train: &Train,
    dynamics: &Dynamics,
    plan: &Plan,
) -> Result<Vec<Piece>, Refusal> {
    let plant = Plant::new(train, dynamics);
    let mut motion = Motion {
        coordinates: plant.coordinates(&start(train, plan)?),
        capacities: (0..plant.slips.len())
            .map(|element| match plant.is_one_way(element) {
                true => Course::level(0.0),
                false => plan.capacity(dynamics, element),
            })
            .collect(),
        input: plan.input(),
        output: plan.output_torque,
        meets: vec![false; plant.slips.len()],
        time: 0.0,
        plant,
    };
    let mut pieces = Vec::new();
    let mut turns = 0;
    while motion.time < plan.until {
        // Those without length count as well, lest it goes on for ever.
        turns += 1;
        if turns > MOST_PIECES {
            return Err(Refusal::Undecided);
        }
        let piece = motion.next(plan.until).ok_or(Refusal::Undecided)?;
        if piece.length > 0.0 {
            pieces.push(piece);
        }
    }
    Ok(pieces)
}

/// Speeds of the shafts at the start in rad/s. What is free then is taken to stand still as far as it can.
fn start(train: &Train, plan: &Plan) -> Result<Vec<f64>, Refusal> {
    let duty = match plan.input_torque < 0.0 {
        true => Duty::Coast,
        false => Duty::Drive,
    };
    let settled = train.settle(plan.from, duty);
    if settled.verdict != crate::solve::settle::Verdict::Settled {
        return Err(Refusal::Unsettled);
    }
    if *settled.combination.state() == State::TiedUp {
        return Err(Refusal::TiedUp);
    }
    let speeds = train.illustrate(settled.combination.applied());
    let input = plan.input_speed * RAD_PER_S;
    Ok(speeds.iter().map(|speed| speed.to_f64() * input).collect())
}

/// A train on its way through a shift.
pub(super) struct Motion<'a> {
    pub plant: Plant<'a>,
    pub capacities: Vec<Course>,
    pub input: Course,
    pub output: f64,
    pub time: f64,
    pub coordinates: Vec<f64>,
    /// Whether the slip of an element is exactly zero now, whatever roundings make of it.
    pub meets: Vec<bool>,
}

impl Motion<'_> {
    /// The next piece; `None` where it cannot be decided.
    fn next(&mut self, until: f64) -> Option<Piece> {
        let balance = Balance::of(self)?;
        let count = self.plant.slips.len();
        let ends: Vec<Option<f64>> = (0..count)
            .map(|element| balance.end(&self.plant, element))
            .collect();
        let knots = self.capacities.iter().chain([&self.input]);
        let knots = knots.filter_map(|course| course.next_knot(self.time));
        let knot = knots.fold(until, f64::min);
        let event = ends.iter().flatten().copied().fold(f64::INFINITY, f64::min);
        let left = knot - self.time;
        let length = if event < left - INSTANT { event } else { left };

        let mut moved = self.coordinates.clone();
        for (q, Line { at, slope }) in moved.iter_mut().zip(&balance.pull.sums) {
            *q += length * (at + slope * length / 2.0);
        }
        let piece = self.piece(balance, length);
        for (element, end) in ends.iter().enumerate() {
            let holds = piece.modes[element] == Mode::Holds;
            self.meets[element] = holds || end.is_some_and(|end| end <= length + INSTANT);
        }
        self.coordinates = moved;
        // A knot is where it is, not where additions lead to.
        self.time = match length == left {
            true => knot,
            false => self.time + length,
        };
        Some(piece)
    }

    /// What happens from now on for so long.
    fn piece(&self, balance: Balance, length: f64) -> Piece {
        let plant = &self.plant;
        let elements = &plant.train.scenario().elements;
        let signs: Vec<f64> = elements.iter().map(super::plant::orientation).collect();
        let torques = balance.torques.iter().zip(&signs);
        let slips = signs.iter().enumerate().map(|(element, &sign)| {
            let (speed, acceleration) = balance.slip(plant, element);
            (speed * sign, acceleration.times(sign))
        });
        let shafts = plant.shafts.iter();
        Piece {
            begin: self.time,
            length,
            torques: torques.map(|(x, &sign)| x.times(sign)).collect(),
            slips: slips.collect(),
            shafts: shafts
                .map(|row| (dot(row, &self.coordinates), balance.pull.along(row)))
                .collect(),
            capacities: balance.capacities,
            input: balance.input,
            modes: balance.modes,
        }
    }
}
