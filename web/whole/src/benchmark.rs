//! What only the benchmark of the page asks for.

use levertrain_web::boundary::sandbox::Sandbox;
use wasm_bindgen::prelude::*;

/// Classifies every combination and reads every shaft speed, `times` over, and returns how many
/// speeds were determined in all: the work of engines that are compared, without the cost of handing it
/// over.
#[wasm_bindgen(js_name = countDetermined)]
pub fn count_determined(sandbox: &Sandbox, times: u32) -> Result<usize, JsValue> {
    Ok(sandbox.session()?.train().count_determined(times as usize))
}
