//! Every speed as an exact linear combination of those that are given.

use levertrain_exact::{Fraction, Motions};

use crate::base::element_set::ElementSet;
use crate::solve::narrowed;
use crate::train::Train;

/// Speeds that decide others, and how.
///
/// Equations: the mesh rows of all couplings and ω(first) = ω(second) across every applied element, solved by exact
/// elimination: what depends on what is never a matter of a tolerance. Speeds may be in any unit, all in the same.
#[derive(Debug, Clone, PartialEq)]
pub struct Speeds {
    freedom: usize,
    given: Vec<usize>,
    ties: Vec<Tie>,
    shafts: Vec<Option<Vec<Fraction>>>,
}

/// A wanted speed that cannot be given beside those before it: they decide it already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Tie {
    /// The shaft.
    pub shaft: usize,
    /// The given shafts that decide it, none of which could be left out; none where it is held at rest.
    pub by: Vec<usize>,
}

impl Speeds {
    /// Takes the speeds of these shafts as given, one after the other as long as each can still be chosen freely.
    ///
    /// Every shaft is to be an index of the train's shafts; one named again is tied to itself.
    pub fn of(train: &Train, applied: ElementSet, wanted: &[usize]) -> Self {
        let (motions, _) = narrowed(train.coupled(), train, applied);
        let mut given: Vec<usize> = Vec::new();
        let mut tied = Vec::new();
        let mut left = motions.clone();
        for &shaft in wanted {
            match left.constrained(&vec![(shaft, 1)]) {
                Some(narrower) => {
                    left = narrower;
                    given.push(shaft);
                }
                None => tied.push(shaft),
            }
        }
        let count = train.scenario().shafts.len();
        let shafts = coefficients(&motions, &left, &given, count);
        let tie = |shaft: usize| {
            let own = shafts[shaft].iter().flatten().zip(&given);
            let by = own.filter(|(factor, _)| !factor.is_zero());
            Tie {
                shaft,
                by: by.map(|(_, &shaft)| shaft).collect(),
            }
        };
        Self {
            freedom: motions.degrees_of_freedom(),
            ties: tied.into_iter().map(tie).collect(),
            given,
            shafts,
        }
    }

    /// How many speeds can be chosen independently.
    pub fn freedom(&self) -> usize {
        self.freedom
    }

    /// The shafts whose speeds are given, in the order wanted.
    pub fn given(&self) -> &[usize] {
        &self.given
    }

    /// The wanted shafts that are decided by given ones before them.
    pub fn ties(&self) -> &[Tie] {
        &self.ties
    }

    /// How many more speeds could be chosen.
    pub fn missing(&self) -> usize {
        self.freedom - self.given.len()
    }

    /// The factor of each given speed in the speed of a shaft; `None` where they leave it free.
    pub fn shaft(&self, shaft: usize) -> Option<&[Fraction]> {
        self.shafts[shaft].as_deref()
    }

    /// The shafts that the given speeds leave free.
    pub fn free(&self) -> impl Iterator<Item = usize> + '_ {
        let shafts = self.shafts.iter().enumerate();
        shafts.filter(|(_, own)| own.is_none()).map(|(at, _)| at)
    }

    /// The speed of a shaft at these speeds of the given ones; `None` where it is free.
    pub fn at(&self, shaft: usize, given: &[f64]) -> Option<f64> {
        let own = self.shaft(shaft)?.iter().zip(given);
        Some(own.map(|(factor, speed)| factor.to_f64() * speed).sum())
    }
}

/// Of each shaft its speed while one given shaft makes a turn and the others rest, for each of them; `left` are
/// the motions in which all of them rest.
fn coefficients(
    motions: &Motions,
    left: &Motions,
    given: &[usize],
    count: usize,
) -> Vec<Option<Vec<Fraction>>> {
    let speeds: Vec<_> = (0..count).map(|shaft| vec![(shaft, 1)]).collect();
    let idle = left.values(&speeds);
    let is_free = |shaft: usize| idle.iter().any(|motion| !motion[shaft].is_zero());
    let mut shafts: Vec<Option<Vec<Fraction>>> = (0..count)
        .map(|shaft| (!is_free(shaft)).then(Vec::new))
        .collect();
    for &turned in given {
        let mut alone = motions.clone();
        for &other in given.iter().filter(|&&other| other != turned) {
            alone = alone.constrained(&vec![(other, 1)]).unwrap_or(alone);
        }
        let turning = alone.turning(turned);
        for (shaft, own) in shafts.iter_mut().enumerate() {
            if let (Some(own), Some(speed)) = (own, turning.speed(shaft)) {
                own.push(speed);
            }
        }
    }
    shafts
}
