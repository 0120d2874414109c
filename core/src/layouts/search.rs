//! Going through a class of layouts, in pieces.

use std::collections::BTreeMap;

use super::ask::LayoutAsk;
use super::choose::{Choice, Chooser};
use super::class::Class;
use super::draft;
use super::drives::Drives;
use super::frame::{Frame, Pair, Pairs, all_pairs};
use super::grid::Grid;
use super::limits;
use super::ratio::Ratio;
use crate::base::problem::Problem;
use crate::edit::text;
use crate::model::scenario::Scenario;
use crate::search::{Bench, Find, Fit, Polynomials, Search, Wanted};
use crate::solve::torque::Torques;
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

/// A layout that gives what is wanted.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutFound {
    /// It, with its best teeth.
    pub scenario: Scenario,
    /// Its ratios, and how good they are.
    pub find: Find,
    /// Whether all teeth were tried.
    pub ended: bool,
    /// Whether it is decided that its shafts nest.
    pub nests: bool,
    /// It as the text of a scenario file.
    pub text: String,
    /// Which it is: its row of bodies and where its elements sit.
    key: Key,
}

/// The row of bodies of a frame, and pairs of bodies.
type Key = (Vec<u8>, Vec<Pair>);

/// A search that can be gone on with in pieces.
pub struct LayoutSearch {
    ask: LayoutAsk,
    class: Class,
    all: Vec<Pair>,
    /// Least and greatest tooth ratio of each row.
    widest: Vec<[f64; 2]>,
    grid: Grid,
    bench: Bench,
    /// What is left, the last first, each with its part of the whole.
    pieces: Vec<(Vec<u8>, f64)>,
    /// How much of the whole is done, and is under way.
    done: f64,
    doing: f64,
    frames: Vec<Frame>,
    choices: Vec<Work>,
    under_way: Option<(Work, Scenario, bool, Search, usize)>,
    /// The best teeth for ratios, where there are any.
    fits: BTreeMap<Vec<Ratio>, Option<Fit>>,
    counts: LayoutCounts,
    found: BTreeMap<Key, LayoutFound>,
}

/// A choice that is still to be looked at.
struct Work {
    bodies: Vec<u8>,
    choice: Choice,
    ratios: Vec<Ratio>,
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
        let class = ask.class()?;
        let bench = Bench::new(&class.sets, ask.of_teeth(), ask.step)?;
        let widest: Vec<[f64; 2]> = class
            .sets
            .iter()
            .flat_map(|set| bench.widest(set))
            .collect();
        let own = class.pieces().into_iter().skip(which);
        let own: Vec<Vec<u8>> = own.step_by(count.max(1)).collect();
        let part = 1.0 / own.len().max(1) as f64;
        Ok(Self {
            all: all_pairs(class.shafts),
            grid: Grid::new(&widest),
            widest,
            bench,
            pieces: own.into_iter().rev().map(|piece| (piece, part)).collect(),
            done: 0.0,
            doing: 0.0,
            frames: Vec::new(),
            choices: Vec::new(),
            under_way: None,
            fits: BTreeMap::new(),
            counts: LayoutCounts::default(),
            found: BTreeMap::new(),
            ask: ask.clone(),
            class,
        })
    }

    /// Goes on for so many steps at most, each of which takes some milliseconds; true once nothing is left.
    pub fn run(&mut self, steps: usize) -> bool {
        (0..steps).any(|_| !self.step())
    }

    /// What has become of layouts so far.
    pub fn counts(&self) -> LayoutCounts {
        self.counts
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
        } else if let Some(frame) = self.frames.pop() {
            self.open(&frame);
        } else if let Some((piece, part)) = self.pieces.pop() {
            self.done += std::mem::take(&mut self.doing);
            let parts = self.class.parts(&piece);
            if parts.is_empty() {
                self.frames = self.class.frames(&piece);
                self.frames.reverse();
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

    /// Finds what a frame can be.
    fn open(&mut self, frame: &Frame) {
        self.counts.frames += 1;
        if self.nesting(&frame.bodies, 0) == Nesting::Crosses {
            self.counts.crossing += 1;
            return;
        }
        let drives = Drives::of(&self.class, frame, &self.all);
        let (choices, gives_up) = Chooser::all(
            &self.ask,
            &self.class,
            frame,
            &self.all,
            &drives,
            &self.grid,
            &self.widest,
        );
        self.counts.given_up += u64::from(gives_up);
        let works = choices.into_iter().map(|choice| Work {
            bodies: frame.bodies.clone(),
            ratios: choice
                .ratios
                .iter()
                .map(|&at| drives.ratios[at].clone())
                .collect(),
            choice,
        });
        self.choices = works.collect();
        self.choices.reverse();
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
        let scenario = self.scenario(&work);
        if let Some(fit) = self.fits.remove(&work.ratios) {
            self.finish(&work, &scenario, nests, fit.as_ref());
            self.fits.insert(work.ratios, fit);
            return;
        }
        let forward = self.ask.forward.iter().chain(&self.ask.backward);
        let wanted = forward.zip(&scenario.ranges).map(|(wanted, range)| Wanted {
            range: range.id.clone(),
            ratio: wanted.ratio,
            tolerance: wanted.tolerance,
        });
        let ratios: Vec<Polynomials<'_>> = work.ratios.iter().map(Ratio::polynomials).collect();
        let forwards: Vec<bool> = (0..ratios.len())
            .map(|at| at < self.ask.forward.len())
            .collect();
        match self
            .bench
            .search(&scenario, &ratios, wanted.collect(), &forwards)
        {
            Some(search) => self.under_way = Some((work, scenario, nests, search, 0)),
            None => {
                self.counts.toothless += 1;
                self.remember(work.ratios, None);
            }
        }
    }

    fn remember(&mut self, ratios: Vec<Ratio>, fit: Option<Fit>) {
        // What is forgotten is looked for once more.
        if self.fits.len() >= MOST_FITS {
            self.fits.clear();
        }
        self.fits.insert(ratios, fit);
    }

    /// The scenario of a choice, with the teeth of the samples.
    fn scenario(&self, work: &Work) -> Scenario {
        let forward = self.ask.forward.len();
        let ranges = work.choice.ranges.iter().enumerate().map(|(at, &pairs)| {
            let name = if at < forward {
                (at + 1).to_string()
            } else {
                "R".to_owned()
            };
            (name, pairs)
        });
        let ranges: Vec<(String, Pairs)> = ranges.collect();
        draft::scenario(
            &self.class,
            &work.bodies,
            &self.all,
            work.choice.elements,
            &ranges,
        )
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
        let key: Key = (work.bodies.clone(), pairs.collect());
        let layout = LayoutFound {
            text: text(&scenario),
            scenario,
            find,
            ended: fit.ended,
            nests,
            key: key.clone(),
        };
        // One layout can have its ranges in several ways.
        let is_better = self
            .found
            .get(&key)
            .is_none_or(|known| layout.order(known).is_lt());
        if is_better {
            self.found.insert(key, layout);
        }
        if self.found.len() > limits::FOUND {
            let worst = self.found.values().max_by(|a, b| a.order(b));
            if let Some(key) = worst.map(|worst| worst.key.clone()) {
                self.found.remove(&key);
            }
        }
    }
}

/// How many boxes of a search for teeth are looked at in one step.
const BOXES: usize = 500;
/// Of how many different ratios the best teeth are kept; with six rows each may take ten kilobytes.
const MOST_FITS: usize = 4_000;

impl LayoutFound {
    /// How many shift elements it has.
    pub fn elements(&self) -> usize {
        self.key.1.len()
    }

    fn order(&self, other: &Self) -> std::cmp::Ordering {
        let error = |of: &Self| of.find.measures.error;
        error(self)
            .total_cmp(&error(other))
            .then_with(|| self.elements().cmp(&other.elements()))
            .then_with(|| self.text.cmp(&other.text))
    }
}

/// Whether an element carries no torque in any range.
fn has_idle(scenario: &Scenario) -> bool {
    let Ok(train) = Train::new(scenario.clone()) else {
        return true;
    };
    let mut works = vec![false; scenario.elements.len()];
    for range in 0..scenario.ranges.len() {
        let combination = train.solve(train.range(range));
        let Some(torques) = Torques::of(&combination) else {
            continue;
        };
        for element in combination.applied().iter() {
            works[element] |= torques
                .element(element)
                .is_none_or(|torque| torque.signum() != 0);
        }
    }
    works.contains(&false)
}
