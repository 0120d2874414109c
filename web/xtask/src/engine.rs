//! The engines, and what makes packages: crates compiled for the browser, each with its JavaScript side.

use std::path::Path;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::wasm_toolchain::WasmToolchain;
use crate::{paths, pins, process};

/// A crate that becomes an engine.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Engine {
    /// The crate that is compiled.
    pub package: &'static str,
    /// The file names start with this: `levertrain.js`, `levertrain.d.ts`, `levertrain_bg.wasm`.
    pub name: &'static str,
    /// The most it may weigh after gzip, in bytes.
    pub limit: usize,
}

/// What the page opens with.
pub const FIRST: Engine = Engine {
    package: "levertrain-web",
    name: "levertrain",
    limit: 310_000,
};

/// What panels and workers load.
pub const WHOLE: Engine = Engine {
    package: "levertrain-whole",
    name: "levertrain_whole",
    limit: 846_000,
};

/// What makes packages for course systems, and is loaded for nothing else.
pub const PACKER: Engine = Engine {
    package: "levertrain-packer",
    name: "levertrain_packer",
    limit: 40_000,
};

/// What workers load that look for teeth or layouts.
pub const SEARCH: Engine = Engine {
    package: "levertrain-search",
    name: "levertrain_search",
    limit: 361_000,
};

/// All, in the order in which a page loads them.
pub const ALL: [Engine; 4] = [FIRST, WHOLE, PACKER, SEARCH];

impl Engine {
    /// The name of its compiled file in a site.
    pub fn file(&self) -> String {
        format!("{}_bg.wasm", self.name)
    }

    /// The name of the file that the compiler leaves.
    fn compiled(&self) -> String {
        format!("{}.wasm", self.package.replace('-', "_"))
    }
}

/// Compiles the engines and writes their files into `folder`.
///
/// # Errors
/// The wasm-bindgen versions differ, a crate does not compile, or it cannot be post-processed.
pub fn build(toolchain: &WasmToolchain, folder: &Path) -> Result<()> {
    pins::check(paths::root())?;
    let mut command = toolchain.cargo("build");
    command.arg("--release");
    for engine in ALL {
        command.args(["--package", engine.package]);
    }
    process::run(&mut command)?;
    println!("    writing the JavaScript side of the engines");
    for engine in ALL {
        let compiled = toolchain.released(&engine.compiled());
        post_process(&compiled, engine.name, folder)?;
    }
    Ok(())
}

/// Writes an ES module that finds its .wasm beside itself, so the site works under any address.
fn post_process(compiled: &Path, name: &str, folder: &Path) -> Result<()> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(compiled)
        .out_name(name)
        .web(true)?
        .typescript(true)
        // Function names and tool versions serve only debugging, and are a large part of the file.
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(folder)
        .with_context(|| format!("cannot post-process {}", compiled.display()))
}
