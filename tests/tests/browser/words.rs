//! What the page says comes from one file of the site.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{View, own_site, page, skipped};
use serde_json::Value;

use crate::by_hand::{self, FIRST};

const WORDS: &str = "words/en.ftl";
const LESSON: &str = "lesson.html";

fn lesson() -> String {
    format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <lever-train with=\"all\" scenario=\"{}\" applied=\"{}\"></lever-train>",
        by_hand::STEM,
        FIRST.applied.join(",")
    )
}

/// Catches an element that stays empty, or shows the keys of messages, where the catalogue or the
/// engine did not come.
#[test]
fn what_did_not_come_is_named() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("words-missing");
    // The site's own page would be kept whole by the browser.
    let site = own_site::make(folder, &[(LESSON, &lesson())])?;
    page::open_in(&site, View::LAPTOP, LESSON, |page| {
        for (file, folder) in [(WORDS, "words/"), ("engine/levertrain_bg.wasm", "engine/")] {
            let kept = fs::read(site.join(file))?;
            fs::remove_file(site.join(file))?;
            page.expect_fault("404");
            page.goto_silent(&format!("{}{LESSON}?without={folder}", page.address()))?;
            page.until("it gives up", "probe.one('[data-part=empty]')")?;
            let told: String =
                page.get("probe.one('[data-part=empty]').textContent", Value::Null)?;
            for part in ["did not load", "the host answered 404", folder] {
                ensure!(told.contains(part), "no {part:?} in {told:?}");
            }
            fs::write(site.join(file), kept)?;
        }
        page.goto(LESSON)
    })
}

/// Catches words that stand in the page or in its engine.
#[test]
fn page_and_engine_speak_from_the_file() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("words-other");
    let site = own_site::make(folder, &[(LESSON, &lesson())])?;
    let text = fs::read_to_string(site.join(WORDS))?;
    let changes = [
        ("state-driving = Drives", "state-driving = F\u{e4}hrt"),
        ("page-panel-losses = Losses", "page-panel-losses = Verluste"),
        // Elements stand where the sentence wants them.
        (
            "page-answer-more = { $state }, { $pace }; exactly { $exact }",
            "page-answer-more = genau { $exact }: { $state }, { $pace }",
        ),
    ];
    let mut other = text;
    for (message, said) in changes {
        ensure!(other.contains(message), "no {message}");
        other = other.replace(message, said);
    }
    fs::write(site.join(WORDS), other)?;
    page::open_in(&site, View::LAPTOP, LESSON, |page| {
        let seen = page.seen()?;
        ensure!(seen.state.as_deref() == Some("F\u{e4}hrt"), "{seen:?}");
        let heading: String = page.get(
            "probe.one('[data-part=losses] h2').textContent",
            Value::Null,
        )?;
        ensure!(heading == "Verluste", "{heading:?}");
        let more: Vec<String> = page.get(
            "[...probe.one('[data-part=exact]').parentElement.childNodes] \
                .map((node) => node.dataset?.part ?? node.textContent)",
            Value::Null,
        )?;
        ensure!(more[..4] == ["genau ", "exact", ": ", "state"], "{more:?}");
        Ok(())
    })
}
