//! Links that lead nowhere: one clear message, and what was on screen stays.

use std::collections::BTreeMap;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, Seen, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND};

/// The scenario that the page opens with.
const USUAL: &str = "09-six-speed-front-set";

/// A link, and what the message must name.
fn rows() -> Vec<(String, &'static str)> {
    let long = "x".repeat(20_000);
    vec![
        ("#s=no-such-scenario".into(), "no-such-scenario"),
        ("#s=../index&on=V".into(), "../index"),
        ("#on=V,W".into(), "scenario"),
        ("#nonsense".into(), "\"nonsense\""),
        (format!("#s={long}"), "xxx"),
    ]
}

const EIGHT: &str = "05-eight-speed-four-sets";

/// A link with one part that is wrong, what the message must name, and the link that says the same
/// with the usual in its place.
fn partly() -> Vec<(String, &'static str, String)> {
    let row = |rest: &str, part, good: &str| {
        let [bad, good] = [rest, good].map(|rest| format!("#s={EIGHT}{rest}"));
        (bad, part, good)
    };
    vec![
        row("&on=H,J,K&n=7000", "\"7000\"", "&on=H,J,K&n=1000"),
        row("&on=H,J,K&n=fast", "\"fast\"", "&on=H,J,K&n=1000"),
        row("&on=H,J,K&n=-5", "\"-5\"", "&on=H,J,K&n=1000"),
        row("&on=H,J,K&n=1e9", "\"1e9\"", "&on=H,J,K&n=1000"),
        row("&on=V,Q&n=1500", "\"Q\"", "&n=1500"),
        row("&on=%E0%A4%A&n=1500", "\"on\"", "&n=1500"),
        row(
            "&on=H,J,K&n=1500&colour=red",
            "\"colour\"",
            "&on=H,J,K&n=1500",
        ),
        row("&on=H,J,K&n=1500&t=-1", "\"-1\"", "&on=H,J,K&n=1500"),
        row("&on=H,J,K&n=1500&u=ell,hp", "\"ell\"", "&on=H,J,K&n=1500"),
        row("&on=H,J,K&n=1500&o=999,0,0", "999,0,0", "&on=H,J,K&n=1500"),
        row("&on=H,J,K&n=1500&l=0,0,0", "0,0,0", "&on=H,J,K&n=1500"),
        row("&on=H,J,K&n=1500&l=99,-1,0", "99,-1,0", "&on=H,J,K&n=1500"),
        row(
            "&on=H,J,K&n=1500&v=weight",
            "\"weight\"",
            "&on=H,J,K&n=1500",
        ),
        // What every object of the language has by itself is no view either.
        row(
            "&on=H,J,K&n=1500&v=constructor",
            "\"constructor\"",
            "&on=H,J,K&n=1500",
        ),
    ]
}

/// Characters that show nothing or turn the direction of what follows, as a link writes them, and
/// how a message names them.
const HIDDEN: [(&str, &str); 4] = [
    ("%E2%80%AE", "\\u{202E}"),
    ("%E2%81%A6", "\\u{2066}"),
    ("%E2%80%8B", "\\u{200B}"),
    ("%0A", "\\u{A}"),
];

/// Longest message for one fault, in characters: place, problem and fix.
const LONGEST: usize = 400;

/// Catches a message as long as the link that it quotes, which pushes everything off the screen,
/// and one whose words a character of the link turns round or hides.
#[test]
fn what_is_quoted_is_short_and_shows_every_character() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let dismiss = "probe.one('[data-part=dismiss]')?.click()";
        page.run(
            &format!("{dismiss}; location.hash = `#s=${{'x'.repeat(200000)}}&n=1`"),
            Value::Null,
        )?;
        check_message(page, "the long link", "xxx")?;
        let long = page.messages()?.concat();
        ensure!(long.chars().count() < LONGEST, "{} long", long.len());
        ensure!(long.contains('…'), "{long}");
        // What the problem is stands at its beginning and at its end.
        ensure!(long.contains("there is no scenario \"xxx"), "{long}");
        for (written, named) in HIDDEN {
            page.run(
                &format!("{dismiss}; location.hash = args"),
                json!(format!("#s=lab{written}gear")),
            )?;
            check_message(page, written, &format!("lab{named}gear"))?;
        }
        Ok(())
    })
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
        ensure!(first.stem.as_deref() == Some(USUAL), "{first:?}");
        // Whoever comes for the first time sees a train that could be built.
        ensure!(!page.shows("[data-part=layout-caution]")?, "{first:?}");
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

/// Catches a link that loses its scenario, its elements or its speed to one part that is wrong,
/// and an address that keeps that part.
#[test]
fn one_bad_part_gives_way_to_the_usual_and_the_rest_is_shown() -> Result<()> {
    page::open(View::LAPTOP.still(), "", |page| {
        let mut shown: BTreeMap<String, (Seen, String)> = BTreeMap::new();
        for (link, part, good) in partly() {
            if !shown.contains_key(&good) {
                page.goto(&format!("index.html{good}"))?;
                let expected = page.seen()?;
                ensure!(page.messages()?.is_empty(), "{good}");
                ensure!(expected.stem.as_deref() == Some(EIGHT), "{expected:?}");
                let address = page.get("location.hash", Value::Null)?;
                shown.insert(good.clone(), (expected, address));
            }
            let (expected, address) = &shown[&good];
            page.goto(&format!("index.html{link}"))?;
            check_message(page, &link, part)?;
            let seen = page.seen()?;
            ensure!(
                seen == *expected,
                "{link}: {seen:?}\ninstead of\n{expected:?}"
            );
            let kept: String = page.get("location.hash", Value::Null)?;
            ensure!(kept == *address, "{link} leaves the address {kept}");
        }
        Ok(())
    })
}
