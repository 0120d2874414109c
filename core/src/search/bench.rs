//! Teeth for many trains of the same sets: what they have in common is worked out once.

use std::sync::Arc;

use super::Search;
use super::ask::{Ask, Criterion, Limits, Wanted};
use super::checks::no_cuts;
use super::cuts::{Cut, of_counts};
use super::goals::{Goal, Goals};
use super::measures::{Find, Maker, WantedRange};
use super::quotient::{Place, Quotient, Variable};
use super::stock::{Planting, Stocking, are_alike};
use super::tree::Tree;
use super::walk::{Ground, ONE_BY_ONE};
use crate::base::problem::Problem;
use crate::model::coupling::{Coupling, SetTeeth};
use crate::model::scenario::Scenario;
use crate::teach::working::Term;
use crate::train::Train;

/// The tooth counts of some kinds of sets, and what is asked of all trains but for their ratios.
pub(crate) struct Bench {
    ask: Ask,
    /// Least and greatest step, where that is wanted.
    step: Option<[f64; 2]>,
    kinds: Vec<(Coupling, Arc<Tree>)>,
}

/// The best teeth for a train, which are as good for every other one with the same ratios.
pub(crate) struct Fit {
    goals: Goals,
    /// Which sets were looked for.
    sets: Vec<usize>,
    limits: Limits,
    /// Least efficiency of each range, where there is a limit to it alone.
    efficiencies: Vec<Option<f64>>,
    find: Find,
    /// Whether nothing was left untried.
    pub ended: bool,
}

/// A bench that is being set up, in pieces.
pub(crate) struct BenchPreparation {
    ask: Ask,
    step: Option<[f64; 2]>,
    /// A set of each kind.
    sets: Vec<Coupling>,
    stocking: Stocking,
    /// Once all tooth counts are listed.
    planting: Option<Planting>,
}

impl BenchPreparation {
    /// For sets of these kinds.
    pub(crate) fn new(sets: &[Coupling], ask: Ask, step: Option<[f64; 2]>) -> Self {
        let mut kinds: Vec<Coupling> = Vec::new();
        for set in sets {
            if !kinds.iter().any(|known| are_alike(known, set)) {
                kinds.push(set.clone());
            }
        }
        let all: Vec<usize> = (0..kinds.len()).collect();
        Self {
            stocking: Stocking::new(&kinds, &all, |_| false, &ask),
            planting: None,
            sets: kinds,
            ask,
            step,
        }
    }

    /// Goes on for a piece; the bench, once it is set up.
    ///
    /// # Errors
    /// A kind has no tooth counts within the bounds, or too many.
    pub(crate) fn run(&mut self) -> Result<Option<Bench>, Vec<Problem>> {
        if let Some(planting) = &mut self.planting {
            return Ok(planting.run().map(|trees| {
                let kinds = trees.into_iter();
                let kinds = kinds.map(|(set, tree)| (self.sets[set].clone(), tree));
                Bench {
                    ask: self.ask.clone(),
                    step: self.step,
                    kinds: kinds.collect(),
                }
            }));
        }
        match self.stocking.run() {
            None => Ok(None),
            Some(Ok(stocks)) => {
                self.planting = Some(Planting::new(stocks));
                Ok(None)
            }
            Some(Err(wrong)) => {
                let word = |set: usize| self.sets[set].facts().kind_words();
                let wrong = wrong.into_iter();
                Err(wrong.map(|(set, why)| no_cuts(why, word(set))).collect())
            }
        }
    }
}

impl Bench {
    /// Least and greatest tooth ratio of each row of a set.
    pub(crate) fn widest(&self, set: &Coupling) -> Vec<[f64; 2]> {
        let rows = set.facts().row_ratios().len();
        let trunk = self.tree(set).map(|tree| tree.branches[0].k);
        trunk.map_or_else(Vec::new, |k| k[..rows].to_vec())
    }

    fn tree(&self, set: &Coupling) -> Option<&Arc<Tree>> {
        let mut kinds = self.kinds.iter();
        let known = kinds.find(|(known, _)| are_alike(known, set));
        known.map(|(_, tree)| tree)
    }

    /// The search for the teeth of a train whose ranges have these ratios, forwards or not; nothing where none can have what
    /// is wanted of them.
    pub(crate) fn search(
        &self,
        scenario: &Scenario,
        ratios: &[Polynomials<'_>],
        wanted: Vec<Wanted>,
        forwards: &[bool],
    ) -> Option<Search> {
        let efficiencies = efficiencies(&wanted);
        let goals = self.goals(wanted, forwards);
        // The set with the most cuts comes first: it is the one that candidates are tried along.
        let mut sets: Vec<usize> = (0..scenario.couplings.len()).collect();
        let cuts = |set: usize| self.tree(&scenario.couplings[set]);
        sets.sort_by_key(|&set| std::cmp::Reverse(cuts(set).map_or(0, |tree| tree.cuts.len())));
        let trees = sets.iter().map(|&set| cuts(set).cloned());
        let trees: Vec<Arc<Tree>> = trees.collect::<Option<_>>()?;
        let mut rows = Vec::new();
        for set in 0..scenario.couplings.len() {
            let place = sets.iter().position(|&other| other == set)?;
            rows.extend((0..trees[place].rows).map(|row| Variable { set: place, row }));
        }
        let widest = |variable: Variable| trees[variable.set].branches[0].k[variable.row];
        let quotients = ratios.iter().map(|ratio| quotient(ratio, &rows, widest));
        let ground = Ground {
            quotients: quotients.collect(),
            trees,
            goals,
            alike: Vec::new(),
            maker: maker(scenario.clone(), sets, self.ask.limits, &efficiencies)?,
            one_by_one: ONE_BY_ONE,
        };
        let widest = ground.widest();
        ground
            .may_hold(&widest)
            .then(|| Search::over(Arc::new(ground), widest))
    }
}

impl Bench {
    fn goals(&self, wanted: Vec<Wanted>, forwards: &[bool]) -> Goals {
        let ask = Ask {
            wanted,
            ..self.ask.clone()
        };
        let mut goals = Goals::new(&ask, forwards, &mut Vec::new());
        if let Some(window) = self.step {
            let steps = goals.steps.ranges.windows(2).map(|two| Goal {
                powers: vec![(two[0], 1), (two[1], -1)],
                wanted: None,
                window,
            });
            goals.all.extend(steps.collect::<Vec<_>>());
        }
        goals
    }

    /// A train with these teeth, and how good it is; nothing where it keeps not all that is asked for.
    pub(crate) fn with_teeth(
        &self,
        scenario: &Scenario,
        teeth: &[SetTeeth],
        wanted: Vec<Wanted>,
        forwards: &[bool],
    ) -> Option<(Scenario, Find)> {
        let cuts = scenario.couplings.iter().map(|coupling| {
            let own = teeth
                .iter()
                .find(|told| told.set == coupling.facts().id())?;
            Some(of_counts(coupling, &own.teeth, own.pinions))
        });
        let cuts: Vec<Cut> = cuts.collect::<Option<_>>()?;
        let sets = (0..scenario.couplings.len()).collect();
        let efficiencies = efficiencies(&wanted);
        let maker = maker(scenario.clone(), sets, self.ask.limits, &efficiencies)?;
        let find = maker.find(&cuts, &self.goals(wanted, forwards))?;
        Some((maker.scenario(&find.cuts), find))
    }
}

/// A ratio in the tooth ratios of all mesh rows, in their order: coefficients above and below the line, where bit i of a
/// place says that the tooth ratio of row i is a factor.
pub(crate) struct Polynomials<'a> {
    pub above: &'a [i64],
    pub below: &'a [i64],
}

impl Polynomials<'_> {
    /// As a quotient for boxes of the tooth ratios of all rows, which are between these.
    pub(crate) fn among(&self, widest: &[[f64; 2]]) -> Quotient {
        let rows: Vec<Variable> = (0..widest.len())
            .map(|set| Variable { set, row: 0 })
            .collect();
        quotient(self, &rows, |variable| widest[variable.set])
    }
}

fn quotient(
    ratio: &Polynomials<'_>,
    rows: &[Variable],
    widest: impl Fn(Variable) -> [f64; 2],
) -> Quotient {
    let terms = |sum: &[i64]| -> Vec<Term> {
        let all = sum.iter().enumerate().filter(|(_, value)| **value != 0);
        // There are few rows, so that a place is a small number.
        all.map(|(place, &value)| (place as u32, value)).collect()
    };
    let both = [terms(ratio.above), terms(ratio.below)];
    let used = both
        .iter()
        .flatten()
        .fold(0, |used, (place, _)| used | place);
    let is_used = |row: usize| used >> row & 1 == 1;
    let mut variables: Vec<Variable> = rows
        .iter()
        .enumerate()
        .filter(|(row, _)| is_used(*row))
        .map(|(_, variable)| *variable)
        .collect();
    variables.sort_by_key(|variable| (variable.set, variable.row));
    let places = rows.iter().map(|row| {
        let at = variables.iter().position(|variable| variable == row);
        // What is not used stands nowhere.
        at.map_or(Place::Fixed(1.0), Place::Variable)
    });
    let places: Vec<Place> = places.collect();
    Quotient::new([&both[0], &both[1]], &places, variables, widest)
}

fn efficiencies(wanted: &[Wanted]) -> Vec<Option<f64>> {
    wanted.iter().map(|wanted| wanted.efficiency).collect()
}

/// What measures trains in all of their ranges.
fn maker(
    scenario: Scenario,
    sets: Vec<usize>,
    limits: Limits,
    efficiencies: &[Option<f64>],
) -> Option<Maker> {
    let train = Train::new(scenario.clone()).ok()?;
    let ranges = (0..scenario.ranges.len()).map(|range| {
        let applied = train.range(range);
        WantedRange {
            applied,
            locked: applied,
            efficiency: efficiencies.get(range).copied().flatten(),
        }
    });
    Some(Maker {
        ranges: ranges.collect(),
        scenario,
        sets,
        limits,
        best: vec![Criterion::Error],
    })
}

impl Fit {
    /// The best that a search has found, if anything.
    pub(crate) fn of(search: Search, ended: bool) -> Option<Self> {
        Some(Self {
            find: search.finds().into_iter().next()?,
            goals: search.ground.goals.clone(),
            sets: search.ground.maker.sets.clone(),
            limits: search.ground.maker.limits,
            efficiencies: search
                .ground
                .maker
                .ranges
                .iter()
                .map(|range| range.efficiency)
                .collect(),
            ended,
        })
    }

    /// Another train of the same ratios with these teeth, and how good it is; all its ranges are those that ratios are
    /// wanted for. Nothing where it keeps not all that was asked for.
    pub(crate) fn apply(&self, scenario: &Scenario) -> Option<(Scenario, Find)> {
        let maker = maker(
            scenario.clone(),
            self.sets.clone(),
            self.limits,
            &self.efficiencies,
        )?;
        let find = maker.find(&self.find.cuts, &self.goals)?;
        Some((maker.scenario(&find.cuts), find))
    }
}
