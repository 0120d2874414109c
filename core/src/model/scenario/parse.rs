//! Reading a scenario file: JSON text in, a [`Scenario`] or every fault out.
//!
//! Each item of a list is read by itself, so one bad gear set does not hide the next fault,
//! and every fault carries the full path to the offending field.

use serde_json::Value;

use super::{FORMAT, Scenario, limits};
use crate::base::fault::{Fault, MOST_FAULTS};
use crate::json::{Fields, Read, Strict, list};

impl Scenario {
    /// Reads the text of a scenario file.
    ///
    /// # Errors
    /// Every fault found: text that is too long or is not JSON (with line and column), a wrong
    /// format number, unknown, missing or mistyped fields (with their path), and lists longer
    /// than [`limits`] allows. Whether the ids and tooth counts make a gear train is checked by
    /// [`crate::Train::new`].
    pub fn parse(text: &str) -> Result<Self, Vec<Fault>> {
        if text.len() > limits::FILE_BYTES {
            return Err(vec![Fault::new(
                "file",
                format!("{} bytes is more than a scenario may have", text.len()),
                format!("keep it under {} bytes", limits::FILE_BYTES),
            )]);
        }
        // Some editors begin a file with a byte order mark.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let Strict(value) = serde_json::from_str(text).map_err(|error| vec![not_json(&error)])?;
        let mut faults = Vec::new();
        let scenario = outermost(value, &mut faults);
        faults.truncate(MOST_FAULTS);
        scenario.filter(|_| faults.is_empty()).ok_or(faults)
    }
}

/// Reads the outermost object; `None` after noting faults that keep it from having any parts.
fn outermost(value: Value, faults: &mut Vec<Fault>) -> Option<Scenario> {
    let names = ["format", "name", "input", "output", "shafts", "couplings"];
    let spare = ["about", "elements", "ranges", "engine", "converter", "load"];
    let mut fields = Fields::of(value, "", &names, &spare, faults)?;
    let format: Value = fields.take("format")?;
    if format != FORMAT {
        // Another format may have other fields: nothing else is said about it.
        *faults = vec![Fault::new(
            "format",
            format!("{format} is not a format this version reads"),
            format!("write \"format\": {FORMAT}"),
        )];
        return None;
    }
    let name = fields.take("name");
    let about = fields.take_spare("about");
    let input = fields.take("input");
    let output = fields.take("output");
    let shafts = fields.take("shafts");
    let couplings = fields.take("couplings");
    let elements = fields.take_spare("elements");
    let ranges = fields.take_spare("ranges");
    let engine = fields.take_spare("engine");
    let converter = fields.take_spare("converter");
    let load = fields.take_spare("load");
    let shafts = items(shafts?, "shafts", limits::SHAFTS, faults);
    let couplings = items(couplings?, "couplings", limits::COUPLINGS, faults);
    let elements = items(
        elements?.unwrap_or_default(),
        "elements",
        limits::ELEMENTS,
        faults,
    );
    let ranges = items(
        ranges?.unwrap_or_default(),
        "ranges",
        limits::RANGES,
        faults,
    );
    Some(Scenario {
        format: FORMAT,
        name: name?,
        about: about?.unwrap_or_default(),
        input: input?,
        output: output?,
        shafts,
        couplings,
        elements,
        ranges,
        engine: engine?,
        converter: converter?,
        load: load?,
    })
}

/// Reads the items of one of the outermost lists, unless there are more than it may have.
fn items<T: Read>(items: Vec<Value>, name: &str, most: usize, faults: &mut Vec<Fault>) -> Vec<T> {
    if items.len() > most {
        faults.push(Fault::new(
            name,
            format!("{} entries are more than the {most} allowed", items.len()),
            format!("keep at most {most}"),
        ));
        return Vec::new();
    }
    list(items, name, faults)
}

fn not_json(error: &serde_json::Error) -> Fault {
    let place = format!("line {}, column {}", error.line(), error.column());
    if error.is_eof() {
        return Fault::new(
            place,
            "the file ends too early",
            "check that it was copied whole",
        );
    }
    // The position is the fault's place already; serde_json repeats it at the end.
    let text = error.to_string();
    let problem = text.split(" at line ").next().unwrap_or(&text).to_owned();
    Fault::new(
        place,
        format!("not JSON ({problem})"),
        "mend the JSON at that place",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_fault(text: &str, place: &str, problem: &str) {
        let faults = Scenario::parse(text).err().unwrap_or_default();
        assert!(
            faults
                .iter()
                .any(|fault| fault.place == place && fault.problem.contains(problem)),
            "expected {place:?} {problem:?}, found {faults:#?}"
        );
    }

    const HEAD: &str = r#""format":1,"name":"n","input":"a","output":"b""#;

    #[test]
    fn faults_say_where() {
        check_fault("{", "line 1, column 1", "ends too early");
        check_fault("{\n nope}", "line 2, column 2", "not JSON");
        check_fault("\u{feff}[1]", "file", "not an object");
        check_fault("[1]", "file", "not an object");
        check_fault("null", "file", "not an object");
        check_fault(
            "{\"a\": 1,\n \"a\": 2}",
            "line 2, column 4",
            "stands here twice",
        );
        check_fault(r#"{"format":1}"#, "file", "missing field");
        check_fault(r#"{"format":2}"#, "format", "2 is not a format");
        check_fault(
            &format!("{{{HEAD},\"shafts\":[],\"couplings\":[]}}").replace(":1,", ":7,"),
            "format",
            "7 is not a format",
        );
        check_fault(
            &format!("{{{HEAD},\"extra\":1}}"),
            "extra",
            "unknown field `extra`",
        );
        check_fault(&" ".repeat(limits::FILE_BYTES + 1), "file", "65537 bytes");
    }

    #[test]
    fn every_item_is_read_and_named() {
        let text = format!(
            r#"{{{HEAD},"shafts":[{{"id":"a"}},{{"id":3,"label":"x"}}],
            "couplings":[{{"kind":"gear-pair","id":"g","label":"G","mesh":"external",
              "first":{{"shaft":"a","teeth":-3}},"second":{{"shaft":"b","teeth":20}}}},
              {{"kind":"worm","id":"w"}},{{"id":"x"}},7],
            "elements":[{{"kind":"brake","id":"A","label":"A"}}],"ranges":[]}}"#
        );
        check_fault(&text, "shafts[0]", "missing field `label`");
        check_fault(&text, "shafts[1].id", "not a text: 3");
        check_fault(&text, "couplings[0].first.teeth", "-3");
        check_fault(&text, "couplings[1].kind", "\"worm\" is not a kind");
        check_fault(&text, "couplings[2].kind", "missing");
        check_fault(&text, "couplings[3]", "not an object");
        check_fault(
            &format!(
                r#"{{{HEAD},"shafts":[["in","Input"]],"couplings":[{{"kind":"planetary","sun":["in",30]}}]}}"#
            ),
            "couplings[0].sun",
            "not an object: a list",
        );
        check_fault(&text, "elements[0]", "missing field `shaft`");
    }

    #[test]
    fn friction_data_name_their_field() {
        let with = |friction: &str| {
            format!(
                r#"{{{HEAD},"shafts":[],"couplings":[],"elements":[
                {{"kind":"brake","id":"A","label":"A","shaft":"a","friction":{friction}}}]}}"#
            )
        };
        let good = r#"{"surfaces":8,"outer_radius":70,"inner_radius":55.5,"coefficient":0.1,"clamp_force":9000}"#;
        assert!(Scenario::parse(&with(good)).is_ok());
        let place = "elements[0].friction";
        check_fault(&with("null"), place, "not an object: null");
        check_fault(&with("{}"), place, "missing field `surfaces`");
        let bad = |from: &str, to: &str| with(&good.replace(from, to));
        let unknown = bad("coefficient", "mu");
        check_fault(&unknown, &format!("{place}.mu"), "unknown field");
        check_fault(&bad("8", "8.5"), &format!("{place}.surfaces"), "8.5");
        check_fault(
            &bad("70", "\"70\""),
            &format!("{place}.outer_radius"),
            "not a number: \"70\"",
        );
    }
}
