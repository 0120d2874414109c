//! The lever diagram over that of another sandbox, pinned to compare with.

use levertrain_web::boundary::drawings::paint_on;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::draw::lever;
use levertrain_web::draw::scene::{Point, Scene};
use levertrain_web::session::Session;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

use crate::drawings::{paint_picture, svg_of};

/// How much higher the diagram is than by itself, in CSS pixels.
#[wasm_bindgen(js_name = legendHeight)]
pub fn legend_height() -> f64 {
    lever::LEGEND
}

/// Draws the levers of the stage, in front of those that `legend` names.
#[wasm_bindgen(js_name = drawCompared)]
pub fn draw_compared(
    sandbox: &Sandbox,
    pinned: &Sandbox,
    legend: &str,
    canvas: HtmlCanvasElement,
) -> Result<(), JsValue> {
    let pinned = pinned.session()?;
    paint_on(sandbox.session()?, canvas, |session, _| {
        Ok(scene(session, (pinned, legend), false))
    })
}

/// As `Sandbox.shaftAt`, in what [`draw_compared`] draws.
#[wasm_bindgen(js_name = shaftAtCompared)]
pub fn shaft_at_compared(
    sandbox: &Sandbox,
    pinned: &Sandbox,
    x: f64,
    y: f64,
) -> Result<Option<String>, JsValue> {
    let session = sandbox.session()?;
    let (stage, merged) = (session.stage(), session.settings().merged);
    let pinned = pinned.session()?.live();
    let shaft = lever::shaft_at_over(&session.live(), &stage, merged, &pinned, Point { x, y });
    Ok(shaft.map(|shaft| session.train().scenario().shafts[shaft].id.clone()))
}

/// The diagram as the text of an SVG file, in `light` colours or those on screen.
#[wasm_bindgen(js_name = svgCompared)]
pub fn svg_compared(
    sandbox: &Sandbox,
    pinned: &Sandbox,
    legend: &str,
    light: bool,
) -> Result<String, JsValue> {
    let session = sandbox.session()?;
    let scene = scene(session, (pinned.session()?, legend), true);
    svg_of(session, light, &scene)
}

/// The same on a canvas whose backing store has the size of the drawing times `scale`.
#[wasm_bindgen(js_name = drawPictureCompared)]
pub fn draw_picture_compared(
    sandbox: &Sandbox,
    pinned: &Sandbox,
    legend: &str,
    canvas: HtmlCanvasElement,
    scale: f64,
    light: bool,
) -> Result<(), JsValue> {
    let session = sandbox.session()?;
    let pinned = pinned.session()?;
    paint_picture(session, canvas, (scale, light), |session, _| {
        Ok(scene(session, (pinned, legend), true))
    })
}

fn scene(session: &Session, (pinned, legend): (&Session, &str), by_itself: bool) -> Scene {
    let (live, stage) = (session.live(), session.stage());
    let (pinned, merged) = ((&pinned.live(), legend), session.settings().merged);
    let mut scene = lever::scene_over(&live, &stage, merged, by_itself, pinned);
    if let (false, Some(moved)) = (by_itself, session.moved()) {
        moved.glide_levers(&mut scene, lever::key_top(&live, &stage));
    }
    scene
}
