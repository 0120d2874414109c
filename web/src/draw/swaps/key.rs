//! The key under the axis: what lines and marks mean.

use levertrain_core::words::word;

use super::View;
use super::axis::{SIZE, Side};
use super::marks::{ALONG, DOUBLE, FROM_HERE, SINGLE, frame, mark};
use super::plan::{Plan, RADIUS};
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;

/// Height of a row, width of a sample, and room between two entries, in CSS pixels.
const ROW: f64 = 20.0;
const SAMPLE: f64 = 28.0;
const APART: f64 = 16.0;

/// What a sample shows.
#[derive(Debug, Clone, Copy)]
enum Sample {
    Line(Stroke),
    Now,
    Other,
    Beyond,
}

/// The entries: sample and message.
fn entries(view: &View<'_>, beyond: bool) -> Vec<(Sample, &'static str)> {
    let mut entries = vec![
        (Sample::Now, "diagram-swaps-now"),
        (Sample::Line(FROM_HERE), "diagram-swaps-from-here"),
        (Sample::Line(SINGLE), "diagram-swaps-single"),
        (Sample::Line(DOUBLE), "diagram-swaps-double"),
        (Sample::Other, "diagram-swaps-other"),
    ];
    if beyond {
        entries.push((Sample::Beyond, "diagram-swaps-beyond"));
    }
    if !view.chain.is_empty() {
        entries.push((Sample::Line(ALONG), "diagram-swaps-chain"));
    }
    entries
}

/// Where each entry begins, from the upper left corner of the key.
fn places(view: &View<'_>, width: f64, beyond: bool) -> Vec<(Sample, &'static str, Point)> {
    let mut cursor = at(2.0, ROW / 2.0);
    let mut placed = Vec::new();
    for (sample, message) in entries(view, beyond) {
        let across = SAMPLE + 6.0 + text::width(word(message), SIZE, false);
        if cursor.x > 2.0 && cursor.x + across > width {
            cursor = at(2.0, cursor.y + ROW);
        }
        placed.push((sample, message, cursor));
        cursor.x += across + APART;
    }
    placed
}

/// The height of the key.
pub(super) fn height(view: &View<'_>, width: f64, beyond: bool) -> f64 {
    let last = places(view, width, beyond)
        .last()
        .map_or(0.0, |(_, _, place)| place.y);
    last + ROW / 2.0 + 4.0
}

/// Draws it.
pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    for (sample, message, place) in places(view, scene.width, plan.has_beyond()) {
        let y = plan.key + place.y;
        let middle = at(place.x + SAMPLE / 2.0, y);
        match sample {
            Sample::Line(stroke) => {
                scene.line(at(place.x, y), at(place.x + SAMPLE, y), stroke);
            }
            Sample::Now => {
                let area = Bounds {
                    left: middle.x - RADIUS,
                    top: middle.y - RADIUS,
                    width: 2.0 * RADIUS,
                    height: 2.0 * RADIUS,
                };
                frame(scene, area);
                scene.fill_box(area, Ink::Text);
            }
            Sample::Other => mark(scene, middle, Side::On, true),
            Sample::Beyond => mark(scene, middle, Side::Before, true),
        }
        scene.label(Label {
            at: at(place.x + SAMPLE + 6.0, y),
            text: word(message).to_owned(),
            size: SIZE,
            bold: false,
            ink: Ink::Text,
            align: Align::Left,
            plate: false,
        });
    }
}
