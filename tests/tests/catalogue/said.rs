//! Whatever is said is a message, and every message is said.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Result, ensure};
use levertrain_tests::files::{root, scripts};
use levertrain_tests::literals::{Literal, rust_literals};
use levertrain_tests::script_literals::script_literals;

use crate::messages::{FIRST, between, messages, text, variables};
use crate::no_words::NO_WORDS;

/// Whose literals are messages, or their variables, or listed here.
const SOURCES: &[&str] = &["core/src", "core/examples", "web/src", "web/examples"];
/// Files of signs that nobody reads as words, and what they hold.
const LEFT_OUT: &[(&str, &str)] = &[
    ("core/src/edit/kinds.rs", "names of edits"),
    ("core/src/edit/text.rs", "signs of JSON"),
    (
        "core/src/teach/working/expression.rs",
        "formulas, in MathML",
    ),
    ("web/src/boundary/declarations.rs", "TypeScript"),
    ("web/src/draw/export.rs", "attributes of SVG"),
    ("web/src/draw/paint.rs", "names of fonts"),
];
/// The literals of all sources, each with its file, but for those of files that hold only signs.
fn literals() -> Result<Vec<(String, Literal)>> {
    let mut literals = Vec::new();
    for folder in SOURCES {
        for file in sources(&root().join(folder))? {
            if LEFT_OUT.iter().any(|(name, _)| file.ends_with(name)) {
                continue;
            }
            let own = rust_literals(&fs::read_to_string(&file)?).into_iter();
            literals.extend(own.map(|literal| (file.display().to_string(), literal)));
        }
    }
    Ok(literals)
}

#[test]
fn every_message_is_used() -> Result<()> {
    let literals = literals()?.into_iter();
    let mut used: BTreeSet<String> = literals.map(|(_, literal)| literal.text).collect();
    for file in scripts(&root().join("www"))? {
        let own = script_literals(&fs::read_to_string(file)?).into_iter();
        used.extend(own.map(|literal| literal.text));
    }
    for (key, _) in messages(FIRST)? {
        ensure!(used.contains(&key), "{key} is never used");
    }
    Ok(())
}

#[test]
fn whatever_is_said_is_a_message() -> Result<()> {
    let messages = messages(FIRST)?;
    // A language that needs more to choose by is given more.
    let text = text(FIRST)? + &text("de")?;
    let mut known: BTreeSet<&str> = messages.iter().map(|(key, _)| key.as_str()).collect();
    // What selections choose by.
    known.extend(between(&text, "[", "]"));
    let variables = variables(&text);
    let listed = || NO_WORDS.iter().flat_map(|(_, words)| words.iter().copied());
    let is_listed = |word: &str| listed().any(|listed| listed == word);
    let mut met = BTreeSet::new();
    for (file, literal) in literals()? {
        let Literal { text, leads } = literal;
        let fixed = without_braces(&text);
        let fixed = fixed.trim();
        let parts: Vec<&str> = match fixed.contains(' ') || is_listed(fixed) {
            true => vec![fixed],
            false => fixed.split(['.', '[', ']']).collect(),
        };
        let is_variable = |part: &str| leads && variables.contains(part);
        for part in parts {
            met.insert(part.to_owned());
            let is_said = part.contains(char::is_alphabetic);
            ensure!(
                !is_said || known.contains(part) || is_listed(part) || is_variable(part),
                "{file}: {text:?} is no message"
            );
        }
    }
    for word in listed() {
        ensure!(met.contains(word), "{word:?} stands nowhere any more");
    }
    Ok(())
}

/// A literal without what is put in for its braces.
fn without_braces(literal: &str) -> String {
    let mut depth = 0_usize;
    let mut kept = String::new();
    for letter in literal.chars() {
        match letter {
            '{' => depth += 1,
            '}' => depth = depth.saturating_sub(1),
            other if depth == 0 => kept.push(other),
            _ => {}
        }
    }
    kept
}

/// What turns against the input turns backward; Reverse is the name of a range, which files give.
#[test]
fn there_is_one_word_for_the_other_way() -> Result<()> {
    let mut said: Vec<(String, String)> = messages(FIRST)?;
    for folder in ["web/src", "core/src"] {
        for file in sources(&root().join(folder))? {
            let literals = rust_literals(&fs::read_to_string(&file)?).into_iter();
            said.extend(literals.map(|literal| (file.display().to_string(), literal.text)));
        }
    }
    for file in scripts(&root().join("www"))? {
        let text = fs::read_to_string(&file)?;
        // Comments, and what a list is turned round with, are not shown.
        let code = text
            .lines()
            .filter(|line| !line.trim_start().starts_with(['*', '/']));
        let code = code
            .collect::<Vec<_>>()
            .join("\n")
            .replace(".reverse()", "");
        said.push((file.display().to_string(), code));
    }
    ensure!(said.len() > 300, "{}", said.len());
    for (place, text) in said {
        let words = text.split(|c: char| !c.is_alphabetic());
        for word in words.map(str::to_lowercase) {
            ensure!(
                !["reverse", "reversed", "backwards"].contains(&word.as_str()),
                "{place}: {word}"
            );
        }
    }
    Ok(())
}

/// The Rust files of a folder, tests left out.
fn sources(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        let name = path.file_stem().and_then(|name| name.to_str());
        if name.is_some_and(|name| name.ends_with("tests")) {
            // Tests may say what they like.
        } else if path.is_dir() {
            files.extend(sources(&path)?);
        } else if path.extension().is_some_and(|own| own == "rs") {
            files.push(path);
        }
    }
    Ok(files)
}
