//! Building a train in the drawing: the six-speed of the list from nothing, with the mouse, with a finger
//! and with the keys alone.

use anyhow::{Context, Result, ensure};
use levertrain_core::{ElementSet, Scenario, Train};
use levertrain_tests::browser::{Device, Page, View, page};
use levertrain_tests::files;
use serde_json::Value;

use super::builder::{Builder, By, MODEL};

/// The text of the train that is kept, once its last range is in it.
fn built(page: &Page, ranges: usize) -> Result<Scenario> {
    page.until(
        "it is kept",
        &format!(
            "Object.values(localStorage).some((text) => text.includes('\\\\\"g{ranges}\\\\\"'))"
        ),
    )?;
    let texts: Vec<String> = page.get(
        "Object.entries(localStorage).filter(([key]) => key.startsWith('levertrain draft')) \
            .map(([, value]) => JSON.parse(value).text)",
        Value::Null,
    )?;
    let text = texts.first().context("one draft")?;
    Scenario::parse(text).map_err(|problems| anyhow::anyhow!("{problems:?}"))
}

fn build(page: &Page, by: By) -> Result<()> {
    let mut files = files::scenarios()?.into_iter();
    let file = files.find(|file| file.stem == MODEL).context(MODEL)?;
    let model = Train::parse(&file.text).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let builder = Builder { page, by };
    page.unfold("edit")?;
    page.until("there are parts", "probe.all('.grip').length > 5")?;
    builder.button("[data-part=edit] button[data-key=begin]")?;
    page.until(
        "nothing is there",
        "probe.all('.grip[data-kind=set]').length === 0",
    )?;
    builder.press("gap 0")?;
    builder.tool("add planetary")?;
    builder.press("gap 1")?;
    builder.tool("add ravigneaux")?;
    if page.shows("[data-part=whole]")? {
        builder.button("[data-part=whole]")?;
    }
    let [sun_1, carrier_1, ring_1] = [0, 1, 2].map(|at| format!("member p1 {at}"));
    let [small, large, carrier_2, ring_2] = [0, 1, 2, 3].map(|at| format!("member p2 {at}"));
    for (set, coupling) in model.scenario().couplings.iter().enumerate() {
        let mut copy = coupling.clone();
        let teeth: Vec<u32> = copy
            .parts()
            .teeth
            .iter()
            .map(|(_, teeth)| teeth.get())
            .collect();
        let members = match set {
            0 => vec![&sun_1, &carrier_1, &ring_1],
            _ => vec![&small, &carrier_2, &large, &carrier_2, &ring_2],
        };
        for (gear, (member, teeth)) in members.into_iter().zip(teeth).enumerate() {
            builder.count(member, &format!("teeth {gear}"), teeth)?;
        }
    }
    builder.count(&carrier_1, "count", 4)?;
    builder.put(&sun_1, "housing", "fast")?;
    builder.put("end input", &ring_1, "fast")?;
    builder.put(&ring_2, "end output", "fast")?;
    builder.put(&carrier_1, &small, "clutch")?;
    builder.put(&carrier_1, &large, "clutch")?;
    builder.put(&ring_1, &carrier_2, "clutch")?;
    builder.put(&large, "housing", "brake")?;
    builder.put(&carrier_2, "housing", "brake")?;
    for range in &model.scenario().ranges {
        builder.apply(&range.applied)?;
        builder.button("[data-part=edit] button[data-key=\"add range\"]")?;
    }

    let scenario = built(page, model.scenario().ranges.len())?;
    let train = Train::new(scenario).map_err(|problems| anyhow::anyhow!("{problems:?}"))?;
    let ids = |train: &Train| -> Vec<String> {
        let elements = train.scenario().elements.iter();
        elements.map(|element| element.id().to_owned()).collect()
    };
    ensure!(ids(&train) == ids(&model), "{:?}", ids(&train));
    for (ours, theirs) in train
        .scenario()
        .couplings
        .iter()
        .zip(&model.scenario().couplings)
    {
        let teeth = |coupling: &levertrain_core::coupling::Coupling| -> Vec<u32> {
            let mut copy = coupling.clone();
            copy.parts()
                .teeth
                .iter()
                .map(|(_, teeth)| teeth.get())
                .collect()
        };
        ensure!(teeth(ours) == teeth(theirs), "{ours:?}");
        ensure!(
            ours.clone().parts().count == theirs.clone().parts().count,
            "{ours:?}"
        );
    }
    let elements = model.scenario().elements.len();
    for bits in 0_u32..1 << elements {
        let applied: ElementSet = (0..elements).filter(|at| bits >> at & 1 == 1).collect();
        let [ours, theirs] = [&train, &model].map(|train| train.solve(applied).state().clone());
        ensure!(ours == theirs, "{bits:b}: {ours:?}, not {theirs:?}");
    }
    let ranges = |train: &Train| -> Vec<Vec<String>> {
        let ranges = train.scenario().ranges.iter();
        ranges
            .map(|range| {
                let mut applied = range.applied.clone();
                applied.sort();
                applied
            })
            .collect()
    };
    ensure!(ranges(&train) == ranges(&model), "{:?}", ranges(&train));
    Ok(())
}

/// Catches a line that joins nothing, the wrong things or the same thing twice, parts that lie under others,
/// and a strip that is out of reach.
#[test]
fn the_six_speed_is_built_with_the_mouse() -> Result<()> {
    page::open(View::LAPTOP, "", |page| {
        build(page, By::Pointer(Device::Mouse))
    })
}

/// Catches a finger that scrolls the drawing instead of drawing a line.
#[test]
fn the_six_speed_is_built_with_a_finger() -> Result<()> {
    page::open(View::PHONE, "", |page| {
        build(page, By::Pointer(Device::Touch))
    })
}

/// Catches what a pointer alone can do.
#[test]
fn the_six_speed_is_built_with_the_keys() -> Result<()> {
    page::open(View::LAPTOP.still(), "", |page| build(page, By::Keys))
}
