//! What is in hand stays in hand as the page changes its language, and comes out on paper without controls.

use anyhow::{Context, Result, ensure};
use levertrain_core::exercise::QuestionReport;
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::accessibility::check_as_it_is;
use crate::exercises::{STEM, answer, press, sheet, start};
use crate::language::speak_german;
use crate::print::showing;

fn part(page: &Page, part: &str) -> Result<String> {
    page.get("probe.text(`[data-part=${args}]`)", json!(part))
}

/// Catches a switch that ends a round, forgets what it has earned, or empties what is picked and not checked yet.
#[test]
fn a_round_goes_on_in_the_other_language() -> Result<()> {
    let (train, sheet) = sheet()?;
    let by = |at: usize| QuestionReport::of(&train, &sheet.tasks[at]).by;
    let right = |at: usize| sheet.tasks[at].solve(&train).context("an answer");
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        start(page)?;
        answer(page, by(0), &right(0)?)?;
        press(page, "[data-part=exercise-check]")?;
        press(page, "[data-part=exercise-next]")?;
        answer(page, by(1), &right(1)?)?;
        speak_german(page)?;
        page.until("it asks", "probe.one('.exercise-asked')")?;
        let place = part(page, "exercise-place")?;
        let expected = format!("Frage 2 von {}, bisher 1 Punkt", sheet.tasks.len());
        ensure!(place == expected, "{place}");
        ensure!(
            !page.get::<bool>(
                "probe.all('.exercise-asked').some((node) => node.textContent.includes('Which'))",
                Value::Null
            )?,
            "it asks in English"
        );
        // What was picked is what is checked.
        press(page, "[data-part=exercise-check]")?;
        let told: String = page.get("probe.one('.exercise-told').dataset.mark", Value::Null)?;
        ensure!(told == "right", "{told}");
        page.check_faults()
    })
}

/// Catches a result, its list and what was unfolded that are gone, and a result that stays where another train has come.
#[test]
fn a_result_and_folds_stay_in_the_other_language() -> Result<()> {
    const CAME: &str = "[probe.text('[data-part=exercise-score]').match(/[0-9]+/g), \
        probe.all('.exercise-results > li').map(({ dataset }) => dataset.mark), \
        probe.all('[data-part=exercises] .panel-body details[open]').map(({ dataset }) => dataset.part)]";
    let (train, sheet) = sheet()?;
    let by = QuestionReport::of(&train, &sheet.tasks[0]).by;
    let right = sheet.tasks[0].solve(&train).context("an answer")?;
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        start(page)?;
        answer(page, by, &right)?;
        press(page, "[data-part=exercise-check]")?;
        press(page, "[data-part=exercise-next]")?;
        press(page, "[data-part=exercise-reveal]")?;
        press(page, "[data-part=exercise-stop]")?;
        page.until(
            "it is over",
            "probe.all('.exercise-results > li').length > 2",
        )?;
        for part in ["handout", "package"] {
            page.run(
                "probe.one(`[data-part=exercises] details[data-part=${args}]`).open = true",
                json!(part),
            )?;
        }
        let before: Value = page.get(CAME, Value::Null)?;
        ensure!(
            before[1][0] == "right" && before[1][1] == "shown",
            "{before}"
        );
        ensure!(before[2] == json!(["handout", "package"]), "{before}");
        speak_german(page)?;
        page.until(
            "the list is there",
            "probe.all('.exercise-results > li').length > 2",
        )?;
        let after: Value = page.get(CAME, Value::Null)?;
        ensure!(after == before, "{after}, not {before}");
        let words = part(page, "exercise-results")?;
        ensure!(!words.contains("Right"), "{words}");
        page.turn_to("01-one-set")?;
        page.rest()?;
        let left: Value = page.get(CAME, Value::Null)?;
        ensure!(left[0].is_null() && left[1] == json!([]), "{left}");
        page.check_faults()
    })
}

/// Catches reasons and lists of explanations that are folded again.
#[test]
fn what_was_unfolded_of_faults_stays_so() -> Result<()> {
    const OPEN: &str =
        "probe.all('[data-part=faults] .panel-body details').map(({ open }) => open)";
    const CHOOSE: &str = "const node = probe.one(args[0]); node.value = args[1] < 0 ? 'lost' : node.options[args[1]].value; \
        node.dispatchEvent(new Event('change', { bubbles: true }))";
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        page.unfold("faults")?;
        page.until(
            "faults are offered",
            "probe.one('#faults-first')?.options.length > 2",
        )?;
        page.run(CHOOSE, json!(["#faults-first", 1]))?;
        page.run(CHOOSE, json!(["[data-seen]", -1]))?;
        page.until(
            "pairs are listed",
            "probe.one('[data-part=faults-groups] details') && probe.one('[data-part=faults-explains] progress').hidden",
        )?;
        page.run(
            "probe.one('[data-part=faults-groups] details').open = true; probe.one('[data-part=faults-does] details').open = true",
            Value::Null,
        )?;
        page.rest()?;
        let before: Vec<bool> = page.get(OPEN, Value::Null)?;
        ensure!(
            before.iter().filter(|open| **open).count() == 2,
            "{before:?}"
        );
        speak_german(page)?;
        page.until(
            "pairs are listed",
            "probe.one('[data-part=faults-groups] details') && probe.one('[data-part=faults-explains] progress').hidden",
        )?;
        let after: Vec<bool> = page.get(OPEN, Value::Null)?;
        ensure!(after == before, "{after:?}, not {before:?}");
        let items: usize = page.get(
            "probe.all('[data-part=faults-groups] details[open] li').length",
            Value::Null,
        )?;
        ensure!(items > 0, "it is empty");
        page.check_faults()
    })
}

/// Catches faults, observations, a step and a range to shift to that are gone.
#[test]
fn faults_and_steps_stay_as_they_were_picked() -> Result<()> {
    const PICKED: &str = "[probe.one('#faults-first').value, \
        ...probe.all('[data-seen]').map(({ value }) => value), probe.one('#walk-shift-to').value, \
        probe.all('[data-part=walk-steps] button').findIndex((node) => node.ariaCurrent === 'step')]";
    const CHOOSE: &str = "const node = probe.one(args[0]); node.value = [...node.options].at(args[1]).value; \
        node.dispatchEvent(new Event('change', { bubbles: true }))";
    let link = format!("#s={STEM}&on=H,W");
    page::open(View::LAPTOP, &link, |page| {
        for panel in ["faults", "walk"] {
            page.unfold(panel)?;
        }
        page.until(
            "faults are offered",
            "probe.one('#faults-first')?.options.length > 2",
        )?;
        page.run(CHOOSE, json!(["#faults-first", 2]))?;
        page.run(CHOOSE, json!(["[data-seen]", 2]))?;
        page.run(CHOOSE, json!(["#walk-shift-to", 4]))?;
        for _ in 0..2 {
            press(page, "[data-part=walk-next]")?;
        }
        let before: Vec<Value> = page.get(PICKED, Value::Null)?;
        ensure!(before.last() == Some(&json!(1)), "{before:?}");
        speak_german(page)?;
        page.until(
            "faults are offered",
            "probe.one('#faults-first')?.options.length > 2",
        )?;
        page.until(
            "steps are there",
            "probe.one('[data-part=walk-steps] button')",
        )?;
        let after: Vec<Value> = page.get(PICKED, Value::Null)?;
        ensure!(after == before, "{after:?}, not {before:?}");
        page.check_faults()
    })
}

/// Catches controls among the questions on paper, a question that is not there, and a heading with nothing under it.
#[test]
fn the_question_comes_out_on_paper_without_controls() -> Result<()> {
    for view in [View::LAPTOP.dark(), View::PHONE] {
        page::open(view, &format!("#s={STEM}"), |page| {
            page.unfold("exercises")?;
            page.lay_out_for_paper(true)?;
            let idle = showing(page, ".panel[data-part=exercises]")?;
            ensure!(idle.is_empty(), "{idle:?}");
            page.lay_out_for_paper(false)?;
            start(page)?;
            page.lay_out_for_paper(true)?;
            let asked = showing(page, ".exercise-asked")?;
            ensure!(asked.len() == 1, "{asked:?}");
            let pressed = showing(
                page,
                "[data-part=exercises] :is(button, select, [type=file])",
            )?;
            ensure!(pressed.is_empty(), "{pressed:?}");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches marks that are too faint to read, or a list that is none to a screen reader.
#[test]
fn the_list_of_results_has_no_fault() -> Result<()> {
    for view in [View::LAPTOP, View::PHONE.dark()] {
        page::open(view, &format!("#s={STEM}"), |page| {
            page.lift_security_policy()?;
            page.goto(&format!("index.html#s={STEM}"))?;
            start(page)?;
            for part in ["reveal", "next"] {
                press(page, &format!("[data-part=exercise-{part}]"))?;
            }
            press(page, "[data-part=exercise-stop]")?;
            page.until(
                "it is over",
                "probe.all('.exercise-results > li').length > 2",
            )?;
            let marks: Vec<String> = page.get(
                "probe.all('.exercise-results > li').map(({ dataset }) => dataset.mark).slice(0, 2)",
                Value::Null,
            )?;
            ensure!(marks == ["shown", "open"], "{marks:?}");
            check_as_it_is(page, "with results", &["color-contrast", "list"])
        })?;
    }
    Ok(())
}
