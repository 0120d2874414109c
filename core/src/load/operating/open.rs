//! The converter open: two equations in engine speed and speed ratio.

use super::roots;
use super::{Idle, NoPoint, Plant, Side, SteadyPoint};
use crate::base::short_sort::sort_short_by;
use crate::model::curve::{Curve, Piece};
use crate::model::scenario::Converter;

/// A plant with its converter open.
pub(super) struct Open<'p> {
    plant: &'p Plant,
    /// 1/K² over the speed ratio.
    capacity: Curve,
    torque_ratio: Curve,
}

/// A piece of the engine's curve, or its idle, together with a piece of the converter's table.
struct Cell<'o> {
    open: &'o Open<'o>,
    engine: Side,
    capacity: Piece,
    torque_ratio: Piece,
}

impl<'p> Open<'p> {
    pub(super) fn new(plant: &'p Plant, converter: &Converter) -> Self {
        Self {
            plant,
            capacity: converter.capacity(),
            torque_ratio: converter.torque_ratio(),
        }
    }

    /// Every steady point, the stall point, and why there is none.
    ///
    /// At each speed ratio s the engine settles where Te(N) = C(s)·N²: at most two speeds a piece
    /// of its curve, in closed form. They are two branches N(s); along each the torque left over
    /// at the output is looked through for zeros. The branch enters and leaves a piece where
    /// C(s) = Te/N² at its ends, and ends where its two speeds meet, which cuts the range of s
    /// into parts on which everything is smooth. Where the idle control holds the engine, N is
    /// known and Te = C(s)·N² is what it gives.
    pub(super) fn solve(&self) -> (Vec<SteadyPoint>, Option<SteadyPoint>, Option<NoPoint>) {
        let mut points = Vec::new();
        // Speed ratio, engine speed and torque left over at the ends of the parts.
        let mut ends: Vec<[f64; 3]> = Vec::new();
        for (capacity, torque_ratio) in self.capacity.pieces().zip(self.torque_ratio.pieces()) {
            for engine in self.plant.sides() {
                let cell = Cell {
                    open: self,
                    engine,
                    capacity,
                    torque_ratio,
                };
                let cuts = cell.cuts();
                for (&from, &to) in cuts.iter().zip(cuts.iter().skip(1)) {
                    for branch in [0, 1] {
                        if !cell.holds(from + (to - from) / 2.0, branch) {
                            continue;
                        }
                        let left_over = |s: f64| cell.left_over(s, branch);
                        for s in [from, to] {
                            ends.push([s, cell.engine_speed(s, branch), left_over(s)]);
                        }
                        let found = roots::all(&left_over, from, to);
                        points.extend(found.into_iter().map(|s| cell.point(s, branch)));
                    }
                }
            }
        }
        let stall = self.stall();
        let reason = self.reason(&ends, stall.as_ref());
        (points, stall, Some(reason))
    }

    /// Where the engine settles with the turbine held: the lowest speed it would come to rest at.
    fn stall(&self) -> Option<SteadyPoint> {
        let (capacity, torque_ratio) = (
            self.capacity.pieces().next()?,
            self.torque_ratio.pieces().next()?,
        );
        let cells = self.plant.sides().map(|engine| Cell {
            open: self,
            engine,
            capacity,
            torque_ratio,
        });
        let all = cells.flat_map(|cell| {
            let held = [0, 1].into_iter().filter(|&branch| cell.holds(0.0, branch));
            let points: Vec<_> = held
                .filter(|&branch| cell.engine_returns(0.0, cell.engine_speed(0.0, branch)) < 0.0)
                .map(|branch| cell.point(0.0, branch))
                .collect();
            points
        });
        all.min_by(|a, b| a.engine_speed.total_cmp(&b.engine_speed))
    }

    /// Why there is no point, if there is none: the torque left over then has one sign all along.
    fn reason(&self, ends: &[[f64; 3]], stall: Option<&SteadyPoint>) -> NoPoint {
        let (_, governed) = self.plant.engine.range();
        let idle = self.plant.idle();
        let greatest = ends.iter().max_by(|a, b| a[0].total_cmp(&b[0]));
        match greatest {
            Some([_, _, torque]) if *torque < 0.0 && stall.is_none() => NoPoint::BelowTable,
            Some([_, _, torque]) if *torque < 0.0 => NoPoint::LoadTooGreat,
            Some([_, speed, _]) if *speed >= governed * (1.0 - super::SAME) => NoPoint::PastTable,
            Some(_) => NoPoint::Coasting,
            // The engine settles at no speed ratio.
            None if *idle.torques.end() < self.capacity.value(0.0) * idle.speed * idle.speed => {
                NoPoint::BelowTable
            }
            None => NoPoint::PastTable,
        }
    }
}

impl Cell<'_> {
    /// The speed ratios that cut this cell's range into smooth parts, its ends included.
    fn cuts(&self) -> Vec<f64> {
        let Piece { from, to, slope } = self.capacity;
        let mut cuts = vec![from[0], to[0]];
        let capacity_at = |speed: f64, torque: f64| torque / (speed * speed);
        let capacities = match &self.engine {
            Side::Idle(Idle { speed, torques }) => {
                let [least, most] = [torques.start(), torques.end()];
                vec![capacity_at(*speed, *least), capacity_at(*speed, *most)]
            }
            Side::Piece(engine) => {
                let meeting = -engine.slope * engine.slope / (4.0 * engine.at_zero());
                let ends =
                    [engine.from, engine.to].map(|[speed, torque]| capacity_at(speed, torque));
                vec![ends[0], ends[1], meeting]
            }
        };
        for capacity in capacities {
            let s = from[0] + (capacity - from[1]) / slope;
            if s > from[0] && s < to[0] {
                cuts.push(s);
            }
        }
        sort_short_by(&mut cuts, f64::total_cmp);
        cuts.dedup();
        cuts
    }

    /// The speed at which the engine's line meets C(s)·N², as a branch's whole course; NaN where
    /// it does not.
    fn speed(&self, s: f64, branch: usize) -> f64 {
        let capacity = self.capacity.value(s).max(0.0);
        match &self.engine {
            Side::Idle(Idle { speed, torques }) => {
                let holds = branch == 0 && torques.contains(&(capacity * speed * speed));
                if holds { *speed } else { f64::NAN }
            }
            Side::Piece(engine) => {
                let terms = [engine.at_zero(), engine.slope, -capacity];
                let [first, second] = roots::quadratic(terms);
                if branch == 0 { first } else { second }
            }
        }
    }

    /// Whether a branch is on this cell at `s`.
    fn holds(&self, s: f64, branch: usize) -> bool {
        let speed = self.speed(s, branch);
        match &self.engine {
            Side::Idle(idle) => speed == idle.speed,
            Side::Piece(engine) => (engine.from[0]..=engine.to[0]).contains(&speed),
        }
    }

    /// The speed on a branch that is on this cell; at the ends it may be off by a rounding.
    fn engine_speed(&self, s: f64, branch: usize) -> f64 {
        match &self.engine {
            Side::Idle(idle) => idle.speed,
            Side::Piece(engine) => {
                let speed = self.speed(s, branch);
                let speed = if speed.is_nan() {
                    // Where the two branches meet.
                    engine.slope / (2.0 * self.capacity.value(s))
                } else {
                    speed
                };
                speed.clamp(engine.from[0], engine.to[0])
            }
        }
    }

    /// Torque of the engine.
    fn torque(&self, s: f64, speed: f64) -> f64 {
        match &self.engine {
            Side::Idle(_) => self.capacity.value(s) * speed * speed,
            Side::Piece(engine) => engine.value(speed),
        }
    }

    /// Torque left over at the output, in parts of the torques that meet there.
    fn left_over(&self, s: f64, branch: usize) -> f64 {
        let Plant { gear, .. } = self.open.plant;
        let speed = self.engine_speed(s, branch);
        let torque = self.torque_ratio.value(s) * self.torque(s, speed);
        let ratio = gear.ratio.abs();
        let output = ratio * gear.driving * torque;
        let (load, _) = self.open.plant.load(s * speed / ratio);
        (output - load) / (output.abs() + load.abs())
    }

    /// d(Te − Tpump)/dNe at a given turbine speed; −∞ where the idle control holds the speed.
    fn engine_returns(&self, s: f64, speed: f64) -> f64 {
        match &self.engine {
            Side::Idle(_) => f64::NEG_INFINITY,
            Side::Piece(engine) => {
                let capacity = self.capacity.value(s);
                engine.slope - speed * (2.0 * capacity - self.capacity.slope * s)
            }
        }
    }

    fn point(&self, s: f64, branch: usize) -> SteadyPoint {
        let plant = self.open.plant;
        let speed = self.engine_speed(s, branch);
        let engine = (speed, self.torque(s, speed));
        let torque_ratio = self.torque_ratio.value(s);
        let point = plant.point(engine, (s, torque_ratio), self.is_stable(s, speed));
        SteadyPoint {
            capacity_factor: Some(self.capacity.value(s).sqrt().recip()),
            idling: matches!(self.engine, Side::Idle(_)),
            ..point
        }
    }

    fn is_stable(&self, s: f64, speed: f64) -> bool {
        let Plant { gear, .. } = self.open.plant;
        let (capacity, torque_ratio) = (self.capacity.value(s), self.torque_ratio.value(s));
        // With N the engine speed and t the turbine speed: Tpump = C(t/N)·N², Tt = TR·Tpump.
        let pump_by_turbine = self.capacity.slope * speed;
        let product_slope = self.torque_ratio.slope * capacity + torque_ratio * self.capacity.slope;
        let turbine_by_turbine = product_slope * speed;
        let turbine_by_engine = speed * (2.0 * torque_ratio * capacity - product_slope * s);
        let returns = self.engine_returns(s, speed);
        let engine_by_turbine = pump_by_turbine / returns;
        let turbine = turbine_by_turbine + turbine_by_engine * engine_by_turbine;
        let ratio = gear.ratio.abs();
        let (_, load_slope) = self.open.plant.load(s * speed / ratio);
        returns < 0.0 && ratio * ratio * gear.driving * turbine < load_slope
    }
}
