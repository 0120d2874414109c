//! Finding layouts: what the page shows is what the core finds, a card opens its layout on the stage, and what is asked
//! wrongly is refused.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::layouts::{LayoutAsk, LayoutReport, LayoutSearch, WantedRatio};
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::language;
use crate::search_panel::{LAYOUTS, write};

pub const SIX: &str = "#s=04-six-speed-three-sets";

/// What the fields ask for at first, with other ratios forward.
pub fn asked(forward: [f64; 3]) -> LayoutAsk {
    let wanted = |ratio: f64| WantedRatio {
        ratio: Some(ratio),
        tolerance: Some(0.03),
        ..WantedRatio::default()
    };
    LayoutAsk {
        forward: forward.map(wanted).to_vec(),
        backward: Some(wanted(-2.2)),
        pinion_teeth: [12, 100],
        ..LayoutAsk::default()
    }
}

/// What the core finds for that.
pub fn found(ask: &LayoutAsk) -> Result<Vec<LayoutReport>> {
    let mut search = LayoutSearch::new(ask).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    while !search.run(100) {}
    Ok(search.report(200).found)
}

/// What the core finds for what the fields ask for at first, with another first ratio.
pub fn by_the_core(first: f64) -> Result<Vec<LayoutReport>> {
    found(&asked([first, 1.55, 1.0]))
}

/// The texts of the cards, in their order.
pub fn cards(page: &Page) -> Result<Vec<String>> {
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
        LAYOUTS.open(page)?;
        write(page, "#layouts-ratio-1", "2.7")?;
        LAYOUTS.press(page, "begin")?;
        LAYOUTS.wait(page)?;
        let expected = by_the_core(2.7)?;
        ensure!(expected.len() > 3, "{}", expected.len());
        let status = LAYOUTS.text(page, "status")?;
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
pub fn cards_can_be_put_in_another_order() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        LAYOUTS.press(page, "begin")?;
        LAYOUTS.wait(page)?;
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
        LAYOUTS.open(page)?;
        write(page, "#layouts-ratio-2", "3")?;
        LAYOUTS.press(page, "begin")?;
        page.until(
            "it is refused",
            "probe.one('[data-part=layouts-problems]').textContent !== ''",
        )?;
        let told = LAYOUTS.text(page, "problems")?;
        ensure!(told.contains("von der größten zur kleinsten"), "{told:?}");
        Ok(())
    })
}

/// Catches a least efficiency that holds in other ranges than those that are chosen.
#[test]
fn a_least_efficiency_can_be_asked_of_some_ranges() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        page.run("probe.one('.layouts-ratios').closest('.find-ask').querySelector('.find-more').open = true", Value::Null)?;
        write(page, "#layouts-efficiency", "96")?;
        for range in ["1", "2", "3"] {
            page.click(&format!("label[for=layouts-efficient-{range}]"))?;
        }
        LAYOUTS.press(page, "begin")?;
        LAYOUTS.wait(page)?;
        let wanted = |ratio: f64, efficiency: Option<f64>| WantedRatio {
            ratio: Some(ratio),
            tolerance: Some(0.03),
            efficiency,
        };
        let count = |of_all: Option<f64>, of_reverse: Option<f64>| -> Result<usize> {
            let mut ask = LayoutAsk {
                forward: [2.8, 1.55, 1.0].map(|ratio| wanted(ratio, None)).to_vec(),
                backward: Some(wanted(-2.2, of_reverse)),
                pinion_teeth: [12, 100],
                ..LayoutAsk::default()
            };
            ask.limits.efficiency = of_all;
            let mut search =
                LayoutSearch::new(&ask).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
            while !search.run(100) {}
            Ok(search.found().len())
        };
        let (expected, free) = (count(None, Some(0.96))?, count(None, None)?);
        ensure!(expected < free, "{expected} of {free}: it excludes nothing");
        let status = LAYOUTS.text(page, "status")?;
        let told = status
            .split(|c: char| !c.is_ascii_digit())
            .find(|part| !part.is_empty());
        ensure!(
            told == Some(&expected.to_string()),
            "{status:?}, not {expected}"
        );
        Ok(())
    })
}

/// Catches a search of hours that goes on without a word, and one that nobody can run elsewhere.
#[test]
fn what_takes_too_long_says_so_and_how_it_is_run_elsewhere() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        for at in [3, 4] {
            page.run(
                "const field = probe.one(`#layouts-set-${args}`); field.value = 'planetary'; field.dispatchEvent(new Event('input', { bubbles: true }))",
                at.into(),
            )?;
        }
        write(page, "#layouts-elements", "6")?;
        LAYOUTS.press(page, "begin")?;
        // The task that is saved is what the command line reads.
        let text = LAYOUTS.task_of_long_search(page)?;
        let ask =
            LayoutAsk::parse_task(&text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        ensure!(ask.sets.len() == 4 && ask.elements == 6, "{ask:?}");
        LAYOUTS.press(page, "rest")?;
        page.until(
            "it tells how fast it goes and how long it will take",
            "/ [^ ]+ ways of joining a second; very roughly .+ left/.test(probe.one('[data-part=layouts-covered]').textContent)",
        )?;
        LAYOUTS.press(page, "stop")?;
        Ok(())
    })
}

/// Catches a search that gives something up and does not say so.
#[test]
fn that_something_may_be_missed_is_said() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        // A Ravigneaux set with six elements has far more ways to give six free ranges than are gone through.
        write(page, "#layouts-elements", "6")?;
        write(page, "#layouts-ranges", "6")?;
        page.run(
            "probe.one('#layouts-set-1').value = 'ravigneaux'; \
             probe.one('#layouts-set-2').value = ''; \
             for (const field of probe.all('.layouts-ratios input[id^=layouts-ratio]')) field.value = ''; \
             probe.one('#layouts-backward').value = ''; \
             for (const at of ['#layouts-swaps', '#layouts-has-backward']) probe.one(at).click()",
            Value::Null,
        )?;
        LAYOUTS.press(page, "begin")?;
        page.until(
            "it is said",
            "probe.one('[data-part=layouts-missed]').textContent.includes('something may be missed')",
        )?;
        LAYOUTS.press(page, "stop")?;
        Ok(())
    })
}

/// Catches percentages that are refused as parts, and what contradicts itself and is looked for all the same.
#[test]
fn contradictions_are_refused_in_the_words_of_the_fields() -> Result<()> {
    let problems = |page: &Page| -> Result<String> {
        page.until(
            "it is refused",
            "probe.one('[data-part=layouts-problems]').textContent !== ''",
        )?;
        LAYOUTS.text(page, "problems")
    };
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        page.run("probe.one('.layouts-ratios').closest('.find-ask').querySelector('.find-more').open = true", Value::Null)?;
        write(page, "#layouts-tolerance", "80")?;
        LAYOUTS.press(page, "begin")?;
        ensure!(
            problems(page)?.contains("0 to 50, in %"),
            "{}",
            problems(page)?
        );
        write(page, "#layouts-tolerance", "3")?;
        write(page, "#layouts-efficiency", "120")?;
        LAYOUTS.press(page, "begin")?;
        ensure!(
            problems(page)?.contains("0 to 100, in %"),
            "{}",
            problems(page)?
        );
        write(page, "#layouts-efficiency", "90")?;
        write(page, "#layouts-elements", "3")?;
        LAYOUTS.press(page, "begin")?;
        ensure!(
            problems(page)?.contains("make 3 combinations"),
            "{}",
            problems(page)?
        );
        write(page, "#layouts-elements", "4")?;
        write(page, "#layouts-spread", "9")?;
        LAYOUTS.press(page, "begin")?;
        ensure!(
            problems(page)?.contains("a spread of 9"),
            "{}",
            problems(page)?
        );
        Ok(())
    })
}
