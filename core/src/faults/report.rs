//! Fault finding as plain data.

use levertrain_exact::Fraction;
use serde::Serialize;

use super::explain::Rank;
use super::{Does, Explanations, Fault, Faulty, Observed, Outcome, Search, Trial};
use crate::base::said::word;
use crate::base::short_sort::sort_short_by;
use crate::report::Exact;
use crate::solve::State;
use crate::solve::settle::Duty;
use crate::train::Train;
use crate::words::Words;

/// Most ratios that are offered to choose from.
const MOST_RATIOS: usize = 60;

/// What can be broken in a train, and what is tried.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Faults"))]
pub struct FaultsReport {
    /// All single faults; elsewhere they are told by their place here.
    pub faults: Vec<FaultReport>,
    /// What is tried, in order.
    pub trials: Vec<TrialReport>,
}

/// One fault.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Fault"))]
pub struct FaultReport {
    /// `will-not-apply`, `will-not-release`, `slips`, `does-not-hold`, `stays-locked` or `broken-spline`.
    #[cfg_attr(
        feature = "types",
        ts(
            type = "\"will-not-apply\" | \"will-not-release\" | \"slips\" | \"does-not-hold\" | \"stays-locked\" | \"broken-spline\""
        )
    )]
    pub kind: &'static str,
    /// Id of the element or of the set.
    pub id: String,
    /// What people call that.
    pub label: String,
    /// The member of the set, as a word; `null` for an element.
    pub member: Option<&'static str>,
}

/// A range that is tried.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Trial"))]
pub struct TrialReport {
    /// Its id; `null` for all clutches and brakes released.
    pub id: Option<String>,
    /// What people call it.
    pub label: Option<String>,
    /// Ids of what it applies.
    pub applied: Vec<String>,
    /// `drives`, `neutral`, `output-held`, `tied-up` or `undecided`.
    #[cfg_attr(
        feature = "types",
        ts(type = "\"drives\" | \"neutral\" | \"output-held\" | \"tied-up\" | \"undecided\"")
    )]
    pub does: &'static str,
    /// Input speed over output speed.
    pub ratio: Option<Exact>,
    /// Whether it holds the output back when the load drives.
    pub brakes: bool,
}

/// What a range becomes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Becomes"))]
pub struct BecomesReport {
    /// `right`, `no-engine-braking`, `engine-braking`, `lost`, `slips`, `drives`, `output-held`, `ties-up`
    /// or `undecided`.
    #[cfg_attr(
        feature = "types",
        ts(
            type = "\"right\" | \"no-engine-braking\" | \"engine-braking\" | \"lost\" | \"slips\" | \"drives\" | \"output-held\" | \"ties-up\" | \"undecided\""
        )
    )]
    pub outcome: &'static str,
    /// The ratio that it has and should not have.
    pub ratio: Option<Exact>,
    /// Label of the first range that has that ratio while nothing is broken.
    pub like: Option<String>,
    /// Why it no longer drives, or drives otherwise: sentences.
    pub why: Vec<String>,
}

/// What explains what was observed.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "Explanations"))]
pub struct ExplanationsReport {
    /// Fewest faults first.
    pub groups: Vec<GroupReport>,
    /// What to try next; `null` where nothing tells them apart.
    pub next: Option<NextTestReport>,
    /// Of each trial the ratios that it may be found to have and should not, longest first.
    pub ratios: Vec<Vec<Exact>>,
}

/// Faults that no range tells apart.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "FaultGroup"))]
pub struct GroupReport {
    /// `single`, `both`, or `beside` for two faults of which one explains everything alone.
    #[cfg_attr(feature = "types", ts(type = "\"single\" | \"both\" | \"beside\""))]
    pub rank: &'static str,
    /// The faults of each, by their places in the list of all.
    pub sets: Vec<Vec<usize>>,
}

/// The range to try next.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "types", derive(ts_rs::TS))]
#[cfg_attr(feature = "types", ts(rename = "NextTest"))]
pub struct NextTestReport {
    /// Its place among the trials.
    pub trial: usize,
    /// How many explanations it is asked about.
    pub of: usize,
    /// How many of them will be left in the mean.
    pub left: f64,
    /// The most that can be left.
    pub most: usize,
}

impl FaultsReport {
    /// Lists what a search is about.
    pub fn of(search: &Search) -> Self {
        let train = search.train();
        let faults = search.faults().iter();
        let trials = search.trials().iter();
        Self {
            faults: faults.map(|&fault| FaultReport::of(train, fault)).collect(),
            trials: trials.map(|trial| TrialReport::of(train, trial)).collect(),
        }
    }
}

impl FaultReport {
    fn of(train: &Train, fault: Fault) -> Self {
        let scenario = train.scenario();
        let (id, label, member) = match fault {
            Fault::BrokenSpline(coupling, member) => {
                let facts = scenario.couplings[coupling].facts();
                let role = facts.members()[member].role;
                (facts.id(), facts.label(), Some(role.word()))
            }
            Fault::WillNotApply(element)
            | Fault::WillNotRelease(element)
            | Fault::Slips(element)
            | Fault::DoesNotHold(element)
            | Fault::StaysLocked(element) => {
                let element = &scenario.elements[element];
                (element.id(), element.label(), None)
            }
        };
        Self {
            kind: fault.key(),
            id: id.to_owned(),
            label: label.to_owned(),
            member,
        }
    }
}

impl TrialReport {
    fn of(train: &Train, trial: &Trial) -> Self {
        let scenario = train.scenario();
        let range = trial.range.map(|range| &scenario.ranges[range]);
        let (does, ratio) = match &trial.healthy.does {
            Does::Drives(ratio) => ("drives", Some(ratio)),
            Does::Neutral => ("neutral", None),
            Does::OutputHeld => ("output-held", None),
            Does::TiedUp => ("tied-up", None),
            Does::Undecided => ("undecided", None),
        };
        let applied = trial.applied.iter();
        Self {
            id: range.map(|range| range.id.clone()),
            label: range.map(|range| range.label.clone()),
            applied: applied
                .map(|element| scenario.elements[element].id().to_owned())
                .collect(),
            does,
            ratio: ratio.map(Exact::from),
            brakes: trial.healthy.brakes,
        }
    }
}

impl BecomesReport {
    /// What these faults make of every trial.
    pub fn all(search: &Search, faults: &[Fault]) -> Vec<Self> {
        let faulty = Faulty::new(search.train(), faults);
        let trials = search.trials().iter();
        trials
            .map(|trial| Self::of(search, &faulty, trial))
            .collect()
    }

    fn of(search: &Search, faulty: &Faulty, trial: &Trial) -> Self {
        let outcome = faulty.outcome(trial);
        // What slips, or brakes the engine, is no state of its own that there would be a reason for.
        let has_reason = matches!(
            outcome,
            Outcome::Lost | Outcome::OutputHeld | Outcome::TiedUp | Outcome::Drives(_)
        );
        let why = has_reason.then(|| {
            let applied = faulty.applied(trial.applied);
            let combination = faulty.train().settle(applied, Duty::Drive).combination;
            if outcome == Outcome::TiedUp && *combination.state() != State::TiedUp {
                // It is only the way they lock that ties it up, which is no state of the equations.
                return vec![word("fault-one-ways-lock").to_owned()];
            }
            Words::of(&combination).sentences
        });
        Self {
            outcome: outcome.key(),
            ratio: outcome.ratio().map(Exact::from),
            like: like(search, &outcome),
            why: why.unwrap_or_default(),
        }
    }
}

/// The first range that has a ratio while nothing is broken.
fn like(search: &Search, outcome: &Outcome) -> Option<String> {
    let ratio = outcome.ratio()?;
    let trials = search.trials().iter();
    let mut named = trials.filter_map(|trial| Some((trial.range?, &trial.healthy.does)));
    let found = named.find(|(_, does)| matches!(does, Does::Drives(own) if own == ratio));
    found.map(|(range, _)| search.train().scenario().ranges[range].label.clone())
}

impl ExplanationsReport {
    /// What is known yet of what explains what was observed.
    pub fn of(search: &Search, observed: &[Option<Observed>]) -> Self {
        let Explanations { groups, next } = Explanations::of(search, observed);
        let place = |fault: &Fault| search.faults().iter().position(|known| known == fault);
        let groups = groups.iter().map(|group| GroupReport {
            rank: match group.rank {
                Rank::Single => "single",
                Rank::Both => "both",
                Rank::Beside => "beside",
            },
            sets: group
                .sets
                .iter()
                .map(|set| set.iter().filter_map(place).collect())
                .collect(),
        });
        let next = next.map(|next| NextTestReport {
            trial: next.trial,
            of: next.of,
            left: next.left(),
            most: next.most,
        });
        Self {
            groups: groups.collect(),
            next,
            ratios: ratios(search, observed),
        }
    }
}

/// The other ratios that may be found where a trial is tried next, or was, by whatever explains all the
/// other observations; none where they are too many to choose from.
fn ratios(search: &Search, observed: &[Option<Observed>]) -> Vec<Vec<Exact>> {
    let of_trial = |trial: usize| {
        let mut others = observed.to_vec();
        if let Some(own) = others.get_mut(trial) {
            *own = None;
        }
        let mut ratios: Vec<&Fraction> = Vec::new();
        for candidate in search.explaining(&others) {
            let outcome = search.outcome(candidate, trial);
            if let Some(ratio) = outcome.and_then(Outcome::ratio)
                && !ratios.contains(&ratio)
            {
                ratios.push(ratio);
            }
            if ratios.len() > MOST_RATIOS {
                return Vec::new();
            }
        }
        sort_short_by(&mut ratios, |one, other| other.cmp(one));
        ratios.into_iter().map(Exact::from).collect()
    };
    (0..search.trials().len()).map(of_trial).collect()
}
