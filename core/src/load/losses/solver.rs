//! Combinations of a train with losses, one after the other.

use super::bounds::{Bounds, Possible};
use super::equilibrium::Equilibrium;
use super::trial::{Outcome, Trial};
use super::ways::Directions;
use super::{LossModel, Lossy, LossyTorques, MOST_TRIED, NO_POWER};
use crate::base::element_set::ElementSet;
use crate::solve::Combination;
use crate::solve::settle::Duty;
use crate::train::Train;

/// Solves one combination of a train after the other in the same memory: each takes a fraction of a
/// microsecond, and getting memory for it would take as long.
pub(super) struct Solver<'a> {
    pub(super) equilibrium: Equilibrium<'a>,
    bounds: Bounds,
    trial: Trial,
    /// The memory of torques that nobody needs any more.
    spare: LossyTorques,
}

impl<'a> Solver<'a> {
    pub(super) fn new(train: &'a Train, model: &LossModel) -> Self {
        Self {
            equilibrium: Equilibrium::new(train, model),
            bounds: Bounds::default(),
            trial: Trial::new(),
            spare: LossyTorques::default(),
        }
    }

    /// As [`Lossy::of`].
    pub(super) fn solve(&mut self, combination: &Combination<'_>) -> Option<Lossy> {
        combination.state().ratio()?;
        if self.equilibrium.read(combination).is_none() {
            return Some(Lossy::Indeterminate);
        }
        // A way in which nothing turns has no direction: only one of the two is tried.
        if self.equilibrium.loaded.moving.count_ones() > MOST_TRIED {
            return Some(Lossy::TooMany);
        }
        let possible = self.bounds.possible(&self.equilibrium);
        Some(self.among(possible))
    }

    /// Takes back the memory of a result.
    fn reuse(&mut self, lossy: Option<Lossy>) {
        if let Some(Lossy::Drives(torques)) = lossy {
            self.spare = torques;
        }
    }

    /// What holds of the directions that are possible.
    pub(super) fn among(&mut self, possible: Possible) -> Lossy {
        let Possible {
            forwards,
            backwards,
        } = possible;
        let (open, decided) = (forwards & backwards, backwards & !forwards);
        let mut first = None;
        let mut others = Vec::new();
        let mut next = Some(0);
        while let Some(chosen) = next {
            // All subsets of the open ones, from none to all.
            next = (chosen != open).then(|| chosen.wrapping_sub(open) & open);
            let directions = Directions::of(decided | chosen);
            match self.trial.run(&self.equilibrium, directions) {
                Outcome::Singular => return Lossy::Indeterminate,
                Outcome::Contradicts => {}
                Outcome::Holds => {
                    let efficiency = self.trial.efficiency();
                    let alike = |other: &f64| (other - efficiency).abs() < NO_POWER;
                    match first {
                        None => {
                            self.equilibrium.tell(&self.trial, &mut self.spare);
                            first = Some(efficiency);
                        }
                        Some(first) if alike(&first) || others.iter().any(alike) => {}
                        Some(_) => others.push(efficiency),
                    }
                }
            }
        }
        match first {
            None => Lossy::SelfLocking,
            Some(_) if others.is_empty() => Lossy::Drives(std::mem::take(&mut self.spare)),
            Some(first) => {
                others.insert(0, first);
                Lossy::Ambiguous(others)
            }
        }
    }
}

impl Train {
    /// Visits combinations in the order given, their one-way clutches settled for the duty of the
    /// model, each with what becomes of it with losses ([`Lossy::of`]).
    ///
    /// They share work and memory. Each is lent for its visit.
    pub fn for_each_with_losses(
        &self,
        sets: impl IntoIterator<Item = ElementSet>,
        model: &LossModel,
        mut visit: impl FnMut(&Combination<'_>, Option<&Lossy>),
    ) {
        let duty = if model.coasting {
            Duty::Coast
        } else {
            Duty::Drive
        };
        let mut solver = Solver::new(self, model);
        self.for_each_of(sets, duty, |combination| {
            let lossy = solver.solve(combination);
            visit(combination, lossy.as_ref());
            solver.reuse(lossy);
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What was solved before leaves no trace: every combination fares as by itself, whatever the
    /// losses and whoever drives.
    #[test]
    fn one_after_the_other_is_as_each_by_itself() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios");
        let mut driving = 0;
        for file in std::fs::read_dir(folder).into_iter().flatten().flatten() {
            let text = std::fs::read_to_string(file.path()).unwrap_or_default();
            let Ok(train) = Train::parse(&text) else {
                continue;
            };
            let one_ways = train.one_ways();
            let count = 1_u32 << train.scenario().elements.len();
            // An odd step visits all of them, neighbours far apart.
            let sets = (0..count).map(|step| ElementSet::from_bits(step * 13 % count));
            let sets: Vec<ElementSet> = sets.map(|set| set.minus(one_ways)).collect();
            for (mesh_efficiency, drag, coasting) in [
                (0.99, 0.0, false),
                (0.9, 0.02, false),
                (0.6, 0.0, true),
                (0.98, 0.01, true),
            ] {
                let model = LossModel {
                    mesh_efficiency,
                    drag,
                    coasting,
                };
                let duty = [Duty::Drive, Duty::Coast][usize::from(coasting)];
                let mut at = sets.iter();
                train.for_each_with_losses(sets.iter().copied(), &model, |visited, lossy| {
                    let alone = at.next().map(|&set| train.settle(set, duty).combination);
                    let Some(alone) = alone else {
                        panic!("more visits than sets")
                    };
                    assert_eq!(visited.applied(), alone.applied());
                    assert_eq!(visited.state(), alone.state());
                    assert_eq!(visited.surplus(), alone.surplus());
                    for shaft in 0..train.scenario().shafts.len() {
                        assert_eq!(visited.shaft_speed(shaft), alone.shaft_speed(shaft));
                    }
                    assert_eq!(lossy, Lossy::of(&alone, &model).as_ref());
                    driving += usize::from(lossy.is_some());
                });
                assert_eq!(at.next(), None);
            }
        }
        assert!(driving > 500, "{driving}");
    }
}
