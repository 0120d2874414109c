//! German: sentences, articles and numbers as they are to be.

use std::collections::BTreeSet;

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::report::warnings;
use levertrain_core::words::{Case, Catalogue, Words, noun_as, number};
use levertrain_core::{Duty, ElementSet, Train};
use levertrain_tests::files::{json_files, scenario_folder, scenarios};
use levertrain_tests::in_words::{each_text, in_words, scenarios_in};

fn speak_german() -> Result<()> {
    Catalogue::of_language("de").context("no German")?.speak();
    Ok(())
}

#[test]
fn labels_take_the_article_of_their_kind_and_case() -> Result<()> {
    speak_german()?;
    for (label, [subject, object, dative]) in [
        ("Steg", ["der Steg", "den Steg", "dem Steg"]),
        ("Hohlrad", ["das Hohlrad", "das Hohlrad", "dem Hohlrad"]),
        ("Gehäuse", ["das Gehäuse", "das Gehäuse", "dem Gehäuse"]),
        ("Welle", ["die Welle", "die Welle", "der Welle"]),
        ("Steg 1 + Hohlrad 2", ["Steg 1 + Hohlrad 2"; 3]),
        ("Bremse V", ["Bremse V"; 3]),
    ] {
        let cases = [Case::Subject, Case::Object, Case::Dative];
        let said = cases.map(|case| noun_as(label, case));
        ensure!(said == [subject, object, dative], "{said:?}");
    }
    Ok(())
}

#[test]
fn numbers_have_a_comma_and_a_true_minus() -> Result<()> {
    for (value, digits, said) in [
        (2.7059, 4, "2,706"),
        (-0.35, 4, "\u{2212}0,350"),
        (12345.6, 6, "12\u{2009}345,6"),
        (9.9996, 4, "10,00"),
        (3.0, 1, "3"),
    ] {
        speak_german()?;
        ensure!(number(value, digits) == said, "{}", number(value, digits));
        Catalogue::of_language("en").context("no English")?.speak();
        let english = said.replace(',', ".");
        ensure!(number(value, digits) == english, "{english}");
    }
    Ok(())
}

#[test]
fn distances_of_tooth_rules_have_a_comma() -> Result<()> {
    speak_german()?;
    let file = scenarios()?.swap_remove(0);
    let mut data: serde_json::Value = serde_json::from_str(&file.text)?;
    data["couplings"][0]["pinion"]["count"] = 9.into();
    let train = Train::parse(&data.to_string()).map_err(|problems| anyhow!("{problems:?}"))?;
    let said: Vec<String> = warnings(&train)
        .into_iter()
        .map(|warning| warning.text)
        .collect();
    let touching = said.iter().find(|text| text.contains("Abstand"));
    let touching = touching.with_context(|| format!("{said:?}"))?;
    ensure!(
        touching.contains(',') && !touching.contains('.'),
        "{touching}"
    );
    Ok(())
}

#[test]
fn every_text_of_a_scenario_has_a_german_one_and_none_is_left_over() -> Result<()> {
    let words = in_words("de")?;
    let mut used = BTreeSet::new();
    for file in scenarios()? {
        let mut data = serde_json::from_str(&file.text)?;
        let mut lacking = Vec::new();
        each_text(&mut data, &mut |text| {
            let own = format!("{}/{text}", file.stem);
            match [own, text.clone()]
                .into_iter()
                .find(|key| words.contains_key(key))
            {
                Some(key) => drop(used.insert(key)),
                None => lacking.push(text.clone()),
            }
        });
        ensure!(lacking.is_empty(), "{}: {lacking:?}", file.stem);
    }
    for file in json_files(&scenario_folder().join("exercises"))? {
        if file.stem == "schema" {
            continue;
        }
        let sheet: serde_json::Value = serde_json::from_str(&file.text)?;
        let title = sheet["title"].as_str().context("it has a title")?;
        ensure!(words.contains_key(title), "{title}");
        used.insert(title.to_owned());
    }
    let left_over: Vec<&String> = words.keys().filter(|key| !used.contains(*key)).collect();
    ensure!(left_over.is_empty(), "{left_over:?}");
    Ok(())
}

/// Every scenario opens in German, with the labels that it says things of told apart.
#[test]
fn scenarios_open_in_german() -> Result<()> {
    speak_german()?;
    for file in scenarios_in("de")? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        let scenario = train.scenario();
        let shafts: Vec<&str> = scenario.shafts.iter().map(|shaft| &*shaft.label).collect();
        let apart: BTreeSet<&&str> = shafts.iter().collect();
        ensure!(apart.len() == shafts.len(), "{}: {shafts:?}", file.stem);
    }
    Ok(())
}

/// What `applied` makes of the scenario whose file begins with `file`, in one text.
fn told(file: &str, applied: &[&str]) -> Result<String> {
    let all = scenarios_in("de")?;
    let found = all.iter().find(|scenario| scenario.stem.starts_with(file));
    let text = &found.context("no such scenario")?.text;
    let train = Train::parse(text).map_err(|problems| anyhow!("{problems:?}"))?;
    let set = train.element_set(applied.iter().copied());
    let set = set.map_err(|problem| anyhow!("{problem:?}"))?;
    let settled = train.settle(set, Duty::Drive);
    let words = Words::of(&settled.combination);
    Ok(format!(
        "{}: {}. {}",
        words.state,
        words.answer,
        words.sentences.join(" ")
    ))
}

#[test]
fn sentences_are_german() -> Result<()> {
    speak_german()?;
    for (file, applied, expected) in [
        (
            "01",
            &["W", "H", "N"][..],
            "Kraftschluss: vorwärts, Abtrieb langsamer als Antrieb. Bremse W hält das Hohlrad fest; \
             Kupplung H verbindet den Antrieb mit dem Sonnenrad; Kupplung N verbindet den Steg mit dem \
             Abtrieb. Bremse W stützt das Hohlrad gegen das Reaktionsmoment ab; dadurch treibt das \
             Sonnenrad den Steg gleichsinnig an, mit Übersetzung ins Langsame.",
        ),
        (
            "11",
            &["H", "L"],
            "Kraftschluss: vorwärts, Abtrieb langsamer als Antrieb. Kupplung H verbindet den Antrieb mit \
             dem Hohlrad; Kupplung L verbindet den Steg mit dem Laufrad. Das feste Sonnenrad nimmt das \
             Reaktionsmoment auf; dadurch treibt das Hohlrad den Steg gleichsinnig an, mit Übersetzung \
             ins Langsame.",
        ),
        (
            "02",
            &["V"],
            "Neutral: der Abtrieb ist frei. Bremse V hält Steg 2 fest. Neutral, denn der Antrieb ist mit \
             nichts verbunden, weil Kupplung H und Kupplung J offen sind. Kupplung H oder Kupplung J würde \
             den Kraftschluss herstellen. Hohlrad 1 und die Sonnenradwelle sind frei: Nichts bestimmt ihre \
             Drehzahlen.",
        ),
    ] {
        let text = told(file, applied)?;
        ensure!(text == expected, "{file} {applied:?}: {text}");
    }
    Ok(())
}

/// What is told of all ranges, of nothing applied, and of everything.
#[test]
fn no_sentence_is_left_in_english() -> Result<()> {
    speak_german()?;
    for file in scenarios_in("de")? {
        let train = Train::parse(&file.text).map_err(|problems| anyhow!("{problems:?}"))?;
        let count = train.scenario().elements.len();
        let all: ElementSet = (0..count).collect();
        let ranges = (0..train.scenario().ranges.len()).map(|range| train.range(range));
        let pairs = (0..count).map(|last| [0, last].into_iter().collect());
        for set in ranges
            .chain([ElementSet::NONE, all.minus(train.one_ways())])
            .chain(pairs)
        {
            let settled = train.settle(set, Duty::Drive);
            for sentence in Words::of(&settled.combination).sentences {
                let words = sentence.split(|c: char| !c.is_alphabetic());
                let english = words
                    .into_iter()
                    .find(|word| ["the", "and", "is", "of", "turns"].contains(word));
                ensure!(english.is_none(), "{sentence}");
                ensure!(sentence.starts_with(char::is_uppercase), "{sentence}");
            }
        }
    }
    Ok(())
}
