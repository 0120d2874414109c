//! Finds as plain data, and reading them again.

use std::sync::Arc;

use serde::Serialize;

use super::cuts::of_counts;
use super::measures::Find;
use super::{Counts, Search};
use crate::base::problem::Problem;
use crate::json::{Fields, Read, Value, list, strict};
use crate::model::coupling::{Coupling, SetTeeth};
use crate::report::Exact;

/// How far a search is, and what it has found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Finding"))]
pub struct SearchReport {
    /// How many candidates there are within the bounds; each of those below is a part of it.
    pub candidates: f64,
    /// Cut off, as none of them can be what was asked for.
    pub outside: f64,
    /// Cut off, as a find beats all of them.
    pub beaten: f64,
    /// Tried one by one.
    pub tried: f64,
    /// How many boxes were looked at, which is what takes the time.
    pub boxes: f64,
    /// Whether it ended early, as there are more finds than are kept.
    pub full: bool,
    /// The teeth that the train has, measured in the same way, where all wanted ranges drive with them.
    pub present: Option<FindReport>,
    /// What no other beats, those first that are best in what counts first.
    pub finds: Vec<FindReport>,
}

/// Tooth counts that no others beat.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Find"))]
pub struct FindReport {
    /// The sets that were looked for.
    pub sets: Vec<SetTeeth>,
    /// The ratio of each wanted range; left out where the page is told, which does not show them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[cfg_attr(feature = "types", ts(optional, as = "Option<Vec<Exact>>"))]
    pub ratios: Vec<Exact>,
    /// How far what is off most is off, as a part.
    pub error: f64,
    /// How far the steps are from their law, as a part.
    pub unevenness: f64,
    /// Teeth of the largest ring, or of what reaches out as far.
    pub size: u32,
    /// The lowest efficiency.
    pub efficiency: f64,
    /// The fastest pinion, in turns of the input.
    pub pinion_speed: f64,
    /// The fastest difference across an open element, in turns of the input.
    pub open_speed: f64,
}

/// A find that is still to be measured.
pub(super) struct Told {
    pub find: FindSets,
    /// Whether other parts have it: it is not handed on to them.
    pub is_known: bool,
}

/// The teeth of a find alone, by which it is found again. Where they are read other fields may stand beside them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct FindSets {
    /// The sets that were looked for.
    pub sets: Vec<SetTeeth>,
}

impl Read for FindSets {
    fn read(value: Value, place: &str, problems: &mut Vec<Problem>) -> Option<Self> {
        let spare = [
            "ratios",
            "error",
            "unevenness",
            "size",
            "efficiency",
            "pinion_speed",
            "open_speed",
        ];
        let mut fields = Fields::of(value, place, &["sets"], &spare, problems)?;
        let sets = fields.take("sets")?;
        Some(Self { sets })
    }
}

/// The sets that are looked for, in the order of the scenario, with which of a find's cuts each has.
pub(super) struct Stencils(Vec<(usize, SetTeeth)>);

impl Stencils {
    /// The teeth of a find.
    pub(super) fn sets(&self, find: &Find) -> FindSets {
        let sets = self.0.iter().map(|(at, set)| {
            let mut set = set.clone();
            find.cuts[*at].put_into(&mut set);
            set
        });
        FindSets {
            sets: sets.collect(),
        }
    }

    /// A find without its ratios.
    pub(super) fn report(&self, find: &Find) -> FindReport {
        let measures = find.measures;
        FindReport {
            sets: self.sets(find).sets,
            ratios: Vec::new(),
            error: measures.error,
            unevenness: measures.unevenness,
            size: measures.size,
            efficiency: measures.efficiency,
            pinion_speed: measures.pinion_speed,
            open_speed: measures.open_speed,
        }
    }
}

/// The teeth that a set has.
pub(crate) fn teeth_of(coupling: &Coupling) -> SetTeeth {
    let mut coupling = coupling.clone();
    let set = coupling.facts().id().to_owned();
    let parts = coupling.parts();
    SetTeeth {
        set,
        teeth: parts.teeth.into_iter().map(|(_, teeth)| *teeth).collect(),
        pinions: parts.count.map(|count| *count),
    }
}

impl Search {
    /// How far it is, and what it has found.
    pub fn report(&self) -> SearchReport {
        let stencils = self.stencils();
        let finds = self.walk.front.finds().map(|find| FindReport {
            ratios: find.ratios.iter().map(Exact::from).collect(),
            ..stencils.report(find)
        });
        SearchReport {
            finds: finds.collect(),
            ..self.progress()
        }
    }

    /// The same without the finds.
    pub fn progress(&self) -> SearchReport {
        let Counts {
            outside,
            beaten,
            tried,
            boxes,
        } = self.counts();
        SearchReport {
            // Rounded: nobody reads more than the first digits of such numbers.
            candidates: self.candidates() as f64,
            outside: outside as f64,
            beaten: beaten as f64,
            tried: tried as f64,
            boxes: boxes as f64,
            full: self.is_full(),
            present: self.present().map(|find| self.stencils().report(&find)),
            finds: Vec::new(),
        }
    }

    /// By which the teeth of finds are told: made once, as there may be thousands of them.
    pub(super) fn stencils(&self) -> Stencils {
        let maker = &self.ground.maker;
        let couplings = maker.scenario.couplings.iter().enumerate();
        let sets = couplings.filter_map(|(set, coupling)| {
            let at = maker.sets.iter().position(|&own| own == set)?;
            Some((at, teeth_of(coupling)))
        });
        Stencils(sets.collect())
    }

    /// Takes in finds that another part of the same search reported, as JSON. Each is measured anew; one that is none
    /// is passed over.
    ///
    /// # Errors
    /// Every problem of the text: that it is no list of finds.
    pub fn tell_reported(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        self.tell_in_pieces(text)?;
        self.measure_told();
        Ok(())
    }

    /// The same, but that they are measured as it is gone on with.
    ///
    /// # Errors
    /// Those of [`Search::tell_reported`].
    pub fn tell_in_pieces(&mut self, text: &str) -> Result<(), Vec<Problem>> {
        self.tell_values(strict(text).map_err(|problem| vec![problem])?, true)
    }

    pub(super) fn tell_values(&mut self, finds: Value, is_known: bool) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        let items = match finds {
            Value::List(items) => items,
            other => Vec::from([other]),
        };
        let told: Vec<FindSets> = list(items, "finds", &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let told = told.into_iter().map(|find| Told { find, is_known });
        self.told.extend(told);
        Ok(())
    }

    /// Measures all that it was told of.
    pub(super) fn measure_told(&mut self) {
        while let Some(told) = self.told.pop() {
            self.measure(&told);
        }
    }

    /// Takes teeth in as a find, if they are one.
    pub(super) fn measure(&mut self, Told { find, is_known }: &Told) {
        let maker = &self.ground.maker;
        let cuts = maker.sets.iter().map(|&set| {
            let coupling = &maker.scenario.couplings[set];
            let told = find
                .sets
                .iter()
                .find(|told| told.set == coupling.facts().id())?;
            Some(of_counts(coupling, &told.teeth, told.pinions))
        });
        if let Some(cuts) = cuts.collect::<Option<Vec<_>>>()
            && let Some(find) = maker.find(&cuts, &self.ground.goals)
        {
            match is_known {
                true => self.walk.front.put(Arc::new(find), false),
                false => self.walk.front.take(find),
            };
        }
    }
}
