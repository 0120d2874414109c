//! Every scenario in the page says what the core says.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use levertrain_core::{Combination, Duty, Nesting, State};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::{by_core, by_hand};

/// Catches scenarios that do not open, buttons that apply another range, and answers, charts or
/// tables that are of the range before.
#[test]
fn every_range_of_every_scenario_gives_the_ratio_of_the_core() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for file in files::scenarios()? {
            let train = by_core::parse(&file.text)?;
            page.choose(&file.stem)?;
            let seen = page.seen()?;
            ensure!(
                seen.scenario.as_ref() == Some(&train.scenario().name),
                "{seen:?}"
            );
            for (index, range) in train.scenario().ranges.iter().enumerate() {
                let place = || format!("{}, range {}", file.stem, range.id);
                page.click_range(&range.id).with_context(place)?;
                let combination = train.settle(train.range(index), Duty::Drive).combination;
                let seen = page.seen()?;
                ensure!(
                    seen.range.as_ref() == Some(&range.id),
                    "{}: {seen:?}",
                    place()
                );
                by_core::check_answer(&seen, &combination).with_context(place)?;
                check_tables(page, &combination).with_context(place)?;
            }
        }
        Ok(())
    })
}

/// The row of the range in the chart, and the speeds of the members.
fn check_tables(page: &Page, combination: &Combination<'_>) -> Result<()> {
    let current = "probe.all('[data-part=chart] tr[aria-current]').map((row) => \
        [...row.querySelectorAll('.figure')].map((cell) => cell.title)[0])";
    let current: Vec<String> = page.get(current, Value::Null)?;
    let ratio = combination.state().ratio().map(ToString::to_string);
    let ratio = ratio.unwrap_or_default().replace('-', "\u{2212}");
    ensure!(current == [ratio.clone()], "{current:?} instead of {ratio}");

    let speeds = "Object.fromEntries(probe.all('[data-part=members] tr[data-shaft-id]').map((row) => \
        [row.dataset.shaftId, row.children[2].title]))";
    let speeds: Value = page.get(speeds, Value::Null)?;
    for (index, shaft) in combination.train().scenario().shafts.iter().enumerate() {
        let speed = combination
            .shaft_speed(index)
            .map(|speed| speed.to_string());
        let speed = speed.unwrap_or_default().replace('-', "\u{2212}");
        ensure!(
            speeds[&shaft.id] == speed,
            "{}: {} instead of {speed}",
            shaft.id,
            speeds[&shaft.id]
        );
    }
    Ok(())
}

/// Applies a combination with the switches.
fn switch_to(page: &Page, combination: &Combination<'_>) -> Result<()> {
    let wanted = by_core::applied(combination);
    let script = "for (const node of probe.all('[role=switch]')) { \
        const on = node.getAttribute('aria-checked') === 'true'; \
        if (on !== args.includes(node.dataset.elementId)) node.click(); }";
    page.run(script, json!(wanted))
}

/// Catches states that have no words of their own. Of each scenario one combination of each state
/// is put together with the switches.
#[test]
fn every_state_is_said_in_words() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        let mut said = Vec::new();
        for file in files::scenarios()? {
            let train = by_core::parse(&file.text)?;
            page.choose(&file.stem)?;
            let mut examples: Vec<Combination<'_>> = Vec::new();
            train.for_each_combination(|combination| {
                let state = std::mem::discriminant(combination.state());
                let known = examples
                    .iter()
                    .any(|x| std::mem::discriminant(x.state()) == state);
                if !known {
                    examples.push(train.solve(combination.applied()));
                }
            });
            for combination in examples {
                let place = || format!("{}, {:?}", file.stem, by_core::applied(&combination));
                switch_to(page, &combination).with_context(place)?;
                let seen = page.seen()?;
                by_core::check_answer(&seen, &combination).with_context(place)?;
                said.extend(seen.state);
            }
        }
        said.sort();
        said.dedup();
        ensure!(
            said == [
                "Drives",
                "Neutral",
                "No fixed ratio",
                "Output held",
                "Over-applied",
                "Tied up"
            ],
            "{said:?}"
        );
        Ok(())
    })
}

/// Catches a "release all" that leaves an element, and words that do not say what to do about it.
#[test]
fn released_is_neutral_and_a_fight_names_who_fights() -> Result<()> {
    let six = crate::by_hand::STEM;
    page::open(View::LAPTOP, &format!("#s={six}"), |page| {
        page.click("[data-part=release-all]")?;
        let seen = page.seen()?;
        ensure!(seen.applied.is_empty(), "{seen:?}");
        ensure!(seen.state.as_deref() == Some("Neutral"), "{seen:?}");
        let words = seen.sentences.join(" ");
        ensure!(words.contains("the output is free"), "{words}");

        // Brake V holds sun 1, clutch H joins it to the input.
        for id in ["V", "H"] {
            page.click(&format!("[role=switch][data-element-id=\"{id}\"]"))?;
        }
        let seen = page.seen()?;
        ensure!(seen.state.as_deref() == Some("Tied up"), "{seen:?}");
        let words = seen.sentences.join(" ");
        ensure!(
            words.contains("Brake V and Clutch H fight each other"),
            "{words}"
        );
        let marked: Vec<String> = page.get(
            "probe.all('[role=switch][data-fights]').map((node) => node.dataset.elementId).sort()",
            Value::Null,
        )?;
        ensure!(marked == ["H", "V"], "{marked:?}");
        Ok(())
    })
}

/// Catches a list that is cut short, double, or does not apply what is clicked.
#[test]
fn all_32_combinations_of_the_six_speed_are_listed() -> Result<()> {
    let train = crate::by_hand::train()?;
    let mut expected = Vec::new();
    train.for_each_combination(|combination| {
        let state = match combination.state() {
            State::Driving(_) => "driving",
            State::OverApplied(_) => "over-applied",
            State::Neutral => "neutral",
            State::OutputHeld => "output-held",
            State::TiedUp => "tied-up",
        };
        expected.push((by_core::applied(combination).join(","), state.to_owned()));
    });
    page::open(
        View::LAPTOP,
        &format!("#s={}", crate::by_hand::STEM),
        |page| {
            page.click("[data-part=combinations] summary")?;
            page.until(
                "they are listed",
                "probe.all('tr[data-applied]').length > 0",
            )?;
            let rows = "probe.all('tr[data-applied]').map(({ dataset }) => [dataset.applied.split(',').sort().join(), dataset.state])";
            let mut rows: Vec<(String, String)> = page.get(rows, Value::Null)?;
            rows.sort();
            expected.sort();
            ensure!(rows == expected, "{rows:?}\ninstead of\n{expected:?}");

            page.run("probe.one('tr[data-applied=\"V,H\"]').click()", Value::Null)?;
            ensure!(
                page.seen()?.applied == ["H", "V"],
                "a click on a row applies something else"
            );
            Ok(())
        },
    )
}

/// Catches a train that cannot be built round one axis and is shown as if it could, and the other way
/// round: the core decides it, the page must say it.
#[test]
fn what_cannot_be_built_is_said_beside_the_drawing() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        for file in files::scenarios()? {
            page.choose(&file.stem)?;
            let said = page.shows("[data-part=layout-caution]")?;
            let train = by_core::parse(&file.text)?;
            let crosses = train.nesting() == Nesting::Crosses;
            ensure!(
                said == crosses,
                "{}: said {said}, crosses {crosses}",
                file.stem
            );
            let text: String = page.get("probe.text('[data-part=layout-caution]')", Value::Null)?;
            ensure!(
                text.starts_with("Cannot be built as drawn: ") == crosses,
                "{}: {text:?}",
                file.stem
            );
            let alternative = alternative(page)?;
            let told = if crosses {
                format!("Half-section drawing of {}. {text}", train.scenario().name)
            } else {
                format!("Half-section drawing of {}", train.scenario().name)
            };
            ensure!(alternative == told, "{alternative:?}, not {told:?}");
        }
        Ok(())
    })
}

/// What those are told who do not see the half-section.
fn alternative(page: &Page) -> Result<String> {
    page.get(
        "probe.one('canvas[data-drawing=section]').getAttribute('aria-label')",
        Value::Null,
    )
}

/// Catches gears that are not to one scale in a drawing that was asked to be, and nothing says so, and
/// words about it that stay when they no longer hold.
#[test]
fn a_drawing_that_cannot_be_to_one_scale_says_so() -> Result<()> {
    const TOO_HIGH: &str = "Not to one scale throughout";
    let said = |page: &Page| -> Result<[bool; 2]> {
        page.rest()?;
        let text: String = page.get("probe.text('[data-part=layout-caution]')", Value::Null)?;
        let shown = page.shows("[data-part=layout-caution]")? && text.contains(TOO_HIGH);
        Ok([shown, alternative(page)?.contains(TOO_HIGH)])
    };
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("unlike.json");
    fs::write(
        &path,
        r#"{"format": 1, "name": "Unlike", "about": "", "input": "in", "output": "out",
        "shafts": [{"id": "in", "label": "Input"}, {"id": "out", "label": "Output"},
                   {"id": "r", "label": "Ring"}],
        "couplings": [{"kind": "planetary", "id": "p", "label": "Set", "carrier": "out",
            "sun": {"shaft": "in", "teeth": 12}, "ring": {"shaft": "r", "teeth": 996},
            "pinion": {"teeth": 492, "count": 1}}],
        "elements": [{"kind": "brake", "id": "V", "label": "Brake V", "shaft": "r"}], "ranges": []}"#,
    )?;
    page::open(View::LAPTOP, "", |page| {
        page.run(
            "for (const node of probe.all('details')) node.open = true",
            Value::Null,
        )?;
        page.run("probe.one('[data-part=one-module]').click()", Value::Null)?;
        ensure!(said(page)? == [false; 2], "of a train that is to scale");
        page.open_file(&path)?;
        page.until("it is open", "location.hash === ''")?;
        ensure!(said(page)? == [true; 2], "{:?}", said(page)?);
        page.run("probe.one('[data-part=one-module]').click()", Value::Null)?;
        ensure!(said(page)? == [false; 2], "that was not asked to be");
        page.run("probe.one('[data-part=one-module]').click()", Value::Null)?;
        ensure!(said(page)? == [true; 2], "{:?}", said(page)?);
        page.choose(by_hand::STEM)?;
        ensure!(said(page)? == [false; 2], "of another train");
        Ok(())
    })
}
