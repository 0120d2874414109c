//! The end view of one coupling.

use super::scene::Scene;
use crate::live::Live;

/// Draws it.
pub fn scene(_live: &Live<'_>, _coupling: usize, (width, height): (f64, f64)) -> Scene {
    Scene::new(width, height)
}
