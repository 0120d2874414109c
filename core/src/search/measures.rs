//! What comes of tooth counts: a train with them, and how good it is.

use levertrain_exact::Fraction;
use serde::Serialize;

use super::ask::{Criterion, Limits};
use super::cuts::{Cut, GEARS, apply, cut_of};
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
    /// Its least efficiency, where there is a limit to it alone.
    pub efficiency: Option<f64>,
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
        let settled = self.settled(&train)?;
        let ratios = ratios(&settled)?;
        // Ratios are known soonest.
        let values: Vec<f64> = ratios.iter().map(Fraction::to_f64).collect();
        if !goals.hold(&values) {
            return None;
        }
        let ranges = self.ranges.iter().zip(&settled);
        let mut efficient = ranges.map(|(range, settled)| {
            let least = range.efficiency;
            least.is_none_or(|least| efficiency_of(settled) >= least)
        });
        if !efficient.all(|is| is) {
            return None;
        }
        let find = self.measured(cuts, &settled, ratios, goals);
        self.is_within_limits(&find.measures).then_some(find)
    }

    /// What the train has for teeth itself, measured in the same way, whether or not it is what was asked for.
    pub(super) fn present(&self, goals: &Goals) -> Option<Find> {
        let train = Train::new(self.scenario.clone()).ok()?;
        let settled = self.settled(&train)?;
        let ratios = ratios(&settled)?;
        let cuts = self.sets.iter().map(|&set| {
            let mut coupling = self.scenario.couplings[set].clone();
            cut_of(&mut coupling)
        });
        let cuts: Vec<Cut> = cuts.collect();
        Some(self.measured(&cuts, &settled, ratios, goals))
    }

    /// What the train does in each wanted range; nothing where other one-way clutches would lock.
    fn settled<'t>(&self, train: &'t Train) -> Option<Vec<Combination<'t>>> {
        let ranges = self.ranges.iter().map(|range| {
            let settled = train.settle(range.applied, Duty::Drive).combination;
            (settled.applied() == range.locked).then_some(settled)
        });
        ranges.collect()
    }

    fn measured(
        &self,
        cuts: &[Cut],
        settled: &[Combination<'_>],
        ratios: Vec<Fraction>,
        goals: &Goals,
    ) -> Find {
        let values: Vec<f64> = ratios.iter().map(Fraction::to_f64).collect();
        let most = |of: fn(&Combination<'_>) -> f64| settled.iter().map(of).fold(0.0, f64::max);
        let measures = Measures {
            error: goals.error(&values),
            unevenness: unevenness(&goals.steps, &values),
            size: self.size(cuts),
            efficiency: settled.iter().map(efficiency_of).fold(1.0, f64::min),
            pinion_speed: most(pinion_speed_of),
            open_speed: most(open_speed_of),
        };
        Find {
            teeth: cuts.iter().map(|cut| cut.teeth).collect(),
            cuts: cuts.to_vec(),
            counts: self.best.iter().map(|c| counted(c.of(&measures))).collect(),
            ratios,
            measures,
        }
    }

    fn is_within_limits(&self, measures: &Measures) -> bool {
        let Limits {
            pinion_speed,
            open_speed,
            efficiency,
        } = self.limits;
        pinion_speed.is_none_or(|most| measures.pinion_speed <= most)
            && open_speed.is_none_or(|most| measures.open_speed <= most)
            && efficiency.is_none_or(|least| measures.efficiency >= least)
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
    // Halves to even: processors and browsers have that as one instruction.
    (count * 1e9).round_ties_even() / 1e9
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

fn ratios(settled: &[Combination<'_>]) -> Option<Vec<Fraction>> {
    let ratios = settled
        .iter()
        .map(|settled| settled.state().ratio().cloned());
    ratios.collect()
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
