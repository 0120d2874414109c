//! Many combinations at once say the same as one at a time.

use levertrain_core::report::CombinationReport;
use levertrain_core::{ElementSet, Train};
use levertrain_tests::generate::{ANY, Kind, LARGE, settings, sketch};
use levertrain_tests::sketch::Sketch;
use proptest::prelude::*;

fn check_all(sketch: &Sketch) -> Result<(), TestCaseError> {
    let train = sketch.train();
    let mut visited = Vec::new();
    train.for_each_combination(|combination| {
        let single = train.solve(combination.applied());
        visited.push((
            combination.applied(),
            CombinationReport::from(combination) == CombinationReport::from(&single)
                && combination.state() == single.state()
                && combination.releasable() == single.releasable()
                && combination.fight() == single.fight(),
        ));
    });
    let sets: Vec<ElementSet> = visited.iter().map(|(applied, _)| *applied).collect();
    let all = (0..1_u32 << sketch.elements.len()).map(ElementSet::from_bits);
    prop_assert_eq!(sets, all.collect::<Vec<_>>());
    let different = visited.into_iter().find(|(_, same)| !same);
    prop_assert_eq!(different, None);
    Ok(())
}

proptest! {
    #![proptest_config(settings(60))]

    #[test]
    fn every_combination_is_visited_once_and_solved_alike(
        sketch in sketch(Kind { elements: 5, ..ANY }),
    ) {
        check_all(&sketch)?;
    }

    #[test]
    fn the_range_chart_solves_each_range(
        sketch in sketch(ANY),
        picks in prop::collection::vec(0..64_u32, 1..6),
    ) {
        let mut sketch = sketch;
        let ids: Vec<String> = sketch.elements.iter().map(|x| x.id.clone()).collect();
        for (index, bits) in picks.into_iter().enumerate() {
            let applied = ids.iter().enumerate();
            let applied = applied.filter(|(element, _)| bits >> element & 1 == 1);
            let applied = applied.map(|(_, id)| id.clone()).collect();
            sketch.ranges.push((format!("r{index}"), applied));
        }
        let train = sketch.train();
        let chart = train.range_chart();
        prop_assert_eq!(chart.ranges.len(), sketch.ranges.len());
        for (index, entry) in chart.ranges.iter().enumerate() {
            let ids = sketch.ranges[index].1.iter().map(String::as_str);
            let applied = train.element_set(ids).ok();
            prop_assert_eq!(Some(entry.combination.applied()), applied);
            let single = train.solve(entry.combination.applied());
            prop_assert_eq!(
                CombinationReport::from(&entry.combination),
                CombinationReport::from(&single)
            );
        }
    }
}

proptest! {
    #![proptest_config(settings(10))]

    #[test]
    fn large_trains_too(sketch in sketch(Kind { elements: 6, ..LARGE })) {
        check_all(&sketch)?;
    }
}

/// The benchmarks time these: they must be scenarios, and have a row a range.
#[test]
fn the_worst_allowed_scenarios_have_a_chart() {
    for worst in levertrain_tests::worst::files() {
        let train = Train::parse(&worst.text);
        let train = train.unwrap_or_else(|problems| panic!("{}: {problems:?}", worst.name));
        assert_eq!(train.range_chart().ranges.len(), 32, "{}", worst.name);
        assert_eq!(train.scenario().elements.len(), 16, "{}", worst.name);
    }
}
