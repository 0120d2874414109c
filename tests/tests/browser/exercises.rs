//! Exercises: nothing on the page answers a question before it is answered, and what is earned is what was right.

use std::fs;

use anyhow::{Context, Result, ensure};
use levertrain_core::Train;
use levertrain_core::exercise::{QuestionReport, Sheet};
use levertrain_tests::browser::{Key, Page, View, page};
use levertrain_tests::files::root;
use serde_json::{Value, json};

use crate::learner::Learner;

pub const STEM: &str = "09-six-speed-front-set";

/// Everything that can be read on the page, also what is out of sight, in an attribute, a field or the link.
const TEXT: &str = "[probe.host('lever-train').shadowRoot.querySelector('.levertrain').textContent, decodeURIComponent(location.href), document.title, \
    ...[probe.host('lever-train'), ...probe.all('.levertrain *:not(:is(svg, svg *))')].flatMap((node) => \
        [...node.attributes].filter(({ name }) => name !== 'style' && name !== 'd').map(({ value }) => value)), \
    ...probe.all('input, select').map(({ value }) => value)].join(' ')";

pub fn sheet() -> Result<(Train, Sheet)> {
    let read = |path: String| fs::read_to_string(root().join(path));
    let train = Train::parse(&read(format!("scenarios/{STEM}.json"))?);
    let train = train.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let sheet = Sheet::parse(&train, &read(format!("scenarios/exercises/{STEM}.json"))?);
    let sheet = sheet.map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    Ok((train, sheet))
}

pub fn start(page: &Page) -> Result<()> {
    page.unfold("exercises")?;
    page.until(
        "there is a sheet",
        "probe.all('[data-part=exercise-sheet]').some((node) => !node.hidden)",
    )?;
    press(page, "[data-part=exercise-sheet]")?;
    page.until(
        "a question is asked",
        "probe.all('.exercise-asked').length === 1",
    )
}

pub fn press(page: &Page, selector: &str) -> Result<()> {
    page.run("probe.one(args).click()", json!(selector))
}

/// Answers the question on the page by its fields.
pub fn answer(page: &Page, by: &str, answer: &[String]) -> Result<()> {
    match by {
        "one" | "many" => page.run(
            "for (const box of probe.all('.exercise-choices input')) box.checked = args.includes(box.value)",
            json!(answer),
        ),
        "number" | "counts" => page.run(
            "probe.all('.exercise-lines input[data-choice]').forEach((input, at) => (input.value = args[at]))",
            json!(answer),
        ),
        "order" => {
            for (at, id) in answer.iter().enumerate() {
                for _ in 0..answer.len() {
                    let ids: Vec<String> = page.get(
                        "probe.all('.exercise-order li').map(({ dataset }) => dataset.choice)",
                        Value::Null,
                    )?;
                    if ids.iter().position(|known| known == id) <= Some(at) {
                        break;
                    }
                    press(page, &format!(".exercise-order [data-move=\"{id} -1\"]"))?;
                }
            }
            Ok(())
        }
        _ => page.run(
            "probe.host('lever-train').apply(args)",
            json!(answer),
        ),
    }
}

/// Catches a page that gives the answer away, one that marks otherwise than the core, a score that is not the sum,
/// and a page that stays veiled.
#[test]
fn a_sheet_is_answered_from_end_to_end() -> Result<()> {
    let (train, sheet) = sheet()?;
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        start(page)?;
        for (at, task) in sheet.tasks.iter().enumerate() {
            let question = QuestionReport::of(&train, task);
            let asked: String =
                page.get("probe.one('.exercise-asked').textContent", Value::Null)?;
            ensure!(asked == question.text, "{asked}");
            // What a fault makes of a range may be the ratio of another.
            let rows = question.rows.iter().map(|row| row.words.as_str());
            let asked: String = rows.chain([question.text.as_str()]).collect();
            let right = task.solve(&train).context("an answer")?;
            // What is read out follows a moment later.
            page.until(
                "the answer before is gone",
                "probe.one('[data-part=spoken]').textContent.includes('Neutral')",
            )?;
            let text: String = page.get(TEXT, Value::Null)?;
            for range in train.range_chart().ranges {
                let Some(ratio) = range.combination.state().ratio() else {
                    continue;
                };
                let shown = format!("{:.3}", ratio.to_f64().abs());
                ensure!(
                    asked.contains(&shown) || !text.contains(&shown),
                    "{shown} can be read at question {at}: {:?}",
                    text.find(&shown)
                        .map(|place| &text[place.saturating_sub(90)..place + 30])
                );
            }
            let applied = page.seen()?.applied;
            ensure!(applied.is_empty(), "{applied:?} stand applied");
            let inert: bool = page.get(
                "probe.one('.stage').closest('[inert]') !== null",
                Value::Null,
            )?;
            ensure!(
                inert == (question.by != "stage"),
                "{at} {}: {inert}",
                question.by
            );
            if at == 1 {
                // Wrong first: then it counts half.
                answer(page, question.by, &[question.choices[0].id.clone()])?;
                press(page, "[data-part=exercise-check]")?;
                let mark = task.mark(&train, &[question.choices[0].id.clone()]);
                ensure!(!mark.is_right(), "chosen to be wrong");
                let hints: Vec<String> = page.get(
                    "probe.all('.exercise-told p:not(.exercise-result)').map((node) => node.textContent)",
                    Value::Null,
                )?;
                let expected: Vec<String> =
                    mark.hints.iter().map(|hint| hint.words(&train)).collect();
                ensure!(hints == expected, "{hints:?}");
            }
            answer(page, question.by, &right)?;
            press(page, "[data-part=exercise-check]")?;
            let told: String = page.get("probe.one('.exercise-told').dataset.mark", Value::Null)?;
            ensure!(told == "right", "{told} for {right:?} of {}", question.text);
            if let Some(range) = task.range() {
                let range = &train.scenario().ranges[range];
                let mut applied = page.seen()?.applied;
                let mut wanted = range.applied.clone();
                applied.sort();
                wanted.sort();
                ensure!(applied == wanted, "{applied:?} after the answer");
            }
            press(page, "[data-part=exercise-next]")?;
        }
        let score: String = page.get(
            "probe.one('[data-part=exercise-score]').textContent",
            Value::Null,
        )?;
        let all = sheet.tasks.len();
        let expected = format!("Done: {}.5 of {all} points", all - 1);
        ensure!(score.starts_with(&expected), "{score}");
        // Each is listed with what it counts and what is right.
        let listed: Vec<(String, String)> = page.get(
            "probe.all('.exercise-results > li').map((node) => [node.dataset.mark, node.textContent])",
            Value::Null,
        )?;
        ensure!(listed.len() == all, "{listed:?}");
        for (at, (mark, words)) in listed.iter().enumerate() {
            let later = at == 1;
            ensure!(
                mark == if later { "later" } else { "right" },
                "{at}: {mark}, {words}"
            );
            let points = if later { "0.5 points" } else { ": 1 point" };
            ensure!(words.contains(points), "{words}");
            let asked = QuestionReport::of(&train, &sheet.tasks[at]).text;
            ensure!(words.contains(&asked), "{words}");
            ensure!(words.contains("Answer: "), "{words}");
        }
        ensure!(page.shows(".range-buttons button")?, "the ranges stay away");
        ensure!(
            page.shows("[data-part=chart] table")?,
            "the chart stays away"
        );
        page.check_faults()
    })
}

/// Catches keys that leave the question, and a round that a fold, another train or the way back leaves half open.
#[test]
fn a_round_is_worked_by_keys_and_ends_with_its_train() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}"), |page| {
        start(page)?;
        // A digit would apply a range, and with it show the answer.
        page.run("probe.one('.stage').dispatchEvent(new KeyboardEvent('keydown', { key: '1', bubbles: true }))", Value::Null)?;
        ensure!(page.seen()?.applied.is_empty(), "a digit applies a range");
        let focused = "probe.host('lever-train').shadowRoot.activeElement?.closest('.exercise-card') !== null";
        ensure!(
            page.get::<bool>(focused, Value::Null)?,
            "the focus is elsewhere"
        );
        page.keys([Key::Space])?;
        page.keys([Key::Enter])?;
        page.until(
            "it is marked",
            "Boolean(probe.one('.exercise-told').dataset.mark)",
        )?;
        page.run("probe.host('lever-train').apply(['H', 'W'])", Value::Null)?;
        page.until(
            "it is over",
            "probe.one('[data-part=exercise-round]').hidden",
        )?;
        ensure!(page.shows(".range-buttons button")?, "the ranges stay away");
        press(page, "[data-part=exercise-begin]")?;
        page.until(
            "a question is asked",
            "probe.all('.exercise-asked').length === 1",
        )?;
        page.run(
            "probe.host('lever-train').setAttribute('scenario', '01-one-set')",
            Value::Null,
        )?;
        page.until(
            "it is over",
            "probe.one('[data-part=exercise-round]').hidden",
        )?;
        ensure!(
            !page.get::<bool>(
                "probe.one('.stage').closest('[inert]') !== null",
                Value::Null
            )?,
            "the stage stays inert"
        );
        page.check_faults()
    })
}

/// Catches a sheet that is put together on the page and holds something else, an answer, or what no train reads.
#[test]
fn an_instructor_makes_a_sheet_from_what_is_on_screen() -> Result<()> {
    page::open(View::PHONE, &format!("#s={STEM}"), |page| {
        page.unfold("exercises")?;
        page.until(
            "there are kinds",
            "probe.all('#exercise-set-kind option').length > 4",
        )?;
        page.run(
            "globalThis.made = []; URL.createObjectURL = (blob) => { made.push(blob); return '#'; }; \
             probe.one('[data-part=exercise-setting]').open = true",
            Value::Null,
        )?;
        for kind in ["reach", "speed", "members", "order"] {
            page.run(
                "(() => { const node = probe.one('#exercise-set-kind'); node.value = args; node.dispatchEvent(new Event('change')); })()",
                json!(kind),
            )?;
            press(page, "[data-part=exercise-add]")?;
        }
        let listed: usize = page.get("probe.all('.exercise-set li').length", Value::Null)?;
        // Which members are held in a set has an answer in every range of this one, or is refused.
        ensure!(listed >= 3, "{listed} questions");
        page.run("probe.host('lever-train').apply(['H', 'W'])", Value::Null)?;
        press(page, "[data-part=exercise-walk-add]")?;
        let first: String = page.get("probe.one('.exercise-set li').textContent", Value::Null)?;
        ensure!(first.contains("Walkthrough"), "{first}");
        press(page, "[data-part=exercise-save]")?;
        page.run(
            "made[0].text().then((text) => (globalThis.text = text))",
            Value::Null,
        )?;
        page.until("it is there", "typeof text === 'string'")?;
        let text: String = page.get("text", Value::Null)?;
        let (train, _) = sheet()?;
        let sheet =
            Sheet::parse(&train, &text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
        ensure!(
            sheet.tasks.len() == listed
                && sheet.walk == [0]
                && sheet.scenario.as_deref() == Some(STEM),
            "{text}"
        );
        press(page, "[data-part=exercise-try]")?;
        Learner::at(page, "lever-train").walk_through()?;
        ensure!(page.shows("[data-part=exercise-check]")?, "out of sight");
        page.check_faults()
    })
}

/// Catches what is pinned to compare with, which would draw the answer behind the question.
#[test]
fn what_is_pinned_goes_while_a_question_is_open() -> Result<()> {
    page::open(View::LAPTOP.still(), &format!("#s={STEM}"), |page| {
        start(page)?;
        page.rest()?;
        let alone = page.seen()?.lever;
        press(page, "[data-part=exercise-stop]")?;
        page.run("probe.host('lever-train').apply(['H', 'W'])", Value::Null)?;
        page.unfold("compare")?;
        press(page, "[data-part=pin]")?;
        page.until(
            "it is compared with",
            "probe.one('[data-part=compare] table').checkVisibility()",
        )?;
        page.run("probe.host('lever-train').apply([])", Value::Null)?;
        page.rest()?;
        ensure!(page.seen()?.lever != alone, "nothing is pinned");
        press(page, "[data-part=exercise-sheet]")?;
        page.until(
            "a question is asked",
            "probe.all('.exercise-asked').length === 1",
        )?;
        page.rest()?;
        ensure!(
            page.seen()?.lever == alone,
            "it is drawn behind the question"
        );
        Ok(())
    })
}

/// Catches a press of "Check" with nothing picked that costs points, and half a point that is shown as none.
#[test]
fn nothing_picked_costs_nothing_and_half_a_point_is_told() -> Result<()> {
    page::open(View::LAPTOP, "#s=02-three-speed-common-sun", |page| {
        page.unfold("exercises")?;
        page.until(
            "there is a sheet",
            "!probe.one('[data-part=exercise-sheet]').hidden",
        )?;
        press(page, "[data-part=exercise-sheet]")?;
        Learner::at(page, "lever-train").walk_through()?;
        let told = "probe.one('.exercise-told').textContent + (probe.one('.exercise-told').dataset.mark ?? '')";
        press(page, "[data-part=exercise-check]")?;
        let empty: String = page.get(told, Value::Null)?;
        ensure!(empty == "Choose an answer first.", "{empty}");
        let pick = "for (const box of probe.all('.exercise-choices input')) box.checked = box.value === args";
        // The ring, which turns, and the carrier.
        for member in ["2", "1"] {
            page.run(pick, json!(member))?;
            press(page, "[data-part=exercise-check]")?;
        }
        let right: String = page.get(told, Value::Null)?;
        ensure!(right.contains("Right."), "{right}");
        press(page, "[data-part=exercise-next]")?;
        let place: String = page.get(
            "probe.one('[data-part=exercise-place]').textContent",
            Value::Null,
        )?;
        ensure!(place.contains("0.5 points"), "{place}");
        Ok(())
    })
}
