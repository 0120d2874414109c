//! The driver for a cluster: with a worker killed in the middle it gives byte for byte the answer of one process.

use std::fs;
use std::io::{BufRead, BufReader, Read};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use anyhow::{Context, Result, bail, ensure};

use crate::command::{folder, search, wide_task};

/// Names the Python that has the packages of `tests/requirements.txt`.
const PYTHON: &str = "LEVERTRAIN_PYTHON";
const SHARDS: usize = 12;
/// How long processes have to come up: long, as others may be at work here.
const PATIENCE: Duration = Duration::from_secs(120);

/// A process that ends with the test.
struct Ends(Child);

impl Drop for Ends {
    fn drop(&mut self) {
        // One that has ended already cannot be killed.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn python(arguments: &[&str]) -> Result<Command> {
    let python = std::env::var_os(PYTHON)
        .with_context(|| format!("{PYTHON} is not set: run `cargo xtask test`"))?;
    let mut command = Command::new(python);
    command.args(arguments).env("PYTHONDONTWRITEBYTECODE", "1");
    Ok(command)
}

fn worker(scheduler: &str, folder: &Path) -> Result<Ends> {
    let folder = folder.to_string_lossy();
    let arguments = [
        "-m",
        "distributed.cli.dask_worker",
        "--scheduler-file",
        scheduler,
    ];
    let alone = [
        "--nthreads",
        "1",
        "--no-nanny",
        "--no-dashboard",
        "--host",
        "127.0.0.1",
    ];
    let mut command = python(&arguments)?;
    command.args(alone).args(["--local-directory", &*folder]);
    Ok(Ends(command.stderr(Stdio::null()).spawn()?))
}

/// Waits for a file that a process writes.
fn wait_for(file: &Path, process: &mut Ends) -> Result<()> {
    let begin = Instant::now();
    while !file.exists() {
        let ended = process.0.try_wait()?;
        ensure!(ended.is_none(), "the scheduler ended: {ended:?}");
        ensure!(
            begin.elapsed() < PATIENCE,
            "{} does not come",
            file.display()
        );
        sleep(Duration::from_millis(20));
    }
    Ok(())
}

#[test]
fn a_cluster_that_loses_a_worker_gives_the_answer_of_one_process() -> Result<()> {
    let folder = folder("cluster")?;
    let task = wide_task(&folder)?;
    let whole = search(&[&task])?;
    ensure!(whole.status.success(), "{whole:?}");
    let file = |name: &str| folder.join(name);
    let (address, out) = (file("scheduler.json"), file("finds.jsonl"));
    for old in [&address, &out] {
        if old.exists() {
            fs::remove_file(old)?;
        }
    }
    let scheduler_file = address.to_string_lossy().into_owned();
    let arguments = [
        "-m",
        "distributed.cli.dask_scheduler",
        "--scheduler-file",
        &scheduler_file,
    ];
    let alone = ["--host", "127.0.0.1", "--port", "0", "--no-dashboard"];
    let mut scheduler = python(&arguments)?;
    let mut scheduler = Ends(scheduler.args(alone).stderr(Stdio::null()).spawn()?);
    wait_for(&address, &mut scheduler)?;
    let known: serde_json::Value = serde_json::from_str(&fs::read_to_string(&address)?)?;
    let place = known["address"]
        .as_str()
        .context("the scheduler's address")?;
    let mut lost = worker(&scheduler_file, &folder)?;
    let _stays = worker(&scheduler_file, &folder)?;

    let script = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("cluster/search.py");
    let (script, out_name) = (script.to_string_lossy(), out.to_string_lossy());
    let shards = SHARDS.to_string();
    let mut driver = python(&[
        &*script,
        &task,
        "--scheduler",
        place,
        "--program",
        env!("CARGO_BIN_EXE_search"),
        "--out",
        &*out_name,
        "--shards",
        &shards,
    ])?;
    let mut driver = Ends(driver.stderr(Stdio::piped()).spawn()?);
    let news = driver.0.stderr.take().context("what the driver tells")?;
    let mut news = BufReader::new(news);
    let mut line = String::new();
    while !line.starts_with("3 of ") {
        line.clear();
        if news.read_line(&mut line)? == 0 {
            bail!("the driver ended before it could lose a worker");
        }
    }
    lost.0.kill()?;
    let mut rest = String::new();
    news.read_to_string(&mut rest)?;
    ensure!(driver.0.wait()?.success(), "{rest}");
    ensure!(
        rest.contains(&format!("{SHARDS} of {SHARDS} shards")),
        "{rest}"
    );
    ensure!(fs::read(&out)? == whole.stdout, "another answer");
    Ok(())
}
