//! The sample of a course page: a walkthrough and exercises in ordinary text, which start when they are scrolled to.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Other, Page, View, own_site, page, skipped};
use levertrain_tests::files::root;
use serde_json::Value;

use crate::learner::Learner;

const TRAINS: &str = "[...document.querySelectorAll('lever-train')]";

/// Opens the course page of the site.
fn open(view: View, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let name = std::thread::current()
        .name()
        .unwrap_or("course")
        .replace(':', "-");
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let site = own_site::make(folder, &[])?;
    page::open_in(&site, view, "course.html", test)
}

/// Catches elements that all start at once, one that never does, a sheet that is not asked, scores that do not reach
/// the page, and a start that takes the focus.
#[test]
fn a_lesson_starts_where_it_is_scrolled_to_and_tells_scores() -> Result<()> {
    open(View::LAPTOP, |page| {
        let begun =
            format!("{TRAINS}.filter((node) => node.shadowRoot.childElementCount > 0).length");
        page.until(
            "the first is there",
            &format!("{TRAINS}[0].answer !== undefined"),
        )?;
        let all: usize = page.get(&format!("{TRAINS}.length"), Value::Null)?;
        let started: usize = page.get(&begun, Value::Null)?;
        ensure!(
            all == 4 && (1..3).contains(&started),
            "{started} of {all} have started"
        );
        page.run(&format!("{TRAINS}[3].scrollIntoView()"), Value::Null)?;
        let asked =
            format!("{TRAINS}[3].shadowRoot.querySelector('.exercise-asked')?.textContent ?? ''");
        page.until("it asks", &format!("({asked}) !== ''"))?;
        let focused: bool = page.get("document.activeElement === document.body", Value::Null)?;
        ensure!(focused, "it takes the focus");
        page.run(
            &format!("{TRAINS}[3].shadowRoot.querySelector('[data-part=exercise-reveal]').click()"),
            Value::Null,
        )?;
        let score = "document.querySelector('[data-score=\"09-six-speed-front-set\"]').textContent";
        let sheet = root().join("scenarios/exercises/09-six-speed-front-set.json");
        let sheet: Value = serde_json::from_str(&fs::read_to_string(sheet)?)?;
        let of = sheet["tasks"].as_array().context("tasks")?.len();
        page.until("the score is told", &format!("{score} === '0 / {of}'"))?;
        ensure!(page.get::<bool>(&format!("{TRAINS}[0].answer.ratio !== null"), Value::Null)?);
        Ok(())
    })
}

/// Catches a walkthrough that lights nothing, and questions that cannot be answered by clicks or are marked wrong,
/// where three sheets are asked on one page beside it.
fn works(page: &Page) -> Result<()> {
    page.until(
        "the first is there",
        &format!("{TRAINS}[0].answer !== undefined"),
    )?;
    page.run(
        "document.querySelector('lever-train').id = 'walked'",
        Value::Null,
    )?;
    let walk = "probe.all('[data-part=walk-steps] button')";
    page.until("it has steps", &format!("{walk}.length > 3"))?;
    page.rest()?;
    let dark = page.seen()?;
    page.click("[data-part=walk-next]")?;
    let lit = page.seen()?;
    ensure!(
        lit.section != dark.section && lit.lever != dark.lever,
        "nothing lights"
    );
    page.click("[data-part=walk-next]")?;
    ensure!(
        page.get::<i32>(
            &format!("{walk}.findIndex((step) => step.ariaCurrent === 'step')"),
            Value::Null
        )? == 1
    );

    let all: usize = page.get(&format!("{TRAINS}.length"), Value::Null)?;
    ensure!(all == 4, "{all} elements");
    for at in 1..all {
        page.run(
            &format!("{TRAINS}[{at}].id = 'asks{at}'; {TRAINS}[{at}].scrollIntoView()"),
            Value::Null,
        )?;
        let host = format!("#asks{at}");
        let learner = Learner::at(page, &host);
        // The second sheet walks through two ranges first.
        if at == 2 {
            learner.walk_through()?;
        } else {
            learner.asked()?;
        }
    }
    // Ring held, sun drives: the carrier turns as the sun does.
    page.run("probe.host('#asks1').scrollIntoView()", Value::Null)?;
    page.rest()?;
    page.click_in("#asks1", ".exercise-choices input[value=forward]")?;
    page.click_in("#asks1", "[data-part=exercise-check]")?;
    page.until("it is right", "probe.one('[data-mark=right]', '#asks1')")?;
    let score = "document.querySelector('[data-score=\"01-one-set\"]').textContent";
    page.until("the score is told", &format!("{score} === '1 / 7'"))?;
    // The others have heard nothing of it.
    for at in 2..all {
        let told: bool = page.get(
            &format!("Boolean(probe.one('[data-mark]', '#asks{at}'))"),
            Value::Null,
        )?;
        ensure!(!told, "asks{at} was answered, too");
    }
    page.click_in("#asks1", "[data-part=exercise-next]")?;
    page.until(
        "the next one",
        "probe.text('[data-part=exercise-place]', '#asks1')?.includes('2')",
    )?;
    ensure!(
        page.seen()?.ratio == lit.ratio,
        "the walkthrough has changed"
    );
    Ok(())
}

#[test]
fn a_lesson_works() -> Result<()> {
    open(View::LAPTOP, |page| works(page))
}

#[test]
fn a_lesson_works_in_firefox() -> Result<()> {
    Other::Firefox.open_page("course.html", |page| works(page))
}

#[test]
fn a_lesson_works_in_webkit() -> Result<()> {
    Other::WebKit.open_page("course.html", |page| works(page))
}
