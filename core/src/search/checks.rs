//! The checks of what is asked, in full, before any time is spent.

use super::ask::{Ask, is_count, is_range};
use super::cutting::NoCuts;
use super::limits;
use super::measures::WantedRange;
use super::walk::{Alike, Size};
use crate::base::problem::Problem;
use crate::model::coupling::Coupling;
use crate::solve::settle::Duty;
use crate::train::{Train, unknown};

/// Says that a set has no tooth counts, or too many.
pub(super) fn no_cuts(why: NoCuts, label: &str) -> Problem {
    let values = [("label", label)];
    let (what, fix) = match why {
        NoCuts::None => ("problem-ask-no-cuts", "fix-ask-no-cuts"),
        NoCuts::TooMany => ("problem-ask-many-cuts", "fix-ask-many-cuts"),
    };
    note("teeth", (what, &values), fix)
}

/// A problem whose fix names nothing.
pub(super) fn note(place: &str, what: (&str, &[(&str, &str)]), fix: &str) -> Problem {
    Problem::of(place, what, (fix, &[]))
}

/// Checks what needs no train.
pub(super) fn bounds(ask: &Ask) -> Vec<Problem> {
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
pub(super) fn wanted_ranges(
    train: &Train,
    ask: &Ask,
    problems: &mut Vec<Problem>,
) -> Vec<WantedRange> {
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

/// The sets of these ids, by their place in the scenario; notes each id that is none.
pub(super) fn sets_named(
    train: &Train,
    ids: &[String],
    place: &str,
    to: &mut Vec<Problem>,
) -> Vec<usize> {
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
pub(super) fn groups(train: &Train, ask: &Ask, problems: &mut Vec<Problem>) -> Vec<Alike> {
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
