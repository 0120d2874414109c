//! Sheets that somebody puts together: they last, they can be changed, and they are gone through as they are.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Key, Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::editing;
use crate::language;
use crate::learner::Learner;

const STEM: &str = "09-six-speed-front-set";
const LINES: &str = "probe.all('.exercise-set li > span').map((node) => node.textContent)";

fn open_setting(page: &Page) -> Result<()> {
    page.unfold("exercises")?;
    page.until(
        "there are kinds",
        "probe.all('#exercise-set-kind option').length > 4",
    )?;
    page.run(
        "probe.one('[data-part=exercise-setting]').open = true",
        Value::Null,
    )
}

fn press(page: &Page, part: &str) -> Result<()> {
    page.run(
        "probe.one(`[data-part=exercise-${args}]`).click()",
        json!(part),
    )
}

fn add(page: &Page, kind: &str) -> Result<()> {
    page.run(
        "(() => { const node = probe.one('#exercise-set-kind'); node.value = args; node.dispatchEvent(new Event('change')); })()",
        json!(kind),
    )?;
    press(page, "add")
}

fn lines(page: &Page) -> Result<Vec<String>> {
    page.get(LINES, Value::Null)
}

fn text(page: &Page, part: &str) -> Result<String> {
    page.get("probe.text(`[data-part=exercise-${args}]`)", json!(part))
}

/// In a range: two questions about it and a walk through it.
fn put_together(page: &Page, applied: &[&str]) -> Result<()> {
    open_setting(page)?;
    page.run("probe.host('lever-train').apply(args)", json!(applied))?;
    for kind in ["reach", "speed"] {
        add(page, kind)?;
    }
    press(page, "walk-add")?;
    let found = lines(page)?.len();
    ensure!(found == 3, "{found} lines");
    Ok(())
}

/// Catches a sheet that a reload, another language, another scenario or a closed tab loses without a word.
#[test]
fn what_is_put_together_lasts() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        put_together(page, &["H", "W"])?;
        let before = lines(page)?;
        ensure!(
            text(page, "lasts")?.starts_with("This browser keeps"),
            "nothing is said of it"
        );
        page.reload()?;
        open_setting(page)?;
        ensure!(lines(page)? == before, "{:?} after a reload", lines(page)?);
        language::speak_german(page)?;
        page.until("it is there", &format!("{LINES}.length === 3"))?;
        ensure!(
            lines(page)?[0].starts_with("Rundgang"),
            "{:?}",
            lines(page)?
        );
        page.run("localStorage['levertrain-language'] = 'en'", Value::Null)?;
        page.goto("index.html#s=01-one-set")?;
        // What a tab keeps goes with it.
        page.run("sessionStorage.clear()", Value::Null)?;
        page.reload()?;
        open_setting(page)?;
        ensure!(lines(page)?.is_empty(), "it is of another train");
        let aside = text(page, "aside")?;
        ensure!(
            aside.contains("Six-speed, front set") && aside.contains("3 lines"),
            "{aside}"
        );
        press(page, "again")?;
        page.until("it is back", &format!("{LINES}.length === 3"))?;
        ensure!(lines(page)? == before, "{:?} when it is back", lines(page)?);
        ensure!(page.seen()?.stem.as_deref() == Some(STEM));
        // Emptied it is gone, but for one step back.
        press(page, "drop")?;
        ensure!(lines(page)?.is_empty());
        press(page, "back")?;
        ensure!(lines(page)? == before);
        page.check_faults()
    })
}

/// Catches a sheet that an edit of its train loses, a question that the changed train has no answer to and that is asked all the
/// same, and one that does not come back with the step. By hand as in `editing`: the ratio of first is 1 + 87/51.
#[test]
fn a_sheet_follows_its_train_through_edits() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        put_together(page, &FIRST.applied)?;
        let before = lines(page)?;
        let left_out = |expected: usize| {
            let condition =
                format!("probe.all('.exercise-set [data-unasked]').length === {expected}");
            page.until("the list follows", &condition)
        };
        left_out(0)?;
        editing::open_form(page)?;
        editing::set(page, "teeth p2 0", "52")?;
        left_out(1)?;
        let after = lines(page)?;
        ensure!(
            after.len() == 3 && after[0] == before[0] && after[1].ends_with("so left out)"),
            "{after:?}"
        );
        press(page, "try")?;
        let learner = Learner::at(page, "lever-train");
        learner.walk_through()?;
        ensure!(learner.place()?.starts_with("Question 1 of 1"));
        press(page, "stop")?;
        editing::set(page, "teeth p2 0", "51")?;
        left_out(0)?;
        ensure!(lines(page)? == before, "{:?}", lines(page)?);
        page.check_faults()
    })
}

/// Catches a browser that keeps nothing, of which nobody is told.
#[test]
fn a_sheet_that_is_not_kept_says_so() -> Result<()> {
    page::open(View::PHONE, &format!("#s={STEM}"), |page| {
        page.run(
            "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); }",
            Value::Null,
        )?;
        put_together(page, &["H", "W"])?;
        let told = text(page, "lasts")?;
        ensure!(told.contains("does not keep the exercise sheet"), "{told}");
        Ok(())
    })
}

/// Catches a question that is there twice, lines that cannot be moved or lose the focus, and a choice that does not
/// follow the stage.
#[test]
fn lines_are_moved_removed_and_never_there_twice() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        put_together(page, &["H", "W"])?;
        let before = lines(page)?;
        for press_again in ["add", "walk-add"] {
            press(page, press_again)?;
            ensure!(lines(page)? == before, "{:?}", lines(page)?);
            let told = text(page, "refused")?;
            ensure!(told.contains("is on the exercise sheet already"), "{told}");
        }
        // By the button, and by keys.
        page.run(
            "probe.one('.exercise-set [data-move=\"1 1\"]').click()",
            Value::Null,
        )?;
        let [walk, first, second] = &before[..] else {
            anyhow::bail!("{before:?}");
        };
        ensure!(lines(page)? == [walk, second, first].map(String::clone));
        page.chord(Key::Alt, Key::Up.into())?;
        ensure!(lines(page)? == before, "{:?} by keys", lines(page)?);
        let focus: String = page.get(
            "probe.host('lever-train').shadowRoot.activeElement.dataset.move ?? ''",
            Value::Null,
        )?;
        ensure!(focus.starts_with('1'), "the focus is at {focus}");
        // Questions stay behind the walkthrough.
        ensure!(page.get::<bool>(
            "probe.one('.exercise-set [data-move=\"1 -1\"]').disabled",
            Value::Null
        )?);
        page.run(
            "probe.one('.exercise-set [data-remove=\"1\"]').click()",
            Value::Null,
        )?;
        ensure!(lines(page)? == [walk, second].map(String::clone));
        page.run("probe.host('lever-train').apply(['H', 'V'])", Value::Null)?;
        let chosen: String = page.get("probe.one('#exercise-set-range').value", Value::Null)?;
        ensure!(chosen == "2", "{chosen} is to be asked about");
        page.check_faults()
    })
}

/// Catches a walkthrough that is left out as a sheet is tried, steps that light no element, and one that is there while
/// something is asked.
#[test]
fn trying_a_sheet_walks_through_its_ranges_first() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        put_together(page, &["H", "W"])?;
        page.run("probe.host('lever-train').apply([])", Value::Null)?;
        press(page, "try")?;
        let learner = Learner::at(page, "lever-train");
        learner.walks()?;
        ensure!(page.seen()?.applied == ["H", "W"]);
        // The first step tells what the input turns, the second what the clutch joins.
        for _ in 0..2 {
            page.run(
                "probe.one('.walk-first [data-part=walk-next]').click()",
                Value::Null,
            )?;
        }
        let told: Vec<String> = page.get(
            "probe.all('.handle[data-told]').map(({ dataset }) => dataset.elementId)",
            Value::Null,
        )?;
        ensure!(told == ["H"], "{told:?}");
        page.run("probe.host('lever-train').apply(['V'])", Value::Null)?;
        ensure!(
            !page.shows(".walk-first [data-part=walk-steps]")?,
            "steps of another range"
        );
        page.run(
            "probe.one('[data-part=walk-first-again]').click()",
            Value::Null,
        )?;
        ensure!(page.seen()?.applied == ["H", "W"]);
        learner.walk_through()?;
        ensure!(page.seen()?.applied.is_empty());
        let told: usize = page.get("probe.all('.handle[data-told]').length", Value::Null)?;
        ensure!(told == 0, "{told} elements stay marked");
        page.check_faults()
    })
}

/// Catches a phone on which somebody at the last step under the drawings has to look for what follows, far from there,
/// or has to look for the first step of the next range.
#[test]
fn on_a_phone_the_last_step_leads_on() -> Result<()> {
    page::open(View::PHONE, &format!("#s={STEM}"), |page| {
        put_together(page, &["H", "W"])?;
        page.run("probe.host('lever-train').apply(['J', 'W'])", Value::Null)?;
        press(page, "walk-add")?;
        press(page, "try")?;
        let learner = Learner::at(page, "lever-train");
        learner.walks()?;
        for (applied, leads) in [
            (["H", "W"], "On to the next range"),
            (["J", "W"], "On to the questions"),
        ] {
            ensure!(page.seen()?.applied == applied);
            if applied[0] == "H" {
                page.run(
                    "probe.one('.walk-first [data-part=walk-next]').click()",
                    Value::Null,
                )?;
            }
            // Of the second range the first step has come by itself.
            page.until(
                "a step is told",
                "probe.one('[data-part=walk-bar]').checkVisibility()",
            )?;
            let steps: usize = page.get(
                "probe.all('.walk-first [data-part=walk-steps] li').length",
                Value::Null,
            )?;
            ensure!(steps > 1, "{steps} steps");
            for _ in 1..steps {
                ensure!(
                    !page.shows("[data-part=walk-bar-on]")?,
                    "offered before the last step"
                );
                page.click("[data-part=walk-bar-next]")?;
            }
            let words: String = page.get("probe.text('[data-part=walk-bar-on]')", Value::Null)?;
            ensure!(words == leads, "{words}");
            let height: f64 = page.get(
                "probe.one('[data-part=walk-bar-on]').getBoundingClientRect().height",
                Value::Null,
            )?;
            ensure!(height >= 44.0, "{height} px high");
            page.click("[data-part=walk-bar-on]")?;
        }
        learner.asked()?;
        ensure!(!page.shows("[data-part=walk-bar]")?, "it stays");
        Ok(())
    })
}

/// Catches lines of a sheet that nobody can tell apart.
#[test]
fn what_is_to_be_put_in_order_is_in_the_line() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        open_setting(page)?;
        for _ in 0..2 {
            add(page, "order")?;
        }
        let found = lines(page)?;
        ensure!(found.len() == 2 && found[0] != found[1], "{found:?}");
        let labels: Vec<String> = page.get(
            "probe.all('.range-buttons [data-range-id]').map(({ textContent }) => textContent)",
            Value::Null,
        )?;
        for line in &found {
            let named = labels
                .iter()
                .filter(|label| line.contains(label.as_str()))
                .count();
            ensure!(named > 2, "{line}, of {labels:?}");
        }
        Ok(())
    })
}

/// Catches a phone on which the question and the drawing that it is about are never seen together.
#[test]
fn on_a_phone_question_and_drawing_are_in_one_sight() -> Result<()> {
    const TOGETHER: &str = "(() => { \
        const box = (selector) => probe.one(selector).getBoundingClientRect(); \
        const [drawing, asked, check] = ['.stage', '.exercise-asked', '[data-part=exercise-check]'].map(box); \
        return drawing.top >= -1 && drawing.height > 150 && asked.top >= drawing.bottom - 1 && check.bottom <= innerHeight; \
    })()";
    page::open(View::PHONE, &format!("#s={STEM}"), |page| {
        page.unfold("exercises")?;
        page.until(
            "there is a sheet",
            "!probe.one('[data-part=exercise-sheet]').hidden",
        )?;
        press(page, "sheet")?;
        Learner::at(page, "lever-train").asked()?;
        for _ in 0..3 {
            page.until("both are in sight", TOGETHER)?;
            press(page, "reveal")?;
            page.until(
                "so is what came of it",
                "(() => { const [drawing, told, next] = ['.stage', '.exercise-told', '[data-part=exercise-next]'] \
                    .map((part) => probe.one(part).getBoundingClientRect()); \
                    return drawing.top >= -1 && told.top >= drawing.bottom - 1 && next.bottom <= innerHeight; })()",
            )?;
            press(page, "next")?;
        }
        // Scrolled on, the drawing stays.
        page.run("scrollBy(0, 200)", Value::Null)?;
        page.until(
            "it stays",
            "Math.abs(probe.one('.stage').getBoundingClientRect().top) < 2",
        )
    })
}
