//! Parts of a search that are told something at an awkward moment: before they are set up, or once they have ended.

use anyhow::{Result, ensure};
use levertrain_core::search::{Ask, Criterion, FindReport, Search, Wanted};
use levertrain_core::{Duty, Train, edit};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::search_panel::{TEETH, write};
use crate::{by_core, find};

const SIX: &str = "04-six-speed-three-sets";

/// The ratios that the train has, give or take some.
fn asked(train: &Train) -> Ask {
    let ranges = train.scenario().ranges.iter().enumerate();
    let wanted = ranges.filter_map(|(at, range)| {
        let settled = train.settle(train.range(at), Duty::Drive).combination;
        Some(Wanted {
            range: range.id.clone(),
            ratio: Some(settled.state().ratio()?.to_f64()),
            tolerance: Some(0.03),
            ..Wanted::default()
        })
    });
    Ask {
        wanted: wanted.collect(),
        pinion_teeth: [12, 100],
        best: vec![Criterion::Error, Criterion::Size, Criterion::Steps],
        ..Ask::default()
    }
}

fn ended(search: Result<Search, Vec<levertrain_core::Problem>>) -> Result<Vec<FindReport>> {
    let mut search = search.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    while !search.run(1000) {}
    Ok(search.report().finds)
}

/// The teeth of each find, in order.
fn teeth(finds: &Value) -> Vec<Value> {
    let finds = finds.as_array().into_iter().flatten();
    finds.map(|find| find["sets"].clone()).collect()
}

/// Begins the first of two parts in a worker of its own, whose finds are then `window.finds`, and whether it has ended
/// `window.ended`; `window.part` is the worker.
fn begin(page: &Page, train: &Train, ask: &Ask, then: &str) -> Result<()> {
    let text = edit::text(train.scenario());
    let ask = serde_json::to_string(ask)?;
    page.run(
        &format!(
            "window.part = new Worker('finder.js', {{ type: 'module' }}); window.news = []; \
             window.part.addEventListener('message', ({{ data }}) => {{ \
                window.news.push(data); window.ended = Boolean(data.done); \
                const known = window.finds; \
                if (data.finds) window.finds = JSON.parse(data.finds).map((find) => (typeof find === 'number' ? known[find] : find)); \
             }}); \
             const begin = {{ train: args[0], ask: args[1], which: 0, of: 2, language: 'en' }}; \
             window.part.postMessage({{ begin }}); {then}"
        ),
        json!([text, ask]),
    )
}

/// Catches finds of another part that come before a worker is set up and are dropped, and such that come after it has ended
/// and are never taken in.
#[test]
fn finds_of_other_parts_are_taken_in_whenever_they_come() -> Result<()> {
    let train = by_core::train(SIX)?;
    let ask = asked(&train);
    let whole = ended(Search::new(&train, &ask))?;
    let own = ended(Search::shard(&train, &ask, 0, 2))?;
    ensure!(whole != own, "the other part has nothing to tell");
    let expected = teeth(&serde_json::to_value(&whole)?);
    let others = serde_json::to_string(&ended(Search::shard(&train, &ask, 1, 2))?)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        for early in [true, false] {
            let tell = format!(
                "window.part.postMessage({{ told: {} }})",
                serde_json::to_string(&others)?
            );
            begin(page, &train, &ask, if early { &tell } else { "" })?;
            page.until("it has ended", "window.ended")?;
            if !early {
                page.run(&format!("window.ended = false; {tell}"), Value::Null)?;
                page.until("it has ended again", "window.ended")?;
            }
            let found: Value = page.get("window.finds", Value::Null)?;
            ensure!(teeth(&found) == expected, "told early: {early}");
            page.run("window.part.terminate(); window.ended = false", Value::Null)?;
        }
        Ok(())
    })
}

/// Catches a search that somebody stops, or has rest, before it is set up, and that goes on all the same: on a page without
/// workers, where nothing ends it from outside.
#[test]
fn what_is_stopped_or_rests_before_it_is_set_up_does_not_go_on() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        // Counts what setting up and searching call.
        page.run(
            "window.Worker = class { constructor() { throw new Error('none here'); } }; \
             import(new URL('engine/levertrain_search.js', location.href)).then(({ TeethSearch, TeethSetUp }) => { \
                window.pieces = window.runs = 0; \
                const [run, setUp] = [TeethSearch.prototype.run, TeethSetUp.prototype.run]; \
                TeethSearch.prototype.run = function (boxes) { window.runs += 1; return run.call(this, boxes); }; \
                TeethSetUp.prototype.run = function () { window.pieces += 1; return setUp.call(this); }; \
             })",
            Value::Null,
        )?;
        page.until("calls are counted", "window.runs === 0")?;
        let press = |first: &str, second: &str| {
            page.run(
                "window.pieces = window.runs = 0; probe.one(args[0]).click(); probe.one(args[1]).click()",
                json!([first, second]),
            )
        };
        let [go, rest, stop] =
            ["begin", "rest", "stop"].map(|part| format!("[data-part=find-{part}]"));
        let stays = |page: &Page, what: &str| -> Result<()> {
            page.run("window.since = performance.now()", Value::Null)?;
            page.until(
                "a while has passed",
                "performance.now() - window.since > 1500",
            )?;
            let runs: u32 = page.get("window.runs", Value::Null)?;
            ensure!(runs == 0, "{what}: it went on {runs} times");
            Ok(())
        };
        press(&go, &rest)?;
        page.until("it is being set up", "window.pieces > 0")?;
        stays(page, "it rests")?;
        page.click(&rest)?;
        page.until("it goes on", "window.runs > 0")?;
        page.until("it ends", "probe.one('[data-part=find-rest]').hidden")?;
        press(&go, &stop)?;
        stays(page, "it was stopped")
    })
}

/// Catches a search that ends before the first part has taken in what the other one found last: what it said before it was told of that is heard
/// after it was told.
#[test]
fn it_does_not_end_before_all_that_was_found_is_taken_in() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        TEETH.open(page)?;
        // What two workers say is held back until both have ended: then the second one is heard first, and what the first one
        // answers comes late.
        page.run(
            "Object.defineProperty(navigator, 'hardwareConcurrency', { value: 2 }); \
             const made = [], held = [[], []]; let passes = false; const Usual = Worker; \
             window.Worker = class extends Usual { \
                constructor(...what) { super(...what); made.push(this); } \
                addEventListener(type, listener) { \
                    super.addEventListener(type, (event) => { \
                        const which = made.indexOf(this); \
                        if (passes) { setTimeout(() => listener(event), which === 0 ? 500 : 0); return; } \
                        held[which].push({ done: event.data?.done, say: () => listener(event) }); \
                        if (!held.every((news) => news.some(({ done }) => done))) return; \
                        passes = true; \
                        [...held[1], ...held[0]].forEach(({ say }) => say()); \
                    }); \
                } \
             }",
            Value::Null,
        )?;
        write(page, "#find-tolerance", "4")?;
        page.click("label[for=find-best-steps]")?;
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
        let expected = find::by_the_core(&train, page, 0.04)?;
        let keys: Vec<String> = expected.iter().map(find::key).collect();
        let found = find::listed(page)?;
        ensure!(found == keys, "{found:?}, not {keys:?}");
        Ok(())
    })
}
