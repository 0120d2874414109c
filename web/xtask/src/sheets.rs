//! The element's style sheets as few files: one that a first view takes, one with what panels need besides.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

/// Each names others, one `@import` a line.
const ENTRIES: [&str; 2] = ["element.css", "panels.css"];

/// Puts each sheet that an entry in `folder` imports in the place of its line, and removes it.
///
/// # Errors
/// A sheet is missing or cannot be written.
pub fn join(folder: &Path) -> Result<()> {
    ENTRIES
        .iter()
        .try_for_each(|entry| join_into(&folder.join(entry), folder))
}

fn join_into(entry: &Path, folder: &Path) -> Result<()> {
    let mut joined = String::new();
    for line in read(entry)?.lines() {
        match imported(line) {
            Some(name) => {
                let file = folder.join(name);
                joined += &read(&file)?;
                fs::remove_file(&file)?;
            }
            None => joined += &format!("{line}\n"),
        }
    }
    fs::write(entry, joined).with_context(|| format!("cannot write {}", entry.display()))
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
                ENTRIES[0],
                "/* All */\n@import \"b.css\";\n@import \"a.css\";\n@media print {}\n",
            ),
            ("a.css", "a {}\n"),
            ("b.css", "b {}\n"),
            (ENTRIES[1], "@import \"c.css\";\n"),
            ("c.css", "c {}\n"),
        ];
        for (name, text) in files {
            fs::write(folder.join(name), text)?;
        }
        join(&folder)?;
        assert_eq!(
            read(&folder.join(ENTRIES[0]))?,
            "/* All */\nb {}\na {}\n@media print {}\n"
        );
        assert_eq!(read(&folder.join(ENTRIES[1]))?, "c {}\n");
        assert!(!folder.join("a.css").exists(), "a part is left behind");
        Ok(())
    }

    #[test]
    fn a_missing_sheet_is_named() -> Result<()> {
        let folder = scratch("missing-sheet")?;
        fs::write(folder.join(ENTRIES[0]), "@import \"lost.css\";\n")?;
        let message = join(&folder).map_err(|error| error.to_string());
        assert!(message.is_err_and(|message| message.contains("lost.css")));
        Ok(())
    }
}
