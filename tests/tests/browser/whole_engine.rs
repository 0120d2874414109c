//! The whole engine, which comes when a panel wants it.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_core::{Nesting, Train};
use levertrain_tests::browser::{Device, Page, View, own_site, page, skipped};
use levertrain_tests::cases;
use levertrain_web::draw::section::Layout;
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND};

const LESSON: &str = "lesson.html";
const WHOLE: &str = "engine/levertrain_whole_bg.wasm";

/// Panels under the drawings that show more than the first engine knows.
const PANELS: &[&str] = &["working", "flow", "end-view", "operating"];

fn site(name: &str, with: &str) -> Result<PathBuf> {
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <h1>Lesson</h1><lever-train with=\"{with}\" scenario=\"{}\" applied=\"{}\"></lever-train>",
        by_hand::STEM,
        SECOND.applied.join(","),
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    own_site::make(folder, &[(LESSON, &text)])
}

fn asked_for_the_whole(page: &Page) -> Result<bool> {
    page.get(
        "performance.getEntriesByType('resource').some(({ name }) => name.includes('whole'))",
        Value::Null,
    )
}

/// Catches an element that loads what it does not show, one that forgets what its reader chose when the
/// whole engine takes over, and a panel that then stays empty.
#[test]
fn it_takes_over_when_a_panel_wants_it() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open_in(
        &site("whole-later", "ranges,controls")?,
        View::LAPTOP,
        LESSON,
        |page| {
            page.click_range(FIRST.id)?;
            let pack = page.pack(&by_hand::train()?, "W")?;
            page.rest()?;
            let before = page.seen()?;
            ensure!(before.ratio.as_deref() == Some(FIRST.ratio), "{before:?}");
            ensure!(!asked_for_the_whole(page)?, "nothing shown needs it");

            let with = PANELS.join(",");
            page.run(
                "probe.host('lever-train').setAttribute('with', `ranges,controls,${args}`)",
                with.into(),
            )?;
            page.run(
                "for (const node of probe.all('details.panel')) node.open = true",
                Value::Null,
            )?;
            page.until(
                "all panels are filled",
                "probe.all('.panel').filter((node) => node.checkVisibility()).every((node) => \
                    !node.hasAttribute('aria-busy') && \
                    node.querySelector('.panel-body').childElementCount > 0)",
            )?;
            ensure!(asked_for_the_whole(page)?, "it was not asked for");
            page.until(
                "the formula is there",
                "probe.all('[data-part=working] math').length > 1",
            )?;
            page.rest()?;
            for drawing in ["flow", "end", "section", "lever"] {
                let canvas = page.canvas(drawing)?;
                ensure!(canvas.colours > 3, "{drawing} is blank");
            }
            ensure!(
                page.seen()? == before,
                "{before:?} became {:?}",
                page.seen()?
            );
            page.drag(Device::Mouse, &pack, -0.9)?;
            ensure!(page.seen()?.applied == ["J"], "no drag");
            page.check_faults()
        },
    )
}

/// Catches a panel that stays empty without a word where the whole engine did not come, and one that never
/// tries again.
#[test]
fn that_it_did_not_come_is_said_and_unfolding_tries_again() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let site = site("whole-missing", "ranges,working")?;
    page::open_in(&site, View::LAPTOP, LESSON, |page| {
        let kept = fs::read(site.join(WHOLE))?;
        fs::remove_file(site.join(WHOLE))?;
        page.expect_fault("404");
        page.goto_silent(&format!("{}{LESSON}?without", page.address()))?;
        page.until("it says so", "probe.one('[data-part=message]')")?;
        let told = page.messages()?.join(" ");
        for part in ["404", "Working"] {
            ensure!(told.contains(part), "no {part} in {told}");
        }
        page.click_range(FIRST.id)?;
        ensure!(
            page.seen()?.ratio.as_deref() == Some(FIRST.ratio),
            "the stage does not go on"
        );

        fs::write(site.join(WHOLE), &kept)?;
        for open in [false, true] {
            page.run(
                "probe.one('details[data-part=working]').open = args",
                open.into(),
            )?;
            page.rest()?;
        }
        page.until(
            "the formula is there",
            "probe.all('[data-part=working] math').length > 1",
        )
    })
}

/// A random train that nests, and that the first engine draws with shafts that pass through one another.
fn crossing_needlessly(cases: &[Value]) -> Result<String> {
    let mut texts = cases.iter().map(|case| case["scenario"].to_string());
    let crosses = |text: &String| {
        Train::parse(text).is_ok_and(|train| {
            train.nesting() == Nesting::Nests && Layout::of(&train).crossings() > 0
        })
    };
    texts
        .find(crosses)
        .context("the first engine draws them all without crossings")
}

/// Catches a train that stays as the first engine draws it where the whole one knows better.
#[test]
fn it_comes_where_shafts_cross_that_need_not() -> Result<()> {
    let Some(cases) = cases::of_file::<Value>("nesting.json")? else {
        return Ok(());
    };
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("crosses-needlessly.json");
    fs::write(&path, crossing_needlessly(&cases)?)?;
    page::open(View::LAPTOP, "", |page| {
        page.open_file(&path)?;
        page.until(
            "it is open, and nothing is said to cross",
            "probe.all('[role=switch][data-element-id=e0]').length > 0 && \
                probe.one('[data-part=layout-caution]').hidden",
        )
    })
}
