//! The files of the repository that tests read.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

/// A scenario file.
#[derive(Debug, Clone)]
pub struct ScenarioFile {
    /// Its name without `.json`.
    pub stem: String,
    /// Where it is.
    pub path: PathBuf,
    /// What it holds.
    pub text: String,
}

/// The folder of the repository.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The folder of the scenarios.
pub fn scenario_folder() -> PathBuf {
    root().join("scenarios")
}

/// Every scenario, in file-name order.
///
/// # Errors
/// The folder or a file in it cannot be read, or there is none.
pub fn scenarios() -> Result<Vec<ScenarioFile>> {
    let scenarios: Vec<ScenarioFile> = json_files(&scenario_folder())?
        .into_iter()
        .filter(|file| !is_schema(file) && file.stem != "index")
        .collect();
    if scenarios.is_empty() {
        bail!("{} holds no scenario", scenario_folder().display());
    }
    Ok(scenarios)
}

/// The JSON Schema of scenario files.
///
/// # Errors
/// The file cannot be read, or there is not exactly one.
pub fn schema() -> Result<ScenarioFile> {
    let mut files = json_files(&scenario_folder())?;
    files.retain(is_schema);
    match <[ScenarioFile; 1]>::try_from(files) {
        Ok([schema]) => Ok(schema),
        Err(files) => bail!(
            "{} holds {} schemas instead of one",
            scenario_folder().display(),
            files.len()
        ),
    }
}

fn is_schema(file: &ScenarioFile) -> bool {
    file.stem.ends_with("schema")
}

/// The JSON files directly in `folder`, in file-name order.
///
/// # Errors
/// The folder or one of the files cannot be read.
pub fn json_files(folder: &Path) -> Result<Vec<ScenarioFile>> {
    let entries = fs::read_dir(folder)
        .with_context(|| format!("cannot read the folder {}", folder.display()))?;
    let mut files = Vec::new();
    for entry in entries {
        let path = entry?.path();
        if path.extension().is_none_or(|extension| extension != "json") {
            continue;
        }
        let text =
            fs::read_to_string(&path).with_context(|| format!("cannot read {}", path.display()))?;
        let stem = path.file_stem().unwrap_or_default();
        files.push(ScenarioFile {
            stem: stem.to_string_lossy().into_owned(),
            path,
            text,
        });
    }
    files.sort_by(|a, b| a.stem.cmp(&b.stem));
    Ok(files)
}

/// The scripts of a folder and of those in it.
///
/// # Errors
/// It cannot be read.
pub fn scripts(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() {
            files.extend(scripts(&path)?);
        } else if path.extension().is_some_and(|own| own == "js") {
            files.push(path);
        }
    }
    Ok(files)
}
