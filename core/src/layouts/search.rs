//! Going through a class of layouts, in pieces.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::ask::LayoutAsk;
use super::checkpoint::Layout;
use super::choose::{Around, Choice, Chosen};
use super::class::Class;
use super::draft;
use super::forecast::LayoutForecast;
use super::found::{Key, LayoutFound, has_idle};
use super::frame::{Frame, Pair, Pairs, all_pairs};
use super::grid::Grid;
use super::limits;
use super::opening::Opening;
use super::preparation::LayoutPreparation;
use super::ratio::Ratio;
use crate::base::problem::Problem;
use crate::edit::text;
use crate::model::scenario::Scenario;
use crate::search::{Bench, Fit, Limits, Polynomials, Search, Wanted};
use crate::teach::nesting::Nesting;
use crate::train::Train;

/// What has become of layouts so far.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LayoutCounts {
    /// Ways of joining the sets, each once.
    pub frames: u64,
    /// Those of them whose shafts would pass through each other.
    pub crossing: u64,
    /// Those of them that have more choices than are gone through ([`limits::CHOICES`]).
    pub given_up: u64,
    /// Layouts that can give the ratios as far as tooth ratios tell.
    pub layouts: u64,
    /// Those of them whose shafts would pass through each other, or that have an element to spare.
    pub useless: u64,
    /// Those of them for which there are no teeth.
    pub toothless: u64,
    /// Those for which not all teeth were tried.
    pub unended: u64,
}

impl LayoutCounts {
    pub(super) const fn all_mut(&mut self) -> [&mut u64; 7] {
        [
            &mut self.frames,
            &mut self.crossing,
            &mut self.given_up,
            &mut self.layouts,
            &mut self.useless,
            &mut self.toothless,
            &mut self.unended,
        ]
    }
}

/// A search that can be gone on with in pieces.
pub struct LayoutSearch {
    pub(super) ask: LayoutAsk,
    /// Which shard it is, from 0, and of how many.
    pub(super) shard: (usize, usize),
    pub(super) class: Class,
    pub(super) all: Vec<Pair>,
    /// Least and greatest tooth ratio of each row.
    widest: Vec<[f64; 2]>,
    grid: Grid,
    pub(super) bench: Arc<Bench>,
    /// What is left, the last first, each with its part of the whole.
    pub(super) pieces: Vec<(Vec<u8>, f64)>,
    /// How much of the whole is done, and is under way.
    pub(super) done: f64,
    pub(super) doing: f64,
    /// The piece that is under way, its frames that are left, and the choices that are left of the frame before those; all
    /// the last first.
    pub(super) piece: Vec<u8>,
    pub(super) frames: Vec<Frame>,
    pub(super) choices: Vec<Work>,
    /// What the last of the frames can be, as far as that is found out.
    opening: Option<Opening>,
    /// How many of its choices are left, where it was gone on with.
    pub(super) left: Option<usize>,
    under_way: Option<(Work, Scenario, bool, Search, usize)>,
    /// The best teeth for ratios, where there are any.
    fits: BTreeMap<Vec<Ratio>, Option<Fit>>,
    pub(super) counts: LayoutCounts,
    /// Which wanted ranges some frame has a drive for, by its ratio alone.
    pub(super) reached: Vec<bool>,
    pub(super) found: BTreeMap<Key, LayoutFound>,
    /// What it was told of and is still to be measured.
    pub(super) told: Vec<Layout>,
}

/// A choice that is still to be looked at.
pub(super) struct Work {
    bodies: Vec<u8>,
    choice: Choice,
    pub(super) ratios: Vec<Ratio>,
}

impl LayoutSearch {
    /// A search for what is asked.
    ///
    /// # Errors
    /// Every problem of what is asked: numbers that are out of bounds, kinds that are unknown, ratios that are not in order,
    /// sets that have no tooth counts within the bounds.
    pub fn new(ask: &LayoutAsk) -> Result<Self, Vec<Problem>> {
        Self::shard(ask, 0, 1)
    }

    /// The same for one of `count` shards, from 0: together they go through all layouts, each once.
    ///
    /// # Errors
    /// Those of [`LayoutSearch::new`].
    pub fn shard(ask: &LayoutAsk, which: usize, count: usize) -> Result<Self, Vec<Problem>> {
        LayoutPreparation::shard(ask, which, count)?.finish()
    }

    pub(super) fn of(
        ask: &LayoutAsk,
        class: Class,
        bench: Bench,
        (which, count): (usize, usize),
    ) -> Self {
        let widest: Vec<[f64; 2]> = class
            .sets
            .iter()
            .flat_map(|set| bench.widest(set))
            .collect();
        let own = class.pieces().into_iter().skip(which);
        let own: Vec<Vec<u8>> = own.step_by(count.max(1)).collect();
        let part = 1.0 / own.len().max(1) as f64;
        Self {
            all: all_pairs(class.shafts),
            grid: Grid::new(&widest),
            widest,
            bench: Arc::new(bench),
            pieces: own.into_iter().rev().map(|piece| (piece, part)).collect(),
            done: 0.0,
            doing: 0.0,
            piece: Vec::new(),
            frames: Vec::new(),
            choices: Vec::new(),
            opening: None,
            left: None,
            under_way: None,
            fits: BTreeMap::new(),
            counts: LayoutCounts::default(),
            reached: vec![false; ask.forward.len() + usize::from(ask.backward.is_some())],
            found: BTreeMap::new(),
            told: Vec::new(),
            ask: ask.clone(),
            shard: (which, count),
            class,
        }
    }

    /// Goes on for so many steps at most, each of which takes some milliseconds; true once nothing is left.
    pub fn run(&mut self, steps: usize) -> bool {
        (0..steps).any(|_| !self.step())
    }

    /// How long it takes, to be found out by going through some of it.
    pub fn forecast(&self) -> LayoutForecast {
        LayoutForecast::new(Self {
            ask: self.ask.clone(),
            shard: self.shard,
            class: self.class.clone(),
            all: self.all.clone(),
            widest: self.widest.clone(),
            grid: self.grid.clone(),
            bench: Arc::clone(&self.bench),
            pieces: Vec::new(),
            done: 0.0,
            doing: 0.0,
            piece: Vec::new(),
            frames: Vec::new(),
            choices: Vec::new(),
            opening: None,
            left: None,
            under_way: None,
            fits: BTreeMap::new(),
            counts: LayoutCounts::default(),
            reached: self.reached.clone(),
            found: BTreeMap::new(),
            told: Vec::new(),
        })
    }

    /// Whether the teeth of a choice are under way.
    pub(super) fn is_looking_for_teeth(&self) -> bool {
        self.under_way.is_some()
    }

    /// Leaves the teeth that are under way, as if there were none.
    pub(super) fn give_up(&mut self) {
        if let Some((work, ..)) = self.under_way.take() {
            self.remember(work.ratios, None);
        }
    }

    /// How many frames are left, and how many choices of the frame before those, that which is under way among them.
    pub(super) fn ahead(&self) -> [usize; 2] {
        match self.left {
            Some(left) => [self.frames.len() - 1, left],
            None => {
                let choices = self.choices.len() + usize::from(self.under_way.is_some());
                [self.frames.len(), choices]
            }
        }
    }

    /// What has become of layouts so far, but for the choice that is under way.
    pub(super) fn settled_counts(&self) -> LayoutCounts {
        LayoutCounts {
            layouts: self.counts.layouts - u64::from(self.under_way.is_some()),
            ..self.counts
        }
    }

    /// What is asked.
    pub fn ask(&self) -> &LayoutAsk {
        &self.ask
    }

    /// What has become of layouts so far.
    pub fn counts(&self) -> LayoutCounts {
        self.counts
    }

    /// The wanted ranges, by their place, the forward ones first, whose ratio no way of joining the sets can give so far, whatever
    /// the teeth within the bounds are.
    pub fn unreached(&self) -> Vec<usize> {
        let ranges = self.reached.iter().enumerate();
        ranges
            .filter(|(_, known)| !**known)
            .map(|(at, _)| at)
            .collect()
    }

    /// How far it is, from 0 to 1, by the pieces that it is divided into.
    pub fn progress(&self) -> f64 {
        self.done
    }

    /// Whether there are more layouts than are kept.
    pub fn is_full(&self) -> bool {
        self.found.len() >= limits::FOUND
    }

    /// What was found so far: the one first whose ratios are off least, of those the one with the fewest elements, then in
    /// the order of their texts.
    pub fn found(&self) -> Vec<&LayoutFound> {
        let mut all: Vec<&LayoutFound> = self.found.values().collect();
        all.sort_by(|a, b| a.order(b));
        all
    }

    /// One step; false once nothing is left.
    fn step(&mut self) -> bool {
        if self.measure_next() {
            return true;
        }
        if let Some((work, scenario, nests, mut search, boxes)) = self.under_way.take() {
            let ended = search.run(BOXES);
            if ended || boxes + BOXES >= limits::BOXES {
                let fit = Fit::of(search, ended);
                self.finish(&work, &scenario, nests, fit.as_ref());
                self.remember(work.ratios, fit);
            } else {
                self.under_way = Some((work, scenario, nests, search, boxes + BOXES));
            }
        } else if let Some(work) = self.choices.pop() {
            self.look_at(work);
        } else if let Some(frame) = self.frames.last() {
            match self.opening.take() {
                None => self.begin(frame.clone()),
                Some(mut opening) => match opening.run(self.around()) {
                    None => self.opening = Some(opening),
                    Some(chosen) => self.open(chosen),
                },
            }
        } else if let Some((piece, part)) = self.pieces.pop() {
            self.done += std::mem::take(&mut self.doing);
            let parts = self.class.parts(&piece);
            if parts.is_empty() {
                self.take_up(piece);
                self.doing = part;
            } else {
                let each = part / parts.len() as f64;
                let parts = parts.into_iter().rev().map(|piece| (piece, each));
                self.pieces.extend(parts);
            }
        } else {
            self.done = 1.0;
            return false;
        }
        true
    }

    /// Takes the frames of a piece.
    pub(super) fn take_up(&mut self, piece: Vec<u8>) {
        self.frames = self.class.frames(&piece);
        self.frames.reverse();
        self.piece = piece;
    }

    fn around(&self) -> Around<'_> {
        Around {
            ask: &self.ask,
            class: &self.class,
            all: &self.all,
            grid: &self.grid,
            widest: &self.widest,
        }
    }

    /// Begins to find out what a frame can be, if it can be anything.
    fn begin(&mut self, frame: Frame) {
        if self.nesting(&frame.bodies, 0) == Nesting::Crosses {
            self.frames.pop();
            self.counts.frames += 1;
            self.counts.crossing += 1;
            return;
        }
        self.opening = Some(Opening::new(frame, self.around()));
    }

    /// Takes what the last of the frames can be.
    fn open(&mut self, chosen: Chosen) {
        let Some(frame) = self.frames.pop() else {
            return;
        };
        for (known, here) in self.reached.iter_mut().zip(chosen.reached) {
            *known |= here;
        }
        let works = chosen.choices.into_iter().map(|choice| Work {
            bodies: frame.bodies.clone(),
            ratios: choice
                .ratios
                .iter()
                .map(|&at| chosen.ratios[at].clone())
                .collect(),
            choice,
        });
        self.choices = works.collect();
        self.choices.reverse();
        match self.left.take() {
            // It was counted before.
            Some(left) => self.choices.truncate(left),
            None => {
                self.counts.frames += 1;
                self.counts.given_up += u64::from(chosen.gives_up);
            }
        }
    }

    fn nesting(&self, bodies: &[u8], elements: Pairs) -> Nesting {
        let scenario = draft::scenario(&self.class, bodies, &self.all, elements, &[]);
        Train::new(scenario).map_or(Nesting::Crosses, |train| train.nesting())
    }

    /// Looks for the teeth of a choice, unless it is of no use or they are known.
    fn look_at(&mut self, work: Work) {
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
            Some(search) => self.under_way = Some((work, scenario, nests, search, 0)),
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

    /// What is wanted of the ranges of a layout, and which of them are forward.
    pub(super) fn wanted(&self, scenario: &Scenario) -> (Vec<Wanted>, Vec<bool>) {
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
    pub(super) fn scenario(&self, bodies: &[u8], elements: Pairs, ranges: &[Pairs]) -> Scenario {
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
        let pairs = super::frame::each(work.choice.elements).map(|at| self.all[at]);
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

    /// Keeps a layout, unless as many are kept as there may be, which are better.
    pub(super) fn keep(&mut self, layout: LayoutFound) {
        // One layout can have its ranges in several ways.
        let is_better = self
            .found
            .get(&layout.key)
            .is_none_or(|known| layout.order(known).is_lt());
        if is_better {
            self.found.insert(layout.key.clone(), layout);
        }
        if self.found.len() > limits::FOUND {
            let worst = self.found.values().max_by(|a, b| a.order(b));
            if let Some(key) = worst.map(|worst| worst.key.clone()) {
                self.found.remove(&key);
            }
        }
    }
}

/// How many boxes of a search for teeth are looked at in one step: where much is found each may take milliseconds.
pub(super) const BOXES: usize = 2;
/// Of how many different ratios the best teeth are kept; with six rows each may take ten kilobytes.
const MOST_FITS: usize = 4_000;
