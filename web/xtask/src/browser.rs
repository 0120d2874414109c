//! The browser the tests drive: Chromium and its WebDriver server.
//!
//! Most tests run in Chromium's headless shell, where it can be had: the same engine and script machine
//! without the windows around them, which takes a third less of the machine.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::process;
use crate::system_packages::SystemPackages;
use crate::test_environment::{CHROMEDRIVER, CHROMIUM, HEADLESS_SHELL};

const PACKAGES: [&str; 2] = ["chromium", "chromium-driver"];

const SHELL_PACKAGE: &str = "chromium-headless-shell";
/// The program itself: what is on the search path is a script that starts it, and a driver that ends the
/// script leaves the program behind.
const SHELL: &str = "/usr/lib/chromium/chromium-headless-shell";

/// A browser and a driver that fit each other.
#[derive(Debug)]
pub struct Browser {
    /// The Chromium program.
    pub chromium: PathBuf,
    /// The same without windows, where there is one.
    pub shell: Option<PathBuf>,
    /// The chromedriver program.
    pub driver: PathBuf,
}

impl Browser {
    /// Takes what the environment names, else what is on the search path, else installs both from
    /// the system's packages.
    ///
    /// # Errors
    /// They are missing and cannot be installed, or their versions differ.
    pub fn set_up() -> Result<Self> {
        let mut browser = match Self::find() {
            Ok(browser) => browser,
            Err(missing) => {
                println!("    {missing:#}");
                install()
                    .and_then(|()| Self::find())
                    .with_context(by_hand)?
            }
        };
        browser.check_versions()?;
        browser.shell = browser
            .find_shell()
            .inspect_err(|missing| println!("    all tests run in Chromium itself: {missing:#}"))
            .ok();
        Ok(browser)
    }

    /// The headless shell of the same version, installed where it is missing.
    fn find_shell(&self) -> Result<PathBuf> {
        let shell = match find(HEADLESS_SHELL, &[]) {
            Err(_) if !Path::new(SHELL).is_file() => {
                let packages = SystemPackages::find()?;
                packages.update()?;
                packages.install(&[SHELL_PACKAGE])?;
                PathBuf::from(SHELL)
            }
            Err(_) => PathBuf::from(SHELL),
            Ok(named) => named,
        };
        let (own, driver) = (version(&shell)?, version(&self.driver)?);
        if major(&own) != major(&driver) {
            bail!("the headless shell is \"{own}\" but the driver is \"{driver}\"");
        }
        println!("    {own}, without windows, for most tests");
        Ok(shell)
    }

    fn find() -> Result<Self> {
        Ok(Self {
            chromium: find(CHROMIUM, &["chromium", "chromium-browser"])?,
            driver: find(CHROMEDRIVER, &["chromedriver"])?,
            shell: None,
        })
    }

    /// A driver refuses another major version of the browser, but says so only in its own log.
    fn check_versions(&self) -> Result<()> {
        let browser = version(&self.chromium)?;
        let driver = version(&self.driver)?;
        if major(&browser).is_none() || major(&browser) != major(&driver) {
            bail!("the browser is \"{browser}\" but its driver is \"{driver}\": install a pair");
        }
        println!("    {browser}, with its driver");
        Ok(())
    }
}

fn install() -> Result<()> {
    let packages = SystemPackages::find()?;
    packages.update()?;
    packages.install(&PACKAGES)
}

fn by_hand() -> String {
    format!(
        "the browser tests need Chromium and chromedriver: install them \
         (on Debian: apt-get install {}), or name them in {CHROMIUM} and {CHROMEDRIVER}, \
         or leave the browser out with --quick",
        PACKAGES.join(" ")
    )
}

fn find(variable: &str, names: &[&str]) -> Result<PathBuf> {
    if let Some(named) = std::env::var_os(variable).filter(|named| !named.is_empty()) {
        let path = PathBuf::from(named);
        if !path.is_file() {
            bail!("{variable} names {}, which is no file", path.display());
        }
        return Ok(path);
    }
    names
        .iter()
        .find_map(|name| process::find(name))
        .with_context(|| {
            format!("{variable} is not set, and the search path has none of {names:?}")
        })
}

fn version(program: &Path) -> Result<String> {
    process::output(process::foreign(program).arg("--version"))
}

/// `156` of `Chromium 156.0.8078.79 built on …`.
fn major(version: &str) -> Option<u32> {
    version
        .split_whitespace()
        .find_map(|word| word.split_once('.')?.0.parse().ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_major_version_is_the_first_dotted_number() {
        let rows = [
            (
                "Chromium 156.0.8078.79 built on Debian GNU/Linux 12 (bookworm)",
                Some(156),
            ),
            ("ChromeDriver 99.0.1 (abc)", Some(99)),
            ("no version", None),
            ("", None),
        ];
        for (text, expected) in rows {
            assert_eq!(major(text), expected, "{text:?}");
        }
    }
}
