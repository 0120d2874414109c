//! What a file says of a train in motion, what is assumed instead, and that nothing of it gets lost.

use anyhow::{Context, Result, ensure};
use levertrain_core::transient::{
    Dynamics, ENGINE_INERTIA, FILL_TIME, LOAD_INERTIA, SHAFT_INERTIA,
};
use levertrain_core::{Train, edit};
use levertrain_tests::files;
use serde_json::{Value, json};

/// The six-speed, which says what its clutches and brakes hold.
fn scenario() -> Result<Value> {
    let mut all = files::scenarios()?.into_iter();
    let file = all.find(|file| file.stem == "04-six-speed-three-sets");
    Ok(serde_json::from_str(&file.context("a scenario")?.text)?)
}

fn train(dynamics: Value) -> Result<Train> {
    let mut scenario = scenario()?;
    scenario["dynamics"] = dynamics;
    Train::parse(&scenario.to_string()).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

#[test]
fn what_is_left_out_is_assumed() -> Result<()> {
    let train = train(
        json!({"load_inertia": 7.5, "shafts": [{"shaft": "r3", "inertia": 0.03}],
        "elements": [{"element": "V", "fill_time": 0.2}, {"element": "J", "full_torque": 500}]}),
    )?;
    let (dynamics, problems) = Dynamics::of(&train);
    ensure!(problems.is_empty(), "{problems:?}");
    let element = |id: &str| train.element(id).context("an element");
    let (v, j, k) = (element("V")?, element("J")?, element("K")?);
    let rows = [
        (dynamics.load_inertia(), 7.5, false),
        (dynamics.engine_inertia(), ENGINE_INERTIA, true),
        (dynamics.shaft(4), 0.03, false),
        (dynamics.shaft(0), SHAFT_INERTIA, true),
        (dynamics.fill_time(v), 0.2, false),
        (dynamics.fill_time(j), FILL_TIME, true),
        (dynamics.full_torque(j), 500.0, false),
        // 0.1 · 5000 N · 8 faces · (86 + 72)/2 mm, by uniform wear.
        (dynamics.full_torque(k), 316.0, false),
    ];
    for (known, value, is_assumed) in rows {
        ensure!(
            (known.value - value).abs() < 1e-9,
            "{known:?}, expected {value}"
        );
        ensure!(known.is_assumed == is_assumed, "{known:?}");
    }
    Ok(())
}

/// What is faulty is named, and assumed instead; the train is there all the same.
#[test]
fn problems_say_where() -> Result<()> {
    for (faulty, place) in [
        (json!([1]), "dynamics"),
        (json!({"mass": 1}), "dynamics.mass"),
        (json!({"engine_inertia": "0.1"}), "dynamics.engine_inertia"),
        (json!({"load_inertia": 0}), "dynamics.load_inertia"),
        (
            json!({"shafts": [{"shaft": "r9", "inertia": 1}]}),
            "dynamics.shafts[0].shaft",
        ),
        (
            json!({"shafts": [{"shaft": "r3", "inertia": -1}]}),
            "dynamics.shafts[0].inertia",
        ),
        (
            json!({"elements": [{"element": "Z"}]}),
            "dynamics.elements[0].element",
        ),
        (
            json!({"elements": [{"element": "V", "fill_time": 9}]}),
            "dynamics.elements[0].fill_time",
        ),
        (
            json!({"elements": [{"element": "V", "full_torque": 0}]}),
            "dynamics.elements[0].full_torque",
        ),
    ] {
        let (dynamics, problems) = Dynamics::of(&train(faulty.clone())?);
        let places: Vec<&str> = problems
            .iter()
            .map(|problem| problem.place.as_str())
            .collect();
        ensure!(places == [place], "{faulty}: {problems:?}");
        ensure!(dynamics.engine_inertia().value == ENGINE_INERTIA);
        ensure!(dynamics.load_inertia().value == LOAD_INERTIA);
    }
    Ok(())
}

/// Whatever stands in the field, right or wrong, stands there again in the file that is written.
#[test]
fn a_file_that_is_written_keeps_it() -> Result<()> {
    for kept in [
        json!({"load_inertia": 7.5, "shafts": [{"shaft": "r3", "inertia": 1e-7}], "elements": []}),
        json!({"odd": [null, true, false, -3, 18_446_744_073_709_551_615_u64, 1e300, "\"\\\n\u{1f}é"]}),
        json!({}),
        json!(7),
    ] {
        let train = train(kept.clone())?;
        let text = edit::text(train.scenario());
        let again: Value = serde_json::from_str(&text)?;
        ensure!(again["dynamics"] == kept, "{text}");
        let read = Train::parse(&text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        ensure!(read.scenario() == train.scenario(), "{text}");
        ensure!(edit::text(read.scenario()) == text, "{text}");
    }
    Ok(())
}
