//! `cargo xtask test`: everything that must hold before a change is accepted.

use std::num::NonZero;
use std::{env, thread};

use anyhow::Result;

use crate::browser::Browser;
use crate::dist::Modules;
use crate::node::Node;
use crate::oracle::Oracle;
use crate::other_engines::Engine;
use crate::steps::Steps;
use crate::wasm_toolchain::WasmToolchain;
use crate::{dist, engine, other_engines, page_types, paths, process, test_environment};

const QUICK: &str = "as --quick was given; so are the tests that need it";

/// What a test program reads how many of its tests it may run at once.
const THREADS: &str = "RUST_TEST_THREADS";

/// The number of steps below, for the headings.
const STEPS: usize = 14;

/// Runs all steps and stops at the first that fails; `quick` leaves out browser and oracle.
///
/// # Errors
/// The failing step's own.
pub fn run(quick: bool) -> Result<()> {
    let mut steps = Steps::new(STEPS);
    let toolchain = steps.run("Set-up: the wasm32 target", WasmToolchain::set_up)?;
    let browser = optional(&mut steps, quick, "Set-up: the browser", Browser::set_up)?;
    let mut other = |name: &str, set_up: fn() -> Result<Engine>| {
        if quick {
            steps.skip(name, QUICK);
            return None;
        }
        steps.attempt(name, set_up)
    };
    let firefox = other("Set-up: Firefox", other_engines::firefox);
    let webkit = other("Set-up: WebKit", other_engines::webkit);
    let oracle = optional(&mut steps, quick, "Set-up: the oracle", Oracle::set_up)?;
    let node = optional(&mut steps, quick, "Set-up: Node.js", Node::set_up)?;

    steps.run("Formatting", || {
        process::run(process::cargo().args(["fmt", "--check"]))
    })?;
    steps.run("Lints", || {
        let arguments = [
            "clippy",
            "--workspace",
            "--all-targets",
            "--",
            "-D",
            "warnings",
        ];
        process::run(process::cargo().args(arguments))
    })?;
    steps.run("Documentation", || {
        let arguments = ["doc", "--workspace", "--no-deps"];
        process::run(
            process::cargo()
                .args(arguments)
                .env("RUSTDOCFLAGS", "-D warnings"),
        )
    })?;
    steps.run("The site", || {
        let weights = dist::build(&toolchain, &paths::site(), Modules::One)?;
        weights.print();
        weights.check()
    })?;
    match &node {
        Some(node) => steps.run("Types of the page", || {
            page_types::check(node, &paths::site())
        })?,
        None => steps.skip("Types of the page", QUICK),
    }
    steps.run("Lints for wasm32", || {
        toolchain.lint(&[
            "levertrain-core",
            engine::FIRST.package,
            engine::WHOLE.package,
            engine::PACKER.package,
            engine::SEARCH.package,
        ])
    })?;
    match &oracle {
        Some(oracle) => steps.run("The oracle's cases", || oracle.generate())?,
        None => steps.skip("The oracle's cases", QUICK),
    }
    // The test programs' own summaries are the last lines, so nothing is printed after them.
    steps.run_quietly("Tests", || {
        let mut tests = process::cargo();
        tests.args(["test", "--workspace"]);
        let others = [firefox.as_ref(), webkit.as_ref()];
        // A test in a browser waits for its frames much of its time, in which another one can go on.
        if env::var_os(THREADS).is_none() {
            let cores = thread::available_parallelism().map_or(1, NonZero::get);
            tests.env(THREADS, (cores + cores.div_ceil(2)).to_string());
        }
        test_environment::apply(&mut tests, browser.as_ref(), others, oracle.as_ref());
        process::run(&mut tests)
    })
}

fn optional<T>(
    steps: &mut Steps,
    quick: bool,
    name: &str,
    step: impl FnOnce() -> Result<T>,
) -> Result<Option<T>> {
    if quick {
        steps.skip(name, QUICK);
        return Ok(None);
    }
    steps.run(name, step).map(Some)
}
