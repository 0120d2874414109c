//! Tooth checks against worked geometry: assembly, neighbours, common axis.

use levertrain_core::tooth_checks::Rule;
use levertrain_tests::sketch::Sketch;

/// The rules a single-row set breaks, in the order they are reported.
fn broken(sun: u32, pinion: u32, ring: u32, count: u32) -> Vec<Rule> {
    let sketch = Sketch::new("s", "c")
        .planetary("set", ("s", sun), ("r", ring), "c", pinion)
        .pinions(count);
    rules(&sketch)
}

fn broken_double(sun: u32, pinions: (u32, u32), ring: u32, count: u32) -> Vec<Rule> {
    let sketch = Sketch::new("s", "c")
        .double_pinion("set", ("s", sun), ("r", ring), "c", pinions)
        .pinions(count);
    rules(&sketch)
}

fn rules(sketch: &Sketch) -> Vec<Rule> {
    let train = sketch.train();
    let couplings = train.scenario().couplings.iter();
    let warnings = couplings.flat_map(|coupling| coupling.facts().tooth_warnings());
    warnings.map(|warning| warning.rule).collect()
}

#[track_caller]
fn check(what: &str, actual: &[Rule], rule: Rule, expected: bool) {
    let actual_is = actual.contains(&rule);
    eprintln!("{what}: breaks {rule:?}: actual {actual_is}, expected {expected}");
    assert_eq!(actual_is, expected, "{what} breaks {actual:?}");
}

/// (S + R) / N is whole for N = 4 and 5, not for 3. Derived.
#[test]
fn assembly_of_20_30_80() {
    for (count, breaks) in [(3, true), (4, false), (5, false)] {
        let rules = broken(20, 30, 80, count);
        check(
            &format!("20/30/80, N = {count}"),
            &rules,
            Rule::EqualSpacing,
            breaks,
        );
        check("20/30/80", &rules, Rule::Coaxial, false);
    }
}

/// N = 4: 54 sin 45° = 38.18 > 33. N = 5: 31.74 < 33, and 108 / 5 is not whole. Derived.
#[test]
fn neighbours_of_23_31_85() {
    let four = broken(23, 31, 85, 4);
    check("23/31/85, N = 4", &four, Rule::NeighboursClear, false);
    check("23/31/85, N = 4", &four, Rule::EqualSpacing, false);
    let five = broken(23, 31, 85, 5);
    check("23/31/85, N = 5", &five, Rule::NeighboursClear, true);
    check("23/31/85, N = 5", &five, Rule::EqualSpacing, true);
}

/// 31/38/85 with three pinions assembles (123 / 3 and 54 / 3), but (85 − 38) / 2 = 23.5 is no
/// tooth count: the axes only fit with profile shift. It must be warned about and still
/// compute. Derived.
#[test]
fn a_set_that_needs_profile_shift_is_warned_about_and_computes() {
    for pinion in [23, 24] {
        let rules = broken(38, pinion, 85, 3);
        let what = format!("38/{pinion}/85, N = 3");
        check(&what, &rules, Rule::Coaxial, true);
        check(&what, &rules, Rule::EqualSpacing, false);
    }
    let small = broken_double(31, (23, 23), 85, 3);
    check(
        "31/85 with two rows, N = 3",
        &small,
        Rule::EqualSpacing,
        false,
    );

    let train = Sketch::new("s", "c")
        .planetary("set", ("s", 38), ("housing", 85), "c", 23)
        .train();
    let ratio = train
        .solve(Default::default())
        .state()
        .ratio()
        .map(ToString::to_string);
    assert_eq!(ratio.as_deref(), Some("123/38"));
}

/// 30/34/74: N = 4 assembles (108 / 4, 44 / 4); with N = 3 the two-row half fails (44 / 3).
/// Derived.
#[test]
fn assembly_of_30_34_74() {
    for (count, breaks) in [(4, false), (3, true)] {
        let large = broken(34, 20, 74, count);
        check(
            &format!("34/74, N = {count}"),
            &large,
            Rule::EqualSpacing,
            false,
        );
        check("34/20/74", &large, Rule::Coaxial, false);
        let small = broken_double(30, (20, 20), 74, count);
        check(
            &format!("30/74 with two rows, N = {count}"),
            &small,
            Rule::EqualSpacing,
            breaks,
        );
    }
}

/// R = S + 2P: the Modelica Standard Library's IdealPlanetary has zp = (zr − zs) / 2. Read in
/// the source.
#[test]
fn common_axis() {
    check("20/30/80", &broken(20, 30, 80, 4), Rule::Coaxial, false);
    check("20/29/80", &broken(20, 29, 80, 4), Rule::Coaxial, true);
    check("20/30/81", &broken(20, 30, 81, 4), Rule::Coaxial, true);
}

/// Inner pin at (S + I) / 2, outer at (R − O) / 2, apart (I + O) / 2: with 30, 20, 20 and a ring
/// of 74 that is 25, 27 and 20; with a ring of 160 it is 25, 70 and 20, which is no triangle.
/// Derived.
#[test]
fn pins_of_two_rows_must_reach_each_other() {
    let reach = broken_double(30, (20, 20), 74, 4);
    check("30/20/20/74", &reach, Rule::Coaxial, false);
    let apart = broken_double(30, (20, 20), 160, 2);
    check("30/20/20/160", &apart, Rule::Coaxial, true);
}

/// A pinion alone has no neighbour, so no number of teeth makes it touch one. Derived.
#[test]
fn one_pinion_is_always_clear() {
    check(
        "12/90/192, N = 1",
        &broken(12, 90, 192, 1),
        Rule::NeighboursClear,
        false,
    );
    check(
        "12/90/192, N = 3",
        &broken(12, 90, 192, 3),
        Rule::NeighboursClear,
        true,
    );
}

/// Common practice, no source: fewer than 12 teeth are warned about, and the gear is named.
#[test]
fn few_teeth_are_named() {
    let train = Sketch::new("s", "c")
        .planetary("set", ("s", 11), ("r", 41), "c", 15)
        .pair("pair", false, ("c", 12), ("x", 8))
        .train();
    let couplings = train.scenario().couplings.iter();
    let few: Vec<String> = couplings
        .flat_map(|coupling| coupling.facts().tooth_warnings())
        .filter(|warning| warning.rule == Rule::FewestTeeth)
        .map(|warning| warning.text)
        .collect();
    assert_eq!(few.len(), 2, "{few:?}");
    assert!(few[0].contains("sun") && few[0].contains("11"), "{few:?}");
    assert!(
        few[1].contains("second gear") && few[1].contains('8'),
        "{few:?}"
    );
}
