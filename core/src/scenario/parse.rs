//! Reading a scenario file: JSON text in, a [`Scenario`] or every fault out.
//!
//! Each item of a list is read by itself, so one bad gear set does not hide the next fault,
//! and every fault carries the full path to the offending field.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer};
use serde_json::Value;

use super::strict::Strict;
use super::{Converter, Element, Engine, FORMAT, Load, Scenario, limits};
use crate::coupling::Coupling;
use crate::fault::{Fault, MOST_FAULTS};

/// The outermost object, its lists still unread.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Outline {
    format: Value,
    name: String,
    #[serde(default)]
    about: String,
    input: String,
    output: String,
    shafts: Vec<Value>,
    couplings: Vec<Value>,
    #[serde(default)]
    elements: Vec<Value>,
    #[serde(default)]
    ranges: Vec<Value>,
    #[serde(default, deserialize_with = "present")]
    engine: Option<Value>,
    #[serde(default, deserialize_with = "present")]
    converter: Option<Value>,
    #[serde(default, deserialize_with = "present")]
    load: Option<Value>,
}

/// A field that may be left out; `null` is not the same as leaving it out.
pub(super) fn present<'de, D, T>(deserializer: D) -> Result<Option<T>, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de>,
{
    T::deserialize(deserializer).map(Some)
}

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
        let value = object(value, "file").map_err(|fault| vec![fault])?;
        let outline: Outline = typed(value, "").map_err(|fault| vec![fault])?;
        if outline.format != FORMAT {
            return Err(vec![Fault::new(
                "format",
                format!("{} is not a format this version reads", outline.format),
                format!("write \"format\": {FORMAT}"),
            )]);
        }

        let mut faults = Vec::new();
        let scenario = Self {
            format: FORMAT,
            name: outline.name,
            about: outline.about,
            input: outline.input,
            output: outline.output,
            shafts: list(outline.shafts, "shafts", limits::SHAFTS, &mut faults, typed),
            couplings: list(
                outline.couplings,
                "couplings",
                limits::COUPLINGS,
                &mut faults,
                Coupling::from_value,
            ),
            elements: list(
                outline.elements,
                "elements",
                limits::ELEMENTS,
                &mut faults,
                Element::from_value,
            ),
            ranges: list(outline.ranges, "ranges", limits::RANGES, &mut faults, typed),
            engine: outline.engine.and_then(|x| Engine::read(x, &mut faults)),
            converter: outline
                .converter
                .and_then(|x| Converter::read(x, &mut faults)),
            load: outline.load.and_then(|x| Load::read(x, &mut faults)),
        };
        faults.truncate(MOST_FAULTS);
        if faults.is_empty() {
            Ok(scenario)
        } else {
            Err(faults)
        }
    }
}

/// Reads each item of a list, collecting the faults of all of them.
fn list<T>(
    items: Vec<Value>,
    name: &str,
    most: usize,
    faults: &mut Vec<Fault>,
    read: impl Fn(Value, &str) -> Result<T, Fault>,
) -> Vec<T> {
    if items.len() > most {
        faults.push(Fault::new(
            name,
            format!("{} entries are more than the {most} allowed", items.len()),
            format!("keep at most {most}"),
        ));
        return Vec::new();
    }
    let mut read_items = Vec::with_capacity(items.len());
    for (index, item) in items.into_iter().enumerate() {
        let place = format!("{name}[{index}]");
        match object(item, &place).and_then(|item| read(item, &place)) {
            Ok(item) => read_items.push(item),
            Err(fault) => faults.push(fault),
        }
    }
    read_items
}

/// An object whose lists, if it has any, hold only text: the only lists inside an item are of
/// ids. Without this an array of the right length would pass for an object.
fn object(value: Value, place: &str) -> Result<Value, Fault> {
    let Value::Object(fields) = &value else {
        return Err(Fault::new(place, "not an object", "write it in { }"));
    };
    // The lists of the outermost object hold the items, which are looked at one by one.
    let outermost = place == "file";
    for (key, field) in fields {
        if let Value::Array(items) = field
            && !outermost
            && !items.iter().all(Value::is_string)
        {
            let problem = "a list that holds more than ids";
            return Err(Fault::new(
                format!("{place}.{key}"),
                problem,
                "write an object in { }",
            ));
        }
    }
    Ok(value)
}

/// Takes the `kind` of an item, which is a `what`, out of its fields.
pub(crate) fn tagged(
    item: Value,
    place: &str,
    what: &str,
    kinds: &[&str],
) -> Result<(String, Value), Fault> {
    let Value::Object(mut fields) = item else {
        return Err(Fault::new(place, "not an object", "write it in { }"));
    };
    match fields.remove("kind") {
        Some(Value::String(kind)) if kinds.contains(&kind.as_str()) => {
            Ok((kind, Value::Object(fields)))
        }
        Some(Value::String(kind)) => Err(unknown_kind(&kind, place, what, kinds)),
        Some(other) => Err(kind_fault(place, format!("{other} is not text"), kinds)),
        None => Err(kind_fault(place, "missing".to_owned(), kinds)),
    }
}

/// The fault of a `kind` that no `what` has.
pub(crate) fn unknown_kind(kind: &str, place: &str, what: &str, kinds: &[&str]) -> Fault {
    kind_fault(place, format!("\"{kind}\" is not a kind of {what}"), kinds)
}

fn kind_fault(place: &str, problem: String, kinds: &[&str]) -> Fault {
    let fix = format!("use one of {}", kinds.join(", "));
    Fault::new(format!("{place}.kind"), problem, fix)
}

/// Reads one value as `T`, naming the path below `place` that does not fit.
pub(crate) fn typed<T: DeserializeOwned>(value: Value, place: &str) -> Result<T, Fault> {
    serde_path_to_error::deserialize(value).map_err(|error| {
        let inner = error.path().to_string();
        let path = match (place.is_empty(), inner.as_str()) {
            (true, ".") => "file".to_owned(),
            (true, inner) => inner.to_owned(),
            (false, ".") => place.to_owned(),
            (false, inner) => format!("{place}.{inner}"),
        };
        let problem = error.into_inner().to_string();
        let fix = fix_for(&problem);
        Fault::new(path, problem, fix)
    })
}

/// What mends a fault that the deserializer found, by the way its message begins.
fn fix_for(problem: &str) -> &'static str {
    const FIXES: &[(&str, &str)] = &[
        ("missing field", "add it"),
        ("unknown field", "remove it, or correct its name"),
        ("unknown variant", "use one of the names given"),
        ("invalid type", "write the kind of value that was expected"),
        ("invalid length", "write as many values as were expected"),
    ];
    let known = FIXES.iter().find(|(start, _)| problem.starts_with(start));
    known.map_or("write a value that is allowed there", |(_, fix)| fix)
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
        check_fault(r#"{"format":2}"#, "file", "missing field");
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
        check_fault(&text, "shafts[1].id", "invalid type");
        check_fault(&text, "couplings[0].first.teeth", "-3");
        check_fault(&text, "couplings[1].kind", "\"worm\" is not a kind");
        check_fault(&text, "couplings[2].kind", "missing");
        check_fault(&text, "couplings[3]", "not an object");
        check_fault(
            &format!(
                r#"{{{HEAD},"shafts":[["in","Input"]],"couplings":[{{"kind":"planetary","sun":["in",30]}}]}}"#
            ),
            "couplings[0].sun",
            "a list that holds more than ids",
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
        check_fault(&with("null"), place, "invalid type");
        check_fault(&with("{}"), place, "missing field `surfaces`");
        let bad = |from: &str, to: &str| with(&good.replace(from, to));
        let unknown = bad("coefficient", "mu");
        check_fault(&unknown, &format!("{place}.mu"), "unknown field");
        check_fault(&bad("8", "8.5"), &format!("{place}.surfaces"), "8.5");
        check_fault(
            &bad("70", "\"70\""),
            &format!("{place}.outer_radius"),
            "expected f64",
        );
    }
}
