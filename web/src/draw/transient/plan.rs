//! Where strips, rows and the axis of time stand.

use levertrain_core::words::word;

use super::{View, ends, key, strips};
use crate::draw::scene::{Align, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::draw::ticks::{plain, tidy};

/// How many strips there are: speeds, torques of elements, torque at the output, power.
pub const STRIPS: usize = 4;
/// Size of the lettering in CSS pixels.
pub(super) const SIZE: f64 = 12.0;
/// Height of a band, and of a strip's heading, in CSS pixels.
pub(super) const BAND: f64 = 22.0;
pub(super) const HEADING: f64 = 24.0;
/// How high each strip is where few lines end in it, in CSS pixels.
const HEIGHTS: [f64; STRIPS] = [140.0, 110.0, 70.0, 70.0];
/// How much of it there is for each line that is named at its end.
const ENDS: f64 = 15.0;
/// Room under the strips for numbers and the name of the axis.
const AXIS: f64 = 38.0;
/// Between a number and the strip, and between a line's end and its name.
pub(super) const GAP: f64 = 6.0;
pub(super) const LEADER: f64 = 12.0;
/// The most that names may take of the width.
const NAMES: f64 = 0.3;
/// Least distance of two numbers in CSS pixels.
const ACROSS: f64 = 56.0;
const DOWN: f64 = 24.0;

/// A strip.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Strip {
    pub(super) top: f64,
    pub(super) bottom: f64,
    pub(super) low: f64,
    pub(super) high: f64,
}

/// Where everything stands.
#[derive(Debug, Clone)]
pub(super) struct Plan {
    pub(super) left: f64,
    pub(super) right: f64,
    /// Where the names behind the right ends begin.
    pub(super) names: f64,
    /// Upper edges of the rows of commands, and how high each is.
    pub(super) rows: Vec<f64>,
    pub(super) row: f64,
    pub(super) strips: Vec<Strip>,
    pub(super) bottom: f64,
    pub(super) key: f64,
    pub(super) height: f64,
    until: f64,
}

impl Strip {
    pub(super) fn y(&self, value: f64) -> f64 {
        let up = (value - self.low) / (self.high - self.low);
        self.bottom - up * (self.bottom - self.top)
    }

    /// Where lines of the grid stand, and their numbers.
    pub(super) fn steps(&self) -> Vec<(f64, String)> {
        let step = tidy((self.high - self.low) * DOWN / (self.bottom - self.top));
        let first = (self.low / step - 1e-9).ceil() as i64;
        let last = (self.high / step + 1e-9).floor() as i64;
        let values = (first..=last).map(|count| count as f64 * step);
        values
            .map(|value| (self.y(value), plain(value, step)))
            .collect()
    }
}

impl Plan {
    pub(super) fn of(view: &View<'_>, width: f64) -> Self {
        let names = ends::all_names(view);
        let widest = names.iter().map(|name| text::width(name, SIZE, false));
        let widest = widest.fold(0.0, f64::max).min(width * NAMES).ceil();
        let commands = view.shift.plan.commands.len();
        let rows = commands + usize::from(view.shift.plan.cut.is_some());
        let row = view.reach.max(30.0);
        let first = 2.0 * BAND + HEADING;
        let mut top = first + rows as f64 * row;
        let extents = strips::extents(view);
        let counts = strips::counts(view);
        let strips: Vec<Strip> = (0..STRIPS)
            .map(|at| {
                let strip = Strip {
                    top: top + HEADING,
                    bottom: top + HEADING + HEIGHTS[at].max(ENDS * counts[at] as f64),
                    low: extents[at][0],
                    high: extents[at][1],
                };
                top = strip.bottom;
                strip
            })
            .collect();
        let numbers = strips.iter().flat_map(Strip::steps);
        let numbers = numbers.map(|(_, number)| text::width(&number, SIZE, false));
        let left = numbers.fold(0.0, f64::max).ceil() + GAP;
        let right = (width - widest - LEADER - 2.0).max(left + 1.0);
        Self {
            left,
            right,
            names: right + LEADER,
            rows: (0..rows).map(|at| first + at as f64 * row).collect(),
            row,
            strips,
            bottom: top,
            key: top + AXIS,
            height: top + AXIS + key::height(width),
            until: view.shift.plan.until,
        }
    }

    /// Where a time stands.
    pub(super) fn x(&self, time: f64) -> f64 {
        self.left + (time / self.until).clamp(0.0, 1.0) * (self.right - self.left)
    }

    /// How many seconds a pixel is.
    pub(super) fn pixel(&self) -> f64 {
        self.until / (self.right - self.left)
    }

    /// Where what has times begins, down.
    pub(super) fn rows_top(&self) -> f64 {
        2.0 * BAND
    }

    /// The times, under all strips.
    pub(super) fn axis(&self, scene: &mut Scene) {
        let step = tidy(self.pixel() * ACROSS);
        let tick = Stroke::solid(Ink::Quiet, 1.0);
        for count in 0..=(self.until / step + 1e-9).floor() as i64 {
            let time = count as f64 * step;
            let x = self.x(time);
            scene.line(at(x, self.bottom), at(x, self.bottom + 4.0), tick);
            let place = at(x, self.bottom + 12.0);
            scene.label(letter(place, plain(time, step), Ink::Quiet, Align::Centre));
        }
        scene.line(
            at(self.left, self.bottom),
            at(self.right, self.bottom),
            tick,
        );
        let name = word("diagram-timed-time").to_owned();
        scene.label(letter(
            at(self.right, self.bottom + 28.0),
            name,
            Ink::Quiet,
            Align::Right,
        ));
    }
}

/// A text.
pub(super) fn letter(place: Point, text: String, ink: Ink, align: Align) -> Label {
    Label {
        at: place,
        text,
        size: SIZE,
        bold: false,
        ink,
        align,
        plate: false,
    }
}
