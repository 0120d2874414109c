//! What the page says comes from one file of the site.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use levertrain_tests::made_up::{made_up, ours, rename};
use serde_json::{Value, json};
use xtask::offline;

use crate::by_hand::{self, FIRST};

const WORDS: &str = "words/en.ftl";
const LESSON: &str = "lesson.html";

/// An engine for browsers to come: one function, of an instruction on vectors that nobody knows.
const UNKNOWN_INSTRUCTION: &[u8] =
    b"\0asm\x01\0\0\0\x01\x04\x01\x60\0\0\x03\x02\x01\0\x0a\x07\x01\x05\0\xfd\xff\x7f\x0b";

fn lesson() -> String {
    format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <lever-train with=\"all\" scenario=\"{}\" applied=\"{}\"></lever-train>",
        by_hand::STEM,
        FIRST.applied.join(",")
    )
}

/// Catches an element that stays empty, or shows the keys of messages, where the catalogue or the
/// engine did not come.
#[test]
fn what_did_not_come_is_named() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("words-missing");
    // The site's own page would be kept whole by the browser.
    let site = own_site::make(folder, &[(LESSON, &lesson())])?;
    page::open_in(&site, View::LAPTOP, LESSON, |page| {
        for (file, folder) in [(WORDS, "words/"), ("engine/levertrain_bg.wasm", "engine/")] {
            let kept = fs::read(site.join(file))?;
            fs::remove_file(site.join(file))?;
            page.expect_fault("404");
            page.goto_silent(&format!("{}{LESSON}?without={folder}", page.address()))?;
            page.until("it gives up", "probe.one('[data-part=empty]')")?;
            let told: String =
                page.get("probe.one('[data-part=empty]').textContent", Value::Null)?;
            for part in ["did not load", "the host answered 404", folder] {
                ensure!(told.contains(part), "no {part:?} in {told:?}");
            }
            fs::write(site.join(file), kept)?;
        }
        let file = site.join("engine/levertrain_bg.wasm");
        let kept = fs::read(&file)?;
        fs::write(&file, UNKNOWN_INSTRUCTION)?;
        page.expect_fault("cannot run the engine");
        page.goto_silent(&format!("{}{LESSON}?of=tomorrow", page.address()))?;
        page.until("it gives up", "probe.one('[data-part=empty]')")?;
        let told: String = page.get("probe.one('[data-part=empty]').textContent", Value::Null)?;
        for part in ["cannot run the engine", "current browser"] {
            ensure!(told.contains(part), "no {part:?} in {told:?}");
        }
        fs::write(&file, kept)?;
        page.goto(LESSON)
    })
}

/// Catches words that stand in the page or in its engine.
#[test]
fn page_and_engine_speak_from_the_file() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("words-other");
    let site = own_site::make(folder, &[(LESSON, &lesson())])?;
    let text = fs::read_to_string(site.join(WORDS))?;
    let changes = [
        ("state-driving = Drives", "state-driving = F\u{e4}hrt"),
        ("page-panel-losses = Losses", "page-panel-losses = Verluste"),
        // Elements stand where the sentence wants them.
        (
            "page-answer-more = { $state }, { $pace }; exactly { $exact }",
            "page-answer-more = genau { $exact }: { $state }, { $pace }",
        ),
    ];
    let mut other = text;
    for (message, said) in changes {
        ensure!(other.contains(message), "no {message}");
        other = other.replace(message, said);
    }
    fs::write(site.join(WORDS), other)?;
    page::open_in(&site, View::LAPTOP, LESSON, |page| {
        let seen = page.seen()?;
        ensure!(seen.state.as_deref() == Some("F\u{e4}hrt"), "{seen:?}");
        let heading: String = page.get(
            "probe.one('[data-part=losses] h2').textContent",
            Value::Null,
        )?;
        ensure!(heading == "Verluste", "{heading:?}");
        let more: Vec<String> = page.get(
            "[...probe.one('[data-part=exact]').parentElement.childNodes] \
                .map((node) => node.dataset?.part ?? node.textContent)",
            Value::Null,
        )?;
        ensure!(more[..4] == ["genau ", "exact", ": ", "state"], "{more:?}");
        Ok(())
    })
}

/// All that is read or heard of the page, but for formulas, addresses, markup to copy and the file's text.
pub const SAID: &str = "(() => { \
    const said = []; \
    const attributes = ['alt', 'aria-label', 'aria-valuetext', 'placeholder', 'title']; \
    for (const node of probe.all('*')) { \
        if (node.closest('math, textarea, .cm-line, style')) continue; \
        said.push(...attributes.map((name) => node.getAttribute(name) ?? '')); \
        for (const child of node.childNodes) if (child instanceof Text) said.push(child.data); \
    } \
    return said.filter((text) => /[a-z]/i.test(text)); \
})()";
/// Symbols of units and of the ratio, the page's own name and languages in their own, names of standards, of a key and
/// of a kind of file, beside those of the drawings.
const SYMBOLS: [&str; 24] = [
    "4th",
    "DE",
    "Deutsch",
    "Edition",
    "English",
    "F8",
    "Home",
    "Hz",
    "Levertrain",
    "SCORM",
    "W",
    "ft",
    "h",
    "hp",
    "i",
    "json",
    "kW",
    "kg",
    "km",
    "lbf",
    "mm",
    "mph",
    // What a file is called whose title has no letter that names of files may have.
    "sheet",
    "xAPI",
];
/// What the links below say, and attributes and codes that may be used instead.
const CODES: &str = "losses road shows units scenario zz on n t u o l v q furlong nothing joined \
    power scale rpm rads Nm lbfft kW hp KiB 5e9 x";
/// What the commands of a long search are written with.
const COMMANDS: &str = "cargo run release core example search layouts task json shard part merge jsonl out finds levertrain p";
const LINKS: [&str; 8] = [
    "#s=nothing",
    "#on=X",
    "#zz=1",
    "#n=%zz",
    "#s=@&on=V&n=5e9&t=x&zz=1",
    "#s=@&u=furlong&o=1&l=7&v=q",
    "#s=@&l=98,2,1&u=lbfft,hp,rads&o=60,-5,1&v=power,joined,scale",
    "#s=@&t=0&l=99,5,0",
];

/// The site in a language that is made up, names of things included.
fn made_up_site(name: &str) -> Result<PathBuf> {
    let site = own_site::make(Path::new(env!("CARGO_TARGET_TMPDIR")).join(name), &[])?;
    let text = fs::read_to_string(site.join(WORDS))?;
    fs::write(site.join(WORDS), made_up(&text, &[]))?;
    let list = site.join("scenarios/index.json");
    let mut entries: Vec<Value> = serde_json::from_str(&fs::read_to_string(&list)?)?;
    for entry in &mut entries {
        let mut scenario: Value = serde_json::from_str(entry["text"].as_str().context("text")?)?;
        rename(&mut scenario);
        entry["name"] = scenario["name"].clone();
        entry["text"] = scenario.to_string().into();
    }
    fs::write(list, json!(entries).to_string())?;
    offline::list_files(&site)?;
    Ok(site)
}

/// Fails where something that the page says is in our letters.
fn says_nothing_in_ours(page: &Page, known: &BTreeSet<String>) -> Result<usize> {
    page.rest()?;
    let said: Vec<String> = page.get(SAID, Value::Null)?;
    let ours = said
        .iter()
        .filter_map(|text| Some((ours(text, known)?, text)));
    let ours: BTreeSet<(String, &String)> = ours.collect();
    ensure!(ours.is_empty(), "{ours:?}");
    page.get("probe.all('*').length", Value::Null)
}

/// Catches words that stand in a script of the page, or are put together there.
#[test]
fn in_a_made_up_language_the_page_says_nothing_in_ours() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let site = made_up_site("words-made-up")?;
    let codes = CODES.split(' ').chain(COMMANDS.split(' '));
    let codes = codes.map(str::to_owned);
    let mut known: BTreeSet<String> = SYMBOLS
        .map(str::to_owned)
        .into_iter()
        .chain(codes)
        .collect();
    page::open_in(&site, View::LAPTOP, "index.html", |page| {
        let stems: Vec<String> = page.get(
            "probe.all('#scenario option').map(({ value }) => value).filter((value) => !value.includes('/'))",
            Value::Null,
        )?;
        let mut seen = 0;
        for stem in &stems {
            page.choose(stem)?;
            // The panels of what it has.
            page.run(
                "for (const node of probe.all('details')) node.open = true",
                Value::Null,
            )?;
            let ids: Vec<String> = page.get(
                "probe.all('[data-part=chart] th > span, [data-element-id]') \
                    .map((node) => node.dataset.elementId ?? node.firstChild.textContent)",
                Value::Null,
            )?;
            known.extend(ids);
            seen += says_nothing_in_ours(page, &known)?;
            page.run(
                "probe.all('[data-part=effort] [data-member] button')[1]?.focus()",
                Value::Null,
            )?;
            seen += says_nothing_in_ours(page, &known)?;
            page.click("[data-part=release-all]")?;
            seen += says_nothing_in_ours(page, &known)?;
        }
        ensure!(seen > 10_000, "{seen}");
        for link in LINKS {
            let link = link.replace('@', by_hand::STEM);
            page.goto(&format!("index.html{link}"))?;
            page.run(
                "for (const node of probe.all('details')) node.open = true",
                Value::Null,
            )?;
            says_nothing_in_ours(page, &known).with_context(|| link)?;
        }
        Ok(())
    })
}
