//! Starting other programs, and saying plainly which one failed.

use std::ffi::OsStr;
use std::path::PathBuf;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail};

/// How often a program with a time limit is looked at.
const POLL: Duration = Duration::from_millis(50);

/// Where loaders look for libraries, on Linux and macOS.
const LOADER_PATHS: [&str; 2] = ["LD_LIBRARY_PATH", "DYLD_FALLBACK_LIBRARY_PATH"];

/// Runs a program with our own input and output, and fails if it does.
///
/// # Errors
/// The program cannot be started, or ends with anything but success.
pub fn run(command: &mut Command) -> Result<()> {
    let status = command.status().with_context(|| cannot_start(command))?;
    check(command, status)
}

/// As [`run`], but the program is stopped when it takes longer than `limit`.
///
/// # Errors
/// As [`run`], or the limit was passed.
pub fn run_within(command: &mut Command, limit: Duration) -> Result<()> {
    let mut child = command
        .stdin(Stdio::null())
        .spawn()
        .with_context(|| cannot_start(command))?;
    match wait_within(&mut child, limit)? {
        Some(status) => check(command, status),
        None => bail!(
            "`{}` did not finish within {} s",
            describe(command),
            limit.as_secs()
        ),
    }
}

/// What a program prints, without the line end.
///
/// # Errors
/// As [`run`]; the message carries what the program said.
pub fn output(command: &mut Command) -> Result<String> {
    let output = command
        .stdin(Stdio::null())
        .output()
        .with_context(|| cannot_start(command))?;
    if !output.status.success() {
        // Some programs complain on their ordinary output.
        let streams = [&output.stderr, &output.stdout].map(|text| String::from_utf8_lossy(text));
        let said = streams.join("\n");
        bail!(
            "`{}` failed ({}): {}",
            describe(command),
            output.status,
            said.trim()
        );
    }
    Ok(String::from_utf8_lossy(&output.stdout)
        .trim_end()
        .to_owned())
}

/// The full path of a program, if it is on the search path.
pub fn find(name: &str) -> Option<PathBuf> {
    let file = format!("{name}{}", std::env::consts::EXE_SUFFIX);
    let folders = std::env::var_os("PATH")?;
    std::env::split_paths(&folders)
        .map(|folder| folder.join(&file))
        .find(|path| path.is_file())
}

/// The cargo that started us, so that every step uses the same toolchain.
pub fn cargo() -> Command {
    let mut command = Command::new(std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into()));
    command.current_dir(crate::paths::root());
    command
}

/// A program of the system. `cargo run` points the loader at the Rust toolchain's libraries, which
/// other programs must not load in place of their own.
pub fn foreign(program: impl AsRef<OsStr>) -> Command {
    let mut command = Command::new(program);
    for name in LOADER_PATHS {
        command.env_remove(name);
    }
    command
}

/// The command as one would type it.
pub fn describe(command: &Command) -> String {
    let program = PathBuf::from(command.get_program());
    let name = program
        .file_name()
        .unwrap_or(program.as_os_str())
        .to_string_lossy();
    let words = command.get_args().map(|word| word.to_string_lossy());
    std::iter::once(name)
        .chain(words)
        .collect::<Vec<_>>()
        .join(" ")
}

fn cannot_start(command: &Command) -> String {
    format!("cannot start `{}`", describe(command))
}

fn check(command: &Command, status: ExitStatus) -> Result<()> {
    if !status.success() {
        bail!("`{}` failed ({status})", describe(command));
    }
    Ok(())
}

/// The standard library can wait for ever or not at all, so this looks again and again.
fn wait_within(child: &mut Child, limit: Duration) -> Result<Option<ExitStatus>> {
    let started = Instant::now();
    loop {
        if let Some(status) = child.try_wait()? {
            return Ok(Some(status));
        }
        if started.elapsed() >= limit {
            child.kill()?;
            child.wait()?;
            return Ok(None);
        }
        std::thread::sleep(POLL);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_failure_names_the_command() {
        let mut missing = Command::new("no-such-program");
        missing.arg("--flag");
        let message = run(&mut missing).map_err(|error| error.to_string());
        assert_eq!(message, Err("cannot start `no-such-program --flag`".into()));
    }

    #[cfg(unix)]
    #[test]
    fn a_program_that_hangs_is_stopped() {
        let mut hanging = Command::new("sleep");
        hanging.arg("1000");
        let message = run_within(&mut hanging, Duration::ZERO).map_err(|error| error.to_string());
        assert_eq!(
            message,
            Err("`sleep 1000` did not finish within 0 s".into())
        );
    }

    #[cfg(unix)]
    #[test]
    fn output_carries_what_the_program_complained_about() {
        let mut failing = Command::new("sh");
        failing.args(["-c", "echo because >&2; exit 3"]);
        let message = match output(&mut failing) {
            Ok(text) => panic!("a failure gave {text:?}"),
            Err(error) => error.to_string(),
        };
        assert!(
            message.contains("because") && message.contains('3'),
            "{message}"
        );
    }
}
