//! What is drawn in the plots: ranges over road speed, the road itself, and the way of a run.

use levertrain_core::traction::{Between, End, Force, Pull};

use super::{DASHES, Figure, View, dash_of, slope_name};
use crate::draw::scene::{Ink, Point, Stroke};

/// Pieces that the road is drawn in, and that a run is in each range.
const PIECES: u32 = 48;

/// The line of a range, or of several that have one ratio.
#[derive(Debug, Clone)]
pub(super) struct Line {
    /// Their numbers; the first is the one that is applied by it.
    pub(super) ranges: Vec<usize>,
    /// Their names.
    pub(super) name: String,
    /// Its look.
    pub(super) stroke: Stroke,
    /// Whether one of them is applied.
    pub(super) is_present: bool,
    /// Its points, without a gap in each part.
    pub(super) courses: Vec<Vec<Force>>,
    /// Whether it begins with a clutch that slips: only what a vehicle starts in does.
    starts: bool,
}

impl Line {
    /// Whether a force is on it.
    pub(super) fn shows(&self, force: &Force) -> bool {
        self.starts || force.between != Between::Slipping
    }
}

/// Those of all ranges that pull, forward ones by falling ratio.
pub(super) fn lines(view: &View<'_>) -> Vec<Line> {
    let traction = view.traction;
    let mut pulls: Vec<&Pull> = traction.pulls.iter().collect();
    // Backward ones last.
    pulls.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
    let mut lines: Vec<(f64, Line)> = Vec::new();
    for pull in pulls {
        let label = &view.train.scenario().ranges[pull.range].label;
        let is_present = view.present == Some(pull.range);
        if let Some((ratio, line)) = lines.last_mut()
            && *ratio == pull.ratio
        {
            line.ranges.push(pull.range);
            line.name = [&line.name, ", ", label].concat();
            line.is_present |= is_present;
            continue;
        }
        let starts = pull.ratio < 0.0 || traction.starts(pull);
        lines.push((
            pull.ratio,
            Line {
                ranges: vec![pull.range],
                name: label.clone(),
                stroke: Stroke::solid(Ink::Text, 1.5),
                is_present,
                courses: pull.course(starts),
                starts,
            },
        ));
    }
    let forward = lines.iter().filter(|(ratio, _)| *ratio > 0.0).count();
    for (place, (ratio, line)) in lines.iter_mut().enumerate() {
        let (ink, place) = match *ratio > 0.0 {
            true => (Ink::Forward, place),
            false => (Ink::Backward, place - forward),
        };
        // Those that are broken alike differ in width.
        let width = match line.is_present {
            true => 4.0,
            false => 1.25 + 0.75 * (place / DASHES).min(2) as f64,
        };
        line.stroke = Stroke::broken(ink, width, dash_of(place));
    }
    lines.into_iter().map(|(_, line)| line).collect()
}

/// The road on the level and on each slope: what it is called, and its points.
pub(super) fn road(view: &View<'_>, figure: &Figure) -> Vec<(String, Vec<Point>)> {
    let fastest = figure.force.most_across() * view.road_unit.speed_size();
    let slopes = [0.0]
        .into_iter()
        .chain(view.slopes.iter().copied().filter(|x| *x != 0.0));
    slopes
        .map(|slope| {
            let points = (0..=PIECES).map(|piece| {
                let speed = fastest * f64::from(piece) / f64::from(PIECES);
                let force = view.traction.vehicle.resistance(speed, slope);
                figure.points(view, speed, [force, 0.0])[0]
            });
            (slope_name(slope), points.collect())
        })
        .collect()
}

/// The engine's speed on the way of the run through the ranges.
pub(super) fn run(view: &View<'_>, figure: &Figure) -> Vec<Point> {
    let traction = view.traction;
    let Ok(run) = &traction.run else {
        return Vec::new();
    };
    let (End::Balance(last) | End::EngineLimit(last)) = run.end;
    let mut from = 0.0;
    let mut range = run.first;
    let mut points = Vec::new();
    let ends = run
        .changes
        .iter()
        .map(|change| (change.at.speed, Some(change.to)));
    for (to, next) in ends.chain([(last, None)]) {
        let pull = traction.pulls.iter().find(|pull| pull.range == range);
        for piece in 0..=PIECES {
            let speed = from + (to - from) * f64::from(piece) / f64::from(PIECES);
            if let Some(force) = pull.and_then(|pull| pull.at(speed)) {
                points.push(figure.points(view, speed, [0.0, force.driven.engine_speed])[1]);
            }
        }
        from = to;
        range = next.unwrap_or(range);
    }
    points
}
