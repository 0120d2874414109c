//! The panel of engine and road says what the core says, and is worked by keys.

use anyhow::{Context, Result, ensure};
use levertrain_core::operating::Conditions;
use levertrain_core::report::{OperatingReport, PointReport};
use levertrain_core::words::number;
use levertrain_tests::browser::{Key, Page, View, page};
use serde_json::{Value, json};

use crate::{by_core, by_hand};

const EIGHT: &str = "05-eight-speed-four-sets";
const PANEL: &str = "[data-part=operating]";

/// What the core says of a range.
fn report(stem: &str, range: usize, conditions: &Conditions) -> Result<OperatingReport> {
    let train = by_core::train(stem)?;
    let applied = train.range(range);
    let combination = train
        .settle(applied, levertrain_core::Duty::Drive)
        .combination;
    OperatingReport::of(&combination, conditions).context("an engine and a load")
}

/// Speed, torque and power in three rows, as they should be written.
fn written(point: &PointReport) -> Vec<[String; 3]> {
    let input_power = point.power_in - point.converter_loss;
    let rows = [
        [
            point.engine_speed,
            point.engine_torque,
            point.power_in / 1e3,
        ],
        [point.input_speed, point.input_torque, input_power / 1e3],
        [
            point.output_speed,
            point.output_torque,
            point.power_out / 1e3,
        ],
    ];
    let figure = |x: f64| {
        if x == 0.0 {
            "0".to_owned()
        } else {
            number(x, 4)
        }
    };
    rows.map(|row| row.map(figure)).to_vec()
}

/// The same as the page shows it: of a steady point by its number, or of `stall`.
fn shown(page: &Page, point: &str) -> Result<Vec<[String; 3]>> {
    let script = "['engine', 'input', 'output'] \
        .map((at) => probe.one(`tr[data-point=\"${args}\"][data-at=${at}]`)) \
        .filter(Boolean).map((row) => ['speed', 'torque', 'power'] \
        .map((kind) => row.querySelector(`[data-kind=${kind}]`).textContent))";
    page.get(script, json!(point))
}

fn check(page: &Page, expected: &OperatingReport) -> Result<()> {
    for (at, point) in expected.points.iter().enumerate() {
        let (actual, expected) = (shown(page, &at.to_string())?, written(point));
        ensure!(actual == expected, "{actual:?}\ninstead of\n{expected:?}");
    }
    let extra = shown(page, &expected.points.len().to_string())?;
    ensure!(extra.is_empty(), "a point too many: {extra:?}");
    let stall = expected.stall.as_ref().map(written).unwrap_or_default();
    let actual = shown(page, "stall")?;
    ensure!(actual == stall, "{actual:?}\ninstead of\n{stall:?}");
    let words: String = page.get("probe.text('[data-part=operating-words]')", Value::Null)?;
    ensure!(words == expected.words, "{words:?}");
    Ok(())
}

fn press(page: &Page, part: &str, key: Key, times: usize) -> Result<()> {
    let script = "probe.one(`[data-part=${args}]`).focus()";
    page.run(script, json!(part))?;
    page.keys(std::iter::repeat_n(key, times))
}

/// Catches numbers of another pedal, slope, range or scenario, and sliders that keys do not move.
#[test]
fn pedal_and_slope_move_the_point_as_in_the_core() -> Result<()> {
    for (stem, range) in [(by_hand::STEM, 3), (EIGHT, 4)] {
        let mut conditions = Conditions::default();
        page::open(View::LAPTOP, &format!("#s={stem}"), |page| {
            let train = by_core::train(stem)?;
            page.click_range(&train.scenario().ranges[range].id)?;
            page.unfold("operating")?;
            check(page, &report(stem, range, &conditions)?)?;

            press(page, "pedal", Key::Right, 32)?;
            conditions.pedal = 0.62;
            let steady = report(stem, range, &conditions)?;
            check(page, &steady)?;
            ensure!(
                steady.points.len() == 1 && steady.stall.is_some(),
                "{steady:?}"
            );

            press(page, "grade", Key::Up, 5)?;
            conditions.grade = 0.05;
            let uphill = report(stem, range, &conditions)?;
            check(page, &uphill)?;
            ensure!(uphill.points != steady.points, "the slope changes nothing");

            press(page, "lockup", Key::Space, 1)?;
            conditions.lockup = true;
            check(page, &report(stem, range, &conditions)?)?;

            // Released, a locked engine idles uphill, and uphill all the way it cannot.
            press(page, "pedal", Key::Home, 1)?;
            conditions.pedal = 0.0;
            let idle = report(stem, range, &conditions)?;
            ensure!(idle.points.iter().any(|point| point.idling), "{idle:?}");
            check(page, &idle)?;
            press(page, "grade", Key::End, 1)?;
            conditions.grade = 0.3;
            let none = report(stem, range, &conditions)?;
            ensure!(none.points.is_empty(), "{none:?}");
            check(page, &none)
        })?;
    }
    Ok(())
}

/// Catches a button that takes over other numbers than the table shows.
#[test]
fn the_point_becomes_the_input() -> Result<()> {
    let fragment = format!("#s={}&on=H,J&o=60,4,0", by_hand::STEM);
    page::open(View::PHONE, &fragment, |page| {
        let conditions = Conditions {
            pedal: 0.6,
            grade: 0.04,
            ..Conditions::default()
        };
        let report = report(by_hand::STEM, 3, &conditions)?;
        page.unfold("operating")?;
        check(page, &report)?;
        page.click("[data-part=use-point]")?;
        let point = report.points.first().context("a point")?;
        let fields = ["#speed", "#torque"].map(|field| {
            page.get::<String>("probe.one(args).value", json!(field))
                .and_then(|text| Ok(text.parse::<f64>()?))
        });
        for (actual, expected) in fields
            .into_iter()
            .zip([point.input_speed, point.input_torque])
        {
            let actual = actual?;
            // Five figures are kept.
            ensure!(
                (actual - expected).abs() <= 5e-5 * expected,
                "{actual}, not {expected}"
            );
        }
        Ok(())
    })
}

/// Catches a link that forgets pedal, slope or lock-up, and one that keeps what is no such thing.
#[test]
fn the_link_holds_pedal_slope_and_lock_up() -> Result<()> {
    let start = format!("#s={}&on=H,J&n=1000", by_hand::STEM);
    page::open(View::LAPTOP, &start, |page| {
        page.unfold("operating")?;
        press(page, "pedal", Key::Left, 5)?;
        press(page, "grade", Key::Left, 3)?;
        press(page, "lockup", Key::Space, 1)?;
        let link = format!("{start}&o=25,-3,1");
        page.until("the link says so", &format!("location.hash === '{link}'"))?;
        page.unfold("share")?;
        let embed: String = page.get("probe.one('[data-part=embed]').value", Value::Null)?;
        ensure!(embed.contains(" road=\"25,-3,1\">"), "{embed}");
        page.goto(&format!("index.html{link}"))?;
        page.unfold("operating")?;
        let values: (String, String, bool) = page.get(
            "[probe.one('#pedal').value, probe.one('#grade').value, \
             probe.one('[data-part=lockup]').checked]",
            Value::Null,
        )?;
        ensure!(
            values == ("25".to_owned(), "-3".to_owned(), true),
            "{values:?}"
        );
        page.goto(&format!("index.html{start}&o=145,0,0"))?;
        let messages = page.messages()?;
        ensure!(
            messages.iter().any(|text| text.contains("145,0,0")),
            "{messages:?}"
        );
        Ok(())
    })
}

/// Catches numbers that do not follow the units chosen: 1 lbf·ft is 1.3558179483314004 N·m.
#[test]
fn the_table_follows_the_units() -> Result<()> {
    let fragment = format!("#s={}&on=H,J&o=60,4,0&u=lbfft,rads", by_hand::STEM);
    page::open(View::LAPTOP, &fragment, |page| {
        let conditions = Conditions {
            pedal: 0.6,
            grade: 0.04,
            ..Conditions::default()
        };
        let report = report(by_hand::STEM, 3, &conditions)?;
        let point = report.points.first().context("a point")?;
        page.unfold("operating")?;
        let rows = shown(page, "0")?;
        let speed = number(point.engine_speed * std::f64::consts::PI / 30.0, 4);
        let torque = number(point.output_torque / 1.355_817_948_331_400_4, 4);
        ensure!(
            rows[0][0] == speed && rows[2][1] == torque,
            "{rows:?}, not {speed}, {torque}"
        );
        let heads: Vec<String> = page.get(
            "[...probe.one('table[aria-label=\"Operating point\"]').tHead.rows[0].cells] \
             .map((cell) => cell.textContent)",
            Value::Null,
        )?;
        ensure!(heads == ["Shaft", "rad/s", "lbf·ft", "kW"], "{heads:?}");
        Ok(())
    })
}

/// Catches a panel without data, and one that stays away when data come.
#[test]
fn only_scenarios_with_an_engine_have_the_panel() -> Result<()> {
    page::open(View::LAPTOP, "#s=02-three-speed-common-sun", |page| {
        ensure!(!page.shows(PANEL)?, "shown without data");
        page.choose(by_hand::STEM)?;
        ensure!(page.shows(PANEL)?, "not shown with data");
        Ok(())
    })
}
