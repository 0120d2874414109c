//! Finding layouts: what the page shows is what the core finds, a card opens its layout on the stage, and what is asked
//! wrongly is refused.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::layouts::{LayoutAsk, LayoutReport, LayoutSearch, WantedRatio};
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::language;

const SIX: &str = "#s=04-six-speed-three-sets";

fn open(page: &Page) -> Result<()> {
    page.unfold("layouts")?;
    page.until(
        "the fields are there",
        "probe.all('.layouts-ratios input').length > 0",
    )?;
    page.rest()
}

fn write(page: &Page, field: &str, text: &str) -> Result<()> {
    page.click(field)?;
    page.chord(Key::Control, 'a')?;
    page.keys(text.chars())
}

/// Waits until all is looked through.
fn wait(page: &Page) -> Result<()> {
    page.until(
        "all is looked through",
        "probe.one('[data-part=layouts-rest]').hidden && probe.one('[data-part=layouts-covered]').textContent !== ''",
    )?;
    page.rest()
}

/// What the core finds for what the fields ask for at first, with another first ratio.
fn by_the_core(first: f64) -> Result<Vec<LayoutReport>> {
    let wanted = |ratio: f64| WantedRatio {
        ratio: Some(ratio),
        tolerance: Some(0.03),
    };
    let ask = LayoutAsk {
        forward: [first, 1.55, 1.0].map(wanted).to_vec(),
        backward: Some(wanted(-2.2)),
        pinion_teeth: [12, 100],
        ..LayoutAsk::default()
    };
    let mut search = LayoutSearch::new(&ask).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    while !search.run(100) {}
    Ok(search.report(200).found)
}

/// The texts of the cards, in their order.
fn cards(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('.layouts-card').map((card) => card.querySelector('table').innerText + card.querySelector('.note').innerText)",
        Value::Null,
    )
}

/// Catches workers that miss what one search finds, cards in another order, half-sections that are not drawn, and a card
/// that opens another layout than it shows.
#[test]
fn layouts_are_found_drawn_and_opened() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        open(page)?;
        write(page, "#layouts-ratio-1", "2.7")?;
        page.click("[data-part=layouts-begin]")?;
        wait(page)?;
        let expected = by_the_core(2.7)?;
        ensure!(expected.len() > 3, "{}", expected.len());
        let status: String = page.get(
            "probe.one('[data-part=layouts-status]').textContent",
            Value::Null,
        )?;
        let count = expected.len().to_string();
        ensure!(status.contains(&count), "{status:?}, not {count}");
        page.until(
            "half-sections are drawn",
            "probe.all('.layouts-section').length > 3 && probe.all('.layouts-section').every((canvas) => canvas.width > 100 && canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data.some((value) => value > 0))",
        )?;

        // A press on the second, by keys alone.
        let texts = cards(page)?;
        let second = &expected[1];
        let train =
            Train::parse(&second.scenario).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        for range in &train.scenario().ranges {
            let applied = range.applied.join(" ");
            ensure!(
                texts[1].contains(&applied),
                "{applied} is not in {:?}",
                texts[1]
            );
        }
        page.run("probe.all('.layouts-open')[1].focus()", Value::Null)?;
        page.keys([Key::Enter])?;
        page.rest()?;
        let shown = page.seen()?.exact;
        let first = second.ratios.first().context("it has ranges")?;
        ensure!(
            shown.as_ref() == Some(&first.fraction),
            "{shown:?}, not {first:?}"
        );
        Ok(())
    })
}

/// Catches an order that does not change the cards.
#[test]
fn cards_can_be_put_in_another_order() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        open(page)?;
        page.click("[data-part=layouts-begin]")?;
        wait(page)?;
        let before = cards(page)?;
        page.run(
            "const order = probe.one('#layouts-order'); order.value = 'efficiency'; order.dispatchEvent(new Event('change'))",
            Value::Null,
        )?;
        page.rest()?;
        let after = cards(page)?;
        ensure!(before.len() == after.len() && before != after, "{after:?}");
        let efficient = by_the_core(2.8)?;
        let best = efficient
            .iter()
            .map(|layout| layout.efficiency)
            .fold(0.0, f64::max);
        let told = format!("{:.1}", 100.0 * best);
        ensure!(after[0].contains(&told), "{told} is not in {:?}", after[0]);
        Ok(())
    })
}

/// Catches a refusal that is not said, or not in the language of the page.
#[test]
fn what_cannot_be_is_refused_in_the_language_of_the_page() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        language::speak_german(page)?;
        open(page)?;
        write(page, "#layouts-ratio-2", "3")?;
        page.click("[data-part=layouts-begin]")?;
        page.until(
            "it is refused",
            "probe.one('[data-part=layouts-problems]').textContent !== ''",
        )?;
        let told: String = page.get(
            "probe.one('[data-part=layouts-problems]').textContent",
            Value::Null,
        )?;
        ensure!(told.contains("von der größten zur kleinsten"), "{told:?}");
        Ok(())
    })
}
