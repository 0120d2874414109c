//! Clutch capacity: the formulas against integrals over the lining, and what slips first.

use std::f64::consts::TAU;

use levertrain_core::report::CapacityReport;
use levertrain_core::scenario::{Element, Friction};
use levertrain_core::{Capacity, Duty, ElementSet, Grip, Holding, Train, first_to_slip};
use levertrain_tests::files;
use levertrain_tests::generate::settings;
use levertrain_tests::sketch::Sketch;
use proptest::prelude::*;
use serde_json::{Value, json};

/// Rounding of a few operations in `f64`.
const ROUNDING: f64 = 1e-12;

fn friction() -> impl Strategy<Value = Friction> {
    let radii = (1.0..1900.0, 0.5..100.0);
    (1..=40_u32, radii, 0.01..1.0, 1.0..1e7).prop_map(
        |(surfaces, (inner_radius, width), coefficient, clamp_force)| Friction {
            surfaces,
            outer_radius: inner_radius + width,
            inner_radius,
            coefficient,
            clamp_force,
        },
    )
}

/// ∫ f(r) dr over the lining by Simpson's rule: exact for cubics.
fn over_the_lining(friction: &Friction, f: impl Fn(f64) -> f64) -> f64 {
    let (inner, outer) = (friction.inner_radius, friction.outer_radius);
    let middle = f((inner + outer) / 2.0);
    (outer - inner) / 6.0 * (f(inner) + 4.0 * middle + f(outer))
}

fn alike(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(b.abs())
}

proptest! {
    #![proptest_config(settings(400))]

    /// Every ring of width dr carries the force p·2πr·dr and the torque μ·p·2πr²·dr a surface.
    #[test]
    fn capacities_are_integrals_over_the_lining(friction in friction()) {
        let found = Capacity::of(&friction);
        let rub = friction.coefficient * f64::from(friction.surfaces) / 1000.0;
        let torque = |pressure: &dyn Fn(f64) -> f64| {
            rub * over_the_lining(&friction, |r| pressure(r) * TAU * r * r)
        };
        let even = friction.clamp_force / over_the_lining(&friction, |r| TAU * r);
        prop_assert!(alike(found.uniform_pressure, torque(&|_| even)), "{:?}", found);
        // Worn in: pressure · radius = c everywhere.
        let c = friction.clamp_force / over_the_lining(&friction, |_| TAU);
        prop_assert!(alike(found.uniform_wear, torque(&|r| c / r)), "{:?}", found);
        prop_assert!(alike(found.greatest_pressure, c / friction.inner_radius), "{:?}", found);
    }

    /// Worn linings press more at the inner edge, so they never hold more; on a narrow lining
    /// there is no difference.
    #[test]
    fn worn_linings_hold_less_and_narrow_ones_the_same(friction in friction()) {
        let found = Capacity::of(&friction);
        let room = 1.0 + ROUNDING;
        prop_assert!(found.uniform_wear <= found.uniform_pressure * room, "{:?}", found);
        let narrow = Friction {
            outer_radius: friction.inner_radius * (1.0 + 1e-7),
            ..friction
        };
        let found = Capacity::of(&narrow);
        prop_assert!(alike(found.uniform_wear, found.uniform_pressure), "{:?}", found);
    }
}

/// What the reader takes out of a scenario with friction data.
fn with_friction(sketch: &Sketch, data: &[(&str, Value)]) -> Train {
    let mut scenario = sketch.to_json();
    for (id, friction) in data {
        let elements = scenario["elements"].as_array_mut().into_iter().flatten();
        for element in elements.filter(|element| element["id"] == **id) {
            element["friction"] = friction.clone();
        }
    }
    Train::parse(&scenario.to_string()).unwrap_or_else(|problems| panic!("{problems:#?}"))
}

/// Capacity 100 N·m by uniform wear: μ·F·n·(ro + ri)/2 = 0.1 · 2000 N · 10 · 50 mm.
fn hundred() -> Value {
    json!({"surfaces": 10, "outer_radius": 60, "inner_radius": 40, "coefficient": 0.1, "clamp_force": 2000})
}

/// One set with k = 4, the sun driven, the carrier delivering: the ring's brake holds 4 times
/// the input torque.
fn set() -> Sketch {
    Sketch::new("s", "c")
        .planetary("set", ("s", 20), ("r", 80), "c", 30)
        .brake("B", "r")
        .brake("B2", "r")
        .clutch("C", "s", "r")
        .brake("idle", "loose")
}

fn holdings(train: &Train, ids: &[&str]) -> Vec<Holding> {
    let applied = train.element_set(ids.iter().copied());
    let applied = applied.unwrap_or_else(|problems| panic!("{problems:?}"));
    Holding::all(&train.solve(applied)).unwrap_or_default()
}

/// Grips of the applied elements at an input torque, in the scenario's order.
fn grips(train: &Train, ids: &[&str], input: f64) -> Vec<Grip> {
    let all = holdings(train, ids);
    all.iter().map(|holding| holding.grip(input)).collect()
}

#[test]
fn what_holds_what_slips_and_what_cannot_be_said() {
    let all = ["B", "B2", "C", "idle"].map(|id| (id, hundred()));
    let train = with_friction(&set(), &all);
    // 4 · 25 N·m is all it holds.
    assert_eq!(grips(&train, &["B"], 25.0), [Grip::Holds]);
    assert_eq!(grips(&train, &["B"], -25.0), [Grip::Holds]);
    assert_eq!(grips(&train, &["B"], 25.01), [Grip::Slips]);
    assert_eq!(grips(&train, &["B"], -26.0), [Grip::Slips]);
    assert_eq!(grips(&train, &["B"], 0.0), [Grip::Holds]);
    let idle = grips(&train, &["B", "idle"], 1e9);
    assert_eq!(idle, [Grip::Slips, Grip::Idle]);
    // Two brakes on one ring: nobody knows how they share.
    let shared = ["B", "B2"];
    let unknown = [Grip::Undetermined; 2];
    assert_eq!(grips(&train, &shared, 1.0), unknown);
    assert!(first_to_slip(&holdings(&train, &shared)).is_none());
    assert!(holdings(&train, &["B", "C"]).is_empty(), "tied up");
    assert!(holdings(&train, &[]).is_empty(), "neutral");

    let some = with_friction(&set(), &[("C", hundred())]);
    assert_eq!(grips(&some, &["B"], 1e9), [Grip::NoData]);
    assert!(first_to_slip(&holdings(&some, &["B"])).is_none());
    let none = set().train();
    let held = none.solve(ElementSet::from_bits(1));
    assert!(CapacityReport::of(&held, 100.0).is_none());
}

/// The six-speed train of the scenarios, by hand. Reverse: carrier 1 is held and sun 1 driven, so
/// clutch H carries the input torque and brake W the sum of 1 at the sun and 90/30 at the ring.
/// Capacities: B 0.1 · 5500 N · 10 · 102 mm = 561 N·m, C 0.1 · 3500 N · 8 · 58 mm = 162.4 N·m.
#[test]
fn reverse_of_the_six_speed_by_hand() -> anyhow::Result<()> {
    let report = of_range("04-six-speed-three-sets", "R", 100.0)?;
    let rows: Vec<_> = report
        .elements
        .iter()
        .map(|row| (row.id.as_str(), row.torque, row.uniform_wear, row.grip))
        .collect();
    let close = |a: Option<f64>, b: f64| a.is_some_and(|a| alike(a, b));
    let [
        (b, b_torque, b_wear, "holds"),
        (c, c_torque, c_wear, "holds"),
    ] = rows[..]
    else {
        anyhow::bail!("{rows:?}");
    };
    assert_eq!((b, c), ("W", "H"));
    assert!(close(b_torque, 400.0) && close(b_wear, 561.0), "{rows:?}");
    assert!(close(c_torque, 100.0) && close(c_wear, 162.4), "{rows:?}");
    assert_eq!(report.first_to_slip.as_deref(), Some("W"));
    assert!(close(report.most_input, 561.0 / 4.0), "{report:?}");
    Ok(())
}

fn of_range(stem: &str, range: &str, input: f64) -> anyhow::Result<CapacityReport> {
    let (train, index) = files::scenarios()?
        .into_iter()
        .find(|file| file.stem == stem)
        .and_then(|file| {
            let train = Train::parse(&file.text).ok()?;
            let ranges = &train.scenario().ranges;
            let index = ranges.iter().position(|one| one.id == range)?;
            Some((train, index))
        })
        .ok_or_else(|| anyhow::anyhow!("no range {range} in {stem}"))?;
    let combination = train.settle(train.range(index), Duty::Drive).combination;
    CapacityReport::of(&combination, input).ok_or_else(|| anyhow::anyhow!("{stem} has no data"))
}

/// The scenarios with data hold everything at the usual 100 N·m, with sensible margins where it is
/// loaded most; a little above what a range carries exactly the element
/// named slips, and a little below none.
#[test]
fn scenarios_hold_and_then_the_one_named_slips() -> anyhow::Result<()> {
    let mut with_data = 0;
    for file in files::scenarios()? {
        let train = Train::parse(&file.text).unwrap_or_else(|problems| panic!("{problems:#?}"));
        for (index, range) in train.scenario().ranges.iter().enumerate() {
            let place = format!("{}, {}", file.stem, range.id);
            let combination = train.settle(train.range(index), Duty::Drive).combination;
            let Some(report) = CapacityReport::of(&combination, 100.0) else {
                continue;
            };
            with_data += 1;
            for row in &report.elements {
                let element = train
                    .element(&row.id)
                    .map(|x| &train.scenario().elements[x]);
                // A one-way clutch has no friction surfaces.
                let expected = if element.is_some_and(Element::is_one_way) {
                    "no-data"
                } else {
                    "holds"
                };
                assert_eq!(row.grip, expected, "{place}: {row:?}");
            }
            let Some(most) = report.most_input else {
                panic!("{place}: nothing slips first");
            };
            assert!((120.0..=300.0).contains(&most), "{place}: {most} N·m");
            let slipping = |input: f64| -> Vec<String> {
                let report = CapacityReport::of(&combination, input);
                let rows = report.into_iter().flat_map(|report| report.elements);
                rows.filter(|row| row.grip == "slips")
                    .map(|row| row.id)
                    .collect()
            };
            assert_eq!(slipping(most * (1.0 - 1e-9)), [""; 0], "{place}");
            let first = report.first_to_slip.into_iter().collect::<Vec<_>>();
            assert_eq!(slipping(most * (1.0 + 1e-9)), first, "{place}");
        }
    }
    assert!(with_data >= 26, "only {with_data} ranges have data");
    Ok(())
}
