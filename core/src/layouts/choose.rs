//! Choosing drives of a frame for the wanted ranges, and with them where elements sit.
//!
//! Ranges are given drives one after the other. What is kept of each choice is the pairs that elements sit between, and the
//! cells of the grid in which all ratios so far can be what is wanted: choices that need too many elements, or
//! that leave no cell, are dropped with all that would follow from them.

use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use super::ask::LayoutAsk;
use super::class::{Class, HOUSING};
use super::drives::{Drive, Drives};
use super::frame::{Frame, Pair, Pairs};
use super::grid::{Cells, Grid};
use super::limits;
use super::region::{Goal, Region};
use crate::search::Quotient;

/// A layout, and the drives that are its ranges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Choice {
    /// Where elements sit.
    pub elements: Pairs,
    /// What is applied in each range, the forward ones first, then reverse.
    pub ranges: Vec<Pairs>,
    /// Which ratio of the frame each has.
    pub ratios: Vec<usize>,
}

/// A drive that can be a range as far as its own ratio tells.
struct Candidate {
    drive: Drive,
    cells: Cells,
}

/// Boxes that the tooth ratios are divided into while ranges are being given drives, and once all have one.
const BOXES: usize = 24;
const MOST_BOXES: usize = 200;
/// How many regions are kept at once.
const MOST_KEPT: usize = 10_000;

pub(super) struct Chooser<'a> {
    ask: &'a LayoutAsk,
    class: &'a Class,
    frame: &'a Frame,
    all: &'a [Pair],
    drives: &'a Drives,
    /// The bounds of each ratio in each cell.
    bounds: Vec<Vec<[f64; 2]>>,
    /// Those of each range.
    candidates: Vec<Vec<Candidate>>,
    /// Where the quotient of two ratios can be within the window of a step, or of the spread.
    quotients: BTreeMap<(usize, usize, bool), Cells>,
    quotients_in_boxes: Vec<Quotient>,
    chosen: Vec<Drive>,
    goals: Vec<Goal>,
    /// What is left with ranges of these ratios.
    narrow: BTreeMap<Vec<usize>, Option<Rc<Region>>>,
    /// Each once for the same elements and ratios.
    told: BTreeSet<(Pairs, Vec<usize>)>,
    found: Vec<Choice>,
    /// How many drives were tried as ranges.
    tries: usize,
}

impl<'a> Chooser<'a> {
    /// All choices for a frame, none where a range has no drive; whether there are more than are gone through; and which ranges have
    /// a drive.
    pub(super) fn all(
        ask: &'a LayoutAsk,
        class: &'a Class,
        frame: &'a Frame,
        all: &'a [Pair],
        drives: &'a Drives,
        grid: &Grid,
        widest: &[[f64; 2]],
    ) -> (Vec<Choice>, bool, Vec<bool>) {
        let bounds: Vec<_> = drives
            .ratios
            .iter()
            .map(|ratio| grid.bounds(ratio))
            .collect();
        let forward = ask.forward.iter().map(|wanted| (wanted, true));
        let reverse = ask.backward.iter().map(|wanted| (wanted, false));
        let mut candidates = Vec::new();
        for (wanted, forwards) in forward.chain(reverse) {
            let window = wanted.window(forwards);
            let cells: Vec<Cells> = bounds
                .iter()
                .map(|bounds| Grid::within(bounds, window))
                .collect();
            let own = drives.drives.iter().filter_map(|&drive| {
                let is_allowed =
                    ask.direct != Some(false) || !drives.ratios[drive.ratio].is_direct();
                let cells = cells[drive.ratio];
                (is_allowed && !cells.is_empty()).then_some(Candidate { drive, cells })
            });
            candidates.push(own.collect::<Vec<Candidate>>());
        }
        let reached: Vec<bool> = candidates.iter().map(|own| !own.is_empty()).collect();
        if reached.contains(&false) {
            return (Vec::new(), false, reached);
        }
        let mut chooser = Self {
            ask,
            class,
            frame,
            all,
            drives,
            bounds,
            candidates,
            quotients: BTreeMap::new(),
            quotients_in_boxes: drives
                .ratios
                .iter()
                .map(|ratio| ratio.among(widest))
                .collect(),
            chosen: Vec::new(),
            goals: Vec::new(),
            narrow: BTreeMap::new(),
            told: BTreeSet::new(),
            found: Vec::new(),
            tries: 0,
        };
        chooser.choose(0, grid.all(), &Region::whole(widest));
        (chooser.found, chooser.tries >= limits::CHOICES, reached)
    }

    fn choose(&mut self, elements: Pairs, cells: Cells, region: &Region) {
        let range = self.chosen.len();
        if range == self.candidates.len() {
            self.tell(elements);
            return;
        }
        let is_last = range + 1 == self.candidates.len();
        for at in 0..self.candidates[range].len() {
            self.tries += 1;
            if self.tries >= limits::CHOICES {
                return;
            }
            let Candidate { drive, cells: own } = &self.candidates[range][at];
            let (drive, with) = (*drive, elements | drive.pairs);
            let left = cells.both(own);
            if with.count_ones() as usize > self.class.elements
                || left.is_empty()
                || !self.may_sit(with)
                || !self.may_follow(drive)
            {
                continue;
            }
            let left = left.both(&self.after(drive));
            if left.is_empty() {
                continue;
            }
            let Some(narrow) = self.narrowed(region, drive, is_last) else {
                continue;
            };
            let before = self.goals.len();
            let goals = self.goals_of(drive);
            self.goals.extend(goals);
            self.chosen.push(drive);
            self.choose(with, left, &narrow);
            self.goals.truncate(before);
            self.chosen.pop();
        }
    }

    /// What is left of a region with a drive as the next range, if anything. Drives with the same ratios share that.
    fn narrowed(&mut self, region: &Region, drive: Drive, is_last: bool) -> Option<Rc<Region>> {
        let mut ratios: Vec<usize> = self.chosen.iter().map(|drive| drive.ratio).collect();
        ratios.push(drive.ratio);
        if let Some(known) = self.narrow.get(&ratios) {
            return known.clone();
        }
        let mut goals = self.goals.clone();
        let mut narrow = region.clone();
        for goal in self.goals_of(drive) {
            goals.push(goal);
            let most = if is_last { MOST_BOXES } else { BOXES };
            narrow = narrow.narrowed(&self.quotients_in_boxes, &goals, most);
        }
        let narrow = (!narrow.is_empty()).then(|| Rc::new(narrow));
        if self.narrow.len() >= MOST_KEPT {
            self.narrow.clear();
        }
        self.narrow.insert(ratios, narrow.clone());
        narrow
    }

    /// The forward range before the next one, if that is one.
    fn before(&self) -> Option<Drive> {
        let is_forward = self.chosen.len() < self.ask.forward.len();
        self.chosen.last().copied().filter(|_| is_forward)
    }

    /// Whether a drive is another one than those that are ranges already, and a single swap away from the one before, where it
    /// must be.
    fn may_follow(&self, drive: Drive) -> bool {
        // What applies the same elements is the same range.
        if self.chosen.iter().any(|other| other.pairs == drive.pairs) {
            return false;
        }
        self.before().is_none_or(|before| {
            let common = (before.pairs & drive.pairs).count_ones() as usize;
            !self.ask.single_swaps || common + 1 == self.class.applied
        })
    }

    /// What a drive must be as the next range.
    fn goals_of(&self, drive: Drive) -> Vec<Goal> {
        let range = self.chosen.len();
        let forward = self.ask.forward.len();
        let wanted = self.ask.forward.get(range).or(self.ask.backward.as_ref());
        let single = wanted.map(|wanted| Goal {
            ratio: drive.ratio,
            over: None,
            window: wanted.window(range < forward),
        });
        let step = self.before().map(|before| Goal {
            ratio: before.ratio,
            over: Some(drive.ratio),
            window: self.step_window(),
        });
        let spread = self.spread_window().filter(|_| range + 1 == forward);
        let spread = self.chosen.first().zip(spread).map(|(first, window)| Goal {
            ratio: first.ratio,
            over: Some(drive.ratio),
            window,
        });
        [single, step, spread].into_iter().flatten().collect()
    }

    /// The cells in which a drive can come after those that are chosen.
    fn after(&mut self, drive: Drive) -> Cells {
        let mut cells = Cells::ALL;
        if let Some(before) = self.before() {
            let step = self.step_window();
            cells = self.quotient(before.ratio, drive.ratio, false, step);
            if let Some(window) = self.spread_window()
                && self.chosen.len() + 1 == self.ask.forward.len()
            {
                let first = self.chosen[0].ratio;
                cells = cells.both(&self.quotient(first, drive.ratio, true, window));
            }
        }
        cells
    }

    fn step_window(&self) -> [f64; 2] {
        self.ask.step.unwrap_or([1.0, f64::INFINITY])
    }

    fn spread_window(&self) -> Option<[f64; 2]> {
        let spread = self.ask.spread?;
        Some([1.0 - spread.tolerance, 1.0 + spread.tolerance].map(|part| spread.value * part))
    }

    /// Whether there are no more clutches and brakes than asked for.
    fn may_sit(&self, elements: Pairs) -> bool {
        let brakes = super::frame::each(elements).filter(|&at| self.all[at][0] == HOUSING);
        let brakes = u32::try_from(brakes.count()).unwrap_or(u32::MAX);
        let clutches = elements.count_ones() - brakes;
        let holds = |most: Option<u32>, count: u32| most.is_none_or(|most| count <= most);
        holds(self.ask.clutches, clutches) && holds(self.ask.brakes, brakes)
    }

    fn quotient(&mut self, above: usize, below: usize, spread: bool, window: [f64; 2]) -> Cells {
        let bounds = &self.bounds;
        let of = || Grid::quotient_within([&bounds[above], &bounds[below]], window);
        *self
            .quotients
            .entry((above, below, spread))
            .or_insert_with(of)
    }

    fn tell(&mut self, elements: Pairs) {
        let ratios: Vec<usize> = self.chosen.iter().map(|drive| drive.ratio).collect();
        let of = |at: &usize| &self.drives.ratios[*at];
        let forward = &ratios[..self.ask.forward.len()];
        if self.ask.direct == Some(true) && !forward.iter().any(|at| of(at).is_direct()) {
            return;
        }
        // A set that no ratio depends on is of no use.
        let rows = ratios.iter().fold(0, |rows, at| rows | of(at).rows);
        let mut used = vec![false; self.class.sets.len()];
        for (row, of) in self.class.rows.iter().enumerate() {
            used[of.set] |= rows >> row & 1 == 1;
        }
        if used.contains(&false) || self.told.contains(&(elements, ratios.clone())) {
            return;
        }
        let pairs: Vec<Pair> = super::frame::each(elements)
            .map(|at| self.all[at])
            .collect();
        if !self.frame.is_joined(self.class, &pairs) || !self.frame.is_first(self.all, elements) {
            return;
        }
        self.told.insert((elements, ratios.clone()));
        self.found.push(Choice {
            elements,
            ranges: self.chosen.iter().map(|drive| drive.pairs).collect(),
            ratios,
        });
    }
}
