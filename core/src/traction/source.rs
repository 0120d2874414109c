//! What the train's input is driven with at full pedal: the engine by itself, behind a clutch that still slips, or through
//! an open torque converter.
//!
//! Torques are linear between the points of a table, so that at each input speed the engine's speed follows in closed form
//! within a cell of both tables; which cell that is changes only at known input speeds. So the whole course is a row of
//! smooth pieces, found once for all ranges.

use crate::base::short_sort::sort_short_by;
use crate::model::curve::{Curve, Piece};
use crate::model::scenario::{Converter, Engine};

/// Rounding that a speed may be beyond the end of its piece by, as a part of it.
const ROUNDING: f64 = 1e-9;

/// The input at one of its speeds. Speeds in rev/min, torques in N·m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Driven {
    /// Of the engine.
    pub engine_speed: f64,
    /// Of the engine, at full pedal.
    pub engine_torque: f64,
    /// Of the train's input.
    pub input_speed: f64,
    /// At the train's input.
    pub input_torque: f64,
}

/// What is between engine and input.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Between {
    /// A clutch that slips, for starting: the engine keeps its lowest speed, with its torque there.
    Slipping,
    /// Nothing: they turn as one.
    Nothing,
    /// The converter.
    Converter,
}

/// Input speeds from one to another, over which all is smooth.
#[derive(Debug, Clone, Copy)]
pub struct Stretch {
    /// First input speed in rev/min.
    pub from: f64,
    /// Last input speed in rev/min.
    pub to: f64,
    course: Course,
}

#[derive(Debug, Clone, Copy)]
enum Course {
    Slipping { speed: f64, torque: f64 },
    Direct(Piece),
    Open(Cell),
}

/// A piece of the engine's curve with a piece of the converter's table.
#[derive(Debug, Clone, Copy)]
struct Cell {
    engine: Piece,
    capacity: Piece,
    torque_ratio: Piece,
    /// Their numbers, by which two are the same.
    number: (usize, usize),
}

/// A row of stretches, by rising input speed. Between two of them there may be a gap, where the engine cannot run.
#[derive(Debug, Clone)]
pub struct Source(Vec<Stretch>);

impl Stretch {
    /// The input at a speed within the stretch.
    pub fn at(&self, input_speed: f64) -> Driven {
        let (engine_speed, engine_torque, input_torque) = match &self.course {
            Course::Slipping { speed, torque } => (*speed, *torque, *torque),
            Course::Direct(piece) => {
                let torque = piece.value(input_speed);
                (input_speed, torque, torque)
            }
            Course::Open(cell) => {
                let speed = cell.settled(input_speed);
                let torque = cell.engine.value(speed);
                let ratio = cell.torque_ratio.value(input_speed / speed);
                (speed, torque, ratio * torque)
            }
        };
        Driven {
            engine_speed,
            engine_torque,
            input_speed,
            input_torque,
        }
    }

    /// What is between engine and input.
    pub fn between(&self) -> Between {
        match self.course {
            Course::Slipping { .. } => Between::Slipping,
            Course::Direct(_) => Between::Nothing,
            Course::Open(_) => Between::Converter,
        }
    }
}

impl Cell {
    /// The engine's speed at which it gives what the pump takes, and comes back to when pushed.
    ///
    /// With C(s) = a + b·s and Te(N) = e0 + e1·N that is a·N² + (b·n − e1)·N − e0 = 0 for the input speed n. Of both roots
    /// Te − C·N² falls at one, (p + √D)/(2a) with p = e1 − b·n and D = p² + 4·a·e0; for p < 0 the same without a
    /// difference of numbers that are nearly equal.
    fn settled(&self, input: f64) -> f64 {
        let (a, b) = (self.capacity.at_zero(), self.capacity.slope);
        let (e0, e1) = (self.engine.at_zero(), self.engine.slope);
        let p = e1 - b * input;
        // At the speed where both roots meet, rounding may have it below zero.
        let root = (p * p + 4.0 * a * e0).max(0.0).sqrt();
        if p > 0.0 {
            (p + root) / (2.0 * a)
        } else {
            2.0 * e0 / (root - p)
        }
    }

    /// Whether the engine settles from one speed to another.
    fn holds(&self, input: f64, from: f64, to: f64) -> bool {
        let speed = self.settled(input);
        let pump = self.capacity.value(input / speed) * speed * speed;
        let engine = self.engine.value(speed);
        (from * (1.0 - ROUNDING)..=to * (1.0 + ROUNDING)).contains(&speed)
            && (engine - pump).abs() <= ROUNDING * (engine.abs() + pump.abs())
    }
}

impl Source {
    /// The engine and the input as one, behind a clutch that slips below the engine's lowest speed.
    pub fn direct(engine: &Engine) -> Self {
        let full = Curve::of(engine.full.clone());
        let lowest = full.knots().next().map(|[speed, torque]| Stretch {
            from: 0.0,
            to: speed,
            course: Course::Slipping { speed, torque },
        });
        let pieces = full.pieces().map(|piece| Stretch {
            from: piece.from[0],
            to: piece.to[0],
            course: Course::Direct(piece),
        });
        Self(lowest.into_iter().chain(pieces).collect())
    }

    /// The engine through an open converter, settled at each input speed: the lowest speed that the engine comes to when
    /// it speeds up from its idle, or from the input's speed where that is higher.
    ///
    /// Input speeds where it would be pulled below its lowest speed, or run past its last, are left out.
    pub fn open(engine: &Engine, converter: &Converter) -> Self {
        let cells = Cells {
            engine: Curve::of(engine.full.clone()).pieces().collect(),
            capacity: converter.capacity().pieces().collect(),
            torque_ratio: converter.torque_ratio().pieces().collect(),
        };
        let cuts = cells.cuts();
        let mut stretches: Vec<Stretch> = Vec::new();
        for (&from, &to) in cuts.iter().zip(cuts.iter().skip(1)) {
            let Some(cell) = cells.settled_in(from + (to - from) / 2.0) else {
                continue;
            };
            if let Some(last) = stretches.last_mut()
                && last.to == from
                && matches!(&last.course, Course::Open(own) if own.number == cell.number)
            {
                last.to = to;
                continue;
            }
            let course = Course::Open(cell);
            stretches.push(Stretch { from, to, course });
        }
        Self(stretches)
    }

    /// Its stretches, by rising input speed.
    pub fn stretches(&self) -> &[Stretch] {
        &self.0
    }

    /// The stretch that holds an input speed; of two that meet there the upper one.
    pub fn stretch(&self, input: f64) -> Option<&Stretch> {
        let next = self.0.partition_point(|stretch| stretch.from <= input);
        let stretch = self.0.get(next.checked_sub(1)?)?;
        (input <= stretch.to * (1.0 + ROUNDING)).then_some(stretch)
    }
}

/// All pieces of both tables.
struct Cells {
    engine: Vec<Piece>,
    capacity: Vec<Piece>,
    torque_ratio: Vec<Piece>,
}

impl Cells {
    /// The first and the last speed of the engine.
    fn ends(&self) -> (f64, f64) {
        let first = self.engine.first().map_or(f64::NAN, |piece| piece.from[0]);
        let last = self.engine.last().map_or(f64::NAN, |piece| piece.to[0]);
        (first, last)
    }

    /// All input speeds at which the settled speed may go to another cell, appear or be lost: where it meets a point of
    /// the engine's curve or of the converter's table, and where two settled speeds of a cell meet.
    fn cuts(&self) -> Vec<f64> {
        let (_, last) = self.ends();
        let mut cuts = vec![0.0, last];
        let first = self.engine.first().map(|piece| piece.from);
        let knots = first.into_iter().chain(self.engine.iter().map(|x| x.to));
        for [speed, torque] in knots {
            cuts.push(speed);
            for capacity in &self.capacity {
                let ratio = (torque / (speed * speed) - capacity.at_zero()) / capacity.slope;
                cuts.push(ratio * speed);
            }
        }
        for engine in &self.engine {
            let (e0, e1) = (engine.at_zero(), engine.slope);
            let starts = self.capacity.first().map(|piece| piece.from);
            for [ratio, capacity] in starts.into_iter().chain(self.capacity.iter().map(|x| x.to)) {
                // capacity·N² − e1·N − e0 = 0
                let root = (e1 * e1 + 4.0 * capacity * e0).sqrt();
                for speed in [
                    (e1 + root) / (2.0 * capacity),
                    (e1 - root) / (2.0 * capacity),
                    -e0 / e1,
                ] {
                    cuts.push(ratio * speed);
                }
            }
            for capacity in &self.capacity {
                let root = (-4.0 * capacity.at_zero() * e0).sqrt();
                cuts.push((e1 - root) / capacity.slope);
                cuts.push((e1 + root) / capacity.slope);
            }
        }
        cuts.retain(|cut| (0.0..=last).contains(cut));
        sort_short_by(&mut cuts, f64::total_cmp);
        cuts.dedup();
        cuts
    }

    /// The cell that the engine settles in at an input speed.
    fn settled_in(&self, input: f64) -> Option<Cell> {
        let (first, _) = self.ends();
        let start = first.max(input);
        let mut engines = self.engine.iter().enumerate();
        let (mut at_engine, mut engine) = engines.find(|(_, x)| start < x.to[0])?;
        // The speed ratio falls as the engine speeds up.
        let mut tables = self
            .capacity
            .iter()
            .zip(&self.torque_ratio)
            .enumerate()
            .rev();
        let ratio = input / start;
        let (mut at_table, mut table) =
            tables.find(|(_, (x, _))| x.from[0] < ratio || x.from[0] == 0.0)?;
        let excess = engine.value(start) - table.0.value(ratio) * start * start;
        if excess < 0.0 {
            return None;
        }
        let mut from = start;
        loop {
            let (capacity, torque_ratio) = table;
            let table_ends = if capacity.from[0] > 0.0 {
                input / capacity.from[0]
            } else {
                f64::INFINITY
            };
            let to = engine.to[0].min(table_ends);
            let cell = Cell {
                engine: *engine,
                capacity: *capacity,
                torque_ratio: *torque_ratio,
                number: (at_engine, at_table),
            };
            if cell.holds(input, from, to) {
                return Some(cell);
            }
            if engine.to[0] <= to {
                (at_engine, engine) = engines.next()?;
            }
            if table_ends <= to {
                (at_table, table) = tables.next()?;
            }
            from = to;
        }
    }
}
