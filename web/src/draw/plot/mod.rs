//! Curves over one quantity, an area between two of them, and marks: a plot of what panels reckon.
//!
//! Curves are told apart by how they are broken and how wide they are, never by colour, and named in a key below.

#[cfg(test)]
mod tests;

use super::field::{self, Axis, BOTTOM, SIZE, TOP, extent, letter};
use super::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use super::text;

/// Height of the field, as a part of the width, and between which heights.
const SHAPE: f64 = 0.5;
const HEIGHTS: [f64; 2] = [180.0, 300.0];
/// The key: height of a line of it, length of a sample, and what is left between entries.
const LINE: f64 = 20.0;
const SAMPLE: f64 = 30.0;
const BETWEEN: f64 = 16.0;
/// Room above and below curves, as a part of what they span.
const ROOM: f64 = 0.05;

/// A curve.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// What it is called.
    pub name: String,
    /// Points from left to right; one that is no number breaks it.
    pub points: Vec<[f64; 2]>,
}

/// What is drawn.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plot {
    /// What the quantity across is called, with its unit.
    pub across: String,
    /// What that upwards is called.
    pub up: String,
    /// Curves.
    pub curves: Vec<Curve>,
    /// Left to right: where it is, lower and upper edge of an area.
    pub area: Vec<[f64; 3]>,
    /// What the area is called.
    pub area_name: String,
    /// Places across that are marked, and as what.
    pub marks: Vec<(f64, String)>,
    /// Where it stands now, and what that is called.
    pub now: Option<([f64; 2], String)>,
    /// Least and most shown upwards, where that is limited.
    pub limits: Option<[f64; 2]>,
}

/// An axis for these values, with some room beyond them.
fn axis(values: impl Iterator<Item = f64>, room: f64, ends: [f64; 2]) -> Axis {
    let [low, high] = extent(values);
    let span = (high - low).max(high.abs() * 1e-3).max(1e-9);
    Axis {
        low: low - span * room,
        high: high + span * room,
        ends,
    }
}

/// How a curve of this place in the list is drawn.
fn look(index: usize) -> Stroke {
    let dashes = [Dash::Solid, Dash::Dashed, Dash::Dotted, Dash::Chain];
    let width = if index < dashes.len() { 2.0 } else { 3.5 };
    Stroke::broken(Ink::Text, width, dashes[index % dashes.len()])
}

/// What the key names, with where each entry stands at a width.
fn entries(plot: &Plot, width: f64) -> (Vec<(Sign, String, Point)>, f64) {
    let area = (!plot.area.is_empty()).then(|| (Sign::Area, plot.area_name.clone()));
    let curves = plot.curves.iter().enumerate();
    let curves = curves.map(|(at, curve)| (Sign::Curve(at), curve.name.clone()));
    let now = plot.now.iter().map(|(_, name)| (Sign::Now, name.clone()));
    let (mut x, mut y) = (0.0, LINE / 2.0);
    let mut placed = Vec::new();
    for (sign, name) in area.into_iter().chain(curves).chain(now) {
        let own = SAMPLE + 6.0 + text::width(&name, SIZE, false);
        if x > 0.0 && x + own > width {
            (x, y) = (0.0, y + LINE);
        }
        placed.push((sign, name, at(x, y)));
        x += own + BETWEEN;
    }
    let height = if placed.is_empty() {
        0.0
    } else {
        y + LINE / 2.0
    };
    (placed, height)
}

#[derive(Debug, Clone, Copy, PartialEq)]
enum Sign {
    Area,
    Curve(usize),
    Now,
}

fn depth(width: f64) -> f64 {
    (width * SHAPE).clamp(HEIGHTS[0], HEIGHTS[1])
}

/// The height that suits a width, in CSS pixels.
pub fn height(plot: &Plot, width: f64) -> f64 {
    TOP + depth(width) + BOTTOM + entries(plot, width).1
}

/// The drawing at a width in CSS pixels.
pub fn scene(plot: &Plot, width: f64) -> Scene {
    let mut scene = Scene::new(width, height(plot, width));
    let (across, up) = axes(plot, width);
    if plot.area.len() > 1 {
        let edge = |side: usize| {
            let rows = plot.area.iter();
            rows.map(move |row| (row[0], row[side]))
        };
        let place = |(x, y): (f64, f64)| at(across.place(x), up.place(y));
        let outline: Vec<Point> = edge(2).chain(edge(1).rev()).map(place).collect();
        scene.fill(outline.clone(), Ink::Power);
        let closed = outline.iter().chain(outline.first()).copied().collect();
        grid(&mut scene, plot, (&across, &up));
        scene.path(closed, Stroke::solid(Ink::Text, 1.5));
    } else {
        grid(&mut scene, plot, (&across, &up));
    }
    for (index, curve) in plot.curves.iter().enumerate() {
        let shown = |point: &[f64; 2]| across.holds(point[0]) && up.holds(point[1]);
        for run in curve.points.split(|point| !shown(point)) {
            if run.len() > 1 {
                let points = run.iter().map(|&[x, y]| at(across.place(x), up.place(y)));
                scene.path(points.collect(), look(index));
            }
        }
    }
    marks(&mut scene, plot, (&across, &up));
    if let Some(([x, y], _)) = &plot.now
        && across.holds(*x)
        && up.holds(*y)
    {
        now(&mut scene, at(across.place(*x), up.place(*y)));
    }
    key(&mut scene, plot, width);
    scene
}

fn axes(plot: &Plot, width: f64) -> (Axis, Axis) {
    let floor = TOP + depth(width);
    let points = plot.curves.iter().flat_map(|curve| &curve.points);
    let area = plot.area.iter().flat_map(|row| [row[1], row[2]]);
    let own = plot.now.iter().map(|(point, _)| point[1]);
    let ups = points.clone().map(|point| point[1]).chain(area).chain(own);
    let limited = ups.chain([0.0]).map(|value| match plot.limits {
        Some([least, most]) => value.clamp(least, most),
        None => value,
    });
    let up = axis(limited, ROOM, [floor, TOP]);
    let acrosses = points.map(|point| point[0]);
    let rows = plot.area.iter().map(|row| row[0]);
    let own = plot.now.iter().map(|(point, _)| point[0]);
    let all = acrosses.chain(rows).chain(own);
    (axis(all, 0.02, field::beside(&up, width)), up)
}

fn grid(scene: &mut Scene, plot: &Plot, (across, up): (&Axis, &Axis)) {
    let ([left, right], [bottom, top]) = (across.ends, up.ends);
    field::grid(scene, [across, up]);
    let line = Stroke::solid(Ink::Quiet, 1.0);
    if up.low < 0.0 && up.high > 0.0 {
        let y = up.place(0.0);
        scene.line(at(left, y), at(right, y), line);
    }
    if across.low < 0.0 && across.high > 0.0 {
        let x = across.place(0.0);
        scene.line(at(x, top), at(x, bottom), line);
    }
    field::name(scene, [across, up], [&plot.across, &plot.up]);
}

/// Upright lines, each with its name at the top, one lower than another where they would meet.
fn marks(scene: &mut Scene, plot: &Plot, (across, up): (&Axis, &Axis)) {
    let ([left, right], [bottom, top]) = (across.ends, up.ends);
    let mut taken: Vec<Bounds> = Vec::new();
    for (value, name) in plot.marks.iter().filter(|(value, _)| across.holds(*value)) {
        let x = across.place(*value);
        scene.line(
            at(x, top),
            at(x, bottom),
            Stroke::broken(Ink::Quiet, 1.25, Dash::Dashed),
        );
        let half = text::width(name, SIZE, false) / 2.0;
        let middle = x.clamp(left + half, (right - half).max(left + half));
        let mut label = Label {
            ink: Ink::Text,
            plate: true,
            ..letter(at(middle, top + 10.0), name.clone(), Align::Centre)
        };
        while taken.iter().any(|known| known.overlaps(&label.bounds())) {
            label.at.y += LINE;
        }
        taken.push(label.bounds());
        scene.label(label);
    }
}

/// A ring round a point.
fn now(scene: &mut Scene, point: Point) {
    scene.disc(point, 7.0, Ink::Text);
    scene.disc(point, 5.0, Ink::Paper);
    scene.disc(point, 2.5, Ink::Text);
}

fn key(scene: &mut Scene, plot: &Plot, width: f64) {
    let top = TOP + depth(width) + BOTTOM;
    for (sign, name, place) in entries(plot, width).0 {
        let y = top + place.y;
        let (from, to) = (at(place.x, y), at(place.x + SAMPLE, y));
        match sign {
            Sign::Curve(index) => scene.line(from, to, look(index)),
            Sign::Area => {
                let area = Bounds {
                    left: place.x,
                    top: y - 6.0,
                    width: SAMPLE,
                    height: 12.0,
                };
                scene.fill_box(area, Ink::Power);
                scene.outline_box(area, Stroke::solid(Ink::Text, 1.5));
            }
            Sign::Now => now(scene, at(place.x + SAMPLE / 2.0, y)),
        }
        scene.label(Label {
            ink: Ink::Text,
            ..letter(at(place.x + SAMPLE + 6.0, y), name, Align::Left)
        });
    }
}
