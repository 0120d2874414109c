//! Sources and outputs: nodes of the levers and fields turn what the core says, by pointer, finger and keys.

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::ElementSet;
use levertrain_core::sources::{Ports, Stand};
use levertrain_tests::browser::{Device, Page, View, page};
use serde_json::{Value, json};

use crate::{by_core, language};

const SPLIT: &str = "14-input-split";
const AXLE: &str = "12-axle-differential";
const SIX: &str = "04-six-speed-three-sets";

/// Releases everything and unfolds the panel.
fn open(page: &Page) -> Result<()> {
    page.unfold("sources")?;
    page.until(
        "the cards are there",
        "probe.all('.source').length > 0 && probe.all('.driven-grip').length > 0",
    )?;
    page.rest()
}

/// Speeds by shaft, as the table of members shows them.
fn speeds(page: &Page) -> Result<std::collections::BTreeMap<String, f64>> {
    page.get(
        "Object.fromEntries(probe.all('[data-part=sources-members] tbody tr').map((row) => \
            [row.dataset.shaft, Number(row.children[1].textContent.replace('\\u2212', '-').replace(',', '.').replace(/[^0-9.-]/g, ''))]))",
        Value::Null,
    )
}

/// The middle of the first grip of a shaft.
fn grip(page: &Page, shaft: &str) -> Result<(f64, f64)> {
    page.run(
        "probe.one(`.driven-grip[data-shaft=${args}]`).scrollIntoView({ block: 'center' })",
        json!(shaft),
    )?;
    page.rest()?;
    page.get(
        "(({ left, top, width, height }) => [left + width / 2, top + height / 2])(probe.one(`.driven-grip[data-shaft=${args}]`).getBoundingClientRect())",
        json!(shaft),
    )
}

/// Willis's equation of the first set, with figures as rounded as they are shown.
fn check_set(page: &Page) -> Result<std::collections::BTreeMap<String, f64>> {
    let found = speeds(page)?;
    let of = |id: &str| found.get(id).copied().with_context(|| format!("no {id}"));
    let residual = 34.0 * of("m1")? + 82.0 * of("out")? - 116.0 * of("eng")?;
    ensure!(residual.abs() < 0.002 * 116.0 * 4000.0, "{found:?}");
    Ok(found)
}

/// Catches levers that end at the edge of a phone with no sign that they go on.
#[test]
fn levers_beside_the_numbers_fade_where_they_go_on() -> Result<()> {
    page::open(View::PHONE, &format!("#s={SIX}&on="), |page| {
        open(page)?;
        let fades = |sides: &[&str]| {
            let sides = json!(sides);
            let found = "['left', 'right'].filter((side) => box.hasAttribute(`data-more-${side}`))";
            format!(
                "((box) => String({found}) === String({sides}) && \
                    getComputedStyle(box).maskImage.startsWith('linear-gradient'))(probe.one('[data-part=driven]'))"
            )
        };
        page.until("they go on to the right", &fades(&["right"]))?;
        page.run(
            "probe.one('[data-part=driven]').scrollLeft = 20",
            Value::Null,
        )?;
        page.until("they go on to both sides", &fades(&["left", "right"]))?;
        page.run(
            "probe.one('[data-part=driven]').scrollLeft = 9999",
            Value::Null,
        )?;
        page.until("they go on to the left", &fades(&["left"]))
    })
}

/// Keeps the speed of a source or output, or no longer.
fn keep(page: &Page, shaft: &str) -> Result<()> {
    page.run(
        "probe.one(`.source[data-shaft=${args}] [data-part=source-keep]`).scrollIntoView({ block: 'center' })",
        json!(shaft),
    )?;
    page.click(&format!(
        ".source[data-shaft={shaft}] [data-part=source-keep]"
    ))
}

fn words(page: &Page) -> Result<String> {
    page.get("probe.text('[data-part=sources-words]')", Value::Null)
}

/// Catches a node that does not follow the pointer or the finger, an engine that does not stay, and a drag that is lost.
#[test]
fn a_node_is_dragged_and_the_others_follow() -> Result<()> {
    for (view, device) in [(View::LAPTOP, Device::Mouse), (View::PHONE, Device::Touch)] {
        page::open(view, &format!("#s={SPLIT}&on="), |page| {
            open(page)?;
            let before = check_set(page)?;
            let picture = page.canvas("sources-levers")?;
            let (x, y) = grip(page, "out")?;
            page.gesture(device, &[(x, y), (x, y - 12.0), (x, y - 30.0)])?;
            page.rest()?;
            let after = check_set(page)?;
            ensure!(after["eng"] == before["eng"], "{before:?}, then {after:?}");
            ensure!(
                after["out"] > before["out"] + 50.0,
                "{before:?}, then {after:?}"
            );
            ensure!(after["m1"] < before["m1"], "{before:?}, then {after:?}");
            ensure!(
                page.canvas("sources-levers")?.hash != picture.hash,
                "the picture stays"
            );
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches keys that do nothing, a field that is not heard, a kept speed that is lost, and a refusal without its reason.
#[test]
fn keys_and_fields_turn_the_same() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SPLIT}&on="), |page| {
        open(page)?;
        let before = check_set(page)?;
        page.run(
            "probe.one('.driven-grip[data-shaft=m1]').focus()",
            Value::Null,
        )?;
        page.keys([Key::Up])?;
        page.keys([Key::PageUp])?;
        page.rest()?;
        let after = check_set(page)?;
        ensure!(
            (after["m1"] - before["m1"] - 110.0).abs() < 1.0,
            "{before:?}, then {after:?}"
        );
        ensure!(after["eng"] == before["eng"]);
        page.run(
            "const field = probe.one('.source[data-shaft=out] [data-part=source-speed]'); field.value = args; field.dispatchEvent(new Event('change'))",
            json!("900"),
        )?;
        page.rest()?;
        ensure!(check_set(page)?["out"] == 900.0);
        // Two are kept: the third is decided.
        keep(page, "out")?;
        page.rest()?;
        let (x, y) = grip(page, "m1")?;
        page.gesture(Device::Mouse, &[(x, y), (x, y)])?;
        page.rest()?;
        let said: String = page.get("probe.text('[data-part=sources-refused]')", Value::Null)?;
        ensure!(
            said.starts_with("Motor 1 is decided by") && said.contains("Engine"),
            "{said}"
        );
        ensure!(check_set(page)?["out"] == 900.0);
        Ok(())
    })
}

/// Catches torques and words that do not follow: a differential halves its torque, and who feeds is told.
#[test]
fn torques_and_words_follow() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={AXLE}&on="), |page| {
        open(page)?;
        page.run(
            "const field = probe.one('.source[data-shaft=left] [data-part=source-torque]'); field.value = args; field.dispatchEvent(new Event('change'))",
            json!("300"),
        )?;
        page.rest()?;
        let does: Vec<String> = page.get(
            "probe.all('.source').map(({ dataset }) => dataset.does)",
            Value::Null,
        )?;
        ensure!(does == ["feeds", "fed", "fed"], "{does:?}");
        let rows: Vec<String> = page.get(
            "probe.all('[data-part=sources-torques] tbody tr').map(({ children }) => children[1].textContent.replace(/\\s.*/, ''))",
            Value::Null,
        )?;
        ensure!(
            rows == ["600.0", "\u{2212}300.0", "\u{2212}300.0"],
            "{rows:?}"
        );
        let sums: Vec<String> = page.get(
            "probe.all('[data-part=sources-torques] tbody tr').map(({ children }) => children[3].textContent)",
            Value::Null,
        )?;
        ensure!(sums[0] == "\u{2212}2 × Left half shaft", "{sums:?}");
        Ok(())
    })
}

/// Catches a train with one source whose free members cannot be turned in neutral, or whose input does not stay.
#[test]
fn in_neutral_a_free_member_is_dragged_past_the_input() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SIX}&on="), |page| {
        open(page)?;
        let before = speeds(page)?;
        let free: Vec<String> = page.get(
            "probe.all('.driven-grip.moves').map(({ dataset }) => dataset.shaft)",
            Value::Null,
        )?;
        ensure!(free.len() > 2, "{free:?}");
        let input = "in";
        let other = free.iter().find(|id| *id != input).context("a free one")?;
        let (x, y) = grip(page, other)?;
        page.gesture(Device::Mouse, &[(x, y), (x, y - 15.0), (x, y - 40.0)])?;
        page.rest()?;
        let after = speeds(page)?;
        ensure!(
            after[other] != before[other] && after[input] == before[input],
            "{before:?}, then {after:?}"
        );
        Ok(())
    })
}

/// Catches targets that a finger cannot hit, a panel that widens a phone, and words that are not German there.
#[test]
fn fingers_and_german_have_room_for_sources() -> Result<()> {
    page::open(View::PHONE, &format!("#s={SPLIT}&on="), |page| {
        language::speak_german(page)?;
        open(page)?;
        let small: usize = page.get(
            "probe.all('.driven-grip').map((node) => node.getBoundingClientRect()).filter(({ width, height }) => Math.min(width, height) < 43.9).length",
            Value::Null,
        )?;
        ensure!(small == 0, "{small} grips are too small");
        let title: String = page.get(
            "probe.one('[data-part=sources] h2').textContent",
            Value::Null,
        )?;
        ensure!(title == "Antriebe und Abtriebe", "{title}");
        let said = words(page)?;
        ensure!(said.starts_with("2 Drehzahlen bestimmen"), "{said}");
        let label: String = page.get("probe.text('.source[data-shaft=m1] h3')", Value::Null)?;
        ensure!(label.contains("E-Maschine 1"), "{label}");
        let wide: bool = page.get(
            "document.documentElement.scrollWidth > innerWidth",
            Value::Null,
        )?;
        ensure!(!wide, "the page scrolls sideways");
        Ok(())
    })
}

/// The middle of the first grip of a shaft on the stage.
fn on_stage(page: &Page, shaft: &str) -> Result<(f64, f64)> {
    page.get(
        "(({ left, top, width, height }) => [left + width / 2, top + height / 2])(probe.one(`.sheet .driven-grip[data-shaft=${args}]`).getBoundingClientRect())",
        json!(shaft),
    )
}

/// Catches nodes of the stage that do not follow, a half-section that shows other speeds than the levers, and no way back.
#[test]
fn both_drawings_of_the_stage_show_what_is_dragged_there() -> Result<()> {
    for (view, device) in [(View::LAPTOP, Device::Mouse), (View::PHONE, Device::Touch)] {
        page::open(view, &format!("#s={SIX}&on="), |page| {
            let shown = |page: &Page| -> Result<[String; 2]> {
                Ok([page.canvas("section")?.hash, page.canvas("lever")?.hash])
            };
            page.rest()?;
            let steady = shown(page)?;
            // What leads there in neutral goes to the first node.
            page.click("[data-part=turn-by-hand]")?;
            page.until(
                "a node has the focus",
                "probe.one('.sheet .driven-grip:focus') !== null",
            )?;
            page.rest()?;
            page.run("probe.one('.sheet .driven-grip:focus').blur()", Value::Null)?;
            page.rest()?;
            ensure!(shown(page)? == steady, "nothing was turned yet");
            page.run(
                "probe.one('.sheet .driven-grip[data-shaft=out]').scrollIntoView({ block: 'center' })",
                Value::Null,
            )?;
            page.rest()?;
            let before = speeds(page)?;
            let (x, y) = on_stage(page, "out")?;
            page.gesture(device, &[(x, y), (x, y - 12.0), (x, y - 36.0)])?;
            page.rest()?;
            let after = speeds(page)?;
            ensure!(
                after["out"] > before["out"] + 100.0 && after["in"] == before["in"],
                "{before:?}, then {after:?}"
            );
            let turned = shown(page)?;
            ensure!(turned[0] != steady[0] && turned[1] != steady[1]);
            let (_, now) = on_stage(page, "out")?;
            ensure!((now - (y - 36.0)).abs() < 3.0, "the node is at {now}");
            let said: String = page.get("probe.text('[data-part=sources-shown]')", Value::Null)?;
            ensure!(
                said.contains("Output: ") && said.contains("Input: 1000"),
                "{said}"
            );
            // On a phone the members are folded at first.
            if device == Device::Mouse {
                let member: String = page.get(
                    "probe.one('[data-part=members] tr[data-shaft-id=out]').children[1].textContent",
                    Value::Null,
                )?;
                let member: f64 = member.replace('\u{2009}', "").parse()?;
                ensure!((member - after["out"]).abs() <= 0.5, "{member}");
            }
            page.click("[data-part=sources-back]")?;
            page.rest()?;
            page.run(
                "probe.one('.sheet .driven-grip:focus')?.blur()",
                Value::Null,
            )?;
            page.rest()?;
            ensure!(shown(page)? == steady, "the steady motion is not back");
            ensure!(page.get::<bool>("probe.one('[data-part=sources-bar]').hidden", Value::Null)?);
            // Folded, nothing is to be taken hold of.
            page.run("probe.one('[data-part=sources]').open = false", Value::Null)?;
            page.rest()?;
            let left: usize = page.get("probe.all('.sheet .driven-grip').length", Value::Null)?;
            ensure!(left == 0, "{left} grips stay");
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches a scenario whose nodes cannot be turned by keys, and speeds that are not those of the core: all four with several
/// sources or outputs, each opened as it opens, and the neutral of an ordinary one.
#[test]
fn keys_turn_nodes_of_every_scenario_as_the_core_says() -> Result<()> {
    let cases = [
        ("12-axle-differential", "", "right"),
        ("13-centre-differential", "", "front"),
        ("14-input-split", "", "m2"),
        ("15-two-mode-split", "", "m1"),
        (SIX, "&on=", "r3"),
    ];
    for (scenario, applied, turned) in cases {
        let train = by_core::train(scenario)?;
        let set = match applied {
            "" => train.range(0),
            _ => ElementSet::NONE,
        };
        let mut stand = Stand::of(&train, set, Ports::of(&train).0, 1000.0);
        let shafts = &train.scenario().shafts;
        let at = shafts.iter().position(|shaft| shaft.id == turned);
        let at = at.context("no such shaft")?;
        let faster = (stand.turns()[at] + 100.0).round();
        stand
            .turn(&train, at, faster)
            .map_err(|tie| anyhow::anyhow!("{tie:?}"))?;
        page::open(View::LAPTOP, &format!("#s={scenario}{applied}"), |page| {
            open(page)?;
            page.run(
                "probe.one(`.sheet .driven-grip[data-shaft=${args}]`).focus()",
                json!(turned),
            )?;
            page.keys([Key::PageUp])?;
            page.rest()?;
            let found = speeds(page)?;
            for (shaft, turns) in shafts.iter().zip(stand.turns()) {
                let shown = found.get(&shaft.id).context("a row")?;
                // Four figures are shown.
                ensure!(
                    (shown - turns).abs() <= 5e-4 * turns.abs() + 1e-9,
                    "{scenario}, {}: {shown}, not {turns}",
                    shaft.id
                );
            }
            ensure!(!page.get::<bool>("probe.one('[data-part=sources-bar]').hidden", Value::Null)?);
            Ok(())
        })?;
    }
    Ok(())
}

/// Catches numbers that are clamped or dropped without a word, and fields that are grey without a reason.
#[test]
fn what_cannot_be_set_is_said() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={SPLIT}&on="), |page| {
        open(page)?;
        let before = check_set(page)?;
        let field = ".source[data-shaft=out] [data-part=source-speed]";
        for wrong in ["1e12", ""] {
            page.run(
                &format!("const field = probe.one('{field}'); field.value = args; field.dispatchEvent(new Event('change'))"),
                json!(wrong),
            )?;
            page.rest()?;
            let said: String = page.get(
                "probe.text('.source[data-shaft=out] [data-part=source-wrong]')",
                Value::Null,
            )?;
            ensure!(
                said.contains("speed") && said.contains("from"),
                "{wrong}: {said}"
            );
            ensure!(check_set(page)? == before, "{wrong} was taken");
            let kept: String = page.get(&format!("probe.one('{field}').value"), Value::Null)?;
            ensure!(kept.is_empty() == wrong.is_empty(), "{kept}");
        }
        page.run(
            &format!("const field = probe.one('{field}'); field.value = '800'; field.dispatchEvent(new Event('change'))"),
            Value::Null,
        )?;
        page.rest()?;
        let said: String = page.get(
            "probe.text('.source[data-shaft=out] [data-part=source-wrong]')",
            Value::Null,
        )?;
        ensure!(
            said.is_empty() && check_set(page)?["out"] == 800.0,
            "{said}"
        );
        // With two kept the two others are decided, and each says by whom.
        keep(page, "out")?;
        page.rest()?;
        let why: String = page.get(
            "probe.text('.source[data-shaft=m2] [data-part=source-decided]')",
            Value::Null,
        )?;
        ensure!(
            why.contains("output") && why.contains("no longer keep"),
            "{why}"
        );
        // With three none can be turned, which is said at the top.
        keep(page, "m1")?;
        page.rest()?;
        let said = words(page)?;
        ensure!(
            said.contains("nothing can be turned") && said.contains("Motor 1"),
            "{said}"
        );
        Ok(())
    })
}
