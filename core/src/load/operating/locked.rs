//! Engine and input turn as one: no converter, or its lock-up clutch applied.

use super::roots::quadratic;
use super::{Idle, NoPoint, Plant, SAME, SteadyPoint};
use crate::model::curve::Piece;

impl Plant {
    /// Every steady point, and why there is none. There is no stall.
    ///
    /// Te(N) is linear between knots and the load quadratic in N, so each piece has at most two
    /// points, in closed form. A piece in which the engine goes from driving to holding back is
    /// split there, as the losses change sides.
    pub(super) fn solve_locked(&self) -> (Vec<SteadyPoint>, Option<SteadyPoint>, Option<NoPoint>) {
        let ratio = self.gear.ratio.abs();
        let mut points: Vec<SteadyPoint> = self.idle_locked().into_iter().collect();
        let mut excess = Vec::new();
        let mut cut_off = false;
        for piece in self.engine.pieces() {
            let Piece { from, to, slope } = piece;
            let zero = (from[1] * to[1] < 0.0).then(|| from[0] - from[1] / slope);
            let middle = zero.unwrap_or(to[0]);
            for (least, most) in [(from[0], middle), (middle, to[0])] {
                if least >= most {
                    continue;
                }
                let coasting = piece.value((least + most) / 2.0) < 0.0;
                let gain = ratio * self.gear.gain(coasting);
                if gain.is_nan() {
                    cut_off = true;
                    continue;
                }
                let [c0, c1, c2] = self.load;
                let terms = [
                    gain * piece.at_zero() - c0,
                    gain * slope - c1 / ratio,
                    -c2 / (ratio * ratio),
                ];
                for end in [least, most] {
                    excess.push((end, gain * piece.value(end) - self.load(end / ratio).0));
                }
                for speed in quadratic(terms) {
                    // A root at a knot may be off by a rounding.
                    let clamped = speed.clamp(least, most);
                    if (speed - clamped).abs() <= SAME * clamped {
                        let falling = terms[1] + 2.0 * terms[2] * clamped < 0.0;
                        let engine = (clamped, piece.value(clamped));
                        points.push(self.point(engine, (1.0, 1.0), falling));
                    }
                }
            }
        }
        let reason = match excess.iter().max_by(|a, b| a.0.total_cmp(&b.0)) {
            None => NoPoint::Overruns,
            Some((_, torque)) if *torque < 0.0 => NoPoint::BelowTable,
            Some(_) if cut_off => NoPoint::Overruns,
            Some(_) => NoPoint::PastTable,
        };
        (points, None, Some(reason))
    }

    /// The point where the idle control holds the engine against the load, if it can.
    fn idle_locked(&self) -> Option<SteadyPoint> {
        let Idle { speed, torques } = self.idle();
        let torque = self.load_at_engine(speed);
        torques.contains(&torque).then(|| SteadyPoint {
            idling: true,
            ..self.point((speed, torque), (1.0, 1.0), true)
        })
    }
}
