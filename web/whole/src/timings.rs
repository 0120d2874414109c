//! The map of timings of a shift.

use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::timings::{self, View};
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// A map of what comes of many timings.
#[wasm_bindgen]
pub struct TimingsMap(View);

#[wasm_bindgen]
impl TimingsMap {
    /// When it begins to release, of each column, and to apply, of each row, in seconds; flare, tie-up and heat of
    /// each, row by row; what flare and tie-up are slight; and column and row of what is commanded now.
    #[wasm_bindgen(constructor)]
    pub fn new(
        releases: Vec<f64>,
        applies: Vec<f64>,
        values: &[f64],
        slight_flare: f64,
        slight_bind: f64,
        column: u32,
        row: u32,
    ) -> TimingsMap {
        let values = values.chunks_exact(3);
        Self(View {
            values: values.map(|x| [x[0], x[1], x[2]]).collect(),
            slight: [slight_flare, slight_bind],
            now: [column as usize, row as usize],
            releases,
            applies,
        })
    }

    /// The height of the drawing at a width in CSS pixels, where marks begin to the right and down, and how large the room of each is.
    pub fn places(&self, width: f64) -> Vec<f64> {
        let places = timings::places(&self.0, width);
        vec![places.height, places.left, places.top, places.cell]
    }

    /// Draws it, as wide as the canvas.
    pub fn draw(&self, sandbox: &Sandbox, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |_, (width, _)| {
            Ok(timings::scene(&self.0, width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen.
    pub fn svg(&self, sandbox: &Sandbox, width: f64, light: bool) -> Result<String, JsValue> {
        svg_of(sandbox.session()?, light, &timings::scene(&self.0, width))
    }

    /// The same on a canvas whose backing store has the size of the drawing times `scale`.
    #[wasm_bindgen(js_name = drawPicture)]
    pub fn draw_picture(
        &self,
        sandbox: &Sandbox,
        canvas: HtmlCanvasElement,
        scale: f64,
        light: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        paint_picture(session, canvas, (scale, light), |_, (width, _)| {
            Ok(timings::scene(&self.0, width))
        })
    }
}
