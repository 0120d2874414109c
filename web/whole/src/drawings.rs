//! Drawings that panels show, and all drawings as files.

use levertrain_core::Problem;
use levertrain_web::boundary::drawings::{paint_as, paint_on};
use levertrain_web::boundary::plain::problems;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::Palette;
use levertrain_web::draw::scene::Scene;
use levertrain_web::session::Session;
use levertrain_web::{draw, pictures};
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

/// The height in CSS pixels that suits the flow drawing at a width, the same for every range.
#[wasm_bindgen(js_name = flowHeight)]
pub fn flow_height(sandbox: &Sandbox, width: f64) -> Result<f64, JsValue> {
    Ok(draw::flow::height(&sandbox.session()?.live(), width))
}

/// Draws `flow`, `operating`, or `end:` and the id of a coupling. The canvas's backing store must
/// have the size of the drawing times the scale.
#[wasm_bindgen(js_name = drawPanel)]
pub fn draw_panel(
    sandbox: &Sandbox,
    drawing: &str,
    canvas: HtmlCanvasElement,
) -> Result<(), JsValue> {
    paint_on(sandbox.session()?, canvas, |session, size| {
        pictures::scene(session, drawing, size)
    })
}

/// A drawing as the text of an SVG file, in CSS pixels, in `light` colours or those on screen. The
/// half-section and the levers have a size of their own, the others `width` by `height`.
#[wasm_bindgen]
pub fn svg(
    sandbox: &Sandbox,
    drawing: &str,
    width: f64,
    height: f64,
    light: bool,
) -> Result<String, JsValue> {
    let session = sandbox.session()?;
    let scene = pictures::scene(session, drawing, (width, height))
        .map_err(|problem| problems(vec![problem]))?;
    svg_of(session, light, &scene)
}

/// The same on a canvas whose backing store has the size of the drawing times `scale`.
#[wasm_bindgen(js_name = drawPicture)]
pub fn draw_picture(
    sandbox: &Sandbox,
    drawing: &str,
    canvas: HtmlCanvasElement,
    scale: f64,
    light: bool,
) -> Result<(), JsValue> {
    let session = sandbox.session()?;
    paint_picture(session, canvas, (scale, light), |session, size| {
        pictures::scene(session, drawing, size)
    })
}

/// A drawing as the text of an SVG file, in `light` colours or those on screen.
pub(crate) fn svg_of(session: &Session, light: bool, scene: &Scene) -> Result<String, JsValue> {
    draw::svg(scene, palette(session, light)).map_err(|error| JsValue::from_str(&error))
}

/// Paints a drawing in the same colours on a canvas whose backing store has its size times a scale.
pub(crate) fn paint_picture(
    session: &Session,
    canvas: HtmlCanvasElement,
    (scale, light): (f64, bool),
    scene: impl FnOnce(&Session, (f64, f64)) -> Result<Scene, Problem>,
) -> Result<(), JsValue> {
    paint_as(session, canvas, palette(session, light), scale, scene)
}

fn palette(session: &Session, light: bool) -> Palette {
    match light {
        true => Palette::Light,
        false => session.settings().palette,
    }
}
