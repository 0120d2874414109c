//! What the page asks of the network: its own files, once.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{View, page};
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND, SIXTH};

/// Catches an address that starts at the root of the host or names another host: everything must
/// come from below the sub-path the site is served under. The security policy, in the page and
/// from the server, would forbid the rest; a breach of it fails every test.
#[test]
fn everything_comes_from_below_the_pages_own_address() -> Result<()> {
    page::open(View::LAPTOP.keeping(), "", |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.choose(by_hand::STEM)?;
        page.rest()?;
        let asked: Vec<String> = page.get(
            "performance.getEntriesByType('resource').map(({ name }) => name)",
            Value::Null,
        )?;
        let elsewhere: Vec<_> = asked
            .iter()
            .filter(|name| !name.starts_with(page.address()))
            .collect();
        ensure!(elsewhere.is_empty(), "asked for {elsewhere:?}");
        for part in [
            "element.js",
            "levertrain_bg.wasm",
            "en.ftl",
            "index.json",
            ".woff2",
        ] {
            ensure!(
                asked.iter().any(|name| name.ends_with(part)),
                "{part} is not in {asked:?}"
            );
        }
        Ok(())
    })
}

/// Most requests of a cold page until all of it is at rest, itself included.
const REQUESTS: usize = 16;

/// Most that what is on the page may move by itself while it opens, as browsers count it.
const SHIFT: f64 = 0.05;

/// Catches modules or styles that are asked for one by one, and drawings or tables that
/// are pushed about by what comes later.
#[test]
fn a_cold_page_asks_for_little_and_stands_still() -> Result<()> {
    page::open(View::LAPTOP.keeping(), "", |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.rest()?;
        let asked: Vec<String> = page.get(
            "performance.getEntriesByType('resource').map(({ name }) => name)",
            Value::Null,
        )?;
        // When the browser asks for the page's icons, and what an app of it is, is its own business.
        let own = ["mark.svg", "app.webmanifest", ".png"];
        let asked: Vec<_> = asked
            .iter()
            .filter(|name| !own.iter().any(|ending| name.ends_with(ending)))
            .collect();
        ensure!(
            asked.len() < REQUESTS,
            "{} requests: {asked:#?}",
            asked.len()
        );
        let mut apart = asked.clone();
        apart.sort();
        apart.dedup();
        ensure!(apart.len() == asked.len(), "asked for twice: {asked:#?}");

        page.goto("index.html")?;
        let shifts: Vec<f64> = page.get(
            "new Promise((done) => new PerformanceObserver((list, observer) => { \
                observer.disconnect(); \
                done(list.getEntries().map(({ value }) => value)); \
             }).observe({ type: 'layout-shift', buffered: true }) ?? setTimeout(() => done([]), 500))",
            Value::Null,
        )?;
        let moved: f64 = shifts.iter().sum();
        ensure!(moved < SHIFT, "{moved}: {shifts:?}");
        Ok(())
    })
}

/// Catches work that is left to the host: once open, the page needs it no more, for another scenario
/// either.
#[test]
fn an_open_page_works_without_the_network() -> Result<()> {
    page::open(View::LAPTOP.keeping(), &by_hand::link(FIRST), |page| {
        page.until(
            "what panels need is at hand",
            "performance.getEntriesByType('resource').some(({ name, responseEnd }) => \
                name.endsWith('levertrain_whole_bg.wasm') && responseEnd > 0)",
        )?;
        // The editor comes only when it is wanted: until then the text has a plain field.
        page.expect_fault("editor/editor.js");
        page.set_offline(true)?;
        ensure!(
            !page.get::<bool>("navigator.onLine", Value::Null)?,
            "still online"
        );
        for range in [SECOND, SIXTH] {
            page.click_range(range.id)?;
            let seen = page.seen()?;
            ensure!(seen.ratio.as_deref() == Some(range.ratio), "{seen:?}");
        }
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.until(
            "all combinations are listed",
            "probe.all('[data-part=combinations] tr[data-applied]').length === 32",
        )?;
        page.check_faults()?;

        page.choose("01-one-set")?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        Ok(())
    })
}
