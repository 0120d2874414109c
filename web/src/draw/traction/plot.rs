//! One plot: its axes, lines cut to its area, and names that cover neither each other nor a line where that can be.

use super::SIZE;
use crate::draw::field::letter;
use crate::draw::scene::{Align, Bounds, Ink, Label, Point, Scene, Stroke, at};
use crate::draw::text;
use crate::draw::ticks::{plain, tidy};

/// Least distance of two lines of the grid, in CSS pixels.
const ACROSS: f64 = 56.0;
const DOWN: f64 = 32.0;
/// Distance of the points that stand for a line's ink, in CSS pixels.
const SPACING: f64 = 4.0;
/// Where along a piece its name is tried, as parts of its length.
const ALONG: [f64; 11] = [
    0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.16, 0.84, 0.07, 0.93,
];
/// Where beside a point a name is tried.
const BESIDE: [(f64, f64); 6] = [
    (7.0, -9.0),
    (0.0, -12.0),
    (-7.0, -9.0),
    (7.0, 9.0),
    (0.0, 12.0),
    (-7.0, 9.0),
];

/// A plot from 0 to the right and from 0 up.
pub(super) struct Plot {
    /// The values at the right and at the top.
    most: [f64; 2],
    area: Bounds,
    labels: Vec<Label>,
    /// Points along the lines and on marks, close enough that no letter fits between two.
    inked: Vec<Point>,
}

/// The room that numbers need to the left of a plot that goes up to a value.
pub(super) fn left_of(high: f64, depth: f64) -> f64 {
    let step = tidy(high * DOWN / depth);
    let values = (0..=(high / step) as i64).map(|count| plain(count as f64 * step, step));
    values
        .map(|number| text::width(&number, SIZE, false))
        .fold(0.0, f64::max)
        + 10.0
}

impl Plot {
    /// The highest value and the ends of each axis; the second goes from top to bottom.
    pub(super) fn new(
        (fast, [left, right]): (f64, [f64; 2]),
        (high, [top, bottom]): (f64, [f64; 2]),
    ) -> Self {
        Self {
            most: [fast, high],
            area: Bounds {
                left,
                top,
                width: right - left,
                height: bottom - top,
            },
            labels: Vec::new(),
            inked: Vec::new(),
        }
    }

    pub(super) fn across(&self) -> [f64; 2] {
        [self.area.left, self.area.left + self.area.width]
    }

    pub(super) fn down(&self) -> [f64; 2] {
        [self.area.top, self.area.top + self.area.height]
    }

    pub(super) fn most_across(&self) -> f64 {
        self.most[0]
    }

    pub(super) fn point(&self, across: f64, up: f64) -> Point {
        at(
            self.area.left + across / self.most[0] * self.area.width,
            self.area.top + (1.0 - up / self.most[1]) * self.area.height,
        )
    }

    /// Whether a point is in the plot, but for a rounding.
    pub(super) fn holds(&self, point: Point) -> bool {
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        (left - 0.5..=left + width + 0.5).contains(&point.x)
            && (top - 0.5..=top + height + 0.5).contains(&point.y)
    }

    /// Lines of the grid with their numbers, and the names of the axes; that across where it is wanted, with its numbers.
    pub(super) fn grid(&mut self, scene: &mut Scene, up: String, across: Option<String>) {
        let ([left, right], [top, bottom]) = (self.across(), self.down());
        let guide = Stroke::solid(Ink::Guide, 1.0);
        let step = tidy(self.most[0] * ACROSS / self.area.width);
        for count in 0..=(self.most[0] / step + 1e-9) as i64 {
            let value = count as f64 * step;
            let x = self.point(value, 0.0).x;
            scene.line(at(x, top), at(x, bottom), guide);
            if across.is_some() {
                let label = letter(at(x, bottom + 11.0), plain(value, step), Align::Centre);
                let Bounds { left, width, .. } = label.bounds();
                if left >= 0.0 && left + width <= scene.width {
                    self.labels.push(label);
                }
            }
        }
        let step = tidy(self.most[1] * DOWN / self.area.height);
        for count in 0..=(self.most[1] / step + 1e-9) as i64 {
            let value = count as f64 * step;
            let y = self.point(0.0, value).y;
            scene.line(at(left, y), at(right, y), guide);
            self.labels
                .push(letter(at(left - 6.0, y), plain(value, step), Align::Right));
        }
        let axes = vec![at(left, top), at(left, bottom), at(right, bottom)];
        scene.path(axes, Stroke::solid(Ink::Quiet, 1.0));
        self.labels
            .push(letter(at(0.0, top - 14.0), up, Align::Left));
        if let Some(across) = across {
            self.labels
                .push(letter(at(right, bottom + 29.0), across, Align::Right));
        }
    }

    /// The parts of a line through points that are in the plot.
    pub(super) fn clipped(&self, points: &[Point]) -> Vec<Vec<Point>> {
        let mut pieces: Vec<Vec<Point>> = Vec::new();
        for (from, to) in points.iter().zip(points.iter().skip(1)) {
            let Some((from, to)) = self.segment(*from, *to) else {
                continue;
            };
            match pieces.last_mut() {
                Some(piece) if piece.last() == Some(&from) => piece.push(to),
                _ => pieces.push(vec![from, to]),
            }
        }
        pieces
    }

    /// The part of a straight piece that is in the plot.
    fn segment(&self, from: Point, to: Point) -> Option<(Point, Point)> {
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let (mut start, mut end) = (0.0_f64, 1.0_f64);
        for (step, room) in [
            (-dx, from.x - left),
            (dx, left + width - from.x),
            (-dy, from.y - top),
            (dy, top + height - from.y),
        ] {
            if step == 0.0 {
                // Along this side: inside of it or nowhere.
                if room < -1e-9 {
                    return None;
                }
            } else if step < 0.0 {
                start = start.max(room / step);
            } else {
                end = end.min(room / step);
            }
        }
        let point = |part: f64| match part {
            0.0 => from,
            1.0 => to,
            _ => at(from.x + part * dx, from.y + part * dy),
        };
        (start < end).then(|| (point(start), point(end)))
    }

    /// Draws lines that are in the plot.
    pub(super) fn lines(&mut self, scene: &mut Scene, pieces: &[Vec<Point>], stroke: Stroke) {
        for piece in pieces {
            for (from, to) in piece.iter().zip(piece.iter().skip(1)) {
                let (dx, dy) = (to.x - from.x, to.y - from.y);
                let steps = (dx.hypot(dy) / SPACING).ceil().max(1.0) as u32;
                self.inked.extend((0..=steps).map(|step| {
                    let part = f64::from(step) / f64::from(steps);
                    at(from.x + part * dx, from.y + part * dy)
                }));
            }
            scene.path(piece.clone(), stroke);
        }
    }

    /// Keeps names off a mark.
    pub(super) fn mark(&mut self, point: Point, radius: f64) {
        let corners = [(0.0, 0.0), (-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0)];
        self.inked
            .extend(corners.map(|(x, y)| at(point.x + x * radius, point.y + y * radius)));
    }

    /// Names a line beside it, from its middle on or from its end back; the key names it where there is no room.
    pub(super) fn name(
        &mut self,
        pieces: &[Vec<Point>],
        name: &str,
        (ink, bold): (Ink, bool),
        from_end: bool,
    ) {
        let longest = pieces.iter().max_by(|a, b| length(a).total_cmp(&length(b)));
        let Some(piece) = longest else { return };
        let mut parts = ALONG;
        if from_end {
            parts.sort_by(|a, b| b.total_cmp(a));
        }
        let places = parts.iter().flat_map(|&part| {
            let point = along(piece, part);
            BESIDE.map(|way| Label {
                bold,
                ..beside(point, way, name, ink)
            })
        });
        let free = places
            .filter(|label| self.is_free(label))
            .collect::<Vec<_>>();
        self.labels.extend(free.into_iter().next());
    }

    /// Names a point beside it.
    pub(super) fn name_point(&mut self, point: Point, name: &str, ink: Ink) {
        let ways = [
            (9.0, -11.0),
            (-9.0, -11.0),
            (9.0, 12.0),
            (-9.0, 12.0),
            (0.0, -20.0),
            (-12.0, -26.0),
            (-12.0, 26.0),
        ];
        let labels = ways.map(|way| Label {
            bold: true,
            ..beside(point, way, name, ink)
        });
        let free = labels.into_iter().find(|label| self.is_free(label));
        self.labels.extend(free);
    }

    /// All names and numbers.
    pub(super) fn labels(&mut self) -> Vec<Label> {
        std::mem::take(&mut self.labels)
    }

    /// Whether a label is inside the plot and covers neither another nor a line.
    fn is_free(&self, label: &Label) -> bool {
        let bounds = label.bounds();
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        let inside = bounds.left >= left
            && bounds.left + bounds.width <= left + width
            && bounds.top >= top
            && bounds.top + bounds.height <= top + height;
        inside
            && !self
                .labels
                .iter()
                .any(|other| other.bounds().overlaps(&bounds))
            && !self.inked.iter().any(|point| bounds.contains(*point))
    }
}

fn beside(point: Point, (dx, dy): (f64, f64), name: &str, ink: Ink) -> Label {
    let align = match dx.total_cmp(&0.0) {
        std::cmp::Ordering::Less => Align::Right,
        std::cmp::Ordering::Equal => Align::Centre,
        std::cmp::Ordering::Greater => Align::Left,
    };
    Label {
        ink,
        plate: true,
        ..letter(at(point.x + dx, point.y + dy), name.to_owned(), align)
    }
}

fn length(piece: &[Point]) -> f64 {
    let pairs = piece.iter().zip(piece.iter().skip(1));
    pairs.map(|(a, b)| (b.x - a.x).hypot(b.y - a.y)).sum()
}

/// The point at a part of a line's length.
fn along(piece: &[Point], part: f64) -> Point {
    let mut left = length(piece) * part;
    for (from, to) in piece.iter().zip(piece.iter().skip(1)) {
        let step = (to.x - from.x).hypot(to.y - from.y);
        if left <= step && step > 0.0 {
            let part = left / step;
            return at(
                from.x + part * (to.x - from.x),
                from.y + part * (to.y - from.y),
            );
        }
        left -= step;
    }
    piece.last().copied().unwrap_or(at(0.0, 0.0))
}

/// How far a point is from each straight piece of a line.
pub(super) fn distances(piece: &[Point], point: Point) -> impl Iterator<Item = f64> {
    let pairs = piece.iter().zip(piece.iter().skip(1));
    pairs.map(move |(from, to)| {
        let (dx, dy) = (to.x - from.x, to.y - from.y);
        let size = dx * dx + dy * dy;
        let part = ((point.x - from.x) * dx + (point.y - from.y) * dy) / size;
        let part = if size > 0.0 {
            part.clamp(0.0, 1.0)
        } else {
            0.0
        };
        (from.x + part * dx - point.x).hypot(from.y + part * dy - point.y)
    })
}
