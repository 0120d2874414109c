//! What a page asks for by attribute, and by the property of each.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::files::root;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND, SIXTH};

/// A page with the element in it; beside it lie a train of the page's own and something that is none.
fn open(
    name: &str,
    view: View,
    attributes: &str,
    test: impl FnOnce(&mut Page) -> Result<()>,
) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let train = fs::read_to_string(root().join(format!("scenarios/{}.json", by_hand::STEM)))?;
    let mut own: Value = serde_json::from_str(&train)?;
    own["name"] = json!("A train of ours");
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <main><h1>Lesson</h1><lever-train {attributes}></lever-train></main>"
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let files = [
        ("lesson.html", text.as_str()),
        ("my-train.json", &own.to_string()),
        ("torn.json", "{"),
        ("large.json", &" ".repeat(70_000)),
    ];
    let site = own_site::make(folder, &files)?;
    page::open_in(&site, view, "lesson.html", test)
}

/// The one message on screen.
fn message(page: &Page) -> Result<String> {
    let messages = page.messages()?;
    ensure!(messages.len() == 1, "{messages:?}");
    Ok(messages[0].clone())
}

/// Catches a train of the page's own that is not opened, or without its range; and one that cannot be had and
/// takes away what is on screen, or says nothing that helps.
#[test]
fn a_page_has_a_train_of_its_own_in_one_of_its_ranges() -> Result<()> {
    let attributes =
        "with=\"all\" train=\"my-train.json\" scenario=\"01-one-set\" range=\"2\" applied=\"V\"";
    open("own-train", View::LAPTOP, attributes, |page| {
        let seen = page.seen()?;
        ensure!(
            seen.scenario
                .is_some_and(|name| name.contains("A train of ours"))
        );
        ensure!(
            seen.ratio.as_deref() == Some(SECOND.ratio),
            "{:?}",
            seen.ratio
        );
        ensure!(page.messages()?.is_empty());

        page.expect_fault("404");
        page.expect_fault("did not load");
        for (address, said) in [
            ("none.json", "answered 404"),
            ("torn.json", "torn.json"),
            ("large.json", "64"),
            (
                "http://localhost:9/train.json",
                "Access-Control-Allow-Origin",
            ),
        ] {
            page.expect_fault("localhost:9");
            page.run("probe.host('lever-train').train = args", json!(address))?;
            page.until(
                address,
                &format!("probe.text('[data-part=message]')?.includes('{said}')"),
            )?;
            let seen = page.seen()?;
            ensure!(
                seen.ratio.as_deref() == Some(SECOND.ratio),
                "{address}: {seen:?}"
            );
        }
        page.run(
            "const node = probe.host('lever-train'); node.train = null; node.range = null; node.scenario = args",
            json!(by_hand::STEM),
        )?;
        page.until(
            "the scenario",
            &format!("probe.seen().stem === '{}'", by_hand::STEM),
        )
    })
}

/// Catches a page whose own train is there and which is shown another one, as its range is none.
#[test]
fn a_range_that_is_none_leaves_the_train_and_is_told_with_those_there_are() -> Result<()> {
    let attributes = "with=\"all\" train=\"my-train.json\" range=\"9\"";
    open("no-range", View::LAPTOP, attributes, |page| {
        let seen = page.seen()?;
        ensure!(
            seen.scenario
                .is_some_and(|name| name.contains("A train of ours"))
        );
        let said = message(page)?;
        ensure!(said.contains("\"9\"") && said.contains("1, 2, 3"), "{said}");

        page.run("probe.host('lever-train').range = '6'", Value::Null)?;
        page.until("the sixth", "probe.seen().range === '6'")?;
        ensure!(page.messages()?.is_empty(), "the message stays");
        page.run("probe.host('lever-train').range = 'sixth'", Value::Null)?;
        page.until("told", "probe.one('[data-part=message]')")?;
        ensure!(page.seen()?.ratio.as_deref() == Some(SIXTH.ratio));
        Ok(())
    })
}

const GROUND: &str = "getComputedStyle(probe.one('.ground')).backgroundColor";
const LIGHT: &str = "rgb(251, 249, 244)";
const DARK: &str = "rgb(20, 25, 29)";

/// Catches colours that do not follow the page: in styles, in drawings, at the buttons that choose them.
#[test]
fn colours_are_those_that_the_page_asks_for() -> Result<()> {
    let attributes = format!("with=\"all\" scenario=\"{}\" theme=\"dark\"", by_hand::STEM);
    open("theme", View::LAPTOP, &attributes, |page| {
        let check = |page: &Page, ground: &str, choice: &str| -> Result<()> {
            page.rest()?;
            let found: String = page.get(GROUND, Value::Null)?;
            ensure!(found == ground, "{found} for {choice}");
            let light = page.canvas("section")?.lightness > 0.5;
            ensure!(light == (ground == LIGHT), "the drawing is not {choice}");
            let pressed: Vec<String> = page.get(
                "probe.all('[data-theme-choice][aria-pressed=true]').map((node) => node.dataset.themeChoice)",
                Value::Null,
            )?;
            ensure!(pressed == [choice], "{pressed:?} is pressed for {choice}");
            Ok(())
        };
        check(page, DARK, "dark")?;
        page.run("probe.host('lever-train').theme = 'light'", Value::Null)?;
        check(page, LIGHT, "light")?;
        page.run("probe.host('lever-train').theme = 'page'", Value::Null)?;
        check(page, LIGHT, "light")?;
        for (scheme, ground, choice) in [
            ("dark", DARK, "dark"),
            ("light", LIGHT, "light"),
            ("light dark", LIGHT, "auto"),
        ] {
            page.run(
                "document.documentElement.style.colorScheme = args",
                json!(scheme),
            )?;
            check(page, ground, choice)?;
        }
        page.change_view(View::LAPTOP.dark())?;
        check(page, DARK, "auto")?;
        // The reader may want another.
        page.click("[data-theme-choice=light]")?;
        check(page, LIGHT, "light")?;
        page.run("probe.host('lever-train').theme = 'blue'", Value::Null)?;
        page.until("told", "probe.one('[data-part=message]')")?;
        let said = message(page)?;
        ensure!(
            said.contains("theme") && said.contains("blue") && said.contains("light, dark, page"),
            "{said}"
        );
        Ok(())
    })
}

/// Catches a view that is not shown, one that is shown unasked, and drawings that are not fitted as they come back.
#[test]
fn a_page_may_show_only_some_of_the_views() -> Result<()> {
    let attributes = format!(
        "scenario=\"{}\" applied=\"{}\" views=\"lever\"",
        by_hand::STEM,
        FIRST.applied.join(",")
    );
    let seen = "[['answer', '.answer'], ['section', '[data-drawing=section]'], ['lever', '[data-drawing=lever]']] \
        .filter(([, name]) => probe.one(name).checkVisibility()).map(([name]) => name)";
    open("views", View::LAPTOP, &attributes, |page| {
        let check = |page: &Page, expected: &[&str]| -> Result<()> {
            page.rest()?;
            let found: Vec<String> = page.get(seen, Value::Null)?;
            ensure!(found == expected, "{found:?} for {expected:?}");
            for drawing in ["section", "lever"]
                .into_iter()
                .filter(|name| expected.contains(name))
            {
                let canvas = page.canvas(drawing)?;
                ensure!(canvas.colours > 10, "{drawing} is blank: {canvas:?}");
            }
            Ok(())
        };
        check(page, &["lever"])?;
        for views in [
            vec!["answer"],
            vec!["section"],
            vec!["section", "lever"],
            vec!["answer", "lever"],
        ] {
            page.run(
                "probe.host('lever-train').views = args.join()",
                json!(views),
            )?;
            check(page, &views)?;
        }
        ensure!(page.messages()?.is_empty());
        page.run(
            "probe.host('lever-train').views = 'lever,ledger'",
            Value::Null,
        )?;
        check(page, &["lever"])?;
        let said = message(page)?;
        ensure!(
            said.contains("ledger") && said.contains("answer, section, lever"),
            "{said}"
        );
        page.run("probe.host('lever-train').views = null", Value::Null)?;
        check(page, &["answer", "section", "lever"])
    })
}

/// Catches a property that is none, that writes no attribute, or that is lost as it was set too early.
#[test]
fn each_attribute_is_a_property() -> Result<()> {
    let attributes = "with=\"ranges\" scenario=\"01-one-set\"";
    open("properties", View::LAPTOP, attributes, |page| {
        let wrong: Vec<String> = page.get(
            "(() => { \
                const kind = customElements.get('lever-train'); \
                const node = document.createElement('lever-train'); \
                const names = [...kind.observedAttributes, 'exercise', 'language', 'loading', 'address']; \
                return names.filter((name) => { \
                    if (node[name] !== null) return true; \
                    node[name] = ['a', 'b']; \
                    if (node.getAttribute(name) !== 'a,b' || node[name] !== 'a,b') return true; \
                    node[name] = null; \
                    return node.hasAttribute(name); \
                }); \
            })()",
            Value::Null,
        )?;
        ensure!(wrong.is_empty(), "{wrong:?}");
        page.run(
            "const node = probe.host('lever-train'); node.scenario = args[0]; node.applied = args[1]; node.speed = 1500",
            json!([by_hand::STEM, FIRST.applied]),
        )?;
        page.until(
            "by properties",
            &format!("probe.seen().range === '{}'", FIRST.id),
        )?;

        let early: String = page.get(
            "(async () => { \
                const frame = document.createElement('iframe'); \
                document.body.append(frame); \
                const inside = frame.contentDocument; \
                const node = inside.createElement('lever-train'); \
                node.scenario = '01-one-set'; \
                inside.body.append(node); \
                const script = inside.createElement('script'); \
                script.type = 'module'; script.src = new URL('element.js', location.href); \
                inside.head.append(script); \
                await frame.contentWindow.customElements.whenDefined('lever-train'); \
                return node.getAttribute('scenario'); \
            })()",
            Value::Null,
        )?;
        ensure!(early == "01-one-set", "{early}");
        Ok(())
    })
}
