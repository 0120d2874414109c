//! The engine breaks in one of two elements of a page.

use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::browser::{Page, View, own_site, page, skipped};
use serde_json::Value;

use crate::by_hand::{self, FIRST, SECOND, SIXTH};

const LEFT: &str = "#left";
const RIGHT: &str = "#right";

/// The next change that is asked of an engine at this address reaches for memory that is not there, which
/// is a trap, and leaves all that is there in ruins.
const BREAK: &str = "(async () => { \
    const { default: start, Sandbox } = await import(new URL(args, location.href).href); \
    const { memory } = await start(); \
    const { apply } = Sandbox.prototype; \
    Sandbox.prototype.apply = function (ids) { \
        Sandbox.prototype.apply = apply; \
        this.__wbg_ptr = 0xfffffff0; \
        try { return apply.call(this, ids); } \
        finally { new Uint8Array(memory.buffer).fill(0xff); } \
    }; \
})()";

fn go_on_in_the_whole_engine(page: &Page) -> Result<()> {
    for host in [LEFT, RIGHT] {
        page.run(
            "probe.one('details[data-part=working]', args).open = true",
            host.into(),
        )?;
        page.until(
            "the formula is there",
            &format!("probe.all('[data-part=working] math', '{host}').length > 1"),
        )?;
    }
    Ok(())
}

fn press(page: &Page, host: &str, range: &str) -> Result<()> {
    page.click_in(host, &format!(".range-buttons [data-range-id=\"{range}\"]"))
}

fn told(page: &Page, host: &str) -> Result<Vec<String>> {
    let script = format!(
        "probe.all('[data-part=message] .message-heading', '{host}').map((node) => node.textContent)"
    );
    page.get(&script, Value::Null)
}

/// Catches an element that starts afresh in the very instance that broke, and one that breaks
/// its neighbours, which share it, or loses what their readers had chosen.
#[test]
fn a_trap_in_one_element_ends_neither_it_nor_its_neighbour() -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let lesson = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <h1>Lesson</h1><lever-train id=\"left\" with=\"all\" scenario=\"{stem}\"></lever-train>\
         <lever-train id=\"right\" with=\"all\" scenario=\"{stem}\"></lever-train>",
        stem = by_hand::STEM
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("traps");
    let site = own_site::make(folder, &[("lesson.html", &lesson)])?;
    // In the headless shell memory that is not there is no trap: it ends the tab.
    page::open_in(&site, View::LAPTOP.in_window(), "lesson.html", |page| {
        page.until("the second one is open", "probe.isOpen('#right')")?;
        press(page, LEFT, FIRST.id)?;
        press(page, RIGHT, SIXTH.id)?;
        let right = page.seen_in(RIGHT)?;
        // And once more, in what took the place of the first; then in the whole engine.
        for address in [
            "engine/levertrain.js",
            "engine/levertrain.js?again=1",
            "engine/levertrain_whole.js",
        ] {
            if address.contains("whole") {
                go_on_in_the_whole_engine(page)?;
            }
            page.get::<()>(BREAK, address.into())?;
            press(page, LEFT, SECOND.id)?;
            page.until(
                "it says that it broke",
                "probe.one('[data-part=message]', '#left')",
            )?;
            let heading = told(page, LEFT)?;
            ensure!(heading[0].contains("started afresh"), "{heading:?}");
            let left = page.seen_in(LEFT)?;
            ensure!(left.ratio.as_deref() == Some(FIRST.ratio), "{left:?}");

            ensure!(told(page, RIGHT)?.is_empty(), "the neighbour complains");
            ensure!(page.seen_in(RIGHT)? == right, "the neighbour has changed");
            press(page, RIGHT, SECOND.id)?;
            let seen = page.seen_in(RIGHT)?;
            ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
            press(page, RIGHT, SIXTH.id)?;
            ensure!(page.seen_in(RIGHT)? == right, "it does not come back");

            press(page, LEFT, SECOND.id)?;
            let seen = page.seen_in(LEFT)?;
            ensure!(seen.ratio.as_deref() == Some(SECOND.ratio), "{seen:?}");
            press(page, LEFT, FIRST.id)?;
            page.click_in(LEFT, "[data-part=dismiss]")?;
        }
        Ok(())
    })
}
