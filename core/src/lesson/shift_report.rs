//! A shift as plain data.

use serde::Serialize;

use super::shift::{Shaft, Shift};
use super::shift_words::tell;
use crate::base::element_set::ElementSet;
use crate::base::said::said;
use crate::report::Exact;
use crate::train::Train;

/// The story of a shift.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Shift"))]
pub struct ShiftReport {
    /// What is told, in order.
    pub steps: Vec<ShiftStep>,
    /// Every shaft.
    pub shafts: Vec<ShiftRow>,
}

/// One thing that is told of a shift.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ShiftStep {
    /// The sentence.
    pub sentence: String,
    /// Ids of the elements it is about.
    pub elements: Vec<String>,
    /// Ids of the shafts it is about.
    pub shafts: Vec<String>,
}

/// What becomes of the speed of a shaft.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct ShiftRow {
    /// Its id.
    pub id: String,
    /// What people call it.
    pub label: String,
    /// Before, per input turn.
    pub before: Option<Exact>,
    /// After.
    pub after: Option<Exact>,
    /// After less before.
    pub difference: Option<Exact>,
    /// What that is, in a word or two.
    pub words: String,
}

impl ShiftReport {
    /// The shift between two sets of applied elements, one-way clutches left to themselves.
    pub fn of(train: &Train, from: ElementSet, to: ElementSet) -> Self {
        let shift = Shift::of(train, from, to);
        let scenario = train.scenario();
        let step = |(sentence, elements, shafts): (String, ElementSet, Vec<usize>)| ShiftStep {
            sentence,
            elements: elements
                .iter()
                .map(|element| scenario.elements[element].id().to_owned())
                .collect(),
            shafts: shafts
                .iter()
                .map(|&shaft| scenario.shafts[shaft].id.clone())
                .collect(),
        };
        let row = |(own, shaft): (&Shaft, &crate::model::scenario::Shaft)| {
            let difference = own.after.as_ref().zip(own.before.as_ref());
            ShiftRow {
                id: shaft.id.clone(),
                label: shaft.label.clone(),
                before: own.before.as_ref().map(Exact::from),
                after: own.after.as_ref().map(Exact::from),
                difference: difference.map(|(after, before)| Exact::from(&(after - before))),
                words: said("shift-words", &[("change", own.change.key())]),
            }
        };
        Self {
            steps: tell(&shift).into_iter().map(step).collect(),
            shafts: shift.shafts.iter().zip(&scenario.shafts).map(row).collect(),
        }
    }
}
