//! What the tests and benchmarks are told through environment variables.
//!
//! A test that needs one of these and does not find it was started without `cargo xtask`.

use std::process::Command;

use crate::browser::Browser;
use crate::oracle::Oracle;
use crate::other_engines::Engine;
use crate::paths;

/// The folder of the built site.
pub const SITE: &str = "LEVERTRAIN_SITE";
/// The folder of the cases the oracle computed.
pub const ORACLE: &str = "LEVERTRAIN_ORACLE";
/// The oracle's Python.
pub const PYTHON: &str = "LEVERTRAIN_PYTHON";
/// The accessibility checker, a script for the page.
pub const AXE: &str = "LEVERTRAIN_AXE";
/// The Chromium program. When set by the user, that one is used.
pub const CHROMIUM: &str = "LEVERTRAIN_CHROMIUM";
/// Chromium's headless shell, which most tests run in; not set where it cannot be had. When set by the user,
/// that one is used.
pub const HEADLESS_SHELL: &str = "LEVERTRAIN_HEADLESS_SHELL";
/// The chromedriver program. When set by the user, that one is used.
pub const CHROMEDRIVER: &str = "LEVERTRAIN_CHROMEDRIVER";

/// The Firefox program, and its server; neither is set where they cannot be had.
pub const FIREFOX: [&str; 2] = ["LEVERTRAIN_FIREFOX", "LEVERTRAIN_GECKODRIVER"];
/// WebKit's browser, and its server; neither is set where they cannot be had.
pub const WEBKIT: [&str; 2] = ["LEVERTRAIN_WEBKIT", "LEVERTRAIN_WEBKITDRIVER"];

/// Set when the oracle was left out, so that the tests that need it pass over it and say so.
pub const SKIP_ORACLE: &str = "LEVERTRAIN_SKIP_ORACLE";
/// Set when the browser was left out, so that the tests that need it pass over it and say so.
pub const SKIP_BROWSER: &str = "LEVERTRAIN_SKIP_BROWSER";

/// Hands down what has been set up or left out, and nothing that happens to be in our own
/// environment.
pub fn apply(
    command: &mut Command,
    browser: Option<&Browser>,
    [firefox, webkit]: [Option<&Engine>; 2],
    oracle: Option<&Oracle>,
) {
    for name in FIREFOX.iter().chain(&WEBKIT) {
        command.env_remove(name);
    }
    for ([program, server], engine) in [(FIREFOX, firefox), (WEBKIT, webkit)] {
        if let Some(Engine { browser, driver }) = engine {
            command.env(program, browser).env(server, driver);
        }
    }
    for name in [
        ORACLE,
        PYTHON,
        AXE,
        CHROMIUM,
        HEADLESS_SHELL,
        CHROMEDRIVER,
        SKIP_ORACLE,
        SKIP_BROWSER,
    ] {
        command.env_remove(name);
    }
    command.env(SITE, paths::site());
    match browser {
        Some(browser) => {
            command
                .env(CHROMIUM, &browser.chromium)
                .env(CHROMEDRIVER, &browser.driver);
            if let Some(shell) = &browser.shell {
                command.env(HEADLESS_SHELL, shell);
            }
        }
        None => {
            command.env(SKIP_BROWSER, "1");
        }
    }
    match oracle {
        Some(oracle) => {
            command
                .env(ORACLE, &oracle.folder)
                .env(PYTHON, &oracle.python)
                .env(AXE, &oracle.axe);
        }
        None => {
            command.env(SKIP_ORACLE, "1");
        }
    }
}
