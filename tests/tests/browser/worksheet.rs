//! A sheet of paper for a class, with blanks and with answers.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::print::{PAPERS, STEMS, sheets, showing};

/// Presses one of the buttons, and waits until the sheet is handed to the printer.
fn hand_over(page: &Page, which: &str) -> Result<()> {
    page.unfold("worksheet")?;
    page.run(
        "window.printed = false; window.print = () => { window.printed = true; }; \
         probe.one(`[data-print=${args}]`).click()",
        json!(which),
    )?;
    page.until("it is printed", "window.printed")
}

fn over(page: &Page) -> Result<()> {
    page.run("dispatchEvent(new Event('afterprint'))", Value::Null)
}

/// Catches a sheet that runs over on one of the papers, and one that stays in the page.
#[test]
fn a_worksheet_is_one_sheet_of_either_paper() -> Result<()> {
    page::open(View::LAPTOP.dark(), &by_hand::link(FIRST), |page| {
        for stem in STEMS {
            page.goto(&format!("index.html#s={stem}"))?;
            for which in ["blanks", "answers"] {
                hand_over(page, which)?;
                for paper in PAPERS {
                    let sheets = sheets(&page.print(paper.clone())?);
                    ensure!(sheets == 1, "{stem}, {which} on {paper:?}: {sheets} sheets");
                }
                over(page)?;
                let left: usize = page.get("probe.all('.worksheet').length", Value::Null)?;
                ensure!(left == 0, "it stays in the page");
            }
        }
        Ok(())
    })
}

/// By hand: first of the six-speed is 46/17 with Carrier 1 + ring 2 held by Brake W, reverse −3; in first
/// the output turns at 1000 · 17/46 rev/min. Catches an answer where a blank belongs, a blank where it
/// does not, and the page itself beside the sheet.
#[test]
fn blanks_hold_nothing_and_answers_what_is_true() -> Result<()> {
    const ANSWERS: [&str; 4] = ["2.706", "−3.000", "369.6", "Drives, backward"];
    // Seven ranges of three, seven ranges of six shafts, and the lines for name and date.
    const BLANKS: usize = 7 * 3 + 7 * 6 + 2;
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        let on_paper = |page: &Page| -> Result<(String, usize)> {
            page.lay_out_for_paper(true)?;
            let shown = showing(page, "[data-part=paper]")?;
            ensure!(shown.len() == 1, "{shown:?}");
            let rest = showing(
                page,
                "[data-part=answer], .panel, .top, canvas[data-drawing]",
            )?;
            ensure!(rest.is_empty(), "{rest:?}");
            let blanks = showing(page, "[data-part=paper] .blank")?.len();
            let white: bool = page.get(
                "[...probe.one('[data-part=paper] canvas').getContext('2d') \
                    .getImageData(1, 1, 1, 1).data].every((part) => part === 255)",
                Value::Null,
            )?;
            ensure!(white, "the drawing has a tinted ground");
            page.lay_out_for_paper(false)?;
            over(page)?;
            Ok((shown.concat(), blanks))
        };
        hand_over(page, "blanks")?;
        let (text, blanks) = on_paper(page)?;
        ensure!(blanks == BLANKS, "{blanks} blanks");
        for answer in ANSWERS {
            ensure!(!text.contains(answer), "{answer} is given away");
        }
        ensure!(text.contains("Brake W and Clutch J"), "{text}");

        hand_over(page, "answers")?;
        let (text, blanks) = on_paper(page)?;
        ensure!(blanks == 0, "{blanks} blanks beside answers");
        for answer in ANSWERS {
            ensure!(text.contains(answer), "{answer} is not in {text}");
        }
        ensure!(text.contains("Drives, forwardCarrier 1 + ring 2"), "{text}");

        // Only what is chosen is left out.
        page.run("probe.one('[data-blank=ratios]').click()", Value::Null)?;
        hand_over(page, "blanks")?;
        let (text, blanks) = on_paper(page)?;
        ensure!(blanks == BLANKS - 7, "{blanks} blanks");
        ensure!(text.contains("2.706") && !text.contains("369.6"), "{text}");
        Ok(())
    })
}

/// Catches a train that no range shows as it is.
#[test]
fn what_is_applied_is_on_the_sheet_where_no_range_has_it() -> Result<()> {
    let fragment = format!("#s={}&on=W", by_hand::STEM);
    page::open(View::LAPTOP, &fragment, |page| {
        hand_over(page, "answers")?;
        let text: String = page.get("probe.text('[data-part=paper]')", Value::Null)?;
        ensure!(text.contains("As shownBrake WNeutral"), "{text}");
        Ok(())
    })
}
