//! A map of timings as a picture: a mark for each, where it begins to release to the right and to apply upwards.
//!
//! A mark is the larger the more is made heat. It is filled, on a ground, where the shift hardly flares or binds, a ring
//! where it flares, a cross where it binds, and both where it does both. A frame marks what is commanded now.

#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;

use levertrain_core::words::word;

use super::field::letter;
use super::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use super::text;
use super::ticks::{plain, tidy};

const SIZE: f64 = 12.0;
/// Room above the marks for the name of the axis upwards, under them for numbers and the other name, and at the right, in
/// CSS pixels.
const TOP: f64 = 24.0;
const BOTTOM: f64 = 40.0;
const RIGHT: f64 = 14.0;
/// Room for numbers at the left.
const LEFT: f64 = 38.0;
/// The widest that the marks are drawn.
const WIDEST: f64 = 420.0;
/// Least distance of two numbers.
const ACROSS: f64 = 56.0;
/// Height of a row of the key, and width of a sample.
const ROW: f64 = 20.0;
const SAMPLE: f64 = 18.0;
/// The least radius of a mark, as a part of the largest.
const LEAST: f64 = 0.4;

/// What is to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct View {
    /// When it begins to release, of each column, in seconds.
    pub releases: Vec<f64>,
    /// When it begins to apply, of each row.
    pub applies: Vec<f64>,
    /// Flare, tie-up and heat of each, row by row; no numbers where there are none.
    pub values: Vec<[f64; 3]>,
    /// What flare and tie-up are slight.
    pub slight: [f64; 2],
    /// Column and row of what is commanded now.
    pub now: [usize; 2],
}

/// Where the marks stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Places {
    /// The height of the drawing in CSS pixels.
    pub height: f64,
    /// Where the marks begin, to the right and down.
    pub left: f64,
    /// Down.
    pub top: f64,
    /// How wide and how high the room of one is.
    pub cell: f64,
}

/// Where everything stands at a width in CSS pixels.
pub fn places(view: &View, width: f64) -> Places {
    let room = (width - LEFT - RIGHT).clamp(1.0, WIDEST);
    let cell = room / view.releases.len().max(1) as f64;
    let height = TOP + cell * view.applies.len() as f64 + BOTTOM;
    Places {
        height: height
            + key(width)
                .last()
                .map_or(0.0, |(_, place)| place.y + ROW / 2.0),
        left: LEFT,
        top: TOP,
        cell,
    }
}

/// The drawing at a width in CSS pixels.
pub fn scene(view: &View, width: f64) -> Scene {
    let places = places(view, width);
    let Places {
        height,
        left,
        top,
        cell,
    } = places;
    let mut scene = Scene::new(width, height);
    let (columns, rows) = (view.releases.len().max(1), view.applies.len());
    let area = Bounds {
        left,
        top,
        width: cell * columns as f64,
        height: cell * rows as f64,
    };
    let place = |column: usize, row: usize| {
        at(
            left + (column as f64 + 0.5) * cell,
            top + (rows as f64 - row as f64 - 0.5) * cell,
        )
    };
    scene.outline_box(area, Stroke::solid(Ink::Guide, 1.0));
    let heats = view
        .values
        .iter()
        .map(|value| value[2])
        .filter(|heat| heat.is_finite());
    let hottest = heats.fold(0.0, f64::max).max(1e-12);
    for (index, [flare, bind, heat]) in view.values.iter().enumerate() {
        if !heat.is_finite() {
            continue;
        }
        let centre = place(index % columns, index / columns);
        let good = *flare <= view.slight[0] && *bind <= view.slight[1];
        if good {
            tile(&mut scene, centre, cell);
        }
        let radius = cell * 0.46 * (heat / hottest).sqrt().clamp(LEAST, 1.0);
        mark(
            &mut scene,
            centre,
            radius,
            [*flare > view.slight[0], *bind > view.slight[1]],
        );
    }
    let [column, row] = view.now;
    let centre = place(column, row);
    let half = cell / 2.0 + 1.0;
    let frame = Bounds {
        left: centre.x - half,
        top: centre.y - half,
        width: 2.0 * half,
        height: 2.0 * half,
    };
    scene.outline_box(frame, Stroke::solid(Ink::Paper, 5.0));
    scene.outline_box(frame, Stroke::solid(Ink::Text, 2.0));
    numbers(&mut scene, view, &places, area);
    let samples = [[false, false], [true, false], [false, true]];
    for ((message, spot), sample) in key(width).zip(samples) {
        let y = height - key_height(width) + spot.y;
        let centre = at(spot.x + SAMPLE / 2.0, y);
        if sample == [false, false] {
            tile(&mut scene, centre, SAMPLE - 2.0);
        }
        mark(&mut scene, centre, 5.0, sample);
        let label = letter(
            at(spot.x + SAMPLE + 4.0, y),
            word(message).to_owned(),
            Align::Left,
        );
        scene.label(Label {
            ink: Ink::Text,
            ..label
        });
    }
    scene
}

/// The entries of the key, and where they begin.
fn key(width: f64) -> impl Iterator<Item = (&'static str, Point)> {
    let mut cursor = at(2.0, ROW / 2.0);
    let messages = [
        "diagram-timings-right",
        "diagram-timed-flare",
        "diagram-timed-bind",
    ];
    messages.into_iter().map(move |message| {
        let across = SAMPLE + 4.0 + text::width(word(message), SIZE, false);
        if cursor.x > 2.0 && cursor.x + across > width {
            cursor = at(2.0, cursor.y + ROW);
        }
        let place = cursor;
        cursor.x += across + 14.0;
        (message, place)
    })
}

fn key_height(width: f64) -> f64 {
    key(width)
        .last()
        .map_or(0.0, |(_, place)| place.y + ROW / 2.0)
}

/// What is good has a ground that the eye finds.
fn tile(scene: &mut Scene, centre: Point, size: f64) {
    let area = Bounds {
        left: centre.x - size / 2.0,
        top: centre.y - size / 2.0,
        width: size,
        height: size,
    };
    scene.fill_box(area, Ink::Power);
}

fn mark(scene: &mut Scene, centre: Point, radius: f64, [flares, binds]: [bool; 2]) {
    if !flares && !binds {
        scene.disc(centre, radius, Ink::Text);
        return;
    }
    if flares {
        scene.disc(centre, radius, Ink::Fight);
        scene.disc(centre, (radius - 1.25).max(0.5), Ink::Paper);
    }
    if binds {
        let stroke = Stroke::solid(Ink::Fight, 1.25);
        for way in [1.0, -1.0] {
            let (dx, dy) = (radius * 0.75, radius * 0.75 * way);
            scene.line(
                at(centre.x - dx, centre.y - dy),
                at(centre.x + dx, centre.y + dy),
                stroke,
            );
        }
    }
}

fn numbers(scene: &mut Scene, view: &View, places: &Places, area: Bounds) {
    let (right, bottom) = (area.left + area.width, area.top + area.height);
    for (x, number) in steps(&view.releases, places.cell) {
        let x = area.left + x;
        scene.line(
            at(x, bottom),
            at(x, bottom + 4.0),
            Stroke::solid(Ink::Quiet, 1.0),
        );
        scene.label(letter(at(x, bottom + 12.0), number, Align::Centre));
    }
    for (up, number) in steps(&view.applies, places.cell) {
        let y = bottom - up;
        scene.line(
            at(area.left - 4.0, y),
            at(area.left, y),
            Stroke::solid(Ink::Quiet, 1.0),
        );
        scene.label(letter(at(area.left - 7.0, y), number, Align::Right));
    }
    let name = word("diagram-timings-release").to_owned();
    scene.label(letter(at(right, bottom + 28.0), name, Align::Right));
    let name = word("diagram-timings-apply").to_owned();
    scene.label(letter(at(0.0, 9.0), name, Align::Left));
}

/// Tidy times among the middles of equally wide cells, how far along they are, and their numbers.
fn steps(times: &[f64], cell: f64) -> Vec<(f64, String)> {
    let (Some(first), Some(last)) = (times.first(), times.last()) else {
        return Vec::new();
    };
    let each = (last - first) / (times.len() as f64 - 1.0).max(1.0);
    if each <= 0.0 {
        return Vec::new();
    }
    let step = tidy(ACROSS / cell * each);
    let counts = (first / step - 1e-9).ceil() as i64..=(last / step + 1e-9).floor() as i64;
    let all = counts.map(|count| count as f64 * step);
    all.map(|time| (((time - first) / each + 0.5) * cell, plain(time, step)))
        .collect()
}
