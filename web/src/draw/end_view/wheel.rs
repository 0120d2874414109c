//! Drawing one toothed gear.

use std::f64::consts::{FRAC_PI_2, PI};

use levertrain_core::coupling::{Mount, Plane};

use super::fit::View;
use super::gears::Standing;
use super::signs;
use super::subject::{Part, Subject};
use super::teeth::Tooth;
use crate::draw::scene::{Dash, Ink, Point, Scene, Stroke};
use crate::motion::live::Motion;

/// Room around the tooth spaces of an internal gear for its rim, and for hatching or an arrow
/// outside it, in CSS pixels.
pub const RIM: f64 = BODY + OUTSIDE;

/// Thickness of an internal gear behind its tooth spaces, in CSS pixels.
const BODY: f64 = 7.0;

/// Length of the hatching around a held internal gear, and distance of the arrow, in CSS pixels.
const OUTSIDE: f64 = 8.0;

/// Teeth thinner than this are not drawn one by one, in CSS pixels.
const THINNEST_TOOTH: f64 = 1.5;

/// A gear in the drawing.
pub struct Wheel<'a> {
    subject: &'a Subject<'a>,
    /// Where it stands.
    pub gear: &'a Standing,
    /// Its centre in the drawing.
    pub centre: Point,
    scale: f64,
}

impl<'a> Wheel<'a> {
    /// The wheel of a gear.
    pub fn of(subject: &'a Subject<'a>, gear: &'a Standing, view: View) -> Self {
        Self {
            subject,
            gear,
            centre: view.point(gear.centre),
            scale: view.scale,
        }
    }

    /// What the gear is fixed to.
    pub fn mount(&self) -> Mount {
        self.subject.profile.gears[self.gear.gear].mount
    }

    /// Where the gear lies along the axis.
    pub fn plane(&self) -> Plane {
        self.subject.profile.gears[self.gear.gear].plane
    }

    /// Radius of the circle at the bottom of the tooth spaces, in CSS pixels.
    pub fn root(&self) -> f64 {
        self.gear.root() * self.scale
    }

    /// A spot on the body of the gear, on the side of `point`.
    pub fn spot_towards(&self, point: Point) -> Point {
        let angle = (point.y - self.centre.y).atan2(point.x - self.centre.x);
        let radius = if self.gear.internal {
            self.root() + BODY / 2.0
        } else if self.plane() == Plane::Far {
            // Further in a gear in front may hide it.
            self.root() - 2.0
        } else {
            (self.root() + self.hub()) / 2.0
        };
        signs::on_circle(self.centre, radius, angle)
    }

    /// Draws it.
    pub fn draw(&self, scene: &mut Scene) {
        let part = Part::from(self.mount());
        let module = self.gear.pitch * self.scale * 2.0 / f64::from(self.gear.teeth);
        let stroke = self.subject.stroke(part, (module * 0.3).clamp(1.0, 1.75));
        let toothed = module * PI / 2.0 >= THINNEST_TOOTH;
        let tip = self.gear.tip() * self.scale;
        let steps = if module >= 4.0 { 5 } else { 3 };
        let tooth = Tooth::of(self.gear, steps);
        let outline = if toothed {
            self.placed(tooth.outline())
        } else {
            signs::arc(self.centre, tip, 0.0, 2.0 * PI)
        };
        if self.gear.internal {
            self.fill_ring(scene, &outline);
        } else {
            scene.fill(outline.clone(), Ink::Metal);
        }
        if self.subject.is_lit(part) {
            scene.path(outline.clone(), Stroke::solid(Ink::Lit, stroke.width + 4.0));
        }
        if toothed && stroke.dash != Dash::Solid {
            // Dashes as long as a tooth: others would chop the teeth to crumbs.
            for tooth in tooth.each().step_by(2) {
                scene.path(self.placed(tooth), Stroke::solid(stroke.ink, stroke.width));
            }
        } else {
            scene.path(outline, stroke);
        }
        let marked = tooth
            .each()
            .next()
            .filter(|_| toothed)
            .map(|points| self.placed(points));
        if !toothed {
            let pitch = self.gear.pitch * self.scale;
            signs::circle(scene, self.centre, pitch, signs::guide(stroke.ink));
        }
        self.draw_mark(scene, marked, module, stroke.ink);
        if self.gear.internal {
            self.draw_rim(scene, part, stroke);
        } else if matches!(self.mount(), Mount::Member(_)) {
            self.draw_hub(scene, part, stroke);
        }
    }

    /// Fills an internal gear within its outline.
    fn fill_ring(&self, scene: &mut Scene, outline: &[Point]) {
        let outside = self.root() + BODY;
        if self.plane() < Plane::Near {
            scene.disc(self.centre, outside, Ink::Metal);
            scene.fill(outline.to_vec(), Ink::Paper);
            return;
        }
        // A band, so that the gears behind it show within.
        let mut band = signs::arc(self.centre, outside, 0.0, 2.0 * PI);
        band.extend(outline.iter().rev());
        band.extend(band.first().copied());
        scene.fill(band, Ink::Metal);
    }

    fn placed(&self, points: Vec<(f64, f64)>) -> Vec<Point> {
        points
            .into_iter()
            .map(|(radius, angle)| signs::on_circle(self.centre, radius * self.scale, angle))
            .collect()
    }

    /// One tooth filled, and a dot in the body under it, so that slow turning is seen.
    fn draw_mark(&self, scene: &mut Scene, tooth: Option<Vec<Point>>, module: f64, ink: Ink) {
        let most = if self.gear.internal { BODY - 1.0 } else { 9.0 };
        let size = match tooth {
            Some(tooth) => {
                scene.fill(tooth, ink);
                (module * 1.2).clamp(3.0, most)
            }
            None => BODY - 1.0,
        };
        let radius = self.root() - self.gear.outwards() * size * 0.75;
        let centre = signs::on_circle(self.centre, radius, self.gear.lead);
        scene.disc(centre, size / 2.0, ink);
    }

    /// The outside of an internal gear: hatched when held, else with an arrow.
    fn draw_rim(&self, scene: &mut Scene, part: Part, stroke: Stroke) {
        let outside = self.root() + BODY;
        signs::circle(
            scene,
            self.centre,
            outside,
            Stroke {
                width: 1.5,
                ..stroke
            },
        );
        match self.subject.motion(part) {
            Motion::Held => {
                let tick = Stroke::solid(Ink::Held, 1.0);
                signs::hatched_outside(scene, self.centre, outside, OUTSIDE - 2.0, tick);
            }
            motion => self.draw_arrow(scene, motion, outside + OUTSIDE - 3.0, 0.5),
        }
    }

    /// The shaft of an external gear on a member: hatched when held, else with an arrow around.
    fn draw_hub(&self, scene: &mut Scene, part: Part, stroke: Stroke) {
        let hub = self.hub();
        scene.disc(self.centre, hub, Ink::Paper);
        let motion = self.subject.motion(part);
        if motion == Motion::Held {
            signs::hatched_disc(scene, self.centre, hub, Stroke::solid(Ink::Held, 1.0));
        } else {
            let cross = Stroke::solid(Ink::Quiet, 1.0);
            signs::centre_cross(scene, self.centre, hub * 0.4, cross);
        }
        signs::circle(
            scene,
            self.centre,
            hub,
            Stroke {
                width: 1.5,
                ..stroke
            },
        );
        let radius = hub + (self.root() - hub) * 0.45;
        if radius - hub >= 4.5 {
            self.draw_arrow(scene, motion, radius, 1.9);
        }
    }

    fn hub(&self) -> f64 {
        (0.34 * self.root()).clamp(3.0, 22.0)
    }

    /// An arrow over the top, `half` radians to each side, if the motion has a direction.
    fn draw_arrow(&self, scene: &mut Scene, motion: Motion, radius: f64, half: f64) {
        let way = match motion {
            Motion::Forward => 1.0,
            Motion::Backward => -1.0,
            Motion::Held | Motion::Free | Motion::Fighting => return,
        };
        let ends = (-FRAC_PI_2 - way * half, -FRAC_PI_2 + way * half);
        let stroke = Stroke::solid(motion.ink(), 2.0);
        let head = (radius * 0.7).min(8.0);
        signs::arrow(scene, (self.centre, radius), ends, head, stroke);
    }
}
