//! What is in a package.

use std::path::PathBuf;
use std::sync::Mutex;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{View, page, skipped};
use levertrain_tests::files::root;
use serde_json::Value;
use xtask::node::Node;

use super::making::{self, STEM};
use crate::language::speak_german;
use crate::learner::Learner;

/// The packages that these tests need: the independent run-time, schemas and validators.
pub fn packages() -> Result<PathBuf> {
    static ONE_BY_ONE: Mutex<()> = Mutex::new(());
    let _one = ONE_BY_ONE.lock();
    let node = Node::find().context("Node.js is not on the search path")?;
    node.locked(&root().join("tests/course"), "course")
}

/// What a script of `tests/course` says.
pub fn judged(script: &str, arguments: &[&str]) -> Result<Value> {
    let packages = packages()?;
    let node = Node::find().context("Node.js is not on the search path")?;
    let mut command = node.script(&root().join("tests/course").join(script));
    let output = command.arg(&packages).args(arguments).output()?;
    let (said, error) = (&output.stdout, String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(said).with_context(|| format!("{script}: {error}"))
}

/// Catches a manifest that the standard's schema refuses, a file it names that is not there or one that it does not
/// name, one that leads elsewhere, a title that breaks it, and a package that is another one each time.
#[test]
fn manifests_are_those_of_the_standards() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        making::open_sheet(page, &making::sheet())?;
        for (form, edition, pass, wanted) in [
            (
                "scorm12",
                "scorm12edition",
                "60",
                "<adlcp:masteryscore>60</adlcp:masteryscore>",
            ),
            (
                "scorm12",
                "scorm12edition",
                "",
                "<schemaversion>1.2</schemaversion>",
            ),
            (
                "scorm2004",
                "scorm20044thedition",
                "62.5",
                "<imsss:minNormalizedMeasure>0.625</imsss:minNormalizedMeasure>",
            ),
            (
                "scorm2004",
                "scorm20044thedition",
                "",
                "<schemaversion>2004 4th Edition</schemaversion>",
            ),
        ] {
            let archive = making::make(page, form, pass)?;
            ensure!(
                making::make(page, form, pass)? == archive,
                "another one each time"
            );
            let files = making::unpack(&archive)?;
            let folder = making::lay_out(&format!("manifest-{form}"), &files, &[])?;
            let file = folder.join("lesson/imsmanifest.xml");
            let found = judged("manifest.cjs", &[edition, &file.to_string_lossy()])?;
            ensure!(found["valid"] == true, "{form} {pass}: {found}");
            let text = std::fs::read_to_string(&file)?;
            ensure!(text.contains(wanted), "{text}");
            ensure!(
                text.contains("<title>Rings &amp; suns &lt;1&gt;</title>"),
                "{text}"
            );
            let named: Vec<&str> = text
                .split("<file href=\"")
                .skip(1)
                .filter_map(|rest| rest.split('"').next())
                .collect();
            let there: Vec<&str> = files
                .keys()
                .map(String::as_str)
                .filter(|name| *name != "imsmanifest.xml")
                .collect();
            ensure!(named == there, "{named:?}, not {there:?}");
            // Spoilt, so that the schema is seen to judge.
            let spoilt = folder.join("lesson/spoilt.xml");
            std::fs::write(
                &spoilt,
                text.replace("<organizations default", "<organisations default"),
            )?;
            let found = judged("manifest.cjs", &[edition, &spoilt.to_string_lossy()])?;
            ensure!(found["valid"] == false, "{found}");
        }
        page.check_faults()
    })
}

/// Catches a package that brings what a lesson does without, another train, an answer, or words of another language; and
/// one that is made of a mark that is none.
#[test]
fn a_package_holds_one_lesson_and_no_more() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open(View::PHONE, &format!("#s={STEM}"), |page| {
        making::open_sheet(page, &making::sheet())?;
        let files = making::unpack(&making::make(page, "xapi", "")?)?;
        for name in [
            "lesson.html",
            "lesson.js",
            "element.js",
            "LICENSE",
            "words/en.ftl",
            "sheet.json",
            "engine/levertrain_whole_bg.wasm",
        ] {
            ensure!(files.contains_key(name), "no {name}");
        }
        for part in [
            "index.html",
            "course.html",
            "service_worker",
            "editor",
            "packer",
            "levertrain_search",
            "in_class",
            "handout",
            "de.ftl",
            "schema",
            "imsmanifest",
            ".d.ts",
        ] {
            let found = files
                .keys()
                .find(|name| name.contains(part) && *name != "scenarios/index.json");
            ensure!(found.is_none(), "{found:?}");
        }
        let read = |name: &str| -> Result<Value> {
            Ok(serde_json::from_slice(files.get(name).context("a file")?)?)
        };
        let trains = read("scenarios/index.json")?;
        ensure!(
            trains.as_array().is_some_and(|trains| trains.len() == 1),
            "{trains}"
        );
        ensure!(
            read("sheet.json")? == making::sheet(),
            "{}",
            read("sheet.json")?
        );
        let lesson = read("lesson.json")?;
        ensure!(
            lesson["questions"] == 3 && lesson.get("pass").is_none(),
            "{lesson}"
        );
        // The store of statements may be anywhere; for SCORM nothing is.
        let policy = |files: &making::Files| -> Result<String> {
            Ok(String::from_utf8(
                files.get("lesson.html").context("a page")?.clone(),
            )?)
        };
        ensure!(policy(&files)?.contains("connect-src 'self' https: http:;"));
        let scorm = making::unpack(&making::make(page, "scorm12", "")?)?;
        ensure!(policy(&scorm)?.contains("connect-src 'self';"));
        page.run(
            "made.length = 0; probe.one('#package-pass').value = '101'; probe.one('[data-part=package-save]').click()",
            Value::Null,
        )?;
        page.until(
            "it is refused",
            "probe.one('[role=alert]')?.textContent.includes('no number from 1 to 100')",
        )?;
        ensure!(page.get::<usize>("made.length", Value::Null)? == 0);
        Ok(())
    })
}

/// Catches a lesson in another language than that of the page that made it, and a title that is translated twice.
#[test]
fn a_package_speaks_as_the_page_that_made_it() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let mut files = making::Files::new();
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        speak_german(page)?;
        making::open_sheet(page, &making::sheet())?;
        files = making::unpack(&making::make(page, "scorm2004", "62,5")?)?;
        Ok(())
    })?;
    ensure!(files.contains_key("words/de.ftl") && !files.contains_key("words/en.ftl"));
    let manifest = String::from_utf8(files.get("imsmanifest.xml").context("a manifest")?.clone())?;
    ensure!(
        manifest.contains("<imsss:minNormalizedMeasure>0.625<"),
        "{manifest}"
    );
    let folder = making::lay_out("package-german", &files, &[])?;
    page::open_in(&folder, View::LAPTOP, "lesson/lesson.html", |page| {
        let told = "document.querySelector('[data-part=lesson-kept]').textContent";
        page.until("it says so", &format!("{told}.includes('kein Kurssystem')"))?;
        let lang: String = page.get("document.documentElement.lang", Value::Null)?;
        ensure!(lang == "de", "{lang}");
        Learner::at(page, "lever-train").walks()?;
        let range: String = page.get("probe.text('[data-part=walk-first-place]')", Value::Null)?;
        ensure!(
            range.starts_with("Zuerst ein Rundgang") && range.contains("Sonnenrad"),
            "{range}"
        );
        Ok(())
    })
}
