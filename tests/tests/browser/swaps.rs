//! Shifts: what is drawn and listed is what the core says, and can be used by pointer, finger and keys.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use anyhow::{Context, Result, ensure};
use fantoccini::key::Key;
use levertrain_core::Train;
use levertrain_core::swaps::{Bounds, Chain, Chains, Graph, Shift};
use levertrain_tests::browser::{Page, View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

use crate::{by_core, language};

const EIGHT: &str = "05-eight-speed-four-sets";
const ONE_WAY: &str = "07-three-speed-one-way";

/// Unfolds the panel and waits until the graph is known.
fn open(page: &Page) -> Result<()> {
    page.unfold("shifts")?;
    page.until(
        "the shifts are found",
        "probe.all('.shift-node').length > 0 && probe.one('.shifts').checkVisibility()",
    )?;
    page.rest()
}

fn ids(train: &Train, applied: levertrain_core::ElementSet) -> Vec<String> {
    let elements = &train.scenario().elements;
    applied
        .iter()
        .map(|element| elements[element].id().to_owned())
        .collect()
}

/// What the buttons over the drawing apply, in their order.
fn buttons(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('.shift-node').map(({ dataset }) => dataset.applied)",
        Value::Null,
    )
}

/// Catches nodes that are missing, too many, or in another order than that of their ratios, and lines of another
/// train than the one that is open.
#[test]
fn every_combination_that_drives_has_a_button() -> Result<()> {
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        open(page)?;
        let canvas = page.canvas("shifts")?;
        ensure!(canvas.colours > 8 && canvas.ground < 0.99, "{canvas:?}");
        for stem in [EIGHT, ONE_WAY] {
            let train = by_core::train(stem)?;
            let graph = Graph::of_train(&train);
            let expected: Vec<String> = graph
                .nodes()
                .iter()
                .map(|node| ids(&train, node.applied).join(","))
                .collect();
            if stem != EIGHT {
                page.choose(stem)?;
                page.until(
                    "it is another train",
                    "probe.all('.shift-node').some(({ dataset }) => dataset.applied === 'H')",
                )?;
                page.rest()?;
                ensure!(
                    page.canvas("shifts")?.hash != canvas.hash,
                    "the picture stays"
                );
            }
            let found = buttons(page)?;
            ensure!(found == expected, "{stem}: {found:?}, not {expected:?}");
        }
        Ok(())
    })
}

/// Catches a node that does not apply what it is, by pointer and by keys, and a present combination that is not told.
#[test]
fn a_node_applies_its_combination() -> Result<()> {
    let train = by_core::train(EIGHT)?;
    let graph = Graph::of_train(&train);
    let applied = |at: usize| ids(&train, graph.nodes()[at].applied);
    let sorted = |mut ids: Vec<String>| {
        ids.sort();
        ids
    };
    let current = |page: &Page| -> Result<Vec<String>> {
        page.get(
            "probe.all('.shift-node[aria-current]').map(({ dataset }) => dataset.applied)",
            Value::Null,
        )
    };
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        open(page)?;
        let before = page.canvas("shifts")?;
        page.click(&format!(
            ".shift-node[data-applied=\"{}\"]",
            applied(2).join(",")
        ))?;
        ensure!(
            page.seen()?.applied == sorted(applied(2)),
            "{:?}",
            page.seen()?
        );
        ensure!(current(page)? == [applied(2).join(",")]);
        ensure!(
            page.canvas("shifts")?.hash != before.hash,
            "the picture stays"
        );
        // One further by the arrow, to the last by End, and Enter applies.
        page.keys([Key::Right])?;
        page.keys([Key::Enter])?;
        page.rest()?;
        ensure!(
            page.seen()?.applied == sorted(applied(3)),
            "{:?}",
            page.seen()?
        );
        page.keys([Key::End])?;
        page.keys([Key::Enter])?;
        page.rest()?;
        let last = graph.nodes().len() - 1;
        ensure!(
            page.seen()?.applied == sorted(applied(last)),
            "{:?}",
            page.seen()?
        );
        // One stop of the tab key for all.
        let stops: usize = page.get(
            "probe.all('.shift-node').filter(({ tabIndex }) => tabIndex === 0).length",
            Value::Null,
        )?;
        ensure!(stops == 1, "{stops}");
        Ok(())
    })
}

/// Catches a table that tells other swaps than the core, or leaves one out.
#[test]
fn the_table_says_what_the_core_says() -> Result<()> {
    for stem in [EIGHT, ONE_WAY] {
        let train = by_core::train(stem)?;
        let ranges = &train.scenario().ranges;
        let expected: Vec<[String; 5]> = Shift::all(&Graph::of_train(&train))
            .iter()
            .map(|shift| {
                let names = |set| ids(&train, set).join(" ");
                [
                    ranges[shift.from].id.clone(),
                    ranges[shift.to].id.clone(),
                    shift.swap.kind().key().to_owned(),
                    names(shift.swap.released),
                    names(shift.swap.applied),
                ]
            })
            .collect();
        page::open(View::LAPTOP, &format!("#s={stem}"), |page| {
            open(page)?;
            page.run(
                "const from = probe.one('#shifts-from'); from.value = ''; from.dispatchEvent(new Event('change'))",
                Value::Null,
            )?;
            let found: Vec<[String; 5]> = page.get(
                "probe.all('[data-part=shifts-between] tbody tr').map(({ dataset, children }) => \
                    [dataset.from, dataset.to, dataset.kind, ...[2, 3].map((at) => children[at].textContent.replace('–', ''))])",
                Value::Null,
            )?;
            ensure!(found == expected, "{stem}: {found:?}, not {expected:?}");
            Ok(())
        })?;
    }
    Ok(())
}

/// The chains that are listed, as what the chosen one applies.
fn chosen(page: &Page) -> Result<Vec<String>> {
    page.get(
        "probe.all('[data-part=shifts-chosen] tbody tr').map(({ dataset }) => dataset.applied)",
        Value::Null,
    )
}

/// Catches chains that the core does not find, bounds that change nothing, and ranges that are not what was chosen, or
/// cannot be taken back.
#[test]
fn the_best_chains_are_those_of_the_core_and_can_be_the_ranges() -> Result<()> {
    let train = by_core::train(EIGHT)?;
    let graph = Graph::of_train(&train);
    let of = |chain: &Chain| -> Vec<String> {
        chain
            .nodes
            .iter()
            .map(|&node| ids(&train, graph.nodes()[node].applied).join(","))
            .collect()
    };
    let usual = Chains::best(&graph, &Bounds::default()).chains;
    let narrow = Chains::best(&graph, &Bounds::of_hundredths(125, 220, 4)).chains;
    ensure!(usual != narrow, "the bounds tell nothing apart");
    page::open(View::LAPTOP, &format!("#s={EIGHT}"), |page| {
        open(page)?;
        let count: usize = page.get("probe.all('[data-chain]').length", Value::Null)?;
        ensure!(count == usual.len(), "{count} of {}", usual.len());
        ensure!(chosen(page)? == of(&usual[0]), "{:?}", chosen(page)?);
        page.run(
            "for (const [id, value] of Object.entries(args)) { const field = probe.one(`#${id}`); field.value = value; field.dispatchEvent(new Event('change')); }",
            json!({ "shifts-least": "1.25", "shifts-ranges": "4" }),
        )?;
        page.rest()?;
        ensure!(chosen(page)? == of(&narrow[0]), "{:?}", chosen(page)?);
        let marked = page.canvas("shifts")?;
        let second = narrow.get(1).context("a second chain")?;
        page.click("[data-chain=\"1\"] button")?;
        page.rest()?;
        ensure!(chosen(page)? == of(second), "{:?}", chosen(page)?);
        ensure!(page.canvas("shifts")?.hash != marked.hash, "the mark stays");

        let named = |page: &Page| -> Result<Vec<String>> {
            page.get(
                "probe.all('[data-range-id]').map(({ dataset }) => dataset.rangeId)",
                Value::Null,
            )
        };
        let before: BTreeSet<String> = named(page)?.into_iter().collect();
        page.click("[data-part=shifts-take]")?;
        page.until(
            "they are the ranges",
            "probe.all('[data-part=shifts-between] tbody tr').length === 4",
        )?;
        page.rest()?;
        let after: BTreeSet<String> = named(page)?.into_iter().collect();
        ensure!(
            after.len() == second.nodes.len() + 1,
            "{after:?}: Reverse stays"
        );
        ensure!(chosen(page)?.len() == 4);
        page.unfold("edit")?;
        page.until(
            "the form is there",
            "probe.all('[data-part=edit] [data-key]').length > 0",
        )?;
        page.click("[data-part=edit] [data-key=undo]")?;
        page.rest()?;
        let back: BTreeSet<String> = named(page)?.into_iter().collect();
        ensure!(back == before, "{back:?}, not {before:?}");
        Ok(())
    })
}

/// Catches a drawing of hundreds of combinations that nobody asked for, and one that cannot be asked for.
#[test]
fn of_many_the_named_ones_come_first_and_all_on_demand() -> Result<()> {
    // Four more clutches, so that more drive than can be told apart at once.
    let files = files::scenarios()?;
    let eight = files.iter().find(|file| file.stem == EIGHT);
    let mut scenario: Value = serde_json::from_str(&eight.context("no such file")?.text)?;
    let more = [("s1", "c2"), ("in", "c3"), ("c3", "out"), ("s1", "c4")];
    let elements = scenario["elements"].as_array_mut().context("no elements")?;
    for (number, (one, other)) in more.iter().enumerate() {
        let id = format!("L{number}");
        elements.push(json!({"kind": "clutch", "id": id, "label": id, "between": [one, other]}));
    }
    let text = scenario.to_string();
    let all = Graph::of_train(&by_core::parse(&text)?).nodes().len();
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("many-drive.json");
    fs::write(&path, text)?;
    page::open(View::LAPTOP, "", |page| {
        page.open_file(&path)?;
        open(page)?;
        let some = buttons(page)?.len();
        ensure!(some < all, "{some} of {all}");
        page.click("[data-part=shifts-all]")?;
        page.rest()?;
        let every = buttons(page)?.len();
        ensure!(every == all, "{every} of {all}");
        Ok(())
    })
}

/// Catches buttons that a finger cannot hit, a panel that widens a phone, and a drawing that is not German there.
#[test]
fn fingers_and_german_have_room() -> Result<()> {
    page::open(View::PHONE, &format!("#s={EIGHT}"), |page| {
        language::speak_german(page)?;
        open(page)?;
        let sizes: Vec<[f64; 2]> = page.get(
            "probe.all('.shift-node').map((node) => node.getBoundingClientRect()).map(({ width, height }) => [width, height])",
            Value::Null,
        )?;
        let small = sizes
            .iter()
            .filter(|size| size[0].min(size[1]) < 44.0)
            .count();
        ensure!(
            small == 0,
            "{small} of {} are too small: {sizes:?}",
            sizes.len()
        );
        let title: String = page.get(
            "probe.one('[data-part=shifts] h2').textContent",
            Value::Null,
        )?;
        ensure!(title == "Schaltungen", "{title}");
        let count: String = page.get("probe.text('[data-part=shifts-count]')", Value::Null)?;
        ensure!(count.starts_with("15 Kombinationen"), "{count}");
        let wide: bool = page.get(
            "document.documentElement.scrollWidth > innerWidth",
            Value::Null,
        )?;
        ensure!(!wide, "the page scrolls sideways");
        Ok(())
    })
}
