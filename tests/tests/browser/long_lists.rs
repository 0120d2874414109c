//! Finding rows of the form where a list of it is long.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::{Key, Page, View, page};
use levertrain_tests::worst;
use serde_json::{Value, json};

use crate::by_hand::{self, FIRST};
use crate::editing::{open_form, set};

/// 12 sets, 16 brakes and clutches, and 32 ranges, called by their numbers.
const LARGEST: &str = "most sets and elements";
/// Which elements a range of it applies, by the file's own rule: the first five count the ranges.
fn applies_element_3(range: usize) -> bool {
    range >> 3 & 1 == 0
}

fn open_largest(page: &Page) -> Result<()> {
    let files = worst::files();
    let largest = files.iter().find(|file| file.name == LARGEST);
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("long-lists.json");
    fs::write(&path, &largest.context(LARGEST)?.text)?;
    page.open_file(&path)?;
    page.until("it is open", "location.hash === ''")?;
    open_form(page)
}

/// The numbers of the ranges in sight.
fn ranges_in_sight(page: &Page) -> Result<Vec<usize>> {
    let script = "probe.all('[data-part=edit] [data-range]').filter((row) => row.checkVisibility()) \
        .map(({ dataset }) => Number(dataset.range.slice(1)))";
    page.get(script, Value::Null)
}

fn found(page: &Page) -> Result<String> {
    let script = "probe.one('[data-key=\"find ranges\"]').closest('.edit-find').querySelector('[role=status]').textContent";
    page.get(script, Value::Null)
}

/// Catches rows that are not found by their names, by what they apply or in capitals, a row that goes from under
/// the cursor, or that is added and out of sight, and rows that do not come back.
#[test]
fn rows_of_a_long_list_are_found_by_what_is_in_them() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        open_largest(page)?;
        ensure!(ranges_in_sight(page)?.len() == 32);
        set(page, "find ranges", "range 31")?;
        ensure!(
            ranges_in_sight(page)? == [31],
            "{:?}",
            ranges_in_sight(page)?
        );
        ensure!(found(page)? == "1 of 32", "{:?}", found(page)?);

        set(page, "find ranges", "ELEMENT 3")?;
        // Those that apply it, and whoever has 3 at the beginning of the own number.
        let expected: Vec<usize> = (0..32)
            .filter(|range| applies_element_3(*range) || format!("{range}").starts_with('3'))
            .collect();
        ensure!(
            ranges_in_sight(page)? == expected,
            "{:?}",
            ranges_in_sight(page)?
        );

        set(page, "find ranges", "range 31")?;
        set(page, "range r31", "Overdrive")?;
        ensure!(ranges_in_sight(page)? == [31], "renamed, it is gone");
        page.click("[data-part=edit] [data-key=\"remove range r30\"]")
            .err()
            .context("what is out of sight is pressed")?;
        set(page, "find ranges", "overdrive")?;
        page.keys([Key::Escape])?;
        ensure!(ranges_in_sight(page)?.len() == 32 && found(page)?.is_empty());

        // One of the ranges makes room for another.
        page.click("[data-part=edit] [data-key=\"remove range r31\"]")?;
        set(page, "find ranges", "range 30")?;
        page.click("[data-part=release-all]")?;
        page.click("[data-part=edit] [data-key=\"add range\"]")?;
        let rows = ranges_in_sight(page)?;
        ensure!(rows.len() == 2 && rows[0] == 30, "{rows:?}");
        for (list, typed, row) in [
            ("sets", "953", "[data-set]"),
            ("elements", "15 22", "[data-element]"),
        ] {
            set(page, &format!("find {list}"), typed)?;
            let rows: usize = page.get(
                "probe.all(`[data-part=edit] ${args}`).filter((row) => row.checkVisibility()).length",
                json!(row),
            )?;
            ensure!(rows == 1, "{rows} {list}");
        }
        Ok(())
    })
}

/// Catches a field over a list that is seen at a glance, and one too small for a finger.
#[test]
fn a_short_list_has_no_field_and_a_finger_reaches_that_of_a_long_one() -> Result<()> {
    page::open(View::PHONE, &by_hand::link(FIRST), |page| {
        open_form(page)?;
        ensure!(page.get::<usize>("probe.all('.edit-find').length", Value::Null)? == 0);
        open_largest(page)?;
        let [width, height]: [f64; 2] = page.get(
            "(({ width, height }) => [width, height])(probe.one('[data-key=\"find ranges\"]').getBoundingClientRect())",
            Value::Null,
        )?;
        ensure!(width >= 120.0 && height >= 44.0, "{width} by {height}");
        Ok(())
    })
}
