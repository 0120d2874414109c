//! A lesson that is opened again on a phone.

use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{View, own_site, page, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};

use super::making::{self, STEM};

/// A course system as small as can be, which keeps what it is told in this page.
const AROUND: &str = r#"<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title><link rel="icon" href="data:,">
<meta name="viewport" content="width=device-width, initial-scale=1"><script src="system.js"></script>"#;
const SYSTEM: &str = r#"const kept = {};
globalThis.API = {
  LMSInitialize: () => "true", LMSFinish: () => "true", LMSCommit: () => "true",
  LMSGetValue: (field) => kept[field] ?? "", LMSSetValue: (field, value) => { kept[field] = value; return "true"; },
  LMSGetLastError: () => 0, LMSGetErrorString: () => "",
};
function begin() {
  const frame = document.createElement("iframe");
  Object.assign(frame, { src: "lesson.html", width: innerWidth - 20, height: innerHeight - 20 });
  document.body.replaceChildren(frame);
}
const inside = () => document.querySelector("iframe").contentWindow;
const one = (selector) => inside().document.querySelector("lever-train")?.shadowRoot.querySelector(selector);"#;

/// Catches a lesson that begins with its walkthrough again, and a phone on which one must scroll to the question that one was at.
#[test]
fn a_lesson_opens_again_at_its_question() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let train = std::fs::read_to_string(root().join(format!("scenarios/{STEM}.json")))?;
    let about = json!({"title": "A lesson with a title that takes several lines on a phone, so that the question is out of sight", "language": "en", "form": "scorm12", "questions": 3});
    let trains = json!([{"file": "lesson.json", "name": "One set", "text": train}]);
    let files = [
        ("lesson.json", &*about.to_string()),
        ("sheet.json", &*making::sheet().to_string()),
        ("scenarios/index.json", &*trains.to_string()),
        ("around.html", AROUND),
        ("system.js", SYSTEM),
    ];
    let folder = own_site::make(
        Path::new(env!("CARGO_TARGET_TMPDIR")).join("lesson-again"),
        &files,
    )?;
    page::open_in(&folder, View::PHONE, "lesson.html", |page| {
        page.goto_silent(&format!("{}around.html", page.address()))?;
        page.run("begin()", Value::Null)?;
        page.until("it walks", "one('.walk-first:not([hidden]) li')")?;
        page.run(
            "for (const part of ['walk-first-next', 'walk-first-next', 'exercise-reveal', 'exercise-next', 'exercise-check']) \
                one(`[data-part=${part}]`).click()",
            Value::Null,
        )?;
        page.run("begin()", Value::Null)?;
        page.until(
            "it asks the second",
            "one('[data-part=exercise-place]')?.textContent.startsWith('Question 2 of 3')",
        )?;
        page.until(
            "question and drawing are in sight",
            "(() => { const [drawing, asked] = ['.stage', '.exercise-asked'].map((part) => one(part).getBoundingClientRect()); \
                return inside().scrollY > 0 && drawing.top >= -1 && drawing.height > 100 && asked.bottom <= inside().innerHeight; })()",
        )?;
        let walks: bool = page.get("!one('.walk-first').hidden", Value::Null)?;
        ensure!(!walks, "the walkthrough begins again");
        Ok(())
    })
}
