//! Bad files and bad command lines.

use std::path::Path;

use anyhow::{Context, Result, ensure};

use crate::program::{check_refusal, file, program, run, set, set_file};

#[test]
fn bad_files_end_with_2_and_one_line() -> Result<()> {
    let good = set().to_json().to_string();
    let rows = [
        ("empty", String::new(), "ends too early"),
        ("cut", good[..good.len() / 2].to_owned(), "line 1"),
        ("text", "gears".to_owned(), "not JSON"),
        (
            "zero-teeth",
            good.replace("\"teeth\":80", "\"teeth\":0"),
            "0 teeth",
        ),
        (
            "unknown-shaft",
            good.replace("\"carrier\":\"carrier\"", "\"carrier\":\"nowhere\""),
            "nowhere",
        ),
        (
            "newline-in-name",
            good.replacen("\"name\"", "\"na\\nme\"", 1),
            "unknown field",
        ),
        (
            "newline-in-id",
            good.replacen("\"input\":\"sun\"", "\"input\":\"su\\nn\"", 1),
            "input",
        ),
        (
            "escape-in-kind",
            good.replace("\"planetary\"", "\"\\u001b[31mred\""),
            "kind",
        ),
        ("without-width", format!("\u{200b}{good}"), "\\u{200b}{"),
        ("long", "[".repeat(70_000), "70000 bytes"),
        ("deep", "[".repeat(60_000), "line 1"),
        (
            "long-id",
            good.replacen(
                "\"input\":\"sun\"",
                &format!("\"input\":\"{}\"", "x".repeat(9_000)),
                1,
            ),
            "input",
        ),
    ];
    let mut wrong = Vec::new();
    for (name, text, expected) in rows {
        let path = file(&format!("bad-{name}.json"), &text)?;
        if let Err(error) = check_refusal(&run(&path, &[])?, expected) {
            wrong.push(format!("{name}: {error:#}"));
        }
    }
    ensure!(wrong.is_empty(), "{}", wrong.join("\n"));
    Ok(())
}

#[test]
fn bad_command_lines_end_with_2_and_one_line() -> Result<()> {
    let path = set_file("command-lines.json")?;
    let rows: [(&[&str], &str); 9] = [
        (&["--apply", "B,nobody"], "nobody"),
        (&["--apply"], "--apply needs ids"),
        (&["--torque"], "--torque needs"),
        (&["--torque", "-3"], "--torque needs"),
        (&["--torque", "inf"], "--torque needs"),
        (&["--frobnicate"], "--frobnicate"),
        (&["second-file.json"], "one file"),
        (&["--all", "--apply", "B"], "exclude each other"),
        (&["--apply", "B\nC"], "no element"),
    ];
    for (options, expected) in rows {
        let output = run(&path, options)?;
        check_refusal(&output, expected).with_context(|| format!("{options:?}"))?;
    }
    let missing = Path::new(env!("CARGO_TARGET_TMPDIR")).join("there-is-no-such-file.json");
    check_refusal(&run(&missing, &[])?, "there-is-no-such-file.json")?;
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    check_refusal(&run(folder, &[])?, "directory")?;
    let binary = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bytes.json");
    let encoded: [(&[u8], &str); 5] = [
        (b"\xff\xfe{\0", "UTF-16"),
        (b"\xfe\xff\0{", "UTF-16"),
        (b"\xff\xfe\0\0{\0\0\0", "UTF-32"),
        (b"\0\0\xfe\xff\0\0\0{", "UTF-32"),
        (b"{\xff}", "not UTF-8"),
    ];
    for (bytes, expected) in encoded {
        std::fs::write(&binary, bytes)?;
        check_refusal(&run(&binary, &[])?, expected)?;
    }
    check_refusal(&program().output()?, "usage")
}

/// A name that is no Unicode is a bad input like any other.
#[cfg(unix)]
#[test]
fn an_argument_that_is_no_text_ends_with_2() -> Result<()> {
    use std::os::unix::ffi::OsStrExt as _;
    let name = std::ffi::OsStr::from_bytes(b"bad-\xff.json");
    check_refusal(&program().arg(name).output()?, "bad-")
}

/// Reading a device or a pipe to its end would take for ever.
#[cfg(unix)]
#[test]
fn what_has_no_end_is_refused_at_once() -> Result<()> {
    check_refusal(&run(Path::new("/dev/zero"), &[])?, "not a regular file")?;
    let pipe = Path::new(env!("CARGO_TARGET_TMPDIR")).join("pipe-without-writer");
    let _ = std::fs::remove_file(&pipe);
    let made = std::process::Command::new("mkfifo").arg(&pipe).status()?;
    ensure!(made.success(), "mkfifo: {made}");
    check_refusal(&run(&pipe, &[])?, "not a regular file")?;
    let large = Path::new(env!("CARGO_TARGET_TMPDIR")).join("large.json");
    std::fs::File::create(&large)?.set_len(700_000_000)?;
    check_refusal(&run(&large, &[])?, "700000000 bytes")
}

#[test]
fn help_is_printed_and_ends_with_0() -> Result<()> {
    for flag in ["--help", "-h"] {
        let output = program().arg(flag).output()?;
        let text = String::from_utf8(output.stdout)?;
        ensure!(
            output.status.success() && text.starts_with("usage: chart"),
            "{text}"
        );
    }
    Ok(())
}
