//! Finding teeth: what the page lists is what the core finds, a row shows its train, and it can be kept or taken back.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::search::{Ask, Criterion, FindReport, Search, Wanted};
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::{by_core, language};

const SIX: &str = "04-six-speed-three-sets";
const EIGHT: &str = "05-eight-speed-four-sets";

/// Unfolds the panel and waits for its fields.
fn open(page: &Page) -> Result<()> {
    page.unfold("find")?;
    page.until(
        "the fields are there",
        "probe.all('.find-ratios input').length > 0",
    )?;
    page.rest()
}

/// Types into a field, in place of what it holds.
fn write(page: &Page, field: &str, text: &str) -> Result<()> {
    page.click(field)?;
    page.chord(Key::Control, 'a')?;
    page.keys(text.chars())
}

/// Waits until all is looked through.
fn wait(page: &Page) -> Result<()> {
    page.until(
        "all is looked through",
        "probe.one('[data-part=find-rest]').hidden && probe.one('[data-part=find-covered]').textContent !== ''",
    )?;
    page.rest()
}

/// The finds that are listed, by their sets and teeth.
fn listed(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('[data-part=finds] tbody tr').map(({ dataset }) => dataset.find)",
        Value::Null,
    )
}

fn key(find: &FindReport) -> String {
    let sets = find.sets.iter().map(|set| {
        let teeth: Vec<String> = set.teeth.iter().map(ToString::to_string).collect();
        let pinions = set
            .pinions
            .map(|count| count.get().to_string())
            .unwrap_or_default();
        format!("{} {} {pinions}", set.set, teeth.join("/"))
    });
    sets.collect::<Vec<_>>().join(", ")
}

/// What the core finds for the ratios of the fields.
fn by_the_core(train: &Train, page: &Page, tolerance: f64) -> Result<Vec<FindReport>> {
    let fields: Vec<(String, f64)> = page.get(
        "probe.all('.find-ratios input').map(({ id, value }) => [id.replace('find-ratio-', ''), Number(value)])",
        Value::Null,
    )?;
    let wanted = fields.into_iter().map(|(range, ratio)| Wanted {
        range,
        ratio: Some(ratio),
        tolerance: Some(tolerance),
    });
    let ask = Ask {
        wanted: wanted.collect(),
        pinion_teeth: [12, 100],
        best: vec![Criterion::Error, Criterion::Size, Criterion::Steps],
        ..Ask::default()
    };
    let mut search =
        Search::new(train, &ask).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    while !search.run(1000) {}
    Ok(search.report().finds)
}

/// Catches workers that miss what one search finds, a row that shows another train than it says, and a trial that
/// cannot be taken back, or not be kept.
#[test]
fn other_ratios_are_found_shown_taken_back_and_kept() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}&on=W,J"), |page| {
        let before = page.seen()?;
        open(page)?;
        write(page, "#find-ratio-1", "2.8")?;
        write(page, "#find-tolerance", "4")?;
        page.click("label[for=find-best-steps]")?;
        page.click("[data-part=find-begin]")?;
        wait(page)?;
        let expected = by_the_core(&train, page, 0.04)?;
        let keys: Vec<String> = expected.iter().map(key).collect();
        ensure!(keys.len() > 3, "{keys:?}");
        let found = listed(page)?;
        ensure!(found == keys, "{found:?}, not {keys:?}");

        let row = |at: usize| format!("[data-part=finds] tr[data-find=\"{}\"] button", keys[at]);
        let range = before.range.clone().context("a range is applied")?;
        let place = train
            .scenario()
            .ranges
            .iter()
            .position(|known| known.id == range);
        let place = place.context("it is of the train")?;
        for at in [1, 2] {
            page.click(&row(at))?;
            page.rest()?;
            let shown = page.seen()?.exact;
            let ratio = &expected[at].ratios[place].fraction;
            ensure!(shown.as_ref() == Some(ratio), "{shown:?}, not {ratio}");
            let marked: Vec<String> = page.get(
                "probe.all('[data-part=finds] [aria-current]').map(({ dataset }) => dataset.find)",
                Value::Null,
            )?;
            ensure!(marked == [keys[at].clone()], "{marked:?} is marked");
        }
        page.click("[data-part=find-back]")?;
        page.rest()?;
        ensure!(page.seen()?.exact == before.exact, "it is taken back");

        // By keys alone: the row's button, then the one that keeps it.
        page.run(&format!("probe.one({:?}).focus()", row(3)), Value::Null)?;
        page.keys([Key::Enter])?;
        page.rest()?;
        let kept = page.seen()?.exact;
        ensure!(
            kept.as_ref() == Some(&expected[3].ratios[place].fraction),
            "{kept:?}"
        );
        page.click("[data-part=find-keep]")?;
        page.rest()?;
        ensure!(page.seen()?.exact == kept, "it stays");
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.all('[data-part=edit] [data-key]').length > 0",
        )?;
        page.click("[data-part=edit] [data-key=undo]")?;
        page.rest()?;
        ensure!(page.seen()?.exact == before.exact, "it is one step back");
        Ok(())
    })
}

/// Catches a refusal that says nothing, a rest that goes on, and an end that hides that it was one.
#[test]
fn what_cannot_be_is_refused_and_a_search_rests_and_ends() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        open(page)?;
        write(page, "#find-ratio-1", "90")?;
        page.click("[data-part=find-begin]")?;
        page.until(
            "it is refused",
            "probe.all('[data-part=find-problems] li').length > 0",
        )?;
        let problem: String = page.get(
            "probe.one('[data-part=find-problems]').textContent",
            Value::Null,
        )?;
        ensure!(problem.contains("cannot have the ratio 90"), "{problem}");

        write(page, "#find-ratio-1", "3.77")?;
        write(page, "#find-tolerance", "30")?;
        for criterion in ["steps", "efficiency", "pinion-speed"] {
            page.click(&format!("label[for=find-best-{criterion}]"))?;
        }
        page.click("[data-part=find-begin]")?;
        page.until(
            "something is looked through",
            "probe.one('[data-part=find-covered]').textContent !== '' && !probe.one('[data-part=find-rest]').hidden",
        )?;
        page.click("[data-part=find-rest]")?;
        page.rest()?;
        // What was said before it rested may still come; a search that goes on tells news many times a second.
        page.until(
            "it rests",
            "(() => { \
                const words = probe.one('[data-part=find-covered]').textContent; \
                const known = (window.coveredBefore ??= { words, since: performance.now() }); \
                if (known.words !== words) window.coveredBefore = undefined; \
                return known.words === words && performance.now() - known.since > 1000; \
            })()",
        )?;
        let rests: bool = page.get(
            "!probe.one('[data-part=find-rest]').hidden && probe.one('[data-part=find-status]').textContent.startsWith('Paused')",
            Value::Null,
        )?;
        ensure!(rests, "it came to its end");
        page.click("[data-part=find-rest]")?;
        page.click("[data-part=find-stop]")?;
        let status: String = page.get(
            "probe.one('[data-part=find-status]').textContent",
            Value::Null,
        )?;
        ensure!(status.starts_with("Stopped"), "{status}");
        Ok(())
    })
}

/// Catches a panel that widens a phone, and one that is not German there.
#[test]
fn a_phone_and_german_have_room() -> Result<()> {
    page::open(View::PHONE, &format!("#s={SIX}"), |page| {
        language::speak_german(page)?;
        open(page)?;
        page.run("probe.one('.find-more').open = true", Value::Null)?;
        page.click("[data-part=find-begin]")?;
        wait(page)?;
        let title: String =
            page.get("probe.one('[data-part=find] h2').textContent", Value::Null)?;
        ensure!(title == "Zähnezahlen suchen", "{title}");
        ensure!(!listed(page)?.is_empty());
        let wide: bool = page.get(
            "document.documentElement.scrollWidth > innerWidth",
            Value::Null,
        )?;
        ensure!(!wide, "the page scrolls sideways");
        Ok(())
    })
}
