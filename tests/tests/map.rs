//! The map for contributors (`DEVELOPERS.md`) against the tree: what it names is there, and no folder is left out.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use anyhow::{Result, ensure};
use levertrain_tests::files::root;

/// Files that are no part of the tree: a package has them.
const OF_A_PACKAGE: &[&str] = &["lesson.json", "sheet.json"];
/// What is built or fetched.
const MADE: &[&str] = &["target", "node_modules"];
/// What a name ends in that is a file's.
const ENDINGS: &[&str] = &[
    ".rs", ".js", ".mjs", ".ts", ".py", ".html", ".ftl", ".json", ".md", ".toml",
];

#[test]
fn what_the_map_names_is_there() -> Result<()> {
    let all = paths()?;
    let text = map()?;
    let missing: BTreeSet<&str> = names(&text)
        .filter(|name| is_path(name) && !OF_A_PACKAGE.contains(name))
        .filter(|name| !all.iter().any(|path| stands_for(name, path)))
        .collect();
    ensure!(missing.is_empty(), "not in the tree: {missing:?}");
    Ok(())
}

#[test]
fn every_folder_is_on_the_map() -> Result<()> {
    const DEEPEST: usize = 2;
    let text = map()?;
    let named: Vec<&str> = names(&text).collect();
    let all = paths()?;
    let folders = all.iter().filter(|path| root().join(path).is_dir());
    let left_out: Vec<&String> = folders
        .filter(|path| path.split('/').count() <= DEEPEST)
        .filter(|path| {
            let within = format!("{path}/");
            !named
                .iter()
                .any(|name| name == path || name.starts_with(&within))
        })
        .collect();
    ensure!(left_out.is_empty(), "not on the map: {left_out:?}");
    Ok(())
}

#[test]
fn names_are_told_from_other_code() {
    let text = "| `www/state` | `desk` and `cargo run -p x`, `view.rs` |\n    `no/name`, `pinned\n";
    let found: Vec<&str> = names(text).filter(|name| is_path(name)).collect();
    assert_eq!(found, ["www/state", "view.rs", "no/name"]);
    assert!(stands_for("draw/lever", "web/src/draw/lever"));
    assert!(stands_for(
        "www/learn/faults*.js",
        "www/learn/faults_effects.js"
    ));
    assert!(stands_for(
        "motions/turning",
        "core/exact/src/motions/turning.rs"
    ));
    assert!(!stands_for("lever.rs", "core/src/clever.rs"));
}

fn map() -> Result<String> {
    Ok(fs::read_to_string(root().join("DEVELOPERS.md"))?)
}

/// What stands between accents on one line.
fn names(text: &str) -> impl Iterator<Item = &str> {
    text.lines().flat_map(|line| {
        let parts: Vec<&str> = line.split('`').collect();
        // The last part has no accent behind it.
        let closed = parts.len().saturating_sub(1);
        parts.into_iter().take(closed).skip(1).step_by(2)
    })
}

/// Whether a name is that of a file or folder rather than other code.
fn is_path(name: &str) -> bool {
    let plain = |c: char| c.is_ascii_alphanumeric() || "/._-*".contains(c);
    let is_made = MADE.iter().any(|made| name.starts_with(made));
    let has_path = name.contains('/') || ENDINGS.iter().any(|ending| name.ends_with(ending));
    name.chars().all(plain) && has_path && !is_made
}

/// Whether a name is that of a path, or of its end; a module goes without its ending.
fn stands_for(name: &str, path: &str) -> bool {
    let name = name.trim_end_matches('/');
    let ends_in = |path: &str, end: &str| {
        let before = path.strip_suffix(end);
        before.is_some_and(|before| before.is_empty() || before.ends_with('/'))
    };
    if let Some((start, end)) = name.split_once('*') {
        return path.starts_with(start) && path.ends_with(end);
    }
    let module = path
        .strip_suffix(".rs")
        .or_else(|| path.strip_suffix(".js"));
    ends_in(path, name) || module.is_some_and(|module| ends_in(module, name))
}

/// All files and folders by their paths from the root, but for what is hidden or made.
fn paths() -> Result<Vec<String>> {
    let mut all = Vec::new();
    let top = root();
    add(&top, "", &mut all)?;
    Ok(all)
}

fn add(folder: &Path, within: &str, all: &mut Vec<String>) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with('.') || MADE.contains(&name.as_str()) {
            continue;
        }
        let path = format!("{within}{name}");
        if entry.file_type()?.is_dir() {
            add(&entry.path(), &format!("{path}/"), all)?;
        }
        all.push(path);
    }
    Ok(())
}
