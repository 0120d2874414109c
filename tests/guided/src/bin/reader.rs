//! Any text at all: it is read or refused, and what is read is written as it is read.
#![no_main]

use levertrain_core::edit::text;
use levertrain_core::report::{ChartReport, warnings};
use levertrain_core::{Scenario, Train};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let Ok(given) = std::str::from_utf8(data) else {
        return;
    };
    let train = match Train::parse(given) {
        Ok(train) => train,
        Err(problems) => {
            assert!(!problems.is_empty() && problems.len() <= 100);
            return;
        }
    };
    let written = text(train.scenario());
    assert!(
        Scenario::parse(&written).is_ok_and(|read| read == *train.scenario()),
        "{written}"
    );
    let _ = warnings(&train);
    if train.scenario().elements.len() < 8 {
        let _ = ChartReport::from(&train.range_chart());
    }
});
