//! All that the core and the drawings say is said in another language once another catalogue is
//! spoken. The language is made up: English in letters of another script, so that whatever is still
//! in ours was written elsewhere.

use std::collections::BTreeSet;
use std::fs;

use anyhow::{Result, anyhow, bail, ensure};
use levertrain_core::edit::{Edit, starter};
use levertrain_core::exercise::{MOST_ONE_WAYS, Sheet};
use levertrain_core::faults::{BecomesReport, FaultsReport, Search};
use levertrain_core::layouts::{LayoutAsk, LayoutSearch};
use levertrain_core::lesson::{ShiftReport, WalkReport};
use levertrain_core::operating::Conditions;
use levertrain_core::report::{Explanation, OperatingReport, warnings};
use levertrain_core::search::{Ask, Search as TeethSearch};
use levertrain_core::words::Catalogue;
use levertrain_core::{ElementSet, Problem, Scenario, Train};
use levertrain_tests::files::{root, scenarios, schema};
use levertrain_tests::made_up::{FIRST_MARK, made_up, ours, rename};
use levertrain_web::pictures;
use levertrain_web::session::Session;
use levertrain_web::settings::Settings;
use serde_json::{Value, json};

/// What says what is wrong, and with what; messages beginning so carry a mark of their own, so that
/// it is seen which are reached.
const MARKED: [&str; 2] = ["problem-", "fix-"];
/// Those that only a page can bring about.
const OF_A_PAGE: [&str; 3] = ["problem-nothing-open", "fix-nothing-open", "problem-canvas"];
/// What a search for teeth refuses only of trains with more sets than ours, or after trying millions of counts.
const OF_A_SEARCH: [&str; 6] = [
    "problem-ask-many-cuts",
    "fix-ask-many-cuts",
    "problem-ask-ratios",
    "fix-ask-ratios",
    "problem-ask-only-these",
    "problem-ask-too-long",
];
/// Settings, all of them right.
const SETTINGS: &str = r#"{"palette": "dark", "scale": 1, "width": 390, "merged": false,
    "one_module": true, "rate": 1, "power": true, "speed": 1500, "torque": 250,
    "speed_unit": "rad/s", "torque_unit": "N·m", "mesh": 0.98, "drag": 2, "coasting": true,
    "pedal": 0.5, "grade": -0.1, "lockup": true}"#;

#[test]
fn drawings_and_explanations_say_nothing_in_ours() -> Result<()> {
    speak()?;
    let mut said = 0;
    for scenario in scenarios()? {
        let mut data: Value = serde_json::from_str(&scenario.text)?;
        rename(&mut data);
        let text = data.to_string();
        let Ok(mut session) = Session::open(&text) else {
            anyhow::bail!("{} does not open", scenario.stem)
        };
        let train = session.train();
        let ranges = (0..train.scenario().ranges.len()).map(|range| train.range(range));
        // Beside the ranges: nothing applied, and all that can be.
        let all: ElementSet = (0..train.scenario().elements.len()).collect();
        let all = all.minus(train.one_ways());
        let sets: Vec<ElementSet> = ranges.chain([ElementSet::NONE, all]).collect();
        for applied in sets {
            session.apply(applied);
            session.settle();
            for text in texts(&mut session)? {
                said += 1;
                let left = ours(&text, &BTreeSet::new());
                ensure!(left.is_none(), "{}: {left:?} in {text:?}", scenario.stem);
            }
        }
    }
    ensure!(said > 5000, "{said}");
    Ok(())
}

/// All that is drawn and told of what is on screen.
fn texts(session: &mut Session) -> Result<Vec<String>> {
    let mut texts = Vec::new();
    let ids = session.train().scenario().couplings.iter();
    let ends: Vec<String> = ids
        .map(|coupling| format!("end:{}", coupling.facts().id()))
        .collect();
    let named = ["section", "lever", "flow", "operating"].map(str::to_owned);
    for (power, width, speed) in [(false, 390.0, 0.0), (true, 1280.0, 1500.0)] {
        session.set(Settings {
            power,
            width,
            speed,
            merged: power,
            ..Settings::default()
        });
        let shown = session.train().scenario().engine.is_some();
        let drawn = named.iter().chain(&ends);
        for drawing in drawn.filter(|name| shown || *name != "operating") {
            let scene = pictures::scene(session, drawing, (width, 400.0))?;
            texts.extend(scene.labels().map(|label| label.text.clone()));
        }
    }
    texts.extend(session.layout().caution());
    let combination = session.combination();
    let explanation = Explanation::from(&combination);
    texts.push(explanation.answer);
    texts.push(explanation.state_words.to_owned());
    texts.extend(explanation.sentences);
    for coupling in explanation.couplings {
        texts.push(coupling.kind.to_owned());
        texts.extend(coupling.pinions.iter().map(|x| x.name.to_owned()));
        texts.extend(coupling.meshes.iter().map(|x| x.mesh.to_owned()));
    }
    for step in WalkReport::of(&combination).steps {
        texts.extend(step.sentences);
        texts.extend(step.parts.into_iter().map(|part| part.part));
    }
    let train = session.train();
    for range in 0..train.scenario().ranges.len() {
        let from = combination.applied().minus(train.one_ways());
        let shift = ShiftReport::of(train, from, train.range(range));
        texts.extend(shift.steps.into_iter().map(|step| step.sentence));
        texts.extend(shift.shafts.into_iter().map(|row| row.words));
    }
    let operating = OperatingReport::of(&combination, &Conditions::default());
    texts.extend(operating.map(|operating| operating.words.to_owned()));
    Ok(texts)
}

#[test]
fn what_faults_do_says_nothing_in_ours() -> Result<()> {
    speak()?;
    let mut said = 0;
    for scenario in scenarios()? {
        let mut data: Value = serde_json::from_str(&scenario.text)?;
        rename(&mut data);
        let train = Train::parse(&data.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
        let search = Search::new(&train);
        let listed = FaultsReport::of(&search);
        let members = listed.faults.iter().filter_map(|fault| fault.member);
        let mut texts: Vec<String> = members.map(str::to_owned).collect();
        for &fault in search.faults() {
            let becomes = BecomesReport::all(&search, &[fault]).into_iter();
            texts.extend(becomes.flat_map(|becomes| becomes.why));
        }
        for text in texts {
            said += 1;
            let left = ours(&text, &BTreeSet::new());
            ensure!(left.is_none(), "{}: {left:?} in {text:?}", scenario.stem);
        }
    }
    ensure!(said > 1000, "{said}");
    Ok(())
}

/// Every value of a file is changed, left out, or has another beside it; what is wrong is told by
/// the names of fields, ids and values, and nothing else is in our letters.
#[test]
fn problems_and_tooth_checks_say_nothing_in_ours() -> Result<()> {
    let marked = speak()?;
    let mut reached = BTreeSet::new();
    let mut known =
        BTreeSet::from(["x", "null", "true", "false", "U", "u", "202E", "202e"].map(str::to_owned));
    fields_in(&serde_json::from_str(&schema()?.text)?, &mut known);
    for scenario in scenarios()? {
        let mut data: Value = serde_json::from_str(&scenario.text)?;
        rename(&mut data);
        data["elements"][0]["gap"] = json!(0);
        let mut known = known.clone();
        known.extend(names_in(&data));
        for changed in changes(&data) {
            let text = changed.to_string();
            let told: Vec<String> = match Train::parse(&text) {
                Err(problems) => problems.iter().map(ToString::to_string).collect(),
                Ok(train) => warnings(&train).into_iter().map(|x| x.text).collect(),
            };
            for text in told {
                let left = ours(&text, &known);
                ensure!(left.is_none(), "{}: {left:?} in {text:?}", scenario.stem);
                reached.extend(text.chars());
            }
        }
    }
    known.extend(names_in(&Value::from(SETTINGS)));
    known.extend(["1e999", "settings", "task", "tasks", "ratio"].map(str::to_owned));
    // Ids, which edits name and give.
    known.extend(
        [
            "K", "V", "Q", "in", "zz", "p1", "p2", "p3", "g1", "g2", "g3", "g4",
        ]
        .map(str::to_owned),
    );
    // Fields of an ask, and names of the train that it is about.
    let fields = "wanted teeth pinions best keep same ring spread value range sets forward step steps distance applied clutches direct";
    known.extend(fields.split(' ').map(str::to_owned));
    known.extend(names_in(&serde_json::from_str(
        &scenarios()?.swap_remove(0).text,
    )?));
    for problem in other_problems()? {
        let text = problem.to_string();
        let left = ours(&text, &known);
        ensure!(left.is_none(), "{left:?} in {text:?}");
        reached.extend(text.chars());
    }
    let marks = (FIRST_MARK..).filter_map(char::from_u32);
    let unreached = marked.iter().zip(marks);
    let unreached = unreached.filter(|(_, mark)| !reached.contains(mark));
    let unreached: Vec<&str> = unreached.map(|(key, _)| key.as_str()).collect();
    let left_out = |key: &&str| OF_A_PAGE.contains(key) || OF_A_SEARCH.contains(key);
    ensure!(
        unreached.iter().all(left_out),
        "{unreached:?} are not reached"
    );
    Ok(())
}

/// What is wrong with texts that are no scenario, with settings, and with what a page may ask for.
fn other_problems() -> Result<Vec<Problem>> {
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
        problems.extend(TeethSearch::new(train, &ask).err().into_iter().flatten());
    }
    let ask = Ask::parse(&json!({"wanted": [{"range": range}]}).to_string());
    let ask = ask.map_err(|problems| anyhow!("{problems:?}"))?;
    let search = TeethSearch::new(train, &ask);
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

/// The names of all fields that a schema describes, and the words that may stand in them.
fn fields_in(schema: &Value, names: &mut BTreeSet<String>) {
    match schema {
        Value::Object(parts) => {
            for (part, value) in parts {
                match (part.as_str(), value) {
                    ("properties", Value::Object(fields)) => names.extend(fields.keys().cloned()),
                    ("enum" | "const", words) => names.extend(names_in(words)),
                    _ => {}
                }
                fields_in(value, names);
            }
        }
        Value::Array(items) => items.iter().for_each(|item| fields_in(item, names)),
        _ => {}
    }
}

/// The words of all keys and texts.
fn names_in(value: &Value) -> BTreeSet<String> {
    let text = value.to_string();
    let words = text.split(|c: char| !c.is_ascii_alphanumeric());
    words.map(str::to_owned).collect()
}

/// Has this thread speak the made-up language; which of its messages are marked.
fn speak() -> Result<Vec<String>> {
    let text = fs::read_to_string(root().join("core/words/en.ftl"))?;
    let keys = text
        .lines()
        .filter_map(|line| Some(line.split_once(" = ")?.0));
    let marked = keys.filter(|key| MARKED.iter().any(|start| key.starts_with(start)));
    let marked: Vec<String> = marked.map(str::to_owned).collect();
    Catalogue::of(made_up(&text, &marked).leak()).speak();
    Ok(marked)
}

/// A file with each of its values changed in turn, left out, called otherwise or repeated.
fn changes(data: &Value) -> Vec<Value> {
    let mut places = Vec::new();
    collect(data, String::new(), &mut places);
    let numbers = json!([-1, 7.5, 0, 7, 77, 300, 1_000_000, -99_999]);
    let texts = json!([null, true, [], {}, -1, "", "x", " ", "\u{202e}", "housing"]);
    let [numbers, mut others] = [numbers, texts].map(|list| match list {
        Value::Array(items) => items,
        _ => Vec::new(),
    });
    for list in ["shafts", "elements"] {
        let ids = data[list].as_array().into_iter().flatten();
        others.extend(ids.map(|item| item["id"].clone()));
    }
    let mut changed = Vec::new();
    for place in places {
        let more = match data.pointer(&place) {
            Some(Value::Number(_)) => &*numbers,
            _ => &[],
        };
        for other in others.iter().chain(more) {
            let mut data = data.clone();
            if let Some(value) = data.pointer_mut(&place) {
                *value = other.clone();
            }
            changed.push(data);
        }
        let Some((around, own)) = place.rsplit_once('/') else {
            continue;
        };
        let mut data = data.clone();
        match data.pointer_mut(around) {
            Some(Value::Object(fields)) => {
                let value = fields.remove(own).unwrap_or_default();
                changed.push(data.clone());
                if let Some(Value::Object(fields)) = data.pointer_mut(around) {
                    fields.insert("x".to_owned(), value);
                }
            }
            Some(Value::Array(items)) => {
                let item = own
                    .parse()
                    .ok()
                    .and_then(|at: usize| items.get(at).cloned());
                items.extend(item.iter().cloned());
                changed.push(data.clone());
                if let Some(Value::Array(items)) = data.pointer_mut(around) {
                    items.extend(std::iter::repeat_n(item.unwrap_or_default(), 40));
                }
            }
            _ => {}
        }
        changed.push(data);
    }
    changed
}

/// The places of all values; of a list the first two and the last.
fn collect(value: &Value, place: String, places: &mut Vec<String>) {
    match value {
        Value::Object(fields) => {
            for (name, value) in fields {
                collect(value, format!("{place}/{name}"), places);
            }
        }
        Value::Array(items) => {
            for (index, value) in items.iter().enumerate() {
                if index < 2 || index + 1 == items.len() {
                    collect(value, format!("{place}/{index}"), places);
                }
            }
        }
        _ => {}
    }
    places.push(place);
}
