//! The end view of one coupling: its toothed gears, seen along the axis from the input's end,
//! turning at their true relative speeds.
//!
//! Forward turns clockwise. Everything comes from the coupling's profile and the spin of its
//! pinions, so a new kind of coupling needs no change here.

mod captions;
mod carrier;
mod fit;
mod gears;
mod signs;
mod subject;
mod teeth;
#[cfg(test)]
mod tests;
mod wheel;
mod wrap;

use std::f64::consts::FRAC_PI_2;

use levertrain_core::coupling::{Mount, Plane};
use levertrain_core::short_sort::sort_short_by_key;

use super::scene::{Bounds, Ink, Point, Scene, Stroke};
use crate::motion::live::Live;
use captions::Caption;
use fit::{Round, View, fit, nearest};
use gears::{ADDENDUM, Turns, stand};
use subject::{Part, Subject};
use wheel::{RIM, Wheel};

/// Share of the drawing's smaller side that the gears must span, or they go without captions.
const LEAST_SPAN: f64 = 0.3;

/// Draws it. A coupling that does not exist gives an empty drawing, as does a size that leaves
/// no room.
pub fn scene(live: &Live<'_>, coupling: usize, (width, height): (f64, f64)) -> Scene {
    let mut scene = Scene::new(width, height);
    let Some(subject) = Subject::of(live, coupling) else {
        return scene;
    };
    let Some(Sheet {
        base,
        view,
        captions,
    }) = Sheet::of(&subject, (width, height))
    else {
        return scene;
    };
    let gears = stand(&subject.profile, &subject.turns(), base);
    let wheels: Vec<Wheel<'_>> = gears
        .iter()
        .map(|gear| Wheel::of(&subject, gear, view))
        .collect();
    // From the far plane to the near one; a plate is behind all gears but the farthest ring.
    let mut order: Vec<&Wheel<'_>> = wheels.iter().collect();
    sort_short_by_key(&mut order, |wheel| (wheel.plane(), !wheel.gear.internal));
    let plates = carrier::plates(&subject, &wheels, view.origin);
    let behind = order.partition_point(|wheel| wheel.gear.internal && wheel.plane() < Plane::Near);
    order[..behind]
        .iter()
        .for_each(|wheel| wheel.draw(&mut scene));
    plates.iter().for_each(|plate| plate.draw(&mut scene));
    order[behind..]
        .iter()
        .for_each(|wheel| wheel.draw(&mut scene));
    plates.iter().for_each(|plate| plate.draw_pins(&mut scene));
    for caption in captions {
        let target = target(&wheels, &caption);
        draw_caption(&mut scene, caption, target);
    }
    scene
}

/// How a drawing is laid out, whatever the moment.
struct Sheet {
    /// Direction from the main axis to where the first pinion, or the second gear, starts.
    base: f64,
    view: View,
    captions: Vec<Caption>,
}

impl Sheet {
    fn of(subject: &Subject<'_>, size: (f64, f64)) -> Option<Self> {
        // The first pinion starts on top; gears on parallel axes stand whichever way they can
        // be drawn larger.
        let bases: &[f64] = match subject.profile.coaxial {
            true => &[-FRAC_PI_2],
            false => &[FRAC_PI_2, 0.0],
        };
        let captions = captions::captions(subject, size);
        let boxes: Vec<Bounds> = captions
            .iter()
            .flat_map(|caption| caption.areas.iter().copied())
            .collect();
        let largest = |boxes: &[Bounds]| {
            let views = bases.iter().filter_map(|&base| {
                let rounds = rounds(subject, base);
                let view = fit(&rounds, size, boxes)?;
                let span = rounds.iter().map(|round| round.radius).fold(0.0, f64::max);
                Some((base, view, 2.0 * view.scale * span))
            });
            views.max_by(|(_, a, _), (_, b, _)| a.scale.total_cmp(&b.scale))
        };
        match largest(&boxes) {
            Some((base, view, span)) if span >= LEAST_SPAN * size.0.min(size.1) => Some(Self {
                base,
                view,
                captions,
            }),
            _ => largest(&[]).map(|(base, view, _)| Self {
                base,
                view,
                captions: Vec::new(),
            }),
        }
    }
}

/// The circles that the gears stay within however they turn.
fn rounds(subject: &Subject<'_>, base: f64) -> Vec<Round> {
    let profile = &subject.profile;
    let still = Turns {
        members: vec![0.0; subject.members.len()],
        pinions: vec![0.0; subject.pinions.len()],
    };
    stand(profile, &still, base)
        .iter()
        .map(|gear| {
            let (x, y) = gear.centre;
            let (centre, orbit) = match profile.gears[gear.gear].mount {
                Mount::Member(_) => (gear.centre, 0.0),
                Mount::Pinion { .. } => ((0.0, 0.0), x.hypot(y)),
            };
            let (outside, margin) = if gear.internal {
                (gear.root(), RIM)
            } else {
                (gear.pitch + ADDENDUM, 2.0)
            };
            Round {
                centre,
                radius: orbit + outside,
                margin,
            }
        })
        .collect()
}

/// The spot on a part that its caption points at: on the nearest of its gears or pins.
fn target(wheels: &[Wheel<'_>], caption: &Caption) -> Option<Point> {
    let middle = caption.middle()?;
    let spot = |wheel: &Wheel<'_>| match (wheel.mount(), caption.part) {
        (Mount::Pinion { carrier, .. }, Part::Member(member)) if carrier == member => {
            Some(wheel.centre)
        }
        (mount, part) if Part::from(mount) == part => Some(wheel.spot_towards(middle)),
        _ => None,
    };
    let far = |point: &Point| (point.x - middle.x).hypot(point.y - middle.y);
    wheels
        .iter()
        .filter_map(spot)
        .min_by(|a, b| far(a).total_cmp(&far(b)))
}

fn draw_caption(scene: &mut Scene, caption: Caption, target: Option<Point>) {
    let (place, height) = caption.sign;
    match caption.motion {
        Some(motion) => signs::motion(scene, place, height, motion),
        None => signs::locked(scene, place, height),
    }
    if let Some(target) = target {
        leader(scene, &caption, target);
    }
    for label in caption.labels {
        scene.label(label);
    }
}

/// A thin line from a caption to what it is about, ending in a dot as leaders on drawings do.
fn leader(scene: &mut Scene, caption: &Caption, target: Point) {
    const GAP: f64 = 3.0;
    let starts = caption.labels.iter().map(|label| {
        let mut bounds = label.bounds();
        bounds.left -= GAP;
        bounds.width += 2.0 * GAP;
        nearest(&bounds, target)
    });
    let far = |point: &Point| (point.x - target.x).hypot(point.y - target.y);
    let Some(start) = starts.min_by(|a, b| far(a).total_cmp(&far(b))) else {
        return;
    };
    scene.line(start, target, Stroke::solid(Ink::Paper, 3.0));
    scene.line(start, target, Stroke::solid(Ink::Text, 1.0));
    scene.disc(target, 3.5, Ink::Paper);
    scene.disc(target, 2.5, Ink::Text);
}
