//! A copy of the built site with files of a test's own in it.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};
use xtask::test_environment::SITE;

use super::environment::required;

/// Copies the built site into `folder`, replacing what is there, and adds files: name and text.
///
/// # Errors
/// There is no built site, or a file cannot be written.
pub fn make(folder: PathBuf, files: &[(&str, &str)]) -> Result<PathBuf> {
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    copy(&required(SITE)?, &folder)?;
    for (name, text) in files {
        let path = folder.join(name);
        fs::write(&path, text).with_context(|| format!("cannot write {}", path.display()))?;
    }
    Ok(folder)
}

fn copy(from: &Path, to: &Path) -> Result<()> {
    fs::create_dir_all(to)?;
    let entries = fs::read_dir(from).with_context(|| format!("cannot read {}", from.display()))?;
    for entry in entries {
        let entry = entry?;
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target)?;
        } else {
            fs::copy(entry.path(), target)?;
        }
    }
    Ok(())
}
