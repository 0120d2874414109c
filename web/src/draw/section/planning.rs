//! The search for a good plan of a half-section, in steps: whoever waits for it can do other things
//! in between.
//!
//! The first plans come from shuffled orders of placing and joining everything (`draft.rs`). The
//! best is then bettered by taking some shafts and elements away and putting them back in another
//! order (`search.rs`). Where the train can be built round one axis that goes on longer until nothing
//! crosses; and where that comes to nothing it is drawn after an embedding (`nested`). The dice are the same every
//! time.

use std::collections::VecDeque;
use std::sync::OnceLock;
use std::task::Poll;

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
/// Rounds from letting a plan get worse to letting it get better only, and how much worse.
const COOLING: usize = 150;
const HEAT: u32 = 80;
/// How many embeddings are tried.
const EMBEDDINGS: usize = 40;
/// How many times as many rounds a plan gets that was drawn after one: it may go a long way round.
const FAIRER: usize = 4;

/// A plan that is being looked for.
#[derive(Debug)]
pub struct Planning {
    dice: Dice,
    /// As many crossings as are worth no longer search.
    fewest: usize,
    longer: usize,
    /// Whether it is drawn after an embedding where nothing else comes to no crossing.
    nests: bool,
    /// How many rows and columns the grid has to spare.
    room: usize,
    jobs: VecDeque<Job>,
    work: Option<Work>,
    /// The best plan of each way to put the sets in; last, one that was drawn after an embedding.
    sketches: Vec<Sketch>,
}

#[derive(Debug)]
enum Job {
    /// Find a first plan, with these sets turned.
    First(Vec<bool>),
    /// Better one of the plans, so many times as long as usual.
    Better { at: usize, times: Times },
    /// Draw one after an embedding, and so many others where that finds no room.
    Nest(usize),
}

/// How many times as many rounds as usual.
#[derive(Debug, Clone, Copy)]
pub enum Times {
    Exactly(usize),
    /// At most, while more than need to cross.
    UpTo(usize),
}

#[derive(Debug)]
enum Work {
    First(First),
    Better(Bettering),
    Nest(Box<dyn Nest>, usize),
}

/// What draws a plan without crossings, step by step: after the last the plan, if there was room.
pub trait Nest: std::fmt::Debug {
    /// Takes one more step.
    fn advance(&mut self, dice: &mut Dice) -> Poll<Option<Sketch>>;
}

/// Begins to draw a plan without crossings.
pub type BeginNest = fn(&Train, &mut Dice) -> Option<Box<dyn Nest>>;

/// How that is begun, where this engine knows how: the one that a page opens with goes without.
pub static BEGIN_NEST: OnceLock<BeginNest> = OnceLock::new();

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
    times: Times,
}

impl Planning {
    /// Nothing done yet; somebody waits for it.
    pub fn of(train: &Train) -> Self {
        // What cannot be built crosses once at least.
        let (fewest, longer) = match train.nesting() {
            Nesting::Nests => (0, LONGER),
            Nesting::Crosses | Nesting::Undecided => (1, LONGER_WHERE_SOME_MUST),
        };
        let mut planning = Self {
            dice: Dice::new(),
            fewest,
            longer,
            nests: false,
            room: 0,
            jobs: VecDeque::new(),
            work: None,
            sketches: Vec::new(),
        };
        planning.make_room(train);
        planning
    }

    /// Nothing done yet; nobody waits, so that it may be drawn after an embedding in the end.
    pub fn unhurried(train: &Train) -> Self {
        let mut planning = Self::of(train);
        planning.nests = planning.fewest == 0;
        planning
    }

    /// Nothing but what is drawn after an embedding.
    pub fn nesting(train: &Train) -> Self {
        let mut planning = Self::of(train);
        planning.jobs = VecDeque::from([Job::Nest(EMBEDDINGS)]);
        planning
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
                    let times = [Times::Exactly(1), Times::UpTo(self.longer)].into_iter();
                    let jobs = times.flat_map(|times| {
                        let plans = plans.clone();
                        plans.map(move |at| Job::Better { at, times })
                    });
                    self.jobs.extend(jobs);
                    if self.nests {
                        self.jobs.push_back(Job::Nest(EMBEDDINGS));
                    }
                }
            }
            Some(Work::Better(mut bettering)) => {
                let best = &mut self.sketches[bettering.at];
                if bettering.try_one(best, self.fewest, train, &mut self.dice) {
                    self.work = Some(Work::Better(bettering));
                    return None;
                }
            }
            Some(Work::Nest(mut nest, left)) => match nest.advance(&mut self.dice) {
                Poll::Pending => {
                    self.work = Some(Work::Nest(nest, left));
                    return None;
                }
                Poll::Ready(None) => self.jobs.push_front(Job::Nest(left)),
                Poll::Ready(Some(sketch)) => {
                    let (at, times) = (self.sketches.len(), Times::Exactly(FAIRER));
                    self.sketches.push(sketch);
                    self.jobs.push_front(Job::Better { at, times });
                }
            },
            None => {}
        }
        self.begin(train)
    }

    /// The best plan so far, once there is one.
    pub fn draft(&self) -> Option<&Sketch> {
        self.sketches.iter().min_by_key(|sketch| sketch.badness())
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
                    let is_more = matches!(times, Times::UpTo(_));
                    if is_more && !self.sketches.iter().all(crosses) {
                        continue;
                    }
                    let bettering = Bettering::of(at, &self.sketches[at], times);
                    self.work = Some(Work::Better(bettering));
                }
                Job::Nest(left) => {
                    let begin = BEGIN_NEST.get().filter(|_| left > 0);
                    let Some(begin) = begin.filter(|_| self.sketches.iter().all(crosses)) else {
                        continue;
                    };
                    match begin(train, &mut self.dice) {
                        Some(nest) => self.work = Some(Work::Nest(nest, left - 1)),
                        // Perhaps in another way round.
                        None => self.jobs.push_front(Job::Nest(left - 1)),
                    }
                }
            }
            return None;
        }
        let all = self.sketches.drain(..);
        let best = all.min_by_key(Sketch::badness);
        let plan = best.and_then(Sketch::whole);
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
    pub fn of(at: usize, best: &Sketch, times: Times) -> Self {
        Self {
            at,
            all: best.tasks(),
            current: best.clone(),
            round: 0,
            times,
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
        let is_good = round == 0 && best.crossings.len() <= fewest;
        let (is_enough, times) = match self.times {
            Times::Exactly(times) => (false, times),
            Times::UpTo(times) => (is_good, times),
        };
        if is_enough || self.round == best.rounds() * times {
            return false;
        }
        self.round += 1;
        let current = &self.current;
        let mut anew = current.taken_away(train, &self.all, dice);
        dice.shuffle(&mut anew);
        let tolls = current.tolls(dice);
        // Worse now and then, less and less, or there would be no way out of a corner.
        let heat = HEAT * (COOLING - round) as u32 / COOLING as u32;
        let mut worse = 0;
        while dice.below(2) == 0 {
            worse += heat;
        }
        let draft = Draft::without(current, train, tolls, |task| anew.contains(&task));
        let Some(plan) = draft.finish(&anew, current.cost + worse) else {
            return true;
        };
        if plan.badness() < best.badness() {
            best.clone_from(&plan);
        }
        self.current = plan;
        true
    }
}
