//! The shafts of a half-section: their runs along the grid as lines.

use levertrain_core::Body;

use super::outlines::stems;
use super::stage::{HOUSING, Stage};
use crate::draw::scene::{Bounds, Ink, Point, Scene, Stroke, at};
use crate::motion::live::Live;

/// Width of a shaft's line.
pub const SHAFT: f64 = 3.0;
/// How much wider the light behind a shaft is that is pointed at.
const HALO: f64 = 8.0;

/// A straight piece of a shaft.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// What it is of: a shaft, or the housing, which holds a member with it.
    pub body: Body,
    /// One end.
    pub from: Point,
    /// The other.
    pub to: Point,
}

impl Segment {
    fn is_horizontal(&self) -> bool {
        (self.from.y - self.to.y).abs() < 0.01
    }

    /// Distance of a point from the segment.
    pub fn distance(&self, point: Point) -> f64 {
        let along = |low: f64, high: f64, value: f64| value.clamp(low.min(high), low.max(high));
        let nearest = at(
            along(self.from.x, self.to.x, point.x),
            along(self.from.y, self.to.y, point.y),
        );
        (nearest.x - point.x).hypot(nearest.y - point.y)
    }
}

/// The straight pieces of every shaft and of what holds members to the housing, as long as they
/// go.
pub fn segments(stage: &Stage<'_>) -> Vec<Segment> {
    let grid = stage.plan().grid;
    let mut segments = Vec::new();
    let shafts = stage.plan().runs.len() - 1;
    for (member, run) in stage.plan().runs.iter().enumerate() {
        let body = if member == shafts {
            Body::Housing
        } else {
            Body::Shaft(member)
        };
        // Neighbours along a row differ by one, along a column by a row's length.
        for length in [1, grid.columns()] {
            // Whether a step leads on from each node.
            let mut along = vec![false; grid.nodes()];
            for &(a, b) in run.iter().filter(|(a, b)| a.abs_diff(*b) == length) {
                along[a.min(b)] = true;
            }
            for start in (0..grid.nodes()).filter(|&node| along[node]) {
                if start >= length && along[start - length] && same_line(&grid, start, length) {
                    continue;
                }
                let mut end = start;
                while end < grid.nodes() && along[end] {
                    end += length;
                }
                segments.push(Segment {
                    body,
                    from: stage.point_of(member, start),
                    to: stage.point_of(member, end),
                });
            }
        }
    }
    for stem in stems(stage) {
        segments.extend(stem.points.windows(2).map(|ends| Segment {
            body: stem.body,
            from: ends[0],
            to: ends[1],
        }));
    }
    // What holds a member comes up to the housing from the row that brakes hang on.
    segments.extend(stage.plan().supports.iter().map(|&column| {
        let x = stage.x(column);
        Segment {
            body: Body::Housing,
            from: at(x, HOUSING),
            to: at(x, stage.y(grid.brake_row())),
        }
    }));
    segments
}

/// Whether a node continues the line of the node `length` before it: not so at a row's start.
fn same_line(grid: &super::grid::Grid, node: usize, length: usize) -> bool {
    length != 1 || grid.row(node) == grid.row(node - 1)
}

/// Draws every shaft; where two cross, the one that runs along the axis passes behind.
// Inline, as `packs::draw`.
#[inline(always)]
pub fn draw(scene: &mut Scene, stage: &Stage<'_>, live: &Live<'_>) {
    let segments = segments(stage);
    for segment in segments.iter().filter(|segment| live.is_lit(segment.body)) {
        scene.line(
            segment.from,
            segment.to,
            Stroke::solid(Ink::Lit, SHAFT + HALO),
        );
    }
    let (along, across): (Vec<Segment>, Vec<Segment>) =
        segments.into_iter().partition(Segment::is_horizontal);
    for segment in &along {
        line(scene, segment, stroke(live, segment.body));
    }
    for upright in &across {
        for flat in along.iter().filter(|flat| flat.body != upright.body) {
            if let Some(crossing) = crossing(flat, upright) {
                const CLEAR: f64 = 7.0;
                scene.fill_box(
                    Bounds {
                        left: crossing.x - CLEAR / 2.0 - SHAFT / 2.0,
                        top: crossing.y - SHAFT,
                        width: CLEAR + SHAFT,
                        height: 2.0 * SHAFT,
                    },
                    Ink::Paper,
                );
            }
        }
    }
    for segment in &across {
        line(scene, segment, stroke(live, segment.body));
    }
}

/// How the line of a body looks that shows no power.
// Once, for a first view: packs ask for it, too.
#[inline(never)]
pub fn stroke(live: &Live<'_>, body: Body) -> Stroke {
    match body {
        Body::Housing => Stroke::solid(Ink::Housing, SHAFT),
        Body::Shaft(_) => live.stroke(body, SHAFT),
    }
}

/// Where an upright segment passes through a flat one, ends not counted.
fn crossing(flat: &Segment, upright: &Segment) -> Option<Point> {
    let inside = |a: f64, b: f64, value: f64| a.min(b) + 1.0 < value && value < a.max(b) - 1.0;
    let point = at(upright.from.x, flat.from.y);
    (inside(flat.from.x, flat.to.x, point.x) && inside(upright.from.y, upright.to.y, point.y))
        .then_some(point)
}

/// Draws what holds members to the housing.
pub fn draw_supports(scene: &mut Scene, stage: &Stage<'_>) {
    let all = segments(stage).into_iter();
    for segment in all.filter(|segment| segment.body == Body::Housing) {
        line(scene, &segment, Stroke::solid(Ink::Housing, SHAFT));
    }
}

/// A straight piece with its ends squared, so that corners close.
fn line(scene: &mut Scene, segment: &Segment, stroke: Stroke) {
    let (dx, dy) = (segment.to.x - segment.from.x, segment.to.y - segment.from.y);
    let length = dx.hypot(dy);
    if length < 0.01 {
        return;
    }
    let (ux, uy) = (dx / length * SHAFT / 2.0, dy / length * SHAFT / 2.0);
    let from = at(segment.from.x - ux, segment.from.y - uy);
    let to = at(segment.to.x + ux, segment.to.y + uy);
    scene.line(from, to, stroke);
}
