//! The key under the axis.

use levertrain_core::words::word;

use super::View;
use super::bands::{WRONG, hatch};
use super::plan::{Plan, SIZE, letter};
use super::strips::{CAPACITY, KEPT};
use crate::draw::scene::{Align, Bounds, Ink, Point, Scene, Stroke, at};
use crate::draw::text;

/// Height of a row, width of a sample, and room between two entries, in CSS pixels.
const ROW: f64 = 20.0;
const SAMPLE: f64 = 28.0;
const APART: f64 = 16.0;

/// An entry: its sample, none for what is hatched, and its message.
type Entry = (Option<Stroke>, &'static str);

/// All entries there can be.
const ENTRIES: [Entry; 3] = [
    (Some(CAPACITY), "diagram-timed-capacity"),
    (None, "diagram-timed-wrong"),
    (Some(KEPT), "diagram-timed-kept"),
];

/// Those that mean something now.
fn is_shown(view: &View<'_>, entry: &Entry) -> bool {
    let marks = &view.shift.marks;
    match entry {
        (None, _) => !marks.flares.is_empty() || !marks.binds.is_empty(),
        (Some(KEPT), _) => view.kept.is_some(),
        _ => !view.shift.plan.commands.is_empty(),
    }
}

/// Where each entry begins, from the upper left corner of the key.
fn places(width: f64) -> impl Iterator<Item = (Entry, Point)> {
    let mut cursor = at(2.0, ROW / 2.0);
    ENTRIES.into_iter().map(move |(sample, message)| {
        let across = SAMPLE + 6.0 + text::width(word(message), SIZE, false);
        if cursor.x > 2.0 && cursor.x + across > width {
            cursor = at(2.0, cursor.y + ROW);
        }
        let place = cursor;
        cursor.x += across + APART;
        ((sample, message), place)
    })
}

/// Room for every entry there can be, so that nothing below moves while something is dragged.
pub(super) fn height(width: f64) -> f64 {
    let last = places(width).last().map_or(0.0, |(_, place)| place.y);
    last + ROW / 2.0 + 4.0
}

pub(super) fn draw(scene: &mut Scene, view: &View<'_>, plan: &Plan) {
    let shown = places(scene.width).filter(|(entry, _)| is_shown(view, entry));
    for ((sample, message), place) in shown {
        let y = plan.key + place.y;
        match sample {
            Some(stroke) => scene.line(at(place.x, y), at(place.x + SAMPLE, y), stroke),
            None => {
                let area = Bounds {
                    left: place.x,
                    top: y - 6.0,
                    width: SAMPLE,
                    height: 12.0,
                };
                hatch(scene, area, WRONG);
                scene.outline_box(area, WRONG);
            }
        }
        let place = at(place.x + SAMPLE + 6.0, y);
        scene.label(letter(
            place,
            word(message).to_owned(),
            Ink::Text,
            Align::Left,
        ));
    }
}
