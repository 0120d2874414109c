//! What the page's service worker keeps: every file of the site, with the digest of what is in it.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};
use base64::Engine as _;
use base64::prelude::BASE64_STANDARD;
use serde_json::{Map, Value, json};
use sha2::{Digest, Sha256};

/// The service worker, at the root of the site: it can keep only what is below it.
pub const FILE: &str = "service_worker.js";

const PAGE: &str = "index.html";

/// The list stands in the worker's first line.
const LIST: &str = "self.SITE = ";

/// Writes the list of all files of the site in `folder` into its service worker, in the place of an
/// earlier list. The version is a digest of the list.
///
/// # Errors
/// There is no service worker, or a file cannot be read or written.
pub fn list_files(folder: &Path) -> Result<()> {
    let mut files = Map::new();
    digest_below(folder, "", &mut files)?;
    let version = hex(&Sha256::digest(Value::Object(files.clone()).to_string()));
    let list = json!({ "version": version, "files": files });

    let worker = folder.join(FILE);
    let text =
        fs::read_to_string(&worker).with_context(|| format!("cannot read {}", worker.display()))?;
    let program = match text.split_once('\n') {
        Some((first, rest)) if first.starts_with(LIST) => rest,
        _ => &text,
    };
    fs::write(&worker, format!("{LIST}{list};\n{program}"))
        .with_context(|| format!("cannot write {}", worker.display()))
}

fn digest_below(folder: &Path, above: &str, files: &mut Map<String, Value>) -> Result<()> {
    let entries =
        fs::read_dir(folder).with_context(|| format!("cannot read {}", folder.display()))?;
    for entry in entries {
        let entry = entry?;
        let path = entry.path();
        let name = format!("{above}{}", entry.file_name().to_string_lossy());
        if path.is_dir() {
            digest_below(&path, &format!("{name}/"), files)?;
        } else if is_kept(&name) {
            let content =
                fs::read(&path).with_context(|| format!("cannot read {}", path.display()))?;
            let digest = BASE64_STANDARD.encode(Sha256::digest(content));
            // Some hosts send a reader of the page's file on to its folder.
            let name = if name == PAGE { "" } else { &name };
            files.insert(name.to_owned(), format!("sha256-{digest}").into());
        }
    }
    Ok(())
}

/// The worker is the browser's own business, and declarations are for people who write programs.
fn is_kept(name: &str) -> bool {
    name != FILE && !name.ends_with(".d.ts")
}

fn hex(digest: &[u8]) -> String {
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    fn list_in(folder: &Path) -> Result<Value> {
        let text = fs::read_to_string(folder.join(FILE))?;
        let (first, program) = text.split_once('\n').context("one line")?;
        assert_eq!(program, "program();\n");
        let list = first
            .strip_prefix(LIST)
            .and_then(|rest| rest.strip_suffix(';'))
            .context("no list")?;
        Ok(serde_json::from_str(list)?)
    }

    #[test]
    fn a_changed_file_is_another_version_and_the_same_files_are_not() -> Result<()> {
        let folder = scratch("offline")?;
        fs::create_dir(folder.join("kit"))?;
        let files = [
            (FILE, "program();\n"),
            (PAGE, "page"),
            // The digest of nothing at all is well known: FIPS 180-4's example values.
            ("kit/empty.js", ""),
            ("kit/types.d.ts", "types"),
        ];
        for (name, text) in files {
            fs::write(folder.join(name), text)?;
        }
        list_files(&folder)?;
        let first = list_in(&folder)?;
        let names: Vec<&String> = first["files"]
            .as_object()
            .context("no files")?
            .keys()
            .collect();
        assert_eq!(names, ["", "kit/empty.js"]);
        assert_eq!(
            first["files"]["kit/empty.js"],
            "sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU="
        );

        list_files(&folder)?;
        assert_eq!(list_in(&folder)?, first);

        fs::write(folder.join("kit/empty.js"), "no longer")?;
        list_files(&folder)?;
        assert_ne!(list_in(&folder)?["version"], first["version"]);
        Ok(())
    }
}
