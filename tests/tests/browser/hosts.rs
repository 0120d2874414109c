//! The element in pages that were written without a thought of it.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{View, own_site, page, skipped};
use serde::Deserialize;
use serde_json::Value;

use crate::by_hand;

/// A page around the element.
type Host = (&'static str, &'static str, &'static str, f64);

const PLAIN: Host = ("plain", "", "@", 1100.0);

/// What the page around it does, as a style sheet and as markup in which `@` is the element, and
/// how wide the drawings must be at least.
const PAGES: [Host; 14] = [
    (
        "flex",
        ".p { display: flex }",
        "<div class=p>@</div>",
        1100.0,
    ),
    (
        "beside",
        ".p { display: flex } .p p { flex: 0 0 300px }",
        "<div class=p><p>Words</p>@</div>",
        850.0,
    ),
    (
        "centred",
        ".p { display: flex; flex-direction: column; align-items: center }",
        "<div class=p>@</div>",
        850.0,
    ),
    (
        "grid",
        ".p { display: grid; justify-items: start }",
        "<div class=p>@</div>",
        850.0,
    ),
    ("float", ".p { float: left }", "<div class=p>@</div>", 850.0),
    (
        "inline-block",
        ".p { display: inline-block }",
        "<div class=p>@</div>",
        850.0,
    ),
    (
        "absolute",
        ".p { position: absolute; left: 20px }",
        "<div class=p>@</div>",
        850.0,
    ),
    ("table", "", "<table><tr><td>@</td></tr></table>", 850.0),
    ("unset", "lever-train { all: unset }", "@", 1100.0),
    (
        "unset in flex",
        ".p { display: flex } lever-train { all: unset }",
        "<div class=p>@</div>",
        850.0,
    ),
    ("small-root", "html { font-size: 62.5% }", "@", 1100.0),
    ("right-to-left", "html { direction: rtl }", "@", 1100.0),
    (
        "loud",
        "body { text-transform: uppercase; letter-spacing: 0.5em; word-spacing: 2em; \
         font: italic 900 40px/3 serif; text-indent: 5em; text-shadow: 2px 2px red; \
         white-space: pre; text-align: right; hyphens: auto; color: red; \
         writing-mode: vertical-rl; quotes: none; text-wrap: nowrap; cursor: none }",
        "@",
        850.0,
    ),
    (
        "dark",
        "body { background: black; color: white }",
        "@",
        1100.0,
    ),
];

/// How the element looks, as far as it must be the same in all pages.
#[derive(Debug, PartialEq, Deserialize)]
#[serde(rename_all = "camelCase")]
struct Look {
    ratio_size: String,
    ratio_reads_rightwards: bool,
    words: String,
    button_height: f64,
    ground: String,
}

const LOOK: &str = "(() => { \
    const figure = probe.one('[data-part=ratio]'); \
    const walker = document.createTreeWalker(figure, NodeFilter.SHOW_TEXT); \
    const texts = []; \
    while (walker.nextNode()) texts.push(walker.currentNode); \
    const place = (node) => { \
        const range = document.createRange(); \
        range.selectNodeContents(node); \
        return range.getBoundingClientRect().left; \
    }; \
    const words = probe.one('[data-part=sentences] p'); \
    const style = getComputedStyle(words); \
    return { \
        ratioSize: getComputedStyle(figure).fontSize, \
        ratioReadsRightwards: place(texts[0]) < place(texts.at(-1)), \
        words: ['font', 'color', 'direction', 'writingMode', 'letterSpacing', 'wordSpacing', \
            'textAlign', 'textTransform', 'textIndent', 'textShadow', 'whiteSpace', 'hyphens', \
            'cursor'].map((name) => `${name}: ${style[name]}`).join('; '), \
        buttonHeight: probe.one('.range-buttons button').getBoundingClientRect().height, \
        ground: getComputedStyle(probe.one('.ground')).backgroundColor, \
    }; \
})()";

fn file(name: &str) -> String {
    format!("host-{}.html", name.replace(' ', "-"))
}

fn text(style: &str, markup: &str) -> String {
    let element = format!(
        "<lever-train with=\"all\" scenario=\"{}\" applied=\"V,J\"></lever-train>",
        by_hand::STEM
    );
    format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Host</title>\
         <link rel=\"icon\" href=\"data:,\"><link rel=\"stylesheet\" href=\"STYLE\">\
         <script type=\"module\" src=\"element.js\"></script>{}",
        markup.replace('@', &element)
    )
    .replace("STYLE", style)
}

/// A site with some pages around the element.
fn site(name: &str, pages: &[Host]) -> Result<PathBuf> {
    let files: Vec<(String, String)> = pages
        .iter()
        .flat_map(|(name, style, markup, _)| {
            let sheet = format!("{}.css", file(name));
            let page = text(&sheet, markup);
            [(file(name), page), (sheet, (*style).to_owned())]
        })
        .collect();
    let files: Vec<(&str, &str)> = files
        .iter()
        .map(|(name, text)| (name.as_str(), text.as_str()))
        .collect();
    own_site::make(Path::new(env!("CARGO_TARGET_TMPDIR")).join(name), &files)
}

/// Catches an element that is 0 px wide where its place asks it for a width, one that takes over the
/// letters, colours or directions of the page around it, and sizes that hang on those of the page.
#[test]
fn it_looks_the_same_in_every_page() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let pages: Vec<_> = std::iter::once(PLAIN).chain(PAGES).collect();
    let site = site("hosts", &pages)?;
    page::open_in(&site, View::LAPTOP, &file("plain"), |page| {
        let usual: Look = page.get(LOOK, Value::Null)?;
        ensure!(usual.ratio_size == "64px", "{usual:?}");
        ensure!(usual.ratio_reads_rightwards, "{usual:?}");
        for (name, _, _, least) in &pages {
            page.goto(&file(name)).context(*name)?;
            let width: f64 = page.get("probe.one('.stage').clientWidth", Value::Null)?;
            // The drawings stand in one column of two.
            let room: f64 = page.get("probe.one('.body').clientWidth", Value::Null)?;
            ensure!(room >= *least, "{name}: {room} px wide");
            ensure!(width >= 500.0, "{name}: drawings {width} px wide");
            let look: Look = page.get(LOOK, Value::Null)?;
            ensure!(look == usual, "{name}: {look:?}\ninstead of\n{usual:?}");
        }
        Ok(())
    })
}

/// What of the text in the editor must be the same in all pages.
const TEXT: &str = "(() => { \
    const line = probe.one('.cm-line'); \
    const style = getComputedStyle(line); \
    const left = (selector) => probe.one(selector).getBoundingClientRect().left; \
    return ['font', 'direction', 'writingMode', 'letterSpacing', 'wordSpacing', 'textAlign', \
        'textTransform', 'textIndent', 'textShadow', 'whiteSpace', 'cursor'] \
        .map((name) => `${name}: ${style[name]}`) \
        .concat([`numbers first: ${left('.cm-gutters') < left('.cm-content')}`, \
            `high: ${line.getBoundingClientRect().height}`]) \
        .join('; '); \
})()";

/// Catches an editor that takes over letters or directions of the page around it, and one whose styles do
/// not reach it.
#[test]
fn the_editor_looks_the_same_in_every_page() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let named = ["unset", "small-root", "right-to-left", "loud", "dark"];
    let pages = PAGES.into_iter().filter(|(name, ..)| named.contains(name));
    let pages: Vec<_> = std::iter::once(PLAIN).chain(pages).collect();
    let site = site("host-editors", &pages)?;
    page::open_in(&site, View::LAPTOP, &file("plain"), |page| {
        let mut usual = None;
        for (name, ..) in &pages {
            page.goto(&file(name)).context(*name)?;
            page.unfold("file")?;
            page.until("the editor has come", "probe.one('.cm-content')")?;
            let text: String = page.get(TEXT, Value::Null)?;
            ensure!(text.contains("direction: ltr"), "{name}: {text}");
            ensure!(text.contains("numbers first: true"), "{name}: {text}");
            let usual = usual.get_or_insert_with(|| text.clone());
            ensure!(text == *usual, "{name}: {text}\ninstead of\n{usual}");
        }
        ensure!(pages.len() == 1 + named.len());
        Ok(())
    })
}

/// Catches an element that shows itself where the page hides it.
#[test]
fn a_page_can_hide_it() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("hiding");
    let site = own_site::make(
        folder,
        &[
            ("hiding.html", &text("hiding.css", "@")),
            ("hiding.css", ""),
        ],
    )?;
    page::open_in(&site, View::LAPTOP, "hiding.html", |page| {
        let seen = "probe.one('[data-part=ratio]') \
            .checkVisibility({ visibilityProperty: true, opacityProperty: true })";
        ensure!(page.get::<bool>(seen, Value::Null)?, "it does not show");
        for change in [
            "node.hidden = true",
            "node.style.display = 'none'",
            "node.style.visibility = 'hidden'",
        ] {
            page.run(
                &format!("const node = probe.host('lever-train'); {change}"),
                Value::Null,
            )?;
            ensure!(
                !page.get::<bool>(seen, Value::Null)?,
                "shows after {change}"
            );
            page.run(
                "const node = probe.host('lever-train'); node.hidden = false; node.removeAttribute('style')",
                Value::Null,
            )?;
        }
        Ok(())
    })
}
