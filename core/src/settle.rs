//! How one-way clutches settle: which lock and which overrun, for drive and for coast.

use crate::element_set::ElementSet;
use crate::scenario::{Element, OneWay, Way};
use crate::solve::{Combination, State};
use crate::torque::Torques;
use crate::train::Train;

/// Which side the torque comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Duty {
    /// The input drives the load.
    Drive,
    /// The load drives the input, which holds back.
    Coast,
}

/// A combination with its one-way clutches settled.
#[derive(Debug, Clone)]
pub struct Settled<'a> {
    /// The combination, with the one-way clutches that lock among its applied elements.
    pub combination: Combination<'a>,
    /// Whether that is the only way they can settle.
    pub verdict: Verdict,
}

/// How sure a settlement is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Verdict {
    /// Nothing else agrees with speeds and torques.
    Settled,
    /// These sets of locked one-way clutches all agree, with different speeds.
    Ambiguous(Vec<ElementSet>),
    /// None agrees.
    Contradictory,
}

impl Train {
    /// Settles the one-way clutches beside the elements of `applied`.
    ///
    /// A one-way clutch is a complementarity: the shaft's speed past the other body is not the
    /// way it locks, the torque it passes pushes the shaft only the other way, and one of the
    /// two is zero (derived; common practice in transmission textbooks). All 2^m ways m of them
    /// can lock are tried exactly. Where none lets torque through, all overrun: the train is
    /// free for this duty. Where several give the same motion, all of theirs lock: they stand
    /// side by side, and their torques are undetermined.
    pub fn settle(&self, applied: ElementSet, duty: Duty) -> Settled<'_> {
        let one_ways: Vec<usize> = self.one_ways().iter().collect();
        let free = self.solve(applied);
        if one_ways.is_empty() || *free.state() == State::TiedUp {
            return Settled {
                combination: free,
                verdict: Verdict::Settled,
            };
        }
        // One entry a motion: the first combination that gives it, and all that lock in any.
        let mut agreeing: Vec<(Combination<'_>, ElementSet)> = Vec::new();
        for bits in 0..1_u32 << one_ways.len() {
            let chosen = ElementSet::from_bits(bits).iter();
            let locked: ElementSet = chosen.map(|index| one_ways[index]).collect();
            let combination = self.solve(applied.union(locked));
            if !self.agrees(&combination, locked, duty) {
                continue;
            }
            let mut known = agreeing.iter_mut();
            match known.find(|(other, _)| self.turns_alike(&combination, other)) {
                // Each set of them could carry the torque alone. Nobody knows how they share it.
                Some((_, all)) => *all = all.union(locked),
                None => agreeing.push((combination, locked)),
            }
        }
        let sets: Vec<ElementSet> = agreeing.iter().map(|&(_, locked)| locked).collect();
        let verdict = match agreeing.len() {
            0 if free.state().ratio().is_some() => Verdict::Contradictory,
            0 | 1 => Verdict::Settled,
            _ => Verdict::Ambiguous(sets),
        };
        let combination = match (&verdict, agreeing.pop()) {
            (Verdict::Settled, Some((_, locked))) => self.solve(applied.union(locked)),
            _ => free,
        };
        Settled {
            combination,
            verdict,
        }
    }

    /// Whether a range holds the output back when the load drives: engine braking.
    pub fn brakes_engine(&self, applied: ElementSet) -> bool {
        let drive = self.settle(applied, Duty::Drive);
        let coast = self.settle(applied, Duty::Coast);
        let ratio = drive.combination.state().ratio();
        ratio.is_some() && ratio == coast.combination.state().ratio()
    }

    fn turns_alike(&self, a: &Combination<'_>, b: &Combination<'_>) -> bool {
        let shafts = 0..self.scenario().shafts.len();
        shafts
            .into_iter()
            .all(|shaft| a.shaft_speed(shaft) == b.shaft_speed(shaft))
    }

    /// Whether speeds and torques agree with `locked` being the one-way clutches that lock.
    fn agrees(&self, combination: &Combination<'_>, locked: ElementSet, duty: Duty) -> bool {
        let Some(torques) = Torques::of(combination) else {
            return false;
        };
        self.one_ways().iter().all(|index| {
            let Element::OneWay(OneWay { locks, .. }) = self.scenario().elements[index] else {
                return true;
            };
            if locked.contains(index) {
                // Torque the clutch puts on the shaft, per unit of driving torque; coasting
                // turns every torque round. One that carries none is not needed, and one whose
                // share is undetermined stands beside another that holds as well.
                let torque = torques.element(index).map(|torque| -torque.signum());
                let torque = torque.map(|sign| if duty == Duty::Coast { -sign } else { sign });
                return torque == Some(push(locks));
            }
            combination
                .slip(index)
                .is_some_and(|slip| slip.signum() * push(locks) >= 0)
        })
    }
}

/// The sign of the torque with which it keeps the shaft from turning the way it locks; also
/// the sign of the slip it lets happen.
fn push(locks: Way) -> i32 {
    match locks {
        Way::Backward => 1,
        Way::Forward => -1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A three-speed of two sets with a common sun, carrier 2 on a one-way clutch to the housing.
    fn train(locks: &str) -> Option<Train> {
        train_with("", locks)
    }

    /// The same with more elements.
    fn train_with(more: &str, locks: &str) -> Option<Train> {
        Train::parse(
            &r#"{"format": 1, "name": "T", "input": "in", "output": "out",
            "shafts": [{"id": "in", "label": "In"}, {"id": "r1", "label": "R1"},
              {"id": "s", "label": "S"}, {"id": "c2", "label": "C2"}, {"id": "out", "label": "Out"}],
            "couplings": [
              {"kind": "planetary", "id": "p1", "label": "1", "carrier": "out",
               "sun": {"shaft": "s", "teeth": 33}, "ring": {"shaft": "r1", "teeth": 75},
               "pinion": {"teeth": 21, "count": 3}},
              {"kind": "planetary", "id": "p2", "label": "2", "carrier": "c2",
               "sun": {"shaft": "s", "teeth": 36}, "ring": {"shaft": "out", "teeth": 78},
               "pinion": {"teeth": 21, "count": 3}}],
            "elements": [
              {"kind": "brake", "id": "A", "label": "A", "shaft": "c2"},
              {"kind": "brake", "id": "B", "label": "B", "shaft": "s"},
              {"kind": "clutch", "id": "C", "label": "C", "between": ["in", "r1"]},
              {"kind": "one-way", "id": "F", "label": "F", "shaft": "c2",
               "against": "housing", "locks": "WAY"}MORE]}"#
                .replace("WAY", locks)
                .replace("MORE", more),
        )
        .ok()
    }

    /// Ratio driving, and whether the range brakes the engine.
    #[track_caller]
    fn check(locks: &str, applied: &[&str], ratio: Option<&str>, brakes: bool) {
        let Some(train) = train(locks) else {
            panic!("the train does not parse")
        };
        let Ok(applied) = train.element_set(applied.iter().copied()) else {
            panic!("unknown id")
        };
        let settled = train.settle(applied, Duty::Drive);
        assert_eq!(settled.verdict, Verdict::Settled);
        let found = settled.combination.state().ratio().map(ToString::to_string);
        assert_eq!(found.as_deref(), ratio);
        assert_eq!(train.brakes_engine(applied), brakes);
    }

    #[test]
    fn it_locks_in_first_overruns_in_second_and_brakes_no_engine() {
        check("backward", &["C"], Some("359/150"), false);
        check("backward", &["B", "C"], Some("36/25"), true);
        check("backward", &["A", "C"], Some("359/150"), true);
    }

    /// Two one-way clutches on one carrier: either would do, so both lock, and equilibrium says
    /// of neither what it carries; nor of the input's clutch less than all.
    #[test]
    fn side_by_side_they_share_nobody_knows_how() {
        let Some(train) = train_with(
            r#", {"kind": "one-way", "id": "G", "label": "G", "shaft": "c2",
               "against": "housing", "locks": "backward"}"#,
            "backward",
        ) else {
            panic!("the train does not parse")
        };
        let settled = train.settle(ElementSet::from_bits(0b100), Duty::Drive);
        assert_eq!(settled.verdict, Verdict::Settled);
        let combination = &settled.combination;
        let ratio = combination.state().ratio().map(ToString::to_string);
        assert_eq!(ratio.as_deref(), Some("359/150"));
        assert!(matches!(combination.state(), State::OverApplied(_)));
        assert_eq!(combination.applied(), ElementSet::from_bits(0b11100));
        let torques = Torques::of(combination);
        let carried = |element| torques.as_ref().and_then(|t| t.element(element).cloned());
        assert_eq!((carried(3), carried(4)), (None, None));
        assert_eq!(
            carried(2).map(|torque| torque.to_string()).as_deref(),
            Some("1")
        );
        let words = crate::words::Words::of(combination).sentences.join(" ");
        assert!(words.contains("F and G lock side by side"), "{words}");
    }

    #[test]
    fn the_wrong_way_round_it_holds_only_when_coasting() {
        check("forward", &["C"], None, false);
    }
}
