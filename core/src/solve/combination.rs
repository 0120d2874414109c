//! What one combination of applied elements does, decided exactly.

use std::cell::OnceCell;
use std::mem::ManuallyDrop;

pub use levertrain_exact::State;
use levertrain_exact::{Fraction, Motions, Speeds, Terms, Turning, Visited, Walk};

use crate::base::element_set::ElementSet;
use crate::model::coupling::PinionSpin;
use crate::solve::fight::Fight;
use crate::solve::settle::Duty;
use crate::train::{Body, Train, speed_terms};

/// One combination of applied elements, narrowed and classified; its speeds are read from it.
///
/// Speeds are per input turn: exact fractions, positive in the input's direction, `None` where
/// the combination leaves them undetermined (the member floats). Where the train is tied up
/// the input rests, and a speed is zero or undetermined.
#[derive(Debug, Clone)]
pub struct Combination<'a> {
    train: &'a Train,
    applied: ElementSet,
    surplus: usize,
    /// Decided when somebody asks.
    state: OnceCell<State>,
    held: Held<'a>,
}

/// What a combination is read from: its own, or lent by a walk over all combinations.
#[derive(Debug, Clone)]
enum Held<'a> {
    Own(Turning),
    Lent(&'a Turning),
}

impl<'a> Combination<'a> {
    /// The train.
    pub fn train(&self) -> &'a Train {
        self.train
    }

    /// The applied elements.
    pub fn applied(&self) -> ElementSet {
        self.applied
    }

    /// What the combination makes of the train.
    pub fn state(&self) -> &State {
        self.state
            .get_or_init(|| State::of(self.turning(), self.train.output(), self.surplus))
    }

    /// How many speeds could be chosen independently; 1 when the input decides everything.
    pub fn degrees_of_freedom(&self) -> usize {
        self.turning().degrees_of_freedom()
    }

    /// How many applied elements take away no freedom.
    pub fn surplus(&self) -> usize {
        self.surplus
    }

    /// Speed of a shaft.
    pub fn shaft_speed(&self, shaft: usize) -> Option<Fraction> {
        self.turning().speed(shaft)
    }

    /// The speed of every shaft, written over what `into` held: the quickest way to all of them.
    /// How many of them are determined is returned.
    // Inline for the walk, as `Combination::turning`.
    #[inline(always)]
    pub fn shaft_speeds(&self, into: &mut Speeds) -> usize {
        self.turning().speeds(into)
    }

    // Always inline, like whatever each of the 2ⁿ combinations of a walk goes through: this crate
    // may be compiled for size, which would call for a mere reference.
    #[inline(always)]
    fn turning(&self) -> &Turning {
        match &self.held {
            Held::Own(turning) => turning,
            Held::Lent(turning) => turning,
        }
    }

    /// Speed of a shaft, or zero for the housing.
    pub fn body_speed(&self, body: Body) -> Option<Fraction> {
        match body {
            Body::Housing => Some(Fraction::ZERO),
            Body::Shaft(shaft) => self.shaft_speed(shaft),
        }
    }

    /// Whether the speed of a body is determined.
    pub(crate) fn determines(&self, body: Body) -> bool {
        match body {
            Body::Housing => true,
            Body::Shaft(shaft) => self.turning().determines(shaft),
        }
    }

    /// How fast a body turns seen from another: the `f64` nearest to the difference, where that is
    /// determined.
    pub(crate) fn speed_seen_from(&self, other: Body, body: Body) -> Option<f64> {
        let turning = self.turning();
        match (body, other) {
            (Body::Shaft(body), Body::Shaft(other)) => turning.nearest(&[(body, 1), (other, -1)]),
            (Body::Shaft(body), Body::Housing) => turning.nearest(&[(body, 1)]),
            (Body::Housing, Body::Shaft(other)) => turning.nearest(&[(other, -1)]),
            (Body::Housing, Body::Housing) => Some(0.0),
        }
    }

    /// Speed difference across an element, first end minus second; zero when it is applied.
    pub fn slip(&self, element: usize) -> Option<Fraction> {
        self.turning().value(self.train.slip_terms(element))
    }

    /// Speed of a pinion of coupling `coupling` about its own pin.
    pub fn pinion_spin(&self, coupling: usize, pinion: &PinionSpin) -> Option<Fraction> {
        let bodies = self.train.members(coupling).iter().copied();
        self.weighted_speed(bodies.zip(pinion.coefficients.iter().copied()))?
            .over(&Fraction::from(pinion.divisor))
    }

    /// A sum of speeds, each times a factor.
    pub(crate) fn weighted_speed(
        &self,
        parts: impl IntoIterator<Item = (Body, i64)>,
    ) -> Option<Fraction> {
        self.turning().value(&speed_terms(parts))
    }

    /// Whether the input can turn with these expressions of shaft speeds at zero as well.
    pub(crate) fn turns_with(&self, zeros: &[Terms]) -> bool {
        let mut turning = self.turning().clone();
        for terms in zeros {
            if let Some(narrower) = turning.constrained(terms) {
                turning = narrower;
            }
        }
        turning.input_can_turn()
    }

    /// The applied elements each of which could be released alone without changing anything.
    pub fn releasable(&self) -> ElementSet {
        if self.surplus == 0 {
            return ElementSet::NONE;
        }
        let unchanged = |&element: &usize| {
            let (motions, _) = narrowed(
                self.train.coupled(),
                self.train,
                self.applied.without(element),
            );
            motions.degrees_of_freedom() == self.degrees_of_freedom()
        };
        self.applied.iter().filter(unchanged).collect()
    }

    /// For a tied-up train, a smallest set of applied elements and couplings that fights.
    pub fn fight(&self) -> Option<Fight> {
        (*self.state() == State::TiedUp)
            .then(|| Fight::find(self.train, self.applied, self.train.input()))
    }

    /// Where the output is held, a smallest set of applied elements and couplings that holds it.
    pub fn hold(&self) -> Option<Fight> {
        (*self.state() == State::OutputHeld)
            .then(|| Fight::find(self.train, self.applied, self.train.output()))
    }

    /// The shafts whose speeds `shaft` alone decides, with those speeds per its turn, where all
    /// others can rest meanwhile; `None` where it cannot turn without one of the others.
    pub(crate) fn alone_with(&self, shaft: usize) -> Option<Vec<(usize, Fraction)>> {
        let (motions, _) = narrowed(self.train.coupled(), self.train, self.applied);
        let mut turning = motions.turning(shaft);
        let mut with = Vec::new();
        let mut others = Vec::new();
        for other in 0..self.train.scenario().shafts.len() {
            match turning.speed(other) {
                Some(speed) if speed.signum() != 0 => with.push((other, speed)),
                _ => others.push(other),
            }
        }
        for other in others {
            if let Some(narrower) = turning.constrained(&vec![(other, 1)]) {
                turning = narrower;
            }
        }
        turning.input_can_turn().then_some(with)
    }
}

/// Narrows `motions` by each element of `applied`; the number of elements that changed nothing
/// comes with it.
pub(crate) fn narrowed(motions: &Motions, train: &Train, applied: ElementSet) -> (Motions, usize) {
    let mut motions = motions.clone();
    let mut surplus = 0;
    for element in applied.iter() {
        match motions.constrained(train.slip_terms(element)) {
            Some(narrower) => motions = narrower,
            None => surplus += 1,
        }
    }
    (motions, surplus)
}

impl Train {
    /// Solves one combination.
    ///
    /// Equations: every mesh row of every coupling, and ω(first) − ω(second) = 0 across every
    /// applied element, the housing at rest. Rank and consistency are decided by exact
    /// elimination (see the notes in `levertrain_exact`), so there is no tolerance. Indices in `applied`
    /// beyond the train's elements are ignored.
    pub fn solve(&self, applied: ElementSet) -> Combination<'_> {
        let known: ElementSet = (0..self.scenario().elements.len())
            .filter(|&x| applied.contains(x))
            .collect();
        let slips = known.iter().map(|element| self.slip_terms(element));
        let (turning, surplus) = self.turning().narrowed(slips);
        Combination {
            train: self,
            applied: known,
            surplus,
            state: OnceCell::new(),
            held: Held::Own(turning),
        }
    }

    /// Speeds of all shafts per input turn in one motion that the combination allows.
    ///
    /// Where it leaves speeds undecided, the output and then each shaft in the scenario's order
    /// is taken to stand still as far as the equations allow. A drawing needs *some* consistent
    /// motion to show; which members are in truth free is what [`Combination::shaft_speed`] says.
    pub fn illustrate(&self, applied: ElementSet) -> Vec<Fraction> {
        let (motions, _) = narrowed(self.coupled(), self, applied);
        let mut turning = motions.turning(self.input());
        let shafts = 0..self.scenario().shafts.len();
        for shaft in std::iter::once(self.output()).chain(shafts.clone()) {
            // A shaft whose speed is decided keeps it: only undecided ones are put to rest, which
            // cannot stop the input.
            if turning.speed(shaft).is_none()
                && let Some(narrower) = turning.constrained(&vec![(shaft, 1)])
            {
                turning = narrower;
            }
        }
        shafts
            .map(|shaft| turning.speed(shaft).unwrap_or(Fraction::ZERO))
            .collect()
    }

    /// Visits all 2ⁿ combinations of the n elements, in ascending order of their bits.
    ///
    /// They share nearly all their work: see [`Walk`]. Each is lent for its visit; one
    /// to be kept is solved again by itself.
    ///
    /// One-way clutches lock and overrun by themselves: a train that has some is settled for
    /// drive, combination by combination, of the elements that can be applied.
    // Inline, so that the walk is, too: see `Walk::all`.
    #[inline(always)]
    pub fn for_each_combination(&self, mut visit: impl FnMut(&Combination<'_>)) {
        if self.one_ways().is_empty() {
            self.walk().all(|applied, visited| {
                self.lend(ElementSet::from_bits(applied), visited, &mut visit);
            });
        } else {
            self.for_each_settled(&mut visit);
        }
    }

    /// Reads the speed of every shaft in every combination, `times` over: how many of them are determined, in all.
    /// The work of a benchmark that compares engines, here so that all compile it alike, and for speed.
    pub fn count_determined(&self, times: usize) -> usize {
        let mut determined = 0;
        let mut speeds = Speeds::default();
        for _ in 0..times {
            self.for_each_combination(|combination| {
                determined += combination.shaft_speeds(&mut speeds);
            });
        }
        determined
    }

    /// Visits combinations in the order given, each settled for a duty as [`Train::settle`] does.
    ///
    /// They share work, and each is lent, as in [`Train::for_each_combination`].
    pub fn for_each_of(
        &self,
        sets: impl IntoIterator<Item = ElementSet>,
        duty: Duty,
        mut visit: impl FnMut(&Combination<'_>),
    ) {
        if self.one_ways().is_empty() {
            let mut walk = self.walk();
            for applied in sets {
                self.lend(applied, walk.to(applied.bits()), &mut visit);
            }
        } else {
            for applied in sets {
                visit(&self.settle(applied, duty).combination);
            }
        }
    }

    fn walk(&self) -> Walk<'_> {
        Walk::new(self.turning(), self.slips())
    }

    /// Lends a combination for a visit. It owns no more than what it is found to do; asking for all else to
    /// drop would take a twentieth of the walk over all combinations.
    // Inline for the walk, as `Combination::turning`.
    #[inline(always)]
    fn lend(
        &self,
        applied: ElementSet,
        visited: Visited<'_>,
        visit: &mut impl FnMut(&Combination<'_>),
    ) {
        let mut lent = ManuallyDrop::new(Combination {
            train: self,
            applied,
            surplus: visited.surplus,
            state: OnceCell::new(),
            held: Held::Lent(visited.motions),
        });
        visit(&lent);
        lent.state.take();
    }

    /// As [`Train::for_each_combination`] of a train with one-way clutches.
    // A call, because its speed does not hang on it, and what it does is long, and downloaded.
    #[inline(never)]
    fn for_each_settled(&self, visit: &mut dyn FnMut(&Combination<'_>)) {
        let one_ways = self.one_ways();
        let all = (0..1_u32 << self.scenario().elements.len()).map(ElementSet::from_bits);
        for applied in all.filter(|set| one_ways.iter().all(|index| !set.contains(index))) {
            visit(&self.settle(applied, Duty::Drive).combination);
        }
    }
}
