//! Finding teeth where the page has no workers, or its tab was closed meanwhile: nothing of it is lost.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Page, View, page, required, skipped};
use serde_json::Value;
use xtask::site;
use xtask::test_environment::SITE;

use crate::by_core;
use crate::find::{SIX, by_the_core, key, listed, open, wait, write};

/// Looks for teeth on a page that can have no workers.
fn finds_alone(page: &Page, train: &Train) -> Result<()> {
    open(page)?;
    write(page, "#find-tolerance", "4")?;
    page.click("label[for=find-best-steps]")?;
    page.click("[data-part=find-begin]")?;
    wait(page)?;
    let status: String = page.get(
        "probe.one('[data-part=find-covered]').textContent",
        Value::Null,
    )?;
    let keys: Vec<String> = by_the_core(train, page, 0.04)?.iter().map(key).collect();
    let found = listed(page)?;
    ensure!(found == keys, "{found:?}, not {keys:?}: {status}");
    Ok(())
}

/// Catches a page that cannot look by itself where there can be no worker, and does less then: a browser without them, and
/// a policy that forbids them.
#[test]
fn without_workers_the_page_finds_as_much() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        page.run(
            "window.made = 0; window.Worker = class { constructor() { window.made += 1; throw new Error('none here'); } }",
            Value::Null,
        )?;
        finds_alone(page, &train)?;
        let tried: usize = page.get("window.made", Value::Null)?;
        ensure!(tried > 0, "no worker was asked for");
        Ok(())
    })?;
    if skipped() {
        return Ok(());
    }
    let policy = format!("{}; worker-src 'none'", site::CONTENT_SECURITY_POLICY);
    let address = format!("index.html#s={SIX}");
    page::open_foreign(&required(SITE)?, &policy, &address, |page| {
        page.expect_fault("worker-src");
        finds_alone(page, &train)
    })
}

const KEPT: &str = "Object.keys(localStorage).some((key) => key.startsWith('levertrain search '))";

/// Begins a search that rests, and waits until it is kept where it stands.
fn keep(page: &Page) -> Result<()> {
    open(page)?;
    // Workers that rest from the beginning: the search does not come to its end before it is closed.
    page.run(
        "const Usual = Worker; \
         window.Worker = class extends Usual { \
            postMessage(order) { super.postMessage(order); if (order.begin) super.postMessage({ rests: true }); } \
         }",
        Value::Null,
    )?;
    write(page, "#find-ratio-1", "2.8")?;
    write(page, "#find-tolerance", "8")?;
    page.click("label[for=find-best-steps]")?;
    page.click("[data-part=find-begin]")?;
    // A rest tells where it stands at once.
    page.until(
        "it has begun",
        "probe.one('[data-part=find-covered]').textContent !== ''",
    )?;
    page.click("[data-part=find-rest]")?;
    page.until("it is kept", KEPT)
}

/// Catches a search that is lost with its tab, or goes on to another end.
#[test]
fn a_search_goes_on_after_its_tab_was_closed() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        keep(page)?;
        page.reload()?;
        page.unfold("find")?;
        page.until(
            "it is offered",
            "!probe.one('[data-part=find-stood]').hidden",
        )?;
        page.click("[data-part=find-resume]")?;
        wait(page)?;
        let fields: [String; 2] = page.get(
            "['#find-ratio-1', '#find-tolerance'].map((field) => probe.one(field).value)",
            Value::Null,
        )?;
        ensure!(fields == ["2.8", "8"], "{fields:?}");
        let keys: Vec<String> = by_the_core(&train, page, 0.08)?.iter().map(key).collect();
        let found = listed(page)?;
        ensure!(found == keys, "{} finds, not {}", found.len(), keys.len());
        let kept: bool = page.get(KEPT, Value::Null)?;
        ensure!(!kept, "what has ended is kept");
        Ok(())
    })
}

/// Catches a search that was kept by another version of the program and is refused, or never begun again.
#[test]
fn what_another_version_kept_begins_anew() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        keep(page)?;
        page.run(
            "const key = Object.keys(localStorage).find((key) => key.startsWith('levertrain search ')); \
             const kept = JSON.parse(localStorage[key]); \
             kept.stands = kept.stands.map((stand) => JSON.stringify({ ...JSON.parse(stand), format: 1 })); \
             localStorage[key] = JSON.stringify(kept)",
            Value::Null,
        )?;
        page.reload()?;
        page.unfold("find")?;
        page.until(
            "it is offered",
            "!probe.one('[data-part=find-stood]').hidden",
        )?;
        page.click("[data-part=find-resume]")?;
        wait(page)?;
        let keys: Vec<String> = by_the_core(&train, page, 0.08)?.iter().map(key).collect();
        ensure!(listed(page)? == keys, "{:?}", listed(page)?);
        let told: String = page.get(
            "probe.one('[data-part=find-problems]').textContent",
            Value::Null,
        )?;
        ensure!(told.is_empty(), "{told:?}");
        Ok(())
    })
}
