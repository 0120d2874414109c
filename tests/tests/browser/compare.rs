//! Something pinned, and compared with what is shown.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND};

/// Pins what is shown, and waits until it stands in the panel.
fn pin(page: &Page) -> Result<()> {
    page.unfold("compare")?;
    page.click("[data-part=pin]")?;
    stands(page)
}

fn stands(page: &Page) -> Result<()> {
    page.until(
        "it is compared with",
        "probe.one('[data-part=compare] table').checkVisibility()",
    )?;
    page.rest()
}

/// The cells of the first row with this name; pinned, now and the difference.
fn row(page: &Page, name: &str) -> Result<[String; 3]> {
    page.get(
        "(() => { \
            const row = probe.all('[data-part=compare] tbody tr').find((row) => row.children[0].textContent === args); \
            if (!row) throw new Error(`no row ${args}`); \
            return [...row.children].slice(1).map((cell) => cell.textContent); \
        })()",
        json!(name),
    )
}

fn check_row(page: &Page, name: &str, wanted: [&str; 3]) -> Result<()> {
    let found = row(page, name)?;
    ensure!(found == wanted, "{name}: {found:?}, not {wanted:?}");
    Ok(())
}

fn pinned_name(page: &Page) -> Result<String> {
    page.get("probe.text('[data-part=pinned]')", Value::Null)
}

/// By hand: 46/17 and 437/221 of the six-speed; at 100 N·m Brake W, which the input does not drive
/// through, takes ratio − 1 of the input torque in either range. Catches a difference the wrong way
/// round, one told by nothing but its number, and levers that stay when what is pinned has gone.
#[test]
fn a_range_is_compared_with_another() -> Result<()> {
    const LEGEND: f64 = 20.0;
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.click_range(SECOND.id)?;
        let alone = page.seen()?.lever;
        let height = page.canvas("lever")?.on_page.1;
        page.click_range(FIRST.id)?;
        pin(page)?;
        ensure!(
            pinned_name(page)? == "Pinned: 1st of Six-speed, three sets",
            "{}",
            pinned_name(page)?
        );
        check_row(page, "Ratio", ["2.706", "2.706", "same"])?;

        page.click_range(SECOND.id)?;
        page.rest()?;
        check_row(page, "State", ["Drives", "Drives", "same"])?;
        check_row(page, "Ratio", ["2.706", "1.977", "−0.729 lower"])?;
        check_row(
            page,
            "Output torque, N·m",
            ["270.6", "197.7", "−72.85 lower"],
        )?;
        check_row(
            page,
            "Torque on the housing, N·m",
            ["−170.6", "−97.74", "+72.85 higher"],
        )?;
        let folded: bool = page.get(
            "probe.all('[data-part=compare] .group').some((row) => row.textContent === 'Ratios of the rangesall the same')",
            Value::Null,
        )?;
        ensure!(folded, "ranges of one train are told one by one");

        let compared = page.canvas("lever")?;
        ensure!(page.seen()?.lever != alone, "the levers stand alone");
        let higher = compared.on_page.1 - height;
        ensure!((higher - LEGEND).abs() < 1.5, "{higher} higher");

        page.click("[data-part=unpin]")?;
        page.until(
            "it is let go",
            "!probe.one('[data-part=compare] table').checkVisibility()",
        )?;
        ensure!(
            page.seen()?.lever == alone,
            "what was pinned still stands there"
        );
        Ok(())
    })
}

/// By hand: 1 + 87/52 with one tooth more, as in the test of the form; a first of the Ravigneaux train is 27/7.
/// Catches something pinned that follows the edit, or goes with an undo, another scenario or a reload.
#[test]
fn what_is_pinned_outlasts_edits_scenarios_and_reloads() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        pin(page)?;
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.all('[data-part=edit] [data-key]').length > 0",
        )?;
        page.run(
            "const node = probe.all('[data-part=edit] [data-key]').find((node) => node.dataset.key === 'teeth p2 0'); \
             node.focus(); node.value = '52'; node.dispatchEvent(new Event('input', { bubbles: true }))",
            Value::Null,
        )?;
        page.rest()?;
        check_row(page, "Ratio", ["2.706", "2.673", "−0.033 lower"])?;
        check_row(page, "1st", ["2.706", "2.673", "−0.033 lower"])?;
        page.click("[data-part=edit] button[data-key=undo]")?;
        page.rest()?;
        check_row(page, "Ratio", ["2.706", "2.706", "same"])?;

        page.choose("09-six-speed-front-set")?;
        page.rest()?;
        check_row(page, "Ratio", ["2.706", "3.857", "+1.151 higher"])?;
        // 46/17 over 617/1261, and 27/7 over 27/40.
        check_row(page, "Spread", ["5.530", "5.714", "+0.184 higher"])?;

        page.reload()?;
        page.unfold("compare")?;
        stands(page)?;
        ensure!(pinned_name(page)?.starts_with("Pinned: 1st of"), "lost");
        check_row(page, "Ratio", ["2.706", "3.857", "+1.151 higher"])?;
        page.click("[data-part=unpin]")?;
        page.reload()?;
        page.unfold("compare")?;
        ensure!(
            !page.shows("[data-part=pinned]")?,
            "what was let go is back"
        );
        Ok(())
    })
}
