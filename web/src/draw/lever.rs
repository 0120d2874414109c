//! The lever diagram.

use super::scene::{Point, Scene};
use super::section::Stage;
use crate::live::Live;

/// Draws it.
pub fn scene(_live: &Live<'_>, stage: &Stage, _merged: bool) -> Scene {
    Scene::new(stage.size().width, stage.size().lever_height)
}

/// The shaft whose node is drawn at a point.
pub fn shaft_at(_live: &Live<'_>, _stage: &Stage, _merged: bool, _point: Point) -> Option<usize> {
    None
}
