//! What a search for teeth has found as a picture: each find is a point over two of the measures, chosen among all.
//!
//! A filled point is one that none of the others beats in these two; an open one is beaten in both, and has something
//! else for it. The find on the stage is a large ring round its point, the train that was asked about a diamond; where that
//! is far beyond all finds it is a triangle at the edge, which points there.

mod key;
#[cfg(test)]
mod tests;

use super::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use super::text;
use super::ticks::{plain, tidy};

/// Size of the lettering in CSS pixels.
const SIZE: f64 = 12.0;
/// Room above the points for the name of the axis upwards, below them for numbers and the other name, and at the right, in
/// CSS pixels.
const TOP: f64 = 26.0;
const BOTTOM: f64 = 40.0;
const RIGHT: f64 = 14.0;
/// The height that points have, as a part of the width, and between which heights.
const SHAPE: f64 = 0.5;
const HEIGHTS: [f64; 2] = [180.0, 320.0];
/// Least distance of two lines of the grid, in CSS pixels.
const ACROSS: f64 = 64.0;
const DOWN: f64 = 34.0;
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

/// A measure along one side of the plot.
struct Axis<'v> {
    measure: &'v Measure,
    low: f64,
    high: f64,
    /// Where low and high stand.
    ends: [f64; 2],
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

impl<'v> Axis<'v> {
    fn new(measure: &'v Measure, present: Option<f64>, ends: [f64; 2]) -> Self {
        let values = measure.values.iter().copied().filter(|v| v.is_finite());
        let [mut low, mut high] = values.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], v| {
            [l.min(v), h.max(v)]
        });
        if low > high {
            [low, high] = [0.0, 1.0];
        }
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
        Self {
            measure,
            low: start,
            high: high + room,
            ends,
        }
    }

    fn place(&self, value: f64) -> f64 {
        let [from, to] = self.ends;
        let along = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low);
        from + along * (to - from)
    }

    fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Where lines of the grid stand, and their numbers.
    fn steps(&self, apart: f64) -> Vec<(f64, String)> {
        let length = (self.ends[1] - self.ends[0]).abs().max(1.0);
        let step = tidy((self.high - self.low) * apart / length);
        let first = (self.low / step - 1e-9).ceil() as i64;
        let last = (self.high / step + 1e-9).floor() as i64;
        let values = (first..=last).map(|count| count as f64 * step);
        values
            .map(|value| (self.place(value), plain(value, step)))
            .collect()
    }
}

/// How high the points are drawn at a width.
fn depth(width: f64) -> f64 {
    (width * SHAPE).clamp(HEIGHTS[0], HEIGHTS[1])
}

/// The axes at a width: to the right and up.
fn axes(view: &View, width: f64) -> [Axis<'_>; 2] {
    let [across, up] = &view.measures;
    let present = |at: usize| view.present.map(|present| present[at]);
    let floor = TOP + depth(width);
    let up = Axis::new(up, present(1), [floor, TOP]);
    let numbers = up.steps(DOWN);
    let widths = numbers.iter().map(|(_, n)| text::width(n, SIZE, false));
    let left = widths.fold(0.0, f64::max) + 12.0;
    let ends = [left, (width - RIGHT).max(left + 1.0)];
    [Axis::new(across, present(0), ends), up]
}

/// Where everything stands at a width in CSS pixels.
pub fn places(view: &View, width: f64) -> Places {
    let [across, up] = &axes(view, width);
    let pairs = across.measure.values.iter().zip(&up.measure.values);
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
    grid(&mut scene, [&across, &up]);
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

fn letter(place: Point, text: String, align: Align) -> Label {
    Label {
        at: place,
        text,
        size: SIZE,
        bold: false,
        ink: Ink::Quiet,
        align,
        plate: false,
    }
}

fn grid(scene: &mut Scene, [across, up]: [&Axis<'_>; 2]) {
    let ([left, right], [bottom, top]) = (across.ends, up.ends);
    let guide = Stroke::solid(Ink::Guide, 1.0);
    let mut free = f64::NEG_INFINITY;
    for (x, number) in across.steps(ACROSS) {
        scene.line(at(x, top), at(x, bottom), guide);
        let label = letter(at(x, bottom + 11.0), number, Align::Centre);
        let Bounds { left, width, .. } = label.bounds();
        // Where numbers are long every other one is enough.
        if left > free && left + width <= scene.width {
            free = left + width + 6.0;
            scene.label(label);
        }
    }
    for (y, number) in up.steps(DOWN) {
        scene.line(at(left, y), at(right, y), guide);
        scene.label(letter(at(left - 6.0, y), number, Align::Right));
    }
    let line = Stroke::solid(Ink::Quiet, 1.0);
    scene.path(
        vec![at(left, top), at(left, bottom), at(right, bottom)],
        line,
    );
    let name = letter(
        at(right, bottom + 28.0),
        across.measure.name.clone(),
        Align::Right,
    );
    scene.label(name);
    scene.label(letter(at(0.0, 9.0), up.measure.name.clone(), Align::Left));
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
        let length = dx.hypot(dy);
        let tip = at(point.x + dx / length * size, point.y + dy / length * size);
        scene.arrow_head(tip, (dx, dy), 2.0 * size, Ink::Text);
    }
}
