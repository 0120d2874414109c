//! What a search for teeth has found as a picture: each find is a point over two of the measures, chosen among all.
//!
//! A filled point is one that none of the others beats in these two; an open one is beaten in both, and has something
//! else for it. The find on the stage is a large ring round its point, the train that was asked about a diamond; where that
//! is far beyond all finds it is a triangle at the edge, which points there.

mod key;
#[cfg(test)]
mod tests;

use super::field::{self, Axis, BOTTOM, SIZE, TOP, extent};
use super::scene::{Ink, Point, Scene, Stroke, at};

/// The height that points have, as a part of the width, and between which heights.
const SHAPE: f64 = 0.5;
const HEIGHTS: [f64; 2] = [180.0, 320.0];
/// Radii in CSS pixels: of a point, and of the ring round that on the stage.
const RADIUS: f64 = 4.0;
const RING: f64 = 9.0;
/// Room round the outermost points, as a part of what they span.
const ROOM: f64 = 0.06;
/// The train that was asked about has its place on the plot where it is no farther from the finds than they span, times
/// this; otherwise it is at the edge.
const FAR: f64 = 1.0;

/// A measure that points stand over.
#[derive(Debug, Clone)]
pub struct Measure {
    /// What it is called, with its unit.
    pub name: String,
    /// That of each find.
    pub values: Vec<f64>,
    /// Whether more of it is better.
    pub rises: bool,
}

/// What is to be drawn.
#[derive(Debug, Clone)]
pub struct View {
    /// To the right, and up.
    pub measures: [Measure; 2],
    /// Which find is on the stage.
    pub chosen: Option<usize>,
    /// The measures of the train that was asked about.
    pub present: Option<[f64; 2]>,
}

/// Where each find stands, in CSS pixels, and how high the drawing is.
#[derive(Debug, Clone, PartialEq)]
pub struct Places {
    /// The height of the drawing.
    pub height: f64,
    /// The points, in the order of the finds.
    pub points: Vec<Point>,
}

impl View {
    /// How many finds there are: those that both measures are known of.
    fn count(&self) -> usize {
        let [across, up] = &self.measures;
        across.values.len().min(up.values.len())
    }

    /// Whether no other find is better in both measures, or as good in one and better in the other.
    fn is_unbeaten(&self) -> Vec<bool> {
        let least = |measure: &Measure, at: usize| match measure.rises {
            true => -measure.values[at],
            false => measure.values[at],
        };
        let point = |at: usize| self.measures.each_ref().map(|measure| least(measure, at));
        let mut order: Vec<usize> = (0..self.count()).collect();
        order.sort_by(|&a, &b| {
            let ([ax, ay], [bx, by]) = (point(a), point(b));
            ax.total_cmp(&bx).then(ay.total_cmp(&by))
        });
        let mut unbeaten = vec![false; self.count()];
        let mut best: Option<[f64; 2]> = None;
        for at in order {
            let own = point(at);
            // Those before it are at least as good in the first measure.
            if best.is_none_or(|best| own[1] < best[1] || own == best) {
                unbeaten[at] = true;
                best = Some(own);
            }
        }
        unbeaten
    }
}

/// A measure along one side of the plot.
fn axis(measure: &Measure, present: Option<f64>, ends: [f64; 2]) -> Axis {
    let [mut low, mut high] = extent(measure.values.iter().copied());
    let span = (high - low).max(high.abs() * 0.01).max(1e-9);
    if let Some(value) = present
        && (low - span * FAR..=high + span * FAR).contains(&value)
    {
        [low, high] = [low.min(value), high.max(value)];
    }
    let room = (high - low).max(span) * ROOM;
    // Measures are never below zero.
    let start = if low >= 0.0 {
        (low - room).max(0.0)
    } else {
        low - room
    };
    Axis {
        low: start,
        high: high + room,
        ends,
    }
}

/// How high the points are drawn at a width.
fn depth(width: f64) -> f64 {
    (width * SHAPE).clamp(HEIGHTS[0], HEIGHTS[1])
}

/// The axes at a width: to the right and up.
fn axes(view: &View, width: f64) -> [Axis; 2] {
    let [across, up] = &view.measures;
    let present = |at: usize| view.present.map(|present| present[at]);
    let floor = TOP + depth(width);
    let up = axis(up, present(1), [floor, TOP]);
    let ends = field::beside(&up, width);
    [axis(across, present(0), ends), up]
}

/// Where everything stands at a width in CSS pixels.
pub fn places(view: &View, width: f64) -> Places {
    let [across, up] = &axes(view, width);
    let [xs, ys] = view.measures.each_ref().map(|measure| &measure.values);
    let pairs = xs.iter().zip(ys);
    Places {
        height: TOP + depth(width) + BOTTOM + key::height(view, width),
        points: pairs
            .map(|(x, y)| at(across.place(*x), up.place(*y)))
            .collect(),
    }
}

/// The drawing at a width in CSS pixels.
pub fn scene(view: &View, width: f64) -> Scene {
    let Places { height, points } = places(view, width);
    let [across, up] = axes(view, width);
    let mut scene = Scene::new(width, height);
    field::grid(&mut scene, [&across, &up]);
    let names = view.measures.each_ref().map(|measure| &*measure.name);
    field::name(&mut scene, [&across, &up], names);
    let unbeaten = view.is_unbeaten();
    // Those that are unbeaten on top of others.
    for wanted in [false, true] {
        for (point, &is_unbeaten) in points.iter().zip(&unbeaten) {
            if is_unbeaten == wanted {
                dot(&mut scene, *point, is_unbeaten);
            }
        }
    }
    if let Some([x, y]) = view.present {
        let point = at(across.place(x), up.place(y));
        let beyond = [!across.holds(x), !up.holds(y)];
        let outwards = (
            if beyond[0] {
                (x - across.low).signum()
            } else {
                0.0
            },
            if beyond[1] {
                (up.low - y).signum()
            } else {
                0.0
            },
        );
        present(&mut scene, point, outwards);
    }
    if let Some(&point) = view.chosen.and_then(|at| points.get(at)) {
        ring(&mut scene, point);
        dot(&mut scene, point, true);
    }
    key::draw(&mut scene, view, TOP + depth(width) + BOTTOM);
    scene
}

fn dot(scene: &mut Scene, point: Point, is_filled: bool) {
    scene.disc(point, RADIUS, Ink::Text);
    if !is_filled {
        scene.disc(point, RADIUS - 1.25, Ink::Paper);
    }
}

fn ring(scene: &mut Scene, point: Point) {
    scene.disc(point, RING, Ink::Text);
    scene.disc(point, RING - 2.0, Ink::Paper);
}

/// A diamond; beyond the plot a triangle that points `outwards`.
fn present(scene: &mut Scene, point: Point, (dx, dy): (f64, f64)) {
    let size = RADIUS + 2.5;
    if dx == 0.0 && dy == 0.0 {
        let corners = [(0.0, -size), (size, 0.0), (0.0, size), (-size, 0.0)];
        let mut points: Vec<Point> = corners
            .iter()
            .map(|(x, y)| at(point.x + x, point.y + y))
            .collect();
        points.push(points[0]);
        scene.fill(points.clone(), Ink::Paper);
        scene.path(points, Stroke::solid(Ink::Text, 2.0));
    } else {
        // Mostly outside, as the outermost points are near the edge.
        let outside = 1.5 * size / dx.hypot(dy);
        let tip = at(point.x + dx * outside, point.y + dy * outside);
        scene.arrow_head(tip, (dx, dy), 2.0 * size, Ink::Text);
    }
}
