//! The catalogue of sentences: it is valid Fluent and says what the reference implementation of Fluent
//! says, every message is used, and no sentence stands anywhere else.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, ensure};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};
use levertrain_core::words::Catalogue;
use levertrain_tests::files::root;
use unic_langid::LanguageIdentifier;

/// Whose string literals are no sentences.
const WITHOUT_SENTENCES: &[&str] = &[
    "core/src/words",
    "core/src/base",
    "core/src/json",
    "core/src/model",
    "core/src/train",
    "core/src/load/operating",
    "core/examples",
    "core/src/report",
    "web/src/boundary/drawings.rs",
    "web/src/boundary/plain.rs",
    "web/src/document",
    "web/src/draw/flow",
    "web/src/draw/lever",
    "web/src/draw/section/power.rs",
];
/// More words than a key has.
const MOST_WORDS: usize = 2;

fn text() -> Result<String> {
    Ok(fs::read_to_string(root().join("core/words/en.ftl"))?)
}

fn bundle() -> Result<FluentBundle<FluentResource>> {
    let resource = FluentResource::try_new(text()?);
    let resource = resource.map_err(|(_, errors)| anyhow!("not valid: {errors:?}"))?;
    let mut bundle = FluentBundle::new(vec!["en".parse::<LanguageIdentifier>()?]);
    bundle.set_use_isolating(false);
    let added = bundle.add_resource(resource);
    added.map_err(|errors| anyhow!("{errors:?}"))?;
    Ok(bundle)
}

/// The messages with their lines.
fn messages() -> Result<Vec<(String, String)>> {
    let mut messages: Vec<(String, String)> = Vec::new();
    for line in text()?.lines() {
        match line.split_once(" = ") {
            Some((key, value)) if !line.starts_with([' ', '#', '}']) => {
                messages.push((key.to_owned(), value.to_owned()));
            }
            _ => {
                if let Some((_, message)) = messages.last_mut() {
                    message.push('\n');
                    message.push_str(line);
                }
            }
        }
    }
    Ok(messages)
}

/// What stands between two signs, each time.
fn between<'a>(text: &'a str, start: &str, end: &str) -> BTreeSet<&'a str> {
    let parts = text.split(start).skip(1);
    parts
        .filter_map(|part| Some(part.split_once(end)?.0))
        .collect()
}

#[test]
fn messages_read_as_in_fluent() -> Result<()> {
    let bundle = bundle()?;
    let mut compared = 0;
    for (key, message) in messages()? {
        let variables: BTreeSet<&str> = message
            .split('$')
            .skip(1)
            .filter_map(|part| part.split([' ', '}']).next())
            .collect();
        let selectors: Vec<&str> = variables
            .iter()
            .copied()
            .filter(|name| message.contains(&format!("${name} ->")) && *name != "count")
            .collect();
        let words: Vec<&str> = between(&message, "[", "]")
            .into_iter()
            .chain(["x"])
            .collect();
        let choices = words.len().pow(selectors.len() as u32);
        for (count, choice) in [0, 1, 2, 17]
            .into_iter()
            .flat_map(|count| (0..choices).map(move |choice| (count, choice)))
        {
            let value = |name: &str| {
                let place = selectors.iter().position(|known| *known == name);
                place.map_or(format!("<{name}>"), |place| {
                    let chosen = choice / words.len().pow(place as u32) % words.len();
                    words[chosen].to_owned()
                })
            };
            let values: Vec<(&str, String)> = variables
                .iter()
                .filter(|name| **name != "count")
                .map(|name| (*name, value(name)))
                .collect();
            let mut args = FluentArgs::new();
            args.set("count", count);
            for (name, value) in &values {
                args.set(*name, value.clone());
            }
            let pattern = bundle.get_message(&key).and_then(|message| message.value());
            let pattern = pattern.with_context(|| format!("{key} is no message"))?;
            let mut errors = Vec::new();
            let expected = bundle.format_pattern(pattern, Some(&args), &mut errors);
            ensure!(errors.is_empty(), "{key}: {errors:?}");
            let values: Vec<(&str, &str)> = values.iter().map(|(k, v)| (*k, v.as_str())).collect();
            let written = Catalogue::spoken().write(&key, count, &values);
            ensure!(written == expected, "{key}: {written:?}, not {expected:?}");
            compared += 1;
        }
    }
    ensure!(compared > 300, "{compared}");
    Ok(())
}

#[test]
fn every_message_is_used_and_no_sentence_stands_elsewhere() -> Result<()> {
    let mut literals = Vec::new();
    for folder in WITHOUT_SENTENCES {
        for file in sources(&root().join(folder))? {
            let text = fs::read_to_string(&file)?;
            let name = file.display().to_string();
            literals.extend(
                literals_of(&text)
                    .into_iter()
                    .map(|text| (name.clone(), text)),
            );
        }
    }
    // Types written for TypeScript are no words.
    literals.retain(|(_, literal)| !literal.contains('|'));
    for (file, literal) in &literals {
        let words = literal
            .split(' ')
            .filter(|word| word.contains(char::is_alphabetic));
        ensure!(words.count() <= MOST_WORDS, "{file}: {literal:?}");
    }
    let used = |key: &str| literals.iter().any(|(_, literal)| literal == key);
    for (key, _) in messages()? {
        ensure!(used(&key), "{key} is never used");
    }
    let known: BTreeSet<String> = messages()?.into_iter().map(|(key, _)| key).collect();
    for (file, literal) in &literals {
        let is_name = |letter: char| letter.is_ascii_lowercase() || letter == '-';
        let words = file.contains(WITHOUT_SENTENCES[0]);
        let is_key = words && literal.contains('-') && literal.chars().all(is_name);
        let is_variable =
            text()?.contains(&format!("${literal} ")) || text()?.contains(&format!("[{literal}]"));
        ensure!(
            !is_key || is_variable || known.contains(literal),
            "{file}: no message {literal:?}"
        );
    }
    Ok(())
}

/// What turns against the input turns backward; Reverse is the name of a range, which files give.
#[test]
fn there_is_one_word_for_the_other_way() -> Result<()> {
    let mut said: Vec<(String, String)> = messages()?;
    for folder in ["web/src", "core/src"] {
        for file in sources(&root().join(folder))? {
            let literals = literals_of(&fs::read_to_string(&file)?).into_iter();
            said.extend(literals.map(|text| (file.display().to_string(), text)));
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

/// The scripts of a folder.
fn scripts(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(scripts(&path)?);
        } else if path.extension().is_some_and(|own| own == "js") {
            files.push(path);
        }
    }
    Ok(files)
}

/// A Rust file, or those of a folder, tests left out.
fn sources(folder: &Path) -> Result<Vec<PathBuf>> {
    if folder.is_file() {
        return Ok(vec![folder.to_owned()]);
    }
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(sources(&path)?);
        } else if path.extension().is_some_and(|own| own == "rs")
            && path.file_stem().is_some_and(|name| name != "tests")
        {
            files.push(path);
        }
    }
    Ok(files)
}

/// The string literals of a source; those of comments and of tests at its end are none.
fn literals_of(text: &str) -> Vec<String> {
    let text = text.split("#[cfg(test)]").next().unwrap_or_default();
    let code = text
        .lines()
        .map(|line| line.split("//").next().unwrap_or_default());
    let code = code.collect::<Vec<_>>().join("\n");
    let code = code.replace("\\\"", "").replace("b'\"'", "");
    code.split('"')
        .skip(1)
        .step_by(2)
        .map(str::to_owned)
        .collect()
}
