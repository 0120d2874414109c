//! The page at the width of the smallest phone, and of a laptop at 400 %, on which 1280 by 1024 pixels are
//! 320 by 256.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::language;

const NARROW: View = View {
    width: 320,
    height: 256,
    density: 4.0,
    ..View::LAPTOP
};

/// A phone on its side, whose height has other styles.
const LOW: View = View {
    width: 640,
    height: 360,
    ..View::PHONE
};

/// Catches a table or a row of controls that makes the whole page scroll sideways, and columns that
/// have no name, which a screen reader needs to say what a number is.
#[test]
fn no_panel_of_any_scenario_widens_it_and_every_column_has_a_name() -> Result<()> {
    page::open(NARROW, "", |page| {
        for view in [NARROW, LOW] {
            page.change_view(view)?;
            check(page, view)?;
        }
        Ok(())
    })
}

fn check(page: &Page, view: View) -> Result<()> {
    page.goto("index.html")?;
    page.run(
        "probe.one('[data-part=cautions-button]').click()",
        Value::Null,
    )?;
    for file in files::scenarios()? {
        page.turn_to(&file.stem)?;
        // What a train has panels for is there with it.
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.rest()?;
        let width: u32 = page.get("document.documentElement.scrollWidth", Value::Null)?;
        let wide: Vec<String> = page.get(
            "probe.all('.levertrain *').filter((node) => !node.closest('.scroll, .scroller, .cm-scroller, .stage, .unseen') && \
                node.getBoundingClientRect().right > args) \
                .map((node) => `${node.closest('[data-part]')?.dataset.part}: ${node.outerHTML.slice(0, 80)}`)",
            json!(view.width + 1),
        )?;
        ensure!(
            width <= view.width && wide.is_empty(),
            "{}: {width} px, by {wide:#?}",
            file.stem
        );
        let nameless: Vec<String> = page.get(
            "probe.all('.panel:not([hidden]) thead th').filter((node) => !node.textContent.trim()) \
                .map((node) => node.closest('table').ariaLabel ?? node.closest('.panel').dataset.part)",
            Value::Null,
        )?;
        ensure!(nameless.is_empty(), "{}: {nameless:?}", file.stem);
    }
    Ok(())
}

/// Catches names and headings of tables that are divided where no word is, for want of room that scrolling would give.
#[test]
fn no_word_of_a_table_is_divided_on_a_phone() -> Result<()> {
    const DIVIDED: &str = "(() => { const range = document.createRange(); const found = []; \
        for (const cell of probe.all('.panel :is(th, td), .edit-form .row > .note')) { \
            if (!cell.checkVisibility() || cell.closest('.cm-editor')) continue; \
            const walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT); \
            while (walker.nextNode()) { \
                const { data } = walker.currentNode; \
                for (const { 0: word, index } of data.matchAll(/[\\p{L}\\p{N}]+/gu)) { \
                    const tops = new Set([...word].map((_, at) => { \
                        range.setStart(walker.currentNode, index + at); \
                        range.setEnd(walker.currentNode, index + at + 1); \
                        return Math.round(range.getBoundingClientRect().bottom); \
                    })); \
                    if (tops.size > 1) found.push(`${cell.closest('[data-part]').dataset.part}: ${word}`); \
                } \
            } \
        } \
        return found; })()";
    page::open(View::PHONE, "", |page| {
        language::speak_german(page)?;
        for stem in ["08-four-speed-four-member-set", "15-two-mode-split"] {
            page.goto(&format!("index.html#s={stem}"))?;
            page.run(
                "for (const node of probe.all('details')) node.open = true",
                Value::Null,
            )?;
            page.rest()?;
            page.run(
                "for (const node of probe.all('details')) node.open = true",
                Value::Null,
            )?;
            page.rest()?;
            let words: usize = page.get(
                "probe.all('.panel :is(th, td)').filter((cell) => cell.checkVisibility()).length",
                Value::Null,
            )?;
            ensure!(words > 100, "{stem}: {words} cells are seen");
            let divided: Vec<String> = page.get(DIVIDED, Value::Null)?;
            ensure!(divided.is_empty(), "{stem}: {divided:?}");
        }
        Ok(())
    })
}

/// Catches a drawing that is far under the fold of a phone when somebody comes to change it.
#[test]
fn the_drawing_comes_into_sight_where_it_is_to_be_changed() -> Result<()> {
    page::open(View::PHONE, "", |page| {
        page.run("probe.one('[data-part=change]').click()", Value::Null)?;
        page.until("it can be changed", "probe.all('.grip').length > 5")?;
        let [bar, top, window]: [f64; 3] = page.get(
            "[probe.one('.strip-bar').getBoundingClientRect().top, \
                probe.one('.stage').getBoundingClientRect().top, innerHeight]",
            Value::Null,
        )?;
        ensure!(bar > 0.0, "its buttons are {} over the window", -bar);
        ensure!(top < window / 3.0, "it begins at {top} of {window}");
        Ok(())
    })
}
