//! Piecewise-linear functions, and engine, converter and load as such.

use crate::base::short_sort::sort_short_by;
use crate::model::scenario::{Converter, Engine, Load};

/// A function that is linear between its knots, which have strictly rising x. Outside it goes
/// on as its nearest piece does; nobody asks there but to find out that it is outside.
#[derive(Debug, Clone)]
pub(crate) struct Curve(Vec<[f64; 2]>);

/// A curve between two knots.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Piece {
    /// Its start.
    pub(crate) from: [f64; 2],
    /// Its end.
    pub(crate) to: [f64; 2],
    pub(crate) slope: f64,
}

impl Piece {
    /// The value on its line.
    pub(crate) fn value(&self, x: f64) -> f64 {
        self.from[1] + self.slope * (x - self.from[0])
    }

    /// Where its line meets x = 0.
    pub(crate) fn at_zero(&self) -> f64 {
        self.from[1] - self.slope * self.from[0]
    }
}

impl Curve {
    pub(crate) fn of(knots: Vec<[f64; 2]>) -> Self {
        Self(knots)
    }

    pub(crate) fn knots(&self) -> impl Iterator<Item = [f64; 2]> + '_ {
        self.0.iter().copied()
    }

    pub(crate) fn pieces(&self) -> impl Iterator<Item = Piece> + '_ {
        self.0.iter().zip(self.0.iter().skip(1)).map(|(from, to)| {
            let slope = (to[1] - from[1]) / (to[0] - from[0]);
            Piece {
                from: *from,
                to: *to,
                slope,
            }
        })
    }

    pub(crate) fn value(&self, x: f64) -> f64 {
        let mut pieces = self.pieces();
        let mut value = f64::NAN;
        for piece in &mut pieces {
            value = piece.value(x);
            let [end, at_end] = piece.to;
            if x <= end {
                // The end of a piece exactly, not to a rounding.
                value = if x == end { at_end } else { value };
                break;
            }
        }
        value
    }

    /// Its first and last x.
    pub(crate) fn range(&self) -> (f64, f64) {
        let end = |knot: Option<&[f64; 2]>| knot.map_or(f64::NAN, |knot| knot[0]);
        (end(self.0.first()), end(self.0.last()))
    }
}

impl Engine {
    /// Torque in N·m over speed in rev/min at a pedal position from 0 to 1: motoring +
    /// pedal·(full − motoring).
    pub(crate) fn curve(&self, pedal: f64) -> Curve {
        let full = Curve(self.full.clone());
        let motoring = Curve(self.motoring.clone());
        let mut speeds: Vec<f64> = full.knots().chain(motoring.knots()).map(|x| x[0]).collect();
        sort_short_by(&mut speeds, f64::total_cmp);
        speeds.dedup();
        let knots = speeds.into_iter().map(|speed| {
            let (full, motoring) = (full.value(speed), motoring.value(speed));
            [speed, motoring + pedal * (full - motoring)]
        });
        Curve(knots.collect())
    }
}

impl Converter {
    /// Turbine torque over pump torque as a function of the speed ratio.
    pub(crate) fn torque_ratio(&self) -> Curve {
        let knots = self.table.iter().map(|&[speed, torque, _]| [speed, torque]);
        Curve(knots.chain([[1.0, 1.0]]).collect())
    }

    /// Pump torque over the square of the pump speed, 1/K², in N·m per (rev/min)², as a function
    /// of the speed ratio.
    ///
    /// It is 1/K² that is linear between the points, down to 0 at speed ratio 1, where K has no
    /// value. Interpolating K instead would give other torques between the points: a trap when
    /// results are compared.
    pub(crate) fn capacity(&self) -> Curve {
        let knots = self.table.iter();
        let knots = knots.map(|&[speed, _, factor]| [speed, factor.powi(-2)]);
        Curve(knots.chain([[1.0, 0.0]]).collect())
    }
}

impl Load {
    /// c0, c1 and c2 of the torque c0 + c1·n + c2·n² in N·m that holds the output back on a
    /// slope of `grade` (rise over run; negative downhill).
    pub(crate) fn terms(&self, grade: f64) -> [f64; 3] {
        let sine = grade / (1.0 + grade * grade).sqrt();
        [
            self.constant + self.weight * sine,
            self.linear,
            self.quadratic,
        ]
    }
}
