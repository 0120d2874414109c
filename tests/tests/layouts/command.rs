//! The command: a search in shards, merged in any order, gives byte for byte the answer of one; bad input is told in a line.

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};

use anyhow::{Context, Result, ensure};
use serde_json::json;

fn layouts(arguments: &[&str]) -> Result<Output> {
    let program = env!("CARGO_BIN_EXE_layouts");
    let output = Command::new(program).args(arguments).output();
    output.context("cannot be run")
}

fn folder() -> Result<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("layouts");
    fs::create_dir_all(&folder)?;
    Ok(folder)
}

fn written(name: &str, text: &str) -> Result<String> {
    let file = folder()?.join(name);
    fs::write(&file, text)?;
    Ok(file.to_string_lossy().into_owned())
}

#[test]
fn shards_merged_in_any_order_are_the_whole() -> Result<()> {
    let layouts_asked = json!({
        "sets": ["planetary", "planetary"],
        "applied": 1,
        "elements": 3,
        "forward": [{"ratio": 2.5, "tolerance": 0.1}, {"ratio": 1}],
        "backward": {"ratio": -2.2, "tolerance": 0.1},
        "teeth": [20, 68],
    });
    let task = json!({"format": 1, "layouts": layouts_asked}).to_string();
    let task = written("task.json", &task)?;
    let whole = layouts(&[&task])?;
    ensure!(whole.status.success(), "{whole:?}");
    let found = String::from_utf8(whole.stdout.clone())?.lines().count();
    ensure!(found > 20, "{found} layouts");
    let mut files = Vec::new();
    for which in 1..=3 {
        let file = folder()?.join(format!("{which}.jsonl"));
        let file = file.to_string_lossy().into_owned();
        let done = layouts(&[&task, "--shard", &format!("{which}/3"), "--out", &file])?;
        ensure!(done.status.success(), "{done:?}");
        let lines = fs::read_to_string(&file)?.lines().count();
        ensure!(lines < found, "shard {which} has all");
        files.push(file);
    }
    let told = String::from_utf8(whole.stderr.clone())?;
    let frames = told
        .split(" of them")
        .next()
        .context("how many frames")?
        .to_owned();
    for order in [vec![0, 1, 2], vec![2, 1, 0], vec![1, 1, 2, 0, 2]] {
        let list: Vec<&str> = order.iter().map(|&at: &usize| files[at].as_str()).collect();
        let merged = layouts(&["--merge", &list.join(",")])?;
        ensure!(merged.status.success(), "{merged:?}");
        ensure!(
            merged.stdout == whole.stdout,
            "merged in the order {order:?}"
        );
        let told = String::from_utf8(merged.stderr)?;
        ensure!(told.starts_with(&frames), "{told}, not {frames}");
    }
    // All other ways to be no whole are those of a search for teeth.
    let (mark, rest) = fs::read_to_string(&files[0])
        .map(|text| {
            text.split_once('\n')
                .map(|(mark, rest)| (mark.to_owned(), rest.to_owned()))
        })?
        .context("a mark")?;
    let older = mark.replacen("\"format\":1", "\"format\":0", 1);
    ensure!(older != mark, "it says its format");
    let older = written("older.jsonl", &format!("{older}\n{rest}"))?;
    let unmarked = written("unmarked.jsonl", &rest)?;
    for (list, expected) in [
        (files[..2].join(","), "shards are missing: 3/3"),
        (
            format!("{},{older}", files[1]),
            "older.jsonl: format: another version",
        ),
        (
            unmarked,
            "unmarked.jsonl: file: the first line does not say",
        ),
    ] {
        let merged = layouts(&["--merge", &list])?;
        let told = String::from_utf8(merged.stderr)?;
        ensure!(
            merged.status.code() == Some(2) && told.contains(expected),
            "{told}"
        );
    }
    Ok(())
}

#[test]
fn bad_input_is_told_in_a_line() -> Result<()> {
    let no_format = written("no-format.json", r#"{"layouts": {"sets": []}}"#)?;
    let mark = r#"{"format":1,"task":"","shard":[1,1],"counts":[],"full":false}"#;
    let other = written("other.jsonl", &format!("{mark}\n{{}}\n"))?;
    let rows: [(&[&str], &str); 7] = [
        (&[], "name a task file, or files to merge"),
        (&["--merge"], "--merge needs a value"),
        (&["--shard", "3/2", "x.json"], "3/2 is no shard"),
        (&["--save-every", "x", "x.json"], "no time between saves"),
        (&[&no_format], "format"),
        (&["nowhere.json"], "nowhere.json"),
        (&["--merge", &other], "line 2: no find"),
    ];
    for (arguments, expected) in rows {
        let output = layouts(arguments)?;
        let told = String::from_utf8(output.stderr)?;
        ensure!(output.status.code() == Some(2), "{arguments:?}: {told}");
        ensure!(told.contains(expected), "{arguments:?}: {told}");
        ensure!(told.lines().count() == 1, "{arguments:?}: {told}");
    }
    Ok(())
}

/// Two plain sets with five elements for loose ratios: some seconds.
fn wide_task() -> Result<String> {
    let ask = json!({
        "sets": ["planetary", "planetary"],
        "applied": 2,
        "elements": 5,
        "forward": [{"ratio": 2.8, "tolerance": 0.06}, {"ratio": 1.6, "tolerance": 0.06}, {"ratio": 1}],
        "backward": {"ratio": -2.4, "tolerance": 0.06},
    });
    written(
        "wide.json",
        &json!({"format": 1, "layouts": ask}).to_string(),
    )
}

/// Catches a search that begins anew, or ends otherwise, after it was killed.
#[test]
fn what_was_killed_goes_on_where_it_stood() -> Result<()> {
    let task = wide_task()?;
    let place = |name: &str| -> Result<String> {
        let file = folder()?.join(name);
        // Of an earlier run there may be nothing.
        let _ = fs::remove_file(&file);
        Ok(file.to_string_lossy().into_owned())
    };
    let (out, state) = (place("killed.jsonl")?, place("killed.jsonl.state")?);
    let arguments = [&*task, "--save-every", "0.05", "--out", &out];
    let mut killed = Command::new(env!("CARGO_BIN_EXE_layouts"))
        .args(arguments)
        .stderr(std::process::Stdio::null())
        .spawn()?;
    while fs::metadata(&state).is_err() {
        ensure!(
            killed.try_wait()?.is_none(),
            "it ended before it could be killed"
        );
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    killed.kill()?;
    killed.wait()?;
    ensure!(fs::metadata(&out).is_err(), "half of an answer is there");
    let other = layouts(&[&task, "--shard", "1/2", "--out", &out])?;
    let text = String::from_utf8(other.stderr)?;
    ensure!(
        other.status.code() == Some(2) && text.contains("another search"),
        "{text}"
    );
    let resumed = layouts(&arguments)?;
    let text = String::from_utf8(resumed.stderr.clone())?;
    ensure!(
        resumed.status.success() && text.contains("going on at"),
        "{text}"
    );
    ensure!(
        fs::metadata(&state).is_err(),
        "nothing is left to go on with"
    );
    ensure!(
        fs::read(&out)? == layouts(&[&task])?.stdout,
        "another answer"
    );
    Ok(())
}

/// Catches an estimate that comes after the work.
#[test]
fn an_estimate_is_told_and_nothing_else_done() -> Result<()> {
    let output = layouts(&[&wide_task()?, "--estimate", "--shard", "1/2"])?;
    let text = String::from_utf8(output.stderr)?;
    ensure!(
        output.status.success() && output.stdout.is_empty(),
        "{text}"
    );
    ensure!(
        text.lines().count() == 1 && text.contains("this one of 2 shards"),
        "{text}"
    );
    Ok(())
}
