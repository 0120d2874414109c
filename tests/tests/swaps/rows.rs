//! The best rows of ranges, against all there are.

use levertrain_core::Train;
use levertrain_core::swaps::{Bounds, Chain, Chains, Graph};
use levertrain_tests::generate::{ANY, Kind, settings, sketch};
use levertrain_tests::rational::rational;
use proptest::prelude::*;

use crate::model::{best_rows, trains};

/// Checks what is found of a train, and returns how many ranges the best row has.
fn check(train: &Train, bounds: &Bounds) -> Result<usize, TestCaseError> {
    let graph = Graph::of_train(train);
    let found = Chains::best(&graph, bounds);
    prop_assert!(found.is_complete);
    let nodes: Vec<Vec<usize>> = found
        .chains
        .iter()
        .map(|chain| chain.nodes.clone())
        .collect();
    prop_assert_eq!(&nodes, &best_rows(train, &graph, bounds));
    for chain in &found.chains {
        prop_assert_eq!(chain, &Chain::of(&graph, chain.nodes.clone()));
        let ratios = chain
            .nodes
            .iter()
            .map(|&node| rational(&graph.nodes()[node].ratio));
        let ratios: Vec<_> = ratios.collect();
        for (step, pair) in chain.steps.iter().zip(ratios.windows(2)) {
            prop_assert_eq!(rational(step), &pair[0] / &pair[1]);
        }
        prop_assert_eq!(
            rational(&chain.spread()),
            &ratios[0] / &ratios[ratios.len() - 1]
        );
    }
    Ok(nodes.first().map_or(0, Vec::len))
}

#[test]
fn our_scenarios_have_no_better_rows_than_are_found() -> anyhow::Result<()> {
    let mut longest = 0;
    for (stem, train) in trains() {
        // The first has hundreds of combinations that drive, and ways without end between them.
        let steps: &[(u32, u32)] = match stem.starts_with("01") {
            true => &[(150, 220)],
            false => &[(101, 1000), (110, 220), (120, 180)],
        };
        for &(least, most) in steps {
            for ranges in [3, 32] {
                let bounds = Bounds::of_hundredths(least, most, ranges);
                let ranges = check(&train, &bounds)
                    .map_err(|error| anyhow::anyhow!("{stem}, {bounds:?}: {error}"))?;
                longest = longest.max(ranges);
            }
        }
    }
    anyhow::ensure!(longest >= 8, "{longest}");
    Ok(())
}

#[test]
fn bounds_are_kept_exactly() {
    // 3rd to 4th of this one is 1 to 25/36 or so: a bound at a step itself holds it, a little above does not.
    let (_, train) = trains().swap_remove(4);
    let graph = Graph::of_train(&train);
    let all = Chains::best(&graph, &Bounds::of_hundredths(101, 100_000, 2));
    let Some(chain) = all.chains.first() else {
        panic!("no pair of ranges")
    };
    let step = chain.steps[0].clone();
    let at = |least, most| {
        Chains::best(
            &graph,
            &Bounds {
                least,
                most,
                ranges: 2,
            },
        )
    };
    let has = |found: &Chains| found.chains.iter().any(|chain| chain.steps[0] == step);
    assert!(has(&at(step.clone(), step.clone())));
    let tiny = levertrain_core::Fraction::new(1, 1 << 60).unwrap_or_else(|| panic!("no fraction"));
    let above = &step + &tiny;
    let below = &step - &tiny;
    assert!(!has(&at(above.clone(), &above + &above)));
    assert!(!has(&at(levertrain_core::Fraction::ONE, below)));
}

/// Random trains that have few enough ways to go them all.
const FEW: Kind = Kind {
    elements: 6,
    teeth: 90,
    ..ANY
};

proptest! {
    #![proptest_config(settings(300))]

    #[test]
    fn random_trains_have_no_better_rows_than_are_found(sketch in sketch(FEW), least in 101..150_u32, ranges in 2..5_usize) {
        let train = sketch.train();
        check(&train, &Bounds::of_hundredths(least, 3 * least, ranges))?;
    }
}
