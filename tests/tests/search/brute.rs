//! The same question answered by trying everything: every count of every gear, with nothing left out
//! and nothing bounded.

use levertrain_core::coupling::{Coupling, GearName, Mesh, PinionCount, Teeth};
use levertrain_core::search::{Ask, Criterion, Near, Rules};
use levertrain_core::tooth_checks::Rule;
use levertrain_core::{Combination, Duty, LossModel, Lossy, Scenario, Train};

/// What counts of a candidate, less being better.
pub type Counts = Vec<f64>;

/// Every coupling like this one within the bounds of an ask that keeps its rules.
pub fn every_cut(coupling: &Coupling, ask: &Ask) -> Vec<Coupling> {
    let mut all = vec![coupling.clone()];
    let mut names = Vec::new();
    for (name, _) in coupling.clone().parts().teeth {
        names.push(name);
    }
    for (gear, name) in names.iter().enumerate() {
        let [least, most] = match name {
            GearName::Member(_) => ask.teeth,
            GearName::Pinion(_) => ask.pinion_teeth,
        };
        let mut next = Vec::new();
        for coupling in &all {
            for count in least..=most {
                let mut cut = coupling.clone();
                let mut parts = cut.parts();
                if let (Some(count), Some((_, teeth))) =
                    (Teeth::new(count), parts.teeth.get_mut(gear))
                {
                    **teeth = count;
                }
                next.push(cut);
            }
        }
        all = next;
    }
    if coupling.clone().parts().count.is_some() {
        let with = |coupling: &Coupling, count: u32| {
            let mut cut = coupling.clone();
            if let (Some(place), Ok(count)) =
                (cut.parts().count, PinionCount::try_from(i64::from(count)))
            {
                *place = count;
            }
            cut
        };
        let counted = all
            .iter()
            .flat_map(|one| ask.pinions.iter().map(|&count| with(one, count)));
        all = counted.collect();
    }
    all.retain(|cut| fits_between(cut) && keeps_rules(cut, ask));
    all
}

/// Pinions of pairs that do not reach from the sun they are on to the ring.
fn fits_between(coupling: &Coupling) -> bool {
    let teeth: Vec<u32> = coupling
        .clone()
        .parts()
        .teeth
        .into_iter()
        .map(|(_, teeth)| teeth.get())
        .collect();
    match coupling {
        Coupling::DoublePinion(_) => teeth[0] + 2 * teeth[1].max(teeth[2]) < teeth[3],
        Coupling::Ravigneaux(_) => teeth[0] + 2 * teeth[1] < teeth[4],
        _ => true,
    }
}

fn keeps_rules(coupling: &Coupling, ask: &Ask) -> bool {
    let rules: Vec<Rule> = ask
        .rules
        .iter()
        .map(|rule| match rule {
            Rules::Coaxial => Rule::Coaxial,
            Rules::EqualSpacing => Rule::EqualSpacing,
            Rules::NeighboursClear => Rule::NeighboursClear,
            Rules::FewestTeeth => Rule::FewestTeeth,
        })
        .collect();
    let warnings = coupling.facts().tooth_warnings();
    warnings
        .iter()
        .all(|warning| !rules.contains(&warning.rule()))
}

/// How far a value is off what is wanted, where that is within the tolerance; both are parts of what is wanted.
fn within(value: f64, wanted: f64, tolerance: f64) -> Option<f64> {
    let ends = [wanted * (1.0 - tolerance), wanted * (1.0 + tolerance)];
    let (least, most) = (ends[0].min(ends[1]), ends[0].max(ends[1]));
    (least..=most)
        .contains(&value)
        .then(|| (value / wanted - 1.0).abs())
}

/// With the usual loss of each mesh.
pub fn efficiency_of(settled: &Combination<'_>) -> f64 {
    match Lossy::of(settled, &LossModel::default()) {
        Some(Lossy::Drives(torques)) => torques.efficiency,
        _ => 0.0,
    }
}

/// What counts of a train, where it is all that was asked for.
pub fn counts(scenario: &Scenario, ask: &Ask) -> Option<Counts> {
    let train = Train::new(scenario.clone()).ok()?;
    let mut error = 0.0_f64;
    let (mut efficiency, mut spin) = (1.0_f64, 0.0_f64);
    let mut forwards = Vec::new();
    for wanted in &ask.wanted {
        let range = scenario
            .ranges
            .iter()
            .position(|range| range.id == wanted.range)?;
        let settled = train.settle(train.range(range), Duty::Drive).combination;
        let ratio = settled.state().ratio()?.to_f64();
        if let Some(target) = wanted.ratio {
            let off = within(ratio, target, wanted.tolerance?)?;
            error = error.max(off);
        }
        if ratio > 0.0 {
            forwards.push((ratio, wanted.ratio.is_some()));
        }
        let own = efficiency_of(&settled);
        if wanted.efficiency.is_some_and(|least| own < least) {
            return None;
        }
        efficiency = efficiency.min(own);
        for (at, coupling) in scenario.couplings.iter().enumerate() {
            for pinion in coupling.facts().pinions() {
                if let Some(speed) = settled.pinion_spin(at, &pinion) {
                    spin = spin.max(speed.to_f64().abs());
                }
            }
        }
    }
    if ask
        .limits
        .efficiency
        .is_some_and(|least| efficiency < least)
        || ask.limits.pinion_speed.is_some_and(|most| spin > most)
    {
        return None;
    }
    // What is free falls from range to range.
    let falls = |two: &[(f64, bool)]| (two[0].1 && two[1].1) || two[0].0 >= two[1].0;
    if !forwards.windows(2).all(falls) {
        return None;
    }
    let forwards: Vec<f64> = forwards.into_iter().map(|(ratio, _)| ratio).collect();
    if let (Some(Near { value, tolerance }), [first, .., last]) = (ask.spread, &forwards[..]) {
        error = error.max(within(first / last, value, tolerance)?);
    }
    let law = ask.steps.map_or(1.0, |steps| steps.value);
    let mut steps = 0.0_f64;
    for three in forwards.windows(3) {
        let of_steps = (three[0] / three[1]) / (three[1] / three[2]);
        if let Some(Near { value, tolerance }) = ask.steps {
            within(of_steps, value, tolerance)?;
        }
        let off = of_steps / law;
        steps = steps.max(off.max(1.0 / off) - 1.0);
    }
    let size = size(scenario);
    let of = |criterion: &Criterion| match criterion {
        Criterion::Error => error,
        Criterion::Steps => steps,
        Criterion::Size => size,
        Criterion::Efficiency => 1.0 - efficiency,
        Criterion::PinionSpeed => spin,
    };
    Some(ask.best.iter().map(of).map(counted).collect())
}

/// What differs by less than a thousand-millionth counts as the same.
pub fn counted(count: f64) -> f64 {
    (count * 1e9).round_ties_even() / 1e9
}

/// How far the sets of a train reach.
pub fn size(scenario: &Scenario) -> f64 {
    let reaches = scenario.couplings.iter().map(reach);
    reaches.max().map_or(0.0, f64::from)
}

fn reach(coupling: &Coupling) -> u32 {
    let teeth: Vec<u32> = coupling
        .clone()
        .parts()
        .teeth
        .into_iter()
        .map(|(_, t)| t.get())
        .collect();
    match coupling {
        Coupling::SteppedSuns(_) => (teeth[0] + 2 * teeth[1]).max(teeth[3] + 2 * teeth[2]),
        Coupling::GearPair(_) => teeth[0].max(teeth[1]),
        _ => teeth[teeth.len() - 1],
    }
}

/// Of all combinations of these couplings, what counts of those that no other beats, sorted.
pub fn front(scenario: &Scenario, cuts: &[Vec<Coupling>], ask: &Ask) -> Vec<Counts> {
    let mut found: Vec<Counts> = Vec::new();
    let mut at = vec![0; cuts.len()];
    'all: loop {
        let mut one = scenario.clone();
        for (coupling, (cuts, &at)) in one.couplings.iter_mut().zip(cuts.iter().zip(&at)) {
            *coupling = cuts[at].clone();
        }
        if same_rings(&one, ask)
            && same_distances(&one, ask)
            && let Some(counts) = counts(&one, ask)
        {
            found.push(counts);
        }
        // The next one, as digits count on.
        let mut digits = at.iter_mut().zip(cuts);
        loop {
            let Some((digit, cuts)) = digits.next() else {
                break 'all;
            };
            *digit += 1;
            if *digit < cuts.len() {
                break;
            }
            *digit = 0;
        }
    }
    found.sort_by(|a, b| a.partial_cmp(b).unwrap_or(std::cmp::Ordering::Equal));
    found.dedup();
    // What beats one comes before it in this order.
    let mut best: Vec<Counts> = Vec::new();
    for one in found {
        let beats = |other: &Counts| other.iter().zip(&one).all(|(other, one)| other <= one);
        if !best.iter().any(beats) {
            best.push(one);
        }
    }
    best
}

fn same_rings(scenario: &Scenario, ask: &Ask) -> bool {
    ask.same_ring.iter().all(|group| {
        let mut rings = scenario
            .couplings
            .iter()
            .filter(|coupling| group.iter().any(|id| id == coupling.facts().id()))
            .map(reach);
        let first = rings.next();
        rings.all(|ring| Some(ring) == first)
    })
}

/// Axes of external pairs are apart by half the sum of the teeth, those of internal ones by half their difference, in modules.
fn same_distances(scenario: &Scenario, ask: &Ask) -> bool {
    ask.same_distance.iter().all(|group| {
        let pairs = scenario
            .couplings
            .iter()
            .filter_map(|coupling| match coupling {
                Coupling::GearPair(pair) if group.contains(&pair.id) => {
                    let [a, b] =
                        [&pair.first, &pair.second].map(|gear| i64::from(gear.teeth.get()));
                    Some(match pair.mesh {
                        Mesh::External => a + b,
                        Mesh::Internal => (a - b).abs(),
                    })
                }
                _ => None,
            });
        let mut distances: Vec<i64> = pairs.collect();
        distances.dedup();
        distances.len() < 2
    })
}
