//! The half-section of a train that is not on the stage.

use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::plain::problems;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::opening::Opening;
use levertrain_web::pictures;
use levertrain_web::session::Session;
use levertrain_web::settings::Settings;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

/// A train with its half-section, which is laid out in steps.
#[wasm_bindgen]
pub struct Sketch {
    opening: Opening,
    settings: Settings,
    /// Once it is laid out.
    session: Option<Session>,
}

#[wasm_bindgen]
impl Sketch {
    /// The train of a text, in the colours and at the scale of those on the stage, to fit a width in CSS pixels if it can.
    #[wasm_bindgen(constructor)]
    pub fn new(sandbox: &Sandbox, text: &str, width: f64) -> Result<Sketch, JsValue> {
        let mut settings = sandbox.session()?.settings().clone();
        settings.width = width;
        settings.power = false;
        Ok(Self {
            opening: Opening::of(text).map_err(problems)?,
            settings,
            session: None,
        })
    }

    /// Takes one more step, which is short; true once it is laid out.
    pub fn advance(&mut self) -> bool {
        if self.session.is_none()
            && let Some(mut session) = self.opening.advance()
        {
            session.set(self.settings.clone());
            self.session = Some(session);
        }
        self.session.is_some()
    }

    /// Width and height of the drawing in CSS pixels; nothing before it is laid out.
    pub fn size(&self) -> Result<Box<[f64]>, JsValue> {
        let Some(session) = &self.session else {
            return Ok(Box::new([0.0; 2]));
        };
        let scene =
            pictures::on_stage(session, "section").map_err(|problem| problems(vec![problem]))?;
        Ok(Box::new([scene.width, scene.height]))
    }

    /// Draws it, once it is laid out. The canvas's backing store must have the size of the drawing times the scale.
    pub fn draw(&self, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        let Some(session) = &self.session else {
            return Ok(());
        };
        paint_on(session, canvas, |session, _| {
            pictures::on_stage(session, "section")
        })
    }
}
