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

fn broken_ravigneaux(
    [small, large]: [u32; 2],
    pinions: (u32, u32),
    ring: u32,
    count: u32,
) -> Vec<Rule> {
    let sketch = Sketch::new("a", "c")
        .ravigneaux(
            "set",
            [("a", small), ("b", large)],
            ("r", ring),
            "c",
            pinions,
        )
        .pinions(count);
    rules(&sketch)
}

fn broken_stepped(sun: u32, steps: (u32, u32), ring: u32, count: u32) -> Vec<Rule> {
    let sketch = Sketch::new("s", "c")
        .stepped("set", ("s", sun), ("r", ring), "c", steps)
        .pinions(count);
    rules(&sketch)
}

fn broken_stepped_suns(suns: [u32; 2], steps: [u32; 2], count: u32) -> Vec<Rule> {
    let [first, second] = suns;
    let sketch = Sketch::new("a", "c")
        .stepped_suns("set", [("a", first), ("b", second)], "c", steps)
        .pinions(count);
    rules(&sketch)
}

fn rules(sketch: &Sketch) -> Vec<Rule> {
    let train = sketch.train();
    let couplings = train.scenario().couplings.iter();
    let warnings = couplings.flat_map(|coupling| coupling.facts().tooth_warnings());
    warnings.map(|warning| warning.rule()).collect()
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

    for long in [23, 24] {
        let rules = broken_ravigneaux([31, 38], (23, long), 85, 3);
        let what = format!("31/38/{long}/85, N = 3");
        check(&what, &rules, Rule::Coaxial, true);
        check(&what, &rules, Rule::EqualSpacing, false);
    }

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
        let whole = broken_ravigneaux([30, 34], (20, 20), 74, count);
        check(
            &format!("30/34/74, N = {count}"),
            &whole,
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
        .filter(|warning| warning.rule() == Rule::FewestTeeth)
        .map(|warning| warning.sentence())
        .collect();
    assert_eq!(few.len(), 2, "{few:?}");
    assert!(few[0].contains("sun") && few[0].contains("11"), "{few:?}");
    assert!(
        few[1].contains("second gear") && few[1].contains('8'),
        "{few:?}"
    );
}

/// Derived: long pinions of L teeth on a sun of 34 stand 27 modules from the axis; the tips of a
/// sun of 30 reach 16 and theirs 11, which is exactly as far. One of 29 they pass.
#[test]
fn long_pinions_pass_the_small_sun() {
    for (small, breaks) in [(30, true), (29, false)] {
        let rules = broken_ravigneaux([small, 34], (20, 20), 74, 1);
        check(
            &format!("{small}/34/74"),
            &rules,
            Rule::NeighboursClear,
            breaks,
        );
    }
}

/// Whether stepped pinions cut alike can be put in at equal angles, by trying every tooth: the
/// k-th pinion is turned so that its first step meshes with the sun, each way it can be, and then
/// the second step must meet its gear as that of the first pinion does. `other` is that gear, a
/// ring with its teeth negative.
fn fits_by_trying(sun: u32, (p, q): (u32, u32), other: i32, count: u32) -> bool {
    let near_whole = |turns: f64| (turns - turns.round()).abs() < 1e-6;
    let (second, q) = (f64::from(other), f64::from(q));
    (1..count).all(|pinion| {
        let around = f64::from(pinion) / f64::from(count);
        (0..p).any(|tooth| {
            // Turned against the first pinion so that (S + P) around - P turned is whole.
            let turned = (f64::from(sun + p) * around - f64::from(tooth)) / f64::from(p);
            near_whole((second + q) * around - q * turned)
        })
    })
}

/// The rule for stepped pinions against trying, for small sets of every kind: with steps of common
/// divisor 1, 2, 7 and alike, and all counts to six; in a ring and on a second sun.
#[test]
fn assembly_of_stepped_pinions() {
    let (mut fit, mut misfit) = (0, 0);
    for sun in 24..36 {
        for (p, q) in [(15, 16), (16, 14), (21, 14), (20, 20), (28, 14), (13, 26)] {
            let (ring, second) = (sun + p + q, sun + p - q);
            for count in 1..=6 {
                let in_ring = broken_stepped(sun, (p, q), ring, count);
                let on_sun = broken_stepped_suns([sun, second], [p, q], count);
                for (rules, other) in [(in_ring, -(ring as i32)), (on_sun, second as i32)] {
                    let fits = fits_by_trying(sun, (p, q), other, count);
                    let what = format!("{sun}, {p}/{q}, {other}, N = {count}");
                    assert_eq!(rules.contains(&Rule::EqualSpacing), !fits, "{what}");
                    assert!(!rules.contains(&Rule::Coaxial), "{what}");
                    *(if fits { &mut fit } else { &mut misfit }) += 1;
                }
            }
        }
    }
    assert!(fit > 200 && misfit > 200, "{fit} fit, {misfit} do not");
}

/// Derived: 36 + 32 = 68 but 87 - 21 = 66, so the published hub needs gears of another module or
/// profile shift for one of its steps; with 89 on the ring it would not. The larger step decides
/// whether neighbours touch: 60 sin 60° = 51.96 > 40 + 2, but with four 60 sin 45° = 42.43 is
/// less than 41 + 2.
#[test]
fn stepped_pinions_share_an_axis_and_stay_apart() {
    let hub = broken_stepped(36, (32, 21), 87, 3);
    check("36, 32/21, 87", &hub, Rule::Coaxial, true);
    let hub = broken_stepped(36, (32, 21), 89, 3);
    check("36, 32/21, 89", &hub, Rule::Coaxial, false);
    for (larger, count, breaks) in [(40, 3, false), (40, 4, false), (41, 4, true)] {
        let rules = broken_stepped(60 - larger, (larger, 18), 78, count);
        let what = format!("steps {larger}/18, N = {count}");
        check(&what, &rules, Rule::NeighboursClear, breaks);
        let rules = broken_stepped(42, (18, larger), 60 + larger, count);
        let what = format!("steps 18/{larger}, N = {count}");
        check(&what, &rules, Rule::NeighboursClear, breaks);
    }
}
