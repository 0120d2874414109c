//! The accessibility checker finds no fault, small or serious, with everything unfolded.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, required, skipped};
use serde::Deserialize;
use serde_json::{Value, json};
use xtask::test_environment::AXE;

use crate::by_hand::{self, REVERSE};
use crate::{embedding_page, language};

#[derive(Debug, Deserialize)]
struct Violation {
    id: String,
    help: String,
    nodes: Vec<Node>,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "camelCase")]
struct Node {
    html: String,
    failure_summary: Option<String>,
}

/// What a page with everything in it is checked for, and what an element that is little more than
/// drawings.
const ALL: [&str; 5] = [
    "color-contrast",
    "button-name",
    "select-name",
    "role-img-alt",
    "summary-name",
];
/// All that is other in dark colours.
const COLOURS: [&str; 1] = ["color-contrast"];
const COMPACT: [&str; 3] = ["color-contrast", "button-name", "role-img-alt"];

fn check(page: &Page, what: &str, rules: &[&str]) -> Result<()> {
    page.run(
        "for (const node of probe.all('details')) node.open = true",
        Value::Null,
    )?;
    check_as_it_is(page, what, rules)
}

/// Checks what is there, without unfolding more; each of the rules must have been tried and passed.
pub fn check_as_it_is(page: &Page, what: &str, rules: &[&str]) -> Result<()> {
    check_in(page, Value::Null, what, rules)
}

/// Checks one part of the element, where all else is as in another check.
fn check_part(page: &Page, part: &str, what: &str, rules: &[&str]) -> Result<()> {
    let part = format!("[data-part={part}]");
    let place = json!({ "fromShadowDom": [page::ELEMENT, part] });
    check_in(page, place, what, rules)
}

fn check_in(page: &Page, place: Value, what: &str, rules: &[&str]) -> Result<()> {
    page.rest()?;
    let path = required(AXE)?;
    let checker = fs::read_to_string(&path).with_context(|| path.display().to_string())?;
    page.run(&checker, Value::Null)?;
    let result: Value = page.get(
        "(async () => { \
            const [place, only] = args; \
            const wanted = { resultTypes: ['violations'], selectors: false, ...(only && { runOnly: only }) }; \
            const { violations, passes } = await axe.run(place ?? document, wanted); \
            return { violations, passes: passes.map(({ id }) => id) }; \
        })()",
        json!([place, (rules == COLOURS).then_some(COLOURS)]),
    )?;
    // A checker that cannot see into the element would pass everything.
    let passes: Vec<String> = serde_json::from_value(result["passes"].clone())?;
    for rule in rules {
        ensure!(
            passes.iter().any(|pass| pass == rule),
            "{rule} was not checked: {passes:?}"
        );
    }
    let violations: Vec<Violation> = serde_json::from_value(result["violations"].clone())?;
    let mut bad = Vec::new();
    for Violation { id, help, nodes } in violations {
        for Node {
            html,
            failure_summary,
        } in nodes
        {
            let summary = failure_summary.unwrap_or_default();
            bad.push(format!("{id}: {help}\n  {html}\n  {summary}"));
        }
    }
    ensure!(bad.is_empty(), "{what}:\n{}", bad.join("\n"));
    Ok(())
}

/// The checker tries styles of its own, which the policy would forbid; all other tests heed it.
fn in_reverse(view: View, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    let link = by_hand::link(REVERSE);
    page::open(view.still(), &link, |page| {
        page.lift_security_policy()?;
        page.goto(&format!("index.html{link}"))?;
        test(page)
    })
}

/// Catches missing names, bad contrast and wrong roles on a laptop, light and dark; also in the
/// states that are shown in other colours: reverse, tied up, and with a message on screen.
#[test]
fn no_fault_on_a_laptop() -> Result<()> {
    for (view, rules) in [(View::LAPTOP, &ALL[..]), (View::LAPTOP.dark(), &COLOURS)] {
        in_reverse(view, |page| {
            page.click("[data-part=cautions-button]")?;
            check(page, "reverse, with the cautions", rules)?;
            page.click("[data-part=on-drawing] [data-key=clutches]")?;
            page.click("[role=switch][data-element-id=\"V\"]")?;
            page.run("location.hash = '#s=nowhere'", Value::Null)?;
            page.until("a message comes", "probe.one('[data-part=message]')")?;
            check(page, "tied up, with a message", rules)
        })?;
    }
    Ok(())
}

/// Catches what only the narrow page has: scrollers without a stop, folded tables.
#[test]
fn no_fault_on_a_phone() -> Result<()> {
    for (view, rules) in [(View::PHONE, &ALL[..]), (View::PHONE.dark(), &COLOURS)] {
        in_reverse(view, |page| check(page, "phone", rules))?;
    }
    Ok(())
}

/// Catches names that are lost, and a language that is not told, where the page speaks another.
#[test]
fn no_fault_in_german() -> Result<()> {
    for view in [View::LAPTOP, View::PHONE.dark()] {
        in_reverse(view, |page| {
            language::speak_german(page)?;
            check(page, "German", &ALL)
        })?;
    }
    Ok(())
}

/// Catches a text with colours too faint to read, on a marked line too, and an editor without a name.
#[test]
fn no_fault_in_a_text_with_problems() -> Result<()> {
    for view in [View::LAPTOP, View::LAPTOP.dark(), View::PHONE] {
        in_reverse(view, |page| {
            page.unfold("file")?;
            page.until("the editor has come", "probe.one('.cm-content')")?;
            page.run(
                "const { view } = probe.one('.cm-content').cmTile; \
                 const text = view.state.doc.toString(); \
                 const at = text.indexOf('\"teeth\"'); \
                 view.dispatch({ changes: { from: at, to: at + 7, insert: '7' } })",
                Value::Null,
            )?;
            page.until("it is said", "probe.one('.file-problem')")?;
            page.until("it is marked", "probe.one('.file-wrong')")?;
            check_part(
                page,
                "file",
                "a text with a problem",
                &["color-contrast", "aria-input-field-name"],
            )
        })?;
    }
    Ok(())
}

/// Catches what only an element in somebody else's page has: several in one document, without landmarks.
#[test]
fn no_fault_in_somebody_elses_page() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let lesson = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <main><h1>Lesson</h1><lever-train></lever-train><lever-train with=\"ranges\"></lever-train></main>";
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("accessible-lesson");
    let site = own_site::make(folder, &[("lesson.html", lesson)])?;
    for view in [View::LAPTOP.dark(), View::PHONE] {
        page::open_in(&site, view, "lesson.html", |page| {
            check(page, "two in a lesson", &COMPACT)
        })?;
    }
    Ok(())
}

/// Catches code that cannot be scrolled by keys, tables and frames without names, and faint words on the page about
/// embedding.
#[test]
fn no_fault_on_the_page_about_embedding() -> Result<()> {
    for view in [View::LAPTOP, View::PHONE.dark()] {
        embedding_page::open(view, |page| {
            page.lift_security_policy()?;
            page.goto("embedding.html")?;
            check(page, "embedding", &COMPACT)
        })?;
    }
    Ok(())
}

/// Catches grips, sliders and cards of sources that have no name or no contrast, on a laptop and on a phone, in both languages.
#[test]
fn no_fault_in_sources_and_outputs() -> Result<()> {
    for (view, german) in [(View::LAPTOP, false), (View::PHONE, true)] {
        let link = "#s=14-input-split&on=";
        page::open(view, link, |page| {
            page.lift_security_policy()?;
            page.goto(&format!("index.html{link}"))?;
            if german {
                language::speak_german(page)?;
            }
            page.unfold("sources")?;
            page.until(
                "the grips are there",
                "probe.all('.driven-grip[role=slider]').length > 2",
            )?;
            page.run(
                "for (const node of probe.all('.sources-numbers')) node.open = true",
                Value::Null,
            )?;
            check_part(
                page,
                "sources",
                "sources and outputs",
                &["color-contrast", "label"],
            )?;
            // The nodes of the stage are sliders meanwhile.
            check_part(
                page,
                "stage",
                "nodes turned by hand",
                &["aria-input-field-name"],
            )
        })?;
    }
    Ok(())
}

/// Catches finds and layouts that have no name or no contrast once they are there, on a laptop and on a phone, in both languages.
#[test]
fn no_fault_in_what_was_found() -> Result<()> {
    for (view, german) in [(View::LAPTOP, false), (View::PHONE.dark(), true)] {
        let link = "#s=04-six-speed-three-sets";
        page::open(view, link, |page| {
            page.lift_security_policy()?;
            page.goto(&format!("index.html{link}"))?;
            if german {
                language::speak_german(page)?;
            }
            for (panel, found) in [("find", ".find-pick"), ("layouts", ".layouts-card")] {
                page.unfold(panel)?;
                let begin = format!("[data-part={panel}-begin]");
                page.until("it can begin", &format!("probe.one('{begin}')"))?;
                page.click(&begin)?;
                page.until(
                    "something is found",
                    &format!("probe.all('{found}').length > 0"),
                )?;
                page.until(
                    "it has ended",
                    &format!("probe.one('[data-part={panel}-rest]').hidden"),
                )?;
                check_part(
                    page,
                    panel,
                    panel,
                    &["color-contrast", "button-name", "summary-name"],
                )?;
            }
            Ok(())
        })?;
    }
    Ok(())
}
