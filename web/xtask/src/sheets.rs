//! The element's style sheets as one file: a browser that asks for one has all.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Names the others, one `@import` a line.
const ENTRY: &str = "element.css";

/// Puts each sheet that the entry in `folder` imports in the place of its line, and removes it.
///
/// # Errors
/// A sheet is missing or cannot be written.
pub fn join(folder: &Path) -> Result<()> {
    let entry = folder.join(ENTRY);
    let mut joined = String::new();
    for line in read(&entry)?.lines() {
        match imported(line) {
            Some(name) => {
                let file = folder.join(name);
                joined += &read(&file)?;
                fs::remove_file(&file)?;
            }
            None => joined += &format!("{line}\n"),
        }
    }
    fs::write(&entry, joined).with_context(|| format!("cannot write {}", entry.display()))
}

/// The file name in `@import "name";`.
fn imported(line: &str) -> Option<&str> {
    line.strip_prefix("@import \"")?.strip_suffix("\";")
}

fn read(file: &Path) -> Result<String> {
    fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn sheets_stand_in_the_order_of_their_lines() -> Result<()> {
        let folder = scratch("sheets")?;
        let files = [
            (
                ENTRY,
                "/* All */\n@import \"b.css\";\n@import \"a.css\";\n@media print {}\n",
            ),
            ("a.css", "a {}\n"),
            ("b.css", "b {}\n"),
        ];
        for (name, text) in files {
            fs::write(folder.join(name), text)?;
        }
        join(&folder)?;
        assert_eq!(
            read(&folder.join(ENTRY))?,
            "/* All */\nb {}\na {}\n@media print {}\n"
        );
        assert!(!folder.join("a.css").exists(), "a part is left behind");
        Ok(())
    }

    #[test]
    fn a_missing_sheet_is_named() -> Result<()> {
        let folder = scratch("missing-sheet")?;
        fs::write(folder.join(ENTRY), "@import \"lost.css\";\n")?;
        let message = join(&folder).map_err(|error| error.to_string());
        assert!(message.is_err_and(|message| message.contains("lost.css")));
        Ok(())
    }
}
