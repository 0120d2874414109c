//! Both drawings for the back row of a class.

use levertrain_web::boundary::drawings::paint_as;
use levertrain_web::boundary::plain::plain;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::far::FarDrawings;
use levertrain_web::settings::Settings;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

/// Both drawings in large letters, for the train that is open and the width of its stage as they are.
#[wasm_bindgen]
pub struct FarView(FarDrawings);

#[wasm_bindgen]
impl FarView {
    /// Letters in the half-section are `letters` times as large as usual.
    #[wasm_bindgen(constructor)]
    pub fn new(sandbox: &Sandbox, letters: f64) -> Result<Self, JsValue> {
        Ok(Self(FarDrawings::of(sandbox.session()?, letters)))
    }

    /// How large the half-section is.
    #[wasm_bindgen(unchecked_return_type = "FarSize")]
    pub fn size(&self, sandbox: &Sandbox) -> Result<JsValue, JsValue> {
        plain(&self.0.size(sandbox.session()?))
    }

    /// Draws `section` or `lever`, which fills its canvas; speeds may be `asked` for. The canvas's backing store must
    /// have the size of the drawing times the scale.
    pub fn draw(
        &self,
        sandbox: &Sandbox,
        drawing: &str,
        canvas: HtmlCanvasElement,
        scale: f64,
        asked: bool,
    ) -> Result<(), JsValue> {
        let session = sandbox.session()?;
        let Settings { palette, .. } = *session.settings();
        paint_as(session, canvas, palette, scale, |session, size| {
            self.0.scene(session, drawing, size, asked)
        })
    }

    /// Id of the shaft drawn at a point of a drawing, if any; `width` and `height` are those of the drawing.
    #[wasm_bindgen(js_name = shaftAt)]
    pub fn shaft_at(
        &self,
        sandbox: &Sandbox,
        drawing: &str,
        point: &[f64],
        size: &[f64],
    ) -> Result<Option<String>, JsValue> {
        let (&[x, y], &[width, height]) = (point, size) else {
            return Ok(None);
        };
        let session = sandbox.session()?;
        let shaft = self.0.shaft_at(session, drawing, (x, y), (width, height));
        Ok(shaft.map(|shaft| session.train().scenario().shafts[shaft].id.clone()))
    }
}
