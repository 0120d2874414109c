//! Edits of scenarios: what each makes, and the way back.

mod drawn;
mod random;
mod surroundings;

use std::fs;

use anyhow::{Result, anyhow, bail, ensure};
use levertrain_core::coupling::Coupling;
use levertrain_core::edit::{
    Edit, History, NearRatio, blank, near_ratios, nearest_teeth, ratio_of, starter, text,
};
use levertrain_core::{Duty, ElementSet, Fraction, Scenario, State, Train};
use levertrain_tests::files::{root, scenarios};
use serde_json::{Value, json};

/// The kinds of sets, as files name them.
const KINDS: [&str; 6] = [
    "planetary",
    "double-pinion",
    "stepped",
    "stepped-suns",
    "ravigneaux",
    "gear-pair",
];

fn parsed(text: &str) -> Result<Scenario> {
    Scenario::parse(text).map_err(|problems| anyhow!("{problems:?}"))
}

fn train(scenario: &Scenario) -> Result<Train> {
    Train::new(scenario.clone()).map_err(|problems| anyhow!("{problems:?}"))
}

fn edit(value: &Value) -> Result<Edit> {
    Edit::parse(&value.to_string()).map_err(|problems| anyhow!("{value}: {problems:?}"))
}

fn after(scenario: &Scenario, edits: &[Value]) -> Result<Scenario> {
    edits.iter().try_fold(scenario.clone(), |scenario, value| {
        Ok(edit(value)?.of(&scenario)?)
    })
}

fn all() -> Result<Vec<Scenario>> {
    let files = scenarios()?.into_iter();
    files.map(|file| parsed(&file.text)).collect()
}

/// Catches a text that reads as another scenario, or that no person would want to read.
#[test]
fn the_text_of_a_scenario_reads_as_it() -> Result<()> {
    for scenario in all()? {
        let text = text(&scenario);
        ensure!(parsed(&text)? == scenario, "{}", scenario.name);
        let items = scenario.couplings.len() + scenario.elements.len() + scenario.shafts.len();
        ensure!(text.lines().count() > items, "all in one line");
        let fields = text.lines().filter(|line| line.starts_with("  \"")).count();
        ensure!(fields >= 8, "{fields} lines of fields");
    }
    Ok(())
}

/// Catches sets that break a rule of teeth before anybody has touched them.
#[test]
fn a_new_set_of_every_kind_keeps_all_rules_and_floats() -> Result<()> {
    for kind in KINDS {
        let scenario = after(
            &blank(),
            &[json!({"edit": "add-set", "kind": kind, "at": 9})],
        )?;
        let [set] = &scenario.couplings[..] else {
            bail!("{kind}: {} sets", scenario.couplings.len());
        };
        let warnings = set.facts().tooth_warnings();
        ensure!(warnings.is_empty(), "{kind}: {warnings:?}");
        let train = train(&scenario)?;
        let neutral = train.solve(ElementSet::NONE);
        ensure!(*neutral.state() == State::Neutral, "{kind}");
        ensure!(neutral.shaft_speed(train.output()).is_none(), "{kind}");
    }
    Ok(())
}

/// Ratios by hand: a planetary set with its ring held and its carrier driven by the sun has
/// (S + R) / S, S and R being its teeth (Willis' relation), and sets one behind the other multiply.
#[test]
fn starters_drive_as_their_teeth_say() -> Result<()> {
    let sets = [(36, 84), (48, 96), (60, 96)].map(|(s, r)| f64::from(s + r) / f64::from(s));
    for count in 1..=3 {
        let train = train(&starter(count)?)?;
        ensure!(train.scenario().ranges.len() == count + 1);
        for locked in 0..=count {
            let State::Driving(ratio) = train.solve(train.range(locked)).state().clone() else {
                bail!("range {locked} of {count} sets does not drive");
            };
            let by_hand: f64 = sets[..count - locked].iter().product();
            ensure!(
                (ratio.to_f64() - by_hand).abs() < 1e-12,
                "{count}, {locked}"
            );
        }
        let couplings = train.scenario().couplings.iter();
        ensure!(
            couplings
                .map(Coupling::facts)
                .all(|set| set.tooth_warnings().is_empty())
        );
    }
    Ok(())
}

/// Builds the six-speed of the files from nothing, as a user would, and compares every combination.
#[test]
fn the_six_speed_can_be_built_from_nothing() -> Result<()> {
    let file = parsed(&fs::read_to_string(
        root().join("scenarios/04-six-speed-three-sets.json"),
    )?)?;
    let wanted = train(&file)?;
    let mut scenario = blank();
    for (at, set) in file.couplings.iter().enumerate() {
        let id = format!("p{}", at + 1);
        let mut edits = vec![json!({"edit": "add-set", "kind": "planetary", "at": at})];
        let mut copy = set.clone();
        for (gear, (_, teeth)) in copy.parts().teeth.iter().enumerate() {
            let teeth = teeth.get();
            edits.push(json!({"edit": "teeth", "set": id, "gear": gear, "teeth": teeth}));
        }
        scenario = after(&scenario, &edits)?;
    }
    // Members that are on one shaft in the file are connected; those on the input or output with it.
    let mine = |scenario: &Scenario, at: usize, member: usize| {
        scenario.couplings[at].facts().members()[member]
            .shaft
            .to_owned()
    };
    let mut shafts: Vec<(String, String)> = vec![
        (file.input.clone(), "in".to_owned()),
        (file.output.clone(), "out".to_owned()),
    ];
    for (at, set) in file.couplings.iter().enumerate() {
        for (member, known) in set.facts().members().iter().enumerate() {
            let own = mine(&scenario, at, member);
            let before = shafts.iter().find(|(id, _)| id == known.shaft);
            match before.cloned() {
                Some((_, first)) => {
                    let connect = json!({"edit": "connect", "first": first, "second": own});
                    scenario = after(&scenario, &[connect])?;
                }
                None if known.shaft == "housing" => {
                    let hold = json!({"edit": "place", "set": format!("p{}", at + 1),
                        "member": member, "shaft": "housing"});
                    scenario = after(&scenario, &[hold])?;
                }
                None => shafts.push((known.shaft.to_owned(), own)),
            }
        }
    }
    let of = |id: &str| {
        let known = shafts.iter().find(|(known, _)| known == id);
        known.map_or("housing", |(_, own)| own).to_owned()
    };
    for element in &file.elements {
        let value = serde_json::to_value(element)?;
        let ends = match value["between"].as_array() {
            Some(ends) => [&ends[0], &ends[1]].map(|end| of(end.as_str().unwrap_or_default())),
            None => [
                of(value["shaft"].as_str().unwrap_or_default()),
                of("housing"),
            ],
        };
        let kind = element.kind();
        let add = json!({"edit": "add-element", "kind": kind, "ends": ends});
        scenario = after(&scenario, &[add])?;
    }
    let built = train(&scenario)?;
    // Brakes and clutches get the letters that the files use, in the order in which they come.
    let ids = |train: &Train| -> Vec<String> {
        train
            .scenario()
            .elements
            .iter()
            .map(|x| x.id().to_owned())
            .collect()
    };
    ensure!(ids(&built) == ids(&wanted), "{:?}", ids(&built));
    let mut compared = 0;
    wanted.for_each_combination(|combination| {
        let other = built.solve(combination.applied());
        assert_eq!(
            other.state(),
            combination.state(),
            "{:?}",
            combination.applied()
        );
        compared += 1;
    });
    ensure!(compared == 1 << file.elements.len());
    Ok(())
}

/// Catches a shaft that is held for good otherwise than by a brake that is always applied: clutches and
/// one-way clutches on it must work against the housing then.
#[test]
fn held_for_good_is_as_held_by_a_brake() -> Result<()> {
    let (mut held, mut refused) = (0, 0);
    for scenario in all()? {
        for shaft in &scenario.shafts {
            let hold = json!({"edit": "connect", "first": "housing", "second": shaft.id});
            let brake =
                json!({"edit": "add-element", "kind": "brake", "ends": [shaft.id, "housing"]});
            let Ok(fast) = after(&scenario, &[hold]) else {
                refused += 1;
                continue;
            };
            held += 1;
            let fast = train(&fast)?;
            let braked = train(&after(&scenario, &[brake])?)?;
            let elements = scenario.elements.len();
            for bits in 0_u32..1 << elements {
                let applied = (0..elements).filter(|at| bits >> at & 1 == 1);
                let applied: ElementSet = applied.collect();
                let states = [
                    fast.settle(applied.minus(fast.one_ways()), Duty::Drive),
                    braked.settle(applied.minus(fast.one_ways()).with(elements), Duty::Drive),
                ];
                let [ours, theirs] = states.map(|settled| settled.combination.state().clone());
                ensure!(
                    ours == theirs,
                    "{}, {}: {bits:b}: {ours:?}, not {theirs:?}",
                    scenario.name,
                    shaft.id
                );
            }
        }
    }
    // Input, output and what a brake or the housing is on cannot be.
    ensure!(held > 5 && refused > 20, "{held} held, {refused} refused");
    Ok(())
}

/// Catches edits that join a shaft with itself, and messages that do not name what is in the way.
#[test]
fn what_cannot_be_joined_is_named() -> Result<()> {
    let scenario = starter(2)?;
    let cases = [
        (
            json!({"edit": "connect", "first": "r1", "second": "in"}),
            "Set 1",
        ),
        (
            json!({"edit": "connect", "first": "in", "second": "out"}),
            "Input",
        ),
        (
            json!({"edit": "add-element", "kind": "clutch", "ends": ["in", "in"]}),
            "in",
        ),
        (
            json!({"edit": "add-element", "kind": "clutch", "ends": ["in", "housing"]}),
            "housing",
        ),
        (
            json!({"edit": "add-element", "kind": "lock", "ends": ["in", "out"]}),
            "clutch",
        ),
        (
            json!({"edit": "add-set", "kind": "belt", "at": 0}),
            "planetary",
        ),
        (
            json!({"edit": "teeth", "set": "p1", "gear": 7, "teeth": 20}),
            "0 to 2",
        ),
        (
            json!({"edit": "place", "set": "p7", "member": 0, "shaft": ""}),
            "p1",
        ),
        (
            json!({"edit": "locks", "element": "V", "way": "forward"}),
            "Brake V",
        ),
    ];
    for (value, named) in cases {
        let Err(problem) = edit(&value)?.of(&scenario) else {
            bail!("{value} was accepted");
        };
        ensure!(problem.to_string().contains(named), "{value}: {problem}");
    }
    let malformed = [
        r#"{"edit": "teeth", "set": "p1", "gear": 0, "teeth": 5}"#,
        r#"{"edit": "teeth", "set": "p1", "gear": 0}"#,
        r#"{"edit": "teeth", "set": "p1", "gear": 0, "teeth": 36, "by": 1}"#,
        r#"{"edit": "paint"}"#,
        r#"{"set": "p1"}"#,
        "",
    ];
    for value in malformed {
        ensure!(Edit::parse(value).is_err(), "{value} was accepted");
    }
    Ok(())
}

/// Catches labels and places that come back wrong, and steps for every letter that is typed.
#[test]
fn typing_is_one_step_and_undone_edits_come_back() -> Result<()> {
    let mut history = History::default();
    let mut scenario = starter(1)?;
    let start = scenario.clone();
    let mut make = |scenario: &mut Scenario, value: Value, continues: bool| -> Result<()> {
        let edit = edit(&value)?;
        let after = edit.of(scenario)?;
        history.note(&edit, scenario, &after, continues);
        *scenario = after;
        Ok(())
    };
    for teeth in [60, 61, 62] {
        let cut = json!({"edit": "teeth", "set": "p1", "gear": 0, "teeth": teeth});
        make(&mut scenario, cut, true)?;
    }
    let other = json!({"edit": "teeth", "set": "p1", "gear": 2, "teeth": 90});
    make(&mut scenario, other, true)?;
    let end = scenario.clone();
    ensure!(history.depth() == [2, 0], "{:?}", history.depth());
    for _ in 0..2 {
        scenario = history.undo(&scenario).ok_or_else(|| anyhow!("no step"))?;
    }
    ensure!(scenario == start && history.undo(&scenario).is_none());
    while let Some(after) = history.redo(&scenario) {
        scenario = after;
    }
    ensure!(scenario == end);

    // What was typed and taken back by typing is no step, and what follows joins none before it.
    for teeth in [91, 90, 92] {
        let cut = edit(&json!({"edit": "teeth", "set": "p1", "gear": 2, "teeth": teeth}))?;
        let after = cut.of(&scenario)?;
        history.note(&cut, &scenario, &after, true);
        scenario = after;
    }
    ensure!(history.depth() == [3, 0], "{:?}", history.depth());
    ensure!(history.undo(&scenario) == Some(end));
    Ok(())
}

/// Catches a step for every letter that is typed in the text of a file, and one for texts typed at
/// different times.
#[test]
fn typing_in_the_text_is_one_step() -> Result<()> {
    let start = starter(2)?;
    let mut history = History::default();
    let mut scenario = start.clone();
    let texts = [
        ("A", false),
        ("Ab", true),
        ("Abc", true),
        ("X", false),
        ("Xy", true),
    ];
    for (name, continues) in texts {
        let mut after = scenario.clone();
        after.name = name.to_owned();
        let edit = Edit::Whole(Box::new(parsed(&text(&after))?));
        let after = edit.of(&scenario)?;
        history.note(&edit, &scenario, &after, continues);
        scenario = after;
    }
    ensure!(history.depth() == [2, 0], "{:?}", history.depth());
    let first = history.undo(&scenario).ok_or_else(|| anyhow!("no step"))?;
    ensure!(first.name == "Abc", "{}", first.name);
    ensure!(history.undo(&first) == Some(start));
    Ok(())
}

/// By hand, for sun 33, pinions 24, ring 84 and four of them: R = S + 2P is out by 3, which no one tooth
/// mends; a pinion of 25 and a ring of 83 do, and 33 + 83 = 4 · 29 spaces them alike.
#[test]
fn the_nearest_teeth_keep_all_rules() -> Result<()> {
    let cut = json!({"edit": "teeth", "set": "p1", "gear": 0, "teeth": 33});
    let scenario = after(&starter(1)?, &[cut])?;
    let nearest = nearest_teeth(&scenario.couplings[0]).unwrap_or_default();
    let counts: Vec<u32> = nearest.iter().map(|teeth| teeth.get()).collect();
    ensure!(counts == [33, 25, 83], "{counts:?}");

    let mut found = 0;
    for kind in KINDS {
        let add = json!({"edit": "add-set", "kind": kind, "at": 0});
        for gear in 0..2 {
            for teeth in [17, 29, 40] {
                let cut = json!({"edit": "teeth", "set": "p1", "gear": gear, "teeth": teeth});
                let mut scenario = after(&blank(), &[add.clone(), cut])?;
                let Some(nearest) = nearest_teeth(&scenario.couplings[0]) else {
                    continue;
                };
                found += 1;
                scenario = Edit::Cut {
                    set: "p1".to_owned(),
                    teeth: nearest,
                }
                .of(&scenario)?;
                let warnings = scenario.couplings[0].facts().tooth_warnings();
                ensure!(warnings.is_empty(), "{kind}: {warnings:?}");
            }
        }
    }
    ensure!(found > 20, "{found}");
    Ok(())
}

/// Catches ratios that no teeth have, teeth that break a rule, and a handle that has nowhere to go. The
/// ratio of a planetary set is R/S (VDI 2157 takes the negative of it, from memory).
#[test]
fn near_ratios_are_of_teeth_that_keep_all_rules() -> Result<()> {
    let mut seen = 0;
    for scenario in all()? {
        for set in &scenario.couplings {
            let near = near_ratios(set);
            let what = format!("{}, {}", scenario.name, set.facts().label());
            let (_, own) = ratio_of(set).ok_or_else(|| anyhow!("{what} has no ratio"))?;
            if set.facts().tooth_warnings().is_empty() {
                ensure!(
                    near.iter().any(|near| near.ratio == own),
                    "{what}: its own is not there"
                );
            }
            ensure!(near.len() > 8, "{what}: {} ratios", near.len());
            ensure!(
                near.is_sorted_by(|one, next| one.ratio < next.ratio),
                "{what}"
            );
            for NearRatio { ratio, teeth } in &near {
                let mut cut = set.clone();
                for ((_, gear), teeth) in cut.parts().teeth.into_iter().zip(teeth) {
                    *gear = *teeth;
                }
                let warnings = cut.facts().tooth_warnings();
                ensure!(warnings.is_empty(), "{what}, {teeth:?}: {warnings:?}");
                if let Coupling::Planetary(set) = &cut {
                    let [ring, sun] = [&set.ring, &set.sun].map(|gear| i64::from(gear.teeth.get()));
                    ensure!(
                        Fraction::new(ring, sun).as_ref() == Some(ratio),
                        "{what}, {teeth:?}: {ratio}"
                    );
                    seen += 1;
                }
            }
        }
    }
    ensure!(seen > 200, "{seen}");
    Ok(())
}
