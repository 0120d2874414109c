//! The plot of what a search for teeth has found.

use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::finds::{self, Measure, View};
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// A plot of finds over two of their measures.
#[wasm_bindgen]
pub struct FindsPlot(View);

#[wasm_bindgen]
impl FindsPlot {
    /// Of the values of two measures, the first to the right, with what they are called, and whether more of it is
    /// better.
    #[wasm_bindgen(constructor)]
    pub fn new(
        across: Vec<f64>,
        across_name: String,
        across_rises: bool,
        up: Vec<f64>,
        up_name: String,
        up_rises: bool,
    ) -> FindsPlot {
        let measure = |values, name, rises| Measure {
            name,
            values,
            rises,
        };
        Self(View {
            measures: [
                measure(across, across_name, across_rises),
                measure(up, up_name, up_rises),
            ],
            chosen: None,
            present: None,
        })
    }

    /// Marks the find that is on the stage.
    pub fn choose(&mut self, find: u32) {
        self.0.chosen = Some(find as usize);
    }

    /// Marks the train that was asked about.
    pub fn present(&mut self, across: f64, up: f64) {
        self.0.present = Some([across, up]);
    }

    /// The height of the drawing at a width in CSS pixels, and then where each find stands, to the right and down.
    pub fn places(&self, width: f64) -> Vec<f64> {
        let places = finds::places(&self.0, width);
        let points = places.points.iter().flat_map(|point| [point.x, point.y]);
        std::iter::once(places.height).chain(points).collect()
    }

    /// Draws it, as wide as the canvas.
    pub fn draw(&self, sandbox: &Sandbox, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(sandbox.session()?, canvas, |_, (width, _)| {
            Ok(finds::scene(&self.0, width))
        })
    }

    /// The drawing as the text of an SVG file, in `light` colours or those on screen.
    pub fn svg(&self, sandbox: &Sandbox, width: f64, light: bool) -> Result<String, JsValue> {
        svg_of(sandbox.session()?, light, &finds::scene(&self.0, width))
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
            Ok(finds::scene(&self.0, width))
        })
    }
}
