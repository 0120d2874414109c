//! Published layouts, found again from their ratios alone. Sources are those of the references in
//! `tests/tests/references`.

use levertrain_core::Scenario;
use levertrain_core::layouts::{LayoutAsk, LayoutSearch, WantedRatio};
use levertrain_core::search::Rules;
use levertrain_tests::sketch::Sketch;

use crate::alike::is_alike;

/// As far as a ratio printed with three digits after the point can be off, and a little more.
const TOLERANCE: f64 = 0.005;

fn ask(sets: &[&str], elements: u32, forward: &[f64], reverse: f64) -> LayoutAsk {
    let wanted = |&ratio: &f64| WantedRatio {
        ratio: Some(ratio),
        tolerance: Some(TOLERANCE),
        ..WantedRatio::default()
    };
    LayoutAsk {
        sets: sets.iter().map(|&set| set.to_owned()).collect(),
        applied: 2,
        elements,
        forward: forward.iter().map(wanted).collect(),
        backward: Some(wanted(&reverse)),
        ..LayoutAsk::default()
    }
}

/// Goes through all of it and gives what was found.
#[track_caller]
fn all(ask: &LayoutAsk) -> Vec<Scenario> {
    let mut search = LayoutSearch::new(ask).unwrap_or_else(|problems| panic!("{problems:#?}"));
    while !search.run(100) {}
    assert_eq!(search.counts().unended + search.counts().given_up, 0);
    let found = search.found();
    found.iter().map(|found| found.scenario.clone()).collect()
}

#[track_caller]
fn is_among(found: &[Scenario], sketch: &Sketch) {
    let train = sketch.train();
    let count = found
        .iter()
        .filter(|found| is_alike(found, train.scenario()))
        .count();
    assert_eq!(count, 1, "in {} layouts", found.len());
}

/// Two sets with a common sun, from each of the three published ratio sets.
#[test]
fn two_sets_with_a_common_sun() {
    let sketch = Sketch::new("in", "out")
        .planetary("front", ("sun", 35), ("ring1", 73), "out", 19)
        .planetary("rear", ("sun", 35), ("out", 73), "carrier2", 19)
        .clutch("F", "in", "ring1")
        .clutch("D", "in", "sun")
        .brake("B2", "sun")
        .brake("B1", "carrier2");
    for (forward, reverse) in [
        ([2.479, 1.479, 1.0], -2.086),
        ([2.733, 1.562, 1.0], -2.086),
        ([2.714, 1.500, 1.0], -2.429),
    ] {
        let found = all(&ask(&["planetary", "planetary"], 4, &forward, reverse));
        is_among(&found, &sketch);
    }
}

/// Suns 30 and 36, ring 72, with the third range direct.
#[test]
fn a_ravigneaux_four_speed() {
    let sketch = Sketch::new("in", "ring")
        .ravigneaux(
            "p",
            [("small", 30), ("large", 36)],
            ("ring", 72),
            "carrier",
            (18, 18),
        )
        .clutch("K1", "in", "small")
        .clutch("K2", "in", "large")
        .clutch("K3", "in", "carrier")
        .brake("B1", "carrier")
        .brake("B2", "large");
    // Printed with two digits after the point.
    let mut ask = ask(&["ravigneaux"], 5, &[2.4, 1.47, 1.0, 0.67], -2.0);
    ask.forward[3].tolerance = Some(0.0075);
    is_among(&all(&ask), &sketch);
}

/// Front sun 37 and ring 71, rear suns 31 and 38, ring 85: the ratios as printed, with two digits after the point. It is the
/// only layout of these sets and so many elements.
#[test]
fn a_front_set_and_a_ravigneaux_set() {
    let sketch = Sketch::new("in", "ring")
        .planetary("front", ("housing", 37), ("in", 71), "f", 17)
        .ravigneaux("rear", [("a", 31), ("b", 38)], ("ring", 85), "c", (20, 23))
        .clutch("A", "f", "a")
        .clutch("B", "f", "b")
        .clutch("E", "in", "c")
        .brake("C", "b")
        .brake("D", "c");
    let forward = [4.17, 2.34, 1.52, 1.14, 0.87, 0.69];
    let mut ask = ask(&["planetary", "ravigneaux"], 5, &forward, -3.40);
    for (wanted, ratio) in ask.forward.iter_mut().zip(forward) {
        wanted.tolerance = Some(0.005 / ratio);
    }
    ask.teeth = [30, 85];
    ask.pinion_teeth = [14, 30];
    // Its rear pins need profile shift, (85 − 38)/2 being no whole number.
    ask.rules = vec![
        Rules::EqualSpacing,
        Rules::NeighboursClear,
        Rules::FewestTeeth,
    ];
    let found = all(&ask);
    is_among(&found, &sketch);
    assert_eq!(found.len(), 1);
}

/// A Ravigneaux mechanism of seven links gives at most four forward speeds: E. L. Esmail, Advances in Mechanical Engineering
/// 2013, article 120324, abstract. The links counted here: two suns, ring, carrier, short and long pinions, housing. The
/// rules: those of [`levertrain_core::layouts`], two of up to six elements applied, single swaps between neighbours,
/// falling ratios that differ by 1 % at least, with or without a reverse.
#[test]
fn a_ravigneaux_set_alone_has_at_most_four_forward_ranges() {
    let ask = |ranges: usize, reverse: Option<WantedRatio>| LayoutAsk {
        sets: vec!["ravigneaux".to_owned()],
        elements: 6,
        forward: vec![WantedRatio::default(); ranges],
        backward: reverse,
        step: Some([1.01, 1000.0]),
        teeth: [20, 60],
        ..LayoutAsk::default()
    };
    for reverse in [None, Some(WantedRatio::default())] {
        assert!(!all(&ask(4, reverse)).is_empty());
        assert_eq!(all(&ask(5, reverse)), Vec::<Scenario>::new());
    }
}
