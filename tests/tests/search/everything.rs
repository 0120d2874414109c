//! Every kind of coupling: the search finds what trying everything finds, no more and no less.

use levertrain_core::search::{Ask, Criterion, Limits, Near, Rules, Search, Wanted};
use levertrain_core::{Duty, Train};
use levertrain_tests::sketch::Sketch;

use crate::brute::{Counts, efficiency_of, every_cut, front};

/// An ask for the ratios that a train has, within a tolerance, for teeth and pinion teeth within these.
pub fn ask(train: &Train, tolerance: f64, teeth: [u32; 2], pinion_teeth: [u32; 2]) -> Ask {
    let ranges = train.scenario().ranges.iter().enumerate();
    let wanted = ranges.filter_map(|(at, range)| {
        let settled = train.settle(train.range(at), Duty::Drive).combination;
        Some(Wanted {
            range: range.id.clone(),
            ratio: Some(settled.state().ratio()?.to_f64()),
            tolerance: Some(tolerance),
            ..Wanted::default()
        })
    });
    Ask {
        wanted: wanted.collect(),
        teeth,
        pinion_teeth,
        ..Ask::default()
    }
}

/// All finds of a search.
pub fn finds(train: &Train, ask: &Ask) -> Search {
    let mut search = match Search::new(train, ask) {
        Ok(search) => search,
        Err(problems) => panic!("{problems:#?}"),
    };
    while !search.run(1000) {}
    let counts = search.counts();
    let all = counts.outside + counts.beaten + counts.tried;
    assert_eq!(
        all,
        search.candidates(),
        "each candidate is tried or cut off once"
    );
    search
}

/// What counts of each find.
pub fn counted(search: &Search, ask: &Ask) -> Vec<Counts> {
    let finds = search.finds();
    let all = finds.iter().map(|find| {
        let of = |criterion: &Criterion| match criterion {
            Criterion::Error => find.measures.error,
            Criterion::Steps => find.measures.unevenness,
            Criterion::Size => f64::from(find.measures.size),
            Criterion::Efficiency => 1.0 - find.measures.efficiency,
            Criterion::PinionSpeed => find.measures.pinion_speed,
        };
        ask.best.iter().map(of).map(crate::brute::counted).collect()
    });
    all.collect()
}

#[track_caller]
fn check(sketch: &Sketch, ask_of: impl Fn(&Train) -> Ask) {
    let train = sketch.train();
    for best in [
        vec![Criterion::Error, Criterion::Size],
        vec![Criterion::Size, Criterion::Steps, Criterion::Error],
        Criterion::ALL.to_vec(),
    ] {
        let ask = Ask {
            best,
            ..ask_of(&train)
        };
        let couplings = &train.scenario().couplings;
        let cuts: Vec<_> = couplings.iter().map(|set| every_cut(set, &ask)).collect();
        let expected = front(train.scenario(), &cuts, &ask);
        assert!(!expected.is_empty(), "there is something to find");
        let search = finds(&train, &ask);
        let found = counted(&search, &ask);
        let extra = found.iter().find(|counts| !expected.contains(counts));
        let missing = expected.iter().find(|counts| !found.contains(counts));
        assert_eq!(
            (extra, missing),
            (None, None),
            "of {}, {:?}",
            expected.len(),
            ask.best
        );
        assert_eq!(found.len(), expected.len(), "each once");
    }
}

/// One planetary set in three of its ratios.
fn single() -> Sketch {
    Sketch::new("sun", "carrier")
        .planetary("p", ("sun", 24), ("ring", 60), "carrier", 18)
        .brake("B", "ring")
        .clutch("C", "sun", "ring")
        .range("1", &["B"])
        .range("2", &["C"])
}

/// Two planetary sets, carrier of the first and ring of the second on the output, a common sun.
pub fn common_sun() -> Sketch {
    Sketch::new("in", "out")
        .planetary("front", ("sun", 24), ("ring1", 54), "out", 15)
        .planetary("rear", ("sun", 21), ("out", 51), "carrier2", 15)
        .clutch("F", "in", "ring1")
        .clutch("D", "in", "sun")
        .brake("B2", "sun")
        .brake("B1", "carrier2")
        .range("1", &["F", "B1"])
        .range("2", &["F", "B2"])
        .range("3", &["F", "D"])
        .range("R", &["D", "B1"])
}

#[test]
fn a_planetary_set() {
    check(&single(), |train| ask(train, 0.15, [18, 66], [12, 24]));
}

#[test]
fn two_planetary_sets() {
    check(&common_sun(), |train| ask(train, 0.08, [18, 58], [12, 20]));
}

#[test]
fn two_planetary_sets_with_one_size_of_ring() {
    check(&common_sun(), |train| Ask {
        same_ring: vec![vec!["front".to_owned(), "rear".to_owned()]],
        ..ask(train, 0.12, [18, 58], [12, 20])
    });
}

#[test]
fn two_planetary_sets_for_a_spread_and_even_steps() {
    check(&common_sun(), |train| {
        let usual = ask(train, 0.08, [18, 58], [12, 20]);
        let free = usual.wanted.iter().map(|wanted| Wanted {
            ratio: None,
            tolerance: None,
            ..wanted.clone()
        });
        Ask {
            wanted: free.collect(),
            spread: Some(Near {
                value: 2.5,
                tolerance: 0.04,
            }),
            steps: Some(Near {
                value: 1.1,
                tolerance: 0.2,
            }),
            ..usual
        }
    });
}

#[test]
fn two_planetary_sets_within_limits() {
    check(&common_sun(), |train| Ask {
        limits: Limits {
            pinion_speed: Some(3.0),
            efficiency: Some(0.9),
            open_speed: None,
        },
        ..ask(train, 0.08, [18, 58], [12, 20])
    });
}

/// The first range must be as efficient as it is with the teeth that the train has; the other ranges are as they are.
#[test]
fn two_planetary_sets_with_a_least_efficiency_of_one_range() {
    let limited = |train: &Train| {
        let settled = train.settle(train.range(0), Duty::Drive).combination;
        let mut asked = ask(train, 0.08, [18, 58], [12, 20]);
        asked.wanted[0].efficiency = Some(efficiency_of(&settled));
        asked
    };
    check(&common_sun(), limited);
    let train = common_sun().train();
    let [with, without] = [limited(&train), ask(&train, 0.08, [18, 58], [12, 20])]
        .map(|ask| counted(&finds(&train, &ask), &ask));
    assert_ne!(with, without, "it excludes something");
}

#[test]
fn a_double_pinion_set() {
    let sketch = Sketch::new("carrier", "ring")
        .double_pinion("p", ("sun", 24), ("ring", 60), "carrier", (14, 14))
        .brake("B", "sun")
        .range("1", &["B"]);
    check(&sketch, |train| ask(train, 0.1, [20, 62], [12, 17]));
}

#[test]
fn a_stepped_set() {
    let sketch = Sketch::new("carrier", "ring")
        .stepped("p", ("sun", 24), ("ring", 63), "carrier", (21, 18))
        .brake("B", "sun")
        .range("1", &["B"]);
    check(&sketch, |train| ask(train, 0.05, [18, 66], [12, 24]));
}

#[test]
fn two_suns_on_stepped_pinions() {
    let sketch = Sketch::new("carrier", "second")
        .stepped_suns("p", [("first", 30), ("second", 27)], "carrier", [18, 21])
        .brake("B", "first")
        .range("1", &["B"]);
    check(&sketch, |train| ask(train, 0.1, [18, 36], [15, 24]));
}

#[test]
fn a_ravigneaux_set() {
    let sketch = Sketch::new("in", "ring")
        .ravigneaux(
            "p",
            [("small", 24), ("large", 30)],
            ("ring", 66),
            "carrier",
            (15, 18),
        )
        .clutch("K1", "in", "small")
        .clutch("K2", "in", "large")
        .brake("B1", "carrier")
        .brake("B2", "large")
        .range("1", &["K1", "B1"])
        .range("2", &["K1", "B2"])
        .range("3", &["K1", "K2"])
        .range("R", &["K2", "B1"]);
    check(&sketch, |train| Ask {
        pinions: vec![3],
        ..ask(train, 0.1, [21, 66], [14, 18])
    });
}

#[test]
fn a_set_and_a_pair() {
    let sketch = Sketch::new("sun", "out")
        .planetary("p", ("sun", 18), ("ring", 48), "carrier", 15)
        .pair("g", false, ("carrier", 20), ("out", 30))
        .brake("B", "ring")
        .range("1", &["B"]);
    check(&sketch, |train| ask(train, 0.03, [18, 50], [12, 18]));
}

/// A pair away from the axis and one back to it, external and internal ones, and beside a set.
#[test]
fn pairs_with_axes_as_far_apart() {
    let both = |train: &Train, tolerance: f64, ids: [&str; 2]| Ask {
        same_distance: vec![ids.map(str::to_owned).to_vec()],
        ..ask(train, tolerance, [18, 44], [12, 18])
    };
    for internal in [false, true] {
        let back = if internal { 26 } else { 24 };
        let sketch = Sketch::new("in", "out")
            .pair(
                "away",
                internal,
                ("in", 19),
                ("lay", if internal { 40 } else { 31 }),
            )
            .pair(
                "back",
                internal,
                ("lay", back),
                ("out", if internal { 47 } else { 26 }),
            )
            .range("1", &[]);
        check(&sketch, |train| both(train, 0.02, ["away", "back"]));
    }
}

/// Without the coaxial rule a set may be off by half a tooth of shift at each mesh.
#[test]
fn without_the_coaxial_rule_odd_differences_are_found_too() {
    let train = single().train();
    let strict = ask(&train, 0.02, [18, 66], [12, 30]);
    let loose = Ask {
        rules: vec![
            Rules::EqualSpacing,
            Rules::NeighboursClear,
            Rules::FewestTeeth,
        ],
        ..strict.clone()
    };
    let odd = |ask: &Ask| {
        let search = finds(&train, ask);
        let finds = search.finds();
        finds
            .iter()
            .flat_map(|find| search.scenario(find).couplings)
            .filter(|set| !set.facts().tooth_warnings().is_empty())
            .count()
    };
    assert_eq!(odd(&strict), 0);
    let [strict, loose] = [&strict, &loose].map(|ask| finds(&train, ask).candidates());
    assert!(loose > strict, "{loose} candidates, {strict} with the rule");
}
