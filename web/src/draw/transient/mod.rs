//! A shift in time as a picture: what is commanded, and how speeds, torques and slip power go, all over one axis of time.
//!
//! From above: the phases; where it flares or binds; a row for each command with its ramp; strips of speeds, torques of
//! elements, torque at the output and power made heat. Lines are named at their right ends, those of power at their peaks. A second
//! shift that was kept to compare with lies behind in thin lines.

mod bands;
mod ends;
mod key;
mod plan;
mod quantity;
mod rows;
mod strips;
#[cfg(test)]
#[expect(clippy::unwrap_used, reason = "a test stops at the first surprise")]
mod tests;

use levertrain_core::Train;
use levertrain_core::transient::{Dynamics, Shift};
use serde::Serialize;

use self::plan::Plan;
use super::scene::{Scene, Stroke, at};
use crate::draw::scene::Ink;
use crate::units::speed_unit::SpeedUnit;
use crate::units::torque_unit::TorqueUnit;

/// Lowest and highest value of each strip.
pub type Extents = [[f64; 2]; plan::STRIPS];

/// What is to be drawn.
#[derive(Debug, Clone, Copy)]
pub struct View<'a> {
    /// The train.
    pub train: &'a Train,
    /// What is known of its masses.
    pub dynamics: &'a Dynamics,
    /// The shift.
    pub shift: &'a Shift,
    /// One to compare with.
    pub kept: Option<&'a Shift>,
    /// The shafts whose speeds are drawn.
    pub shafts: &'a [usize],
    /// The shaft pointed at.
    pub lit: Option<usize>,
    /// The time that is read, in seconds.
    pub time: f64,
    /// What speeds and torques are lettered in.
    pub units: (SpeedUnit, TorqueUnit),
    /// Values that strips reach at least, so that their scales stay while something is dragged.
    pub extents: Option<Extents>,
    /// The least height of a command's row in CSS pixels: what a pointer or a finger needs.
    pub reach: f64,
}

/// What the page has to know of the drawing.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "TimedPlaces"))]
pub struct Places {
    /// Its height in CSS pixels.
    pub height: f64,
    /// Where time 0 stands, to the right.
    pub left: f64,
    /// Where the end of the time stands.
    pub right: f64,
    /// Where strips begin, down.
    pub top: f64,
    /// Where they end.
    pub bottom: f64,
    /// What can be taken hold of, in the order of the commands: begin and end of each ramp, then of what engine torque is
    /// taken back.
    pub grips: Vec<[[f64; 2]; 2]>,
}

/// Where everything stands at a width in CSS pixels.
pub fn places(view: &View<'_>, width: f64) -> Places {
    let plan = Plan::of(view, width);
    Places {
        height: plan.height,
        left: plan.left,
        right: plan.right,
        top: plan.rows_top(),
        bottom: plan.bottom,
        grips: rows::grips(view, &plan),
    }
}

/// What the strips reach.
pub fn extents(view: &View<'_>) -> Extents {
    strips::extents(view)
}

/// The drawing at a width in CSS pixels.
pub fn scene(view: &View<'_>, width: f64) -> Scene {
    let plan = Plan::of(view, width);
    let mut scene = Scene::new(width, plan.height);
    let x = plan.x(view.time);
    let cursor = Stroke::solid(Ink::Lit, 2.0);
    // Behind all that is read.
    scene.line(at(x, plan.rows_top()), at(x, plan.bottom), cursor);
    bands::draw(&mut scene, view, &plan);
    rows::draw(&mut scene, view, &plan);
    strips::draw(&mut scene, view, &plan);
    plan.axis(&mut scene);
    strips::dots(&mut scene, view, &plan);
    key::draw(&mut scene, view, &plan);
    scene
}
