//! What the tests and benchmarks are told through environment variables.
//!
//! A test that needs one of these and does not find it was started without `cargo xtask`.

use std::process::Command;

use crate::browser::Browser;
use crate::oracle::Oracle;
use crate::paths;

/// The folder of the built site.
pub const SITE: &str = "LEVERTRAIN_SITE";
/// The folder of the cases the oracle computed.
pub const ORACLE: &str = "LEVERTRAIN_ORACLE";
/// The accessibility checker, a script for the page.
pub const AXE: &str = "LEVERTRAIN_AXE";
/// The Chromium program. When set by the user, that one is used.
pub const CHROMIUM: &str = "LEVERTRAIN_CHROMIUM";
/// The chromedriver program. When set by the user, that one is used.
pub const CHROMEDRIVER: &str = "LEVERTRAIN_CHROMEDRIVER";

/// Hands down what has been set up, and nothing that happens to be in our own environment.
pub fn apply(command: &mut Command, browser: Option<&Browser>, oracle: Option<&Oracle>) {
    for name in [ORACLE, AXE, CHROMIUM, CHROMEDRIVER] {
        command.env_remove(name);
    }
    command.env(SITE, paths::site());
    if let Some(browser) = browser {
        command
            .env(CHROMIUM, &browser.chromium)
            .env(CHROMEDRIVER, &browser.driver);
    }
    if let Some(oracle) = oracle {
        command.env(ORACLE, &oracle.folder).env(AXE, &oracle.axe);
    }
}
