//! The page's address holds what is on screen.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, Seen, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND, SIXTH, THIRD};

fn fragment(page: &Page) -> Result<String> {
    page.get("location.hash", Value::Null)
}

/// Types a speed into the field, as a user does.
fn set_speed(page: &Page, speed: u32) -> Result<()> {
    let script = "const field = probe.one('#speed'); field.value = args; \
        field.dispatchEvent(new Event('change', { bubbles: true }))";
    page.run(script, json!(speed))
}

/// Catches a link that leaves out scenario, elements or speed, and a page that reads less than it
/// writes. The view is put together by hand so that no range names it and no default gives it.
#[test]
fn a_link_gives_the_same_view_on_a_fresh_page() -> Result<()> {
    let mut link = String::new();
    let mut made = None;
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.click_range(SIXTH.id)?;
        page.click("[role=switch][data-element-id=\"W\"]")?;
        set_speed(page, 2750)?;
        made = Some(page.seen()?);
        link = fragment(page)?;
        Ok(())
    })?;
    let Some(made) = made else {
        // The browser is left out.
        return Ok(());
    };
    ensure!(made.applied == ["H", "K", "W"], "{made:?}");
    ensure!(
        link == format!("#s={}&on=W,H,K&n=2750", by_hand::STEM),
        "{link}"
    );
    page::open(View::LAPTOP, &link, |page| {
        let opened = page.seen()?;
        ensure!(opened == made, "{opened:?}\ninstead of\n{made:?}");
        ensure!(opened.speed.as_deref() == Some("2750"), "{opened:?}");
        Ok(())
    })
}

/// Catches a link, or markup for embedding, that leaves out how the drawings show the train and what
/// is assumed about losses. The sets of this train share two shafts, so that its levers can be joined.
#[test]
fn a_link_holds_what_is_shown_and_what_is_assumed() -> Result<()> {
    let start = "#s=02-three-speed-common-sun&on=V,H&n=1000";
    let link = format!("{start}&l=98.5,0,1&v=power,joined,scale");
    let mut made = None;
    page::open(View::LAPTOP, start, |page| {
        let before = page.seen()?;
        page.click("[data-part=merged]")?;
        page.click("[data-part=one-module]")?;
        page.click("[data-shows=power]")?;
        page.unfold("losses")?;
        page.unfold("share")?;
        page.run(
            "for (const [id, value] of Object.entries({ mesh: '98.5', way: 'coast' })) { \
                const field = probe.one(`#${id}`); field.value = value; \
                field.dispatchEvent(new Event('change', { bubbles: true })); \
             }",
            Value::Null,
        )?;
        page.until("the link says so", &format!("location.hash === '{link}'"))?;
        let seen = page.seen()?;
        ensure!(seen.section != before.section && seen.lever != before.lever);
        made = Some(seen);
        let embed: String = page.get("probe.one('[data-part=embed]').value", Value::Null)?;
        ensure!(
            embed.contains(" losses=\"98.5,0,1\" shows=\"power,joined,scale\">"),
            "{embed}"
        );
        Ok(())
    })?;
    let Some(made) = made else {
        // The browser is left out.
        return Ok(());
    };
    page::open(View::LAPTOP, &link, |page| {
        let opened = page.seen()?;
        ensure!(opened == made, "{opened:?}\ninstead of\n{made:?}");
        page.unfold("losses")?;
        let fields: [String; 2] = page.get(
            "['#mesh', '#way'].map((id) => probe.one(id).value)",
            Value::Null,
        )?;
        ensure!(fields == ["98.5", "coast"], "{fields:?}");
        // A link that says nothing of it gives the usual back.
        page.run("location.hash = args", json!(start))?;
        page.until(
            "speeds are shown again",
            "probe.one('[data-shows=speed]').ariaPressed === 'true'",
        )?;
        let fields: [String; 2] = page.get(
            "['#mesh', '#way'].map((id) => probe.one(id).value)",
            Value::Null,
        )?;
        ensure!(fields == ["99", "drive"], "{fields:?}");
        Ok(())
    })
}

/// Catches steps back that leave the train behind, and ones that make new entries.
#[test]
fn back_and_forward_go_through_what_was_on_screen() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let shown = four_entries(page)?;
        let names: Vec<_> = shown.iter().map(|seen| seen.ratio.as_deref()).collect();
        // 323/143: brake V makes s = −25/11 · out, so 78 = (108 + 750/11) · out.
        let ratios = [FIRST.ratio, SECOND.ratio, THIRD.ratio, "2.259 : 1"];
        ensure!(names == ratios.map(Some), "{names:?}");

        for expected in shown.iter().rev().skip(1) {
            page.back()?;
            check_shows(page, expected)?;
        }
        for expected in shown.iter().skip(1) {
            page.forward()?;
            check_shows(page, expected)?;
        }
        Ok(())
    })
}

/// Catches a step that finishes over a newer one and writes what is on screen into an entry it does
/// not belong to: two steps at once must lead two entries back, and every entry must still be there.
/// The scenarios differ, so that each step waits for a file.
#[test]
fn quick_steps_lose_nothing() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let mut shown = vec![page.seen()?];
        for stem in ["02-three-speed-common-sun", "01-one-set", EIGHT] {
            page.choose(stem)?;
            shown.push(page.seen()?);
        }
        let steps = |way: &str| {
            format!(
                "(async () => {{ \
                    const turned = () => new Promise((done) => \
                        addEventListener('popstate', done, {{ once: true }})); \
                    for (const step of [1, 2]) {{ \
                        const next = turned(); \
                        history.{way}(); \
                        await next; \
                    }} \
                }})()"
            )
        };
        page.get::<()>(&steps("back"), Value::Null)?;
        check_shows(page, &shown[1])?;
        page.back()?;
        check_shows(page, &shown[0])?;
        page.get::<()>(&steps("forward"), Value::Null)?;
        check_shows(page, &shown[2])?;
        page.forward()?;
        check_shows(page, &shown[3])?;
        let (address, stem): (String, String) =
            page.get("[location.hash, probe.seen().stem]", Value::Null)?;
        ensure!(address.starts_with(&format!("#s={stem}&")), "{address}");
        Ok(())
    })
}

/// First, second and third gear, and another scenario: what was on screen each time.
fn four_entries(page: &Page) -> Result<Vec<Seen>> {
    let mut shown = vec![page.seen()?];
    for range in [SECOND, THIRD] {
        page.click_range(range.id)?;
        shown.push(page.seen()?);
    }
    page.choose("02-three-speed-common-sun")?;
    shown.push(page.seen()?);
    Ok(shown)
}

/// Catches a choice that is made while a step back is on its way and is lost, or takes the place of
/// the entry that the step led to.
#[test]
fn a_choice_during_a_step_back_makes_an_entry_after_it() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let shown = four_entries(page)?;
        page.run(
            "addEventListener('popstate', () => probe.one(args).click(), { once: true }); history.back()",
            json!(".range-buttons [data-range-id=\"2\"]"),
        )?;
        page.until(
            "the range is shown",
            // Of what was on screen when it was pressed, which the step does not change any more.
            "probe.one('[data-range-id=\"2\"]').ariaPressed === 'true' && location.hash.startsWith('#s=02')",
        )?;
        let chosen = page.seen()?;
        page.back()?;
        check_shows(page, &shown[2])?;
        page.forward()?;
        check_shows(page, &chosen)
    })
}

const EIGHT: &str = "05-eight-speed-four-sets";

fn check_shows(page: &Page, expected: &Seen) -> Result<()> {
    let ratio = expected.ratio.clone().unwrap_or_default();
    page.until(
        &format!("{ratio} is on screen"),
        &format!("probe.text('[data-part=ratio]') === '{ratio}'"),
    )?;
    let seen = page.seen()?;
    ensure!(&seen == expected, "{seen:?}\ninstead of\n{expected:?}");
    Ok(())
}

/// Catches a slider that fills the history, or rewrites the address so often that browsers refuse
/// it, and a last step that is lost: one step back must lead to the range before, at its last speed.
#[test]
fn speeds_make_no_steps_in_the_history() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let before: usize = page.get("history.length", Value::Null)?;
        page.run(
            "window.rewritten = 0; const rewrite = history.replaceState; \
             history.replaceState = function (...entry) { rewritten += 1; rewrite.apply(this, entry); }; \
             const slider = probe.one('.controls input[type=range]'); \
             for (let step = 0; step < 200; step += 1) { \
                slider.valueAsNumber = 1100 + 10 * step; \
                slider.dispatchEvent(new Event('input', { bubbles: true })); \
             }",
            Value::Null,
        )?;
        let last: u32 = page.get("probe.one('#speed').valueAsNumber", Value::Null)?;
        page.until(
            "the address says the last speed",
            &format!("location.hash.endsWith('&n={last}')"),
        )?;
        let rewritten: usize = page.get("rewritten", Value::Null)?;
        ensure!(rewritten <= 2, "rewritten {rewritten} times");
        let after: usize = page.get("history.length", Value::Null)?;
        ensure!(after == before, "{before} entries became {after}");

        // The range comes before the address has followed.
        page.run(
            "const slider = probe.one('.controls input[type=range]'); \
             for (const speed of [1200, 1400]) { \
                slider.valueAsNumber = speed; \
                slider.dispatchEvent(new Event('input', { bubbles: true })); \
             } \
             probe.one(args).click()",
            json!(format!(".range-buttons [data-range-id=\"{}\"]", SECOND.id)),
        )?;
        ensure!(fragment(page)?.ends_with("&n=1400"), "{}", fragment(page)?);
        set_speed(page, 1500)?;
        page.back()?;
        page.until(
            "first gear is back",
            "probe.text('[data-part=ratio]') === '2.706 : 1'",
        )?;
        ensure!(page.seen()?.speed.as_deref() == Some("1400"));
        Ok(())
    })
}

/// Catches speeds in the tables that stay as they were. In second gear c2 turns at 17/46.
#[test]
fn the_input_speed_is_in_every_speed() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(SECOND), |page| {
        let cell = "probe.text('tr[data-shaft-id=\"c2\"] td')";
        ensure!(page.get::<String>(cell, Value::Null)? == "369.6");
        set_speed(page, 4600)?;
        ensure!(page.get::<String>(cell, Value::Null)? == "1700");
        Ok(())
    })
}
