//! Lines of layouts: reading those of shards, bringing them in order, writing them.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, BufWriter, Write};
use std::path::Path;

use levertrain_core::layouts::limits::FOUND;
use levertrain_core::words::said;
use serde_json::Value;

use crate::standing::is_put_there;

pub fn read(file: &str) -> Result<String, String> {
    fs::read_to_string(file).map_err(|error| format!("{file}: {error}"))
}

/// The lines of all files in the order of one search, each once.
pub fn merged(files: &[String]) -> Result<Vec<String>, String> {
    let mut lines = BTreeSet::new();
    for file in files {
        for (at, line) in read(file)?.lines().enumerate() {
            let order = order(line).ok_or_else(|| {
                let number = (at + 1).to_string();
                said("cli-search-line", &[("file", &**file), ("line", &number)])
            })?;
            lines.insert((order, line.to_owned()));
        }
    }
    // As many as one search keeps.
    Ok(lines
        .into_iter()
        .map(|(_, line)| line)
        .take(FOUND)
        .collect())
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

pub fn write(lines: &[String], out: Option<&Path>) -> Result<(), String> {
    let unwritten = |error: io::Error| said("cli-unwritten", &[("error", &error.to_string())]);
    let Some(file) = out else {
        return put(lines, &mut io::stdout().lock()).map_err(unwritten);
    };
    if !is_put_there(file) {
        let mut writer = BufWriter::new(fs::File::create(file).map_err(unwritten)?);
        put(lines, &mut writer).map_err(unwritten)?;
        return writer.flush().map_err(unwritten);
    }
    let mut unfinished = file.as_os_str().to_owned();
    unfinished.push(".part");
    let mut writer = BufWriter::new(fs::File::create(&unfinished).map_err(unwritten)?);
    put(lines, &mut writer).map_err(unwritten)?;
    writer.flush().map_err(unwritten)?;
    fs::rename(&unfinished, file).map_err(unwritten)
}

fn put(lines: &[String], writer: &mut impl Write) -> io::Result<()> {
    lines.iter().try_for_each(|line| writeln!(writer, "{line}"))
}
