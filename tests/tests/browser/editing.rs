//! Changing the train by its form.

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};

/// Sets a field of the form as typing or choosing does.
const SET: &str = "(() => { \
    const node = probe.all('[data-part=edit] [data-key]').find((node) => node.dataset.key === args[0]); \
    if (!node) throw new Error(`no field ${args[0]}`); \
    node.focus(); \
    node.value = args[1]; \
    const event = node.matches('select') ? 'change' : 'input'; \
    node.dispatchEvent(new Event(event, { bubbles: true })); \
})()";

/// Chooses by the words of an option.
const CHOOSE: &str = "(() => { \
    const node = probe.all('[data-part=edit] [data-key]').find((node) => node.dataset.key === args[0]); \
    const option = [...node.options].find(({ text }) => text === args[1]); \
    if (!option) throw new Error(`no ${args[1]} for ${args[0]}`); \
    node.value = option.value; \
    node.dispatchEvent(new Event('change', { bubbles: true })); \
})()";

pub fn set(page: &Page, key: &str, value: &str) -> Result<()> {
    page.run(SET, json!([key, value]))
}

fn choose(page: &Page, key: &str, words: &str) -> Result<()> {
    page.run(CHOOSE, json!([key, words]))
}

fn press(page: &Page, key: &str) -> Result<()> {
    page.click(&format!("[data-part=edit] button[data-key=\"{key}\"]"))
}

pub fn open_form(page: &Page) -> Result<()> {
    page.unfold("edit")?;
    page.until(
        "the form is there",
        "probe.all('[data-part=edit] [data-set]').length > 0 || \
            probe.one('[data-part=edit] .edit-form .note')",
    )
}

/// Catches a tooth count that changes nothing, a step that does not come back, edits that reach the
/// scenario of the page, and a file that is lost with a reload. By hand: in first of the six-speed the
/// ring of its second set is held and its sun drives the output by its carrier, so that the ratio is
/// 1 + R/S of that set (Willis' relation), R being 87.
#[test]
fn a_tooth_count_changes_the_train_and_comes_back() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        let shows = |exact: &str, what: &str| -> Result<()> {
            let seen = page.seen()?;
            ensure!(seen.exact.as_deref() == Some(exact), "{what}: {seen:?}");
            ensure!(seen.applied == ["J", "W"], "{what}: {seen:?}");
            Ok(())
        };
        shows("46/17", "1 + 87/51")?;
        set(page, "teeth p2 0", "52")?;
        shows("139/52", "1 + 87/52")?;
        set(page, "teeth p2 0", "3")?;
        shows("139/52", "three teeth are refused")?;
        // What is typed is kept a moment later.
        page.until(
            "it is kept",
            "Object.values(sessionStorage).some((text) => text.includes('Six-speed'))",
        )?;
        page.reload()?;
        shows("139/52", "after a reload")?;

        open_form(page)?;
        set(page, "teeth p2 0", "58")?;
        shows("5/2", "1 + 87/58")?;
        press(page, "undo")?;
        shows("139/52", "taken back")?;
        press(page, "redo")?;
        shows("5/2", "made again")?;

        page.choose(by_hand::STEM)?;
        page.click_range(FIRST.id)?;
        shows("46/17", "the scenario of the page")?;
        Ok(())
    })
}

/// Catches work that is listed no more once another train is begun, and a second train of its name that
/// nobody can tell from the first.
#[test]
fn a_train_stays_at_hand_when_another_is_begun() -> Result<()> {
    const SETS: &str = "probe.all('[data-part=edit] [data-set]').length";
    const OWN: &str = "probe.all('#scenario option').filter(({ value }) => value.startsWith('file/')) \
        .map(({ value, textContent }) => [value, textContent])";
    page::open(View::LAPTOP, "", |page| {
        page.run(
            "(() => { const picker = probe.one('#scenario'); picker.value = 'empty/'; \
                picker.dispatchEvent(new Event('change')); })()",
            Value::Null,
        )?;
        page.until(
            "there is a form",
            "probe.all('[data-key=\"add set\"]').length === 1",
        )?;
        press(page, "add set")?;
        page.until("one set", &format!("{SETS} === 1"))?;
        press(page, "begin")?;
        page.until("no set", &format!("{SETS} === 0"))?;
        press(page, "add set")?;
        press(page, "add set")?;
        page.until("two sets", &format!("{SETS} === 2"))?;
        // Begun and left as it is, it is no third.
        press(page, "begin")?;
        press(page, "begin")?;
        let seen = |what: &str| -> Result<()> {
            let own: Vec<[String; 2]> = page.get(OWN, Value::Null)?;
            let mut names: Vec<&String> = own.iter().map(|[_, name]| name).collect();
            ensure!(own.len() == 3, "{what}: {own:?}");
            names.sort();
            names.dedup();
            ensure!(names.len() == 3, "{what}: {names:?}");
            for (at, sets) in [1, 2].into_iter().enumerate() {
                let pick = "(() => { const picker = probe.one('#scenario'); picker.value = args; \
                    picker.dispatchEvent(new Event('change')); })()";
                page.run(pick, json!(own[at][0]))?;
                page.until(what, &format!("{SETS} === {sets}"))?;
            }
            Ok(())
        };
        seen("picked")?;
        page.choose(by_hand::STEM)?;
        page.reload()?;
        open_form(page)?;
        seen("after a reload")
    })
}

/// Catches a scenario that is called a file of the user's own, and kept as one, though all that was
/// changed of it has been taken back.
#[test]
fn with_everything_taken_back_it_is_the_scenario_of_the_page() -> Result<()> {
    const KEPT: &str =
        "Object.keys(localStorage).filter((key) => key.startsWith('levertrain draft')).length";
    const PICKED: &str = "probe.one('#scenario').value";
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        set(page, "teeth p2 0", "52")?;
        page.until("it is kept", &format!("{KEPT} === 1"))?;
        set(page, "teeth p1 0", "31")?;
        press(page, "undo")?;
        let picked: String = page.get(PICKED, Value::Null)?;
        ensure!(picked.starts_with("file/"), "one change is left: {picked}");
        press(page, "undo")?;
        page.until("nothing is kept", &format!("{KEPT} === 0"))?;
        let picked: String = page.get(PICKED, Value::Null)?;
        ensure!(picked == by_hand::STEM, "{picked}");
        press(page, "redo")?;
        page.until("it is kept again", &format!("{KEPT} === 1"))?;
        let own: usize = page.get(
            "probe.all('#scenario option').filter(({ value }) => value.startsWith('file/')).length",
            Value::Null,
        )?;
        ensure!(own == 1, "{own} files");
        // What is opened as a file has no way back to the scenario.
        page.reload()?;
        open_form(page)?;
        set(page, "teeth p1 0", "31")?;
        press(page, "undo")?;
        let picked: String = page.get(PICKED, Value::Null)?;
        ensure!(picked.starts_with("file/"), "after a reload: {picked}");
        Ok(())
    })
}

/// Builds a train of one set from nothing by the form: the sun drives, a brake holds the ring, the
/// carrier delivers; a clutch turns all as one. By hand: 1 + 84/36 = 10/3, and 1.
#[test]
fn a_two_speed_is_built_from_nothing() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        open_form(page)?;
        press(page, "begin")?;
        page.until(
            "nothing is there",
            "probe.all('[data-part=edit] [data-set]').length === 0",
        )?;
        press(page, "add set")?;
        choose(page, "shaft p1 0", "Input")?;
        choose(page, "shaft p1 1", "Output")?;
        choose(page, "new element", "Brake")?;
        choose(page, "new first", "Ring 1")?;
        press(page, "add element")?;
        choose(page, "new element", "Clutch")?;
        choose(page, "new first", "Input")?;
        choose(page, "new second", "Output")?;
        press(page, "add element")?;
        let neutral = page.seen()?;
        ensure!(neutral.ratio.is_none(), "{neutral:?}");
        for (element, ratio) in [("V", "10/3"), ("H", "1")] {
            page.run("probe.host('lever-train').apply([args])", json!(element))?;
            let seen = page.seen()?;
            ensure!(seen.exact.as_deref() == Some(ratio), "{seen:?}");
            press(page, "add range")?;
        }
        let ranges: Vec<String> = page.get(
            "probe.all('.range-buttons [data-range-id]').map((node) => node.textContent)",
            Value::Null,
        )?;
        ensure!(ranges.len() == 2, "{ranges:?}");
        let depth: usize = page.get(
            "(() => { let steps = 0; const undo = probe.all('[data-part=edit] button') \
                .find((node) => node.dataset.key === 'undo'); \
                while (!undo.disabled) { undo.click(); steps += 1; } return steps; })()",
            Value::Null,
        )?;
        ensure!(depth == 7, "{depth} steps led back");
        page.check_faults().context("after undoing")
    })
}

/// The texts of all drafts that the browser keeps.
const DRAFTS: &str = "Object.entries(localStorage).filter(([key]) => key.startsWith('levertrain draft')) \
    .map(([, value]) => JSON.parse(value).text)";

/// The entries of the list of scenarios that are the reader's own.
const OWN: &str = "[...probe.one('#scenario').options].filter(({ value }) => value.startsWith('file/')) \
    .map(({ text }) => text)";

fn own_trains(page: &Page) -> Result<Vec<String>> {
    page.get(OWN, Value::Null)
}

fn choose_own(page: &Page) -> Result<()> {
    page.run(
        "(() => { const picker = probe.one('#scenario'); \
            picker.value = [...picker.options].find(({ value }) => value.startsWith('file/')).value; \
            picker.dispatchEvent(new Event('change')); })()",
        Value::Null,
    )
}

/// Catches work that is lost with its tab, one that comes back after it was deleted, and one that does not
/// when that is wanted.
#[test]
fn a_changed_train_outlives_its_tab_until_it_is_deleted() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        set(page, "teeth p2 0", "58")?;
        page.until("it is kept", &format!("{DRAFTS}.length === 1"))?;
        // Another tab has another storage of its own.
        page.run("sessionStorage.clear()", Value::Null)?;
        page.goto(&by_hand::link(FIRST))?;
        ensure!(own_trains(page)? == ["Six-speed, three sets (your file)"]);
        ensure!(page.seen()?.exact.as_deref() == Some("46/17"));
        choose_own(page)?;
        ensure!(page.seen()?.exact.as_deref() == Some("5/2"), "1 + 87/58");

        open_form(page)?;
        press(page, "delete")?;
        page.until(
            "it is gone",
            &format!("{OWN}.length === 0 && {DRAFTS}.length === 0"),
        )?;
        press(page, "restore")?;
        page.until("it is back", &format!("{DRAFTS}.length === 1"))?;
        ensure!(
            page.seen()?.exact.as_deref() == Some("5/2"),
            "it is another"
        );
        page.check_faults()
    })
}

/// Catches two tabs that write over each other's work.
#[test]
fn what_another_tab_has_is_not_written_over() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        set(page, "teeth p2 0", "58")?;
        page.until("it is kept", &format!("{DRAFTS}.length === 1"))?;
        page.run("sessionStorage.clear()", Value::Null)?;
        page.goto(&by_hand::link(FIRST))?;
        // As another tab would that is at it.
        page.run(
            "(() => { const [key] = Object.keys(localStorage).filter((key) => key.startsWith('levertrain draft')); \
                navigator.locks.request(key, () => new Promise(() => {})); })()",
            Value::Null,
        )?;
        choose_own(page)?;
        open_form(page)?;
        set(page, "teeth p2 0", "52")?;
        page.until("it is kept as well", &format!("{DRAFTS}.length === 2"))?;
        let texts: Vec<String> = page.get(DRAFTS, Value::Null)?;
        for teeth in [52, 58] {
            let sun = format!("\"sun\": {{\"shaft\": \"in\", \"teeth\": {teeth}}}");
            let with = texts.iter().filter(|text| text.contains(&sun)).count();
            ensure!(with == 1, "{with} with {teeth}: {texts:#?}");
        }
        Ok(())
    })
}

/// Catches friction data that change nothing, and those that cannot be taken away or given again.
#[test]
fn what_a_brake_can_hold_is_changed() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        page.unfold("capacity")?;
        open_form(page)?;
        let words = || -> Result<String> {
            page.rest()?;
            page.get(
                "probe.one('[data-part=capacity-words]').textContent",
                Value::Null,
            )
        };
        ensure!(words()?.contains("no range slips"), "{}", words()?);
        // 1 N presses next to nothing together.
        set(page, "clamp_force W", "1")?;
        page.until(
            "it slips",
            "!probe.one('[data-part=capacity-words]').textContent.includes('no range slips')",
        )?;
        ensure!(words()?.contains("1st"), "{}", words()?);
        set(page, "outer_radius W", "0.5")?;
        ensure!(page.messages()?.is_empty(), "{:?}", page.messages()?);
        page.run(
            "for (const node of probe.all('.edit-friction')) node.open = true",
            Value::Null,
        )?;
        press(page, "no friction W")?;
        page.until(
            "it can be given again",
            "probe.all('[data-part=edit] button').some((node) => node.dataset.key === 'friction W')",
        )?;
        press(page, "friction W")?;
        page.check_faults()
    })
}

/// Catches older work that takes the place of newer: this tab listed a draft which another one went on with
/// and was closed.
#[test]
fn what_another_tab_went_on_with_is_not_written_over() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        set(page, "teeth p2 0", "58")?;
        page.until("it is kept", &format!("{DRAFTS}.length === 1"))?;
        page.run("sessionStorage.clear()", Value::Null)?;
        page.goto(&by_hand::link(FIRST))?;
        page.run(
            "(() => { const [[key, value]] = Object.entries(localStorage) \
                .filter(([key]) => key.startsWith('levertrain draft')); \
                localStorage.setItem(key, JSON.stringify({ ...JSON.parse(value), text: 'newer', time: 1 })); })()",
            Value::Null,
        )?;
        choose_own(page)?;
        open_form(page)?;
        set(page, "teeth p2 0", "52")?;
        page.until("it is kept as well", &format!("{DRAFTS}.length === 2"))?;
        let texts: Vec<String> = page.get(DRAFTS, Value::Null)?;
        ensure!(texts.iter().any(|text| text == "newer"), "{texts:#?}");
        Ok(())
    })
}

/// Catches the last letters that are lost when a tab is closed at once.
#[test]
fn what_was_typed_last_is_kept_by_a_tab_that_closes() -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        set(page, "teeth p2 0", "52")?;
        page.until("it is kept", &format!("{DRAFTS}.length === 1"))?;
        // Kept under a name of its own by now, what follows must not wait.
        page.get::<()>("new Promise((done) => setTimeout(done, 400))", Value::Null)?;
        let texts: Vec<String> = page.get(
            &format!(
                "(() => {{ const args = ['teeth p2 0', '58']; {SET}; \
                    dispatchEvent(new PageTransitionEvent('pagehide')); return {DRAFTS}; }})()"
            ),
            Value::Null,
        )?;
        let sun = "\"sun\": {\"shaft\": \"in\", \"teeth\": 58}";
        ensure!(texts.len() == 1 && texts[0].contains(sun), "{texts:#?}");
        Ok(())
    })
}
