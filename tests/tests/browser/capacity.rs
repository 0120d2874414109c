//! The panel of clutch capacity says what the core says.

use anyhow::{Context, Result, ensure};
use levertrain_core::report::CapacityReport;
use levertrain_core::words::number;
use levertrain_core::{Duty, Train};
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::{by_core, by_hand};

const EIGHT: &str = "05-eight-speed-four-sets";
const PANEL: &str = "[data-part=capacity]";

/// A row as it is read: range and element, torque, margin, word.
type Row = (String, String, String, String);

fn rows(page: &Page) -> Result<Vec<Row>> {
    page.click(&format!("{PANEL} summary"))?;
    let script = "probe.all('[data-holding]').map((row) => [row.dataset.holding, \
        ...['.figure', '.times', '.grip'].map((part) => row.querySelector(part)?.innerText ?? '')])";
    page.get(script, Value::Null)
}

fn reports(train: &Train, torque: f64) -> Vec<(String, CapacityReport)> {
    let ranges = train.scenario().ranges.iter().enumerate();
    ranges
        .filter_map(|(index, range)| {
            let combination = train.settle(train.range(index), Duty::Drive).combination;
            Some((range.id.clone(), CapacityReport::of(&combination, torque)?))
        })
        .collect()
}

/// Catches margins of another torque or range, words that do not go with their number, and a
/// weakest element that is not the one named.
#[test]
fn margins_are_those_of_the_core() -> Result<()> {
    for (stem, torque, some_slip) in [(by_hand::STEM, 150.0, true), (EIGHT, 100.0, false)] {
        let train = by_core::train(stem)?;
        let reports = reports(&train, torque);
        let expected: Vec<Row> = reports
            .iter()
            .flat_map(|(range, report)| {
                report.elements.iter().map(move |row| {
                    let figure = |value: Option<f64>, digits| value.map(|x| number(x, digits));
                    (
                        format!("{range}:{}", row.id),
                        figure(row.torque, 4).unwrap_or_default(),
                        figure(row.margin, 3).unwrap_or_default(),
                        row.grip.to_owned(),
                    )
                })
            })
            .collect();
        ensure!(expected.iter().any(|row| row.3 == "slips") == some_slip);
        page::open(View::LAPTOP, &format!("#s={stem}&t={torque}"), |page| {
            let actual = rows(page)?;
            ensure!(actual == expected, "{actual:#?}\ninstead of\n{expected:#?}");
            for (range, report) in &reports {
                let words: String = page.get(
                    "probe.one(`[data-capacity-range=\"${args}\"] .does`).textContent",
                    range.as_str().into(),
                )?;
                let first = report.first_to_slip.as_deref().context("one slips first")?;
                let element = train.element(first).context("it exists")?;
                let label = train.scenario().elements[element].label();
                let most = number(report.most_input.unwrap_or(f64::NAN), 4);
                let sentence = format!("{label} slips first, above {most}\u{a0}N·m");
                ensure!(words.starts_with(&sentence), "{words:?}, not {sentence:?}");
            }
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches torques that do not follow the unit chosen. In reverse brake W must hold 1 + 90/30 = 4
/// times 150 N·m = 442.5 lbf·ft and can hold 0.1 · 5500 N · 10 · 102 mm = 561 N·m = 413.8 lbf·ft:
/// 0.94 of it.
#[test]
fn reverse_of_the_six_speed_in_pound_feet() -> Result<()> {
    let fragment = format!("#s={}&t=150&u=lbfft", by_hand::STEM);
    page::open(View::PHONE, &fragment, |page| {
        let rows = rows(page)?;
        let row = rows.iter().find(|row| row.0 == "R:W").context("no row")?;
        let actual = (row.1.as_str(), row.2.as_str(), row.3.as_str());
        ensure!(actual == ("442.5", "0.94", "slips"), "{row:?}");
        let lining: Vec<String> = page.get(
            "[...probe.one('[data-lining=W]').cells].map((cell) => cell.innerText)",
            Value::Null,
        )?;
        ensure!(lining[..2] == ["Brake W", "413.8"], "{lining:?}");
        let words: String = page.get("probe.text('[data-part=capacity-words]')", Value::Null)?;
        ensure!(words.contains("110.6\u{a0}lbf·ft"), "{words}");
        ensure!(words.ends_with("1st, 3rd and Reverse slip."), "{words}");

        // Twice the torque, half the margin: 300 N·m are 221.27 lbf·ft, and 1200 N·m are 885.07.
        page.run(
            "const field = probe.one('#torque'); field.value = '221.27'; \
             field.dispatchEvent(new Event('change'))",
            Value::Null,
        )?;
        let doubled: Vec<String> = page.get(
            "[...probe.one('[data-holding=\"R:W\"]').cells].map((cell) => cell.innerText)",
            Value::Null,
        )?;
        ensure!(
            doubled[1] == "885.1" && doubled[2].contains("0.47"),
            "{doubled:?}"
        );
        Ok(())
    })
}

/// Catches a panel without data, and one that stays away when data come.
#[test]
fn only_scenarios_with_friction_data_have_the_panel() -> Result<()> {
    page::open(View::LAPTOP, "#s=02-three-speed-common-sun", |page| {
        ensure!(!page.shows(PANEL)?, "shown without data");
        page.choose(by_hand::STEM)?;
        ensure!(page.shows(PANEL)?, "not shown with data");
        Ok(())
    })
}
