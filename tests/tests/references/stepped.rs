//! Sets with stepped pinions, and trains with two suns on them.

use levertrain_core::{Combination, Fraction, Torques, Train};
use levertrain_tests::check::{Row, Source, Status, check, exact, published, speed};
use levertrain_tests::sketch::Sketch;

fn released(train: &Train) -> Combination<'_> {
    train.solve(Default::default())
}

/// Sun, its pinion, the ring's pinion, ring.
type Teeth = (u32, u32, u32, u32);

/// Output speed over input speed of a hub that gears up: the carrier drives, the sun is held on
/// the axle, the ring delivers.
fn geared_up((sun, on_sun, in_ring, ring): Teeth) -> Option<Fraction> {
    let train = Sketch::new("c", "r")
        .stepped("set", ("housing", sun), ("r", ring), "c", (on_sun, in_ring))
        .train();
    speed(&released(&train), "r", 1)
}

#[test]
fn five_hubs_geared_up() {
    let hubs: [(Teeth, &str, &str); 5] = [
        ((36, 32, 21, 87), "1.272", "295/232"),
        ((45, 21, 21, 87), "1.517", "44/29"),
        ((51, 16, 21, 87), "1.769", "821/464"),
        ((38, 29, 29, 97), "1.392", "135/97"),
        ((27, 42, 29, 97), "1.192", "1619/1358"),
    ];
    let rows = |row: fn(String, Option<Fraction>, &'static str) -> Row, exactly: bool| {
        let rows = hubs.iter().map(|&(teeth, printed, fraction)| {
            let expected = if exactly { fraction } else { printed };
            row(format!("{teeth:?}"), geared_up(teeth), expected)
        });
        rows.collect::<Vec<_>>()
    };
    check(
        "stepped pinions: carrier in, sun held, ring out",
        Source {
            what: "john-s-allen.com, sheet on internal-gear hubs",
            status: Status::Read,
        },
        &rows(published, false),
    );
    check(
        "the same exactly, 1 + S Q/(P R)",
        Source {
            what: "the same teeth with exact rationals",
            status: Status::Derived,
        },
        &rows(exact, true),
    );
}

/// Derived: with the ring held the sun turns 1 + R P/(S Q) times as fast as the carrier, and with
/// both steps alike a stepped set is a plain one.
#[test]
fn the_other_ratios_of_a_stepped_set() {
    let ratio = |held: &str, input: &str, output: &str, pinions: (u32, u32)| {
        let train = Sketch::new(input, output)
            .stepped("set", ("s", 20), ("r", 62), "c", pinions)
            .brake("B", held)
            .train();
        let combination = train.solve([0].into_iter().collect());
        combination.state().ratio().cloned()
    };
    check(
        "stepped 20, 28/14, 62",
        Source {
            what: "Willis' relation with k = R P/(S Q) = 31/5",
            status: Status::Derived,
        },
        &[
            exact("sun to carrier", ratio("r", "s", "c", (28, 14)), "36/5"),
            exact("ring to carrier", ratio("s", "r", "c", (28, 14)), "36/31"),
            exact("sun to ring", ratio("c", "s", "r", (28, 14)), "-31/5"),
            exact("both steps alike", ratio("r", "s", "c", (21, 21)), "41/10"),
        ],
    );
}

/// Sun A, fixed, meshes with B; C on B's shaft meshes with sun D; the arm carries both.
fn two_suns(a: u32, b: u32, c: u32, d: u32) -> Sketch {
    Sketch::new("arm", "d").stepped_suns("set", [("housing", a), ("d", d)], "arm", [b, c])
}

#[test]
fn two_suns_on_a_stepped_planet() {
    let per_arm_turn = |a, b, c, d| speed(&released(&two_suns(a, b, c, d).train()), "d", 1);
    check(
        "B 27, C 30, D 24, E 21 fixed: sun 24 per turn of the arm",
        Source {
            what: "adapala-academy 3933",
            status: Status::InputsRead,
        },
        &[
            exact("exactly", per_arm_turn(21, 30, 27, 24), "17/80"),
            published(
                "ratio",
                released(&two_suns(21, 30, 27, 24).train())
                    .state()
                    .ratio()
                    .cloned(),
                "4.70588",
            ),
        ],
    );
    check(
        "100/101/99/100",
        Source {
            what: "the classic demonstration: 1 - (99 * 101)/(100 * 100)",
            status: Status::FromMemory,
        },
        &[exact(
            "sun per turn of the arm",
            per_arm_turn(101, 100, 99, 100),
            "1/10000",
        )],
    );
}

#[test]
fn two_suns_with_torques() {
    let train = two_suns(28, 22, 26, 24).train();
    let combination = released(&train);
    let torques = Torques::of(&combination);
    // 1.2 kW at 120 rev/min are 300/π N·m; π as 355/113 is good to the digits printed.
    let input = Fraction::new(300 * 113, 355);
    let times_input = |torque: Option<&Fraction>| Some(torque? * input.as_ref()?);
    let output = times_input(torques.as_ref().and_then(Torques::output));
    let held = times_input(torques.as_ref().and_then(Torques::housing));
    check(
        "A 28 fixed, B 22, C 26, D 24, 1.2 kW at 120 rev/min",
        Source {
            what: "holooly, fig. 15.29",
            status: Status::InputsRead,
        },
        &[
            exact("ratio", combination.state().ratio().cloned(), "-66/25"),
            published("input torque, N m", input.clone(), "95.493"),
            published("output torque, N m", output, "252.10"),
            published("hold on A, N m", held, "347.59"),
        ],
    );
}
