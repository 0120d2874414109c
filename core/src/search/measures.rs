//! What comes of tooth counts: a train with them, and how good it is.

use levertrain_exact::Fraction;
use serde::Serialize;

use super::ask::{Criterion, Limits};
use super::cuts::{Cut, GEARS, apply};
use super::goals::{Goals, unevenness};
use crate::base::element_set::ElementSet;
use crate::load::losses::{LossModel, Lossy};
use crate::model::scenario::Scenario;
use crate::solve::Combination;
use crate::solve::settle::Duty;
use crate::train::{Body, Train};

/// How good a train is at what was asked for, over the ranges for which a ratio is asked.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Measures {
    /// How far the wanted ratio, or the spread, that is off most is off, as a part of what was wanted.
    pub error: f64,
    /// How far the steps are from their law, as a part: each step over the next one against what that should be, or
    /// against 1 where nothing was asked; 0 with fewer than two steps.
    pub unevenness: f64,
    /// Teeth of the largest ring, or of what reaches out as far: around the pinions of two suns, the larger gear
    /// of a pair.
    pub size: u32,
    /// The lowest efficiency, 0 where the train locks itself or losses cannot be told.
    pub efficiency: f64,
    /// The fastest that a pinion turns about its pin, in turns of the input.
    pub pinion_speed: f64,
    /// The fastest that the sides of an open clutch or brake turn against each other, where that is determined, in
    /// turns of the input.
    pub open_speed: f64,
}

/// Tooth counts that no others beat.
#[derive(Debug, Clone, PartialEq)]
pub struct Find {
    /// The counts of each set that was looked for, in the order of [`crate::coupling::Parts`], the rest 0.
    pub(super) teeth: Vec<[u16; GEARS]>,
    pub(super) cuts: Vec<Cut>,
    /// What counts, in the order asked for; less is better.
    pub(super) counts: Vec<f64>,
    /// The exact ratio of each wanted range.
    pub ratios: Vec<Fraction>,
    /// How good it is.
    pub measures: Measures,
}

/// A wanted range of the train.
#[derive(Debug, Clone, Copy)]
pub(super) struct WantedRange {
    /// What is applied by hand.
    pub applied: ElementSet,
    /// What is then locked, one-way clutches too, with the teeth that the train has.
    pub locked: ElementSet,
}

/// Makes trains of candidates, and measures them.
pub(super) struct Maker {
    pub scenario: Scenario,
    /// Which couplings are looked for.
    pub sets: Vec<usize>,
    pub ranges: Vec<WantedRange>,
    pub limits: Limits,
    pub best: Vec<Criterion>,
}

impl Maker {
    /// The scenario with these cuts.
    pub(super) fn scenario(&self, cuts: &[Cut]) -> Scenario {
        let mut scenario = self.scenario.clone();
        for (&set, cut) in self.sets.iter().zip(cuts) {
            apply(&mut scenario.couplings[set], cut);
        }
        scenario
    }

    /// The find that these cuts are, where the exact train keeps all that was asked for: a ratio counts as within its
    /// window where the double nearest to it is.
    pub(super) fn find(&self, cuts: &[Cut], goals: &Goals) -> Option<Find> {
        let train = Train::new(self.scenario(cuts)).ok()?;
        let mut ratios = Vec::with_capacity(self.ranges.len());
        let (mut efficiency, mut pinion_speed, mut open_speed) = (1.0_f64, 0.0_f64, 0.0_f64);
        for range in &self.ranges {
            let settled = train.settle(range.applied, Duty::Drive).combination;
            if settled.applied() != range.locked {
                return None;
            }
            ratios.push(settled.state().ratio()?.clone());
            efficiency = efficiency.min(efficiency_of(&settled));
            pinion_speed = pinion_speed.max(pinion_speed_of(&settled));
            open_speed = open_speed.max(open_speed_of(&settled));
        }
        let values: Vec<f64> = ratios.iter().map(Fraction::to_f64).collect();
        if !goals.hold(&values) {
            return None;
        }
        let Limits {
            pinion_speed: most_pinion,
            open_speed: most_open,
            efficiency: least,
        } = self.limits;
        let above = |value: f64, most: Option<f64>| most.is_some_and(|most| value > most);
        let below = least.is_some_and(|least| efficiency < least);
        if above(pinion_speed, most_pinion) || above(open_speed, most_open) || below {
            return None;
        }
        let measures = Measures {
            error: goals.error(&values),
            unevenness: unevenness(&goals.steps, &values),
            size: self.size(cuts),
            efficiency,
            pinion_speed,
            open_speed,
        };
        Some(Find {
            teeth: cuts.iter().map(|cut| cut.teeth).collect(),
            cuts: cuts.to_vec(),
            counts: self.best.iter().map(|c| counted(c.of(&measures))).collect(),
            ratios,
            measures,
        })
    }

    /// The largest reach of these cuts; of sets that keep their teeth it is the same in all trains.
    fn size(&self, cuts: &[Cut]) -> u32 {
        cuts.iter()
            .map(|cut| u32::from(cut.reach))
            .max()
            .unwrap_or(0)
    }
}

/// A count as it is compared: what differs by less than a thousand-millionth is the same, so that the rounding of doubles
/// makes no find better than another. It keeps the order of numbers.
pub(super) fn counted(count: f64) -> f64 {
    (count * 1e9).round() / 1e9
}

impl Criterion {
    /// What of the measures counts; less is better.
    fn of(self, measures: &Measures) -> f64 {
        match self {
            Self::Error => measures.error,
            Self::Steps => measures.unevenness,
            Self::Size => measures.size.into(),
            Self::Efficiency => 1.0 - measures.efficiency,
            Self::PinionSpeed => measures.pinion_speed,
        }
    }
}

fn efficiency_of(combination: &Combination<'_>) -> f64 {
    match Lossy::of(combination, &LossModel::default()) {
        Some(Lossy::Drives(torques)) => torques.efficiency,
        _ => 0.0,
    }
}

fn pinion_speed_of(combination: &Combination<'_>) -> f64 {
    let couplings = combination.train().scenario().couplings.iter().enumerate();
    let spins = couplings.flat_map(|(at, coupling)| {
        let pinions = coupling.facts().pinions().into_iter();
        pinions.filter_map(move |pinion| combination.pinion_spin(at, &pinion))
    });
    spins.fold(0.0, |most: f64, spin| most.max(spin.to_f64().abs()))
}

fn open_speed_of(combination: &Combination<'_>) -> f64 {
    let train = combination.train();
    let open = (0..train.scenario().elements.len())
        .filter(|&element| !combination.applied().contains(element));
    let speeds = open.filter_map(|element| {
        let speed = |body: Body| combination.body_speed(body).map(|speed| speed.to_f64());
        let [from, to] = train.ends(element).map(speed);
        Some((from? - to?).abs())
    });
    speeds.fold(0.0, f64::max)
}
