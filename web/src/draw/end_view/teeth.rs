//! The outline of a toothed gear.

use std::f64::consts::{PI, TAU};

use levertrain_core::sin_cos;

use super::gears::Standing;

/// Pressure angle of the flanks, in radians: 20°, the usual one.
const PRESSURE_ANGLE: f64 = 20.0 * PI / 180.0;

/// Share of its thickness by which a tooth is thinner than half the pitch.
const BACKLASH: f64 = 0.05;

/// One tooth of a gear, from which all are stepped off.
///
/// The flanks are involutes of the circle that the pressure angle gives. Below that circle,
/// where a real cutter would leave its own curve, they run straight to the root.
#[derive(Debug, Clone)]
pub struct Tooth {
    /// Radius in modules and half the angle the tooth fills there, from root to tip.
    flank: Vec<(f64, f64)>,
    teeth: u32,
    lead: f64,
}

impl Tooth {
    /// The tooth of a gear, with `steps` straight pieces to a flank.
    pub fn of(gear: &Standing, steps: u32) -> Self {
        let base = gear.pitch * sin_cos(PRESSURE_ANGLE).1;
        let (root, tip) = (gear.root(), gear.tip());
        let half = PI / f64::from(2 * gear.teeth) * (1.0 - BACKLASH);
        let at_pitch = involute(PRESSURE_ANGLE);
        let flank = (0..=steps).map(|step| {
            let radius = root + (tip - root) * f64::from(step) / f64::from(steps);
            let rolled = involute((base / radius).min(1.0).acos());
            // An internal tooth is the space that an external one of the same size would fill,
            // so its flanks lean the other way.
            let filled = half + gear.outwards() * (at_pitch - rolled);
            // Very small gears would end in a point; a sliver of tip remains.
            (radius, filled.clamp(0.1 * half, 1.95 * half))
        });
        Self {
            flank: flank.collect(),
            teeth: gear.teeth,
            lead: gear.lead,
        }
    }

    /// The whole outline as (radius, angle), closed by its first point.
    pub fn outline(&self) -> Vec<(f64, f64)> {
        let mut points = Vec::with_capacity(self.teeth as usize * 2 * self.flank.len() + 1);
        for index in 0..self.teeth {
            let middle = self.lead + TAU * f64::from(index) / f64::from(self.teeth);
            points.extend(self.at(middle));
        }
        points.extend(points.first().copied());
        points
    }

    /// Each tooth by itself as (radius, angle), from root over tip to root; the marked one first.
    pub fn each(&self) -> impl Iterator<Item = Vec<(f64, f64)>> {
        (0..self.teeth).map(|index| {
            let middle = self.lead + TAU * f64::from(index) / f64::from(self.teeth);
            self.at(middle).collect()
        })
    }

    fn at(&self, middle: f64) -> impl Iterator<Item = (f64, f64)> {
        let up = self.flank.iter().map(move |&(r, half)| (r, middle - half));
        let down = self.flank.iter().rev();
        up.chain(down.map(move |&(r, half)| (r, middle + half)))
    }
}

/// inv α = tan α − α, the angle an involute unwinds to where its pressure angle is α.
fn involute(angle: f64) -> f64 {
    let (sine, cosine) = sin_cos(angle);
    sine / cosine - angle
}
