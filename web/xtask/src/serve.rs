//! `cargo xtask serve`: build the site and show it on this machine.

use std::io::ErrorKind;
use std::net::{Ipv4Addr, TcpListener};
use std::process::Stdio;

use anyhow::{Context, Result, bail};

use crate::dist::Modules;
use crate::wasm_toolchain::WasmToolchain;
use crate::{dist, paths, process, site};

/// The port that is tried first, so that links into the local site stay the same.
const DEFAULT_PORT: u16 = 8017;

/// How many ports after a busy one are tried.
const PORTS_TRIED: u16 = 50;

/// Builds the site and serves it until stopped; `open` also opens it in the user's browser.
///
/// # Errors
/// The site cannot be built, or the port the user insists on is busy.
pub fn run(port: Option<u16>, open: bool) -> Result<()> {
    // Before the build, so that a busy port is not found out minutes later.
    let listener = match port {
        Some(port) => bind(port)
            .with_context(|| format!("port {port} cannot be used: give another --port, or none"))?,
        None => first_free(DEFAULT_PORT)?,
    };
    dist::build(&WasmToolchain::set_up()?, &paths::site(), Modules::Separate)?.print();
    let site = site::start_on(listener, &paths::site(), "")?;
    println!("Levertrain is at {} (Ctrl+C stops it)", site.address());
    if open && let Err(error) = open_browser(site.address()) {
        println!("The browser could not be opened ({error:#}): open the address yourself.");
    }
    site.wait();
    Ok(())
}

fn bind(port: u16) -> std::io::Result<TcpListener> {
    TcpListener::bind((Ipv4Addr::LOCALHOST, port))
}

fn first_free(from: u16) -> Result<TcpListener> {
    let last = from.saturating_add(PORTS_TRIED);
    for port in from..=last {
        match bind(port) {
            Err(error) if error.kind() == ErrorKind::AddrInUse => {}
            other => return other.with_context(|| format!("port {port} cannot be used")),
        }
    }
    bail!("all ports from {from} to {last} are busy: give one with --port")
}

/// Each system has its own program that opens an address with whatever the user prefers.
fn open_browser(address: &str) -> Result<()> {
    let words: &[&str] = if cfg!(target_os = "macos") {
        &["open"]
    } else if cfg!(windows) {
        // The empty word is the window's title, which `start` takes first.
        &["cmd", "/C", "start", ""]
    } else {
        &["xdg-open"]
    };
    // Not waited for: it may last as long as the browser does.
    process::foreign(words[0])
        .args(&words[1..])
        .arg(address)
        .stdin(Stdio::null())
        .spawn()
        .with_context(|| format!("`{}` cannot be started", words[0]))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_busy_port_is_passed_over() -> Result<()> {
        let busy = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?;
        let port = busy.local_addr()?.port();
        let found = first_free(port)?.local_addr()?.port();
        assert!(found > port, "{found} after {port}");
        assert!(bind(port).is_err());
        Ok(())
    }
}
