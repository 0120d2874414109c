//! Every language reads as in the reference implementation of Fluent, and says what the first one says.

use std::collections::BTreeSet;

use anyhow::{Context, Result, anyhow, ensure};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};
use levertrain_core::words::{Catalogue, LANGUAGES};
use unic_langid::LanguageIdentifier;

use crate::messages::{FIRST, messages, text, variables};

fn bundle(language: &str) -> Result<FluentBundle<FluentResource>> {
    let resource = FluentResource::try_new(text(language)?);
    let resource = resource.map_err(|(_, errors)| anyhow!("{language}: {errors:?}"))?;
    let mut bundle = FluentBundle::new(vec![language.parse::<LanguageIdentifier>()?]);
    bundle.set_use_isolating(false);
    let added = bundle.add_resource(resource);
    added.map_err(|errors| anyhow!("{errors:?}"))?;
    Ok(bundle)
}

#[test]
fn messages_read_as_in_fluent() -> Result<()> {
    for language in LANGUAGES {
        reads_as_in_fluent(language)?;
    }
    Ok(())
}

fn reads_as_in_fluent(language: &str) -> Result<()> {
    let bundle = bundle(language)?;
    let own = Catalogue::of_language(language).context("it is not built in")?;
    let mut compared = 0;
    for (key, message) in messages(language)? {
        let variables = variables(&message);
        let selectors: Vec<&str> = variables
            .iter()
            .copied()
            .filter(|name| message.contains(&format!("${name} ->")) && *name != "count")
            .collect();
        // What each is chosen by, and a word that is none of them.
        let words: Vec<Vec<&str>> = selectors
            .iter()
            .map(|name| chosen_by(&message, name).into_iter().chain(["x"]).collect())
            .collect();
        let choices: usize = words.iter().map(Vec::len).product();
        for (count, choice) in [0, 1, 2, 17]
            .into_iter()
            .flat_map(|count| (0..choices).map(move |choice| (count, choice)))
        {
            let value = |name: &str| {
                let place = selectors.iter().position(|known| *known == name);
                place.map_or(format!("<{name}>"), |place| {
                    let before: usize = words[..place].iter().map(Vec::len).product();
                    words[place][choice / before % words[place].len()].to_owned()
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
            let written = own.write(&key, count, &values);
            ensure!(written == expected, "{key}: {written:?}, not {expected:?}");
            compared += 1;
        }
    }
    ensure!(compared > 300, "{compared}");
    Ok(())
}

/// Variables that only some languages need, with the messages that are given them.
const OF_SOME: &[(&str, &[&str])] = &[
    ("noun", &["label", "name", "kind", "case"]),
    ("in-set", &["set", "label", "what", "begun"]),
    ("member", &["role", "case"]),
    ("reaction-fixed", &["role"]),
    ("keeps-locked", &["count"]),
    (
        "cli-slip-of",
        &["first", "second", "first-label", "second-label"],
    ),
    (
        "cli-from-on",
        &["first", "second", "first-label", "second-label"],
    ),
    ("page-slips-of", &["first", "first-label"]),
    (
        "page-slips-past",
        &["first", "second", "first-label", "second-label"],
    ),
];

/// What the selections by one variable choose by.
fn chosen_by<'a>(message: &'a str, name: &str) -> BTreeSet<&'a str> {
    let start = format!("${name} ->");
    let mut words = BTreeSet::new();
    for (at, _) in message.match_indices(&start) {
        let rest = &message[at + start.len()..];
        let mut depth = 0;
        for (at, letter) in rest.char_indices() {
            match letter {
                '{' => depth += 1,
                '}' if depth == 0 => break,
                '}' => depth -= 1,
                '[' if depth == 0 => words.extend(rest[at + 1..].split(']').next()),
                _ => {}
            }
        }
    }
    words
}

/// What the selections of a message choose by.
fn choices(message: &str) -> BTreeSet<&str> {
    let lines = message
        .lines()
        .map(|line| line.trim().trim_start_matches('*'));
    let variants = lines.filter_map(|line| line.strip_prefix('['));
    variants
        .filter_map(|line| Some(line.split_once(']')?.0))
        .collect()
}

/// Catches a message that a language lacks, has too much, or says without one of its variables.
#[test]
fn every_language_says_the_same() -> Result<()> {
    let first = messages(FIRST)?;
    let parts = |message: &str| -> BTreeSet<String> {
        variables(message).into_iter().map(str::to_owned).collect()
    };
    let keys = |messages: &[(String, String)]| -> BTreeSet<String> {
        messages.iter().map(|(key, _)| key.clone()).collect()
    };
    for language in LANGUAGES {
        let own = messages(language)?;
        ensure!(
            keys(&own).len() == own.len(),
            "{language} has a message twice"
        );
        let (all, own_keys) = (keys(&first), keys(&own));
        let missing: Vec<_> = all.difference(&own_keys).collect();
        let left_over: Vec<_> = own_keys.difference(&all).collect();
        ensure!(missing.is_empty(), "{language} lacks {missing:?}");
        ensure!(left_over.is_empty(), "only {language} has {left_over:?}");
        for (key, message) in &own {
            let there = first.iter().find(|(other, _)| other == key);
            let (_, there) = there.context("checked above")?;
            let of_some = OF_SOME.iter().find(|(name, _)| name == key);
            let of_some = of_some.map_or(&[][..], |(_, names)| names);
            let differ: Vec<String> = parts(there)
                .symmetric_difference(&parts(message))
                .filter(|name| !of_some.contains(&name.as_str()))
                // What is counted need not be seen in a sentence.
                .filter(|name| *name != "count" || !there.contains("$count ->"))
                .cloned()
                .collect();
            ensure!(
                differ.is_empty(),
                "{language}: {key} has other variables: {differ:?}"
            );
            // Those that an engine asks by; plural categories are a language's own.
            if of_some.is_empty() && !there.contains("$count ->") {
                ensure!(
                    choices(there) == choices(message),
                    "{language}: {key} chooses by other words"
                );
            }
        }
    }
    for (key, _) in OF_SOME {
        ensure!(first.iter().any(|(known, _)| known == key), "no {key}");
    }
    Ok(())
}
