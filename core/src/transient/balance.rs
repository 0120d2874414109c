//! What acts at one instant of a shift: what each element does from then on, its torque, and the accelerations that
//! come of them all.

use super::contact::{Bounds, Next, Noise, decide};
use super::dense::{Symmetric, dot};
use super::line::Line;
use super::motion::{Mode, Motion};
use super::plant::Plant;
use super::zeros::{first_zero, first_zero_of_line};

/// A slip this small against the largest speed is none.
const NO_SLIP: f64 = 1e-12;
/// A sum this small against its parts is zero.
const ROUNDING: f64 = 1e-13;

/// Accelerations of the coordinates, and the sizes of what they are sums of.
pub(super) struct Pull {
    pub sums: Vec<Line>,
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
    pub(super) fn along(&self, row: &[f64]) -> Line {
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

/// Torques as lines in time, and what they do.
pub(super) struct Balance {
    pub input: Line,
    pub capacities: Vec<Line>,
    pub modes: Vec<Mode>,
    pub torques: Vec<Line>,
    pub pull: Pull,
    /// The slip of each element, 0 where it has none.
    slips: Vec<f64>,
    /// Those without slip, which are decided together.
    met: Vec<usize>,
}

impl Balance {
    /// That of now; `None` where it cannot be decided.
    pub(super) fn of(motion: &Motion<'_>) -> Option<Self> {
        let mut balance = Self::of_slipping(motion);
        balance.decide(motion)?;
        Some(balance)
    }

    /// That of ends and slipping elements: what those without slip do is left open.
    fn of_slipping(motion: &Motion<'_>) -> Self {
        let plant = &motion.plant;
        let train = plant.train;
        let count = plant.slips.len();
        let shaft_speed = |shaft: &Vec<f64>| dot(shaft, &motion.coordinates).abs();
        let fastest = plant.shafts.iter().map(shaft_speed).fold(0.0, f64::max);
        let capacities = motion.capacities.iter().map(|x| x.from(motion.time));
        let mut balance = Self {
            input: motion.input.from(motion.time),
            capacities: capacities.collect(),
            modes: vec![Mode::Open; count],
            torques: vec![Line::default(); count],
            pull: Pull::none(plant.freedom),
            slips: vec![0.0; count],
            met: Vec::new(),
        };
        let (input, output) = (&plant.shafts[train.input()], &plant.shafts[train.output()]);
        balance.pull.add(input, balance.input);
        balance.pull.add(output, Line::level(motion.output));
        for element in 0..count {
            let slip = dot(&plant.slips[element], &motion.coordinates);
            let meets = motion.meets[element] || slip.abs() <= NO_SLIP * fastest;
            balance.slips[element] = if meets { 0.0 } else { slip };
            if plant.is_one_way(element) {
                if meets || slip > 0.0 {
                    balance.slips[element] = 0.0;
                    balance.met.push(element);
                }
            } else if !balance.capacities[element].is_positive() {
                // Released: whether it slips does not matter.
            } else if meets {
                balance.met.push(element);
            } else {
                let sign = slip.signum();
                let mode = match sign > 0.0 {
                    true => Mode::SlipsForward,
                    false => Mode::SlipsBackward,
                };
                let torque = balance.capacities[element].times(sign);
                balance.put(plant, element, mode, torque);
            }
        }
        balance
    }

    /// Has an element do something.
    fn put(&mut self, plant: &Plant<'_>, element: usize, mode: Mode, torque: Line) {
        self.modes[element] = mode;
        self.torques[element] = torque;
        self.pull.add(&plant.slips[element], torque.times(-1.0));
    }

    /// Decides for all elements without slip at once what they do.
    fn decide(&mut self, motion: &Motion<'_>) -> Option<()> {
        let plant = &motion.plant;
        let met = &self.met;
        let rows: Vec<&[f64]> = met.iter().map(|&x| plant.slips[x].as_slice()).collect();
        let free: Vec<Line> = rows.iter().map(|row| self.pull.along(row)).collect();
        let bounds: Vec<Bounds> = met
            .iter()
            .map(|&element| match plant.is_one_way(element) {
                true => Bounds::FromZero,
                false => Bounds::Within(self.capacities[element]),
            })
            .collect();
        let noise: Vec<Noise> = met
            .iter()
            .zip(&rows)
            .map(|(&element, row)| Noise {
                // Of a ramp, by the last digits of the time and of where it began.
                torque: (self.capacities[element].slope.abs() * (motion.time + 1.0)
                    + motion.capacities[element].largest())
                    * 4.0
                    * f64::EPSILON,
                acceleration: self.pull.roundings(row).at,
            })
            .collect();
        let decided = decide(
            &Symmetric::of_products(&rows),
            &free,
            &bounds,
            &noise,
            plant.surplus(met),
        )?;
        for (element, next) in self.met.clone().into_iter().zip(decided) {
            let capacity = self.capacities[element];
            let (mode, torque) = match (next, plant.is_one_way(element)) {
                (Next::Holds(torque), _) => (Mode::Holds, torque),
                (_, true) => (Mode::Open, Line::default()),
                (Next::Forward, _) => (Mode::SlipsForward, capacity),
                (Next::Backward, _) => (Mode::SlipsBackward, capacity.times(-1.0)),
            };
            self.put(plant, element, mode, torque);
        }
        Some(())
    }

    /// The slip of an element now, and its acceleration.
    pub(super) fn slip(&self, plant: &Plant<'_>, element: usize) -> (f64, Line) {
        let acceleration = self.pull.along(&plant.slips[element]);
        match self.modes[element] {
            Mode::Holds => (0.0, Line::default()),
            // It leaves zero the way that was decided; whatever says otherwise is roundings.
            Mode::SlipsForward if self.slips[element] == 0.0 => (0.0, acceleration.at_least_zero()),
            Mode::SlipsBackward if self.slips[element] == 0.0 => {
                let other_way = acceleration.times(-1.0).at_least_zero();
                (0.0, other_way.times(-1.0))
            }
            _ => (self.slips[element], acceleration),
        }
    }

    /// When an element ends doing what it does, if all else goes on.
    pub(super) fn end(&self, plant: &Plant<'_>, element: usize) -> Option<f64> {
        let blocks = plant.is_one_way(element);
        match self.modes[element] {
            Mode::Open if blocks => first_zero(self.slip(plant, element)),
            Mode::Open => None,
            Mode::Holds if blocks => first_zero_of_line(self.torques[element]),
            Mode::Holds => {
                let (most, torque) = (self.capacities[element], self.torques[element]);
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
            _ => first_zero(self.slip(plant, element)),
        }
    }
}
