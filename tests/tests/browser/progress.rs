//! Where a learner is in a sheet: kept as a short text, and gone on from there.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::exercise::{Kind, QuestionReport, Task};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::files::{root, scenarios};
use serde_json::{Value, json};

use crate::learner::Learner;

const HOST: &str = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Page</title>\
    <link rel=\"icon\" href=\"data:,\"><link rel=\"stylesheet\" href=\"css/page.css\">\
    <script type=\"module\" src=\"element.js\"></script>\
    <lever-train scenario=\"01-one-set\" exercise=\"scenario\"></lever-train>";

fn site(name: &str) -> Result<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    own_site::make(folder, &[("host.html", HOST)])
}

fn learner(page: &Page) -> Learner<'_> {
    Learner::at(page, "lever-train")
}

/// Catches a sheet that begins anew, a question that counts in full again once it was answered wrongly, a text with the answer
/// in it, and a finished sheet that is not.
#[test]
fn a_sheet_goes_on_where_it_was_left() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open_in(&site("progress")?, View::LAPTOP, "host.html", |page| {
        learner(page).asked()?;
        ensure!(
            !page.shows("[data-part=exercise-stop]")?,
            "a sheet that an element is to ask can be stopped"
        );
        page.run(
            "globalThis.scores = []; addEventListener('levertrain-score', ({ detail }) => scores.push(detail))",
            Value::Null,
        )?;
        // The ring drives, the sun is held: the carrier turns forward.
        learner(page).pick("forward")?;
        let score: Value = page.get("scores.at(-1)", Value::Null)?;
        ensure!(score["sheet"] == true && score["points"] == 1.0, "{score}");
        let told = &score["question"];
        ensure!(
            told["id"] == "q1-direction"
                && told["credit"] == 1.0
                && told["answer"] == json!(["forward"]),
            "{told}"
        );
        learner(page).press("next")?;
        // With the sun driving and the ring held the carrier is what delivers.
        learner(page).pick("2")?;
        let kept: String = page.get("probe.host('lever-train').progress", Value::Null)?;
        page.goto("host.html")?;
        learner(page).asked()?;
        page.run("probe.host('lever-train').progress = args", json!(kept))?;
        let at = learner(page).place()?;
        ensure!(at.starts_with("Question 2 of 7, 1 point"), "{at}");
        let right: Vec<String> = {
            let (train, tasks) = sheet()?;
            tasks[1].solve(&train).context("an answer")?
        };
        learner(page).pick(&right[0])?;
        let after = learner(page).place()?;
        learner(page).press("next")?;
        let at = learner(page).place()?;
        ensure!(
            at.starts_with("Question 3 of 7, 1.5 points"),
            "{at} after {after}"
        );
        for _ in 2..7 {
            learner(page).press("reveal")?;
            learner(page).press("next")?;
        }
        let kept: Value = serde_json::from_str(
            &page.get::<String>("probe.host('lever-train').progress", Value::Null)?,
        )?;
        let rows = kept["given"].as_array().context("rows")?;
        ensure!(rows.len() == 7, "{kept}");
        for row in &rows[2..] {
            ensure!(
                row.as_array().is_some_and(|row| row.len() == 4),
                "an answer in {row}"
            );
        }
        // Set before there is anything to resume it, and read again.
        page.run(
            "const old = probe.host('lever-train'); const node = old.cloneNode(); node.progress = args; old.replaceWith(node); \
             globalThis.same = node.progress === args",
            json!(kept.to_string()),
        )?;
        ensure!(page.get::<bool>("same", Value::Null)?);
        page.until(
            "the result is there",
            "probe.one('[data-part=exercise-score]')?.textContent.startsWith('Done: 1.5 of 7')",
        )?;
        page.check_faults()
    })
}

/// Catches a text of another sheet, or one that was changed, that is resumed, ends the page, or is passed over in silence.
#[test]
fn a_foreign_text_resumes_nothing_and_says_so() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open_in(
        &site("progress-foreign")?,
        View::LAPTOP,
        "host.html",
        |page| {
            learner(page).asked()?;
            learner(page).press("reveal")?;
            learner(page).press("next")?;
            page.run(
            "globalThis.failures = []; addEventListener('levertrain-error', ({ detail }) => failures.push(detail.message))",
            Value::Null,
        )?;
            page.run(
            "probe.host('lever-train').progress = '{\"format\":1,\"sheet\":\"00000000\",\"sum\":\"00000000\",\"given\":[]}'",
            Value::Null,
        )?;
            let at = learner(page).place()?;
            ensure!(at.starts_with("Question 1 of 7, 0 points"), "{at}");
            let failures: Vec<String> = page.get("failures", Value::Null)?;
            ensure!(
                failures.len() == 1
                    && failures[0].contains("of another exercise sheet, or damaged"),
                "{failures:?}"
            );
            page.check_faults()
        },
    )
}

fn sheet() -> Result<(Train, Vec<Task>)> {
    let read = |path: &str| std::fs::read_to_string(root().join(path));
    let train = Train::parse(&read("scenarios/01-one-set.json")?);
    let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let text = read("scenarios/exercises/01-one-set.json")?;
    let sheet = levertrain_core::exercise::Sheet::parse(&train, &text);
    let sheet = sheet.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    Ok((train, sheet.tasks))
}

/// Forty questions of all kinds about a train, as the page is told of them.
fn forty() -> Result<Vec<Value>> {
    let file = scenarios()?.swap_remove(4);
    let train = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let seeds = 0_u64..40;
    let tasks = seeds.filter_map(|seed| {
        let (_, kind) = Kind::ALL[seed as usize % Kind::ALL.len()];
        Task::ask(&train, kind, seed)
    });
    let questions = tasks.map(|task| serde_json::to_value(QuestionReport::of(&train, &task)));
    Ok(questions.collect::<Result<_, _>>()?)
}

/// Catches a text that is longer than any course system keeps, one that does not come back as it was, and one
/// with a single letter changed that does.
#[test]
fn the_text_is_short_and_comes_back_only_as_it_was() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = site("progress-text")?;
    // The modules as they are written: those of a built site are one file.
    for room in ["kit", "learn"] {
        let to = folder.join("written").join(room);
        std::fs::create_dir_all(&to)?;
        for file in std::fs::read_dir(root().join("www").join(room))? {
            let file = file?;
            std::fs::copy(file.path(), to.join(file.file_name()))?;
        }
    }
    let questions = forty()?;
    ensure!(questions.len() >= 36, "{}", questions.len());
    page::open_in(&folder, View::LAPTOP, "host.html", |page| {
        let outcome: Value = page.get(
            r#"(async () => {
                const { resumed, written } = await import("./written/learn/progress.js");
                const given = args.map((_, at) => ({
                    credit: at % 5 === 0 ? 1 / 3 : at % 2, tries: at, done: at + 1 < args.length, seconds: 86400.4 + at,
                    answer: at % 3 === 0 ? ["x".repeat(at)] : at % 3 === 1 ? ["\u2212\u00bd", "\""] : [],
                }));
                const text = written(args, given);
                const back = resumed(text, args);
                const refused = (text, questions = args) => {
                    try {
                        resumed(text, questions);
                        return false;
                    } catch (error) {
                        return error.problems?.length === 1;
                    }
                };
                const changed = [...text].map((letter, at) => text.slice(0, at) + (letter === "1" ? "2" : "1") + text.slice(at + 1));
                const foreign = ["", "x", "null", "[]", "{}", "3", text + "x", text.slice(0, -1)];
                return {
                    length: written(args, given.map((one) => ({ ...one, answer: ["y".repeat(36)] }))).length,
                    same: back.every((one, at) => one.tries === at && one.done === given[at].done && Math.abs(one.credit - given[at].credit) < 1e-4),
                    answers: back.every(({ answer }, at) => String(answer) === (at > 36 && at % 3 === 0 ? "" : String(given[at].answer))),
                    taken: [...changed, ...foreign].filter((text) => !refused(text)),
                    other: refused(text, args.slice(1)) && refused(text, [...args].reverse()),
                };
            })()"#,
            json!(questions),
        )?;
        let length = outcome["length"].as_u64().context("a length")?;
        ensure!(length < 3000, "{length} characters");
        ensure!(
            outcome["same"] == true && outcome["answers"] == true,
            "{outcome}"
        );
        ensure!(outcome["taken"] == json!([]), "{outcome}");
        ensure!(outcome["other"] == true, "{outcome}");
        Ok(())
    })
}
