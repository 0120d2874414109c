//! What is refused, and what is said of it.

use anyhow::{Result, anyhow, bail};
use levertrain_core::edit::{Edit, starter};
use levertrain_core::exercise::{MOST_ONE_WAYS, Sheet};
use levertrain_core::layouts::{LayoutAsk, LayoutSearch};
use levertrain_core::search::{Ask, Search};
use levertrain_core::{Problem, Scenario, Train};
use levertrain_tests::files::scenarios;
use levertrain_web::pictures;
use levertrain_web::session::Session;
use levertrain_web::settings::Settings;
use serde_json::{Value, json};

/// Settings, all of them right.
pub const SETTINGS: &str = r#"{"palette": "dark", "scale": 1, "width": 390, "merged": false,
    "one_module": true, "rate": 1, "power": true, "speed": 1500, "torque": 250,
    "speed_unit": "rad/s", "torque_unit": "N·m", "mesh": 0.98, "drag": 2, "coasting": true,
    "pedal": 0.5, "grade": -0.1, "lockup": true}"#;

/// What is wrong with texts that are no scenario, with settings, and with what a page may ask for.
pub fn other_problems() -> Result<Vec<Problem>> {
    let mut problems = Vec::new();
    let (deep, long) = ("[".repeat(40), " ".repeat(65_537));
    for text in [
        "",
        "[1",
        "[x]",
        "[1e999]",
        "{\"x\": 1, \"x\": 2}",
        "{\"tasks\": []}",
        &deep,
        &long,
    ] {
        problems.extend(Scenario::parse(text).err().into_iter().flatten());
    }
    for (from, to) in [
        ("false", "1"),
        ("\"scale\": 1", "\"scale\": 0"),
        ("0.98", "1.5"),
        ("\"drag\": 2", "\"drag\": -2"),
    ] {
        let text = SETTINGS.replacen(from, to, 1);
        problems.extend(Settings::parse(&text).err().into_iter().flatten());
    }
    let file = scenarios()?.swap_remove(0);
    let Ok(session) = Session::open(&file.text) else {
        anyhow::bail!("{} does not open", file.stem)
    };
    problems.extend(pictures::scene(&session, "x", (400.0, 400.0)).err());
    for ratio in ["x", "1000"] {
        let text = json!({"format": 1, "title": "x", "tasks": [{"task": "reach", "ratio": ratio}]});
        let sheet = Sheet::parse(session.train(), &text.to_string());
        problems.extend(sheet.err().into_iter().flatten());
    }
    let mut crowded = starter(2)?;
    for _ in 0..=MOST_ONE_WAYS {
        let edit = json!({"edit": "add-element", "kind": "one-way", "ends": ["out", "housing"]});
        let edit = Edit::parse(&edit.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        crowded = edit
            .of(&crowded)
            .map_err(|problem| anyhow!("{problem:?}"))?;
    }
    let crowded = Train::new(crowded).map_err(|problems| anyhow!("{problems:?}"))?;
    problems.extend(Sheet::parse(&crowded, "{}").err().into_iter().flatten());
    problems.extend(refused_edits()?);
    problems.extend(refused_asks(session.train())?);
    problems.extend(refused_layouts()?);
    Ok(problems)
}

/// What is said against asks for teeth of a train with one set.
fn refused_asks(train: &Train) -> Result<Vec<Problem>> {
    let set = train.scenario().couplings[0].facts().id();
    let ranges = &train.scenario().ranges;
    let drives = |at: &usize| train.solve(train.range(*at)).state().ratio().is_some();
    let range = (0..ranges.len()).find(drives).map(|at| &ranges[at].id);
    let wanted = json!([{"range": range, "ratio": 900}]);
    // A range that applies nothing does not drive, and a pair of gears has no ring.
    let mut other: Value = serde_json::to_value(train.scenario())?;
    other["ranges"][0]["applied"] = json!([]);
    let parsed =
        |data: &Value| Train::parse(&data.to_string()).map_err(|problems| anyhow!("{problems:?}"));
    let idle = parsed(&other)?;
    let pair = json!({"kind": "gear-pair", "id": "zz", "label": "K", "mesh": "external",
        "first": {"shaft": other["input"], "teeth": 20},
        "second": {"shaft": other["output"], "teeth": 30}});
    if let Some(couplings) = other["couplings"].as_array_mut() {
        couplings.push(pair);
    }
    let other = parsed(&other)?;
    let first = &other.scenario().ranges[0].id;
    let spread = json!({"value": 900, "tolerance": 0.1});
    let free: Vec<Value> = ranges
        .iter()
        .map(|range| json!({"range": range.id}))
        .collect();
    let asks = [
        (train, json!({})),
        (train, json!({"wanted": wanted, "teeth": [60, 20]})),
        (train, json!({"wanted": wanted, "pinions": []})),
        (train, json!({"wanted": wanted, "best": []})),
        (train, json!({"wanted": [wanted[0], wanted[0]]})),
        (train, json!({"wanted": wanted, "keep": [set]})),
        (train, json!({"wanted": wanted, "teeth": [18, 30]})),
        (train, json!({"wanted": wanted})),
        (train, json!({"wanted": free, "spread": spread})),
        (
            &other,
            json!({"wanted": [{"range": first, "ratio": 2}], "same_ring": [["zz"]]}),
        ),
        (&idle, json!({"wanted": [{"range": first, "ratio": 2}]})),
    ];
    // The last range of the sets in series turns as one, whatever the teeth.
    let series = starter(2)?;
    let [first, second, .., direct] = &series.ranges[..] else {
        anyhow::bail!("sets in series have ranges");
    };
    let [first, second, direct] = [first, second, direct].map(|range| range.id.clone());
    let series = Train::new(series).map_err(|problems| anyhow!("{problems:?}"))?;
    let fixed = json!({"wanted": [{"range": first, "ratio": 8}, {"range": direct, "ratio": 2}]});
    let near = |value: f64| json!({"value": value, "tolerance": 0});
    let nine = json!([{"range": first, "ratio": 9}, {"range": second, "ratio": 3}, {"range": direct, "ratio": 1}]);
    let spread = json!({"wanted": nine, "spread": near(12.0)});
    let steps = json!({"wanted": nine, "steps": near(1.6)});
    let rings =
        json!({"wanted": nine, "keep": ["p1"], "same_ring": [["p1", "p2"]], "teeth": [18, 60]});
    // Of three in series, what is free between 6 and 30.
    let three = starter(3)?;
    let ids: Vec<&str> = three.ranges.iter().map(|range| &*range.id).collect();
    let order = json!({"wanted": [{"range": ids[2], "ratio": 6}, {"range": ids[1]}, {"range": ids[0], "ratio": 30}]});
    let three = Train::new(three.clone()).map_err(|problems| anyhow!("{problems:?}"))?;
    let no_pair = json!({"wanted": nine, "same_distance": [["p1"]]});
    let of_series = [fixed, spread, steps, rings, no_pair].map(|ask| (&series, ask));
    // Beside them two pairs, one of which stays smaller than the other can be.
    let mut pairs = starter(2)?;
    for at in [2, 3] {
        let edit = json!({"edit": "add-set", "kind": "gear-pair", "at": at});
        let edit = Edit::parse(&edit.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        pairs = edit.of(&pairs).map_err(|problem| anyhow!("{problem:?}"))?;
    }
    let ids = [2, 3].map(|at: usize| pairs.couplings[at].facts().id().to_owned());
    let pairs = Train::new(pairs).map_err(|problems| anyhow!("{problems:?}"))?;
    let distances = json!({"wanted": [{"range": first}], "keep": [ids[0]], "same_distance": [ids], "teeth": [90, 120]});
    let others = [(&three, order), (&pairs, distances)];
    let asks = asks.into_iter().chain(of_series).chain(others);
    let mut problems = Vec::new();
    for (train, ask) in asks {
        let ask = Ask::parse(&ask.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        problems.extend(Search::new(train, &ask).err().into_iter().flatten());
    }
    let ask = Ask::parse(&json!({"wanted": [{"range": range}]}).to_string());
    let ask = ask.map_err(|problems| anyhow!("{problems:?}"))?;
    let search = Search::new(train, &ask);
    let mut search = search.map_err(|problems| anyhow!("{problems:?}"))?;
    for format in [1, 3] {
        let stood = json!({"format": format, "task": "", "shard": [0, 1], "left": [], "outside": "0", "beaten": "0",
            "tried": "0", "boxes": "0", "finds": []});
        let refused = search.resume(&stood.to_string()).err();
        problems.extend(refused.into_iter().flatten());
    }
    let mut merge = LayoutSearch::merge();
    let mark = |task: &str, count: u32| json!({"format": 1, "task": task, "shard": [1, count], "counts": [], "full": false});
    for line in [mark("a", 2), mark("b", 2), mark("a", 3), json!({})] {
        problems.extend(merge.take(&line.to_string()).err());
    }
    problems.extend(merge.whole().err());
    Ok(problems)
}

/// What is said against asks for layouts.
fn refused_layouts() -> Result<Vec<Problem>> {
    let set = "ravigneaux";
    let asks = [
        json!({"sets": ["planetary", "gear-pair"], "forward": [{}]}),
        json!({"sets": [set, set, set, set], "forward": [{}]}),
        json!({"sets": [set], "forward": [{"ratio": 1}, {"ratio": 2}]}),
        json!({"sets": [set], "forward": [{}], "clutches": 0, "brakes": 0}),
        json!({"sets": [set], "forward": [{"ratio": 3}, {"ratio": 1.5}], "step": [1.1, 1.2]}),
        json!({"sets": [set], "forward": [{"ratio": 3}, {"ratio": 1.5}], "spread": {"value": 5, "tolerance": 0}}),
        json!({"sets": [set], "forward": [{}, {}], "step": [1.1, 1.2], "spread": {"value": 5, "tolerance": 0}}),
        json!({"sets": [set], "forward": [{"ratio": 3}], "direct": true}),
        json!({"sets": ["planetary"], "forward": [{}], "applied": 4, "elements": 6}),
    ];
    let mut problems = Vec::new();
    for mut ask in asks {
        for (field, usual) in [("applied", 2), ("elements", 4)] {
            if ask.get(field).is_none() {
                ask[field] = json!(usual);
            }
        }
        let ask = LayoutAsk::parse(&ask.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        problems.extend(LayoutSearch::new(&ask).err().into_iter().flatten());
    }
    Ok(problems)
}

/// What is said against edits of two sets in series and a pair of gears, with a one-way clutch.
fn refused_edits() -> Result<Vec<Problem>> {
    let made = |scenario: &Scenario, edit: Value| -> Result<Result<Scenario, Problem>> {
        let edit = Edit::parse(&edit.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        Ok(edit.of(scenario))
    };
    let mut train = starter(2)?;
    for edit in [
        json!({"edit": "add-set", "kind": "gear-pair", "at": 9}),
        json!({"edit": "add-element", "kind": "one-way", "ends": ["out", "housing"]}),
        json!({"edit": "add-element", "kind": "clutch", "ends": ["r1", "r2"]}),
        json!({"edit": "add-range", "label": "", "applied": []}),
    ] {
        train = made(&train, edit)??;
    }
    let friction = json!({"surfaces": 2, "outer_radius": 9, "inner_radius": 8,
        "coefficient": 0.1, "clamp_force": 9});
    let refused = [
        json!({"edit": "teeth", "set": "p1", "gear": 9, "teeth": 20}),
        json!({"edit": "place", "set": "p1", "member": 9, "shaft": ""}),
        json!({"edit": "place", "set": "p3", "member": 1, "shaft": ""}),
        json!({"edit": "count", "set": "p3", "count": 3}),
        json!({"edit": "mesh", "set": "p1", "mesh": "internal"}),
        json!({"edit": "locks", "element": "V", "way": "forward"}),
        json!({"edit": "friction", "element": "Q", "friction": friction}),
        json!({"edit": "turn", "set": "p1", "turned": true}),
        json!({"edit": "connect", "first": "in", "second": "in"}),
        json!({"edit": "connect", "first": "in", "second": "out"}),
        json!({"edit": "connect", "first": "in", "second": "r1"}),
        json!({"edit": "connect", "first": "r1", "second": "r2"}),
        json!({"edit": "connect", "first": "in", "second": "housing"}),
        json!({"edit": "point", "rows": "full", "at": 1, "there": true}),
        json!({"edit": "move-set", "set": "zz", "at": 0}),
        json!({"edit": "move-range", "range": "zz", "at": 0}),
        json!({"edit": "add-set", "kind": "zz", "at": 0}),
        json!({"edit": "add-element", "kind": "zz", "ends": ["in", "out"]}),
    ];
    refused
        .into_iter()
        .map(|edit| match made(&train, edit.clone())? {
            Ok(_) => bail!("{edit} is made"),
            Err(problem) => Ok(problem),
        })
        .collect()
}
