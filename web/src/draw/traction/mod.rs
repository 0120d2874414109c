//! A train on the road as two pictures on one axis of road speed: the traction diagram, force at the wheels and what the road
//! asks, and below it the saw-tooth diagram, engine speed in every range and the way that a run from rest takes through them.
//!
//! Ranges are told apart by their names along the lines and by the way that lines are broken; the one that is applied has a
//! wide line. The road is dotted.

mod key;
mod lines;
mod plot;
#[cfg(test)]
mod tests;

use levertrain_core::Train;
use levertrain_core::traction::{End, Traction};
use levertrain_core::words::{number, said, word};

use super::scene::{Dash, Ink, Point, Scene, Stroke, at};
use super::ticks::plain;
use crate::units::road_unit::RoadUnit;
use crate::units::speed_unit::SpeedUnit;
use serde::Serialize;

use lines::{Line, lines, road, run};
use plot::{Plot, left_of};

/// Size of the lettering in CSS pixels.
const SIZE: f64 = 12.0;
/// Room above the upper plot for the name of its axis, between both, and below the lower one, in CSS pixels.
const TOP: f64 = 24.0;
const BETWEEN: f64 = 30.0;
const BOTTOM: f64 = 42.0;
const RIGHT: f64 = 14.0;
/// Heights of both plots as parts of the width, and between which heights.
const UPPER: (f64, [f64; 2]) = (0.42, [290.0, 380.0]);
const LOWER: (f64, [f64; 2]) = (0.26, [150.0, 240.0]);
/// How much farther than the fastest range the axis goes, and how much higher than the greatest force.
const BEYOND: f64 = 1.12;
const ABOVE: f64 = 1.06;
/// Radii of the marks of a shift, of the fastest speed and of the cursor, in CSS pixels.
const SHIFT: f64 = 4.5;
const FASTEST: f64 = 5.0;
const CURSOR: f64 = 4.0;
/// The line at the speed that is looked at.
const CURSOR_LINE: Stroke = Stroke::solid(Ink::Text, 1.0);
/// How far from a line it is still meant, in CSS pixels: a finger covers twice that.
const REACH: f64 = 22.0;

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct View<'v> {
    /// The train.
    pub train: &'v Train,
    /// What it does on the road.
    pub traction: &'v Traction,
    /// Slopes that the road is drawn for besides the level, as rise over run.
    pub slopes: &'v [f64],
    /// The range that is applied, by its number.
    pub present: Option<usize>,
    /// The road speed in m/s that is looked at.
    pub cursor: Option<f64>,
    /// What engine speeds are lettered in.
    pub speed_unit: SpeedUnit,
    /// What road speeds and forces are lettered in.
    pub road_unit: RoadUnit,
}

/// Where the plots stand at a width.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TractionPlaces"))]
pub struct Places {
    /// The height of the drawing.
    pub height: f64,
    /// Where road speed 0 stands.
    pub left: f64,
    /// Where the highest speed stands.
    pub right: f64,
    /// The highest speed in m/s.
    pub fastest: f64,
}

/// Both plots with what they show.
struct Figure {
    force: Plot,
    engine: Plot,
    lines: Vec<Line>,
    /// Height of all but the key.
    bottom: f64,
}

fn within(width: f64, (part, [least, most]): (f64, [f64; 2])) -> f64 {
    (width * part).clamp(least, most)
}

impl Figure {
    fn new(view: &View<'_>, width: f64) -> Self {
        let lines = lines(view);
        let traction = view.traction;
        let (extent, _) = traction.extent();
        let tops = traction
            .pulls
            .iter()
            .filter_map(|pull| Some(pull.top()?.at.speed));
        let end = match &traction.run {
            Ok(run) => match run.end {
                End::Balance(speed) | End::EngineLimit(speed) => speed,
            },
            Err(_) => 0.0,
        };
        let fastest = tops.fold(end, f64::max);
        let fastest = match fastest > 0.0 {
            true => extent.min(fastest * BEYOND).max(end),
            false => extent,
        };
        let courses = || lines.iter().flat_map(|line| line.courses.iter().flatten());
        let force = courses().map(|at| at.force).fold(0.0, f64::max);
        let engine = courses()
            .map(|at| at.driven.engine_speed)
            .fold(0.0, f64::max);
        let (force_size, speed_size) = (view.road_unit.force_size(), view.road_unit.speed_size());
        let high = [
            force.max(1.0) * ABOVE / force_size,
            view.speed_unit.of(engine.max(1.0) * ABOVE),
        ];
        let [upper, lower] = [within(width, UPPER), within(width, LOWER)];
        let left = left_of(high[0], upper).max(left_of(high[1], lower));
        let right = (width - RIGHT).max(left + 1.0);
        let across = (fastest.max(1e-3) / speed_size, [left, right]);
        let middle = TOP + upper + BETWEEN;
        Self {
            force: Plot::new(across, (high[0], [TOP, TOP + upper])),
            engine: Plot::new(across, (high[1], [middle, middle + lower])),
            lines,
            bottom: middle + lower + BOTTOM,
        }
    }

    /// The points of a force at a road speed in the upper plot, of an engine speed in the lower.
    fn points(&self, view: &View<'_>, speed: f64, [force, engine]: [f64; 2]) -> [Point; 2] {
        let speed = speed / view.road_unit.speed_size();
        [
            self.force.point(speed, force / view.road_unit.force_size()),
            self.engine.point(speed, view.speed_unit.of(engine)),
        ]
    }

    /// The pieces of a line in both plots.
    fn pieces(&self, view: &View<'_>, line: &Line) -> [Vec<Vec<Point>>; 2] {
        let mut pieces = [Vec::new(), Vec::new()];
        for course in &line.courses {
            let points: Vec<[Point; 2]> = course
                .iter()
                .map(|at| self.points(view, at.speed, [at.force, at.driven.engine_speed]))
                .collect();
            for (at, plot) in [&self.force, &self.engine].into_iter().enumerate() {
                let points: Vec<Point> = points.iter().map(|pair| pair[at]).collect();
                pieces[at].extend(plot.clipped(&points));
            }
        }
        pieces
    }
}

/// Where the plots stand at a width in CSS pixels.
pub fn places(view: &View<'_>, width: f64) -> Places {
    let figure = Figure::new(view, width);
    let [left, right] = figure.force.across();
    Places {
        height: figure.bottom + key::height(view, &figure.lines, width),
        left,
        right,
        fastest: figure.force.most_across() * view.road_unit.speed_size(),
    }
}

/// The number of the range whose line is nearest to a point, if one is near.
pub fn nearest(view: &View<'_>, width: f64, point: Point) -> Option<usize> {
    let figure = Figure::new(view, width);
    let near = figure.lines.iter().map(|line| {
        let pieces = figure.pieces(view, line);
        let away = pieces
            .iter()
            .flatten()
            .flat_map(|piece| plot::distances(piece, point));
        (away.fold(f64::INFINITY, f64::min), line.ranges[0])
    });
    near.filter(|(away, _)| *away <= REACH)
        .min_by(|a, b| a.0.total_cmp(&b.0))
        .map(|(_, range)| range)
}

/// The drawing at a width in CSS pixels.
pub fn scene(view: &View<'_>, width: f64) -> Scene {
    let mut figure = Figure::new(view, width);
    let height = figure.bottom + key::height(view, &figure.lines, width);
    let mut scene = Scene::new(width, height);
    let unit = view.road_unit;
    let force = said("diagram-traction-force", &[("unit", unit.force_name())]);
    figure.force.grid(&mut scene, force, None);
    let engine = said(
        "diagram-traction-engine",
        &[("unit", view.speed_unit.symbol())],
    );
    let speed = said("diagram-traction-speed", &[("unit", unit.speed_name())]);
    figure.engine.grid(&mut scene, engine, Some(speed));
    let mut names = [Vec::new(), Vec::new()];
    // The road lies below what pulls.
    for (slope, points) in road(view, &figure) {
        let pieces = figure.force.clipped(&points);
        figure.force.lines(&mut scene, &pieces, key::ROAD);
        names[0].push((pieces, slope, Ink::Quiet, false, true));
    }
    let lines = std::mem::take(&mut figure.lines);
    for line in &lines {
        let pieces = figure.pieces(view, line);
        for (at, pieces) in pieces.into_iter().enumerate() {
            let plot = if at == 0 {
                &mut figure.force
            } else {
                &mut figure.engine
            };
            plot.lines(&mut scene, &pieces, line.stroke);
            names[at].push((
                pieces,
                line.name.clone(),
                line.stroke.ink,
                line.is_present,
                false,
            ));
        }
    }
    figure.lines = lines;
    for piece in figure.engine.clipped(&run(view, &figure)) {
        figure.engine.lines(&mut scene, &[piece], key::RUN);
    }
    marks(&mut scene, view, &mut figure);
    for (plot, mut names) in [&mut figure.force, &mut figure.engine]
        .into_iter()
        .zip(names)
    {
        // That of the applied range has its place first.
        names.sort_by_key(|(_, _, _, is_present, _)| !is_present);
        for (pieces, name, ink, bold, from_end) in names {
            plot.name(&pieces, &name, (ink, bold), from_end);
        }
        for label in plot.labels() {
            scene.label(label);
        }
    }
    key::draw(&mut scene, view, &figure.lines, figure.bottom);
    if let Some(speed) = view.cursor {
        cursor(&mut scene, view, &figure, speed);
    }
    scene
}

/// The shifts of the run, and the fastest speed.
fn marks(scene: &mut Scene, view: &View<'_>, figure: &mut Figure) {
    let traction = view.traction;
    for change in traction.run.iter().flat_map(|run| &run.changes) {
        let before = [change.before.force, change.before.driven.engine_speed];
        for (at, point) in figure
            .points(view, change.at.speed, before)
            .into_iter()
            .enumerate()
        {
            let plot = if at == 0 {
                &mut figure.force
            } else {
                &mut figure.engine
            };
            if plot.holds(point) {
                scene.disc(point, SHIFT, Ink::Text);
                plot.mark(point, SHIFT);
            }
        }
    }
    let fastest = traction.fastest().map(|at| &traction.pulls[at]);
    if let Some(top) = fastest.and_then(|pull| pull.top()) {
        let values = [top.at.force, top.at.driven.engine_speed];
        let [point, _] = figure.points(view, top.at.speed, values);
        scene.disc(point, FASTEST, Ink::Text);
        scene.disc(point, FASTEST - 1.75, Ink::Paper);
        figure.force.mark(point, FASTEST);
        let unit = view.road_unit;
        let speed = number(top.at.speed / unit.speed_size(), 3);
        let speed = [&speed, "\u{a0}", unit.speed_name()].concat();
        let name = said("diagram-traction-top", &[("speed", &speed)]);
        figure.force.name_point(point, &name, Ink::Text);
    }
}

/// The line at the speed that is looked at, and what stands on it.
fn cursor(scene: &mut Scene, view: &View<'_>, figure: &Figure, speed: f64) {
    let [upper, _] = figure.points(view, speed, [0.0; 2]);
    for plot in [&figure.force, &figure.engine] {
        let [top, bottom] = plot.down();
        scene.line(at(upper.x, top), at(upper.x, bottom), CURSOR_LINE);
    }
    for line in &figure.lines {
        let pull = view
            .traction
            .pulls
            .iter()
            .find(|pull| pull.range == line.ranges[0]);
        let Some(force) = pull.and_then(|pull| pull.at(speed)) else {
            continue;
        };
        if !line.shows(&force) {
            continue;
        }
        let values = [force.force, force.driven.engine_speed];
        let points = figure.points(view, speed, values);
        for (plot, point) in [&figure.force, &figure.engine].into_iter().zip(points) {
            if plot.holds(point) {
                scene.disc(point, CURSOR, Ink::Text);
                scene.disc(point, CURSOR - 1.25, Ink::Lit);
            }
        }
    }
}

/// What a slope is called, in whole percent.
fn slope_name(slope: f64) -> String {
    if slope == 0.0 {
        return word("diagram-traction-level").to_owned();
    }
    said(
        "diagram-traction-slope",
        &[("slope", &plain(slope * 100.0, 1.0))],
    )
}

/// In how many ways lines are broken.
const DASHES: usize = 3;

/// How a line is broken, by its place among those that drive the same way.
const fn dash_of(place: usize) -> Dash {
    match place % DASHES {
        0 => Dash::Solid,
        1 => Dash::Dashed,
        _ => Dash::Chain,
    }
}
