//! All that the core and the drawings say is said in another language once another catalogue is
//! spoken. The language is made up: English in letters of another script, so that whatever is still
//! in ours was written elsewhere.

mod changes;
mod refusals;

use std::collections::BTreeSet;
use std::fs;

use anyhow::{Result, anyhow, ensure};
use changes::{changes, fields_in, names_in};
use levertrain_core::faults::{BecomesReport, FaultsReport, Search};
use levertrain_core::lesson::{ShiftReport, WalkReport};
use levertrain_core::operating::Conditions;
use levertrain_core::report::{Explanation, OperatingReport, warnings};
use levertrain_core::words::Catalogue;
use levertrain_core::{ElementSet, Train};
use levertrain_tests::files::{root, scenarios, schema};
use levertrain_tests::made_up::{FIRST_MARK, made_up, ours, rename};
use levertrain_web::pictures;
use levertrain_web::session::Session;
use levertrain_web::settings::Settings;
use refusals::{SETTINGS, other_problems};
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
