//! A course system: an independent run-time in a page around the lesson, with the data that it keeps.

use std::fs;
use std::path::PathBuf;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use super::contents::packages;
use super::making::{Files, lay_out};

/// The page's own script stands in it, and the run-time makes functions of text; the lesson has its own policy.
const POLICY: &str = "default-src 'self' 'unsafe-inline' 'unsafe-eval' data: blob:";

/// `begin` opens the lesson with what was kept of it before, `end` closes it, and `kept` is what there is now.
const AROUND: &str = r#"<!doctype html><html lang="en"><meta charset="utf-8"><title>Course</title>
<link rel="icon" href="data:,"><script src="scorm-again.js"></script><div id="place"></div><script>
const NAMES = { scorm12: ["API", "Scorm12API"], scorm2004: ["API_1484_11", "Scorm2004API"] };
function begin(form, before) {
  const [name, Runtime] = NAMES[form];
  globalThis.runtime = globalThis[name] = new globalThis[Runtime]({ autocommit: false, logLevel: 5 });
  if (before) runtime.loadFromJSON(before, "");
  globalThis.commits = 0;
  runtime.on(form === "scorm12" ? "LMSCommit" : "Commit", () => (commits += 1));
  const frame = document.createElement("iframe");
  frame.width = 1000; frame.height = 900;
  frame.src = "lesson/lesson.html";
  place.replaceChildren(frame);
}
function end() { place.replaceChildren(); }
function kept() { return JSON.parse(runtime.renderCMIToJSONString()).cmi; }
function inside() { return place.firstElementChild.contentWindow; }
function train() { return inside().document.querySelector("lever-train[exercise]")?.shadowRoot; }
function part(name) { return inside().document.querySelector(`[data-part=${name}]`)?.textContent ?? null; }
</script>"#;

/// A range that is walked through.
const WALKS: &str = ".walk-first:not([hidden]) li";

/// A lesson in a course system.
pub struct Course<'a> {
    page: &'a Page,
    form: &'static str,
}

/// Opens the page of the lesson by itself, and then runs the test in a course system.
pub fn open(
    form: &'static str,
    files: &Files,
    alone: impl FnOnce(&Page) -> Result<()>,
    test: impl FnOnce(&Course<'_>) -> Result<()>,
) -> Result<()> {
    let runtime = fs::read_to_string(packages()?.join("scorm-again/dist/scorm-again.min.js"))?;
    let beside = [("around.html", AROUND), ("scorm-again.js", &*runtime)];
    let folder: PathBuf = lay_out(&format!("course-{form}"), files, &beside)?;
    page::open_foreign(&folder, POLICY, "lesson/lesson.html", |page| {
        alone(page)?;
        page.goto_silent(&format!("{}around.html", page.address()))?;
        test(&Course { page, form })
    })
}

impl Course<'_> {
    /// Opens the lesson with what was kept of it before, walks through its ranges, and waits until it asks.
    pub fn begin(&self, before: &Value) -> Result<()> {
        self.page
            .run("begin(args[0], args[1])", json!([self.form, before]))?;
        let there = format!(
            "train()?.querySelector('.exercise-asked, .exercise-score:not(:empty), {WALKS}')"
        );
        self.page.until("it walks, asks, or is through", &there)?;
        while self.page.get(
            &format!("train().querySelector('{WALKS}') !== null"),
            Value::Null,
        )? {
            self.walk_on()?;
        }
        // What the page says of it comes with the language.
        self.page.until("it speaks", "part('lesson-kept')")?;
        self.no_trouble()
    }

    /// Opens a lesson that only walks through ranges.
    pub fn begin_walk(&self) -> Result<()> {
        self.page.run("begin(args, null)", json!(self.form))?;
        self.page
            .until("it walks", &format!("train()?.querySelector('{WALKS}')"))?;
        self.page.until("it speaks", "part('lesson-kept')")?;
        self.no_trouble()
    }

    /// Goes on from a range that is walked through.
    pub fn walk_on(&self) -> Result<()> {
        self.page.run(
            "train().querySelector('[data-part=walk-first-next]').click()",
            Value::Null,
        )
    }

    /// Closes it.
    pub fn end(&self) -> Result<()> {
        self.no_trouble()?;
        self.page.run("end()", Value::Null)
    }

    fn no_trouble(&self) -> Result<()> {
        let trouble: String = self.page.get("part('lesson-trouble')", Value::Null)?;
        ensure!(trouble.is_empty(), "{trouble}");
        Ok(())
    }

    /// What is kept of it.
    pub fn kept(&self) -> Result<Value> {
        self.page.get("kept()", Value::Null)
    }

    /// How often it was kept for good.
    pub fn commits(&self) -> Result<usize> {
        self.page.get("commits", Value::Null)
    }

    /// A value by its name in the standard.
    pub fn value(&self, field: &str) -> Result<String> {
        let get = self.getter();
        self.page
            .get(&format!("String(runtime.{get}(args))"), json!(field))
    }

    /// Waits until a value is this.
    pub fn until(&self, field: &str, expected: &str) -> Result<()> {
        let get = self.getter();
        self.page.until(
            &format!("{field} is {expected}"),
            &format!("String(runtime.{get}({field:?})) === {expected:?}"),
        )
    }

    fn getter(&self) -> &'static str {
        match self.form {
            "scorm12" => "LMSGetValue",
            _ => "GetValue",
        }
    }

    /// Picks a choice, or writes a number, and checks it.
    pub fn answer(&self, answer: &str) -> Result<()> {
        self.page.run(
            "for (const box of train().querySelectorAll('.exercise-choices input')) box.checked = box.value === args; \
             for (const field of train().querySelectorAll('input[data-choice]')) field.value = args; \
             train().querySelector('[data-part=exercise-check]').click()",
            json!(answer),
        )
    }

    /// Picks a choice that is not this one, which is right.
    pub fn miss(&self, right: &str) -> Result<()> {
        let other = "[...train().querySelectorAll('.exercise-choices input')].map(({ value }) => value).find((value) => value !== args)";
        let other: String = self.page.get(other, json!(right))?;
        self.answer(&other)
    }

    /// Presses a button of the exercises.
    pub fn press(&self, part: &str) -> Result<()> {
        self.page.run(
            "train().querySelector(`[data-part=exercise-${args}]`).click()",
            json!(part),
        )
    }

    /// Which question is asked.
    pub fn place(&self) -> Result<String> {
        self.page.get(
            "train().querySelector('[data-part=exercise-place]').textContent",
            Value::Null,
        )
    }

    /// What a part of the lesson's page says.
    pub fn told(&self, part: &str) -> Result<String> {
        self.page.get("part(args)", json!(part))
    }
}

/// The screen that lessons are looked at on.
pub const VIEW: View = View::LAPTOP;
