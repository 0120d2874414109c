//! What can be asked of `cargo xtask`, and how it is read from the command line.

use std::ffi::OsString;
use std::path::PathBuf;

use anyhow::{Result, bail};
use lexopt::Arg::{Long, Short, Value};
use lexopt::ValueExt;

/// Shown by `cargo xtask`, `cargo xtask help` and after an unknown command.
pub const HELP: &str = "\
Usage: cargo xtask COMMAND

  dist  [--out DIR]           Build the static site into DIR (default: dist)
  serve [--port N] [--open]   Build the site and serve it on 127.0.0.1
                              (default: port 8017, or the next free one)
  test  [--quick]             Set up, lint, build and test everything;
                              --quick leaves out browser, oracle and page types
  bench [-- ARGUMENTS]        Build the site and run the benchmarks;
                              ARGUMENTS go to the benchmark programs
  help                        Show this text

What is missing (the wasm32 target, Chromium and its driver, the Python oracle) is set up on the
way: from rustup, from the system's packages, and in a virtual environment under target/.";

/// One task with its options.
#[derive(Debug, PartialEq, Eq)]
pub enum Task {
    /// Print [`HELP`].
    Help,
    /// Write the static site.
    Dist {
        /// Where to; the default is `dist` in the repository.
        out: Option<PathBuf>,
    },
    /// Build the site and serve it on this machine.
    Serve {
        /// A port the user insists on.
        port: Option<u16>,
        /// Open the page in the user's browser.
        open: bool,
    },
    /// Lint, build and test everything.
    Test {
        /// Leave out the browser and the oracle.
        quick: bool,
    },
    /// Run the benchmarks.
    Bench {
        /// Passed on to the benchmark programs.
        arguments: Vec<OsString>,
    },
}

/// Prints [`HELP`].
pub fn print_help() {
    println!("{HELP}");
}

/// Reads the arguments that follow `cargo xtask`.
///
/// # Errors
/// An unknown command, option or value; the message names it and says what is possible.
pub fn parse(arguments: impl IntoIterator<Item = OsString>) -> Result<Task> {
    let mut parser = lexopt::Parser::from_args(arguments);
    let task = match parser.next()? {
        None | Some(Long("help") | Short('h')) => Task::Help,
        Some(Value(command)) => match command.to_str() {
            Some("help") => Task::Help,
            Some("dist") => dist(&mut parser)?,
            Some("serve") => serve(&mut parser)?,
            Some("test") => test(&mut parser)?,
            Some("bench") => bench(&mut parser)?,
            _ => bail!("unknown command {command:?}\n\n{HELP}"),
        },
        Some(other) => return Err(unexpected(other, "xtask")),
    };
    Ok(task)
}

fn dist(parser: &mut lexopt::Parser) -> Result<Task> {
    let mut out = None;
    while let Some(argument) = parser.next()? {
        match argument {
            Long("out") => out = Some(PathBuf::from(parser.value()?)),
            Long("help") | Short('h') => return Ok(Task::Help),
            other => return Err(unexpected(other, "dist")),
        }
    }
    Ok(Task::Dist { out })
}

fn serve(parser: &mut lexopt::Parser) -> Result<Task> {
    let (mut port, mut open) = (None, false);
    while let Some(argument) = parser.next()? {
        match argument {
            Long("port") => port = Some(parser.value()?.parse()?),
            Long("open") => open = true,
            Long("help") | Short('h') => return Ok(Task::Help),
            other => return Err(unexpected(other, "serve")),
        }
    }
    Ok(Task::Serve { port, open })
}

fn test(parser: &mut lexopt::Parser) -> Result<Task> {
    let mut quick = false;
    while let Some(argument) = parser.next()? {
        match argument {
            Long("quick") => quick = true,
            Long("help") | Short('h') => return Ok(Task::Help),
            other => return Err(unexpected(other, "test")),
        }
    }
    Ok(Task::Test { quick })
}

/// Everything after `bench` is the benchmark programs' business, with or without a `--`.
fn bench(parser: &mut lexopt::Parser) -> Result<Task> {
    let mut arguments: Vec<OsString> = parser.raw_args()?.collect();
    match arguments.first().and_then(|first| first.to_str()) {
        Some("--help" | "-h") => return Ok(Task::Help),
        Some("--") => drop(arguments.remove(0)),
        _ => {}
    }
    Ok(Task::Bench { arguments })
}

fn unexpected(argument: lexopt::Arg<'_>, command: &str) -> anyhow::Error {
    anyhow::anyhow!("{command}: {}\n\n{HELP}", argument.unexpected())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(line: &str) -> Result<Task> {
        parse(line.split_whitespace().map(OsString::from))
    }

    #[test]
    fn reads_each_command() {
        let rows = [
            ("", Task::Help),
            ("help", Task::Help),
            ("--help", Task::Help),
            ("serve --help", Task::Help),
            ("bench -h", Task::Help),
            ("dist", Task::Dist { out: None }),
            (
                "dist --out a/b",
                Task::Dist {
                    out: Some("a/b".into()),
                },
            ),
            (
                "dist --out=a/b",
                Task::Dist {
                    out: Some("a/b".into()),
                },
            ),
            (
                "serve",
                Task::Serve {
                    port: None,
                    open: false,
                },
            ),
            (
                "serve --open --port 9000",
                Task::Serve {
                    port: Some(9000),
                    open: true,
                },
            ),
            ("test", Task::Test { quick: false }),
            ("test --quick", Task::Test { quick: true }),
            ("bench", Task::Bench { arguments: vec![] }),
            (
                "bench -- --noplot",
                Task::Bench {
                    arguments: vec!["--noplot".into()],
                },
            ),
            (
                "bench six",
                Task::Bench {
                    arguments: vec!["six".into()],
                },
            ),
        ];
        for (line, expected) in rows {
            match read(line) {
                Ok(task) => assert_eq!(task, expected, "{line}"),
                Err(error) => panic!("{line}: {error}"),
            }
        }
    }

    #[test]
    fn refuses_what_it_does_not_know_and_names_it() {
        let rows = [
            ("build", "build"),
            ("--fast", "--fast"),
            ("dist here", "here"),
            ("dist --out", "--out"),
            ("serve --port eighty", "eighty"),
            ("serve --port 70000", "70000"),
            ("test --quick=yes", "--quick"),
            ("test --slow", "--slow"),
        ];
        for (line, named) in rows {
            match read(line) {
                Ok(task) => panic!("{line} was taken as {task:?}"),
                Err(error) => assert!(error.to_string().contains(named), "{line}: {error}"),
            }
        }
    }
}
