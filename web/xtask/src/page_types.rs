//! Checking the types of the page: what its comments promise, against what it does and against the
//! engine's own declarations.

use std::fs;
use std::path::Path;

use anyhow::{Context, Result};

use crate::node::{Node, Package};
use crate::{editor, engine, paths, process};

const TYPESCRIPT: Package = Package {
    name: "typescript",
    version: "5.9.3",
};

/// The page imports the engine from beside it, where only the build puts it: the two folders are
/// taken as one.
const CONFIGURATION: &str = r#"{
  "compilerOptions": {
    "rootDirs": ["WWW", "."],
    "allowJs": true, "checkJs": true, "noEmit": true, "strict": true,
    "noImplicitOverride": true, "noFallthroughCasesInSwitch": true, "noImplicitReturns": true,
    "target": "es2022", "module": "es2022", "moduleResolution": "bundler",
    "lib": ["esnext", "dom", "dom.iterable"], "types": [],
    "paths": { "@codemirror/*": ["PACKAGES/@codemirror/*"], "@lezer/*": ["PACKAGES/@lezer/*"] }
  },
  "include": ["WWW/**/*.js", "EDITOR/*.js"]
}
"#;

/// Checks every module of `www` against the declarations of the engines of a built `site`, and the editor
/// against what the page wants of it and against its packages.
///
/// # Errors
/// The compiler cannot be had, or finds something: it has then said what and where.
pub fn check(node: &Node, site: &Path) -> Result<()> {
    let compiler = node.package(TYPESCRIPT)?.join("bin").join("tsc");
    let folder = paths::target().join("page-types");
    fs::create_dir_all(folder.join("engine"))
        .with_context(|| format!("cannot create {}", folder.display()))?;
    for engine in engine::ALL {
        let declarations = format!("{}.d.ts", engine.name);
        let from = site.join("engine").join(&declarations);
        fs::copy(&from, folder.join("engine").join(&declarations))
            .with_context(|| format!("cannot copy {}", from.display()))?;
    }
    let mut configuration = CONFIGURATION.to_owned();
    for (name, path) in [
        ("WWW", paths::root().join("www")),
        ("EDITOR", editor::source()),
        ("PACKAGES", editor::packages(node)?),
    ] {
        // JSON takes forward slashes on every system.
        configuration = configuration.replace(name, &path.to_string_lossy().replace('\\', "/"));
    }
    fs::write(folder.join("tsconfig.json"), configuration)?;
    process::run(node.script(&compiler).arg("--project").arg(&folder))
}
