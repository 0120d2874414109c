//! What of an ask contradicts itself, so that no layout can be what is wanted, found before any is looked at.

use super::ask::LayoutAsk;
use super::class::Class;
use crate::base::number::number;
use crate::base::problem::Problem;

/// Every contradiction between numbers that are right by themselves.
pub(super) fn contradictions(ask: &LayoutAsk) -> Vec<Problem> {
    let mut problems = Vec::new();
    problems.extend(few_elements(ask));
    problems.extend(ratios_and_steps(ask));
    problems.extend(spread(ask));
    problems.extend(direct(ask));
    problems
}

/// That sets cannot be joined at all so that something acts on each shaft.
pub(super) fn empty(ask: &LayoutAsk, class: &Class) -> Option<Problem> {
    let shafts = class.shafts.to_string();
    let values = [
        ("applied", &*ask.applied.to_string()),
        ("shafts", &shafts),
        ("elements", &*ask.elements.to_string()),
    ];
    let problem = || {
        Problem::of(
            "applied",
            ("problem-layout-empty", &values),
            ("fix-layout-empty", &[]),
        )
    };
    class.is_empty().then(problem)
}

/// Fewer elements than are applied, or fewer combinations of them than ranges.
fn few_elements(ask: &LayoutAsk) -> Option<Problem> {
    let both = ask.clutches.zip(ask.brakes);
    let most = both.map_or(ask.elements, |(clutches, brakes)| {
        ask.elements.min(clutches.saturating_add(brakes))
    });
    let ranges = ask.forward.len() + usize::from(ask.backward.is_some());
    let combinations = choices(most, ask.applied);
    if combinations >= ranges as u64 {
        return None;
    }
    let values = [
        ("elements", &*most.to_string()),
        ("applied", &*ask.applied.to_string()),
        ("most", &*combinations.to_string()),
        ("ranges", &*ranges.to_string()),
    ];
    let place = if most < ask.elements {
        "clutches"
    } else {
        "elements"
    };
    let what = ("problem-layout-few-elements", &values[..]);
    Some(Problem::of(place, what, ("fix-layout-few-elements", &[])))
}

/// In how many ways so many can be chosen of all.
fn choices(all: u32, chosen: u32) -> u64 {
    (0..chosen).fold(1, |ways, at| {
        ways * u64::from(all.saturating_sub(at)) / u64::from(at + 1)
    })
}

/// The first two ranges whose wanted ratios are further apart, or nearer, than the steps between them can be.
fn ratios_and_steps(ask: &LayoutAsk) -> Option<Problem> {
    let [least, most] = ask.step?;
    let given: Vec<usize> = (0..ask.forward.len())
        .filter(|&at| ask.forward[at].ratio.is_some())
        .collect();
    let pairs = given
        .iter()
        .flat_map(|&one| given.iter().map(move |&other| (one, other)));
    pairs
        .filter(|(one, other)| one < other)
        .find_map(|(one, other)| {
            let steps = i32::try_from(other - one).unwrap_or(i32::MAX);
            let [low, high] = quotient(ask, one, other);
            let [from, to] = [least, most].map(|step| step.powi(steps));
            if low <= to && from <= high {
                return None;
            }
            let ends = [low, high, from, to].map(|end| number(end, 4));
            let values = [
                ("first", &*(one + 1).to_string()),
                ("second", &*(other + 1).to_string()),
                ("low", &ends[0]),
                ("high", &ends[1]),
                ("least", &ends[2]),
                ("most", &ends[3]),
            ];
            let what = ("problem-layout-step-ratios", &values[..]);
            Some(Problem::of("step", what, ("fix-layout-step-ratios", &[])))
        })
}

/// A spread that neither the ratios of the first and last range have, nor the steps between them make.
fn spread(ask: &LayoutAsk) -> Option<Problem> {
    let spread = ask.spread?;
    let last = ask.forward.len() - 1;
    if last == 0 {
        return None;
    }
    let [least, most] =
        [1.0 - spread.tolerance, 1.0 + spread.tolerance].map(|part| spread.value * part);
    let by_ratios = quotient(ask, 0, last);
    let steps = i32::try_from(last).unwrap_or(i32::MAX);
    let by_steps = ask.step.map(|ends| ends.map(|end| end.powi(steps)));
    let reasons = [
        ("problem-layout-spread-ratios", Some(by_ratios)),
        ("problem-layout-spread-steps", by_steps),
    ];
    reasons.into_iter().find_map(|(what, ends)| {
        let [low, high] = ends?;
        if low <= most && least <= high {
            return None;
        }
        let told = [spread.value, low, high].map(|value| number(value, 4));
        let values = [
            ("found", &*told[0]),
            ("least", &told[1]),
            ("most", &told[2]),
        ];
        let fix = ("fix-layout-spread", &[][..]);
        Some(Problem::of("spread.value", (what, &values), fix))
    })
}

/// Direct drive wanted, and no range that may have the ratio 1.
fn direct(ask: &LayoutAsk) -> Option<Problem> {
    let may_be = ask.forward.iter().any(|wanted| {
        let [low, high] = wanted.window(true);
        (low..=high).contains(&1.0)
    });
    let problem = || {
        let what = ("problem-layout-direct", &[][..]);
        Problem::of("direct", what, ("fix-layout-direct", &[]))
    };
    (ask.direct == Some(true) && !may_be).then(problem)
}

/// Between which values the ratio of one forward range over that of another can be.
fn quotient(ask: &LayoutAsk, one: usize, other: usize) -> [f64; 2] {
    let [above, below] = [one, other].map(|at| ask.forward[at].window(true));
    [above[0] / below[1], above[1] / below[0]]
}
