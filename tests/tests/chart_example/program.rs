//! The program, files for it, and what it may print.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use anyhow::{Result, ensure};
use levertrain_tests::sketch::Sketch;
use serde_json::Value;

/// The example's program, built by this package from the core's source.
pub fn program() -> Command {
    Command::new(env!("CARGO_BIN_EXE_chart"))
}

/// Runs the example on a file.
pub fn run(file: &Path, options: &[&str]) -> Result<Output> {
    Ok(program().arg(file).args(options).output()?)
}

/// What it prints when all is well: nothing on the error stream.
pub fn printed(file: &Path, options: &[&str]) -> Result<String> {
    let output = run(file, options)?;
    let errors = String::from_utf8_lossy(&output.stderr);
    ensure!(
        output.status.success() && errors.is_empty(),
        "{options:?}: {}: {errors}",
        output.status
    );
    Ok(String::from_utf8(output.stdout)?)
}

pub fn json_of(file: &Path, options: &[&str]) -> Result<Value> {
    let options = [options, &["--json"]].concat();
    Ok(serde_json::from_str(&printed(file, &options)?)?)
}

/// Checks that it ends with 2 and one line that holds `expected`.
pub fn check_refusal(output: &Output, expected: &str) -> Result<()> {
    let errors = String::from_utf8_lossy(&output.stderr);
    ensure!(
        output.status.code() == Some(2),
        "{}: {errors}",
        output.status
    );
    ensure!(output.stdout.is_empty(), "it printed as well: {errors}");
    ensure!(
        errors.ends_with('\n') && errors.trim_end().lines().count() == 1,
        "not one line: {errors:?}"
    );
    ensure!(
        !errors.chars().any(|c| c.is_control() && c != '\n'),
        "control characters: {errors:?}"
    );
    ensure!(errors.contains(expected), "{expected:?} is not in {errors}");
    ensure!(errors.chars().count() < 600, "too long: {errors}");
    Ok(())
}

/// A file of our own in the test folder of the build.
pub fn file(name: &str, text: &str) -> Result<PathBuf> {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    std::fs::write(&path, text)?;
    Ok(path)
}

/// One set with k = 4, the sun driven, the carrier delivering.
pub fn set() -> Sketch {
    Sketch::new("sun", "carrier")
        .planetary("set", ("sun", 20), ("ring", 80), "carrier", 30)
        .pinions(4)
        .brake("B", "ring")
        .clutch("C", "sun", "ring")
        .range("low", &["B"])
        .range("high", &["C"])
}

pub fn set_file(name: &str) -> Result<PathBuf> {
    file(name, &set().to_json().to_string())
}
