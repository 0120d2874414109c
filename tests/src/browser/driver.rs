//! The WebDriver server of the browser, as a child process.

use std::io::{BufRead, BufReader};
use std::net::{Ipv4Addr, TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};

/// A running server; it is stopped when this is dropped, also when a test panics.
pub(super) struct Driver {
    process: Child,
    port: u16,
    /// Kept open: a server that cannot write its messages may end.
    _output: Option<BufReader<ChildStdout>>,
    /// A screen that nobody sees, for a browser that wants one.
    screen: Option<Child>,
}

/// How often a server that ends at once is started.
const TRIES: usize = 3;

/// How long a server may take until it answers.
const PATIENCE: Duration = Duration::from_secs(30);
const LOOK_AGAIN: Duration = Duration::from_millis(50);

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
                _output: Some(output),
                screen: None,
            }),
            Err(error) => {
                stop(&mut process);
                Err(error.context(format!("{} did not start", program.display())))
            }
        }
    }

    /// Starts a server that does not say which port it has chosen, on one that is free.
    pub(super) fn start_unseen(
        program: &Path,
        arguments: &[&str],
        wants_screen: bool,
    ) -> Result<Self> {
        let port = TcpListener::bind((Ipv4Addr::LOCALHOST, 0))?
            .local_addr()?
            .port();
        let mut command = Command::new(program);
        command.arg(format!("--port={port}")).args(arguments);
        let mut screen = None;
        if wants_screen {
            let (display, process) = start_screen()?;
            command
                .env("DISPLAY", display)
                .env_remove("WAYLAND_DISPLAY");
            screen = Some(process);
        }
        let process = command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| format!("cannot start {}", program.display()))?;
        let driver = Self {
            process,
            port,
            _output: None,
            screen,
        };
        let start = Instant::now();
        while TcpStream::connect((Ipv4Addr::LOCALHOST, port)).is_err() {
            ensure!(
                start.elapsed() < PATIENCE,
                "{} does not answer",
                program.display()
            );
            thread::sleep(LOOK_AGAIN);
        }
        Ok(driver)
    }

    pub(super) fn address(&self) -> String {
        format!("http://127.0.0.1:{}", self.port)
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        stop(&mut self.process);
        if let Some(screen) = &mut self.screen {
            stop(screen);
        }
    }
}

/// A screen in memory, and the name that programs know it by.
fn start_screen() -> Result<(String, Child)> {
    let mut process = Command::new("Xvfb")
        .args([
            "-displayfd",
            "1",
            "-screen",
            "0",
            "1400x1000x24",
            "-nolisten",
            "tcp",
        ])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .context("cannot start Xvfb")?;
    let mut number = String::new();
    if let Some(output) = process.stdout.take() {
        // It waits for nobody to read on: all it ever says is this.
        BufReader::new(output).read_line(&mut number)?;
    }
    let number = number.trim();
    if number.is_empty() {
        stop(&mut process);
        bail!("Xvfb did not start");
    }
    Ok((format!(":{number}"), process))
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
