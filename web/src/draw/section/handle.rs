//! What the page must know of the drawing to lay handles over it.

use serde::Serialize;

/// Where a shift element can be taken hold of in the half-section drawing, in CSS pixels.
#[derive(Debug, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct Handle {
    /// Id of the element.
    pub id: String,
    /// Left edge.
    pub left: f64,
    /// Upper edge.
    pub top: f64,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
    /// The way a drag closes it: `(1, 0)` to the right, `(0, -1)` up.
    pub closes: (f64, f64),
    /// Whether the opposite way closes it as well: either pack can be the one that is moved.
    #[serde(rename = "bothWays")]
    pub both_ways: bool,
    /// How far it must be dragged to close, in CSS pixels.
    pub travel: f64,
}

/// Size of the stage for an available width, in CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[serde(rename_all = "camelCase")]
pub struct StageSize {
    /// Width of both drawings; more than what is available where a train needs it.
    pub width: f64,
    /// Height of the half-section drawing.
    pub section_height: f64,
    /// Height of the lever diagram.
    pub lever_height: f64,
    /// Whether all gears were to have one module and some are drawn larger, as the half-section would
    /// be too high.
    pub out_of_scale: bool,
}
