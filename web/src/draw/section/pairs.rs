//! Where the gears of pairs turn: about the main axis, or as far from it as their teeth say.

use levertrain_core::coupling::{Profile, ProfileGear};
use levertrain_core::{Body, Train};

use super::axes::{Axes, Way};
use super::circles::{Circle, GEAR, Need, RING, radius};

/// The least radius that is drawn.
const SMALLEST: f64 = 8.0;

/// The pairs of a train.
pub struct Pairs<'a> {
    pub train: &'a Train,
    pub axes: &'a Axes,
    /// Whether each shaft is drawn on its own axis.
    pub own: &'a [bool],
    /// Of every coupling.
    pub profiles: &'a [Profile],
}

/// Pairs in their places.
pub struct Placed {
    /// Distance of the axis of each shaft from the main one.
    pub axes: Vec<f64>,
    /// For each coupling that is a pair, its gears.
    pub circles: Vec<Vec<Circle>>,
}

impl Pairs<'_> {
    /// What a pair needs that stands so with a module of 1.
    pub fn need(&self, profile: &Profile, circles: &[Circle]) -> Need {
        let surrounds = profile.gears.iter().any(|gear| gear.internal);
        let on_main = circles.iter().filter(|circle| circle.centre == 0.0);
        let top = circles.iter().map(|circle| circle.top());
        let top = top.fold(f64::NEG_INFINITY, f64::max);
        Need {
            least: on_main.map(|c| c.radius).fold(f64::INFINITY, f64::min),
            most: vec![(top, if surrounds { RING } else { GEAR })],
            surrounds,
        }
    }

    /// Places all pairs: gears about the main axis reach at least to `inside`, and nothing farther
    /// than the rings, whose row is at `rings`.
    pub fn place(&self, module: f64, inside: f64, rings: f64) -> Placed {
        // By axis, which is named by a shaft.
        let mut at = vec![0.0; self.train.scenario().shafts.len()];
        let mut circles = vec![Vec::new(); self.profiles.len()];
        for way in &self.axes.ways {
            let gears = &self.profiles[way.coupling].gears;
            // The frame, a member as well, is none of them.
            let [near, far] = [way.near, way.far].map(|member| &gears[member / 2]);
            let from = at[self.axes.of_body(self.body(way.coupling, way.near))];
            let mut radii = [near, far].map(|gear| radius(gear) * module);
            if from == 0.0 && !near.internal {
                radii[0] = radii[0].max(inside);
            }
            let to = if near.internal || far.internal {
                from + radii[0] - radii[1]
            } else if way.above {
                let room = (rings + GEAR - from - radii[0]) / 2.0;
                radii[1] = radii[1].min(room).max(SMALLEST);
                from + radii[0] + radii[1]
            } else if self.returns(way) {
                fit(&mut radii, from);
                0.0
            } else {
                from - radii[0] - radii[1]
            };
            at[way.axis] = to;
            let [near, far] = [Circle::new(from, radii[0]), Circle::new(to, radii[1])];
            circles[way.coupling] = match way.near {
                0 => vec![near, far],
                _ => vec![far, near],
            };
        }
        for (coupling, profile) in self.profiles.iter().enumerate() {
            if !profile.coaxial && circles[coupling].is_empty() {
                circles[coupling] = self.closing(coupling, &profile.gears, &at, module);
            }
        }
        let bodies = 0..at.len();
        let axes = bodies.map(|shaft| at[self.axes.of_body(Body::Shaft(shaft))]);
        Placed {
            axes: axes.collect(),
            circles,
        }
    }

    fn body(&self, coupling: usize, member: usize) -> Body {
        self.train.members(coupling)[member]
    }

    /// Whether a pair that leads back from above ends on the main axis. What does not run straight
    /// along its own is drawn there, too.
    fn returns(&self, way: &Way) -> bool {
        match self.body(way.coupling, way.far) {
            Body::Shaft(shaft) => !self.own[shaft],
            Body::Housing => true,
        }
    }

    /// A pair both of whose axes are known.
    fn closing(
        &self,
        coupling: usize,
        gears: &[ProfileGear],
        at: &[f64],
        module: f64,
    ) -> Vec<Circle> {
        let centres = [0, 2].map(|member| at[self.axes.of_body(self.body(coupling, member))]);
        let mut radii = [0, 1].map(|gear: usize| radius(&gears[gear]) * module);
        let apart = (centres[0] - centres[1]).abs();
        let [first, second] = radii;
        if apart >= 1.0 && gears[1].internal && second > first {
            radii = radii.map(|radius| radius * apart / (second - first));
        } else if apart >= 1.0 {
            fit(&mut radii, apart);
        }
        let [first, mut second] = centres;
        if apart < 1.0 && !gears[1].internal {
            // They cannot mesh about one axis; the second is drawn above.
            second += radii[0] + radii[1];
        }
        vec![Circle::new(first, radii[0]), Circle::new(second, radii[1])]
    }
}

/// Makes two gears mesh whose axes are so far apart.
fn fit(radii: &mut [f64; 2], apart: f64) {
    let both = radii[0] + radii[1];
    *radii = radii.map(|radius| radius * apart / both);
}
