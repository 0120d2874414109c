//! The table of mesh orders says what the core says, and follows the input's speed.

use anyhow::{Context, Result, ensure};
use levertrain_core::words::number;
use levertrain_tests::browser::{View, page};
use serde_json::Value;

use crate::by_core;

const STEM: &str = "09-six-speed-front-set";

/// Catches a table that mixes meshes up, stays at the range before, or counts minutes as seconds.
#[test]
fn orders_and_frequencies_are_those_of_the_core() -> Result<()> {
    let train = by_core::train(STEM)?;
    page::open(View::LAPTOP, &format!("#s={STEM}&on=H,V&n=1500"), |page| {
        page.click("[data-part=bearings] summary")?;
        for ids in [["H", "V"], ["J", "K"]] {
            page.click_range(if ids[0] == "H" { "2" } else { "5" })?;
            let applied = train
                .element_set(ids)
                .map_err(|_| anyhow::anyhow!("{ids:?}"))?;
            let combination = train.solve(applied);
            let rows = "probe.all('[data-part=bearings] tr[data-mesh]').map((row) => \
                [row.dataset.mesh, ...[...row.children].slice(1).map((cell) => cell.textContent)])";
            let rows: Vec<[String; 4]> = page.get(rows, Value::Null)?;
            let mut expected = Vec::new();
            for (index, coupling) in train.scenario().couplings.iter().enumerate() {
                for order in combination.mesh_orders(index) {
                    let per_input = order.per_input.context("an order")?.to_f64();
                    let per_output = order.per_output.context("an order")?.to_f64();
                    expected.push([
                        format!("{}: {}", coupling.facts().id(), order.mesh.name()),
                        number(per_input, 4),
                        number(per_output, 4),
                        number(per_input * 1500.0 / 60.0, 4),
                    ]);
                }
            }
            ensure!(rows == expected, "{ids:?}: {rows:?}, expected {expected:?}");
        }
        Ok(())
    })
}
