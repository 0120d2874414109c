//! A search that finds nothing tells which wishes are in the way: those that the core says are.

use anyhow::{Context, Result, ensure};
use levertrain_core::layouts::WantedRatio;
use levertrain_core::search::Wanted;
use levertrain_tests::browser::{Page, View, page};
use serde_json::Value;

use crate::search_panel::{LAYOUTS, TEETH, write};
use crate::{by_core, find, layouts};

/// What is told of the wishes, once they were gone through.
fn told(page: &Page, panel: &str) -> Result<String> {
    let words = format!("probe.one('[data-part={panel}-blocking]').textContent");
    page.until("it is told", &format!("/enough|Without/.test({words})"))?;
    page.get(&words, Value::Null)
}

/// Checks what is told by what there is for some of the wishes, which are named in their order.
fn check(words: &str, names: &[String], some: impl Fn(&[&String]) -> Result<bool>) -> Result<()> {
    let without = |spare: &String| {
        let left: Vec<&String> = names.iter().filter(|name| *name != spare).collect();
        some(&left)
    };
    let mut single = Vec::new();
    for name in names {
        if without(name)? {
            single.push(name.clone());
        }
    }
    let list = single.join(", ");
    match single.len() {
        0 => {}
        1 => {
            ensure!(
                words == format!("Without this wish there would be some: {list}."),
                "{words:?}, not {list}"
            );
            return Ok(());
        }
        _ => {
            ensure!(
                words == format!("Without any one of these wishes there would be some: {list}."),
                "{words:?}, not {list}"
            );
            return Ok(());
        }
    }
    let rest = words.strip_prefix("Leaving out a single wish is not enough. ");
    let many = rest.and_then(|rest| {
        rest.strip_prefix("These cannot be met together, even without the others: ")?
            .strip_suffix('.')
    });
    let one = rest.and_then(|rest| {
        rest.strip_prefix("This one cannot be met, even without the others: ")?
            .strip_suffix('.')
    });
    let blamed = many.or(one).with_context(|| words.to_owned())?.split(", ");
    let blamed: Vec<String> = blamed.map(str::to_owned).collect();
    let blamed: Vec<&String> = names.iter().filter(|name| blamed.contains(name)).collect();
    ensure!(!blamed.is_empty(), "{words}");
    ensure!(!some(&blamed)?, "there is something for {words}");
    for spare in &blamed {
        let left: Vec<&String> = blamed
            .iter()
            .copied()
            .filter(|name| name != spare)
            .collect();
        ensure!(some(&left)?, "{spare} is not needed: {words}");
    }
    Ok(())
}

/// Catches a search with no finds that blames a wish which is not in the way, or leaves one out that is; and what was found after a
/// long form coming into view from its end, with the stage out of view.
#[test]
fn which_wishes_are_in_the_way_is_told_and_finds_come_up_from_their_beginning() -> Result<()> {
    let train = by_core::train(find::SIX)?;
    let label = |range: &str| {
        let ranges = &train.scenario().ranges;
        let known = ranges.iter().find(|known| known.id == range);
        known.map(|range| range.label.clone()).unwrap_or_default()
    };
    let is_told = |page: &Page| -> Result<()> {
        page.click("[data-part=find-begin]")?;
        TEETH.wait(page)?;
        let words = told(page, "find")?;
        let all = find::wanted(page, 0.02)?;
        let names: Vec<String> = all.iter().map(|wanted| label(&wanted.range)).collect();
        check(&words, &names, |left| {
            let is_left = |wanted: &&Wanted| left.contains(&&label(&wanted.range));
            let wanted = all.iter().filter(is_left).cloned().collect();
            Ok(!find::found(&train, wanted)?.is_empty())
        })
    };
    page::open(View::LAPTOP, &format!("#s={}", find::SIX), |page| {
        TEETH.open(page)?;
        // One ratio that teeth can have, but not with the others.
        write(page, "#find-ratio-6", "0.44")?;
        is_told(page)?;
        // Ratios of which no single one is to blame.
        for (range, ratio) in [
            ("1", "4.2"),
            ("2", "2.2"),
            ("3", "1.5"),
            ("5", "0.85"),
            ("6", "0.7"),
        ] {
            write(page, &format!("#find-ratio-{range}"), ratio)?;
        }
        is_told(page)?;
        page.click("[data-part=find-nearest]")?;
        page.until(
            "something is found",
            "probe.one('[data-part=find-rest]').hidden && probe.all('[data-part=finds] tbody tr').length > 0",
        )?;
        page.rest()?;
        let told: String = page.get(
            "probe.one('[data-part=find-blocking]').textContent",
            Value::Null,
        )?;
        ensure!(told.is_empty(), "still said: {told}");
        let [panel, stage]: [f64; 2] = page.get(
            "[probe.one('[data-part=find]').getBoundingClientRect().top, probe.one('.stage-column').getBoundingClientRect().bottom]",
            Value::Null,
        )?;
        ensure!(panel.abs() < 2.0, "finds begin at {panel}");
        ensure!(stage > 100.0, "the stage ends at {stage}");
        Ok(())
    })
}
/// Catches the same of layouts, where one wish is not of a ratio.
#[test]
fn which_wishes_are_in_the_way_of_layouts_is_told() -> Result<()> {
    page::open(View::LAPTOP, layouts::SIX, |page| {
        LAYOUTS.open(page)?;
        // However slow it is here: with the page's clock at rest nothing takes too long to be gone through again.
        page.run("performance.now = () => 0", Value::Null)?;
        let names = [
            "range 1",
            "range 2",
            "range 3",
            "backward range",
            "single swaps",
        ]
        .map(str::to_owned);
        for forward in [[2.7, 1.55, 1.1], [4.2, 1.55, 1.0], [12.0, 1.55, 1.1]] {
            for (at, ratio) in forward.iter().enumerate() {
                write(
                    page,
                    &format!("#layouts-ratio-{}", at + 1),
                    &ratio.to_string(),
                )?;
            }
            page.click("[data-part=layouts-begin]")?;
            LAYOUTS.wait(page)?;
            check(&told(page, "layouts")?, &names, |left| {
                let mut ask = layouts::asked(forward);
                let ranges = ask.forward.iter_mut().chain(&mut ask.backward);
                for (range, name) in ranges.zip(&names) {
                    if !left.contains(&name) {
                        *range = WantedRatio::default();
                    }
                }
                ask.single_swaps = left.contains(&&names[4]);
                Ok(!layouts::found(&ask)?.is_empty())
            })?;
        }
        // What is said of one search is not said of the next.
        write(page, "#layouts-ratio-1", "2.7")?;
        write(page, "#layouts-ratio-3", "1")?;
        page.click("[data-part=layouts-begin]")?;
        LAYOUTS.wait(page)?;
        let words: String = page.get(
            "probe.one('[data-part=layouts-blocking]').textContent",
            Value::Null,
        )?;
        ensure!(words.is_empty(), "still said: {words}");
        Ok(())
    })
}
