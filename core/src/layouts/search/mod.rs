//! Going through a class of layouts, in pieces.

mod counts;
mod teeth;

use std::collections::BTreeMap;
use std::sync::Arc;

use super::ask::LayoutAsk;
use super::checkpoint::Layout;
use super::choose::{Around, Chosen};
use super::class::Class;
use super::forecast::LayoutForecast;
use super::found::{Key, LayoutFound};
use super::frame::{Frame, Pair, all_pairs};
use super::grid::Grid;
use super::limits;
use super::opening::Opening;
use super::preparation::LayoutPreparation;
use super::ratio::Ratio;
use crate::base::problem::Problem;
use crate::search::{Bench, Fit};
use crate::teach::nesting::Nesting;
pub use counts::LayoutCounts;
use teeth::UnderWay;
pub(super) use teeth::{BOXES, Work};

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
    under_way: Option<UnderWay>,
    /// The best teeth for ratios, where there are any.
    fits: BTreeMap<Vec<Ratio>, Option<Fit>>,
    pub(super) counts: LayoutCounts,
    /// Which wanted ranges some frame has a drive for, by its ratio alone.
    pub(super) reached: Vec<bool>,
    pub(super) found: BTreeMap<Key, LayoutFound>,
    /// What it was told of and is still to be measured.
    pub(super) told: Vec<Layout>,
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
        let own = class.pieces().into_iter().skip(which);
        let own: Vec<Vec<u8>> = own.step_by(count.max(1)).collect();
        let part = 1.0 / own.len().max(1) as f64;
        Self {
            pieces: own.into_iter().rev().map(|piece| (piece, part)).collect(),
            ..Self::idle(ask.clone(), class, Arc::new(bench), (which, count))
        }
    }

    /// One with nothing to do yet.
    fn idle(ask: LayoutAsk, class: Class, bench: Arc<Bench>, shard: (usize, usize)) -> Self {
        let widest: Vec<[f64; 2]> = class
            .sets
            .iter()
            .flat_map(|set| bench.widest(set))
            .collect();
        Self {
            all: all_pairs(class.shafts),
            grid: Grid::new(&widest),
            widest,
            bench,
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
            reached: vec![false; ask.forward.len() + usize::from(ask.backward.is_some())],
            found: BTreeMap::new(),
            told: Vec::new(),
            ask,
            shard,
            class,
        }
    }

    /// Goes on for so many steps at most, each of which takes some milliseconds; true once nothing is left.
    pub fn run(&mut self, steps: usize) -> bool {
        (0..steps).any(|_| !self.step())
    }

    /// How long it takes, to be found out by going through some of it.
    pub fn forecast(&self) -> LayoutForecast {
        let (ask, class) = (self.ask.clone(), self.class.clone());
        LayoutForecast::new(Self::idle(ask, class, Arc::clone(&self.bench), self.shard))
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
        if let Some(under_way) = self.under_way.take() {
            self.look_on(under_way);
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
