//! Finding teeth: what the page lists is what the core finds, a row shows its train, and it can be kept or taken back.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::search::{Ask, Criterion, FindReport, Search, SearchTask, Wanted};
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::search_panel::{TEETH, write};
use crate::{by_core, editing, language};

pub const SIX: &str = "04-six-speed-three-sets";
const EIGHT: &str = "05-eight-speed-four-sets";

/// The finds that are listed, by their sets and teeth.
pub fn listed(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('[data-part=finds] tbody tr').map(({ dataset }) => dataset.find)",
        Value::Null,
    )
}

pub fn key(find: &FindReport) -> String {
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

/// What is wanted in the fields.
pub fn wanted(page: &Page, tolerance: f64) -> Result<Vec<Wanted>> {
    let fields: Vec<(String, f64)> = page.get(
        "probe.all('.find-ratios input').map(({ id, value }) => [id.replace('find-ratio-', ''), Number(value)])",
        Value::Null,
    )?;
    let wanted = fields.into_iter().map(|(range, ratio)| Wanted {
        range,
        ratio: Some(ratio),
        tolerance: Some(tolerance),
        ..Wanted::default()
    });
    Ok(wanted.collect())
}

/// What the core finds for the ratios of the fields.
pub fn by_the_core(train: &Train, page: &Page, tolerance: f64) -> Result<Vec<FindReport>> {
    found(train, wanted(page, tolerance)?)
}

pub fn found(train: &Train, wanted: Vec<Wanted>) -> Result<Vec<FindReport>> {
    let ask = Ask {
        wanted,
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
        TEETH.open(page)?;
        write(page, "#find-ratio-1", "2.8")?;
        write(page, "#find-tolerance", "4")?;
        page.click("label[for=find-best-steps]")?;
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
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
        TEETH.open(page)?;
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
        // So long that it never ends: it rests by itself, once, before somebody has it go on.
        write(page, "#find-tolerance", "9")?;
        write(page, "#find-teeth-1", "200")?;
        write(page, "#find-pinion-teeth-1", "150")?;
        page.click("[data-part=find-begin]")?;
        page.until(
            "it rests by itself",
            "probe.one('[data-part=find-ahead]').textContent.startsWith('Paused')",
        )?;
        page.run(
            "window.before = probe.one('[data-part=find-covered]').textContent",
            Value::Null,
        )?;
        page.click("[data-part=find-rest]")?;
        page.until(
            "it goes on",
            "probe.one('[data-part=find-covered]').textContent !== window.before",
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
        TEETH.open(page)?;
        page.run("probe.one('.find-more').open = true", Value::Null)?;
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
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

/// Catches a search of days that begins without a word, and one that nobody can run elsewhere.
#[test]
fn what_takes_too_long_says_so_and_how_it_is_run_elsewhere() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        TEETH.open(page)?;
        write(page, "#find-tolerance", "9")?;
        write(page, "#find-teeth-1", "200")?;
        write(page, "#find-pinion-teeth-1", "150")?;
        page.click("[data-part=find-begin]")?;
        // The task that is saved is what the command line reads.
        let text = TEETH.task_of_long_search(page)?;
        let task = SearchTask::parse(&text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        ensure!(task.ask.teeth == [18, 200], "{:?}", task.ask.teeth);
        page.click("[data-part=find-rest]")?;
        page.until(
            "it tells how fast it goes and how long it will take",
            "/ [^ ]+ candidates a second; about .+ left/.test(probe.one('[data-part=find-covered]').textContent)",
        )?;
        page.click("[data-part=find-stop]")?;
        Ok(())
    })
}

/// Catches a form that cannot be sent off where it is typed in, and keys that are left nowhere once it folds away.
#[test]
fn keys_alone_find_teeth_and_keep_them() -> Result<()> {
    const HERE: &str = "(() => { let here = document.activeElement; \
        while (here?.shadowRoot?.activeElement) here = here.shadowRoot.activeElement; \
        return here?.dataset.part ?? here?.className ?? ''; })()";
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        page.click("label[for=find-best-steps]")?;
        write(page, "#find-ratio-1", "2.8")?;
        page.keys([Key::Enter])?;
        TEETH.wait(page)?;
        let here: String = page.get(HERE, Value::Null)?;
        ensure!(here == "find-begin", "{here:?}");
        let expected = by_the_core(&train, page, 0.02)?;
        for _ in 0..12 {
            page.keys([Key::Tab])?;
            let here: String = page.get(HERE, Value::Null)?;
            if here.contains("find-pick") {
                break;
            }
        }
        page.keys([Key::Enter])?;
        page.rest()?;
        let first = expected[0].ratios.first().context("it has ranges")?;
        let shown = page.seen()?.exact;
        ensure!(shown.as_ref() == Some(&first.fraction), "{shown:?}");
        Ok(())
    })
}

/// Catches a tolerance that is refused in other words than those of its field, a refusal that stays when something else is
/// asked, and a search that ends with nothing and offers nothing.
#[test]
fn a_refusal_goes_with_the_next_word_and_a_wider_search_is_offered() -> Result<()> {
    let problems = |page: &Page| -> Result<String> {
        page.get(
            "probe.one('[data-part=find-problems]').textContent",
            Value::Null,
        )
    };
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        write(page, "#find-tolerance", "-5")?;
        page.click("[data-part=find-begin]")?;
        page.rest()?;
        ensure!(
            problems(page)?.contains("0 to 50, in %"),
            "{}",
            problems(page)?
        );
        write(page, "#find-tolerance", "0.01")?;
        ensure!(problems(page)?.is_empty(), "{}", problems(page)?);
        write(page, "#find-ratio-1", "2.9")?;
        page.keys([Key::Enter])?;
        TEETH.wait(page)?;
        ensure!(listed(page)?.is_empty(), "{:?}", listed(page)?);
        ensure!(page.shows("[data-part=find-wider]")?, "nothing is offered");
        // Whoever typed at the top of a long form need not look for it.
        let is_seen: bool = page.get(
            "(({ top, bottom }) => top >= 0 && bottom <= innerHeight + 1)(probe.one('[data-part=find-wider]').getBoundingClientRect())",
            Value::Null,
        )?;
        ensure!(is_seen, "it is out of view");
        page.click("[data-part=find-wider]")?;
        TEETH.wait(page)?;
        let now: String = page.get("probe.one('#find-tolerance').value", Value::Null)?;
        ensure!(now == "0.02", "{now}");
        // Or all the way, and no further than there is something.
        page.click("[data-part=find-nearest]")?;
        page.until(
            "something is found",
            "probe.one('[data-part=find-rest]').hidden && probe.all('[data-part=finds] tbody tr').length > 0",
        )?;
        let percent: String = page.get("probe.one('#find-tolerance').value", Value::Null)?;
        let percent: f64 = percent.parse()?;
        let within = |part: f64| Ok::<_, anyhow::Error>(by_the_core(&train, page, part)?.len());
        let (here, before) = (within(percent / 100.0)?, within(percent / 200.0)?);
        ensure!(
            here > 0 && before == 0,
            "{percent} %: {here}, {before} before"
        );
        Ok(())
    })
}

/// Catches wanted ratios that are lost when a tooth count is changed, and columns that nobody asked for.
#[test]
fn what_is_wanted_outlives_an_edit_and_only_what_counts_is_listed() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        write(page, "#find-ratio-1", "2.72")?;
        editing::open_form(page)?;
        let before: String = page.get(
            "probe.one('.find-ratios .figure:not(th)').textContent",
            Value::Null,
        )?;
        editing::set(page, "teeth p2 0", "53")?;
        page.rest()?;
        let after: String = page.get(
            "probe.one('.find-ratios .figure:not(th)').textContent",
            Value::Null,
        )?;
        ensure!(before != after, "the train stays: {before}");
        let wanted: String = page.get("probe.one('#find-ratio-1').value", Value::Null)?;
        ensure!(wanted == "2.72", "{wanted}");
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
        let columns: usize = page.get(
            "probe.all('[data-part=finds] thead th').filter((cell) => cell.checkVisibility()).length",
            Value::Null,
        )?;
        // Teeth, and what counts at first: error and size.
        ensure!(columns == 3, "{columns} columns");
        page.click("[data-part=find-all]")?;
        page.rest()?;
        let columns: usize = page.get(
            "probe.all('[data-part=finds] thead th').filter((cell) => cell.checkVisibility()).length",
            Value::Null,
        )?;
        ensure!(columns == 7, "{columns} columns");
        Ok(())
    })
}
