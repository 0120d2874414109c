//! What the browser tests need to be told.

use std::env;
use std::path::PathBuf;

use anyhow::{Context, Result};
use xtask::test_environment::{CHROMEDRIVER, CHROMIUM, HEADLESS_SHELL, SITE};

/// Set by whoever wants the tests without the browser.
pub const SKIP: &str = "LEVERTRAIN_SKIP_BROWSER";

/// Where the site and the programs are.
pub(super) struct Environment {
    pub(super) site: PathBuf,
    pub(super) chromium: PathBuf,
    /// Chromium without windows, where it is to be had.
    pub(super) shell: Option<PathBuf>,
    pub(super) driver: PathBuf,
}

impl Environment {
    pub(super) fn read() -> Result<Self> {
        Ok(Self {
            site: required(SITE)?,
            chromium: required(CHROMIUM)?,
            shell: env::var_os(HEADLESS_SHELL).map(PathBuf::from),
            driver: required(CHROMEDRIVER)?,
        })
    }
}

/// Whether the browser is to be left out; says so when it is.
pub fn skipped() -> bool {
    let skipped = env::var_os(SKIP).is_some_and(|value| !value.is_empty());
    if skipped {
        eprintln!("skipped, as {SKIP} is set");
    }
    skipped
}

/// The path in an environment variable.
///
/// # Errors
/// The variable is not set.
pub fn required(name: &str) -> Result<PathBuf> {
    let value = env::var_os(name).filter(|value| !value.is_empty());
    value.map(PathBuf::from).with_context(|| {
        format!(
            "{name} is not set: run the browser tests with `cargo xtask test`, \
             or leave them out with {SKIP}=1"
        )
    })
}
