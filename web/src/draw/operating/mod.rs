//! The operating point as a picture: torque of the engine and what is asked of it, over engine
//! speed.

#[cfg(test)]
mod tests;

use levertrain_core::Combination;
use levertrain_core::operating::{Conditions, Curves, Operating, SteadyPoint};
use levertrain_core::words::{number, said, word};

use super::scene::{Align, Bounds, Dash, Ink, Label, Point, Scene, Stroke, at};
use super::ticks::{plain, tidy};
use crate::units::speed_unit::SpeedUnit;
use crate::units::torque_unit::TorqueUnit;

/// Size of the lettering in CSS pixels.
const SIZE: f64 = 12.0;
/// Room at the edges for numbers and names, in CSS pixels.
const LEFT: f64 = 38.0;
const RIGHT: f64 = 16.0;
const TOP: f64 = 24.0;
const BOTTOM: f64 = 34.0;
/// Least distance of two lines of the grid, in CSS pixels.
const ACROSS: f64 = 46.0;
const DOWN: f64 = 26.0;
/// Pieces of a curve that is not drawn from a table.
const PIECES: u32 = 32;
/// Distance of the points that stand for a curve's ink, in CSS pixels.
const SPACING: f64 = 5.0;
/// Radius of the mark of a point, in CSS pixels.
const MARK: f64 = 5.0;

/// Draws the operating point of a combination; an empty picture where there is none.
pub fn scene(
    combination: &Combination<'_>,
    conditions: &Conditions,
    units: (SpeedUnit, TorqueUnit),
    (width, height): (f64, f64),
) -> Scene {
    let mut scene = Scene::new(width, height);
    let curves = Curves::of(combination, conditions);
    let found = Operating::of(combination, conditions);
    if let (Some(curves), Some(Operating::Solved { points, stall, .. })) = (curves, found) {
        let mut plot = Plot::new(&curves, units, (width, height));
        plot.grid(&mut scene);
        plot.curves(&mut scene, &curves, &points);
        plot.points(&mut scene, &points, stall.as_ref());
        plot.names();
        for label in plot.labels {
            scene.label(label);
        }
    }
    scene
}

/// The plot's axes, and the labels placed so far.
struct Plot {
    /// What numbers are lettered in.
    units: (SpeedUnit, TorqueUnit),
    /// Engine speed in rev/min at the right edge.
    fastest: f64,
    /// Torque in N·m at the bottom and at the top.
    low: f64,
    high: f64,
    area: Bounds,
    labels: Vec<Label>,
    /// Points along the curves, close enough that no letter fits between two.
    inked: Vec<Point>,
    /// Course, name and ink of each curve.
    names: Vec<(Vec<Point>, String, Ink)>,
}

impl Plot {
    fn new(curves: &Curves, units: (SpeedUnit, TorqueUnit), (width, height): (f64, f64)) -> Self {
        let torques = || curves.engine.iter().chain(&curves.full).map(|knot| knot[1]);
        let (low, high) = (torques().fold(0.0, f64::min), torques().fold(0.0, f64::max));
        Self {
            units,
            fastest: curves.full.last().map_or(1.0, |knot| knot[0]),
            low,
            // A little room above the highest torque.
            high: low + (high - low).max(1.0) * 1.1,
            area: Bounds {
                left: LEFT,
                top: TOP,
                width: (width - LEFT - RIGHT).max(1.0),
                height: (height - TOP - BOTTOM).max(1.0),
            },
            labels: Vec::new(),
            inked: Vec::new(),
            names: Vec::new(),
        }
    }

    fn x(&self, speed: f64) -> f64 {
        self.area.left + speed / self.fastest * self.area.width
    }

    fn y(&self, torque: f64) -> f64 {
        let up = (torque - self.low) / (self.high - self.low);
        self.area.top + (1.0 - up) * self.area.height
    }

    fn grid(&mut self, scene: &mut Scene) {
        let Bounds {
            left,
            top,
            width,
            height,
        } = self.area;
        let (right, bottom) = (left + width, top + height);
        let guide = Stroke::solid(Ink::Guide, 1.0);
        let (speed_unit, torque_unit) = self.units;
        // Steps that are tidy in the unit.
        let unit = speed_unit.of(1.0);
        let step = tidy(self.fastest * unit * ACROSS / width);
        for count in 0..=(self.fastest * unit / step) as i64 {
            let value = count as f64 * step;
            let x = self.x(value / unit);
            scene.line(at(x, top), at(x, bottom), guide);
            let place = at(x, bottom + 9.0);
            self.letter(place, plain(value, step), Ink::Quiet, Align::Centre);
        }
        let unit = torque_unit.of(1.0);
        let (low, high) = (self.low * unit, self.high * unit);
        let step = tidy((high - low) * DOWN / height);
        for count in (low / step).ceil() as i64..=(high / step) as i64 {
            let value = count as f64 * step;
            let y = self.y(value / unit);
            scene.line(at(left, y), at(right, y), guide);
            let place = at(left - 6.0, y);
            self.letter(place, plain(value, step), Ink::Quiet, Align::Right);
        }
        let zero = self.y(0.0);
        scene.line(
            at(left, zero),
            at(right, zero),
            Stroke::solid(Ink::Quiet, 1.0),
        );
        let name = said("diagram-engine-speed", &[("unit", speed_unit.symbol())]);
        self.letter(at(right, bottom + 25.0), name, Ink::Quiet, Align::Right);
        self.letter(
            at(0.0, 8.0),
            torque_unit.name().to_owned(),
            Ink::Quiet,
            Align::Left,
        );
    }

    fn curves(&mut self, scene: &mut Scene, curves: &Curves, points: &[SteadyPoint]) {
        let at_full = curves.engine.ends_with(&curves.full);
        if !at_full {
            let dotted = Stroke::broken(Ink::Quiet, 1.25, Dash::Dotted);
            self.curve(scene, &curves.full, dotted, "diagram-full-pedal");
        }
        let solid = Stroke::solid(Ink::Text, 2.0);
        self.curve(scene, &curves.engine, solid, "diagram-engine");
        let dashed = Stroke::broken(Ink::Forward, 1.5, Dash::Dashed);
        if let Some(load) = &curves.load {
            self.curve(scene, load, dashed, "diagram-load");
        }
        // (N/K)² with the turbine held, and at the speed ratio of each point.
        let held = Stroke::broken(Ink::Quiet, 1.25, Dash::Chain);
        let stall = curves
            .stall_factor
            .map(|factor| (factor, held, "diagram-pump-stall"));
        let steady = points.iter().filter_map(|point| point.capacity_factor);
        let steady = steady.map(|factor| (factor, dashed, "diagram-pump"));
        for (factor, stroke, name) in stall.into_iter().chain(steady) {
            let end = self.fastest.min(factor * self.high.sqrt());
            let speeds = (0..=PIECES).map(|piece| end * f64::from(piece) / f64::from(PIECES));
            let pump: Vec<[f64; 2]> = speeds.map(|n| [n, (n / factor).powi(2)]).collect();
            self.curve(scene, &pump, stroke, name);
        }
    }

    /// A curve as far as it is on the plot, and the message that names it.
    fn curve(&mut self, scene: &mut Scene, knots: &[[f64; 2]], stroke: Stroke, name: &'static str) {
        let mut points: Vec<Point> = Vec::new();
        for (from, to) in knots.iter().zip(knots.iter().skip(1)) {
            let Some((from, to)) = self.on_plot(*from, *to) else {
                continue;
            };
            if points.is_empty() {
                points.push(from);
            }
            points.push(to);
        }
        if points.len() < 2 {
            return;
        }
        for (from, to) in points.iter().zip(points.iter().skip(1)) {
            let steps = ((to.x - from.x).hypot(to.y - from.y) / SPACING)
                .ceil()
                .max(1.0) as usize;
            let inked = (0..=steps).map(|step| {
                let along = step as f64 / steps as f64;
                at(
                    from.x + (to.x - from.x) * along,
                    from.y + (to.y - from.y) * along,
                )
            });
            self.inked.extend(inked);
        }
        self.names
            .push((points.clone(), word(name).to_owned(), stroke.ink));
        scene.path(points, stroke);
    }

    /// Names the curves, each along its own, from its last part backwards.
    fn names(&mut self) {
        for (points, name, ink) in std::mem::take(&mut self.names) {
            let beside = [
                (0.0, -11.0),
                (0.0, 12.0),
                (8.0, 2.0),
                (-8.0, 2.0),
                (0.0, -17.0),
            ];
            // Between points as well: a table may have few.
            let middles = points.iter().zip(points.iter().skip(1)).rev();
            let places = middles.flat_map(|(from, to)| {
                [0.75, 0.25].map(|part| {
                    at(
                        from.x + (to.x - from.x) * part,
                        from.y + (to.y - from.y) * part,
                    )
                })
            });
            let labels = places.flat_map(|point| beside.map(|way| (point, way)));
            let labels = labels.map(|(point, (dx, dy))| self.beside(point, (dx, dy), &name, ink));
            let label = self.first_free(labels.collect());
            self.labels.extend(label);
        }
    }

    /// The part of a straight piece between the lowest and the highest torque.
    fn on_plot(&self, from: [f64; 2], to: [f64; 2]) -> Option<(Point, Point)> {
        let rise = to[1] - from[1];
        let reach = |torque: f64| ((torque - from[1]) / rise).clamp(0.0, 1.0);
        let (start, end) = if rise == 0.0 {
            let inside = (self.low..=self.high).contains(&from[1]);
            (0.0, if inside { 1.0 } else { 0.0 })
        } else {
            let (a, b) = (reach(self.low), reach(self.high));
            (a.min(b), a.max(b))
        };
        let point = |part: f64| {
            let speed = from[0] + (to[0] - from[0]) * part;
            at(self.x(speed), self.y(from[1] + rise * part))
        };
        (start < end).then(|| (point(start), point(end)))
    }

    fn points(&mut self, scene: &mut Scene, points: &[SteadyPoint], stall: Option<&SteadyPoint>) {
        let all = points.iter().map(|point| (point, false));
        for (point, held) in stall.map(|point| (point, true)).into_iter().chain(all) {
            let centre = at(self.x(point.engine_speed), self.y(point.engine_torque));
            let ink = if held { Ink::Quiet } else { Ink::Text };
            scene.disc(centre, MARK, ink);
            // A hollow mark for where nothing stays: stall, and what is unstable.
            if held || !point.stable {
                scene.disc(centre, MARK - 1.75, Ink::Paper);
            }
            let name = number(self.units.0.of(point.engine_speed), 4);
            let places = [
                (9.0, -11.0),
                (9.0, 12.0),
                (-9.0, -11.0),
                (-9.0, 12.0),
                (0.0, -17.0),
                (0.0, 18.0),
            ];
            let labels = places.map(|way| Label {
                bold: !held,
                ..self.beside(centre, way, &name, ink)
            });
            let label = self.first_free(labels.to_vec());
            self.labels.extend(label);
        }
    }

    /// A text beside a point: left of it, right of it, or above or below.
    fn beside(&self, point: Point, (dx, dy): (f64, f64), text: &str, ink: Ink) -> Label {
        let align = match dx.total_cmp(&0.0) {
            std::cmp::Ordering::Less => Align::Right,
            std::cmp::Ordering::Equal => Align::Centre,
            std::cmp::Ordering::Greater => Align::Left,
        };
        self.label(at(point.x + dx, point.y + dy), text.to_owned(), ink, align)
    }

    /// The first label that covers neither label nor curve, or else the first that covers no label.
    fn first_free(&self, labels: Vec<Label>) -> Option<Label> {
        let mut free = labels
            .into_iter()
            .filter(|label| self.is_free(label))
            .peekable();
        let first = free.peek().cloned();
        let clear = free.find(|label| {
            let bounds = label.bounds();
            !self.inked.iter().any(|point| bounds.contains(*point))
        });
        clear.or(first)
    }

    fn letter(&mut self, place: Point, text: String, ink: Ink, align: Align) {
        let label = self.label(place, text, ink, align);
        self.labels.push(label);
    }

    fn label(&self, at: Point, text: String, ink: Ink, align: Align) -> Label {
        Label {
            at,
            text,
            size: SIZE,
            bold: false,
            ink,
            align,
            plate: self.area.contains(at),
        }
    }

    /// Whether a label is inside the plot and covers no other.
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
    }
}
