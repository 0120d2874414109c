//! The curves of a picture of the operating point.

use super::{Conditions, Plant};
use crate::solve::Combination;

/// Torques in N·m over engine speed in rev/min.
#[derive(Debug, Clone, PartialEq)]
pub struct Curves {
    /// Of the engine at the pedal position, beginning with what the idle control can add.
    pub engine: Vec<[f64; 2]>,
    /// Of the engine at full pedal.
    pub full: Vec<[f64; 2]>,
    /// With engine and input as one: what the load asks of the engine. With an open converter
    /// it is the pump that asks, (N/K)² at each speed ratio.
    pub load: Option<Vec<[f64; 2]>>,
    /// With an open converter: its capacity factor K at stall, in rev/min per √(N·m).
    pub stall_factor: Option<f64>,
}

/// Pieces in which a load is drawn.
const PIECES: u32 = 48;

impl Curves {
    /// The curves for a combination; `None` where it has no operating point to draw.
    pub fn of(combination: &Combination<'_>, conditions: &Conditions) -> Option<Self> {
        let scenario = combination.train().scenario();
        let engine = scenario.engine.as_ref()?;
        let plant = Plant::of(combination, conditions)?.ok()?;
        let full = engine.curve(1.0);
        let open = scenario.converter.as_ref().filter(|_| !conditions.lockup);
        let load = open.is_none().then(|| {
            let (first, last) = full.range();
            let speed = |piece: u32| first + (last - first) * f64::from(piece) / f64::from(PIECES);
            let asked =
                (0..=PIECES).map(|piece| [speed(piece), plant.load_at_engine(speed(piece))]);
            asked.filter(|point| point[1].is_finite()).collect()
        });
        Some(Self {
            engine: [[plant.idle().speed, plant.most_at_idle]]
                .into_iter()
                .chain(plant.engine.knots())
                .collect(),
            full: full.knots().collect(),
            load,
            stall_factor: open.and_then(|converter| Some(converter.table.first()?[2])),
        })
    }
}

impl Plant {
    /// What the load asks of an engine that turns with the input at this speed.
    pub(super) fn load_at_engine(&self, speed: f64) -> f64 {
        let ratio = self.gear.ratio.abs();
        let (load, _) = self.load(speed / ratio);
        load / (ratio * self.gear.gain(load < 0.0))
    }
}
