//! How often teeth meet.

use levertrain_core::{Fraction, MeshOrder};
use levertrain_tests::check::{Row, Source, Status, check, exact, published};
use levertrain_tests::sketch::Sketch;

/// The orders of the only coupling with its first element applied.
fn orders(sketch: &Sketch) -> Vec<MeshOrder> {
    let train = sketch.train();
    train.solve([0].into_iter().collect()).mesh_orders(0)
}

/// Hz at an input speed in rev/min.
fn frequency(order: &MeshOrder, speed: i64) -> Option<Fraction> {
    let order = order.per_input.as_ref()?;
    Some(order * &Fraction::new(speed, 60)?)
}

#[test]
fn a_single_set_with_its_ring_held() {
    let sketch = Sketch::new("s", "c")
        .planetary("set", ("s", 20), ("r", 80), "c", 30)
        .brake("B", "r");
    let orders = orders(&sketch);
    let source = Source {
        what: "S 20, P 30, R 80 with the ring held and the sun at 100 rev/min (Shigley, the train)",
        status: Status::Derived,
    };
    assert_eq!(orders.len(), 2);
    let rows: Vec<Row> = orders
        .iter()
        .map(|order| published(order.mesh.name(), frequency(order, 100), "26.667"))
        .collect();
    check("mesh frequency in Hz", source, &rows);

    // f = R nc: the ring is held and the carrier delivers, so R meetings per output turn.
    let rows: Vec<Row> = orders
        .iter()
        .map(|order| exact(order.mesh.name(), order.per_output.clone(), "80"))
        .collect();
    let source = Source {
        what: "f = S |ns - nc| = R |nr - nc|; ring held: f = R nc",
        status: Status::FromMemory,
    };
    check("order per output turn", source, &rows);
}

/// With the carrier held every mesh meets as often as the sun's teeth pass; with the set locked no
/// tooth ever leaves its space.
#[test]
fn the_held_member_decides() {
    let source = Source {
        what: "f = S |ns - nc| = R |nr - nc|",
        status: Status::FromMemory,
    };
    let set = || Sketch::new("s", "r").planetary("set", ("s", 20), ("r", 80), "c", 30);
    let row = |order: MeshOrder, expected| exact(order.mesh.name(), order.per_input, expected);
    let held = orders(&set().brake("B", "c")).into_iter();
    check(
        "carrier held",
        source,
        &held.map(|order| row(order, "20")).collect::<Vec<_>>(),
    );
    let locked = orders(&set().clutch("C", "s", "c")).into_iter();
    check(
        "locked",
        source,
        &locked.map(|order| row(order, "0")).collect::<Vec<_>>(),
    );
}

/// Derived: the two steps of a stepped pinion pass their teeth in the ratio P : Q.
#[test]
fn the_steps_of_a_pinion_hum_differently() {
    let sketch = Sketch::new("s", "c")
        .stepped("set", ("s", 20), ("r", 62), "c", (28, 14))
        .brake("B", "r");
    // The carrier turns 5/36 times, the sun 31/36 past it: 20 * 31/36; the ring 62 * 5/36.
    let [on_sun, in_ring] = orders(&sketch)
        .try_into()
        .unwrap_or_else(|_| panic!("two meshes"));
    check(
        "stepped pinions 28/14, ring held",
        Source {
            what: "S |ns - nc| and R |nr - nc|",
            status: Status::Derived,
        },
        &[
            exact("sun and sun pinion", on_sun.per_input, "155/9"),
            exact("ring pinion and ring", in_ring.per_input, "155/18"),
            exact("per output turn", in_ring.per_output, "62"),
        ],
    );
}
