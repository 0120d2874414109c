//! Which way the line of nodes runs on the page, and how wide bands are.
//!
//! Everything is measured *along* the line, from the input to the output, and *across* it. On a
//! wide page the line runs from left to right; on a narrow one downwards.

use crate::draw::scene::{Point, at};

/// Radius of the inner side of a band's bends.
pub(super) const BEND: f64 = 6.0;
/// Least distance between what is drawn and the edge of the drawing.
pub(super) const EDGE: f64 = 6.0;

/// A place along and across the line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Spot {
    /// From the input's edge.
    pub along: f64,
    /// From the middle of the line; below it, or to its right, is positive.
    pub across: f64,
}

/// Short for a [`Spot`].
pub(super) const fn spot(along: f64, across: f64) -> Spot {
    Spot { along, across }
}

/// How the drawing lies on the page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Sheet {
    /// Whether the line runs downwards.
    pub upright: bool,
    /// Whether everything stands closer: what is written at both sides of a box in rows, rails
    /// nearer to one another.
    pub dense: bool,
    /// Width in CSS pixels of a band that carries all the input's power.
    pub unit: f64,
}

impl Sheet {
    /// A spot on the page, with the line's start at `origin`.
    pub(super) fn point(&self, origin: Point, spot: Spot) -> Point {
        let (x, y) = self.page((spot.along, spot.across));
        at(origin.x + x, origin.y + y)
    }

    /// Along and across as right and down.
    pub(super) fn page(&self, (along, across): (f64, f64)) -> (f64, f64) {
        if self.upright {
            (across, along)
        } else {
            (along, across)
        }
    }

    /// Right and down as along and across: the exchange is its own inverse.
    pub(super) fn line(&self, size: (f64, f64)) -> (f64, f64) {
        self.page(size)
    }

    /// Width of a band.
    pub(super) fn width(&self, power: f64) -> f64 {
        power.abs() * self.unit
    }
}
