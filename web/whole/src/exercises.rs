//! Questions about the train that is open, and marking answers to them.

use levertrain_core::exercise::{Kind, MarkReport, QuestionReport, Sheet, SheetReport, Task};
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use wasm_bindgen::prelude::*;

/// The kinds of questions that the train offers, by their names.
#[wasm_bindgen(js_name = questionKinds, unchecked_return_type = "TaskKind[]")]
pub fn question_kinds(sandbox: &Sandbox) -> Result<Vec<String>, JsValue> {
    let train = sandbox.session()?.train();
    let offered = Kind::offered(train).into_iter();
    Ok(offered.map(|kind| kind.name().to_owned()).collect())
}

/// A question of a kind by a seed; nothing where the train offers none.
#[wasm_bindgen(unchecked_return_type = "Question | undefined")]
pub fn ask(sandbox: &Sandbox, kind: &str, seed: u32) -> Result<JsValue, JsValue> {
    let train = sandbox.session()?.train();
    let known = Kind::ALL.iter().find(|(name, _)| *name == kind);
    match known.and_then(|(_, kind)| Task::ask(train, *kind, seed.into())) {
        Some(task) => plain(&QuestionReport::of(train, &task)),
        None => Ok(JsValue::UNDEFINED),
    }
}

/// The questions of a sheet about the train that is open; throws all problems of its text.
#[wasm_bindgen(js_name = readExercises, unchecked_return_type = "ExerciseSheet")]
pub fn read_exercises(sandbox: &Sandbox, text: &str) -> Result<JsValue, JsValue> {
    let train = sandbox.session()?.train();
    let sheet = Sheet::parse(train, text).map_err(problems)?;
    plain(&SheetReport::of(train, &sheet))
}

/// The question of one task, a `TaskText` as JSON text; throws what keeps it from being one.
#[wasm_bindgen(unchecked_return_type = "Question")]
pub fn question(sandbox: &Sandbox, task: &str) -> Result<JsValue, JsValue> {
    let train = sandbox.session()?.train();
    let task = Task::set(train, task).map_err(problems)?;
    plain(&QuestionReport::of(train, &task))
}

/// Marks an answer: what was picked, in order where that counts, or what was written.
#[wasm_bindgen(unchecked_return_type = "Mark")]
pub fn mark(sandbox: &Sandbox, task: &str, answer: Vec<String>) -> Result<JsValue, JsValue> {
    let train = sandbox.session()?.train();
    let task = Task::parse(train, task).map_err(problems)?;
    plain(&MarkReport::of(train, &task.mark(train, &answer)))
}

/// A right answer, for those who give up.
#[wasm_bindgen(js_name = rightAnswer)]
pub fn right_answer(sandbox: &Sandbox, task: &str) -> Result<Vec<String>, JsValue> {
    let train = sandbox.session()?.train();
    let task = Task::parse(train, task).map_err(problems)?;
    Ok(task.solve(train).unwrap_or_default())
}
