//! Drawing carriers: a plate behind the pinions, and the pins on top of them.

use std::f64::consts::TAU;

use levertrain_core::coupling::Mount;
use levertrain_core::short_sort::sort_short_by;

use super::signs;
use super::subject::{Part, Subject};
use super::wheel::Wheel;
use crate::draw::scene::{Ink, Point, Scene, Stroke};
use crate::motion::live::Motion;

/// How far the plate reaches around a pin, over the root radius of the pinion on it.
const BOSS: f64 = 0.6;

/// A carrier: the plate of one member, with all its pins.
pub struct Plate<'a> {
    subject: &'a Subject<'a>,
    member: usize,
    axis: Point,
    pins: Vec<Pin>,
}

/// A pin on a plate.
#[derive(Debug, Clone, Copy)]
struct Pin {
    centre: Point,
    /// Root radius of the pinion on it, in CSS pixels.
    pinion: f64,
}

/// The carriers of the pinions among `wheels`, which turn about `axis`.
pub fn plates<'a>(subject: &'a Subject<'a>, wheels: &[Wheel<'_>], axis: Point) -> Vec<Plate<'a>> {
    let mut plates: Vec<Plate<'a>> = Vec::new();
    for wheel in wheels {
        let Mount::Pinion { carrier, .. } = wheel.mount() else {
            continue;
        };
        let pin = Pin {
            centre: wheel.centre,
            pinion: wheel.root(),
        };
        match plates.iter_mut().find(|plate| plate.member == carrier) {
            Some(plate) => plate.pins.push(pin),
            None => plates.push(Plate {
                subject,
                member: carrier,
                axis,
                pins: vec![pin],
            }),
        }
    }
    plates
}

impl Plate<'_> {
    fn stroke(&self) -> Stroke {
        self.subject.stroke(Part::Member(self.member), 1.5)
    }

    /// Distance of a pin from the axis.
    fn orbit(&self, pin: &Pin) -> f64 {
        (pin.centre.x - self.axis.x).hypot(pin.centre.y - self.axis.y)
    }

    /// Draws the plate: as far as a belt around bosses at the pins and the axis would reach.
    pub fn draw(&self, scene: &mut Scene) {
        let bosses = self.pins.iter().map(|pin| (pin.centre, BOSS * pin.pinion));
        // Around the axis it reaches as far in between the pinions, or few of them would hide it.
        let reach = |pin: &Pin| self.orbit(pin) - BOSS * pin.pinion;
        let hub = self.pins.iter().map(reach).fold(f64::INFINITY, f64::min);
        let hub = (self.axis, hub.max(0.0));
        let corners = bosses
            .chain([hub])
            .flat_map(|(centre, radius)| signs::arc(centre, radius, 0.0, TAU))
            .collect();
        let outline = belt(corners);
        scene.fill(outline.clone(), Ink::Guide);
        if self.subject.is_lit(Part::Member(self.member)) {
            scene.path(outline.clone(), Stroke::solid(Ink::Lit, 6.0));
        }
        scene.path(outline, self.stroke());
    }

    /// Draws the pins: solid where they turn with the carrier, hatched where it is held. An
    /// arrow at each says which way they are carried.
    pub fn draw_pins(&self, scene: &mut Scene) {
        let motion = self.subject.motion(Part::Member(self.member));
        let stroke = self.stroke();
        for pin in &self.pins {
            let radius = (0.3 * pin.pinion).clamp(2.5, 14.0);
            if self.subject.is_lit(Part::Member(self.member)) {
                scene.disc(pin.centre, radius + 3.0, Ink::Lit);
            }
            match motion {
                Motion::Forward | Motion::Backward | Motion::Fighting => {
                    scene.disc(pin.centre, radius, stroke.ink);
                }
                Motion::Free => {
                    scene.disc(pin.centre, radius, Ink::Paper);
                    signs::circle(scene, pin.centre, radius, stroke);
                }
                Motion::Held => {
                    scene.disc(pin.centre, radius, Ink::Paper);
                    let hatch = Stroke::solid(stroke.ink, 1.0);
                    signs::hatched_disc(scene, pin.centre, radius, hatch);
                    signs::circle(scene, pin.centre, radius, stroke);
                }
            }
            self.draw_arrow(scene, pin, radius, motion);
        }
    }

    fn draw_arrow(&self, scene: &mut Scene, pin: &Pin, radius: f64, motion: Motion) {
        const SHORTEST: f64 = 9.0;
        const HEAD: f64 = 7.0;
        let way = match motion {
            Motion::Forward => 1.0,
            Motion::Backward => -1.0,
            Motion::Held | Motion::Free | Motion::Fighting => return,
        };
        let orbit = self.orbit(pin);
        let length = (0.9 * pin.pinion - radius).min(26.0);
        if length < SHORTEST || orbit < pin.pinion {
            return;
        }
        let (dx, dy) = (pin.centre.x - self.axis.x, pin.centre.y - self.axis.y);
        let start = dy.atan2(dx) + way * radius / orbit;
        let ends = (start, start + way * length / orbit);
        signs::arrow(
            scene,
            (self.axis, orbit),
            ends,
            HEAD,
            Stroke::solid(motion.ink(), 2.0),
        );
    }
}

/// The convex outline around points, closed by its first one (Andrew's monotone chain).
fn belt(mut points: Vec<Point>) -> Vec<Point> {
    sort_short_by(&mut points, |a, b| {
        a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y))
    });
    let mut outline = half_belt(points.iter().copied());
    let back = half_belt(points.iter().rev().copied());
    outline.pop();
    outline.extend(back);
    outline
}

/// The points on one side of the convex outline, met in order.
fn half_belt(points: impl Iterator<Item = Point>) -> Vec<Point> {
    let mut side: Vec<Point> = Vec::new();
    for point in points {
        while let [.., a, b] = side[..] {
            let turn = (b.x - a.x) * (point.y - a.y) - (b.y - a.y) * (point.x - a.x);
            if turn > 0.0 {
                break;
            }
            side.pop();
        }
        side.push(point);
    }
    side
}
