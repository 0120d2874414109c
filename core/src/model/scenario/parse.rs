//! Reading a scenario file: JSON text in, a [`Scenario`] or every problem out.
//!
//! Each item of a list is read by itself, so one bad gear set does not hide the next problem,
//! and every problem carries the full path to the offending field.

use super::{FORMAT, OLDEST_FORMAT, Scenario, limits};
use crate::base::problem::{MOST_PROBLEMS, Problem};
use crate::json::{Fields, Read, Value, list, strict};

impl Scenario {
    /// Reads the text of a scenario file.
    ///
    /// # Errors
    /// Every problem found: text that is too long or is not JSON (with line and column), a wrong
    /// format number, unknown, missing or mistyped fields (with their path), and lists longer
    /// than [`limits`] allows. Whether the ids and tooth counts make a gear train is checked by
    /// [`crate::Train::new`].
    pub fn parse(text: &str) -> Result<Self, Vec<Problem>> {
        if text.len() > limits::FILE_BYTES {
            return Err(vec![Problem::of(
                "",
                (
                    "problem-too-many-bytes",
                    &[("found", &text.len().to_string())],
                ),
                (
                    "fix-fewer-bytes",
                    &[("most", &limits::FILE_BYTES.to_string())],
                ),
            )]);
        }
        // Some editors begin a file with a byte order mark.
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let value = strict(text).map_err(|problem| vec![problem])?;
        let mut problems = Vec::new();
        let scenario = outermost(value, &mut problems);
        problems.truncate(MOST_PROBLEMS);
        scenario.filter(|_| problems.is_empty()).ok_or(problems)
    }

    /// Reads one that is part of another file; problems are told by their places in the scenario.
    pub(crate) fn of_value(value: Value, problems: &mut Vec<Problem>) -> Option<Self> {
        outermost(value, problems)
    }
}

/// Reads the outermost object; `None` after noting problems that keep it from having any parts.
fn outermost(value: Value, problems: &mut Vec<Problem>) -> Option<Scenario> {
    let names = ["format", "name", "input", "output", "shafts", "couplings"];
    let spare = [
        "about",
        "housing_label",
        "elements",
        "ranges",
        "engine",
        "converter",
        "load",
        "dynamics",
        "vehicle",
        "sources",
    ];
    if let Value::Object(fields) = &value
        && fields.iter().any(|(name, _)| name == "tasks")
    {
        // Whoever opens the wrong kind of file is told so, rather than all that it lacks.
        problems.push(Problem::of(
            "tasks",
            ("problem-sheet", &[]),
            ("fix-sheet", &[]),
        ));
        return None;
    }
    let mut fields = Fields::of(value, "", &names, &spare, problems)?;
    let format: Value = fields.take("format")?;
    let known = (OLDEST_FORMAT..=FORMAT).any(|known| format == Value::Whole(known.into()));
    if !known {
        // Another format may have other fields: nothing else is said about it.
        *problems = vec![Problem::of(
            "format",
            ("problem-format", &[("found", &format.quoted())]),
            ("fix-format", &[("format", &FORMAT.to_string())]),
        )];
        return None;
    }
    let name = fields.take("name");
    let about = fields.take_spare("about");
    let housing_label = fields.take_spare("housing_label");
    let input = fields.take("input");
    let output = fields.take("output");
    let shafts = fields.take("shafts");
    let couplings = fields.take("couplings");
    let elements = fields.take_spare("elements");
    let ranges = fields.take_spare("ranges");
    let engine = fields.take_spare("engine");
    let converter = fields.take_spare("converter");
    let load = fields.take_spare("load");
    let dynamics = fields.take_spare("dynamics");
    let vehicle = fields.take_spare("vehicle");
    let sources = fields.take_spare("sources");
    let shafts = items(shafts?, "shafts", limits::SHAFTS, problems);
    let couplings = items(couplings?, "couplings", limits::COUPLINGS, problems);
    let elements = items(
        elements?.unwrap_or_default(),
        "elements",
        limits::ELEMENTS,
        problems,
    );
    let ranges = items(
        ranges?.unwrap_or_default(),
        "ranges",
        limits::RANGES,
        problems,
    );
    Some(Scenario {
        format: FORMAT,
        name: name?,
        about: about?.unwrap_or_default(),
        input: input?,
        output: output?,
        housing_label: housing_label?,
        shafts,
        couplings,
        elements,
        ranges,
        engine: engine?,
        converter: converter?,
        load: load?,
        dynamics: dynamics?,
        vehicle: vehicle?,
        sources: sources?,
    })
}

/// Reads the items of one of the outermost lists, unless there are more than it may have.
fn items<T: Read>(
    items: Vec<Value>,
    name: &str,
    most: usize,
    problems: &mut Vec<Problem>,
) -> Vec<T> {
    if items.len() > most {
        let (found, most) = (items.len().to_string(), most.to_string());
        problems.push(Problem::of(
            name,
            (
                "problem-too-many-entries",
                &[("found", &found), ("most", &most)],
            ),
            ("fix-keep-at-most", &[("most", &most)]),
        ));
        return Vec::new();
    }
    list(items, name, problems)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check_problem(text: &str, place: &str, what: &str) {
        let problems = Scenario::parse(text).err().unwrap_or_default();
        assert!(
            problems
                .iter()
                .any(|problem| problem.place == place && problem.what.contains(what)),
            "expected {place:?} {what:?}, found {problems:#?}"
        );
    }

    const HEAD: &str = r#""format":1,"name":"n","input":"a","output":"b""#;

    #[test]
    fn problems_say_where() {
        check_problem("{", "line 1, column 1", "ends too early");
        check_problem("{\n nope}", "line 2, column 2", "not JSON");
        check_problem("\u{feff}[1]", "file", "not an object");
        check_problem("[1]", "file", "not an object");
        check_problem("null", "file", "not an object");
        check_problem(
            "{\"a\": 1,\n \"a\": 2}",
            "line 2, column 4",
            "stands here twice",
        );
        check_problem(r#"{"format":1}"#, "file", "missing field");
        check_problem(r#"{"format":3}"#, "format", "3 is not a format");
        check_problem(
            &format!("{{{HEAD},\"shafts\":[],\"couplings\":[]}}").replace(":1,", ":7,"),
            "format",
            "7 is not a format",
        );
        check_problem(
            &format!("{{{HEAD},\"extra\":1}}"),
            "extra",
            "unknown field `extra`",
        );
        check_problem(&" ".repeat(limits::FILE_BYTES + 1), "file", "65537 bytes");
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
        check_problem(&text, "shafts[0]", "missing field `label`");
        check_problem(&text, "shafts[1].id", "not a text: 3");
        check_problem(&text, "couplings[0].first.teeth", "-3");
        check_problem(&text, "couplings[1].kind", "\"worm\" is not a kind");
        check_problem(&text, "couplings[2].kind", "missing");
        check_problem(&text, "couplings[3]", "not an object");
        check_problem(
            &format!(
                r#"{{{HEAD},"shafts":[["in","Input"]],"couplings":[{{"kind":"planetary","sun":["in",30]}}]}}"#
            ),
            "couplings[0].sun",
            "not an object: a list",
        );
        check_problem(&text, "elements[0]", "missing field `shaft`");
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
        check_problem(&with("null"), place, "not an object: null");
        check_problem(&with("{}"), place, "missing field `surfaces`");
        let bad = |from: &str, to: &str| with(&good.replace(from, to));
        let unknown = bad("coefficient", "mu");
        check_problem(&unknown, &format!("{place}.mu"), "unknown field");
        check_problem(&bad("8", "8.5"), &format!("{place}.surfaces"), "8.5");
        check_problem(
            &bad("70", "\"70\""),
            &format!("{place}.outer_radius"),
            "not a number: \"70\"",
        );
    }
}
