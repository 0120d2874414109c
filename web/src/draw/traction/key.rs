//! The key under the plots: which line is which range, and what else is marked.

use levertrain_core::words::word;

use super::lines::Line;
use super::{SHIFT, SIZE, View};
use crate::draw::scene::{Align, Dash, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;

/// How the road and the run are drawn.
pub(super) const ROAD: Stroke = Stroke::broken(Ink::Quiet, 1.75, Dash::Dotted);
pub(super) const RUN: Stroke = Stroke::solid(Ink::Text, 3.0);
/// Height of a row, width of a sample, and room between two entries, in CSS pixels.
const ROW: f64 = 20.0;
const SAMPLE: f64 = 30.0;
const APART: f64 = 16.0;

/// What a sample shows.
#[derive(Debug, Clone, Copy)]
enum Sample {
    Line(Stroke),
    Shift,
}

/// Each entry, and where it begins from the upper left corner of the key.
fn entries(view: &View<'_>, lines: &[Line], width: f64) -> Vec<(Sample, String, bool, Point)> {
    let ranges = lines.iter().map(|line| {
        (
            Sample::Line(line.stroke),
            line.name.clone(),
            line.is_present,
        )
    });
    let mut others = vec![(Sample::Line(ROAD), "diagram-traction-road")];
    if let Ok(run) = &view.traction.run {
        others.push((Sample::Line(RUN), "diagram-traction-run"));
        if !run.changes.is_empty() {
            others.push((Sample::Shift, "diagram-traction-shift"));
        }
    }
    let others = others
        .into_iter()
        .map(|(sample, message)| (sample, word(message).to_owned(), false));
    let mut cursor = at(2.0, ROW / 2.0);
    let mut placed = Vec::new();
    for (sample, name, bold) in ranges.chain(others) {
        let across = SAMPLE + 6.0 + text::width(&name, SIZE, bold);
        if cursor.x > 2.0 && cursor.x + across > width {
            cursor = at(2.0, cursor.y + ROW);
        }
        placed.push((sample, name, bold, cursor));
        cursor.x += across + APART;
    }
    placed
}

/// The height of the key.
pub(super) fn height(view: &View<'_>, lines: &[Line], width: f64) -> f64 {
    let entries = entries(view, lines, width);
    entries.last().map_or(0.0, |(_, _, _, place)| place.y) + ROW / 2.0 + 4.0
}

/// Draws it from this height down.
pub(super) fn draw(scene: &mut Scene, view: &View<'_>, lines: &[Line], top: f64) {
    for (sample, text, bold, place) in entries(view, lines, scene.width) {
        let y = top + place.y;
        match sample {
            Sample::Line(stroke) => scene.line(at(place.x, y), at(place.x + SAMPLE, y), stroke),
            Sample::Shift => scene.disc(at(place.x + SAMPLE / 2.0, y), SHIFT, Ink::Text),
        }
        scene.label(Label {
            at: at(place.x + SAMPLE + 6.0, y),
            text,
            size: SIZE,
            bold,
            ink: Ink::Text,
            align: Align::Left,
            plate: false,
        });
    }
}
