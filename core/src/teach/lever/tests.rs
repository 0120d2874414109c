//! What levers must satisfy.

use levertrain_exact::Fraction;

use super::{Lever, LeverNode, TrainLever};
use crate::base::element_set::ElementSet;
use crate::train::{Body, Train};

fn train(shafts: &[&str], couplings: &str, elements: &str) -> Train {
    let shafts: Vec<String> = shafts
        .iter()
        .map(|id| format!(r#"{{"id": "{id}", "label": "{id}"}}"#))
        .collect();
    let text = format!(
        r#"{{"format": 1, "name": "Test", "input": "a", "output": "b",
            "shafts": [{}], "couplings": [{couplings}], "elements": [{elements}],
            "ranges": []}}"#,
        shafts.join(",")
    );
    Train::parse(&text).unwrap_or_else(|problems| panic!("{problems:?}"))
}

fn set(id: &str, [s, c, r]: [&str; 3], (sun, ring): (u32, u32)) -> String {
    let pinion = (ring - sun) / 2;
    format!(
        r#"{{"kind": "planetary", "id": "{id}", "label": "{id}", "carrier": "{c}",
            "sun": {{"shaft": "{s}", "teeth": {sun}}},
            "ring": {{"shaft": "{r}", "teeth": {ring}}},
            "pinion": {{"teeth": {pinion}, "count": 3}}}}"#
    )
}

fn two_rows(id: &str, [s, c, r]: [&str; 3], (sun, ring): (u32, u32)) -> String {
    format!(
        r#"{{"kind": "double-pinion", "id": "{id}", "label": "{id}", "carrier": "{c}",
            "sun": {{"shaft": "{s}", "teeth": {sun}}},
            "ring": {{"shaft": "{r}", "teeth": {ring}}},
            "inner": {{"teeth": 20}}, "outer": {{"teeth": 20}}, "count": 3}}"#
    )
}

fn pair(id: &str, mesh: &str, [a, b]: [&str; 2], (first, second): (u32, u32)) -> String {
    format!(
        r#"{{"kind": "gear-pair", "id": "{id}", "label": "{id}", "mesh": "{mesh}",
            "first": {{"shaft": "{a}", "teeth": {first}}},
            "second": {{"shaft": "{b}", "teeth": {second}}}}}"#
    )
}

fn clutch(id: &str, a: &str, b: &str) -> String {
    format!(r#"{{"kind": "clutch", "id": "{id}", "label": "{id}", "between": ["{a}", "{b}"]}}"#)
}

fn brake(id: &str, shaft: &str) -> String {
    format!(r#"{{"kind": "brake", "id": "{id}", "label": "{id}", "shaft": "{shaft}"}}"#)
}

/// Two sets with one sun, the carrier of the first on the ring of the second.
fn sun_in_common() -> Train {
    let sets = [
        set("p", ["s", "b", "r"], (36, 84)),
        set("q", ["s", "c", "b"], (40, 80)),
    ];
    let elements = [
        clutch("C", "a", "r"),
        clutch("D", "a", "s"),
        brake("B", "s"),
        brake("E", "c"),
    ];
    train(
        &["a", "b", "s", "r", "c"],
        &sets.join(","),
        &elements.join(","),
    )
}

#[track_caller]
fn check_places(coupling: &str, expected: &[(i64, i64)]) {
    let train = train(&["a", "b", "c"], coupling, "");
    let lever = Lever::of(&train.scenario().couplings[0]);
    let expected: Option<Vec<Fraction>> = expected
        .iter()
        .map(|&(num, den)| Fraction::new(num, den))
        .collect();
    assert_eq!(lever.map(|lever| lever.places), expected, "{coupling}");
}

/// The sun–carrier length is to the carrier–ring length as ring teeth to sun teeth
/// (H. L. Benford and M. B. Leising, SAE 810102, 1981; from memory). The others are that
/// rule with the ring's teeth counted negative (two pinion rows), and with the frame in
/// the carrier's place (gear pairs).
#[test]
fn places_follow_the_tooth_counts() {
    // 72 : 28 of a length of 100.
    check_places(
        &set("p", ["a", "b", "c"], (28, 72)),
        &[(0, 1), (18, 25), (1, 1)],
    );
    // −90 : 36: the ring stands between sun and carrier, 90 − 36 of 90 from the sun.
    check_places(
        &two_rows("p", ["a", "b", "c"], (36, 90)),
        &[(0, 1), (1, 1), (3, 5)],
    );
    // 50 : 30, the housing between the gears.
    check_places(
        &pair("p", "external", ["a", "b"], (30, 50)),
        &[(0, 1), (5, 8), (1, 1)],
    );
    // 50 : −30, the housing beyond the second gear.
    check_places(
        &pair("p", "internal", ["a", "b"], (30, 50)),
        &[(0, 1), (1, 1), (2, 5)],
    );
}

#[test]
fn speeds_on_any_straight_line_satisfy_the_meshes_exactly() {
    let couplings = [
        set("p", ["a", "b", "c"], (31, 89)),
        two_rows("q", ["a", "b", "c"], (35, 101)),
        pair("g", "external", ["a", "b"], (29, 47)),
        pair("h", "internal", ["a", "b"], (29, 83)),
    ];
    let train = train(&["a", "b", "c"], &couplings.join(","), "");
    // A linear congruential generator (multiplier from memory: Knuth's MMIX).
    let mut seed = 20_u64;
    let mut random = || {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let (num, den) = (
            (seed >> 40) as i64 - (1 << 23),
            (seed >> 20 & 0xfff) as i64 + 1,
        );
        Fraction::new(num, den).unwrap_or(Fraction::ZERO)
    };
    for coupling in &train.scenario().couplings {
        let Some(lever) = Lever::of(coupling) else {
            panic!("no lever of {coupling:?}");
        };
        for _ in 0..100 {
            let (start, slope) = (random(), random());
            for row in coupling.facts().mesh_rows() {
                let terms = row
                    .iter()
                    .zip(&lever.places)
                    .map(|(&k, place)| &Fraction::from(k) * &(&start + &(&slope * place)));
                let sum = terms.fold(Fraction::ZERO, |sum, term| &sum + &term);
                assert_eq!(sum, Fraction::ZERO, "{coupling:?}");
            }
        }
    }
}

/// Hand-derived: the first lever has s 0, b 84/120 = 7/10, r 1; the second s 0, c 2/3, b 1,
/// so it shrinks to 7/10 of its length and c comes to 7/15.
#[test]
fn sets_with_two_common_bodies_make_one_lever() {
    let train = sun_in_common();
    let levers = TrainLever::merged(&train);
    assert_eq!(levers.len(), 1);
    assert_eq!(levers[0].couplings, [0, 1]);
    let nodes = levers[0].nodes.iter().map(|node| {
        let label = train.body_label(node.body);
        format!("{label} at {}: {:?}", node.place, node.members)
    });
    assert_eq!(
        nodes.collect::<Vec<_>>(),
        [
            "s at 0: [(0, 0), (1, 0)]",
            "c at 7/15: [(1, 1)]",
            "b at 7/10: [(0, 1), (1, 2)]",
            "r at 1: [(0, 2)]",
        ]
    );
    assert_eq!(TrainLever::separate(&train).len(), 2);
}

/// For every solution: (ωᵢ − ω₀)·(pₙ − p₀) = (ωₙ − ω₀)·(pᵢ − p₀).
#[track_caller]
fn check_straight(train: &Train, levers: &[TrainLever]) {
    for bits in 0..1 << train.scenario().elements.len() {
        let speeds = train.illustrate(ElementSet::from_bits(bits));
        let speed = |node: &LeverNode| match node.body {
            Body::Housing => Fraction::ZERO,
            Body::Shaft(shaft) => speeds[shaft].clone(),
        };
        for lever in levers {
            let (first, last) = (&lever.nodes[0], &lever.nodes[lever.nodes.len() - 1]);
            for node in &lever.nodes {
                let rise = &speed(node) - &speed(first);
                let whole = &speed(last) - &speed(first);
                assert_eq!(
                    &rise * &(&last.place - &first.place),
                    &whole * &(&node.place - &first.place),
                    "{bits:b}: {lever:?}"
                );
            }
        }
    }
}

#[test]
fn speeds_of_a_merged_lever_lie_on_one_line() {
    let train = sun_in_common();
    check_straight(&train, &TrainLever::separate(&train));
    check_straight(&train, &TrainLever::merged(&train));
}

/// p and q share s and b; v shares c with q and r with p: the joined lever takes it in.
#[test]
fn a_set_that_shares_one_body_with_each_of_two_joins_their_lever() {
    let sets = [
        set("p", ["s", "b", "r"], (36, 84)),
        set("q", ["s", "c", "b"], (40, 80)),
        two_rows("v", ["c", "d", "r"], (30, 90)),
    ];
    let elements = [clutch("C", "a", "r"), brake("B", "s"), brake("E", "d")];
    let train = train(
        &["a", "b", "s", "r", "c", "d"],
        &sets.join(","),
        &elements.join(","),
    );
    let levers = TrainLever::merged(&train);
    assert_eq!(levers.len(), 1);
    assert_eq!(levers[0].couplings, [0, 1, 2]);
    assert_eq!(levers[0].nodes.len(), 5);
    check_straight(&train, &levers);
}

#[test]
fn the_housing_ties_sets_but_not_gear_pairs() {
    let sets = [
        set("p", ["a", "b", "housing"], (36, 84)),
        set("q", ["a", "c", "housing"], (30, 90)),
    ];
    let joined = train(&["a", "b", "c"], &sets.join(","), "");
    let levers = TrainLever::merged(&joined);
    assert_eq!(levers.len(), 1);
    check_straight(&joined, &levers);

    let pairs = [
        pair("g", "external", ["a", "b"], (30, 50)),
        pair("h", "external", ["a", "c"], (20, 60)),
    ];
    let apart = train(&["a", "b", "c"], &pairs.join(","), "");
    assert_eq!(TrainLever::merged(&apart).len(), 2);
}

/// Three bodies in common with different spacings can only turn as one piece: there is no
/// one lever on which each has one place.
#[test]
fn levers_that_disagree_stay_apart() {
    let sets = [
        set("p", ["a", "b", "c"], (36, 84)),
        set("q", ["a", "b", "c"], (30, 90)),
    ];
    let train = train(&["a", "b", "c"], &sets.join(","), "");
    assert_eq!(TrainLever::merged(&train).len(), 2);
}

#[test]
fn bodies_that_always_turn_together_share_a_place() {
    let sets = [
        set("p", ["a", "b", "c"], (36, 84)),
        set("q", ["a", "b", "d"], (36, 84)),
    ];
    let train = train(&["a", "b", "c", "d"], &sets.join(","), "");
    let levers = TrainLever::merged(&train);
    assert_eq!(levers.len(), 1);
    let places: Vec<String> = levers[0]
        .nodes
        .iter()
        .map(|node| node.place.to_string())
        .collect();
    assert_eq!(places, ["0", "7/10", "1", "1"]);
}
