//! Torques, losses and the formula of the ratio are those of the core, and of a calculation by hand.

use anyhow::{Context, Result, ensure};
use levertrain_core::words::number;
use levertrain_core::{Duty, Fraction, LossModel, Lossy, PowerFlow, Torques, Working, Written};
use levertrain_tests::browser::{Page, View, page};
use serde_json::{Value, json};

use crate::{by_core, by_hand};

/// Scenario, range, input torque in N·m.
const CASES: [(&str, &str, f64); 4] = [
    (by_hand::STEM, "5", 100.0),
    ("05-eight-speed-four-sets", "1", 80.0),
    ("03-four-speed-two-row", "2", 120.0),
    ("07-three-speed-one-way", "1", 100.0),
];

/// A torque per unit of input torque as the page writes it.
fn written(part: Option<&Fraction>, input: f64) -> String {
    part.map_or("–".to_owned(), |part| match part.is_zero() {
        true => "0".to_owned(),
        false => number(part.to_f64() * input, 4),
    })
}

/// The text of MathML: what stands between its tags.
fn text_of(mathml: &str) -> String {
    let pieces = mathml.split('<').map(|piece| piece.split_once('>'));
    let texts = pieces.map(|piece| piece.map_or("", |(_, text)| text));
    texts.collect::<String>().replace("&#x2062;", "\u{2062}")
}

/// Torques, or powers, of the members of each coupling, then of the elements, in the scenario's
/// order.
fn figures(page: &Page, kind: &str) -> Result<Vec<String>> {
    page.get(
        "probe.all('[data-part=effort] :is([data-member], [data-element-id]) [data-kind]')\
            .filter((cell) => cell.dataset.kind === args).map((cell) => cell.textContent)",
        json!(kind),
    )
}

/// Catches torques and powers of another combination, in another order or with another sign, an efficiency
/// without its losses, and a formula of another range.
#[test]
fn the_panels_say_what_the_core_says() -> Result<()> {
    for (stem, range, input) in CASES {
        let train = by_core::train(stem)?;
        let scenario = train.scenario();
        let index = scenario.ranges.iter().position(|known| known.id == range);
        let index = index.with_context(|| format!("{stem} has no range {range}"))?;
        let combination = train.settle(train.range(index), Duty::Drive).combination;
        let torque = Torques::of(&combination).context("it drives")?;
        let power = PowerFlow::of(&combination, &torque);
        // In kW, at the input speed of a fresh page.
        let power_in = input * 1000.0 * std::f64::consts::PI / 30.0 / 1000.0;
        let (mut expected, mut powers) = (Vec::new(), Vec::new());
        for (coupling, kind) in scenario.couplings.iter().enumerate() {
            for member in 0..kind.facts().members().len() {
                expected.push(written(torque.member(coupling, member), input));
                powers.push(written(power.member(coupling, member), power_in));
            }
        }
        for element in 0..scenario.elements.len() {
            // What an element holds or passes has a size; which way is said in words.
            let size = |part: Option<&Fraction>| part.map(Fraction::abs);
            expected.push(written(size(torque.element(element)).as_ref(), input));
            powers.push(written(size(power.element(element)).as_ref(), power_in));
        }
        let Some(Lossy::Drives(lossy)) = Lossy::of(&combination, &LossModel::default()) else {
            anyhow::bail!("{stem}, {range}: no efficiency");
        };
        let formula = Working::of(&combination).ratio.ok().context("a formula")?;
        let formula = format!("i={}", text_of(&formula.mathml(Written::Symbols)));

        let link = format!("#s={stem}&t={input}");
        page::open(View::LAPTOP, &link, |page| {
            page.click_range(range)?;
            for part in ["effort", "losses", "working"] {
                page.unfold(part)?;
            }
            let place = format!("{stem}, range {range}");
            let shown = figures(page, "torque")?;
            ensure!(
                shown == expected,
                "{place}: {shown:?}\ninstead of\n{expected:?}"
            );
            let shown = figures(page, "power")?;
            ensure!(
                shown == powers,
                "{place}: {shown:?}\ninstead of\n{powers:?}"
            );
            let efficiency: String =
                page.get("probe.text('[data-part=efficiency]')", Value::Null)?;
            let words = format!("{}\u{a0}%", number(lossy.efficiency * 100.0, 4));
            ensure!(
                efficiency.starts_with(&words),
                "{place}: {efficiency}, not {words}"
            );
            let shown: String = page.get(
                "probe.all('[data-part=formula] math')[0].textContent",
                Value::Null,
            )?;
            ensure!(shown == formula, "{place}: {shown}, not {formula}");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches torques and losses that do not follow the units chosen, and a formula that does not
/// follow the range.
///
/// In first only set 2 works: sun 51 drives, ring 87 is held by brake W with 87/51 of 100 N·m,
/// 170.6 N·m or 125.8 lbf·ft; with 0.99 a mesh the efficiency is (51 + 87 · 0.9801)/138 = 0.98746.
#[test]
fn first_of_the_six_speed_by_hand() -> Result<()> {
    let link = format!("{}&t=100", by_hand::link(by_hand::FIRST));
    page::open(View::PHONE, &link, |page| {
        for part in ["effort", "losses", "working"] {
            page.unfold(part)?;
        }
        let brake = "probe.text('[data-part=effort] [data-element-id=W] [data-kind=torque]')";
        let held: String = page.get(brake, Value::Null)?;
        ensure!(held == "170.6", "{held}");
        let efficiency: String = page.get("probe.text('[data-part=efficiency]')", Value::Null)?;
        ensure!(efficiency.starts_with("98.75\u{a0}%"), "{efficiency}");
        let formula: String = page.get(
            "probe.all('[data-part=formula] math')[0].textContent",
            Value::Null,
        )?;
        ensure!(formula.replace('\u{2062}', "") == "i=1+R2S2", "{formula}");
        page.run(
            "const choice = probe.one('[data-unit=torque]'); choice.value = 'lbfft'; \
                choice.dispatchEvent(new Event('change', { bubbles: true }))",
            Value::Null,
        )?;
        let held: String = page.get(brake, Value::Null)?;
        ensure!(held == "125.8", "{held}");
        Ok(())
    })
}
