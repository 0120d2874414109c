//! Looking for the teeth of a choice.

use super::LayoutSearch;
use crate::edit::text;
use crate::layouts::choose::Choice;
use crate::layouts::draft;
use crate::layouts::found::{LayoutFound, has_idle};
use crate::layouts::frame::{Pairs, each};
use crate::layouts::limits;
use crate::layouts::ratio::Ratio;
use crate::model::scenario::Scenario;
use crate::search::{Fit, Limits, Polynomials, Search, Wanted};
use crate::teach::nesting::Nesting;
use crate::train::Train;

/// How many boxes of a search for teeth are looked at in one step: where much is found each may take milliseconds.
pub(in crate::layouts) const BOXES: usize = 2;
/// Of how many different ratios the best teeth are kept; with six rows each may take ten kilobytes.
const MOST_FITS: usize = 4_000;

/// A choice that is still to be looked at.
pub(in crate::layouts) struct Work {
    pub(super) bodies: Vec<u8>,
    pub(super) choice: Choice,
    pub(in crate::layouts) ratios: Vec<Ratio>,
}

/// A choice whose teeth are being looked for.
pub(super) struct UnderWay {
    work: Work,
    scenario: Scenario,
    nests: bool,
    search: Search,
    /// How many boxes were looked at.
    boxes: usize,
}

impl LayoutSearch {
    /// Whether the teeth of a choice are under way.
    pub(in crate::layouts) fn is_looking_for_teeth(&self) -> bool {
        self.under_way.is_some()
    }

    /// Leaves the teeth that are under way, as if there were none.
    pub(in crate::layouts) fn give_up(&mut self) {
        if let Some(UnderWay { work, .. }) = self.under_way.take() {
            self.remember(work.ratios, None);
        }
    }

    /// Looks on for the teeth of a choice.
    pub(super) fn look_on(&mut self, mut under_way: UnderWay) {
        let ended = under_way.search.run(BOXES);
        under_way.boxes += BOXES;
        if !ended && under_way.boxes < limits::BOXES {
            self.under_way = Some(under_way);
            return;
        }
        let UnderWay {
            work,
            scenario,
            nests,
            search,
            ..
        } = under_way;
        let fit = Fit::of(search, ended);
        self.finish(&work, &scenario, nests, fit.as_ref());
        self.remember(work.ratios, fit);
    }

    /// Looks for the teeth of a choice, unless it is of no use or they are known.
    pub(super) fn look_at(&mut self, work: Work) {
        self.counts.layouts += 1;
        // One without teeth is soon done with.
        if let Some(None) = self.fits.get(&work.ratios) {
            self.counts.toothless += 1;
            return;
        }
        let nesting = self.nesting(&work.bodies, work.choice.elements);
        if nesting == Nesting::Crosses {
            self.counts.useless += 1;
            return;
        }
        let nests = nesting == Nesting::Nests;
        let Choice {
            elements, ranges, ..
        } = &work.choice;
        let scenario = self.scenario(&work.bodies, *elements, ranges);
        if let Some(fit) = self.fits.remove(&work.ratios) {
            self.finish(&work, &scenario, nests, fit.as_ref());
            self.fits.insert(work.ratios, fit);
            return;
        }
        let ratios: Vec<Polynomials<'_>> = work.ratios.iter().map(Ratio::polynomials).collect();
        let (wanted, forwards) = self.wanted(&scenario);
        match self.bench.search(&scenario, &ratios, wanted, &forwards) {
            Some(search) => {
                self.under_way = Some(UnderWay {
                    work,
                    scenario,
                    nests,
                    search,
                    boxes: 0,
                });
            }
            None => {
                self.counts.toothless += 1;
                self.remember(work.ratios, None);
            }
        }
    }

    fn remember(&mut self, ratios: Vec<Ratio>, fit: Option<Fit>) {
        // Within limits one layout may be and another not that has the same ratios.
        let mut ranges = self.ask.forward.iter().chain(&self.ask.backward);
        let is_limited = ranges.any(|wanted| wanted.efficiency.is_some());
        if is_limited || self.ask.limits != Limits::default() {
            return;
        }
        // What is forgotten is looked for once more.
        if self.fits.len() >= MOST_FITS {
            self.fits.clear();
        }
        self.fits.insert(ratios, fit);
    }

    pub(super) fn nesting(&self, bodies: &[u8], elements: Pairs) -> Nesting {
        let scenario = draft::scenario(&self.class, bodies, &self.all, elements, &[]);
        Train::new(scenario).map_or(Nesting::Crosses, |train| train.nesting())
    }

    /// What is wanted of the ranges of a layout, and which of them are forward.
    pub(in crate::layouts) fn wanted(&self, scenario: &Scenario) -> (Vec<Wanted>, Vec<bool>) {
        let forward = self.ask.forward.len();
        let all = self.ask.forward.iter().chain(&self.ask.backward);
        let wanted = all.zip(&scenario.ranges).map(|(wanted, range)| Wanted {
            range: range.id.clone(),
            ratio: wanted.ratio,
            tolerance: wanted.tolerance,
            efficiency: wanted.efficiency,
        });
        let wanted: Vec<Wanted> = wanted.collect();
        let forwards = (0..wanted.len()).map(|at| at < forward).collect();
        (wanted, forwards)
    }

    /// A layout as a scenario, with the teeth of the samples.
    pub(in crate::layouts) fn scenario(
        &self,
        bodies: &[u8],
        elements: Pairs,
        ranges: &[Pairs],
    ) -> Scenario {
        let forward = self.ask.forward.len();
        let ranges = ranges.iter().enumerate().map(|(at, &pairs)| {
            let name = if at < forward {
                (at + 1).to_string()
            } else {
                "R".to_owned()
            };
            (name, pairs)
        });
        let ranges: Vec<(String, Pairs)> = ranges.collect();
        draft::scenario(&self.class, bodies, &self.all, elements, &ranges)
    }

    /// Keeps a layout with these teeth, if it has any and needs all of its elements.
    fn finish(&mut self, work: &Work, scenario: &Scenario, nests: bool, fit: Option<&Fit>) {
        let Some((fit, (scenario, find))) = fit.and_then(|fit| Some((fit, fit.apply(scenario)?)))
        else {
            self.counts.toothless += 1;
            return;
        };
        if has_idle(&scenario) {
            self.counts.useless += 1;
            return;
        }
        self.counts.unended += u64::from(!fit.ended);
        let pairs = each(work.choice.elements).map(|at| self.all[at]);
        self.keep(LayoutFound {
            text: text(&scenario),
            scenario,
            find,
            ended: fit.ended,
            nests,
            key: (work.bodies.clone(), pairs.collect()),
            ranges: work.choice.ranges.clone(),
        });
    }
}
