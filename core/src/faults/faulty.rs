//! A train with something broken in it.

use super::{Answer, Fault, Outcome, Trial};
use crate::base::element_set::ElementSet;
use crate::base::said::said;
use crate::base::short_sort::sort_short_by_key;
use crate::model::scenario::{Brake, Clutch, Element, HOUSING, OneWay, Shaft};
use crate::train::{Body, Train};

/// A train with something broken in it.
#[derive(Debug, Clone)]
pub struct Faulty {
    train: Train,
    effect: Effect,
}

impl Faulty {
    /// A train with these faults.
    pub fn new(train: &Train, faults: &[Fault]) -> Self {
        let effect = Effect::of(faults);
        Self {
            train: effect.changes.made_to(train),
            effect,
        }
    }

    /// The train as it is now: one-way clutches that are broken have become clutches and brakes, and
    /// members that are cut off have shafts of their own behind all others.
    pub fn train(&self) -> &Train {
        &self.train
    }

    /// What is applied in truth where this is meant to be; what slips is among it.
    pub fn applied(&self, meant: ElementSet) -> ElementSet {
        self.effect.applied(meant)
    }

    /// What a range becomes.
    pub fn outcome(&self, trial: &Trial) -> Outcome {
        let answer = |applied| Answer::of(&self.train, applied);
        self.effect.outcome(trial, answer)
    }
}

/// What faults change about what is applied, and about the train.
#[derive(Debug, Clone)]
pub(super) struct Effect {
    never: ElementSet,
    always: ElementSet,
    slip: ElementSet,
    pub(super) changes: Changes,
}

/// What faults change about a train.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Changes {
    /// The one-way clutches that no longer lock and overrun by themselves.
    plain: ElementSet,
    /// Coupling and member of what is cut off its shaft, in ascending order.
    cuts: Vec<(usize, usize)>,
}

impl Effect {
    pub(super) fn of(faults: &[Fault]) -> Self {
        let mut effect = Self {
            never: ElementSet::NONE,
            always: ElementSet::NONE,
            slip: ElementSet::NONE,
            changes: Changes::default(),
        };
        for &fault in faults {
            let changes = &mut effect.changes;
            match fault {
                Fault::WillNotApply(element) => effect.never = effect.never.with(element),
                Fault::WillNotRelease(element) => effect.always = effect.always.with(element),
                Fault::Slips(element) => effect.slip = effect.slip.with(element),
                Fault::DoesNotHold(element) => changes.plain = changes.plain.with(element),
                Fault::StaysLocked(element) => {
                    changes.plain = changes.plain.with(element);
                    effect.always = effect.always.with(element);
                }
                Fault::BrokenSpline(coupling, member) => changes.cuts.push((coupling, member)),
            }
        }
        sort_short_by_key(&mut effect.changes.cuts, |cut| *cut);
        effect
    }

    fn applied(&self, meant: ElementSet) -> ElementSet {
        meant.minus(self.never).union(self.always)
    }

    /// What a range becomes, where `answer` says what is done by what is applied in the changed train.
    pub(super) fn outcome(
        &self,
        trial: &Trial,
        mut answer: impl FnMut(ElementSet) -> Answer,
    ) -> Outcome {
        let held = self.applied(trial.applied);
        let closed = answer(held);
        if self.slip.is_empty() {
            return Outcome::of(&trial.healthy, &closed, &closed);
        }
        Outcome::of(&trial.healthy, &closed, &answer(held.minus(self.slip)))
    }
}

impl Changes {
    /// The changes that have the same outcomes and are the same for as many faults as can be: which member
    /// of a set with one mesh row is cut off makes no difference, since the row then only says how
    /// that member turns.
    pub(super) fn alike(mut self, train: &Train) -> Self {
        for (coupling, member) in &mut self.cuts {
            if train.gearing(*coupling).mesh_rows.len() == 1 {
                *member = 0;
            }
        }
        sort_short_by_key(&mut self.cuts, |cut| *cut);
        self.cuts.dedup();
        self
    }

    /// Whether the train stays as it is.
    pub(super) fn is_none(&self) -> bool {
        self.plain.is_empty() && self.cuts.is_empty()
    }

    /// The train with these changes.
    pub(super) fn made_to(&self, train: &Train) -> Train {
        if self.is_none() {
            return train.clone();
        }
        let mut scenario = train.scenario().clone();
        for element in self.plain.iter() {
            let known = &mut scenario.elements[element];
            if let Element::OneWay(one_way) = known {
                *known = applied_by_hand(one_way);
            }
        }
        let mut members: Vec<Vec<Body>> = (0..scenario.couplings.len())
            .map(|coupling| train.members(coupling).to_vec())
            .collect();
        for &(coupling, member) in &self.cuts {
            members[coupling][member] = Body::Shaft(scenario.shafts.len());
            let facts = scenario.couplings[coupling].facts();
            let role = facts.members()[member].role.word();
            let values = [("member", role), ("set", facts.label())];
            let label = said("fault-cut-off", &values);
            // No id of a file has a stroke in it.
            let id = format!("{coupling}/{member}");
            let mut shafts = scenario.couplings[coupling].parts().shafts;
            if let Some(Some(shaft)) = shafts.get_mut(member) {
                shaft.clone_from(&id);
            }
            scenario.shafts.push(Shaft { id, label });
        }
        train.rearranged(scenario, members)
    }
}

/// A clutch or brake in the place of a one-way clutch.
fn applied_by_hand(one_way: &OneWay) -> Element {
    let OneWay {
        id, label, shaft, ..
    } = one_way.clone();
    let (friction, gap) = (None, one_way.gap);
    if one_way.against == HOUSING {
        return Element::Brake(Brake {
            id,
            label,
            shaft,
            friction,
            gap,
        });
    }
    Element::Clutch(Clutch {
        id,
        label,
        between: [shaft, one_way.against.clone()],
        friction,
        gap,
    })
}
