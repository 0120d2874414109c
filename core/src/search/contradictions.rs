//! What of an ask no teeth give, and what excludes each other although teeth could give each of it: found before any time is spent.

use super::ask::Ask;
use super::checks::note;
use super::cuts::{Cut, cut_of};
use super::goals::Goal;
use super::stock::Stock;
use super::walk::{Alike, Box, Ground, Size};
use crate::base::number::number;
use crate::base::problem::Problem;
use crate::model::coupling::Coupling;
use crate::model::scenario::Scenario;

/// Notes each goal that no candidate can reach, with what they can.
pub(super) fn unreachable(
    scenario: &Scenario,
    ask: &Ask,
    ground: &Ground,
    problems: &mut Vec<Problem>,
) {
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

/// Notes the first goal about several ratios that cannot be met by any ratios within their own windows and what teeth give:
/// each goal narrows what the ratios can be, until nothing changes or nothing is left.
pub(super) fn of_ratios(scenario: &Scenario, ask: &Ask, ground: &Ground) -> Option<Problem> {
    let Box { mut bounds, .. } = ground.widest();
    let goals = || ground.goals.all.iter();
    for goal in goals() {
        if let [(at, 1)] = goal.powers[..] {
            bounds[at] = common(bounds[at], goal.wider());
        }
    }
    // What one range may be reaches the last one in as many rounds as there are ranges.
    for _ in 0..=bounds.len() {
        for goal in goals().filter(|goal| goal.powers.len() > 1) {
            let ([low, high], [least, most]) = (goal.bounds(&bounds), goal.wider());
            if high < least || most < low {
                return Some(excluded(scenario, ask, goal, [low, high]));
            }
            narrow(goal, &mut bounds);
        }
    }
    None
}

/// Leaves of each ratio of a goal what it can be with the others as they are.
fn narrow(goal: &Goal, bounds: &mut [[f64; 2]]) {
    if goal.powers.iter().any(|&(at, _)| bounds[at][0] <= 0.0) {
        return;
    }
    let [least, most] = goal.wider();
    for &(at, power) in &goal.powers {
        let others = goal.powers.iter().filter(|(other, _)| *other != at);
        let [low, high] = others.fold([1.0, 1.0], |[low, high], &(other, power)| {
            let ends = bounds[other].map(|end| end.powi(power));
            [low * ends[0].min(ends[1]), high * ends[0].max(ends[1])]
        });
        let root = 1.0 / f64::from(power);
        let ends = [least / high, most / low].map(|end| end.powf(root));
        let own = [ends[0].min(ends[1]), ends[0].max(ends[1])];
        // Rounding may leave nothing of what is just enough.
        let [low, high] = common(bounds[at], own);
        bounds[at] = [low.min(high), high.max(low)];
    }
}

fn common(one: [f64; 2], other: [f64; 2]) -> [f64; 2] {
    [one[0].max(other[0]), one[1].min(other[1])]
}

fn excluded(scenario: &Scenario, ask: &Ask, goal: &Goal, [low, high]: [f64; 2]) -> Problem {
    let label = |at: usize| {
        let id = ask.wanted[at].range.as_str();
        let mut ranges = scenario.ranges.iter();
        let known = ranges.find(|range| range.id == id);
        known.map_or(id, |range| &range.label)
    };
    let (first, last) = (goal.powers[0].0, goal.powers[goal.powers.len() - 1].0);
    if goal.window[1] == f64::INFINITY {
        let values = [("first", label(first)), ("second", label(last))];
        let what = ("problem-ask-order", &values[..]);
        return Problem::of("wanted", what, ("fix-ask-order", &[]));
    }
    let middle = (goal.window[0] * goal.window[1]).sqrt();
    let told = [goal.wanted.unwrap_or(middle), low, high].map(|value| number(value, 4));
    let values = [
        ("first", label(first)),
        ("last", label(last)),
        ("wanted", &*told[0]),
        ("least", &told[1]),
        ("most", &told[2]),
    ];
    let (place, what) = match goal.powers.len() {
        2 => ("spread", "problem-ask-spread-ratios"),
        _ => ("steps", "problem-ask-steps-ratios"),
    };
    Problem::of(place, (what, &values), ("fix-ask-spread-ratios", &[]))
}

/// Leaves of the cuts of the sets that are looked for those whose sizes the other sets of their groups can have, too; notes the
/// groups for which there are none. Groups name all sets by their place in the scenario, also those that keep their teeth.
pub(super) fn of_sizes(
    couplings: &[Coupling],
    groups: &[Alike],
    found: &mut [Stock],
    problems: &mut Vec<Problem>,
) {
    for Alike { size, sets } in groups {
        let sizes = |set: usize| -> Vec<u16> {
            let looked_for = found.iter().find(|stock| stock.sets.contains(&set));
            let mut sizes: Vec<u16> = match looked_for {
                Some(stock) => stock.cuts.iter().map(|cut| size.of(cut)).collect(),
                None => vec![size.of(&cut_of(&mut couplings[set].clone()))],
            };
            sizes.sort_unstable();
            sizes.dedup();
            sizes
        };
        let Some(mut common) = sets.first().map(|&set| sizes(set)) else {
            continue;
        };
        for &set in &sets[1..] {
            let own = sizes(set);
            common.retain(|size| own.binary_search(size).is_ok());
        }
        if common.is_empty() {
            let labels: Vec<&str> = sets
                .iter()
                .map(|&set| couplings[set].facts().label())
                .collect();
            let values = [("labels", &*labels.join(", "))];
            let (place, what) = match size {
                Size::Ring => ("same_ring", "problem-ask-rings"),
                Size::Distance => ("same_distance", "problem-ask-distances"),
            };
            problems.push(Problem::of(place, (what, &values), ("fix-ask-rings", &[])));
            continue;
        }
        // Sets of a group share no stock with others.
        for stock in found.iter_mut() {
            if stock.sets.iter().any(|set| sets.contains(set)) {
                let fits = |cut: &Cut| common.binary_search(&size.of(cut)).is_ok();
                stock.cuts.retain(fits);
            }
        }
    }
}
