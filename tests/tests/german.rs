//! German: sentences, articles and numbers as they are to be.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::Train;
use levertrain_core::report::warnings;
use levertrain_core::words::{Case, Catalogue, noun_as, number};
use levertrain_tests::files::scenarios;

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
