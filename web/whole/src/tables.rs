//! What panels tell in words, formulas and tables.

use levertrain_core::report::{OperatingReport, WorkingReport};
use levertrain_core::{Duty, ElementSet, State, Train};
use levertrain_web::boundary::plain::{plain, problems};
use levertrain_web::boundary::sandbox::Sandbox;
use wasm_bindgen::prelude::*;

/// The working behind the ratio of the applied elements.
#[wasm_bindgen(unchecked_return_type = "Working")]
pub fn working(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    plain(&WorkingReport::of(&sandbox.session()?.combination()))
}

/// What the combinations of the train in a text do from a number on, as many as there is room for: of each
/// its state, from 1 as the page lists them, and its ratio. Bit by bit a number says which elements are
/// applied. A state of 0 stands where nobody can apply them: one-way clutches lock by themselves.
/// Packed like this the 65 536 of 16 elements cost little to hand over, piece by piece and between threads.
#[wasm_bindgen]
pub fn outcomes(
    text: &str,
    from: u32,
    states: &mut [u8],
    ratios: &mut [f64],
) -> Result<(), JsValue> {
    let train = Train::parse(text).map_err(problems)?;
    states.fill(0);
    ratios.fill(f64::NAN);
    let count = u32::try_from(states.len().min(ratios.len())).unwrap_or(u32::MAX);
    let before = from
        .saturating_add(count)
        .min(1 << train.scenario().elements.len());
    let chosen = (from..before).filter(|number| is_chosen(&train, *number));
    let mut places = chosen.clone().map(|number| (number - from) as usize);
    let sets = chosen.map(ElementSet::from_bits);
    train.for_each_of(sets, Duty::Drive, |combination| {
        let Some(place) = places.next() else { return };
        states[place] = match combination.state() {
            State::Driving(_) => 1,
            State::OverApplied(_) => 2,
            State::Neutral => 3,
            State::OutputHeld => 4,
            State::TiedUp => 5,
        };
        if let Some(ratio) = combination.state().ratio() {
            ratios[place] = ratio.to_f64();
        }
    });
    Ok(())
}

/// The exact ratio of a combination, by its number; nothing where it has none.
#[wasm_bindgen(js_name = ratioOf)]
pub fn ratio_of(sandbox: &Sandbox, number: u32) -> Result<Option<String>, JsValue> {
    let train = sandbox.session()?.train();
    if !is_chosen(train, number) {
        return Ok(None);
    }
    let settled = train.settle(ElementSet::from_bits(number), Duty::Drive);
    let ratio = settled.combination.state().ratio();
    Ok(ratio.map(|ratio| ratio.to_string()))
}

/// Whether a number is that of a combination which can be applied.
fn is_chosen(train: &Train, number: u32) -> bool {
    let elements = &train.scenario().elements;
    let set = ElementSet::from_bits(number);
    number >> elements.len() == 0 && set.iter().all(|element| !elements[element].is_one_way())
}

/// The operating point of the applied elements; null where the scenario has no engine.
#[wasm_bindgen(unchecked_return_type = "Operating | null")]
pub fn operating(sandbox: &Sandbox) -> Result<JsValue, JsValue> {
    let session = sandbox.session()?;
    let conditions = session.settings().conditions();
    plain(&OperatingReport::of(&session.combination(), &conditions))
}
