//! The page at the width of the smallest phone, or of a laptop at 400 %.

use anyhow::{Result, ensure};
use levertrain_tests::browser::{View, page};
use levertrain_tests::files;
use serde_json::{Value, json};

const NARROW: View = View {
    width: 320,
    height: 640,
    ..View::LAPTOP
};

/// Catches a table or a row of controls that makes the whole page scroll sideways, and columns that
/// have no name, which a screen reader needs to say what a number is.
#[test]
fn no_panel_of_any_scenario_widens_it_and_every_column_has_a_name() -> Result<()> {
    page::open(NARROW, "", |page| {
        for file in files::scenarios()? {
            page.goto(&format!("index.html#s={}", file.stem))?;
            page.run(
                "for (const node of probe.all('details')) node.open = true",
                Value::Null,
            )?;
            page.rest()?;
            let width: u32 = page.get("document.documentElement.scrollWidth", Value::Null)?;
            let wide: Vec<String> = page.get(
                "probe.all('.panel-body *').filter((node) => !node.closest('.scroll, .scroller') && \
                    node.getBoundingClientRect().right > args) \
                    .map((node) => `${node.closest('.panel').dataset.part}: ${node.outerHTML.slice(0, 80)}`)",
                json!(NARROW.width + 1),
            )?;
            ensure!(
                width <= NARROW.width,
                "{}: {width} px, by {wide:#?}",
                file.stem
            );
            let nameless: Vec<String> = page.get(
                "probe.all('.panel:not([hidden]) thead th').filter((node) => !node.textContent.trim()) \
                    .map((node) => node.closest('table').ariaLabel ?? node.closest('.panel').dataset.part)",
                Value::Null,
            )?;
            ensure!(nameless.is_empty(), "{}: {nameless:?}", file.stem);
        }
        Ok(())
    })
}
