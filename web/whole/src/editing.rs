//! Changing the train that is on screen.

use levertrain_core::edit::{self, Edit};
use levertrain_web::Mended;
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::boundary::wire::{NearRatios, Sheet, TextProblem, TrainInfo};
use wasm_bindgen::prelude::*;

/// Makes an edit, an `Edit` as JSON text; one that `continues` the last one of the same number or text
/// is one step with it. On a problem nothing changes.
#[wasm_bindgen(unchecked_return_type = "TrainInfo")]
pub fn edit(sandbox: &mut Sandbox, text: &str, continues: bool) -> Result<JsValue, JsValue> {
    let edit = Edit::parse(text).map_err(problems)?;
    let session = sandbox.session_mut()?;
    session.edit(&edit, continues).map_err(problems)?;
    info(sandbox)
}

/// Puts another scenario in the place of the one on screen, as one edit. On a problem nothing changes.
#[wasm_bindgen(unchecked_return_type = "TrainInfo")]
pub fn rewrite(sandbox: &mut Sandbox, text: &str, continues: bool) -> Result<JsValue, JsValue> {
    let scenario = levertrain_core::Scenario::parse(text).map_err(problems)?;
    let session = sandbox.session_mut()?;
    let edit = Edit::Whole(Box::new(scenario));
    session.edit(&edit, continues).map_err(problems)?;
    info(sandbox)
}

/// What keeps a text from being a train, and where in it that is; nothing where it is one.
#[wasm_bindgen(js_name = problemsIn, unchecked_return_type = "TextProblem[]")]
pub fn problems_in(text: &str) -> Result<JsValue, JsValue> {
    plain(&TextProblem::all_in(text))
}

/// Takes the last edit back; nothing where there was none.
#[wasm_bindgen(unchecked_return_type = "TrainInfo | undefined")]
pub fn undo(sandbox: &mut Sandbox) -> Result<JsValue, JsValue> {
    match sandbox.session_mut()?.undo() {
        true => info(sandbox),
        false => Ok(JsValue::UNDEFINED),
    }
}

/// Makes again the edit that was taken back last; nothing where there was none.
#[wasm_bindgen(unchecked_return_type = "TrainInfo | undefined")]
pub fn redo(sandbox: &mut Sandbox) -> Result<JsValue, JsValue> {
    match sandbox.session_mut()?.redo() {
        true => info(sandbox),
        false => Ok(JsValue::UNDEFINED),
    }
}

/// What of the train can be changed.
#[wasm_bindgen(unchecked_return_type = "Sheet")]
pub fn sheet(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    plain(&Sheet::of(sandbox.session()?))
}

/// The ratios near that of a set; nothing where there is no such set.
#[wasm_bindgen(js_name = nearRatios, unchecked_return_type = "NearRatios | null")]
pub fn near_ratios(sandbox: &Sandbox, set: &str) -> Result<JsValue, JsValue> {
    let scenario = sandbox.session()?.train().scenario();
    plain(&NearRatios::of(scenario, set))
}

/// Betters the drawing by some short steps where shafts cross: whether there is more to do,
/// or the train once things stand elsewhere.
#[wasm_bindgen(unchecked_return_type = "TrainInfo | boolean")]
pub fn mend(sandbox: &mut Sandbox, steps: u32) -> Result<JsValue, JsValue> {
    match sandbox.session_mut()?.mend(steps) {
        Mended::Begun => Ok(JsValue::TRUE),
        Mended::Same => Ok(JsValue::FALSE),
        Mended::Other => info(sandbox),
    }
}

/// Where everything that can be changed stands in the half-section.
#[wasm_bindgen(unchecked_return_type = "Grips")]
pub fn grips(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    plain(&sandbox.session()?.stage().grips())
}

/// The train as the text of a file.
#[wasm_bindgen(js_name = scenarioText)]
pub fn scenario_text(sandbox: &Sandbox) -> Result<String, JsValue> {
    Ok(edit::text(sandbox.session()?.train().scenario()))
}

/// The text of a file to begin with: of a train of so many sets one behind the other, or of none.
#[wasm_bindgen(js_name = starterText)]
pub fn starter_text(sets: usize) -> Result<String, JsValue> {
    let scenario = match sets {
        0 => edit::blank(),
        _ => edit::starter(sets).map_err(|problem| problems(vec![problem]))?,
    };
    Ok(edit::text(&scenario))
}

fn info(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    let session = sandbox.session()?;
    plain(&TrainInfo::of(session.train(), session.layout()))
}
