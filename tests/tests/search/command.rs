//! The command: a search in shards, merged in any order, gives byte for byte the answer of one.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use anyhow::{Context, Result, ensure};
use levertrain_tests::files::scenario_folder;
use serde_json::{Value, json};

pub fn folder(name: &str) -> Result<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR"))
        .join("search")
        .join(name);
    fs::create_dir_all(&folder)?;
    Ok(folder)
}

pub fn search(arguments: &[&str]) -> Result<Output> {
    let program = env!("CARGO_BIN_EXE_search");
    Command::new(program)
        .args(arguments)
        .output()
        .context("cannot be run")
}

fn task(folder: &Path) -> Result<String> {
    written(folder, "task.json", 0.04, [20, 80])
}

/// One that takes some seconds.
pub fn wide_task(folder: &Path) -> Result<String> {
    written(folder, "wide.json", 0.12, [18, 100])
}

fn written(folder: &Path, name: &str, tolerance: f64, teeth: [u32; 2]) -> Result<String> {
    let path = scenario_folder().join("04-six-speed-three-sets.json");
    let train: Value = serde_json::from_str(&fs::read_to_string(path)?)?;
    let ask = json!({
        "wanted": [
            {"range": "1", "ratio": 2.8, "tolerance": tolerance},
            {"range": "2", "ratio": 1.95, "tolerance": tolerance},
            {"range": "6", "ratio": 0.5, "tolerance": tolerance},
            {"range": "R", "ratio": -3, "tolerance": tolerance},
        ],
        "teeth": teeth,
        "best": ["error", "size", "steps"],
    });
    let file = folder.join(name);
    fs::write(
        &file,
        json!({"format": 1, "train": train, "ask": ask}).to_string(),
    )?;
    Ok(file.to_string_lossy().into_owned())
}

#[test]
fn shards_merged_in_any_order_are_the_whole() -> Result<()> {
    let folder = folder("merge")?;
    let task = task(&folder)?;
    let whole = search(&[&task])?;
    ensure!(whole.status.success(), "{whole:?}");
    let whole_finds = String::from_utf8(whole.stdout.clone())?.lines().count();
    ensure!(whole_finds > 3, "{whole_finds} finds");
    let mut files = Vec::new();
    for which in 1..=5 {
        let file = folder
            .join(format!("{which}.jsonl"))
            .to_string_lossy()
            .into_owned();
        let done = search(&[&task, "--shard", &format!("{which}/5"), "--out", &file])?;
        ensure!(done.status.success(), "{done:?}");
        files.push(file);
    }
    // What has become of all candidates is told as of one search.
    let told = String::from_utf8(whole.stderr.clone())?;
    let all = told
        .lines()
        .last()
        .and_then(|line| line.split_once(" candidates: "));
    let all = format!("{} candidates: ", all.context("what has become of them")?.0);
    let orders = [
        vec![0, 1, 2, 3, 4],
        vec![4, 2, 0, 1, 3],
        vec![1, 1, 3, 0, 2, 4, 3],
    ];
    for order in orders {
        let names: Vec<&str> = order.iter().map(|&at: &usize| files[at].as_str()).collect();
        let merged = search(&[&task, "--merge", &names.join(",")])?;
        ensure!(merged.stdout == whole.stdout, "{order:?}: another answer");
        let told = String::from_utf8(merged.stderr)?;
        ensure!(told.contains(&all), "{told}");
    }
    // Without one of them it would not be the whole: the shards differ in what they find.
    let finds = |file: &str| -> Result<usize> { Ok(fs::read_to_string(file)?.lines().count() - 1) };
    for file in &files {
        ensure!(finds(file)? != whole_finds, "one shard finds all");
    }
    Ok(())
}

/// Catches shards that are merged although they are no whole: candidates would be missed, and nobody would know.
#[test]
fn shards_that_are_no_whole_are_refused() -> Result<()> {
    let folder = folder("no-whole")?;
    let task = task(&folder)?;
    let file = |name: &str| folder.join(name).to_string_lossy().into_owned();
    let shard = |task: &str, shard: &str, name: &str| -> Result<String> {
        let out = file(name);
        let done = search(&[task, "--shard", shard, "--out", &out])?;
        ensure!(done.status.success(), "{done:?}");
        Ok(out)
    };
    let first = shard(&task, "1/2", "1-of-2.jsonl")?;
    let second = shard(&task, "2/2", "2-of-2.jsonl")?;
    let third = shard(&task, "3/3", "3-of-3.jsonl")?;
    let other = written(&folder, "other.json", 0.05, [20, 80])?;
    let other = shard(&other, "2/2", "other.jsonl")?;
    let text = fs::read_to_string(&second)?;
    let changed = |name: &str, text: String| -> Result<String> {
        let file = file(name);
        fs::write(&file, text)?;
        Ok(file)
    };
    let older = changed(
        "older.jsonl",
        text.replacen("\"format\":3", "\"format\":2", 1),
    )?;
    ensure!(fs::read_to_string(&older)? != text, "it says its format");
    let (_, finds) = text.split_once('\n').context("more than a line")?;
    let unmarked = changed("unmarked.jsonl", finds.to_owned())?;
    let nothing = changed("nothing.jsonl", String::new())?;
    let rows = [
        (vec![&first], "shards are missing: 2/2"),
        (vec![&third, &third], "shards are missing: 1/3, 2/3"),
        (vec![&first, &third], "3-of-3.jsonl: file: this is one of 3"),
        (
            vec![&first, &other],
            "other.jsonl: task: this is a shard of another task",
        ),
        (
            vec![&first, &older],
            "older.jsonl: format: another version wrote this, in format 2 and not 3",
        ),
        (
            vec![&first, &unmarked],
            "unmarked.jsonl: file: the first line does not say",
        ),
        (
            vec![&first, &nothing],
            "nothing.jsonl: file: the first line does not say",
        ),
    ];
    for (files, expected) in rows {
        let files: Vec<&str> = files.into_iter().map(String::as_str).collect();
        let output = search(&[&task, "--merge", &files.join(",")])?;
        let told = String::from_utf8(output.stderr)?;
        ensure!(output.status.code() == Some(2), "{expected}: {told}");
        ensure!(told.contains(expected), "{expected}: {told}");
        ensure!(
            told.lines().count() == 1 && output.stdout.is_empty(),
            "{told}"
        );
    }
    Ok(())
}

/// A file of this text, by its name.
fn write_in(folder: &Path, name: &str, text: &str) -> Result<String> {
    let file = folder.join(name);
    fs::write(&file, text)?;
    Ok(file.to_string_lossy().into_owned())
}

/// A file of these lines that says to be the only shard of a task.
fn marked(task: &str, lines: &str) -> Result<String> {
    let done = search(&[task, "--shard", "1/1"])?;
    let text = String::from_utf8(done.stdout)?;
    let mark = text.lines().next().context("a mark")?;
    fs::write(lines, format!("{mark}\n{}", fs::read_to_string(lines)?))?;
    Ok(lines.to_owned())
}

/// Catches files that would keep a merge busy for hours, or take all memory, although no shard writes them.
#[test]
fn what_no_shard_writes_is_not_gone_through() -> Result<()> {
    let folder = folder("no-shard")?;
    let task = task(&folder)?;
    let file = |name: &str, text: &str| write_in(&folder, name, text);
    let find = |end: &str| format!("{{\"sets\": []{end}}}\n");
    let fields: Vec<String> = (0..300).map(|at| format!("\"{at}\": 1")).collect();
    let fields = find(&format!(", \"ratios\": {{{}}}", fields.join(", ")));
    let rows = [
        ("few.jsonl", find("").repeat(10_000), None),
        (
            "many.jsonl",
            find("").repeat(10_001),
            Some("many.jsonl: more than 10000 finds"),
        ),
        (
            "long.jsonl",
            find(&" ".repeat(65_536)),
            Some("long.jsonl, line 2: no find"),
        ),
        (
            "fields.jsonl",
            fields,
            Some("fields.jsonl, line 2: no find"),
        ),
    ];
    for (name, text, refusal) in rows {
        let merged = search(&[&task, "--merge", &marked(&task, &file(name, &text)?)?])?;
        let told = String::from_utf8(merged.stderr)?;
        match refusal {
            None => ensure!(merged.status.success(), "{name}: {told}"),
            Some(refusal) => ensure!(told.contains(refusal), "{name}: {told}"),
        }
    }
    let whole = marked(&task, &file("whole.jsonl", "")?)?;
    let text = fs::read_to_string(&whole)?;
    let of_so_many = text.replacen("\"shard\":[1,1]", "\"shard\":[1,4294967295]", 1);
    ensure!(of_so_many != text, "{text}");
    let merged = search(&[&task, "--merge", &file("shards.jsonl", &of_so_many)?])?;
    let told = String::from_utf8(merged.stderr)?;
    ensure!(told.contains("the first line does not say"), "{told}");
    Ok(())
}

#[test]
fn bad_input_gets_one_line_and_a_status() -> Result<()> {
    let folder = folder("bad")?;
    let task = task(&folder)?;
    let file = |name: &str, text: &str| write_in(&folder, name, text);
    let half = file("half.json", r#"{"format": 1"#)?;
    let other = file("other.json", r#"{"format": 7, "train": {}, "ask": {}}"#)?;
    let empty = file("empty.json", r#"{"format": 1, "train": {}, "ask": {}}"#)?;
    let no_find = file("no-find.jsonl", "{\"sets\": 3}\n")?;
    let out = folder.join("out.jsonl").to_string_lossy().into_owned();
    file("out.jsonl.state", "{}")?;
    let old = folder.join("old.jsonl").to_string_lossy().into_owned();
    file("old.jsonl.state", r#"{"format": 1, "left": []}"#)?;
    let no_find = marked(&task, &no_find)?;
    let rows: [(&[&str], &str); 15] = [
        (&[], "name a task file"),
        (&["nowhere.json"], "nowhere.json"),
        (&[&half], "ends too early"),
        (&[&other], "not a format"),
        (&[&empty], "missing field"),
        (&[&task, "--shard", "0/3"], "no shard"),
        (&[&task, "--shard", "4/3"], "no shard"),
        (&[&task, "--merge", &no_find], "line 2: no find"),
        (
            &[&task, "--out", &old],
            "old.jsonl.state: format: another version",
        ),
        (&[&task, "--out", &old], "in format 1 and not 3"),
        (&[&task, "--threads", "0"], "no number of threads"),
        (&[&task, "--threads", "two"], "no number of threads"),
        (&[&task, "--save-every", "0"], "no time between saves"),
        (&[&task, "--save-every", "NaN"], "no time between saves"),
        (&[&task, "--out", &out], "missing field"),
    ];
    for (arguments, expected) in rows {
        let output = search(arguments)?;
        let text = String::from_utf8(output.stderr)?;
        ensure!(
            output.status.code() == Some(2),
            "{arguments:?}: {:?}",
            output.status
        );
        ensure!(text.contains(expected), "{arguments:?}: {text}");
        ensure!(text.lines().count() == 1, "{arguments:?}: {text}");
    }
    Ok(())
}

/// Catches a search that begins anew, or ends otherwise, after it was killed.
#[test]
fn what_was_killed_goes_on_where_it_stood() -> Result<()> {
    let folder = folder("killed")?;
    let task = wide_task(&folder)?;
    let file = |name: &str| folder.join(name).to_string_lossy().into_owned();
    let (out, state) = (file("out.jsonl"), file("out.jsonl.state"));
    for old in [&out, &state] {
        if Path::new(old).exists() {
            fs::remove_file(old)?;
        }
    }
    let arguments = [
        &*task,
        "--threads",
        "2",
        "--save-every",
        "0.05",
        "--out",
        &out,
    ];
    let mut killed = Command::new(env!("CARGO_BIN_EXE_search"))
        .args(arguments)
        .stderr(std::process::Stdio::null())
        .spawn()?;
    while !Path::new(&state).exists() {
        ensure!(
            killed.try_wait()?.is_none(),
            "it ended before it could be killed"
        );
        std::thread::sleep(std::time::Duration::from_millis(5));
    }
    killed.kill()?;
    killed.wait()?;
    ensure!(!Path::new(&out).exists(), "half of an answer is there");
    // Another task does not go on there.
    let other = search(&[&self::task(&folder)?, "--out", &out])?;
    let text = String::from_utf8(other.stderr)?;
    ensure!(
        other.status.code() == Some(2) && text.contains("another search"),
        "{text}"
    );

    let resumed = search(&arguments)?;
    let text = String::from_utf8(resumed.stderr.clone())?;
    ensure!(resumed.status.success(), "{text}");
    ensure!(text.contains("going on at"), "{text}");
    ensure!(!Path::new(&state).exists(), "nothing is left to go on with");
    let whole = search(&[&task, "--threads", "1"])?;
    ensure!(fs::read(&out)? == whole.stdout, "another answer");
    Ok(())
}

/// Catches a device or a pipe that a file is put in the place of.
#[cfg(unix)]
#[test]
fn a_pipe_is_written_to_and_stays_one() -> Result<()> {
    use std::os::unix::fs::FileTypeExt;
    let folder = folder("pipe")?;
    let task = task(&folder)?;
    let pipe = folder.join("pipe");
    if !pipe.exists() {
        ensure!(Command::new("mkfifo").arg(&pipe).status()?.success());
    }
    let reads = pipe.clone();
    let reader = std::thread::spawn(move || fs::read(reads));
    let written = search(&[&task, "--out", &pipe.to_string_lossy()])?;
    ensure!(written.status.success(), "{written:?}");
    ensure!(
        fs::metadata(&pipe)?.file_type().is_fifo(),
        "it is none any more"
    );
    let read = reader
        .join()
        .map_err(|_| anyhow::anyhow!("it cannot be read"))??;
    ensure!(read == search(&[&task])?.stdout, "another answer");
    Ok(())
}

/// Catches a task that is read for ever: from a device without an end, or a pipe into which nobody writes.
#[cfg(unix)]
#[test]
fn what_has_no_end_is_no_task() -> Result<()> {
    let folder = folder("no-task")?;
    let task = wide_task(&folder)?;
    let pipe = folder.join("pipe");
    if !pipe.exists() {
        ensure!(Command::new("mkfifo").arg(&pipe).status()?.success());
    }
    for file in ["/dev/zero", &*pipe.to_string_lossy()] {
        for arguments in [&[file][..], &[&*task, "--merge", file]] {
            let refused = search(arguments)?;
            let said = String::from_utf8(refused.stderr)?;
            ensure!(refused.status.code() == Some(2), "{arguments:?}: {said}");
            ensure!(said.contains("not a regular file"), "{arguments:?}: {said}");
        }
    }
    Ok(())
}

/// Catches an estimate that comes after the work.
#[test]
fn an_estimate_is_told_and_nothing_else_done() -> Result<()> {
    let folder = folder("estimate")?;
    let output = search(&[&wide_task(&folder)?, "--estimate"])?;
    let text = String::from_utf8(output.stderr)?;
    ensure!(
        output.status.success() && output.stdout.is_empty(),
        "{text}"
    );
    ensure!(
        text.lines().count() == 1 && text.contains("boxes to look at"),
        "{text}"
    );
    Ok(())
}
