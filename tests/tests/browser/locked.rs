//! What a page locks: in whatever way its reader tries, it stays as it is, and the page can change it all the same.

use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Device, Key, Page, Seen, View, own_site, page, skipped};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST, SECOND, SIXTH, THIRD};

/// A page with all of the element in it, and these attributes.
fn open(name: &str, attributes: &str, test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    if skipped() {
        return Ok(());
    }
    let text = format!(
        "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Lesson</title>\
         <link rel=\"icon\" href=\"data:,\"><script type=\"module\" src=\"element.js\"></script>\
         <main><h1>Lesson</h1><lever-train {attributes}></lever-train></main>"
    );
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let site = own_site::make(folder, &[("lesson.html", &text)])?;
    page::open_in(&site, View::LAPTOP, "lesson.html", test)
}

fn six_speed(locked: &str) -> String {
    let (stem, first) = (by_hand::STEM, FIRST.applied.join(","));
    format!("with=\"all\" scenario=\"{stem}\" applied=\"{first}\" locked=\"{locked}\"")
}

fn in_first(page: &Page, way: &str) -> Result<()> {
    let seen: Seen = page.seen()?;
    ensure!(seen.applied == FIRST.applied, "{way}: {seen:?}");
    ensure!(
        seen.ratio.as_deref() == Some(FIRST.ratio) && !seen.preview,
        "{way}: {seen:?}"
    );
    Ok(())
}

/// Clicks by script what a mouse could not reach, as somebody does who has taken `disabled` off.
fn press(page: &Page, selector: &str) -> Result<()> {
    page.run(
        "const node = probe.one(args); node.disabled = false; \
         for (const set of probe.all('fieldset')) set.disabled = false; node.click()",
        json!(selector),
    )
    .with_context(|| selector.to_owned())
}

/// Catches each way to apply an element that the lock forgets, a lock that nobody is told of, and one that also
/// keeps the page off.
#[test]
fn locked_elements_stay_whatever_is_tried() -> Result<()> {
    open("locked-elements", &six_speed("elements"), |page| {
        in_first(page, "at first")?;
        let train = by_hand::train()?;
        for device in [Device::Mouse, Device::Touch] {
            let pack = page.pack(&train, "W")?;
            page.drag(device, &pack, -0.9)?;
            in_first(page, &format!("dragged by {device:?}"))?;
        }
        page.click("[role=switch][data-element-id=V]")?;
        in_first(page, "pressed")?;
        page.run(
            "probe.one('[role=switch][data-element-id=W]').focus()",
            Value::Null,
        )?;
        for key in [Key::Space, Key::Enter] {
            page.keys([key])?;
            in_first(page, "by key")?;
        }
        page.keys(['2'])?;
        in_first(page, "by digit at the packs")?;
        page.click_range(SIXTH.id)?;
        in_first(page, "by range")?;
        page.keys([Key::Right])?;
        page.keys(['0'])?;
        in_first(page, "by keys at the ranges")?;
        page.click("[data-part=release-all]")?;
        in_first(page, "released")?;
        page.unfold("combinations")?;
        page.until(
            "they are listed",
            "probe.one('[data-part=combinations] tr.pick')",
        )?;
        let told: [bool; 4] = page.get(
            "['[role=switch]', '.range-buttons button', '[data-part=combinations] tr.pick button.bare', \
                '[data-part=chart] tr.pick button'] \
                .map((names) => probe.all(names).length > 0 && probe.all(names).every((node) => \
                    node.getAttribute('aria-disabled') === 'true' || node.matches(':disabled')))",
            Value::Null,
        )?;
        ensure!(told == [true; 4], "not told: {told:?}");
        press(
            page,
            "[data-part=combinations] tr.pick:not([aria-current]) button",
        )?;
        in_first(page, "by a row of the combinations")?;
        press(page, "[data-part=chart] tr.pick:not([aria-current]) button")?;
        in_first(page, "by a row of the chart")?;
        let hint = page.get::<String>("probe.text('[data-part=readout]')", Value::Null)?;
        ensure!(hint.contains("stay as they are"), "{hint}");

        // What is no element is not locked.
        page.run("probe.host('lever-train').speed = 1500", Value::Null)?;
        page.until("another speed", "probe.seen().speed === '1500'")?;
        page.click("[data-shows=power]")?;
        let shown: String = page.get("probe.one('[data-shows=power]').ariaPressed", Value::Null)?;
        ensure!(shown == "true", "settings are locked too");

        let answer: String = page.get(
            "probe.host('lever-train').apply(['W', 'K']).then((answer) => answer.ratio.fraction)",
            Value::Null,
        )?;
        ensure!(answer == SECOND.exact, "{answer}");
        page.run("probe.host('lever-train').range = args", json!(THIRD.id))?;
        page.until(
            "by the page",
            &format!("probe.seen().range === '{}'", THIRD.id),
        )?;
        ensure!(page.seen()?.ratio.as_deref() == Some(THIRD.ratio));
        page.run("probe.host('lever-train').locked = null", Value::Null)?;
        page.until(
            "it is told",
            "probe.one('[role=switch]').ariaDisabled === 'false'",
        )?;
        page.click_range(SIXTH.id)?;
        ensure!(
            page.seen()?.ratio.as_deref() == Some(SIXTH.ratio),
            "locked for good"
        );
        Ok(())
    })
}

/// Catches each way to another train that the lock forgets.
#[test]
fn a_locked_train_stays_whatever_is_tried() -> Result<()> {
    open("locked-train", &six_speed("train"), |page| {
        let stem = |page: &Page| -> Result<()> {
            let text: String = page.get("probe.seen().stem", Value::Null)?;
            ensure!(text == by_hand::STEM, "{text}");
            Ok(())
        };
        let disabled: [bool; 2] = page.get(
            "['[data-part=scenario-picker]', '[data-part=open-file]'].map((name) => probe.one(name).matches(':disabled'))",
            Value::Null,
        )?;
        ensure!(disabled == [true; 2], "{disabled:?}");
        for value in ["01-one-set", "empty/"] {
            page.run(
                "for (const set of probe.all('fieldset')) set.disabled = false; \
                 const node = probe.one('[data-part=scenario-picker]'); node.value = args; \
                 node.dispatchEvent(new Event('change'))",
                json!(value),
            )?;
            page.rest()?;
            page.run(
                "probe.one('[data-part=scenario-picker]').value = args",
                json!(by_hand::STEM),
            )?;
            in_first(page, value)?;
        }
        let taken: [bool; 2] = page.get(
            "(() => { \
                const dataTransfer = new DataTransfer(); \
                dataTransfer.items.add(new File(['{'], 'torn.json')); \
                const over = new DragEvent('dragover', { dataTransfer, bubbles: true, cancelable: true }); \
                probe.host('lever-train').dispatchEvent(over); \
                const marked = probe.host('lever-train').hasAttribute('data-drop'); \
                probe.host('lever-train').dispatchEvent(new DragEvent('drop', { dataTransfer, bubbles: true, cancelable: true })); \
                return [marked, !over.defaultPrevented]; \
            })()",
            Value::Null,
        )?;
        ensure!(taken == [false; 2], "{taken:?}");
        page.rest()?;
        ensure!(
            page.messages()?.is_empty(),
            "opened: {:?}",
            page.messages()?
        );
        stem(page)?;

        ensure!(!page.shows("[data-part=edit]")? && !page.shows("[data-part=change]")?);
        page.unfold("file")?;
        page.until("the editor has come", "probe.one('.cm-content')")?;
        let text = "probe.one('.cm-content').cmTile.view.state.doc.toString()";
        let before: String = page.get(text, Value::Null)?;
        page.run("probe.one('.cm-content').focus()", Value::Null)?;
        page.keys(['5', '8'])?;
        let after: String = page.get(text, Value::Null)?;
        let told: String = page.get("probe.one('.cm-content').ariaReadOnly", Value::Null)?;
        ensure!(after == before && told == "true", "its text can be changed");
        page.unfold("combinations")?;
        page.until(
            "they are listed",
            "probe.one('[data-part=combinations] tr.pick')",
        )?;
        let offers: usize = page.get("probe.all('[data-take-range]').length", Value::Null)?;
        ensure!(offers == 0, "{offers} rows can be made ranges");

        // Elements and the page's own wishes are not locked.
        page.click_range(SECOND.id)?;
        ensure!(page.seen()?.ratio.as_deref() == Some(SECOND.ratio));
        page.run(
            "probe.host('lever-train').scenario = '01-one-set'",
            Value::Null,
        )?;
        page.until("by the page", "probe.seen().stem === '01-one-set'")
    })
}

/// Catches a way back to what a train was before it was locked, and what changes it staying on the drawing.
#[test]
fn a_train_that_was_changed_and_locked_then_is_not_changed_back() -> Result<()> {
    open(
        "locked-late",
        &six_speed("").replace("all", "ranges,edit"),
        |page| {
            page.until(
            "there is a field",
            "probe.all('[data-part=edit] [data-key]').some(({ dataset }) => dataset.key === 'teeth p2 0')",
        )?;
            page.until(
                "the drawing can be changed",
                "probe.all('.grip').length > 0",
            )?;
            page.run(
            "const node = probe.all('[data-part=edit] [data-key]').find(({ dataset }) => dataset.key === 'teeth p2 0'); \
             node.focus(); node.value = '58'; node.dispatchEvent(new Event('input', { bubbles: true }))",
            Value::Null,
        )?;
            let exact = |page: &Page| -> Result<Option<String>> { Ok(page.seen()?.exact) };
            ensure!(exact(page)?.as_deref() == Some("5/2"), "{:?}", exact(page)?);
            page.run("probe.host('lever-train').locked = 'train'", Value::Null)?;
            page.rest()?;
            let grips: usize = page.get(
                "probe.all('.grip').filter((node) => node.checkVisibility()).length",
                Value::Null,
            )?;
            ensure!(
                grips == 0,
                "{grips} places of the drawing can be taken hold of"
            );
            page.run("probe.one('.range-buttons button').focus()", Value::Null)?;
            page.chord(Key::Control, 'z')?;
            ensure!(
                exact(page)?.as_deref() == Some("5/2"),
                "taken back: {:?}",
                exact(page)?
            );
            page.run(
            "const node = probe.all('[data-part=edit] [data-key]').find(({ dataset }) => dataset.key === 'undo'); \
             if (node) { node.disabled = false; node.click(); }",
            Value::Null,
        )?;
            ensure!(
                exact(page)?.as_deref() == Some("5/2"),
                "taken back by its button"
            );
            page.run("probe.host('lever-train').locked = null", Value::Null)?;
            page.until(
                "it can be changed again",
                "probe.one('[data-part=edit]').checkVisibility()",
            )
        },
    )
}

/// Catches each setting that the lock forgets, and a lock on what is only looking.
#[test]
fn locked_settings_stay_whatever_is_tried() -> Result<()> {
    open("locked-settings", &six_speed("settings"), |page| {
        page.unfold("losses")?;
        let state = "(() => { const host = probe.host('lever-train'); return JSON.stringify([ \
            probe.one('#speed').value, probe.one('#torque').value, probe.one('[data-unit=speed]').value, \
            probe.one('#mesh').value, probe.one('#way').value, probe.one('[data-shows=power]').ariaPressed, \
            probe.one('[data-part=merged]').checked, probe.one('[data-part=one-module]').checked]); })()";
        let before: String = page.get(state, Value::Null)?;
        let open: Vec<String> = page.get(
            "['#speed', '#torque', 'input[type=range]', '[data-unit=speed]', '[data-part=merged]', '#mesh', '#drag', '#way'] \
                .filter((name) => !probe.one(name).matches(':disabled'))",
            Value::Null,
        )?;
        ensure!(open.is_empty(), "not disabled: {open:?}");
        page.click("[data-shows=power]")?;
        page.run(
            "for (const set of probe.all('fieldset')) set.disabled = false; \
             const put = (name, value, event) => { const node = probe.one(name); \
                if (node.type === 'checkbox') node.checked = true; else node.value = value; \
                node.dispatchEvent(new Event(event)); }; \
             put('.controls input[type=range]', '3000', 'input'); put('#speed', '2000', 'change'); \
             put('#torque', '7', 'change'); put('[data-unit=speed]', 'rads', 'change'); put('#mesh', '90', 'change'); \
             put('#way', 'coast', 'change'); put('[data-part=one-module]', '', 'change')",
            Value::Null,
        )?;
        page.rest()?;
        let after: String = page.get(state, Value::Null)?;
        ensure!(after == before, "{before} became {after}");
        page.run(
            "const node = probe.host('lever-train'); node.locked = null; node.speed = 1500; node.shows = 'power'; \
             node.losses = '90,0,0'",
            Value::Null,
        )?;
        page.rest()?;
        let free: String = page.get(state, Value::Null)?;
        let open: bool = page.get("!probe.one('#speed').matches(':disabled')", Value::Null)?;
        ensure!(
            open && free.contains("\"1500\"")
                && free.contains("\"90\"")
                && free.contains("\"true\""),
            "locked for good: {free}"
        );
        Ok(())
    })
}

/// Catches questions that a lock leaves without an answer, and what was applied before showing through.
#[test]
fn a_question_on_the_stage_can_be_answered_where_all_is_locked() -> Result<()> {
    let sheet = json!({
        "format": 1, "title": "One", "scenario": by_hand::STEM,
        "tasks": [{"task": "reach", "ratio": FIRST.exact}]
    });
    open(
        "locked-exercise",
        &format!("{} exercise=\"sheet.json\"", six_speed("all")),
        |page| {
            // The sheet is not there yet: own_site has only the page.
            page.expect_fault("404");
            page.run(
                "const data = new DataTransfer(); data.items.add(new File([args], 'sheet.json')); \
             const field = probe.one('.exercises input[type=file]'); field.files = data.files; \
             field.dispatchEvent(new Event('change'))",
                json!(sheet.to_string()),
            )?;
            page.until("it asks", "probe.one('.exercise-asked')")?;
            ensure!(page.seen()?.applied.is_empty(), "the answer stands applied");
            for id in FIRST.applied {
                page.click(&format!("[role=switch][data-element-id={id}]"))?;
            }
            ensure!(page.seen()?.applied == FIRST.applied, "locked");
            page.click("[data-part=exercise-check]")?;
            page.until("it is right", "probe.one('[data-mark=right]')")?;
            page.click("[data-part=exercise-next]")?;
            page.until("it is over", "!probe.one('.exercise-asked')")?;
            page.click("[role=switch][data-element-id=V]")?;
            ensure!(page.seen()?.applied == FIRST.applied, "not locked again");
            Ok(())
        },
    )
}
