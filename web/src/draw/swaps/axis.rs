//! The axis of ratios, the largest at the left: equal steps are equally wide.

use levertrain_core::words::word;

use crate::draw::scene::{Align, Bounds, Dash, Ink, Label, Scene, Stroke, at};
use crate::draw::text;
use crate::draw::ticks::plain;

/// Size of the lettering in CSS pixels.
pub(super) const SIZE: f64 = 12.0;
/// Height of the axis with its numbers and its name, in CSS pixels.
pub(super) const HEIGHT: f64 = 38.0;
/// How far the axis goes on beyond the first and the last ratio where there is only one, as a part of it.
const ALONE: f64 = 0.1;
/// How far beyond the named ranges something may stand for the axis to go on to it, as a logarithm: half their size more.
const NEAR: f64 = 0.405;
/// Least distance of two numbers in CSS pixels.
const APART: f64 = 8.0;
/// Powers of ten that have numbers of their own: beyond them ratios are no ratios of trains.
const POWERS: std::ops::RangeInclusive<i32> = -9..=9;
/// What is lettered of each power of ten, the more important ones first, and the last figure of it.
const FIGURES: [(f64, f64); 6] = [
    (1.0, 1.0),
    (2.0, 1.0),
    (5.0, 1.0),
    (3.0, 1.0),
    (1.5, 0.1),
    (7.0, 1.0),
];

/// Which side of an axis something is beyond, if any.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Before,
    On,
    After,
}

/// A logarithmic axis.
#[derive(Debug, Clone)]
pub(super) struct Axis {
    /// Logarithms of the ratios at its ends, the larger first.
    ends: [f64; 2],
    left: f64,
    length: f64,
    /// Where its line is.
    pub y: f64,
}

impl Axis {
    /// An axis for the ratios of these sizes in which those of `inner` are sure to stand: others do where they are
    /// not far beyond these. It lies between two margins of a width, each with `outside` more room where something is beyond that end.
    pub fn of(inner: &[f64], all: &[f64], [margin, outside]: [f64; 2], width: f64) -> Self {
        let mut ends = ends_of(inner.iter().copied());
        if ends[0] - ends[1] < ALONE {
            ends = ends_of(all.iter().copied());
        } else {
            let [high, low] = ends;
            let near = |size: &f64| (low - NEAR..=high + NEAR).contains(&size.ln());
            let [more, less] = ends_of(all.iter().copied().filter(near));
            ends = [high.max(more), low.min(less)];
        }
        if ends[0] - ends[1] < ALONE {
            ends = [ends[0] + ALONE, ends[1] - ALONE];
        }
        let mut axis = Self {
            ends,
            left: margin,
            length: 1.0,
            y: 0.0,
        };
        let has = |side: Side| all.iter().any(|size| axis.side(*size) == side);
        let [before, after] =
            [Side::Before, Side::After].map(|side| if has(side) { outside } else { 0.0 });
        axis.left += before;
        axis.length = (width - 2.0 * margin - before - after).max(1.0);
        axis
    }

    /// Where a ratio of this size stands, or the end that it is beyond.
    pub fn x(&self, size: f64) -> f64 {
        let [high, low] = self.ends;
        let along = (high - size.ln().clamp(low, high)) / (high - low);
        self.left + along * self.length
    }

    /// Whether it stands there, or beyond an end.
    pub fn side(&self, size: f64) -> Side {
        let [high, low] = self.ends;
        match size.ln() {
            log if log > high => Side::Before,
            log if log < low => Side::After,
            _ => Side::On,
        }
    }

    /// Draws the axis, its numbers, and a faint line up from each through `grid`.
    pub fn draw(&self, scene: &mut Scene, grid: Bounds) {
        let right = scene.width - 2.0;
        let line = Stroke::solid(Ink::Quiet, 1.0);
        scene.line(at(2.0, self.y), at(right, self.y), line);
        let mut placed: Vec<Bounds> = Vec::new();
        let steps = FIGURES
            .iter()
            .flat_map(|figure| POWERS.map(move |power| (figure, power)));
        for ((figure, last), power) in steps {
            let unit = 10_f64.powi(power);
            let value = figure * unit;
            let [high, low] = self.ends;
            if !(low - 1e-9..=high + 1e-9).contains(&value.ln()) {
                continue;
            }
            let x = self.x(value);
            let label = self.label(x, plain(value, last * unit));
            let mut room = label.bounds();
            room.left -= APART / 2.0;
            room.width += APART;
            let is_free = placed.iter().all(|other| !other.overlaps(&room));
            if room.left < 0.0 || room.left + room.width > scene.width || !is_free {
                continue;
            }
            placed.push(room);
            let foot = at(x, self.y);
            scene.line(foot, at(x, self.y + 4.0), line);
            let faint = Stroke::broken(Ink::Guide, 1.0, Dash::Dotted);
            scene.line(at(x, grid.top), at(x, grid.top + grid.height), faint);
            scene.label(label);
        }
        let name = Label {
            align: Align::Right,
            at: at(right, self.y + 27.0),
            ..self.label(right, word("diagram-swaps-ratio").to_owned())
        };
        scene.label(name);
    }

    fn label(&self, x: f64, text: String) -> Label {
        Label {
            at: at(x, self.y + 4.0 + SIZE * text::LINE / 2.0),
            text,
            size: SIZE,
            bold: false,
            ink: Ink::Quiet,
            align: Align::Centre,
            plate: false,
        }
    }
}

/// The logarithms of the largest and the smallest of these sizes.
fn ends_of(sizes: impl Iterator<Item = f64>) -> [f64; 2] {
    let logs = sizes.map(f64::ln).filter(|log| log.is_finite());
    let [high, low] = logs.fold([f64::NEG_INFINITY, f64::INFINITY], |[high, low], log| {
        [high.max(log), low.min(log)]
    });
    if high < low { [0.0, 0.0] } else { [high, low] }
}
