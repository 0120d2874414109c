//! Values and problems as plain JavaScript data.

use levertrain_core::Problem;
use levertrain_core::words::word;
use serde::Serialize;
use wasm_bindgen::JsValue;

use crate::boundary::wire::ProblemInfo;

/// The problem of a sandbox without a train.
pub fn nothing_open() -> JsValue {
    problems(vec![Problem::of(
        word("place-sandbox"),
        ("problem-nothing-open", &[]),
        ("fix-nothing-open", &[]),
    )])
}

/// The value thrown for problems.
pub fn problems(problems: Vec<Problem>) -> JsValue {
    #[derive(Serialize)]
    struct Thrown {
        problems: Vec<ProblemInfo>,
    }
    let thrown = Thrown {
        problems: problems.into_iter().map(ProblemInfo::from).collect(),
    };
    // Plain strings always convert; a string says at least that something went wrong.
    plain(&thrown).unwrap_or_else(|error| error)
}

/// A value as plain JavaScript data.
pub fn plain(value: &impl Serialize) -> Result<JsValue, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value
        .serialize(&serializer)
        .map_err(|error| JsValue::from_str(&error.to_string()))
}
