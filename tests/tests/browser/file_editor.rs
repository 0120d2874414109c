//! The editor of a file's text: when it comes, what it marks and says, and that it fits.

use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Key, View, own_site, page, skipped};
use serde_json::Value;

use crate::by_hand::{self, FIRST};
use crate::file_text::{
    EDITOR, EDITOR_FILE, Form, PROBLEMS, drives, editor_is_there, form, marked, open, problems,
    replace, script, text,
};

/// Catches an editor that comes with the page, and a text that waits for one which does not come.
#[test]
fn the_editor_comes_when_it_is_wanted_or_the_plain_field_stays() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let asked =
        "performance.getEntriesByType('resource').some(({ name }) => name.includes('/editor/'))";
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.rest()?;
        ensure!(!page.get::<bool>(asked, Value::Null)?, "it comes unasked");
        page.unfold("file")?;
        editor_is_there(page)?;
        ensure!(
            page.get::<bool>(asked, Value::Null)?,
            "it was not asked for"
        );
        let keys: Vec<String> = page.get(
            "probe.all('.cm-content .file-key').slice(0, 2).map((node) => node.textContent)",
            Value::Null,
        )?;
        ensure!(keys == ["\"format\"", "\"name\""], "{keys:?}");
        Ok(())
    })?;

    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("no-editor");
    let site = own_site::make(folder, &[])?;
    fs::remove_file(site.join(EDITOR_FILE))?;
    page::open_in(&site, View::LAPTOP, "index.html", |page| {
        page.expect_fault("404");
        page.goto(&format!("index.html?without{}", by_hand::link(FIRST)))?;
        open(page)?;
        page.until("it has been asked for", asked)?;
        ensure!(form(page)? == Form::Plain);
        replace(page, "\"teeth\": 51", "\"teeth\": 58")?;
        drives(page, "5/2")
    })
}

/// Catches an editor that takes the place of the field in which somebody types, what is typed with it, or
/// that never comes then.
#[test]
fn the_editor_waits_for_whoever_types() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("late-editor");
    let late = "await new Promise((come) => (window.come = come));\n\
        export const { editor } = await import('./kept.js');\n";
    let site = own_site::make(folder, &[])?;
    let file = site.join(EDITOR_FILE);
    fs::rename(&file, file.with_file_name("kept.js"))?;
    fs::write(&file, late)?;
    let address = format!("index.html{}", by_hand::link(FIRST));
    page::open_in(&site, View::LAPTOP, &address, |page| {
        open(page)?;
        page.until("it has been asked for", "window.come")?;
        replace(page, "\"teeth\": 51", "\"teeth\": \"many\"")?;
        page.run("window.come()", Value::Null)?;
        page.until("it is said", &format!("{PROBLEMS}.length === 1"))?;
        ensure!(form(page)? == Form::Plain, "the field is gone");
        let before = (text(page)?, marked(page)?);
        page.keys([Key::Tab])?;
        editor_is_there(page)?;
        let after = (text(page)?, marked(page)?);
        ensure!(after == before, "{after:?} instead of {before:?}");
        replace(page, "\"many\"", "58")?;
        drives(page, "5/2")
    })
}

/// Catches an editor that has no mark of its own for what is wrong, whose mark says nothing, and one that is
/// told apart by colour alone.
#[test]
fn the_editor_underlines_what_is_wrong_and_says_it() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open(page)?;
        editor_is_there(page)?;
        replace(page, "\"teeth\": 51", "\"teeth\": \"many\"")?;
        page.until("it is said", &format!("{PROBLEMS}.length === 1"))?;
        let fault: [String; 3] = page.get(
            "(() => { const node = probe.one('.file-fault'); \
                return [node.textContent, node.title, getComputedStyle(node).textDecorationLine]; })()",
            Value::Null,
        )?;
        let [words, title, line] = &fault;
        ensure!(words == "\"many\"" && line == "underline", "{fault:?}");
        ensure!(problems(page)? == [title.clone()], "{title}");
        let flag: String = page.get(
            "getComputedStyle(probe.all('.file-flag').at(-1), '::before').content",
            Value::Null,
        )?;
        ensure!(flag == "\"!\"", "{flag}");
        let said: [String; 2] = page.get(
            "(() => { const { contentDOM } = EDITOR; const id = contentDOM.getAttribute('aria-describedby'); \
                return [contentDOM.getAttribute('aria-invalid'), probe.one(`#${id}`).textContent]; })()"
                .replace("EDITOR", EDITOR)
                .as_str(),
            Value::Null,
        )?;
        ensure!(
            said[0] == "true" && said[1].starts_with("One problem."),
            "{said:?}"
        );

        // Words that run leftwards are text here, not parts of a sentence.
        replace(page, "\"many\"", "58")?;
        replace(page, "\"Set 1\"", "\"\u{5d0}\u{5d1}\"")?;
        drives(page, "5/2")?;
        page.rest()?;
        ensure!(page.get::<usize>("probe.all('.cm-content bdi').length", Value::Null)? == 0);
        ensure!(problems(page)?.is_empty(), "{:?}", problems(page)?);

        let ends: bool = page.get(
            &script(
                "(async () => { const editor = EDITOR; probe.host('lever-train').remove(); \
                await new Promise(requestAnimationFrame); return editor.destroyed; })()",
            ),
            Value::Null,
        )?;
        ensure!(ends, "it outlives the element");
        Ok(())
    })
}

/// Catches letters that have a phone enlarge the page, and an editor that is wider than it.
#[test]
fn the_editor_fits_a_phone() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(FIRST), |page| {
        open(page)?;
        editor_is_there(page)?;
        let (letters, width, page_width): (String, f64, f64) = page.get(
            "[getComputedStyle(probe.one('.cm-line')).fontSize, \
                probe.one('.cm-editor').getBoundingClientRect().right, \
                document.documentElement.scrollWidth]",
            Value::Null,
        )?;
        ensure!(letters == "16px", "{letters}");
        ensure!(
            width <= 390.0 && page_width <= 390.0,
            "{width} px in {page_width} px"
        );
        Ok(())
    })
}
