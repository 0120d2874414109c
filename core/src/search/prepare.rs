//! From what is asked of a train to what a search goes through: the checks of what is asked, in full, before
//! any time is spent.

use std::sync::Arc;

use super::ask::{Ask, is_count, is_range};
use super::contradictions;
use super::cutting::NoCuts;
use super::goals::Goals;
use super::limits;
use super::measures::{Maker, WantedRange};
use super::quotient::{Place, Quotient, Variable};
use super::stock::{Stock, Stocking};
use super::tree::Tree;
use super::walk::{Alike, Ground, ONE_BY_ONE, Size};
use crate::base::number::number;
use crate::base::problem::Problem;
use crate::model::coupling::{Coupling, Symbol};
use crate::model::scenario::Scenario;
use crate::solve::settle::Duty;
use crate::teach::working::{NoFormula, ToothQuotient, quotient};
use crate::train::{Train, unknown};

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
        let mut problems = bounds(ask);
        let ranges = wanted_ranges(train, ask, &mut problems);
        let keep = sets_named(train, &ask.keep, "keep", &mut problems);
        let groups = groups(train, ask, &mut problems);
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
        wrong.map(|&(set, why)| no_cuts(why, label(set))).collect()
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
        unreachable(&self.scenario, &self.ask, &ground, &mut problems);
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

/// Says that a set has no tooth counts, or too many.
pub(super) fn no_cuts(why: NoCuts, label: &str) -> Problem {
    let values = [("label", label)];
    let (what, fix) = match why {
        NoCuts::None => ("problem-ask-no-cuts", "fix-ask-no-cuts"),
        NoCuts::TooMany => ("problem-ask-many-cuts", "fix-ask-many-cuts"),
    };
    note("teeth", (what, &values), fix)
}

fn note(place: &str, what: (&str, &[(&str, &str)]), fix: &str) -> Problem {
    Problem::of(place, what, (fix, &[]))
}

/// Checks what needs no train.
fn bounds(ask: &Ask) -> Vec<Problem> {
    let mut problems = numbers(ask);
    if ask.wanted.is_empty() {
        problems.push(note(
            "wanted",
            ("problem-ask-nothing", &[]),
            "fix-ask-nothing",
        ));
    }
    if ask.best.is_empty() {
        problems.push(note("best", ("problem-ask-best", &[]), "fix-ask-best"));
    }
    problems
}

/// Checks the bounds on teeth and pinions, and the limits.
fn numbers(ask: &Ask) -> Vec<Problem> {
    let mut problems = Vec::new();
    let ends = [limits::FEWEST, limits::MOST].map(|end| end.to_string());
    for (place, range) in [("teeth", ask.teeth), ("pinion_teeth", ask.pinion_teeth)] {
        if !is_range(range) {
            let [least, most] = range.map(|end| end.to_string());
            problems.push(Problem::of(
                place,
                ("problem-ask-teeth", &[("least", &least), ("most", &most)]),
                ("fix-ask-teeth", &[("least", &ends[0]), ("most", &ends[1])]),
            ));
        }
    }
    if ask.pinions.is_empty() || !ask.pinions.iter().all(|&count| is_count(count)) {
        let most = &*limits::PINION_COUNTS.end().to_string();
        problems.push(Problem::of(
            "pinions",
            ("problem-ask-pinions", &[]),
            ("fix-ask-pinions", &[("most", most)]),
        ));
    }
    let limits = [
        (
            "limits.pinion_speed",
            ask.limits.pinion_speed,
            (0.0, 1000.0),
        ),
        ("limits.open_speed", ask.limits.open_speed, (0.0, 1000.0)),
        ("limits.efficiency", ask.limits.efficiency, (0.0, 1.0)),
    ];
    let limits = limits.map(|(place, value, ends)| (place.to_owned(), value, ends));
    let of_ranges = ask.wanted.iter().enumerate().map(|(at, wanted)| {
        let place = format!("wanted[{at}].efficiency");
        (place, wanted.efficiency, (0.0, 1.0))
    });
    for (place, value, (least, most)) in limits.into_iter().chain(of_ranges) {
        if let Some(value) = value.filter(|value| !(least..=most).contains(value)) {
            problems.push(Problem::out_of_range(
                &place,
                "problem-out-of-range",
                value,
                least,
                most,
            ));
        }
    }
    problems
}

impl Ask {
    /// Every problem of the bounds on teeth and pinions, and of the limits.
    pub(crate) fn numbers(&self) -> Vec<Problem> {
        numbers(self)
    }
}

/// The ranges for which something is wanted, each once.
fn wanted_ranges(train: &Train, ask: &Ask, problems: &mut Vec<Problem>) -> Vec<WantedRange> {
    let ranges = &train.scenario().ranges;
    let mut found = Vec::new();
    for (at, wanted) in ask.wanted.iter().enumerate() {
        let place = format!("wanted[{at}].range");
        if ask.wanted[..at]
            .iter()
            .any(|other| other.range == wanted.range)
        {
            let values = [("id", &*wanted.range)];
            problems.push(note(
                &place,
                ("problem-named-twice", &values),
                "fix-ask-twice",
            ));
        }
        match ranges.iter().position(|range| range.id == wanted.range) {
            Some(range) => {
                let applied = train.range(range);
                let locked = train.settle(applied, Duty::Drive).combination.applied();
                found.push(WantedRange {
                    applied,
                    locked,
                    efficiency: wanted.efficiency,
                });
            }
            None => {
                let ids = ranges.iter().map(|range| range.id.as_str());
                problems.push(unknown("range", &place, &wanted.range, ids));
            }
        }
    }
    found
}

fn sets_named(train: &Train, ids: &[String], place: &str, to: &mut Vec<Problem>) -> Vec<usize> {
    let couplings = &train.scenario().couplings;
    let mut found = Vec::new();
    for (at, id) in ids.iter().enumerate() {
        match couplings.iter().position(|set| set.facts().id() == id) {
            Some(set) => found.push(set),
            None => {
                let known = couplings.iter().map(|set| set.facts().id());
                to.push(unknown("coupling", &format!("{place}[{at}]"), id, known));
            }
        }
    }
    found
}

/// The groups of sets that must be alike in something, by their place in the scenario.
fn groups(train: &Train, ask: &Ask, problems: &mut Vec<Problem>) -> Vec<Alike> {
    let couplings = &train.scenario().couplings;
    let rings = ask.same_ring.iter().map(|ids| (Size::Ring, ids));
    let distances = ask.same_distance.iter().map(|ids| (Size::Distance, ids));
    let mut all = Vec::new();
    for (size, ids) in rings.chain(distances) {
        let field = match size {
            Size::Ring => "same_ring",
            Size::Distance => "same_distance",
        };
        let at = all
            .iter()
            .filter(|group: &&Alike| group.size == size)
            .count();
        let place = format!("{field}[{at}]");
        let sets = sets_named(train, ids, &place, problems);
        for &set in &sets {
            let is_pair = matches!(couplings[set], Coupling::GearPair(_));
            let (fits, what, fix) = match size {
                Size::Ring => (
                    has_ring(&couplings[set]),
                    "problem-ask-no-ring",
                    "fix-ask-no-ring",
                ),
                Size::Distance => (is_pair, "problem-ask-no-pair", "fix-ask-no-ring"),
            };
            if !fits {
                let id = couplings[set].facts().id();
                problems.push(note(&place, (what, &[("id", id)]), fix));
            }
        }
        all.push(Alike { size, sets });
    }
    all
}

fn has_ring(coupling: &Coupling) -> bool {
    !matches!(coupling, Coupling::SteppedSuns(_) | Coupling::GearPair(_))
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
                problems.push(note(&place, (problem, &values), "fix-ask-leave-out"));
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

/// Notes each goal that no candidate can reach, with what they can.
fn unreachable(scenario: &Scenario, ask: &Ask, ground: &Ground, problems: &mut Vec<Problem>) {
    let widest = ground.widest();
    for goal in &ground.goals.all {
        let ([low, high], [least, most]) = (goal.bounds(&widest.bounds), goal.wider());
        if low <= most && least <= high {
            continue;
        }
        let [low, high] = [low, high].map(|end| number(end, 4));
        let wanted = number(goal.wanted.unwrap_or(goal.window[0]), 4);
        let [(at, 1)] = goal.powers[..] else {
            let values = [("wanted", &*wanted), ("least", &low), ("most", &high)];
            problems.push(note(
                "spread",
                ("problem-ask-spread", &values),
                "fix-ask-unreachable",
            ));
            continue;
        };
        let range = ask.wanted[at].range.as_str();
        let label = scenario.ranges.iter().find(|known| known.id == range);
        // One that does not depend on teeth has nothing in between.
        let fix = match low == high {
            true => "fix-ask-fixed",
            false => "fix-ask-unreachable",
        };
        let values = [
            ("range", label.map_or(range, |range| &range.label)),
            ("wanted", &*wanted),
            ("least", &low),
            ("most", &high),
        ];
        problems.push(Problem::of(
            &format!("wanted[{at}].ratio"),
            ("problem-ask-unreachable", &values),
            (fix, &[]),
        ));
    }
}
