//! All combinations as a workbench: ordered, filtered, marked and made ranges.

use anyhow::{Result, ensure};
use levertrain_core::{State, Train};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::{by_core, by_hand};

/// What the core says of a combination: its elements, state, and ratio if it has one.
pub struct Row {
    pub applied: Vec<String>,
    pub state: &'static str,
    pub ratio: Option<f64>,
}

/// All combinations, in counting order.
pub fn rows() -> Result<Vec<Row>> {
    Ok(rows_of(&by_hand::train()?))
}

pub fn rows_of(train: &Train) -> Vec<Row> {
    let mut rows = Vec::new();
    train.for_each_combination(|combination| {
        let state = match combination.state() {
            State::Driving(_) => "driving",
            State::OverApplied(_) => "over-applied",
            State::Neutral => "neutral",
            State::OutputHeld => "output-held",
            State::TiedUp => "tied-up",
        };
        rows.push(Row {
            applied: by_core::applied(combination),
            state,
            ratio: combination.state().ratio().map(|ratio| ratio.to_f64()),
        });
    });
    rows
}

/// The elements of the rows on the page, as the core names them.
pub fn listed(page: &Page) -> Result<Vec<Vec<String>>> {
    page.get(
        "probe.all('tr[data-applied]').map(({ dataset }) => dataset.applied.split(',').filter(Boolean).sort())",
        Value::Null,
    )
}

/// Chooses in one of the lists above the table.
pub fn choose(page: &Page, list: &str, value: &str) -> Result<()> {
    page.run(
        "const node = probe.one(`[data-part=combinations] ${args[0]}`); node.value = args[1]; \
         node.dispatchEvent(new Event('change'))",
        json!([list, value]),
    )
}

fn open(test: impl FnOnce(&mut Page) -> Result<()>) -> Result<()> {
    page::open(View::LAPTOP, &by_hand::link(by_hand::SECOND), |page| {
        page.unfold("combinations")?;
        page.until(
            "they are listed",
            "probe.all('tr[data-applied]').length > 0",
        )?;
        test(page)
    })
}

pub fn check(page: &Page, what: &str, expected: &[&Row]) -> Result<()> {
    let expected: Vec<_> = expected.iter().map(|row| row.applied.clone()).collect();
    let listed = listed(page)?;
    ensure!(
        listed == expected,
        "{what}: {listed:?}\ninstead of\n{expected:?}"
    );
    let count: String = page.get(
        "probe.one('[data-part=combinations] table').getAttribute('aria-rowcount')",
        Value::Null,
    )?;
    ensure!(count == format!("{}", expected.len() + 1), "{count} rows");
    Ok(())
}

/// Catches an order that is not the core's, or that shuffles what is alike.
#[test]
fn combinations_are_ordered_as_the_core_says() -> Result<()> {
    let rows = rows()?;
    open(|page| {
        let mut by_ratio: Vec<_> = rows.iter().collect();
        by_ratio.sort_by(|a, b| {
            let key = |row: &Row| row.ratio.unwrap_or(f64::INFINITY);
            key(a).total_cmp(&key(b))
        });
        choose(page, "#order", "ratio")?;
        check(page, "ratio", &by_ratio)?;

        let mut by_number: Vec<_> = rows.iter().collect();
        by_number.sort_by_key(|row| row.applied.len());
        choose(page, "#order", "applied")?;
        check(page, "number", &by_number)?;

        let states = [
            "driving",
            "over-applied",
            "neutral",
            "output-held",
            "tied-up",
        ];
        let mut by_state: Vec<_> = rows.iter().collect();
        by_state.sort_by_key(|row| states.iter().position(|state| *state == row.state));
        choose(page, "#order", "state")?;
        check(page, "state", &by_state)?;

        choose(page, "#order", "counting")?;
        check(page, "counting", &rows.iter().collect::<Vec<_>>())
    })
}

/// Catches a filter that lets through what was not asked for, or keeps back what was.
#[test]
fn combinations_are_filtered_by_state_and_element() -> Result<()> {
    let rows = rows()?;
    open(|page| {
        let has = |row: &Row, id: &str| row.applied.iter().any(|element| element == id);
        choose(page, "[data-element=H]", "applied")?;
        choose(page, "[data-element=V]", "open")?;
        let asked = |row: &&Row| has(row, "H") && !has(row, "V");
        check(
            page,
            "elements",
            &rows.iter().filter(asked).collect::<Vec<_>>(),
        )?;

        choose(page, "#states", "driving")?;
        let driving: Vec<_> = rows
            .iter()
            .filter(|row| asked(row) && row.state == "driving")
            .collect();
        ensure!(!driving.is_empty(), "nothing to see");
        check(page, "elements and state", &driving)
    })
}

/// Catches rows one change away that are not marked, and marks left over from before.
#[test]
fn rows_one_change_away_say_which() -> Result<()> {
    open(|page| {
        let marks = "probe.all('tr[data-applied] [data-change]').map((node) => \
            [node.closest('tr').dataset.applied.split(',').filter(Boolean).sort().join(' '), node.textContent])";
        for first in [vec!["H", "V"], vec!["V"]] {
            page.run(
                "probe.all('tr[data-applied]').find(({ dataset }) => \
                    dataset.applied.split(',').filter(Boolean).sort().join() === args[0].join()).click()",
                json!([first]),
            )?;
            let mut expected: Vec<(String, String)> = rows()?
                .iter()
                .filter_map(|row| {
                    let more: Vec<_> = row
                        .applied
                        .iter()
                        .filter(|id| !first.contains(&id.as_str()))
                        .collect();
                    let less: Vec<_> = first
                        .iter()
                        .filter(|id| !row.applied.iter().any(|own| own == *id))
                        .collect();
                    let words = match (more.as_slice(), less.as_slice()) {
                        ([id], []) => format!("+ apply {id}"),
                        ([], [id]) => format!("− release {id}"),
                        _ => return None,
                    };
                    Some((row.applied.join(" "), words))
                })
                .collect();
            ensure!(expected.len() == 5, "one for each element: {expected:?}");
            expected.sort();
            let mut marked: Vec<(String, String)> = page.get(marks, Value::Null)?;
            marked.sort();
            ensure!(marked == expected, "{marked:?}\ninstead of\n{expected:?}");
        }
        Ok(())
    })
}

/// Catches a range of something else, a list that does not know of it, and focus that is lost.
#[test]
fn a_row_becomes_a_range() -> Result<()> {
    open(|page| {
        let row =
            "probe.all('tr[data-applied]').find((row) => row.querySelector('[data-take-range]'))";
        let applied: String = page.get(&format!("{row}.dataset.applied"), Value::Null)?;
        let (tied, offered): (usize, usize) = page.get(
            "(() => { const tied = probe.all('tr[data-state=tied-up]'); \
                return [tied.length, tied.filter((row) => row.querySelector('[data-take-range]')).length]; })()",
            Value::Null,
        )?;
        ensure!(
            tied > 0 && offered == 0,
            "{offered} of {tied} that tie up are offered"
        );
        let before: usize = page.get("probe.all('[data-take-range]').length", Value::Null)?;
        choose(page, "#order", "applied")?;
        page.run(
            "probe.all('tr[data-applied]').find(({ dataset }) => dataset.applied === args[0]) \
                .querySelector('[data-take-range]').click()",
            json!([applied]),
        )?;
        page.until(
            "it is a range",
            &format!("probe.all('[data-take-range]').length === {}", before - 1),
        )?;
        let (focused, order, label): (String, String, String) = page.get(
            "(() => { const row = probe.all('tr[data-applied]').find(({ dataset }) => dataset.applied === args[0]); \
             const button = row.getRootNode().activeElement; \
             return [button?.closest('tr')?.dataset.applied ?? '?', probe.one('#order').value, row.lastChild.textContent]; })()",
            json!([applied]),
        )?;
        ensure!(focused == applied, "the focus is in {focused:?}");
        ensure!(order == "applied", "ordered by {order}");
        ensure!(!label.is_empty() && label != "+", "no label");
        let seen = page.seen()?;
        ensure!(seen.applied == by_hand::SECOND.applied, "{seen:?}");
        Ok(())
    })
}

/// Catches a heading that sorts otherwise than it says, and rows without a ratio that come before those
/// with one.
#[test]
fn headings_sort_both_ways() -> Result<()> {
    let rows = rows()?;
    open(|page| {
        let press = || page.run("probe.one('[data-order=ratio]').click()", Value::Null);
        let sorted = || -> Result<Vec<String>> {
            page.get(
                "probe.all('[data-part=combinations] [aria-sort]').map((head) => \
                    `${head.querySelector('button').dataset.order} ${head.getAttribute('aria-sort')}`)",
                Value::Null,
            )
        };
        ensure!(sorted()?.is_empty(), "{:?}", sorted()?);
        press()?;
        ensure!(sorted()? == ["ratio ascending"], "{:?}", sorted()?);
        press()?;
        ensure!(sorted()? == ["ratio descending"], "{:?}", sorted()?);
        let mut downwards: Vec<_> = rows.iter().collect();
        downwards.sort_by(|a, b| {
            let key = |row: &Row| row.ratio.unwrap_or(f64::NEG_INFINITY);
            key(b).total_cmp(&key(a))
        });
        check(page, "ratio downwards", &downwards)
    })
}

/// Catches focus that is lost when the row that was pressed moves to the top.
#[test]
fn a_row_that_moves_keeps_the_focus() -> Result<()> {
    open(|page| {
        choose(page, "#order", "changes")?;
        let (pressed, first, focused): (String, String, String) = page.get(
            "(() => { const rows = () => probe.all('tr[data-applied]'); const root = rows()[0].getRootNode(); \
             const { applied } = rows()[9].dataset; const button = rows()[9].querySelector('button'); \
             button.focus(); button.click(); \
             return [applied, rows()[0].dataset.applied, root.activeElement?.closest('tr')?.dataset.applied ?? '?']; })()",
            Value::Null,
        )?;
        ensure!(first == pressed, "{first:?} comes first, not {pressed:?}");
        ensure!(focused == pressed, "the focus is in {focused:?}");
        Ok(())
    })
}

/// Catches rows of several heights, which put others in places where they are not.
#[test]
fn rows_are_of_one_height_also_for_fingers() -> Result<()> {
    for view in [View::LAPTOP, View::PHONE] {
        page::open(view, &by_hand::link(by_hand::SECOND), |page| {
            page.unfold("combinations")?;
            page.until(
                "they are listed",
                "probe.all('tr[data-applied]').length > 0",
            )?;
            let heights: Vec<f64> = page.get(
                "probe.all('tr[data-applied]').map((row) => row.getBoundingClientRect().height)",
                Value::Null,
            )?;
            // The lines between them may come to part of a pixel of the screen.
            let same = heights
                .iter()
                .all(|height| (height - heights[0]).abs() < 0.5);
            ensure!(same, "{heights:?}");
            Ok(())
        })?;
    }
    Ok(())
}
