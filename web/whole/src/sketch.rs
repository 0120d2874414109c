//! The half-section of a train that is not on the stage.

use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::problems;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::pictures;
use levertrain_web::session::Session;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

/// A train with its half-section.
#[wasm_bindgen]
pub struct Sketch(Session);

#[wasm_bindgen]
impl Sketch {
    /// The train of a text, in the colours and at the scale of those on the stage, to fit a width in CSS pixels if it can.
    #[wasm_bindgen(constructor)]
    pub fn new(sandbox: &Sandbox, text: &str, width: f64) -> Result<Sketch, JsValue> {
        let mut session = Session::open(text).map_err(problems)?;
        let mut settings = sandbox.session()?.settings().clone();
        settings.width = width;
        settings.power = false;
        session.set(settings);
        Ok(Self(session))
    }

    /// Width and height of the drawing in CSS pixels.
    pub fn size(&self) -> Result<Box<[f64]>, JsValue> {
        let scene =
            pictures::on_stage(&self.0, "section").map_err(|problem| problems(vec![problem]))?;
        Ok(Box::new([scene.width, scene.height]))
    }

    /// Draws it. The canvas's backing store must have the size of the drawing times the scale.
    pub fn draw(&self, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        paint_on(&self.0, canvas, |session, _| {
            pictures::on_stage(session, "section")
        })
    }
}
