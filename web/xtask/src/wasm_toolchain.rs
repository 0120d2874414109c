//! A compiler that can build for the browser's target, found or set up.
//!
//! In this order: the library for the target is already there; `rustup target add` brings it; the
//! system's own compiler builds it from source ([`SystemRust`]). If all fail, one message says why
//! and what can be done.

use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use anyhow::{Context, Result, anyhow, bail};

use crate::system_rust::{self, SystemRust};
use crate::{paths, process};

const TARGET: &str = "wasm32-unknown-unknown";

/// Unlike a compiler flag, this leaves what is already built as it is.
const DENY_WARNINGS: &str = "build.warnings='deny'";

/// A download of some 20 MB; where it is not through by then, other ways are quicker.
const RUSTUP_LIMIT: Duration = Duration::from_secs(90);

/// How to build for the browser's target.
#[derive(Debug)]
pub enum WasmToolchain {
    /// The toolchain that also builds everything else.
    Native,
    /// The system's compiler.
    System(SystemRust),
}

impl WasmToolchain {
    /// Finds a toolchain or sets one up, saying which.
    ///
    /// # Errors
    /// Nothing worked: the message says what was tried and the ways to put it right.
    pub fn set_up() -> Result<Self> {
        let (toolchain, how) = Self::find_or_install()?;
        println!("    {TARGET}: {how}");
        Ok(toolchain)
    }

    fn find_or_install() -> Result<(Self, &'static str)> {
        if target_is_installed()? {
            return Ok((Self::Native, "installed"));
        }
        // Once the system's compiler has served here, rustup need not fail anew on every run.
        if SystemRust::target_folder().is_dir()
            && let Ok(system) = SystemRust::find()
        {
            return Ok((Self::System(system), "the system's compiler, as before"));
        }
        let rustup = match add_target() {
            Ok(()) => return Ok((Self::Native, "added by rustup")),
            Err(error) => error,
        };
        println!("    rustup did not help ({rustup:#}); trying the system's packages");
        match SystemRust::find() {
            Ok(system) => return Ok((Self::System(system), "the system's compiler")),
            Err(missing) => println!("    {missing:#}"),
        }
        match SystemRust::install() {
            Ok(system) => Ok((
                Self::System(system),
                "the system's compiler, installed just now",
            )),
            Err(system) => Err(nothing_worked(&rustup, &system)),
        }
    }

    /// A cargo command for the target; arguments such as `--package` follow.
    pub fn cargo(&self, subcommand: &str) -> Command {
        let mut command = match self {
            Self::Native => {
                let mut command = process::cargo();
                command.arg(subcommand);
                command
            }
            Self::System(system) => system.cargo(subcommand),
        };
        command
            .current_dir(paths::root())
            .args(["--target", TARGET, "--target-dir"])
            .arg(self.target_folder());
        command
    }

    /// Checks the libraries of packages for the target, warnings being errors. The system's compiler
    /// comes without a linter, so there it is the compiler's own warnings, from the release build,
    /// which is mostly done already and spares another build of the library.
    ///
    /// # Errors
    /// The code does not compile or gives warnings.
    pub fn lint(&self, packages: &[&str]) -> Result<()> {
        let mut command = match self {
            Self::Native => self.cargo("clippy"),
            Self::System(_) => self.cargo("build"),
        };
        command.arg("--lib");
        for package in packages {
            command.args(["--package", package]);
        }
        match self {
            Self::Native => command.args(["--", "-D", "warnings"]),
            Self::System(_) => {
                command.args(["--release", "-Z", "warnings", "--config", DENY_WARNINGS])
            }
        };
        process::run(&mut command)
    }

    /// Where a release build leaves the file of this name.
    pub fn released(&self, file: &str) -> PathBuf {
        self.target_folder().join(TARGET).join("release").join(file)
    }

    fn target_folder(&self) -> PathBuf {
        match self {
            Self::Native => paths::target(),
            Self::System(_) => SystemRust::target_folder(),
        }
    }
}

fn target_is_installed() -> Result<bool> {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| OsString::from("rustc"));
    let mut command = Command::new(rustc);
    command
        .current_dir(paths::root())
        .args(["--print", "target-libdir", "--target", TARGET]);
    let folder = process::output(&mut command).context("cannot ask rustc about its targets")?;
    Ok(Path::new(&folder).is_dir())
}

fn add_target() -> Result<()> {
    let Some(rustup) = process::find("rustup") else {
        bail!("there is no rustup on the search path");
    };
    println!("    adding {TARGET} with rustup");
    let mut command = Command::new(rustup);
    command
        .current_dir(paths::root())
        .args(["target", "add", TARGET]);
    process::run_within(&mut command, RUSTUP_LIMIT)?;
    if !target_is_installed()? {
        bail!("rustup reported success, but this rustc still lacks the target");
    }
    Ok(())
}

fn nothing_worked(rustup: &anyhow::Error, system: &anyhow::Error) -> anyhow::Error {
    anyhow!(
        "the Rust target {TARGET} is missing and could not be set up\n\
         \x20 tried rustup: {rustup:#}\n\
         \x20 tried the system's packages: {system:#}\n\
         Any one of these puts it right:\n\
         \x20 1. with rustup and a network: rustup target add {TARGET}\n\
         \x20 2. on Debian or Ubuntu, as root: {by_hand}\n\
         \x20 3. any rustc {minimum} or newer first on the search path that has the target's library",
        by_hand = system_rust::INSTALL_BY_HAND,
        minimum = env!("CARGO_PKG_RUST_VERSION"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_message_names_the_target_the_reasons_and_three_ways() {
        let message = nothing_worked(&anyhow!("no network"), &anyhow!("not Debian")).to_string();
        for part in [
            TARGET,
            "no network",
            "not Debian",
            "1. with rustup",
            "2. on Debian",
            "3. any rustc",
        ] {
            assert!(message.contains(part), "{part:?} is not in: {message}");
        }
    }
}
