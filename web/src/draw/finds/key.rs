//! The key under the plot: what marks mean.

use levertrain_core::words::word;

use super::{SIZE, View, axes, dot, present, ring};
use crate::draw::scene::{Align, Ink, Label, Point, Scene, at};
use crate::draw::text;

/// Height of a row, width of a sample, and room between two entries, in CSS pixels.
const ROW: f64 = 22.0;
const SAMPLE: f64 = 22.0;
const APART: f64 = 16.0;

/// What a sample shows.
#[derive(Debug, Clone, Copy)]
enum Sample {
    Unbeaten,
    Beaten,
    Chosen,
    Present,
    Beyond,
}

/// Whether the train that was asked about is beyond the plot.
fn is_beyond(view: &View, width: f64) -> bool {
    let axes = axes(view, width);
    view.present.is_some_and(|present| {
        let mut measures = axes.iter().zip(present);
        measures.any(|(axis, value)| !axis.holds(value))
    })
}

/// Each entry that there is a mark for, and where it begins.
fn entries(view: &View, width: f64) -> Vec<(Sample, &'static str, Point)> {
    let unbeaten = view.is_unbeaten();
    let beyond = is_beyond(view, width);
    let all = [
        (Sample::Unbeaten, "diagram-finds-unbeaten", true),
        (
            Sample::Beaten,
            "diagram-finds-beaten",
            unbeaten.contains(&false),
        ),
        (
            Sample::Chosen,
            "diagram-finds-chosen",
            view.chosen.is_some(),
        ),
        (
            Sample::Present,
            "diagram-finds-present",
            view.present.is_some() && !beyond,
        ),
        (Sample::Beyond, "diagram-finds-beyond", beyond),
    ];
    let mut cursor = at(2.0, ROW / 2.0);
    let mut placed = Vec::new();
    for (sample, message, _) in all.into_iter().filter(|(_, _, is_there)| *is_there) {
        let across = SAMPLE + 4.0 + text::width(word(message), SIZE, false);
        if cursor.x > 2.0 && cursor.x + across > width {
            cursor = at(2.0, cursor.y + ROW);
        }
        placed.push((sample, message, cursor));
        cursor.x += across + APART;
    }
    placed
}

/// The height of the key.
pub(super) fn height(view: &View, width: f64) -> f64 {
    let entries = entries(view, width);
    let last = entries.last().map_or(0.0, |(_, _, place)| place.y);
    last + ROW / 2.0 + 2.0
}

/// Draws it from this height down.
pub(super) fn draw(scene: &mut Scene, view: &View, top: f64) {
    for (sample, message, place) in entries(view, scene.width) {
        let y = top + place.y;
        let middle = at(place.x + SAMPLE / 2.0, y);
        match sample {
            Sample::Unbeaten => dot(scene, middle, true),
            Sample::Beaten => dot(scene, middle, false),
            Sample::Chosen => {
                ring(scene, middle);
                dot(scene, middle, true);
            }
            Sample::Present => present(scene, middle, (0.0, 0.0)),
            Sample::Beyond => present(scene, middle, (1.0, 0.0)),
        }
        scene.label(Label {
            at: at(place.x + SAMPLE + 4.0, y),
            text: word(message).to_owned(),
            size: SIZE,
            bold: false,
            ink: Ink::Text,
            align: Align::Left,
            plate: false,
        });
    }
}
