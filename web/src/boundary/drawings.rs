//! Drawings: how large they are, what is where on them, and painting them.

use levertrain_core::words::word;
use plotters_canvas::CanvasBackend;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use super::plain::{plain, problems};
use super::sandbox::Sandbox;
use crate::document::pictures;
use crate::document::settings::Settings;
use crate::draw::scene::Point;
use crate::draw::{Device, flow, lever, paint};

#[wasm_bindgen]
impl Sandbox {
    /// The height in CSS pixels that suits the flow drawing at a width, the same for every range.
    #[wasm_bindgen(js_name = flowHeight)]
    pub fn flow_height(&self, width: f64) -> Result<f64, JsValue> {
        Ok(flow::height(&self.session()?.live(), width))
    }

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

    /// Draws `section`, `lever`, `flow`, `operating`, or `end:` and the id of a coupling. The
    /// canvas's backing store must have the size of the drawing times the scale.
    pub fn draw(&self, drawing: &str, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        let session = self.session()?;
        let Settings { scale, palette, .. } = *session.settings();
        let [width, height] =
            [canvas.width(), canvas.height()].map(|pixels| f64::from(pixels) / scale);
        let scene = pictures::on_page(session, drawing, (width, height))
            .map_err(|problem| problems(vec![problem]))?;
        let mut backend = CanvasBackend::with_canvas_object(canvas)
            .ok_or_else(|| JsValue::from_str(word("problem-canvas")))?;
        paint(&scene, &mut backend, palette, Device::canvas(scale))
            .map_err(|error| JsValue::from_str(&error.to_string()))
    }

    /// A drawing as the text of an SVG file, in CSS pixels. The half-section and the levers have
    /// a size of their own, the others `width` by `height`.
    pub fn svg(&self, drawing: &str, width: f64, height: f64) -> Result<String, JsValue> {
        let session = self.session()?;
        let scene = pictures::scene(session, drawing, (width, height))
            .map_err(|problem| problems(vec![problem]))?;
        crate::draw::svg(&scene, session.settings().palette)
            .map_err(|error| JsValue::from_str(&error))
    }
}
