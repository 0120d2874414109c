//! How long a search for layouts takes, before it is made.
//!
//! Frames are drawn by dice, each member joined to one of the bodies that it can be joined to, and gone through as the search
//! would. The mean over the draws of the product of how many ways there were is how many frames there are (D. E. Knuth,
//! Estimating the efficiency of backtrack programs, Math. Comp. 29, 1975), and the mean time of those that were gone
//! through, each counted by that product, the time of one.
//!
//! So that one frame does not take all the time there is, only some of its choices are looked at, each for as many as it stands
//! for; and where teeth are looked for in ever more boxes, a coin decides after each doubling whether that is given up, and what
//! goes on counts twice. Neither changes the mean. The search looks for teeth for the same ratios once; this does so for those of
//! one frame. A few frames and a few ratios take most of the time, and a short sample meets few of those: what is told is an order
//! of magnitude.

use std::collections::BTreeMap;

use super::frame::Frame;
use super::search::{BOXES, LayoutSearch, Work};
use crate::base::dice::Dice;

/// How much there is to do.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LayoutEstimate {
    /// About how many ways of joining the sets there are.
    pub frames: f64,
    /// About how many seconds all of them take, in one thread.
    pub seconds: f64,
}

/// Goes through some of a search, for as long as its caller likes. It knows no clock: it is told what each piece took.
pub struct LayoutForecast {
    /// With nothing of its own to go through.
    search: LayoutSearch,
    dice: Dice,
    draws: f64,
    /// The sum over all draws of how many frames they stand for.
    frames: f64,
    /// What is looked at of its choices, the first last, and how many each stands for.
    choices: Vec<(Work, f64)>,
    /// How many the last piece stands for, and how many the frame, or each of its choices.
    counts: f64,
    weight: f64,
    /// Steps that the teeth of a choice have taken, and those after which the coin decides.
    steps: u32,
    until: u32,
    /// How many all stand for that were gone through, or are, and the seconds of those.
    sampled: f64,
    seconds: f64,
}

/// Draws by which it is told how many frames there are.
const DRAWS: usize = 3000;
/// How many ratios of the choices of a frame are looked at, and how many choices of the same ratios besides the first.
const RATIOS: usize = 3;
const OTHERS: usize = 2;
/// Steps that the teeth of a choice may take before the coin decides for the first time.
const FIRST_STEPS: u32 = 500 / BOXES as u32;
/// So many draws without a frame, and there are hardly any.
const MOST_DRAWS: usize = 20_000;

impl LayoutForecast {
    pub(super) fn new(search: LayoutSearch) -> Self {
        let mut forecast = Self {
            search,
            dice: Dice::new(1),
            draws: 0.0,
            frames: 0.0,
            choices: Vec::new(),
            counts: 0.0,
            weight: 0.0,
            steps: 0,
            until: FIRST_STEPS,
            sampled: 0.0,
            seconds: 0.0,
        };
        for _ in 0..DRAWS {
            forecast.draw();
        }
        forecast
    }

    /// Goes on for a piece, mostly of some milliseconds; false where there is nothing to go through.
    pub fn run(&mut self) -> bool {
        if self.search.is_looking_for_teeth() {
            self.look_further();
        } else if let Some((work, weight)) = self.choices.pop() {
            (self.steps, self.until) = (0, FIRST_STEPS);
            (self.counts, self.weight) = (weight, weight);
            self.search.choices.push(work);
            self.search.run(1);
        } else if !self.search.frames.is_empty() {
            self.counts = self.weight;
            self.search.run(1);
            if self.search.frames.is_empty() {
                self.sample();
            }
        } else {
            self.counts = 0.0;
            let drawn = (0..MOST_DRAWS).find_map(|_| self.draw());
            let Some((frame, weight)) = drawn else {
                return false;
            };
            self.search.frames.push(frame);
            self.weight = weight;
            self.sampled += weight;
        }
        true
    }

    /// Takes some of the choices of a frame: of some ratios, the first, for which teeth are looked for, and some of the others,
    /// for which they are then known.
    fn sample(&mut self) {
        let mut alike: BTreeMap<_, Vec<Work>> = BTreeMap::new();
        for work in self.search.choices.drain(..) {
            alike.entry(work.ratios.clone()).or_default().push(work);
        }
        let ratios = alike.len();
        let some = self.dice.some(alike.into_values().collect(), RATIOS);
        let each = self.weight * ratios as f64 / some.len().max(1) as f64;
        for mut works in some {
            let first = works.pop();
            let others = works.len();
            let works = self.dice.some(works, OTHERS);
            let weight = each * others as f64 / works.len().max(1) as f64;
            self.choices
                .extend(works.into_iter().map(|work| (work, weight)));
            self.choices.extend(first.map(|work| (work, each)));
        }
    }

    /// Goes on with the teeth of a choice, unless the coin says otherwise.
    fn look_further(&mut self) {
        if self.steps == self.until {
            if self.dice.below(2) == 0 {
                self.search.give_up();
                self.counts = 0.0;
                return;
            }
            self.until *= 2;
            self.counts *= 2.0;
        } else if self.steps == 0 {
            self.counts = self.weight;
        }
        self.steps += 1;
        self.search.run(1);
    }

    /// What the last piece took.
    pub fn took(&mut self, seconds: f64) {
        self.seconds += self.counts * seconds;
    }

    /// What is known so far: of all shards together.
    pub fn estimate(&self) -> LayoutEstimate {
        let frames = self.frames / self.draws.max(1.0);
        let each = self.seconds / self.sampled.max(f64::MIN_POSITIVE);
        LayoutEstimate {
            frames,
            seconds: frames * each,
        }
    }

    /// One draw: a frame, and how many it stands for.
    fn draw(&mut self) -> Option<(Frame, f64)> {
        self.draws += 1.0;
        let class = &self.search.class;
        let (mut bodies, mut ways) = (Vec::new(), 1.0);
        while !class.is_whole(&bodies) {
            let mut next = class.next(&bodies);
            ways *= next.len() as f64;
            bodies.push(self.dice.take(&mut next)?);
        }
        let frame = class.frame(&bodies)?;
        self.frames += ways;
        Some((frame, ways))
    }
}
