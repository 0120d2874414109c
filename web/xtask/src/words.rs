//! The sentences that the page and its engine speak, as a file of the site.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

/// What the names of catalogues end with, in the core and in the site.
const EXTENSION: &str = "ftl";

/// The catalogues of a folder.
///
/// # Errors
/// The folder cannot be read.
pub fn files(folder: &Path) -> Result<Vec<PathBuf>> {
    let entries = std::fs::read_dir(folder)
        .with_context(|| format!("cannot read the folder {}", folder.display()))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_some_and(|own| own == EXTENSION) {
            files.push(path);
        }
    }
    files.sort();
    Ok(files)
}

/// A catalogue without what it says to translators.
///
/// # Errors
/// It cannot be read, or has no message.
pub fn messages(file: &Path) -> Result<String> {
    let text =
        std::fs::read_to_string(file).with_context(|| format!("cannot read {}", file.display()))?;
    let lines = text
        .lines()
        .filter(|line| !line.is_empty() && !line.starts_with('#'));
    let messages: String = lines.map(|line| format!("{line}\n")).collect();
    anyhow::ensure!(!messages.is_empty(), "{} says nothing", file.display());
    Ok(messages)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn messages_stay_as_they_are_without_comments() -> Result<()> {
        let file = scratch("words")?.join("en.ftl");
        std::fs::write(
            &file,
            "# All\n\n## Part\nfree = { $count ->\n    [one] is # 1\n   *[other] are\n}\n",
        )?;
        assert_eq!(
            messages(&file)?,
            "free = { $count ->\n    [one] is # 1\n   *[other] are\n}\n"
        );
        std::fs::write(&file, "# All\n")?;
        assert!(messages(&file).is_err());
        Ok(())
    }
}
