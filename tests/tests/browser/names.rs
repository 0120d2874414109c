//! Names as people write them, in sentences that are not in their language; and what is said aloud.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde::Deserialize;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND};

/// Says of each kind of thing what it is, in two languages that are written leftwards.
const WORDS: [(&str, &str); 5] = [
    ("shafts", "ציר"),
    ("couplings", "מערכת"),
    ("elements", "בלם"),
    ("ranges", "السرعة"),
    ("name", "علبة التروس 6"),
];

/// The six-speed with every label in Hebrew or Arabic, and all labels there are then.
fn leftwards() -> Result<(PathBuf, BTreeSet<String>)> {
    let scenarios = files::scenarios()?;
    let six = scenarios.iter().find(|file| file.stem == by_hand::STEM);
    let mut train: Value = serde_json::from_str(six.map_or("", |file| &file.text))?;
    let mut names = BTreeSet::new();
    for (kind, word) in WORDS {
        let Some(things) = train[kind].as_array_mut() else {
            train[kind] = word.into();
            names.insert(word.to_owned());
            continue;
        };
        for (at, thing) in things.iter_mut().enumerate() {
            let label = format!("{word} {}", at + 1);
            thing["label"] = label.clone().into();
            names.insert(label);
        }
    }
    // What a file of it is called, up to its number.
    names.insert("علبة-التروس".to_owned());
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("leftwards.json");
    fs::write(&path, train.to_string())?;
    Ok((path, names))
}

#[derive(Debug, Deserialize)]
struct Shown {
    /// What stands for itself.
    isolated: BTreeSet<String>,
    /// Texts with a leftward letter that stand among others.
    mixed: Vec<String>,
    /// The same of what is only read aloud, and how many names are set apart there.
    mixed_aloud: Vec<String>,
    aloud: usize,
    /// Left ends of the names in the line over the answer.
    lefts: Vec<f64>,
}

const SHOWN: &str = "(() => { \
    const leftward = /[\\u0590-\\u08ff]/; \
    const walker = document.createTreeWalker(probe.one('.levertrain'), NodeFilter.SHOW_TEXT); \
    const isolated = [], mixed = []; \
    while (walker.nextNode()) { \
        const { data, parentElement } = walker.currentNode; \
        if (!leftward.test(data) || parentElement.closest('.unseen, .cm-iso')) continue; \
        if (parentElement.closest('bdi')) isolated.push(data); \
        else if (parentElement.closest('option')) { \
            if (data.replaceAll(/\\u2068[^\\u2069]*\\u2069/g, '').match(leftward) && data.match(/[a-z]/)) mixed.push(data); \
        } else mixed.push(data); \
    } \
    const lefts = probe.all('[data-part=applied] bdi').map((node) => node.getBoundingClientRect().left); \
    const apart = /\\u2068[^\\u2068\\u2069]*\\u2069/g; \
    const labels = probe.all('[aria-label]').map((node) => node.getAttribute('aria-label')); \
    const mixed_aloud = labels.filter((label) => leftward.test(label.replaceAll(apart, ''))); \
    const aloud = labels.filter((label) => label.match(apart)).length; \
    return { isolated: [...new Set(isolated)], mixed, mixed_aloud, aloud, lefts }; \
})()";

fn check(page: &Page, names: &BTreeSet<String>, what: &str) -> Result<()> {
    page.rest()?;
    let shown: Shown = page.get(SHOWN, Value::Null)?;
    ensure!(shown.mixed.is_empty(), "{what}: {:?}", shown.mixed);
    ensure!(
        shown.mixed_aloud.is_empty() && shown.aloud > 7,
        "{what}: {} and {:?}",
        shown.aloud,
        shown.mixed_aloud
    );
    let unknown: Vec<_> = shown.isolated.difference(names).collect();
    ensure!(unknown.is_empty(), "{what}: set apart are {unknown:?}");
    ensure!(shown.isolated.len() > 15, "{what}: {:?}", shown.isolated);
    ensure!(
        shown.lefts.len() == 3 && shown.lefts.is_sorted(),
        "{what}: the names stand at {:?}",
        shown.lefts
    );
    Ok(())
}

/// Catches a name that turns the sentence around it, or the names beside it, round: "range 1 · brake 2
/// and clutch 4 applied" must be read in this order whatever they are called.
#[test]
fn names_that_run_leftwards_leave_sentences_in_their_order() -> Result<()> {
    let (path, names) = leftwards()?;
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.open_file(&path)?;
        page.until("it is open", "location.hash === ''")?;
        page.click_range(FIRST.id)?;
        check(page, &names, "first")?;
        page.run(
            "probe.one('tr[data-shaft-id=\"c1\"] button, tr[data-shaft-id] button').focus()",
            Value::Null,
        )?;
        page.click_range(SECOND.id)?;
        check(page, &names, "second, with a member lit")
    })
}

/// Catches news that is told twice, or in pieces: each change is said once, as a whole.
#[test]
fn a_change_is_said_once() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.rest()?;
        let live = "probe.all('[role=status], [role=alert], [role=log], output, [aria-live]')";
        let count: usize = page.get(&format!("{live}.length"), Value::Null)?;
        ensure!(count >= 2, "{count} live regions");
        page.run(
            &format!(
                "window.said = []; for (const node of {live}) new MutationObserver(() => \
                    said.push(node.textContent)).observe(node, \
                    {{ childList: true, characterData: true, subtree: true }})"
            ),
            Value::Null,
        )?;
        page.click_range(SECOND.id)?;
        page.until("something is said", "said.length > 0")?;
        page.get::<()>("new Promise((done) => setTimeout(done, 1000))", json!(null))?;
        let said: Vec<String> = page.get("said", Value::Null)?;
        ensure!(said.len() == 1, "{said:#?}");
        ensure!(said[0].contains("1.977 to 1"), "{said:?}");
        Ok(())
    })
}
