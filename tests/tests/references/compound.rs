//! Classic compound trains with their range tables.

use levertrain_core::{ChartEntry, Fraction, State};
use levertrain_tests::check::{Row, Source, Status, check, exact, published};
use levertrain_tests::sketch::Sketch;

/// The published ratios of a range table; exact ones are our own from the same teeth.
struct Expected {
    range: &'static str,
    published: &'static str,
    exact: &'static str,
}

const fn range(range: &'static str, published: &'static str, exact: &'static str) -> Expected {
    Expected {
        range,
        published,
        exact,
    }
}

const RANGE_TABLE: Source = Source {
    what: "published range table",
    status: Status::Read,
};

/// Checks the ratios of all ranges of `sketch`, in order.
#[track_caller]
fn check_ranges(title: &str, sketch: &Sketch, expected: &[Expected]) {
    let train = sketch.train();
    let chart = train.range_chart();
    let ranges: Vec<&str> = train
        .scenario()
        .ranges
        .iter()
        .map(|x| x.id.as_str())
        .collect();
    let names: Vec<&str> = expected.iter().map(|x| x.range).collect();
    assert_eq!(ranges, names, "{title}: ranges");

    let printed = |(entry, row): (&ChartEntry<'_>, &Expected)| {
        published(format!("range {}", row.range), ratio(entry), row.published)
    };
    let rows: Vec<Row> = chart.ranges.iter().zip(expected).map(printed).collect();
    check(title, RANGE_TABLE, &rows);

    let recomputed = |(entry, row): (&ChartEntry<'_>, &Expected)| {
        exact(format!("range {}", row.range), ratio(entry), row.exact)
    };
    let rows: Vec<Row> = chart.ranges.iter().zip(expected).map(recomputed).collect();
    let source = Source {
        what: "the same teeth with exact rationals",
        status: Status::Derived,
    };
    check(title, source, &rows);
}

/// The ratio of a range that drives with nothing applied in vain.
fn ratio(entry: &ChartEntry<'_>) -> Option<Fraction> {
    match entry.combination.state() {
        State::Driving(ratio) => Some(ratio.clone()),
        _ => None,
    }
}

/// Simpson's two sets: ring 1 driven in forward ranges, carrier 1 and ring 2 on the output, one
/// common sun. Teeth are our inference from the ratios.
fn simpson(first: (u32, u32, u32), second: (u32, u32, u32)) -> Sketch {
    let ((s1, p1, r1), (s2, p2, r2)) = (first, second);
    Sketch::new("in", "out")
        .planetary("front", ("sun", s1), ("ring1", r1), "out", p1)
        .planetary("rear", ("sun", s2), ("out", r2), "carrier2", p2)
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
fn simpson_three_published_sets() {
    check_ranges(
        "Simpson, S1/R1 = 35/73, R2/S2 = 73/35",
        &simpson((35, 19, 73), (35, 19, 73)),
        &[
            range("1", "2.479", "181/73"),
            range("2", "1.479", "108/73"),
            range("3", "1", "1"),
            range("R", "-2.086", "-73/35"),
        ],
    );
    check_ranges(
        "Simpson, S1/R1 = 41/73, R2/S2 = 73/35",
        &simpson((41, 16, 73), (35, 19, 73)),
        &[
            range("1", "2.733", "6983/2555"),
            range("2", "1.562", "114/73"),
            range("3", "1", "1"),
            range("R", "-2.086", "-73/35"),
        ],
    );
    check_ranges(
        "Simpson, S1/R1 = 1/2, R2/S2 = 17/7",
        &simpson((36, 18, 72), (35, 25, 85)),
        &[
            range("1", "2.714", "19/7"),
            range("2", "1.500", "3/2"),
            range("3", "1", "1"),
            range("R", "-2.429", "-17/7"),
        ],
    );
}

/// A Ravigneaux set, as one coupling or as what it is made of: a single-row set (large sun, ring)
/// and a double-pinion set (small sun, the same ring) on one carrier, the outer pinions of the
/// second being those of the first.
fn ravigneaux(
    sketch: Sketch,
    whole: bool,
    [small, large]: [(&str, u32); 2],
    ring: (&str, u32),
    (short, long): (u32, u32),
) -> Sketch {
    if whole {
        return sketch.ravigneaux("rear", [small, large], ring, "c", (short, long));
    }
    sketch
        .planetary("large", large, ring, "c", long)
        .double_pinion("small", small, ring, "c", (short, long))
}

#[test]
fn ravigneaux_four_speed() {
    for whole in [true, false] {
        let bare = Sketch::new("in", "ring");
        let sketch = ravigneaux(bare, whole, [("a", 30), ("b", 36)], ("ring", 72), (18, 18))
            .clutch("Ka", "in", "a")
            .clutch("Kb", "in", "b")
            .clutch("Kc", "in", "c")
            .brake("Bc", "c")
            .brake("Bb", "b")
            .range("1", &["Ka", "Bc"])
            .range("2", &["Ka", "Bb"])
            .range("3", &["Ka", "Kb"])
            .range("OD", &["Kc", "Bb"])
            .range("R", &["Kb", "Bc"]);
        check_ranges(
            "Ravigneaux, suns 30 and 36, ring 72",
            &sketch,
            &[
                range("1", "2.4", "12/5"),
                range("2", "1.47", "22/15"),
                range("3", "1", "1"),
                range("OD", "0.67", "2/3"),
                range("R", "-2.0", "-2"),
            ],
        );
    }
}

/// Teeth from memory: front sun 37 held, ring 71 driven; rear suns 31 and 38, ring 85. The
/// output is the rear ring, f the front carrier, a and b the rear suns, c the rear carrier.
fn lepelletier(whole: bool) -> Sketch {
    let front = Sketch::new("in", "out").planetary("front", ("housing", 37), ("in", 71), "f", 17);
    ravigneaux(front, whole, [("a", 31), ("b", 38)], ("out", 85), (23, 23))
        .clutch("Ka", "f", "a")
        .clutch("Kb", "f", "b")
        .clutch("Kc", "in", "c")
        .brake("Bc", "c")
        .brake("Bb", "b")
        .range("1", &["Ka", "Bc"])
        .range("2", &["Ka", "Bb"])
        .range("3", &["Ka", "Kb"])
        .range("4", &["Ka", "Kc"])
        .range("5", &["Kb", "Kc"])
        .range("6", &["Kc", "Bb"])
        .range("R", &["Kb", "Bc"])
}

#[test]
fn lepelletier_six_speed() {
    for whole in [true, false] {
        check_ranges(
            "Lepelletier, 37/71 and 31/38/85",
            &lepelletier(whole),
            &[
                range("1", "4.17", "9180/2201"),
                range("2", "2.34", "211140/90241"),
                range("3", "1.52", "108/71"),
                range("4", "1.14", "9180/8033"),
                range("5", "0.87", "4590/5293"),
                range("6", "0.69", "85/123"),
                range("R", "-3.40", "-4590/1349"),
            ],
        );
    }

    let train = lepelletier(true).train();
    let chart = train.range_chart();
    let step = |index: usize| chart.ranges[index].step.clone();
    check(
        "the same: steps and spread",
        Source {
            what: "quotients of the exact ratios above",
            status: Status::Derived,
        },
        &[
            exact("spread", chart.spread.clone(), "1129140/187085"),
            exact("step 1 to 2", step(0), "1271/713"),
            exact("step 3 to 4", step(2), "8033/6035"),
            published("step 5 to 6", step(4), "1.2549"),
        ],
    );
    assert_eq!(step(5), None, "no step from a forward range to reverse");
    assert_eq!(step(6), None, "no step after the last range");
}
