//! What panels tell in words, formulas and tables.

use levertrain_core::report::{OperatingReport, WorkingReport};
use levertrain_web::boundary::plain::plain;
use levertrain_web::boundary::sandbox::Sandbox;
use levertrain_web::boundary::wire::Outcome;
use wasm_bindgen::prelude::*;

/// The working behind the ratio of the applied elements.
#[wasm_bindgen(unchecked_return_type = "Working")]
pub fn working(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    plain(&WorkingReport::of(&sandbox.session()?.combination()))
}

/// What every combination does, in counting order, without its speeds: even the 65 536
/// combinations of 16 elements can be handed over.
#[wasm_bindgen(unchecked_return_type = "Outcome[]")]
pub fn outcomes(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    let mut outcomes = Vec::new();
    let train = sandbox.session()?.train();
    train.for_each_combination(|combination| {
        outcomes.push(Outcome::of(train, combination));
    });
    plain(&outcomes)
}

/// The operating point of the applied elements; null where the scenario has no engine.
#[wasm_bindgen(unchecked_return_type = "Operating | null")]
pub fn operating(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    let session = sandbox.session()?;
    let conditions = session.settings().conditions();
    plain(&OperatingReport::of(&session.combination(), &conditions))
}
