//! How one-way clutches settle is what trying every set of them finds.

use levertrain_core::{Combination, Duty, ElementSet, State, Torques, Train, Verdict};
use levertrain_tests::generate::{ANY, Kind, LARGE, settings, sketch};
use levertrain_tests::sketch::{HOUSING, Sketch};
use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::json;

/// What becomes of an element of a sketch.
#[derive(Debug, Clone, Copy)]
pub(super) enum Role {
    /// It stays open.
    Open,
    /// It stays as it is and is applied.
    Applied,
    /// It is a one-way clutch; whether it locks backward, and the way its ends stand.
    OneWay(bool, bool),
}

#[derive(Debug, Clone)]
pub(super) struct Overrunning {
    sketch: Sketch,
    roles: Vec<Role>,
}

impl Overrunning {
    pub(super) fn train(&self) -> Train {
        let mut scenario = self.sketch.to_json();
        for (index, role) in self.roles.iter().enumerate() {
            let Role::OneWay(backward, turned) = *role else {
                continue;
            };
            let [first, second] = &self.sketch.elements[index].ends;
            let (shaft, against) = if turned && second != HOUSING {
                (second, first)
            } else {
                (first, second)
            };
            let id = &self.sketch.elements[index].id;
            let locks = if backward { "backward" } else { "forward" };
            scenario["elements"][index] = json!({"kind": "one-way", "id": id, "label": id,
                "shaft": shaft, "against": against, "locks": locks});
        }
        let text = scenario.to_string();
        Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:#?}\nin {text}"))
    }

    pub(super) fn picked(&self, pick: impl Fn(Role) -> bool) -> Vec<usize> {
        let roles = self.roles.iter().enumerate();
        roles
            .filter(|(_, role)| pick(**role))
            .map(|(index, _)| index)
            .collect()
    }

    /// The sign of the torque a one-way clutch can put on its shaft, and of the slip it allows.
    fn push(&self, element: usize) -> i32 {
        match self.roles[element] {
            Role::OneWay(false, _) => -1,
            _ => 1,
        }
    }

    /// Tries every set of one-way clutches that could lock.
    fn by_trying(&self, train: &Train, duty: Duty) -> (ElementSet, Verdict) {
        let applied: ElementSet = self
            .picked(|role| matches!(role, Role::Applied))
            .into_iter()
            .collect();
        self.settled_by_trying(train, applied, duty)
    }

    /// As [`Overrunning::by_trying`] with other elements applied.
    pub(super) fn settled_by_trying(
        &self,
        train: &Train,
        applied: ElementSet,
        duty: Duty,
    ) -> (ElementSet, Verdict) {
        let one_ways = self.picked(|role| matches!(role, Role::OneWay(..)));
        let free = train.solve(applied);
        if *free.state() == State::TiedUp {
            return (applied, Verdict::Settled);
        }
        let mut agreeing: Vec<(Combination<'_>, ElementSet)> = Vec::new();
        for bits in 0..1_u32 << one_ways.len() {
            let chosen = ElementSet::from_bits(bits).iter();
            let locked: ElementSet = chosen.map(|place| one_ways[place]).collect();
            let combination = train.solve(applied.union(locked));
            if !self.agrees(&one_ways, &combination, locked, duty) {
                continue;
            }
            let alike = |other: &Combination<'_>| {
                let mut shafts = 0..train.scenario().shafts.len();
                shafts.all(|shaft| combination.shaft_speed(shaft) == other.shaft_speed(shaft))
            };
            match agreeing.iter_mut().find(|(other, _)| alike(other)) {
                Some((_, all)) => *all = all.union(locked),
                None => agreeing.push((combination, locked)),
            }
        }
        let sets: Vec<ElementSet> = agreeing.iter().map(|&(_, all)| all).collect();
        match sets[..] {
            [] if free.state().ratio().is_some() => (applied, Verdict::Contradictory),
            [] => (applied, Verdict::Settled),
            [locked] => (applied.union(locked), Verdict::Settled),
            _ => (applied, Verdict::Ambiguous(sets)),
        }
    }

    fn agrees(
        &self,
        one_ways: &[usize],
        combination: &Combination<'_>,
        locked: ElementSet,
        duty: Duty,
    ) -> bool {
        let Some(torques) = Torques::of(combination) else {
            return false;
        };
        let turned = if duty == Duty::Coast { -1 } else { 1 };
        one_ways.iter().all(|&element| {
            let push = self.push(element);
            if locked.contains(element) {
                let passed = torques.element(element).map(|torque| torque.signum());
                return passed.is_some_and(|passed| -passed * turned * push > 0);
            }
            let slip = combination.slip(element);
            slip.is_some_and(|slip| slip.signum() * push >= 0)
        })
    }
}

pub(super) fn overrunning(kind: Kind) -> impl Strategy<Value = Overrunning> {
    sketch(kind).prop_flat_map(|sketch| {
        let one_way = (any::<bool>(), any::<bool>());
        let role = prop_oneof![
            1 => Just(Role::Open),
            1 => Just(Role::Applied),
            6 => one_way.prop_map(|(backward, turned)| Role::OneWay(backward, turned)),
        ];
        let roles = vec(role, sketch.elements.len());
        (Just(sketch), roles).prop_map(|(sketch, roles)| Overrunning { sketch, roles })
    })
}

fn check(case: &Overrunning) -> Result<(), TestCaseError> {
    let train = case.train();
    let applied: ElementSet = case
        .picked(|role| matches!(role, Role::Applied))
        .into_iter()
        .collect();
    for duty in [Duty::Drive, Duty::Coast] {
        let settled = train.settle(applied, duty);
        let (locked, verdict) = case.by_trying(&train, duty);
        prop_assert_eq!(&settled.verdict, &verdict, "{:?}", duty);
        prop_assert_eq!(settled.combination.applied(), locked, "{:?}", duty);
    }
    Ok(())
}

proptest! {
    #![proptest_config(settings(4000))]

    #[test]
    fn small_trains_settle_as_trying_all_sets_says(
        case in overrunning(Kind { couplings: 2, elements: 7, teeth: 30, ..ANY })
    ) {
        check(&case)?;
    }
}

proptest! {
    #![proptest_config(settings(150))]

    #[test]
    fn large_trains_settle_as_trying_all_sets_says(case in overrunning(LARGE)) {
        check(&case)?;
    }
}

/// The cases above are not all of one kind.
#[test]
fn every_verdict_is_met() {
    use proptest::strategy::ValueTree;
    use proptest::test_runner::{TestRng, TestRunner};
    let rng = TestRng::deterministic_rng(proptest::test_runner::RngAlgorithm::ChaCha);
    let mut runner = TestRunner::new_with_rng(settings(1), rng);
    let kind = Kind {
        couplings: 2,
        elements: 7,
        teeth: 30,
        ..ANY
    };
    let (mut several, mut ambiguous, mut contradictory, mut beside) = (0, 0, 0, 0);
    for _ in 0..2000 {
        let Ok(tree) = overrunning(kind).new_tree(&mut runner) else {
            panic!("no case")
        };
        let case = tree.current();
        let train = case.train();
        let applied: ElementSet = case
            .picked(|role| matches!(role, Role::Applied))
            .into_iter()
            .collect();
        for duty in [Duty::Drive, Duty::Coast] {
            let settled = train.settle(applied, duty);
            let locked = settled.combination.applied().minus(applied);
            match settled.verdict {
                Verdict::Settled => {
                    several += usize::from(locked.len() > 1);
                    let free = train.solve(applied).surplus();
                    beside += usize::from(settled.combination.surplus() > free);
                }
                Verdict::Ambiguous(_) => ambiguous += 1,
                Verdict::Contradictory => contradictory += 1,
            }
        }
    }
    let met = [several, ambiguous, contradictory, beside];
    assert!(met.iter().all(|&count| count > 2), "{met:?}");
}
