//! Traction and driving: numbers are the core's, and values are read and ranges applied by pointer, finger and keys.

use anyhow::{Context, Result, ensure};
use levertrain_core::MESH_EFFICIENCY;
use levertrain_core::traction::{Ask, Rule, Traction, TractionReport};
use levertrain_core::words::number;
use levertrain_tests::browser::{Device, Key, Page, View, page};
use serde_json::{Value, json};

use crate::{accessibility, by_core, by_hand, language};

const KILOMETRE_AN_HOUR: f64 = 1.0 / 3.6;
const EIGHT: &str = "05-eight-speed-four-sets";
const FOUR: &str = "08-four-speed-four-member-set";
const TWO_ROWS: &str = "03-four-speed-two-row";

/// Unfolds the panel and waits until it is painted.
fn open(page: &Page) -> Result<()> {
    page.unfold("traction")?;
    page.until(
        "the diagrams are there",
        "probe.one('.traction-results').checkVisibility() && probe.one('[data-part=traction-reading] b') !== null",
    )?;
    page.rest()
}

fn reckoned(
    stem: &str,
    locked_from: Option<usize>,
    rule: Rule,
) -> Result<(Traction, TractionReport)> {
    let train = by_core::train(stem)?;
    let ask = Ask {
        mesh_efficiency: MESH_EFFICIENCY,
        locked_from,
        rule,
        targets: (1..=22)
            .map(|x| f64::from(x) * 20.0 * KILOMETRE_AN_HOUR)
            .collect(),
    };
    let found = Traction::of(&train, &ask).map_err(|missing| anyhow::anyhow!("{missing:?}"))?;
    let report = found.report(&train);
    Ok((found, report))
}

/// The cells of a table, row by row, without what stands below in some.
fn cells(page: &Page, table: &str) -> Result<Vec<Vec<String>>> {
    page.get(
        "probe.all(`[data-part=traction-${args}] tbody tr`).map((row) => [...row.cells].map((cell) => cell.firstChild.textContent))",
        json!(table),
    )
}

fn check(page: &Page, report: &TractionReport) -> Result<()> {
    let figure = |value: Option<f64>, size: f64, digits| {
        value.map_or("–".to_owned(), |value| number(value / size, digits))
    };
    let ranges = report.ranges.iter().map(|range| {
        let (top, climb) = (range.top.as_ref(), range.climbing.as_ref());
        vec![
            range.label.clone(),
            figure(range.ratio, 1.0, 4),
            figure(top.map(|x| x.speed), KILOMETRE_AN_HOUR, 3),
            figure(top.map(|x| x.engine_speed), 1.0, 4),
            // No road is steeper than it is long.
            if range.lifts || range.slope.is_some_and(|slope| slope > 1.0) {
                "any road".to_owned()
            } else {
                figure(range.slope, 0.01, 3)
            },
            figure(climb.map(|x| x.speed), KILOMETRE_AN_HOUR, 3),
        ]
    });
    let (expected, actual) = (ranges.collect::<Vec<_>>(), cells(page, "ranges")?);
    ensure!(actual == expected, "{actual:?}\ninstead of\n{expected:?}");
    let run = report.run.as_ref().context("a run")?;
    let shifts = run.changes.iter().map(|x| {
        [
            number(x.at.speed / KILOMETRE_AN_HOUR, 3),
            number(x.before.engine_speed, 4),
            number(x.after.engine_speed, 4),
            number(x.before.force, 3),
            number(x.after.force, 3),
            number(x.at.time, 3),
            number(x.at.distance, 3),
        ]
        .to_vec()
    });
    let actual: Vec<Vec<String>> = cells(page, "shifts")?
        .into_iter()
        .map(|row| row[1..].to_vec())
        .collect();
    let expected: Vec<_> = shifts.collect();
    ensure!(actual == expected, "{actual:?}\ninstead of\n{expected:?}");
    let times = cells(page, "run")?;
    ensure!(times.len() == run.targets.len() + 1, "{times:?}");
    for (row, target) in times.iter().zip(&run.targets) {
        let speed = format!("{:.0}\u{a0}km/h", target.speed / KILOMETRE_AN_HOUR);
        let expected = [speed, number(target.time, 3), number(target.distance, 3)];
        ensure!(row[..] == expected[..], "{row:?}, not {expected:?}");
    }
    Ok(())
}

/// What is chosen in a field, as somebody changes it.
fn choose(page: &Page, field: &str, value: &str) -> Result<()> {
    page.run(
        "const field = probe.one(args[0]); field.value = args[1]; field.dispatchEvent(new Event('change', { bubbles: true }))",
        json!([field, value]),
    )?;
    page.rest()
}

/// Catches numbers of another train, rule or lock-up, and a picture that stays.
#[test]
fn numbers_are_those_of_the_core() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={}", by_hand::STEM), |page| {
        open(page)?;
        let canvas = page.canvas("traction")?;
        ensure!(canvas.colours > 8 && canvas.ground < 0.99, "{canvas:?}");
        check(page, &reckoned(by_hand::STEM, None, Rule::Force)?.1)?;
        choose(page, "#traction-lockup", "1")?;
        check(page, &reckoned(by_hand::STEM, Some(1), Rule::Force)?.1)?;
        let locked = page.canvas("traction")?;
        ensure!(locked.hash != canvas.hash, "the picture stays");
        choose(page, "#traction-rule", "speed")?;
        choose(page, "#traction-speed", "4800")?;
        check(
            page,
            &reckoned(by_hand::STEM, Some(1), Rule::EngineSpeed(4800.0))?.1,
        )?;
        page.click(".traction-ask input[value='50']")?;
        page.rest()?;
        ensure!(
            page.canvas("traction")?.hash != locked.hash,
            "a slope changes nothing"
        );
        for stem in [EIGHT, FOUR, TWO_ROWS] {
            page.choose(stem)?;
            page.rest()?;
            choose(page, "#traction-rule", "force")?;
            choose(page, "#traction-lockup", "")?;
            check(page, &reckoned(stem, None, Rule::Force)?.1)?;
        }
        Ok(())
    })
}

/// Catches a line or a button that does not apply its range, and a cursor that keys do not move.
#[test]
fn values_are_read_and_ranges_applied() -> Result<()> {
    let train = by_core::train(by_hand::STEM)?;
    let (found, _) = reckoned(by_hand::STEM, None, Rule::Force)?;
    let applied = |range: usize| {
        let elements = &train.scenario().elements;
        let mut ids: Vec<String> = train
            .range(range)
            .iter()
            .map(|x| elements[x].id().to_owned())
            .collect();
        ids.sort();
        ids
    };
    page::open(View::LAPTOP, &format!("#s={}", by_hand::STEM), |page| {
        open(page)?;
        page.run("probe.one('.traction-cursor').focus()", Value::Null)?;
        page.keys([Key::Home])?;
        page.keys(std::iter::repeat_n(Key::PageUp, 5))?;
        page.keys([Key::Right, Key::Right, Key::Left])?;
        page.rest()?;
        let now: (String, String) = page.get(
            "[probe.one('.traction-cursor').getAttribute('aria-valuenow'), probe.text('[data-part=traction-reading]')]",
            Value::Null,
        )?;
        ensure!(now.0 == "51", "{now:?}");
        for pull in found.pulls.iter() {
            let at = pull.at(51.0 * KILOMETRE_AN_HOUR).context("a force")?;
            let label = &train.scenario().ranges[pull.range].label;
            let expected = format!(
                "{label}: {}\u{a0}N, engine {}\u{a0}rev/min",
                number(at.force, 3),
                number(at.driven.engine_speed, 4)
            );
            ensure!(
                now.1.contains(&expected),
                "{:?} does not say {expected:?}",
                now.1
            );
        }
        page.click("[data-part=traction-ranges] tr[data-range='5'] button")?;
        page.rest()?;
        ensure!(page.seen()?.applied == applied(4), "{:?}", page.seen()?);
        // The line of the first range, at half of the force that it has at rest, where no other is near.
        let at: Vec<f64> = page.get(
            "(() => { const box = probe.one('.traction-plot').getBoundingClientRect(); return [box.left, box.top, box.width]; })()",
            Value::Null,
        )?;
        page.run("probe.one('.traction-plot').scrollIntoView()", Value::Null)?;
        ensure!(at[2] > 300.0);
        let box_: Vec<f64> = page.get(
            "(() => { const box = probe.one('.traction-plot').getBoundingClientRect(); return [box.left, box.top]; })()",
            Value::Null,
        )?;
        // Tried from the axis to the right at one height until a press lands on a line: the first is the steepest range.
        let before = page.seen()?.applied;
        let mut landed = before.clone();
        for step in 0..40 {
            let point = (box_[0] + 44.0 + f64::from(step) * 4.0, box_[1] + 120.0);
            page.gesture(Device::Mouse, &[point])?;
            page.rest()?;
            landed = page.seen()?.applied;
            if landed != before {
                break;
            }
        }
        ensure!(landed == applied(0) || landed == applied(6), "{landed:?}");
        let current: Vec<String> = page.get(
            "probe.all('[data-part=traction-ranges] [aria-current]').map(({ dataset }) => dataset.range)",
            Value::Null,
        )?;
        ensure!(current.len() == 1, "{current:?}");
        accessibility::check_as_it_is(page, "traction", &["color-contrast", "role-img-alt"])
    })
}

/// Catches a phone without room, a finger that reads nothing, words that stay English, and what is too small to press.
#[test]
fn fingers_and_german_have_room() -> Result<()> {
    page::open(View::PHONE, &format!("#s={EIGHT}"), |page| {
        language::speak_german(page)?;
        open(page)?;
        let title: String = page.get("probe.text('[data-part=traction] h2')", Value::Null)?;
        ensure!(title == "Zugkraft und Fahren", "{title}");
        page.run("probe.one('.traction-plot').scrollIntoView()", Value::Null)?;
        let box_: Vec<f64> = page.get(
            "(() => { const box = probe.one('.traction-plot').getBoundingClientRect(); return [box.left, box.top, box.width]; })()",
            Value::Null,
        )?;
        let reading = "probe.text('[data-part=traction-reading]')";
        let before: String = page.get(reading, Value::Null)?;
        let at = |part: f64| (box_[0] + box_[2] * part, box_[1] + 200.0);
        page.gesture(Device::Touch, &[at(0.3), at(0.5), at(0.8)])?;
        page.rest()?;
        let after: String = page.get(reading, Value::Null)?;
        ensure!(
            before != after && after.starts_with("Bei "),
            "{before:?}, {after:?}"
        );
        let small: Vec<f64> = page.get(
            "probe.all('[data-part=traction-ranges] tbody tr, .traction-ask :is(select, .find-choice)') \
             .map((node) => node.getBoundingClientRect().height).filter((height) => height > 0 && height < 44)",
            Value::Null,
        )?;
        ensure!(small.is_empty(), "too small: {small:?}");
        let wide: bool = page.get(
            "document.documentElement.scrollWidth > innerWidth",
            Value::Null,
        )?;
        ensure!(!wide, "the page scrolls sideways");
        Ok(())
    })
}

/// Catches a scenario without an engine that shows nothing or says nothing, and a number that is refused without a word
/// or lost.
#[test]
fn what_is_missing_or_wrong_is_said() -> Result<()> {
    page::open(View::LAPTOP, "#s=02-three-speed-common-sun", |page| {
        page.unfold("traction")?;
        page.until(
            "it says what is missing",
            "probe.text('[data-part=traction-lack]').includes('engine')",
        )?;
        ensure!(!page.shows(".traction-results")?);
        page.choose(by_hand::STEM)?;
        open(page)?;
        ensure!(!page.shows("[data-part=traction-lack]")?);
        choose(page, "#traction-rule", "speed")?;
        choose(page, "#traction-speed", "90000")?;
        let words: (String, String) = page.get(
            "[probe.text('[data-part=traction-wrong]'), probe.one('#traction-speed').value]",
            Value::Null,
        )?;
        ensure!(
            words.0.contains("90000") && words.0.contains("6000"),
            "{words:?}"
        );
        ensure!(words.1 == "90000" && !page.shows(".traction-results")?);
        choose(page, "#traction-speed", "5000")?;
        ensure!(page.shows(".traction-results")? && !page.shows("[data-part=traction-wrong]")?);
        let assumed: String =
            page.get("probe.text('[data-part=traction-assumed]')", Value::Null)?;
        ensure!(
            assumed.contains("0.15") && !assumed.contains("wheels"),
            "{assumed}"
        );
        Ok(())
    })
}

/// Catches a scenario in which values are not read by pointer, finger or keys, or a range not applied by them.
#[test]
fn three_scenarios_are_read_by_pointer_finger_and_keys() -> Result<()> {
    for (view, device) in [(View::LAPTOP, Device::Mouse), (View::PHONE, Device::Touch)] {
        page::open(view, &format!("#s={EIGHT}"), |page| {
            for stem in [EIGHT, FOUR, TWO_ROWS] {
                if page.seen()?.stem.as_deref() != Some(stem) {
                    page.choose(stem)?;
                }
                open(page)?;
                let (_, report) = reckoned(stem, None, Rule::Force)?;
                page.run(
                    "probe.one('.traction-plot').scrollIntoView({ block: 'center' })",
                    Value::Null,
                )?;
                page.rest()?;
                let box_: Vec<f64> = page.get(
                    "(() => { const box = probe.one('.traction-plot').getBoundingClientRect(); return [box.left, box.top, box.width]; })()",
                    Value::Null,
                )?;
                let now = |page: &Page| -> Result<(f64, String)> {
                    page.get(
                        "[Number(probe.one('.traction-cursor').getAttribute('aria-valuenow')), probe.text('[data-part=traction-reading]')]",
                        Value::Null,
                    )
                };
                // Between the lines, where a press applies nothing: on top.
                let at = |part: f64| (box_[0] + box_[2] * part, box_[1] + 40.0);
                page.gesture(device, &[at(0.35), at(0.45), at(0.55)])?;
                page.rest()?;
                let (read, words) = now(page)?;
                ensure!(
                    read > 0.0 && words.contains("km/h"),
                    "{stem}: {read}, {words}"
                );
                page.run("probe.one('.traction-cursor').focus()", Value::Null)?;
                page.keys([Key::Right, Key::Right])?;
                page.rest()?;
                let (after, other) = now(page)?;
                ensure!(
                    (after - read).abs() > 0.5 && other != words,
                    "{stem}: {read}, {after}"
                );
                // By a button of the table, with a key or a press.
                let last = report.ranges.last().context("a range")?;
                let row = format!(
                    "[data-part=traction-ranges] tr[data-range='{}'] button",
                    last.id
                );
                match device {
                    Device::Mouse => {
                        page.run("probe.one(args).focus()", json!(row))?;
                        page.keys([Key::Enter])?;
                    }
                    _ => page.click(&row)?,
                }
                page.rest()?;
                ensure!(page.seen()?.range.as_deref() == Some(&last.id), "{stem}");
            }
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches an assumed value that cannot be stated where it is told, one that is stated elsewhere in the file, and no way back.
#[test]
fn assumed_values_are_stated_and_taken_back() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        open(page)?;
        let first = cells(page, "ranges")?;
        page.run(
            "probe.one('[data-part=traction-stated]').closest('details').open = true",
            Value::Null,
        )?;
        let field = "[data-part=traction-stated] [data-key='vehicle.final_drive']";
        let before: String = page.get("probe.one(args).value", json!(field))?;
        ensure!(before == "3.7", "{before}");
        choose(page, field, "4.2")?;
        let stated = cells(page, "ranges")?;
        ensure!(stated != first, "nothing comes of it");
        choose(page, field, "-3")?;
        let said: String = page.get(
            "probe.text('[data-part=traction] [data-part=stated-problem]')",
            Value::Null,
        )?;
        ensure!(said.contains("100"), "{said}");
        ensure!(
            cells(page, "ranges")? == stated,
            "it was taken all the same"
        );
        choose(page, field, "4.2")?;
        page.click("[data-part=traction-stated] [data-key='assume vehicle.final_drive']")?;
        page.rest()?;
        let after: String = page.get("probe.one(args).value", json!(field))?;
        ensure!(
            after == "3.5" && cells(page, "ranges")? != stated,
            "{after}"
        );
        let told: String = page.get("probe.text('[data-part=traction-assumed]')", Value::Null)?;
        ensure!(told.contains("3.50"), "{told}");
        Ok(())
    })
}
