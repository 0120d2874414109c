//! The catalogue of sentences: it is valid Fluent and says what the reference implementation of Fluent
//! says, every message is used, and no sentence stands anywhere else.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, anyhow, ensure};
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource};
use levertrain_core::words::{Catalogue, LANGUAGES};
use levertrain_tests::files::{root, scripts};
use levertrain_tests::literals::{Literal, rust_literals};
use levertrain_tests::script_literals::script_literals;
use unic_langid::LanguageIdentifier;

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
/// Literals that are no messages, by what they are. What stands in paths of a file is listed in its
/// parts.
const NO_WORDS: &[(&str, &[&str])] = &[
    (
        "fields of a scenario file, as problems name them",
        &[
            "about",
            "against",
            "applied",
            "between",
            "clamp_force",
            "coefficient",
            "constant",
            "converter",
            "couplings",
            "elements",
            "engine",
            "format",
            "friction",
            "full",
            "gap",
            "id",
            "inner_radius",
            "input",
            "kind",
            "label",
            "linear",
            "load",
            "motoring",
            "name",
            "outer_radius",
            "output",
            "quadratic",
            "ranges",
            "shaft",
            "shafts",
            "surfaces",
            "table",
            "weight",
            "housing_label",
        ],
    ),
    ("a sign of JSON", &["\\u"]),
    ("units of the road", &["km/h", "mph", "kN", "lbf"]),
    (
        "fields of a vehicle, and what a report says of it",
        &[
            "vehicle",
            "wheel_radius",
            "final_drive",
            "wheel-radius",
            "final-drive",
            "engine-inertia",
            "shaft-inertia",
            "load-inertia",
            "nothing",
            "slipping",
        ],
    ),
    (
        "fields of what a shift in time needs to know, and of its commands",
        &[
            "dynamics",
            "element",
            "engine_inertia",
            "fill_time",
            "full_torque",
            "inertia",
            "load_inertia",
            "at",
            "begin",
            "commands",
            "cut",
            "depth",
            "end",
            "input_speed",
            "input_torque",
            "output_torque",
            "ramp",
            "until",
        ],
    ),
    (
        "fields of more than one source, or output",
        &[
            "battery", "further", "motor", "outputs", "power", "source", "sources", "speed",
        ],
    ),
    (
        "what a port does, and why there is no region or share, as data",
        &[
            "feeds",
            "fed",
            "still",
            "idle",
            "free",
            "held",
            "too-fast",
            "empty",
            "unlimited",
            "freedom",
            "torques",
        ],
    ),
    (
        "phases of a shift, as data",
        &["after", "before", "fill", "inertia", "torque"],
    ),
    (
        "what stands in an ask for teeth",
        &[
            "ask",
            "train",
            "best",
            "coaxial",
            "efficiency",
            "equal-spacing",
            "error",
            "fewest-teeth",
            "keep",
            "limits",
            "neighbours-clear",
            "open_speed",
            "pinion_speed",
            "pinion_teeth",
            "pinion-speed",
            "pinions",
            "finds",
            "ratios",
            "sets",
            "unevenness",
            "range",
            "ratio",
            "rules",
            "same_ring",
            "same_distance",
            "size",
            "spread",
            "steps",
            "teeth",
            "tolerance",
            "value",
            "wanted",
        ],
    ),
    (
        "what stands in the place of a search",
        &[
            "format", "task", "left", "outside", "beaten", "tried", "boxes",
        ],
    ),
    (
        "what stands in an ask for layouts",
        &[
            "backward",
            "brakes",
            "clutches",
            "direct",
            "forward",
            "gear-pair",
            "layouts",
            "planetary",
            "single_swaps",
            "step",
        ],
    ),
    (
        "what stands in a sheet of exercises, and what the page is told of it",
        &[
            "seed",
            "failed",
            "ratio",
            "tie-up",
            "direction",
            "members",
            "reach",
            "second-way",
            "first-way",
            "counts",
            "order",
            "number",
            "many",
            "stage",
            "scenario",
            "tasks",
            "title",
            "among",
            "part",
            "set",
            "walk",
        ],
    ),
    ("what a canvas is asked for", &["2d"]),
    (
        "words of a scenario file",
        &[
            "backward",
            "brake",
            "clutch",
            "double-pinion",
            "external",
            "false",
            "forward",
            "gear-pair",
            "housing",
            "internal",
            "null",
            "one-way",
            "planetary",
            "ravigneaux",
            "stepped",
            "stepped-suns",
            "true",
        ],
    ),
    (
        "settings, and words in them",
        &[
            "contrast",
            "dark",
            "dark-contrast",
            "light",
            "rate",
            "scale",
            "settings",
        ],
    ),
    (
        "names of drawings",
        &["end:", "flow", "lever", "operating", "section"],
    ),
    (
        "what reports answer in a word, which the page asks for",
        &[
            "ambiguous",
            "beside",
            "both",
            "broken-spline",
            "contradictory",
            "does-not-hold",
            "drives",
            "engine-braking",
            "fights",
            "indeterminate",
            "lost",
            "no-drive",
            "no-engine-braking",
            "no-ratio",
            "only-these-teeth",
            "right",
            "self-locking",
            "settled",
            "single",
            "slips",
            "stays-locked",
            "steady",
            "ties-up",
            "too-long",
            "too-many",
            "undecided",
            "will-not-apply",
            "will-not-release",
        ],
    ),
    (
        "letters of gears and pinions, with sums of their teeth",
        &[
            "C", "H", "P", "Q", "R", "R − S", "R − Sa", "S", "S + R", "Sa", "Sb", "Sb + R", "Za",
            "Zb",
        ],
    ),
    (
        "units",
        &["1000 rad/s", "N·m", "lbf·ft", "rad/s", "rev/min"],
    ),
    (
        "options and names of the command lines",
        &[
            "--all",
            "--apply",
            "--dark",
            "--grade",
            "--help",
            "--json",
            "--language",
            "--lockup",
            "--merged",
            "--mesh",
            "--one-module",
            "--pedal",
            "--power",
            "--torque",
            "--width",
            "-h",
            "chart:",
            "--merge",
            "--out",
            "--shard",
            "--threads",
            "--save-every",
            "--estimate",
            ".state",
            ".new",
            "search:",
            "layouts:",
            "draw:",
        ],
    ),
    ("what messages count by", &["count"]),
    ("what messages begin with", &["operating-"]),
    (
        "ids of what edits add, and parts of them",
        &["c", "g", "in", "out", "p", "r", "s"],
    ),
    ("languages", &["de", "en"]),
    (
        "files",
        &[
            "../../words/de.ftl",
            "../../words/en.ftl",
            "sets.json",
            "types.d.ts",
        ],
    ),
];

/// The code of the language that the others are translated from.
const FIRST: &str = LANGUAGES[0];

fn text(language: &str) -> Result<String> {
    let file = root().join(format!("core/words/{language}.ftl"));
    Ok(fs::read_to_string(file)?)
}

fn bundle(language: &str) -> Result<FluentBundle<FluentResource>> {
    let resource = FluentResource::try_new(text(language)?);
    let resource = resource.map_err(|(_, errors)| anyhow!("{language}: {errors:?}"))?;
    let mut bundle = FluentBundle::new(vec![language.parse::<LanguageIdentifier>()?]);
    bundle.set_use_isolating(false);
    let added = bundle.add_resource(resource);
    added.map_err(|errors| anyhow!("{errors:?}"))?;
    Ok(bundle)
}

/// The messages with their lines.
fn messages(language: &str) -> Result<Vec<(String, String)>> {
    let mut messages: Vec<(String, String)> = Vec::new();
    for line in text(language)?.lines() {
        match line.split_once(" = ") {
            Some((key, value)) if !line.starts_with([' ', '#', '}']) => {
                messages.push((key.to_owned(), value.to_owned()));
            }
            _ if line.starts_with('#') => {}
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

/// The names of variables in a text.
fn variables(text: &str) -> BTreeSet<&str> {
    let after = text.split('$').skip(1);
    after
        .filter_map(|part| part.split([' ', '}']).next())
        .collect()
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
