//! Drawings: how large they are, what is where on them, and painting them.

use plotters_canvas::CanvasBackend;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use super::pictures;
use super::plain::plain;
use super::sandbox::Sandbox;
use crate::draw::scene::Point;
use crate::draw::{Device, flow, lever, paint};

#[wasm_bindgen]
impl Sandbox {
    /// The height in CSS pixels that suits the flow drawing at a width, the same for every range.
    #[wasm_bindgen(js_name = flowHeight)]
    pub fn flow_height(&self, width: f64) -> Result<f64, JsValue> {
        Ok(flow::height(&self.session()?.live(), width))
    }

    /// Fits the stage into an available width; sizes in CSS pixels.
    #[wasm_bindgen(js_name = fitStage, unchecked_return_type = "StageSize")]
    pub fn fit_stage(&mut self, available: f64) -> Result<JsValue, JsValue> {
        self.stage_width = available;
        let session = self.session()?;
        plain(&session.layout().stage(available).size())
    }

    /// Where each element can be taken hold of in the half-section drawing.
    #[wasm_bindgen(unchecked_return_type = "Handle[]")]
    pub fn handles(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        plain(
            &session
                .layout()
                .stage(self.stage_width)
                .handles(session.train()),
        )
    }

    /// Id of the shaft drawn at a point of a drawing (`section` or `lever`), if any.
    #[wasm_bindgen(js_name = shaftAt)]
    pub fn shaft_at(&self, drawing: &str, x: f64, y: f64) -> Result<Option<String>, JsValue> {
        let session = self.session()?;
        let stage = session.layout().stage(self.stage_width);
        let point = Point { x, y };
        let shaft = match drawing {
            "section" => stage.shaft_at(point),
            "lever" => lever::shaft_at(&session.live(), &stage, self.merged, point),
            _ => None,
        };
        Ok(shaft.map(|shaft| session.train().scenario().shafts[shaft].id.clone()))
    }

    /// Draws `section`, `lever`, `flow`, `operating`, or `end:` and the id of a coupling. The
    /// canvas's backing store must have the size of the drawing times the scale.
    pub fn draw(&self, drawing: &str, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        let css = (
            f64::from(canvas.width()) / self.scale,
            f64::from(canvas.height()) / self.scale,
        );
        let scene = pictures::on_page(self.session()?, drawing, self.stage(), css)?;
        let mut backend = CanvasBackend::with_canvas_object(canvas)
            .ok_or_else(|| JsValue::from_str("the canvas has no 2d context"))?;
        paint(
            &scene,
            &mut backend,
            self.palette,
            Device::canvas(self.scale),
        )
        .map_err(|error| JsValue::from_str(&error.to_string()))
    }

    /// A drawing as the text of an SVG file, in CSS pixels. The half-section and the levers have
    /// a size of their own, the others `width` by `height`.
    pub fn svg(&self, drawing: &str, width: f64, height: f64) -> Result<String, JsValue> {
        let size = (width, height);
        let scene = pictures::scene(self.session()?, drawing, self.stage(), size)?;
        crate::draw::svg(&scene, self.palette).map_err(|error| JsValue::from_str(&error))
    }
}

impl Sandbox {
    /// The stage's width, and whether levers are merged.
    fn stage(&self) -> (f64, bool) {
        (self.stage_width, self.merged)
    }
}
