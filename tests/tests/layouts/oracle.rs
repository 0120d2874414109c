//! Small classes against trying everything (`tests/oracle/layouts.py`): how many ways of joining the sets there are, how many
//! of them cross by NetworkX, which layouts give the ratios, and how far each is off with its best teeth.

use anyhow::{Result, ensure};
use levertrain_core::layouts::{LayoutAsk, LayoutSearch};
use levertrain_tests::cases;
use serde::Deserialize;
use serde_json::Value;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Case {
    name: String,
    ask: Value,
    frames: u64,
    crossing: u64,
    /// How far the ratio that is off most is off, the best layout first.
    errors: Vec<f64>,
}

#[test]
fn small_classes_have_the_layouts_that_trying_everything_finds() -> Result<()> {
    let Some(cases) = cases::of_file::<Case>("layouts.json")? else {
        return Ok(());
    };
    let mut layouts = 0;
    for case in &cases {
        let told = |problems| anyhow::anyhow!("{}: {problems:#?}", case.name);
        let ask = LayoutAsk::parse(&case.ask.to_string()).map_err(told)?;
        let mut search = LayoutSearch::new(&ask).map_err(told)?;
        while !search.run(100) {}
        let counts = search.counts();
        ensure!(
            (counts.frames, counts.crossing) == (case.frames, case.crossing),
            "{}: {counts:?}, expected {} and {}",
            case.name,
            case.frames,
            case.crossing
        );
        let found = search.found();
        let errors: Vec<f64> = found
            .iter()
            .map(|found| found.find.measures.error)
            .collect();
        ensure!(
            errors.len() == case.errors.len(),
            "{}: {} layouts, expected {}",
            case.name,
            errors.len(),
            case.errors.len()
        );
        for (actual, expected) in errors.iter().zip(&case.errors) {
            ensure!(
                (actual - expected).abs() < 1e-9,
                "{}: {actual}, expected {expected}",
                case.name
            );
        }
        ensure!(
            counts.unended + counts.given_up == 0,
            "{}: {counts:?}",
            case.name
        );
        layouts += errors.len();
    }
    ensure!(
        cases.len() >= 6 && layouts >= 80,
        "too few to compare: {layouts}"
    );
    Ok(())
}
