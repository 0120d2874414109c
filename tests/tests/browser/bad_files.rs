//! Files that are no scenario: one clear message, and what was on screen stays.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND};

fn write(name: &str, text: &str) -> Result<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bad-files");
    fs::create_dir_all(&folder)?;
    let path = folder.join(name);
    fs::write(&path, text)?;
    Ok(path)
}

fn six_speed() -> Result<String> {
    Ok(fs::read_to_string(
        files::scenario_folder().join(format!("{}.json", by_hand::STEM)),
    )?)
}

fn open(page: &Page, path: &Path) -> Result<Vec<String>> {
    page.run("probe.one('[data-part=dismiss]')?.click()", Value::Null)?;
    page.open_file(path)?;
    page.until("a message comes", "probe.one('[data-part=message]')")?;
    page.messages()
}

/// Each row is a file name, what is wrong with the six-speed in it, and what the message must
/// name. Catches a message that is missing or vague, and a page that has let go of the old train
/// before it has the new one.
#[test]
fn each_is_named_and_changes_nothing() -> Result<()> {
    let good = six_speed()?;
    let rows: Vec<(&str, String, &[&str])> = vec![
        (
            "truncated.json",
            good[..good.len() / 2].to_owned(),
            &["line"],
        ),
        ("empty.json", String::new(), &["line 1"]),
        (
            "no-json.json",
            "<!doctype html><title>404</title>".into(),
            &["line 1"],
        ),
        (
            "huge.json",
            format!("{good}{}", " ".repeat(70 * 1024)),
            &["huge.json", "64 KiB"],
        ),
        (
            "zero-teeth.json",
            good.replacen("\"teeth\": 51", "\"teeth\": 0", 1),
            &["couplings[1].sun.teeth", "0 teeth"],
        ),
        (
            "unknown-shaft.json",
            good.replacen(
                "\"shaft\": \"s1\", \"teeth\"",
                "\"shaft\": \"ghost\", \"teeth\"",
                1,
            ),
            &["ghost"],
        ),
        (
            "unknown-element.json",
            good.replace("[\"W\", \"J\"]", "[\"W\", \"Q\"]"),
            &["\"Q\""],
        ),
        (
            "unknown-field.json",
            good.replacen("\"format\"", "\"colour\": 1, \"format\"", 1),
            &["colour"],
        ),
        (
            "other-format.json",
            good.replacen("\"format\": 2", "\"format\": 9", 1),
            &["9"],
        ),
        // A shaft that drives itself, through a set and through a clutch.
        (
            "cyclic-set.json",
            good.replacen("\"carrier\": \"c1\"", "\"carrier\": \"out\"", 1),
            &["p1", "out"],
        ),
        (
            "cyclic-clutch.json",
            good.replacen("[\"s1\", \"in\"]", "[\"in\", \"in\"]", 1),
            &["in"],
        ),
        (
            "cyclic-output.json",
            good.replacen("\"output\": \"out\"", "\"output\": \"in\"", 1),
            &["in"],
        ),
        ("deep.json", "[".repeat(20_000), &["line 1"]),
    ];
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before = page.seen()?;
        let address: String = page.get("location.href", Value::Null)?;
        for (name, text, parts) in &rows {
            ensure!(text != &good, "{name} is the good file");
            let messages = open(page, &write(name, text)?)?;
            ensure!(
                messages.len() == 1,
                "{name}: {} messages: {messages:#?}",
                messages.len()
            );
            ensure!(
                parts.iter().all(|part| messages[0].contains(part)),
                "{name}: {messages:#?}"
            );
            let seen = page.seen()?;
            ensure!(seen == before, "{name} changes the screen: {seen:?}");
            let after: String = page.get("location.href", Value::Null)?;
            ensure!(after == address, "{name} changes the address to {after}");
        }
        page.click("[data-part=dismiss]")?;
        ensure!(page.messages()?.is_empty(), "the message stays");
        page.click_range(SECOND.id)?;
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
        ensure!(seen.section != before.section && seen.lever != before.lever);
        Ok(())
    })
}

/// Catches a page that shows the first fault only, or all of thousands.
#[test]
fn several_faults_are_all_named_but_not_without_end() -> Result<()> {
    let good = six_speed()?;
    let two = good
        .replacen("\"input\": \"in\"", "\"input\": \"nowhere\"", 1)
        .replace("[\"W\", \"J\"]", "[\"Q\"]");
    let many = good.replace("\"applied\": [", "\"applied\": [\"X\", \"Y\", \"Z\", ");
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let messages = open(page, &write("two-faults.json", &two)?)?;
        ensure!(messages.len() == 2, "{messages:#?}");
        ensure!(
            messages[0].contains("nowhere") && messages[1].contains("\"Q\""),
            "{messages:#?}"
        );
        let messages = open(page, &write("many-faults.json", &many)?)?;
        ensure!(messages.len() < 10, "{} messages", messages.len());
        // Seven ranges with three unknown elements each.
        let last = messages.last().cloned().unwrap_or_default();
        let left = 21 - (messages.len() - 1);
        ensure!(
            last.contains(&left.to_string()),
            "{last:?} instead of {left} more"
        );
        Ok(())
    })
}

/// Gears that cannot turn are no bad file: the file opens and the answer says so. The pairs make
/// a ring in which the input would have to turn at −2 · −2 · −2 = −8 times its own speed.
#[test]
fn gears_in_a_ring_open_and_are_said_to_be_tied_up() -> Result<()> {
    let ring = r#"{"format": 2, "name": "Ring of pairs", "input": "in", "output": "b",
        "shafts": [{"id": "in", "label": "Input"}, {"id": "a", "label": "A"}, {"id": "b", "label": "B"}],
        "couplings": [
            {"kind": "gear-pair", "id": "g1", "label": "Pair 1", "mesh": "external",
             "first": {"shaft": "in", "teeth": 40}, "second": {"shaft": "a", "teeth": 20}},
            {"kind": "gear-pair", "id": "g2", "label": "Pair 2", "mesh": "external",
             "first": {"shaft": "a", "teeth": 40}, "second": {"shaft": "b", "teeth": 20}},
            {"kind": "gear-pair", "id": "g3", "label": "Pair 3", "mesh": "external",
             "first": {"shaft": "b", "teeth": 40}, "second": {"shaft": "in", "teeth": 20}}],
        "elements": [], "ranges": []}"#;
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.open_file(&write("ring.json", ring)?)?;
        page.until(
            "it is open",
            "probe.text('[data-part=state]') === 'Tied up'",
        )?;
        let seen = page.seen()?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        ensure!(seen.ratio.is_none(), "{seen:?}");
        let words = seen.sentences.join(" ");
        for label in ["Pair 1", "Pair 2", "Pair 3"] {
            ensure!(words.contains(label), "{words}");
        }
        page.back()?;
        page.until(
            "the six-speed is back",
            "probe.text('[data-part=ratio]') === '2.706 : 1'",
        )
    })
}
