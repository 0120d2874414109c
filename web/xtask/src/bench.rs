//! `cargo xtask bench`: the benchmarks, native and in the browser.

use std::ffi::OsString;

use anyhow::Result;

use crate::browser::Browser;
use crate::dist::Modules;
use crate::steps::Steps;
use crate::wasm_toolchain::WasmToolchain;
use crate::{dist, paths, process, test_environment};

/// Builds the site and runs every benchmark; `arguments` go to the benchmark programs.
///
/// # Errors
/// The failing step's own.
pub fn run(arguments: &[OsString]) -> Result<()> {
    let mut steps = Steps::new(4);
    let toolchain = steps.run("Set-up: the wasm32 target", WasmToolchain::set_up)?;
    let browser = steps.run("Set-up: the browser", Browser::set_up)?;
    steps.run("The site", || {
        dist::build(&toolchain, &paths::site(), Modules::One)?.print();
        Ok(())
    })?;
    steps.run_quietly("Benchmarks", || {
        let mut benches = process::cargo();
        // Only the benchmark programs: the others would be compiled again, and know no arguments.
        benches
            .args(["bench", "--workspace", "--bench", "*", "--"])
            .args(arguments);
        test_environment::apply(&mut benches, Some(&browser), [None, None], None);
        // Figures are those of the browser that people have.
        benches.env_remove(test_environment::HEADLESS_SHELL);
        process::run(&mut benches)
    })
}
