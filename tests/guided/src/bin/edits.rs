//! Rows of edits: each makes a train or is refused, and the way back leads to where it began.
#![no_main]

use levertrain_core::Train;
use levertrain_core::edit::{History, text};
use levertrain_guided::{Bytes, beginnings, edit};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|data: &[u8]| {
    let mut bytes = Bytes(data);
    let beginnings = beginnings();
    let start = beginnings[bytes.next() % beginnings.len()].clone();
    let mut scenario = start.clone();
    let mut history = History::default();
    let mut steps = 0;
    while !bytes.0.is_empty() && steps < 60 {
        let Some(edit) = edit(&mut bytes, &scenario) else {
            continue;
        };
        let Ok(after) = edit.of(&scenario) else {
            continue;
        };
        if Train::new(after.clone()).is_err() {
            continue;
        }
        history.note(&edit, &scenario, &after, false);
        scenario = after;
        steps += 1;
    }
    while let Some(before) = history.undo(&scenario) {
        scenario = before;
    }
    assert_eq!(text(&scenario), text(&start));
});
