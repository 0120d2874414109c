//! What a page may ask of the element by script, and what it may count on.

use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND};

const ONE: &str = "#one";

/// Opens a page with the element in it and `head` before it.
fn in_page(name: &str, head: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\">{head}<title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <main><h1>Lesson</h1>\
         <lever-train id=\"one\" with=\"all\" scenario=\"{stem}\" applied=\"{first}\"></lever-train>\
         <lever-train id=\"two\" with=\"all\" scenario=\"01-one-set\"></lever-train></main>",
        stem = by_hand::STEM,
        first = FIRST.applied.join(","),
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let site = own_site::make(folder, &[("lesson.html", &text)])?;
    page::open_in(&site, View::LAPTOP, "lesson.html", |page| {
        page.until("the second one is open", "probe.isOpen('#two')")?;
        test(page)
    })
}

fn second(page: &Page) -> Result<()> {
    let button = format!(".range-buttons [data-range-id=\"{}\"]", SECOND.id);
    page.click_in(ONE, &button)
}

/// Catches an attribute that opens the train anew: what the reader has chosen must stay.
#[test]
fn a_changed_attribute_changes_only_what_it_says() -> Result<()> {
    in_page("changed-attribute", "", |page| {
        second(page)?;
        page.run(
            "const node = probe.host('#one'); node.setAttribute('speed', '2750'); \
             node.setAttribute('torque', '80')",
            Value::Null,
        )?;
        page.until(
            "the speed is there",
            "probe.one('#speed', '#one').value === '2750'",
        )?;
        let seen = page.seen_in(ONE)?;
        ensure!(seen.range.as_deref() == Some(SECOND.id), "{seen:?}");
        ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
        let torque: String = page.get("probe.one('#torque', '#one').value", Value::Null)?;
        ensure!(torque == "80", "{torque}");
        Ok(())
    })
}

/// Catches a move that is taken for a removal.
#[test]
fn moved_in_the_page_it_keeps_what_is_on_screen() -> Result<()> {
    in_page("moved", "", |page| {
        second(page)?;
        let before = page.seen_in(ONE)?;
        page.run(
            "window.opened = 0; addEventListener('levertrain-ready', () => (opened += 1)); \
             document.body.append(probe.host('#one'))",
            Value::Null,
        )?;
        let after = page.seen_in(ONE)?;
        ensure!(
            after.applied == before.applied && after.ratio == before.ratio,
            "{after:?}"
        );
        ensure!(page.get::<u32>("opened", Value::Null)? == 0, "opened again");
        // It still lives.
        page.click_in(ONE, "[data-part=release-all]")?;
        ensure!(page.seen_in(ONE)?.applied.is_empty());
        Ok(())
    })
}

/// Catches calls that are forgotten while the engine is on its way, and answers that do not tell.
#[test]
fn what_is_asked_early_is_answered_later() -> Result<()> {
    in_page("early", "", |page| {
        let answered: (String, u32, String) = page.get(
            "(async () => { \
                let ready = 0; \
                const node = document.createElement('lever-train'); \
                node.addEventListener('levertrain-ready', () => (ready += 1)); \
                node.setAttribute('scenario', probe.host('#one').getAttribute('scenario')); \
                document.querySelector('main').append(node); \
                const answer = await node.apply(['W', 'J']); \
                await new Promise((done) => setTimeout(done)); \
                return [answer.ratio.fraction, ready, node.answer.ratio.fraction]; \
            })()",
            Value::Null,
        )?;
        let ratio = FIRST.exact.to_owned();
        ensure!(answered == (ratio.clone(), 1, ratio), "{answered:?}");
        Ok(())
    })
}

/// Catches faults that a page cannot hear of, or that are no errors.
#[test]
fn what_goes_wrong_is_an_error_told_to_page_and_reader() -> Result<()> {
    in_page("errors", "", |page| {
        let calls = [
            ("node.apply(['no-such'])", "no-such"),
            ("node.open('{', 'torn.json')", "file"),
        ];
        for (call, part) in calls {
            let told: (bool, String, bool) = page.get(
                &format!(
                    "(async () => {{ \
                        const node = probe.host('#one'); \
                        const heard = []; \
                        node.addEventListener('levertrain-error', ({{ detail }}) => heard.push(detail)); \
                        const failure = await {call}.catch((error) => error); \
                        return [failure instanceof Error, failure.message, \
                            heard.length === 1 && heard[0] === failure]; \
                    }})()"
                ),
                Value::Null,
            )?;
            ensure!(
                told.0 && told.2 && told.1.contains(part),
                "{call}: {told:?}"
            );
            let shown = "Boolean(probe.one('[data-part=message]', '#one'))";
            ensure!(page.get::<bool>(shown, Value::Null)?, "{call}: no message");
        }
        ensure!(page.seen_in(ONE)?.ratio.as_deref() == Some(FIRST.ratio));
        Ok(())
    })
}

/// Catches markup that a script hands to the browser, which careful hosts forbid; every formula
/// must still be one.
#[test]
fn it_works_where_scripts_may_write_no_markup() -> Result<()> {
    let policy = "<meta http-equiv=\"Content-Security-Policy\" \
        content=\"require-trusted-types-for 'script'; trusted-types 'none'\">";
    in_page("trusted-types", policy, |page| {
        page.run(
            "for (const node of probe.all('details', '#one')) node.open = true",
            Value::Null,
        )?;
        page.rest()?;
        let [formulas, icons]: [usize; 2] = page.get(
            "[probe.all('math mfrac mn', '#one').length, probe.all('.top svg.icon path', '#one').length]",
            Value::Null,
        )?;
        ensure!(formulas > 0 && icons > 0, "{formulas} {icons}");
        page.check_faults()?;
        // That the policy holds here at all.
        page.expect_fault("requires 'TrustedHTML' assignment");
        page.expect_fault("require-trusted-types-for");
        let refused = "(() => { try { document.createElement('p').innerHTML = '<b></b>'; return false; } \
            catch { return true; } })()";
        ensure!(page.get::<bool>(refused, Value::Null)?, "no policy");
        Ok(())
    })
}

/// Catches landmarks and headlines that an element adds to a page that has its own, once for each.
#[test]
fn in_somebodys_page_it_has_no_landmarks_and_offers_its_parts() -> Result<()> {
    in_page("landmarks", "", |page| {
        let marks: Vec<String> = page.get(
            "probe.all('main, header, footer, nav, aside, h1, section[aria-label], [role=main], \
                [role=banner], [role=region]', '#one').map((node) => node.outerHTML.slice(0, 80))",
            Value::Null,
        )?;
        ensure!(marks.is_empty(), "{marks:?}");
        for part in [
            "top", "body", "answer", "ranges", "stage", "controls", "panel",
        ] {
            let there = format!("Boolean(probe.one('[part={part}]', '#one'))");
            ensure!(page.get::<bool>(&there, Value::Null)?, "no part {part}");
        }
        Ok(())
    })
}

/// Catches several elements of which each takes the page for its own: their main parts, their headlines
/// and what they write into its address.
#[test]
fn a_page_is_about_one_element_only() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let element = |id: &str, stem: &str| {
        format!("<lever-train address with=\"all\" id=\"{id}\" scenario=\"{stem}\"></lever-train>")
    };
    let page = |name: &str, before: &str| {
        let text = format!(
            "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
             <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
             {before}{}{}",
            element("one", by_hand::STEM),
            element("two", "01-one-set"),
        );
        (name.to_owned(), text)
    };
    let pages = [
        page("two.html", ""),
        page("beside.html", "<main><h1>Lesson</h1></main>"),
    ];
    let files: Vec<(&str, &str)> = pages
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("one-main");
    let site = own_site::make(folder, &files)?;
    page::open_in(&site, View::LAPTOP, "two.html", |page| {
        for (name, marks) in [("two.html", [1, 1, 1]), ("beside.html", [0, 0, 0])] {
            page.goto(name)?;
            page.until("the second one is open", "probe.isOpen('#two')")?;
            let found: [usize; 3] = page.get(
                "['main', 'header', 'h1'].map((mark) => \
                    ['#one', '#two'].flatMap((id) => probe.all(mark, id)).length)",
                Value::Null,
            )?;
            ensure!(found == marks, "{name}: {found:?}");
            page.click_in("#two", "[data-part=release-all]")?;
            page.rest()?;
            let address: String = page.get("location.hash", Value::Null)?;
            ensure!(address.contains(by_hand::STEM), "{address}");
            ensure!(page.seen_in("#two")?.stem.as_deref() == Some("01-one-set"));
        }
        // When the first goes, its place is free.
        page.run(
            "probe.host('#one').remove(); const node = probe.host('#two'); node.remove(); \
             setTimeout(() => document.body.append(node))",
            Value::Null,
        )?;
        page.until("it is back", "probe.isOpen('#two')")?;
        // What is in the address is now its business.
        page.rest()?;
        ensure!(page.seen_in("#two")?.stem.as_deref() == Some(by_hand::STEM));
        Ok(())
    })
}
