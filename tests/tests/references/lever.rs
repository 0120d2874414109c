//! The lever analogy: where members stand along a lever.

use levertrain_core::Lever;
use levertrain_tests::check::{Row, Source, Status, check, exact};
use levertrain_tests::sketch::Sketch;

/// The places of the members of the only coupling, named.
fn places(sketch: &Sketch, expected: &[&'static str]) -> Vec<Row> {
    let train = sketch.train();
    let coupling = &train.scenario().couplings[0];
    let Some(lever) = Lever::of(coupling) else {
        panic!("no lever of {coupling:?}");
    };
    let members = coupling.facts().members();
    assert_eq!(members.len(), expected.len());
    let rows = members.iter().zip(lever.places).zip(expected);
    rows.map(|((member, place), expected)| exact(member.role.word(), place, expected))
        .collect()
}

#[test]
fn single_row() {
    let sketch = Sketch::new("s", "c").planetary("set", ("s", 20), ("r", 80), "c", 30);
    check(
        "lever of 20/80: sun-carrier : carrier-ring = ring : sun teeth",
        Source {
            what: "H. L. Benford and M. B. Leising, SAE 810102, 1981",
            status: Status::FromMemory,
        },
        &places(&sketch, &["0", "4/5", "1"]),
    );
}

/// With the ends at 0 and 1 the relation S ws − R wr = (S − R) wc puts the ring between sun and
/// carrier, at (R − S) / R.
#[test]
fn two_rows() {
    let sketch = Sketch::new("s", "c").double_pinion("set", ("s", 30), ("r", 74), "c", (20, 20));
    check(
        "lever of 30/74 with two pinion rows",
        Source {
            what: "the speeds of a set lie on a line over their places",
            status: Status::Derived,
        },
        &places(&sketch, &["0", "1", "22/37"]),
    );
}

/// k = R P/(S Q) = 31/5 puts the carrier at k/(1 + k) between sun and ring.
#[test]
fn stepped_pinions() {
    let sketch = Sketch::new("s", "c").stepped("set", ("s", 20), ("r", 62), "c", (28, 14));
    check(
        "lever of 20, 28/14, 62",
        Source {
            what: "a set of R/S = 31/5",
            status: Status::Derived,
        },
        &places(&sketch, &["0", "31/36", "1"]),
    );
}

/// Seen from the carrier, with one for the ring's teeth: the small sun turns with the ring, R/Sa
/// times as fast, the large one against it, R/Sb times; the four are on one line at 72/30, -72/36,
/// 0 and 1.
#[test]
fn four_members_on_one_lever() {
    let sketch =
        Sketch::new("a", "c").ravigneaux("set", [("a", 30), ("b", 36)], ("r", 72), "c", (19, 18));
    check(
        "lever of 30/36/72",
        Source {
            what: "both rows of a Ravigneaux set",
            status: Status::Derived,
        },
        &places(&sketch, &["0", "1", "6/11", "7/22"]),
    );
}

/// External: the frame lies between the gears, at Z2 / (Z1 + Z2); internal: outside them.
#[test]
fn gear_pairs() {
    let source = Source {
        what: "a pair is a set whose carrier is the housing",
        status: Status::Derived,
    };
    let external = Sketch::new("a", "b").pair("pair", false, ("a", 20), ("b", 60));
    let rows = places(&external, &["0", "3/4", "1"]);
    check("lever of an external pair 20/60", source, &rows);
    let internal = Sketch::new("a", "b").pair("pair", true, ("a", 20), ("b", 60));
    let rows = places(&internal, &["0", "1", "2/3"]);
    check("lever of an internal pair 20/60", source, &rows);
}
