//! The element in somebody else's page.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Device, Page, View, own_site, page, skipped};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND, THIRD};

const LEFT: &str = "#left";
const RIGHT: &str = "#right";

/// A page as a teacher might write it.
fn host_page() -> String {
    format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\">\
         <script type=\"module\" src=\"element.js\"></script>\
         <script type=\"module\" src=\"element.js?again\"></script>\
         <h1>Lesson</h1>\
         <lever-train id=\"left\" with=\"all\" scenario=\"{}\" applied=\"V,J\" speed=\"1500\"></lever-train>\
         <lever-train id=\"right\" with=\"all\" scenario=\"02-three-speed-common-sun\"></lever-train>",
        by_hand::STEM
    )
}

fn site(name: &str) -> Result<PathBuf> {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    own_site::make(folder, &[("lesson.html", &host_page())])
}

fn in_lesson(name: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    page::open_in(&site(name)?, View::LAPTOP, "lesson.html", |page| {
        page.until("the second one is open", "probe.isOpen('#right')")?;
        test(page)
    })
}

/// Catches state that two elements share, attributes that are not read, an element that is
/// registered twice, and one that writes into the address of a page that is not its own.
#[test]
fn two_in_a_page_are_independent() -> Result<()> {
    in_lesson("two-elements", |page| {
        let left = page.seen_in(LEFT)?;
        let right = page.seen_in(RIGHT)?;
        ensure!(left.ratio.as_deref() == Some(THIRD.ratio), "{left:?}");
        ensure!(left.speed.as_deref() == Some("1500"), "{left:?}");
        ensure!(right.ratio.as_deref() == Some("2.259 : 1"), "{right:?}");
        ensure!(right.speed.as_deref() == Some("1000"), "{right:?}");

        page.click_in(
            LEFT,
            &format!(".range-buttons [data-range-id=\"{}\"]", SECOND.id),
        )?;
        let changed = page.seen_in(LEFT)?;
        ensure!(
            changed.ratio.as_deref() == Some(SECOND.ratio),
            "{changed:?}"
        );
        ensure!(changed.section != left.section && changed.lever != left.lever);
        let other = page.seen_in(RIGHT)?;
        ensure!(other == right, "the right one has changed: {other:?}");

        page.click_in(RIGHT, ".range-buttons [data-range-id=\"3\"]")?;
        ensure!(page.seen_in(LEFT)? == changed, "the left one has changed");
        let address: String = page.get("location.href", Value::Null)?;
        ensure!(address.ends_with("lesson.html"), "{address}");
        Ok(())
    })
}

/// Catches attributes that are read only once, and an event that does not carry the answer.
#[test]
fn attributes_change_it_and_an_event_tells_the_page() -> Result<()> {
    in_lesson("attributes", |page| {
        page.run(
            "window.answers = []; document.addEventListener('levertrain-change', (event) => \
                answers.push([event.target.id, event.detail.ratio?.fraction, event.detail.range]))",
            Value::Null,
        )?;
        let attributes = json!([by_hand::STEM, FIRST.applied.join(",")]);
        page.run(
            "const node = probe.host('#right'); node.setAttribute('scenario', args[0]); \
             node.setAttribute('applied', args[1]); node.setAttribute('shows', 'power')",
            attributes,
        )?;
        page.until(
            "it shows first gear",
            "probe.text('[data-part=ratio]', '#right') === '2.706 : 1'",
        )?;
        let power = "probe.one('[data-shows=power]', '#right').ariaPressed";
        ensure!(page.get::<String>(power, Value::Null)? == "true");
        let answers: Vec<(String, String, String)> = page.get("window.answers", Value::Null)?;
        let expected = (
            "right".to_owned(),
            FIRST.exact.to_owned(),
            FIRST.id.to_owned(),
        );
        ensure!(answers.last() == Some(&expected), "{answers:?}");

        page.run("probe.host('#left').apply(['H', 'K'])", Value::Null)?;
        let seen = page.seen_in(LEFT)?;
        ensure!(seen.range.as_deref() == Some("6"), "{seen:?}");
        Ok(())
    })
}

/// Catches a removed element that goes on drawing, or listens on and fails later; it must also
/// come back when it is put in again.
#[test]
fn a_removed_one_is_at_rest_and_can_come_back() -> Result<()> {
    in_lesson("removed", |page| {
        page.click_in(LEFT, "[data-part=turning]")?;
        page.until("it turns", "probe.drawn('#left') > 20")?;
        page.run(
            "window.removed = probe.host('#left'); removed.remove()",
            Value::Null,
        )?;
        let drawn: u32 = page.get("Number(removed.dataset.frame)", Value::Null)?;
        let asked: usize = page.get("probe.requestsDuring(60)", Value::Null)?;
        ensure!(asked == 0, "{asked} frames asked for after it was removed");
        // The one that is left follows the system; the removed one must have stopped listening.
        page.change_view(View {
            width: 1000,
            ..View::LAPTOP.dark()
        })?;
        page.check_faults()
            .context("what it listened to is still alive")?;
        let after: u32 = page.get("Number(removed.dataset.frame)", Value::Null)?;
        ensure!(
            after == drawn,
            "drawn {} times after it was removed",
            after - drawn
        );

        page.run("document.body.append(removed)", Value::Null)?;
        page.until(
            "it is back",
            "probe.text('[data-part=ratio]', '#left') === '1.426 : 1'",
        )?;
        page.click_in(
            LEFT,
            &format!(".range-buttons [data-range-id=\"{}\"]", SECOND.id),
        )?;
        let seen = page.seen_in(LEFT)?;
        ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
        Ok(())
    })
}

/// Catches an element that is taken out while it still loads and comes to life outside the page.
#[test]
fn one_that_is_removed_while_it_loads_does_not_start() -> Result<()> {
    in_lesson("hasty", |page| {
        page.run(
            "const node = document.createElement('lever-train'); window.hasty = node; \
             document.body.append(node); node.remove()",
            Value::Null,
        )?;
        page.rest()?;
        let alive: bool = page.get("Boolean(hasty.answer || hasty.dataset.frame)", Value::Null)?;
        ensure!(!alive, "it has started");
        Ok(())
    })
}

/// A page with one element in it that has these attributes.
fn alone(name: &str, attributes: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <h1>Lesson</h1><lever-train scenario=\"{}\" applied=\"{}\" {attributes}></lever-train>",
        by_hand::STEM,
        FIRST.applied.join(","),
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let site = own_site::make(folder, &[("lesson.html", &text)])?;
    page::open_in(&site, View::LAPTOP, "lesson.html", test)
}

/// What is on screen besides answer and drawings, by the names that the attribute knows it by.
fn furnished(page: &Page) -> Result<Vec<String>> {
    page.rest()?;
    page.get(
        "[['header', '.top'], ['ranges', '.range-buttons button'], ['controls', '.controls'], \
            ['controls', '[data-part=turning]'], ['controls', '[data-shows]'], ['about', '.about']] \
            .filter(([, selector]) => probe.one(selector).checkVisibility()).map(([name]) => name) \
            .concat(probe.all('.panel').filter((node) => node.checkVisibility()) \
                .map((node) => node.dataset.part + (node.open ? '' : ' folded')))",
        Value::Null,
    )
}

/// Catches an element that fills somebody else's page with more than what it was put there to show: it
/// is answer and drawings, with the cautions one press away.
#[test]
fn it_is_answer_and_drawings_unless_more_is_asked_for() -> Result<()> {
    alone("compact", "", |page| {
        ensure!(furnished(page)?.is_empty(), "{:?}", furnished(page)?);
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(FIRST.ratio), "{seen:?}");
        let [column, room]: [f64; 2] = page.get(
            "[probe.one('.stage').clientWidth, probe.one('.body').clientWidth]",
            Value::Null,
        )?;
        ensure!(column == room, "drawings {column} px wide in {room} px");
        let fetched: Vec<String> = page.get(
            "probe.all('.panel-body').filter((node) => node.childElementCount > 0) \
                .map((node) => node.parentElement.dataset.part)",
            Value::Null,
        )?;
        ensure!(fetched.is_empty(), "filled without being seen: {fetched:?}");

        page.click("[data-part=cautions-button]:not(.top *)")?;
        ensure!(page.shows("[data-part=cautions]")?, "no cautions");

        // It is worked with all the same.
        let pack = page.pack(&by_hand::train()?, "W")?;
        page.drag(Device::Mouse, &pack, -0.9)?;
        ensure!(page.seen()?.applied == ["J"], "no drag");
        Ok(())
    })
}

/// Catches parts that are shown without being named, and an attribute that is read only once.
#[test]
fn a_page_names_what_else_it_wants() -> Result<()> {
    alone("named", "with=\"ranges, working\"", |page| {
        ensure!(furnished(page)? == ["ranges", "working"]);
        page.until(
            "the working is there",
            "probe.all('[data-part=working] math').length > 0",
        )?;
        for (names, expected) in [
            ("header,about", vec!["header", "about"]),
            (
                "controls,chart",
                vec!["controls", "controls", "controls", "chart"],
            ),
        ] {
            page.run(
                "probe.host('lever-train').setAttribute('with', args)",
                json!(names),
            )?;
            let shown = furnished(page)?;
            ensure!(shown == expected, "{names}: {shown:?}");
        }
        page.run(
            "probe.host('lever-train').setAttribute('with', 'all')",
            Value::Null,
        )?;
        let all = furnished(page)?;
        ensure!(
            all.len() > 15 && all.contains(&"chart".to_owned()),
            "{all:?}"
        );
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);

        page.run(
            "probe.host('lever-train').setAttribute('with', 'ranges,curtains')",
            Value::Null,
        )?;
        page.until("it says so", "probe.one('[data-part=message]')")?;
        let messages = page.messages()?;
        ensure!(messages[0].contains("\"curtains\""), "{messages:?}");
        ensure!(furnished(page)? == ["ranges"], "what is known is heeded");
        Ok(())
    })?;
    alone("misnamed", "with=\"everything\"", |page| {
        let messages = page.messages()?;
        ensure!(
            messages.len() == 1 && messages[0].contains("\"everything\""),
            "{messages:?}"
        );
        Ok(())
    })
}
