//! Links that lead nowhere: one clear message, and what was on screen stays.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND};

/// A link, and what the message must name.
fn rows() -> Vec<(String, &'static str)> {
    let six = by_hand::STEM;
    let long = "x".repeat(20_000);
    vec![
        ("#s=no-such-scenario".into(), "no-such-scenario"),
        ("#s=../index&on=A".into(), "../index"),
        (format!("#s={six}&on=A,Q"), "\"Q\""),
        (format!("#s={six}&on=A&n=fast"), "\"fast\""),
        (format!("#s={six}&on=A&n=-5"), "\"-5\""),
        (format!("#s={six}&on=A&n=1e9"), "\"1e9\""),
        (format!("#s={six}&colour=red"), "\"colour\""),
        (format!("#s={six}&on=%E0%A4%A"), "\"on\""),
        ("#on=A,B".into(), "scenario"),
        ("#nonsense".into(), "\"nonsense\""),
        (format!("#s={long}"), "xxx"),
    ]
}

fn check_message(page: &Page, link: &str, part: &str) -> Result<()> {
    page.until("a message comes", "probe.one('[data-part=message]')")?;
    let messages = page.messages()?;
    ensure!(messages.len() == 1, "{link}: {messages:#?}");
    ensure!(messages[0].contains(part), "{link}: {messages:#?}");
    Ok(())
}

/// Catches a link that takes the train off the screen before it is known to be good, and an
/// address that goes on saying what is not on screen.
#[test]
fn on_an_open_page_each_is_named_and_changes_nothing() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before = page.seen()?;
        for (link, part) in rows() {
            page.run(
                "probe.one('[data-part=dismiss]')?.click(); location.hash = args",
                json!(link),
            )?;
            check_message(page, &link, part)?;
            let seen = page.seen()?;
            ensure!(seen == before, "{link} changes the screen: {seen:?}");
            let address: String = page.get("location.hash", Value::Null)?;
            ensure!(
                address == by_hand::link(FIRST),
                "{link} leaves the address {address}"
            );
        }
        page.click_range(SECOND.id)?;
        let seen = page.seen()?;
        ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
        ensure!(seen.section != before.section && seen.lever != before.lever);
        Ok(())
    })
}

/// Catches an empty page: with nothing on screen yet, the page's own scenario opens below the
/// message.
#[test]
fn on_a_fresh_page_the_usual_scenario_opens_below_the_message() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        let first = page.seen()?;
        ensure!(first.stem.as_deref() == Some(by_hand::STEM), "{first:?}");
        // The long one is as good as any other unknown name.
        for (link, part) in rows().into_iter().filter(|(link, _)| link.len() < 100) {
            page.goto(&format!("index.html{link}"))?;
            check_message(page, &link, part)?;
            let seen = page.seen()?;
            ensure!(seen == first, "{link}: {seen:?}");
        }
        Ok(())
    })
}
