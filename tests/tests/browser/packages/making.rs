//! Making a package as an instructor does, and unpacking it as a course system does.

use std::collections::BTreeMap;
use std::fs;
use std::io::{Cursor, Read};
use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicUsize, Ordering};

use anyhow::{Context, Result, ensure};
use levertrain_tests::browser::Page;
use serde_json::{Value, json};
use zip::ZipArchive;

/// The train that the lesson is about.
pub const STEM: &str = "01-one-set";

/// Two ranges to walk through, and three questions.
pub fn sheet() -> Value {
    json!({"format": 1, "title": "Rings & suns <1>", "walk": ["sun-carrier", "direct"], "tasks": [
        {"task": "direction", "range": "ring-sun", "shaft": "c"},
        {"task": "members", "range": "sun-ring", "set": "p1", "part": "held"},
        {"task": "speed", "range": "ring-sun", "shaft": "out"},
    ]})
}

/// The files of an archive by their names.
pub type Files = BTreeMap<String, Vec<u8>>;

/// Opens the sheet on a page that shows its train.
pub fn open_sheet(page: &Page, sheet: &Value) -> Result<()> {
    page.unfold("exercises")?;
    page.until(
        "sheets can be opened",
        "probe.one('[data-part=exercise-open]')",
    )?;
    page.run(
        "const files = new DataTransfer(); files.items.add(new File([args], 'sheet.json')); \
         const field = probe.one('.exercises input[type=file]'); field.files = files.files; field.dispatchEvent(new Event('change'))",
        json!(sheet.to_string()),
    )?;
    page.until("it is begun", "!probe.one('.exercise-round').hidden")?;
    page.run(
        "probe.one('[data-part=exercise-stop]').click()",
        Value::Null,
    )
}

/// Makes a package of the sheet that was opened last, and gives its bytes.
pub fn make(page: &Page, form: &str, pass: &str) -> Result<Vec<u8>> {
    page.run(
        "globalThis.made = []; URL.createObjectURL = (blob) => { made.push(blob); return '#'; }; \
         probe.one('[data-part=package]').open = true; probe.one('#package-form').value = args.form; \
         probe.one('#package-pass').value = args.pass; probe.one('[data-part=package-save]').click()",
        json!({ "form": form, "pass": pass }),
    )?;
    page.until("it is made", "made.length === 1")?;
    let bytes: Vec<u8> = page.get(
        "made[0].arrayBuffer().then((bytes) => [...new Uint8Array(bytes)])",
        Value::Null,
    )?;
    ensure!(bytes.len() > 500_000, "{} bytes", bytes.len());
    Ok(bytes)
}

/// What is in an archive.
pub fn unpack(archive: &[u8]) -> Result<Files> {
    let mut archive = ZipArchive::new(Cursor::new(archive))?;
    let mut files = Files::new();
    for at in 0..archive.len() {
        let mut file = archive.by_index(at)?;
        let mut content = Vec::new();
        file.read_to_end(&mut content)?;
        let name = file.name()?.into_owned();
        ensure!(
            files.insert(name.clone(), content).is_none(),
            "{name} twice"
        );
    }
    Ok(files)
}

/// How many folders were laid out.
static LAID_OUT: AtomicUsize = AtomicUsize::new(0);

/// Puts the files of a package into an empty folder, with others beside them.
pub fn lay_out(name: &str, files: &Files, beside: &[(&str, &str)]) -> Result<PathBuf> {
    // Tests run beside each other, and some lay out a folder of one name.
    let number = LAID_OUT.fetch_add(1, Ordering::Relaxed);
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("{name}-{number}"));
    if folder.exists() {
        fs::remove_dir_all(&folder)?;
    }
    for (name, content) in files {
        let file = folder.join("lesson").join(name);
        fs::create_dir_all(file.parent().context("a folder")?)?;
        fs::write(file, content)?;
    }
    for (name, text) in beside {
        fs::write(folder.join(name), text)?;
    }
    Ok(folder)
}
