//! Lessons in both SCORMs.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_core::exercise::Sheet;
use levertrain_tests::browser::{Page, page, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};

use super::making::{self, STEM};
use super::runtime::{self, Course, VIEW};
use crate::learner::Learner;

/// Right answers to the questions of the sheet.
pub fn right() -> Result<Vec<String>> {
    let text = std::fs::read_to_string(root().join(format!("scenarios/{STEM}.json")))?;
    let train = Train::parse(&text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let sheet = Sheet::parse(&train, &making::sheet().to_string());
    let sheet = sheet.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let answers = sheet.tasks.iter().filter_map(|task| task.solve(&train));
    Ok(answers.flatten().collect())
}

/// A package of the sheet, unpacked.
pub fn package(form: &str, pass: &str) -> Result<making::Files> {
    let mut files = making::Files::new();
    page::open(VIEW, &format!("#s={STEM}"), |page| {
        making::open_sheet(page, &making::sheet())?;
        files = making::unpack(&making::make(page, form, pass)?)?;
        page.check_faults()
    })?;
    Ok(files)
}

/// Catches a lesson that does not run where nobody keeps its score, says nothing of that, or walks through nothing.
fn alone(page: &Page) -> Result<()> {
    let told = "document.querySelector('[data-part=lesson-kept]').textContent";
    page.until(
        "it says so",
        &format!("{told}.includes('no score is kept')"),
    )?;
    let title: String = page.get("document.title", Value::Null)?;
    ensure!(title == "Rings & suns <1>", "{title}");
    // Two ranges first; what tells of them is gone as soon as something is asked.
    let learner = Learner::at(page, "lever-train");
    learner.walks()?;
    let first = page.seen()?.applied;
    page.run(
        "probe.one('[data-part=walk-first-next]').click()",
        Value::Null,
    )?;
    let second = page.seen()?.applied;
    ensure!(
        first != second && !second.is_empty(),
        "{first:?} and {second:?}"
    );
    learner.walk_through()?;
    let left: usize = page.get("probe.all('[data-part=walk-steps] li').length", Value::Null)?;
    ensure!(left == 0, "{left} steps of the walkthrough are left");
    ensure!(
        page.seen()?.applied.is_empty(),
        "the range is applied still"
    );
    let trains: usize = page.get(
        "document.querySelectorAll('lever-train').length",
        Value::Null,
    )?;
    ensure!(trains == 1, "{trains} trains, one of which could be asked");
    let workers: usize = page.get(
        "navigator.serviceWorker.getRegistrations().then(({ length }) => length)",
        Value::Null,
    )?;
    ensure!(workers == 0, "a service worker on a host that is not ours");
    Ok(())
}

/// One lesson from end to end: answered, left in the middle, opened anew, finished, and looked at again.
struct Expected {
    form: &'static str,
    /// Whether it is under way, after it is opened.
    status: (&'static str, &'static str),
    score: &'static str,
    /// The score after the first question, and at the end.
    scores: (&'static str, &'static str),
    /// Fields and their values at the end.
    end: &'static [(&'static str, &'static str)],
    exit: &'static str,
    time: fn(&str) -> bool,
}

fn lesson(expected: &Expected, pass: &str) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let files = package(expected.form, pass)?;
    let right = right()?;
    runtime::open(expected.form, &files, alone, |course| {
        let status = |course: &Course<'_>| course.value(expected.status.0);
        course.begin(&Value::Null)?;
        ensure!(status(course)? == "incomplete", "{}", status(course)?);
        let commits = course.commits()?;
        course.answer(&right[0])?;
        ensure!(course.commits()? == commits + 1, "it is not kept at once");
        let score = course.value(expected.score)?;
        ensure!(score == expected.scores.0, "{score} after one");
        ensure!(course.value("cmi.interactions._count")? == "1");
        course.press("next")?;
        // A wrong try, and the page is closed.
        let commits = course.commits()?;
        course.miss(&right[1])?;
        ensure!(
            course.commits()? == commits + 1,
            "a wrong try is not kept at once"
        );
        course.end()?;
        let mut kept = course.kept()?;
        let data = kept["suspend_data"].as_str().unwrap_or_default().to_owned();
        ensure!(data.len() < 4096 && data.contains("\"given\""), "{kept}");
        let (exit, time) = match expected.form {
            "scorm12" => (&kept["core"]["exit"], &kept["core"]["session_time"]),
            _ => (&kept["exit"], &kept["session_time"]),
        };
        ensure!(exit == "suspend", "{kept}");
        ensure!(time.as_str().is_some_and(expected.time), "{kept}");

        if expected.form == "scorm2004" {
            // A course system need not hand these back, and this run-time does not read its own.
            ensure!(kept["interactions"]["0"]["result"] == "correct", "{kept}");
            kept["interactions"].take();
        }
        course.begin(&kept)?;
        let place = course.place()?;
        ensure!(place.starts_with("Question 2 of 3, 1 point"), "{place}");
        course.answer(&right[1])?;
        course.press("next")?;
        // Of the second question only half is left.
        let place = course.place()?;
        ensure!(place.starts_with("Question 3 of 3, 1.5 points"), "{place}");
        ensure!(status(course)? == "incomplete", "{}", status(course)?);
        course.press("reveal")?;
        let score = course.value(expected.score)?;
        ensure!(score == expected.scores.1, "{score} in the end");
        for (field, value) in expected.end {
            let found = course.value(field)?;
            ensure!(found == *value, "{field}: {found}");
        }
        let told = course.told("lesson-kept")?;
        ensure!(told.contains("1.5 of 3 points"), "{told}");
        course.end()?;
        let mut kept = course.kept()?;
        let exit = match expected.form {
            "scorm12" => &kept["core"]["exit"],
            _ => &kept["exit"],
        };
        ensure!(exit == expected.exit, "{kept}");

        if expected.form == "scorm2004" {
            ensure!(kept["interactions"]["1"]["result"] == "incorrect", "{kept}");
            kept["interactions"].take();
        }
        // Opened once more it shows what came of it, and nothing is undone.
        course.begin(&kept)?;
        course.end()?;
        let again = course.kept()?;
        let of = |kept: &Value| match expected.form {
            "scorm12" => (
                kept["core"]["lesson_status"].clone(),
                kept["core"]["score"].clone(),
            ),
            _ => (kept["completion_status"].clone(), kept["score"].clone()),
        };
        ensure!(of(&again) == of(&kept), "{again}");
        Ok(())
    })
}

/// Catches a lesson that SCORM 1.2 does not score, complete, suspend or resume.
#[test]
fn a_lesson_runs_in_scorm_12() -> Result<()> {
    let expected = Expected {
        form: "scorm12",
        status: ("cmi.core.lesson_status", "incomplete"),
        score: "cmi.core.score.raw",
        scores: ("33.33", "50"),
        end: &[
            ("cmi.core.lesson_status", "failed"),
            ("cmi.core.score.max", "100"),
            ("cmi.interactions._count", "3"),
        ],
        exit: "",
        time: |time| time.starts_with("00:0") && time != "00:00:00",
    };
    lesson(&expected, "60")
}

/// Catches a lesson that is passed and is not told so.
#[test]
fn a_lesson_is_passed_in_scorm_12() -> Result<()> {
    let expected = Expected {
        form: "scorm12",
        status: ("cmi.core.lesson_status", "incomplete"),
        score: "cmi.core.score.raw",
        scores: ("33.33", "50"),
        end: &[("cmi.core.lesson_status", "passed")],
        exit: "",
        time: |time| time.starts_with("00:0"),
    };
    lesson(&expected, "50")
}

/// Catches the same in SCORM 2004, where that it is completed and that it is passed are told apart.
#[test]
fn a_lesson_runs_in_scorm_2004() -> Result<()> {
    let expected = Expected {
        form: "scorm2004",
        status: ("cmi.completion_status", "incomplete"),
        score: "cmi.score.scaled",
        scores: ("0.3333", "0.5000"),
        end: &[
            ("cmi.completion_status", "completed"),
            ("cmi.success_status", "passed"),
            ("cmi.score.raw", "50"),
            ("cmi.score.max", "100"),
            ("cmi.progress_measure", "1.0000"),
            ("cmi.interactions._count", "2"),
        ],
        exit: "normal",
        time: |time| time.starts_with("PT0H0M"),
    };
    lesson(&expected, "50")
}

/// Catches a lesson that only walks through ranges and cannot be packaged, takes a mark to pass, or is never completed.
#[test]
fn a_lesson_may_only_walk_through_ranges() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let sheet =
        json!({"format": 1, "title": "Two ranges", "walk": ["sun-carrier", "direct"], "tasks": []});
    for (form, status) in [
        ("scorm12", "cmi.core.lesson_status"),
        ("scorm2004", "cmi.completion_status"),
    ] {
        let mut files = making::Files::new();
        page::open(VIEW, &format!("#s={STEM}"), |page| {
            making::open_sheet(page, &sheet)?;
            page.run(
                "probe.one('[data-part=package]').open = true; probe.one('#package-pass').value = '50'; \
                 probe.one('[data-part=package-save]').click()",
                Value::Null,
            )?;
            page.until(
                "it is refused",
                "probe.one('[role=alert]')?.textContent.includes('asks nothing')",
            )?;
            files = making::unpack(&making::make(page, form, "")?)?;
            Ok(())
        })?;
        let open = |page: &Page| Learner::at(page, "lever-train").walks();
        runtime::open(form, &files, open, |course| {
            course.begin_walk()?;
            for expected in ["incomplete", "completed"] {
                let found = course.value(status)?;
                ensure!(found == "incomplete", "{form}: {found}");
                course.walk_on()?;
                course.until(status, expected)?;
            }
            let told = course.told("lesson-kept")?;
            ensure!(told.starts_with("Walked through, and"), "{told}");
            course.end()
        })?;
    }
    Ok(())
}
