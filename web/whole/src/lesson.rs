//! Lessons: the walk through the power flow, and the story of a shift.

use levertrain_core::lesson::{ShiftReport, WalkReport};
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use wasm_bindgen::prelude::*;

/// The walk through what the applied elements make of the train.
#[wasm_bindgen(unchecked_return_type = "Walk")]
pub fn walk(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    plain(&WalkReport::of(&sandbox.session()?.combination()))
}

/// The story of the shift from what is applied to the elements with these ids.
#[wasm_bindgen(unchecked_return_type = "Shift")]
pub fn shift(sandbox: &Sandbox, to: Vec<String>) -> Result<JsValue, JsValue> {
    let combination = sandbox.session()?.combination();
    let train = combination.train();
    let to = to.iter().map(String::as_str);
    let to = train.element_set(to).map_err(problems)?;
    let from = combination.applied().minus(train.one_ways());
    plain(&ShiftReport::of(train, from, to))
}

/// Lights the shafts with these ids in every drawing, beside the one that is pointed at.
#[wasm_bindgen(js_name = tellShafts)]
pub fn tell_shafts(sandbox: &mut Sandbox, ids: Vec<String>) -> Result<(), JsValue> {
    let session = sandbox.session_mut()?;
    let shafts = &session.train().scenario().shafts;
    let places = ids
        .iter()
        .filter_map(|id| shafts.iter().position(|shaft| shaft.id == *id));
    let places: Vec<usize> = places.collect();
    session.tell(places.into_iter());
    Ok(())
}
