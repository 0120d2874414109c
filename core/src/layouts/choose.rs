//! Choosing drives of a frame for the wanted ranges, and with them where elements sit.
//!
//! Ranges are given drives one after the other. What is kept of each choice is the pairs that elements sit between, and the
//! cells of the grid in which all ratios so far can be what is wanted: choices that need too many elements, or
//! that leave no cell, are dropped with all that would follow from them.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use super::ask::LayoutAsk;
use super::class::{Class, HOUSING};
use super::drives::{Drive, Drives};
use super::frame::{Frame, Pair, Pairs};
use super::grid::{Cells, Grid};
use super::limits;
use super::ratio::Ratio;
use super::region::{Goal, Region};
use crate::search::Quotient;

/// A layout, and the drives that are its ranges.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Choice {
    /// Where elements sit.
    pub elements: Pairs,
    /// What is applied in each range, the forward ones first, then the backward one.
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

/// What is asked, and what a frame is opened with.
#[derive(Clone, Copy)]
pub(super) struct Around<'a> {
    pub ask: &'a LayoutAsk,
    pub class: &'a Class,
    /// All pairs.
    pub all: &'a [Pair],
    pub grid: &'a Grid,
    /// Least and greatest tooth ratio of each row.
    pub widest: &'a [[f64; 2]],
}

/// What is chosen, a range more in each.
struct Level {
    /// The drive that is tried next.
    next: usize,
    elements: Pairs,
    cells: Cells,
    region: Arc<Region>,
    /// How many goals there were.
    goals: usize,
}

/// Gives the ranges of a frame drives, in pieces.
pub(super) struct Chooser {
    frame: Frame,
    drives: Drives,
    /// The bounds of each ratio in each cell, as far as they are known.
    bounds: Vec<Vec<[f64; 2]>>,
    /// The cells in which each ratio can be that of the range whose candidates come next, as far as they are known.
    cells: Vec<Cells>,
    /// Those of each range.
    candidates: Vec<Vec<Candidate>>,
    /// Where the quotient of two ratios can be within the window of a step, or of the spread.
    quotients: BTreeMap<(usize, usize, bool), Cells>,
    quotients_in_boxes: Vec<Quotient>,
    levels: Vec<Level>,
    chosen: Vec<Drive>,
    goals: Vec<Goal>,
    /// What is left with ranges of these ratios.
    narrow: BTreeMap<Vec<usize>, Option<Arc<Region>>>,
    /// Each once for the same elements and ratios.
    told: BTreeSet<(Pairs, Vec<usize>)>,
    found: Vec<Choice>,
    /// How many drives were tried as ranges.
    tries: usize,
}

/// All choices for a frame, none where a range has no drive.
pub(super) struct Chosen {
    pub choices: Vec<Choice>,
    /// The ratios that choices name.
    pub ratios: Vec<Ratio>,
    /// Whether there are more choices than are gone through.
    pub gives_up: bool,
    /// Which ranges have a drive.
    pub reached: Vec<bool>,
}

/// Ratios whose bounds are found in a piece.
const RATIOS: usize = 256;
/// How much drives are tried in a piece, a simple try being one, and how much more it is to look up the cells of a quotient, or
/// to narrow a region by so many boxes.
const TRIES: usize = 4096;
const OF_A_QUOTIENT: usize = 8;
const A_BOX: usize = 4;

impl Chooser {
    pub(super) fn new(frame: Frame, drives: Drives) -> Self {
        Self {
            frame,
            drives,
            bounds: Vec::new(),
            cells: Vec::new(),
            candidates: Vec::new(),
            quotients: BTreeMap::new(),
            quotients_in_boxes: Vec::new(),
            levels: Vec::new(),
            chosen: Vec::new(),
            goals: Vec::new(),
            narrow: BTreeMap::new(),
            told: BTreeSet::new(),
            found: Vec::new(),
            tries: 0,
        }
    }

    /// Goes on for a piece; what was chosen, once nothing is left.
    pub(super) fn run(&mut self, around: Around<'_>) -> Option<Chosen> {
        let count = self.drives.ratios.len();
        let ranges = around.ask.forward.len() + usize::from(around.ask.backward.is_some());
        if self.bounds.len() < count {
            let next = self.drives.ratios.iter().skip(self.bounds.len());
            let next = next.take(RATIOS).map(|ratio| around.grid.bounds(ratio));
            self.bounds.extend(next);
        } else if self.candidates.len() < ranges {
            self.find_candidates(around);
        } else if self.candidates.iter().any(Vec::is_empty) {
            return Some(self.ends(false));
        } else if self.quotients_in_boxes.len() < count {
            let next = self
                .drives
                .ratios
                .iter()
                .skip(self.quotients_in_boxes.len());
            let next = next.take(RATIOS).map(|ratio| ratio.among(around.widest));
            self.quotients_in_boxes.extend(next);
        } else {
            if self.levels.is_empty() {
                self.levels.push(Level {
                    next: 0,
                    elements: 0,
                    cells: around.grid.all(),
                    region: Arc::new(Region::whole(around.widest)),
                    goals: 0,
                });
            }
            let mut work = 0;
            while work < TRIES {
                work += self.choose(around);
                let gives_up = self.tries >= limits::CHOICES;
                if gives_up || self.levels.is_empty() {
                    return Some(self.ends(gives_up));
                }
            }
        }
        None
    }

    fn ends(&mut self, gives_up: bool) -> Chosen {
        Chosen {
            choices: std::mem::take(&mut self.found),
            ratios: std::mem::take(&mut self.drives.ratios),
            gives_up,
            reached: self.candidates.iter().map(|own| !own.is_empty()).collect(),
        }
    }

    /// Goes on with the drives that can be the next range as far as their own ratio tells.
    fn find_candidates(&mut self, Around { ask, .. }: Around<'_>) {
        let range = self.candidates.len();
        let is_forward = range < ask.forward.len();
        let Some(wanted) = ask.forward.get(range).or(ask.backward.as_ref()) else {
            return;
        };
        let window = wanted.window(is_forward);
        let next = self.bounds.iter().skip(self.cells.len()).take(RATIOS);
        self.cells
            .extend(next.map(|bounds| Grid::within(bounds, window)));
        if self.cells.len() < self.bounds.len() {
            return;
        }
        let own = self.drives.drives.iter().filter_map(|&drive| {
            let is_allowed =
                ask.direct != Some(false) || !self.drives.ratios[drive.ratio].is_direct();
            let cells = self.cells[drive.ratio];
            (is_allowed && !cells.is_empty()).then_some(Candidate { drive, cells })
        });
        let own: Vec<Candidate> = own.collect();
        self.candidates.push(own);
        self.cells.clear();
    }

    /// Tries the next drive as the next range; how much work that was.
    fn choose(&mut self, around: Around<'_>) -> usize {
        let range = self.chosen.len();
        let is_last = range + 1 == self.candidates.len();
        let Some(level) = self.levels.last_mut() else {
            return 0;
        };
        let elements = level.elements;
        let candidate = self
            .candidates
            .get(range)
            .and_then(|own| own.get(level.next));
        let Some(Candidate { drive, cells: own }) = candidate else {
            let goals = level.goals;
            if range == self.candidates.len() {
                self.tell(around, elements);
            }
            self.levels.pop();
            self.chosen.pop();
            self.goals.truncate(goals);
            return 1;
        };
        level.next += 1;
        self.tries += 1;
        let (drive, with) = (*drive, elements | drive.pairs);
        let left = level.cells.both(own);
        let region = Arc::clone(&level.region);
        if self.tries >= limits::CHOICES
            || with.count_ones() as usize > around.class.elements
            || left.is_empty()
            || !may_sit(around, with)
            || !self.may_follow(around, drive)
        {
            return 1;
        }
        let left = left.both(&self.after(around.ask, drive));
        if left.is_empty() {
            return 1 + OF_A_QUOTIENT;
        }
        let (narrow, work) = self.narrowed(around.ask, &region, drive, is_last);
        if let Some(region) = narrow {
            let goals = self.goals.len();
            let new = self.goals_of(around.ask, drive);
            self.goals.extend(new);
            self.chosen.push(drive);
            self.levels.push(Level {
                next: 0,
                elements: with,
                cells: left,
                region,
                goals,
            });
        }
        1 + OF_A_QUOTIENT + work
    }

    /// What is left of a region with a drive as the next range, if anything, and how much work that was. Drives with the same
    /// ratios share it.
    fn narrowed(
        &mut self,
        ask: &LayoutAsk,
        region: &Region,
        drive: Drive,
        is_last: bool,
    ) -> (Option<Arc<Region>>, usize) {
        let mut ratios: Vec<usize> = self.chosen.iter().map(|drive| drive.ratio).collect();
        ratios.push(drive.ratio);
        if let Some(known) = self.narrow.get(&ratios) {
            return (known.clone(), 1);
        }
        let mut goals = self.goals.clone();
        let mut narrow = region.clone();
        let mut work = 0;
        for goal in self.goals_of(ask, drive) {
            goals.push(goal);
            let most = if is_last { MOST_BOXES } else { BOXES };
            work += A_BOX * most * goals.len();
            narrow = narrow.narrowed(&self.quotients_in_boxes, &goals, most);
        }
        let narrow = (!narrow.is_empty()).then(|| Arc::new(narrow));
        if self.narrow.len() >= MOST_KEPT {
            self.narrow.clear();
        }
        self.narrow.insert(ratios, narrow.clone());
        (narrow, work)
    }

    /// The forward range before the next one, if that is one.
    fn before(&self, ask: &LayoutAsk) -> Option<Drive> {
        let is_forward = self.chosen.len() < ask.forward.len();
        self.chosen.last().copied().filter(|_| is_forward)
    }

    /// Whether a drive is another one than those that are ranges already, and a single swap away from the one before, where it
    /// must be.
    fn may_follow(&self, around: Around<'_>, drive: Drive) -> bool {
        // What applies the same elements is the same range.
        if self.chosen.iter().any(|other| other.pairs == drive.pairs) {
            return false;
        }
        self.before(around.ask).is_none_or(|before| {
            let common = (before.pairs & drive.pairs).count_ones() as usize;
            !around.ask.single_swaps || common + 1 == around.class.applied
        })
    }

    /// What a drive must be as the next range.
    fn goals_of(&self, ask: &LayoutAsk, drive: Drive) -> Vec<Goal> {
        let range = self.chosen.len();
        let forward = ask.forward.len();
        let wanted = ask.forward.get(range).or(ask.backward.as_ref());
        let single = wanted.map(|wanted| Goal {
            ratio: drive.ratio,
            over: None,
            window: wanted.window(range < forward),
        });
        let step = self.before(ask).map(|before| Goal {
            ratio: before.ratio,
            over: Some(drive.ratio),
            window: step_window(ask),
        });
        let spread = spread_window(ask).filter(|_| range + 1 == forward);
        let spread = self.chosen.first().zip(spread).map(|(first, window)| Goal {
            ratio: first.ratio,
            over: Some(drive.ratio),
            window,
        });
        [single, step, spread].into_iter().flatten().collect()
    }

    /// The cells in which a drive can come after those that are chosen.
    fn after(&mut self, ask: &LayoutAsk, drive: Drive) -> Cells {
        let mut cells = Cells::ALL;
        if let Some(before) = self.before(ask) {
            let step = step_window(ask);
            cells = self.quotient(before.ratio, drive.ratio, false, step);
            if let Some(window) = spread_window(ask)
                && self.chosen.len() + 1 == ask.forward.len()
            {
                let first = self.chosen[0].ratio;
                cells = cells.both(&self.quotient(first, drive.ratio, true, window));
            }
        }
        cells
    }

    fn quotient(&mut self, above: usize, below: usize, spread: bool, window: [f64; 2]) -> Cells {
        let bounds = &self.bounds;
        let of = || Grid::quotient_within([&bounds[above], &bounds[below]], window);
        *self
            .quotients
            .entry((above, below, spread))
            .or_insert_with(of)
    }

    fn tell(&mut self, around: Around<'_>, elements: Pairs) {
        let Around {
            ask, class, all, ..
        } = around;
        let ratios: Vec<usize> = self.chosen.iter().map(|drive| drive.ratio).collect();
        let of = |at: &usize| &self.drives.ratios[*at];
        let forward = &ratios[..ask.forward.len()];
        if ask.direct == Some(true) && !forward.iter().any(|at| of(at).is_direct()) {
            return;
        }
        // A set that no ratio depends on is of no use.
        let rows = ratios.iter().fold(0, |rows, at| rows | of(at).rows);
        let mut used = vec![false; class.sets.len()];
        for (row, of) in class.rows.iter().enumerate() {
            used[of.set] |= rows >> row & 1 == 1;
        }
        if used.contains(&false) || self.told.contains(&(elements, ratios.clone())) {
            return;
        }
        let pairs: Vec<Pair> = super::frame::each(elements).map(|at| all[at]).collect();
        if !self.frame.is_joined(class, &pairs) || !self.frame.is_first(all, elements) {
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

fn step_window(ask: &LayoutAsk) -> [f64; 2] {
    ask.step.unwrap_or([1.0, f64::INFINITY])
}

fn spread_window(ask: &LayoutAsk) -> Option<[f64; 2]> {
    let spread = ask.spread?;
    Some([1.0 - spread.tolerance, 1.0 + spread.tolerance].map(|part| spread.value * part))
}

/// Whether there are no more clutches and brakes than asked for.
fn may_sit(Around { ask, all, .. }: Around<'_>, elements: Pairs) -> bool {
    let brakes = super::frame::each(elements).filter(|&at| all[at][0] == HOUSING);
    let brakes = u32::try_from(brakes.count()).unwrap_or(u32::MAX);
    let clutches = elements.count_ones() - brakes;
    let holds = |most: Option<u32>, count: u32| most.is_none_or(|most| count <= most);
    holds(ask.clutches, clutches) && holds(ask.brakes, brakes)
}
