//! Finding layouts where the page has no workers, or its tab was closed meanwhile: nothing of it is lost.

use anyhow::{Result, ensure};
use levertrain_core::Train;
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::layouts::{SIX, by_the_core, cards};
use crate::search_panel::{LAYOUTS, rest_at_once, without_workers, write};

/// Catches a search that is lost with its tab, or goes on to another end.
#[test]
fn a_search_goes_on_after_its_tab_was_closed() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        rest_at_once(page)?;
        write(page, "#layouts-ratio-1", "2.7")?;
        LAYOUTS.keep(page)?;
        LAYOUTS.go_on(page)?;
        LAYOUTS.wait(page)?;
        let first: String = page.get("probe.one('#layouts-ratio-1').value", Value::Null)?;
        ensure!(first == "2.7", "{first}");
        let count = by_the_core(2.7)?.len().to_string();
        let status = LAYOUTS.text(page, "status")?;
        ensure!(status.contains(&count), "{status:?}, not {count}");
        ensure!(
            !page.get::<bool>(&LAYOUTS.is_kept(), Value::Null)?,
            "what has ended is kept"
        );
        Ok(())
    })
}

/// What the status says once all is found with another first ratio.
fn finds_all(page: &Page) -> Result<()> {
    LAYOUTS.open(page)?;
    write(page, "#layouts-ratio-1", "2.7")?;
    LAYOUTS.press(page, "begin")?;
    tells_all(page)
}

fn tells_all(page: &Page) -> Result<()> {
    LAYOUTS.wait(page)?;
    let expected = by_the_core(2.7)?;
    let count = expected.len().to_string();
    let status = LAYOUTS.text(page, "status")?;
    ensure!(status.contains(&count), "{status:?}, not {count}");
    let shown = cards(page)?;
    for range in &Train::parse(&expected[0].scenario)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?
        .scenario()
        .ranges
    {
        let applied = range.applied.join(" ");
        ensure!(shown[0].contains(&applied), "{applied}: {:?}", shown[0]);
    }
    Ok(())
}

/// Catches a page that cannot look for layouts by itself where there can be no worker, and does less then: a browser without
/// them, and a policy that forbids them.
#[test]
fn without_workers_the_page_finds_as_much() -> Result<()> {
    without_workers(SIX, finds_all)
}

/// Catches a search that was kept by another version of the program and is refused, or never begun again.
#[test]
fn what_another_version_kept_begins_anew() -> Result<()> {
    page::open(View::LAPTOP, SIX, |page| {
        LAYOUTS.open(page)?;
        rest_at_once(page)?;
        write(page, "#layouts-ratio-1", "2.7")?;
        LAYOUTS.keep(page)?;
        LAYOUTS.make_old(page, 0)?;
        LAYOUTS.go_on(page)?;
        tells_all(page)?;
        let told = LAYOUTS.text(page, "problems")?;
        ensure!(told.is_empty(), "{told:?}");
        Ok(())
    })
}
