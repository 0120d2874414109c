//! One single-row set: every choice of what is held and what is driven.

use levertrain_core::State;
use levertrain_tests::check::{Row, Source, Status, check, exact};
use levertrain_tests::sketch::Sketch;

/// Willis' relation for k = ring teeth / sun teeth.
const WILLIS: Source = Source {
    what: "R. Willis, Principles of Mechanism, 1841: ws + k wr = (1 + k) wc, here with k = 4",
    status: Status::Derived,
};

/// k = 80 / 20 = 4, with a brake on each member and clutches that lock the set.
fn set(input: &str, output: &str) -> Sketch {
    Sketch::new(input, output)
        .planetary("set", ("sun", 20), ("ring", 80), "carrier", 30)
        .brake("hold-sun", "sun")
        .brake("hold-ring", "ring")
        .brake("hold-carrier", "carrier")
        .clutch("lock-sun-ring", "sun", "ring")
        .clutch("lock-sun-carrier", "sun", "carrier")
        .clutch("lock-carrier-ring", "carrier", "ring")
}

#[track_caller]
fn ratio(input: &str, output: &str, applied: &str, expected: &'static str) -> Row {
    let train = set(input, output).train();
    let applied_set = train.element_set([applied]);
    let applied_set = applied_set.unwrap_or_else(|problems| panic!("{problems:?}"));
    let combination = train.solve(applied_set);
    let State::Driving(ratio) = combination.state() else {
        panic!("{applied}, {input} to {output}: {:?}", combination.state());
    };
    let quantity = format!("{applied}, {input} to {output}");
    exact(quantity, ratio.clone(), expected)
}

#[test]
fn six_choices_of_held_and_driven() {
    let rows = [
        ratio("sun", "carrier", "hold-ring", "5"),    // 1 + k
        ratio("carrier", "sun", "hold-ring", "1/5"),  // 1 / (1 + k)
        ratio("ring", "carrier", "hold-sun", "5/4"),  // 1 + 1/k
        ratio("carrier", "ring", "hold-sun", "4/5"),  // k / (1 + k)
        ratio("sun", "ring", "hold-carrier", "-4"),   // -k
        ratio("ring", "sun", "hold-carrier", "-1/4"), // -1/k
    ];
    check("one set, k = 4", WILLIS, &rows);
}

#[test]
fn any_two_members_locked_turn_as_one() {
    let mut rows = Vec::new();
    for lock in ["lock-sun-ring", "lock-sun-carrier", "lock-carrier-ring"] {
        for (input, output) in [("sun", "carrier"), ("carrier", "ring"), ("ring", "sun")] {
            rows.push(ratio(input, output, lock, "1"));
        }
    }
    check("one set, two members locked", WILLIS, &rows);
}

#[test]
fn freedom_is_shafts_less_sets_less_what_is_applied() {
    let mobility = |sketch: &Sketch, applied: usize| {
        let train = sketch.train();
        let combination = train.solve((0..applied).collect());
        i64::try_from(combination.degrees_of_freedom())
            .ok()
            .map(Into::into)
    };
    let one = Sketch::new("s", "c")
        .planetary("p", ("s", 20), ("r", 80), "c", 30)
        .brake("B", "r");
    check(
        "mobility of one set",
        Source {
            what: "Buchsbaum and Freudenstein: turning edges less gear edges, 4 - 2 = 2",
            status: Status::FromMemory,
        },
        &[
            exact("released", mobility(&one, 0), "2"),
            exact("ring held", mobility(&one, 1), "1"),
        ],
    );

    // The numbers of parts are the patent's; how we join them is our own.
    let four = Sketch::new("in", "out")
        .planetary("p1", ("x1", 36), ("x2", 84), "in", 24)
        .planetary("p2", ("x1", 40), ("x3", 80), "x4", 20)
        .planetary("p3", ("in", 30), ("x4", 78), "x5", 24)
        .planetary("p4", ("x5", 42), ("x6", 90), "out", 24)
        .brake("A", "x1")
        .brake("B", "x6")
        .clutch("C", "x3", "out")
        .clutch("D", "x2", "x5")
        .clutch("E", "x3", "x4");
    assert_eq!(four.shafts.len(), 8);
    check(
        "mobility of eight shafts, four sets, five elements",
        Source {
            what: "US 8,016,708, claim 1: three applied elements leave one freedom of four",
            status: Status::Read,
        },
        &[
            exact("released", mobility(&four, 0), "4"),
            exact("two applied", mobility(&four, 2), "2"),
            exact("three applied", mobility(&four, 3), "1"),
        ],
    );
}
