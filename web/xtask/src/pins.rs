//! The wasm-bindgen library and its post-processor must be the same version.
//!
//! Both are pinned in the root manifest; this reads what cargo really chose from `Cargo.lock`, since
//! a difference otherwise shows only as an obscure failure of the post-processor.

use std::path::Path;

use anyhow::{Context, Result, bail};

const LIBRARY: &str = "wasm-bindgen";
const POST_PROCESSOR: &str = "wasm-bindgen-cli-support";

/// Checks the lock file of the repository at `root`.
///
/// # Errors
/// The file cannot be read, lacks one of the two, or has them at different versions.
pub fn check(root: &Path) -> Result<()> {
    let file = root.join("Cargo.lock");
    let lock = std::fs::read_to_string(&file)
        .with_context(|| format!("cannot read {}", file.display()))?;
    check_lock(&lock)
}

fn check_lock(lock: &str) -> Result<()> {
    let library = versions(lock, LIBRARY);
    let post_processor = versions(lock, POST_PROCESSOR);
    if library.len() != 1 || library != post_processor {
        bail!(
            "{LIBRARY} ({}) and {POST_PROCESSOR} ({}) must be one and the same version: \
             give both the same `=` pin in [workspace.dependencies] of Cargo.toml",
            list(&library),
            list(&post_processor),
        );
    }
    Ok(())
}

/// Every version of a package in a lock file, where cargo writes one key a line, name first.
fn versions<'lock>(lock: &'lock str, package: &str) -> Vec<&'lock str> {
    let value = |line: &'lock str, key: &str| {
        line.strip_prefix(key)?
            .trim()
            .strip_prefix("= \"")?
            .strip_suffix('"')
    };
    let mut inside = false;
    let mut found = Vec::new();
    for line in lock.lines() {
        if let Some(name) = value(line, "name") {
            inside = name == package;
        } else if let Some(version) = value(line, "version").filter(|_| inside) {
            found.push(version);
        }
    }
    found
}

fn list(versions: &[&str]) -> String {
    if versions.is_empty() {
        "not in Cargo.lock".into()
    } else {
        versions.join(" and ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lock(packages: &[(&str, &str)]) -> String {
        let package = |(name, version): &(&str, &str)| {
            format!(
                "[[package]]\nname = \"{name}\"\nversion = \"{version}\"\ndependencies = [\n \"wasm-bindgen\",\n]\n\n"
            )
        };
        format!(
            "version = 4\n\n{}",
            packages.iter().map(package).collect::<String>()
        )
    }

    #[test]
    fn equal_versions_pass() {
        let lock = lock(&[
            ("wasm-bindgen", "0.2.130"),
            ("wasm-bindgen-cli-support", "0.2.130"),
            ("wasm-bindgen-shared", "0.2.9"),
        ]);
        assert!(check_lock(&lock).is_ok());
    }

    #[test]
    fn a_difference_names_both_versions() {
        let lock = lock(&[
            ("wasm-bindgen", "0.2.130"),
            ("wasm-bindgen-cli-support", "0.2.129"),
        ]);
        let message = match check_lock(&lock) {
            Ok(()) => panic!("a difference passed"),
            Err(error) => error.to_string(),
        };
        assert!(message.contains("wasm-bindgen (0.2.130)"), "{message}");
        assert!(
            message.contains("wasm-bindgen-cli-support (0.2.129)"),
            "{message}"
        );
    }

    #[test]
    fn a_second_version_or_a_missing_package_fails() {
        let second = lock(&[
            ("wasm-bindgen", "0.2.100"),
            ("wasm-bindgen", "0.2.130"),
            ("wasm-bindgen-cli-support", "0.2.130"),
        ]);
        let missing = lock(&[("wasm-bindgen", "0.2.130")]);
        let neither = lock(&[]);
        for lock in [second, missing, neither] {
            assert!(check_lock(&lock).is_err(), "{lock}");
        }
    }

    #[test]
    fn the_repository_agrees() {
        if let Err(error) = check(crate::paths::root()) {
            panic!("{error:#}");
        }
    }
}
