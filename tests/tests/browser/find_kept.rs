//! Finding teeth where the page has no workers, or its tab was closed meanwhile: nothing of it is lost.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::by_core;
use crate::find::{SIX, by_the_core, key, listed};
use crate::search_panel::{TEETH, rest_at_once, without_workers, write};

/// Looks for teeth on a page that can have no workers.
fn finds_alone(page: &Page, train: &Train) -> Result<()> {
    TEETH.open(page)?;
    write(page, "#find-tolerance", "4")?;
    page.click("label[for=find-best-steps]")?;
    TEETH.press(page, "begin")?;
    TEETH.wait(page)?;
    let status = TEETH.text(page, "covered")?;
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
    without_workers(&format!("#s={SIX}"), |page| finds_alone(page, &train))
}

/// Begins a search that rests, and waits until it is kept where it stands.
fn keep(page: &Page) -> Result<()> {
    TEETH.open(page)?;
    rest_at_once(page)?;
    write(page, "#find-ratio-1", "2.8")?;
    write(page, "#find-tolerance", "8")?;
    page.click("label[for=find-best-steps]")?;
    TEETH.keep(page)
}

/// Catches a search that is lost with its tab, or goes on to another end.
#[test]
fn a_search_goes_on_after_its_tab_was_closed() -> Result<()> {
    let train = by_core::train(SIX)?;
    page::open(View::LAPTOP, &format!("#s={SIX}"), |page| {
        keep(page)?;
        TEETH.go_on(page)?;
        TEETH.wait(page)?;
        let fields: [String; 2] = page.get(
            "['#find-ratio-1', '#find-tolerance'].map((field) => probe.one(field).value)",
            Value::Null,
        )?;
        ensure!(fields == ["2.8", "8"], "{fields:?}");
        let keys: Vec<String> = by_the_core(&train, page, 0.08)?.iter().map(key).collect();
        let found = listed(page)?;
        ensure!(found == keys, "{} finds, not {}", found.len(), keys.len());
        let kept: bool = page.get(&TEETH.is_kept(), Value::Null)?;
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
        TEETH.make_old(page, 1)?;
        TEETH.go_on(page)?;
        TEETH.wait(page)?;
        let keys: Vec<String> = by_the_core(&train, page, 0.08)?.iter().map(key).collect();
        ensure!(listed(page)? == keys, "{:?}", listed(page)?);
        let told = TEETH.text(page, "problems")?;
        ensure!(told.is_empty(), "{told:?}");
        Ok(())
    })
}
