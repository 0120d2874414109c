//! The page in German: nothing of it in English, a comma before decimals, and a switch that loses nothing.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_core::words::LANGUAGES;
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::files::{self, root};
use levertrain_tests::in_words::in_words;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::words::SAID;

/// A page of somebody else's in German.
const LESSON: &str = "lesson.html";

/// The messages of a language that have no variables, by their keys.
fn plain_messages(language: &str) -> Result<BTreeMap<String, String>> {
    let file = root().join(format!("core/words/{language}.ftl"));
    let text = fs::read_to_string(file)?;
    let lines = text
        .lines()
        .filter(|line| !line.starts_with(['#', ' ', '}']));
    let messages = lines.filter_map(|line| line.split_once(" = "));
    let plain = messages.filter(|(_, message)| !message.contains('{'));
    Ok(plain
        .map(|(key, message)| (key.to_owned(), message.to_owned()))
        .collect())
}

/// What is said in English where German says something else, and nowhere in German.
fn english_only() -> Result<BTreeSet<String>> {
    let [english, german] = LANGUAGES.map(plain_messages);
    let (english, german) = (english?, german?);
    let also_german: BTreeSet<&String> = german.values().collect();
    let words = in_words("de")?;
    let names = words
        .iter()
        .filter(|(said, other)| said != other && !said.contains('/'));
    let said = english.values().chain(names.map(|(said, _)| said));
    // What is as short as a sign may be one.
    let said = said.filter(|said| said.len() > 2 && !also_german.contains(said));
    Ok(said.cloned().collect())
}

fn unfold_all(page: &Page) -> Result<()> {
    page.run(
        "for (const node of probe.all('details')) node.open = true",
        Value::Null,
    )?;
    page.rest()
}

pub fn speak_german(page: &Page) -> Result<()> {
    page.click("[data-language=de]")?;
    page.until(
        "it speaks German",
        "document.documentElement.lang === 'de' && probe.one('[data-language=en]')",
    )?;
    page.rest()
}

#[test]
fn nothing_is_left_in_english() -> Result<()> {
    page::open(View::LAPTOP.still(), "", |page| {
        speak_german(page)?;
        let english = english_only()?;
        ensure!(english.len() > 300, "{}", english.len());
        for file in files::scenarios()? {
            page.choose(&file.stem)?;
            unfold_all(page)?;
            let said: Vec<String> = page.get(SAID, Value::Null)?;
            ensure!(said.len() > 300, "{}", said.len());
            let left: BTreeSet<&String> = said
                .iter()
                .filter(|text| english.contains(text.trim()))
                .collect();
            ensure!(left.is_empty(), "{}: {left:?}", file.stem);
        }
        Ok(())
    })
}

/// Catches a language that is fetched beside the one that is spoken.
#[test]
fn one_catalogue_is_fetched() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        speak_german(page)?;
        let asked: Vec<String> = page.get(
            "performance.getEntriesByType('resource').map(({ name }) => name).filter((name) => name.endsWith('.ftl'))",
            Value::Null,
        )?;
        ensure!(
            asked.len() == 1 && asked[0].ends_with("words/de.ftl"),
            "{asked:?}"
        );
        Ok(())
    })
}

#[test]
fn the_switch_keeps_what_is_on_screen() -> Result<()> {
    let link = format!("#s={}&on={}&n=1500", by_hand::STEM, FIRST.applied.join(","));
    page::open(View::LAPTOP, &link, |page| {
        page.unfold("teeth")?;
        let before = page.seen()?;
        speak_german(page)?;
        let after = page.seen()?;
        ensure!(after.applied == before.applied, "{after:?}, not {before:?}");
        let kept: bool = page.get(
            "probe.one('[data-part=teeth]').open && probe.one('#speed').value === '1500'",
            Value::Null,
        )?;
        ensure!(kept, "the panel or the speed");
        let state: String = page.get("probe.one('[data-part=state]').textContent", Value::Null)?;
        ensure!(state == "Kraftschluss", "{state}");
        let ratio: String = page.get("probe.one('[data-part=ratio]').textContent", Value::Null)?;
        ensure!(ratio.contains(',') && !ratio.contains('.'), "{ratio}");
        page.click("[data-language=en]")?;
        page.until(
            "it speaks English",
            "document.documentElement.lang === 'en' && probe.one('[data-language=de]')",
        )?;
        page.rest()?;
        let again = page.seen()?;
        ensure!(
            again.applied == before.applied && again.state == before.state,
            "{again:?}"
        );
        Ok(())
    })
}

/// A train of the reader's own is still open, under its own name.
#[test]
fn the_switch_keeps_a_changed_train() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        page.unfold("edit")?;
        page.run(
            "const field = probe.one('[data-part=edit] input.count'); \
             field.value = String(Number(field.value) + 1); \
             field.dispatchEvent(new Event('input', { bubbles: true }))",
            Value::Null,
        )?;
        page.rest()?;
        let text = "probe.one('[data-part=edit] input.count').value + probe.one('#scenario').value";
        let before: String = page.get(text, Value::Null)?;
        ensure!(before.contains("file/"), "{before}");
        speak_german(page)?;
        page.until(
            "its form is there",
            "probe.one('[data-part=edit] input.count')",
        )?;
        let after: String = page.get(text, Value::Null)?;
        ensure!(after == before, "{after}, not {before}");
        Ok(())
    })
}

#[test]
fn fields_read_comma_and_point() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        speak_german(page)?;
        for (typed, shown) in [
            ("2,5", "2,5"),
            ("3.5", "3,5"),
            ("\u{2212}", "3,5"),
            ("x", "3,5"),
        ] {
            page.run(
                "const field = probe.one('#torque'); field.value = args; field.dispatchEvent(new Event('change', { bubbles: true }))",
                json!(typed),
            )?;
            page.rest()?;
            let now: String = page.get("probe.one('#torque').value", Value::Null)?;
            ensure!(now == shown, "{typed}: {now}, not {shown}");
        }
        Ok(())
    })
}

/// Catches words that are too long for a phone.
#[test]
fn nothing_is_wider_than_a_phone() -> Result<()> {
    let narrow = View {
        width: 320,
        ..View::PHONE
    };
    page::open(narrow, "", |page| {
        speak_german(page)?;
        for file in files::scenarios()? {
            page.turn_to(&file.stem)?;
            unfold_all(page)?;
            for view in [narrow, View::PHONE] {
                page.change_view(view)?;
                let width: u32 = page.get("document.documentElement.scrollWidth", Value::Null)?;
                let wide: Vec<String> = page.get(
                    "probe.all('.levertrain *').filter((node) => !node.closest('.scroll, .scroller, .cm-scroller, .stage, .unseen') && \
                        node.getBoundingClientRect().right > args) \
                        .map((node) => `${node.closest('[data-part]')?.dataset.part}: ${node.outerHTML.slice(0, 80)}`)",
                    json!(view.width + 1),
                )?;
                ensure!(
                    width <= view.width && wide.is_empty(),
                    "{}: {width} px, by {wide:#?}",
                    file.stem
                );
            }
        }
        Ok(())
    })
}

/// In a page of somebody else's the element speaks as its attribute says, or as the page does.
#[test]
fn an_element_speaks_as_its_page_does() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    for (name, page_language, attribute) in [
        ("page", "de-AT", ""),
        ("attribute", "en", " language=\"de\""),
        ("unknown", "fr", ""),
    ] {
        let lesson = format!(
            "<!doctype html><html lang=\"{page_language}\"><meta charset=\"utf-8\"><title>Lesson</title>\
             <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
             <lever-train scenario=\"{}\"{attribute}></lever-train>",
            by_hand::STEM
        );
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("language-{name}"));
        let site = own_site::make(folder, &[(LESSON, &lesson)])?;
        page::open_in(&site, View::LAPTOP, LESSON, |page| {
            let lang: String = page.get("probe.one('.levertrain').lang", Value::Null)?;
            let wanted = if name == "unknown" { "en" } else { "de" };
            ensure!(lang == wanted, "{name}: {lang}");
            let of_page: String = page.get("document.documentElement.lang", Value::Null)?;
            ensure!(of_page == page_language, "{of_page}");
            let german: bool = page.get(
                "probe.all('[aria-label]').some(({ ariaLabel }) => ariaLabel.startsWith('Halbschnitt:'))",
                Value::Null,
            )?;
            ensure!(german == (wanted == "de"), "{name}: the half-section is told otherwise");
            Ok(())
        })
        .with_context(|| name)?;
    }
    Ok(())
}
