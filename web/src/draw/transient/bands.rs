//! The bands on top: the phases, and where it flares or binds.

use levertrain_core::transient::{Phase, Stretch};
use levertrain_core::words::word;

use super::View;
use super::plan::{BAND, Plan, SIZE, letter};
use crate::draw::scene::{Align, Bounds, Dash, Ink, Scene, Stroke, at};
use crate::draw::text;

/// Where it flares or binds.
pub(super) const WRONG: Stroke = Stroke::solid(Ink::Fight, 1.0);
/// Distance of the lines of a hatching, in CSS pixels.
const HATCH: f64 = 8.0;

pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let marks = &view.shift.marks;
    let border = Stroke::broken(Ink::Guide, 1.0, Dash::Dashed);
    for (phase, stretch) in &marks.phases {
        let area = area(plan, *stretch, 0.0);
        if stretch.begin > 0.0 {
            scene.line(at(area.left, 0.0), at(area.left, plan.bottom), border);
        }
        let name = word(message(*phase)).to_owned();
        if text::width(&name, SIZE, false) + 4.0 <= area.width {
            scene.label(letter(area.middle(), name, Ink::Quiet, Align::Centre));
        }
    }
    // The one over the speeds, the other over the torques.
    let flares = marks
        .flares
        .iter()
        .map(|stretch| (*stretch, 0, "diagram-timed-flare"));
    let binds = marks
        .binds
        .iter()
        .map(|(_, stretch)| (*stretch, 1, "diagram-timed-bind"));
    let wrong: Vec<_> = flares.chain(binds).collect();
    for &(stretch, strip, _) in &wrong {
        let band = area(plan, stretch, BAND);
        let strip = &plan.strips[strip];
        let under = Bounds {
            top: strip.top,
            height: strip.bottom - strip.top,
            ..band
        };
        for area in [band, under] {
            hatch(scene, area, WRONG);
            for x in [area.left, area.left + area.width] {
                scene.line(at(x, area.top), at(x, area.top + area.height), WRONG);
            }
        }
    }
    // Over all hatchings, and each where no other is.
    let mut taken: Vec<Bounds> = Vec::new();
    for (stretch, _, message) in wrong {
        let band = area(plan, stretch, BAND);
        let name = word(message).to_owned();
        let width = text::width(&name, SIZE, true);
        let x = band
            .middle()
            .x
            .clamp(plan.left + width / 2.0, plan.right - width / 2.0);
        let mut label = letter(at(x, BAND * 1.5), name, Ink::Text, Align::Centre);
        label.bold = true;
        label.plate = true;
        let bounds = label.bounds();
        if !taken.iter().any(|other| other.overlaps(&bounds)) {
            taken.push(bounds);
            scene.label(label);
        }
    }
}

/// The part of a band that a stretch of time takes.
fn area(plan: &Plan, stretch: Stretch, top: f64) -> Bounds {
    let [left, right] = [plan.x(stretch.begin), plan.x(stretch.end)];
    Bounds {
        left,
        top,
        width: right - left,
        height: BAND - 2.0,
    }
}

/// Slanted lines all over an area.
pub(super) fn hatch(scene: &mut Scene, area: Bounds, stroke: Stroke) {
    let Bounds {
        left,
        top,
        width,
        height,
    } = area;
    let lines = ((width + height) / HATCH).floor() as usize;
    for line in 1..=lines {
        // From the left or lower edge up to the upper or right one.
        let along = line as f64 * HATCH;
        let (x, y) = ((along - height).max(0.0), along.min(height));
        let (u, v) = (along.min(width), (along - width).max(0.0));
        scene.line(at(left + x, top + y), at(left + u, top + v), stroke);
    }
}

fn message(phase: Phase) -> &'static str {
    match phase {
        Phase::Before => "diagram-timed-before",
        Phase::Fill => "diagram-timed-fill",
        Phase::Torque => "diagram-timed-torque",
        Phase::Inertia => "diagram-timed-inertia",
        Phase::After => "diagram-timed-after",
    }
}
