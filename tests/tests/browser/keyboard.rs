//! Everything that a mouse can do, from the keyboard.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Key, Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, REVERSE, SECOND, SIXTH};

/// More presses of Tab than the page has stops before its drawings.
const MOST_TABS: usize = 40;

fn focused(page: &Page, attribute: &str) -> Result<Option<String>> {
    let script = "probe.host('lever-train').shadowRoot.activeElement?.getAttribute(args)";
    page.get(script, json!(attribute))
}

fn tab_to(page: &Page, what: &str, attribute: &str) -> Result<String> {
    for _ in 0..MOST_TABS {
        page.keys([Key::Tab])?;
        let inside = format!(
            "Boolean(probe.host('lever-train').shadowRoot.activeElement?.closest('{what}'))"
        );
        if page.get(&inside, Value::Null)?
            && let Some(name) = focused(page, attribute)?
        {
            return Ok(name);
        }
    }
    anyhow::bail!("{MOST_TABS} presses of Tab do not lead to {what}")
}

/// Catches switches that cannot be reached with Tab, that take a stop each, or that arrow keys do
/// not lead through.
#[test]
fn one_stop_leads_to_the_switches_and_arrows_lead_through_all_of_them() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let first = tab_to(page, ".handles", "data-element-id")?;
        let stops: Vec<i32> = page.get(
            "probe.all('[role=switch]').map((node) => node.tabIndex)",
            Value::Null,
        )?;
        ensure!(
            stops.iter().filter(|stop| **stop == 0).count() == 1,
            "{stops:?}"
        );

        let mut visited = vec![first.clone()];
        for _ in 1..stops.len() {
            page.keys([Key::Right])?;
            visited.extend(focused(page, "data-element-id")?);
        }
        page.keys([Key::Left])?;
        let back = focused(page, "data-element-id")?;
        ensure!(
            back.as_deref() == visited.get(visited.len() - 2).map(String::as_str),
            "{back:?}"
        );
        page.keys([Key::Right, Key::Right])?;
        ensure!(
            focused(page, "data-element-id")?.as_ref() == Some(&first),
            "no way round"
        );
        visited.sort();
        ensure!(visited == ["H", "J", "K", "V", "W"], "{visited:?}");
        ensure!(
            page.seen()?.applied == FIRST.applied,
            "moving about changes elements"
        );
        Ok(())
    })
}

/// Catches a switch that answers to one of the two keys only, or to both events of one press.
#[test]
fn space_and_enter_change_a_switch_over() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before = page.seen()?;
        page.run(
            "probe.one('[data-element-id=\"J\"][role=switch]').focus()",
            Value::Null,
        )?;
        page.keys([Key::Space])?;
        let neutral = page.seen()?;
        ensure!(neutral.applied == ["W"], "{neutral:?}");
        ensure!(neutral.state.as_deref() == Some("Neutral"), "{neutral:?}");
        ensure!(neutral.section != before.section && neutral.lever != before.lever);

        page.run(
            "probe.one('[data-element-id=\"H\"][role=switch]').focus()",
            Value::Null,
        )?;
        page.keys([Key::Enter])?;
        let reverse = page.seen()?;
        ensure!(reverse.applied == REVERSE.applied, "{reverse:?}");
        ensure!(
            reverse.ratio.as_deref() == Some(REVERSE.ratio),
            "{reverse:?}"
        );

        page.keys([Key::Space])?;
        ensure!(
            page.seen()?.applied == ["W"],
            "the focus is lost after a change"
        );
        Ok(())
    })
}

/// Catches a switch whose name does not say what it does and how it stands: a screen reader says
/// nothing else.
#[test]
fn a_switch_says_its_name_its_members_and_its_state() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let name =
            "probe.one(`[role=switch][data-element-id=\"${args}\"]`).getAttribute('aria-label')";
        for (id, parts) in [
            ("V", ["Brake V", "Sun 1", "open"]),
            ("W", ["Brake W", "Carrier 1 + ring 2", "applied"]),
            ("K", ["Clutch K", "Ring 3", "open"]),
        ] {
            let name: String = page.get(name, json!(id))?;
            ensure!(
                parts.iter().all(|part| name.contains(part)),
                "{id}: {name:?}"
            );
        }
        Ok(())
    })
}

/// Catches range buttons that arrows only move through without shifting, and ends that stop.
#[test]
fn arrows_step_through_the_ranges() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let stop = tab_to(page, ".range-buttons", "data-range-id")?;
        ensure!(
            stop == FIRST.id,
            "the stop is {stop}, not the range on screen"
        );
        for (key, range) in [
            (Key::Right, SECOND),
            (Key::Left, FIRST),
            (Key::Left, REVERSE),
            (Key::Up, SIXTH),
            (Key::Home, FIRST),
            (Key::End, REVERSE),
            (Key::Down, FIRST),
        ] {
            page.keys([key])?;
            let seen = page.seen()?;
            ensure!(seen.range.as_deref() == Some(range.id), "{key:?}: {seen:?}");
            ensure!(
                seen.ratio.as_deref() == Some(range.ratio),
                "{key:?}: {seen:?}"
            );
            ensure!(seen.applied == range.applied, "{key:?}: {seen:?}");
        }
        Ok(())
    })
}

/// Catches a member table that only a mouse can point with.
#[test]
fn focusing_a_member_lights_it_in_the_drawings() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before = page.seen()?;
        page.run(
            "probe.one('tr[data-shaft-id=\"c2\"] button').focus()",
            Value::Null,
        )?;
        let lit = page.seen()?;
        ensure!(
            lit.section != before.section,
            "the half-section does not show it"
        );
        ensure!(
            lit.lever != before.lever,
            "the lever diagram does not show it"
        );
        let line: String = page.get("probe.text('[data-part=readout]')", Value::Null)?;
        // c2 = 17/46 of 1000 rev/min.
        ensure!(
            line.contains("Carriers 2 and 3") && line.contains("369.6"),
            "{line:?}"
        );

        page.run(
            "probe.one('tr[data-shaft-id=\"c2\"] button').blur()",
            Value::Null,
        )?;
        ensure!(page.seen()? == before, "it stays lit");
        Ok(())
    })
}

/// Catches digits that apply nothing at the switches, another range, or something while a number is typed.
#[test]
fn digits_apply_ranges_at_the_switches_and_nowhere_else() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        tab_to(page, ".handles", "data-element-id")?;
        for (digit, range) in [('2', SECOND), ('6', SIXTH), ('1', FIRST), ('7', REVERSE)] {
            page.keys([digit])?;
            let seen = page.seen()?;
            ensure!(
                seen.ratio.as_deref() == Some(range.ratio),
                "{digit}: {seen:?}"
            );
        }
        page.keys(['9'])?;
        ensure!(
            page.seen()?.ratio.as_deref() == Some(REVERSE.ratio),
            "there is no ninth range"
        );
        page.keys(['0'])?;
        ensure!(page.seen()?.applied.is_empty(), "0 releases all");
        page.run("probe.one('#speed').focus()", Value::Null)?;
        page.keys(['2'])?;
        ensure!(page.seen()?.applied.is_empty(), "a digit of a speed");
        Ok(())
    })
}
