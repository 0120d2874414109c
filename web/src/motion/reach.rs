//! How far the speeds of a train reach.

use levertrain_core::transient::Shift;
use levertrain_core::{ElementSet, Train};

/// The slowest and the fastest of some speeds, per input turn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// The slowest: standstill or less.
    pub low: f64,
    /// The fastest: that of the input or more.
    pub high: f64,
}

/// rad/s in a rev/min.
pub(super) const RAD_PER_S: f64 = std::f64::consts::PI / 30.0;

impl Reach {
    /// From standstill to the input.
    pub const LEAST: Self = Self {
        low: 0.0,
        high: 1.0,
    };

    /// Of all shafts in all named ranges.
    pub fn of_ranges(train: &Train) -> Self {
        let mut reach = Self::LEAST;
        for range in 0..train.scenario().ranges.len() {
            reach.take_all(train, train.range(range));
        }
        reach
    }

    /// Of all shafts through a shift, per the speed that its input has at the start.
    pub fn of_shift(shift: &Shift) -> Self {
        let mut reach = Self::LEAST;
        let input = shift.plan.input_speed * RAD_PER_S;
        for piece in &shift.pieces {
            for shaft in 0..piece.shafts.len() {
                // Quadratic in each piece: what its middle is beyond both ends is little.
                for later in [0.0, piece.length / 2.0, piece.length] {
                    reach.take(piece.shaft_speed(shaft, later) / input);
                }
            }
        }
        reach
    }

    /// Reaches a speed, too.
    pub fn take(&mut self, speed: f64) {
        if speed.is_finite() {
            self.low = self.low.min(speed);
            self.high = self.high.max(speed);
        }
    }

    /// Reaches the speeds of all shafts in a combination, too.
    pub fn take_all(&mut self, train: &Train, applied: ElementSet) {
        let combination = train.solve(applied);
        if combination.degrees_of_freedom() > 1 {
            // Free members are shown too, at speeds that could be theirs.
            let shown = train.illustrate(applied);
            shown.iter().for_each(|speed| self.take(speed.to_f64()));
        } else {
            (0..train.scenario().shafts.len())
                .filter_map(|shaft| combination.shaft_speed(shaft))
                .for_each(|speed| self.take(speed.to_f64()));
        }
    }
}
