//! How one-way clutches settle: which lock and which overrun, for drive and for coast.

use levertrain_exact::{Fraction, Terms};

use crate::base::element_set::ElementSet;
use crate::model::scenario::{Element, OneWay, Way};
use crate::solve::locking::locking_sets;
use crate::solve::{Combination, State, narrowed};
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
    /// two is zero (derived; common practice in transmission textbooks). Which of them lock is
    /// an exact linear program, see `locking.rs` beside this file. Where none lets torque
    /// through, all overrun: the train is free for this duty. Where several give the same motion,
    /// all of theirs lock: they stand side by side, and their torques are undetermined.
    pub fn settle(&self, applied: ElementSet, duty: Duty) -> Settled<'_> {
        let one_ways: Vec<usize> = self.one_ways().iter().collect();
        let free = self.solve(applied);
        if one_ways.is_empty() || *free.state() == State::TiedUp {
            return Settled {
                combination: free,
                verdict: Verdict::Settled,
            };
        }
        let (motions, _) = narrowed(self.coupled(), self, free.applied());
        let slips: Vec<Terms> = one_ways.iter().map(|&x| self.free_slip(x)).collect();
        let driving = duty == Duty::Drive;
        let sets = locking_sets(&motions, self.input(), self.output(), &slips, driving);
        let sets: Vec<ElementSet> = sets
            .into_iter()
            .map(|bits| ElementSet::from_bits(bits).iter())
            .map(|chosen| chosen.map(|index| one_ways[index]).collect())
            .collect();
        let (combination, verdict) = match sets[..] {
            [] if free.state().ratio().is_some() => (free, Verdict::Contradictory),
            [] => (free, Verdict::Settled),
            [locked] => (self.solve(applied.union(locked)), Verdict::Settled),
            _ => (free, Verdict::Ambiguous(sets)),
        };
        Settled {
            combination,
            verdict,
        }
    }

    /// Whether a range holds the output back when the load drives: engine braking.
    pub fn brakes_engine(&self, applied: ElementSet) -> bool {
        let drive = self.settle(applied, Duty::Drive);
        self.coasts_alike(applied, drive.combination.state().ratio())
    }

    /// As [`Train::brakes_engine`], where the ratio driving is known, if there is one.
    pub fn coasts_alike(&self, applied: ElementSet, driving: Option<&Fraction>) -> bool {
        let coasting = || self.settle(applied, Duty::Coast).combination;
        driving.is_some() && driving == coasting().state().ratio()
    }

    /// A one-way clutch's slip, counted positive the way it lets happen.
    fn free_slip(&self, element: usize) -> Terms {
        let turned = match self.scenario().elements[element] {
            Element::OneWay(OneWay {
                locks: Way::Forward,
                ..
            }) => -1,
            _ => 1,
        };
        let terms = self.slip_terms(element).iter();
        terms
            .map(|&(shaft, factor)| (shaft, turned * factor))
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::solve::torque::Torques;

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
