//! The train as the text of its file, each of which follows the other.

use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Key, Page, View, own_site, page, skipped};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};

pub const EDITOR_FILE: &str = "editor/editor.js";

/// The editor, once it has come.
pub const EDITOR: &str = "probe.one('[data-part=file] .cm-content')?.cmTile.view";

/// What is typed in the text: one piece in the place of another.
const TYPE: &str = "(() => { \
    const editor = EDITOR; \
    const field = editor ?? probe.one('[data-part=file] textarea'); \
    const text = editor?.state.doc.toString() ?? field.value; \
    const at = text.indexOf(args[0]); \
    if (at < 0) throw new Error(`no ${args[0]}`); \
    field.focus(); \
    const to = at + args[0].length; \
    if (editor) editor.dispatch({ selection: { anchor: at, head: to }, scrollIntoView: true }); \
    else field.setSelectionRange(at, to); \
    document.execCommand('insertText', false, args[1]); \
})()";

const TEXT: &str = "(EDITOR?.state.doc.toString() ?? probe.one('[data-part=file] textarea').value)";
/// What is pasted in the place of all there is.
const PASTE: &str = "(() => { \
    const editor = EDITOR; \
    const field = editor ?? probe.one('[data-part=file] textarea'); \
    field.focus(); \
    if (!editor) { \
        field.select(); \
        document.execCommand('insertText', false, args); \
        return; \
    } \
    editor.dispatch({ selection: { anchor: 0, head: editor.state.doc.length } }); \
    const clipboardData = new DataTransfer(); \
    clipboardData.setData('text/plain', args); \
    editor.contentDOM.dispatchEvent( \
        new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true })); \
})()";

pub const PROBLEMS: &str =
    "probe.all('[data-part=file] .file-problem').map((node) => node.textContent)";
const PRESS: &str = "[data-part=edit] button[data-key=undo]";

/// What the text is written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// The editor of the site.
    Editor,
    /// The plain field of a site that was built without a bundler.
    Plain,
}

/// A script in which the editor is named.
pub fn script(text: &str) -> String {
    text.replace("EDITOR", EDITOR)
}

pub fn replace(page: &Page, old: &str, new: &str) -> Result<()> {
    page.run(&script(TYPE), json!([old, new]))
}

pub fn text(page: &Page) -> Result<String> {
    page.get(&script(TEXT), Value::Null)
}

pub fn problems(page: &Page) -> Result<Vec<String>> {
    page.get(PROBLEMS, Value::Null)
}

/// The ratio that is there in the end: the train follows a moment after the last letter.
pub fn drives(page: &Page, exact: &str) -> Result<()> {
    page.until(
        &format!("it drives {exact}"),
        &format!("probe.seen().exact === '{exact}'"),
    )
}

pub fn open(page: &Page) -> Result<()> {
    page.unfold("file")?;
    page.until("the text is there", &script(&format!("{TEXT} !== ''")))
}

/// Opens a page with the text in each of its forms, one after the other.
fn in_each(name: &str, fragment: &str, test: impl Fn(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let plain = own_site::make(folder, &[(EDITOR_FILE, "export {};\n")])?;
    let address = format!("index.html{fragment}");
    page::open_in(&plain, View::LAPTOP, &address, |page| {
        test(page)?;
        ensure!(form(page)? == Form::Plain, "it has an editor");
        page.check_faults()
    })
    .context("in the plain field")?;
    page::open(View::LAPTOP, fragment, |page| {
        page.unfold("file")?;
        editor_is_there(page)?;
        test(page)?;
        ensure!(form(page)? == Form::Editor, "the editor is gone");
        page.check_faults()
    })
    .context("in the editor")
}

pub fn editor_is_there(page: &Page) -> Result<()> {
    page.until("the editor has come", EDITOR)
}

pub fn form(page: &Page) -> Result<Form> {
    let is_editor: bool = page.get(&format!("Boolean({EDITOR})"), Value::Null)?;
    Ok(if is_editor { Form::Editor } else { Form::Plain })
}

/// The lines that are marked, from 1.
pub fn marked(page: &Page) -> Result<Vec<usize>> {
    page.get(
        "(probe.one('.cm-content') \
            ? probe.all('.cm-line').flatMap((node, at) => node.classList.contains('file-wrong') ? [at + 1] : []) \
            : probe.all('.file-mark').map((node) => Number(node.style.getPropertyValue('--before')) + 1))",
        Value::Null,
    )
}

/// Where the cursor is in the text.
fn cursor(page: &Page) -> Result<usize> {
    page.get(
        &script("EDITOR?.state.selection.main.head ?? probe.one('[data-part=file] textarea').selectionStart"),
        Value::Null,
    )
}

/// Catches a text that stays behind the form, letters that change nothing, a step for every letter, and
/// one that does not come back. By hand, as in `editing`: the ratio of first is 1 + 87/S.
#[test]
fn text_and_train_follow_each_other() -> Result<()> {
    in_each("text-follows", &by_hand::link(FIRST), |page| {
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
    in_each("text-broken", &by_hand::link(FIRST), |page| {
        open(page)?;
        drives(page, "46/17")?;
        replace(page, "\"teeth\": 51", "\"teeth\": 51 !")?;
        page.until("it is said", &format!("{PROBLEMS}.length === 1"))?;
        let broken = text(page)?;
        let before = broken.split('!').next().unwrap_or_default();
        let line = before.split('\n').count();
        let found = problems(page)?;
        ensure!(found[0].starts_with(&format!("Line {line}: ")), "{found:?}");
        ensure!(marked(page)? == [line], "{:?}", marked(page)?);
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
        let cursor = cursor(page)?;
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
    in_each("text-pasted", "", |page| {
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.one('[data-part=edit] [data-key=begin]')",
        )?;
        page.click("[data-part=edit] button[data-key=begin]")?;
        open(page)?;
        page.until(
            "it is blank",
            &script(&format!("{TEXT}.includes('\"couplings\": []')")),
        )?;
        let blank = text(page)?;
        let six = files::scenarios()?
            .into_iter()
            .find(|file| file.stem == by_hand::STEM)
            .map(|file| file.text)
            .unwrap_or_default();
        page.run(&script(PASTE), json!(six))?;
        page.until(
            "it is taken",
            "probe.all('.range-buttons [data-range-id]').length > 5",
        )?;
        page.click_range(FIRST.id)?;
        drives(page, FIRST.exact)?;
        page.click(PRESS)?;
        page.until(
            "it is blank",
            &script(&format!("{TEXT}.includes('\"couplings\": []')")),
        )?;
        ensure!(text(page)? == blank, "{}", text(page)?);
        page.check_faults()
    })
}

/// Catches a text that waits although it is told not to, and a field that keeps the focus for itself.
#[test]
fn keys_take_the_text_at_once_and_leave_the_field() -> Result<()> {
    in_each("text-keys", &by_hand::link(FIRST), |page| {
        open(page)?;
        // In one go, so that no time passes.
        let told: [usize; 2] = page.get(
            &script(&format!(
                "(() => {{ \
                    const editor = EDITOR; \
                    const field = editor?.contentDOM ?? probe.one('[data-part=file] textarea'); \
                    field.focus(); \
                    if (editor) editor.dispatch(editor.state.replaceSelection('!')); \
                    else {{ field.setSelectionRange(0, 1); document.execCommand('insertText', false, '!'); }} \
                    const before = {PROBLEMS}.length; \
                    field.dispatchEvent(new KeyboardEvent('keydown', {{ key: 'Enter', ctrlKey: true, bubbles: true }})); \
                    return [before, {PROBLEMS}.length]; }})()"
            )),
            Value::Null,
        )?;
        ensure!(told == [0, 1], "{told:?}");

        let length = text(page)?.len();
        page.keys([Key::Tab])?;
        let stays: bool = page.get(
            "probe.one('.file-frame').contains(probe.host('lever-train').shadowRoot.activeElement)",
            Value::Null,
        )?;
        ensure!(!stays && text(page)?.len() == length, "Tab stays");
        Ok(())
    })
}

/// Catches numbers of the plain field that stay behind its lines.
#[test]
fn numbers_go_with_the_lines() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("text-numbers");
    let plain = own_site::make(folder, &[(EDITOR_FILE, "export {};\n")])?;
    page::open_in(&plain, View::LAPTOP, "index.html", |page| {
        open(page)?;
        page.run(
            "probe.one('[data-part=file] textarea').scrollTop = 40",
            Value::Null,
        )?;
        let shift = "probe.one('.file-numbers').getBoundingClientRect().top - \
            probe.one('.file-gutter').getBoundingClientRect().top";
        page.until(
            "the numbers follow",
            &format!("Math.abs({shift} - 8 + 40) < 1.5"),
        )
    })
}

/// Catches a way back that is not that of the train once nothing is typed, one that leaves steps behind which
/// change nothing, and a text that does not come along.
#[test]
fn what_is_typed_is_taken_back_and_then_the_edits_before_it() -> Result<()> {
    in_each("text-steps", &by_hand::link(FIRST), |page| {
        open(page)?;
        page.unfold("edit")?;
        page.run(
            "(() => { const field = probe.all('[data-key]').find((node) => node.dataset.key === 'teeth p2 0'); \
                field.focus(); field.value = 52; field.dispatchEvent(new Event('input', { bubbles: true })); })()",
            Value::Null,
        )?;
        drives(page, "139/52")?;
        replace(page, "\"teeth\": 52", "\"teeth\": ")?;
        page.keys(['5', '8'])?;
        drives(page, "5/2")?;
        // As many steps as the form makes of the letters.
        for _ in 0..4 {
            if text(page)?.contains("\"teeth\": 52") {
                break;
            }
            page.chord(Key::Control, 'z')?;
        }
        drives(page, "139/52")?;
        page.chord(Key::Control, 'z')?;
        drives(page, "46/17")?;
        // That step was made elsewhere: somebody may not see what it changes.
        let told: String = page.get("probe.one('.file-state').textContent", Value::Null)?;
        ensure!(told.contains("taken back"), "{told:?}");
        ensure!(text(page)?.contains("\"teeth\": 51"), "{}", text(page)?);
        let all: bool = page.get(&format!("probe.one('{PRESS}').disabled"), Value::Null)?;
        ensure!(all, "a step is left behind");
        page.chord(Key::Control, 'y')?;
        drives(page, "139/52")?;
        ensure!(text(page)?.contains("\"teeth\": 52"), "{}", text(page)?);
        Ok(())
    })
}
