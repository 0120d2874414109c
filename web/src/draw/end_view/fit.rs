//! How large the gears can be drawn, clear of the captions.

use crate::draw::scene::{Bounds, Point, at};

/// Least distance from the edge of the drawing and from captions, in CSS pixels.
const CLEARANCE: f64 = 3.0;

/// A circle that must fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Round {
    /// Its centre, in modules.
    pub centre: (f64, f64),
    /// Its radius in modules.
    pub radius: f64,
    /// What is added to its radius whatever the scale, in CSS pixels.
    pub margin: f64,
}

/// From modules to CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct View {
    /// Where the main axis stands.
    pub origin: Point,
    /// CSS pixels per module.
    pub scale: f64,
}

impl View {
    /// Where a place in modules is drawn.
    pub fn point(&self, (x, y): (f64, f64)) -> Point {
        at(
            self.origin.x + self.scale * x,
            self.origin.y + self.scale * y,
        )
    }
}

/// The largest view of `rounds` in a drawing of that size, clear of `boxes`; `None` when there
/// is no room.
pub fn fit(rounds: &[Round], (width, height): (f64, f64), boxes: &[Bounds]) -> Option<View> {
    const PLACES: u32 = 24;
    const HALVINGS: u32 = 16;
    let (left, right) = span(rounds, |centre| centre.0);
    let (top, bottom) = span(rounds, |centre| centre.1);
    let middle = ((left + right) / 2.0, (top + bottom) / 2.0);
    let most = (width / (right - left)).min(height / (bottom - top));
    let fits = |view: View| {
        rounds.iter().all(|round| {
            let centre = view.point(round.centre);
            let reach = view.scale * round.radius + round.margin + CLEARANCE;
            let inside = centre.x >= reach
                && centre.y >= reach
                && centre.x <= width - reach
                && centre.y <= height - reach;
            inside && boxes.iter().all(|area| distance(area, centre) >= reach)
        })
    };
    let view = |place: u32, scale: f64| {
        let y = height * f64::from(place) / f64::from(PLACES);
        View {
            origin: at(width / 2.0 - scale * middle.0, y - scale * middle.1),
            scale,
        }
    };
    let mut best: Option<View> = None;
    // From the middle outwards, so that equally good places lose to the one most central.
    for step in 1..PLACES {
        let place = match step % 2 {
            0 => PLACES / 2 - step / 2,
            _ => PLACES / 2 + step / 2,
        };
        let worthwhile = best.map_or(0.0, |view| view.scale * 1.005);
        if !fits(view(place, worthwhile)) {
            continue;
        }
        let (mut low, mut high) = (worthwhile, most);
        for _ in 0..HALVINGS {
            let scale = (low + high) / 2.0;
            if fits(view(place, scale)) {
                low = scale;
            } else {
                high = scale;
            }
        }
        best = Some(view(place, low)).filter(|view| view.scale > 0.0);
    }
    best
}

/// Least and greatest coordinate that the circles reach along an axis, in modules.
fn span(rounds: &[Round], axis: fn((f64, f64)) -> f64) -> (f64, f64) {
    let ends = |round: &Round| {
        (
            axis(round.centre) - round.radius,
            axis(round.centre) + round.radius,
        )
    };
    rounds
        .iter()
        .map(ends)
        .fold((0.0, 0.0), |(low, high), (from, to)| {
            (low.min(from), high.max(to))
        })
}

/// How far a point is from a box; zero inside.
fn distance(area: &Bounds, point: Point) -> f64 {
    let near = nearest(area, point);
    (point.x - near.x).hypot(point.y - near.y)
}

/// The point of a box nearest to a point.
pub fn nearest(area: &Bounds, point: Point) -> Point {
    at(
        point.x.clamp(area.left, area.left + area.width),
        point.y.clamp(area.top, area.top + area.height),
    )
}
