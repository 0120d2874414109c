//! Lines of layouts from the files of shards, brought in order.

use std::collections::BTreeSet;

use levertrain_core::layouts::LayoutSearch;
use levertrain_core::layouts::limits::FOUND;
use serde_json::Value;

use crate::lines::merge;

/// The lines of all files in the order of one search, each once, and the counts of all.
pub fn merged(files: &[String]) -> Result<(Vec<String>, Vec<u128>), String> {
    let mut lines = BTreeSet::new();
    let take = |line: &str| {
        lines.insert((order(line)?, line.to_owned()));
        // As many as one search keeps.
        if lines.len() > FOUND {
            lines.pop_last();
        }
        Some(())
    };
    let (counts, _) = merge(files, LayoutSearch::merge(), take)?;
    let lines = lines.into_iter().map(|(_, line)| line);
    Ok((lines.collect(), counts))
}

/// What lines are ordered by: how far ratios are off, how many elements there are, and the text of the layout. Numbers that
/// are not below zero have the order of their bits.
fn order(line: &str) -> Option<(u64, u64, String)> {
    let value: Value = serde_json::from_str(line).ok()?;
    let number = |name: &str| value.get(name)?.as_u64();
    let elements = number("clutches")? + number("brakes")?;
    let text = value.get("scenario")?.as_str()?;
    let error = value.get("error")?.as_f64()?;
    Some((error.to_bits(), elements, text.to_owned()))
}
