//! The small signs for how a part moves, and the arrows on the gears.

use std::f64::consts::{FRAC_1_SQRT_2, FRAC_PI_2, PI, TAU};

use levertrain_core::sin_cos;

use crate::draw::scene::{Dash, Ink, Point, Scene, Stroke, at};
use crate::motion::live::Motion;

/// A point on a circle: angle clockwise from the right.
pub fn on_circle(centre: Point, radius: f64, angle: f64) -> Point {
    let (sin, cos) = sin_cos(angle);
    at(centre.x + radius * cos, centre.y + radius * sin)
}

/// Points along an arc, close enough together to look round.
pub fn arc(centre: Point, radius: f64, from: f64, to: f64) -> Vec<Point> {
    let pieces = ((to - from).abs() * radius.max(4.0).sqrt() * 2.0)
        .ceil()
        .max(1.0);
    (0..=pieces as u32)
        .map(|piece| {
            on_circle(
                centre,
                radius,
                from + (to - from) * f64::from(piece) / pieces,
            )
        })
        .collect()
}

/// An arc with an arrow head at its end.
pub fn arrow(
    scene: &mut Scene,
    (centre, radius): (Point, f64),
    (from, to): (f64, f64),
    head: f64,
    stroke: Stroke,
) {
    let way = (to - from).signum();
    // The line ends inside the head, whose tip then lies on the circle.
    let neck = to - way * 0.8 * head / radius;
    scene.path(arc(centre, radius, from, neck), stroke);
    let back = on_circle(centre, radius, to - way * head / radius);
    let tip = on_circle(centre, radius, to);
    scene.arrow_head(tip, (tip.x - back.x, tip.y - back.y), head, stroke.ink);
}

/// The sign for a motion, in a square of that height: an arrow around, a ground, a broken ring
/// or a break.
pub fn motion(scene: &mut Scene, centre: Point, height: f64, motion: Motion) {
    let ink = motion.ink();
    let half = height / 2.0;
    let line = Stroke::solid(ink, 1.5);
    match motion {
        Motion::Forward | Motion::Backward => {
            let way = if motion == Motion::Forward { 1.0 } else { -1.0 };
            let start = -FRAC_PI_2 - way * 2.4;
            let ends = (start, start + way * 4.9);
            arrow(scene, (centre, half * 0.85), ends, height * 0.5, line);
        }
        Motion::Held => {
            let (left, right) = (at(centre.x - half, centre.y), at(centre.x + half, centre.y));
            scene.line(at(centre.x, centre.y - half), centre, line);
            scene.line(left, right, line);
            for step in 0..4 {
                let x = centre.x - half + height * (f64::from(step) + 0.7) / 4.0;
                let foot = at(x, centre.y);
                let end = at(x - height * 0.22, centre.y + half * 0.7);
                scene.line(foot, end, Stroke::solid(ink, 1.0));
            }
        }
        Motion::Free => {
            for piece in 0..5 {
                let from = TAU * f64::from(piece) / 5.0;
                scene.path(arc(centre, half * 0.85, from, from + 0.75), line);
            }
        }
        Motion::Fighting => {
            let zigzag = [(-1.0, 0.3), (-0.3, -0.9), (0.3, 0.9), (1.0, -0.3)];
            let points = zigzag.map(|(x, y)| at(centre.x + half * x, centre.y + half * y));
            scene.path(points.to_vec(), line);
        }
    }
}

/// The sign for a pinion that does not turn on its pin: a cross in a circle.
pub fn locked(scene: &mut Scene, centre: Point, height: f64) {
    let line = Stroke::solid(Ink::Text, 1.5);
    circle(scene, centre, height * 0.42, line);
    for angle in [0.25, 0.75].map(|half_turns: f64| half_turns * PI) {
        let ends = [angle, angle + PI].map(|angle| on_circle(centre, height * 0.42, angle));
        scene.line(ends[0], ends[1], line);
    }
}

/// Hatching inside a circle: the sign for what is fixed to the housing, on a section.
pub fn hatched_disc(scene: &mut Scene, centre: Point, radius: f64, stroke: Stroke) {
    const SPACING: f64 = 4.0;
    let lines = (radius / SPACING).floor() as i32;
    for line in -lines..=lines {
        let offset = f64::from(line) * SPACING;
        let half = (radius * radius - offset * offset).max(0.0).sqrt();
        let place = |along: f64| {
            at(
                centre.x + (offset + along) * FRAC_1_SQRT_2,
                centre.y + (offset - along) * FRAC_1_SQRT_2,
            )
        };
        scene.line(place(-half), place(half), stroke);
    }
}

/// Ticks outwards from a circle: the sign for a ring fixed to the housing.
pub fn hatched_outside(scene: &mut Scene, centre: Point, radius: f64, length: f64, stroke: Stroke) {
    const SPACING: f64 = 8.0;
    let ticks = (TAU * radius / SPACING).round().max(8.0);
    for tick in 0..ticks as u32 {
        let angle = TAU * f64::from(tick) / ticks;
        let foot = on_circle(centre, radius, angle);
        let end = on_circle(centre, radius + length, angle + length / radius);
        scene.line(foot, end, stroke);
    }
}

/// A closed circle as a line.
pub fn circle(scene: &mut Scene, centre: Point, radius: f64, stroke: Stroke) {
    scene.path(arc(centre, radius, 0.0, TAU), stroke);
}

/// The cross of centre lines at an axis.
pub fn centre_cross(scene: &mut Scene, centre: Point, reach: f64, stroke: Stroke) {
    scene.line(
        at(centre.x - reach, centre.y),
        at(centre.x + reach, centre.y),
        stroke,
    );
    scene.line(
        at(centre.x, centre.y - reach),
        at(centre.x, centre.y + reach),
        stroke,
    );
}

/// The stroke of a guide circle, such as a pitch circle.
pub const fn guide(ink: Ink) -> Stroke {
    Stroke::broken(ink, 1.0, Dash::Chain)
}
