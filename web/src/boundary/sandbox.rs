//! The wasm boundary: JavaScript values in, plain data out. Thin on purpose.
//!
//! Errors are thrown as `{ problems: [{ place, problem, fix }] }`; what was on screen stays.

use levertrain_core::report::{CapacityReport, ChartReport, LossReport};
use levertrain_core::{Duty, ElementSet, LossModel, Train};
use wasm_bindgen::prelude::*;

use super::plain::{nothing_open, plain, problems};
use crate::boundary::wire::{Answer, TrainInfo};
use crate::document::opening::Opening;
use crate::document::session::Session;
use crate::document::settings::Settings;

#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = include_str!("types.d.ts");

/// The sandbox: one train on screen, and the pictures of it.
#[wasm_bindgen]
#[derive(Default)]
pub struct Sandbox {
    session: Option<Session>,
    opening: Option<Opening>,
}

#[wasm_bindgen]
impl Sandbox {
    /// A sandbox with nothing on screen.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Self {
        Self::default()
    }

    /// Opens a scenario file, with the settings of the previous one. On a problem that one stays.
    #[wasm_bindgen(unchecked_return_type = "TrainInfo")]
    pub fn open(&mut self, text: &str) -> Result<JsValue, JsValue> {
        self.begin(text)?;
        self.arrange(u32::MAX)
    }

    /// Begins to open a scenario file, which [`Sandbox::arrange`] goes on with. On a problem what is
    /// open stays.
    pub fn begin(&mut self, text: &str) -> Result<(), JsValue> {
        self.opening = Some(Opening::of(text).map_err(problems)?);
        Ok(())
    }

    /// Goes on opening what was begun, by some steps of a fraction of a millisecond each, some 15 ms in the largest train; nothing until
    /// it is open. The settings of the previous one stay.
    #[wasm_bindgen(unchecked_return_type = "TrainInfo | undefined")]
    pub fn arrange(&mut self, steps: u32) -> Result<JsValue, JsValue> {
        let opening = self.opening.as_mut().ok_or_else(nothing_open)?;
        let Some(mut session) = (0..steps).find_map(|_| opening.advance()) else {
            return Ok(JsValue::UNDEFINED);
        };
        self.opening = None;
        if let Some(previous) = &self.session {
            session.set(previous.settings().clone());
        }
        let info = plain(&TrainInfo::of(session.train(), session.layout()))?;
        self.session = Some(session);
        Ok(info)
    }

    /// Applies exactly the elements with these ids.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn apply(&mut self, ids: Vec<String>) -> Result<JsValue, JsValue> {
        let session = self.session_mut()?;
        let applied = session.train().element_set(ids.iter().map(String::as_str));
        session.apply(applied.map_err(problems)?);
        answer(session, session.applied())
    }

    /// What the applied elements do.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn answer(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        answer(session, session.applied())
    }

    /// What changing one element over would do.
    #[wasm_bindgen(unchecked_return_type = "Answer")]
    pub fn preview(&self, id: &str) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        answer(session, session.toggled(element(session, id)?))
    }

    /// The range chart.
    #[wasm_bindgen(unchecked_return_type = "Chart")]
    pub fn chart(&self) -> Result<JsValue, JsValue> {
        plain(&ChartReport::from(&self.session()?.train().range_chart()))
    }

    /// Assumes and shows as the settings say, a `Settings` as JSON text, and returns how large the
    /// stage is then, in CSS pixels. On a problem the previous settings stay.
    #[wasm_bindgen(unchecked_return_type = "StageSize")]
    pub fn set(&mut self, settings: &str) -> Result<JsValue, JsValue> {
        let settings = Settings::parse(settings).map_err(problems)?;
        let session = self.session_mut()?;
        session.set(settings);
        plain(&session.stage().size())
    }

    /// What the applied elements do with losses; null where there is a drag but no input torque to
    /// measure it by.
    #[wasm_bindgen(unchecked_return_type = "Losses | null")]
    pub fn losses(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        let model = session.settings().losses();
        plain(&model.map(|model| losses_of(session.train(), session.applied(), &model)))
    }

    /// The same for every named range, in order.
    #[wasm_bindgen(js_name = lossChart, unchecked_return_type = "Losses[] | null")]
    pub fn loss_chart(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        let chart = |model| LossReport::chart(session.train(), &model);
        plain(&session.settings().losses().map(chart))
    }

    /// How the applied elements of every named range hold at the input torque, in order; nothing
    /// where the scenario has no friction data.
    #[wasm_bindgen(js_name = capacityChart, unchecked_return_type = "Capacity[]")]
    pub fn capacity_chart(&self) -> Result<JsValue, JsValue> {
        let session = self.session()?;
        let torque = session.settings().torque;
        let chart = session.train().range_chart();
        let reports = chart.ranges.iter();
        let reports = reports.filter_map(|entry| CapacityReport::of(&entry.combination, torque));
        plain(&reports.collect::<Vec<_>>())
    }

    /// Shows an element's packs closed by `closure` (0 to 1) while they are being dragged.
    pub fn drag(&mut self, id: &str, closure: f64) -> Result<(), JsValue> {
        let session = self.session_mut()?;
        let element = element(session, id)?;
        session.drag(element, closure);
        Ok(())
    }

    /// Lets go of dragged packs without changing anything.
    #[wasm_bindgen(js_name = endDrag)]
    pub fn end_drag(&mut self) -> Result<(), JsValue> {
        self.session_mut()?.end_drag();
        Ok(())
    }

    /// Points at a shaft in every drawing, or at none.
    pub fn light(&mut self, id: Option<String>) -> Result<(), JsValue> {
        let session = self.session_mut()?;
        let shafts = &session.train().scenario().shafts;
        let shaft = id.and_then(|id| shafts.iter().position(|shaft| shaft.id == id));
        session.light(shaft);
        Ok(())
    }

    /// Skips every glide: for reduced motion, and for a link just opened.
    pub fn settle(&mut self) -> Result<(), JsValue> {
        self.session_mut()?.settle();
        Ok(())
    }

    /// Lets `seconds` pass; whether the next frame will differ.
    pub fn advance(&mut self, seconds: f64) -> Result<bool, JsValue> {
        Ok(self.session_mut()?.advance(seconds))
    }
}

impl Sandbox {
    /// What is on screen.
    ///
    /// # Errors
    /// Nothing is open.
    pub fn session(&self) -> Result<&Session, JsValue> {
        self.session.as_ref().ok_or_else(nothing_open)
    }

    /// What is on screen, to change it.
    ///
    /// # Errors
    /// Nothing is open.
    pub fn session_mut(&mut self) -> Result<&mut Session, JsValue> {
        self.session.as_mut().ok_or_else(nothing_open)
    }
}

fn answer(session: &Session, applied: ElementSet) -> Result<JsValue, JsValue> {
    plain(&Answer::of(session.train(), applied))
}

fn element(session: &Session, id: &str) -> Result<usize, JsValue> {
    let set = session.train().element_set([id]).map_err(problems)?;
    set.iter().next().ok_or_else(nothing_open)
}

/// Losses with the one-way clutches settled for the duty.
fn losses_of(train: &Train, applied: ElementSet, model: &LossModel) -> LossReport {
    let duty = if model.coasting {
        Duty::Coast
    } else {
        Duty::Drive
    };
    LossReport::of(&train.settle(applied, duty).combination, model)
}
