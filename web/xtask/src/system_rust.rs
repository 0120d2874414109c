//! The Rust compiler of a Debian or Ubuntu system, used for wasm32 where rustup cannot help.
//!
//! Its packages carry no ready-made library for wasm32 but do carry the library's source, from which
//! cargo builds it (`-Z build-std`). That is an unstable option, so the compiler is told to accept
//! those; nothing in our own code depends on it.

use std::path::{Path, PathBuf};
use std::process::Command;

use anyhow::{Context, Result, bail};

use crate::{paths, process, system_packages::SystemPackages};

const CARGO: &str = "/usr/bin/cargo";
const RUSTC: &str = "/usr/bin/rustc";

/// The packages besides a linker.
const PACKAGES: [&str; 3] = ["rustc-web", "cargo-web", "rust-web-src"];

/// What one types to get all this by hand.
pub const INSTALL_BY_HAND: &str =
    "apt-get install --no-install-recommends rustc-web cargo-web rust-web-src lld-22";

/// A complete system compiler: cargo, rustc, the library's source and a linker.
#[derive(Debug)]
pub struct SystemRust {
    linker: PathBuf,
}

impl SystemRust {
    /// Looks for a complete and recent enough system compiler.
    ///
    /// # Errors
    /// Names the first part that is missing or too old.
    pub fn find() -> Result<Self> {
        for program in [CARGO, RUSTC] {
            if !Path::new(program).is_file() {
                bail!("{program} is missing");
            }
        }
        let version = process::output(system(RUSTC).arg("--version"))?;
        if !is_recent_enough(&version, env!("CARGO_PKG_RUST_VERSION")) {
            let needed = env!("CARGO_PKG_RUST_VERSION");
            bail!("{RUSTC} is \"{version}\", but {needed} or newer is needed");
        }
        let sysroot = process::output(system(RUSTC).args(["--print", "sysroot"]))?;
        let source = Path::new(&sysroot).join("lib/rustlib/src/rust/library/std/Cargo.toml");
        if !source.is_file() {
            bail!("the library source {} is missing", source.display());
        }
        Ok(Self {
            linker: find_linker().context("the linker wasm-ld is missing")?,
        })
    }

    /// Installs the packages, then looks again.
    ///
    /// # Errors
    /// Packages cannot be installed here, or what they bring is still not complete.
    pub fn install() -> Result<Self> {
        let packages = SystemPackages::find()?;
        packages.update()?;
        if let Some(missing) = PACKAGES.iter().find(|name| {
            packages
                .offers(name)
                .is_ok_and(|offers| !offers.iter().any(|offer| offer == *name))
        }) {
            bail!("this system offers no package {missing}");
        }
        let linker = newest_linker_package(&packages.offers("lld")?);
        packages.install(&[&PACKAGES[..], &[&linker]].concat())?;
        Self::find()
    }

    /// Its own output folder, so that two compilers never share artefacts.
    pub fn target_folder() -> PathBuf {
        paths::target().join("wasm-system")
    }

    /// A cargo command for the wasm32 target.
    pub fn cargo(&self, subcommand: &str) -> Command {
        let mut command = system(CARGO);
        command
            .env("RUSTC", RUSTC)
            .env("RUSTC_BOOTSTRAP", "1")
            .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", &self.linker)
            .args([subcommand, "-Z", "build-std=std,panic_abort"]);
        command
    }
}

/// A program of the system compiler, without what `cargo run` and rustup handed down: with it, the
/// wrong libraries are loaded, or rustup's compiler is started in its place.
fn system(program: &str) -> Command {
    const EXACT: [&str; 4] = [
        "CARGO",
        "RUSTFLAGS",
        "CARGO_ENCODED_RUSTFLAGS",
        "RUSTUP_TOOLCHAIN",
    ];
    const PREFIXES: [&str; 4] = ["RUSTC", "RUSTDOC", "CARGO_PKG_", "CARGO_MANIFEST_"];
    let mut command = process::foreign(program);
    for (name, _) in std::env::vars_os() {
        let text = name.to_string_lossy();
        if EXACT.contains(&&*text) || PREFIXES.iter().any(|prefix| text.starts_with(prefix)) {
            command.env_remove(&name);
        }
    }
    command
}

/// `rustc 1.96.0 (…)` against a minimum such as `1.95`.
fn is_recent_enough(version: &str, minimum: &str) -> bool {
    let major_minor = |text: &str| -> Option<(u32, u32)> {
        let mut parts = text.split('.');
        Some((parts.next()?.parse().ok()?, parts.next()?.parse().ok()?))
    };
    let found = version.split_whitespace().nth(1).and_then(major_minor);
    // Without a readable minimum nothing is recent enough; without a version neither.
    matches!((found, major_minor(minimum)), (Some(found), Some(minimum)) if found >= minimum)
}

/// `lld-22` rather than `lld-14`: an old linker does not know what a new compiler writes.
fn newest_linker_package(offers: &[String]) -> String {
    newest(offers.iter().map(|name| (name, name.strip_prefix("lld-"))))
        .cloned()
        .unwrap_or_else(|| "lld".into())
}

/// The linker of the newest LLVM, or one on the search path.
fn find_linker() -> Option<PathBuf> {
    let folders: Vec<PathBuf> = std::fs::read_dir("/usr/lib")
        .into_iter()
        .flatten()
        .flatten()
        .map(|entry| entry.path())
        .filter(|folder| folder.join("bin/wasm-ld").is_file())
        .collect();
    let named = folders.iter().map(|folder| {
        let name = folder.file_name().and_then(|name| name.to_str());
        (folder, name.and_then(|name| name.strip_prefix("llvm-")))
    });
    newest(named)
        .map(|folder| folder.join("bin/wasm-ld"))
        .or_else(|| process::find("wasm-ld"))
}

/// The item with the highest whole number beside it.
fn newest<'a, T>(items: impl Iterator<Item = (T, Option<&'a str>)>) -> Option<T> {
    items
        .filter_map(|(item, version)| Some((item, version?.parse::<u32>().ok()?)))
        .max_by_key(|(_, version)| *version)
        .map(|(item, _)| item)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_compare_as_numbers() {
        let rows = [
            ("rustc 1.96.0 (ac68faa20 2026-05-25)", "1.95", true),
            ("rustc 1.95.0", "1.95", true),
            ("rustc 1.100.1 (built from source)", "1.95", true),
            ("rustc 2.0.0", "1.95", true),
            ("rustc 1.63.0 (built from source)", "1.95", false),
            ("rustc", "1.95", false),
            ("", "1.95", false),
            ("rustc 1.96.0", "", false),
        ];
        for (version, minimum, expected) in rows {
            assert_eq!(
                is_recent_enough(version, minimum),
                expected,
                "{version:?} {minimum:?}"
            );
        }
    }

    #[test]
    fn the_newest_linker_on_offer_is_taken() {
        let rows: [(&[&str], &str); 3] = [
            (
                &["lld-9", "lld-22", "lld-14", "lldpad-dev", "lld-doc", "lld"],
                "lld-22",
            ),
            (&["lld", "lldb-19"], "lld"),
            (&[], "lld"),
        ];
        for (offers, expected) in rows {
            let offers: Vec<String> = offers.iter().map(|&name| name.into()).collect();
            assert_eq!(newest_linker_package(&offers), expected, "{offers:?}");
        }
    }
}
