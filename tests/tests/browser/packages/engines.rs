//! A lesson in browsers with other engines.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Other, Page};
use levertrain_tests::files::root;
use serde_json::json;

use super::making::{self, STEM};
use super::scorm::right;
use crate::learner::Learner;

/// Catches a lesson that does not start, walk, light, ask or mark.
fn works(page: &Page) -> Result<()> {
    let learner = Learner::at(page, "lever-train");
    learner.walks()?;
    page.rest()?;
    let dark = page.seen()?;
    page.click(".walk-first [data-part=walk-next]")?;
    page.rest()?;
    let lit = page.seen()?;
    ensure!(
        lit.section != dark.section && lit.lever != dark.lever,
        "nothing lights"
    );
    page.click("[data-part=walk-first-next]")?;
    page.rest()?;
    ensure!(page.seen()?.applied != dark.applied, "the same range");
    page.click("[data-part=walk-first-next]")?;
    learner.asked()?;
    page.click(&format!(".exercise-choices input[value={}]", right()?[0]))?;
    page.click("[data-part=exercise-check]")?;
    page.until("it is right", "probe.one('[data-mark=right]')")?;
    page.click("[data-part=exercise-next]")?;
    let place = learner.place()?;
    ensure!(place.starts_with("Question 2 of 3, 1 point"), "{place}");
    let told = "document.querySelector('[data-part=lesson-kept]').textContent.includes('no score is kept')";
    page.until("it says so", told)?;
    Ok(())
}

fn lesson(browser: Other) -> Result<()> {
    let train = std::fs::read_to_string(root().join(format!("scenarios/{STEM}.json")))?;
    let sheet = making::sheet();
    let about =
        json!({"title": sheet["title"], "language": "en", "form": "scorm12", "questions": 3});
    let trains = json!([{"file": "lesson.json", "name": "One set", "text": train}]);
    let files = [
        ("lesson.json", &*about.to_string()),
        ("sheet.json", &*sheet.to_string()),
        ("scenarios/index.json", &*trains.to_string()),
    ];
    browser.open_page_beside("lesson.html", &files, |page| works(page))
}

#[test]
fn a_lesson_works_in_firefox() -> Result<()> {
    lesson(Other::Firefox)
}

#[test]
fn a_lesson_works_in_webkit() -> Result<()> {
    lesson(Other::WebKit)
}
