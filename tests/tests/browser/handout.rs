//! A sheet of exercises on paper, with room for the answers and with them.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::language;
use crate::print::{PAPERS, sheets, showing};

/// Sheets of ours, and how many sheets of paper each needs at most.
const OURS: [(&str, usize); 4] = [
    ("01-one-set", 2),
    ("02-three-speed-common-sun", 2),
    ("08-four-speed-four-member-set", 2),
    ("09-six-speed-front-set", 3),
];

/// Of the six-speed, worked out by hand: ring 2 is held in first, where the output turns at 17/46;
/// third is 97/68, second 437/221 and first 46/17. V holds sun 1, which H joins to the input.
const SHEET: &str = r#"{
    "format": 1, "title": "By hand", "walk": ["1", "2"],
    "tasks": [
        {"task": "members", "range": "1", "set": "p2", "part": "held"},
        {"task": "direction", "range": "1", "shaft": "s1"},
        {"task": "speed", "range": "1", "shaft": "out"},
        {"task": "order", "ranges": ["3", "1", "2"]},
        {"task": "tie-up", "among": [["V", "H"], ["W", "J"]]},
        {"task": "reach", "ratio": "97/68"}
    ]
}"#;

fn open_place(page: &Page) -> Result<()> {
    page.unfold("exercises")?;
    page.run(
        "window.printed = false; window.print = () => { window.printed = true; }; \
         const place = probe.one('[data-part=handout]'); place.open = true",
        Value::Null,
    )?;
    page.until(
        "sheets are offered",
        "probe.one('#handout-which').options.length > 0",
    )
}

fn hand_over(page: &Page, which: &str, how: &str) -> Result<()> {
    page.run(
        "window.printed = false; const list = probe.one('#handout-which'); list.value = args[0]; \
         probe.one(`[data-part=handout-${args[1]}]`).click()",
        json!([which, how]),
    )?;
    page.until("it is printed", "window.printed")
}

/// Hands over the sheet worked out by hand, as a file.
fn hand_over_file(page: &Page, name: &str, how: &str) -> Result<()> {
    page.run(
        "window.printed = false; const list = probe.one('#handout-which'); list.value = 'file'; \
         const chooser = probe.one('[data-part=handout-file]'); \
         chooser.click = () => { \
            const files = new DataTransfer(); files.items.add(new File([args[1]], args[2])); \
            chooser.files = files.files; chooser.dispatchEvent(new Event('change')); \
         }; \
         probe.one(`[data-part=handout-${args[0]}]`).click()",
        json!([how, SHEET, name]),
    )?;
    page.until("it is printed", "window.printed")
}

fn over(page: &Page) -> Result<()> {
    page.run("dispatchEvent(new Event('afterprint'))", Value::Null)?;
    let left: usize = page.get("probe.all('.handout').length", Value::Null)?;
    ensure!(left == 0, "it stays in the page");
    Ok(())
}

/// Catches a sheet that needs more paper than it should, with answers or without, on either paper, and one that stays
/// in the page.
#[test]
fn each_of_our_sheets_fits_its_paper() -> Result<()> {
    page::open(View::LAPTOP.dark(), "", |page| {
        for (stem, most) in OURS {
            page.goto(&format!("index.html#s={stem}"))?;
            open_place(page)?;
            for how in ["blank", "answers"] {
                hand_over(page, "scenario", how)?;
                for paper in PAPERS {
                    let pdf = page.print(paper.clone())?;
                    if let Some(folder) = std::env::var_os("LEVERTRAIN_KEEP_PDF") {
                        fs::write(Path::new(&folder).join(format!("{stem}-{how}.pdf")), &pdf)?;
                    }
                    let sheets = sheets(&pdf);
                    ensure!(
                        (1..=most).contains(&sheets),
                        "{stem}, {how} on {paper:?}: {sheets} sheets"
                    );
                }
                over(page)?;
            }
        }
        Ok(())
    })
}

fn on_paper(page: &Page) -> Result<(String, usize, usize)> {
    page.lay_out_for_paper(true)?;
    let shown = showing(page, "[data-part=handout-paper]")?;
    ensure!(shown.len() == 1, "{shown:?}");
    let rest = showing(
        page,
        "[data-part=answer], .panel, .top, canvas[data-drawing]",
    )?;
    ensure!(rest.is_empty(), "{rest:?}");
    let blanks = showing(page, ".handout-questions .blank")?.len();
    let ticked = showing(page, ".handout-right")?.len();
    page.lay_out_for_paper(false)?;
    over(page)?;
    Ok((shown.concat(), blanks, ticked))
}

/// Catches an answer on the sheet without answers (the walk through first tells what is asked), one that is not true on the other, levers of a range that is asked
/// about, and the page beside it.
#[test]
fn blanks_answer_nothing_and_answers_are_true() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_place(page)?;
        hand_over_file(page, "by-hand.json", "blank")?;
        let figures: usize = page.get("probe.all('.handout canvas').length", Value::Null)?;
        // The half-section, and the levers of second: first is asked about.
        ensure!(figures == 2, "{figures} drawings");
        let (text, blanks, ticked) = on_paper(page)?;
        ensure!(
            blanks == 3 && ticked == 0,
            "{blanks} blanks, {ticked} ticked"
        );
        for answer in ["17/46", "Clutch J joins", "1st → 2nd → 3rd", "☒", "Answers"] {
            ensure!(!text.contains(answer), "{answer} is given away: {text}");
        }
        for part in [
            "By hand",
            "Walkthrough: 1st",
            "Walkthrough: 2nd",
            "☐ Ring",
            "Name",
        ] {
            ensure!(text.contains(part), "{part} is not in {text}");
        }

        hand_over_file(page, "by-hand.json", "answers")?;
        let figures: usize = page.get("probe.all('.handout canvas').length", Value::Null)?;
        ensure!(figures == 3, "{figures} drawings");
        let (text, blanks, ticked) = on_paper(page)?;
        ensure!(
            blanks == 0 && ticked == 3,
            "{blanks} blanks, {ticked} ticked"
        );
        for part in [
            "Answers",
            "☒ Ring",
            "☒ Backward",
            "0.370 (17/46)",
            "1st → 2nd → 3rd",
            "☒ Brake V and Clutch H",
            "Applied:Brake V and Clutch J",
        ] {
            ensure!(text.contains(part), "{part} is not in {text}");
        }
        Ok(())
    })
}

/// Catches answers that can be printed while a question asks for them, and by whom a sheet is put to.
#[test]
fn no_answers_are_offered_while_a_question_is_open() -> Result<()> {
    page::open(View::LAPTOP, "#s=01-one-set", |page| {
        open_place(page)?;
        page.until(
            "its own sheet is offered",
            "!probe.one('[data-part=exercise-sheet]').hidden",
        )?;
        ensure!(page.shows("[data-part=handout-answers]")?);
        page.click("[data-part=exercise-sheet]")?;
        page.until("it asks", "probe.one('.exercise-asked')")?;
        ensure!(!page.shows("[data-part=handout-answers]")?, "it is offered");
        page.run(
            "probe.one('[data-part=handout-answers]').click()",
            Value::Null,
        )?;
        page.rest()?;
        ensure!(
            !page.get::<bool>("window.printed", Value::Null)?,
            "it is printed"
        );
        Ok(())
    })
}

/// Catches a sheet that is put together and cannot be printed, and one in another language than the page's.
#[test]
fn what_is_put_together_is_printed_in_german_too() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        language::speak_german(page)?;
        open_place(page)?;
        page.run(
            "probe.one('[data-part=exercise-setting]').open = true; \
             probe.one('[data-part=handout]').open = false",
            Value::Null,
        )?;
        page.run("probe.one('[data-part=exercise-add]').click()", Value::Null)?;
        open_place(page)?;
        page.until(
            "it is offered",
            "[...probe.one('#handout-which').options].some(({ value }) => value === 'made')",
        )?;
        hand_over(page, "made", "answers")?;
        let (text, ..) = on_paper(page)?;
        ensure!(
            text.contains("Geschlossen:Bremse W und Kupplung J"),
            "{text}"
        );
        Ok(())
    })
}
