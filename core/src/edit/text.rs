//! A scenario as the text of a file: one field of the file, and one item of its lists, on each line.

use std::io::{Result, Write};

use serde::Serialize;
use serde_json::ser::{Formatter, Serializer};

use crate::model::scenario::Scenario;

/// The text of a scenario file that reads as this scenario.
pub fn text(scenario: &Scenario) -> String {
    let mut text = Vec::new();
    let mut serializer = Serializer::with_formatter(&mut text, Lines::default());
    // Neither a scenario nor memory refuses to be written.
    let written = scenario.serialize(&mut serializer);
    debug_assert!(written.is_ok());
    let text = String::from_utf8(text).unwrap_or_default();
    let fields = text.strip_suffix("\n}").unwrap_or_default();
    // Kept as they were written, and so put before the last brace by hand.
    let kept = |field: &str, text: &Option<String>| match text {
        Some(text) => [",\n  \"", field, "\":", text].concat(),
        None => String::new(),
    };
    let dynamics = kept("dynamics", &scenario.dynamics);
    let vehicle = kept("vehicle", &scenario.vehicle);
    let sources = kept("sources", &scenario.sources);
    [fields, &dynamics, &vehicle, &sources, "\n}\n"].concat()
}

/// Breaks lines between the fields of the file, and between the items of the lists in it.
#[derive(Debug, Default)]
struct Lines {
    /// What stands around the place that is written: whether each is a list, and whether it holds
    /// anything yet.
    around: Vec<(bool, bool)>,
}

impl Lines {
    fn open(&mut self, writer: &mut (impl ?Sized + Write), bracket: &[u8]) -> Result<()> {
        self.around.push((bracket == b"[", false));
        writer.write_all(bracket)
    }

    fn close(&mut self, writer: &mut (impl ?Sized + Write), bracket: &[u8]) -> Result<()> {
        if let Some((_, true)) = self.around.last()
            && self.breaks()
        {
            writer.write_all(match self.around.len() {
                1 => b"\n",
                _ => b"\n  ",
            })?;
        }
        self.around.pop();
        writer.write_all(bracket)
    }

    /// Begins a field or an item.
    fn begin(&mut self, writer: &mut (impl ?Sized + Write), first: bool) -> Result<()> {
        if let Some((_, holds)) = self.around.last_mut() {
            *holds = true;
        }
        let indent: &[u8] = match (self.breaks(), self.around.len()) {
            (false, _) if first => b"",
            (false, _) => b" ",
            (true, 1) => b"\n  ",
            (true, _) => b"\n    ",
        };
        if !first {
            writer.write_all(b",")?;
        }
        writer.write_all(indent)
    }

    /// Whether what is around breaks its lines: the file, and the lists that are its fields.
    fn breaks(&self) -> bool {
        matches!(&self.around[..], [_] | [_, (true, _)])
    }
}

impl Formatter for Lines {
    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.open(writer, b"[")
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.close(writer, b"]")
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> Result<()> {
        self.begin(writer, first)
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.open(writer, b"{")
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.close(writer, b"}")
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> Result<()> {
        self.begin(writer, first)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        writer.write_all(b": ")
    }
}
