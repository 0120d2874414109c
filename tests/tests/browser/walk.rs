//! The walkthrough: it goes step by step by keys and buttons, lights what it tells of, plays to its end, and
//! tells a shift as the core does.

use anyhow::{Result, ensure};
use levertrain_core::lesson::{ShiftReport, WalkReport};
use levertrain_tests::browser::{Key, View, page};
use serde_json::Value;

use crate::by_core;

const STEM: &str = "04-six-speed-three-sets";
const THIRD: [&str; 2] = ["V", "J"];

/// Catches steps that are not those of the core, keys that go nowhere, a step that lights nothing in one of
/// the drawings, and one that is not announced.
#[test]
fn steps_go_by_keys_and_buttons_and_light_both_drawings() -> Result<()> {
    let train = by_core::train(STEM)?;
    let applied = train
        .element_set(THIRD)
        .map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let walk = WalkReport::of(&train.solve(applied));
    page::open(View::LAPTOP.still(), &format!("#s={STEM}&on=V,J"), |page| {
        let dark = page.seen()?;
        page.unfold("walk")?;
        page.until(
            "steps",
            "probe.all('[data-part=walk-steps] button').length > 0",
        )?;
        let texts: Vec<String> = page.get(
            "probe.all('[data-part=walk-steps] button').map((step) => step.textContent.trim())",
            Value::Null,
        )?;
        let expected: Vec<String> = walk
            .steps
            .iter()
            .map(|step| step.sentences.join(" "))
            .collect();
        ensure!(texts == expected, "{texts:#?}\n{expected:#?}");
        let current = "probe.all('[data-part=walk-steps] button').findIndex((step) => step.ariaCurrent === 'step')";
        let told = "probe.one('[data-part=walk-told]').textContent";
        ensure!(
            page.get::<i32>(current, Value::Null)? == -1,
            "a step before the first"
        );
        page.click("[data-part=walk-next]")?;
        ensure!(page.get::<i32>(current, Value::Null)? == 0);
        let said: String = page.get(told, Value::Null)?;
        ensure!(said.ends_with(&expected[0]), "{said}");
        let lit = page.seen()?;
        ensure!(lit.lever != dark.lever, "nothing lights in the levers");
        ensure!(
            lit.section != dark.section,
            "nothing lights in the half-section"
        );
        page.unfold("members")?;
        for step in &walk.steps {
            let mut rows: Vec<String> = page.get(
                "probe.all('[data-part=members] tr[data-lit]').map(({ dataset }) => dataset.shaftId)",
                Value::Null,
            )?;
            let mut shafts = step.shafts.clone();
            rows.sort();
            shafts.sort();
            ensure!(
                rows == shafts,
                "{rows:?} light among the numbers, not {shafts:?}"
            );
            page.click("[data-part=walk-next]")?;
        }
        // The first again.
        page.run(
            "probe.all('[data-part=walk-steps] button')[0].click()",
            Value::Null,
        )?;
        page.run(
            "probe.one('[data-part=walk-steps] [aria-current]').focus()",
            Value::Null,
        )?;
        page.keys([Key::Down])?;
        ensure!(page.get::<i32>(current, Value::Null)? == 1);
        let focused = "probe.host('lever-train').shadowRoot.activeElement.textContent.trim()";
        ensure!(page.get::<String>(focused, Value::Null)? == expected[1]);
        // Another range begins anew, and lights nothing.
        page.click_range("2")?;
        ensure!(page.get::<i32>(current, Value::Null)? == -1);
        page.click_range("3")?;
        let after = page.seen()?;
        ensure!(
            after.lever == dark.lever && after.section == dark.section,
            "the light stays"
        );
        Ok(())
    })
}

/// Catches playing that never ends, or that goes on in another range.
#[test]
fn playing_ends_at_the_last_step() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={STEM}&on=W,J"), |page| {
        page.unfold("walk")?;
        page.until(
            "steps",
            "probe.all('[data-part=walk-steps] button').length > 0",
        )?;
        page.run(
            "{ const pace = probe.one('#walk-pace'); pace.options[0].value = '0.2'; pace.selectedIndex = 0 }",
            Value::Null,
        )?;
        page.click("[data-part=walk-play]")?;
        page.until(
            "the last step",
            "probe.all('[data-part=walk-steps] button').at(-1).ariaCurrent === 'step' \
                && probe.one('[data-part=walk-play] .icon-play') !== null",
        )
    })
}

/// Catches a story of another shift, and speeds that are not those of the ranges.
#[test]
fn a_shift_is_told_as_by_the_core() -> Result<()> {
    let train = by_core::train(STEM)?;
    let ranges = &train.scenario().ranges;
    let place = |id: &str| {
        ranges
            .iter()
            .position(|range| range.id == id)
            .unwrap_or_default()
    };
    let (from, to) = (place("3"), place("6"));
    let shift = ShiftReport::of(&train, train.range(from), train.range(to));
    page::open(View::LAPTOP, &format!("#s={STEM}&on=V,J"), |page| {
        page.unfold("walk")?;
        page.until(
            "a story",
            "probe.all('[data-part=walk-story] li').length > 0",
        )?;
        page.run(
            "{ const to = probe.one('[data-part=walk-shift-to]'); to.value = '6'; to.dispatchEvent(new Event('change')) }",
            Value::Null,
        )?;
        let told: Vec<String> = page.get(
            "probe.all('[data-part=walk-story] li').map((step) => step.textContent)",
            Value::Null,
        )?;
        let expected: Vec<String> = shift
            .steps
            .iter()
            .map(|step| step.sentence.clone())
            .collect();
        ensure!(told == expected, "{told:#?}");
        let rows: Vec<[String; 3]> = page.get(
            "probe.all('[data-part=walk-shift] tr[data-shaft-id]').map((row) => \
                [row.dataset.shaftId, row.children[1].title, row.children[2].title])",
            Value::Null,
        )?;
        let exact = |value: &Option<levertrain_core::report::Exact>| {
            let value = value
                .as_ref()
                .map(|value| value.fraction.replace('-', "\u{2212}"));
            value.unwrap_or_default()
        };
        let shafts = shift.shafts.iter();
        let expected: Vec<[String; 3]> = shafts
            .map(|row| [row.id.clone(), exact(&row.before), exact(&row.after)])
            .collect();
        ensure!(rows == expected, "{rows:?}\n{expected:?}");
        Ok(())
    })
}

/// Catches a phone on which the step and the drawings that it lights are never seen together.
#[test]
fn on_a_phone_the_step_stands_under_the_drawings() -> Result<()> {
    page::open(View::PHONE, &format!("#s={STEM}&on=V,J"), |page| {
        page.unfold("walk")?;
        page.until(
            "steps",
            "probe.all('[data-part=walk-steps] button').length > 0",
        )?;
        page.run("probe.one('[data-part=walk-next]').click()", Value::Null)?;
        let together = "(() => { const bar = probe.one('[data-part=walk-bar]').getBoundingClientRect(); \
            const drawing = probe.one('canvas').getBoundingClientRect(); \
            return bar.height > 60 && bar.bottom <= innerHeight + 1 && drawing.top >= 0 && drawing.top + 150 < bar.top; })()";
        page.until("both are in sight", together)?;
        let told = "probe.one('[data-part=walk-bar] p').textContent";
        let first: String = page.get(told, Value::Null)?;
        page.keys([Key::Enter])?;
        page.until("the next step", &format!("{told} !== {first:?}"))?;
        page.until("both are still in sight", together)?;
        page.run(
            "probe.one('[data-part=walk-bar-close]').click()",
            Value::Null,
        )?;
        ensure!(!page.shows("[data-part=walk-bar]")?, "it stays");
        Ok(())
    })?;
    // Where the list stands beside the drawings, it would only say the same again.
    page::open(View::LAPTOP, &format!("#s={STEM}&on=V,J"), |page| {
        page.unfold("walk")?;
        page.until(
            "steps",
            "probe.all('[data-part=walk-steps] button').length > 0",
        )?;
        page.run("probe.one('[data-part=walk-next]').click()", Value::Null)?;
        ensure!(!page.shows("[data-part=walk-bar]")?, "it is there twice");
        Ok(())
    })
}
