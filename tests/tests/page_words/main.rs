//! What a person reads on the page are messages of the catalogue: no literal of its scripts is a word,
//! and every message that they ask for is there.

mod no_words;

use std::collections::BTreeSet;
use std::fs;

use anyhow::{Result, ensure};
use levertrain_tests::files::{root, scripts};
use levertrain_tests::script_literals::{ScriptLiteral, script_literals};
use no_words::NO_WORDS;

/// Files left out, and why.
const LEFT_OUT: &[(&str, &str)] = &[
    (
        "www/kit/before.js",
        "what is said before there is a catalogue, or why there is none",
    ),
    (
        "www/embedding.js",
        "the page that it belongs to is in English",
    ),
    (
        "www/frame.js",
        "what it says is for whoever writes the page around it, as what a console says",
    ),
    (
        "www/course/scorm.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/scorm12.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/scorm2004.js",
        "the standard's own names of fields and values",
    ),
    (
        "www/course/statement.js",
        "the standard's own names of fields and values",
    ),
    ("www/learn/manifest.js", "markup that programs read"),
    (
        "www/service_worker.js",
        "it runs without a page; what it throws, the browser's console shows",
    ),
];
/// Attributes whose values are no words, besides `data-…`.
const ATTRIBUTES: &[&str] = &[
    "accept",
    "aria-busy",
    "aria-checked",
    "aria-controls",
    "aria-current",
    "aria-describedby",
    "aria-expanded",
    "aria-hidden",
    "aria-labelledby",
    "aria-pressed",
    "autocapitalize",
    "autocomplete",
    "class",
    "column",
    "display",
    "focusable",
    "for",
    "id",
    "part",
    "rel",
    "role",
    "scope",
    "shows",
    "spellcheck",
    "step",
    "target",
    "type",
    "wrap",
];
/// Attributes, and functions, whose values are read or heard.
const READ_ATTRIBUTES: &[&str] = &[
    "alt",
    "aria-label",
    "aria-valuetext",
    "placeholder",
    "title",
];
const READ_ARGUMENTS: &[&str] = &["append", "hint", "report", "replaceChildren", "unseen"];
/// Functions whose first argument names something.
const NAMING: &[&str] = &[
    "CustomEvent",
    "Event",
    "Failure",
    "addEventListener",
    "canvas",
    "column",
    "createElement",
    "createElementNS",
    "define",
    "draw",
    "drawing",
    "element",
    "emit",
    "figure",
    "get",
    "getAttribute",
    "h",
    "hasAttribute",
    "icon",
    "import",
    "includes",
    "input",
    "listIn",
    "mark",
    "matchMedia",
    "matches",
    "numberIn",
    "paint",
    "querySelector",
    "querySelectorAll",
    "removeAttribute",
    "removeEventListener",
    "removeProperty",
    "setAttribute",
    "setProperty",
    "siteFile",
    "slider",
    "startsWith",
    "svg",
    "toggleAttribute",
    "unit",
    "written",
];
/// Lists of names: of events, of attributes, of what the element can show.
const LISTS: &[&str] = &[
    "const event of [",
    "const event of events ? [",
    "const name of [",
    "observedAttributes = [",
    "BANDS = [",
    "CAUSES = [",
    "FURNISHING = [",
    "HEEDED = [",
    "LOCKS = [",
    "READ_ONCE = [",
    "THEMES = [",
    "VIEWS = [",
];
/// Letters, units and names of standards, the same in every language.
const SIGNS: &[&str] = &[
    "Hz",
    "N/mm²",
    "SCORM 1.2",
    "SCORM 2004 4th Edition",
    "xAPI",
    "T = c·Δn",
    "i",
    "η",
];
fn catalogue() -> Result<String> {
    Ok(fs::read_to_string(root().join("core/words/en.ftl"))?)
}

fn keys(catalogue: &str) -> BTreeSet<&str> {
    let lines = catalogue
        .lines()
        .filter(|line| line.starts_with(|first: char| first.is_ascii_lowercase()));
    lines
        .filter_map(|line| Some(line.split_once(" = ")?.0))
        .collect()
}

/// What selections choose by.
fn choices(catalogue: &str) -> BTreeSet<&str> {
    let parts = catalogue.split('[').skip(1);
    parts
        .filter_map(|part| Some(part.split_once(']')?.0))
        .collect()
}

fn literals() -> Result<Vec<(String, ScriptLiteral)>> {
    let mut found = Vec::new();
    for file in scripts(&root().join("www"))? {
        if LEFT_OUT.iter().any(|(name, _)| file.ends_with(name)) {
            continue;
        }
        let own = script_literals(&fs::read_to_string(&file)?).into_iter();
        found.extend(own.map(|literal| (file.display().to_string(), literal)));
    }
    ensure!(found.len() > 1000, "{}", found.len());
    Ok(found)
}

/// The attribute or the property that a literal is the value of, or a part of it.
fn attribute(literal: &ScriptLiteral) -> Option<&str> {
    if literal.within.ends_with("setAttribute(") && literal.place == 1 {
        return Some(&literal.first);
    }
    let (name, _) = literal.before.split_once(':')?;
    let named = literal.within.ends_with('{');
    named.then(|| name.trim().trim_matches('"'))
}

/// The function that a literal is given to.
fn function(literal: &ScriptLiteral) -> Option<&str> {
    let name = literal.within.strip_suffix('(')?;
    name.rsplit(|letter: char| !letter.is_alphanumeric()).next()
}

/// Whether it is the message that is asked for.
fn says(literal: &ScriptLiteral) -> bool {
    matches!(function(literal), Some("say" | "sayParts")) && literal.place == 0
}

/// Whether it stands where a person reads or hears it.
fn is_read(literal: &ScriptLiteral) -> bool {
    let is_child = function(literal) == Some("h") && literal.place > 1;
    is_child
        || attribute(literal).is_some_and(|name| READ_ATTRIBUTES.contains(&name))
        || function(literal).is_some_and(|name| READ_ARGUMENTS.contains(&name))
        || literal.before.ends_with("textContent =")
        || literal.before.contains("textContent = ")
}

/// Whether it stands where only names of things stand, or is compared with one.
fn is_name(literal: &ScriptLiteral) -> bool {
    let ScriptLiteral {
        text,
        within,
        around,
        place,
        before,
        after,
        ..
    } = literal;
    let is_key = after.trim_start().starts_with(':') && before.is_empty();
    let is_compared = ["===", "!==", "case", "from", "import"]
        .iter()
        .any(|sign| before.ends_with(sign))
        || after.trim_start().starts_with("in ");
    let is_value = attribute(literal)
        .is_some_and(|name| name.starts_with("data-") || ATTRIBUTES.contains(&name));
    let is_named = *place == 0 && function(literal).is_some_and(|name| NAMING.contains(&name));
    // A line of an icon: single letters and numbers.
    let is_path = text.starts_with('M')
        && text
            .split(|c: char| !c.is_alphabetic())
            .all(|letters| letters.len() < 3);
    is_key
        || is_path
        || is_compared
        || is_value
        || is_named
        || text.starts_with(['<', '#'])
        || text.starts_with("--")
        || function(literal) == Some("emit")
        || LISTS.iter().any(|list| within.ends_with(list))
        || within.trim() == "[" && around.ends_with("follow(")
}

#[test]
fn no_literal_of_the_page_is_a_word() -> Result<()> {
    let catalogue = catalogue()?;
    let (keys, choices) = (keys(&catalogue), choices(&catalogue));
    let listed = || NO_WORDS.iter().flat_map(|(_, words)| words.iter().copied());
    let (mut met, mut wrong) = (BTreeSet::new(), BTreeSet::new());
    for (file, literal) in literals()? {
        let text = literal.text.trim();
        // Some keys are words.
        let is_key = keys.contains(text) && (text.contains('-') || says(&literal));
        let is_message = is_key || !text.contains(char::is_alphabetic);
        if SIGNS.contains(&text) {
            met.insert(text.to_owned());
            continue;
        }
        if !is_read(&literal) {
            if listed().any(|word| word == text) {
                met.insert(text.to_owned());
                continue;
            }
            if choices.contains(text) || is_name(&literal) {
                continue;
            }
        }
        if !is_message {
            wrong.insert(format!("{file}: {text:?}"));
        }
    }
    let wrong: Vec<String> = wrong.into_iter().collect();
    ensure!(wrong.is_empty(), "no messages:\n{}", wrong.join("\n"));
    for word in listed().chain(SIGNS.iter().copied()) {
        ensure!(met.contains(word), "{word:?} stands nowhere any more");
    }
    Ok(())
}

/// Catches a key that is misspelt.
#[test]
fn every_message_that_the_page_asks_for_is_there() -> Result<()> {
    let catalogue = catalogue()?;
    let keys = keys(&catalogue);
    let mut asked = 0;
    for (file, literal) in literals()? {
        if literal.text.starts_with("page-") || says(&literal) {
            ensure!(
                keys.contains(&*literal.text),
                "{file}: no message {:?}",
                literal.text
            );
            asked += 1;
        }
    }
    ensure!(asked > 200, "{asked}");
    Ok(())
}
