//! The WebDriver server of the browser, as a child process.

use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};

use anyhow::{Context, Result, bail};

/// A running server; it is stopped when this is dropped, also when a test panics.
pub(super) struct Driver {
    process: Child,
    port: u16,
    /// Kept open: a server that cannot write its messages may end.
    _output: BufReader<ChildStdout>,
}

/// How often a server that ends at once is started.
const TRIES: usize = 3;

impl Driver {
    /// Starts the server on a port it chooses itself, so that tests never meet on one. Between its
    /// choice and its use another program can take the port: the server then ends, and is started
    /// again.
    pub(super) fn start(program: &Path) -> Result<Self> {
        let mut started = Self::start_once(program);
        for _ in 1..TRIES {
            if started.is_ok() {
                break;
            }
            started = Self::start_once(program);
        }
        started
    }

    fn start_once(program: &Path) -> Result<Self> {
        let mut process = Command::new(program)
            .arg("--port=0")
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| format!("cannot start {}", program.display()))?;
        let output = process.stdout.take().map(BufReader::new);
        let announced = output.context("no output").and_then(announced_port);
        match announced {
            Ok((port, output)) => Ok(Self {
                process,
                port,
                _output: output,
            }),
            Err(error) => {
                stop(&mut process);
                Err(error.context(format!("{} did not start", program.display())))
            }
        }
    }

    pub(super) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        stop(&mut self.process);
    }
}

fn stop(process: &mut Child) {
    // It fails only when the server has already ended, which is what is wanted.
    let _ = process.kill();
    let _ = process.wait();
}

/// The port in the server's line `… was started successfully on port 40123.`
fn announced_port(mut output: BufReader<ChildStdout>) -> Result<(u16, BufReader<ChildStdout>)> {
    let mut said = String::new();
    let mut line = String::new();
    while output.read_line(&mut line)? > 0 {
        if let Some((_, port)) = line.split_once("started successfully on port ") {
            let port = port.trim().trim_end_matches('.');
            return Ok((port.parse().context("its port is no number")?, output));
        }
        said.push_str(&line);
        line.clear();
    }
    bail!("it ended without naming a port; it said: {said}")
}
