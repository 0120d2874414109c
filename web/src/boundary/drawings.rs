//! Drawings: how large they are, what is where on them, and painting them.

use levertrain_core::Problem;
use levertrain_core::words::word;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use super::canvas::Canvas;
use super::plain::{plain, problems};
use super::sandbox::Sandbox;
use crate::document::pictures;
use crate::document::session::Session;
use crate::document::settings::Settings;
use crate::draw::scene::{Point, Scene};
use crate::draw::{Device, Palette, lever, paint};

#[wasm_bindgen]
impl Sandbox {
    /// Where each element can be taken hold of in the half-section drawing.
    #[wasm_bindgen(unchecked_return_type = "Handle[]")]
    pub fn handles(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        plain(&session.stage().handles(session.train()))
    }

    /// Id of the shaft drawn at a point of a drawing (`section` or `lever`), if any.
    #[wasm_bindgen(js_name = shaftAt)]
    pub fn shaft_at(&self, drawing: &str, x: f64, y: f64) -> Result<Option<String>, JsValue> {
        let session = self.session()?;
        let stage = session.stage();
        let point = Point { x, y };
        let shaft = match drawing {
            "section" => stage.shaft_at(point),
            "lever" => lever::shaft_at(&session.live(), &stage, session.settings().merged, point),
            _ => None,
        };
        Ok(shaft.map(|shaft| session.train().scenario().shafts[shaft].id.clone()))
    }

    /// Draws `section` or `lever`. The canvas's backing store must have the size of the drawing times
    /// the scale.
    pub fn draw(&self, drawing: &str, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(self.session()?, canvas, |session, _| {
            pictures::on_stage(session, drawing)
        })
    }
}

/// Paints the drawing that `scene` makes for the size of a canvas in CSS pixels.
///
/// # Errors
/// Those of `scene` as a value to be thrown, or the canvas cannot be drawn on.
pub fn paint_on(
    session: &Session,
    canvas: HtmlCanvasElement,
    scene: impl FnOnce(&Session, (f64, f64)) -> Result<Scene, Problem>,
) -> Result<(), JsValue> {
    let Settings { scale, palette, .. } = *session.settings();
    paint_as(session, canvas, palette, scale, scene)
}

/// The same in the colours of a palette, at a scale: backing store to CSS pixels.
///
/// # Errors
/// As [`paint_on`].
pub fn paint_as(
    session: &Session,
    canvas: HtmlCanvasElement,
    palette: Palette,
    scale: f64,
    scene: impl FnOnce(&Session, (f64, f64)) -> Result<Scene, Problem>,
) -> Result<(), JsValue> {
    let [width, height] = [canvas.width(), canvas.height()].map(|pixels| f64::from(pixels) / scale);
    let scene = scene(session, (width, height)).map_err(|problem| problems(vec![problem]))?;
    let mut backend =
        Canvas::of(canvas).ok_or_else(|| JsValue::from_str(word("problem-canvas")))?;
    paint(&scene, &mut backend, palette, Device::canvas(scale))
        .map_err(|error| JsValue::from_str(&error.to_string()))
}
