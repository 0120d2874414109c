//! Where things stood before an edit, so that they glide to where they stand now.
//!
//! Sets and packs are moved as they are; what lies between two of them is drawn out or pushed together.

use levertrain_core::short_sort::sort_short_by;

use super::figures::outline;
use super::stage::{HOUSING, Stage};
use crate::draw::scene::{Bounds, Point, Scene, at};
use crate::motion::glide::Glide;

/// Half of what is moved with the middle of a pack.
const PACK: f64 = 22.0;
/// What counts as not moved, in CSS pixels.
const STILL: f64 = 0.5;
/// What stays at both edges: the words of input and output, and the numbers of the speed axis.
const EDGE: f64 = 60.0;
/// Lines as long as this share of the width are not moved along: the housing, the axis, the grid.
const LONG: f64 = 0.9;

/// How far everything stood from where it stands now, and how much of the way from there is left.
#[derive(Debug, Clone)]
pub struct Moved {
    /// What moves as one along the axis, from left to right: its ends now, and how far it stood away.
    spans: Vec<(f64, f64, f64)>,
    /// What moves as one in both directions.
    packs: Vec<(Bounds, Point)>,
    /// Where the axis is now, and how much lower it was.
    axis: (f64, f64),
    /// One value: 1 where everything stood, 0 where it stands.
    left: Glide,
}

impl Moved {
    /// From one stage to another, the first of which may have been on its way itself. Nothing where
    /// everything is where it was.
    pub fn between(before: &Stage<'_>, way: Option<&Self>, after: &Stage<'_>) -> Option<Self> {
        let [old, new] = [before, after].map(|stage| stage.train().scenario());
        let away = |was: Point, is: Point| {
            let was = way.map_or(was, |way| way.shown(was));
            at(was.x - is.x, was.y - is.y)
        };
        let wider = before.size().width - after.size().width;
        let width = after.size().width;
        let mut spans = vec![
            (f64::NEG_INFINITY, EDGE, 0.0),
            (width - EDGE, f64::INFINITY, wider),
        ];
        for (set, coupling) in new.couplings.iter().enumerate() {
            let id = coupling.facts().id();
            let known = old.couplings.iter().position(|old| old.facts().id() == id);
            let was = known.and_then(|known| outline(before, known));
            if let (Some(was), Some(area)) = (was, outline(after, set)) {
                let by = away(was.middle(), area.middle()).x;
                spans.push((area.left, area.left + area.width, by));
            }
        }
        let mut packs = Vec::new();
        for (element, now) in new.elements.iter().enumerate() {
            let known = old.elements.iter().position(|old| old.id() == now.id());
            let Some(known) = known else { continue };
            let is = after.pack_centre(element);
            let by = away(before.pack_centre(known), is);
            let ends = (is.x - PACK, is.x + PACK);
            // One over a set moves with it.
            if spans.iter().all(|span| ends.1 < span.0 || span.1 < ends.0) {
                spans.push((ends.0, ends.1, by.x));
            }
            let area = Bounds {
                left: ends.0,
                top: is.y - PACK,
                width: 2.0 * PACK,
                height: 2.0 * PACK,
            };
            packs.push((area, by));
        }
        sort_short_by(&mut spans, |one, other| one.0.total_cmp(&other.0));
        let [was, is] = [before, after].map(|stage| at(0.0, stage.axis()));
        let axis = (is.y, away(was, is).y);

        let far = |by: f64| by.abs() > STILL;
        let moves = far(axis.1)
            || spans.iter().any(|&(_, _, by)| far(by))
            || packs.iter().any(|&(_, by)| far(by.x) || far(by.y));
        moves.then(|| {
            let mut left = Glide::at(vec![1.0]);
            left.go_to(vec![0.0]);
            Self {
                spans,
                packs,
                axis,
                left,
            }
        })
    }

    /// Lets `seconds` pass; whether anything still moves.
    pub fn advance(&mut self, seconds: f64) -> bool {
        self.left.advance(seconds)
    }

    /// Shows a half-section as it is on the way.
    pub fn glide(&self, scene: &mut Scene) {
        let (left, long) = (self.left(), scene.width * LONG);
        scene.replace(|points| {
            let is_long = is_long(points, long);
            for point in points {
                *point = match is_long {
                    true => at(point.x, point.y + self.down(point.y) * left),
                    false => self.shown(*point),
                };
            }
        });
    }

    /// The same for the levers under it, which stand at other heights anyway; their key, which begins at
    /// `key`, stays.
    pub fn glide_levers(&self, scene: &mut Scene, key: f64) {
        let (left, long) = (self.left(), scene.width * LONG);
        scene.replace(|points| {
            if is_long(points, long) || points.iter().all(|point| point.y > key) {
                return;
            }
            for point in points {
                point.x += self.across(point.x) * left;
            }
        });
    }

    /// Where a point of the half-section is shown on the way.
    fn shown(&self, point: Point) -> Point {
        let pack = self.packs.iter().find(|(area, _)| area.contains(point));
        let by = match pack {
            Some(&(_, by)) => by,
            None => at(self.across(point.x), self.down(point.y)),
        };
        let left = self.left();
        at(point.x + by.x * left, point.y + by.y * left)
    }

    fn left(&self) -> f64 {
        self.left.shown()[0]
    }

    /// How far what is there stood away along the axis.
    fn across(&self, x: f64) -> f64 {
        let next = self.spans.partition_point(|span| span.0 <= x);
        let Some(&(_, end, by)) = next.checked_sub(1).map(|last| &self.spans[last]) else {
            return 0.0;
        };
        match self.spans.get(next) {
            Some(&(start, _, other)) if x > end => by + (other - by) * (x - end) / (start - end),
            _ => by,
        }
    }

    /// How much lower what is there was: the housing stays where it is.
    fn down(&self, y: f64) -> f64 {
        let (axis, by) = self.axis;
        by * ((y - HOUSING) / (axis - HOUSING)).clamp(0.0, 1.0)
    }
}

/// Whether points reach as far along the axis as this.
fn is_long(points: &[Point], long: f64) -> bool {
    let along = points.iter().map(|point| point.x);
    let (first, last) = along.fold((f64::INFINITY, f64::NEG_INFINITY), |(first, last), x| {
        (first.min(x), last.max(x))
    });
    last - first > long
}
