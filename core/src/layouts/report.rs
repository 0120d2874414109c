//! Layouts that were found as plain data.

use serde::Serialize;

use super::found::LayoutFound;
use super::search::LayoutSearch;
use crate::model::scenario::Element;
use crate::report::Exact;

/// How far a search for layouts is, and what it has found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct LayoutsReport {
    /// How far it is, from 0 to 1.
    pub progress: f64,
    /// Ways of joining the sets that were looked at, each once.
    pub frames: f64,
    /// Those of them whose shafts would pass through each other.
    pub crossing: f64,
    /// Those of them that have more choices than are gone through.
    pub given_up: f64,
    /// Layouts that can give the ratios as far as tooth ratios tell.
    pub layouts: f64,
    /// Those of them that cannot be built, or have an element to spare.
    pub useless: f64,
    /// Those of them for which there are no teeth.
    pub toothless: f64,
    /// Those for which not all teeth were tried.
    pub unended: f64,
    /// The wanted ranges, from 0, the forward ones first, whose ratio no way of joining the sets that was looked at can give.
    pub unreached: Vec<u32>,
    /// Whether there are more than are kept.
    pub full: bool,
    /// How many are kept.
    pub count: f64,
    /// The best of them, those first whose ratios are off least.
    pub found: Vec<LayoutReport>,
}

/// A layout that gives what is wanted.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
pub struct LayoutReport {
    /// It, with its best teeth, as the text of a scenario file.
    pub scenario: String,
    /// The ratio of each range.
    pub ratios: Vec<Exact>,
    /// How far the ratio that is off most is off, as a part.
    pub error: f64,
    /// The largest forward ratio over the smallest.
    pub spread: f64,
    /// How far the steps are from being all alike, as a part.
    pub unevenness: f64,
    /// How many clutches it has.
    pub clutches: u32,
    /// How many brakes it has.
    pub brakes: u32,
    /// Teeth of the largest ring, or of what reaches out as far.
    pub size: u32,
    /// The lowest efficiency.
    pub efficiency: f64,
    /// The fastest pinion, in turns of the input.
    pub pinion_speed: f64,
    /// Whether all teeth were tried.
    pub ended: bool,
    /// Whether it is decided that its shafts nest.
    pub nests: bool,
}

impl LayoutFound {
    /// It as plain data.
    pub fn report(&self) -> LayoutReport {
        let measures = self.find.measures;
        let values: Vec<f64> = self
            .find
            .ratios
            .iter()
            .map(|ratio| ratio.to_f64())
            .collect();
        let forward = || values.iter().copied().filter(|value| *value > 0.0);
        let count = |of: fn(&Element) -> bool| {
            let elements = self.scenario.elements.iter();
            u32::try_from(elements.filter(|element| of(element)).count()).unwrap_or(u32::MAX)
        };
        LayoutReport {
            scenario: self.text.clone(),
            ratios: self.find.ratios.iter().map(Exact::from).collect(),
            error: measures.error,
            spread: forward().fold(0.0, f64::max) / forward().fold(f64::INFINITY, f64::min),
            unevenness: measures.unevenness,
            clutches: count(|element| matches!(element, Element::Clutch(_))),
            brakes: count(|element| matches!(element, Element::Brake(_))),
            size: measures.size,
            efficiency: measures.efficiency,
            pinion_speed: measures.pinion_speed,
            ended: self.ended,
            nests: self.nests,
        }
    }
}

impl LayoutSearch {
    /// How far it is, and the best so many of what it has found.
    pub fn report(&self, most: usize) -> LayoutsReport {
        let (counts, found) = (self.counts(), self.found());
        LayoutsReport {
            progress: self.progress(),
            // Rounded: nobody reads more than the first digits of such numbers.
            frames: counts.frames as f64,
            crossing: counts.crossing as f64,
            given_up: counts.given_up as f64,
            layouts: counts.layouts as f64,
            useless: counts.useless as f64,
            toothless: counts.toothless as f64,
            unended: counts.unended as f64,
            unreached: self.unreached().into_iter().map(|at| at as u32).collect(),
            full: self.is_full(),
            count: found.len() as f64,
            found: found
                .into_iter()
                .take(most)
                .map(LayoutFound::report)
                .collect(),
        }
    }
}
