//! The sample of a course page: a walkthrough and exercises in ordinary text, which start when they are scrolled to.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::files::root;
use serde_json::Value;

const TRAINS: &str = "[...document.querySelectorAll('lever-train')]";

/// Opens the course page of the site.
fn open(view: View, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("course");
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
