//! The editor of a file's text: `web/editor` with its packages as one file of the site, and their licences.
//!
//! Its packages come from the npm registry, all of them at the versions of its lock file and with the content
//! whose digests stand there.

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result, bail};

use crate::bundle::Bundler;
use crate::node::Node;
use crate::paths;

/// The file of the site that the page imports.
pub const FILE: &str = "editor/editor.js";

/// The most it may weigh after gzip, in bytes.
pub const LIMIT: usize = 110_000;

const LICENCES: &str = "editor/LICENSES.txt";

/// What a site has in its place that was built without a bundler: the page then asks for nothing that is
/// not there, and its plain field stays.
const NONE: &str = "export {};\n";

/// Puts the editor into the site in `folder`, or none where there is no bundler or its packages cannot be
/// had: it says so, and whether there is one.
///
/// # Errors
/// A file cannot be written, or the editor does not fit its packages.
pub fn put_in(folder: &Path, bundler: Option<&Bundler>) -> Result<bool> {
    let file = folder.join(FILE);
    let room = file.parent().context("the editor has a folder")?;
    fs::create_dir_all(room).with_context(|| format!("cannot create {}", room.display()))?;
    let packages = bundler.and_then(|bundler| match packages(&bundler.node) {
        Ok(packages) => Some((bundler, packages)),
        Err(error) => {
            println!("    no packages of the editor: {error:#}");
            None
        }
    });
    let Some((bundler, packages)) = packages else {
        println!("    a file's text has a plain field: with Node.js and npm it has an editor");
        fs::write(&file, NONE).with_context(|| format!("cannot write {}", file.display()))?;
        return Ok(false);
    };
    bundler.bundle(&source().join("editor.js"), &file, Some(&packages))?;
    let licences = licences(&packages)?;
    let file = folder.join(LICENCES);
    fs::write(&file, licences).with_context(|| format!("cannot write {}", file.display()))?;
    Ok(true)
}

/// The folder of what the editor is made of.
pub fn source() -> PathBuf {
    paths::root().join("web").join("editor")
}

/// The folder that its packages are in, installed unless they are there already.
///
/// # Errors
/// They cannot be had.
pub fn packages(node: &Node) -> Result<PathBuf> {
    node.locked(&source(), "editor")
}

/// The licence of every package, one after the other.
fn licences(packages: &Path) -> Result<String> {
    let mut folders = Vec::new();
    for entry in fs::read_dir(packages)? {
        let entry = entry?;
        let name = entry.file_name().to_string_lossy().into_owned();
        match name.chars().next() {
            Some('@') => {
                for inner in fs::read_dir(entry.path())? {
                    let inner = inner?;
                    let own = inner.file_name();
                    folders.push((format!("{name}/{}", own.to_string_lossy()), inner.path()));
                }
            }
            Some('.') | None => {}
            Some(_) if entry.path().is_dir() => folders.push((name, entry.path())),
            Some(_) => {}
        }
    }
    folders.sort();
    let mut texts = String::new();
    for (name, folder) in &folders {
        let file = folder.join("LICENSE");
        let text = fs::read_to_string(&file)
            .with_context(|| format!("{name} has no licence: {}", file.display()))?;
        writeln!(texts, "{name}\n\n{}\n", text.trim())?;
    }
    if texts.is_empty() {
        bail!("{} holds no package", packages.display());
    }
    Ok(texts)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn without_a_bundler_there_is_a_module_that_has_no_editor() -> Result<()> {
        let folder = scratch("no-editor")?;
        assert!(!put_in(&folder, None)?);
        assert_eq!(fs::read_to_string(folder.join(FILE))?, "export {};\n");
        assert!(!folder.join(LICENCES).exists());
        Ok(())
    }

    #[test]
    fn every_package_has_its_licence_in_the_site_or_is_named() -> Result<()> {
        let folder = scratch("licences")?;
        for (package, text) in [("b", "Text of b\n"), ("@scope/a", "Text of a\n")] {
            fs::create_dir_all(folder.join(package))?;
            fs::write(folder.join(package).join("LICENSE"), text)?;
        }
        fs::write(folder.join(".package-lock.json"), "{}")?;
        assert_eq!(
            licences(&folder)?,
            "@scope/a\n\nText of a\n\nb\n\nText of b\n\n"
        );
        fs::create_dir(folder.join("c"))?;
        let message = licences(&folder).map_err(|error| error.to_string());
        assert!(message.is_err_and(|message| message.contains("c has no licence")));
        Ok(())
    }

    /// Each package by name, exact version and digest, and from whichever registry is the client's own.
    #[test]
    fn all_its_packages_are_pinned() -> Result<()> {
        let read = |name| -> Result<serde_json::Value> {
            Ok(serde_json::from_str(&fs::read_to_string(
                source().join(name),
            )?)?)
        };
        let (list, lock) = (read("package.json")?, read("package-lock.json")?);
        let direct = list["dependencies"].as_object().context("no packages")?;
        let all = lock["packages"].as_object().context("nothing locked")?;
        for (name, version) in direct {
            assert_eq!(&all[&format!("node_modules/{name}")]["version"], version);
        }
        for (name, package) in all.iter().filter(|(name, _)| !name.is_empty()) {
            assert!(package["integrity"].is_string(), "{name}");
            assert!(package["resolved"].is_null(), "{name}");
        }
        assert!(all.len() > direct.len(), "what packages need is not there");
        Ok(())
    }
}
