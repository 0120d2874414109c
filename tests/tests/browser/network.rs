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
    page::open(View::LAPTOP, "", |page| {
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
            "index.json",
            ".woff2",
            STEM_FILE,
        ] {
            ensure!(
                asked.iter().any(|name| name.ends_with(part)),
                "{part} is not in {asked:?}"
            );
        }
        Ok(())
    })
}

const STEM_FILE: &str = "scenarios/04-six-speed-three-sets.json";

/// Some of the folded panels' modules, which follow when the page is at rest.
const LAST_PANELS: [&str; 3] = [
    "panels/combinations.js",
    "panels/share.js",
    "panels/bearings.js",
];

/// Catches work that is left to the host: once open, a scenario needs it no more. Another one
/// cannot come, which is said; the one on screen stays.
#[test]
fn an_open_scenario_works_without_the_network() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        for panel in LAST_PANELS {
            page.until(
                &format!("{panel} has come"),
                &format!(
                    "performance.getEntriesByType('resource') \
                     .some(({{ name, responseEnd }}) => name.endsWith('{panel}') && responseEnd > 0)"
                ),
            )?;
        }
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
            "probe.all('tr[data-applied]').length === 32",
        )?;
        page.check_faults()?;

        let before = page.seen()?;
        page.expect_fault("ERR_INTERNET_DISCONNECTED");
        let other = "const picker = probe.one('#scenario'); picker.value = '01-one-set'; \
            picker.dispatchEvent(new Event('change', { bubbles: true }))";
        page.run(other, Value::Null)?;
        page.until("a message comes", "probe.one('[data-part=message]')")?;
        let messages = page.messages()?;
        ensure!(messages.len() == 1, "{messages:?}");
        ensure!(messages[0].contains("01-one-set.json"), "{messages:?}");
        ensure!(page.seen()? == before, "what was on screen is gone");

        page.set_offline(false)?;
        page.choose("01-one-set")?;
        ensure!(page.messages()?.is_empty(), "the message stays");
        Ok(())
    })
}
