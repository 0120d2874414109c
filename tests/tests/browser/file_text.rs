//! The train as the text of its file, each of which follows the other.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Key, Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};

/// What is typed in the text: one piece in the place of another.
const TYPE: &str = "(() => { \
    const field = probe.one('[data-part=file] textarea'); \
    field.focus(); \
    const at = field.value.indexOf(args[0]); \
    if (at < 0) throw new Error(`no ${args[0]}`); \
    field.setSelectionRange(at, at + args[0].length); \
    document.execCommand('insertText', false, args[1]); \
})()";

const TEXT: &str = "probe.one('[data-part=file] textarea').value";
const PROBLEMS: &str =
    "probe.all('[data-part=file] .file-problem').map((node) => node.textContent)";
const PRESS: &str = "[data-part=edit] button[data-key=undo]";

fn replace(page: &Page, old: &str, new: &str) -> Result<()> {
    page.run(TYPE, json!([old, new]))
}

fn text(page: &Page) -> Result<String> {
    page.get(TEXT, Value::Null)
}

fn problems(page: &Page) -> Result<Vec<String>> {
    page.get(PROBLEMS, Value::Null)
}

/// The ratio that is there in the end: the train follows a moment after the last letter.
fn drives(page: &Page, exact: &str) -> Result<()> {
    page.until(
        &format!("it drives {exact}"),
        &format!("probe.seen().exact === '{exact}'"),
    )
}

fn open(page: &Page) -> Result<()> {
    page.unfold("file")?;
    page.until("the text is there", &format!("{TEXT} !== ''"))
}

/// Catches a text that stays behind the form, letters that change nothing, a step for every letter, and
/// one that does not come back. By hand, as in `editing`: the ratio of first is 1 + 87/S.
#[test]
fn text_and_train_follow_each_other() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open(page)?;
        page.unfold("edit")?;
        drives(page, "46/17")?;
        page.run(
            "(() => { const field = probe.all('[data-key]').find((node) => node.dataset.key === 'teeth p2 0'); \
                field.focus(); field.value = 52; field.dispatchEvent(new Event('input', { bubbles: true })); })()",
            Value::Null,
        )?;
        drives(page, "139/52")?;
        ensure!(text(page)?.contains("\"teeth\": 52"), "{}", text(page)?);

        replace(page, "\"teeth\": 52", "\"teeth\": 5")?;
        replace(page, "\"teeth\": 5}", "\"teeth\": 58}")?;
        drives(page, "5/2")?;
        replace(page, "\"teeth\": 58}", "\"teeth\": 60}")?;
        drives(page, "49/20")?;
        ensure!(problems(page)?.is_empty(), "{:?}", problems(page)?);
        page.click(PRESS)?;
        drives(page, "139/52")?;
        ensure!(text(page)?.contains("\"teeth\": 52"), "{}", text(page)?);
        page.check_faults()
    })
}

/// Catches a broken text that takes the train from the stage, that is written over, or whose problem
/// leads to another line.
#[test]
fn a_broken_text_keeps_the_last_good_train() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open(page)?;
        drives(page, "46/17")?;
        replace(page, "\"teeth\": 51", "\"teeth\": 51 !")?;
        page.until("it is said", &format!("{PROBLEMS}.length === 1"))?;
        let broken = text(page)?;
        let before = broken.split('!').next().unwrap_or_default();
        let line = before.split('\n').count();
        let found = problems(page)?;
        ensure!(found[0].starts_with(&format!("Line {line}: ")), "{found:?}");
        let marked: Vec<String> = page.get(
            "probe.all('[data-part=file] .file-mark').map((node) => node.style.getPropertyValue('--before'))",
            Value::Null,
        )?;
        ensure!(marked == [(line - 1).to_string()], "{marked:?}");
        drives(page, "46/17")?;

        // An edit elsewhere leaves what is typed.
        page.unfold("edit")?;
        page.run(
            "(() => { const field = probe.all('[data-key]').find((node) => node.dataset.key === 'teeth p2 0'); \
                field.focus(); field.value = 52; field.dispatchEvent(new Event('input', { bubbles: true })); })()",
            Value::Null,
        )?;
        drives(page, "139/52")?;
        ensure!(text(page)? == broken, "{}", text(page)?);

        page.click("[data-part=file] .file-problem")?;
        let cursor: usize = page.get(
            "probe.one('[data-part=file] textarea').selectionStart",
            Value::Null,
        )?;
        ensure!(broken[cursor..].starts_with('!'), "{}", &broken[cursor..]);
        replace(page, "\"teeth\": 51 !", "\"teeth\": 58")?;
        drives(page, "5/2")?;
        ensure!(problems(page)?.is_empty(), "{:?}", problems(page)?);

        // A value that does not fit is named with its line, too; the way back writes the text anew.
        replace(page, "\"teeth\": 58", "\"teeth\": \"many\"")?;
        page.until("it is said", &format!("{PROBLEMS}.length === 1"))?;
        let found = problems(page)?;
        ensure!(found[0].starts_with(&format!("Line {line}: ")), "{found:?}");
        page.click("[data-part=file] [data-key=back]")?;
        ensure!(text(page)?.contains("\"teeth\": 58"), "{}", text(page)?);
        ensure!(problems(page)?.is_empty(), "{:?}", problems(page)?);
        page.check_faults()
    })
}

/// Catches a whole file that is not taken, or whose way back leads elsewhere than to the blank train.
#[test]
fn a_whole_file_is_pasted_over_a_blank_train() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.one('[data-part=edit] [data-key=begin]')",
        )?;
        page.click("[data-part=edit] button[data-key=begin]")?;
        open(page)?;
        page.until(
            "it is blank",
            &format!("{TEXT}.includes('\"couplings\": []')"),
        )?;
        let blank = text(page)?;
        let six = files::scenarios()?
            .into_iter()
            .find(|file| file.stem == by_hand::STEM)
            .map(|file| file.text)
            .unwrap_or_default();
        replace(page, &blank, &six)?;
        page.until(
            "it is taken",
            "probe.all('.range-buttons [data-range-id]').length > 5",
        )?;
        page.click_range(FIRST.id)?;
        drives(page, FIRST.exact)?;
        page.click(PRESS)?;
        page.until(
            "it is blank",
            &format!("{TEXT}.includes('\"couplings\": []')"),
        )?;
        ensure!(text(page)? == blank, "{}", text(page)?);
        page.check_faults()
    })
}

/// Catches a text that waits although it is told not to, numbers that stay behind the lines, and a field
/// that keeps the focus for itself.
#[test]
fn keys_and_numbers_go_with_the_text() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open(page)?;
        // In one go, so that no time passes.
        let told: [usize; 2] = page.get(
            &format!(
                "(() => {{ const field = probe.one('[data-part=file] textarea'); \
                    field.focus(); \
                    field.setSelectionRange(0, 1); \
                    document.execCommand('insertText', false, '!'); \
                    const before = {PROBLEMS}.length; \
                    field.dispatchEvent(new KeyboardEvent('keydown', {{ key: 'Enter', ctrlKey: true, bubbles: true }})); \
                    return [before, {PROBLEMS}.length]; }})()"
            ),
            Value::Null,
        )?;
        ensure!(told == [0, 1], "{told:?}");

        page.run(
            "probe.one('[data-part=file] textarea').scrollTop = 40",
            Value::Null,
        )?;
        let shift = "probe.one('.file-numbers').getBoundingClientRect().top - \
            probe.one('.file-gutter').getBoundingClientRect().top";
        page.until(
            "the numbers follow",
            &format!("Math.abs({shift} - 8 + 40) < 1.5"),
        )?;

        let length = text(page)?.len();
        page.keys([Key::Tab])?;
        let stays: bool = page.get(
            "probe.one('[data-part=file] textarea').matches(':focus')",
            Value::Null,
        )?;
        ensure!(!stays && text(page)?.len() == length, "Tab stays");
        page.check_faults()
    })
}
