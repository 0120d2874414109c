//! Tools from the npm registry, each at one version and in a folder of its own under `target/`.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};
use sha2::{Digest, Sha256};

use crate::system_packages::SystemPackages;
use crate::{paths, process};

const PACKAGES: [&str; 2] = ["nodejs", "npm"];

/// A package of the npm registry.
#[derive(Debug, Clone, Copy)]
pub struct Package {
    /// Its name.
    pub name: &'static str,
    /// The version that is taken, exactly.
    pub version: &'static str,
}

/// Node.js and its package manager.
#[derive(Debug)]
pub struct Node {
    node: PathBuf,
    npm: PathBuf,
}

impl Node {
    /// What is on the search path, if both are.
    pub fn find() -> Option<Self> {
        Some(Self {
            node: process::find("node")?,
            npm: process::find("npm")?,
        })
    }

    /// As [`Node::find`]; what is missing is installed from the system's packages.
    ///
    /// # Errors
    /// It is missing and cannot be installed.
    pub fn set_up() -> Result<Self> {
        if let Some(node) = Self::find() {
            return Ok(node);
        }
        println!("    Node.js is not on the search path");
        install().with_context(by_hand)?;
        Self::find().with_context(by_hand)
    }

    /// The folder of a package with all it needs, installed unless it is there already.
    ///
    /// # Errors
    /// The package cannot be had.
    pub fn package(&self, package: Package) -> Result<PathBuf> {
        let Package { name, version } = package;
        let folder = paths::target()
            .join("node")
            .join(format!("{name}-{version}"));
        let module = folder.join("node_modules").join(name);
        // Written last, so it is there only when everything before went well.
        let done = folder.join("installed");
        if !done.is_file() {
            println!("    installing {name} {version} from the npm registry");
            fs::create_dir_all(&folder)
                .with_context(|| format!("cannot create {}", folder.display()))?;
            process::run(
                process::foreign(&self.npm)
                    .current_dir(&folder)
                    .args(["install", "--silent", "--no-audit", "--no-fund"])
                    .args(["--no-package-lock", "--prefix"])
                    .arg(&folder)
                    .arg(format!("{name}@{version}")),
            )?;
            fs::write(&done, version)?;
        }
        if !module.is_dir() {
            bail!(
                "{} is missing: remove {} and try again",
                module.display(),
                folder.display()
            );
        }
        Ok(module)
    }

    /// The folder that the packages of a lock file are in, installed unless they are there already: exactly
    /// those, and none of their scripts is run. `source` holds the lists, `name` is what the folder is called.
    ///
    /// # Errors
    /// They cannot be had, or are not those.
    pub fn locked(&self, source: &Path, name: &str) -> Result<PathBuf> {
        let lists = ["package.json", "package-lock.json"];
        let mut digest = Sha256::new();
        for list in lists {
            let file = source.join(list);
            digest.update(
                fs::read(&file).with_context(|| format!("cannot read {}", file.display()))?,
            );
        }
        let mut version = String::new();
        for byte in &digest.finalize()[..6] {
            write!(version, "{byte:02x}")?;
        }
        let folder = paths::target()
            .join("node")
            .join(format!("{name}-{version}"));
        // Written last, so it is there only when everything before went well.
        let done = folder.join("installed");
        if !done.is_file() {
            println!("    installing packages of {name} from the npm registry");
            fs::create_dir_all(&folder)
                .with_context(|| format!("cannot create {}", folder.display()))?;
            for list in lists {
                fs::copy(source.join(list), folder.join(list))?;
            }
            self.install_locked(&folder)?;
            fs::write(&done, version)?;
        }
        Ok(folder.join("node_modules"))
    }

    fn install_locked(&self, folder: &Path) -> Result<()> {
        process::run(
            process::foreign(&self.npm)
                .current_dir(folder)
                .args(["ci", "--silent", "--no-audit", "--no-fund"])
                .arg("--ignore-scripts"),
        )
    }

    /// A command that runs a script.
    pub fn script(&self, script: &Path) -> std::process::Command {
        let mut command = process::foreign(&self.node);
        command.arg(script);
        command
    }
}

fn install() -> Result<()> {
    let packages = SystemPackages::find()?;
    packages.update()?;
    packages.install(&PACKAGES)
}

fn by_hand() -> String {
    format!(
        "the checks of the page's types need Node.js and npm: install them \
         (on Debian: apt-get install {}), or leave them out with --quick",
        PACKAGES.join(" ")
    )
}
