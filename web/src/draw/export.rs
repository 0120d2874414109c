//! A drawing as an SVG file.

use levertrain_core::place_of;
use plotters::prelude::SVGBackend;

use super::paint::{Device, Surface, paint};
use super::palette::Palette;
use super::scene::Scene;

impl Surface for SVGBackend<'_> {}

/// The text of an SVG file that shows `scene` in its own size.
///
/// # Errors
/// What the backend reports, in words.
pub fn svg(scene: &Scene, palette: Palette) -> Result<String, String> {
    let device = Device::SVG;
    let units = |length: f64| (length * device.scale).round() as u32;
    let (width, height) = (units(scene.width), units(scene.height));
    let mut text = String::new();
    let mut backend = SVGBackend::with_string(&mut text, (width, height));
    paint(scene, &mut backend, palette, device).map_err(|error| error.to_string())?;
    drop(backend);
    // The backend's units are finer than CSS pixels; the view box keeps them, the size does not.
    let fine = format!("width=\"{width}\" height=\"{height}\"");
    let real = format!("width=\"{}\" height=\"{}\"", scene.width, scene.height);
    if let Some(at) = place_of(&text, &fine) {
        text.replace_range(at..at + fine.len(), &real);
    }
    Ok(text)
}
