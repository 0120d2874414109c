//! The scenarios the page offers, in one file: a static host cannot list a folder, and a page that has
//! them all needs the network no more.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use serde_json::{Value, json};

/// The file the list is written to, beside the scenarios.
pub const FILE: &str = "index.json";

/// The folder of exercises beside them: a sheet has the name of its scenario.
pub const EXERCISES: &str = "exercises";

const SCHEMA: &str = "schema.json";

/// The JSON files directly in the scenario folder, in file-name order: scenarios and schema.
///
/// # Errors
/// The folder cannot be read, or one of its files has the name of the generated list.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    let entries = std::fs::read_dir(folder)
        .with_context(|| format!("cannot read the folder {}", folder.display()))?;
    for entry in entries {
        let path = entry?.path();
        if path.is_file()
            && path
                .extension()
                .is_some_and(|extension| extension == "json")
        {
            files.push(path);
        }
    }
    if let Some(clash) = files.iter().find(|path| path.ends_with(FILE)) {
        bail!(
            "{} would be overwritten by the generated list: rename it",
            clash.display()
        );
    }
    files.sort();
    Ok(files)
}

/// The list as JSON text: `[{"file": "…", "name": "…", "text": "…"}, …]` in the order given,
/// without the schema; `"exercises": true` where there is a sheet of them. The text is the file's own, as faults are told by its lines.
///
/// # Errors
/// A file cannot be read, is not JSON, or has no name; the message says which. Whether it is a
/// valid scenario is for the engine's own tests.
pub fn list(files: &[PathBuf]) -> Result<String> {
    let mut entries = Vec::new();
    for path in files {
        let file = path
            .file_name()
            .and_then(|name| name.to_str())
            .with_context(|| {
                format!(
                    "{}: a scenario's file name must be readable text",
                    path.display()
                )
            })?;
        if file == SCHEMA {
            continue;
        }
        let text = std::fs::read_to_string(path)
            .with_context(|| format!("cannot read {}", path.display()))?;
        let scenario: Value = serde_json::from_str(&text)
            .with_context(|| format!("{} is not JSON", path.display()))?;
        let Some(name) = scenario.get("name").and_then(Value::as_str) else {
            bail!("{} has no \"name\"", path.display());
        };
        let mut entry = json!({ "file": file, "name": name, "text": text });
        if path.with_file_name(EXERCISES).join(file).is_file() {
            entry["exercises"] = Value::from(true);
        }
        entries.push(entry);
    }
    if entries.is_empty() {
        bail!("there are no scenarios to list: the page would have nothing to show");
    }
    Ok(serde_json::to_string_pretty(&entries)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn scenarios_are_listed_by_file_name_and_schemas_left_out() -> Result<()> {
        let folder = scratch("index")?;
        std::fs::write(folder.join("b.json"), r#"{"name": "Second \"b\""}"#)?;
        std::fs::write(folder.join("a.json"), r#"{"name": "First"}"#)?;
        std::fs::write(folder.join("schema.json"), "{}")?;
        std::fs::write(folder.join("FORMAT.md"), "text")?;
        std::fs::create_dir(folder.join("bad"))?;
        std::fs::write(folder.join("bad/zero.json"), "{")?;
        std::fs::create_dir(folder.join(EXERCISES))?;
        std::fs::write(folder.join(EXERCISES).join("a.json"), "{}")?;

        let files = files(&folder)?;
        let names: Vec<_> = files.iter().filter_map(|path| path.file_name()).collect();
        assert_eq!(names, ["a.json", "b.json", "schema.json"]);
        let list: Value = serde_json::from_str(&list(&files)?)?;
        let expected = json!([
            {"file": "a.json", "name": "First", "text": "{\"name\": \"First\"}", "exercises": true},
            {"file": "b.json", "name": "Second \"b\"", "text": r#"{"name": "Second \"b\""}"#},
        ]);
        assert_eq!(list, expected);
        Ok(())
    }

    #[test]
    fn a_bad_file_is_named() -> Result<()> {
        let folder = scratch("bad-index")?;
        let rows = [
            ("cut.json", "{\"name\": "),
            ("nameless.json", "{}"),
            ("list.json", "[1]"),
        ];
        for (file, text) in rows {
            let path = folder.join(file);
            std::fs::write(&path, text)?;
            match list(&[path]) {
                Ok(list) => panic!("{file} gave {list}"),
                Err(error) => assert!(error.to_string().contains(file), "{error:#}"),
            }
        }
        Ok(())
    }

    #[test]
    fn a_file_in_the_lists_own_place_is_refused() -> Result<()> {
        let folder = scratch("clash")?;
        std::fs::write(folder.join(FILE), r#"{"name": "Mine"}"#)?;
        assert!(files(&folder).is_err());
        Ok(())
    }
}
