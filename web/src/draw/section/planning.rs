//! The search for a good plan of a half-section, in steps: whoever waits for it can do other things
//! in between.
//!
//! The first plans come from shuffled orders of placing and joining everything (`draft.rs`). The
//! best is then bettered by taking some shafts and elements away and putting them back in another
//! order (`search.rs`). Where the train can be built round one axis that goes on longer until nothing
//! crosses; and where that comes to nothing it begins anew a few times, with other dice and more room. The dice
//! are the same every time.

use std::collections::VecDeque;

use levertrain_core::{Nesting, Train};

use super::dice::Dice;
use super::draft::Draft;
use super::plan::Plan;
use super::search::{Sketch, Task, ways_round};

/// Orders tried at first.
const ORDERS: usize = 12;
/// How many times as many rounds while shafts cross that need not, or more than one pair of those of
/// which some must.
const LONGER: usize = 10;
const LONGER_WHERE_SOME_MUST: usize = 3;
/// Rounds from letting a plan get worse to letting it get better only, and how much worse: at first, and once
/// that has come to nothing.
const COOLING: usize = 150;
const HEAT: u32 = 80;
const HIGH_HEAT: u32 = 250;
/// How many rows and columns the grid has to spare where a search begins anew: more, then as many as before.
const ROOMS: [usize; 3] = [2, 3, 1];

/// A plan that is being looked for.
#[derive(Debug)]
pub struct Planning {
    dice: Dice,
    /// As many crossings as are worth no longer search.
    fewest: usize,
    longer: usize,
    /// How many rows and columns the grid has to spare.
    room: usize,
    jobs: VecDeque<Job>,
    work: Option<Work>,
    /// The best plan of each way to put the sets in.
    sketches: Vec<Sketch>,
    /// How often the search has begun anew, and how often it may.
    begun: usize,
    times: usize,
    /// The best plan of those searches that have ended.
    best: Option<Sketch>,
}

#[derive(Debug)]
enum Job {
    /// Find a first plan, with these sets turned.
    First(Vec<bool>),
    /// Better one of the plans, so many times as long as usual.
    Better { at: usize, times: usize },
}

#[derive(Debug)]
enum Work {
    First(First),
    Better(Bettering),
}

/// The best of some orders.
#[derive(Debug)]
struct First {
    bare: Sketch,
    tasks: Vec<Task>,
    best: Option<Sketch>,
    order: usize,
}

/// Rounds of bettering one of the plans.
#[derive(Debug)]
pub struct Bettering {
    at: usize,
    all: Vec<Task>,
    current: Sketch,
    round: usize,
    times: usize,
    heat: u32,
}

impl Planning {
    /// Nothing done yet. Where shafts cross that need not, the search may begin anew so many times.
    pub fn of(train: &Train, times: usize) -> Self {
        // What cannot be built crosses once at least.
        let (fewest, longer) = match train.nesting() {
            Nesting::Nests => (0, LONGER),
            Nesting::Crosses | Nesting::Undecided => (1, LONGER_WHERE_SOME_MUST),
        };
        let mut planning = Self {
            dice: Dice::new(),
            fewest,
            longer,
            room: 0,
            jobs: VecDeque::new(),
            work: None,
            sketches: Vec::new(),
            begun: 0,
            times: if fewest == 0 { times } else { 0 },
            best: None,
        };
        planning.make_room(train);
        planning
    }

    /// Begins with other dice.
    fn begin_anew(&mut self, train: &Train) {
        self.room = ROOMS[self.begun % ROOMS.len()] - 1;
        self.begun += 1;
        self.make_room(train);
        self.dice = Dice::another(self.begun as u64);
    }

    /// Begins with a larger grid; in the end everything has room.
    fn make_room(&mut self, train: &Train) {
        self.room += 1;
        self.dice = Dice::new();
        self.sketches.clear();
        self.jobs = ways_round(train).into_iter().map(Job::First).collect();
    }

    /// Tries one more order; the plan, when nothing is left to try.
    pub fn advance(&mut self, train: &Train) -> Option<Plan> {
        match self.work.take() {
            Some(Work::First(mut first)) => {
                if first.try_one(train, &mut self.dice) {
                    self.work = Some(Work::First(first));
                    return None;
                }
                self.sketches.extend(first.best);
                if self.jobs.is_empty() {
                    let plans = 0..self.sketches.len();
                    let times = [1, self.longer].into_iter();
                    let jobs = times.flat_map(|times| {
                        let plans = plans.clone();
                        plans.map(move |at| Job::Better { at, times })
                    });
                    self.jobs.extend(jobs);
                }
            }
            Some(Work::Better(mut bettering)) => {
                let best = &mut self.sketches[bettering.at];
                if bettering.try_one(best, self.fewest, train, &mut self.dice) {
                    self.work = Some(Work::Better(bettering));
                    return None;
                }
            }
            None => {}
        }
        self.begin(train)
    }

    /// The best plan so far, once there is one.
    pub fn draft(&self) -> Option<&Sketch> {
        let all = self.sketches.iter().chain(&self.best);
        all.min_by_key(|sketch| sketch.cost)
    }

    /// Begins what is to be done next; the plan, when nothing is.
    fn begin(&mut self, train: &Train) -> Option<Plan> {
        let crosses = |sketch: &Sketch| sketch.crossings.len() > self.fewest;
        while let Some(job) = self.jobs.pop_front() {
            match job {
                Job::First(turned) => {
                    let bare = Sketch::bare(train, self.room, &turned);
                    self.work = Some(Work::First(First::of(bare)));
                }
                Job::Better { at, times } => {
                    if times > 1 && !self.sketches.iter().all(crosses) {
                        continue;
                    }
                    let mut bettering = Bettering::of(at, &self.sketches[at], times);
                    if self.begun > 0 {
                        bettering.heat = HIGH_HEAT;
                    }
                    self.work = Some(Work::Better(bettering));
                }
            }
            return None;
        }
        let all = self.sketches.drain(..).chain(self.best.take());
        self.best = all.min_by_key(|sketch| sketch.cost);
        let is_poor = |best: &Sketch| crosses(best) && best.is_small();
        if self.begun < self.times && self.best.as_ref().is_some_and(is_poor) {
            self.begin_anew(train);
            return None;
        }
        let plan = self.best.take().and_then(Sketch::whole);
        if plan.is_none() {
            self.make_room(train);
        }
        plan
    }
}

impl First {
    fn of(bare: Sketch) -> Self {
        Self {
            tasks: bare.tasks(),
            best: None,
            order: 0,
            bare,
        }
    }

    /// Tries one more order; `false` when enough were tried.
    fn try_one(&mut self, train: &Train, dice: &mut Dice) -> bool {
        if self.order == self.bare.rounds().min(ORDERS) {
            return false;
        }
        if self.order > 0 {
            dice.shuffle(&mut self.tasks);
        }
        self.order += 1;
        let best = self.best.as_ref();
        let dearest = best.map_or(u32::MAX, |best| best.cost.saturating_sub(1));
        let draft = Draft::without(&self.bare, train, self.bare.tolls(dice), |_| true);
        self.best = draft.finish(&self.tasks, dearest).or(self.best.take());
        true
    }
}

impl Bettering {
    /// Of the plan with this number among the best, so many times as long as usual.
    pub fn of(at: usize, best: &Sketch, times: usize) -> Self {
        Self {
            at,
            all: best.tasks(),
            current: best.clone(),
            round: 0,
            times,
            heat: HEAT,
        }
    }

    /// Betters the plan by one more round; `false` when it is done. The longer way ends where no
    /// more than `fewest` are left to cross.
    pub fn try_one(
        &mut self,
        best: &mut Sketch,
        fewest: usize,
        train: &Train,
        dice: &mut Dice,
    ) -> bool {
        let round = self.round % COOLING;
        let is_good = self.times > 1 && round == 0 && best.crossings.len() <= fewest;
        if is_good || self.round == best.rounds() * self.times {
            return false;
        }
        self.round += 1;
        let current = &self.current;
        let mut anew = current.taken_away(train, &self.all, dice);
        dice.shuffle(&mut anew);
        let tolls = current.tolls(dice);
        // Worse now and then, less and less, or there would be no way out of a corner.
        let heat = self.heat * (COOLING - round) as u32 / COOLING as u32;
        let mut worse = 0;
        while dice.below(2) == 0 {
            worse += heat;
        }
        let draft = Draft::without(current, train, tolls, |task| anew.contains(&task));
        let Some(plan) = draft.finish(&anew, current.cost + worse) else {
            return true;
        };
        if plan.cost < best.cost {
            best.clone_from(&plan);
        }
        self.current = plan;
        true
    }
}
