//! The most combinations that a train can have: a list that is walked in pieces, and of which few rows are on the page.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_tests::browser::{Page, View, page, required, skipped};
use levertrain_tests::worst;
use serde_json::{Value, json};
use xtask::site;
use xtask::test_environment::SITE;

use crate::combinations::{Row, check, choose, listed, rows, rows_of};
use crate::{by_core, by_hand, take_away};

/// Catches the largest train allowed, 16 elements, whose 65 536 rows are all put on the page, cut short or
/// counted wrongly, and rows that neither scrolling nor keys lead to.
#[test]
fn the_most_combinations_are_ordered_too() -> Result<()> {
    /// The rows in sight, and 24 on either side.
    const MOST: usize = 80;
    let (file, rows) = most()?;
    page::open(View::LAPTOP, "", |page| {
        page.open_file(&file)?;
        page.unfold("combinations")?;
        let count = "probe.one('[data-part=combinations] table')?.getAttribute('aria-rowcount')";
        page.until("all are counted", &format!("{count} === '65537'"))?;
        let mut by_ratio: Vec<_> = rows.iter().collect();
        by_ratio.sort_by(|a, b| {
            let key = |row: &Row| row.ratio.unwrap_or(f64::INFINITY);
            key(a).total_cmp(&key(b))
        });
        choose(page, "#order", "ratio")?;
        let agree = |what: &str, needed: usize| -> Result<()> {
            let placed: Vec<(usize, Vec<String>)> = page.get(
                "probe.all('tr[data-applied]').map((row) => [row.getAttribute('aria-rowindex') - 2, \
                    row.dataset.applied.split(',').filter(Boolean).sort()])",
                Value::Null,
            )?;
            ensure!(placed.len() <= MOST, "{what}: {} rows", placed.len());
            ensure!(
                placed.iter().any(|(index, _)| *index == needed),
                "{what}: no row {needed} in {placed:?}"
            );
            for (index, applied) in &placed {
                let expected = &by_ratio[*index].applied;
                ensure!(
                    applied == expected,
                    "{what}: {index} is {applied:?}, not {expected:?}"
                );
            }
            Ok(())
        };
        agree("at first", 0)?;
        page.run(
            "const box = probe.one('.bench'); box.scrollTop = box.scrollHeight / 2",
            Value::Null,
        )?;
        page.until(
            "the middle is there",
            "probe.all('tr[data-applied]').some((row) => row.getAttribute('aria-rowindex') === '32770')",
        )?;
        agree("in the middle", 32_768)?;
        let at = "Number(probe.one('.bench').getRootNode().activeElement.closest('tr').getAttribute('aria-rowindex')) - 2";
        page.run(
            "probe.one('tr[data-applied] button[tabindex=\"0\"]').focus()",
            Value::Null,
        )?;
        for (key, to) in [
            (Key::End, 65_535),
            (Key::Up, 65_534),
            (Key::Down, 65_535),
            (Key::Home, 0),
            (Key::Down, 1),
        ] {
            page.keys([key])?;
            let reached: usize = page.get(at, Value::Null)?;
            ensure!(reached == to, "{reached} instead of {to}");
            agree("by keys", to)?;
        }
        page.keys([Key::PageDown])?;
        let reached: usize = page.get(at, Value::Null)?;
        ensure!((5..30).contains(&reached), "a page leads to {reached}");
        choose(page, "[data-element]", "applied")?;
        page.until("half of them have it", &format!("{count} === '32769'"))?;
        page.check_faults()
    })
}

/// The file with the most combinations, and what the core says of them.
fn most() -> Result<(PathBuf, Vec<Row>)> {
    let (file, text) = most_file()?;
    let rows = rows_of(&by_core::parse(&text)?);
    ensure!(rows.len() == 1 << 16, "{} rows", rows.len());
    Ok((file, rows))
}

/// The file with the most combinations, and its text.
pub fn most_file() -> Result<(PathBuf, String)> {
    let worst = worst::files().into_iter().next().context("no worst file")?;
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join("most-combinations.json");
    fs::write(&file, &worst.text)?;
    Ok((file, worst.text))
}

/// How many rows there are.
pub const ROWS: &str =
    "Number(probe.one('[data-part=combinations] table')?.getAttribute('aria-rowcount')) - 1";
const BAR: &str = "probe.one('[data-part=combinations] progress')";
const BUTTON: &str = "probe.one('.walk button')";

/// What workers answer waits in `held` until it is let go, and those that are ended are counted.
const HOLD: &str = "window.held = []; window.ended = 0; const Real = Worker; \
    window.Worker = class extends Real { \
        addEventListener(type, hear) { \
            super.addEventListener(type, type === 'message' ? (event) => held.push(() => hear(event)) : hear); \
        } \
        terminate() { ended += 1; super.terminate(); } \
    }";

/// Has the list of the most combinations unfolded, of which the worker has answered for the first.
fn hold_most(page: &Page, file: &Path) -> Result<()> {
    page.open_file(file)?;
    page.run(HOLD, Value::Null)?;
    page.unfold("combinations")?;
    page.until("the worker has answered", "held.length === 1")
}

/// Lets one answer go, or every one until all combinations are known.
fn release(page: &Page, all: bool) -> Result<()> {
    if !all {
        return page.run("held.shift()()", Value::Null);
    }
    page.run(
        "window.letting = setInterval(() => held.shift()?.(), 5)",
        Value::Null,
    )?;
    page.until(
        "all are known",
        &format!("{ROWS} === 65536 && {BAR}.parentElement.hidden"),
    )?;
    page.run("clearInterval(window.letting)", Value::Null)
}

/// Catches a walk that holds the page up, that does not tell how far it is, and one that cannot be stopped,
/// throws away what it has found, says nothing of what is missing or begins again.
#[test]
fn a_walk_can_be_watched_stopped_and_gone_on_with() -> Result<()> {
    const PIECE: usize = 4096;
    let (file, rows) = most()?;
    page::open(View::LAPTOP, "", |page| {
        hold_most(page, &file)?;
        release(page, false)?;
        page.until(
            "how far it is can be seen",
            &format!("{BAR}.checkVisibility() && {BAR}.value === {PIECE} && {BAR}.max === 65536"),
        )?;
        page.until("they are listed", &format!("{ROWS} === {PIECE}"))?;

        // The page answers meanwhile, and so does the list.
        let before = page.seen()?.applied;
        page.run("probe.all('tr[data-applied]')[1].click()", Value::Null)?;
        let applied = page.seen()?.applied;
        ensure!(
            applied == rows[1].applied && applied != before,
            "{applied:?}"
        );
        choose(page, "#order", "ratio")?;
        let mut by_ratio: Vec<_> = rows[..PIECE].iter().collect();
        by_ratio.sort_by(|a, b| {
            let key = |row: &Row| row.ratio.unwrap_or(f64::INFINITY);
            key(a).total_cmp(&key(b))
        });
        let first = &listed(page)?[0];
        ensure!(*first == by_ratio[0].applied, "{first:?} comes first");

        page.run(&format!("{BUTTON}.click()"), Value::Null)?;
        page.until("one more has come", "held.length === 1")?;
        release(page, false)?;
        let (words, button): (String, String) = page.get(
            &format!("[probe.one('.walk span').textContent, {BUTTON}.textContent]"),
            Value::Null,
        )?;
        ensure!(
            words == "Stopped at 4096 of 65\u{2009}536: the list is not complete.",
            "{words:?}"
        );
        ensure!(button == "Go on", "{button:?}");
        let found: usize = page.get(ROWS, Value::Null)?;
        ensure!(found == PIECE, "{found} rows");
        // What is taken away says so as well.
        let (_, lines) = take_away::csv(page, "combinations", 0)?;
        let last = lines.last().map(|line| line.trim_matches('"'));
        ensure!(lines.len() == 1 + PIECE + 1, "{} lines", lines.len());
        ensure!(last == Some(&*words), "{last:?}");

        page.run(&format!("{BUTTON}.focus(); {BUTTON}.click()"), Value::Null)?;
        release(page, true)?;
        let focused: bool = page.get(
            "probe.one('tr[data-applied]').matches(':focus-within')",
            Value::Null,
        )?;
        ensure!(focused, "the focus is lost with its button");
        choose(page, "#states", "tied-up")?;
        let tied = rows.iter().filter(|row| row.state == "tied-up").count();
        let found: usize = page.get(ROWS, Value::Null)?;
        ensure!(found == tied && tied > PIECE, "{found} of {tied} are there");
        page.check_faults()
    })
}

/// Catches what was found of one train in the list of another, and a walk that nobody looks at.
#[test]
fn a_walk_ends_with_its_train_and_its_panel() -> Result<()> {
    let (file, _) = most_file()?;
    page::open(View::LAPTOP, "", |page| {
        hold_most(page, &file)?;
        page.run(
            "probe.one('[data-part=combinations]').open = false",
            Value::Null,
        )?;
        page.until("the worker is ended", "ended === 1")?;
        page.run(
            "held.length = 0; probe.one('[data-part=combinations]').open = true",
            Value::Null,
        )?;
        page.until("another one has answered", "held.length === 1")?;
        page.choose(by_hand::STEM)?;
        page.until("the other train is there", &format!("{ROWS} === 32"))?;
        release(page, false)?;
        check(
            page,
            "of the other train",
            &rows()?.iter().collect::<Vec<_>>(),
        )?;
        ensure!(
            !page.get::<bool>(&format!("{BAR}.checkVisibility()"), Value::Null)?,
            "a walk goes on"
        );
        page.check_faults()
    })
}

/// Catches a list that stays empty where a page may have no worker: its policy forbids it, the worker cannot be
/// had, or its engine breaks; and a page that stands still meanwhile.
#[test]
fn without_a_worker_the_page_walks_in_pieces() -> Result<()> {
    let (file, _) = most_file()?;
    let walked = format!("{ROWS} === 65536 && {BAR}.parentElement.hidden");
    for lack in [
        "class { constructor() { throw new DOMException('no worker', 'SecurityError'); } }",
        "class extends Worker { constructor(_, options) { super('no-such-worker.js', options); } }",
        "class extends Worker { postMessage(question) { super.postMessage({ ...question, text: '' }); } }",
    ] {
        page::open(View::LAPTOP, "", |page| {
            page.expect_fault("no-such-worker.js");
            page.open_file(&file)?;
            page.run(&format!("window.Worker = {lack}"), Value::Null)?;
            // How far it was whenever timers had their turn.
            page.run(
                &format!(
                    "window.seen = new Set(); setInterval(() => {BAR} && seen.add({BAR}.value), 1)"
                ),
                Value::Null,
            )?;
            page.unfold("combinations")?;
            page.until(lack, &walked)?;
            let pieces: usize = page.get("seen.size", Value::Null)?;
            ensure!(pieces > 3, "{lack}: the page had its turn {pieces} times");
            Ok(())
        })?;
    }
    if skipped() {
        return Ok(());
    }
    let policy = format!("{}; worker-src 'none'", site::CONTENT_SECURITY_POLICY);
    page::open_foreign(&required(SITE)?, &policy, "index.html", |page| {
        page.expect_fault("worker-src");
        page.open_file(&file)?;
        page.unfold("combinations")?;
        page.until("the policy forbids workers", &walked)
    })
}

/// Catches an edit that walks again with the rows of before in the way, or that lets them be used, and
/// a row that loses its place and the focus.
#[test]
fn a_range_of_the_most_combinations_keeps_its_place() -> Result<()> {
    let (file, text) = most_file()?;
    let mut text: Value = serde_json::from_str(&text)?;
    text["ranges"] = json!([]);
    let file = file.with_file_name("most-combinations-no-range.json");
    fs::write(&file, text.to_string())?;
    page::open(View::LAPTOP, "", |page| {
        hold_most(page, &file)?;
        release(page, true)?;
        page.run(
            "const box = probe.one('.bench'); box.scrollTop = box.scrollHeight / 2",
            Value::Null,
        )?;
        let row = "probe.all('tr[data-applied]').find((row) => row.getAttribute('aria-rowindex') === '32780')";
        page.until("the middle is there", &format!("Boolean({row})"))?;
        page.run(
            &format!("{row}.querySelector('[data-take-range]').click()"),
            Value::Null,
        )?;
        ensure!(
            page.get::<bool>("probe.one('.bench').inert", Value::Null)?,
            "rows of before can be used"
        );
        release(page, true)?;
        let (inert, focused, label): (bool, bool, String) = page.get(
            &format!("[probe.one('.bench').inert, {row}.matches(':focus-within'), {row}.lastChild.textContent]"),
            Value::Null,
        )?;
        ensure!(
            !inert && focused && label != "+",
            "{inert} {focused} {label:?}"
        );
        page.check_faults()
    })
}
