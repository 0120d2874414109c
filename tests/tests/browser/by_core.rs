//! What the core crate says of a scenario: it reads the same file as the page.

use anyhow::{Context, Result, anyhow, ensure};
use levertrain_core::words::{Words, number};
use levertrain_core::{Combination, Fraction, Train};
use levertrain_tests::browser::Seen;
use levertrain_tests::files;

/// The train of a scenario file.
pub fn train(stem: &str) -> Result<Train> {
    let files = files::scenarios()?;
    let file = files
        .iter()
        .find(|file| file.stem == stem)
        .with_context(|| format!("there is no scenario {stem}"))?;
    parse(&file.text)
}

/// The train of the text of a scenario file.
pub fn parse(text: &str) -> Result<Train> {
    Train::parse(text).map_err(|faults| {
        let faults: Vec<String> = faults.iter().map(ToString::to_string).collect();
        anyhow!("{}", faults.join("\n"))
    })
}

/// Ids of the applied elements, in alphabetical order; one-way clutches have no switch.
pub fn applied(combination: &Combination<'_>) -> Vec<String> {
    let train = combination.train();
    let elements = &train.scenario().elements;
    let ids = combination
        .applied()
        .minus(train.one_ways())
        .iter()
        .map(|index| elements[index].id());
    let mut ids: Vec<String> = ids.map(str::to_owned).collect();
    ids.sort();
    ids
}

/// A ratio as the page writes it.
fn written(ratio: &Fraction) -> String {
    format!("{} : 1", number(ratio.to_f64(), 4))
}

/// Checks everything the answer says of a combination.
pub fn check_answer(seen: &Seen, combination: &Combination<'_>) -> Result<()> {
    let words = Words::of(combination);
    let ratio = combination.state().ratio();
    let actual = (
        &seen.applied,
        seen.ratio.as_deref(),
        seen.exact.as_deref(),
        seen.state.as_deref(),
        &seen.sentences,
    );
    let ids = applied(combination);
    let figure = ratio.map(written);
    let exact = ratio.map(|ratio| ratio.to_string().replace('-', "\u{2212}"));
    let expected = (
        &ids,
        figure.as_deref(),
        exact.as_deref(),
        Some(words.state),
        &words.sentences,
    );
    ensure!(
        actual == expected,
        "the page says\n{actual:?}, the core\n{expected:?}"
    );
    Ok(())
}
