//! How a train moves through a shift, piece by piece, each in closed form.
//!
//! Torques at input and output and capacities of elements are linear in time between knots. While each element
//! either holds, slips one way or is open, all torques are linear in time, so accelerations too, and speeds are
//! quadratic: no integrator is needed, and none has a step to choose. A piece ends at the next knot, or where a torque
//! that holds reaches its bound (a zero of a line), or where a slip comes to zero (a zero of a quadratic): events are
//! where they are but for roundings. What elements without slip do next is decided for all at once (`contact`).

use super::contact::{Bounds, Next, Noise, decide};
use super::data::Dynamics;
use super::dense::{Symmetric, dot};
use super::line::{Course, Line};
use super::plan::Plan;
use super::plant::Plant;
use super::zeros::{first_zero, first_zero_of_line};
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
/// A slip this small against the largest speed is none.
const NO_SLIP: f64 = 1e-12;
/// A sum this small against its parts is zero.
const ROUNDING: f64 = 1e-13;

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

struct Motion<'a> {
    plant: Plant<'a>,
    capacities: Vec<Course>,
    input: Course,
    output: f64,
    time: f64,
    coordinates: Vec<f64>,
    /// Whether the slip of an element is exactly zero now, whatever roundings make of it.
    meets: Vec<bool>,
}

/// Accelerations of the coordinates, and the sizes of what they are sums of.
struct Pull {
    sums: Vec<Line>,
    sizes: Vec<Line>,
}

impl Pull {
    fn none(freedom: usize) -> Self {
        Self {
            sums: vec![Line::default(); freedom],
            sizes: vec![Line::default(); freedom],
        }
    }

    fn add(&mut self, row: &[f64], torque: Line) {
        for ((sum, size), &cell) in self.sums.iter_mut().zip(&mut self.sizes).zip(row) {
            let part = torque.times(cell);
            *sum = sum.plus(part);
            size.at += part.at.abs();
            size.slope += part.slope.abs();
        }
    }

    /// The acceleration of what a row gives; roundings of a sum that is zero are none.
    fn along(&self, row: &[f64]) -> Line {
        let sums = self.sums.iter().zip(row);
        let sum = sums.fold(Line::default(), |sum, (line, cell)| {
            sum.plus(line.times(*cell))
        });
        sum.cleared(self.roundings(row))
    }

    /// What is not known of it.
    fn roundings(&self, row: &[f64]) -> Line {
        let sizes = self.sizes.iter().zip(row);
        let all = sizes.fold(Line::default(), |sum, (size, cell)| {
            sum.plus(size.times(cell.abs()))
        });
        all.times(ROUNDING)
    }
}

impl Motion<'_> {
    /// The next piece; `None` where it cannot be decided.
    fn next(&mut self, until: f64) -> Option<Piece> {
        let plant = &self.plant;
        let train = plant.train;
        let count = plant.slips.len();
        let shaft_speed = |shaft: &Vec<f64>| dot(shaft, &self.coordinates).abs();
        let fastest = plant.shafts.iter().map(shaft_speed).fold(0.0, f64::max);
        let mut pull = Pull::none(plant.freedom);
        let input = self.input.from(self.time);
        pull.add(&plant.shafts[train.input()], input);
        pull.add(&plant.shafts[train.output()], Line::level(self.output));

        let capacities: Vec<Line> = self.capacities.iter().map(|x| x.from(self.time)).collect();
        let mut modes = vec![Mode::Open; count];
        let mut torques = vec![Line::default(); count];
        // Those without slip, which are decided together.
        let mut met = Vec::new();
        let mut slips = vec![0.0; count];
        for element in 0..count {
            let slip = dot(&plant.slips[element], &self.coordinates);
            let meets = self.meets[element] || slip.abs() <= NO_SLIP * fastest;
            slips[element] = if meets { 0.0 } else { slip };
            if plant.is_one_way(element) {
                if meets || slip > 0.0 {
                    slips[element] = 0.0;
                    met.push(element);
                }
            } else if !capacities[element].is_positive() {
                // Released: whether it slips does not matter.
            } else if meets {
                met.push(element);
            } else {
                let sign = slip.signum();
                modes[element] = slipping(sign);
                torques[element] = capacities[element].times(sign);
                pull.add(&plant.slips[element], torques[element].times(-1.0));
            }
        }
        let rows: Vec<&[f64]> = met.iter().map(|&x| plant.slips[x].as_slice()).collect();
        let free: Vec<Line> = rows.iter().map(|row| pull.along(row)).collect();
        let bounds: Vec<Bounds> = met
            .iter()
            .map(|&element| match plant.is_one_way(element) {
                true => Bounds::FromZero,
                false => Bounds::Within(capacities[element]),
            })
            .collect();
        let noise: Vec<Noise> = met
            .iter()
            .zip(&rows)
            .map(|(&element, row)| Noise {
                // Of a ramp, by the last digits of the time and of where it began.
                torque: (capacities[element].slope.abs() * (self.time + 1.0)
                    + self.capacities[element].largest())
                    * 4.0
                    * f64::EPSILON,
                acceleration: pull.roundings(row).at,
            })
            .collect();
        let decided = decide(
            &Symmetric::of_products(&rows),
            &free,
            &bounds,
            &noise,
            plant.surplus(&met),
        )?;
        for (&element, next) in met.iter().zip(decided) {
            (modes[element], torques[element]) = match (next, plant.is_one_way(element)) {
                (Next::Holds(torque), _) => (Mode::Holds, torque),
                (_, true) => (Mode::Open, Line::default()),
                (Next::Forward, _) => (Mode::SlipsForward, capacities[element]),
                (Next::Backward, _) => (Mode::SlipsBackward, capacities[element].times(-1.0)),
            };
            pull.add(&plant.slips[element], torques[element].times(-1.0));
        }

        let slip_of = |element: usize| {
            let acceleration = pull.along(&plant.slips[element]);
            match modes[element] {
                Mode::Holds => (0.0, Line::default()),
                // It leaves zero the way that was decided; whatever says otherwise is roundings.
                Mode::SlipsForward if slips[element] == 0.0 => (0.0, acceleration.at_least_zero()),
                Mode::SlipsBackward if slips[element] == 0.0 => {
                    let other_way = acceleration.times(-1.0).at_least_zero();
                    (0.0, other_way.times(-1.0))
                }
                _ => (slips[element], acceleration),
            }
        };
        let ends: Vec<Option<f64>> = (0..count)
            .map(|element| {
                let blocks = plant.is_one_way(element);
                match modes[element] {
                    Mode::Open if blocks => first_zero(slip_of(element)),
                    Mode::Open => None,
                    Mode::Holds if blocks => first_zero_of_line(torques[element]),
                    Mode::Holds => {
                        let (most, torque) = (capacities[element], torques[element]);
                        let room = |sign| {
                            most.plus(torque.times(sign)).cleared(Line {
                                at: 0.0,
                                slope: (most.slope.abs() + torque.slope.abs()) * ROUNDING,
                            })
                        };
                        let ends = [1.0, -1.0].into_iter();
                        ends.filter_map(|sign| first_zero_of_line(room(sign)))
                            .reduce(f64::min)
                    }
                    _ => first_zero(slip_of(element)),
                }
            })
            .collect();
        let knots = self.capacities.iter().chain([&self.input]);
        let knot = knots.filter_map(|course| course.next_knot(self.time));
        let knot = knot.fold(until, f64::min) - self.time;
        let event = ends.iter().flatten().copied().fold(f64::INFINITY, f64::min);
        let length = if event < knot - INSTANT { event } else { knot };

        let signs: Vec<f64> = train
            .scenario()
            .elements
            .iter()
            .map(super::plant::orientation)
            .collect();
        let piece = Piece {
            begin: self.time,
            length,
            torques: torques
                .iter()
                .zip(&signs)
                .map(|(x, &sign)| x.times(sign))
                .collect(),
            slips: (0..count)
                .map(|element| {
                    let (speed, acceleration) = slip_of(element);
                    (speed * signs[element], acceleration.times(signs[element]))
                })
                .collect(),
            shafts: plant
                .shafts
                .iter()
                .map(|row| (dot(row, &self.coordinates), pull.along(row)))
                .collect(),
            capacities,
            input,
            modes,
        };
        for (element, end) in ends.iter().enumerate() {
            let holds = piece.modes[element] == Mode::Holds;
            self.meets[element] = holds || end.is_some_and(|end| end <= length + INSTANT);
        }
        for (q, Line { at, slope }) in self.coordinates.iter_mut().zip(&pull.sums) {
            *q += length * (at + slope * length / 2.0);
        }
        // A knot is where it is, not where additions lead to.
        self.time = match length == knot {
            true => {
                let knots = self.capacities.iter().chain([&self.input]);
                let knots = knots.filter_map(|course| course.next_knot(self.time));
                knots.fold(until, f64::min)
            }
            false => self.time + length,
        };
        Some(piece)
    }
}

fn slipping(sign: f64) -> Mode {
    match sign > 0.0 {
        true => Mode::SlipsForward,
        false => Mode::SlipsBackward,
    }
}
