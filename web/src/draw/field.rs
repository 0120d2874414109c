//! The field of a plot: a quantity along each of two sides, the lines of a grid, their numbers, and both names.

use super::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use super::text;
use super::ticks::{plain, tidy};

/// Size of the lettering in CSS pixels.
pub(super) const SIZE: f64 = 12.0;
/// Room above the field for the name of the axis upwards, below it for numbers and the other name, and at the right, in
/// CSS pixels.
pub(super) const TOP: f64 = 26.0;
pub(super) const BOTTOM: f64 = 40.0;
const RIGHT: f64 = 14.0;
/// Least distance of two lines of the grid, in CSS pixels.
const ACROSS: f64 = 64.0;
const DOWN: f64 = 34.0;

/// A quantity along a side.
pub(super) struct Axis {
    pub low: f64,
    pub high: f64,
    /// Where low and high stand.
    pub ends: [f64; 2],
}

impl Axis {
    pub(super) fn place(&self, value: f64) -> f64 {
        let [from, to] = self.ends;
        let along = (value.clamp(self.low, self.high) - self.low) / (self.high - self.low);
        from + along * (to - from)
    }

    pub(super) fn holds(&self, value: f64) -> bool {
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

/// The least and the greatest of the values that are numbers.
pub(super) fn extent(values: impl Iterator<Item = f64>) -> [f64; 2] {
    let finite = values.filter(|value| value.is_finite());
    let [low, high] = finite.fold([f64::INFINITY, f64::NEG_INFINITY], |[l, h], v| {
        [l.min(v), h.max(v)]
    });
    if low > high { [0.0, 1.0] } else { [low, high] }
}

/// Where the axis to the right begins and ends in a drawing of this width, beside the numbers of the axis up.
pub(super) fn beside(up: &Axis, width: f64) -> [f64; 2] {
    let numbers = up.steps(DOWN);
    let widths = numbers.iter().map(|(_, n)| text::width(n, SIZE, false));
    let left = widths.fold(0.0, f64::max) + 12.0;
    [left, (width - RIGHT).max(left + 1.0)]
}

/// A number or a name.
pub(super) fn letter(place: Point, text: String, align: Align) -> Label {
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

/// Draws the grid of the axes to the right and up.
pub(super) fn grid(scene: &mut Scene, [across, up]: [&Axis; 2]) {
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
    scene.path(
        vec![at(left, top), at(left, bottom), at(right, bottom)],
        Stroke::solid(Ink::Quiet, 1.0),
    );
}

/// Names what goes to the right and up.
pub(super) fn name(scene: &mut Scene, [across, up]: [&Axis; 2], names: [&str; 2]) {
    let end = at(across.ends[1], up.ends[0] + 28.0);
    scene.label(letter(end, names[0].to_owned(), Align::Right));
    scene.label(letter(at(0.0, 9.0), names[1].to_owned(), Align::Left));
}
