//! What is asked of a train, from its checks to what a search goes through.

use std::sync::Arc;

use super::ask::Ask;
use super::checks;
use super::contradictions;
use super::cutting::NoCuts;
use super::goals::Goals;
use super::limits;
use super::measures::{Maker, WantedRange};
use super::quotient::{Place, Quotient, Variable};
use super::stock::{Stock, Stocking};
use super::tree::Tree;
use super::walk::{Alike, Ground, ONE_BY_ONE};
use crate::base::problem::Problem;
use crate::model::coupling::Symbol;
use crate::model::scenario::Scenario;
use crate::teach::working::{NoFormula, ToothQuotient, quotient};
use crate::train::Train;

/// What is asked of a train, checked as far as that goes without tooth counts.
pub(super) struct Asked {
    scenario: Scenario,
    ask: Ask,
    ranges: Vec<WantedRange>,
    groups: Vec<Alike>,
    quotients: Vec<ToothQuotient>,
    goals: Goals,
    /// The sets that are looked for.
    sets: Vec<usize>,
    /// Of each mesh row its set and its number there.
    rows: Vec<Variable>,
}

impl Asked {
    /// Checks what is asked.
    pub(super) fn new(train: &Train, ask: &Ask) -> Result<Self, Vec<Problem>> {
        let mut problems = checks::bounds(ask);
        let ranges = checks::wanted_ranges(train, ask, &mut problems);
        let keep = checks::sets_named(train, &ask.keep, "keep", &mut problems);
        let groups = checks::groups(train, ask, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let Some((quotients, forwards)) = ratios(train, ask, &ranges, &mut problems) else {
            return Err(problems);
        };
        let goals = Goals::new(ask, &forwards, &mut problems);
        if !problems.is_empty() {
            return Err(problems);
        }
        let (sets, rows) = sets_that_matter(train, &quotients, &keep, &groups);
        if sets.is_empty() || sets.len() > limits::SETS {
            let found = &*sets.len().to_string();
            let most = &*limits::SETS.to_string();
            return Err(vec![Problem::of(
                "keep",
                ("problem-ask-sets", &[("found", found)]),
                ("fix-ask-sets", &[("most", most)]),
            )]);
        }
        Ok(Self {
            scenario: train.scenario().clone(),
            ask: ask.clone(),
            ranges,
            groups,
            quotients,
            goals,
            sets,
            rows,
        })
    }

    /// Begins with listing the tooth counts of its sets.
    pub(super) fn stocking(&self) -> Stocking {
        let is_grouped = |set: usize| {
            let mut groups = self.groups.iter();
            groups.any(|group| group.sets.len() > 1 && group.sets.contains(&set))
        };
        Stocking::new(&self.scenario.couplings, &self.sets, is_grouped, &self.ask)
    }

    /// That some sets have no tooth counts, or too many.
    pub(super) fn without_cuts(&self, wrong: &[(usize, NoCuts)]) -> Vec<Problem> {
        let label = |set: usize| self.scenario.couplings[set].facts().label();
        let wrong = wrong.iter();
        wrong
            .map(|&(set, why)| checks::no_cuts(why, label(set)))
            .collect()
    }

    /// Leaves of all tooth counts those whose sizes the other sets of their groups can have, too.
    pub(super) fn keep_alike(&self, stocks: &mut [Stock]) -> Result<(), Vec<Problem>> {
        let mut problems = Vec::new();
        let couplings = &self.scenario.couplings;
        contradictions::of_sizes(couplings, &self.groups, stocks, &mut problems);
        match problems.is_empty() {
            true => Ok(()),
            false => Err(problems),
        }
    }

    /// Gathers what the search needs, with the trees of all sets.
    pub(super) fn ground(
        &self,
        mut found: Vec<(usize, Arc<Tree>)>,
    ) -> Result<Ground, Vec<Problem>> {
        // The set with the most cuts comes first: it is the one that candidates are tried along.
        found.sort_unstable_by_key(|(set, tree)| (std::cmp::Reverse(tree.cuts.len()), *set));
        let (sets, trees): (Vec<usize>, Vec<_>) = found.into_iter().unzip();
        let place_of = |set: usize| sets.iter().position(|&other| other == set);
        let alike = self.groups.iter().map(|group| Alike {
            size: group.size,
            sets: group.sets.iter().filter_map(|&set| place_of(set)).collect(),
        });
        let alike: Vec<Alike> = alike.filter(|group| group.sets.len() > 1).collect();
        let quotients = self
            .quotients
            .iter()
            .map(|quotient| self.in_doubles(quotient, &sets, &trees))
            .collect::<Option<Vec<_>>>();
        let Some(quotients) = quotients else {
            let most = &*limits::RATIOS.to_string();
            return Err(vec![Problem::of(
                "wanted",
                ("problem-ask-ratios", &[]),
                ("fix-ask-ratios", &[("most", most)]),
            )]);
        };
        let ground = Ground {
            trees,
            quotients,
            goals: self.goals.clone(),
            alike,
            maker: Maker {
                scenario: self.scenario.clone(),
                sets,
                ranges: self.ranges.clone(),
                limits: self.ask.limits,
                best: self.ask.best.clone(),
            },
            one_by_one: ONE_BY_ONE,
        };
        let mut problems = Vec::new();
        contradictions::unreachable(&self.scenario, &self.ask, &ground, &mut problems);
        if problems.is_empty() {
            problems.extend(contradictions::of_ratios(
                &self.scenario,
                &self.ask,
                &ground,
            ));
        }
        match problems.is_empty() {
            true => Ok(ground),
            false => Err(problems),
        }
    }

    /// A ratio in doubles; nothing where it depends on too many tooth ratios.
    fn in_doubles(
        &self,
        quotient: &ToothQuotient,
        sets: &[usize],
        trees: &[Arc<Tree>],
    ) -> Option<Quotient> {
        let rows = &self.rows;
        let terms = || quotient.numerator.iter().chain(&quotient.denominator);
        let used = terms().fold(0, |all, (rows, _)| all | rows);
        let looked_for = |row: &Variable| sets.iter().position(|&set| set == row.set);
        let is_used = |bit: usize| used >> bit & 1 == 1;
        // In the order of the sets, so that the last ones can be put in first.
        let mut variables: Vec<Variable> = rows
            .iter()
            .enumerate()
            .filter(|(bit, _)| is_used(*bit))
            .filter_map(|(_, row)| {
                let set = looked_for(row)?;
                Some(Variable { set, row: row.row })
            })
            .collect();
        variables.sort_by_key(|variable| (variable.set, variable.row));
        let places: Vec<Place> = rows
            .iter()
            .map(|row| match looked_for(row) {
                None => Place::Fixed(present_ratio(&self.scenario, *row)),
                Some(set) => {
                    let wanted = Variable { set, row: row.row };
                    let at = variables.iter().position(|variable| *variable == wanted);
                    // One that is not used stands nowhere.
                    at.map_or(Place::Fixed(1.0), Place::Variable)
                }
            })
            .collect();
        if variables.len() > limits::RATIOS {
            return None;
        }
        let both = [&quotient.numerator[..], &quotient.denominator[..]];
        let widest = |variable: Variable| trees[variable.set].branches[0].k[variable.row];
        Some(Quotient::new(both, &places, variables, widest))
    }
}

/// The ratio of each wanted range, and whether it drives forwards with the teeth that the train has.
fn ratios(
    train: &Train,
    ask: &Ask,
    ranges: &[WantedRange],
    problems: &mut Vec<Problem>,
) -> Option<(Vec<ToothQuotient>, Vec<bool>)> {
    let (mut quotients, mut forwards) = (Vec::new(), Vec::new());
    for (at, range) in ranges.iter().enumerate() {
        let combination = train.solve(range.locked);
        let ratio = combination.state().ratio();
        forwards.push(ratio.is_some_and(|ratio| ratio.signum() > 0));
        match quotient(&combination) {
            Ok(quotient) => quotients.push(quotient),
            Err(why) => {
                let problem = match why {
                    NoFormula::NoRatio => "problem-ask-no-ratio",
                    NoFormula::OnlyTheseTeeth => "problem-ask-only-these",
                    NoFormula::TooLong => "problem-ask-too-long",
                };
                let place = format!("wanted[{at}]");
                let values = [("range", &*ask.wanted[at].range)];
                problems.push(checks::note(
                    &place,
                    (problem, &values),
                    "fix-ask-leave-out",
                ));
            }
        }
    }
    problems.is_empty().then_some((quotients, forwards))
}

/// The sets that are looked for, and of each row its set and its number there.
fn sets_that_matter(
    train: &Train,
    quotients: &[ToothQuotient],
    keep: &[usize],
    groups: &[Alike],
) -> (Vec<usize>, Vec<Variable>) {
    let mut rows = Vec::new();
    for (set, coupling) in train.scenario().couplings.iter().enumerate() {
        let count = coupling.facts().row_ratios().len();
        rows.extend((0..count).map(|row| Variable { set, row }));
    }
    let used = quotients
        .iter()
        .flat_map(|q| q.numerator.iter().chain(&q.denominator));
    let used = used.fold(0, |all, (rows, _)| all | rows);
    let matters = |set: usize| {
        let own = rows.iter().enumerate().filter(|(_, row)| row.set == set);
        own.map(|(bit, _)| bit).any(|bit| used >> bit & 1 == 1)
    };
    let in_group = |set: usize| groups.iter().any(|group| group.sets.contains(&set));
    let sets = (0..train.scenario().couplings.len())
        .filter(|set| !keep.contains(set) && (matters(*set) || in_group(*set)))
        .collect();
    (sets, rows)
}

/// The tooth ratio that a row has.
fn present_ratio(scenario: &Scenario, row: Variable) -> f64 {
    let coupling = &scenario.couplings[row.set];
    let ratio = &coupling.facts().row_ratios()[row.row];
    let product = |symbols: &[Symbol]| -> f64 {
        symbols
            .iter()
            .map(|(_, teeth)| f64::from(teeth.get()))
            .product()
    };
    product(&ratio.numerator) / product(&ratio.denominator)
}
