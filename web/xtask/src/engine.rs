//! The engine: the `levertrain-web` crate compiled for the browser, with its JavaScript side.

use std::path::Path;

use anyhow::{Context, Result};
use wasm_bindgen_cli_support::Bindgen;

use crate::wasm_toolchain::WasmToolchain;
use crate::{paths, pins, process};

/// The crate that is compiled.
pub const PACKAGE: &str = "levertrain-web";

/// The file names start with this: `levertrain.js`, `levertrain.d.ts`, `levertrain_bg.wasm`.
pub const NAME: &str = "levertrain";

/// Compiles the engine and writes its files into `folder`.
///
/// # Errors
/// The wasm-bindgen versions differ, the crate does not compile, or it cannot be post-processed.
pub fn build(toolchain: &WasmToolchain, folder: &Path) -> Result<()> {
    pins::check(paths::root())?;
    process::run(
        toolchain
            .cargo("build")
            .args(["--release", "--package", PACKAGE]),
    )?;
    println!("    writing the JavaScript side of the engine");
    post_process(&toolchain.released("levertrain_web.wasm"), folder)
}

/// Writes an ES module that finds its .wasm beside itself, so the site works under any address.
fn post_process(compiled: &Path, folder: &Path) -> Result<()> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(compiled)
        .out_name(NAME)
        .web(true)?
        .typescript(true)
        // Function names and tool versions serve only debugging, and are a large part of the file.
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(folder)
        .with_context(|| format!("cannot post-process {}", compiled.display()))
}
