//! The page's modules as one file, so that a cold page asks for one instead of sixty, each after the
//! one that imports it.
//!
//! It is not split into chunks: of its 32 kB (gzip) the panels are 15, beside an engine of ten times that,
//! and as chunks with what they share they would be thirty requests. What a panel's module does still
//! happens only when the panel is first needed.

use std::fs;
use std::path::{Path, PathBuf};

use anyhow::{Context, Result};

use crate::node::{Node, Package};
use crate::{paths, process};

const ESBUILD: Package = Package {
    name: "esbuild",
    version: "0.28.2",
};

/// The module that imports all others of the page.
const ENTRY: &str = "element.js";

/// The page of a lesson in a course system.
const LESSON: &str = "lesson.js";

/// Modules that a page asks for only when somebody wants them: each a file of its own, with all that it imports.
/// What they share with the page they are handed.
const LATER: &[&str] = &["learn/handout_paper.js", "learn/in_class.js"];

/// The entry, the programs of workers and the page of a lesson, which have files of their own, and what comes later.
fn entries() -> impl Iterator<Item = &'static str> {
    [
        ENTRY,
        "walker.js",
        "finder.js",
        "layouter.js",
        "timer.js",
        LESSON,
    ]
    .into_iter()
    .chain(LATER.iter().copied())
}

/// Takes the bundler, the entry module, the file to write, which may be the same, and a folder of packages.
const SCRIPT: &str = "\
const [, , bundler, entry, outfile, ...nodePaths] = process.argv;
require(bundler).buildSync({
  entryPoints: [entry],
  outfile,
  nodePaths,
  allowOverwrite: true,
  bundle: true,
  format: 'esm',
  target: 'es2022',
  minify: true,
  legalComments: 'none',
  logLevel: 'warning',
});
";

/// The line of the page that has the modules fetched early.
const PRELOAD: &str = "<link rel=\"modulepreload\" href=\"element.js\">";

/// What makes one file of modules.
#[derive(Debug)]
pub struct Bundler {
    /// What runs it.
    pub node: Node,
    package: PathBuf,
}

impl Bundler {
    /// As far as there are Node.js and npm; it says what is missing.
    pub fn find() -> Option<Self> {
        let node = Node::find()?;
        match node.package(ESBUILD) {
            Ok(package) => Some(Self { node, package }),
            Err(error) => {
                println!("    no bundler: {error:#}");
                None
            }
        }
    }

    /// Writes a module with all that it imports into `out`; packages are looked for in a folder of theirs.
    ///
    /// # Errors
    /// The modules do not fit together, or a file cannot be written.
    pub fn bundle(&self, entry: &Path, out: &Path, packages: Option<&Path>) -> Result<()> {
        let script = paths::target().join("node").join("bundle.cjs");
        fs::write(&script, SCRIPT).with_context(|| format!("cannot write {}", script.display()))?;
        let mut command = self.node.script(&script);
        command.arg(&self.package).arg(entry).arg(out);
        process::run(command.args(packages))
    }
}

/// Makes the modules of the site in `folder` one where there is a bundler, and says so where not: then the
/// page names them all, so that they are fetched at once.
///
/// # Errors
/// As [`Bundler::bundle`].
pub fn make_one(folder: &Path, bundler: Option<&Bundler>) -> Result<()> {
    let Some(bundler) = bundler else {
        println!(
            "    the page's modules stay separate files: with Node.js and npm they become one"
        );
        return preload_all(folder);
    };
    for entry in entries() {
        let entry = folder.join(entry);
        bundler.bundle(&entry, &entry, None)?;
    }
    for module in modules(folder)? {
        if LATER.iter().any(|later| Path::new(later) == module) {
            continue;
        }
        fs::remove_file(folder.join(&module))?;
        if let Some(room) = folder.join(&module).parent() {
            // Fails while there is more in it.
            let _ = fs::remove_dir(room);
        }
    }
    Ok(())
}

/// Names every module in the page, so that none waits for the one that imports it.
///
/// # Errors
/// A file cannot be read or written.
pub fn preload_all(folder: &Path) -> Result<()> {
    let page = folder.join("index.html");
    let text =
        fs::read_to_string(&page).with_context(|| format!("cannot read {}", page.display()))?;
    let links: String = modules(folder)?
        .iter()
        .map(|module| {
            let link = PRELOAD.replace(ENTRY, &module.to_string_lossy().replace('\\', "/"));
            format!("\n    {link}")
        })
        .collect();
    fs::write(&page, text.replace(PRELOAD, &format!("{PRELOAD}{links}")))
        .with_context(|| format!("cannot write {}", page.display()))
}

/// The modules in the rooms of the site, by their paths from its root, in order. The engine is none.
fn modules(folder: &Path) -> Result<Vec<PathBuf>> {
    let mut found = Vec::new();
    for room in fs::read_dir(folder)? {
        let room = room?;
        if !room.path().is_dir() || room.file_name() == "engine" {
            continue;
        }
        for file in fs::read_dir(room.path())? {
            let file = PathBuf::from(room.file_name()).join(file?.file_name());
            if file.extension().is_some_and(|extension| extension == "js") {
                found.push(file);
            }
        }
    }
    found.sort();
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn without_a_bundler_the_page_names_every_module() -> Result<()> {
        let folder = scratch("preload")?;
        for room in ["kit", "css", "engine"] {
            fs::create_dir(folder.join(room))?;
        }
        for file in ["kit/b.js", "kit/a.js", "css/page.css", "engine/e.js", ENTRY] {
            fs::write(folder.join(file), "")?;
        }
        fs::write(folder.join("index.html"), format!("<head>{PRELOAD}</head>"))?;
        preload_all(&folder)?;
        let page = fs::read_to_string(folder.join("index.html"))?;
        let expected = ["element.js", "kit/a.js", "kit/b.js"]
            .map(|module| format!("<link rel=\"modulepreload\" href=\"{module}\">"))
            .join("\n    ");
        assert_eq!(page, format!("<head>{expected}</head>"));
        Ok(())
    }

    #[test]
    fn the_page_has_the_line_that_is_looked_for() -> Result<()> {
        let page = fs::read_to_string(paths::root().join("www").join("index.html"))?;
        assert!(page.contains(PRELOAD));
        Ok(())
    }
}
