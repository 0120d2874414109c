//! When a vehicle that speeds up at full pedal goes on to another range.

use super::pull::{Pull, relative};
use super::source::Between;
use super::vehicle::Vehicle;
use crate::load::operating::roots;

/// By what a range is left for the next.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Rule {
    /// As soon as another range pulls harder.
    Force,
    /// As soon as the engine turns as fast as this, in rev/min.
    EngineSpeed(f64),
}

/// Where a range is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Leave {
    /// Road speed in m/s.
    pub(super) speed: f64,
    /// Place of the next range in the order.
    pub(super) to: usize,
    /// Whether it is left as the engine is at its last speed.
    pub(super) at_engine_limit: bool,
}

/// The places of the ratios that drive forward, by falling ratio; of those that are equal the first.
pub(super) fn order(ratios: &[f64]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..ratios.len()).filter(|&at| ratios[at] > 0.0).collect();
    // Stable, so that of equal ones the first in the file comes first.
    order.sort_by(|&a, &b| ratios[b].total_cmp(&ratios[a]));
    order.dedup_by(|b, a| ratios[*b] == ratios[*a]);
    order
}

/// Where the range at a place of the order is left that is driven from a road speed on.
pub(super) fn leave(
    pulls: &[&Pull],
    own: usize,
    from: f64,
    rule: Rule,
    vehicle: &Vehicle,
) -> Option<Leave> {
    let pull = pulls[own];
    let last = pull.runs_to(from)?;
    let found = match rule {
        Rule::Force => {
            let mut first: Option<(f64, usize)> = None;
            for (to, other) in pulls.iter().enumerate().skip(own + 1) {
                // Whatever crosses later than another is of no interest.
                let until = first.map_or(last, |(speed, _)| speed);
                if let Some(speed) = crossing(pull, other, from, until)
                    && first.is_none_or(|(before, _)| speed < before)
                {
                    first = Some((speed, to));
                }
            }
            first
        }
        Rule::EngineSpeed(wanted) => {
            let next = own + 1;
            let speed = reached(pull, wanted, from, last);
            speed
                .filter(|_| next < pulls.len())
                .map(|speed| (speed, next))
        }
    };
    let leads = |to: usize, speed: f64| {
        let next = pulls[to]
            .at(speed)
            .filter(|force| force.between != Between::Slipping);
        next.is_some_and(|next| next.force > vehicle.level(speed))
    };
    if let Some((speed, to)) = found.filter(|&(speed, to)| leads(to, speed)) {
        return Some(Leave {
            speed,
            to,
            at_engine_limit: speed >= last,
        });
    }
    // The engine is at its last speed: the one that pulls hardest there, or the very next.
    let mut later = (own + 1..pulls.len()).filter(|&to| leads(to, last));
    let force = |to: usize| pulls[to].at(last).map_or(f64::NAN, |force| force.force);
    let to = match rule {
        Rule::Force => later.max_by(|&a, &b| force(a).total_cmp(&force(b)).then(b.cmp(&a))),
        Rule::EngineSpeed(_) => later.next(),
    };
    to.map(|to| Leave {
        speed: last,
        to,
        at_engine_limit: true,
    })
}

/// The first road speed from which on another range pulls harder.
fn crossing(own: &Pull, other: &Pull, from: f64, to: f64) -> Option<f64> {
    let ends = |pull: &Pull| -> Vec<f64> { pull.stretches().flat_map(|x| [x.1, x.2]).collect() };
    let mut cuts = [ends(own), ends(other), vec![from, to]].concat();
    cuts.retain(|cut| (from..=to).contains(cut));
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    for (&start, &end) in cuts.iter().zip(cuts.iter().skip(1)) {
        let middle = start + (end - start) / 2.0;
        let on = |pull: &Pull| {
            let mut all = pull.stretches();
            all.find(|(_, from, to)| (*from..=*to).contains(&middle))
                .map(|(x, ..)| *x)
        };
        let (Some(a), Some(b)) = (on(own), on(other)) else {
            continue;
        };
        if b.between() == Between::Slipping {
            continue;
        }
        let gain = |speed: f64| {
            let (a, b) = (own.on(&a, speed).force, other.on(&b, speed).force);
            relative(b - a, a.abs() + b.abs())
        };
        // Without the converter both are straight, so that no zero is between ends of one sign.
        let is_straight = [&a, &b].iter().all(|x| x.between() != Between::Converter);
        let zeros = match is_straight && gain(start) * gain(end) > 0.0 {
            true => Vec::new(),
            false => roots::all(&gain, start, end),
        };
        let edges: Vec<f64> = [start].into_iter().chain(zeros).chain([end]).collect();
        for (&low, &high) in edges.iter().zip(edges.iter().skip(1)) {
            if gain(low + (high - low) / 2.0) > 0.0 {
                return Some(low);
            }
        }
    }
    None
}

/// The first road speed at which the engine comes to a speed from below.
fn reached(pull: &Pull, wanted: f64, from: f64, to: f64) -> Option<f64> {
    for (stretch, start, end) in pull.stretches() {
        let (start, end) = (start.max(from), end.min(to));
        if start >= end {
            continue;
        }
        let over = |speed: f64| {
            let speed = pull.on(stretch, speed).driven.engine_speed;
            relative(speed - wanted, speed + wanted)
        };
        let zeros = roots::all(&over, start, end);
        let edges: Vec<f64> = [start].into_iter().chain(zeros).chain([end]).collect();
        let middles = edges.iter().zip(edges.iter().skip(1));
        for (&low, &high) in middles {
            if high > low && over(low + (high - low) / 2.0) < 0.0 && over(high) >= -1e-12 {
                return Some(high);
            }
        }
    }
    None
}
