//! Browsers with other engines than Chromium's, each with its WebDriver server. They are tried where they
//! can be had: a step that cannot have one is left out, and says so.

use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::system_packages::SystemPackages;
use crate::{paths, process};

/// Firefox's server is in no package of Debian's, but its source is one of ours.
const GECKODRIVER: (&str, &str) = ("geckodriver", "0.37.1");

const WEBKIT_PACKAGES: [&str; 2] = ["webkit2gtk-driver", "xvfb"];

/// Where Debian keeps the libraries of its architectures.
const LIBRARIES: &str = "/usr/lib";

/// A browser and its server.
#[derive(Debug)]
pub struct Engine {
    /// The browser.
    pub browser: PathBuf,
    /// The server.
    pub driver: PathBuf,
}

/// Firefox, installed from the system's packages where it is missing.
///
/// # Errors
/// It, or its server, cannot be had.
pub fn firefox() -> Result<Engine> {
    let find = || process::find("firefox-esr").or_else(|| process::find("firefox"));
    let browser = found_or_installed(find, &["firefox-esr"])?;
    let driver = match process::find(GECKODRIVER.0) {
        Some(driver) => driver,
        None => geckodriver()?,
    };
    Ok(Engine { browser, driver })
}

/// WebKit's smallest browser, installed from the system's packages where it is missing.
///
/// # Errors
/// It, its server, or a screen that nobody sees cannot be had.
pub fn webkit() -> Result<Engine> {
    let driver = found_or_installed(
        || process::find("Xvfb").and_then(|_| process::find("WebKitWebDriver")),
        &WEBKIT_PACKAGES,
    )?;
    let browser = mini_browser(Path::new(LIBRARIES)).context("there is no MiniBrowser")?;
    Ok(Engine { browser, driver })
}

fn found_or_installed(find: impl Fn() -> Option<PathBuf>, packages: &[&str]) -> Result<PathBuf> {
    if let Some(found) = find() {
        return Ok(found);
    }
    let system = SystemPackages::find()?;
    system.update()?;
    system.install(packages)?;
    find().with_context(|| format!("{} did not bring it", packages.join(", ")))
}

/// Built once, from the registry that all our other packages come from.
fn geckodriver() -> Result<PathBuf> {
    let (name, version) = GECKODRIVER;
    let root = paths::target().join(format!("{name}-{version}"));
    let program = root
        .join("bin")
        .join(format!("{name}{}", std::env::consts::EXE_SUFFIX));
    if !program.is_file() {
        println!("    building {name} {version}");
        process::run(
            process::cargo()
                .args(["install", "--quiet", "--locked", "--debug"])
                .args([name, "--version", version, "--root"])
                .arg(&root)
                .env("CARGO_TARGET_DIR", root.join("build")),
        )?;
        std::fs::remove_dir_all(root.join("build"))?;
    }
    if !program.is_file() {
        bail!("{} is missing", program.display());
    }
    Ok(program)
}

/// It is beside the library, whose folder is named by architecture and version.
fn mini_browser(libraries: &Path) -> Option<PathBuf> {
    let folders = |folder: &Path| -> Vec<PathBuf> {
        let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
        entries.map(|entry| entry.path()).collect()
    };
    folders(libraries)
        .iter()
        .flat_map(|architecture| folders(architecture))
        .filter(|folder| {
            let name = folder.file_name().unwrap_or_default().to_string_lossy();
            name.starts_with("webkit")
        })
        .map(|folder| folder.join("MiniBrowser"))
        .find(|program| program.is_file())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn the_small_browser_is_found_beside_its_library() -> Result<()> {
        let folder = scratch("webkit")?;
        assert_eq!(mini_browser(&folder), None);
        let beside = folder.join("some-linux-gnu").join("webkitsome-4.1");
        std::fs::create_dir_all(&beside)?;
        assert_eq!(mini_browser(&folder), None);
        std::fs::write(beside.join("MiniBrowser"), "")?;
        assert_eq!(mini_browser(&folder), Some(beside.join("MiniBrowser")));
        Ok(())
    }
}
