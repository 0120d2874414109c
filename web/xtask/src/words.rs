//! The sentences that the page and its engine speak, as a file of the site.

use std::path::Path;

use anyhow::{Context, Result};

/// The catalogue of a language, in the core and in the site.
pub const FILE: &str = "en.ftl";

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
        let file = scratch("words")?.join(FILE);
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
